"""Solids by hand: boards of 1000 x 20 x 300 with one thing taken out at a time.

Whole: 1000 x 20 x 300 = 6 000 000 mm3. Round things are polygons in a solid: a circle of n sides has the area
n / 2 sin(360 / n) r2, so a hole of 32 sides takes 0.64 % less than a round one.
"""

import math

import pytest

from dryfit.geometry.frames import Frame
from dryfit.geometry.shapes import Bore, HalfSpace, Prism, corners, half_space, outline, prism
from dryfit.geometry.solids import SIDES, RoughBoard, centroid_of, flattened, mesh_of, placed, solid_of
from dryfit.keeping import Keep

WHOLE = 1000 * 20 * 300
STOCK = RoughBoard(outline=((0.0, -10.0), (1000.0, -10.0), (1000.0, 10.0), (0.0, 10.0)), depth=300.0)
ROUND = SIDES / 2 * math.sin(2 * math.pi / SIDES)  # in place of pi


def taken(*shapes, stock=STOCK):
    return WHOLE - solid_of(stock, shapes, Keep()).volume()


def boxed(a, c, d):
    (a0, a1), (c0, c1), (d0, d1) = a, c, d
    return prism(((a0, c0), (a1, c0), (a1, c1), (a0, c1)), d0, d1)


TURNED = Frame(
    (500.0, 0.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0)
)  # x across the board, z to the face
TAKEN = {
    "nothing": ((), 0.0),
    "a slot from the front, past both faces": ((boxed((100, 124), (-11, 11), (150, 301)),), 24 * 20 * 150),
    "a housing 8 deep": ((boxed((100, 124), (2, 11), (-1, 301)),), 24 * 8 * 300),
    "two cuts that share half": (
        (boxed((100, 124), (-11, 11), (200, 301)), boxed((112, 136), (-11, 11), (200, 301))),
        36 * 20 * 100,
    ),
    "an end sawn square": ((half_space((990.0, 0.0), (1.0, 0.0)),), 10 * 20 * 300),
    "an end sawn at 45": ((half_space((1000.0, 10.0), (1.0, -1.0)),), 20 * 20 / 2 * 300),
    "both ends": ((half_space((990.0, 0.0), (1.0, 0.0)), half_space((5.0, 0.0), (-1.0, 0.0))), 15 * 20 * 300),
    "a front edge planed off at 45": (
        (HalfSpace(point=(0.0, 10.0, 290.0), normal=(0.0, 0.5**0.5, 0.5**0.5)),),
        10 * 10 / 2 * 1000,
    ),
    "the front 40 sawn off": ((HalfSpace(point=(0.0, 0.0, 260.0), normal=(0.0, 0.0, 1.0)),), 40 * 20 * 1000),
    "a bore through the thickness": (
        (Bore(start=(500.0, -10.0, 100.0), direction=(0.0, 1.0, 0.0), profile=((-1.0, 8.0), (21.0, 0.0))),),
        ROUND * 16 * 20,
    ),
    "a counterbored hole from the front edge": (
        (
            Bore(
                start=(500.0, 0.0, 300.0),
                direction=(0.0, 0.0, -1.0),
                profile=((-1.0, 13.0), (237.5, 6.6), (301.0, 0.0)),
            ),
        ),
        ROUND * (6.5**2 * 237.5 + 3.3**2 * 62.5),
    ),
    "a slot in its own frame": (
        (Prism(outline=outline((50, -5), (250, -5), (250, 5), (50, 5)), low=4.0, high=11.0, frame=TURNED),),
        200 * 10 * 6,
    ),
    "a tapered socket, 10 wide at the face and 14 at the floor": (
        (
            Prism(
                outline=outline((-1, -7), (301, -7), (301, 7), (-1, 7)),
                outline_high=outline((-1, -5), (301, -5), (301, 5), (-1, 5)),
                low=2.0,
                high=10.0,
                frame=TURNED,
            ),
        ),
        (14 + 10) / 2 * 8 * 300,
    ),
}


@pytest.mark.parametrize(("shapes", "volume"), TAKEN.values(), ids=TAKEN)
def test_a_shape_takes(shapes, volume):
    assert taken(*shapes) == pytest.approx(volume, abs=0.01)


def test_a_half_round_groove_bulges_outward_and_is_nearly_round():
    """A bulge of 1 is half a circle; with sides of 7.5 degrees its area is within 0.3 % of the round one."""
    groove = Prism(outline=((490.0, 10.0, 1.0), (510.0, 10.0, 0.0)), low=-1.0, high=301.0)

    assert taken(groove) == pytest.approx(math.pi * 100 / 2 * 300, rel=0.003)
    assert min(y for _, y in flattened(groove.outline)) == pytest.approx(0.0)


