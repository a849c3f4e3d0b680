"""Dowels across: in holes square to either mitre face, a third of the mitre from the inside arris.

The thickest as sold of which some length as sold leaves 4 of wood behind its hole: a third of the mitre of 24 at a
right angle lies 16 from the outside face, and a dowel 6 x 25, in holes 13.5 deep, leaves 16 - (13.5 + 3) sin 45 = 4.3
of that; 8 x 25 would leave 3.6. In thinner boards a dowel of 6 is cut to what leaves 4. Lengths in mm.
"""

import math
from collections.abc import Iterator, Mapping, Sequence

from ...findings import Finding
from ...geometry.frames import Vec2
from ...job.options import filled, given
from ...piece.corner import Corner
from ...piece.dowelling import breaks_out, holes
from ...piece.facts import Opens
from ...piece.holes import LEAST_WOOD, bores, evenly
from ...piece.model import Board, Cut, Joint, Meeting, Side, Ware
from ...piece.operations import Operation, bored
from ...sentences import Fineness, Length, Words, say
from ...trade import dowels
from ...trade.dowels import DEEPER
from .options import MitreOptions
from .strengthening import Strengthening, beside, middle, pairs

LEAST_BEHIND = 4.0  # wood outside a hole's bottom, as outside a tongue's groove (common practice)
LEAST_IN = 5.0  # of a dowel in either end: less aligns nothing (ours)
EVEN = 0.5  # the depth that the tool chooses is whole steps of this


class Dowels(Strengthening):
    """Along the mitre's normal, in a hole of either board."""

    word = "dowels"
    pins = True
    note = "The dowels go in along the mitre's normal: a closed frame is closed as two halves."

    def no_room(self, meeting: Meeting, options: MitreOptions) -> Words:
        """Why not, where it would stand too shallow."""
        if _in_each(meeting, options) >= LEAST_IN:
            return ""
        wood, deep = Length(LEAST_BEHIND, Fineness.WHOLE), Length(LEAST_IN, Fineness.WHOLE)
        return say(
            "no dowel finds room across this mitre: {} deep, less than {} of wood would stay beside it", deep, wood
        )

    def worked(self, meeting: Meeting, options: MitreOptions) -> MitreOptions:
        """How many, how thick, how deep."""
        count, deep = len(_places(meeting, options)), _in_each(meeting, options)
        return filled(options, dowels=count, dowel=_diameter(meeting, options), dowel_in=deep)

    def goes_in(self, meeting: Meeting, options: MitreOptions) -> float:
        """Half of one stands in either board."""
        return _in_each(meeting, options)

    def cuts(self, meeting: Meeting, options: MitreOptions) -> list[Cut]:
        """Its holes in both boards."""
        return [_holes(meeting, side, other, options) for side, other in pairs(meeting)]

    def mouths_mm2(self, joint: Joint[MitreOptions]) -> float:
        """The holes' mouths."""
        options = joint.options
        return len(_places(joint.meeting, options)) * math.pi / 4 * _diameter(joint.meeting, options) ** 2

    def hardware(self, joint: Joint[MitreOptions]) -> tuple[Ware, ...]:
        """The dowels."""
        meeting, options = joint.meeting, joint.options
        wide, deep, count = _diameter(meeting, options), _in_each(meeting, options), len(_places(meeting, options))
        says = say("{} x {}", format(wide, "g"), format(2 * deep, "g"))
        return (Ware(what="dowel", like="grooved", says=says, count=count, diameter=wide, length=2 * deep, in_mm=True),)

    def findings(self, meeting: Meeting, options: MitreOptions) -> tuple[Finding, ...]:
        """Wood behind the holes, and at the edges."""
        return tuple(
            breaks_out(meeting, left, side, place, least)
            for left, side, place, least in _wood_about(meeting, options)
            if left < least - 1e-9
        )

    def operations(
        self, joint: Joint[MitreOptions], cuts: Sequence[Cut], boards: Mapping[str, Board], after: tuple[str, ...]
    ) -> tuple[Operation, ...]:
        """Drilled square to the sawn mitre."""
        how = "drill with a jig on the mitre face"
        return tuple(one for cut in cuts for one in bored(cut, boards[cut.body], how, after=after))


def _diameter(meeting: Meeting, options: MitreOptions) -> float:
    """As asked, else the thickest that can be had, up to the next as sold over a third of the thinner board."""
    if options.dowel is not None:
        return options.dowel
    most = dowels.diameter_for(min(side.thickness for side, _ in pairs(meeting)))
    usable = [one for one in dowels.DIAMETERS if one <= most and _sold(meeting, one)]
    return max(usable, default=dowels.DIAMETERS[0])


def _in_each(meeting: Meeting, options: MitreOptions) -> float:
    """As asked, else half the longest as sold behind whose holes 4 of wood stay; else half of one that is cut."""
    if options.dowel_in is not None:
        return options.dowel_in
    wide = _diameter(meeting, options)
    sold = _sold(meeting, wide)
    if sold:
        return max(sold) / 2
    steps = (step * EVEN for step in range(1, int(dowels.LENGTHS[0] / 2 / EVEN)))
    return max((deep for deep in steps if _leaves(meeting, wide, deep)), default=0.0)


def _sold(meeting: Meeting, wide: float) -> list[float]:
    """The lengths behind half of which enough wood stays."""
    return [long for long in dowels.LENGTHS if _leaves(meeting, wide, long / 2)]


def _leaves(meeting: Meeting, wide: float, deep: float) -> bool:
    return _behind(meeting, wide / 2, deep + DEEPER) >= LEAST_BEHIND


def _behind(meeting: Meeting, half: float, deep: float) -> float:
    return min(beside(Corner.of(*pair), half, deep) for pair in pairs(meeting))


def _places(meeting: Meeting, options: MitreOptions) -> tuple[float, ...]:
    """Out of the wall: as many as asked; else one in 100, two at least."""
    return evenly(meeting.overlap, options.dowels if given(options, "dowels") else 0)


def _holes(meeting: Meeting, side: Side, other: Side, options: MitreOptions) -> Cut:
    corner = Corner.of(side, other)
    nx, ny = corner.outward
    into: Vec2 = (-nx, -ny)
    profile = ((0.0, _diameter(meeting, options)), (_in_each(meeting, options) + DEEPER, 0.0))
    drilled = bores(side, corner.at(middle(corner)), into, _places(meeting, options), profile)
    return holes(meeting, side, other, "dowel holes", drilled, Opens.END)


def _wood_about(meeting: Meeting, options: MitreOptions) -> Iterator[tuple[float, Side, str, float]]:
    """Least wood about the holes, the side it is in, where, and how much there must be."""
    half, deep = _diameter(meeting, options) / 2, _in_each(meeting, options) + DEEPER
    for side, other in pairs(meeting):
        yield beside(Corner.of(side, other), half, deep), side, "outside", LEAST_BEHIND
    (low, high), places = meeting.overlap, _places(meeting, options)
    yield min(places[0] - low, high - places[-1]) - half, meeting.a, "at the edges, beside", LEAST_WOOD
