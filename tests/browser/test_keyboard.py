"""The whole page without a pointer: everything is reached by Tab, and everything a hand does has its keys.

Nothing in here moves a mouse. What can be pressed, chosen or typed in is gathered from the page as it stands, and
Tab must come by each of it.
"""

from collections.abc import Callable
from typing import Any

import pypdfium2
import pytest

from .conftest import Opened

Opening = Callable[..., Opened]
MOST_TABS = 400

KINDS = "button, a[href], input, select, textarea, summary, [role=button], [role=slider], [contenteditable=true]"
REACHABLE = """
(kinds) => {
  const free = (one) => !one.disabled && one.closest("[inert]") === null;
  const seen = (one) => free(one) && one.checkVisibility({ visibilityProperty: true });
  const all = [...document.querySelectorAll(kinds)].filter(seen);
  all.forEach((one, index) => (one.dataset.reach = String(index)));
  return all.map((one) => one.getAttribute("aria-label") ?? one.textContent.trim().slice(0, 60));
}
"""
IN_TEXT = "() => Boolean(document.activeElement.shadowRoot?.activeElement)"  # the text has a root of its own


def to(page: Any, name: str) -> None:
    """Press Tab until what has this name has the focus."""
    named = "() => (document.activeElement.getAttribute('aria-label') ?? document.activeElement.textContent).trim()"
    for _ in range(MOST_TABS):
        page.keyboard.press("Tab")
        if page.evaluate(named).startswith(name):
            return
    raise AssertionError(f"Tab never came to {name!r}")


def choose(opened: Opened, name: str) -> None:
    """From board to board until this one is chosen."""
    opened.page.locator("#drawing").focus()
    names = [board["name"] for board in opened.state()["drawing"]["boards"]]
    for _ in range(names.index(name) + 1):
        opened.page.keyboard.press("n")
    opened.page.get_by_role("heading", name=name, exact=True).wait_for()


def chosen(opened: Opened) -> None:
    choose(opened, "raking 1")


def joint(opened: Opened) -> None:
    opened.page.keyboard.press("Shift+N")
    opened.page.get_by_role("combobox", name="kind").wait_for()


def lifted(opened: Opened) -> None:
    choose(opened, "raking 1")
    opened.page.keyboard.press("l")
    opened.page.locator("#lifted.shown").wait_for()


def lit(word: str) -> Callable[[Opened], None]:
    def there(opened: Opened) -> None:
        to(opened.page, word)
        opened.page.keyboard.press("Enter")
        opened.page.wait_for_timeout(3000)

    return there


def opened_by(key: str, wait: str) -> Callable[[Opened], None]:
    def there(opened: Opened) -> None:
        opened.page.keyboard.press(key)
        opened.page.locator(wait).first.wait_for()

    return there


SCREENS: dict[str, Callable[[Opened], None]] = {
    "job": lambda opened: None,
    "board": chosen,
    "joint": joint,
    "lifted": lifted,
    "list": opened_by("i", "table"),
    "text": opened_by("t", ".cm-content"),
    "brief": lit("Brief"),
    "together": lit("Together"),
    "client": lit("Client"),
    "papers": lit("Papers"),
}


@pytest.mark.parametrize("screen", SCREENS)
def test_tab_comes_by_everything_that_can_be_pressed_or_typed_in(screen: str, look_at: Opening):
    opened = look_at(reduced_motion="reduce")
    SCREENS[screen](opened)
    opened.page.wait_for_timeout(500)
    names = opened.page.evaluate(REACHABLE, KINDS)
    assert len(names) > 10
    reached: set[int] = set()
    for _ in range(2 * len(names) + 20):
        if opened.page.evaluate(IN_TEXT):  # there Tab indents, until Escape says that one wants out
            opened.page.keyboard.press("Escape")
        opened.page.keyboard.press("Tab")
        at = opened.page.evaluate("() => document.activeElement.closest('[data-reach]')?.dataset.reach ?? ''")
        reached |= {int(at)} if at else set()
        if len(reached) == len(names):
            break
    assert [name for at, name in enumerate(names) if at not in reached] == []


def test_a_board_is_drawn_by_typing_its_two_ends(open_job: Opening):
    opened = open_job()
    before = opened.state()
    page = opened.page
    page.keyboard.press("b")
    page.keyboard.type("700, 0")
    page.keyboard.press("Enter")
    page.keyboard.type("700, 115")
    page.keyboard.press("Enter")
    opened.settled(before["revision"] + 1)
    assert opened.board("upright")["line"] == [[700, 0], [700, 115]]
    page.get_by_role("heading", name="upright", exact=True).wait_for()
    page.keyboard.press("Delete")
    opened.settled(before["revision"] + 2)
    assert len(opened.state()["drawing"]["boards"]) == len(before["drawing"]["boards"])


