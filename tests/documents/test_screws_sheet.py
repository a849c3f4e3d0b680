"""The sheet of screws in the hanging book: by fixing its holes, bit and step, what covers it, and what eyes see.

Of the wall of the driving study's tests: a shelf at 500 bored 200 deep, screws at 200, 600 and 1000, a post 90 before
the first from step 5 on, a cover over the second from step 6, nothing before the third; 280 must be free. On the record
wall's shelves, which are raked through by a board 20 proud, one screw has it beside its bit once it is in.
"""

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents.display import Text
from dryfit.documents.looks import Desk
from dryfit.documents.sheets.screws import TITLE
from dryfit.documents.workshop import paper_pdf, paper_sheets
from dryfit.documents.writers import WRITERS
from dryfit.shop.reading import parse_shop
from tests.documents.reading import pages
from tests.joints.typed import board, book_of, job, table
from tests.studies.test_driving import BRICK, eye, fixing, post, shelf, steps
from tests.studies.test_driving_joined import bay, unit, upright

COVER = post(600, 0, name="cover", place=6)


def said(book):
    """The words of the sheet, line by line."""
    return " ".join(" ".join(pages(paper_pdf("hanging", Desk(book)))).split())


def down(book):
    """The words of its columns, each read down: a cell of several lines stands together."""
    columns = {}
    for draft, _ in paper_sheets("hanging", book):
        for item in draft.items if draft.title == TITLE else ():
            if isinstance(item, Text):
                columns.setdefault(round(item.at[0], 1), []).append((item.at[1], item.text))
    return " | ".join(" ".join(text for _, text in sorted(some)) for some in columns.values())


def test_each_screw_has_its_board_height_bore_bit_line_step_and_what_covers_it():
    book = book_of(steps(post(place=5), COVER, at=(200, 600, 1000)))
    words = down(book)

    for part in (
        "A shelf", "500", "wood screw 6 x 110, pan head, nylon plug 8x40, plugged", "15, 200.0 deep",
        "230, as the job says", "280", "step 1, shelf", "at once", "E post 90 before it from step 5",
        "covered by F cover from step 6", "stays free",
    ):  # fmt: skip
        assert part in words, part
    assert "70 across" in said(book)
    assert "the job has no [[eye]]" in words


def test_screws_from_board_to_board_say_when_they_are_driven_and_what_covers_them_then():
    """The bay of the driving study's tests, hung by its shelf: 283 free; the cover comes when the unit is up."""
    wall = table("[wall]", kind="brick", lining=0, hollow=0, hung=True)
    text = bay(wall, fixing(at=(100, 400)), upright("cover", -12), unit("bay", "left", "right", "shelf"))
    words = down(book_of(text))

    for part in (
        "screws from board to board",
        "wood screw 5 x 60",
        "283",
        "50, to buy",
        "covered by D cover",
        "bay, step",
    ):
        assert part in words or part in said(book_of(text)), part


def test_what_is_left_loose_says_until_what_is_in():
    upright = board("upright", [[800, 0], [800, 900]], 260, "24", place=2)
    words = down(book_of(job(BRICK, shelf(place=1), upright, post(3000, name="later", place="last"), fixing())))

    assert "loose; tight after step 2, upright" in words


def test_a_screw_that_cannot_be_driven_says_stop():
    assert "STOP: never" in down(book_of(job(BRICK, post(place=1), shelf(place=2), fixing())))
    assert "STOP: before step 5" in down(book_of(steps(post(off=0, place=5), asked=6)))


def test_what_is_hung_at_once_names_no_step():
    words = said(book_of(job(BRICK, shelf(), fixing())))

    assert "when it is hung" in words
    assert "step 1," not in words


def test_each_eye_has_what_it_sees_and_what_is_hidden_by_which_board():
    text = steps(post(place=5), COVER, at=(200, 600, 1000)) + eye(200, 1500, 2000)
    words = said(book_of(text))

    for part in ("door (200, 1500, 2000)", "plug 3 A shelf seen", "plug 1 A shelf hidden E post", "hidden F cover"):
        assert part in words, part
    assert "no [[eye]]" not in words


@pytest.mark.parametrize(
    ("shop", "bit"), [("", "300, to buy"), ('[[driver]]\nname = "long"\nlength = 250\n', "250, long")]
)
def test_the_bit_is_the_shop_s_or_to_be_bought_and_the_same_on_the_fixings_sheet_and_in_the_order(shop, bit):
    """200 deep and 30 for the chuck are 230."""
    text = job(BRICK, shelf(), fixing().replace("driver = 230\n", ""))
    book, long = build(read_job_text(text), parse_shop(shop)), bit.partition(",")[0]
    papers = {paper: " ".join(" ".join(pages(paper_pdf(paper, Desk(book)))).split()) for paper in ("workshop", "order")}

    assert bit in down(book)
    assert f"driver bit {long}" in papers["workshop"]
    assert f"{long} long" in papers["order"]


def test_what_stands_beside_the_bit_alone_is_told():
    assert "J raking 2 beside the bit from step" in down(build(read_job_text(demo_text("record-wall"))))


def test_in_inches_the_sheet_has_inches():
    text = job(
        BRICK, board("shelf", [[0, 20], [50, 20]], 10, "40"),
        table("[[fixing]]", board="shelf", kind="long screw", at=[8, 40], screw="wood 6x110, pan head",
              anchor="nylon plug 8x40"),
        units="in",
    )  # fmt: skip
    words = said(book_of(text))

    assert "19/32, " in words  # a counterbore of 15
    assert "8x40" in words


def test_a_piece_without_screws_into_a_wall_and_without_eyes_has_no_such_sheet():
    assert paper_pdf("hanging", Desk(book_of(job(shelf(), board("post", [[600, 0], [600, 900]], 260, "24")))))
    assert WRITERS["hanging"].extra
