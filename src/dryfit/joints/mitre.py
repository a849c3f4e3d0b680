"""Mitre: two boards that end at one point, each cut along the line between the inside and the outside arris.

Plain, or strengthened: with keys let into pockets of a circular cutter across the outside arris after the
frame is glued, or with a loose tongue in both mitre faces. A tongue lies along the mitre's normal, so the
last board of a closed frame cannot go on alone: the frame closes as two halves. Lengths in mm.
"""

import math
from typing import Annotated, Literal

from pydantic import Field

from ..findings import Finding, Severity, declare, said
from ..geometry.frames import Vec, Vec2, length
from ..geometry.shapes import OVER, HalfSpace, Knot, Prism, Shape, half_space, prism
from ..job.options import Options, Quantity, Within
from ..piece.corner import Corner
from ..piece.kinds import JointKind, Operation, Way
from ..piece.model import (
    Cut,
    Ease,
    Figures,
    Gap,
    GlueFace,
    Hand,
    Hardware,
    Joint,
    Judgement,
    Mating,
    Meeting,
    Motion,
    Side,
    Touch,
)
from ..places import Where
from .common import LEAST_ANGLE, UNEQUAL, end_grain, judge_angle, shallow_angle, told
from .registry import register

TONGUE_WALL = declare("tongue-near-outside", "A loose tongue leaves too little wood to the outside of its corner.")
KEY_DEEP = declare("key-too-deep", "The pocket of a key reaches too near the inside of its corner.")

KEY_SPACING = 100.0  # one key for so much depth, two at least (common practice)
LEAST_OUTSIDE = 4.0  # wood outside a tongue's groove (common practice)
LEAST_INSIDE = 4.0  # wood between a key's pocket and the inside arris (common practice)
EVEN = 0.5
GROOVE_DEEPER = 0.5  # a groove is so much deeper than half the tongue (common practice)


GROOVE = "tongue groove"


class MitreOptions(Options):
    """Options of a mitre."""

    strengthen: Literal["none", "keys", "tongue"] = Field(default="none", description="What holds it besides the glue.")
    keys: int = Field(default=0, ge=0, le=40, description="How many keys; 0 for one in 100 of depth, two at least.")
    key_thickness: Annotated[Quantity, Within(above=0.0)] = Field(default=4.0, description="Of a key and its pocket.")
    cutter: Annotated[Quantity, Within(above=0.0)] = Field(
        default=100.0, description="Diameter of the circular cutter for the pockets."
    )
    plunge: Annotated[Quantity, Within(above=0.0)] = Field(
        default=12.0, description="Of the cutter, from the outside arris along the bisector."
    )
    tongue: Annotated[Quantity | None, Within(above=0.0)] = Field(
        default=None, description="Thickness of a loose tongue; left out: a third of the board."
    )
    tongue_width: Annotated[Quantity | None, Within(above=0.0)] = Field(
        default=None, description="Across both grooves; left out: two thirds of the board."
    )
    tongue_stop: Annotated[Quantity, Within(least=0.0)] = Field(
        default=12.0, description="From the edges to the ends of a tongue's groove."
    )
    tongue_play: Annotated[Quantity, Within(least=0.0)] = Field(
        default=0.1, description="Of a tongue in its grooves, total of both sides."
    )
    glued: bool = Field(default=True, description="Whether the corner is glued.")


