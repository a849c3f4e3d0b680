"""Sliding dovetail: the end of one board worked to a tail that slides along a socket in the face of another.

It goes in along the width of the boards, from the front or the wall, and nothing draws it out of the face. The socket
is the cutter's own shape: as wide at its floor as the cutter, symmetrical about the normal of the face. The tail is cut
to it with the same cutter, narrower by the clearance, and lower, so that the shoulders close and the tail stays off
the floor. Where the boards meet raked the end is bevelled and the tail is worked on the bevel. A dovetail of part
length, tapered, single-sided or stopped at both edges is refused.

Worked example: a board 27 thick, a cutter 12.7 x 14 degrees, 9 deep, 0.08 of clearance: the socket's neck is
12.7 - 2 x 9 tan 14 = 8.21, the tail's 8.13, the shoulders are (27 - 8.13) / 2 = 9.43 wide. Lengths in mm.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated, Literal

from pydantic import Field

from ..findings import Finding, Severity, declare
from ..geometry.frames import Vec, Vec2, length
from ..geometry.shapes import OVER, HalfSpace, Prism, prism
from ..job.options import CLEARANCE, NOT_BELOW_0, WORKED, Options, Quantity, filled
from ..piece.carries import fast
from ..piece.facts import Between, CutForm, Cutting, GlueZone, Grain, Opens, Press, Pressing, SectionLength, Size
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
    Touch,
    films,
)
from ..piece.operations import Dial, Operation, Way, WorkSort, across, leans
from ..piece.plane import Lines, lean
from ..piece.setout import AsCut
from ..piece.sums import Sum, Term, Word
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
        default="full", description="Only a full one, straight, with two slopes, is made; the others are refused."
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
            _hand(meeting, stopped(options, stop), stop if options.stop == "one end" else "", rank)
            for rank, stop in enumerate(_open(meeting, options))
        )

    def eases(self, meeting: Meeting, options: SlidingDovetailOptions, hand: Hand) -> tuple[Ease, ...]:
        """Open it to the wall, else to the front, else to both."""

        def one(stop: StopAt) -> Hand | None:
            now = stopped(options, stop)
            return _hand(meeting, now, "") if _open(meeting, now) else None

        return opened(meeting, as_made(options, hand).stop, "socket", one)

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
                nominal=length(plan.neck),
                play=length(plan.play),
                play_from="clearance",
            ),
        )

    def make(self, meeting: Meeting, options: SlidingDovetailOptions, hand: Hand) -> Joint[SlidingDovetailOptions]:
        """Cut the socket, then the tail to it."""
        options = as_made(options, hand)
        run = _run(meeting, options)
        plan = _Plan.of(meeting, options)
        flank = (plan.depth - TIP_GAP) / plan.cosine
        hidden = (2 * flank + plan.tip) * run.length
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            hand=hand,
            glued=options.glued,
            cuts=(_socket(meeting, plan, run, options), _tail(meeting, plan, run, options)),
            gaps=_gaps(plan, run),
            hidden_mm2=((meeting.a.body, hidden), (meeting.b.body, hidden)),
            findings=(*_too_deep(meeting, plan), *_too_long(meeting, run, glued=options.glued)),
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
        glued = min(GLUED, run.length)
        faces = say("the last {} of the tail's flanks to go in", Length(glued, Fineness.WHOLE))
        area = 2 * glued * (plan.depth - TIP_GAP) / plan.cosine
        return (GlueZone(faces=faces, grain=(Grain.SIDE, Grain.END), area_mm2=area),)

    def operations(self, joint: Joint[SlidingDovetailOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """The socket, then the tail to it with the same cutter."""
        socket, tail = joint.cuts
        plan = _Plan.of(joint.meeting, joint.options)
        return (_socket_work(socket, boards[socket.body], plan), _tail_work(tail, socket, plan))

    def notes(self, joint: Joint[SlidingDovetailOptions]) -> tuple[Words, ...]:
        """Where it bears, how it goes in, and how its fit is found."""
        ways = [motion.direction[2] > 0.0 for motion in joint.hand.motions]
        edge = "from either edge" if len(ways) > 1 else "from the front" if ways[0] else "from the wall"
        return (
            say("The tail slides in {}; the shoulders bear, the tip does not reach the floor.", edge),
            "Cut the socket first; fit the tail to it on an offcut of its board, then cut the board.",
        )

    def figures(self, joint: Joint[SlidingDovetailOptions]) -> tuple[Size, ...]:
        """What no other kind has: the cutter, the slope, the tail at neck and tip, the shoulders along the face."""
        meeting = joint.meeting
        plan = _Plan.of(meeting, joint.options)
        taken, goes_in = joint.cuts
        socket, tail = (
            say("{} in {}", taken.plain, Name(meeting.b.body)),
            say("{} on {}", goes_in.plain, Name(meeting.a.body)),
        )
        entering = Name(meeting.a.body)
        shoulder, shoulders = say("shoulder of {}", entering), say("shoulders of {}", entering)
        neck, tip, beside = (Length(mm, Fineness.FINE) for mm in (plan.tail_neck, plan.tip, plan.shoulder))
        return (
            Size(of=socket, size="slope", what="of either wall", value=Angle(plan.slope)),
            Size(of=socket, size="floor", what="as wide as the cutter", value=Length(plan.cutter, Fineness.WIDTH)),
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
        middle = (x, y, (run.tongue_low + run.tongue_high) / 2)

        def beside(way: float, wide: float, deep: float) -> Vec:
            return tuple(  # type: ignore[return-value]
                at + way * wide / 2 * along - deep * out for at, along, out in zip(middle, right, up, strict=True)
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
                        start=beside(-1, plan.tail_neck, 0.0),
                        end=beside(1, plan.tail_neck, 0.0),
                        value=Length(plan.tail_neck, Fineness.FINE),
                    ),
                    SectionLength(
                        start=beside(-1, plan.tip, deep),
                        end=beside(1, plan.tip, deep),
                        value=Length(plan.tip, Fineness.FINE),
                        side=-1,
                    ),
                ),
            ),
        )


# --- set-out -------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Plan:
    """A dovetail set out in the plane of the board that receives it.

    Attributes:
        slope: of the flanks off the normal of the face, degrees.
        film: by how much the tail is narrower for the finish between the flanks, along the face.
        middle: along the receiving board, of socket and tail: where the other's centre-line meets the face.
        face_c: height of the face.
    """

    lines: Lines
    depth: float
    cutter: float
    slope: float
    play: float
    film: float
    middle: float
    face_c: float

    @classmethod
    def of(cls, meeting: Meeting, options: SlidingDovetailOptions) -> "_Plan":
        a, b = meeting.a, meeting.b
        lines = Lines.of(b, a)
        face_c = b.face * b.thickness / 2
        film = films(enters=a, receives=b) / math.cos(math.radians(options.slope))
        middle = lines.on_line(face_c)[0]
        return cls(
            lines, usual_depth(b, options.depth), options.cutter, options.slope, options.play(), film, middle, face_c
        )

    @property
    def tangent(self) -> float:
        return math.tan(math.radians(self.slope))

    @property
    def cosine(self) -> float:
        return math.cos(math.radians(self.slope))

    @property
    def neck(self) -> float:
        """Of the socket, at the face."""
        return self.cutter - 2 * self.depth * self.tangent

    @property
    def tail_neck(self) -> float:
        """Of the tail, between its shoulders."""
        return self.neck - self.film - self.play

    @property
    def tip(self) -> float:
        """Width of the tail at its end, off the floor."""
        return self.tail_neck + 2 * (self.depth - TIP_GAP) * self.tangent

    @property
    def shoulder(self) -> float:
        """Beside the tail's neck, along the face."""
        return (self.lines.a.thickness / self.lines.sine - self.tail_neck) / 2

    @property
    def beside(self) -> float:
        """From a tip as wide as the cutter to the face of its board, where that is nearer."""
        return self.lines.a.thickness / self.lines.sine / 2 - self.depth * abs(self.lines.cotangent) - self.cutter / 2

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
        slopes = Term(Word.SLOPES, -2 * TIP_GAP * self.tangent)
        return Sum("", (Term(Word.CUTTER, self.cutter), slopes, *self._less()))

    def _neck_terms(self) -> tuple[Term, ...]:
        return (Term(Word.CUTTER, self.cutter), Term(Word.SLOPES, -2 * self.depth * self.tangent))

    def _less(self) -> tuple[Term, ...]:
        film = (Term(Word.FILM, -self.film),) if self.film else ()
        return (*film, Term(Word.CLEARANCE, -self.play))

    def across(self, way: float, neck: float, deep: float) -> Vec2:
        """A place on a flank that is half `neck` from the middle at the face, so deep below it."""
        b = self.lines.b
        return (self.middle + way * (neck / 2 + deep * self.tangent), self.face_c - b.face * deep)

    def socket(self, run: RunOut) -> Prism:
        """What is taken from the board that receives, run out past the face."""
        b = self.lines.b
        out = -((b.thickest - b.thickness) / 2 + OVER)
        ends = ((-1.0, self.depth), (1.0, self.depth), (1.0, out), (-1.0, out))
        low = run.low - b.back if run.closed_low else -OVER
        high = run.high - b.back if run.closed_high else b.front - b.back + OVER
        return prism(tuple(self.across(way, self.neck, deep) for way, deep in ends), low, high)

    def tail(self, run: RunOut) -> tuple[HalfSpace | Prism, ...]:
        """What is taken from the board that ends: beyond its end and its stops, and beside the tail."""
        a, b = self.lines.a, self.lines.b
        floor = self.lines.on_line(self.face_c - b.face * self.depth)
        let_in = LetIn(self.lines, FACE_FLOOR, self.depth, self.neck, self.tail_neck, floor, TIP_GAP, self.face_c)
        reach = a.thickest / self.lines.sine + self.depth * abs(self.lines.cotangent) + 2 * OVER
        return (*let_in.end(run), *(self._waste(way, reach, a.front - a.back) for way in (-1.0, 1.0)))

    def _waste(self, way: float, reach: float, whole: float) -> Prism:
        """Beside the tail, from the shoulder on."""
        neck, tip = (self.across(way, self.tail_neck, deep) for deep in (0.0, self.depth + OVER))
        aside = self.middle + way * reach
        corners = (neck, tip, (aside, tip[1]), (aside, neck[1]))
        return prism(tuple(self.lines.carry(corner) for corner in corners), -OVER, whole + OVER)


