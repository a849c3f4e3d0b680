"""Lines of boards in the elevation: where one meets another's face, and what is left between two of them."""

import math
from dataclasses import dataclass, replace

from ..geometry.frames import Vec2
from .model import Board

PARALLEL = 1e-3  # sine of the angle below which two lines do not meet


@dataclass(frozen=True, slots=True)
class CentreLine:
    """A board's centre-line: a point on it, its direction, and half the board's greatest thickness."""

    point: Vec2
    u: Vec2
    half: float

    @classmethod
    def of(cls, board: Board) -> "CentreLine":
        """The line of a board that stands across the wall."""
        (x, y, _), (ux, uy, _) = board.frame.origin, board.frame.x
        return cls((x, y), (ux, uy), board.thickest / 2)

    @classmethod
    def through(cls, start: Vec2, end: Vec2, half: float) -> "CentreLine":
        """From one point to another."""
        size = math.dist(start, end) or 1.0
        return cls(start, ((end[0] - start[0]) / size, (end[1] - start[1]) / size), half)

    def moved(self, dx: float, dy: float) -> "CentreLine":
        """The same line elsewhere."""
        return replace(self, point=(self.point[0] + dx, self.point[1] + dy))


def span(on: CentreLine, other: CentreLine, c: float) -> tuple[float, float] | None:
    """Where another board meets this one at height `c`: (middle along it, half the length); None if parallel."""
    (ux, uy), (vx, vy) = on.u, other.u
    sine = ux * vy - uy * vx
    if abs(sine) < PARALLEL:
        return None
    dx, dy = other.point[0] - on.point[0] + c * uy, other.point[1] - on.point[1] - c * ux
    return (dx * vy - dy * vx) / sine, other.half / abs(sine)


def left_between(on: CentreLine, one: CentreLine, other: CentreLine, c: float) -> tuple[float, float] | None:
    """From the middle of one board to that of another along this one at height `c`, and half of both lengths."""
    mine, its = span(on, one, c), span(on, other, c)
    if mine is None or its is None:
        return None
    return mine[0] - its[0], mine[1] + its[1]
