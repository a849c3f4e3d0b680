"""Long screw: a board held to the wall by screws hidden in holes through its width. Lengths in mm.

A counterbore from the front edge leaves the grip under the head; a narrower hole goes on through the grip.
What the screw must reach is a chain: a washer if there is one, grip, the worst gap behind the board, what hides the
wall's structure, and the thread's hold beyond. Wood screws go into studs, machine screws into anchors.
"""

import math
from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from ..findings import Finding, Severity, at_least, declare, said
from ..geometry.frames import length
from ..geometry.shapes import Bore
from ..job.options import NOT_BELOW_0, WORKED, Options, Quantity
from ..piece.carries import left_of, opposite
from ..piece.kinds import JointKind, Operation, Way
from ..piece.model import (
    WALL,
    Bearing,
    Carry,
    Cut,
    Figures,
    Hand,
    Hardware,
    Joint,
    Judgement,
    Mating,
    Meeting,
    Motion,
    Touch,
)
from ..places import Where
from ..trade.screws import ENGAGEMENT, PLUG_CUTTERS, Screw, figure, read_screw, sizes
from .common import OVER_HEAD, PLUG, size_of, told
from .registry import register

SCREW_SHORT = declare("screw-too-short", "A long screw does not reach: too little grip is left under its head.")
SCREW_SIDE = declare("thin-beside-bore", "Too little wood is left beside a long hole through a board.")
SCREW_STUD = declare("screw-misses-stud", "A screw into the wall does not meet a stud.")
SCREW_HOLE = declare("screw-hole-tight", "A hole is too narrow for its screw, or for the head.")

LEAST_GRIP = 30.0  # and 4 d (common practice)
SIDE_STOP, SIDE_WARN = 3.0, 6.0  # beside the counterbore, less wander; nominal (common practice)
ENTRY, PER_100, BY_HAND = 0.3, 0.5, 1.0  # wander: at the start, guided and by hand in 100 of depth (common practice)
STUD_AIM = 10.0  # from a stud's centre (common practice)


class LongScrewOptions(Options):
    """Options of long screws into the wall."""

    screw: str = Field(default="wood 6x120", description='As sold: "wood 6x120" into studs, "M6x80" into anchors.')
    washer: bool = Field(default=False, description="Whether a washer lies under the head.")
    hole: Literal["fine", "medium", "coarse"] = Field(default="medium", description="Hole through the grip (ISO 273).")
    hole_diameter: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Of the hole through the grip; left out: by the screw."
    )
    counterbore: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Diameter; left out: head or washer and a little more."
    )
    grip: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Wood left under the head; left out: all that the screw allows."
    )
    engagement: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Of the thread beyond the lining; left out: 6 times its diameter."
    )
    drilled: Literal["guided", "by hand"] = Field(default="guided", description="How the hole is kept straight.")
    plugged: bool = Field(default=True, description="Whether plugs close the holes after hanging.")
    lining: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=0.0, description="What hides the wall's structure; the wall's own, if left out."
    )
    hollow: Annotated[Quantity, NOT_BELOW_0] = Field(
        default=0.0, description="Worst gap behind the board; the wall's own, if left out."
    )
    into: str = Field(default="", description="What the wall is; the wall's own, if left out.")
    anchor: str = Field(default="", description='What takes a machine screw ("sleeve 8x40"), as sold.')


@dataclass(frozen=True, slots=True)
class _Plan:
    """The chain and the hole of one fixing.

    Attributes:
        longest_grip: that the screw allows: its length less washer, gap behind, lining and the thread's hold.
        widest_grip: that the board allows, if head and plug are to be hidden in it.
        head: diameter of the head, or of the washer under it.
    """

    screw: Screw
    grip: float
    longest_grip: float
    widest_grip: float
    hole: float
    least_hole: float
    head: float
    counterbore: float
    depth: float
    wander: float


