"""Paper that knows what stands on it: what comes is given the first of the places offered that is free.

Words meet nothing: no other words, no line, and hatch only on a ground of their own. A line may cross lines, never
words; and no dimension line runs close along another. Nothing is moved once it stands, so a sheet comes out the same
however often it is made.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass
from enum import Enum, auto
from functools import partial
from itertools import islice, pairwise
from typing import Any, NamedTuple

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from ...geometry.frames import Vec2
from ..display import Arc, Area, Circle, Item, Stroke, Strokes, Text, arc_points, extent, shifted
from ..standard import AIR, RIGHT, TEXT

Floats = NDArray[np.float64]
Flags = NDArray[np.bool_]
LINE_LAYER = "dimension line"
NEAR = 1e-3
MANY = 64  # places asked at once, at first: mostly one of these is free
ALIKE = 0.1  # sine of the angle between two lines that run along one another


class Kind(Enum):
    """What stands in the way of what."""

    LINE = auto()
    WORDS = auto()
    HATCH = auto()
    RUN = auto()  # a dimension's own line


APART = {Kind.RUN: TEXT, Kind.LINE: AIR}  # from a dimension's line to what runs along it: room for words; to be seen


Bounds = tuple[float, float, float, float]
ANYWHERE: Bounds = (-math.inf, -math.inf, math.inf, math.inf)


class Variant(NamedTuple):
    """One way to draw a thing: its words, which find room least often, and its lines, made where those are free."""

    words: tuple[Item, ...]
    lines: Callable[[], list[Item]]


@dataclass(slots=True)
class _Thing:
    """What an item fills.

    Attributes:
        make: gives it as a geometry, which is asked only where nothing simpler tells.
        line: its points, of a line.
        full: whether it fills its bounds, as level words do, and a level or an upright line.
    """

    kind: Kind
    bounds: Bounds
    make: Callable[[], Any]
    owner: str = ""
    line: Sequence[Vec2] = ()
    full: bool = False
    _shape: Any = None

    @property
    def shape(self) -> Any:
        """As a geometry."""
        if self._shape is None:
            self._shape = self.make()
        return self._shape

    def meets(self, other: "_Thing") -> bool:
        """Whether it meets another one, where their bounds meet."""
        if self.full and other.full:
            return True
        if self.full and other.line:
            return _crosses(other.line, self.bounds)
        if other.full and self.line:
            return _crosses(self.line, other.bounds)
        return bool(shapely.intersects(self.shape, other.shape))


class _Around:
    """The bounds of many things, of which one can ask all at once."""

    def __init__(self) -> None:
        self._sides: Floats = np.empty((4, MANY))
        self._limits: Floats = np.empty_like(self._sides)  # the same, so that one comparison tells which are near
        self._count = 0

    def add(self, bounds: Bounds) -> None:
        """One more."""
        if self._count == self._sides.shape[1]:
            self._sides = np.concatenate([self._sides, np.empty_like(self._sides)], axis=1)
            self._limits = np.concatenate([self._limits, np.empty_like(self._limits)], axis=1)
        x0, y0, x1, y1 = self._sides[:, self._count] = bounds
        self._limits[:, self._count] = x0, -x1, y0, -y1
        self._count += 1

    def copy(self) -> "_Around":
        """The same, to which others may be added."""
        other = _Around()
        other._sides, other._limits, other._count = self._sides.copy(), self._limits.copy(), self._count
        return other

    def near(self, bounds: Bounds, more: float = 0.0) -> list[int]:
        """The numbers of those that meet or touch some bounds grown by `more`."""
        left, top, right, bottom = bounds
        grown = np.array(((right + more,), (more - left,), (bottom + more,), (more - top,)))
        met = np.logical_and.reduce(self._limits[:, : self._count] <= grown, axis=0)
        numbers: list[int] = met.nonzero()[0].tolist()
        return numbers

    def clear(self, bounds: Floats) -> Flags:
        """Which of many bounds `(n, 4)` none of them meets or touches."""
        left, top, right, bottom = bounds.T[:, :, None]
        x0, y0, x1, y1 = self._sides[:, : self._count]
        clear: Flags = ~((x0 <= right) & (x1 >= left) & (y0 <= bottom) & (y1 >= top)).any(axis=1)
        return clear

    def clear_of(self, centres: Floats, radii: Floats) -> Flags:
        """Which of many discs meet none of them: `centres` (n, 2), `radii` (n,)."""
        (x, y), r = centres.T[:, :, None], radii[:, None]
        x0, y0, x1, y1 = self._sides[:, : self._count]
        across, down = np.maximum(np.maximum(x0 - x, x - x1), 0.0), np.maximum(np.maximum(y0 - y, y - y1), 0.0)
        clear: Flags = (across * across + down * down > r * r).all(axis=1)
        return clear


class FilledPaper:
    """What is drawn so far, in painting order, and what it fills.

    Attributes:
        wide: how wide it may become.
        over_own: whether a ring may hide lines of what it names.
    """

    def __init__(self, wide: float = math.inf, *, over_own: bool = False) -> None:
        self.items: list[Item] = []
        self.wide, self.over_own = wide, over_own
        self.left, self.right = math.inf, -math.inf  # of what stands there
        self._things: list[_Thing] = []
        self._hatches: list[_Thing] = []
        self._around = _Around()
        self._full = {kind: _Around() for kind in Kind}  # of those alone that fill their bounds

    def copy(self, wide: float) -> "FilledPaper":
        """The same paper, which may become so wide: what is tried on it leaves this one as it is."""
        other = FilledPaper(wide, over_own=self.over_own)
        other.items, other.left, other.right = [*self.items], self.left, self.right
        other._things, other._hatches = [*self._things], [*self._hatches]
        other._around = self._around.copy()
        other._full = {kind: around.copy() for kind, around in self._full.items()}
        return other

    # --- drawing ---------------------------------------------------------------------------------

    def draw(self, items: Iterable[Item]) -> None:
        """Draw these, whatever stands there."""
        for item in items:
            self._stand([item], _things(item))

    def _stand(self, items: Sequence[Item], things: Iterable[_Thing]) -> None:
        self.items += items
        for thing in things:
            self._keep(thing)

    def draw_picture(self, items: Iterable[Item]) -> None:
        """Draw very many lines, kept as one, which is quick to ask; words may stand on the areas between them."""
        drawn = list(items)
        self.items += drawn
        lines = [thing.shape for item in drawn if not isinstance(item, Area) for thing in _things(item)]
        if lines:
            whole = shapely.multilinestrings(lines)
            shapely.prepare(whole)
            self._keep(_Thing(Kind.LINE, whole.bounds, lambda: whole))

    def block(self, left: float, top: float, right: float, bottom: float) -> None:
        """Keep a room free of words, though nothing is drawn there."""
        room = (left, top, right, bottom)
        self._keep(_Thing(Kind.WORDS, room, lambda: shapely.box(*room), full=True))

    def place(self, choices: Iterable[Sequence[Item]]) -> bool:
        """Draw the first of several ways to draw a thing that is free; False if none is."""
        for items in choices:
            things = self._fit(items, self.wide)
            if things is not None:
                self._stand(items, things)
                return True
        return False

    def place_at(self, ways: Sequence[Sequence[Item]], places: Iterable[Vec2], within: Bounds = ANYWHERE) -> bool:
        """Draw one of several things from (0, 0) at the first of many places where one of them is free; False if none.

        What is certain is asked of many places at once: words stand on no other words, on no level or upright line, and
        on hatch not without a ground.

        Args:
            within: edges that they may not reach over.
        """
        left, sizes = iter(places), [extent(items) for items in ways]
        full = [[(item, thing) for item in items for thing in _things(item) if thing.full] for items in ways]
        count = MANY
        while some := list(islice(left, count)):
            count *= 2
            at = np.tile(np.asarray(some, dtype=np.float64), 2)
            open_ = np.stack([self._open(*one, at, within) for one in zip(full, sizes, strict=True)], axis=1)
            if self.place(shifted(ways[way], *some[place]) for place, way in np.argwhere(open_).tolist()):
                return True
        return False

    def _open(self, full: Sequence[tuple[Item, _Thing]], size: Bounds, at: Floats, within: Bounds) -> Flags:
        """At which of the places nothing is certain to be in the way of something so large."""
        edges = at + size
        open_: Flags = np.all((edges[:, :2] >= within[:2]) & (edges[:, 2:] <= within[2:]), axis=1)
        for item, thing in full if open_.any() else ():
            open_[open_] = self._full[Kind.WORDS].clear(at[open_] + thing.bounds)
            if thing.kind is Kind.WORDS:
                self._close(open_, at + thing.bounds, item)
        return open_

    def _close(self, open_: Flags, bounds: Floats, item: Item) -> None:
        """No longer open is where these words would stand on a line or on hatch."""
        if not self.over_own:
            open_[open_] = self._full[Kind.LINE].clear(bounds[open_])
        for other in self._hatches:
            if self._in_the_way(other, item):
                open_[open_] = ~shapely.intersects(other.shape, shapely.box(*bounds[open_].T))

    def place_within(self, choices: Iterable[Variant], within: Bounds = ANYWHERE) -> bool:
        """Draw the first of several that is free, rather one that makes the drawing no wider; False if none.

        Args:
            within: edges that it may not reach over.
        """
        wider: tuple[list[Item], list[_Thing]] | None = None
        for words, lines in choices:
            said = self._fit(words, self.wide) if _lies_in(words, within) else None
            if said is None:
                continue
            drawn = lines()
            led = self._fit(drawn, self.wide) if _lies_in(drawn, within) else None
            if led is None:
                continue
            items, things = [*drawn, *words], [*led, *said]
            if all(self.left <= one.bounds[0] and one.bounds[2] <= self.right for one in things):
                self._stand(items, things)
                return True
            wider = wider or (items, things)
        if wider is not None:
            self._stand(*wider)
        return wider is not None

    def _keep(self, thing: _Thing) -> None:
        self._around.add(thing.bounds)
        if thing.full:
            self._full[thing.kind].add(thing.bounds)
        if thing.kind is Kind.HATCH:
            self._hatches.append(thing)
        self.left, self.right = min(self.left, thing.bounds[0]), max(self.right, thing.bounds[2])
        self._things.append(thing)

    # --- asking ----------------------------------------------------------------------------------

    def free(self, items: Iterable[Item], wide: float = math.inf) -> bool:
        """Whether these would meet nothing that stands there, and the drawing be no wider than that."""
        return self._fit(items, wide) is not None

    def _fit(self, items: Iterable[Item], wide: float) -> list[_Thing] | None:
        """What these would fill; None where they would meet something or the drawing be wider."""
        fill: list[_Thing] = []
        for item in items:
            for thing in _things(item):
                if not self._clear(thing, item, wide):
                    return None
                fill.append(thing)
        return fill

    def first_ring(self, tip: Vec2, centres: Floats, radii: Floats, owner: str) -> int | None:
        """The first of many places at which a ring has room, and the line to it from what it names.

        Args:
            tip: of the line.
            centres, radii: `(n, 2)` and `(n,)` of the rings.
        """
        for start in range(0, len(centres), MANY):
            at, wide = centres[start : start + MANY], radii[start : start + MANY]
            low, high = at[:, 0] - wide, at[:, 0] + wide
            room = max(self.wide, self.right - self.left)
            open_: Flags = np.maximum(high, self.right) - np.minimum(low, self.left) <= room
            for kind in Kind:
                if not (self.over_own and kind is Kind.LINE):
                    open_[open_] = self._full[kind].clear_of(at[open_], wide[open_])
            for number in np.flatnonzero(open_).tolist():
                if self._ring_clear(tip, at[number].tolist(), float(wide[number]), owner):
                    return start + int(number)
        return None

    def _ring_clear(self, tip: Vec2, centre: Vec2, radius: float, owner: str) -> bool:
        """Whether a ring meets nothing but lines that it may hide, and its line no words."""
        (x, y), disc = centre, shapely.Point(centre)
        for other in self._near((x - radius, y - radius, x + radius, y + radius)):
            own = self.over_own and other.kind is Kind.LINE and other.owner == owner
            if not own and shapely.dwithin(other.shape, disc, radius):
                return False
        line = _line(Kind.LINE, (tip, centre))
        return not any(other.kind is Kind.WORDS and other.meets(line) for other in self._near(line.bounds))

    def _clear(self, thing: _Thing, item: Item, wide: float) -> bool:
        left, _, right, _ = thing.bounds
        if max(right, self.right) - min(left, self.left) > max(wide, self.right - self.left):
            return False  # what is too wide already, by a figure that had to go somewhere, takes no word's room inside
        near = self._near(thing.bounds)
        if thing.kind is Kind.WORDS:
            return not any(self._in_the_way(other, item) and thing.meets(other) for other in near)
        if any(other.kind is Kind.WORDS and thing.meets(other) for other in near):
            return False
        beside = self._near(thing.bounds, TEXT) if thing.kind is Kind.RUN else ()
        return not any(other.kind in APART and _runs_along(thing, other, APART[other.kind]) for other in beside)

    def _in_the_way(self, other: _Thing, item: Item) -> bool:
        """Whether this may have no words where the other stands."""
        if self.over_own and other.kind is Kind.LINE and other.owner == (item.owner or None):
            return False
        return not (other.kind is Kind.HATCH and isinstance(item, Text) and item.ground)

    def _near(self, bounds: Bounds, more: float = 0.0) -> list[_Thing]:
        return [self._things[number] for number in self._around.near(bounds, more)]

    def extension(self, start: Vec2, stop: Vec2, owner: str = "", *, broken: bool = False) -> list[Item]:
        """An extension line: dashed over wood, none where a line runs there already; broken where it meets words."""
        line = _line(Kind.LINE, (start, stop))
        met = [other for other in self._near(line.bounds) if other.meets(line)]
        if any(other.kind is Kind.LINE and _covers(other, line) for other in met):
            return []
        pen = "extension over wood" if any(other.kind is Kind.HATCH for other in met) else "dimension"
        words = [other.shape for other in met if broken and other.kind is Kind.WORDS]
        left = line.shape.difference(shapely.union_all(words).buffer(NEAR)) if words else line.shape
        pieces = [_ends(piece.coords) for piece in getattr(left, "geoms", [left]) if not piece.is_empty]
        return [Stroke(points=piece, pen=pen, layer="dimension", owner=owner) for piece in pieces]

    def on_wood(self, start: Vec2, stop: Vec2) -> bool:
        """Whether a line runs over hatched wood."""
        line = _line(Kind.LINE, (start, stop))
        return any(other.kind is Kind.HATCH and other.meets(line) for other in self._near(line.bounds))


def _crosses(line: Sequence[Vec2], bounds: Bounds) -> bool:
    """Whether a line meets a level box."""
    return any(_cuts(p, q, bounds) for p, q in pairwise(line))


def _cuts(p: Vec2, q: Vec2, bounds: Bounds) -> bool:
    """Whether a straight line does: it lies on no side of the box, nor all corners of the box on one side of it."""
    left, top, right, bottom = bounds
    (x, y), (dx, dy) = p, (q[0] - p[0], q[1] - p[1])
    if (x < left and q[0] < left) or (x > right and q[0] > right):
        return False
    if (y < top and q[1] < top) or (y > bottom and q[1] > bottom):
        return False
    sides = [dx * (down - y) - dy * (across - x) for across in (left, right) for down in (top, bottom)]
    return min(sides) <= 0.0 <= max(sides)


def _lies_in(items: Sequence[Item], edges: Bounds) -> bool:
    """Whether items reach over none of the edges."""
    if edges is ANYWHERE:
        return True
    (left, top, right, bottom), (first, above, last, below) = extent(items), edges
    return first <= left and right <= last and above <= top and bottom <= below


def _covers(other: _Thing, line: _Thing) -> bool:
    """Whether another line runs where a straight one does: at its middle and at both ends."""
    left, top, right, bottom = other.bounds
    if min(x for x, _ in line.line) < left - NEAR or max(x for x, _ in line.line) > right + NEAR:
        return False
    if min(y for _, y in line.line) < top - NEAR or max(y for _, y in line.line) > bottom + NEAR:
        return False
    middle = line.shape.interpolate(1 / 2, normalized=True)
    return all(bool(other.shape.distance(point) < NEAR) for point in (middle, *map(shapely.Point, line.line)))


def _runs_along(one: _Thing, other: _Thing, apart: float) -> bool:
    """Whether two lines run the same way, beside one another and nearer than that."""
    if not 0 < len(other.line) <= len(one.line):
        return False
    (p, q), (a, b) = _ends(one.line), _ends(other.line)
    (ux, uy), (vx, vy) = _way(p, q), _way(a, b)
    if abs(ux * vy - uy * vx) > ALIKE:
        return False
    first, last = sorted(x * ux + y * uy for x, y in (p, q))
    low, high = sorted(x * ux + y * uy for x, y in (a, b))
    return min(last, high) - max(first, low) > NEAR and bool(one.shape.distance(other.shape) < apart)


def _ends(line: Sequence[Vec2]) -> tuple[Vec2, Vec2]:
    return line[0], line[-1]


def _way(p: Vec2, q: Vec2) -> Vec2:
    long = math.dist(p, q) or 1.0
    return (q[0] - p[0]) / long, (q[1] - p[1]) / long


def _line(kind: Kind, points: Sequence[Vec2], owner: str = "") -> _Thing:
    """A line through points."""
    left, top, right, bottom = bounds = _bounds(points)
    full = len(points) == 2 and (left == right or top == bottom)
    return _Thing(kind, bounds, partial(shapely.linestrings, points), owner, points, full)


def _mark(mark: Stroke) -> Iterator[_Thing]:
    """What a maker's mark fills, and its line; it may stand on an arris."""
    line = _line(Kind.LINE, mark.points, mark.owner)
    left, top, right, bottom = line.bounds
    grown = (left - AIR, top - AIR, right + AIR, bottom + AIR)
    yield line
    yield _Thing(Kind.WORDS, grown, lambda: _filled(line.shape, closed=mark.closed), mark.owner)


