"""Mitre: two boards that end at one point, each cut along the line between the inside and the outside arris.

Plain, or strengthened: with keys let into pockets of a circular cutter across the outside arris after the
frame is glued, or with a loose tongue in both mitre faces. A tongue lies along the mitre's normal, so the
last board of a closed frame cannot go on alone: the frame closes as two halves. Lengths in mm.
"""

import math
from collections import Counter
from collections.abc import Mapping
from dataclasses import replace
from types import MappingProxyType

from ...findings import Finding, Severity, declare, printed
from ...geometry.frames import Vec, length
from ...geometry.shapes import OVER, HalfSpace, Prism, Shape, half_space, prism
from ...job.options import filled
from ...piece.carries import fast, left_of, opposite, rests, sideways, spread
from ...piece.corner import Corner
from ...piece.facts import Between, CutForm, GlueZone, Grain, Opens
from ...piece.kinds import Glyph, JointKind, asked
from ...piece.model import (
    Board,
    Carry,
    Cut,
    Ease,
    Figures,
    Gap,
    Hand,
    Joint,
    Judgement,
    Mating,
    Meeting,
    Motion,
    Side,
    Touch,
    Ware,
)
from ...piece.operations import Operation, sawn
from ...piece.sums import Sum
from ...places import Plain, Where
from ...sentences import Angle, Length, Name, Words, say
from ..common import LEAST_ANGLE, UNEQUAL, end_grain, judge_angle, shallow_angle
from ..registry import register
from . import keys, tongue
from .options import MitreOptions

TONGUE_WALL = declare(
    "tongue-near-outside",
    "A loose tongue leaves too little wood to the outside of its corner.",
    uncured="a thinner or narrower tongue, or another spline, is a choice of the shop",
)
KEY_DEEP = declare(
    "key-too-deep",
    "The pocket of a key reaches too near the inside of its corner.",
    uncured="which cutter is used, and how deep it plunges, is a choice of the shop",
)

LEAST_PLUNGE = 3.0  # of a key's pocket, to be offered as a cure (ours)
LONG = math.sqrt(2)  # what is cut back square to a mitre of 45 shows so much less square to a face
LEAST_OUTSIDE = 4.0  # wood outside a tongue's groove (common practice)
LEAST_INSIDE = 4.0  # wood between a key's pocket and the inside arris (common practice)


