"""Puts a set of papers into a folder as one: all are made aside, whole, and then take their places together.

No system can rename several files at once, so for the moment of it a note stands in the folder that names what is being
replaced: whoever stops the run leaves the old set, the new set, or the note beside a mixture. What fails on the way is
undone. Nothing but the papers, the note and a hidden folder of our own is ever written or taken away.
"""

import errno
import hashlib
import os
import shutil
import stat
import tempfile
from collections.abc import Callable, Collection, Iterator, Mapping, Sequence
from contextlib import contextmanager, suppress
from dataclasses import dataclass
from functools import partial
from pathlib import Path
from types import TracebackType

from ..errors import JobError, Mistake

NOTE = "papers are being replaced.txt"
ASIDE = ".dryfit papers "  # begins the hidden folder's name
WAS = "was "  # begins the name there of what a paper replaced
FULL = (errno.ENOSPC, errno.EDQUOT, errno.EFBIG)
AS_BEFORE = "nothing was replaced, the folder is as it was"
_READ, _WRITE = stat.S_IRUSR | stat.S_IRGRP | stat.S_IROTH, stat.S_IWUSR | stat.S_IWGRP | stat.S_IWOTH
USUAL = _READ | _WRITE  # rights of a file, less the user's mask
_NOTE = """\
Dryfit is putting new papers into this folder, or was stopped while it did.
As long as this note is here, the papers beside it may be of two states: do not work from them.
Make them again (dryfit book, or Save on the page); the note then goes by itself.

These are being replaced, each with the sum of what takes its place:
"""
_SUM = "sha256 "


@dataclass(frozen=True, slots=True, kw_only=True)
class FolderState:
    """How the papers of a folder stand where a run was stopped while it put them there.

    Attributes:
        new, old: names of those that it had replaced, and of those that it had not.
    """

    new: tuple[str, ...]
    old: tuple[str, ...]


def standing(folder: Path) -> FolderState | None:
    """What a stopped run left there; None where none was stopped.

    Raises:
        OSError: the folder cannot be read.
    """
    try:
        lines = (folder / NOTE).read_text(encoding="utf-8").splitlines()
    except (FileNotFoundError, NotADirectoryError):
        return None
    wanted = dict(line.split("  " + _SUM, 1) for line in lines if "  " + _SUM in line)
    new = tuple(name for name, digest in wanted.items() if _digest(folder / name) == digest)
    return FolderState(new=new, old=tuple(name for name in wanted if name not in new))


def _digest(path: Path) -> str:
    try:
        return hashlib.sha256(path.read_bytes()).hexdigest()
    except OSError:
        return ""


def rights_like(path: Path | None) -> int:
    """Rights of a paper of this job: those of the job's file, so far as they are reading and writing."""
    if path is None:
        return USUAL
    try:
        return (path.stat().st_mode & USUAL) | stat.S_IRUSR | stat.S_IWUSR
    except OSError:
        return USUAL


