"""Corner, tilt, flight and opening: closed forms, the worked cases S16 and S23, and other means of reckoning.

The longest line round a right-angled corner of corridors a and b is (a^(2/3) + b^(2/3))^(3/2): 7.0234824 for 2 and 3
(a textbook exercise, published with that figure); of a rectangle w wide round a square one 2 sqrt 2 a - 2 w. The other
means: a rectangle is pushed round the corner in small turns, and shapely says whether it stays within the corridors; a
box is lifted degree by degree and its corners measured; a rectangle is turned degree by degree in an opening.
"""

import math

import numpy as np
import pytest
import shapely
from hypothesis import assume, given
from hypothesis import strategies as st
from shapely import affinity

from dryfit.studies.carrying.outline import least_floor, outline_way, to_stand_up_by
from dryfit.studies.carrying.passing import (
    first_way,
    floor_of,
    most,
    round_corner,
    square_to,
    tilt,
    to_stand_up,
    turned_in,
)
from dryfit.studies.carrying.result import HANDS, Passage
from dryfit.trade.lifting import lift, lower_share, up_a_flight

CORNERS = [  # (a, b, wide, longest): worked beside this project but for the two that are published, in any unit
    (2.0, 3.0, 0.0, 7.0234824),
    (1.0, 1.0, 0.0, 2.8284271),
    (0.9, 0.9, 0.30, 1.9456),
    (0.9, 0.9, 0.35, 1.8456),
    (0.9, 0.9, 0.60, 1.3456),
    (0.9, 1.2, 0.35, 2.2550),
    (0.9, 1.05, 0.40, 1.9533),
    (1.0, 0.8, 0.30, 1.9379),
    (0.762, 0.914, 0.30, 1.7653),
]


def landing(a=950.0, b=800.0, high=2200.0):
    return Passage(kind="turn", name="landing", named=True, width=a, into=b, height=high)


def door(wide, high):
    return Passage(kind="door", name="door", named=True, width=wide, height=high)


# --- the corner -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(("a", "b", "wide", "longest"), CORNERS)
def test_the_longest_round_a_corner_is_that_of_the_table(a, b, wide, longest):
    assert round_corner(1000 * a, 1000 * b, 1000 * wide) == pytest.approx(1000 * longest, abs=0.06)


sizes = st.floats(500.0, 3000.0)


@given(a=sizes, b=sizes)
def test_of_a_line_it_is_the_closed_form(a, b):
    assert round_corner(a, b, 0.0) == pytest.approx((a ** (2 / 3) + b ** (2 / 3)) ** 1.5, rel=1e-6)


@given(a=sizes, share=st.floats(0.01, 0.6))
def test_in_corridors_of_one_width_it_is_two_root_two_of_it_less_twice_the_floor(a, share):
    wide = share * a
    assert round_corner(a, a, wide) == pytest.approx(max(2 * math.sqrt(2) * a - 2 * wide, a), rel=1e-6)


def swept(long, wide, a, b, turns=400):
    """Whether a rectangle stays within the corridors as it turns, both ends of its outer side on the outer walls."""
    reach = 2 * (long + a + b)
    inside = shapely.union_all([shapely.box(0, 0, a, reach), shapely.box(0, 0, reach, b)])
    inside = inside.buffer(1e-6 * (a + b), join_style="mitre")
    lying = shapely.box(0.0, 0.0, long, wide)
    for t in np.linspace(0.0, math.pi / 2, turns):
        turned = affinity.rotate(lying, -math.degrees(t), origin=(0.0, 0.0))
        if not inside.covers(affinity.translate(turned, 0.0, long * math.sin(t))):
            return False
    return True


@given(a=sizes, b=sizes, share=st.floats(0.0, 0.9))
def test_a_floor_a_little_shorter_goes_round_when_it_is_pushed_and_a_little_longer_does_not(a, b, share):
    wide = max(share * min(a, b), 1.0)
    longest = round_corner(a, b, wide)
    assume(longest > max(a, b) * 1.001)  # else it slides out sideways, and is not turned

    assert swept(0.998 * longest, wide, a, b)
    assert not swept(1.004 * longest, wide, a, b)


