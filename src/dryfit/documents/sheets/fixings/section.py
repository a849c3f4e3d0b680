"""A screw in its hole, cut along its axis at true scale: wall to the left, front to the right, the sum written out.

The counterbore is broken, because most of a board's depth is in it; all else along the screw is true. What enters the
wall, the lining and the worst gap are drawn as they were told, not as they are found: that is for the site.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby, pairwise

from ...display import Anchor, Area, Item, Stroke, Text, rectangle
from ...hatch import hatch
from ...lettering import TEXT, width
from ...naming import depth, in_runs, position, scale_words
from ...symbols import arrowhead, zigzag
from ..joint.hardware import head_of
from .chain import Chain, Point

SCALES = (1.0, 0.5, 0.2, 0.1)
ROOM = 180.0  # for the drawing, on paper
PAST_TIP = 10.0  # of the wall past the screw's tip, on paper
BORED = 22.0  # of the counterbore that is shown behind the break, and before it
FRONT = 16.0
BREAK = 3.0
BESIDE = 5.0  # of wall and lining above and below the board, on paper
OVER, UNDER = 8.0, 14.0  # for figures
ROW = 5.4  # from one line of dimensions to the next
NARROW = 9.0  # on paper: a stretch shorter than this has its figure below
NAME = 4.6  # from a dimension line down to the name of its stretch
POINT = 0.8  # of the screw's diameter: its tip
FIGURE_UP = 0.8


@dataclass(frozen=True, slots=True)
class Section:
    """One chain drawn from (0, 0) down."""

    items: tuple[Item, ...]
    wide: float
    high: float
    scale: float


def section(chain: Chain, found: Sequence[Point]) -> Section:
    """The drawing of one chain, with its caption."""
    scale = next((scale for scale in SCALES if _wide(chain, scale) <= ROOM), SCALES[-1])
    view = _View(chain, scale)
    numbers = in_runs([point.number for point in found])
    says = f"holes {numbers}: cut along the screw, {_words(scale)}; wall left, front right; the counterbore is broken"
    caption = Text(at=(0.0, TEXT), text=says, weight="semibold")
    return Section((caption, *view.items()), view.wide, view.bottom, scale)


def _words(scale: float) -> str:
    return "full size" if scale == 1.0 else scale_words(scale)


def _wide(chain: Chain, scale: float) -> float:
    along = max(chain.links()[0][1], 0.0) + sum(size for _, size in chain.links()[1:]) + chain.plan.grip
    return PAST_TIP + along * scale + BORED + BREAK + FRONT


class _View:
    """Places along the screw on paper: the tip's side of the wall at 0, the front edge at the far right."""

    def __init__(self, chain: Chain, scale: float) -> None:
        self.chain, self.scale = chain, scale
        (_, held), *links = chain.links()
        self.structure = PAST_TIP + max(held, 0.0) * scale
        self.lining = self.structure + (links[0][1] if links else 0.0) * scale
        self.board = self.lining + (links[1][1] if links else 0.0) * scale
        self.floor = self.board + chain.plan.grip * scale  # of the counterbore
        self.seat = self.floor + chain.plan.washer * scale  # where the head bears
        self.broken = (self.seat + BORED, self.seat + BORED + BREAK)
        self.wide = self.broken[1] + FRONT
        more = ROW if chain.plan.washer else 0.0
        self.top = TEXT + 4.0 + OVER + more
        self.half = chain.thick * scale / 2
        self.axis = self.top + BESIDE + self.half
        self.low = self.axis + self.half + BESIDE
        lowest = max((step[0] for step in _steps(self._stretches()) if step is not None), default=0)
        self.bottom = self.low + UNDER + lowest * ROW

    def items(self) -> Iterator[Item]:
        yield from self._wall()
        yield from self._wood()
        yield from self._plug()
        yield from self._screw()
        yield Stroke(points=((2.0, self.axis), (self.wide + 4.0, self.axis)), pen="axis", layer="axis")
        yield from self._under()
        yield from self._over()

    def _wall(self) -> Iterator[Item]:
        """The structure, and the lining before it."""
        top, low = self.top, self.low
        structure = ((0.0, top), (self.structure, top), (self.structure, low), (0.0, low))
        yield from hatch([structure], 2.4, lean=45.0)
        yield Stroke(points=((self.structure, top), (self.structure, low)), pen="cut wood", layer="wall")
        yield zigzag(0.0, top, low)
        if self.chain.plan.lining:
            lining = ((self.structure, top), (self.lining, top), (self.lining, low), (self.structure, low))
            yield from hatch([lining], 1.2, lean=-45.0)
            yield Stroke(points=((self.lining, top), (self.lining, low)), pen="outline", layer="wall")

    def _wood(self) -> Iterator[Item]:
        """The board above and below its hole, in two pieces with the break between."""
        up, down = self.axis - self.half, self.axis + self.half
        hole, bore = self.chain.plan.hole * self.scale / 2, self.chain.plan.counterbore * self.scale / 2
        left, right = self.broken
        for edge, way in ((up, 1.0), (down, -1.0)):
            near, far = self.axis - way * hole, self.axis - way * bore
            first = (
                (self.board, edge),
                (left, edge),
                (left, far),
                (self.floor, far),
                (self.floor, near),
                (self.board, near),
            )
            second = ((right, edge), (self.wide, edge), (self.wide, far), (right, far))
            yield from hatch([first, second], 2.0, lean=-45.0)
            yield Stroke(points=((left, edge), (self.board, edge), (self.board, near)), pen="cut wood", layer="wood")
            yield Stroke(
                points=((self.board, near), (self.floor, near), (self.floor, far)), pen="outline", layer="wood"
            )
            yield Stroke(points=((self.floor, far), (left, far)), pen="outline", layer="wood")
            front = ((right, edge), (self.wide, edge), (self.wide, far))
            yield Stroke(points=front, pen="cut wood", layer="wood")
            yield Stroke(points=((self.wide, far), (right, far)), pen="outline", layer="wood")
        yield zigzag(left, up - 1.0, down + 1.0)
        yield zigzag(right, up - 1.0, down + 1.0)

    def _plug(self) -> Iterator[Item]:
        """The plug, dashed: it goes in after hanging."""
        if not self.chain.plug:
            return
        bore = self.chain.plan.counterbore * self.scale / 2
        inner = self.wide - min(self.chain.plug * self.scale, FRONT - 2.0)
        ends = ((self.wide, self.axis - bore), (inner, self.axis - bore), (inner, self.axis + bore))
        yield Stroke(points=(*ends, (self.wide, self.axis + bore)), pen="hidden small", closed=True, layer="plug")

    def _screw(self) -> Iterator[Item]:
        """Head over the counterbore's floor, shank, and the tip; white, with the thread where it holds."""
        chain, s = self.chain, self.scale
        half, head = chain.screw.diameter * s / 2, head_of(chain.screw)[0] * s / 2
        start = self.seat - chain.screw.under_head * s
        tip = POINT * chain.screw.diameter * s if chain.screw.kind == "wood" else 0.0
        shank = (
            (self.seat, self.axis - half),
            (start + tip, self.axis - half),
            (start, self.axis),
            (start + tip, self.axis + half),
            (self.seat, self.axis + half),
        )
        yield Area(loops=(shank,), ink="white", layer="screw")
        yield Stroke(points=shank, pen="balloon", closed=True, layer="screw")
        tops = [rectangle(self.seat, self.axis - head, max(chain.head_high * s, 1.0), 2 * head)]
        if chain.plan.washer:
            rim = chain.plan.head * s / 2
            tops.append(rectangle(self.floor, self.axis - rim, self.seat - self.floor, 2 * rim))
        for top in tops:
            yield Area(loops=(top,), ink="white", layer="screw")
            yield Stroke(points=top, pen="outline", closed=True, layer="screw")
        x = start + tip
        while x < self.structure - half:
            thread = ((x, self.axis - half), (x + half, self.axis + half))
            yield Stroke(points=thread, pen="hatch", layer="screw")
            x += 1.6

    # --- figures ---------------------------------------------------------------------------------

    def _stretches(self) -> list[tuple[float, float, str, str]]:
        """What the screw's length is made of, end to end: from and to on paper, figure and name."""
        chain, s = self.chain, self.scale
        ends = [self.seat - chain.screw.under_head * s, self.structure, self.lining, self.board]
        links = chain.links()
        if len(links) == 1:
            ends = [ends[0], self.board]
        ends += [self.floor, self.seat, self.seat + chain.head_counts * s]
        links += [("grip", chain.plan.grip), ("washer", chain.plan.washer), ("head", chain.head_counts)]
        return [
            (x0, x1, position(size), name)
            for (x0, x1), (name, size) in zip(pairwise(ends), links, strict=True)
            if x1 - x0 >= 0.05
        ]

    def _under(self) -> Iterator[Item]:
        """The links of the chain; narrow ones have their words under the line, those of a run in steps."""
        y, shown = self.low + 5.0, self._stretches()
        for (x0, x1, figure, name), step in zip(shown, _steps(shown), strict=True):
            yield Stroke(points=((x0, y), (x1, y)), pen="dimension", layer="dimension")
            if step is None:
                yield from _stretch(x0, x1, y, figure, name)
            else:
                yield from _under_it((x0 + x1) / 2, y, f"{name} {figure}", step)
        for x in dict.fromkeys(round(x, 6) for x0, x1, *_ in shown for x in (x0, x1)):
            top = self.axis + self.half if x >= self.board - 0.05 else self.low
            yield Stroke(points=((x, top + 0.8), (x, y + 1.6)), pen="dimension", layer="dimension")

    def _over(self) -> Iterator[Item]:
        """The screw's length under its head; the counterbore's depth, which is broken, under it where a washer lies."""
        chain, low = self.chain, self.top - 3.0
        high = low - (ROW if chain.plan.washer else 0.0)
        start = self.seat - chain.screw.under_head * self.scale
        long = f"{position(chain.screw.under_head)} {'under the head' if chain.head_counts else 'long'}"
        words = f"{chain.screw.name}: {long}"
        if width(words, TEXT, "semibold") > self.seat - start - 2.0:
            words = position(chain.screw.under_head)
        spans = [(start, self.seat, high, words)]
        if chain.plan.deep:
            spans.append((self.floor, self.wide, low, f"{depth(chain.plan.deep)} deep"))
        for x0, x1, y, words in spans:
            yield Stroke(points=((x0, y), (x1, y)), pen="dimension", layer="dimension")
            yield arrowhead((x0, y), (-1.0, 0.0))
            yield arrowhead((x1, y), (1.0, 0.0))
            at = ((x0 + x1) / 2, y - FIGURE_UP)
            yield Text(at=at, text=words, weight="semibold", anchor="middle", layer="dimension")
            for x in (x0, x1):
                foot = self.top if x == start else self.axis - self.half
                yield Stroke(points=((x, foot - 0.8), (x, y - 1.6)), pen="dimension", layer="dimension")