def test_a_frame_is_drawn_by_arrows_and_space_and_by_typing(open_job: Opening):
    opened = open_job()
    before = opened.state()["revision"]
    page = opened.page
    page.keyboard.press("f")
    page.keyboard.type("200, 700")
    page.keyboard.press("Enter")
    for _ in range(3):
        page.keyboard.press("Shift+ArrowRight")
    page.keyboard.press("Space")
    for key in ("Shift+ArrowUp", "ArrowUp", "ArrowUp"):
        page.keyboard.press(key)
    page.keyboard.press("Space")
    page.keyboard.press("Enter")
    opened.settled(before + 1)
    (frame,) = [frame for frame in opened.state()["frames"] if frame["name"] == "frame"]
    assert frame["points"] == [[200, 700], [500, 700], [500, 820]]
    assert not frame["closed"]


def test_a_value_is_typed_on_the_card_from_the_drawing_and_back(open_job: Opening):
    opened = open_job()
    before = opened.state()["revision"]
    choose(opened, "top shelf")
    opened.page.keyboard.press("c")
    to(opened.page, "depth: ")
    opened.page.keyboard.press("Enter")
    opened.page.keyboard.type("depth - 40")
    opened.page.keyboard.press("Enter")
    opened.settled(before + 1)
    assert opened.board("top shelf")["depth"] == 280
    to(opened.page, "clear to shelf 3: ")
    opened.page.keyboard.press("Enter")
    opened.page.locator(".way.taken").wait_for()
    opened.page.keyboard.type("400")
    opened.page.keyboard.press("Enter")
    opened.settled(before + 2)
    assert opened.board("top shelf")["line"][0][1] == pytest.approx(960 + 400 + 24.1, abs=0.06)


def test_a_joint_is_made_another_way(open_job: Opening):
    opened = open_job()
    before = opened.state()["revision"]
    pairs = [joint["boards"] for joint in opened.state()["drawing"]["joints"]]
    opened.page.locator("#drawing").focus()
    for _ in range(pairs.index(["slanting divider", "top shelf"]) + 1):
        opened.page.keyboard.press("Shift+N")
    opened.page.get_by_role("heading", name="slanting divider and top shelf").wait_for()
    to(opened.page, "kind")
    opened.page.keyboard.type("butt")
    opened.page.keyboard.press("Enter")
    opened.settled(before + 1)
    kinds = {tuple(joint["boards"]): joint["kind"] for joint in opened.state()["drawing"]["joints"]}
    assert kinds["slanting divider", "top shelf"] == "butt"


def test_the_model_is_lifted_turned_taken_apart_and_laid_down(open_job: Opening):
    opened = open_job(reduced_motion="reduce")
    lifted(opened)
    page = opened.page
    state = page.locator("dl div", has_text="state").locator("dd").first
    page.wait_for_timeout(400)
    before = state.inner_text()
    page.locator("#lifted").focus()
    for _ in range(3):
        page.keyboard.press("ArrowRight")
    page.wait_for_timeout(500)
    assert state.inner_text() != before, "it says how it is turned"
    to(page, "apart")
    for _ in range(4):
        page.keyboard.press("ArrowRight")
    assert page.get_by_role("slider", name="apart").get_attribute("aria-valuenow") == "0.4"
    page.keyboard.press("l")
    page.wait_for_timeout(500)
    assert page.locator("#drawing").is_visible()
    assert opened.state()["revision"] == 1


def test_the_text_is_written_and_left_again(open_job: Opening):
    opened = open_job()
    before = opened.state()
    page = opened.page
    page.keyboard.press("t")
    page.locator(".cm-content").wait_for()
    assert page.evaluate(IN_TEXT), "one can write at once"
    page.keyboard.press("Control+End")
    page.keyboard.type("\n# by hand")
    opened.settled(before["revision"] + 1)
    assert opened.job.read_text(encoding="utf-8") == before["text"] + "\n# by hand"
    page.keyboard.press("Escape")
    page.keyboard.press("Tab")
    assert not page.evaluate(IN_TEXT), "one is not caught in it"


def test_the_papers_are_made_and_fetched(open_job: Opening):
    opened = open_job()
    page = opened.page
    to(page, "Papers")
    page.keyboard.press("Enter")
    to(page, "make all papers")
    page.keyboard.press("Enter")
    page.get_by_role("link", name="workshop.pdf").wait_for(timeout=90_000)
    to(page, "workshop.pdf")
    with page.expect_download() as download:
        page.keyboard.press("Enter")
    assert len(pypdfium2.PdfDocument(download.value.path())) > 10
