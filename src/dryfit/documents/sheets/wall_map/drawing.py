"""The wall with every hole from one level line and one plumb line, and where cables usually run."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely import box

from ....studies.marking.result import Marks
from ...display import Area, Item, Stroke, Text, extent, rectangle
from ...hatch import LEAN, hatch_in
from ...looks import Desk
from ...standard import AIR, CAPTION, TEXT
from ..fixings.chain import Point, Zero
from ..fixings.wall import extent_of_wall, wall
from ..page.picture import Picture

WIDE = 2.0  # between the lines of a hatch
PLUMB = "the plumb line"


@dataclass(frozen=True, slots=True)
class DatumLines:
    """The two lines that all holes are measured from: x of the plumb, height of the level one over the floor."""

    plumb: float
    level: float

    @classmethod
    def of(cls, desk: Desk, found: Sequence[Point]) -> "DatumLines":
        """Plumb through the leftmost hole or stud, level through the lowest holes: nothing lies left or below."""
        xs = [*desk.book.job.wall.studs, *(point.x for point in found)]
        return cls(min(xs), min(point.y for point in found))

    def at(self, point: Point) -> tuple[float, float]:
        """A hole from the two."""
        return point.x - self.plumb, point.y - self.level


def drawing(desk: Desk, found: Sequence[Point], lines: DatumLines, marks: Marks | None, scale: float) -> Sequence[Item]:
    """All of it, the wall's origin at (0, 0)."""
    start = Zero(lines.plumb, PLUMB)
    left, right, top = extent_of_wall(desk, found, start)
    picture = Picture(scale, 0.0, 0.0)
    under = [*_zones(marks, picture, (left, right, top)), *_lines(lines, picture, (left, right, top))]
    return wall(desk, found, start, scale, level=lines.level, under=under)


def _zones(marks: Marks | None, picture: Picture, room: tuple[float, float, float]) -> Iterator[Item]:
    """Each hatched, its letter in its lower left corner; what of it lies beyond the drawing is left out."""
    left, right, top = room
    for number, zone in enumerate(marks.zones if marks is not None else ()):
        area = box(*zone.low, *zone.high).intersection(box(left, 0.0, right, top))
        if area.is_empty or not area.area:
            continue
        x0, y0, x1, y1 = area.bounds
        (a, b), (c, d) = picture.at((x0, y0)), picture.at((x1, y1))
        yield from hatch_in(box(a, d, c, b), WIDE, lean=LEAN if number % 2 else -LEAN)
        said = Text(at=(a + AIR, b - AIR), text=letter(number), size=CAPTION, weight="semibold", layer="zone")
        x0, y0, x1, y1 = extent([said])
        yield Area(loops=(rectangle(x0, y0, x1 - x0, y1 - y0),), ink="white", layer="zone")
        yield said


def letter(number: int) -> str:
    """What a zone is called in the drawing."""
    return f"Z{number + 1}"


def _lines(lines: DatumLines, picture: Picture, room: tuple[float, float, float]) -> Iterator[Item]:
    left, right, top = room
    for start, end, says in (
        ((left, lines.level), (right, lines.level), "level line"),
        ((lines.plumb, 0.0), (lines.plumb, top), "plumb line"),
    ):
        points = picture.at(start), picture.at(end)
        yield Stroke(points=points, pen="balloon", layer="lines")
        x, y = points[1]
        at = (x + AIR, y + TEXT / 2) if says == "level line" else (x, y - 2 * AIR)
        yield Text(at=at, text=says, size=CAPTION, anchor="start", layer="lines")


def outer(found: Sequence[Point]) -> list[tuple[Point, Point, float]]:
    """The two diagonals between the outermost holes, with their lengths; none where all lie in one row."""
    low, high = min(point.y for point in found), max(point.y for point in found)
    if high - low < 1.0:
        return []
    rows = [sorted((p for p in found if abs(p.y - y) < 1.0), key=lambda p: p.x) for y in (low, high)]
    pairs = ((rows[0][0], rows[1][-1]), (rows[0][-1], rows[1][0]))
    return [(a, b, math.dist((a.x, a.y), (b.x, b.y))) for a, b in pairs if a is not b]
