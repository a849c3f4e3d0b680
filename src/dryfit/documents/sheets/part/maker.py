"""A part's sheet: with it, the board and the tools a maker can do the work right, and another can check it.

Down the sheet: heading, views with running dimensions, cut table with the sections beside it, what to check
and what to mind, the small picture, the title block. Parts that are truly alike share a sheet, with a box to tick
for each; a left and a right hand are drawn beside one another on theirs.
"""

from collections.abc import Iterator, Sequence
from functools import partial

from ...display import Draft
from ...kit.axis import BROKEN
from ...looks import Desk, Look
from ...sheet import DeferredSheets, sheet, tried
from ...standard import A3, A4
from ..page.frame import LEFT, MARGIN
from .alike import LONG, AlikeParts, room
from .fellows import Pair, fellows
from .hands.pair import pair_sheets
from .page import PartPage
from .sharing import may_share, shared

LONGEST = room(A4[1] - LEFT - MARGIN) / BROKEN[0]  # drawn whole on A4 at the scale at which boards are broken


@sheet("part", paper="workshop", order=30)
def part_sheets(desk: Desk) -> Iterator[DeferredSheets]:
    """The sheets of all parts, in the order of their marks, each part's apart from the others'.

    A small part takes the next small one onto its sheet.
    """
    left = list(fellows(desk))
    small = [found for found in left if isinstance(found, AlikeParts) and _may_share(desk, found)]
    while left:
        found = left.pop(0)
        both = None
        if isinstance(found, AlikeParts) and found in small:
            both = _with_next(desk, found, [other for other in small if other in left])
        if both is not None:
            draft, second = both
            left.remove(second)
            yield DeferredSheets(title=f"{_called(found)}, {_called(second)}", draw=partial(list, [draft]))
        elif isinstance(found, Pair):
            yield DeferredSheets(title=_called(found), draw=partial(_of_pair, desk, found))
        else:
            yield DeferredSheets(title=_called(found), draw=partial(alike_sheets, desk, found))


def _called(found: AlikeParts | Pair) -> str:
    return ", ".join(f"{look.part.mark} {look.part.id}" for look in found.looks)


def _may_share(desk: Desk, found: AlikeParts) -> bool:
    """Whether it may share a sheet; what cannot be drawn does not, and says so on its own."""
    return tried(_called(found), partial(may_share, desk, found, papers(desk, found.shown)[0])) is True


def _with_next(desk: Desk, found: AlikeParts, others: Sequence[AlikeParts]) -> tuple[Draft, AlikeParts] | None:
    """The sheet of a small part and the next that has room beside it, and that one."""
    for other in others:
        draft = tried(_called(found), partial(shared, desk, found, other))
        if isinstance(draft, Draft):
            return draft, other
    return None


def _of_pair(desk: Desk, pair: Pair) -> list[Draft]:
    """The sheets of two hands: beside one another, or a sheet for each where that takes fewer."""
    both = list(pair_sheets(desk, pair))
    if len(both) <= len(pair.looks):
        return both
    each = [draft for look in pair.looks for draft in alike_sheets(desk, AlikeParts((look,)))]
    return each if len(each) < len(both) else both


def alike_sheets(desk: Desk, alike: AlikeParts) -> list[Draft]:
    """The sheets of parts that are truly alike, or of one part: one on the first paper that holds it, else more."""
    pages = [PartPage(desk, alike, size) for size in papers(desk, alike.shown)]
    one = next((one for page in pages if (one := page.whole()) is not None), None)
    return pages[0].drafts() if one is None else [one]


def papers(desk: Desk, look: Look) -> list[tuple[float, float]]:
    """The papers for a part, the best first: upright for a short one, lying for a long one; large where it must be.

    What a shop prints large and would be broken on A4 is drawn whole; what A4 holds whole is not drawn large.
    """
    upright, lying, large = A4, (A4[1], A4[0]), (A3[1], A3[0])
    if look.part.length <= LONG:
        return [upright, lying]
    prints = [large] if desk.book.shop.paper == "A3" else []
    whole = look.part.length <= LONGEST
    return [lying, upright, *prints] if whole else [*prints, lying, upright]
