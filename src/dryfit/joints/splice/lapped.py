"""Forms in which one board lies on the other: a half lap, and a scarf. Long grain is glued to long grain.

A half lap of a length l runs l/2 past the place on either board, and each loses half its thickness over l. A scarf at
1 in n is n times the thickness long, runs half of that past the place, and is cut at atan(1/n) to the face.

Worked examples: 27 x 280, a lap of 160 at 400 of 800: members of 480, 160 x 13.5 x 280 = 604800 mm3 out of each, 160 x
280 = 44800 mm2 glued. A scarf at 1:8, 216 long, at 450 of 900: members of 558, 7.125 to the face, a cut sqrt(216^2 +
27^2) = 217.68 long, 60951 mm2. Lengths in mm.
"""

import math
from collections.abc import Mapping

from ...findings import Finding, Severity, declare
from ...geometry.frames import Vec, length
from ...geometry.shapes import OVER, half_space, prism
from ...job.options import filled
from ...piece.facts import Between, CutForm, GlueZone, Grain, Opens, Press, Pressing, Size
from ...piece.kinds import asked
from ...piece.model import Board, Cut, Figures, Gap, Joint, Judgement, Motion, Side
from ...piece.operations import Dial, Operation, Sets, Way, WorkSort
from ...piece.sums import Sum, Term, Word
from ...places import Where
from ...sentences import Angle, Length, Name, On, Sentence, say
from ...shop.tools import Ability, Need, Process
from .forms import EndToEnd, SpliceForm, out_of_end, out_of_line, whole_steps
from .options import SpliceOptions

LAP, EVEN = 6.0, 10.0  # times the thinner board, in whole steps of this (ours)
LEAST_LAP = 2.0  # times the thinner board: shorter it is glued on too little to be one (ours)
PROUD_EDGE = 1.0  # edges that differ by no more are taken as level
STEEP = 8.0  # steeper than 1 in so many, a glued scarf counts as end grain (common practice)

STEEP_SCARF = declare(
    "splice-steep-scarf",
    "A scarf is steeper than glue on it holds well.",
    uncured="what holds it besides is a choice of design",
)


