"""What was found wrong, or worth a look, in a piece: returned, never raised.

Every code is declared once, with the sentence that its page in the manual opens with, and has one owner, who makes its
findings and lists it: the check or study whose question it answers, or the kind of joint. Declaring or owning a code
twice is refused, so that two rooms never mean different things by one word.
"""

from collections.abc import Callable
from dataclasses import dataclass, field, replace
from enum import StrEnum
from typing import Any

from .lengths import MM_PER, LengthUnit, rounded_to
from .places import Cure, Where
from .sentences import Voice, Words, few, say, told

ITSELF = "dryfit"  # owner of what is said of Dryfit itself


@dataclass(frozen=True, slots=True, kw_only=True)
class Code:
    """What the code of a finding stands for.

    Attributes:
        word: as a finding carries it.
        means: the sentence that its page opens with.
        several: heads findings that say the same of other things; "" where nothing does.
        uncured: why no change of the job is offered where none was found to be tried, as it reads after "no change
            offered: ": what must give way is a choice of design, of the shop, or known to the maker alone.
    """

    word: str
    means: str
    several: str = ""
    uncured: str = ""


CODES: dict[str, Code] = {}
OWNERS: dict[str, str] = {}  # of codes: the name of a check, a study or a kind of joint
QUESTIONS: dict[str, str] = {}
CONCERNS: dict[str, Callable[[Any], bool]] = {}  # of questions that not every piece gives cause to ask


def declare(code: str, meaning: str, several: str = "", *, uncured: str = "") -> str:
    """Register a finding's code with what it means, and return the code.

    Args:
        code: its word.
        meaning: the sentence that its page opens with.
        several: heads findings that say the same of other things, with a pair of braces for how many they are, and for
            what else they say: "{} joints meet {}: a {} cannot be made yet".
        uncured: why its owner offers no change of the job, where it offers none.

    Raises:
        ValueError: the code is declared already.
    """
    if code in CODES:
        raise ValueError(f"the finding code {code!r} is declared twice")
    CODES[code] = Code(word=code, means=meaning, several=several, uncured=uncured)
    return code


def owns(owner: str, *codes: str) -> frozenset[str]:
    """Say who makes the findings of some codes, and return them.

    Args:
        owner: the name of a check or a study, as `question` has it, or of a kind of joint. A question that several
            modules answer owns what each of them lists.
        codes: declared ones.

    Raises:
        ValueError: a code is not declared, or has an owner already.
    """
    for code in codes:
        if code not in CODES:
            raise ValueError(f"{owner!r} owns the finding code {code!r}, which is not declared")
        if code in OWNERS:
            raise ValueError(f"the finding code {code!r} belongs to {OWNERS[code]!r} and to {owner!r}")
        OWNERS[code] = owner
    return frozenset(codes)


def question(name: str, asks: str, concerns: Callable[[Any], bool] | None = None) -> str:
    """Register a question that is put to pieces, under the name of its check or study, and return the name.

    Args:
        name: of the check or study.
        asks: what is looked at, so that it reads after "checked:" and after "not checked:", such as "what holds
            each board up".
        concerns: whether it can concern a piece (a `Piece`, of a room above this one); left out: every piece.

    Raises:
        ValueError: the name is taken.
    """
    if name in QUESTIONS:
        raise ValueError(f"the question {name!r} is put twice")
    QUESTIONS[name] = asks
    if concerns is not None:
        CONCERNS[name] = concerns
    return name


class Severity(StrEnum):
    """How much a finding matters: a stop must change before the first cut."""

    STOP = "stop"
    WARN = "warn"
    NOTE = "note"


class Vain(StrEnum):
    """What came of a change that would have been a cure, and is none."""

    STAYS = "it does not end this"
    BRINGS = "it brings a stop"
    OPEN = "whether it ends this could not be looked at then"
    ALONE = "it moves or changes others too"
    REFUSED = "the job file cannot be changed so"
    UNTRIED = "not tried yet: there are too many to try at once"


