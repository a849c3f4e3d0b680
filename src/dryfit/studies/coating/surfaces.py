"""Surfaces of boards as coats find them: face by face what is open, what joints hide, and what is seen of it.

A part's solid is taken facet by facet. What another board hides of a facet is a cut through that board just outside of
it, its bores filled, wherever the two meet in a joint; so nearly every joint's area comes out as its kind says it, and
how it is divided over the faces follows the solids. Each joint's own figure holds, and is divided in that proportion.

What is left is open. From the front all of it is seen but what is turned to the wall and what is inside of cuts; from
eye points so much of it as rays reach that pass no wood.
"""

import math
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any, TypeAlias

import numpy as np
import shapely
from numpy.typing import NDArray
from shapely.geometry.base import BaseGeometry

from ...geometry.bodies import Faces, PartShape, faces_of, normal_of, pieces_of
from ...geometry.frames import Frame, Vec, Vec2, cross, dot
from ...geometry.sections import polygons
from ...geometry.shapes import Bore, Shape
from ...geometry.solids import RoughBoard, mesh_of, placed, solid_of
from ...keeping import Keep
from .result import FaceName

CLOSE = 1.0  # outside a facet: what lies nearer leaves no room for a brush
NEAR = 0.01  # of a plane: triangles that lie so near to one are one facet
SLIVER = 2.0  # of a mask's breadth: less is the play beside a board that goes in there
RAYS = 40  # from each eye to a facet, about: what is seen of it is told to some per cent
BEFORE = 0.1  # a facet: a ray to it ends in the open
THROUGH = 0.02  # of a ray in wood is contact, as in the clash check
TURNED = 1 - 1e-6  # cosine of what is turned to the wall
Floats: TypeAlias = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class CoatedShape:
    """A part with what tells its faces apart, in its board's frame.

    Attributes:
        short: from where to where all of its thickness is there, along a.
        zero: along a, where its sheet counts from.
    """

    part: PartShape
    short: Vec2
    zero: float


@dataclass(slots=True, kw_only=True)
class FaceMeasure:
    """One face of a board, in mm2; what joints hide by the other board.

    Attributes:
        marks: what other boards hide of a face or an edge, in (a, across), from the datum end and the wall edge.
    """

    total: float = 0.0
    seen: float = 0.0
    hidden: dict[str, float] = field(default_factory=dict)
    marks: list[tuple[str, tuple[Vec2, ...]]] = field(default_factory=list)


@dataclass(frozen=True, slots=True)
class _Facet:
    """A flat piece of a part's surface, in the world: triangles `(n, 3, 3)`, its way out, its area."""

    triangles: Floats
    normal: Floats
    area: float


def faces_by_board(
    shapes: Sequence[CoatedShape], met: Mapping[str, Sequence[str]], eyes: Sequence[Vec]
) -> dict[str, dict[FaceName, FaceMeasure]]:
    """Every board's faces.

    Args:
        met: of each board, those that it meets in joints.
        eyes: from where it is looked at; none: from the front.
    """
    keep = Keep()
    solids = {shape.part.name: _solid(shape.part, shape.part.shapes, keep) for shape in shapes}
    hiding = {  # rows of hundreds of holes would be cut through for each facet of each hole opposite
        shape.part.name: _solid(shape.part, tuple(one for one in shape.part.shapes if not isinstance(one, Bore)), keep)
        for shape in shapes
    }
    boxes = {name: np.reshape(solid.bounding_box(), (2, 3)) for name, solid in hiding.items()}
    sight = _Sight([shape.part for shape in shapes], eyes) if eyes else None
    found: dict[str, dict[FaceName, FaceMeasure]] = {}
    for shape in shapes:
        name, faces = shape.part.name, dict[FaceName, FaceMeasure]()
        near = [other for other in met.get(name, ()) if other in solids]
        for facet in _facets(solids[name]):
            face = _face_of(shape, facet)
            measure = faces.setdefault(face, FaceMeasure())
            measure.total += facet.area
            _measure(measure, shape, facet, face, [(other, hiding[other], boxes[other]) for other in near], sight)
        found[name] = faces
    return found


def _solid(part: PartShape, shapes: tuple[Shape, ...], keep: Keep) -> Any:
    """Of a part with some of its shapes, where it stands."""
    return placed(solid_of(RoughBoard(outline=part.outline, depth=part.depth), shapes, keep), part.frame)


