"""Free ground on a sheet: what is thrown out at once is never free, and what is given is clear of all that stands.

A sheet's free part of 180 x 120, rings of 4 and leaders that keep 0.8 about them. The measure of truth is the
flat geometry of shapely: rings and thick lines as polygons of many sides.
"""

import math

import numpy as np
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import LineString, box

from dryfit.documents.sheets.page.ground import Ground

RING, LEADER = 4.0, 0.8
ROOM = (10.0, 20.0, 190.0, 140.0)
HAIR = 0.02  # a polygon of many sides lies so far within its circle
WAYS = [(r * math.cos(math.radians(t)), r * math.sin(math.radians(t))) for r in (8.0, 15.0) for t in range(0, 360, 30)]

places = st.tuples(st.floats(15, 185), st.floats(25, 135))
lines = st.tuples(places, places, st.sampled_from([0.8, 2.5, 4.0]))
words = st.tuples(places, st.floats(2, 60), st.floats(2, 30))


def thick(start, stop, radius):
    return LineString([start, stop]).buffer(radius, quad_segs=64)


def stood(taken, boxes):
    ground, shapes = Ground(*ROOM), []
    for start, stop, radius in taken:
        ground.take(start, stop, radius)
        shapes.append(thick(start, stop, radius))
    for (x, y), wide, high in boxes:
        ground.take_box(x, y, x + wide, y + high)
        shapes.append(box(x, y, x + wide, y + high))
    return ground, shapes


def has_room(foot, centre, shapes, more):
    """By shapely, with everything grown by `more`."""
    ring, leader = thick(centre, centre, RING + more), thick(foot, centre, LEADER + more)
    inside = box(*ROOM).contains(thick(centre, centre, RING))
    return inside and not any(shape.intersects(ring) or shape.intersects(leader) for shape in shapes)


@settings(max_examples=150)
@given(taken=st.lists(lines, max_size=12), boxes=st.lists(words, max_size=2), foot=places)
def test_the_ring_that_is_given_is_the_first_that_has_room(taken, boxes, foot):
    ground, shapes = stood(taken, boxes)
    centres = [(foot[0] + x, foot[1] + y) for x, y in WAYS]

    found = ground.first_ring(np.full((len(WAYS), 2), foot), np.asarray(centres), RING, LEADER)

    before = centres if found is None else centres[:found]
    assert not any(has_room(foot, centre, shapes, HAIR) for centre in before)
    if found is not None:
        assert has_room(foot, centres[found], shapes, -HAIR)


@settings(max_examples=150)
@given(taken=st.lists(lines, max_size=12), boxes=st.lists(words, max_size=2), word=words)
def test_words_have_room_where_nothing_stands_and_the_sheet_does_not_end(taken, boxes, word):
    ground, shapes = stood(taken, boxes)
    (x, y), wide, high = word
    area = box(x, y, x + wide, y + high)

    if ground.free_box(x, y, x + wide, y + high):
        assert box(*ROOM).contains(area)
        assert all(shape.intersection(area.buffer(-HAIR)).is_empty for shape in shapes)
    else:
        assert not (box(*ROOM).contains(area.buffer(HAIR)) and all(shape.distance(area) > HAIR for shape in shapes))


@pytest.mark.parametrize("radius", [0.4, 2.5])
def test_an_arrow_stays_on_the_free_part(radius):
    ground = Ground(*ROOM)

    assert ground.free((20.0, 30.0), (40.0, 30.0), radius)
    assert not ground.free((20.0, 20.0 + radius), (40.0, 30.0), radius)
    ground.take((30.0, 20.0), (30.0, 60.0), 0.8)
    assert not ground.free((20.0, 30.0), (40.0, 30.0), radius)
