"""Forms with square ends: dowels along the grain, a loose tongue, keys let into a face across the joint.

Dowels and a tongue keep the ends level and hold by end grain, which is next to nothing. Keys lie along the grain in
both boards and are glued on side grain: a disc of a radius R plunged P into the face leaves a pocket that runs
sqrt(R^2 - (R - P)^2) along either board, so a cutter of 100 plunged 16 into 24 makes keys 2 x 36.66 long. In mm.
"""

import math
from abc import abstractmethod
from collections.abc import Mapping
from dataclasses import replace

from ...findings import Finding, Severity, declare, printed
from ...geometry.frames import length
from ...geometry.shapes import OVER, Prism, half_space
from ...job.options import filled, given
from ...piece.dowelling import breaks_out, dowelled, holes
from ...piece.facts import Between, CutForm, GlueZone, Grain, Opens, Size, Stop
from ...piece.holes import LEAST_WOOD, HoleRow, bores, evenly
from ...piece.kinds import asked
from ...piece.model import Board, Cut, Figures, Gap, Joint, Judgement, Mating, Motion, Side, Strip, Ware
from ...piece.operations import Dial, Operation, Sets, Way, WorkSort, bored, sawn
from ...piece.sums import Sum, Term, Word
from ...places import Where
from ...sentences import Count, Fineness, Length, Name, On, Several, Words, say
from ...shop.tools import Ability, Need, Process
from ...trade import dowels as sold
from ...trade.dowels import DEEPER, Dowel
from ..common import across, end_cut, key_pockets, tongue_groove, too_little
from .forms import THIN, EndToEnd, SpliceForm, out_of_end, out_of_line, unequal, whole_steps
from .options import SpliceOptions

CARRIES_LITTLE = declare(
    "splice-carries-little",
    "Two boards in line are held by end grain and what aligns them: such a splice carries little bending.",
    uncured="whether it is held from the side, or lapped, is a choice of design",
)
STEEP = math.sqrt(0.5)  # sine of the slope from which on a board stands rather than lies
TONGUE_WIDE, TONGUE_THICK = 1.5, 3.0  # of the thinner board: times, and a share of one in so many (trade texts)
LEAST_CHEEK = 3.0  # of wood either side of a tongue's groove (common practice)
FREE = 0.5  # a groove is so much deeper than half the tongue (common practice)
PLUNGE = 2 / 3  # of the board, in whole 1: keys hold deep, and the other face stays whole (ours)
LEAST_BEHIND = 4.0  # of wood behind a key (common practice)
PROUD = 10.0  # of a key's blank over its pocket, either way, to be sawn off flush (common practice)
SPACING = 100.0  # one key for so much depth, two at least (common practice)


