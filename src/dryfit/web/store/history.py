"""Every version of one job, in SQLite beside it: `NAME.history.sqlite3`.

A change is written in this order: its row here with `written` 0, the file, `written` 1; only then is it
acknowledged. Each of the three is on the disk before the next begins. Whatever moment the machine stops at,
the next opening finds, in the last row and the file, which of these it was:

    the row is there, not marked written, the file is as before      -> the file is written now
    the row is there, not marked written, the file is as the row     -> it is marked now
    the row is there, not marked written, the file is neither        -> someone else wrote: taken in on top
    the row is marked written, the file is as the row                -> all is well
    the row is marked written, the file is as an older version       -> someone put it back: taken in, said so
    the row is marked written, the file is none of these             -> someone else wrote: taken in on top

What is cut, NAME.made.toml, is covered by the same versions: a row of `made` says what it was from that version on.
It is written after the job file and before the mark, and brought along by whoever finishes a change.

Texts are kept once by their hash, packed, as bytes: undo and redo add a row of a few numbers. Rows are never
changed but for the mark, so undo has no end and survives a restart.

A damaged history keeps no sound job from being opened or changed: whenever damage is met, what can be read is taken
over into a new file, the damaged one is kept beside it, and what was to be done is done again. A text that is found
damaged is written anew as soon as it is known again.
"""

import datetime
import json
import logging
import os
import sqlite3
import stat
import tempfile
import zlib
from collections.abc import Callable
from contextlib import closing, suppress
from dataclasses import asdict, dataclass, fields, replace
from pathlib import Path
from typing import Literal, TypeAlias, TypeVar, get_args

from ...editing.refusals import Refused, refused
from .jobfile import hash_of
from .salvage import is_damage, is_sound, kept_aside, made_of, texts_of, versions_of

LOG = logging.getLogger("dryfit")

Kind: TypeAlias = Literal["opened", "edit", "text", "cut", "undo", "redo", "restore", "outside"]
PENDING, WRITTEN, ASIDE = 0, 1, 2

_TABLES = """
CREATE TABLE IF NOT EXISTS body (hash TEXT PRIMARY KEY, packed BLOB NOT NULL) WITHOUT ROWID;
CREATE TABLE IF NOT EXISTS version (
    id INTEGER PRIMARY KEY AUTOINCREMENT,
    operation TEXT UNIQUE,
    at TEXT NOT NULL,
    kind TEXT NOT NULL,
    says TEXT NOT NULL,
    hash TEXT NOT NULL REFERENCES body (hash),
    undo INTEGER,
    redo INTEGER,
    did TEXT NOT NULL,
    renames TEXT NOT NULL,
    written INTEGER NOT NULL
);
CREATE INDEX IF NOT EXISTS version_hash ON version (hash);
CREATE TABLE IF NOT EXISTS made (
    version INTEGER PRIMARY KEY REFERENCES version (id),
    hash TEXT NOT NULL REFERENCES body (hash)
);
"""
_FORMAT = 2  # 1 had no table of what is cut
_FORMATS = 1000  # a number of a format above this was never written: the head is damaged
DoneT = TypeVar("DoneT")


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionRow:
    """One version.

    Attributes:
        says: what was done to come here, for the history.
        hash: of the file's bytes.
        undo, redo: versions whose texts undo and redo go to.
        did: the change that undo takes back from here; "" where there is none.
        renames: the boards that it called anew, old name to new, as JSON; "" for none.
    """

    id: int
    operation: str | None
    at: str
    kind: Kind
    says: str
    hash: str
    undo: int | None
    redo: int | None
    did: str
    renames: str
    written: int


def history_path(job: Path) -> Path:
    """Where the history of a job is kept."""
    return job.with_name(f"{job.stem}.history.sqlite3")


_COLUMNS = tuple(field.name for field in fields(VersionRow))
_ALL = ", ".join(_COLUMNS)


class HistoryUnusable(Exception):  # noqa: N818 - what it says is the fault
    """The history cannot be kept; the text says why.

    Attributes:
        remedy: what to do about it.
        is_closed: it may not be written where it lies, so the job can be looked at only.
    """

    def __init__(self, says: str, remedy: str, *, is_closed: bool = False) -> None:
        super().__init__(says)
        self.remedy = remedy
        self.is_closed = is_closed


