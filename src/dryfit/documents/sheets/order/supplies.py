"""Hardware and supplies to buy: one list of rows, of which the sheet and the file are made."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import Literal, TypeAlias

from ....lengths import figure
from ....piece.facts import GRAINS_SAID
from ....sentences import told
from ....studies.buying.result import LEAST_SPARE, LOST, ONE_IN, Buying, FinishToBuy, Supply
from ....studies.glue_up.result import GlueUp
from ....studies.setups.result import Lacking, SetUps
from ....trade.glues import BOTTLES_G
from ....trade.names import spoken
from ...lettering import printable
from ...looks import Desk
from ...naming import area, percent, tenths_above, ware_size
from ...standard import TEXT
from ..lists.joints import letters_of
from ..page.prose import WordRun, strong
from ..page.sheaf import Sheaf
from ..page.table import Cell, Row, bold

Kind: TypeAlias = Literal["hardware", "glue", "finish", "abrasive", "tape", "tool"]
PRACTICE = "common practice"
MEMORY = "from memory"
PRICE, ORDERED = 6 * TEXT, 4 * TEXT  # to write on


@dataclass(frozen=True, slots=True, kw_only=True)
class Item:
    """One thing to buy.

    Attributes:
        kind: of thing, for a program.
        name, size: as it is asked for.
        what_for: letters of the parts it is for.
        needed, order: in words; `count` and `unit` how much is ordered, for a program.
        source: whose rule or figure that is.
    """

    kind: Kind
    name: str
    size: str
    what_for: str
    needed: str
    order: str
    count: float | None
    unit: str
    source: str


NO_FINISH = "No finish is ordered: the job names none."
HEADS = ("item", "size", "for", "needed", "order", "price", "have")


def supply_list(desk: Desk, sheaf: Sheaf) -> None:
    """What is bought besides timber, and the figures that it rests on."""
    items, title = list(items_of(desk)), "hardware and supplies"
    if items:
        sheaf.table(title, HEADS, [_row(item) for item in items], list(_notes(desk, items)))
    elif desk.book.found(Buying) is not None:
        sheaf.paragraphs(title, [[WordRun(f"The joints need none. {NO_FINISH}")]])


def _row(item: Item) -> Row:
    words = (item.name, item.size, item.what_for, item.needed)
    order = bold(printable(item.order)) if item.order else Cell(room=ORDERED)
    return *(Cell(text=printable(word)) for word in words), order, Cell(room=PRICE), Cell(tick=True)


def items_of(desk: Desk) -> Iterator[Item]:
    """All of them: what holds, what glues, what finishes, and what the shop lacks to make it."""
    book = desk.book
    found, plan, setups = book.found(Buying), book.found(GlueUp), book.found(SetUps)
    if found is not None:
        yield from (_hardware(desk, one) for one in found.hardware if one.strip is None)
    if plan is not None:
        yield from _glue(plan)
    if found is not None and found.finish is not None:
        yield from _finish(desk, found.finish)
    if setups is not None and book.shop.file:
        yield from (_tool(desk, one) for one in setups.lacking)


def used_for(desk: Desk, supply: Supply) -> str:
    """The joints that something is for: "A × wall, C × wall"."""
    known = desk.book.piece.joint_by_key
    return ", ".join(dict.fromkeys(" × ".join(letters_of(desk, known[key])) for key in supply.joints))


def _hardware(desk: Desk, one: Supply) -> Item:
    asks = told(one.asks, desk.book.voice)
    return Item(
        kind="hardware",
        name=one.name,
        size=", ".join(filter(None, (ware_size(one), asks))),
        what_for=used_for(desk, one),
        needed=str(one.needed),
        order=str(one.take),
        count=one.take,
        unit="1",
        source=f"one in {ONE_IN} to spare, {LEAST_SPARE} at least: {PRACTICE}",
    )


def _glue(plan: GlueUp) -> Iterator[Item]:
    """One row, whatever grain it joins."""
    grams = dict(plan.grams)  # of every joint, whether an order was found for it or not
    needed = sum(math.ceil(amount) for amount in grams.values())
    if needed <= 0:
        return
    bottle = next((size for size in BOTTLES_G if size >= needed), BOTTLES_G[-1])
    count = -(-needed // bottle)
    said = next((one for one in plan.figures if one.name == "spread"), None)
    yield Item(
        kind="glue",
        name=spoken(plan.glue, "glue"),
        size=f"bottle of {bottle} g",
        what_for="glued joints",
        needed=f"{needed} g",
        order=str(count),
        count=count,
        unit="1",
        source="" if said is None else said.source,
    )


def _finish(desk: Desk, finish: FinishToBuy) -> Iterator[Item]:
    wants, coats = area(finish.m2), "1 coat" if finish.coats == 1 else f"{finish.coats} coats"
    litres = None if finish.litres is None else tenths_above(finish.litres)
    yield Item(
        kind="finish",
        name=spoken(finish.system) or "finish",
        size=coats,
        what_for="all but inside the joints",
        needed=wants,
        order="read the tin" if litres is None else f"{figure(litres)} l",
        count=litres,
        unit="l",
        source=finish.covers_from,
    )
    bare = ", ".join(f"P{grit}" for grit in finish.grits)
    yield Item(
        kind="abrasive",
        name="abrasive",
        size=f"{bare}; P{finish.between}" if finish.between else bare,
        what_for="bare wood; between coats" if finish.between else "bare wood",
        needed=wants,
        order="",
        count=None,
        unit="1",
        source=PRACTICE,
    )
    if finish.tape:
        long = math.ceil(finish.tape)
        yield Item(
            kind="tape",
            name="masking tape",
            size=f"{finish.tape_wide:g} mm wide",
            what_for=f"joints of {', '.join(sorted(desk.marks[name] for name in finish.masked))}",
            needed=f"{long} m",
            order="1 roll",
            count=long,
            unit="m",
            source=MEMORY,
        )


def _tool(desk: Desk, lacking: Lacking) -> Item:
    """What the shop has no tool for."""
    boards = {cut.key: part.mark for part in desk.book.piece.parts for cut in part.cuts}
    marks = sorted({boards[key] for key in lacking.cuts}, key=lambda mark: (len(mark), mark))
    makes = told(lacking.makes, desk.book.voice)
    return Item(
        kind="tool",
        name=told(lacking.wanted, desk.book.voice) or lacking.process.value,
        size="",
        what_for=f"{makes}: {', '.join(marks)}",
        needed="1",
        order="1",
        count=1,
        unit="1",
        source="the shop file has none",
    )


# --- what the figures rest on --------------------------------------------------------------------


def _notes(desk: Desk, items: Sequence[Item]) -> Iterator[WordRun]:
    found, plan = desk.book.found(Buying), desk.book.found(GlueUp)
    kinds = {item.kind for item in items}
    if "hardware" in kinds:
        yield WordRun(f"Hardware includes spares, one in {ONE_IN}, {LEAST_SPARE} at least ({PRACTICE}).")
    if "glue" in kinds and plan is not None:
        yield WordRun(printable(_glue_words(plan)))
    finish = None if found is None else found.finish
    if finish is None:
        yield WordRun(NO_FINISH)
    else:
        yield WordRun(printable(_finish_words(finish)))
    yield strong("The tin, the bottle and the packet govern. Gloves and fresh air.")


def _glue_words(plan: GlueUp) -> str:
    said = {one.name: one for one in plan.figures}
    spread = said.get("spread")
    figures = "" if spread is None else f", at {spread.value:g} g/m² ({spread.source})"
    grains = ", ".join(f"{math.ceil(amount)} g {GRAINS_SAID[grain]}" for grain, amount in plan.grams)
    return f"Glue: {grains}{figures}, with 10 % spare ({PRACTICE})."


def _finish_words(finish: FinishToBuy) -> str:
    if finish.covers is None:
        return "Finish: how far a litre goes is not known; the tin says."
    spare = f"with {percent(LOST)} % spare ({PRACTICE})"
    return f"Finish: {finish.covers:g} m² per litre and coat ({finish.covers_from}), {spare}."
