"""One direction of a detail with the stretches that say nothing broken out; the rest at one true scale."""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from .....geometry.frames import Vec2

BREAK = 3.6  # between two stretches, on paper


@dataclass(frozen=True, slots=True)
class Broken:
    """Where places along one direction stand on paper.

    Attributes:
        shown: the stretches that are drawn, in order.
        sign: 1 where paper's coordinate grows with them, -1 where it falls.
    """

    shown: tuple[Vec2, ...]
    scale: float
    sign: float = 1.0

    @classmethod
    def of(cls, spans: Sequence[Vec2], scale: float, sign: float = 1.0) -> "Broken":
        """Stretches in order; those so near that a break would save nothing made one."""
        ordered = sorted((min(span), max(span)) for span in spans)
        merged = [ordered[0]]
        for low, high in ordered[1:]:
            if low <= merged[-1][1] + 2 * BREAK / scale:
                merged[-1] = (merged[-1][0], max(merged[-1][1], high))
            else:
                merged.append((low, high))
        return cls(tuple(merged), scale, sign)

    def at(self, place: float) -> float:
        """On paper; a place inside a break stands at its nearer side, one beyond the ends where it would be."""
        low = self.shown[0][0]
        if place <= low:
            return self.sign * (place - low) * self.scale
        paper = 0.0
        for number, (low, high) in enumerate(self.shown):
            last = number == len(self.shown) - 1
            if place <= high or last:
                return self.sign * (paper + max(place - low, 0.0) * self.scale)
            if place < self.shown[number + 1][0]:
                return self.sign * (paper + (high - low) * self.scale)
            paper += (high - low) * self.scale + BREAK
        return self.sign * paper

    def holds(self, place: float) -> bool:
        """Whether a place is drawn."""
        return any(low - 1e-6 <= place <= high + 1e-6 for low, high in self.shown)

    def inside(self, low: float, high: float) -> list[Vec2]:
        """What of a stretch is drawn."""
        return [(max(a, low), min(b, high)) for a, b in self.shown if min(b, high) > max(a, low)]

    @property
    def breaks(self) -> list[Vec2]:
        """The two sides of each break on paper, the smaller first."""
        sides = [(self.at(a[1]), self.at(b[0])) for a, b in pairwise(self.shown)]
        return [(min(pair), max(pair)) for pair in sides]
