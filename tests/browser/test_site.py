"""Light Site on the record wall: the wall first, then a step at a time, as the studies have them.

The record wall goes up in fourteen steps. Shelf 1 comes at step 3 with three screws, which stay loose until divider 1
is in at step 4. All that is asserted of screws and steps is read from the studies themselves, here in Python.
"""

import re
from collections.abc import Callable
from functools import cache

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.studies.driving.result import Driven, Driving
from dryfit.studies.marking.result import Marks

from .conftest import Opened
from .hands import Sheet

Opening = Callable[..., Opened]


@cache
def studied() -> tuple[Driving, Marks]:
    book = build(read_job_text(demo_text("record-wall")))
    driving, marks = book.found(Driving), book.found(Marks)
    assert driving is not None
    assert marks is not None
    return driving, marks


def site(opened: Opened) -> Opened:
    opened.page.get_by_role("navigation", name="Lights").get_by_role("button", name="Site").click()
    opened.page.get_by_role("slider", name="Steps on the wall").wait_for(timeout=20_000)
    opened.page.locator("g.screw").first.wait_for(timeout=20_000)
    return opened


def states(opened: Opened) -> list[str]:
    """Of every screw on the drawing, in the order of the study."""
    said = [one.get_attribute("aria-label") or "" for one in opened.page.locator("g.screw").all()]
    return [label.rpartition(": ")[2] for label in said]


def state_of(screw: Driven, step: int) -> str:
    """How a screw stands once a step is done."""
    assert screw.step is not None
    assert screw.tight is not None
    return "not yet" if screw.step > step else "loose" if screw.tight > step else "home"


def test_the_wall_comes_first_with_every_hole_from_two_lines(look_at: Opening):
    opened, (_, marks) = site(look_at()), studied()

    rows = opened.page.locator(".card tbody").first.locator("tr").all()
    told = [[cell.inner_text() for cell in row.locator("td").all()][:3] for row in rows]
    assert told == [[f"{one.board}, {one.number}", f"{one.right:g}", f"{one.up:g}"] for one in marks.holes]
    assert set(states(opened)) == {"not yet"}
    opened.page.get_by_text(f"level line, {marks.level:g} up").wait_for()


def test_screws_stand_at_each_step_as_the_study_has_them(look_at: Opening):
    opened, (driving, _) = site(look_at(reduced_motion="reduce")), studied()
    slider = opened.page.get_by_role("slider", name="Steps on the wall")
    slider.focus()

    seen = set[str]()
    for step in range(1, len(driving.steps) + 1):
        opened.page.keyboard.press("ArrowRight")
        opened.page.wait_for_function(
            "(at) => document.querySelector('[role=slider]').ariaValueNow === at", arg=str(step)
        )
        expected = [state_of(one, step) for one in driving.screws]
        assert states(opened) == expected, f"step {step}"
        seen.update(expected)
        dashed = {one.get_attribute("data-board") for one in opened.page.locator("svg#drawing g.board.faint").all()}
        assert dashed == {part for later in driving.steps[step:] for part in later.parts}
    assert seen == {"not yet", "loose", "home"}


def test_a_screw_that_is_pressed_is_cut_along_its_length(look_at: Opening):
    opened, (driving, _) = site(look_at()), studied()
    last = driving.screws[-1]
    opened.page.get_by_role("button", name=f"Screw {last.number} of {last.board}: not yet").click()

    section = opened.page.get_by_role("img", name=f"Section along screw {last.number} of {last.board}")
    section.wait_for()
    said = opened.page.locator(".card .sum").inner_text()
    parts, _, whole = said.partition(" = ")
    assert sum(map(float, re.findall(r"[\d.]+", parts))) == pytest.approx(float(whole)) == last.stands.length


def test_no_board_moves_under_the_hand_here(look_at: Opening):
    """`look_at` holds the file to be as it was."""
    opened = site(look_at())
    before = opened.state()["revision"]
    Sheet(opened).drag((1300, 1500), (1500, 1500))

    assert opened.state()["revision"] == before
    opened.page.get_by_role("slider", name="Steps on the wall").wait_for()


def test_by_touch_one_goes_on_and_a_screw_is_pressed(look_at: Opening):
    opened = site(look_at(size={"width": 390, "height": 844}, has_touch=True, is_mobile=True))
    for at in (1, 2, 3):
        opened.page.get_by_role("button", name=f"on to {at}").tap()
    opened.page.get_by_role("button", name=re.compile("Screw 2 of shelf 1: loose")).tap()

    opened.page.get_by_role("img", name="Section along screw 2 of shelf 1").wait_for()
    opened.page.get_by_role("heading", name="Step 3").wait_for()