class NewSet:
    """Papers on their way into a folder; to be used in a `with`, at whose end what is not `put` is taken away.

    Attributes:
        found: how a run that was stopped had left the folder; None where none was.
    """

    def __init__(self, folder: Path, rights: int = USUAL) -> None:
        """Raise `JobError` where the folder cannot be made or written."""
        self.folder, self.rights = folder, rights
        self._digests: dict[str, str] = {}
        self._begun: list[Path] = []
        self.aside = folder
        try:
            with self._told("nothing was written"):
                self._begin()
                self.found = standing(folder)
                for left in folder.glob(f"{ASIDE}*"):  # of a run that was stopped
                    shutil.rmtree(left, ignore_errors=True)
                self.aside = Path(tempfile.mkdtemp(prefix=ASIDE, dir=folder))
        except JobError:
            self._leave()
            raise

    def _begin(self) -> None:
        """Make the folder; those who may not read the job may not look into it either."""
        missing = [path for path in (self.folder, *self.folder.parents) if not path.exists()]
        for path in reversed(missing):
            path.mkdir(mode=self._looked_into, exist_ok=True)
            self._begun.append(path)
        if not self.folder.is_dir():
            raise NotADirectoryError(errno.ENOTDIR, os.strerror(errno.ENOTDIR))

    @property
    def _looked_into(self) -> int:
        """Rights of a folder: who may read the papers may look into it."""
        return self.rights | (self.rights & _READ) >> 2

    def __enter__(self) -> "NewSet":
        """Begin."""
        return self

    def __exit__(
        self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None
    ) -> None:
        """Leave nothing but papers."""
        self._leave()

    def _leave(self) -> None:
        """Take away what lies aside, and the folder where it was made for nothing."""
        if self.aside != self.folder:
            shutil.rmtree(self.aside, ignore_errors=True)
        for path in reversed(self._begun):
            with suppress(OSError):
                path.rmdir()

    def add(self, name: str, data: bytes) -> None:
        """Lay a paper aside, whole and on the disk; `name` may lead into a folder within: "outlines/A.svg".

        Raises:
            JobError: there is no room for it, or it cannot be written.
        """
        with self._told(f"{name} is not written, {AS_BEFORE}"):
            self._write(self.aside / name, data)
        self._digests[name] = hashlib.sha256(data).hexdigest()

    def _write(self, path: Path, data: bytes) -> None:
        path.parent.mkdir(parents=True, exist_ok=True)
        handle = os.open(path, os.O_CREAT | os.O_EXCL | os.O_WRONLY | getattr(os, "O_BINARY", 0), self.rights)
        with os.fdopen(handle, "wb") as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())

    def put(self, retired: Mapping[str, str]) -> tuple[Path, ...]:
        """Put all that was added in its place; papers that do not belong to it take another name.

        Args:
            retired: the new name of each paper that is there and is not of this set.

        Raises:
            JobError: it cannot be done; what was done of it is undone, or else it is said what is new and what old.
        """
        moves = [*self._moves(retired)]
        lines = "".join(f"{name}  {_SUM}{digest}\n" for name, digest in self._digests.items())
        with self._told(AS_BEFORE):
            self._make_folders()
            self._keep_old()
            self._write(self.aside / NOTE, (_NOTE + lines).encode())
            os.replace(self.aside / NOTE, self.folder / NOTE)
            self._flush()
        done: list[Callable[[], None]] = []
        try:
            for source, target, undo in moves:
                os.replace(source, target)
                done.append(undo)
        except OSError as error:
            raise self._undone(done, error) from error
        self._flush()
        self._end()
        return tuple(self.folder / name for name in self._digests)

    def _end(self) -> None:
        (self.folder / NOTE).unlink(missing_ok=True)
        self._flush()

    def _flush(self) -> None:
        """The folder's own entries on the disk, where the system lets us ask for it."""
        with suppress(OSError):
            handle = os.open(self.folder, os.O_RDONLY)
            try:
                os.fsync(handle)
            finally:
                os.close(handle)

    def _make_folders(self) -> None:
        """The folders within that papers go to; those that stay empty are taken away at the end."""
        within = {parent for name in self._digests for parent in Path(name).parents if parent != Path()}
        for path in sorted(self.folder / parent for parent in within):
            if not path.is_dir():
                path.mkdir(mode=self._looked_into)
                self._begun.append(path)

    def _keep_old(self) -> None:
        """A second name aside for each paper that is there, so that it can be put back; not every disk has such."""
        for name in self._digests:
            was = self.aside / f"{WAS}{name}"
            with suppress(OSError):
                was.parent.mkdir(parents=True, exist_ok=True)
                os.link(self.folder / name, was)

    def _moves(self, retired: Mapping[str, str]) -> Iterator[tuple[Path, Path, Callable[[], None]]]:
        """From where to where, and how it is undone."""
        for name, aside in retired.items():
            there, new = self.folder / name, self.folder / aside
            if there.exists():
                yield there, new, partial(os.replace, new, there)
        for name in self._digests:
            there, was = self.folder / name, self.aside / f"{WAS}{name}"
            yield self.aside / name, there, self._back(was, there, there.exists())

    @staticmethod
    def _back(was: Path, there: Path, stood: bool) -> Callable[[], None]:
        return lambda: os.replace(was, there) if stood else there.unlink()

    def _undone(self, done: Sequence[Callable[[], None]], error: OSError) -> JobError:
        """Undo what was done, newest first; the error that says how it stands now."""
        try:
            for undo in reversed(done):
                undo()
        except OSError:
            stands = standing(self.folder)
            new, old = (stands.new, stands.old) if stands else ((), ())
            how = f"new are {_listed(new)}; old are {_listed(old)}: do not work from them"
            return self._mistake(error, how)
        self._end()
        return self._mistake(error, AS_BEFORE)

    # --- what went wrong -----------------------------------------------------------------------

    @contextmanager
    def _told(self, how: str) -> Iterator[None]:
        """What the system says, as a sentence for the maker."""
        try:
            yield
        except OSError as error:
            raise self._mistake(error, how) from error

    def _mistake(self, error: OSError, how: str) -> JobError:
        reason = error.strerror or str(error)
        if error.errno in FULL:
            says, remedy = f"the disk is full ({reason}): {how}", "make room on it, or choose a folder on another disk"
        elif isinstance(error, PermissionError) and error.filename2:  # of a file that is open, not of the folder
            says = f"{Path(error.filename2).name} cannot be replaced ({reason}): {how}"
            remedy = "close it where it is open in another program, and make the papers again"
        else:
            says, remedy = f"cannot be written: {reason}: {how}", "choose a folder you may write to"
        return JobError((Mistake(file=str(self.folder), line=0, says=says, remedy=remedy),))


def _listed(names: Collection[str]) -> str:
    every = list(names)
    return " and ".join([", ".join(every[:-1]), every[-1]]) if len(every) > 1 else "".join(every) or "none"
