"""What a glue-up is worked out from."""

from dataclasses import dataclass
from typing import TypeAlias

from ...sentences import Words
from .pressing import GlueJoint
from .result import Across, Said, Squareness
from .squareness import Quad
from .stages import StepValue

Seconds: TypeAlias = tuple[float, Words]  # and whose word that is


@dataclass(frozen=True, slots=True, kw_only=True)
class StageValue:
    """One stage of the assembly, as it was planned.

    Attributes:
        frame: the sides of the closed frame that it holds, none where it holds none; `check` what to measure on it.
        rigid: boards of units that were glued before.
    """

    name: str
    place: str
    first: tuple[str, ...]
    steps: tuple[StepValue, ...]
    after: tuple[str, ...]
    frame: tuple[str, ...] = ()
    check: Squareness | Across | None = None
    rigid: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class GlueUpValue:
    """All that a glue-up depends on.

    Attributes:
        glue: its name, "" where it is not known; `asked` as the job file has it.
        given: whether the job file names a glue; else the usual one is taken.
        unknown, remedy: of one that is not known, what is wrong and what to do; "" of one that is.
        near: names that it may have been meant by.
        slower: other glues with the minutes they stay open, slowest last.
        paces: seconds to spread one side, close one joint, set one clamp, each with where it comes from.
        corners: of each board in the elevation.
    """

    asked: str
    given: bool
    glue: str
    unknown: str
    remedy: str
    near: tuple[str, ...]
    figures: tuple[Said, ...]
    slower: tuple[tuple[str, float], ...]
    paces: tuple[Seconds, Seconds, Seconds]
    people: int
    clamp_kn: float
    stages: tuple[StageValue, ...]
    joints: tuple[GlueJoint, ...]
    corners: tuple[tuple[str, Quad], ...] = ()
