"""Puts sections side by side in rows, their words under them; neighbours of one lean share their words."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ...geometry.frames import Vec2
from ..display import Item, Text, shifted
from ..lettering import TEXT, width, wrapped

WIDE = 32.0  # of one section
BETWEEN = 2.0
DOT = " · "
LINE = 3.6


@dataclass(frozen=True, slots=True, kw_only=True)
class Sketch:
    """One section, drawn from (0, 0) down.

    Attributes:
        says: lines that stand under it, and under its neighbours if they share them.
        leans: the line of its own, "head leans RIGHT"; may be empty.
        end: whether it shows an end that the table and the edge's view describe too.
    """

    items: tuple[Item, ...]
    wide: float
    high: float
    leans: str
    says: tuple[str, ...]
    scale: float
    end: bool = False


@dataclass(frozen=True, slots=True)
class Arranged:
    """Sections in rows, from (0, 0) down.

    Attributes:
        high: of all.
        corner: (x, y) from which on the lower right corner is free: beside a last row that is not full.
    """

    items: list[Item]
    high: float
    corner: Vec2


def arranged(made: Sequence[Sketch], wide: float, title: str) -> Arranged:
    """Put sections in rows with their words under them."""
    items: list[Item] = []
    y, corner = 0.0, (0.0, 0.0)
    for line in wrapped(title, wide, TEXT) if made else ():
        items.append(Text(at=(0.0, y + TEXT), text=line))
        y += LINE
    y += 0.4 if made else 0.0
    for row in _rows(made, wide):
        more, high = _drawn_row(row)
        items += shifted(more, 0.0, y)
        corner = (sum(max(sketch.wide, WIDE) + BETWEEN for sketch in row), y)
        y += high + 0.6
    return Arranged(items, y if made else 0.0, corner)


def _rows(made: Iterable[Sketch], wide: float) -> list[list[Sketch]]:
    """As many side by side as fit."""
    rows: list[list[Sketch]] = []
    used = 0.0
    for sketch in made:
        need = max(sketch.wide, WIDE) + BETWEEN
        if not rows or used + need > wide + BETWEEN:
            rows.append([])
            used = 0.0
        rows[-1].append(sketch)
        used += need
    return rows


def _drawn_row(row: Sequence[Sketch]) -> tuple[list[Item], float]:
    items: list[Item] = []
    x, places = 0.0, []
    for sketch in row:
        room = max(sketch.wide, WIDE)
        items += shifted(sketch.items, x + (room - sketch.wide) / 2, 0.0)
        places.append((x, room))
        x += room + BETWEEN
    y = max(sketch.high for sketch in row) + TEXT
    if not any(sketch.leans or sketch.says for sketch in row):
        return items, y - TEXT + 0.6
    if any(sketch.leans for sketch in row):
        for sketch, (left, room) in zip(row, places, strict=True):
            if sketch.leans:
                at = (left + room / 2, y)
                items.append(Text(at=at, text=sketch.leans, weight="semibold", anchor="middle"))
        y += LINE
    if len(row) > 1 and len({sketch.says for sketch in row}) == 1:
        words, y = _lines(row[0].says, (places[0][0], x - BETWEEN), y)
        return [*items, *words], y
    bottoms = [y]
    for sketch, (left, room) in zip(row, places, strict=True):
        words, bottom = _lines(sketch.says, (left, room), y)
        items += words
        bottoms.append(bottom)
    return items, max(bottoms)


def packed(pieces: Sequence[str], room: float) -> list[str]:
    """Short pieces in as few lines as hold them, two to a line at most."""
    lines: list[str] = []
    for piece in pieces:
        longer = f"{lines[-1]}{DOT}{piece}" if lines else piece
        if lines and DOT not in lines[-1] and width(longer, TEXT) <= room:
            lines[-1] = longer
        else:
            lines.append(piece)
    return lines


def _lines(says: Sequence[str], place: Vec2, y: float) -> tuple[list[Item], float]:
    left, room = place
    items: list[Item] = []
    for line in packed(says, room):
        items.append(Text(at=(left + room / 2, y), text=line, anchor="middle"))
        y += LINE
    return items, y - LINE + 1.2 if says else y - TEXT
