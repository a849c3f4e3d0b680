"""From nothing to a sound piece, without the manual: by pointer, by keyboard, by touch.

The wall is 2400 by 1600, the stock 27. A mitred frame stands on the floor, two uprights make three equal bays of its
opening, a shelf crosses them, one upright leans 7.5 degrees. The shelf is first drawn so near the frame's top that the
uprights keep too little wood over it: the cure is taken, and the papers are made.

What a hand does is counted: a press, a drag, a key chord, a figure typed. By the keyboard a figure ends with the comma
that goes on to the next; by pointer and touch nothing is typed but figures.
The figures here are what was reached; whoever needs more of them has made the first minute longer.
"""

import math
import os
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from dryfit.job.starting import new_text

from .conftest import Opened
from .hands import Point, Sheet

Opening = Callable[..., Opened]
MOST = {"pointer": 18, "keyboard": 25, "touch": 19}
TABLET = {"width": 1024, "height": 768}
EMPTY = new_text("hall shelf")
HIGH = 1120.0  # of the shelf at first; 54 of wood are wanted over its slot, twice its thickness
LEAN = 7.5


class Acts:
    """A hand that counts what it does, and waits for the page after each change."""

    def __init__(self, opened: Opened, by: str) -> None:
        self.opened, self.page, self.by = opened, opened.page, by
        self.count = 0

    def done(self, count: int = 1) -> None:
        self.count += count
        self.page.wait_for_timeout(150)
        self.shot()

    def shot(self, word: str = "") -> None:
        if folder := os.environ.get("DRYFIT_PICTURES"):
            self.page.screenshot(path=str(Path(folder) / f"first-{self.by}-{self.count:02}{word}.png"))

    def press(self, target: Any) -> None:
        """A word, a blank, a place of the drawing in the job's mm."""
        if isinstance(target, tuple):
            Sheet(self.opened).press(target)
        else:
            target.click()
        self.done()

    def pull(self, start: Point, end: Point) -> None:
        """Press, go, let go."""
        middle = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
        Sheet(self.opened).drag(start, middle, end)
        self.done()

    def figure(self, text: str) -> None:
        self.page.keyboard.type(text)
        self.done()

    def key(self, chord: str) -> None:
        self.page.keyboard.press(chord)
        self.done()

    def word(self, name: str) -> None:
        self.press(self.page.get_by_role("toolbar", name="Draw").get_by_role("button", name=name, exact=True))

    def blank(self, label: str) -> Any:
        return self.page.get_by_label(label, exact=True).first


class Finger(Acts):
    """One finger; what it pulls stands off it, up to the left, where it can be seen."""

    OFF = 42

    def press(self, target: Any) -> None:
        if isinstance(target, tuple):
            self.page.touchscreen.tap(*Sheet(self.opened).at(target))
        else:
            target.tap()
        self.done()

    def pull(self, start: Point, end: Point) -> None:
        touch = self.page.context.new_cdp_session(self.page)
        sheet = Sheet(self.opened)
        (x, y), (to_x, to_y) = sheet.at(start), sheet.at(end)
        to_x, to_y = to_x + self.OFF, to_y + self.OFF

        def finger(kind: str, *at: dict[str, float]) -> None:
            touch.send("Input.dispatchTouchEvent", {"type": kind, "touchPoints": list(at)})
            self.page.wait_for_timeout(20)

        finger("touchStart", {"x": x, "y": y})
        for step in range(1, 11):
            finger("touchMove", {"x": x + (to_x - x) * step / 10, "y": y + (to_y - y) * step / 10})
        self.page.wait_for_timeout(200)
        self.shot("pulling")
        finger("touchEnd")
        self.done()


def until(opened: Opened, there: Callable[[dict[str, Any]], bool]) -> dict[str, Any]:
    """The state as soon as something holds of it."""
    for _ in range(100):
        state = opened.state()
        if there(state):
            opened.settled(state["revision"])
            return state
        opened.page.wait_for_timeout(100)
    raise AssertionError(opened.state()["text"])


def boards(state: dict[str, Any]) -> dict[str, dict[str, Any]]:
    return {board["name"]: board for board in state["drawing"]["boards"]}


def is_the_piece(opened: Opened, acts: Acts, capsys: pytest.CaptureFixture[str]) -> None:
    """Whether it came out, and in how many acts."""
    state = opened.state()
    by_name = boards(state)
    wall, (frame,) = state["wall"], state["frames"]
    assert (wall["wide"], wall["high"], wall["thick"]) == (2400, 1600, 27)
    assert frame["closed"]
    assert len(frame["boards"]) == 4
    kinds = {frozenset(joint["boards"]): joint["kind"] for joint in state["drawing"]["joints"]}
    sides = frame["boards"]
    assert [kinds[frozenset((sides[at - 1], sides[at]))] for at in range(4)] == ["mitre"] * 4
    assert kinds[frozenset(("upright 1", "shelf"))] == kinds[frozenset(("upright 2", "shelf"))] == "cross halving"
    assert {board["thickness"] for board in by_name.values()} == {27}
    feet = [by_name[name]["line"][0][0] for name in ("upright 1", "upright 2")]
    left, right = (sorted(x for x, _ in frame["points"])[at] for at in (0, -1))
    bays = [feet[0] - left - 27 - 13.5, feet[1] - feet[0] - 27, right - 27 - feet[1] - 13.5]
    assert bays == pytest.approx([(right - left - 4 * 27) / 3] * 3, abs=0.05), "equal at the foot"
    (x, y), (far, high) = by_name["upright 2"]["line"]
    assert math.degrees(math.atan2(far - x, high - y)) == pytest.approx(LEAN, abs=0.01)
    assert not [note for note in state["notes"] if note["severity"] == "stop"]
    with capsys.disabled():
        print(f"\nfrom nothing to the papers by {acts.by}: {acts.count} acts")
    assert acts.count <= MOST[acts.by], "the first minute has become longer"


