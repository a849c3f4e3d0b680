"""The elevation plane of a meeting, as each of its two bodies sees it.

Each body has its own plane coordinates (a along, c through the thickness); both planes are the same paper,
turned and moved. Joint kinds set out a joint on the body that receives and carry points and directions
over to the one that enters.
"""

import math
from dataclasses import dataclass

from ..geometry.frames import Vec2, turned
from .model import FAR_END, Side


@dataclass(frozen=True, slots=True)
class Lines:
    """Side b's plane with side a's line drawn in it, and the way over into a's plane.

    Attributes:
        along: unit vector of a's x in b's plane; for an end, turned to point into b.
        at: where the centre-lines meet, on b's line.
        sine: of the angle between the lines, always positive.
        cotangent: a's run along b for one unit of c, signed.
    """

    a: Side
    b: Side
    along: Vec2
    at: float
    sine: float
    cotangent: float

    @classmethod
    def of(cls, receives: Side, enters: Side) -> "Lines":
        """The plane of the body that receives, with the line of the one that enters."""
        x, y = turned(receives.turn)
        if enters.end and enters.end != FAR_END:
            x, y = -x + 0.0, -y + 0.0
        return cls(a=enters, b=receives, along=(x, y), at=receives.at, sine=abs(y), cotangent=x / y)

    def on_line(self, c: float, beside: float = 0.0) -> Vec2:
        """The point at height `c` on the line that runs `beside` a's centre-line, to its right along `along`."""
        return (self.at + c * self.cotangent + beside / self.along[1], c)

    def carry(self, point: Vec2) -> Vec2:
        """A point of b's plane, in a's plane."""
        x, y = turned(self.a.turn)
        da, c = point[0] - self.b.at, point[1]
        return (self.a.at + da * x - c * y, da * y + c * x)

    def carry_direction(self, direction: Vec2) -> Vec2:
        """A direction of b's plane, in a's plane."""
        x, y = turned(self.a.turn)
        return (direction[0] * x - direction[1] * y, direction[0] * y + direction[1] * x)


def slot(receives: Side, enters: Side, width: float, over: float) -> tuple[Vec2, Vec2, Vec2, Vec2]:
    """Outline of a slot through a board's whole thickness, its walls parallel to the other's faces.

    `width` is measured across the walls; the outline runs `over` past the board's thickest place.
    """
    lines = Lines.of(receives, enters)
    c = receives.thickest / 2 + over
    left, right = -width / 2, width / 2
    return lines.on_line(-c, left), lines.on_line(-c, right), lines.on_line(c, right), lines.on_line(c, left)


def square_slot(receives: Side, enters: Side, width: float, over: float) -> tuple[Vec2, Vec2, Vec2, Vec2]:
    """Outline of a slot with walls square to the face, just wide enough for a leaning board.

    `width` is across a leaning slot's walls; what the lean adds over the thickness is put on.
    """
    lines = Lines.of(receives, enters)
    half = (width / lines.sine + receives.thickness * abs(lines.cotangent)) / 2
    c = receives.thickest / 2 + over
    return (lines.at - half, -c), (lines.at + half, -c), (lines.at + half, c), (lines.at - half, c)


def lean(lines: Lines) -> float:
    """Degrees off square of a's line in b's plane; positive where it leans to the far end at +c."""
    return math.degrees(math.atan(lines.cotangent))
