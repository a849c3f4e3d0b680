"""The light Finish: areas first, then the plan step by step, by keys and by touch; the faces of the chosen board.

The record wall, all of it coated before glue: 17 boards, 2 coats, joints masked. Its plan is sand, mask, coat, sand,
coat, glue, carry and put in: 8 steps.
"""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from dryfit.book.demos import demo_text

from .conftest import Opened

Opening = Callable[..., Opened]
COATED = demo_text("record-wall").replace('before_assembly = ["raking 1", "raking 2"]', 'when = "before glue"')
EYE = COATED + '\n[drying]\nbegins = 2026-05-08\n[[eye]]\nname = "sofa"\nat = [1300, 1100, 2500]\n'


def looked(opened: Opened, name: str) -> None:
    if folder := os.environ.get("DRYFIT_PICTURES"):
        opened.page.screenshot(path=Path(folder, f"finish-{name}.png"))


def to_finish(opened: Opened) -> None:
    opened.page.get_by_role("navigation", name="Lights").get_by_role("button", name="Finish").click()
    opened.page.get_by_role("slider", name="Steps of the finish").wait_for(timeout=60_000)


def test_the_plan_is_gone_through_by_keys_and_shows_coats_with_their_figures(look_at: Opening) -> None:
    opened = look_at(EYE)
    page = opened.page
    to_finish(opened)
    assert page.get_by_text("Step 0").count() == 0
    assert page.get_by_text("What of each board is seen from sofa").is_visible()
    looked(opened, "areas")
    rod = page.get_by_role("slider", name="Steps of the finish")
    assert rod.get_attribute("aria-valuemax") == "8"
    rod.focus()
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    page.get_by_text("Step 3 of 8").wait_for()
    assert page.locator("text.name", has_text="1 of 2 coats").count() > 3
    looked(opened, "coat-1")
    page.keyboard.press("End")
    page.get_by_text("Step 8 of 8").wait_for()
    looked(opened, "put-in")
    page.keyboard.press("Home")
    page.get_by_role("button", name="on", exact=True).click()
    page.get_by_text("Step 1 of 8").wait_for()


def test_the_chosen_board_shows_its_faces_with_their_masks(look_at: Opening) -> None:
    opened = look_at(EYE)
    to_finish(opened)
    opened.page.get_by_role("button", name="mask the joints of all boards").click()
    opened.page.locator("text.name", has_text="shelf 2").first.click()
    upper = opened.page.get_by_role("img", name="upper face")
    upper.wait_for()
    assert "raking 1 masked" in str(upper.get_attribute("aria-label"))
    assert upper.locator("path.cross").count() >= 5
    looked(opened, "faces")


WINDOWS: dict[str, dict[str, Any]] = {
    "dark": {"color_scheme": "dark"},
    "phone": {"size": {"width": 390, "height": 844}, "has_touch": True},
    "small": {"size": {"width": 1280, "height": 800}},
}


@pytest.mark.parametrize("name", list(WINDOWS))
def test_it_is_read_in_the_dark_on_a_phone_and_on_a_small_screen(look_at: Opening, name: str) -> None:
    opened = look_at(EYE, **WINDOWS[name])
    to_finish(opened)
    for _ in range(3):
        on = opened.page.get_by_role("button", name="on", exact=True)
        on.tap() if name == "phone" else on.click()
    opened.page.get_by_text("Step 3 of 8").first.wait_for()
    wide = opened.page.evaluate("() => document.documentElement.scrollWidth - innerWidth")
    assert wide <= 0, "nothing runs out at the side"
    looked(opened, name)


def test_a_job_that_does_not_say_when_says_so(look_at: Opening) -> None:
    opened = look_at(COATED.replace('when = "before glue"\n', ""))
    opened.page.get_by_role("navigation", name="Lights").get_by_role("button", name="Finish").click()
    opened.page.get_by_text("The job does not say what is coated when").first.wait_for(timeout=60_000)
