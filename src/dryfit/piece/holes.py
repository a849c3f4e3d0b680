"""Rows of holes drilled in pairs into two boards: where they stand out of the wall, and the bores themselves.

A board 300 deep has three in a row, at 50, 150 and 250. Where another row stands opposite on the other face, each
takes every other place: the one row at 25, 125 and 225, the other at 75, 175 and 275, so that each may be bored as
deep as if it were alone.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from ..geometry.frames import Vec2, cosine, length
from ..geometry.shapes import Bore
from .model import Side

SPACING = 100.0  # apart, two at least (common practice)
LEAST_WOOD = 3.0  # beside and behind a hole (common practice)
MOST = 40  # of holes that are tried where two rows share a board

Span: TypeAlias = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class HoleRow:
    """A row of holes, the same in all places, in a face and in the end that stands on it.

    Attributes:
        places: out of the wall.
        face, end: profiles of the hole in the face and of the one in the end.
        through: whether the one in the face goes through, from the far side.
        thread: diameter of a screw's thread, which is thicker than the hole for it in the end; 0 for dowels.
    """

    places: tuple[float, ...]
    face: tuple[Vec2, ...]
    end: tuple[Vec2, ...]
    through: bool = False
    thread: float = 0.0

    @property
    def in_end(self) -> float:
        """The widest of what stands in the end."""
        return max(self.end[0][1], self.thread)

    @property
    def wide(self) -> float:
        """The widest of a hole in the face."""
        return self.face[0][1]

    @property
    def deep(self) -> float:
        """Of a hole in the face."""
        return self.face[-1][0]

    def beside(self, over: Span) -> float:
        """Wood left between the outermost holes and the edges."""
        low, high = over
        return min(self.places[0] - low, high - self.places[-1]) - self.wide / 2


def evenly(over: Span, count: int = 0) -> tuple[float, ...]:
    """Places out of the wall, evenly over a depth; 0 for one in 100, two at least."""
    low, high = over
    count = count or max(2, round((high - low) / SPACING))
    step = (high - low) / count
    return tuple(low + (number + 0.5) * step for number in range(count))


def between_others(own: Span, others: Span, face: int, diameter: float, count: int = 0) -> tuple[float, ...]:
    """Places that leave room for a like row on the other face; none where there is no room for two.

    Both rows are set out over all the depth that either has, one of them a quarter of a step before the middles of
    the steps and the other a quarter behind: neither need know the other's sums.

    Args:
        own, others: from and to out of the wall, of the end at hand and of what stands opposite.
        face: which of the two this is, +1 or -1.
        diameter: of the holes.
        count: as asked, over `own` alone; 0 for the rule.
    """
    over = own if count else (min(own[0], others[0]), max(own[1], others[1]))
    first = count or max(2, round((over[1] - over[0]) / SPACING))
    for number in range(first, first + 1 if count else MOST):
        quarter = (over[1] - over[0]) / number / 4
        if 2 * quarter - diameter < 2 * LEAST_WOOD:
            break
        middles = evenly(over, number)
        mine = _within(own, (z - face * quarter for z in middles), diameter)
        theirs = _within(others, (z + face * quarter for z in middles), diameter)
        if len(mine) >= (count or 2) and (count or len(theirs) >= 2):
            return mine
    return ()


def _within(over: Span, places: Iterable[float], diameter: float) -> tuple[float, ...]:
    margin = diameter / 2 + LEAST_WOOD
    return tuple(z for z in places if over[0] + margin <= z <= over[1] - margin)


def bores(
    side: Side, point: Vec2, direction: Vec2, places: Sequence[float], profile: Sequence[Vec2], *, through: bool = False
) -> tuple[Bore, ...]:
    """The holes of a row in one board; point and direction in its own (a, c) plane."""
    steps = tuple((length(at), length(diameter)) for at, diameter in profile)
    way = (cosine(direction[0]), cosine(direction[1]), 0.0)
    return tuple(
        Bore(
            start=(length(point[0]), length(point[1]), length(z - side.back)),
            direction=way,
            profile=steps,
            through=through,
        )
        for z in places
    )
