"""How a joint lies on paper: one board level with its upper face up, both seen from the front.

The board that is drawn level is the one whose slot, housing or face is shown; the other one enters it. The drawing is
turned by less than a right angle, so that what is upper on the wall is upper on paper; of a plumb board the left
face is up. Coordinates in a drawing: u to the right, v up, the origin where the two centre-lines meet.
"""

import math
from abc import ABC, abstractmethod
from collections.abc import Callable, Hashable, Iterator, Sequence
from copy import copy
from dataclasses import dataclass
from functools import cached_property
from typing import Self

from ....geometry.frames import COSINE_DIGITS, NEAR, Vec, Vec2, length
from ....geometry.sections import PARALLEL
from ....geometry.shapes import HalfSpace, Prism
from ....geometry.views import FACES, Surface
from ....piece.facts import Opens
from ....piece.model import FAR_END, WALL, Cut, Joint, Part, Side
from ....piece.operations import LEAST_LEAN
from ...display import Item, extent
from ...kit.view import View
from ...looks import Desk
from ...naming import scale_words
from ...standard import DETAILS, HEAVY, ROW
from ...through import Plane
from ..page.frame import BLOCK_WIDE

GAP_SEEN = 1.2  # white between two outlines, on paper
OUTLINE = HEAVY  # width of an outline of cut wood
SQUARE = LEAST_LEAN  # degrees off square that print as square
PLUMB = math.sin(math.radians(SQUARE))
MOST = 2 * BLOCK_WIDE / 3  # of a view's wood on paper: two thirds of a sheet
NARROW = 15 * ROW  # of that of the narrower views
BROKEN_TO = 3 * ROW  # on paper, of a broken depth beside an edge or a stop


