"""Long screw: a board held to the wall by screws hidden in holes through its width. Lengths in mm.

A counterbore from the front edge leaves the grip under the head; a narrower hole goes on through the grip.
What the screw must reach is a chain: the head where it is countersunk, a washer if there is one, grip, the worst gap
behind the board, what hides the wall's structure, and the hold beyond. Wood screws go into studs and plugs, machine
screws into anchors; into wood a machine screw goes nowhere. A gap or lining that is not given is never taken as 0.
"""

from collections.abc import Mapping
from types import MappingProxyType

from ..geometry.frames import length
from ..geometry.shapes import Bore
from ..job.options import filled
from ..piece.carries import left_of, opposite
from ..piece.facts import CutForm, Opens
from ..piece.kinds import Glyph, JointKind
from ..piece.model import (
    WALL,
    Bearing,
    Board,
    Carry,
    Cut,
    Figures,
    Joint,
    Judgement,
    Making,
    Mating,
    Meeting,
    Motion,
    Touch,
    Ware,
)
from ..piece.operations import Operation, bored
from ..piece.sums import Sum, Term, Word
from ..sentences import Length, Name, On, Sentence, Several, Words, say
from ..trade.screws import figure, read_screw, sizes
from .common import plug, screw_ware
from .registry import register
from .screws.chain import Plan, plan
from .screws.options import LongScrewOptions
from .screws.wall import CODES as IN_WALL
from .screws.wall import WALL as THE_WALL
from .screws.wall import about_wall, is_lined_void, is_timber, studs_missed, wall_not_checked
from .screws.wood import CODES as IN_WOOD
from .screws.wood import about_wood


