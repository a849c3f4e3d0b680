"""The wall seen from the room with the piece faint on it, its studs, and each fixing with its number."""

import math
from collections.abc import Iterator, Sequence

import numpy as np

from ....geometry.frames import Vec2
from ...display import Circle, Item, Stroke, Text
from ...lettering import FIGURE, TEXT, width
from ...looks import Desk
from ...naming import in_runs, position
from ..dimensions.levels import LARGE, Level, level_places, levels
from ..dimensions.running import Line, Mark, drawn, plan
from ..page.ground import Ground
from ..page.picture import Picture
from ..page.placing import around
from .chain import Point, Zero

MARGIN = 60.0  # of wall beside and above a piece whose room is not known
RINGS = ((3.2, FIGURE), (2.4, TEXT))  # radius of a fixing's number, and its size: the smaller where it is crowded
CROSS = 1.4  # half of the cross at a fixing
CLEAR = 0.9  # from the cross to where the leader of its number begins, for the room that it takes
APART, THIN = 0.4, 0.2  # around a ring and a cross; half of a leader
HEAD = 6.0  # over the wall, for the word on its studs


class Wall:
    """The drawing, once it has been placed."""

    def __init__(self, desk: Desk, found: Sequence[Point], start: Zero) -> None:
        self.desk, self.found, self.start = desk, found, start
        self.left, self.right, self.top = self._extent()
        self.picture = Picture(1.0, 0.0, 0.0)

    def _extent(self) -> tuple[float, float, float]:
        wall = self.desk.book.job.wall
        left, _, right, head = self.desk.bounds
        xs = [left, right, self.start.x, *wall.studs, *(point.x for point in self.found)]
        low = min(xs) - MARGIN if wall.left is None else min(wall.left, *xs)
        high = max(xs) + MARGIN if wall.right is None else max(wall.right, *xs)
        return low, high, head + MARGIN if wall.ceiling is None else max(wall.ceiling, head)

    def place(self, scale: float, x: float, y: float) -> None:
        """Put the lower left corner of the wall at (x, y)."""
        self.picture = Picture(scale, x - self.left * scale, y)

    def at(self, p: Vec2) -> Vec2:
        """A point of the wall, on paper."""
        return self.picture.at(p)

    # --- what is seen ----------------------------------------------------------------------------

    def items(self) -> Iterator[Item]:
        """The wall, its studs, the piece faint, and the fixings."""
        yield from self._room()
        yield from self._studs()
        for name, area in self.desk.visible.items():
            yield from self.picture.outlines(area, "picture", "wood", name)
        crosses = [self.at((point.x, point.y)) for point in self.found]
        ground = self._ground()
        for p in crosses:
            ground.take(p, p, CROSS + APART)
            yield from _cross(p)
        numbers = [list(self._number(ground, point, p)) for point, p in zip(self.found, crosses, strict=True)]
        yield from (item for number in numbers for item in number)
        if not all(numbers):
            yield from self._rows()

    def _rows(self) -> Iterator[Item]:
        """Right of a crowded wall: the numbers in each row of fixings, from left to right."""
        x, _ = self.at((self.right, 0.0))
        rows, floor = self.heights(), self.at((0.0, 0.0))[1]
        for row, place in zip(rows, level_places(floor, rows, LARGE), strict=True):
            numbers = [point.number for point in self.found if position(point.y) == row.figure]
            at = (x + 2.0, place + TEXT / 2)
            yield Text(at=at, text=in_runs(numbers), weight="bold", layer="balloon")

    def _room(self) -> Iterator[Item]:
        """Floor, and where they are known the ends and the ceiling; else the wall goes on, and its edge is broken."""
        wall = self.desk.book.job.wall
        corners = [self.at(p) for p in ((self.left, 0.0), (self.right, 0.0), (self.right, self.top))]
        (x0, floor), (x1, _), (_, top) = corners
        yield Stroke(points=((x0, floor), (x1, floor)), pen="outline", layer="floor")
        pens = {True: "balloon", False: "left long"}
        for known, ends in (
            (wall.left is not None, ((x0, floor), (x0, top))),
            (wall.right is not None, ((x1, floor), (x1, top))),
            (wall.ceiling is not None, ((x0, top), (x1, top))),
        ):
            yield Stroke(points=ends, pen=pens[known], layer="wall")

    def _studs(self) -> Iterator[Item]:
        _, top = self.at((0.0, self.top))
        for stud in self.desk.book.job.wall.studs:
            x, floor = self.at((stud, 0.0))
            yield Stroke(points=((x, floor), (x, top - 2.0)), pen="axis", layer="axis")

    def _ground(self) -> Ground:
        """The wall, on which the rings of the numbers stand whole."""
        (x0, floor), (x1, top) = self.at((self.left, 0.0)), self.at((self.right, self.top))
        return Ground(x0 - APART, top - HEAD / 2 - APART, x1 + APART, floor + APART)

    def _number(self, ground: Ground, point: Point, p: Vec2) -> Iterator[Item]:
        """The number in a ring beside its cross, joined to it; where all is full the cross alone."""
        for radius, size in RINGS:
            centre = self._free(ground, p, radius)
            if centre is None:
                continue
            x, y = centre
            text, owner = str(point.number), point.board
            yield Stroke(points=(p, centre), pen="dimension", layer="balloon", owner=owner)
            yield Circle(centre=centre, radius=radius, pen="balloon", ink="white", layer="balloon", owner=owner)
            yield Text(at=(x, y + size / 2), text=text, size=size, weight="bold", anchor="middle", layer="balloon")
            return

    def _free(self, ground: Ground, p: Vec2, radius: float) -> Vec2 | None:
        """Where a ring has room on the wall, near its cross; it and its leader are then kept free."""
        centres = list(around(p))
        feet = [_between(p, centre, CROSS + CLEAR) for centre in centres]
        found = ground.first_ring(np.asarray(feet), np.asarray(centres), radius + APART, THIN)
        if found is None:
            return None
        ground.take(centres[found], centres[found], radius)
        ground.take(feet[found], centres[found], THIN)
        return centres[found]

    # --- figures ---------------------------------------------------------------------------------

    def lines(self) -> list[Line]:
        """Running positions of the fixings, and below them of the studs' centres."""
        floor = self.at((0.0, 0.0))[1]
        made = [self._line([point.x for point in self.found], f"fixings, from {self.start.says}", floor)]
        if studs := self.desk.book.job.wall.studs:
            foot = floor + _high(made[0])
            made.append(self._line(studs, "studs, their centres as the job has them: find them", foot))
        return made

    def _line(self, xs: Sequence[float], says: str, foot: float) -> Line:
        marks = [
            Mark(x=self.at((x, 0.0))[0], figure=position(x - self.start.x), foot=foot, edge=foot)
            for x in sorted(set(xs))
            if x > self.start.x + 0.05
        ]
        return plan(self.at((self.start.x, 0.0))[0], marks, says)

    def below(self) -> float:
        """Height of the running lines under the floor."""
        return sum(map(_high, self.lines())) + 2.0

    def figures(self) -> Iterator[Item]:
        """The running lines under the floor, and the heights left of the wall."""
        y = self.at((0.0, 0.0))[1]
        for line in self.lines():
            yield from drawn(line, y + 1.6 + line.crank + line.over(1.0), 1.0)
            y += _high(line)
        yield from self._heights()

    def heights(self) -> list[Level]:
        """Each row of fixings, from the floor up, with the letters of its boards."""
        rows: dict[str, tuple[float, list[str]]] = {}
        for point in self.found:
            _, letters = rows.setdefault(position(point.y), (point.y, []))
            letters.append(self.desk.marks[point.board])
        return [
            Level(y=self.at((0.0, y))[1], figure=figure, letters=" ".join(dict.fromkeys(letters)))
            for figure, (y, letters) in sorted(rows.items(), key=lambda row: row[1][0])
        ]

    def beside(self) -> float:
        """Width of the heights left of the wall."""
        words = [width(row.figure, FIGURE, "bold") + width(row.letters, FIGURE) for row in self.heights()]
        return max(words, default=0.0) + 13.0

    def _heights(self) -> Iterator[Item]:
        """Running heights from the floor, large."""
        x, floor = self.at((self.left, 0.0))
        yield from levels(x - 4.0, floor, self.heights(), LARGE)


def _high(line: Line) -> float:
    """From the wood down to the end of what stands below a running line."""
    return 1.6 + line.crank + line.over(1.0) + line.under(1.0) + 1.2


def _between(p: Vec2, q: Vec2, far: float) -> Vec2:
    """So far from one point towards another."""
    share = far / math.dist(p, q)
    return p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share


def _cross(p: Vec2) -> Iterator[Item]:
    x, y = p
    yield Stroke(points=((x - CROSS, y), (x + CROSS, y)), pen="outline", layer="fixing")
    yield Stroke(points=((x, y - CROSS), (x, y + CROSS)), pen="outline", layer="fixing")
