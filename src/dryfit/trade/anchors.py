"""What takes a screw where a wall has no timber for it: the generic types, and what one anchor is described by.

"nylon plug 10x50" and "hollow-wall anchor" are read as a type and a size; the figures are those of its kind of
product. An anchor that its maker's sheet describes, as a table of the job, goes before all of them.
"""

import re
from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal, TypeAlias

from . import figures
from .figures import Figure
from .names import also
from .screws import Screw

FIGURES = "anchors_figures.csv"
PAST_PLUG = 10.0  # a plug's hole is deeper than the plug, where no table says more (trade texts on plugs)

HoldsIn: TypeAlias = Literal["lining", "masonry", "timber", ""]
Strength: TypeAlias = Literal["working", "characteristic", "ultimate"]

_SIZE = re.compile(r"(?P<diameter>\d+(?:\.\d+)?)\s*x\s*(?P<length>\d+(?:\.\d+)?)")
_SCREW = re.compile(
    r"(?P<kind>M|wood\s+)(?P<low>\d+(?:\.\d+)?)(?:\s*(?:to|-)\s*(?P<high>\d+(?:\.\d+)?))?", re.IGNORECASE
)


@dataclass(frozen=True, slots=True, kw_only=True)
class AnchorType:
    """A generic type.

    Attributes:
        id: as in the data files; "" for one that is none of these.
        screw: the kind of screw it takes; "" where only its maker says.
        holds_in: what it stands in or clamps.
    """

    id: str
    name: str
    also: tuple[str, ...] = ()
    screw: Literal["wood", "machine", ""] = ""
    holds_in: HoldsIn = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Anchor:
    """One anchor; None where nothing is known, which is then its maker's to say. Lengths in mm.

    Attributes:
        name: of its table in the job; "" for a generic one.
        described: whether the job has a table of it.
        drill, deep: diameter and depth of its hole in the wall.
        clamps: from and to, of the lining that it clamps.
        void: free behind the lining.
        length: of a plug or sleeve in the structure, of a hollow-wall anchor under its flange.
        takes: thinnest and thickest screw.
        screw: the kind of screw; "" where nothing says.
        apart: least distance from one to the next.
        pull_n, shear_n: capacities as its maker gives them; `strength` says which kind of figure, `source` whose.
    """

    type: AnchorType
    name: str = ""
    described: bool = False
    drill: float | None = None
    deep: float | None = None
    clamps: tuple[float, float] | None = None
    void: float | None = None
    length: float | None = None
    takes: tuple[float, float] | None = None
    screw: Literal["wood", "machine", ""] = ""
    apart: float | None = None
    pull_n: float | None = None
    shear_n: float | None = None
    strength: Strength = "working"
    source: str = ""

    @property
    def called(self) -> str:
        """Its name where it has one, else its type."""
        return self.name or self.type.name

    def hold(self, screw: Screw, lining: float) -> float | None:
        """How far the screw must go beyond the lining; None where only its maker says.

        A plug wants the screw to pass its end by one diameter; so does the far end of what clamps a lining. A sleeve,
        rod or insert wants its own length.
        """
        if self.length is None:
            return None
        if self.type.holds_in == "lining":
            return max(self.length - lining, 0.0) + screw.diameter
        return self.length + (screw.diameter if self.type.screw == "wood" else 0.0)


OTHER = AnchorType(id="other", name="anchor")


@cache
def anchor_types() -> tuple[AnchorType, ...]:
    """Every generic type."""
    return tuple(
        AnchorType(
            id=row["id"],
            name=row["name"],
            also=also(row["also"]),
            screw=row["screw"],  # type: ignore[arg-type]
            holds_in=row["holds_in"],  # type: ignore[arg-type]
        )
        for row in figures.rows("anchors.csv")
    )


def type_called(words: str) -> AnchorType | None:
    """The type of that name or other name, or None."""
    asked = " ".join(words.casefold().split())
    if asked == OTHER.id:
        return OTHER
    return next((one for one in anchor_types() if asked in (n.casefold() for n in (one.name, *one.also))), None)


@lru_cache(maxsize=256)
def generic(text: str, screw: Screw, lining: float | None) -> Anchor | None:
    """Read "nylon plug 8x40", "hollow-wall anchor"; None if it is no generic type.

    What is not said is taken as such products are sold: the plug for that screw, the length whose range has the lining.
    """
    size = _SIZE.search(text)
    words = text if size is None else text[: size.start()] + text[size.end() :]
    kind = type_called(re.sub(r"\bM\d+\b", "", words))
    if kind is None or kind is OTHER:
        return None
    sold = None if size is None else (float(size["diameter"]), float(size["length"]))
    if kind.id == "nylon_plug":
        sold = sold or _plug_for(screw)
    thing = kind.id if sold is None else f"{kind.id}_{sold[0]:g}x{sold[1]:g}"
    if kind.id == "hollow_wall":
        thing = f"hollow_wall_m{screw.diameter:g}"
    takes = figures.figure(FIGURES, thing, "screw")
    return Anchor(
        type=kind,
        drill=_value(thing, kind.id, "drill") or (sold[0] if sold else None),
        deep=_value(thing, kind.id, "deep") or (sold[1] + PAST_PLUG if sold and kind.screw == "wood" else None),
        clamps=_range_of(kind.id, lining),
        void=_value(thing, kind.id, "void"),
        length=sold[1] if sold else None,
        takes=None if takes is None else (takes.low or takes.value, takes.high or takes.value),
        screw=kind.screw,
        apart=_value(thing, kind.id, "apart"),
    )


def _plug_for(screw: Screw) -> tuple[float, float] | None:
    """The plug that is made for such a screw, diameter and length."""
    for row in figures.rows(FIGURES):
        size = _SIZE.search(row["id"])
        if size and row["property"] == "screw" and float(row["value"]) == screw.diameter:
            return float(size["diameter"]), float(size["length"])
    return None


def _range_of(kind: str, lining: float | None) -> tuple[float, float] | None:
    """What the length to buy clamps, for this lining; the nearest range where none has it."""
    ranges = [(one.low or 0.0, one.high or one.value) for one in figures.figures(FIGURES, kind, "clamps")]
    if not ranges or lining is None:
        return None
    return min(ranges, key=lambda one: max(one[0] - lining, lining - one[1], 0.0))


def _value(thing: str, kind: str, name: str) -> float | None:
    known = figures.figure(FIGURES, thing, name) or figures.figure(FIGURES, kind, name)
    return known.value if known else None


def figure(thing: str, name: str) -> Figure | None:
    """A figure of a type or of one size of it ("nylon_plug_8x40"), with its source."""
    return figures.figure(FIGURES, thing, name)


def read_takes(text: str) -> tuple[Literal["wood", "machine"], tuple[float, float]] | None:
    """Which screws an anchor takes: "M6", "wood 5", "wood 4.5 to 6"; None if it is none of these."""
    read = _SCREW.fullmatch(text.strip())
    if read is None:
        return None
    low = float(read["low"])
    high = float(read["high"] or low)
    return ("machine" if read["kind"] in "Mm" else "wood"), (min(low, high), max(low, high))
