"""Butt: the end of one board flat against another, with dowels, with plugged screws, or with glue alone.

At a corner one board runs through and covers the other's end: the level one unless the maker says
otherwise. Dowels and screws stand square to the face they go into. Lengths in mm.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Annotated, Literal

from pydantic import Field

from ..findings import Finding, Severity, declare, said
from ..geometry.frames import Vec, Vec2, cosine, length
from ..geometry.shapes import Bore, HalfSpace, half_space
from ..job.options import BoardName, Options, Quantity, Within
from ..piece.corner import Corner
from ..piece.kinds import JointKind, Operation, Way
from ..piece.model import (
    DATUM_END,
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
from ..piece.plane import Lines
from ..places import Where
from ..trade.screws import ENGAGEMENT, PLUG_CUTTERS, Screw, figure, read_screw
from .common import OVER_HEAD, PLUG, end_grain, judge_angle, shallow_angle, told
from .registry import register

DOWEL_ROOM = declare("dowel-breaks-out", "A dowel or screw comes too near a face of a board.")

DOWELS = (6.0, 8.0, 10.0, 12.0, 16.0)  # as sold; from memory
SPACING = 100.0  # apart, two at least (common practice)
GLUE_ROOM = 1.0  # a dowel's hole is so much deeper at each end (a trade text on dowelling)
LEAST_WOOD = 3.0  # beside and behind a hole (common practice)


class ButtOptions(Options):
    """Options of a butt joint."""

    fasten: Literal["none", "dowels", "screws"] = Field(default="dowels", description="What holds it besides the glue.")
    through: BoardName = Field(
        default="", description="At a corner, the board that runs through; left out: the level one."
    )
    count: int = Field(default=0, ge=0, le=60, description="Of dowels or screws; 0 for one in 100, two at least.")
    dowel: Annotated[Quantity | None, Within(above=0.0)] = Field(
        default=None, description="Diameter; left out: the next as sold over a third of the board."
    )
    in_face: Annotated[Quantity | None, Within(above=0.0)] = Field(
        default=None,
        description="Of a dowel's length, in the face; left out: half the board, less where two ends lie opposite.",
    )
    in_end: Annotated[Quantity | None, Within(above=0.0)] = Field(
        default=None, description="Of a dowel's length, in the end; left out: twice that in the face."
    )
    screw: str = Field(default="wood 5x60", description="Screws through the face into the end, plugged.")
    glued: bool = Field(default=True, description="Whether it is glued.")


@dataclass(frozen=True, slots=True)
class _Onto:
    """One board's end against another's face.

    Attributes:
        ends, takes: the board that ends, and the one whose face it meets.
        face: which face of `takes` (+1 or -1 of c).
    """

    ends: Side
    takes: Side
    face: int

    @property
    def lines(self) -> Lines:
        return Lines.of(self.takes, self.ends)

    @property
    def face_c(self) -> float:
        return self.face * self.takes.thickness / 2

    @property
    def middle(self) -> Vec2:
        """Where the centre-line of the end meets the face, in the plane of the board that takes."""
        return self.lines.on_line(self.face_c)

    @property
    def overlap(self) -> tuple[float, float]:
        return max(self.ends.back, self.takes.back), min(self.ends.front, self.takes.front)


@register
class Butt(JointKind[ButtOptions]):
    """An end flat against a face."""

    name = "butt"
    serves = frozenset({(Touch.END, Touch.FACE), (Touch.END, Touch.END)})
    options = ButtOptions

    def judge(self, meeting: Meeting, options: ButtOptions) -> Judgement:
        """Possible from 15 degrees on, with a board of the two to run through and a screw that is known."""
        if options.through and options.through not in (meeting.a.body, meeting.b.body):
            return Judgement(possible=False, reasons=(f"{options.through} is not one of the two boards",))
        if options.fasten == "screws":
            screw = read_screw(options.screw)
            if screw is None or figure(screw, "head") is None:
                return Judgement(possible=False, reasons=(f'nothing is known of a screw "{options.screw}"',))
            if not _in_line(meeting) and (short := _too_short(meeting, options, screw)):
                return Judgement(possible=False, reasons=(short,))
        return Judgement(possible=True) if _in_line(meeting) else judge_angle(meeting, self.name)

    def hands(self, meeting: Meeting, options: ButtOptions) -> tuple[Hand, ...]:
        """One way to make it; it comes off square to the face, and sideways where nothing is let in."""
        if _in_line(meeting):
            return (Hand(name=f"{meeting.a.body} and {meeting.b.body} end to end", motions=_apart(meeting)),)
        onto = _onto(meeting, options)
        out = _world(meeting, onto, (0.0, float(onto.face)))
        free = _dowel_in_face(onto, options) if options.fasten == "dowels" else 0.0
        motions = [Motion(body=onto.ends.body, direction=out, free=length(free))]
        if options.fasten != "dowels":
            low, high = onto.overlap
            motions += [
                Motion(body=onto.ends.body, direction=(0.0, 0.0, way), free=length(high - low)) for way in (1.0, -1.0)
            ]
        return (Hand(name=f"{onto.ends.body} against {onto.takes.body}", motions=tuple(motions)),)

    def eases(self, meeting: Meeting, options: ButtOptions, hand: Hand) -> tuple[Ease, ...]:
        """Screws, which go in when it stands, hold no board back as dowels do."""
        screwed = options.model_copy(update={"fasten": "screws"})
        if options.fasten != "dowels" or not self.judge(meeting, screwed).possible:
            return ()
        says = f"screw {meeting.a.body} and {meeting.b.body} instead of dowelling them"
        return (Ease(says=says, options=(("fasten", "screws"),), hand=self.hands(meeting, screwed)[0]),)

    def matings(self, meeting: Meeting, options: ButtOptions, hand: Hand) -> tuple[Mating, ...]:
        """Nothing slides but dowels, which are drilled in pairs."""
        return ()

    def make(self, meeting: Meeting, options: ButtOptions, hand: Hand) -> Joint:
        """Cut the ends, then the holes in both boards."""
        if _in_line(meeting):
            return _end_to_end(meeting, options, hand)
        onto = _onto(meeting, options)
        cuts = [_end(meeting, onto)]
        if meeting.b.touch is Touch.END:
            cuts.append(_covering_end(meeting, onto))
        if options.fasten == "dowels":
            cuts += _dowel_holes(meeting, onto, options)
        elif options.fasten == "screws":
            cuts += _screw_holes(meeting, onto, options)
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
                *_room(meeting, onto, options),
            ),
        )

    def hardware(self, joint: Joint) -> tuple[Hardware, ...]:
        """Dowels, or screws and plugs."""
        holes = [cut for cut in joint.cuts if cut.kind in ("dowel holes", "screw holes")]
        if not holes:
            return ()
        count = len(holes[0].shapes)
        if holes[0].kind == "dowel holes":
            long = sum((cut.figures.deep or 0.0) - GLUE_ROOM for cut in holes)
            return (Hardware(name="dowel, grooved", size=f"{holes[0].figures.across:g} x {long:.0f}", count=count),)
        options = dict(joint.options)
        screw = read_screw(str(options["screw"]))
        assert screw is not None, "judged before it is made"
        bore = next(cut for cut in holes if cut.figures.opens == "face")
        return (
            Hardware(name="wood screw", size=f"{screw.diameter:g} x {screw.length:g}", count=count),
            Hardware(name="plug", size=f"{bore.figures.across:g}", count=count),
        )

    def glue(self, joint: Joint) -> tuple[GlueFace, ...]:
        """End grain on side grain: it holds little by itself."""
        if not dict(joint.options)["glued"]:
            return ()
        return (GlueFace(grain="side-end", area_mm2=joint.hidden_mm2[0][1]),)

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

    def notes(self, joint: Joint) -> tuple[str, ...]:
        """What must not be trusted."""
        return ("End grain glued to side grain holds little: what is let in carries the load.",)


def _in_line(meeting: Meeting) -> bool:
    return meeting.form == "in line"


def _apart(meeting: Meeting) -> tuple[Motion, ...]:
    """Board b leaves along the line, and square to it."""
    x = meeting.frame.x
    turned_round = abs(meeting.b.turn) > 90.0  # b's line runs against a's
    way = (1.0 if meeting.b.end == DATUM_END else -1.0) * (-1.0 if turned_round else 1.0)
    along = (way * x[0] + 0.0, way * x[1] + 0.0, 0.0)
    out = ((0.0, 0.0, 1.0), (0.0, 0.0, -1.0))
    return tuple(Motion(body=meeting.b.body, direction=direction, free=0.0) for direction in (along, *out))


def _end_to_end(meeting: Meeting, options: ButtOptions, hand: Hand) -> Joint:
    """Two square ends, nothing let in."""
    cuts = tuple(
        _end_cut(meeting, side, other, half_space((side.at, 0.0), (float(side.end), 0.0)), f"against {other.body}")
        for side, other in ((meeting.a, meeting.b), (meeting.b, meeting.a))
    )
    low, high = meeting.overlap
    area = min(meeting.a.thickness, meeting.b.thickness) * (high - low)
    return Joint(
        key=meeting.key,
        kind="butt",
        meeting=meeting,
        options=told(options),
        hand=hand,
        cuts=cuts,
        gaps=(Gap(between="end", size=0.0),),
        hidden_mm2=((meeting.a.body, area), (meeting.b.body, area)),
    )


def _onto(meeting: Meeting, options: ButtOptions) -> _Onto:
    a, b = meeting.a, meeting.b
    if b.touch is Touch.FACE:
        return _Onto(ends=a, takes=b, face=b.face)
    through = options.through or _level(meeting)
    takes, ends = (a, b) if through == a.body else (b, a)
    return _Onto(ends=ends, takes=takes, face=Corner.of(takes, ends).inside)


def _level(meeting: Meeting) -> str:
    """The one of two boards that lies more level; ties to the first name, whoever comes first in the file."""
    bx = meeting.frame.x
    rise_b = abs(bx[1])
    angle = math.radians(meeting.b.turn)
    rise_a = abs(bx[0] * math.sin(angle) + bx[1] * math.cos(angle))
    if abs(rise_a - rise_b) < 1e-9:
        return meeting.key[0]
    return meeting.b.body if rise_b < rise_a else meeting.a.body


def _world(meeting: Meeting, onto: _Onto, direction: Vec2) -> Vec:
    """A direction of the plane of the board that takes, in the world."""
    if onto.takes.body == meeting.b.body:
        x, y = meeting.frame.x, meeting.frame.y
    else:
        turn = math.radians(meeting.b.turn)
        x = _turn(meeting.frame.x, turn)
        y = _turn(meeting.frame.y, turn)
    return (
        cosine(direction[0] * x[0] + direction[1] * y[0]),
        cosine(direction[0] * x[1] + direction[1] * y[1]),
        0.0,
    )


def _turn(v: Vec, radians: float) -> Vec:
    c, s = math.cos(radians), math.sin(radians)
    return (v[0] * c - v[1] * s, v[0] * s + v[1] * c, 0.0)


def _end(meeting: Meeting, onto: _Onto) -> Cut:
    """The end, cut to the face it stands against."""
    lines = onto.lines
    plane = half_space(lines.carry(onto.middle), lines.carry_direction((0.0, -float(onto.face))))
    return _end_cut(meeting, onto.ends, onto.takes, plane, f"to the face of {onto.takes.body}")


def _covering_end(meeting: Meeting, onto: _Onto) -> Cut:
    """The end of the board that runs through, flush with the other's outside face."""
    corner = Corner.of(onto.takes, onto.ends)
    x, y = corner.other
    normal = (-y, x) if -y * corner.away[0] + x * corner.away[1] < 0 else (y, -x)
    half = onto.ends.thickness / 2
    plane = half_space(corner.at((normal[0] * half, normal[1] * half)), normal)
    return _end_cut(meeting, onto.takes, onto.ends, plane, f"flush with the outside of {onto.ends.body}")


