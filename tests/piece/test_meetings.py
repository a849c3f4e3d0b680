"""Where boards meet: every form, at its limits of 1 and 5.

The scene: a shelf 24 thick along y = 600 from x = 0 to 2000, so its faces lie at 588 and 612, and an upright 24
thick at x = 500. Both are 300 deep.
"""

import math
import random

import pytest

from dryfit.piece.model import DATUM_END, FAR_END, Touch

from .making import built, coded, job_of, meeting_of, met, placed, plank

SHELF = plank("shelf", (0, 600), (2000, 600))


def upright(bottom, top, x=500.0, name="upright", **more):
    return plank(name, (x, bottom), (x, top), **more)


def test_boards_that_run_through_each_other_cross():
    meeting = meeting_of(upright(0, 1200), SHELF)

    assert (meeting.form, meeting.key, meeting.angle) == ("crossing", ("shelf", "upright"), 90.0)
    assert (meeting.a.body, meeting.a.touch, meeting.b.touch) == ("shelf", Touch.THROUGH, Touch.THROUGH)
    assert (meeting.a.at, meeting.a.before, meeting.a.after) == (500.0, 500.0, 1500.0)
    assert (meeting.b.at, meeting.a.turn, meeting.b.turn) == (600.0, 90.0, -90.0)
    assert meeting.frame.origin == (500.0, 600.0, 150.0)
    assert meeting.overlap == (0.0, 300.0)


ENDS = {
    "to the near face, from below": ((0, 588), FAR_END, -1),
    "0.9 short of it": ((0, 587.1), FAR_END, -1),
    "to the centre-line": ((0, 600), FAR_END, -1),
    "to the far face": ((0, 612), FAR_END, -1),
    "0.9 past the far face": ((0, 612.9), FAR_END, -1),
    "to the near face, from above": ((612, 1200), DATUM_END, 1),
    "to the centre-line, from above": ((600, 1200), DATUM_END, 1),
    "drawn down onto it": ((1200, 600), DATUM_END, 1),
    "0.9 past the far face, from above": ((587.1, 1200), DATUM_END, 1),
}


@pytest.mark.parametrize(("span", "end", "face"), ENDS.values(), ids=ENDS)
def test_an_end_within_the_others_thickness_stands_on_the_face_it_comes_from(span, end, face):
    meeting = meeting_of(SHELF, upright(*span))

    assert meeting.form == "end on face"
    assert (meeting.a.body, meeting.a.touch, meeting.a.end) == ("upright", Touch.END, end)
    assert (meeting.b.body, meeting.b.touch, meeting.b.face) == ("shelf", Touch.FACE, face)


@pytest.mark.parametrize("downhill", [1, -1], ids=["leans right", "leans left"])
@pytest.mark.parametrize("backwards", [False, True], ids=["as given", "drawn the other way"])
def test_the_touched_face_is_found_on_a_leaning_board_however_it_is_drawn(downhill, backwards):
    line = ((1000, 0), (1000 + 200 * downhill, 1000))
    raking = plank("raking", *(line[::-1] if backwards else line))
    meeting = meeting_of(raking, plank("shelf", (0, 500), (1000 + 100 * downhill, 500)))

    towards = placed(raking).frame.direct((0.0, float(meeting.b.face), 0.0))
    assert meeting.b.body == "raking"
    assert towards[0] < 0  # the shelf comes from the left


NEAR = {
    "1.1 short": ((0, 586.9), 1.1),
    "4.9 short": ((0, 583.1), 4.9),
    "5.1 short": ((0, 582.9), None),
    "1.1 short, from above": ((613.1, 1200), 1.1),
}


@pytest.mark.parametrize(("span", "short"), NEAR.values(), ids=NEAR)
def test_an_end_1_to_5_short_of_a_face_is_probably_meant_to_reach_it(span, short):
    found = met(SHELF, upright(*span))

    assert found.meetings == ()
    assert [round(finding.found, 6) for finding in found.findings] == ([] if short is None else [short])
    for finding in found.findings:
        assert finding.code == "nearly-reaches"
        assert finding.where.boards == ("upright", "shelf")
        assert f"lengthen upright by {short}" in str(finding.remedy)


@pytest.mark.parametrize(
    ("top", "past"),
    [(613.1, 1.1), (616.9, 4.9), (617.1, None)],
    ids=["1.1 past", "4.9 past", "5.1 past"],
)
def test_an_end_1_to_5_past_the_far_face_crosses_and_is_probably_meant_to_stop(top, past):
    piece = built(job_of(SHELF, upright(0, top)))

    assert [meeting.form for meeting in piece.meetings] == ["crossing"]
    found = coded(piece.findings, "runs-past")
    assert [round(finding.found, 6) for finding in found] == ([] if past is None else [past])


