"""A cure rested on is drawn before it is taken: nothing is saved, and nothing is left of it when the hand goes."""

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
