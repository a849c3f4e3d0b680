"""The section seen from the front of a joint in which one board enters the other: slots and housings.

The level board is shown with a stretch on either side of the opening; the other one runs through it or ends in it. The
cut is drawn wider than it is, by as much as its clearance needs to be seen. Figures stand where they are worked: on the
face, across the walls, the shift of the marks from face to face, the depth, both thicknesses, and the angle three ways:
between the boards, on the saw, as rise.
"""

from abc import abstractmethod
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property, partial

from shapely import LineString
from shapely.geometry.base import BaseGeometry

from .....geometry.frames import NEAR, Vec2
from .....geometry.shapes import HalfSpace, Prism
from .....piece.model import Cut, Part
from ....display import Item
from ....kit.axis import Axis
from ....kit.dimension import UnplacedDimension, plain
from ....kit.label import Label
from ....kit.view import View
from ....kit.wood import LEANS, DrawnAngle, WoodStretch, cut_wood, hatch_step, shown
from ....looks import Desk
from ....naming import angle, depth, position, rest_to_square, rise, thickness, width
from ....standard import FIRST, ROW
from ....through import Plane, Wider, cut_in, wood_in
from ..figures.housing import floor_corners
from ..letters import letter
from ..stance import SQUARE, ScaledView, Stance, at_scale, drawn_gap, exaggerated, largest, turned_words

ASIDE = 1e-3  # mm: to the one side of a wall or the other


def front_view(desk: Desk, stance: Stance, smaller: int = 0) -> View:
    """The section through what enters, at the largest scale that leaves room for the other views.

    Args:
        smaller: how many of the larger scales are left out.
    """
    return largest(desk, ("front", stance.called), partial(_Front, desk, stance), smaller)


@dataclass
class FrontSection(ScaledView):
    """A section seen from the front; `scale` is paper / wood."""

    stance: Stance
    scale: float

    def view(self) -> View:
        """It, with all that is said of it."""
        up = self.desk.looks[self.stance.main.id].names.words[self.stance.up_face]
        seen = "section from the front" if up == "upper face" else f"section from the front, {up} up"
        return View(
            title=at_scale(seen, self.scale),
            scaled=False,
            says=tuple(self._says()),
            wood=self.wood,
            across=Axis.whole(0.0, 1.0, self.scale),
            up=Axis.whole(0.0, 1.0, self.scale, sign=-1.0),
            dimensions=tuple(self._dimensions()),
            labels=tuple(self._labels()),
        )

    @abstractmethod
    def _says(self) -> Iterator[str]:
        """What is drawn otherwise than it is."""

    @abstractmethod
    def _dimensions(self) -> Iterator[UnplacedDimension]:
        """Its sizes."""

    @abstractmethod
    def _labels(self) -> Iterator[Label]:
        """What is written on it."""