def are_made(page: Any) -> None:
    page.get_by_role("button", name="make them anew").wait_for(timeout=90_000)


def by_hand(opened: Opened, acts: Acts) -> None:
    """By pointer and by touch alike: pressed and pulled, and only figures typed."""
    page = opened.page
    page.locator("[data-field=wide]:focus").wait_for()
    acts.figure("2400")
    acts.press(acts.blank("Height of the wall"))
    acts.figure("1600")
    acts.press(acts.blank("thickness of the stock"))
    acts.figure("27")
    acts.word("a frame")
    until(opened, lambda state: state["wall"]["thick"] == 27)
    page.wait_for_timeout(300)
    scale = Sheet(opened).scale
    acts.pull((200, 0), (2200, 1200))
    until(opened, lambda state: len(state["frames"]) == 1)
    assert Sheet(opened).scale == scale, "the first board leaves the sheet as it is"
    acts.word("a row")
    page.get_by_text("3 equal bays").wait_for()  # of the only bay there is
    acts.press(page.get_by_role("button", name="put it in"))
    until(opened, lambda state: "upright 2" in boards(state))
    acts.word("a board")
    page.wait_for_timeout(300)
    acts.pull((213.5, HIGH), (2186.5, HIGH))
    until(opened, lambda state: "shelf" in boards(state))
    acts.press((boards(opened.state())["upright 2"]["line"][0][0], 400))
    acts.word("lean")
    page.locator("[data-field=lean]:focus").wait_for()
    acts.figure(str(LEAN))
    acts.press(page.get_by_role("button", name="put it in"))
    until(opened, lambda state: boards(state)["upright 2"]["rake"] < 89)
    acts.press(page.locator(".cure").first)
    if acts.by == "touch":  # no finger rests: the first press draws what would come of it
        acts.press(page.locator(".cure").first)
    until(opened, lambda state: not [note for note in state["notes"] if note["severity"] == "stop"])
    acts.press(page.get_by_role("button", name="Papers"))
    acts.press(page.get_by_role("button", name="make all papers"))
    are_made(page)


def test_by_pointer(open_job: Opening, capsys: pytest.CaptureFixture[str]):
    opened = open_job(EMPTY)
    acts = Acts(opened, "pointer")
    by_hand(opened, acts)
    is_the_piece(opened, acts, capsys)


def test_by_keyboard(open_job: Opening, capsys: pytest.CaptureFixture[str]):
    opened = open_job(EMPTY)
    page, acts = opened.page, Acts(opened, "keyboard")
    page.locator("[data-field=wide]:focus").wait_for()
    acts.figure("2400,")
    acts.figure("1600,")
    acts.figure("27")
    acts.key("Enter")
    until(opened, lambda state: state["wall"]["thick"] == 27)
    acts.key("f")
    for figure in ("200,", "0,", "2000,", "1200"):
        acts.figure(figure)
    acts.key("Enter")
    until(opened, lambda state: len(state["frames"]) == 1)
    acts.key("r")
    page.get_by_text("3 equal bays").wait_for()
    acts.key("Enter")
    until(opened, lambda state: "upright 2" in boards(state))
    acts.key("b")
    for figure in ("200,", f"{HIGH:g},", "2200"):  # from outside to outside; level, since nothing else is said
        acts.figure(figure)
    acts.key("Enter")
    until(opened, lambda state: "shelf" in boards(state))
    page.get_by_role("heading", name="shelf", exact=True).wait_for()
    acts.key("p")
    acts.key("a")
    page.locator("[data-field=lean]:focus").wait_for()
    acts.figure(str(LEAN))
    acts.key("Enter")
    until(opened, lambda state: boards(state)["upright 2"]["rake"] < 89)
    acts.key("j")
    acts.key("Enter")
    until(opened, lambda state: not [note for note in state["notes"] if note["severity"] == "stop"])
    acts.key("7")
    page.locator("[data-main]:focus").wait_for()
    acts.key("Enter")
    are_made(page)
    is_the_piece(opened, acts, capsys)


def test_by_touch(open_job: Opening, capsys: pytest.CaptureFixture[str]):
    opened = open_job(EMPTY, size=TABLET, has_touch=True, is_mobile=True)
    acts = Finger(opened, "touch")
    by_hand(opened, acts)
    is_the_piece(opened, acts, capsys)
