"""Where the piece stands in its room: its size along each direction, and what is free before and behind it.

Figures are rounded so that they add up as printed: what is free, the piece, and what is free again are the room.
"""

from dataclasses import dataclass

from shapely import unary_union

from ....lengths import steps
from ....piece.room import has_wall, is_floor
from ....piece.sums import Sum, Term, Word
from ....sentences import Fineness
from ...looks import Desk
from ...naming import LEAST, printed_units

DRAWN = 1000.0  # what is free beside a piece is drawn up to this, or up to the piece's own size if that is more


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomStretch:
    """The piece along one direction, in the world.

    Attributes:
        low, high: where it begins and ends.
        start, stop: where the room does; None where nobody knows.
    """

    low: float
    high: float
    start: float | None = None
    stop: float | None = None

    @property
    def size(self) -> float:
        """Of the piece."""
        return self.high - self.low

    @property
    def before(self) -> float | None:
        """What is free before the piece; below 0 where it reaches over the room's end."""
        return None if self.start is None else self.low - self.start

    @property
    def behind(self) -> float | None:
        """What is free behind it."""
        return None if self.stop is None else self.stop - self.high

    @property
    def drawn(self) -> "RoomStretch":
        """The same with those ends of the room alone that stand near enough to be drawn with it."""
        near = max(DRAWN, self.size)
        start = self.start if self.before is not None and self.before <= near else None
        stop = self.stop if self.behind is not None and self.behind <= near else None
        return RoomStretch(low=self.low, high=self.high, start=start, stop=stop)

    @property
    def begins(self) -> float:
        """Where its drawing begins."""
        return self.low if self.start is None else min(self.low, self.start)

    @property
    def ends(self) -> float:
        """Where its drawing ends."""
        return self.high if self.stop is None else max(self.high, self.stop)

    def figures(self) -> "PrintedStretch":
        """Its sizes as they are printed."""
        step = Fineness.PLACE.size(printed_units())

        def printed(value: float | None) -> float | None:
            return None if value is None else steps(value, step) * step

        size, before, behind = steps(self.size, step) * step, self.before, self.behind
        if before is None or behind is None:
            return PrintedStretch(size=size, before=printed(before), behind=printed(behind))
        whole = steps(self.size + before + behind, step) * step
        free = Sum("", (Term(Word.GAP, before), Term(Word.GAP, behind)))
        _, (first, last) = free.printed(step, whole - size)
        return PrintedStretch(size=size, before=first, behind=last, whole=whole)


@dataclass(frozen=True, slots=True, kw_only=True)
class PrintedStretch:
    """What is printed of a stretch: `before`, `size` and `behind` add up to `whole`, where the room is known."""

    size: float
    before: float | None
    behind: float | None
    whole: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class PlaceInRoom:
    """The piece in its room.

    Attributes:
        across: along the wall, left to right; `up` from the floor; `out` of the wall.
        walled: whether there is a wall behind it.
        stands: whether it stands on the floor.
    """

    across: RoomStretch
    up: RoomStretch
    out: RoomStretch
    walled: bool
    stands: bool


def place_of(desk: Desk) -> PlaceInRoom | None:
    """Where the piece stands; None of a job without boards.

    Heights of a piece that hangs are from the floor only where it hangs above 0: else its own foot is the datum.
    """
    wall, boards = desk.book.job.wall, desk.book.piece.boards
    shapes = [shape for shape in desk.elevations.values() if not shape.is_empty]
    if not shapes:
        return None
    left, foot, right, head = unary_union(shapes).bounds
    back, front = min(board.back for board in boards), max(board.front for board in boards)
    walled = has_wall(wall, fixed=bool(desk.book.job.fixings))
    floor = 0.0 if is_floor(wall, [foot]) or (wall.hung and foot > LEAST) else None
    return PlaceInRoom(
        across=RoomStretch(low=left, high=right, start=wall.left, stop=wall.right),
        up=RoomStretch(low=foot, high=head, start=floor, stop=wall.ceiling),
        out=RoomStretch(low=back, high=front, start=0.0 if walled else None),
        walled=walled,
        stands=not wall.hung and abs(foot) <= LEAST,
    )