@register
class LongScrew(JointKind[LongScrewOptions]):
    """Screws through a board's width into the wall."""

    name = "long screw"
    serves = frozenset({(Touch.EDGE, Touch.FACE)})
    options = LongScrewOptions

    def judge(self, meeting: Meeting, options: LongScrewOptions) -> Judgement:
        """Possible with a screw that is known and suits the wall."""
        if meeting.b.body != WALL:
            return Judgement(possible=False, reasons=("a long screw goes into the wall",))
        screw = read_screw(options.screw)
        if screw is None:
            reason = f'"{options.screw}" is no screw: write "wood 6x120" or "M6x80"'
            return Judgement(possible=False, reasons=(reason,))
        if figure(screw, "head") is None:
            reason = f"nothing is known of a {screw.name}; known are {', '.join(sizes(screw.kind))}"
            return Judgement(possible=False, reasons=(reason,))
        wall = options.into.lower()
        if screw.kind == "machine" and "stud" in wall and not options.anchor:
            reason = f"a {screw.name} has no hold in a stud: take a wood screw, or name the anchor that takes it"
            return Judgement(possible=False, reasons=(reason,))
        if screw.kind == "wood" and wall and not any(word in wall for word in ("stud", "timber", "wood")):
            reason = f"a {screw.name} has no hold in {options.into}: take a machine screw with an anchor"
            return Judgement(possible=False, reasons=(reason,))
        return Judgement(possible=True)

    def hands(self, meeting: Meeting, options: LongScrewOptions) -> tuple[Hand, ...]:
        """The piece goes to the wall and comes off it."""
        motion = Motion(body=meeting.a.body, direction=(0.0, 0.0, 1.0), free=1.0)
        return (Hand(name=f"{meeting.a.body} screwed to the wall", motions=(motion,)),)

    def matings(self, meeting: Meeting, options: LongScrewOptions, hand: Hand) -> tuple[Mating, ...]:
        """Nothing slides."""
        return ()

    def make(self, meeting: Meeting, options: LongScrewOptions, hand: Hand) -> Joint:
        """One bore at each place."""
        plan = _plan(meeting, options)
        how = "long bit in a guide" if options.drilled == "guided" else "long bit by hand"
        cuts = tuple(_bore(meeting, plan, number, a, how) for number, a in enumerate(meeting.places, 1))
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=told(options),
            hand=hand,
            cuts=cuts,
            gaps=(),
            findings=(
                *_short(meeting, plan),
                *_thin(meeting, plan),
                *_tight(meeting, plan),
                *_off_studs(meeting, options),
            ),
        )

    def carries(self, joint: Joint) -> tuple[Carry, ...]:
        """Each screw holds the board to the wall where it is; about one alone the board turns."""
        meeting, along = joint.meeting, joint.meeting.frame.x
        (x, y, z), up = meeting.frame.origin, left_of(along)
        off = [place - meeting.places[0] for place in meeting.places]
        at = tuple((x + along[0] * place, y + along[1] * place, z) for place in off)
        ways = (along, opposite(along), up, opposite(up))
        return (Carry(how=Bearing.PULLS, body=meeting.a.body, by=meeting.b.body, ways=ways, at=at),)

    def hardware(self, joint: Joint) -> tuple[Hardware, ...]:
        """Screws, washers, plugs and anchors."""
        options = dict(joint.options)
        screw = read_screw(str(options["screw"]))
        assert screw is not None, "judged before it is made"
        count = len(joint.cuts)
        items = [
            Hardware(name=screw.name.split(" ")[0] + " screw", size=screw.name.rsplit("screw ", 1)[1], count=count)
        ]
        if options["washer"]:
            washer = figure(screw, "washer")
            items.append(
                Hardware(
                    name="washer", size=f"{screw.diameter:g}, {washer.value if washer else 0:g} outside", count=count
                )
            )
        if options["plugged"]:
            items.append(Hardware(name="plug", size=f"{joint.cuts[0].figures.across:g}", count=count))
        if options["anchor"] or screw.kind == "machine":
            size = str(options["anchor"]) or f"for M{screw.diameter:g}, to suit the wall"
            items.append(Hardware(name="anchor", size=size, count=count))
        return tuple(items)

    def operations(self, joint: Joint) -> tuple[Operation, ...]:
        """Counterbore and hole in one set-up."""
        first = joint.cuts[0]
        setup = ("bore", first.figures.across, first.figures.deep, _guided(joint))
        process = "long bit in a drilling guide" if _guided(joint) else "long bit by hand, sighted along a square"
        way = Way(process=process, needs=(("reach", first.figures.deep or 0.0),), setup=setup)
        keys = tuple(cut.key for cut in joint.cuts)
        return (Operation(key=f"bores for {joint.key[0]}", cuts=keys, ways=(way,)),)

    def notes(self, joint: Joint) -> tuple[str, ...]:
        """What must not be forgotten."""
        return (
            "Look for cables and pipes before drilling the wall; local rules hold.",
            "Plugs go in after hanging." if dict(joint.options)["plugged"] else "The holes stay open.",
        )


