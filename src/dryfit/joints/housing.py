"""Housing: the end of one board let into the face of another, square or raked, through or stopped.

A plain through housing bottoms: it sets the length of the board that ends. Where a shoulder bears
(stopped, or shouldered) the end stops a little short of the bottom instead. Lengths in mm.
"""

import math
from dataclasses import dataclass
from typing import Annotated, Literal, TypeAlias

from pydantic import Field

from ..findings import Finding, Severity, declare, said
from ..geometry.frames import Vec, Vec2, length
from ..geometry.shapes import OVER, HalfSpace, Prism, half_space, prism
from ..job.options import Options, Quantity, Within
from ..piece.kinds import JointKind
from ..piece.model import (
    FAR_END,
    Cut,
    Ease,
    Figures,
    Gap,
    GlueFace,
    Hand,
    Joint,
    Judgement,
    Mating,
    Meeting,
    Motion,
    Side,
    Touch,
)
from ..piece.plane import Lines, lean
from ..places import Where
from .common import default_clearance, judge_angle, shallow_angle, told
from .registry import register

FLUSH = 1.0  # set back by no more, the housing still runs out at the edge
BOTTOM_GAP = 1.0  # under an end whose shoulder bears
TILTED_ROUTER = 15.0  # degrees of rake up to which the floor is left square to the walls (common practice)
LEAST_SHOULDER = 3.0  # beside a tongue, each side (common practice)
LEAST_TONGUE = 5.0
EVEN = 0.5  # depths and tongues the tool chooses are whole steps of this
SQUARE = 1e-9

DEEP = declare("housing-too-deep", "A housing takes more than half of the board that receives it.")

_Stop: TypeAlias = Literal["through", "front", "wall", "both"]
RakedForm: TypeAlias = Literal["floor square to walls", "floor parallel to face", "shouldered"]


class HousingOptions(Options):
    """Options of a housing."""

    clearance: Annotated[Quantity, Within(least=0)] | None = Field(
        default=None, description="Play across the walls, total of both sides; left out: 0.10 glued, 0.15 dry."
    )
    depth: Quantity | None = Field(
        default=None,
        description="Depth on the centre-line, square to the face; left out: a third of the thickness, a quarter where "
        "two meet, rounded down to a whole 0.5.",
    )
    stop: Literal["through", "front", "wall", "both", "one end"] = Field(
        default="through",
        description="At which edges the housing stops short; one end: at the front, unless it must be the wall.",
    )
    stop_distance: Annotated[Quantity, Within(least=0)] = Field(
        default=12.0, description="From the edge of the board that ends to a stopped end."
    )
    raked: Literal["", "floor square to walls", "floor parallel to face", "shouldered"] = Field(
        default="", description="Form of a raked housing; left out: by the rake and the depth."
    )
    tongue: Quantity | None = Field(
        default=None, description="Thickness of a shouldered end's tongue; left out: half the board."
    )
    swelling: Annotated[Quantity, Within(least=0)] = Field(
        default=0.0, description="Growth of the board's thickness to be allowed for."
    )
    glued: bool = Field(default=True, description="Whether the end is glued in.")

    def play(self) -> float:
        """Clearance across the walls."""
        return default_clearance(self.clearance, glued=self.glued)


@dataclass(frozen=True, slots=True)
class _Run:
    """How the housing runs out of the wall, in the world.

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

    @property
    def shouldered(self) -> bool:
        return self.stop_low or self.stop_high

    @property
    def length(self) -> float:
        return self.tongue_high - self.tongue_low


@dataclass(frozen=True, slots=True)
class _Plan:
    """One housing set out in the plane of the board that receives it.

    Attributes:
        form: "" where the boards are square to each other.
        depth: on the centre-line, square to the face.
        width: between the walls.
        enters: thickness of what goes in.
        floor: where the centre-line of what goes in meets the floor.
        gap: between floor and end.
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
        return self.lines.b.face

    @property
    def bears(self) -> bool:
        return self.gap > 0.0


