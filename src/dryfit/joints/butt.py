"""Butt: the end of one board flat against another, with dowels, with plugged screws, or with glue alone.

At a corner one board runs through and covers the other's end: the level one unless the maker says
otherwise. Dowels and screws stand square to the face they go into. Where ends stand opposite each other on
both faces of a board, their dowels stand beside each other. Two ends in line have dowels along the grain, or
glue alone; such a joint carries little, and belongs over a support. Lengths in mm.
"""

import math
from collections.abc import Iterator, Mapping
from dataclasses import replace
from types import MappingProxyType
from typing import Annotated, Literal

from pydantic import Field

from ..findings import Finding, Severity, declare
from ..geometry.frames import length
from ..geometry.shapes import HalfSpace, half_space
from ..job.options import WORKED, BoardName, Options, Quantity, filled, given
from ..piece.carries import fast, left_of, opposite, rests, sideways, spread
from ..piece.dowelling import RowAsked, breaks_out, dowelled, holds_little, holes, row_onto, wood_about
from ..piece.facts import Between, CutForm, GlueZone, Grain, Opens
from ..piece.holes import LEAST_WOOD, HoleRow, bores, evenly
from ..piece.kinds import Glyph, JointKind
from ..piece.meetings import TOUCHING
from ..piece.model import (
    DATUM_END,
    Bearing,
    Board,
    Carry,
    Cut,
    Ease,
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
from ..piece.onto import Onto
from ..piece.operations import Operation, bored, sawn
from ..places import Plain, Where
from ..sentences import Name, Words, say
from ..trade import dowels
from ..trade.dowels import DEEPER, Dowel
from ..trade.screws import read_screw
from .common import end_cut, end_grain, judge_angle, plug, screw_ware, shallow_angle
from .registry import register
from .screws import ends as screws

IN_LINE = declare(
    "butt-in-line",
    "Two boards are butted end to end: such a joint carries little bending.",
    uncured="whether it is held from the side or made of longer stock is a choice of design",
)

STEEP = math.sqrt(0.5)  # sine of the slope from which on a board stands rather than lies
DOWELS, SCREWS = "dowel holes", "screw holes"


class ButtOptions(Options):
    """Options of a butt joint."""

    fasten: Literal["none", "dowels", "screws"] = Field(
        default="dowels", description="What holds it besides the glue; two ends in line take no screws."
    )
    through: BoardName = Field(
        default="", description="At a corner, the board that runs through; left out: the level one."
    )
    count: int = Field(default=0, ge=0, le=60, description="Of dowels or screws; 0 for one in 100, two at least.")
    dowel: Annotated[Quantity | None, WORKED] = Field(
        default=None, description="Diameter; left out: the next size sold over a third of the thinner board."
    )
    in_face: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="Of a dowel's length, in the face; left out: about two thirds of the board, 5 left behind the "
        "hole, and a third of a dowel as sold.",
    )
    in_end: Annotated[Quantity | None, WORKED] = Field(
        default=None,
        description="Of a dowel's length, in the end; left out: what a length as sold leaves. Of two ends in line, in "
        "each; left out: three times the diameter, as near as lengths as sold come.",
    )
    screw: str = Field(default="wood 5x60", description="Screws through the face into the end, plugged.")
    glued: bool = Field(default=True, description="Whether it is glued.")


