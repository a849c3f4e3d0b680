"""What the corners of a frame must be, by plane geometry alone: nothing of Dryfit is imported here.

Two boards end at one point, `u` and `v` the directions in which they run away from it. The rules are those
of the set-out (conventions of the project's geometry notes, section 5):

* a frame is set out by faces: each centre-line lies half its board's thickness inside the outside face, or
  outside the inside face;
* a mitre runs from where the inside faces meet to where the outside faces meet, over the depth that both
  boards share; an edge within 1 of the other's counts as level with it; beyond, an end is square at its
  long point;
* keys lie in pockets of a circular cutter, its middle on the bisector of the outside faces, `plunge` deep
  measured from the outside arris; a loose tongue lies square to the mitre, a third of it from the inside;
* in a butt the one board ends on the inside face of the other, which runs on to the one's outside face;
  holes are square to that face.

Solids have polygons for circles: a pocket's circle has 48 sides, with a corner on its board's centre-line
direction; a hole has 32. So the areas here are those of polygons with as many sides.
"""

import math
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import TypeAlias

from shapely import Polygon, box, unary_union

from tests.property.closed_forms import bored

Point: TypeAlias = tuple[float, float]

LEVEL = 1.0  # edges that differ by no more are level
FAR = 420.0  # of a board's length that is looked at: past the box about the corner
POCKET_SIDES = 48
GROOVE_DEEPER = 0.5  # than half the tongue
GRID = 1e-9


def centre_corners(points: list[Point], thicknesses: list[float], size: str) -> list[Point]:
    """Corners of the centre-lines; side k runs from point k to the next one."""
    if size == "centre":
        return list(points)
    turn = sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(points, points[1:] + points[:1], strict=True))
    inward = math.copysign(1.0, turn) * (1.0 if size == "outside" else -1.0)
    lines = []
    for k, thickness in enumerate(thicknesses):
        (x, y), (x1, y1) = points[k], points[(k + 1) % len(points)]
        long = math.dist((x, y), (x1, y1))
        ux, uy = (x1 - x) / long, (y1 - y) / long
        lines.append(((x - uy * inward * thickness / 2, y + ux * inward * thickness / 2), (ux, uy)))
    return [_meet(*lines[k - 1], *lines[k]) for k in range(len(points))]


def _meet(p: Point, u: Point, q: Point, v: Point) -> Point:
    sine = u[0] * v[1] - u[1] * v[0]
    a = ((q[0] - p[0]) * v[1] - (q[1] - p[1]) * v[0]) / sine
    return (p[0] + a * u[0], p[1] + a * u[1])


@dataclass(frozen=True, slots=True, kw_only=True)
class Arm:
    """One board from the corner on: the direction of its body, and from where to where it is out of the wall."""

    u: Point
    thickness: float
    back: float
    front: float

    def at(self, a: float, c: float) -> Point:
        """A point `a` along it and `c` to its left."""
        return (a * self.u[0] - c * self.u[1], a * self.u[1] + c * self.u[0])

    def strip(self, start: float) -> Polygon:
        """The uncut board from `start` on."""
        half = self.thickness / 2
        return Polygon([self.at(start, -half), self.at(FAR, -half), self.at(FAR, half), self.at(start, half)])


@dataclass(frozen=True, kw_only=True)
class Corner:
    """Two boards that end where their centre-lines meet, which is the origin here."""

    one: Arm
    other: Arm

    @property
    def common(self) -> tuple[float, float]:
        return max(self.one.back, self.other.back), min(self.one.front, self.other.front)

    @property
    def phi(self) -> float:
        """Inside angle, degrees."""
        (ux, uy), (vx, vy) = self.one.u, self.other.u
        return math.degrees(math.atan2(abs(ux * vy - uy * vx), ux * vx + uy * vy))

    @cached_property
    def inner(self) -> Point:
        """Where the inside faces meet; the outside faces meet opposite."""
        corners = []
        for arm, other in ((self.one, self.other), (self.other, self.one)):
            left = arm.u[0] * other.u[1] - arm.u[1] * other.u[0] > 0
            corners.append((arm.at(0.0, arm.thickness / 2 if left else -arm.thickness / 2), arm.u))
        return _meet(*corners[0], *corners[1])

    def runs(self, arm: Arm) -> float:
        """How far the mitre's ends lie along an arm, from the corner's middle."""
        return abs(self.inner[0] * arm.u[0] + self.inner[1] * arm.u[1])

    def to_length(self, arm: Arm) -> float:
        """Angle of the mitre to an arm's length, degrees."""
        return math.degrees(math.asin(min(1.0, arm.thickness / 2 / math.hypot(*self.inner))))

    def slabs(self, *levels: float) -> list[tuple[float, float]]:
        """Out of the wall, between all levels at which something starts or ends."""
        edges = (self.one.back, self.one.front, self.other.back, self.other.front)
        ordered = sorted({*edges, *levels})
        return list(pairwise(ordered))


