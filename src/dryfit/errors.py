"""What stops Dryfit from reading what it was given.

    JobError                  a file cannot be used: one or more mistakes, each with its place
    |-- ShopError             the shop file
    |-- MadeError             NAME.made.toml
    `-- EditError             a change of the job file cannot be written
    Cancelled                 the work was called off: nothing is wrong

A fault of the *design* (a slot too near an end, boards that overlap) is never an error but a `Finding`.
"""

import traceback
from dataclasses import dataclass
from pathlib import PurePath

from .places import Path

MOST_TOLD = 200  # mistakes of one file: more than a maker mends in one go, and fewer than a terminal loses


@dataclass(frozen=True, slots=True, kw_only=True)
class Mistake:
    """One mistake in a file.

    Attributes:
        file: name of the file as the user gave it.
        line: counted from 1; 0 where the mistake has no line (a file that is not there).
        path: the value it is about, empty for syntax.
        read: what stands there, as written, shortened; empty if nothing does.
        says: what is wrong, in a sentence without a full stop.
        remedy: what would be right.
    """

    file: str
    line: int
    path: Path = ()
    read: str = ""
    says: str
    remedy: str

    def __str__(self) -> str:
        place = f"{self.file}:{self.line}" if self.line else self.file
        value = f" ({self.read})" if self.read else ""
        return f"{place}: {self.says}{value}; {self.remedy}"


class JobError(Exception):
    """A file that cannot be used; `mistakes` holds those found in one reading, past `MOST_TOLD` only their number."""

    def __init__(self, mistakes: tuple[Mistake, ...]) -> None:
        assert mistakes, "an error without a mistake helps nobody"
        self.mistakes = _told(mistakes)
        super().__init__("\n".join(str(mistake) for mistake in mistakes))


def _told(mistakes: tuple[Mistake, ...]) -> tuple[Mistake, ...]:
    """The mistakes to tell: all, or the first and how many follow from which line on."""
    more = mistakes[MOST_TOLD:]
    if not more:
        return mistakes
    follow = "one more mistake follows" if len(more) == 1 else f"{len(more):,} more mistakes follow"
    rest = Mistake(file=more[0].file, line=more[0].line, says=follow, remedy="put those above right first")
    return (*mistakes[:MOST_TOLD], rest)


class ShopError(JobError):
    """The shop file cannot be used."""


class MadeError(JobError):
    """The file of what has been made and measured cannot be used."""


class EditError(JobError):
    """A change of the job file cannot be written, or would leave a file that cannot be read."""


class Cancelled(Exception):  # noqa: N818 - it is no error of anybody's
    """Raised out of `work.step` when the work is no longer wanted."""


def fault_in_words(fault: BaseException) -> str:
    """A fault of Dryfit's own, for whoever reports it: what it was and where, without a traceback."""
    frames = traceback.extract_tb(fault.__traceback__)
    own = [frame for frame in frames if "dryfit" in PurePath(frame.filename).parts]
    place = ""
    for frame in (own or frames)[-1:]:
        place = f", {PurePath(frame.filename).name} line {frame.lineno}"
    return f"{type(fault).__name__}: {str(fault)[:200] or 'nothing more is known'}{place}"
