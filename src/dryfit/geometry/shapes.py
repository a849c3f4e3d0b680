"""What a cut takes away, as exact shapes in a board's own frame.

A board's own frame has x along the grain line from the datum end (`a`), y through the thickness from
the middle (`c`), z across the board from its wall edge (`d`); a board lying flat has its lower edge
for wall edge. Drawings, lists, DXF, STEP and G-code are made from these shapes; the solids are made from
them too, and serve the picture, the clash check and the volume only.

All numbers are rounded when a shape is made (`frames.length`, `frames.cosine`), and hashed, built and
written as they then are.
"""

import math
from dataclasses import dataclass
from typing import TypeAlias

from .frames import WORLD, Frame, Vec, cosine, cross, dot, length

OVER = 1.0  # how far a cut runs on past the face or edge it opens to, so that no two faces coincide

Knot: TypeAlias = tuple[float, float, float]  # x, y, bulge of the side that follows: 0 straight, tan(arc/4)


def outline(*points: tuple[float, float]) -> tuple[Knot, ...]:
    """A closed outline of straight sides, anticlockwise, rounded."""
    area = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(points, points[1:] + points[:1], strict=True))
    ordered = points if area > 0 else points[::-1]
    return tuple((length(x), length(y), 0.0) for x, y in ordered)


@dataclass(frozen=True, slots=True, kw_only=True)
class Prism:
    """An outline swept straight along the frame's z from `low` to `high`.

    Attributes:
        outline: knots, anticlockwise seen against z; `Knot[2]` bulges the side that follows it.
        low, high: where the sweep starts and ends.
        outline_high: the outline at `high`, knot for knot, for a taper; None where it does not change.
        frame: in the board's own frame; the default is that frame itself.
    """

    outline: tuple[Knot, ...]
    low: float
    high: float
    outline_high: tuple[Knot, ...] | None = None
    frame: Frame = WORLD

    def __post_init__(self) -> None:
        assert self.low < self.high, f"a prism from {self.low} to {self.high} is empty"


@dataclass(frozen=True, slots=True, kw_only=True)
class HalfSpace:
    """Everything beyond a plane: what a saw takes off an end. `normal` points into what is taken."""

    point: Vec
    normal: Vec


@dataclass(frozen=True, slots=True, kw_only=True)
class Bore:
    """A round hole along an axis; `profile` gives (distance from `start`, diameter) where it steps.

    Each pair says: from this distance on, this diameter; the last pair's diameter is ignored, its
    distance is the bottom. A counterbored hole is ((0, 13), (235, 6.6), (280, 0)).

    Attributes:
        start: where the axis meets the surface that the hole is drilled from.
        through: whether its bottom is the surface opposite, where it comes out again.
    """

    start: Vec
    direction: Vec
    profile: tuple[tuple[float, float], ...]
    through: bool = False

    @property
    def run_out(self) -> tuple[tuple[float, float], ...]:
        """The profile as it is built: past each surface by a radius and `OVER`, so that one that slopes is pierced."""
        (first, mouth), *steps = self.profile
        *inner, (last, none) = steps
        past = inner[-1][1] if inner else mouth
        last = last + past / 2 + OVER if self.through else last
        return ((first - mouth / 2 - OVER, mouth), *inner, (last, none))


Shape: TypeAlias = Prism | HalfSpace | Bore


def rim_of(at: Vec, axis: Vec, normal: Vec, wide: float, count: int) -> tuple[Vec, ...]:
    """Points around the mouth of a round hole in a surface, evenly about the axis; an ellipse where that lies aslant.

    Args:
        at: where the axis meets the surface, whose unit vector out of the wood is `normal`.
        axis: unit vector along the hole; not in the surface.
        wide: the hole's diameter, square to its axis.
    """
    helper = (1.0, 0.0, 0.0) if abs(axis[0]) < 0.9 else (0.0, 1.0, 0.0)
    u = cross(helper, axis)
    far = wide / 2 / math.sqrt(dot(u, u))
    u = (far * u[0], far * u[1], far * u[2])
    v, upright = cross(axis, u), dot(axis, normal)
    found = []
    for number in range(count):
        turn = 2 * math.pi * number / count
        cos, sin = math.cos(turn), math.sin(turn)
        off = (cos * u[0] + sin * v[0], cos * u[1] + sin * v[1], cos * u[2] + sin * v[2])
        slide = dot(off, normal) / upright
        x, y, z = (p + o - slide * a for p, o, a in zip(at, off, axis, strict=True))
        found.append((x, y, z))
    return tuple(found)


def prism(points: tuple[tuple[float, float], ...], low: float, high: float) -> Prism:
    """A prism across the board: its outline in (a, c), from `low` to `high` in d."""
    return Prism(outline=outline(*points), low=length(low), high=length(high))


def corners(shape: Prism) -> tuple[Vec, ...]:
    """The knots of both ends of a prism, in the board's frame: all of it, but for what an arc bulges."""
    ends = ((shape.outline, shape.low), (shape.outline_high or shape.outline, shape.high))
    if shape.frame is WORLD:  # as most are, and this is asked at every step of a drag
        return tuple((x, y, z) for knots, z in ends for x, y, _ in knots)
    return tuple(shape.frame.place((x, y, z)) for knots, z in ends for x, y, _ in knots)


def half_space(point: tuple[float, float], normal: tuple[float, float]) -> HalfSpace:
    """Everything beyond a plane that stands square to the board's (a, c) plane."""
    size = math.hypot(*normal)
    return HalfSpace(
        point=(length(point[0]), length(point[1]), 0.0),
        normal=(cosine(normal[0] / size), cosine(normal[1] / size), 0.0),
    )