def _run(meeting: Meeting, options: SlidingDovetailOptions) -> RunOut:
    return RunOut.asked(meeting.a, meeting.b, options.stop, options.stop_distance, options.play())


def _open(meeting: Meeting, options: SlidingDovetailOptions) -> tuple[StopAt, ...]:
    """The stops asked for, or left open, by which it can still slide in from one edge."""
    asked_for: tuple[StopAt, ...] = ("front", "wall") if options.stop == "one end" else (options.stop,)
    runs = ((stop, _run(meeting, stopped(options, stop))) for stop in asked_for)
    return tuple(stop for stop, run in runs if not (run.closed_low and run.closed_high))


def _hand(meeting: Meeting, options: SlidingDovetailOptions, stop: str, rank: int = 0) -> Hand:
    """One way to make it; `stop` is what was left open and is so settled."""
    name = say("{} slid into {}", Name(meeting.a.body), Name(meeting.b.body))
    if stop:
        name = say("{}, from the {}", name, "wall" if stop == "front" else "front")
    motions = _run(meeting, options).sideways(meeting.a, meeting.b)
    return Hand(name=name, motions=motions, rank=rank, word=("stop", stop) if stop else ("", ""))


# --- what cannot be made -------------------------------------------------------------------------


def _refusals(meeting: Meeting, options: SlidingDovetailOptions) -> Iterator[Judgement]:
    """Why it cannot be made so, what bars most first."""
    if options.form != "full":
        yield Judgement.refused(
            say("a sliding dovetail that is {} is not made yet", options.form),
            remedy="make it full, straight, with two slopes; or a housing",
            cures=(asked("make it full", "form", "full"),),
        )
    if not _open(meeting, options):
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
    yield from _too_little(_Plan.of(meeting, options), options)


