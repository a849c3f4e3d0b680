"""What is seen of the mouths of screws, and of the plugs in them, once all stands there: covered, or from which sides.

Each is looked at on its middle and on points of its rim, a little before the surface that it lies in. It is covered
where something lies against all of these; from a side of the piece it is seen where a straight line from there meets
any of them first. Nothing stands in the room but the piece.

Worked example: a side 24 thick from x = 0 to 24, its screws' mouths at x = 0: from the left they are seen. A board 24
thick laid against it, from -24 to 0, covers them; 3 off it covers none, since one may look in between.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import cached_property

from ...geometry.frames import Vec, dot
from .lines import RoomEnd
from .result import LookedFrom, ScrewMouth
from .sights import AGAINST, BEFORE, looked_at, plus
from .value import DrivingValue, MouthValue
from .wood import CONTACT, AlongAxis, ConvexBody

SIDES: tuple[tuple[LookedFrom, Vec], ...] = (
    ("front", (0.0, 0.0, 1.0)),
    ("left", (-1.0, 0.0, 0.0)),
    ("right", (1.0, 0.0, 0.0)),
    ("top", (0.0, 1.0, 0.0)),
    ("underside", (0.0, -1.0, 0.0)),
    ("back", (0.0, 0.0, -1.0)),
)
LIES = 1.0  # what is nearer lies against it: into such a gap nobody sees (ours)
GAP = LIES - BEFORE  # the same from the points looked at


class Outside:
    """All that stands there in the end."""

    def __init__(self, value: DrivingValue, every: Sequence[ConvexBody], ends: Sequence[RoomEnd]) -> None:
        self._every = every
        self._ends = [*ends, (2, 0.0, 1, "the wall")] if value.walled else list(ends)
        self._walled = value.walled

    @cached_property
    def _along(self) -> tuple[AlongAxis, ...]:
        return tuple(AlongAxis(self._every, axis) for axis in range(3))

    @cached_property
    def _far(self) -> float:
        """Longer than the piece is in any direction."""
        places = [coordinate for body in self._every for face in body.faces for point in face for coordinate in point]
        return 2 * (max(places) - min(places)) + LIES

    def seen(self, mouth: MouthValue) -> ScrewMouth:
        """What is seen of one."""
        points = looked_at(mouth)
        over = [self._over(point, mouth.normal) for point in points]
        by = Counter(one for one in over if one)
        open_to = [point for point, one in zip(points, over, strict=True) if one is None]
        looks = max(SIDES, key=lambda side: dot(side[1], mouth.normal))[0]
        return ScrewMouth(
            what=mouth.what,
            board=mouth.board,
            cut=mouth.cut,
            joint=mouth.joint,
            at=mouth.at,
            out=mouth.out,
            normal=mouth.normal,
            wide=mouth.wide,
            looks=looks,
            covered=not open_to,
            by=tuple(name for name, _ in sorted(by.items(), key=lambda item: (-item[1], item[0]))),
            seen_from=tuple(self._sides(open_to, mouth.normal)),
        )

    def _over(self, point: Vec, normal: Vec) -> str | None:
        """The part that lies against a point, "" for the room's end, None where nothing does."""
        past = plus(point, normal, GAP)
        if any((past[axis] - place) * side < 0.0 for axis, place, side, _ in self._ends):
            return ""
        way = (GAP * normal[0], GAP * normal[1], GAP * normal[2])
        steepest = max(range(3), key=lambda axis: abs(normal[axis]))
        found = self._along[steepest].near(point, LIES)
        return next((body.part for body in found if body.within(point, way) > CONTACT), None)

    def _sides(self, points: Sequence[Vec], normal: Vec) -> Iterator[LookedFrom]:
        for name, way in SIDES:
            faces = dot(way, normal) > AGAINST and not (name == "back" and self._walled)
            if faces and any(self._is_open(point, way) for point in points):
                yield name

    def _is_open(self, point: Vec, way: Vec) -> bool:
        """Whether no wood stands anywhere before a point along an axis."""
        axis = max(range(3), key=lambda number: abs(way[number]))
        far = (self._far * way[0], self._far * way[1], self._far * way[2])
        return all(body.within(point, far) <= CONTACT for body in self._along[axis].near(point))
