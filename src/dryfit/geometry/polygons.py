"""Small exact sums on polygons in the plane, on tuples: clipping, area, extent."""

import math
from collections.abc import Sequence

from .frames import Vec2


def area(points: Sequence[Vec2]) -> float:
    """Signed area, positive anticlockwise."""
    return (
        sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(points, [*points[1:], points[0]], strict=True)) / 2
        if points
        else 0.0
    )


def clip(points: Sequence[Vec2], point: Vec2, normal: Vec2) -> list[Vec2]:
    """The part of a polygon on the near side of a line: where normal . (p - point) <= 0."""
    kept: list[Vec2] = []
    if not points:
        return kept
    heights = [normal[0] * (p[0] - point[0]) + normal[1] * (p[1] - point[1]) for p in points]
    for index, (p, height) in enumerate(zip(points, heights, strict=True)):
        q, other = points[index - 1], heights[index - 1]
        if (height <= 0.0) != (other <= 0.0):
            share = other / (other - height)
            kept.append((q[0] + share * (p[0] - q[0]), q[1] + share * (p[1] - q[1])))
        if height <= 0.0:
            kept.append(p)
    return kept


def distance(points: Sequence[Vec2], point: Vec2) -> float:
    """From a point to a polygon; 0 inside it."""
    if contains(points, point):
        return 0.0
    return min(_to_side(points[index - 1], p, point) for index, p in enumerate(points))


def contains(points: Sequence[Vec2], point: Vec2) -> bool:
    """Whether a point lies inside a polygon."""
    x, y = point
    inside = False
    for index, p in enumerate(points):
        q = points[index - 1]
        if (p[1] > y) != (q[1] > y) and x < q[0] + (y - q[1]) * (p[0] - q[0]) / (p[1] - q[1]):
            inside = not inside
    return inside


def _to_side(start: Vec2, end: Vec2, point: Vec2) -> float:
    dx, dy = end[0] - start[0], end[1] - start[1]
    square = dx * dx + dy * dy
    share = 0.0
    if square > 0.0:
        share = min(max(((point[0] - start[0]) * dx + (point[1] - start[1]) * dy) / square, 0.0), 1.0)
    return math.hypot(start[0] + share * dx - point[0], start[1] + share * dy - point[1])


def level_crossings(points: Sequence[Vec2], c: float) -> tuple[float, float] | None:
    """Least and greatest x where a polygon's outline meets the line y = c; None where it does not."""
    found: list[float] = []
    for index, p in enumerate(points):
        q = points[index - 1]
        if (p[1] - c) * (q[1] - c) <= 0.0 and p[1] != q[1]:
            found.append(q[0] + (c - q[1]) * (p[0] - q[0]) / (p[1] - q[1]))
    return (min(found), max(found)) if found else None
