"""What stands behind the routes: the session, the slow work that follows it, the papers, all windows told.

Everything here runs on the event loop. After each change the worker is asked for the book of the new text;
until it has come, what was found of an earlier text is shown as not up to date.
"""

import asyncio
import logging
from collections import Counter
from contextlib import suppress
from dataclasses import replace
from pathlib import Path
from typing import Any

from .. import __version__
from ..book import job_schema, models
from ..documents.elevation import nothing_drawn
from ..documents.marks import MARKS
from ..findings import Finding
from ..job.arithmetic import ArithmeticMistake, parse
from ..job.edits import sheet_of
from ..joints import KINDS, NAMED
from ..shop.model import Shop
from ..trade.finishes import all_systems
from ..trade.species import all_species
from . import answers, requests
from .card import card
from .drag import gripped
from .drawn import Drawn
from .jobfile import for_browser, line_ends
from .live import Hub
from .messages import Asked, BookMade, Ended, PaperMade, Step
from .notes import decided, notes
from .papers import PaperShelf
from .previews import previewed
from .refusals import Refused, mistaken, refused
from .session import Session, version
from .worker import Worker

LOG = logging.getLogger("dryfit")
LOOK_EVERY = 0.4  # seconds between looks at the file
SETTLE = 0.08  # seconds a changed text rests before the slow work is asked for


