"""Puts sections side by side in rows, their words under them; neighbours of one lean share their words.

Views of ends are wider than sections and carry their own words; they follow in rows of their own.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ....geometry.frames import Vec2
from ...display import Item, Text, shifted
from ...lettering import TEXT, wrapped
from .prose import packed

WIDE = 32.0  # of one section
BETWEEN = 2.0
APART = 6.0  # between wider ones, which have figures beside them
FULL, MORE = 100.0, 26.0  # a row wider than this has room for words, so much for each sketch
LINE = 3.6


@dataclass(frozen=True, slots=True, kw_only=True)
class Sketch:
    """One section, drawn from (0, 0) down.

    Attributes:
        says: lines that stand under it, and under its neighbours if they share them.
        leans: the line of its own, "head leans RIGHT"; may be empty.
        end: whether it shows an end that the table and the edge's view describe too.
        view: whether it is an end seen from outside.
    """

    items: tuple[Item, ...]
    wide: float
    high: float
    leans: str
    says: tuple[str, ...]
    scale: float
    end: bool = False
    view: bool = False


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
    """Put sections in rows with their words under them; views of ends are left out."""
    made = [sketch for sketch in made if not sketch.view]
    items: list[Item] = []
    y, corner = 0.0, (0.0, 0.0)
    for line in wrapped(title, wide, TEXT) if made else ():
        items.append(Text(at=(0.0, y + TEXT), text=line))
        y += LINE
    y += 0.4 if made else 0.0
    for row in rows(made, wide):
        more, high = _drawn_row(row, wide)
        items += shifted(more, 0.0, y)
        corner = (sum(max(sketch.wide, WIDE) + _after(sketch) for sketch in row), y)
        y += high + 0.6
    return Arranged(items, y if made else 0.0, corner)


def views(made: Sequence[Sketch], wide: float) -> Arranged:
    """Put the views of ends among these in rows."""
    items: list[Item] = []
    y = 0.0
    for row in rows([sketch for sketch in made if sketch.view], wide):
        x = 0.0
        for sketch in row:
            items += shifted(sketch.items, x, y)
            x += sketch.wide + APART
        y += max(sketch.high for sketch in row) + BETWEEN
    return Arranged(items, y, (0.0, y))


def rows(made: Iterable[Sketch], wide: float) -> list[list[Sketch]]:
    """As many side by side as fit."""
    found: list[list[Sketch]] = []
    used = 0.0
    for sketch in made:
        need = max(sketch.wide, WIDE) + _after(sketch)
        if not found or used + need > wide + _after(sketch):
            found.append([])
            used = 0.0
        found[-1].append(sketch)
        used += need
    return found


def _after(sketch: Sketch) -> float:
    """Room between a sketch and the next."""
    return APART if sketch.wide > WIDE else BETWEEN


def _drawn_row(row: Sequence[Sketch], wide: float) -> tuple[list[Item], float]:
    """Sections side by side, each with its words under it; words that all share stand under all.

    On a wide row they stand further apart, so that their words take fewer lines.
    """
    items: list[Item] = []
    x, places = 0.0, []
    used = sum(max(sketch.wide, WIDE) + _after(sketch) for sketch in row)
    more = min(MORE, (wide - used) / len(row)) if wide > FULL else 0.0
    for sketch in row:
        room = max(sketch.wide, WIDE) + max(more, 0.0)
        items += shifted(sketch.items, x + (room - sketch.wide) / 2, 0.0)
        places.append((x, room))
        x += room + _after(sketch)
    shared = len(row) > 1 and len({(sketch.says, bool(sketch.leans)) for sketch in row}) == 1
    under = max(sketch.high for sketch in row)
    bottoms = [sketch.high + 0.6 for sketch in row]
    for number, (sketch, (left, room)) in enumerate(zip(row, places, strict=True)):
        y = (under if shared else sketch.high) + TEXT
        if sketch.leans:
            at = (left + room / 2, y)
            items.append(Text(at=at, text=sketch.leans, weight="semibold", anchor="middle"))
            bottoms[number], y = y + 1.2, y + LINE
        if sketch.says and not shared:
            words, bottoms[number] = _lines(sketch.says, (left, room), y)
            items += words
    if shared and row[0].says:
        y = under + TEXT + (LINE if row[0].leans else 0.0)
        words, bottom = _lines(row[0].says, (places[0][0], x - _after(row[-1])), y)
        return [*items, *words], bottom
    return items, max(bottoms)


def _lines(says: Sequence[str], place: Vec2, y: float) -> tuple[list[Item], float]:
    left, room = place
    items: list[Item] = []
    for line in packed(says, room, most=2):
        items.append(Text(at=(left + room / 2, y), text=line, anchor="middle"))
        y += LINE
    return items, y - LINE + 1.2 if says else y - TEXT
