"""Makes a book's papers and puts them into a folder: together, or not at all.

What is written is the contract with makers and other programs: `book.json`, `parts.csv`, `model.glb`,
`workshop.pdf`, `assembly.pdf`. Extras join the table below one line each; a file that is not in it is never touched.
"""

import logging
from collections.abc import Callable, Collection, Iterator, Mapping
from pathlib import Path
from typing import Protocol

from ..asking import raised_if_wanted
from ..book.model import Book
from ..errors import Cancelled, JobError, Mistake, fault_in_words
from .aside import some_aside
from .bookjson import book_json, book_stamp
from .folder import USUAL, NewSet
from .glb import model_glb
from .looks import Desk
from .stamps import stamp_in
from .tables import parts_csv
from .workshop import ASSEMBLY, PAPER, Told, paper_pdf

LOG = logging.getLogger("dryfit")

Writer = Callable[[Desk, Told], bytes]  # it tells the title of each sheet as it is drawn

DATA = "book.json"
WRITERS: dict[str, Writer] = {
    DATA: lambda desk, told: book_json(desk.book, desk).encode(),
    "parts.csv": lambda desk, told: parts_csv(desk.book, desk).encode(),
    "model.glb": lambda desk, told: model_glb(desk.book, book_stamp(desk)),
    "workshop.pdf": lambda desk, told: paper_pdf(PAPER, desk, told),
    "assembly.pdf": lambda desk, told: paper_pdf(ASSEMBLY, desk, told),
}
EXTRAS: dict[str, tuple[str, Writer]] = {}  # what --extra names: the file and what makes it


class Watch(Protocol):
    """Is told how far the papers are."""

    def drawn(self, file: str, number: int, title: str) -> None:
        """A sheet of a paper is drawn: the how manieth, and what it shows."""

    def made(self, file: str, size: int) -> None:
        """A paper is whole, so many bytes."""

    def healed(self, new: tuple[str, ...], old: tuple[str, ...]) -> None:
        """A run that was stopped had left papers of two states, of which nothing is left now."""


class _Nobody:
    def drawn(self, file: str, number: int, title: str) -> None:
        pass

    def made(self, file: str, size: int) -> None:
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
    unknown = [name for name in extras if name not in EXTRAS]
    if unknown:
        known = ", ".join(sorted(EXTRAS)) or "none yet"
        raise _mistake(folder, f"nothing is called {', '.join(unknown)}", f"leave it out; extras are: {known}")
    writers = WRITERS | {EXTRAS[name][0]: EXTRAS[name][1] for name in extras}
    watch = watch or _Nobody()
    with NewSet(folder, rights) as papers:
        made = set()
        for name, data in _made(writers, book, watch):
            papers.add(name, data)
            watch.made(name, len(data))
            made.add(name)
        done = papers.put({name: laid_aside(name) for name in writers if name not in made})
        written = tuple(sorted(done, key=lambda path: list(writers).index(path.name)))
        if papers.found is not None:
            watch.healed(papers.found.new, papers.found.old)
    return written


def laid_aside(name: str) -> str:
    """The name under which a paper of another state stays: beside new papers it would be taken for one of them."""
    path = Path(name)
    return f"{path.stem}.old{path.suffix}"


def _made(writers: Mapping[str, Writer], book: Book, watch: Watch) -> Iterator[tuple[str, bytes]]:
    """What could be made; a file that could not, by a fault of ours, does not keep the others from the maker.

    The data comes last and names what is missing: files, and sheets of a paper that has a page in their place.
    """
    failed: list[Exception] = []
    desk = Desk(book)
    with some_aside(desk, (PAPER, ASSEMBLY)):
        for name in sorted(writers, key=lambda name: name == DATA):
            try:
                data = writers[name](desk, _counted(watch, name))
            except (JobError, Cancelled):
                raise
            except Exception as fault:  # whatever it is
                raised_if_wanted(fault)
                failed.append(fault)
                desk.missing[name] = f"it could not be made: {fault_in_words(fault)}"
                LOG.warning("not made: %s (%s)", name, fault_in_words(fault))
                LOG.debug("where it failed", exc_info=fault)
            else:
                yield name, data
    if len(failed) == len(writers):
        raise failed[0]


def _counted(watch: Watch, file: str) -> Told:
    """Tells of a paper's sheets with their number."""
    number = 0

    def told(title: str) -> None:
        nonlocal number
        number += 1
        watch.drawn(file, number, title)

    return told


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
        others = [name for name in WRITERS if name not in files and _stamp_at(folder / name) not in stamps]
        return papers.put({name: laid_aside(name) for name in others})


def _stamp_at(path: Path) -> str:
    try:
        return stamp_in(path.read_bytes())
    except OSError:
        return ""


def _mistake(folder: Path, says: str, remedy: str) -> JobError:
    return JobError((Mistake(file=str(folder), line=0, says=says, remedy=remedy),))
