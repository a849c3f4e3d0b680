"""The worker process: one bench kept warm for all that takes longer than a drag step.

It does one thing at a time and looks up from it at every step of a study or a sheet: a model that is asked for
is made in between, a newer book calls the older one off, papers end when they are called off. When the server
is gone, so is the worker.
"""

import itertools
import logging
import os
import signal
import time
from collections import deque
from collections.abc import Callable
from contextlib import suppress
from dataclasses import replace
from multiprocessing.connection import Connection

from ...book import Bench, Book, build, piece_of, read_job_text
from ...documents import looks
from ...documents.aside import some_aside
from ...documents.display import Display
from ...documents.plain import plain
from ...documents.sheets import SHEETS, Draft
from ...documents.svg import svg
from ...documents.workshop import bound, paper_sheets
from ...documents.writing import WRITERS
from ...editing.answers import Page
from ...editing.meshes import model
from ...editing.refusals import our_fault
from ...errors import TRACE, Cancelled, JobError, tell_terminal
from ...findings import Finding
from ...job.model import Job
from ...shop.model import Shop
from ...study.base import Work
from .messages import (
    Asked,
    Beat,
    BookAsked,
    BookMade,
    CallOff,
    Ended,
    ModelAsked,
    ModelMade,
    PaperMade,
    PapersAsked,
    Step,
    Waiting,
)

LOG = logging.getLogger("dryfit")
BEHIND = 5  # niceness: where there are too few processors for all, the hand goes before the slow work
SAY_EVERY = 0.1  # seconds between words of progress
BEAT_EVERY = 0.5  # seconds at work after which it says that it is, at its next step
KEPT, KEPT_A_BOARD = 4000, 60  # answers kept: enough for some thirty changes of a small piece, a few of a large


class ServerGone(Exception):  # noqa: N818 - the end of the work, not an error
    """Nobody is there any more to hear of results."""


class Inbox:
    """What was asked and not yet done.

    Attributes:
        taken: how many messages have come.
    """

    def __init__(self, pipe: Connection) -> None:
        self.pipe = pipe
        self.taken = 0
        self.book: BookAsked | None = None
        self.models: deque[ModelAsked] = deque()
        self.papers: deque[PapersAsked] = deque()
        self.called_off: set[int] = set()

    def look(self, wait: float | None = 0.0) -> None:
        """Take in all that was asked by now; None waits until something is.

        Raises:
            ServerGone: the server has ended.
        """
        try:
            while self.pipe.poll(wait):
                self._file(self.pipe.recv())
                wait = 0.0
        except (EOFError, OSError):
            raise ServerGone from None

    def _file(self, asked: object) -> None:
        self.taken += 1
        match asked:
            case BookAsked():
                self.book = asked
            case ModelAsked():
                self.models.append(asked)
            case PapersAsked():
                self.papers.append(asked)
            case CallOff():
                self.called_off.add(asked.task)
            case _:
                raise AssertionError(f"the server asks for a {type(asked).__name__}")


