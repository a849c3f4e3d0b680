"""order.csv: what the order says, a row a line, for a supplier's or the maker's own spreadsheet (RFC 4180).

Sizes are plain numbers in mm; `needed` stands as it is printed, `order` is a number with its `unit`, nothing where the
order leaves it to be filled in. What a spreadsheet would take for a formula is made harmless.
"""

from collections.abc import Iterator

from ..studies.buying.result import Buying, Lot, TimberOrder
from .bookjson import book_stamp, rounded
from .looks import Desk
from .sheets.order.supplies import Item, items_of
from .sheets.order.timber import allowed, named, not_worked_out, shows_words
from .tables import field

COLUMNS = (
    "kind", "item", "size", "for", "edges", "thickness", "thickness_sold", "length", "width", "finished_length",
    "finished_width", "needed", "order", "unit", "source", "stamp",
)  # fmt: skip
PIECES = "pieces"


def order_csv(desk: Desk) -> str:
    """Timber by size, then what else is bought, with a head line; lines end in CR LF as the RFC asks."""
    lines = [COLUMNS, *((*map(field, row), book_stamp(desk)) for row in order_rows(desk))]
    return "".join(",".join(line) + "\r\n" for line in lines)


def order_rows(desk: Desk) -> list[tuple[str, ...]]:
    """A row a line under `COLUMNS` but for the stamp, names as they are."""
    found = desk.book.found(Buying)
    if found is None:
        rows = [("timber", not_worked_out(desk), *[""] * (len(COLUMNS) - 3))]
    else:
        rows = [_lot(desk, order, lot, found) for order in found.timber for lot in order.lots]
    return [*rows, *(_item(item) for item in items_of(desk))]


def _lot(desk: Desk, order: TimberOrder, lot: Lot, found: Buying) -> tuple[str, ...]:
    return (
        "timber",
        named(order),
        "" if lot.boards else lot.what,
        " ".join(desk.marks[name] for name in lot.boards),
        shows_words(lot.shows),
        *_figures(order.least, order.sold, lot.length, lot.width, *(lot.finished or (None, None))),
        str(len(lot.boards) or lot.pieces),
        str(lot.pieces),
        PIECES,
        allowed(found),
    )


def _item(item: Item) -> tuple[str, ...]:
    count = "" if item.count is None else next(_figures(item.count))
    words = (item.kind, item.name, item.size, item.what_for)
    return *words, *([""] * 7), item.needed, count, item.unit, item.source


def _figures(*sizes: float | None) -> Iterator[str]:
    for size in sizes:
        yield "" if size is None else f"{rounded(size):.3f}".rstrip("0").rstrip(".")
