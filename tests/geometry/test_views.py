"""Exact views of a part: where each cut is marked on each face, worked out apart from this by trigonometry.

The long shelf of tests/documents/samples.py: 24 thick, slots 24.15 across the walls, two of them 9 degrees off
square. 24.15 / cos 9 = 24.451 on the face, marks on the two faces 24 tan 9 = 3.801 apart.
"""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, unary_union

from dryfit.documents.looks import wood_of
from dryfit.geometry.frames import Frame
from dryfit.geometry.shapes import OVER, Bore, HalfSpace, Prism, half_space, prism
from dryfit.geometry.solids import RoughBoard, solid_of
from dryfit.geometry.views import Looker, Removed, Surface, Wood
from dryfit.keeping import Keep
from tests.documents import samples

NEAR = 0.0006  # the expected figures stand rounded to 0.001


def wood(*cuts, thickness=24.0, depth=300.0, length=1000.0, profile=None):
    taken = tuple(Removed(key=str(number), end=end, shapes=shapes) for number, (end, shapes) in enumerate(cuts))
    return Wood(
        profile=profile or ((0.0, thickness),), depth=depth, start=0.0, end=length, zero=0.0, cuts=taken
    )  # fmt: skip


def looker(*cuts, **more):
    return Looker(wood(*cuts, **more))


def raked(a, width, lean, low, high, over=20.0):
    return (0, (prism(samples.leaning(a, lean, width, over), low, high),))


# --- the long shelf --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("surface", "expected"),
    [(Surface.PLUS, samples.UPPER), (Surface.MINUS, samples.LOWER)],
    ids=["upper face", "lower face"],
)
def test_each_cut_of_the_long_shelf_is_marked_where_trigonometry_puts_it(surface, expected):
    view = Looker(wood_of(samples.long_shelf())).view(surface)

    marked = {t.key.rpartition(" for ")[2]: t.marks[0] for t in view.traces if t.seen and not t.end}

    assert marked == pytest.approx(expected, abs=NEAR)


def test_a_raked_slot_shows_its_width_on_both_faces_and_its_marks_shift():
    look = Looker(wood_of(samples.long_shelf()))
    upper, lower = (
        look.view(face).trace("slot in long shelf for raking 1").marks for face in (Surface.PLUS, Surface.MINUS)
    )

    assert upper[1] - upper[0] == pytest.approx(samples.ON_FACE, abs=NEAR)
    assert lower[1] - lower[0] == pytest.approx(samples.ON_FACE, abs=NEAR)
    assert upper[0] - lower[0] == pytest.approx(samples.SHIFT, abs=NEAR)


def test_a_housing_is_seen_on_one_face_and_hidden_eight_deep_behind_the_other():
    look = Looker(wood_of(samples.long_shelf()))
    key = "housing in long shelf for short upright"
    upper, lower = look.view(Surface.PLUS).trace(key), look.view(Surface.MINUS).trace(key)

    assert (lower.seen, lower.deep, lower.across) == (True, (0.0, 8.0), (0.0, 330.0))
    assert (upper.seen, upper.marks, upper.deep) == (False, None, (16.0, 24.0))


def test_a_bore_is_marked_on_the_edge_it_enters_and_hidden_from_the_faces():
    look = Looker(wood_of(samples.long_shelf()))
    front, face = (look.view(s).trace("bore in long shelf at 250") for s in (Surface.FRONT, Surface.PLUS))

    assert front.marks == pytest.approx((244.0, 256.0))
    assert front.across == pytest.approx((-6.0, 6.0))
    assert not face.seen
    assert (min(a for a, _ in face.extent), max(a for a, _ in face.extent)) == pytest.approx((244.0, 256.0))


# --- laws --------------------------------------------------------------------------------------------


@given(
    lean=st.floats(-60, 60),
    width=st.floats(5, 60),
    thickness=st.floats(10, 60),
)
def test_width_on_the_face_is_the_width_over_the_sine_and_the_shift_is_the_thickness_over_the_tangent(
    lean, width, thickness
):
    look = looker(raked(500.0, width, lean, -OVER, 100.0, over=thickness / 2 + 5), thickness=thickness)
    plus, minus = (look.view(face).trace("0").marks for face in (Surface.PLUS, Surface.MINUS))
    between = math.radians(90 - lean)

    assert plus[1] - plus[0] == pytest.approx(width / math.sin(between), abs=1e-5)
    assert plus[0] - minus[0] == pytest.approx(thickness / math.tan(between), abs=1e-5)


