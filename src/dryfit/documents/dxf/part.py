"""A part as a drawing: its faces and edges at 1:1, rolled about the long arrises, and its ends where they are bored.

The datum is the origin: the datum end's long point, at the front edge, on the face side. Each view is seen from outside
with the datum end left. A layer holds what one set-up takes to one depth from the surface it is drawn on:
`R1_SLOT_DEEP_165.5`, `D1+D2_BORE_12_DEEP_280`, `R3_HOUSING_DEEP_8`; `..._THROUGH` where it comes out opposite. What
does not come to a surface is not drawn on it, so that no machine takes it for work to be done from there.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ...geometry.frames import Vec2
from ...geometry.loops import Loop
from ...geometry.sections import PARALLEL
from ...geometry.shapes import Bore
from ...geometry.views import EDGES, ENDS, FACES, OPPOSITE, Surface, Trace
from ...lengths import figure
from ...piece.facts import CutForm
from ...piece.model import Cut, Part
from ..bookjson import book_stamp
from ..looks import Desk, Look, is_bored
from ..sheets.part.words.setups import setups
from .drawing import Colour, Drawing
from .outlines import Outline, Reach, Ring, rings, rounded, seen

OUTLINE, BEHIND = "OUTLINE", "BEHIND"  # the surface with its ends made; what lies further back at its ends
COLOUR: dict[CutForm, Colour] = {
    CutForm.SLOT: "RED", CutForm.HOUSING: "BLUE", CutForm.NOTCH: "MAGENTA", CutForm.END: "WHITE",
    CutForm.GROOVE: "YELLOW", CutForm.POCKET: "CYAN", CutForm.BORE: "GREEN",
}  # fmt: skip
LEAST = 0.01  # mm: a depth is told as finely, and what differs by less is one
SQUARE = 0.005  # degrees: less is told as square
ROLLED = {  # from the top of the drawing down, by the face side
    Surface.PLUS: (Surface.WALL, Surface.PLUS, Surface.FRONT, Surface.MINUS),
    Surface.MINUS: (Surface.PLUS, Surface.FRONT, Surface.MINUS, Surface.WALL),
}
UP = {
    Surface.PLUS: -1.0,
    Surface.FRONT: 1.0,
    Surface.MINUS: 1.0,
    Surface.WALL: -1.0,
}  # which way the 2nd coordinate goes


INWARDS = {  # which way the coordinate that runs into the wood grows, seen from a surface
    Surface.PLUS: -1.0, Surface.MINUS: 1.0, Surface.FRONT: -1.0,
    Surface.WALL: 1.0, Surface.DATUM: 1.0, Surface.FAR: -1.0,
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class PlacedOutline:
    """One view on the drawing: its second coordinate goes up or down, an end's first one right or left."""

    look: Look
    surface: Surface
    x: float = 0.0
    y: float
    right: float = 1.0
    up: float

    def at(self, p: Vec2) -> Vec2:
        """A point of the view on the drawing."""
        return self.x + self.right * p[0], self.y + self.up * p[1]

    def loop(self, loop: Loop) -> Loop:
        """An outline of the view on the drawing."""
        return tuple(map(self.at, loop))

    def outline(self, outline: Outline) -> Outline:
        """The same with arcs: where the view is a mirror image of its coordinates, they bulge the other way."""
        hand = self.right * self.up
        knots = tuple((*self.at((x, y)), bulge * hand) for x, y, bulge in outline.knots)
        return Outline(knots, outline.ring and Ring(self.at(outline.ring.centre), outline.ring.radius))

    @property
    def box(self) -> Reach:
        """The surface on the drawing."""
        points = [self.at(p) for loop in self.look.view(self.surface).outline for p in loop] or [self.at((0.0, 0.0))]
        xs, ys = [x for x, _ in points], [y for _, y in points]
        return Reach(min(xs), min(ys), max(xs), max(ys))


def part_dxf(desk: Desk, part: Part) -> bytes:
    """One part; every line of every surface that something is cut into."""
    look = desk.looks[part.id]
    drawing = Drawing(book_stamp(desk), part.length)
    gap = drawing.reach + 3 * drawing.row  # above the one figures; below the other two rows and a name
    views = list(_stack(look, gap))
    for placed in views:
        _View(desk, drawing, placed).draw()
    foot = min(placed.box[1] for placed in views) - gap
    for line, text in enumerate(_title(desk, part)):
        drawing.words(text, (0.0, foot - 2 * line * drawing.height), large=line == 0)
    reach = [placed.box for placed in views]
    right, head = max(box.right for box in reach), max(box.head for box in reach)
    left = max(drawing.beside(look.names.loud(placed.surface)) for placed in views)
    drawing.opens_on(-left - drawing.row, foot - gap, right, head + gap)
    return drawing.written()


