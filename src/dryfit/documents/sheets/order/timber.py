"""Timber to order: for each timber what it is, then its pieces, the longest first."""

from collections.abc import Iterator, Sequence

from ....lengths import MM_PER
from ....sentences import plural
from ....studies.buying.result import Buying, Lot, Shows, TimberOrder
from ....trade.figures import whose
from ....trade.names import spoken
from ...lettering import printable
from ...looks import Desk
from ...naming import area, mass_figure, mass_unit, percent, position, printed_units, run, thickness
from ..page.prose import WordRun, strong
from ..page.sheaf import Sheaf
from ..page.table import Cell, Row, bold, under
from .supplies import PRACTICE, PRICE

EACH = "from each"
HEADS = (
    "pieces",
    "order, long × wide",
    "finished, long × wide",
    "mark",
    "edges that show",
    EACH,
    "price",
    "have",
)
PANEL = HEADS.index(EACH)
BOTH = 2
NOT_MADE = "it was not asked for with this book"


def timber_list(desk: Desk, sheaf: Sheaf) -> None:
    """All timbers in one table, and what holds for all of them."""
    found = desk.book.found(Buying)
    if found is None:
        sheaf.paragraphs("timber", [[strong(printable(not_worked_out(desk)))]])
        return
    stock = any(lot.from_panel is not None for order in found.timber for lot in order.lots)
    heads = [head for number, head in enumerate(HEADS) if stock or number != PANEL]
    rows: list[Row] = []
    for order in found.timber:
        rows.append((bold(printable(headed(order)), span=len(heads)),))
        rows.append(under(Cell(text=printable(totals(order)), span=len(heads))))
        rows += [_row(desk, lot, stock=stock) for lot in order.lots]
    sheaf.table("timber", heads, rows, [WordRun(printable(word)) for word in _notes(found)])


def not_worked_out(desk: Desk) -> str:
    """That nothing is known of the timber to order, and why."""
    return f"Not worked out: {desk.book.left_out.get('buying', NOT_MADE)}."


def _row(desk: Desk, lot: Lot, *, stock: bool) -> Row:
    finished = "" if lot.finished is None else " × ".join(map(position, lot.finished))
    marks = ", ".join(desk.marks[name] for name in lot.boards)
    cells = [
        bold(str(lot.pieces)),
        bold(f"{position(lot.length)} × {position(lot.width)}"),
        Cell(text=finished),
        Cell(text=printable(marks) if lot.boards else lot.what),
        Cell(text=shows_words(lot.shows)),
        Cell(text=_of_panel(lot)),
        Cell(room=PRICE),
        Cell(tick=True),
    ]
    return tuple(cell for number, cell in enumerate(cells) if stock or number != PANEL)


def _of_panel(lot: Lot) -> str:
    if lot.from_panel is None:
        return ""
    return str(lot.from_panel) if lot.from_panel else "too small"


def shows_words(shows: Shows | None) -> str:
    """What shows, in words: "front, both ends"; a face only where just one does."""
    if shows is None:
        return ""
    long = "front" if shows.edges < BOTH else "both long" if shows.flat else "front and back"
    ends = {0: "", 1: "one end", BOTH: "both ends"}[shows.ends]
    return ", ".join(filter(None, (long, ends, "" if shows.faces == BOTH else "one face")))


# --- what it is ----------------------------------------------------------------------------------


def headed(order: TimberOrder) -> str:
    """Species, form and thickness: "white oak, edge-glued panel, 24 thick"."""
    return ", ".join(filter(None, (named(order), thick_words(order))))


def named(order: TimberOrder) -> str:
    """Species and form: "white oak, edge-glued panel"; birch plywood says it already."""
    species = spoken(order.species)
    return ", ".join(filter(None, (species, "" if order.form in species else order.form)))


def thick_words(order: TimberOrder) -> str:
    """Its thickness as it is sold, and what that must give."""
    to = _span(order)
    if order.planing:
        sold = "nominal thickness not given" if order.sold is None else f"nominal {nominal(order.sold)}"
        return f"sawn, {sold}: {nominal(order.least)} or more, to be planed to {to}"
    if order.sold is None:
        return (
            f"{to} thick: nominal thickness not given, ask for stock that finishes at {thickness(order.least)} or more"
        )
    measured = f" (measured in the shop: {to})" if order.measured else ""
    return f"{nominal(order.sold)} thick{measured}"


def nominal(size: float) -> str:
    """A nominal thickness, in inches as a rule has it: "24", "3/4"."""
    return position(size) if printed_units() == "in" else thickness(size)


def _span(order: TimberOrder) -> str:
    sizes = dict.fromkeys(map(thickness, order.planed_to))
    return " to ".join(sizes)


def totals(order: TimberOrder) -> str:
    """How much of it there is in all."""
    count = sum(lot.pieces for lot in order.lots)
    words = [f"{count} {'piece' if count == 1 else 'pieces'}", area(order.m2)]
    if order.sold_as == "board":
        words.append(run(order.metres * MM_PER["m"]))
    if order.kg is not None:
        words.append(f"{mass_figure(order.kg, 0)} {mass_unit()} at 12 % moisture")
    return ", ".join([*words, *_stock_words(order)])


def _stock_words(order: TimberOrder) -> Iterator[str]:
    what = "sheet" if order.sold_as == "sheet" else "panel"
    if order.panel is not None:
        size = " × ".join(map(position, order.panel))
        if order.panels is None:
            yield f"{plural(what)} of {size}: a piece is larger"
            return
        least, enough = order.panels
        area_alone = "" if least == enough else f" ({least} by area alone)"
        yield f"{enough} {what if enough == 1 else plural(what)} of {size}{area_alone}"
    elif order.longest is not None:
        yield f"lengths of {position(order.longest)}"


# --- what holds for all --------------------------------------------------------------------------


def _notes(found: Buying) -> Iterator[str]:
    yield f"Order sizes are the finished ones with {allowed(found)}, rounded up; no piece smaller."
    yield "Both faces show unless stated."
    if any(lot.from_panel is not None for order in found.timber for lot in order.lots):
        yield "From each: pieces that one panel or length yields, saw kerfs allowed for, faults in the wood not."
    yield from _waste(found.timber)


def allowed(found: Buying) -> str:
    """What is left at ends and edges, and whose figures that is."""
    ends, edges = map(whose, (found.trim_from, found.edge_from))
    left = {order.edge for order in found.timber} - {0.0}
    end = f"{position(found.trim)} extra at each end"
    if not left:
        return f"{end} ({ends})"
    edge = f"{position(min(left))} at each edge"
    return f"{end} and {edge} ({ends})" if ends == edges else f"{end} ({ends}) and {edge} ({edges})"


def _waste(timber: Sequence[TimberOrder]) -> Iterator[str]:
    """What is added where timber is bought whole, by whose figures; each sort of stock once."""
    by_source: dict[str, dict[str, None]] = {}
    for order in timber:
        if order.waste is not None:
            share = " to ".join(dict.fromkeys(percent(one) for one in order.waste))
            by_source.setdefault(order.waste_from or PRACTICE, {})[f"{order.stock} {share} %"] = None
    said = [f"{', '.join(shares)} ({whose})" for whose, shares in by_source.items()]
    if said:
        yield f"If bought whole, add for waste: {'; '.join(said)}."
