"""What a joint says of its cuts and of its glue, as values: programs compare these, papers put them into words.

What a cut is called (`Cut.word`) is the kind's own business: "slot", "socket", "dowel holes". It is shown and never
compared; whoever must know what it is asks its form.
"""

from collections.abc import Mapping
from dataclasses import dataclass
from enum import StrEnum
from itertools import combinations_with_replacement
from types import MappingProxyType
from typing import TypeAlias

from ..geometry.frames import Vec, Vec2
from ..sentences import Angle, Length, Words
from .sums import Sum


class CutForm(StrEnum):
    """What sort of thing is taken from a board."""

    SLOT = "slot"  # from an edge through the thickness, for a board that crosses
    HOUSING = "housing"  # into a face, for what ends there
    NOTCH = "notch"  # from an edge, over a board that lies flat
    REBATE = "rebate"  # from a face and an edge, or the end, at once
    END = "end"  # it makes the board's end
    GROOVE = "groove"  # for something loose, along what it lies in
    POCKET = "pocket"  # of a circular cutter; a row of them is one cut
    BISCUIT = "biscuit slot"  # of a biscuit jointer; a row of them is one cut
    BORE = "bore"  # round holes; a row of them is one cut

    @property
    def in_rows(self) -> bool:
        """Whether each of its shapes counts as one."""
        return self in (CutForm.POCKET, CutForm.BISCUIT, CutForm.BORE)


class Opens(StrEnum):
    """Where a cut opens to: what its depth is measured from."""

    FRONT = "front edge"
    WALL = "wall edge"
    FACE = "face"  # which, says the cut
    END = "end"

    @property
    def edge(self) -> str:
        """Of an edge, which: "front" or "wall"; else ""."""
        return {Opens.FRONT: "front", Opens.WALL: "wall"}.get(self, "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Stop:
    """Where a cut stops short of an edge.

    Attributes:
        edge: FRONT or WALL.
        size: from that edge to where it stops.
        covered: whether a shoulder of the board that enters covers what is left.
    """

    edge: Opens
    size: Sum
    covered: bool = False


class Between(StrEnum):
    """Between which surfaces of two boards a gap lies, as it is told."""

    WALL = "wall"  # and what slides past it
    SEAT = "seat"  # of two slots that face each other
    BOTTOM = "bottom"  # of what an end goes into, or stands against, and the end
    SHOULDER = "shoulder"  # and the face that it bears on
    MITRE = "mitre"  # of two ends cut to one line
    CHEEK = "cheek"  # of a lap or a scarf, and the other's that it lies on
    FLANK = "flank"  # of a tail, and its socket's, square to them
    END = "end"  # of two boards in line
    STOPPED_END = "stopped end"  # of a slot, and the edge of what enters

    @property
    def bears(self) -> bool:
        """Whether they are pulled together tight, where no gap is meant."""
        return self in (Between.SHOULDER, Between.MITRE, Between.CHEEK)

    @property
    def limits_depth(self) -> bool:
        """Whether it is how deep a cut is that leaves it."""
        return self in (Between.SEAT, Between.BOTTOM)


@dataclass(frozen=True, slots=True, kw_only=True)
class Size:
    """One figure of a joint for its sheet, which the kind tells beside those that every cut gives.

    What is called as one of those (the same `of` and `size`) takes its place; with no value it takes it away.

    Attributes:
        of: what it is measured on ("socket in {}"); `size` which figure of that ("neck"), "" where there is but one.
        what: where or how it is measured; `how` it came about.
    """

    of: Words
    size: str = ""
    what: Words = ""
    how: Sum | Words = ""
    value: Length | Angle | None


@dataclass(frozen=True, slots=True, kw_only=True)
class SectionLength:
    """A length that a section shows, between two points in the world; `side` of the line from start to end: 1 left."""

    start: Vec
    end: Vec
    value: Length
    side: int = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutting:
    """A plane in which a joint is to be seen cut, in the world.

    Attributes:
        title: what is shown ("the tail from the front").
        at: the middle of what is shown.
        right, up: unit vectors, on paper.
        reach: half of what is shown to either side and up and down.
        bodies: the boards, in the order in which they are drawn; left out: both of the joint.
        sizes: lengths that stand in it.
    """

    title: Words
    at: Vec
    right: Vec
    up: Vec
    reach: Vec2
    bodies: tuple[str, ...] = ()
    sizes: tuple[SectionLength, ...] = ()


class Grain(StrEnum):
    """What wood shows at a face."""

    SIDE = "side"
    END = "end"


Grains: TypeAlias = tuple[Grain, Grain]  # of two faces that are glued; side grain first


def paired(grains: Grains) -> str:
    """Two grains as results of studies have them: "side-end"."""
    return "-".join(grains)


_PAIRS = tuple(combinations_with_replacement((Grain.SIDE, Grain.END), 2))
GRAINS_SAID: Mapping[str, str] = MappingProxyType({paired(one): " on ".join(one) for one in _PAIRS})  # "side on end"


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueZone:
    """Faces that are glued together, side grain before end grain.

    Attributes:
        faces: which, in words without a point: "both mitre faces, sized first".
        area_mm2: of one of a pair.
    """

    faces: Words
    grain: Grains
    area_mm2: float


class Pressing(StrEnum):
    """What presses a glued joint."""

    END = "end"  # a bar along the board that ends, home on the other
    CORNER = "corner"  # two ends cut to one line: bars along both, or a band
    IN_LINE = "in line"  # two ends: long clamps, or clamps to blocks
    ACROSS = "across"  # clamps square to broad faces: a lap, a scarf
    FIT = "fit"  # nothing can: its own fit does


@dataclass(frozen=True, slots=True, kw_only=True)
class Press:
    """How a joint is pressed.

    Attributes:
        face_mm2: of the face that is pressed, 0 where the fit does it.
        along: (board, share of pressure x face) for each board along which clamps lie; empty where they lie along none.
        seated: whether its end is let in: clamps only bring it home.
    """

    how: Pressing
    face_mm2: float = 0.0
    along: tuple[tuple[str, float], ...] = ()
    seated: bool = False
