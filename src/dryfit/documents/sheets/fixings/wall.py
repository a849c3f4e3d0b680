"""The wall seen from the room with the piece faint on it, its studs, and each fixing with its number."""

from collections.abc import Iterator, Sequence

from ....geometry.frames import Vec2
from ....sentences import Voice
from ...display import Item, Stroke, Text
from ...kit import dimension, label
from ...kit.dimension import DimensionMark, UnplacedDimension
from ...kit.label import Label
from ...kit.placing import FilledPaper
from ...looks import Desk
from ...naming import LEAST, in_runs, position
from ...standard import FIGURE, PAST, ROW, TEXT
from ..page.picture import Picture
from .chain import Point, Zero

MARGIN = 60.0  # mm of wall beside and above a piece whose room is not known
CROSS = TEXT / 2  # half of the cross at a fixing
NUMBER = 4  # steps away from its cross that a number may stand
FIXINGS, STUDS = "fixings, from {}", "studs, their centres as the job has them: find them"
LEFT = "{} left of {}, counted to the left"


def wall(
    desk: Desk, found: Sequence[Point], start: Zero, scale: float, *, level: float = 0.0, under: Sequence[Item] = ()
) -> Sequence[Item]:
    """The drawing, the wall's origin at (0, 0).

    Args:
        level: the height that heights are counted from; the floor, if it is left out.
        under: what is drawn first, in the drawing's own place.
    """
    picture, (left, right, top) = Picture(scale, 0.0, 0.0), extent_of_wall(desk, found, start)
    paper = FilledPaper()
    paper.draw(under)
    paper.draw(_room(desk, [picture.at(p) for p in ((left, 0.0), (right, 0.0), (right, top))]))
    for stud in desk.book.job.wall.studs:
        (x, floor), (_, head) = picture.at((stud, 0.0)), picture.at((stud, top))
        paper.draw([Stroke(points=((x, floor), (x, head - PAST)), pen="axis", layer="axis")])
    for name, area in desk.visible.items():
        paper.draw(picture.outlines(area, "picture", "wood", name))
    paper.draw(line for point in found for line in _cross(picture.at((point.x, point.y))))
    studs, places = desk.book.job.wall.studs, [point.x for point in found]
    for xs, says, what in ((places, FIXINGS.format(start.says), "fixings"), (studs, STUDS, "studs")):
        for along in (_along(picture, xs, start, says), _left(picture, xs, start, LEFT.format(what, start.says))):
            if len(along.marks) > 1:  # nothing is told of what lies on the line itself
                dimension.put(paper, along)
    heights = _heights(desk, found, picture, left, level)
    if len(heights.marks) > 1:
        dimension.put(paper, heights)
    placed = [_number(paper, point, picture) for point in found]
    if not all(placed):
        paper.draw(_rows(found, heights, paper.right + ROW, level))
    return paper.items


def extent_of_wall(desk: Desk, found: Sequence[Point], start: Zero) -> tuple[float, float, float]:
    """Left, right and top of the wall that is drawn."""
    room = desk.book.job.wall
    left, _, right, head = desk.bounds
    xs = [left, right, start.x, *room.studs, *(point.x for point in found)]
    low = min(xs) - MARGIN if room.left is None else min(room.left, *xs)
    high = max(xs) + MARGIN if room.right is None else max(room.right, *xs)
    return low, high, head + MARGIN if room.ceiling is None else max(room.ceiling, head)


def _room(desk: Desk, corners: Sequence[Vec2]) -> Iterator[Item]:
    """Floor, and where they are known the ends and the ceiling; else the wall goes on, and its edge is broken."""
    room, ((x0, floor), (x1, _), (_, top)) = desk.book.job.wall, corners
    yield Stroke(points=((x0, floor), (x1, floor)), pen="outline", layer="floor")
    for known, ends in (
        (room.left is not None, ((x0, floor), (x0, top))),
        (room.right is not None, ((x1, floor), (x1, top))),
        (room.ceiling is not None, ((x0, top), (x1, top))),
    ):
        yield Stroke(points=ends, pen="balloon" if known else "left long", layer="wall")


def _cross(p: Vec2) -> Iterator[Item]:
    x, y = p
    yield Stroke(points=((x - CROSS, y), (x + CROSS, y)), pen="outline", layer="fixing")
    yield Stroke(points=((x, y - CROSS), (x, y + CROSS)), pen="outline", layer="fixing")


def _number(paper: FilledPaper, point: Point, picture: Picture) -> bool:
    """Its number in a ring beside its cross, joined to it; where all is full the cross alone."""
    at = (picture.at((point.x, point.y)),)
    ring = Label(says=str(point.number), at=at, ring=True, sizes=(FIGURE, TEXT), owner=point.board, reach=NUMBER)
    return label.put(paper, ring, Voice())


def _along(picture: Picture, xs: Sequence[float], start: Zero, says: str) -> UnplacedDimension:
    """Running positions under the floor."""
    marks = [DimensionMark(picture.at((x, 0.0)), position(x - start.x)) for x in sorted(set(xs)) if x > start.x + LEAST]
    datum = DimensionMark(picture.at((start.x, 0.0)))
    return UnplacedDimension(way=(1.0, 0.0), marks=(datum, *marks), style="running", side=-1, weight="bold", says=says)


def _left(picture: Picture, xs: Sequence[float], start: Zero, says: str) -> UnplacedDimension:
    """The same of what lies left of it: a line of its own that runs to the left, so that no figure wants a sign."""
    marks = [DimensionMark(picture.at((x, 0.0)), position(start.x - x)) for x in sorted(set(xs)) if x < start.x - LEAST]
    datum = DimensionMark(picture.at((start.x, 0.0)))
    return UnplacedDimension(way=(-1.0, 0.0), marks=(datum, *marks), style="running", side=1, weight="bold", says=says)


def _heights(desk: Desk, found: Sequence[Point], picture: Picture, left: float, level: float) -> UnplacedDimension:
    """Each row of fixings, from the floor or the level line up, with the letters of its boards."""
    rows: dict[str, tuple[float, list[str]]] = {}
    for point in sorted(found, key=lambda point: point.y):
        if abs(point.y - level) > LEAST or not level:
            rows.setdefault(position(point.y - level), (point.y, []))[1].append(desk.marks[point.board])
    marks = [
        DimensionMark(picture.at((left, y)), figure, " ".join(dict.fromkeys(letters)))
        for figure, (y, letters) in rows.items()
    ]
    datum = DimensionMark(picture.at((left, level)))
    return UnplacedDimension(way=(0.0, -1.0), marks=(datum, *marks), style="running", weight="bold")


def _rows(found: Sequence[Point], heights: UnplacedDimension, x: float, level: float) -> Iterator[Item]:
    """Right of a crowded wall: the numbers in each row of fixings, from left to right."""
    ys = [mark.at[1] for mark in heights.marks[1:]]
    stand = [-y for y in dimension.spread_over([-y for y in ys], ROW)]
    for mark, y in zip(heights.marks[1:], stand, strict=True):
        numbers = [point.number for point in found if position(point.y - level) == mark.figure]
        yield Text(at=(x, y + TEXT / 2), text=in_runs(numbers), weight="bold", layer="balloon")
