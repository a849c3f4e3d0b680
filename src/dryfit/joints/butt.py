"""Butt: the end of one board flat against another, with dowels, with plugged screws, or with glue alone.

At a corner one board runs through and covers the other's end: the level one unless the maker says
otherwise. Dowels and screws stand square to the face they go into. Where ends stand opposite each other on
both faces of a board, their dowels stand beside each other. Two ends in line have dowels along the grain, or
glue alone; such a joint carries little, and belongs over a support. Lengths in mm.
"""

import math
from collections.abc import Iterator
from typing import Annotated, Literal

from pydantic import Field

from ..findings import Finding, Severity, declare
from ..geometry.frames import length
from ..geometry.shapes import Bore, HalfSpace, half_space
from ..job.options import WORKED, BoardName, Options, Quantity
from ..piece.carries import fast, left_of, opposite, rests, sideways, spread
from ..piece.corner import Corner
from ..piece.holes import LEAST_WOOD, Row, between_others, bores, evenly
from ..piece.kinds import JointKind, Operation, Way
from ..piece.meetings import TOUCHING
from ..piece.model import (
    DATUM_END,
    Bearing,
    Carry,
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
from ..piece.onto import Onto
from ..places import Where
from ..sentences import Count, Length, Name, Step, Words, say
from ..trade import dowels
from ..trade.dowels import DEEPER, Dowel
from ..trade.screws import read_screw
from .common import end_grain, judge_angle, plug, shallow_angle, told
from .registry import register
from .screws import ends as screws

DOWEL_ROOM = declare("dowel-breaks-out", "A dowel or screw comes too near a face of a board.")
DOWEL_SHORT = declare("dowel-holds-little", "A dowel stands less deep in a face than it is thick: it holds little.")
IN_LINE = declare("butt-in-line", "Two boards are butted end to end: such a joint carries little bending.")

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
        default=None, description="Diameter; left out: the next as sold over a third of the thinner board."
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
    serves = frozenset({(Touch.END, Touch.FACE), (Touch.END, Touch.END)})
    options = ButtOptions

    def judge(self, meeting: Meeting, options: ButtOptions) -> Judgement:
        """Possible from 15 degrees on, with a board of the two to run through and a screw that is known."""
        if options.through and options.through not in (meeting.a.body, meeting.b.body):
            return Judgement(possible=False, reasons=(say("{} is not one of the two boards", Name(options.through)),))
        if options.fasten == "screws" and (reason := _no_screws(meeting, options)):
            return Judgement(possible=False, reasons=(reason,))
        return Judgement(possible=True) if _in_line(meeting) else judge_angle(meeting, self.name)

    def hands(self, meeting: Meeting, options: ButtOptions) -> tuple[Hand, ...]:
        """One way to make it; it comes off square to the face, and sideways where nothing is let in."""
        if _in_line(meeting):
            name = say("{} and {} end to end", Name(meeting.a.body), Name(meeting.b.body))
            return (Hand(name=name, motions=_apart(meeting, options)),)
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
        return (Hand(name=name, motions=tuple(motions)),)

    def eases(self, meeting: Meeting, options: ButtOptions, hand: Hand) -> tuple[Ease, ...]:
        """Screws, which go in when it stands, hold no board back as dowels do; in line, glue alone does not."""
        instead = "none" if _in_line(meeting) else "screws"
        eased = options.model_copy(update={"fasten": instead})
        if options.fasten != "dowels" or not self.judge(meeting, eased).possible:
            return ()
        a, b = meeting.a.body, meeting.b.body
        says = say("glue {} to {} alone", Name(a), Name(b))
        if instead == "screws":
            says = say("screw {} and {} instead of dowelling them", Name(a), Name(b))
        return (Ease(says=says, options=(("fasten", instead),), hand=self.hands(meeting, eased)[0]),)

    def matings(self, meeting: Meeting, options: ButtOptions, hand: Hand) -> tuple[Mating, ...]:
        """Nothing slides but dowels, which are drilled in pairs."""
        return ()

    def make(self, meeting: Meeting, options: ButtOptions, hand: Hand) -> Joint:
        """Cut the ends, then the holes in both boards."""
        if _in_line(meeting):
            return _end_to_end(meeting, options, hand)
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
            options=told(options),
            hand=hand,
            cuts=tuple(cuts),
            gaps=(Gap(between="shoulder", size=0.0),),
            hidden_mm2=((onto.ends.body, area), (onto.takes.body, area)),
            findings=(
                *shallow_angle(meeting),
                *(end_grain(meeting, onto.ends, onto.takes) if meeting.form == "corner" else ()),
                *(_weak(meeting, onto, row, options) if row is not None else ()),
            ),
        )

    def carries(self, joint: Joint) -> tuple[Carry, ...]:
        """The end rests on the face; dowels keep it from slipping, glue or screws hold it fast; in line it hinges."""
        meeting, options, out = joint.meeting, dict(joint.options), joint.hand.motions[0].direction
        at, across, in_line = meeting.frame.origin, left_of(out), _in_line(meeting)
        onto = None if in_line else Onto.of(meeting, str(options["through"]))
        ends, takes = (meeting.b, meeting.a) if onto is None else (onto.ends, onto.takes)
        half = _thinner(meeting).thickness / 2 if onto is None else ends.thickness / 2 / onto.lines.sine
        if onto is not None:
            at = spread(at, out, takes.thickness / 2)[1]
        bears = [rests(ends.body, takes.body, opposite(out), spread(at, across, half))]
        if options["fasten"] == "dowels":
            bears.append(sideways(ends.body, takes.body, across, (at,)))
        if in_line and options["glued"]:
            bears.append(Carry(how=Bearing.PULLS, body=ends.body, by=takes.body, ways=(out,), at=(at,), glue=True))
        elif options["glued"] or options["fasten"] == "screws":
            bears.append(fast(meeting, glue=options["fasten"] == "none"))
        return tuple(bears)

    def hardware(self, joint: Joint) -> tuple[Hardware, ...]:
        """Dowels, or screws and plugs."""
        holes = [cut for cut in joint.cuts if cut.kind in (DOWELS, SCREWS)]
        if not holes:
            return ()
        count = len(holes[0].shapes)
        if holes[0].kind == DOWELS:
            long = sum((cut.figures.deep or 0.0) - DEEPER for cut in holes)
            return (Hardware(name="dowel, grooved", size=f"{holes[0].figures.across:g} x {long:.0f}", count=count),)
        options = dict(joint.options)
        screw = read_screw(str(options["screw"]))
        assert screw is not None, "judged before it is made"
        bore = next(cut for cut in holes if cut.figures.opens == "face")
        return (
            Hardware(name=f"{screw.kind} screw", size=screw.size, count=count),
            plug(bore.figures.across or 0.0, joint.meeting.side(bore.body), count),
        )

    def glue(self, joint: Joint) -> tuple[GlueFace, ...]:
        """End grain on side grain holds little by itself, on end grain next to nothing."""
        if not dict(joint.options)["glued"]:
            return ()
        grain = "end-end" if _in_line(joint.meeting) else "side-end"
        return (GlueFace(grain=grain, area_mm2=joint.hidden_mm2[0][1]),)

    def operations(self, joint: Joint) -> tuple[Operation, ...]:
        """The ends are sawn, then the holes are drilled with one setting of the jig."""
        name = f"butt {joint.key[0]} and {joint.key[1]}"
        ends = tuple(cut.key for cut in joint.cuts if cut.end)
        holes = tuple(cut.key for cut in joint.cuts if not cut.end)
        made = [Operation(key=name, cuts=ends, ways=(Way(process="saw", needs=(), setup=("saw",)),))]
        if holes:
            way = Way(process="drill with a dowelling jig", needs=(), setup=("jig", joint.cuts[-1].figures.across))
            made.append(Operation(key=f"holes of {name}", cuts=holes, ways=(way,), after=(name,)))
        return tuple(made)

    def notes(self, joint: Joint) -> tuple[Words, ...]:
        """What must not be trusted, and where dowels do not stand evenly."""
        if _in_line(joint.meeting):
            return ("End grain glued to end grain holds next to nothing: a support under both ends carries the load.",)
        notes = ["End grain glued to side grain holds little: what is let in carries the load."]
        if joint.meeting.b.opposed and any(cut.kind == DOWELS for cut in joint.cuts):
            notes.append("Another end stands opposite: its dowels stand beside these, not before them.")
        return tuple(notes)


