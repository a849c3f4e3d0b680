"""The wood of all parts as convex pieces where they stand, found again near an axis out of the wall, or on a ray.

Boards that lie across the wall are upright prisms along the world's z; all else is taken by its faces. Bores are left
as wood. Lengths in mm.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

import shapely

from ...geometry.bodies import Faces, PartShape, Slab, clipped, faces_of, normal_of, pieces_of
from ...geometry.frames import Frame, Vec, Vec2, dot
from ...geometry.polygons import distance

CONTACT = 0.02  # of penetration is contact, as in the clash check
ROUND = 64  # sides of the polygon around a circle, where no outline tells how near a piece comes
NEAR_EYE = 1.0  # nearer to an eye's own plane nothing is drawn together for it


@dataclass(frozen=True, slots=True)
class ConvexBody:
    """A convex piece of a part, in the world.

    Attributes:
        outline: in (x, y), of one that stands upright along z; None of any other.
        low, high: out of the wall.
        planes: (outward normal, its offset) of each face.
    """

    part: str
    faces: Faces
    outline: tuple[Vec2, ...] | None
    low: float
    high: float
    planes: tuple[tuple[Vec, float], ...]

    @property
    def xy(self) -> list[Vec2]:
        """Its corners in the elevation."""
        return [(x, y) for face in self.faces for x, y, _ in face]

    def along_z(self, at: Vec2, radius: float) -> tuple[float, float] | None:
        """From where to where out of the wall it stands in a cylinder along z; None where it is beside it."""
        if self.outline is not None:
            within = distance(self.outline, at) < radius - CONTACT
            return (self.low, self.high) if within else None
        left = self.faces
        for number in range(ROUND):
            turn = 2 * math.pi * number / ROUND
            normal = (math.cos(turn), math.sin(turn), 0.0)
            point = (at[0] + (radius - CONTACT) * normal[0], at[1] + (radius - CONTACT) * normal[1], 0.0)
            inside = clipped(left, point, normal)
            if inside is None:
                return None
            left = inside
        zs = [z for face in left for *_, z in face]
        return min(zs), max(zs)

    def within(self, start: Vec, way: Vec) -> float:
        """How much of a line, from `start` on by `way` and no further, lies in it."""
        first, last = 0.0, 1.0
        for normal, offset in self.planes:
            speed, height = dot(normal, way), dot(normal, start) - offset
            if abs(speed) < 1e-12:
                if height >= 0.0:
                    return 0.0
            elif speed > 0.0:
                last = min(last, -height / speed)
            else:
                first = max(first, -height / speed)
        return max(last - first, 0.0) * math.hypot(*way)


def bodies(parts: Iterable[PartShape]) -> list[ConvexBody]:
    """All parts in convex pieces."""
    return [body for part in parts for body in _bodies(part)]


def _bodies(part: PartShape) -> Iterator[ConvexBody]:
    slabs, solids = pieces_of(part.outline, part.depth, part.shapes)
    upright = abs(part.frame.z[2] - 1.0) < 1e-12
    for slab in slabs:
        outline = _outline(slab, part.frame) if upright else None
        yield _body(part.name, _placed(faces_of(slab), part.frame), outline)
    for solid in solids:
        yield _body(part.name, _placed(solid, part.frame), None)


def _outline(slab: Slab, frame: Frame) -> tuple[Vec2, ...]:
    return tuple(frame.place((a, c, 0.0))[:2] for a, c in slab.outline)


def _placed(faces: Faces, frame: Frame) -> Faces:
    return tuple(tuple(map(frame.place, face)) for face in faces)


def _body(part: str, faces: Faces, outline: tuple[Vec2, ...] | None) -> ConvexBody:
    zs = [z for face in faces for *_, z in face]
    planes = tuple((normal, dot(normal, face[0])) for face in faces for normal in [normal_of(face)])
    return ConvexBody(part=part, faces=faces, outline=outline, low=min(zs), high=max(zs), planes=planes)


class WoodAhead:
    """Bodies by their places in the elevation."""

    def __init__(self, every: Sequence[ConvexBody]) -> None:
        self._bodies = every
        self._tree = shapely.STRtree([shapely.box(*_extent(body.xy)) for body in every])

    def near(self, at: Vec2, radius: float, front: float) -> Iterator[ConvexBody]:
        """Those whose box comes nearer than a radius to an axis along z, in front of a place out of the wall."""
        (x, y), found = at, self._tree
        for number in sorted(found.query(shapely.box(x - radius, y - radius, x + radius, y + radius)).tolist()):
            body = self._bodies[number]
            if body.high > front + CONTACT:
                yield body


class AlongAxis:
    """Bodies by their places square to an axis of the world, 0 to 2."""

    def __init__(self, every: Sequence[ConvexBody], axis: int) -> None:
        self._every = every
        self._first, self._second = (number for number in range(3) if number != axis)
        boxes = [_extent([self._flat(point) for face in body.faces for point in face]) for body in every]
        self._tree = shapely.STRtree([shapely.box(*box) for box in boxes])

    def _flat(self, point: Vec) -> Vec2:
        return point[self._first], point[self._second]

    def near(self, point: Vec, reach: float = 0.0) -> Iterator[ConvexBody]:
        """Those whose box a line along the axis meets, or comes as near to."""
        x, y = self._flat(point)
        for number in sorted(self._tree.query(shapely.box(x - reach, y - reach, x + reach, y + reach)).tolist()):
            yield self._every[number]


class Eyesight:
    """Bodies as they lie before one eye, drawn together on a plane square to the wall's way out."""

    def __init__(self, every: Sequence[ConvexBody], eye: Vec) -> None:
        self.eye = eye
        self._every = every
        self._beside = [body for body in every if body.high > eye[2] - NEAR_EYE]
        self._before = [body for body in every if body.high <= eye[2] - NEAR_EYE]
        seen = [[self._drawn(point) for face in body.faces for point in face] for body in self._before]
        self._tree = shapely.STRtree([shapely.box(*_extent(points)) for points in seen])

    def _drawn(self, point: Vec) -> Vec2:
        x, y, z = self.eye
        return (point[0] - x) / (z - point[2]), (point[1] - y) / (z - point[2])

    def between(self, point: Vec) -> str | None:
        """The part that hides a point from the eye, of several the nearest to the point by name of the first met."""
        way = (point[0] - self.eye[0], point[1] - self.eye[1], point[2] - self.eye[2])
        return next((body.part for body in self._on(point) if body.within(self.eye, way) > CONTACT), None)

    def _on(self, point: Vec) -> Iterator[ConvexBody]:
        if point[2] > self.eye[2] - NEAR_EYE:
            yield from self._every
            return
        yield from self._beside
        for number in sorted(self._tree.query(shapely.Point(self._drawn(point))).tolist()):
            yield self._before[number]


def _extent(points: Sequence[Vec2]) -> tuple[float, float, float, float]:
    xs, ys = zip(*points, strict=True)
    return min(xs), min(ys), max(xs), max(ys)
