"""Dimensions after ISO 129's habits, in any direction: plain between two arrowheads, running from one datum.

A dimension says what it measures, along which way, and on which side its line stands; the line is then put beside the
wood in the first row that is free. Where a plain figure has no room between its arrows these come from outside. Running
figures stand along their line while they fit, each before its own arrow; else across it, read from the right, spread
where they would collide (means of pooled groups, order kept) and led to their arrows. Up the sheet they are level.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cache, partial
from itertools import islice
from typing import Literal, NamedTuple, TypeAlias

from ...geometry.frames import Vec2
from ...sentences import Voice
from ..display import Anchor, Circle, Item, Stroke, Text
from ..lettering import Weight, width
from ..standard import AIR, FIGURE, FIRST, GROUND, LIFT, LINE, PAST, RIGHT, ROW, TEXT
from ..symbols import BALLOON, HEAD_LONG, arrowhead
from . import label, wood
from .axis import Axis
from .label import Label, lifted
from .placing import ANYWHERE, LINE_LAYER, Bounds, FilledPaper, Variant

DATUM = HEAD_LONG  # diameter of the circle at the zero
ROOM = 2 * HEAD_LONG + 2 * AIR  # beside a figure between its arrows
TAIL = 2 * HEAD_LONG  # of an arrow from outside
FREE, ROWS = 2, 10  # rows tried before a figure is put on hatch; rows at all
FAR = 4  # heights: figures spread further than this are set smaller
UPRIGHT = 1 / 2  # share of a way from which on it runs up the sheet
BETWEEN = 3 * AIR  # from a figure to the arrow after it
SEEN = 0.02  # a figure spread by less is not moved

Style: TypeAlias = Literal["running", "plain"]
_Stands: TypeAlias = Literal["between", "after", "before"]
OUTSIDE: tuple[_Stands, _Stands] = ("after", "before")


class DimensionMark(NamedTuple):
    """A place that is dimensioned, its figure as printed, words beside that, and a number for a ring at the wood.

    The datum has no figure.
    """

    at: Vec2
    figure: str = ""
    more: str = ""
    owner: str = ""
    ring: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class UnplacedDimension:
    """A dimension before it is placed.

    Attributes:
        way: along which it measures; need not be a unit vector.
        marks: of a plain one its two ends, the figure with the second; of a running one the datum first.
        side: of the way, as one goes along it on paper: 1 left, -1 right, 0 either.
        weight: of the figure; regular for what is not set with rule, square or gauge.
        says: of a running one which face, and from where.
        size: of its figures.
        first: from the outermost mark to the first row; `rows` how many there may be.
        inside: of a plain one, whether its figure must stand between its arrows, and never on hatch.
        far: of a running one, whether its zero lies off the sheet: the line comes from a break instead of a circle.
    """

    way: Vec2
    marks: tuple[DimensionMark, ...]
    style: Style = "plain"
    side: int = 1
    weight: Weight = "semibold"
    says: str = ""
    size: float = TEXT
    first: float = FIRST
    rows: int = ROWS
    inside: bool = False
    far: bool = False

    def on(self, across: Axis, up: Axis) -> "UnplacedDimension":
        """The same on paper."""
        x, y = self.way[0] * across.sign, self.way[1] * up.sign
        marks = tuple(mark._replace(at=(across.at(mark.at[0]), up.at(mark.at[1]))) for mark in self.marks)
        return replace(self, way=(x / math.hypot(x, y), y / math.hypot(x, y)), marks=marks)


def plain(
    start: Vec2,
    end: Vec2,
    figure: str,
    side: int = 1,
    *,
    way: Vec2 | None = None,
    weight: Weight = "semibold",
    more: str = "",
) -> UnplacedDimension:
    """A plain dimension between two points; along the line between them if no other way is given."""
    x, y = way if way is not None else (end[0] - start[0], end[1] - start[1])
    long = math.hypot(x, y)
    return UnplacedDimension(
        way=(x / long, y / long),
        marks=(DimensionMark(start), DimensionMark(end, figure, more)),
        side=side,
        weight=weight,
    )


def near(dimension: UnplacedDimension, first: float = FIRST, rows: int = FREE) -> UnplacedDimension:
    """The same, nowhere but in the first rows, its figure between its arrows and never on hatch."""
    return replace(dimension, first=first, rows=rows, inside=True)


def put(
    paper: FilledPaper, dimension: UnplacedDimension, breaks: Sequence[Vec2] = (), within: Bounds = ANYWHERE
) -> bool:
    """Draw a dimension that is on paper already in the first row that is free; False if there is none.

    Args:
        within: of a plain one, edges that it may not reach over.
    """
    if dimension.style == "running":
        return running(paper, dimension, breaks).say(paper, dimension.says)
    return any(paper.place_within(some, within) for some in _plain(paper, dimension))


# --- plain -----------------------------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Run:
    """A dimension's line on paper: along `way`, at `at` square to it, on the side of `out`."""

    way: Vec2
    out: Vec2
    at: float

    def point(self, along: float, out: float = 0.0) -> Vec2:
        """A place along the line, so far outside it."""
        (wx, wy), (ox, oy) = self.way, self.out
        return along * wx + (self.at + out) * ox, along * wy + (self.at + out) * oy

    def along(self, p: Vec2) -> float:
        """How far along the way a point lies."""
        return p[0] * self.way[0] + p[1] * self.way[1]

    def off(self, p: Vec2) -> float:
        """How far out a point lies."""
        return p[0] * self.out[0] + p[1] * self.out[1]


