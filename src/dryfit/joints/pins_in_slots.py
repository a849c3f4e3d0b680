"""Pins in slots: a board slid, or dropped, onto pins that stand out of the face of another, and taken off again.

The pins are dowels glued into the face. The end of the board has a groove along its middle that is open to the wall
and stops behind the front edge, so that it slides on from the room and nothing shows (slide-on); or a slot for each
pin, up from the lower face to the middle, so that it is lowered onto them (drop-on). It is dry, and nothing but
friction keeps it from going back the way it came. Slid on, it may be locked by a pin that is pushed up from below
across the groove, just behind the pin that went in last of all: drawn out again, the board comes off. One that is
lowered is locked by a screw through its end.

Worked example: a shelf 27 thick and 300 deep on pins of 10 that stand 12 out, 70 from either edge, with 0.2 of play:
the groove is 10.2 wide, 12 + 1 = 13 deep, its round end 230 + 5 = 235 from the wall; (27 - 10.2) / 2 = 8.4 of wood stay
over and under it. Dropped on, 24 thick, 24 / 2 - 5 = 7 stay over a pin, and it must rise 12 + 5. A lock of 6 behind the
foremost pin: its axis 230 - 5 - 0.5 - 3 = 221.5 from the wall, 12 - 0.5 - 3 = 8.5 from the end; its hole goes through
the lower 8.4, the groove of 10.2, and 5.4 into the upper 8.4, of which 3 stay. Lengths in mm.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from types import MappingProxyType
from typing import Annotated, Literal

from pydantic import Field

from ..findings import Finding
from ..geometry.frames import Frame, Vec, length
from ..geometry.shapes import OVER, Bore, Knot, Prism, half_space
from ..job.options import CLEARANCE, NOT_BELOW_0, WORKED, Options, Quantity, filled
from ..piece.carries import axes, left_of, opposite, rests, sideways, spread
from ..piece.dowelling import breaks_out, holes
from ..piece.facts import Between, CutForm, Cutting, Opens, Size
from ..piece.holes import LEAST_WOOD, bores
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
    Touch,
    Ware,
)
from ..piece.onto import Onto
from ..piece.operations import Dial, Operation, Sets, Way, WorkSort, bored, sawn
from ..piece.sums import Sum, Term, Word
from ..sentences import Angle, Fineness, Length, Name, On, Several, Words, say
from ..shop.tools import Ability, Need, Process
from ..trade import dowels
from ..trade.dowels import DEEPER
from .common import ANGLE_SLACK
from .registry import register

PLAY = 0.2  # of a pin in its slot, total of both sides: it must go on and off by hand (common practice)
FREE = 1.0  # a slot is so much deeper than a pin stands out (common practice)
SQUARE_TO = 0.02  # degrees off square: pins stand square to the face (ours)
LEVEL_TO = 15.0  # degrees off level to which a board may be lowered onto its pins (ours)
INSET, MOST_INSET = 1 / 4, 70.0  # of the common depth, from either edge to the outer pins (common practice)
APART = 200.0  # two pins no further apart, or there is one more between them (common practice)
LEAST_OUT = 6.0  # of a pin, to carry (ours)
LOCK = 6.0  # diameter of a lock pin (ours: a dowel as sold)
LOCK_PLAY = 0.5  # between it and the pin that it stands behind (ours)
LOCK_IN = 1.0  # at least, of it in the wood over the groove (ours)
LOCK_GRIP = 5.0  # of it that stands out below, to draw it by (ours)


class PinsInSlotsOptions(Options):
    """Options of pins in slots."""

    form: Literal["slide-on", "drop-on"] = Field(
        default="slide-on",
        description="A groove along the end, open at one edge; or a slot up from below for each pin.",
    )
    open: Literal["wall", "front"] = Field(
        default="wall", description="Of a groove, the edge that it is open at: at the wall it slides on from the room."
    )
    pin: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="Diameter of the pins; left out: the next dowel as sold over a third of the thinner board.",
    )
    stands_out: Annotated[Quantity, WORKED] = Field(default=12.0, description="How far a pin stands out of the face.")
    pin_in: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="How deep a pin stands in the face; left out: about two thirds of the board, 5 left behind its "
        "hole, and no deeper than a third of it where another board ends opposite.",
    )
    pins: int = Field(default=0, ge=0, le=20, description="How many; 0: two, and one more for each 200 between them.")
    inset: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="From either edge to the outer pins' axes; left out: a quarter of the depth, up to 70.",
    )
    play: Annotated[Quantity, CLEARANCE] = Field(default=PLAY, description="Of a pin in its slot, total of both sides.")
    end_play: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=0.0, description="Between the foremost pin and the end of its groove."
    )
    lock: Literal["none", "pin"] = Field(
        default="none", description="Of one that slides on: a pin pushed up from below behind the last of its pins."
    )
    lock_pin: Annotated[Quantity, WORKED] = Field(default=LOCK, description="Diameter of the lock pin.")
    end_gap: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=0.5, description="Between the end of the board and the face, so that it slides between two of them."
    )


@register
class PinsInSlots(JointKind[PinsInSlotsOptions]):
    """An end slid onto pins."""

    name = "pins in slots"
    glyphs = MappingProxyType({"": Glyph(lines="M1 4.5h14M5 4.5v4M11 4.5v4M3 7v6h10v-6")})
    serves = frozenset({(Touch.END, Touch.FACE)})
    options = PinsInSlotsOptions

    def judge(self, meeting: Meeting, options: PinsInSlotsOptions) -> Judgement:
        """Possible square, with pins in the wood of both boards; lowered only where the board lies level."""
        return next(_refusals(meeting, options), Judgement(possible=True))

    def worked(self, meeting: Meeting, options: PinsInSlotsOptions) -> PinsInSlotsOptions:
        """The pins: how thick, how deep, how many and where."""
        plan = _Plan.of(meeting, options)
        return filled(options, pin=plan.wide, pin_in=plan.pin_in, pins=len(plan.places), inset=plan.inset)

    def held(self, options: PinsInSlotsOptions) -> Words:
        """By its pins."""
        return "on pins" if options.lock == "none" else "on pins, locked"

    def makings(self, meeting: Meeting, options: PinsInSlotsOptions) -> tuple[Making, ...]:
        """Off the pins the way it came, and straight out of the face."""
        plan = _Plan.of(meeting, options)
        a, b, out = Name(meeting.a.body), Name(meeting.b.body), plan.onto.out_of_face(meeting)
        off = Motion(body=meeting.a.body, direction=plan.off, free=length(plan.travel))
        straight = Motion(body=meeting.a.body, direction=out, free=length(plan.out - plan.gap))
        word = "slid onto" if options.form == "slide-on" else "lowered onto"
        return (Making(name=say("{} {} the pins of {}", a, word, b), motions=(off, straight)),)

    def matings(self, meeting: Meeting, options: PinsInSlotsOptions, making: Making) -> tuple[Mating, ...]:
        """The pins between the walls of their slots."""
        plan = _Plan.of(meeting, options)
        along_z = options.form == "slide-on"
        return (
            Mating(
                key=_key(meeting),
                cut_in=meeting.a.body,
                takes=f"pins of {meeting.b.body}",
                normal=(0.0, 1.0, 0.0) if along_z else (0.0, 0.0, 1.0),
                nominal=length(plan.slot),
                play=length(options.play),
                play_from="play",
            ),
        )

    def make(self, meeting: Meeting, options: PinsInSlotsOptions, making: Making) -> Joint[PinsInSlotsOptions]:
        """Cut the end to the face, its slots, and the holes for the pins."""
        plan = _Plan.of(meeting, options)
        locked = (_lock_hole(meeting, plan),) if plan.lock else ()
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            cuts=(_end(meeting, plan), _slots(meeting, plan), _holes(meeting, plan), *locked),
            gaps=(
                Gap(between=Between.BOTTOM, size=length(plan.gap)),
                Gap(between=Between.WALL, size=length(options.play / 2), count=2),
            ),
            findings=tuple(_thin(meeting, plan)),
        )

    def carries(self, joint: Joint[PinsInSlotsOptions]) -> tuple[Carry, ...]:
        """It hangs on its pins: between the walls of a groove, or on the pins under it; nothing draws it home."""
        meeting, plan = joint.meeting, _Plan.of(joint.meeting, joint.options)
        a, b, out = meeting.a.body, meeting.b.body, plan.onto.out_of_face(meeting)
        at = spread(meeting.frame.origin, out, meeting.b.thickness / 2)[1]
        across = left_of(axes(meeting)[0])
        home = rests(a, b, opposite(out), (at,))
        if joint.options.form == "slide-on":
            return (sideways(a, b, across, (at,)), home)
        return (rests(a, b, opposite(plan.off), (at,)), home)

    def hardware(self, joint: Joint[PinsInSlotsOptions]) -> tuple[Ware, ...]:
        """The pins, and the one that locks it."""
        plan = _Plan.of(joint.meeting, joint.options)
        count = len(plan.places)
        pins = _round("pin", plan.wide, plan.pin_in + plan.out, count)
        if not plan.lock:
            return (pins,)
        return (pins, replace(_round("lock pin", plan.lock, math.ceil(plan.lock_deep + LOCK_GRIP), 1), goes="driven"))

    def operations(self, joint: Joint[PinsInSlotsOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """The end is sawn, then grooved; the holes are drilled at the same places from the wall edge."""
        end, slots, drilled, *locked = joint.cuts
        sawn_end = sawn([end], boards[end.body])
        plan = _Plan.of(joint.meeting, joint.options)
        holes_made = bored(drilled, boards[drilled.body], "drill with a jig, from the wall edge")
        grooved = _slot_work(slots, boards[slots.body], plan, (sawn_end.key,))
        lock_made = (
            operation
            for cut in locked
            for operation in bored(
                cut, boards[cut.body], "drill from below, an offcut in the groove", after=(grooved.key,)
            )
        )
        return (sawn_end, grooved, *holes_made, *lock_made)

    def notes(self, joint: Joint[PinsInSlotsOptions]) -> tuple[Words, ...]:
        """How it goes on, what locks it, and where it is all measured from."""
        plan, a, b = _Plan.of(joint.meeting, joint.options), Name(joint.meeting.a.body), Name(joint.meeting.b.body)
        goes = say("{} is lowered onto the pins: keep {} free above it.", a, Length(plan.travel, side=On.UP))
        if joint.options.form == "slide-on":
            edge = "front" if joint.options.open == "wall" else "wall"
            goes = say("{} slides onto the pins from the {}; the groove is stopped at the other edge.", a, edge)
        return (
            goes,
            say("Glue the pins into {} only, {} standing out; rub their ends with wax.", b, Length(plan.out)),
            say(
                "Push the lock pin up from below once it is home, {} left to draw it by; do not glue it.",
                Length(LOCK_GRIP, Fineness.WHOLE),
            )
            if plan.lock
            else "Only friction keeps it on: a screw through one end locks it.",
        )

    def figures(self, joint: Joint[PinsInSlotsOptions]) -> tuple[Size, ...]:
        """The slots in the end, which are not drawn on the face with the pins."""
        plan, (_, slots, *_) = _Plan.of(joint.meeting, joint.options), joint.cuts
        of, a = say("{} in {}", slots.plain, Name(joint.meeting.a.body)), joint.meeting.a
        if plan.low:
            how: Words = "over a pin"
            left = (a.thickness - plan.wide) / 2
            more = Size(of=of, size="wood left", what=how, value=Length(left))
        else:
            edge = say("from the {} edge", plan.options.open)
            more = Size(of=of, size="round end", what=edge, value=Length(plan.apex, Fineness.WIDTH))
        return (
            Size(of=of, size="across", how=slots.figures.width or "", value=Length(plan.slot, Fineness.WIDTH)),
            Size(of=of, size="deep", what="from the end", how=slots.figures.depth or "", value=Length(plan.deep)),
            more,
            Size(of="pin", size="stands out", what="of the face", value=Length(plan.out)),
            *_lock_sizes(joint.meeting, plan),
        )

    def sections(self, joint: Joint[PinsInSlotsOptions]) -> tuple[Cutting, ...]:
        """A groove along the middle of the board; slots across its end, half-way in."""
        meeting = joint.meeting
        plan = _Plan.of(meeting, joint.options)
        out = plan.onto.out_of_face(meeting)
        x, y, _ = spread(meeting.frame.origin, out, meeting.b.thickness / 2)[1]
        low, high = meeting.a.back, meeting.a.front
        a, middle = Name(meeting.a.body), (low + high) / 2
        if plan.low:
            at = (x + out[0] * plan.out / 2, y + out[1] * plan.out / 2, middle)
            reach = ((high - low) / 2 + 4.0, meeting.a.thickness / 2 + 6.0)
            title = say("slots in the end of {}", a)
            bodies = (meeting.a.body,)
            return (Cutting(title=title, at=at, right=(0.0, 0.0, 1.0), up=plan.off, reach=reach, bodies=bodies),)
        deep = plan.deep + plan.gap
        at = (x + out[0] * deep / 2, y + out[1] * deep / 2, middle)
        reach = (deep + meeting.b.thickness / 2, (high - low) / 2 + 4.0)
        title = say("groove in {}, along its middle", a)
        return (Cutting(title=title, at=at, right=out, up=(0.0, 0.0, 1.0), reach=reach),)


# --- set-out -------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Plan:
    """Pins and slots.

    Attributes:
        wide, out, pin_in: of a pin: diameter, how far it stands out and in.
        slot: width of a slot; `deep` from the end.
        gap: between the end and the face.
        places: of the pins out of the wall.
        off: world direction in which the board leaves its pins; `travel` how far until it is free.
        low: of a board that is lowered, which face lies down: +1 or -1 of c; 0 of one that slides.
    """

    onto: Onto
    options: PinsInSlotsOptions
    wide: float
    pin_in: float
    inset: float
    places: tuple[float, ...]
    off: Vec
    travel: float
    low: int

    @classmethod
    def of(cls, meeting: Meeting, options: PinsInSlotsOptions) -> "_Plan":
        onto, a, b = Onto.of(meeting), meeting.a, meeting.b
        wide = options.pin if options.pin is not None else dowels.diameter_for(min(a.thickness, b.thickness))
        low, high = meeting.overlap
        inset = options.inset if options.inset is not None else min((high - low) * INSET, MOST_INSET)
        places = _places((low + inset, high - inset), options.pins)
        if options.form == "slide-on":
            off, down = (0.0, 0.0, 1.0 if options.open == "wall" else -1.0), 0
            past = places[-1] - a.back if options.open == "wall" else a.front - places[0]
            travel = past + wide / 2
        else:
            x, y, _ = left_of(axes(meeting)[0])  # of the board's own c
            down = -1 if y > 0.0 else 1
            off, travel = (-down * x + 0.0, -down * y + 0.0, 0.0), a.thickness / 2 + wide / 2
        return cls(onto, options, wide, _pin_in(meeting, options, wide), inset, places, off, travel, down)

    @property
    def out(self) -> float:
        """How far a pin stands out of the face."""
        return self.options.stands_out

    @property
    def lock(self) -> float:
        """Diameter of the pin that locks it; 0 for none."""
        return self.options.lock_pin if self.options.lock == "pin" else 0.0

    @property
    def lock_at(self) -> float:
        """Its axis out of the wall: behind the pin that the groove's round end stands at, as the board slides off."""
        aside = self.wide / 2 + LOCK_PLAY + self.lock / 2
        return self.places[-1] - aside if self.options.open == "wall" else self.places[0] + aside

    @property
    def lock_from_end(self) -> float:
        """Its axis from the end of the board: level with the pin's own end."""
        return self.out - self.gap - self.lock / 2

    @property
    def cheek(self) -> float:
        """Of wood over and under a groove."""
        return (self.onto.ends.thickness - self.slot) / 2

    @property
    def lock_deep(self) -> float:
        """Of its hole, from the lower face."""
        return self.onto.ends.thickness - LEAST_WOOD

    @property
    def slot(self) -> float:
        """Width of a slot."""
        return self.wide + self.options.play

    @property
    def gap(self) -> float:
        """Between the end and the face: as asked, and the finish on the face."""
        return self.options.end_gap + self.onto.takes.film

    @property
    def deep(self) -> float:
        """Of a slot, from the end."""
        return self.out + FREE

    @property
    def apex(self) -> float:
        """Of a groove, from the edge that it is open at to its round end."""
        a = self.onto.ends
        far = self.places[-1] - a.back if self.options.open == "wall" else a.front - self.places[0]
        return far + self.wide / 2 + self.options.end_play


