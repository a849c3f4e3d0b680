"""The words under the drawing and their sentences: what is typed, set or refused is never lost.

The wall is 2400 by 1600. A board from (300, 0) leaning 10 degrees right to level 1000 ends at 300 + 1000 tan 10,
that is 476.33.
"""

import math
from collections.abc import Callable
from typing import Any

import pytest

from .conftest import Opened
from .hands import Sheet
from .test_first_minute import boards, until

Opening = Callable[..., Opened]
WALL = "dryfit = 1\n\n[wall]\nleft = 0\nright = 2400\nceiling = 1600\n"


def blank(page: Any, field: str) -> Any:
    return page.locator(f".sentence [data-field={field}]")


def hint(page: Any) -> str:
    found: str = page.locator(".hint").inner_text()
    return found


def test_figures_are_typed_before_the_first_point_and_seen(open_job: Opening):
    opened = open_job(WALL)
    page = opened.page
    page.keyboard.press("b")
    page.keyboard.type("300, 0")
    blank(page, "lean").click()
    page.keyboard.type("10")
    blank(page, "ey").click()
    page.keyboard.type("1000")
    page.locator("g.board[data-board=raking]").wait_for()
    assert opened.state()["drawing"]["boards"] == [], "seen, and not put in yet"
    assert blank(page, "ex").get_attribute("placeholder") == "476.3"
    page.get_by_role("button", name="put it in").click()
    state = until(opened, lambda state: "raking" in boards(state))
    assert boards(state)["raking"]["line"][1] == pytest.approx(
        [300 + 1000 * math.tan(math.radians(10)), 1000], abs=0.01
    )


def test_a_figure_typed_holds_while_the_hand_gives_the_rest(open_job: Opening):
    opened = open_job(WALL)
    page = opened.page
    page.keyboard.press("b")
    blank(page, "lean").click()
    page.keyboard.type("10")
    page.wait_for_timeout(300)
    Sheet(opened).drag((300, 200), (500, 700), (900, 1000))
    (x, y), (far, high) = boards(until(opened, lambda state: "raking" in boards(state)))["raking"]["line"]
    assert math.degrees(math.atan2(far - x, high - y)) == pytest.approx(10, abs=0.01)
    assert (x, y) == pytest.approx((300, 200), abs=4)


def test_enter_and_a_change_of_mind_throw_no_corner_away(open_job: Opening):
    opened = open_job(WALL)
    page = opened.page
    page.keyboard.press("f")
    page.wait_for_timeout(300)
    sheet = Sheet(opened)
    for corner in ((300, 300), (900, 300)):
        sheet.press(corner)
    page.keyboard.press("Enter")
    assert "what is set stays" in hint(page)
    page.keyboard.press("f")
    page.wait_for_timeout(200)
    sheet.press((900, 800))
    page.keyboard.press("Control+z")
    sheet.press((900, 900))
    page.keyboard.press("Enter")
    (frame,) = until(opened, lambda state: len(state["frames"]) == 1)["frames"]
    assert len(frame["points"]) == 3
    assert frame["points"][2] == pytest.approx([900, 900], abs=4)


def test_a_figure_half_typed_is_no_failure(open_job: Opening):
    """The 2 of 200: boards would lie in one another; the console stays clean, which the fixture holds."""
    opened = open_job(WALL)
    page = opened.page
    page.keyboard.press("r")
    blank(page, "centres").click()
    with page.expect_response(lambda answer: '"centres":"2"' in (answer.request.post_data or "")) as told:
        page.keyboard.type("2")
    assert told.value.status == 200
    assert told.value.json()["refused"]["remedy"]
    assert page.get_by_role("alert").count() == 0
    with page.expect_response(lambda answer: '"centres":"200"' in (answer.request.post_data or "")) as told:
        page.keyboard.type("00")
    assert told.value.json()["refused"] is None
    assert opened.console == []


def test_what_is_refused_stays_as_it_was_typed_with_why(open_job: Opening):
    opened = open_job(WALL)
    page = opened.page
    page.keyboard.press("r")
    page.keyboard.type("99")
    page.get_by_role("button", name="put it in").click()
    page.get_by_role("alert").get_by_text("leave no bays").wait_for()
    assert blank(page, "count").input_value() == "99"
    blank(page, "count").click()
    page.keyboard.type("3")
    page.keyboard.press("Enter")
    assert len(boards(until(opened, lambda state: boards(state) != {}))) == 3
    opened.console.clear()  # the browser says that something was refused, as it should


def test_a_wall_typed_wrong_stays_as_it_was_typed(open_job: Opening):
    opened = open_job("dryfit = 1\n")
    page = opened.page
    page.locator("[data-field=wide]:focus").wait_for()
    page.keyboard.type("two metres,")
    page.get_by_role("alert").wait_for()
    assert blank(page, "wide").input_value() == "two metres"
    page.keyboard.type("1500")
    page.keyboard.press("Shift+Tab")
    page.keyboard.type("2 m")
    page.keyboard.press("Enter")
    assert until(opened, lambda state: state["wall"]["wide"] == 2000)["wall"]["high"] == 1500
    opened.console.clear()


def test_the_first_board_leaves_the_scale_of_a_wall_of_which_nothing_is_known(open_job: Opening):
    opened = open_job("dryfit = 1\n")
    page = opened.page
    page.locator("[data-field=wide]:focus").wait_for()

    def scale() -> float:
        left, _, right, _ = opened.state()["drawing"]["extent"]
        return float(page.locator("g.wall rect").get_attribute("width")) / (right - left)

    before = scale()
    Sheet(opened).drag((500, 300), (700, 600), (500, 1200))  # straight onto the sheet: no word was chosen
    until(opened, lambda state: "upright" in boards(state))
    page.wait_for_timeout(300)
    assert scale() == pytest.approx(before, rel=1e-4), "a mm is as long on the sheet as it was"


def test_a_light_that_needs_a_board_says_so_and_one_that_is_not_made_is_not_shown(open_job: Opening):
    opened = open_job(WALL)
    page = opened.page
    lights = page.get_by_role("navigation", name="Lights").get_by_role("button")
    assert [word.split("\n")[0] for word in lights.all_inner_texts()] == [
        "Brief",
        "Set out",
        "Together",
        "Finish",
        "Site",
        "Client",
        "Papers",
    ]
    papers = lights.filter(has_text="Papers")
    assert papers.get_attribute("aria-disabled") == "true"
    papers.click(force=True)
    page.get_by_text("Papers waits for the first board.").wait_for()
    page.keyboard.press("7")
    assert page.get_by_role("button", name="make all papers").count() == 0
    page.keyboard.press("b")
    page.keyboard.type("300,200,900")
    page.keyboard.press("Enter")
    until(opened, lambda state: "shelf" in boards(state))
    assert papers.get_attribute("aria-disabled") is None


def test_words_that_need_something_chosen_say_so(open_job: Opening):
    opened = open_job()
    line = opened.page.get_by_role("toolbar", name="Draw")
    able = "all => all.filter((one) => !one.disabled).map((one) => one.firstChild.textContent)"
    assert line.locator("button").evaluate_all(able) == ["the wall", "a board", "a row", "a frame", "a bay"]
    opened.choose("raking 1")
    assert len(line.locator("button").evaluate_all(able)) == 9
    opened.page.keyboard.press("Control+a")
    assert "lean" not in line.locator("button").evaluate_all(able)