def _title(desk: Desk, part: Part) -> Iterator[str]:
    job, blank = desk.book.job, part.blank
    sizes = " x ".join(figure(size, LEAST) for size in (part.length, part.board.depth, part.board.thickest))
    blanks = " x ".join(figure(size, LEAST) for size in (blank.length, blank.width, blank.thickness))
    yield f"{part.mark}  {part.id}"
    yield f"{part.board.timber}, {sizes} mm, from a blank of {blanks} mm"
    yield f"{job.title}, state {job.state}, {book_stamp(desk)}"
    yield "1:1 in mm. Origin: datum end, front edge, face side. Check against the board before cutting."
    if desk.book.stops:
        yield f"{len(desk.book.stops)} stops: something must change before the first cut; see the workshop book"


def _stack(look: Look, gap: float) -> Iterator[PlacedOutline]:
    """Where each view stands: the face side at the origin, the others beside the arrises they share with it."""
    board, side = look.part.board, look.names.face_side
    half, order = board.thickest / 2, ROLLED[side]
    spans = {surface: (0.0, board.depth) if surface in FACES else (-half, half) for surface in order}
    at: dict[Surface, PlacedOutline] = {}
    head = 0.0
    for surface in order:
        low, high = spans[surface]
        at[surface] = PlacedOutline(
            look=look, surface=surface, up=UP[surface], y=head - (high if UP[surface] > 0 else -low)
        )
        head -= high - low + gap
    front = at[side].at((0.0, board.depth))[1]
    yield from (replace(placed, y=placed.y - front) for placed in at.values())
    face = replace(at[side], y=at[side].y - front)
    yield from _ends(look, face, half + gap)


def _ends(look: Look, face: PlacedOutline, off: float) -> Iterator[PlacedOutline]:
    """The ends into which something is cut that does not make them, beside the face side."""
    turn = 1.0 if face.surface is Surface.PLUS else -1.0
    for surface, x, right in ((Surface.DATUM, -off, turn), (Surface.FAR, look.part.length + off, -turn)):
        if any(trace.seen and not trace.end for trace in look.view(surface).traces):
            yield replace(face, surface=surface, x=x, right=right)


