"""What the foot of the sheet says of what was checked: "working" until all has answered for what is seen.

The step shelf with its crossings glued has no findings, so its all-clear stands alone. The slow work is held still
(SIGSTOP) where a test needs it to be late. Everything the page ever showed is written down as it changes, with the
revision it was shown for.
"""

import os
import signal
from collections.abc import Callable, Iterator
from contextlib import contextmanager
from pathlib import Path

import pytest

from dryfit.book.demos import demo_text

from .conftest import Opened
from .hands import Sheet

Opening = Callable[..., Opened]
GLUED = demo_text("step-shelf") + '\n[joints."cross halving"]\nglued = true\n'
CLEAR = "Nothing found in what was checked."
RECORD = """() => {
  window.seen = [];
  const note = () => {
    const said = document.querySelector('.notes')?.textContent ?? '';
    const block = [...document.querySelectorAll('dt')].find((one) => one.textContent === 'state');
    const state = block?.nextElementSibling?.textContent ?? '';
    window.seen.push({
      revision: Number(document.documentElement.dataset.revision),
      clear: said.includes('Nothing found') || /no stop|nothing found/.test(state),
      working: said.includes('Working'),
    });
  };
  note();
  const all = { subtree: true, childList: true, characterData: true, attributes: true };
  new MutationObserver(note).observe(document.documentElement, all);
}"""

pytestmark = pytest.mark.skipif(not Path("/proc/self/task").exists(), reason="the worker is found in /proc")


def worker_of(opened: Opened) -> int:
    """The process that does the slow work: started by itself, or forked and so called as its server is."""
    assert opened.server.process is not None
    server = Path(f"/proc/{opened.server.process.pid}")
    called = (server / "cmdline").read_bytes()
    for task in (server / "task").iterdir():
        for child in (task / "children").read_text().split():
            its = Path(f"/proc/{child}/cmdline").read_bytes()
            if its == called or b"spawn_main" in its:
                return int(child)
    raise AssertionError("there is no worker")


@contextmanager
def held_still(opened: Opened) -> Iterator[None]:
    worker = worker_of(opened)
    os.kill(worker, signal.SIGSTOP)
    try:
        yield
    finally:
        os.kill(worker, signal.SIGCONT)


def answered(opened: Opened) -> None:
    opened.page.locator("li.clear", has_text=CLEAR).wait_for(timeout=30_000)


def changed_outside(opened: Opened, before: str, after: str) -> None:
    text = opened.job.read_text(encoding="utf-8")
    assert text.count(before) >= 1
    opened.job.write_text(text.replace(before, after), encoding="utf-8")


def test_working_is_shown_until_all_has_answered_and_no_all_clear_of_before(open_job: Opening):
    opened = open_job(GLUED)
    answered(opened)
    first = opened.state()["revision"]
    with held_still(opened):
        opened.page.evaluate(RECORD)
        for number in (1, 2, 3):
            changed_outside(opened, f'"width / 2", {461 - number}', f'"width / 2", {460 - number}')
            opened.settled(first + number)
            opened.page.locator("li.working", has_text="Working").wait_for()
            assert opened.page.locator("li.clear").count() == 0
        opened.page.wait_for_timeout(500)
        seen = opened.page.evaluate("window.seen")
    assert {one["revision"] for one in seen} >= {first, first + 1, first + 2, first + 3}
    assert not [one for one in seen if one["clear"] and one["revision"] > first]
    opened.page.locator("li.working").wait_for(state="detached", timeout=30_000)
    state = opened.state()
    assert state["rest"]["stands"] == "answered"
    assert state["rest"]["revision"] == state["revision"]


def test_while_a_hand_moves_a_board_nothing_is_clear(open_job: Opening):
    opened = open_job(GLUED)
    answered(opened)
    opened.choose("divider")
    x, y = opened.board("divider")["line"][0]
    top = opened.board("divider")["line"][1][1]
    sheet = Sheet(opened)
    sheet.hold((x, (y + top) / 2), (x + 30, (y + top) / 2))
    opened.page.locator("li.working", has_text="once the hand lets go").wait_for()
    assert opened.page.locator("li.clear").count() == 0
    assert opened.page.locator("dd", has_text="no stop").count() == 0
    opened.page.keyboard.press("Escape")
    opened.page.mouse.up()
    answered(opened)


def test_what_was_not_looked_at_is_listed_with_its_reasons(look_at: Opening):
    opened = look_at(GLUED)
    answered(opened)
    row = opened.page.locator("li.left")
    assert row.inner_text().startswith("Not checked: what the shelves carry; ")
    why = row.get_by_role("button", name="why")
    why.focus()
    opened.page.keyboard.press("Enter")
    told = dict(one.split("\n") for one in opened.page.locator("li.why").all_inner_texts())
    expected = {one["what"]: one["why"] for one in opened.state()["not_checked"]}
    assert told == expected
    assert told["what the shelves carry"] == "no load is given"
    looked = opened.page.locator("li.asks").inner_text()
    assert all(one["asks"] in looked for one in opened.state()["checked"])
    row.get_by_role("button", name="fold").click()
    assert opened.page.locator("li.why").count() == 0
    opened.page.get_by_role("button", name="List", exact=True).click()
    rows = opened.page.locator("table", has=opened.page.locator("caption", has_text="Not checked")).locator("tbody tr")
    assert rows.count() == len(expected)


def test_a_job_with_findings_says_what_was_not_looked_at_as_well(open_job: Opening):
    opened = open_job(GLUED + '\n[[load]]\nboard = "lower shelf"\nkg_per_m = 40\n')
    opened.page.locator("li.left").wait_for(timeout=30_000)
    assert opened.page.locator("[data-note]").count() == 1
    opened.page.locator("li.working").wait_for(state="detached", timeout=30_000)
    assert opened.page.locator("li.clear").count() == 0


def within(box: dict[str, float], foot: dict[str, float]) -> bool:
    """Whether a line is seen whole in the foot of the sheet, to half a px."""
    above, below = box["y"] - foot["y"], foot["y"] + foot["height"] - box["y"] - box["height"]
    return min(above, below) >= -0.5


def test_what_was_not_looked_at_is_in_sight_under_more_notes_than_there_is_room_for(open_job: Opening):
    """Six loads, a note each, in a foot of 134 px; unfolded, the reasons are what is seen."""
    opened = open_job(GLUED + '\n[[load]]\nboard = "lower shelf"\nkg_per_m = 40\n' * 6)
    opened.page.locator("[data-note]").nth(5).wait_for(state="attached", timeout=30_000)
    row = opened.page.locator("li.left")
    row.wait_for(timeout=30_000)
    foot = opened.page.locator("ol.notes").bounding_box()
    assert within(row.bounding_box(), foot)
    row.get_by_role("button", name="why").click()
    opened.page.wait_for_timeout(200)
    assert within(opened.page.locator("li.why").first.bounding_box(), foot)


@pytest.mark.parametrize(
    "size", [{"width": 1440, "height": 900}, {"width": 1024, "height": 768}], ids=["desk", "tablet"]
)
def test_the_title_block_cuts_nothing_off_of_what_was_not_looked_at(look_at: Opening, size: dict[str, int]):
    """The record wall has something to look at, and more that nobody looked at: the longest words of the block."""
    state = look_at("record-wall", size=size).page.locator("dd.state")
    state.filter(has_text="not checked").wait_for(timeout=30_000)
    assert state.evaluate("cell => cell.scrollWidth <= cell.clientWidth && cell.scrollHeight <= cell.clientHeight + 1")
