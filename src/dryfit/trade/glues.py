"""Glues: how much goes on, how long they stay open, how they are pressed.

Most of these figures are from memory of usual data sheets, and say so: the sheet of the product in the
maker's hand governs.
"""

from dataclasses import dataclass
from functools import cache, lru_cache

from . import figures
from .figures import Figure
from .names import Match, also, find

FIGURES = "glues_figures.csv"
BOTTLES_G = (100, 250, 500, 1000, 5000)  # as sold; from memory


@dataclass(frozen=True, slots=True, kw_only=True)
class Glue:
    """A kind of glue.

    Attributes:
        use: what it is for, and `use_from` where that is said.
    """

    id: str
    name: str
    also: tuple[str, ...]
    use: str
    use_from: str


@cache
def all_glues() -> tuple[Glue, ...]:
    """Every kind of glue of which something is known."""
    return tuple(
        Glue(id=row["id"], name=row["name"], also=also(row["also"]), use=row["use"], use_from=row["source"])
        for row in figures.rows("glues.csv")
    )


@lru_cache(maxsize=256)
def find_glue(word: str) -> Match[Glue]:
    """Find a glue by id or name, in either order, or by a word that fits only one."""
    return find(word, all_glues())


def figure(glue: Glue, name: str) -> Figure | None:
    """The figure to use, or None: "spread", "open_time", "clamp_time", "pressure", "coldest", "moisture" or "gap"."""
    return figures.figure(FIGURES, glue.id, name)