def filled(shapes: list[Polygon], about: Polygon) -> float:
    """Area that shapes fill in a box. On a grid: sides that all but coincide would lead the overlay astray."""
    return float(unary_union(shapes, grid_size=GRID).intersection(about).area)


def beyond(u: Point, point: Point = (0.0, 0.0)) -> Polygon:
    """Half of the plane, as far as it matters: where `u` leads from the line through `point` square to it."""
    far = 4 * FAR
    nx, ny = -u[1], u[0]
    (x, y), (ux, uy) = point, u
    return Polygon(
        [
            (x - far * nx, y - far * ny),
            (x + far * nx, y + far * ny),
            (x + far * (nx + ux), y + far * (ny + uy)),
            (x - far * (nx - ux), y - far * (ny - uy)),
        ]
    )


@dataclass(frozen=True, kw_only=True)
class Mitre(Corner):
    """A mitre with what strengthens it.

    Attributes:
        keys: middles of the keys out of the wall; `key_thickness`, `cutter`, `plunge` as asked.
        tongue: whether there is one; `stop`, `play` as asked.
    """

    keys: tuple[float, ...] = ()
    key_thickness: float = 0.0
    cutter: float = 100.0
    plunge: float = 12.0
    tongue: bool = False
    stop: float = 12.0
    play: float = 0.1

    def missing(self, reach: float) -> float:
        """Volume that neither part fills where the uncut boards did, in a box about the corner."""
        low, high = self.common
        half = self.key_thickness / 2
        levels = [z + way * half for z in self.keys for way in (-1, 1)]
        levels += [low + self.stop, high - self.stop] if self.tongue else []
        about = box(-reach, -reach, reach, reach)
        volume = 0.0
        for bottom, top in self.slabs(*levels):
            z = (bottom + top) / 2
            blanks, parts = [], []
            for arm, other in ((self.one, self.other), (self.other, self.one)):
                if arm.back < z < arm.front:
                    blank = arm.strip(-self.runs(arm))
                    blanks.append(blank)
                    parts.append(self.part(arm, other, z) if self.mitred(arm, z) else blank)
            volume += (top - bottom) * (filled(blanks, about) - filled(parts, about))
        return volume

    def mitred(self, arm: Arm, z: float) -> bool:
        """Whether an arm is cut to the mitre at this height: over the common depth, and up to an edge that is level."""
        low, high = self.common
        return (arm.back if low <= arm.back + LEVEL else low) < z < (arm.front if high >= arm.front - LEVEL else high)

    def part(self, arm: Arm, other: Arm, z: float) -> Polygon:
        """An arm cut to the mitre, less what is let into it at this height."""
        x, y = self.inner
        normal = (-y, x) if -y * arm.u[0] + x * arm.u[1] > 0 else (y, -x)
        size = math.hypot(*normal)
        normal = (normal[0] / size, normal[1] / size)
        part = arm.strip(-self.runs(arm)).intersection(beyond(normal))
        low, high = self.common
        if any(abs(z - middle) < self.key_thickness / 2 for middle in self.keys):
            part = part.difference(self.pocket(arm))
        if self.tongue and low + self.stop < z < high - self.stop:
            part = part.difference(self.groove(normal))
        return part

    def cutter_middle(self) -> Point:
        bx, by = self.one.u[0] + self.other.u[0], self.one.u[1] + self.other.u[1]
        size = math.hypot(bx, by)
        stand = self.cutter / 2 - self.plunge
        return (-self.inner[0] - stand * bx / size, -self.inner[1] - stand * by / size)

    def pocket(self, arm: Arm, sides: int = POCKET_SIDES) -> Polygon:
        """The cutter's circle as a polygon with a corner in the arm's direction."""
        x, y = self.cutter_middle()
        turns = (2 * math.pi * k / sides for k in range(sides))
        spokes = (arm.at(self.cutter / 2 * math.cos(turn), self.cutter / 2 * math.sin(turn)) for turn in turns)
        return Polygon([(x + dx, y + dy) for dx, dy in spokes])

    @property
    def key_left(self) -> float:
        """Wood from a pocket to the inside arris."""
        return math.dist(self.inner, self.cutter_middle()) - self.cutter / 2

    @property
    def tongue_size(self) -> tuple[float, float]:
        """Thickness and width of a tongue left to the rule: a third and two thirds of the thinner board.

        In whole halves and whole millimetres: the kind's own reading, the geometry notes give no figures.
        """
        thin = min(self.one.thickness, self.other.thickness)
        return max(0.5, math.floor(thin / 3 * 2) / 2), max(2.0, float(math.floor(thin * 2 / 3)))

    def groove(self, normal: Point) -> Polygon:
        """A groove into the arm towards which `normal` leads."""
        thick, wide = self.tongue_size
        return _slab(self.inner, normal, (thick + self.play) / 2, 0.0, wide / 2 + GROOVE_DEEPER)

    def loose_tongue(self) -> Polygon:
        """The tongue where it lies when the corner is together."""
        thick, wide = self.tongue_size
        size = math.hypot(*self.inner)
        return _slab(self.inner, (-self.inner[1] / size, self.inner[0] / size), thick / 2, -wide / 2, wide / 2)


