"""Parts as convex pieces: a spine, the tabs between slots, bevelled ends.

A board is first cut in its own (a, c) plane, layer by layer of its depth: every cut that is swept across
the board takes its convex outline from the polygons of the layers it passes through. Pieces that are alike
in neighbouring layers are put together again, so that a spine stays whole. Cuts that lie otherwise (flat
boards notched over, pockets at an angle) split the pieces as solids, plane by plane.

Round bores and round pockets are left in place as wood: nothing passes through them but screws, dowels and
keys, which go in afterwards or are said by the joint's own motions. Any other arc counts as the short
straight sides that solids have too.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate, pairwise

from .frames import WORLD, Frame, Vec, Vec2, cross, dot
from .polygons import area, clip
from .shapes import HalfSpace, Prism, Shape
from .solids import flattened

SMALL = 1e-6  # mm: layers and slivers thinner than this are none
SLIVER = 1e-3  # mm2 of a polygon, mm3 of a solid


@dataclass(frozen=True, slots=True, kw_only=True)
class PartShape:
    """A part as exact shapes.

    Attributes:
        frame: its board's, in the world.
        outline: of the stock in (a, c), anticlockwise; swept from d = 0 to `depth`.
        shapes: what its cuts take away, in the board's frame.
    """

    name: str
    frame: Frame
    outline: tuple[Vec2, ...]
    depth: float
    shapes: tuple[Shape, ...]


@dataclass(frozen=True, slots=True)
class Slab:
    """A convex polygon in (a, c), swept from `low` to `high` in d."""

    outline: tuple[Vec2, ...]
    low: float
    high: float


Faces = tuple[tuple[Vec, ...], ...]  # a convex solid by its faces, each anticlockwise seen from outside


@lru_cache(maxsize=4096)
def pieces_of(
    outline: tuple[Vec2, ...], depth: float, shapes: tuple[Shape, ...]
) -> tuple[tuple[Slab, ...], tuple[Faces, ...]]:
    """The convex pieces of a part in its board's frame: slabs, and solids where a slab will not do."""
    shapes = tuple(shape for shape in shapes if not (isinstance(shape, Prism) and len(shape.outline) == 2))
    flat = [shape for shape in shapes if isinstance(shape, Prism) and _lies_across(shape)]
    sawn = [shape for shape in shapes if isinstance(shape, HalfSpace) and shape.normal[2] == 0.0]
    others = [
        shape
        for shape in shapes
        if (isinstance(shape, Prism) and not _lies_across(shape))
        or (isinstance(shape, HalfSpace) and shape.normal[2] != 0.0)
    ]
    stock = [list(outline)]
    for plane in sawn:
        stock = [clip(polygon, plane.point[:2], plane.normal[:2]) for polygon in stock]
    slabs = _layered([piece for polygon in stock for piece in convex(polygon)], depth, flat)
    if not others:
        return tuple(slabs), ()
    solids: list[Faces] = []
    kept: list[Slab] = []
    for slab in slabs:
        pieces = [faces_of(slab)]
        for shape in others:
            pieces = [left for piece in pieces for left in _less(piece, shape)]
        if len(pieces) == 1 and pieces[0] == faces_of(slab):
            kept.append(slab)
        else:
            solids.extend(pieces)
    return tuple(kept), tuple(solids)


def _lies_across(shape: Prism) -> bool:
    """Whether it is swept along d, its outline the same all the way."""
    return shape.outline_high is None and (shape.frame is WORLD or abs(abs(shape.frame.z[2]) - 1.0) < 1e-9)


def _cutter(shape: Prism) -> tuple[list[tuple[Vec2, ...]], float, float]:
    """Convex outlines in (a, c) and the depths between which they cut."""
    points = flattened(shape.outline)
    low, high = shape.low, shape.high
    if shape.frame != WORLD:
        points = [shape.frame.place((x, y, 0.0))[:2] for x, y in points]
        low, high = sorted(shape.frame.place((0.0, 0.0, z))[2] for z in (low, high))
    return [tuple(piece) for piece in convex(points)], low, high


