"""What the order study reads of a piece."""

from dataclasses import dataclass

from ...geometry.bodies import PartShape
from ...job.model import Unit
from .joints import JointValue
from .plan import BoardValue


@dataclass(frozen=True, slots=True, kw_only=True)
class OrderValue:
    """All that the order depends on.

    Attributes:
        last: names of the units that the site wants last.
        told: sets of boards that settling has found locked.
    """

    parts: tuple[PartShape, ...]
    boards: tuple[BoardValue, ...]
    units: tuple[Unit, ...]
    last: tuple[str, ...]
    joints: tuple[JointValue, ...]
    told: tuple[tuple[str, ...], ...]