@register
class Housing(JointKind[HousingOptions]):
    """One board's end let into another's face."""

    name = "housing"
    serves = frozenset({(Touch.END, Touch.FACE)})
    options = HousingOptions

    def judge(self, meeting: Meeting, options: HousingOptions) -> Judgement:
        """Possible from 15 degrees on, while the end has room on the face and a tongue has room in the end."""
        angle = judge_angle(meeting, self.name)
        if not angle.possible:
            return angle
        run = _run(meeting, options)
        if run.length <= 0.0:
            return Judgement(possible=False, reasons=("the stops leave nothing to go in",))
        plan = _plan(meeting, options, run)
        if plan.depth <= 0.0:
            return Judgement(possible=False, reasons=("the housing has no depth",))
        fall = plan.width / 2 * abs(plan.lines.along[0])
        if plan.form == "floor square to walls" and plan.depth - fall < EVEN:
            reason = f"a floor square to the walls falls {said(fall)} to either side and would come out of the face"
            return Judgement(possible=False, reasons=(reason,))
        if plan.form == "shouldered" and plan.enters < LEAST_TONGUE:
            reason = (
                f"a tongue of {said(plan.enters)} is all that the end has room for; it wants {said(LEAST_TONGUE, 0)}"
            )
            return Judgement(possible=False, reasons=(reason,))
        return Judgement(possible=True)

    def hands(self, meeting: Meeting, options: HousingOptions) -> tuple[Hand, ...]:
        """It goes in along its length, and from each edge that the housing opens to: which, may be left open."""
        if options.stop != "one end":
            return (_hand(meeting, options, ""),)
        stops: tuple[_Stop, ...] = ("front", "wall")
        return tuple(_hand(meeting, _stopped(options, stop), stop, rank) for rank, stop in enumerate(stops))

    def eases(self, meeting: Meeting, options: HousingOptions, hand: Hand) -> tuple[Ease, ...]:
        """Open it to the wall, else to the front, else to both."""
        a, b = meeting.a.body, meeting.b.body
        now = _as_made(options, hand).stop
        ways: tuple[tuple[_Stop, str], ...] = (
            ("front", "to the wall"),
            ("wall", "to the front"),
            ("through", "to both"),
        )
        return tuple(
            Ease(
                says=f"open the housing in {b} for {a} {where}",
                options=(("stop", stop),),
                hand=_hand(meeting, _stopped(options, stop), ""),
            )
            for stop, where in ways
            if now not in (stop, "through")
        )

    def matings(self, meeting: Meeting, options: HousingOptions, hand: Hand) -> tuple[Mating, ...]:
        """The two walls with what enters between them."""
        options = _as_made(options, hand)
        plan = _plan(meeting, options, _run(meeting, options))
        x, y = (1.0, 0.0) if plan.form == "shouldered" else (-plan.lines.along[1] + 0.0, plan.lines.along[0])
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

    def make(self, meeting: Meeting, options: HousingOptions, hand: Hand) -> Joint:
        """Cut the housing, then the end that goes in."""
        options = _as_made(options, hand)
        run = _run(meeting, options)
        plan = _plan(meeting, options, run)
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=told(options),
            hand=hand,
            cuts=(_housing(meeting, plan, run, options), _end(meeting, plan, run)),
            gaps=_gaps(meeting, plan, run, options),
            hidden_mm2=_hidden(meeting, plan, run),
            findings=(*shallow_angle(meeting), *_too_deep(meeting, plan)),
        )

    def glue(self, joint: Joint) -> tuple[GlueFace, ...]:
        """Side grain of what enters on end grain of the walls; its end grain on the side grain of the floor."""
        if not dict(joint.options)["glued"]:
            return ()
        enters = joint.meeting.a.body
        return tuple(GlueFace(grain="side-end", area_mm2=area) for body, area in joint.hidden_mm2 if body == enters)

    def notes(self, joint: Joint) -> tuple[str, ...]:
        """Where it bears."""
        bears = any(gap.between == "shoulder" for gap in joint.gaps)
        if bears:
            return ("The shoulder bears; the end does not reach the bottom.",)
        return ("The end bottoms and sets the length.",)


def _stopped(options: HousingOptions, stop: _Stop) -> HousingOptions:
    return options.model_copy(update={"stop": stop})


def _as_made(options: HousingOptions, hand: Hand) -> HousingOptions:
    """The options with the stop that the hand settled, where they left it open."""
    key, value = hand.word
    return options.model_copy(update={"stop": value}) if key == "stop" else options


