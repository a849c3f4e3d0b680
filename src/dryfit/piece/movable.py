"""Boards that a change of the job file can move by themselves, and how it moves them.

A check that sees one part alone asks for a move by the board's name (`asked_to_move`); `in_their_lines` says where the
file has its line, and leaves out what cannot be moved so.
"""

from collections import Counter
from collections.abc import Mapping
from dataclasses import replace

from ..findings import Finding
from ..geometry.frames import Vec2
from ..places import Cure, Edit
from ..sentences import Words
from .lines import Line
from .model import FAR_END, Board

A_LINE = "a line"  # first step of a path that leads to the line of a board, wherever the file has it

ROUND = 0.5  # moves offered are whole steps of this


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


def end_in_the_file(board: Board, end: int) -> int:
    """Which point of its line as drawn an end is."""
    return (1 if end == FAR_END else 0) ^ int(board.flipped)


def asked_to_move(label: Words, name: str, by: Vec2, points: tuple[int, ...] = (0, 1)) -> Cure:
    """A cure that moves points of a board's line, whose place in the file is not known here."""
    return Cure(label=label, edits=(Edit(action="shift", path=(A_LINE, name, *points), value=[*by]),))


def in_their_lines(finding: Finding, boards: Movable) -> Finding:
    """A finding whose cures move lines where the file has them; those that cannot be made so are left out."""
    cures = tuple(replace(cure, edits=edits) for cure in finding.cures if (edits := _in_lines(cure, boards)))
    return replace(finding, cures=cures)


def _in_lines(cure: Cure, boards: Movable) -> tuple[Edit, ...]:
    """The edits of a cure; none where one of them cannot be made."""
    every = tuple(_in_line(edit, boards) for edit in cure.edits)
    return tuple(edit for edits in every for edit in edits) if all(every) else ()


def _in_line(edit: Edit, boards: Movable) -> tuple[Edit, ...]:
    if edit.path[0] != A_LINE or not isinstance(edit.value, list):
        return (edit,)
    _, name, *points = edit.path
    dx, dy = (float(by) for by in edit.value if isinstance(by, (int, float)))
    return boards.shift(str(name), tuple(map(int, points)), dx, dy)
