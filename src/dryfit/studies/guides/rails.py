"""Two rails on a board, or on a bed that is tilted over it, between which a router cuts a slot of one width.

Each wall is cut by the pass on its own rail. So neither the cutter's width nor where it stands in the base is asked
for: only how far the groove lies from either edge of the base, as one test cut with each edge shows.

Straight, seen along the cut. Datum rail to datum wall: the offset of the edge that runs on it. Between the rails:
width + both offsets. Example: offsets 66.80 and 68.10, slot 27.15: 162.05 between them.

Tilted by r, on a bed `bed` thick whose thin edge lies on the worked face; along the bed the near wall stands `near`
from that edge. Square to the bed, a point s along it stands s tan r above the face, and the board adds t / cos r:

    stick-out below the base = bed + (near + width) tan r + t / cos r + 1       through, 1 into the backing
    marks on the face        = near / cos r  and  (near + width) / cos r, from the thin edge
    on the under face        = t tan r further away from the thin edge

Example: t 24, width 24.15, 9 degrees, bed 9, near 92: 52.70; marks 93.15 and 117.60; 3.80 further.

Source: plane geometry. What a rail takes of the bed (25) and its width (30) are common practice.
"""

import math
from dataclasses import dataclass

from ...shop.tools import BED, SEAT

RAIL = 30.0  # wide (common practice)
EVEN = 0.01  # mm: a cutter so near to the slot's width cuts it in one pass


@dataclass(frozen=True, slots=True, kw_only=True)
class Base:
    """A router's base with its cutter: from either of two opposite edges to the nearer side of a groove, in mm."""

    offsets: tuple[float, float]
    cutter: float

    @property
    def ahead(self) -> float:
        """From the base's front or back to the cutter, of one that is round or square with its cutter in the middle."""
        return sum(self.offsets) / 2


def opening(base: Base, width: float) -> float:
    """Between two rails for a slot of this width."""
    return width + sum(base.offsets)


def passes(base: Base, width: float) -> int:
    """How often the router runs through: once on each rail, and between for what would be left standing.

    A cutter as wide as the slot runs once; up to twice its width two passes meet; beyond, one more for each width of
    it that is begun.
    """
    if width <= base.cutter + EVEN:
        return 1
    return 2 + math.ceil(max(width - 2 * base.cutter - EVEN, 0.0) / base.cutter)


def runs(base: Base, length: float, open_ends: int) -> float:
    """How long rails must carry the base for a cut so long: past each open edge the cutter comes right out."""
    return length + 2 * base.ahead + open_ends * base.cutter


def packing(read: float, width: float, lean: float = 0.0) -> float:
    """What a test cut asks for at the free rail: above 0 packing inside it, below 0 it goes out by so much.

    Args:
        read: the width found, across the walls; on the face of a slot that leans so many degrees.
        width: that was wanted, across the walls.
        lean: degrees; 0 where it was read across the walls.

    Example: 28.34 on the face at 7.5 degrees for 27.46: 28.34 cos 7.5 - 27.46 = 0.64.
    """
    return read * math.cos(math.radians(lean)) - width


def rest(axis: float, up: float) -> float:
    """Packing under a board, for holes that run `up` over the face it lies on, by a drill lying on its side.

    Args:
        axis: of the drill, over the bench.

    Below 0 it is the drill that is packed. Example: a body 67.5 wide, a board of 27: 33.75 - 13.5 = 20.25.
    """
    return axis - up


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """A tilted bed, in mm and degrees.

    Attributes:
        lean: of the walls; `width` across them.
        near: along the bed, from its thin edge to the near wall.
        thick: of the bed.
        low, high: offsets of the base at the low rail and at the high one.
    """

    lean: float
    width: float
    near: float
    low: float
    high: float
    thick: float = BED

    @classmethod
    def least(cls, base: Base, lean: float, width: float) -> "Bed":
        """The one that takes least of the cutter's reach: the lesser offset low, and 25 of seat for the low rail."""
        low, high = sorted(base.offsets)
        return cls(lean=lean, width=width, near=low + SEAT, low=low, high=high)

    @property
    def _rad(self) -> float:
        return math.radians(self.lean)

    @property
    def marks(self) -> tuple[float, float]:
        """On the face, from the thin edge: the near wall, the far wall."""
        return self.near / math.cos(self._rad), (self.near + self.width) / math.cos(self._rad)

    def stick_out(self, reach: float) -> float:
        """Below the base, where the cutter goes so far below the bed's thin edge: see `shop.tools`."""
        return self.thick + self.near * math.tan(self._rad) + reach

    def under(self, thick: float) -> float:
        """How much further from the thin edge the marks on the other face of a board lie."""
        return thick * math.tan(self._rad)

    @property
    def long(self) -> float:
        """Up the slope, from the thin edge to the far side of the high rail."""
        return self.near + self.width + self.high + RAIL

    @property
    def wedge(self) -> float:
        """How high the bed's under side stands over the face at its far edge."""
        return self.long * math.sin(self._rad)

    @property
    def beyond(self) -> float:
        """How far past the far wall's mark, along the face, wood must lie for the wedge to stand on."""
        return self.long * math.cos(self._rad) - self.marks[1]