def _measure(
    measure: FaceMeasure,
    shape: CoatedShape,
    facet: _Facet,
    face: FaceName,
    others: Sequence[tuple[str, Any, Floats]],
    sight: "_Sight | None",
) -> None:
    """Add one facet to its face."""
    u, v = _ways(shape.part.frame, facet.normal)
    corner = facet.triangles[0, 0]
    low, high = facet.triangles.min(axis=(0, 1)) - 2 * CLOSE, facet.triangles.max(axis=(0, 1)) + 2 * CLOSE
    near = [(name, solid) for name, solid, box in others if not ((box[1] < low).any() or (box[0] > high).any())]
    away = facet.normal[2] < -TURNED or face == "cuts" if sight is None else not sight.ahead(facet)
    if not near and (sight is None or away):
        _count(measure, facet.area, facet, sight, away=away)
        return
    axes = np.stack([u, v, facet.normal])
    flat = (facet.triangles - corner) @ axes[:2].T
    open_part: BaseGeometry = shapely.union_all(shapely.polygons(flat))
    for name, solid in near:
        rows = np.hstack([axes, -(axes @ corner)[:, None]])
        wood: BaseGeometry = shapely.Polygon()
        for ring in solid.transform(rows).slice(CLOSE).to_polygons():
            wood = wood.symmetric_difference(shapely.Polygon(ring))
        hidden = open_part.intersection(wood)
        if hidden.area <= 0.0:
            continue
        open_part = open_part.difference(wood)
        measure.hidden[name] = measure.hidden.get(name, 0.0) + hidden.area
        if face not in ("ends", "cuts"):
            measure.marks += [(name, outline) for outline in _marks(shape, hidden, corner, u, v, face)]
    _count(measure, open_part.area, facet, sight, away=away, open_part=open_part, ways=(corner, u, v))


def _count(
    measure: FaceMeasure,
    area: float,
    facet: _Facet,
    sight: "_Sight | None",
    *,
    away: bool,
    open_part: BaseGeometry | None = None,
    ways: tuple[Floats, Floats, Floats] | None = None,
) -> None:
    """What of an open area is seen; none of what is turned `away`."""
    if away:
        return
    if sight is None:
        measure.seen += area
    elif open_part is not None and ways is not None and area > 0.0:
        measure.seen += area * sight.share(open_part, facet.normal, ways)


def _facets(solid: Any) -> Iterator[_Facet]:
    vertices, triangles = mesh_of(solid)
    corners = vertices[triangles]
    normals = np.cross(corners[:, 1] - corners[:, 0], corners[:, 2] - corners[:, 0])
    sizes = np.linalg.norm(normals, axis=1)
    there = sizes > 0.0
    corners, normals, sizes = corners[there], normals[there] / sizes[there, None], sizes[there]
    offsets = np.einsum("ij,ij->i", normals, corners[:, 0])
    groups: dict[tuple[float, ...], list[int]] = {}
    for number, (normal, offset) in enumerate(zip(np.round(normals, 4) + 0.0, offsets, strict=True)):
        groups.setdefault((*map(float, normal), round(float(offset) / NEAR)), []).append(number)
    for numbers in groups.values():
        yield _Facet(corners[numbers], normals[numbers[0]], float(sizes[numbers].sum()) / 2)


def _face_of(shape: CoatedShape, facet: _Facet) -> FaceName:
    """Which face of its board a facet belongs to; walls and floors of what is cut into it are "cuts"."""
    part = shape.part
    points = [part.frame.find((x, y, z)) for x, y, z in facet.triangles.reshape(-1, 3).tolist()]
    x, y, z = facet.normal.tolist()
    across = part.frame.find_direction((x, y, z))
    if abs(across[2]) > TURNED:
        edge = part.depth if across[2] > 0 else 0.0
        if all(abs(d - edge) < NEAR for _, _, d in points):
            return "front edge" if across[2] > 0 else "wall edge"
    side = 1.0 if across[1] > 0 else -1.0
    chain = sorted(point for point in part.outline if side * point[1] > 0)
    along, half = [a for a, _ in chain], [abs(c) for _, c in chain]
    if abs(across[1]) > 0.9 and all(abs(side * c - float(np.interp(a, along, half))) < NEAR for a, c, _ in points):
        return "face +" if side > 0 else "face -"
    low, high = shape.short
    if all(a <= low + NEAR for a, *_ in points) or all(a >= high - NEAR for a, *_ in points):
        return "ends"
    return "cuts"


def _ways(frame: Frame, normal: Floats) -> tuple[Floats, Floats]:
    """Two ways in a facet's plane: along the board, as near as it lies, and square to that."""
    x, y, z = normal.tolist()
    along = frame.x if abs(dot(frame.x, (x, y, z))) < 0.9 else frame.z
    lean = dot(along, (x, y, z))
    u = np.array(along) - lean * normal
    u = u / np.linalg.norm(u)
    return u, np.array(cross(tuple(normal.tolist()), tuple(u.tolist())))


