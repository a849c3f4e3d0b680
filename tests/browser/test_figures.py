"""Never two figures for one thing: what the page says of each board and joint is what its sheets print.

For every demo one window is opened and walked through by the keyboard: after each choice all figures in sight are read
off the page, along the board on the drawing, on the card's strip and in its rows, and compared with book.json of the
same text. Where along a board another meets it is worked out here from the two lines alone.
"""

import json
import math
import re
from collections.abc import Callable, Iterator
from typing import Any

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents import naming
from dryfit.documents.bookjson import book_data
from dryfit.documents.looks import Desk
from dryfit.documents.sheets.booklet.pages import pages
from dryfit.documents.sheets.gluing.maker import figures
from dryfit.documents.sheets.wall_steps.maker import pages as wall_pages
from dryfit.lengths import LengthUnit, cut_text, depth_text
from dryfit.sentences import told as in_words
from dryfit.studies.glue_up.result import GlueUp
from dryfit.studies.measures.result import Measures

from .conftest import Opened

Data = dict[str, Any]
READ = """() => {
  const texts = (where) => [...document.querySelectorAll(where)].map((one) => one.textContent.trim());
  return {
    title: document.querySelector('aside.card h2')?.textContent ?? '',
    along: [...document.querySelectorAll('#drawing g.chosen text.figure')].map((one) => one.textContent.trim()),
    strip: texts('aside.card .inside > svg text'),
    rows: [...document.querySelectorAll('aside.card .row')].map((row) =>
      [row.querySelector('dt').textContent.trim(), row.querySelector('dd').innerText.trim()]),
    joints: texts('aside.card li'),
    said: document.querySelector('aside.card .inside')?.innerText ?? '',
  };
}"""


class Book:
    """The book of a demo, as other programs get it."""

    def __init__(self, text: str) -> None:
        self.job = read_job_text(text)
        self.units: LengthUnit = self.job.units
        self.data = book_data(build(self.job))
        self.boards = {board["name"]: board for board in self.data["boards"]}
        self.parts = {part["id"]: part for part in self.data["parts"]}
        self.cuts = {cut["key"]: cut for part in self.data["parts"] for cut in part["cuts"]}

    def printed(self, value: float) -> str:
        """A position as the sheets print it."""
        with naming.printing_in(self.units):
            return naming.position(value)

    def foot(self, board: Data) -> float:
        """Where its lower end is along it; its datum end where it lies level."""
        rise = board["frame"]["x"][1] * board["length"]
        return 0.0 if rise >= -1e-6 else board["length"]

    def along(self, name: str) -> Iterator[float]:
        """From its foot: where others meet it, where it is screwed, and its other end."""
        board, part = self.boards[name], self.parts[name]
        foot = self.foot(board)
        way = 1 if foot == 0 else -1  # what it meets beyond its foot is less than 0
        yield board["length"]
        for joint in self.data["joints"]:
            if name not in joint["between"]:
                continue
            other = next((self.boards[one] for one in joint["between"] if one != name and one in self.boards), None)
            if other is not None:
                yield way * (crossing(board, other) - foot)
                continue
            for cut in part["cuts"]:
                if cut["joint"] == joint["between"]:
                    yield way * (cut["position"][0]["at"] + part["zero"] - foot)

    def strip(self, name: str) -> Iterator[float]:
        """From the datum end: the ends of the face side, and each cut where it is first marked."""
        part = self.parts[name]
        yield 0.0
        yield next(cut["position"][0]["at"] for cut in part["cuts"] if cut["end"] == 1)
        yield from (cut["position"][0]["at"] for cut in part["cuts"] if not cut["end"] and cut["position"])


def crossing(board: Data, other: Data) -> float:
    """How far along a board's line another's crosses it; in line with each other, its own end."""
    (ox, oy, _), (ux, uy, _) = board["frame"]["origin"], board["frame"]["x"]
    (px, py, _), (vx, vy, _) = other["frame"]["origin"], other["frame"]["x"]
    turn = ux * vy - uy * vx
    if abs(turn) < 1e-9:
        ends = [math.dist((ox + ux * a, oy + uy * a), (px, py)) for a in (0.0, board["length"])]
        return 0.0 if ends[0] < ends[1] else float(board["length"])
    return float(((px - ox) * vy - (py - oy) * vx) / turn)


def walked(opened: Opened, key: str, count: int) -> Iterator[Data]:
    """What the page says after each press of a key, once the card is of what was chosen."""
    for _ in range(count):
        before = opened.page.evaluate(READ)["title"]
        opened.page.keyboard.press(key)
        change = "(before) => (document.querySelector('aside.card h2')?.textContent ?? '') !== before"
        opened.page.wait_for_function(change, arg=before)
        opened.page.wait_for_timeout(60)  # the drawing follows the card in the next frame
        yield opened.page.evaluate(READ)