def _end_cut(meeting: Meeting, side: Side, other: Side, plane: HalfSpace, how: str) -> Cut:
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


def _places(onto: _Onto, options: ButtOptions) -> tuple[float, ...]:
    """Out of the wall, evenly over the common depth."""
    low, high = onto.overlap
    count = options.count or max(2, round((high - low) / SPACING))
    step = (high - low) / count
    return tuple(low + (number + 0.5) * step for number in range(count))


def _dowel(onto: _Onto, options: ButtOptions) -> float:
    if options.dowel is not None:
        return options.dowel
    third = min(onto.ends.thickness, onto.takes.thickness) / 3
    return next((size for size in DOWELS if size >= third), DOWELS[-1])


def _dowel_in_face(onto: _Onto, options: ButtOptions) -> float:
    """Half the board; where another end stands opposite, so much that half the board stays between."""
    if options.in_face is not None:
        return options.in_face
    t = onto.takes.thickness
    return max(math.floor(t / 4 - GLUE_ROOM), GLUE_ROOM) if onto.takes.opposed else math.floor(t / 2)


def _dowel_in_end(onto: _Onto, options: ButtOptions) -> float:
    return options.in_end if options.in_end is not None else 2 * _dowel_in_face(onto, options)


def _bores(
    side: Side, point: Vec2, direction: Vec2, places: tuple[float, ...], profile: tuple[tuple[float, float], ...]
) -> tuple[Bore, ...]:
    steps = tuple((length(at), length(diameter)) for at, diameter in profile)
    way = (cosine(direction[0]), cosine(direction[1]), 0.0)
    return tuple(
        Bore(start=(length(point[0]), length(point[1]), length(z - side.back)), direction=way, profile=steps)
        for z in places
    )


