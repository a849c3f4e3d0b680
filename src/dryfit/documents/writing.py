"""Writes a book's files into a folder: all or, of each, nothing; never half a file.

What is written is the contract with makers and other programs: `book.json`, `parts.csv`, `model.glb`,
`workshop.pdf`, `assembly.pdf`. Extras join the table below one line each; a file that is not in it is never touched.
"""

import logging
import os
import tempfile
from collections.abc import Callable, Collection, Iterator, Mapping
from contextlib import suppress
from dataclasses import replace
from pathlib import Path

from ..asking import raised_if_wanted
from ..book.model import Book
from ..errors import JobError, Mistake, fault_in_words
from .bookjson import book_json
from .glb import model_glb
from .tables import parts_csv
from .workshop import assembly_pdf, missing_noted, workshop_pdf

LOG = logging.getLogger("dryfit")

Writer = Callable[[Book], bytes]

DATA = "book.json"
WRITERS: dict[str, Writer] = {
    DATA: lambda book: book_json(book).encode(),
    "parts.csv": lambda book: parts_csv(book).encode(),
    "model.glb": model_glb,
    "workshop.pdf": workshop_pdf,
    "assembly.pdf": assembly_pdf,
}
EXTRAS: dict[str, tuple[str, Writer]] = {}  # what --extra names: the file and what makes it


def write_book(book: Book, folder: Path, extras: Collection[str] = ()) -> tuple[Path, ...]:
    """Write the book's files, each at once under its own name; the folder is made if it is not there.

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
    made = dict(_made(writers, book))  # all before the first is written
    for name in writers.keys() - made.keys():
        _lay_aside(folder / name)
    return save(made, folder)


def _lay_aside(path: Path) -> None:
    """Give the file of an earlier state another name: beside new papers it would be taken for one of them."""
    with suppress(OSError):  # where it cannot be renamed nothing can be written either, which is then told
        path.replace(path.with_name(f"{path.stem}.old{path.suffix}"))


def _made(writers: Mapping[str, Writer], book: Book) -> Iterator[tuple[str, bytes]]:
    """What could be made; a file that could not, by a fault of ours, does not keep the others from the maker.

    The data comes last and names what is missing: files, and sheets of a paper that has a page in their place.
    """
    made: dict[str, bytes] = {}
    failed: dict[str, Exception] = {}
    left_out = dict(book.left_out)
    for name in sorted(writers, key=lambda name: name == DATA):
        try:
            with missing_noted() as missing:
                made[name] = writers[name](replace(book, left_out=left_out))
            left_out |= missing
        except JobError:
            raise
        except Exception as fault:  # whatever it is
            raised_if_wanted(fault)
            failed[name] = fault
            left_out[name] = f"it could not be made: {fault_in_words(fault)}"
            LOG.warning("not made: %s (%s)", name, fault_in_words(fault))
            LOG.debug("where it failed", exc_info=fault)
    if len(failed) == len(writers):
        raise failed[min(failed)]
    return ((name, made[name]) for name in writers if name in made)


def save(files: Mapping[str, bytes], folder: Path) -> tuple[Path, ...]:
    """Write made files into a folder, each at once under its own name; the folder is made if it is not there.

    Raises:
        JobError: the folder or a file cannot be written.
    """
    try:
        folder.mkdir(parents=True, exist_ok=True)
        return tuple(_written(folder / name, data) for name, data in files.items())
    except OSError as error:
        reason = error.strerror or str(error)
        raise _mistake(folder, f"cannot be written: {reason}", "choose a folder you may write to") from error


def _written(path: Path, data: bytes) -> Path:
    """Write beside the file and rename, so that a reader sees the old one or the new one."""
    handle, name = tempfile.mkstemp(prefix=f".{path.name}.", suffix=".part", dir=path.parent)
    try:
        with os.fdopen(handle, "wb") as file:
            file.write(data)
        os.chmod(name, 0o644)
        os.replace(name, path)
    except OSError:
        Path(name).unlink(missing_ok=True)
        raise
    return path


def _mistake(folder: Path, says: str, remedy: str) -> JobError:
    return JobError((Mistake(file=str(folder), line=0, says=says, remedy=remedy),))
