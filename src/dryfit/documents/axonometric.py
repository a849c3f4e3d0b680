"""The piece as it lies on the bench, seen from above the foot: exact visible lines, no picture of a mesh.

It lies on its wall edges (or turned over, on its front ones), its foot near the reader. Parallel rays come from
`HIGH` degrees above the bench, turned sideways so far that no board is seen end on. What hides a line are the
convex pieces of the parts: along a line and a ray, being inside of a convex piece is a set of linear
inequalities, from which the hidden stretch of the line follows in one sum, for all lines and pieces together.
"""

import math
from collections.abc import Iterable, Mapping, Sequence, Set
from dataclasses import dataclass, field, replace
from functools import cached_property
from itertools import chain
from typing import Any, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely import Point
from shapely.geometry.base import BaseGeometry

from ..geometry.bodies import Faces, faces_of, normal_of, pieces_of
from ..geometry.frames import NEAR, Vec, Vec2, length
from ..geometry.shapes import Bore, Prism, Shape
from ..geometry.solids import mesh_of, solid_of
from ..lengths import WRITTEN
from ..piece.model import Part
from ..piece.parts import stock_of
from ..piece.solids import Solids
from .standard import RIGHT

HIGH = 56.0  # degrees above the bench
TURN = -19.0  # degrees sideways, or as near to it as suits all boards
CLEAR = 8.0  # degrees: a board nearer to the direction of looking is lost
SHARP = math.cos(math.radians(15.0))  # an edge between flatter faces is the facet of an arc
INSIDE = 0.02  # mm within a piece that count as inside: walls and seats only touch
AHEAD = 0.05  # mm in front of a line from where on things hide it
CHUNK = 6_000
TOUCHING = AHEAD  # mm of the piece: boxes are taken so much larger, as outlines and corners differ by a hair
HERE: Vec = (0.0, 0.0, 0.0)

Floats = NDArray[np.float64]
Box: TypeAlias = tuple[float, float, float, float]  # left, low, right, high on the paper


@dataclass(frozen=True)
class DrawnBody:
    """One part to be drawn.

    Attributes:
        edges: `(e, 2, 3)` in the world, sharp ones only.
        planes: `(n, k, 4)` outward normal and offset of each face of each convex piece; the last is repeated.
        corners: of each convex piece, in the world.
    """

    edges: Floats
    planes: Floats
    corners: tuple[Floats, ...]


def body_of(part: Part, solids: Solids) -> DrawnBody:
    """A part's sharp edges and convex pieces; bores and round pockets are left out."""
    shapes = tuple(shape for cut in part.cuts for shape in cut.shapes if not _is_round(shape))
    stock, frame = stock_of(part), part.board.frame
    slabs, rest = pieces_of(stock.outline, stock.depth, shapes)
    faces: list[Faces] = [*map(faces_of, slabs), *rest]
    placed = [tuple(tuple(frame.place(p) for p in face) for face in piece) for piece in faces]
    points, triangles = mesh_of(solid_of(stock, shapes, solids.keep))
    matrix = np.asarray(frame.matrix)
    world = points @ matrix[:, :-1].T + matrix[:, -1]
    return DrawnBody(
        edges=_sharp_edges(world, triangles),
        planes=_planes(placed),
        corners=tuple(np.asarray(sorted({p for face in piece for p in face})) for piece in placed),
    )


def plate(outline: Sequence[Vec2], low: float, high: float) -> DrawnBody:
    """A plate with a convex outline in the elevation, from one place out of the wall to another."""
    low_ring, high_ring = [(x, y, low) for x, y in outline], [(x, y, high) for x, y in outline]
    sides = zip(low_ring, (*low_ring[1:], low_ring[0]), (*high_ring[1:], high_ring[0]), high_ring, strict=True)
    middle = np.mean(np.asarray([*low_ring, *high_ring]), axis=0)
    rows = []
    for face in (low_ring, high_ring, *sides):
        normal = normal_of(face)
        offset = sum(a * b for a, b in zip(normal, face[0], strict=True))
        away = float(np.asarray(normal) @ middle) <= offset
        rows.append([*normal, offset] if away else [*(-part for part in normal), -offset])
    edges = [
        *zip(low_ring, (*low_ring[1:], low_ring[0]), strict=True),
        *zip(high_ring, (*high_ring[1:], high_ring[0]), strict=True),
    ]
    edges += zip(low_ring, high_ring, strict=True)
    return DrawnBody(
        edges=np.asarray(edges, dtype=np.float64),
        planes=np.asarray([rows], dtype=np.float64),
        corners=(np.asarray([*low_ring, *high_ring], dtype=np.float64),),
    )


