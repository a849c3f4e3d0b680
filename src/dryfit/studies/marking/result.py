"""How the holes in the wall are marked and drilled, and whether all screws find them: as others read it."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from ...geometry.frames import Vec2
from ...sentences import Sentence

Marked: TypeAlias = Literal["in place", "punch", "brad point", "twist bit", "pencil", "measured"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Stray:
    """One thing by which a hole strays from its mark, as a standard deviation in each direction."""

    what: str
    mm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Marking:
    """One fixing's holes.

    Attributes:
        fixing, board: their names.
        way: how the places are found on the wall.
        count: of holes; `screw` the screw's diameter, `hole` that of the hole through the grip.
        strays: all that adds up; empty where the screw is driven in place, which has nothing to meet.
        s: of all of them together, where the head is.
        wanted: the hole with which all holes of its body go in with 95 %; None where nothing need meet.
        slot: height of level slots that would do instead.
        covers: what washer or head still covers where the screw stands to one side, of the hole as it is.
        assumed: what of it no figure is known for; "" for nothing.
        bit: how long a bit of the hole's size must be to mark through it; None where none is needed.
        owned: whether the shop has one.
    """

    fixing: str
    board: str
    way: Marked
    count: int
    screw: float
    hole: float
    strays: tuple[Stray, ...]
    s: float
    wanted: float | None
    slot: float | None
    covers: float | None
    assumed: str
    bit: float | None
    owned: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class MarkedBody:
    """What goes to the wall in one: all its holes must meet at once.

    Attributes:
        body: a unit's name or a board's; "" for the whole piece.
        fixings: those that are marked, not driven in place.
        turns: whether it need not hang level.
        count: of holes.
        chance: that all screws go in, as it is; `k` the room each needs, in standard deviations, for 95 %.
    """

    body: str
    fixings: tuple[str, ...]
    turns: bool
    count: int
    chance: float
    k: float


@dataclass(frozen=True, slots=True, kw_only=True)
class CableZone:
    """A part of the wall where cables usually run, from its lower left to its upper right corner."""

    says: Sentence
    low: Vec2
    high: Vec2


@dataclass(frozen=True, slots=True, kw_only=True)
class Near:
    """A hole in a zone, or near one: the zone by its number, and how far off; 0 inside it."""

    fixing: str
    board: str
    number: int
    zone: int
    off: float


@dataclass(frozen=True, slots=True, kw_only=True)
class WallHole:
    """A hole in the wall, as it is found from the plumb line and the level one.

    Attributes:
        fixing, number: its fixing, and which of its places, from 1.
        at: on the wall, in the job's own set-out.
        right, up: from the two lines; nothing lies left of the one or below the other.
        stud: the centre of the nearest, from the plumb line, and `off` how far right of that it is; None where no
            stud is known.
    """

    fixing: str
    board: str
    number: int
    at: Vec2
    right: float
    up: float
    stud: float | None
    off: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Marks:
    """All of it.

    Attributes:
        plumb, level: where the two lines run that all is measured from: through the leftmost hole or stud, and through
            the lowest holes.
        studs: their centres in the job's set-out, as the job has them.
        holes: by their fixings, in the order of the job.
        country: by whose rule zones are told; "" where the job names none.
        source: of the zones.
        left: what of the rule could not be drawn for want of a place.
        deep: fixings whose screws go deeper into a stud than cables must lie behind its edge, and how deep.
    """

    plumb: float
    level: float
    studs: tuple[float, ...]
    holes: tuple[WallHole, ...]
    rows: tuple[Marking, ...]
    bodies: tuple[MarkedBody, ...]
    country: str
    source: str
    zones: tuple[CableZone, ...]
    near: tuple[Near, ...]
    left: tuple[Sentence, ...]
    deep: tuple[tuple[str, float], ...]
