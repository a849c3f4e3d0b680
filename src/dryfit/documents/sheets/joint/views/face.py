"""A slot or housing seen square on its face: where it is marked, how deep it is or where it stops, its corners.

Left stays left and the wall edge lies up on an upper face, down on a lower one: as on the board's own sheet. Marks of
both faces of a leaning slot are shown, those of the face behind dashed, each with its position from the datum end; then
the depth or the stops, the width, and the corners of a round cutter. What says nothing is broken out of the depth.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property, partial

from .....geometry.frames import NEAR, Vec2, length
from .....geometry.shapes import Prism
from .....geometry.views import OPPOSITE, Surface
from .....piece.facts import Opens
from .....piece.model import Cut
from ....display import Arc, Item, Stroke, rectangle
from ....hatch import hatch
from ....kit.axis import Axis
from ....kit.dimension import DimensionMark, UnplacedDimension, plain
from ....kit.label import Label, middle_first
from ....kit.view import View
from ....kit.wood import FACE_STEP, broken, edge
from ....looks import Desk, Look
from ....naming import depth, position, width
from ....standard import FIRST, MEDIUM, PAST, RIGHT, ROW, TEXT
from ..letters import edge_names
from ..stance import NARROW, SQUARE, ScaledView, Stance, at_scale, largest, stops_of

BESIDE = 2 * ROW  # of the face beside what is cut out
APART = MEDIUM  # on paper: marks of the two faces nearer than a line is wide are one
UNKNOWN_CORNER = 5.0  # mm: radius drawn for a cutter that the shop has not named


def face_view(desk: Desk, stance: Stance, smaller: int = 0, *, several: bool = False) -> View:
    """The face that is marked and worked from, at the largest scale that leaves room for the other views.

    Args:
        smaller: how many of the larger scales are left out.
        several: whether it stands for joints at several places, so that its marks have no figures.
    """
    of = "face", stance.called, several
    return largest(desk, of, partial(_Face, desk, stance, several=several), smaller, most=NARROW)


@dataclass
class _Face(ScaledView):
    """One such view; places are across the face in the drawing of the front view, and from the wall edge."""

    stance: Stance
    scale: float
    several: bool = False

    def view(self) -> View:
        """It, with all that is said of it."""
        seen, mark = self.look.names.words[self.surface], self.desk.marks[self.stance.main.id]
        return View(
            title=at_scale(f"{mark} from above" if seen == "upper face" else f"{mark} on its {seen}", self.scale),
            scaled=False,
            says=("broken in the depth",) if self.depths.breaks else (),
            wood=self.wood,
            across=Axis.whole(0.0, 1.0, self.scale),
            up=self.depths,
            dimensions=tuple(self._dimensions()),
            labels=tuple(self._labels()),
        )

    # --- how it lies -----------------------------------------------------------------------------

    @property
    def look(self) -> Look:
        """A look at the board."""
        return self.desk.looks[self.stance.main.id]

    @property
    def cut(self) -> Cut:
        """The slot or housing."""
        assert self.stance.cut is not None, "something is let in"
        return self.stance.cut

    @cached_property
    def surface(self) -> Surface:
        """The face that is looked at: the one it is let into, else the upper one."""
        up = self.stance.up_face
        return OPPOSITE[up] if self.cut.face and self.stance.sigma < 0 else up

    @property
    def up(self) -> bool:
        """Whether that face lies up in the section seen from the front."""
        return self.surface is self.stance.up_face

    @property
    def depth(self) -> float:
        """Of the board, from wall edge to front edge."""
        return self.stance.main.board.depth

    @cached_property
    def shape(self) -> Prism:
        """What is taken."""
        return next(shape for shape in self.cut.shapes if isinstance(shape, Prism))

    def walls(self, *, other: bool = False) -> Vec2:
        """Left and right wall on the face that is looked at, or on the other one."""
        v = self.stance.half if self.up is not other else -self.stance.half
        knots = [self.stance.place(self.stance.main, (a, c)) for a, c, _ in self.shape.outline]
        sides = zip(knots, [*knots[1:], knots[0]], strict=True)
        ends = [u0 + (u1 - u0) * (v - v0) / (v1 - v0) for (u0, v0), (u1, v1) in sides if (v0 - v) * (v1 - v) < 0]
        return (min(ends), max(ends)) if ends else (0.0, 0.0)

    @cached_property
    def both(self) -> bool:
        """Whether the two faces are marked at different places."""
        return not self.cut.face and abs(self.walls(other=True)[0] - self.walls()[0]) * self.scale > APART

    @cached_property
    def across(self) -> Vec2:
        """How far the face is shown to the left and right."""
        walls = [*self.walls(), *(self.walls(other=True) if self.both else ())]
        left, right = (BESIDE / self.scale * (side != self.stance.runs_out) for side in (-1, 1))
        return min(walls) - left, max(walls) + right

    @property
    def datum_right(self) -> bool:
        """Whether positions are counted to the right wall on paper."""
        return not self.stance.runs_right

    @cached_property
    def reach(self) -> Vec2:
        """From and to across the board, in its own depth."""
        return max(self.shape.low, 0.0), min(self.shape.high, self.depth)

    @property
    def closed(self) -> list[float]:
        """Seats and stops: where it ends in wood, from the wall edge."""
        low, high = self.reach
        return [seat for seat, end in ((low, 0.0), (high, self.depth)) if abs(seat - end) > NEAR]

    @property
    def open_edge(self) -> float:
        """The edge that a slot opens to, from the wall edge."""
        return 0.0 if self.reach[0] < NEAR else self.depth

    @cached_property
    def depths(self) -> Axis:
        """The stretches shown: beside each edge it opens to, and beside each stop or seat."""
        low, high = self.reach
        kept, past = BESIDE / self.scale, FIRST / self.scale
        spans: list[Vec2] = []
        for end, seat, way in ((0.0, low, 1.0), (self.depth, high, -1.0)):
            if abs(seat - end) < NEAR:
                spans.append((end, end + way * kept))
            else:
                spans.append((seat - way * min(past, abs(seat - end)), seat + way * kept))
                spans += [(end, end + way * past)] if self.cut.face else []
        return Axis.of(spans, self.scale, sign=1.0 if self.up else -1.0)

    # --- what is drawn -----------------------------------------------------------------------------

    def _drawn(self) -> Iterator[Item]:
        """The edges, the walls on both faces, seats and stops, corners, and the breaks."""
        x0, x1 = (x * self.scale for x in self.across)
        left, right = (x * self.scale for x in self.walls())
        low, high = self.reach
        for a, b in self.depths.inside(low, high):
            yield from self._stretch(self.depths.at(a), self.depths.at(b))
        for end, seat in ((0.0, low), (self.depth, high)):
            if self.depths.holds(end):
                y = self.depths.at(end)
                runs = [(x0, left), (right, x1)] if abs(end - seat) < NEAR else [(x0, x1)]
                yield from (edge((a, y), (b, y)) for a, b in runs)
        for seat in self.closed:
            yield edge((left, self.depths.at(seat)), (right, self.depths.at(seat)))
            yield from self._corners(seat)
        for pair in self.depths.breaks:
            yield from (broken((x0, y), (x1, y), 0.0) for y in pair)

    def _stretch(self, first: float, last: float) -> Iterator[Item]:
        """One stretch of it between two levels: waste, the other face's walls dashed, its own."""
        left, right = (x * self.scale for x in self.walls())
        if self.cut.face:
            yield from hatch([rectangle(left, min(first, last), right - left, abs(last - first))], FACE_STEP)
        elif self.both:
            for x in (x * self.scale for x in self.walls(other=True)):
                yield Stroke(points=((x, first), (x, last)), pen="hidden small", layer="hidden")
        yield from (edge((x, first), (x, last)) for x in (left, right))

    def _inward(self, seat: float) -> float:
        """From a seat or stop into what is cut out, on paper."""
        inside = self.depths.at(sum(self.reach) / 2) if self.cut.face else self.depths.at(self.open_edge)
        return math.copysign(1.0, inside - self.depths.at(seat))

    def _corners(self, seat: float) -> Iterator[Item]:
        """The corners a round cutter leaves."""
        left, right = (x * self.scale for x in self.walls())
        cutter, inward = self._cutter(), self._inward(seat)
        radius = min((cutter / 2 if cutter else UNKNOWN_CORNER) * self.scale, (right - left) / 2)
        for x, first in ((left + radius, 2 * RIGHT), (right - radius, -RIGHT)):
            start, end = (first, first + RIGHT) if inward < 0 else (-first - RIGHT, -first)
            centre = (x, self.depths.at(seat) + inward * radius)
            yield Arc(centre=centre, radius=radius, start=start, end=end, pen="dimension", layer="mark")

    def _cutter(self) -> float | None:
        """The largest straight cutter of the shop that goes between the walls."""
        across = self.cut.figures.across or 0.0
        cutters = (one for one in self.desk.book.shop.cutters if one.shape == "straight" and one.diameter <= across)
        return max((one.diameter for one in cutters), default=None)

    # --- figures -----------------------------------------------------------------------------------

    def _dimensions(self) -> Iterator[UnplacedDimension]:
        (left, right), (low, high) = self.walls(), self.reach
        figures, beside = self.cut.figures, self.across[0 if self.datum_right else 1]
        side = 1 if self.datum_right is (self.depths.sign < 0) else -1
        upward = (0.0, 1.0)
        if self.cut.face:
            off = stops_of(self.cut)
            for seat in self.closed:
                end, edge = (0.0, Opens.WALL) if seat == low else (self.depth, Opens.FRONT)
                yield plain((beside, end), (beside, seat), position(off.get(edge, abs(seat - end))), side, way=upward)
            if self.closed:
                yield plain((beside, low), (beside, high), f"{position(length(high - low))} long", side, way=upward)
        elif self.closed:
            words = f"{depth(figures.deep or 0.0)} deep"
            yield plain((beside, self.open_edge), (beside, self.closed[0]), words, side, way=upward)
        end = self.closed[0] if self.closed else self.depth
        wide = figures.on_face if figures.on_face is not None else figures.across or 0.0
        yield plain((left, end), (right, end), width(wide), int(self._inward(end)), way=(1.0, 0.0))
        if self.both:
            yield self._shift()

    def _shift(self) -> UnplacedDimension:
        """Between the marks of the two faces, inside the open edge."""
        right = self.datum_right
        ends = sorted((self.walls()[right], self.walls(other=True)[right]))
        marks = (
            DimensionMark((ends[0], self.open_edge)),
            DimensionMark((ends[1], self.open_edge), position(ends[1] - ends[0])),
        )
        down = self.depths.at(self.depth / 2) > self.depths.at(self.open_edge)
        return UnplacedDimension(way=(1.0, 0.0), marks=marks, side=-1 if down else 1)

    # --- words -------------------------------------------------------------------------------------

    def _labels(self) -> Iterator[Label]:
        yield from self._marks()
        left, right = self.walls()
        if self.cut.face:
            places = tuple(((left + right) / 2, (a + b) / 2) for a, b in self.depths.inside(*self.reach))
            words = f"{depth(self.cut.figures.deep or 0.0)} deep"
            yield Label(says=words, at=places, leader=False, weight="semibold", turns=(0.0, RIGHT))
        for seat in self.closed:
            yield from self._at_seat(seat)
        away = 1 if self.datum_right else -1  # from where positions stand
        xs = sorted(middle_first(*self.across, TEXT / self.scale), key=lambda x: x * away)
        yield from edge_names(self.look, xs, self.depths)

    def _marks(self) -> Iterator[Label]:
        """The positions of the datum wall on the faces, each led to its wall."""
        right = self.datum_right
        rows = [
            (self.surface, self.walls()),
            *([(OPPOSITE[self.surface], self.walls(other=True))] if self.both else []),
        ]
        way = math.copysign(1.0, self.depth / 2 - self.open_edge)
        for number, (surface, walls) in enumerate(
            sorted(rows, key=lambda row: -row[1][right] if right else row[1][right])
        ):
            place = self.look.position(self.cut, surface)
            if place is not None:
                said = "mark" if self.several else position(place)
                words = f"{self.look.names.short(surface)} {said}" if len(rows) > 1 else said
                at = (walls[right], self.open_edge + way * (PAST + number * ROW) / self.scale)
                yield Label(says=words, at=(at,), weight="semibold", layer="dimension")

    def _at_seat(self, seat: float) -> Iterator[Label]:
        """That it is a seat, and what to do with the corners."""
        left, right = self.walls()
        if not self.cut.face and (right - left) * self.scale > 2 * ROW:
            at = ((left + right) / 2, seat)
            yield Label(says="seat", at=(at,), beyond=(0, int(self._inward(seat))), leader=False)
        leans = abs(self.cut.figures.lean) > SQUARE
        text = "square the corners to the walls' lean" if leans else "square the corners"
        cutter = self._cutter()
        if cutter is not None:
            text += f" (cutter {position(cutter)} leaves r {position(cutter / 2)})"
        corners = ((right, seat), (left, seat))
        yield Label(says=text, at=corners if self.datum_right else corners[::-1], wide=4 * ROW)
