"""What a maker met on a first day with the page: each was wrong once.

The record wall: its box is put together in the first four of 17 steps, box 2 in the second; raking 1 stands at 560.
Line 21 of the job says how thick oak24 is.
"""

import re
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from dryfit.book.demos import demo_text

from .conftest import FLAGS, Opened, begun, window

Opening = Callable[..., Opened]
PHONE = {"width": 390, "height": 844}


def to_light(opened: Opened, word: str) -> None:
    opened.page.get_by_role("navigation", name="Lights").get_by_role("button", name=word).click()


# --- no key changes what is not in sight


def test_in_together_arrows_go_from_step_to_step_and_move_no_board(open_job: Opening):
    opened = open_job()
    before = opened.job.read_bytes()
    to_light(opened, "Together")
    opened.page.get_by_text("Step 1 of 31").wait_for()
    opened.page.get_by_role("button", name="on to 2").click()
    opened.page.get_by_text("Step 2 of 31").wait_for()  # box 2 is chosen by it
    opened.page.keyboard.press("ArrowRight")
    opened.page.get_by_text("Step 3 of 31").wait_for()
    opened.page.keyboard.press("ArrowUp")
    opened.page.get_by_text("Step 4 of 31").wait_for()
    opened.page.keyboard.press("ArrowLeft")
    opened.page.get_by_text("Step 3 of 31").wait_for()
    opened.page.keyboard.press("Delete")
    opened.page.wait_for_timeout(700)  # longer than arrow keys wait before their move is saved
    assert opened.job.read_bytes() == before


def test_over_the_papers_no_key_moves_or_takes_out_what_was_chosen(open_job: Opening):
    opened = open_job()
    before = opened.job.read_bytes()
    opened.choose("raking 1")
    to_light(opened, "Papers")
    opened.page.get_by_text("No papers yet").wait_for()
    opened.page.locator("main").click(position={"x": 300, "y": 500})
    for key in ("ArrowRight", "Delete", "d", "m", "M"):
        opened.page.keyboard.press(key)
    opened.page.wait_for_timeout(700)
    assert opened.job.read_bytes() == before


def test_together_opens_at_its_heading_and_its_rod_hides_no_word(look_at: Opening):
    opened = look_at(size={"width": 1280, "height": 800})
    to_light(opened, "Together")
    opened.page.get_by_text("Step 1 of 31").wait_for()
    opened.page.get_by_text("Lay box 1 and box 3").wait_for()
    inside, heading = (opened.page.locator(one).bounding_box() for one in (".card .inside", ".card h2"))
    assert heading["y"] >= inside["y"]
    thumb = opened.page.locator("rect.thumb").bounding_box()
    word = opened.page.locator("text.word", has_text="glued box").bounding_box()
    assert word["y"] + word["height"] <= thumb["y"] + 2, "the thumb's stroke is 2 wide"
    assert opened.page.get_by_role("button", name=re.compile("^back to")).count() == 0, "there is nothing before 1"


# --- a browser without WebGL


@pytest.fixture
def flat(browser: Any, chromium: str, tmp_path: Path) -> Iterator[Opened]:
    """The record wall in a browser that refuses the page a drawing of models."""
    server = begun(tmp_path / "job", "record-wall")
    server.start()
    other = browser.browser_type.launch(executable_path=chromium, args=[*FLAGS, "--disable-3d-apis"], headless=True)
    opened = window(other, server, {"width": 1280, "height": 800}, {})
    yield opened
    other.close()
    server.stop()
    assert not opened.console
    assert not server.faults()


SAYS = "This browser draws no models: its WebGL is off or missing"


def test_without_webgl_the_client_s_view_says_so_and_so_does_lift(flat: Opened):
    to_light(flat, "Client")
    flat.page.locator(".upper", has_text=SAYS).wait_for()
    assert flat.page.get_by_text("Pull turns it").count() == 0, "there is nothing to turn"
    flat.page.keyboard.press("Escape")
    flat.page.locator("svg.drawing").wait_for()
    flat.page.get_by_role("button", name="Lift", exact=True).click()
    flat.page.get_by_role("alert").get_by_text(SAYS).wait_for()
    assert "lifted" not in flat.page.locator("dl, .title").first.inner_text()


# --- found where it is looked for


def test_the_line_at_fault_is_shown_whatever_board_is_chosen(open_job: Opening):
    opened = open_job(size={"width": 1280, "height": 800})
    opened.choose("box 4")  # its table stands near the end
    text = opened.job.read_text(encoding="utf-8")
    opened.job.write_text(text.replace("thickness = 24\n", "thickness = = 24\n"), encoding="utf-8")
    opened.page.get_by_text('Line 21: "thickness" has an = too many; write thickness = 24.').wait_for()
    opened.page.get_by_role("button", name="show the line").click()
    shown = opened.page.locator(".editor .mistaken")
    shown.wait_for()
    opened.page.wait_for_timeout(300)
    editor, line = opened.page.locator(".editor").bounding_box(), shown.bounding_box()
    assert editor["y"] <= line["y"] < editor["y"] + editor["height"] - line["height"]


