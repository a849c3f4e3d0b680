"""Glue to have, and frames to check: what the glue-up study worked out, as lists."""

import math
from collections.abc import Iterator
from itertools import product
from typing import Any

from ....piece.room import outline
from ....piece.setout import TOUCHING
from ...lettering import printable
from ...looks import Desk
from ...naming import position
from ..gluing.words import lean
from ..page.prose import KEPT, Run, strong
from ..page.sheaf import Sheaf
from ..page.table import Cell, Column, Row, bold

BOTTLES_G = (100, 250, 500, 1000, 5000)  # as sold; from memory
MINDED = (("spread", "spread"), ("open_time", "open"), ("coldest", "not colder than"), ("moisture", "wood at"))
UNITS = {"g/m2": "g/m²", "degC": "°C"}


def glue_list(desk: Desk, sheaf: Sheaf) -> None:
    """Glue by grain pair, what to buy, and what to mind."""
    plan = desk.book.studies.get("glue_up")
    if plan is None:
        return
    grams = dict(plan.grams)  # of every joint, whether an order was found for it or not
    total = sum(grams.values())
    if total <= 0.0:
        return
    columns = [
        Column(title="glue", wide=60.0),
        Column(title="grain on grain", wide=40.0),
        Column(title="needed", wide=30.0),
        Column(title="buy", wide=41.0),
        Column(title="have", wide=9.0),
    ]
    bottle = next((size for size in BOTTLES_G if size >= total), BOTTLES_G[-1])
    rows: list[Row] = [
        (
            Cell(text=printable(plan.glue)),
            Cell(text=grain.replace("-", " on ")),
            bold(f"{math.ceil(amount)} g"),
            Cell(text=f"a bottle of {bottle} g" if number == 0 else ""),
            Cell(tick=number == 0),
        )
        for number, (grain, amount) in enumerate(sorted(grams.items()))
    ]
    sheaf.table("glue", columns, rows, _minded(plan))


def _minded(plan: Any) -> list[Run]:
    """What the glue asks for, the source of all its figures said once."""
    said = {figure.name: figure for figure in plan.figures}
    words = [f"{word} {_figure(said[name])}" for name, word in MINDED if name in said]
    sources = list(dict.fromkeys(said[name].source for name, _ in MINDED if name in said))
    told = f"{', '.join(words)} ({'; '.join(sources)})." if words else ""
    return [
        Run("With a tenth more for what is lost."),
        *([Run(printable(told[0].upper() + told[1:]))] if told else []),
        strong("The sheet of the glue in your hand governs. Gloves and fresh air."),
    ]


def _figure(said: Any) -> str:
    unit = UNITS.get(said.unit, said.unit)
    return f"{said.value:g}{KEPT}{unit}"


def frames_list(desk: Desk, sheaf: Sheaf) -> None:
    """Diagonals of every frame of four that is glued, and of the whole where it has all four corners."""
    rows = [*_glued_frames(desk), *_whole(desk)]
    _, leans = lean(1.0)
    columns = [
        Column(title="frame", wide=46.0),
        Column(title="diagonals outside", wide=40.0),
        Column(title="inside", wide=34.0),
        Column(title=f"out by {position(leans)} of lean", wide=51.0),
        Column(title="done", wide=9.0),
    ]
    if rows:
        sheaf.table("diagonals, front and back", columns, rows)


def _glued_frames(desk: Desk) -> Iterator[Row]:
    plan = desk.book.studies.get("glue_up")
    for stage in plan.stages if plan is not None else ():
        if stage.square is not None:
            outside, inside = (
                " and ".join(position(size) for size in dict.fromkeys(sizes))
                for sizes in (stage.square.outside, stage.square.inside)
            )
            yield _frame(printable(stage.name or "the piece"), outside, bold(inside), stage.square.differ_by)


def _whole(desk: Desk) -> Iterator[Row]:
    """From corner to corner of the whole; nobody can hold a rule to a corner where no wood is."""
    measures = desk.book.studies.get("measures")
    if measures is None or not (across := measures.diagonals[0]):
        return
    wood = [corner for part in desk.book.piece.parts for corner in outline(part)]
    corners = product(*((measures.low[i], measures.high[i]) for i in (0, 1)))
    if all(any(math.dist(corner, there) <= TOUCHING for there in wood) for corner in corners):
        wide, high = measures.high[0] - measures.low[0], measures.high[1] - measures.low[1]
        yield _frame("the whole piece", position(across), Cell(), 2 * wide / math.hypot(wide, high))


def _frame(name: str, outside: str, inside: Cell, differ: float) -> Row:
    shown, _ = lean(differ)
    return Cell(text=name), bold(outside), inside, Cell(text=f"the two differ by {position(shown)}"), Cell(tick=True)
