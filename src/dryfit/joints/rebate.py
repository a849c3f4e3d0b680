"""Rebate: at a corner the end of one board stands in a step cut out of the other's end, and leaves a thin lip over it.

The step is as wide as the board that it takes is thick, so that the end of the board with the rebate comes flush with
the other's outside; the lip covers the other's end grain. It is glued on the floor of the rebate and on its wall, end
grain on side grain at either, and the wall keeps the corner from racking while it sets.

Worked example: a level board 27 thick over an upright of 18, 240 deep, the rebate 18 deep: 18 x 18 x 240 = 77760 mm3
are taken out of the level one, 9 are left over the end of the upright. Uprights of a case 400 high whose level boards,
21.5 thick, have rebates 14 deep are 400 - 2 x 7.5 = 385 long. Lengths in mm.
"""

import math
from collections.abc import Mapping
from types import MappingProxyType
from typing import Annotated

from pydantic import Field

from ..findings import Finding, Severity, declare
from ..geometry.frames import Vec, Vec2, cosine, length
from ..geometry.shapes import OVER, HalfSpace, half_space, prism
from ..job.options import WORKED, BoardName, Options, Quantity, filled
from ..piece.carries import fast, opposite, rests, spread
from ..piece.corner import Corner
from ..piece.facts import Between, CutForm, GlueZone, Grain, Opens
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
from ..piece.operations import Operation, Way, WorkSort, across, router_needs, sawn
from ..piece.sums import Sum, Term, Word
from ..places import Plain, Where
from ..sentences import Angle, Length, Name, On, Words, say
from ..shop.tools import Ability, Need, Process
from .common import ANGLE_SLACK, end_cut, unlevel
from .registry import register

SHARE, EVEN = 2 / 3, 0.5  # of the thickness, in whole steps: what is left still covers, and keeps its edge (practice)
LEAST_LIP = 3.0  # left over the end: thinner it breaks off (common practice)
LEAST_DEPTH = 3.0  # of the rebate, to be one (common practice, as for a housing)
OFF_SQUARE = 45.0  # further off square the lip, or the wall, ends in a feather (ours)

LIP = declare(
    "rebate-lip-thin",
    "A rebate leaves too thin a lip over the end that it takes.",
    uncured="a thicker board, or a shallower rebate, is a choice of design",
)


class RebateOptions(Options):
    """Options of a rebate at a corner."""

    through: BoardName = Field(
        default="", description="The board that has the rebate and covers the other's end; left out: the level one."
    )
    depth: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="Of the rebate, square to the inside face; left out: two thirds of the thickness, rounded down to "
        "a whole 0.5.",
    )
    glued: bool = Field(default=True, description="Whether it is glued.")


