"""Boards that a change of the job file can move by themselves, and how it moves them.

A check that sees one part alone asks for a move by the board's name (`asked_to_move`); `in_their_lines` says where the
file has its line, and leaves out what cannot be moved so.
"""

import math
from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import TypeVar

from ..findings import Finding, InVain, Vain
from ..geometry.frames import Vec2
from ..job.model import Fixing
from ..places import Cure, Edit
from ..sentences import Words
from .lines import CentreLine
from .model import DATUM_END, FAR_END, Board

T = TypeVar("T")
TURN = "turned about"  # in such a path: the end that stays, and the degrees it turns anticlockwise, are the value
A_FIXING = "a fixing"  # first step of a path to one of its places, by its name; where it is, and how far it goes
A_LINE = "a line"  # first step of a path that leads to the line of a board, wherever the file has it

ROUND = 0.5  # moves offered are whole steps of this
CLOSES = 0.1  # mm: ends of a frame's first and last side that lie nearer are one corner


class Movable:
    """The boards by name, and the edits that move their lines.

    A frame's side moves with its two corners, and its neighbours follow; one of a row moves with its row, so it is not
    offered. The members of a divided board move together, with the line of their whole.
    """

    def __init__(self, boards: Mapping[str, Board], fixings: Iterable[Fixing] = ()) -> None:
        self.boards = boards
        self.fixings = {fixing.name: fixing for fixing in fixings if fixing.board in boards}
        wholes = Counter((board.path, board.index) for board in boards.values())
        tables = Counter(path for path, _ in wholes)
        self._alone = {name for name, board in boards.items() if tables[board.path] == 1 and not board.frame_name}
        self.divided = {name for name, board in boards.items() if wholes[board.path, board.index] > 1}
        self._corners = {
            name: corners
            for name, board in boards.items()
            if board.frame_name and (corners := _corners_of(board, boards.values()))
        }

    def __getitem__(self, name: str) -> Board:
        return self.boards[name]

    def line(self, name: str) -> CentreLine:
        """Its centre-line with half its thickness."""
        return CentreLine.of(self.boards[name])

    def shift(self, name: str, points: tuple[int, ...], dx: float, dy: float) -> tuple[Edit, ...]:
        """Edits that move points of a board's line; none where it cannot be moved by itself."""
        if name in self._corners and len(points) > 1:
            list_of, points = "points", self._corners[name]
            dx, dy = _square_to(self.boards[name], dx, dy)
        elif name in self._alone:
            list_of = "line"
        else:
            return ()
        return tuple(
            Edit(action="shift", path=(*self.boards[name].path, list_of, point, axis), value=round(by, 3))
            for point in points
            for axis, by in ((0, dx), (1, dy))
            if abs(by) > 1e-3
        )


def _square_to(board: Board, dx: float, dy: float) -> Vec2:
    """A move as far, square to the board: along itself a frame's side would only drag its corners askew."""
    nx, ny, _ = board.frame.y
    far = math.copysign(math.hypot(dx, dy), dx * nx + dy * ny)
    return far * nx, far * ny


def _corners_of(board: Board, boards: Iterable[Board]) -> tuple[int, ...]:
    """Which points of its frame a side ends at; none where sides of it are taken out, so that nobody can say."""
    sides = sorted({one.index: one for one in boards if one.path == board.path}.items())
    if [index for index, _ in sides] != list(range(1, len(sides) + 1)) or board.index < 1:
        return ()
    closed = math.dist(_end_as_drawn(sides[0][1], 0), _end_as_drawn(sides[-1][1], 1)) < CLOSES
    count = len(sides) if closed else len(sides) + 1
    return board.index - 1, board.index % count


def _end_as_drawn(board: Board, point: int) -> Vec2:
    """Where its line as drawn starts (0) or ends (1)."""
    end = point ^ int(board.flipped)
    x, y, _ = board.frame.place((board.length if end else 0.0, board.line_c, 0.0))
    return x, y


def compass(x: float, y: float) -> str:
    """Where a way leads on the drawing, as one says it: "to the right", "up"."""
    if abs(x) >= abs(y):
        return "to the right" if x > 0 else "to the left"
    return "up" if y > 0 else "down"


