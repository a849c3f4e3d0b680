"""Tables of the sheets: rules under rows only, text left, rows a pencil fits into, every word to be read.

A text that is wider than its column goes on in a second line of its row. Such lines are rows of their own for
whoever counts rows, marked as belonging to the one above: no rule parts them, and they are less high.
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import zip_longest
from typing import NamedTuple, TypeAlias

from ....geometry.frames import NEAR
from ...display import Item, Stroke, Strokes, Text
from ...lettering import KEPT, TEXT, Weight, divided, unkept, widest, width
from ...standard import AIR, FIGURE, HEIGHTS, LINE
from ...symbols import TAG_HIGH, Tag, tag, tag_width, tick_box, ticked_box

PAD = 2 * AIR
BESIDE = AIR  # least between a text and the next column
_FRACTION = re.compile(r"(?<=\d) (?=\d+/\d)")


@dataclass(frozen=True, slots=True, kw_only=True)
class Column:
    """A column: its title and its width on paper; `gap` parts tables side by side, and no rule crosses it."""

    title: str
    wide: float
    gap: bool = False


class Brief(NamedTuple):
    """What cells of parts alike share, and what this one has by itself: "in ", "A".

    Attributes:
        before: what stands before that; `shortly` where there is little room.
    """

    before: str
    shortly: str
    own: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Cell:
    """What stands in one place of a table.

    Attributes:
        span: how many columns it reaches over.
        tags: drawn instead of text, side by side.
        short: stands instead of a text that has no room on one line.
        brief: what of it is its own, where several such cells become one.
        tick: a box to tick instead of text.
        room: least width, for what is written by hand.
        done: it is ticked already.
        boxes: so many of them side by side.
        joins: said of a row's first cell: the row belongs to the one above it.
    """

    text: str = ""
    weight: Weight = "regular"
    span: int = 1
    tags: tuple[tuple[Tag, str], ...] = ()
    short: str = ""
    brief: Brief | None = None
    tick: bool = False
    room: float = 0.0
    done: bool = False
    boxes: int = 1
    joins: bool = False


Row: TypeAlias = tuple[Cell, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Type:
    """How large a table is set: the height of its capitals, and what follows of it."""

    text: float = TEXT

    @property
    def row(self) -> float:
        """Height of a row: a pencil fits into it."""
        return 2 * self.text

    @property
    def line(self) -> float:
        """Height of a further line of a row, and of a line of the head."""
        return LINE * self.text

    @property
    def under(self) -> float:
        """From the head's last base line to its rule."""
        return self.line - self.text

    @property
    def tick(self) -> float:
        """Side of a box to tick: a height larger than the text."""
        return HEIGHTS[HEIGHTS.index(self.text) + 1]


PLAIN = Type()
LARGE = Type(text=FIGURE)  # to be read at arm's length, on a ladder
ROW = GUTTER = PLAIN.row  # two tables side by side stand as far apart as a row is high


def bold(text: str, span: int = 1) -> Cell:
    """A figure that is set with rule, square or gauge."""
    return Cell(text=text, weight="semibold", span=span)


# --- heights -------------------------------------------------------------------------------------


def head_high(columns: Sequence[Column], size: Type = PLAIN) -> float:
    """Height of a table's head, down to its rule."""
    lines = max((len(_title(column, size)) for column in columns), default=1)
    return lines * size.line + PAD


def rows_high(rows: Iterable[Row], size: Type = PLAIN) -> float:
    """Height of rows, further lines counted as they are drawn."""
    return sum(size.line if _joins(row) else size.row for row in rows)


def fitting(rows: Sequence[Row], room: float, size: Type = PLAIN) -> int:
    """How many rows stand in a height, no row parted from its further lines; at least one whole row."""
    held, high = 0, 0.0
    for number, row in enumerate(rows):
        if number and not _joins(row):  # all before it are whole
            if high > room + NEAR:
                return held or number
            held = number
        high += size.line if _joins(row) else size.row
    return len(rows) if high <= room + NEAR or not held else held


def _joins(row: Row) -> bool:
    return bool(row) and row[0].joins


# --- columns -------------------------------------------------------------------------------------


