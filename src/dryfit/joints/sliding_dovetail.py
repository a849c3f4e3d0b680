"""Sliding dovetail: the end of one board worked to a tail that slides along a socket in the face of another.

It goes in along the width of the boards, from the front or the wall, and nothing draws it out of the face. The socket
is the cutter's own shape: as wide at its floor as the cutter, symmetrical about the normal of the face. The tail is cut
to it with the same cutter, narrower by the clearance, and lower, so that the shoulders close and the tail stays off
the floor. Where the boards meet raked the end is bevelled and the tail is worked on the bevel. What is stopped at both
edges is refused.

Of part length, the tail stands at one edge only and the rest of the end is housed in its full thickness, as deep: it is
held where the wood is seen, bears all along, and slides no further than the tail is long. Single-sided, one wall is
square to the face: a straight cutter's, for thin boards and an unbroken line on one side. Tapered, the socket is wider
where the tail goes in: it runs free until the last of its way, where the slopes close.

Worked example: a board 27 thick, a cutter 12.7 x 14 degrees, 9 deep, 0.08 of clearance: the socket's neck is
12.7 - 2 x 9 tan 14 = 8.21, the tail's 8.13, the shoulders are (27 - 8.13) / 2 = 9.43 wide. Of part length, the
front 80 of 280: the socket takes (8.21 + 12.7) / 2 x 9 x 80 = 7528 mm3, the housing behind it 27.08 x 9 x 200 = 48744.
Lengths in mm.
"""

import math
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from ..findings import Finding, Severity, declare
from ..geometry.frames import Vec, Vec2, length
from ..geometry.shapes import OVER, HalfSpace, Prism, prism
from ..job.options import CLEARANCE, NOT_BELOW_0, WORKED, Options, Quantity, filled
from ..piece.carries import fast
from ..piece.facts import (
    Between,
    CutForm,
    Cutting,
    GlueZone,
    Grain,
    Opens,
    Press,
    Pressing,
    SectionLength,
    Size,
    Stop,
)
from ..piece.kinds import Glyph, JointKind, asked
from ..piece.letting_in import EVEN, FACE_FLOOR, SQUARE, LetIn, RunOut, StopAt, depth_as_cut, usual_depth
from ..piece.model import (
    Board,
    Carry,
    Cut,
    Ease,
    Figures,
    Gap,
    Hand,
    Joint,
    Judgement,
    Mating,
    Meeting,
    Side,
    Touch,
    films,
)
from ..piece.operations import Dial, Operation, Way, WorkSort, across, leans, let_in_reach, router_needs
from ..piece.plane import Lines, lean
from ..piece.setout import AsCut
from ..piece.sums import Sum, Term, Word, walls
from ..places import Cure, Plain, Where
from ..sentences import Angle, Fineness, Length, Name, On, Value, Words, say
from ..shop.tools import Ability, Need, Process
from .common import ANGLE_SLACK, as_made, default_clearance, depth_followed, opened, stopped
from .registry import register

TIP_GAP = 0.2  # under the tail, so that the shoulders close (common practice)
STEEPEST_RAKE = 15.0  # degrees: beyond, a bevelled end has too little wood beside its tail (common practice)
LEAST_SHOULDER = 3.0  # beside the tail's neck, each side (common practice)
LEAST_BESIDE = 2.0  # from the tip to the face of its own board: less and the tail runs out of it (common practice)
LEAST_NECK = 5.0  # of the tail (common practice, as for a tongue)
GLUED = 50.0  # of a tail, last to go in: glue on all of it swells the wood and it sticks half-way (common practice)
LONG = 150.0  # a longer straight tail is hard to slide (common practice)
LEAST_PART = 20.0  # of a tail of part length, and of the housing beside it (ours)
TAPER = 1.5  # of a socket, over its length (from memory: 1 to 2)
MOST_TAPER = 0.03  # of the length: a straight pass at each wall's lean still meets the other (ours)

TOO_DEEP = declare(
    "dovetail-too-deep",
    "A dovetail's socket takes more than half of the board that receives it.",
    uncured="its depth follows what is cut already, or a measure that others use",
)
DEEP = declare(
    "dovetail-deep",
    "A dovetail's socket takes more than a third of the board that receives it.",
    uncured="its depth follows what is cut already, or a measure that others use",
)
LONG_TAIL = declare(
    "dovetail-long",
    "A straight dovetail is so long that it may stick before it is home.",
    uncured="easing the tail is done at the bench: the job stays as it is",
)


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


