"""Finger joint: both ends of a corner cut to fingers and slots of one width, which stand in each other.

The common depth is divided by the number of fingers; each is a half pitch wide, and the two boards have them in turn. A
slot is wider than that, and a finger narrower, by half the clearance, so that the play of a finger in its slot is the
clearance; what lies at an edge has one wall and so half of that. With an odd number one board has the fingers at both
edges, with an even one each board has one.

The slots are cut one after the other in a jig whose pin stands in the last one, so an error of its pitch is there every
time. Cut from the same edge of both boards it changes the play once and does not add up; cut from opposite edges every
finger is as many errors out as there are pitches; marked out singly the tenth is ten errors out (trade texts on jigs).

Worked example: 18 on 18, 240 deep, 9 fingers, clearance 0.10: a half pitch 240 / 9 = 26.667, slots of 26.717, at the
edges 26.692; side grain is glued on 8 x 18 x 18 = 2592 mm2. Lengths in mm.
"""

import math
from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Annotated

from pydantic import Field

from ..geometry.frames import Vec, length
from ..geometry.shapes import OVER, Prism, half_space, prism
from ..job.options import CLEARANCE, WORKED, BoardName, Options, Quantity, filled, given
from ..piece.carries import axes, fast, off_the_end, opposite, rests, spread
from ..piece.corner import Corner
from ..piece.facts import Between, CutForm, Cutting, GlueZone, Grain, Opens, Press, Pressing, SectionLength, Size
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
)
from ..piece.onto import Onto
from ..piece.operations import Dial, Operation, Sets, Way, WorkSort
from ..piece.sums import Sum, Term, Word, walls
from ..places import Plain
from ..sentences import Angle, Count, Fineness, Length, Name, Words, say
from ..shop.tools import Ability, Need, Process
from .common import default_clearance, unlevel
from .registry import register

SQUARE = 0.02  # degrees: a jig holds the board square; over 30 that is 0.01 of a wedge (ours)
LEAST, MOST = 2, 200  # fingers of both boards together
FRONT: Vec = (0.0, 0.0, 1.0)


class FingerJointOptions(Options):
    """Options of a finger joint."""

    fingers: int = Field(
        default=0,
        ge=0,
        le=MOST,
        description="Of both boards together; 0: an odd number, each about as wide as the thinner board is thick.",
    )
    begins: BoardName = Field(
        default="", description="The board that has the finger at the front edge; left out: the level one."
    )
    clearance: Annotated[Quantity, CLEARANCE] | None = Field(
        default=None, description="Play of a finger in its slot, total of both sides; left out: 0.10 glued, 0.15 dry."
    )
    cutter: Annotated[Quantity, WORKED] = Field(
        default=6.0,
        description="Diameter of the straight cutter, or what a blade of the jig takes: no slot is narrower.",
    )
    glued: bool = Field(default=True, description="Whether it is glued.")

    def play(self) -> float:
        """Of a finger in its slot."""
        return default_clearance(self.clearance, glued=self.glued)


