"""What stands behind the routes: the session, the slow work that follows it, the papers, all windows told.

Everything here runs on the event loop from end to end, so that changes come one after the other without a lock.
"""

import asyncio
import logging
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from ..editing import answers, requests
from ..editing.cards import card
from ..editing.cutting import cuts_of
from ..editing.derived import ways_of
from ..editing.drag import gripped
from ..editing.drawn import Drawn
from ..editing.openings import all_bays, bay_card
from ..editing.refusals import Refused, own_faults, refused
from ..shop.model import Shop
from . import states
from .levers import levers_of
from .papers import PaperShelf
from .previews import gone_on, previewed
from .server.live import Hub
from .since import version
from .store.session import Session
from .worker.messages import BookMade, Ended, HowFar, PaperMade, Still, StudyMade, TextAsked
from .worker.slow import Slow
from .worker.worker import Worker

LOG = logging.getLogger("dryfit")
LOOK_EVERY = 0.4  # seconds between looks at the file


class Service:
    """One job with all that works on it; see `api` for what the routes ask.

    Attributes:
        session: the job.
        hub: all windows.
        slow: solids, clashes and studies, as far as they have come.
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
        self.slow = Slow(self.worker, self._job, self._tell)
        self._watch: asyncio.Task[None] | None = None
        self._schema: answers.Schema | None = None

    def start(self) -> None:
        """Start the worker and the watch on the file."""
        self.worker.start()
        self.slow.ask()
        self._watch = asyncio.create_task(self._look())

    async def stop(self) -> None:
        """End all that runs, and let the job go."""
        self.slow.stop()
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
            except Exception:  # the next look may fare better; without one, changes from outside would go unseen
                LOG.exception("the job file could not be looked at")

    def _told(self, live: answers.Live) -> None:
        """Something happened to the job: all windows are told, and the slow work follows."""
        self.hub.tell(live)
        if self._watch is not None:  # nothing runs before `start`
            self.slow.soon()

    def _tell(self, kind: answers.LiveKind, *, says: str = "", done: float = 0.0, task: int | None = None) -> None:
        self.hub.tell(answers.Live(kind=kind, revision=self.session.revision, says=says, done=done, task=task))

    # -- the worker

    def _job(self) -> TextAsked | None:
        """The text last drawn, for the worker; None where none ever could be."""
        session = self.session
        if session.drawn is None or session.drawn_at is None:
            return None
        made = session.draughtsman.made
        return TextAsked(revision=session.drawn_at, text=session.drawn.text, file=session.file.name, made=made)

    def _asked(self) -> TextAsked:
        """The same, where it must be there.

        Raises:
            Refused: it is not.
        """
        self._drawn()
        found = self._job()
        assert found is not None, "what is drawn has a text"
        return found

    def _heard(self, said: object) -> None:
        match said:
            case BookMade() | StudyMade() | Still() | HowFar(task=None) | Ended(task=None):
                self.slow.heard(said)
            case HowFar():
                self._tell("progress", says=said.what, done=said.done, task=said.task)
            case PaperMade():
                self.shelf.put(said)
            case Ended():
                self.shelf.end(said.task or 0)
                self._tell("papers", says=said.why, task=said.task, done=1.0)

    # -- reading

    def state(self) -> answers.State:
        """The whole job."""
        return states.state_of(self.session, self.slow)

    def schema(self) -> answers.Schema:
        """What does not change while the server runs."""
        if self._schema is None:
            self._schema = states.schema_of_job()
        return self._schema

    def history(self, limit: int) -> answers.VersionsKept:
        """The versions, the newest first."""
        rows = self.session.history.newest(limit)
        return answers.VersionsKept(revision=self.session.revision, versions=tuple(map(version, rows)))

    def card(self, of: requests.CardOf) -> answers.Card:
        """The card of what is chosen."""
        drawn = self._drawn()
        with own_faults("show this card"):
            draughtsman = self.session.draughtsman
            found = card(drawn, of, self.session.drawn_at or 0, draughtsman.bench.keep)
            return replace(found, cuts=cuts_of(drawn, draughtsman.made, of))

    def grip(self, sent: requests.Grip) -> answers.Gripped:
        """What a hand can do with what it gripped."""
        self.session.base(sent.base_revision)
        with own_faults("take hold of this"):
            return gripped(self.session.drawn, sent.target, self.session.revision)

    def ways(self, sent: requests.WaysAsked) -> answers.Offers:
        """How a figure that is worked out may be written."""
        self.session.base(sent.base_revision)
        drawn = self._drawn()
        with own_faults("see how this may be written"):
            return answers.Offers(revision=self.session.revision, offers=ways_of(drawn, sent))

    def bays(self) -> answers.Bays:
        """All clear openings."""
        with own_faults("find the bays"):
            return all_bays(self._drawn(), self.session.drawn_at or 0)

    def bay(self, sent: requests.BayAsked) -> answers.BayFound:
        """A bay that is chosen."""
        with own_faults("show this bay"):
            found = bay_card(self._drawn(), self.session.draughtsman.made, sent.at, sent.others)
            return answers.BayFound(revision=self.session.drawn_at or 0, card=found)

    def preview(self, sent: requests.Preview) -> answers.Previewed:
        """What would come of it; that the job has moved on meanwhile is told in the answer too: nothing was lost."""
        try:
            self.session.base(sent.base_revision)
        except Refused as fault:
            if fault.fault.code != "stale":
                raise
            return gone_on(self.session, fault.fault)
        return previewed(self.session, sent.doing)

    def answered(self, study: str) -> answers.Answered:
        """A study's result."""
        return self.slow.answered(study)

    async def what_if(self, study: str, sent: requests.WhatIf) -> answers.Tried:
        """What a study gives with its levers moved."""
        self.session.base(sent.base_revision)
        job = self._asked()
        return await self.worker.what_if(job, study, levers_of(study, sent, self._drawn().job))

    async def assembly(self) -> answers.Assembly:
        """How the piece goes together, in the booklet's words."""
        return await self.worker.assembly(self._asked())

    async def model(self, have: list[str], revision: int | None) -> bytes:
        """The meshes of what is drawn."""
        job = self._asked()
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

    def undo(self, sent: requests.EditAsked) -> answers.Changed:
        """The last change taken back."""
        return self._changed(*self.session.undo(sent))

    def redo(self, sent: requests.EditAsked) -> answers.Changed:
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
        job = self._asked()
        before = self.shelf.task
        task, writers = self.shelf.begin(names)
        if before is not None:
            self.worker.call_off(before)
        self.worker.ask_papers(task, job, writers)
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
