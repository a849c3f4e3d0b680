"""What a maker met who tried the page for the first time: each was wrong once.

Step shelf: a divider stands on the lower shelf; the record wall: shelf 2 lies at 550, and box 1's lower face at
652.05 - 24.1 / 2 = 640.
"""

from collections.abc import Callable

import pytest

from .conftest import Opened
from .hands import Sheet
from .test_maker import release

Opening = Callable[..., Opened]


def test_one_paper_is_made_by_itself(open_job: Opening):
    opened = open_job("step-shelf")
    opened.page.get_by_role("button", name="Papers").click()
    opened.page.locator("li", has_text="List of parts").get_by_role("button", name="make").click()
    opened.page.locator("a", has_text="parts.csv").wait_for(timeout=30_000)
    assert opened.page.get_by_text("not made yet").count() > 0, "the others are not"


def test_figures_along_a_board_are_true_while_the_text_is_open(open_job: Opening):
    opened = open_job()
    before = opened.state()["revision"]
    opened.choose("raking 1")
    opened.page.locator(".chosen .figure", has_text="555.4").wait_for()
    opened.page.keyboard.press("t")
    opened.page.locator(".editor").wait_for()
    text = opened.job.read_text(encoding="utf-8")
    opened.job.write_text(text.replace("step   = 410", "step   = 400"), encoding="utf-8")
    opened.settled(before + 1)
    opened.page.locator(".chosen .figure", has_text="545.3").wait_for()  # (140 + 400) / cos 8
    assert opened.page.locator(".chosen .figure", has_text="555.4").count() == 0


def test_in_the_model_only_what_is_shown_has_a_name(look_at: Opening):
    opened = look_at()
    opened.choose("top shelf")
    opened.page.get_by_role("button", name="Lift", exact=True).click()
    names = opened.page.locator("svg.names text")
    opened.page.get_by_role("button", name="alone", exact=True).click()
    opened.page.wait_for_timeout(600)
    assert names.all_text_contents() == ["top shelf"]


def test_several_boards_chosen_are_a_count_and_their_names(look_at: Opening):
    opened = look_at()
    opened.choose("shelf 1")
    opened.page.keyboard.press("Control+a")
    opened.page.get_by_role("heading", name="17 boards").wait_for()
    assert opened.page.locator("aside .face").count() == 0
    assert opened.page.locator("aside").get_by_text("joints", exact=False).count() == 0


def test_a_frame_drawn_by_hand_closes_square(open_job: Opening):
    opened = open_job("step-shelf")
    before = opened.state()["revision"]
    opened.page.keyboard.press("f")
    sheet = Sheet(opened)
    for x, y in ((200, 200), (400, 200), (400, 430), (203, 433), (200, 200)):
        opened.page.mouse.move(*sheet.at((x, y)))
        opened.page.mouse.down()
        opened.page.mouse.up()
        opened.page.wait_for_timeout(60)
    opened.settled(before + 1)
    frame = opened.state()["frames"][-1]
    (x0, y0), (x1, y1), (x2, y2), (x3, y3) = frame["points"]
    assert (x0, y0, x1, y2) == (x3, y1, x2, y3)
    assert opened.page.locator(".guide").count() == 0, "no guide of the snapping is left"


def test_a_board_pulled_under_another_touches_it_and_does_not_overlap(open_job: Opening):
    opened = open_job()
    before = opened.state()["revision"]
    opened.choose("shelf 2")
    box = opened.page.locator("text.name", has_text="shelf 2").first.bounding_box()
    sheet = Sheet(opened)
    x, y = sheet.at((1480, 550))
    assert box is not None
    opened.page.mouse.move(x, y)
    opened.page.mouse.down()
    for step in range(1, 11):
        to = sheet.at((1480, 550 + 77.9 * step / 10))
        opened.page.mouse.move(*to)
        opened.page.wait_for_timeout(25)
    opened.page.locator(".why", has_text="under box 1").wait_for()
    release(opened, before)
    assert opened.board("shelf 2")["line"][0][1] == pytest.approx(640 - 24.1 / 2, abs=0.006)
    assert not [note for note in opened.state()["notes"] if note["code"] == "overlap"]
