"""What is seen of screws: where each mouth lies in its surface, what lies against it, from which sides it is seen.

Uprights 24 thick and 300 deep with a shelf between them at y = 400, screwed through their outer faces by three screws:
evenly over the depth these stand at 50, 150 and 250. Of a screw 5 x 60 the head is 10 wide: a plug of 12 is the next
that is cut over it. The left upright is from x = 0 to 24, so that its mouths lie at x = 0.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.geometry.frames import cross, dot
from dryfit.geometry.shapes import rim_of
from dryfit.studies.driving.result import Driving
from tests.joints.test_mitre import corner_at
from tests.joints.typed import board, book_of, job, table
from tests.studies.test_driving import BRICK, fixing, shelf
from tests.studies.test_driving_joined import bay, upright

SIDES = ("front", "left", "right", "top", "underside", "back")


def mouths(text, name=""):
    return [one for one in book_of(text).found(Driving).mouths if name in ("", one.board)]


def test_each_plug_lies_where_its_screw_s_axis_meets_the_outer_face():
    found = mouths(bay(), "left")

    assert [one.at for one in found] == [pytest.approx((0, 400, z)) for z in (50, 150, 250)]
    assert {(one.what, one.wide, one.out, one.normal) for one in found} == {("plug", 12.0, (-1, 0, 0), (-1, 0, 0))}
    assert [one.at for one in mouths(bay(), "right")] == [pytest.approx((624, 400, z)) for z in (50, 150, 250)]
    for one in found:
        assert (one.looks, one.seen_from, one.covered, one.is_outside) == ("left", ("left",), False, True)


def test_of_a_long_screw_it_lies_in_the_front_edge_and_is_an_open_mouth_where_it_is_not_plugged():
    """260 deep, its line at y = 500, the screw 200 along it; the counterbore is 15 wide."""
    (plugged,) = mouths(job(BRICK, shelf(), fixing()))
    (bare,) = mouths(job(BRICK, shelf(), fixing(plugged=False)))

    assert (plugged.what, bare.what) == ("plug", "mouth")
    assert plugged.at == pytest.approx((200, 500, 260))
    assert (plugged.normal, plugged.wide, plugged.seen_from) == ((0, 0, 1), 15.0, ("front",))


@pytest.mark.parametrize(("gap", "covered"), [(0.0, True), (0.9, True), (3.0, False)])
def test_a_board_laid_against_it_covers_it_and_one_that_stands_off_does_not(gap, covered):
    """24 thick: its middle is 12 and the gap before the face. Off it, it still stands before it: seen from no side."""
    found = mouths(bay(upright("cover", -12 - gap)), "left")

    assert {one.covered for one in found} == {covered}
    assert {one.by for one in found} == {("cover",) if covered else ()}
    assert {one.seen_from for one in found} == {()}
    assert {one.is_outside for one in mouths(bay(upright("cover", -12 - gap)), "right")} == {True}


@pytest.mark.parametrize(("top", "seen"), [(393, True), (400, True), (405, True), (406, False)])
def test_a_board_that_covers_a_part_of_it_leaves_the_rest_to_be_seen(top, seen):
    """A plug of 12 at 400 reaches from 394 to 406; looked at from 0.9 of that on: up to 405.4."""
    found = mouths(bay(board("cover", [[-12, 0], [-12, top]], 300, "24")), "left")

    assert {one.is_outside for one in found} == {seen}
    assert {one.covered for one in found} == {not seen}
    assert {one.by for one in found} == {() if top < 394 else ("cover",)}


def test_a_wall_of_the_room_covers_what_stands_against_it():
    against = table("[wall]", left=0, right=700)
    (left,), (right,) = ({(one.covered, one.by) for one in mouths(bay(against), name)} for name in ("left", "right"))

    assert left == (True, ())
    assert right == (False, ())


def test_what_stands_far_before_it_hides_it_from_that_side_and_covers_nothing():
    found = mouths(bay(upright("other", -500)), "left")

    assert {(one.covered, one.seen_from, one.is_outside) for one in found} == {(False, (), False)}


@pytest.mark.parametrize("corner", [90, 80])
def test_of_a_mitre_its_axis_meets_the_outside_face_and_shows_an_ellipse_where_it_stands_aslant(corner):
    """In a corner of 80 degrees the axis stands 10 off square to the face: there the plug is 1 / cos(10) longer."""
    text = corner_at(corner, strengthen="screws")
    boards = book_of(text).piece.board_by_name

    assert mouths(text)
    for one in mouths(text):
        made = boards[one.board]
        a, c, _ = made.frame.find(one.at)
        assert abs(c) == pytest.approx(made.thickness_at(a) / 2, abs=1e-5)
        upright_by = math.cos(math.radians(90 - corner))
        assert dot(one.out, one.normal) == pytest.approx(upright_by, abs=1e-6)
        rim = rim_of(one.at, one.out, one.normal, one.wide, 360)
        assert max(math.dist(point, one.at) for point in rim) == pytest.approx(one.wide / 2 / upright_by, rel=1e-3)


def test_in_a_face_that_tapers_it_is_square_to_that_face():
    """From 40 thick to 24 over 800: each face leans by 8 in 800, 0.01."""
    text = bay().replace('name = "left"\n', 'name = "left"\nthickness_at = [[0, 40], [800, 24]]\n')
    found = mouths(text, "left")

    assert found
    for one in found:
        assert one.normal == pytest.approx((-1 / math.hypot(1, 0.01), 0.01 / math.hypot(1, 0.01), 0.0), abs=1e-6)


DIRECTIONS = st.tuples(st.floats(-1, 1), st.floats(-1, 1), st.floats(-1, 1)).filter(lambda v: dot(v, v) > 0.1)


def unit(v):
    size = math.sqrt(dot(v, v))
    return tuple(one / size for one in v)


@given(st.tuples(*[st.floats(-2000, 2000)] * 3), DIRECTIONS, DIRECTIONS, st.floats(4, 40))
def test_a_rim_lies_in_its_surface_and_a_radius_from_its_axis(at, axis, aside, wide):
    axis, aside = unit(axis), unit(aside)
    normal = unit(tuple(3 * a + b for a, b in zip(axis, aside, strict=True)))

    for point in rim_of(at, axis, normal, wide, 12):
        off = tuple(p - o for p, o in zip(point, at, strict=True))
        assert dot(off, normal) == pytest.approx(0.0, abs=1e-6)
        assert math.hypot(*cross(off, axis)) == pytest.approx(wide / 2, abs=1e-6)


def test_every_screw_has_one_and_no_dowel_has():
    found = book_of(bay()).found(Driving)
    assert len(found.mouths) == len(found.joined) == 6
    assert mouths(bay().replace('fasten = "screws"', 'fasten = "dowels"')) == []
    assert {one.looks for one in found.mouths} <= set(SIDES)
