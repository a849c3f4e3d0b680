"""Moving what is drawn: which values of the file a move writes, and in which ways it may be written.

    number, length text      the number, in its own unit and style
    arithmetic               the same text with a folded constant behind it
    one of a row             the whole row; or only this one, as an exception
    frame's corner or side   that point; or both ends of the side, along its normal

Also offered: a measure that the value hangs on, if it does so evenly; a plain number; a new measure.
"""

import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from typing import TypeAlias

from ..book import read_job_text
from ..errors import JobError
from ..geometry.frames import Vec2
from ..job import style
from ..job.arithmetic import ArithmeticMistake, parse
from ..job.edits import Sheet, sheet_of
from ..job.model import BoardSpec, FrameSpec, Job
from ..job.writing import only_this_one
from ..places import Edit, Path, Plain
from ..units import figure, from_mm
from . import requests
from .answers import Offer
from .composed import Composed
from .drawn import Drawn, no_such
from .refusals import Refused, refused

HERE, ONE, PLAIN_NUMBER, NAMED, MEASURE = "here", "only this one", "plain", "named", "measure "
EVEN = 1e-6  # a measure serves if a mm of it moves the place by the same whatever it is
LEAST = 1e-9

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


# --- writing a move


def dragged(drawn: Drawn, sent: requests.DragSent) -> Composed:
    """The edits of a drag, in the way chosen."""
    moves = points_of(drawn, sent.target, sent.by)
    edits = _chosen(drawn, sent, moves)
    return Composed(edits=edits, says=f"{_called(sent.target)}: {way_said(sent.by)}{_follow(drawn, sent.target)}")


def figure_typed(drawn: Drawn, sent: requests.FigureSent) -> Composed:
    """The edits of a dimension typed in place."""
    job = drawn.job
    try:
        value = parse(sent.entry).evaluate(job.measures, job.units)
    except ArithmeticMistake as mistake:
        raise refused("refused", mistake.says, mistake.remedy) from None
    off = value - sent.now
    by = (off, 0.0) if sent.axis == "x" else (0.0, off)
    moves = points_of(drawn, sent.target, by)
    edits = tuple(edit for moved in moves for edit in _whole(drawn, moved, sent.axis, sent.entry, value))
    return Composed(edits=edits, says=f"{_called(sent.target)}: {sent.axis} = {sent.entry.strip()}")


def _whole(drawn: Drawn, moved: Moved, axis: str, entry: str, value: float) -> list[Edit]:
    """One coordinate typed: a point that stood at the figure takes it as typed, another is moved along."""
    place = 0 if axis == "x" else 1
    by = moved.by[place]
    path = (*moved.path, place)
    stood = abs(moved.at[place] + by - value) < LEAST
    written = sheet_of(drawn.text).get(path)
    plain = isinstance(written, (int, float)) or (isinstance(written, str) and style.lone_length(written) is not None)
    if stood and plain:
        return [Edit(action="set", path=path, value=as_typed(entry))]
    return [Edit(action="shift", path=path, value=by)] if by else []


def as_typed(entry: str) -> Plain:
    """What was typed as the file would hold it: a bare number as a number, all else as text."""
    text = entry.strip()
    try:
        number = float(text)
    except ValueError:
        return text
    if not math.isfinite(number):
        return text
    return int(number) if number == int(number) and "." not in text and "e" not in text.lower() else number


def _chosen(drawn: Drawn, sent: requests.DragSent, moves: tuple[Moved, ...]) -> tuple[Edit, ...]:
    choice = sent.choice or HERE
    if choice == HERE:
        return tuple(_shifts(moves))
    if choice == ONE:
        return _only_these(drawn, sent)
    if choice == PLAIN_NUMBER:
        return tuple(edit for moved in moves for edit in _plain(drawn, moved))
    if choice == NAMED:
        return _named(drawn, moves, sent.name)
    if choice.startswith(MEASURE):
        return _by_measure(drawn, moves, choice.removeprefix(MEASURE))
    raise refused("refused", f"there is no way of writing called {choice}", "choose one of those offered")