def _hand(meeting: Meeting, options: HousingOptions, stop: str, rank: int = 0) -> Hand:
    """One way to make it; `stop` is what was left open and is so settled."""
    run = _run(meeting, options)
    name = f"{meeting.a.body} let into {meeting.b.body}"
    if stop:
        name += ", open to the wall" if stop == "front" else ", open to the front"
    motions = _motions(meeting, _plan(meeting, options, run), run, options.play())
    return Hand(name=name, motions=motions, rank=rank, word=("stop", stop) if stop else ("", ""))


def _run(meeting: Meeting, options: HousingOptions) -> _Run:
    a, b = meeting.a, meeting.b
    play, s = options.play(), options.stop_distance
    stop_low, stop_high = options.stop in ("wall", "both"), options.stop in ("front", "both", "one end")
    low, high = max(a.back, b.back), min(a.front, b.front)
    tongue_low, tongue_high = low, high
    closed_low = stop_low or a.back > b.back + FLUSH
    closed_high = stop_high or a.front < b.front - FLUSH
    if stop_low:
        low, tongue_low = low + s, low + s + play
    elif closed_low:
        low -= play
    if stop_high:
        high, tongue_high = high - s, high - s - play
    elif closed_high:
        high += play
    return _Run(low, high, tongue_low, tongue_high, stop_low, stop_high, closed_low, closed_high)


def _plan(meeting: Meeting, options: HousingOptions, run: _Run) -> _Plan:
    a, b = meeting.a, meeting.b
    lines = Lines.of(b, a)
    depth = _depth(b, options)
    film = 2 * a.film + 2 * b.film
    width = a.thickness + film + options.play() + options.swelling
    form = _form(lines, options, depth, width, b.thickness)
    gap = BOTTOM_GAP if run.shouldered or form == "shouldered" else 0.0
    face_c = b.face * b.thickness / 2
    enters = a.thickness
    floor = lines.on_line(b.face * (b.thickness / 2 - depth))
    if form == "shouldered":
        middle, enters = _tongue(lines, options, depth, gap, face_c)
        floor = (middle, floor[1])
        width = enters + film + options.play() + options.swelling
    return _Plan(lines, form, depth, width, enters, floor, gap, face_c)


def _depth(b: Side, options: HousingOptions) -> float:
    """As asked; else a third of the thickness, a quarter where two face each other, in whole steps."""
    if options.depth is not None:
        return options.depth
    share = 4.0 if b.opposed else 3.0
    return max(EVEN, math.floor(b.thickness / share / EVEN + SQUARE) * EVEN)


def _form(lines: Lines, options: HousingOptions, depth: float, width: float, thickness: float) -> str:
    """The form asked for; else a tilted router's floor while the rake and the depth allow it."""
    rake = abs(lean(lines))
    if rake < SQUARE:
        return "shouldered" if options.raked == "shouldered" else ""
    if options.raked:
        return options.raked
    fall = width / 2 * abs(lines.along[0])
    fits = depth + fall <= thickness / 2 + SQUARE and depth - fall >= EVEN
    return "floor square to walls" if rake <= TILTED_ROUTER + SQUARE and fits else "floor parallel to face"


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
    thick = min(wanted, math.floor(room / EVEN) * EVEN)
    return (low + high) / 2, thick


def _motions(meeting: Meeting, plan: _Plan, run: _Run, play: float) -> tuple[Motion, ...]:
    """Out of the face, and towards each edge where no wood of the receiving board stands in the way."""
    body = meeting.a.body
    out = Motion(body=body, direction=_outward(meeting, plan), free=length(_way_out(plan)), slack=play)
    motions = [out]
    if not run.closed_high:
        motions.append(Motion(body=body, direction=(0.0, 0.0, 1.0), free=length(meeting.b.front - run.tongue_low)))
    if not run.closed_low:
        motions.append(Motion(body=body, direction=(0.0, 0.0, -1.0), free=length(run.tongue_high - meeting.b.back)))
    return tuple(motions)


def _way_out(plan: _Plan) -> float:
    """How far the end travels along its walls until its deepest corner is at the face."""
    if plan.form in ("", "floor square to walls"):
        corner = plan.lines.a.thickness / 2 * abs(plan.lines.along[0])  # of an end left square, below its middle
        return (plan.depth + corner) / plan.lines.sine - plan.gap
    return (plan.depth - plan.gap) / _steepness(plan)


def _steepness(plan: _Plan) -> float:
    return 1.0 if plan.form == "shouldered" else plan.lines.sine


