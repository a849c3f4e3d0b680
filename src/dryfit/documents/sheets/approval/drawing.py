"""The piece as the client sees it: from the room and from the left, in its place, with its sizes over all."""

from collections.abc import Callable, Iterator, Mapping, Sequence
from itertools import pairwise

from shapely import LinearRing, Polygon, box, line_merge, unary_union
from shapely.geometry.base import BaseGeometry

from ....geometry.frames import Vec, Vec2
from ....geometry.sections import polygons
from ....geometry.shapes import rim_of
from ....studies.driving.result import Driving, LookedFrom
from ...display import STEPS, Item, Stroke, Text, extent
from ...kit import dimension
from ...kit.dimension import UnplacedDimension, plain
from ...kit.placing import FilledPaper
from ...looks import Desk
from ...naming import LEAST, position
from ...standard import SMALL, STEP, TEXT
from ..page.picture import Picture
from .place import PlaceInRoom, RoomStretch

BESIDE = 8 * TEXT  # between the two views, for the figures there
RIM = 2 * STEPS  # points of a ring
BESIDE_EDGE = 0.1  # mm of the piece: a ring that runs along the edge of what is seen is seen
OVER = 2 * TEXT  # of the floor past what stands on it
FROM_THE_ROOM, FROM_THE_LEFT = "from the room", "from the left"


class ApprovalDrawing:
    """Both views on paper at one scale, on one floor; from (0, 0), the world's origin of the first, to all sides."""

    def __init__(self, desk: Desk, place: PlaceInRoom, scale: float) -> None:
        self.desk, self.place, self.scale = desk, place, scale
        self.across, self.up, self.out = place.across.drawn, place.up.drawn, place.out.drawn
        self.front = Picture(scale, 0.0, 0.0)
        self.side = Picture(scale, self.across.ends * scale + BESIDE - self.out.begins * scale, 0.0)
        self.paper = FilledPaper(over_own=True)
        self.paper.draw(self._wood())
        self.paper.draw(self._room())
        for one in self._dimensions():
            dimension.put(self.paper, one)
        self.paper.draw(self._titles())

    @property
    def items(self) -> list[Item]:
        """All that is drawn."""
        return list(self.paper.items)

    # --- wood ------------------------------------------------------------------------------------

    def _wood(self) -> Iterator[Item]:
        pen = "balloon" if self.scale >= SMALL else "break"
        front, side = self.desk.visible, dict(self._from_the_left())
        for picture, seen in ((self.front, front), (self.side, side)):
            for name, area in seen.items():
                yield from picture.outlines(area, pen, "wood", name)
        yield from self._rings(self.front, "front", front, lambda p: (p[0], p[1]))
        yield from self._rings(self.side, "left", side, lambda p: (p[2], p[1]))

    def _rings(
        self,
        picture: Picture,
        looked_from: LookedFrom,
        seen: Mapping[str, BaseGeometry],
        flat: Callable[[Vec], Vec2],
    ) -> Iterator[Stroke]:
        """Around each plug or open screw hole that is seen from a side, as far as it is seen in the drawing."""
        found = self.desk.book.found(Driving)
        for mouth in found.mouths if found is not None else ():
            if looked_from in mouth.seen_from and mouth.board in seen:
                ring = LinearRing([flat(p) for p in rim_of(mouth.at, mouth.out, mouth.normal, mouth.wide, RIM)])
                wood = unary_union([Polygon(piece.exterior) for piece in polygons(seen[mouth.board])])
                for line in _lines(ring.intersection(wood.buffer(BESIDE_EDGE))):
                    points = tuple(map(picture.at, line))
                    yield Stroke(points=points, pen="dimension", layer="rings", owner=mouth.board)

    def _from_the_left(self) -> Iterator[tuple[str, BaseGeometry]]:
        """What is seen of each board from the left, in z and y: less what stands nearer."""
        shapes = {name: area for name, area in self.desk.elevations.items() if not area.is_empty}
        nearer: BaseGeometry = Polygon()
        for name in sorted(shapes, key=lambda one: (shapes[one].bounds[0], one)):
            board, (_, low, _, high) = self.desk.looks[name].part.board, shapes[name].bounds
            area = box(board.back, low, board.front, high)
            yield name, area.difference(nearer)
            nearer = unary_union([nearer, area])

    # --- the room --------------------------------------------------------------------------------

    def _room(self) -> Iterator[Item]:
        """Floor, ends of the wall and ceiling where they are known; the wall itself from the left."""
        left, right, floor, ceiling = self.across.start, self.across.stop, self.up.start, self.up.stop
        head, foot = self.up.ends, self.up.begins
        over = OVER / self.scale
        ends = (
            self.across.begins - (over if left is None else 0.0),
            self.across.ends + (over if right is None else 0.0),
        )
        for level in (floor, ceiling):
            if level is not None:
                yield self._line(self.front, (ends[0], level), (ends[1], level))
        for x in (left, right):
            if x is not None:
                yield self._line(self.front, (x, foot), (x, head))
        back = self.out.begins
        far = self.out.ends + over
        for level in (floor, ceiling):
            if level is not None:
                yield self._line(self.side, (back, level), (far, level))
        if self.out.start is not None:
            yield self._line(self.side, (back, foot), (back, head))

    def _line(self, picture: Picture, start: Vec2, end: Vec2) -> Stroke:
        return Stroke(points=(picture.at(start), picture.at(end)), pen="outline", layer="room")

    # --- figures ---------------------------------------------------------------------------------

    def _dimensions(self) -> Iterator[UnplacedDimension]:
        foot, left = self.up.begins, self.across.begins
        yield from _along(self.across, self.place.across, lambda x: self.front.at((x, foot)), (1.0, 0.0), -1)
        yield from _along(self.up, self.place.up, lambda y: self.front.at((left, y)), (0.0, -1.0), 1)
        yield from _along(self.out, self.place.out, lambda z: self.side.at((z, foot)), (1.0, 0.0), -1)

    def _titles(self) -> Iterator[Item]:
        """What each view is, under it."""
        base = extent(self.paper.items).bottom + STEP
        for picture, stretch, says in ((self.front, self.across, FROM_THE_ROOM), (self.side, self.out, FROM_THE_LEFT)):
            middle = picture.at(((stretch.begins + stretch.ends) / 2, 0.0))[0]
            yield Text(at=(middle, base), text=says, weight="semibold", anchor="middle")


def _lines(found: BaseGeometry) -> Iterator[Sequence[Vec2]]:
    """The lines of what is left of one, joined where they go on."""
    joined = line_merge(found) if hasattr(found, "geoms") else found
    for one in getattr(joined, "geoms", (joined,)):
        if one.length > 0.0:
            yield [(x, y) for x, y, *_ in one.coords]


def _along(
    drawn: RoomStretch, whole: RoomStretch, at: Callable[[float], Vec2], way: Vec2, side: int
) -> Iterator[UnplacedDimension]:
    """The piece, what is free beside it, and outside of these the room."""
    figures = whole.figures()
    places = (drawn.start, drawn.low, drawn.high, drawn.stop)
    for (start, end), figure in zip(pairwise(places), (figures.before, figures.size, figures.behind), strict=True):
        if start is not None and end is not None and figure is not None and figure > LEAST:
            yield plain(at(start), at(end), position(figure), side, way=way)
    if drawn.start is not None and drawn.stop is not None and figures.whole is not None:
        yield plain(at(drawn.start), at(drawn.stop), position(figures.whole), side, way=way, weight="regular")
