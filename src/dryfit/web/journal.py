"""The job file and its history as one: opened, changed from outside, changed from here.

This is the only place where a change becomes true, in the order that `history` gives; what the bytes mean is
of no concern here.
"""

import itertools
import json
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path

from ..errors import JobError, Mistake
from ..piece.made import made_path, renamed
from .history import ASIDE, PENDING, WRITTEN, History, HistoryUnusable, Kind, Row, history_path
from .jobfile import JobFile, OutsideChange, Seen, hash_of, rights_beside
from .refusals import Refused


class Overtaken(Exception):  # noqa: N818 - turned into a refusal where the page is spoken to
    """The file was changed outside at the moment of a change; `row` is the change, set aside."""

    def __init__(self, row: Row) -> None:
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

    row: Row
    data: bytes

    def __init__(self, path: Path, pause: Callable[[str], None]) -> None:
        """Open a job file, finding out what happened since it was last open.

        Raises:
            JobError: it cannot be opened.
        """
        self.file = JobFile(path)
        self.made = JobFile(made_path(self.file.path), like=self.file.path)
        self.pause = pause
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

    def _open(self, place: Path) -> History:
        """The history; one in memory where the folder may not be written."""
        try:
            return History(place, rights_beside(self.file.path))
        except HistoryUnusable as unusable:
            if not unusable.is_closed:
                mistake = Mistake(file=self.file.name, line=0, says=str(unusable), remedy=unusable.remedy)
                raise JobError((mistake,)) from None
            self.closed = str(unusable)
            return History(None)

    def _now(self, row: Row, data: bytes) -> None:
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
        self._left_beside()

    def _seen(self) -> Seen:
        seen = self.file.read()
        if not seen.usable:
            mistake = Mistake(file=self.file.name, line=0, says=seen.says, remedy="check its name")
            raise JobError((mistake,))
        return seen

    def _finish(self, pending: Row, seen: Seen) -> Row | None:
        """End a change that a crash cut short: write the file where nobody else has."""
        before = self.history.before(pending.id)
        done = seen.hash == pending.hash
        if not done and before is not None and seen.hash == before.hash:
            done = self._written(pending, seen)
        if done and before is not None:
            self._rename_made(pending, before)
        self.history.mark(pending, WRITTEN if done else ASIDE)
        return self.history.row(pending.id) if done else before

    def _written(self, pending: Row, seen: Seen) -> bool:
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
                if self.history.known(hash_of(data)) is None:
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
        now, before = self.made.read().data, self.history.before(self.row.id)
        names = _called_anew(self.row, before) if before is not None else {}
        try:
            return now.startswith(left) or renamed(left.decode(), names).encode() == now
        except ValueError:
            return False

    # -- changes from outside

    def take_in(self) -> bool:
        """Read the file, and put it on top of the history if it is not what was written here; True if so."""
        seen = self.file.read()
        self.trouble = seen.says if not seen.usable else ""
        if self.trouble or seen.hash == self.row.hash:
            return False
        self._outside(seen, self.row)
        return True

    def _outside(self, seen: Seen, before: Row) -> None:
        known = self.history.known(seen.hash)
        says = f"put back outside, to version {known.id}" if known is not None else "changed outside"
        row = self.history.add(seen.data, kind="outside", says=says, undo=before.id, did=says, written=WRITTEN)
        self._now(row, seen.data)

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
    ) -> Row:
        """Make a change true: its row, the file, the mark, each on the disk before the next.

        Raises:
            Overtaken: someone else changed the file; their text stands.
            Refused: it could not be written; nothing was changed.
        """
        row = self.history.add(
            data, kind=kind, says=says, operation=operation, undo=undo, redo=redo, did=did, renames=renames
        )
        self.pause("row")
        self.trouble = ""
        try:
            self.file.write(data, self.row.hash)
        except OutsideChange:
            self.history.mark(row, ASIDE)
            raise Overtaken(row) from None
        except Refused:
            self.history.mark(row, ASIDE)
            raise
        self.pause("file")
        self._rename_made(row, self.row)
        self.history.mark(row, WRITTEN)
        self.pause("mark")
        self._now(self.history.row(row.id) or row, data)
        return self.row

    def _rename_made(self, row: Row, before: Row) -> None:
        """Call boards anew in the file of what has been made; done twice it does nothing more.

        Args:
            row: the change.
            before: the version that it was made on.
        """
        names = _called_anew(row, before)
        seen = self.made.read()
        if not names or not seen.text:
            return
        try:
            self.made.write(renamed(seen.text, names).encode(), seen.hash)
        except (Refused, OutsideChange, ValueError):
            self.trouble = f"{self.made.name} still has the old names: it could not be written"


def _called_anew(row: Row, before: Row) -> dict[str, str]:
    """The boards that a change made on a version calls anew, old name to new."""
    names: dict[str, str] = json.loads((before if row.kind == "undo" else row).renames or "{}")
    return {new: old for old, new in names.items()} if row.kind == "undo" else names


def _free(path: Path, word: str) -> Path:
    """A name like that of a file, which none has: NAME.found-1.toml."""
    numbers = itertools.count(1)
    return next(one for n in numbers if not (one := path.with_name(f"{path.stem}.{word}-{n}{path.suffix}")).exists())
