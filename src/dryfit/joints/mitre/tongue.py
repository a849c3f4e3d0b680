"""A loose tongue: in a groove square to either mitre face, stopped at both edges."""

import math
from collections import Counter
from collections.abc import Mapping, Sequence

from ...findings import Finding, declare, printed
from ...geometry.frames import length
from ...geometry.shapes import Prism
from ...job.options import filled
from ...piece.corner import Corner
from ...piece.facts import Between, CutForm, Opens, Stop
from ...piece.kinds import asked
from ...piece.model import Board, Cut, Figures, Gap, Joint, Mating, Meeting, Side, Strip, Ware
from ...piece.operations import Dial, Operation, Sets, Way, WorkSort
from ...piece.sums import Sum, Term, Word
from ...places import Cure
from ...sentences import Angle, Fineness, Length, Words, say
from ...shop.tools import Ability, Need, Process
from ..common import across, tongue_groove, too_little
from .options import MitreOptions
from .strengthening import LONG, Strengthening, beside, outline, pairs

TONGUE_WALL = declare(
    "tongue-near-outside",
    "A loose tongue leaves too little wood to the outside of its corner.",
    uncured="a thinner or narrower tongue, or another spline, is a choice of the shop",
)

LEAST_OUTSIDE = 4.0  # wood outside a tongue's groove (common practice)
DEEPER = 0.5  # a groove is so much deeper than half the tongue (common practice)
LEAST_WIDE = 6.0  # across both grooves, to be offered as a cure (ours)
EVEN = 0.5  # the thickness the tool chooses is whole steps of this


class Tongue(Strengthening):
    """Along the mitre's normal, in a groove of either board."""

    word = "a tongue"
    pins = True
    note = "The tongue goes in along the mitre's normal: a closed frame is closed as two halves."

    def no_room(self, meeting: Meeting, options: MitreOptions) -> Words:
        """Why not, where it finds no room."""
        return no_room(meeting, options)

    def worked(self, meeting: Meeting, options: MitreOptions) -> MitreOptions:
        """Its size."""
        return filled(options, tongue=thick(meeting, options), tongue_width=wide(meeting, options))

    def goes_in(self, meeting: Meeting, options: MitreOptions) -> float:
        """Half of it stands in either board."""
        return wide(meeting, options) / 2

    def cuts(self, meeting: Meeting, options: MitreOptions) -> list[Cut]:
        """A groove in both boards."""
        return [groove(meeting, *pair, options) for pair in pairs(meeting)]

    def gaps(self, meeting: Meeting, options: MitreOptions) -> list[Gap]:
        """Its play, and finish on a coated groove's walls, two a groove."""
        films = Counter((meeting.a.wall_film, meeting.b.wall_film))
        half = options.tongue_play / 2
        return [Gap(between=Between.WALL, size=length(half + film), count=2 * n) for film, n in films.items()]

    def matings(self, meeting: Meeting, options: MitreOptions) -> tuple[Mating, ...]:
        """Its groove in either board."""
        return tuple(mating(meeting, *pair, options) for pair in pairs(meeting))

    def mouths_mm2(self, joint: Joint[MitreOptions]) -> float:
        """The groove's mouth."""
        cut = next(one for one in joint.cuts if one.form is CutForm.GROOVE)
        return long_of(cut) * (cut.figures.across or 0.0)

    def hardware(self, joint: Joint[MitreOptions]) -> tuple[Ware, ...]:
        """The tongue."""
        return (hardware(joint.meeting, joint.options),)

    def findings(self, meeting: Meeting, options: MitreOptions) -> tuple[Finding, ...]:
        """Wood beside its groove."""
        left = left_outside(meeting, options)
        return too_little(
            TONGUE_WALL,
            meeting,
            (left, LEAST_OUTSIDE),
            "outside the tongue",
            "make the tongue narrower",
            lambda: _narrower(meeting, options, LEAST_OUTSIDE - left),
        )

    def operations(
        self, joint: Joint[MitreOptions], cuts: Sequence[Cut], boards: Mapping[str, Board], after: tuple[str, ...]
    ) -> tuple[Operation, ...]:
        """Grooves follow the saw."""
        return tuple(cut_groove(cut, boards[cut.body], after) for cut in cuts)


def _narrower(meeting: Meeting, options: MitreOptions, missing: float) -> tuple[Cure, ...]:
    """A width of the tongue that leaves enough, where there is one: half of it less stands in either groove."""
    able_wide = printed(wide(meeting, options) - 2 * LONG * missing, "-", "mm")
    able = options.model_copy(update={"tongue_width": able_wide})
    if able_wide < LEAST_WIDE or left_outside(meeting, able) < LEAST_OUTSIDE or no_room(meeting, able):
        return ()
    return (asked("make the tongue {} wide", "tongue_width", able_wide, "-"),)


def no_room(meeting: Meeting, options: MitreOptions) -> Words:
    """Why not, where it finds no room; "" where it does."""
    low, high = meeting.overlap
    if high - low - 2 * options.tongue_stop < wide(meeting, options):
        return say(
            "a tongue stopped {} at both edges has no room in {}",
            Length(options.tongue_stop, Fineness.WHOLE),
            Length(high - low, Fineness.WHOLE),
        )
    return ""


