"""Where a board's faces and ends lie in the elevation, by its line and its thickness as the job has them.

A face goes on straight beyond the board's ends. Where a board leans, its left and right faces are met at the height
asked for, its upper and lower ones at the place along the wall asked for; a board that lies flat on the wall has its
edges for faces. What is measured of single boards in the file of what is made moves no line, and no place.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from types import MappingProxyType
from typing import Literal, TypeAlias

from .arithmetic import COUNTER, NUMBER, ArithmeticMistake, Expression, Place
from .model import BoardSpec, Job, LineIs, Point, Timber
from .names import shown

X, Y = 0, 1
AXIS_OF = {"left": X, "right": X, "top": Y, "under": Y}  # the other words are of the axis they stand on
SIZES = ("thickness", "width")
ENDS = ("start", "end")
STRAIGHT = 1e-9  # mm between two ends that are level, or plumb, with each other
FLAT_OFF = math.sin(math.radians(15.0))  # a face nearer to level has no left or right, nearer to plumb no top or under

Line: TypeAlias = tuple[Point, Point]
Profile: TypeAlias = Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """What of a board, beside its line, says where its faces are.

    Attributes:
        across: (distance from the line's start, how far it reaches from face to face there), one entry where that is
            the same all along: its thickness as put together, of a board lying flat its width.
        thickness: as put together, of a board that tapers where it is thickest.
        width: of a board lying flat; None for one that does not.
        midway: as in `BoardSpec`.
    """

    across: tuple[tuple[float, float], ...]
    thickness: float
    width: float | None = None
    line_is: LineIs = "centre"
    midway: float | None = None

    @property
    def even(self) -> bool:
        """Whether its faces run along its line."""
        return len(self.across) == 1

    def centre(self, size: float) -> float:
        """How far its centre-line lies to the left of its line, looking from start to end; `size` of the line."""
        if self.line_is == "centre":
            return 0.0
        off = (thickness_along(self.across, size / 2) if self.midway is None else self.midway) / 2
        return -off if self.line_is == "left face" else off


def standing(
    timber: Timber,
    sanded: float,
    *,
    thickness_at: Profile = (),
    line_is: LineIs = "centre",
    width: float | None = None,
    midway: float | None = None,
) -> Standing:
    """How a board of a timber stands about its line.

    Args:
        timber: of the board.
        sanded: taken off each face.
        thickness_at: as measured, from the line's start; it wins over the timber's.
        line_is: what of the board the line is.
        width: of a board lying flat; None for one that does not.
        midway: as in `BoardSpec`.
    """
    ordered = timber.thickness if timber.measured is None else timber.measured
    places = tuple((a, t - 2 * sanded) for a, t in thickness_at) or ((0.0, ordered - 2 * sanded),)
    if len({t for _, t in places}) == 1:
        places = places[:1]
    return Standing(
        across=places if width is None else ((0.0, width),),
        thickness=max(t for _, t in places),
        width=width,
        line_is=line_is,
        midway=midway,
    )


def standing_of(spec: BoardSpec, job: Job) -> Standing:
    """How a board of a job that was read stands about its line."""
    return standing(
        job.timbers[spec.timber],
        job.finish.sanded,
        thickness_at=spec.thickness_at,
        line_is=spec.line_is,
        width=spec.depth if spec.lies == "flat" else None,
        midway=spec.midway,
    )


def thickness_along(profile: Profile, a: float) -> float:
    """Thickness at a place of a profile: straight between its places, constant beyond."""
    if len(profile) == 1 or a <= profile[0][0]:
        return profile[0][1]
    for (a0, t0), (a1, t1) in pairwise(profile):
        if a <= a1:
            return t0 + (t1 - t0) * (a - a0) / (a1 - a0)
    return profile[-1][1]


def lacks(word: str, axis: int, line: Line) -> Literal["", "level", "plumb"]:
    """Why a board with this line has no such face, or no such middle on an axis; "" where it has."""
    (x0, y0), (x1, y1) = line
    off = FLAT_OFF * math.dist(*line)
    axis = AXIS_OF.get(word, axis)
    if axis == X and abs(y1 - y0) < off:
        return "level"
    return "plumb" if axis == Y and abs(x1 - x0) < off else ""


def place_of(word: str, axis: int, line: Line, board: Standing, at: float) -> float:
    """Where a board's face, its middle or one of its ends is, on an axis (0 along the wall, 1 up), in mm.

    Args:
        word: "left", "right", "top", "under", "middle", "start" or "end", which the board has (see `lacks`).
        axis: on which it is asked for.
        line: of the board, as typed.
        board: how it stands about it.
        at: the other coordinate, at which a leaning face is met; nothing else looks at it.
    """
    start, u, size = line[0], _unit(line), math.dist(*line)
    n = (-u[1], u[0])
    centre = board.centre(size)
    if word in ENDS:
        a = 0.0 if word == "start" else size
        return start[axis] + u[axis] * a + n[axis] * centre
    side = {"middle": 0.0, "left": -1.0, "under": -1.0}.get(word, 1.0)
    # The face that lies towards +axis is on the left of the line where n points that way.
    c = [(a, centre + math.copysign(side, side * n[axis]) * t / 2 if side else centre) for a, t in board.across]
    if abs(line[1][axis] - line[0][axis]) < STRAIGHT and len(c) == 1:
        return start[axis] + n[axis] * c[0][1]
    a, off = _met(c, u[1 - axis], n[1 - axis], at - start[1 - axis])
    return start[axis] + u[axis] * a + n[axis] * off


class Places:
    """Places of the boards of a job that was read, where they stand or with other lines.

    Args:
        job: as it was read.
        lines: of boards that are thought to be elsewhere, by name.
    """

    def __init__(self, job: Job, lines: Mapping[str, Line] = MappingProxyType({})) -> None:
        self._job = job
        self._lines = lines
        self._specs = {spec.name: spec for spec in job.boards}

    def of(self, place: Place, axis: int, at: Point, number: int = 1) -> float:
        """A place on an axis, as a point at `at` meets it, in mm.

        Args:
            place: as written.
            axis: 0 along the wall, 1 up.
            at: the point whose coordinate it is.
            number: in its row, of the board whose point it is.

        Raises:
            ArithmeticMistake: there is no such place.
        """
        name = place.board.replace(NUMBER, str(number))
        spec = self._specs.get(name)
        if spec is None:
            raise ArithmeticMistake(f"there is no board called {shown(name)}", "name a board that there is")
        if place.word in SIZES:
            board = standing_of(spec, self._job)
            return board.width if place.word == "width" and board.width is not None else board.thickness
        line = self._lines.get(name, spec.line)
        if AXIS_OF.get(place.word, axis) != axis or (place.word not in ENDS and lacks(place.word, axis, line)):
            raise ArithmeticMistake(f"{place.word} is no place of {shown(name)} here", "name another of its places")
        return self.of_board(spec, place.word, axis, at)

    def of_board(self, spec: BoardSpec, word: str, axis: int, at: Point) -> float:
        """A place that a board has, as a point at `at` meets it, in mm."""
        line = self._lines.get(spec.name, spec.line)
        return place_of(word, axis, line, standing_of(spec, self._job), at[1 - axis])

    def worked_out(self, text: Expression, axis: int, at: Point, number: int = 1) -> float:
        """A coordinate in mm, as a point at `at` has it.

        Raises:
            ArithmeticMistake: it cannot be worked out.
        """
        own = {place.key: self.of(place, axis, at, number) for place in text.places}
        return text.evaluate({**self._job.measures, COUNTER: float(number), **own}, self._job.units)


def _unit(line: Line) -> Point:
    (x0, y0), (x1, y1) = line
    size = math.hypot(x1 - x0, y1 - y0)
    return (x1 - x0) / size, (y1 - y0) / size


def _met(face: Sequence[tuple[float, float]], u: float, n: float, goal: float) -> tuple[float, float]:
    """Where along a face, and how far from the line, u a + n c comes to `goal`.

    Args:
        face: (a along the line, c to its left), straight between these places, and along the line beyond.
        u: what a mm along the line comes to.
        n: what a mm to its left comes to.
        goal: what is looked for.
    """
    for (a0, c0), (a1, c1) in pairwise(face):
        first, last = u * a0 + n * c0, u * a1 + n * c1
        if (first <= goal <= last) or (last <= goal <= first):
            share = 0.0 if first == last else (goal - first) / (last - first)
            return a0 + (a1 - a0) * share, c0 + (c1 - c0) * share
    a0, c0 = face[0]
    if (goal - (u * a0 + n * c0)) * u > 0:
        _, c0 = face[-1]
    return (goal - n * c0) / u, c0