def _sides(dimension: UnplacedDimension) -> list[Vec2]:
    wx, wy = dimension.way
    left = (wy, -wx)
    return [(side * left[0], side * left[1]) for side in ((dimension.side,) if dimension.side else (1, -1))]


def _base(dimension: UnplacedDimension, out: Vec2) -> float:
    """How far out the outermost mark lies."""
    return max(mark.at[0] * out[0] + mark.at[1] * out[1] for mark in dimension.marks)


def _plain(paper: FilledPaper, dimension: UnplacedDimension) -> Iterator[Iterator[Variant]]:
    """Ways to draw it, the best first: near the wood; there on a white ground; farther away; past other figures."""
    near, far = range(min(FREE, dimension.rows)), range(FREE, dimension.rows)
    for rows, ground, broken in (
        (near, 0.0, False),
        (near, GROUND, False),
        (far, 0.0, False),
        (range(dimension.rows), 0.0, True),
    ):
        yield _in_rows(paper, dimension, rows, (ground, broken))


def _in_rows(
    paper: FilledPaper, dimension: UnplacedDimension, rows: Iterable[int], how: tuple[float, bool]
) -> Iterator[Variant]:
    """Row by row, its figure between the arrows, after or before them."""
    start, end = sorted(dimension.marks, key=lambda mark: mark.at[0] * dimension.way[0] + mark.at[1] * dimension.way[1])
    mark = start if start.figure else end
    said = _Said(mark.figure, mark.more, dimension.weight, *how)
    for row in rows:
        for out in _sides(dimension):
            run = _Run(dimension.way, out, _base(dimension, out) + dimension.first + row * ROW)
            found = _each_where(paper, run, (start.at, end.at), said)
            yield from islice(found, int(_fits(run, (start.at, end.at), said))) if dimension.inside else found


class _Said(NamedTuple):
    """A figure, the words beside it, its weight, the white ground around it, whether its extension lines are broken."""

    figure: str
    more: str
    weight: Weight
    ground: float = 0.0
    broken: bool = False


def _fits(run: _Run, ends: tuple[Vec2, Vec2], said: _Said) -> bool:
    """Whether a figure has room between its arrows."""
    return run.along(ends[1]) - run.along(ends[0]) >= width(said.figure, TEXT, said.weight) + ROOM


def _each_where(paper: FilledPaper, run: _Run, ends: tuple[Vec2, Vec2], said: _Said) -> Iterator[Variant]:
    places = run.along(ends[0]), run.along(ends[1])

    @cache
    def extensions() -> list[Item]:
        return [item for p in ends for item in extension(paper, run, p, broken=said.broken)]

    def lines(where: _Stands, wide: float = 0.0) -> list[Item]:
        return [*extensions(), *_arrows(paper, run, places, where, wide)]

    if _fits(run, ends, said):
        between = partial(lines, "between")
        inner = _figure(run, places, "between", said._replace(ground=GROUND) if said.more else said)
        if not said.more:
            yield Variant((inner,), between)
        for where in OUTSIDE if said.more else ():
            words = _Said(said.more, "", "regular")
            yield Variant((inner, _figure(run, places, where, words, HEAD_LONG)), between)
    whole = said._replace(figure=f"{said.figure} {said.more}".strip())
    wide = width(whole.figure, TEXT, said.weight)
    for where in OUTSIDE:
        yield Variant((_figure(run, places, where, whole),), partial(lines, where, wide))


