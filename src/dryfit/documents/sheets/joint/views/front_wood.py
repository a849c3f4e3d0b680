"""The wood of a section seen from the front: how slot or housing and both boards lie in it, and how much is shown.

The level board is shown with a stretch on either side of the opening; the other one runs through it or ends in it. The
cut is drawn wider than it is, by as much as its clearance needs to be seen.
"""

from dataclasses import dataclass, field
from functools import cached_property

from shapely import LineString
from shapely.geometry.base import BaseGeometry

from .....geometry.frames import Vec2
from .....geometry.shapes import HalfSpace, Prism
from .....piece.model import Cut, Part
from ....lettering import TEXT
from ....lettering import width as text_wide
from ....looks import Desk
from ....naming import Names, width
from ....through import Plane, Wider, cut_in, wood_in
from ..drawing.pad import Pad
from ..drawing.sections import LEANS, Stretch, draw_wood, hatch_step, to_paper
from ..figures.housing import floor_corners
from ..stance import SQUARE, Stance, drawn_gap

BESIDE = 28.0  # of the level board on either side of the opening, on paper
CLOSE = 17.0  # the same where nothing but a letter stands there
RUNS = 22.0  # of the other board past the faces, on paper
FLAT = 1e-6  # corners of a floor that differ by less lie in one plane with the face