def _places(over: tuple[float, float], count: int) -> tuple[float, ...]:
    low, high = over
    count = count or max(2, math.ceil((high - low) / APART - 1e-9) + 1)
    if count == 1:
        return ((low + high) / 2,)
    return tuple(low + (high - low) * number / (count - 1) for number in range(count))


def _pin_in(meeting: Meeting, options: PinsInSlotsOptions, wide: float) -> float:
    """As asked; else as a dowel across a face, and no deeper than a third of it where pins stand opposite."""
    if options.pin_in is not None:
        return options.pin_in
    if meeting.b.opposed:
        return max(1.0, float(math.floor(meeting.b.thickness / 3)))
    return next(dowels.across_a_face(meeting.b.thickness, wide)).in_face


def _refusals(meeting: Meeting, options: PinsInSlotsOptions) -> Iterator[Judgement]:
    a = meeting.a
    off = 90.0 - meeting.angle
    if off > SQUARE_TO:
        reason = say("the boards meet {} off square; pins stand square to the face", Angle(off))
        yield Judgement.refused(
            reason, remedy="choose a housing or a dovetail", found=off, limit=SQUARE_TO, unit="deg", source="ours"
        )
    lean = math.degrees(math.asin(min(1.0, abs(axes(meeting)[0][1]))))
    if options.form == "drop-on" and lean > LEVEL_TO + ANGLE_SLACK:
        reason = say("{} lies {} off level: it is lowered onto pins to {}", Name(a.body), Angle(lean), Angle(LEVEL_TO))
        cures = (asked("let it slide on", "form", "slide-on"),)
        yield Judgement.refused(
            reason, remedy="let it slide on", found=lean, limit=LEVEL_TO, unit="deg", source="ours", cures=cures
        )
    plan = _Plan.of(meeting, options)
    low, high = meeting.overlap
    apart = min((after - before for before, after in zip(plan.places, plan.places[1:], strict=False)), default=math.inf)
    edge = min(plan.places[0] - low, high - plan.places[-1]) - plan.slot / 2
    if plan.places[0] > plan.places[-1] or apart < 2 * plan.wide or edge < LEAST_WOOD:
        reason = say(
            "{} pins of {}, {} from the edges, have no room in {} of depth",
            str(len(plan.places)),
            Length(plan.wide),
            Length(plan.inset),
            Length(high - low, Fineness.WHOLE),
        )
        yield Judgement.refused(reason, remedy="take fewer or thinner ones, or another inset", source="common practice")
    if options.stands_out - plan.gap < LEAST_OUT:
        reason = say(
            "only {} of a pin would stand in the board; at least {}", Length(plan.out - plan.gap), Length(LEAST_OUT)
        )
        yield Judgement.refused(
            reason,
            remedy="let the pins stand out further",
            found=plan.out - plan.gap,
            limit=LEAST_OUT,
            unit="mm",
            source="ours",
            cures=(asked("let them stand {} out", "stands_out", LEAST_OUT + plan.gap, "+"),),
        )
    if plan.lock:
        yield from _lock_refused(plan)


