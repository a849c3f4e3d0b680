"""What the maker owns and can hold to: read from a shop file, or the default small shop."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, TypeAlias

from ..sentences import Sentence
from ..trade.figures import sourced

CutterShape: TypeAlias = Literal["straight", "dovetail", "round nose", "V"]

# Where the values that a shop file need not say come from; papers show them as assumed.
PRACTICE: Mapping[str, Sentence] = MappingProxyType(
    {
        "trim": sourced("common practice", "10 mm an end, to cut off with the joint"),
        "trim_edge": sourced("common practice", "1 to 2 mm an edge"),
        "seconds_a_crossing": sourced("common practice", "20 to 40 s, one person"),
        "seconds_to_spread": sourced("from memory", "a brush along 300 mm of a joint, one side of it"),
        "seconds_a_clamp": sourced("from memory", "15 to 30 s, its cauls to hand and its jaws set in the dry run"),
    }
)

# Where the tools come from that are assumed of each sort that a shop file names none of.
COMMON: Mapping[str, str] = MappingProxyType(
    {
        "routers": "common practice: a plunge router, base 150 across, 12 from base to collet",
        "cutters": "from memory: straight ones, 3 to 16 wide; two thirds of a shank in the collet: common practice",
        "saws": "from memory: 65 deep, tilts to 45 degrees; kerf 1.6 to 2.2",
        "drills": "common practice: 30 of a bit in the chuck and clear of the mouth",
        "bits": "from memory: all whole sizes to 60, to a length of 600",
        "groovers": "a maker's data sheet: cutter 100 across, kerf 4.0; plunge 20 from memory",
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Router:
    """One router.

    Attributes:
        offsets: from either of two opposite edges of its base to the nearer side of a groove cut along it, as a test
            cut shows: half the base only where that is centred.
        nose: from the base to the collet at full plunge.
        reach: the farthest that any cutter may stand out below the base, by its plunge; None where only the cutter
            decides.
        collets: shanks that it takes; any where none is said.
    """

    name: str
    offsets: tuple[float, float] = (65.0, 65.0)
    nose: float = 12.0
    reach: float | None = None
    collets: tuple[float, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutter:
    """One router cutter.

    Attributes:
        diameter: as measured in a test cut; a sharpened cutter is smaller than its name. Of a dovetail cutter at its
            widest.
        length: of its cutting edge; a dovetail cutter's height. None where it is not said.
        shank: its diameter; None where it is not said: it is then taken not to go down behind the edge.
        overall: its whole length, which says how far it can stand out.
        stick_out: how far it stands out below the base at the most, where that was measured.
        slope: of a dovetail cutter's flanks, off its axis; None where it is not said: nothing is then cut with it.
        bearing: diameter of its bearing; None for none.
    """

    name: str
    diameter: float
    length: float | None = None
    shape: CutterShape = "straight"
    shank: float | None = None
    overall: float | None = None
    stick_out: float | None = None
    slope: float | None = None
    bearing: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Saw:
    """One saw.

    Attributes:
        kerf: as measured.
        depth: how deep it cuts, along its blade.
        tilt: how far its blade or sole tilts, in degrees.
        drift: sideways after 100 of a trial cut, to the right above 0; `lean` of the under face against the upper.
        leaves: what a rough cut leaves on a wall at least, for the cut that follows.
    """

    name: str
    kerf: float = 2.0
    depth: float = 65.0
    tilt: float = 45.0
    drift: float = 0.0
    lean: float = 0.0
    leaves: float = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Groover:
    """One groover: a circular cutter that is plunged from a fence.

    Attributes:
        diameter, kerf: of the cutter.
        plunge: as deep as it goes, less the plate between its fence and the wood.
    """

    name: str
    diameter: float = 100.0
    kerf: float = 4.0
    plunge: float = 20.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """One drill.

    Attributes:
        chuck: what of a bit is in the chuck and clear of the mouth.
        axis: how high its axis stands over the bench as it lies on its side; None where that is not said.
    """

    name: str
    chuck: float = 30.0
    axis: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Bit:
    """One wood bit, plain or for counterbores: its diameter, and its whole length with any extension on it."""

    name: str
    diameter: float
    length: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Driver:
    """One driver bit: its whole length, with any extension on it.

    `head` is how high the head of an angle driver stands over the bit's end; None of a bit that a drill takes.
    """

    name: str
    length: float
    head: float | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """One shop.

    Attributes:
        name: as it stands on papers.
        trim: left at each end of a blank, to be cut off with the joint.
        trim_edge: left at each edge of what is ordered, to be ripped off before marking out; what is bought sawn has
            what is planed off it instead.
        spare_boards: ordered of each timber over what the piece needs, of its longest blank.
        seconds_a_crossing, seconds_to_spread, seconds_a_clamp: pace at glue-up: one joint brought home, one side of a
            joint up to 300 long spread, one clamp set.
        paper: largest sheet the shop prints, "A4", "A3" or "Letter".
        routers, cutters, saws, groovers, drills, bits: in the order of the file; of a sort that it names none
            of, what a small shop commonly has is assumed (`tools`).
        drivers: none where the file names none: each is then to be bought.
        assumed: what the shop file left to common practice, by name in `PRACTICE`.
        file: the shop file as given, "" for the default shop.
    """

    name: str = "default shop"
    trim: float = 10.0
    trim_edge: float = 2.0
    spare_boards: int = 0
    seconds_a_crossing: float = 30.0
    seconds_to_spread: float = 10.0
    seconds_a_clamp: float = 20.0
    paper: str = "A4"
    routers: tuple[Router, ...] = ()
    cutters: tuple[Cutter, ...] = ()
    saws: tuple[Saw, ...] = ()
    groovers: tuple[Groover, ...] = ()
    drills: tuple[Drill, ...] = ()
    bits: tuple[Bit, ...] = ()
    drivers: tuple[Driver, ...] = ()
    assumed: tuple[str, ...] = tuple(PRACTICE)
    file: str = ""
