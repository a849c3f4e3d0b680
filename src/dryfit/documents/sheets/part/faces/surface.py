"""Draws one surface of a part to scale: its outline, its cuts, what is hidden, and its running positions.

A plane puts the two coordinates of a view on paper: `a` by the ruler, the other one up or down from a level.
Waste is hatched, walls of joints are drawn full, what lies behind the surface dashed, bores by their axes.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from .....geometry.frames import Vec2
from .....geometry.loops import Loop
from .....geometry.shapes import Bore, Prism
from .....geometry.views import EDGES, FACES, Surface, SurfaceView, Trace
from .....piece.facts import CutForm, Opens
from .....piece.model import DATUM_END, FAR_END, Cut
from ....display import Circle, Item, Stroke
from ....hatch import hatch
from ....kit.axis import NEAR, Axis, clipped
from ....kit.dimension import TAIL, DimensionMark
from ....kit.turn import stood
from ....kit.wood import FACE_STEP, broken
from ....looks import Look, is_bored
from ....naming import LEAST, position
from ....standard import MEDIUM, PAST, SMALL
from ..looking import cut_of
from ..words.facts import scribe_of

ZERO = LEAST  # what prints as 0 is the datum itself
STEP = 1.0  # of the part: a step of the outline shorter than this is no shoulder to be marked


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfacePaper:
    """One surface on paper.

    Attributes:
        level: y of the view's second coordinate at 0.
        sign: 1 where that coordinate grows down the sheet, -1 where it grows up.
        span: from and to of that coordinate on the wood.
        stands: whether it is drawn lying and then stood up on its datum end.
    """

    look: Look
    surface: Surface
    axis: Axis
    level: float
    sign: float
    span: Vec2
    stands: bool = False

    def y(self, v: float) -> float:
        """Where the view's second coordinate stands."""
        return self.level + self.sign * v * self.axis.scale

    def at(self, p: Vec2) -> Vec2:
        """A point of the view, on paper."""
        x, y = self.axis.at(p[0]), self.y(p[1])
        return (y, -x) if self.stands else (x, y)

    def drawn(self, items: Iterable[Item]) -> list[Item]:
        """What is drawn lying, stood up where the board stands."""
        return stood(items, 0.0, 0.0) if self.stands else list(items)

    @property
    def box(self) -> tuple[float, float, float, float]:
        """The wood on paper: left, top, right, bottom."""
        return self.stretch(*self.axis.ends)

    def stretch(self, left: float, right: float) -> tuple[float, float, float, float]:
        """What of the wood lies between two places of the axis on paper."""
        return (self.top, -right, self.bottom, -left) if self.stands else (left, self.top, right, self.bottom)

    @property
    def top(self) -> float:
        """The upper edge of the wood."""
        return min(self.y(self.span[0]), self.y(self.span[1]))

    @property
    def bottom(self) -> float:
        """The lower edge of the wood."""
        return max(self.y(self.span[0]), self.y(self.span[1]))

    @property
    def view(self) -> SurfaceView:
        """The exact view it shows."""
        return self.look.view(self.surface)


def plane_for(look: Look, surface: Surface, axis: Axis, *, stands: bool = False) -> SurfacePaper:
    """The plane of a surface whose upper edge lies at 0.

    A face at +c has its wall edge up, one at -c down; an edge always has +c up. So arrises that meet on the
    wood meet on paper, and left stays left.
    """
    board = look.part.board
    if surface in FACES:
        down = surface is Surface.PLUS
        level = 0.0 if down else board.depth * axis.scale
        sign, span = 1.0 if down else -1.0, (0.0, board.depth)
        return SurfacePaper(look=look, surface=surface, axis=axis, level=level, sign=sign, span=span, stands=stands)
    half = board.thickest / 2
    level, span = half * axis.scale, (-half, half)
    return SurfacePaper(look=look, surface=surface, axis=axis, level=level, sign=-1.0, span=span, stands=stands)


