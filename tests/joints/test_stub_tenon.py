"""A stub tenon in a shelf 24 thick: of a divider 24 thick and 260 deep, a third of it, 8, in a mortise 8 deep.

8 of shoulder beside it and 12 at either edge: the mortise is 8.1 x 236 x 8 = 15292.8 mm3, the tenon, 7 long and 0.05
shorter at either end, 8 x 235.9 x 7 = 13210.4. What is left between them is 2082.4, seen from the solids too.
"""

import math

import pytest

from dryfit.keeping import Keep
from dryfit.piece.facts import Grain
from dryfit.piece.operations import Dial
from dryfit.piece.setout import AsCut
from dryfit.piece.solids import Solids
from tests.joints.going import overlap_when_moved
from tests.joints.typed import board, book_of, cut_of, found, job, joint_of, kind_of, piece_of, stops, table
from tests.property.measuring import box_about, missing

SHELF = board("shelf", [[0, 500], [1000, 500]])
OPPOSITE = board("post", [[500, 100], [500, 500]], 260)


def divided(off=0.0, *more, thick="24", **options):
    """A divider on the shelf, so many degrees off plumb."""
    top = [500 + 400 * math.tan(math.radians(off)), 900]
    asked = table("[[joint]]", between=["divider", "shelf"], kind="stub tenon", **options)
    return job(SHELF, board("divider", [[500, 500], top], 260, thick), asked, *more)


def tenon(text):
    return joint_of(text, "divider", "shelf")


def refused(text):
    (finding,) = found(text, "joint-unsuited")
    return finding


def test_the_worked_case_by_hand():
    joint = tenon(divided())
    mortise, end = joint.cuts
    assert (mortise.figures.across, mortise.figures.deep) == (8.1, 8.0)
    assert [(stop.size.total, stop.covered) for stop in mortise.figures.stops] == [(12 + 40, True), (12.0, True)]
    assert (end.figures.across, end.figures.deep, end.figures.stands) == (8.0, 7.0, "shoulder")
    options = joint.options
    assert (options.depth, options.shoulder, options.edge_shoulder, options.clearance) == (8.0, 8.0, 12.0, 0.1)


def test_the_worked_case_from_the_solids():
    """The mortise less the tenon, where two uncut boards would share 24 of the divider's own end: see above."""
    piece = piece_of(divided())
    found_there = missing(piece.parts, Solids(Keep()), box_about((500, 500), 150.0))
    assert found_there == pytest.approx(15292.8 - 13210.4, rel=1e-5)


def test_the_divider_is_as_long_as_between_its_shoulder_and_its_top_and_what_goes_in():
    """From the face at 512 to 900, and 7."""
    assert piece_of(divided()).part_by_name["divider"].length == pytest.approx(900 - 512 + 7)


@pytest.mark.parametrize("off", [0, 20, -20])
def test_it_comes_out_along_its_axis_alone_and_after_its_own_length(off):
    """Tried all round in steps of 15 degrees, and out of the wall."""
    text = divided(off)
    piece, joint = piece_of(text), tenon(text)
    (motion,) = joint.making.motions
    assert (motion.body, motion.direction, motion.free) == ("divider", (0.0, 1.0, 0.0), 7.0)
    for step in range(24):
        way = (math.cos(math.radians(step * 15)), math.sin(math.radians(step * 15)), 0.0)
        over = max(overlap_when_moved(piece, joint, "divider", tuple(d * one for one in way)) for d in (1.0, 6.5))
        assert (over <= 0.5) is (step == 6), step
    for z in (2.0, -2.0):
        assert overlap_when_moved(piece, joint, "divider", (0.0, 0.0, z)) > 0.5


def test_opposite_another_end_it_is_a_quarter_deep():
    both = job(
        SHELF,
        OPPOSITE,
        board("divider", [[500, 500], [500, 900]], 260),
        *(table("[[joint]]", between=[one, "shelf"], kind="stub tenon") for one in ("divider", "post")),
    )
    assert [joint_of(both, one, "shelf").options.depth for one in ("divider", "post")] == [6.0, 6.0]
    assert stops(both) == set()