def _layered(stock: Sequence[Sequence[Vec2]], depth: float, cuts: Iterable[Prism]) -> list[Slab]:
    cutters = [(_Cutter(outline), low, high) for outlines, low, high in map(_cutter, cuts) for outline in outlines]
    cutters.sort(key=lambda cutter: cutter[0].outline)
    levels = sorted({0.0, depth, *(level for _, *ends in cutters for level in ends if SMALL < level < depth - SMALL)})
    sawing = _Sawing(stock)
    open_slabs: dict[tuple[Vec2, ...], float] = {}
    done: list[Slab] = []
    for low, high in pairwise(levels):
        if high - low < SMALL:
            continue
        inside = [cutter for cutter, start, stop in cutters if start < high - SMALL and stop > low + SMALL]
        following = {polygon: open_slabs.get(polygon, low) for polygon in sawing.without(inside)}
        done += [Slab(polygon, start, low) for polygon, start in open_slabs.items() if polygon not in following]
        open_slabs = following
    return done + [Slab(polygon, start, depth) for polygon, start in open_slabs.items()]


class _Cutter:
    """A convex outline that cuts from `low` to `high` along the board."""

    __slots__ = ("high", "low", "outline")

    def __init__(self, outline: tuple[Vec2, ...]) -> None:
        self.outline = outline
        self.low, self.high = min(a for a, _ in outline), max(a for a, _ in outline)


class _Piece:
    """A convex piece, from `low` to `high` along the board.

    Attributes:
        tidy: its polygon without corners that fall together.
        after: what cutters split it into, as far as some layer has asked.
        split: what it is split into in the layer that is looked at; None where it stays whole.
    """

    __slots__ = ("after", "high", "low", "polygon", "split", "tidy")

    def __init__(self, polygon: tuple[Vec2, ...]) -> None:
        self.polygon = polygon
        self.low, self.high = min(a for a, _ in polygon), max(a for a, _ in polygon)
        self.tidy = _tidy(polygon)
        self.after: dict[tuple[Vec2, ...], list[_Piece]] = {}
        self.split: list[_Piece] | None = None


class _Sawing:
    """A stock that is cut layer by layer: what some layer has split is not split again.

    Next to each other, layers differ by a cutter or two.
    """

    def __init__(self, stock: Iterable[Sequence[Vec2]]) -> None:
        self._pieces: dict[tuple[Vec2, ...], _Piece] = {}
        self.stock = [self._piece(tuple(polygon)) for polygon in stock if len(polygon) > 2]

    def _piece(self, polygon: tuple[Vec2, ...]) -> _Piece:
        return self._pieces.setdefault(polygon, _Piece(polygon))

    def without(self, cutters: Sequence[_Cutter]) -> list[tuple[Vec2, ...]]:
        """The stock less convex cutters, as convex polygons; those that a piece is split into stand in its place.

        The cutters come along the board, in order: what lies before all that are still to come is done with.
        """
        ahead = list(accumulate((cutter.low for cutter in reversed(cutters)), min))[::-1]
        open_ones = self.stock
        for piece in open_ones:
            piece.split = None
        for cutter, first in zip(cutters, ahead, strict=True):
            following: list[_Piece] = []
            for piece in open_ones:
                if piece.high > cutter.low and piece.low < cutter.high:
                    following += self._split(piece, cutter.outline)
                elif piece.high > first:
                    following.append(piece)
            open_ones = following
        return [polygon for polygon in _in_place(self.stock) if len(polygon) > 2]

    def _split(self, piece: _Piece, cutter: tuple[Vec2, ...]) -> list[_Piece]:
        if cutter not in piece.after:
            piece.after[cutter] = [self._piece(polygon) for polygon in _split(piece.polygon, cutter)]
        piece.split = split = piece.after[cutter]
        for left in split:  # the piece itself, where the cutter does not reach it after all
            left.split = None
        return split