@register
class Butt(JointKind[ButtOptions]):
    """An end flat against a face."""

    name = "butt"
    glyphs = MappingProxyType({"": Glyph(lines="M1 5h14M5.5 5v8M10.5 5v8")})
    codes = (IN_LINE,)
    serves = frozenset({(Touch.END, Touch.FACE), (Touch.END, Touch.END)})
    options = ButtOptions
    plainer = ({}, {"fasten": "none"})

    def judge(self, meeting: Meeting, options: ButtOptions) -> Judgement:
        """Possible from 15 degrees on, with a board of the two to run through and a screw that is known."""
        if options.through and options.through not in (meeting.a.body, meeting.b.body):
            return Judgement(possible=False, reasons=(say("{} is not one of the two boards", Name(options.through)),))
        if options.fasten == "screws" and (reason := _no_screws(meeting, options)):
            return Judgement(possible=False, reasons=(reason,))
        return Judgement(possible=True) if _in_line(meeting) else judge_angle(meeting, self.name)

    def worked(self, meeting: Meeting, options: ButtOptions) -> ButtOptions:
        """How many fasten it, and of dowels their size; at a corner, which board runs through."""
        if _in_line(meeting):
            row, dowel = _row_in_line(meeting, options), _dowel_in_line(meeting, options)
            return (
                options if row is None else filled(options, count=len(row.places), dowel=row.wide, in_end=dowel.in_end)
            )
        onto = Onto.of(meeting, options.through)
        if meeting.b.touch is Touch.END:
            options = filled(options, through=onto.takes.body)
        if options.fasten == "dowels":
            row, dowel = row_onto(meeting, onto, _asked(options))
            sizes = {"dowel": row.wide, "in_face": dowel.in_face, "in_end": dowel.in_end}
            return filled(options, count=len(row.places), **sizes)
        row = _row(meeting, onto, options)
        return options if row is None else filled(options, count=len(row.places))

    def held(self, options: ButtOptions) -> Words:
        """By dowels or screws, else by glue alone."""
        fastened = {"dowels": "dowelled", "screws": "screwed"}
        return fastened.get(options.fasten) or super().held(options)

    def makings(self, meeting: Meeting, options: ButtOptions) -> tuple[Making, ...]:
        """One way to make it; it comes off square to the face, and sideways where nothing is let in."""
        if _in_line(meeting):
            name = say("{} and {} end to end", Name(meeting.a.body), Name(meeting.b.body))
            return (Making(name=name, motions=_apart(meeting, options)),)
        onto = Onto.of(meeting, options.through)
        out = onto.out_of_face(meeting)
        row = _row(meeting, onto, options)
        free = row.deep - DEEPER if row is not None and not row.through else 0.0
        motions = [Motion(body=onto.ends.body, direction=out, free=length(free))]
        if options.fasten != "dowels":
            low, high = onto.overlap
            motions += [
                Motion(body=onto.ends.body, direction=(0.0, 0.0, way), free=length(high - low)) for way in (1.0, -1.0)
            ]
        name = say("{} against {}", Name(onto.ends.body), Name(onto.takes.body))
        return (Making(name=name, motions=tuple(motions)),)

    def eases(self, meeting: Meeting, options: ButtOptions, making: Making) -> tuple[Ease, ...]:
        """Screws, which go in when it stands, hold no board back as dowels do; in line, glue alone does not."""
        instead = "none" if _in_line(meeting) else "screws"
        eased = options.model_copy(update={"fasten": instead})
        if options.fasten != "dowels" or not self.judge(meeting, eased).possible:
            return ()
        a, b = meeting.a.body, meeting.b.body
        says = say("glue {} to {} alone", Name(a), Name(b))
        if instead == "screws":
            says = say("screw {} and {} instead of dowelling them", Name(a), Name(b))
        return (Ease(says=says, options=(("fasten", instead),), making=self.makings(meeting, eased)[0]),)

    def matings(self, meeting: Meeting, options: ButtOptions, making: Making) -> tuple[Mating, ...]:
        """Nothing slides but dowels, which are drilled in pairs."""
        return ()

    def make(self, meeting: Meeting, options: ButtOptions, making: Making) -> Joint[ButtOptions]:
        """Cut the ends, then the holes in both boards."""
        if _in_line(meeting):
            return _end_to_end(meeting, options, making)
        onto = Onto.of(meeting, options.through)
        how = say("to the face of {}", Name(onto.takes.body))
        cuts = [_end_cut(meeting, onto.ends, onto.takes, onto.end_plane, how)]
        if meeting.b.touch is Touch.END:
            how = say("flush with the outside of {}", Name(onto.ends.body))
            cuts.append(_end_cut(meeting, onto.takes, onto.ends, onto.covering_plane, how))
        row = _row(meeting, onto, options)
        if row is not None:
            cuts += _holes(meeting, onto, row)
        low, high = onto.overlap
        area = onto.ends.thickness / onto.lines.sine * (high - low)
        return Joint(
            key=meeting.key,
            kind=self.name,
            meeting=meeting,
            options=options,
            making=making,
            glued=options.glued,
            cuts=tuple(cuts),
            gaps=(Gap(between=Between.SHOULDER, size=0.0),),
            hidden_mm2=((onto.ends.body, area), (onto.takes.body, area)),
            findings=(
                *shallow_angle(meeting),
                *(end_grain(meeting, onto.ends, onto.takes) if meeting.form == "corner" else ()),
                *(_weak(meeting, onto, row, options) if row is not None else ()),
            ),
        )

    def glues(self, options: ButtOptions) -> bool:
        """As asked."""
        return options.glued

    def gluing(self, options: ButtOptions) -> tuple[tuple[str, Plain], ...]:
        """An option of its own."""
        return () if options.glued else (("glued", True),)

    def carries(self, joint: Joint[ButtOptions]) -> tuple[Carry, ...]:
        """The end rests on the face; dowels keep it from slipping, glue or screws hold it fast; in line it hinges."""
        meeting, options, out = joint.meeting, joint.options, joint.making.motions[0].direction
        at, across, in_line = meeting.frame.origin, left_of(out), _in_line(meeting)
        onto = None if in_line else Onto.of(meeting, options.through)
        ends, takes = (meeting.b, meeting.a) if onto is None else (onto.ends, onto.takes)
        half = _thinner(meeting).thickness / 2 if onto is None else ends.thickness / 2 / onto.lines.sine
        if onto is not None:
            at = spread(at, out, takes.thickness / 2)[1]
        bears = [rests(ends.body, takes.body, opposite(out), spread(at, across, half))]
        if options.fasten == "dowels":
            bears.append(sideways(ends.body, takes.body, across, (at,)))
        if in_line and options.glued:
            bears.append(Carry(how=Bearing.PULLS, body=ends.body, by=takes.body, ways=(out,), at=(at,), glue=True))
        elif options.glued or options.fasten == "screws":
            bears.append(fast(meeting, glue=options.fasten == "none"))
        return tuple(bears)

    def hardware(self, joint: Joint[ButtOptions]) -> tuple[Ware, ...]:
        """Dowels, or screws and plugs."""
        holes = [cut for cut in joint.cuts if cut.form is CutForm.BORE]
        if not holes:
            return ()
        count = len(holes[0].shapes)
        if joint.options.fasten == "dowels":
            long = sum((cut.figures.deep or 0.0) - DEEPER for cut in holes)
            wide = holes[0].figures.across or 0.0
            says = say("{} x {}", format(wide, "g"), format(long, "g"))
            return (Ware(what="dowel", like="grooved", says=says, count=count, diameter=wide, length=long, in_mm=True),)
        screw = read_screw(joint.options.screw)
        assert screw is not None, "judged before it is made"
        bore = next(cut for cut in holes if cut.figures.opens is Opens.FACE)
        return (
            screw_ware(screw, count),
            plug(bore.figures.across or 0.0, joint.meeting.side(bore.body), count),
        )

    def strengthened(self, joint: Joint[ButtOptions]) -> Words:
        """By dowels or screws."""
        fasten = joint.options.fasten
        return fasten if fasten != "none" and any(cut.form is CutForm.BORE for cut in joint.cuts) else ""

    def ends(self, joint: Joint[ButtOptions]) -> str:
        """At a corner one of the two, as asked or as they lie; in line neither."""
        return "" if _in_line(joint.meeting) else Onto.of(joint.meeting, joint.options.through).ends.body

    def glue(self, joint: Joint[ButtOptions]) -> tuple[GlueZone, ...]:
        """End grain on side grain holds little by itself, on end grain next to nothing."""
        if not joint.glued:
            return ()
        area = joint.hidden_mm2[0][1]
        if _in_line(joint.meeting):
            return (GlueZone(faces="both ends", grain=(Grain.END, Grain.END), area_mm2=area),)
        return (GlueZone(faces="the end and the face it stands on", grain=(Grain.SIDE, Grain.END), area_mm2=area),)

    def operations(self, joint: Joint[ButtOptions], boards: Mapping[str, Board]) -> tuple[Operation, ...]:
        """The ends are sawn, then the holes drilled: each board's with a jig, and with a bit for each diameter."""
        ends = tuple(sawn([cut], boards[cut.body]) for cut in joint.cuts if cut.end)
        after = tuple(one.key for one in ends)
        holes = (cut for cut in joint.cuts if not cut.end)
        drilled = (one for cut in holes for one in bored(cut, boards[cut.body], "drill with a jig", after=after))
        return (*ends, *drilled)

    def notes(self, joint: Joint[ButtOptions]) -> tuple[Words, ...]:
        """What must not be trusted, and where dowels do not stand evenly."""
        if _in_line(joint.meeting):
            return ("End grain glued to end grain holds next to nothing: a support under both ends carries the load.",)
        notes = ["End grain glued to side grain holds little: what is let in carries the load."]
        if joint.meeting.b.opposed and joint.options.fasten == "dowels":
            notes.append("Another end meets the other face: its dowels go beside these, not in line with them.")
        return tuple(notes)