@register
class Mitre(JointKind[MitreOptions]):
    """Two ends cut to one line."""

    name = "mitre"
    serves = frozenset({(Touch.END, Touch.END)})
    options = MitreOptions

    def judge(self, meeting: Meeting, options: MitreOptions) -> Judgement:
        """Possible from an inside angle of 15 on, with room for what strengthens it."""
        if meeting.form == "in line" or Corner.of(meeting.a, meeting.b).phi < 90.0:
            angle = judge_angle(meeting, self.name)
            if not angle.possible:
                return angle
        reason = _thin_point(meeting) or _no_room(meeting, options)
        return Judgement(possible=not reason, reasons=(reason,) if reason else ())

    def hands(self, meeting: Meeting, options: MitreOptions) -> tuple[Hand, ...]:
        """One way to make it; with a tongue it goes together along the mitre's normal only."""
        body = meeting.b.body
        corner = Corner.of(meeting.b, meeting.a)
        nx, ny = corner.outward
        x, y = meeting.frame.x, meeting.frame.y
        apart: Vec = (-(nx * x[0] + ny * y[0]) + 0.0, -(nx * x[1] + ny * y[1]) + 0.0, 0.0)
        tongue = options.strengthen == "tongue"
        held = {way for way in (1.0, -1.0) if _held(meeting, way)}
        free = max(_tongue_width(meeting, options) / 2 if tongue else 0.0, _step(meeting) if held else 0.0)
        motions = [Motion(body=body, direction=apart, free=length(free))]
        if not tongue:
            low, high = meeting.overlap
            motions += [
                Motion(body=body, direction=(0.0, 0.0, way), free=length(high - low))
                for way in (1.0, -1.0)
                if way not in held
            ]
        return (Hand(name=f"{meeting.a.body} and {body} mitred", motions=tuple(motions)),)

    def eases(self, meeting: Meeting, options: MitreOptions, hand: Hand) -> tuple[Ease, ...]:
        """Keys, which go in after gluing, hold no board back as a tongue does."""
        if options.strengthen != "tongue":
            return ()
        keyed = options.model_copy(update={"strengthen": "keys"})
        says = f"hold the corner of {meeting.a.body} and {meeting.b.body} with keys instead of a tongue"
        return (Ease(says=says, options=(("strengthen", "keys"),), hand=self.hands(meeting, keyed)[0]),)

    def matings(self, meeting: Meeting, options: MitreOptions, hand: Hand) -> tuple[Mating, ...]:
        """A tongue's groove in either board."""
        if options.strengthen != "tongue":
            return ()
        matings = []
        for side, other in _pairs(meeting):
            nx, ny = Corner.of(side, other).outward
            matings.append(
                Mating(
                    key=f"groove in {side.body} towards {other.body}",
                    cut_in=side.body,
                    takes=f"tongue of {side.body} and {other.body}",
                    normal=(-ny + 0.0, nx, 0.0),
                    nominal=length(_tongue(meeting, options) + options.tongue_play),
                    play=length(options.tongue_play),
                    play_from="tongue_play",
                )
            )
        return tuple(matings)

    def make(self, meeting: Meeting, options: MitreOptions, hand: Hand) -> Joint:
        """Cut both ends, then what strengthens them."""
        pairs = _pairs(meeting)
        cuts = [_end(meeting, side, other) for side, other in pairs]
        if options.strengthen == "keys":
            cuts += [_pockets(meeting, side, other, options) for side, other in pairs]
        elif options.strengthen == "tongue":
            cuts += [_groove(meeting, side, other, options) for side, other in pairs]
        low, high = meeting.overlap
        face = Corner.of(meeting.a, meeting.b).cut_length * (high - low)
        gaps = [Gap(between="mitre", size=0.0)]
        if options.strengthen == "tongue":
            gaps.append(Gap(between="wall", size=length(options.tongue_play / 2), count=4))
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=told(options),
            hand=hand,
            cuts=tuple(cuts),
            gaps=tuple(gaps),
            hidden_mm2=((meeting.a.body, face), (meeting.b.body, face)),
            findings=(
                *_shallow(meeting),
                *(found for pair in pairs for found in end_grain(meeting, *pair)),
                *_too_near(meeting, options),
            ),
        )

    def hardware(self, joint: Joint) -> tuple[Hardware, ...]:
        """Keys or a tongue, to be made in the shop."""
        options = dict(joint.options)
        low, high = joint.meeting.overlap
        if options["strengthen"] == "keys":
            thickness, count = (
                _number(options["key_thickness"]),
                len(_key_places(joint.meeting, int(_number(options["keys"])))),
            )
            reach = _key_reach(joint.meeting, _number(options["cutter"]), _number(options["plunge"]))
            size = f"{thickness:.1f} thick, strip {2 * reach + 10:.0f} x {_number(options['plunge']) + 10:.0f} a key"
            return (Hardware(name="key, grain across the mitre", size=size, count=count),)
        if options["strengthen"] == "tongue":
            wide = _width_of(_thinner(joint.meeting), options["tongue_width"])
            thick = _thick_of(_thinner(joint.meeting), options["tongue"])
            long = high - low - 2 * _number(options["tongue_stop"])
            size = f"{thick:.1f} x {wide:.1f} x {long:.0f}, grain across the corner"
            return (Hardware(name="loose tongue", size=size, count=1),)
        return ()

    def glue(self, joint: Joint) -> tuple[GlueFace, ...]:
        """One mitre face on the other, less a groove's mouth: end grain on end grain."""
        if not dict(joint.options)["glued"]:
            return ()
        grooves = (shape for cut in joint.cuts if cut.kind == GROOVE for shape in cut.shapes)
        long = next((shape.high - shape.low for shape in grooves if isinstance(shape, Prism)), 0.0)
        mouth = long * next((cut.figures.across or 0.0 for cut in joint.cuts if cut.kind == GROOVE), 0.0)
        return (GlueFace(grain="end-end", area_mm2=joint.hidden_mm2[0][1] - mouth),)

    def operations(self, joint: Joint) -> tuple[Operation, ...]:
        """The ends are sawn, two of one bevel with one setting; pockets wait until the corner is glued."""
        name = f"mitre {joint.key[0]} and {joint.key[1]}"
        ends = [cut for cut in joint.cuts if cut.end]
        bevels = dict.fromkeys(round(cut.figures.lean, 6) for cut in ends)
        made = [_sawn(name if len(bevels) == 1 else f"{name} at {bevel:g}", bevel, ends) for bevel in bevels]
        rest = [cut for cut in joint.cuts if not cut.end]
        if not rest:
            return tuple(made)
        if rest[0].kind == GROOVE:
            word, process = "grooves", "router on a mitre jig"
            after = tuple(operation.key for operation in made)
        else:
            word, process = "keys", "circular cutter on a corner jig"
            after = (f"glued:{joint.key[0]}+{joint.key[1]}",)
        way = Way(process=process, needs=(), setup=(word, *bevels))
        keys = tuple(cut.key for cut in rest)
        return (*made, Operation(key=f"{word} of {name}", cuts=keys, ways=(way,), after=after))

    def notes(self, joint: Joint) -> tuple[str, ...]:
        """What must not be forgotten."""
        strengthen = dict(joint.options)["strengthen"]
        if strengthen == "keys":
            return ("The pockets are cut after the corner is glued and before anything stands in the way.",)
        if strengthen == "tongue":
            return ("The tongue goes in along the mitre's normal: a closed frame is closed as two halves.",)
        return ("Size the end grain with thin glue first, then glue.",)


