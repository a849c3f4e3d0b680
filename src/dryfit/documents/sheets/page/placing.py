"""Finds room for words: upright rectangles that must not overlap each other or what is drawn.

Places are tried in the order given; the first one free is taken. Nothing is moved once it stands, so a
sheet comes out the same however often it is made.
"""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, field

from ....geometry.frames import Vec2
from ...display import Item, extent

AIR = 0.7
STEPS = (5.5, 8.0, 11.0, 15.0, 20.0)  # how far beside what it names a letter or a number may stand


@dataclass(frozen=True, slots=True)
class Rect:
    """left, top, right, bottom on paper."""

    left: float
    top: float
    right: float
    bottom: float

    def overlaps(self, other: "Rect", air: float = 0.0) -> bool:
        """Whether they come nearer than `air`."""
        return (
            self.left < other.right + air
            and other.left < self.right + air
            and self.top < other.bottom + air
            and other.top < self.bottom + air
        )

    def holds(self, other: "Rect") -> bool:
        """Whether the other lies inside."""
        return (
            self.left <= other.left
            and other.right <= self.right
            and self.top <= other.top
            and other.bottom <= self.bottom
        )


@dataclass(slots=True)
class Room:
    """A part of the sheet and what already stands on it."""

    bounds: Rect
    taken: list[Rect] = field(default_factory=list)

    def block(self, left: float, top: float, right: float, bottom: float) -> None:
        """Keep a rectangle free of words."""
        self.taken.append(Rect(min(left, right), min(top, bottom), max(left, right), max(top, bottom)))

    def block_items(self, items: Iterable[Item]) -> None:
        """Keep free what each item covers."""
        for item in items:
            self.block(*extent([item]))

    def find(self, wide: float, high: float, places: Iterable[Vec2], air: float = AIR) -> Vec2 | None:
        """Take the first of the top left corners at which a rectangle is free; None if none is."""
        for x, y in places:
            rect = Rect(x, y, x + wide, y + high)
            if self.bounds.holds(rect) and not any(rect.overlaps(other, air) for other in self.taken):
                self.taken.append(rect)
                return x, y
        return None


def along(start: float, stop: float, y: float, step: float = 2.0) -> list[Vec2]:
    """Places on a level line, from the middle outwards."""
    middle = (start + stop) / 2
    places: list[Vec2] = [(middle, y)]
    off = step
    while off <= (stop - start) / 2:
        places += [(middle - off, y), (middle + off, y)]
        off += step
    return places


def around(p: Vec2, corners: float = 0.8, beside: float = 1.1) -> Iterator[Vec2]:
    """Places about a point, the corners first, farther and farther out; of each step `corners` and `beside` count."""
    ways = [(x * corners, y * corners) for x, y in ((1.0, -1.0), (-1.0, -1.0), (1.0, 1.0), (-1.0, 1.0))]
    ways += [(0.0, -beside), (0.0, beside), (beside, 0.0), (-beside, 0.0)]
    for step in STEPS:
        for x, y in ways:
            yield p[0] + step * x, p[1] + step * y
