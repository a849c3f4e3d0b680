"""Frames: there and back again, right-handed, and exact where work is square."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.geometry.frames import WORLD, Frame, cross, dot, turned
from dryfit.geometry.polygons import area, clip, level_crossings

NUMBERS = st.floats(-5000, 5000)
POINTS = st.tuples(NUMBERS, NUMBERS, NUMBERS)


@st.composite
def frames(draw):
    first, second = (math.radians(draw(st.floats(-180, 180))) for _ in range(2))
    x = (math.cos(first) * math.cos(second), math.sin(first) * math.cos(second), math.sin(second))
    y = (-math.sin(first), math.cos(first), 0.0)
    return Frame(draw(POINTS), x, y, cross(x, y))


@given(frame=frames(), point=POINTS)
def test_a_point_placed_and_found_is_the_same_point(frame, point):
    assert frame.find(frame.place(point)) == pytest.approx(point, abs=1e-6)
    assert frame.find_direction(frame.direct(point)) == pytest.approx(point, abs=1e-6)
    assert dot(cross(frame.x, frame.y), frame.z) == pytest.approx(1.0)


def test_the_matrix_places_as_the_frame_does():
    frame = Frame((1.0, 2.0, 3.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    placed = tuple(sum(p * q for p, q in zip(row, (5.0, 6.0, 7.0, 1.0), strict=True)) for row in frame.matrix)

    assert placed == frame.place((5.0, 6.0, 7.0)) == (-5.0, 7.0, 10.0)
    assert WORLD.place((5.0, 6.0, 7.0)) == (5.0, 6.0, 7.0)


@pytest.mark.parametrize("quarter", range(-4, 5))
def test_square_work_stays_square_to_the_last_bit(quarter):
    assert turned(90.0 * quarter) in ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))
    assert turned(90.0 * quarter) == pytest.approx(
        (math.cos(math.pi / 2 * quarter), math.sin(math.pi / 2 * quarter)), abs=1e-15
    )


SQUARE = ((0.0, 0.0), (10.0, 0.0), (10.0, 10.0), (0.0, 10.0))


@pytest.mark.parametrize(
    ("point", "normal", "left"),
    [((4, 0), (1, 0), 40), ((4, 0), (-1, 0), 60), ((5, 5), (1, 1), 50), ((20, 0), (1, 0), 100), ((-1, 0), (1, 0), 0)],
    ids=["the left 4", "the right 6", "half on the diagonal", "nothing taken", "all taken"],
)
def test_a_polygon_is_clipped_by_a_line(point, normal, left):
    assert area(clip(SQUARE, point, normal)) == pytest.approx(left)


def test_a_line_crosses_an_outline_at_its_least_and_greatest_place():
    leaning = ((100.0, -11.0), (124.0, -11.0), (128.0, 11.0), (104.0, 11.0))

    assert level_crossings(leaning, 0.0) == pytest.approx((102, 126))
    assert level_crossings(leaning, 11.0) == pytest.approx((104, 128))
    assert level_crossings(leaning, 12.0) is None