def _sawn(key: str, bevel: float, ends: list[Cut]) -> Operation:
    """The ends of one bevel."""
    cuts = tuple(cut.key for cut in ends if round(cut.figures.lean, 6) == bevel)
    way = Way(process="saw and shooting board", needs=(("bevel", bevel),), setup=("mitre saw", bevel))
    return Operation(key=key, cuts=cuts, ways=(way,))


def _number(value: object) -> float:
    assert isinstance(value, (int, float))
    return float(value)


def _pairs(meeting: Meeting) -> tuple[tuple[Side, Side], tuple[Side, Side]]:
    """Each side with the other."""
    return (meeting.a, meeting.b), (meeting.b, meeting.a)


def _thin_point(meeting: Meeting) -> str:
    """Why not, where a thin board on a thick one would be cut to a point thinner than any mitre's at 15 degrees."""
    for side, other in _pairs(meeting):
        angle = Corner.of(side, other).to_length
        if angle < LEAST_ANGLE / 2 - 1e-6:
            return f"{side.body} would be cut at {angle:.1f} degrees to its length; a mitre is made from 7.5 on"
    return ""


def _no_room(meeting: Meeting, options: MitreOptions) -> str:
    """Why not, where keys or a tongue find no room."""
    low, high = meeting.overlap
    if options.strengthen == "keys":
        if options.plunge > options.cutter / 2:
            return f"a cutter of {said(options.cutter, 0)} cannot be plunged {said(options.plunge, 0)}"
        count = len(_key_places(meeting, options.keys))
        if (high - low) / count < 2 * options.key_thickness:
            return f"{count} keys of {said(options.key_thickness)} have no room in {said(high - low, 0)} of depth"
    elif options.strengthen == "tongue" and high - low - 2 * options.tongue_stop < _tongue_width(meeting, options):
        return f"a tongue stopped {said(options.tongue_stop, 0)} at both edges has no room in {said(high - low, 0)}"
    return ""