def _in_line(meeting: Meeting) -> bool:
    return meeting.form == "in line"


def _end_cut(meeting: Meeting, side: Side, other: Side, plane: HalfSpace, how: Words) -> Cut:
    lean = math.degrees(math.atan2(abs(plane.normal[1]), abs(plane.normal[0])))
    return Cut(
        key=f"end of {side.body} at {other.body}",
        body=side.body,
        kind="end" if lean < 1e-9 else "bevelled end",
        joint=meeting.key,
        end=side.end,
        shapes=(plane,),
        figures=Figures(opens="end", between_faces=meeting.angle, lean=round(lean, 9), sum=how),
        tool="saw",
    )


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
    ways = (along, (0.0, 0.0, 1.0), (0.0, 0.0, -1.0))
    return tuple(Motion(body=meeting.b.body, direction=direction, free=0.0) for direction in ways)


def _thinner(meeting: Meeting) -> Side:
    return min(meeting.a, meeting.b, key=lambda side: side.thickness)


def _row_in_line(meeting: Meeting, options: ButtOptions) -> Row | None:
    """Dowels about three diameters deep in each end (a trade text on sizes of dowels), as sold; or as asked."""
    if options.fasten != "dowels":
        return None
    diameter = options.dowel or dowels.diameter_for(_thinner(meeting).thickness)
    dowel = dowels.in_line(diameter)
    if options.in_end is not None:
        dowel = Dowel(in_face=options.in_end, in_end=options.in_end)
    return _dowelled(dowel, diameter, evenly(meeting.overlap, options.count))


