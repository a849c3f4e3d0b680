"""Timber as it is sold: boards, edge-glued panels, sheets; which thickness has a name, and what is lost in cutting up.

What is lost is told as what is added to what is needed: a fifth added is a sixth of what is bought.
"""

from dataclasses import dataclass
from functools import cache
from typing import Literal, TypeAlias

from ..lengths import MM_PER
from . import figures
from .figures import Figure
from .species import find_species

FIGURES = "stock_figures.csv"
SHEETS = (
    "ply",
    "mdf",
    "osb",
    "chip",
    "fibre",
    "particle",
    "blockboard",
    "sheet",
)  # words for what is sold by the sheet
GLUED = ("panel", "glued")
HALVES, PARTS = 2, 32  # nominal sizes are whole or half millimetres, or 32nds of an inch (common practice)
EVEN = 0.01  # mm: of a size that is written in the other unit

StockForm: TypeAlias = Literal["board", "panel", "sheet"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """One sort of timber as it is sold; `waste` is what is added to what is needed, as a share of it."""

    form: StockForm
    name: str
    waste: Figure | None


@cache
def stock_of(form: str, species: str) -> Stock:
    """The sort of stock that a timber is, by the maker's words for its form and its species."""
    found, known = _form(f"{form} {species}"), find_species(species).found
    kind = known.kind if known is not None else ""
    if kind == "panel":
        found = "sheet"
    thing = f"{found}_{'softwood' if kind == 'softwood' else 'hardwood'}" if found == "board" else found
    name = next(row["name"] for row in figures.rows("stock.csv", thing))
    return Stock(form=found, name=name, waste=figures.figure(FIGURES, thing, "waste"))


def _form(words: str) -> StockForm:
    said = words.casefold()
    if any(word in said for word in SHEETS):
        return "sheet"
    return "panel" if any(word in said for word in GLUED) else "board"


def is_nominal(thickness: float) -> bool:
    """Whether a thickness is one that stock may be sold by; 24.1 was read off a caliper."""
    steps = thickness * HALVES, thickness / MM_PER["in"] * PARTS
    return any(abs(step - round(step)) * thickness / step < EVEN for step in steps)
