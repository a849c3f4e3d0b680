"""What stops Dryfit from reading what it was given.

    JobError                  a job cannot be used: one or more mistakes, each with its place
    |-- ShopError             the shop file cannot be used
    |-- MadeError             NAME.made.toml cannot be used
    |-- EditError             a change of the file cannot be written
    `-- Cancelled             the work was called off

A fault of the *design* (a slot too near an end, boards that overlap) is never an error but a `Finding`.
"""

import logging
import os
import threading
import time
import traceback
from dataclasses import dataclass
from pathlib import PurePath

from .places import Path

MOST_TOLD = 200  # mistakes of one file: more than a maker mends in one go, and fewer than a terminal loses
TRACE = "DRYFIT_TRACE"  # set in the environment of whoever works on Dryfit: tracebacks are shown


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
    rest = Mistake(file=more[0].file, line=more[0].line, says=follow, remedy="mend those above first")
    return (*mistakes[:MOST_TOLD], rest)


class ShopError(JobError):
    """The shop file cannot be used."""


class MadeError(JobError):
    """The file of what has been made and measured cannot be used."""


class EditError(JobError):
    """A change of the job file cannot be written, or would leave a file that cannot be read."""


class Cancelled(Exception):  # noqa: N818 - it is no error of anybody's
    """Raised out of `work.step` when the work is no longer wanted."""


class OneLine(logging.Formatter):
    """A warning as whoever sits at the terminal reads it: its sentence; the traceback only where it is asked for."""

    def formatException(self, ei: object) -> str:  # noqa: N802 - logging's own name
        """The traceback, or nothing."""
        return super().formatException(ei) if os.environ.get(TRACE) else ""  # type: ignore[arg-type]


ALIKE, ALIKE_WINDOW = 5, 60.0  # lines of one kind, in so many seconds, that are told one by one
KINDS_OF_LINE = 40  # told apart; all beyond count as one kind


class Sparing(logging.StreamHandler):  # type: ignore[type-arg]
    """Tells a few lines of a kind a minute; more of them are counted, and their number is told after that.

    Lines are of one kind where they come from the same place in the program, whatever names they hold: so whoever
    can cause one cannot fill a terminal, or a disk to which it is written.
    """

    def __init__(self) -> None:
        super().__init__()
        self._kinds: dict[tuple[str, str], tuple[float, int]] = {}

    def emit(self, record: logging.LogRecord) -> None:
        """Tell it, or count it."""
        now, kind = time.monotonic(), (record.name, str(record.msg)[:200])
        if kind not in self._kinds and len(self._kinds) >= KINDS_OF_LINE:
            kind = (record.name, "")
        since, count = self._kinds.get(kind, (now, 0))
        if now - since > ALIKE_WINDOW:
            self._sum_up(kind)
            since, count = now, 0
        self._kinds[kind] = (since, count + 1)
        if count < ALIKE:
            super().emit(record)
        elif count == ALIKE:
            timer = threading.Timer(ALIKE_WINDOW, self._window_over, (kind, since))
            timer.daemon = True
            timer.start()

    def _window_over(self, kind: tuple[str, str], since: float) -> None:
        with self.lock or threading.Lock():
            if self._kinds.get(kind, (0.0, 0))[0] == since:
                self._sum_up(kind)

    def _sum_up(self, kind: tuple[str, str]) -> None:
        """Tell how many were counted only."""
        _, count = self._kinds.pop(kind, (0.0, 0))
        if count > ALIKE:
            says = f"{count - ALIKE} more like it in the minute: {kind[1].splitlines()[0] if kind[1] else 'others'}"
            super().emit(logging.LogRecord(kind[0], logging.WARNING, "", 0, "%s", (says,), None))

    def close(self) -> None:
        """Tell what was counted until now."""
        for kind in [*self._kinds]:
            self._sum_up(kind)
        super().close()


def tell_terminal(log: str) -> logging.Handler:
    """Have a log's warnings told at the terminal from now on, a line each; the handler, to be taken off again."""
    handler = Sparing()
    handler.setFormatter(OneLine())
    logging.getLogger(log).addHandler(handler)
    return handler


def fault_in_words(fault: BaseException) -> str:
    """A fault of Dryfit's own, for whoever reports it: what it was and where, without a traceback."""
    frames = traceback.extract_tb(fault.__traceback__)
    own = [frame for frame in frames if "dryfit" in PurePath(frame.filename).parts]
    place = ""
    for frame in (own or frames)[-1:]:
        place = f", {PurePath(frame.filename).name} line {frame.lineno}"
    return f"{type(fault).__name__}: {str(fault)[:200] or 'nothing more is known'}{place}"
