"""What the study reads of a piece."""

from dataclasses import dataclass

from ...geometry.bodies import PartShape
from ...geometry.frames import Vec, Vec2
from ...places import Pair, Path
from ...sentences import Value
from .result import Eye, From, Seen, StepComing


@dataclass(frozen=True, slots=True, kw_only=True)
class RoomAlong:
    """Where along its board a screw may be moved to.

    Attributes:
        way: unit vector in the elevation, in which `at` grows.
        at: its place along the board, from its line's start; `low` and `high` the ends of what is left free at the
            board's ends.
        others: the places of the fixing's other screws; `apart` how far it must stay from them.
        taken: from and to along the board where other cuts leave it no wood.
    """

    way: Vec2
    at: float
    low: float
    high: float
    others: tuple[float, ...]
    apart: float
    taken: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewValue:
    """One screw into the wall; as `result.Driven` has it, before it is known when it is driven.

    Attributes:
        called: its fixing in a sentence; `path` its table.
        lines: (length of a driver, what must be free with it): that used first, then shorter ones that would reach.
        along: None where it may not be moved: into a stud.
    """

    fixing: str
    called: Value
    path: Path
    number: int
    cut: str
    board: str
    mouth: Vec
    screw: str
    anchor: str
    plugged: bool
    counterbore: float
    deep: float
    least: float
    lines: tuple[tuple[float, float], ...]
    bit_from: From
    owned: str
    asked: int | None
    along: RoomAlong | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """What an eye may see: points of it, and the way out of a mouth (None of a notch, which is open to all sides)."""

    what: Seen
    board: str
    cut: str
    joint: Pair | None
    points: tuple[Vec, ...]
    out: Vec | None


@dataclass(frozen=True, slots=True, kw_only=True)
class DrivingValue:
    """All that is read.

    Attributes:
        steps: none where no order is worked out.
        unmade: fixings of which no screw is made, each with its table: they are told of elsewhere.
        floor, ceiling, left, right: where the room ends; None where that is not known.
        room: what of it the job does not give.
    """

    parts: tuple[PartShape, ...]
    steps: tuple[StepComing, ...]
    screws: tuple[ScrewValue, ...]
    unmade: tuple[tuple[str, Path], ...]
    eyes: tuple[Eye, ...]
    targets: tuple[Target, ...]
    floor: float | None
    ceiling: float | None
    left: float | None
    right: float | None
    room: tuple[str, ...]
