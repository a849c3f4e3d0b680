"""What the order study reads of a piece."""

from dataclasses import dataclass

from ...geometry.bodies import PartShape
from ...job.model import Turn, Unit
from ...places import Path
from .joints import JointValue
from .staging import BoardValue
from .standing import WallValue


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderValue:
    """All that the order depends on.

    Attributes:
        places: in the order on the wall, by board, as far as the job says.
        tables: of the job file, by the board that has its place there.
        told: sets of boards that settling has found locked.
        wall: at which it is put up; None for a piece that does not hang.
        told_behind: boards of which the set-out says already that one comes from behind, or before what it stands on.
    """

    parts: tuple[PartShape, ...]
    boards: tuple[BoardValue, ...]
    units: tuple[Unit, ...]
    places: tuple[tuple[str, Turn], ...]
    tables: tuple[tuple[str, Path], ...]
    joints: tuple[JointValue, ...]
    told: tuple[tuple[str, ...], ...]
    wall: WallValue | None = None
    told_behind: tuple[tuple[str, ...], ...] = ()