def _proud(side: Side, other: Side, way: float) -> bool:
    """Whether a board stands proud of the other at the front (1) or at the wall (-1)."""
    return (side.front - other.front if way > 0.0 else other.back - side.back) > UNEQUAL


def _held(meeting: Meeting, way: float) -> bool:
    """Whether side b cannot leave to the front (1) or to the wall (-1): a square end stands before it."""
    return _proud(meeting.a, meeting.b, way) or _proud(meeting.b, meeting.a, -way)


def _step(meeting: Meeting) -> float:
    """Along the mitre's normal until no square end of a deeper board lies over the other's edge."""
    corners = [Corner.of(*pair) for pair in _pairs(meeting) if _proud(*pair, 1.0) or _proud(*pair, -1.0)]
    return max((one.long_less_short * math.sin(math.radians(one.to_length)) for one in corners), default=0.0)


def _shallow(meeting: Meeting) -> tuple[Finding, ...]:
    """Only a sharp corner is shallow: a blunt one is the easier to mitre."""
    return shallow_angle(meeting) if Corner.of(meeting.a, meeting.b).phi < 90.0 else ()


def _end(meeting: Meeting, side: Side, other: Side) -> Cut:
    """An end cut along the mitre; square at the long point where the other board is not beside it."""
    corner = Corner.of(side, other)
    reach = _reach(meeting, side)
    plane = half_space(corner.at((0.0, 0.0)), corner.outward)
    shapes: tuple[Shape, ...] = (plane,) if reach is None else _stepped(corner, side, reach)
    inside, outside = (length(side.at + way * corner.inner[0]) for way in (1.0, -1.0))
    past = f"long point {said(corner.long_less_short)} past the short point"
    return Cut(
        key=f"mitre of {side.body} to {other.body}",
        body=side.body,
        kind="mitre" if reach is None else "mitre in part of the depth",
        joint=meeting.key,
        end=side.end,
        shapes=shapes,
        figures=Figures(
            across=length(corner.cut_length),
            deep=length(corner.long_less_short),
            opens="end",
            between_faces=round(corner.phi, 9),
            lean=round(90.0 - corner.to_length, 9),
            sum=past if reach is None else f"{past}; {said(reach[1] - reach[0])} of the width, the rest square",
            reach=reach,
            points=(inside, outside) if corner.inside > 0 else (outside, inside),
        ),
        tool="saw",
    )


def _reach(meeting: Meeting, side: Side) -> tuple[float, float] | None:
    """From and to across a board, where it is mitred over the common depth only; None over all its width."""
    low, high = meeting.overlap
    start = 0.0 if low <= side.back + UNEQUAL else length(low - side.back)
    whole = length(side.front - side.back)
    stop = whole if high >= side.front - UNEQUAL else length(high - side.back)
    return None if (start, stop) == (0.0, whole) else (start, stop)