@given(a=sizes, b=sizes, extra=st.floats(1.0, 500.0))
def test_what_is_wider_than_the_narrower_corridor_never_goes_round(a, b, extra):
    assert round_corner(a, b, min(a, b) + extra) == 0.0


# --- the tilt, standing up, the opening --------------------------------------------------------------------


@given(long=sizes, share=st.floats(0.01, 1.0), clear=sizes)
def test_a_tilted_box_just_reaches_what_is_clear_as_its_corners_measure(long, share, clear):
    thick = share * long
    lean = tilt(long, thick, clear)
    if lean is None:
        assert thick > clear
        return
    turned = affinity.rotate(shapely.box(0, 0, long, thick), lean)
    left, foot, right, head = turned.bounds
    assert floor_of(long, thick, lean) == pytest.approx(right - left, rel=1e-9)
    highest = max(
        affinity.rotate(shapely.box(0, 0, long, thick), turn).bounds[3]
        - affinity.rotate(shapely.box(0, 0, long, thick), turn).bounds[1]
        for turn in np.linspace(0, lean, 60)
    )
    assert highest <= clear + 1e-6
    assert lean == 90.0 or head - foot == pytest.approx(clear, rel=1e-9)


@pytest.mark.parametrize(
    ("high", "deep", "wants"),
    [(2200, 350, 2227.7), (2300, 350, 2326.5), (2350, 450, 2392.7), (2400, 300, 2418.7)],
)
def test_standing_up_wants_the_diagonal(high, deep, wants):
    assert to_stand_up(high, deep) == pytest.approx(wants, abs=0.06)


@given(long=sizes, share=st.floats(0.01, 1.0), wide=sizes, high=sizes)
def test_a_rectangle_goes_into_an_opening_at_the_turn_that_is_told_and_where_none_is_at_no_turn(
    long, share, wide, high
):
    short, turn = share * long, turned_in(long, share * long, wide, high)
    t = np.radians(np.linspace(0.0, 90.0, 3601) if turn is None else [turn])
    over = np.maximum(long * np.cos(t) + short * np.sin(t) - wide, long * np.sin(t) + short * np.cos(t) - high)
    upright = short <= wide and long <= high  # at a quarter turn: a door has that as "on edge"
    if turn is None:
        assert over.min() > -1e-3 * long or upright
    else:
        assert over.max() < 1e-5


# --- the worked cases --------------------------------------------------------------------------------------


def test_s23_flat_it_is_too_long_for_the_landing_and_tilted_it_goes_round():
    """2400 x 320 x 300: on edge 300 wide at most 1870; lifted by 58.32 degrees, 320 wide, 1516 of 1830."""
    box = (2400.0, 320.0, 300.0)
    way = first_way(box, landing(), hands=False)

    assert round_corner(950, 800, 300) == pytest.approx(1870, abs=0.5)
    assert (way.how, way.lean, way.across) == ("tilted", pytest.approx(58.32, abs=0.005), 320.0)
    assert (way.floor, way.room) == (pytest.approx(1516, abs=0.5), pytest.approx(1830, abs=0.5))


def test_s23_with_room_for_hands_it_goes_round_too():
    """50 off everywhere: 55.61 degrees, 1603 of 1688: nothing is found."""
    way = first_way((2400.0, 320.0, 300.0), landing(), hands=True)

    assert HANDS == 50.0
    assert (way.how, way.lean) == ("tilted", pytest.approx(55.61, abs=0.005))
    assert (way.floor, way.room) == (pytest.approx(1603, abs=0.5), pytest.approx(1688, abs=0.5))


def test_s23_square_corridors_and_a_flight():
    """1000 wide, 400 of floor: 2028.4. 1950 clear over a flight of 40 degrees: 1494 square to it."""
    assert round_corner(1000, 1000, 400) == pytest.approx(2028.4, abs=0.05)
    stair = Passage(kind="stair", name="stair", named=True, width=900, height=1950, pitch=40)
    assert square_to(stair) == pytest.approx(1494, abs=0.5)


