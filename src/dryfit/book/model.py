"""The book: the piece, what was decided, what was worked out, what was found. All papers are made from it."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import Any

from ..findings import Finding, NotChecked, Severity
from ..job.model import Job
from ..piece.model import Piece
from ..piece.solids import Solids
from ..sentences import Voice
from ..shop.model import Shop


@dataclass(frozen=True)
class Book:
    """Everything known of one job.

    Attributes:
        studies: results by name; a study that was not asked for is not there.
        checked: the questions that were answered, wholly or in part, by name.
        not_checked: what no check or study looked at, and why; every question stands here or there.
        left_out: what was not made, and why, by name.
        solids: makes and keeps the parts' solids; lazily.
    """

    job: Job
    shop: Shop
    piece: Piece
    studies: Mapping[str, Any]
    findings: tuple[Finding, ...]
    solids: Solids
    mass_kg: Mapping[str, float] = field(default_factory=dict)
    checked: tuple[str, ...] = ()
    not_checked: tuple[NotChecked, ...] = ()
    left_out: Mapping[str, str] = field(default_factory=dict)

    @cached_property
    def voice(self) -> Voice:
        """How its sentences are told where the job's own units and names are used."""
        return Voice(self.job.units)

    @cached_property
    def stops(self) -> tuple[Finding, ...]:
        """The findings that must be mended before the first cut."""
        return tuple(finding for finding in self.findings if finding.severity is Severity.STOP)
