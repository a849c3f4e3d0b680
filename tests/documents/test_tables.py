"""parts.csv: read back by Python's own reader; no name can become a formula (RFC 4180 for the form)."""

import csv
import dataclasses
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.documents.tables import COLUMNS, field, parts_csv
from tests.documents.samples import book_of, long_shelf, sample_book


def rows(text):
    return list(csv.DictReader(io.StringIO(text, newline="")))


def test_each_part_has_a_row_with_its_sizes():
    """The shelf: 2600 over its points, blank 10 + 2600 + 15 + 10; two bores, three slots, one housing."""
    found = rows(parts_csv(sample_book()))

    assert [row["mark"] for row in found] == ["A", "B", "C", "D", "E"]
    shelf = found[0]
    sizes = ("length", "width", "thickness", "blank_length", "blank_width", "blank_thickness", "cuts")
    assert [float(shelf[name]) for name in sizes] == [2600, 330, 24, 2635, 330, 24, 6]
    assert (shelf["face_side"], shelf["face_edge"], shelf["datum_end"]) == ("upper face", "front edge", "left end")


def test_lines_end_in_cr_lf_and_the_columns_are_those_promised():
    text = parts_csv(sample_book())

    assert text.split("\r\n")[0] == ",".join(COLUMNS)
    assert text.count("\n") == text.count("\r\n") == 6


def test_a_part_without_a_known_density_has_no_mass():
    book = dataclasses.replace(sample_book(), mass_kg={})

    assert {row["mass_kg"] for row in rows(parts_csv(book))} == {""}


@pytest.mark.parametrize("name", ["=1+1", "+44", "-shelf", "@sum", "\tx", '=cmd|"/c calc"!A1', 'one, "two"\nthree'])
def test_a_nasty_name_stays_a_name(name):
    shelf = long_shelf()
    part = dataclasses.replace(shelf, board=dataclasses.replace(shelf.board, name=name))

    (row,) = rows(parts_csv(book_of(part)))

    assert row["id"].lstrip("'") == name
    assert not row["id"].startswith(("=", "+", "-", "@", "\t"))


@given(st.text())
def test_any_text_is_read_back_as_one_field(text):
    read, beside = next(csv.reader(io.StringIO(f"{field(text)},x\r\n", newline="")))

    assert read in (text, f"'{text}")
    assert beside == "x"
