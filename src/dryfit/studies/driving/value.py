"""What the study reads of a piece."""

from dataclasses import dataclass

from ...geometry.bodies import PartShape
from ...geometry.frames import Vec, Vec2
from ...job.model import Turn
from ...places import Edit, Pair, Path
from ...sentences import Value
from .result import BenchStep, Eye, From, ScrewStands, Seen, StepComing


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
class CarriedAs:
    """What goes up as one, a unit or a loose board, and where its place in the order on the wall is said.

    Attributes:
        parts: their ids.
        place: that it has; None where that is left to be settled.
        path: of its table; `alone` whether a place may be said there, and of nothing else.
        row: of a board in a row, its number there where no exception speaks of it yet; else 0.
        unit: of a `[[unit]]`, its boards; `glued` those that are glued to another of them.
    """

    name: str
    parts: tuple[str, ...]
    place: Turn | None
    path: Path
    alone: bool
    row: int = 0
    unit: tuple[str, ...] = ()
    glued: tuple[str, ...] = ()

    def put_in(self, place: Turn) -> Edit:
        """The change of the job file that gives it a place."""
        if self.row:
            return Edit(action="add", path=(*self.path, "except"), value={"i": self.row, "place": place})
        return Edit(action="set", path=(*self.path, "place"), value=place)


@dataclass(frozen=True, slots=True, kw_only=True)
class AngleDriver:
    """An angle driver of the shop's that reaches: its bit, how high its head stands over that, the line it wants."""

    name: str
    bit: float
    head: float
    line: float


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewValue:
    """One screw into the wall; as `result.Driven` has it, before it is known when it is driven.

    Attributes:
        called: its fixing in a sentence; `path` its table.
        lines: (length of a driver, what must be free with it): that used first, then shorter ones that would reach,
            the longest first; `longer` those that are longer, the shortest first.
        travel: how far it still goes in once it stands in its holes.
        angles: what there is in the shop where a drill has no room, the shortest line first.
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
    stands: ScrewStands
    lines: tuple[tuple[float, float], ...]
    longer: tuple[tuple[float, float], ...]
    travel: float
    angles: tuple[AngleDriver, ...]
    bit_from: From
    owned: str
    asked: int | None
    along: RoomAlong | None


@dataclass(frozen=True, slots=True, kw_only=True)
class JoinedValue:
    """One screw from board to board; as `result.JoinedScrew` has it, before it is known when it is driven.

    Attributes:
        counterbore, deep: its hole in the board that its head is in.
        travel: how far it still goes in once it stands in its holes.
    """

    joint: Pair
    number: int
    cut: str
    board: str
    into: str
    mouth: Vec
    out: Vec
    screw: str
    counterbore: float
    deep: float
    travel: float
    bit: float
    line: float
    bit_from: From
    owned: str
    angles: tuple[AngleDriver, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Target:
    """What an eye may see: points of it, and the way out of a mouth's surface.

    `out` is None of a notch, which is open to all sides.
    """

    what: Seen
    board: str
    cut: str
    joint: Pair | None
    points: tuple[Vec, ...]
    out: Vec | None


@dataclass(frozen=True, slots=True, kw_only=True)
class MouthValue:
    """One mouth of a screw; as `result.ScrewMouth` has it, before it is known what lies against it."""

    what: Seen
    board: str
    cut: str
    joint: Pair | None
    at: Vec
    out: Vec
    normal: Vec
    wide: float


@dataclass(frozen=True, slots=True, kw_only=True)
class DrivingValue:
    """All that is read.

    Attributes:
        steps: none where no order is worked out.
        unmade: fixings of which no screw is made, each with its table: they are told of elsewhere.
        floor, ceiling, left, right: where the room ends; None where that is not known.
        room: what of it the job does not give.
        bench, joined: as in the result, the screws before it is known when they are driven.
        mouths: of all screws; `walled` whether there is a wall behind the piece.
        carried: what goes up, or is put together, as one.
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
    bench: tuple[BenchStep, ...]
    joined: tuple[JoinedValue, ...]
    mouths: tuple[MouthValue, ...]
    walled: bool
    carried: tuple[CarriedAs, ...]
