"""Exact views of a part from its cuts: what each surface shows, and where the walls are marked on it.

Positions `a` run along the board from `zero`, the long point of the datum end; `c` through the thickness
from the middle, `d` across from the wall edge. The view of a face has the coordinates (a, d), of an edge
(a, c), of an end (c, d): that of an end is as seen along the board from outside, what lies further back behind
what is nearer. Nothing here knows what a cut is called or which joint it belongs to: a raked slot has two
positions because its walls meet the two faces at two places.

Worked example: a board 24 thick, a slot 24.15 across the walls, 9 degrees off square. The upper face shows
24.451 of it from 734.706, the lower face the same from 730.905: the marks are 3.801 apart.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from enum import StrEnum
from functools import cached_property
from itertools import pairwise

from shapely import Polygon, box, unary_union
from shapely.geometry.base import BaseGeometry

from .frames import Vec, Vec2, length
from .loops import Loop, hull, loops
from .sections import TOUCH, Patch, polygons, section, vertices
from .shapes import HalfSpace, Shape


class Surface(StrEnum):
    """The surfaces of a board, in its own frame."""

    PLUS = "face at +c"
    MINUS = "face at -c"
    FRONT = "front edge"
    WALL = "wall edge"
    DATUM = "datum end"
    FAR = "far end"


FACES = (Surface.PLUS, Surface.MINUS)
EDGES = (Surface.FRONT, Surface.WALL)
ENDS = (Surface.DATUM, Surface.FAR)
OPPOSITE = {surface: pair[1 - pair.index(surface)] for pair in (FACES, EDGES, ENDS) for surface in pair}


@dataclass(frozen=True, slots=True, kw_only=True)
class Removed:
    """One cut: its key, the end it makes (-1 datum, 1 far, 0 none), and its shapes."""

    key: str
    end: int
    shapes: tuple[Shape, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Wood:
    """A board to be looked at.

    Attributes:
        profile: (a, thickness), straight between, constant beyond.
        depth: across, from wall edge to front edge.
        start, end: of the blank, in the board's own a.
        zero: where positions are counted from, in the board's own a.
        cuts: ends among them.
    """

    profile: tuple[tuple[float, float], ...]
    depth: float
    start: float
    end: float
    zero: float
    cuts: tuple[Removed, ...]

    def thickness_at(self, a: float) -> float:
        """Thickness at `a`, in the board's own a."""
        profile = self.profile
        if a <= profile[0][0]:
            return profile[0][1]
        for (a0, t0), (a1, t1) in pairwise(profile):
            if a <= a1:
                return t0 + (t1 - t0) * (a - a0) / (a1 - a0)
        return profile[-1][1]

    @property
    def corners(self) -> list[Vec2]:
        """(a, thickness) where the faces bend, from the blank's start to its end."""
        inner = [(a, t) for a, t in self.profile if self.start < a < self.end]
        return [(self.start, self.thickness_at(self.start)), *inner, (self.end, self.thickness_at(self.end))]


@dataclass(frozen=True, slots=True, kw_only=True)
class Trace:
    """One cut as it is met in one view.

    Attributes:
        opening: where it breaks this surface; empty where it is hidden behind it.
        extent: hull of all it takes, as seen through the wood, for hidden lines.
        marks: in the view's first coordinate, where its nearer and its farther wall are marked on this
            surface; None where it is hidden. On faces and edges: running positions from `zero`.
        across: from and to, in the view's second coordinate, of the opening or of what is hidden.
        deep: from and to below this surface.
    """

    key: str
    end: int
    opening: tuple[Loop, ...]
    extent: Loop
    marks: Vec2 | None
    across: Vec2
    deep: Vec2

    @property
    def seen(self) -> bool:
        """Whether it breaks this surface."""
        return bool(self.opening)


@dataclass(frozen=True, slots=True, kw_only=True)
class SurfaceView:
    """One surface of a part.

    Attributes:
        outline: of the surface, ends made, no other cut taken out.
        behind: what is seen past that outline: of the opposite surface (a bevel, a tongue); at an end what lies
            further back (shoulders, the square rest of a mitre), as far as the board is thick there.
        traces: the cuts that take anything from the wood, in the part's order.
    """

    surface: Surface
    outline: tuple[Loop, ...]
    behind: tuple[Loop, ...]
    traces: tuple[Trace, ...]

    def trace(self, key: str) -> Trace | None:
        """The trace of one cut."""
        return next((trace for trace in self.traces if trace.key == key), None)


