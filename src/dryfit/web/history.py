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
"""

import datetime
import sqlite3
import zlib
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, TypeAlias

from .jobfile import hash_of
from .refusals import Refused, refused

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
_FORMAT = 1


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
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


class HistoryUnusable(Exception):  # noqa: N818 - what it says is the fault
    """The history cannot be kept; the text says why."""


class History:
    """The versions of one job; one process holds it at a time."""

    def __init__(self, path: Path) -> None:
        """Open it, or make it.

        Raises:
            HistoryUnusable: it is held by another process, may not be written, or is no history.
        """
        self.path = path
        try:
            self._db = sqlite3.connect(path, isolation_level=None, timeout=2.0, check_same_thread=False)
            self._set_up()
        except sqlite3.Error as error:
            raise HistoryUnusable(_why(path, error)) from None

    def _set_up(self) -> None:
        run = self._db.execute
        run("PRAGMA locking_mode = EXCLUSIVE")  # so that a second server on the same job is told
        run("PRAGMA journal_mode = DELETE")  # safe in network and synced folders, where WAL is not
        run("PRAGMA synchronous = FULL")
        run("BEGIN IMMEDIATE")
        (form,) = run("PRAGMA user_version").fetchone()
        if form > _FORMAT:
            raise sqlite3.DatabaseError("it was made by a newer Dryfit")
        for statement in filter(None, map(str.strip, _TABLES.split(";"))):
            run(statement)
        run(f"PRAGMA user_version = {_FORMAT}")
        run("COMMIT")

    def close(self) -> None:
        """Let another process have it."""
        self._db.close()

    # -- reading

    def last(self) -> Row | None:
        """The newest version that was not set aside."""
        return self._one("SELECT * FROM version WHERE written != ? ORDER BY id DESC LIMIT 1", ASIDE)

    def row(self, version: int) -> Row | None:
        """One version."""
        return self._one("SELECT * FROM version WHERE id = ?", version)

    def operation(self, operation: str) -> Row | None:
        """The version that an operation made."""
        return self._one("SELECT * FROM version WHERE operation = ?", operation)

    def known(self, digest: str) -> Row | None:
        """The newest version with these bytes."""
        return self._one("SELECT * FROM version WHERE hash = ? ORDER BY id DESC LIMIT 1", digest)

    def before(self, version: int) -> Row | None:
        """The version before one, set-aside ones not counted."""
        return self._one("SELECT * FROM version WHERE id < ? AND written != ? ORDER BY id DESC LIMIT 1", version, ASIDE)

    def since(self, version: int, limit: int) -> list[Row]:
        """The versions after one, the oldest first."""
        return self._many("SELECT * FROM version WHERE id > ? ORDER BY id LIMIT ?", version, limit)

    def newest(self, limit: int) -> list[Row]:
        """The newest versions, the newest first."""
        return self._many("SELECT * FROM version ORDER BY id DESC LIMIT ?", limit)

    def data(self, row: Row) -> bytes:
        """The file's bytes at a version.

        Raises:
            Refused: they cannot be read.
        """
        try:
            found = self._db.execute("SELECT packed FROM body WHERE hash = ?", (row.hash,)).fetchone()
            return zlib.decompress(found[0])
        except (sqlite3.Error, zlib.error, TypeError) as error:  # TypeError: the body is not there
            raise _not_read(error) from None

    def made(self, version: int) -> bytes | None:
        """The bytes of the made file at a version, b"" where it was not there; None where nobody looked yet.

        Raises:
            Refused: they cannot be read.
        """
        last = "SELECT hash FROM made WHERE version <= ? ORDER BY version DESC LIMIT 1"
        query = f"SELECT packed FROM body WHERE hash = ({last})"
        try:
            found = self._db.execute(query, (version,)).fetchone()
            return None if found is None else zlib.decompress(found[0])
        except (sqlite3.Error, zlib.error) as error:
            raise _not_read(error) from None

    def note_made(self, version: int, data: bytes) -> None:
        """Note what the made file was at a version that is there already.

        Raises:
            Refused: it could not be written.
        """
        try:
            self._db.execute("BEGIN IMMEDIATE")
            self._put_made(version, data)
            self._db.execute("COMMIT")
        except sqlite3.Error as error:
            self._back()
            raise _not_added(error) from None

    def _put_made(self, version: int, data: bytes) -> None:
        digest = hash_of(data)
        self._db.execute("INSERT OR IGNORE INTO body VALUES (?, ?)", (digest, zlib.compress(data, 6)))
        self._db.execute("INSERT OR REPLACE INTO made VALUES (?, ?)", (version, digest))

    def _one(self, query: str, *values: object) -> Row | None:
        found = self._many(query, *values)
        return found[0] if found else None

    def _many(self, query: str, *values: object) -> list[Row]:
        names = ("id", "operation", "at", "kind", "says", "hash", "undo", "redo", "did", "renames", "written")
        try:
            return [Row(**dict(zip(names, row, strict=True))) for row in self._db.execute(query, values)]
        except sqlite3.Error as error:
            raise _not_read(error) from None

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
    ) -> Row:
        """Put a version on top, on the disk before this returns; `made` is the made file's bytes where they change.

        Raises:
            Refused: it could not be written; nothing was added.
        """
        digest = hash_of(data)
        now = datetime.datetime.now(datetime.UTC).isoformat(timespec="milliseconds")
        run = self._db.execute
        try:
            run("BEGIN IMMEDIATE")
            run("INSERT OR IGNORE INTO body VALUES (?, ?)", (digest, zlib.compress(data, 6)))
            values = (operation, now, kind, says, digest, undo, redo, did, renames, written)
            cursor = run(
                "INSERT INTO version (operation, at, kind, says, hash, undo, redo, did, renames, written)"
                " VALUES (?, ?, ?, ?, ?, ?, ?, ?, ?, ?)",
                values,
            )
            if made is not None:
                self._put_made(int(cursor.lastrowid or 0), made)
            run("COMMIT")
        except sqlite3.Error as error:
            self._back()
            raise _not_added(error) from None
        found = self.row(int(cursor.lastrowid or 0))
        assert found is not None, "it was added just now"
        return found

    def mark(self, row: Row, written: int) -> None:
        """Note what became of a version.

        Raises:
            Refused: the disk is full; the next opening finds out by itself.
        """
        try:
            self._db.execute("UPDATE version SET written = ? WHERE id = ?", (written, row.id))
        except sqlite3.Error as error:
            self._back()
            raise _not_added(error) from None

    def _back(self) -> None:
        if self._db.in_transaction:
            self._db.execute("ROLLBACK")


def _not_read(error: Exception) -> Refused:
    says = f"the job's history cannot be read ({error})"
    return refused("not written", says, "look at its folder, then open the job again")


def _not_added(error: sqlite3.Error) -> Refused:
    if "full" in str(error):
        return refused("disk full", "the change was not made: the disk is full", "make room on the disk")
    says = f"the change was not made: its history cannot be written ({error})"
    return refused("not written", says, "look at its folder")


def _why(path: Path, error: sqlite3.Error) -> str:
    said = str(error)
    if "locked" in said or "busy" in said:
        return "the job is open in another Dryfit already: use that one, or end it"
    if "readonly" in said or "unable to open" in said:
        return f"its history {path.name} cannot be written: the folder may not be written"
    return f"its history {path.name} cannot be used ({said}): move it away, and a new one is begun"
