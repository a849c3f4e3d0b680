"""What was found wrong, or worth a look, in a piece: returned, never raised.

Every code is declared once, with the sentence that its page in the manual opens with; declaring a code
twice is refused, so that two rooms never mean different things by one word.
"""

from dataclasses import dataclass
from enum import StrEnum

from .places import Cure, Where

CODES: dict[str, str] = {}


def declare(code: str, meaning: str) -> str:
    """Register a finding's code with what it means, and return the code.

    Raises:
        ValueError: the code is declared already.
    """
    if code in CODES:
        raise ValueError(f"the finding code {code!r} is declared twice")
    CODES[code] = meaning
    return code


class Severity(StrEnum):
    """How much a finding matters: a stop must change before the first cut."""

    STOP = "stop"
    WARN = "warn"
    NOTE = "note"


@dataclass(frozen=True, slots=True, kw_only=True)
class Finding:
    """One thing found, with all a maker needs to act on it.

    Attributes:
        code: one of `CODES`.
        severity: stop, warn or note.
        where: what it is about.
        says: one plain sentence.
        remedy: what to do, in the maker's words; empty only where nothing need be done.
        found, limit: the figures compared, in `unit`; None where nothing is measured.
        unit: "mm", "deg", "N" ...; empty where nothing is measured.
        source: where the limit comes from.
        cures: changes of the job file that would end it.
    """

    code: str
    severity: Severity
    where: Where
    says: str
    remedy: str = ""
    found: float | None = None
    limit: float | None = None
    unit: str = ""
    source: str = ""
    cures: tuple[Cure, ...] = ()

    def __post_init__(self) -> None:
        assert self.code in CODES, f"finding code {self.code!r} is not declared"


_ORDER = {Severity.STOP: 0, Severity.WARN: 1, Severity.NOTE: 2}


def in_order(findings: list[Finding]) -> tuple[Finding, ...]:
    """Findings as they are shown: stops first, then by code and place, so that ties never wander."""

    def rank(finding: Finding) -> tuple[int, str, tuple[str, ...], tuple[str, ...], str]:
        joint = finding.where.joint or ()
        return _ORDER[finding.severity], finding.code, finding.where.boards, joint, finding.says

    return tuple(sorted(findings, key=rank))
