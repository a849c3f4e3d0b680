"""The search for near strips, against every pair measured one by one.

The distance of two strips is that of two rectangles, found by shapely from their corners.
"""

import math
import random
from itertools import combinations

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from dryfit.geometry.nearness import StraightStrip, near_pairs


def rectangle(strip):
    (x, y), (ux, uy) = strip.start, strip.u
    ends = ((x, y), (x + ux * strip.length, y + uy * strip.length))
    off = (-uy * strip.half, ux * strip.half)
    (a, b), (c, d) = ends
    return Polygon(
        [(a - off[0], b - off[1]), (c - off[0], d - off[1]), (c + off[0], d + off[1]), (a + off[0], b + off[1])]
    )


@st.composite
def strips(draw):
    place = st.floats(-2000, 2000)
    angle = math.radians(draw(st.one_of(st.sampled_from((0, 45, 90, 135, 180, 270)), st.floats(0, 360))))
    return StraightStrip(
        (draw(place), draw(place)),
        (math.cos(angle), math.sin(angle)),
        draw(st.sampled_from((30.0, 400.0, 3000.0))),
        draw(st.sampled_from((6.0, 12.0, 60.0))),
    )


@settings(max_examples=200, deadline=None)
@given(many=st.lists(strips(), max_size=14), reach=st.sampled_from((0.0, 1.0, 5.0, 200.0)))
def test_every_pair_nearer_than_the_reach_is_found(many, reach):
    shapes = [rectangle(strip) for strip in many]
    near = {(i, j) for i, j in combinations(range(len(many)), 2) if shapes[i].distance(shapes[j]) < reach - 1e-6}
    overlapping = {
        (i, j) for i, j in combinations(range(len(many)), 2) if shapes[i].buffer(-1e-6).intersects(shapes[j])
    }

    found = near_pairs(many, reach)

    assert found == sorted(set(found))
    assert near | overlapping <= set(found)


def grid(count):
    along = [StraightStrip((0.0, 300.0 * i), (1.0, 0.0), 300.0 * count, 12.0) for i in range(count)]
    up = [StraightStrip((300.0 * i + 150, -150.0), (0.0, 1.0), 300.0 * count, 12.0) for i in range(count)]
    return along + up


def test_in_a_large_grid_few_but_the_boards_that_cross_are_looked_at_closer():
    """60 boards each way: 3600 crossings among 7140 pairs, and less than a quarter more is looked at."""
    assert 3600 <= len(near_pairs(grid(60), 5.0)) < 4500


@pytest.mark.parametrize("many", [[], [StraightStrip((0.0, 0.0), (1.0, 0.0), 10.0, 1.0)]], ids=["none", "one"])
def test_fewer_than_two_strips_have_no_pairs(many):
    assert near_pairs(many, 5.0) == []


def test_long_raking_boards_do_not_fill_the_box_around_them():
    """Parallel boards at 45 degrees, 100 apart: each box covers all the others, yet none is near."""
    diagonal = math.sqrt(0.5)
    raking = [StraightStrip((200.0 * i, 0.0), (diagonal, diagonal), 3000.0, 12.0) for i in range(20)]

    assert len(near_pairs(raking, 5.0)) <= 4 * len(raking)


@settings(max_examples=60, deadline=None)
@given(seed=st.integers(0, 10**6), angle=st.floats(0, 180))
def test_short_strips_all_along_a_long_one_are_found_to_the_last_of_the_reach(seed, angle):
    """Cells shrink with the mean length, so a strip's own slope counts: 40 bits of 15 just within 5 of one of 2000."""
    rng = random.Random(seed)
    ux, uy = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    bits = []
    for _ in range(40):
        at, aside = rng.uniform(0, 1985), rng.choice((1, -1)) * (6 + 6 + 4.99)
        bits.append(StraightStrip((at * ux - aside * uy, at * uy + aside * ux), (ux, uy), 15.0, 6.0))

    found = near_pairs([StraightStrip((0.0, 0.0), (ux, uy), 2000.0, 6.0), *bits], 5.0)

    assert {(0, i) for i in range(1, 41)} <= set(found)
