"""Right-handed frames in space and plain vector sums, on tuples.

Python's `math` throughout, never numpy: its tangent differs in the last bit on some machines, and a
board that moves must give the same numbers on all of them.
"""

import math
from dataclasses import dataclass
from typing import TypeAlias

Vec2: TypeAlias = tuple[float, float]
Vec: TypeAlias = tuple[float, float, float]

LENGTH_DIGITS = 6  # every length of a cut is rounded to 1e-6 mm when it is made
NEAR = 10.0**-LENGTH_DIGITS  # what differs by less is one
COSINE_DIGITS = 12  # and every direction cosine to 1e-12


def length(value: float) -> float:
    """A length as cuts hold it: rounded to 1e-6, never -0.0."""
    return round(value, LENGTH_DIGITS) + 0.0


def cosine(value: float) -> float:
    """A direction cosine as cuts hold it: rounded to 1e-12, never -0.0."""
    return round(value, COSINE_DIGITS) + 0.0


def dot(p: Vec, q: Vec) -> float:
    """Scalar product."""
    return p[0] * q[0] + p[1] * q[1] + p[2] * q[2]


def cross(p: Vec, q: Vec) -> Vec:
    """Vector product."""
    return (
        p[1] * q[2] - p[2] * q[1],
        p[2] * q[0] - p[0] * q[2],
        p[0] * q[1] - p[1] * q[0],
    )


def turned(angle: float) -> Vec2:
    """Unit vector at `angle` degrees; exact at multiples of 90, so that square work stays square."""
    quarter, rest = divmod(angle, 90.0)
    if rest == 0.0:
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[int(quarter) % 4]
    radians = math.radians(angle)
    return (math.cos(radians), math.sin(radians))


@dataclass(frozen=True, slots=True)
class Frame:
    """A right-handed frame: an origin and three unit vectors, given in the frame around it."""

    origin: Vec
    x: Vec
    y: Vec
    z: Vec

    def place(self, p: Vec) -> Vec:
        """A point given in this frame, in the frame around it."""
        o, x, y, z = self.origin, self.x, self.y, self.z
        return (
            o[0] + p[0] * x[0] + p[1] * y[0] + p[2] * z[0],
            o[1] + p[0] * x[1] + p[1] * y[1] + p[2] * z[1],
            o[2] + p[0] * x[2] + p[1] * y[2] + p[2] * z[2],
        )

    def direct(self, v: Vec) -> Vec:
        """A direction given in this frame, in the frame around it."""
        x, y, z = self.x, self.y, self.z
        return (
            v[0] * x[0] + v[1] * y[0] + v[2] * z[0],
            v[0] * x[1] + v[1] * y[1] + v[2] * z[1],
            v[0] * x[2] + v[1] * y[2] + v[2] * z[2],
        )

    def find(self, p: Vec) -> Vec:
        """A point given in the frame around this one, in this frame."""
        o = self.origin
        d = (p[0] - o[0], p[1] - o[1], p[2] - o[2])
        return (dot(d, self.x), dot(d, self.y), dot(d, self.z))

    def find_direction(self, v: Vec) -> Vec:
        """A direction given in the frame around this one, in this frame."""
        return (dot(v, self.x), dot(v, self.y), dot(v, self.z))

    @property
    def matrix(self) -> tuple[tuple[float, float, float, float], ...]:
        """Three rows of four: what takes a point of this frame to the frame around it."""
        o, x, y, z = self.origin, self.x, self.y, self.z
        return tuple((x[i], y[i], z[i], o[i]) for i in range(3))


WORLD = Frame((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
