"""Solids of parts, by hand.

A shelf 2000 x 24 x 300 crossed square by an upright: its slot is 24.15 x 24 x 150.5 = 87 224 mm3.
"""

import pytest

from dryfit.keeping import Keep
from dryfit.piece.solids import Solids

from .making import built, job_of, plank, rules

SHELF = plank("shelf", (0, 600), (2000, 600))


def volumes(*boards, **more):
    piece = built(job_of(*boards, **more))
    solids = Solids()
    return {part.id: solids.volume(part) for part in piece.parts}


def test_a_crossed_board_is_itself_less_its_slot():
    found = volumes(SHELF, plank("upright", (500, 0), (500, 1200)), joints=rules(clearance=0.15))

    assert found["shelf"] == pytest.approx(2000 * 24 * 300 - 24.15 * 24 * 150.5)
    assert found["upright"] == pytest.approx(1200 * 24 * 300 - 24.15 * 24 * 150.5)


def test_a_tapering_board_is_its_mean_thickness():
    board = plank("shelf", (0, 600), (2000, 600), thickness_at=((0.0, 20.0), (2000.0, 26.0)))

    assert volumes(board)["shelf"] == pytest.approx(2000 * 23 * 300)


def test_a_board_measured_at_three_places_is_straight_between_them():
    board = plank("shelf", (2000, 600), (0, 600), thickness_at=((0.0, 20.0), (500.0, 26.0), (1500.0, 24.0)))

    assert volumes(board)["shelf"] == pytest.approx((500 * 23 + 1000 * 25 + 500 * 24) * 300)


def test_level_ends_of_a_raking_board_take_as_much_as_they_add():
    found = volumes(plank("raking", (0, 0), (300, 1900), ends=("level", "level")))

    assert found["raking"] == pytest.approx((300**2 + 1900**2) ** 0.5 * 24 * 300)


def test_a_board_lying_flat_has_its_width_on_the_wall():
    piece = built(job_of(plank("rail", (0, 500), (900, 500), depth=90, lies="flat")))
    solids, (part,) = Solids(), piece.parts

    assert solids.volume(part) == pytest.approx(900 * 24 * 90)
    assert part.board.frame.place(solids.centroid(part)) == pytest.approx((450, 500, 12))
    assert solids.surface(part) == pytest.approx(2 * (900 * 24 + 900 * 90 + 24 * 90))


def test_moving_a_board_makes_no_solid_anew():
    keep = Keep()
    for x in (0.0, 7.0, 1300.0):
        solids = Solids(keep)
        for part in built(job_of(plank("shelf", (x, 600), (x + 2000, 600)))).parts:
            solids.volume(part)

    assert keep.made["solid"] == 1


def test_a_mesh_is_whole_triangles_in_the_board_s_own_frame():
    (part,) = built(job_of(SHELF)).parts
    vertices, triangles = Solids().mesh(part)

    assert vertices.min(axis=0) == pytest.approx((0, -12, 0))
    assert vertices.max(axis=0) == pytest.approx((2000, 12, 300))
    assert triangles.max() < len(vertices)
