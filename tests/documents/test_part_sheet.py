"""A part's sheet, read back from the PDF: the figures stand at their marks, every sheet is free of faults.

The long shelf of samples.py at 1:10: positions from the datum at x = 22.4 on paper, a figure ending 0.9 left of
its arrow. So "734.7" ends at 22.4 + 73.471 - 0.9 = 94.97.
"""

import dataclasses
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book import build, read_job_text
from dryfit.documents.display import Circle, Stroke, Text
from dryfit.documents.faults import faults
from dryfit.documents.kit.dimension import DimensionMark, UnplacedDimension, put
from dryfit.documents.kit.placing import FilledPaper
from dryfit.documents.looks import Desk, Look
from dryfit.documents.naming import names
from dryfit.documents.sheets.part.alike import AlikeParts
from dryfit.documents.sheets.part.maker import alike_sheets
from dryfit.documents.sheets.part.sketches import sketches
from dryfit.documents.sheets.part.words.notes import checks
from dryfit.documents.sheets.part.words.sums import sums
from dryfit.documents.workshop import workshop_pdf, workshop_sheets
from dryfit.findings import Finding, Severity
from dryfit.geometry.views import Surface
from dryfit.joints.common import SHALLOW
from dryfit.places import Where
from dryfit.shop.model import Shop
from tests.documents import demo_papers, samples
from tests.documents.reading import find, fonts, pages, sizes
from tests.joints.typed import board, book_of, frame, job, joint

ZERO = 22.1  # of the datum on a landscape sheet


@pytest.fixture(scope="module")
def book():
    return samples.sample_book()


@pytest.fixture(scope="module")
def data(book):
    return workshop_pdf(book)


@pytest.fixture(scope="module")
def shelf_page(data):
    return next(number for number, text in enumerate(pages(data)) if "UPPER face, from the datum end" in text)


def texts(draft):
    return [item.text for item in draft.items if isinstance(item, Text)]


def sheets_of(part, **more):
    book = samples.book_of(part, **more)
    return alike_sheets(Desk(book), AlikeParts((Look(part),)))


# --- read back ---------------------------------------------------------------------------------------


def test_every_sheet_of_the_sample_is_free_of_faults(book):
    for draft, display in workshop_sheets(book):
        assert faults(display) == [], draft.title


@pytest.mark.parametrize("figure", ["734.7", "1407.9", "1970.8", "2600"])
def test_a_figure_of_the_upper_face_ends_left_of_its_mark(data, shelf_page, figure):
    found = find(data, shelf_page, figure)
    expected = ZERO + {"734.7": 734.706, "1407.9": 1407.925, "1970.8": 1970.843, "2600": 2600}[figure] / 10 - 1.0

    assert any(place.right == pytest.approx(expected, abs=0.1) for place in found)


@pytest.mark.parametrize("figure", ["730.9", "1974.6", "2317.9"])
def test_a_figure_of_the_lower_face_ends_left_of_its_mark(data, shelf_page, figure):
    found = find(data, shelf_page, figure)

    assert any(place.right == pytest.approx(ZERO + float(figure) / 10 - 1.0, abs=0.1) for place in found)


def test_the_sheet_says_what_its_maker_needs(data, shelf_page):
    text = re.sub(r"\s+", " ", pages(data)[shelf_page])

    for words in (
        "finished 2600 × 330 × 24",
        "blank 2635 × 330 × 24",
        "FACE SIDE upper face",
        "DATUM END left end",
        "81° between faces",
        "9° on the saw",
        "47.5 in 300",
        "marks shift 3.8",
        "head leans RIGHT",
        "head leans LEFT",
        "12 × 280 deep, 6.6 through",
        "LEAVE LONG 15",
        "24.45",
        "8.0 deep",
        "seen from the wall edge, lower face up",  # its leaning slots open there
    ):
        assert words in text, words


def test_every_page_has_its_number_and_no_braces(data):
    read = pages(data)

    for number, text in enumerate(read, start=1):
        assert f"{number} of {len(read)}" in text
        assert "{" not in text
        assert "a324ab17" in text


