"""The register of sheets: adding a kind of sheet is a room with a `maker` in this folder, or one file.

A sheet's maker takes the desk and gives drafts: sheets without their title block and page number, which can
only be set once all sheets of the paper are there. It may give none (nothing to say) or many, or what draws
some of them apart from the others.
"""

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from typing import TypeAlias

from ...scanning import Register
from ..display import Item
from ..looks import Desk

A4 = (210.0, 297.0)
A3 = (297.0, 420.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Draft:
    """A sheet that still lacks its title block.

    Attributes:
        title, kind: for the title block: "A  long shelf", "part".
        number: what tells it from the job's other sheets: "A", "lists".
        scale: in words: "1:10, sections 1:2".
        size: width and height of the paper.
        items: what is drawn, the heading among it.
    """

    title: str
    kind: str
    number: str
    scale: str
    size: tuple[float, float]
    items: tuple[Item, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Apart:
    """Sheets that are drawn when their turn comes: where that fails, the rest of their kind is drawn all the same.

    Attributes:
        title: what they show, for the page that stands in for them then.
    """

    title: str
    draw: Callable[[], Iterable[Draft]]


Maker: TypeAlias = Callable[[Desk], Iterable[Draft | Apart]]


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
