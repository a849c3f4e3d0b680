"""Names, figures and marks: none moves when a board is chosen, none lies on another, none is left out in silence.

Each demo is opened once and walked through by the keyboard, board by board; after each choice all that is written on
the drawing is read off with its place, and compared with what stood there while nothing was chosen.
"""

from collections.abc import Callable
from itertools import combinations
from typing import Any

import pytest

from dryfit.book.demos import demos

from .conftest import Opened

Opening = Callable[..., Opened]
# What has a place of its own, whatever is chosen: names, running dimensions, those over all, the view from the left.
PLACES = """() => Object.fromEntries([...document.querySelectorAll(
    '#drawing text.name, #drawing .dimensions text, #drawing .overall text,' +
    '#drawing .side text:not(.own-figure), #drawing g.joint')]
  .map((one) => {
    const at = one.localName === 'g' ? one.querySelector('rect') : one;
    const kind = one.localName === 'g' ? 'mark' : one.closest('g')?.getAttribute('class')?.split(' ')[0] ?? 'name';
    const said = one.dataset.joint ?? one.dataset.board ?? one.textContent;
    const key = [kind, said, one.dataset.joint || one.dataset.board ? '' : at.getAttribute('x')].join('|');
    return [key, [Number(at.getAttribute('x')), Number(at.getAttribute('y'))]];
  }))"""
TEXTS = """() => [...document.querySelectorAll('#drawing text:not(.halo)')].filter((one) => one.textContent.trim())
  .map((one) => {
    const { left, top, right, bottom } = one.getBoundingClientRect();
    return [one.textContent.trim(), left, top, right, bottom];
  })"""
LEADING = 4.0  # px of a line of text that have no letter in them, above and below


def walk(opened: Opened, count: int) -> Any:
    """Choose one board after the other."""
    for _ in range(count):
        before = opened.page.evaluate("() => document.querySelector('aside.card h2')?.textContent ?? ''")
        opened.page.keyboard.press("n")
        change = "(before) => (document.querySelector('aside.card h2')?.textContent ?? '') !== before"
        opened.page.wait_for_function(change, arg=before)
        opened.page.wait_for_timeout(60)
        yield opened.page.evaluate("() => document.querySelector('aside.card h2').textContent")


def collisions(texts: list[Any]) -> list[tuple[str, str]]:
    """Pairs that lie on each other."""
    return [
        (one[0], other[0])
        for one, other in combinations(texts, 2)
        if one[1] < other[3] - 1
        and other[1] < one[3] - 1
        and one[2] + LEADING < other[4] - LEADING
        and other[2] + LEADING < one[4] - LEADING
    ]


@pytest.mark.parametrize("demo", demos())
def test_choosing_a_board_moves_nothing_that_is_written(demo: str, look_at: Opening):
    opened = look_at(demo)
    opened.page.wait_for_timeout(300)
    before = opened.page.evaluate(PLACES)
    assert before
    for name in walk(opened, len(opened.state()["drawing"]["boards"])):
        after = opened.page.evaluate(PLACES)
        moved = {key: (at, after.get(key)) for key, at in before.items() if after.get(key) != at}
        assert not moved, (name, moved)


@pytest.mark.parametrize("demo", demos())
def test_nothing_that_is_written_lies_on_other_words(demo: str, look_at: Opening):
    opened = look_at(demo)
    opened.page.wait_for_timeout(300)
    assert not collisions(opened.page.evaluate(TEXTS))
    for name in walk(opened, len(opened.state()["drawing"]["boards"])):
        assert not (found := collisions(opened.page.evaluate(TEXTS))), (name, found)


@pytest.mark.parametrize("demo", demos())
def test_every_board_has_its_name_or_is_counted(demo: str, look_at: Opening):
    opened = look_at(demo)
    opened.page.wait_for_timeout(300)
    names = opened.page.locator("#drawing text.name").count()
    boards = len(opened.state()["drawing"]["boards"])
    said = opened.page.locator("#drawing text.unsaid")
    counted = int(said.inner_text().split()[0]) if names < boards else 0
    assert names + counted == boards


def test_the_trial_of_a_cure_covers_no_figure_on_a_tablet(open_job: Opening):
    opened = open_job("step-shelf", size={"width": 1024, "height": 768})
    page = opened.page
    page.locator(".cures .cure").first.wait_for(timeout=20_000)
    page.locator(".cures .cure").first.hover()
    strip = page.get_by_role("status").filter(has_text="Trying")
    strip.wait_for()
    at, sheet = strip.bounding_box(), page.locator("#drawing").bounding_box()
    assert at["y"] >= sheet["y"] + sheet["height"] - 1, "it takes the hand's line, not the drawing"