def _holes(meeting: Meeting, side: Side, other: Side, kind: str, bores: tuple[Bore, ...], opens: str, face: int) -> Cut:
    profile = bores[0].profile
    return Cut(
        key=f"{kind} in {side.body} for {other.body}",
        body=side.body,
        kind=kind,
        takes=other.body,
        joint=meeting.key,
        face=face,
        shapes=bores,
        figures=Figures(
            across=profile[0][1],
            on_face=profile[-2][1],
            deep=profile[-1][0],
            opens=opens,
            between_faces=meeting.angle,
            sum=f"{len(bores)} holes",
        ),
        tool="drill with a jig",
    )


def _dowel_holes(meeting: Meeting, onto: _Onto, options: ButtOptions) -> list[Cut]:
    lines, size, places = onto.lines, _dowel(onto, options), _places(onto, options)
    into = (0.0, -float(onto.face))
    out = lines.carry_direction((0.0, float(onto.face)))
    in_face = _bores(
        onto.takes, onto.middle, into, places, ((0.0, size), (_dowel_in_face(onto, options) + GLUE_ROOM, 0.0))
    )
    in_end = _bores(
        onto.ends, lines.carry(onto.middle), out, places, ((0.0, size), (_dowel_in_end(onto, options) + GLUE_ROOM, 0.0))
    )
    return [
        _holes(meeting, onto.takes, onto.ends, "dowel holes", in_face, "face", onto.face),
        _holes(meeting, onto.ends, onto.takes, "dowel holes", in_end, "end", 0),
    ]


