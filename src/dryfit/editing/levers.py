"""Measures as levers: by how much a mm of a measure moves each coordinate that hangs on it, and which boards follow."""

import re
from collections.abc import Mapping
from dataclasses import dataclass

from ..book import read_job_text
from ..errors import JobError
from ..job import style
from ..job.arithmetic import ArithmeticMistake, parse
from ..job.edits import TomlText, sheet_of
from ..job.model import Job
from ..lengths import from_mm
from ..places import Path
from .drawn import Drawn
from .points import Moved
from .refusals import Refused

_ANGLE, _WORD = re.compile(r"\b(?:sin|cos|tan)\(([^()]*)\)"), re.compile(r"[^\W\d]\w*")
EVEN = 1e-6  # a measure serves if a mm of it moves the place by the same whatever it is


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
                names.update(dict.fromkeys(measures_in(text, drawn.job)))
    return tuple(lever for name in names if (lever := _lever(drawn, sheet, moves, name)) is not None)


def measures_in(text: str, job: Job) -> list[str]:
    """The measures that a text of arithmetic names."""
    try:
        return [name for name in parse(text).names if name in job.measures]
    except ArithmeticMistake:
        return []


def angles_in(text: str) -> frozenset[str]:
    """The names that stand for angles in a text: what a sine, cosine or tangent is taken of."""
    return frozenset(name for inside in _ANGLE.findall(text) for name in _WORD.findall(inside))


def _lever(drawn: Drawn, sheet: TomlText, moves: tuple[Moved, ...], name: str) -> Lever | None:
    if not is_typed(sheet, name):
        return None
    try:
        now, units = drawn.job.measures[name], drawn.job.units
        one, two = (with_measure(sheet, name, from_mm(now + by, units)) for by in (1.0, 2.0))
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
    return Lever(name=name, slopes=slopes, boards=boards_moved(drawn.job, one)) if slopes else None


def is_typed(sheet: TomlText, name: str) -> bool:
    """Whether a measure is a plain length, so that it can be changed without pulling at others."""
    value = sheet.get(("measures", name))
    return isinstance(value, (int, float)) or (isinstance(value, str) and style.lone_length(value) is not None)


def with_measure(sheet: TomlText, name: str, value: float) -> Job:
    """The job as it would be with another value of a measure, in the job's units.

    Raises:
        JobError: it could not be read then.
    """
    return read_job_text(sheet.replace(("measures", name), repr(value)))


def boards_moved(before: Job, after: Job) -> tuple[str, ...]:
    """The boards whose line another measure has moved."""
    lines = {spec.name: spec.line for spec in before.boards}
    return tuple(spec.name for spec in after.boards if lines.get(spec.name) != spec.line)


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