def _lock_refused(plan: _Plan) -> Iterator[Judgement]:
    """What a lock pin needs: a groove to stand across, and wood about it."""
    none = asked("leave the lock out", "lock", "none")
    if plan.low:
        yield Judgement.refused(
            "a lock pin stands across a groove; a board that is lowered has none",
            remedy="let it slide on, or lock it with a screw through its end",
            source="geometry",
            cures=(asked("let it slide on", "form", "slide-on"), none),
        )
        return
    thick, least = plan.onto.ends.thickness, plan.slot + 2 * (LEAST_WOOD + LOCK_IN)
    if thick < least - 1e-9:
        yield Judgement.refused(
            say("{} over the groove holds no lock pin and {} beyond it", Length(plan.cheek), Length(LEAST_WOOD)),
            remedy="take thinner pins, or leave the lock out",
            found=plan.cheek,
            limit=LEAST_WOOD + LOCK_IN,
            unit="mm",
            source="common practice",
            cures=(none,),
        )
    left = plan.lock_from_end - plan.lock / 2
    if left < LEAST_WOOD - 1e-9:
        yield Judgement.refused(
            say("a lock pin of {} would stand {} from the end", Length(plan.lock), Length(max(left, 0.0))),
            remedy="take a thinner one, or let the pins stand out further",
            found=left,
            limit=LEAST_WOOD,
            unit="mm",
            source="common practice",
            cures=(
                asked("let them stand {} out", "stands_out", LEAST_WOOD + plan.lock + plan.gap, "+"),
                none,
            ),
        )
    apart = min((after - before for before, after in zip(plan.places, plan.places[1:], strict=False)), default=math.inf)
    free = apart - plan.wide - plan.lock - LOCK_PLAY
    if free < LOCK_PLAY - 1e-9:
        yield Judgement.refused(
            say("a lock pin of {} has no room between two pins", Length(plan.lock)),
            remedy="take fewer pins, or a thinner lock",
            found=free,
            limit=LOCK_PLAY,
            unit="mm",
            source="ours",
            cures=(none,),
        )
    low, high = plan.onto.ends.back, plan.onto.ends.front
    beside = min(plan.lock_at - low, high - plan.lock_at) - plan.lock / 2
    if beside < LEAST_WOOD - 1e-9:
        yield Judgement.refused(
            say("a lock pin of {} would stand {} from the edge", Length(plan.lock), Length(max(beside, 0.0))),
            remedy="set the pins further in, or leave the lock out",
            found=beside,
            limit=LEAST_WOOD,
            unit="mm",
            source="common practice",
            cures=(none,),
        )