@pytest.mark.parametrize(("thick", "room"), [(1390.0, True), (1480.0, False), (1500.0, None)])
def test_over_the_steps_100_are_kept_free_and_less_than_that_is_tight(thick, room):
    """1494 square to the steps: to 1394 with room, to 1494 without, more not at all."""
    stair = Passage(kind="stair", name="stair", named=True, width=900, height=1950, pitch=40)
    box = (2000.0, thick, 700.0)

    assert (first_way(box, stair, hands=True) is not None) is (room is True)
    assert (first_way(box, stair, hands=False) is not None) is (room is not None)


@pytest.mark.parametrize(
    ("mass", "hands", "people"),
    [(27.0, 1300.0, 3), (34.0, 900.0, 3), (31.0, 1300.0, None), (26.6, 1300.0, 2)],
)
def test_s16_weighed_what_ends_above_the_elbow_and_below_it(mass, hands, people):
    """20, 26.7, 30 above the elbow; 25, 33.3, 37.5 below: 27 and 34 take three, better split; 31 nobody."""
    found = lift(mass, 1000.0, [(hands, hands)], weighed=True)

    assert (found.people, found.better_less) == (people, people == 3)


@pytest.mark.parametrize(
    ("long", "high", "pitch", "share", "at_most"),
    [(2000, 300, 38, 0.617, 27.0), (2400, 150, 38, 0.549, 30.4), (1800, 350, 42, 0.675, 24.7)],
)
def test_s16_on_a_flight_the_lower_one_has_more_than_half(long, high, pitch, share, at_most):
    """40 kg, 2000 long, 300 over the hands, 38 degrees: the lower one has 24.7 of at most 16.7."""
    found = lower_share(long, high, pitch)

    assert found == pytest.approx(share, abs=0.0006)
    assert up_a_flight(40.0, long, found, weighed=True).people is None
    assert up_a_flight(40.0, long, found, weighed=True).may == pytest.approx(at_most, abs=0.05)
    assert up_a_flight(at_most - 0.1, long, found, weighed=True).people == 2
    assert 40.0 * lower_share(2000, 300, 38) == pytest.approx(24.7, abs=0.05)


# --- what is smaller passes --------------------------------------------------------------------------------

boxes = st.tuples(sizes, st.floats(20.0, 1500.0), st.floats(20.0, 1500.0)).map(
    lambda box: tuple(sorted(box, reverse=True))
)
passages = st.one_of(
    st.builds(door, sizes, sizes),
    st.builds(landing, sizes, sizes, sizes),
    st.builds(
        lambda wide, high, pitch: Passage(kind="stair", name="s", named=True, width=wide, height=high, pitch=pitch),
        sizes,
        sizes,
        st.floats(10.0, 60.0),
    ),
    st.builds(
        lambda long, wide, high: Passage(kind="van", name="v", named=False, length=long, width=wide, height=high),
        sizes,
        sizes,
        sizes,
    ),
)


@given(box=boxes, passage=passages, shares=st.tuples(*[st.floats(0.3, 1.0)] * 3))
def test_what_is_smaller_passes_wherever_the_larger_does_and_what_has_room_passes_without(box, passage, shares):
    smaller = tuple(sorted((size * share for size, share in zip(box, shares, strict=True)), reverse=True))
    if first_way(box, passage, hands=True):
        assert first_way(box, passage, hands=False)
    if first_way(box, passage, hands=False):
        assert first_way(smaller, passage, hands=False)


@given(box=boxes, passage=passages)
def test_the_most_that_passes_does_and_a_little_more_does_not(box, passage):
    assume(first_way(box, passage, hands=False) is None)
    found = most(box, passage)
    if found is None:
        return
    size, limit = found
    at = ("long", "wide", "thick").index(size)

    def cut_to(length):
        return tuple(sorted((*box[:at], length, *box[at + 1 :]), reverse=True))

    assert limit < box[at]
    assert first_way(cut_to(limit - 0.01), passage, hands=False)
    assert first_way(cut_to(limit + 0.1), passage, hands=False) is None