def marked(body: DrawnBody, lines: Sequence[tuple[Vec, Vec]]) -> DrawnBody:
    """A body with lines on its faces."""
    return replace(body, edges=np.concatenate([body.edges, np.asarray(lines, dtype=np.float64)])) if lines else body


def _is_round(shape: Shape) -> bool:
    return isinstance(shape, Bore) or (isinstance(shape, Prism) and len(shape.outline) == 2)


def _planes(pieces: Sequence[Faces]) -> Floats:
    rows = []
    for piece in pieces:
        normals = [normal_of(face) for face in piece]
        rows.append(
            [(*n, sum(a * b for a, b in zip(n, face[0], strict=True))) for n, face in zip(normals, piece, strict=True)]
        )
    longest = max((len(row) for row in rows), default=1)
    return np.asarray([row + [row[-1]] * (longest - len(row)) for row in rows]).reshape(-1, longest, len(HERE) + 1)


def _sharp_edges(points: Floats, triangles: NDArray[np.int64]) -> Floats:
    """Edges at which two faces meet at an angle, each once."""
    _, merged = np.unique(np.round(points, WRITTEN), axis=0, return_inverse=True)
    ids = np.asarray(merged).reshape(-1)[triangles]
    a, b, c = points[triangles.T]
    normals = np.cross(b - a, c - a)
    size = np.linalg.norm(normals, axis=1)
    met: dict[tuple[int, int], list[int]] = {}
    for number in np.nonzero(size > NEAR)[0].tolist():
        one, two, three = ids[number].tolist()
        for i, j in ((one, two), (two, three), (three, one)):
            met.setdefault((min(i, j), max(i, j)), []).append(number)
    normals = normals / np.maximum(size, NEAR)[:, None]
    place = {int(key): points[index] for index, key in enumerate(np.asarray(merged).reshape(-1).tolist())}
    kept = [
        (place[i], place[j])
        for (i, j), faces in sorted(met.items())
        if len(faces) != 2 or float(normals[faces[0]] @ normals[faces[1]]) < SHARP
    ]
    return np.asarray(kept, dtype=np.float64).reshape(-1, 2, len(HERE))


@dataclass(frozen=True)
class Camera:
    """Parallel rays onto the lying piece: right and up on the paper, and towards the eye, all in the world."""

    right: Vec
    up: Vec
    eye: Vec

    def at(self, p: Sequence[float]) -> Vec2:
        """A place on the paper, in mm of the piece, y **up**."""
        x, y, z = p
        (a, b, c), (d, e, f) = self.right, self.up
        return x * a + y * b + z * c, x * d + y * e + z * f


def camera(leans: Iterable[float], *, turned_over: bool) -> Camera:
    """The way to look: `leans` are the boards' directions in the elevation, degrees off plumb to the right."""
    steep = [lean for lean in leans if abs(lean) < RIGHT / 2]
    turns = [TURN, *(lean + side * CLEAR for lean in steep for side in (1, -1))]
    fit = (turn for turn in turns if all(abs(lean - turn) >= CLEAR - NEAR for lean in steep))
    turn = min(fit, key=lambda turn: abs(turn - TURN), default=TURN)
    c, s = math.cos(math.radians(turn)), math.sin(math.radians(turn))
    high, low = math.sin(math.radians(HIGH)), math.cos(math.radians(HIGH))
    away = (s, c, 0.0)
    rows: list[Vec] = [
        (c, -s, 0.0),
        (away[0] * high, away[1] * high, low),
        (-away[0] * low, -away[1] * low, high),
    ]
    if turned_over:  # about the plumb line: left and right change, and front and wall; the foot stays near
        rows = [(-x + 0.0, y, -z + 0.0) for x, y, z in rows]
    return Camera(*rows)


@dataclass(frozen=True)
class Flat:
    """A body on the paper where it belongs, in mm of the piece, y up.

    Attributes:
        edges: `(e, 2, 2)` its sharp edges.
        low, high: `(n, 2)` corners of the box around each convex piece.
        hulls: `(n,)` outline of each piece.
        whole: of all together.
    """

    edges: Floats
    low: Floats
    high: Floats
    hulls: NDArray[np.object_]
    whole: BaseGeometry