@register
class Mitre(JointKind[MitreOptions]):
    """Two ends cut to one line."""

    name = "mitre"
    glyphs = MappingProxyType({
        "": Glyph(lines="M3 13L13 3"),
        "keyed": Glyph(lines="M3 13L13 3M5.2 7.6l3.2 3.2M7.6 5.2l3.2 3.2"),
    })  # fmt: skip
    codes = (TONGUE_WALL, KEY_DEEP)
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

    def worked(self, meeting: Meeting, options: MitreOptions) -> MitreOptions:
        """Of what strengthens it: how many keys, or the size of the tongue."""
        if options.strengthen == "keys":
            return filled(options, keys=keys.count(meeting, options))
        if options.strengthen == "tongue":
            return filled(options, tongue=tongue.thick(meeting, options), tongue_width=tongue.wide(meeting, options))
        return options

    def hands(self, meeting: Meeting, options: MitreOptions) -> tuple[Hand, ...]:
        """One way to make it; with a tongue it goes together along the mitre's normal only."""
        body = meeting.b.body
        corner = Corner.of(meeting.b, meeting.a)
        nx, ny = corner.outward
        x, y = meeting.frame.x, meeting.frame.y
        apart: Vec = (-(nx * x[0] + ny * y[0]) + 0.0, -(nx * x[1] + ny * y[1]) + 0.0, 0.0)
        tongued = options.strengthen == "tongue"
        held = {way for way in (1.0, -1.0) if _held(meeting, way)}
        free = max(tongue.wide(meeting, options) / 2 if tongued else 0.0, _step(meeting) if held else 0.0)
        motions = [Motion(body=body, direction=apart, free=length(free))]
        if not tongued:
            low, high = meeting.overlap
            motions += [
                Motion(body=body, direction=(0.0, 0.0, way), free=length(high - low))
                for way in (1.0, -1.0)
                if way not in held
            ]
        return (Hand(name=say("{} and {} mitred", Name(meeting.a.body), Name(body)), motions=tuple(motions)),)

    def eases(self, meeting: Meeting, options: MitreOptions, hand: Hand) -> tuple[Ease, ...]:
        """Keys, which go in after gluing, hold no board back as a tongue does."""
        if options.strengthen != "tongue":
            return ()
        keyed = options.model_copy(update={"strengthen": "keys"})
        a, b = Name(meeting.a.body), Name(meeting.b.body)
        says = say("hold the corner of {} and {} with keys instead of a tongue", a, b)
        return (Ease(says=says, options=(("strengthen", "keys"),), hand=self.hands(meeting, keyed)[0]),)

    def matings(self, meeting: Meeting, options: MitreOptions, hand: Hand) -> tuple[Mating, ...]:
        """A tongue's groove in either board."""
        if options.strengthen != "tongue":
            return ()
        return tuple(tongue.mating(meeting, *pair, options) for pair in _pairs(meeting))

    def make(self, meeting: Meeting, options: MitreOptions, hand: Hand) -> Joint[MitreOptions]:
        """Cut both ends, then what strengthens them."""
        pairs = _pairs(meeting)
        cuts = [_end(meeting, side, other) for side, other in pairs]
        if options.strengthen == "keys":
            cuts += [keys.pockets(meeting, *pair, options) for pair in pairs]
        elif options.strengthen == "tongue":
            cuts += [tongue.groove(meeting, *pair, options) for pair in pairs]
        low, high = meeting.overlap
        face = Corner.of(meeting.a, meeting.b).cut_length * (high - low)
        gaps = [Gap(between=Between.MITRE, size=0.0)]
        if options.strengthen == "tongue":
            films = Counter((meeting.a.wall_film, meeting.b.wall_film))  # on a coated groove's walls, two a groove
            half = options.tongue_play / 2
            gaps += [Gap(between=Between.WALL, size=length(half + film), count=2 * n) for film, n in films.items()]
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            hand=hand,
            glued=options.glued,
            cuts=tuple(cuts),
            gaps=tuple(gaps),
            hidden_mm2=((meeting.a.body, face), (meeting.b.body, face)),
            findings=(
                *_shallow(meeting),
                *(found for pair in pairs for found in end_grain(meeting, *pair)),
                *_too_near(meeting, options),
            ),
        )

    def glues(self, options: MitreOptions) -> bool:
        """As asked."""
        return options.glued

    def gluing(self, options: MitreOptions) -> tuple[tuple[str, Plain], ...]:
        """An option of its own."""
        return () if options.glued else (("glued", True),)

    def carries(self, joint: Joint[MitreOptions]) -> tuple[Carry, ...]:
        """One cut end rests on the other; a tongue keeps them from slipping, glue or keys hold them fast."""
        meeting, options = joint.meeting, joint.options
        a, b, middle, apart = meeting.a.body, meeting.b.body, meeting.frame.origin, joint.hand.motions[0].direction
        along = left_of(apart)
        bears = [rests(b, a, opposite(apart), spread(middle, along, Corner.of(meeting.a, meeting.b).cut_length / 2))]
        if options.strengthen == "tongue":
            bears.append(sideways(b, a, along, (middle,)))
        if options.glued or options.strengthen == "keys":
            bears.append(fast(meeting, glue=options.strengthen == "none"))
        return tuple(bears)

    def marked(self, joint: Joint[MitreOptions]) -> str:
        """Keys are seen; a tongue, though it is stopped, is not."""
        return "keyed" if joint.options.strengthen == "keys" else ""

    def strengthened(self, joint: Joint[MitreOptions]) -> Words:
        """By keys, or by a tongue."""
        return {"keys": "keys", "tongue": "a tongue"}.get(joint.options.strengthen, "")

    def hardware(self, joint: Joint[MitreOptions]) -> tuple[Ware, ...]:
        """Keys or a tongue, to be made in the shop."""
        options = joint.options
        if options.strengthen == "keys":
            return (keys.hardware(joint.meeting, options),)
        return (tongue.hardware(joint.meeting, options),) if options.strengthen == "tongue" else ()

    def glue(self, joint: Joint[MitreOptions]) -> tuple[GlueZone, ...]:
        """One mitre face on the other, less a groove's mouth: end grain on end grain."""
        if not joint.glued:
            return ()
        groove = next((cut for cut in joint.cuts if cut.form is CutForm.GROOVE), None)
        mouth = 0.0 if groove is None else tongue.long_of(groove) * (groove.figures.across or 0.0)
        area = joint.hidden_mm2[0][1] - mouth
        return (GlueZone(faces="both mitre faces, sized first", grain=(Grain.END, Grain.END), area_mm2=area),)

    def operations(self, joint: Joint[MitreOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """The ends are sawn; grooves follow them, pockets wait until the corner is glued."""
        ends = tuple(sawn([cut], boards[cut.body]) for cut in joint.cuts if cut.end)
        options = joint.options
        rest = [cut for cut in joint.cuts if not cut.end]
        if options.strengthen == "keys" and rest:
            return (*ends, keys.cut_pockets(rest, boards[rest[0].body], options, joint.key))
        after = tuple(one.key for one in ends)
        return (*ends, *(tongue.cut_groove(cut, boards[cut.body], after) for cut in rest))

    def notes(self, joint: Joint[MitreOptions]) -> tuple[Words, ...]:
        """What must not be forgotten."""
        strengthen = joint.options.strengthen
        if strengthen == "keys":
            return ("The pockets are cut after the corner is glued and before anything stands in the way.",)
        if strengthen == "tongue":
            return ("The tongue goes in along the mitre's normal: a closed frame is closed as two halves.",)
        return ("Size the end grain with thin glue first, then glue.",)


def _pairs(meeting: Meeting) -> tuple[tuple[Side, Side], tuple[Side, Side]]:
    """Each side with the other."""
    return (meeting.a, meeting.b), (meeting.b, meeting.a)


def _thin_point(meeting: Meeting) -> Words:
    """Why not, where a thin board on a thick one would be cut to a point thinner than any mitre's at 15 degrees."""
    for side, other in _pairs(meeting):
        angle = Corner.of(side, other).to_length
        if angle < LEAST_ANGLE / 2 - 1e-6:
            return say(
                "{} would be cut at {} to its length; a mitre is made from {} on",
                Name(side.body),
                Angle(angle),
                Angle(LEAST_ANGLE / 2),
            )
    return ""


def _no_room(meeting: Meeting, options: MitreOptions) -> Words:
    """Why not, where keys or a tongue find no room."""
    if options.strengthen == "keys":
        return keys.no_room(meeting, options)
    return tongue.no_room(meeting, options) if options.strengthen == "tongue" else ""


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
    past: Words = say("long point {} past the short point", Length(corner.long_less_short))
    if reach is not None:
        past = say("{}; {} of the width, the rest square", past, Length(reach[1] - reach[0]))
    says = say("mitre of {} to {}", Name(side.body), Name(other.body))
    return Cut(
        key=str(says),
        says=says,
        body=side.body,
        form=CutForm.END,
        word="mitre" if reach is None else "mitre in part of the depth",
        joint=meeting.key,
        end=side.end,
        shapes=shapes,
        figures=Figures(
            width=Sum.alone(corner.cut_length),
            depth=Sum.alone(corner.long_less_short),
            opens=Opens.END,
            between_faces=round(corner.phi, 9),
            lean=round(90.0 - corner.to_length, 9),
            note=past,
            stands="corner",
            reach=reach,
            points=(inside, outside) if corner.inside > 0 else (outside, inside),
        ),
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


def _too_near(meeting: Meeting, options: MitreOptions) -> tuple[Finding, ...]:
    """Wood left beside a tongue's groove, and inside a key's pocket."""
    if options.strengthen == "tongue":
        left = tongue.left_outside(meeting, options)
        found = _little(TONGUE_WALL, meeting, left, LEAST_OUTSIDE, "outside the tongue", "make the tongue narrower")
        return found and _narrower(found, meeting, options, LEAST_OUTSIDE - left)
    if options.strengthen == "keys":
        left = keys.left_inside(meeting, options)
        found = _little(KEY_DEEP, meeting, left, LEAST_INSIDE, "inside the keys", "plunge the cutter less deep")
        return found and _less_deep(found, meeting, options, LEAST_INSIDE - left)
    return ()


def _narrower(
    found: tuple[Finding, ...], meeting: Meeting, options: MitreOptions, missing: float
) -> tuple[Finding, ...]:
    """With a width of the tongue that leaves enough, where there is one: half of it less stands in either groove."""
    wide = printed(tongue.wide(meeting, options) - 2 * LONG * missing, "-", "mm")
    able = options.model_copy(update={"tongue_width": wide})
    if wide < tongue.LEAST_WIDE or tongue.left_outside(meeting, able) < LEAST_OUTSIDE or tongue.no_room(meeting, able):
        return found
    return (replace(found[0], cures=(asked("make the tongue {} wide", "tongue_width", wide, "-"),)),)


def _less_deep(
    found: tuple[Finding, ...], meeting: Meeting, options: MitreOptions, missing: float
) -> tuple[Finding, ...]:
    """With a plunge that leaves enough, where there is one."""
    plunge = printed(options.plunge - LONG * missing, "-", "mm")
    able = options.model_copy(update={"plunge": plunge})
    if plunge < LEAST_PLUNGE or keys.left_inside(meeting, able) < LEAST_INSIDE or keys.no_room(meeting, able):
        return found
    return (replace(found[0], cures=(asked("plunge the cutter {}", "plunge", plunge, "-"),)),)


def _little(code: str, meeting: Meeting, left: float, least: float, place: str, remedy: str) -> tuple[Finding, ...]:
    if left >= least:
        return ()
    a, b = meeting.a.body, meeting.b.body
    return (
        Finding(
            code=code,
            severity=Severity.STOP,
            where=Where(boards=(a, b), joint=meeting.key),
            says=say("{} and {}: {} of wood is left {}", Name(a), Name(b), Length(max(left, 0.0)), place),
            remedy=remedy,
            found=left,
            limit=least,
            unit="mm",
            source="common practice",
        ),
    )
