"""Drilling templates: the holes of a cut on the face or the end that it opens to, each with a cross on its axis.

What is drilled from an edge stands on that edge's strip. A hole through a face has a print for either side.
"""

from collections.abc import Iterator
from dataclasses import dataclass

from ....geometry.views import ENDS, FACES, Surface, Trace
from ....piece.model import Cut
from ....sentences import Voice
from ...display import Held
from ...kit.dimension import DimensionMark, UnplacedDimension
from ...kit.view import View, place
from ...looks import Desk, Look, is_bored
from ...naming import position, printed_units
from ...pages import full_size
from .paper import PrintedBlock, headed, room, tile_of
from .strips import taken
from .templates import AROUND
from .window import Window, centre, named, tiled, trace_of


@dataclass(frozen=True, slots=True)
class Holes:
    """What of a cut opens to a face or an end."""

    look: Look
    cut: Cut
    surface: Surface

    @property
    def trace(self) -> Trace:
        """It on that surface."""
        return trace_of(self.look, self.cut, self.surface)

    def blocks(self, desk: Desk) -> Iterator[PrintedBlock]:
        """A block a tile; they run from the first hole to the front edge."""
        depth = self.look.part.board.depth
        middles = [centre(loop) for loop in self.trace.opening]
        places = [d for _, d in middles]
        firsts = [x for x, _ in middles]
        half = self.look.part.board.thickest / 2
        up = (-half, half) if self.surface in ENDS else (min(firsts) - AROUND, max(firsts) + AROUND)
        along = (max(0.0, min(places) - AROUND), depth)
        window = Window(look=self.look, surface=self.surface, along=along, up=up, across=True)
        whole = [(min(d for _, d in loop), max(d for _, d in loop)) for loop in self.trace.opening]
        tiles = list(tiled(window, whole, room(desk).wide))
        for number, tile in enumerate(tiles, start=1):
            yield self._block(desk, tile, number, len(tiles))

    def _block(self, desk: Desk, window: Window, number: int, of: int) -> PrintedBlock:
        look, free = self.look, room(desk)
        across, up = window.axes
        view = View(
            title="",
            wood=tuple(window.items()),
            across=across,
            up=up,
            dimensions=tuple(self._running(window)),
            labels=tuple(window.seamed()),
        )
        drawn = place(view, (free.wide, free.high), Voice(printed_units(), bare=True))
        name = named(look)
        title = f"{name}: {self.cut.word} {look.numbers[self.cut.key]}, {look.names.words[self.surface]}"
        items = headed(
            title + tile_of(number, of), self._words(desk), drawn.items, max(drawn.wide, free.wide / 2), window.datum
        )
        held = (Held(place=full_size(look.part.id), title=title),) if number == 1 else ()
        return PrintedBlock(items=tuple(items), title=name, held=held, unplaced=drawn.unplaced)

    def _running(self, window: Window) -> Iterator[UnplacedDimension]:
        """From the front edge to each axis; on a tile that does not reach it, from beyond."""
        depth, level = self.look.part.board.depth, window.up[0] if window.rising > 0 else window.up[1]
        low, high = window.own
        marks = [DimensionMark((min(depth, high), level))]
        for loop in self.trace.opening:
            _, d = centre(loop)
            if low <= d <= high:
                marks.append(DimensionMark((d, level), position(depth - d), owner=self.cut.key))
        if len(marks) > 1:
            yield UnplacedDimension(way=(-1.0, 0.0), marks=tuple(marks), style="running", side=1, far=high < depth)

    def _words(self, desk: Desk) -> str:
        look, names = self.look, self.look.names
        said = f"this side up on the {names.words[self.surface]}; front edge on the right, figures from it"
        if self.surface in FACES:
            at = sorted({position(centre(loop)[0]) for loop in self.trace.opening})
            said += f"; arrow to the datum end ({names.short(Surface.DATUM)}), axes at {', '.join(at)} from it"
        else:
            upper = Surface.PLUS if self.surface is Surface.DATUM else Surface.MINUS
            said += f"; the {names.words[upper]} is up"
        takes = taken(desk, (look,), self.cut)
        return f"{said}; {takes}" if takes else said


def holes(look: Look) -> Iterator[Holes]:
    """All of a part's holes that open to a face or an end."""
    for cut in look.part.cuts:
        if not is_bored(cut):
            continue
        for surface in (*FACES, *ENDS):
            trace = look.view(surface).trace(cut.key)
            if trace is not None and trace.seen:
                yield Holes(look, cut, surface)
