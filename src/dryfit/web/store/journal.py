"""The job file and its history as one: opened, changed from outside, changed from here.

This is the only place where a change becomes true, in the order that `history` gives; what the bytes mean is
of no concern here.
"""

import itertools
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from ...editing.refusals import Refused
from ...errors import JobError, Mistake
from ...piece.made import HEAD, made_path
from .history import ASIDE, PENDING, WRITTEN, HistoryUnusable, Kind, VersionRow, VersionStore, history_path
from .jobfile import JobFile, OutsideChange, Seen, hash_of, rights_beside


class Overtaken(Exception):  # noqa: N818 - turned into a refusal where the page is spoken to
    """The file was changed outside at the moment of a change; `row` is the change, set aside."""

    def __init__(self, row: VersionRow) -> None:
        self.row = row
        super().__init__(row.says)


class Journal:
    """The file, its versions, and which of them is current.

    Attributes:
        row: the current version.
        data: the file's bytes at it.
        trouble: what is wrong with the file on disk; "" where all is well.
        closed: why nothing may be changed at all; "" where it may.
    """

    row: VersionRow
    data: bytes

    def __init__(
        self, path: Path, pause: Callable[[str], None], named: Callable[[bytes, bytes], str] = lambda before, after: ""
    ) -> None:
        """Open a job file, finding out what happened since it was last open.

        Args:
            path: of the job file.
            pause: called between the writes of a change.
            named: what is different between two of the file's contents, in words; "" where nobody can say.

        Raises:
            JobError: it cannot be opened.
        """
        self.file = JobFile(path)
        self.made = JobFile(made_path(self.file.path), like=self.file.path)
        self.pause = pause
        self.named = named
        self.trouble = ""
        self.closed = ""
        self.history = self._open(history_path(self.file.path))
        try:
            self._recover()
        except Refused as fault:
            mistake = Mistake(file=self.file.name, line=0, says=fault.fault.says, remedy=fault.fault.remedy)
            raise JobError((mistake,)) from None

    def close(self) -> None:
        """Let the job go."""
        self.history.close()

    def wait_word(self) -> str:
        """Why nothing may be changed now; "" where it may."""
        return self.closed or self.file.wait_word()

    # -- opening

    def _open(self, place: Path) -> VersionStore:
        """The history; one in memory where the folder may not be written."""
        try:
            return VersionStore(place, rights_beside(self.file.path))
        except HistoryUnusable as unusable:
            if not unusable.is_closed:
                mistake = Mistake(file=self.file.name, line=0, says=str(unusable), remedy=unusable.remedy)
                raise JobError((mistake,)) from None
            self.closed = str(unusable)
            return VersionStore(None)

    def _now(self, row: VersionRow, data: bytes) -> None:
        """Make a version the current one."""
        self.row, self.data = row, data
        self.history.hold(row, data)

    def _recover(self) -> None:
        """Find out what happened since the job was last open; see the table in `history`."""
        seen, last = self._seen(), self.history.last()
        if last is not None and last.written == PENDING:
            last = self._finish(last, seen)
            seen = self._seen()
        if last is None:
            row = self.history.add(seen.data, kind="opened", says="first opened", written=WRITTEN)
            self._now(row, seen.data)
        elif last.hash == seen.hash:
            self._now(last, seen.data)
        else:
            self._outside(seen, last)
        if self.history.made(self.row.id) is None:
            self.history.note_made(self.row.id, self._made_seen().data)
        self.take_in_made()
        self._left_beside()

    def _made_seen(self) -> Seen:
        """The made file as it stands; one that is not there is empty, and so is one that cannot be read."""
        return self.made.read()

    def _seen(self) -> Seen:
        seen = self.file.read()
        if not seen.usable:
            mistake = Mistake(file=self.file.name, line=0, says=seen.says, remedy="check its name")
            raise JobError((mistake,))
        return seen

    def _finish(self, pending: VersionRow, seen: Seen) -> VersionRow | None:
        """End a change that a crash cut short: write the file where nobody else has."""
        before = self.history.before(pending.id)
        done = seen.hash == pending.hash
        if not done and before is not None and seen.hash == before.hash:
            done = self._written(pending, seen)
        if done and before is not None:
            self._bring_made(pending, before)
        self.history.mark(pending, WRITTEN if done else ASIDE)
        return self.history.row(pending.id) if done else before

    def _written(self, pending: VersionRow, seen: Seen) -> bool:
        try:
            self.file.write(self.history.data(pending), seen.hash)
        except (Refused, OutsideChange):
            return False
        return True

    def _left_beside(self) -> None:
        """Take in what a crash left beside the file, if no version has it."""
        for left in sorted(self.file.path.parent.glob(f".{self.file.name}.*.part")):
            try:
                data = left.read_bytes()
                if not self.data.startswith(data) and self.history.known(hash_of(data)) is None:
                    self.history.add(data, kind="outside", says="found beside the file after a crash", written=ASIDE)
                left.unlink()
            except OSError:
                continue
        for left in sorted(self.made.path.parent.glob(f".{self.made.name}.*.part")):
            with suppress(OSError):
                if self._is_ours(left.read_bytes()):
                    left.unlink()
                else:
                    left.rename(_free(self.made.path, "found"))

    def _is_ours(self, left: bytes) -> bool:
        """Whether what a crash left beside the made file is what was being written, or what that took the place of."""
        return self.made.read().data.startswith(left) or self.history.has_text(hash_of(left))

    # -- changes from outside

    def take_in(self) -> bool:
        """Read the file, and put it on top of the history if it is not what was written here; True if so."""
        seen = self.file.read()
        self.trouble = seen.says if not seen.usable else ""
        if self.trouble or seen.hash == self.row.hash:
            return False
        self._outside(seen, self.row)
        return True

    def _outside(self, seen: Seen, before: VersionRow) -> None:
        known = self.history.known(seen.hash)
        says = f"put back outside, to version {known.id}" if known is not None else self._changed_outside(seen, before)
        row = self.history.add(seen.data, kind="outside", says=says, undo=before.id, did=says, written=WRITTEN)
        self._now(row, seen.data)

    def _changed_outside(self, seen: Seen, before: VersionRow) -> str:
        with suppress(Refused):  # what was there before may be damaged: then nobody can say what is different
            if words := self.named(self.history.data(before), seen.data):
                return f"changed outside: {words}"
        return "changed outside"

    def take_in_made(self) -> bool:
        """Put what is cut on top of the history, if somebody else has written it; True if so."""
        seen = self.made.read()
        if not seen.usable and self.made.stamp() is not None:
            return False  # it is there and cannot be read: nothing is known of it
        if seen.data == (self.history.made(self.row.id) or b""):
            return False
        says = "what is cut was changed outside"
        undo, data = self.row.id, self.data
        row = self.history.add(data, kind="outside", says=says, undo=undo, did=says, written=WRITTEN, made=seen.data)
        self._now(row, data)
        return True

    # -- changes from here

    def put(
        self,
        data: bytes,
        *,
        kind: Kind,
        says: str,
        operation: str,
        undo: int | None,
        redo: int | None,
        did: str,
        renames: str,
        made: bytes | None = None,
    ) -> VersionRow:
        """Make a change true: its row, the file, what is cut, the mark, each on the disk before the next.

        Args:
            data: of the job file.
            kind, says, operation, undo, redo, did, renames: see `history.Row`.
            made: of the made file, where it changes with it.

        Raises:
            Overtaken: someone else changed a file; their text stands.
            Refused: it could not be written; nothing was changed.
        """
        before = self.row
        if made == b"" and self.made.path.exists():
            made = HEAD.encode()  # there was none: a file that says that nothing is left
        if made is not None and made == self.history.made(before.id):
            made = None
        row = self.history.add(
            data, kind=kind, says=says, operation=operation, undo=undo, redo=redo, did=did, renames=renames, made=made
        )
        self.pause("row")
        self.trouble = ""
        try:
            if made is not None and row.hash == before.hash:  # only what is cut changes
                self._write_made(made, before)
            else:
                self.file.write(data, before.hash)
        except OutsideChange:
            self._set_aside(row, before)
            raise Overtaken(row) from None
        except Refused:
            self._set_aside(row, before)
            raise
        self.pause("file")
        if row.hash != before.hash:
            self._bring_made(row, before)
        self.history.mark(row, WRITTEN)
        self.pause("mark")
        self._now(self.history.row(row.id) or row, data)
        return self.row

    def _set_aside(self, row: VersionRow, before: VersionRow) -> None:
        """A change that did not come true; what is cut is as it was before it."""
        self.history.mark(row, ASIDE)
        was = self.history.made(before.id)
        if was is not None and was != self.history.made(row.id):
            self.history.note_made(row.id, was)

    def _write_made(self, data: bytes, before: VersionRow) -> None:
        """Write what is cut over what it was at a version.

        Raises:
            OutsideChange: something else stands there.
            Refused: it cannot be written.
        """
        self.made.write(data, hash_of(self.history.made(before.id) or b""))

    def _bring_made(self, row: VersionRow, before: VersionRow) -> None:
        """Bring the made file to what it is at a version, after the job file; done twice it does nothing more.

        Args:
            row: the change.
            before: the version that it was made on.
        """
        wanted, seen = self.history.made(row.id), self.made.read()
        if wanted is None or wanted == seen.data or (not wanted and not seen.data):
            return
        try:
            self._write_made(wanted, before)
        except (Refused, OutsideChange):
            self.trouble = f"{self.made.name} is as it was: it could not be written together with the job"
            self.history.note_made(row.id, seen.data)


def _free(path: Path, word: str) -> Path:
    """A name like that of a file, which none has: NAME.found-1.toml."""
    numbers = itertools.count(1)
    return next(one for n in numbers if not (one := path.with_name(f"{path.stem}.{word}-{n}{path.suffix}")).exists())
