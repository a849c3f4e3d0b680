"""Species and panels: what they weigh, how stiff they are, how they move.

Most figures are those of the Wood Handbook (US Forest Products Laboratory) for American species, and of
European institutes' and merchants' sheets for the others; each says which. They are averages of small, clear
specimens: for weight, movement and comparison, not for design by strength.
"""

from dataclasses import dataclass
from functools import cache, lru_cache
from typing import Literal, cast

from . import figures
from .figures import Figure
from .names import Match, also, find

FIGURES = "species_figures.csv"


@dataclass(frozen=True, slots=True, kw_only=True)
class Species:
    """A species of wood, or a kind of panel.

    Attributes:
        id: as in the data files, "oak_white_american".
        name: as printed, "American white oak".
        also: other names, the botanical one among them.
        botanical: empty for panels.
    """

    id: str
    name: str
    also: tuple[str, ...]
    botanical: str
    kind: Literal["hardwood", "softwood", "panel"]


@cache
def all_species() -> tuple[Species, ...]:
    """Every species and panel of which something is known."""
    return tuple(
        Species(
            id=row["id"],
            name=row["name"],
            also=(*also(row["also"]), *([row["botanical"]] if row["botanical"] else [])),
            botanical=row["botanical"],
            kind=cast(Literal["hardwood", "softwood", "panel"], row["kind"]),
        )
        for row in figures.rows("species.csv")
    )


@lru_cache(maxsize=256)
def find_species(word: str) -> Match[Species]:
    """Find a species by id, name or botanical name, in either order, or by a word that fits only one."""
    return find(word, all_species())


def known(species: Species, name: str) -> tuple[Figure, ...]:
    """Every figure of one property, such as "modulus_of_elasticity", the most trusted first.

    Published figures differ, for some European species by a quarter: a study of stiffness takes the lowest.
    """
    return figures.figures(FIGURES, species.id, name)


def figure(species: Species, name: str, thickness: float | None = None) -> Figure | None:
    """The figure to use of one property, or None; panels have some that hold for a range of thickness."""
    return figures.figure(FIGURES, species.id, name, thickness)


def density(species: Species, thickness: float | None = None) -> Figure | None:
    """Density at 12 % moisture content in kg/m3, or None if none is known (OSB, American plywood)."""
    return figure(species, "density_12", thickness)
