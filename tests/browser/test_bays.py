"""Bays chosen, typed, made equal and divided by pointer, by keys and by touch; a row laid, and changed as one.

Two posts of 20 stand 1000 apart, rails close the bay between them, and two boards part it into 280, 380 and 280 clear:
made equal they are 313.33.
"""

import os
from collections.abc import Callable
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from .conftest import Opened
from .hands import Sheet
from .test_first_minute import TABLET, boards, until

Opening = Callable[..., Opened]
LINES = {
    "left": "[[0, 0], [0, 900]]",
    "right": "[[1000, 0], [1000, 900]]",
    "foot": "[[0, 100], [1000, 100]]",
    "head": "[[0, 800], [1000, 800]]",
    "mid 1": "[[300, 110], [300, 790]]",
    "mid 2": "[[700, 110], [700, 790]]",
}
EMPTY = 'dryfit = 1\n\n[timber.oak]\nspecies = "oak, white"\nthickness = 20\n' + "".join(
    f'\n[[board]]\nname = "{name}"\nline = {line}\ndepth = 250\n' for name, line in list(LINES.items())[:4]
)
PARTED = EMPTY + "".join(
    f'\n[[board]]\nname = "{name}"\nline = {line}\ndepth = 250\n' for name, line in list(LINES.items())[4:]
)
EQUAL = "make these three equal, 313.3 mm each"


def clears(state: dict[str, Any]) -> list[float]:
    middles = sorted(board["line"][0][0] for name, board in boards(state).items() if name not in ("foot", "head"))
    return [after - before - 20 for before, after in pairwise(middles)]


def are_equal(state: dict[str, Any]) -> bool:
    return clears(state) == pytest.approx([940 / 3] * 3, abs=0.001)


def trying(page: Any) -> Any:
    return page.get_by_role("status").filter(has_text="Trying")


def shot(opened: Opened, name: str) -> None:
    if folder := os.environ.get("DRYFIT_PICTURES"):
        opened.page.wait_for_timeout(300)
        opened.page.screenshot(path=str(Path(folder) / f"{name}.png"))


def test_by_pointer(open_job: Opening):
    opened = open_job(PARTED)
    page, before = opened.page, opened.job.read_bytes()
    Sheet(opened).press((420, 300))
    page.get_by_role("heading", name="a bay", exact=True).wait_for()
    assert page.get_by_role("button", name="clear across: 380, type another").is_visible()
    assert page.locator("g.bay text:not(.halo)").all_text_contents() == ["280", "380", "280", "680"], (
        "its neighbours' too"
    )
    shot(opened, "bay-chosen")
    act = page.get_by_role("button", name=EQUAL)
    act.hover()
    page.locator("path.before").first.wait_for()
    assert "mid 1, mid 2 move" in trying(page).inner_text()
    shot(opened, "bay-tried")
    assert opened.job.read_bytes() == before, "nothing is saved by looking"
    act.click()
    until(opened, are_equal)
    act.wait_for(state="detached")
    page.get_by_role("button", name="clear across: 313.3, on the drawing, type another").click()
    page.keyboard.type("300")
    page.keyboard.press("Enter")
    until(opened, lambda state: clears(state)[1] == pytest.approx(300))
    page.get_by_role("button", name="mid 1 gives").click()
    until(opened, lambda state: clears(state)[1:] == pytest.approx([300, 940 / 3], abs=0.001))  # in the other's stead
    page.get_by_role("button", name="a divider half-way").click()
    page.get_by_role("heading", name="divider", exact=True).wait_for()
    assert 'between(right("mid 1"), left("mid 2"), 1/2)' in opened.state()["text"]


def test_by_keyboard(open_job: Opening):
    opened = open_job(PARTED)
    page = opened.page
    page.keyboard.press("o")
    page.get_by_role("heading", name="a bay", exact=True).wait_for()
    page.keyboard.press("c")
    page.keyboard.press("Enter")
    page.keyboard.type("350")
    page.keyboard.press("F2")
    page.keyboard.press("Enter")
    state = until(opened, lambda state: clears(state)[1] == pytest.approx(350))
    assert boards(state)["mid 1"]["line"][0][0] == pytest.approx(330), "F2 is the second side that can give"
    page.get_by_role("button", name=EQUAL).wait_for()
    page.keyboard.press("c")
    page.keyboard.press("Tab")
    page.keyboard.press("Tab")
    trying(page).wait_for()
    page.keyboard.press("Enter")
    until(opened, are_equal)
    page.keyboard.press("Escape")
    page.get_by_role("heading", name="a bay", exact=True).wait_for(state="detached")


def test_by_touch(open_job: Opening):
    opened = open_job(PARTED, size=TABLET, has_touch=True, is_mobile=True)
    page = opened.page
    page.touchscreen.tap(*Sheet(opened).at((420, 300)))
    page.get_by_role("heading", name="a bay", exact=True).wait_for()
    shot(opened, "bay-tablet")
    act = page.get_by_role("button", name=EQUAL)
    act.tap()
    trying(page).wait_for()
    assert not are_equal(opened.state()), "the first press tries it"
    act.tap()
    until(opened, are_equal)


TWO = "make these two equal, 330 mm each"  # 280 and 380, the third bay left as it is


def two_are_equal(state: dict[str, Any]) -> bool:
    return clears(state) == pytest.approx([330, 330, 280], abs=0.001)