def test_a_notes_leader_starts_at_the_hands_line_and_runs_through_no_figure(look_at: Opening):
    opened = look_at("record-wall")
    page = opened.page
    page.keyboard.press("j")
    page.wait_for_selector(".leader path")
    page.wait_for_timeout(300)
    path = page.locator(".leader path").get_attribute("d")
    across, up = path[1:].split("L")
    y, x = float(across.split()[1].split("H")[0]), float(across.split("H")[1])
    frame, line = page.locator(".frame").bounding_box(), page.locator(".foot > .hand").bounding_box()
    assert y == pytest.approx(line["y"] - frame["y"], abs=1)
    to = [float(value) for value in up.split()]
    for said, left, top, right, bottom in page.evaluate(TEXTS):
        box = left - frame["x"], top - frame["y"] + LEADING, right - frame["x"], bottom - frame["y"] - LEADING
        near = box[0] - 10 <= to[0] <= box[2] + 10 and box[1] - 14 <= to[1] <= box[3] + 14
        for step in range(101):  # every 1 per cent of the way
            px, py = x + (to[0] - x) * step / 100, y + (to[1] - y) * step / 100
            assert near or not (box[0] < px < box[2] and box[1] < py < box[3]), said


def crowd(count: int, pitch: int, thick: int) -> str:
    """Three shelves, as many uprights between the lower two, and as many that lean between the upper."""
    wide = 400 + count * pitch
    lines = {
        name: f"[[0, {level}], [{wide}, {level}]]"
        for name, level in (("lower shelf", 200), ("middle shelf", 550), ("upper shelf", 900))
    }
    for at in range(count):
        x = 200 + at * pitch
        lines[f"upright {at + 1}"] = f"[[{x}, 212], [{x}, 538]]"
        lines[f"leaning divider {at + 1}"] = f"[[{x - 20}, 562], [{x + 40}, 888]]"
    head = f'dryfit = 1\n\n[timber.oak]\nspecies = "oak, white"\nthickness = {thick}\n'
    return head + "".join(f'\n[[board]]\nname = "{name}"\nline = {line}\ndepth = 250\n' for name, line in lines.items())


# px between faces at 1280: 20 and 13; boards that have no room for their name even so
CROWDS = {"nine": (crowd(9, 70, 24), 2), "fourteen": (crowd(14, 50, 18), 6)}
SMALL = {"width": 1280, "height": 800}
LEADS = """() => [...document.querySelectorAll('#drawing path.lead')].map((one) => {
  const { left, top } = document.querySelector('#drawing').getBoundingClientRect();
  const at = one.getAttribute('d').slice(1).split('L').map((end) => end.split(' ').map(Number));
  return at.map(([x, y]) => [x + left, y + top]);
})"""


def crossed(one: Any, other: Any) -> bool:
    """Whether two stretches cross, each with the ends of the other on both its sides."""

    def side(line: Any, at: Any) -> float:
        (x0, y0), (x1, y1) = line
        return float((x1 - x0) * (at[1] - y0) - (y1 - y0) * (at[0] - x0))

    return side(one, other[0]) * side(one, other[1]) < 0 and side(other, one[0]) * side(other, one[1]) < 0


@pytest.mark.parametrize(("text", "most"), CROWDS.values(), ids=CROWDS)
def test_in_a_crowd_names_are_turned_or_led_out_into_the_free_room(text: str, most: int, look_at: Opening):
    opened = look_at(text, size=SMALL)
    page = opened.page
    page.wait_for_timeout(300)
    boards = {board["name"] for board in opened.state()["drawing"]["boards"]}
    named = page.locator("#drawing text.name").evaluate_all("all => all.map((one) => one.dataset.board)")
    assert len(boards) - len(set(named)) <= most
    assert page.locator("#drawing path.lead").count() > 0
    texts = page.evaluate(TEXTS)
    assert not collisions(texts)
    leads = page.evaluate(LEADS)
    assert not [pair for pair in combinations(leads, 2) if crossed(*pair)]
    for (x0, y0), (x1, y1) in leads:
        for said, left, top, right, bottom in texts:
            for step in range(98):  # its last px are before its own name
                x, y = x0 + (x1 - x0) * step / 100, y0 + (y1 - y0) * step / 100
                assert not (left < x < right and top + LEADING < y < bottom - LEADING), said
    before = page.evaluate(PLACES)
    for _ in range(3):
        page.keyboard.press("n")
        page.wait_for_timeout(150)
        after = page.evaluate(PLACES)
        assert not {key: (at, after.get(key)) for key, at in before.items() if after.get(key) != at}


def test_by_touch_what_is_not_shown_is_said_to_come_by_touch(look_at: Opening):
    opened = look_at(crowd(60, 30, 18), size={"width": 820, "height": 1180}, has_touch=True, is_mobile=True)
    said = opened.page.locator("#drawing text.unsaid")
    said.wait_for()
    assert said.text_content().endswith("not shown: touch a board")
