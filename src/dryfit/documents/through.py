"""Exact sections of a part by any plane of the world: what a saw along that plane would show.

Made from the stock's outline and the cuts' exact shapes, never from a mesh. A cut may be drawn wider than it is, so
that a clearance can be seen; whoever asks for it says so on the paper.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from shapely import box, unary_union
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from ..geometry.frames import Vec, Vec2
from ..geometry.sections import Patch, polygons, section
from ..geometry.shapes import Prism
from ..piece.model import Cut, Part
from ..piece.parts import stock_of

Wider = Mapping[str, Sequence[Vec2]]  # by a cut's key: where to its section is drawn out, in the plane's coordinates
AS_IT_IS: Wider = MappingProxyType({})


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


def wood_in(part: Part, plane: Plane, *, cuts: Iterable[Cut] | None = None, wider: Wider = AS_IT_IS) -> BaseGeometry:
    """The part's wood in the window of a plane, in the plane's coordinates.

    Args:
        cuts: those that are taken out; all of the part's, if not given.
        wider: cuts that are drawn out beyond their true size.
    """
    patch = _patch(part, plane)
    stock = stock_of(part)
    blank = Prism(outline=tuple((a, c, 0.0) for a, c in stock.outline), low=0.0, high=stock.depth)
    whole = section(blank, patch)
    if whole.is_empty:
        return whole
    taken = [
        _drawn_out(section(shape, patch), wider.get(cut.key, ()))
        for cut in (part.cuts if cuts is None else cuts)
        for shape in cut.shapes
    ]
    return whole.difference(unary_union(taken))


def cut_in(part: Part, plane: Plane, cut: Cut, *, wider: Wider = AS_IT_IS) -> BaseGeometry:
    """What of a plane's window lies in one cut of a part, beyond the wood too."""
    patch = _patch(part, plane)
    return unary_union([_drawn_out(section(shape, patch), wider.get(cut.key, ())) for shape in cut.shapes])


def _patch(part: Part, plane: Plane) -> Patch:
    frame = part.board.frame
    wide, high = plane.reach
    region = box(-wide, -high, wide, high)
    return Patch(frame.find(plane.origin), frame.find_direction(plane.u), frame.find_direction(plane.v), region)


def _drawn_out(area: BaseGeometry, ways: Sequence[Vec2]) -> BaseGeometry:
    """Each piece, which is convex as all cuts are, swept along each way in turn."""
    for x, y in ways:
        swept = [unary_union([piece, translate(piece, x, y)]).convex_hull for piece in polygons(area)]
        area = unary_union(swept)
    return area