def _outward(meeting: Meeting, plan: _Plan) -> Vec:
    """World direction in which the end is drawn out: along its walls."""
    x, y = (0.0, -float(plan.face)) if plan.form == "shouldered" else plan.lines.along
    along, across = meeting.frame.x, meeting.frame.y
    return (-(x * along[0] + y * across[0]) + 0.0, -(x * along[1] + y * across[1]) + 0.0, 0.0)


def _housing(meeting: Meeting, plan: _Plan, run: _Run, options: HousingOptions) -> Cut:
    a, b = meeting.a, meeting.b
    low = run.low - b.back if run.closed_low else -OVER
    high = run.high - b.back if run.closed_high else b.front - b.back + OVER
    shape: Prism = prism(_section(plan), low, high)
    return Cut(
        key=f"housing in {b.body} for {a.body}",
        body=b.body,
        kind="stopped housing" if run.shouldered else "raked housing" if plan.form else "housing",
        takes=a.body,
        joint=meeting.key,
        face=plan.face,
        shapes=(shape,),
        figures=Figures(
            across=length(plan.width),
            on_face=length(plan.width / _steepness(plan)),
            deep=length(plan.depth),
            opens="face",
            stop=length(b.front - run.high if run.closed_high else 0.0),
            between_faces=meeting.angle,
            lean=0.0 if plan.form == "shouldered" else lean(plan.lines),
            sum=_sum(plan, options),
        ),
        size_is="FIT TO",
        tool={
            "": "router on a guide",
            "floor square to walls": "tilted router: floor square to the walls",
            "floor parallel to face": "walls sawn, floor levelled",
            "shouldered": "router on a guide: walls square to the face",
        }[plan.form],
    )


def _sum(plan: _Plan, options: HousingOptions) -> str:
    a, b = plan.lines.a, plan.lines.b
    what = "tongue of " if plan.form == "shouldered" else ""
    film = f" + film {said(2 * a.film + 2 * b.film, 2)}" if a.film or b.film else ""
    swelling = f" + swelling {said(options.swelling, 2)}" if options.swelling else ""
    return f"{what}{a.body} {said(plan.enters, 2)}{film}{swelling} + clearance {said(options.play(), 2)}"


def _section(plan: _Plan) -> tuple[Vec2, ...]:
    """The housing's outline in the receiving board's plane, run out past the face."""
    lines, half = plan.lines, plan.width / 2
    out = plan.face * (lines.b.thickest / 2 + OVER)
    if plan.form == "shouldered":
        middle, floor = plan.floor
        return (middle - half, floor), (middle + half, floor), (middle + half, out), (middle - half, out)
    if plan.form == "floor square to walls":
        (x, y), (ux, uy) = plan.floor, lines.along
        left, right = (x - uy * half, y + ux * half), (x + uy * half, y - ux * half)
        return left, right, lines.on_line(out, half), lines.on_line(out, -half)
    floor = plan.floor[1]
    return (
        lines.on_line(floor, -half),
        lines.on_line(floor, half),
        lines.on_line(out, half),
        lines.on_line(out, -half),
    )


def _end(meeting: Meeting, plan: _Plan, run: _Run) -> Cut:
    """The end that goes in: its end plane, and what is taken off it down to the face."""
    a = meeting.a
    shapes: list[HalfSpace | Prism] = [_end_plane(plan)]
    whole = a.front - a.back
    low, high = run.tongue_low - a.back, run.tongue_high - a.back
    reach = a.thickest / plan.lines.sine + plan.depth * abs(plan.lines.cotangent) + 2 * OVER
    middle = plan.lines.on_line(plan.face_c)[0]
    if low > SQUARE:
        shapes.append(_beyond_face(plan, middle - reach, middle + reach, -OVER, low))
    if high < whole - SQUARE:
        shapes.append(_beyond_face(plan, middle - reach, middle + reach, high, whole + OVER))
    if plan.form == "shouldered":
        left, right = plan.floor[0] - plan.enters / 2, plan.floor[0] + plan.enters / 2
        shapes.append(_beyond_face(plan, middle - reach, left, -OVER, whole + OVER))
        shapes.append(_beyond_face(plan, right, middle + reach, -OVER, whole + OVER))
    kind = "bevelled end" if plan.form in ("floor parallel to face", "shouldered") and plan.lines.cotangent else "end"
    return Cut(
        key=f"end of {a.body} in {meeting.b.body}",
        body=a.body,
        kind="stopped end" if run.shouldered else kind,
        takes="",
        joint=meeting.key,
        end=a.end,
        shapes=tuple(shapes),
        figures=Figures(
            across=length(plan.enters),
            deep=length(plan.depth - plan.gap),
            opens="end",
            stop=length(max(run.tongue_low - a.back, 0.0) + max(a.front - run.tongue_high, 0.0)),
            between_faces=meeting.angle,
            lean=_end_lean(plan),
            sum=_end_sum(plan),
        ),
        size_is="FIXED",
        tool="saw",
    )