def _in_place(pieces: Sequence[_Piece]) -> Iterator[tuple[Vec2, ...]]:
    waiting = list(reversed(pieces))
    while waiting:
        piece = waiting.pop()
        if piece.split is None:
            yield piece.tidy
        else:
            waiting += reversed(piece.split)


def _tidy(polygon: tuple[Vec2, ...]) -> tuple[Vec2, ...]:
    """A polygon without corners that fall together."""
    return tuple(p for p, q in zip(polygon, polygon[-1:] + polygon[:-1], strict=True) if math.dist(p, q) > SMALL)


def _split(polygon: tuple[Vec2, ...], cutter: tuple[Vec2, ...]) -> list[tuple[Vec2, ...]]:
    """What of a convex polygon lies outside of a convex cutter."""
    outside: list[tuple[Vec2, ...]] = []
    inside: list[Vec2] = list(polygon)
    sides = list(zip(cutter, cutter[1:] + cutter[:1], strict=True))
    if any(all(_turn(p, q, point) <= SLIVER for point in polygon) for p, q in sides):
        return [polygon]  # wholly beyond one side
    for p, q in sides:
        normal = (q[1] - p[1], p[0] - q[0])  # outwards, for an outline that runs anticlockwise
        beyond = clip(inside, p, (-normal[0], -normal[1]))
        if area(beyond) > SLIVER:
            outside.append(tuple(beyond))
        inside = clip(inside, p, normal)
        if area(inside) <= SLIVER:
            return outside
    return outside


def convex(points: Sequence[Vec2]) -> list[list[Vec2]]:
    """A simple polygon as convex ones: itself, or its triangles."""
    ring = [p for index, p in enumerate(points) if p != points[index - 1]]
    if len(ring) < 3:
        return []
    if area(ring) < 0:
        ring.reverse()
    if all(_turn(ring[i - 2], ring[i - 1], ring[i]) >= -1e-9 for i in range(len(ring))):
        return [ring]
    triangles: list[list[Vec2]] = []
    while len(ring) > 3:
        ear = next((i for i in range(len(ring)) if _is_ear(ring, i)), 0)
        triangles.append([ring[ear - 1], ring[ear], ring[(ear + 1) % len(ring)]])
        ring = ring[:ear] + ring[ear + 1 :]
    return [*triangles, ring]


def _turn(p: Vec2, q: Vec2, r: Vec2) -> float:
    return (q[0] - p[0]) * (r[1] - q[1]) - (q[1] - p[1]) * (r[0] - q[0])


def _is_ear(ring: Sequence[Vec2], index: int) -> bool:
    p, q, r = ring[index - 1], ring[index], ring[(index + 1) % len(ring)]
    if _turn(p, q, r) <= 0:
        return False
    others = (point for point in ring if point not in (p, q, r))
    return not any(_turn(p, q, x) >= 0 and _turn(q, r, x) >= 0 and _turn(r, p, x) >= 0 for x in others)


# ---- solids, where a cut does not lie across the board


def faces_of(slab: Slab) -> Faces:
    """A slab as a solid."""
    return _swept(slab.outline, slab.outline, slab.low, slab.high, WORLD)


def _swept(bottom: Sequence[Vec2], top: Sequence[Vec2], low: float, high: float, frame: Frame) -> Faces:
    below = [frame.place((x, y, low)) for x, y in bottom]
    above = [frame.place((x, y, high)) for x, y in top]
    count = len(below)
    sides = [(below[i - 1], below[i], above[i], above[i - 1]) for i in range(count)]
    return (tuple(reversed(below)), tuple(above), *sides)