def _no_way_in(meeting: Meeting, options: SlidingDovetailOptions) -> Judgement:
    """It slides in along its length or not at all."""
    ways: tuple[tuple[StopAt, Cure], ...] = (
        ("front", asked("stop it at the front only", "stop", "front")),
        ("wall", asked("stop it at the wall only", "stop", "wall")),
        ("through", asked("let it run through", "stop", "through")),
    )
    cures = tuple(cure for stop, cure in ways if _open(meeting, stopped(options, stop)))
    return Judgement.refused(
        "a sliding dovetail that is closed at both edges cannot slide in",
        remedy="open its socket to one edge, or make it a housing"
        if cures
        else "bring the boards flush at one edge, or make it a housing",
        cures=cures[:1],
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
            Length(plan.tail_neck, Fineness.WIDTH),
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
        takes=a.body,
        joint=meeting.key,
        face=b.face,
        shapes=(plan.socket(run),),
        figures=Figures(
            width=plan.neck_sum,
            depth=Sum.alone(plan.depth, Word.DEPTH),
            opens=Opens.FACE,
            stops=run.stops(a, b, options.stop_distance, options.play()),
            between_faces=meeting.angle,
        ),
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
    flank = (plan.play + plan.film) / 2 * plan.cosine
    gaps = [
        Gap(between=Between.FLANK, size=length(flank), count=2),
        Gap(between=Between.BOTTOM, size=TIP_GAP),
        Gap(between=Between.SHOULDER, size=0.0, count=2 + run.stop_low + run.stop_high),
    ]
    if closed := int(run.closed_low) + int(run.closed_high):
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


def _too_long(meeting: Meeting, run: RunOut, *, glued: bool) -> tuple[Finding, ...]:
    """A straight tail over 150 long."""
    if run.length <= LONG + SQUARE:
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


def _socket_work(cut: Cut, board: Board, plan: _Plan) -> Operation:
    """In one pass along a guide, after a straight groove no wider than the neck."""
    sets = ((Dial.CUTTER, say("{} × {}", Length(plan.cutter), Angle(plan.slope))), *across(cut, board))
    ways = (
        Way(
            process=Process.ROUTER,
            makes=cut.plain,
            says="dovetail cutter on a guide, at full depth in one pass; a straight groove inside the neck first",
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
    return Operation(key=cut.key, work=WorkSort.ACROSS, cuts=(cut.key,), ways=ways)


def _tail_work(cut: Cut, socket: Cut, plan: _Plan) -> Operation:
    """On end against a fence, one side and then the other; what shows of the cutter is the shoulder.

    Where the boards meet raked the end is bevelled first, and the board leans as it will stand.
    """
    deep = plan.depth - TIP_GAP
    raked = leans(cut)
    first, held = ("end bevelled; ", "on a wedge of the rake") if raked else ("", "on its end against a high fence")
    sets: list[tuple[Dial, Value]] = [
        (Dial.CUTTER, say("{} × {}", Length(plan.cutter), Angle(plan.slope))),
        (Dial.WIDTH, Length(plan.tip, Fineness.WIDTH)),
        (Dial.DEPTH, Length(deep)),
        (Dial.LEAN, Angle(cut.figures.lean))
        if raked
        else (Dial.PLACE, say("{} past the fence", Length(plan.shoulder))),
    ]
    ways = (
        Way(
            process=Process.ROUTER,
            makes=cut.plain,
            says=say("{}socket's cutter in a router table, the board {}; either face", first, held),
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
