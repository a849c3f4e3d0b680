"""Draws one surface of a part to scale: its outline, its cuts, what is hidden, and its running positions.

A plane puts the two coordinates of a view on paper: `a` by the ruler, the other one up or down from a level.
Waste is hatched, walls of joints are drawn full, what lies behind the surface dashed, bores by their axes.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from .....geometry.frames import Vec2
from .....geometry.loops import Loop
from .....geometry.shapes import Bore
from .....geometry.views import EDGES, FACES, Surface, Trace, View
from .....piece.model import DATUM_END, FAR_END, Cut
from ....display import Circle, Item, Stroke
from ....hatch import hatch
from ....looks import Look, is_bored
from ....naming import position
from ....symbols import zigzag
from ...dimensions.ruler import Ruler, clipped
from ...dimensions.running import Mark
from ..looking import cut_of
from ..words.facts import scribe_of

HATCH = 0.8
ZERO = 0.05  # what prints as 0 is the datum itself
STEP = 1.0  # of the part: a step of the outline shorter than this is no shoulder to be marked


@dataclass(frozen=True, slots=True, kw_only=True)
class Plane:
    """One surface on paper.

    Attributes:
        level: y of the view's second coordinate at 0.
        sign: 1 where that coordinate grows down the sheet, -1 where it grows up.
        span: from and to of that coordinate on the wood.
    """

    look: Look
    surface: Surface
    ruler: Ruler
    level: float
    sign: float
    span: Vec2

    def y(self, v: float) -> float:
        """Where the view's second coordinate stands."""
        return self.level + self.sign * v * self.ruler.scale

    def at(self, p: Vec2) -> Vec2:
        """A point of the view, on paper."""
        return self.ruler.x(p[0]), self.y(p[1])

    @property
    def top(self) -> float:
        """The upper edge of the wood."""
        return min(self.y(self.span[0]), self.y(self.span[1]))

    @property
    def bottom(self) -> float:
        """The lower edge of the wood."""
        return max(self.y(self.span[0]), self.y(self.span[1]))

    @property
    def view(self) -> View:
        """The exact view it shows."""
        return self.look.view(self.surface)


def plane_for(look: Look, surface: Surface, ruler: Ruler, top: float) -> Plane:
    """The plane of a surface whose upper edge is to stand at `top`.

    A face at +c has its wall edge up, one at -c down; an edge always has +c up. So arrises that meet on the
    wood meet on paper, and left stays left.
    """
    board = look.part.board
    if surface in FACES:
        down = surface is Surface.PLUS
        level = top if down else top + board.depth * ruler.scale
        return Plane(
            look=look, surface=surface, ruler=ruler, level=level, sign=1.0 if down else -1.0, span=(0.0, board.depth)
        )
    half = board.thickest / 2
    level = top + half * ruler.scale
    return Plane(look=look, surface=surface, ruler=ruler, level=level, sign=-1.0, span=(-half, half))


def wood(plane: Plane) -> list[Item]:
    """The surface with everything cut in it."""
    view = plane.view
    items: list[Item] = []
    for trace in view.traces:
        cut = cut_of(plane.look, trace.key)
        if not trace.end:
            items += _cut_items(plane, trace, cut)
    for loop in view.behind:
        wide = (max(a for a, _ in loop) - min(a for a, _ in loop)) * plane.ruler.scale
        items += _outline(plane, loop, "outline" if wide > 1.6 else "dimension", plane.look.part.id)
    for loop in view.outline:
        items += _outline(plane, loop, "outline", plane.look.part.id)
    return [*items, *_left_long(plane), *_breaks(plane)]


def _cut_items(plane: Plane, trace: Trace, cut: Cut) -> list[Item]:
    if is_bored(cut):
        return _bore(plane, trace, cut)
    if trace.seen:
        return [item for loop in trace.opening for item in _opening(plane, loop, cut.key)]
    if plane.surface in EDGES:
        return []
    pen = "hidden" if plane.ruler.scale > 0.15 else "hidden small"
    return _outline(plane, trace.extent, pen, cut.key)


def _opening(plane: Plane, loop: Loop, key: str) -> list[Item]:
    """Waste of a slot or housing: hatched, its walls drawn full."""
    items: list[Item] = []
    for piece in plane.ruler.pieces:
        inside = [(max(min(a, piece.end), piece.start), v) for a, v in loop]
        on_paper = [_in_piece(plane, piece.start, piece.x, p) for p in inside]
        items += hatch([on_paper], HATCH, owner=key)
    return [*items, *_outline(plane, loop, "outline", key)]


def _in_piece(plane: Plane, start: float, x: float, p: Vec2) -> Vec2:
    return x + (p[0] - start) * plane.ruler.scale, plane.y(p[1])


def _outline(plane: Plane, loop: Loop, pen: str, owner: str) -> list[Item]:
    """A closed outline, cut open where the drawing is broken."""
    items: list[Item] = []
    for piece in plane.ruler.pieces:
        for run in clipped(loop, piece.start - 1e-6, piece.end + 1e-6):
            points = tuple(_in_piece(plane, piece.start, piece.x, p) for p in run)
            closed = points[0] == points[-1]
            items.append(
                Stroke(points=points[:-1] if closed else points, pen=pen, closed=closed, layer="wood", owner=owner)
            )
    return items


