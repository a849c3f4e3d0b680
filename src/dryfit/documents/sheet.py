"""The register of sheets: adding a kind of sheet is a room with a `maker` in `sheets/`, or one file.

A sheet's maker takes the desk and gives drafts: sheets without their title block and page number, which can
only be set once all sheets of the paper are there. It may give none (nothing to say) or many, or what draws
some of them apart from the others.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from functools import partial
from typing import TypeAlias, TypeVar

from ..asking import raised_if_wanted
from ..scanning import Register
from .display import Draft
from .looks import Desk

Made = TypeVar("Made")


@dataclass(frozen=True, slots=True, kw_only=True)
class DeferredSheets:
    """Sheets that are drawn when their turn comes: where that fails, the rest of their kind is drawn all the same.

    Attributes:
        title: what they show, for the page that stands in for them then.
    """

    title: str
    draw: Callable[[], Iterable[Draft]]


def tried(title: str, make: Callable[[], Made]) -> Made | DeferredSheets:
    """What is made; where that fails, a sheet apart that fails the same way when its turn comes.

    For what must be there before its sheet is drawn: how much room it takes, what it shares its sheet with.

    Args:
        title: what the sheet would show.
        make: what is tried.
    """
    try:
        return make()
    except Exception as fault:  # whatever it is, the others are to be drawn
        raised_if_wanted(fault)
        return DeferredSheets(title=title, draw=partial(_fails, fault))


def _fails(fault: Exception) -> Iterable[Draft]:
    raise fault


Maker: TypeAlias = Callable[[Desk], Iterable[Draft | DeferredSheets]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """One registered kind of sheet.

    Attributes:
        name: its own.
        paper: the PDF it belongs to: "workshop".
        order: where it stands in that PDF, low first.
        aside: whether it is heavy, so that a second process may draw it while the others are drawn.
    """

    name: str
    paper: str
    order: int
    make: Maker
    aside: bool = False


SHEETS: Register[Sheet] = Register("kinds of sheet", lambda kind: (kind.paper, kind.order))


def sheet(name: str, *, paper: str, order: int, aside: bool = False) -> Callable[[Maker], Maker]:
    """Register the function below as the maker of a kind of sheet.

    Raises:
        ValueError: the name has an owner already.
    """

    def register(make: Maker) -> Maker:
        SHEETS.file(name, Sheet(name=name, paper=paper, order=order, make=make, aside=aside))
        return make

    return register


def kinds_of(paper: str) -> list[Sheet]:
    """The kinds of sheet of one paper, in their order."""
    return [kind for kind in SHEETS.values() if kind.paper == paper]
