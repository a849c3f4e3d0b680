"""What goes between the server and its worker process: plain frozen data that can be pickled."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ...editing.answers import Page
from ...findings import Finding, NotChecked
from ...piece.setout import Made


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """One text to work on.

    Attributes:
        revision: results carry it.
        file: as messages call it.
    """

    revision: int
    text: str
    file: str
    made: Made


@dataclass(frozen=True, slots=True, kw_only=True)
class BookAsked:
    """Solids, clashes and studies of a text; a later one takes an earlier one's place."""

    job: Asked


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelAsked:
    """The meshes of a text, as one binary answer."""

    number: int
    job: Asked
    have: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PapersAsked:
    """Papers of a text."""

    task: int
    job: Asked
    files: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CallOff:
    """The papers of a task are no longer wanted."""

    task: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Step:
    """How far work is; `task` None for the book."""

    task: int | None
    revision: int
    done: float
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BookMade:
    """What the slow work found; `studies` as in book.json.

    Attributes:
        made: what was measured and cut when it was asked for.
        checked, not_checked: of the whole book.
    """

    revision: int
    made: Made
    findings: tuple[Finding, ...]
    checked: tuple[str, ...]
    not_checked: tuple[NotChecked, ...]
    studies: Mapping[str, Any]
    left_out: Mapping[str, str]
    masses: Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelMade:
    """A model, or why there is none."""

    number: int
    data: bytes | None
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperMade:
    """One paper; its pictures by page."""

    task: int
    revision: int
    file: str
    data: bytes
    pages: tuple[Page, ...]
    pictures: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Ended:
    """Work is over; `why` says what went wrong, "called off" or "" for all is well."""

    task: int | None
    revision: int
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Beat:
    """The worker is at work; said at a step where nothing else was said for a while."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """The worker has nothing to do, after that many messages."""

    done: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Still:
    """The worker owes something and does nothing for it, or no longer does so; said by the watch over it."""

    still: bool
