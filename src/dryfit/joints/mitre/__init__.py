"""Mitre: two boards that end at one point, each cut along the line between the inside and the outside arris.

Plain, or strengthened. With keys let into pockets of a circular cutter across the outside arris after the frame is
glued, or with screws through the one board into the other's end, under plugs: they hold no board back. With a loose
tongue, dowels or biscuits in both mitre faces: these lie along the mitre's normal, so the last board of a closed frame
cannot go on alone, and the frame closes as two halves. Lengths in mm.
"""

import math
from collections.abc import Mapping
from types import MappingProxyType

from ...findings import Finding
from ...geometry.frames import Vec, length
from ...geometry.shapes import OVER, HalfSpace, Prism, Shape, half_space, prism
from ...piece.carries import fast, left_of, opposite, rests, sideways, spread
from ...piece.corner import Corner
from ...piece.facts import Between, CutForm, GlueZone, Grain, Opens
from ...piece.kinds import Glyph, JointKind
from ...piece.model import (
    Board,
    Carry,
    Cut,
    Ease,
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
    Ware,
)
from ...piece.operations import Operation, sawn
from ...piece.sums import Sum
from ...places import Plain
from ...sentences import Angle, Length, Name, Words, say
from ..common import LEAST_ANGLE, UNEQUAL, end_grain, judge_angle, shallow_angle
from ..registry import register
from .biscuits import BISCUIT_WALL, Biscuits
from .dowels import Dowels
from .keys import KEY_DEEP, Keys
from .options import MitreOptions
from .screws import SCREW_OUTSIDE, Screws
from .strengthening import Strengthening, pairs
from .tongue import TONGUE_WALL, Tongue

PLAIN = Strengthening()
BY: Mapping[str, Strengthening] = MappingProxyType({
    "none": PLAIN,
    "keys": Keys(),
    "tongue": Tongue(),
    "dowels": Dowels(),
    "biscuits": Biscuits(),
    "screws": Screws(),
})  # fmt: skip


