"""A cure rested on is drawn before it is taken: nothing is saved, and nothing is left of it when the hand goes."""

import os
from collections.abc import Callable

from .conftest import Opened


def test_resting_on_a_cure_draws_before_and_after_and_a_press_takes_it(open_job: Callable[..., Opened]):
    """Record wall: 68.5 are left between the slots for shelf 3 and box 3, and box 3 may come down by 7."""
    opened = open_job("record-wall")
    page, before = opened.page, opened.job.read_bytes()
    note = page.locator(".notes li", has_text="75.3 wanted")
    cure = note.get_by_role("button", name="box 3: 7 down")
    cure.wait_for()
    assert note.locator("strong").inner_text() == "68.5, 75.3 wanted", "figure and limit lead"
    level = opened.board("box 3")["line"][0][1]

    cure.hover()
    page.locator("path.before").first.wait_for()
    assert (
        "Trying box 3: 7 down. box 2, box 3, box 4 move"
        in page.get_by_role("status").filter(has_text="Trying").inner_text()
    )
    assert page.locator("g.board.chosen").count() == 3, "they stand in blue where they would come to"
    assert "raking 2" not in page.get_by_role("status").filter(has_text="Trying").inner_text(), "it is only cut anew"
    assert note.is_visible(), "the note stays under the hand that may end it"

    page.mouse.move(400, 300)
    page.locator("path.before").first.wait_for(state="detached")
    assert opened.job.read_bytes() == before, "nothing is saved by looking"
    assert opened.board("box 3")["line"][0][1] == level

    revision = opened.state()["revision"]
    cure.click()
    opened.settled(revision + 1)
    assert abs(opened.board("box 3")["line"][0][1] - (level - 7)) < 0.01
    note.wait_for(state="detached")
    page.get_by_role("button", name="undo").click()
    opened.settled(revision + 2)
    assert opened.job.read_bytes() == before


def test_all_cures_of_a_note_are_listed_and_tried_by_the_keyboard(open_job: Callable[..., Opened]):
    opened = open_job("step-shelf")
    page = opened.page
    cures = page.locator(".notes li", has_text="nothing but the fit").locator(".cures button")
    cures.first.wait_for()
    assert cures.all_inner_texts() == ["glue leaning side to lower shelf", "glue left side to lower shelf"]
    page.keyboard.press("Tab")
    cures.first.focus()
    page.get_by_role("status").filter(has_text="Trying glue leaning side to lower shelf. No board moves").wait_for()
    page.keyboard.press("Escape")
    page.get_by_role("status").filter(has_text="Trying").wait_for(state="detached")


FOUR = """dryfit = 1
[timber.t]
species = "oak, white"
thickness = 24
[[board]]
name = "shelf"
timber = "t"
depth = 300
line = [[0, 600], [1200, 600]]
""" + "".join(
    f'[[board]]\nname = "{name}"\ntimber = "t"\ndepth = 300\nline = [[{at}, 0], [{at}, 1200]]\n'
    for name, at in {"z": 228, "a": 300, "b": 340, "c": 412}.items()
)


def test_a_note_without_a_cure_says_what_was_tried_in_vain(look_at: Callable[..., Opened]):
    """Uprights a and b are 40 apart, and have no room to either side: see tests/piece/test_cures.py."""
    page = look_at(FOUR).page
    note = page.locator(".notes li", has_text="between the slots for b and a")
    note.wait_for()
    assert note.locator(".cures").count() == 0
    assert note.locator(".uncured").inner_text() == (
        "no change offered: none of 2 thought of does: b: 59.5 to the right (it brings a stop: not-joined) and "
        "a: 59.5 to the left (it brings a stop: not-joined)"
    )
    note.locator("button.what").click()
    whole = "(said) => said.scrollWidth <= said.clientWidth && said.scrollHeight <= said.clientHeight + 1"
    assert note.locator(".uncured").evaluate(whole), "chosen, all of it is seen"
    for row in page.locator(".notes li[data-note]").all():
        assert row.locator(".cures, .uncured").count() == 1, row.inner_text()
    if folder := os.environ.get("DRYFIT_PICTURES"):
        page.screenshot(path=f"{folder}/uncured.png")
