"""Small cases of assembly with known answers, A1 to A7: each follows from geometry, as said beside it.

x and y as in the elevation, z out of the wall, which is up while the piece lies on its wall edges. Boards are 18
thick and 300 high and 100 apart where nothing else is said; slots are 18 wide, which is contact.
"""

import pytest

from dryfit.geometry.shapes import prism
from dryfit.studies.order.blocking import Blockers

from .shapes import LEVEL, UPRIGHT, assembly, board, egg_crate, planned, sawn, slot, whole


def moves(order):
    return [(str(step.name), leg.direction, leg.distance) for step in whole(order).steps for leg in step.legs]


# ---- A1: an egg-crate


@pytest.mark.parametrize(("n", "m"), [(1, 1), (2, 2), (3, 5), (6, 4)])
def test_a1_an_egg_crate_goes_together_one_by_one_every_y_board_after_all_the_x_boards_it_crosses(n, m):
    order = planned(egg_crate(n, m))

    assert order.overlaps == ()
    assert order.turns == 0
    assert len(whole(order).steps) == n + m - 1
    told = assembly(order)
    assert {name[0] for name in told[:n]} == {"X"}
    assert {name[0] for name in told[n:]} == {"Y"}
    assert all(len(step.parts) == 1 for step in whole(order).steps)
    for name, direction, _ in moves(order):
        assert name[0] == "Y"
        assert direction == (0.0, 0.0, -1.0)


def test_a1_first_out_are_only_y_upward_and_x_downward_and_nothing_leaves_sideways():
    ground = Blockers(egg_crate(3, 3), ())
    for part, name in enumerate(ground.names):
        for way, direction in enumerate(ground.directions):
            ground.settle(way, part, (1 << len(ground.names)) - 1 & ~(1 << part))
            free = not ground.blocked.blockers(way, part)
            assert free == (direction == ((0.0, 0.0, 1.0) if name[0] == "Y" else (0.0, 0.0, -1.0)))


# ---- A2 to A4: joints that are swapped


def test_a2_two_joints_swapped_at_opposite_corners_lock_all_four_and_that_is_no_clash():
    order = planned(egg_crate(2, 2, swapped={(0, 0), (1, 1)}))

    assert order.overlaps == ()
    (lock,) = order.locked
    assert sorted(lock.parts) == ["X0", "X1", "Y0", "Y1"]
    assert all(len(others) == 1 for _, others in lock.waits)  # each can only leave after one other, in a ring


def test_a3_in_a_grid_of_25_by_25_exactly_the_four_of_the_hidden_ring_are_named():
    order = planned(egg_crate(25, 25, swapped={(7, 9), (8, 10)}))

    (lock,) = order.locked
    assert sorted(lock.parts) == ["X7", "X8", "Y10", "Y9"]


def test_a4_one_swapped_joint_leaves_one_order_only():
    """Y1 > X0 > Y0 > X1 and Y1 > X1: lifted in the order Y1, X0, Y0."""
    order = planned(egg_crate(2, 2, swapped={(0, 0)}))

    assert order.locked == ()
    assert assembly(order) == ["X1", "Y0", "X0", "Y1"]


# ---- A5: a mitred frame with a captured panel


def framed_panel():
    """600 x 400 of rails 60 wide and 20 thick, mitred; a groove of 6, 10 deep; a panel 500 x 300 x 6 in it."""

    def rail(name, axes, origin, length):
        ends = (sawn(30.0, 0.0, -(0.5**0.5), 0.5**0.5), sawn(length - 30.0, 0.0, 0.5**0.5, 0.5**0.5))
        groove = prism(((20.0, 20.0), (length - 20.0, 20.0), (length - 20.0, 31.0), (20.0, 31.0)), 7.0, 13.0)
        return board(name, axes, origin, length, thickness=60.0, depth=20.0, cuts=(*ends, groove))

    x, y, z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
    back_x, back_y = (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0)
    return [
        rail("bottom", (x, y, z), (0.0, 30.0, 0.0), 600.0),
        rail("right", (y, back_x, z), (570.0, 0.0, 0.0), 400.0),
        rail("top", (back_x, back_y, z), (600.0, 370.0, 0.0), 600.0),
        rail("left", (back_y, x, z), (30.0, 400.0, 0.0), 400.0),
        board("panel", LEVEL, (50.0, 200.0, 7.0), 500.0, thickness=300.0, depth=6.0),
    ]


