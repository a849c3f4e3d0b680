"""The wood of a slot or housing seen square on its face, with the stretches that say nothing broken out of the depth.

Left stays left and the wall edge lies up on an upper face, down on a lower one: as on the board's own sheet.
"""

from dataclasses import dataclass, field
from functools import cached_property

from .....geometry.frames import Vec2
from .....geometry.shapes import Prism
from .....geometry.views import OPPOSITE, Surface
from .....piece.model import Cut
from ....display import Stroke, rectangle
from ....hatch import hatch
from ....looks import Desk, Look
from ...dimensions.ruler import SCALES
from ..drawing.breaks import BREAK, Broken
from ..drawing.pad import Pad, outline
from ..drawing.spans import broken
from ..stance import Stance

MOST_WIDE = 62.0  # of what is cut out, on paper
LABELS, PLAIN = 18.0, 9.0  # of the face beside it: where positions stand, and on the other side
KEPT = 19.0  # of the depth beside an edge or a stop
PAST_SEAT = 8.0
OPEN = 1e-6
APART = 0.3  # on paper: marks of the two faces nearer than this are one
WASTE = 1.4  # step of the hatch over what is let in


@dataclass
class Face:
    """One such view under way.

    Attributes:
        cut: the slot or housing.
        smaller: how many of the larger scales are left out.
    """

    desk: Desk
    stance: Stance
    cut: Cut
    smaller: int = 0
    pad: Pad = field(default_factory=Pad)

    @property
    def look(self) -> Look:
        """A look at the board."""
        return self.desk.looks[self.stance.main.id]

    @property
    def mark(self) -> str:
        """The board's letter."""
        return self.desk.marks[self.stance.main.id]

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

    @cached_property
    def knots(self) -> list[Vec2]:
        """The corners of what is taken, in the drawing of the front view."""
        return [self.stance.place(self.stance.main, (a, c)) for a, c, _ in self.shape.outline]

    @cached_property
    def scale(self) -> float:
        """Paper / wood."""
        wide = max(u for u, _ in self.knots) - min(u for u, _ in self.knots)
        return next((scale for scale in SCALES[self.smaller :] if wide * scale <= MOST_WIDE), SCALES[-1])

    # --- across the face ---------------------------------------------------------------------------

    def walls(self, *, other: bool = False) -> Vec2:
        """Left and right wall on the face that is looked at, or on the other one; true, on paper."""
        v = self.stance.half if self.up is not other else -self.stance.half
        sides = zip(self.knots, [*self.knots[1:], self.knots[0]], strict=True)
        ends = [u0 + (u1 - u0) * (v - v0) / (v1 - v0) for (u0, v0), (u1, v1) in sides if (v0 - v) * (v1 - v) < 0]
        return (min(ends) * self.scale, max(ends) * self.scale) if ends else (0.0, 0.0)

    @cached_property
    def both(self) -> bool:
        """Whether the two faces are marked at different places."""
        return not self.cut.face and abs(self.walls(other=True)[0] - self.walls()[0]) > APART

    @cached_property
    def across(self) -> Vec2:
        """How far the face is shown to the left and right, on paper."""
        left, right = self.walls()
        if self.both:
            other = self.walls(other=True)
            left, right = min(left, other[0]), max(right, other[1])
        before, after = (PLAIN, LABELS) if self.datum_right else (LABELS, PLAIN)
        return left - before, right + after

    @property
    def datum_right(self) -> bool:
        """Whether positions are counted to the right wall on paper."""
        return not self.stance.runs_right

    # --- across the board --------------------------------------------------------------------------

    @cached_property
    def reach(self) -> Vec2:
        """From and to across the board, in its own depth."""
        return max(self.shape.low, 0.0), min(self.shape.high, self.depth)

    @property
    def closed(self) -> list[float]:
        """Seats and stops: where it ends in wood, from the wall edge."""
        low, high = self.reach
        return [seat for seat, edge in ((low, 0.0), (high, self.depth)) if abs(seat - edge) > OPEN]

    @property
    def open_edge(self) -> float:
        """The edge that a slot opens to, from the wall edge."""
        return 0.0 if self.reach[0] < OPEN else self.depth

    def on_edge(self, d: float) -> bool:
        """Whether a depth is one of the two edges."""
        return d < OPEN or d > self.depth - OPEN

    @cached_property
    def depths(self) -> Broken:
        """The stretches shown: beside each edge it opens to, and beside each stop or seat."""
        low, high = self.reach
        kept, past = KEPT / self.scale, PAST_SEAT / self.scale
        spans: list[Vec2] = []
        for edge, seat, way in ((0.0, low, 1.0), (self.depth, high, -1.0)):
            if abs(seat - edge) < OPEN:
                spans.append((edge, edge + way * kept))
            elif not self.cut.face:
                spans.append((seat - way * past, seat + way * kept))
            elif abs(seat - edge) > 2 * past + BREAK / self.scale:
                spans += [(seat - way * past, seat + way * kept), (edge, edge + way * past)]
            else:
                spans.append((edge, seat + way * kept))
        return Broken.of(spans, self.scale, 1.0 if self.up else -1.0)

    def y(self, d: float) -> float:
        """Where a depth stands on paper."""
        return self.depths.at(d)

    # --- what is drawn -----------------------------------------------------------------------------

    def draw(self) -> None:
        """Draw the edges, the walls on both faces, seats and stops, and the breaks."""
        x0, x1 = self.across
        left, right = self.walls()
        low, high = self.reach
        for edge, seat in ((0.0, low), (self.depth, high)):
            if self.depths.holds(edge):
                y = self.y(edge)
                runs = [(x0, left), (right, x1)] if abs(edge - seat) < OPEN else [(x0, x1)]
                self.pad.draw(outline((a, y), (b, y)) for a, b in runs)
        for a, b in self.depths.inside(low, high):
            self._stretch(self.y(a), self.y(b))
        for seat in self.closed:
            self.pad.draw([outline((left, self.y(seat)), (right, self.y(seat)))])
        for pair in self.depths.breaks:
            self.pad.draw(broken((x0, y), (x1, y), 0.0) for y in pair)

    def _stretch(self, first: float, last: float) -> None:
        """One stretch of it between two levels: waste, the other face's walls dashed, its own."""
        left, right = self.walls()
        if self.cut.face:
            self.pad.draw(hatch([rectangle(left, min(first, last), right - left, abs(last - first))], WASTE))
        elif self.both:
            self.pad.draw(
                Stroke(points=((x, first), (x, last)), pen="hidden small", layer="hidden")
                for x in self.walls(other=True)
            )
        self.pad.draw(outline((x, first), (x, last)) for x in (left, right))