class Looker:
    """Looks at one board from all sides; what several views need is worked out once."""

    def __init__(self, wood: Wood) -> None:
        self._wood = wood
        self._patches = {surface: _patches(wood, surface) for surface in Surface}
        self._broken = {
            surface: [unary_union([section(shape, p) for shape in cut.shapes for p in patches]) for cut in wood.cuts]
            for surface, patches in self._patches.items()
        }
        self._areas = {surface: self._area(surface) for surface in Surface}
        self._slices: dict[float, tuple[Loop, ...]] = {}

    @cached_property
    def _bodies(self) -> list[list[Vec]]:
        """For each cut, points in space whose hull is what it takes of the wood."""
        return [self._points(number) for number in range(len(self._wood.cuts))]

    def view(self, surface: Surface) -> SurfaceView:
        """One surface with all the cuts met there."""
        zero, own = self._zero(surface), self._areas[surface]
        beyond = self._patches[surface][0].region if surface in ENDS else self._areas[OPPOSITE[surface]]
        traces = (self._trace(surface, number) for number in range(len(self._wood.cuts)))
        return SurfaceView(
            surface=surface,
            outline=loops(own, zero),
            behind=loops(beyond.difference(own), zero),
            traces=tuple(trace for trace in traces if trace is not None),
        )

    def slice_at(self, d: float) -> tuple[Loop, ...]:
        """What is left of the board at distance `d` from the wall edge, in (a, c)."""
        if d not in self._slices:
            patch = _edge_patch(self._wood, d)
            taken = [section(shape, patch) for cut in self._wood.cuts for shape in cut.shapes]
            self._slices[d] = loops(patch.region.difference(unary_union(taken)), self._wood.zero)
        return self._slices[d]

    def taken_at(self, key: str, d: float) -> tuple[Loop, ...]:
        """What one cut takes of the whole board at distance `d` from the wall edge, in (a, c)."""
        patch = _edge_patch(self._wood, d)
        shapes = (shape for cut in self._wood.cuts if cut.key == key for shape in cut.shapes)
        return loops(unary_union([section(shape, patch) for shape in shapes]), self._wood.zero)

    def left_of(self, surface: Surface) -> tuple[Loop, ...]:
        """What is left of a surface after all its cuts."""
        return loops(self._areas[surface].difference(unary_union(self._broken[surface])), self._zero(surface))

    def _zero(self, surface: Surface) -> float:
        return 0.0 if surface in ENDS else self._wood.zero

    def _area(self, surface: Surface) -> BaseGeometry:
        """A surface with the ends made."""
        whole = unary_union([patch.region for patch in self._patches[surface]])
        broken = zip(self._wood.cuts, self._broken[surface], strict=True)
        return whole.difference(unary_union([taken for cut, taken in broken if cut.end]))

    def _points(self, number: int) -> list[Vec]:
        """Where one cut breaks the surfaces, and its corners inside the wood; rounded, each once."""
        cut = self._wood.cuts[number]
        points = [p for shape in cut.shapes for p in vertices(shape) if _inside(self._wood, p)]
        if not cut.end:
            points = [p for p in points if not _cut_off(self._wood, p)]
        for surface in Surface:
            broken = self._broken[surface][number]
            if not cut.end and not broken.is_empty:
                broken = broken.intersection(self._areas[surface])
            for patch in self._patches[surface]:
                for area in polygons(broken.intersection(patch.region)):
                    points += [patch.place((x, y)) for x, y in area.exterior.coords[:-1]]
        return sorted({(length(a), length(c), length(d)) for a, c, d in points})

    def _trace(self, surface: Surface, number: int) -> Trace | None:
        """One cut in one view; None where it takes no wood."""
        cut, body = self._wood.cuts[number], self._bodies[number]
        if not body:
            return None
        opening, zero = self._broken[surface][number], self._zero(surface)
        if not cut.end:
            opening = opening.intersection(self._areas[surface])
        first, second = (0 if surface not in ENDS else 1), (1 if surface in EDGES else 2)
        broken = loops(opening, zero)
        extent = hull([(p[first], p[second]) for p in body], zero)
        if not broken and not extent:
            return None
        along = [u for loop in broken for u, _ in loop]
        across = [v for loop in broken for _, v in loop] or [p[second] for p in body]
        depths = _depths(self._wood, self._patches[surface][0], surface, body)
        return Trace(
            key=cut.key,
            end=cut.end,
            opening=broken,
            extent=extent,
            marks=(min(along), max(along)) if along else None,
            across=(length(min(across)), length(max(across))),
            deep=(length(min(depths)), length(max(depths))),
        )


