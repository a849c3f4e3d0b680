"""Mouths of screw holes: what lies over one, or stands before it where bit and drill want the room.

A shelf 200 deep with 45 of grip is bored 155; with a driver of 200 and 56 of travel, 200 - 155 + 56 + 200 = 301 must be
free before its front edge. Its counterbore is 15 wide: 7.5 to either side of a screw another board covers it.
"""

import pytest

from tests.joints.typed import board, found, job, table

FREE = 301.0
WALL = {"kind": "brick", "lining": 15, "hollow": 4, "hung": True}
SHELF = table("[wall]", **WALL) + board("shelf", [[0, 500], [1200, 500]], 200, "40")
SCREWS = table(
    "[[fixing]]", name="screws", board="shelf", kind="long screw", at=[200, 1000], screw="wood 6x120, pan head",
    anchor="nylon plug 10x50",
)  # fmt: skip


def covered(*others):
    return found(job(SHELF, *others, SCREWS), "screws-covered")


def before(x, *, start=200, name="post", thickness="24", depth=50, line=None):
    return board(name, line or [[x, 300], [x, 700]], depth, thickness, back=start)


def test_with_nothing_before_it_a_mouth_is_free():
    assert covered() == []


@pytest.mark.parametrize(("off", "covers"), [(0.0, True), (19.4, True), (19.6, False), (-19.4, True), (-19.6, False)])
def test_a_board_covers_a_mouth_as_far_as_its_face_and_the_bore_reach(off, covers):
    """12 of board and 7.5 of bore: 19.5."""
    assert bool(covered(before(200 + off, start=250))) is covers


@pytest.mark.parametrize(("free", "told"), [(0, 0.0), (90, 90.0), (FREE - 0.5, FREE - 0.5), (FREE + 0.5, None)])
def test_how_far_it_stands_off_is_compared_with_what_bit_and_drill_want(free, told):
    found_there = covered(before(1000, start=200 + free))
    assert [one.found for one in found_there] == ([] if told is None else [pytest.approx(told)])
    assert all(one.limit == pytest.approx(FREE) for one in found_there)


def test_a_board_that_ends_level_with_the_front_edge_or_behind_it_covers_nothing():
    assert covered(before(200, start=0, depth=200)) == []
    assert covered(before(200, start=0, depth=150)) == []


def test_a_deeper_board_that_runs_through_at_the_screw_covers_it():
    (finding,) = covered(before(200, start=0, depth=260))
    assert str(finding.says).startswith("post covers the mouth of the screws of screws")


def test_the_board_is_named_the_fixing_and_its_place_in_the_file_given():
    (finding,) = covered(before(200, start=290))
    assert str(finding.says) == "post is 90 in front of the mouth of the screws of screws; bit and drill need 301"
    assert finding.where.boards == ("post", "shelf")
    assert (finding.where.fixing, finding.where.path) == ("screws", ("fixing", 0))
    assert finding.severity == "warn"


def test_each_board_is_told_once_with_its_nearest_place():
    far = before(0, line=[[200, 400], [1000, 600]], start=300, name="raking")
    assert [(one.where.boards[0], one.found) for one in covered(far, before(200, start=260))] == [
        ("post", pytest.approx(60.0))
    ]  # the raking board passes 100 below and above the two screws
    level = before(0, line=[[0, 500], [1200, 500]], start=300, name="rail")
    assert [(one.where.boards[0], one.found) for one in covered(level)] == [("rail", pytest.approx(100.0))]


def test_a_board_lying_flat_before_a_mouth_covers_it():
    flat = table("[[board]]", name="fascia", timber="24", line=[[0, 500], [1200, 500]], lies="flat", width=90, back=220)
    (finding,) = covered(flat)
    assert (finding.where.boards[0], finding.found) == ("fascia", pytest.approx(20.0))