@register
class SlidingDovetail(JointKind[SlidingDovetailOptions]):
    """One board's end slid into another's face."""

    name = "sliding dovetail"
    glyphs = MappingProxyType({
        "": Glyph(lines="M1 4.5h5l-2 6h8l-2 -6h5"),
        "stopped": Glyph(lines="M1 4.5h5l-2 6h8l-2 -6h5", heavy="M5 10h6"),
    })  # fmt: skip
    codes = (TOO_DEEP, DEEP, LONG_TAIL)
    serves = frozenset({(Touch.END, Touch.FACE)})
    options = SlidingDovetailOptions

    def judge(self, meeting: Meeting, options: SlidingDovetailOptions) -> Judgement:
        """Possible to 15 of rake, open at one edge at least, with wood beside neck and tip."""
        return next(_refusals(meeting, options), Judgement(possible=True))

    def worked(self, meeting: Meeting, options: SlidingDovetailOptions) -> SlidingDovetailOptions:
        """Its clearance, its depth, and that the cutter is as high; at which edge it stops, the hand settles."""
        depth = usual_depth(meeting.b, options.depth)
        return filled(options, clearance=options.play(), depth=depth, cutter_height=depth)

    def hands(self, meeting: Meeting, options: SlidingDovetailOptions) -> tuple[Hand, ...]:
        """It slides in from each edge that the socket opens to: which, may be left open."""
        return tuple(
            _hand(meeting, settled, word, rank) for rank, (settled, word) in enumerate(_ways_in(meeting, options))
        )

    def eases(self, meeting: Meeting, options: SlidingDovetailOptions, hand: Hand) -> tuple[Ease, ...]:
        """Let a taper go in from the other edge; open it to the wall, else to the front, else to both."""

        def one(stop: StopAt) -> Hand | None:
            ways = _ways_in(meeting, stopped(options, stop))
            return _hand(meeting, *ways[0]) if ways else None

        turned = tuple(
            Ease(
                says=say("let {} go in from the {}", Name(meeting.a.body), other.word[1]),
                options=(other.word,),
                hand=other,
            )
            for other in self.hands(meeting, options)
            if other.word[0] == "enters" and other != hand
        )
        return (*turned, *opened(meeting, as_made(options, hand).stop, "socket", one))

    def matings(self, meeting: Meeting, options: SlidingDovetailOptions, hand: Hand) -> tuple[Mating, ...]:
        """The two slopes of the socket with the tail between them, along the face."""
        plan = _Plan.of(meeting, options)
        a, b = meeting.a.body, meeting.b.body
        return (
            Mating(
                key=f"socket in {b} for {a}",
                cut_in=b,
                takes=a,
                normal=(1.0, 0.0, 0.0),
                nominal=length(plan.neck + plan.taper),
                play=length(plan.play),
                play_from="clearance",
                closes=plan.taper > 0.0,
            ),
        )

    def make(self, meeting: Meeting, options: SlidingDovetailOptions, hand: Hand) -> Joint[SlidingDovetailOptions]:
        """Cut the socket, then the tail to it."""
        options = _as_made(options, hand)
        run = _run(meeting, options)
        plan = _Plan.of(meeting, options)
        hidden = plan.hidden(run)
        housing = (_housing(meeting, plan, run),) if plan.part else ()
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            hand=hand,
            glued=options.glued,
            cuts=(_socket(meeting, plan, run, options), *housing, _tail(meeting, plan, run, options)),
            gaps=_gaps(plan, run),
            hidden_mm2=((meeting.a.body, hidden), (meeting.b.body, hidden)),
            findings=(*_too_deep(meeting, plan), *_too_long(meeting, plan, run, glued=options.glued)),
        )

    def glues(self, options: SlidingDovetailOptions) -> bool:
        """As asked."""
        return options.glued

    def gluing(self, options: SlidingDovetailOptions) -> tuple[tuple[str, Plain], ...]:
        """An option of its own."""
        return () if options.glued else (("glued", True),)

    def carries(self, joint: Joint[SlidingDovetailOptions]) -> tuple[Carry, ...]:
        """Glued or dry the slopes hold it every way in the elevation; it leaves out of the wall only."""
        return (fast(joint.meeting),)

    def follow(
        self, meeting: Meeting, options: SlidingDovetailOptions, cut: tuple[AsCut, ...]
    ) -> SlidingDovetailOptions:
        """The tail is as deep as the socket that is cut, or the socket as the tail reaches; a wider one is looser."""
        deep = depth_followed(meeting, options.depth, depth_as_cut(meeting.a, meeting.b, cut, TIP_GAP))
        if deep is None:
            return options
        followed = options.model_copy(update={"depth": deep})
        return followed if self.judge(meeting, followed).possible else options

    def pressed(self, joint: Joint[SlidingDovetailOptions]) -> Press:
        """No clamp does: the slopes draw the shoulders home."""
        return Press(how=Pressing.FIT)

    def glue(self, joint: Joint[SlidingDovetailOptions]) -> tuple[GlueZone, ...]:
        """Side grain of the tail's flanks on end grain of the socket's, where it goes in last."""
        if not joint.glued:
            return ()
        plan, run = _Plan.of(joint.meeting, joint.options), _run(joint.meeting, joint.options)
        glued = min(GLUED, plan.of_tail(run).length)
        faces = say("the last {} of the tail's flanks to go in", Length(glued, Fineness.WHOLE))
        area = glued * plan.flanks
        return (GlueZone(faces=faces, grain=(Grain.SIDE, Grain.END), area_mm2=area),)

    def operations(self, joint: Joint[SlidingDovetailOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """The housing beside it, the socket, then the tail to it with the same cutter."""
        socket, *housed, tail = joint.cuts
        plan = _Plan.of(joint.meeting, joint.options)
        housings = (_housing_work(cut, boards[cut.body]) for cut in housed)
        return (*housings, _socket_work(socket, boards[socket.body], plan, housed), _tail_work(tail, socket, plan))

    def notes(self, joint: Joint[SlidingDovetailOptions]) -> tuple[Words, ...]:
        """Where it bears, how it goes in, and how its fit is found."""
        ways = [motion.direction[2] > 0.0 for motion in joint.hand.motions]
        edge = "from either edge" if len(ways) > 1 else "from the front" if ways[0] else "from the wall"
        plan = _Plan.of(joint.meeting, joint.options)
        return (
            say("The tail slides in {}; the shoulders bear, the tip does not reach the floor.", edge),
            "Cut the socket first; fit the tail to it on an offcut of its board, then cut the board.",
            *_own_notes(
                plan, _run(joint.meeting, joint.options), Name(joint.meeting.a.body), "front" if ways[0] else "wall"
            ),
        )

    def figures(self, joint: Joint[SlidingDovetailOptions]) -> tuple[Size, ...]:
        """What no other kind has: the cutter, the slope, the tail at neck and tip, the shoulders along the face."""
        meeting = joint.meeting
        plan = _Plan.of(meeting, joint.options)
        run = _run(meeting, joint.options)
        taken, *_, goes_in = joint.cuts
        socket, tail = (
            say("{} in {}", taken.plain, Name(meeting.b.body)),
            say("{} on {}", goes_in.plain, Name(meeting.a.body)),
        )
        entering = Name(meeting.a.body)
        shoulder, shoulders = say("shoulder of {}", entering), say("shoulders of {}", entering)
        neck, tip, beside = (Length(mm, Fineness.FINE) for mm in (plan.wide_neck, plan.wide_tip, plan.shoulder))
        return (
            Size(
                of=socket,
                size="slope",
                what="of the sloped wall" if plan.square else "of either wall",
                value=Angle(plan.slope),
            ),
            *_floor(plan, socket),
            *_own_figures(plan, run, socket, tail),
            Size(of=tail, size="neck", what="at the shoulders", how=plan.tail_neck_sum, value=neck),
            Size(of=tail, size="thick", what="at the tip", how=plan.tip_sum, value=tip),
            *(Size(of=shoulder, size=side, value=None) for side in ("acute side", "obtuse side")),  # beside the tip
            Size(of=shoulders, value=None),
            Size(of=shoulders, size="beside the neck", what="along the face", value=beside),
        )

    def sections(self, joint: Joint[SlidingDovetailOptions]) -> tuple[Cutting, ...]:
        """Along the board that receives, in the middle of what goes in."""
        meeting = joint.meeting
        plan, run = _Plan.of(meeting, joint.options), _run(meeting, joint.options)
        right = meeting.frame.x
        up: Vec = tuple(meeting.b.face * way for way in meeting.frame.y)  # type: ignore[assignment]
        aside = plan.middle - meeting.b.at
        x, y = (
            origin + aside * along + meeting.b.thickness / 2 * out
            for origin, along, out in zip(meeting.frame.origin[:2], right[:2], up[:2], strict=True)
        )
        tail = plan.of_tail(run)
        middle = (x, y, (tail.tongue_low + tail.tongue_high) / 2)
        neck, tip = (sum(plan.tail_at(way, deep, middle[2]) for way in WAYS) for deep in (0.0, plan.depth - TIP_GAP))

        def beside(way: float, deep: float) -> Vec:
            aside = way * plan.tail_at(way, deep, middle[2])
            return tuple(  # type: ignore[return-value]
                at + aside * along - deep * out for at, along, out in zip(middle, right, up, strict=True)
            )

        deep = plan.depth - TIP_GAP
        return (
            Cutting(
                title=say("{} in {}, cut across", Name(meeting.a.body), Name(meeting.b.body)),
                at=middle,
                right=right,
                up=up,
                reach=(meeting.a.thickness / plan.lines.sine / 2 + 8.0, meeting.b.thickness),
                sizes=(
                    SectionLength(
                        start=beside(-1, 0.0),
                        end=beside(1, 0.0),
                        value=Length(neck, Fineness.FINE),
                    ),
                    SectionLength(
                        start=beside(-1, deep),
                        end=beside(1, deep),
                        value=Length(tip, Fineness.FINE),
                        side=-1,
                    ),
                ),
            ),
        )


# --- set-out -------------------------------------------------------------------------------------


WAYS = (-1.0, 1.0)  # along the board that receives, from the middle of the socket to either wall


@dataclass(frozen=True, slots=True)
class _Plan:
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
    def of(cls, meeting: Meeting, options: SlidingDovetailOptions) -> "_Plan":
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

    def _formed(self, meeting: Meeting, options: SlidingDovetailOptions) -> "_Plan":
        if options.form == "single-sided":
            return replace(self, square=_square_way(meeting, options))
        run = _run(meeting, options)
        if options.form == "tapered":
            from_front = _edges(run, options)[:1] != ("wall",)
            narrow, wide = (run.low, run.high) if from_front else (run.high, run.low)
            return replace(self, taper=options.taper, narrow=narrow, wide=wide)
        at_front = options.tail_at == "front"
        return replace(self, part=(run.high - options.tail, 1.0) if at_front else (run.low + options.tail, -1.0))

    @property
    def tangent(self) -> float:
        return math.tan(math.radians(self.slope))

    @property
    def cosine(self) -> float:
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


def _run(meeting: Meeting, options: SlidingDovetailOptions) -> RunOut:
    return RunOut.asked(meeting.a, meeting.b, options.stop, options.stop_distance, options.play())


def _as_made(options: SlidingDovetailOptions, hand: Hand) -> SlidingDovetailOptions:
    """The options with what the hand settled: the stop, or the edge that a taper goes in from."""
    key, value = hand.word
    return options.model_copy(update={"enters": value}) if key == "enters" else as_made(options, hand)


_Settled: TypeAlias = tuple[SlidingDovetailOptions, tuple[str, str]]


def _ways_in(meeting: Meeting, options: SlidingDovetailOptions) -> tuple[_Settled, ...]:
    """The options asked for, with what is left open settled each way by which it can still slide in; and its word."""
    left_open = options.stop == "one end"
    stops: tuple[StopAt, ...] = ("front", "wall") if left_open else (options.stop,)
    found: list[_Settled] = []
    for stop in stops:
        settled = stopped(options, stop)
        edges = _edges(_run(meeting, settled), settled)
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


def _hand(meeting: Meeting, options: SlidingDovetailOptions, word: tuple[str, str], rank: int = 0) -> Hand:
    """One way to make it; `word` is what was left open and is so settled."""
    run = _run(meeting, options)
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
    return Hand(name=name, motions=motions, rank=rank, word=word)


# --- what cannot be made -------------------------------------------------------------------------


def _refusals(meeting: Meeting, options: SlidingDovetailOptions) -> Iterator[Judgement]:
    """Why it cannot be made so, what bars most first."""
    if not _ways_in(meeting, options):
        yield _no_way_in(meeting, options)
    rake = 90.0 - meeting.angle
    if rake > STEEPEST_RAKE + ANGLE_SLACK:
        yield Judgement.refused(
            say("the boards meet {} off square; a sliding dovetail is made to {}", Angle(rake), Angle(STEEPEST_RAKE)),
            remedy="turn one of the boards, or make it a housing",
            found=rake,
            limit=STEEPEST_RAKE,
            unit="deg",
            source="common practice",
        )
        return
    run = _run(meeting, options)
    if run.length <= 0.0:
        yield Judgement.refused(
            "the stop leaves nothing to go in",
            found=run.length,
            limit=0.0,
            unit="mm",
            source="geometry",
            cures=(asked("let it run through", "stop", "through"),),
        )
    yield from _formed_badly(run, options)
    yield from _too_little(_Plan.of(meeting, options), options)


def _formed_badly(run: RunOut, options: SlidingDovetailOptions) -> Iterator[Judgement]:
    """A tail of part length that leaves too little of either part; a taper that is none, or too much."""
    full = asked("make it full", "form", "full")
    if options.form == "part length":
        least, most = LEAST_PART, run.length - LEAST_PART
        if not least - SQUARE <= options.tail <= most + SQUARE:
            short = options.tail < least
            yield Judgement.refused(
                say(
                    "a tail of {} leaves {} of housing beside it",
                    Length(options.tail),
                    Length(run.length - options.tail),
                ),
                remedy=say("make the tail {} or more, and leave as much of housing", Length(least, Fineness.WHOLE)),
                found=options.tail,
                limit=least if short else most,
                unit="mm",
                source="ours",
                cures=(asked("make the tail {} long", "tail", least, "+"), full)
                if short and least <= most
                else (full,),
            )
    most = math.floor(run.length * MOST_TAPER / EVEN) * EVEN
    if options.form == "tapered" and not 0.0 < options.taper <= most + SQUARE:
        yield Judgement.refused(
            say("a taper of {} over {}", Length(options.taper, Fineness.WIDTH), Length(run.length, Fineness.WHOLE)),
            remedy=say("let it be {} or less, or make it full", Length(most, side=On.DOWN)),
            found=options.taper,
            limit=most,
            unit="mm",
            source="ours",
            cures=(asked("make the taper {}", "taper", most, "-"), full) if most > 0.0 else (full,),
        )


def _no_way_in(meeting: Meeting, options: SlidingDovetailOptions) -> Judgement:
    """It slides in along its length or not at all."""
    ways: tuple[tuple[StopAt, Cure], ...] = (
        ("front", asked("stop it at the front only", "stop", "front")),
        ("wall", asked("stop it at the wall only", "stop", "wall")),
        ("through", asked("let it run through", "stop", "through")),
    )
    cures = tuple(cure for stop, cure in ways if _ways_in(meeting, stopped(options, stop)))
    shown: Words = "a sliding dovetail that is closed at both edges cannot slide in"
    parts: tuple[Cure, ...] = ()
    if options.form == "part length":
        edge = "wall" if options.tail_at == "front" else "front"
        shown = say("a tail at the {} slides in from the {}, where its housing is closed", options.tail_at, edge)
    elif options.form == "tapered" and options.enters != "either":
        shown = say("a dovetail that is to go in from the {} is closed there", options.enters)
    else:
        part = options.model_copy(update={"form": "part length", "stop": "front"})
        if _ways_in(meeting, part):
            more = {"stop": "front"}
            parts = (asked("a tail of part length, housed from the wall", "form", "part length", more=more),)
    return Judgement.refused(
        shown,
        remedy="open its socket to one edge, or make it a housing"
        if cures
        else "bring the boards flush at one edge, or make it a housing",
        cures=(*cures[:1], *parts),
    )


def _too_little(plan: _Plan, options: SlidingDovetailOptions) -> Iterator[Judgement]:
    """What the cutter does not reach, or leaves too thin."""
    high = options.cutter_height
    if high is not None and plan.depth > high + SQUARE:
        yield Judgement.refused(
            say("the socket is {} deep; the cutter is {} high", Length(plan.depth), Length(high)),
            remedy=say("make it no deeper than {}, or use a higher cutter", Length(high, side=On.DOWN)),
            found=plan.depth,
            limit=high,
            unit="mm",
            source="the cutter's height",
            cures=(asked("make it {} deep", "depth", high, "-"),),
        )
    if plan.tail_neck < LEAST_NECK - SQUARE:
        least = LEAST_NECK + plan.cutter - plan.tail_neck
        yield _thin(
            say(
                "the neck of the tail is {} thick; it needs {}",
                Length(plan.tail_neck, Fineness.WIDTH),
                Length(LEAST_NECK, Fineness.WHOLE),
            ),
            plan.tail_neck,
            LEAST_NECK,
            say("use a cutter of {} or more, or make the socket less deep", Length(least, Fineness.PLACE, side=On.UP)),
            (asked("use a cutter of {}", "cutter", least, "+"),) if least <= _widest(plan) else (),
        )
    narrower = _widest(plan)
    fits = narrower - (plan.cutter - plan.tail_neck) >= LEAST_NECK
    remedy = (
        say("use a cutter of {} or less", Length(narrower, side=On.DOWN))
        if fits
        else say("use a thicker board for {}, or make it a housing", Name(plan.lines.a.body))
    )
    cures = (asked("use a cutter of {}", "cutter", narrower, "-"),) if fits else ()
    if plan.shoulder < LEAST_SHOULDER - SQUARE:
        says = say(
            "the neck of the tail is {} thick and leaves shoulders of {}; they need {}",
            Length(plan.wide_neck, Fineness.WIDTH),
            Length(plan.shoulder, Fineness.WIDTH),
            Length(LEAST_SHOULDER, Fineness.WHOLE),
        )
        yield _thin(says, plan.shoulder, LEAST_SHOULDER, remedy, cures)
    if plan.beside < LEAST_BESIDE - SQUARE:
        says = say(
            "the tip of the tail lies {} from the face of {}; it needs {}",
            Length(plan.beside, Fineness.WIDTH),
            Name(plan.lines.a.body),
            Length(LEAST_BESIDE, Fineness.WHOLE),
        )
        yield _thin(says, plan.beside, LEAST_BESIDE, remedy, cures)


def _thin(says: Words, found: float, limit: float, remedy: Words, cures: tuple[Cure, ...]) -> Judgement:
    return Judgement.refused(
        says, remedy=remedy, found=found, limit=limit, unit="mm", source="common practice", cures=cures
    )


def _widest(plan: _Plan) -> float:
    """The widest cutter that leaves shoulders, and wood beside the tip."""
    return plan.cutter - 2 * max(LEAST_SHOULDER - plan.shoulder, LEAST_BESIDE - plan.beside)


# --- cuts and gaps -------------------------------------------------------------------------------


def _socket(meeting: Meeting, plan: _Plan, run: RunOut, options: SlidingDovetailOptions) -> Cut:
    a, b = meeting.a, meeting.b
    says = say("socket in {} for {}", Name(b.body), Name(a.body))
    return Cut(
        key=str(says),
        says=says,
        body=b.body,
        form=CutForm.HOUSING,
        word="stopped socket" if run.shouldered else "socket",
        noun="socket",
        name="socket" if plan.part else "",
        takes=a.body,
        joint=meeting.key,
        face=b.face,
        shapes=(plan.socket(run),),
        figures=Figures(
            width=plan.neck_sum,
            depth=Sum.alone(plan.depth, Word.DEPTH),
            opens=Opens.FACE,
            stops=(*run.stops(a, b, options.stop_distance, options.play()), *_step(plan, b, housed=False)),
            between_faces=meeting.angle,
        ),
    )


def _step(plan: _Plan, b: Side, *, housed: bool) -> tuple[Stop, ...]:
    """Of part length, where socket and housing meet: each from the edge at which the other one lies."""
    if plan.part is None:
        return ()
    at, way = plan.part
    if (way > 0.0) == housed:
        return (Stop(edge=Opens.FRONT, size=Sum.alone(length(b.front - at), Word.SIZE, b.body)),)
    return (Stop(edge=Opens.WALL, size=Sum.alone(length(at - b.back), Word.SIZE, b.body)),)


def _housing(meeting: Meeting, plan: _Plan, run: RunOut) -> Cut:
    """Beside a tail of part length, for the board as thick as it is."""
    a, b = meeting.a, meeting.b
    says = say("housing in {} for {}", Name(b.body), Name(a.body))
    return Cut(
        key=str(says),
        says=says,
        body=b.body,
        form=CutForm.HOUSING,
        word="housing",
        name="housing",
        takes=a.body,
        joint=meeting.key,
        face=b.face,
        shapes=(plan.housing(run),),
        figures=Figures(
            width=Sum(a.body, (Term(Word.THICKNESS, a.thickness), *walls(film=plan.films, clearance=plan.play))),
            depth=Sum.alone(plan.depth, Word.DEPTH),
            opens=Opens.FACE,
            stops=_step(plan, b, housed=True),
            between_faces=meeting.angle,
            lean=lean(plan.lines),
        ),
        size_is="FIT TO",
    )


def _tail(meeting: Meeting, plan: _Plan, run: RunOut, options: SlidingDovetailOptions) -> Cut:
    a, b = meeting.a, meeting.b
    says = say("tail of {} in {}", Name(a.body), Name(b.body))
    return Cut(
        key=str(says),
        says=says,
        body=a.body,
        form=CutForm.END,
        word="stopped tail" if run.shouldered else "tail",
        noun="tail",
        joint=meeting.key,
        end=a.end,
        shapes=plan.tail(run),
        figures=Figures(
            width=plan.tip_sum,
            depth=Sum(b.body, (Term(Word.DEPTH, plan.depth), Term(Word.GAP, -TIP_GAP))),
            opens=Opens.END,
            stops=run.cut_back(meeting.a, meeting.b, options.stop_distance, options.play()),
            between_faces=meeting.angle,
            lean=abs(lean(plan.lines)),
            stands="shoulder",
        ),
        size_is="FIT TO",
    )


def _gaps(plan: _Plan, run: RunOut) -> tuple[Gap, ...]:
    """Square to the slopes, under the tip, at the shoulders; at a closed end as much as the tail is narrower."""
    flank, square = (plan.play * plan.cosine + plan.films) / 2, (plan.play + plan.films) / 2
    gaps = [
        Gap(between=Between.FLANK, size=length(flank), count=plan.slopes),
        Gap(between=Between.BOTTOM, size=TIP_GAP),
        Gap(between=Between.SHOULDER, size=0.0, count=2 + run.stop_low + run.stop_high),
    ]
    if plan.square or plan.part:
        gaps.append(Gap(between=Between.WALL, size=length(square), count=1 if plan.square else 2))
    if closed := int(run.closed_low) + int(run.closed_high) + int(plan.part is not None):
        gaps.append(Gap(between=Between.STOPPED_END, size=length(plan.play), count=closed))
    return tuple(gaps)


# --- findings ------------------------------------------------------------------------------------


def _too_deep(meeting: Meeting, plan: _Plan) -> tuple[Finding, ...]:
    """A third of the board is usual; more than half is a stop."""
    a, b = meeting.a.body, meeting.b
    third, half = b.thickness / 3, b.thickness / 2
    if plan.depth <= third + SQUARE:
        return ()
    stop = plan.depth > half + SQUARE
    limit = half if stop else third
    shallow = math.floor(third / EVEN + SQUARE) * EVEN
    return (
        Finding(
            code=TOO_DEEP if stop else DEEP,
            severity=Severity.STOP if stop else Severity.WARN,
            where=Where(boards=(b.body, a), joint=meeting.key),
            says=say(
                "the socket in {} for {} is {} deep in {}",
                Name(b.body),
                Name(a),
                Length(plan.depth),
                Length(b.thickness),
            ),
            remedy=say("make it no deeper than {}", Length(limit, side=On.DOWN)),
            found=plan.depth,
            limit=limit,
            unit="mm",
            source="common practice",
            cures=(asked("make it {} deep", "depth", shallow, "-"),) if shallow >= EVEN else (),
        ),
    )


def _too_long(meeting: Meeting, plan: _Plan, run: RunOut, *, glued: bool) -> tuple[Finding, ...]:
    """A straight tail over 150 long."""
    run = plan.of_tail(run)
    if plan.taper or run.length <= LONG + SQUARE:
        return ()
    a, b = meeting.a.body, meeting.b.body
    return (
        Finding(
            code=LONG_TAIL,
            severity=Severity.NOTE,
            where=Where(boards=(a, b), joint=meeting.key),
            says=say("the tail of {} slides {} along {}", Name(a), Length(run.length), Name(b)),
            remedy=say(
                "ease the tail by a shaving behind its last {}, and glue these only"
                if glued
                else "ease the tail by a shaving behind its last {}, and wax it",
                Length(GLUED, Fineness.WHOLE),
            ),
            found=run.length,
            limit=LONG,
            unit="mm",
            source="common practice",
        ),
    )


# --- bench work ----------------------------------------------------------------------------------


def _needs(plan: _Plan, deep: float) -> tuple[Need, ...]:
    """One cutter for both: its slope, its width, and that it reaches."""
    return (
        Need(ability=Ability.SLOPE, least=plan.slope, most=plan.slope),
        Need(ability=Ability.CUTTER, least=plan.cutter, most=plan.cutter),
        Need(ability=Ability.REACH, least=deep),
        Need(ability=Ability.EDGE, least=deep),
    )


def _housing_work(cut: Cut, board: Board) -> Operation:
    """With a straight cutter where the boards are square to each other; else its walls are sawn at their lean."""
    sets, makes = across(cut, board), cut.plain
    routed = Way(
        process=Process.ROUTER,
        makes=makes,
        says="router on a guide, stopped where the socket begins",
        needs=router_needs(cut, let_in_reach(cut)),
        sets=sets,
    )
    by_hand = Way(process=Process.HAND, makes=makes, says="walls sawn by hand, floor levelled", sets=sets)
    ways = (by_hand,) if leans(cut) else (routed, by_hand)
    return Operation(key=cut.key, work=WorkSort.ACROSS, cuts=(cut.key,), ways=ways)


def _socket_work(cut: Cut, board: Board, plan: _Plan, housed: Sequence[Cut]) -> Operation:
    """In one pass along a guide, after a straight groove no wider than the neck."""
    sets = ((Dial.CUTTER, say("{} × {}", Length(plan.cutter), Angle(plan.slope))), *across(cut, board))
    ways = (
        Way(
            process=Process.ROUTER,
            makes=cut.plain,
            says=_routed(plan),
            needs=_needs(plan, plan.depth),
            sets=sets,
        ),
        Way(
            process=Process.HAND,
            makes=cut.plain,
            says="slopes sawn along a bevelled guide, floor levelled by hand",
            sets=sets[1:],
        ),
    )
    after = tuple(one.key for one in housed)
    return Operation(key=cut.key, work=WorkSort.ACROSS, cuts=(cut.key,), ways=ways, after=after)


def _routed(plan: _Plan) -> Words:
    """How the socket is routed, by its form."""
    if plan.square:
        return "straight cutter to the square wall at full depth; then the dovetail cutter along the other wall"
    if plan.taper:
        half = Length(plan.taper / 2, Fineness.WIDTH)
        return say(
            "dovetail cutter on a guide, at full depth, a straight groove first; then one pass each way with the "
            "guide moved {} aside at its wide end",
            half,
        )
    return "dovetail cutter on a guide, at full depth in one pass; a straight groove inside the neck first"


def _tail_work(cut: Cut, socket: Cut, plan: _Plan) -> Operation:
    """On end against a fence, one side and then the other; what shows of the cutter is the shoulder.

    Where the boards meet raked the end is bevelled first, and the board leans as it will stand.
    """
    deep = plan.depth - TIP_GAP
    raked = leans(cut)
    first, held = ("end bevelled; ", "on a wedge of the rake") if raked else ("", "on its end against a high fence")
    sets: list[tuple[Dial, Value]] = [
        (Dial.CUTTER, say("{} × {}", Length(plan.cutter), Angle(plan.slope))),
        (Dial.WIDTH, Length(plan.wide_tip, Fineness.WIDTH)),
        (Dial.DEPTH, Length(deep)),
        (Dial.LEAN, Angle(cut.figures.lean))
        if raked
        else (Dial.PLACE, say("{} past the fence", Length(plan.shoulder))),
    ]
    ways = (
        Way(
            process=Process.ROUTER,
            makes=cut.plain,
            says=say("{}socket's cutter in a router table, the board {}; {}", first, held, _faces(plan)),
            needs=_needs(plan, deep),
            sets=tuple(sets),
        ),
        Way(
            process=Process.HAND,
            makes=cut.plain,
            says=say("{}shoulders sawn, slopes pared by hand", first),
            sets=tuple(sets[1:]),
        ),
    )
    return Operation(key=cut.key, work=WorkSort.ENDS, cuts=(cut.key,), ways=ways, after=(socket.key,))


def _faces(plan: _Plan) -> Words:
    """Which faces of the tail's board are laid against the fence, and what lies between."""
    if plan.square:
        return "one face; the other shoulder with a straight cutter"
    if plan.taper:
        return say(
            "either face, a slip of {} between fence and board at its wide end", Length(plan.taper / 2, Fineness.WIDTH)
        )
    if plan.part is not None:
        return "either face, to a stop where the housed part begins"
    return "either face"


# --- what the other forms add --------------------------------------------------------------------


def _own_notes(plan: _Plan, run: RunOut, a: Name, edge: str) -> tuple[Words, ...]:
    """What is different about a form that is not the full one."""
    if plan.part is not None:
        tail = plan.of_tail(run).length
        return (
            say(
                "{} may also be set straight into its housing, {} towards the {}, and slid home from there.",
                a,
                Length(tail, side=On.UP),
                edge,
            ),
        )
    if plan.taper:
        return ("It closes in the last of its way: fit it dry, a shaving off the tail's slopes at a time.",)
    if plan.square:
        return ("One wall is square to the face: mind which, on both boards, before the first cut.",)
    return ()


def _floor(plan: _Plan, socket: Words) -> tuple[Size, ...]:
    """Of the socket: as wide as the cutter where both walls slope and keep their distance."""
    if plan.square:
        wide = plan.neck + plan.depth * plan.tangent
        return (Size(of=socket, size="floor", what="from wall to wall", value=Length(wide, Fineness.WIDTH)),)
    cutter: Words = "as wide as the cutter, at the narrow end" if plan.taper else "as wide as the cutter"
    return (Size(of=socket, size="floor", what=cutter, value=Length(plan.cutter, Fineness.WIDTH)),)


def _own_figures(plan: _Plan, run: RunOut, socket: Words, tail: Words) -> tuple[Size, ...]:
    """Of a taper, its narrow end, the others being of the wide one; of part length, how long the tail is."""
    if plan.taper:
        edge = "wall" if plan.wide > plan.narrow else "front"
        return tuple(
            Size(of=of, size="narrow end", what=say("at the face, {}", edge), value=Length(neck, Fineness.FINE))
            for of, neck in ((socket, plan.neck), (tail, plan.tail_neck))
        )
    if plan.part is None:
        return ()
    edge = "front" if plan.part[1] > 0.0 else "wall"
    long = plan.of_tail(run).length
    return (Size(of=tail, size="long", what=say("at the {}", edge), value=Length(long, Fineness.WIDTH)),)