def test_on_a_phone_the_list_is_there(look_at: Opening):
    opened = look_at(size=PHONE, has_touch=True, is_mobile=True)
    opened.page.get_by_role("button", name="List", exact=True).tap()
    row = opened.page.get_by_role("button", name="shelf 1", exact=True)
    row.wait_for()
    row.tap(timeout=3000)
    opened.page.get_by_role("heading", name="shelf 1", exact=True).wait_for()


def test_choosing_a_board_or_escape_leaves_the_versions(look_at: Opening):
    opened = look_at()
    heading = opened.page.get_by_role("heading", name="Versions")
    opened.page.get_by_role("button", name="versions").click()
    heading.wait_for()
    opened.choose("raking 1")
    assert heading.count() == 0
    opened.page.get_by_role("button", name="versions").click()
    heading.wait_for()
    opened.page.keyboard.press("Escape")
    opened.page.get_by_role("heading", name="raking 1", exact=True).wait_for()


def test_the_workshop_book_is_the_first_of_the_papers(look_at: Opening):
    opened = look_at()
    to_light(opened, "Papers")
    words = opened.page.locator(".card li p:first-child")
    words.first.wait_for()
    said = words.all_inner_texts()
    assert said[:2] == ["Workshop book", "Assembly booklet"]
    assert said.index("Approval sheet, for the client to sign") < said.index("The job as data")
    assert len(set(said)) == len(said)


def test_a_board_s_card_says_when_it_goes_in_and_what_comes_first(look_at: Opening):
    """Step 15 of 17, between middle upright and raking 2; `before_assembly` names it, and its varnish is two coats."""
    opened = look_at(size={"width": 1280, "height": 800})
    opened.choose("raking 1")
    card = opened.page.locator(".card")
    card.get_by_text("in the room, after middle upright and before raking 2").wait_for()
    assert card.get_by_text("2 before glue").is_visible()


def test_the_title_block_counts_every_note_as_the_light_s_word_does(look_at: Opening):
    opened = look_at()
    for light in ("Set out", "Site"):  # the last of them come of slow work
        word = opened.page.get_by_role("navigation", name="Lights").get_by_role("button", name=light)
        word.filter(has_text=re.compile(r"2\s*notes")).wait_for(timeout=20_000)
    opened.page.get_by_text(re.compile("^2 warnings, 2 notes, 10 not checked$")).wait_for()


def test_by_touch_a_row_is_explained_when_it_is_touched(look_at: Opening):
    opened = look_at(size={"width": 820, "height": 1180}, has_touch=True, is_mobile=True)
    explained = opened.page.locator(".explained")
    explained.get_by_text("Touch a row and it is explained here.").wait_for()
    opened.page.locator("[data-row='width'] dt").tap()
    explained.get_by_text("width: A measure: everything that uses it follows.").wait_for()
    opened.page.wait_for_timeout(300)
    assert explained.inner_text().startswith("width:"), "it stays when the finger has gone"


# --- said as a maker would


def test_a_value_typed_on_the_card_is_told_as_its_version_is(open_job: Opening):
    opened = open_job()
    before = opened.state()["revision"]
    opened.choose("raking 1")
    opened.page.locator(".card").get_by_role("button", name=re.compile("^foot: 560")).click()
    opened.page.keyboard.press("Control+a")
    opened.page.keyboard.type("570")
    opened.page.keyboard.press("Enter")
    opened.settled(before + 1)
    opened.page.locator(".card .last").get_by_text("raking 1 leaned to 7.65°, was 8°").wait_for()


def test_a_wall_that_is_drawn_is_named_where_its_figures_are_typed(look_at: Opening):
    opened = look_at(demo_text("record-wall").replace("studs ", "left = 0\nright = 2600\nceiling = 2500\nstuds "))
    assert opened.page.get_by_role("button", name="the wall: 2500, type another").count() == 1


def test_a_whole_frame_is_offered_without_saying_frame_twice(look_at: Opening):
    text = demo_text("record-wall")
    called = re.sub(r'"box"', '"frame"', text)
    opened = look_at(re.sub(r'"box (\d)"', r'"frame \1"', called))
    opened.choose("frame 2")
    assert opened.page.get_by_role("button", name="the whole frame").count() == 1
    assert opened.page.get_by_text("the frame frame").count() == 0
