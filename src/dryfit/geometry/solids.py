"""Solids from exact shapes: for the picture, the clash check and the volume, never for a drawing.

A stock is a board's outline in its (a, c) plane swept across its depth. Round holes become polygons of
`SIDES` sides. A stock with its bores is kept apart from its slots, since holes are what costs.
"""

import math
from dataclasses import dataclass
from itertools import pairwise
from operator import itemgetter
from typing import Any

import manifold3d as m3
import numpy as np
from numpy.typing import NDArray

from ..keeping import Keep
from .frames import Frame, Vec2
from .polygons import clip
from .shapes import Bore, HalfSpace, Knot, Prism, Shape

SIDES = 32  # of a round hole in a solid; its diameter is never taken from there
ARC_STEP = math.radians(7.5)


@dataclass(frozen=True, slots=True, kw_only=True)
class RoughBoard:
    """A board before its joints: outline in (a, c), anticlockwise, swept from d = 0 to `depth`."""

    outline: tuple[Vec2, ...]
    depth: float


def solid_of(stock: RoughBoard, shapes: tuple[Shape, ...], keep: Keep) -> Any:
    """The stock less all the shapes, as a manifold in the board's own frame."""
    return keep.get("solid", (stock, shapes), lambda: _cut(stock, shapes, keep))


def _cut(stock: RoughBoard, shapes: tuple[Shape, ...], keep: Keep) -> Any:
    outline = list(stock.outline)
    bores: list[Bore] = []
    tools: list[Shape] = []
    for shape in shapes:
        if isinstance(shape, HalfSpace) and shape.normal[2] == 0.0:
            outline = clip(outline, shape.point[:2], shape.normal[:2])
        elif isinstance(shape, Bore):
            bores.append(shape)
        else:
            tools.append(shape)
    ended = RoughBoard(outline=tuple(outline), depth=stock.depth)
    blank = keep.get("holed blank", (ended, tuple(bores)), lambda: _holed(ended, tuple(bores)))
    # Tools after the blank, always: the kernel numbers its bodies and orders a mesh by their numbers, so a
    # blank that was kept must not come before tools where a fresh one would come after them.
    cutters = [_tool(shape) for shape in tools]
    solid = m3.Manifold.batch_boolean([blank, *cutters], m3.OpType.Subtract) if cutters else blank
    solid.num_tri()  # the kernel is lazy: do the work here, once
    return solid


def body_of(shapes: tuple[Shape, ...]) -> Any:
    """What shapes take away, as one body: for telling which faces of a part a cut left."""
    bodies = [_bore(shape) if isinstance(shape, Bore) else _tool(shape) for shape in shapes]
    return bodies[0] if len(bodies) == 1 else m3.Manifold.batch_boolean(bodies, m3.OpType.Add)


def _holed(stock: RoughBoard, bores: tuple[Bore, ...]) -> Any:
    if len(stock.outline) < 3:  # cut away whole, which is reported elsewhere
        return m3.Manifold()
    blank = m3.Manifold.extrude(m3.CrossSection([_array(stock.outline)]), stock.depth)
    if bores:
        blank = m3.Manifold.batch_boolean([blank, *(_bore(bore) for bore in bores)], m3.OpType.Subtract)
    blank.num_tri()
    return blank


def _array(points: tuple[Vec2, ...] | list[Vec2]) -> NDArray[np.float64]:
    return np.asarray(points, dtype=np.float64)


def _tool(shape: Shape) -> Any:
    if isinstance(shape, Prism):
        return _prism(shape)
    assert isinstance(shape, HalfSpace), shape
    return _slab(shape)


def _prism(shape: Prism) -> Any:
    points = flattened(shape.outline)
    height = shape.high - shape.low
    if shape.outline_high is None:
        body = m3.Manifold.extrude(m3.CrossSection([_array(points)]), height)
    else:
        body = _tapered(points, flattened(shape.outline_high), height)
    return body.translate((0.0, 0.0, shape.low)).transform(_rows(shape.frame))


_bulge = itemgetter(2)


def flattened(outline: tuple[Knot, ...]) -> list[Vec2]:
    """An outline with its bulges as short straight sides."""
    if not any(map(_bulge, outline)):  # as most are
        return [(x, y) for x, y, _ in outline]
    points: list[Vec2] = []
    for (x, y, bulge), (x1, y1, _) in zip(outline, outline[1:] + outline[:1], strict=True):
        points.append((x, y))
        if bulge:
            points.extend(_arc((x, y), (x1, y1), bulge))
    return points


