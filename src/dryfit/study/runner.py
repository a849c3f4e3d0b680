"""Running studies: in the order of their needs, kept by name, version and value.

A study whose value is as it was gives its kept result, and the wave stops there. Kept results are bounded
by their size in bytes, the least lately used forgotten first.
"""

import hashlib
import io
import pickle
from collections import OrderedDict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from typing import Any

from ..asking import Answers, failed, unanswered
from ..errors import Cancelled, fault_in_words
from ..findings import Finding, NotChecked
from .base import Pace, Scene, Study, Work

BYTES = 64 * 1024 * 1024
REMEMBERED = 1000


@dataclass(frozen=True, slots=True, kw_only=True)
class Ran:
    """What a run of studies gave.

    Attributes:
        results: by name; cancelled studies and those of a slower pace are not there.
        checked: the studies that answered their question, wholly or in part.
        not_checked: what the studies left open, those without a result among them.
        left_out: why a study has no result, by name.
    """

    results: Mapping[str, Any]
    findings: tuple[Finding, ...]
    checked: tuple[str, ...] = ()
    not_checked: tuple[NotChecked, ...] = ()
    left_out: Mapping[str, str] = field(default_factory=dict)


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
    waiting = dict(sorted(studies.items()))
    while waiting:
        ready = [name for name, study in waiting.items() if all(need in done for need in study.needs)]
        if not ready:
            raise ValueError(f"studies that wait for each other or for what is not there: {', '.join(waiting)}")
        for name in ready:
            done[name] = waiting.pop(name)
    return tuple(done.values())


def run(
    studies: Mapping[str, Study[Any, Any]],
    scene: Scene,
    kept: Results,
    *,
    paces: Iterable[Pace] = (Pace.LIVE, Pace.REST),
    work: Work | None = None,
) -> Ran:
    """Run the studies of the given paces, and those they need; a fault in one takes away only what waits for it."""
    wanted = _wanted(studies, frozenset(paces))
    report = work or Work()
    said = Answers()
    results: dict[str, Any] = {}
    left_out: dict[str, str] = {}
    for study in in_order(studies):
        why = _not_run(study, wanted, left_out, studies)
        if not why:
            try:
                results[study.name] = _answered(study, scene, results, kept, report, said)
            except Cancelled:
                why = "called off"
            except Exception as fault:  # whatever it is, the other studies are of use
                said.add(study.name, failed(study.name, fault, guards=study.guards))
                left_out[study.name] = f"it failed: {fault_in_words(fault)}"
        if why:
            said.add(study.name, [unanswered(study.name, why)])
            left_out[study.name] = why
    return Ran(
        results=results,
        findings=tuple(said.findings),
        checked=said.checked,
        not_checked=tuple(said.not_checked),
        left_out=left_out,
    )


def _not_run(
    study: Study[Any, Any], wanted: set[str], left_out: Mapping[str, str], studies: Mapping[str, Study[Any, Any]]
) -> str:
    """Why a study does not run; "" where it does."""
    if study.name not in wanted:
        return f"runs only when {study.pace.value}" if study.pace is Pace.ASKED else "not asked for"
    missing = [studies[need].asks for need in study.needs if need in left_out]
    return f"waits for {' and '.join(missing)}" if missing else ""


def _answered(
    study: Study[Any, Any], scene: Scene, results: Mapping[str, Any], kept: Results, work: Work, said: Answers
) -> Any:
    """The result of a study; what it found and what it leaves open go to `said`, all of it or nothing."""
    value = study.reads(scene, {need: results[need] for need in study.needs})
    result = _result(study, value, kept, work)
    said.add(study.name, [*study.findings(value, result), *study.not_checked(value, result)])
    return result


def _wanted(studies: Mapping[str, Study[Any, Any]], paces: frozenset[Pace]) -> set[str]:
    wanted: set[str] = set()
    waiting = [name for name, study in studies.items() if study.pace in paces]
    while waiting:
        name = waiting.pop()
        if name not in wanted:
            wanted.add(name)
            waiting.extend(studies[name].needs)
    return wanted


def key_of(study: Study[Any, Any], value: Any) -> str:
    """Name, version and value of a study as one key."""
    packed = io.BytesIO()
    pickler = pickle.Pickler(packed, protocol=5)
    pickler.fast = True  # no memo: two equal values give the same bytes, whichever of their parts are one object
    pickler.dump(value)
    return f"{study.name}/{study.version}/{hashlib.sha256(packed.getvalue()).hexdigest()}"


def _result(study: Study[Any, Any], value: Any, kept: Results, work: Work) -> Any:
    key = key_of(study, value)
    result = kept.get(key)
    if result is None:
        work.step(0.0, study.name)
        kept.note(study.name)
        result = study.run(value, work)
        kept.put(key, result)
        work.step(1.0, study.name)
    return result
