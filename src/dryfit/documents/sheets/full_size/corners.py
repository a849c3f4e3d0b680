"""Corner templates: key pockets on the two outer faces of a corner, folded round its arris once it is glued.

Seen from outside with the front edge on the right, one board's face lies above the fold and the other's below it.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ....geometry.views import FACES, Surface
from ....piece.facts import CutForm
from ....piece.model import DATUM_END, Cut
from ....sentences import Voice
from ...display import Held, Item, extent, shifted
from ...kit.axis import Axis
from ...kit.dimension import DimensionMark, UnplacedDimension
from ...kit.view import View, place
from ...looks import Desk, Look
from ...naming import position, printed_units
from ...pages import full_size
from .paper import PrintedBlock, headed, room, tile_of
from .templates import AROUND, marks_on
from .window import Window, centre, tiled, trace_of


@dataclass(frozen=True, slots=True)
class CornerSide:
    """One board's side of a corner."""

    look: Look
    cut: Cut
    face: Surface
    end: int

    @property
    def corner(self) -> float:
        """Running position of the corner's arris."""
        return self.look.end_at(self.end, self.face)

    @property
    def reach(self) -> float:
        """How far the pockets reach from it."""
        return max(abs(at - self.corner) for at in marks_on(self.look, self.cut, self.face))

    @property
    def back(self) -> float:
        """Its wall edge, out of the wall."""
        return self.look.part.board.back

    @property
    def pockets(self) -> list[tuple[float, float]]:
        """From and to of each, out of the wall."""
        trace = trace_of(self.look, self.cut, self.face)
        return [(min(d for _, d in loop) + self.back, max(d for _, d in loop) + self.back) for loop in trace.opening]

    def window(self, low: float, high: float) -> Window:
        """Its face from the corner inwards, from and to out of the wall."""
        inner = self.corner - self.end * (self.reach + AROUND)
        up = (min(self.corner, inner), max(self.corner, inner))
        along = (low - self.back, high - self.back)
        return Window(look=self.look, surface=self.face, along=along, up=up, across=True, numbered=False)

    @property
    def above(self) -> bool:
        """Whether it lies above the fold: the corner is then its lower end on paper."""
        return (self.end == DATUM_END) is (self.window(0.0, 1.0).rising > 0)


@dataclass(frozen=True, slots=True)
class CornerTemplate:
    """Both, the upper one first."""

    upper: CornerSide
    lower: CornerSide

    @property
    def halves(self) -> tuple[CornerSide, CornerSide]:
        """Both."""
        return self.upper, self.lower

    @property
    def front(self) -> float:
        """The front edge, out of the wall: of the board that stands further out."""
        return max(half.back + half.look.part.board.depth for half in self.halves)

    def blocks(self, desk: Desk) -> Iterator[PrintedBlock]:
        """A block a tile."""
        low = max(min(half.back for half in self.halves), min(a for a, _ in self.upper.pockets) - AROUND)
        whole = [(a - self.upper.back, b - self.upper.back) for a, b in self.upper.pockets]
        tiles = list(tiled(self.upper.window(low, self.front), whole, room(desk).wide))
        for number, tile in enumerate(tiles, start=1):
            yield self._block(desk, tile, number, len(tiles))

    def _block(self, desk: Desk, tile: Window, number: int, of: int) -> PrintedBlock:
        free, back = room(desk), self.upper.back
        low, high = (at + back for at in tile.along)
        items, bottom = self._wood(tile, low, high)
        view = View(
            title="",
            wood=tuple(items),
            across=Axis.whole(low, high, 1.0),
            dimensions=tuple(self._running(tile, bottom)),
        )
        drawn = place(view, (free.wide, free.high), Voice(printed_units(), bare=True))
        marks = [half.look.part.mark for half in self.halves]
        title = f"Key pockets, corner of {marks[0]} and {marks[1]}"
        words = (
            f"this side out, front edge on the right; fold over the arris between {marks[0]} and {marks[1]}, once the "
            f"corner is glued: {marks[0]} lies above it, {marks[1]} below; figures from the front edge to each middle"
        )
        joins = "".join(f"; join at {position(self.front - at - back)}" for at in tile.seams)
        laid = headed(title + tile_of(number, of), words + joins, drawn.items, max(drawn.wide, free.wide / 2), (0, 0))
        held = (Held(place=full_size(self.upper.look.part.id), title=title),) if number == 1 else ()
        return PrintedBlock(items=tuple(laid), title=f"{marks[0]}, {marks[1]}", held=held, unplaced=drawn.unplaced)

    def _wood(self, tile: Window, low: float, high: float) -> tuple[Sequence[Item], float]:
        """Both faces, the arris between them at 0, and how far down they reach."""
        items: list[Item] = []
        for half in self.halves:
            window = half.window(low, high)
            drawn = window.items()
            _, arris = window.on_paper((0.0, half.corner))
            items += shifted(drawn, 0.0, -arris)
        seams = Window(
            look=tile.look, surface=tile.surface, along=tile.along, up=(-self.lower.reach, self.lower.reach),
            across=True, seams=tile.seams,
        )  # fmt: skip
        items += seams.joined()
        return items, extent(items).bottom

    def _running(self, tile: Window, level: float) -> Iterator[UnplacedDimension]:
        back = self.upper.back
        low, high = (at + back for at in tile.own)
        places = [(a + b) / 2 for a, b in self.upper.pockets if low <= (a + b) / 2 <= high]
        marks = [
            DimensionMark((min(high, self.front), level)),
            *(DimensionMark((z, level), position(self.front - z)) for z in places),
        ]
        if places:
            yield UnplacedDimension(way=(-1.0, 0.0), marks=tuple(marks), style="running", side=1, far=high < self.front)


def corners(desk: Desk) -> Iterator[CornerTemplate]:
    """The corners of the piece with pockets."""
    for joint in desk.joints:
        halves = [half for cut in joint.cuts if cut.form is CutForm.POCKET for half in _halves(desk, cut)]
        upper, lower = [half for half in halves if half.above], [half for half in halves if not half.above]
        if upper and lower:
            yield CornerTemplate(upper[0], lower[0])


def _halves(desk: Desk, cut: Cut) -> Iterator[CornerSide]:
    """The board's side, on the face that the pockets break."""
    look = desk.looks[cut.body]
    for face in FACES:
        trace = look.view(face).trace(cut.key)
        if trace is not None and trace.seen and trace.marks is not None:
            middle = centre(trace.opening[0])[0]
            end = DATUM_END if middle < look.part.length / 2 else -DATUM_END
            yield CornerSide(look, cut, face, end)
            return
