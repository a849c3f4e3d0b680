"""Sheets drawn by a second process: the same papers to the last byte, whether it lives, dies or never starts.

The step shelf is small, so a second process is forced on it here; it draws the joints' details and the booklet.
"""

import sys
from contextlib import suppress
from dataclasses import replace
from itertools import islice

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents import aside
from dryfit.documents.aside import some_aside
from dryfit.documents.looks import Desk
from dryfit.documents.workshop import ASSEMBLY, PAPER, assembly_pdf, paper_pdf, paper_sheets, workshop_pdf
from dryfit.errors import Cancelled
from dryfit.study.outcome import Done

KINDS = ("joints", "assembly")


@pytest.fixture(scope="module")
def book():
    return build(read_job_text(demo_text("step-shelf")))


@pytest.fixture(autouse=True)
def however_small(monkeypatch):
    """A second process whatever the size of the piece and of the machine."""
    monkeypatch.setattr(aside, "MANY", 1)
    monkeypatch.setattr(aside, "_processors", lambda: 2)


@pytest.fixture(scope="module")
def drawn_here(book):
    return workshop_pdf(book), assembly_pdf(book)


def both(desk):
    return paper_pdf(PAPER, desk), paper_pdf(ASSEMBLY, desk)


def test_the_papers_are_the_same_to_the_last_byte(book, drawn_here):
    desk = Desk(book)
    with some_aside(desk, (PAPER, ASSEMBLY)):
        assert desk.aside is not None
        assert desk.aside.kinds == KINDS
        made = both(desk)
        assert not desk.aside.over, "every sheet came from the second process"
    assert made == drawn_here
    assert desk.missing == {}


def test_they_are_told_as_they_come(book):
    desk, told = Desk(book), []
    with some_aside(desk, (ASSEMBLY,)):
        sheets = paper_sheets(ASSEMBLY, book, told.append, desk)
    assert told == [draft.title for draft, _ in sheets]


@pytest.mark.parametrize("after", [pytest.param(0, marks=pytest.mark.slow), 1, pytest.param(3, marks=pytest.mark.slow)])
def test_a_second_process_that_dies_leaves_the_rest_to_the_first(book, drawn_here, after):
    desk = Desk(book)
    with some_aside(desk, (PAPER, ASSEMBLY)):
        second = desk.aside
        drafts = second.drafts

        def dying(kind, missing):
            if kind == "joints":
                yield from islice(drafts(kind, missing), after)
                second.end()
                second.over = True
                raise ChildProcessError("killed")
            yield from drafts(kind, missing)

        second.drafts = dying
        made = both(desk)
    assert made == drawn_here


def test_where_none_can_be_started_all_is_drawn_here(book, drawn_here, monkeypatch, tmp_path):
    monkeypatch.setattr(sys, "executable", str(tmp_path / "nowhere"))
    desk = Desk(book)
    with some_aside(desk, (PAPER, ASSEMBLY)):
        made = both(desk)
        assert desk.aside.over
    assert made == drawn_here


def test_it_does_not_outlive_the_work(book):
    desk = Desk(book)
    processes = []

    def called_off(_title):
        processes.append(desk.aside._process)
        raise Cancelled("the papers")

    with some_aside(desk, (PAPER,)), suppress(Cancelled):
        paper_sheets(PAPER, book, called_off, desk)
    (process,) = processes
    assert process.poll() is not None
    assert desk.aside is None


def test_a_small_piece_needs_none(book, monkeypatch):
    monkeypatch.setattr(aside, "MANY", len(book.piece.parts) + 1)
    desk = Desk(book)
    with some_aside(desk, (PAPER, ASSEMBLY)):
        assert desk.aside is None


def test_what_it_could_not_draw_is_said_as_if_it_was_drawn_here(book, caplog, isolated):
    """An order that is no order fails either process alike: a page stands in for the booklet."""
    broken = replace(
        book, outcomes={**book.outcomes, "order": Done(result=replace(book.studies["order"], stages=(object(),)))}
    )
    here, desk = Desk(broken), Desk(broken)
    stands_in = paper_pdf(ASSEMBLY, here)
    caplog.clear()
    with some_aside(desk, (ASSEMBLY,)):
        assert paper_pdf(ASSEMBLY, desk) == stands_in
        assert not desk.aside.over
    assert desk.missing == here.missing != {}
    assert "not drawn: the sheets called assembly" in caplog.text
