"""Cures, tried: of those that findings offer, the ones that end their finding, or make it less, and bring no stop.

What is no cure stays with its finding all the same, with what came of it: that nothing is offered must not look as if
nothing could be done, or as if all were well.

A cure is found by whoever finds the fault, who sees one joint or node and not the rest of the piece: a board that is
moved off one crossing may come too near another. So each is made on the text of the job, and the piece set out
anew, its solids too. What only studies find is left to them: they offer what they have tried themselves, or, where
only the whole piece can tell (`Study.untried`), their stops' cures are tried with all studies that may stop a piece.
"""

from collections import Counter
from collections.abc import Callable, Container, Iterable
from dataclasses import replace
from typing import TypeAlias

from ..errors import EditError, JobError
from ..findings import OWNERS, Finding, InVain, NotChecked, Severity, Vain
from ..job.model import Job
from ..piece.settling.locks import LOCKED
from ..places import Cure, Edit
from .reading import change_job_text

WORTH = 600  # boards times cures that are tried in one go: a piece of 40 boards has 15 of them looked at
STUDIED = 3  # times as dear is one that studies are run for, about (a guess: the order is most of it)
MOST_STUDIED = 8  # of one finding's

SetOut: TypeAlias = Callable[[Job], Iterable[Finding | NotChecked]]
_GRAVE = {Severity.NOTE: 0, Severity.WARN: 1, Severity.STOP: 2}


class CureTrial:
    """The cures of one piece, being tried; `set_out` finds what is wrong with a changed job, overlaps of solids too."""

    most = WORTH  # of one finding's that are tried

    def __init__(self, job: Job, found: Iterable[Finding], set_out: SetOut) -> None:
        self.job, self.set_out = job, set_out
        self.before = tuple(found)
        self.stops = _stops(self.before)
        self.room = max(WORTH // max(len(job.boards), 1), 1)
        self._seen: dict[str, tuple[Finding | NotChecked, ...] | None] = {}

    def sure(self, findings: Iterable[Finding]) -> tuple[Finding, ...]:
        """The findings with the cures that are sure; a job that was not read from a text has them as they are."""
        if not self.job.text:
            return tuple(findings)
        return tuple(self._cured(one) if one.cures and self.is_tried(one) else one for one in findings)

    def is_tried(self, finding: Finding) -> bool:
        """Whether the cures of a finding are tried here."""
        return True

    def is_own(self, finding: Finding) -> bool:
        """Whether `set_out` would make a finding again where nothing ends it."""
        return any(finding is known for known in self.before)

    def _cured(self, finding: Finding) -> Finding:
        own = self.is_own(finding)
        came = [(cure, self._vain(finding, cure, own=own)) for cure in finding.cures[: self.most]]
        came += [(cure, InVain(label=cure.label, why=Vain.UNTRIED)) for cure in finding.cures[self.most :]]
        cures = tuple(cure for cure, vain in came if vain is None)
        if len(cures) == len(finding.cures):
            return finding
        return replace(finding, cures=cures, in_vain=(*finding.in_vain, *(vain for _, vain in came if vain)))

    def _vain(self, finding: Finding, cure: Cure, *, own: bool) -> InVain | None:
        """What came of a change that is no cure; None of one that is."""
        if not self._has_room(cure.edits):
            return InVain(label=cure.label, why=Vain.UNTRIED)
        after = self._after(cure.edits)
        if after is None:
            return InVain(label=cure.label, why=Vain.REFUSED)
        found = [one for one in after if isinstance(one, Finding)]
        new = [stop for stop in _stops(found) - self.stops if self._is_new(*stop)]
        if new:
            return InVain(label=cure.label, why=Vain.BRINGS, brings=tuple(sorted({code for code, _ in new})))
        if own and any(_about(one) == _about(finding) and not _less(one, finding) for one in found):
            return InVain(label=cure.label, why=Vain.STAYS)
        if own and any(isinstance(one, NotChecked) and _is_open(one, finding) for one in after):
            return InVain(label=cure.label, why=Vain.OPEN)
        return None

    def _is_new(self, code: str, boards: frozenset[str]) -> bool:
        """Whether a stop was not there; boards that are still locked among others are the same trouble."""
        return code != LOCKED or not any(code == was and len(boards & old) > 1 for was, old in self.stops)

    def _has_room(self, edits: tuple[Edit, ...]) -> bool:
        return self.room > 0 or repr(edits) in self._seen

    def _after(self, edits: tuple[Edit, ...]) -> tuple[Finding | NotChecked, ...] | None:
        """What setting out finds then; None where the change cannot be made."""
        key = repr(edits)
        if key not in self._seen:
            self.room -= 1
            self._seen[key] = self._tried(edits)
        return self._seen[key]

    def _tried(self, edits: tuple[Edit, ...]) -> tuple[Finding | NotChecked, ...] | None:
        try:
            _, job = change_job_text(self.job.text, edits, self.job.file)
        except (EditError, JobError):
            return None
        return None if job is None else tuple(self.set_out(job))


class StudiedTrial(CureTrial):
    """Those of stops that studies thought of and could not try: `work_out` tells what the studies say of a changed job.

    Where the studies of the piece as it stands found no such stop nothing is worked out.
    """

    most = MOST_STUDIED

    def __init__(self, job: Job, found: Iterable[Finding], work_out: SetOut, codes: Container[str]) -> None:
        super().__init__(job, found, work_out)
        self.codes = codes
        self.room = max(self.room // STUDIED, 1)

    def is_tried(self, finding: Finding) -> bool:
        """Stops alone: with all else a piece may be cut."""
        return finding.severity is Severity.STOP and finding.code in self.codes

    def is_own(self, finding: Finding) -> bool:
        """Each of them is."""
        return True


def _stops(findings: Iterable[Finding]) -> Counter[tuple[str, frozenset[str]]]:
    """How many stops of each code there are about the same boards."""
    return Counter(
        (finding.code, frozenset(finding.where.boards)) for finding in findings if finding.severity is Severity.STOP
    )


def _about(finding: Finding) -> tuple[object, ...]:
    where = finding.where
    return finding.code, frozenset(where.boards), where.joint, where.cut, where.fixing


def _is_open(one: NotChecked, finding: Finding) -> bool:
    """Whether what is left open is what a finding was about: that it is not found again then says nothing."""
    fixing = finding.where.fixing
    about = one.whole or (fixing is not None and one.where.fixing == fixing)
    return about and one.study == OWNERS.get(finding.code)


def _less(now: Finding, before: Finding) -> bool:
    """Whether a finding that is still there is less than it was: less grave, or nearer its limit."""
    if now.severity is not before.severity:
        return _GRAVE[now.severity] < _GRAVE[before.severity]
    if now.found is None or before.found is None or now.limit is None or before.limit is None:
        return False
    return abs(now.found - now.limit) < abs(before.found - before.limit)
