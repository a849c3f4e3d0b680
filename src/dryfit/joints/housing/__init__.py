"""Housing: the end of one board let into the face of another, square or raked, through or stopped.

A plain through housing bottoms: it sets the length of the board that ends. Where a shoulder bears
(stopped, or shouldered) the end stops a little short of the bottom instead. Lengths in mm.
"""

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated, Literal

from pydantic import Field

from ...findings import Finding, Severity, declare
from ...geometry.frames import length
from ...job.options import CLEARANCE, NOT_BELOW_0, WORKED, Options, Quantity, filled
from ...piece.carries import axes, fast, left_of, off_the_end, opposite, rests, sideways, spread
from ...piece.checks import least_web
from ...piece.facts import Between, CutForm, GlueZone, Grain, Opens
from ...piece.kinds import Glyph, JointKind, asked
from ...piece.letting_in import (
    EVEN,
    FACE_FLOOR,
    SHOULDERED,
    SQUARE,
    SQUARE_FLOOR,
    LetIn,
    RunOut,
    StopAt,
    depth_as_cut,
    usual_depth,
)
from ...piece.model import (
    Board,
    Carry,
    Cut,
    Ease,
    Figures,
    Gap,
    Joint,
    Judgement,
    Making,
    Mating,
    Meeting,
    Motion,
    Touch,
    films,
)
from ...piece.operations import Operation
from ...piece.plane import Lines, lean
from ...piece.setout import AsCut
from ...piece.sums import Sum, Term, Word, walls
from ...places import Plain, Where
from ...sentences import Fineness, Length, Name, On, Words, say
from ..common import as_made, default_clearance, depth_followed, judge_angle, opened, shallow_angle, stopped
from ..registry import register
from . import work

BOTTOM_GAP = 1.0  # under an end whose shoulder bears (common practice)
TILTED_ROUTER = 15.0  # degrees of rake up to which the floor is left square to the walls (common practice)
LEAST_SHOULDER = 3.0  # beside a tongue, each side (common practice)
LEAST_TONGUE = 5.0  # thick (common practice)

SHALLOW_HOUSING = declare(
    "housing-shallow",
    "A housing is so shallow that it locates its board but hardly holds it.",
    uncured="its depth follows what is cut already, or a measure that others use",
)
LEAST_DEPTH = 3.0  # of a housing (common practice)
DEEP = declare(
    "housing-too-deep",
    "A housing takes more than half of the board that receives it.",
    uncured="its depth follows what is cut already, or a measure that others use",
)


class HousingOptions(Options):
    """Options of a housing."""

    clearance: Annotated[Quantity, CLEARANCE] | None = Field(
        default=None, description="Play across the walls, total of both sides; left out: 0.10 glued, 0.15 dry."
    )
    depth: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="Depth on the centre-line, square to the face; left out: a third of the thickness, a quarter where "
        "two meet, rounded down to a whole 0.5.",
    )
    stop: StopAt = Field(
        default="through",
        description="At which edges the housing stops short; one end: at the front, unless it must be the wall.",
    )
    stop_distance: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=12.0, description="From the edge of the board that is housed to the stopped end of its housing."
    )
    raked: Literal["", "floor square to walls", "floor parallel to face", "shouldered"] = Field(
        default="", description="Form of a raked housing; left out: by the rake and the depth."
    )
    tongue: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Thickness of a shouldered end's tongue; left out: half the board."
    )
    swelling: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=0.0, description="Growth of the board's thickness to be allowed for."
    )
    glued: bool = Field(default=True, description="Whether the end is glued in.")

    def play(self) -> float:
        """Clearance across the walls."""
        return default_clearance(self.clearance, glued=self.glued)


