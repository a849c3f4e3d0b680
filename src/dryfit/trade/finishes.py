"""Finishes: what a coat leaves on the wood, how far a litre goes, how long it takes.

A slot that takes a finished board is wider by the film on both of its faces, coat for coat: of 0.033 mm a
coat, three coats make 0.2 mm, more than the whole clearance of a good fit.
"""

from dataclasses import dataclass
from functools import cache, lru_cache

from . import figures
from .figures import Figure
from .names import Match, also, find

FIGURES = "finishes_figures.csv"


@dataclass(frozen=True, slots=True, kw_only=True)
class System:
    """A finishing system; `also` are other names of it."""

    id: str
    name: str
    also: tuple[str, ...]


@cache
def all_systems() -> tuple[System, ...]:
    """Every finishing system of which something is known."""
    return tuple(System(id=row["id"], name=row["name"], also=also(row["also"])) for row in figures.rows("finishes.csv"))


@lru_cache(maxsize=256)
def find_system(word: str) -> Match[System]:
    """Find a system by id or name, in either order, or by a word that fits only one."""
    return find(word, all_systems())


def figure(system: System, name: str) -> Figure | None:
    """The figure to use: "film", "solids", "spread", "recoat", "cure" or "coats"; None if it is not known."""
    return figures.figure(FIGURES, system.id, name)


def film_of(word: str) -> Figure | None:
    """Dry film of one coat on one face, in mm; None if the word names no one system, or its film is not known."""
    found = find_system(word).found
    return figure(found, "film") if found else None


def hours_until(*, coats: int, recoat_h: float, wait_h: float) -> float:
    """Hours from the first coat until the last is as hard as is waited for.

    Each coat waits for the one before it; then, once more, until it may be handled (light use), or until coated faces
    may press on each other or lie in plastic (full hardness; common practice: before that they stick).

    Args:
        coats: in all.
        recoat_h: from one coat to the next, at 20 °C and under 70 % of moisture in the air; cold and damp double it.
        wait_h: after the last.

    >>> hours_until(coats=2, recoat_h=12, wait_h=7 * 24)
    180
    """
    return max(coats - 1, 0) * recoat_h + (wait_h if coats else 0)


# What dries by taking up oxygen gives off heat as it does, and rags heaped with it take fire (fire marshals' advice).
_HEATS_RAGS = frozenset({"varnish_polyurethane", "hardwax_oil"})
_FUMES = frozenset({"varnish_polyurethane", "hardwax_oil", "lacquer_nitrocellulose", "lacquer_catalysed", "shellac"})


def heats_rags(system: System) -> bool:
    """Whether rags and dust with it can take fire by themselves (advice of fire authorities for drying oils)."""
    return system.id in _HEATS_RAGS


def has_fumes(system: System) -> bool:
    """Whether it gives off solvents or alcohol (common practice: all but what is thinned with water)."""
    return system.id in _FUMES