class HalfLapped(SpliceForm):
    """Each board is cut to half its thickness over the lap."""

    mark = ""
    lies = True
    long_grain = True
    note = "Lay both on a flat bed to glue them, and clamp the lap between two straight cauls."

    def no_room(self, row: EndToEnd, options: SpliceOptions) -> Judgement | None:
        """Level at both edges, in one line, a lap long enough and no longer than the boards."""
        return (
            _level(row)
            or out_of_line(row, "a half lap")
            or _lap_too_short(row, options)
            or _too_long(row, lap(row, options), "a half lap")
        )

    def worked(self, row: EndToEnd, options: SpliceOptions) -> SpliceOptions:
        """Its length."""
        return filled(options, lap=lap(row, options))

    def motion(self, row: EndToEnd, options: SpliceOptions, over: str) -> tuple[Motion, ...]:
        """Along the line, off the cheek, out of the wall or in: never towards cheek or shoulder."""
        b = row.meeting.b.body
        sign = 1.0 if over == b else -1.0
        off_cheek: Vec = (sign * row.up[0] + 0.0, sign * row.up[1] + 0.0, 0.0)
        return (Motion(body=b, direction=row.off, free=0.0, within=(off_cheek,)),)

    def cuts(self, row: EndToEnd, options: SpliceOptions, over: str) -> list[Cut]:
        """The end of either board."""
        return [_lapped(row, side, other, lap(row, options), over) for side, other in row.pairs]

    def gaps(self, row: EndToEnd, options: SpliceOptions) -> tuple[Gap, ...]:
        """The cheeks, on film where they are coated, and the two ends with the shoulders they stand against."""
        film = row.meeting.a.wall_film + row.meeting.b.wall_film
        return (Gap(between=Between.CHEEK, size=length(film)), Gap(between=Between.END, size=0.0, count=2))

    def met_mm2(self, row: EndToEnd, options: SpliceOptions) -> float:
        """The cheek and both ends."""
        return (lap(row, options) + row.thin) * row.deep

    def glue(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[GlueZone, ...]:
        """Cheek on cheek, and the ends at the shoulders."""
        cheek = lap(row, joint.options) * row.deep
        return (
            GlueZone(faces="the two cheeks of the lap", grain=(Grain.SIDE, Grain.SIDE), area_mm2=cheek),
            GlueZone(
                faces="both ends and the shoulders they stand against",
                grain=(Grain.END, Grain.END),
                area_mm2=row.thin * row.deep,
            ),
        )

    def pressed(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> Press | None:
        """Square to the cheeks."""
        return Press(how=Pressing.ACROSS, face_mm2=lap(row, joint.options) * row.deep)

    def figures(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[Size, ...]:
        """How long it is, how far either board runs past the place, how deep each is cut."""
        long = lap(row, joint.options)
        cut = (
            Size(
                of=say("lap in {}", Name(side.body)),
                size="deep",
                how=_half(side),
                value=Length(length(_half(side).total)),
            )
            for side, _ in row.pairs
        )
        return (
            Size(of="lap", size="long", value=Length(long)),
            Size(of="lap", size="half of it", what="past the place, on either board", value=Length(long / 2)),
            *cut,
        )

    def operations(self, row: EndToEnd, joint: Joint[SpliceOptions], boards: Mapping[str, Board]) -> list[Operation]:
        """Sawn to length, then to half the thickness."""
        return [_halve(cut, boards[cut.body]) for cut in joint.cuts]


class Scarf(SpliceForm):
    """Both ends are cut to one long slope."""

    mark = "bevelled"
    lies = True
    long_grain = True
    note = (
        "The glued slopes slide on each other: pin both boards to a straight bed, a stop at either end, before they "
        "are clamped."
    )

    def no_room(self, row: EndToEnd, options: SpliceOptions) -> Judgement | None:
        """Level at both edges, in one line, no longer than the boards."""
        thick = max(row.meeting.a.thickness, row.meeting.b.thickness)
        return (
            _level(row)
            or out_of_line(row, "a scarf")
            or _too_long(row, options.slope * thick, say("a scarf at 1:{}", f"{options.slope:g}"))
        )

    def motion(self, row: EndToEnd, options: SpliceOptions, over: str) -> tuple[Motion, ...]:
        """Anywhere off the slope, or along it."""
        b, size = row.meeting.b.body, math.hypot(1.0, options.slope)
        along, across = 1.0 / size, (1.0 if over == b else -1.0) * options.slope / size
        (x, y, _), (u, v, _) = row.off, row.up
        normal: Vec = (along * x + across * u, along * y + across * v, 0.0)
        return (Motion(body=b, direction=normal, free=0.0),)

    def cuts(self, row: EndToEnd, options: SpliceOptions, over: str) -> list[Cut]:
        """The end of either board."""
        return [_scarfed(row, side, other, options.slope, over) for side, other in row.pairs]

    def gaps(self, row: EndToEnd, options: SpliceOptions) -> tuple[Gap, ...]:
        """The slopes."""
        return (Gap(between=Between.CHEEK, size=0.0),)

    def met_mm2(self, row: EndToEnd, options: SpliceOptions) -> float:
        """The slope, over what both have."""
        return math.hypot(1.0, options.slope) * row.thin * row.deep

    def glue(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[GlueZone, ...]:
        """At so flat a slope it counts as side grain."""
        area = self.met_mm2(row, joint.options)
        return (GlueZone(faces="the two slopes, sized first", grain=(Grain.SIDE, Grain.SIDE), area_mm2=area),)

    def pressed(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> Press | None:
        """Square to the faces."""
        return Press(how=Pressing.ACROSS, face_mm2=self.met_mm2(row, joint.options))

    def findings(self, row: EndToEnd, options: SpliceOptions) -> tuple[Finding, ...]:
        """Steeper than 1:8."""
        if options.slope >= STEEP - 1e-9:
            return ()
        a, b = row.meeting.a.body, row.meeting.b.body
        return (
            Finding(
                code=STEEP_SCARF,
                severity=Severity.WARN,
                where=Where(boards=(a, b), joint=row.meeting.key),
                says=say("the scarf of {} and {} is cut at 1:{}", Name(a), Name(b), f"{options.slope:g}"),
                remedy=say("make it 1:{} or flatter", f"{STEEP:g}"),
                found=options.slope,
                limit=STEEP,
                unit="",
                source="common practice",
                cures=(asked("make it 1:{}", "slope", STEEP),),
            ),
        )

    def figures(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[Size, ...]:
        """Its slope, for the ramps or a template; how long each is, and how far it runs past the place."""
        slope = joint.options.slope
        bevels = [(say("bevel of {}", Name(side.body)), side.thickness) for side, _ in row.pairs]
        sawn = (Size(of=of, size=way, value=None) for of, _ in bevels for way in ("on the saw", "on a template"))
        long = (
            Size(
                of=of,
                size="long point",
                what="past the short point",
                how=say("{} × {}", f"{slope:g}", Length(thick)),
                value=Length(slope * thick),
            )
            for of, thick in bevels
        )
        past = (
            Size(
                of=say("scarf of {}", Name(side.body)),
                size="past the place",
                how=say("half of {} × {}", f"{slope:g}", Length(side.thickness)),
                value=Length(slope * side.thickness / 2),
            )
            for side, _ in row.pairs
        )
        angle = Size(of="scarf", size="to the face", what=say("1 in {}", f"{slope:g}"), value=Angle(to_face(slope)))
        return (angle, *sawn, *long, *past)

    def operations(self, row: EndToEnd, joint: Joint[SpliceOptions], boards: Mapping[str, Board]) -> list[Operation]:
        """Each end along its slope."""
        return [_slope(cut, boards[cut.body], joint.options.slope) for cut in joint.cuts]


def lap(row: EndToEnd, options: SpliceOptions) -> float:
    """As asked, else six times the thinner board."""
    return options.lap if options.lap is not None else whole_steps(LAP * row.thin, EVEN)


def to_face(slope: float) -> float:
    """Degrees between a scarf at 1 in so many and the face."""
    return math.degrees(math.atan(1.0 / slope))


# --- what is refused -----------------------------------------------------------------------------


def _level(row: EndToEnd) -> Judgement | None:
    """One board's edge proud of the other's would be cut away beside it."""
    a, b = row.meeting.a, row.meeting.b
    for edge, off in (("front", a.front - b.front), ("wall", a.back - b.back)):
        if abs(off) > PROUD_EDGE:
            return Judgement.refused(
                say("the boards are {} apart at the {}; a lap or a scarf would be seen there", Length(abs(off)), edge),
                remedy="bring both edges level, or dowel them",
                found=abs(off),
                limit=PROUD_EDGE,
                unit="mm",
                source="geometry",
            )
    return None


def _lap_too_short(row: EndToEnd, options: SpliceOptions) -> Judgement | None:
    found, limit = lap(row, options), LEAST_LAP * row.thin
    if found >= limit - 1e-9:
        return None
    return Judgement.refused(
        say("a half lap {} long in boards {} thick", Length(found), Length(row.thin)),
        remedy=say("make it {} or longer", Length(limit, side=On.UP)),
        found=found,
        limit=limit,
        unit="mm",
        source="ours",
        cures=(asked("make the lap {} long", "lap", limit, "+"),),
    )


def _too_long(row: EndToEnd, long: float, what: Sentence | str) -> Judgement | None:
    """The other half of a board must be left of it."""
    limit = row.shorter
    if long <= limit + 1e-9:
        return None
    return Judgement.refused(
        say("{} would be {} long; the shorter board is {}", what, Length(long), Length(limit)),
        remedy="make it shorter, or dowel the two",
        found=long,
        limit=limit,
        unit="mm",
        source="geometry",
        cures=(asked("dowel the two instead", "form", "dowels"),),
    )


# --- cuts ----------------------------------------------------------------------------------------


def _half(side: Side) -> Sum:
    """Half of the thickness, and film where it is coated."""
    film = (Term(Word.FILM, side.wall_film),) if side.wall_film else ()
    return Sum("", (Term(Word.THICKNESS, side.thickness / 2, share=(0.5, side.thickness)), *film))


def _lapped(row: EndToEnd, side: Side, other: Side, long: float, over: str) -> Cut:
    """Square where the lap ends, and half of the thickness taken off from its shoulder on."""
    out = out_of_end(side)
    keeps = row.upper(side) * (1 if side.body == over else -1)  # the face it keeps
    cheek = keeps * side.wall_film
    gone = -keeps * (side.thickest / 2 + OVER)
    shoulder, end = side.at - out * long / 2, side.at + out * long / 2
    past = end + out * OVER
    outline = ((shoulder, cheek), (past, cheek), (past, gone), (shoulder, gone))
    says = say("lap of {} with {}", Name(side.body), Name(other.body))
    return Cut(
        key=str(says),
        says=says,
        body=side.body,
        form=CutForm.END,
        word="half lap",
        joint=row.meeting.key,
        end=side.end,
        shapes=(
            half_space((end, 0.0), (out, 0.0)),
            prism(outline, -OVER, length(side.front - side.back) + OVER),
        ),
        figures=Figures(
            width=Sum.alone(long, Word.LAP),
            depth=_half(side),
            opens=Opens.END,
            between_faces=row.meeting.angle,
            note=say("a lap of {}, half of it past where the two meet", Length(long)),
        ),
        size_is="FIT TO",
    )


def _scarfed(row: EndToEnd, side: Side, other: Side, slope: float, over: str) -> Cut:
    """Along the slope: the board that lies over is longer on its upper face."""
    out = out_of_end(side)
    keeps = row.upper(side) * (1 if side.body == over else -1)
    long = slope * side.thickness
    far, near = (length(side.at + way * out * long / 2) for way in (1.0, -1.0))
    says = say("scarf of {} with {}", Name(side.body), Name(other.body))
    return Cut(
        key=str(says),
        says=says,
        body=side.body,
        form=CutForm.END,
        word="scarf",
        joint=row.meeting.key,
        end=side.end,
        shapes=(half_space((side.at, 0.0), (out, -keeps * slope)),),
        figures=Figures(
            width=Sum.alone(math.hypot(1.0, slope) * side.thickness),
            depth=Sum.alone(long),
            opens=Opens.END,
            between_faces=row.meeting.angle,
            lean=round(90.0 - to_face(slope), 9),
            note=say("1 in {}, the long point {} past the short one", f"{slope:g}", Length(long)),
            points=(far, near) if keeps > 0 else (near, far),
        ),
        size_is="FIT TO",
    )


# --- bench work ----------------------------------------------------------------------------------


def _halve(cut: Cut, board: Board) -> Operation:
    """With a router along a rail at the shoulder; else sawn down at the shoulder and pared."""
    long, deep = cut.figures.across or 0.0, cut.figures.deep or 0.0
    sets: Sets = ((Dial.WIDTH, Length(long)), (Dial.DEPTH, Length(deep)))
    needs = (Need(ability=Ability.REACH, least=deep), Need(ability=Ability.EDGE, least=deep / 2))
    ways = (
        Way(
            process=Process.ROUTER,
            makes=cut.word,
            says="end sawn square, then the router along a rail at the shoulder, in passes, wood under its base to "
            "the last",
            needs=needs,
            sets=sets,
        ),
        Way(
            process=Process.SAW,
            makes=cut.word,
            says="end sawn square, shoulder sawn to half the thickness, waste sawn in slices and pared",
            needs=(Need(ability=Ability.DEPTH, least=deep),),
            sets=sets,
        ),
        Way(
            process=Process.HAND,
            makes=cut.word,
            says="end and shoulder sawn by hand, cheek pared with a rebate plane across the grain",
            sets=sets,
        ),
    )
    return Operation(key=cut.key, work=WorkSort.ACROSS, cuts=(cut.key,), ways=ways)


def _slope(cut: Cut, board: Board, slope: float) -> Operation:
    """With a router on ramps; else both boards one over the other, planed in one."""
    long = cut.figures.deep or 0.0
    sets: Sets = ((Dial.LEAN, Angle(to_face(slope))), (Dial.STOP, say("{} long", Length(long))))
    needs = (Need(ability=Ability.REACH, least=board.thickest), Need(ability=Ability.EDGE, least=2.0))
    ways = (
        Way(
            process=Process.ROUTER,
            makes=cut.word,
            says=say("router on two ramps that fall 1 in {}, in passes, the board held flat", f"{slope:g}"),
            needs=needs,
            sets=sets,
        ),
        Way(
            process=Process.HAND,
            makes=cut.word,
            says="both boards one over the other, the upper one set back by the length, planed in one slope",
            sets=sets,
        ),
    )
    return Operation(key=cut.key, work=WorkSort.ENDS, cuts=(cut.key,), ways=ways)
