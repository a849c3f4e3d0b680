"""Strips along the edges of parts: the edge itself at 1:1 with what is cut there, and a flap for either face.

The flaps are folded over the arrises; on them stands where each cut is marked on that face, so a raked slot has its
two places without a sum. A cut stands on the strip of the edge that it opens to; one that reaches no edge on the front
edge's, in dashes. The running figures are those of the part's sheet. Where an end is bevelled the short face counts
from its own end too, since there is no wood at the long point to hold a rule to.

A tile of bare wood is not printed; the next is laid by a rule to the figure at its edge, and the first says which are
left out.
"""

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from ....geometry.frames import Vec2
from ....geometry.views import EDGES, FACES, Surface
from ....lengths import written
from ....piece.facts import CutForm, Opens
from ....piece.model import DATUM_END, FAR_END, Cut
from ....sentences import Voice
from ...display import Held, Item, Stroke
from ...kit.dimension import DimensionMark, UnplacedDimension
from ...kit.label import Label
from ...kit.view import View, place
from ...looks import Desk, Look, is_bored
from ...naming import LEAST, in_runs, plural, position, printed_units
from ...pages import full_size
from ...standard import PAST, ROW, TEXT
from ..part.alike import AlikeParts
from ..part.fellows import Pair
from .paper import PrintedBlock, headed, room
from .window import CROSS, FLAP, OVER, Window, centre, end_at, ringed, tiled

TICK = 2 * PAST  # of a mark on a flap: to the running line
NEAR = 1.0  # of an edge: a cut that comes so near reaches it


@dataclass(frozen=True, slots=True, kw_only=True)
class Tick:
    """Where something is marked on a face, beside the edge.

    Attributes:
        at: running position.
        face: PLUS or MINUS.
        cut: of which; None for an end.
        figured: whether its figure is printed: the far wall of a cut has none.
        reaches: whether it comes to the edge there.
    """

    at: float
    face: Surface
    cut: Cut | None = None
    figured: bool = True
    reaches: bool = True