def _in_line(meeting: Meeting) -> bool:
    return meeting.form == "in line"


def _end_cut(meeting: Meeting, side: Side, other: Side, plane: HalfSpace, how: Words) -> Cut:
    return end_cut(meeting, side, other, plane, note=how, stands="line" if _in_line(meeting) else "face")


# ---- in line


def _apart(meeting: Meeting, options: ButtOptions) -> tuple[Motion, ...]:
    """Board b leaves along the line; square to it too, where no dowels are in the way."""
    x = meeting.frame.x
    turned_round = abs(meeting.b.turn) > 90.0  # b's line runs against a's
    way = (1.0 if meeting.b.end == DATUM_END else -1.0) * (-1.0 if turned_round else 1.0)
    along = (way * x[0] + 0.0, way * x[1] + 0.0, 0.0)
    row = _row_in_line(meeting, options)
    if row is not None:
        return (Motion(body=meeting.b.body, direction=along, free=length(row.deep - DEEPER)),)
    ways = ((0.0, 0.0, 1.0), (0.0, 0.0, -1.0))
    aside = (Motion(body=meeting.b.body, direction=way, free=0.0, within=(along,)) for way in ways)
    return (Motion(body=meeting.b.body, direction=along, free=0.0), *aside)


def _thinner(meeting: Meeting) -> Side:
    return min(meeting.a, meeting.b, key=lambda side: side.thickness)