def wood(plane: SurfacePaper) -> list[Item]:
    """The surface with everything cut in it."""
    lying = replace(plane, stands=False)
    view = plane.view
    items: list[Item] = []
    for trace in view.traces:
        if not trace.end:
            items += _cut_items(lying, trace, cut_of(plane.look, trace.key))
    for loop in view.behind:
        wide = (max(a for a, _ in loop) - min(a for a, _ in loop)) * plane.axis.scale
        items += _outline(lying, loop, "outline" if wide > PAST else "dimension", plane.look.part.id)
    for loop in view.outline:
        items += _outline(lying, loop, "outline", plane.look.part.id)
    return plane.drawn([*items, *_left_long(lying), *_breaks(lying)])


def _cut_items(plane: SurfacePaper, trace: Trace, cut: Cut) -> list[Item]:
    if is_bored(cut):
        return _bore(plane, trace, cut)
    if trace.seen:
        return [item for loop in trace.opening for item in _opening(plane, loop, cut.key)]
    if plane.surface in EDGES:
        return []
    pen = "hidden" if plane.axis.scale > SMALL else "hidden small"
    return [item for loop in _behind(trace, cut) for item in _outline(plane, loop, pen, cut.key)]


def _behind(trace: Trace, cut: Cut) -> list[Loop]:
    """Outlines of what lies behind a face: of a row of pockets each its own."""
    prisms = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    if cut.form is not CutForm.POCKET or not trace.extent:
        return [trace.extent]
    low, high = (pick(a for a, _ in trace.extent) for pick in (min, max))
    return [((low, one.low), (high, one.low), (high, one.high), (low, one.high)) for one in prisms]


def _opening(plane: SurfacePaper, loop: Loop, key: str) -> list[Item]:
    """Waste of a slot or housing: hatched, its walls drawn full."""
    items: list[Item] = []
    for piece in plane.axis.pieces:
        inside = [(max(min(a, piece.high), piece.low), v) for a, v in loop]
        on_paper = [_in_piece(plane, piece.low, piece.at, p) for p in inside]
        items += hatch([on_paper], FACE_STEP, owner=key)
    return [*items, *_outline(plane, loop, "outline", key)]


def _in_piece(plane: SurfacePaper, start: float, x: float, p: Vec2) -> Vec2:
    return x + (p[0] - start) * plane.axis.scale, plane.y(p[1])


def _outline(plane: SurfacePaper, loop: Loop, pen: str, owner: str) -> list[Item]:
    """A closed outline, cut open where the drawing is broken."""
    items: list[Item] = []
    for piece in plane.axis.pieces:
        for run in clipped(loop, piece.low - NEAR, piece.high + NEAR):
            points = tuple(_in_piece(plane, piece.low, piece.at, p) for p in run)
            closed = points[0] == points[-1]
            items.append(
                Stroke(points=points[:-1] if closed else points, pen=pen, closed=closed, layer="wood", owner=owner)
            )
    return items


def _bore(plane: SurfacePaper, trace: Trace, cut: Cut) -> list[Item]:
    """A round hole: its ring where it enters, its axis where it runs behind the surface."""
    items: list[Item] = []
    for shape in cut.shapes:
        if not isinstance(shape, Bore):
            continue
        start, end = axis_of(plane, shape)
        if trace.seen and _short(start, end):
            radius = max(shape.profile[0][1] / 2 * plane.axis.scale, MEDIUM)
            full = radius < 2 * MEDIUM
            ring = Circle(
                centre=start, radius=radius, pen="" if full else "outline", ink="black" if full else None, owner=cut.key
            )
            items.append(ring)
        elif plane.surface in FACES:
            items.append(Stroke(points=(start, end), pen="axis", layer="axis", owner=cut.key))
    return items


def axis_of(plane: SurfacePaper, bore: Bore) -> tuple[Vec2, Vec2]:
    """From where to where a hole's axis runs on paper."""
    zero = plane.look.part.zero
    second = 2 if plane.surface in FACES else 1
    bottom = bore.profile[-1][0]
    ends = (bore.start, tuple(s + bottom * d for s, d in zip(bore.start, bore.direction, strict=True)))
    first, last = (plane.at((p[0] - zero, p[second])) for p in ends)
    return first, last