def _end_sum(plan: _Plan) -> str:
    if plan.bears:
        goes_in = plan.depth - plan.gap
        return f"between shoulders + {said(goes_in)} that goes in ({said(plan.depth)} deep less {said(plan.gap)})"
    return f"to the face of {plan.lines.b.body} + {said(plan.depth)} deep"


def _end_lean(plan: _Plan) -> float:
    """Degrees off square of the end's own plane."""
    return 0.0 if plan.form in ("", "floor square to walls") else abs(lean(plan.lines))


def _end_plane(plan: _Plan) -> HalfSpace:
    """Square to the board for a tilted router's floor, else parallel to the face; the gap off the floor."""
    lines = plan.lines
    if plan.form in ("", "floor square to walls"):
        x, y = lines.along
        point = (plan.floor[0] - x * plan.gap, plan.floor[1] - y * plan.gap)
        return half_space(lines.carry(point), (1.0 if lines.a.end == FAR_END else -1.0, 0.0))
    point = (plan.floor[0], plan.floor[1] + plan.face * plan.gap)
    return half_space(lines.carry(point), lines.carry_direction((0.0, -float(plan.face))))


def _beyond_face(plan: _Plan, low_a: float, high_a: float, low_d: float, high_d: float) -> Prism:
    """Everything of the entering board beyond the face, between two places along it and two depths."""
    face = plan.face_c
    deep = face - plan.face * (plan.depth + plan.lines.a.thickest + OVER)
    corners = ((low_a, face), (high_a, face), (high_a, deep), (low_a, deep))
    points = tuple(plan.lines.carry(corner) for corner in corners)
    return prism(points, low_d, high_d)


def _gaps(meeting: Meeting, plan: _Plan, run: _Run, options: HousingOptions) -> tuple[Gap, ...]:
    gaps = [
        Gap(between="wall", size=length((plan.width - plan.enters) / 2), count=2),
        Gap(between="bottom", size=length(plan.gap)),
    ]
    if plan.bears:
        count = run.stop_low + run.stop_high + 2 * (plan.form == "shouldered")
        gaps.append(Gap(between="shoulder", size=0.0, count=count))
    closed = int(run.closed_low) + int(run.closed_high)
    if closed:
        gaps.append(Gap(between="stopped end", size=length(options.play()), count=closed))
    return tuple(gaps)


def _hidden(meeting: Meeting, plan: _Plan, run: _Run) -> tuple[tuple[str, float], ...]:
    """Both sides and the end of what goes in, and the walls and floor that take it."""
    sides = 2 * (plan.depth - plan.gap) / _steepness(plan) * run.length
    end = plan.enters * run.length / (_steepness(plan) if plan.form == "floor parallel to face" else 1.0)
    return ((meeting.a.body, sides + end), (meeting.b.body, sides + end))


def _too_deep(meeting: Meeting, plan: _Plan) -> tuple[Finding, ...]:
    """No deeper than half the board."""
    b = meeting.b
    fall = plan.width / 2 * abs(plan.lines.along[0]) if plan.form == "floor square to walls" else 0.0
    deepest = plan.depth + fall
    if deepest <= b.thickness / 2 + SQUARE:
        return ()
    return (
        Finding(
            code=DEEP,
            severity=Severity.STOP,
            where=Where(boards=(b.body, meeting.a.body), joint=meeting.key),
            says=f"the housing in {b.body} for {meeting.a.body} is {said(deepest)} deep in {said(b.thickness)}",
            remedy=f"make it no deeper than {said(b.thickness / 2 - fall)}",
            found=deepest,
            limit=b.thickness / 2,
            unit="mm",
            source="common practice",
        ),
    )
