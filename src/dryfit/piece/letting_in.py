"""An end let into a face: sums in the elevation plane and out of the wall, with no rule of any kind of joint.

A kind says how deep, how wide and in which form; here is what that takes from either board. All shapes of the
board that receives are worked out in its own plane, those of the one that ends are carried over to its.
"""

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal, TypeAlias

from ..geometry.frames import Frame, Vec, Vec2, length
from ..geometry.shapes import OVER, HalfSpace, Prism, half_space, prism
from .facts import Opens, Stop
from .model import FAR_END, Motion, Side
from .plane import Lines, lean
from .setout import AsCut
from .sums import Sum, Term, Word

FLUSH = 1.0  # set back by no more, what is let in still runs out at the edge
SQUARE = 1e-9
EVEN = 0.5  # sizes that the tool chooses are whole steps of this

StopAt: TypeAlias = Literal["through", "front", "wall", "both", "one end"]

SQUARE_FLOOR = "floor square to walls"  # a tilted router; the end is left square
FACE_FLOOR = "floor parallel to face"  # walls sawn, the floor levelled; the end is bevelled
SHOULDERED = "shouldered"  # walls square to the face, for a tongue on the bevelled end


@dataclass(frozen=True, slots=True)
class RunOut:
    """How what is let in runs out of the wall, in the world.

    Attributes:
        low, high: of the housing itself.
        tongue_low, tongue_high: of what enters.
        stop_low, stop_high: whether it is stopped there by a shoulder.
        closed_low, closed_high: whether there is wood of the receiving board beyond.
    """

    low: float
    high: float
    tongue_low: float
    tongue_high: float
    stop_low: bool
    stop_high: bool
    closed_low: bool
    closed_high: bool

    @classmethod
    def of(cls, enters: Side, receives: Side, stops: tuple[bool, bool], distance: float, play: float) -> "RunOut":
        """From edge to edge of both, stopped at the wall or the front edge by `distance`; closed where set back.

        Args:
            enters, receives: the board that ends, and the one it is let into.
            stops: whether it stops short of the wall edge, and of the front edge.
            distance: from that edge of what both boards have to where it is stopped.
            play: at each closed end, between it and what enters.
        """
        stop_low, stop_high = stops
        low, high = max(enters.back, receives.back), min(enters.front, receives.front)
        tongue_low, tongue_high = low, high
        closed_low = stop_low or enters.back > receives.back + FLUSH
        closed_high = stop_high or enters.front < receives.front - FLUSH
        if stop_low:
            low, tongue_low = low + distance, low + distance + play
        elif closed_low:
            low -= play
        if stop_high:
            high, tongue_high = high - distance, high - distance - play
        elif closed_high:
            high += play
        return cls(low, high, tongue_low, tongue_high, stop_low, stop_high, closed_low, closed_high)

    @classmethod
    def asked(cls, enters: Side, receives: Side, stop: StopAt, distance: float, play: float) -> "RunOut":
        """The same by the option's word; one end is the front until a making settles it."""
        stops = stop in ("wall", "both"), stop in ("front", "both", "one end")
        return cls.of(enters, receives, stops, distance, play)

    @property
    def shouldered(self) -> bool:
        """Whether a shoulder bears beyond a stopped end."""
        return self.stop_low or self.stop_high

    @property
    def length(self) -> float:
        """Of what enters."""
        return self.tongue_high - self.tongue_low

    def sideways(self, enters: Side, receives: Side) -> tuple[Motion, ...]:
        """The ways out along z: towards each edge where no wood of the receiving board stands in the way."""
        ways = []
        if not self.closed_high:
            ways.append(((0.0, 0.0, 1.0), receives.front - self.tongue_low))
        if not self.closed_low:
            ways.append(((0.0, 0.0, -1.0), self.tongue_high - receives.back))
        return tuple(Motion(body=enters.body, direction=way, free=length(free)) for way, free in ways)

    def stops(self, enters: Side, receives: Side, distance: float, play: float) -> tuple[Stop, ...]:
        """From either edge of the board that receives: what the other stands back, then the stop, or its play."""
        found = []
        for edge, closed, stopped, back in (
            (Opens.FRONT, self.closed_high, self.stop_high, receives.front - enters.front),
            (Opens.WALL, self.closed_low, self.stop_low, enters.back - receives.back),
        ):
            behind = (Term(Word.SET_BACK, back),) if back > SQUARE else ()
            own = (Term(Word.STOP, distance),) if stopped else (Term(Word.CLEARANCE, -play),) if play else ()
            if closed:
                found.append(Stop(edge=edge, size=Sum(receives.body, (*behind, *own)), covered=stopped))
        return tuple(found)

    def cut_back(self, enters: Side, receives: Side, distance: float, play: float) -> tuple[Stop, ...]:
        """From either edge of the board that enters, what is cut back: proud of the other, then stop and play."""
        found = []
        for edge, stopped, proud, taken in (
            (Opens.FRONT, self.stop_high, enters.front - receives.front, enters.front - self.tongue_high),
            (Opens.WALL, self.stop_low, receives.back - enters.back, self.tongue_low - enters.back),
        ):
            past = (Term(Word.PROUD, proud),) if proud > SQUARE else ()
            loose = (Term(Word.CLEARANCE, play),) if play else ()
            stop = (Term(Word.STOP, distance), *loose) if stopped else ()
            if taken > SQUARE:
                found.append(Stop(edge=edge, size=Sum(enters.body, (*past, *stop)), covered=stopped))
        return tuple(found)


