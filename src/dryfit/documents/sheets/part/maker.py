"""A part's sheet: with it, the board and the tools a maker can do the work right, and another can check it.

Down the sheet: heading, views with running dimensions, cut table with the sections beside it, what to check
and what to mind, the small picture, the title block. Parts that are truly alike share a sheet, with a box to tick
for each; a left and a right hand are drawn beside one another on theirs.
"""

from collections.abc import Iterator
from functools import partial

from ...looks import Desk, Look
from ..registry import A3, A4, Apart, Draft, sheet
from .alike import Alike
from .fellows import Pair, fellows
from .hands.pair import pair_sheets
from .page import Page

LONG = 875.0  # a part longer than this lies on a landscape sheet: the longest that a portrait one holds at 1:5
LONGEST = 2620.0  # drawn whole at 1:10 on A4


@sheet("part", paper="workshop", order=30)
def part_sheets(desk: Desk) -> Iterator[Apart]:
    """The sheets of all parts, in the order of their marks, each part's apart from the others'."""
    for found in fellows(desk):
        title = ", ".join(f"{look.part.mark} {look.part.id}" for look in found.looks)
        draw = partial(pair_sheets, desk, found) if isinstance(found, Pair) else partial(alike_sheets, desk, found)
        yield Apart(title=title, draw=draw)


def alike_sheets(desk: Desk, alike: Alike) -> list[Draft]:
    """The sheets of parts that are truly alike, or of one part."""
    return Page(desk, alike, _paper(desk, alike.shown)).drafts()


def _paper(desk: Desk, look: Look) -> tuple[float, float]:
    if look.part.length <= LONG:
        return A4
    wide, high = A3 if desk.book.shop.paper == "A3" and look.part.length > LONGEST else A4
    return high, wide