def left_outside(meeting: Meeting, options: MitreOptions) -> float:
    """Wood from the bottom of a groove, square to the nearer face of its board: the lesser of the two boards'."""
    corners = Corner.of(meeting.a, meeting.b), Corner.of(meeting.b, meeting.a)
    return min(beside(corner, *_size(meeting, options)) for corner in corners)


def hardware(meeting: Meeting, options: MitreOptions) -> Ware:
    """The tongue, to be made in the shop."""
    low, high = meeting.overlap
    long = high - low - 2 * options.tongue_stop
    sizes = (across(thick(meeting, options)), across(wide(meeting, options)), across(long))
    says = say("{} x {} x {}, grain across the corner", *sizes)
    strip = Strip(along=wide(meeting, options), across=long, thick=thick(meeting, options))
    return Ware(what="loose tongue", says=says, count=1, length=long, strip=strip)


def mating(meeting: Meeting, side: Side, other: Side, options: MitreOptions) -> Mating:
    """A groove with the tongue in it."""
    nx, ny = Corner.of(side, other).outward
    return Mating(
        key=f"groove in {side.body} towards {other.body}",
        cut_in=side.body,
        takes=f"tongue of {side.body} and {other.body}",
        normal=(-ny + 0.0, nx, 0.0),
        nominal=length(thick(meeting, options) + 2 * side.wall_film + options.tongue_play),
        play=length(options.tongue_play),
        play_from="tongue_play",
    )


def groove(meeting: Meeting, side: Side, other: Side, options: MitreOptions) -> Cut:
    """A groove square to the mitre face for half the tongue, stopped at both edges."""
    corner = Corner.of(side, other)
    half, deep = _size(meeting, options)
    half += side.wall_film  # on the groove's walls, where a dry corner is coated; the tongue is bare
    corners = tuple(corner.at(point) for point in outline(corner, half, deep))
    stop = options.tongue_stop
    figures = Figures(
        width=_width(meeting, side, options),
        depth=Sum("", (Term(Word.TONGUE, deep - DEEPER), Term(Word.DEEPER, DEEPER))),
        opens=Opens.END,
        stops=tuple(Stop(edge=edge, size=Sum.alone(stop, Word.STOP)) for edge in (Opens.FRONT, Opens.WALL)),
        between_faces=round(corner.phi, 9),
        lean=round(90.0 - corner.to_length, 9),
    )
    return tongue_groove(meeting.key, side, other, corners, meeting.overlap, stop, figures)


def long_of(cut: Cut) -> float:
    """How long a groove is."""
    return max((shape.high - shape.low for shape in cut.shapes if isinstance(shape, Prism)), default=0.0)


def cut_groove(cut: Cut, board: Board, after: tuple[str, ...]) -> Operation:
    """A groove as a router cuts it, standing on the mitre face, once the end is sawn."""
    (run, *_) = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    wide, deep = cut.figures.across or 0.0, cut.figures.deep or 0.0
    edge = board.depth
    sets: Sets = (
        (Dial.WIDTH, Length(wide, Fineness.WIDTH)),
        (Dial.CORNER, Angle(cut.figures.between_faces)),
        (Dial.DEPTH, Length(deep)),
        (
            Dial.STOP,
            say(
                "{} to {} from the front edge",
                Length(edge - run.high, Fineness.WIDTH),
                Length(edge - run.low, Fineness.WIDTH),
            ),
        ),
    )
    needs = (
        Need(ability=Ability.CUTTER, most=wide),
        Need(ability=Ability.REACH, least=deep),
        Need(ability=Ability.EDGE, least=deep),
    )
    way = Way(process=Process.ROUTER, makes=cut.word, says="router on the mitre face", needs=needs, sets=sets)
    return Operation(key=cut.key, work=WorkSort.CORNER, cuts=(cut.key,), ways=(way,), after=after)


def _width(meeting: Meeting, side: Side, options: MitreOptions) -> Sum:
    film = (Term(Word.FILM, 2 * side.wall_film),) if side.wall_film else ()
    return Sum("", (Term(Word.TONGUE, thick(meeting, options)), *film, Term(Word.PLAY, options.tongue_play)))


def wide(meeting: Meeting, options: MitreOptions) -> float:
    """Across both grooves: as asked, else two thirds of the thinner board (common practice)."""
    if options.tongue_width is not None:
        return options.tongue_width
    return max(2.0, math.floor(_thinner(meeting) * 2 / 3))


def thick(meeting: Meeting, options: MitreOptions) -> float:
    """As asked, else a third of the thinner board (trade texts on splines), in whole steps."""
    if options.tongue is not None:
        return options.tongue
    return max(EVEN, math.floor(_thinner(meeting) / 3 / EVEN) * EVEN)


def _thinner(meeting: Meeting) -> float:
    return min(meeting.a.thickness, meeting.b.thickness)


def _size(meeting: Meeting, options: MitreOptions) -> tuple[float, float]:
    """Half its width, and its depth from the mitre."""
    half = (thick(meeting, options) + options.tongue_play) / 2
    return half, wide(meeting, options) / 2 + DEEPER
