"""The plane of a corner: two boards that end at one point, seen by either of them.

The cut of a mitre runs from where the inside faces meet to where the outside faces meet; with equal
thickness that halves the angle, with unequal it does not. Both points lie on one line through the point
where the centre-lines meet.
"""

import math
from dataclasses import dataclass

from ..geometry.frames import Vec2, turned
from .model import DATUM_END, Side


@dataclass(frozen=True, slots=True)
class Corner:
    """One board's corner in its own (a, c) plane, measured from where the centre-lines meet.

    Attributes:
        side: the board, whose plane this is.
        away: unit vector from the corner along this board's own body.
        other: unit vector from the corner along the other board's body.
        inside: +1 or -1 of c: the face towards the inside of the corner.
        inner: from the corner's middle to where the inside faces meet; the outside ones meet opposite.
        phi: inside angle, degrees.
    """

    side: Side
    away: Vec2
    other: Vec2
    inside: int
    inner: Vec2
    phi: float

    @classmethod
    def of(cls, side: Side, other: Side) -> "Corner":
        """The corner as `side` sees it."""
        away = (1.0, 0.0) if side.end == DATUM_END else (-1.0, 0.0)
        x, y = turned(side.turn)
        sign = 1.0 if other.end == DATUM_END else -1.0
        along = (sign * x + 0.0, sign * y + 0.0)
        inside = 1 if along[1] > 0 else -1
        # the other's inside face lies half its thickness from its line, towards this board's body
        normal = _towards(along, away)
        c = inside * side.thickness / 2
        a = (other.thickness / 2 - c * normal[1]) / normal[0]
        phi = math.degrees(math.atan2(abs(along[1]), away[0] * along[0]))
        return cls(side=side, away=away, other=along, inside=inside, inner=(a, c), phi=phi)

    @property
    def cut_length(self) -> float:
        """Length of the mitre in the elevation."""
        return 2 * math.hypot(*self.inner)

    @property
    def long_less_short(self) -> float:
        """Long point less short point of this board at this end."""
        return 2 * abs(self.inner[0])

    @property
    def to_length(self) -> float:
        """Angle of the cut to this board's length, degrees."""
        return math.degrees(math.atan2(abs(self.inner[1]), abs(self.inner[0])))

    @property
    def outward(self) -> Vec2:
        """Unit normal of the mitre, out of this board's body into the other's."""
        size = math.hypot(*self.inner)
        nx, ny = -self.inner[1] / size, self.inner[0] / size
        return (nx, ny) if nx * self.away[0] + ny * self.away[1] < 0 else (-nx, -ny)

    def at(self, point: Vec2) -> Vec2:
        """A point measured from the corner's middle, in the board's own plane."""
        return (self.side.at + point[0], point[1])

    @property
    def bisector(self) -> Vec2:
        """Unit vector from the outside arris into the corner, halving the angle of the outer faces."""
        x, y = self.away[0] + self.other[0], self.away[1] + self.other[1]
        size = math.hypot(x, y)
        return (x / size, y / size)


def _towards(line: Vec2, body: Vec2) -> Vec2:
    """Unit normal of a line on the side of a body."""
    normal = (-line[1], line[0])
    return normal if normal[0] * body[0] + normal[1] * body[1] > 0 else (line[1], -line[0])