class SquareEnds(SpliceForm):
    """Two square ends, and what is let into them."""

    def cuts(self, row: EndToEnd, options: SpliceOptions, over: str) -> list[Cut]:
        """The ends, then what is let in."""
        ends = [
            end_cut(
                row.meeting,
                side,
                other,
                half_space((side.at, 0.0), (float(side.end), 0.0)),
                note=say("against {}", Name(other.body)),
                stands="line",
            )
            for side, other in row.pairs
        ]
        return [*ends, *(self.let_in(row, side, other, options) for side, other in row.pairs)]

    @abstractmethod
    def let_in(self, row: EndToEnd, side: Side, other: Side, options: SpliceOptions) -> Cut:
        """What is taken from one board besides its end."""

    def gaps(self, row: EndToEnd, options: SpliceOptions) -> tuple[Gap, ...]:
        """The two ends."""
        return (Gap(between=Between.END, size=0.0),)

    def glue(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[GlueZone, ...]:
        """End grain on end grain."""
        area = row.thin * row.deep
        return (GlueZone(faces="both ends, sized first", grain=(Grain.END, Grain.END), area_mm2=area),)

    def operations(self, row: EndToEnd, joint: Joint[SpliceOptions], boards: Mapping[str, Board]) -> list[Operation]:
        """The ends are sawn; what is let in follows."""
        ends = [sawn([cut], boards[cut.body]) for cut in joint.cuts if cut.end]
        rest = [cut for cut in joint.cuts if not cut.end]
        return [*ends, *self.work(rest, boards, joint, tuple(one.key for one in ends))]

    @abstractmethod
    def work(
        self, cuts: list[Cut], boards: Mapping[str, Board], joint: Joint[SpliceOptions], after: tuple[str, ...]
    ) -> list[Operation]:
        """The bench work on what is let in, once the ends are sawn (`after`)."""


def _carries_little(row: EndToEnd) -> Finding:
    """A support under both ends carries the load; those of an upright are held from the side."""
    a, b = row.meeting.a.body, row.meeting.b.body
    support = "put a board or a bracket under both ends"
    if abs(row.meeting.frame.x[1]) > STEEP:
        support = "hold both ends from the side, by the wall or a board fixed to both"
    return Finding(
        code=CARRIES_LITTLE,
        severity=Severity.WARN,
        where=Where(boards=(a, b), joint=row.meeting.key),
        says=say("only end grain and what aligns them holds {} and {}: it carries little bending", Name(a), Name(b)),
        remedy=say("{}, or lap them", support),
        source="common practice",
        cures=(asked("make it a half lap", "form", "half-lapped"),),
    )


# --- dowels --------------------------------------------------------------------------------------


class InLineDowels(SquareEnds):
    """Along the grain, at mid-thickness."""

    word = "dowels"
    pins = True
    note = "End grain glued to end grain holds next to nothing: a support under both ends carries the load."

    def no_room(self, row: EndToEnd, options: SpliceOptions) -> Judgement | None:
        """Thinner than the boards, and no deeper than they are long."""
        holed = _row(row, options)
        for found, limit, what in (
            (holed.wide, row.thin, say("a dowel of {} in boards {} thick", Length(holed.wide), Length(row.thin))),
            (
                holed.deep,
                row.shorter,
                say("a hole {} deep in a board {} long", Length(holed.deep), Length(row.shorter)),
            ),
        ):
            if found >= limit:
                return Judgement.refused(
                    what, remedy="use smaller dowels", found=found, limit=limit, unit="mm", source="geometry"
                )
        return None

    def worked(self, row: EndToEnd, options: SpliceOptions) -> SpliceOptions:
        """How many, how thick, how deep."""
        holed = _row(row, options)
        return filled(options, dowels=len(holed.places), dowel=holed.wide, dowel_in=holed.deep - DEEPER)

    def motion(self, row: EndToEnd, options: SpliceOptions, over: str) -> tuple[Motion, ...]:
        """Along the line only."""
        free = length(_row(row, options).deep - DEEPER)
        return (Motion(body=row.meeting.b.body, direction=row.off, free=free),)

    def let_in(self, row: EndToEnd, side: Side, other: Side, options: SpliceOptions) -> Cut:
        """Its holes."""
        holed = _row(row, options)
        drilled = bores(side, (side.at, 0.0), (-float(side.end), 0.0), holed.places, holed.end)
        return holes(row.meeting, side, other, "dowel holes", drilled, Opens.END)

    def hardware(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[Ware, ...]:
        """Grooved dowels as sold."""
        first, second = (cut for cut in joint.cuts if cut.form is CutForm.BORE)
        long = (first.figures.deep or 0.0) + (second.figures.deep or 0.0) - 2 * DEEPER
        wide = first.figures.across or 0.0
        says = say("{} x {}", format(wide, "g"), format(long, "g"))
        count = len(first.shapes)
        return (Ware(what="dowel", like="grooved", says=says, count=count, diameter=wide, length=long, in_mm=True),)

    def findings(self, row: EndToEnd, options: SpliceOptions) -> tuple[Finding, ...]:
        """3 of wood beside the holes, and that it carries little."""
        holed, thin = _row(row, options), min(row.pairs, key=lambda pair: pair[0].thickness)[0]
        left = (
            ((thin.thickness - holed.wide) / 2, "beside"),
            (holed.beside(row.common), "at the edges, beside"),
        )
        near = (breaks_out(row.meeting, wood, thin, place) for wood, place in left if wood < LEAST_WOOD - 1e-9)
        return (_carries_little(row), *near)

    def work(
        self, cuts: list[Cut], boards: Mapping[str, Board], joint: Joint[SpliceOptions], after: tuple[str, ...]
    ) -> list[Operation]:
        """With a jig."""
        return [one for cut in cuts for one in bored(cut, boards[cut.body], "drill with a jig", after=after)]


def _row(row: EndToEnd, options: SpliceOptions) -> HoleRow:
    """As sold, three diameters deep in either end (a trade text on sizes of dowels); or as asked."""
    wide = options.dowel or sold.diameter_for(row.thin)
    deep = options.dowel_in
    dowel = sold.in_line(wide) if deep is None else Dowel(in_face=deep, in_end=deep)
    count = options.dowels if given(options, "dowels") else 0
    return dowelled(dowel, wide, evenly(row.common, count))


# --- a loose tongue ------------------------------------------------------------------------------


class InLineTongue(SquareEnds):
    """In a groove of either end, stopped at both edges."""

    word = "a tongue"
    pins = True
    note = "Make the tongue with its grain along the boards, or of plywood."

    def no_room(self, row: EndToEnd, options: SpliceOptions) -> Judgement | None:
        """In one line, and long enough."""
        long, least = row.deep - 2 * options.tongue_stop, _wide(row, options)
        if long < least:
            return Judgement.refused(
                say("a tongue stopped {} at both edges is {} long", Length(options.tongue_stop), Length(long)),
                remedy="stop it nearer to the edges, or use dowels",
                found=long,
                limit=least,
                unit="mm",
                source="ours",
            )
        if least / 2 + FREE >= row.shorter:
            says = say("a tongue {} wide in a board {} long", Length(least), Length(row.shorter))
            return Judgement.refused(
                says, remedy="make it narrower", found=least / 2, limit=row.shorter, unit="mm", source="geometry"
            )
        if _thick(row, options) >= row.thin:
            says = say("a tongue {} thick in boards {} thick", Length(_thick(row, options)), Length(row.thin))
            return Judgement.refused(
                says, remedy="make it thinner", found=_thick(row, options), limit=row.thin, unit="mm", source="geometry"
            )
        return out_of_line(row, "a loose tongue")

    def worked(self, row: EndToEnd, options: SpliceOptions) -> SpliceOptions:
        """Its size."""
        return filled(options, tongue=_thick(row, options), tongue_width=_wide(row, options))

    def motion(self, row: EndToEnd, options: SpliceOptions, over: str) -> tuple[Motion, ...]:
        """Along the line only."""
        return (Motion(body=row.meeting.b.body, direction=row.off, free=length(_wide(row, options) / 2)),)

    def let_in(self, row: EndToEnd, side: Side, other: Side, options: SpliceOptions) -> Cut:
        """Its groove."""
        out, half = out_of_end(side), _groove_half(row, side, options)
        deep = _wide(row, options) / 2 + FREE
        mouth, floor = side.at + out * OVER, side.at - out * deep
        stop = options.tongue_stop
        film = (Term(Word.FILM, 2 * side.wall_film),) if side.wall_film else ()
        corners = (mouth, -half), (mouth, half), (floor, half), (floor, -half)
        figures = Figures(
            width=Sum("", (Term(Word.TONGUE, _thick(row, options)), *film, Term(Word.PLAY, options.tongue_play))),
            depth=Sum("", (Term(Word.TONGUE, deep - FREE), Term(Word.DEEPER, FREE))),
            opens=Opens.END,
            stops=tuple(Stop(edge=edge, size=Sum.alone(stop, Word.STOP)) for edge in (Opens.FRONT, Opens.WALL)),
            between_faces=row.meeting.angle,
        )
        return tongue_groove(row.meeting.key, side, other, corners, row.common, stop, figures)

    def glue(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[GlueZone, ...]:
        """The ends, less the groove's mouth."""
        options, (ends,) = joint.options, super().glue(row, joint)
        mouth = max(2 * _groove_half(row, side, options) for side, _ in row.pairs) * (
            row.deep - 2 * options.tongue_stop
        )
        return (replace(ends, area_mm2=ends.area_mm2 - mouth),)

    def gaps(self, row: EndToEnd, options: SpliceOptions) -> tuple[Gap, ...]:
        """The ends; and a tongue's play, with finish on coated walls."""
        films = {side.wall_film for side, _ in row.pairs}
        walls = (
            Gap(
                between=Between.WALL,
                size=length(options.tongue_play / 2 + film),
                count=2 * sum(side.wall_film == film for side, _ in row.pairs),
            )
            for film in sorted(films)
        )
        return (Gap(between=Between.END, size=0.0), *walls)

    def matings(self, row: EndToEnd, options: SpliceOptions) -> tuple[Mating, ...]:
        """Its groove in either board."""
        return tuple(
            Mating(
                key=f"groove in {side.body} towards {other.body}",
                cut_in=side.body,
                takes=f"tongue of {side.body} and {other.body}",
                normal=(0.0, 1.0, 0.0),
                nominal=length(2 * _groove_half(row, side, options)),
                play=length(options.tongue_play),
                play_from="tongue_play",
            )
            for side, other in row.pairs
        )

    def hardware(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[Ware, ...]:
        """The tongue, to be made in the shop."""
        thick, wide = _thick(row, joint.options), _wide(row, joint.options)
        long = row.deep - 2 * joint.options.tongue_stop
        says = say("{} x {} x {}, grain along the boards", across(thick), across(wide), across(long))
        strip = Strip(along=wide, across=long, thick=thick)
        return (Ware(what="loose tongue", says=says, count=1, length=long, strip=strip),)

    def findings(self, row: EndToEnd, options: SpliceOptions) -> tuple[Finding, ...]:
        """Wood either side of the groove, and that it carries little."""
        left = min(side.thickness / 2 - _groove_half(row, side, options) for side, _ in row.pairs)
        able = printed(_thick(row, options) - 2 * max(LEAST_CHEEK - left, 0.0), "-", "mm")
        cures = (asked("make the tongue {} thick", "tongue", able, "-"),) if able >= 2.0 else ()
        thin = too_little(
            THIN, row.meeting, (left, LEAST_CHEEK), "beside the tongue", "make the tongue thinner", lambda: cures
        )
        return (_carries_little(row), *thin)

    def figures(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[Size, ...]:
        """How deep its groove is, from the end."""
        groove = next(cut for cut in joint.cuts if cut.form is CutForm.GROOVE)
        deep = groove.figures.depth
        assert deep is not None, "a groove has a depth"
        value = Length(length(deep.total))
        return (Size(of=groove.plain, size="deep", what="square to the end", how=deep, value=value),)

    def work(
        self, cuts: list[Cut], boards: Mapping[str, Board], joint: Joint[SpliceOptions], after: tuple[str, ...]
    ) -> list[Operation]:
        """A router on the end."""
        return [_groove_work(cut, boards[cut.body], after) for cut in cuts]


def _thick(row: EndToEnd, options: SpliceOptions) -> float:
    """As asked, else a third of the thinner board (trade texts on splines), in whole 0.5."""
    return options.tongue if options.tongue is not None else whole_steps(row.thin / TONGUE_THICK, 0.5)


def _wide(row: EndToEnd, options: SpliceOptions) -> float:
    """As asked, else one and a half times the thinner board, in whole 1: there is length enough in line (ours)."""
    return options.tongue_width if options.tongue_width is not None else whole_steps(TONGUE_WIDE * row.thin, 1.0)


def _groove_half(row: EndToEnd, side: Side, options: SpliceOptions) -> float:
    """Half of what lies between a groove's walls."""
    return (_thick(row, options) + options.tongue_play) / 2 + side.wall_film


def _groove_work(cut: Cut, board: Board, after: tuple[str, ...]) -> Operation:
    wide, deep = cut.figures.across or 0.0, cut.figures.deep or 0.0
    (run,) = (shape for shape in cut.shapes if isinstance(shape, Prism))
    whole = board.depth
    sets: Sets = (
        (Dial.WIDTH, Length(wide, Fineness.WIDTH)),
        (Dial.DEPTH, Length(deep)),
        (Dial.STOP, say("{} to {} from the front edge", Length(whole - run.high), Length(whole - run.low))),
    )
    needs = (
        Need(ability=Ability.CUTTER, most=wide),
        Need(ability=Ability.REACH, least=deep),
        Need(ability=Ability.EDGE, least=deep),
    )
    ways = (
        Way(
            process=Process.ROUTER,
            makes=cut.word,
            says="router on the end, its fence against the face side of either board",
            needs=needs,
            sets=sets,
        ),
        Way(process=Process.HAND, makes=cut.word, says="bored in a row and chopped by hand", sets=sets),
    )
    return Operation(key=cut.key, work=WorkSort.CORNER, cuts=(cut.key,), ways=ways, after=after)


# --- keys ----------------------------------------------------------------------------------------


class FaceKeys(SquareEnds):
    """Let into pockets of a circular cutter across the joint, after the ends are glued."""

    word = "keys"
    mark = "keyed"
    long_grain = True
    afterwards = True
    note = "The pockets are cut after the ends are glued, and the keys planed off flush when theirs has set."

    def no_room(self, row: EndToEnd, options: SpliceOptions) -> Judgement | None:
        """In one plane, and room for so many of a cutter that can be plunged so."""
        plunge, radius = _plunge(row, options), options.cutter / 2
        if plunge > radius:
            says = say("a cutter of {} cannot be plunged {}", Length(options.cutter), Length(plunge))
            return Judgement.refused(
                says, remedy="plunge less deep", found=plunge, limit=radius, unit="mm", source="geometry"
            )
        number, least = _count(row, options), 2 * options.key_thickness
        if plunge >= row.thin:
            return Judgement.refused(
                say("a cutter plunged {} into boards {} thick", Length(plunge), Length(row.thin)),
                remedy="plunge less deep",
                found=plunge,
                limit=row.thin,
                unit="mm",
                source="geometry",
            )
        if row.deep / number < least:
            return Judgement.refused(
                say("{} of {} in {} of depth", Count(number, "key"), Length(options.key_thickness), Length(row.deep)),
                remedy="make fewer or thinner keys",
                found=row.deep / number,
                limit=least,
                unit="mm",
                source="ours",
            )
        return unequal(row, "keys")

    def worked(self, row: EndToEnd, options: SpliceOptions) -> SpliceOptions:
        """How many, and how deep."""
        return filled(options, keys=_count(row, options), plunge=_plunge(row, options))

    def let_in(self, row: EndToEnd, side: Side, other: Side, options: SpliceOptions) -> Cut:
        """This board's half of each pocket."""
        radius, plunge = options.cutter / 2, _plunge(row, options)
        face = row.upper(side) * (1 if options.key_face == "upper" else -1)
        middle = face * (side.thickness / 2 + radius - plunge)
        figures = Figures(
            width=Sum.alone(options.key_thickness, Word.KEY),
            on_face=length(reach(options.cutter, plunge)),
            depth=Sum.alone(plunge),
            opens=Opens.FACE,
            between_faces=row.meeting.angle,
            note=say(
                "cutter {}, plunged {} into the {} face",
                Length(options.cutter, Fineness.WHOLE),
                Length(plunge),
                options.key_face,
            ),
        )
        places = evenly(row.common, _count(row, options))
        return key_pockets(row.meeting.key, side, other, (side.at, middle), options.cutter, places, figures, face=face)

    def glue(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[GlueZone, ...]:
        """The ends, and both sides of the keys, in both boards."""
        plunge, radius = _plunge(row, joint.options), joint.options.cutter / 2
        half = math.acos((radius - plunge) / radius)
        segment = radius**2 * half - (radius - plunge) * reach(joint.options.cutter, plunge)
        sides = GlueZone(
            faces="both sides of the keys",
            grain=(Grain.SIDE, Grain.SIDE),
            area_mm2=2 * _count(row, joint.options) * segment,
        )
        return (*super().glue(row, joint), sides)

    def hardware(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[Ware, ...]:
        """The keys, to be made in the shop."""
        options, plunge = joint.options, _plunge(row, joint.options)
        long, wide = 2 * reach(options.cutter, plunge) + PROUD, plunge + PROUD
        sizes = Length(long, Fineness.WHOLE), Length(wide, Fineness.WHOLE)
        return (
            Ware(
                what="key",
                like="grain along the boards",
                says=say("{} thick, strip {} x {} a key", across(options.key_thickness), *sizes),
                count=_count(row, options),
                strip=Strip(along=long, across=wide, thick=options.key_thickness),
            ),
        )

    def findings(self, row: EndToEnd, options: SpliceOptions) -> tuple[Finding, ...]:
        """Wood behind the keys."""
        plunge = _plunge(row, options)
        left = row.thin - plunge
        able = row.thin - LEAST_BEHIND
        cures = (asked("plunge the cutter {}", "plunge", able, "-"),) if able >= LEAST_BEHIND else ()
        remedy = say("plunge the cutter {} at the most", Length(able, side=On.DOWN))
        return too_little(THIN, row.meeting, (left, LEAST_BEHIND), "behind the keys", remedy, lambda: cures)

    def figures(self, row: EndToEnd, joint: Joint[SpliceOptions]) -> tuple[Size, ...]:
        """How long a key is on the face."""
        options = joint.options
        of = next(cut.plain for cut in joint.cuts if cut.form is CutForm.POCKET)
        long, deep = 2 * reach(options.cutter, _plunge(row, options)), Length(_plunge(row, options))
        return (
            Size(of=of, size="reach", what="in either board, on the face", value=Length(long / 2)),
            Size(of=of, size="deep", what=say("into the {} face", options.key_face), value=deep),
            Size(of=of, size="long", what="over both boards", value=Length(long)),
        )

    def work(
        self, cuts: list[Cut], boards: Mapping[str, Board], joint: Joint[SpliceOptions], after: tuple[str, ...]
    ) -> list[Operation]:
        """With a groover on the face, in both boards at once."""
        return [_plunged(cuts, boards[cuts[0].body], joint)] if cuts else []


def _plunge(row: EndToEnd, options: SpliceOptions) -> float:
    """As asked, else two thirds of the thinner board."""
    return options.plunge if options.plunge is not None else whole_steps(PLUNGE * row.thin, 1.0)


def _count(row: EndToEnd, options: SpliceOptions) -> int:
    """As asked, else by the common depth."""
    return options.keys or max(2, round(row.deep / SPACING))


def reach(cutter: float, plunge: float) -> float:
    """How far a pocket runs from the joint on the face."""
    radius = cutter / 2
    return math.sqrt(max(radius**2 - (radius - plunge) ** 2, 0.0))


def _plunged(cuts: list[Cut], board: Board, joint: Joint[SpliceOptions]) -> Operation:
    cut, options = cuts[0], joint.options
    middles = sorted(board.depth - (shape.low + shape.high) / 2 for shape in cut.shapes if isinstance(shape, Prism))
    plunge, thick = cut.figures.deep or 0.0, cut.figures.across or options.key_thickness
    places: Words = say("at {}", Several(tuple(map(Length, middles)), ", "))
    way = Way(
        process=Process.GROOVER,
        makes=cut.word,
        says="circular cutter along a rail, its middle over the joint, after gluing",
        needs=(
            Need(ability=Ability.CUTTER, least=options.cutter, most=options.cutter),
            Need(ability=Ability.KERF, most=thick),
            Need(ability=Ability.DEPTH, least=plunge),
        ),
        sets=(
            (Dial.WIDTH, Length(thick, Fineness.WIDTH)),
            (Dial.DEPTH, Length(plunge)),
            (Dial.CUTTER, Length(options.cutter, Fineness.WHOLE)),
            (Dial.STOP, places),
        ),
    )
    return Operation(
        key=f"keys of splice {joint.key[0]} and {joint.key[1]}",
        work=WorkSort.CORNER,
        cuts=tuple(one.key for one in cuts),
        ways=(way,),
        after_gluing=joint.key,
    )
