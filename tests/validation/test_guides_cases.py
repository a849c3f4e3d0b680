"""Guides for the router against figures worked outside the program.

Source: plane geometry, worked by hand and by a second way (polygons) in the reference on bench geometry, sections 1 and
2: straight guide 1.1, test cut 1.2, reach and marks 2.1, hand 2.2. Each is given to 0.01 there. Two offsets measured
from a groove instead of half a base: common practice of the trade.
"""

import math
from itertools import pairwise

import pytest
from shapely import Polygon, box
from shapely.affinity import rotate

from dryfit.studies.guides.rails import Base, Bed, opening, packing, passes, rest, runs

near = pytest.approx
BASE = Base(offsets=(66.80, 68.10), cutter=15.90)


def test_between_two_rails_stand_the_slot_and_both_offsets():
    assert opening(BASE, 27.15) == near(162.05)


@pytest.mark.parametrize(
    ("width", "count"),
    [(15.90, 1), (15.95, 2), (27.15, 2), (31.80, 2), (32.0, 3), (47.70, 3), (48.0, 4)],
)
def test_what_the_cutter_leaves_standing_takes_a_pass_for_each_width_that_is_begun(width, count):
    """1.1: from d to 2 d two passes; beyond, one more for each d of the strip in the middle that is begun."""
    assert passes(BASE, width) == count


@pytest.mark.parametrize("width", [16.0, 20.0, 27.15, 31.79, 33.0, 46.0, 60.0, 100.0])
def test_so_many_passes_leave_nothing_standing(width):
    """By a second way: passes evenly between the two walls cover the slot, and one less would not."""
    count, cutter = passes(BASE, width), BASE.cutter
    steps = [(width - cutter) * number / (count - 1) for number in range(count)]
    assert all(b - a <= cutter + 1e-9 for a, b in pairwise(steps))
    assert count == 2 or (width - cutter) / (count - 2) > cutter


@pytest.mark.parametrize(
    ("read", "wanted", "lean", "packed"),
    [(28.10, 27.46, 0.0, 0.64), (27.20, 27.46, 0.0, -0.26), (28.34, 27.46, 7.5, 0.64), (24.93, 24.15, 12.0, 0.24)],
)
def test_a_trial_cut_asks_for_packing(read, wanted, lean, packed):
    """1.2: read across the walls, or on the face of a slot that leans."""
    assert packing(read, wanted, lean) == near(packed, abs=0.006)


def test_a_board_before_a_drill_that_lies_on_its_side():
    """K9 of the worked geometry: a body 67.5 wide, a board of 27: 20.25. Axis 29, board 30, bed 9: 23 (reference 5)."""
    assert rest(67.5 / 2, 27.0 / 2) == near(20.25)
    assert rest(29.0 + 9.0, 30.0 / 2) == near(23.0)


@pytest.mark.parametrize(
    ("lean", "width", "thick", "bed", "along", "out", "marks", "further"),
    [
        (9.0, 24.15, 24.0, 9.0, 92.0, 52.70, (93.15, 117.60), 3.80),
        (7.5, 24.46, 27.0, 12.0, 87.77, 55.01, (88.53, 113.20), 3.55),
    ],
)
def test_a_tilted_guide_reaches_and_marks(lean, width, thick, bed, along, out, marks, further):
    """2.1, both worked cases; 3.55 is 27 tan 7.5."""
    one = Bed(lean=lean, width=width, near=along, low=66.80, high=68.10, thick=bed)
    reach = width * math.tan(math.radians(lean)) + thick / math.cos(math.radians(lean)) + 1.0
    assert one.stick_out(reach) == near(out, abs=0.006)
    assert one.marks == near(marks, abs=0.006)
    assert one.under(thick) == near(further, abs=0.006)


def test_the_bed_to_cut():
    """2.1: 92 + 24.15 + 68.10 + 30 up the slope, its sine under the far edge; wood so far past the far mark."""
    one = Bed(lean=9.0, width=24.15, near=92.0, low=66.80, high=68.10, thick=9.0)
    assert one.long == near(214.25)
    assert one.wedge == near(33.52, abs=0.006)
    assert one.beyond == near(94.01, abs=0.006)
    assert runs(BASE, 300.0, 2) == near(300.0 + 134.90 + 31.80)  # 466.70


def test_the_least_bed_carries_the_base_and_a_seat_for_the_low_rail():
    """2.1: least n = offset of the base's low edge + 25, here 91.80."""
    assert Bed.least(BASE, 9.0, 24.15).near == near(91.80)


@pytest.mark.parametrize("lean", [2.0, 9.0, 15.0, 30.0])
def test_the_slot_that_a_tilted_guide_cuts_is_the_one_that_was_asked_for(lean):
    """By solids: the cutter at either rail, tilted with its bed, leaves walls at the marks on both faces."""
    width, thick, cutter = 24.15, 24.0, 16.0
    one = Bed.least(Base(offsets=(65.0, 66.0), cutter=cutter), lean, width)
    rad = math.radians(lean)
    out = one.stick_out(width * math.tan(rad) + thick / math.cos(rad) + 1.0)
    swept = Polygon()
    for rail in (one.near - one.low, one.near + width + one.high):
        edge = rail + one.low if rail < one.near else rail - one.high - cutter
        bit = box(edge, one.thick - out, edge + cutter, one.thick)
        swept = swept.union(rotate(bit, lean, origin=(0.0, 0.0)))
    board = box(-500.0, -thick, 800.0, 0.0)
    left = board.difference(swept)
    (first, last), further = one.marks, one.under(thick)
    asked = Polygon([(first, 0.0), (last, 0.0), (last + further, -thick), (first + further, -thick)])
    assert board.difference(left).symmetric_difference(asked).area == near(0.0, abs=1e-6)
