"""lists.xlsx: the parts and the order as a workbook (Office Open XML, ECMA-376), its totals as formulas.

Every text is written as text, whatever it begins with, and marked so that it stays one when its cell is edited; a
formula is made of our own words and cells alone. The stamp of the set stands among its keywords, and as
the archive's comment, where it is found as plain bytes. No clock.
"""

import io
import zipfile
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from datetime import UTC, datetime
from math import prod
from typing import Any, TypeAlias

from ..lengths import MM2_PER_M2, MM_PER_M, written
from . import order_table, tables
from .bookjson import book_stamp
from .looks import Desk

MADE = datetime(2000, 1, 1, tzinfo=UTC).replace(tzinfo=None)  # no clock: a workbook must say when it was made
WIDEST = 40  # letters that a column is made wide for
Values: TypeAlias = Mapping[str, Sequence[str]]  # of the rows, by column


@dataclass(frozen=True, slots=True)
class Total:
    """One total: the formula, with a column's cells by its name; where it stands; and what it shows before it is asked.

    Programs that show a workbook without working it out show the last, so it is worked out here as well.
    """

    word: str
    formula: str
    column: str
    shows: Callable[[Values], float]


def _products(values: Values, *columns: str) -> float:
    """As SUMPRODUCT: what is no number counts as nothing."""
    return sum(
        prod(float(one or 0) for one in row) for row in zip(*(values[column] for column in columns), strict=True)
    )


def _pieces(values: Values) -> float:
    lines = zip(values["kind"], values["order"], strict=True)
    return sum(float(many) for kind, many in lines if kind == "timber" and many)


PARTS_TOTALS = (
    Total("length in all, m", "SUM({length})/1000", "length", lambda rows: _products(rows, "length") / MM_PER_M),
    Total(
        "faces, one side, m2",
        "SUMPRODUCT({length},{width})/1000000",
        "length",
        lambda rows: _products(rows, "length", "width") / MM2_PER_M2,
    ),
    Total("mass, kg", "SUM({mass_kg})", "mass_kg", lambda rows: _products(rows, "mass_kg")),
    Total("cuts", "SUM({cuts})", "cuts", lambda rows: _products(rows, "cuts")),
)
ORDER_TOTALS = (
    Total("pieces of timber", 'SUMIF({kind},"timber",{order})', "order", _pieces),
    Total(
        "timber as ordered, m2",
        "SUMPRODUCT({length},{width},{order})/1000000",
        "order",
        lambda rows: _products(rows, "length", "width", "order") / MM2_PER_M2,
    ),
    Total("price in all", "SUM({price})", "price", lambda rows: 0.0),
    Total("lines not priced yet", "ROWS({each})-COUNT({each})", "price", lambda rows: len(rows["each"])),
)
NUMBERS = {
    "length", "width", "thickness", "blank_length", "blank_width", "blank_thickness", "mass_kg", "cuts",
    "thickness_sold", "finished_length", "finished_width", "order",
}  # fmt: skip


def lists_xlsx(desk: Desk) -> bytes:
    """The workbook: parts, order with a column for prices, and what they belong to."""
    import xlsxwriter

    stamp, whole = book_stamp(desk), io.BytesIO()
    book: Any = xlsxwriter.Workbook(whole, {"in_memory": True})
    book.set_properties({"title": "lists", "keywords": stamp, "created": MADE})
    sheets = _Sheets(book)
    sheets.add("parts", tables.COLUMNS[:-1], [row[:-1] for row in tables.part_rows(desk)], PARTS_TOTALS)
    columns = (*order_table.COLUMNS[:-1], "each", "price")
    sheets.add("order", columns, [(*row, "", "") for row in order_table.order_rows(desk)], ORDER_TOTALS)
    job = desk.book.job
    about = [("job", job.title), ("client", job.client), ("date", job.date), ("state", job.state), ("stamp", stamp)]
    about += [("stops", f"{len(desk.book.stops)}: see the workshop book")] if desk.book.stops else []
    sheets.add("about", ("", "all sizes in mm"), [(word, str(says or "")) for word, says in about], ())
    book.close()
    with zipfile.ZipFile(whole, "a") as archive:
        archive.comment = stamp.encode()
    return whole.getvalue()


class _Sheets:
    """Writes tables into a workbook."""

    def __init__(self, book: Any) -> None:
        self.book = book
        self.head = book.add_format({"bold": True, "bottom": 1})
        self.text = book.add_format({"quote_prefix": True})
        self.total = book.add_format({"bold": True, "num_format": "0.00"})

    def add(self, name: str, columns: Sequence[str], rows: Sequence[Sequence[str]], totals: Sequence[Total]) -> None:
        """One sheet: heads, rows, and under them its totals, each in the column that it is of."""
        sheet = self.book.add_worksheet(name)
        sheet.freeze_panes(1, 0)
        for at, column in enumerate(columns):
            sheet.write_string(0, at, column, self.head)
            longest = max([len(column), *(len(row[at]) for row in rows)])
            sheet.set_column(at, at, min(longest, WIDEST) + 2)
        for line, row in enumerate(rows, start=1):
            for at, (column, says) in enumerate(zip(columns, row, strict=True)):
                if column in NUMBERS and says:
                    sheet.write_number(line, at, float(says))
                elif column == "price":
                    sheet.write_formula(line, at, self._price(columns, line), None, "")
                elif says:
                    sheet.write_string(line, at, says, self.text)
        ranges = {column: self._range(columns, column, len(rows)) for column in columns}
        values = {column: [row[at] for row in rows] for at, column in enumerate(columns)}
        for line, total in enumerate(totals, start=len(rows) + 2):
            sheet.write_string(line, 1, total.word, self.head)
            formula, shows = "=" + total.formula.format(**ranges), written(total.shows(values))
            sheet.write_formula(line, columns.index(total.column), formula, self.total, shows)

    def _price(self, columns: Sequence[str], line: int) -> str:
        """Of a line: what one costs times how many, nothing before that is filled in."""
        many, each = (self._cell(columns, column, line) for column in ("order", "each"))
        return f'=IF({each}="","",{many}*{each})'

    @staticmethod
    def _cell(columns: Sequence[str], column: str, line: int) -> str:
        return f"{_letter(columns.index(column))}{line + 1}"

    @staticmethod
    def _range(columns: Sequence[str], column: str, rows: int) -> str:
        letter = _letter(columns.index(column))
        return f"{letter}2:{letter}{rows + 1}"


def _letter(at: int) -> str:
    """A column's letter; there are fewer than 26."""
    return chr(ord("A") + at)
