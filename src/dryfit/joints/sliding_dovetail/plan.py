"""A sliding dovetail set out: its options, and where socket, tail and housing lie in the plane of the face."""

import math
from collections.abc import Callable
from dataclasses import dataclass, replace
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from ...geometry.frames import Vec2
from ...geometry.shapes import OVER, HalfSpace, Prism, prism
from ...job.options import CLEARANCE, NOT_BELOW_0, WORKED, Options, Quantity
from ...piece.letting_in import FACE_FLOOR, SQUARE, LetIn, RunOut, StopAt, usual_depth
from ...piece.model import Making, Meeting, films
from ...piece.plane import Lines
from ...piece.sums import Sum, Term, Word
from ...sentences import Name, say
from ..common import as_made, default_clearance, stopped

TIP_GAP = 0.2  # under the tail, so that the shoulders close (common practice)
TAPER = 1.5  # of a socket, over its length (from memory: 1 to 2)


class SlidingDovetailOptions(Options):
    """Options of a sliding dovetail."""

    clearance: Annotated[Quantity, CLEARANCE] | None = Field(
        default=None,
        description="By how much the tail is narrower than its socket, total of both sides; left out: 0.10 glued, 0.15 "
        "dry.",
    )
    depth: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="Of the socket, square to the face; left out: a third of the thickness, a quarter where two meet, "
        "rounded down to a whole 0.5.",
    )
    cutter: Annotated[Quantity, WORKED] = Field(
        default=12.7, description="Diameter of the dovetail cutter at its widest."
    )
    slope: float = Field(
        default=14.0, ge=3, le=30, description="Of the cutter's flanks off its axis, in degrees: 7, 9 and 14 are usual."
    )
    cutter_height: Annotated[Quantity, WORKED] | None = Field(
        default=None, description="Of the cutter's flanks, the deepest that it cuts; left out: as deep as the socket."
    )
    stop: StopAt = Field(
        default="through",
        description="At which edge the socket stops short; one end: at the front, unless it must be the wall; both: "
        "refused, it could not slide in.",
    )
    stop_distance: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=12.0, description="From the edge of the board that enters to the stopped end of its socket."
    )
    form: Literal["full", "part length", "tapered", "single-sided"] = Field(
        default="full",
        description="Straight all along, with two slopes; or the tail at one edge only and housed beside it; or wider "
        "where it goes in; or with one wall square to the face.",
    )
    tail: Annotated[Quantity, WORKED] = Field(
        default=80.0, description="Of part length: how long the socket is, from the edge or from its stop."
    )
    tail_at: Literal["front", "wall"] = Field(
        default="front", description="Of part length: at which edge the tail stands; it goes in from the other."
    )
    taper: Annotated[Quantity, WORKED] = Field(
        default=TAPER,
        description="Tapered: by how much the socket is wider where the tail goes in, both walls together.",
    )
    enters: Literal["front", "wall", "either"] = Field(
        default="either", description="Tapered: from which edge it goes in; either: from one that is open."
    )
    square_wall: Literal["upper or left", "lower or right"] = Field(
        default="upper or left", description="Single-sided: which wall is square; left or right of a level board."
    )
    glued: bool = Field(default=True, description="Whether the last 50 of the tail is glued.")

    def play(self) -> float:
        """By how much the tail is narrower."""
        return default_clearance(self.clearance, glued=self.glued)


WAYS = (-1.0, 1.0)  # along the board that receives, from the middle of the socket to either wall