@dataclass
class Front:
    """One such section under way.

    Attributes:
        cut: what is let into the level board.
        scale: paper / wood.
    """

    desk: Desk
    stance: Stance
    cut: Cut
    scale: float
    pad: Pad = field(default_factory=Pad)

    @property
    def names(self) -> Names:
        """What the level board's surfaces are called."""
        return self.desk.looks[self.stance.main.id].names

    @property
    def raked(self) -> bool:
        """Whether the boards are not square to each other, as printed."""
        return abs(self.stance.leans) > SQUARE

    @property
    def walls_lean(self) -> bool:
        """Whether the walls follow the other board's lean."""
        return abs(self.cut.figures.lean) > SQUARE

    @property
    def side(self) -> float:
        """To which side on paper the other board leans as it leaves the face; 1 where it is square."""
        return -1.0 if self.stance.leans < -SQUARE else 1.0

    @property
    def out(self) -> float:
        """Out of the face on paper: -1 is up."""
        return -self.stance.sigma

    @property
    def face(self) -> float:
        """The v of the face it enters."""
        return self.stance.sigma * self.stance.half

    @cached_property
    def z(self) -> float:
        """Out of the wall, in the middle of what is cut out and filled."""
        side = self.stance.main_side
        low, high = self.stance.joint.meeting.overlap
        shape = next(shape for shape in self.cut.shapes if isinstance(shape, Prism))
        return (max(shape.low + side.back, low) + min(shape.high + side.back, high)) / 2

    @cached_property
    def plane(self) -> Plane:
        """The plane of the section."""
        reach = 4 * (self.stance.wide + 2 * self.stance.half) + 200.0 / self.scale
        return self.stance.plane(self.z, reach)

    @cached_property
    def wall_way(self) -> Vec2:
        """Along the walls, out of the face."""
        return self.stance.along if self.walls_lean else (0.0, self.stance.sigma)

    @cached_property
    def wider(self) -> Wider:
        """How much further than it is the cut is drawn: across its walls, and into its floor."""
        gap, bottom = self.stance.gap, self.stance.bottom
        ways = [] if gap is None else self._beside(drawn_gap(gap, self.scale) - gap)
        if bottom:
            more = drawn_gap(bottom, self.scale) - bottom
            x, y = self._into_floor()
            ways.append((x * more, y * more))
        return {self.cut.key: ways}

    def _beside(self, more: float) -> list[Vec2]:
        """So much further out square to either wall; a floor keeps its lie."""
        x, y = self.wall_way
        shallow, deepest = floor_corners(self.stance, self.cut) if self.cut.face else (0.0, 0.0)
        if deepest - shallow < FLAT:
            return [(more / abs(y), 0.0), (-more / abs(y), 0.0)]
        out = 2 * more  # first on past the face, which square to the walls would not be reached on both sides
        return [(x * out, y * out), (y * more, -x * more), (-y * more, x * more)]

    def _into_floor(self) -> Vec2:
        """Out of the other board's end."""
        for cut in self.stance.joint.cuts:
            for shape in cut.shapes if cut.body == self.stance.other.id and cut.end else ():
                if isinstance(shape, HalfSpace):
                    return self.stance.direct(self.stance.other.board.frame.direct(shape.normal))
        return (0.0, -self.stance.sigma)

    @cached_property
    def opening(self) -> BaseGeometry:
        """The cut as it is drawn, beyond the wood too."""
        return cut_in(self.stance.main, self.plane, self.cut, wider=self.wider)

    def walls_at(self, v: float) -> Vec2:
        """Where the two walls are drawn at a height."""
        reach = self.plane.reach[0]
        line = self.opening.intersection(LineString([(-reach, v), (reach, v)]))
        return (line.bounds[0], line.bounds[2]) if not line.is_empty else (-self.stance.wide / 2, self.stance.wide / 2)

    @cached_property
    def sides(self) -> Vec2:
        """How far the level board is shown to the left and to the right, in mm of wood."""
        faces = (self.face,) if self.cut.face else (self.stance.half, -self.stance.half)
        lefts, rights = zip(*(self.walls_at(v) for v in faces), strict=True)
        left, right = min(lefts), max(rights)
        if not self.raked:
            room = text_wide(self.face_words(), TEXT, "semibold") + 8.0
            return left - room / self.scale, right + CLOSE / self.scale
        near, far = (BESIDE, BESIDE + 2.0) if self.side > 0 else (BESIDE + 2.0, BESIDE)
        return left - near / self.scale, right + far / self.scale

    @cached_property
    def runs(self) -> Vec2:
        """From and to along the other board that is shown, from where the lines meet."""
        sine = abs(self.stance.along[1])
        past = self.stance.half / sine + self.stance.wide / 2 * abs(self.stance.along[0]) / sine
        low = -(past + RUNS / self.scale)
        return (low if not self.cut.face else -2 * past), past + RUNS / self.scale

    @property
    def size(self) -> Vec2:
        """Width and height on paper, without words outside."""
        left, right = self.sides
        low, high = self.runs
        tall = (high - (low if not self.cut.face else 0.0)) * abs(self.stance.along[1])
        reach = abs(self.stance.along[0]) * high + self.stance.wide / 2
        return (max(right, reach) - min(left, -reach)) * self.scale + 6.0, tall * self.scale + 8.0

    def draw(self) -> tuple[BaseGeometry, BaseGeometry]:
        """Draw both boards, and give what is shown of the level one and of the other."""
        shown = []
        stretches = (Stretch((1.0, 0.0), *self.sides), Stretch(self.stance.along, *self.runs))
        for part, stretch, lean in zip((self.stance.main, self.stance.other), stretches, LEANS, strict=True):
            wood = wood_in(part, self.plane, cuts=self._cuts(part), wider=self.wider)
            step = hatch_step(2 * self.stance.half, self.scale)
            shown.append(draw_wood(self.pad, wood, [stretch], self.scale, part.id, lean=lean, step=step))
        return shown[0], shown[1]

    def _cuts(self, part: Part) -> list[Cut]:
        """This joint's, the ends, and what is let into the other face at the same place."""
        key, opposed = self.stance.joint.key, self.cut.face and self.stance.main_side.opposed
        return [cut for cut in part.cuts if cut.joint == key or cut.end or (opposed and cut.face == -self.cut.face)]

    def paper(self, u: float, v: float) -> Vec2:
        """A point of the drawing on paper."""
        return to_paper((u, v), self.scale)

    def face_words(self) -> str:
        """The width as it stands over the face: along it, or across the walls where that is the same."""
        figures = self.cut.figures
        if self.walls_lean or figures.on_face is None:
            return f"{width(figures.on_face or figures.across or 0.0)} on the face"
        return f"{width(figures.across or 0.0)} across the walls"

    def floor(self) -> Vec2:
        """Where the middle of the floor lies: on the other board's centre-line where the walls lean with it."""
        v = self.face - self.stance.sigma * (self.cut.figures.deep or 0.0)
        left, right = self.walls_at(v + self.stance.sigma * 1e-3)
        ax, ay = self.stance.along
        return (ax / ay * v if self.walls_lean else (left + right) / 2, v)
