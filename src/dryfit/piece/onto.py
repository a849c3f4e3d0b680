"""One board's end flat against another's face: sums in the elevation plane, with no rule of any kind of joint.

At a corner either board may be the one that runs through; the end of the other stands on its inside face, and its
own end is flush with the other's outside.
"""

import math
from dataclasses import dataclass

from ..geometry.frames import Vec, Vec2, cosine
from ..geometry.shapes import Bore, HalfSpace, half_space
from .corner import Corner
from .holes import HoleRow, Span, bores
from .model import Meeting, Side, Touch
from .plane import Lines


@dataclass(frozen=True, slots=True)
class Onto:
    """One board's end against another's face.

    Attributes:
        ends, takes: the board that ends, and the one whose face it meets.
        face: which face of `takes` (+1 or -1 of c).
    """

    ends: Side
    takes: Side
    face: int

    @classmethod
    def of(cls, meeting: Meeting, through: str = "") -> "Onto":
        """As boards meet; at a corner the board called `through` runs through, or the one that lies more level."""
        a, b = meeting.a, meeting.b
        if b.touch is Touch.FACE:
            return cls(ends=a, takes=b, face=b.face)
        takes, ends = (a, b) if (through or _level(meeting)) == a.body else (b, a)
        return cls(ends=ends, takes=takes, face=Corner.of(takes, ends).inside)

    @property
    def lines(self) -> Lines:
        """The plane of the board whose face it is."""
        return Lines.of(self.takes, self.ends)

    @property
    def face_c(self) -> float:
        """Height of the face in the board that takes."""
        return self.face * self.takes.thickness / 2

    @property
    def middle(self) -> Vec2:
        """Where the centre-line of the end meets the face, in the plane of the board that takes."""
        return self.lines.on_line(self.face_c)

    @property
    def overlap(self) -> Span:
        """From and to out of the wall."""
        return max(self.ends.back, self.takes.back), min(self.ends.front, self.takes.front)

    @property
    def facing(self) -> Span | None:
        """The same of what stands opposite on the other face; None where nothing does."""
        if self.takes.facing is None:
            return None
        back, front = self.takes.facing
        return max(back, self.takes.back), min(front, self.takes.front)

    @property
    def end_plane(self) -> HalfSpace:
        """What is taken off the end, down to the face."""
        lines = self.lines
        return half_space(lines.carry(self.middle), lines.carry_direction((0.0, -float(self.face))))

    @property
    def covering_plane(self) -> HalfSpace:
        """What is taken off the board that runs through at a corner: beyond the outside face of the one that ends."""
        corner = Corner.of(self.takes, self.ends)
        x, y = corner.other
        normal = (-y, x) if -y * corner.away[0] + x * corner.away[1] < 0 else (y, -x)
        half = self.ends.thickness / 2
        return half_space(corner.at((normal[0] * half, normal[1] * half)), normal)

    def face_holes(self, row: HoleRow) -> tuple[Bore, ...]:
        """Holes square to the face under the middle of the end; those that go through start at the far face."""
        way = float(self.face)
        if row.through:
            return bores(self.takes, (self.middle[0], -self.face_c), (0.0, way), row.places, row.face, through=True)
        return bores(self.takes, self.middle, (0.0, -way), row.places, row.face)

    def end_holes(self, row: HoleRow) -> tuple[Bore, ...]:
        """Holes in the end, square to the face it stands on."""
        out = self.lines.carry_direction((0.0, float(self.face)))
        return bores(self.ends, self.lines.carry(self.middle), out, row.places, row.end)

    def out_of_face(self, meeting: Meeting) -> Vec:
        """World direction in which the end comes off the face."""
        if self.takes.body == meeting.b.body:
            y = meeting.frame.y
        else:
            y = _turned(meeting.frame.y, math.radians(meeting.b.turn))
        return (cosine(self.face * y[0]), cosine(self.face * y[1]), 0.0)


def _level(meeting: Meeting) -> str:
    """The one of two boards that lies more level; ties to the first name, whoever comes first in the file."""
    bx = meeting.frame.x
    rise_b = abs(bx[1])
    rise_a = abs(_turned(bx, math.radians(meeting.b.turn))[1])
    if abs(rise_a - rise_b) < 1e-9:
        return meeting.key[0]
    return meeting.b.body if rise_b < rise_a else meeting.a.body


def _turned(v: Vec, radians: float) -> Vec:
    c, s = math.cos(radians), math.sin(radians)
    return (v[0] * c - v[1] * s, v[0] * s + v[1] * c, 0.0)
