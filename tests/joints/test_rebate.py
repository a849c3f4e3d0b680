"""A rebate at a corner: the level board 27 thick over an upright of 18, 240 deep, the rebate 18 deep, 9 left over."""

import math

import pytest

from dryfit.documents.looks import Desk
from dryfit.documents.sheets.part.words.details import details
from dryfit.piece.facts import Grain
from dryfit.piece.solids import Solids
from tests.joints.going import overlap_when_moved, touching_area
from tests.joints.typed import board, book_of, found, frame, job, joint_of, kind_of, piece_of, stops, table


def corner(degrees=90, *, first="27", second="18", depths=(240, 240), backs=(0, 0), **options):
    """A level board from the corner to the right, another `degrees` round from it."""
    x, y = 500 * math.cos(math.radians(degrees)), 500 * math.sin(math.radians(degrees))
    return job(
        table("[joints]", corner="rebate"),
        table("[joints.rebate]", **options),
        board("top", [[0, 0], [500, 0]], depths[0], first, back=backs[0]),
        board("side", [[0, 0], [x, y]], depths[1], second, back=backs[1]),
    )


@pytest.mark.parametrize("degrees", [90, -90, 60, 120, -70, 45, 135])
def test_it_parts_away_from_floor_and_wall_and_along_them_and_no_other_way(degrees):
    """Tried all round in steps of 15 degrees, and out of the wall."""
    text = corner(degrees)
    piece, joint = piece_of(text), joint_of(text, "top", "side")
    (motion,) = joint.making.motions
    normals = (motion.direction, *motion.within)
    allowed = 0
    for step in range(24):
        way = (math.cos(math.radians(step * 15)), math.sin(math.radians(step * 15)), 0.0)
        leads = min(sum(a * b for a, b in zip(way, normal, strict=True)) for normal in normals)
        if abs(leads) < 0.02:
            continue  # along a face: rounding decides
        overlaps = [overlap_when_moved(piece, joint, motion.body, tuple(d * one for one in way)) for d in (1.0, 9.0)]
        assert (max(overlaps) <= 0.5) is (leads > 0.0), step
        allowed += leads > 0.0
    assert allowed >= 2
    for z in (1.0, -1.0):
        assert overlap_when_moved(piece, joint, motion.body, (0.0, 0.0, 5 * z)) <= 0.5


def test_glue_is_on_the_floor_and_on_the_wall_and_both_are_end_grain_on_side_grain():
    """18 x 240 and 18 x 240."""
    text = corner(-90)
    joint = joint_of(text, "top", "side")
    floor, wall = kind_of(joint).glue(joint)
    assert (floor.area_mm2, wall.area_mm2) == (18 * 240, 18 * 240)
    assert {floor.grain, wall.grain} == {(Grain.SIDE, Grain.END)}
    assert touching_area(piece_of(text), joint) == pytest.approx(2 * 18 * 240)


@pytest.mark.parametrize(("thick", "depth"), [("27", 18.0), ("24", 16.0), ("18", 12.0), ("40", 26.5)])
def test_two_thirds_deep_in_whole_halves(thick, depth):
    options = joint_of(corner(first=thick), "top", "side").options
    assert (options.depth, options.through) == (depth, "top")


def test_the_board_that_is_told_to_run_through_has_it():
    """The upright 18 has it 12 deep: 6 left over the end of the top, which is 500 + 9 - 6 long."""
    text = corner(through="side")
    joint = joint_of(text, "top", "side")
    assert {cut.body for cut in joint.cuts if cut.word == "rebate"} == {"side"}
    top = piece_of(text).part_by_name["top"]
    assert top.length == pytest.approx(500 + 9 - 6)  # from the floor, 6 inside the outside of the side


def test_it_is_cut_after_the_end_that_it_runs_out_at():
    text = corner()
    joint = joint_of(text, "top", "side")
    *_, rebate = kind_of(joint).operations(joint, piece_of(text).board_by_name)
    assert rebate.after == ("end of top at side",)


@pytest.mark.parametrize(
    ("more", "says", "compared"),
    [
        ({"degrees": 140}, "the corner is 50° off square; a rebate is made to 45°", (50.0, 45.0)),
        ({"depths": (260, 240)}, "the boards are 20 apart at the front", (20.0, 1.0)),
        ({"backs": (5, 0), "depths": (235, 240)}, "the boards are 5 apart at the wall", (5.0, 1.0)),
        ({"depth": 27}, "a rebate 27 deep in top, which is 27 thick", (27.0, 27.0)),
        ({"depth": 2}, "a rebate 2 deep in top", (2.0, 3.0)),
    ],
    ids=["too slanting", "set back at the front", "set back at the wall", "through", "too shallow"],
)
def test_what_it_is_refused_for(more, says, compared):
    (finding,) = found(corner(**more), "joint-unsuited")
    assert says in str(finding.says)
    assert (finding.found, finding.limit) == pytest.approx(compared)


def test_less_than_3_over_the_end_is_a_stop_with_its_cure():
    (finding,) = found(corner(depth=25), "rebate-lip-thin")
    assert (finding.found, finding.limit, finding.severity) == (pytest.approx(2.0), 3.0, "stop")
    (cure,) = finding.cures
    (edit,) = cure.edits
    assert edit.value["depth"] == 24
    assert not found(corner(depth=24), "rebate-lip-thin")


def test_a_case_of_four_goes_together_and_is_square_inside():
    """K: inside 557 x 357 of 600 x 400 outside, 21.5 thick."""
    text = job(
        table('[timber."21.5"]', species="oak, white", form="panel", thickness=21.5),
        table("[joints]", corner="rebate"),
        frame([[0, 0], [600, 0], [600, 400], [0, 400]], timber="21.5", depth=280, size="outside"),
    )
    assert stops(text) == set()
    parts = piece_of(text).part_by_name
    assert [parts[f"box {k}"].length for k in (1, 2, 3, 4)] == pytest.approx([600, 385, 600, 385])


def test_the_wood_that_goes_is_the_step_alone():
    text = corner(-90)
    plain = 27 * 240 * 509
    assert Solids().volume(piece_of(text).part_by_name["top"]) == pytest.approx(plain - 77760)


def test_the_part_s_sheet_says_that_it_runs_right_across():
    """18 deep from the inside face, which of a corner by itself is the lower one."""
    desk = Desk(book_of(corner(-90)))
    look = desk.looks["top"]
    (cut,) = (one for one in look.part.cuts if one.word == "rebate")
    (line,) = details(desk, look, cut)
    assert line.startswith("in the left end, 9.00 to 27.00 from the arris of the upper face")
    assert line.endswith(", right across")
