"""Cross halving: two boards that run through each other, each notched for the other to half the depth, or its share.

The board whose slot opens to the front lies first, the other comes down onto it from the front, or leaves
that way. Both come flush on their wall edges; the seats never touch. Where one board carries more than the other, the
shares may be unequal: it keeps what it is not cut. Of either board a third of its depth stays behind the slot.

Worked example: 300 deep both, a share of 0.3 from the board that opens to the front, 1 between the seats: its slot is
90 + 0.5 deep and leaves 209.5, the other's 210 + 0.5 and leaves 89.5, less than the 100 that are a third; on edge
(89.5 / 300)^2 = 9 % of its strength. Lengths in mm.
"""

import math
from collections.abc import Iterator, Mapping
from types import MappingProxyType
from typing import Annotated, Literal

from pydantic import Field

from ..findings import Finding, Severity, declare
from ..geometry.frames import length, turned
from ..geometry.shapes import OVER, Prism, prism
from ..job.options import CLEARANCE, NOT_BELOW_0, Options, Quantity, filled
from ..piece.carries import axes, fast, left_of, sideways, spread
from ..piece.facts import Between, CutForm, GlueZone, Grain, Opens, Size
from ..piece.kinds import Glyph, JointKind, asked
from ..piece.model import (
    Board,
    Carry,
    Cut,
    Figures,
    Gap,
    Joint,
    Judgement,
    Making,
    Mating,
    Meeting,
    Motion,
    Side,
    Touch,
    films,
)
from ..piece.operations import Operation, slotted
from ..piece.plane import Lines, lean, slot, square_slot
from ..piece.setout import AsCut
from ..piece.sums import Sum, Term, Word, walls
from ..places import Cure, Plain, Where
from ..sentences import Fineness, Length, Name, Words, say
from .common import WRITTEN, default_clearance, judge_angle, shallow_angle
from .registry import register

OPEN_NOTCH = declare(
    "open-notch",
    "A slot runs out at an edge where the other board does not fill it.",
    uncured="whether it may show, or the edges come level, is a choice of design",
)
SEAT = declare(
    "slot-without-seat",
    "A slot takes the whole width of its board, so that nothing is left of it there.",
    uncured="the boards' depths, or how the halving is shared, is a choice of design",
)
WEB = declare(
    "halving-thin",
    "A halving leaves less than a third of a board's depth behind a slot.",
    uncured="no share of the common depth leaves a third of both boards",
)
LEAST_RATIO, MOST_RATIO = 0.05, 0.95
HALF = 0.5
LEAST_SEAT = 1.0  # of wood left behind a slot: with less, the board is in two (ours)
LEAST_WEB = 1 / 3  # of a board's depth left behind its slot, as a lap of three boards leaves (common practice)
RATIO_STEP = 0.01  # a share that is offered is a whole number of these


class CrossHalvingOptions(Options):
    """Options of a cross halving."""

    clearance: Annotated[Quantity, CLEARANCE] | None = Field(
        default=None, description="Play across the walls, total of both sides; left out: 0.15 dry, 0.10 glued."
    )
    ratio: float = Field(
        default=HALF,
        gt=LEAST_RATIO,
        lt=MOST_RATIO,
        description="Share of the common depth cut from the board that opens to the front.",
    )
    end_clearance: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=1.0, description="Gap between the two seats, in all."
    )
    walls: Literal["leaning", "square"] = Field(
        default="leaning", description="Walls that follow the other board, or square ones that leave wedge gaps."
    )
    swelling: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=0.0, description="Growth of the board's thickness to be allowed for."
    )
    glued: bool = Field(default=False, description="Whether the crossing is glued.")

    def play(self) -> float:
        """Clearance across the walls, with its default (common practice: 0.15 dry, 0.10 glued)."""
        return default_clearance(self.clearance, glued=self.glued)


