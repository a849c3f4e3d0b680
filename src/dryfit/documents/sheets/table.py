"""Tables of the sheets: rules under rows only, text left, rows a pencil fits into, no row wraps.

A cell that is wider than its column is cut short with an ellipsis rather than run into its neighbour; the
widths are the sheet maker's to choose so that this does not happen.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

from ..display import Item, Stroke, Strokes, Text
from ..lettering import TEXT, Weight, fitted, wrapped
from ..symbols import TAG_HIGH, TICK, Tag, tag, tag_width, tick_box

ROW = 5.0
HEAD_LINE = 3.4
PAD = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column: its title (wrapped to two lines at most) and its width on paper."""

    title: str
    wide: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """What stands in one place of a table.

    Attributes:
        span: how many columns it reaches over.
        tags: drawn instead of text, side by side.
        tick: a box to tick instead of text.
    """

    text: str = ""
    weight: Weight = "regular"
    span: int = 1
    tags: tuple[tuple[Tag, str], ...] = ()
    tick: bool = False


Row: TypeAlias = tuple[Cell, ...]


def plain(*texts: str) -> Row:
    """A row of plain text."""
    return tuple(Cell(text=text) for text in texts)


def bold(text: str, span: int = 1) -> Cell:
    """A figure that is set with rule, square or gauge."""
    return Cell(text=text, weight="semibold", span=span)


def head_high(columns: Sequence[Column]) -> float:
    """Height of a table's head, down to its rule."""
    lines = max((len(_title(column)) for column in columns), default=1)
    return lines * HEAD_LINE + 1.0


def table_high(columns: Sequence[Column], rows: int) -> float:
    """Height of a whole table."""
    return head_high(columns) + rows * ROW


def drawn(x: float, y: float, columns: Sequence[Column], rows: Sequence[Row]) -> list[Item]:
    """The table with its top left corner at (x, y)."""
    lefts = [x]
    for column in columns:
        lefts.append(lefts[-1] + column.wide)
    under = y + head_high(columns)
    items: list[Item] = [Stroke(points=((x, under), (lefts[-1], under)), pen="outline", layer="table")]
    for column, left in zip(columns, lefts, strict=False):
        lines = _title(column)
        for number, line in enumerate(reversed(lines)):
            at = (left + PAD, under - 1.2 - number * HEAD_LINE)
            items.append(Text(at=at, text=line, weight="semibold", layer="table"))
    for number, row in enumerate(rows):
        items += _row(row, columns, lefts, under + number * ROW)
    rules = tuple(((x, under + n * ROW), (lefts[-1], under + n * ROW)) for n in range(1, len(rows) + 1))
    if rules:
        items.append(Strokes(segments=rules, pen="dimension", layer="table"))
    return items


def _title(column: Column) -> list[str]:
    return wrapped(column.title, column.wide - PAD, TEXT, "semibold")[:2]


def _row(row: Row, columns: Sequence[Column], lefts: Sequence[float], top: float) -> list[Item]:
    items: list[Item] = []
    place = 0
    for cell in row:
        right = lefts[min(place + cell.span, len(columns))]
        items += _cell(cell, lefts[place], right, top)
        place += cell.span
    return items


def _cell(cell: Cell, left: float, right: float, top: float) -> list[Item]:
    base = top + (ROW + TEXT) / 2
    if cell.tick:
        return [tick_box(left + PAD, top + (ROW - TICK) / 2)]
    if cell.tags:
        items: list[Item] = []
        at = left + PAD
        for kind, text in cell.tags:
            items += tag(at, top + (ROW - TAG_HIGH) / 2, kind, text)
            at += tag_width(text) + 0.6
        return items
    words = fitted(cell.text, right - left - PAD - 0.4, TEXT, cell.weight)
    return [Text(at=(left + PAD, base), text=words, weight=cell.weight, layer="table")] if words else []
