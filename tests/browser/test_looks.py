"""Every screen and state: nothing grave found by axe, nothing runs out of its place, pictures for the manual.

Set `DRYFIT_PICTURES` to a folder to have the pictures written there; docs/pictures/ was made so.
"""

import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from .conftest import DESK, ROOT, Opened

Opening = Callable[..., Opened]
AXE = ROOT / "page" / "node_modules" / "axe-core" / "axe.min.js"
TABLET = {"width": 1024, "height": 768}
PHONE = {"width": 390, "height": 844}
EMPTY = "dryfit = 1\n"


def set_out(page: Any) -> None:
    page.locator("text.name", has_text="raking 1").first.click()


def walked(page: Any) -> None:
    page.keyboard.press("n")


def dragged(page: Any) -> None:
    name = page.locator("text.name", has_text="raking 1").first
    name.click()
    box = name.bounding_box()
    page.mouse.move(box["x"] + 6, box["y"] + 8)
    page.mouse.down()
    page.mouse.move(box["x"] + 30, box["y"] + 8, steps=6)


def noted(page: Any) -> None:
    page.keyboard.press("j")


def brief(page: Any) -> None:
    page.get_by_role("button", name="Brief").click()


def together(page: Any) -> None:
    page.get_by_role("button", name="Together").click()
    slider = page.get_by_role("slider", name="Order of assembly")
    slider.wait_for(timeout=15_000)
    slider.focus()
    for _ in range(14):
        page.keyboard.press("ArrowRight")
    page.wait_for_timeout(1200)


def site(page: Any) -> None:
    page.get_by_role("button", name="Site").click()
    slider = page.get_by_role("slider", name="Steps on the wall")
    slider.wait_for(timeout=20_000)
    slider.focus()
    for _ in range(3):
        page.keyboard.press("ArrowRight")


def client(page: Any) -> None:
    page.get_by_role("button", name="Client", exact=True).click()
    page.get_by_role("button", name="save as a picture", disabled=False).wait_for(timeout=60_000)


def papers(page: Any) -> None:
    page.get_by_role("button", name="Papers").click()
    page.get_by_role("button", name="make all papers").click()
    page.get_by_role("link", name="workshop.pdf").wait_for(timeout=60_000)


def lifted(page: Any) -> None:
    set_out(page)
    page.get_by_role("button", name="Lift", exact=True).click()
    page.wait_for_timeout(1200)


def apart(page: Any) -> None:
    lifted(page)
    page.get_by_role("slider", name="apart").focus()
    for _ in range(6):
        page.keyboard.press("ArrowRight")


def cut_open(page: Any) -> None:
    lifted(page)
    page.get_by_role("button", name="deep", exact=True).click()


def text(page: Any) -> None:
    set_out(page)
    page.get_by_role("button", name="Text").click()
    page.locator(".cm-content").wait_for()


def broken(page: Any) -> None:
    text(page)
    page.locator(".cm-content").click()
    page.keyboard.press("Control+Home")
    for _ in range(10):  # to the line of the width
        page.keyboard.press("ArrowDown")
    page.keyboard.press("End")
    page.keyboard.type('\nlower = "widht / 2"')
    page.locator(".editor .mistaken").first.wait_for()


def listed(page: Any) -> None:
    page.get_by_role("button", name="List").click()


def keys(page: Any) -> None:
    page.keyboard.press("?")


SCREENS: dict[str, tuple[str, Callable[[Any], None], dict[str, int], str]] = {
    "set-out": ("record-wall", set_out, DESK, "light"),
    "note": ("record-wall", noted, DESK, "light"),
    "brief": ("record-wall", brief, DESK, "light"),
    "together": ("record-wall", together, DESK, "light"),
    "site": ("record-wall", site, DESK, "light"),
    "client": ("step-shelf", client, DESK, "light"),
    "papers": ("record-wall", papers, DESK, "light"),
    "lifted": ("record-wall", lifted, DESK, "light"),
    "apart": ("record-wall", apart, DESK, "light"),
    "cut-open": ("record-wall", cut_open, DESK, "light"),
    "text": ("record-wall", text, DESK, "light"),
    "broken": ("record-wall", broken, DESK, "light"),
    "list": ("record-wall", listed, DESK, "light"),
    "keys": ("record-wall", keys, DESK, "light"),
    "evening": ("record-wall", set_out, DESK, "dark"),
    "evening-lifted": ("record-wall", lifted, DESK, "dark"),
    "evening-site": ("record-wall", site, DESK, "dark"),
    "tablet": ("record-wall", set_out, TABLET, "light"),
    "tablet-lifted": ("record-wall", lifted, TABLET, "light"),
    "tablet-text": ("record-wall", text, TABLET, "light"),
    "phone": ("record-wall", walked, PHONE, "light"),
    "phone-site": ("record-wall", site, PHONE, "light"),
    "dragged": ("record-wall", dragged, DESK, "light"),
    "empty": (EMPTY, lambda page: None, DESK, "light"),
    "step-shelf": ("step-shelf", lambda page: None, DESK, "light"),
}


CHANGES = ("papers", "broken", "dragged")  # these leave something behind, or a hand down


@pytest.mark.parametrize("screen", SCREENS)
def test_a_screen_is_whole_and_nothing_grave_is_found_by_axe(screen: str, open_job: Opening, look_at: Opening):
    job, way, size, scheme = SCREENS[screen]
    opened = (open_job if screen in CHANGES else look_at)(job, size=size, color_scheme=scheme, reduced_motion="reduce")
    way(opened.page)
    opened.page.wait_for_timeout(500)
    if folder := os.environ.get("DRYFIT_PICTURES"):
        opened.page.screenshot(path=str(Path(folder) / f"{screen}.png"))
    wide = opened.page.evaluate("() => [document.documentElement.scrollWidth, document.documentElement.scrollHeight]")
    assert wide == [size["width"], size["height"]], "the page itself never scrolls"
    if not AXE.exists():
        words = "axe-core is not installed: `npm ci` in page/"
        pytest.fail(words) if os.environ.get("CI") == "true" else pytest.skip(words)
    opened.page.evaluate(AXE.read_text(encoding="utf-8"))
    run = "() => axe.run(document, { resultTypes: ['violations'] }).then((all) => all.violations)"
    found = opened.page.evaluate(run)
    grave = [fault for fault in found if fault["impact"] in ("serious", "critical")]
    said = [(fault["id"], fault["nodes"][0]["html"][:200], fault["nodes"][0].get("any", [{}])[:1]) for fault in grave]
    assert not said, said