@dataclass(frozen=True, slots=True)
class DovetailPlan:
    """A dovetail set out in the plane of the board that receives it.

    Attributes:
        slope: of the flanks off the normal of the face, degrees.
        films: on and between two walls and what stands between them, square to these.
        middle: along the receiving board, of socket and tail: where the other's centre-line meets the face.
        face_c: height of the face.
        square: on which side of the middle the wall is square to the face, one of `WAYS`; 0 for neither.
        taper: by how much the socket is wider at its wide end; `narrow` and `wide`, out of the wall, where those are.
        part: of part length, where socket and housing meet, out of the wall, and -1 for a tail at the wall, else 1.
    """

    lines: Lines
    depth: float
    cutter: float
    slope: float
    play: float
    films: float
    middle: float
    face_c: float
    square: float = 0.0
    taper: float = 0.0
    narrow: float = 0.0
    wide: float = 1.0
    part: tuple[float, float] | None = None

    @classmethod
    def of(cls, meeting: Meeting, options: SlidingDovetailOptions) -> "DovetailPlan":
        """Set out at a meeting, by its form."""
        a, b = meeting.a, meeting.b
        lines = Lines.of(b, a)
        face_c = b.face * b.thickness / 2
        plan = cls(
            lines,
            usual_depth(b, options.depth),
            options.cutter,
            options.slope,
            options.play(),
            films(enters=a, receives=b),
            lines.on_line(face_c)[0],
            face_c,
        )
        return plan if options.form == "full" else plan._formed(meeting, options)

    def _formed(self, meeting: Meeting, options: SlidingDovetailOptions) -> "DovetailPlan":
        if options.form == "single-sided":
            return replace(self, square=_square_way(meeting, options))
        run = run_of(meeting, options)
        if options.form == "tapered":
            from_front = _edges(run, options)[:1] != ("wall",)
            narrow, wide = (run.low, run.high) if from_front else (run.high, run.low)
            return replace(self, taper=options.taper, narrow=narrow, wide=wide)
        at_front = options.tail_at == "front"
        return replace(self, part=(run.high - options.tail, 1.0) if at_front else (run.low + options.tail, -1.0))

    @property
    def tangent(self) -> float:
        """Of the slope."""
        return math.tan(math.radians(self.slope))

    @property
    def cosine(self) -> float:
        """Of the slope."""
        return math.cos(math.radians(self.slope))

    @property
    def slopes(self) -> int:
        """How many walls slope."""
        return 1 if self.square else 2

    @property
    def film(self) -> float:
        """By how much the tail is narrower for the finish between the walls, along the face."""
        return sum(map(self._film, WAYS))

    def _film(self, way: float) -> float:
        return self.films / 2 / (1.0 if way == self.square else self.cosine)

    @property
    def neck(self) -> float:
        """Of the socket, at the face, where it is narrow."""
        return self.cutter - 2 * self.depth * self.tangent

    @property
    def tail_neck(self) -> float:
        """Of the tail, between its shoulders, where it is narrow."""
        return self.neck - self.film - self.play

    @property
    def tip(self) -> float:
        """Width of the tail at its end, off the floor."""
        return self.tail_neck + self.slopes * (self.depth - TIP_GAP) * self.tangent

    @property
    def wide_neck(self) -> float:
        """Of the tail, where it is wide: what a taper is told, measured and written down by."""
        return self.tail_neck + self.taper

    @property
    def wide_tip(self) -> float:
        """The same of its tip."""
        return self.tip + self.taper

    @property
    def flanks(self) -> float:
        """Of the tail, down both its flanks."""
        return (self.depth - TIP_GAP) * (2 / self.cosine if self.slopes > 1 else 1 + 1 / self.cosine)

    @property
    def shoulder(self) -> float:
        """Beside the tail's neck, along the face, where that is widest."""
        return (self.lines.a.thickness / self.lines.sine - self.wide_neck) / 2

    @property
    def beside(self) -> float:
        """From a tip as wide as the cutter to the face of its board, where that is nearer."""
        whole = self.lines.a.thickness / self.lines.sine / 2
        return whole - self.depth * abs(self.lines.cotangent) - (self.cutter + self.taper) / 2

    @property
    def tail_neck_sum(self) -> Sum:
        """How the tail's neck comes about."""
        return Sum("", (*self._neck_terms(), *self._less()))

    @property
    def neck_sum(self) -> Sum:
        """How the socket's neck comes about."""
        return Sum("", self._neck_terms())

    @property
    def tip_sum(self) -> Sum:
        """How the tail's tip comes about."""
        lower = 2 * self.depth - self.slopes * (self.depth - TIP_GAP)
        slopes = Term(Word.SLOPES, -lower * self.tangent)
        return Sum("", (Term(Word.CUTTER, self.cutter), slopes, *self._wider(), *self._less()))

    def _neck_terms(self) -> tuple[Term, ...]:
        slopes = Term(Word.SLOPES, -2 * self.depth * self.tangent)
        return (Term(Word.CUTTER, self.cutter), slopes, *self._wider())

    def _wider(self) -> tuple[Term, ...]:
        return (Term(Word.TAPER, self.taper),) if self.taper else ()

    def _less(self) -> tuple[Term, ...]:
        film = (Term(Word.FILM, -self.film),) if self.film else ()
        return (*film, Term(Word.CLEARANCE, -self.play))

    def socket_at(self, way: float, deep: float, z: float) -> float:
        """From the middle to the socket's wall on one side, so deep below the face, at a distance from the wall."""
        wider = self.taper * (z - self.narrow) / (self.wide - self.narrow)
        return (self.neck + wider) / 2 + (0.0 if way == self.square else deep * self.tangent)

    def tail_at(self, way: float, deep: float, z: float) -> float:
        """The same of the tail's flank."""
        return self.socket_at(way, deep, z) - self.play / 2 - self._film(way)

    def place(self, aside: float, deep: float) -> Vec2:
        """A place so far aside of the middle and below the face."""
        return (self.middle + aside, self.face_c - self.lines.b.face * deep)

    def of_tail(self, run: RunOut) -> RunOut:
        """Where socket and tail run: all along, or at one edge."""
        if self.part is None:
            return run
        at, way = self.part
        if way > 0.0:
            return replace(run, low=at, tongue_low=at - self.play, closed_low=True, stop_low=False)
        return replace(run, high=at, tongue_high=at + self.play, closed_high=True, stop_high=False)

    def of_housing(self, run: RunOut) -> RunOut:
        """Where the housing beside a tail of part length runs."""
        assert self.part is not None
        at, way = self.part
        if way > 0.0:
            return replace(run, high=at, tongue_high=at - self.play, closed_high=True, stop_high=False)
        return replace(run, low=at, tongue_low=at + self.play, closed_low=True, stop_low=False)

    def hidden(self, run: RunOut) -> float:
        """Area of the tail's flanks and tip, and of what is housed beside it."""
        tail = self.of_tail(run)
        area = (self.flanks + self.tip) * tail.length
        if self.part is None:
            return area
        around = 2 * (self.depth - TIP_GAP) + self.lines.a.thickness
        return area + around / self.lines.sine * self.of_housing(run).length

    def socket(self, run: RunOut) -> Prism:
        """What is taken from the board that receives, run out past the face; to where a housing beside it begins."""
        b, run = self.lines.b, self.of_tail(run)
        out = -((b.thickest - b.thickness) / 2 + OVER)
        low = run.low - b.back if run.closed_low else -OVER
        high = run.high - b.back if run.closed_high else b.front - b.back + OVER
        corners = ((-1.0, self.depth), (1.0, self.depth), (1.0, out), (-1.0, out))

        def outline(d: float) -> tuple[Vec2, ...]:
            return tuple(self.place(way * self.socket_at(way, deep, d + b.back), deep) for way, deep in corners)

        return self._between(outline, low, high)

    def _between(self, outline: Callable[[float], tuple[Vec2, ...]], low: float, high: float) -> Prism:
        """An outline from one place across the board to another: as it is at either, where it tapers."""
        first = prism(outline(low), low, high)
        return replace(first, outline_high=prism(outline(high), low, high).outline) if self.taper else first

    def housing(self, run: RunOut) -> Prism:
        """What is taken from the board that receives beside a tail of part length."""
        a = self.lines.a
        return self._let_in(a.thickness + self.films + self.play, a.thickness).housing(self.of_housing(run))

    def tail(self, run: RunOut) -> tuple[HalfSpace | Prism, ...]:
        """What is taken from the board that ends: beyond its end and its stops, and beside the tail."""
        a = self.lines.a
        reach = a.thickest / self.lines.sine + self.depth * abs(self.lines.cotangent) + 2 * OVER
        low, high = -OVER, a.front - a.back + OVER
        if self.part is not None:
            at, way = self.part
            low, high = (at - self.play - a.back, high) if way > 0.0 else (low, at + self.play - a.back)
        let_in = self._let_in(self.neck, self.tail_neck)
        return (*let_in.end(run), *(self._waste(way, reach, low, high) for way in WAYS))

    def _let_in(self, width: float, enters: float) -> LetIn:
        floor = self.lines.on_line(self.face_c - self.lines.b.face * self.depth)
        return LetIn(self.lines, FACE_FLOOR, self.depth, width, enters, floor, TIP_GAP, self.face_c)

    def _waste(self, way: float, reach: float, low: float, high: float) -> Prism:
        """Beside the tail, from the shoulder on."""
        deep = self.depth + OVER

        def outline(d: float) -> tuple[Vec2, ...]:
            z = d + self.lines.a.back
            neck, tip = (self.place(way * self.tail_at(way, at, z), at) for at in (0.0, deep))
            aside = self.middle + way * reach
            return tuple(self.lines.carry(corner) for corner in (neck, tip, (aside, tip[1]), (aside, neck[1])))

        return self._between(outline, low, high)