def test_two_bays_chosen_on_the_drawing_are_made_equal_there_by_pointer(open_job: Opening):
    opened = open_job(PARTED)
    page, sheet, before = opened.page, Sheet(opened), opened.job.read_bytes()
    sheet.press((420, 300))
    page.get_by_role("heading", name="a bay", exact=True).wait_for()
    page.keyboard.down("Shift")
    sheet.press((150, 300))
    page.keyboard.up("Shift")
    act = page.locator("g.together").get_by_role("button", name=TWO)
    act.wait_for()
    assert page.locator("path.bay").count() == 2, "both are washed"
    assert page.locator("g.together .says").text_content() == "mid 1: 50 mm to the right"
    shot(opened, "bays-together")
    act.hover()
    page.locator("path.before").first.wait_for()
    assert "mid 1 moves" in trying(page).inner_text()
    shot(opened, "bays-together-tried")
    assert act.is_visible(), "the word stays under the hand"
    assert opened.job.read_bytes() == before
    act.click()
    until(opened, two_are_equal)
    page.get_by_text("not made equal: they are equal").first.wait_for()
    page.keyboard.press("Control+z")
    until(opened, lambda state: clears(state) == pytest.approx([280, 380, 280]))
    page.keyboard.down("Shift")
    sheet.press((150, 300))  # out again
    page.keyboard.up("Shift")
    page.get_by_role("button", name=EQUAL).wait_for()
    assert page.locator("g.together").count() == 0


def test_the_same_by_keyboard(open_job: Opening):
    opened = open_job(PARTED)
    page = opened.page
    page.keyboard.press("o")  # the largest, in the middle
    page.get_by_role("button", name=EQUAL).wait_for()
    page.keyboard.press("Shift+ArrowLeft")
    page.locator("g.together").get_by_role("button", name=TWO).focus()
    page.keyboard.press("Enter")
    until(opened, two_are_equal)


def test_the_same_by_touch(open_job: Opening):
    opened = open_job(PARTED, size=TABLET, has_touch=True, is_mobile=True)
    page, sheet = opened.page, Sheet(opened)
    page.touchscreen.tap(*sheet.at((420, 300)))
    page.get_by_role("heading", name="a bay", exact=True).wait_for()
    page.touchscreen.tap(*sheet.at((150, 300)))
    act = page.locator("g.together").get_by_role("button", name=TWO)
    act.tap()
    trying(page).wait_for()
    assert not two_are_equal(opened.state()), "the first press tries it"
    act.tap()
    until(opened, two_are_equal)
    page.touchscreen.tap(*sheet.at((1300, 300)))
    page.locator("g.together").wait_for(state="detached")


def test_a_row_is_spaced_laid_in_the_bay_chosen_and_changed_as_one(open_job: Opening):
    opened = open_job(EMPTY)
    page = opened.page
    Sheet(opened).press((420, 300))
    page.get_by_role("heading", name="a bay", exact=True).wait_for()
    page.keyboard.press("r")
    page.get_by_label("clear between them", exact=True).click()
    page.keyboard.insert_text("200")  # at once: on a slow machine "2" would be tried, and refused, on the way
    page.locator("g.board[data-board='upright 4']").wait_for()
    assert "upright 1" not in boards(opened.state()), "as many as fit, seen and not put in yet"
    shot(opened, "row-spaced")
    page.keyboard.press("Enter")
    until(opened, lambda state: "upright 4" in boards(state))
    page.get_by_role("heading", name="upright 1 to upright 4", exact=True).wait_for()
    shot(opened, "row-card")
    page.get_by_role("button", name="clear: 200.0, type another").click()
    page.keyboard.insert_text("150")
    page.keyboard.press("Enter")
    until(opened, lambda state: boards(state)["upright 4"]["line"][0][0] == pytest.approx(220 + 3 * 170))
    page.locator("#drawing").focus()
    page.keyboard.press("a")
    page.locator("[data-field=lean]:focus").wait_for()
    page.keyboard.type("5")
    page.keyboard.press("Enter")
    state = until(opened, lambda state: boards(state)["upright 4"]["rake"] < 89)
    assert {round(boards(state)[f"upright {at}"]["rake"], 1) for at in (1, 2, 3, 4)} == {85}, "all of them lean"
    page.keyboard.press("Escape")
    opened.choose("upright 2")
    page.get_by_role("button", name="the whole row").click()
    page.get_by_role("heading", name="upright 1 to upright 4", exact=True).wait_for()


def test_the_text_lists_the_places_and_the_boards_that_may_be_meant(open_job: Opening):
    opened = open_job(EMPTY)
    page = opened.page
    page.keyboard.press("t")
    page.locator(".cm-content").click()
    page.keyboard.press("Control+End")
    page.keyboard.type('\n[[board]]\nname = "stop"\ndepth = 100\nline = [["ri')
    meant = page.get_by_role("listbox", name="What may be meant").get_by_role("option")
    meant.first.wait_for()
    assert meant.all_inner_texts() == ["right('...')"]
    page.keyboard.press("Tab")
    page.get_by_role("option", name="foot").wait_for()
    assert meant.all_inner_texts() == ["left", "right", "foot", "head"]
    shot(opened, "completing")
    page.keyboard.press("Enter")
    page.keyboard.type(' + 50", 200], [400, 200]]')
    state = until(opened, lambda state: "stop" in boards(state))
    assert boards(state)["stop"]["line"][0] == [60, 200]
    assert """line = [["right('left') + 50", 200]""" in state["text"]
