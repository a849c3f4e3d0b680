"""Ends as a detail shows them: the long and the short point of each, and which way its board runs from there."""

import math
from dataclasses import dataclass

from ....geometry.frames import Vec2
from ....geometry.shapes import HalfSpace, Prism
from ....piece.model import FAR_END, Board, Cut, Part, Side
from ...naming import LEAST, saw_rise, saw_words
from .stance import SQUARE, Stance

ON_LINE = 1e-4  # so near to the corner's middle a wedge's side runs through it


@dataclass(frozen=True, slots=True)
class Bevel:
    """An end as the section seen from the front shows it, in the drawing's coordinates.

    Attributes:
        long, short: its long and its short point; equally far along where it is square.
        away: unit vector along its board, away from the joint.
    """

    cut: Cut
    board: Board
    long: Vec2
    short: Vec2
    away: Vec2

    @property
    def longer(self) -> float:
        """Long point less short point."""
        return abs((self.long[0] - self.short[0]) * self.away[0] + (self.long[1] - self.short[1]) * self.away[1])

    @property
    def bevelled(self) -> bool:
        """Whether it is not square, as printed."""
        return self.longer > LEAST

    @property
    def on_saw(self) -> str:
        """What is set to cut it."""
        return saw_words(abs(self.cut.figures.lean), self.board)

    @property
    def rises(self) -> str:
        """The same as a rise."""
        return saw_rise(abs(self.cut.figures.lean), self.board)

    @property
    def size(self) -> float:
        """Length of the cut in the elevation."""
        return math.dist(self.long, self.short)

    @property
    def normal(self) -> Vec2:
        """Unit vector square to the cut."""
        dx, dy = self.short[0] - self.long[0], self.short[1] - self.long[1]
        return (-dy / self.size, dx / self.size)

    @property
    def outside(self) -> Vec2:
        """Unit vector square to the board, from its short point's face to its long point's."""
        ax, ay = self.away
        toward = (self.long[1] - self.short[1]) * ax - (self.long[0] - self.short[0]) * ay
        return (-ay, ax) if toward > 0 else (ay, -ax)


def bevel_of(stance: Stance, part: Part) -> Bevel | None:
    """The end of a board in this joint, None where it does not end here."""
    side = stance.joint.meeting.side(part.id)
    for cut in stance.joint.cuts:
        if cut.body == part.id and cut.end and cut.end == side.end:
            return _bevel(stance, part, cut)
    return None


def bevels(stance: Stance) -> list[Bevel]:
    """The ends of both boards, the level one's first; one that runs on has none."""
    found = (bevel_of(stance, part) for part in (stance.main, stance.other))
    return [bevel for bevel in found if bevel is not None]


def _bevel(stance: Stance, part: Part, cut: Cut) -> Bevel:
    side = stance.joint.meeting.side(part.id)
    (a0, c0), (nx, ny) = _end_line(side, cut)
    ends = [(a0 - ny * (c - c0) / nx, c) for c in (side.thickness / 2, -side.thickness / 2)]
    long = (max if cut.end == FAR_END else min)(ends)
    short = ends[1 - ends.index(long)]
    x, y = stance.direct(part.board.frame.x)
    away = (-x, -y) if cut.end == FAR_END else (x, y)
    return Bevel(cut, part.board, stance.place(part, long), stance.place(part, short), away)


def _end_line(side: Side, cut: Cut) -> tuple[Vec2, Vec2]:
    """A point of the end as cut at the common depth, and its normal, in the board's (a, c)."""
    if abs(cut.figures.lean) > SQUARE:
        for shape in cut.shapes:
            found = _through_corner(side, shape) if isinstance(shape, Prism) else None
            if found is not None:
                return found
    half = next(shape for shape in cut.shapes if isinstance(shape, HalfSpace))
    return (half.point[0], half.point[1]), (half.normal[0], half.normal[1])


def _through_corner(side: Side, wedge: Prism) -> tuple[Vec2, Vec2] | None:
    """Of a mitre in part of the depth: the side of its wedge on which the two boards meet."""
    knots = [(a, c) for a, c, _ in wedge.outline]
    for (a0, c0), (a1, c1) in zip(knots, [*knots[1:], knots[0]], strict=True):
        long = math.dist((a0, c0), (a1, c1))
        nx, ny = (c0 - c1) / long, (a1 - a0) / long
        if abs((side.at - a0) * nx - c0 * ny) < ON_LINE and abs(nx) > ON_LINE:
            return (a0, c0), (nx, ny)
    return None
