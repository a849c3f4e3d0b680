"""The wood of a row along the depth of a corner or butt, seen square on a face: keys, holes, a groove, or marks alone.

Of a mitre the outside face is shown, or for a tongue the mitre face itself; of a butt the face that the other board
stands on. Whatever says nothing is broken out of the depth.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import cached_property

from .....geometry.frames import Vec2
from .....geometry.shapes import Bore, Prism
from .....geometry.views import OPPOSITE, Surface
from .....piece.model import Cut, Part
from ....display import Circle, Stroke, rectangle
from ....looks import Desk, Look
from ..bevels import Bevel, bevel_of
from ..drawing.breaks import Broken
from ..drawing.pad import Pad, outline
from ..drawing.spans import broken
from ..figures.ends import is_round
from ..stance import Stance

AROUND = 5.0  # on paper, of the depth kept beside each thing shown
EDGE = 6.0  # of the depth kept at an edge
BOARD = 16.0  # of the face beyond what is shown on it
OPEN = 1e-6
AXIS = 1.4  # of a hole's axes past its rim


@dataclass
class Rows:
    """One such view under way; `scale` is paper / wood."""

    desk: Desk
    stance: Stance
    scale: float
    pad: Pad = field(default_factory=Pad)

    @property
    def main(self) -> Part:
        """The board that is looked at."""
        return self.stance.main

    @property
    def look(self) -> Look:
        """A look at it."""
        return self.desk.looks[self.main.id]

    @cached_property
    def end(self) -> Bevel | None:
        """Its end in this joint; None where it runs on."""
        return bevel_of(self.stance, self.main)

    @cached_property
    def bevel(self) -> Bevel | None:
        """The same, where it is a mitre."""
        return self.end if self.end is not None and self.end.bevelled else None

    @cached_property
    def cut(self) -> Cut | None:
        """What is let into it."""
        return next((cut for cut in self.stance.joint.cuts if cut.body == self.main.id and not cut.end), None)

    @cached_property
    def groove(self) -> Cut | None:
        """A groove for a tongue, in the mitre face."""
        if self.cut is None or self.bevel is None:
            return None
        straight = all(isinstance(one, Prism) and not is_round(one) for one in self.cut.shapes)
        return self.cut if straight else None

    @cached_property
    def surface(self) -> Surface:
        """The face that is looked at."""
        up = self.bevel.long[1] > 0 if self.bevel is not None else self.stance.sigma > 0
        return self.stance.up_face if up else OPPOSITE[self.stance.up_face]

    # --- along the depth ---------------------------------------------------------------------------

    @property
    def depth(self) -> float:
        """Of the board, from wall edge to front edge."""
        return self.main.board.depth

    @cached_property
    def common(self) -> Vec2:
        """The depth that both boards have, in this board's own."""
        back = self.stance.main_side.back
        low, high = self.stance.joint.meeting.overlap
        return low - back, high - back

    @property
    def steps(self) -> list[float]:
        """Where the common depth ends within the board."""
        return [end for end in self.common if OPEN < end < self.depth - OPEN]

    @cached_property
    def row(self) -> list[Vec2]:
        """From and to across the board of each thing in the row."""
        found: list[Vec2] = []
        for shape in self.cut.shapes if self.cut is not None else ():
            if isinstance(shape, Prism):
                found.append((max(shape.low, 0.0), min(shape.high, self.depth)))
            elif isinstance(shape, Bore):
                half = shape.profile[0][1] / 2
                found.append((shape.start[2] - half, shape.start[2] + half))
        return found

    @cached_property
    def depths(self) -> Broken:
        """The stretches shown: beside the edges, the end of the common depth, and each thing in the row."""
        around, edge = AROUND / self.scale, EDGE / self.scale
        spans: list[Vec2] = [(0.0, edge), (self.depth - edge, self.depth)]
        spans += [(end - edge, end + edge) for end in self.steps]
        for low, high in self.row:
            if self.groove is None:
                spans.append((low - around, high + around))
            else:
                spans += [(low - around, low + 2 * around), (high - 2 * around, high + around)]
        clipped = [(max(low, 0.0), min(high, self.depth)) for low, high in spans]
        return Broken.of(clipped, self.scale, 1.0 if self.surface is self.stance.up_face else -1.0)

    def y(self, d: float) -> float:
        """Where a depth stands on paper."""
        return self.depths.at(d)

    @property
    def ends(self) -> Vec2:
        """The upper and the lower edge on paper."""
        first, last = self.y(0.0), self.y(self.depth)
        return min(first, last), max(first, last)

    @property
    def high(self) -> float:
        """Of the drawing, on paper."""
        return self.ends[1] - self.ends[0]

    # --- across ------------------------------------------------------------------------------------

    @cached_property
    def across(self) -> Vec2:
        """How far the face is shown to the left and right, on paper."""
        if self.groove is not None and self.bevel is not None:
            return 0.0, self.bevel.size * self.scale
        if self.bevel is not None:
            end = self.bevel.long[0] * self.scale
            far = end + math.copysign(max(self.bevel.longer, self.key_reach) * self.scale + BOARD, self.bevel.away[0])
            return min(end, far), max(end, far)
        left, right = self.stands
        ends = [left * self.scale - BOARD, right * self.scale + BOARD]
        if self.end is not None:  # it ends here, covering the other's end
            ends[self.end.away[0] < 0] = self.end.long[0] * self.scale
        return ends[0], ends[1]

    @property
    def key_reach(self) -> float:
        """How far a key reaches on the outside face."""
        return (self.cut.figures.on_face or 0.0) if self.cut is not None and self.groove is None else 0.0

    @cached_property
    def stands(self) -> Vec2:
        """Between which marks the other board stands on the face, in the drawing's u."""
        end = bevel_of(self.stance, self.stance.other)
        if end is None:
            return -self.stance.wide / 2, self.stance.wide / 2
        return min(end.long[0], end.short[0]), max(end.long[0], end.short[0])

    @cached_property
    def groove_places(self) -> Vec2:
        """Where the groove lies on the mitre, from the short point."""
        assert self.bevel is not None, "shown of a mitre only"
        (lx, ly), (sx, sy), size = self.bevel.long, self.bevel.short, self.bevel.size
        shapes = self.groove.shapes if self.groove is not None else ()
        knots = [(a, c) for shape in shapes if isinstance(shape, Prism) for a, c, _ in shape.outline]
        points = (self.stance.place(self.main, knot) for knot in knots)
        along = [((x - sx) * (lx - sx) + (y - sy) * (ly - sy)) / size for x, y in points]
        return min(along), max(along)

    # --- what is drawn -----------------------------------------------------------------------------

    def draw(self) -> None:
        """Draw the face with its row."""
        x0, x1 = self.across
        for pair in self.depths.breaks:
            self.pad.draw(broken((x0, y), (x1, y), 1.0) for y in pair)
        self.pad.draw(outline((x0, y), (x1, y)) for y in self.ends)
        if self.groove is not None:
            self._sides((x0, x1))
            self._groove()
        elif self.bevel is not None:
            self._sides((self.bevel.long[0] * self.scale,))
            self._outside(self.bevel)
        else:
            self._sides(() if self.end is None else (self.end.long[0] * self.scale,))
            self._footprint()

    def _sides(self, places: Sequence[float]) -> None:
        """Ends of the board, as far as its depth is shown."""
        for low, high in self.depths.shown:
            self.pad.draw(outline((x, self.y(low)), (x, self.y(high))) for x in places)

    def _outside(self, bevel: Bevel) -> None:
        """Short points dashed where the boards are mitred, and pockets."""
        x = bevel.short[0] * self.scale
        for low, high in self.depths.inside(*self.common):
            self.pad.draw([Stroke(points=((x, self.y(low)), (x, self.y(high))), pen="hidden", layer="hidden")])
        long = self.key_reach * self.scale
        left = bevel.long[0] * self.scale - (long if bevel.away[0] < 0 else 0.0)
        for low, high in self.row:
            top = min(self.y(low), self.y(high))
            box = rectangle(left, top, long, abs(self.y(high) - self.y(low)))
            self.pad.draw([Stroke(points=box, pen="outline", closed=True, layer="face")])

    def _groove(self) -> None:
        first, last = (place * self.scale for place in self.groove_places)
        for mark in self.row:
            for low, high in self.depths.inside(*mark):
                self.pad.draw(outline((x, self.y(low)), (x, self.y(high))) for x in (first, last))
            self.pad.draw(outline((first, self.y(d)), (last, self.y(d))) for d in mark)

    def _footprint(self) -> None:
        """Where the other board stands on the face, and its holes."""
        x0, x1 = self.across
        left, right = (u * self.scale for u in self.stands)
        for low, high in self.depths.inside(*self.common):
            inside = (x for x in (left, right) if x0 + 0.1 < x < x1 - 0.1)
            self.pad.draw(outline((x, self.y(low)), (x, self.y(high))) for x in inside)
        self.pad.draw(outline((left, self.y(end)), (right, self.y(end))) for end in self.steps)
        for shape in self.cut.shapes if self.cut is not None else ():
            if isinstance(shape, Bore):
                self._hole(shape)

    def _hole(self, bore: Bore) -> None:
        x = self.stance.place(self.main, (bore.start[0], bore.start[1]))[0] * self.scale
        y, radius = self.y(bore.start[2]), bore.profile[0][1] / 2 * self.scale
        self.pad.draw([Circle(centre=(x, y), radius=radius, pen="outline", layer="face")])
        for dx, dy in ((radius + AXIS, 0.0), (0.0, radius + AXIS)):
            self.pad.draw([Stroke(points=((x - dx, y - dy), (x + dx, y + dy)), pen="axis", layer="axis")])