def _short(p: Vec2, q: Vec2) -> bool:
    return max(abs(p[0] - q[0]), abs(p[1] - q[1])) < ZERO


def _left_long(plane: SurfacePaper) -> list[Item]:
    """What is left beyond an end to be scribed: dashes out to where the saw goes."""
    items: list[Item] = []
    for end in (DATUM_END, FAR_END):
        scribe = scribe_of(plane.look.part, end)
        if not scribe:
            continue
        at = plane.axis.at(plane.look.end_at(end, plane.surface))
        out = at + end * scribe * plane.axis.scale
        points = ((at, plane.top), (out, plane.top), (out, plane.bottom), (at, plane.bottom))
        items.append(Stroke(points=points, pen="left long", layer="wood"))
    return items


def _breaks(plane: SurfacePaper) -> list[Item]:
    return [broken((x, plane.top), (x, plane.bottom)) for pair in plane.axis.breaks for x in pair]


def marks(plane: SurfacePaper, away: float) -> list[DimensionMark]:
    """The running positions of a surface that lies: a wall of each cut, each shoulder, the far end.

    Args:
        away: 1 where the line lies below the wood, -1 above it.
    """
    found = [_mark(plane, trace, away) for trace in plane.view.traces if not trace.end and _counted(plane, trace)]
    return [mark for mark in found if mark is not None] + _steps(plane, away)


def _counted(plane: SurfacePaper, trace: Trace) -> bool:
    """On an edge only what no face shows is counted: the rest has its place on the faces.

    What opens at an end is told by the view of that end.
    """
    if at_end(plane.look, trace.key):
        return False
    if plane.surface in FACES:
        return trace.seen
    others = (plane.look.view(face).trace(trace.key) for face in FACES)
    return trace.seen and not any(other is not None and other.seen for other in others)


def _mark(plane: SurfacePaper, trace: Trace, away: float) -> DimensionMark | None:
    a = plane.look.position(cut_of(plane.look, trace.key), plane.surface)
    if a is None or a < ZERO:
        return None
    return DimensionMark((plane.axis.at(a), _foot(map(plane.y, trace.across), away)), position(a), owner=trace.key)


def _foot(levels: Iterable[float], away: float) -> float:
    """The one nearest to the running line."""
    return max(levels) if away > 0 else min(levels)


def _steps(plane: SurfacePaper, away: float) -> list[DimensionMark]:
    """Where the outline of the surface has an edge across the board: ends and shoulders."""
    if plane.surface in EDGES:
        return []
    feet: dict[str, tuple[float, float]] = {}
    for loop in plane.view.outline:
        for (a, v), (a1, v1) in zip(loop, [*loop[1:], loop[0]], strict=True):
            if abs(a - a1) > NEAR or abs(v - v1) < STEP or _at_datum(plane, a):
                continue
            foot = _foot((plane.y(v), plane.y(v1)), away)
            before = feet.get(position(a))
            feet[position(a)] = (a, foot if before is None else _foot((foot, before[1]), away))
    return [DimensionMark((plane.axis.at(a), foot), figure) for figure, (a, foot) in feet.items()]


def _at_datum(plane: SurfacePaper, a: float) -> bool:
    """The datum itself, a bevel's breadth or a shoulder so near it that its arrow would stand in the zero.

    The table and the section of the end give those.
    """
    start, stop = (plane.look.end_at(end, plane.surface) for end in (DATUM_END, FAR_END))
    near = 2 * TAIL if abs(a - start) < ZERO else TAIL
    return a < ZERO or (a * plane.axis.scale < near and a < stop - ZERO)


def at_end(look: Look, key: str) -> bool:
    """Whether a cut, none of the ends itself, opens at an end."""
    return any(cut.key == key and not cut.end and cut.figures.opens is Opens.END for cut in look.part.cuts)


def cuts_seen(look: Look, surface: Surface) -> Sequence[Trace]:
    """What breaks a surface, ends not counted."""
    return [trace for trace in look.view(surface).traces if trace.seen and not trace.end]