def _shifts(moves: tuple[Moved, ...]) -> Iterable[Edit]:
    """One shift a point, or one for a line whose two ends go the same way."""
    by_line: dict[Path, list[Moved]] = {}
    for moved in moves:
        by_line.setdefault(moved.path[:-1], []).append(moved)
    for path, ends in by_line.items():
        if path[-1] == "line" and len(ends) == 2 and ends[0].by == ends[1].by:
            yield Edit(action="shift", path=path, value=list(ends[0].by))
        else:
            yield from (_shifted(moved) for moved in ends)


def _shifted(moved: Moved) -> Edit:
    dx, dy = moved.by
    if dx and dy:
        return Edit(action="shift", path=moved.path, value=[dx, dy])
    place, by = (0, dx) if dx else (1, dy)
    return Edit(action="shift", path=(*moved.path, place), value=by)


def _only_these(drawn: Drawn, sent: requests.DragSent) -> tuple[Edit, ...]:
    """The boards of rows as exceptions with a line of their own."""
    names = _boards(sent.target)
    edits = []
    for name in names:
        spec = drawn.spec(name)
        ends = [_gone(spec, end, sent) for end in (0, 1)]
        line: Plain = [[_number(drawn, x), _number(drawn, y)] for x, y in ends]
        edits.append(only_this_one(drawn.text, spec.path, spec.index, {"line": line}))
    return tuple(edits)


def _gone(spec: BoardSpec, end: int, sent: requests.DragSent) -> Point:
    (x, y), (dx, dy) = spec.line[end], sent.by
    target = sent.target
    stays = isinstance(target, requests.EndTarget) and (target.end == "start") != (end == 0)
    return (x, y) if stays else (x + dx, y + dy)


def _boards(target: requests.Target) -> list[str]:
    match target:
        case requests.BoardTarget():
            return list(target.boards)
        case requests.EndTarget():
            return [target.board]
    raise refused("refused", "only a board of a row can go its own way", "choose another way of writing it")


def _number(drawn: Drawn, length: float) -> float:
    """A length as a bare number in the job's units."""
    units = drawn.job.units
    return float(style.signed(style.Style(), length, units, snap=style.SNAP))


def _coordinates(moved: Moved) -> Iterable[tuple[Path, float, float]]:
    """The coordinates that do move: path, where they are, by how much."""
    for place in (0, 1):
        if moved.by[place]:
            yield (*moved.path, place), moved.at[place], moved.by[place]


def _plain(drawn: Drawn, moved: Moved) -> list[Edit]:
    return [
        Edit(action="set", path=path, value=_number(drawn, at + by)) for path, at, by in _coordinates(moved)
    ]


def _named(drawn: Drawn, moves: tuple[Moved, ...], name: str) -> tuple[Edit, ...]:
    places = [place for moved in moves for place in _coordinates(moved)]
    values = {_number(drawn, at + by) for _, at, by in places}
    if not name:
        raise refused("refused", "the new measure has no name", "give it one")
    if name in drawn.job.measures:
        raise refused("refused", f"there is a measure called {name} already", "choose another name")
    if len(values) != 1:
        raise refused("refused", "one measure cannot say two different places", "move it along one direction only")
    (value,) = values
    first = Edit(action="set", path=("measures", name), value=value)
    return (first, *(Edit(action="set", path=path, value=name) for path, _, _ in places))


# --- through a measure


@dataclass(frozen=True, slots=True, kw_only=True)
class Lever:
    """A measure, by how much a mm of it moves each coordinate, and which boards it moves."""

    name: str
    slopes: Mapping[Path, float]
    boards: tuple[str, ...]


