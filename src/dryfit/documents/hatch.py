"""Hatching as lines, clipped to its area once in Python, so that page and paper draw the same ones."""

import math
from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import pairwise

from shapely import Polygon, unary_union
from shapely.geometry.base import BaseGeometry

from ..geometry.frames import Vec2
from ..geometry.sections import polygons
from ..lengths import written
from .display import Strokes
from .standard import RIGHT

LEAN = RIGHT / 2


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
    pieces = [piece for polygon in polygons(area) for piece in _pieces(polygon, step, lean)]
    return (Strokes(segments=tuple(sorted(pieces)), pen=pen, layer="hatch", owner=owner),) if pieces else ()


def _pieces(area: Polygon, step: float, lean: float) -> Iterator[tuple[Vec2, Vec2]]:
    """What of the lines lies in an area: between each two places where they cross its outlines.

    The lines' places do not depend on the area, so that neighbours match.
    """
    along = (math.cos(math.radians(lean)), -math.sin(math.radians(lean)))
    across = (-along[1] * step, along[0] * step)
    crossed: dict[int, list[float]] = defaultdict(list)
    for ring in (area.exterior, *area.interiors):
        points = [(x * along[0] + y * along[1], (x * across[0] + y * across[1]) / step**2) for x, y in ring.coords]
        for (s, off), (t, end) in pairwise(points):
            for number in range(math.ceil(min(off, end)), math.ceil(max(off, end))):
                crossed[number].append(s + (t - s) * (number - off) / (end - off))
    for number, places in crossed.items():
        ends = [(s * along[0] + number * across[0], s * along[1] + number * across[1]) for s in sorted(places)]
        points = [(written(x), written(y)) for x, y in ends]
        yield from zip(points[::2], points[1::2], strict=True)
