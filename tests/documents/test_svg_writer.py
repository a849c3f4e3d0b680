"""svg/: each picture is well-formed XML, as large as its page in the PDF (72 points an inch), with its words."""

import xml.etree.ElementTree as ET
from dataclasses import replace

import pypdfium2 as pdfium
import pytest

from dryfit.documents.looks import Desk
from dryfit.documents.workshop import paper_sheets
from dryfit.documents.writers import WRITERS
from tests.documents.samples import sample_book
from tests.nasty import NASTY_NAMES

NAMESPACE = "{http://www.w3.org/2000/svg}"


def test_each_page_of_a_paper_is_a_picture_of_its_size_with_its_words():
    pictures = dict(WRITERS["svg"].made(Desk(sample_book())))
    for paper in ("workshop", "full-size"):
        (pdf,) = (data for _, data in WRITERS[paper].made(Desk(sample_book())))
        pages = list(pdfium.PdfDocument(pdf))
        own = [data for name, data in pictures.items() if name.startswith(f"svg/{paper}-")]
        assert len(own) == len(pages)
        for page, data in zip(pages, own, strict=True):
            root = ET.fromstring(data)
            size = [float(root.get(side).removesuffix("mm")) / 25.4 * 72 for side in ("width", "height")]
            assert size == pytest.approx(page.get_size(), abs=0.01)
            assert all(float(text.get("textLength")) > 0 for text in root.iter(f"{NAMESPACE}text")), "in any font"
            words = {text.text for text in root.iter(f"{NAMESPACE}text")}
            printed = page.get_textpage().get_text_bounded()
            assert words
            assert all(word in printed for word in words if word.isalpha()), paper


def test_every_paper_that_is_made_of_sheets_is_there():
    names = {name.removeprefix("svg/").rpartition("-")[0] for name, _ in WRITERS["svg"].made(Desk(sample_book()))}
    papers = {writer.binds for writer in WRITERS.values() if writer.binds}
    assert names == {paper for paper in papers if paper_sheets(paper, sample_book())}
    assert papers - names <= {"finish", "guides", "hanging"}, "it has no coats, no slots, and hangs nowhere"


@pytest.mark.parametrize("name", NASTY_NAMES)
def test_a_nasty_title_is_text_in_every_picture(name):
    book = sample_book()
    for _, data in WRITERS["svg"].made(Desk(replace(book, job=replace(book.job, title=name)))):
        root = ET.fromstring(data)
        assert {element.tag.removeprefix(NAMESPACE) for element in root.iter()} <= {
            "svg", "metadata", "path", "circle", "text",
        }  # fmt: skip