@given(st.floats(-50, 50), st.floats(10, 40), st.floats(-45, 45))
def test_what_is_left_in_all_slices_is_the_volume_of_the_solid(lean, width, bevel):
    """Cuts swept across the board change only at their ends: the slices between add up to the solid."""
    bevelled = half_space((950.0, 0.0), (math.cos(math.radians(bevel)), math.sin(math.radians(bevel))))
    slotted = raked(400.0, width, lean, -OVER, 120.0)[1]
    housed = prism(((700, 4), (730, 4), (730, 20), (700, 20)), 80.0, 301.0)
    cuts = ((0, slotted), (0, (housed,)), (1, (bevelled,)))
    look = looker(*cuts)
    steps = [0.0, 80.0, 120.0, 300.0]

    area = [sum(Polygon(loop).area for loop in look.slice_at((low + high) / 2)) for low, high in pairwise(steps)]
    added = sum(a * (high - low) for a, low, high in zip(area, steps, steps[1:], strict=False))
    stock = RoughBoard(outline=((0.0, -12.0), (1000.0, -12.0), (1000.0, 12.0), (0.0, 12.0)), depth=300.0)
    solid = solid_of(stock, (*slotted, housed, bevelled), Keep())

    assert added == pytest.approx(float(solid.volume()), rel=1e-6)


@given(st.floats(0.0, 360.0), st.floats(3.0, 20.0))
def test_a_pocket_swept_through_the_face_opens_with_its_own_outline(turn, side):
    """A square pocket turned in the plane of the face, swept along c: its section is the square itself."""
    points = [(math.radians(turn + 90 * k), side) for k in range(4)]
    corners = tuple((side * math.cos(angle), side * math.sin(angle), 0.0) for angle, _ in points)
    into = Frame((500.0, 12.0 + OVER, 150.0), (1.0, 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, -1.0, 0.0))
    pocket = Prism(outline=corners, low=0.0, high=6.0 + OVER, frame=into)

    trace = looker((0, (pocket,))).view(Surface.PLUS).trace("0")

    assert sum(Polygon(loop).area for loop in trace.opening) == pytest.approx(2 * side * side, rel=1e-5)
    assert trace.deep == pytest.approx((0.0, 6.0))


@given(
    thick=st.floats(8, 60),
    more=st.floats(-20, 20),
    across=st.floats(3, 20),
    through=st.booleans(),
    face=st.sampled_from([1.0, -1.0]),
)
def test_a_hole_square_to_the_centre_line_is_marked_on_its_axis_whatever_the_thickness_and_its_slope(
    thick, more, across, through, face
):
    """Its start lies on the face over the centre-line, rounded as cuts are; the board changes by `more` in 500."""
    profile = ((0.0, thick), (500.0, max(thick + more, 6.0)))
    here = (thick + profile[1][1]) / 2
    deep = here if through else here / 2
    hole = Bore(
        start=(250.0, round(face * here / 2, 6), 100.0),
        direction=(0.0, -face, 0.0),
        profile=((0.0, across), (round(deep, 6), 0.0)),
        through=through,
    )

    look = looker((0, (hole,)), profile=profile, length=500.0)
    seen = [look.view(surface).trace("0") for surface in (Surface.PLUS, Surface.MINUS)]
    near, far = seen if face > 0 else seen[::-1]

    assert near.marks == pytest.approx((250.0 - across / 2, 250.0 + across / 2), abs=1e-5)
    assert near.across == pytest.approx((100.0 - across / 2, 100.0 + across / 2), abs=0.011)  # chords of the circle
    assert far.marks == (near.marks if through else None)


# --- single cases --------------------------------------------------------------------------------------


