"""The job file on disk: read as bytes, written whole or not at all, and never over somebody else's change.

What is written is put beside the file, forced to the disk, and exchanged with it in one step. What came out of
the exchange is looked at: if it is not what was expected, someone else has written at the same moment, and the
two are exchanged back. Where the system knows no such exchange, the file is looked at right before it is
replaced, which leaves some microseconds.
"""

import ctypes
import errno
import functools
import hashlib
import os
import stat
import sys
import tempfile
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import Literal, TypeAlias

from ...editing.refusals import Refused, refused
from ...job.reading import file_bytes
from ...job.syntax import LARGEST

Stamp: TypeAlias = tuple[int, int, int]  # when changed (ns), size, which file
LineEnds: TypeAlias = Literal["LF", "CRLF", "mixed"]

BOM = "\ufeff"
NETWORK = {"nfs", "nfs4", "cifs", "smb3", "smbfs", "fuse.sshfs", "9p", "afs", "fuse.rclone", "davfs"}


class OutsideChange(Exception):  # noqa: N818 - it is no error of anybody's
    """The file is no longer what it was when it was last looked at."""


@dataclass(frozen=True, slots=True)
class Seen:
    """The file as it was found.

    Attributes:
        text: None where it is not UTF-8 text, or not there.
        says: why not.
    """

    data: bytes
    text: str | None
    says: str = ""

    @property
    def usable(self) -> bool:
        """Whether all of it was read; bytes that are no text are, a file that is not there is not."""
        return self.text is not None or (bool(self.data) and len(self.data) <= LARGEST)

    @property
    def hash(self) -> str:
        """Of the bytes."""
        return hash_of(self.data)


def hash_of(data: bytes) -> str:
    """SHA-256 in hex."""
    return hashlib.sha256(data).hexdigest()


class JobFile:
    """One file, by its resolved path.

    Attributes:
        path: absolute, links followed once.
        name: as messages call it.
    """

    def __init__(self, path: Path, like: Path | None = None) -> None:
        """A file that need not be there; written anew it is as open as `like`, or as it was when it was last seen."""
        self.path = path.resolve()
        self.name = path.name
        self.like = like
        self._stamp: Stamp | None = None
        self._mode: int | None = None

    def read(self) -> Seen:
        """What stands there now."""
        self._stamp = self.stamp()
        try:
            data = file_bytes(self.path)
        except FileNotFoundError:
            return Seen(b"", None, "the file is no longer there")
        except OSError as error:
            return Seen(b"", None, f"the file cannot be read: {(error.strerror or 'unknown').lower()}")
        if len(data) > LARGEST:
            return Seen(data, None, f"the file is larger than {LARGEST // 1_000_000} MB")
        try:
            return Seen(data, data.decode("utf-8"))
        except UnicodeDecodeError:
            return Seen(data, None, "the file is not saved as UTF-8 text")

    def _look(self) -> Stamp:
        found = self.path.stat()
        self._mode = stat.S_IMODE(found.st_mode)
        return found.st_mtime_ns, found.st_size, found.st_ino

    def stamp(self) -> Stamp | None:
        """What tells one state of the file from another without reading it; None where it is not there."""
        try:
            return self._look()
        except OSError:
            return None

    def touched(self) -> bool:
        """Whether it may have changed since it was last read here: cheap, asked twice a second."""
        return self.stamp() != self._stamp

    def wait_word(self) -> str:
        """Why it may not be written; "" where it may."""
        try:
            mode = self.path.stat().st_mode
        except OSError:
            return ""
        if not mode & (stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH) or not os.access(self.path, os.W_OK):
            return "the file is marked read-only"
        if not os.access(self.path.parent, os.W_OK):
            return "its folder may not be written"
        return ""

    def network_word(self) -> str:
        """What to know of a folder that lies on another machine; "" for one that does not."""
        kind = file_system(self.path.parent)
        if kind not in NETWORK:
            return ""
        return "the job lies in a network folder: saving waits for it; open the job on one machine at a time"

    def write(self, data: bytes, expected: str) -> None:
        """Replace what hashes to `expected` by `data`, in one step and forced to the disk.

        Raises:
            OutsideChange: something else stands there; it stands there still.
            Refused: it cannot be written; nothing was changed.
        """
        word = self.wait_word()
        if word:
            raise read_only(word)
        beside: Path | None = None
        try:
            beside = self._beside(data)
            self._put(beside, expected)
            _force(self.path.parent)
            self._stamp = self._look()
        except OSError as error:
            raise not_written(self.name, error) from None
        finally:
            if beside is not None:
                beside.unlink(missing_ok=True)

    def _beside(self, data: bytes) -> Path:
        """The new file under a name of its own in the same folder, on the disk, with the old one's rights."""
        handle, name = tempfile.mkstemp(prefix=f".{self.name}.", suffix=".part", dir=self.path.parent)
        beside = Path(name)
        try:
            with os.fdopen(handle, "wb") as file:
                file.write(data)
                file.flush()
                os.fsync(file.fileno())
            if self.path.exists():
                _let_as(beside, self.path.stat())
            else:
                os.chmod(beside, self._mode if self._mode is not None else rights_beside(self.like or self.path))
        except OSError:
            beside.unlink(missing_ok=True)
            raise
        return beside

    def _put(self, beside: Path, expected: str) -> None:
        if not self.path.exists():  # taken away outside: what the page holds is all there is
            try:
                os.link(beside, self.path)
            except FileExistsError:
                raise OutsideChange from None
            return
        if hash_of(self.path.read_bytes()) != expected:
            raise OutsideChange
        exchange = _exchange()
        if exchange is None or not exchange(beside, self.path):
            os.replace(beside, self.path)
            return
        if hash_of(beside.read_bytes()) != expected:
            exchange(beside, self.path)
            raise OutsideChange


