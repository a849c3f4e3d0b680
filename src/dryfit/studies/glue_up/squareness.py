"""Checking a frame of four sides while the glue is open: both diagonals, and what one of rack makes of them."""

import math
from collections.abc import Sequence
from dataclasses import dataclass

from ...geometry.frames import Vec2

LEAN = 0.5  # mm that a frame may lean over its height
WIND = 0.5  # mm that its corners may be out of one plane
LIMITS_FROM = "common practice"


@dataclass(frozen=True, slots=True, kw_only=True)
class Squareness:
    """What to measure on a frame of four sides, front and back.

    Attributes:
        outside, inside: both diagonals, corner to corner.
        differ_by: by how much more than now the diagonals differ for 1 of lean.
        lean, wind: the most that is let pass, and `source` where that is said.
    """

    outside: tuple[float, float]
    inside: tuple[float, float]
    differ_by: float
    lean: float = LEAN
    wind: float = WIND
    source: str = LIMITS_FROM


Line = tuple[Vec2, Vec2]  # a point, a unit vector


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