def test_a5_a_panel_held_in_a_frame_goes_in_before_the_last_rail():
    order = planned(framed_panel())

    assert order.overlaps == ()
    assert order.locked == ()
    told = assembly(order)
    assert told[-1] != "panel"
    assert all(len(step.parts) == 1 for step in whole(order).steps)


def test_a5_any_single_rail_leaves_square_to_its_length_and_the_panel_does_not():
    ground = Blockers(framed_panel(), ())
    out = {"bottom": (0.0, -1.0, 0.0), "right": (1.0, 0.0, 0.0), "top": (0.0, 1.0, 0.0), "left": (-1.0, 0.0, 0.0)}
    for part, name in enumerate(ground.names):
        free = set()
        for way, direction in enumerate(ground.directions):
            ground.settle(way, part, 0b11111 & ~(1 << part))
            if not ground.blocked.blockers(way, part):
                free.add(direction)
        assert (out[name] in free) if name in out else free == set(), name


def test_a5_with_one_rail_gone_the_panel_leaves_on_that_side():
    ground = Blockers([part for part in framed_panel() if part.name != "right"], ())
    panel = ground.number["panel"]
    way = ground.directions.index((1.0, 0.0, 0.0))
    ground.settle(way, panel, 0b0111)

    assert not ground.blocked.blockers(way, panel)


# ---- A6: a housed shelf


def test_a6_a_housed_shelf_slides_out_in_front_or_behind_an_upright_leaves_sideways_and_nothing_goes_up_or_down():
    def side(name, x, face):
        c = sorted((face * 3.0, face * 10.0))
        housing = prism(((291.0, c[0]), (309.0, c[0]), (309.0, c[1]), (291.0, c[1])), -1.0, 301.0)
        return board(name, UPRIGHT, (x, 0.0, 0.0), 600.0, cuts=(housing,))

    shelf = board("shelf", LEVEL, (3.0, 300.0, 0.0), 494.0)
    ground = Blockers([side("left", 0.0, -1), side("right", 500.0, 1), shelf], ())
    free = {name: set() for name in ground.names}
    for part, name in enumerate(ground.names):
        for way, direction in enumerate(ground.directions):
            ground.settle(way, part, 0b111 & ~(1 << part))
            if not ground.blocked.blockers(way, part):
                free[name].add(direction)

    assert free["shelf"] == {(0.0, 0.0, 1.0), (0.0, 0.0, -1.0)}
    assert (-1.0, 0.0, 0.0) in free["left"]
    assert (1.0, 0.0, 0.0) in free["right"]
    assert not {(0.0, 1.0, 0.0), (0.0, -1.0, 0.0)} & (free["left"] | free["right"] | free["shelf"])


# ---- A7: a clash is no lock


def test_a7_two_boards_that_cross_without_a_slot_overlap_and_nothing_is_said_of_locking():
    parts = [
        board("A", LEVEL, (0.0, 100.0, 0.0), 300.0),
        board("B", UPRIGHT, (150.0, 0.0, 0.0), 300.0),
    ]
    order = planned(parts)

    assert order.overlaps == (("A", "B"),)
    assert order.locked == ()
    assert order.stages == ()


@pytest.mark.parametrize(("narrower", "clash"), [(0.0, False), (0.02, False), (0.4, True)])
def test_a7_a_slot_narrower_by_two_hundredths_is_contact_by_four_tenths_an_overlap(narrower, clash):
    assert bool(planned(egg_crate(2, 2, width=18.0 - narrower)).overlaps) == clash


# ---- what the shapes are made of


def test_a_board_with_slots_on_both_edges_is_a_spine_and_its_tabs():
    """Seats 1 apart: 3 tabs below, 3 above, and a spine of 1 between: the pieces add up to the board's volume."""
    from dryfit.geometry.bodies import pieces_of
    from dryfit.geometry.polygons import area

    part = board("A", LEVEL, (0.0, 0.0, 0.0), 500.0, cuts=(slot(150, 20, 150.5, 301), slot(350, 20, -1, 149.5)))
    slabs, solids = pieces_of(part.outline, part.depth, part.shapes)

    assert solids == ()
    assert len(slabs) == 5
    volume = sum(area(slab.outline) * (slab.high - slab.low) for slab in slabs)
    assert volume == pytest.approx(500 * 18 * 300 - 2 * 20 * 18 * 149.5)