def _flat(body: DrawnBody, camera: Camera) -> Flat:
    basis = np.asarray((camera.right, camera.up)).T
    pieces = [corners @ basis for corners in body.corners]
    hulls = shapely.convex_hull(np.asarray([shapely.multipoints(points) for points in pieces], dtype=object))
    return Flat(
        edges=body.edges @ basis,
        low=np.asarray([points.min(axis=0) for points in pieces]).reshape(-1, 2),
        high=np.asarray([points.max(axis=0) for points in pieces]).reshape(-1, 2),
        hulls=hulls,
        whole=shapely.union_all(shapely.buffer(hulls, 0.01)),
    )


def _shifted(shapes: Any, by: Vec2) -> Any:
    """A shape, or an array of them, moved on the paper."""
    return shapely.transform(shapes, lambda points: points + by)


@dataclass(frozen=True)
class DrawnScene:
    """What is drawn together.

    Attributes:
        there: bodies at their place in the piece.
        away: bodies off it, by how far.
    """

    there: Set[str]
    away: Mapping[str, Vec]


@dataclass
class Lying:
    """Bodies and what hides what, kept for each pair and how they are moved against each other.

    A body is looked at together with those alone whose boxes on the paper meet its own, so that a picture of many
    costs as much as they have neighbours; and what is seen of one is kept until what is near it changes.
    """

    bodies: dict[str, DrawnBody]
    camera: Camera
    _kept: dict[tuple[str, str, Vec], list[tuple[int, float, float]]] = field(default_factory=dict)
    _near: dict[str, list[str]] = field(default_factory=dict)
    _moves: dict[Vec, Vec2] = field(default_factory=dict)
    _before: dict[Vec, tuple[str, ...]] = field(default_factory=dict)
    _seen: dict[str, tuple[list[str], Floats]] = field(default_factory=dict)

    @cached_property
    def flat(self) -> dict[str, Flat]:
        """Every body on the paper."""
        return {name: _flat(body, self.camera) for name, body in self.bodies.items()}

    @cached_property
    def boxes(self) -> dict[str, Box]:
        """The box around every body on the paper."""
        return {name: flat.whole.bounds for name, flat in self.flat.items()}

    @cached_property
    def _tree(self) -> tuple[shapely.STRtree, list[str]]:
        """The boxes by where they lie, and whose they are."""
        names = [name for name, flat in self.flat.items() if not flat.whole.is_empty]
        return shapely.STRtree([shapely.box(*self.boxes[name]) for name in names]), names

    def near(self, left: float, low: float, right: float, high: float) -> list[str]:
        """The bodies at their place whose boxes reach into a box on the paper, in their order."""
        tree, names = self._tree
        box = shapely.box(left - TOUCHING, low - TOUCHING, right + TOUCHING, high + TOUCHING)
        return [names[number] for number in sorted(tree.query(box).tolist())]

    def near_body(self, name: str, offset: Vec) -> list[str]:
        """The bodies at their place whose boxes reach into that of a body which is moved."""
        if any(offset):
            return self.near(*self.box(name, offset))
        if name not in self._near:
            self._near[name] = self.near(*self.boxes[name])
        return self._near[name]

    def box(self, name: str, offset: Vec) -> Box:
        """The box around a body that is moved, on the paper."""
        if not any(offset):
            return self.boxes[name]
        if offset not in self._moves:
            self._moves[offset] = self.camera.at(offset)
        x, y = self._moves[offset]
        left, low, right, high = self.boxes[name]
        return left + x, low + y, right + x, high + y

    def visible(self, name: str, scene: DrawnScene) -> Floats:
        """`(n, 2, 2)` what is seen of a body's edges, on the paper."""
        offset = scene.away.get(name, HERE)
        others = [other for other in self.near_body(name, offset) if other in scene.there]
        own = self.box(name, offset)
        over = [(other, at) for other, at in scene.away.items() if _meet(own, self.box(other, at))]
        spans = [self._hidden(name, other, _apart(at, offset)) for other, at in over]
        if any(spans) or any(offset):
            spans += [self._hidden(name, other, _apart(HERE, offset)) for other in others]
            return self._left(name, offset, spans)
        kept = self._seen.get(name)
        if kept is None or kept[0] != others:
            spans = [self._hidden(name, other, HERE) for other in others]
            kept = self._seen[name] = others, self._left(name, offset, spans)
        return kept[1]

    def _left(self, name: str, offset: Vec, spans: Iterable[list[tuple[int, float, float]]]) -> Floats:
        """A body's edges less what is hidden of each."""
        edges = self.flat[name].edges + np.asarray(self.camera.at(offset))
        hidden: dict[int, list[tuple[float, float]]] = {}
        for number, start, stop in chain.from_iterable(spans):
            hidden.setdefault(number, []).append((start, stop))
        seen: list[tuple[Vec2, Vec2]] = []
        for number, (p, q) in enumerate(edges.tolist()):
            for start, stop in _left(hidden.get(number, [])):
                seen.append((_between(p, q, start), _between(p, q, stop)))
        return np.asarray(seen, dtype=np.float64).reshape(-1, 2, 2)

    def _hidden(self, name: str, other: str, apart: Vec) -> list[tuple[int, float, float]]:
        key = (name, other, apart)
        if key not in self._kept:
            self._kept[key] = self._behind(self.bodies[name].edges, self.flat[name].edges, other, apart)
        return self._kept[key]

    def _behind(self, edges: Floats, flat: Floats, other: str, apart: Vec) -> list[tuple[int, float, float]]:
        """(edge, from, to): the stretches, as shares of it, that lie behind a body which is moved by `apart`."""
        body, there, by = self.bodies[other], self.flat[other], np.asarray(self.camera.at(apart))
        low, high = flat.min(axis=1), flat.max(axis=1)
        lows, highs = there.low + by, there.high + by
        if not len(edges) or not len(lows) or np.any(low.min(axis=0) > highs.max(axis=0)):
            return []
        found: list[tuple[int, float, float]] = []
        i, j = np.nonzero(np.all((low[:, None] < highs[None]) & (high[:, None] > lows[None]), axis=2))
        for at in range(0, len(i), CHUNK):
            one, pieces = i[at : at + CHUNK], j[at : at + CHUNK]
            start, stop = _stretches(edges[one], body.planes[pieces], np.asarray(apart), np.asarray(self.camera.eye))
            longer = stop - start > NEAR
            found += zip(one[longer].tolist(), start[longer].tolist(), stop[longer].tolist(), strict=True)
        return found

    def is_seen(self, point: Vec, scene: DrawnScene) -> bool:
        """Whether nothing stands before a place in the world."""
        if point not in self._before:
            x, y = self.camera.at(point)
            self._before[point] = tuple(n for n in self.near(x, y, x, y) if self._stands_before(n, HERE, point))
        if any(name in scene.there for name in self._before[point]):
            return False
        return not any(self._stands_before(name, offset, point) for name, offset in scene.away.items())

    def _stands_before(self, name: str, offset: Vec, point: Vec) -> bool:
        x, y = self.camera.at(point)
        if not _meet((x, y, x, y), self.box(name, offset)):
            return False
        return bool(self._behind(np.asarray([[point, point]]), np.asarray([[(x, y)] * 2]), name, offset))

    def before(self, other: str, its: Vec, name: str, offset: Vec) -> BaseGeometry:
        """What of a body's silhouette another one covers, piece by piece."""
        apart = _apart(its, offset)
        hulls = _shifted(self.flat[other].hulls, self.camera.at(apart))
        own = self.flat[name].hulls
        covers = []
        for number in np.nonzero(shapely.intersects(hulls, self.flat[name].whole))[0].tolist():
            for behind in np.nonzero(shapely.intersects(own, hulls[number]))[0].tolist():
                shared = shapely.intersection(hulls[number], own[behind])
                if shared.area >= 1.0 and self._nearer(other, number, apart, name, behind, shared):
                    covers.append(hulls[number])
                    break
        return _shifted(shapely.union_all(covers), self.camera.at(offset)) if covers else Point()

    def _nearer(self, other: str, number: int, apart: Vec, name: str, behind: int, shared: BaseGeometry) -> bool:
        """Whether one convex piece lies before another where both are seen: along one ray through what they share."""
        at = shared.representative_point()
        one = self._along(self.bodies[other].planes[number], apart, (at.x, at.y))
        two = self._along(self.bodies[name].planes[behind], (0.0, 0.0, 0.0), (at.x, at.y))
        return one is not None and two is not None and one > two

    def _along(self, planes: Floats, moved: Vec, at: Vec2) -> float | None:
        """How far towards the eye a piece reaches on the ray through a place of the paper."""
        right, up, eye = (np.asarray(v) for v in (self.camera.right, self.camera.up, self.camera.eye))
        start = right * at[0] + up * at[1]
        normals, offsets = planes[:, :-1], planes[:, -1]
        steep = normals @ eye
        room = offsets + normals @ np.asarray(moved) - normals @ start
        far = [r / s for r, s in zip(room.tolist(), steep.tolist(), strict=True) if s > NEAR]
        return min(far) if far else None

    def silhouette(self, name: str, offset: Vec) -> BaseGeometry:
        """The outline of a body on the paper, in mm of the piece."""
        whole = self.flat[name].whole
        return _shifted(whole, self.camera.at(offset)) if any(offset) else whole