@dataclass
class EdgeStrip:
    """One edge of a part, named for all that are alike.

    Attributes:
        looks: the parts; the first is drawn.
        letters, title: of all of them.
    """

    looks: tuple[Look, ...]
    letters: str
    title: str
    edge: Surface

    @property
    def look(self) -> Look:
        """The one that is drawn."""
        return self.looks[0]

    @cached_property
    def cuts(self) -> list[Cut]:
        """What is marked on it."""
        return [cut for cut in self.look.part.cuts if self.edge in edges_of(self.look, cut)]

    @cached_property
    def ticks(self) -> list[Tick]:
        """All that is marked on its flaps, ends too."""
        found = [tick for cut in self.cuts for tick in self._ticks(cut)]
        for face in FACES:
            found += [Tick(at=end_at(self.look, self.edge, end, face), face=face) for end in (DATUM_END, FAR_END)]
        return sorted(found, key=lambda tick: tick.at)

    def _ticks(self, cut: Cut) -> Iterator[Tick]:
        if is_bored(cut):
            yield from self._holes(cut)
            return
        seen = False
        for face in FACES:
            trace = self.look.view(face).trace(cut.key)
            if trace is None or trace.marks is None:
                continue
            seen = True
            far = trace.across[1] > self.look.part.board.depth - NEAR
            reaches = far if self.edge is Surface.FRONT else trace.across[0] < NEAR
            for at, figured in zip(trace.marks, (True, False), strict=True):
                yield Tick(at=at, face=face, cut=cut, figured=figured, reaches=reaches)
        trace = self.look.view(self.edge).trace(cut.key)
        if not seen and trace is not None and trace.marks is not None:
            for at, figured in zip(trace.marks, (True, False), strict=True):
                yield Tick(at=at, face=self.look.names.face_side, cut=cut, figured=figured, reaches=False)

    def _holes(self, cut: Cut) -> Iterator[Tick]:
        """Of round holes, their axes."""
        for surface in (self.edge, *FACES):
            trace = self.look.view(surface).trace(cut.key)
            if trace is None or not trace.seen:
                continue
            face = surface if surface in FACES else self.look.names.face_side
            for at in sorted({written(centre(loop)[0]) for loop in trace.opening}):
                yield Tick(at=at, face=face, cut=cut, reaches=False)
            return

    @property
    def span(self) -> Vec2:
        """From end to end of the wood."""
        return min(tick.at for tick in self.ticks), max(tick.at for tick in self.ticks)

    @property
    def whole(self) -> list[Vec2]:
        """What no seam may divide: cuts, and the ends."""
        found = [(tick.at, tick.at) for tick in self.ticks if tick.cut is None]
        for cut in self.cuts:
            trace = self.look.view(self.edge).trace(cut.key)
            places = [tick.at for tick in self.ticks if tick.cut is cut]
            places += (trace and trace.marks) or ()
            if places:
                found.append((min(places), max(places)))
        return found

    def blocks(self, desk: Desk) -> Iterator[PrintedBlock]:
        """A block a tile that has a cut or an end on it."""
        half = self.look.part.board.thickest / 2
        window = Window(look=self.look, surface=self.edge, along=self.span, up=(-half, half))
        tiles = list(tiled(window, self.whole, room(desk).wide))
        wanted = {number for number, tile in enumerate(tiles, start=1) if self._told_on(tile.own)}
        bare = [number for number in range(1, len(tiles) + 1) if number not in wanted]
        left_out = f"; {plural(len(bare), 'tile')} of bare wood not printed: {in_runs(bare)}" if bare else ""
        for number in sorted(wanted):
            tile = tiles[number - 1]
            ends = [at for at, beside in zip(tile.own, (number - 1, number + 1), strict=True) if beside not in wanted]
            apart = tuple(at for at in ends if at in tile.seams)
            yield self._block(
                desk, replace(tile, apart=apart), (number, len(tiles)), left_out if number == min(wanted) else None
            )

    def _told_on(self, tile: Vec2) -> bool:
        """Whether anything is marked on a tile, or reaches over the whole of it."""
        low, high = tile
        spans = [(tick.at, tick.at) for tick in self.ticks] + self.whole
        return any(start <= high and stop >= low for start, stop in spans)

    def _block(self, desk: Desk, tile: Window, which: tuple[int, int], left_out: str | None) -> PrintedBlock:
        """A tile; the first of those that are printed says which are `left_out`."""
        wide = room(desk).wide
        drawn = place(self._view(desk, tile, tile.own), (wide, room(desk).high), Voice(printed_units(), bare=True))
        name = f"{self.letters}  {self.title}"
        title = f"{name}: {self.look.names.words[self.edge]}"
        words = self._words() + (left_out or "")
        items = headed(self._titled(title, tile.own, which), words, drawn.items, wide, tile.datum)
        held = () if left_out is None else (Held(place=full_size(self.look.part.id), title=title),)
        return PrintedBlock(items=tuple(items), title=name, held=held, unplaced=drawn.unplaced)

    def _titled(self, title: str, tile: Vec2, which: tuple[int, int]) -> str:
        number, count = which
        if count == 1:
            return title
        return f"{title}, tile {number} of {count}: {position(tile[0])} to {position(tile[1])}"

    def _words(self) -> str:
        """How it lies on the wood."""
        names = self.look.names
        return (
            f"this side up; arrow to the datum end ({names.short(Surface.DATUM)}); "
            f"fold at the dashes; face side: {names.words[names.face_side]}"
        )

    # --- the drawing -----------------------------------------------------------------------------

    def _view(self, desk: Desk, window: Window, tile: Vec2) -> View:
        across, up = window.axes
        inside = [tick for tick in self.ticks if tile[0] <= tick.at <= tile[1]]
        wood = [*window.items(), *(self._drawn(window, tick) for tick in inside)]
        return View(
            title="",
            wood=tuple(wood),
            across=across,
            up=up,
            dimensions=tuple(self._dimensions(inside, tile)),
            labels=(*self._labels(desk, tile, ringed(wood)), *window.seamed(), *self._faces(window)),
        )

    def _side(self, face: Surface) -> float:
        """Which way a face lies of the middle, in c."""
        return 1.0 if face is Surface.PLUS else -1.0

    def _arris(self, tick: Tick) -> float:
        return self._side(tick.face) * self.look.part.board.thickness_at(tick.at + self.look.part.zero) / 2

    def _drawn(self, window: Window, tick: Tick) -> Item:
        """A mark on a flap."""
        arris = self._arris(tick)
        ends = (arris, arris + self._side(tick.face) * TICK)
        pen = "knife" if tick.reaches else "extension over wood"
        owner = tick.cut.key if tick.cut else self.look.part.id
        points = tuple(window.on_paper((tick.at, c)) for c in ends)
        return Stroke(points=points, pen=pen, layer="cut", owner=owner)

    def _dimensions(self, ticks: Sequence[Tick], tile: Vec2) -> Iterator[UnplacedDimension]:
        """Of each face its running line; of a short one a second from its own end."""
        for face in FACES:
            here = [tick for tick in ticks if tick.face is face and tick.figured and tick.at > LEAST]
            own = end_at(self.look, self.edge, DATUM_END, face)
            if not here:
                continue
            yield self._running(face, here, 0.0, tile, "")
            counted = [tick for tick in here if tick.at > own + LEAST]
            if own > LEAST and counted:
                says = f"from this face's own end, {position(own)} past the long point"
                yield self._running(face, counted, own, tile, says)

    def _running(self, face: Surface, ticks: Sequence[Tick], zero: float, tile: Vec2, says: str) -> UnplacedDimension:
        side = self._side(face)
        far = zero < tile[0] - LEAST
        level = side * self.look.part.board.thickest / 2
        marks = [DimensionMark((max(zero, tile[0]), level))]
        for tick in ticks:
            owner = tick.cut.key if tick.cut else self.look.part.id
            marks.append(DimensionMark((tick.at, level), position(tick.at - zero), owner=owner))
        up = side * _above(self.edge)
        return UnplacedDimension(
            way=(1.0, 0.0), marks=tuple(marks), style="running", side=1 if up > 0 else -1, says=says, far=far
        )

    def _labels(self, desk: Desk, tile: Vec2, there: Collection[str]) -> Iterator[Label]:
        """The number of each cut that is not `there` in its waste, and what it takes beside it."""
        for cut in self.cuts:
            ticks = [tick for tick in self.ticks if tick.cut is cut]
            middle = sum(tick.at for tick in ticks) / len(ticks) if ticks else 0.0
            if not ticks or not tile[0] <= middle <= tile[1]:
                continue
            said = taken(desk, self.looks, cut)
            if cut.key not in there:
                said = f"{self.look.numbers[cut.key]}: {said}" if said else str(self.look.numbers[cut.key])
            level = 0.0 if any(tick.reaches for tick in ticks) or is_bored(cut) else self._arris(ticks[0])
            after = max(tick.at for tick in ticks) + CROSS
            places = ((after, 0.0), (after, level))
            yield Label(says=said, at=places, leader=False, beyond=(1, 0), reach=40, priority=1, owner=cut.key)

    def _faces(self, window: Window) -> Iterator[Label]:
        """Which face each flap is folded onto."""
        (low, high), half = window.along, self.look.part.board.thickest / 2
        for face in FACES:
            level = self._side(face) * (half + FLAP - TEXT / 2)
            at = [(low + OVER + step * ROW, level) for step in range(int((high - low - OVER) / ROW))]
            yield Label(says=self.look.names.loud(face), at=tuple(at), leader=False, beyond=(1, 0))