def levers(drawn: Drawn, moves: tuple[Moved, ...]) -> tuple[Lever, ...]:
    """The measures that coordinates of a target hang on evenly, each tried by moving it 1 and 2 mm."""
    sheet = sheet_of(drawn.text)
    names: dict[str, None] = {}
    for moved in moves:
        for place in (0, 1):
            text = sheet.get((*moved.path, place))
            if isinstance(text, str):
                names.update(dict.fromkeys(_measures_in(text, drawn.job)))
    return tuple(lever for name in names if (lever := _lever(drawn, sheet, moves, name)) is not None)


def _measures_in(text: str, job: Job) -> list[str]:
    try:
        return [name for name in parse(text).names if name in job.measures]
    except ArithmeticMistake:
        return []


def _lever(drawn: Drawn, sheet: Sheet, moves: tuple[Moved, ...], name: str) -> Lever | None:
    if not _is_typed(sheet, name):
        return None
    try:
        one, two = (_with_measure(drawn, sheet, name, by) for by in (1.0, 2.0))
    except (JobError, Refused):
        return None
    was, first, second = (_places(job) for job in (drawn.job, one, two))
    slopes = {}
    for moved in moves:
        for place in (0, 1):
            path = (*moved.path, place)
            if not {path} <= was.keys() & first.keys() & second.keys():
                continue
            slope, again = first[path] - was[path], second[path] - first[path]
            if abs(slope - again) > EVEN:
                return None
            if abs(slope) > EVEN:
                slopes[path] = slope
    lines = {spec.name: spec.line for spec in drawn.job.boards}
    boards = tuple(spec.name for spec in one.boards if lines.get(spec.name) != spec.line)
    return Lever(name=name, slopes=slopes, boards=boards) if slopes else None


def _is_typed(sheet: Sheet, name: str) -> bool:
    """Whether a measure is a plain length, so that it can be changed without pulling at others."""
    value = sheet.get(("measures", name))
    return isinstance(value, (int, float)) or (isinstance(value, str) and style.lone_length(value) is not None)


def _with_measure(drawn: Drawn, sheet: Sheet, name: str, by: float) -> Job:
    value = from_mm(drawn.job.measures[name] + by, drawn.job.units)
    path = ("measures", name)
    return read_job_text(sheet.replace(path, repr(value)))


def _places(job: Job) -> dict[Path, float]:
    """Every coordinate of lines and points, by its path; for a row, of its first board."""
    found: dict[Path, float] = {}
    for spec in job.boards:
        if not spec.frame:
            for end in (0, 1):
                for place in (0, 1):
                    found.setdefault((*spec.path, "line", end, place), spec.line[end][place])
    for frame in job.frames:
        for corner, point in enumerate(frame.points):
            for place in (0, 1):
                found[(*frame.path, "points", corner, place)] = point[place]
    return found


def _by_measure(drawn: Drawn, moves: tuple[Moved, ...], name: str) -> tuple[Edit, ...]:
    lever = next((lever for lever in levers(drawn, moves) if lever.name == name), None)
    if lever is None:
        raise refused("refused", f"the place does not hang evenly on {name}", "choose another way of writing it")
    needed, others = set(), []
    for moved in moves:
        for path, _, by in _coordinates(moved):
            if path in lever.slopes:
                needed.add(round(by / lever.slopes[path], 6))
            else:
                others.append(Edit(action="shift", path=path, value=by))
    if len(needed) > 1:
        raise refused("refused", f"no one value of {name} brings all of it there", "choose another way of writing it")
    edits = [Edit(action="shift", path=("measures", name), value=off) for off in needed]
    return (*edits, *others)


# --- what is offered


def offers(drawn: Drawn, target: requests.Target) -> tuple[Offer, ...]:
    """The ways in which a move of the target may be written, the usual one first."""
    if isinstance(target, requests.NewTarget):
        return ()
    moves = points_of(drawn, target, (1.0, 1.0))
    names = tuple(_moving(drawn, moves))
    found = [Offer(id=HERE, says=_here_said(drawn, target, names), boards=names)]
    rows = [spec for spec in _specs(drawn, target) if _is_row(drawn.job, spec)]
    if rows:
        own = tuple(spec.name for spec in rows)
        found.append(Offer(id=ONE, says=f"only {', '.join(own)}", boards=own))
    for lever in levers(drawn, moves):
        count = len(lever.boards)
        axes = {path[-1] for path in lever.slopes}
        found.append(
            Offer(
                id=f"{MEASURE}{lever.name}",
                says=f"change {lever.name}: {count} {'board follows' if count == 1 else 'boards follow'}",
                boards=lever.boards,
                axis="" if len(axes) == 2 else "x" if axes == {0} else "y",
            )
        )
    if not rows:
        found += _as_numbers(drawn, moves, names)
    return tuple(found)