def test_an_end_beyond_the_end_of_the_other_board_is_no_miss_of_it():
    assert met(SHELF, upright(0, 586, x=2013)).findings == ()


@pytest.mark.parametrize(
    ("back", "forms"),
    [(300.0, []), (299.9, ["crossing"]), (-300.0, []), (-299.9, ["crossing"])],
    ids=["in front, touching", "in front, 0.1 shared", "behind, touching", "behind, 0.1 shared"],
)
def test_boards_meet_only_where_they_share_depth(back, forms):
    assert [meeting.form for meeting in met(SHELF, upright(0, 1200, back=back)).meetings] == forms


@pytest.mark.parametrize("angle", [89.0, 45.0, 30.0, 15.0, 14.0, 1.0])
@pytest.mark.parametrize("lean", [1, -1], ids=["right", "left"])
def test_the_angle_of_a_crossing_is_between_0_and_90_whatever_the_lean(angle, lean):
    turn = math.radians(angle if lean == 1 else 180 - angle)
    dx, dy = 900 * math.cos(turn), 900 * math.sin(turn)
    meeting = meeting_of(SHELF, plank("z", (1000 - dx, 600 - dy), (1000 + dx, 600 + dy)))

    assert meeting.form == "crossing"
    assert meeting.angle == pytest.approx(angle, abs=1e-9)


CORNERS = {
    "to the point": ((0, 600), (0, 0), "corner"),
    "0.9 apart": ((0, 600), (0, 0.9), "corner"),
    "1.1 apart: the upright's end lies in the shelf": ((0, 600), (0, 1.1), "end on face"),
}


@pytest.mark.parametrize(("foot", "off", "form"), CORNERS.values(), ids=CORNERS)
def test_lines_that_end_together_make_a_corner_with_the_first_of_the_file_first(foot, off, form):
    wall = plank("a wall", (foot[0] + off[0], foot[1] + off[1]), (foot[0], 1200))

    assert meeting_of(SHELF, wall).form == form
    if form == "corner":
        assert [meeting_of(SHELF, wall).a.body, meeting_of(wall, SHELF).a.body] == ["shelf", "a wall"]
        assert meeting_of(SHELF, wall).key == meeting_of(wall, SHELF).key == ("a wall", "shelf")
        assert meeting_of(SHELF, wall).a.touch is meeting_of(SHELF, wall).b.touch is Touch.END


@pytest.mark.parametrize(("low", "side"), [("left face", "right face"), ("right face", "left face")])
def test_a_corner_is_one_of_the_lines_as_drawn_whichever_face_they_are(low, side):
    meeting = meeting_of(plank("floor", (0, 0), (900, 0), line_is=low), plank("side", (0, 0), (0, 700), line_is=side))

    assert meeting.form == "corner"


TEES = {
    "the upright reaches further in": (5, 610, "upright"),
    "the shelf reaches further in": (5, 600, "shelf"),
    "both reach as far: the steeper one ends": (5, 605, "upright"),
}


@pytest.mark.parametrize(("x", "top", "ends"), TEES.values(), ids=TEES)
@pytest.mark.parametrize("order", [1, -1], ids=["shelf first", "upright first"])
def test_two_ends_in_each_other_that_make_no_corner_are_an_end_on_a_face(x, top, ends, order):
    meeting = meeting_of(*(SHELF, upright(0, top, x=x))[::order])

    assert meeting.form == "end on face"
    assert meeting.a.body == ends


@pytest.mark.parametrize("way", [1, -1], ids=["in the same direction", "against each other"])
@pytest.mark.parametrize(
    ("gap", "beside", "forms"),
    [(0, 0, ["in line"]), (0.9, 0.9, ["in line"]), (1.1, 0, []), (0, 1.1, []), (-0.9, 0, ["in line"])],
    ids=["end to end", "0.9 apart and aside", "1.1 apart", "1.1 aside", "0.9 into each other"],
)
def test_boards_end_to_end_are_in_line(gap, beside, forms, way):
    second = ((2000 + gap, 600 + beside), (2500, 600 + beside))
    meetings = met(SHELF, plank("tail", *second[::way])).meetings

    assert [meeting.form for meeting in meetings] == forms
    for meeting in meetings:
        assert (meeting.a.end, meeting.b.end) == (FAR_END, DATUM_END)


