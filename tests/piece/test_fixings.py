"""Fixings set out: which board, where along it, over which stud, and what each must be called."""

import pytest

from dryfit.book import read_job_text
from dryfit.errors import JobError
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.fixings import meetings_with_wall
from dryfit.piece.kinds import Kinds
from dryfit.piece.setout import set_out
from dryfit.sentences import Voice
from tests.joints.typed import board, found, job, piece_of, table

WALL = {"kind": "timber studs", "lining": 12.5, "hollow": 5, "hung": True, "studs": [200, 1000]}


def fixing(name="screws", on="shelf", at=(200, 1000), **keys):
    named = {"name": name} if name else {}
    return table("[[fixing]]", **named, board=on, kind="long screw", at=list(at), **keys)


def shelf(*fixings, line=((0, 500), (1200, 500)), **keys):
    return job(table("[wall]", **WALL), board("shelf", [list(p) for p in line], 280, "27", **keys), *fixings)


def meetings(text):
    read = read_job_text(text)
    boards = {spec.name: set_out(spec, read) for spec in read.boards}
    return [meeting for meeting, _ in meetings_with_wall(read, boards, Kinds(KINDS), Keep())]


def test_a_fixing_is_a_meeting_of_its_board_with_the_wall():
    (meeting,) = meetings(shelf(fixing()))
    assert (meeting.key, meeting.form) == (("screws", "wall"), "fixing")
    assert (meeting.a.body, meeting.a.touch, meeting.b.body) == ("shelf", "edge", "wall")
    assert meeting.places == (200.0, 1000.0)
    assert meeting.studs_off == (0.0, 0.0)


@pytest.mark.parametrize("backwards", [False, True], ids=["drawn right", "drawn left"])
def test_places_run_from_the_lines_start_and_studs_are_counted_along_the_wall(backwards):
    """Drawn from the right, 190 from its start is 1010 on the wall: 10 from the stud at 1000."""
    line = ((0, 500), (1200, 500))
    (meeting,) = meetings(shelf(fixing(at=(190,)), line=line[::-1] if backwards else line))
    assert meeting.places == ((1010.0,) if backwards else (190.0,))
    assert meeting.studs_off == (10.0,)


def test_on_a_leaning_board_the_studs_are_measured_level():
    """At 3 in 4 a place 250 along stands 200 to the right."""
    (meeting,) = meetings(shelf(fixing(at=(250,)), line=((0, 0), (800, 600))))
    assert meeting.studs_off == (pytest.approx(0.0),)


def test_the_thinnest_place_counts_on_a_board_that_tapers():
    text = shelf(fixing(at=(0, 600, 1200)), thickness_at=[[0, 26], [1200, 28]])
    (meeting,) = meetings(text)
    assert meeting.a.thickness == pytest.approx(26.0)


@pytest.mark.parametrize(
    ("at", "says"),
    [
        (1230, "place 1 lies 30 beyond the end of shelf"),
        (20, "place 1 lies 20 from the end of shelf"),
    ],
)
def test_a_place_off_the_board_or_nearer_its_end_than_its_thickness_is_a_stop(at, says):
    (finding,) = found(shelf(fixing(at=(at,))), "fixing-off-board")
    assert says in str(finding.says)
    assert (finding.severity, finding.limit, finding.where.fixing) == ("stop", 27.0, "screws")


def test_at_the_thickness_from_the_end_it_is_on_the_board():
    assert not found(shelf(fixing(at=(27, 1173))), "fixing-off-board")


def test_one_fixing_of_a_board_needs_no_name():
    piece = piece_of(shelf(fixing(name=None)))
    assert [made.key for made in piece.joints] == [("fixing of shelf", "wall")]


@pytest.mark.parametrize(("name", "said"), [(None, "fixing of A: "), ("screws", "screws: ")])
def test_a_fixing_without_a_name_of_its_own_is_called_by_what_its_board_is_called(name, said):
    """A screw 6 x 60 has 56.4 under its head: too short for a grip of 100. On paper the shelf is A."""
    (finding,) = found(shelf(fixing(name=name, screw="wood 6x60", grip=100)), "screw-too-short")
    assert finding.says.said(Voice("mm", {"shelf": "A"})).startswith(said)


def test_a_second_fixing_of_the_same_board_must_be_named():
    with pytest.raises(JobError) as refused:
        read_job_text(shelf(fixing(name=None), fixing(name=None, at=(600,))))
    (mistake,) = refused.value.mistakes
    assert "has a fixing" in mistake.says
    assert "give this one a name" in mistake.remedy
    named = shelf(fixing(name=None), fixing(name="more", at=(600,), screw="wood 6x140"))
    assert {made.key[0] for made in piece_of(named).joints} == {"fixing of shelf", "more"}


def test_a_fixing_of_a_board_that_is_not_there_is_a_finding_and_the_rest_is_made():
    text = shelf(fixing(), fixing(name="lost", on="shelv"))
    (finding,) = found(text, "no-such-board")
    assert "shelv" in str(finding.says)
    assert [made.key[0] for made in piece_of(text).joints] == ["screws"]


def test_a_kind_that_fixes_nothing_to_a_wall_is_refused_in_words():
    text = shelf(table("[[fixing]]", name="odd", board="shelf", kind="housing", at=[200]))
    (finding,) = found(text, "joint-unsuited")
    assert "a housing does not suit a fixing" in str(finding.says)
