"""lists.xlsx (ECMA-376), read back by openpyxl; its totals are worked out anew by a spreadsheet engine, formualizer.

What is totalled here comes from the book, not from the sheet.
"""

import io
from dataclasses import replace

import formualizer
import openpyxl
import pytest
from openpyxl.utils.escape import unescape

import dryfit
from dryfit.book.demos import demo_text
from dryfit.book.reading import read_job_text
from dryfit.documents.looks import Desk
from dryfit.documents.order_table import order_rows
from dryfit.documents.xlsx import ORDER_TOTALS, PARTS_TOTALS, lists_xlsx
from dryfit.studies.buying.result import Buying
from tests.documents.samples import sample_book
from tests.nasty import NASTY_NAMES


@pytest.fixture(scope="module", params=("record-wall", "step-shelf"))
def made(request):
    book = dryfit.build(read_job_text(demo_text(request.param), f"{request.param}.toml"))
    return book, lists_xlsx(Desk(book))


def opened(data, **how):
    return openpyxl.load_workbook(io.BytesIO(data), **how)


def totals(data, name, wanted):
    """Where each total stands: its word, its line and column."""
    sheet = opened(data)[name]
    heads = [cell.value for cell in sheet[1]]
    lines = {cell.value: cell.row for (cell,) in sheet.iter_rows(min_col=2, max_col=2) if cell.value}
    return {total.word: (lines[total.word], heads.index(total.column) + 1) for total in wanted}


def worked_out(data, change=None):
    """A workbook as the engine computes it."""
    book = formualizer.Workbook.from_bytes(data)
    for sheet, row, column, value in change or ():
        book.set_value(sheet, row, column, value)
    book.evaluate_all()
    return book


def test_totals_worked_out_anew_are_those_of_the_book_and_those_that_are_shown_before(made):
    book, data = made
    parts, buying = book.piece.parts, book.found(Buying)
    lots = [lot for order in buying.timber for lot in order.lots]
    expected = {
        "length in all, m": sum(part.length for part in parts) / 1e3,
        "faces, one side, m2": sum(part.length * part.board.depth for part in parts) / 1e6,
        "mass, kg": sum(book.mass_kg.values()),
        "cuts": sum(1 for part in parts for cut in part.cuts if cut.joint is not None or not cut.end),
        "pieces of timber": sum(lot.pieces for lot in lots),
        "timber as ordered, m2": sum(lot.pieces * lot.length * lot.width for lot in lots) / 1e6,
        "price in all": 0.0,
        "lines not priced yet": sum(1 for _ in order_rows(Desk(book))),
    }
    engine, shown = worked_out(data), opened(data, data_only=True)
    for name, wanted in (("parts", PARTS_TOTALS), ("order", ORDER_TOTALS)):
        for word, (row, column) in totals(data, name, wanted).items():
            assert engine.get_value(name, row, column) == pytest.approx(expected.pop(word), abs=0.02), word
            assert shown[name].cell(row, column).value == pytest.approx(engine.get_value(name, row, column), abs=0.001)
    assert not expected


def test_a_price_that_is_filled_in_counts(made):
    book, data = made
    heads = [cell.value for cell in opened(data)["order"][1]]
    many = opened(data)["order"].cell(2, heads.index("order") + 1).value
    engine = worked_out(data, [("order", 2, heads.index("each") + 1, 12.5)])

    row, column = totals(data, "order", ORDER_TOTALS)["price in all"]
    assert engine.get_value("order", row, column) == pytest.approx(12.5 * many)
    row, column = totals(data, "order", ORDER_TOTALS)["lines not priced yet"]
    assert engine.get_value("order", row, column) == len(list(order_rows(Desk(book)))) - 1
    assert not engine.get_value("order", 3, heads.index("price") + 1), "no price, no sum"


@pytest.mark.parametrize("name", NASTY_NAMES)
def test_a_nasty_name_is_text(name):
    book = sample_book()
    parts = tuple(
        replace(part, board=replace(part.board, name=name, timber=name)) if part.mark == "A" else part
        for part in book.piece.parts
    )
    data = lists_xlsx(Desk(replace(book, piece=replace(book.piece, parts=parts))))

    # A return is written `_x000D_`: ECMA-376 part 1, 22.9.2.19 (ST_Xstring)
    cells = [
        cell for sheet in opened(data) for row in sheet.iter_rows() for cell in row if unescape(str(cell.value)) == name
    ]
    assert len(cells) >= 2, "it reads back as it was"
    assert all(cell.data_type == "s" and cell.quotePrefix for cell in cells)
    formulas = [c.value for sheet in opened(data) for row in sheet.iter_rows() for c in row if c.data_type == "f"]
    assert not any("cmd" in formula for formula in formulas)


def test_equal_books_give_equal_bytes():
    assert lists_xlsx(Desk(sample_book())) == lists_xlsx(Desk(sample_book()))
