"""Long screw: a board held to the wall by screws hidden in holes through its width. Lengths in mm.

A counterbore from the front edge leaves the grip under the head; a narrower hole goes on through the grip.
What the screw must reach is a chain: the head where it is countersunk, a washer if there is one, grip, the worst gap
behind the board, what hides the wall's structure, and the hold beyond. Wood screws go into studs and plugs, machine
screws into anchors; into wood a machine screw goes nowhere. A gap or lining that is not given is never taken as 0.
"""

from ..geometry.frames import length
from ..geometry.shapes import Bore
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
from ..piece.sums import Sum, Term, Word
from ..sentences import Name, Sentence, Several, Words, say
from ..trade.screws import figure, read_screw, sizes
from .common import plug, told
from .registry import register
from .screws.chain import Plan, plan, plan_of
from .screws.options import LongScrewOptions
from .screws.wall import WALL as THE_WALL
from .screws.wall import about_wall, is_lined_void, is_timber, studs_missed, wall_not_checked
from .screws.wood import about_wood


@register
class LongScrew(JointKind[LongScrewOptions]):
    """Screws through a board's width into the wall."""

    name = "long screw"
    serves = frozenset({(Touch.EDGE, Touch.FACE)})
    options = LongScrewOptions
    questions = (THE_WALL,)

    def judge(self, meeting: Meeting, options: LongScrewOptions) -> Judgement:
        """Possible with a screw that is known and suits the wall; where not, what else is wrong is told with it."""
        if meeting.b.body != WALL:
            return Judgement(possible=False, reasons=("a long screw goes into the wall",))
        refused = _refused(options)
        if refused is None:
            return Judgement(possible=True)
        missed = studs_missed(meeting, options)
        return Judgement(possible=False, reasons=(refused,) if missed is None else (refused, missed))

    def hands(self, meeting: Meeting, options: LongScrewOptions) -> tuple[Hand, ...]:
        """The piece goes to the wall and comes off it."""
        motion = Motion(body=meeting.a.body, direction=(0.0, 0.0, 1.0), free=1.0)
        return (Hand(name=say("{} screwed to the wall", Name(meeting.a.body)), motions=(motion,)),)

    def matings(self, meeting: Meeting, options: LongScrewOptions, hand: Hand) -> tuple[Mating, ...]:
        """Nothing slides."""
        return ()

    def make(self, meeting: Meeting, options: LongScrewOptions, hand: Hand) -> Joint:
        """One bore at each place."""
        made = plan(meeting, options)
        how = "long bit in a guide" if options.drilled == "guided" else "long bit by hand"
        cuts = tuple(_bore(meeting, made, number, a, how) for number, a in enumerate(meeting.places, 1))
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=told(options),
            hand=hand,
            cuts=cuts,
            gaps=(),
            findings=(*about_wood(meeting, made, options), *about_wall(meeting, made, options)),
            not_checked=tuple(wall_not_checked(meeting, made, options)),
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
        options, made = dict(joint.options), plan_of(joint)
        screw, count = made.screw, len(joint.cuts)
        items = [Hardware(name=f"{screw.kind} screw", size=screw.size, count=count)]
        if options["washer"]:
            items.append(Hardware(name="washer", size=f"{screw.diameter:g}, {made.head:g} outside", count=count))
        if options["plugged"] and made.deep > 0.0:
            items.append(plug(made.counterbore, joint.meeting.a, count))
        if options["anchor"] or screw.kind == "machine":
            items.append(Hardware(name="anchor", size=anchor_words(made, str(options["anchor"])), count=count))
        return tuple(items)

    def operations(self, joint: Joint) -> tuple[Operation, ...]:
        """Counterbore and hole in one set-up."""
        first = joint.cuts[0]
        setup = ("bore", first.figures.across, first.figures.deep, _guided(joint))
        process = "long bit in a drilling guide" if _guided(joint) else "long bit by hand, sighted along a square"
        way = Way(process=process, needs=(("reach", first.figures.deep or 0.0),), setup=setup)
        keys = tuple(cut.key for cut in joint.cuts)
        return (Operation(key=f"bores for {joint.key[0]}", cuts=keys, ways=(way,)),)

    def notes(self, joint: Joint) -> tuple[Words, ...]:
        """What must not be forgotten."""
        return (
            "Look for cables and pipes before drilling the wall; local rules hold.",
            "Plugs go in after hanging." if dict(joint.options)["plugged"] else "The holes stay open.",
        )


def _refused(options: LongScrewOptions) -> Sentence | None:
    """Why such a screw is not to be driven there; None where it may be."""
    screw = read_screw(options.screw)
    if screw is None:
        return say('"{}" is no screw: write "wood 6x120" or "M6x80"', options.screw)
    if figure(screw, "head") is None:
        return say("nothing is known of a {}; known are {}", screw.name, Several(sizes(screw.kind), ", "))
    if options.anchor or not options.into:
        return None
    if screw.kind == "machine" and is_timber(options.into):
        otherwise = "take a wood screw, or name the anchor that takes it"
        return say("a {} has no hold in a stud: {}", screw.name, otherwise)
    if screw.kind == "wood" and not is_timber(options.into):
        way = "name the plug that takes it, or take a machine screw with an anchor"
        if is_lined_void(options.into):
            way = "take a machine screw with an anchor that clamps the lining, such as a hollow-wall anchor"
        return say("a {} has no hold in {}: {}", screw.name, options.into, way)
    return None


def _guided(joint: Joint) -> bool:
    return dict(joint.options)["drilled"] == "guided"


def anchor_words(made: Plan, asked: str) -> str:
    """An anchor as it is bought: by its name and type, the lining it clamps, its hole."""
    anchor = made.anchor
    if anchor is None:
        return asked or f"for M{made.screw.diameter:g}, to suit the wall"
    words = [asked]
    if anchor.described:
        words.append(anchor.type.name)
    if anchor.length is None and anchor.screw == "machine":
        words.append(f"M{made.screw.diameter:g}")
    if anchor.clamps is not None:
        words.append(f"for a lining of {anchor.clamps[0]:g} to {anchor.clamps[1]:g}")
    return ", ".join(words)


def _bore(meeting: Meeting, made: Plan, number: int, a: float, how: str) -> Cut:
    side = meeting.a
    width = side.front - side.back
    counterbore = ((0.0, made.counterbore),) if made.deep > 0.0 else ()
    profile = (*counterbore, (made.deep, made.hole), (width, 0.0))
    start = (length(a), 0.0, length(width))
    return Cut(
        key=f"bore {number} of {meeting.key[0]}",
        body=side.body,
        kind="long bore",
        takes=made.screw.name,
        joint=meeting.key,
        clear=made.clear,
        shapes=(
            Bore(
                start=start,
                direction=(0.0, 0.0, -1.0),
                profile=tuple((length(x), length(d)) for x, d in profile),
                through=True,
            ),
        ),
        figures=Figures(
            across=length(made.counterbore),
            on_face=length(made.hole),
            deep=length(made.deep),
            opens="front edge",
            sum=Sum("", (Term(Word.WIDTH, width), Term(Word.GRIP, -made.grip))),
        ),
        tool=f"{how}, from the front edge",
    )