@register
class Mitre(JointKind[MitreOptions]):
    """Two ends cut to one line."""

    name = "mitre"
    glyphs = MappingProxyType({
        "": Glyph(lines="M3 13L13 3"),
        "keyed": Glyph(lines="M3 13L13 3M5.2 7.6l3.2 3.2M7.6 5.2l3.2 3.2"),
    })  # fmt: skip
    codes = (TONGUE_WALL, KEY_DEEP, BISCUIT_WALL, SCREW_OUTSIDE)
    serves = frozenset({(Touch.END, Touch.END)})
    options = MitreOptions

    def judge(self, meeting: Meeting, options: MitreOptions) -> Judgement:
        """Possible from an inside angle of 15 on, with room for what strengthens it."""
        if meeting.form == "in line" or Corner.of(meeting.a, meeting.b).phi < 90.0:
            angle = judge_angle(meeting, self.name)
            if not angle.possible:
                return angle
        reason = _thin_point(meeting) or _by(options).no_room(meeting, options)
        return Judgement(possible=not reason, reasons=(reason,) if reason else ())

    def worked(self, meeting: Meeting, options: MitreOptions) -> MitreOptions:
        """Of what strengthens it: how much there is of it, and its sizes."""
        return _by(options).worked(meeting, options)

    def makings(self, meeting: Meeting, options: MitreOptions) -> tuple[Making, ...]:
        """One way to make it; with what stands in both ends it goes together along the mitre's normal only."""
        body = meeting.b.body
        corner = Corner.of(meeting.b, meeting.a)
        nx, ny = corner.outward
        x, y = meeting.frame.x, meeting.frame.y
        apart: Vec = (-(nx * x[0] + ny * y[0]) + 0.0, -(nx * x[1] + ny * y[1]) + 0.0, 0.0)
        goes_in = _by(options).goes_in(meeting, options)
        held = {way for way in (1.0, -1.0) if _held(meeting, way)}
        free = max(goes_in, _step(meeting) if held else 0.0)
        motions = [Motion(body=body, direction=apart, free=length(free))]
        if not goes_in:
            low, high = meeting.overlap
            motions += [
                Motion(body=body, direction=(0.0, 0.0, way), free=length(high - low))
                for way in (1.0, -1.0)
                if way not in held
            ]
        return (Making(name=say("{} and {} mitred", Name(meeting.a.body), Name(body)), motions=tuple(motions)),)

    def eases(self, meeting: Meeting, options: MitreOptions, making: Making) -> tuple[Ease, ...]:
        """Keys, which go in after gluing, hold no board back as what stands in both ends does."""
        by = _by(options)
        if not by.goes_in(meeting, options):
            return ()
        keyed = options.model_copy(update={"strengthen": "keys"})
        a, b = Name(meeting.a.body), Name(meeting.b.body)
        says = say("hold the corner of {} and {} with keys instead of {}", a, b, by.word)
        return (Ease(says=says, options=(("strengthen", "keys"),), making=self.makings(meeting, keyed)[0]),)

    def matings(self, meeting: Meeting, options: MitreOptions, making: Making) -> tuple[Mating, ...]:
        """A tongue's groove in either board."""
        return _by(options).matings(meeting, options)

    def make(self, meeting: Meeting, options: MitreOptions, making: Making) -> Joint[MitreOptions]:
        """Cut both ends, then what strengthens them."""
        by = _by(options)
        cuts = [*(_end(meeting, side, other) for side, other in pairs(meeting)), *by.cuts(meeting, options)]
        low, high = meeting.overlap
        face = Corner.of(meeting.a, meeting.b).cut_length * (high - low)
        gaps = [Gap(between=Between.MITRE, size=0.0), *by.gaps(meeting, options)]
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            glued=options.glued,
            cuts=tuple(cuts),
            gaps=tuple(gaps),
            hidden_mm2=((meeting.a.body, face), (meeting.b.body, face)),
            findings=(
                *_shallow(meeting),
                *(found for pair in pairs(meeting) for found in end_grain(meeting, *pair)),
                *by.findings(meeting, options),
            ),
        )

    def glues(self, options: MitreOptions) -> bool:
        """As asked."""
        return options.glued

    def gluing(self, options: MitreOptions) -> tuple[tuple[str, Plain], ...]:
        """An option of its own."""
        return () if options.glued else (("glued", True),)

    def carries(self, joint: Joint[MitreOptions]) -> tuple[Carry, ...]:
        """One cut end rests on the other; a tongue or dowels keep them from slipping, glue, keys, screws hold fast."""
        meeting, options, by = joint.meeting, joint.options, _by(joint.options)
        a, b, middle, apart = meeting.a.body, meeting.b.body, meeting.frame.origin, joint.making.motions[0].direction
        along = left_of(apart)
        bears = [rests(b, a, opposite(apart), spread(middle, along, Corner.of(meeting.a, meeting.b).cut_length / 2))]
        if by.pins:
            bears.append(sideways(b, a, along, (middle,)))
        if options.glued or by.holds:
            bears.append(fast(meeting, glue=by is PLAIN))
        return tuple(bears)

    def marked(self, joint: Joint[MitreOptions]) -> str:
        """Keys are seen; a tongue, though it is stopped, is not."""
        return _by(joint.options).mark

    def strengthened(self, joint: Joint[MitreOptions]) -> Words:
        """By keys, a tongue, dowels, biscuits or screws."""
        return _by(joint.options).word

    def held(self, options: MitreOptions) -> Words:
        """By glue; dry, by screws."""
        return "screwed" if options.strengthen == "screws" and not options.glued else super().held(options)

    def hardware(self, joint: Joint[MitreOptions]) -> tuple[Ware, ...]:
        """Keys or a tongue, to be made in the shop; dowels, biscuits or screws with their plugs."""
        return _by(joint.options).hardware(joint)

    def glue(self, joint: Joint[MitreOptions]) -> tuple[GlueZone, ...]:
        """One mitre face on the other, less what stands in it: end grain on end grain."""
        if not joint.glued:
            return ()
        area = joint.hidden_mm2[0][1] - _by(joint.options).mouths_mm2(joint)
        return (GlueZone(faces="both mitre faces, sized first", grain=(Grain.END, Grain.END), area_mm2=area),)

    def operations(self, joint: Joint[MitreOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """The ends are sawn; what holds them follows."""
        ends = tuple(sawn([cut], boards[cut.body]) for cut in joint.cuts if cut.end)
        rest = [cut for cut in joint.cuts if not cut.end]
        return (*ends, *_by(joint.options).operations(joint, rest, boards, tuple(one.key for one in ends)))

    def notes(self, joint: Joint[MitreOptions]) -> tuple[Words, ...]:
        """What must not be forgotten."""
        return (_by(joint.options).note,)


def _by(options: MitreOptions) -> Strengthening:
    return BY[options.strengthen]


def _thin_point(meeting: Meeting) -> Words:
    """Why not, where a thin board on a thick one would be cut to a point thinner than any mitre's at 15 degrees."""
    for side, other in pairs(meeting):
        angle = Corner.of(side, other).to_length
        if angle < LEAST_ANGLE / 2 - 1e-6:
            return say(
                "{} would be cut at {} to its length; a mitre is made from {} on",
                Name(side.body),
                Angle(angle),
                Angle(LEAST_ANGLE / 2),
            )
    return ""


def _proud(side: Side, other: Side, way: float) -> bool:
    """Whether a board stands proud of the other at the front (1) or at the wall (-1)."""
    return (side.front - other.front if way > 0.0 else other.back - side.back) > UNEQUAL


def _held(meeting: Meeting, way: float) -> bool:
    """Whether side b cannot leave to the front (1) or to the wall (-1): a square end stands before it."""
    return _proud(meeting.a, meeting.b, way) or _proud(meeting.b, meeting.a, -way)


def _step(meeting: Meeting) -> float:
    """Along the mitre's normal until no square end of a deeper board lies over the other's edge."""
    corners = [Corner.of(*pair) for pair in pairs(meeting) if _proud(*pair, 1.0) or _proud(*pair, -1.0)]
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
