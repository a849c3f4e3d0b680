"""Boards that a change of the job file can move by themselves, and how it moves them."""

from collections import Counter
from collections.abc import Mapping

from ..places import Edit
from .lines import Line
from .model import Board


class Movable:
    """The boards by name, and the edits that move their lines.

    A frame's side moves with its corners and one of a row with its row, so neither is offered. The members of
    a divided board move together, with the line of their whole.
    """

    def __init__(self, boards: Mapping[str, Board]) -> None:
        self.boards = boards
        wholes = Counter((board.path, board.index) for board in boards.values())
        tables = Counter(path for path, _ in wholes)
        self._alone = {name for name, board in boards.items() if tables[board.path] == 1 and not board.frame_name}
        self.divided = {name for name, board in boards.items() if wholes[board.path, board.index] > 1}

    def __getitem__(self, name: str) -> Board:
        return self.boards[name]

    def line(self, name: str) -> Line:
        """Its centre-line with half its thickness."""
        return Line.of(self.boards[name])

    def shift(self, name: str, points: tuple[int, ...], dx: float, dy: float) -> tuple[Edit, ...]:
        """Edits that move points of a board's line; none where it cannot be moved by itself."""
        if name not in self._alone:
            return ()
        return tuple(
            Edit(action="shift", path=(*self.boards[name].path, "line", point, axis), value=round(by, 3))
            for point in points
            for axis, by in ((0, dx), (1, dy))
            if abs(by) > 1e-3
        )


def compass(x: float, y: float) -> str:
    """The side of the drawing that a way leads to."""
    if abs(x) >= abs(y):
        return "right" if x > 0 else "left"
    return "top" if y > 0 else "bottom"
