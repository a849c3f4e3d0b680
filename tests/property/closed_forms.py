"""What a joint's volumes and gaps must be, by plane geometry alone: nothing of Dryfit is imported here.

Each kind's own form stands beside its test, in `tests/joints/`; here is what they are drawn with. The rules are those
of the set-out (conventions of the project's geometry notes): a slot or housing is as wide across its walls as the
board that enters, its film and the film on the walls, the swelling allowed for and the clearance come to.

Everything is worked out in a plane of its own: the receiving board lies along the x axis, its touched face
is y = 0, the entering board rises from there at `angle`. Solids are thickness without film.
"""

import math
from dataclasses import dataclass
from typing import Any, TypeAlias

Point: TypeAlias = tuple[float, float]
Polygon: TypeAlias = list[Point]

HOLE_SIDES = 32
FLUSH = 1.0  # no further apart counts as level
Z = "out of the wall"  # the direction of a facing pair that does not lie in the elevation


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One board: thickness as put together, film on a face, and from where to where it is out of the wall."""

    thickness: float
    film: float
    back: float
    front: float


@dataclass(frozen=True, slots=True)
class Facing:
    """A pair of surfaces that face each other when put together.

    Attributes:
        direction: of their normal, degrees from the receiving board's x in [0, 180), or `Z`.
        gap: how far apart they lie.
    """

    name: str
    direction: float | str
    gap: float


class Form:
    """What plane geometry makes of one joint."""

    @property
    def in_limits(self) -> bool:
        """Whether the kind says that it makes this."""
        return True

    @property
    def unseen(self) -> list[tuple[str, float]]:
        """Gaps that the joint has besides, to things that are no boards, with their names."""
        return []

    def missing(self) -> float:
        """Volume that neither part fills where the uncut boards did: clearance and open notches, mm3."""
        raise NotImplementedError

    def facings(self) -> list[Facing]:
        """All facing pairs of surfaces, directions counted from the receiving board's line; wedges have none."""
        raise NotImplementedError


@dataclass(frozen=True, slots=True, kw_only=True)
class Seen:
    """A form as it lies in the elevation.

    Attributes:
        heading: of the receiving board's line, degrees anticlockwise from level.
        mirrored: whether the form's other hand lies there: directions are counted clockwise.
    """

    form: Form
    heading: float
    mirrored: bool = False


# ---- plane polygons


def area(points: Polygon) -> float:
    return abs(sum(points[i - 1][0] * p[1] - p[0] * points[i - 1][1] for i, p in enumerate(points))) / 2


def clipped(points: Polygon, point: Point, direction: float) -> Polygon:
    """What of a convex polygon lies behind the line through `point` whose normal has this direction."""
    nx, ny = math.cos(math.radians(direction)), math.sin(math.radians(direction))
    kept: Polygon = []
    for i, q in enumerate(points):
        p = points[i - 1]
        hp, hq = (nx * (r[0] - point[0]) + ny * (r[1] - point[1]) for r in (p, q))
        if hp * hq < 0.0:
            kept.append((p[0] + (q[0] - p[0]) * hp / (hp - hq), p[1] + (q[1] - p[1]) * hp / (hp - hq)))
        if hq <= 0.0:
            kept.append(q)
    return kept


def common(one: Polygon, other: Polygon) -> float:
    """Area that two convex polygons share."""
    if not one or not other:
        return 0.0
    kept = one
    turn = sum(other[i - 1][0] * p[1] - p[0] * other[i - 1][1] for i, p in enumerate(other))
    for i, q in enumerate(other):
        p = other[i - 1]
        outward = math.degrees(math.atan2(q[1] - p[1], q[0] - p[0])) - math.copysign(90.0, turn)
        kept = clipped(kept, p, outward)
    return area(kept)


def union(one: Polygon, other: Polygon) -> float:
    """Area that one of two convex polygons covers, or both."""
    return area(one) + area(other) - common(one, other)


def polygon_area(diameter: float, sides: int) -> float:
    """Area of a regular polygon whose corners lie on a circle."""
    return sides / 2 * (diameter / 2) ** 2 * math.sin(2 * math.pi / sides)


def bored(steps: tuple[tuple[float, float], ...]) -> float:
    """Volume of a stepped round hole, (diameter, how deep) by step; a solid's circles have 32 sides."""
    return sum(polygon_area(diameter, HOLE_SIDES) * deep for diameter, deep in steps)


# ---- boards and widths


def bar_of(pair: Any, drawn: Any) -> Bar:
    """One board of a drawn pair (`tests.strategies`) as the plane sees it."""
    return Bar(thickness=pair.mounted(drawn), film=pair.film_on(drawn), back=drawn.back, front=drawn.front)


def across(enters: Bar, receives: Bar, clearance: float, swelling: float) -> float:
    """Between the walls of a slot."""
    return enters.thickness + 2 * enters.film + 2 * receives.film + clearance + swelling


def wall_gap(enters: Bar, receives: Bar, clearance: float, swelling: float) -> float:
    """Each side: half the clearance, the films, half the swelling."""
    return clearance / 2 + enters.film + receives.film + swelling / 2
