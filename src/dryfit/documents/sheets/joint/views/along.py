"""A joint cut along the board that enters, from its wall edge to its front: depths, seats, stops and their gaps.

The board cut along its middle is left white, the other one is hatched. A housing has the middle of the depth broken
out; a halving is shown whole. Each slot's depth is measured from the edge it opens to, each stop from its edge. How far
one board stands proud, what is notched back, and the whole depths stand above.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property, partial

from shapely import box
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from .....geometry.frames import NEAR, Vec, Vec2, length
from .....geometry.shapes import Prism
from .....piece.facts import Opens
from .....piece.model import Cut, Part
from ....display import Item
from ....kit.axis import Axis
from ....kit.dimension import UnplacedDimension, plain
from ....kit.label import Label, middle_first
from ....kit.view import View
from ....kit.wood import FAR, LEANS, WoodStretch, cut_wood
from ....looks import Desk
from ....naming import LEAST, depth, notched, position
from ....standard import FIGURE, FIRST, NAME, PAST, ROW, TEXT
from ....through import Plane, Wider, wood_in
from ..stance import BROKEN_TO, NARROW, ScaledView, Stance, at_scale, drawn_gap, exaggerated, largest, stops_of

BESIDE = ROW  # of the board that is cut along, above and below the other


def along_view(desk: Desk, stance: Stance, back: Cut | None, smaller: int = 0) -> View:
    """The cut along what enters, at the largest scale that leaves room for the other views.

    Args:
        back: the cut in that board which takes the level one, None for none.
        smaller: how many of the larger scales are left out.
    """
    of = "along", stance.called, back.key if back is not None else ""
    return largest(desk, of, partial(_Along, desk, stance, back), smaller, most=NARROW)


@dataclass
class _Along(ScaledView):
    """One such view; places are out of the wall, and along the board that is cut along."""

    stance: Stance
    back: Cut | None
    scale: float

    def view(self) -> View:
        """It, with all that is said of it."""
        says = ", ".join(self._says())
        return View(
            title=at_scale(f"cut along {self.desk.marks[self.along_part.id]}", self.scale),
            scaled=False,
            says=(says,) if says else (),
            wood=self.wood,
            across=self.depths,
            up=Axis.whole(0.0, 1.0, self.scale, sign=-1.0),
            dimensions=tuple(self._dimensions()),
            labels=(*self._gaps(), *self._edges(), *self._letters()),
        )

    def _says(self) -> Iterator[str]:
        """What is drawn otherwise than it is."""
        for name, gap in (("gap at the seats", self.stance.seat), ("gap under the end", self.bottom)):
            if said := exaggerated(name, gap, self.scale):
                yield said
        if self.depths.breaks:
            yield "broken in the depth"

    # --- how it lies -----------------------------------------------------------------------------

    @property
    def cut(self) -> Cut:
        """What is let into the level board."""
        assert self.stance.cut is not None, "something is let in"
        return self.stance.cut

    @property
    def housed(self) -> bool:
        """Whether it is let into one face only."""
        return bool(self.cut.face)

    @property
    def bottom(self) -> float | None:
        """Between a housing's floor and the end in it."""
        return self.stance.bottom if self.housed else None

    @property
    def flat(self) -> bool:
        """Whether the other board lies flat on the wall: then the cut is along the notched one."""
        return bool(self.stance.joint.meeting.wide)

    @property
    def along_part(self) -> Part:
        """The board that is cut along its middle."""
        return self.stance.main if self.flat else self.stance.other

    @property
    def across_part(self) -> Part:
        """The board that is cut across."""
        return self.stance.other if self.flat else self.stance.main

    @cached_property
    def plane(self) -> Plane:
        """The plane of the cut: out of the wall to the right, along the board up."""
        x, y, _ = self.stance.joint.meeting.frame.origin
        (ux, uy), (vx, vy) = self.stance.u, self.stance.v
        a, b = (1.0, 0.0) if self.flat else self.stance.along
        up: Vec = (a * ux + b * vx, a * uy + b * vy, 0.0)
        return Plane((x, y, 0.0), (0.0, 0.0, 1.0), up, (2 * max(map(abs, self.ends)), FAR))

    @cached_property
    def ends(self) -> Vec2:
        """From the wall side to the front of both boards, out of the wall."""
        sides = (self.stance.main_side, self.stance.other_side)
        return min(side.back for side in sides), max(side.front for side in sides)

    @cached_property
    def wider(self) -> Wider:
        """How much further than they are seats and floor are drawn, so that their gaps can be seen."""
        ways: dict[str, list[Vec2]] = {}
        if self.stance.seat is not None:
            more = (drawn_gap(self.stance.seat, self.scale) - self.stance.seat) / (1 if self.back is None else 2)
            for cut in (self.cut, self.back):
                if cut is not None:
                    ways[cut.key] = [(-more if cut.figures.opens is Opens.FRONT else more, 0.0)]
        if self.bottom:
            ways[self.cut.key] = [(0.0, -(drawn_gap(self.bottom, self.scale) - self.bottom))]
        return ways

    def reach(self, cut: Cut) -> Vec2:
        """From and to of a cut, out of the wall."""
        side = self.stance.joint.meeting.side(cut.body)
        shape = next(shape for shape in cut.shapes if isinstance(shape, Prism))
        return max(shape.low + side.back, side.back), min(shape.high + side.back, side.front)

    @cached_property
    def depths(self) -> Axis:
        """Depth out of the wall on paper: whole, or for a housing without its middle."""
        if not self.housed:
            return Axis.whole(*self.ends, self.scale)
        kept, past = BROKEN_TO / self.scale, FIRST / self.scale
        start, stop = self.reach(self.cut)
        sides = (self.stance.main_side, self.stance.other_side)
        spans = [span for side in sides for span in ((side.back, side.back + past), (side.front - past, side.front))]
        return Axis.of([*spans, (start, start + kept), (stop - kept, stop)], self.scale)

    @cached_property
    def half(self) -> float:
        """Half of the other board as it is cut, along the one that is cut along."""
        return self.stance.wide / 2 if self.flat else self.stance.half / abs(self.stance.along[1])

    @cached_property
    def heights(self) -> Vec2:
        """From and to along the board that is cut along."""
        below = PAST if self.housed else BESIDE
        return -self.half - below / self.scale, self.half + BESIDE / self.scale

    # --- what is drawn -----------------------------------------------------------------------------

    def _drawn(self) -> Iterator[Item]:
        for part, lean in ((self.along_part, None), (self.across_part, LEANS[0])):
            wood = wood_in(part, self.plane, cuts=self._cuts(part), wider=self.wider)
            for piece in self.depths.pieces:
                yield from self._stretch(part, wood, lean, (piece.low, piece.high))

    def _stretch(self, part: Part, wood: BaseGeometry, lean: float | None, span: Vec2) -> Iterator[Item]:
        """One unbroken stretch, moved to where it stands on paper."""
        low, high = span
        left, right = (self.depths.at(end) / self.scale for end in span)
        moved = translate(wood.intersection(box(low, -FAR, high, FAR)), left - low, 0.0)
        first, last = low <= self.ends[0] + NEAR, high >= self.ends[1] - NEAR
        stretches = [WoodStretch((1.0, 0.0), left - 1.0 if first else left, right + 1.0 if last else right)]
        if part is self.along_part:
            stretches.append(WoodStretch((0.0, 1.0), *self.heights))
        return cut_wood(moved, stretches, self.scale, part.id, lean=lean)

    def _cuts(self, part: Part) -> list[Cut]:
        """What of a board is cut out here: this joint's cuts, and its ends."""
        return [cut for cut in part.cuts if cut.joint == self.stance.joint.key or cut.end]

    # --- words -------------------------------------------------------------------------------------

    def _edges(self) -> Iterator[Label]:
        """Which side is the wall's and which the front."""
        for text, end, way in (("wall", self.ends[0], -1), ("front", self.ends[1], 1)):
            places = tuple((end, s) for s in middle_first(*self.heights, TEXT / self.scale))
            yield Label(says=text, at=places, beyond=(way, 0), leader=False, priority=2)

    def _letters(self) -> Iterator[Label]:
        """Each board's letter in its wood, beside this joint's slots."""
        beyond = self.half + BESIDE / self.scale / 2
        for part, levels in ((self.along_part, (beyond, -beyond)), (self.across_part, (0.0, -self.half / 2))):
            side = self.stance.joint.meeting.side(part.id)
            at = [
                (z, s)
                for low, high in self.depths.inside(side.back, side.front)
                for z in middle_first(low, high, NAME / self.scale)
                for s in levels
                if self._is_wood(part, z, s)
            ]
            mark = self.desk.marks[part.id]
            yield Label(
                says=mark,
                at=tuple(at or [(side.back, levels[0])]),
                leader=False,
                sizes=(FIGURE, TEXT) if self.housed else (TEXT,),
                weight="bold",
                priority=1,
                owner=part.id,
            )

    def _is_wood(self, part: Part, z: float, s: float) -> bool:
        """Whether a place lies beside this joint's slots in a board; a housing leaves wood everywhere."""
        swept = (cut for cut in self._cuts(part) if any(isinstance(shape, Prism) for shape in cut.shapes))
        slots = (self.reach(cut) for cut in swept if not cut.end and not cut.face)
        inside = any(low <= z <= high and abs(s) <= self.half + NEAR for low, high in slots)
        return not inside and self.heights[0] < s < self.heights[1]

    def _gaps(self) -> Iterator[Label]:
        """Each gap with its true size, led to where it is drawn."""
        seat, bottom = self.stance.seat, self.bottom
        low, high = self.reach(self.cut)
        if seat is not None:
            further = 0.0 if self.back is not None else drawn_gap(seat, self.scale) - seat
            z = low + (seat - further) / 2 if self.cut.figures.opens is Opens.FRONT else high - (seat - further) / 2
            yield Label(says=f"gap at the seat {depth(seat)}", at=((z, self.half / 2),))
        if bottom and self.stance.floored:
            z = (low + min(high, low + BROKEN_TO / self.scale)) / 2
            floor = self.half - (self.cut.figures.deep or 0.0) / abs(self.stance.along[1])
            yield Label(says=f"gap {depth(bottom)}", at=((z, floor + bottom - drawn_gap(bottom, self.scale) / 2),))

    # --- depths ------------------------------------------------------------------------------------

    def _dimensions(self) -> Iterator[UnplacedDimension]:
        below, above = self.heights
        for low, high, figure in self._stops() if self.housed else self._slots():
            yield plain((low, below), (high, below), figure, -1)
        if self.housed and self.stance.floored:
            yield self._deep()
        for low, high, figure in self._depths():
            yield plain((low, above), (high, above), figure, weight="regular")

    def _slots(self) -> Iterator[tuple[float, float, str]]:
        """The depth of each slot from the edge it opens to."""
        for cut in (self.cut, self.back):
            if cut is not None:
                words = f"{self.desk.marks[cut.body]}'s {cut.plain} {depth(cut.figures.deep or 0.0)}"
                yield (*self.reach(cut), words)

    def _stops(self) -> Iterator[tuple[float, float, str]]:
        """How far a housing reaches, and how far from each edge it stops."""
        main = self.stance.main_side
        low, high = self.reach(self.cut)
        off = stops_of(self.cut)
        for a, b, edge in ((high, main.front, Opens.FRONT), (main.back, low, Opens.WALL)):
            if b - a > NEAR:
                yield a, b, position(off.get(edge, b - a))
        yield low, high, f"{self.cut.plain} {position(length(high - low))}"

    def _deep(self) -> UnplacedDimension:
        """How deep the housing is, at the end away from its stop."""
        deep = self.cut.figures.deep or 0.0
        low, _ = self.reach(self.cut)
        end, side = (self.ends[1], -1) if low > self.stance.main_side.back + NEAR else (self.ends[0], 1)
        floor = self.half - deep / abs(self.stance.along[1])
        return plain((end, floor), (end, self.half), depth(deep), side)

    def _depths(self) -> Iterator[tuple[float, float, str]]:
        """What is notched back and what stands proud, then the depth of each board, of two alike once."""
        main, other = self.stance.main_side, self.stance.other_side
        proud = ((main.front, other.front), (main.back, other.back))
        cut_back = [(part, notched) for part in dict.fromkeys(self._notches())]  # as the part's sheet has it
        for part, told in (*cut_back, *((part, position) for part in proud)):
            if abs(part[0] - part[1]) > LEAST:
                yield min(part), max(part), told(abs(part[0] - part[1]))
        differ = abs((main.front - main.back) - (other.front - other.back)) > LEAST
        for side in sorted((main, other) if differ else (other,), key=lambda side: side.front - side.back):
            yield side.back, side.front, f"{self.desk.marks[side.body]} {position(side.front - side.back)}"

    def _notches(self) -> Iterator[Vec2]:
        """What is taken off the end that enters at an edge, from and to out of the wall."""
        side = self.stance.other_side
        whole = side.front - side.back
        ends = [cut for cut in self.stance.joint.cuts if cut.body == self.stance.other.id and cut.end]
        for shape in (shape for cut in ends for shape in cut.shapes):
            if isinstance(shape, Prism):
                low, high = max(shape.low, 0.0), min(shape.high, whole)
                if high - low < whole - NEAR:
                    yield low + side.back, high + side.back
