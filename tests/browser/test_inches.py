"""A job in inches, and a job in mm that is looked at in inches: what is typed counts in the units that are seen.

Three boards of 3/4: a shelf at 30 from 0 to 48, an upright at 12 and one at 36, 60 high. 1 in is 25.4 mm.
"""

import re
from collections.abc import Callable

from .conftest import Opened
from .test_maker import drag, release

Opening = Callable[..., Opened]
SHELF = """\
dryfit = 1
[job]
title = "shelf"
units = "in"
[timber.oak]
species = "oak, white"
thickness = "3/4 in"
""" + "".join(
    f'[[board]]\nname = "{name}"\nline = {line}\ndepth = "10 1/4 in"\n'
    for name, line in (
        ("shelf", '[[0, "30 in"], [48, "30 in"]]'),
        ("left", '[["12 in", 0], ["12 in", 60]]'),
        ("right", "[[36, 0], [36, 60]]"),
    )
)


def line(opened: Opened, name: str) -> str:
    """The board's line as the file has it."""
    found = re.search(rf'name = "{name}"\nline = (.*)', opened.job.read_text(encoding="utf-8"))
    assert found is not None
    return found[1]


def figure(opened: Opened, seen: str, typed: str) -> None:
    """Type another figure in the place of one on the drawing."""
    opened.page.locator("text.figure.typed", has_text=re.compile(rf"^{seen}$")).first.click()
    opened.page.keyboard.type(typed)
    opened.page.keyboard.press("Enter")


def test_a_job_in_inches_is_seen_in_inches_and_what_is_typed_counts_so(open_job: Opening):
    opened = open_job(SHELF)
    before = opened.state()["revision"]
    opened.choose("left")
    figure(opened, "12", "12 5/8")
    opened.settled(before + 1)
    assert line(opened, "left") == '[["12 5/8 in", 0], ["12 5/8 in", 60]]'
    opened.page.locator("[data-row='depth'] .typed").first.click()
    assert opened.page.get_by_role("textbox", name="depth of left").input_value() == "10 1/4 in", "as the file has it"
    opened.page.keyboard.type("11 1/2")
    opened.page.keyboard.press("Enter")
    opened.settled(before + 2)
    assert opened.board("left")["depth"] == 292.1, "11.5 x 25.4"


def test_a_job_in_inches_seen_in_mm_takes_mm(open_job: Opening):
    opened = open_job(SHELF)
    before = opened.state()["revision"]
    opened.choose("left")
    opened.page.keyboard.press("u")
    figure(opened, "304.8", "310")
    opened.settled(before + 1)
    assert opened.board("left")["line"][0][0] == 310
    assert "310 mm" in line(opened, "left")


def test_a_job_in_mm_seen_in_inches_takes_inches(open_job: Opening):
    opened = open_job()
    before = opened.state()["revision"]
    opened.choose("raking 1")
    opened.page.keyboard.press("u")
    figure(opened, r"22 3/64", "22 1/4")  # 560 mm are 22.047 in
    opened.settled(before + 1)
    assert opened.board("raking 1")["line"][0][0] == 565.15, "22.25 x 25.4"


def test_a_move_is_typed_in_inches_with_its_fraction(open_job: Opening):
    opened = open_job(SHELF)
    before = opened.state()["revision"]
    drag(opened, "right", 30)
    opened.page.keyboard.type("1 1/2")
    opened.page.wait_for_timeout(150)
    assert opened.page.locator(".moving .far").text_content() == "1 1/2"
    release(opened, before)
    assert line(opened, "right") == "[[37.5, 0], [37.5, 60]]"


def test_a_board_is_drawn_by_typing_its_ends_in_inches(open_job: Opening):
    opened = open_job(SHELF)
    before = opened.state()["revision"]
    for key in ("b", "24, 10 1/2", "Enter", "40, 10 1/2", "Enter"):
        opened.page.keyboard.type(key) if " " in key else opened.page.keyboard.press(key)
    opened.settled(before + 1)
    assert opened.board("shelf 2")["line"] == [[609.6, 266.7], [1016.0, 266.7]]


def test_arrow_keys_move_by_what_an_inch_rule_has_and_by_a_tenth_of_a_millimetre(open_job: Opening):
    opened = open_job(SHELF)
    before = opened.state()["revision"]
    opened.choose("left")
    opened.page.keyboard.press("ArrowRight")
    opened.page.keyboard.press("Alt+ArrowRight")
    opened.settled(before + 1)
    assert line(opened, "left") == '[["12 3/32 in", 0], ["12 3/32 in", 60]]'
    opened.page.keyboard.press("u")
    opened.choose("right")
    opened.page.keyboard.press("Alt+ArrowRight")
    opened.settled(before + 2)
    assert abs(opened.board("right")["line"][0][0] - (36 * 25.4 + 0.1)) < 0.01


def test_a_measure_that_is_an_angle_stays_in_degrees(open_job: Opening):
    """The record wall's `lean` is 8 degrees, since its raking boards have `tan(lean)`."""
    opened = open_job()
    before = opened.state()["revision"]
    opened.page.keyboard.press("u")
    lean = opened.page.locator("[data-row='lean'] .typed")
    assert lean.inner_text() == "8°"
    lean.click()
    opened.page.keyboard.type("9")
    opened.page.keyboard.press("Enter")
    opened.settled(before + 1)
    assert re.search(r"^lean += 9\b", opened.job.read_text(encoding="utf-8"), re.MULTILINE)


def test_a_board_is_added_to_the_list_in_inches(open_job: Opening):
    opened = open_job(SHELF)
    before = opened.state()["revision"]
    opened.page.get_by_role("button", name="List").click()
    opened.page.get_by_label("from: across, up, inches").fill("24, 30 1/2")
    opened.page.get_by_label("to: across, up, inches").fill("24, 59")
    opened.page.get_by_role("button", name="add", exact=True).click()
    opened.settled(before + 1)
    assert opened.board("upright")["line"] == [[609.6, 774.7], [609.6, 1498.6]]
