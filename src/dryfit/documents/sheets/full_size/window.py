"""A stretch of one surface of a part at 1:1, as it is seen with the print laid on it.

The printed side is always the outer one, so nothing is ever turned over: an edge and the one opposite, a face and the
one opposite are printed apart, each as it is seen from outside. What is cut is drawn in the finest line, its waste
hatched; an arris over which a flap is folded is drawn in dashes.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np
from shapely import LineString, Polygon, box, transform
from shapely.geometry.base import BaseGeometry

from ....geometry.frames import Vec2
from ....geometry.loops import Loop
from ....geometry.sections import polygons
from ....geometry.views import EDGES, ENDS, FACES, Surface, SurfaceView, Trace
from ....piece.model import DATUM_END, Cut
from ....sentences import Fineness
from ...display import Circle, Item, Stroke, Strokes
from ...hatch import hatch_in
from ...kit.axis import NEAR, Axis
from ...kit.label import Label
from ...kit.wood import FACE_STEP
from ...looks import Look, is_bored
from ...naming import position, printed_units
from ...standard import AIR, PAST, ROW, TEXT
from ...symbols import BALLOON, balloon

FLAP = ROW + TEXT  # folded over an arris
CROSS = ROW / 2  # arms of a register cross
OVER = 2 * CROSS  # of a tile past its seam
CLEAR = (3 * ROW, OVER, 0.0)  # of a seam from a cut: room for its figure, for a cross, none: the first there is
FAR = 40  # heights that words on a seam may stand off it
_UP = {  # of a surface seen from outside, its first coordinate or, across, its second to the right: which way is up
    (Surface.PLUS, False): -1.0, (Surface.MINUS, False): 1.0, (Surface.FRONT, False): 1.0, (Surface.WALL, False): -1.0,
    (Surface.PLUS, True): 1.0, (Surface.MINUS, True): -1.0, (Surface.DATUM, True): 1.0, (Surface.FAR, True): -1.0,
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Window:
    """What is shown of a surface.

    Attributes:
        along: from and to of what runs to the right: along the board, or from the wall edge to the front edge.
        up: from and to of what runs up or down the paper.
        across: whether it is the board's width that runs to the right; so ends are always drawn.
        seams: where it is joined to the tiles before and after it.
        apart: those of them beyond which no tile is printed: there it is laid to its figure.
        numbered: whether cuts bear their numbers.
        tile: of a tile, from and to without what it shows past its seams.
    """

    look: Look
    surface: Surface
    along: Vec2
    up: Vec2
    across: bool = False
    seams: tuple[float, ...] = ()
    apart: tuple[float, ...] = ()
    numbered: bool = True
    tile: Vec2 | None = None

    @property
    def rising(self) -> float:
        """1 where the second coordinate grows up the paper, else -1."""
        return _UP[self.surface, self.across]

    @property
    def axes(self) -> tuple[Axis, Axis]:
        """Where its coordinates stand on paper, to the right and up."""
        low, high = self.along
        return Axis.whole(low, high, 1.0), Axis.whole(*self.up, 1.0, -self.rising * self.up[0], -self.rising)

    @property
    def view(self) -> SurfaceView:
        """The exact view it shows."""
        return self.look.view(self.surface)

    @property
    def datum(self) -> tuple[int, int]:
        """Where the datum end lies on paper, y down."""
        if self.surface in ENDS:
            return 0, 0
        return (0, int(self.rising)) if self.across else (-1, 0)

    def lies(self, p: Vec2) -> Vec2:
        """A point of the view, to the right and up in the wood's coordinates."""
        return (p[1], p[0]) if self.across else p

    def on_paper(self, p: Vec2) -> Vec2:
        """A point, to the right and up, on paper."""
        across, up = self.axes
        return across.at(p[0]), up.at(p[1])

    def items(self) -> list[Item]:
        """The surface with what is cut in it, and the seams."""
        return [*self._cuts(), *self._outline(), *self.joined()]

    def area(self, loop: Loop) -> BaseGeometry:
        """What of a loop lies in the window, on paper."""
        low, high = self.along
        there = Polygon([self.lies(p) for p in loop]).intersection(box(low, self.up[0], high, self.up[1]))
        return Polygon() if there.is_empty else _placed(there, self.on_paper)

    def _cuts(self) -> Iterator[Item]:
        cuts = {cut.key: cut for cut in self.look.part.cuts}
        for trace in self.view.traces:
            if trace.end:
                continue
            for loop in trace.opening:
                yield from self._opening(loop, cuts[trace.key])

    def _opening(self, loop: Loop, cut: Cut) -> Iterator[Item]:
        if is_bored(cut):
            yield from self._hole(loop, cut)
            return
        area = self.area(loop)
        yield from hatch_in(area, FACE_STEP, owner=cut.key)
        for piece in polygons(area):
            yield Stroke(points=tuple(piece.exterior.coords[:-1]), pen="knife", closed=True, layer="cut", owner=cut.key)
            if self.numbered:
                yield from self._number(piece, cut)

    def _number(self, piece: Polygon, cut: Cut) -> Iterator[Item]:
        """The cut's number in its waste, where there is room."""
        number, middle = self.look.numbers.get(cut.key), piece.centroid
        if number is not None and piece.contains(middle.buffer(BALLOON)):
            yield from balloon((middle.x, middle.y), str(number), cut.key)

    def _hole(self, loop: Loop, cut: Cut) -> Iterator[Item]:
        """Its mouth, and a cross on its axis that reaches past it."""
        middle = centre(loop)
        if not self._holds(self.lies(middle)):
            return
        (x, y), radius = self.on_paper(self.lies(middle)), (max(a for a, _ in loop) - min(a for a, _ in loop)) / 2
        far = radius + PAST
        arms = (((x - far, y), (x + far, y)), ((x, y - far), (x, y + far)))
        yield Circle(centre=(x, y), radius=radius, pen="knife", layer="cut", owner=cut.key)
        yield Strokes(segments=arms, pen="knife", layer="axis", owner=cut.key)

    def _holds(self, p: Vec2) -> bool:
        low, high = self.own
        return low - NEAR <= p[0] <= high + NEAR and self.up[0] - NEAR <= p[1] <= self.up[1] + NEAR

    def _outline(self) -> Iterator[Item]:
        """The surface's outline: arrises to be folded over in dashes, ends as they are cut."""
        (low, high), up = self.along, self.up
        frame = box(low - NEAR, up[0] - NEAR, high + NEAR, up[1] + NEAR)
        for loop in self.view.outline:
            for p, q in zip(loop, [*loop[1:], loop[0]], strict=True):
                side = _clipped(self.lies(p), self.lies(q), frame)
                if side is not None:
                    pen = "hidden" if self._folds(p, q) else "knife"
                    points = (self.on_paper(side[0]), self.on_paper(side[1]))
                    yield Stroke(points=points, pen=pen, layer="wood", owner=self.look.part.id)

    def _folds(self, p: Vec2, q: Vec2) -> bool:
        """Whether a side of the outline is an arris over which the print is folded."""
        if self.surface in EDGES:
            return p[1] * q[1] > 0.0 and abs(p[0] - q[0]) > abs(p[1] - q[1])
        if self.surface in FACES:
            return any(abs(p[1] - d) < NEAR and abs(q[1] - d) < NEAR for d in (0.0, self.look.part.board.depth))
        return True

    def joined(self) -> Iterator[Item]:
        """A register cross beyond either side of the wood, and a line between them to cut to."""
        low, high = sorted(self.on_paper((0.0, v))[1] for v in self.up)
        for at in self.seams:
            x, _ = self.on_paper((at, 0.0))
            for y in (low - FLAP, high + FLAP):
                yield from cross((x, y))
            yield Stroke(points=((x, low - FLAP + CROSS), (x, high + FLAP - CROSS)), pen="left long", layer="seam")

    @property
    def own(self) -> Vec2:
        """From and to of its tile, without what it shows past its seams."""
        return self.tile or self.along

    def seamed(self) -> Iterator[Label]:
        """How far each seam is from where the strip is counted."""
        for at in self.seams:
            does = "lay" if at in self.apart else "join"
            yield Label(says=f"{does} at {position(at)}", at=((at, sum(self.up) / 2),), reach=FAR, priority=-1)