def _size(screw: Screw, name: str) -> float:
    known = figure(screw, name)
    return known.value if known else screw.diameter


def _counterbored(screw: Screw, onto: _Onto) -> float:
    """Depth in the far face for head and plug."""
    return min(_size(screw, "head_height") + PLUG, onto.takes.thickness - LEAST_WOOD)


def _reach(screw: Screw, onto: _Onto) -> float:
    """How far a screw goes into the end, its head on the counterbore's floor."""
    return screw.length - _size(screw, "head_height") - (onto.takes.thickness - _counterbored(screw, onto))


def _too_short(meeting: Meeting, options: ButtOptions, screw: Screw) -> str:
    """Why not, where the thread has too little hold in the end."""
    onto = _onto(meeting, options)
    reach, least = _reach(screw, onto), ENGAGEMENT * screw.diameter
    if reach >= least:
        return ""
    into = f"goes {said(max(reach, 0.0), 0)} into {onto.ends.body}" if reach > 0.0 else f"ends before {onto.ends.body}"
    return f"a {screw.name} {into}; take one {math.ceil(least - reach + screw.length - 1e-9)} mm long or more"


def _screw_holes(meeting: Meeting, onto: _Onto, options: ButtOptions) -> list[Cut]:
    """Counterbored from the far face for a plug, and a pilot hole in the end."""
    screw = read_screw(options.screw)
    assert screw is not None, "judged before it is made"
    head, hole, pilot = (_size(screw, name) for name in ("head", "hole_medium", "pilot"))
    deep = _counterbored(screw, onto)
    far = (onto.middle[0], -onto.face_c)
    places = _places(onto, options)
    bore = next((cutter for cutter in PLUG_CUTTERS if cutter >= head + OVER_HEAD), math.ceil(head + OVER_HEAD))
    in_face = _bores(
        onto.takes, far, (0.0, float(onto.face)), places, ((0.0, bore), (deep, hole), (onto.takes.thickness, 0.0))
    )
    reach = _reach(screw, onto)
    out = onto.lines.carry_direction((0.0, float(onto.face)))
    in_end = _bores(onto.ends, onto.lines.carry(onto.middle), out, places, ((0.0, pilot), (reach, 0.0)))
    return [
        _holes(meeting, onto.takes, onto.ends, "screw holes", in_face, "face", -onto.face),
        _holes(meeting, onto.ends, onto.takes, "screw holes", in_end, "end", 0),
    ]


