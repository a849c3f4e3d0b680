"""Exact sections of a part by any plane of the world: what a saw along that plane would show.

Made from the stock's outline and the cuts' exact shapes, never from a mesh.
"""

from dataclasses import dataclass

from shapely import box, unary_union
from shapely.geometry.base import BaseGeometry

from ..geometry.frames import Vec
from ..geometry.sections import Patch, section
from ..geometry.shapes import Prism
from ..piece.model import Part
from ..piece.parts import stock_of


@dataclass(frozen=True, slots=True)
class Plane:
    """A plane in the world with its own two coordinates, and the window of it that is looked at.

    Attributes:
        origin: in the world.
        u, v: unit vectors in the world, to the right and upwards on paper.
        reach: half the window's width and height.
    """

    origin: Vec
    u: Vec
    v: Vec
    reach: tuple[float, float]


def wood_in(part: Part, plane: Plane) -> BaseGeometry:
    """The part's wood in the window of a plane, in the plane's coordinates."""
    frame = part.board.frame
    wide, high = plane.reach
    patch = Patch(
        frame.find(plane.origin),
        frame.find_direction(plane.u),
        frame.find_direction(plane.v),
        box(-wide, -high, wide, high),
    )
    stock = stock_of(part)
    blank = Prism(outline=tuple((a, c, 0.0) for a, c in stock.outline), low=0.0, high=stock.depth)
    whole = section(blank, patch)
    if whole.is_empty:
        return whole
    taken = [section(shape, patch) for cut in part.cuts for shape in cut.shapes]
    return whole.difference(unary_union(taken))