def _stepped(corner: Corner, side: Side, reach: tuple[float, float]) -> tuple[HalfSpace | Prism, ...]:
    """Square at the long point, and the mitre's wedge taken off over the common depth only."""
    way = -corner.away[0]  # towards the end
    out = abs(corner.inner[0])
    square = half_space(corner.at((way * out, 0.0)), (way, 0.0))
    size = math.hypot(*corner.inner)
    ux, uy = corner.inner[0] / size, corner.inner[1] / size
    long = size + 2 * OVER / abs(uy)
    p, q = (ux * long, uy * long), (-ux * long, -uy * long)
    beyond = way * (out + 4 * OVER + long)
    wedge = tuple(corner.at(point) for point in (p, q, (beyond, q[1]), (beyond, p[1])))
    start, stop = reach
    at_wall, at_front = start == 0.0, stop >= length(side.front - side.back)
    return square, prism(wedge, start - OVER * at_wall, stop + OVER * at_front)


def _key_places(meeting: Meeting, wanted: int) -> tuple[float, ...]:
    """Middles of the keys out of the wall, evenly over the common depth."""
    low, high = meeting.overlap
    count = wanted or max(2, round((high - low) / KEY_SPACING))
    step = (high - low) / count
    return tuple(length(low + (number + 0.5) * step) for number in range(count))


def _key_reach(meeting: Meeting, cutter: float, plunge: float) -> float:
    """How far a pocket reaches along either outer face from the arris."""
    radius, half = cutter / 2, math.radians(_half_outer(meeting))
    stand = radius - plunge  # the cutter's middle, outside the arris on the bisector
    return math.sqrt(radius**2 - (stand * math.sin(half)) ** 2) - stand * math.cos(half)


def _half_outer(meeting: Meeting) -> float:
    return Corner.of(meeting.a, meeting.b).phi / 2


def _cutter_middle(corner: Corner, options: MitreOptions) -> Vec2:
    """Outside the outside arris on the bisector of the outer faces, measured from the corner's middle."""
    stand = options.cutter / 2 - options.plunge
    bx, by = corner.bisector
    return (-corner.inner[0] - stand * bx, -corner.inner[1] - stand * by)


def _pockets(meeting: Meeting, side: Side, other: Side, options: MitreOptions) -> Cut:
    """Pockets of a circular cutter for keys across the outside arris: this board's share."""
    corner = Corner.of(side, other)
    radius = options.cutter / 2
    middle = corner.at(_cutter_middle(corner, options))
    ring: tuple[Knot, ...] = (
        (length(middle[0] - radius), length(middle[1]), 1.0),
        (length(middle[0] + radius), length(middle[1]), 1.0),
    )
    half = options.key_thickness / 2
    shapes = tuple(
        Prism(outline=ring, low=length(z - side.back - half), high=length(z - side.back + half))
        for z in _key_places(meeting, options.keys)
    )
    return Cut(
        key=f"key pockets in {side.body} to {other.body}",
        body=side.body,
        kind="key pockets",
        takes="keys",
        joint=meeting.key,
        shapes=shapes,
        figures=Figures(
            across=length(options.key_thickness),
            on_face=length(_key_reach(meeting, options.cutter, options.plunge)),
            deep=length(options.plunge),
            opens="end",
            between_faces=round(corner.phi, 9),
            sum=f"cutter {said(options.cutter, 0)}, plunged {said(options.plunge, 0)} along the bisector",
        ),
        size_is="FIT TO",
        tool="circular cutter, after gluing",
    )


def _thinner(meeting: Meeting) -> float:
    return min(meeting.a.thickness, meeting.b.thickness)


def _thick_of(thickness: float, asked: object) -> float:
    return _number(asked) if asked is not None else max(EVEN, math.floor(thickness / 3 / EVEN) * EVEN)


def _width_of(thickness: float, asked: object) -> float:
    return _number(asked) if asked is not None else max(2.0, math.floor(thickness * 2 / 3))


def _tongue(meeting: Meeting, options: MitreOptions) -> float:
    return _thick_of(_thinner(meeting), options.tongue)


