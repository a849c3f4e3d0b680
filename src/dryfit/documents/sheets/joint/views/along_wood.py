"""The wood of a joint cut along the board that enters, from its wall edge to its front.

The board cut along its middle is left white, the other one is hatched. A housing is drawn full size with the middle
of the depth broken out, because a third of a board would be lost at 1:5; a halving is shown whole.
"""

from dataclasses import dataclass, field
from functools import cached_property

from shapely import box
from shapely.affinity import translate
from shapely.geometry.base import BaseGeometry

from .....geometry.frames import Vec, Vec2
from .....geometry.shapes import Prism
from .....piece.model import Cut, Part
from ....looks import Desk
from ....through import Plane, Wider, wood_in
from ..drawing.breaks import Broken
from ..drawing.pad import Pad
from ..drawing.sections import LEAST_STEP, Stretch, draw_wood
from ..stance import Stance, drawn_gap

KEPT = 20.0  # on paper, of a broken depth beside an edge or a stop
PAST = 8.0
TALL, HOUSED = 13.0, 11.0  # of the board that is cut along, beyond the other, on paper
OPEN = 1e-6


@dataclass
class Along:
    """One such view under way.

    Attributes:
        back: the cut in the board that enters which takes the level one; None where it takes nothing.
        scale: paper / wood.
    """

    desk: Desk
    stance: Stance
    back: Cut | None
    scale: float
    pad: Pad = field(default_factory=Pad)

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
    def up(self) -> Vec2:
        """Up on paper, in the drawing of the front view."""
        return (1.0, 0.0) if self.flat else self.stance.along

    @cached_property
    def plane(self) -> Plane:
        """The plane of the cut: out of the wall to the right, along the board up."""
        x, y, _ = self.stance.joint.meeting.frame.origin
        (ux, uy), (vx, vy) = self.stance.u, self.stance.v
        a, b = self.up
        up: Vec = (a * ux + b * vx, a * uy + b * vy, 0.0)
        low, high = self.ends
        return Plane((x, y, 0.0), (0.0, 0.0, 1.0), up, (max(abs(low), abs(high)) + 50.0, 1000.0))

    @cached_property
    def ends(self) -> Vec2:
        """From the wall side to the front of both boards, out of the wall."""
        sides = (self.stance.main_side, self.stance.other_side)
        return min(side.back for side in sides), max(side.front for side in sides)

    @cached_property
    def wider(self) -> Wider:
        """How much further than they are seats and floor are drawn, so that their gaps can be seen."""
        ways: dict[str, list[Vec2]] = {}
        seat, bottom = self.stance.seat, self.bottom
        if seat is not None:
            more = drawn_gap(seat, self.scale) - seat
            share = 0.5 if self.back is not None else 1.0
            for cut in (self.cut, self.back):
                if cut is not None:
                    ways[cut.key] = [((-more if cut.figures.opens == "front edge" else more) * share, 0.0)]
        if bottom:
            ways[self.cut.key] = [(0.0, -(drawn_gap(bottom, self.scale) - bottom))]
        return ways

    def reach(self, cut: Cut) -> Vec2:
        """From and to of a cut, out of the wall; beyond its board where it is open."""
        side = self.stance.joint.meeting.side(cut.body)
        shape = next(shape for shape in cut.shapes if isinstance(shape, Prism))
        return max(shape.low + side.back, side.back), min(shape.high + side.back, side.front)

    @cached_property
    def depths(self) -> Broken:
        """Depth out of the wall on paper: whole, or for a housing without its middle."""
        if not self.housed:
            return Broken((self.ends,), self.scale)
        kept, past = KEPT / self.scale, PAST / self.scale
        start, stop = self.reach(self.cut)
        sides = (self.stance.main_side, self.stance.other_side)
        backs = [(side.back, side.back + past) for side in sides]
        fronts = [(side.front - past, side.front) for side in sides]
        return Broken.of([*backs, *fronts, (start, start + kept), (stop - kept, stop)], self.scale)

    @property
    def wide(self) -> float:
        """Of the drawing, on paper."""
        return self.depths.at(self.ends[1]) - self.depths.at(self.ends[0])

    @cached_property
    def half(self) -> float:
        """Half of the other board as it is cut, along the one that is cut along."""
        return self.stance.wide / 2 if self.flat else self.stance.half / abs(self.stance.along[1])

    @cached_property
    def heights(self) -> Vec2:
        """From and to along the board that is cut along, in mm of wood."""
        tall = self.half + (HOUSED if self.housed else TALL) / self.scale
        return (-self.half - (4.0 / self.scale if self.housed else TALL / self.scale), tall)

    def paper(self, z: float, s: float) -> Vec2:
        """A place out of the wall and along the board, on paper."""
        return self.depths.at(z), -s * self.scale

    def draw(self) -> None:
        """Draw both boards."""
        for part, lean in ((self.along_part, None), (self.across_part, 45.0)):
            wood = wood_in(part, self.plane, cuts=self.cuts(part), wider=self.wider)
            for low, high in self.depths.shown:
                self._stretch(part, wood, lean, low, high)

    def _stretch(self, part: Part, wood: BaseGeometry, lean: float | None, low: float, high: float) -> None:
        """One unbroken stretch, moved to where it stands on paper."""
        moved = translate(wood.intersection(box(low, -1e4, high, 1e4)), self.depths.at(low) / self.scale - low, 0.0)
        left, right = self.depths.at(low) / self.scale, self.depths.at(high) / self.scale
        first, last = low <= self.ends[0] + OPEN, high >= self.ends[1] - OPEN
        stretches = [Stretch((1.0, 0.0), left if not first else left - 1.0, right if not last else right + 1.0)]
        if part is self.along_part:
            stretches.append(Stretch((0.0, 1.0), *self.heights))
        draw_wood(self.pad, moved, stretches, self.scale, part.id, lean=lean, step=LEAST_STEP)

    def cuts(self, part: Part) -> list[Cut]:
        """What of a board is cut out here: this joint's cuts, and its ends."""
        key = self.stance.joint.key
        return [cut for cut in part.cuts if cut.joint == key or cut.end]