def extension(paper: FilledPaper, run: _Run, foot: Vec2, owner: str = "", *, broken: bool = False) -> list[Item]:
    """From the wood to past the line; nothing where the point lies at the line already."""
    along, off = run.along(foot), run.off(foot)
    if abs(run.at - off) <= PAST:
        return []
    start, stop = run.point(along, off + PAST - run.at), run.point(along, PAST)
    return paper.extension(start, stop, owner, broken=broken)


def _arrows(paper: FilledPaper, run: _Run, ends: Vec2, where: _Stands, wide: float) -> Iterator[Item]:
    (wx, wy), (low, high) = run.way, ends
    if where == "between":
        yield _line(run.point(low), run.point(high))
        yield arrowhead(run.point(low), (-wx, -wy))
        yield arrowhead(run.point(high), (wx, wy))
        return
    before, after = (TAIL + AIR + wide, TAIL) if where == "before" else (TAIL, TAIL + AIR + wide)
    if paper.on_wood(run.point(low), run.point(high)):
        yield _line(run.point(low - before), run.point(low))
        yield _line(run.point(high), run.point(high + after))
    else:
        yield _line(run.point(low - before), run.point(high + after))
    yield arrowhead(run.point(low), (wx, wy))
    yield arrowhead(run.point(high), (-wx, -wy))


def _line(start: Vec2, end: Vec2) -> Stroke:
    return Stroke(points=(start, end), pen="dimension", layer=LINE_LAYER)


def _figure(run: _Run, ends: Vec2, where: _Stands, said: _Said, tail: float = TAIL) -> Text:
    turn, same = reading(run.way)
    low, high = ends
    along = {"between": (low + high) / 2, "after": high + tail, "before": low - tail}[where]
    anchor: Anchor = "middle" if where == "between" else "start" if (where == "after") is same else "end"
    at = lifted(run.point(along), turn, LIFT)
    return Text(
        at=at, text=said.figure, weight=said.weight, anchor=anchor, turn=turn, ground=said.ground, layer="dimension"
    )


def reading(way: Vec2) -> tuple[float, bool]:
    """How text along a direction is turned so that it reads from below or from the right, and whether it runs along."""
    turn = math.degrees(math.atan2(-way[1], way[0]))
    if turn > RIGHT + SEEN:
        return turn - 2 * RIGHT, False
    if turn <= SEEN - RIGHT:
        return turn + 2 * RIGHT, False
    return turn, True


# --- running ---------------------------------------------------------------------------------------------------------


def running(paper: FilledPaper, dimension: UnplacedDimension, breaks: Sequence[Vec2] = ()) -> "PlacedRun":
    """Draw a running dimension without its words: in the first row in which the whole line is free.

    In the last one all the same, since its figures must be read.
    """
    (out,) = _sides(dimension)[:1]
    line = _Running(dimension, _Run(dimension.way, out, 0.0))
    beside = line.size + line.lift + 2 * AIR if line.lengthwise and out[1] > UPRIGHT else 2 * PAST
    base = _base(dimension, out) + max(beside, 2 * PAST)
    free = False
    for row in range(dimension.rows):
        run = _Run(dimension.way, out, base + row * ROW)
        items = list(line.items(paper, run, breaks))
        free = paper.free(item for item in items if not isinstance(item, Circle))
        if free:
            break
    paper.draw(items)
    placed = [free, *(_ring(paper, run, mark, line) for mark in line.marks if mark.ring)]
    return PlacedRun(all(placed), run, line)


@dataclass(frozen=True, slots=True)
class PlacedRun:
    """A running line that is drawn.

    Attributes:
        free: whether it and its rings found room.
    """

    free: bool
    run: _Run
    line: "_Running"

    def say(self, paper: FilledPaper, says: str) -> bool:
        """Draw words at it; False where they, or the line itself, found no room."""
        return _says(paper, self.run, self.line, says) and self.free


def _ring(paper: FilledPaper, run: _Run, mark: DimensionMark, said: "_Running") -> bool:
    """A mark's ring: on its line, or led to it."""
    on_line = mark.at in said.rings
    at = run.point(run.along(mark.at) + AIR + BALLOON / 2) if on_line else mark.at
    ring = Label(says=mark.ring, at=(at,), leader=not on_line, ring=True, owner=mark.owner)
    return label.put(paper, ring, Voice())


