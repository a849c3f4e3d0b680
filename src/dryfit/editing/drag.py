"""Gripping: the places a hand may snap to, worked out once at the start of a drag, each with its reason.

The page compares; it works out nothing. A candidate says for one handle of what is gripped where its x or y
comes to, or which line it comes onto, or to which multiple of an angle; `rank` breaks ties, low first.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from ..geometry.frames import Vec2
from ..lengths import MM_PER, LengthUnit
from ..piece.model import Board
from . import requests
from .answers import Candidate, Gripped, Handle
from .drawn import Drawn
from .levers import angles_in
from .points import follow, frame_of, normal_of, points_of
from .ways import offers

STEP: Mapping[LengthUnit, float] = {"mm": 1.0, "in": MM_PER["in"] / 16}  # a move is rounded to it where nothing snaps
LEAST_APART = 1.0  # mm between two boards that anything is spaced as
HALF_DEGREE, RIGHT_ANGLE = 0.5, 90.0
STRAIGHT = 0.01  # degrees off level or plumb that still count as such
FACE, END, CENTRE, SPACING, STUD, MEASURE, ANGLE = 0, 1, 2, 3, 4, 5, 9


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """A coordinate that something stands at.

    Attributes:
        axis: whose coordinate.
        guide: the points between which it may be shown.
    """

    axis: Literal["x", "y"]
    at: float
    says: str
    rank: int
    guide: tuple[Vec2, ...]


def gripped(drawn: Drawn | None, target: requests.Target, revision: int) -> Gripped:
    """What a hand can do with the target.

    Raises:
        Refused: there is no such thing.
    """
    if drawn is None:
        return _nothing(revision)
    moving = _moving(drawn, target)
    handles = tuple(_handles(drawn, target, moving))
    others = [board for board in drawn.piece.boards if board.name not in moving]
    places = [*_places(drawn, others), *_spacing(drawn, moving, others)]
    found = [
        *_at_places(handles, places),
        *_on_lines(handles, others),
        *_angles(drawn, target),
    ]
    return Gripped(
        revision=revision,
        handles=handles,
        candidates=tuple({(c.snap, c.handle, c.at, c.guide if c.snap == "line" else ()): c for c in found}.values()),
        offers=offers(drawn, target),
        along=_along(drawn, target),
        step=STEP[drawn.job.units],
        follow=follow(drawn, target),
    )


def _nothing(revision: int) -> Gripped:
    return Gripped(
        revision=revision,
        handles=(Handle(at=(0.0, 0.0), says="the point"),),
        candidates=(),
        offers=(),
        along=None,
        step=STEP["mm"],
        follow=(),
    )


def _moving(drawn: Drawn, target: requests.Target) -> set[str]:
    """The boards that are moved, and so are nothing to snap to."""
    match target:
        case requests.BoardTarget():
            frames = {drawn.spec(name).frame for name in target.boards} - {""}
            fellows = (spec.name for spec in drawn.job.boards if spec.frame in frames)
            return set(drawn.members([*drawn.wholes(target.boards), *fellows]))
        case requests.EndTarget():
            return set(drawn.members(drawn.wholes([target.board])))
        case requests.CornerTarget() | requests.SideTarget():
            return set(drawn.members(frame_of(drawn.job, target.frame).boards))
    return set()


def _along(drawn: Drawn, target: requests.Target) -> Vec2 | None:
    if not isinstance(target, requests.SideTarget):
        return None
    x, y = normal_of(frame_of(drawn.job, target.frame), target.side)
    return round(x, 9) + 0.0, round(y, 9) + 0.0


# --- what may snap


def _handles(drawn: Drawn, target: requests.Target, moving: set[str]) -> Iterator[Handle]:
    """The points of what is gripped; of one straight board its faces too."""
    if isinstance(target, requests.NewTarget):
        yield Handle(at=(0.0, 0.0), says="the point")
        return
    seen: set[Vec2] = set()
    for moved in points_of(drawn, target, (0.0, 0.0)):
        if moved.at not in seen:
            seen.add(moved.at)
            yield Handle(at=_rounded(moved.at), says="its end")
    if isinstance(target, requests.BoardTarget) and len(target.boards) == 1:
        board = drawn.board(target.boards[0])
        if _straight(board):
            for side, word in ((1.0, "one face"), (-1.0, "its other face")):
                yield Handle(at=_face_point(board, side), says=word)


def _face_point(board: Board, side: float) -> Vec2:
    x, y, _ = board.frame.place((board.length / 2, side * board.thickest / 2, 0.0))
    return _rounded((x, y))


def _rounded(point: Vec2) -> Vec2:
    return round(point[0], 6) + 0.0, round(point[1], 6) + 0.0


def _straight(board: Board) -> Literal["", "level", "plumb"]:
    off = abs(board.angle) % 180.0
    if min(off, 180.0 - off) < STRAIGHT:
        return "level"
    return "plumb" if abs(off - 90.0) < STRAIGHT else ""


# --- what there is to snap to


def _ends(board: Board) -> tuple[Vec2, Vec2]:
    first, last = board.frame.place((0.0, 0.0, 0.0)), board.frame.place((board.length, 0.0, 0.0))
    return _rounded(first[:2]), _rounded(last[:2])


def _places(drawn: Drawn, boards: Iterable[Board]) -> Iterator[Place]:
    for board in boards:
        start, end = _ends(board)
        for x, y in (start, end):
            yield Place(axis="x", at=x, says=f"plumb with the end of {board.name}", rank=END, guide=((x, y),))
            yield Place(axis="y", at=y, says=f"level with the end of {board.name}", rank=END, guide=((x, y),))
        yield from _of_straight(board, start, end)
    for stud in drawn.job.wall.studs:
        yield Place(axis="x", at=stud, says="on a stud's centre", rank=STUD, guide=((stud, 0.0),))
    angles = angles_in(drawn.text)
    for name, value in drawn.job.measures.items():
        if value > 0 and name not in angles:
            yield Place(axis="x", at=value, says=name, rank=MEASURE, guide=((value, 0.0),))
            yield Place(axis="y", at=value, says=name, rank=MEASURE, guide=((0.0, value),))


def _of_straight(board: Board, start: Vec2, end: Vec2) -> Iterator[Place]:
    """Centre and faces of a level or plumb board."""
    way, half = _straight(board), board.thickest / 2
    if way == "level":
        y = start[1]
        yield Place(axis="y", at=y, says=f"level with {board.name}", rank=CENTRE, guide=(start, end))
        yield Place(axis="y", at=y + half, says=f"on top of {board.name}", rank=FACE, guide=(start, end))
        yield Place(axis="y", at=y - half, says=f"under {board.name}", rank=FACE, guide=(start, end))
    elif way == "plumb":
        x = start[0]
        yield Place(axis="x", at=x, says=f"plumb with {board.name}", rank=CENTRE, guide=(start, end))
        yield Place(axis="x", at=x + half, says=f"at the right face of {board.name}", rank=FACE, guide=(start, end))
        yield Place(axis="x", at=x - half, says=f"at the left face of {board.name}", rank=FACE, guide=(start, end))


def _spacing(drawn: Drawn, moving: set[str], others: list[Board]) -> Iterator[Place]:
    """Half-way between two parallel neighbours, and as far on as they are apart."""
    ways = {_straight(drawn.piece.board_by_name[name]) for name in moving if name in drawn.piece.board_by_name}
    for way, place, axis in (("level", 1, "y"), ("plumb", 0, "x")):
        if way not in ways:
            continue
        rows = sorted((_ends(board)[0][place], board.name) for board in others if _straight(board) == way)
        for (low, one), (high, other) in pairwise(rows):
            if high - low < LEAST_APART:
                continue
            apart = high - low
            spaced = ((low + apart / 2, "half-way between"), (high + apart, "spaced as"), (low - apart, "spaced as"))
            for at, word in spaced:
                yield Place(
                    axis="x" if axis == "x" else "y",
                    at=round(at, 6) + 0.0,
                    says=f"{word} {one} and {other}",
                    rank=SPACING,
                    guide=((low, 0.0), (high, 0.0)) if axis == "x" else ((0.0, low), (0.0, high)),
                )


def _at_places(handles: tuple[Handle, ...], places: list[Place]) -> Iterator[Candidate]:
    for place in sorted(places, key=lambda place: (-place.rank, place.says)):  # the best of equals stays last
        for number, _ in enumerate(handles):
            yield Candidate(
                snap=place.axis,
                handle=number,
                at=round(place.at, 6) + 0.0,
                says=place.says,
                guide=tuple(_rounded(point) for point in place.guide),
                rank=place.rank,
            )


def _on_lines(handles: tuple[Handle, ...], boards: list[Board]) -> Iterator[Candidate]:
    """Centre-lines and faces of raking boards."""
    for board in boards:
        if _straight(board):
            continue
        for side, says, rank in (
            (0.0, f"on the centre-line of {board.name}", CENTRE),
            (1.0, f"at a face of {board.name}", FACE),
            (-1.0, f"at the other face of {board.name}", FACE),
        ):
            ends = (board.frame.place((a, side * board.thickest / 2, 0.0)) for a in (0.0, board.length))
            guide = tuple(_rounded(end[:2]) for end in ends)
            for number, _ in enumerate(handles):
                yield Candidate(snap="line", handle=number, at=0.0, says=says, guide=guide, rank=rank)


def _angles(drawn: Drawn, target: requests.Target) -> Iterator[Candidate]:
    """Level, plumb and half degrees about the end that stays."""
    if isinstance(target, requests.EndTarget):
        line = drawn.spec(target.board).line
        pivot: Vec2 | None = line[1] if target.end == "start" else line[0]
    elif isinstance(target, requests.NewTarget):
        pivot = None  # the first point, which only the page knows
    else:
        return
    for at, says, rank in ((RIGHT_ANGLE, "level or plumb", CENTRE), (HALF_DEGREE, "half a degree", ANGLE)):
        yield Candidate(snap="angle", handle=0, at=at, says=says, guide=(), rank=rank, pivot=pivot)
