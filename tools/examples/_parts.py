"""What the examples are put together from: a small job, a board, a shelf, a box."""

from dataclasses import dataclass

_HEAD = """\
dryfit = 1
[job]
title = "example"
[timber.oak24]
species = "oak, white"
form = "edge-glued panel"
thickness = 24
[timber.oak18]
species = "oak, white"
form = "edge-glued panel"
thickness = 18
"""
_HUNG = "[wall]\nhung = true\n"


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """One drawn example: `shown` is the part of the job that the page shows."""

    title: str
    shown: str

    @property
    def text(self) -> str:
        """The whole job."""
        return f"{_HEAD}{'' if '[wall]' in self.shown else _HUNG}{self.shown}"


def board(name: str, line: str, more: str = "", timber: str = "oak24", depth: int = 300) -> str:
    """The text of one board."""
    return f'[[board]]\nname = "{name}"\ntimber = "{timber}"\nline = {line}\ndepth = {depth}\n{more}\n'


SHELF = board("shelf", "[[0, 500], [1000, 500]]")
BOX = """\
[[frame]]
name = "box"
timber = TIMBER
points = [[0, 0], [600, 0], [600, 400], [0, 400]]
depth = 300
"""
