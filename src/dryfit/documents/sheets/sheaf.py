"""Lists that run over as many portrait sheets as they need: tables with their titles, and paragraphs."""

from collections.abc import Sequence

from ..display import Item, Text
from ..lettering import FIGURE
from ..looks import Desk
from .frame import heading, space
from .prose import Place, Run, flow
from .registry import A4, Draft
from .table import ROW, Column, Row, drawn, head_high

LEAST_ROWS = 2  # a table begins on a sheet only if so many of its rows fit there
TITLE = FIGURE + 3.4


class Sheaf:
    """Collects what is listed, from the top of the first sheet on."""

    def __init__(self, desk: Desk, *, letter: str, title: str, says: str, kind: str, number: str) -> None:
        self._desk, self._letter, self._title, self._says = desk, letter, title, says
        self._kind, self._number = kind, number
        self.space = space(A4, desk)
        self._done: list[list[Item]] = []
        self._items: list[Item] = []
        self._y, self._fresh = 0.0, True
        self._begin()

    def drafts(self) -> list[Draft]:
        """All sheets."""
        sheets = [*self._done, self._items]
        return [
            Draft(
                title=self._title,
                kind=self._kind,
                number=f"{self._number}{number}" if len(sheets) > 1 else self._number,
                scale="–",
                size=A4,
                items=tuple(items),
            )
            for number, items in enumerate(sheets, start=1)
        ]

    def table(self, title: str, columns: Sequence[Column], rows: Sequence[Row]) -> None:
        """A table; its title and head are said again on each further sheet."""
        left = list(rows)
        said = title
        while left:
            need = TITLE + head_high(columns) + min(LEAST_ROWS, len(left)) * ROW
            if self._y + need > self.space.bottom and not self._fresh:
                self._turn()
            self._heading(said)
            room = self.space.bottom - self._y - head_high(columns)
            count = max(1, min(len(left), int(room // ROW)))
            self._items += drawn(self.space.left, self._y, columns, left[:count])
            self._y += head_high(columns) + count * ROW + 5.0
            left, said = left[count:], f"{title}, continued"
            if left:
                self._turn()

    def paragraphs(self, title: str, texts: Sequence[Sequence[Run]]) -> None:
        """Paragraphs under a title, each whole on one sheet."""
        for number, runs in enumerate(texts):
            before = TITLE if number == 0 and title else 0.0
            if not self._set(runs, before, title if number == 0 else ""):
                self._turn()
                self._set(runs, before, title if number == 0 else "")
        self._y += 3.0

    def _set(self, runs: Sequence[Run], before: float, title: str) -> bool:
        place = Place(self.space.left, self._y + before, self.space.wide, self.space.bottom)
        said = flow([place], [runs])
        if not said.whole and not self._fresh:
            return False
        if title:
            self._heading(title)
        self._items += said.items
        self._y, self._fresh = said.bottom + 1.0, False
        return True

    def _heading(self, title: str) -> None:
        if title:
            base = self._y + FIGURE
            self._items.append(Text(at=(self.space.left, base), text=title, size=FIGURE, weight="bold"))
            self._y += TITLE
        self._fresh = False

    def _turn(self) -> None:
        """Lay a sheet aside and begin another."""
        self._done.append(self._items)
        self._begin()

    def _begin(self) -> None:
        self._items, y = heading(self._letter, self._title, self._says, self.space.right)
        self._y, self._fresh = y + 3.0, True