def _stretch(x0: float, x1: float, y: float, figure: str, name: str) -> Iterator[Item]:
    """One dimension with room for its figure above the line, and its name under it."""
    middle = (x0 + x1) / 2
    yield arrowhead((x0, y), (-1.0, 0.0))
    yield arrowhead((x1, y), (1.0, 0.0))
    at = (middle, y - FIGURE_UP)
    yield Text(at=at, text=figure, weight="semibold", anchor="middle", layer="dimension")
    yield Text(at=(middle, y + NAME), text=name, anchor="middle", layer="dimension")


def _is_narrow(x0: float, x1: float, figure: str, name: str) -> bool:
    """Whether a stretch has no room for its words."""
    return x1 - x0 < max(NARROW, max(width(figure, TEXT, "semibold"), width(name, TEXT)) + 2.0)


def _steps(shown: Sequence[tuple[float, float, str, str]]) -> list[tuple[int, int] | None]:
    """Of each narrow stretch how many steps down its words stand, and how many are in its run; None for a wide one.

    The left one of a run stands lowest: its line then passes the words of none.
    """
    steps: list[tuple[int, int] | None] = []
    for narrow, run in groupby(shown, key=lambda one: _is_narrow(*one)):
        count = len(list(run))
        steps += [(count - 1 - number, count) if narrow else None for number in range(count)]
    return steps


def _under_it(middle: float, y: float, words: str, step: tuple[int, int]) -> Iterator[Item]:
    """The words of a narrow stretch, under the line between those of its neighbours."""
    down, count = step
    base = y + NAME + 4.4 + down * ROW
    yield Stroke(points=((middle, y), (middle, base - TEXT - 0.8)), pen="dimension", layer="dimension")
    side: Anchor = "middle" if count == 1 else "start"
    at = (middle if count == 1 else middle - 0.4, base)
    yield Text(at=at, text=words, weight="semibold", anchor=side, layer="dimension")
