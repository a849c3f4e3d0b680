"""The points of the file that move with what a hand gripped: of boards, an end, a frame's corner or side."""

import math
from dataclasses import dataclass
from typing import TypeAlias

from ..geometry.frames import Vec2
from ..job.edits import sheet_of
from ..job.model import BoardSpec, FrameSpec, Job
from ..places import Pair, Path
from . import requests
from .drawn import Drawn, no_such
from .refusals import refused

Point: TypeAlias = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class Moved:
    """One point of the file that moves with a target.

    Attributes:
        path: of the point: its x stands at (*path, 0), its y at (*path, 1).
        at: where it is, mm.
        by: how far it goes.
    """

    path: Path
    at: Point
    by: Point


# --- what moves with a target


def points_of(drawn: Drawn, target: requests.Target, by: Vec2) -> tuple[Moved, ...]:
    """The points that a move of the target moves, each once.

    Raises:
        Refused: there is no such thing.
    """
    match target:
        case requests.BoardTarget():
            found = [moved for name in target.boards for moved in _board_points(drawn, drawn.spec(name), by)]
        case requests.EndTarget():
            spec = drawn.spec(target.board)
            end = 0 if target.end == "start" else 1
            found = [_point(drawn, spec, end, by)]
        case requests.CornerTarget():
            frame = frame_of(drawn.job, target.frame)
            found = [_corner(frame, target.corner, by)]
        case requests.SideTarget():
            frame = frame_of(drawn.job, target.frame)
            along = normal_of(frame, target.side)
            reach = along[0] * by[0] + along[1] * by[1]
            only = (along[0] * reach, along[1] * reach)
            found = [_corner(frame, corner, only) for corner in (target.side, _next(frame, target.side))]
        case _:
            raise refused("refused", "there is nothing to move yet", "draw a board first")
    return tuple({moved.path: moved for moved in found}.values())


def _board_points(drawn: Drawn, spec: BoardSpec, by: Vec2) -> list[Moved]:
    return [_point(drawn, spec, end, by) for end in (0, 1)]


def _point(drawn: Drawn, spec: BoardSpec, end: int, by: Vec2) -> Moved:
    if spec.frame:
        frame = frame_of(drawn.job, spec.frame)
        side = spec.index - 1
        return _corner(frame, side if end == 0 else _next(frame, side), by)
    return Moved(path=(*line_path(drawn, spec), end), at=spec.line[end], by=by)


def line_path(drawn: Drawn, spec: BoardSpec) -> Path:
    """Where a board's line stands: in its exception, if that has one of its own."""
    table = sheet_of(drawn.text).get(spec.path) or {}
    for at, own in enumerate(table.get("except", ())):
        if own.get("i") == spec.index and "line" in own:
            return (*spec.path, "except", at, "line")
    return (*spec.path, "line")


def frame_of(job: Job, name: str) -> FrameSpec:
    """A frame by its name.

    Raises:
        Refused: there is none.
    """
    for frame in job.frames:
        if frame.name == name:
            return frame
    raise no_such("frame", name)


def _next(frame: FrameSpec, corner: int) -> int:
    return (corner + 1) % len(frame.points)


def _corner(frame: FrameSpec, corner: int, by: Vec2) -> Moved:
    if corner >= len(frame.points):
        raise no_such("corner", f"{corner + 1} of {frame.name}")
    return Moved(path=(*frame.path, "points", corner), at=frame.points[corner], by=by)


def normal_of(frame: FrameSpec, side: int) -> Vec2:
    """The direction in which a side moves: square to it."""
    start, end = _corner(frame, side, (0.0, 0.0)).at, frame.points[_next(frame, side)]
    size = math.dist(start, end) or 1.0
    return -(end[1] - start[1]) / size, (end[0] - start[0]) / size


def moving_with(drawn: Drawn, moves: tuple[Moved, ...]) -> list[str]:
    """The boards whose line hangs on a point that moves."""
    paths = {moved.path for moved in moves}
    return drawn.members(
        spec.name
        for spec in drawn.job.boards
        if any(moved.path in paths for moved in _board_points(drawn, spec, (0.0, 0.0)))
    )


def follow(drawn: Drawn, target: requests.Target) -> tuple[Pair, ...]:
    """The joints of what moves."""
    if isinstance(target, requests.NewTarget):
        return ()
    names = set(moving_with(drawn, points_of(drawn, target, (1.0, 1.0))))
    return tuple(joint.key for joint in drawn.piece.joints if names.intersection(joint.key))
