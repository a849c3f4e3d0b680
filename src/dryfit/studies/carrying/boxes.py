"""The boxes round what is carried: as it stands in the piece, and turned in the elevation to be least.

Pieces are drawn in an elevation, so that it is there that something raked stands crooked in its box: a box is turned
about the way out of the wall until a side of it lies along one of the hull's.
"""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np
import shapely

from ...geometry.frames import Vec, Vec2
from .result import Box

FINE = 0.001  # to which a size is told


@dataclass(frozen=True, slots=True, kw_only=True)
class Around:
    """What stands around some corners.

    Attributes:
        low, high: of the box as it stands, in the world.
        hull: around them in the elevation, in order; none where they lie on one line.
        boxes: that one and those that are less in some size, the least first.
    """

    low: Vec
    high: Vec
    hull: tuple[Vec2, ...]
    boxes: tuple[Box, ...]


def around(corners: Sequence[Vec]) -> Around:
    """The boxes round corners in the world; there is at least one corner."""
    points = np.array(corners, dtype=float)
    low, high = points.min(axis=0), points.max(axis=0)
    deep = float(high[2] - low[2])
    upright = (float(high[0] - low[0]), float(high[1] - low[1]))
    turned = _turned(points[:, :2])
    least = [upright]
    if turned:
        least += [min(turned, key=lambda size: size[0] * size[1]), min(turned, key=min)]
    found = [boxed(*size, deep) for size in least]
    kept = [box for at, box in enumerate(found) if not any(_within(other, box) for other in found[:at])]
    return Around(
        low=(float(low[0]), float(low[1]), float(low[2])),
        high=(float(high[0]), float(high[1]), float(high[2])),
        hull=_hull(points[:, :2]),
        boxes=tuple(sorted(kept, key=lambda box: (box[0] * box[1] * box[2], box))),
    )


def _hull(points: "np.ndarray[tuple[int, int], np.dtype[np.float64]]") -> tuple[Vec2, ...]:
    hull = shapely.convex_hull(shapely.multipoints(points))
    if hull.geom_type != "Polygon":
        return ()
    return tuple((float(x), float(y)) for x, y in shapely.get_coordinates(hull)[:-1])


def _turned(points: "np.ndarray[tuple[int, int], np.dtype[np.float64]]") -> list[tuple[float, float]]:
    """Width and height of the box along each side of the hull."""
    ring = np.array(_hull(points), dtype=float)
    if not len(ring):
        return []
    sides = np.diff(ring, axis=0, append=ring[:1])
    long = np.hypot(sides[:, 0], sides[:, 1])
    ways = sides[long > FINE] / long[long > FINE, None]
    along = ring @ ways.T
    across = ring @ np.column_stack((-ways[:, 1], ways[:, 0])).T
    return list(zip(np.ptp(along, axis=0).tolist(), np.ptp(across, axis=0).tolist(), strict=True))


def boxed(wide: float, high: float, deep: float) -> Box:
    """The box of three sizes, to a thousandth."""
    long, broad, thick = sorted((round(wide, 3), round(high, 3), round(deep, 3)), reverse=True)
    return long, broad, thick


def _within(one: Box, other: Box) -> bool:
    """Whether a box goes into another, size by size."""
    return all(mine <= its + FINE for mine, its in zip(one, other, strict=True))