def _guided(joint: Joint) -> bool:
    return dict(joint.options)["drilled"] == "guided"


def _plan(meeting: Meeting, options: LongScrewOptions) -> _Plan:
    screw = read_screw(options.screw)
    assert screw is not None, "judged before it is made"
    width = meeting.a.front - meeting.a.back
    engagement = options.engagement if options.engagement is not None else ENGAGEMENT * screw.diameter
    behind = options.hollow + max(meeting.a.back, 0.0)  # the wall's own hollow, and what the board stands off it
    washer = _washer(screw) if options.washer else 0.0
    longest = screw.length - washer - behind - options.lining - engagement
    widest = width - washer - size_of(screw, "head_height") - (PLUG if options.plugged else 0.0)
    grip = options.grip if options.grip is not None else min(longest, widest)
    grip = min(max(grip, 1.0), width)
    head = size_of(screw, "washer" if options.washer else "head")
    hole = options.hole_diameter if options.hole_diameter is not None else size_of(screw, f"hole_{options.hole}")
    depth = width - grip
    per_100 = PER_100 if options.drilled == "guided" else BY_HAND
    return _Plan(
        screw=screw,
        grip=grip,
        longest_grip=longest,
        widest_grip=widest,
        hole=hole,
        least_hole=size_of(screw, "hole_fine"),
        head=head,
        counterbore=_counterbore(head, options),
        depth=depth,
        wander=ENTRY + per_100 * depth / 100,
    )


def _washer(screw: Screw) -> float:
    """Thickness of a washer: what it takes from the screw's length."""
    known = figure(screw, "washer_thick")
    return known.value if known else 0.0


def _counterbore(head: float, options: LongScrewOptions) -> float:
    """Over head or washer; up to the next plug cutter where it is plugged."""
    if options.counterbore is not None:
        return options.counterbore
    least = head + OVER_HEAD
    if not options.plugged:
        return least
    return next((cutter for cutter in PLUG_CUTTERS if cutter >= least), least)


def _bore(meeting: Meeting, plan: _Plan, number: int, a: float, how: str) -> Cut:
    side = meeting.a
    width = side.front - side.back
    counterbore = ((0.0, plan.counterbore),) if plan.depth > 0.0 else ()
    profile = (*counterbore, (plan.depth, plan.hole), (width, 0.0))
    start = (length(a), 0.0, length(width))
    return Cut(
        key=f"bore {number} of {meeting.key[0]}",
        body=side.body,
        kind="long bore",
        takes=plan.screw.name,
        joint=meeting.key,
        shapes=(
            Bore(
                start=start,
                direction=(0.0, 0.0, -1.0),
                profile=tuple((length(x), length(d)) for x, d in profile),
                through=True,
            ),
        ),
        figures=Figures(
            across=length(plan.counterbore),
            on_face=length(plan.hole),
            deep=length(plan.depth),
            opens="front edge",
            sum=f"{said(width)} wide less grip {said(plan.grip)}",
        ),
        tool=f"{how}, from the front edge",
    )


def _where(meeting: Meeting) -> Where:
    return Where(boards=(meeting.a.body,), fixing=meeting.key[0], path=meeting.path)