# --- its own outline ----------------------------------------------------------------------------------------


def rectangle(long, thick):
    return ((0.0, 0.0), (long, 0.0), (long, thick), (0.0, thick))


def test_of_a_rectangle_the_outline_is_the_tilt_of_the_box():
    """S23: 58.32 degrees, 1516 on the floor under 2200."""
    found = least_floor(rectangle(2400.0, 300.0), 2200.0)
    lean = tilt(2400.0, 300.0, 2200.0)

    assert (found.high, found.wide) == (pytest.approx(2200.0), pytest.approx(1516.0, abs=0.5))
    assert found.wide == pytest.approx(floor_of(2400.0, 300.0, lean))
    assert min(found.lean, 180.0 - found.lean) == pytest.approx(lean)
    assert least_floor(rectangle(2400.0, 300.0), 299.0) is None
    assert least_floor(rectangle(2400.0, 300.0), 2500.0).wide == pytest.approx(300.0)


hulls = st.lists(st.tuples(st.floats(0.0, 2500.0), st.floats(0.0, 2500.0)), min_size=3, max_size=9)


@given(hulls, st.floats(200.0, 3500.0))
def test_no_turn_by_tenths_of_a_degree_takes_up_less_of_the_floor(points, clear):
    """Shapely turns the hull; what it finds under the clear height is never less, and what is told is so."""
    hull = shapely.convex_hull(shapely.multipoints(points))
    assume(hull.geom_type == "Polygon" and hull.area > 1e4)
    corners = [tuple(one) for one in shapely.get_coordinates(hull)[:-1]]
    found = least_floor(corners, clear)

    def sizes(lean):
        left, low, right, high = affinity.rotate(hull, lean, origin=(0.0, 0.0)).bounds
        return right - left, high - low

    tried = [wide for wide, high in map(sizes, np.arange(0.0, 180.0, 0.5)) if high <= clear]
    if found is None:
        assert not tried
        return
    wide, high = sizes(found.lean)
    assert (wide, high) == (pytest.approx(found.wide, abs=1e-6), pytest.approx(found.high, abs=1e-6))
    assert high <= clear + 1e-3
    assert found.wide <= min(tried, default=np.inf) + 1e-6


def test_a_triangle_goes_round_where_its_box_does_not():
    """Legs 2010 and 1500 under 2000: no more than 2010 cos(asin(2000 / 2508) - atan(1500 / 2010)); shapely agrees."""
    legs = ((0.0, 0.0), (2010.0, 0.0), (0.0, 1500.0))
    turn = math.asin(2000.0 / math.hypot(2010.0, 1500.0)) - math.atan2(1500.0, 2010.0)
    way = outline_way(legs, 300.0, landing(900.0, 900.0, 2000.0), hands=False)
    left, low, right, high = affinity.rotate(shapely.Polygon(legs), way.lean, origin=(0.0, 0.0)).bounds

    assert way.floor <= 2010.0 * math.cos(turn)
    assert (right - left, high - low <= 2000.0 + 1e-6) == (pytest.approx(way.floor), True)
    assert way.floor < round_corner(900.0, 900.0, 300.0) < 2010.0
    assert first_way((2010.0, 1500.0, 300.0), landing(900.0, 900.0, 2000.0), hands=False) is None


def test_stood_up_about_a_lower_edge_what_is_not_there_does_not_count():
    """2400 high, 300 deep at the foot and 100 at the head: over the back edge hypot(2400, 100) and no more."""
    case = [(x, y, z) for x in (0.0, 600.0) for y, z in ((0.0, 0.0), (0.0, 300.0), (2400.0, 0.0), (2400.0, 100.0))]
    full = [*case, (0.0, 2400.0, 300.0)]

    assert to_stand_up_by(case) == pytest.approx(math.hypot(2400.0, 100.0))
    assert to_stand_up_by(full) == pytest.approx(to_stand_up(2400.0, 300.0))
