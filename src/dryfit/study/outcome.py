"""What came of a study: its result, or why there is none. Nothing is approved by silence: each case is told."""

from dataclasses import dataclass
from typing import Any, Generic, Literal, TypeAlias, TypeVar

from ..findings import QUESTIONS, NotChecked
from ..sentences import Voice, told

R = TypeVar("R")
Stands: TypeAlias = Literal["done", "not checked", "failed", "called off", "waits"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Done(Generic[R]):
    """It ran to its end."""

    result: R


@dataclass(frozen=True, slots=True, kw_only=True)
class Failed:
    """A fault of ours came between; `fault` in words."""

    fault: str


@dataclass(frozen=True, slots=True, kw_only=True)
class CalledOff:
    """Nobody wanted it any more."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waits:
    """Studies that it needs have no result; `on` their names."""

    on: tuple[str, ...]


Outcome: TypeAlias = Done[Any] | NotChecked | Failed | CalledOff | Waits


@dataclass(frozen=True, slots=True, kw_only=True)
class StudyNow:
    """One study as it stands.

    Attributes:
        revision: of the text it was last looked at for: where an edit left its value as it was, that of the edit.
        key: of what it read, with its name and version: the same key, the same result; "" where it read nothing.
        done: how far it is, from 0 to 1.
        outcome: None while it works.
    """

    study: str
    revision: int
    key: str
    done: float
    outcome: Outcome | None


def stands(outcome: Outcome) -> Stands:
    """One word for what came of a study."""
    match outcome:
        case Done():
            return "done"
        case NotChecked():
            return "not checked"
        case Failed():
            return "failed"
        case CalledOff():
            return "called off"
        case Waits():
            return "waits"


def why_none(outcome: Outcome, voice: Voice) -> str:
    """Why there is no result, in words; "" where there is one."""
    match outcome:
        case Done():
            return ""
        case NotChecked():
            return told(outcome.why, voice)
        case Failed():
            return f"it failed: {outcome.fault}"
        case CalledOff():
            return "called off"
        case Waits():
            return f"waits for {' and '.join(QUESTIONS[name] for name in outcome.on)}"