def _meet(one: Box, other: Box) -> bool:
    """Whether two boxes come so near that what is in one may hide what is in the other."""
    left, low, right, high = other
    return (
        one[0] < right + TOUCHING and left < one[2] + TOUCHING and one[1] < high + TOUCHING and low < one[-1] + TOUCHING
    )


def _apart(one: Vec, other: Vec) -> Vec:
    """How far one is moved against another, steady to the last bit."""
    x, y, z = (length(a - b) for a, b in zip(one, other, strict=True))
    return (x, y, z)


def _between(p: Sequence[float], q: Sequence[float], share: float) -> Vec2:
    return p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1])


def _left(spans: list[tuple[float, float]]) -> list[tuple[float, float]]:
    """What is left of 0 to 1 once spans are taken out."""
    left, at = [], 0.0
    for start, stop in sorted(spans):
        if start > at + NEAR:
            left.append((at, start))
        at = max(at, stop)
    if at < 1.0 - NEAR:
        left.append((at, 1.0))
    return left


def _stretches(edges: Floats, planes: Floats, apart: Floats, eye: Floats) -> tuple[Floats, Floats]:
    """From where to where along each edge a ray to the eye passes through the piece of the same number.

    A place p + s e + t v (s along the edge, t along the ray) is inside while a s + b t <= c for every face,
    with a = n.e, b = n.v, c = offset - n.p. Each pair of faces with b above and below 0 bounds s alone.
    """
    normals = planes[:, :, :-1]
    a = np.einsum("pkc,pc->pk", normals, edges[:, 1] - edges[:, 0])
    b = normals @ eye
    c = planes[:, :, -1] + normals @ apart - INSIDE - np.einsum("pkc,pc->pk", normals, edges[:, 0])
    ahead = np.broadcast_to(np.asarray([0.0, -1.0, -AHEAD]), (len(edges), len(HERE)))
    a, b, c = (np.concatenate([rows, ahead[:, k : k + 1]], axis=1) for k, rows in enumerate((a, b, c)))
    level = np.abs(b) < NEAR
    with np.errstate(divide="ignore", invalid="ignore"):
        slope, height = np.where(level, 0.0, a / b), np.where(level, 0.0, c / b)
    over = (b > NEAR)[:, :, None] & (b < -NEAR)[:, None, :]
    rise = slope[:, None, :] - slope[:, :, None]  # s rise >= step, for faces over and under
    step = height[:, None, :] - height[:, :, None]
    start, stop = _bounds(rise, step, over)
    one, two = _bounds(-a, -c, level)  # a s <= c, for faces along the ray
    return np.maximum(np.maximum(start, one), 0.0), np.minimum(np.minimum(stop, two), 1.0)


def _bounds(rise: Floats, step: Floats, counts: NDArray[np.bool_]) -> tuple[Floats, Floats]:
    """The least and the greatest s with s rise >= step wherever it counts."""
    slopes, steps = rise.reshape(len(rise), -1), step.reshape(len(step), -1)
    used = counts.reshape(len(counts), -1)
    with np.errstate(divide="ignore", invalid="ignore"):
        at = steps / slopes
    still = np.abs(slopes) < NEAR
    low = np.where(used & ~still & (slopes > 0), at, -np.inf).max(axis=1, initial=-np.inf)
    high = np.where(used & ~still & (slopes < 0), at, np.inf).min(axis=1, initial=np.inf)
    never = np.any(used & still & (steps > 0), axis=1)
    return np.where(never, np.inf, low), np.where(never, -np.inf, high)
