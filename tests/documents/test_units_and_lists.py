"""Sheets of a job in inches are in inches throughout, and the lists say what a shop must buy, check and not mix up.

The grid in the demo: plywood 23/32 = 0.719 thick, slots 1/128 wider = 0.727 across. A frame of 900 by 500 on
centre-lines, 24 thick, is 1062.2 over its outside corners: hypot(924, 524) (worked geometry case K14).
"""

import re

import pypdfium2 as pdfium
import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents.looks import Desk
from dryfit.documents.naming import depth, position, printing_in, rise, width
from dryfit.documents.sheets.part.fooling import fooling
from dryfit.documents.workshop import workshop_pdf

HEAD = """\
dryfit = 1
[job]
title = "t"
[timber.oak]
species = "oak, white"
form = "panel"
thickness = 24
[wall]
hung = true
"""
FRAME = """\
[[frame]]
name = "box"
timber = "oak"
points = [[0, 0], [900, 0], [900, 500], [0, 500]]
size = "centre"
depth = 300
"""


def board(name, line, depth=300):
    return f'[[board]]\nname = "{name}"\ntimber = "oak"\nline = {line}\ndepth = {depth}\n'


def words(book):
    pages = pdfium.PdfDocument(workshop_pdf(book))
    return "\n".join(page.get_textpage().get_text_range() for page in pages)


@pytest.fixture(scope="module")
def grid():
    return words(build(read_job_text(demo_text("sample-grid"))))


def test_a_job_in_inches_prints_inches_on_every_sheet(grid):
    assert "mm, degrees" not in grid
    assert 2 * grid.count("inches, degrees") == grid.count("SG-"), "the sheet's number: at its top and in its block"
    assert "0.727" in grid
    assert "3 9/64" in grid  # 3 1/2 less half of 0.727: the near wall of the first slot


def test_figures_are_rounded_as_an_inch_shop_works():
    with printing_in("in"):
        assert (position(25.4 * 57.5), width(25.4 * 0.7271), depth(25.4 * 5.9)) == ("57 1/2", "0.727", "5 29/32")
        assert rise(7.5) == "1.580 in 12"
    assert (position(734.706), width(24.451), depth(8.0), rise(7.5)) == ("734.7", "24.45", "8.0", "39.5 in 300")


def test_the_diagonals_of_a_closed_frame_stand_in_the_lists():
    assert "1062.2" in words(build(read_job_text(HEAD + FRAME)))


def test_the_whole_piece_has_diagonals_where_all_its_four_corners_are_wood():
    """The frame alone is the whole: 1062.2 both times. A leg below it leaves two corners of the box in the air."""
    whole = words(build(read_job_text(HEAD + FRAME)))
    legged = words(build(read_job_text(HEAD + FRAME + board("leg", [[450, -300], [450, 0]]))))
    assert re.search(r"the whole piece\s+1062\.2", whole)
    assert re.search(r"box\s+1062\.2", legged)
    assert not re.search(r"the whole piece\s+\d", legged)


def test_how_far_diagonals_are_off_is_said_in_the_inches_of_an_inch_job():
    """36 by 20 and 24 mm thick: 1/16 of lean at its head is 2 x 1/16 x 36.9 / 42.6 = 0.108, to 1/64 7/64."""
    inches = (HEAD + FRAME).replace("[job]", '[job]\nunits = "in"').replace("= 24", '= "24 mm"')
    for mm, inch in (("900", "36"), ("500", "20"), ("300", "12")):
        inches = inches.replace(mm, inch)
    text = words(build(read_job_text(inches)))
    assert "out by 1/16 of lean" in text
    assert "the two differ by 7/64" in text


@pytest.mark.parametrize(
    ("boards", "said"),
    [
        (
            board("s", [[0, 500], [1000, 500]])
            + board("left", [[200, 0], [200, 900]])
            + board("right", [[800, 0], [800, 901]]),
            "differ by 1 in length",
        ),
        (
            board("up", [[500, 0], [500, 1200]])
            + board("a", [[0, 300], [800, 300]])
            + board("b", [[200, 800], [1000, 800]]),
            "left and right hands",
        ),
        (
            board("up", [[500, 0], [500, 1200]]) + board("a", [[0, 300], [1001, 300]]),
            "looks the same turned end for end, but a cut is 1 off",
        ),
    ],
    ids=["one apart", "mirror hands", "nearly either way round"],
)
def test_boards_that_will_fool_you_are_told(boards, said):
    book = build(read_job_text(HEAD + boards))

    assert any(said in sentence for sentence in fooling(Desk(book))), list(fooling(Desk(book)))


def test_boards_that_are_truly_alike_fool_nobody():
    boards = (
        board("up", [[500, 0], [500, 1200]]) + board("a", [[0, 300], [1000, 300]]) + board("b", [[0, 800], [1000, 800]])
    )

    assert not [sentence for sentence in fooling(Desk(build(read_job_text(HEAD + boards)))) if "B and C" in sentence]


def test_parts_of_one_size_are_told_together_with_the_cuts_that_an_eye_counts():
    """Of the record wall's shelves 1 to 3: 5 slots, a housing and 3 bores; 5 and 3; 5, 3 housings and 3 bores."""
    said = list(fooling(Desk(build(read_job_text(demo_text("record-wall"))))))

    assert "A, B and C are alike in size; A has 9 cuts, B 8, C 11." in said
    assert not [sentence for sentence in said if sentence.startswith(("A and B", "A and C", "B and C"))]


def test_masses_of_a_job_in_inches_are_in_pounds_on_every_sheet_and_add_up():
    """83.6 kg are 184.3 lb of 0.45359237 kg; the first sheet tells 184, the lists 184.3."""
    book = build(read_job_text(demo_text("sample-grid"), "sample-grid.toml"))
    text = words(book)
    pounds = sum(book.mass_kg.values()) / 0.45359237

    assert f"All boards together {pounds:.1f} lb after cutting" in text
    assert f"{pounds:.0f} lb at 12 % moisture" in text
    assert " kg" not in text
