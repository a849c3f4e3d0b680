"""Where a cut's exact shape meets a flat patch of a board: the sums under `views`.

A patch is a piece of a plane in the board's frame, with its own two coordinates: the point (u, v) lies at
origin + u U + v V. U need not be a unit vector, so that on a board whose thickness changes the face keeps
`a` for its first coordinate. Every section is worked out from the shape's own numbers, never from a mesh;
only round outlines are taken as chords, no further than 0.005 from the arc.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from shapely import MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from .frames import Frame, Vec, Vec2, cross, dot
from .shapes import Bore, HalfSpace, Knot, Prism, Shape

CHORD = 0.005  # greatest distance of a chord from its arc
FAR = 1e6  # beyond any board
TOUCH = 1e-6  # nearer than this counts as on a surface: cuts are rounded to 1e-6
PARALLEL = 1e-9  # below this sine two directions count as parallel: 1e-4 mm over the longest job (100 m)


@dataclass(frozen=True, slots=True)
class Patch:
    """A piece of a plane; `region` bounds it in (u, v)."""

    origin: Vec
    u: Vec
    v: Vec
    region: Polygon

    def place(self, p: Vec2) -> Vec:
        """The point (u, v), in the board's frame."""
        o, u, v = self.origin, self.u, self.v
        return (
            o[0] + p[0] * u[0] + p[1] * v[0],
            o[1] + p[0] * u[1] + p[1] * v[1],
            o[2] + p[0] * u[2] + p[1] * v[2],
        )


def section(shape: Shape, patch: Patch) -> BaseGeometry:
    """What of the patch's region lies in the shape, in (u, v)."""
    if _far(shape, patch):  # as most cuts are from most surfaces
        return Polygon()
    match shape:
        case HalfSpace():
            whole: BaseGeometry = _beyond(shape, patch)
        case Prism():
            whole = _through_prism(shape, patch)
        case Bore():
            whole = Polygon()
            for step in bore_steps(shape):
                whole = whole.union(_through_prism(step, patch))
    return whole.intersection(patch.region)


def _far(shape: Shape, patch: Patch) -> bool:
    """Whether the level boxes around the two lie apart."""
    left, low, right, high = patch.region.bounds
    corners = [patch.place(p) for p in ((left, low), (left, high), (right, low), (right, high))]
    around = zip(_spread(shape), zip(*corners, strict=True), strict=False)  # nothing is known of a half-space's
    return any(first > max(there) + 2 * TOUCH or last < min(there) - 2 * TOUCH for (first, last), there in around)


@lru_cache(maxsize=1024)  # each is asked for by all surfaces of its board
def _spread(shape: Shape) -> tuple[Vec2, ...]:
    """From where to where a shape reaches along each of the board's directions; nothing of a half-space."""
    return tuple((min(along), max(along)) for along in zip(*vertices(shape), strict=True))


def polygons(area: BaseGeometry) -> Iterator[Polygon]:
    """The polygons of any flat answer; lines and points, which have no area, are left out."""
    if isinstance(area, Polygon):
        if not area.is_empty and area.area > 1e-9:
            yield area
    elif isinstance(area, MultiPolygon) or hasattr(area, "geoms"):
        for part in area.geoms:
            yield from polygons(part)


def vertices(shape: Shape) -> list[Vec]:
    """The corners of a prism or of the steps of a bore, in the board's frame; none for a half-space."""
    match shape:
        case HalfSpace():
            return []
        case Prism():
            low = chords(shape.outline)
            high = chords(shape.outline_high) if shape.outline_high else low
            ends = ((low, shape.low), (high, shape.high))
            return [shape.frame.place((x, y, z)) for points, z in ends for x, y in points]
        case Bore():
            return [point for step in bore_steps(shape) for point in vertices(step)]


def chords(outline: tuple[Knot, ...]) -> list[Vec2]:
    """An outline's corners, arcs replaced by points on them."""
    points: list[Vec2] = []
    for (x0, y0, bulge), (x1, y1, _) in zip(outline, outline[1:] + outline[:1], strict=True):
        points.append((x0, y0))
        if bulge:
            points += _on_arc((x0, y0), (x1, y1), bulge)
    return points


@lru_cache(maxsize=64)  # a job's bores have few diameters
def _on_arc(p: Vec2, q: Vec2, bulge: float) -> tuple[Vec2, ...]:
    """Points between the ends of an arc; `bulge` is tan(arc / 4), positive to the right of p to q."""
    turn = 4 * math.atan(bulge)
    half = math.dist(p, q) / 2
    radius = half / abs(math.sin(turn / 2))
    step = 2 * math.acos(max(1 - CHORD / radius, 0.0))
    count = 2 * max(1, math.ceil(abs(turn) / step / 2))  # even, so that the arc's top is one of the points
    off = half / math.tan(turn / 2)  # of the centre, to the left of p to q
    dx, dy = (q[0] - p[0]) / (2 * half), (q[1] - p[1]) / (2 * half)
    cx, cy = (p[0] + q[0]) / 2 - dy * off, (p[1] + q[1]) / 2 + dx * off
    start = math.atan2(p[1] - cy, p[0] - cx)
    angles = (start + turn * i / count for i in range(1, count))
    return tuple((cx + radius * math.cos(angle), cy + radius * math.sin(angle)) for angle in angles)


def bore_steps(bore: Bore) -> Iterator[Prism]:
    """Each step of a bore, run out past its surfaces, as a prism of many sides along its axis."""
    z = bore.direction
    aside: Vec = (1.0, 0.0, 0.0) if abs(z[0]) < 0.9 else (0.0, 1.0, 0.0)
    y = cross(z, aside)
    size = math.sqrt(dot(y, y))
    y = (y[0] / size, y[1] / size, y[2] / size)
    frame = Frame(bore.start, cross(y, z), y, z)
    for (low, diameter), (high, _) in pairwise(bore.run_out):
        r = diameter / 2
        yield Prism(outline=((-r, 0.0, 1.0), (r, 0.0, 1.0)), low=low, high=high, frame=frame)


