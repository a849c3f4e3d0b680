"""Running heights from a floor: one line up the sheet, figures left of it, and the letters of what lies there."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ...display import Circle, Item, Stroke, Text
from ...lettering import FIGURE, TEXT, Weight, width
from ...symbols import arrowhead
from .running import APART, DATUM, PAST, pooled

BEFORE = 3.2  # of an extension line, right of the running line


@dataclass(frozen=True, slots=True)
class Lettering:
    """How running heights are lettered.

    Attributes:
        gap: between a figure and the letters left of it.
        first: least from the floor up to the middle of the first figure.
    """

    size: float
    weight: Weight
    gap: float
    first: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Level:
    """A height on a running line up the sheet: y on paper, the figure, and the letters of what lies there."""

    y: float
    figure: str
    letters: str = ""


LARGE = Lettering(FIGURE, "bold", 2.0, FIGURE)
SMALL = Lettering(TEXT, "semibold", 1.6, APART * TEXT)


def level_places(zero: float, marks: Sequence[Level], lettering: Lettering = SMALL) -> list[float]:
    """The middle of each figure on paper, in the order of the marks, spread where they would collide."""
    least = APART * lettering.size
    return [-place for place in pooled([-mark.y for mark in marks], least, -zero + lettering.first)]


def levels(x: float, zero: float, marks: Sequence[Level], lettering: Lettering = SMALL) -> Iterator[Item]:
    """Running heights from a floor: a line at `x` up the sheet, figures left of it, spread where they collide.

    Args:
        zero: y of the floor.
    """
    ordered = sorted(marks, key=lambda mark: -mark.y)
    top = min([mark.y for mark in ordered], default=zero - 10)
    yield Circle(centre=(x, zero), radius=DATUM / 2, pen="dimension", layer="dimension")
    yield Stroke(points=((x, zero - DATUM / 2), (x, top)), pen="dimension", layer="dimension")
    size, weight = lettering.size, lettering.weight
    for mark, place in zip(ordered, level_places(zero, ordered, lettering), strict=True):
        yield arrowhead((x, mark.y), (0.0, -1.0))
        yield Stroke(points=((x + BEFORE, mark.y), (x - PAST, mark.y)), pen="dimension", layer="dimension")
        if abs(place - mark.y) > 0.05:
            yield Stroke(points=((x - PAST, mark.y), (x - PAST - 2.0, place)), pen="dimension", layer="dimension")
        right, base = x - PAST - 2.6, place + size / 2
        yield Text(at=(right, base), text=mark.figure, size=size, weight=weight, anchor="end", layer="dimension")
        if mark.letters:
            right = right - width(mark.figure, size, weight) - lettering.gap
            yield Text(at=(right, base), text=mark.letters, size=size, anchor="end", layer="dimension")
