"""What may hold a mitre besides its glue: each way is one file of this room, and says the same things of itself.

A way is chosen by the option `strengthen`; "none" is the plain mitre, which this class is. What stands in both ends
before they close (a tongue, dowels, biscuits) lies along the mitre's normal, so the boards part that way only; what
goes in afterwards (keys, screws) holds no board back.
"""

import math
from collections.abc import Mapping, Sequence
from typing import ClassVar

from ...findings import Finding
from ...geometry.frames import Vec2
from ...geometry.shapes import OVER
from ...piece.corner import Corner
from ...piece.model import Board, Cut, Gap, Joint, Mating, Meeting, Side, Ware
from ...piece.operations import Operation
from ...sentences import Words
from .options import MitreOptions

LONG = math.sqrt(2)  # what is cut back square to a mitre of 45 shows so much less square to a face


class Strengthening:
    """A plain mitre: nothing but glue.

    Attributes:
        word: what the joint's title has behind "with"; `mark` which glyph is its own.
        pins: whether it keeps the two boards from slipping along the mitre before the glue has set.
        holds: whether it holds them fast, glue or none.
        note: what must not be forgotten.
    """

    word: ClassVar[Words] = ""
    mark: ClassVar[str] = ""
    pins: ClassVar[bool] = False
    holds: ClassVar[bool] = False
    note: ClassVar[Words] = "Size the end grain with thin glue first, then glue."

    def no_room(self, meeting: Meeting, options: MitreOptions) -> Words:
        """Why it cannot be had; "" where it can."""
        return ""

    def worked(self, meeting: Meeting, options: MitreOptions) -> MitreOptions:
        """The options with what is left out as it is taken here."""
        return options

    def goes_in(self, meeting: Meeting, options: MitreOptions) -> float:
        """How far the boards must part along the mitre's normal to be free of it; 0 where it goes in afterwards."""
        return 0.0

    def cuts(self, meeting: Meeting, options: MitreOptions) -> list[Cut]:
        """What is taken from both boards for it."""
        return []

    def gaps(self, meeting: Meeting, options: MitreOptions) -> list[Gap]:
        """Gaps between it and what it lies in."""
        return []

    def matings(self, meeting: Meeting, options: MitreOptions) -> tuple[Mating, ...]:
        """Walls in which it slides."""
        return ()

    def mouths_mm2(self, joint: Joint[MitreOptions]) -> float:
        """What it takes of a mitre face, where there is no glue area then."""
        return 0.0

    def hardware(self, joint: Joint[MitreOptions]) -> tuple[Ware, ...]:
        """What is bought or made for it."""
        return ()

    def findings(self, meeting: Meeting, options: MitreOptions) -> tuple[Finding, ...]:
        """What is too little about it."""
        return ()

    def operations(
        self, joint: Joint[MitreOptions], cuts: Sequence[Cut], boards: Mapping[str, Board], after: tuple[str, ...]
    ) -> tuple[Operation, ...]:
        """The work on its cuts, once the ends are sawn (`after`)."""
        return ()


def pairs(meeting: Meeting) -> tuple[tuple[Side, Side], tuple[Side, Side]]:
    """Each side with the other."""
    return (meeting.a, meeting.b), (meeting.b, meeting.a)


def middle(corner: Corner) -> Vec2:
    """A third of the mitre from the inside arris: there is most wood behind it (common practice)."""
    return (corner.inner[0] / 3, corner.inner[1] / 3)


def outline(corner: Corner, half: float, deep: float) -> tuple[Vec2, Vec2, Vec2, Vec2]:
    """What is let in square to the mitre there: two corners before the mitre, then the two at its bottom.

    From the corner's middle, in the board's own plane; `half` to either side, `deep` from the mitre.
    """
    nx, ny = corner.outward
    mx, my = middle(corner)

    def at(across: float, along: float) -> Vec2:
        return (mx - ny * across - nx * along, my + nx * across - ny * along)

    return at(-half, -OVER), at(half, -OVER), at(half, deep), at(-half, deep)


def beside(corner: Corner, half: float, deep: float) -> float:
    """Wood from the bottom of that, square to the nearer face of its board."""
    *_, one, other = outline(corner, half, deep)
    return corner.side.thickness / 2 - max(abs(one[1]), abs(other[1]))