class Desk:
    """The worker's one desk."""

    def __init__(self, pipe: Connection, shop: Shop | None) -> None:
        self.pipe = pipe
        self.shop = shop
        self.inbox = Inbox(pipe)
        self.bench = Bench()
        self._read: tuple[str, Job] | None = None
        self._told_at = 0.0

    def run(self) -> None:
        """Work until the server is gone: models first, then papers, then the book."""
        while True:
            inbox = self.inbox
            inbox.look()
            if not (inbox.models or inbox.papers or inbox.book):
                self.tell(Waiting(done=inbox.taken))
                inbox.look(None)
            self.serve_models()
            if inbox.papers:
                self.make_papers(inbox.papers.popleft())
            elif inbox.book is not None:
                asked, inbox.book = inbox.book, None
                self.make_book(asked)

    def tell(self, said: object) -> None:
        """Send a message to the server."""
        try:
            self.pipe.send(said)
        except OSError:
            raise ServerGone from None
        self._told_at = time.monotonic()

    def look_up(self) -> None:
        """Between two steps: say that it is at work, take in what was asked, make models."""
        if time.monotonic() - self._told_at > BEAT_EVERY:
            self.tell(Beat())
        self.inbox.look()
        self.serve_models()

    def job(self, asked: Asked) -> Job:
        """The job of a text, read once."""
        if self._read is None or self._read[0] != asked.text:
            self._read = (asked.text, read_job_text(asked.text, asked.file))
            self.bench.keep.limit = max(KEPT, KEPT_A_BOARD * len(self._read[1].boards))
        return self._read[1]

    # -- models

    def serve_models(self) -> None:
        """Make all models that were asked for."""
        while self.inbox.models:
            asked = self.inbox.models.popleft()
            try:
                piece = piece_of(self.job(asked.job), self.shop, asked.job.made, self.bench)
                data = model(piece, asked.job.revision, asked.have, self.bench.keep)
            except JobError as error:
                self.tell(ModelMade(number=asked.number, data=None, why=str(error.mistakes[0])))
            except Exception as error:
                LOG.exception("the model could not be made")
                self.tell(ModelMade(number=asked.number, data=None, why=f"{type(error).__name__} in the model"))
            else:
                self.tell(ModelMade(number=asked.number, data=data))

    # -- the book

    def make_book(self, asked: BookAsked) -> None:
        """Solids, clashes and studies; given up as soon as a newer text has come."""
        revision = asked.job.revision

        def superseded() -> bool:
            self.look_up()
            return self.inbox.book is not None or bool(self.inbox.papers)

        def work() -> None:
            book = self._built(asked.job, None, superseded)
            if not superseded():
                self.tell(_made(asked.job, book))
                return
            if self.inbox.book is None:  # papers came between: the book is still wanted, after them
                self.inbox.book = asked
            raise Cancelled("book")

        self._ending(None, revision, work)

    def _built(self, job: Asked, task: int | None, unwanted: Callable[[], bool]) -> Book:
        last = 0.0

        def step(done: float, what: str) -> None:
            nonlocal last
            now = time.monotonic()
            if now - last > SAY_EVERY:  # a study may step thousands of times a second; the server has better to do
                last = now
                self.tell(Step(task=task, revision=job.revision, done=round(done, 3), what=what))

        report = Work(on_step=step, cancelled=unwanted)
        return build(self.job(job), self.shop, job.made, bench=self.bench, work=report)

    def _ending(self, task: int | None, revision: int, work: Callable[[], None]) -> None:
        """Do work and say how it ended; whatever goes wrong in it ends that work alone."""
        why = ""
        try:
            work()
        except Cancelled:
            why = "called off"
        except JobError as error:
            why = str(error.mistakes[0])
        except ServerGone:
            raise
        except Exception as error:
            why = our_fault(f"work revision {revision} out", error)
            LOG.exception("%s", why)
        self.tell(Ended(task=task, revision=revision, why=why))

    # -- papers

    def make_papers(self, asked: PapersAsked) -> None:
        """Papers one after the other, each sent as it is there."""

        def off() -> bool:
            self.look_up()
            return asked.task in self.inbox.called_off

        def work() -> None:
            book = self._built(asked.job, asked.task, off)
            desk = looks.Desk(book)
            with some_aside(desk, [file.removesuffix(".pdf") for file in asked.files]):
                for number, file in enumerate(asked.files):

                    def step(what: str, done: float = number / len(asked.files)) -> None:
                        if off():
                            raise Cancelled(what)
                        self.tell(Step(task=asked.task, revision=asked.job.revision, done=round(done, 3), what=what))

                    step(file)
                    self.tell(_paper(desk, asked, file, step))

        self._ending(asked.task, asked.job.revision, work)
        self.inbox.called_off = {task for task in self.inbox.called_off if task > asked.task}


def _made(asked: Asked, book: Book) -> BookMade:
    live = {_bare(finding) for finding in book.piece.findings}
    return BookMade(
        revision=asked.revision,
        made=asked.made,
        checked=book.checked,
        not_checked=book.not_checked,
        findings=tuple(finding for finding in book.findings if _bare(finding) not in live),
        studies={name: plain(result, book.voice) for name, result in book.studies.items()},
        left_out=dict(book.left_out),
        masses=dict(book.mass_kg),
    )


def _bare(finding: Finding) -> Finding:
    """A finding without its cures: those that were tried and are not sure are no longer there in the book."""
    return replace(finding, cures=()) if finding.cures else finding


def _paper(desk: looks.Desk, asked: PapersAsked, file: str, step: Callable[[str], None]) -> PaperMade:
    """A paper's file; of one made of sheets also its pages as pictures."""
    task, revision, paper = asked.task, asked.job.revision, file.removesuffix(".pdf")
    if file == paper or all(sheet.paper != paper for sheet in SHEETS.values()):
        data = WRITERS[file](desk, step)
        return PaperMade(task=task, revision=revision, file=file, data=data, pages=(), pictures=())
    drawn = itertools.count(1)
    sheets = paper_sheets(paper, desk.book, lambda title: step(f"{file}: sheet {next(drawn)}, {title}"), desk)
    step(f"{file}: binding {len(sheets)} sheets")
    pages = tuple(_page(paper, number, draft, display) for number, (draft, display) in enumerate(sheets, start=1))
    pictures = tuple(svg(display) for _, display in sheets)
    data = bound(paper, desk, sheets)
    return PaperMade(task=task, revision=revision, file=file, data=data, pages=pages, pictures=pictures)


def _page(paper: str, number: int, draft: Draft, display: Display) -> Page:
    return Page(
        page=number,
        title=draft.title,
        kind=draft.kind,
        number=draft.number,
        scale=draft.scale,
        width=display.width,
        height=display.height,
        picture=f"/api/papers/{paper}/{number}.svg",
    )


def serve(pipe: Connection, shop: Shop | None) -> None:
    """The whole life of the worker; a process of its own, so it tells of its faults itself."""
    tell_terminal("dryfit")
    if os.environ.get(TRACE):
        LOG.setLevel(logging.DEBUG)
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # Ctrl-C is the server's; it ends the worker by leaving
    if hasattr(os, "nice"):
        os.nice(BEHIND)
    with suppress(ServerGone):
        Desk(pipe, shop).run()
