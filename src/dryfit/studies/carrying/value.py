"""What carrying reads of a job and its piece."""

from dataclasses import dataclass

from ...geometry.frames import Vec
from ...places import Edit, Path
from .result import Passage


@dataclass(frozen=True, slots=True, kw_only=True)
class Divisible:
    """Where a loose board may be divided soundly so that both members pass all of the way.

    Attributes:
        longer: of the two, how long it is.
        edit: that divides it.
    """

    longer: float
    edit: Edit


@dataclass(frozen=True, slots=True, kw_only=True)
class BodyValue:
    """What is carried as one.

    Attributes:
        name: a unit's or a loose board's; "" of the whole piece.
        boards: with parts that something is left of.
        weighed_kg: as weighed; None where it was not.
        path: of the unit's table; () where it has none.
        groups: its boards as glue holds them together; each as the job file names them.
        divisible: of a single board that does not pass; None where no sound place helps.
    """

    name: str
    boards: tuple[str, ...]
    weighed_kg: float | None
    path: Path
    groups: tuple[tuple[str, ...], ...]
    divisible: Divisible | None


@dataclass(frozen=True, slots=True, kw_only=True)
class CarryingValue:
    """All that the sums need.

    Attributes:
        corners: of each board, in the world.
        mass_kg: of each board that has one.
        way: what is passed, in its order; `lost` as in the result.
        ceiling: over the floor; None where nobody says.
        hung: whether nothing of the piece stands on the floor.
        whole: the board of the job file that each member of a divided one is part of.
        taken: names of boards, frames and units.
    """

    bodies: tuple[BodyValue, ...]
    corners: tuple[tuple[str, tuple[Vec, ...]], ...]
    mass_kg: tuple[tuple[str, float], ...]
    way: tuple[Passage, ...]
    lost: tuple[tuple[int, str], ...]
    ceiling: float | None
    hung: bool
    whole: tuple[tuple[str, str], ...]
    taken: frozenset[str]