class VersionStore:
    """The versions of one job; one process holds it at a time.

    Attributes:
        path: None for one in memory.
        mended: that it was damaged, what was lost and where the damaged file is; "" where all is well.
    """

    def __init__(self, path: Path | None, rights: int = 0o600) -> None:
        """Open it, or make it.

        Args:
            path: None for one that is kept in memory only.
            rights: of a new file; one that is more open is closed to them.

        Raises:
            HistoryUnusable: it is held by another process, may not be written, or is a newer Dryfit's.
        """
        self.path = path
        self.rights = rights
        self.mended = ""
        self._top = 0
        self._added: tuple[VersionRow, bytes] | None = None
        self._held: tuple[VersionRow, bytes] | None = None
        try:
            if path is not None:
                _look_at_form(path)
                _close_to(path, rights)
            self._connect()
        except sqlite3.Error as error:
            if path is None or not is_damage(error):
                raise _unusable(path, error) from None
            try:
                self._renew()
            except (OSError, sqlite3.Error) as again:
                says = f"its history {path.name} is damaged, and a new one cannot be written ({again})"
                raise HistoryUnusable(says, "make room on the disk", is_closed=True) from None

    def _connect(self) -> None:
        """Open the file and see that it is whole.

        Raises:
            sqlite3.Error: it is not, or cannot be had.
        """
        place = ":memory:" if self.path is None else self.path
        self._db = sqlite3.connect(place, isolation_level=None, timeout=2.0, check_same_thread=False)
        try:
            self._db.text_factory = lambda data: data.decode("utf-8", "replace")  # a damaged word is no fault of all
            run = self._db.execute
            run("PRAGMA locking_mode = EXCLUSIVE")  # so that a second server on the same job is told
            run("PRAGMA journal_mode = DELETE")  # safe in network and synced folders, where WAL is not
            run("PRAGMA synchronous = FULL")
            _set_up(self._db)
            (found,) = run("PRAGMA quick_check(1)").fetchone()
            if found != "ok":
                raise _damage(found)
            run("SELECT hash, packed FROM body LIMIT 1").fetchone()
            newest = run(f"SELECT {_ALL} FROM version ORDER BY id DESC LIMIT 1").fetchone()
            self._top = max(self._top, newest[0] if newest else 0)
            self._left_beside()
        except sqlite3.Error:
            self._db.close()
            raise

    def _left_beside(self) -> None:
        """Take away what a crash left of a new file that was never put in place."""
        if self.path is not None:
            for left in self.path.parent.glob(f".{self.path.name}.*.part*"):
                left.unlink(missing_ok=True)

    # -- damage

    def _renew(self) -> None:
        """Take what can be read over into a new file; the damaged one is kept beside it.

        Raises:
            OSError: the new one cannot be written; the damaged one is as it was.
            sqlite3.Error: the same.
        """
        assert self.path is not None, "what is in memory only is not damaged"
        self._db.close()
        aside = kept_aside(self.path)
        with closing(sqlite3.connect(self.path, timeout=2.0)) as damaged:
            damaged.text_factory = lambda data: data.decode("utf-8", "replace")
            rows = [row for found in versions_of(damaged, _COLUMNS) if (row := _row(found))]
            made = dict(made_of(damaged, [row.id for row in rows]))
            texts = dict(texts_of(damaged, {*(row.hash for row in rows), *made.values()}))
        for row, data in filter(None, (self._held, self._added)):
            rows = [*(one for one in rows if one.id != row.id), row]
            texts[row.hash] = zlib.compress(data, 6)
        self._put_in_place(rows, texts, {version: digest for version, digest in made.items() if digest in texts})
        self._connect()
        lost = len({row.hash for row in rows} - texts.keys())
        self.mended = f"the history was damaged: {len(rows)} versions could be read"
        self.mended += f", {lost} of their texts could not" if lost else ""
        self.mended += f"; the damaged file is kept as {aside.name}"
        LOG.warning("%s", self.mended)

    def _put_in_place(self, rows: list[VersionRow], texts: dict[str, bytes], made: dict[int, str]) -> None:
        """Write a new file, and exchange the damaged one for it in one step."""
        assert self.path is not None
        handle, name = tempfile.mkstemp(prefix=f".{self.path.name}.", suffix=".part", dir=self.path.parent)
        os.close(handle)
        try:
            with closing(sqlite3.connect(name, isolation_level=None)) as new:
                new.execute("PRAGMA synchronous = FULL")
                _set_up(new)
                new.execute("BEGIN")
                new.executemany("INSERT OR IGNORE INTO body VALUES (?, ?)", texts.items())
                new.executemany(_insert(_COLUMNS, "INSERT OR REPLACE"), (tuple(asdict(row).values()) for row in rows))
                new.executemany("INSERT OR REPLACE INTO made VALUES (?, ?)", made.items())
                top = max(self._top, *(row.id for row in rows), 0)
                new.execute("UPDATE sqlite_sequence SET seq = ? WHERE name = 'version'", (top,))  # no number twice
                new.execute("COMMIT")
            os.chmod(name, stat.S_IMODE(self.path.stat().st_mode))
            Path(f"{self.path}-journal").unlink(missing_ok=True)  # of the damaged one: it would be played into the new
            os.replace(name, self.path)
        finally:
            Path(name).unlink(missing_ok=True)

    def _do(self, work: Callable[[], DoneT]) -> DoneT:
        """Do something with the file; where it is found damaged, mend it and do it again.

        Raises:
            sqlite3.Error: it cannot be done.
        """
        try:
            return work()
        except sqlite3.Error as error:
            self._back()
            if self.path is None or not is_damage(error):
                raise
            try:
                self._renew()
            except OSError:
                raise error from None
            return work()

    def hold(self, row: VersionRow, data: bytes) -> None:
        """What is current, and has to be in the history whatever becomes of its file."""
        self._held = (row, data)
        with suppress(sqlite3.Error):  # it is tried again with the next version
            self._do(lambda: self._keep(row.hash, data))

    def _keep(self, digest: str, data: bytes) -> None:
        """See that a text is there and whole."""
        found = self._db.execute("SELECT packed FROM body WHERE hash = ?", (digest,)).fetchone()
        if found is None or not is_sound(found[0], digest):
            self._db.execute("INSERT OR REPLACE INTO body VALUES (?, ?)", (digest, zlib.compress(data, 6)))

    def close(self) -> None:
        """Let another process have it."""
        self._db.close()

    # -- reading

    def last(self) -> VersionRow | None:
        """The newest version that was not set aside."""
        return self._one(f"SELECT {_ALL} FROM version WHERE written != ? ORDER BY id DESC LIMIT 20", ASIDE)

    def row(self, version: int) -> VersionRow | None:
        """One version."""
        return self._one(f"SELECT {_ALL} FROM version WHERE id = ?", version)

    def operation(self, operation: str) -> VersionRow | None:
        """The version that an operation made."""
        return self._one(f"SELECT {_ALL} FROM version WHERE operation = ?", operation)

    def known(self, digest: str) -> VersionRow | None:
        """The newest version with these bytes."""
        return self._one(f"SELECT {_ALL} FROM version WHERE hash = ? ORDER BY id DESC LIMIT 1", digest)

    def before(self, version: int) -> VersionRow | None:
        """The version before one, set-aside ones not counted."""
        return self._one(
            f"SELECT {_ALL} FROM version WHERE id < ? AND written != ? ORDER BY id DESC LIMIT 20", version, ASIDE
        )

    def since(self, version: int, limit: int) -> list[VersionRow]:
        """The versions after one, the oldest first."""
        return self._many(f"SELECT {_ALL} FROM version WHERE id > ? ORDER BY id LIMIT ?", version, limit)

    def newest(self, limit: int) -> list[VersionRow]:
        """The newest versions, the newest first."""
        return self._many(f"SELECT {_ALL} FROM version ORDER BY id DESC LIMIT ?", limit)

    def data(self, row: VersionRow) -> bytes:
        """The file's bytes at a version.

        Raises:
            Refused: they cannot be read.
        """
        query = "SELECT packed FROM body WHERE hash = ?"
        try:
            found = self._do(lambda: self._db.execute(query, (row.hash,)).fetchone())
        except sqlite3.Error as error:
            raise _not_read(error) from None
        if found is None or not is_sound(found[0], row.hash):
            says = f"version {row.id} cannot be read any more: its text in the history is damaged"
            raise refused("not there", says, "choose another version; the job as it stands is whole")
        return zlib.decompress(found[0])

    def made(self, version: int) -> bytes | None:
        """The bytes of the made file at a version, b"" where it was not there; None where nobody looked yet.

        Raises:
            Refused: they cannot be read.
        """
        last = "SELECT hash FROM made WHERE version <= ? ORDER BY version DESC LIMIT 1"
        query = f"SELECT hash, packed FROM body WHERE hash = ({last})"
        try:
            found = self._do(lambda: self._db.execute(query, (version,)).fetchone())
        except sqlite3.Error as error:
            raise _not_read(error) from None
        if found is None or not is_sound(found[1], found[0]):
            return None  # damaged, it is as if nobody had looked: what stands on the disk counts
        return zlib.decompress(found[1])

    def note_made(self, version: int, data: bytes) -> None:
        """Note what the made file was at a version that is there already.

        Raises:
            Refused: it could not be written.
        """

        def work() -> None:
            self._db.execute("BEGIN IMMEDIATE")
            self._put_made(version, data)
            self._db.execute("COMMIT")

        try:
            self._do(work)
        except sqlite3.Error as error:
            self._back()
            raise _not_added(error) from None

    def _put_made(self, version: int, data: bytes) -> None:
        digest = hash_of(data)
        self._keep(digest, data)
        self._db.execute("INSERT OR REPLACE INTO made VALUES (?, ?)", (version, digest))

    def has_text(self, digest: str) -> bool:
        """Whether a text is there, of the job or of what is cut.

        Raises:
            Refused: that cannot be read.
        """
        query = "SELECT 1 FROM body WHERE hash = ?"
        try:
            return self._do(lambda: self._db.execute(query, (digest,)).fetchone()) is not None
        except sqlite3.Error as error:
            raise _not_read(error) from None

    def _one(self, query: str, *values: object) -> VersionRow | None:
        found = self._many(query, *values)
        return found[0] if found else None

    def _many(self, query: str, *values: object) -> list[VersionRow]:
        try:
            found = self._do(lambda: self._db.execute(query, values).fetchall())
        except sqlite3.Error as error:
            raise _not_read(error) from None
        return [row for values in found if (row := _row(values))]

    # -- writing

    def add(
        self,
        data: bytes,
        *,
        kind: Kind,
        says: str,
        operation: str | None = None,
        undo: int | None = None,
        redo: int | None = None,
        did: str = "",
        renames: str = "",
        written: int = PENDING,
        made: bytes | None = None,
    ) -> VersionRow:
        """Put a version on top, on the disk before this returns; `made` is the made file's bytes where they change.

        Raises:
            Refused: it could not be written; nothing was added.
        """
        digest = hash_of(data)
        now = datetime.datetime.now(datetime.UTC).isoformat(timespec="milliseconds")
        values = (operation, now, kind, says, digest, undo, redo, did, renames, written)

        def work() -> int:
            run = self._db.execute
            run("BEGIN IMMEDIATE")
            self._keep(digest, data)
            cursor = run(_insert(_COLUMNS[1:]), values)
            if made is not None:
                self._put_made(int(cursor.lastrowid or 0), made)
            run("COMMIT")
            return int(cursor.lastrowid or 0)

        try:
            number = self._do(work)
        except sqlite3.Error as error:
            self._back()
            raise _not_added(error) from None
        self._top = max(self._top, number)
        found = self.row(number)
        assert found is not None, "it was added just now"
        self._added = (found, data)
        return found

    def mark(self, row: VersionRow, written: int) -> None:
        """Note what became of a version.

        Raises:
            Refused: the disk is full; the next opening finds out by itself.
        """
        if self._added is not None and self._added[0].id == row.id:
            self._added = (replace(self._added[0], written=written), self._added[1])
        try:
            self._do(lambda: self._db.execute("UPDATE version SET written = ? WHERE id = ?", (written, row.id)))
        except sqlite3.Error as error:
            self._back()
            raise _not_added(error) from None

    def _back(self) -> None:
        with suppress(sqlite3.Error):
            if self._db.in_transaction:
                self._db.execute("ROLLBACK")


