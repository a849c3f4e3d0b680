"""Templates to lay on faces and edges: raked slots on both faces, bevelled ends on both edges.

Each surface has its own print, as it is seen from outside: nothing is turned over. Slots that are the same in every
corner, open to the same edge and lie on a face of the same name share their two prints, which name them all.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from ....geometry.frames import Vec2
from ....geometry.views import EDGES, FACES, Surface
from ....piece.facts import CutForm, Opens
from ....piece.model import DATUM_END, FAR_END, Cut
from ....sentences import Voice
from ...display import Held, Item, Stroke
from ...hatch import hatch_in
from ...kit.dimension import plain
from ...kit.label import Label
from ...kit.view import View, place
from ...kit.wood import FACE_STEP
from ...looks import Desk, Look
from ...naming import LEAST, angle, depth, position, printed_units, rise, width
from ...pages import full_size
from ...standard import ROW
from .paper import GAP, PrintedBlock, headed, room, tile_of
from .window import FAR, FLAP, Window, end_at, named, tiled, trace_of

AROUND = 2 * ROW  # of wood around what is cut
DIGITS = 3  # places of a mm to which shapes must be the same to share a template
Shape: TypeAlias = tuple[object, ...]


@dataclass(frozen=True, slots=True)
class Sort:
    """Slots with the same shape, in the order of their parts."""

    places: tuple[tuple[Look, Cut], ...]

    def blocks(self, desk: Desk) -> Iterator[PrintedBlock]:
        """Its print for either face, the face side's first."""
        look, _ = self.places[0]
        for face in (look.names.face_side, look.names.other_face):
            yield from self._face(desk, face)

    def _face(self, desk: Desk, face: Surface) -> Iterator[PrintedBlock]:
        look, cut = self.places[0]
        trace = look.view(face).trace(cut.key)
        if trace is None or not trace.seen:
            return
        low, high = trace.across
        deep, board = AROUND, look.part.board
        along = (low - deep, board.depth) if cut.figures.opens is Opens.FRONT else (0.0, high + deep)
        marks = [at for one in FACES for at in marks_on(look, cut, one)]
        window = Window(
            look=look, surface=face, along=along, up=(min(marks) - AROUND, max(marks) + AROUND), across=True,
            numbered=len({one.numbers[its.key] for one, its in self.places}) == 1,
        )  # fmt: skip
        tiles = list(tiled(window, (), room(desk).wide))
        for number, tile in enumerate(tiles, start=1):
            yield self._block(desk, tile, tile_of(number, len(tiles)))

    def _block(self, desk: Desk, window: Window, tile: str) -> PrintedBlock:
        look, cut = self.places[0]
        names, free = look.names, room(desk)
        across, up = window.axes
        first, last = marks_on(look, cut, window.surface)
        mouth = look.part.board.depth if cut.figures.opens is Opens.FRONT else 0.0
        floor = _floor(look, cut, window.surface)
        outward = 1 if cut.figures.opens is Opens.FRONT else -1
        bottom, along = (first if window.rising > 0 else last), sorted((floor, mouth))
        view = View(
            title="",
            wood=tuple(window.items()),
            across=across,
            up=up,
            dimensions=(
                plain((mouth, first), (mouth, last), width(last - first), side=int(-outward * window.rising)),
                plain((along[0], bottom), (along[1], bottom), depth(abs(mouth - floor)), side=-1),
            )
            if not window.seams
            else (),
            labels=(
                Label(says="datum wall", at=((floor, first),), beyond=(-outward, 0), leader=False, reach=FAR),
                *window.seamed(),
            ),
        )
        drawn = place(view, (free.wide, free.high), Voice(printed_units(), bare=True))
        title = f"Raked slot, {names.loud(window.surface)}{tile}: {self._where()}"
        wide = max(drawn.wide, (free.wide - GAP) / 2)
        items = headed(title, self._words(window.surface), drawn.items, wide, window.datum)
        held = tuple(
            Held(
                place=full_size(one.part.id),
                title=f"{named(one)}: {names.words[window.surface]}, slot {one.numbers[other.key]}",
            )
            for one, other in self.places
        )
        return PrintedBlock(items=tuple(items), title=self._where(), held=held, unplaced=drawn.unplaced)

    def _where(self) -> str:
        return ", ".join(f"{look.part.mark} {look.numbers[cut.key]}" for look, cut in self.places)

    def _words(self, face: Surface) -> str:
        look, cut = self.places[0]
        names = look.names
        other = names.other_face if face is names.face_side else names.face_side
        shift = marks_on(look, cut, other)[0] - marks_on(look, cut, face)[0]
        way = "further from" if shift > 0 else "nearer"
        at = ", ".join(f"{one.part.mark} {position(marks_on(one, its, face)[0])}" for one, its in self.places)
        return (
            f"this side up on the {names.words[face]}; arrow to the datum end ({names.short(Surface.DATUM)}); "
            f"fold over the {cut.figures.opens}; datum wall at {at}; on the {names.words[other]} "
            f"{position(abs(shift))} {way} the datum end"
        )


def slots(looks: Sequence[Look]) -> list[Sort]:
    """The raked slots of some parts, sorted by their shapes."""
    found: dict[Shape, list[tuple[Look, Cut]]] = {}
    for look in looks:
        for cut in look.part.cuts:
            if raked(cut):
                found.setdefault(_shape(look, cut), []).append((look, cut))
    return [Sort(tuple(places)) for places in found.values()]


