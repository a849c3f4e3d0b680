"""The slow work that follows the text: one book at a time, the latest text wins, and what was found last is kept.

After each change the worker is asked for the book of the new text, once that has rested a moment; until it has come,
what was found of an earlier text is shown as not up to date. A worker that dies at it is given one more try; after
that the text counts as not checked, and is said to be so, until the next change.
"""

import asyncio
from collections.abc import Callable
from dataclasses import replace
from typing import Any, Protocol

from ...editing import answers
from ...findings import Finding, NotChecked
from ...studies import STUDIES
from .messages import BookMade, Ended, HowFar, Still, StudyMade, TextAsked
from .worker import Worker

SETTLE = 0.08  # seconds a changed text rests before the slow work is asked for
STANDS_STILL = "the background work is not answering; it is started again if it does not go on soon"
NOT_LOOKED_AT = "solids, clashes and studies are not checked; change something, and it is tried again"


class Tell(Protocol):
    """Tells all windows how far it is."""

    def __call__(self, kind: answers.LiveKind, *, says: str = "", done: float = 0.0) -> None:
        """One message."""


class Slow:
    """The book of the job, as far as it has come.

    Attributes:
        rest: how it stands, for the page.
    """

    def __init__(self, worker: Worker, job: Callable[[], TextAsked | None], tell: Tell) -> None:
        self.worker, self.job, self.tell = worker, job, tell
        self.rest = answers.Rest(revision=None, running=False, done=0.0, what="", says="", masses=())
        self._book: BookMade | None = None
        self._studies: dict[str, StudyMade] = {}
        self._at: dict[str, float] = {}  # how far the studies of the book that is asked for are
        self._asked: TextAsked | None = None
        self._died_at: int | None = None
        self._settling: asyncio.TimerHandle | None = None

    def stop(self) -> None:
        """Ask for nothing more."""
        if self._settling is not None:
            self._settling.cancel()

    # -- asking

    def soon(self) -> None:
        """Ask for the book once the text has rested a moment."""
        try:
            loop = asyncio.get_running_loop()
        except RuntimeError:
            return  # no server runs: a session used by itself
        self.stop()
        self._settling = loop.call_later(SETTLE, self.ask)
        if self._wanted() is not None:
            self._works()

    def ask(self) -> None:
        """Ask for the book, unless it is asked for already."""
        self._settling = None
        asked = self._wanted()
        if asked is not None:
            self._asked, self._at = asked, {}
            self._works()
            self.worker.ask_book(asked)

    def _wanted(self) -> TextAsked | None:
        """The text to work on; None where there is none, or it is asked for already."""
        asked = self.job()
        if asked is None or (self._asked is not None and self._same(asked, self._asked)):
            return None
        return asked

    def _works(self) -> None:
        """It is on its way from here on: between asking and beginning there is no moment of quiet."""
        if not self.rest.running:
            self.rest = replace(self.rest, running=True, done=0.0, what="")

    @staticmethod
    def _same(one: TextAsked, other: TextAsked) -> bool:
        return one.revision == other.revision and one.made is other.made

    # -- hearing

    def heard(self, said: BookMade | StudyMade | HowFar | Ended | Still) -> None:
        """A word of the worker about the book."""
        match said:
            case BookMade():
                self._book = said
                late = self._wanted() is not None or (self._asked is not None and not self.current)
                done = 0.0 if late else 1.0  # another is wanted or has been asked for meanwhile
                masses = tuple(said.masses.items())
                self.rest = replace(
                    self.rest, revision=said.revision, running=late, done=done, what="", says="", masses=masses
                )
                self.tell("rest")
            case StudyMade():
                self._at[said.study] = said.done
                if said.stands != "working":
                    before = self._studies.get(said.study)
                    kept = before.result if said.same and before is not None else said.result
                    self._studies[said.study] = replace(said, result=kept)
                    self.tell("study", says=said.study, done=1.0)
            case HowFar():
                self.rest = replace(self.rest, done=said.done, what=said.what)
                self.tell("progress", says=said.what, done=said.done)
            case Still():
                self._says(STANDS_STILL if said.still else "")
            case Ended(revision=0):
                self._died(said.why)
            case Ended(why=why) if why not in ("", "called off"):
                self.rest = replace(self.rest, running=False, what="")
                self._says(f"{why}: {NOT_LOOKED_AT}")

    def _died(self, why: str) -> None:
        """There is no worker any more. The book it was at is asked for once more of the next."""
        asked = self._asked
        if asked is None or (not self.rest.running and self.rest.revision == asked.revision):
            self._says("")  # it had answered
            return
        if self._died_at == asked.revision:
            self.rest = replace(self.rest, running=False, what="")
            self._says(f"{why} twice: {NOT_LOOKED_AT}")
            return
        self._died_at, self._asked = asked.revision, None
        self.soon()
        self._says(f"{why}; it is started again")

    def _says(self, says: str) -> None:
        if says == self.rest.says == "":
            return
        self.rest = replace(self.rest, says=says)
        self.tell("rest", says=says)

    # -- what it found

    def findings(self) -> tuple[tuple[Finding, ...], bool]:
        """What was found last, and whether it is of another text, or of other things measured and cut."""
        return (self._book.findings, not self.current) if self._book is not None else ((), False)

    @property
    def current(self) -> bool:
        """Whether all has answered for what is drawn now, and for what is measured and cut now."""
        book, now = self._book, self.job()
        return book is not None and now is not None and (book.revision, book.made) == (now.revision, now.made)

    @property
    def stands(self) -> answers.Rest:
        """How it stands for what is drawn now: nothing that was answered of an earlier text is an answer."""
        if self.current:
            return replace(self.rest, stands="answered")
        if self.rest.running:
            return replace(self.rest, stands="working")
        stopped = bool(self.rest.says) and self._settling is None
        return replace(self.rest, stands="stopped" if stopped else "working", done=0.0)

    def looked_at(self) -> tuple[tuple[str, ...], tuple[NotChecked, ...]] | None:
        """The questions answered and what is left open for what is drawn now; None until all has answered."""
        return (self._book.checked, self._book.not_checked) if self._book is not None and self.current else None

    def studies(self) -> tuple[answers.StudyShown, ...]:
        """Each study as it stands."""
        return tuple(answers.StudyShown(**self._now(name)) for name in STUDIES)

    def answered(self, study: str) -> answers.Answered:
        """A study with its result, or why there is none."""
        found = self._studies.get(study)
        return answers.Answered(**self._now(study), result=None if found is None else found.result)

    def _now(self, study: str) -> dict[str, Any]:
        found, now = self._studies.get(study), self.job()
        done = self._at.get(study, 0.0)
        if found is None:
            why = self.rest.says or "it is still being worked out"
            return _stands(study, done=done, why=why if study in STUDIES else "there is no such study")
        fresh = now is not None and (found.revision, found.made) == (now.revision, now.made)
        return {
            **_stands(study, done=1.0 if fresh else done, why=found.why),
            "revision": found.revision,
            "key": found.key,
            "stands": found.stands,
            "stale": not fresh,
        }


def _stands(study: str, *, done: float, why: str) -> dict[str, Any]:
    """A study of which nothing has come yet."""
    return {"study": study, "revision": None, "key": "", "done": done, "stands": "working", "why": why, "stale": False}