def test_pages_are_a4_and_their_fonts_ours(data):
    assert {tuple(sorted(round(side, 1) for side in size)) for size in sizes(data)} == {(210.0, 297.0)}
    assert all(name.startswith("IBMPlexSansCond") for name in fonts(data))


def test_the_small_picture_shows_the_part_black_where_it_stands(book):
    (draft,) = alike_sheets(Desk(book), AlikeParts((Desk(book).looks["raking 1"],)))
    dark = [item for item in draft.items if isinstance(item, Stroke) and item.pen == "picture part"]

    (outline,) = dark
    foot = [x for x, y in outline.points if y > max(y for _, y in outline.points) - 0.5]
    head = [x for x, y in outline.points if y < min(y for _, y in outline.points) + 0.5]
    assert min(head) > max(foot), "raking 1 leans right: its head lies right of its foot"


# --- how lengths came about -------------------------------------------------------------------------------

SIDES = (board("left", [[0, 0], [0, 900]]), board("right", [[800, 0], [800, 900]]))
SHELF = board("shelf", [[0, 400], [800, 400]])
STOPPED = (joint("shelf", "left", stop="front"), joint("shelf", "right", stop="front"))


@pytest.mark.parametrize(
    ("text", "name", "said"),
    [
        (job(*SIDES, SHELF), "shelf", ["Length 792 = 776 between faces + 2 × 8.0."]),
        (
            job(*SIDES, SHELF, *STOPPED),
            "shelf",
            ["Length 790 = 776 between shoulders + 2 × 7.0 (8.0 deep less 1.0)."],
        ),
        (
            job(SIDES[0], board("shelf", [[0, 400], [700, 400]])),
            "shelf",
            ["Length 696 = 688 to the face + 8.0."],
        ),
        (
            job(frame([[0, 0], [620, 0], [620, 500], [0, 500]], size="outside")),
            "box 2",
            ["Long points 500 = short points 452 + 2 × 24.0."],
        ),
        (
            job(board("shelf", [[0, 400], [2600, 400]]), "scribe = { end = 15 }\n"),
            "shelf",
            ["Right end: finish line 2600 + 15 left long = cut at 2615."],
        ),
        (job(*SIDES), "left", []),
    ],
    ids=["housed through", "stopped: the shoulder bears", "one end free", "mitred", "to be scribed", "as drawn"],
)
def test_a_length_is_told_as_a_sum(text, name, said):
    """Uprights 800 on centres, 24 thick, 8 deep: 792 bottomed, 790 over the tongues, 776 between shoulders."""
    assert sums(Desk(book_of(text)).looks[name]) == said


@pytest.mark.parametrize("demo", ["record-wall", "step-shelf"])
def test_every_sum_of_the_demos_adds_up(demo):
    """Each figure is rounded to 0.1, so a sum of n figures may be out by n x 0.05."""
    desk = Desk(demo_papers.book(demo))
    told = [said for look in desk.looks.values() for said in sums(look) if "=" in said]

    assert told
    for said in told:
        left, right = re.sub(r"\([^)]*\)", "", said).split("=")
        total = float(re.findall(r"[\d.]*\d", left)[-1])
        terms = [float(a or 1) * float(b) for a, b in re.findall(r"(?:(\d+) × )?(\d+(?:\.\d+)?)", right)]
        assert sum(terms) == pytest.approx(total, abs=0.05 * (len(terms) + 2)), said


@pytest.mark.parametrize("demo", ["record-wall", "sample-grid", "step-shelf"])
def test_what_is_to_be_checked_always_has_a_blank_to_write_it_in(demo):
    desk = Desk(demo_papers.book(demo))

    for look in desk.looks.values():
        runs = checks(desk, (look,))
        assert runs[0].text == "Check against the board before cutting."
        assert any(run.blank for run in runs), look.part.id


