"""Layouts to measure on: units of ten boards and fifteen joints, so that a piece may grow and its boards not.

A unit is three shelves crossed by three uprights and a raking board (twelve cross halvings), and three
short dividers let into a shelf at one end (three housings). Units stand side by side, eight in a row.
"""

UNIT_BOARDS, UNIT_JOINTS = 10, 15
ROW = 8

_HEAD = """dryfit = 1
[job]
title = "bench"
[measures]
depth = 300
[timber.oak24]
species = "oak, white"
form = "edge-glued panel"
thickness = 24
[wall]
hung = true
"""


def job_text(units: int, shift: dict[str, float] | None = None) -> str:
    """A job of so many units; `shift` moves boards by their name along the wall."""
    moved = shift or {}
    return _HEAD + "".join(_unit(number, moved) for number in range(units))


def names(units: int) -> list[str]:
    """Names of all boards."""
    kinds = ("shelf", "upright", "divider")
    return [
        *(f"{kind} {unit} {number}" for unit in range(units) for kind in kinds for number in (1, 2, 3)),
        *(f"raking {unit}" for unit in range(units)),
    ]


def _unit(unit: int, moved: dict[str, float]) -> str:
    x, y = unit % ROW * 1100, unit // ROW * 1300
    boards = []
    for number in (1, 2, 3):
        level = y + 350 * number - 200
        boards.append(_board(f"shelf {unit} {number}", (x, level), (x + 1000, level), "depth", moved))
        stand = x + (100, 480, 900)[number - 1]
        boards.append(_board(f"upright {unit} {number}", (stand, y), (stand, y + 1000), "depth - 20", moved))
        foot = x + (250, 330, 600)[number - 1]
        boards.append(_board(f"divider {unit} {number}", (foot, y + 150), (foot, y + 300), "depth - 40", moved))
    boards.append(_board(f"raking {unit}", (x + 640, y), (x + 790, y + 1000), "depth", moved))
    return "".join(boards)


def _board(name: str, start: tuple[float, float], end: tuple[float, float], depth: str, moved: dict[str, float]) -> str:
    by = moved.get(name, 0.0)
    points = [[start[0] + by, start[1]], [end[0] + by, end[1]]]
    return f'[[board]]\nname = "{name}"\ntimber = "oak24"\nline = {points}\ndepth = "{depth}"\n'
