"""The order as it is sent: read back from its PDF and its table (RFC 4180), against sums made by hand.

The record wall's shelves are 2600 x 300 of 24 oak that measured 24.1: three pieces of 2620 x 304. Ten long screws
are 12 to order, 25 g of glue a bottle of 100. The finish covers 12.39 m2 twice at 10 m2 a litre: with a tenth 2.8 l.
"""

import csv
import io
import re

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.documents.display import Text
from dryfit.documents.faults import faults
from dryfit.documents.looks import Desk
from dryfit.documents.order_table import COLUMNS
from dryfit.documents.sheets.order import timber
from dryfit.documents.workshop import paper_pdf, paper_sheets
from dryfit.documents.writers import WRITERS
from dryfit.shop.model import Bit, Shop
from tests.documents import demo_papers
from tests.documents.reading import pages
from tests.documents.samples import sample_book

DEMOS = ("record-wall", "sample-grid", "step-shelf")
SAWN = """\
dryfit = 1
[job]
title = "Hall bench"
units = "UNITS"
[timber.oak]
species = "oak, European"
form = "board"
thickness = THICK
planed = false
MORE
[[board]]
name = "shelf"
line = [[0, 12], [40, 12]]
depth = 10
"""


@pytest.fixture(scope="module")
def demos():
    return {name: demo_papers.book(name) for name in DEMOS}


def printed(book):
    """The words of each sheet of the order."""
    return [re.sub(r"\s+", " ", text) for text in pages(paper_pdf("order", Desk(book)))]


def rows(book):
    ((_, data),) = WRITERS["order-rows"].files(Desk(book))
    return list(csv.DictReader(io.StringIO(data.decode(), newline="")))


def sawn(more="", units="mm", thick="1"):
    return build(read_job_text(SAWN.replace("MORE", more).replace("UNITS", units).replace("THICK", thick)))


# ---- the sheet


def test_timber_is_ordered_by_its_nominal_thickness_with_what_was_measured_beside_it(demos):
    (text,) = printed(demos["record-wall"])

    assert "white oak, edge-glued panel, 24 thick (measured in the shop: 23.8 to 24.1)" in text
    assert "3 2620 × 304 2600 × 300 A, B, C front, both ends" in text
    assert "2 480 × 284 460 × 280 P, R front" in text
    assert "10 extra at each end and 2 at each edge (common practice), rounded up; no piece smaller" in text
    assert "edge-glued panels 10 to 15 % (common practice)" in text


def test_who_supplies_it_and_for_how_much_is_left_to_be_filled_in(demos):
    (text,) = printed(demos["record-wall"])

    for word in ("Supplier:", "From:", "Date:", "Wanted by:", "Deliver to:", "Total:", "price", "2026-05-04"):
        assert word in text
    assert "Tamsin" not in text, "the supplier need not know for whom it is"


def test_hardware_and_supplies_are_ordered_with_their_spares(demos):
    (text,) = printed(demos["record-wall"])

    assert "wood screw 5 x 120, plain shank for 57 A × wall, C × wall, D × wall 10 12" in text
    assert "D3 PVA glue bottle of 100 g glued joints 25 g 1" in text
    assert "polyurethane varnish 2 coats all but inside the joints 12.39 m² 2.8 l" in text
    assert "masking tape 25 mm wide joints of H, J 7 m 1 roll" in text
    assert "one in 10, 2 at least (common practice)" in text
    assert (
        "Glue: 12 g end on end, 13 g side on end, at 150 g/m² (usual data sheets (from memory)), with 10 % spare"
        in text
    )
    assert text.count("usual data sheets") == 1


def test_what_is_made_in_the_shop_stands_apart_with_the_strip_that_it_is_cut_from(demos):
    (text,) = printed(demos["record-wall"])
    order, at_hand = text.split("not ordered: to make, and to have to hand")

    assert "key" not in order
    assert "12 14 610 × 22 × 4" in at_hand
    assert "plug 12 diameter, oak, white A × wall, C × wall, D × wall 10 12 230 × 18 × 8" in at_hand
    for tool in ("plug cutter 12 diameter", "driver bit 300 long", "pilot bit 3.5", "bit 12, 243 deep D1"):
        assert tool in at_hand
    assert "24 thick: R1 to R14 90 each; D1 with D2 80; M1, M2 200 each, sawn in two; K1 100" in at_hand
    assert not re.search(r"\b[RDMK]\d", order.replace("D3 PVA", "")), "no set-up stands in what is sent"


@pytest.mark.parametrize("name", DEMOS)
def test_a_demo_s_order_is_one_sheet_without_a_fault_and_nothing_on_it_is_cut_short(demos, name):
    ((draft, display),) = paper_sheets("order", demos[name])

    assert faults(display) == []
    assert not [item.text for item in display.items if isinstance(item, Text) and "…" in item.text]
    assert draft.number == "ORDER"


def test_a_job_in_inches_is_ordered_in_inches_and_its_nominal_thickness_as_a_rule_has_it(demos):
    """60 and 2 x 10 mm is 60.79, told up to 61; plywood is sawn to its width."""
    (text,) = printed(demos["sample-grid"])

    assert "birch plywood, 3/4 thick (measured in the shop: 0.719)" in text
    assert "8 61 × 11 3/4 60 × 11 3/4 A, B, C, D, E, F, G, H front and back, one end" in text
    assert "ft²" in text
    assert "The joints need none. No finish is ordered: the job names none." in text


