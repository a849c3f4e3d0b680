"""Frames to check: their diagonals, as the glue-up study worked them out."""

import math
from collections.abc import Iterator
from itertools import product

from ....piece.room import outline
from ....piece.setout import TOUCHING
from ....studies.glue_up.result import GlueUp
from ....studies.measures.result import Measures
from ...lettering import printable
from ...looks import Desk
from ...naming import position
from ..gluing.words import lean
from ..page.sheaf import Sheaf
from ..page.table import Cell, Row, bold


def frames_list(desk: Desk, sheaf: Sheaf) -> None:
    """Diagonals of every frame of four that is glued, and of the whole where it has all four corners."""
    rows = [*_glued_frames(desk), *_whole(desk)]
    _, leans = lean(1.0)
    heads = ["frame", "diagonals outside", "inside", f"out by {position(leans)} of lean", "done"]
    if rows:
        sheaf.table("diagonals, front and back", heads, rows)


def _glued_frames(desk: Desk) -> Iterator[Row]:
    plan = desk.book.found(GlueUp)
    for go in plan.stages if plan is not None else ():
        for square in go.squares:
            outside, inside = (
                " and ".join(dict.fromkeys(map(position, sizes))) for sizes in (square.outside, square.inside)
            )
            name = " to ".join(desk.marks.get(board, board) for board in square.between)
            frame = go.name if square.inside else f"{go.name or 'the piece'}, {name}"
            yield _frame(printable(frame), outside, bold(inside), square.differ_by)


def _whole(desk: Desk) -> Iterator[Row]:
    """From corner to corner of the whole; nobody can hold a rule to a corner where no wood is."""
    measures = desk.book.found(Measures)
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