def test_a_bevelled_end_leaves_two_faces_of_different_length_and_shows_its_slope():
    """At 45 degrees the faces of a 24 board end 24 apart."""
    bevel = half_space((988.0, 0.0), (1.0, 1.0))
    look = looker((1, (bevel,)))

    plus, minus = look.view(Surface.PLUS), look.view(Surface.MINUS)

    assert max(a for a, _ in plus.outline[0]) == pytest.approx(976.0)
    assert max(a for a, _ in minus.outline[0]) == pytest.approx(1000.0)
    assert unary_union([Polygon(loop) for loop in plus.behind]).area == pytest.approx(24 * 300)
    assert minus.behind == ()


def test_a_notch_at_an_end_steps_the_outline_of_the_face():
    """A stopped end: 12.15 taken off its front corner, 8 long."""
    notch = prism(((992.0, -13.0), (1001.0, -13.0), (1001.0, 13.0), (992.0, 13.0)), 287.85, 301.0)
    look = looker((1, (HalfSpace(point=(1000.0, 0.0, 0.0), normal=(1.0, 0.0, 0.0)), notch)))

    (loop,) = look.view(Surface.PLUS).outline

    assert set(loop) == {(0.0, 0.0), (1000.0, 0.0), (1000.0, 287.85), (992.0, 287.85), (992.0, 300.0), (0.0, 300.0)}


def test_a_board_that_changes_its_thickness_is_marked_on_its_true_faces():
    """24 at 0, 30 at 1000: 27 thick at 500. A 45 degree slot runs out at c = 13.5 there, not at 12."""
    look = looker(raked(500.0, 10.0, 45.0, -OVER, 100.0, over=25.0), profile=((0.0, 24.0), (1000.0, 30.0)))
    low = look.view(Surface.PLUS).trace("0").marks[0]
    wall = 500.0 - 5.0 * math.sqrt(2)  # where the nearer wall crosses the middle

    half = (24 + 6 * low / 1000) / 2
    assert low == pytest.approx(wall + half, abs=1e-6)


def test_positions_are_counted_from_the_long_point():
    shape = prism(((100.0, -13.0), (110.0, -13.0), (110.0, 13.0), (100.0, 13.0)), -1.0, 50.0)
    moved = Wood(profile=((0.0, 24.0),), depth=300.0, start=-20.0, end=500.0, zero=-7.5, cuts=(
        Removed(key="slot", end=0, shapes=(shape,)),
    ))  # fmt: skip

    assert Looker(moved).view(Surface.PLUS).trace("slot").marks == pytest.approx((107.5, 117.5))


def test_an_end_shows_the_groove_that_runs_into_it():
    groove = prism(((990.0, -3.0), (1001.0, -3.0), (1001.0, 3.0), (990.0, 3.0)), -1.0, 200.0)
    look = looker((1, (HalfSpace(point=(1000.0, 0.0, 0.0), normal=(1.0, 0.0, 0.0)),)), (0, (groove,)))

    trace = look.view(Surface.FAR).trace("1")

    assert trace.marks == pytest.approx((-3.0, 3.0))
    assert trace.across == pytest.approx((0.0, 200.0))
    assert trace.deep == pytest.approx((0.0, 10.0))


def test_a_bore_that_misses_the_wood_leaves_no_trace():
    beside = Bore(start=(500.0, 40.0, 300.0), direction=(0.0, 0.0, -1.0), profile=((0.0, 8.0), (50.0, 0.0)))

    assert looker((0, (beside,))).view(Surface.PLUS).traces == ()


def test_a_hole_in_an_end_ends_at_the_end_and_shows_there():
    """Bored square to an end cut at 45: mid-thickness, 30 deep from the plane."""
    plane = half_space((980.0, 0.0), (1.0, 1.0))
    axis = math.sqrt(0.5)
    hole = Bore(start=(980.0, 0.0, 150.0), direction=(-axis, -axis, 0.0), profile=((0.0, 8.0), (30.0, 0.0)))
    look = looker((1, (plane,)), (0, (hole,)), thickness=60.0)

    end, face = look.view(Surface.FAR).trace("1"), look.view(Surface.PLUS).trace("1")

    assert end.seen
    assert end.across == pytest.approx((146.0, 154.0), abs=0.011)
    assert max(a for a, _ in face.extent) == pytest.approx(980.0 + 4 * axis, abs=0.011)