def _end_to_end(meeting: Meeting, options: ButtOptions, hand: Hand) -> Joint:
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
            cuts.append(_hole(meeting, side, other, DOWELS, drilled, "end", 0))
    low, high = meeting.overlap
    area = _thinner(meeting).thickness * (high - low)
    return Joint(
        key=meeting.key,
        kind="butt",
        meeting=meeting,
        options=told(options),
        hand=hand,
        cuts=tuple(cuts),
        gaps=(Gap(between="end", size=0.0),),
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
        remedy=say("{}, or take stock that is long enough", support),
        source="common practice",
    )


def _room_in_line(meeting: Meeting, row: Row | None) -> tuple[Finding, ...]:
    """As in any end: 3 of wood beside the holes, and at the edges."""
    if row is None:
        return ()
    thin = _thinner(meeting)
    left = (
        ((thin.thickness - row.wide) / 2, thin, "beside"),
        (row.beside(meeting.overlap), thin, "at the edges, beside"),
    )
    return tuple(_breaks_out(meeting, *one) for one in left if one[0] < LEAST_WOOD - 1e-9)


# ---- holes


def _row(meeting: Meeting, onto: Onto, options: ButtOptions) -> Row | None:
    """What is let in; of dowels the first that leave wood enough about their holes."""
    if options.fasten == "none":
        return None
    if options.fasten == "screws":
        return screws.row_of(options.screw, onto, options.count)
    rows = _dowel_rows(onto, options)
    fitting = (row for row in rows if min(left for left, *_ in _left(meeting, onto, row)) >= LEAST_WOOD)
    return rows[0] if len(rows) == 1 else next(fitting, rows[-1])


def _dowelled(dowel: Dowel, diameter: float, places: tuple[float, ...]) -> Row:
    """Holes for dowels, each a little deeper than what stands in it."""
    return Row(
        places=places,
        face=((0.0, diameter), (dowel.in_face + DEEPER, 0.0)),
        end=((0.0, diameter), (dowel.in_end + DEEPER, 0.0)),
    )


def _dowel_rows(onto: Onto, options: ButtOptions) -> list[Row]:
    """Rows of dowels, the one to take first; opposite another end each between those of the other."""
    t, facing = onto.takes.thickness, onto.facing
    diameter = options.dowel or dowels.diameter_for(min(onto.ends.thickness, t))
    places = between_others(onto.overlap, facing, onto.face, diameter, options.count) if facing else ()
    if options.in_face is not None:
        sold = [dowels.with_in_face(options.in_face)]
    elif facing and not places:
        sold = [dowels.shallow(max(math.floor(t / 4 - DEEPER), DEEPER))]  # half the board stays between the two
    else:
        sold = list(dowels.across_a_face(t, diameter))
    if options.in_end is not None:
        sold = [Dowel(in_face=sold[0].in_face, in_end=options.in_end)]
    places = places or evenly(onto.overlap, options.count)
    return [_dowelled(dowel, diameter, places) for dowel in sold]