def _short(meeting: Meeting, plan: _Plan) -> tuple[Finding, ...]:
    """Grip wants 30 and 4 d, and no more than the screw's length allows."""
    least = max(LEAST_GRIP, 4 * plan.screw.diameter)
    missing = plan.grip - plan.longest_grip
    wanted = math.ceil(max(plan.grip, least) - plan.longest_grip + plan.screw.length - 1e-9)
    longer = f"take a screw at least {wanted} mm long"
    if missing > 1e-9:
        says = f"the {plan.screw.name} is {said(missing)} too short for a grip of {said(plan.grip)}"
        found, limit, remedy = missing, 0.0, longer
    elif plan.grip < least:
        says = f"only {said(plan.grip)} of wood is under the head of the {plan.screw.name}"
        found, limit = plan.grip, least
        if plan.longest_grip < least:
            remedy = longer
        elif plan.widest_grip < least:
            remedy = f"take a board {at_least(least - plan.widest_grip, 0)} wider, or fix it in another way"
        else:
            remedy = f"leave a grip of {at_least(least, 0)} or more"
    else:
        return ()
    return (
        Finding(
            code=SCREW_SHORT,
            severity=Severity.STOP,
            where=_where(meeting),
            says=f"{meeting.key[0]}: {says}",
            remedy=remedy,
            found=found,
            limit=limit,
            unit="mm",
            source="common practice",
        ),
    )


def _thin(meeting: Meeting, plan: _Plan) -> tuple[Finding, ...]:
    """Wood beside the counterbore, nominal and less wander."""
    nominal = (meeting.a.thickness - plan.counterbore) / 2
    left = nominal - plan.wander
    if left >= SIDE_STOP and nominal >= SIDE_WARN:
        return ()
    severity = Severity.STOP if left < SIDE_STOP else Severity.WARN
    return (
        Finding(
            code=SCREW_SIDE,
            severity=severity,
            where=_where(meeting),
            says=f"{meeting.key[0]}: {said(nominal)} of wood beside the bore, {said(max(left, 0.0))} if it wanders",
            remedy="take a thinner screw or head, a thicker board, or a guide for the bit",
            found=left if severity is Severity.STOP else nominal,
            limit=SIDE_STOP if severity is Severity.STOP else SIDE_WARN,
            unit="mm",
            source="common practice",
        ),
    )


def _tight(meeting: Meeting, plan: _Plan) -> tuple[Finding, ...]:
    """The hole through the grip must let the screw pass, the counterbore its head or washer."""
    standard = "ISO 273" if plan.screw.kind == "machine" else "usual data sheets"
    holes = (
        ("hole", plan.hole, plan.least_hole, standard),
        ("counterbore", plan.counterbore, plan.head, "its head or washer"),
    )
    return tuple(
        Finding(
            code=SCREW_HOLE,
            severity=Severity.STOP,
            where=_where(meeting),
            says=f"{meeting.key[0]}: a {name} of {said(wide)} is too narrow for a {plan.screw.name}",
            remedy=f"make it {at_least(least)} or more",
            found=wide,
            limit=least,
            unit="mm",
            source=source,
        )
        for name, wide, least, source in holes
        if wide < least - 1e-9
    )


def _off_studs(meeting: Meeting, options: LongScrewOptions) -> tuple[Finding, ...]:
    """Into studs, each wood screw wants one within 10 of its centre; anchors hold beside them."""
    screw = read_screw(options.screw)
    if "stud" not in options.into.lower() or not meeting.studs_off or screw is None or screw.kind == "machine":
        return ()
    return tuple(
        Finding(
            code=SCREW_STUD,
            severity=Severity.STOP,
            where=_where(meeting),
            says=f"bore {number} of {meeting.key[0]} misses the nearest stud's centre by {said(off, 0)}",
            remedy="move it to a stud, or use an anchor that the wall can take",
            found=off,
            limit=STUD_AIM,
            unit="mm",
            source="common practice",
        )
        for number, off in enumerate(meeting.studs_off, 1)
        if off > STUD_AIM
    )
