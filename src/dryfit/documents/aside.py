"""A large book's heaviest sheets drawn by a second process meanwhile, so that its papers take half the time.

That process is this program once more: it gets the book through a pipe and gives the sheets back as it draws them, the
same ones that would be drawn here. Where it cannot be started, or ends early, what is lacking is drawn here.
"""

import logging
import os
import pickle
import subprocess
import sys
import threading
from collections.abc import Iterable, Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from io import BytesIO
from queue import SimpleQueue
from types import MappingProxyType
from typing import IO, Any, TypeAlias

from ..book.model import Book
from ..keeping import few_searches_for_rings
from .display import Draft
from .looks import Desk
from .naming import printing_in
from .sheets import SHEETS, kinds_of
from .workshop import sheets_here

LOG = logging.getLogger("dryfit")
START = f"from {__name__} import main; main()"  # not run as a module: what it tells would be of another's classes
MANY = 40  # boards: the papers of fewer are made before a second process would pay for its start


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnAside:
    """One sheet of a kind."""

    kind: str
    draft: Draft


@dataclass(frozen=True, slots=True, kw_only=True)
class Whole:
    """All sheets of a kind are there.

    Attributes:
        missing: those that could not be drawn, by title, and why.
    """

    kind: str
    missing: dict[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Logged:
    """A line of that process's log."""

    level: int
    says: str


Said: TypeAlias = DrawnAside | Whole | Logged


@contextmanager
def some_aside(desk: Desk, papers: Iterable[str]) -> Iterator[None]:
    """While it lasts, a second process draws the heaviest sheets of these papers, in this order, of a large piece."""
    kinds = [kind.name for paper in papers for kind in kinds_of(paper) if kind.aside]
    if not kinds or len(desk.book.piece.parts) < MANY or _processors() < 2:
        yield
        return
    desk.aside = aside = Aside(desk.book, kinds)
    try:
        yield
    finally:
        desk.aside = None
        aside.end()


def _processors() -> int:
    """How many this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1


class Aside:
    """The second process, as seen from the first.

    Attributes:
        kinds: of sheets that it draws, in this order.
        over: whether it has ended before its time.
    """

    def __init__(self, book: Book, kinds: Iterable[str]) -> None:
        self.kinds = tuple(kinds)
        self.over = False
        self._process: subprocess.Popen[bytes] | None = None
        self._said: SimpleQueue[Said | None] = SimpleQueue()  # None once it has ended
        asked = _packed((book, self.kinds))
        try:
            process = subprocess.Popen(
                [sys.executable, "-P", "-c", START], stdin=subprocess.PIPE, stdout=subprocess.PIPE
            )
        except OSError as fault:  # no room for one more process
            LOG.debug("no second process: %s", fault)
            self._said.put(None)
            return
        self._process = process
        self._ear = threading.Thread(target=self._talk, args=(process, asked), daemon=True, name="dryfit sheets aside")
        self._ear.start()

    def _talk(self, process: "subprocess.Popen[bytes]", asked: bytes) -> None:
        """Send what is asked, and hear until it ends."""
        mouth, words = process.stdin, process.stdout
        assert mouth is not None
        assert words is not None
        try:
            with words, suppress(OSError, EOFError, pickle.UnpicklingError):
                with mouth:
                    mouth.write(asked)
                while True:
                    self._said.put(pickle.load(words))
        finally:
            self._said.put(None)

    def drafts(self, kind: str, missing: dict[str, str]) -> Iterator[Draft]:
        """The sheets of a kind as they come; `missing` gets those that could not be drawn.

        Raises:
            ChildProcessError: it has ended before all were there; those that came are right.
        """
        while not self.over and (said := self._said.get()) is not None:
            match said:
                case Logged(level=level, says=says):
                    LOG.log(level, "%s", says)
                case DrawnAside(kind=of, draft=draft):
                    assert of == kind, "kinds are asked for in the order in which they were given"
                    yield draft
                case Whole(missing=lacking):
                    missing.update(lacking)
                    return
        self.over = True
        raise ChildProcessError(f"the second process ended while it drew {kind}")

    def end(self) -> None:
        """Have done with it, whatever it is at."""
        if self._process is not None:
            self._process.kill()
            self._ear.join()
            self._process.wait()


def _read_only(mapping: dict[Any, Any]) -> Mapping[Any, Any]:
    return MappingProxyType(mapping)


class _Pickler(pickle.Pickler):
    """Packs a book: its read-only mappings too, which by themselves cannot be."""

    dispatch_table = {MappingProxyType: lambda mapping: (_read_only, (dict(mapping),))}  # noqa: RUF012


def _packed(value: object) -> bytes:
    packed = BytesIO()
    _Pickler(packed, protocol=pickle.HIGHEST_PROTOCOL).dump(value)
    return packed.getvalue()


# ---- in the second process


class _Forwarded(logging.Handler):
    """Gives the log to the first process."""

    def __init__(self, to: IO[bytes]) -> None:
        super().__init__()
        self.to = to

    def emit(self, record: logging.LogRecord) -> None:
        _tell(self.to, Logged(level=record.levelno, says=record.getMessage()))


def _tell(to: IO[bytes], said: Said) -> None:
    pickle.dump(said, to, protocol=pickle.HIGHEST_PROTOCOL)
    to.flush()


def draw(asks: IO[bytes], tells: IO[bytes]) -> None:
    """Draw the kinds of sheet that are asked for, telling each sheet as it is there."""
    LOG.addHandler(_Forwarded(tells))
    LOG.propagate = False
    book, kinds = pickle.load(asks)
    desk = Desk(book)
    with printing_in(book.job.units), few_searches_for_rings():
        for name in kinds:
            before = set(desk.missing)
            for draft in sheets_here(SHEETS[name], desk):
                _tell(tells, DrawnAside(kind=name, draft=draft))
            missing = {title: why for title, why in desk.missing.items() if title not in before}
            _tell(tells, Whole(kind=name, missing=missing))


def main() -> None:
    """The second process: nothing but what it tells may come out of its output."""
    tells = os.fdopen(os.dup(sys.stdout.fileno()), "wb")
    os.dup2(sys.stderr.fileno(), sys.stdout.fileno())
    with suppress(BrokenPipeError, KeyboardInterrupt):  # the first has ended, or is being ended with this one
        draw(sys.stdin.buffer, tells)
