"""One step of the booklet drawn: what lies there in thin lines, what comes in thick, grey, hovering over its place."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, field

from shapely import LineString, Point, box, transform
from shapely.geometry.base import BaseGeometry

from ....geometry.frames import Vec, Vec2
from ....geometry.sections import polygons
from ....studies.order import Step
from ...axonometric import Lying
from ...display import Area, Item, Stroke, Strokes
from ...looks import Desk
from .acts import shown_offset

NOWHERE: Vec = (0.0, 0.0, 0.0)
SPECK = 0.5  # mm on paper: shorter glimpses between two walls are left out
HEAD, SHAFT, WING, LONG = 4.5, 1.4, 2.0, 11.0  # of an arrow
FARTHEST = 40.0  # from the middle of what comes in to its arrow
Room = tuple[float, float, float, float]


@dataclass
class Hovering:
    """What is there, what comes in and how far from its place; where all that lies on the sheet once it is `fitted`.

    Attributes:
        taken: places where letters and arrows may not stand.
        inside: left, top, right, bottom of the sheet's free part.
    """

    desk: Desk
    view: Lying
    there: tuple[str, ...]
    incoming: tuple[str, ...]
    step: Step | None
    inside: Room
    taken: list[BaseGeometry] = field(default_factory=list)
    scale: float = 1.0
    x0: float = 0.0
    y0: float = 0.0

    def __post_init__(self) -> None:
        deepest = max(board.depth for board in self.desk.book.piece.boards)
        goes = self.step is not None and bool(self.step.legs)
        self.offset: Vec = shown_offset(self.step, deepest) if self.step and goes else NOWHERE
        self.moved = dict.fromkeys(self.there, NOWHERE) | dict.fromkeys(self.incoming, self.offset)
        self.flat = {name: self.view.silhouette(name, offset) for name, offset in self.moved.items()}

    # --- where it lies -------------------------------------------------------------------------

    def fit(self, rooms: Sequence[Room]) -> None:
        """As large as it goes into one of these rooms."""
        left, low = min(s.bounds[0] for s in self.flat.values()), min(s.bounds[1] for s in self.flat.values())
        right, high = max(s.bounds[2] for s in self.flat.values()), max(s.bounds[3] for s in self.flat.values())
        best = 0.0
        for x0, y0, x1, y1 in rooms:
            scale = min((x1 - x0) / (right - left), (y1 - y0) / (high - low))
            if scale > best:
                best = self.scale = scale
                self.x0 = x0 + ((x1 - x0) - (right - left) * scale) / 2 - left * scale
                self.y0 = y0 + ((y1 - y0) - (high - low) * scale) / 2 + high * scale
        self.wood = {name: self._on_paper(shape) for name, shape in self.flat.items()}

    def _on_paper(self, shape: BaseGeometry) -> BaseGeometry:
        return transform(shape, lambda points: points * [self.scale, -self.scale] + [self.x0, self.y0])

    def at(self, p: Vec2) -> Vec2:
        """A place of the picture, on the sheet."""
        return self.x0 + p[0] * self.scale, self.y0 - p[1] * self.scale

    def world(self, p: Vec) -> Vec2:
        """A place in the world, on the sheet."""
        return self.at(self.view.camera.at(p))

    def free(self, shape: BaseGeometry) -> bool:
        """Whether a letter or an arrow may stand there."""
        left, top, right, bottom = shape.bounds
        x0, y0, x1, y1 = self.inside
        return bool(left > x0 and right < x1 and top > y0 and bottom < y1) and self.clear(shape)

    def clear(self, shape: BaseGeometry) -> bool:
        """Whether nothing stands there yet."""
        return not any(shape.intersects(area) for area in self.taken)

    # --- wood ------------------------------------------------------------------------------------

    def drawn(self) -> Iterator[Item]:
        """Grey, what lies there, the ways down, what comes in, arrows."""
        for name in self.incoming:
            yield from self._grey(name)
        for name in self.there:
            yield from self._lines(name, "break")
        yield from self._drops()
        for name in self.incoming:
            yield from self._lines(name, "incoming")
        yield from self._arrows()

    def _lines(self, name: str, pen: str) -> Iterator[Item]:
        seen = [(self.at(p), self.at(q)) for p, q in self.view.visible(name, self.moved)]
        segments = tuple((p, q) for p, q in seen if math.dist(p, q) >= SPECK)
        if segments:
            yield Strokes(segments=segments, pen=pen, layer="wood", owner=name)

    def _grey(self, name: str) -> Iterator[Item]:
        """A body that comes in, less what stands before it."""
        shape = self.flat[name]
        for other in self.there:
            if self.flat[other].intersects(shape):
                shape = shape.difference(self.view.before(other, NOWHERE, name, self.offset))
        for piece in polygons(shape):
            rings = (piece.exterior, *piece.interiors)
            loops = tuple(tuple(self.at((x, y)) for x, y in ring.coords[:-1]) for ring in rings)
            yield Area(loops=loops, ink="grey", layer="wood", owner=name)

    def _drops(self) -> Iterator[Item]:
        """A dashed line from each joint of what comes in to its place."""
        if self.step is None or not self.step.legs:
            return
        for key in self.step.joints:
            x, y, z = self.desk.book.piece.joint_by_key[key].meeting.frame.origin
            dx, dy, dz = self.offset
            points = (self.world((x + dx, y + dy, z + dz)), self.world((x, y, z)))
            yield Stroke(points=points, pen="hidden small", layer="way")

    # --- arrows ----------------------------------------------------------------------------------

    def _arrows(self) -> Iterator[Item]:
        """Solid arrows beside what comes in, the way it goes."""
        if self.step is None or not self.step.legs:
            return
        (ox, oy), (px, py) = self.view.camera.at(NOWHERE), self.view.camera.at(self.step.legs[0].direction)
        size = math.hypot(px - ox, py - oy)
        if size < 0.1:
            return
        way = ((px - ox) / size, -(py - oy) / size)
        for share in (0.12, 0.88):
            start = next((p for p in self._feet(share, way) if self._take_arrow(p, way)), None)
            if start is not None:
                yield _arrow(start, way, self.incoming[0])

    def _feet(self, share: float, way: Vec2) -> Iterator[Vec2]:
        """Just past the outline of what comes in, along the way it goes, at places along its length."""
        part = self.desk.looks[self.incoming[0]].part
        low, high = part.long
        for nudge in (0.0, 0.06, -0.06, 0.12):
            a = low + (high - low) * min(max(share + nudge, 0.03), 0.97)
            x, y, z = part.board.frame.place((a, 0.0, part.board.depth / 2))
            px, py = self.world((x + self.offset[0], y + self.offset[1], z + self.offset[2]))
            ray = LineString([(px, py), (px + way[0] * FARTHEST, py + way[1] * FARTHEST)]).buffer(SHAFT)
            past = [ray.intersection(self.wood[name]) for name in self.incoming]
            ends = [p for shape in past if not shape.is_empty for p in shape.envelope.exterior.coords]
            along = max(((x - px) * way[0] + (y - py) * way[1] for x, y in ends), default=0.0)
            yield px + way[0] * (min(along, FARTHEST) + 2.0), py + way[1] * (min(along, FARTHEST) + 2.0)

    def _take_arrow(self, start: Vec2, way: Vec2) -> bool:
        tip = Point(start[0] + way[0] * (LONG + 1), start[1] + way[1] * (LONG + 1))
        shape = Point(start).buffer(2.5).union(tip.buffer(2.5)).convex_hull
        if not self.free(shape):
            return False
        self.taken.append(shape)
        return True

    def extent(self) -> Room:
        """Left, top, right, bottom of all wood on the sheet."""
        bounds = [shape.bounds for shape in self.wood.values()]
        left, top = min(b[0] for b in bounds), min(b[1] for b in bounds)
        return float(left), float(top), float(max(b[2] for b in bounds)), float(max(b[3] for b in bounds))

    def off_the_wood(self, left: float, top: float, right: float, bottom: float) -> bool:
        """Whether a box is free and on no wood; then it is taken."""
        area = box(left, top, right, bottom)
        if not self.free(area) or any(area.intersects(shape) for shape in self.wood.values()):
            return False
        self.taken.append(area)
        return True


def _arrow(start: Vec2, way: Vec2, owner: str) -> Area:
    x, y = way
    neck = (start[0] + x * (LONG - HEAD), start[1] + y * (LONG - HEAD))
    tip = (start[0] + x * LONG, start[1] + y * LONG)
    half = SHAFT / 2

    def beside(p: Vec2, by: float) -> Vec2:
        return p[0] - y * by, p[1] + x * by

    points = (
        beside(start, half), beside(neck, half), beside(neck, WING), tip,
        beside(neck, -WING), beside(neck, -half), beside(start, -half),
    )  # fmt: skip
    return Area(loops=(points,), layer="way", owner=owner)