@register
class Rebate(JointKind[RebateOptions]):
    """One board's end in a step of the other's."""

    name = "rebate"
    glyphs = MappingProxyType({"": Glyph(lines="M2 4h12v6M2 9h6v4M14 10v3M8 7v2M8 7h6")})
    codes = (LIP,)
    serves = frozenset({(Touch.END, Touch.END)})
    options = RebateOptions

    def judge(self, meeting: Meeting, options: RebateOptions) -> Judgement:
        """Possible at a corner up to 45 off square, of boards that are level at both edges, with a lip left."""
        if meeting.form == "in line":
            return Judgement.refused("two ends in line have no corner for a rebate", remedy="choose a splice or a butt")
        if options.through and options.through not in (meeting.a.body, meeting.b.body):
            return Judgement.refused(say("{} is not one of the two boards", Name(options.through)))
        off = abs(Corner.of(meeting.a, meeting.b).phi - 90.0)
        if off > OFF_SQUARE + ANGLE_SLACK:
            reason = say("the corner is {} off square; a rebate is made to {}", Angle(off), Angle(OFF_SQUARE))
            return Judgement.refused(
                reason, remedy="choose a mitre", found=off, limit=OFF_SQUARE, unit="deg", source="ours"
            )
        return unlevel(meeting, self.name) or _room(meeting, options)

    def worked(self, meeting: Meeting, options: RebateOptions) -> RebateOptions:
        """Which board has it, and how deep it is."""
        onto = Onto.of(meeting, options.through)
        return filled(options, through=onto.takes.body, depth=_depth(onto, options))

    def glues(self, options: RebateOptions) -> bool:
        """As asked."""
        return options.glued

    def gluing(self, options: RebateOptions) -> tuple[tuple[str, Plain], ...]:
        """An option of its own."""
        return () if options.glued else (("glued", True),)

    def makings(self, meeting: Meeting, options: RebateOptions) -> tuple[Making, ...]:
        """One way: out of the floor, and along the other board off its end; or anything between the two."""
        onto = Onto.of(meeting, options.through)
        first, *more = _ways(onto.out_of_face(meeting), _off_the_wall(meeting, onto))
        motion = Motion(body=onto.ends.body, direction=first, free=0.0, within=tuple(more))
        name = say("{} in a rebate of {}", Name(onto.ends.body), Name(onto.takes.body))
        return (Making(name=name, motions=(motion,)),)

    def matings(self, meeting: Meeting, options: RebateOptions, making: Making) -> tuple[Mating, ...]:
        """Nothing slides between two walls."""
        return ()

    def make(self, meeting: Meeting, options: RebateOptions, making: Making) -> Joint[RebateOptions]:
        """Cut both ends, then the rebate."""
        onto = Onto.of(meeting, options.through)
        depth = _depth(onto, options)
        low, high = onto.overlap
        end = onto.ends.thickness / onto.lines.sine * (high - low)
        wall = depth / onto.lines.sine * (high - low)
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            glued=options.glued,
            cuts=(_end(meeting, onto, depth), _covering(meeting, onto), _rebate(meeting, onto, depth)),
            gaps=(
                Gap(between=Between.BOTTOM, size=length(onto.takes.wall_film)),
                Gap(between=Between.SHOULDER, size=length(_films(onto))),
            ),
            hidden_mm2=((onto.ends.body, end + wall), (onto.takes.body, end + wall)),
            findings=_thin_lip(meeting, onto, depth),
        )

    def ends(self, joint: Joint[RebateOptions]) -> str:
        """The one that stands in the rebate."""
        return Onto.of(joint.meeting, joint.options.through).ends.body

    def carries(self, joint: Joint[RebateOptions]) -> tuple[Carry, ...]:
        """The end rests on the floor, its face on the wall; glue, on end grain at both, holds it fast."""
        meeting, onto = joint.meeting, Onto.of(joint.meeting, joint.options.through)
        out, off = onto.out_of_face(meeting), _off_the_wall(meeting, onto)
        ends, takes, middle = onto.ends.body, onto.takes.body, meeting.frame.origin
        half = onto.ends.thickness / 2
        bears = (
            rests(ends, takes, opposite(out), spread(middle, off, half)),
            rests(ends, takes, opposite(off), (middle,)),
        )
        return (*bears, fast(meeting, glue=True)) if joint.glued else bears

    def glue(self, joint: Joint[RebateOptions]) -> tuple[GlueZone, ...]:
        """The end on the floor, and the wall on the face: each time end grain on side grain."""
        if not joint.glued:
            return ()
        onto = Onto.of(joint.meeting, joint.options.through)
        low, high = onto.overlap
        depth = _depth(onto, joint.options)
        grain = (Grain.SIDE, Grain.END)
        return (
            GlueZone(
                faces="the end and the floor of the rebate",
                grain=grain,
                area_mm2=onto.ends.thickness / onto.lines.sine * (high - low),
            ),
            GlueZone(
                faces="the wall of the rebate and the face that stands against it",
                grain=grain,
                area_mm2=depth / onto.lines.sine * (high - low),
            ),
        )

    def operations(self, joint: Joint[RebateOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """Both ends are sawn; the rebate follows the end that it runs out at."""
        ends = tuple(sawn([cut], boards[cut.body]) for cut in joint.cuts if cut.end)
        (rebate,) = (cut for cut in joint.cuts if not cut.end)
        after = tuple(one.key for one in ends if rebate.body in {c.body for c in joint.cuts if c.key in one.cuts})
        return (*ends, _worked(rebate, boards[rebate.body], after))

    def notes(self, joint: Joint[RebateOptions]) -> tuple[Words, ...]:
        """Where it is gauged from, and how it is pressed."""
        onto = Onto.of(joint.meeting, joint.options.through)
        ends, takes = Name(onto.ends.body), Name(onto.takes.body)
        return (
            say("Gauge the rebate's width with the end of {} itself.", ends),
            say("Clamp {} both down on the floor and along {} against the wall.", ends, takes),
        )


# --- set-out -------------------------------------------------------------------------------------


def _depth(onto: Onto, options: RebateOptions) -> float:
    """As asked, else two thirds of the board, in whole steps."""
    if options.depth is not None:
        return options.depth
    return max(EVEN, math.floor(onto.takes.thickness * SHARE / EVEN + 1e-9) * EVEN)


def _films(onto: Onto) -> float:
    """Dry finish between the face that stands against the wall, and the wall."""
    return onto.ends.film + onto.takes.wall_film


def _room(meeting: Meeting, options: RebateOptions) -> Judgement:
    """The floor must lie in the wood."""
    onto = Onto.of(meeting, options.through)
    depth, takes = _depth(onto, options), onto.takes
    if LEAST_DEPTH - 1e-9 <= depth < takes.thickness:
        return Judgement(possible=True)
    limit = takes.thickness if depth >= takes.thickness else LEAST_DEPTH
    able = _depth(onto, options.model_copy(update={"depth": None}))
    reason = say("a rebate {} deep in {}, which is {} thick", Length(depth), Name(takes.body), Length(takes.thickness))
    return Judgement.refused(
        reason,
        remedy=say("from {} deep, and less than the board is thick", Length(LEAST_DEPTH, side=On.UP)),
        found=depth,
        limit=limit,
        unit="mm",
        source="common practice",
        cures=(asked("make it {} deep", "depth", able, "-"),) if able >= LEAST_DEPTH else (),
    )


def _off_the_wall(meeting: Meeting, onto: Onto) -> Vec:
    """World direction square off the rebate's wall, towards the end it runs out at."""
    x, y = _wall_normal(onto)
    bx, by = meeting.frame.x[0], meeting.frame.x[1]
    if onto.takes.body != meeting.b.body:  # the frame runs along side b
        c, s = math.cos(math.radians(meeting.b.turn)), math.sin(math.radians(meeting.b.turn))
        bx, by = bx * c - by * s, bx * s + by * c
    return (cosine(bx * x - by * y), cosine(by * x + bx * y), 0.0)


def _ways(out: Vec, off: Vec) -> list[Vec]:
    """The normals of floor and wall; at a blunt corner, where either presses the other, first the ways along them."""
    facing = sum(one * other for one, other in zip(out, off, strict=True))
    if facing >= -1e-9:
        return [out, off]
    sine = math.sqrt(1 - facing**2)

    def along(normal: Vec, other: Vec) -> Vec:
        x, y = ((one - facing * its) / sine for one, its in zip(normal[:2], other[:2], strict=True))
        return (cosine(x), cosine(y), 0.0)

    return [along(out, off), along(off, out), out, off]


def _wall_normal(onto: Onto) -> Vec2:
    """In the plane of the board with the rebate: square to the other's faces, away from this one's body."""
    return onto.covering_plane.normal[0], onto.covering_plane.normal[1]


def _wall(onto: Onto) -> tuple[Vec2, Vec2]:
    """A point of the wall, and its normal; it stands off the inside face of the end by the film between."""
    corner, (nx, ny) = Corner.of(onto.takes, onto.ends), _wall_normal(onto)
    inside = onto.ends.thickness / 2 + _films(onto)
    return corner.at((-nx * inside, -ny * inside)), (nx, ny)


def _rebate(meeting: Meeting, onto: Onto, depth: float) -> Cut:
    takes, ends = onto.takes, onto.ends
    (x, y), (nx, ny) = _wall(onto)
    floor = onto.face_c - onto.face * depth
    beyond = onto.face_c + onto.face * OVER

    def along(c: float, off: float) -> Vec2:
        """On the wall, or as far off it."""
        return (x + (off - (c - y) * ny) / nx, c)

    past = ends.thickness + _films(onto) + OVER
    outline = (along(floor, 0.0), along(beyond, 0.0), along(beyond, past), along(floor, past))
    says = say("rebate in {} for {}", Name(takes.body), Name(ends.body))
    films = _films(onto)
    width = Sum(ends.body, (Term(Word.THICKNESS, ends.thickness), *((Term(Word.FILM, films),) if films else ())))
    return Cut(
        key=str(says),
        says=says,
        body=takes.body,
        form=CutForm.REBATE,
        word="rebate",
        takes=ends.body,
        joint=meeting.key,
        face=onto.face,
        shapes=(prism(outline, -OVER, length(takes.front - takes.back) + OVER),),
        figures=Figures(
            width=width,
            on_face=length(width.total / onto.lines.sine),
            depth=Sum.alone(depth, Word.DEPTH),
            opens=Opens.END,
            between_faces=round(Corner.of(takes, ends).phi, 9),
            lean=round(math.degrees(math.atan2(-ny, nx)) if nx > 0 else math.degrees(math.atan2(ny, -nx)), 9) + 0.0,
        ),
        size_is="FIT TO",
    )


def _end(meeting: Meeting, onto: Onto, depth: float) -> Cut:
    """The end that stands on the floor."""
    lines = onto.lines
    floor = onto.face_c - onto.face * (depth - onto.takes.wall_film)
    point = lines.carry(lines.on_line(floor))
    plane = half_space(point, lines.carry_direction((0.0, -float(onto.face))))
    return _end_cut(meeting, onto.ends, onto.takes, plane, Sum(onto.takes.body, (Term(Word.DEPTH, depth),)))


def _covering(meeting: Meeting, onto: Onto) -> Cut:
    """The end with the rebate, flush with the other's outside."""
    return _end_cut(meeting, onto.takes, onto.ends, onto.covering_plane, None)


def _end_cut(meeting: Meeting, side: Side, other: Side, plane: HalfSpace, deep: Sum | None) -> Cut:
    width = None if deep is None else Sum.alone(side.thickness, Word.THICKNESS, side.body)
    note: Words = "" if deep is not None else say("flush with the outside of {}", Name(other.body))
    return end_cut(meeting, side, other, plane, note=note, width=width, depth=deep)


def _worked(cut: Cut, board: Board, after: tuple[str, ...]) -> Operation:
    """With a router along a fence or a rail; else sawn down its wall and cleared; else by hand with a rebate plane."""
    sets, deep = across(cut, board), cut.figures.deep or 0.0
    lean = abs(cut.figures.lean)
    whole = deep / math.cos(math.radians(lean))
    needs = tuple(need for need in router_needs(cut, whole) if need.ability is not Ability.CUTTER)
    tilted = (Need(ability=Ability.LEAN, least=lean),) if lean > 1e-6 else ()
    ways = (
        Way(process=Process.ROUTER, makes=cut.word, says="router along a rail, from the end", needs=needs, sets=sets),
        Way(
            process=Process.SAW,
            makes=cut.word,
            says="wall sawn to depth, waste sawn or pared away to the floor",
            needs=(*tilted, Need(ability=Ability.DEPTH, least=whole)),
            sets=sets,
        ),
        Way(process=Process.HAND, makes=cut.word, says="wall sawn by hand, floor with a rebate plane", sets=sets),
    )
    return Operation(key=cut.key, work=WorkSort.ACROSS, cuts=(cut.key,), ways=ways, after=after)


def _thin_lip(meeting: Meeting, onto: Onto, depth: float) -> tuple[Finding, ...]:
    """3 of wood over the end."""
    left = onto.takes.thickness - depth
    if left >= LEAST_LIP - 1e-9:
        return ()
    takes, able = onto.takes, onto.takes.thickness - LEAST_LIP
    return (
        Finding(
            code=LIP,
            severity=Severity.STOP,
            where=Where(boards=(takes.body, onto.ends.body), joint=meeting.key),
            says=say(
                "the rebate in {} leaves {} over the end of {}", Name(takes.body), Length(left), Name(onto.ends.body)
            ),
            remedy=say("make it no deeper than {}", Length(able, side=On.DOWN)),
            found=left,
            limit=LEAST_LIP,
            unit="mm",
            source="common practice",
            cures=(asked("make it {} deep", "depth", able, "-"),) if able >= LEAST_DEPTH else (),
        ),
    )
