"""What stands in a row along the depth of a corner or butt, seen square on a face: keys, dowels, screws, a tongue.

Of a mitre the outside face is shown, or for what stands in both ends the mitre face itself; of a butt the face that
the other board stands on. Positions run from the front edge, as on the boards' own sheets, so that errors don't add up.
Beside them stand how far keys reach and how thick they are, where a groove or holes lie on their mitre, or where the
other board stands.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property, partial

from .....geometry.frames import NEAR, Vec2
from .....geometry.shapes import Bore, Prism, corners
from .....geometry.views import OPPOSITE, Surface
from .....piece.facts import CutForm, Opens
from .....piece.model import Cut, Part
from ....display import Circle, Item, Stroke, rectangle
from ....kit.axis import Axis
from ....kit.dimension import DimensionMark, UnplacedDimension, plain
from ....kit.label import Label, middle_first
from ....kit.view import View
from ....kit.wood import broken, edge
from ....looks import Desk, Look
from ....naming import position, thickness, width
from ....standard import PAST, ROW, TEXT
from ..bevels import Bevel, bevel_of
from ..letters import edge_names
from ..stance import BROKEN_TO, NARROW, ScaledView, Stance, at_scale, largest


def rows_view(desk: Desk, stance: Stance, smaller: int = 0) -> View | None:
    """The face with its row at the largest scale that keeps to its height; None where nothing is to be seen.

    Args:
        smaller: how many of the larger scales are left out.
    """
    if stance.joint.meeting.form == "in line":
        return None
    return largest(desk, ("rows", stance.called), partial(_Rows, desk, stance), smaller, most=NARROW)


@dataclass
class _Rows(ScaledView):
    """One such view; places are along the face in the drawing of the front view, and from the wall edge."""

    stance: Stance
    scale: float

    def view(self) -> View:
        """It, with all that is said of it."""
        mark = self.desk.marks[self.main.id]
        face = f"{mark}, {self.look.names.words[self.surface]}"
        says = ["broken in the depth"] if self.depths.breaks else []
        if self.row:
            says.append(f"places from the {self.look.names.words[Surface.FRONT]}")
        return View(
            title=at_scale(f"mitre face of {mark}" if self.groove is not None else face, self.scale),
            scaled=False,
            says=tuple(says),
            wood=self.wood,
            across=Axis.whole(0.0, 1.0, self.scale),
            up=self.depths,
            dimensions=tuple(self._dimensions()),
            labels=tuple(self._labels()),
        )

    # --- how it lies -----------------------------------------------------------------------------

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
        """What opens to the mitre face: a groove for a tongue, slots of biscuits, holes; not a key's pockets."""
        if self.cut is None or self.bevel is None or self.cut.form is CutForm.POCKET:
            return None
        return self.cut if self.cut.figures.opens is Opens.END else None

    @cached_property
    def bores(self) -> list[Bore]:
        """Round holes in the face that is looked at."""
        return [shape for shape in self.cut.shapes if isinstance(shape, Bore)] if self.cut is not None else []

    @cached_property
    def surface(self) -> Surface:
        """The face that is looked at."""
        up = self.bevel.long[1] > 0 if self.bevel is not None else self.stance.sigma > 0
        return self.stance.up_face if up else OPPOSITE[self.stance.up_face]

    @property
    def depth(self) -> float:
        """Of the board, from wall edge to front edge."""
        return self.main.board.depth

    @cached_property
    def common(self) -> Vec2:
        """The depth that both boards have, in this board's own."""
        low, high = self.stance.joint.meeting.overlap
        return low - self.stance.main_side.back, high - self.stance.main_side.back

    @property
    def steps(self) -> list[float]:
        """Where the common depth ends within the board."""
        return [end for end in self.common if NEAR < end < self.depth - NEAR]

    @cached_property
    def row(self) -> list[Vec2]:
        """From and to across the board of each thing in the row."""
        found: list[Vec2] = []
        for shape in self.cut.shapes if self.cut is not None else ():
            if isinstance(shape, Prism) and self.cut is not None and self.cut.form is CutForm.BISCUIT:
                middle, half = shape.frame.origin[2], (self.cut.figures.on_face or 0.0) / 2
                found.append((middle - half, middle + half))
            elif isinstance(shape, Prism):
                found.append((max(shape.low, 0.0), min(shape.high, self.depth)))
            elif isinstance(shape, Bore):
                half = shape.profile[0][1] / 2
                found.append((shape.start[2] - half, shape.start[2] + half))
        return found

    @cached_property
    def depths(self) -> Axis:
        """The stretches shown: beside the edges, the end of the common depth, and each thing in the row."""
        beside = ROW / self.scale
        spans = [(end - beside, end + beside) for end in (0.0, self.depth, *self.steps)]
        for low, high in self.row:
            ends = (low, high) if self.groove is not None and not self.bores else ()
            spans += [(end - 2 * beside, end + 2 * beside) for end in ends] or [(low - beside, high + beside)]
        clipped = [(max(low, 0.0), min(high, self.depth)) for low, high in spans]
        return Axis.of(clipped, self.scale, sign=1.0 if self.surface is self.stance.up_face else -1.0)

    @cached_property
    def across(self) -> Vec2:
        """How far the face is shown to the left and right."""
        if self.groove is not None and self.bevel is not None:
            return 0.0, self.bevel.size
        beside = BROKEN_TO / self.scale
        if self.bevel is not None:
            end = self.bevel.long[0]
            far = end + math.copysign(max(self.bevel.longer, self.key_reach) + beside, self.bevel.away[0])
            return min(end, far), max(end, far)
        left, right = self.stands
        ends = [left - beside, right + beside]
        if self.end is not None:  # it ends here, covering the other's end
            ends[self.end.away[0] < 0] = self.end.long[0]
        return ends[0], ends[1]

    @property
    def key_reach(self) -> float:
        """How far a key reaches on the outside face."""
        if self.cut is None or self.groove is not None:
            return 0.0
        return self.axis_from_end if self.bores else self.cut.figures.on_face or 0.0

    @property
    def axis_from_end(self) -> float:
        """Of holes in the outside face of a mitre, from its long point."""
        assert self.bevel is not None, "asked of a mitre only"
        return abs(self._place(self.bores[0])[0] - self.bevel.long[0])

    def _place(self, bore: Bore) -> Vec2:
        return self.stance.place(self.main, (bore.start[0], bore.start[1]))

    @cached_property
    def stands(self) -> Vec2:
        """Between which marks the other board stands on the face."""
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
        knots = [(a, c) for shape in shapes if isinstance(shape, Prism) for a, c, _ in corners(shape)]
        points = [self.stance.place(self.main, knot) for knot in knots] or [self._place(bore) for bore in self.bores]
        along = [((x - sx) * (lx - sx) + (y - sy) * (ly - sy)) / size for x, y in points]
        half = self.bores[0].profile[0][1] / 2 if self.bores else 0.0
        return min(along) - half, max(along) + half

    # --- what is drawn -----------------------------------------------------------------------------

    def _drawn(self) -> Iterator[Item]:
        x0, x1 = (x * self.scale for x in self.across)
        for pair in self.depths.breaks:
            yield from (broken((x0, y), (x1, y)) for y in pair)
        yield from (edge((x0, y), (x1, y)) for y in self.depths.ends)
        if self.groove is not None:
            yield from self._levels((0.0, self.depth), self.across)
            middle = sum(self.groove_places) / 2
            for bore in self.bores:
                yield from self._hole(middle, bore)
            for mark in () if self.bores else self.row:
                yield from self._levels(mark, self.groove_places)
                yield from self._uprights(self.groove_places, mark)
        elif self.bevel is not None:
            yield from self._levels((0.0, self.depth), (self.bevel.long[0],))
            yield from self._outside(self.bevel)
        else:
            yield from self._levels((0.0, self.depth), () if self.end is None else (self.end.long[0],))
            yield from self._footprint()

    def _levels(self, span: Vec2, xs: Sequence[float], pen: str = "outline") -> Iterator[Item]:
        """Lines across the board at places along it, as far as the depth is shown."""
        for low, high in self.depths.inside(*span):
            for x in xs:
                ends = ((x * self.scale, self.depths.at(low)), (x * self.scale, self.depths.at(high)))
                yield Stroke(points=ends, pen=pen, layer="face")

    def _uprights(self, xs: Vec2, places: Sequence[float]) -> Iterator[Item]:
        """Lines along the board at places across it."""
        for place in places:
            left, right = ((x * self.scale, self.depths.at(place)) for x in xs)
            yield edge(left, right)

    def _outside(self, bevel: Bevel) -> Iterator[Item]:
        """Short points dashed where the boards are mitred, and pockets."""
        yield from self._levels(self.common, (bevel.short[0],), "hidden")
        if self.bores:
            for bore in self.bores:
                yield from self._hole(self._place(bore)[0], bore)
            return
        long = self.key_reach * self.scale
        left = bevel.long[0] * self.scale - (long if bevel.away[0] < 0 else 0.0)
        for low, high in self.row:
            top, bottom = sorted((self.depths.at(low), self.depths.at(high)))
            yield Stroke(points=rectangle(left, top, long, bottom - top), pen="outline", closed=True, layer="face")

    def _footprint(self) -> Iterator[Item]:
        """Where the other board stands on the face, and its holes."""
        x0, x1 = self.across
        yield from self._levels(self.common, [x for x in self.stands if x0 + NEAR < x < x1 - NEAR])
        yield from self._uprights(self.stands, self.steps)
        for bore in self.bores:
            yield from self._hole(self._place(bore)[0], bore)

    def _hole(self, at: float, bore: Bore) -> Iterator[Item]:
        """Its mouth with its axes, at a place along what is drawn."""
        x, y, radius = at * self.scale, self.depths.at(bore.start[2]), bore.profile[0][1] / 2 * self.scale
        yield Circle(centre=(x, y), radius=radius, pen="outline", layer="face")
        for dx, dy in ((radius + PAST, 0.0), (0.0, radius + PAST)):
            yield Stroke(points=((x - dx, y - dy), (x + dx, y + dy)), pen="axis", layer="axis")

    # --- figures and words ---------------------------------------------------------------------------

    def _dimensions(self) -> Iterator[UnplacedDimension]:
        yield from self._running()
        if self.groove is not None:
            first, last = self.groove_places
            if self.bores:
                yield self._level((0.0, (first + last) / 2), position((first + last) / 2), below=True)
                return
            yield self._level((0.0, first), position(first), below=True)
            yield self._level((first, last), width(last - first), below=False)
        elif self.bevel is not None:
            yield from self._mitred(self.bevel)
        else:
            left, right = self.stands
            yield self._level((left, right), thickness(right - left), below=True)
            yield from self._set_back(right, 1.0)

    def _level(self, ends: Vec2, figure: str, *, below: bool) -> UnplacedDimension:
        """Beyond the lower or the upper edge on paper."""
        d = self.depth if below is (self.depths.sign > 0) else 0.0
        return plain((ends[0], d), (ends[1], d), figure, -1 if below else 1, way=(1.0, 0.0))

    def _beside(self, x: float, span: Vec2, figure: str, way: float) -> UnplacedDimension:
        """Across the board, to the right or left of a place."""
        return plain((x, span[0]), (x, span[1]), figure, int(way * self.depths.sign), way=(0.0, 1.0))

    def _mitred(self, bevel: Bevel) -> Iterator[UnplacedDimension]:
        """Long point less short point; how far a key reaches, and how thick it is."""
        way = math.copysign(1.0, bevel.away[0])
        yield self._level((bevel.long[0], bevel.short[0]), position(bevel.longer), below=True)
        yield from self._set_back(bevel.short[0], way)
        if self.row:
            x = bevel.long[0] + way * self.key_reach
            yield self._level((bevel.long[0], x), position(self.key_reach), below=False)
            if not self.bores:
                low, high = self.row[-1]
                yield self._beside(bevel.long[0], (low, high), width(high - low), -way)

    def _set_back(self, x: float, way: float) -> Iterator[UnplacedDimension]:
        """How far from an edge the common depth ends."""
        for end in self.steps:
            near = 0.0 if end < self.depth / 2 else self.depth
            yield self._beside(x, (near, end), position(abs(end - near)), way)

    def _running(self) -> Iterator[UnplacedDimension]:
        """Positions from the front edge, down or up the side away from the end."""
        places = [end for pair in self.row for end in pair]
        if self.groove is None or self.groove.form.in_rows:
            places = [(low + high) / 2 for low, high in self.row]
        if not places:
            return
        right = self.bevel is None or self.groove is not None or self.bevel.away[0] > 0
        x = self.across[right]
        marks = [DimensionMark((x, d), position(self.depth - d)) for d in (*sorted(places, reverse=True), 0.0)]
        side = -int(self.depths.sign) if right else int(self.depths.sign)
        yield UnplacedDimension(
            way=(0.0, -1.0), marks=(DimensionMark((x, self.depth)), *marks), style="running", side=side
        )

    def _labels(self) -> Iterator[Label]:
        """Which edge is which; of a mitre face which side."""
        x0, x1 = self.across
        if self.groove is not None:
            below = self.depth if self.depths.sign > 0 else 0.0
            yield Label(says="inside", at=((0.0, below),), priority=1)
            yield Label(says="outside", at=((x1, below),), priority=1)
        yield from edge_names(self.look, middle_first(x0, x1, TEXT / self.scale), self.depths)
