"""A damaged history: what can still be read of it, and the damaged file kept beside it.

Versions are looked up by their number, one by one, so that those on a damaged page are missed and no others; texts
by their hash, which they must still have.
"""

import hashlib
import os
import shutil
import sqlite3
import zlib
from collections.abc import Collection, Iterator
from contextlib import suppress
from pathlib import Path

MISSING_IN_A_ROW = 2000  # numbers without a version after which no more are looked for


def is_damage(error: BaseException) -> bool:
    """Whether an error says that the file is damaged, and not that it is locked, or the disk full."""
    code = getattr(error, "sqlite_errorcode", None)
    if code is None:
        return False
    lacking = code == sqlite3.SQLITE_ERROR and "no such" in str(error)  # a letter of the tables' own names
    return lacking or code & 0xFF in (sqlite3.SQLITE_CORRUPT, sqlite3.SQLITE_NOTADB, sqlite3.SQLITE_MISMATCH)


def is_sound(packed: object, digest: str) -> bool:
    """Whether a packed text is still the one with that hash."""
    try:
        return hashlib.sha256(zlib.decompress(packed)).hexdigest() == digest  # type: ignore[arg-type]
    except (zlib.error, TypeError):
        return False


def versions_of(db: sqlite3.Connection, columns: Collection[str]) -> Iterator[tuple[object, ...]]:
    """The versions that can be read, the oldest first."""
    query = f"SELECT {', '.join(columns)} FROM version WHERE id = ?"
    number, missing = 1, 0
    while missing < MISSING_IN_A_ROW:
        found = None
        with suppress(sqlite3.Error):
            found = db.execute(query, (number,)).fetchone()
        missing = 0 if found else missing + 1
        if found:
            yield tuple(found)
        number += 1


def texts_of(db: sqlite3.Connection, hashes: Collection[str]) -> Iterator[tuple[str, bytes]]:
    """The packed texts that can be read and are whole."""
    for digest in hashes:
        with suppress(sqlite3.Error):
            found = db.execute("SELECT packed FROM body WHERE hash = ?", (digest,)).fetchone()
            if found and is_sound(found[0], digest):
                yield digest, found[0]


def made_of(db: sqlite3.Connection, versions: Collection[int]) -> Iterator[tuple[int, str]]:
    """Of which text what is cut was from a version on, where that can be read."""
    for number in versions:
        with suppress(sqlite3.Error):
            found = db.execute("SELECT hash FROM made WHERE version = ?", (number,)).fetchone()
            if found and isinstance(found[0], str):
                yield number, found[0]


def kept_aside(path: Path) -> Path:
    """A copy of a damaged file beside it, with what belongs to it and the same rights, on the disk.

    Raises:
        OSError: it could not be made.
    """
    number = 1
    while (aside := path.with_name(f"{path.stem}.damaged-{number}{path.suffix}")).exists():
        number += 1
    for end in ("-journal", ""):
        source, copy = Path(f"{path}{end}"), Path(f"{aside}{end}")
        if source.exists():
            handle = os.open(copy, os.O_WRONLY | os.O_CREAT | os.O_EXCL, 0o600)
            with os.fdopen(handle, "wb") as file, source.open("rb") as read:
                shutil.copyfileobj(read, file)
                file.flush()
                os.fsync(file.fileno())
            shutil.copymode(source, copy)
    return aside
