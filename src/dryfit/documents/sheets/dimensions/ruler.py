"""From a position along a part to a place on paper: one true scale, whole or broken.

A board too long for its sheet is broken: every stretch that holds a cut or an end stays, 30 either side, at
true scale; the clear stretches between are taken out, at the same places in all views. The figures stay true.
"""

import bisect
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from ....geometry.frames import Vec2

SCALES = (1.0, 0.5, 0.2, 0.1, 0.05)  # ISO 5455, as far as a bench sheet uses them
KEPT = 30.0  # of the part on either side of a cut
GAP = 3.0  # on paper between two pieces
BROKEN = (0.1, 0.05)  # scales at which a board may be broken
SMALLER = (0.02, 0.01, 0.005, 0.002, 0.001, 0.0005)  # only so that a job of any length has sheets


@dataclass(frozen=True, slots=True)
class Piece:
    """A stretch of the part drawn without a break: from and to on the part, and where it starts on paper."""

    start: float
    end: float
    x: float


@dataclass(frozen=True, slots=True)
class Ruler:
    """Where positions along the part stand on the sheet.

    Attributes:
        scale: paper / part.
        pieces: one for a whole board, more for a broken one, in order.
    """

    scale: float
    pieces: tuple[Piece, ...]

    def x(self, a: float) -> float:
        """Where a position stands; one inside a break stands at the break."""
        starts = [piece.start for piece in self.pieces]
        piece = self.pieces[max(bisect.bisect_right(starts, a + 1e-9) - 1, 0)]
        past = len(self.pieces) > 1 and a > piece.end and piece is not self.pieces[-1]
        return piece.x + (min(a, piece.end) if past else a) * self.scale - piece.start * self.scale

    @property
    def left(self) -> float:
        """Where the drawing starts."""
        return self.pieces[0].x

    @property
    def right(self) -> float:
        """Where it ends."""
        last = self.pieces[-1]
        return last.x + (last.end - last.start) * self.scale

    @property
    def breaks(self) -> list[Vec2]:
        """Each break as (end of the piece before, start of the piece after), on paper."""
        return [
            (before.x + (before.end - before.start) * self.scale, after.x) for before, after in pairwise(self.pieces)
        ]


def whole(start: float, end: float, x: float, scale: float) -> Ruler:
    """A part drawn whole."""
    return Ruler(scale, (Piece(start, end, x),))


def broken(start: float, end: float, x: float, scale: float, room: float, kept: Iterable[Vec2]) -> Ruler | None:
    """A part broken to fit `room` on paper; None where even so it is too long.

    Args:
        start, end: of the part.
        kept: (from, to) along the part that must be drawn true: the cuts and the ends.
    """
    stretches = _stretches(start, end, kept)
    spare = room / scale - sum(high - low for low, high in stretches) - GAP / scale * (len(stretches) - 1)
    if spare < 0:
        return None
    stretches = _lengthened(stretches, spare)
    pieces, at = [], x
    for low, high in stretches:
        pieces.append(Piece(low, high, at))
        at += (high - low) * scale + GAP
    return Ruler(scale, tuple(pieces))


def ways(start: float, end: float, x: float, room: float, kept: Sequence[Vec2]) -> Iterator[Ruler]:
    """Ways to draw a part along a sheet, the largest scale first; the last ones fit any sheet.

    Whole at each scale that fits; broken at 1:10 rather than whole at 1:20, and at 1:20 rather than smaller.
    """
    fitting = [scale for scale in (*SCALES, *SMALLER) if (end - start) * scale <= room] or [SMALLER[-1]]
    for scale in BROKEN:
        if scale > fitting[0]:
            ruler = broken(start, end, x, scale, room, kept)
            if ruler is not None:
                yield ruler
    yield from (whole(start, end, x, scale) for scale in fitting)


def _stretches(start: float, end: float, kept: Iterable[Vec2]) -> list[Vec2]:
    """What stays, with 30 either side, in order and joined where it overlaps."""
    wide = [(max(low - KEPT, start), min(high + KEPT, end)) for low, high in kept]
    wide += [(start, start + KEPT), (end - KEPT, end)]
    joined: list[Vec2] = []
    for low, high in sorted(wide):
        if joined and low <= joined[-1][1] + KEPT:
            joined[-1] = (joined[-1][0], max(high, joined[-1][1]))
        else:
            joined.append((low, high))
    return joined


def _lengthened(stretches: Sequence[Vec2], spare: float) -> list[Vec2]:
    """Give the room left over back to the stretches beside each break, so that the part looks its length."""
    gaps = [after[0] - before[1] for before, after in pairwise(stretches)]
    if not gaps:
        return list(stretches)
    shares = [min(spare / len(gaps), gap * 0.8) / 2 for gap in gaps]
    lows = [0.0, *shares]
    highs = [*shares, 0.0]
    return [(low - down, high + up) for (low, high), down, up in zip(stretches, lows, highs, strict=True)]


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