def test_a_tongue_is_measured_itself_not_its_board():
    """A tongue of 12 in a housing of 12.10: the play is 0.10, not 12.10 less the board's 24."""
    leaning = board("shelf", [[0, 400], [800, 500]])
    text = job(*SIDES, leaning, joint("shelf", "left", raked="shouldered"), joint("shelf", "right", raked="shouldered"))
    desk = Desk(book_of(text))

    said = " ".join(run.text.replace("\u00a0", " ") for run in checks(desk, (desk.looks["left"],)))
    assert f"measured, + 0.10: tongue of {desk.marks['shelf']}" in said


# --- sections ---------------------------------------------------------------------------------------------


def test_slots_of_one_lean_share_a_section_though_the_board_changes_in_thickness():
    """Raking 2 is 23.8 at its foot and 24.1 at 1500: its marks shift 3.3 and 3.4, its six slots lean alike."""
    desk = Desk(demo_papers.book("record-wall"))

    leaning = [sketch for sketch in sketches(desk, desk.looks["raking 2"], roomy=True) if "cuts 1 to 6" in sketch.says]

    (section,) = leaning
    assert "marks shift 3.3 to 3.4" in section.says


def test_a_first_figure_too_wide_for_its_gap_stands_over_the_datum_s_circle():
    """127.4 is 12.26 wide and ends 1.0 left of its mark 12.74 from the datum: over the circle, not turned."""
    marks = [DimensionMark((20.0 + x, 60.0), figure) for x, figure in ((0.0, ""), (12.74, "127.4"), (54.15, "541.5"))]
    line = UnplacedDimension(way=(1.0, 0.0), marks=tuple(marks), style="running", weight="bold", says="UPPER face")
    paper = FilledPaper()

    assert put(paper, line)
    first = next(item for item in paper.items if isinstance(item, Text) and item.text == "127.4")
    circle = next(item for item in paper.items if isinstance(item, Circle))
    assert first.turn == 0.0
    assert first.at[1] < circle.centre[1] - circle.radius


def test_no_part_of_the_demos_takes_more_than_two_sheets():
    for demo in ("record-wall", "sample-grid", "step-shelf"):
        book = demo_papers.book(demo)
        numbers = [draft.number for draft, _ in demo_papers.sheets(demo) if draft.kind.startswith("part")]

        assert max(map(numbers.count, numbers)) <= 2
        assert len(set(numbers)) <= len(book.piece.parts)


# --- which face is up ------------------------------------------------------------------------------------


def test_the_board_that_leans_left_has_its_face_side_at_minus_c_and_is_seen_from_where_its_slot_opens():
    """To the front: so that the datum end lies left its lower face, at +c, is up."""
    leaning = samples.upright("raking 2", "C", 2080.0, -9.0)
    found = names(leaning.board)

    assert (found.words[found.face_side], found.face_side) == ("upper face", Surface.MINUS)
    assert "seen from the front edge, lower face up" in texts(sheets_of(leaning)[0])


@pytest.mark.parametrize(
    ("angle", "face_side", "upper", "datum"),
    [
        (0, 1, "upper face", "left end"),
        (90, 1, "left face", "lower end"),
        (89.5, 1, "left face", "lower end"),
        (88, 1, "upper face", "lower end"),
        (45, 1, "upper face", "left end"),
        (46, 1, "upper face", "lower end"),
        (92, -1, "upper face", "lower end"),
        (-30, 1, "upper face", "left end"),
    ],
)
def test_faces_and_ends_are_named_by_how_the_board_stands(angle, face_side, upper, datum):
    found = names(samples.board("b", (0.0, 0.0), angle, 1000.0, face_side=face_side))

    assert (found.words[found.face_side], found.words[Surface.DATUM]) == (upper, datum)


def test_a_frame_s_board_has_an_inside():
    found = names(samples.board("b", (0.0, 0.0), 0, 1000.0, inside=-1, face_side=-1))

    assert found.words[found.face_side] == "inside face"
    assert found.words[found.other_face] == "outside face"


