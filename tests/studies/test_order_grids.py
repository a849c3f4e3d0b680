"""Random halved grids: they are locked if and only if "lies before" has a ring, and the ring is named exactly.

The relation is sorted here by a few lines of our own. In a grid of plain halvings every board leaves along z
only, so a set is locked exactly while its relation has a ring; a smallest locked set is a ring from which no board
can be left out.
"""

import random

import pytest

from .shapes import egg_crate, planned


def lies_before(n, m, swapped):
    """(first, then): X lies first where it is slotted above, which is where the crossing is not swapped."""
    return {(f"Y{j}", f"X{i}") if (i, j) in swapped else (f"X{i}", f"Y{j}") for i in range(n) for j in range(m)}


def has_ring(relation, names):
    """Kahn: take off what nothing lies before, until nothing is left, or nothing is free."""
    inside = {(first, then) for first, then in relation if first in names and then in names}
    left = set(names)
    while True:
        free = {name for name in left if not any(then == name for _, then in inside)}
        if not free:
            return bool(left)
        left -= free
        inside = {(first, then) for first, then in inside if first not in free}


def random_grid(rng):
    n, m = rng.randint(1, 5), rng.randint(1, 5)
    share = rng.choice((0.05, 0.15, 0.3, 0.5))
    return n, m, {(i, j) for i in range(n) for j in range(m) if rng.random() < share}


@pytest.mark.parametrize("seed", range(5))
def test_a_random_grid_is_locked_if_and_only_if_lies_before_has_a_ring_and_the_smallest_ring_is_named(seed):
    rng = random.Random(seed)
    rings = 0
    for _ in range(100):
        n, m, swapped = random_grid(rng)
        relation = lies_before(n, m, swapped)
        names = [f"X{i}" for i in range(n)] + [f"Y{j}" for j in range(m)]
        order = planned(egg_crate(n, m, swapped, width=18.15, gap=1.0))

        assert order.overlaps == ()
        assert bool(order.locked) == has_ring(relation, set(names))
        for lock in order.locked:
            rings += 1
            assert has_ring(relation, set(lock.parts))
            assert not any(has_ring(relation, set(lock.parts) - {name}) for name in lock.parts)
        if not order.locked:
            (stage,) = order.stages
            assert stage.turns == 0
            lying = set(stage.first)
            for step in stage.steps:
                assert not any((part, other) in relation for part in step.parts for other in lying)
                lying |= set(step.parts)
            assert lying == set(names)
    assert rings > 10
