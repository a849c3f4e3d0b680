"""Running studies: in the order of their needs, kept by name, version and value.

A study whose value is as it was gives its kept result, and the wave stops there. Kept results are bounded
by their size in bytes, the least lately used forgotten first.
"""

import hashlib
import io
import pickle
from collections import OrderedDict
from collections.abc import Callable, Iterable, Mapping
from dataclasses import dataclass, replace
from typing import Any

from ..asking import Answers, failed, unanswered
from ..errors import Cancelled, fault_in_words
from ..findings import Finding, NotChecked
from ..sentences import Voice
from .base import Pace, Scene, Study, Work
from .outcome import CalledOff, Done, Failed, Outcome, StudyNow, Waits, why_none

BYTES = 64 * 1024 * 1024
REMEMBERED = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Ran:
    """What a run of studies gave.

    Attributes:
        outcomes: of every study, by name.
        found: the findings of each, by name; `findings` all of them.
        checked: the studies that answered their question, wholly or in part.
        not_checked: what the studies left open, those without a result among them.
    """

    outcomes: Mapping[str, Outcome]
    found: Mapping[str, tuple[Finding, ...]]
    findings: tuple[Finding, ...]
    checked: tuple[str, ...] = ()
    not_checked: tuple[NotChecked, ...] = ()

    @property
    def results(self) -> dict[str, Any]:
        """Of the studies that are done, by name."""
        return {name: one.result for name, one in self.outcomes.items() if isinstance(one, Done)}


class Results:
    """Kept results, bounded by bytes.

    Attributes:
        worked: names of the studies that had to work, in order.
    """

    def __init__(self, limit_bytes: int = BYTES) -> None:
        self.limit_bytes = limit_bytes
        self.worked: list[str] = []
        self._kept: OrderedDict[str, bytes] = OrderedDict()
        self._size = 0

    def note(self, name: str) -> None:
        """Remember that a study had to work; only the last thousand."""
        self.worked.append(name)
        del self.worked[:-REMEMBERED]

    def get(self, key: str) -> Any | None:
        """The result kept under a key, None if there is none (results themselves are never None)."""
        kept = self._kept.get(key)
        if kept is None:
            return None
        self._kept.move_to_end(key)
        return pickle.loads(kept)

    def put(self, key: str, result: Any) -> None:
        """Keep a result, forgetting the oldest when there is no room."""
        packed = pickle.dumps(result, protocol=5)
        self._size += len(packed) - len(self._kept.get(key, b""))
        self._kept[key] = packed
        self._kept.move_to_end(key)
        while self._size > self.limit_bytes and len(self._kept) > 1:
            _, old = self._kept.popitem(last=False)
            self._size -= len(old)


def in_order(studies: Mapping[str, Study[Any, Any]]) -> tuple[Study[Any, Any], ...]:
    """Studies so that each comes after those it needs.

    Raises:
        ValueError: a study needs one that is not there, or they need each other in a ring.
    """
    done: dict[str, Study[Any, Any]] = {}
    given: set[type[Any]] = set()
    waiting = dict(sorted(studies.items()))
    while waiting:
        ready = [name for name, study in waiting.items() if given.issuperset(study.needs)]
        if not ready:
            raise ValueError(f"studies that wait for each other or for what is not there: {', '.join(waiting)}")
        for name in ready:
            done[name] = waiting.pop(name)
            given.add(done[name].result)
    return tuple(done.values())


def run(
    studies: Mapping[str, Study[Any, Any]],
    scene: Scene,
    kept: Results | None,
    *,
    paces: Iterable[Pace] = (Pace.REST,),
    asked: Iterable[str] = (),
    work: Work | None = None,
    told: Callable[[StudyNow], None] | None = None,
    revision: int = 0,
) -> Ran:
    """Run studies and those they need; a fault in one takes away only what waits for it.

    Args:
        studies: all there are.
        scene: what they may read.
        kept: results of earlier runs; None where nothing is to be kept, and no key is needed.
        paces: those of these paces are run.
        asked: and these, by name.
        work: reports progress, and calls the work off.
        told: hears of each study as it gets on, and what came of it as soon as that is known.
        revision: of the text, for who is told.
    """
    wanted = _wanted(studies, frozenset(paces), asked)
    runner = _Runner(studies, scene, kept, work or Work(), told, revision)
    for study in in_order(studies):
        runner.take(study, wanted=study.name in wanted)
    said = runner.said
    return Ran(
        outcomes=runner.outcomes,
        found=runner.found,
        findings=tuple(said.findings),
        checked=said.checked,
        not_checked=tuple(said.not_checked),
    )


