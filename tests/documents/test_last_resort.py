"""A fault of our own in one sheet or one file leaves the maker all the others, and a page that says what is missing.

The step shelf has a workshop paper of overall sheet, lists, parts and joints; sheets are made to fail on purpose.
"""

import json
import logging
from dataclasses import replace

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents import writing
from dryfit.documents.sheets import SHEETS
from dryfit.documents.sheets.part import maker as part_module
from dryfit.documents.workshop import paper_sheets, workshop_pdf, workshop_sheets
from dryfit.errors import Cancelled
from tests.documents.reading import pages

pytestmark = pytest.mark.usefixtures("isolated")


@pytest.fixture(scope="module")
def book():
    return build(read_job_text(demo_text("step-shelf"), "step-shelf.toml"))


@pytest.fixture(scope="module")
def sound(book):
    return [draft.title for draft, _ in workshop_sheets(book)]


def fails(*given):
    raise ZeroDivisionError("division by zero")


@pytest.mark.parametrize("name", [name for name, sheet in SHEETS.items() if sheet.paper == "workshop"])
def test_a_kind_of_sheet_that_fails_is_replaced_by_one_page(book, sound, monkeypatch, caplog, name):
    monkeypatch.setitem(SHEETS, name, replace(SHEETS[name], make=fails))
    sheets = [draft for draft, _ in workshop_sheets(book)]

    assert [draft.kind for draft in sheets].count("fault") == 1
    assert [draft.title for draft in sheets if draft.kind != "fault"] == [
        t for t in sound if t in {d.title for d in sheets}
    ]
    assert f"not drawn: the sheets called {name}" in caplog.text


def test_a_part_whose_sheet_fails_is_the_only_one_without(book, sound, monkeypatch):
    drawn = part_module.alike_sheets
    first = min(book.piece.parts, key=lambda part: part.mark)

    def broken(desk, alike):
        if first.id in [look.part.id for look in alike.looks]:
            raise ValueError("no room for the words")
        return drawn(desk, alike)

    def pair_broken(desk, pair):
        if first.id in [look.part.id for look in pair.looks]:
            raise ValueError("no room for the words")
        yield from pairs(desk, pair)

    pairs = part_module.pair_sheets
    monkeypatch.setattr(part_module, "alike_sheets", broken)
    monkeypatch.setattr(part_module, "pair_sheets", pair_broken)
    titles = [draft.title for draft, _ in workshop_sheets(book)]

    missing = [title for title in sound if title not in titles]
    assert len(titles) == len(sound) - len(missing) + 1
    assert missing
    assert all(first.id in title for title in missing)
    (stands_in,) = [title for title in titles if title.startswith("not drawn")]
    assert first.id in stands_in


def test_the_page_in_its_place_says_what_failed_where_and_what_to_do(book, monkeypatch):
    monkeypatch.setitem(SHEETS, "joints", replace(SHEETS["joints"], make=fails))
    (page,) = [text for text in pages(workshop_pdf(book)) if "not drawn" in text]
    said = " ".join(page.split())

    assert "while it drew the sheets called joints" in said
    assert "report it together with the job file step-shelf.toml" in said
    assert "ZeroDivisionError: division by zero" in said
    assert "Traceback" not in said


def test_what_a_kind_drew_before_it_failed_is_kept(book, monkeypatch):
    make = SHEETS["overall"].make

    def half(desk):
        yield from make(desk)
        raise RuntimeError

    monkeypatch.setitem(SHEETS, "overall", replace(SHEETS["overall"], make=half))
    titles = [draft.title for draft, _ in workshop_sheets(book)]
    assert titles[:2] == ["the whole piece", "not drawn: the sheets called overall"]


def test_work_that_is_called_off_is_called_off(book, monkeypatch):
    def called_off(desk):
        raise Cancelled

    monkeypatch.setitem(SHEETS, "joints", replace(SHEETS["joints"], make=called_off))
    with pytest.raises(Cancelled):
        workshop_sheets(book)

    def stop(title):
        raise Cancelled

    with pytest.raises(Cancelled):
        paper_sheets("assembly", book, stop)


def test_a_file_that_cannot_be_made_does_not_keep_the_others_from_the_folder(book, monkeypatch, tmp_path, caplog):
    monkeypatch.setitem(writing.WRITERS, "model.glb", fails)
    with caplog.at_level(logging.WARNING, logger="dryfit"):
        written = writing.write_book(book, tmp_path)

    assert [path.name for path in written] == ["book.json", "parts.csv", "workshop.pdf", "assembly.pdf"]
    assert sorted(path.name for path in tmp_path.iterdir()) == sorted(path.name for path in written)
    assert "not made: model.glb (ZeroDivisionError: division by zero" in caplog.text


def left_out(folder):
    data = json.loads((folder / "book.json").read_text(encoding="utf-8"))
    return {one["name"]: one["why"] for one in data["left_out"]}


def test_the_data_names_the_sheets_and_files_that_are_missing(book, monkeypatch, tmp_path):
    writing.write_book(book, tmp_path / "sound")
    assert left_out(tmp_path / "sound") == {}

    monkeypatch.setitem(SHEETS, "joints", replace(SHEETS["joints"], make=fails))
    monkeypatch.setitem(writing.WRITERS, "model.glb", fails)
    written = writing.write_book(book, tmp_path)
    missing = left_out(tmp_path)

    assert [path.name for path in written] == ["book.json", "parts.csv", "workshop.pdf", "assembly.pdf"]
    assert set(missing) == {"the sheets called joints", "model.glb"}
    assert all("ZeroDivisionError: division by zero" in why for why in missing.values())


def test_where_nothing_can_be_made_the_fault_is_not_hidden(book, monkeypatch, tmp_path):
    for name in writing.WRITERS:
        monkeypatch.setitem(writing.WRITERS, name, fails)
    with pytest.raises(ZeroDivisionError):
        writing.write_book(book, tmp_path / "papers")
    assert not (tmp_path / "papers").exists()