def one_each(marks: Iterable[DimensionMark]) -> list[DimensionMark]:
    """One for each figure printed: two cuts that start together share it."""
    found: dict[str, DimensionMark] = {}
    for mark in marks:
        found.setdefault(mark.figure, mark)
    return list(found.values())


class _Running:
    """A running line, wherever it stands: its marks in order, its figures' size, whether they stand along it."""

    def __init__(self, dimension: UnplacedDimension, run: _Run) -> None:
        self.dimension, self.datum = dimension, dimension.marks[0]
        self.marks = sorted(one_each(dimension.marks[1:]), key=lambda mark: run.along(mark.at))
        self.zero, self.places = run.along(self.datum.at), [run.along(mark.at) for mark in self.marks]
        self.size = max(dimension.size, FIGURE) if dimension.weight == "bold" else dimension.size
        self.figured = [self.datum, *self.marks] if self.datum.figure else self.marks
        self.stand = [self.zero, *self.places] if self.datum.figure else self.places
        level = abs(run.way[1]) < UPRIGHT
        over = DATUM / 2 + AIR  # its circle, where the first figure has no room after that; never over a break
        ways = ((self.zero + DATUM / 2, LIFT), (self.zero - DATUM / 2, over))
        lifts = (
            lift
            for start, lift in ways[: 1 if dimension.far else 2]
            if level and _fit(start, self.figured, self.stand, self.size, dimension.weight)
        )
        self.lift = next(lifts, 0.0)
        self.lengthwise = self.lift > 0.0
        self.rings = {mark.at: place for mark, place in self._rings() if level}

    def _rings(self) -> Iterator[tuple[DimensionMark, float]]:
        """Marks whose ring has room on the line, after the arrow; the line is broken for it."""
        wides = [width(mark.figure, self.size, self.dimension.weight) + BETWEEN for mark in self.marks]
        nexts = [*(b - wide for b, wide in zip(self.places[1:], wides[1:], strict=True)), math.inf]
        for mark, place, after in zip(self.marks, self.places, nexts, strict=True):
            if mark.ring and place + BALLOON + 2 * AIR < after:
                yield mark, place

    @property
    def _least(self) -> float:
        """How far back the first figure may be spread: to its circle, where no figure stands there and no break."""
        first = self.stand[0] if self.stand else self.zero
        return first if self.dimension.far or self.datum.figure else min(first, self.zero + DATUM)

    def _start(self, run: _Run) -> Item:
        """The circle at its zero, or the break beyond which that lies."""
        if self.dimension.far:
            return wood.broken(run.point(self.zero, -DATUM), run.point(self.zero, DATUM), 0.0)
        return Circle(centre=run.point(self.zero), radius=DATUM / 2, pen="dimension", layer="dimension")

    def items(self, paper: FilledPaper, run: _Run, breaks: Sequence[Vec2]) -> Iterator[Item]:
        """All of it but its words."""
        yield self._start(run)
        rings = [(place, place + BALLOON + 2 * AIR) for place in self.rings.values()]
        last = max(self.places, default=self.zero)
        for low, high in _unbroken(self.zero + DATUM / 2, last, sorted([*breaks, *rings])):
            yield _line(run.point(low), run.point(high))
        for mark, place in zip(self.marks, self.places, strict=True):
            yield from extension(paper, run, mark.at, mark.owner, broken=True)
            yield arrowhead(run.point(place), run.way, mark.owner)
        stand = partial(_lengthwise, lift=self.lift) if self.lengthwise else partial(_crosswise, least=self._least)
        yield from stand(run, self.figured, self.stand, self.size, self.dimension.weight)


def _unbroken(start: float, stop: float, breaks: Sequence[Vec2]) -> Iterator[Vec2]:
    starts, stops = [start, *(high for _, high in breaks)], [*(low for low, _ in breaks), stop]
    for low, high in zip(starts, stops, strict=True):
        if low < min(high, stop):
            yield low, min(high, stop)


def _fit(start: float, marks: Sequence[DimensionMark], places: Sequence[float], size: float, weight: Weight) -> bool:
    """Whether each figure has room before its own arrow."""
    before = [start, *places[:-1]]
    wides = [width(mark.figure, size, weight) + BETWEEN for mark in marks]
    words = any(mark.more for mark in marks)
    return not words and all(b - a >= wide for a, b, wide in zip(before, places, wides, strict=True))