class Service:
    """One job with all that works on it; see `api.Service` for what the routes ask.

    Attributes:
        session: the job.
        hub: all windows.
    """

    def __init__(self, path: Path, shop: Shop | None = None) -> None:
        """Open the job; nothing runs before `start`.

        Raises:
            JobError: it cannot be opened.
        """
        self.hub = Hub()
        self.session = Session(path, shop, tell=self._told)
        self.shelf = PaperShelf(self.session.file.path)
        self.worker = Worker(shop, self._heard)
        self._book: BookMade | None = None
        self._asked: int | None = None
        self._rest = answers.Rest(revision=None, running=False, done=0.0, what="", masses=())
        self._watch: asyncio.Task[None] | None = None
        self._settling: asyncio.TimerHandle | None = None
        self._schema: answers.Schema | None = None

    def start(self) -> None:
        """Start the worker and the watch on the file."""
        self.worker.start()
        self._ask()
        self._watch = asyncio.create_task(self._look())

    async def stop(self) -> None:
        """End all that runs, and let the job go."""
        if self._settling is not None:
            self._settling.cancel()
        if self._watch is not None:
            self._watch.cancel()
            with suppress(asyncio.CancelledError):
                await self._watch
        self.worker.stop()
        self.session.close()

    async def _look(self) -> None:
        """Watch the file for changes from outside."""
        while True:
            await asyncio.sleep(LOOK_EVERY)
            try:
                self.session.look(patient=True)
            except Refused as fault:
                LOG.warning("a change from outside could not be taken in: %s", fault)

    # -- slow work

    def _told(self, live: answers.Live) -> None:
        self.hub.tell(live)
        if live.kind == "changed":
            self._soon()

    def _soon(self) -> None:
        """Ask for the book once the text has rested a moment."""
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            return  # no server runs: a session used by itself
        if self._settling is not None:
            self._settling.cancel()
        self._settling = loop.call_later(SETTLE, self._ask)

    def _ask(self) -> None:
        self._settling = None
        asked = self._job()
        if asked is None or asked.revision == self._asked:
            return
        self._asked = asked.revision
        self._rest = replace(self._rest, running=True, done=0.0, what="")
        self.worker.ask_book(asked)

    def _job(self) -> Asked | None:
        """The text last drawn, for the worker; None where none ever could be."""
        session = self.session
        if session.drawn is None or session.drawn_at is None:
            return None
        made = session.draughtsman.made
        return Asked(revision=session.drawn_at, text=session.drawn.text, file=session.file.name, made=made)

    def _heard(self, said: object) -> None:
        match said:
            case BookMade():
                self._book = said
                masses = tuple(said.masses.items())
                running = said.revision != self._asked
                self._rest = answers.Rest(revision=said.revision, running=running, done=1.0, what="", masses=masses)
                self._tell("rest")
            case Step(task=None):
                self._rest = replace(self._rest, done=said.done, what=said.what)
                self._tell("progress", says=said.what, done=said.done)
            case Step():
                self._tell("progress", says=said.what, done=said.done, task=said.task)
            case PaperMade():
                self.shelf.put(said)
            case Ended(task=None):
                self._book_ended(said)
            case Ended():
                self.shelf.end(said.task or 0)
                self._tell("papers", says=said.why, task=said.task, done=1.0)

    def _book_ended(self, said: Ended) -> None:
        """The book's work is over; what was called off is followed by the next by itself."""
        if said.why in ("", "called off"):
            return
        self._rest = replace(self._rest, running=False, what=said.why)
        if said.revision == 0:
            self._asked = None  # the worker died: the next change asks again
        self._tell("rest", says=said.why)

    def _tell(self, kind: Any, *, says: str = "", done: float = 0.0, task: int | None = None) -> None:
        self.hub.tell(answers.Live(kind=kind, revision=self.session.revision, says=says, done=done, task=task))

    def _slow(self) -> tuple[tuple[Finding, ...], bool]:
        """What the slow work found last, and whether it is of an earlier text."""
        if self._book is None:
            return (), False
        return self._book.findings, self._book.revision != self.session.drawn_at

    # -- reading

    def state(self) -> answers.State:
        """The whole job."""
        session = self.session
        drawn = session.drawn
        slow, old = self._slow()
        undo = session.row.undo
        redo = session.history.row(session.row.redo) if session.row.redo is not None else None
        return answers.State(
            revision=session.revision,
            file=session.file.name,
            text=for_browser(session.text),
            line_ends=line_ends(session.text),
            saved=self._saved(),
            stale=session.stale,
            drawn=session.drawn_at,
            mistakes=mistaken(session.text, session.mistakes),
            job=None if drawn is None else _head(drawn),
            drawing=nothing_drawn() if drawn is None else drawn.elevation,
            frames=() if drawn is None else _frames(drawn),
            measures=() if drawn is None else tuple(_measures(drawn)),
            notes=() if drawn is None else notes(drawn, slow, stale=old),
            decisions=() if drawn is None else tuple(map(decided, drawn.piece.decisions)),
            undo=session.row.did if undo is not None else None,
            redo=redo.did if redo is not None else None,
            last=session.row.says,
            rest=self._rest,
        )

    def _saved(self) -> answers.Saved:
        session = self.session
        word = session.journal.wait_word()
        says = session.trouble or word or session.file.network_word()
        state = session.drawn.job.state if session.drawn and not session.stale else session.row.hash[:8]
        return answers.Saved(at=session.row.at, state=state, writable=not word, says=says)

    def schema(self) -> answers.Schema:
        """What does not change while the server runs."""
        if self._schema is None:
            self._schema = answers.Schema(
                version=__version__,
                job_file=job_schema(),
                kinds={name: kind.options.model_json_schema() for name, kind in KINDS.items()},
                named=tuple(name for name in NAMED if name not in KINDS),
                species=tuple(species.name for species in all_species()),
                finishes=tuple(system.name for system in all_systems()),
                marks=tuple(
                    answers.Mark(
                        word=word,
                        lines=glyph.lines,
                        solid=glyph.solid,
                        heavy=glyph.heavy,
                        rings=glyph.rings,
                        discs=glyph.discs,
                    )
                    for word, glyph in MARKS.items()
                ),
            )
        return self._schema

    def history(self, limit: int) -> answers.History:
        """The versions, the newest first."""
        rows = self.session.history.newest(limit)
        return answers.History(revision=self.session.revision, versions=tuple(map(version, rows)))

    def card(self, of: requests.CardOf) -> answers.Card:
        """The card of what is chosen."""
        drawn = self._drawn()
        return card(drawn, of, self.session.drawn_at or 0, self.session.draughtsman.bench.keep)

    def grip(self, sent: requests.Grip) -> answers.Gripped:
        """What a hand can do with what it gripped."""
        self.session.base(sent.base_revision)
        return gripped(self.session.drawn, sent.target, self.session.revision)

    def preview(self, sent: requests.Preview) -> answers.Previewed:
        """What would come of it."""
        self.session.base(sent.base_revision)
        return previewed(self.session, sent.doing)

    def answered(self, study: str) -> answers.Answered:
        """A study's result."""
        book = self._book
        if book is None:
            return answers.Answered(revision=None, result=None, why="it is still being worked out", stale=False)
        result = book.studies.get(study)
        why = "" if result is not None else book.left_out.get(study, "there is no such study")
        stale = book.revision != self.session.drawn_at
        return answers.Answered(revision=book.revision, result=result, why=why, stale=stale)

    async def model(self, have: list[str], revision: int | None) -> bytes:
        """The meshes of what is drawn."""
        job = self._job()
        if job is None:
            raise refused("not ready", "there is no drawing yet", "put the text right first")
        return await self.worker.model(job, tuple(have))

    def _drawn(self) -> Drawn:
        if self.session.drawn is None:
            raise refused("not ready", "there is no drawing yet", "put the text right first")
        return self.session.drawn

    # -- changing

    def change(self, sent: requests.Change) -> answers.Changed:
        """One step of undo."""
        return self._changed(*self.session.change(sent))

    def write(self, sent: requests.TextChange) -> answers.Changed:
        """The whole text."""
        return self._changed(*self.session.write(sent))

    def undo(self, sent: requests.Operation) -> answers.Changed:
        """The last change taken back."""
        return self._changed(*self.session.undo(sent))

    def redo(self, sent: requests.Operation) -> answers.Changed:
        """What was taken back done again."""
        return self._changed(*self.session.redo(sent))

    def restore(self, sent: requests.Restore) -> answers.Changed:
        """An earlier version."""
        return self._changed(*self.session.restore(sent))

    def _changed(self, says: str, again: bool) -> answers.Changed:
        return answers.Changed(says=says, again=again, state=self.state())

    # -- papers

    def papers(self) -> answers.Papers:
        """All papers."""
        return self.shelf.shown(self.session.drawn_at or 0)

    def make_papers(self, names: list[str]) -> answers.Task:
        """Ask for papers; those being made are called off."""
        job = self._job()
        if job is None:
            raise refused("not ready", "there is no drawing yet", "put the text right first")
        before = self.shelf.task
        task, files = self.shelf.begin(names)
        if before is not None:
            self.worker.call_off(before)
        self.worker.ask_papers(task, job, files)
        return answers.Task(task=task)

    def cancel_papers(self, task: int) -> answers.Papers:
        """Call papers off; once they have ended this does nothing."""
        if self.shelf.task == task:
            self.worker.call_off(task)
        return self.papers()

    def save_papers(self, files: list[str]) -> answers.SavedPapers:
        """Write made papers beside the job."""
        return self.shelf.save(files)

    def paper(self, file: str) -> tuple[bytes, str]:
        """A made paper."""
        return self.shelf.file(file)

    def picture(self, name: str, page: int) -> str:
        """A page as a picture."""
        return self.shelf.picture(name, page)


def _head(drawn: Drawn) -> answers.JobHead:
    job = drawn.job
    return answers.JobHead(title=job.title, client=job.client, date=job.date, units=job.units)


def _frames(drawn: Drawn) -> tuple[answers.FrameShown, ...]:
    return tuple(
        answers.FrameShown(
            name=frame.name, boards=frame.boards, points=frame.points, closed=frame.closed, path=frame.path
        )
        for frame in drawn.job.frames
    )


def _measures(drawn: Drawn) -> list[answers.Measure]:
    sheet = sheet_of(drawn.text)
    uses = Counter(name for _, text, role in models().texts(sheet.data) if role == "length" for name in _names(text))
    return [
        answers.Measure(
            name=name,
            written=sheet.spans.written(("measures", name)),
            value=round(value, 6) + 0.0,
            users=uses[name],
        )
        for name, value in drawn.job.measures.items()
    ]


def _names(text: str) -> tuple[str, ...]:
    try:
        return parse(text).names
    except ArithmeticMistake:
        return ()