@dataclass(frozen=True, slots=True)
class _View:
    """Draws one view."""

    desk: Desk
    drawing: Drawing
    placed: PlacedOutline

    def draw(self) -> None:
        placed, drawing, view = self.placed, self.drawing, self.placed.look.view(self.placed.surface)
        for loop in view.behind:
            drawing.loop(placed.loop(loop), drawing.layer(BEHIND, "GRAY"))
        for loop in view.outline:
            drawing.loop(placed.loop(loop), drawing.layer(OUTLINE, "WHITE"))
        cuts = {cut.key: cut for cut in placed.look.part.cuts}
        found = [(cuts[trace.key], trace) for trace in view.traces if trace.seen and not trace.end]
        for cut, trace in found:
            self._cut(cut, trace)
        left, foot, _, head = placed.box
        name = placed.look.names.loud(placed.surface)
        at = (left, foot - drawing.row) if placed.surface in ENDS else (left - drawing.beside(name), head)
        drawing.words(name, at)
        if placed.surface not in ENDS:
            self._figures(found)
        self._across(found)

    # --- lines

    def _cut(self, cut: Cut, trace: Trace) -> None:
        """What it takes of the surface; of a hole bored square into it from here every step."""
        look, surface = self.placed.look, self.placed.surface
        circles = list(rings(cut.shapes, surface, look.part.zero))
        through = self._through(trace)
        steps = list(_steps(cut, surface, look.part.zero)) if cut.form is CutForm.BORE else []
        for loop in trace.opening:
            outline = rounded(loop, circles)
            own = [step for step in steps if outline.ring is not None and step[0].centre == outline.ring.centre]
            for ring, deep, last in own:
                layer = self._layer(cut, None if last and through else deep, 2 * ring.radius)
                self.drawing.outline(self.placed.outline(Outline((), ring)), layer)
            if not own:
                wide = 2 * outline.ring.radius if outline.ring is not None else None
                layer = self._layer(cut, None if through else trace.deep[1], wide)
                self.drawing.outline(self.placed.outline(outline), layer)

    def _layer(self, cut: Cut, deep: float | None, wide: float | None = None) -> str:
        """By set-up, what is taken, its diameter where it is a hole, and its depth; None of what comes out opposite."""
        names = "+".join(one.name for one in setups(self.desk).of.get(cut.key, ())) or "X"
        sizes = [] if wide is None else [figure(wide, LEAST)]
        ends = ["THROUGH"] if deep is None else ["DEEP", figure(deep, LEAST)]
        return self.drawing.layer("_".join([names, cut.form.upper(), *sizes, *ends]), COLOUR[cut.form])

    def _through(self, trace: Trace) -> bool:
        """Whether it comes out at the surface opposite."""
        opposite = self.placed.look.view(OPPOSITE[self.placed.surface]).trace(trace.key)
        return opposite is not None and opposite.seen

    # --- dimensions

    def _figures(self, found: Sequence[tuple[Cut, Trace]]) -> None:
        """Along the board: running ones above the wood, widths below it, and the length on the face side."""
        placed, drawing, look = self.placed, self.drawing, self.placed.look
        left, foot, right, head = placed.box
        square = [(cut, trace) for cut, trace in found if placed.surface in FACES or not _leans(cut)]
        marks = {round(x / LEAST): x for cut, trace in square for x in _marks(cut, trace)}
        marks[round(right / LEAST)] = right
        drawing.running([(x, head) for x in marks.values()], head + drawing.row, zero=(0.0, 0.0))
        if placed.surface is look.names.face_side:
            drawing.distance((left, foot), (right, foot), (left, foot - 2 * drawing.row), "along")
        for cut, trace in square:
            if not is_bored(cut) and trace.marks is not None:
                low, high = trace.marks
                drawing.distance((low, foot), (high, foot), (low, foot - drawing.row), "along")
        for cut, trace in found:
            if placed.surface in EDGES and _leans(cut):
                self._lean(trace)

    def _across(self, found: Sequence[tuple[Cut, Trace]]) -> None:
        """Across the board: how wide it is, how far what stops short reaches, and how far holes lie from its edge."""
        placed, drawing = self.placed, self.drawing
        left, foot, _, head = placed.box
        if placed.surface is placed.look.names.face_side or placed.surface is Surface.FRONT:
            drawing.distance((left, foot), (left, head), (left - drawing.row, foot), "up")
        done = set[tuple[int, int]]()
        for cut, trace in found:
            for x, low, high in self._reaches(cut, trace):
                if (size := (round(low / LEAST), round(high / LEAST))) not in done:
                    done.add(size)
                    drawing.distance((x, low), (x, high), (x + drawing.row, low), "up")

    def _reaches(self, cut: Cut, trace: Trace) -> Iterator[tuple[float, float, float]]:
        """Where along the drawing a size across it is taken, and from where to where it goes."""
        _, foot, _, head = self.placed.box
        edge = self.placed.at((0.0, self.placed.look.part.board.depth))[1]  # the front edge, of faces and ends
        for loop in trace.opening:
            points = self.placed.loop(loop)
            low, high = min(y for _, y in points), max(y for _, y in points)
            x = max(x for x, _ in points)
            if is_bored(cut):
                middle = sum(x for x, _ in _ends_of(points)) / 2
                yield middle, foot if self.placed.surface in EDGES else edge, (low + high) / 2
            elif low > foot + LEAST or high < head - LEAST:
                yield x, low, high

    def _lean(self, trace: Trace) -> None:
        """The angle between the face and the leaning wall that is nearest to the datum end."""
        loop = self.placed.loop(trace.opening[0])
        sides = [(p, q) if p[1] < q[1] else (q, p) for p, q in zip(loop, loop[1:] + loop[:1], strict=True)]
        leaning = [side for side in sides if all(abs(a - b) > LEAST for a, b in zip(*side, strict=True))]
        if leaning:
            low, high = min(leaning)
            right = high[0] > low[0]
            beside = (low[0] + (1.0 if right else -1.0) * self.drawing.height, low[1])
            ways = (beside, high) if right else (high, beside)
            self.drawing.angle(low, *ways, 2 * self.drawing.row)


def _leans(cut: Cut) -> bool:
    """Whether its walls lean: along an edge they have no one place, and the faces have both."""
    return abs(cut.figures.lean) > SQUARE


def _ends_of(points: Loop) -> tuple[Vec2, Vec2]:
    return min(points), max(points)


def _marks(cut: Cut, trace: Trace) -> Iterator[float]:
    """Where a cut is marked along the board: its datum wall, or each axis of what is bored."""
    if not is_bored(cut):
        yield from () if trace.marks is None else (trace.marks[0],)
        return
    for loop in trace.opening:
        yield sum(a for a, _ in _ends_of(loop)) / 2


def _steps(cut: Cut, surface: Surface, zero: float) -> Iterator[tuple[Ring, float, bool]]:
    """The steps of holes bored square from a surface, each with how deep it goes and whether it is the last."""
    into = seen(surface)[2]
    for shape in cut.shapes:
        if isinstance(shape, Bore) and INWARDS[surface] * shape.direction[into] > 1.0 - PARALLEL:
            ends = [end for end, _ in shape.profile[1:]]
            for ring, end in zip(rings([shape], surface, zero), ends, strict=True):
                yield ring, end, end == ends[-1]
