"""The mouths of screw holes from board to board: another board over one, or before it, keeps screw and driver out.

Looked at as the piece stands when all is together: a screw that is driven before that board comes is well, and so the
finding is a warning. A mouth is a disc; boards are taken whole, without their cuts. Screws into the wall are looked at
step by step, by the study of their driving.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import product
from typing import TypeAlias

from ..findings import Finding, Severity, declare, owns
from ..geometry.frames import Vec
from ..geometry.shapes import Bore
from ..places import Where
from ..sentences import Fineness, Length, Name, Sentence, say
from .meetings import TOUCHING
from .model import WALL, Board, Cut, Joint

COVERED = declare(
    "screws-covered",
    "Another board covers the mouth of a screw's hole, or is in front of it.",
    uncured="the screw is driven before that board stands there: the order on the wall is your choice",
)
owns("joints", COVERED)

SLACK = 0.05  # less of a board in front of a mouth covers nothing
CELL = 400.0  # of the elevation


@dataclass(frozen=True, slots=True)
class _Mouth:
    """Where a hole opens in the world, which way out, how wide."""

    at: Vec
    out: Vec
    radius: float


@dataclass(frozen=True, slots=True)
class _Room:
    """A board, and how far it reaches in the world."""

    board: Board
    low: Vec
    high: Vec


_Rooms: TypeAlias = dict[tuple[int, int], list[_Room]]


def covered_mouths(boards: Sequence[Board], joints: Sequence[Joint]) -> Iterator[Finding]:
    """For each joint the board nearest before the mouths of its screws, where bit and drill want the room."""
    by_name = {board.name: board for board in boards}
    rooms: _Rooms = {}
    for joint in joints:
        cuts = [cut for cut in joint.cuts if cut.clear > 0.0]
        if not cuts or joint.meeting.b.body == WALL:
            continue
        rooms = rooms or _by_cell(boards)
        nearest: dict[str, float] = {}
        for cut in cuts:
            for mouth in _mouths(by_name[cut.body], cut):
                for name, distance in _before(mouth, rooms, cut):
                    nearest[name] = min(distance, nearest.get(name, math.inf))
        for name, distance in nearest.items():
            yield _finding(joint, cuts[0], name, distance)


def _mouths(board: Board, cut: Cut) -> Iterator[_Mouth]:
    for shape in cut.shapes:
        if isinstance(shape, Bore):
            x, y, z = board.frame.direct(shape.direction)
            yield _Mouth(board.frame.place(shape.start), (-x, -y, -z), shape.profile[0][1] / 2)


def _room(board: Board) -> _Room:
    half = board.thickest / 2
    corners = [
        board.frame.place((a, c, d)) for a in (0.0, board.length) for c in (-half, half) for d in (0.0, board.depth)
    ]
    xs, ys, zs = zip(*corners, strict=True)
    return _Room(board, (min(xs), min(ys), min(zs)), (max(xs), max(ys), max(zs)))


def _by_cell(boards: Sequence[Board]) -> _Rooms:
    """The boards by the squares of the elevation that they lie in, so that few are looked at for a mouth."""
    rooms: _Rooms = {}
    for room in map(_room, boards):
        for cell in _cells(room.low, room.high):
            rooms.setdefault(cell, []).append(room)
    return rooms


def _cells(low: Sequence[float], high: Sequence[float]) -> Iterator[tuple[int, int]]:
    (x0, y0), (x1, y1) = ((math.floor(at[0] / CELL), math.floor(at[1] / CELL)) for at in (low, high))
    return product(range(x0, x1 + 1), range(y0, y1 + 1))


def _before(mouth: _Mouth, rooms: _Rooms, cut: Cut) -> Iterator[tuple[str, float]]:
    """Boards that stand within what must be free before a mouth, each with how far off."""
    low, high = [], []
    for at, out in zip(mouth.at, mouth.out, strict=True):
        ends, wider = (at + out * SLACK, at + out * cut.clear), mouth.radius * math.sqrt(max(1.0 - out * out, 0.0))
        low.append(min(ends) - wider)
        high.append(max(ends) + wider)
    for room in (room for cell in _cells(low, high) for room in rooms.get(cell, ())):
        if room.low[0] > high[0] or room.high[0] < low[0] or room.low[1] > high[1] or room.high[1] < low[1]:
            continue
        if room.board.name == cut.body or room.low[2] > high[2] or room.high[2] < low[2]:
            continue
        distance = _distance(mouth, room.board)
        if distance is not None and distance < cut.clear:
            yield room.board.name, distance


def _distance(mouth: _Mouth, board: Board) -> float | None:
    """From a mouth straight out to a board; 0 where it lies over it, None where it is nowhere before it."""
    half, frame = board.thickest / 2, board.frame
    apart = tuple(p - o for p, o in zip(mouth.at, frame.origin, strict=True))
    first, last = -math.inf, math.inf
    for axis, (start, end) in zip(
        (frame.x, frame.y, frame.z), ((0.0, board.length), (-half, half), (0.0, board.depth)), strict=True
    ):
        at = sum(p * q for p, q in zip(apart, axis, strict=True))
        speed = sum(p * q for p, q in zip(mouth.out, axis, strict=True))
        wider = mouth.radius * math.sqrt(max(1.0 - speed * speed, 0.0))  # the disc's reach along this axis
        start, end = start - wider - at, end + wider - at
        if abs(speed) < 1e-9:
            if start >= -SLACK or end <= SLACK:
                return None
            continue
        near, far = sorted((start / speed, end / speed))
        first, last = max(first, near), min(last, far)
    return max(first, 0.0) if first < last and last > SLACK else None


def _screws(cut: Cut) -> Sentence:
    return say("the screws through {} into {}", Name(cut.body), Name(cut.takes))


def _covers(board: Name, screws: Sentence, distance: float | None, clear: float) -> Sentence:
    """What a board does to screws; `distance` is None where it lies over their mouth."""
    if distance is None:
        return say("{} covers the mouth of {}", board, screws)
    before, wanted = Length(distance, Fineness.WHOLE), Length(clear, Fineness.WHOLE)
    return say("{} is {} in front of the mouth of {}; bit and drill need {}", board, before, screws, wanted)


def _finding(joint: Joint, cut: Cut, name: str, distance: float) -> Finding:
    lies = distance <= TOUCHING
    return Finding(
        code=COVERED,
        severity=Severity.WARN,
        where=Where(boards=(name, cut.body), joint=joint.key),
        says=_covers(Name(name), _screws(cut), None if lies else distance, cut.clear),
        remedy=say("drive them before {} goes in, or move them", Name(name)),
        found=distance,
        limit=cut.clear,
        unit="mm",
        source="geometry" if lies else "common practice",
    )