def _row_in_line(meeting: Meeting, options: ButtOptions) -> HoleRow | None:
    """Dowels about three diameters deep in each end (a trade text on sizes of dowels), as sold; or as asked."""
    if options.fasten != "dowels":
        return None
    dowel, diameter = _dowel_in_line(meeting, options), _diameter_in_line(meeting, options)
    return dowelled(dowel, diameter, evenly(meeting.overlap, options.count))


def _diameter_in_line(meeting: Meeting, options: ButtOptions) -> float:
    return options.dowel or dowels.diameter_for(_thinner(meeting).thickness)


def _dowel_in_line(meeting: Meeting, options: ButtOptions) -> Dowel:
    """As deep in the one end as in the other."""
    if options.in_end is not None:
        return Dowel(in_face=options.in_end, in_end=options.in_end)
    return dowels.in_line(_diameter_in_line(meeting, options))


def _end_to_end(meeting: Meeting, options: ButtOptions, making: Making) -> Joint[ButtOptions]:
    """Two square ends, with dowels along the grain in the middle of the thickness."""
    sides = ((meeting.a, meeting.b), (meeting.b, meeting.a))
    cuts = []
    for side, other in sides:
        plane, how = half_space((side.at, 0.0), (float(side.end), 0.0)), say("against {}", Name(other.body))
        cuts.append(_end_cut(meeting, side, other, plane, how))
    row = _row_in_line(meeting, options)
    if row is not None:
        for side, other in sides:
            drilled = bores(side, (side.at, 0.0), (-float(side.end), 0.0), row.places, row.end)
            cuts.append(holes(meeting, side, other, DOWELS, drilled, Opens.END))
    low, high = meeting.overlap
    area = _thinner(meeting).thickness * (high - low)
    return Joint(
        key=meeting.key,
        kind="butt",
        meeting=meeting,
        options=options,
        making=making,
        glued=options.glued,
        cuts=tuple(cuts),
        gaps=(Gap(between=Between.END, size=0.0),),
        hidden_mm2=((meeting.a.body, area), (meeting.b.body, area)),
        findings=(_carries_little(meeting), *_room_in_line(meeting, row)),
    )