def _round(what: str, wide: float, long: float, count: int) -> Ware:
    says = say("{} x {}", format(wide, "g"), format(long, "g"))
    return Ware(what=what, like="smooth dowel", says=says, count=count, diameter=wide, length=long, in_mm=True)


def _key(meeting: Meeting) -> str:
    return f"pin slots in {meeting.a.body} for {meeting.b.body}"


def _end(meeting: Meeting, plan: _Plan) -> Cut:
    a, b, onto = meeting.a, meeting.b, plan.onto
    x, y = onto.lines.on_line(onto.face_c + onto.face * plan.gap)
    plane = half_space(onto.lines.carry((x, y)), onto.lines.carry_direction((0.0, -float(onto.face))))
    says = say("end of {} at {}", Name(a.body), Name(b.body))
    return Cut(
        key=str(says),
        says=says,
        body=a.body,
        form=CutForm.END,
        word="end",
        joint=meeting.key,
        end=a.end,
        shapes=(plane,),
        figures=Figures(
            opens=Opens.END,
            between_faces=meeting.angle,
            note=say("{} short of the face of {}", Length(plan.gap, Fineness.FINE), Name(b.body))
            if plan.gap
            else say("to the face of {}", Name(b.body)),
            stands="face",
        ),
    )


def _slots(meeting: Meeting, plan: _Plan) -> Cut:
    a, b = meeting.a, meeting.b
    slides = plan.options.form == "slide-on"
    way = float(a.end)  # out of the board
    face = plan.onto.lines.carry(plan.onto.lines.on_line(plan.onto.face_c + plan.onto.face * plan.gap))[0]
    frame = Frame((length(face), 0.0, 0.0), (0.0, 0.0, 1.0), (0.0, way, 0.0), (-way + 0.0, 0.0, 0.0))
    outlines = [_groove(plan)] if slides else [_slot(plan, place - a.back, way) for place in plan.places]
    says = say("pin slots in {} for {}", Name(a.body), Name(b.body))
    play = (Term(Word.PLAY, plan.options.play),) if plan.options.play else ()
    return Cut(
        key=_key(meeting),
        says=says,
        body=a.body,
        form=CutForm.GROOVE,
        word="pin groove" if slides else "pin slots",
        noun="groove" if slides else "slot",
        takes="pins",
        joint=meeting.key,
        shapes=tuple(Prism(outline=one, low=-OVER, high=length(plan.deep), frame=frame) for one in outlines),
        figures=Figures(
            width=Sum("", (Term(Word.PIN, plan.wide), *play)),
            depth=Sum("", (Term(Word.PIN, plan.out), Term(Word.DEEPER, FREE))),
            opens=Opens.END,
            between_faces=meeting.angle,
        ),
        size_is="FIT TO",
    )


