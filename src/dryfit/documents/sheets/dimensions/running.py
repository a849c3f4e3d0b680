"""Running lines from one datum, along the sheet.

A running line starts at an open circle and has an arrowhead at each mark, pointing away from the datum; a
figure stands above the line and ends 0.9 left of its own arrow. Where figures would collide they are turned
upright, then spread (means of pooled groups, order kept) with cranked extension lines, then made as small as
may be read - in this order, all figures of a line alike.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import Literal, Protocol, TypeVar

from ....geometry.frames import Vec2
from ...display import Circle, Item, Stroke, Text
from ...lettering import FIGURE, TEXT, widest, width
from ...symbols import arrowhead

DATUM = 2.4  # diameter of the circle at the zero
GAP, PAST = 0.8, 1.6  # of an extension line: from the wood, and past the dimension line
BESIDE = 0.9  # figure to its own arrow
LIFT = 0.8  # figure above its line
OVER_CIRCLE = 1.6  # the same where the first figure reaches over the zero's circle: better than turning them all
OVER_ZERO = 0.6  # how far left of the zero it may begin
WORDS = DATUM / 2 + 1.6  # from the datum to the words on the line
AFTER = 9.0  # from an arrow to words in the gap after it: room for a cut's number between
AIR = 2.0  # least room beside a level figure
APART = 1.5  # of the height of figures, between turned ones
CRANK = 3.2  # height in which an extension line steps aside
FAR = 14.0  # a figure spread further than this from its mark is hard to follow: smaller figures then
ROW = 3.6  # of words that stand in two rows
BEYOND = 4.0  # past the last mark that spread figures may reach

Form = Literal["level", "turned", "spread"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One running position on paper.

    Attributes:
        x: of the mark.
        figure: as printed.
        foot: y of the wood that its extension line starts from.
        edge: y of the wood's edge that the line passes on its way; where it steps aside it does so past this.
        key: of the cut it belongs to.
    """

    x: float
    figure: str
    foot: float
    edge: float = 0.0
    key: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A running line before it is placed.

    Attributes:
        zero: x of the datum.
        says: which face, and from where.
        form: how its figures stand, and their size.
        places: x of each figure's arrow.
        words_x: where the words start: at the datum, in the first gap between figures that holds them, or after
            the last.
        lifted: whether the words need a row of their own, on the far side from the wood.
        after: whether they stand in two rows after the last of turned figures.
        lift: of the figures above the line; more where the first one stands over the zero's circle.
    """

    zero: float
    says: str
    marks: tuple[Mark, ...]
    form: Form
    size: float
    places: tuple[float, ...]
    words_x: float
    lifted: bool
    after: bool = False
    lift: float = LIFT

    @property
    def crank(self) -> float:
        """Height needed between wood and line for cranked extensions."""
        return CRANK if self.form == "spread" else 0.0

    def over(self, away: float) -> float:
        """From the top of all that stands above the line down to it; `away` as in `drawn`."""
        words = TEXT + 1.6 if self.lifted and away < 0 else 0.0
        if self.form == "level" or not self.marks:
            return self.size + self.lift + words
        return max(width(mark.figure, self.size, "bold") for mark in self.marks) + self.lift + words

    def under(self, away: float) -> float:
        """From the line down to the end of what stands below it."""
        return PAST + (TEXT + 1.0 if self.lifted and away > 0 else 0.0)


def plan(zero: float, marks: Sequence[Mark], says: str, right: float = -math.inf, air: float = AIR) -> Line:
    """Choose how the figures of a running line stand.

    Args:
        right: how far right of the wood there is room for its words.
        air: least room beside a level figure.
    """
    ordered = tuple(sorted(one_each(marks), key=lambda mark: mark.x))
    widths = [width(mark.figure, FIGURE, "bold") for mark in ordered]
    form, size, places, lift = _figures_stand(zero, [mark.x for mark in ordered], widths, air)
    words_x = _gap_for_words(zero, places, widths, form, says)
    after = words_x is None and form != "level" and places[-1] + AIR + widest(_halves(says), TEXT) <= right
    if after:
        words_x = places[-1] + AIR
    return Line(
        zero=zero,
        says=says,
        marks=ordered,
        form=form,
        size=size,
        places=tuple(places),
        words_x=zero + WORDS if words_x is None else words_x,
        lifted=words_x is None,
        after=after,
        lift=lift,
    )


def _figures_stand(
    zero: float, xs: Sequence[float], widths: Sequence[float], air: float
) -> tuple[Form, float, Sequence[float], float]:
    """How figures stand: their form, their size, their places, and how far above the line."""
    room = [x - before for x, before in zip(xs, [zero + DATUM / 2, *xs[:-1]], strict=True)]
    needed = [wide + air for wide in widths]
    lift = LIFT
    if room and room[0] < needed[0] and xs[0] - zero >= widths[0] + BESIDE - OVER_ZERO:
        lift, needed[0] = OVER_CIRCLE, 0.0
    if all(gap >= need for gap, need in zip(room, needed, strict=True)):
        return "level", FIGURE, xs, lift
    size, places = FIGURE, _spread(zero, xs, FIGURE)
    if _moved(places, xs) > FAR or _moved(places[-1:], xs[-1:]) > BEYOND:
        size, places = TEXT, _spread(zero, xs, TEXT)
    return "turned" if _moved(places, xs) < 0.05 else "spread", size, places, LIFT


def _spread(zero: float, xs: Sequence[float], size: float) -> list[float]:
    """Places for turned figures of that size."""
    return pooled(xs, APART * size, zero + DATUM / 2 + size + BESIDE + 0.4, xs[-1] + BEYOND)


def _moved(places: Sequence[float], xs: Sequence[float]) -> float:
    return max((abs(p - x) for p, x in zip(places, xs, strict=True)), default=0.0)


class Printed(Protocol):
    """What is printed on a running line."""

    @property
    def figure(self) -> str:
        """As printed."""


One = TypeVar("One", bound=Printed)


def one_each(marks: Iterable[One]) -> list[One]:
    """One for each figure printed: two cuts that start together share it."""
    found: dict[str, One] = {}
    for mark in marks:
        found.setdefault(mark.figure, mark)
    return list(found.values())


def _gap_for_words(
    zero: float, places: Sequence[float], widths: Sequence[float], form: Form, says: str
) -> float | None:
    """Where the words stand on the line itself: before the first figure, else in a gap; None if in no gap."""
    wide = width(says, TEXT)
    starts = [zero + WORDS, *(x + AFTER for x in places)]
    stops = [x - BESIDE - (w if form == "level" else FIGURE) for x, w in zip(places, widths, strict=True)]
    for start, stop in zip(starts, [*stops, math.inf] if not places else stops, strict=False):
        if start + wide + AIR <= stop:
            return start
    return None


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


def drawn(line: Line, y: float, away: float, breaks: Sequence[Vec2] = ()) -> list[Item]:
    """The line at `y`; `away` is 1 where it lies below the wood, -1 above it; it is broken where the wood is."""
    last = max(line.places, default=line.zero + 30)
    items: list[Item] = [Circle(centre=(line.zero, y), radius=DATUM / 2, pen="dimension", layer="dimension")]
    starts = [line.zero + DATUM / 2, *(right for _, right in breaks)]
    stops = [*(left for left, _ in breaks), last]
    for start, stop in zip(starts, stops, strict=True):
        if start < min(stop, last):
            points = ((start, y), (min(stop, last), y))
            items.append(Stroke(points=points, pen="dimension", layer="dimension"))
    for mark, x in zip(line.marks, line.places, strict=True):
        items += _mark(mark, x, y, line, away)
    base = y - line.lift
    if line.lifted:
        base = y - line.over(away) + TEXT if away < 0 else y + PAST + 0.8 + TEXT
    rows = _halves(line.says) if line.after else [line.says]
    for row, words in enumerate(reversed(rows)):
        items.append(Text(at=(line.words_x, base - row * ROW), text=words, layer="dimension"))
    return items


def _halves(says: str) -> list[str]:
    """The words of a line in two rows: which face, then from where."""
    return says.split(", ", 1)


def _mark(mark: Mark, x: float, y: float, line: Line, away: float) -> list[Item]:
    level = line.form == "level"
    figure = Text(
        at=(x - BESIDE, y - line.lift),
        text=mark.figure,
        size=line.size,
        weight="bold",
        anchor="end" if level else "start",
        turn=0.0 if level else 90.0,
        layer="dimension",
        owner=mark.key,
    )
    start, stop = mark.foot + away * GAP, y + away * PAST
    points: tuple[Vec2, ...] = ((x, start), (x, stop))
    if abs(x - mark.x) > 0.02:
        bend = mark.edge + away * (GAP + 0.6)
        points = ((mark.x, start), (mark.x, bend), (x, bend + away * (CRANK - 0.6)), (x, stop))
    extension = Stroke(points=points, pen="dimension", layer="dimension", owner=mark.key)
    return [extension, arrowhead((x, y), (1.0, 0.0), mark.key), figure]