@register
class CrossHalving(JointKind[CrossHalvingOptions]):
    """Two boards notched for each other."""

    name = "cross halving"
    glyphs = MappingProxyType({
        "": Glyph(lines="M2.75 2.5h10.5v4.3H2.75z", solid="M2.75 9.2h10.5v4.3H2.75z"),
        "deeper to the front": Glyph(lines="M2.75 2.5h10.5v2.4H2.75z", solid="M2.75 7.3h10.5v6.2H2.75z"),
        "deeper to the wall": Glyph(lines="M2.75 2.5h10.5v6.2H2.75z", solid="M2.75 11.1h10.5v2.4H2.75z"),
    })  # fmt: skip
    codes = (OPEN_NOTCH, SEAT, WEB)
    serves = frozenset({(Touch.THROUGH, Touch.THROUGH)})
    options = CrossHalvingOptions

    def judge(self, meeting: Meeting, options: CrossHalvingOptions) -> Judgement:
        """Possible from 15 degrees on."""
        return judge_angle(meeting, self.name)

    def worked(self, meeting: Meeting, options: CrossHalvingOptions) -> CrossHalvingOptions:
        """Its clearance."""
        return filled(options, clearance=options.play())

    def makings(self, meeting: Meeting, options: CrossHalvingOptions) -> tuple[Making, ...]:
        """Either board's slot may open to the front."""
        return tuple(_hand(meeting, front, options) for front in (meeting.a.body, meeting.b.body))

    def matings(self, meeting: Meeting, options: CrossHalvingOptions, making: Making) -> tuple[Mating, ...]:
        """Each slot with the board that enters it."""
        return tuple(
            _mating(receives, enters, options) for receives, enters in ((meeting.a, meeting.b), (meeting.b, meeting.a))
        )

    def make(self, meeting: Meeting, options: CrossHalvingOptions, making: Making) -> Joint[CrossHalvingOptions]:
        """Cut the slot that opens to the front, then the one that opens to the wall."""
        first, second = meeting.side(making.front), meeting.other(making.front)
        low, high = _seats(meeting, options)
        cuts = (
            _cut(meeting, first, second, options, from_front=True, seat=low),
            _cut(meeting, second, first, options, from_front=False, seat=high),
        )
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            glued=options.glued,
            cuts=cuts,
            gaps=_gaps(meeting, options),
            hidden_mm2=_hidden(first, second, low, high),
            findings=(
                *shallow_angle(meeting),
                *_notches(meeting, first, second, options),
                *_no_seat(meeting, first, second, low, high, options),
                *_thin_webs(meeting, first, second, options),
            ),
        )

    def marked(self, joint: Joint[CrossHalvingOptions]) -> str:
        """By which of the two slots is the deeper share."""
        ratio = joint.options.ratio
        return "" if ratio == HALF else "deeper to the front" if ratio > HALF else "deeper to the wall"

    def glues(self, options: CrossHalvingOptions) -> bool:
        """As asked."""
        return options.glued

    def gluing(self, options: CrossHalvingOptions) -> tuple[tuple[str, Plain], ...]:
        """An option of its own."""
        return () if options.glued else (("glued", True),)

    def carries(self, joint: Joint[CrossHalvingOptions]) -> tuple[Carry, ...]:
        """Each board stands between the walls of the other's slot, as long as the other is thick."""
        meeting, (along_a, along_b) = joint.meeting, axes(joint.meeting)
        a, b, sine = meeting.a, meeting.b, Lines.of(meeting.b, meeting.a).sine
        in_b = spread(meeting.frame.origin, along_a, b.thickness / 2 / sine)
        in_a = spread(meeting.frame.origin, along_b, a.thickness / 2 / sine)
        walls = sideways(a.body, b.body, left_of(along_a), in_b), sideways(b.body, a.body, left_of(along_b), in_a)
        return (*walls, fast(meeting, glue=True)) if joint.glued else walls

    def follow(self, meeting: Meeting, options: CrossHalvingOptions, cut: tuple[AsCut, ...]) -> CrossHalvingOptions:
        """Where one slot is cut, the other is made as deep as it leaves."""
        if len(cut) != 1 or cut[0].deep is None or cut[0].opens not in ("front", "wall"):
            return options
        (one,), deep, half = cut, cut[0].deep, options.end_clearance / 2
        side = meeting.side(one.board)
        middle = side.front - deep + half if one.opens == "front" else side.back + deep - half
        low, high = meeting.overlap
        ratio = (high - middle) / (high - low)
        if abs(ratio - options.ratio) * (high - low) <= WRITTEN or not LEAST_RATIO < ratio < MOST_RATIO:
            return options
        return options.model_copy(update={"ratio": ratio})

    def glue(self, joint: Joint[CrossHalvingOptions]) -> tuple[GlueZone, ...]:
        """Walls against faces, if it is glued: end grain of one on side grain of the other."""
        if not joint.glued:
            return ()
        (_, area), _ = joint.hidden_mm2  # what touches is hidden on both bodies, and glued once
        return (GlueZone(faces="the walls, not the seats", grain=(Grain.SIDE, Grain.END), area_mm2=area),)

    def operations(self, joint: Joint[CrossHalvingOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """Each slot from the face, through the thickness."""
        return tuple(slotted(cut, boards[cut.body]) for cut in joint.cuts)

    def notes(self, joint: Joint[CrossHalvingOptions]) -> tuple[Words, ...]:
        """Which board lies first."""
        front, other = Name(joint.making.front), Name(joint.meeting.other(joint.making.front).body)
        laid = say("{} first, slot up; {} drops onto it, slot down.", front, other)
        return (laid, "A gap is left at the seats.")

    def figures(self, joint: Joint[CrossHalvingOptions]) -> tuple[Size, ...]:
        """Where the shares are unequal, the wood that is left behind either slot."""
        if joint.options.ratio == HALF:
            return ()
        meeting = joint.meeting
        first, second = meeting.side(joint.making.front), meeting.other(joint.making.front)
        webs = _webs(first, second, _seats(meeting, joint.options))
        return tuple(
            Size(
                of=say("{} in {}", cut.plain, Name(cut.body)),
                size="wood left",
                what="behind it",
                value=Length(web),
            )
            for cut, (_, web, _) in zip(joint.cuts, webs, strict=True)
        )


def slot_width(receives: Side, enters: Side, options: CrossHalvingOptions) -> float:
    """Across the walls: the board as it enters, with film on it and on the walls, play and swelling."""
    return enters.thickness + films(enters, receives) + options.play() + options.swelling


def _on_face(lines: Lines, width: float, options: CrossHalvingOptions) -> float:
    """Length on its board's face of a slot so wide across the walls."""
    wedge = lines.b.thickness * abs(lines.cotangent) if options.walls == "square" else 0.0
    return width / lines.sine + wedge


def _seats(meeting: Meeting, options: CrossHalvingOptions) -> tuple[float, float]:
    """Out of the wall: the seat of the slot from the front, and of the slot from the wall."""
    low, high = meeting.overlap
    middle = high - options.ratio * (high - low)
    half = options.end_clearance / 2
    return middle - half, middle + half


def _hand(meeting: Meeting, front: str, options: CrossHalvingOptions) -> Making:
    first, second = meeting.side(front), meeting.other(front)
    low, high = _seats(meeting, options)
    free = max(first.front - high, low - second.back)
    return Making(
        name=say("{}'s slot to the front", Name(front)),
        front=front,
        motions=(Motion(body=second.body, direction=(0.0, 0.0, 1.0), free=length(free)),),
        open_notch=length(max(0.0, first.front - second.front)),
    )


def _mating(receives: Side, enters: Side, options: CrossHalvingOptions) -> Mating:
    x, y = turned(receives.turn)
    return Mating(
        key=f"slot in {receives.body} for {enters.body}",
        cut_in=receives.body,
        takes=enters.body,
        normal=(-y + 0.0, x, 0.0),
        nominal=length(slot_width(receives, enters, options)),
        play=length(options.play()),
        play_from="clearance",
    )


def _cut(
    meeting: Meeting, receives: Side, enters: Side, options: CrossHalvingOptions, *, from_front: bool, seat: float
) -> Cut:
    width = slot_width(receives, enters, options)
    lines = Lines.of(receives, enters)
    square = options.walls == "square"
    plane = (square_slot if square else slot)(receives, enters, width, OVER)
    seat_d = seat - receives.back
    whole = receives.front - receives.back
    shape: Prism = prism(plane, seat_d, whole + OVER) if from_front else prism(plane, -OVER, seat_d)
    on_face = _on_face(lines, width, options)
    raked = meeting.angle < 90.0
    says = say("slot in {} for {}", Name(receives.body), Name(enters.body))
    return Cut(
        key=str(says),
        says=says,
        body=receives.body,
        form=CutForm.SLOT,
        word="raked slot" if raked and not square else "slot",
        noun="slot",
        takes=enters.body,
        joint=meeting.key,
        shapes=(shape,),
        figures=Figures(
            width=_width(receives, enters, options, leans=on_face - width),
            on_face=length(on_face),
            depth=_depth(meeting, receives, options, from_front=from_front),
            opens=Opens.FRONT if from_front else Opens.WALL,
            between_faces=90.0 if square else meeting.angle,
            lean=0.0 if square else lean(lines),
        ),
        size_is="FIT TO",
    )


def _width(receives: Side, enters: Side, options: CrossHalvingOptions, *, leans: float) -> Sum:
    """Across the walls; of square ones with what the other's lean takes between them."""
    between = walls(film=films(enters, receives), swelling=options.swelling, clearance=options.play())
    more = (Term(Word.LEAN, leans),) if options.walls == "square" and leans > 0.0 else ()
    return Sum(enters.body, (Term(Word.THICKNESS, enters.thickness), *between, *more))


def _depth(meeting: Meeting, receives: Side, options: CrossHalvingOptions, *, from_front: bool) -> Sum:
    """Its share of the common depth and half the gap, and by how much the other stands back from its edge."""
    low, high = meeting.overlap
    back = receives.front - high if from_front else low - receives.back
    share = options.ratio if from_front else length(1.0 - options.ratio)
    common = Term(Word.COMMON, share * (high - low), share=(share, high - low))
    behind = (Term(Word.SET_BACK, back),) if back else ()
    gap = (Term(Word.HALF_GAP, options.end_clearance / 2),) if options.end_clearance else ()
    return Sum("", (*behind, common, *gap))


def _gaps(meeting: Meeting, options: CrossHalvingOptions) -> tuple[Gap, ...]:
    seat = Gap(between=Between.SEAT, size=length(options.end_clearance))
    if options.walls == "square" and meeting.angle < 90.0:
        return (seat,)
    walls = (
        Gap(between=Between.WALL, size=length((slot_width(receives, enters, options) - enters.thickness) / 2), count=2)
        for receives, enters in ((meeting.a, meeting.b), (meeting.b, meeting.a))
    )
    return (*walls, seat)


def _hidden(first: Side, second: Side, low: float, high: float) -> tuple[tuple[str, float], ...]:
    """Faces of each board inside the other's slot, and the walls of its own that they cover."""
    sine = Lines.of(first, second).sine
    in_first = 2 * first.thickness / sine * max(0.0, min(first.front, second.front) - high)
    in_second = 2 * second.thickness / sine * max(0.0, low - max(first.back, second.back))
    both = in_first + in_second
    return ((first.body, both), (second.body, both))


def _notches(meeting: Meeting, first: Side, second: Side, options: CrossHalvingOptions) -> tuple[Finding, ...]:
    """Slots that run out where the other board does not fill them: at the front a fault, at the wall a note."""
    found = []
    for side, length_open, edge, severity in (
        (first, first.front - second.front, "front", Severity.WARN),
        (second, first.back - second.back, "wall", Severity.NOTE),
    ):
        if length_open > 1e-6:
            other = meeting.other(side.body)
            width = _on_face(Lines.of(side, other), slot_width(side, other, options), options)
            found.append(
                Finding(
                    code=OPEN_NOTCH,
                    severity=severity,
                    where=Where(boards=(side.body,), joint=meeting.key, cut=f"slot in {side.body} for {other.body}"),
                    says=say(
                        "open notch {} x {} at the {} of {}",
                        Length(length_open, Fineness.WHOLE),
                        Length(width),
                        edge,
                        Name(side.body),
                    ),
                    remedy=say("let {} open to the front, or bring the two front edges flush", Name(other.body))
                    if edge == "front"
                    else "leave it where the wall hides it, else bring the two wall edges flush",
                    found=length_open,
                    limit=0.0,
                    unit="mm",
                    source="geometry",
                )
            )
    return tuple(found)


def _halves(meeting: Meeting, first: Side, second: Side, options: CrossHalvingOptions) -> tuple[Cure, ...]:
    """Half of the common depth each, where that leaves both their seats."""
    low, high = _seats(meeting, options.model_copy(update={"ratio": HALF}))
    able = options.ratio != HALF and min(low - first.back, second.front - high) >= LEAST_SEAT
    return (asked("halve the common depth: ratio {}", "ratio", HALF),) if able else ()


def _webs(first: Side, second: Side, seats: tuple[float, float]) -> tuple[tuple[Side, float, str], ...]:
    """What is left of either board behind its slot, and at which edge."""
    low, high = seats
    return (first, low - first.back, "wall"), (second, second.front - high, "front")


def _thin_webs(meeting: Meeting, first: Side, second: Side, options: CrossHalvingOptions) -> Iterator[Finding]:
    """What is left of either board is a third of its depth; where it is next to nothing, that is a stop already."""
    for side, left, edge in _webs(first, second, _seats(meeting, options)):
        limit = (side.front - side.back) * LEAST_WEB
        if not LEAST_SEAT <= left < limit - WRITTEN:
            continue
        whole = side.front - side.back
        cures = _shares(meeting, first, second, options)
        yield Finding(
            code=WEB,
            severity=Severity.WARN,
            where=Where(boards=(side.body,), joint=meeting.key),
            says=say(
                "the slot in {} leaves {} of {} at the {}: on edge {} % of its strength",
                Name(side.body),
                Length(left),
                Length(whole),
                edge,
                format(100 * (left / whole) ** 2, ".0f"),  # of its section modulus, which goes with the square
            ),
            remedy="change the ratio so that both boards keep a third of their depth"
            if cures
            else "bring the edges of the two boards nearer to level, or let one board end on the other",
            found=left,
            limit=limit,
            unit="mm",
            source="common practice",
            cures=cures,
        )


def _shares(meeting: Meeting, first: Side, second: Side, options: CrossHalvingOptions) -> tuple[Cure, ...]:
    """The share nearest to the one asked for that leaves a third of either board; a half where that does."""
    (low, high), half = meeting.overlap, options.end_clearance / 2
    common = high - low
    most = (high - half - first.back - (first.front - first.back) * LEAST_WEB) / common
    least = (high - second.front + (second.front - second.back) * LEAST_WEB + half) / common
    least, most = math.ceil(least / RATIO_STEP - 1e-9), math.floor(most / RATIO_STEP + 1e-9)
    if least > most:
        return ()
    wanted = min(max(options.ratio / RATIO_STEP, least), most)
    share = HALF if least <= HALF / RATIO_STEP <= most else round(wanted) * RATIO_STEP
    able = LEAST_RATIO < share < MOST_RATIO
    return (asked("share the common depth: ratio {}", "ratio", round(share, 2)),) if able else ()


def _no_seat(
    meeting: Meeting, first: Side, second: Side, low: float, high: float, options: CrossHalvingOptions
) -> tuple[Finding, ...]:
    """A slot must leave wood behind it."""
    found = []
    for side, left, edge in _webs(first, second, (low, high)):
        if left < LEAST_SEAT:
            found.append(
                Finding(
                    code=SEAT,
                    severity=Severity.STOP,
                    where=Where(boards=(side.body,), joint=meeting.key),
                    says=say(
                        "the slot in {} leaves {} of wood at the {}", Name(side.body), Length(max(left, 0.0)), edge
                    ),
                    remedy="change the ratio or the depths so that both boards keep wood behind their slots",
                    found=left,
                    limit=LEAST_SEAT,
                    unit="mm",
                    source="common practice",
                    cures=_halves(meeting, first, second, options),
                )
            )
    return tuple(found)