def test_raked_so_far_that_grain_runs_out_it_is_shallower():
    """40 off square: a tenon of 8 keeps 4 of its grain in 4 / tan 40 = 4.77, in whole halves 4.5."""
    assert tenon(divided(40)).options.depth == 4.5
    assert found(divided(40), "tenon-short-grain") == []


def test_a_tenon_whose_grain_mostly_runs_out_is_warned_of_and_the_cure_keeps_half():
    """30 off square and 8 deep: 8 tan 30 = 4.62 of 8 run out; 4 do at 6.93, printed 6.9."""
    (finding,) = found(divided(30, depth=8), "tenon-short-grain")
    assert (finding.found, finding.limit) == (pytest.approx(8 * math.tan(math.radians(30))), pytest.approx(4.0))
    (cure,) = finding.cures
    assert [edit.value for edit in cure.edits] == [6.9]
    assert found(divided(30, depth=6.9), "tenon-short-grain") == []


@pytest.mark.parametrize(
    ("off", "options", "says", "compared"),
    [
        (0, {"depth": 21}, "a mortise 21 deep would leave less than 4 of shelf", (21.0, 20.0)),
        (0, {"depth": 2}, "the mortise would be 2 deep", (2.0, 3.0)),
        (0, {"shoulder": 11}, "the tenon would be 2 thick between its shoulders", (2.0, 3.0)),
        (0, {"edge_shoulder": 129}, "1.9 would be left of the tenon", (1.9, 3.0)),
        (45, {"depth": 10}, "a tenon in a mortise 10 deep has no wood of divider", (10.0, 8.0)),
    ],
    ids=["no wood behind", "too shallow", "shoulders too wide", "edges too wide", "raked too far"],
)
def test_what_it_is_refused_for_with_a_cure_that_is_made(off, options, says, compared):
    finding = refused(divided(off, **options))
    assert says in str(finding.says)
    assert (finding.found, finding.limit) == (pytest.approx(compared[0]), pytest.approx(compared[1]))
    (cure, *_) = finding.cures
    changed = {edit.path[-1]: edit.value for edit in cure.edits}
    assert tenon(divided(off, **{**options, **changed})).kind == "stub tenon"


def test_glue_is_on_both_cheeks_and_is_side_grain_on_end_grain():
    """Two of 235.9 x 7."""
    joint = tenon(divided())
    (zone,) = kind_of(joint).glue(joint)
    assert (zone.grain, zone.area_mm2) == ((Grain.SIDE, Grain.END), pytest.approx(2 * 235.9 * 7))
    dry = tenon(divided(glued=False))
    assert (kind_of(dry).glue(dry), dry.glued, dry.options.clearance) == ((), False, 0.15)


def test_each_cut_is_made_in_one_operation_and_the_mortise_between_two_stops():
    text = divided()
    joint = tenon(text)
    mortise, end = kind_of(joint).operations(joint, piece_of(text).board_by_name)
    assert (mortise.cuts, end.cuts) == (("mortise in shelf for divider",), ("tenon of divider at shelf",))
    set_for = dict(mortise.ways[0].sets)
    assert (set_for[Dial.WIDTH].mm, set_for[Dial.DEPTH].mm) == (8.1, 8.0)
    assert str(set_for[Dial.STOP]) == "52 to 288 from the front"


def test_the_mortise_cut_otherwise_is_followed():
    kind, joint = kind_of(tenon(divided())), tenon(divided())
    cut = AsCut(board="shelf", between=("divider", "shelf"), deep=9.2, opens="face side")
    assert kind.follow(joint.meeting, joint.options, (cut,)).depth == 9.2
    assert kind.follow(joint.meeting, joint.options, ()) == joint.options


def test_it_stops_nothing_and_its_cuts_are_called_by_the_trades_words():
    text = divided()
    assert stops(text) == set()
    assert (cut_of(text, "mortise in shelf for divider").word, cut_of(text, "tenon of divider at shelf").plain) == (
        "mortise",
        "tenon",
    )
    assert book_of(text).piece.joints