def _tongue_width(meeting: Meeting, options: MitreOptions) -> float:
    return _width_of(_thinner(meeting), options.tongue_width)


def _groove_middle(corner: Corner) -> Vec2:
    """A third of the mitre from the inside arris: there is most wood behind it (common practice)."""
    return (corner.inner[0] / 3, corner.inner[1] / 3)


def _groove_size(meeting: Meeting, options: MitreOptions) -> tuple[float, float]:
    """Half its width, and its depth from the mitre."""
    half = (_tongue(meeting, options) + options.tongue_play) / 2
    return half, _tongue_width(meeting, options) / 2 + GROOVE_DEEPER


def _groove_outline(corner: Corner, half: float, deep: float) -> tuple[Vec2, Vec2, Vec2, Vec2]:
    """From the corner's middle: two corners before the mitre, then the two at the groove's bottom."""
    nx, ny = corner.outward
    mx, my = _groove_middle(corner)

    def at(across: float, along: float) -> Vec2:
        return (mx - ny * across - nx * along, my + nx * across - ny * along)

    return at(-half, -OVER), at(half, -OVER), at(half, deep), at(-half, deep)


def _groove(meeting: Meeting, side: Side, other: Side, options: MitreOptions) -> Cut:
    """A groove square to the mitre face for half the tongue, stopped at both edges."""
    corner = Corner.of(side, other)
    half, deep = _groove_size(meeting, options)
    corners = tuple(corner.at(point) for point in _groove_outline(corner, half, deep))
    low, high = meeting.overlap
    stop = options.tongue_stop
    return Cut(
        key=f"groove in {side.body} towards {other.body}",
        body=side.body,
        kind=GROOVE,
        takes="tongue",
        joint=meeting.key,
        shapes=(prism(corners, low - side.back + stop, high - side.back - stop),),
        figures=Figures(
            across=length(2 * half),
            deep=length(deep),
            opens="end",
            stop=length(stop),
            between_faces=round(corner.phi, 9),
            lean=round(90.0 - corner.to_length, 9),
            sum=f"tongue {said(_tongue(meeting, options))} + play {said(options.tongue_play, 2)}",
        ),
        size_is="FIT TO",
        tool="router on the mitre face",
    )


def _too_near(meeting: Meeting, options: MitreOptions) -> tuple[Finding, ...]:
    """Wood left beside a tongue's groove, and inside a key's pocket."""
    corner = Corner.of(meeting.a, meeting.b)
    boards = (meeting.a.body, meeting.b.body)
    if options.strengthen == "tongue":
        left = min(_beside_groove(Corner.of(*pair), meeting, options) for pair in _pairs(meeting))
        return _little(
            TONGUE_WALL, meeting, boards, left, LEAST_OUTSIDE, "outside the tongue", "make the tongue narrower"
        )
    if options.strengthen == "keys":
        mx, my = _cutter_middle(corner, options)
        left = math.hypot(corner.inner[0] - mx, corner.inner[1] - my) - options.cutter / 2
        return _little(KEY_DEEP, meeting, boards, left, LEAST_INSIDE, "inside the keys", "plunge the cutter less deep")
    return ()


def _beside_groove(corner: Corner, meeting: Meeting, options: MitreOptions) -> float:
    """From the bottom of a groove, square to the nearer face of its board."""
    *_, one, other = _groove_outline(corner, *_groove_size(meeting, options))
    return corner.side.thickness / 2 - max(abs(one[1]), abs(other[1]))


def _little(
    code: str, meeting: Meeting, boards: tuple[str, str], left: float, least: float, place: str, remedy: str
) -> tuple[Finding, ...]:
    if left >= least:
        return ()
    return (
        Finding(
            code=code,
            severity=Severity.STOP,
            where=Where(boards=boards, joint=meeting.key),
            says=f"{boards[0]} and {boards[1]}: {said(left)} of wood is left {place}",
            remedy=remedy,
            found=left,
            limit=least,
            unit="mm",
            source="common practice",
        ),
    )
