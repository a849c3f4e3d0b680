"""Screws through the outside face of one board, along the other's length into its end, under plugs.

They lie `screw_in` from the outside face of the board that they go into. Of two boards 27 thick at a right angle, 16
in, a counterbore of 10 x 8 leaves 16 - 8 = 8 of wood under the head, and from the near corner of its floor to the
mitre 16 - 5 - 8 = 3 along the axis; of a screw 60 long 60 - 8 = 52 stands in the end, 27 - 16 = 11 from its inside
face. In 24 thick, 14 in, only 1 would be left beside the counterbore. Lengths in mm.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace

from ...findings import Finding, declare
from ...geometry.frames import Vec2
from ...geometry.shapes import Bore
from ...job.options import filled, given
from ...piece.corner import Corner
from ...piece.dowelling import breaks_out, holes
from ...piece.facts import Opens
from ...piece.holes import LEAST_WOOD, HoleRow, bores
from ...piece.kinds import asked
from ...piece.meetings import TOUCHING
from ...piece.model import Board, Cut, Joint, Meeting, Ware
from ...piece.onto import Onto
from ...piece.operations import Operation, bored
from ...piece.plane import Lines
from ...places import Cure
from ...sentences import Angle, Length, Name, Words, say
from ...trade.screws import ENGAGEMENT, Screw, read_screw
from ..common import ANGLE_SLACK, plug, screw_ware, too_little
from ..screws import ends as screws
from .options import MitreOptions
from .strengthening import Strengthening

SCREW_OUTSIDE = declare(
    "plug-near-mitre",
    "The counterbore of a mitre's screws comes too near the mitre.",
    uncured="a smaller head or plug, or another way to hold the corner, is a choice of design",
)

LEAST_BESIDE = 3.0  # from the counterbore's floor to the mitre, along the axis (common practice)
PLUG = 6.0  # over a screw's head: a mitre has little wood to spare (common practice: 6 to 10)
OFF_SQUARE = 15.0  # of the axis to the face that is bored: further, a bit wanders and a plug leaves a hole (ours)
EVEN = 0.5  # the place that the tool chooses is whole steps of this


class Screws(Strengthening):
    """Driven when the corner is closed: they hold no board back, and need no clamps."""

    word = "screws"
    holds = True
    note = "Drill with the corner clamped together; the screws go in with the glue, the plugs after."

    def no_room(self, meeting: Meeting, options: MitreOptions) -> Words:
        """Why not: of which board, at which angle, with which screw."""
        if options.through and options.through not in (meeting.a.body, meeting.b.body):
            return say("{} is not one of the two boards", Name(options.through))
        onto = Onto.of(meeting, options.through)
        off = abs(Corner.of(onto.ends, onto.takes).phi - 90.0)
        if off > OFF_SQUARE + ANGLE_SLACK:
            found = Name(onto.ends.body), Angle(off), Name(onto.takes.body), Angle(OFF_SQUARE)
            return say("screws along {} would stand {} off square to the face of {}; to {} they can", *found)
        return _Plan.refused(meeting, options)

    def worked(self, meeting: Meeting, options: MitreOptions) -> MitreOptions:
        """Through which board, how many, where and how deep."""
        plan = _Plan.of(meeting, options)
        return filled(
            options,
            through=plan.onto.takes.body,
            screws=len(plan.row.places),
            screw_in=plan.inward,
            counterbore=plan.counterbored,
        )

    def cuts(self, meeting: Meeting, options: MitreOptions) -> list[Cut]:
        """The holes in the board that they go through, and in the end."""
        plan = _Plan.of(meeting, options)
        through, into = plan.through_holes(), plan.end_holes()
        takes, ends = plan.onto.takes, plan.onto.ends
        mouths = holes(meeting, takes, ends, "screw holes", through, Opens.FACE)
        return [
            replace(mouths, face=-plan.onto.face, clear=TOUCHING),
            holes(meeting, ends, takes, "screw holes", into, Opens.END),
        ]

    def mouths_mm2(self, joint: Joint[MitreOptions]) -> float:
        """The holes in the mitre face: they slope through it."""
        plan = _Plan.of(joint.meeting, joint.options)
        sine = math.sin(math.radians(plan.corner.to_length))
        return len(plan.row.places) * math.pi / 4 * plan.row.face[1][1] ** 2 / sine

    def hardware(self, joint: Joint[MitreOptions]) -> tuple[Ware, ...]:
        """Screws and plugs."""
        plan = _Plan.of(joint.meeting, joint.options)
        count = len(plan.row.places)
        return (screw_ware(plan.screw, count), plug(plan.row.wide, plan.onto.takes, count))

    def findings(self, meeting: Meeting, options: MitreOptions) -> tuple[Finding, ...]:
        """Wood beside the counterbore, under the heads, beside the threads, at the edges; and dry ends."""
        plan = _Plan.of(meeting, options)
        remedy = say(
            "set the screws further in from the outside of {}, or take a smaller screw", Name(plan.onto.ends.body)
        )
        return (
            *too_little(
                SCREW_OUTSIDE,
                meeting,
                (plan.beside_counterbore, LEAST_BESIDE),
                "between the counterbores and the mitre",
                remedy,
                lambda: _further_in(meeting, options, plan),
            ),
            *_other(meeting, plan, options),
        )

    def operations(
        self, joint: Joint[MitreOptions], cuts: Sequence[Cut], boards: Mapping[str, Board], after: tuple[str, ...]
    ) -> tuple[Operation, ...]:
        """Drilled with the corner clamped together: the face first, then through it into the end."""
        how = "drill with a jig, the corner clamped together"
        done = list(after)
        made: list[Operation] = []
        for cut in cuts:
            made += bored(cut, boards[cut.body], how, after=tuple(done))
            done = [made[-1].key]
        return tuple(made)


@dataclass(frozen=True, slots=True)
class _Plan:
    """The screws set out in the plane of the board that they go into.

    Attributes:
        onto: who takes them and who they go into.
        corner: as the board that they go into sees it.
        inward: from its outside face to the axes; `counterbored` how deep head and plug lie.
        row: the holes.
    """

    onto: Onto
    corner: Corner
    screw: Screw
    inward: float
    counterbored: float
    row: HoleRow

    @classmethod
    def of(cls, meeting: Meeting, options: MitreOptions) -> "_Plan":
        onto = Onto.of(meeting, options.through)
        corner = Corner.of(onto.ends, onto.takes)
        screw = read_screw(options.screw)
        assert screw is not None, "judged before it is made"
        thick = replace(onto.takes, thickness=_FAR)
        row = screws.row_of(options.screw, replace(onto, takes=thick), _count(options))
        deep = options.counterbore if options.counterbore is not None else screw.head_height + PLUG
        inward = options.screw_in
        if inward is None:
            inward = _midway(corner, deep, row)
        wood = _wood(corner, inward)
        face = ((0.0, row.wide), (deep, row.face[1][1]), (wood, 0.0))
        end = ((0.0, row.end[0][1]), (screw.under_head - (wood - deep), 0.0))
        return cls(onto, corner, screw, inward, deep, replace(row, face=face, end=end))

    @classmethod
    def refused(cls, meeting: Meeting, options: MitreOptions) -> Words:
        """Why not, where the counterbore would come through, or too little of the thread stands in the end."""
        onto = Onto.of(meeting, options.through)
        known = screws.refused(options.screw, replace(onto, takes=replace(onto.takes, thickness=2 * LEAST_WOOD)))
        if known:
            return known
        plan = cls.of(meeting, options)
        wood, into, screw = plan.wood, plan.row.end[-1][0], plan.screw
        if plan.inward >= onto.ends.thickness or wood <= plan.counterbored:
            lies = Length(wood), Name(onto.takes.body), Length(plan.counterbored)
            return say("only {} of {} lies along the screws; their counterbores are {} deep", *lies)
        if into >= ENGAGEMENT * screw.diameter - 1e-9:
            return ""
        longer = screw.at_least(math.ceil(ENGAGEMENT * screw.diameter - into + screw.length - 1e-9))
        more = say("; take a {}", longer.name) if longer else ""
        found = screw.name, Length(into), Name(onto.ends.body), Length(ENGAGEMENT * screw.diameter), more
        return say("a {} goes {} into the end of {}; {} hold it{}", *found)

    @property
    def wood(self) -> float:
        """Of the board that they go through, along the axis."""
        return _wood(self.corner, self.inward)

    @property
    def beside_counterbore(self) -> float:
        """From the corner of its floor next to the mitre, to the mitre along the axis."""
        near, far = (_wood_to(self.corner, self.inward, way * self.row.wide / 2) for way in (-1.0, 1.0))
        return min(near, far) - self.counterbored

    @property
    def left_inside(self) -> float:
        """From the axis to the inside face of the board that they go into."""
        return self.corner.side.thickness - self.inward

    def through_holes(self) -> tuple[Bore, ...]:
        """From the outside face to the mitre, and past it where it is steep, so that they come out whole."""
        lines = self._lines
        start, past = self._at(_mouth(self.corner, self.inward)), self._slope_past(self.row.face[1][1])
        profile = (*self.row.face[:2], (self.row.face[2][0] + past, 0.0))
        way = lines.carry_direction((self._towards, 0.0))
        return bores(self.onto.takes, lines.carry(start), way, self.row.places, profile, through=True)

    def end_holes(self) -> tuple[Bore, ...]:
        """From the mitre on."""
        past = self._slope_past(self.row.end[0][1])
        x, c = self._at(_on_mitre(self.corner, self.inward))
        (_, wide), (deep, _) = self.row.end
        profile = ((0.0, wide), (deep + past, 0.0))
        start = (x - self._towards * past, c)
        return bores(self.onto.ends, start, (self._towards, 0.0), self.row.places, profile)

    @property
    def _towards(self) -> float:
        """Along the board that they go into, into its body."""
        return self.corner.away[0]

    @property
    def _lines(self) -> Lines:
        return Lines.of(self.onto.ends, self.onto.takes)

    def _at(self, point: Vec2) -> Vec2:
        return self.corner.at(point)

    def _slope_past(self, wide: float) -> float:
        """What a hole must run on past its middle to be out of a mitre steeper than 45 to it."""
        cot = 1 / math.tan(math.radians(self.corner.to_length))
        return max(0.0, wide / 2 * (cot - 1.0))


_FAR = 1000.0  # as thick as no board is: how deep head and plug lie is then no matter of its thickness


def _count(options: MitreOptions) -> int:
    """As many as the rule gave stand by the rule."""
    return options.screws if given(options, "screws") else 0


def _height(corner: Corner, inward: float) -> float:
    """Of the axis in the board that it goes into, from its middle."""
    return corner.inside * (inward - corner.side.thickness / 2)


def _on_mitre(corner: Corner, inward: float) -> Vec2:
    c = _height(corner, inward)
    return (c * corner.inner[0] / corner.inner[1], c)


def _mouth(corner: Corner, inward: float) -> Vec2:
    """Where the axis meets the outside face of the other board."""
    c = _height(corner, inward)
    along = (c + corner.inner[1]) / corner.other[1]
    return (-corner.inner[0] + along * corner.other[0], c)


def _wood(corner: Corner, inward: float) -> float:
    """From the outside face of the one board to the mitre, along the axis."""
    return abs(_on_mitre(corner, inward)[0] - _mouth(corner, inward)[0])


def _wood_to(corner: Corner, inward: float, aside: float) -> float:
    """From where the axis meets the face, along it, to the mitre a little aside (towards the inside)."""
    way = corner.away[0]
    return way * (_on_mitre(corner, inward + aside)[0] - _mouth(corner, inward)[0])


def _midway(corner: Corner, deep: float, row: HoleRow) -> float:
    """Between the nearest place with 3 left beside the counterbore and the farthest with 3 beside the thread."""
    thick = corner.side.thickness
    low, high = 0.0, thick
    for _ in range(40):  # what is left grows with the place, if not evenly where the boards are not square
        middle = (low + high) / 2
        left = min(_wood_to(corner, middle, way * row.wide / 2) for way in (-1.0, 1.0)) - deep
        low, high = (low, middle) if left >= LEAST_BESIDE else (middle, high)
    far = max(thick - row.thread / 2 - LEAST_WOOD, high)
    return min(math.ceil((high + far) / 2 / EVEN - 1e-6) * EVEN, thick - EVEN)


def _further_in(meeting: Meeting, options: MitreOptions, plan: _Plan) -> tuple[Cure, ...]:
    """A place that leaves enough, where there is one that leaves enough beside the thread too."""
    place = _midway(plan.corner, plan.counterbored, plan.row)
    able = options.model_copy(update={"screw_in": place})
    then = _Plan.of(meeting, able)
    if then.beside_counterbore < LEAST_BESIDE - 1e-9 or then.left_inside - then.row.thread / 2 < LEAST_WOOD:
        return ()
    return (asked("set the screws {} in", "screw_in", place, "+"),)


def _other(meeting: Meeting, plan: _Plan, options: MitreOptions) -> Iterator[Finding]:
    """What any screw through a face into an end wants, as if each board were as thick as it is here."""
    onto = plan.onto
    takes = replace(onto.takes, thickness=plan.wood, turn=math.copysign(90.0, onto.takes.turn))
    here = replace(onto, takes=takes, ends=replace(onto.ends, thickness=2 * plan.left_inside))
    beside = plan.left_inside - plan.row.thread / 2
    if beside < LEAST_WOOD - 1e-9:
        yield breaks_out(meeting, beside, onto.ends, "inside")
    yield from screws.under_head(meeting, here, plan.row, options.screw)
    yield from screws.beside_thread(meeting, here, plan.row, options.screw)
    yield from screws.near_edges(meeting, here, plan.row, "screws")
    if not options.glued:
        yield screws.pulls_on_end_grain(meeting, onto, "strengthen")
