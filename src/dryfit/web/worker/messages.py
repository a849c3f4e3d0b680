"""What goes between the server and its worker process: plain frozen data that can be pickled."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Any

from ...editing.answers import Assembly, Page, Tried
from ...editing.answers.state import StudyStands
from ...findings import Finding, NotChecked
from ...job.options import Options
from ...piece.setout import Made


@dataclass(frozen=True, slots=True, kw_only=True)
class TextAsked:
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

    job: TextAsked


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelAsked:
    """The meshes of a text, as one binary answer."""

    number: int
    job: TextAsked
    have: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PapersOfText:
    """Papers of a text, by the names of their writers."""

    task: int
    job: TextAsked
    writers: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class CallOff:
    """The papers of a task are no longer wanted."""

    task: int


@dataclass(frozen=True, slots=True, kw_only=True)
class HowFar:
    """How far work is; `task` None for the book."""

    task: int | None
    revision: int
    done: float
    what: str


@dataclass(frozen=True, slots=True, kw_only=True)
class BookMade:
    """What the slow work found; what came of each study has been told before.

    Attributes:
        made: what was measured and cut when it was asked for.
        checked, not_checked: of the whole book.
    """

    revision: int
    made: Made
    findings: tuple[Finding, ...]
    checked: tuple[str, ...]
    not_checked: tuple[NotChecked, ...]
    masses: Mapping[str, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class StudyMade:
    """One study of the book: how far it is ("working"), or what came of it.

    Attributes:
        made: what was measured and cut when it was asked for.
        result: as in book.json, in the units of the job.
        same: the result is the one that was told last, and is left out.
    """

    study: str
    revision: int
    made: Made
    key: str
    done: float
    stands: StudyStands
    why: str
    result: Any
    same: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class StudyAsked:
    """One study with its levers moved, by their classes."""

    number: int
    job: TextAsked
    study: str
    levers: tuple[Options, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StudyTried:
    """What came of that, or why nothing did."""

    number: int
    data: Tried | None
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class AssemblyAsked:
    """How the piece goes together, in the booklet's words, once its book is there."""

    number: int
    job: TextAsked


@dataclass(frozen=True, slots=True, kw_only=True)
class AssemblyMade:
    """That, or why there is none."""

    number: int
    data: Assembly | None
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class ModelMade:
    """A model, or why there is none."""

    number: int
    data: bytes | None
    why: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperMade:
    """One paper: the files it is made of, one or a folder of them; its pictures by page.

    Attributes:
        file: as its writer has it: the file, or the folder.
        files: name and contents of each.
    """

    task: int
    revision: int
    file: str
    files: tuple[tuple[str, bytes], ...]
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
