"""Each word of the page's bars says what it means: where a hand rests on it, on a long touch, and all of them by Y."""

from collections.abc import Callable
from typing import Any

from .conftest import Opened

Opening = Callable[..., Opened]
PHONE: dict[str, Any] = {"size": {"width": 390, "height": 844}, "has_touch": True}
LIFT = "Lift: the flat drawing tilts up into the model"


def test_a_word_rested_on_is_explained_at_the_card_s_foot(look_at: Opening):
    page = look_at().page
    explained = page.locator("p.explained")
    page.get_by_role("button", name="Lift", exact=True).hover()
    explained.get_by_text(LIFT).wait_for()
    page.get_by_role("button", name="Together", exact=True).focus()
    explained.get_by_text("Together: step by step").wait_for()
    page.get_by_text("saved", exact=True).hover()
    explained.get_by_text("The four letters name how the job stands").wait_for()
    page.locator("#drawing").hover()
    assert "saved" not in explained.inner_text().lower()


def test_every_word_of_the_bars_has_its_explanation(look_at: Opening):
    page = look_at().page
    page.keyboard.press("l")
    page.get_by_role("button", name="alone", exact=True).wait_for()
    words = page.locator("[data-why]").evaluate_all("found => found.map((one) => one.dataset.why)")
    assert {"Lift", "alone", "measure", "cut", "across", "level", "deep", "saved", "versions", "lean"} <= set(words)
    page.keyboard.press("y")
    told = page.get_by_role("region", name="Words of the page")
    shown = dict(zip(told.locator("dt").all_inner_texts(), told.locator("dd").all_inner_texts(), strict=True))
    assert [word for word, says in shown.items() if not says.strip(" .")] == []
    assert {*words} <= {*shown}
    bars = page.locator("header button, [role=toolbar] button, .tools button, .last button").all()
    assert [bar.inner_text() for bar in bars if bar.get_attribute("data-why") is None] == []


def test_a_long_touch_explains_and_does_nothing_else(look_at: Opening):
    opened = look_at(**PHONE)
    page = opened.page
    lift = page.get_by_role("button", name="Lift", exact=True)
    box = lift.bounding_box()
    assert box is not None
    protocol = page.context.new_cdp_session(page)
    at = {"x": box["x"] + box["width"] / 2, "y": box["y"] + box["height"] / 2}
    protocol.send("Input.dispatchTouchEvent", {"type": "touchStart", "touchPoints": [at]})
    page.wait_for_timeout(900)
    protocol.send("Input.dispatchTouchEvent", {"type": "touchEnd", "touchPoints": []})
    page.locator("p.why").get_by_text(LIFT).wait_for()
    assert lift.get_attribute("aria-pressed") == "false"
    lift.tap()
    page.locator("button[aria-pressed=true]", has_text="Lift").wait_for()
