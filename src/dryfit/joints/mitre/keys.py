"""Keys: let into pockets of a circular cutter across the outside arris, after the corner is glued."""

import math
from collections.abc import Mapping, Sequence

from ...findings import Finding, declare, printed
from ...geometry.frames import Vec2, length
from ...geometry.shapes import Prism
from ...job.options import filled
from ...piece.corner import Corner
from ...piece.facts import Opens
from ...piece.kinds import asked
from ...piece.model import Board, Cut, Figures, Joint, Meeting, Side, Strip, Ware
from ...piece.operations import Dial, Operation, Way, WorkSort
from ...piece.sums import Sum, Word
from ...places import Cure, Pair
from ...sentences import Angle, Count, Fineness, Length, Several, Words, say
from ...shop.tools import Ability, Need, Process
from ..common import across, key_pockets, too_little
from .options import MitreOptions
from .strengthening import LONG, Strengthening, pairs

KEY_DEEP = declare(
    "key-too-deep",
    "The pocket of a key reaches too near the inside of its corner.",
    uncured="which cutter is used, and how deep it plunges, is a choice of the shop",
)

LEAST_PLUNGE = 3.0  # of a key's pocket, to be offered as a cure (ours)
LEAST_INSIDE = 4.0  # wood between a key's pocket and the inside arris (common practice)
PROUD = 10.0  # of a key's blank over its pocket, either way, to be sawn off flush (common practice)
SPACING = 100.0  # one key for so much depth, two at least (common practice)


class Keys(Strengthening):
    """Across the outside arris, seen from both sides of the corner."""

    word = "keys"
    mark = "keyed"
    holds = True
    note = "The pockets are cut after the corner is glued and before anything stands in the way."

    def no_room(self, meeting: Meeting, options: MitreOptions) -> Words:
        """Why not, where they find no room."""
        return no_room(meeting, options)

    def worked(self, meeting: Meeting, options: MitreOptions) -> MitreOptions:
        """How many."""
        return filled(options, keys=count(meeting, options))

    def cuts(self, meeting: Meeting, options: MitreOptions) -> list[Cut]:
        """Pockets in both boards."""
        return [pockets(meeting, *pair, options) for pair in pairs(meeting)]

    def hardware(self, joint: Joint[MitreOptions]) -> tuple[Ware, ...]:
        """The keys."""
        return (hardware(joint.meeting, joint.options),)

    def findings(self, meeting: Meeting, options: MitreOptions) -> tuple[Finding, ...]:
        """Wood inside a pocket."""
        left = left_inside(meeting, options)
        return too_little(
            KEY_DEEP,
            meeting,
            (left, LEAST_INSIDE),
            "inside the keys",
            "plunge the cutter less deep",
            lambda: _less_deep(meeting, options, LEAST_INSIDE - left),
        )

    def operations(
        self, joint: Joint[MitreOptions], cuts: Sequence[Cut], boards: Mapping[str, Board], after: tuple[str, ...]
    ) -> tuple[Operation, ...]:
        """Pockets wait until the corner is glued."""
        return (cut_pockets(cuts, boards[cuts[0].body], joint.options, joint.key),) if cuts else ()


def _less_deep(meeting: Meeting, options: MitreOptions, missing: float) -> tuple[Cure, ...]:
    """A plunge that leaves enough, where there is one."""
    plunge = printed(options.plunge - LONG * missing, "-", "mm")
    able = options.model_copy(update={"plunge": plunge})
    if plunge < LEAST_PLUNGE or left_inside(meeting, able) < LEAST_INSIDE or no_room(meeting, able):
        return ()
    return (asked("plunge the cutter {}", "plunge", plunge, "-"),)


def no_room(meeting: Meeting, options: MitreOptions) -> Words:
    """Why not, where they find no room; "" where they do."""
    low, high = meeting.overlap
    if options.plunge > options.cutter / 2:
        return say(
            "a cutter of {} cannot be plunged {}",
            Length(options.cutter, Fineness.WHOLE),
            Length(options.plunge, Fineness.WHOLE),
        )
    number = count(meeting, options)
    if (high - low) / number < 2 * options.key_thickness:
        return say(
            "{} of {} {} no room in {} of depth",
            Count(number, "key"),
            Length(options.key_thickness),
            "has" if number == 1 else "have",
            Length(high - low, Fineness.WHOLE),
        )
    return ""


