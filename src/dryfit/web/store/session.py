"""One job, open on the page: its text, its versions, what is drawn of it.

Every change takes the same way: asked for by an operation with its own id on a known revision, composed into
edits, written back byte for byte, put into the history, the file and the history again (see `history`), drawn.
Asked for twice it is done once; asked for on an old revision it is refused with what has happened since.
"""

import json
from collections.abc import Callable, Iterable
from dataclasses import replace
from pathlib import Path

from ...book import change_job_text, read_job_text
from ...editing import requests
from ...editing.answers import Live
from ...editing.composed import Composed
from ...editing.cutting import lost
from ...editing.different import named
from ...editing.doing import compose
from ...editing.drawn import Draughtsman, Drawn
from ...editing.refusals import Refused, mistaken, own_faults, refused
from ...errors import JobError, MadeError, Mistake
from ...job.model import Job
from ...job.reading import decoded
from ...piece.made import read_made, renamed, without_cuts
from ...piece.recording import recorded_text
from ...piece.setout import NOTHING_MADE, Made
from ...places import Edit
from ...shop.model import Shop
from ..since import clashing, not_taken_back, set_aside, stale, version
from .history import ASIDE, WRITTEN, Kind, VersionRow
from .jobfile import Stamp, from_browser
from .journal import Journal, Overtaken
from .late import OUTSIDE, THERE, PutTogether, together

LOOK_BACK = 100  # versions looked through for the last one that could be read
TYPED = "text typed by hand"