def cross(at: Vec2) -> Iterator[Item]:
    """A register cross."""
    x, y = at
    arms = (((x - CROSS, y), (x + CROSS, y)), ((x, y - CROSS), (x, y + CROSS)))
    yield Strokes(segments=arms, pen="knife", layer="seam")


def trace_of(look: Look, cut: Cut, surface: Surface) -> Trace:
    """A cut on a surface where it is known to be met."""
    trace = look.view(surface).trace(cut.key)
    assert trace is not None, f"{cut.key} is not met from the {surface}"
    return trace


def end_at(look: Look, edge: Surface, end: int, face: Surface) -> float:
    """Where an edge ends at the arris of a face; where nothing is left of the edge, where the face ends."""
    side = 1.0 if face is Surface.PLUS else -1.0
    points = [a for loop in look.view(edge).outline for a, c in loop if c * side > 0.0]
    if not points:
        return look.end_at(end, face)
    return min(points) if end == DATUM_END else max(points)


def named(look: Look) -> str:
    """A part by its letter and name; parts that are alike by their letters."""
    alone = look.part.mark.isalnum()
    return f"{look.part.mark}  {look.part.id}" if alone else look.part.mark


def ringed(items: Iterable[Item]) -> set[str]:
    """Cuts whose number stands in a ring in their waste."""
    return {item.owner for item in items if isinstance(item, Circle) and item.layer == "balloon"}