def test_a_whole_circle_is_two_knots_and_a_quarter_turn_has_a_bulge_of_tan_22_5():
    circle = flattened(((490.0, 0.0, 1.0), (510.0, 0.0, 1.0)))
    quarter = flattened(((10.0, 0.0, math.tan(math.radians(22.5))), (0.0, 10.0, 0.0), (0.0, 0.0, 0.0)))

    assert {round(math.hypot(x - 500, y), 9) for x, y in circle} == {10.0}
    assert {round(math.hypot(x, y), 9) for x, y in quarter} == {10.0, 0.0}


def test_a_negative_bulge_is_a_hollow():
    scooped = flattened(((0.0, 0.0, -1.0), (20.0, 0.0, 0.0), (20.0, 30.0, 0.0), (0.0, 30.0, 0.0)))

    assert max(y for x, y in scooped if 5 < x < 15) == pytest.approx(10.0)


def test_a_board_that_tapers_has_the_volume_of_its_mean_thickness():
    stock = RoughBoard(outline=((0.0, -10.0), (1000.0, -15.0), (1000.0, 15.0), (0.0, 10.0)), depth=300.0)

    assert solid_of(stock, (), Keep()).volume() == pytest.approx(1000 * 25 * 300)


def test_the_holed_blank_is_kept_apart_from_the_slots():
    keep = Keep()
    bore = Bore(start=(500.0, -10.0, 100.0), direction=(0.0, 1.0, 0.0), profile=((-1.0, 8.0), (21.0, 0.0)))
    for a in (100.0, 101.0, 102.0):
        solid_of(STOCK, (bore, boxed((a, a + 24), (-11, 11), (150, 301))), keep)

    assert keep.made["solid"] == 3
    assert keep.made["holed blank"] == 1


def test_the_same_solid_is_not_made_twice():
    keep = Keep()

    assert solid_of(STOCK, (), keep) is solid_of(RoughBoard(outline=STOCK.outline, depth=300.0), (), keep)
    assert keep.made["solid"] == 1


def test_a_board_cut_away_whole_is_empty():
    solid = solid_of(STOCK, (half_space((-5.0, 0.0), (1.0, 0.0)),), Keep())

    assert solid.is_empty()
    assert centroid_of(solid) == (0.0, 0.0, 0.0)


def test_the_centroid_of_an_l_is_that_of_its_two_parts():
    """Half the length keeps all its depth, half keeps 100 of 300: centroids weigh 3 to 1."""
    solid = solid_of(STOCK, (boxed((500, 1001), (-11, 11), (100, 301)),), Keep())

    assert centroid_of(solid) == pytest.approx(((3 * 250 + 750) / 4, 0.0, (3 * 150 + 50) / 4))


def test_a_solid_is_placed_where_its_board_stands():
    frame = Frame((10.0, 20.0, 30.0), (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0), (0.0, 0.0, 1.0))
    vertices, triangles = mesh_of(placed(solid_of(STOCK, (), Keep()), frame))

    assert vertices.min(axis=0) == pytest.approx((0, 20, 30))
    assert vertices.max(axis=0) == pytest.approx((20, 1020, 330))
    assert triangles.shape == (12, 3)


def test_the_corners_of_a_prism_are_those_of_both_its_ends_in_the_board_s_frame():
    socket = Prism(
        outline=outline((-1, -7), (301, -7), (301, 7), (-1, 7)),
        outline_high=outline((-1, -5), (301, -5), (301, 5), (-1, 5)),
        low=2.0,
        high=10.0,
        frame=TURNED,
    )

    assert {(a, c) for a, c, _ in corners(socket)} == {(493, 2), (507, 2), (495, 10), (505, 10)}


@pytest.mark.parametrize("way", [1, -1], ids=["clockwise", "anticlockwise"])
def test_an_outline_runs_anticlockwise_however_its_points_are_given(way):
    points = ((0.0, 0.0), (0.0, 5.0), (5.0, 5.0), (5.0, 0.0))[::way]
    knots = [(x, y) for x, y, _ in outline(*points)]

    assert set(knots) == set(points)
    assert sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(knots, knots[1:] + knots[:1], strict=True)) == 50.0


def test_numbers_of_a_shape_are_rounded_and_never_minus_nought():
    shape = prism(((-1e-9, 0.0), (1 / 3, 0.0), (1 / 3, 1.0), (-1e-9, 1.0)), -1e-9, 2 / 3)

    assert {str(x) for x, _, _ in shape.outline} == {"0.0", "0.333333"}
    assert (str(shape.low), str(shape.high)) == ("0.0", "0.666667")
    assert half_space((1 / 3, -0.0), (3.0, 4.0)) == HalfSpace(point=(0.333333, 0.0, 0.0), normal=(0.6, 0.8, 0.0))