def _carries_little(meeting: Meeting) -> Finding:
    """Such ends belong over a support; those of an upright, which carry each other, are held from the side."""
    a, b = meeting.a.body, meeting.b.body
    support = "put a board or a bracket under both ends"
    if abs(meeting.frame.x[1]) > STEEP:
        support = "hold both ends from the side, by the wall or a board fixed to both"
    return Finding(
        code=IN_LINE,
        severity=Severity.WARN,
        where=Where(boards=(a, b), joint=meeting.key),
        says=say("{} and {} are butted end to end: glue and dowels there carry little bending", Name(a), Name(b)),
        remedy=say("{}, or use stock that is long enough", support),
        source="common practice",
    )


def _room_in_line(meeting: Meeting, row: HoleRow | None) -> tuple[Finding, ...]:
    """As in any end: 3 of wood beside the holes, and at the edges."""
    if row is None:
        return ()
    thin = _thinner(meeting)
    left = (
        ((thin.thickness - row.wide) / 2, thin, "beside"),
        (row.beside(meeting.overlap), thin, "at the edges, beside"),
    )
    return tuple(breaks_out(meeting, *one) for one in left if one[0] < LEAST_WOOD - 1e-9)


# ---- holes


def _asked(options: ButtOptions) -> RowAsked:
    """Of the dowels; as many as the rule gave stand by the rule."""
    count = options.count if given(options, "count") else 0
    return RowAsked(diameter=options.dowel, in_face=options.in_face, in_end=options.in_end, count=count)


def _row(meeting: Meeting, onto: Onto, options: ButtOptions) -> HoleRow | None:
    """What is let in."""
    if options.fasten == "none":
        return None
    if options.fasten == "screws":
        return screws.row_of(options.screw, onto, options.count)
    return row_onto(meeting, onto, _asked(options))[0]


def _holes(meeting: Meeting, onto: Onto, row: HoleRow) -> list[Cut]:
    word, face = (SCREWS, -onto.face) if row.through else (DOWELS, onto.face)
    mouths = holes(meeting, onto.takes, onto.ends, word, onto.face_holes(row), Opens.FACE)
    return [
        replace(mouths, face=face, clear=TOUCHING if row.through else 0.0),
        holes(meeting, onto.ends, onto.takes, word, onto.end_holes(row), Opens.END),
    ]


# ---- screws


def _no_screws(meeting: Meeting, options: ButtOptions) -> Words:
    """Why not, where screws are not known, cannot be driven, or have too little hold in the end."""
    if _in_line(meeting):
        return 'no screw can be driven along two ends in line, and across them it pulls out: write fasten = "dowels"'
    return screws.refused(options.screw, Onto.of(meeting, options.through))


# ---- what is weak


def _weak(meeting: Meeting, onto: Onto, row: HoleRow, options: ButtOptions) -> Iterator[Finding]:
    """Holes keep 3 of wood beside them, behind them in the face, and at the edges; dowels and screws must hold."""
    for left, side, place in wood_about(meeting, onto, row):
        if left < LEAST_WOOD - 1e-9:
            yield breaks_out(meeting, left, side, place)
    if row.through:
        yield from screws.weak(meeting, onto, row, options.screw, glued=options.glued)
    elif row.deep - DEEPER < row.wide - 1e-9:
        yield holds_little(meeting, onto, row)