@register
class FingerJoint(JointKind[FingerJointOptions]):
    """Two ends of fingers."""

    name = "finger joint"
    glyphs = MappingProxyType({"": Glyph(lines="M5 .5v3h6v3h-6v3h6v3h-6v3")})
    serves = frozenset({(Touch.END, Touch.END)})
    options = FingerJointOptions

    def judge(self, meeting: Meeting, options: FingerJointOptions) -> Judgement:
        """Possible at a square corner of boards that are level at both edges, with slots the cutter can cut."""
        if meeting.form == "in line":
            return Judgement.refused("two ends in line have no corner", remedy="choose a splice or a butt")
        if options.begins and options.begins not in (meeting.a.body, meeting.b.body):
            return Judgement.refused(say("{} is not one of the two boards", Name(options.begins)))
        off = abs(Corner.of(meeting.a, meeting.b).phi - 90.0)
        if off > SQUARE:
            reason = say("the corner is {} off square; fingers are cut square to the end", Angle(off))
            return Judgement.refused(
                reason, remedy="choose a mitre with keys", found=off, limit=SQUARE, unit="deg", source="ours"
            )
        return unlevel(meeting, self.name) or _too_narrow(meeting, options) or Judgement(possible=True)

    def worked(self, meeting: Meeting, options: FingerJointOptions) -> FingerJointOptions:
        """How many fingers, who begins, and the play."""
        plan = _Plan.of(meeting, options)
        return filled(options, fingers=plan.count, begins=plan.begins.body, clearance=options.play())

    def glues(self, options: FingerJointOptions) -> bool:
        """As asked."""
        return options.glued

    def gluing(self, options: FingerJointOptions) -> tuple[tuple[str, Plain], ...]:
        """An option of its own."""
        return () if options.glued else (("glued", True),)

    def makings(self, meeting: Meeting, options: FingerJointOptions) -> tuple[Making, ...]:
        """Either board comes off along itself, or along the other, or between the two; never out of the wall."""
        along_a, along_b = axes(meeting)
        a, b = off_the_end(meeting.a, along_a), off_the_end(meeting.b, along_b)
        motion = Motion(body=meeting.a.body, direction=a, free=0.0, within=(opposite(b), FRONT, opposite(FRONT)))
        name = say("{} and {} fingered", Name(meeting.a.body), Name(meeting.b.body))
        return (Making(name=name, motions=(motion,)),)

    def matings(self, meeting: Meeting, options: FingerJointOptions, making: Making) -> tuple[Mating, ...]:
        """The slots of either board with the other's fingers between their walls."""
        plan = _Plan.of(meeting, options)
        return tuple(
            Mating(
                key=_key(side, other),
                cut_in=side.body,
                takes=other.body,
                normal=FRONT,
                nominal=length(plan.half + plan.gap),
                play=length(options.play()),
                play_from="clearance",
            )
            for side, other in _pairs(meeting)
        )

    def make(self, meeting: Meeting, options: FingerJointOptions, making: Making) -> Joint[FingerJointOptions]:
        """Cut the fingers of both ends."""
        plan = _Plan.of(meeting, options)
        sides = _pairs(meeting)
        met = plan.walls_mm2 + sum(plan.bottoms_mm2(side) for side, _ in sides)
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            glued=options.glued,
            cuts=tuple(_fingers(meeting, plan, side, other, options) for side, other in sides),
            gaps=(
                Gap(between=Between.WALL, size=length(plan.gap), count=plan.count - 1),
                *(Gap(between=Between.BOTTOM, size=length(_under(side, other))) for side, other in sides),
            ),
            hidden_mm2=tuple((side.body, met) for side, _ in sides),
        )

    def carries(self, joint: Joint[FingerJointOptions]) -> tuple[Carry, ...]:
        """Either end stands in the other's slots; glue on the walls, side grain on side grain, holds it fast."""
        meeting = joint.meeting
        (along_a, along_b), middle = axes(meeting), meeting.frame.origin
        a, b = off_the_end(meeting.a, along_a), off_the_end(meeting.b, along_b)
        body, by = meeting.a.body, meeting.b.body
        bears = (
            rests(body, by, opposite(a), spread(middle, b, meeting.a.thickness / 2)),
            rests(body, by, b, spread(middle, a, meeting.b.thickness / 2)),
        )
        return (*bears, fast(meeting)) if joint.glued else bears

    def pressed(self, joint: Joint[FingerJointOptions]) -> Press:
        """Walls are pressed by their fit alone."""
        return Press(how=Pressing.FIT)

    def glue(self, joint: Joint[FingerJointOptions]) -> tuple[GlueZone, ...]:
        """The walls, and the bottoms of the slots."""
        if not joint.glued:
            return ()
        plan = _Plan.of(joint.meeting, joint.options)
        bottoms = sum(plan.bottoms_mm2(side) for side, _ in _pairs(joint.meeting))
        return (
            GlueZone(faces="the walls of all fingers", grain=(Grain.SIDE, Grain.SIDE), area_mm2=plan.walls_mm2),
            GlueZone(
                faces="the bottoms of the slots and what stands on them",
                grain=(Grain.SIDE, Grain.END),
                area_mm2=bottoms,
            ),
        )

    def operations(self, joint: Joint[FingerJointOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """Each end in the jig, once it is sawn to length."""
        plan = _Plan.of(joint.meeting, joint.options)
        return tuple(_work(cut, boards[cut.body], plan) for cut in joint.cuts)

    def notes(self, joint: Joint[FingerJointOptions]) -> tuple[Words, ...]:
        """What begins where, and how an error of the jig does not add up."""
        plan = _Plan.of(joint.meeting, joint.options)
        play = Length(plan.play, Fineness.FINE)
        begins, other = Name(plan.begins.body), Name(joint.meeting.other(plan.begins.body).body)
        last = "both have one board's fingers at the edges" if plan.count % 2 else "the other has it at the wall"
        return (
            say("{} has a finger at the front edge, {} a slot; {}.", begins, other, last),
            say(
                "Cut both boards from the front edge with one jig: its error then changes the play once. From opposite "
                "edges every finger would be {} errors out.",
                str(plan.count // 2),
            ),
            say("Try it on offcuts: the key moved by x nearer the cutter gives {} + x of play.", play),
        )

    def figures(self, joint: Joint[FingerJointOptions]) -> tuple[Size, ...]:
        """The half pitch, fingers and slots, and those at an edge, which have one wall."""
        plan, of = _Plan.of(joint.meeting, joint.options), "fingers"
        gap, half = plan.gap, plan.half
        low, high = joint.meeting.overlap
        whole = say("{} by {}", Length(high - low), Count(plan.count, "finger"))
        return (
            Size(of=of, size="half pitch", what=whole, value=Length(half, Fineness.FINE)),
            Size(of=of, size="slot", how=plan.slot_sum, value=Length(half + gap, Fineness.FINE)),
            Size(of=of, size="slot at an edge", what="one wall", value=Length(half + gap / 2, Fineness.FINE)),
            Size(of=of, size="finger", what="between two slots", value=Length(half - gap, Fineness.FINE)),
        )

    def sections(self, joint: Joint[FingerJointOptions]) -> tuple[Cutting, ...]:
        """Along the board that begins, in the middle of its thickness, at the front edge."""
        meeting = joint.meeting
        plan = _Plan.of(meeting, joint.options)
        side, other = plan.begins, meeting.other(plan.begins.body)
        along_a, along_b = axes(meeting)
        into = off_the_end(side, along_a if side.body == meeting.a.body else along_b)
        right = into if into[0] + into[1] > 0.0 else opposite(into)
        (x, y, _), high = meeting.frame.origin, meeting.overlap[1]
        shown = min(2 * plan.half, (high - meeting.overlap[0]) / 2)
        wall = high - plan.half + plan.gap / 2

        def at(z: float) -> Vec:
            return (x, y, z)

        return (
            Cutting(
                title=say("fingers of {} and {}, from the outside", Name(side.body), Name(other.body)),
                at=at(high - shown + 4.0),
                right=right,
                up=FRONT,
                reach=(other.thickness + 6.0, shown + 4.0),
                sizes=(
                    SectionLength(
                        start=at(wall),
                        end=at(wall - plan.half - plan.gap),
                        value=Length(plan.half + plan.gap, Fineness.FINE),
                    ),
                )
                if plan.count > 2
                else (),
            ),
        )


# --- set-out -------------------------------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class _Plan:
    """Where fingers and slots lie.

    Attributes:
        count: of fingers of both boards.
        begins: the board that has the one at the front edge.
        play: of a finger in its slot; `film` the dry finish on both of two walls that face each other.
        high: the front of the common depth; `half` the half pitch.
        faces: thickness of the two boards.
    """

    count: int
    begins: Side
    play: float
    film: float
    high: float
    half: float
    faces: tuple[float, float]

    @classmethod
    def of(cls, meeting: Meeting, options: FingerJointOptions) -> "_Plan":
        (low, high), (a, b) = meeting.overlap, (meeting.a, meeting.b)
        count = _count(meeting, options)
        begins = options.begins or Onto.of(meeting).takes.body
        film = a.wall_film + b.wall_film
        faces = (a.thickness, b.thickness)
        return cls(count, meeting.side(begins), options.play(), film, high, (high - low) / count, faces)

    @property
    def gap(self) -> float:
        """Between two walls that face each other."""
        return self.play / 2 + self.film

    @property
    def slot_sum(self) -> Sum:
        """A finger of the other board, and what is between."""
        return Sum("", (Term(Word.FINGER, self.half - self.gap), *walls(film=2 * self.film, clearance=self.play)))

    @property
    def walls_mm2(self) -> float:
        """Of all walls that face each other, one of each pair."""
        return (self.count - 1) * self.faces[0] * self.faces[1]

    def slots(self, side: Side) -> list[int]:
        """Of a board, counted from the front edge: the other's fingers."""
        return list(range(1 if side.body == self.begins.body else 0, self.count, 2))

    def bottoms_mm2(self, side: Side) -> float:
        """Of a board's slots."""
        return len(self.slots(side)) * self.half * side.thickness

    def span(self, side: Side, number: int) -> tuple[float, float]:
        """From and to out of its own wall edge, of a slot; past an edge that it runs out at."""
        low = self.high - (number + 1) * self.half - self.gap / 2
        high = self.high - number * self.half + self.gap / 2
        low = side.back - OVER if number == self.count - 1 else low
        high = side.front + OVER if number == 0 else high
        return length(low - side.back), length(high - side.back)


def _count(meeting: Meeting, options: FingerJointOptions) -> int:
    """As asked, else odd, and as near as that comes to fingers as wide as the thinner board is thick (practice)."""
    if given(options, "fingers") and options.fingers:
        return options.fingers
    low, high = meeting.overlap
    thin = min(meeting.a.thickness, meeting.b.thickness, high - low)
    return min(max(3, 2 * round(((high - low) / thin - 1) / 2) + 1), MOST - 1)


def _pairs(meeting: Meeting) -> tuple[tuple[Side, Side], tuple[Side, Side]]:
    return (meeting.a, meeting.b), (meeting.b, meeting.a)


def _too_narrow(meeting: Meeting, options: FingerJointOptions) -> Judgement | None:
    """A slot narrower than the cutter cannot be cut, and two fingers there must be."""
    plan = _Plan.of(meeting, options)
    if plan.count >= LEAST and plan.half >= options.cutter - 1e-9:
        return None
    low, high = meeting.overlap
    if plan.count < LEAST:
        return Judgement.refused(
            say("{} makes no joint", Count(plan.count, "finger")), found=plan.count, limit=LEAST, source="geometry"
        )
    most = math.floor((high - low) / options.cutter + 1e-9)
    most -= (most - plan.count) % 2  # so that the same boards have the edges
    fingers, wide = Count(plan.count, "finger"), Length(plan.half)
    return Judgement.refused(
        say("{} would be {} wide; the cutter is {}", fingers, wide, Length(options.cutter)),
        remedy=say("make fewer of them, {} at the most, or use a thinner cutter", str(most)),
        found=plan.half,
        limit=options.cutter,
        unit="mm",
        source="geometry",
        cures=(asked("make {} fingers", "fingers", most),) if most >= LEAST else (),
    )


def _under(side: Side, other: Side) -> float:
    """Dry finish between a slot's bottom and the face that stands on it."""
    return side.wall_film + other.film


def _key(side: Side, other: Side) -> str:
    return f"fingers of {side.body} to {other.body}"


def _fingers(meeting: Meeting, plan: _Plan, side: Side, other: Side, options: FingerJointOptions) -> Cut:
    corner = Corner.of(side, other)
    way = corner.away[0]
    half = other.thickness / 2
    bottom, beyond = side.at + way * (half + _under(side, other)), side.at - way * (half + OVER)
    c = side.thickest / 2 + OVER
    outline = ((bottom, -c), (beyond, -c), (beyond, c), (bottom, c))
    slots: tuple[Prism, ...] = tuple(prism(outline, *plan.span(side, number)) for number in plan.slots(side))
    return Cut(
        key=_key(side, other),
        says=say("fingers of {} to {}", Name(side.body), Name(other.body)),
        body=side.body,
        form=CutForm.END,
        word="fingers",
        noun="finger end",
        joint=meeting.key,
        end=side.end,
        shapes=(half_space((side.at - way * half, 0.0), (-way, 0.0)), *slots),
        figures=Figures(
            width=plan.slot_sum,
            depth=Sum.alone(other.thickness, Word.THICKNESS, other.body),
            opens=Opens.END,
            note=say("{} in all, {} in this end", Count(plan.count, "finger"), Count(len(slots), "slot")),
            stands="corner",
        ),
        size_is="FIT TO",
    )


def _work(cut: Cut, board: Board, plan: _Plan) -> Operation:
    wide, deep = cut.figures.across or 0.0, cut.figures.deep or 0.0
    begins = board.name == plan.begins.body
    sets: Sets = (
        (Dial.WIDTH, Length(wide, Fineness.FINE)),
        (Dial.DEPTH, Length(deep)),
        (
            Dial.PLACE,
            say("key {} from the slot, {}", Length(plan.half - plan.gap, Fineness.FINE), _first(begins=begins)),
        ),
    )
    ways = (
        Way(
            process=Process.ROUTER,
            makes=cut.word,
            says="router table with a finger jig, the board on its end, after sawing to length",
            needs=(
                Need(ability=Ability.CUTTER, most=wide),
                Need(ability=Ability.REACH, least=deep),
                Need(ability=Ability.EDGE, least=deep),
            ),
            sets=sets,
        ),
        Way(
            process=Process.SAW,
            makes=cut.word,
            says="saw with a finger jig, each slot in as many passes as it takes, after sawing to length",
            needs=(Need(ability=Ability.DEPTH, least=deep),),
            sets=sets,
        ),
        Way(process=Process.HAND, makes=cut.word, says="sawn by hand and chopped, after sawing to length", sets=sets),
    )
    return Operation(key=cut.key, work=WorkSort.CORNER, cuts=(cut.key,), ways=ways)


def _first(*, begins: bool) -> str:
    return "a finger at the front" if begins else "a slot at the front"