def _groove(plan: _Plan) -> tuple[Knot, ...]:
    """Out of the wall and through the thickness: from the edge that it is open at to its round end."""
    a, radius = plan.onto.ends, plan.slot / 2
    whole = a.front - a.back
    middle = plan.apex - radius
    if plan.options.open == "wall":
        return _rounded((-OVER, middle), radius)
    turned = _rounded((-OVER, middle), radius)
    return tuple((length(whole - z), length(-c), bulge) for z, c, bulge in turned)


def _slot(plan: _Plan, place: float, way: float) -> tuple[Knot, ...]:
    """Up from the lower face to a round end over the pin; the frame's y is the board's c times `way`."""
    a, radius = plan.onto.ends, plan.slot / 2
    turned = _rounded((-a.thickest / 2 - OVER, plan.wide / 2 - radius), radius)
    down = plan.low * way  # the lower face in the frame
    return tuple((length(place + down * along), length(-down * up), bulge) for up, along, bulge in turned)


def _rounded(span: tuple[float, float], radius: float) -> tuple[Knot, ...]:
    """A slot along x with a round end at the far side, anticlockwise."""
    start, middle = span
    r = length(radius)
    return (
        (length(start), -r, 0.0),
        (length(middle), -r, 1.0),
        (length(middle), r, 0.0),
        (length(start), r, 0.0),
    )


