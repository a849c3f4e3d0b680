"""In a notebook: docs/notebook.md as it stands, and every name as text in what is shown."""

import doctest
import xml.etree.ElementTree as ET
from dataclasses import replace
from pathlib import Path

import pytest

import dryfit
from dryfit.book.demos import demo_text
from dryfit.documents.notebook import book_shown, job_shown
from tests.documents.samples import sample_book
from tests.nasty import NASTY_NAMES

PAGE = Path(__file__).parents[1] / "docs" / "notebook.md"


@pytest.fixture
def shelf(tmp_path, monkeypatch):
    (tmp_path / "shelf.toml").write_text(demo_text("step-shelf"), encoding="utf-8")
    monkeypatch.chdir(tmp_path)
    return dryfit.read("shelf.toml")


def test_the_page_runs_as_it_stands(shelf):
    found = doctest.testfile(str(PAGE), module_relative=False)
    assert found.attempted > 10
    assert found.failed == 0


def test_a_job_and_a_book_answer_a_notebook(shelf):
    book = dryfit.build(shelf)
    for thing in (shelf, book):
        bundle = thing._repr_mimebundle_(include=None, exclude=None)
        root = ET.fromstring(bundle["text/html"])
        table = root.find("table")
        assert len(table.findall("tr")) == 1 + len(book.piece.parts)
        drawn = [one for one in root.iter() if one.tag.endswith("}path") and len(one)]
        assert len(drawn) == len(book.piece.parts)
    sheets = [one for one in ET.fromstring(book_shown(book)["text/html"]) if one.tag.endswith("svg")]
    assert len(sheets) == 2, "the drawing, and the first sheet"


def test_what_was_not_checked_and_what_stops_is_told(shelf):
    book = dryfit.build(shelf)
    says = job_shown(shelf)["text/plain"]
    assert f"{len(book.stops)} stops, {len(book.findings)} findings, {len(book.not_checked)} not checked" in says


@pytest.mark.parametrize("name", NASTY_NAMES)
def test_a_nasty_name_is_text(name):
    book = sample_book()
    parts = tuple(
        replace(part, board=replace(part.board, timber=name)) if part.mark == "A" else part for part in book.piece.parts
    )
    odd = replace(book, job=replace(book.job, title=name), piece=replace(book.piece, parts=parts))
    root = ET.fromstring(book_shown(odd)["text/html"])
    plain = {element.tag.rpartition("}")[2] for element in root.iter()}
    assert plain <= {"div", "p", "ul", "li", "table", "tr", "th", "td", "svg", "g", "path", "title", "circle", "text"}
    assert name.replace("\r\n", "\n") in {cell.text.replace("\r\n", "\n") for cell in root.iter("td") if cell.text}
