"""guides.pdf as it is printed: each figure that is set, each mark, and what a trial cut asks for, read back from it."""

import re

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.faults import faults
from dryfit.documents.looks import Desk
from dryfit.documents.naming import depth, position, printing_in, width
from dryfit.documents.workshop import paper_pdf, paper_sheets
from dryfit.studies.guides.result import Guides
from tests.documents.reading import pages
from tests.joints.typed import board, book_of, job


@pytest.mark.parametrize("name", sorted(demos()))
def test_every_guide_is_printed_with_its_figures_and_its_marks(name):
    book = build(read_job_text(demo_text(name)))
    words = re.sub(r"\s+", " ", " ".join(pages(paper_pdf("guides", Desk(book)))))
    with printing_in(book.job.units):
        for guide in book.found(Guides).all:
            assert guide.setup in words
            for figure in (width(guide.opening), width(guide.offsets[0]), depth(guide.stick_out), position(guide.run)):
                assert figure in words
            for cut in guide.cuts:
                assert f"{position(cut.near)}, {position(cut.far)}" in words
                assert position(cut.edge) in words


@pytest.mark.parametrize("name", sorted(demos()))
def test_nothing_of_it_lies_over_something_else_or_off_the_sheet(name):
    sheets = paper_sheets("guides", build(read_job_text(demo_text(name))))
    assert sheets
    for _, sheet in sheets:
        assert faults(sheet) == []


def test_a_piece_without_slots_has_no_such_sheet():
    book = book_of(job(board("alone", ((0, 0), (600, 0)))))
    assert not list(paper_sheets("guides", book))


def test_the_trial_cut_of_a_leaning_slot_is_read_on_the_face_with_its_cosine():
    """Cos 9 = 0.9877."""
    text = job(
        board("level", ((0, 400), (1200, 400))),
        board("rake", ((536.65, 0), (663.35, 800))),
    )
    words = " ".join(pages(paper_pdf("guides", Desk(book_of(text)))))
    assert "0.9877" in words
