"""Which parts lie at each other, which overlap, and along which directions it is worth trying to move.

What blocks a part is smallest at the corners of the cells into which the planes of contact divide all
directions. So it is enough to try along the normals of contact, both ways, along the lines in which two
of their planes meet, and along the world's axes; furniture has few distinct ones.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import combinations

import numpy as np

from ...geometry.frames import Vec, cross
from .sweeps import CONTACT, Ints, Pairs, Pieces, pairs

NEAR = 1.5  # mm: more than the usual play of joints and seats; what lies further off is met by the sweep
MANY = 14  # distinct normals, above which their lines are taken with the world's axes only

AXES: tuple[Vec, ...] = ((0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))


@dataclass(frozen=True)
class Contacts:
    """Pairs of near pieces of different parts.

    Attributes:
        one, other: `(p,)` numbers of the pieces, `one` of the part with the lower number.
        laid: the pairs on their axes.
        overlaps: pairs of parts that take up the same space.
        normals: distinct normals of the faces at which parts lie near each other.
    """

    one: Ints
    other: Ints
    laid: Pairs
    overlaps: tuple[tuple[int, int], ...]
    normals: tuple[Vec, ...]


def contacts(every: Pieces) -> Contacts:
    """Find all near pairs, part by part against those that follow."""
    ones: list[Ints] = []
    others: list[Ints] = []
    for part in range(len(every.first) - 1):
        own = np.arange(every.first[part], every.first[part + 1])
        rest = np.arange(every.first[part + 1], len(every.owner))
        if not len(own) or not len(rest):
            continue
        low, high = every.low[own].min(axis=0) - NEAR, every.high[own].max(axis=0) + NEAR
        rest = rest[np.all((every.low[rest] < high) & (every.high[rest] > low), axis=1)]
        near = np.ones((len(own), len(rest)), dtype=bool)
        for axis in range(3):
            near &= every.low[rest][None, :, axis] < every.high[own][:, None, axis] + NEAR
            near &= every.high[rest][None, :, axis] > every.low[own][:, None, axis] - NEAR
        i, j = np.nonzero(near)
        ones.append(own[i])
        others.append(rest[j])
    one = np.concatenate(ones) if ones else np.zeros(0, dtype=np.int64)
    other = np.concatenate(others) if others else np.zeros(0, dtype=np.int64)
    laid = pairs(every, one, other)
    gaps = laid.gaps if len(one) else np.zeros(0)
    near = gaps <= NEAR
    one, other, gaps = one[near], other[near], gaps[near]
    laid = Pairs(laid.axes[near], laid.ahead[near], laid.behind[near])
    inside = gaps < -CONTACT
    clash = sorted(set(zip(every.owner[one[inside]].tolist(), every.owner[other[inside]].tolist(), strict=True)))
    return Contacts(one, other, laid, tuple(clash), _normals(every, sorted({*one.tolist(), *other.tolist()})))


def _normals(every: Pieces, numbers: list[int]) -> tuple[Vec, ...]:
    if not numbers:
        return ()
    rows = np.round(every.normals[numbers].reshape(-1, 3), 9) + 0.0
    found: dict[tuple[float, ...], Vec] = {}
    for x, y, z in sorted(set(map(tuple, rows.tolist()))):
        first = next((part for part in (x, y, z) if abs(part) > 1e-7), 1.0)
        normal = (x, y, z) if first > 0 else (-x + 0.0, -y + 0.0, -z + 0.0)
        found.setdefault(tuple(round(part, 6) + 0.0 for part in normal), normal)
    return tuple(found[key] for key in sorted(found))


def directions(normals: Iterable[Vec], motions: Iterable[Vec]) -> tuple[Vec, ...]:
    """Directions to try, out of the wall and to the wall first, each with its opposite behind it."""
    faces = list(normals)
    with_whom = faces if len(faces) <= MANY else []
    lines = [cross(n, m) for n, m in combinations(with_whom, 2)]
    lines += [cross(n, axis) for n in faces for axis in AXES]
    found: dict[tuple[float, ...], Vec] = {}
    for x, y, z in (*AXES, *motions, *faces, *lines):
        size = (x * x + y * y + z * z) ** 0.5
        if size < 1e-6:
            continue
        way = (x / size + 0.0, y / size + 0.0, z / size + 0.0)
        key = tuple(round(part, 6) + 0.0 for part in way)
        opposite = tuple(-part + 0.0 for part in key)
        if key not in found and opposite not in found:
            found[key] = way
    return tuple(turn for way in found.values() for turn in (way, (-way[0] + 0.0, -way[1] + 0.0, -way[2] + 0.0)))