@pytest.mark.parametrize("demo", demos())
def test_the_page_says_of_every_board_and_joint_what_the_book_says(demo: str, look_at: Callable[..., Opened]):
    book = Book(demo_text(demo))
    opened = look_at(demo)
    seen = set()
    for told in walked(opened, "n", len(book.boards)):
        name = told["title"]
        seen.add(name)
        board, part = book.boards[name], book.parts[name]
        angles = [words for words in told["along"] if words.endswith("°")]
        assert set(told["along"]) - set(angles) == {book.printed(value) for value in book.along(name)}, name
        assert set(told["strip"]) == {book.printed(value) for value in book.strip(name)}, name
        rows = dict(told["rows"])
        assert words_of(rows["over the long points"]) == book.printed(part["length"]), name
        assert words_of(rows["wide"]) == book.printed(part["width"]), name
        with naming.printing_in(book.units):
            assert words_of(rows["thick"]) == naming.thickness(part["thickness"]), name
        if angles:
            rake = math.degrees(math.atan2(abs(board["frame"]["x"][0]), abs(board["frame"]["x"][1])))
            assert angles == [f"{rake:.2f}°"], name
    assert seen == set(book.boards), "each is chosen once"
    pairs = set()
    for told in walked(opened, "Shift+N", len(book.data["joints"])):
        joint = next(one for one in book.data["joints"] if " and ".join(one["between"]) == told["title"])
        pairs.add(told["title"])
        for key in joint["cuts"]:
            cut = book.cuts[key]
            if cut["across"] is not None:
                assert f"{cut_text(cut['across'], book.units)} across" in told["said"], key
            if cut["deep"] is not None:
                assert f"{depth_text(cut['deep'], book.units)} deep" in told["said"], key
    assert len(pairs) == len(book.data["joints"]), "each is chosen once"


def test_figures_along_a_board_are_true_while_a_hand_moves_it(open_job: Callable[..., Opened]):
    opened = open_job("step-shelf")
    first = next(walked(opened, "n", 1))
    opened.page.keyboard.press("Shift+ArrowRight")
    changed = f"(before) => JSON.stringify(({READ})().along) !== before"
    opened.page.wait_for_function(changed, arg=json.dumps(first["along"], ensure_ascii=False, separators=(",", ":")))
    while_moving = opened.page.evaluate(READ)
    assert "figures of before this move" in while_moving["said"], "it is not saved yet"
    opened.settled(opened.state()["revision"])
    opened.page.get_by_role("button", name="undo").wait_for()
    book = Book(opened.job.read_text(encoding="utf-8"))
    found = {words for words in while_moving["along"] if not words.endswith("°")}
    assert found == {book.printed(value) for value in book.along(first["title"])}


def test_the_steps_on_the_slider_are_the_booklets_sheets_then_the_steps_on_the_wall(
    look_at: Callable[..., Opened],
):
    text = demo_text("record-wall")
    desk = Desk(build(read_job_text(text)))
    assert pages(desk)[-1].whole, "the last brings it to its wall"
    sheets = [*pages(desk), *wall_pages(desk)]
    opened = look_at("record-wall")
    opened.page.get_by_role("button", name="Together").click()
    opened.page.get_by_role("slider", name="Order of assembly").wait_for(timeout=30_000)
    listed = opened.page.locator("aside.card ol > li:not(.head) > button .says")
    listed.nth(len(sheets) - 1).wait_for(timeout=30_000)
    steps = listed.all_inner_texts()
    assert len(steps) == len(sheets)
    for said, sheet in zip(steps, sheets, strict=True):
        if sheet.step is not None and sheet.step.legs:
            assert said.startswith(in_words(sheet.step.name, desk.book.voice)), said
            assert all(name in said or "to" in said for name in sheet.step.into), said


def test_a_glued_step_shows_its_card_and_keys_stand_at_their_mitres(look_at: Callable[..., Opened]):
    """The figures in the card's boxes are those of its printed card; the box has four mitres with three keys each."""
    book = build(read_job_text(demo_text("record-wall")))
    plan = book.found(GlueUp)
    assert plan is not None
    opened = look_at("record-wall")
    page = opened.page
    page.get_by_role("button", name="Together").click()
    slider = page.get_by_role("slider", name="Order of assembly")
    slider.wait_for(timeout=30_000)
    slider.press("ArrowRight")
    card = page.get_by_role("region", name="Glue-up card G1")
    card.wait_for(timeout=30_000)
    with naming.printing_in(book.job.units):
        expected = [[what, f"{figure} {unit}"] for what, figure, unit in figures(plan, plan.stages[0])]
    boxes = card.locator("dl > div").all()
    assert [[box.locator("dt").inner_text(), box.locator("dd").inner_text()] for box in boxes] == expected
    slider.press("ArrowRight")
    slider.press("ArrowRight")
    page.locator("#lifted svg.names text", has_text="3 keys").nth(3).wait_for()
    places = "() => new Set([...document.querySelectorAll('circle.joint')].map((one) => one.outerHTML)).size === 4"
    page.wait_for_function(places)  # one at each mitre; none while the eye goes


@pytest.mark.parametrize("demo", demos())
def test_what_it_measures_over_all_is_what_the_book_measures(demo: str, look_at: Callable[..., Opened]):
    book = build(read_job_text(demo_text(demo)))
    measures = book.found(Measures)
    assert measures is not None
    with naming.printing_in(book.job.units):
        wide, high, deep = (naming.position(b - a) for a, b in zip(measures.low, measures.high, strict=True))
    opened = look_at(demo)
    opened.page.locator(".overall text").nth(1).wait_for()
    assert opened.page.locator(".overall text").all_text_contents() == [wide, high]
    size = opened.page.locator(".title .size", has_text="kg")
    size.wait_for(timeout=30_000)
    mass = f"{sum(book.mass_kg.values()):.0f} kg"
    assert size.inner_text() == f"{wide} × {high} × {deep} {book.job.units}; {mass}"


def words_of(row: str) -> str:
    """A figure without its unit."""
    return re.sub(r"[\s ](mm|in)$", "", row)
