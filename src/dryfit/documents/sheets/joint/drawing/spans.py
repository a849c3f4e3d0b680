"""Dimensions of a detail in any direction, break lines and angle arcs.

A span measures along `way` between two points of the wood; its line lies where `at` says, square to the way.
Where the figure has no room between the arrows these come from outside and it stands before or after them.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from typing import Literal, TypeAlias, TypedDict, Unpack

from .....geometry.frames import Vec2
from ....display import Anchor, Arc, Item, Stroke, Text, extent
from ....lettering import TEXT, Weight, width
from ....symbols import HEAD_LONG, arrowhead
from ...dimensions.running import GAP, LIFT, PAST
from .pad import Pad

Where: TypeAlias = Literal["between", "before", "after"]
BEFORE: Sequence[Where] = ("before", "after")
AFTER: Sequence[Where] = ("after", "before")

ROOM = 2 * HEAD_LONG + 1.2  # beside a figure between its arrows
TAIL = 3.6  # of an arrow from outside
NEAR = 3.0  # from a dimension to the words in line with it
CLEAR = 1.0  # between an outside arrow's tail end and its figure
ZIG = 0.9
MOST_ROWS = 6
BEYOND = 1.4  # of a break line past the wood


class More(TypedDict, total=False):
    """What else can be said of a span; see `Span`."""

    weight: Weight
    dashed: tuple[bool, bool]
    open: bool
    bare: tuple[bool, bool]
    ground: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Span:
    """A dimension before it is drawn; all on paper.

    Attributes:
        start, end: the two points of the wood.
        way: unit vector along which it measures, from start to end.
        at: a point on the dimension line.
        dashed: whether each extension line runs over wood.
        open: whether the line between outside arrows is left out, because wood stands there.
        bare: whether extension lines are left out, because the points lie on lines already.
        ground: white around the figure, where it stands on hatch.
    """

    start: Vec2
    end: Vec2
    way: Vec2
    at: Vec2
    figure: str
    weight: Weight = "semibold"
    dashed: tuple[bool, bool] = (False, False)
    open: bool = False
    bare: tuple[bool, bool] = (False, False)
    ground: float = 0.0

    def choices(self, order: Sequence[Where] = ()) -> Iterator[list[Item]]:
        """Ways to draw it, the best first; without an order: between if there is room, after, before."""
        between = self._length() >= width(self.figure, TEXT, self.weight) + ROOM
        for where in order or (("between", "after", "before") if between else ("after", "before")):
            if where != "between" or between:
                yield self.drawn(where)

    def drawn(self, where: Where) -> list[Item]:
        """The dimension with its figure in one place."""
        start, end = self._on_line(self.start), self._on_line(self.end)
        items: list[Item] = []
        for point, foot, dashed, bare in zip((start, end), (self.start, self.end), self.dashed, self.bare, strict=True):
            items += [] if bare else _extension(foot, point, dashed=dashed)
        wx, wy = self.way
        if where == "between":
            heads = [arrowhead(start, (-wx, -wy)), arrowhead(end, self.way)]
            middle = ((start[0] + end[0]) / 2, (start[1] + end[1]) / 2)
            return [*items, _line(start, end), *heads, self._text(middle, "middle")]
        long = TAIL + CLEAR + width(self.figure, TEXT, self.weight)
        before, after = (long, TAIL) if where == "before" else (TAIL, long)
        first, last = _along(start, self.way, -before), _along(end, self.way, after)
        lines = [_line(first, start), _line(end, last)] if self.open else [_line(first, last)]
        heads = [arrowhead(start, self.way), arrowhead(end, (-wx, -wy))]
        at = _along(start, self.way, -TAIL - CLEAR + 1.0) if where == "before" else _along(end, self.way, TAIL)
        return [*items, *lines, *heads, self._text(at, where)]

    def beside(self, words: str, where: Where) -> Text:
        """Words in line with the dimension, before or after it."""
        turn, same = reading(self.way)
        start, end = self._on_line(self.start), self._on_line(self.end)
        at = _along(end, self.way, NEAR) if where == "after" else _along(start, self.way, -NEAR)
        down = (math.sin(math.radians(turn)), math.cos(math.radians(turn)))
        anchor: Anchor = "start" if (where == "after") is same else "end"
        at = (at[0] + down[0] * TEXT / 2, at[1] + down[1] * TEXT / 2)
        return Text(at=at, text=words, turn=turn, anchor=anchor, layer="dimension")

    def _length(self) -> float:
        wx, wy = self.way
        return (self.end[0] - self.start[0]) * wx + (self.end[1] - self.start[1]) * wy

    def _on_line(self, p: Vec2) -> Vec2:
        """The point's foot on the dimension line, square to it."""
        wx, wy = self.way
        along = (p[0] - self.at[0]) * wx + (p[1] - self.at[1]) * wy
        return _along(self.at, self.way, along)

    def _text(self, at: Vec2, where: str) -> Text:
        turn, same = reading(self.way)
        up = (-math.sin(math.radians(turn)), -math.cos(math.radians(turn)))
        anchor: Anchor = "middle"
        if where != "middle":
            anchor = "end" if (where == "before") is same else "start"
        return Text(
            at=(at[0] + LIFT * up[0], at[1] + LIFT * up[1]),
            text=self.figure,
            weight=self.weight,
            anchor=anchor,
            turn=turn,
            ground=self.ground,
            layer="dimension",
        )


