"""The book: the piece, what was decided, what was worked out, what was found. All papers are made from it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from types import MappingProxyType
from typing import Any, TypeVar

from ..findings import Finding, NotChecked, Severity
from ..job.model import Job
from ..piece.model import Piece
from ..piece.solids import Solids
from ..sentences import Voice
from ..shop.model import Shop
from ..study.outcome import Done, Outcome, why_none

T = TypeVar("T")


@dataclass(frozen=True)
class Book:
    """Everything known of one job.

    Attributes:
        outcomes: what came of each study, by name.
        checked: the questions that were answered, wholly or in part, by name.
        not_checked: what no check or study looked at, and why; every question stands here or there.
        solids: makes and keeps the parts' solids; lazily.
    """

    job: Job
    shop: Shop
    piece: Piece
    outcomes: Mapping[str, Outcome]
    findings: tuple[Finding, ...]
    solids: Solids
    mass_kg: Mapping[str, float] = field(default_factory=dict)
    checked: tuple[str, ...] = ()
    not_checked: tuple[NotChecked, ...] = ()

    @cached_property
    def studies(self) -> Mapping[str, Any]:
        """The results of the studies that are done, by name."""
        return MappingProxyType({name: one.result for name, one in self.outcomes.items() if isinstance(one, Done)})

    def found(self, result: type[T]) -> T | None:
        """What a study found, by the class of its result; None where it has none."""
        return next((one for one in self.studies.values() if isinstance(one, result)), None)

    @cached_property
    def left_out(self) -> Mapping[str, str]:
        """Which studies have no result, and why, by name."""
        none = {name: why_none(one, self.voice) for name, one in self.outcomes.items() if not isinstance(one, Done)}
        return MappingProxyType(none)

    @cached_property
    def voice(self) -> Voice:
        """How its sentences are told where the job's own units and names are used."""
        return Voice(self.job.units)

    @cached_property
    def stops(self) -> tuple[Finding, ...]:
        """The findings that must be mended before the first cut."""
        return tuple(finding for finding in self.findings if finding.severity is Severity.STOP)