def test_sawn_timber_asks_for_what_planes_to_size_and_says_where_its_nominal_thickness_is_not_known():
    (unknown,), (known,) = printed(sawn(units="in")), printed(sawn('nominal = "5/4 in"', units="in"))

    assert "European oak, board, sawn, nominal thickness not given: 1 15/64 or more, to be planed to 1.000" in unknown
    assert "European oak, board, sawn, nominal 1 1/4: 1 15/64 or more, to be planed to 1.000" in known


def test_a_thickness_off_a_caliper_is_not_sent_as_one_that_is_sold():
    text = demo_text("step-shelf").replace("thickness = 20\nmeasured  = 19.8", "thickness = 19.8")
    (said,) = printed(build(read_job_text(text)))

    assert "19.8 thick: nominal thickness not given, ask for stock that finishes at 19.8 or more" in said


def test_panels_are_told_with_how_many_pieces_one_gives(demos):
    """96 along holds one of 88 1/2 or of 61, 48 across four of 11 3/4 and three kerfs, 47 1/4: 13 pieces, 4 sheets."""
    text = demo_text("sample-grid").replace("thickness = 0.75", "thickness = 0.75\npanel = [96, 48]")
    (said,) = printed(build(read_job_text(text)))

    assert "4 sheets of 96 × 48 (3 by area alone)" in said
    assert "5 88 1/2 × 11 3/4 87 1/2 × 11 3/4 J, K, L, M, N front and back, both ends 4" in said


def test_without_a_shop_file_no_tool_is_ordered_and_with_one_what_it_lacks(demos):
    shop = Shop(file="shop.toml", bits=(Bit(name="12", diameter=12.0, length=460.0),))
    (lacking,) = printed(build(demos["record-wall"].job, shop=shop))

    assert "bit of 5.5 long bore: A, C, D 1 1" in lacking
    assert "bit of" not in printed(demos["record-wall"])[0].partition("not on order")[0]


AT_ITS_END = """
[[fixing]]
name = "a"
board = "lower shelf"
kind = "long screw"
at = [0]
"""


def test_a_book_with_stops_says_on_its_order_not_to_order_from_it():
    book = build(read_job_text(demo_text("step-shelf") + AT_ITS_END))
    assert book.stops

    assert "do not order from this sheet" in printed(book)[0]


def test_a_book_without_the_study_says_that_timber_is_not_worked_out():
    assert "Not worked out" in printed(sample_book())[0]


@pytest.mark.usefixtures("isolated")
def test_a_list_that_cannot_be_made_takes_no_other_away(demos, monkeypatch):
    def fails(*given):
        raise ZeroDivisionError

    monkeypatch.setattr(timber, "headed", fails)
    first, instead = printed(demos["record-wall"])

    assert "wood screw 5 x 120" in first
    assert "not drawn: the order of timber" in instead


# ---- the table


@pytest.mark.parametrize("name", DEMOS)
def test_every_line_of_timber_in_the_table_stands_on_the_sheet_and_holds_every_board_once(demos, name):
    book, found = demos[name], rows(demos[name])
    lines = [row for row in found if row["kind"] == "timber"]
    marks = [mark for row in lines for mark in row["for"].split()]

    assert sorted(marks) == sorted(part.mark for part in book.piece.parts)
    if book.job.units == "mm":
        (text,) = printed(book)
        assert all(f"{row['order']} {row['length']} × {row['width']}" in text for row in lines)
    for row in lines:
        for mark in row["for"].split():
            (part,) = [part for part in book.piece.parts if part.mark == mark]
            assert float(row["finished_length"]) == pytest.approx(part.length, abs=0.1)
            assert float(row["finished_width"]) == pytest.approx(part.board.depth, abs=0.1)


def test_the_table_has_the_columns_that_are_promised_and_the_figures_of_the_sheet(demos):
    found = rows(demos["record-wall"])

    assert tuple(found[0]) == COLUMNS
    shelf = found[0]
    assert (shelf["item"], shelf["thickness_sold"], shelf["thickness"]) == ("white oak, edge-glued panel", "24", "24.1")
    counts = {(row["kind"], row["unit"]): row["order"] for row in found if row["kind"] != "timber"}
    assert counts["hardware", "1"] == "12"
    assert counts["glue", "1"] == "1"
    assert counts["finish", "l"] == "2.8"
    assert counts["abrasive", "1"] == ""
    assert all(row["source"] and row["stamp"] for row in found)


def test_lines_end_in_cr_lf_and_the_table_is_in_mm_in_a_job_in_inches_too(demos):
    ((name, data),) = WRITERS["order-rows"].files(Desk(demos["sample-grid"]))

    assert name == "order.csv"
    assert data.count(b"\n") == data.count(b"\r\n")
    assert [row["finished_length"] for row in rows(demos["sample-grid"])[:2]] == ["2222.5", "1524"]
    assert "extra at each end" in rows(demos["sample-grid"])[0]["source"]