def _arc(start: Vec2, end: Vec2, bulge: float) -> list[Vec2]:
    """Points strictly between the ends of an arc that turns by 4 atan(bulge), left of the chord if negative."""
    turn = 4 * math.atan(bulge)
    mx, my = (start[0] + end[0]) / 2, (start[1] + end[1]) / 2
    dx, dy = end[0] - start[0], end[1] - start[1]
    rise = (1 - bulge * bulge) / (4 * bulge)  # from the chord's middle to the centre, in chords, to its left
    cx, cy = mx - dy * rise, my + dx * rise
    count = max(2, math.ceil(abs(turn) / ARC_STEP))
    points = []
    for step in range(1, count):
        angle = turn * step / count
        px, py = start[0] - cx, start[1] - cy
        points.append(
            (cx + px * math.cos(angle) - py * math.sin(angle), cy + px * math.sin(angle) + py * math.cos(angle))
        )
    return points


def _tapered(low: list[Vec2], high: list[Vec2], height: float) -> Any:
    """A prism whose outline changes evenly: the hull of both, so both must be convex."""
    corners = [(x, y, 0.0) for x, y in low] + [(x, y, height) for x, y in high]
    return m3.Manifold.hull_points(np.asarray(corners, dtype=np.float64))


def _bore(bore: Bore) -> Any:
    """A stepped hole as one revolved body: two that share a floor would cost twice as much."""
    profile = []
    for (start, diameter), (end, _) in pairwise(bore.run_out):
        profile += [(diameter / 2, start), (diameter / 2, end)]
    points = [(0.0, profile[0][1]), *profile, (0.0, profile[-1][1])]
    body = m3.Manifold.revolve(m3.CrossSection([_array(points)]), SIDES)
    return body.transform(_rows(_frame_along(bore)))


def _frame_along(bore: Bore) -> Frame:
    z = bore.direction
    helper = (1.0, 0.0, 0.0) if abs(z[0]) < 0.9 else (0.0, 1.0, 0.0)
    x = (helper[1] * z[2] - helper[2] * z[1], helper[2] * z[0] - helper[0] * z[2], helper[0] * z[1] - helper[1] * z[0])
    size = math.sqrt(x[0] * x[0] + x[1] * x[1] + x[2] * x[2])
    x = (x[0] / size, x[1] / size, x[2] / size)
    y = (z[1] * x[2] - z[2] * x[1], z[2] * x[0] - z[0] * x[2], z[0] * x[1] - z[1] * x[0])
    return Frame(bore.start, x, y, z)


SLAB = 20_000.0  # a half-space as a box: past anything a job may hold (100 m boards are cut in the plane)


def _slab(shape: HalfSpace) -> Any:
    frame = _frame_along(Bore(start=shape.point, direction=shape.normal, profile=((0.0, 1.0), (1.0, 0.0))))
    box = m3.Manifold.cube((2 * SLAB, 2 * SLAB, SLAB), False).translate((-SLAB, -SLAB, 0.0))
    return box.transform(_rows(frame))


def _rows(frame: Frame) -> NDArray[np.float64]:
    return np.asarray(frame.matrix, dtype=np.float64)


def placed(solid: Any, frame: Frame) -> Any:
    """A solid in its board's frame, put where the board stands."""
    return solid.transform(_rows(frame))


def mesh_of(solid: Any) -> tuple[NDArray[np.float64], NDArray[np.int64]]:
    """Vertices `(n, 3)` in mm and triangles `(m, 3)`, in the solid's own frame."""
    mesh = solid.to_mesh64()
    return np.asarray(mesh.vert_properties[:, :3]), np.asarray(mesh.tri_verts, dtype=np.int64)


def centroid_of(solid: Any) -> tuple[float, float, float]:
    """Centre of mass of an even body."""
    vertices, triangles = mesh_of(solid)
    if not len(triangles):
        return (0.0, 0.0, 0.0)
    a, b, c = (vertices[triangles[:, i]] for i in range(3))
    volumes = np.einsum("ij,ij->i", a, np.cross(b, c))
    centre = ((a + b + c) * volumes[:, None]).sum(axis=0) / (4 * volumes.sum())
    return (float(centre[0]), float(centre[1]), float(centre[2]))
