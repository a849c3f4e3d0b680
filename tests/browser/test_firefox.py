"""The page in Debian's Firefox: it draws, chooses, drags, types, lifts and scrolls there as in chromium.

Raking 1 of the record wall leans by a measure, 8 degrees, and stands at 560; shelf 2 is 24.1 thick as measured.
"""

import os
import shutil
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest

from .conftest import DESK, Server, begun
from .firefox import Firefox

BOARDS = "[...document.querySelectorAll('svg.drawing g.board')].length"


@dataclass
class Opened:
    """The page in Firefox, looking at a job."""

    fox: Firefox
    server: Server

    def state(self) -> dict[str, Any]:
        found: dict[str, Any] = self.fox.run("fetch('/api/state').then((answer) => answer.json())")
        return found

    def settled(self, revision: int) -> None:
        self.fox.until(f"Number(document.documentElement.dataset.revision) >= {revision}")

    def on_wall(self, *points: tuple[float, float]) -> list[tuple[float, float]]:
        """Points of the job, in mm, in px of the window."""
        left, _, right, _ = self.state()["drawing"]["extent"]
        x, y, wide, high = self.fox.until(
            "((box) => box && [box.x, box.y, box.width, box.height])"
            "(document.querySelector('g.wall rect')?.getBoundingClientRect())"
        )
        scale = wide / (right - left)
        return [(x + (across - left) * scale, y + high - up * scale) for across, up in points]


@pytest.fixture(scope="module")
def firefox() -> str:
    path = shutil.which("firefox-esr") or shutil.which("firefox")
    if path is None:
        words = "no Firefox on this machine: `apt-get install firefox-esr`, or leave these out with `test --fast`"
        pytest.fail(words) if os.environ.get("CI") == "true" else pytest.skip(words)
    assert path is not None
    return path


@pytest.fixture(scope="module")
def fox(firefox: str, tmp_path_factory: pytest.TempPathFactory) -> Iterator[Firefox]:
    """One window for all tests here: it starts slowly."""
    with Firefox(firefox, tmp_path_factory.mktemp("firefox"), (DESK["width"], DESK["height"])) as window:
        yield window


@pytest.fixture
def opened(fox: Firefox, tmp_path: Path) -> Iterator[Opened]:
    server = begun(tmp_path / "job", "record-wall")
    server.start()
    fox.go(server.link)
    fox.until("document.documentElement.dataset.revision")
    fox.said.clear()
    yield Opened(fox, server)
    fox.go("about:blank")
    server.stop()
    assert not fox.said, fox.said
    assert not server.faults(), server.faults()


def test_a_board_is_chosen_its_lean_typed_and_the_drawing_follows(opened: Opened):
    fox, before = opened.fox, opened.state()
    fox.drag(fox.middle("[...document.querySelectorAll('text.name')].find((one) => one.textContent === 'raking 1')"))
    fox.until("[...document.querySelectorAll('h2')].some((one) => one.textContent.trim() === 'raking 1')")
    outline = "document.querySelector('g.board[data-board=\"raking 1\"] path').getAttribute('d')"
    was = fox.run(outline)
    fox.drag(
        fox.middle("[...document.querySelectorAll('.card button.typed')].find((one) => one.textContent.includes('8'))")
    )
    fox.type("7.5", "Enter")
    opened.settled(before["revision"] + 1)
    assert fox.until(f"{outline} !== {was!r}")


def test_a_board_is_drawn_with_the_pointer(opened: Opened):
    fox, before = opened.fox, opened.state()
    fox.type("b")
    fox.drag(*opened.on_wall((700, 1100), (1200, 1100)))
    opened.settled(before["revision"] + 1)
    assert len(opened.state()["drawing"]["boards"]) == len(before["drawing"]["boards"]) + 1


def test_where_the_card_scrolls_its_own_ground_is_seen(opened: Opened):
    """A bar that takes room lies on the card's colour, before it is scrolled and after."""
    fox = opened.fox
    inside = "document.querySelector('.card .inside')"
    assert fox.until(f"{inside}.scrollHeight > {inside}.clientHeight")
    box = fox.run(f"((box) => [box.right - 14, box.y + 2, 14, box.height - 4])({inside}.getBoundingClientRect())")
    sheet, desk = "#fcfbf6", "#f1eee4"
    for down in (0, 300):
        fox.wheel(box[0] - 100, box[1] + 200, down)
        fox.until(f"{inside}.scrollTop >= {down and 1}")
        seen = fox.colours({"strip": box})["strip"]
        assert desk in seen
        assert not seen & {"#ffffff", sheet}


def test_without_webgl_it_is_told_that_no_model_can_be_drawn(opened: Opened):
    """The flat drawing stays, and nothing says that it is lifted."""
    fox = opened.fox
    fox.drag(fox.middle("[...document.querySelectorAll('button')].find((one) => one.textContent.trim() === 'Lift')"))
    said = fox.until("document.querySelector('.card [role=alert]')?.textContent")
    assert said.startswith("This browser draws no models: its WebGL is off or missing. Turn it on")
    assert fox.run("document.querySelector('#lifted').inert")
    assert "lifted" not in fox.run("document.querySelector('.title, dl')?.textContent ?? ''")
    assert opened.state()["revision"] == 1
