"""Frames: a chain of boards with a joint at each corner, drawn by its corners.

`size` says of what the points are corners. Outside and inside are set out by faces: each side's centre-line
lies half that side's own thickness in from the outside face (or out from the inside face), and the corners
of the centre-lines are where neighbours cross. A box 900 x 500 outside of boards 24 thick has centre-lines
876 x 476.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import combinations

from ..places import Path
from .boards import SHORTEST, Ground
from .model import BoardSpec, FrameSpec, Point, Timber
from .relations import NamedBoard, Points
from .schema import FrameTable
from .sizes import Sizes
from .standing import Line, Standing

MOST_CORNERS = 100  # of a frame whose sides are looked at for crossing: each with every other
STRAIGHT = 1e-9  # sine of the angle under which two sides run on in one line


@dataclass(frozen=True, slots=True)
class FrameSide:
    """One side as typed: its timber and sizes."""

    name: str
    timber: str
    thickness: float
    depth: float
    back: float


@dataclass(frozen=True, slots=True, kw_only=True)
class FrameDrafted:
    """A frame all of which is read but its points, which may hang on boards.

    Attributes:
        points: its corners; None where it has none.
        sides: in their order; None where a mistake leaves it without.
    """

    name: str
    named: bool
    points: Points | None
    sides: list[FrameSide] | None
    frame: "_Frame"

    @property
    def boards(self) -> dict[str, NamedBoard]:
        """Its boards as others name them, by their names."""
        if self.points is None or self.sides is None:
            return {}
        sides = self.sides
        return {
            side.name: NamedBoard(
                points=self.points,
                standing=Standing(across=((0.0, side.thickness),), thickness=side.thickness),
                side=at,
                lines=lambda points: self.frame.lines(points, sides),
            )
            for at, side in enumerate(sides)
        }

    def drawn(self) -> tuple[FrameSpec, tuple[BoardSpec, ...]] | None:
        """The frame with its boards, once its points are worked out."""
        points = None if self.points is None else self.frame.apart(self.points.whole)
        if points is None or self.sides is None or not self.named:
            return None
        return self.frame.drawn_by(points, self.sides)


def read_frames(tables: list[tuple[FrameTable, Path]], ground: Ground) -> Iterator[FrameDrafted]:
    """Yield every frame, its boards in the order of its points."""
    for table, path in tables:
        found = _Frame(table, path, ground).read()
        if found is not None:
            yield found


class _Frame:
    def __init__(self, table: FrameTable, path: Path, ground: Ground) -> None:
        self.table, self.path, self.ground = table, path, ground
        self.mistakes = ground.mistakes
        self.sizes = Sizes(table, path, ground.measures, ground.mistakes)

    def read(self) -> FrameDrafted | None:
        name = self.table.name
        named = name is not None and self.ground.claim(name, (*self.path, "name"))
        points = self.points()
        if points is None or name is None:
            return None
        count = len(points.typed) if self.table.closed else len(points.typed) - 1
        names = self.names(name, count)
        return FrameDrafted(name=name, named=named, points=points, sides=self.sides(name, names, count), frame=self)

    def drawn_by(
        self, points: tuple[Point, ...], sides: list[FrameSide]
    ) -> tuple[FrameSpec, tuple[BoardSpec, ...]] | None:
        """The frame and its boards by its points; None, with the mistake noted, where they leave none."""
        name = self.table.name
        lines = self.lines(points, sides)
        if lines is None or name is None:
            return None
        inside = 1 if _area(points) >= 0 else -1
        boards = tuple(
            BoardSpec(
                name=side.name,
                timber=side.timber,
                line=line,
                depth=side.depth,
                back=side.back,
                frame=name,
                inside=inside,
                when=self.table.when,
                place=self.table.place,
                path=self.path,
                index=number,
            )
            for number, (side, line) in enumerate(zip(sides, lines, strict=True), start=1)
        )
        spec = FrameSpec(
            name=name,
            boards=tuple(side.name for side in sides),
            points=points,
            closed=self.table.closed,
            size=self.table.size,
            place=self.table.place,
            path=self.path,
        )
        return spec, boards

    def points(self) -> Points | None:
        typed, path = self.table.points, (*self.path, "points")
        if typed is None:
            return None
        if self.table.closed and len(typed) < 3:
            self.mistakes.add(path, "a closed frame needs 3 points or more", "add points, or closed = false")
            return None
        if len(typed) > self.ground.room:
            self.mistakes.add(path, "this makes too many boards in all", "keep a job within 2000 boards")
            return None
        self.ground.room -= len(typed)
        # For a type checker their coordinates are floats; they hold what is to be worked out (see `options.Quantity`).
        return Points(owner=self.table.name or "", path=path, typed=typed, scope=self.ground.measures)  # type: ignore[arg-type]

    def apart(self, found: tuple[Point, ...] | None) -> tuple[Point, ...] | None:
        """The points, if no two in a row are one."""
        if found is None:
            return None
        path = (*self.path, "points")
        following = found[1:] + found[:1] if self.table.closed else found[1:]
        for at, (one, other) in enumerate(zip(found, following, strict=False)):
            if math.dist(one, other) < SHORTEST:
                says = "two corners in a row are at the same place"
                self.mistakes.add((*path, (at + 1) % len(found)), says, "take one out, or move it")
                return None
        return found

    def names(self, name: str, count: int) -> list[str] | None:
        """Names of the sides, each taken; None where there are not as many as sides."""
        path = (*self.path, "names")
        if self.table.names is None:
            names = [f"{name} {number}" for number in range(1, count + 1)]
        elif len(self.table.names) == count:
            names = self.table.names
        else:
            says = f"the frame has {count} sides and {len(self.table.names)} names"
            self.mistakes.add(path, says, f"give it {count} names")
            return None
        claimed = [
            self.ground.claim(side, (*path, at) if self.table.names is not None else (*self.path, "name"))
            for at, side in enumerate(names)
        ]
        return names if all(claimed) else None

    def sides(self, name: str, names: list[str] | None, count: int) -> list[FrameSide] | None:
        timbers = self.timbers(name, count)
        depths = self.lengths("depth", self.table.depth, count)
        backs = self.lengths("back", self.table.back, count) if self.table.back else [0.0] * count
        if names is None or timbers is None or depths is None or backs is None:
            return None
        return [
            FrameSide(side, timber.name, (timber.measured or timber.thickness) - 2 * self.ground.sanded, depth, back)
            for side, timber, depth, back in zip(names, timbers, depths, backs, strict=True)
        ]

    def timbers(self, name: str, count: int) -> list[Timber] | None:
        typed: list[str | None] = [*self.table.timber] if self.table.timber else [None]
        path = (*self.path, "timber")
        if not self.as_many("timber", len(typed), count):
            return None
        found = []
        for at, timber in enumerate(typed):
            place = self.path if timber is None else path if len(typed) == 1 else (*path, at)
            chosen = self.ground.timber(timber, place, name)
            found.append(self.ground.timbers.get(chosen) if chosen else None)
        sound = [timber for timber in found if timber is not None]
        if len(sound) < len(found):
            return None
        return sound * count if len(sound) == 1 else sound

    def lengths(self, key: str, typed: list[float] | None, count: int) -> list[float] | None:
        if typed is None or not self.as_many(key, len(typed), count):
            return None
        sound = [length for length in self.sizes.of(key) if length is not None]
        if len(sound) < len(typed):
            return None
        return sound * count if len(sound) == 1 else sound

    def as_many(self, key: str, given: int, count: int) -> bool:
        """Whether there is one value for all sides, or one a side."""
        if given in (1, count):
            return True
        self.mistakes.add(
            (*self.path, key), f"the frame has {count} sides and {given} values here", f"give 1 or {count}"
        )
        return False

    def lines(self, points: tuple[Point, ...], sides: list[FrameSide]) -> list[Line] | None:
        """The centre-lines of the sides; None, with the mistake noted, where there are none."""
        closed, area = self.table.closed, _area(points)
        if self.table.size == "centre":
            if len({side.thickness for side in sides}) > 1:
                says = "the sides differ in thickness, so their centre-lines do not say where the faces are"
                self.mistakes.add((*self.path, "size"), says, 'write size = "outside" or "inside"')
                return None
            shifts = [0.0] * len(sides)
        elif abs(area) < SHORTEST:
            says, remedy = "the points lie in one line, so the frame has no inside", "move one of them"
            if closed and _crossed(points):
                says = "sides of the frame cross, so its inside cannot be told from its outside"
                remedy = "write the points in order round the frame"
            self.mistakes.add((*self.path, "points"), says, f'{remedy}, or write size = "centre"')
            return None
        else:
            # Anticlockwise points have their inside on the left, which is where a positive shift leads.
            inward = math.copysign(0.5, area) if self.table.size == "outside" else -math.copysign(0.5, area)
            shifts = [inward * side.thickness for side in sides]
        corners = self.corners(points, shifts, closed=closed)
        return None if corners is None else self.drawn(points, corners, closed=closed)

    def corners(self, points: tuple[Point, ...], shifts: list[float], *, closed: bool) -> list[Point] | None:
        """Where neighbouring centre-lines cross; at a free end, square across from the point."""
        units = [_unit(points[k], points[(k + 1) % len(points)]) for k in range(len(shifts))]
        found: list[Point] = []
        for k, point in enumerate(points):
            before, after = (k - 1, k) if closed else (max(k - 1, 0), min(k, len(shifts) - 1))
            corner = _corner(point, (units[before], shifts[before]), (units[after], shifts[after]))
            if corner is None:
                says = "the two sides at this corner lie in one line"
                remedy = "take the point out, or give both sides one timber"
                self.mistakes.add((*self.path, "points", k), says, remedy)
                return None
            found.append(corner)
        return found

    def drawn(
        self, points: tuple[Point, ...], corners: list[Point], *, closed: bool
    ) -> list[tuple[Point, Point]] | None:
        count = len(points) if closed else len(points) - 1
        lines = []
        for k in range(count):
            after = (k + 1) % len(points)
            line = corners[k], corners[after]
            u = _unit(points[k], points[after])
            along = (line[1][0] - line[0][0]) * u[0] + (line[1][1] - line[0][1]) * u[1]
            if along < SHORTEST:
                says = f"nothing is left of side {k + 1} between the boards beside it"
                self.mistakes.add((*self.path, "points"), says, "make the frame larger, or its boards thinner")
                return None
            lines.append(line)
        return lines


def _unit(start: Point, end: Point) -> Point:
    length = math.dist(start, end)
    return (end[0] - start[0]) / length, (end[1] - start[1]) / length


def _corner(point: Point, one: tuple[Point, float], other: tuple[Point, float]) -> Point | None:
    """Where two lines through `point`, each shifted to its left, cross; None for lines that do not.

    Each side is a unit vector u and its shift along n, which is u turned 90 degrees to the left.
    """
    (ux, uy), shift = one
    (vx, vy), other_shift = other
    sine = ux * vy - uy * vx
    if abs(sine) < STRAIGHT:
        if ux * vx + uy * vy < 0 or abs(shift - other_shift) > STRAIGHT:
            return None
        return point[0] - uy * shift, point[1] + ux * shift
    # x . n = shift and x . m = other_shift, with n = (-uy, ux) and m = (-vy, vx)
    x = (shift * vx - other_shift * ux) / sine
    y = (shift * vy - other_shift * uy) / sine
    return point[0] + x, point[1] + y


def _crossed(points: tuple[Point, ...]) -> bool:
    """Whether two sides of a closed chain cross each other."""
    sides = list(zip(points, points[1:] + points[:1], strict=True))
    return len(points) <= MOST_CORNERS and any(
        _area((*one, other[0])) * _area((*one, other[1])) < 0 and _area((*other, one[0])) * _area((*other, one[1])) < 0
        for one, other in combinations(sides, 2)
    )


def _area(points: tuple[Point, ...]) -> float:
    """Twice the area enclosed, positive where the points go round anticlockwise."""
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True))
