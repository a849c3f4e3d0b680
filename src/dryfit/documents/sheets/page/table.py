"""Tables of the sheets: rules under rows only, text left, rows a pencil fits into, every word to be read.

A text that is wider than its column goes on in a second line of its row. Such lines are rows of their own for
whoever counts rows, marked as belonging to the one above: no rule parts them, and they are less high.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest
from typing import TypeAlias

from ...display import Item, Stroke, Strokes, Text
from ...lettering import TEXT, Weight, divided, width
from ...symbols import TAG_HIGH, TICK, Tag, tag, tag_width, tick_box, ticked_box
from .prose import KEPT

ROW = 5.0
LINE = 3.7  # of a further line of the same row
HEAD_LINE = 3.4
PAD = 1.0
BESIDE = 0.4  # least between a text and the next column
GUTTER = 6.0  # between two tables side by side
_FRACTION = re.compile(r"(?<=\d) (?=\d+/\d)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column: its title and its width on paper; `gap` parts tables side by side, and no rule crosses it."""

    title: str
    wide: float
    gap: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """What stands in one place of a table.

    Attributes:
        span: how many columns it reaches over.
        tags: drawn instead of text, side by side.
        tick: a box to tick instead of text.
        done: it is ticked already.
        joins: said of a row's first cell: the row belongs to the one above it.
    """

    text: str = ""
    weight: Weight = "regular"
    span: int = 1
    tags: tuple[tuple[Tag, str], ...] = ()
    tick: bool = False
    done: bool = False
    joins: bool = False


