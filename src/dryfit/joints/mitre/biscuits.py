"""Biscuits across: in slots of a biscuit jointer square to either mitre face, set towards the inside of the mitre.

A biscuit is an oval of pressed beech, 4 thick: #0 is 15 wide, #10 19, #20 23; a cutter of 100 goes 8.0, 10.0 and 12.3
deep for them, so that its slot is 54.3, 60 and 65.7 long at the mouth (2 sqrt(p (100 - p))). Where the thinner board is
19 a #10 is taken, over it a #20, and the next smaller one where less than 4 of wood would stay outside the slot. Sizes
as makers' sheets print them; the choice and the 4 are common practice. Lengths in mm.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from ...findings import Finding, declare
from ...geometry.frames import Frame, cosine, length
from ...geometry.shapes import OVER, Prism
from ...job.options import filled, given
from ...piece.corner import Corner
from ...piece.facts import CutForm, Opens
from ...piece.holes import SPACING
from ...piece.kinds import asked
from ...piece.model import Board, Cut, Figures, Joint, Meeting, Side, Ware
from ...piece.operations import Dial, Operation, Way, WorkSort
from ...piece.sums import Sum, Word
from ...places import Cure
from ...sentences import Angle, Count, Fineness, Length, Name, Several, Words, say
from ...shop.tools import Ability, Need, Process
from ..common import too_little
from .options import MitreOptions
from .strengthening import Strengthening, beside, middle, pairs

BISCUIT_WALL = declare(
    "biscuit-near-outside",
    "A biscuit's slot leaves too little wood to the outside of its corner.",
    uncured="a smaller biscuit, or a thicker board, is a choice of the shop",
)

CUTTER, KERF = 100.0, 4.0  # of a biscuit jointer (makers' sheets: 3.96 to 4.06)
LEAST_OUTSIDE = 4.0  # wood outside a slot (common practice)
BETWEEN = 6.0  # wood between two slots, and twice that from the last one to the edge (ours)


@dataclass(frozen=True, slots=True)
class BiscuitSize:
    """One biscuit: as it is called, what it measures, and how deep its slot goes into either board."""

    name: str
    long: float
    wide: float
    plunge: float
    least: float  # thickness of the board from which on it is taken

    @property
    def mouth(self) -> float:
        """Of its slot, in the mitre face."""
        return 2 * math.sqrt(self.plunge * (CUTTER - self.plunge))


SIZES = (
    BiscuitSize("#20", 56.0, 23.0, 12.3, 19.5),
    BiscuitSize("#10", 53.0, 19.0, 10.0, 16.0),
    BiscuitSize("#0", 47.0, 15.0, 8.0, 0.0),
)


class Biscuits(Strengthening):
    """Along the mitre's normal, in a slot of either board."""

    word = "biscuits"
    pins = True
    note = "Glue goes into the slots. The biscuits go in along the mitre's normal: a frame is closed as two halves."

    def no_room(self, meeting: Meeting, options: MitreOptions) -> Words:
        """Why not, where there is less depth than they take."""
        size, (low, high) = _size(meeting, options), meeting.overlap
        count = _count(meeting, options)
        if (high - low) / count >= size.mouth + BETWEEN:
            return ""
        found = Count(count, "slot"), Length(size.mouth), Length(high - low, Fineness.WHOLE)
        return say("{} of {} for biscuits have no room in {} of depth", *found)

    def worked(self, meeting: Meeting, options: MitreOptions) -> MitreOptions:
        """Which, and how many."""
        return filled(options, biscuit=_size(meeting, options).name, biscuits=_count(meeting, options))

    def goes_in(self, meeting: Meeting, options: MitreOptions) -> float:
        """Half of one stands in either board."""
        return _size(meeting, options).wide / 2

    def cuts(self, meeting: Meeting, options: MitreOptions) -> list[Cut]:
        """Their slots in both boards."""
        return [_slots(meeting, side, other, options) for side, other in pairs(meeting)]

    def mouths_mm2(self, joint: Joint[MitreOptions]) -> float:
        """The slots' mouths."""
        size = _size(joint.meeting, joint.options)
        return _count(joint.meeting, joint.options) * size.mouth * KERF

    def hardware(self, joint: Joint[MitreOptions]) -> tuple[Ware, ...]:
        """The biscuits."""
        size = _size(joint.meeting, joint.options)
        sizes = (Length(mm, Fineness.WHOLE) for mm in (size.long, size.wide, KERF))
        says = say("{}, {} x {} x {}", size.name, *sizes)
        return (Ware(what="biscuit", says=says, count=_count(joint.meeting, joint.options), in_mm=True),)

    def findings(self, meeting: Meeting, options: MitreOptions) -> tuple[Finding, ...]:
        """Wood outside a slot."""
        size = _size(meeting, options)
        left, remedy = _outside(meeting, size), "use a smaller biscuit, or a tongue"
        return too_little(
            BISCUIT_WALL,
            meeting,
            (left, LEAST_OUTSIDE),
            "outside the biscuits",
            remedy,
            lambda: _smaller(meeting, size),
        )

    def operations(
        self, joint: Joint[MitreOptions], cuts: Sequence[Cut], boards: Mapping[str, Board], after: tuple[str, ...]
    ) -> tuple[Operation, ...]:
        """Cut with a biscuit jointer against the sawn mitre."""
        return tuple(_work(cut, boards[cut.body], after) for cut in cuts)