def usual_depth(receives: Side, asked: float | None) -> float:
    """As asked; else a third of the thickness, a quarter where two face each other, in whole steps."""
    if asked is not None:
        return asked
    share = 4.0 if receives.opposed else 3.0
    return max(EVEN, math.floor(receives.thickness / share / EVEN + SQUARE) * EVEN)


def depth_as_cut(enters: Side, receives: Side, cut: Iterable[AsCut], gap: float) -> float | None:
    """How deep it is let in by what is cut: as it is let in, else as the end reaches and its gap; None for neither."""
    cut = tuple(cut)
    let_in = next((one.deep for one in cut if one.board == receives.body and one.opens != "end"), None)
    reaches = next((one.deep for one in cut if one.board == enters.body and one.opens == "end"), None)
    if let_in is None and reaches is None:
        return None
    return let_in if let_in is not None else (reaches or 0.0) + gap


@dataclass(frozen=True, slots=True)
class LetIn:
    """What is let in, set out in the plane of the board that receives it.

        face_c: height in the receiving board of the plane that shoulders are cut to: its face, or the film on it.
    stands beside it; whether the raked board has wood everywhere in that tongue is for the kind to see. With the other
    forms what goes in is the board in its whole thickness, along its own line. Beyond `RunOut.tongue_low` and
    `tongue_high` the end is cut back in every form.

    Attributes:
        form: "" where the boards are square to each other and nothing stands beside what goes in.
        depth: on the centre-line, square to the face.
        width: between the walls.
        enters: thickness of what goes in; of a tongue along the face.
        floor: where the centre-line of what goes in meets the floor.
        gap: between floor and end; along the board that ends where its end is left square, else square to the face.
        face_c: height in the receiving board of the plane that shoulders are cut to: its face, or the film on that.
    """

    lines: Lines
    form: str
    depth: float
    width: float
    enters: float
    floor: Vec2
    gap: float
    face_c: float

    @property
    def face(self) -> int:
        """Which face it is let into."""
        return self.lines.b.face

    @property
    def bears(self) -> bool:
        """Whether a shoulder bears and the end does not reach the floor."""
        return self.gap > 0.0

    @property
    def square_end(self) -> bool:
        """Whether the end is square to its own board."""
        return self.form in ("", SQUARE_FLOOR)

    @property
    def steepness(self) -> float:
        """Sine of the angle between walls and face."""
        return 1.0 if self.form == SHOULDERED else self.lines.sine

    @property
    def fall(self) -> float:
        """From the middle of a floor square to the walls to its corners, square to the face."""
        return self.width / 2 * abs(self.lines.along[0]) if self.form == SQUARE_FLOOR else 0.0

    @property
    def way_out(self) -> float:
        """How far the end travels along its walls until its deepest corner is at the face."""
        if self.square_end:
            corner = self.lines.a.thickness / 2 * abs(self.lines.along[0])  # below the middle of an end left square
            return (self.depth + corner) / self.lines.sine - self.gap
        return (self.depth - self.gap) / self.steepness

    @property
    def end_lean(self) -> float:
        """Degrees off square of the end's own plane."""
        return 0.0 if self.square_end else abs(lean(self.lines))

    def outward(self, frame: Frame) -> Vec:
        """World direction in which the end is drawn out: along its walls; `frame` is the meeting's."""
        x, y = (0.0, -float(self.face)) if self.form == SHOULDERED else self.lines.along
        along, across = frame.x, frame.y
        return (-(x * along[0] + y * across[0]) + 0.0, -(x * along[1] + y * across[1]) + 0.0, 0.0)

    def housing(self, run: RunOut) -> Prism:
        """What is taken from the board that receives."""
        b = self.lines.b
        low = run.low - b.back if run.closed_low else -OVER
        high = run.high - b.back if run.closed_high else b.front - b.back + OVER
        return prism(self._section(), low, high)

    def _section(self) -> tuple[Vec2, ...]:
        """The housing's outline, run out past the face."""
        lines, half = self.lines, self.width / 2
        out = self.face * (lines.b.thickest / 2 + OVER)
        if self.form == SHOULDERED:
            middle, floor = self.floor
            return (middle - half, floor), (middle + half, floor), (middle + half, out), (middle - half, out)
        if self.form == SQUARE_FLOOR:
            (x, y), (ux, uy) = self.floor, lines.along
            left, right = (x - uy * half, y + ux * half), (x + uy * half, y - ux * half)
            return left, right, lines.on_line(out, half), lines.on_line(out, -half)
        floor = self.floor[1]
        return (
            lines.on_line(floor, -half),
            lines.on_line(floor, half),
            lines.on_line(out, half),
            lines.on_line(out, -half),
        )

    def end(self, run: RunOut) -> tuple[HalfSpace | Prism, ...]:
        """What is taken from the board that ends: beyond its end, and down to the face beside what goes in."""
        a = self.lines.a
        whole = a.front - a.back
        low, high = run.tongue_low - a.back, run.tongue_high - a.back
        reach = a.thickest / self.lines.sine + self.depth * abs(self.lines.cotangent) + 2 * OVER
        middle = self.lines.on_line(self.face_c)[0]
        shapes: list[HalfSpace | Prism] = [self._end_plane()]
        if low > SQUARE:
            shapes.append(self._beyond_face(middle - reach, middle + reach, -OVER, low))
        if high < whole - SQUARE:
            shapes.append(self._beyond_face(middle - reach, middle + reach, high, whole + OVER))
        if self.form == SHOULDERED:
            left, right = self.floor[0] - self.enters / 2, self.floor[0] + self.enters / 2
            shapes.append(self._beyond_face(middle - reach, left, -OVER, whole + OVER))
            shapes.append(self._beyond_face(right, middle + reach, -OVER, whole + OVER))
        return tuple(shapes)

    def _end_plane(self) -> HalfSpace:
        """Square to the board, else parallel to the face; the gap off the floor."""
        lines = self.lines
        if self.square_end:
            x, y = lines.along
            point = (self.floor[0] - x * self.gap, self.floor[1] - y * self.gap)
            return half_space(lines.carry(point), (1.0 if lines.a.end == FAR_END else -1.0, 0.0))
        point = (self.floor[0], self.floor[1] + self.face * self.gap)
        return half_space(lines.carry(point), lines.carry_direction((0.0, -float(self.face))))

    def _beyond_face(self, low_a: float, high_a: float, low_d: float, high_d: float) -> Prism:
        """Everything of the entering board beyond the face, between two places along it and two depths."""
        deep = self.face_c - self.face * (self.depth + self.lines.a.thickest + OVER)
        corners = ((low_a, self.face_c), (high_a, self.face_c), (high_a, deep), (low_a, deep))
        return prism(tuple(self.lines.carry(corner) for corner in corners), low_d, high_d)