Row: TypeAlias = tuple[Cell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Type:
    """How large a table is set: height of its capitals, of a row, of a further line of a row, of a line of the head."""

    text: float = TEXT
    row: float = ROW
    line: float = LINE
    head: float = HEAD_LINE
    tick: float = TICK


PLAIN = Type()
LARGE = Type(text=3.5, row=7.4, line=5.0, head=4.6, tick=5.0)  # to be read at arm's length, on a ladder


def bold(text: str, span: int = 1) -> Cell:
    """A figure that is set with rule, square or gauge."""
    return Cell(text=text, weight="semibold", span=span)


# --- heights -------------------------------------------------------------------------------------


def head_high(columns: Sequence[Column], size: Type = PLAIN) -> float:
    """Height of a table's head, down to its rule."""
    lines = max((len(_title(column, size)) for column in columns), default=1)
    return lines * size.head + 1.0


def rows_high(rows: Iterable[Row], size: Type = PLAIN) -> float:
    """Height of rows, further lines counted as they are drawn."""
    return sum(size.line if _joins(row) else size.row for row in rows)


def fitting(rows: Sequence[Row], room: float, size: Type = PLAIN) -> int:
    """How many rows stand in a height, no row parted from its further lines; at least one whole row."""
    held, high = 0, 0.0
    for number, row in enumerate(rows):
        if number and not _joins(row):  # all before it are whole
            if high > room + 1e-9:
                return held or number
            held = number
        high += size.line if _joins(row) else size.row
    return len(rows) if high <= room + 1e-9 or not held else held


def _joins(row: Row) -> bool:
    return bool(row) and row[0].joins


# --- lines ---------------------------------------------------------------------------------------


def unfolded(columns: Sequence[Column], rows: Iterable[Row], size: Type = PLAIN) -> list[Row]:
    """The rows with every text that is too wide for its column carried on in rows that join theirs."""
    return [line for row in rows for line in _unfolded(columns, row, size)]


def _unfolded(columns: Sequence[Column], row: Row, size: Type) -> Iterator[Row]:
    place = 0
    texts: list[list[str]] = []
    for cell in row:
        room = sum(column.wide for column in columns[place : place + cell.span]) - PAD - BESIDE
        texts.append(lines_in(cell.text, room, size.text, cell.weight) if cell.text else [""])
        place += cell.span
    first = (replace(cell, text=lines[0]) for cell, lines in zip(row, texts, strict=True))
    yield tuple(first)
    for more in list(zip_longest(*texts, fillvalue=""))[1:]:
        cells = (Cell(text=text, weight=cell.weight, span=cell.span) for cell, text in zip(row, more, strict=True))
        yield _joined(tuple(cells))


def _joined(row: Row) -> Row:
    """The row, belonging to the one above it."""
    return (replace(row[0], joins=True), *row[1:])


def under(*cells: Cell) -> Row:
    """A row that belongs to the one above it."""
    return _joined(cells)


def lines_in(text: str, room: float, size: float, weight: Weight = "regular") -> list[str]:
    """The text in lines no wider than `room`, nothing left out: a single word that is wider is divided.

    Words held together by no-break spaces are one, and so are the whole inches and the fraction of a figure.
    """
    lines: list[str] = []
    for word in _FRACTION.sub(KEPT, text).split(" "):
        if lines and width(f"{lines[-1]} {word}", size, weight) <= room:
            lines[-1] += f" {word}"
        else:
            lines += divided(word, room, size, weight)
    return [line.replace(KEPT, " ") for line in lines] or [""]


def abreast(columns: Sequence[Column], rows: Sequence[Row], count: int) -> tuple[list[Column], list[Row]]:
    """The same rows in tables side by side, down the first and on at the top of the next; none of them may join."""
    gap = Column(title="", wide=GUTTER, gap=True)
    wide: list[Column] = [column for number in range(count) for column in ([gap] if number else []) + list(columns)]
    high = -(-len(rows) // count)
    empty: Row = tuple(Cell() for _ in columns)
    made: list[Row] = []
    for place in range(high):
        row: Row = ()
        for start in range(0, count * high, high):
            at = start + place
            row += ((Cell(),) if row else ()) + (rows[at] if at < len(rows) else empty)
        made.append(row)
    return wide, made


# --- drawing -------------------------------------------------------------------------------------


def drawn(x: float, y: float, columns: Sequence[Column], rows: Sequence[Row], size: Type = PLAIN) -> list[Item]:
    """The table with its top left corner at (x, y)."""
    lefts = [x]
    for column in columns:
        lefts.append(lefts[-1] + column.wide)
    under_head = y + head_high(columns, size)
    items: list[Item] = [*_rule_of_head(columns, lefts, under_head), *_heads(columns, lefts, under_head, size)]
    top, rules = under_head, []
    for number, row in enumerate(rows):
        lift = size.row - size.line if _joins(row) else 0.0
        items += _row(row, columns, lefts, top - lift, size)
        top += size.line if _joins(row) else size.row
        if number + 1 == len(rows) or not _joins(rows[number + 1]):
            rules.append(top)
    segments = tuple(((left, level), (right, level)) for level in rules for left, right in _stretches(columns, lefts))
    if segments:
        items.append(Strokes(segments=segments, pen="dimension", layer="table"))
    return items


def _stretches(columns: Sequence[Column], lefts: Sequence[float]) -> list[tuple[float, float]]:
    """From where to where rules run: not across the gap between tables side by side."""
    starts = [lefts[0]]
    stops = []
    for number, column in enumerate(columns):
        if column.gap:
            stops.append(lefts[number])
            starts.append(lefts[number + 1])
    return list(zip(starts, [*stops, lefts[-1]], strict=True))


def _rule_of_head(columns: Sequence[Column], lefts: Sequence[float], level: float) -> list[Item]:
    return [
        Stroke(points=((left, level), (right, level)), pen="outline", layer="table")
        for left, right in _stretches(columns, lefts)
    ]


def _heads(columns: Sequence[Column], lefts: Sequence[float], level: float, size: Type) -> Iterator[Item]:
    for column, left in zip(columns, lefts, strict=False):
        for number, line in enumerate(reversed(_title(column, size))):
            at = (left + PAD, level - 1.2 - number * size.head)
            yield Text(at=at, text=line, size=size.text, weight="semibold", layer="table")


def _title(column: Column, size: Type) -> list[str]:
    return lines_in(column.title, column.wide - PAD, size.text, "semibold") if column.title else []


def _row(row: Row, columns: Sequence[Column], lefts: Sequence[float], top: float, size: Type) -> list[Item]:
    items: list[Item] = []
    place = 0
    for cell in row:
        items += _cell(cell, lefts[place], top, size)
        place += cell.span
    assert place <= len(columns), f"a row of {place} places in a table of {len(columns)} columns"
    return items


def _cell(cell: Cell, left: float, top: float, size: Type) -> list[Item]:
    base = top + (size.row + size.text) / 2
    if cell.tick:
        place = left + PAD, top + (size.row - size.tick) / 2
        return [*ticked_box(*place, size.tick)] if cell.done else [tick_box(*place, size.tick)]
    if cell.tags:
        items: list[Item] = []
        at = left + PAD
        for kind, text in cell.tags:
            items += tag(at, top + (size.row - TAG_HIGH) / 2, kind, text)
            at += tag_width(text) + 0.6
        return items
    if not cell.text:
        return []
    return [Text(at=(left + PAD, base), text=cell.text, size=size.text, weight=cell.weight, layer="table")]