def _holes(meeting: Meeting, onto: Onto, row: Row) -> list[Cut]:
    kind, face = (SCREWS, -onto.face) if row.through else (DOWELS, onto.face)
    return [
        _hole(meeting, onto.takes, onto.ends, kind, onto.face_holes(row), "face", face),
        _hole(meeting, onto.ends, onto.takes, kind, onto.end_holes(row), "end", 0),
    ]


def _hole(
    meeting: Meeting, side: Side, other: Side, kind: str, drilled: tuple[Bore, ...], opens: str, face: int
) -> Cut:
    profile = drilled[0].profile
    return Cut(
        key=f"{kind} in {side.body} for {other.body}",
        body=side.body,
        kind=kind,
        takes=other.body,
        joint=meeting.key,
        face=face,
        clear=TOUCHING if kind == SCREWS and opens == "face" else 0.0,
        shapes=drilled,
        figures=Figures(
            across=profile[0][1],
            on_face=profile[-2][1],
            deep=profile[-1][0],
            opens=opens,
            between_faces=meeting.angle,
            sum=say("{}", Count(len(drilled), "hole")),
        ),
        tool="drill with a jig",
    )


# ---- screws


def _no_screws(meeting: Meeting, options: ButtOptions) -> Words:
    """Why not, where screws are not known, cannot be driven, or have too little hold in the end."""
    if _in_line(meeting):
        return 'no screw can be driven along two ends in line, and across them it pulls out: write fasten = "dowels"'
    return screws.refused(options.screw, Onto.of(meeting, options.through))


# ---- what is weak


def _weak(meeting: Meeting, onto: Onto, row: Row, options: ButtOptions) -> Iterator[Finding]:
    """Holes keep 3 of wood beside them, behind them in the face, and at the edges; dowels and screws must hold."""
    for left, side, place in _left(meeting, onto, row):
        if left < LEAST_WOOD - 1e-9:
            yield _breaks_out(meeting, left, side, place)
    if row.through:
        yield from screws.weak(meeting, onto, row, options.screw, glued=options.glued)
    elif row.deep - DEEPER < row.wide - 1e-9:
        yield _holds_little(meeting, onto, row)


def _left(meeting: Meeting, onto: Onto, row: Row) -> Iterator[tuple[float, Side, str]]:
    """Least wood about the holes, the side it is in, and where."""
    cosine_between, half = abs(onto.lines.along[0]), onto.ends.thickness / 2
    yield half - row.in_end / 2 - row.end[-1][0] * cosine_between, onto.ends, "beside"
    if not row.through:
        yield onto.takes.thickness - row.deep, onto.takes, "behind"
    if meeting.form == "corner" and Corner.of(onto.takes, onto.ends).phi > 90.0:
        yield half - row.wide / 2 - row.deep * cosine_between, onto.takes, "beside"  # its end leans over the holes
    yield row.beside(onto.overlap), onto.takes, "at the edges, beside"


def _breaks_out(meeting: Meeting, left: float, side: Side, place: str) -> Finding:
    return Finding(
        code=DOWEL_ROOM,
        severity=Severity.STOP,
        where=Where(boards=(side.body,), joint=meeting.key),
        says=say("{}: {} of wood is left {} its holes", Name(side.body), Length(max(left, 0.0)), place),
        remedy="take thinner, shorter or fewer ones, or another kind of joint",
        found=left,
        limit=LEAST_WOOD,
        unit="mm",
        source="common practice",
    )


def _holds_little(meeting: Meeting, onto: Onto, row: Row) -> Finding:
    """In the face a dowel wants its own diameter at least (common practice)."""
    deep, a, b = row.deep - DEEPER, onto.ends.body, onto.takes.body
    remedy = say("take a thicker {}, a housing, or screws through {}", Name(b), Name(b))
    if onto.takes.opposed:
        remedy = say("set the two ends on {} out of line, or drill through it and let one dowel hold both", Name(b))
    return Finding(
        code=DOWEL_SHORT,
        severity=Severity.WARN,
        where=Where(boards=(a, b), joint=meeting.key),
        says=say(
            "a dowel {} thick stands only {} deep in {}: it holds little",
            Length(row.wide, Step.WHOLE),
            Length(deep),
            Name(b),
        ),
        remedy=remedy,
        found=deep,
        limit=row.wide,
        unit="mm",
        source="common practice",
    )
