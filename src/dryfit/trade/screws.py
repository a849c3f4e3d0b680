"""Screws as they are sold, and the tools for them: holes, heads and washers, lengths, plug cutters, bits.

"wood 5x120" goes into timber or a plug, "M6x80" into an anchor. A countersunk screw is as long as it is over all,
any other as it is under its head: "wood 5x120" is countersunk, "wood 5x120, pan head" and "M6x80" (cap head) are not,
"M6x80, countersunk" is.
"""

import re
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import Literal

from . import figures
from .figures import Figure

FIGURES = "screws_figures.csv"
PLUG_CUTTERS = (8.0, 10.0, 12.0, 15.0, 16.0, 20.0, 25.4)  # metric as sold, from memory; 25.4 in articles on cutters
INCH_CUTTERS = (6.35, 9.5, 12.7, 15.9, 19.0)  # as sold (articles on plug cutters)
LONG_BITS = (*(float(size) for size in range(6, 17)), 18.0, 20.0, 22.0, 24.0, 26.0, 28.0, 30.0, 32.0)  # from memory
LONG_BIT_LENGTHS = (200.0, 300.0, 400.0, 460.0, 600.0)  # of augers and long brad points, as sold (common practice)
DRIVER_BITS = (25.0, 50.0, 75.0, 100.0, 150.0, 200.0, 300.0)  # long, as sold (common practice)
CHUCK = 30.0  # of a bit in the chuck and clear of the mouth (common practice)
ENGAGEMENT = 6.0  # times the diameter, of thread in the wood that holds (EN 1995-1-1, 8.7.2)
LENGTHS = {
    "wood": (
        30.0, 35.0, 40.0, 45.0, 50.0, 60.0, 70.0, 80.0, 90.0, 100.0, 120.0, 140.0, 160.0, 180.0, 200.0, 220.0, 240.0,
        260.0, 280.0, 300.0,
    ),
    "machine": (
        20.0, 25.0, 30.0, 35.0, 40.0, 45.0, 50.0, 55.0, 60.0, 65.0, 70.0, 80.0, 90.0, 100.0, 110.0, 120.0, 130.0,
        140.0, 150.0, 160.0, 180.0, 200.0,
    ),
}  # fmt: skip  # as sold: those of wood screws from memory, those of machine screws as in ISO 888, from memory

_SOLD = re.compile(
    r"(?P<kind>M|wood\s+)(?P<diameter>\d+(?:\.\d+)?)\s*x\s*(?P<length>\d+(?:\.\d+)?)"
    r"(?:\s*,?\s*(?P<head>cap|countersunk|pan)(?:\s+head)?)?",
    re.IGNORECASE,
)
_USUAL = {"wood": "countersunk", "machine": "cap"}  # heads: the only other of each is below
_OTHER = {"wood": "pan", "machine": "countersunk"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Screw:
    """One screw as sold.

    Attributes:
        kind: "wood" has a thread for timber, "machine" one for an anchor.
        diameter: of the thread, outside.
        length: as sold: under the head, but over all where that is countersunk.
        other_head: whether the head is the less usual one: a wood screw's a pan head, a machine screw's countersunk.
    """

    kind: Literal["wood", "machine"]
    diameter: float
    length: float
    other_head: bool = False

    @property
    def id(self) -> str:
        """As in the data files."""
        return f"{'wood_' if self.kind == 'wood' else 'm'}{self.diameter:g}"

    @property
    def countersunk(self) -> bool:
        """Whether the head's height is part of the length."""
        return (self.kind == "wood") is not self.other_head

    @property
    def size(self) -> str:
        """Diameter, length, and the head where it must be said."""
        thread = "M" if self.kind == "machine" else ""
        words = f", {self.head}" if self.other_head or thread else ""
        return f"{thread}{self.diameter:g} x {self.length:g}{words}"

    @property
    def head(self) -> str:
        """What its head is called."""
        head = (_OTHER if self.other_head else _USUAL)[self.kind]
        return head if head == "countersunk" else f"{head} head"

    @property
    def name(self) -> str:
        """As it is asked for in a shop."""
        return f"{self.kind} screw {self.size}"

    @property
    def asked(self) -> str:
        """As a job file asks for it."""
        kind = "wood " if self.kind == "wood" else "M"
        head = f", {_OTHER[self.kind]}{' head' if self.kind == 'wood' else ''}" if self.other_head else ""
        return f"{kind}{self.diameter:g}x{self.length:g}{head}"

    @property
    def head_height(self) -> float:
        """Of the head; the diameter where nothing is known."""
        known = figure(self, "head_height")
        return known.value if known else self.diameter

    @property
    def under_head(self) -> float:
        """What of its length is under the head: all but a countersunk head."""
        return self.length - (self.head_height if self.countersunk else 0.0)

    def at_least(self, length: float) -> "Screw | None":
        """The next that is sold, no shorter; None where none is."""
        sold = next((one for one in LENGTHS[self.kind] if one >= length - 1e-9), None)
        return None if sold is None else replace(self, length=sold)


@lru_cache(maxsize=256)
def read_screw(text: str) -> Screw | None:
    """Read "wood 5x120", "wood 5x120, pan head", "M6x80" or "M6x80, countersunk"; None if it is none of these."""
    sold = _SOLD.fullmatch(text.strip())
    if sold is None:
        return None
    kind: Literal["wood", "machine"] = "machine" if sold["kind"] in "Mm" else "wood"
    head = (sold["head"] or _USUAL[kind]).lower()
    if head not in (_USUAL[kind], _OTHER[kind]):
        return None
    size = {"diameter": float(sold["diameter"]), "length": float(sold["length"])}
    return Screw(kind=kind, other_head=head == _OTHER[kind], **size)


def figure(screw: Screw, name: str) -> Figure | None:
    """A figure of a screw of this diameter, or None if it is not known.

    Known are "hole_fine", "hole_medium", "hole_coarse", "head", "head_height", "washer" (its outside diameter) and
    "washer_thick", of wood screws "pilot" too.
    """
    if screw.kind == "machine" and screw.countersunk and name in ("head", "head_height"):
        name = f"countersunk_{name}"
    return figures.figure(FIGURES, screw.id, name)


def next_of(sizes: tuple[float, ...], least: float) -> float | None:
    """The smallest of what is sold that is no less; None where nothing is."""
    return next((size for size in sizes if size >= least - 1e-9), None)


def sizes(kind: str) -> tuple[str, ...]:
    """The diameters of which something is known, as they are asked for: "wood 5", "M6"."""
    start, asked = ("wood_", "wood ") if kind == "wood" else ("m", "M")
    found = (row["id"] for row in figures.rows("screws.csv") if row["id"].startswith(start))
    return tuple(asked + one.removeprefix(start) for one in found)
