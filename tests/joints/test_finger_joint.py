"""Fingers at a square corner: 18 on 18, 240 deep, 9 fingers of 240 / 9 = 26.667, clearance 0.10."""

import pytest

from dryfit.piece.facts import Grain
from dryfit.piece.operations import Dial
from tests.joints.going import overlap_when_moved
from tests.joints.typed import board, found, frame, job, joint_of, kind_of, piece_of, stops, table


def corner(*, up=True, first="18", second="18", depths=(240, 240), lean=0, **options):
    return job(
        table("[joints]", corner="finger joint"),
        table('[joints."finger joint"]', **options),
        board("top", [[0, 0], [500, 0]], depths[0], first),
        board("side", [[0, 0], [lean, 500 if up else -500]], depths[1], second),
    )


def test_it_comes_off_along_either_board_or_between_and_no_other_way():
    text = corner(fingers=9)
    piece, joint = piece_of(text), joint_of(text, "top", "side")

    def moved(*way):
        return overlap_when_moved(piece, joint, "side", tuple(3.0 * one for one in way)) > 0.5

    for way in ((0, 1, 0), (-1, 0, 0), (-1, 1, 0), (-1, 3, 0)):
        assert not moved(*way), way
    for way in ((0, -1, 0), (1, 0, 0), (0, 0, 1), (0, 0, -1), (1, 1, 0)):
        assert moved(*way), way


def test_glue_is_side_grain_on_side_grain_along_the_walls():
    """8 x 18 x 18; the bottoms of all slots are 18 x 240 of end grain."""
    joint = joint_of(corner(fingers=9), "top", "side")
    sides, bottoms = kind_of(joint).glue(joint)
    assert (sides.grain, sides.area_mm2) == ((Grain.SIDE, Grain.SIDE), pytest.approx(2592))
    assert (bottoms.grain, bottoms.area_mm2) == ((Grain.SIDE, Grain.END), pytest.approx(18 * 240))


@pytest.mark.parametrize(("depth", "thick", "count"), [(240, "18", 13), (240, "27", 9), (300, "24", 13), (40, "24", 3)])
def test_left_out_they_are_odd_and_about_as_wide_as_the_thinner_board_is_thick(depth, thick, count):
    options = joint_of(corner(first=thick, second="27", depths=(depth, depth)), "top", "side").options
    assert options.fingers == count


def test_an_odd_number_gives_one_board_both_edges_an_even_one_each_board_one():
    for fingers, slots in ((9, (4, 5)), (8, (4, 4))):
        joint = joint_of(corner(fingers=fingers, begins="top"), "top", "side")
        by = {cut.body: len(cut.shapes) - 1 for cut in joint.cuts}
        assert (by["top"], by["side"]) == slots


def test_the_board_that_begins_has_the_finger_at_the_front_edge():
    for begins, other in (("top", "side"), ("side", "top")):
        joint = joint_of(corner(fingers=8, begins=begins), "top", "side")
        fronts = {cut.body: max(shape.high for shape in cut.shapes[1:]) for cut in joint.cuts}
        assert fronts[begins] == pytest.approx(240 - 30 + 0.025)
        assert fronts[other] > 240


def test_what_is_set_is_the_slot_the_other_board_and_the_key():
    """A slot of 26.717, 18 deep, the key a finger of 26.617 away."""
    joint = joint_of(corner(fingers=9), "top", "side")
    one, _ = kind_of(joint).operations(joint, piece_of(corner(fingers=9)).board_by_name)
    sets = dict(one.ways[0].sets)
    assert (sets[Dial.WIDTH].mm, sets[Dial.DEPTH].mm) == (pytest.approx(26.717, abs=1e-3), 18.0)
    assert "26.62" in str(sets[Dial.PLACE])


@pytest.mark.parametrize(
    ("more", "says"),
    [
        ({"lean": 20}, "off square; fingers are cut square to the end"),
        ({"fingers": 60}, "60 fingers would be 4 wide; the cutter is 6"),
        ({"fingers": 1}, "1 finger makes no joint"),
        ({"depths": (240, 230)}, "the boards are 10 apart at the front"),
        ({"begins": "door"}, "door is not one of the two boards"),
    ],
    ids=["not square", "narrower than the cutter", "one", "not level", "no such board"],
)
def test_what_it_is_refused_for(more, says):
    (finding,) = found(corner(**more), "joint-unsuited")
    assert says in str(finding.says)


def test_the_cure_of_too_narrow_fingers_makes_as_many_as_the_cutter_can():
    """240 / 6 = 40 slots of 6."""
    (finding,) = found(corner(fingers=60), "joint-unsuited")
    edits = [edit.value for cure in finding.cures for edit in cure.edits if isinstance(edit.value, dict)]
    assert {"fingers": 40}.items() <= edits[0].items()


def test_a_frame_of_four_goes_together():
    text = job(
        table("[joints]", corner="finger joint"),
        frame([[0, 0], [500, 0], [500, 300], [0, 300]], timber="18", depth=210, size="outside"),
    )
    assert stops(text) == set()
