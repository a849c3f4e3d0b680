"""Screws as they are sold: holes, heads and washers; "wood 5x120" goes into timber, "M6x80" into an anchor."""

import re
from dataclasses import dataclass
from functools import lru_cache
from typing import Literal

from . import figures
from .figures import Figure

FIGURES = "screws_figures.csv"
PLUG_CUTTERS = (8.0, 10.0, 12.0, 15.0, 16.0)  # as sold; from memory
ENGAGEMENT = 6.0  # times the diameter, of thread in solid wood (a trade text on screws in wood)

_SOLD = re.compile(r"(?P<kind>M|wood\s+)(?P<diameter>\d+(?:\.\d+)?)\s*x\s*(?P<length>\d+(?:\.\d+)?)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Screw:
    """One screw as sold.

    Attributes:
        kind: "wood" has a thread for timber, "machine" one for an anchor.
        diameter: of the thread, outside.
        length: as sold: under a cap head, over all with a countersunk one.
    """

    kind: Literal["wood", "machine"]
    diameter: float
    length: float

    @property
    def id(self) -> str:
        """As in the data files."""
        return f"{'wood_' if self.kind == 'wood' else 'm'}{self.diameter:g}"

    @property
    def name(self) -> str:
        """As it is asked for in a shop."""
        if self.kind == "wood":
            return f"wood screw {self.diameter:g} x {self.length:g}"
        return f"machine screw M{self.diameter:g} x {self.length:g}, cap head"


@lru_cache(maxsize=256)
def read_screw(text: str) -> Screw | None:
    """Read "wood 5x120" or "M6x80"; None if it is neither."""
    sold = _SOLD.fullmatch(text.strip())
    if sold is None:
        return None
    kind: Literal["wood", "machine"] = "machine" if sold["kind"] in "Mm" else "wood"
    return Screw(kind=kind, diameter=float(sold["diameter"]), length=float(sold["length"]))


def figure(screw: Screw, name: str) -> Figure | None:
    """A figure of a screw of this diameter, or None if it is not known.

    Known are "hole_fine", "hole_medium", "hole_coarse", "head", "head_height", "washer" (its outside diameter) and
    "washer_thick", of wood screws "pilot" too.
    """
    return figures.figure(FIGURES, screw.id, name)


def sizes(kind: str) -> tuple[str, ...]:
    """The diameters of which something is known, as they are asked for: "wood 5", "M6"."""
    start, asked = ("wood_", "wood ") if kind == "wood" else ("m", "M")
    found = (row["id"] for row in figures.rows("screws.csv") if row["id"].startswith(start))
    return tuple(asked + one.removeprefix(start) for one in found)