def _set_up(db: sqlite3.Connection) -> None:
    db.execute("BEGIN IMMEDIATE")
    if db.execute("PRAGMA user_version").fetchone() != (_FORMAT,):  # else opening writes nothing
        for statement in filter(None, map(str.strip, _TABLES.split(";"))):
            db.execute(statement)
        db.execute(f"PRAGMA user_version = {_FORMAT}")
    db.execute("COMMIT")


def _insert(columns: tuple[str, ...], how: str = "INSERT") -> str:
    return f"{how} INTO version ({', '.join(columns)}) VALUES ({', '.join('?' * len(columns))})"


def _row(found: tuple[object, ...]) -> VersionRow | None:
    """A version as it was read; None for one that is damaged beyond use, what is beside the point put right."""
    values = dict(zip(_COLUMNS, found, strict=True))
    numbers = all(isinstance(values[name], int) for name in ("id", "written"))
    words = all(isinstance(values[name], str) for name in ("at", "kind", "says", "hash", "did", "renames"))
    ways = all(values[name] is None or isinstance(values[name], int) for name in ("undo", "redo"))
    if not (numbers and words and ways):
        return None
    if values["kind"] not in get_args(Kind):
        values["kind"] = "outside"
    if values["renames"]:
        try:
            json.loads(str(values["renames"]))
        except ValueError:
            values["renames"] = ""
    return VersionRow(**values)  # type: ignore[arg-type]


