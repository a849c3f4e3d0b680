"""Lists that run over as many portrait sheets as they need: tables with their titles, and paragraphs."""

import math
from collections.abc import Sequence

from ...display import Draft, Held, Item, Text, extent, shifted
from ...lettering import FIGURE, TEXT
from ...looks import Desk
from ...pages import listed
from ...standard import A4
from .frame import heading, space
from .prose import TextPlace, WordRun, flow
from .table import GUTTER, ROW, Column, Row, abreast, columns_for, drawn, fitting, head_high, rows_high, unfolded

LEAST_ROWS = 2  # a table begins on a sheet only if so many of its rows fit there
TITLE = 2 * FIGURE  # from its top to the table
AFTER, NOTE = ROW, 2.0  # below a table; from it to its note
SHORT = 8  # lines of a table that is not parted from its note


class Sheaf:
    """Collects what is listed, from the top of the first sheet on; `after` is the room below a table."""

    def __init__(
        self,
        desk: Desk,
        *,
        letter: str,
        title: str,
        says: tuple[str, ...],
        kind: str,
        number: str,
        after: float = AFTER,
    ) -> None:
        self._desk, self._letter, self._title, self._says = desk, letter, title, says
        self._kind, self._number, self._after = kind, number, after
        self.space = space(A4, desk)
        self._done: list[tuple[list[Item], list[Held]]] = []
        self._items: list[Item] = []
        self._holds: list[Held] = []
        self._y, self._fresh = 0.0, True
        self._begin()

    def drafts(self) -> list[Draft]:
        """All sheets."""
        sheets = [*self._done, (self._items, self._holds)]
        return [
            Draft(
                title=self._title,
                kind=self._kind,
                number=f"{self._number}{number}" if len(sheets) > 1 else self._number,
                scale="–",
                size=A4,
                items=tuple(items),
                holds=tuple(holds),
            )
            for number, (items, holds) in enumerate(sheets, start=1)
        ]

    def table(self, title: str, heads: Sequence[str], rows: Sequence[Row], note: Sequence[WordRun] = ()) -> None:
        """A table; its title and head are said again on each further sheet, and no word of it is left out.

        Args:
            heads: titles of its columns, a cell of each row for each.
            note: a paragraph that belongs to it; a short table goes to the next sheet rather than lose its note.
        """
        columns = columns_for(heads, rows, self.space.wide)
        left = unfolded(columns, rows)
        said = title
        whole = TITLE + head_high(columns) + rows_high(left) + self._note_high(note)
        if len(left) <= SHORT and self._y + whole > self.space.bottom and not self._fresh:
            self._turn()
        while left:
            self._begin_table(said, columns, left)
            self._hold(title)
            count = fitting(left, self.space.bottom - self._y - head_high(columns))
            self._draw(columns, left[:count])
            left, said = left[count:], f"{title}, continued"
            if left:
                self._turn()
        if note:
            self._y -= self._after - NOTE
            self.paragraphs("", [note])

    def _note_high(self, note: Sequence[WordRun]) -> float:
        return NOTE + flow([TextPlace(0.0, 0.0, self.space.wide, math.inf)], [note]).bottom if note else 0.0

    def tables_abreast(self, title: str, heads: Sequence[str], rows: Sequence[Row], count: int) -> None:
        """A table of short rows as several side by side, on each sheet down the first and on at the next."""
        columns = columns_for(heads, rows, (self.space.wide - (count - 1) * GUTTER) / count)
        left, said = list(rows), title
        while left:
            wide, made = _abreast(columns, left, count)
            self._begin_table(said, wide, made)
            self._hold(title)
            room = self.space.bottom - self._y - head_high(wide)
            some = min(len(left), count * max(1, int(room / ROW) + 1))  # no row is lower, so no more can stand here
            if some < len(left):
                wide, made = _abreast(columns, left[:some], count)
            while rows_high(made) > room and some > count:
                some -= 1
                wide, made = _abreast(columns, left[:some], count)
            self._draw(wide, made)
            left, said = left[some:], f"{title}, continued"
            if left:
                self._turn()

    def _begin_table(self, said: str, columns: Sequence[Column], rows: Sequence[Row]) -> None:
        """The title, on a new sheet where this one has no room for the first rows."""
        first = rows_high(rows[: fitting(rows, LEAST_ROWS * ROW)])
        if self._y + TITLE + head_high(columns) + first > self.space.bottom and not self._fresh:
            self._turn()
        self._heading(said)

    def _draw(self, columns: Sequence[Column], rows: Sequence[Row]) -> None:
        self._items += drawn(self.space.left, self._y, columns, rows)
        self._y += head_high(columns) + rows_high(rows) + self._after

    def paragraphs(self, title: str, texts: Sequence[Sequence[WordRun]]) -> None:
        """Paragraphs under a title, each whole on one sheet."""
        for number, runs in enumerate(texts):
            before = TITLE if number == 0 and title else 0.0
            if not self._set(runs, before, title if number == 0 else ""):
                self._turn()
                self._set(runs, before, title if number == 0 else "")
        self._y += self._after - NOTE

    def drawing(self, items: Sequence[Item]) -> None:
        """Something drawn from (0, 0) down, whole on one sheet."""
        high = extent(items).bottom + TEXT
        if self._y + high > self.space.bottom and not self._fresh:
            self._turn()
        self._items += shifted(items, self.space.left, self._y)
        self._y, self._fresh = self._y + high, False

    def _set(self, runs: Sequence[WordRun], before: float, title: str) -> bool:
        place = TextPlace(self.space.left, self._y + before, self.space.wide, self.space.bottom)
        said = flow([place], [runs])
        if not said.whole and not self._fresh:
            return False
        if title:
            self._heading(title)
            self._hold(title)
        self._items += said.items
        self._y, self._fresh = said.bottom + 1.0, False
        return True

    def _hold(self, title: str) -> None:
        """A list is found on the sheet on which it begins."""
        held = Held(place=listed(title), title=title)
        if title and held not in self._holds and not any(held in holds for _, holds in self._done):
            self._holds.append(held)

    def _heading(self, title: str) -> None:
        if title:
            base = self._y + FIGURE
            self._items.append(Text(at=(self.space.left, base), text=title, size=FIGURE, weight="bold"))
            self._y += TITLE
        self._fresh = False

    def _turn(self) -> None:
        """Lay a sheet aside and begin another."""
        self._done.append((self._items, self._holds))
        self._begin()

    def _begin(self) -> None:
        self._items, y = heading(self._letter, self._title, self._says, self.space.right)
        self._y, self._fresh, self._holds = y + TEXT, True, []


def _abreast(columns: Sequence[Column], rows: Sequence[Row], count: int) -> tuple[list[Column], list[Row]]:
    wide, made = abreast(columns, rows, min(count, len(rows)))
    return wide, unfolded(wide, made)
