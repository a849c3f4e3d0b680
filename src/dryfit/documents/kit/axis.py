"""Where positions along one direction of the wood stand on paper: at one true scale, whole or broken.

What is too long for its room is broken: what must be seen is kept at true scale, and what says nothing between is taken
out. The figures stay true.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ...geometry.frames import Vec2
from ..standard import BREAK, SCALES, SMALL, SMALLEST

ABOUT = 30.0  # mm of a board on either side of what is kept (common practice)
BROKEN = SMALL, SMALLEST  # a board is broken at 1:10 rather than drawn whole at 1:20, and at 1:20 rather than smaller
NEAR = 1e-6


@dataclass(frozen=True, slots=True)
class Unbroken:
    """A stretch of the wood drawn without a break: from and to on the wood, and where its first end stands."""

    low: float
    high: float
    at: float


@dataclass(frozen=True, slots=True)
class Axis:
    """One direction on paper.

    Attributes:
        scale: paper / wood.
        pieces: one of what is drawn whole, more of what is broken, in order.
        sign: 1 where paper's coordinate grows with the wood's, -1 where it falls.
    """

    scale: float
    pieces: tuple[Unbroken, ...]
    sign: float = 1.0

    @classmethod
    def whole(cls, low: float, high: float, scale: float, start: float = 0.0, sign: float = 1.0) -> "Axis":
        """Drawn whole; `start` is where `low` stands."""
        return cls(scale, (Unbroken(low, high, start),), sign)

    @classmethod
    def of(cls, kept: Iterable[Vec2], scale: float, start: float = 0.0, sign: float = 1.0) -> "Axis":
        """Only what is kept; stretches so near that a break would save less than it takes are one."""
        merged: list[Vec2] = []
        for low, high in sorted((min(span), max(span)) for span in kept):
            if merged and low <= merged[-1][1] + 2 * BREAK / scale:
                merged[-1] = (merged[-1][0], max(merged[-1][1], high))
            else:
                merged.append((low, high))
        return cls(scale, tuple(_laid(merged, scale, start, sign)), sign)

    @classmethod
    def fitted(cls, room: float, low: float, high: float, keep: Sequence[Vec2], start: float = 0.0) -> "Axis":
        """The largest way to draw a board that has room."""
        return next(cls.ways(room, low, high, keep, start))

    @classmethod
    def ways(cls, room: float, low: float, high: float, keep: Sequence[Vec2], start: float = 0.0) -> Iterator["Axis"]:
        """Ways to draw a board so long, the largest scale first; the last fits any sheet.

        Args:
            room: on paper.
            low, high: its ends.
            keep: (from, to) along it that must be drawn true: the cuts; its ends are too.
        """
        for scale in SCALES:
            if (high - low) * scale <= room or scale == SCALES[-1]:
                yield cls.whole(low, high, scale, start)
            elif scale in BROKEN:
                spans = [(max(a - ABOUT, low), min(b + ABOUT, high)) for a, b in (*keep, (low, low), (high, high))]
                broken = cls.of(spans, scale, start)
                if broken.right - start <= room:
                    yield broken.filling(room)

    def filling(self, room: float) -> "Axis":
        """The room that is left given back to the stretches beside each break, so that the board looks its length."""
        gaps = [after.low - before.high for before, after in pairwise(self.pieces)]
        if not gaps:
            return self
        spare = (room - abs(self.pieces[-1].at - self.pieces[0].at) - self._long(self.pieces[-1])) / self.scale
        shares = [min(spare / len(gaps), gap - 2 * BREAK / self.scale) / 2 for gap in gaps]
        spans = [
            (piece.low - down, piece.high + up)
            for piece, down, up in zip(self.pieces, [0.0, *shares], [*shares, 0.0], strict=True)
        ]
        return Axis(self.scale, tuple(_laid(spans, self.scale, self.pieces[0].at, self.sign)), self.sign)

    def at(self, mm: float) -> float:
        """Where a position stands: one inside a break at its nearer end, one beyond the ends where it would be."""
        if len(self.pieces) == 1:  # as mostly
            (piece,) = self.pieces
            return piece.at + self.sign * (mm - piece.low) * self.scale
        piece = next((one for one in reversed(self.pieces) if mm >= one.low - NEAR), self.pieces[0])
        inside = mm if piece is self.pieces[-1] else min(mm, piece.high)
        return piece.at + self.sign * (inside - piece.low) * self.scale

    def _long(self, piece: Unbroken) -> float:
        return (piece.high - piece.low) * self.scale

    def holds(self, mm: float) -> bool:
        """Whether a position is drawn."""
        return any(piece.low - NEAR <= mm <= piece.high + NEAR for piece in self.pieces)

    def inside(self, low: float, high: float) -> list[Vec2]:
        """What of a stretch is drawn."""
        found = ((max(piece.low, low), min(piece.high, high)) for piece in self.pieces)
        return [(a, b) for a, b in found if b > a]

    @property
    def ends(self) -> Vec2:
        """Where the drawing begins and ends on paper, the smaller first."""
        first, last = self.at(self.pieces[0].low), self.at(self.pieces[-1].high)
        return min(first, last), max(first, last)

    @property
    def left(self) -> float:
        """Where it begins on paper."""
        return self.ends[0]

    @property
    def right(self) -> float:
        """Where it ends on paper."""
        return self.ends[1]

    @property
    def breaks(self) -> list[Vec2]:
        """The two sides of each break on paper, the smaller first."""
        sides = [(self.at(before.high), after.at) for before, after in pairwise(self.pieces)]
        return [(min(pair), max(pair)) for pair in sides]


PAPER = Axis.whole(0.0, 1.0, 1.0)  # of what is on paper already


def _laid(spans: Iterable[Vec2], scale: float, start: float, sign: float) -> Iterator[Unbroken]:
    """Stretches one after the other, a break between two."""
    at = start
    for low, high in spans:
        yield Unbroken(low, high, at)
        at += sign * ((high - low) * scale + BREAK)


def clipped(loop: Sequence[Vec2], low: float, high: float) -> list[list[Vec2]]:
    """A closed outline's lines between two positions, as open runs; the whole loop, closed, if all lies between."""
    if all(low <= a <= high for a, _ in loop):
        return [[*loop, loop[0]]]
    runs: list[list[Vec2]] = []
    for p, q in zip(loop, [*loop[1:], loop[0]], strict=True):
        piece = _clip(p, q, low, high)
        if piece is None:
            continue
        if runs and runs[-1][-1] == piece[0]:
            runs[-1].append(piece[1])
        else:
            runs.append([*piece])
    if len(runs) > 1 and runs[-1][-1] == runs[0][0]:
        runs[0] = [*runs.pop(), *runs[0][1:]]
    return runs


def _clip(p: Vec2, q: Vec2, low: float, high: float) -> tuple[Vec2, Vec2] | None:
    if max(p[0], q[0]) < low or min(p[0], q[0]) > high:
        return None
    if p[0] == q[0]:
        return (p, q) if low < p[0] < high else None

    def at(a: float) -> Vec2:
        return a, p[1] + (q[1] - p[1]) * (a - p[0]) / (q[0] - p[0])

    ends = [p if low <= p[0] <= high else at(low if p[0] < low else high)]
    ends.append(q if low <= q[0] <= high else at(low if q[0] < low else high))
    return (ends[0], ends[1]) if ends[0] != ends[1] else None