@pytest.mark.parametrize("way", [1, -1], ids=["in the same direction", "against each other"])
@pytest.mark.parametrize(
    ("y", "forms"),
    [
        (624, ["touching"]),
        (624.9, ["touching"]),
        (625.1, []),
        (623.1, ["touching"]),
        (620, ["overlap"]),
        (576, ["touching"]),
    ],
    ids=["face on face", "0.9 apart", "1.1 apart", "0.9 in each other", "4 in each other", "from below"],
)
def test_parallel_boards_lie_on_or_in_each_other(y, forms, way):
    meetings = met(SHELF, plank("slip", *((100, y), (700, y))[::way])).meetings

    assert [meeting.form for meeting in meetings] == forms
    for meeting in meetings:
        assert meeting.a.face == (1 if y > 600 else -1)


FLAT = {
    "notched over it": (upright(0, 1200), 0, ["crossed flat"]),
    "a raking board across it": (plank("upright", (400, 0), (700, 1200)), 0, ["crossed flat"]),
    "ends in it": (upright(0, 500), 0, ["overlap"]),
    "laid on in front of it": (upright(0, 1200, back=24), 0, ["touching"]),
    "0.9 in front": (upright(0, 1200, back=24.9), 0, ["touching"]),
    "1.1 in front": (upright(0, 1200, back=25.1), 0, []),
    "stands under it": (upright(0, 455), 0, ["touching"]),
    "1.1 under it": (upright(0, 453.9), 0, []),
    "runs along over its upper edge": (plank("upright", (0, 557), (2000, 557)), 0, ["touching"]),
    "only an edge in common": (upright(0, 455, back=24), 0, []),
}


@pytest.mark.parametrize(("other", "back", "forms"), FLAT.values(), ids=FLAT)
def test_a_board_lying_flat_is_met(other, back, forms):
    rail = plank("rail", (0, 500), (2000, 500), depth=90, lies="flat", back=back)
    meetings = met(rail, other).meetings

    assert [meeting.form for meeting in meetings] == forms
    for meeting in meetings:
        assert (meeting.a.body, meeting.b.body) == ("upright", "rail")


def opposed(meetings):
    return {meeting.a.body for meeting in meetings if meeting.b.opposed}


@pytest.mark.parametrize(
    ("x", "found"),
    [(500, {"lower", "upper"}), (523.9, {"lower", "upper"}), (524.1, set())],
    ids=["at one place", "0.1 shared", "0.1 apart"],
)
def test_ends_on_both_faces_at_one_place_are_opposed(x, found):
    meetings = met(SHELF, upright(0, 600, name="lower"), upright(600, 1200, x=x, name="upper")).meetings

    assert {meeting.form for meeting in meetings} == {"end on face"}
    assert opposed(meetings) == found


def test_ends_on_the_same_face_are_not_opposed():
    assert opposed(met(SHELF, upright(0, 600, name="one"), upright(0, 600, x=510, name="two")).meetings) == set()


def test_every_end_that_faces_another_is_opposed_however_many_stand_there():
    """A wide board below (100 thick, 450 to 550) faces two narrow ones above."""
    wide = upright(0, 600, thickness=100.0, name="wide")
    narrow = [upright(600, 1200, x=x, name=f"narrow {x}") for x in (465, 535)]

    assert opposed(met(SHELF, wide, *narrow).meetings) == {"wide", "narrow 465", "narrow 535"}


def test_two_ends_opposite_each_other_get_a_quarter_of_the_thickness_each_and_one_alone_a_third():
    pair = built(job_of(SHELF, upright(0, 600, name="lower"), upright(600, 1200, name="upper")))
    alone = built(job_of(SHELF, upright(0, 600, name="lower")))

    assert [joint.cuts[0].figures.deep for joint in pair.joints] == [6.0, 6.0]
    assert [joint.cuts[0].figures.deep for joint in alone.joints] == [8.0]
    assert not coded(pair.findings, "thin-web")
    assert not coded(pair.findings, "short-grain")


def test_the_thickness_that_counts_is_the_one_at_the_meeting():
    meeting = meeting_of(
        plank("shelf", (0, 600), (2000, 600), thickness_at=((0.0, 22.0), (2000.0, 26.0))), upright(0, 1200)
    )

    assert (meeting.a.thickness, meeting.a.thickest) == (pytest.approx(23.0), 26.0)


def test_the_order_of_the_file_changes_no_meeting_but_who_comes_first_at_a_corner():
    rng = random.Random(7)
    boards = [plank(f"level {i}", (0, 300 * i), (1500, 300 * i), depth=rng.choice((250, 300))) for i in range(1, 5)]
    boards += [plank(f"raking {i}", (200 * i, 0), (200 * i + 90, rng.choice((610, 1400)))) for i in range(1, 6)]
    first = met(*boards).meetings

    for _ in range(20):
        rng.shuffle(boards)
        assert met(*boards).meetings == first
    assert {meeting.form for meeting in first} == {"crossing", "end on face"}