def _square_way(meeting: Meeting, options: SlidingDovetailOptions) -> float:
    """Along the board that receives to the wall that is square: up, or left where that board lies level."""
    x, y, _ = meeting.frame.x
    up = math.copysign(1.0, y if abs(y) > SQUARE else -x)
    return up if options.square_wall == "upper or left" else -up


def run_of(meeting: Meeting, options: SlidingDovetailOptions) -> RunOut:
    """How it runs out of the wall, all of it: with the housing beside a tail of part length."""
    return RunOut.asked(meeting.a, meeting.b, options.stop, options.stop_distance, options.play())


def settled_options(options: SlidingDovetailOptions, making: Making) -> SlidingDovetailOptions:
    """The options with what the making settled: the stop, or the edge that a taper goes in from."""
    key, value = making.word
    return options.model_copy(update={"enters": value}) if key == "enters" else as_made(options, making)


_Settled: TypeAlias = tuple[SlidingDovetailOptions, tuple[str, str]]


def ways_in(meeting: Meeting, options: SlidingDovetailOptions) -> tuple[_Settled, ...]:
    """The options asked for, with what is left open settled each way by which it can still slide in; and its word."""
    left_open = options.stop == "one end"
    stops: tuple[StopAt, ...] = ("front", "wall") if left_open else (options.stop,)
    found: list[_Settled] = []
    for stop in stops:
        settled = stopped(options, stop)
        edges = _edges(run_of(meeting, settled), settled)
        if not edges:
            continue
        if options.form == "tapered" and options.enters == "either" and not left_open and len(edges) > 1:
            found += ((settled.model_copy(update={"enters": edge}), ("enters", edge)) for edge in edges)
        else:
            found.append((settled, ("stop", stop) if left_open else ("", "")))
    return tuple(found)


def _edges(run: RunOut, options: SlidingDovetailOptions) -> tuple[str, ...]:
    """From which edges it can go in."""
    edges = (("front", run.closed_high), ("wall", run.closed_low))
    only = {
        "tapered": "" if options.enters == "either" else options.enters,
        "part length": "wall" if options.tail_at == "front" else "front",
    }.get(options.form, "")
    return tuple(edge for edge, closed in edges if not closed and only in ("", edge))


def hand_of(meeting: Meeting, options: SlidingDovetailOptions, word: tuple[str, str], rank: int = 0) -> Making:
    """One way to make it; `word` is what was left open and is so settled."""
    run = run_of(meeting, options)
    edges = _edges(run, options)
    if options.form == "tapered":
        edges = edges[:1]
    name = say("{} slid into {}", Name(meeting.a.body), Name(meeting.b.body))
    if word[0]:
        name = say("{}, from the {}", name, edges[0])
    ways = {"front": 1.0, "wall": -1.0}
    motions = tuple(
        motion
        for motion in run.sideways(meeting.a, meeting.b)
        if any(motion.direction[2] == ways[edge] for edge in edges)
    )
    return Making(name=name, motions=motions, rank=rank, word=word)