def _holes(meeting: Meeting, plan: _Plan) -> Cut:
    onto = plan.onto
    profile = ((0.0, plan.wide), (plan.pin_in + DEEPER, 0.0))
    drilled = bores(onto.takes, onto.middle, (0.0, -float(onto.face)), plan.places, profile)
    return replace(holes(meeting, onto.takes, onto.ends, "pin holes", drilled, Opens.FACE), face=onto.face)


def _lower(meeting: Meeting) -> int:
    """Which face of the board that ends lies down: +1 or -1 of c; of a plumb one that to the right."""
    x, y, _ = left_of(axes(meeting)[0])  # of the board's own c
    return -1 if (y if abs(y) > 1e-9 else -x) > 0.0 else 1


def _lock_hole(meeting: Meeting, plan: _Plan) -> Cut:
    """From the lower face through the groove, into the wood over it."""
    a, b, onto, down = meeting.a, meeting.b, plan.onto, _lower(meeting)
    end = onto.lines.carry(onto.lines.on_line(onto.face_c + onto.face * plan.gap))[0]
    at = (
        length(end - a.end * plan.lock_from_end),
        length(down * a.thickness / 2),
        length(plan.lock_at - a.back),
    )
    profile = ((0.0, plan.lock), (length(plan.lock_deep), 0.0))
    bore = Bore(start=at, direction=(0.0, -float(down), 0.0), profile=profile)
    return replace(
        holes(meeting, a, b, "lock hole", (bore,), Opens.FACE), face=down, noun="lock hole", takes="lock pin"
    )


