"""The hand's room: where the hand on a driver is, beside the straight line of bit and screw.

A drill hangs its grip off its axis, an angle driver its whole body. Either may be held any way round; TURNS of them are
tried. What both are like is from memory: a drill's body is 200 long (common practice) and its grip, with battery and
the hand on it, reaches 200 from the axis, begins 60 behind the chuck and is 80 across; an angle driver's body reaches
300 from the bit's axis and is 60 across.

Worked example: a counterbore 200 deep, a bit of 230 that stands out by 30, a screw that travels 50: the grip is between
30 + 60 = 90 and 30 + 50 + 200 = 280 out of the mouth.
"""

import math
from dataclasses import dataclass

from ...geometry.bodies import clipped
from ...geometry.frames import Vec2
from .wood import CONTACT, ConvexBody

TURNS = 12
GRIP, BEFORE_GRIP, GRIP_WIDE = 200.0, 60.0, 80.0  # of a drill (from memory)
BODY, BODY_WIDE = 300.0, 60.0  # of an angle driver, from the bit's axis on (from memory)


@dataclass(frozen=True, slots=True)
class HandRoom:
    """What the hand takes up: `far` to one side of the axis, `wide` across, from `low` to `high` out of the mouth."""

    low: float
    high: float
    far: float
    wide: float

    @classmethod
    def of(cls, bit_out: float, travel: float, behind: float, *, angle: bool) -> "HandRoom":
        """Of a drill or an angle driver that is `behind` long behind its bit, all the way that the screw goes in."""
        high = bit_out + travel + behind
        if angle:
            return cls(max(bit_out, 0.0), high, BODY, BODY_WIDE)
        return cls(max(bit_out + BEFORE_GRIP, 0.0), high, GRIP, GRIP_WIDE)

    @property
    def reach(self) -> float:
        """How far from the axis anything of it is."""
        return math.hypot(self.far, self.wide / 2)

    def corners(self, at: Vec2, turn: int) -> tuple[Vec2, ...]:
        """Of it held one way round, seen along the axis."""
        c, s = _way(turn)
        half = self.wide / 2
        return tuple((at[0] + a * c - b * s, at[1] + a * s + b * c) for a in (0.0, self.far) for b in (-half, half))

    def meets(self, body: ConvexBody, at: Vec2, front: float, turn: int) -> bool:
        """Whether a body is in its way, held one way round at an axis along z."""
        if body.high <= front + self.low + CONTACT or body.low >= front + self.high - CONTACT:
            return False
        (x, y), (c, s), half = at, _way(turn), self.wide / 2 - CONTACT
        left = body.faces
        for point, normal in (
            ((x + self.far * c, y + self.far * s, 0.0), (c, s, 0.0)),
            ((x, y, 0.0), (-c, -s, 0.0)),
            ((x - half * s, y + half * c, 0.0), (-s, c, 0.0)),
            ((x + half * s, y - half * c, 0.0), (s, -c, 0.0)),
            ((x, y, front + self.high - CONTACT), (0.0, 0.0, 1.0)),
            ((x, y, front + self.low + CONTACT), (0.0, 0.0, -1.0)),
        ):
            inside = clipped(left, point, normal)
            if inside is None:
                return False
            left = inside
        return True


def _way(turn: int) -> Vec2:
    angle = 2 * math.pi * turn / TURNS
    return math.cos(angle), math.sin(angle)