class _Front(FrontSection):
    """That of a joint in which a board enters another."""

    def _says(self) -> Iterator[str]:
        """What is drawn otherwise than it is."""
        yield from turned_words(self.desk, self.stance)
        gap = self.stance.gap
        for what, size in (("play", gap), ("gap under the end", self.stance.bottom)):
            if said := exaggerated(what, size, self.scale):
                yield said
        if gap == 0.0:
            yield "no play: drawn apart only for clarity"

    # --- how it lies -----------------------------------------------------------------------------

    @property
    def cut(self) -> Cut:
        """What is let into the level board."""
        assert self.stance.cut is not None, "something is let in"
        return self.stance.cut

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
    def face(self) -> float:
        """The v of the face it enters."""
        return self.stance.sigma * self.stance.half

    @cached_property
    def plane(self) -> Plane:
        """The plane of the section, in the middle of what is cut out and filled."""
        side = self.stance.main_side
        low, high = self.stance.joint.meeting.overlap
        shape = next(shape for shape in self.cut.shapes if isinstance(shape, Prism))
        z = (max(shape.low + side.back, low) + min(shape.high + side.back, high)) / 2
        return self.stance.plane(z, 2 * (self.stance.wide + 2 * self.stance.half + self.beside))

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
        x, y = self.stance.along if self.walls_lean else (0.0, self.stance.sigma)
        shallow, deepest = floor_corners(self.stance, self.cut) if self.cut.face else (0.0, 0.0)
        if deepest - shallow < NEAR:
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
        """How far the level board is shown to the left and to the right."""
        faces = (self.face,) if self.cut.face else (self.stance.half, -self.stance.half)
        lefts, rights = zip(*(self.walls_at(v) for v in faces), strict=True)
        return min(lefts) - self.beside, max(rights) + self.beside

    @property
    def beside(self) -> float:
        """How much of either board is shown beside the other: more where their angle is told there."""
        return (3 if self.raked else 2) * ROW / self.scale

    @cached_property
    def runs(self) -> Vec2:
        """From and to along the other board that is shown, from where the lines meet."""
        x, y = (abs(one) for one in self.stance.along)
        past = self.stance.half / y + self.stance.wide / 2 * x / y
        far = past + self.beside
        return (-far if not self.cut.face else -2 * past), far

    def _drawn(self) -> Iterator[Item]:
        """Both boards, and the arc of their angle."""
        step = hatch_step(2 * self.stance.half, self.scale)
        for (part, wood, stretch), lean in zip(self.boards, LEANS, strict=True):
            yield from cut_wood(wood, [stretch], self.scale, part.id, lean=lean, step=step)
        if self.raked:
            (ax, ay), (x, _) = self.stance.along, self.angle.corner
            along = self.face / ay + self.side * self.stance.wide / 2 * ax / ay  # of the corner, along the other board
            reach = (self.side * (self.sides[self.side > 0] - x), self.runs[1] - along)
            yield from self.angle.arc(self.scale, [(one, 1.0) for one in reach])

    @cached_property
    def boards(self) -> list[tuple[Part, BaseGeometry, WoodStretch]]:
        """Each with its section and how much of it is shown."""
        stretches = (WoodStretch((1.0, 0.0), *self.sides), WoodStretch(self.stance.along, *self.runs))
        return [
            (part, wood_in(part, self.plane, cuts=self._cuts(part), wider=self.wider), stretch)
            for part, stretch in zip((self.stance.main, self.stance.other), stretches, strict=True)
        ]

    def _cuts(self, part: Part) -> list[Cut]:
        """This joint's, the ends, and what is let into the other face at the same place."""
        key, opposed = self.stance.joint.key, self.cut.face and self.stance.main_side.opposed
        return [cut for cut in part.cuts if cut.joint == key or cut.end or (opposed and cut.face == -self.cut.face)]

    @cached_property
    def angle(self) -> DrawnAngle:
        """The acute one between the face and the board that leaves it."""
        ax, ay = self.stance.along
        corner = (ax / ay * self.face + self.side * self.stance.wide / 2 / abs(ay), self.face)
        return DrawnAngle(corner, ((self.side, 0.0), self.stance.along))

    # --- figures and words -------------------------------------------------------------------------

    def _dimensions(self) -> Iterator[UnplacedDimension]:
        figures, out = self.cut.figures, int(self.stance.sigma)
        yield self._between(self.face, self._face_words(), out)
        if self.cut.face and self.stance.floored:
            edge = (self.sides[self.side < 0], self.face)
            yield plain(edge, self._floor(), f"{depth(figures.deep or 0.0)} deep", 0, way=(0.0, 1.0))
        elif self.walls_lean:
            yield self._shift()
        if self.walls_lean:
            yield self._across(width(figures.across or 0.0))
        left, half = self.sides[0], self.stance.half
        yield plain((left, -half), (left, half), thickness(2 * half), 0, way=(0.0, 1.0), weight="regular")
        yield self._thickness()

    def _face_words(self) -> str:
        """The width as it stands over the face: along it, where that is not square across."""
        figures = self.cut.figures
        if self.walls_lean or figures.on_face is None:
            return f"{width(figures.on_face or figures.across or 0.0)} on the face"
        return width(figures.across or 0.0)

    def _between(self, v: float, figure: str, side: int) -> UnplacedDimension:
        """Between the walls along a face."""
        left, right = self.walls_at(v)
        return plain((left, v), (right, v), figure, side, way=(1.0, 0.0))

    def _across(self, figure: str) -> UnplacedDimension:
        """Square to the walls, beyond the face at which the figure on the face is not."""
        v = self.face if self.cut.face else -self.stance.half
        (left, right), (ax, ay) = self.walls_at(v), self.stance.along
        outward = (1 if self.cut.face else -1) * (1 if ay > 0 else -1)
        way = (abs(ay), -ax if ay > 0 else ax)
        return plain((left, v), (right, v), figure, outward, way=way, more="across the walls")

    def _shift(self) -> UnplacedDimension:
        """How far the marks on the two faces lie apart, under the lower face."""
        half, right = self.stance.half, self.side > 0
        upper, lower = self.walls_at(half)[right], self.walls_at(-half)[right]
        figure = f"shift {position(abs(upper - lower))}"
        return plain((upper, half), (lower, -half), figure, -1, way=(1.0, 0.0))

    def _floor(self) -> Vec2:
        """Where the middle of the floor lies: on the other board's centre-line where the walls lean with it."""
        v = self.face - self.stance.sigma * (self.cut.figures.deep or 0.0)
        left, right = self.walls_at(v + self.stance.sigma * ASIDE)
        ax, ay = self.stance.along
        return (ax / ay * v if self.walls_lean else (left + right) / 2, v)

    def _thickness(self) -> UnplacedDimension:
        """Of the other board, square to its faces, beyond where it is broken off."""
        ax, ay = self.stance.along
        s, half = self.runs[1], self.stance.wide / 2
        start, end = ((ax * s + x * half, ay * s + y * half) for x, y in ((-ay, ax), (ay, -ax)))
        return plain(start, end, thickness(self.stance.wide), 1, way=(ay, -ax), weight="regular")

    def _labels(self) -> Iterator[Label]:
        marks, (ax, ay) = self.desk.marks, self.stance.along
        (main, wood, stretch), (other, entering, run) = self.boards
        x = (self.walls_at(0.0)[self.side < 0] + self.sides[self.side < 0]) / 2
        sides = [(x, 0.0), (-x, 0.0)] if not self.stance.runs_out else []
        yield letter(marks[main.id], main.id, shown(wood, [stretch]), sides, self.scale)
        beyond = self.stance.half / abs(ay) + FIRST / self.scale
        places = [beyond] if self.cut.face else [0.0, beyond, -beyond]
        yield letter(marks[other.id], other.id, shown(entering, [run]), [(ax * s, ay * s) for s in places], self.scale)
        if self.raked:
            lean = abs(self.stance.leans)
            yield self.angle.label(rest_to_square(lean), (f"{angle(lean)} on the saw", rise(lean)), self.scale)