def _filled(line: BaseGeometry, *, closed: bool) -> BaseGeometry:
    hull = line.convex_hull.buffer(AIR if closed else -AIR, quad_segs=1)
    return line.buffer(AIR, quad_segs=1) if hull.is_empty else hull


def _bounds(points: Iterable[Vec2]) -> Bounds:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def _things(item: Item) -> Iterator[_Thing]:
    owner = item.owner
    match item:
        case Text():
            if item.text and item.layer != "balloon":  # a ring's number lies in its ring
                box = item.box_grown(max(AIR, item.ground))
                level = item.turn % RIGHT == 0.0
                yield _Thing(Kind.WORDS, _bounds(box), partial(shapely.polygons, box), owner, full=level)
        case Stroke(layer="mark"):
            yield from _mark(item)
        case Stroke():
            points = (*item.points, item.points[0]) if item.closed else item.points
            yield _line(Kind.RUN if item.layer == LINE_LAYER else Kind.LINE, points, owner)
        case Strokes():
            if item.layer == "hatch":
                bounds = _bounds(p for segment in item.segments for p in segment)
                yield _Thing(Kind.HATCH, bounds, partial(_hatched, item.segments), owner)
            else:
                yield from (_line(Kind.LINE, segment, owner) for segment in item.segments)
        case Area():
            for loop in item.loops:
                yield _Thing(Kind.LINE, _bounds(loop), partial(shapely.polygons, loop), owner)
        case Circle():
            kind = Kind.WORDS if item.ink == "white" else Kind.LINE  # a ring around a number hides what is under it
            (x, y), r = item.centre, item.radius
            yield _Thing(kind, (x - r, y - r, x + r, y + r), partial(_disc, x, y, r), owner)
        case Arc():
            yield _line(Kind.LINE, arc_points(item), owner)


def _disc(x: float, y: float, radius: float) -> BaseGeometry:
    return shapely.Point(x, y).buffer(radius)


def _hatched(segments: Sequence[tuple[Vec2, Vec2]]) -> BaseGeometry:
    lines = shapely.MultiLineString(segments)
    shapely.prepare(lines)
    return lines