def _as_numbers(drawn: Drawn, moves: tuple[Moved, ...], names: tuple[str, ...]) -> list[Offer]:
    sheet = sheet_of(drawn.text)
    values = [sheet.get((*moved.path, place)) for moved in moves for place in (0, 1)]
    arithmetic = any(isinstance(value, str) and style.lone_length(value) is None for value in values)
    found = [Offer(id=PLAIN_NUMBER, says="as a plain number", boards=names)] if arithmetic else []
    if len(moves) == 1 or len({moved.at for moved in moves}) < len(moves):
        return [*found, Offer(id=NAMED, says="as a new measure", boards=names, named=True)]
    for axis, place in (("x", 0), ("y", 1)):
        if len({moved.at[place] for moved in moves}) == 1:
            found.append(
                Offer(id=NAMED, says="as a new measure", boards=names, axis="x" if axis == "x" else "y", named=True)
            )
    return found


def _moving(drawn: Drawn, moves: tuple[Moved, ...]) -> list[str]:
    """The boards whose line hangs on a point that moves."""
    paths = {moved.path for moved in moves}
    return [
        spec.name
        for spec in drawn.job.boards
        if any(moved.path in paths for moved in _board_points(drawn, spec, (0.0, 0.0)))
    ]


def _specs(drawn: Drawn, target: requests.Target) -> list[BoardSpec]:
    match target:
        case requests.BoardTarget():
            return [drawn.spec(name) for name in target.boards]
        case requests.EndTarget():
            return [drawn.spec(target.board)]
    return []


def _is_row(job: Job, spec: BoardSpec) -> bool:
    return not spec.frame and sum(other.path == spec.path for other in job.boards) > 1


def _here_said(drawn: Drawn, target: requests.Target, names: tuple[str, ...]) -> str:
    rows = [spec for spec in _specs(drawn, target) if _is_row(drawn.job, spec)]
    if rows:
        return f"the whole row: {', '.join(names)}"
    return "where it stands in the file"


# --- words


def _called(target: requests.Target) -> str:
    match target:
        case requests.BoardTarget():
            names = target.boards
            return names[0] if len(names) == 1 else f"{names[0]} and {len(names) - 1} more"
        case requests.EndTarget():
            return f"{target.board}, {target.end}"
        case requests.CornerTarget():
            return f"{target.frame}, corner {target.corner + 1}"
        case requests.SideTarget():
            return f"{target.frame}, side {target.side + 1}"
    return "a board"


def way_said(by: Vec2) -> str:
    """A move in words: "12 mm to the right, 3 mm down"."""
    words = []
    for value, plus, minus in ((by[0], "to the right", "to the left"), (by[1], "up", "down")):
        if value:
            words.append(f"{figure(abs(value))} mm {plus if value > 0 else minus}")
    return ", ".join(words) or "not moved"


def _follow(drawn: Drawn, target: requests.Target) -> str:
    count = len(follow(drawn, target))
    return f"; {count} {'joint follows' if count == 1 else 'joints follow'}" if count else ""


def follow(drawn: Drawn, target: requests.Target) -> tuple[tuple[str, str], ...]:
    """The joints of what moves."""
    if isinstance(target, requests.NewTarget):
        return ()
    names = set(_moving(drawn, points_of(drawn, target, (1.0, 1.0))))
    return tuple(joint.key for joint in drawn.piece.joints if names.intersection(joint.key))