def _size(meeting: Meeting, options: MitreOptions) -> BiscuitSize:
    """As asked, else the largest for the thinner board that leaves 4 of wood outside its slot; else the smallest."""
    if options.biscuit:
        return next(size for size in SIZES if size.name == options.biscuit)
    thin = min(side.thickness for side, _ in pairs(meeting))
    return next((one for one in SIZES if thin >= one.least and _outside(meeting, one) >= LEAST_OUTSIDE), SIZES[-1])


def _outside(meeting: Meeting, size: BiscuitSize) -> float:
    return min(beside(Corner.of(*pair), KERF / 2, size.plunge) for pair in pairs(meeting))


def _smaller(meeting: Meeting, size: BiscuitSize) -> tuple[Cure, ...]:
    """The largest of the smaller ones that leaves enough, where one does."""
    smaller = (one for one in SIZES if one.plunge < size.plunge and _outside(meeting, one) >= LEAST_OUTSIDE)
    return tuple(asked(say("use a {}", one.name), "biscuit", one.name) for one in smaller)[:1]


def _count(meeting: Meeting, options: MitreOptions) -> int:
    """As asked, else one in 100, two at least where there is depth for two."""
    if given(options, "biscuits") and options.biscuits:
        return options.biscuits
    low, high = meeting.overlap
    most = math.floor((high - low) / (_size(meeting, options).mouth + BETWEEN))
    return max(1, min(max(2, round((high - low) / SPACING)), most))


def _slots(meeting: Meeting, side: Side, other: Side, options: MitreOptions) -> Cut:
    size, corner = _size(meeting, options), Corner.of(side, other)
    (nx, ny), (x, y) = corner.outward, corner.at(middle(corner))
    across = (cosine(-ny), cosine(nx), 0.0)  # along the mitre: the third way, after into the board and out of the wall
    radius = CUTTER / 2
    rise = radius - size.plunge - OVER
    half, turn = math.sqrt(radius**2 - rise**2), 2 * math.acos(rise / radius)
    outline = ((-OVER, length(-half), math.tan(turn / 4)), (-OVER, length(half), 0.0))
    shapes = tuple(
        Prism(
            outline=outline,
            low=-KERF / 2,
            high=KERF / 2,
            frame=Frame(
                (length(x), length(y), length(z - side.back)),
                (cosine(-nx), cosine(-ny), 0.0),
                (0.0, 0.0, 1.0),
                (across[0] + 0.0, across[1] + 0.0, 0.0),
            ),
        )
        for z in _places(meeting, options)
    )
    says = say("biscuit slots in {} to {}", Name(side.body), Name(other.body))
    return Cut(
        key=str(says),
        says=says,
        body=side.body,
        form=CutForm.BISCUIT,
        word="biscuit slots",
        noun="slot",
        takes="biscuits",
        joint=meeting.key,
        shapes=shapes,
        figures=Figures(
            width=Sum.alone(KERF, Word.BISCUIT),
            on_face=length(size.mouth),
            depth=Sum.alone(size.plunge),
            opens=Opens.END,
            between_faces=round(corner.phi, 9),
            note=say("for {}, square to the mitre face", size.name),
        ),
        size_is="FIT TO",
    )


def _places(meeting: Meeting, options: MitreOptions) -> tuple[float, ...]:
    low, high = meeting.overlap
    step = (high - low) / _count(meeting, options)
    return tuple(low + (number + 0.5) * step for number in range(_count(meeting, options)))


def _work(cut: Cut, board: Board, after: tuple[str, ...]) -> Operation:
    prisms = [shape for shape in cut.shapes if isinstance(shape, Prism)]
    middles = sorted(board.depth - prism.frame.origin[2] for prism in prisms)
    deep = cut.figures.deep or 0.0
    way = Way(
        process=Process.GROOVER,
        makes=cut.word,
        says="biscuit jointer, its fence on the mitre face",
        needs=(
            Need(ability=Ability.CUTTER, least=CUTTER, most=CUTTER),
            Need(ability=Ability.KERF, least=KERF, most=KERF),
            Need(ability=Ability.DEPTH, least=deep),
        ),
        sets=(
            (Dial.WIDTH, Length(KERF, Fineness.WIDTH)),
            (Dial.CORNER, Angle(cut.figures.between_faces)),
            (Dial.DEPTH, Length(deep)),
            (Dial.PLACE, say("at {}", Several(tuple(map(Length, middles)), ", "))),
        ),
    )
    return Operation(key=cut.key, work=WorkSort.CORNER, cuts=(cut.key,), ways=(way,), after=after)
