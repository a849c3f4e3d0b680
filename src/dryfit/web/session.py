"""One job, open on the page: its text, its versions, what is drawn of it.

Every change takes the same way: asked for by an operation with its own id on a known revision, composed into
edits, written back byte for byte, put into the history, the file and the history again (see `history`), drawn.
Asked for twice it is done once; asked for on an old revision it is refused with what has happened since.
"""

from collections.abc import Callable, Iterable
from pathlib import Path

from ..book import change_job_text
from ..errors import JobError, MadeError, Mistake
from ..job.model import Job
from ..job.reading import decoded
from ..piece.made import made_path, read_made
from ..piece.setout import NOTHING_MADE, Made
from ..places import Edit
from ..shop.model import Shop
from . import requests
from .answers import Live, Version
from .composed import Composed
from .doing import compose
from .drawn import Draughtsman, Drawn
from .history import ASIDE, PENDING, WRITTEN, History, HistoryUnusable, Kind, Row, history_path
from .jobfile import JobFile, OutsideChange, Seen, from_browser
from .refusals import Refused, mistaken, refused

LOOK_BACK = 100  # versions looked through for the last one that could be read
SINCE = 20  # versions named to a page that is behind


class Session:
    """The one job of a server.

    Attributes:
        row: the version that is current; its number is the revision.
        text: as in the file.
        drawn: the current text drawn, or the last that could be read; None if none ever could.
        drawn_at: revision of `drawn`.
        mistakes: why the current text cannot be read; empty where it can.
        trouble: what is wrong with the file on disk; "" where all is well.
    """

    row: Row

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
        self.file = JobFile(path)
        self.tell = tell
        self.pause = pause
        self.trouble = ""
        self.text = ""
        self.drawn: Drawn | None = None
        self.drawn_at: int | None = None
        self.mistakes: tuple[Mistake, ...] = ()
        self.made_file = JobFile(made_path(self.file.path))
        self.draughtsman = Draughtsman(self.file.name, shop, self._made())
        self.history, self.closed = self._history()
        self._recover()
        self._last_good()

    def close(self) -> None:
        """Let the job go."""
        self.history.close()

    # -- opening

    def _history(self) -> tuple[History, str]:
        """The history, and why nothing may be changed: "" where it may."""
        place = history_path(self.file.path)
        try:
            return History(place), ""
        except HistoryUnusable as unusable:
            said = str(unusable)
            if "may not be written" not in said:
                mistake = Mistake(file=self.file.name, line=0, says=said, remedy="then open it again")
                raise JobError((mistake,)) from None
            return History(Path(":memory:")), "its folder may not be written"

    def _recover(self) -> None:
        """Find out what happened since the job was last open; see the table in `history`."""
        seen, last = self._seen(), self.history.last()
        if last is not None and last.written == PENDING:
            last = self._finish(last, seen)
            seen = self._seen()
        if last is None:
            row = self.history.add(seen.data, kind="opened", says="first opened", written=WRITTEN)
        elif last.hash != seen.hash:
            self.row = last
            row = self._outside(seen)
        else:
            row = last
        self._left_beside()
        self._show(row, seen.data)

    def _seen(self) -> Seen:
        seen = self.file.read()
        if seen.text is None and not seen.data:
            mistake = Mistake(file=self.file.name, line=0, says=seen.says, remedy="check its name")
            raise JobError((mistake,))
        return seen

    def _finish(self, pending: Row, seen: Seen) -> Row | None:
        """End a change that a crash cut short: write the file where nobody else has."""
        before = self.history.before(pending.id)
        if seen.hash != pending.hash and before is not None and seen.hash == before.hash:
            try:
                self.file.write(self.history.data(pending), seen.hash)
            except (Refused, OutsideChange):
                self.history.mark(pending, ASIDE)
                return before
        elif seen.hash != pending.hash:
            self.history.mark(pending, ASIDE)
            return before
        self.history.mark(pending, WRITTEN)
        return self.history.row(pending.id)

    def _left_beside(self) -> None:
        """Take in what a crash left beside the file, if no version has it."""
        for left in sorted(self.file.path.parent.glob(f".{self.file.name}.*.part")):
            try:
                data = left.read_bytes()
                if self.history.known(self._digest(data)) is None:
                    self.history.add(data, kind="outside", says="found beside the file after a crash", written=ASIDE)
                left.unlink()
            except OSError:
                continue

    @staticmethod
    def _digest(data: bytes) -> str:
        return Seen(data, None).hash

    def _last_good(self) -> None:
        """Where the text cannot be read, draw the last version that can."""
        if self.drawn is not None:
            return
        for row in self.history.newest(LOOK_BACK):
            drawn, _ = self.draughtsman.tried(_decoded(self.history.data(row)))
            if drawn is not None:
                self.drawn, self.drawn_at = drawn, row.id
                return

    def _made(self) -> Made:
        """What has been made; a file that cannot be used is said, and left out."""
        self.made_file.touched()
        self.made_file.read()
        try:
            return read_made(self.made_file.path)
        except MadeError as error:
            self.trouble = str(error.mistakes[0])
            return NOTHING_MADE

    # -- what holds

    @property
    def revision(self) -> int:
        """Of the job as it is."""
        return self.row.id

    @property
    def stale(self) -> bool:
        """Whether the drawing is the last good one of a text that cannot be read now."""
        return bool(self.mistakes)

    def wait_word(self) -> str:
        """Why nothing may be changed; "" where it may."""
        return self.closed or self.file.wait_word()

    def _show(self, row: Row, data: bytes, job: Job | None = None) -> None:
        """Make a version the current one and draw it."""
        self.row = row
        self.text = _decoded(data)
        try:
            decoded(data, self.file.name)
        except JobError as error:
            self.mistakes = error.mistakes
            return
        drawn, self.mistakes = self.draughtsman.tried(self.text, job)
        if drawn is not None:
            self.drawn, self.drawn_at = drawn, row.id

    # -- changes from outside

    def look(self) -> bool:
        """See whether someone else changed the file; take it in. True if anything changed."""
        if self.made_file.touched():
            self.draughtsman.made = self._made()
            self._show(self.row, self.history.data(self.row))
        if not self.file.touched():
            return False
        return self.take_in()

    def take_in(self) -> bool:
        """Read the file, and put it on top of the history if it is not what was written here."""
        seen = self.file.read()
        if seen.text is None and (not seen.data or "larger" in seen.says):
            changed, self.trouble = self.trouble != seen.says, seen.says
            if changed:
                self.tell(Live(kind="file", revision=self.revision, says=seen.says))
            return changed
        self.trouble = ""
        if seen.hash == self.row.hash:
            return False
        row = self._outside(seen)
        self._show(row, seen.data)
        self.tell(Live(kind="changed", revision=row.id, by="outside", says=row.says))
        return True

    def _outside(self, seen: Seen) -> Row:
        known = self.history.known(seen.hash)
        says = f"put back outside, to version {known.id}" if known is not None else "changed outside"
        return self.history.add(
            seen.data, kind="outside", says=says, undo=self.row.id, did=says, written=WRITTEN
        )

    # -- changes from the page

    def change(self, sent: requests.Change) -> tuple[str, bool]:
        """Do what the page asks; what was done, and whether it had been done already."""
        return self._once(sent, lambda: self._change(sent))

    def write(self, sent: requests.TextChange) -> tuple[str, bool]:
        """Put the whole text in place."""

        def work() -> str:
            says = "text edited"
            return self._commit(from_browser(sent.text, self.text), "text", says, sent.operation_id, did=says)

        return self._once(sent, work)

    def undo(self, sent: requests.Operation) -> tuple[str, bool]:
        """Take the last change back."""
        return self._once(sent, lambda: self._step("undo", sent.operation_id))

    def redo(self, sent: requests.Operation) -> tuple[str, bool]:
        """Do again what was taken back."""
        return self._once(sent, lambda: self._step("redo", sent.operation_id))

    def restore(self, sent: requests.Restore) -> tuple[str, bool]:
        """Back to an earlier version, as one more change."""

        def work() -> str:
            target = self.history.row(sent.version)
            if target is None:
                raise refused("not there", f"there is no version {sent.version}", "choose one of the history")
            says = f"back to version {target.id} ({target.says})"
            return self._commit(_decoded(self.history.data(target)), "restore", says, sent.operation_id, did=says)

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
        found = compose(self.drawn, self.text, doing)
        text, job = self.edited(found.edits)
        return found, text, job

    def edited(self, edits: Iterable[Edit]) -> tuple[str, Job | None]:
        """The text with edits made, and the job it reads as.

        Raises:
            Refused: they cannot be made.
        """
        try:
            return change_job_text(self.text, edits, self.file.name)
        except JobError as error:
            first = error.mistakes[0]
            marked = mistaken(self.text, error.mistakes)
            raise refused("refused", first.says, first.remedy, mistakes=marked, revision=self.revision) from None

    def base(self, revision: int) -> None:
        """See that a page speaks of the job as it is.

        Raises:
            Refused: it does not; with what happened since.
        """
        if self.file.touched():
            self.take_in()
        if revision != self.revision:
            since = tuple(version(row) for row in self.history.since(revision, SINCE))
            says = since[-1].says if since else "it is another job's history"
            raise refused(
                "stale",
                f"the job has changed meanwhile: {says}",
                "look at it as it is now, then try again",
                revision=self.revision,
                since=since,
            )

    def _once(self, sent: requests.Operation, work: Callable[[], str]) -> tuple[str, bool]:
        done = self.history.operation(sent.operation_id)
        if done is not None and done.written == WRITTEN:
            return done.says, True
        if done is not None:
            raise refused("refused", "this change was set aside", "make it again", revision=self.revision)
        word = self.wait_word()
        if word:
            raise refused("read-only", f"the change was not made: {word}", "make it writable, or work on a copy")
        self.base(sent.base_revision)
        return work(), False

    def _change(self, sent: requests.Change) -> str:
        found, text, job = self.composed(sent.doing)
        says = sent.label or found.says
        return self._commit(text, "edit", says, sent.operation_id, did=says, job=job)

    def _step(self, kind: Kind, operation: str) -> str:
        """Undo or redo: the target's text on top, with the target's own way back and forth."""
        here = self.row
        number = here.undo if kind == "undo" else here.redo
        target = None if number is None else self.history.row(number)
        if target is None:
            raise refused("nothing to undo", f"there is nothing to {kind}", "", revision=self.revision)
        says = f"{kind}: {here.did if kind == 'undo' else target.did}"
        redo = here.id if kind == "undo" else target.redo
        return self._commit(
            _decoded(self.history.data(target)), kind, says, operation, did=target.did, undo=target.undo, redo=redo
        )

    def _commit(
        self,
        text: str,
        kind: Kind,
        says: str,
        operation: str,
        *,
        did: str,
        undo: int | None = -1,
        redo: int | None = None,
        job: Job | None = None,
    ) -> str:
        """History, file, mark: the one place where a change becomes true. `undo` -1: back to here."""
        if text == self.text and kind in ("edit", "text", "restore"):
            return "nothing changed"
        data = _encoded(text)
        back = self.row.id if undo == -1 else undo
        row = self.history.add(data, kind=kind, says=says, operation=operation, undo=back, redo=redo, did=did)
        self.pause("row")
        try:
            self.file.write(data, self.row.hash)
        except OutsideChange:
            self.history.mark(row, ASIDE)
            self.take_in()
            raise self._overtaken(row) from None
        except Refused:
            self.history.mark(row, ASIDE)
            raise
        self.pause("file")
        self.history.mark(row, WRITTEN)
        self.pause("mark")
        self.trouble = ""
        self._show(self.history.row(row.id) or row, data, job)
        self.tell(Live(kind="changed", revision=row.id, by="here", operation_id=operation, says=says))
        return says

    def _overtaken(self, row: Row) -> Refused:
        return refused(
            "stale",
            f"the file was changed outside at the same moment; this change is kept as version {row.id}",
            "look at the job as it is now, then make the change again, or restore that version",
            revision=self.revision,
            since=tuple(version(found) for found in self.history.since(row.id - 1, SINCE)),
        )


def _decoded(data: bytes) -> str:
    """A file's text; what is not UTF-8 is shown as such."""
    return data.decode("utf-8", "replace")


def _encoded(text: str) -> bytes:
    try:
        return text.encode("utf-8")
    except UnicodeEncodeError:
        raise refused("refused", "the text has half a character in it", "take it out") from None


def version(row: Row) -> Version:
    """A row of the history for the page."""
    return Version(version=row.id, at=row.at, kind=row.kind, says=row.says, written=row.written == WRITTEN)