def rights_beside(job: Path) -> int:
    """The rights of a new file beside a job: what the job and the user's mask both allow, and the user his own."""
    try:
        own = stat.S_IMODE(job.stat().st_mode)
    except OSError:
        own = 0o666
    return (own & 0o666 & ~_mask()) | 0o600


def _mask() -> int:
    """The user's mask; read without setting it where the system tells, since setting it is seen by all threads."""
    try:
        status = Path("/proc/self/status").read_text(encoding="ascii", errors="replace")
        return int(status.partition("\nUmask:")[2].split()[0], 8)
    except (OSError, IndexError, ValueError):
        mask = os.umask(0o077)
        os.umask(mask)
        return mask


def _let_as(beside: Path, old: os.stat_result) -> None:
    """Give a new file the owner, the group and the rights of the old; its group nothing, where that is another one."""
    new, mode = beside.stat(), stat.S_IMODE(old.st_mode)
    if hasattr(os, "chown") and (new.st_uid, new.st_gid) != (old.st_uid, old.st_gid):
        for owner in (old.st_uid, -1):
            with suppress(OSError):
                os.chown(beside, owner, old.st_gid)
                break
        if beside.stat().st_gid != old.st_gid:
            mode &= ~stat.S_IRWXG
    os.chmod(beside, mode)


def read_only(word: str) -> Refused:
    """The refusal for a file that may not be written."""
    return refused("read-only", f"the change was not made: {word}", "make it writable, or work on a copy")


def not_written(name: str, error: OSError) -> Refused:
    """The refusal for a write that failed; the file is as it was."""
    if error.errno in (errno.ENOSPC, errno.EDQUOT):
        return refused("disk full", f"the change was not made: the disk is full, {name} is as it was", "make room")
    if error.errno in (errno.EROFS, errno.EACCES, errno.EPERM):
        return read_only("its folder may not be written")
    reason = (error.strerror or "unknown").lower()
    return refused("not written", f"the change was not made: {name} cannot be written ({reason})", "look at its folder")


@functools.lru_cache
def _exchange() -> Callable[[Path, Path], bool] | None:
    """What exchanges two files in one step, where the system can: Linux with renameat2; None elsewhere."""
    if sys.platform != "linux":
        return None
    try:
        rename = ctypes.CDLL(None, use_errno=True).renameat2
    except (OSError, AttributeError):
        return None
    here, both = -100, 2  # AT_FDCWD, RENAME_EXCHANGE

    def exchange(one: Path, other: Path) -> bool:
        return bool(rename(here, os.fsencode(one), here, os.fsencode(other), both) == 0)

    return exchange


def _force(folder: Path) -> None:
    """Force a folder's entries to the disk, where a folder can be opened."""
    if os.name == "nt":
        return
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def file_system(folder: Path) -> str:
    """The kind of file system a folder lies in, "" where it is not known."""
    try:
        lines = Path("/proc/mounts").read_text(encoding="utf-8", errors="replace").splitlines()
    except OSError:
        return ""
    found = [(line.split()[1], line.split()[2]) for line in lines if len(line.split()) > 2]
    holding = [(len(place), kind) for place, kind in found if folder.is_relative_to(place.replace("\\040", " "))]
    return max(holding, default=(0, ""))[1]


# --- the text as a browser has it


def line_ends(text: str) -> LineEnds:
    """How lines end in a text: "LF", "CRLF" or "mixed"."""
    pairs, single = text.count("\r\n"), text.count("\n")
    if not pairs:
        return "LF"
    return "CRLF" if pairs == single else "mixed"


def for_browser(text: str) -> str:
    """A text without byte order mark, its lines ending as a browser has them."""
    return text.removeprefix(BOM).replace("\r\n", "\n")


def from_browser(new: str, old: str) -> str:
    """A browser's text with the byte order mark and line ends of the file it replaces.

    Lines that stand unchanged before and behind the change keep their own line ends; those of the change get
    the end of the line they take the place of, or the file's commoner one.
    """
    plain = new.replace("\r\n", "\n")
    before = for_browser(old)
    mark = BOM if old.startswith(BOM) else ""
    if line_ends(old) == "LF":
        return mark + plain
    kept = _lines(old.removeprefix(BOM))
    lines, were = _lines(plain), _lines(before)
    common = "\r\n" if 2 * old.count("\r\n") >= old.count("\n") else "\n"
    head = _same(lines, were)
    tail = _same(lines[head:][::-1], were[head:][::-1])
    replaced = kept[head : len(kept) - tail]
    middle = [
        line.replace("\n", _end_of(replaced[at], common) if at < len(replaced) else common)
        for at, line in enumerate(lines[head : len(lines) - tail])
    ]
    return mark + "".join([*kept[:head], *middle, *(kept[len(kept) - tail :] if tail else [])])


def _lines(text: str) -> list[str]:
    """Lines with their ends; only a line feed ends one."""
    parts = text.split("\n")
    return [*(f"{part}\n" for part in parts[:-1]), *parts[-1:]] if parts[-1] else [f"{part}\n" for part in parts[:-1]]


def _end_of(line: str, common: str) -> str:
    if line.endswith("\r\n"):
        return "\r\n"
    return "\n" if line.endswith("\n") else common


def _same(one: list[str], other: list[str]) -> int:
    """How many lines both begin with."""
    count = 0
    for first, second in zip(one, other, strict=False):
        if first != second:
            break
        count += 1
    return count
