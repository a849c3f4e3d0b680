"""The points of what is gripped by which it may snap: its ends or corners, of one straight board its faces too."""

from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal

from ..geometry.frames import Vec2
from ..job import style
from ..job.model import BoardSpec
from ..job.standing import Line, Places, standing_of
from ..places import Path
from . import requests
from .drawn import Drawn
from .points import points_of

STRAIGHT = 1e-6  # mm between two ends that are level, or plumb, with each other


@dataclass(frozen=True, slots=True, kw_only=True)
class Grasp:
    """One of them.

    Attributes:
        points: of the file, that are this point or whose face is there.
        face: of a face, what of the board's size lies between it and the line, as text with its sign.
        face_axis: on which the face lies; None for a point.
    """

    at: Vec2
    says: str
    points: tuple[Path, ...] = ()
    face: str = ""
    face_axis: int | None = None

    def off(self, axis: int) -> str:
        """What is put behind a place to which this comes, so that it is the line's."""
        return self.face if axis == self.face_axis else ""


def straight(line: Line) -> Literal["", "level", "plumb"]:
    """Which way a straight board runs; "" for one that leans."""
    (x0, y0), (x1, y1) = line
    if abs(y1 - y0) < STRAIGHT:
        return "level"
    return "plumb" if abs(x1 - x0) < STRAIGHT else ""


def rounded(point: Vec2) -> Vec2:
    """A point as it is sent."""
    return round(point[0], 6) + 0.0, round(point[1], 6) + 0.0


def handles_of(drawn: Drawn, target: requests.Target) -> tuple[Grasp, ...]:
    """The handles of a target; of what is about to be drawn one that is anywhere.

    Raises:
        Refused: there is no such thing.
    """
    if isinstance(target, requests.NewTarget):
        return (Grasp(at=(0.0, 0.0), says="the point"),)
    at: dict[Vec2, list[Path]] = {}
    for moved in points_of(drawn, target, (0.0, 0.0)):
        at.setdefault(moved.at, []).append(moved.path)
    ends = [Grasp(at=rounded(point), says="its end", points=tuple(paths)) for point, paths in at.items()]
    if isinstance(target, requests.BoardTarget) and len(target.boards) == 1:
        ends += _faces(drawn, drawn.spec(target.boards[0]))
    return tuple(ends)


def _faces(drawn: Drawn, spec: BoardSpec) -> Iterator[Grasp]:
    way = straight(spec.line)
    if not way or spec.frame:
        return
    axis, words = (1, ("top", "under")) if way == "level" else (0, ("right", "left"))
    board, points = standing_of(spec, drawn.job), points_of_board(drawn, spec)
    size = style.place_text("thickness" if board.width is None else "width", spec.name)
    middle = tuple((one + other) / 2 for one, other in zip(*spec.line, strict=True))
    for word, says in zip(words, ("one face", "its other face"), strict=True):
        face = Places(drawn.job).of_board(spec, word, axis, (middle[0], middle[1]))
        back = spec.line[0][axis] - face  # from the face to the line
        whole = abs(back) > (board.thickness if board.width is None else board.width) * 0.75
        share = size if whole else f"{size} / 2"
        text = "" if abs(back) < STRAIGHT else f" {'+' if back > 0 else '-'} {share}"
        at = (face, middle[1]) if axis == 0 else (middle[0], face)
        yield Grasp(at=rounded(at), says=says, points=points if size else (), face=text, face_axis=axis)


def points_of_board(drawn: Drawn, spec: BoardSpec) -> tuple[Path, ...]:
    """The two points of a board's line in the file."""
    target = requests.BoardTarget(what="boards", boards=[spec.name])
    return tuple(moved.path for moved in points_of(drawn, target, (0.0, 0.0)))