# --- what a sheet does when it is hard --------------------------------------------------------------------


def test_a_board_too_long_for_one_to_ten_is_broken_and_shown_whole_beside_it():
    shelf = samples.long_shelf()
    board = dataclasses.replace(shelf.board, length=4000.0, scribe=(0.0, 0.0))
    cuts = tuple(samples.end("long shelf", 1, 4000.0) if cut.end == 1 else cut for cut in shelf.cuts)
    blank = dataclasses.replace(shelf.blank, end=4010.0)
    long = dataclasses.replace(shelf, board=board, cuts=cuts, blank=blank, long=(0.0, 4000.0), short=(0.0, 4000.0))

    drafts = sheets_of(long)

    assert drafts[0].scale.startswith("1:10")
    assert any("the whole board" in text for text in texts(drafts[0]))
    assert "4000" in texts(drafts[0])


def test_a_place_in_inches_and_the_depth_of_a_housing_in_the_underside_stand_clear_of_each_other():
    """28 9/64 and 15/64 deep, side by side under a section 17.2 wide, ran into each other."""
    text = """\
dryfit = 1
[job]
units = "in"
[timber.walnut]
species = "American black walnut"
thickness = "23/32 in"
[[board]]
name = "shelf {i}"
count = 2
line = [[0, "6 + 16 * i"], ["46 + 4 * i", "6 + 16 * i"]]
depth = 11
[[board]]
name = "divider"
line = [[28.5, 22], [28.5, 38]]
depth = 10
"""
    sheets = workshop_sheets(build(read_job_text(text)))
    shelf, display = next(sheet for sheet in sheets if sheet[0].title.endswith("shelf 2"))
    assert {"28 9/64", "15/64 deep"} <= set(texts(shelf))
    assert faults(display) == []


def test_a_shop_that_prints_a3_gets_a_long_board_whole():
    shelf = samples.long_shelf()
    longer = dataclasses.replace(shelf, long=(0.0, 2700.0))

    assert sheets_of(longer, shop=Shop(paper="A3"))[0].size == (420.0, 297.0)


def test_a_book_with_stops_says_so_on_every_sheet():
    trouble = Finding(
        code=SHALLOW,
        severity=Severity.STOP,
        where=Where(boards=("long shelf",)),
        says="the shelf is in two minds",
        remedy="make up its mind",
    )
    data = workshop_pdf(samples.sample_book(findings=(trouble,)))

    for text in pages(data):
        assert "do not cut from this sheet: 1 thing must change first" in text
    assert sum("make up its mind" in re.sub(r"\s+", " ", text) for text in pages(data)) == 2, "overall, and the list"


@settings(max_examples=40)
@given(
    places=st.lists(st.tuples(st.integers(60, 2300), st.sampled_from([-30, -9, 0, 9, 30]), st.booleans()), max_size=14),
    length=st.sampled_from([150, 600, 880, 2400, 5200]),
    depth=st.sampled_from([40, 120, 330, 700]),
)
def test_no_sheet_of_any_board_has_a_fault(places, length, depth):
    """Slots anywhere, near each other and near the ends, on boards of any size: words give way, never overlap."""
    name = "any board"
    cuts = [samples.end(name, -1, 0.0), samples.end(name, 1, float(length))]
    for number, (a, lean, front) in enumerate(places):
        if a < length - 60:
            low, high = (depth / 2, depth + 1.0) if front else (-1.0, depth / 2)
            cuts.append(samples.slot(name, f"upright {number}", float(a), lean, low, high, "front edge"))
    blank = samples.Blank(start=-10.0, end=length + 10.0, width=depth, thickness=24.0)
    board = samples.board(name, (0.0, 500.0), 0, float(length), depth=float(depth))
    part = samples.Part(
        board=board, mark="A", blank=blank, long=(0.0, length), short=(0.0, length), cuts=tuple(cuts)
    )  # fmt: skip

    for draft, display in workshop_sheets(samples.book_of(part)):
        assert faults(display) == [], draft.title
