"""Puts sections side by side in rows, their words under them; neighbours of one lean share their words.

Views of ends are wider than sections and carry their own words; they follow in rows of their own.

What is put in rows is measured, and drawn only where it is asked for: most ways to lay out a sheet have no room.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property, lru_cache

from ....geometry.frames import Vec2
from ....piece.leaning import Head
from ...display import Item, Text, extent, shifted
from ...lettering import TEXT, wrapped
from ...standard import A4, AIR, ROW, STEP, UNDER
from .prose import packed

WIDE = 32.0  # of one section
BETWEEN = 2.0
APART = ROW  # between wider ones, which have figures beside them
FULL = A4[0] / 2  # a row wider than this has room for words, for each sketch as much again at most
MEASURED = 256  # rows kept: of the part at hand and some before it


@dataclass(frozen=True, kw_only=True, eq=False)
class Sketch:
    """One section, drawn from (0, 0) down; itself alone its like, so that what is measured of it is found again.

    Attributes:
        says: lines that stand under it, and under its neighbours if they share them.
        leans: the line of its own, "head leans RIGHT"; may be empty.
        head: which way the head of its walls leans; None where that is not what it shows.
        end: whether it shows an end that the table and the edge's view describe too.
        view: whether it is an end seen from outside.
        naming: how many of its first lines only say which cuts it shows.
        numbers: of the cuts that it shows, where words would tell as much of them as the drawing.
    """

    items: tuple[Item, ...]
    wide: float
    high: float
    leans: str
    says: tuple[str, ...]
    scale: float
    head: Head | None = None
    end: bool = False
    view: bool = False
    naming: int = 0
    numbers: str = ""

    @cached_property
    def right(self) -> float:
        """How far it reaches."""
        return extent(self.items).right


@dataclass(frozen=True, slots=True)
class _Row:
    """Sketches abreast from (0, 0) down, each as far along as `at`, and their words; `right`: how far they reach."""

    made: tuple[Sketch, ...]
    at: tuple[float, ...]
    words: tuple[Item, ...]
    high: float
    right: float


@dataclass(frozen=True, slots=True)
class Arranged:
    """Sections in rows, from (0, 0) down.

    Attributes:
        title: lines above all.
        rows: each with how far down it stands.
        high: of all.
        corner: (x, y) from which on the lower right corner is free: beside a last row that is not full.
    """

    title: tuple[Item, ...]
    rows: tuple[tuple[_Row, float], ...]
    high: float
    corner: Vec2

    def __bool__(self) -> bool:
        """Whether there are any."""
        return bool(self.rows)

    @property
    def right(self) -> float:
        """How far they reach."""
        return max(extent(self.title).right, *(row.right for row, _ in self.rows), -math.inf)

    @property
    def items(self) -> list[Item]:
        """All of it, drawn."""
        items = list(self.title)
        for row, y in self.rows:
            for sketch, x in zip(row.made, row.at, strict=True):
                items += shifted(sketch.items, x, y)
            items += shifted(row.words, 0.0, y)
        return items


def arranged(made: Sequence[Sketch], wide: float, title: str) -> Arranged:
    """Put sections in rows with their words under them; views of ends are left out."""
    made = [sketch for sketch in made if not sketch.view]
    if not made:
        return Arranged((), (), 0.0, (0.0, 0.0))
    lines = tuple(
        Text(at=(0.0, number * STEP + TEXT), text=line) for number, line in enumerate(wrapped(title, wide, TEXT))
    )
    placed: list[tuple[_Row, float]] = []
    y, corner = len(lines) * STEP + AIR, (0.0, 0.0)
    for some in rows(made, wide):
        row = _row(tuple(some), wide)
        placed.append((row, y))
        corner = (sum(max(sketch.wide, WIDE) + _after(sketch) for sketch in some), y)
        y += row.high + AIR
    return Arranged(lines, tuple(placed), y, corner)


def views(made: Sequence[Sketch], wide: float) -> Arranged:
    """Put the views of ends among these in rows."""
    placed: list[tuple[_Row, float]] = []
    y = 0.0
    for some in rows([sketch for sketch in made if sketch.view], wide):
        at = [0.0]
        for sketch in some[:-1]:
            at.append(at[-1] + sketch.wide + APART)
        right = max(x + sketch.right for sketch, x in zip(some, at, strict=True))
        high = max(sketch.high for sketch in some)
        placed.append((_Row(tuple(some), tuple(at), (), high, right), y))
        y += high + BETWEEN
    return Arranged((), tuple(placed), y, (0.0, y))


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


@lru_cache(maxsize=MEASURED)
def _row(row: tuple[Sketch, ...], wide: float) -> _Row:
    """Sections side by side, each with its words under it; words that all share stand under all.

    On a wide row they stand further apart, so that their words take fewer lines.
    """
    words: list[Item] = []
    x, places = 0.0, []
    used = sum(max(sketch.wide, WIDE) + _after(sketch) for sketch in row)
    more = min(WIDE, (wide - used) / len(row)) if wide > FULL else 0.0
    for sketch in row:
        room = max(sketch.wide, WIDE) + max(more, 0.0)
        places.append((x, room))
        x += room + _after(sketch)
    shared = len(row) > 1 and len({(sketch.says, bool(sketch.leans)) for sketch in row}) == 1
    under = max(sketch.high for sketch in row)
    bottoms = [sketch.high + AIR for sketch in row]
    for number, (sketch, (left, room)) in enumerate(zip(row, places, strict=True)):
        y = (under if shared else sketch.high) + TEXT
        if sketch.leans:
            at = (left + room / 2, y)
            words.append(Text(at=at, text=sketch.leans, weight="semibold", anchor="middle"))
            bottoms[number], y = y + UNDER, y + STEP
        if sketch.says and not shared:
            said, bottoms[number] = _lines(sketch.says, (left, room), y)
            words += said
    high = max(bottoms)
    if shared and row[0].says:
        y = under + TEXT + (STEP if row[0].leans else 0.0)
        said, high = _lines(row[0].says, (places[0][0], x - _after(row[-1])), y)
        words += said
    at_each = tuple(left + (room - sketch.wide) / 2 for sketch, (left, room) in zip(row, places, strict=True))
    right = max(x + sketch.right for sketch, x in zip(row, at_each, strict=True))
    return _Row(row, at_each, tuple(words), high, max(right, extent(words).right))


def _lines(says: Sequence[str], place: Vec2, y: float) -> tuple[list[Item], float]:
    left, room = place
    items: list[Item] = []
    for line in packed(says, room, most=2):
        items.append(Text(at=(left + room / 2, y), text=line, anchor="middle"))
        y += STEP
    return items, y - STEP + UNDER if says else y - TEXT