def _look_at_form(path: Path) -> None:
    """Read the file's head, without opening it as a history: nothing is written into a newer Dryfit's.

    Raises:
        HistoryUnusable: it is a newer Dryfit's. The number of its format is at 60, the way it is written at 18 of the
            head (sqlite.org/fileformat2.html, 1.3).
    """
    try:
        with path.open("rb") as file:
            head = file.read(100)
    except OSError:
        return
    if len(head) < 100 or not head.startswith(b"SQLite format 3\0"):
        return
    form = int.from_bytes(head[60:64], "big")
    if _FORMAT < form <= _FORMATS:
        says = f"its history {path.name} was written by a newer Dryfit (format {form}, this one knows {_FORMAT})"
        raise HistoryUnusable(says, "open it with that Dryfit, or a newer one; `check` and `book` need no history")


def _close_to(path: Path, rights: int) -> None:
    """Make the file with its rights, or take from one that is there what goes beyond them."""
    try:
        handle = os.open(path, os.O_CREAT | os.O_EXCL | os.O_RDWR, 0o600)
    except FileExistsError:
        for one in (path, Path(f"{path}-journal")):
            with suppress(OSError):
                mode = stat.S_IMODE(one.stat().st_mode)
                if mode & ~rights:
                    one.chmod(mode & rights)
    except OSError:  # told when it is opened
        return
    else:
        os.close(handle)
        path.chmod(rights)