def _lock_sizes(meeting: Meeting, plan: _Plan) -> Iterator[Size]:
    """Where its hole is drilled, and how deep."""
    if not plan.lock:
        return
    of, a = say("hole in {}", Name(meeting.a.body)), meeting.a  # as the row of its cut is called, which it stands for
    edge = "front" if plan.options.open == "wall" else "wall"
    place = a.front - plan.lock_at if edge == "front" else plan.lock_at - a.back
    yield Size(of=of, size="across", what="for the lock pin", value=Length(plan.lock, Fineness.FINE))
    yield Size(of=of, size="deep", what="from the lower face", value=Length(plan.lock_deep))
    yield Size(of=of, size="axis", what=say("from the {} edge", edge), value=Length(place))
    yield Size(of=of, size="in", what="from the end", value=Length(plan.lock_from_end))


def _thin(meeting: Meeting, plan: _Plan) -> Iterator[Finding]:
    """3 of wood over and under the slots, and behind the holes."""
    a, b = meeting.a, meeting.b
    over = (a.thickness - plan.slot) / 2 if not plan.low else (a.thickness - plan.wide) / 2
    if over < LEAST_WOOD - 1e-9:
        yield breaks_out(meeting, over, a, "over")
    behind = b.thickness - plan.pin_in - DEEPER
    if behind < LEAST_WOOD - 1e-9:
        yield breaks_out(meeting, behind, b, "behind")


