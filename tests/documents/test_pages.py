"""Pages told before they have numbers: where a sheet says that a thing stands, there it stands in the printed PDF.

The record wall's shelf A takes K in a housing: that cut's row names a page, and on that page stands K × A or A × K. A
place on no page is a dash. A number has at most three figures, as wide as one another.
"""

import re
from dataclasses import replace

import pypdfium2 as pdfium
import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import dryfit
from dryfit.book.demos import demo_text
from dryfit.book.reading import read_job_text
from dryfit.documents.display import Draft, Held, Text
from dryfit.documents.lettering import TEXT, UNPRINTED, printable, width
from dryfit.documents.looks import Desk
from dryfit.documents.pages import NOWHERE, joint, leads, listed, numbered, page_of, part, together
from dryfit.documents.workshop import paper_pdf, paper_sheets
from tests.documents import demo_papers
from tests.documents.reading import pages
from tests.strategies import pieces

DEMOS = ["record-wall", "step-shelf", "sample-grid"]
names = st.text(st.characters(exclude_categories=["Cs", "Cc"]), min_size=1, max_size=12)


def desk_of(demo):
    return Desk(dryfit.build(read_job_text(demo_text(demo))))


@pytest.fixture(scope="module", params=DEMOS)
def printed(request):
    return demo_papers.desk(request.param), demo_papers.paper(request.param)


def on(page):
    """A number function for which everything is on one page."""
    return lambda paper, place: page


def said(*texts, number):
    return [item.text for item in numbered([Text(at=(0.0, 0.0), text=text) for text in texts], number)]


@given(names, names)
def test_whatever_a_board_is_called_its_page_is_told(one, other):
    places = {part(one): 7, joint((one, other)): 12, part(other): 7 if one == other else 9}

    told = f"see page {page_of(part(one))}, and {page_of(joint((one, other)), part(other))}."

    assert said(told, number=lambda paper, place: places.get(place)) == [f"see page 7, and {places[part(other)]}, 12."]


def test_what_is_on_no_page_is_a_dash_and_pages_that_are_one_are_told_once():
    pages_of = {part("a"): 3, part("b"): 3, part("c"): 21}
    number = lambda paper, place: pages_of.get(place)  # noqa: E731

    assert said(page_of(part("d")), page_of(*map(part, "abc")), number=number) == [NOWHERE, "3, 21"]
    assert said(together([page_of(part("c")), page_of(part("a"))]), number=number) == ["3, 21"]
    assert together(["24.1", "wall"]) == ""


@pytest.mark.parametrize("number", [1, 41, 999])
def test_a_page_is_told_in_as_much_room_as_three_figures_take(number):
    told = page_of(part("a shelf with a long name"))

    assert width(told, TEXT) == pytest.approx(width("000", TEXT))
    assert width(said(told, number=on(number))[0], TEXT) <= width(told, TEXT)


@given(st.lists(st.sampled_from([chr(code) for code in UNPRINTED] + ["a", " "]), min_size=1).map("".join))
def test_letters_of_ours_that_a_maker_writes_are_no_page_and_are_never_printed(text):
    (shown,) = said(printable(text), number=lambda paper, place: None)

    assert not set(map(ord, shown)) & set(UNPRINTED)


def test_a_link_covers_what_is_said_of_its_page():
    """Two pages in one text: the first leads from its beginning, the second from where the first ended."""
    number = lambda paper, place: {part("a"): 3, part("b"): 14}[place]  # noqa: E731
    text = Text(at=(30.0, 50.0), text=f"A {page_of(part('a'))}, B {page_of(part('b'))}")
    draft = Draft(title="x", kind="x", number="x", scale="x", size=(210.0, 297.0), items=(text,))

    (lead,) = leads([draft], number)

    first, second = lead.links
    assert (first.page, second.page) == (3, 14)
    assert first.box[0] == pytest.approx(30.0)
    assert first.box[2] == pytest.approx(30.0 + width("A 3", TEXT)) == pytest.approx(second.box[0])
    assert second.box[2] == pytest.approx(30.0 + width("A 3, B 14", TEXT))


def test_the_first_sheet_of_several_that_hold_a_thing_is_where_it_is():
    held = Held(place=listed("boards"), title="boards")
    drafts = [Draft(title="x", kind="lists", number="L", scale="x", size=(1.0, 1.0), items=(), holds=(held,))] * 2

    found = leads([*drafts, replace(drafts[0], kind="part", holds=())], on(1))

    assert [[mark.says for mark in one.bookmarks] for one in found] == [["lists", "boards"], ["boards"], ["x"]]


# --- as printed ----------------------------------------------------------------------------------


def test_bookmarks_say_what_stands_on_their_pages(printed):
    desk, data = printed
    texts = pages(data)
    with pdfium.PdfDocument(data) as document:
        found = [(mark.level, mark.get_title(), mark.get_dest().get_index()) for mark in document.get_toc()]
    places = {title: page for _, title, page in reversed(found)}

    for one in desk.book.piece.parts:
        text = texts[places[f"{one.mark} {one.id}"]]
        assert re.search(rf"\b{one.mark}\b", text) or "alike" in text  # "A to H" are eight alike
        assert "FACE SIDE" in text
    assert {level for level, *_ in found} == {0, 1}
    assert [page for _, _, page in found] == sorted(page for _, _, page in found)


@settings(max_examples=4)
@given(drawing=pieces())
def test_no_sheet_of_any_piece_prints_a_letter_of_ours(drawing):
    data = paper_pdf("workshop", Desk(dryfit.build(drawing.job)))

    assert not [letter for text in pages(data) for letter in text if ord(letter) in UNPRINTED]


def test_one_paper_tells_of_pages_of_another():
    """What is asked of the workshop's paper while the booklet is made is drawn for it."""
    desk = desk_of("step-shelf")
    first = desk.book.piece.parts[0].id
    told = Text(at=(20.0, 20.0), text=f"on page {page_of(part(first), paper='workshop')}")
    desk.kept["drafts"] = {
        "assembly": [Draft(title="x", kind="x", number="x", scale="x", size=(99.0, 99.0), items=(told,))]
    }

    ((_, display),) = paper_sheets("assembly", desk.book, desk=desk)

    where = [n for n, (draft, _) in enumerate(paper_sheets("workshop", desk.book, desk=desk), 1) if draft.holds]
    texts = [item.text for item in display.items if isinstance(item, Text)]
    (page,) = (int(text.removeprefix("on page ")) for text in texts if text.startswith("on page "))
    assert page in where
    assert re.search(rf"\b{re.escape(first)}\b", pages(paper_pdf("workshop", desk))[page - 1])