class _Runner:
    """One run of the studies.

    Attributes:
        outcomes: of those taken so far; `found` what each found.
        said: what they found and left open.
    """

    def __init__(
        self,
        studies: Mapping[str, Study[Any, Any]],
        scene: Scene,
        kept: Results | None,
        work: Work,
        told: Callable[[StudyNow], None] | None,
        revision: int,
    ) -> None:
        self.studies, self.scene, self.kept, self.work = studies, scene, kept, work
        self.told, self.revision = told, revision
        self.outcomes: dict[str, Outcome] = {}
        self.found: dict[str, tuple[Finding, ...]] = {}
        self.said = Answers()
        self._results: dict[type[Any], Any] = {}

    def take(self, study: Study[Any, Any], *, wanted: bool) -> None:
        """Run one study, or say why it is not run."""
        before = len(self.said.findings)
        key, outcome = self._outcome(study, wanted=wanted)
        if isinstance(outcome, Done):
            self._results[study.result] = outcome.result
        elif isinstance(outcome, NotChecked):
            self.said.add(study.name, [outcome])
        elif not isinstance(outcome, Failed):
            self.said.add(study.name, [unanswered(study.name, why_none(outcome, Voice()))])
        self.outcomes[study.name] = outcome
        self.found[study.name] = tuple(self.said.findings[before:])
        self._tell(study, key, 1.0, outcome)

    def _outcome(self, study: Study[Any, Any], *, wanted: bool) -> tuple[str, Outcome]:
        """What came of a study, with its key; "" where it read nothing."""
        idle = self._not_run(study, wanted=wanted)
        if idle is not None:
            return "", idle
        try:
            return self._answered(study)
        except Cancelled:
            return "", CalledOff()
        except Exception as fault:  # whatever it is, the other studies are of use
            self.said.add(study.name, failed(study.name, fault, guards=study.guards))
            return "", Failed(fault=fault_in_words(fault))

    def _not_run(self, study: Study[Any, Any], *, wanted: bool) -> NotChecked | Waits | None:
        """Why a study does not run; None where it does."""
        if not wanted:
            return unanswered(study.name, "runs only when asked" if study.pace is Pace.ASKED else "not asked for")
        missing = tuple(name for name in needed(study, self.studies) if not isinstance(self.outcomes[name], Done))
        return Waits(on=missing) if missing else None

    def _answered(self, study: Study[Any, Any]) -> tuple[str, Outcome]:
        """The same of one that runs; what it found and leaves open goes to `said`, all of it or nothing."""
        results = {need: self._results[need] for need in study.needs}
        value = study.reads(replace(self.scene, study=study, results=results))
        if isinstance(value, NotChecked):
            return "", replace(value, whole=True)
        key = key_of(study, value) if self.kept is not None or self.told is not None else ""
        result = None if self.kept is None else self.kept.get(key)
        if result is None:
            result = self._worked(study, value, key)
        self.said.add(study.name, [*study.findings(value, result), *study.not_checked(value, result)])
        return key, Done(result=result)

    def _worked(self, study: Study[Any, Any], value: Any, key: str) -> Any:
        def step(done: float, what: str) -> None:
            self.work.step(done, what)
            self._tell(study, key, done, None)

        step(0.0, study.name)
        if self.kept is not None:
            self.kept.note(study.name)
        result = study.run(value, Work(on_step=step))
        if self.kept is not None:
            self.kept.put(key, result)
        step(1.0, study.name)
        return result

    def _tell(self, study: Study[Any, Any], key: str, done: float, outcome: Outcome | None) -> None:
        if self.told is not None:
            self.told(StudyNow(study=study.name, revision=self.revision, key=key, done=done, outcome=outcome))


def _wanted(studies: Mapping[str, Study[Any, Any]], paces: frozenset[Pace], asked: Iterable[str]) -> set[str]:
    wanted: set[str] = set()
    waiting = [name for name, study in studies.items() if study.pace in paces] + list(asked)
    while waiting:
        name = waiting.pop()
        if name not in wanted:
            wanted.add(name)
            waiting.extend(needed(studies[name], studies))
    return wanted


def needed(study: Study[Any, Any], studies: Mapping[str, Study[Any, Any]]) -> tuple[str, ...]:
    """The names of the studies whose results a study needs."""
    owner = {other.result: name for name, other in studies.items()}
    return tuple(owner[need] for need in study.needs)


def key_of(study: Study[Any, Any], value: Any) -> str:
    """Name, version and value of a study as one key."""
    packed = io.BytesIO()
    pickler = pickle.Pickler(packed, protocol=5)
    pickler.fast = True  # no memo: two equal values give the same bytes, whichever of their parts are one object
    pickler.dump(value)
    return f"{study.name}/{study.version}/{hashlib.sha256(packed.getvalue()).hexdigest()}"