class Session:
    """The one job of a server.

    Attributes:
        journal: the file and its versions.
        text: as in the file.
        drawn: the current text drawn, or the last that could be read; None if none ever could.
        drawn_at: revision of `drawn`.
        mistakes: why the current text cannot be read; empty where it can.
    """

    def __init__(
        self,
        path: Path,
        shop: Shop | None = None,
        tell: Callable[[Live], None] = lambda live: None,
        pause: Callable[[str], None] = lambda moment: None,
    ) -> None:
        """Open a job, finding out what happened since it was last open.

        Args:
            path: of the job file, which is there.
            shop: what the maker owns.
            tell: told of every change.
            pause: called between the writes of a change, by "row", "file" and "mark": for tests that kill.

        Raises:
            JobError: it cannot be opened at all.
        """
        self.journal = Journal(path, pause, self._outside)
        self.file, self.history = self.journal.file, self.journal.history
        self.tell = tell
        self.text = ""
        self._seen: Stamp | None = None
        self.drawn: Drawn | None = None
        self.drawn_at: int | None = None
        self.mistakes: tuple[Mistake, ...] = ()
        self.made_file = self.journal.made
        self.draughtsman = Draughtsman(self.file.name, shop, NOTHING_MADE)
        self.draughtsman.made = self._made()
        self._show(self.journal.data)
        self._last_good()

    def close(self) -> None:
        """Let the job go."""
        self.journal.close()

    def _outside(self, before: bytes, after: bytes) -> str:
        """What somebody else changed in the file, in words; "" where nothing can be said of it."""
        try:
            return named(*(read_job_text(_decoded(data)) for data in (before, after)))
        except JobError:
            return ""

    def _last_good(self) -> None:
        """Where the text cannot be read, draw the last version that can."""
        if self.drawn is not None:
            return
        for row in self.history.newest(LOOK_BACK):
            try:
                data = self.history.data(row)
            except Refused:  # it is damaged; an older one may do
                continue
            drawn, _ = self.draughtsman.tried(_decoded(data))
            if drawn is not None:
                self.drawn, self.drawn_at = drawn, row.id
                return

    def _made(self) -> Made:
        """What has been made; of a file that cannot be used what was last read of it, and a stop that says so."""
        self.made_trouble = ""
        self.made_file.read()
        try:
            return read_made(self.made_file.path)
        except MadeError as error:
            self.made_trouble = str(error.mistakes[0])
            return replace(self.draughtsman.made, trouble=self.made_trouble)

    @property
    def made_text(self) -> str:
        """The made file's text; "" where there is none."""
        return self.made_file.read().text or ""

    # -- what holds

    @property
    def row(self) -> VersionRow:
        """The version that is current."""
        return self.journal.row

    @property
    def revision(self) -> int:
        """Of the job as it is: the number of its version."""
        return self.journal.row.id

    @property
    def trouble(self) -> str:
        """What is wrong with the files on disk; "" where all is well."""
        return self.journal.trouble or self.made_trouble or self.history.mended

    @property
    def stale(self) -> bool:
        """Whether the drawing is the last good one of a text that cannot be read now."""
        return bool(self.mistakes)

    def _show(self, data: bytes, job: Job | None = None) -> None:
        """Draw the current version, whose bytes these are."""
        self.text = _decoded(data)
        try:
            decoded(data, self.file.name)
        except JobError as error:
            self.mistakes = error.mistakes
            return
        drawn, self.mistakes = self.draughtsman.tried(self.text, job)
        if drawn is not None:
            self.drawn, self.drawn_at = drawn, self.revision

    # -- changes from outside

    def look(self, *, patient: bool = False) -> bool:
        """See whether someone else changed the files; take it in. True if anything changed.

        Args:
            patient: wait until the file has rested between two looks: an editor may still be writing it.
        """
        if self.made_file.touched():
            self.take_in_made()
        if not self.file.touched():
            return False
        seen, self._seen = self._seen, self.file.stamp()
        return (not patient or seen == self._seen) and self.take_in()

    def take_in(self) -> bool:
        """Take in what stands in the file, if it is not what was written here; True if anything is new."""
        before = self.journal.trouble
        if self.journal.take_in():
            self._show(self.journal.data)
            self.tell(Live(kind="changed", revision=self.revision, by="outside", says=self.row.says))
            return True
        if self.journal.trouble != before:
            self.tell(Live(kind="file", revision=self.revision, says=self.journal.trouble))
            return True
        return False

    def take_in_made(self) -> None:
        """Take in what is cut, as somebody else has written it."""
        new = self.journal.take_in_made()
        self.draughtsman.made = self._made()
        self._show(self.journal.data)
        if new:
            self.tell(Live(kind="changed", revision=self.revision, by="outside", says=self.row.says))
        else:
            self.tell(Live(kind="file", revision=self.revision, says=self.trouble))

    # -- changes from the page

    def change(self, sent: requests.Change) -> tuple[str, bool]:
        """Do what the page asks; what was done, and whether it had been done already."""
        return self._once(sent, lambda: self._change(sent), lambda was: self._late_change(sent, was))

    def write(self, sent: requests.TextChange) -> tuple[str, bool]:
        """Put the whole text in place; with what has changed since the text that it was typed in."""

        def work() -> str:
            return self._written(sent, self.text if sent.was is None else from_browser(sent.was, self.text))

        def late(was: VersionRow) -> str:
            return self._written(sent, _decoded(self.history.data(was)), self._who(was))

        return self._once(sent, work, late)

    def _written(self, sent: requests.TextChange, was: str, who: str = THERE) -> str:
        """Put a text in place that was typed in `was`."""
        text = from_browser(sent.text, was)
        if was != self.text:
            text = self._together(was, text, sent.operation_id, TYPED, who)
        drawn, _ = self.draughtsman.tried(text)
        name = self._named(None if drawn is None else drawn.job)
        says = f"{TYPED}: {name}" if name else TYPED if drawn is not None else f"{TYPED}, with a mistake in it"
        return self._commit(text, "text", says, sent.operation_id, did=says, job=None if drawn is None else drawn.job)

    def undo(self, sent: requests.EditAsked) -> tuple[str, bool]:
        """Take the last change back."""
        return self._stepped("undo", sent)

    def redo(self, sent: requests.EditAsked) -> tuple[str, bool]:
        """Do again what was taken back."""
        return self._stepped("redo", sent)

    def _stepped(self, kind: Kind, sent: requests.EditAsked) -> tuple[str, bool]:
        return self._once(
            sent,
            lambda: self._step(kind, sent.operation_id),
            lambda was: self._late_step(kind, was, sent.operation_id),
        )

    def restore(self, sent: requests.Restore) -> tuple[str, bool]:
        """Back to an earlier version, as one more change."""

        def work() -> str:
            target = self.history.row(sent.version)
            if target is None:
                raise refused("not there", f"there is no version {sent.version}", "choose one of the history")
            says = f"back to version {target.id} ({version(target).says})"
            text, made = _decoded(self.history.data(target)), self.history.made(target.id)
            return self._commit(text, "restore", says, sent.operation_id, did=says, made=made)

        return self._once(sent, work)

    def composed(self, doing: requests.Doing) -> tuple[Composed, str, Job | None]:
        """The edits of something asked for, the text they make, and the job it reads as.

        Raises:
            Refused: it cannot be done.
        """
        if self.mistakes and not isinstance(doing, requests.EditsSent):
            raise refused(
                "refused",
                "nothing can be moved or typed while the text cannot be read",
                "put the text right first",
                mistakes=mistaken(self.text, self.mistakes),
            )
        with own_faults("write this into the job file"):
            found = compose(self.drawn, self.text, doing, self.draughtsman.made)
            text, job = self.edited(found.edits)
        return found, text, job

    def edited(self, edits: Iterable[Edit], text: str | None = None) -> tuple[str, Job | None]:
        """The text, or another, with edits made, and the job it reads as.

        Raises:
            Refused: they cannot be made.
        """
        text = self.text if text is None else text
        try:
            return change_job_text(text, edits, self.file.name)
        except JobError as error:
            first = error.mistakes[0]
            marked = mistaken(text, error.mistakes)
            raise refused("refused", first.says, first.remedy, mistakes=marked, revision=self.revision) from None

    def base(self, revision: int) -> None:
        """See that a page speaks of the job as it is.

        Raises:
            Refused: it does not; with what happened since.
        """
        if self.file.touched():
            self.take_in()
        if revision != self.revision:
            raise stale(self.history, revision, self.revision)
        if self.made_file.touched():  # what the page asks for of the job it asks for on top of that
            self.take_in_made()

    def _once(
        self, sent: requests.EditAsked, work: Callable[[], str], late: Callable[[VersionRow], str] | None = None
    ) -> tuple[str, bool]:
        """Do something once; `late` does it where the job has changed since the version that was seen."""
        done = self.history.operation(sent.operation_id)
        if done is not None and done.written == WRITTEN:
            return done.says, True
        if done is not None:
            raise refused("refused", "this change was set aside", "make it again", revision=self.revision)
        word = self.journal.wait_word()
        if word:
            raise refused("read-only", f"the change was not made: {word}", "make it writable, or work on a copy")
        try:
            self.base(sent.base_revision)
        except Refused:
            was = self.history.row(sent.base_revision)
            if late is None or was is None or was.id > self.revision or was.written != WRITTEN:
                raise
            return late(was), False
        return work(), False

    def _change(self, sent: requests.Change) -> str:
        return self._done(sent, *self.composed(sent.doing))

    def _done(self, sent: requests.Change, found: Composed, text: str, job: Job | None) -> str:
        """Make a change true that is composed."""
        after = self._after(found, text, job)
        if not sent.sure and (asks := self._asks(found, after)):
            raise refused("ask", asks, "send it again as sure, or leave it", revision=self.revision)
        joints = () if after is None else (joint.key for joint in after.piece.joints)
        says = sent.label or (found.says if after is None else found.said(joints))
        renames = json.dumps(dict(found.renames)) if found.renames else ""
        made = self._made_with(found)
        kind: Kind = "cut" if made is not None and not found.edits else "edit"
        called = self._named(job)
        did = called or says
        if found.plain and called and not sent.label:
            says = called
        return self._commit(text, kind, says, sent.operation_id, did=did, renames=renames, job=job, made=made)

    def _named(self, after: Job | None) -> str:
        """What a version is called that is changed to a job; "" where nothing of the piece is."""
        return "" if self.mistakes or self.drawn is None else named(self.drawn.job, after)

    # -- changes that come late

    def _late_change(self, sent: requests.Change, was: VersionRow) -> str:
        """Do what was asked for on an older version: worked out on that one, and put together with what came since.

        Raises:
            Refused: both changed the same, with both figures; or what is asked for has to be seen on the newer job.
        """
        before = _decoded(self.history.data(was))
        drawn, _ = self.draughtsman.tried(before)
        if drawn is None or self.mistakes:
            raise stale(self.history, was.id, self.revision)
        with own_faults("write this into the job file"):
            found = compose(drawn, before, sent.doing, self.draughtsman.made)
            if found.cut or found.uncut or found.asks:  # what is cut is the wood's: that is done on what is seen
                raise stale(self.history, was.id, self.revision)
            here, _ = self.edited(found.edits, before)
        put = together(before, here, self.text, self.file.name, self._who(was))
        if put.twice:  # what is put in gets a name that is free now
            return self._change(sent)
        text = self._kept_or(put, here, sent.operation_id, found.says)
        return self._done(sent, found, text, put.job)

    def _late_step(self, kind: Kind, was: VersionRow, operation: str) -> str:
        """Undo or redo what was seen on an older version: what came since stays, and is what undo then takes back.

        Raises:
            Refused: both changed the same, with both figures; or what is cut changes with it, which has to be seen.
        """
        number = was.undo if kind == "undo" else was.redo
        target = None if number is None else self.history.row(number)
        if target is None or self.mistakes or self.history.made(target.id) != self.history.made(self.revision):
            raise stale(self.history, was.id, self.revision)
        seen, wanted = (_decoded(self.history.data(row)) for row in (was, target))
        put = together(seen, wanted, self.text, self.file.name, self._who(was))
        if put.text is None:
            raise not_taken_back(put.says, self.revision, again=kind == "redo")
        since = self.history.since(was.id, LOOK_BACK)
        did = since[-1].did if len(since) == 1 else f"{len(since)} changes"
        says = f"{kind}: {was.did if kind == 'undo' else target.did}"
        return self._commit(put.text, kind, says, operation, did=did, undo=target.id, job=put.job)

    def _who(self, was: VersionRow) -> str:
        """Who has changed the job since a version."""
        since = self.history.since(was.id, LOOK_BACK)
        return OUTSIDE if any(row.kind == "outside" for row in since) else THERE

    def _together(self, was: str, here: str, operation: str, says: str, who: str = THERE) -> str:
        """A text that was changed from an older one, put together with the text as it is now.

        Raises:
            Refused: both changed the same; what was changed here is kept as a version that is set aside.
        """
        return self._kept_or(together(was, here, self.text, self.file.name, who), here, operation, says)

    def _kept_or(self, put: PutTogether, here: str, operation: str, says: str) -> str:
        """The text that two changes make; where they clash the one of here is kept, set aside, and that is told."""
        if put.text is not None:
            return put.text
        row = self.history.add(_encoded(here), kind="edit", says=says, did=says, operation=operation, written=ASIDE)
        raise clashing(put.says, row, self.revision)

    def _after(self, found: Composed, text: str, job: Job | None) -> Drawn | None:
        """The drawing after a change, where something must be read off it first; it will be drawn anyway."""
        wanted = found.follow or (self.draughtsman.made.cuts and found.edits)
        return self.draughtsman.tried(text, job)[0] if wanted else None

    def _asks(self, found: Composed, after: Drawn | None) -> str:
        """What the maker is asked before a change is made that loses something of what is cut; "" for nothing."""
        if found.asks or after is None or self.drawn is None or found.renames:  # what is renamed takes its cuts along
            return found.asks
        return lost(self.drawn.findings, after.findings, after.voice)

    def _made_with(self, found: Composed) -> bytes | None:
        """The made file after a change; None where it stays.

        Raises:
            Refused: it cannot be read.
        """
        if not (found.cut or found.uncut or found.renames):
            return None
        text = self.made_text
        if self.made_trouble and (found.cut or found.uncut):
            raise refused("refused", f"nothing is written: {self.made_trouble}", "put the made file right first")
        if found.renames and text:  # also in a file with a mistake, as far as it can be taken apart
            text = _called_anew(text, dict(found.renames))
        if found.uncut:
            text = without_cuts(text, found.uncut)
        if found.cut and self.drawn is not None:
            text = recorded_text(text, self.drawn.piece, self.draughtsman.made, found.cut)
        return _encoded(text)

    def _step(self, kind: Kind, operation: str) -> str:
        """Undo or redo: the target's text on top, with the target's own way back and forth."""
        here = self.row
        number = here.undo if kind == "undo" else here.redo
        target = None if number is None else self.history.row(number)
        if target is None:
            raise refused("nothing to undo", f"there is nothing to {kind}", "", revision=self.revision)
        says = f"{kind}: {here.did if kind == 'undo' else target.did}"
        redo = here.id if kind == "undo" else target.redo
        text, made = _decoded(self.history.data(target)), self.history.made(target.id)
        if made is None:  # from before the history knew of what is cut: only names follow
            made = self._renamed_back(kind, here, target)
        return self._commit(
            text, kind, says, operation, did=target.did, renames=target.renames, undo=target.undo, redo=redo, made=made
        )

    def _renamed_back(self, kind: Kind, here: VersionRow, target: VersionRow) -> bytes | None:
        """The made file with boards called as they were, or are again."""
        names: dict[str, str] = json.loads((here if kind == "undo" else target).renames or "{}")
        text = self.made_text
        if not names or not text:
            return None
        return _encoded(_called_anew(text, {new: old for old, new in names.items()} if kind == "undo" else names))

    def _commit(
        self,
        text: str,
        kind: Kind,
        says: str,
        operation: str,
        *,
        did: str,
        renames: str = "",
        undo: int | None = -1,
        redo: int | None = None,
        job: Job | None = None,
        made: bytes | None = None,
    ) -> str:
        """Make a text the job's, and `made` what is cut; `undo` -1: what undo takes back to is here."""
        stays = made is None or made == self.history.made(self.revision)
        if text == self.text and stays and kind in ("edit", "cut", "text", "restore"):
            return "nothing changed"
        data = _encoded(text)
        back = self.revision if undo == -1 else undo
        try:
            row = self.journal.put(
                data,
                kind=kind,
                says=says,
                operation=operation,
                undo=back,
                redo=redo,
                did=did,
                renames=renames,
                made=made,
            )
        except Overtaken as overtaken:
            self.take_in_made()
            self.take_in()
            raise set_aside(self.history, overtaken.row, self.revision) from None
        if made is not None or self.made_file.path.exists():
            self.draughtsman.made = self._made()
        self._show(data, job)
        self.tell(Live(kind="changed", revision=row.id, by="here", operation_id=operation, says=says))
        return says


def _called_anew(made: str, names: dict[str, str]) -> str:
    """The made file with boards called anew; as it is where it cannot be taken apart."""
    try:
        return renamed(made, names)
    except ValueError:
        return made


def _decoded(data: bytes) -> str:
    """A file's text; what is not UTF-8 is shown as such."""
    return data.decode("utf-8", "replace")


def _encoded(text: str) -> bytes:
    try:
        return text.encode("utf-8")
    except UnicodeEncodeError:
        raise refused("refused", "the text has half a character in it", "take it out") from None