def left_inside(meeting: Meeting, options: MitreOptions) -> float:
    """Wood between a pocket and the inside arris."""
    corner = Corner.of(meeting.a, meeting.b)
    mx, my = _cutter_middle(corner, options)
    return math.hypot(corner.inner[0] - mx, corner.inner[1] - my) - options.cutter / 2


def hardware(meeting: Meeting, options: MitreOptions) -> Ware:
    """The keys, to be made in the shop."""
    long, wide = 2 * _reach(meeting, options) + PROUD, options.plunge + PROUD
    sizes = Length(long, Fineness.WHOLE), Length(wide, Fineness.WHOLE)
    return Ware(
        what="key",
        like="grain across the mitre",
        says=say("{} thick, strip {} x {} a key", across(options.key_thickness), *sizes),
        count=count(meeting, options),
        strip=Strip(along=long, across=wide, thick=options.key_thickness),
    )


def pockets(meeting: Meeting, side: Side, other: Side, options: MitreOptions) -> Cut:
    """Pockets of a circular cutter for keys across the outside arris: this board's share."""
    corner = Corner.of(side, other)
    middle = corner.at(_cutter_middle(corner, options))
    figures = Figures(
        width=Sum.alone(options.key_thickness, Word.KEY),
        on_face=length(_reach(meeting, options)),
        depth=Sum.alone(options.plunge),
        opens=Opens.END,
        between_faces=round(corner.phi, 9),
        note=say(
            "cutter {}, plunged {} along the bisector",
            Length(options.cutter, Fineness.WHOLE),
            Length(options.plunge, Fineness.WHOLE),
        ),
    )
    return key_pockets(meeting.key, side, other, middle, options.cutter, _places(meeting, options), figures)


def cut_pockets(cuts: Sequence[Cut], board: Board, options: MitreOptions, glued: Pair) -> Operation:
    """Pockets as a groover plunges them on a cradle once the corner is glued: in both boards at once."""
    cut = cuts[0]
    prisms = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    middles = sorted(board.depth - (prism.low + prism.high) / 2 for prism in prisms)
    plunge = cut.figures.deep or options.plunge
    way = Way(
        process=Process.GROOVER,
        makes=cut.word,
        says="circular cutter, after gluing",
        needs=(
            Need(ability=Ability.CUTTER, least=options.cutter, most=options.cutter),
            Need(ability=Ability.KERF, most=cut.figures.across or options.key_thickness),
            Need(ability=Ability.DEPTH, least=plunge),
        ),
        sets=(
            (Dial.WIDTH, Length(cut.figures.across or options.key_thickness, Fineness.WIDTH)),
            (Dial.CORNER, Angle(cut.figures.between_faces)),
            (Dial.DEPTH, Length(plunge)),
            (Dial.CUTTER, Length(options.cutter, Fineness.WHOLE)),
            (Dial.STOP, say("at {}", Several(tuple(map(Length, middles)), ", "))),
        ),
    )
    return Operation(
        key=f"keys of mitre {glued[0]} and {glued[1]}",
        work=WorkSort.CORNER,
        cuts=tuple(one.key for one in cuts),
        ways=(way,),
        after_gluing=glued,
    )


def count(meeting: Meeting, options: MitreOptions) -> int:
    """How many: as asked, else by the common depth."""
    low, high = meeting.overlap
    return options.keys or max(2, round((high - low) / SPACING))


def _places(meeting: Meeting, options: MitreOptions) -> tuple[float, ...]:
    """Middles of the keys out of the wall, evenly over the common depth."""
    low, high = meeting.overlap
    keys = count(meeting, options)
    step = (high - low) / keys
    return tuple(length(low + (number + 0.5) * step) for number in range(keys))


def _reach(meeting: Meeting, options: MitreOptions) -> float:
    """How far a pocket reaches along either outer face from the arris."""
    radius, half = options.cutter / 2, math.radians(Corner.of(meeting.a, meeting.b).phi / 2)
    stand = radius - options.plunge  # the cutter's middle, outside the arris on the bisector
    return math.sqrt(radius**2 - (stand * math.sin(half)) ** 2) - stand * math.cos(half)


def _cutter_middle(corner: Corner, options: MitreOptions) -> Vec2:
    """Outside the outside arris on the bisector of the outer faces, measured from the corner's middle."""
    stand = options.cutter / 2 - options.plunge
    bx, by = corner.bisector
    return (-corner.inner[0] - stand * bx, -corner.inner[1] - stand * by)
