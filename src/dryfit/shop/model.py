"""What the maker owns and can hold to: read from a shop file, or the default small shop."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Literal, TypeAlias

CutterShape: TypeAlias = Literal["straight", "dovetail", "round nose", "V"]

# Where the values that a shop file need not say come from; papers show them as assumed.
PRACTICE: Mapping[str, str] = MappingProxyType(
    {
        "trim": "common practice: 10 mm an end, to cut off with the joint",
        "seconds_a_crossing": "common practice: 20 to 40 s, one person",
    }
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Cutter:
    """One router cutter.

    Attributes:
        diameter: as measured in a test cut; a sharpened cutter is smaller than its name.
        length: of its cutting edge, the deepest slot it can cut; None where it is not said.
    """

    name: str
    diameter: float
    length: float | None = None
    shape: CutterShape = "straight"


@dataclass(frozen=True, slots=True, kw_only=True)
class Shop:
    """One shop.

    Attributes:
        name: as it stands on papers.
        trim: left at each end of a blank, to be cut off with the joint.
        seconds_a_crossing: pace at glue-up.
        paper: largest sheet the shop prints, "A4" or "A3".
        cutters: in the order of the file.
        assumed: what the shop file left to common practice, by name in `PRACTICE`.
        file: the shop file as given, "" for the default shop.
    """

    name: str = "default shop"
    trim: float = 10.0
    seconds_a_crossing: float = 30.0
    paper: str = "A4"
    cutters: tuple[Cutter, ...] = ()
    assumed: tuple[str, ...] = tuple(PRACTICE)
    file: str = ""