def test_the_shortest_of_several_cuts_at_an_end_is_the_end_that_is_seen():
    """An end cut twice, at 960 and at 990: what lies between is gone."""
    ends = [HalfSpace(point=(a, 0.0, 0.0), normal=(1.0, 0.0, 0.0)) for a in (960.0, 990.0)]
    groove = prism(((950.0, -3.0), (1001.0, -3.0), (1001.0, 3.0), (950.0, 3.0)), -1.0, 200.0)
    look = looker((1, (ends[0],)), (1, (ends[1],)), (0, (groove,)))

    assert look.view(Surface.FAR).trace("2").deep == pytest.approx((0.0, 10.0))


def test_what_is_cut_from_wood_that_an_end_has_taken_leaves_no_trace():
    """A groove that would lie in the last 20 of a board that is cut off 20 earlier, and one that only touches it."""
    end = HalfSpace(point=(960.0, 0.0, 0.0), normal=(1.0, 0.0, 0.0))
    groove = prism(((970.0, -3.0), (985.0, -3.0), (985.0, 3.0), (970.0, 3.0)), 20.0, 200.0)
    point = prism(((960.0, 0.0), (985.0, -3.0), (985.0, 3.0)), 20.0, 200.0)

    for surface in Surface:
        look = looker((1, (end,)), (0, (groove,)), (0, (point,)))
        assert [trace.key for trace in look.view(surface).traces if not trace.end] == []


@pytest.mark.parametrize(
    "knee", [376.198086, 0.0, 200.0, 1e-7], ids=["at the far end", "at the datum", "between", "by it"]
)
@pytest.mark.parametrize("face", [Surface.PLUS, Surface.MINUS, Surface.FRONT, Surface.WALL])
def test_a_board_whose_thickness_bends_at_its_very_end_has_its_whole_outline(knee, face):
    """19 thick, to 17 at the knee: 376.198086 long, as a line from (600, 600) to (750, 255) is."""
    whole = 376.198086
    ends = [
        (way, (HalfSpace(point=(a, 0.0, 0.0), normal=(float(way), 0.0, 0.0)),)) for way, a in ((-1, 0.0), (1, whole))
    ]
    wood_before = Wood(
        profile=((knee - 300.0, 19.0), (knee, 17.0)), depth=150.0, start=-11.0, end=whole + 11.0, zero=0.0,
        cuts=tuple(Removed(key=str(way), end=way, shapes=shapes) for way, shapes in ends),
    )  # fmt: skip

    (loop,) = Looker(wood_before).view(face).outline

    assert (min(a for a, _ in loop), max(a for a, _ in loop)) == pytest.approx((0.0, whole))
    bent, even = min(max(knee, 0.0), 300.0), max(knee - 300.0, 0.0)  # of its length, growing to 2 thicker; 2 thicker
    area = 17.0 * whole + bent**2 / 300.0 + 2.0 * even
    if face in (Surface.PLUS, Surface.MINUS):
        area = 150.0 * whole
    assert Polygon(loop).area == pytest.approx(area, rel=1e-6)


def test_a_sliver_thinner_than_any_rounding_has_no_outline():
    """A cut that grazes the front edge by 1e-8: it takes nothing that could be drawn."""
    graze = prism(((400.0, -13.0), (500.0, -13.0), (500.0, 13.0), (400.0, 13.0)), 0.0, 1.0)
    sliver = Prism(outline=graze.outline, low=300.0 - 1e-8, high=310.0)

    assert looker((0, (sliver,))).view(Surface.PLUS).traces == ()


def test_wood_held_together_by_a_neck_thinner_than_any_rounding_falls_apart_into_sound_outlines():
    """A slot 20 wide up to 1e-8 under the upper face: 490 by 24 are left on either side."""
    slot = Prism(outline=prism(((490, -13), (510, -13), (510, 0), (490, 0)), 0.0, 1.0).outline, low=-1.0, high=301.0)
    up_to = tuple((x, y if y < 0 else 12.0 - 1e-8, bulge) for x, y, bulge in slot.outline)

    pieces = looker((0, (Prism(outline=up_to, low=-1.0, high=301.0),))).slice_at(150.0)

    assert [Polygon(loop).is_valid for loop in pieces] == [True, True]
    assert [Polygon(loop).area for loop in pieces] == pytest.approx([490 * 24, 490 * 24])