def _damage(says: str) -> sqlite3.DatabaseError:
    error = sqlite3.DatabaseError(says)
    error.sqlite_errorcode = sqlite3.SQLITE_CORRUPT
    return error


def _not_read(error: Exception) -> Refused:
    says = f"the job's history cannot be read ({error})"
    return refused("not written", says, "look at its folder, then open the job again")


def _not_added(error: sqlite3.Error) -> Refused:
    if "full" in str(error):
        return refused("disk full", "the change was not made: the disk is full", "make room on the disk")
    says = f"the change was not made: its history cannot be written ({error})"
    return refused("not written", says, "look at its folder")


def _unusable(path: Path | None, error: Exception) -> HistoryUnusable:
    said, name = str(error), path.name if path is not None else "history"
    if "locked" in said or "busy" in said:
        return HistoryUnusable(
            "the job is open in another Dryfit already", "use that one, or close it, then open it again"
        )
    if "readonly" in said or "unable to open" in said:
        if path is not None and path.exists() and not os.access(path, os.R_OK | os.W_OK):
            return HistoryUnusable(f"its history {name} may not be written", "make it writable", is_closed=True)
        return HistoryUnusable("its folder may not be written", "make it writable", is_closed=True)
    return HistoryUnusable(f"its history {name} cannot be used ({said})", "move it away, then open the job again")
