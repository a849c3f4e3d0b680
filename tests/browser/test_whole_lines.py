"""The foot of the sheet at 1280 by 800: no line is cut through, what has no room is counted and one press away.

Six loads on one shelf make a note each; the words for drawing write their sentence and how it is done there.
"""

from collections.abc import Callable
from typing import Any

import pytest

from .conftest import Opened
from .test_looked_at import GLUED

Opening = Callable[..., Opened]
SMALL = {"width": 1280, "height": 800}
TABLET = {"width": 820, "height": 1180}
LOADED = GLUED + '\n[[load]]\nboard = "lower shelf"\nkg_per_m = 40\n' * 6
# Lines of words of the foot that are seen in part only: less what covers them, or lies beyond where their place ends.
CUT = """() => {
  const place = document.querySelector('.below').getBoundingClientRect();
  const cover = document.querySelector('.strip .cover')?.getBoundingClientRect();
  const sticks = document.querySelector('.sticks');
  const found = [];
  const walker = document.createTreeWalker(document.querySelector('.below'), NodeFilter.SHOW_TEXT);
  for (let node = walker.nextNode(); node; node = walker.nextNode()) {
    const range = document.createRange();
    range.selectNodeContents(node);
    const list = node.parentElement.closest('ol')?.getBoundingClientRect() ?? place;
    const listed = node.parentElement.closest('ol') !== null;
    const stuck = sticks?.contains(node.parentElement);
    const over = [listed ? cover : null, listed && !stuck ? sticks?.getBoundingClientRect() : null];
    for (const { top, bottom, width } of range.getClientRects()) {
      if (width === 0) continue;
      let [head, foot] = [Math.max(top, place.top, list.top), Math.min(bottom, place.bottom, list.bottom)];
      for (const one of over) {
        if (!one || one.top >= foot || one.bottom <= head) continue;
        if (one.top <= head) head = one.bottom;
        else foot = one.top;
      }
      if (foot - head > 3 && foot - head < bottom - top - 6) found.push(node.textContent.trim());
    }
  }
  return [...new Set(found)];
}"""


def test_no_note_is_cut_and_each_is_reached_by_pressing_how_many_more_there_are(open_job: Opening):
    opened = open_job(LOADED, size=SMALL)
    page = opened.page
    page.locator("[data-note]").nth(5).wait_for(state="attached", timeout=30_000)
    page.locator("li.working").wait_for(state="detached", timeout=30_000)
    more = page.locator("button.more")
    count = page.locator("[data-note]").count()
    seen: set[str] = set()
    for _ in range(count):
        page.wait_for_timeout(300)
        assert not page.evaluate(CUT)
        whole = page.evaluate("""() => {
          const cover = document.querySelector('.strip .cover')?.getBoundingClientRect();
          const list = document.querySelector('ol.notes').getBoundingClientRect();
          return [...document.querySelectorAll('[data-note]')].filter((one) => {
            const { top, bottom } = one.getBoundingClientRect();
            return top >= list.top - 1 && bottom <= (cover?.top ?? list.bottom) + 1;
          }).map((one) => one.dataset.note);
        }""")
        assert whole
        assert more.inner_text() == f"{count - len(whole)} more"
        seen |= set(whole)
        at = more.bounding_box()  # it stands fast while the list goes on under it
        page.mouse.click(at["x"] + at["width"] / 2, at["y"] + at["height"] / 2)
    assert len(seen) == count


def test_a_list_left_anywhere_by_the_wheel_settles_on_whole_lines(open_job: Opening):
    opened = open_job(LOADED, size=SMALL)
    page = opened.page
    page.locator("[data-note]").nth(5).wait_for(state="attached", timeout=30_000)
    page.locator("ol.notes").hover()
    page.mouse.wheel(0, 53)
    page.wait_for_timeout(500)
    assert page.locator("ol.notes").evaluate("list => list.scrollTop") > 0
    assert not page.evaluate(CUT)


@pytest.mark.parametrize("size", [SMALL, TABLET], ids=["1280", "tablet"])
@pytest.mark.parametrize("key", ["w", "b", "r", "f"])
def test_the_sentence_of_a_word_and_how_it_is_done_are_whole(key: str, size: Any, look_at: Opening):
    page = look_at("record-wall", size=size).page
    page.keyboard.press(key)
    page.locator(".hint").wait_for()
    page.wait_for_timeout(300)  # what is left of the notes is measured after the sentence has its room
    assert not page.evaluate(CUT)
    box, place = page.locator(".sentence").bounding_box(), page.locator(".below").bounding_box()
    assert box["y"] + box["height"] <= place["y"] + place["height"] + 1


def test_a_lean_with_all_its_ways_is_whole(look_at: Opening):
    opened = look_at("record-wall", size=SMALL)
    opened.choose("raking 1")
    opened.page.keyboard.press("a")
    opened.page.locator(".sentence .way").first.wait_for()
    opened.page.wait_for_timeout(300)
    assert not opened.page.evaluate(CUT)
    opened.page.keyboard.press("Escape")
    opened.page.keyboard.press("j")
    opened.page.locator("li.chosen").wait_for()
    opened.page.wait_for_timeout(300)
    assert not opened.page.evaluate(CUT), "nor a note that is chosen meanwhile"