@dataclass(frozen=True, slots=True, kw_only=True)
class InVain:
    """A change of the job that is no cure.

    Attributes:
        label: as its button would say it.
        why: what came of it.
        brings: codes of the stops that it would bring.
    """

    label: Words
    why: Vain
    brings: tuple[str, ...] = ()


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
        in_vain: changes that were thought of, and on trial were none.
    """

    code: str
    severity: Severity
    where: Where
    says: Words
    remedy: Words = ""
    found: float | None = None
    limit: float | None = None
    unit: str = ""
    source: str = ""
    cures: tuple[Cure, ...] = ()
    in_vain: tuple[InVain, ...] = ()

    def __post_init__(self) -> None:
        assert self.code in CODES, f"finding code {self.code!r} is not declared"


@dataclass(frozen=True, slots=True, kw_only=True)
class NotChecked:
    """Something that was not checked: no finding, and no approval either.

    Attributes:
        study: the check or study that leaves it open, one of `QUESTIONS`.
        what: what is left open, such as "what the shelves carry".
        why: the reason, such as "no load is worked out yet".
        where: what it is about; the whole piece where it names nothing.
        whole: whether nothing of the study's question was looked at; else the rest of it is answered.
        fault: whether a fault of ours came between.
    """

    study: str
    what: Words
    why: Words
    where: Where = field(default_factory=Where)
    whole: bool = False
    fault: bool = False

    def __post_init__(self) -> None:
        assert self.study in QUESTIONS, f"the question {self.study!r} is not put"


_FINEST = 64  # parts of an inch
_MOST_IN_VAIN = 3  # changes told of; the rest are counted


def uncured(finding: Finding) -> Words:
    """Why a finding has no cure, as it reads after "no change offered: "; "" where it has one.

    Either what was thought of and tried does not help, or its code says whose choice it is.
    """
    if finding.cures:
        return ""
    if not finding.in_vain:
        return CODES[finding.code].uncured or "none is known for it"
    each = [say("{} ({})", one.label, _came_of(one)) for one in finding.in_vain]
    if len(each) == 1:
        return say("the one thought of does not do: {}", each[0])
    return say("none of {} thought of does: {}", f"{len(each)}", few(each, _MOST_IN_VAIN))


def _came_of(tried: InVain) -> Words:
    if not tried.brings:
        return tried.why.value
    return say("{}: {}", tried.why.value, few(tried.brings, _MOST_IN_VAIN))


def with_no_cures(finding: Finding) -> Finding:
    """A finding without what may be done about it: cures that nobody has tried, or that have been."""
    return replace(finding, cures=(), in_vain=()) if finding.cures or finding.in_vain else finding


def finding_told(finding: Finding, voice: Voice) -> Finding:
    """A finding with its sentences in words."""
    return replace(
        finding,
        says=told(finding.says, voice),
        remedy=told(finding.remedy, voice),
        cures=tuple(replace(cure, label=told(cure.label, voice)) for cure in finding.cures),
        in_vain=tuple(replace(tried, label=told(tried.label, voice)) for tried in finding.in_vain),
    )


def printed(length: float, way: str, units: LengthUnit) -> float:
    """A length in mm as a number of the job's units, rounded as `at_least` ("+") and `at_most` ("-") print it."""
    step = 0.1 if units == "mm" else MM_PER["in"] / _FINEST
    return round(rounded_to(length, step, way) / MM_PER[units], 6)


_IN_ORDER = Voice()
_ORDER = {Severity.STOP: 0, Severity.WARN: 1, Severity.NOTE: 2}


def in_order(findings: list[Finding]) -> tuple[Finding, ...]:
    """Findings as they are shown: stops first, then by code and place, so that ties never wander."""

    def rank(finding: Finding) -> tuple[int, str, tuple[str, ...], tuple[str, ...], str]:
        joint = finding.where.joint or ()
        return _ORDER[finding.severity], finding.code, finding.where.boards, joint, told(finding.says, _IN_ORDER)

    return tuple(sorted(findings, key=rank))