def columns_for(titles: Sequence[str], rows: Sequence[Row], room: float, size: Type = PLAIN) -> list[Column]:
    """Columns that fill a room, each as wide as what stands in it.

    Where that is too much heads are broken and the widest columns narrowed.

    Args:
        rows: a cell for each title, none narrower than its longest word while the room holds them; a row whose cells
            reach over several columns takes what there is.
    """
    around, rows = PAD + BESIDE, [row for row in rows if len(row) == len(titles)]
    least, brief, whole, headed = [], [], [], []
    for number, title in enumerate(titles):
        cells, heads = [row[number] for row in rows], [width(word, size.text, "semibold") for word in _words(title)]
        least.append(max(*heads, 0.0, *(_wide(cell, size, _words(cell.short or cell.text)) for cell in cells)) + around)
        brief.append(max(least[-1], *(_wide(cell, size, [cell.short or cell.text]) + around for cell in cells)))
        whole.append(max(least[-1], *(_wide(cell, size, [cell.text]) + around for cell in cells)))
        headed.append(max(whole[-1], width(title, size.text, "semibold") + around))
    wides = headed if sum(headed) <= room else _narrowed(brief if sum(brief) <= room else least, whole, room)
    spare = (room - sum(wides)) / len(titles)
    return [Column(title=title, wide=wide + spare) for title, wide in zip(titles, wides, strict=True)]


def _words(text: str) -> list[str]:
    """What of a text must stay on one line."""
    return _FRACTION.sub(KEPT, text).split(" ")


def _wide(cell: Cell, size: Type, words: Sequence[str]) -> float:
    """What a cell needs for the widest of its words, its tags or its box."""
    if cell.tick:
        return size.tick
    return max(cell.room, sum(tag_width(text) + PAD for _, text in cell.tags), widest(words, size.text, cell.weight))


def _narrowed(least: Sequence[float], whole: Sequence[float], room: float) -> list[float]:
    """Widths cut to one level, none below its least, so that they have room together."""
    fits = [level for level in (0.0, *least, *whole) if sum(_cut(level, least, whole)) <= room]
    if not fits:
        return [one * room / sum(least) for one in least]
    level = max(fits)
    made = _cut(level, least, whole)
    cut = [number for number, (low, high) in enumerate(zip(least, whole, strict=True)) if low <= level < high]
    more = (room - sum(made)) / len(cut) if cut else 0.0
    return [wide + more if number in cut else wide for number, wide in enumerate(made)]


def _cut(level: float, least: Sequence[float], whole: Sequence[float]) -> list[float]:
    return [max(low, min(high, level)) for low, high in zip(least, whole, strict=True)]


# --- lines ---------------------------------------------------------------------------------------


def unfolded(columns: Sequence[Column], rows: Iterable[Row], size: Type = PLAIN) -> list[Row]:
    """The rows with every text that is too wide for its column carried on in rows that join theirs."""
    return [line for row in rows for line in _unfolded(columns, row, size)]


def _unfolded(columns: Sequence[Column], row: Row, size: Type) -> Iterator[Row]:
    place = 0
    texts: list[list[str]] = []
    for cell in row:
        room = sum(column.wide for column in columns[place : place + cell.span]) - PAD - BESIDE + NEAR
        lines = lines_in(cell.text, room, size.text, cell.weight) if cell.text else [""]
        texts.append(lines_in(cell.short, room, size.text, cell.weight) if cell.short and len(lines) > 1 else lines)
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
    if width(text, size, weight) <= room:
        return [unkept(text)]
    lines: list[str] = []
    for word in _words(text):
        if lines and width(f"{lines[-1]} {word}", size, weight) <= room:
            lines[-1] += f" {word}"
        else:
            lines += divided(word, room, size, weight)
    return [unkept(line) for line in lines] or [""]


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
            at = (left + PAD, level - size.under - number * size.line)
            yield Text(at=at, text=line, size=size.text, weight="semibold", layer="table")


def _title(column: Column, size: Type) -> list[str]:
    """A title in lines; a blank behind a hyphen is where a word may break, and goes where it need not."""
    lines = lines_in(column.title, column.wide - PAD, size.text, "semibold") if column.title else []
    return [line.replace("- ", "-") for line in lines]


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
        y = top + (size.row - size.tick) / 2
        places = [(left + PAD + number * (size.tick + PAD), y) for number in range(cell.boxes)]
        if cell.done:
            return [stroke for place in places for stroke in ticked_box(*place, size.tick)]
        return [tick_box(*place, size.tick) for place in places]
    if cell.tags:
        items: list[Item] = []
        at = left + PAD
        for kind, text in cell.tags:
            items += tag(at, top + (size.row - TAG_HIGH) / 2, kind, text)
            at += tag_width(text) + AIR
        return items
    if not cell.text:
        return []
    return [Text(at=(left + PAD, base), text=cell.text, size=size.text, weight=cell.weight, layer="table")]