def reading(way: Vec2) -> tuple[float, bool]:
    """How text along a direction is turned so that it reads from below or from the right, and whether it runs along."""
    turn = math.degrees(math.atan2(-way[1], way[0]))
    if turn > 90.0 + 1e-6:
        return turn - 180.0, False
    if turn <= -90.0 + 1e-6:
        return turn + 180.0, False
    return turn, True


def _extension(foot: Vec2, point: Vec2, *, dashed: bool) -> list[Item]:
    far = math.dist(foot, point)
    if far < GAP:
        return []
    out = ((point[0] - foot[0]) / far, (point[1] - foot[1]) / far)
    ends = (_along(foot, out, GAP), _along(point, out, PAST))
    return [Stroke(points=ends, pen="extension over wood" if dashed else "dimension", layer="dimension")]


def _line(start: Vec2, end: Vec2) -> Stroke:
    return Stroke(points=(start, end), pen="dimension", layer="dimension")


def _along(p: Vec2, way: Vec2, by: float) -> Vec2:
    return (p[0] + way[0] * by, p[1] + way[1] * by)


def broken(start: Vec2, end: Vec2, beyond: float = BEYOND) -> Stroke:
    """A break line from one edge of the wood to the other, with one zigzag in the middle."""
    long = math.dist(start, end)
    way = ((end[0] - start[0]) / long, (end[1] - start[1]) / long)
    side = (-way[1], way[0])
    middle = long / 2
    knots: Sequence[Vec2] = ((-beyond, 0.0), (middle - 1.2, 0.0), (middle - 0.4, -ZIG), (middle + 0.4, ZIG))
    knots = (*knots, (middle + 1.2, 0.0), (long + beyond, 0.0))
    if long < 4.0:
        knots = ((-beyond, 0.0), (long + beyond, 0.0))
    points = tuple((start[0] + way[0] * s + side[0] * z, start[1] + way[1] * s + side[1] * z) for s, z in knots)
    return Stroke(points=points, pen="break", layer="break")


def arc(centre: Vec2, radius: float, start: float, end: float, *, pen: str = "dimension") -> Arc:
    """An arc anticlockwise as seen on paper, degrees off the paper's right."""
    return Arc(centre=centre, radius=radius, start=start, end=end, pen=pen, layer="dimension")


def tried(spans: Iterable[Span], order: Sequence[Where] = ()) -> Iterator[list[Item]]:
    """All ways to draw each of several spans in turn."""
    for span in spans:
        yield from span.choices(order)


def level(start: Vec2, end: Vec2, y: float, figure: str, **more: Unpack[More]) -> Span:
    """A level dimension whose line lies at `y`; its two points in either order."""
    first, last = sorted((start, end))
    return Span(start=first, end=last, way=(1.0, 0.0), at=(0.0, y), figure=figure, **more)


def upright(start: Vec2, end: Vec2, x: float, figure: str, **more: Unpack[More]) -> Span:
    """An upright dimension whose line lies at `x`; its two points in either order."""
    first, last = sorted((start, end), key=lambda p: p[1])
    return Span(start=first, end=last, way=(0.0, 1.0), at=(x, 0.0), figure=figure, **more)


def stacked(pad: Pad, spans: Sequence[Span], first: float, row: float) -> None:
    """Level dimensions in rows, each in the first row in which neither its line nor its figure meets another."""
    rows: list[list[Vec2]] = []
    for span in spans:
        _stack(pad, span, first, row, rows)


def _stack(pad: Pad, span: Span, first: float, row: float, rows: list[list[Vec2]]) -> None:
    for number in range(MOST_ROWS):
        if number == len(rows):
            rows.append([])
        placed = replace(span, at=(0.0, first + number * row))
        for items in placed.choices():
            left, _, right, _ = extent(item for item in items if not _is_extension(item))
            clear = all(right < low + 1e-6 or left > high - 1e-6 for low, high in rows[number])
            if clear and pad.place([items]):
                rows[number].append((left, right))
                return


def _is_extension(item: Item) -> bool:
    return isinstance(item, Stroke) and item.points[0][0] == item.points[1][0]
