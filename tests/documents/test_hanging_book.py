"""hanging.pdf read back: its steps as the order has them, who is at each, what is checked; and the client's page."""

import math
import re
from functools import lru_cache

import pytest

from dryfit.book import build, read_job_text
from dryfit.documents.looks import Desk
from dryfit.documents.sheets.wall_steps.maker import pages as wall_pages
from dryfit.documents.sheets.wall_steps.upright import HIGH, camera
from dryfit.documents.workshop import paper_pdf, paper_sheets
from dryfit.geometry.frames import dot
from dryfit.sentences import Voice, told
from dryfit.studies.order.result import Order

from ..hanging_jobs import WAYS, hung
from .reading import pages


def words(text):
    return " ".join(text.split())


@lru_cache(maxsize=4)  # it tells pages of the workshop's book, so that is drawn for it
def made(text):
    desk = Desk(build(read_job_text(text)))
    return desk, [words(page) for page in pages(paper_pdf("hanging", desk))]


def read(text):
    desk, sheets = made(text)
    return desk.book, sheets


@pytest.mark.parametrize("way", WAYS)
def test_every_step_stands_on_its_page_whole_and_in_order(way):
    desk, sheets = made(hung(way))
    book = desk.book
    every = wall_pages(desk)
    text = " ".join(sheets)
    at = -1

    for page in every:
        for said in (page.act.title, page.act.says, *page.act.minds):
            assert words(said) in text
        here = text.index(words(page.act.title), at + 1)
        assert here > at
        at = here
    if way != "in one":
        assert [page.incoming for page in every] == [one.step.parts for one in book.found(Order).wall.steps]
        assert [page.there for page in every] == [one.step.onto for one in book.found(Order).wall.steps]


def test_no_sheet_is_missing_by_a_fault():
    for way in WAYS:
        desk, _ = made(hung(way))
        kinds = {draft.kind for draft, _ in paper_sheets("hanging", desk.book, desk=desk)}
        assert kinds >= {"hanging", "client"}
        assert "fault" not in kinds


def test_the_first_sheet_compares_the_two_ways_and_says_which_is_taken():
    """The whole weighs 104 kg, too much for three; the heaviest board 14."""
    _, sheets = read(hung("single boards"))
    first = next(page for page in sheets if "the two ways" in page)

    assert re.search(r"together on the floor, then lifted whole yes – over three 1 104 kg", first)
    assert re.search(r"taken put together on the wall yes – over three 14 14 kg", first)
    assert "It asks for less lifting." in first
    assert "Not known of the room: ceiling, left wall, right wall." in first


def test_a_step_says_what_hands_hold_meanwhile_and_until_when():
    _, sheets = read(hung("base first"))
    box, raking = (next(page for page in sheets if title in page) for title in ("Hold the glued box", "Push raking 2"))

    assert "Keep hold of it: nothing holds it until J is in (step 3)." in box
    assert "Hold the glued box meanwhile, one person more: nothing else does yet." in raking
    assert "READY: its coats on and hard enough to press on each other." in raking
    assert "Masking taken off the joints of J: bare wood there." in raking


def test_what_goes_up_with_screws_sends_to_its_holes_of_the_fixings_sheet():
    _, sheets = read(hung("single boards"))
    (page,) = (page for page in sheets if "Push shelf 1 A back to the wall, into E and G" in page)

    assert "Its screws into the wall: 3 holes (1, 2, 3) of the fixings sheet" in page


def test_where_the_wall_cannot_be_it_says_what_bars_it():
    text = hung("base first") + '[[joint]]\nbetween = ["middle upright", "shelf 2"]\nfront = "middle upright"\n'
    _, sheets = read(text)
    first = next(page for page in sheets if "the two ways" in page)

    assert "middle upright cannot be put in on the wall: it would have to come from" in first


def test_the_client_s_page_promises_no_load_and_takes_it_off_backwards_as_far_as_nothing_is_glued():
    book, sheets = read(hung("base first"))
    client = sheets[-1]

    assert "Not worked out: neither what a shelf carries nor what its screws hold in this wall." in client
    names = [told(one.step.name, Voice()) for one in reversed(book.found(Order).wall.steps)]
    places = [
        client.index(f"{number}. {'the ' if name in ('base', 'glued box') else ''}{name}")
        for number, name in enumerate(names, 1)
    ]
    assert places == sorted(places)
    assert not re.search(r"\d kg (per|a) shelf", client)


def test_in_inches_no_figure_is_in_mm():
    inch = (
        'dryfit = 1\n[job]\nunits = "in"\n[timber.oak]\nspecies = "oak, white"\nthickness = 0.75\n'
        '[[board]]\nname = "rail"\nline = [[0, 16], [36, 16]]\ndepth = 8\n'
        '[[board]]\nname = "post"\nline = [[18, 0], [18, 32]]\ndepth = 8\n'
        '[[fixing]]\nboard = "rail"\nkind = "long screw"\nat = [8, 28]\nscrew = "wood 6x160"\n[wall]\nhung = true\n'
    )
    _, sheets = read(inch)

    assert not re.search(r"held between \d{3,}", " ".join(sheets))
    assert "lb" in " ".join(sheets)


def test_a_piece_that_hangs_nowhere_has_no_sheet():
    text = (
        'dryfit = 1\n[timber.oak]\nspecies = "oak, white"\nthickness = 20\n'
        '[[board]]\nname = "a"\nline = [[0, 0], [900, 0]]\ndepth = 200\n'
        '[[board]]\nname = "b"\nline = [[450, 0], [450, 900]]\ndepth = 200\n'
    )

    assert [
        draft for draft, _ in paper_sheets("hanging", build(read_job_text(text))) if draft.kind in ("hanging", "client")
    ] == []


@pytest.mark.parametrize("lean", [0.0, 8.0, -8.0, 20.0, 24.0, -30.0])
def test_no_board_is_seen_end_on_and_up_is_up(lean):
    """The camera's three directions stand square to each other; plumb goes up on paper by the cosine of its height."""
    normals = [(0.0, 1.0, 0.0), (math.cos(math.radians(lean)), -math.sin(math.radians(lean)), 0.0)]
    seen = camera(normals)

    assert min(abs(dot(normal, seen.eye)) for normal in normals) > math.sin(math.radians(7.99))
    for one, other in ((seen.right, seen.up), (seen.up, seen.eye), (seen.eye, seen.right)):
        assert dot(one, other) == pytest.approx(0.0, abs=1e-12)
    assert seen.at((0.0, 1.0, 0.0)) == pytest.approx((0.0, math.cos(math.radians(HIGH))))
    assert seen.eye[2] > 0, "from the room"