def _above(edge: Surface) -> float:
    """Which way +c goes on the strip of an edge: 1 up."""
    return 1.0 if edge is Surface.FRONT else -1.0


def edges_of(look: Look, cut: Cut) -> tuple[Surface, ...]:
    """On the strips of which edges a cut is marked; on none what makes an end, or is worked in it or after gluing."""
    if cut.end or cut.form is CutForm.POCKET or cut.figures.opens is Opens.END:
        return ()
    broken = [edge for edge in EDGES if (trace := look.view(edge).trace(cut.key)) is not None and trace.seen]
    if is_bored(cut) and broken:
        return tuple(broken)
    return (broken[0],) if broken else (Surface.FRONT,)


def taken(desk: Desk, looks: Sequence[Look], cut: Cut) -> str:
    """What a cut takes, a board by its letter; of parts that are alike each one's in their order."""
    number = [one.key for one in looks[0].part.cuts].index(cut.key)
    takes = list(dict.fromkeys(look.part.cuts[number].takes for look in looks))
    if all(one in desk.marks for one in takes):
        return f"takes {', '.join(desk.marks[one] for one in takes)}"
    return f"for {takes[0]}" if takes[0] else ""


def strips(found: AlikeParts | Pair) -> Iterator[EdgeStrip]:
    """The strips of what shares a sheet; of a pair of hands each hand's own."""
    sets = [AlikeParts((look,)) for look in found.looks] if isinstance(found, Pair) else [found]
    for alike in sets:
        for edge in EDGES:
            strip = EdgeStrip(looks=alike.looks, letters=alike.letters, title=alike.title, edge=edge)
            if strip.cuts:
                yield strip
