"""The overall sheet and the lists: every board with its letter and blank, every finding with what to do."""

import re

import pytest

import dryfit
from dryfit.documents.display import Text
from dryfit.documents.faults import faults
from dryfit.documents.workshop import workshop_pdf, workshop_sheets
from tests.documents.reading import pages
from tests.documents.samples import sample_book

DEMOS = ["record-wall", "step-shelf", "sample-grid"]


@pytest.fixture(scope="module")
def data():
    return workshop_pdf(sample_book())


def test_the_overall_sheet_gives_places_along_the_floor_and_heights(data):
    """D's left face stands at 1420 - 12 = 1408, the shelf's upper face lies at 600 + 12 = 612, the head at 1900."""
    overall, _ = workshop_sheets(sample_book())[0]
    said = {item.text for item in overall.items if isinstance(item, Text)}

    assert {"1408", "612", "1900", "2600"} <= said
    assert "2600 wide × 1900 high × 330 deep" in re.sub(r"\s+", " ", pages(data)[0])


def test_the_list_orders_a_blank_for_every_board(data):
    text = re.sub(r"\s+", " ", pages(data)[1])

    assert "2635 × 330 × 24" in text
    assert "A long shelf 2600 330 24" in text
    assert "24 × 330 2635 · 1947.5 · 1947.5 · 1920 · 616 5 9.07 m" in text


@pytest.mark.parametrize("name", DEMOS)
def test_no_sheet_of_a_demo_has_a_fault(name):
    from dryfit.book.demos import demo_text
    from dryfit.book.reading import read_job_text

    book = dryfit.build(read_job_text(demo_text(name), f"{name}.toml"))

    for draft, display in workshop_sheets(book):
        assert faults(display) == [], f"{name}: {draft.title}"