@dataclass(frozen=True)
class Stance:
    """One board of a joint level on paper, the other as it enters it.

    Attributes:
        main, other: the board that lies level, and the one that enters or meets it.
        cut: the cut in `main` that takes `other`, None where nothing is let in.
    """

    joint: Joint
    main: Part
    other: Part
    cut: Cut | None

    @property
    def called(self) -> tuple[object, ...]:
        """It by the names of what is in it: quicker to look up than itself."""
        return self.joint.key, self.main.id, self.other.id, self.cut.key if self.cut is not None else ""

    @property
    def main_side(self) -> Side:
        """The level board's share in the meeting."""
        return self.joint.meeting.side(self.main.id)

    @property
    def other_side(self) -> Side:
        """The other's."""
        return self.joint.meeting.side(self.other.id)

    @cached_property
    def u(self) -> Vec2:
        """To the right on paper, in the world's x and y."""
        x, y, _ = self.main.board.frame.x
        forward = y > 0 if abs(x) < PLUMB else x > 0
        return (x, y) if forward else (-x, -y)

    @cached_property
    def v(self) -> Vec2:
        """Up on paper, in the world's x and y."""
        return (-self.u[1], self.u[0])

    @property
    def is_level(self) -> bool:
        """Whether the board that is drawn level lies so on the wall too, but for a lean: it is not turned on paper."""
        return abs(self.u[1]) < PLUMB

    @property
    def runs_right(self) -> bool:
        """Whether the level board's datum end lies to the left on paper."""
        x, y, _ = self.main.board.frame.x
        return x * self.u[0] + y * self.u[1] > 0

    @property
    def runs_out(self) -> int:
        """On which side on paper what is let in runs out at the end, as a rebate does: 1 right, -1 left, 0 neither."""
        if self.cut is None or self.cut.figures.opens is not Opens.END:
            return 0
        return 1 if (self.main_side.end == FAR_END) is self.runs_right else -1

    @property
    def up_face(self) -> Surface:
        """The surface of the level board that lies up."""
        x, y, _ = self.main.board.frame.y
        plus = x * self.v[0] + y * self.v[1] > 0
        return FACES[0] if (FACES[0] is Surface.PLUS) is plus else FACES[1]

    @cached_property
    def along(self) -> Vec2:
        """Unit vector along the other board: upwards where it runs through, else out of the level one."""
        x, y, _ = self.other.board.frame.x
        way = (x * self.u[0] + y * self.u[1], x * self.v[0] + y * self.v[1])
        end = self.other_side.end
        sign = -1.0 if (end == FAR_END if end else way[1] < 0) else 1.0
        return (way[0] * sign + 0.0, way[1] * sign + 0.0)

    @property
    def sigma(self) -> float:
        """1 where the other board stands on the upper face or runs through, -1 where it hangs from the lower."""
        return -1.0 if self.along[1] < -PARALLEL else 1.0

    @property
    def leans(self) -> float:
        """Degrees by which the other leans off square as it goes up from its face; to the right positive."""
        x, y = self.along
        return math.degrees(math.atan2(x, abs(y)))

    @property
    def hand(self) -> int:
        """1 and -1 for the two hands of a leaning joint, 0 where it is square: turned over, both change."""
        if abs(self.leans) < SQUARE:
            return 0
        return 1 if self.leans * self.sigma > 0 else -1

    @property
    def half(self) -> float:
        """Half the level board's thickness."""
        return self.main_side.thickness / 2

    @property
    def wide(self) -> float:
        """Of the other board in the elevation: its thickness, or the width of one that lies flat."""
        return self.joint.meeting.wide or self.other_side.thickness

    def plane(self, z: float, reach: float) -> Plane:
        """The plane parallel to the wall at a height out of it."""
        x, y, _ = self.joint.meeting.frame.origin
        return Plane((x, y, z), (*self.u, 0.0), (*self.v, 0.0), (reach, reach))

    def place(self, part: Part, p: Vec2) -> Vec2:
        """A point (a, c) of a board lying across, in the drawing's coordinates."""
        return self.find(part.board.frame.place((p[0], p[1], 0.0)))

    def find(self, p: Vec) -> Vec2:
        """A point of the world in the drawing's coordinates."""
        x, y, _ = self.joint.meeting.frame.origin
        dx, dy = p[0] - x, p[1] - y
        return (dx * self.u[0] + dy * self.u[1], dx * self.v[0] + dy * self.v[1])

    def direct(self, v: Vec) -> Vec2:
        """A direction of the world in the drawing."""
        return (v[0] * self.u[0] + v[1] * self.u[1], v[0] * self.v[0] + v[1] * self.v[1])

    @property
    def gap(self) -> float | None:
        """Between a wall and what enters, on each side; None where no two parallel walls face it."""
        walls = [gap.size for gap in self.joint.gaps if gap.between == "wall"]
        if not walls or self.cut is None:
            return None
        if len(walls) > 1 and self.joint.meeting.b.body == self.main.id:
            return walls[1]
        return walls[0]

    @property
    def bottom(self) -> float | None:
        """Between the floor and the end, None where there is no floor."""
        return next((gap.size for gap in self.joint.gaps if gap.between == "bottom"), None)

    @property
    def floored(self) -> bool:
        """Whether what is let into one face leaves wood under its floor; what does not is a stop."""
        return self.cut is not None and (self.cut.figures.deep or 0.0) < 2 * self.half

    @property
    def seat(self) -> float | None:
        """Between two seats, None where there are none."""
        return next((gap.size for gap in self.joint.gaps if gap.between == "seat"), None)


def stances(desk: Desk, joint: Joint) -> tuple[Stance, ...]:
    """How a joint is shown: once for each board that another one enters, the more level board first."""
    parts = desk.book.piece.part_by_name
    meeting = joint.meeting
    if WALL in (meeting.a.body, meeting.b.body):
        return ()
    takes = [cut for cut in joint.cuts if _is_let_in(cut) and cut.takes in (meeting.a.body, meeting.b.body)]
    if takes:
        made = [Stance(joint, parts[cut.body], parts[cut.takes], cut) for cut in takes]
        return tuple(sorted(made, key=_levelness))
    both = [
        Stance(joint, parts[main.body], parts[other.body], None)
        for main, other in ((meeting.a, meeting.b), (meeting.b, meeting.a))
    ]
    faced = [stance for stance in both if meeting.side(stance.main.id).face or _ends_on(stance)]
    return tuple((faced or sorted(both, key=_levelness))[:1])


def facing(shown: Sequence[Stance]) -> tuple[float, ...]:
    """Which way a joint lies on the wall: of two that are alike and of one hand the same where neither is turned."""
    if not shown:
        return ()
    first = shown[0]
    end = first.main_side.end
    ends_right = 0.0 if not end else 1.0 if (end == FAR_END) is first.runs_right else -1.0
    return tuple(round(one, 2) + 0.0 for one in (*first.u, *first.along, ends_right))


def _is_let_in(cut: Cut) -> bool:
    return not cut.end and any(isinstance(shape, Prism) for shape in cut.shapes)