def centre(loop: Loop) -> Vec2:
    """Of a round opening, where its axis meets the surface."""
    xs, ys = [x for x, _ in loop], [y for _, y in loop]
    return (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2


def divided(low: float, high: float, room: float, whole: Iterable[Vec2]) -> list[float]:
    """Where a stretch is divided into pieces no longer than the room, about alike, never in what must stay whole.

    What is longer than half the room cannot stay so and is divided as any wood.

    Args:
        whole: from and to of each.
    """
    kept = sorted((a, b) for a, b in whole if b - a < room / 2 - 2 * CLEAR[-1])
    found: list[float] = []
    start = low
    while high - start > room:
        at = start + (high - start) / math.ceil((high - start) / room)
        clear = (_before(at, kept, near) for near in CLEAR)
        start = next((place for place in clear if place > start), at)
        found.append(start)
    return found


def _before(at: float, kept: Sequence[Vec2], near: float) -> float:
    """The last place up to that one which is so far from all that is kept."""
    for a, b in reversed(kept):
        if a - near < at < b + near:
            at = a - near
    return at


def tiled(window: Window, whole: Iterable[Vec2], wide: float) -> Iterator[Window]:
    """A window in tiles that fit a sheet so wide, each beginning where its figure says; `whole` as for `divided`."""
    (low, high), step, whole = window.along, Fineness.PLACE.size(printed_units()), list(whole)
    exact = divided(low, high, wide - 2 * OVER - AIR, whole)
    snapped = [math.floor(at / step) * step for at in exact]
    through = [any(a < at < b for a, b in whole) for at in snapped]
    seams = [at if cut else near for at, near, cut in zip(exact, snapped, through, strict=True)]
    for start, stop in zip([low, *seams], [*seams, high], strict=True):
        own = tuple(at for at in (start, stop) if at in seams)
        along = (start - OVER * (start in seams), stop + OVER * (stop in seams))
        yield replace(window, along=along, seams=own, tile=(start, stop))


def _clipped(p: Vec2, q: Vec2, frame: BaseGeometry) -> tuple[Vec2, Vec2] | None:
    line = LineString([p, q]).intersection(frame)
    if line.is_empty or line.geom_type != "LineString":
        return None
    (x0, y0), (x1, y1) = line.coords[0], line.coords[-1]
    return (x0, y0), (x1, y1)


def _placed(area: BaseGeometry, to: Callable[[Vec2], Vec2]) -> BaseGeometry:
    moved: BaseGeometry = transform(area, lambda points: np.array([to((x, y)) for x, y in points.tolist()]))
    return moved