def _marks(
    shape: CoatedShape, hidden: BaseGeometry, corner: Floats, u: Floats, v: Floats, face: FaceName
) -> Iterator[tuple[Vec2, ...]]:
    """Outlines of what is hidden, as they are marked on the face: along the board, and across it."""
    for area in polygons(hidden.buffer(-SLIVER / 2).buffer(SLIVER / 2, join_style="mitre")):
        found = []
        for p, q in list(area.exterior.coords)[:-1]:
            x, y, z = (corner + p * u + q * v).tolist()
            a, c, d = shape.part.frame.find((x, y, z))
            found.append((a - shape.zero, d if face in ("face +", "face -") else c))
        if found:
            yield tuple(found)


class _Sight:
    """What eyes see past the wood of all parts."""

    def __init__(self, parts: Sequence[PartShape], eyes: Sequence[Vec]) -> None:
        every = [found for part in parts for found in _pieces(part)]
        planes = [[(normal, dot(normal, face[0])) for face in one for normal in [normal_of(face)]] for one in every]
        corners = [np.array([point for face in one for point in face]) for one in every]
        self._low = np.array([one.min(axis=0) for one in corners])
        self._high = np.array([one.max(axis=0) for one in corners])
        most = max((len(one) for one in planes), default=0)
        self._normals = np.zeros((len(planes), most, 3))
        self._offsets = np.ones((len(planes), most))
        for number, one in enumerate(planes):
            self._normals[number, : len(one)] = [normal for normal, _ in one]
            self._offsets[number, : len(one)] = [offset for _, offset in one]
        self._eyes = [np.array(eye) for eye in eyes]

    def ahead(self, facet: _Facet) -> bool:
        """Whether any eye is on the side to which a facet is turned."""
        return any(float((eye - facet.triangles[0, 0]) @ facet.normal) > 0.0 for eye in self._eyes)

    def share(self, area: BaseGeometry, normal: Floats, ways: tuple[Floats, Floats, Floats]) -> float:
        """How much of a flat area any eye sees, 0 to 1."""
        corner, u, v = ways
        flat = np.array(list(_grid(area)))
        points = corner + flat[:, :1] * u + flat[:, 1:] * v + BEFORE * normal
        seen = np.zeros(len(points), dtype=bool)
        for eye in self._eyes:
            ahead = ~seen & ((eye - points) @ normal > 0.0)
            if ahead.any():
                seen[ahead] = self._reaches(eye, points[ahead])
        return float(seen.mean())

    def _reaches(self, eye: Floats, points: Floats) -> NDArray[np.bool_]:
        """Which points no wood hides: of each convex piece, how long a ray is inside all of its planes."""
        ways = points - eye
        low, high = np.minimum(points.min(axis=0), eye), np.maximum(points.max(axis=0), eye)
        between = ((self._low <= high) & (self._high >= low)).all(axis=1)
        normals = self._normals[between]
        speeds = np.einsum("bpk,sk->sbp", normals, ways)
        heights = np.einsum("bpk,k->bp", normals, eye) - self._offsets[between]
        with np.errstate(divide="ignore", invalid="ignore"):
            at = -heights / speeds
        level = np.abs(speeds) < 1e-9
        last = np.where(~level & (speeds > 0), at, 1.0).min(axis=2)
        first = np.where(~level & (speeds < 0), at, 0.0).max(axis=2)
        outside = (level & (heights >= 0.0)).any(axis=2)
        inside = (np.minimum(last, 1.0) - np.maximum(first, 0.0)) * np.linalg.norm(ways, axis=1)[:, None]
        blocked: NDArray[np.bool_] = (~outside & (inside > THROUGH)).any(axis=1)
        return ~blocked


def _pieces(part: PartShape) -> Iterator[Faces]:
    """A part as convex pieces, where it stands."""
    slabs, solids = pieces_of(part.outline, part.depth, part.shapes)
    for faces in (*map(faces_of, slabs), *solids):
        yield tuple(tuple(map(part.frame.place, face)) for face in faces)


def _grid(area: BaseGeometry) -> Iterator[Vec2]:
    """Points spread evenly over a flat area, its own middle if it is too thin for any."""
    low_u, low_v, high_u, high_v = area.bounds
    wide, high = high_u - low_u, high_v - low_v
    step = math.sqrt(max(wide * high, 1e-9) / RAYS)
    across, up = max(1, round(wide / step)), max(1, round(high / step))
    us = low_u + (np.arange(across) + 0.5) * wide / across
    vs = low_v + (np.arange(up) + 0.5) * high / up
    places = [(float(p), float(q)) for p in us for q in vs]
    inside = shapely.contains_xy(area, [p for p, _ in places], [q for _, q in places])
    found = [place for place, within in zip(places, inside, strict=True) if within]
    if found:
        yield from found
        return
    middle = area.representative_point()
    yield (middle.x, middle.y)