def _levelness(stance: Stance) -> tuple[float, str]:
    return round(abs(stance.main.board.frame.x[1]), COSINE_DIGITS), stance.main.id


def _ends_on(stance: Stance) -> bool:
    """Whether the other board's end lies flat on a face of the main one."""
    for cut in stance.joint.cuts:
        if cut.body != stance.other.id or not cut.end:
            continue
        for shape in cut.shapes:
            if isinstance(shape, HalfSpace):
                world = stance.other.board.frame.direct(shape.normal)
                face = stance.main.board.frame.find_direction(world)
                if abs(abs(face[1]) - 1.0) > PARALLEL:
                    return False
                point = stance.main.board.frame.find(stance.other.board.frame.place(shape.point))
                return point[1] * face[1] < 0.0  # on the side that the other board lies on
    return False


def factor(gap: float, scale: float) -> int:
    """How many times too wide a gap is drawn so that it can be seen; 1 where it can."""
    if gap <= 0.0:
        return 1
    least = max((GAP_SEEN + OUTLINE) / (gap * scale), 1.0)
    return math.ceil(least - NEAR)


def drawn_gap(gap: float, scale: float) -> float:
    """A gap as it is drawn, in mm of wood; one of nothing is drawn apart too."""
    return gap * factor(gap, scale) if gap > 0.0 else (GAP_SEEN + OUTLINE) / scale


@dataclass
class ScaledView(ABC):
    """One view of a joint at a scale; a subclass has what it is of. What it is said to show is no part of its wood."""

    desk: Desk

    @cached_property
    def wood(self) -> tuple[Item, ...]:
        """What is drawn, on paper."""
        return tuple(self._drawn())

    @cached_property
    def size(self) -> Vec2:
        """How wide and how high that is."""
        left, top, right, bottom = extent(self.wood)
        return right - left, bottom - top

    def on(self, desk: Desk) -> Self:
        """The same where its boards are called otherwise."""
        other = copy(self)
        other.desk = desk
        return other

    @abstractmethod
    def view(self) -> View:
        """It, with all that is said of it."""

    @abstractmethod
    def _drawn(self) -> Iterator[Item]:
        """The wood, and what lies in it."""


def largest(desk: Desk, of: Hashable, make: Callable[[float], ScaledView], smaller: int, most: float = MOST) -> View:
    """A view at the largest scale at which its wood keeps to its share of the sheet; `smaller` leaves out so many.

    Its wood is drawn once for all that is tried: as one of several, without names, a scale smaller.

    Args:
        of: what it shows, by name: for a joint its key and its boards.
    """
    kept: dict[tuple[Hashable, float], ScaledView] = desk.kept.setdefault("wood of joints", {})
    for scale in DETAILS[smaller:]:
        if (of, scale) not in kept:
            kept[of, scale] = make(scale)
        wide, high = kept[of, scale].size
        if wide <= most and high <= MOST:
            break
    return kept[of, scale].on(desk).view()


def at_scale(words: str, scale: float) -> str:
    """A view's title with its scale."""
    return f"{words}, {'full size' if scale == 1.0 else scale_words(scale)}"


def exaggerated(what: str, gap: float | None, scale: float) -> str:
    """That a gap is drawn wider than it is, so that it can be seen; "" where it is not."""
    times = factor(gap, scale) if gap else 1
    return f"{what} exaggerated {times} times" if times > 1 else ""


def stops_of(cut: Cut) -> dict[Opens, float]:
    """How far a housing stops from each edge, as wherever that is told: not out of its shape, with a float's dust."""
    return {stop.edge: length(stop.size.total) for stop in cut.figures.stops}


def entering(stance: Stance) -> float:
    """What goes between the walls: a board's thickness, the width of a flat one, the tongue on an end."""
    if stance.joint.meeting.wide:
        return stance.joint.meeting.wide
    ends = [cut.figures.across for cut in stance.joint.cuts if cut.body == stance.other.id and cut.end]
    return ends[0] if ends and ends[0] is not None else stance.other_side.thickness


def turned_words(desk: Desk, stance: Stance) -> list[str]:
    """That a board which does not lie level is drawn so, and where its datum end then lies."""
    if stance.is_level:
        return []
    names = desk.looks[stance.main.id].names
    side = "left" if stance.runs_right else "right"
    return [f"{desk.marks[stance.main.id]} drawn level, its {names.words[Surface.DATUM]} to the {side}"]