def _lengthwise(
    run: _Run, marks: Sequence[DimensionMark], places: Sequence[float], size: float, weight: Weight, lift: float
) -> Iterator[Item]:
    """Each figure on the line, before its own arrow."""
    turn, same = reading(run.way)
    for mark, place in zip(marks, places, strict=True):
        at = lifted(run.point(place - 2 * AIR), turn, lift)
        anchor: Anchor = "end" if same else "start"
        yield Text(
            at=at, text=mark.figure, size=size, weight=weight, anchor=anchor, turn=turn, layer="dimension",
            owner=mark.owner,
        )  # fmt: skip


def _crosswise(
    run: _Run, marks: Sequence[DimensionMark], places: Sequence[float], size: float, weight: Weight, least: float
) -> Iterator[Item]:
    """Figures beyond the line, square to it, spread about their arrows and led to them; none before `least`."""
    if not marks:
        return
    spread = pooled(places, LINE * size, least)
    if max(abs(a - b) for a, b in zip(places, spread, strict=True)) > FAR * size and size > TEXT:
        size = TEXT
        spread = pooled(places, LINE * size, least)
    led = any(abs(a - b) > SEEN for a, b in zip(places, spread, strict=True))
    beyond = PAST + (size if led else 0.0)
    turn, same = reading(run.out)
    anchor: Anchor = "start" if same else "end"
    for mark, place, stands in zip(marks, places, spread, strict=True):
        if led:
            ends = (run.point(place, PAST), run.point(stands, beyond))
            yield Stroke(points=ends, pen="dimension", layer="dimension", owner=mark.owner)
        for text, off, heavy in (
            (mark.figure, AIR, weight),
            (mark.more, 4 * AIR + width(mark.figure, size, weight), ""),
        ):
            if text:
                at = lifted(run.point(stands, beyond + off), turn, -size / 2)
                yield Text(
                    at=at, text=text, size=size, weight=weight if heavy else "regular", anchor=anchor, turn=turn,
                    layer="dimension", owner=mark.owner,
                )  # fmt: skip


def spread_over(wanted: Sequence[float], apart: float) -> list[float]:
    """Places in order as near as can be to those wanted, at least so far apart; the first goes nowhere back."""
    return pooled(wanted, apart, wanted[0])


def pooled(wanted: Sequence[float], apart: float, least: float, most: float = math.inf) -> list[float]:
    """Places as near as can be to those wanted, in their order, at least `apart`, between `least` and `most`.

    Pooling of adjacent means: groups that would overlap are merged and stand about their mean. Where there
    is no room for all, `least` and `apart` are kept.
    """
    groups: list[tuple[float, int]] = []  # (mean of wanted less the place in the group, count)
    for number, x in enumerate(wanted):
        groups.append((x - number * apart, 1))
        while len(groups) > 1 and groups[-1][0] <= groups[-2][0]:
            (m1, n1), (m0, n0) = groups.pop(), groups.pop()
            groups.append(((m0 * n0 + m1 * n1) / (n0 + n1), n0 + n1))
    last = most - (len(wanted) - 1) * apart
    means = [max(min(mean, last), least) for mean, count in groups for _ in range(count)]
    return [mean + number * apart for number, mean in enumerate(means)]


def _says(paper: FilledPaper, run: _Run, line: _Running, says: str) -> bool:
    """The words: on the line in the first gap, after the end of a crowded one, else in a row beyond its figures."""
    starts = [line.zero, *line.places]
    if not says:
        return True
    wide, last = width(says, TEXT), starts[-1]
    above, down = math.copysign(PAST, -run.out[1]), math.copysign(LINE * TEXT, run.out[1])

    def choices() -> Iterator[list[Item]]:
        for start in (start + more for start in starts for more in (0.0, BALLOON)):
            if start + DATUM + wide <= last:
                yield [_words(run, says, start, above)]
        if math.isfinite(paper.wide) and not line.lengthwise:
            halves = says.split(", ", 1)
            yield [_words(run, half, last + line.size / 2, above + number * down) for number, half in enumerate(halves)]
        beyond = PAST + AIR + (TEXT if run.out[1] > 0.0 else 0.0)
        for row in range(4 * ROWS):
            yield [_words(run, says, starts[0], beyond + row * TEXT / 2)]

    return paper.place(choices())


def _words(run: _Run, text: str, start: float, off: float) -> Text:
    turn, same = reading(run.way)
    anchor: Anchor = "start" if same else "end"
    return Text(at=run.point(start + DATUM, off), text=text, anchor=anchor, turn=turn, layer="dimension")