def _patches(wood: Wood, surface: Surface) -> list[Patch]:
    """The flat pieces of a surface: faces bend where the thickness changes."""
    if surface in EDGES:
        return [_edge_patch(wood, wood.depth if surface is Surface.FRONT else 0.0)]
    if surface in ENDS:
        return [_end_patch(wood, -1 if surface is Surface.DATUM else 1)]
    side = 1.0 if surface is Surface.PLUS else -1.0
    return [_face_patch(wood, side, first, second) for first, second in pairwise(wood.corners)]


def _face_patch(wood: Wood, side: float, first: Vec2, second: Vec2) -> Patch:
    (a0, t0), (a1, t1) = first, second
    rise = side * (t1 - t0) / (a1 - a0) / 2
    origin = (0.0, side * t0 / 2 - a0 * rise, 0.0)
    return Patch(origin, (1.0, rise, 0.0), (0.0, 0.0, 1.0), box(a0, 0.0, a1, wood.depth))


def _edge_patch(wood: Wood, d: float) -> Patch:
    upper, lower = [(a, t / 2) for a, t in wood.corners], [(a, -t / 2) for a, t in wood.corners]
    return Patch((0.0, 0.0, d), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), Polygon([*lower, *upper[::-1]]))


def _end_patch(wood: Wood, end: int) -> Patch:
    """The plane that a saw cut leaves at an end, of several the shortest; the blank's own end where there is none."""
    planes = [
        (shape.point[0] - shape.point[1] * lean, lean)
        for cut in wood.cuts
        if cut.end == end
        for shape in cut.shapes
        if isinstance(shape, HalfSpace) and shape.normal[0]
        for lean in [-shape.normal[1] / shape.normal[0]]
    ]
    a, lean = min(planes, key=lambda plane: end * plane[0], default=(wood.start if end < 0 else wood.end, 0.0))
    half = wood.thickness_at(a) / 2
    return Patch((a, 0.0, 0.0), (lean, 1.0, 0.0), (0.0, 0.0, 1.0), box(-half, 0.0, half, wood.depth))


def _cut_off(wood: Wood, p: Vec) -> bool:
    """Whether a point lies beyond what a saw leaves at an end."""
    planes = (shape for cut in wood.cuts if cut.end for shape in cut.shapes if isinstance(shape, HalfSpace))
    return any(
        sum(n * (x - at) for n, x, at in zip(plane.normal, p, plane.point, strict=True)) > TOUCH for plane in planes
    )


def _inside(wood: Wood, p: Vec) -> bool:
    half = wood.thickness_at(p[0]) / 2 + TOUCH
    return wood.start <= p[0] <= wood.end and abs(p[1]) <= half and -TOUCH <= p[2] <= wood.depth + TOUCH


def _depths(wood: Wood, patch: Patch, surface: Surface, points: Sequence[Vec]) -> list[float]:
    """How far points lie below a surface; below an end, along the board from its plane, which is the patch's."""
    match surface:
        case Surface.PLUS:
            below = [wood.thickness_at(a) / 2 - c for a, c, _ in points]
        case Surface.MINUS:
            below = [wood.thickness_at(a) / 2 + c for a, c, _ in points]
        case Surface.FRONT:
            below = [wood.depth - d for _, _, d in points]
        case Surface.WALL:
            below = [d for _, _, d in points]
        case _:
            end = 1.0 if surface is Surface.DATUM else -1.0
            below = [end * (a - patch.place((c, d))[0]) for a, c, d in points]
    return [max(deep, 0.0) for deep in below]
