"""The picture on a glue-up card: the boards of one go in the elevation, their letters, both diagonals of a frame."""

import math
from collections.abc import Iterator, Sequence
from itertools import combinations, pairwise

from shapely import LineString, Point, unary_union
from shapely.geometry.base import BaseGeometry

from ....geometry.frames import Vec2
from ....studies.glue_up.model import GlueStage
from ...display import Item, Stroke, Text
from ...lettering import FIGURE, NAME, width
from ...looks import Desk
from ...naming import position
from ..page.picture import Picture

EDGE = 9.0  # around the boards, for letters
UNDER = 14.0  # below them
DIAGONAL = 4.2  # height of a diagonal's figure
ALONG = 0.3  # of a diagonal, to its figure
FIGURE_ROOM = 6.0  # from the middle of that figure's line to the middle of a letter
APART = (7.0, NAME + 2.0)  # least distance of two letters, across and down
ELSEWHERE = ((12.0, 0.0), (-12.0, 0.0), (0.0, 9.0), (0.0, -9.0), (24.0, 0.0), (-24.0, 0.0))
Room = tuple[float, float, float, float]


def drawn(desk: Desk, go: GlueStage, room: Room) -> Iterator[Item]:
    """The picture, in a room of left, top, right, bottom."""
    names = [name for name in dict.fromkeys(go.boards) if name in desk.elevations]
    shapes = {name: desk.elevations[name] for name in names if not desk.elevations[name].is_empty}
    if not shapes:
        return
    picture = _Picture(shapes, room)
    yield from picture.wood()
    lengths = go.square.outside if go.square else go.across.outside if go.across else ()
    if lengths:
        yield from picture.diagonals(lengths)
        middle, below = (room[0] + room[2]) / 2, room[3] - 1.0
        text = f"outside to outside, {'both ways' if len(lengths) == 2 else 'all of them'}, front and back"
        yield Text(at=(middle, below), text=text, size=FIGURE, anchor="middle")
    yield from picture.letters(desk)


class _Picture:
    """Boards seen from the room, as large as the room allows."""

    def __init__(self, shapes: dict[str, BaseGeometry], room: Room) -> None:
        self.shapes = shapes
        self.figures: list[LineString] = []
        left, low, right, high = unary_union(list(shapes.values())).bounds
        x0, y0, x1, y1 = room[0] + EDGE, room[1] + EDGE, room[2] - EDGE, room[3] - UNDER
        scale = min((x1 - x0) / (right - left), (y1 - y0) / (high - low))
        x, y = (x0 + x1 - (left + right) * scale) / 2, (y0 + y1 + (low + high) * scale) / 2
        self.picture = Picture(scale, x, y)
        self.middle = self.at(((left + right) / 2, (low + high) / 2))

    def at(self, p: Sequence[float]) -> Vec2:
        """A place of the elevation, on the sheet."""
        return self.picture.at(p)

    def wood(self) -> Iterator[Item]:
        """The boards' outlines."""
        for name, shape in self.shapes.items():
            yield from self.picture.outlines(shape, "balloon", "wood", name)

    def diagonals(self, lengths: Sequence[float]) -> Iterator[Item]:
        """Dashed, each with its length, nothing where the outline has no corners so far apart."""
        hull = unary_union([shape.buffer(0.05) for shape in self.shapes.values()]).convex_hull.simplify(2.0)
        corners = [(x, y) for x, y in hull.exterior.coords[:-1]]
        pairs = [pair for pair in combinations(corners, 2) if any(abs(math.dist(*pair) - one) < 1.0 for one in lengths)]
        sides = {frozenset(side) for side in pairwise((*corners, corners[0]))}
        across = [pair for pair in pairs if frozenset(pair) not in sides]
        if len(across) != len(lengths):
            return
        for start, end in across:
            p, q = sorted((self.at(start), self.at(end)))
            length = min(lengths, key=lambda one: abs(one - math.dist(start, end)))
            figure = _length(p, q, length)
            half = width(figure.text, DIAGONAL, "bold") / 2 / math.dist(p, q)
            self.figures.append(LineString([_between(p, q, ALONG - half), _between(p, q, ALONG + half)]))
            yield Stroke(points=(p, q), pen="hidden", layer="dimension")
            yield figure

    def letters(self, desk: Desk) -> Iterator[Item]:
        """A letter beside each board, outside of the frame where there is room."""
        taken: list[Vec2] = []
        for name, shape in self.shapes.items():
            for place in self._places(shape):
                if self._free(place, taken):
                    taken.append(place)
                    yield Text(
                        at=place, text=desk.marks[name], size=NAME, weight="bold", anchor="middle", ground=0.6,
                        owner=name,
                    )  # fmt: skip
                    break

    def _free(self, place: Vec2, taken: Sequence[Vec2]) -> bool:
        """Whether a letter there stands clear of the other letters and of the diagonals' figures."""
        middle = (place[0], place[1] - NAME / 2)
        return all(abs(place[0] - p) > APART[0] or abs(place[1] - q) > APART[1] for p, q in taken) and all(
            figure.distance(Point(middle)) > FIGURE_ROOM for figure in self.figures
        )

    def _places(self, shape: BaseGeometry) -> Iterator[Vec2]:
        (x, y), (left, low) = self.at((shape.centroid.x, shape.centroid.y)), self.at(shape.bounds[:2])
        right, top = self.at(shape.bounds[2:])
        level = right - left >= low - top
        beside = (
            [(x, top - 2.0), (x, low + NAME + 2.0)]
            if level
            else [(left - 4.0, y + NAME / 2), (right + 4.0, y + NAME / 2)]
        )
        beside.sort(key=lambda p: -math.dist(p, self.middle))
        yield from beside
        yield from ((p + dx, q + dy) for dx, dy in ELSEWHERE for p, q in beside)


def _length(p: Vec2, q: Vec2, length: float) -> Text:
    """A diagonal's figure, on it, nearer to its left end."""
    turn = -math.degrees(math.atan2(q[1] - p[1], q[0] - p[0]))
    angle, drop = math.radians(turn), DIAGONAL / 2
    x, y = _between(p, q, ALONG)
    base = (x + drop * math.sin(angle), y + drop * math.cos(angle))
    return Text(at=base, text=position(length), size=DIAGONAL, weight="bold", anchor="middle", turn=turn, ground=0.8)


def _between(p: Vec2, q: Vec2, share: float) -> Vec2:
    return p[0] + (q[0] - p[0]) * share, p[1] + (q[1] - p[1]) * share