def _room(meeting: Meeting, onto: _Onto, options: ButtOptions) -> tuple[Finding, ...]:
    """Holes keep 3 of wood beside them, behind them in the face, and at the edges."""
    if options.fasten == "none":
        return ()
    holes = (_dowel_holes if options.fasten == "dowels" else _screw_holes)(meeting, onto, options)
    return tuple(
        Finding(
            code=DOWEL_ROOM,
            severity=Severity.STOP,
            where=Where(boards=(side.body,), joint=meeting.key),
            says=f"{side.body}: {said(left)} of wood is left {place} its holes",
            remedy="take thinner, shorter or fewer ones, or another kind of joint",
            found=left,
            limit=LEAST_WOOD,
            unit="mm",
            source="common practice",
        )
        for left, side, place in _left(meeting, onto, holes[0], holes[1], through=options.fasten == "screws")
        if left < LEAST_WOOD - 1e-9
    )


def _left(
    meeting: Meeting, onto: _Onto, in_face: Cut, in_end: Cut, *, through: bool
) -> Iterator[tuple[float, Side, str]]:
    """Least wood about the holes, the side it is in, and where."""
    cosine_between = abs(onto.lines.along[0])
    wide, deep = (in_face.figures.across or 0.0), (in_face.figures.deep or 0.0)
    half = onto.ends.thickness / 2
    leans = (in_end.figures.deep or 0.0) * cosine_between
    yield half - (in_end.figures.across or 0.0) / 2 - leans, onto.ends, "beside"
    if not through:
        yield onto.takes.thickness - deep, onto.takes, "behind"
    if meeting.form == "corner" and Corner.of(onto.takes, onto.ends).phi > 90.0:
        yield half - wide / 2 - deep * cosine_between, onto.takes, "beside"  # its end leans over the holes
    low, high = onto.overlap
    step = (high - low) / len(in_face.shapes)
    yield (step - wide) / 2, onto.takes, "at the edges, beside"