def raked(cut: Cut) -> bool:
    """Whether a cut opens to an edge and leans by as much as prints."""
    slot = cut.form in (CutForm.SLOT, CutForm.NOTCH) and bool(cut.figures.opens.edge)
    return slot and angle(abs(cut.figures.lean)) != angle(0.0)


def marks_on(look: Look, cut: Cut, face: Surface) -> tuple[float, float]:
    """Where its walls are marked on a face, the one nearer the datum end first."""
    marks = trace_of(look, cut, face).marks
    assert marks is not None, f"{cut.key} does not break the {face}"
    return marks


def _floor(look: Look, cut: Cut, face: Surface) -> float:
    trace = trace_of(look, cut, face)
    return trace.across[0] if cut.figures.opens is Opens.FRONT else trace.across[1]


def _shape(look: Look, cut: Cut) -> Shape:
    """All by which two slots may differ: corners on either face, thickness, edge, names, which way is up."""
    zero, edge = marks_on(look, cut, Surface.PLUS)[0], cut.figures.opens
    mouth = look.part.board.depth if edge is Opens.FRONT else 0.0
    loops = [
        tuple((round(a - zero, DIGITS), round(d - mouth, DIGITS)) for a, d in loop)
        for face in FACES
        for loop in trace_of(look, cut, face).opening
    ]
    words = tuple(look.names.words[one] for one in (*FACES, Surface.DATUM))
    t = round(look.part.board.thickness_at(zero + look.part.zero), DIGITS)
    return (edge, look.names.face_side, words, t, tuple(loops))


@dataclass(frozen=True, slots=True)
class BevelTemplate:
    """A bevelled end."""

    look: Look
    end: int

    def blocks(self, desk: Desk) -> Iterator[PrintedBlock]:
        """Its print for either edge."""
        for edge in EDGES:
            if self.leans(edge) > LEAST:
                yield self._block(desk, edge)

    def at(self, edge: Surface, face: Surface) -> float:
        """Where the edge ends at the arris of a face."""
        return end_at(self.look, edge, self.end, face)

    def leans(self, edge: Surface) -> float:
        """How much shorter one face is than the other, at an edge."""
        return abs(self.at(edge, Surface.PLUS) - self.at(edge, Surface.MINUS))

    def _block(self, desk: Desk, edge: Surface) -> PrintedBlock:
        look, names, free = self.look, self.look.names, room(desk)
        half = look.part.board.thickest / 2
        ends = [self.at(edge, face) for face in FACES]
        inner = min(ends) - 2 * AROUND, max(ends) + 2 * AROUND
        along = (min(ends), inner[1]) if self.end == DATUM_END else (inner[0], max(ends))
        window = Window(look=look, surface=edge, along=along, up=(-half, half))
        across, up = window.axes
        wood = [*self._waste(window, ends, half), *window.items(), *self._flaps(window, ends, half)]
        drawn = place(
            View(title="", wood=tuple(wood), across=across, up=up), (free.wide, free.high), Voice(printed_units())
        )
        which = names.words[Surface.DATUM if self.end == DATUM_END else Surface.FAR]
        name = named(look)
        said = f"{name}: {which}, {names.words[edge]}"
        items = headed(said, self._words(edge), drawn.items, (free.wide - 2 * GAP) / 3, window.datum)
        return PrintedBlock(
            items=tuple(items), title=name, held=(Held(place=full_size(look.part.id), title=said),),
            unplaced=drawn.unplaced,
        )  # fmt: skip

    def _waste(self, window: Window, ends: Sequence[float], half: float) -> Iterator[Item]:
        """What is cut off the square end at the long point."""
        long = (min if self.end == DATUM_END else max)(ends)
        yield from hatch_in(window.area(((long, half), (long, -half), (ends[1], -half), (ends[0], half))), FACE_STEP)

    def _flaps(self, window: Window, ends: Sequence[float], half: float) -> Iterator[Item]:
        """On each flap, where that face ends."""
        for at, side in zip(ends, (1.0, -1.0), strict=True):
            points: tuple[Vec2, Vec2] = (
                window.on_paper((at, side * half)),
                window.on_paper((at, side * (half + FLAP))),
            )
            yield Stroke(points=points, pen="knife", layer="cut", owner=self.look.part.id)

    def _words(self, edge: Surface) -> str:
        names = self.look.names
        lean = next((abs(cut.figures.lean) for cut in self.look.part.cuts if cut.end == self.end), 0.0)
        long = max(FACES, key=lambda face: self.end * self.at(edge, face))
        upper = Surface.PLUS if edge is Surface.FRONT else Surface.MINUS
        said = f"; {angle(lean)} off square, {rise(lean)}" if angle(lean) != angle(0.0) else ""
        return (
            f"this side up; arrow to the datum end; upper flap onto the {names.words[upper]}; long point on the "
            f"{names.words[long]}, the other face shorter by {position(self.leans(edge))}{said}"
        )


def bevels(looks: Sequence[Look]) -> Iterator[BevelTemplate]:
    """The bevelled ends of some parts."""
    for look in looks:
        for end in (DATUM_END, FAR_END):
            bevel = BevelTemplate(look, end)
            if any(bevel.leans(edge) > LEAST for edge in EDGES):
                yield bevel