def _slot_work(cut: Cut, board: Board, plan: _Plan, after: tuple[str, ...]) -> Operation:
    """With a router on the end, a cutter as wide as the slot; else bored and chopped by hand."""
    wide, deep = cut.figures.across or 0.0, cut.figures.deep or 0.0
    from_edge = Length(plan.apex, Fineness.WIDTH)
    stop: Words = say("round end {} from the {} edge", from_edge, plan.options.open)
    if plan.low:
        places = sorted(board.depth - (place - plan.onto.ends.back) for place in plan.places)
        stop = say("at {} from the front edge", Several(tuple(map(Length, places)), ", "))
    sets: Sets = ((Dial.WIDTH, Length(wide, Fineness.WIDTH)), (Dial.DEPTH, Length(deep)), (Dial.STOP, stop))
    needs = (
        Need(ability=Ability.CUTTER, most=wide),
        Need(ability=Ability.REACH, least=deep),
        Need(ability=Ability.EDGE, least=deep),
    )
    ways = (
        Way(process=Process.ROUTER, makes=cut.word, says="router on the end, between fences", needs=needs, sets=sets),
        Way(process=Process.HAND, makes=cut.word, says="bored at its round end and chopped by hand", sets=sets),
    )
    return Operation(key=cut.key, work=WorkSort.CORNER, cuts=(cut.key,), ways=ways, after=after)