def _less(piece: Faces, shape: Shape) -> list[Faces]:
    """What is left of a convex solid once a shape is taken off, as convex solids."""
    if isinstance(shape, HalfSpace):
        left = clipped(piece, shape.point, shape.normal)
        return [left] if left else []
    assert isinstance(shape, Prism), shape
    if shape.outline_high is None:
        tops = [(outline, outline) for outline in convex(flattened(shape.outline))]
    else:  # a taper: both outlines are convex, knot for knot
        tops = [(flattened(shape.outline), flattened(shape.outline_high))]
    pieces = [piece]
    for bottom, top in tops:
        cutter = _swept(bottom, top, shape.low, shape.high, shape.frame)
        pieces = [left for one in pieces for left in _outside(one, cutter)]
    return pieces


def _outside(piece: Faces, cutter: Faces) -> list[Faces]:
    found: list[Faces] = []
    inside: Faces | None = piece
    for face in cutter:
        normal = normal_of(face)
        if inside is None:
            return found
        beyond = clipped(inside, face[0], (-normal[0], -normal[1], -normal[2]))
        if beyond == inside:
            return [piece]  # wholly beyond one plane: untouched
        if beyond:
            found.append(beyond)
        inside = clipped(inside, face[0], normal)
    return found


def normal_of(face: Sequence[Vec]) -> Vec:
    """Unit normal of a flat face, outwards for one that runs anticlockwise seen from outside."""
    x = y = z = 0.0
    o = face[0]
    for p, q in pairwise(face[1:]):
        n = cross((p[0] - o[0], p[1] - o[1], p[2] - o[2]), (q[0] - o[0], q[1] - o[1], q[2] - o[2]))
        x, y, z = x + n[0], y + n[1], z + n[2]
    size = (x * x + y * y + z * z) ** 0.5 or 1.0
    return (x / size, y / size, z / size)


def clipped(piece: Faces, point: Vec, normal: Vec) -> Faces | None:
    """The part of a convex solid on the near side of a plane; the solid itself if all of it is."""
    offset = dot(normal, point)
    heights = {p: dot(normal, p) - offset for face in piece for p in face}
    if all(height <= SMALL for height in heights.values()):
        return piece
    if all(height >= -SMALL for height in heights.values()):
        return None
    faces: list[tuple[Vec, ...]] = []
    lid: dict[tuple[float, float, float], Vec] = {}
    for face in piece:
        kept: list[Vec] = []
        for p, q in zip(face, face[1:] + face[:1], strict=True):
            hp, hq = heights[p], heights[q]
            if hp <= SMALL:
                kept.append(p)
                if abs(hp) <= SMALL:
                    lid[_rounded(p)] = p
            if (hp < -SMALL and hq > SMALL) or (hp > SMALL and hq < -SMALL):
                share = hp / (hp - hq)
                r = (p[0] + share * (q[0] - p[0]), p[1] + share * (q[1] - p[1]), p[2] + share * (q[2] - p[2]))
                kept.append(r)
                lid[_rounded(r)] = r
        if len(kept) > 2:
            faces.append(tuple(kept))
    if len(lid) > 2:
        faces.append(_around(list(lid.values()), normal))
    return tuple(faces) if len(faces) > 3 else None


def _rounded(p: Vec) -> Vec:
    return (round(p[0], 5), round(p[1], 5), round(p[2], 5))


def _around(points: list[Vec], normal: Vec) -> tuple[Vec, ...]:
    """Points of a plane in the order in which they run round their middle, anticlockwise seen against `normal`."""
    n = len(points)
    middle = tuple(sum(p[k] for p in points) / n for k in range(3))
    helper = (1.0, 0.0, 0.0) if abs(normal[0]) < 0.9 else (0.0, 1.0, 0.0)
    u = cross(helper, normal)
    v = cross(normal, u)

    def angle(p: Vec) -> float:
        d = (p[0] - middle[0], p[1] - middle[1], p[2] - middle[2])
        return math.atan2(dot(d, v), dot(d, u))

    return tuple(sorted(points, key=angle))