@register
class Housing(JointKind[HousingOptions]):
    """One board's end let into another's face."""

    name = "housing"
    glyphs = MappingProxyType({
        "": Glyph(lines="M1 4.5h4v6h6v-6h4"),
        "stopped": Glyph(lines="M1 4.5h4v6h6v-6h4", heavy="M5 10h6"),
    })  # fmt: skip
    codes = (SHALLOW_HOUSING, DEEP)
    serves = frozenset({(Touch.END, Touch.FACE)})
    options = HousingOptions

    def judge(self, meeting: Meeting, options: HousingOptions) -> Judgement:
        """Possible from 15 degrees on, while the end has room on the face and a tongue has room in the end."""
        angle = judge_angle(meeting, self.name)
        if not angle.possible:
            return angle
        run = _run(meeting, options)
        if run.length <= 0.0:
            cure = asked("let it run through", "stop", "through")
            return Judgement.refused(
                "the stops leave nothing to go in",
                found=run.length,
                limit=0.0,
                unit="mm",
                source="geometry",
                cures=(cure,),
            )
        plan = _plan(meeting, options, run)
        if plan.form == SQUARE_FLOOR and plan.depth - plan.fall < EVEN:
            reason = say(
                "a floor square to the walls falls {} to either side and would come out of the face", Length(plan.fall)
            )
            left = plan.depth - plan.fall
            return Judgement.refused(reason, found=left, limit=EVEN, unit="mm", source="geometry")
        if plan.form == SHOULDERED and plan.enters < LEAST_TONGUE:
            reason = say(
                "a tongue of {} is all that the end has room for; it needs {}",
                Length(plan.enters),
                Length(LEAST_TONGUE, Fineness.WHOLE),
            )
            return Judgement.refused(reason, found=plan.enters, limit=LEAST_TONGUE, unit="mm", source="common practice")
        return Judgement(possible=True)

    def worked(self, meeting: Meeting, options: HousingOptions) -> HousingOptions:
        """Its clearance, depth and form, of a shouldered end the tongue; at which edge it stops, the making settles."""
        plan = _plan(meeting, options, _run(meeting, options))
        tongue = plan.enters if plan.form == SHOULDERED else None
        return filled(options, clearance=options.play(), depth=plan.depth, raked=plan.form, tongue=tongue)

    def makings(self, meeting: Meeting, options: HousingOptions) -> tuple[Making, ...]:
        """It goes in along its length, and from each edge that the housing opens to: which, may be left open."""
        if options.stop != "one end":
            return (_hand(meeting, options, ""),)
        stops: tuple[StopAt, ...] = ("front", "wall")
        return tuple(_hand(meeting, stopped(options, stop), stop, rank) for rank, stop in enumerate(stops))

    def eases(self, meeting: Meeting, options: HousingOptions, making: Making) -> tuple[Ease, ...]:
        """Open it to the wall, else to the front, else to both."""
        now = as_made(options, making).stop
        return opened(meeting, now, "housing", lambda stop: _hand(meeting, stopped(options, stop), ""))

    def matings(self, meeting: Meeting, options: HousingOptions, making: Making) -> tuple[Mating, ...]:
        """The two walls with what enters between them."""
        options = as_made(options, making)
        plan = _plan(meeting, options, _run(meeting, options))
        x, y = (1.0, 0.0) if plan.form == SHOULDERED else (-plan.lines.along[1] + 0.0, plan.lines.along[0])
        a, b = meeting.a.body, meeting.b.body
        return (
            Mating(
                key=f"housing in {b} for {a}",
                cut_in=b,
                takes=a,
                normal=(x, y, 0.0),
                nominal=length(plan.width),
                play=length(options.play()),
                play_from="clearance",
            ),
        )

    def make(self, meeting: Meeting, options: HousingOptions, making: Making) -> Joint[HousingOptions]:
        """Cut the housing, then the end that goes in."""
        options = as_made(options, making)
        run = _run(meeting, options)
        plan = _plan(meeting, options, run)
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            glued=options.glued,
            cuts=(_housing(meeting, plan, run, options), _end(meeting, plan, run, options)),
            gaps=_gaps(meeting, plan, run, options),
            hidden_mm2=_hidden(meeting, plan, run),
            findings=(*shallow_angle(meeting), *_too_deep(meeting, plan), *_too_shallow(meeting, plan)),
        )

    def glues(self, options: HousingOptions) -> bool:
        """As asked."""
        return options.glued

    def gluing(self, options: HousingOptions) -> tuple[tuple[str, Plain], ...]:
        """An option of its own."""
        return () if options.glued else (("glued", True),)

    def carries(self, joint: Joint[HousingOptions]) -> tuple[Carry, ...]:
        """The end rests on the floor and stands between walls: too short to hold a board out, or to hang one from."""
        meeting, out = joint.meeting, joint.making.motions[0].direction
        a, b, sine = meeting.a, meeting.b, Lines.of(meeting.b, meeting.a).sine
        along_a, along_b = axes(meeting)
        to_face = b.thickness / 2 / sine
        mouth = spread(meeting.frame.origin, off_the_end(a, along_a), to_face)[1]
        into = left_of(along_b) if b.face < 0 else opposite(left_of(along_b))
        bears = (
            rests(a.body, b.body, into, spread(mouth, along_b, a.thickness / 2 / sine)),
            sideways(a.body, b.body, left_of(out), (mouth,)),
        )
        return (*bears, fast(meeting, glue=True)) if joint.glued else bears

    def follow(self, meeting: Meeting, options: HousingOptions, cut: tuple[AsCut, ...]) -> HousingOptions:
        """An end that is not cut yet goes as deep as the housing is; a housing, as deep as the end reaches."""
        gap = _plan(meeting, options, _run(meeting, options)).gap
        deep = depth_followed(meeting, options.depth, depth_as_cut(meeting.a, meeting.b, cut, gap))
        if deep is None:
            return options
        followed = options.model_copy(update={"depth": deep})
        return followed if self.judge(meeting, followed).possible else options

    def glue(self, joint: Joint[HousingOptions]) -> tuple[GlueZone, ...]:
        """Side grain of what enters on end grain of the walls; its end grain on the side grain of the floor."""
        if not joint.glued:
            return ()
        bears = any(gap.between is Between.SHOULDER for gap in joint.gaps)
        faces = "the walls and shoulders of the housing" if bears else "the walls and floor of the housing"
        area = next(area for body, area in joint.hidden_mm2 if body == joint.meeting.a.body)
        says = say("{} and what enters", faces)
        return (GlueZone(faces=says, grain=(Grain.SIDE, Grain.END), area_mm2=area),)

    def operations(self, joint: Joint[HousingOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """The housing by its form, and the end that goes in."""
        options = joint.options
        form = _plan(joint.meeting, options, _run(joint.meeting, options)).form
        return tuple(work.operation(cut, boards[cut.body], form) for cut in joint.cuts)

    def notes(self, joint: Joint[HousingOptions]) -> tuple[Words, ...]:
        """Where it bears."""
        bears = any(gap.between is Between.SHOULDER for gap in joint.gaps)
        if bears:
            return ("The shoulder bears; the end does not reach the bottom.",)
        return ("The end bottoms and sets the length.",)


def _hand(meeting: Meeting, options: HousingOptions, stop: str, rank: int = 0) -> Making:
    """One way to make it; `stop` is what was left open and is so settled."""
    run = _run(meeting, options)
    name = say("{} housed in {}", Name(meeting.a.body), Name(meeting.b.body))
    if stop:
        name = say("{}, open to the {}", name, "wall" if stop == "front" else "front")
    plan = _plan(meeting, options, run)
    out = Motion(
        body=meeting.a.body, direction=plan.outward(meeting.frame), free=length(plan.way_out), slack=options.play()
    )
    motions = (out, *run.sideways(meeting.a, meeting.b))
    return Making(name=name, motions=motions, rank=rank, word=("stop", stop) if stop else ("", ""))


def _run(meeting: Meeting, options: HousingOptions) -> RunOut:
    return RunOut.asked(meeting.a, meeting.b, options.stop, options.stop_distance, options.play())


def _plan(meeting: Meeting, options: HousingOptions, run: RunOut) -> LetIn:
    a, b = meeting.a, meeting.b
    lines = Lines.of(b, a)
    depth = usual_depth(b, options.depth)
    film = films(enters=a, receives=b)
    width = a.thickness + film + options.play() + options.swelling
    form = _form(lines, options, depth, width, b.thickness)
    gap = BOTTOM_GAP if run.shouldered or form == SHOULDERED else 0.0
    face_c = b.face * b.thickness / 2
    enters = a.thickness
    floor = lines.on_line(b.face * (b.thickness / 2 - depth))
    if form == SHOULDERED:
        middle, enters = _tongue(lines, options, depth, gap, face_c)
        floor = (middle, floor[1])
        width = enters + film + options.play() + options.swelling
    return LetIn(lines, form, depth, width, enters, floor, gap, face_c)


def _form(lines: Lines, options: HousingOptions, depth: float, width: float, thickness: float) -> str:
    """The form asked for; else a tilted router's floor while the rake and the depth allow it."""
    rake = abs(lean(lines))
    if rake < SQUARE:
        return SHOULDERED if options.raked == SHOULDERED else ""
    if options.raked:
        return options.raked
    fall = width / 2 * abs(lines.along[0])
    fits = depth + fall <= thickness / 2 + SQUARE and depth - fall >= EVEN
    return SQUARE_FLOOR if rake <= TILTED_ROUTER + SQUARE and fits else FACE_FLOOR


def _tongue(lines: Lines, options: HousingOptions, depth: float, gap: float, face_c: float) -> tuple[float, float]:
    """Middle and thickness of a tongue worked square to the face on a leaning end.

    The end's own wood moves sideways as it goes in; the tongue takes the strip that is there all the way,
    less a shoulder on each side.
    """
    half = lines.a.thickness / 2 / lines.sine
    at_face = lines.on_line(face_c)[0]
    at_end = lines.on_line(face_c - lines.b.face * (depth - gap))[0]
    low, high = max(at_face, at_end) - half, min(at_face, at_end) + half
    room = high - low - 2 * LEAST_SHOULDER
    wanted = options.tongue if options.tongue is not None else math.floor(lines.a.thickness / 2 / EVEN) * EVEN
    thick = min(wanted, math.floor(room / EVEN + SQUARE) * EVEN)
    return (low + high) / 2, thick


def _housing(meeting: Meeting, plan: LetIn, run: RunOut, options: HousingOptions) -> Cut:
    a, b = meeting.a, meeting.b
    says = say("housing in {} for {}", Name(b.body), Name(a.body))
    return Cut(
        key=str(says),
        says=says,
        body=b.body,
        form=CutForm.HOUSING,
        word="stopped housing" if run.shouldered else "raked housing" if plan.form else "housing",
        noun="housing",
        takes=a.body,
        joint=meeting.key,
        face=plan.face,
        shapes=(plan.housing(run),),
        figures=Figures(
            width=_width(plan, options),
            on_face=length(plan.width / plan.steepness),
            depth=Sum.alone(plan.depth, Word.DEPTH),
            opens=Opens.FACE,
            stops=run.stops(a, b, options.stop_distance, options.play()),
            between_faces=meeting.angle,
            lean=0.0 if plan.form == SHOULDERED else lean(plan.lines),
        ),
        size_is="FIT TO",
    )


def _width(plan: LetIn, options: HousingOptions) -> Sum:
    a, b = plan.lines.a, plan.lines.b
    enters = Term(Word.TONGUE if plan.form == SHOULDERED else Word.THICKNESS, plan.enters)
    between = walls(film=films(enters=a, receives=b), swelling=options.swelling, clearance=options.play())
    return Sum(a.body, (enters, *between))


def _end(meeting: Meeting, plan: LetIn, run: RunOut, options: HousingOptions) -> Cut:
    """The end that goes in: its end plane, and what is taken off it down to the face."""
    a = meeting.a
    word = "bevelled end" if plan.lines.cotangent and not plan.square_end else "end"
    says = say("end of {} in {}", Name(a.body), Name(meeting.b.body))
    return Cut(
        key=str(says),
        says=says,
        body=a.body,
        form=CutForm.END,
        word="stopped end" if run.shouldered else word,
        noun="tongue",
        takes="",
        joint=meeting.key,
        end=a.end,
        shapes=plan.end(run),
        figures=Figures(
            width=Sum.alone(plan.enters, Word.TONGUE if plan.form == SHOULDERED else Word.THICKNESS, a.body),
            depth=_goes_in(plan),
            opens=Opens.END,
            stops=run.cut_back(meeting.a, meeting.b, options.stop_distance, options.play()),
            between_faces=meeting.angle,
            lean=plan.end_lean,
            stands="shoulder" if plan.bears else "face",
        ),
        size_is="FIXED",
    )


def _goes_in(plan: LetIn) -> Sum:
    less = (Term(Word.GAP, -plan.gap),) if plan.gap else ()
    return Sum(plan.lines.b.body, (Term(Word.DEPTH, plan.depth), *less))


def _gaps(meeting: Meeting, plan: LetIn, run: RunOut, options: HousingOptions) -> tuple[Gap, ...]:
    gaps = [
        Gap(between=Between.WALL, size=length((plan.width - plan.enters) / 2), count=2),
        Gap(between=Between.BOTTOM, size=length(plan.gap)),
    ]
    if plan.bears:
        count = run.stop_low + run.stop_high + 2 * (plan.form == SHOULDERED)
        gaps.append(Gap(between=Between.SHOULDER, size=0.0, count=count))
    closed = int(run.closed_low) + int(run.closed_high)
    if closed:
        gaps.append(Gap(between=Between.STOPPED_END, size=length(options.play()), count=closed))
    return tuple(gaps)


def _hidden(meeting: Meeting, plan: LetIn, run: RunOut) -> tuple[tuple[str, float], ...]:
    """Both sides and the end of what goes in, and the walls and floor that take it."""
    sides = 2 * (plan.depth - plan.gap) / plan.steepness * run.length
    end = plan.enters * run.length / (plan.steepness if plan.form == FACE_FLOOR else 1.0)
    return ((meeting.a.body, sides + end), (meeting.b.body, sides + end))


def _too_deep(meeting: Meeting, plan: LetIn) -> tuple[Finding, ...]:
    """No deeper than half the board."""
    b = meeting.b
    deepest = plan.depth + plan.fall
    if deepest <= b.thickness / 2 + SQUARE:
        return ()
    able = min(b.thickness / 2, b.thickness - least_web(b.thickness)) - plan.fall
    return (
        Finding(
            code=DEEP,
            severity=Severity.STOP,
            where=Where(boards=(b.body, meeting.a.body), joint=meeting.key),
            says=say(
                "the housing in {} for {} is {} deep in {}",
                Name(b.body),
                Name(meeting.a.body),
                Length(deepest),
                Length(b.thickness),
            ),
            remedy=say("make it no deeper than {}", Length(able, side=On.DOWN)),
            found=deepest,
            limit=b.thickness / 2,
            unit="mm",
            source="common practice",
            cures=(asked("make it {} deep", "depth", able, "-"),) if able - plan.fall >= EVEN else (),
        ),
    )


def _too_shallow(meeting: Meeting, plan: LetIn) -> tuple[Finding, ...]:
    """3 deep at least, where the board allows it."""
    if plan.depth >= LEAST_DEPTH - SQUARE:
        return ()
    a, b = meeting.a.body, meeting.b
    room = b.thickness / (4 if b.opposed else 2) - plan.fall
    fits = room >= LEAST_DEPTH and b.thickness - (2 if b.opposed else 1) * LEAST_DEPTH >= least_web(b.thickness)
    return (
        Finding(
            code=SHALLOW_HOUSING,
            severity=Severity.WARN,
            where=Where(boards=(b.body, a), joint=meeting.key),
            says=say("the housing in {} for {} is only {} deep", Name(b.body), Name(a), Length(plan.depth)),
            remedy=say("make it {} or more", Length(LEAST_DEPTH, side=On.UP))
            if fits
            else say("use a thicker board for {}", Name(b.body)),
            found=plan.depth,
            limit=LEAST_DEPTH,
            unit="mm",
            source="common practice",
            cures=(asked("make it {} deep", "depth", LEAST_DEPTH, "+"),) if fits else (),
        ),
    )
