"""Hatching as lines, clipped to its area once in Python, so that page and paper draw the same ones."""

import math
from collections.abc import Sequence

from shapely import MultiLineString, Polygon, intersection, unary_union
from shapely.geometry import LineString
from shapely.geometry.base import BaseGeometry

from ..geometry.frames import Vec2
from .display import Strokes

LEAN = 45.0


def hatch(
    loops: Sequence[Sequence[Vec2]], step: float, *, lean: float = LEAN, pen: str = "hatch", owner: str = ""
) -> tuple[Strokes, ...]:
    """Parallel lines over an area.

    Args:
        loops: outlines of separate areas, on paper.
        step: distance between two lines, square to them.
        lean: their direction as seen on paper, degrees anticlockwise; -45 leans the other way.

    Returns:
        One item, or none where the area holds no line.
    """
    area = unary_union([Polygon(loop) for loop in loops if len(loop) > 2])
    return hatch_in(area, step, lean=lean, pen=pen, owner=owner)


def hatch_in(
    area: BaseGeometry, step: float, *, lean: float = LEAN, pen: str = "hatch", owner: str = ""
) -> tuple[Strokes, ...]:
    """The same over any flat area on paper, holes in it left white."""
    if area.is_empty:
        return ()
    lines = MultiLineString(_lines(area.bounds, step, lean))
    pieces = _pieces(intersection(area, lines))
    if not pieces:
        return ()
    return (Strokes(segments=tuple(sorted(pieces)), pen=pen, layer="hatch", owner=owner),)


def _lines(bounds: tuple[float, float, float, float], step: float, lean: float) -> list[tuple[Vec2, Vec2]]:
    """Lines that cover a rectangle; their places do not depend on it, so that neighbours match."""
    left, top, right, bottom = bounds
    along = (math.cos(math.radians(lean)), -math.sin(math.radians(lean)))
    across = (-along[1], along[0])
    corners = [(x, y) for x in (left, right) for y in (top, bottom)]
    off = [x * across[0] + y * across[1] for x, y in corners]
    on = [x * along[0] + y * along[1] for x, y in corners]
    first, last = math.floor(min(off) / step), math.ceil(max(off) / step)
    low, high = min(on) - 1, max(on) + 1

    def at(s: float, number: int) -> Vec2:
        return s * along[0] + number * step * across[0], s * along[1] + number * step * across[1]

    return [(at(low, number), at(high, number)) for number in range(first, last + 1)]


def _pieces(found: BaseGeometry) -> list[tuple[Vec2, Vec2]]:
    if isinstance(found, LineString):
        if found.is_empty:
            return []
        (x0, y0), (x1, y1) = found.coords[0][:2], found.coords[-1][:2]
        first, second = (round(x0, 4), round(y0, 4)), (round(x1, 4), round(y1, 4))
        return [(first, second)]
    return [piece for part in getattr(found, "geoms", ()) for piece in _pieces(part)]
