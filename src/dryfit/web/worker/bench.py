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
from multiprocessing.connection import Connection

from ...book import Book, Kept, build, piece_of, read_job_text, what_if
from ...documents import looks
from ...documents.aside import some_aside
from ...documents.display import Display, Draft
from ...documents.plain import plain
from ...documents.svg import svg
from ...documents.writer import Writer
from ...documents.writers import WRITERS
from ...editing.answers import Found, LeftOpen, Page, Tried
from ...editing.assembling import assembly_of
from ...editing.meshes import model
from ...editing.refusals import our_fault
from ...errors import Cancelled, JobError
from ...findings import with_no_cures
from ...job.model import Job
from ...sentences import Voice, told
from ...shop.model import Shop
from ...study.base import Work
from ...study.outcome import CalledOff, Done, StudyNow, stands, why_none
from ...study.runner import Ran
from ...terminal import TRACE, tell_terminal
from .messages import (
    AssemblyAsked,
    AssemblyMade,
    Beat,
    BookAsked,
    BookMade,
    CallOff,
    Ended,
    HowFar,
    ModelAsked,
    ModelMade,
    PaperMade,
    PapersOfText,
    StudyAsked,
    StudyMade,
    StudyTried,
    TextAsked,
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
        self.models: deque[ModelAsked | StudyAsked | AssemblyAsked] = deque()
        self.papers: deque[PapersOfText] = deque()
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
            case ModelAsked() | StudyAsked() | AssemblyAsked():
                self.models.append(asked)
            case PapersOfText():
                self.papers.append(asked)
            case CallOff():
                self.called_off.add(asked.task)
            case _:
                raise AssertionError(f"the server asks for a {type(asked).__name__}")


class Bench:
    """The worker's one desk."""

    def __init__(self, pipe: Connection, shop: Shop | None) -> None:
        self.pipe = pipe
        self.shop = shop
        self.inbox = Inbox(pipe)
        self.bench = Kept()
        self._read: tuple[str, Job] | None = None
        self._told_at = 0.0
        self._book: tuple[TextAsked, Book] | None = None  # the last whole one, for what is told of it
        self._last: dict[str, tuple[str, str]] = {}  # of each study the key, and the units, of what was told last

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
        self._beat()
        self.inbox.look()
        self.serve_models()

    def _beat(self) -> None:
        if time.monotonic() - self._told_at > BEAT_EVERY:
            self.tell(Beat())

    def job(self, asked: TextAsked) -> Job:
        """The job of a text, read once."""
        if self._read is None or self._read[0] != asked.text:
            self._read = (asked.text, read_job_text(asked.text, asked.file))
            self.bench.keep.limit = max(KEPT, KEPT_A_BOARD * len(self._read[1].boards))
        return self._read[1]

    # -- models

    def serve_models(self) -> None:
        """Make all models that were asked for, and try all studies."""
        while self.inbox.models:
            asked = self.inbox.models.popleft()
            if isinstance(asked, StudyAsked):
                self.try_study(asked)
                continue
            if isinstance(asked, AssemblyAsked):
                self.tell_assembly(asked)
                continue
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

    def try_study(self, asked: StudyAsked) -> None:
        """One study with its levers moved; it may come between two steps of the book, so it takes in nothing new."""
        try:
            job, levers = self.job(asked.job), {type(lever): lever for lever in asked.levers}
            work = Work(on_step=lambda done, what: self._beat())
            ran = what_if(job, asked.study, levers, self.shop, asked.job.made, bench=self.bench, work=work)
            self.tell(StudyTried(number=asked.number, data=_tried(asked, ran, job)))
        except JobError as error:
            self.tell(StudyTried(number=asked.number, data=None, why=str(error.mistakes[0])))
        except ServerGone:
            raise
        except Exception as error:
            LOG.exception("a study could not be tried")
            self.tell(StudyTried(number=asked.number, data=None, why=f"{type(error).__name__} in it"))

    def tell_assembly(self, asked: AssemblyAsked) -> None:
        """The booklet's words, of the book that was made last where that is of the same text."""
        of, book = self._book or (None, None)
        if of is None or book is None or (of.text, of.made) != (asked.job.text, asked.job.made):
            self.tell(AssemblyMade(number=asked.number, data=None, why="its book is not made yet"))
            return
        try:
            data = assembly_of(looks.Desk(book), asked.job.revision)
        except Exception as error:
            LOG.exception("it could not be told how the piece goes together")
            self.tell(AssemblyMade(number=asked.number, data=None, why=f"{type(error).__name__} in it"))
        else:
            self.tell(AssemblyMade(number=asked.number, data=data))

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
                self._book = asked.job, book
                self.tell(_made(asked.job, book))
                return
            if self.inbox.book is None:  # papers came between: the book is still wanted, after them
                self.inbox.book = asked
            raise Cancelled("book")

        self._ending(None, revision, work)

    def _built(self, job: TextAsked, task: int | None, unwanted: Callable[[], bool]) -> Book:
        last = 0.0

        def step(done: float, what: str) -> None:
            nonlocal last
            now = time.monotonic()
            if now - last > SAY_EVERY:  # a study may step thousands of times a second; the server has better to do
                last = now
                self.tell(HowFar(task=task, revision=job.revision, done=round(done, 3), what=what))

        report = Work(on_step=step, cancelled=unwanted)
        told = self._told_of(job) if task is None else None
        return build(
            self.job(job), self.shop, job.made, bench=self.bench, work=report, told=told, revision=job.revision
        )

    def _told_of(self, asked: TextAsked) -> Callable[[StudyNow], None]:
        """Tells the server of each study of a book; of one that was called off nothing: a newer book follows."""
        voice, last = Voice(self.job(asked).units), 0.0

        def told(now: StudyNow) -> None:
            nonlocal last
            outcome = now.outcome
            if isinstance(outcome, CalledOff) or (outcome is None and time.monotonic() - last < SAY_EVERY):
                return
            last = time.monotonic()
            known = (now.key, voice.units)
            same = isinstance(outcome, Done) and self._last.get(now.study) == known
            if outcome is not None:
                self._last[now.study] = known if isinstance(outcome, Done) else ("", "")
            self.tell(
                StudyMade(
                    study=now.study,
                    revision=now.revision,
                    made=asked.made,
                    key=now.key,
                    done=round(now.done, 3),
                    stands="working" if outcome is None else stands(outcome),
                    why="" if outcome is None else why_none(outcome, voice),
                    result=plain(outcome.result, voice) if isinstance(outcome, Done) and not same else None,
                    same=same,
                )
            )

        return told

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

    def make_papers(self, asked: PapersOfText) -> None:
        """Papers one after the other, each sent as it is there."""

        def off() -> bool:
            self.look_up()
            return asked.task in self.inbox.called_off

        def work() -> None:
            book = self._built(asked.job, asked.task, off)
            desk = looks.Desk(book)
            writers = [WRITERS[name] for name in asked.writers]
            with some_aside(desk, [writer.binds for writer in writers if writer.binds]):
                for number, writer in enumerate(writers):

                    def step(what: str, done: float = number / len(writers)) -> None:
                        if off():
                            raise Cancelled(what)
                        self.tell(HowFar(task=asked.task, revision=asked.job.revision, done=round(done, 3), what=what))

                    step(writer.makes)
                    desk.watch = _Stepping(writer.makes, step)
                    self.tell(_paper(desk, asked, writer))

        self._ending(asked.task, asked.job.revision, work)
        self.inbox.called_off = {task for task in self.inbox.called_off if task > asked.task}


def _made(asked: TextAsked, book: Book) -> BookMade:
    live = {with_no_cures(finding) for finding in book.piece.findings}
    return BookMade(
        revision=asked.revision,
        made=asked.made,
        checked=book.checked,
        not_checked=book.not_checked,
        findings=tuple(finding for finding in book.findings if with_no_cures(finding) not in live),
        masses=dict(book.mass_kg),
    )


def _tried(asked: StudyAsked, ran: Ran, job: Job) -> Tried:
    """A study that was tried, for the page."""
    voice, outcome = Voice(job.units), ran.outcomes[asked.study]
    return Tried(
        study=asked.study,
        revision=asked.job.revision,
        stands=stands(outcome),
        why=why_none(outcome, voice),
        result=plain(outcome.result, voice) if isinstance(outcome, Done) else None,
        found=tuple(
            Found(severity=one.severity.value, says=told(one.says, voice), remedy=told(one.remedy, voice))
            for one in ran.found[asked.study]
        ),
        not_checked=tuple(
            LeftOpen(study=one.study, what=told(one.what, voice), why=told(one.why, voice), boards=one.where.boards)
            for one in ran.not_checked
            if one.study == asked.study
        ),
    )


class _Stepping:
    """Tells of a paper's sheets, each as a step of the work."""

    def __init__(self, file: str, step: Callable[[str], None]) -> None:
        self.file, self.step, self.drawn = file, step, itertools.count(1)

    def sheet(self, title: str) -> None:
        """One more."""
        self.step(f"{self.file}: sheet {next(self.drawn)}, {title}")

    def binding(self, sheets: int) -> None:
        """All are there."""
        self.step(f"{self.file}: binding {sheets} sheets")


def _paper(desk: looks.Desk, asked: PapersOfText, writer: Writer) -> PaperMade:
    """What a writer makes; of sheets also their pictures."""
    files = tuple(writer.made(desk))
    sheets = desk.bound.pop(writer.makes, ())
    return PaperMade(
        task=asked.task,
        revision=asked.job.revision,
        file=writer.makes,
        files=files,
        pages=tuple(_page(writer.name, number, draft, display) for number, (draft, display) in enumerate(sheets, 1)),
        pictures=tuple(svg(display) for _, display in sheets),
    )


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
        Bench(pipe, shop).run()
