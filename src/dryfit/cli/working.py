"""What several sub-commands do: read and build a book, pin it, write its papers."""

from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from ..errors import JobError, Mistake
from .progress import Progress
from .telling import MUST_CHANGE, SOUND, say, tell

if TYPE_CHECKING:
    from ..book import Book
    from ..piece.setout import Made
    from ..shop.model import Shop


def book_of(job_path: Path, shop_path: Path | None, step: "Callable[[float, str], None] | None" = None) -> "Book":
    """The whole book of a job file; `step` is told how far it is, as a share, and what it is at.

    Raises:
        JobError: one of the files cannot be used, or there is no board in the job.
    """
    from ..book import build, read
    from ..study.base import Work

    job = read(job_path)
    if not job.boards:
        remedy = "write a [[board]] with a name, a line and a depth; `dryfit new FILE` writes a job to start from"
        raise JobError((Mistake(file=str(job_path), line=0, says="there are no boards yet", remedy=remedy),))
    return build(job, shop_of(shop_path), _made(job_path), work=Work(on_step=step) if step else None)


def shop_of(path: Path | None) -> "Shop | None":
    """The shop file, where one is given.

    Raises:
        JobError: it cannot be used.
    """
    if path is None:
        return None
    from ..shop.reading import read_shop

    return read_shop(path)


def _made(job_path: Path) -> "Made":
    from ..piece.made import made_path, read_made

    return read_made(made_path(job_path))


def pin(job_path: Path, book: "Book") -> None:
    """Write the pins of boards that have none yet.

    Raises:
        JobError: they cannot be written.
    """
    from ..documents.naming import plural
    from ..documents.pins import pins_of
    from ..piece.made import made_path, with_pins
    from .recording import change_made

    def pinned(text: str, made: "Made") -> tuple[str, int]:
        new = {name: pin for name, pin in pins_of(book).items() if name not in made.pins}
        return (with_pins(text, new) if new else text), len(new)

    count = change_made(job_path, pinned)
    if count:
        say(f"Pinned {plural(count, 'board')} in {made_path(job_path)}")


def make(job: Path, shop: Path | None, folder: Path, *, pinned: bool = False) -> int:
    """Make the papers of a job, telling how far they are; say what they are and what was found; the exit code.

    Raises:
        JobError: a file cannot be used, or the folder cannot be written.
    """
    with Progress() as progress:
        progress.begun(job)
        from ..documents.folder import rights_like
        from ..documents.writing import write_book

        book = book_of(job, shop, progress.step)
        if pinned:
            progress.wipe()
            pin(job, book)
        written = write_book(book, folder, watch=progress, rights=rights_like(job))
    tell(book)
    say(f"\nThe papers are in {folder}:")
    for path in written:
        say(f"  {path.name}")
    for name, why in book.left_out.items():
        say(f"  left out: {name} ({why})")
    return MUST_CHANGE if book.stops else SOUND


def tell_standing(folder: Path) -> None:
    """Say where papers that were saved from the page are of two states."""
    from ..documents.folder import standing

    with suppress(OSError):
        left = standing(folder)
        if left is not None:
            new, old = (", ".join(names) or "none" for names in (left.new, left.old))
            say(f"A run that put papers into {folder} was stopped: new are {new}; old are {old}. Make them again.")
