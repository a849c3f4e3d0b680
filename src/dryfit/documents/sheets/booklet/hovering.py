"""One step of the booklet drawn: what lies there in thin lines, what comes in thick, grey, hovering over its place."""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from shapely import LineString, box, transform, union_all
from shapely.geometry.base import BaseGeometry

from ....geometry.frames import NEAR, Vec, Vec2
from ....geometry.sections import polygons
from ...axonometric import HERE, DrawnScene, Lying
from ...display import Area, Item, Stroke, Strokes
from ...kit.placing import FilledPaper
from ...looks import Desk
from ...standard import A4, CAPTION, CARD, HEAVY, NAME, PAST, THICK
from .acts import shown_offset
from .pages import BookletPage

SPECK = THICK  # shorter glimpses between two walls are left out
HEAD, SHAFT, WING, LONG = NAME, HEAVY, CAPTION, CARD  # of an arrow: SHAFT and WING from its middle
SHARES = 8  # of the length of what comes in, at which its arrows are looked for
FARTHEST = A4[0] / 4  # from the middle of what comes in to its arrow
END_ON = 0.1  # of a way: the share of it that is seen, below which it is none on paper
Room = tuple[float, float, float, float]


@dataclass
class Hovering:
    """What is there, what comes in and how far from its place; where all that lies on the sheet once it is `fitted`.

    Attributes:
        loose: small pieces that are let in, each with how far off its place it is drawn.
        behind: bodies of the view that are no parts and stand behind them all, as a wall does.
    """

    desk: Desk
    view: Lying
    page: BookletPage
    scale: float = 1.0
    x0: float = 0.0
    y0: float = 0.0
    loose: Mapping[str, Vec] = field(default_factory=dict)
    behind: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        deepest = max(board.depth for board in self.desk.book.piece.boards)
        self.incoming, self.step = self.page.incoming, self.page.step
        self.offset: Vec = shown_offset(self.step, deepest) if self.step and self.step.legs else HERE
        there = set(self.page.there).difference(self.incoming)
        self.away = {**dict.fromkeys(self.incoming, self.offset), **self.loose}
        self.scene = DrawnScene(there=there, away=self.away)

    # --- where it lies -------------------------------------------------------------------------

    def fit(self, rooms: Sequence[Room]) -> int:
        """As large as it goes into one of these rooms; which one that is."""
        boxes = [self.view.boxes[name] for name in (*self.scene.there, *self.behind)]
        boxes += [self.view.box(name, offset) for name, offset in self.away.items()]
        left, low, right, high = union_all([box(*one) for one in boxes]).bounds
        best, chosen = 0.0, 0
        for number, (x0, y0, x1, y1) in enumerate(rooms):
            scale = min((x1 - x0) / (right - left), (y1 - y0) / (high - low))
            if scale > best + NEAR:
                best, chosen, self.scale = scale, number, scale
                self.x0 = (x0 + x1 - (left + right) * scale) / 2
                self.y0 = (y0 + y1 + (low + high) * scale) / 2
        self.extent: Room = (*self.at((left, high)), *self.at((right, low)))
        return chosen

    def leaves(self, room: Room) -> bool:
        """Whether a room on the sheet is free of wood, with some air for letters."""
        scale, shift = [self.scale, -self.scale], [self.x0, self.y0]
        air = box(*room).buffer(NAME)
        shapes = [self.view.flat[name].whole for name in (*self.scene.there, *self.behind)]
        shapes += [self.view.silhouette(name, offset) for name, offset in self.away.items()]
        return not any(transform(shape, lambda points: points * scale + shift).intersects(air) for shape in shapes)

    @cached_property
    def wood(self) -> BaseGeometry:
        """The outline of what comes in, on the sheet."""
        scale, shift = [self.scale, -self.scale], [self.x0, self.y0]
        whole = union_all([self.view.silhouette(name, self.offset) for name in self.incoming])
        return transform(whole, lambda points: points * scale + shift)

    def at(self, p: Vec2) -> Vec2:
        """A place of the picture, on the sheet."""
        return self.x0 + p[0] * self.scale, self.y0 - p[1] * self.scale

    def world(self, p: Vec) -> Vec2:
        """A place in the world, on the sheet."""
        return self.at(self.view.camera.at(p))

    # --- wood ------------------------------------------------------------------------------------

    def draw(self, paper: FilledPaper) -> None:
        """What comes in on its grey, on which no letter of another stands; arrows beside it."""
        paper.draw(area for name in self.away for area in self._grey(name))
        paper.draw_picture(self._drawn())
        if self.step and self.step.legs:
            self._point(paper, self.step.legs[0].direction)

    def _drawn(self) -> Iterator[Item]:
        """What lies there, the ways down, what comes in."""
        for name in (*self.behind, *self.page.there):
            yield from self._lines(name, "break")
        for key in self.step.joints if self.step and self.step.legs else ():
            place = self.desk.book.piece.joint_by_key[key].meeting.frame.origin
            points = (self.world(moved(place, self.offset)), self.world(place))
            yield Stroke(points=points, pen="hidden small", layer="way")
        for name in self.incoming:
            yield from self._lines(name, "incoming")
        for name in self.loose:
            yield from self._lines(name, "break")

    def _lines(self, name: str, pen: str) -> Iterator[Item]:
        seen = self.view.visible(name, self.scene) * [self.scale, -self.scale] + [self.x0, self.y0]
        sizes = np.hypot(*(seen[:, 1] - seen[:, 0]).T)
        segments = tuple(((x, y), (p, q)) for (x, y), (p, q) in seen[sizes >= SPECK].tolist())
        if segments:
            yield Strokes(segments=segments, pen=pen, layer="wood", owner=name)

    def _grey(self, name: str) -> Iterator[Item]:
        """A body that comes in, less what stands before it."""
        offset = self.away[name]
        shape = self.view.silhouette(name, offset)
        near = set(self.view.near_body(name, offset))
        for other in self.page.there:
            if other in near and self.view.flat[other].whole.intersects(shape):
                shape = shape.difference(self.view.before(other, HERE, name, offset))
        for piece in polygons(shape):
            rings = (piece.exterior, *piece.interiors)
            loops = tuple(tuple(self.at((x, y)) for x, y in ring.coords[:-1]) for ring in rings)
            yield Area(loops=loops, ink="grey", layer="wood", owner=name)

    # --- arrows ----------------------------------------------------------------------------------

    def _point(self, paper: FilledPaper, direction: Vec) -> None:
        """Solid arrows near both ends of what comes in, the way it goes; one where both would point to one place."""
        (ox, oy), (px, py) = self.view.camera.at(HERE), self.view.camera.at(direction)
        size = math.hypot(px - ox, py - oy)
        if size < END_ON:
            return
        way = ((px - ox) / size, -(py - oy) / size)
        inwards, feet = range(1, SHARES // 2), list[Vec2]()
        for shares in (inwards, [SHARES - share for share in inwards]):
            for foot in (self._foot(share / SHARES, way) for share in shares):
                apart = all(math.dist(foot, other) > LONG for other in feet)
                if apart and paper.place([[_arrow(foot, way, self.incoming[0])]]):
                    feet.append(foot)
                    break

    def _foot(self, share: float, way: Vec2) -> Vec2:
        """Just past the outline of what comes in, along the way it goes, at a share of its length."""
        part = self.desk.looks[self.incoming[0]].part
        low, high = part.long
        middle = part.board.frame.place((low + (high - low) * share, 0.0, part.board.depth / 2))
        (px, py), (wx, wy) = self.world(moved(middle, self.offset)), way
        past = LineString([(px, py), (px + wx * FARTHEST, py + wy * FARTHEST)]).buffer(SHAFT).intersection(self.wood)
        ends = past.envelope.exterior.coords if past.area else ()
        along = max(((x - px) * wx + (y - py) * wy for x, y in ends), default=0.0)
        return px + wx * (min(along, FARTHEST) + PAST), py + wy * (min(along, FARTHEST) + PAST)


def moved(p: Vec, by: Vec) -> Vec:
    """A place, moved."""
    return p[0] + by[0], p[1] + by[1], p[2] + by[2]


def _arrow(start: Vec2, way: Vec2, owner: str) -> Area:
    """By its outline: along it, and beside its middle."""
    x, y = way
    neck = LONG - HEAD
    outline = ((0.0, SHAFT), (neck, SHAFT), (neck, WING), (LONG, 0.0), (neck, -WING), (neck, -SHAFT), (0.0, -SHAFT))
    points = tuple((start[0] + x * s - y * t, start[1] + y * s + x * t) for s, t in outline)
    return Area(loops=(points,), layer="way", owner=owner)
