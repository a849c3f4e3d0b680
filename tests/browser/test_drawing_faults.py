"""What a maker's trial found wrong on the sheet, held so that it stays mended.

Record wall: raking 1 stands at x = 560 and leans 8 degrees; it crosses four shelves.
"""

import re
from collections.abc import Callable
from typing import Any

from .conftest import Opened

Opening = Callable[..., Opened]


def boxes(found: Any) -> list[tuple[float, float, float, float]]:
    """Left, top, right and foot of each, px of the window, its halo left out."""
    every = [one.bounding_box() for one in found.all()]
    return [(at["x"], at["y"], at["x"] + at["width"], at["y"] + at["height"]) for at in every]


def test_no_name_lies_on_a_blue_figure_of_the_chosen_board(look_at: Opening):
    opened = look_at()
    opened.choose("raking 1")
    opened.page.wait_for_timeout(300)
    figures = boxes(opened.page.locator("g.chosen text.figure"))
    names = boxes(opened.page.locator("text.name"))
    assert len(figures) >= 4
    assert len(names) >= 8
    # A line of text has room above and below its letters: 3 px each of two boxes may overlap unseen.
    hits = [
        (f, n) for f in figures for n in names if f[0] < n[2] and n[0] < f[2] and f[1] < n[3] - 6 and n[1] < f[3] - 6
    ]
    assert not hits, hits


def test_the_ways_of_a_move_stand_below_the_drawing_and_none_is_cut(open_job: Opening):
    opened = open_job(size={"width": 1280, "height": 800})
    opened.choose("raking 1")
    box = opened.page.locator("text.name", has_text=re.compile("^raking 1$")).bounding_box()
    opened.page.mouse.move(box["x"] + 6, box["y"] + 8)
    opened.page.mouse.down()
    opened.page.mouse.move(box["x"] + 46, box["y"] + 8, steps=6)
    bar = opened.page.locator(".frame > .bar")
    bar.wait_for()
    at, sheet = bar.bounding_box(), opened.page.locator("#drawing").bounding_box()
    assert at["y"] >= sheet["y"] + sheet["height"] - 1
    assert all(right <= at["x"] + at["width"] + 1 for _, _, right, _ in boxes(bar.locator("span")))
    opened.page.locator("p.what", has_text="figures of before this move").wait_for()
    opened.page.keyboard.press("Escape")
    opened.page.mouse.up()


def test_several_chosen_boards_show_no_one_boards_strip(look_at: Opening):
    opened = look_at()
    opened.choose("raking 1")
    opened.page.keyboard.down("Shift")
    opened.page.locator("text.name", has_text=re.compile("^shelf 1$")).click()
    opened.page.keyboard.up("Shift")
    opened.page.get_by_role("heading", name="2 boards").wait_for()
    assert opened.page.locator("aside.card svg .face").count() == 0


def test_below_the_floor_no_board_lies_on_a_figure(look_at: Opening):
    """A shelf at -100: positions and the width over all stand under it, as they stand under the floor else."""
    head = 'dryfit = 1\n\n[timber.oak]\nspecies = "oak, white"\nthickness = 24\n'
    lines = {"left": "[[100, 0], [100, 900]]", "right": "[[680, 0], [680, 900]]", "shelf": "[[100, -100], [680, -100]]"}
    boards = "".join(f'\n[[board]]\nname = "{name}"\nline = {line}\ndepth = 250\n' for name, line in lines.items())
    page = look_at(head + boards).page
    page.wait_for_timeout(300)
    shelf = page.locator("g.board[data-board=shelf] .wood").bounding_box()
    below = [
        one.bounding_box() for one in page.locator("#drawing .dimensions text.figure, #drawing .overall text").all()
    ]
    under = [box for box in below if box["y"] > shelf["y"]]
    assert len(under) == 3, "100, 680 and 604"
    assert all(box["y"] >= shelf["y"] + shelf["height"] for box in under)
    assert not [
        box
        for box in below
        if shelf["x"] < box["x"] + box["width"]
        and box["x"] < shelf["x"] + shelf["width"]
        and shelf["y"] < box["y"] + box["height"]
        and box["y"] < shelf["y"] + shelf["height"]
    ]
