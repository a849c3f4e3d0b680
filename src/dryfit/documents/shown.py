"""What the live drawing is made of, for the page to paint as it is: plain data in the job's mm, y up.

The sheets' display list (`display`) is in mm of paper; this one is in mm of the piece, because the page zooms.
Pens, fills and marks are named, and the page gives each its width on the screen. Identity is by board and by
pair of boards, so that a change can be sent as the boards and joints that changed.
"""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from ..geometry.frames import Vec2
from ..places import Pair, Path

Axis: TypeAlias = Literal["x", "y"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Line:
    """A line through points.

    Attributes:
        pen: "ground", "wall", "stud", "centre", "hidden", "inner".
    """

    points: tuple[Vec2, ...]
    pen: str
    closed: bool = False
    kind: Literal["line"] = "line"


@dataclass(frozen=True, slots=True, kw_only=True)
class Words:
    """One line of lettering at a place."""

    at: Vec2
    text: str
    anchor: Literal["start", "middle", "end"] = "middle"
    kind: Literal["words"] = "words"


Drawn: TypeAlias = Line | Words


@dataclass(frozen=True, slots=True, kw_only=True)
class Along:
    """A running dimension along a board's centre-line, from its foot to a joint's, or to the board's other end.

    Attributes:
        value: from the foot, mm; for a fixing with several places there is one of these for each.
        joint: None for the board's other end.
    """

    value: float
    joint: Pair | None


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardShown:
    """One board in elevation.

    Attributes:
        outline: its whole outline, anticlockwise.
        face: what is seen of its front, cuts out of it; areas one after the other, even-odd.
        lines: cut marks on it.
        line: as drawn in the job, from its start to its end.
        thickness, depth, back, front: front and back out of the wall; boards are painted by `front`, low first.
        length: over the long points; None for a board that is cut away.
        rake: direction of the line, degrees anticlockwise from level, in (-180, 180].
        frame, row: the frame it belongs to, "" for none; whether it is one of a row of `count`.
        index: its number in the row or frame.
        mark: its letter on the sheets.
        path: of its table in the job file.
        label_at: where its name may stand.
        foot, head: the ends of its centre-line, the lower one first; the datum end where it lies level.
        along: what is met along it, nearest to its foot first.
    """

    name: str
    timber: str
    outline: tuple[Vec2, ...]
    face: tuple[tuple[Vec2, ...], ...]
    lines: tuple[Line, ...]
    line: tuple[Vec2, Vec2]
    thickness: float
    depth: float
    back: float
    front: float
    length: float
    rake: float
    lies: Literal["across", "flat"]
    frame: str
    row: bool
    index: int
    mark: str
    path: Path
    label_at: Vec2
    foot: Vec2
    head: Vec2
    along: tuple[Along, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CutSaid:
    """A cut's figures in a line: `board` "shelf 2", `word` "housing", `says` "24.05 across, 8 deep"."""

    board: str
    word: str
    says: str


@dataclass(frozen=True, slots=True, kw_only=True)
class JointShown:
    """One joint in elevation.

    Attributes:
        mark: the word of its mark: its kind, "stopped" before it where a cut is stopped.
        at: where the centre-lines meet; of a fixing, its first place, and `also` its others.
        making: how it is made, in words.
        front: the board whose slot opens to the front, "" where the word has no meaning.
        says: the figures of its cuts, of those that have any.
    """

    boards: Pair
    kind: str
    mark: str
    at: Vec2
    also: tuple[Vec2, ...]
    angle: float
    making: str
    front: str
    says: tuple[CutSaid, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Dimension:
    """A running dimension from the datum (the wall's left end, the floor).

    Attributes:
        of: the board or thing it places, in words.
        board: "" where it is the wall's.
        path: of the value that says it alone, so that it may be typed in place; None where it follows.
    """

    axis: Axis
    value: float
    of: str
    board: str
    path: Path | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Beside:
    """One board seen from the left: depths out of the wall (x) and heights (y)."""

    board: str
    outline: tuple[Vec2, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Elevation:
    """The whole live drawing.

    Attributes:
        extent: left, foot, right, head of piece and wall.
        wall: ground, room and studs.
        side: the boards seen from the left, the far ones first, so that painting hides what is hidden.
    """

    extent: tuple[float, float, float, float]
    wall: tuple[Drawn, ...]
    boards: tuple[BoardShown, ...]
    joints: tuple[JointShown, ...]
    dimensions: tuple[Dimension, ...]
    side: tuple[Beside, ...]
