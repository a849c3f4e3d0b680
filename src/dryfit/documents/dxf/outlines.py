"""Outlines as lines and true arcs: what a view shows as short chords is put back on the circle that it came from.

The circles are those of the cuts' exact shapes, seen along their axes; nothing is fitted to points. Where an edge
clips an arc its end lies where the edge meets the chord, no further than `sections.CHORD` (0.005) from the circle.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import NamedTuple

from ...geometry.frames import Vec, Vec2, dot
from ...geometry.loops import Loop
from ...geometry.sections import CHORD, PARALLEL
from ...geometry.shapes import Bore, Knot, Prism, Shape
from ...geometry.views import EDGES, ENDS, Surface

ON = 2 * CHORD  # from a circle: a chord's middle, and the end of one that is clipped, lie nearer


class Reach(NamedTuple):
    """An upright rectangle on the drawing, y up."""

    left: float
    foot: float
    right: float
    head: float


@dataclass(frozen=True, slots=True)
class Ring:
    """A circle in a view."""

    centre: Vec2
    radius: float


@dataclass(frozen=True, slots=True)
class Outline:
    """A closed outline: knots with the bulge of the side that follows, anticlockwise; or a circle."""

    knots: tuple[Knot, ...]
    ring: Ring | None = None


def seen(surface: Surface) -> tuple[int, int, int]:
    """Which of a board's coordinates a view's two are, and which one runs into the wood."""
    if surface in ENDS:
        return 1, 2, 0
    return (0, 1, 2) if surface in EDGES else (0, 2, 1)


def rings(shapes: Iterable[Shape], surface: Surface, zero: float) -> Iterator[Ring]:
    """The circles of shapes that are seen along their axis in a view."""
    u, v, into = seen(surface)
    off = 0.0 if surface in ENDS else zero

    def flat(p: Vec) -> Vec2:
        return p[u] - off, p[v]

    normal = tuple(1.0 if i == into else 0.0 for i in sorted((u, v, into)))
    axis = (normal[0], normal[1], normal[2])
    for shape in shapes:
        if isinstance(shape, Bore) and _along(shape.direction, axis):
            yield from (Ring(flat(shape.start), diameter / 2) for _, diameter in shape.profile[:-1])
        elif isinstance(shape, Prism) and _along(shape.frame.z, axis):
            sides = zip(shape.outline, shape.outline[1:] + shape.outline[:1], strict=True)
            for (x0, y0, bulge), (x1, y1, _) in sides:
                if bulge:
                    (x, y), radius = _circle((x0, y0), (x1, y1), bulge)
                    yield Ring(flat(shape.frame.place((x, y, 0.0))), radius)


def _along(one: Vec, other: Vec) -> bool:
    return 1.0 - abs(dot(one, other)) < PARALLEL


def _circle(p: Vec2, q: Vec2, bulge: float) -> tuple[Vec2, float]:
    """Centre and radius of the arc that a bulge makes of a side."""
    rise = (1 - bulge * bulge) / (4 * bulge)  # of the centre, to the left, in chords
    dx, dy = q[0] - p[0], q[1] - p[1]
    centre = (p[0] + q[0]) / 2 - dy * rise, (p[1] + q[1]) / 2 + dx * rise
    return centre, math.dist(p, q) * (1 + bulge * bulge) / (4 * abs(bulge))


def rounded(loop: Loop, circles: Sequence[Ring]) -> Outline:
    """An outline whose chords are arcs again."""
    sides = list(zip(loop, loop[1:] + loop[:1], strict=True))
    on = [next((ring for ring in circles if _on(p, q, ring)), None) for p, q in sides]
    first = next((i for i in range(len(sides)) if on[i] is None or on[i] != on[i - 1]), None)
    if first is None:  # one circle all round
        return Outline(_halves(on[0]), on[0])
    turned = (*range(first, len(sides)), *range(first))
    runs = groupby(turned, key=lambda side: on[side])
    return Outline(tuple(knot for ring, run in runs for knot in _run([sides[side] for side in run], ring)))


def _on(p: Vec2, q: Vec2, ring: Ring) -> bool:
    """Whether a side is a chord of a circle, its middle among what lies on it."""
    middle = ((p[0] + q[0]) / 2, (p[1] + q[1]) / 2)
    return all(abs(math.dist(point, ring.centre) - ring.radius) < ON for point in (p, q, middle))


def _run(sides: Sequence[tuple[Vec2, Vec2]], ring: Ring | None) -> Iterator[Knot]:
    """Sides that follow each other, as one arc where they lie on one circle."""
    if ring is None:
        yield from ((x, y, 0.0) for (x, y), _ in sides)
        return
    turn = sum(_turn(p, q, ring.centre) for p, q in sides)
    (x, y), _ = sides[0]
    yield x, y, math.tan(turn / 4)


def _turn(p: Vec2, q: Vec2, centre: Vec2) -> float:
    """The angle from one point to the next as seen from a centre, in radians."""
    (px, py), (qx, qy) = ((point[0] - centre[0], point[1] - centre[1]) for point in (p, q))
    return math.atan2(px * qy - py * qx, px * qx + py * qy)


def _halves(ring: Ring | None) -> tuple[Knot, ...]:
    """A whole circle as two arcs."""
    assert ring is not None, "an outline has sides"
    (x, y), r = ring.centre, ring.radius
    return (x - r, y, 1.0), (x + r, y, 1.0)
