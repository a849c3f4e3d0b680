"""One step of the booklet drawn: what lies there in thin lines, what comes in thick, grey, hovering over its place."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from shapely import LineString, box, transform
from shapely.geometry.base import BaseGeometry

from ....geometry.frames import Vec, Vec2
from ....geometry.sections import polygons
from ....studies.order import Step
from ...axonometric import HERE, Lying, Scene
from ...display import Area, Item, Stroke, Strokes
from ...looks import Desk
from ..page.ground import Ground
from .acts import shown_offset

SPECK = 0.5  # mm on paper: shorter glimpses between two walls are left out
HEAD, SHAFT, WING, LONG = 4.5, 1.4, 2.0, 11.0  # of an arrow
AROUND = 2.5  # of room on all sides of an arrow
FARTHEST = 40.0  # from the middle of what comes in to its arrow
Room = tuple[float, float, float, float]


@dataclass
class Hovering:
    """What is there, what comes in and how far from its place; where all that lies on the sheet once it is `fitted`.

    Attributes:
        ground: the sheet's free part, and the places where letters and arrows may not stand.
    """

    desk: Desk
    view: Lying
    there: tuple[str, ...]
    incoming: tuple[str, ...]
    step: Step | None
    ground: Ground
    scale: float = 1.0
    x0: float = 0.0
    y0: float = 0.0

    def __post_init__(self) -> None:
        deepest = max(board.depth for board in self.desk.book.piece.boards)
        goes = self.step is not None and bool(self.step.legs)
        self.offset: Vec = shown_offset(self.step, deepest) if self.step and goes else HERE
        coming = set(self.incoming)
        there = {name for name in self.there if name not in coming}
        self.scene = Scene(there=there, away=dict.fromkeys(self.incoming, self.offset))

    # --- where it lies -------------------------------------------------------------------------

    def fit(self, rooms: Sequence[Room]) -> None:
        """As large as it goes into one of these rooms."""
        boxes = [self.view.boxes[name] for name in self.scene.there]
        boxes += [self.view.box(name, self.offset) for name in self.incoming]
        left, low = min(box[0] for box in boxes), min(box[1] for box in boxes)
        right, high = max(box[2] for box in boxes), max(box[3] for box in boxes)
        best = 0.0
        for x0, y0, x1, y1 in rooms:
            scale = min((x1 - x0) / (right - left), (y1 - y0) / (high - low))
            if scale > best:
                best = self.scale = scale
                self.x0 = x0 + ((x1 - x0) - (right - left) * scale) / 2 - left * scale
                self.y0 = y0 + ((y1 - y0) - (high - low) * scale) / 2 + high * scale
        self.extent: Room = (*self.at((left, high)), *self.at((right, low)))

    @cached_property
    def wood(self) -> dict[str, BaseGeometry]:
        """The outline of what comes in, on the sheet."""
        scale, shift = [self.scale, -self.scale], [self.x0, self.y0]
        shapes = {name: self.view.silhouette(name, self.offset) for name in self.incoming}
        return {name: transform(shape, lambda points: points * scale + shift) for name, shape in shapes.items()}

    def at(self, p: Vec2) -> Vec2:
        """A place of the picture, on the sheet."""
        return self.x0 + p[0] * self.scale, self.y0 - p[1] * self.scale

    def world(self, p: Vec) -> Vec2:
        """A place in the world, on the sheet."""
        return self.at(self.view.camera.at(p))

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
        seen = self.view.visible(name, self.scene) * [self.scale, -self.scale] + [self.x0, self.y0]
        sizes = np.hypot(*(seen[:, 1] - seen[:, 0]).T)
        segments = tuple(((x, y), (p, q)) for (x, y), (p, q) in seen[sizes >= SPECK].tolist())
        if segments:
            yield Strokes(segments=segments, pen=pen, layer="wood", owner=name)

    def _grey(self, name: str) -> Iterator[Item]:
        """A body that comes in, less what stands before it."""
        shape = self.view.silhouette(name, self.offset)
        near = set(self.view.near_body(name, self.offset))
        for other in self.there:
            if other in near and self.view.flat[other].whole.intersects(shape):
                shape = shape.difference(self.view.before(other, HERE, name, self.offset))
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
        (ox, oy), (px, py) = self.view.camera.at(HERE), self.view.camera.at(self.step.legs[0].direction)
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
        tip = (start[0] + way[0] * (LONG + 1), start[1] + way[1] * (LONG + 1))
        if not self.ground.free(start, tip, AROUND):
            return False
        self.ground.take(start, tip, AROUND)
        return True

    def off_the_wood(self, left: float, top: float, right: float, bottom: float) -> bool:
        """Whether a box is free and on no wood; then it is taken."""
        if not self.ground.free_box(left, top, right, bottom) or self._on_wood(left, top, right, bottom):
            return False
        self.ground.take_box(left, top, right, bottom)
        return True

    def _on_wood(self, left: float, top: float, right: float, bottom: float) -> bool:
        x0, x1 = ((x - self.x0) / self.scale for x in (left, right))
        y0, y1 = ((self.y0 - y) / self.scale for y in (bottom, top))
        area = box(x0, y0, x1, y1)
        near = [self.view.flat[name].whole for name in self.view.near(x0, y0, x1, y1) if name in self.scene.there]
        coming = [self.view.silhouette(name, self.offset) for name in self.incoming]
        return any(area.intersects(shape) for shape in (*near, *coming))


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
