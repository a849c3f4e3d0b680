"""The order: who it is to, what is ordered of each timber, and what else is bought."""

from collections.abc import Iterator
from functools import partial

from ...display import Draft
from ...lettering import printable
from ...looks import Desk
from ...sheet import DeferredSheets, sheet, tried
from ...standard import TEXT
from ..page.frame import BARS, ORDER
from ..page.prose import WordRun
from ..page.sheaf import Sheaf
from .at_hand import at_hand_list
from .supplies import supply_list
from .timber import timber_list

SAYS = ("long × wide, grain along the length", "please price each line")
NAMED, DATED = 52.0, 28.0  # mm to write on
PRICED = DATED


@sheet("order", paper="order", order=10)
def order(desk: Desk) -> Iterator[Draft | DeferredSheets]:
    """One sheet, or as many as it takes; a list that cannot be made has a page in its place behind the others."""
    if not desk.book.piece.parts:
        return
    says = tuple(word for word in (desk.book.job.title, desk.book.job.date, *SAYS) if word)
    sheaf = Sheaf(desk, letter=BARS, title="order", says=says, kind=ORDER, number="ORDER", after=TEXT)
    sheaf.paragraphs("", [_parties(desk), _terms()])
    tries = [
        tried("the order of timber", partial(timber_list, desk, sheaf)),
        tried("the order of hardware and supplies", partial(supply_list, desk, sheaf)),
        tried("what to make and have to hand", partial(at_hand_list, desk, sheaf)),
    ]
    yield from sheaf.drafts()
    yield from (one for one in tries if one is not None)


def _parties(desk: Desk) -> list[WordRun]:
    """Who it is to, and from."""
    shop = desk.book.shop
    sender = WordRun(printable(f"From: {shop.name}")) if shop.file else WordRun("From:", blank=NAMED)
    return [WordRun("Supplier:", blank=NAMED), WordRun("Date:", blank=DATED), sender]


def _terms() -> list[WordRun]:
    return [
        WordRun("Wanted by:", blank=DATED),
        WordRun("Deliver to:", blank=NAMED),
        WordRun("Total:", blank=PRICED),
    ]