def end_in_the_file(board: Board, end: int) -> int:
    """Which point of its line as drawn an end is."""
    return (1 if end == FAR_END else 0) ^ int(board.flipped)


def asked_to_move(label: Words, name: str, by: Vec2, points: tuple[int, ...] = (0, 1)) -> Cure:
    """A cure that moves points of a board's line, whose place in the file is not known here."""
    return Cure(label=label, edits=(Edit(action="shift", path=(A_LINE, name, *points), value=[*by]),))


def asked_to_turn(label: Words, name: str, held: int, by: float) -> Cure:
    """A cure that turns a board about its end `held` by so many degrees, anticlockwise on the drawing."""
    return Cure(label=label, edits=(Edit(action="shift", path=(A_LINE, name, TURN), value=[held, by]),))


def asked_to_move_fixing(label: Words, name: str, at: float, by: float) -> Cure:
    """A cure that moves a fixing's place at `at` from its board's datum end so far towards the far end."""
    return Cure(label=label, edits=(Edit(action="shift", path=(A_FIXING, name), value=[at, by]),))


def in_lines(found: Iterable[T], boards: Movable) -> Iterator[T | Finding]:
    """Findings as `in_their_lines` has them; what is none of them as it is."""
    for one in found:
        yield in_their_lines(one, boards) if isinstance(one, Finding) and one.cures else one


def in_their_lines(finding: Finding, boards: Movable) -> Finding:
    """A finding whose cures move lines where the file has them; of the others it is said that they cannot."""
    return kept_where(finding, [replace(cure, edits=_in_lines(cure, boards)) for cure in finding.cures])


def kept_where(finding: Finding, cures: Iterable[Cure]) -> Finding:
    """A finding with those of its cures, worked out again, that the job file can be changed by."""
    every = tuple(cures)
    return replace(
        finding,
        cures=tuple(cure for cure in every if cure.edits),
        in_vain=(
            *finding.in_vain,
            *(InVain(label=cure.label, why=Vain.ALONE) for cure in every if not cure.edits),
        ),
    )


def _in_lines(cure: Cure, boards: Movable) -> tuple[Edit, ...]:
    """The edits of a cure; none where one of them cannot be made."""
    every = tuple(_in_line(edit, boards) for edit in cure.edits)
    return tuple(edit for edits in every for edit in edits) if all(every) else ()


def _in_line(edit: Edit, boards: Movable) -> tuple[Edit, ...]:
    if edit.path[:1] not in ((A_LINE,), (A_FIXING,)) or not isinstance(edit.value, list):
        return (edit,)
    first, name, *points = edit.path
    dx, dy = (float(by) for by in edit.value if isinstance(by, (int, float)))
    if first == A_FIXING:
        return _along(boards, str(name), at=dx, by=dy)
    if points == [TURN]:
        return _turned(boards, str(name), held=int(dx), by=math.radians(dy))
    return boards.shift(str(name), tuple(map(int, points)), dx, dy)


def _turned(boards: Movable, name: str, *, held: int, by: float) -> tuple[Edit, ...]:
    board, end = boards[name], DATUM_END if held == FAR_END else FAR_END
    ux, uy, _ = board.frame.x
    dx, dy = ux * (math.cos(by) - 1.0) - uy * math.sin(by), ux * math.sin(by) + uy * (math.cos(by) - 1.0)
    far = end * board.length
    return boards.shift(name, (end_in_the_file(board, end),), far * dx, far * dy)


def _along(boards: Movable, name: str, *, at: float, by: float) -> tuple[Edit, ...]:
    """A place of a fixing, told from the start of its board's line; none of one that a divided board's member has."""
    fixing = boards.fixings.get(name)
    if fixing is None or fixing.board in boards.divided:
        return ()
    board = boards[fixing.board]
    written = board.length - at if board.flipped else at
    place = min(range(len(fixing.at)), key=lambda number: abs(fixing.at[number] - written))
    return (Edit(action="shift", path=(*fixing.path, "at", place), value=round(-by if board.flipped else by, 3)),)
