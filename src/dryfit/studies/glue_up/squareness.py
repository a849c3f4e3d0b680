"""Checking a frame while the glue is open: its diagonals, and what one of lean makes of a frame of four.

Frames of more sides have many diagonals. Where several should be equal and show every way in which the frame can go
out of shape, these are measured, the longest kind of them; else those from the first corner, which always show it.
A regular hexagon's three from corner to opposite corner do not: with every other corner 5 out and the rest 5 in, each
side is as long as before and the three are short by a quarter of a millimetre at most, all alike (for corners on a
circle of 300), while those past one corner are 8.4 too long or 8.9 too short.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from ...geometry.frames import Vec2

WITHIN = 0.5  # mm by which diagonals may differ from what they should be
WIND = 0.5  # mm that its corners may be out of one plane
LIMITS_FROM = "common practice"


@dataclass(frozen=True, slots=True, kw_only=True)
class Squareness:
    """What to measure on a frame of four sides, front and back.

    Attributes:
        outside, inside: both diagonals, corner to corner.
        differ_by: by how much more than now the diagonals differ for 1 of lean.
        within: the most by which the two may differ more than they do here.
        wind: the most that its corners may be out of one plane; `source` where both are said.
    """

    outside: tuple[float, float]
    inside: tuple[float, float]
    differ_by: float
    within: float = WITHIN
    wind: float = WIND
    source: str = LIMITS_FROM


@dataclass(frozen=True, slots=True, kw_only=True)
class Across:
    """What to measure on a frame of five sides or more, front and back.

    Attributes:
        between: the two corners of each diagonal, counted from 0; corner n begins side n.
        outside, inside: their lengths, in the same order.
        equal: whether all of them should be equal.
        within: the most by which they may differ from that.
    """

    between: tuple[tuple[int, int], ...]
    outside: tuple[float, ...]
    inside: tuple[float, ...]
    equal: bool
    within: float = WITHIN
    wind: float = WIND
    source: str = LIMITS_FROM


Line = tuple[Vec2, Vec2]  # a point, a unit vector
Ends = tuple[int, int]  # two corners, counted from 0
ALIKE = 0.05  # mm between diagonals that are the same
SEEN = 0.25  # of 1 mm that a frame is out of shape, what its lengths must show (ours: 2 out of shape shows as WITHIN)


def across(outside: Sequence[Line], inside: Sequence[Line]) -> Across | None:
    """The diagonals of a frame of more than four sides; None where two neighbours are parallel."""
    outer, inner = _corners(outside), _corners(inside)
    if outer is None or inner is None:
        return None
    count = len(outer)
    every = [(i, j) for i in range(count) for j in range(i + 2, count) if (i, j) != (0, count - 1)]
    alike = [
        [pair for pair in every if all(abs(_long(c, pair) - _long(c, one)) < ALIKE for c in (outer, inner))]
        for one in every
    ]
    serving = (group for group in alike if len(group) > 1 and _shown(outer, group) >= SEEN)
    longest = max(serving, key=lambda group: _long(outer, group[0]), default=None)
    between = longest or [pair for pair in every if pair[0] == 0]
    return Across(
        between=tuple(between),
        outside=tuple(_long(outer, pair) for pair in between),
        inside=tuple(_long(inner, pair) for pair in between),
        equal=longest is not None,
    )


def _long(corners: Sequence[Vec2], pair: Ends) -> float:
    return math.dist(corners[pair[0]], corners[pair[1]])


def _shown(corners: Sequence[Vec2], diagonals: Sequence[Ends]) -> float:
    """What lengths show of the way of going out of shape that they show least; 0 where they show nothing of it.

    The root of the sum of squares of all changes of length, sides included, for corners moved by 1 in the same
    measure: the least singular value of the matrix of the bars' directions, the three moves of the whole left out.
    """
    count = len(corners)
    bars = [*((i, (i + 1) % count) for i in range(count)), *diagonals]
    moves = 2 * count - 3
    if len(bars) < moves:
        return 0.0
    at = np.array(corners)
    rows = np.zeros((len(bars), count, 2))
    for row, (i, j) in zip(rows, bars, strict=True):
        row[i] = (at[i] - at[j]) / _long(corners, (i, j))
        row[j] = -row[i]
    return float(np.linalg.svd(rows.reshape(len(bars), -1), compute_uv=False)[moves - 1])


def squareness(outside: Sequence[Line], inside: Sequence[Line]) -> Squareness | None:
    """From the outside and the inside faces of four sides in their order, in the elevation; None for parallel ones."""
    outer, inner = _corners(outside), _corners(inside)
    if outer is None or inner is None:
        return None
    return Squareness(outside=_diagonals(outer), inside=_diagonals(inner), differ_by=_differ(outer))


def _corners(lines: Sequence[Line]) -> list[Vec2] | None:
    corners = []
    for (p, u), (q, v) in zip((*lines[-1:], *lines[:-1]), lines, strict=True):
        sine = u[0] * v[1] - u[1] * v[0]
        if abs(sine) < 1e-9:
            return None
        along = ((q[0] - p[0]) * v[1] - (q[1] - p[1]) * v[0]) / sine
        corners.append((p[0] + along * u[0], p[1] + along * u[1]))
    return corners


def _diagonals(corners: Sequence[Vec2]) -> tuple[float, float]:
    return math.dist(corners[0], corners[2]), math.dist(corners[1], corners[3])


def _differ(corners: Sequence[Vec2]) -> float:
    """The far side shifted by 1 along the first."""
    a, b, c, d = corners
    size = math.dist(a, b)
    shift = ((b[0] - a[0]) / size, (b[1] - a[1]) / size)
    c, d = (c[0] + shift[0], c[1] + shift[1]), (d[0] + shift[0], d[1] + shift[1])
    before, after = _diagonals(corners), _diagonals((a, b, c, d))
    return abs((after[0] - after[1]) - (before[0] - before[1]))
