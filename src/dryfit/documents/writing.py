"""Makes a book's papers and puts them into a folder: together, or not at all.

What is written is the contract with makers and other programs. Which papers there are stands in `writers/`; a file that
is of none of them is never touched.
"""

import logging
from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Protocol

from ..asking import raised_if_wanted
from ..book.model import Book
from ..errors import Cancelled, JobError, Mistake, fault_in_words
from .aside import some_aside
from .bookjson import book_stamp
from .folder import USUAL, NewSet
from .looks import Desk
from .stamps import stamp_in
from .writer import Writer, by_turn
from .writers import WRITERS

LOG = logging.getLogger("dryfit")
OLD = ".old"  # at the end of the name of a paper that is laid aside


class Watch(Protocol):
    """Is told how far the papers are."""

    def drawn(self, file: str, number: int, title: str) -> None:
        """A sheet of a paper is drawn: the how manieth, and what it shows."""

    def made(self, file: str, size: int) -> None:
        """A paper is whole, so many bytes."""

    def left_out(self, file: str, why: str) -> None:
        """A paper cannot be made here."""

    def healed(self, new: tuple[str, ...], old: tuple[str, ...]) -> None:
        """A run that was stopped had left papers of two states, of which nothing is left now."""


class _Nobody:
    def drawn(self, file: str, number: int, title: str) -> None:
        pass

    def made(self, file: str, size: int) -> None:
        pass

    def left_out(self, file: str, why: str) -> None:
        pass

    def healed(self, new: tuple[str, ...], old: tuple[str, ...]) -> None:
        pass


def write_book(
    book: Book, folder: Path, extras: Collection[str] = (), *, watch: Watch | None = None, rights: int = USUAL
) -> tuple[Path, ...]:
    """Write the book's files as one set; the folder is made if it is not there.

    Args:
        book: what they are made from.
        folder: where they go.
        extras: further files by name.
        watch: is told how far it is.
        rights: of the files, less the user's mask; `rights_like` has those of the job.

    Returns:
        What was written, in order. A file that could not be made by a fault of ours is logged and left out;
        one of its name from before is laid aside, workshop.pdf as workshop.old.pdf.

    Raises:
        JobError: the folder or a file cannot be written, or an extra is not known.
    """
    wanted = _wanted(folder, extras)
    watch = watch or _Nobody()
    desk = Desk(book)
    with NewSet(folder, rights) as papers:
        by_writer: dict[str, list[str]] = {writer.name: [] for writer in wanted}
        for writer, name, data in _made(wanted, desk, watch):
            papers.add(name, data)
            watch.made(name, len(data))
            by_writer[writer.name].append(name)
        made = [name for names in by_writer.values() for name in names]
        papers.put(_old(folder, made, book_stamp(desk), [writer.name for writer in wanted]))
        if papers.found is not None:
            watch.healed(papers.found.new, papers.found.old)
    return tuple(folder / name for name in made)


def _wanted(folder: Path, extras: Collection[str]) -> list[Writer]:
    """The writers that are put to work, as lists have them.

    Raises:
        JobError: an extra is not known.
    """
    known = [writer.name for writer in WRITERS.values() if writer.extra]
    unknown = [name for name in extras if name not in known]
    if unknown:
        there = ", ".join(known) or "none yet"
        raise _mistake(
            folder, f"no paper is called {', '.join(unknown)}", f"leave it out; made only when asked for: {there}"
        )
    return [writer for writer in WRITERS.values() if not writer.extra or writer.name in extras]


def _old(folder: Path, made: Collection[str], stamp: str, asked: Collection[str] = ()) -> dict[str, str]:
    """Papers that are there and are not of the new set, each with the name under which it stays.

    Args:
        folder: where they lie.
        made: what takes its place there.
        stamp: of the new set.
        asked: the writers from whom papers were wanted: what they did not make is not of the set, whatever its stamp.
    """
    return {
        name: laid_aside(name)
        for writer in WRITERS.values()
        for name in _there(folder, writer)
        if name not in made and (writer.name in asked or _stamp_at(folder / name) != stamp)
    }


def _there(folder: Path, writer: Writer) -> Iterator[str]:
    """What there may be of a writer; in a folder of its own only what carries a stamp is a paper."""
    if not writer.own_folder:
        yield writer.makes
        return
    for path in sorted((folder / writer.makes).rglob("*")):
        if path.is_file() and not path.stem.endswith(OLD) and _stamp_at(path):
            yield path.relative_to(folder).as_posix()


def laid_aside(name: str) -> str:
    """The name under which a paper of another state stays: beside new papers it would be taken for one of them."""
    path = Path(name)
    return path.with_name(f"{path.stem}{OLD}{path.suffix}").as_posix()


def _made(writers: Sequence[Writer], desk: Desk, watch: Watch) -> Iterator[tuple[Writer, str, bytes]]:
    """What could be made; a file that could not, by a fault of ours, does not keep the others from the maker.

    The data comes last and names what is missing: files, and sheets of a paper that has a page in their place.
    """
    failed: list[Exception] = []
    turns = by_turn([writer for writer in writers if not _left_out(writer, desk, watch)])
    with some_aside(desk, [writer.binds for writer in turns if writer.binds]):
        for writer in turns:
            desk.watch = _Counted(watch, writer.makes)
            try:
                files = list(writer.made(desk))
            except (JobError, Cancelled):
                raise
            except Exception as fault:  # whatever it is
                raised_if_wanted(fault)
                failed.append(fault)
                desk.missing[writer.makes] = f"it could not be made: {fault_in_words(fault)}"
                LOG.warning("not made: %s (%s)", writer.makes, fault_in_words(fault))
                LOG.debug("where it failed", exc_info=fault)
            else:
                yield from ((writer, name, data) for name, data in files)
            desk.bound.clear()
    if failed and len(failed) == len(turns):
        raise failed[0]


def _left_out(writer: Writer, desk: Desk, watch: Watch) -> bool:
    """Whether a writer cannot work here, which is then said."""
    why = writer.lacks()
    if why:
        desk.missing[writer.makes] = why
        watch.left_out(writer.makes, why)
    return bool(why)


class _Counted:
    """Tells of a paper's sheets with their number."""

    def __init__(self, watch: Watch, file: str) -> None:
        self.watch, self.file, self.number = watch, file, 0

    def sheet(self, title: str) -> None:
        self.number += 1
        self.watch.drawn(self.file, self.number, title)

    def binding(self, sheets: int) -> None:
        pass


def save(files: Mapping[str, bytes], folder: Path, rights: int = USUAL) -> tuple[Path, ...]:
    """Write made papers of one set into a folder, which is made if it is not there.

    Papers that are there already and are of another set are laid aside.

    Raises:
        JobError: the folder or a file cannot be written.
    """
    stamps = {stamp_in(data) for data in files.values()}
    assert len(stamps) == 1, "papers of one set carry one stamp"
    with NewSet(folder, rights) as papers:
        for name, data in files.items():
            papers.add(name, data)
        return papers.put(_old(folder, files, stamps.pop()))


def _stamp_at(path: Path) -> str:
    try:
        return stamp_in(path.read_bytes())
    except OSError:
        return ""


def _mistake(folder: Path, says: str, remedy: str) -> JobError:
    return JobError((Mistake(file=str(folder), line=0, says=says, remedy=remedy),))