@register
class LongScrew(JointKind[LongScrewOptions]):
    """Screws through a board's width into the wall."""

    name = "long screw"
    glyphs = MappingProxyType({
        "": Glyph(lines="M4.6 4.6l6.8 6.8M11.4 4.6l-6.8 6.8", rings=(5.2,), size=13.0, ground=6.0)
    })  # fmt: skip
    codes = (*IN_WOOD, *IN_WALL)
    serves = frozenset({(Touch.EDGE, Touch.FACE)})
    options = LongScrewOptions
    questions = (THE_WALL,)
    anchored = "anchor"

    def judge(self, meeting: Meeting, options: LongScrewOptions) -> Judgement:
        """Possible with a screw that is known and suits the wall; where not, what else is wrong is told with it."""
        if meeting.b.body != WALL:
            return Judgement(possible=False, reasons=("a long screw goes into the wall",))
        refused = _refused(options)
        if refused is None:
            return Judgement(possible=True)
        missed = studs_missed(meeting, options)
        return Judgement(possible=False, reasons=(refused,) if missed is None else (refused, missed))

    def worked(self, meeting: Meeting, options: LongScrewOptions) -> LongScrewOptions:
        """Grip and hole, the driver that reaches; what must hold of the thread, where that is known."""
        made = plan(meeting, options)
        return filled(
            options,
            hole_diameter=made.hole,
            counterbore=made.counterbore,
            grip=made.grip,
            engagement=made.hold if made.hold_known else None,
            driver=made.driver,
            marked="twist bit" if options.anchor or made.screw.kind == "machine" else "in place",
        )

    def makings(self, meeting: Meeting, options: LongScrewOptions) -> tuple[Making, ...]:
        """The piece goes to the wall and comes off it."""
        motion = Motion(body=meeting.a.body, direction=(0.0, 0.0, 1.0), free=1.0)
        return (Making(name="screwed to the wall", motions=(motion,)),)

    def matings(self, meeting: Meeting, options: LongScrewOptions, making: Making) -> tuple[Mating, ...]:
        """Nothing slides."""
        return ()

    def make(self, meeting: Meeting, options: LongScrewOptions, making: Making) -> Joint[LongScrewOptions]:
        """One bore at each place."""
        made = plan(meeting, options)
        cuts = tuple(_bore(meeting, made, number, a) for number, a in enumerate(meeting.places, 1))
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            cuts=cuts,
            gaps=(),
            findings=(*about_wood(meeting, made, options), *about_wall(meeting, made, options)),
            not_checked=tuple(wall_not_checked(meeting, made, options)),
        )

    def carries(self, joint: Joint[LongScrewOptions]) -> tuple[Carry, ...]:
        """Each screw holds the board to the wall where it is; about one alone the board turns."""
        meeting, along = joint.meeting, joint.meeting.frame.x
        (x, y, z), up = meeting.frame.origin, left_of(along)
        off = [place - meeting.places[0] for place in meeting.places]
        at = tuple((x + along[0] * place, y + along[1] * place, z) for place in off)
        ways = (along, opposite(along), up, opposite(up))
        return (Carry(how=Bearing.PULLS, body=meeting.a.body, by=meeting.b.body, ways=ways, at=at),)

    def hardware(self, joint: Joint[LongScrewOptions]) -> tuple[Ware, ...]:
        """Screws, washers, plugs and anchors."""
        options, made = joint.options, plan(joint.meeting, joint.options)
        screw, count = made.screw, len(joint.cuts)
        items = [screw_ware(screw, count, _asked_of(made))]
        if options.washer:
            says = say("{}, {} outside", format(screw.diameter, "g"), format(made.head, "g"))
            items.append(Ware(what="washer", says=says, count=count, diameter=made.head, goes="driven", in_mm=True))
        if options.plugged and made.deep > 0.0:
            items.append(plug(made.counterbore, joint.meeting.a, count))
        if options.anchor or screw.kind == "machine":
            items.append(Ware(what="anchor", says=anchor_words(made), count=count, in_mm=True))
        return tuple(items)

    def operations(self, joint: Joint[LongScrewOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """Counterbore and hole of each, with a bit each."""
        guided = joint.options.drilled == "guided"
        says = say("{}, from the front edge", "long bit in a guide" if guided else "long bit by hand")
        return tuple(one for cut in joint.cuts for one in bored(cut, boards[cut.body], says, guided=guided))

    def notes(self, joint: Joint[LongScrewOptions]) -> tuple[Words, ...]:
        """What must not be forgotten."""
        return (
            "Look for cables and pipes before drilling the wall; local rules hold.",
            "Plugs go in after hanging." if joint.options.plugged else "The holes stay open.",
        )


def _asked_of(made: Plan) -> Words:
    """What a wood screw must be to pull the board home: threaded in the grip it would jack it off the wall."""
    if made.screw.kind != "wood":
        return ""
    return say("plain shank for {}", Length(made.grip, side=On.UP))


def _refused(options: LongScrewOptions) -> Sentence | None:
    """Why such a screw is not to be driven there; None where it may be."""
    screw = read_screw(options.screw)
    if screw is None:
        return say('"{}" is not a screw: write "wood 6x120" or "M6x80"', options.screw)
    if figure(screw, "head") is None:
        return say("nothing is known of a {}; choose from: {}", screw.name, Several(sizes(screw.kind), ", "))
    if options.anchor or not options.into:
        return None
    if screw.kind == "machine" and is_timber(options.into):
        otherwise = "use a wood screw, or name the anchor that takes it"
        return say("a {} has no hold in a stud: {}", screw.name, otherwise)
    if screw.kind == "wood" and not is_timber(options.into):
        way = "name the plug that takes it, or use a machine screw with an anchor"
        if is_lined_void(options.into):
            way = "use a machine screw with an anchor that clamps the lining, such as a hollow-wall anchor"
        return say("a {} has no hold in {}: {}", screw.name, options.into, way)
    return None


def anchor_words(made: Plan) -> str:
    """An anchor as it is bought: by its name and type, the lining it clamps, its hole."""
    anchor = made.anchor
    if anchor is None:
        return made.asked or f"for M{made.screw.diameter:g}, to suit the wall"
    words = [made.asked]
    if anchor.described:
        words.append(anchor.type.name)
    if anchor.length is None and anchor.screw == "machine":
        words.append(f"M{made.screw.diameter:g}")
    if anchor.clamps is not None:
        words.append(f"for a lining of {anchor.clamps[0]:g} to {anchor.clamps[1]:g}")
    return ", ".join(words)


def _bore(meeting: Meeting, made: Plan, number: int, a: float) -> Cut:
    side = meeting.a
    width = side.front - side.back
    counterbore = ((0.0, made.counterbore),) if made.deep > 0.0 else ()
    profile = (*counterbore, (made.deep, made.hole), (width, 0.0))
    start = (length(a), 0.0, length(width))
    says = say("bore {} of {}", str(number), Name(meeting.key[0]))
    return Cut(
        key=str(says),
        says=says,
        name=f"bore {number}",
        body=side.body,
        form=CutForm.BORE,
        word="long bore",
        noun="bore",
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
            width=Sum.alone(made.counterbore),
            on_face=length(made.hole),
            depth=Sum("", (Term(Word.WIDTH, width), Term(Word.GRIP, -made.grip))),
            opens=Opens.FRONT,
        ),
    )
