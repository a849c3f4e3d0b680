"""Tables that a job may have many of, on its card: a door put in, opened, typed in, taken out; by pointer, keys, touch.

A door of 820 by 2000 called front, and a stair after it; a mistake stands beside its field, and nothing typed is lost.
"""

import tomllib
from collections.abc import Callable
from typing import Any

import pytest

from .conftest import Opened
from .test_first_minute import until

Opening = Callable[..., Opened]
TABLET: dict[str, Any] = {"size": {"width": 820, "height": 1180}, "has_touch": True}


def data(opened: Opened) -> dict[str, Any]:
    return tomllib.loads(opened.job.read_text(encoding="utf-8"))


def listed(page: Any, what: str) -> Any:
    return page.locator(f"[data-listing={what}]")


def field(page: Any, label: str, of: str) -> Any:
    return page.get_by_role("textbox", name=f"{label} of {of}", exact=True)


def begun(opened: Opened, act: str) -> Any:
    """The job's card with its lists open; `act` is "click" or "tap"."""
    page = opened.page
    getattr(page.locator("details.none > summary"), act)()
    return page


@pytest.mark.parametrize(("act", "shape"), [("click", {}), ("tap", TABLET)], ids=["pointer", "touch"])
def test_a_door_is_put_in_typed_in_and_taken_out(open_job: Opening, act: str, shape: dict[str, Any]):
    opened = open_job(**shape)
    page = begun(opened, act)
    press = lambda name: getattr(page.get_by_role("button", name=name, exact=True), act)()  # noqa: E731
    press("add a door")
    field(page, "name", "a door").fill("front")
    field(page, "width", "a door").fill("820")
    press("put it in")
    page.get_by_role("alert").get_by_text("Height is left out; type it.").wait_for()
    assert field(page, "width", "a door").input_value() == "820"
    field(page, "height", "a door").fill("2 m")
    press("put it in")
    until(opened, lambda state: state["last"] == "door front added")
    assert data(opened)["door"] == [{"name": "front", "width": 820, "height": "2 m"}]
    row = listed(page, "door").locator("[data-row=width]")
    row.wait_for()  # what was put in is open
    getattr(row.get_by_role("button", name="width: 820"), act)()
    box = row.get_by_role("textbox")
    box.fill("-3")
    box.press("Enter")
    row.get_by_role("alert").get_by_text("Width comes to -3 mm.").wait_for()
    assert box.input_value() == "-3"
    box.fill("760")
    box.press("Enter")
    until(opened, lambda state: "760" in state["text"])
    assert row.get_by_role("alert").count() == 0
    press("take out front")
    until(opened, lambda state: state["last"] == "door front taken out")
    assert "door" not in data(opened)
    assert page.get_by_role("button", name="undo", exact=True).get_attribute("title") == "door front taken out"
    opened.console.clear()  # the browser says that something was refused, as it should


def test_by_keys_alone_and_what_names_it_is_told_with_its_line(open_job: Opening):
    opened = open_job()
    page = opened.page
    keys = page.keyboard
    page.locator("details.none > summary").focus()
    keys.press("Enter")
    page.get_by_role("button", name="add a door", exact=True).focus()
    keys.press("Enter")
    page.locator(":focus[aria-label='name of a door']").wait_for()
    for word in ("front", "820"):
        keys.type(word)
        keys.press("Tab")
    keys.type("2000")
    keys.press("Enter")
    page.locator("[data-listing=door] summary:focus").wait_for()
    page.locator("details.none > summary").focus()
    if page.locator("details.none[open]").count() == 0:
        keys.press("Enter")
    page.get_by_role("button", name="add a stair", exact=True).focus()
    keys.press("Enter")
    page.locator(":focus[aria-label='name of a stair']").wait_for()
    for word in ("flight", "800", "2000"):
        keys.type(word)
        keys.press("Tab")
    keys.type("38")
    page.locator("[role=group] summary").last.focus()
    keys.press("Enter")
    field(page, "after", "a stair").focus()
    keys.type("front")
    keys.press("Enter")
    until(opened, lambda state: state["last"] == "stair flight added")
    line = opened.state()["text"].splitlines().index('after = "front"') + 1
    page.get_by_role("button", name="take out front", exact=True).focus()  # it is open since it was put in
    keys.press("Enter")
    asked = page.get_by_role("alertdialog")
    asked.get_by_text(f"Line {line} names front, which would not be there.").wait_for()
    asked.get_by_role("button", name="leave it").press("Enter")
    asked.wait_for(state="detached")
    assert [one["name"] for one in data(opened)["door"]] == ["front"]
    page.get_by_role("button", name="take out front", exact=True).press("Enter")
    asked.get_by_role("button", name="do it").press("Enter")
    until(opened, lambda state: state["last"] == "door front taken out")
    opened.console.clear()


def test_boards_of_a_unit_are_chosen_from_those_that_there_are(open_job: Opening):
    opened = open_job()
    page = opened.page
    listed(page, "unit").get_by_role("button", name="add a unit", exact=True).click()
    new = page.get_by_role("group", name="add a unit")
    field(page, "name", "a unit").fill("pair")
    new.get_by_text("none chosen").click()
    for name in ("raking 1", "shelf 1"):
        new.get_by_label(name, exact=True).check()
    new.get_by_role("button", name="put it in").click()
    until(opened, lambda state: state["last"] == "unit pair added")
    assert data(opened)["unit"][-1] == {"name": "pair", "boards": ["raking 1", "shelf 1"]}
    row = listed(page, "unit").locator("details.one").last.locator("[data-row=boards]")
    row.get_by_text("raking 1, shelf 1").click()
    row.get_by_label("raking 1", exact=True).uncheck()
    until(opened, lambda state: "raking 1" not in str(data(opened)["unit"][-1]))