def _beyond(half: HalfSpace, patch: Patch) -> Polygon:
    """The part of a plane beyond another plane: a very large polygon."""
    n, p = half.normal, half.point
    o = patch.origin
    rest = dot(n, (p[0] - o[0], p[1] - o[1], p[2] - o[2]))
    along, up = dot(n, patch.u), dot(n, patch.v)
    size = math.hypot(along, up)
    if size < PARALLEL:
        return _square((0.0, 0.0), (1.0, 0.0)) if rest < -TOUCH else Polygon()
    along, up, rest = along / size, up / size, rest / size
    foot = (along * (rest + FAR), up * (rest + FAR))
    return _square(foot, (along, up))


def _square(middle: Vec2, side: Vec2) -> Polygon:
    (x, y), (p, q) = middle, (side[0] * FAR, side[1] * FAR)
    return Polygon([(x - p + q, y - q - p), (x + p + q, y + q - p), (x + p - q, y + q + p), (x - p - q, y - q + p)])


def _through_prism(shape: Prism, patch: Patch) -> BaseGeometry:
    """The patch in the prism's frame is (X, Y, Z), each of them straight in u and v."""
    origin = shape.frame.find(patch.origin)
    u, v = shape.frame.find_direction(patch.u), shape.frame.find_direction(patch.v)
    across = u[0] * v[1] - u[1] * v[0]
    if abs(across) > PARALLEL * math.sqrt(dot(u, u) * dot(v, v)):
        return _over_outline(shape, origin, u, v)
    return _along_sweep(shape, origin, u, v)


def _over_outline(shape: Prism, origin: Vec, u: Vec, v: Vec) -> BaseGeometry:
    """A plane that crosses the sweep: each knot's line pierces it once."""
    low = chords(shape.outline)
    high = chords(shape.outline_high) if shape.outline_high else low
    corners = []
    for (x0, y0), (x1, y1) in zip(low, high, strict=True):
        kx, ky = (x1 - x0) / (shape.high - shape.low), (y1 - y0) / (shape.high - shape.low)
        rows = (
            (u[0] - kx * u[2], v[0] - kx * v[2], x0 - kx * shape.low - origin[0] + kx * origin[2]),
            (u[1] - ky * u[2], v[1] - ky * v[2], y0 - ky * shape.low - origin[1] + ky * origin[2]),
        )
        corners.append(_solved(*rows))
    area = Polygon(corners)
    return _between(area if area.is_valid else area.buffer(0), shape, origin, u, v)


def _between(area: BaseGeometry, shape: Prism, origin: Vec, u: Vec, v: Vec) -> BaseGeometry:
    """What of an area lies where low <= Z <= high."""
    size = math.hypot(u[2], v[2])
    if size < PARALLEL:
        return area if shape.low - TOUCH <= origin[2] <= shape.high + TOUCH else Polygon()
    p, q = u[2] / size, v[2] / size
    near, far = (shape.low - origin[2]) / size, (shape.high - origin[2]) / size
    corners = [(-q * FAR, p * FAR), (q * FAR, -p * FAR)]
    ends = ((near, corners), (far, corners[::-1]))
    return area.intersection(Polygon([(p * at + x, q * at + y) for at, pair in ends for x, y in pair]))


def _along_sweep(shape: Prism, origin: Vec, u: Vec, v: Vec) -> BaseGeometry:
    """A plane that holds the sweep's direction meets the outline in a line: bands between its crossings."""
    along = max((u, v), key=lambda w: math.hypot(w[0], w[1]))
    size = math.hypot(along[0], along[1])
    if size < PARALLEL:
        return Polygon()
    line = (along[0] / size, along[1] / size)
    start = (origin[0], origin[1])
    low = _crossings(chords(shape.outline), start, line)
    high = _crossings(chords(shape.outline_high), start, line) if shape.outline_high else low
    lean_u, lean_v = u[0] * line[0] + u[1] * line[1], v[0] * line[0] + v[1] * line[1]

    def at(s: float, z: float) -> Vec2:
        return _solved((lean_u, lean_v, s), (u[2], v[2], z - origin[2]))

    whole: BaseGeometry = Polygon()
    for (low0, low1), (high0, high1) in zip(low, high, strict=False):
        z0, z1 = shape.low, shape.high
        whole = whole.union(Polygon([at(low0, z0), at(low1, z0), at(high1, z1), at(high0, z1)]))
    return whole


def _crossings(points: list[Vec2], start: Vec2, line: Vec2) -> list[Vec2]:
    """Stretches of a line inside an outline, as distances from `start`."""
    off = [(x - start[0]) * -line[1] + (y - start[1]) * line[0] for x, y in points]
    on = [(x - start[0]) * line[0] + (y - start[1]) * line[1] for x, y in points]
    places = []
    for i in range(len(points)):
        j = (i + 1) % len(points)
        if (off[i] > 0) != (off[j] > 0):
            places.append(on[i] + (on[j] - on[i]) * off[i] / (off[i] - off[j]))
    places.sort()
    return list(zip(places[::2], places[1::2], strict=True))


def _solved(first: Vec, second: Vec) -> Vec2:
    """Solve two equations p u + q v = r, each given as (p, q, r)."""
    (a, b, e), (c, d, f) = first, second
    whole = a * d - b * c
    return ((e * d - b * f) / whole, (a * f - e * c) / whole)