def _slab(inner: Point, normal: Point, half: float, start: float, stop: float) -> Polygon:
    """From `start` to `stop` along a mitre's normal, `half` to either side of a third of the mitre from the inside."""
    (nx, ny), (mx, my) = normal, (inner[0] / 3, inner[1] / 3)
    return Polygon(
        [
            (mx - ny * c + nx * a, my + nx * c + ny * a)
            for a, c in ((start, -half), (stop, -half), (stop, half), (start, half))
        ]
    )


@dataclass(frozen=True, kw_only=True)
class Butt(Corner):
    """`one` ends on the inside face of `other`, which runs through to the outside face of `one`.

    Attributes:
        steps: of all holes in both boards, (diameter, how deep); each lies in the wood whole.
        count: how many such holes there are.
    """

    steps: tuple[tuple[float, float], ...] = field(default=())
    count: int = 0

    def missing(self, reach: float) -> float:
        """Volume that neither part fills where the uncut boards did, in a box about the corner."""
        ends, through = self.parts()
        about = box(-reach, -reach, reach, reach)
        volume = 0.0
        for bottom, top in self.slabs():
            z = (bottom + top) / 2
            here = [(arm, part) for arm, part in ((self.one, ends), (self.other, through)) if arm.back < z < arm.front]
            blanks, parts = [arm.strip(_start(arm, part)) for arm, part in here], [part for _, part in here]
            volume += (top - bottom) * (filled(blanks, about) - filled(parts, about))
        return volume + self.count * bored(self.steps)

    def parts(self) -> tuple[Polygon, Polygon]:
        """The board that ends, and the one that runs through."""
        ends, through = self.one, self.other
        side = 1.0 if through.u[0] * ends.u[1] - through.u[1] * ends.u[0] > 0 else -1.0
        inward = (-through.u[1] * side, through.u[0] * side)
        half = through.thickness / 2
        ended = ends.strip(-FAR).intersection(beyond(inward, (inward[0] * half, inward[1] * half)))
        # from the outside face of the board that ends, towards the body of the one that runs through
        way = 1.0 if -ends.u[1] * through.u[0] + ends.u[0] * through.u[1] > 0 else -1.0
        along = (-ends.u[1] * way, ends.u[0] * way)
        half = ends.thickness / 2
        covers = through.strip(-FAR).intersection(beyond(along, (-along[0] * half, -along[1] * half)))
        return ended, covers


def _start(arm: Arm, part: Polygon) -> float:
    """The long point of a part, along its arm."""
    return min(x * arm.u[0] + y * arm.u[1] for x, y in part.exterior.coords)