def _bore(plane: Plane, trace: Trace, cut: Cut) -> list[Item]:
    """A round hole: its ring where it enters, its axis where it runs behind the surface."""
    items: list[Item] = []
    for shape in cut.shapes:
        if not isinstance(shape, Bore):
            continue
        start, end = axis_of(plane, shape)
        if trace.seen and _short(start, end):
            radius = max(shape.profile[0][1] / 2 * plane.ruler.scale, 0.35)
            full = radius < 0.8
            ring = Circle(
                centre=start, radius=radius, pen="" if full else "outline", ink="black" if full else None, owner=cut.key
            )
            items.append(ring)
        elif plane.surface in FACES:
            items.append(Stroke(points=(start, end), pen="axis", layer="axis", owner=cut.key))
    return items


def axis_of(plane: Plane, bore: Bore) -> tuple[Vec2, Vec2]:
    """From where to where a hole's axis runs on paper."""
    zero = plane.look.part.zero
    second = 2 if plane.surface in FACES else 1
    bottom = bore.profile[-1][0]
    ends = (bore.start, tuple(s + bottom * d for s, d in zip(bore.start, bore.direction, strict=True)))
    first, last = (plane.at((p[0] - zero, p[second])) for p in ends)
    return first, last


def _short(p: Vec2, q: Vec2) -> bool:
    return abs(p[0] - q[0]) < 0.05 and abs(p[1] - q[1]) < 0.05


def _left_long(plane: Plane) -> list[Item]:
    """What is left beyond an end to be scribed: dashes out to where the saw goes."""
    items: list[Item] = []
    for end in (DATUM_END, FAR_END):
        scribe = scribe_of(plane.look.part, end)
        if not scribe:
            continue
        at = plane.ruler.x(plane.look.end_at(end, plane.surface))
        out = at + end * scribe * plane.ruler.scale
        points = ((at, plane.top), (out, plane.top), (out, plane.bottom), (at, plane.bottom))
        items.append(Stroke(points=points, pen="left long", layer="wood"))
    return items


def _breaks(plane: Plane) -> list[Item]:
    return [zigzag(x, plane.top - 1.0, plane.bottom + 1.0) for left, right in plane.ruler.breaks for x in (left, right)]


def marks(plane: Plane, away: float) -> list[Mark]:
    """The running positions of a surface: a wall of each cut, each shoulder, the far end.

    Args:
        away: 1 where the line lies below the wood, -1 above it.
    """
    found = [_mark(plane, trace, away) for trace in plane.view.traces if not trace.end and _counted(plane, trace)]
    return [mark for mark in found if mark is not None] + _steps(plane, away)


def _counted(plane: Plane, trace: Trace) -> bool:
    """On an edge only what no face shows is counted: the rest has its place on the faces.

    What opens at an end is told by the view of that end.
    """
    if at_end(plane.look, trace.key):
        return False
    if plane.surface in FACES:
        return trace.seen
    others = (plane.look.view(face).trace(trace.key) for face in FACES)
    return trace.seen and not any(other is not None and other.seen for other in others)


def _mark(plane: Plane, trace: Trace, away: float) -> Mark | None:
    a = plane.look.position(cut_of(plane.look, trace.key), plane.surface)
    if a is None or a < ZERO:
        return None
    levels = [plane.y(v) for v in trace.across]
    foot = max(levels) if away > 0 else min(levels)
    return Mark(x=plane.ruler.x(a), figure=position(a), foot=foot, edge=_edge(plane, away), key=trace.key)


def _edge(plane: Plane, away: float) -> float:
    return plane.bottom if away > 0 else plane.top


def _steps(plane: Plane, away: float) -> list[Mark]:
    """Where the outline of the surface has an edge across the board: ends and shoulders."""
    if plane.surface in EDGES:
        return []
    feet: dict[str, tuple[float, float]] = {}
    for loop in plane.view.outline:
        for (a, v), (a1, v1) in zip(loop, [*loop[1:], loop[0]], strict=True):
            if abs(a - a1) > 1e-6 or abs(v - v1) < STEP or _at_datum(plane, a):
                continue
            levels = (plane.y(v), plane.y(v1))
            foot = max(levels) if away > 0 else min(levels)
            before = feet.get(position(a))
            nearest = foot if before is None else (max if away > 0 else min)(foot, before[1])
            feet[position(a)] = (a, nearest)
    edge = _edge(plane, away)
    return [Mark(x=plane.ruler.x(a), figure=figure, foot=foot, edge=edge) for figure, (a, foot) in feet.items()]


def _at_datum(plane: Plane, a: float) -> bool:
    """The datum itself, a bevel's breadth or a shoulder so near it that its figure would stand in the zero.

    The table and the section of the end give those.
    """
    start, stop = (plane.look.end_at(end, plane.surface) for end in (DATUM_END, FAR_END))
    near = 8.0 if abs(a - start) < ZERO else 4.0
    return a < ZERO or (a * plane.ruler.scale < near and a < stop - ZERO)


def at_end(look: Look, key: str) -> bool:
    """Whether a cut, none of the ends itself, opens at an end."""
    return any(cut.key == key and not cut.end and cut.figures.opens == "end" for cut in look.part.cuts)


def cuts_seen(look: Look, surface: Surface) -> Sequence[Trace]:
    """What breaks a surface, ends not counted."""
    return [trace for trace in look.view(surface).traces if trace.seen and not trace.end]
