"""What several sub-commands do: read and build a book, pin it, write its papers."""

from collections.abc import Callable, Sequence
from contextlib import suppress
from pathlib import Path
from typing import TYPE_CHECKING

from ..errors import JobError, MadeError, Mistake
from ..keeping import few_searches_for_rings, no_search_for_rings
from .progress import Progress
from .telling import MUST_CHANGE, SOUND, say, tell

if TYPE_CHECKING:
    from ..book import Book
    from ..job.model import Job
    from ..piece.setout import Made
    from ..shop.model import Shop

TRIES = 5  # to write, while others write too


@no_search_for_rings()
def book_of(job_path: Path, shop_path: Path | None, step: "Callable[[float, str], None] | None" = None) -> "Book":
    """The whole book of a job file; `step` is told how far it is, as a share, and what it is at.

    Raises:
        JobError: one of the files cannot be used, or there is no board in the job.
    """
    from ..book import build
    from ..study.base import Work

    job = job_of(job_path)
    return build(job, shop_of(shop_path), made_of(job_path), work=Work(on_step=step) if step else None)


def job_of(path: Path) -> "Job":
    """The job of a file.

    Raises:
        JobError: it cannot be used, or there is no board in it.
    """
    from ..book import read

    job = read(path)
    if not job.boards:
        remedy = "write a [[board]] with a name, a line and a depth, or draw one on the page: `dryfit open FILE`"
        raise JobError((Mistake(file=str(path), line=0, says="there are no boards yet", remedy=remedy),))
    return job


def shop_of(path: Path | None) -> "Shop | None":
    """The shop file that is given, else the maker's own; None where there is neither.

    Raises:
        JobError: it cannot be used.
    """
    found = path or kept_shop()
    if found is None:
        return None
    from ..shop.reading import read_shop

    return read_shop(found)


def kept_shop() -> Path | None:
    """The maker's own shop file, if there is one."""
    from ..shop.own import own_shop

    path = own_shop()
    return path if path.is_file() else None


def made_of(job_path: Path) -> "Made":
    """What is cut, measured and pinned of a job.

    Raises:
        MadeError: the made file cannot be used.
    """
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

    def pinned(text: str, made: "Made") -> tuple[str, int]:
        new = {name: pin for name, pin in pins_of(book).items() if name not in made.pins}
        return (with_pins(text, new) if new else text), len(new)

    count = change_made(job_path, pinned)
    if count:
        say(f"Pinned {plural(count, 'board')} in {made_path(job_path)}")


def change_made(job: Path, change: "Callable[[str, Made], tuple[str, int]]") -> int:
    """Change the made file, begun if it is not there, on top of what stands in it at that moment.

    Args:
        job: the job file.
        change: from the text, and what it says, to the new text and how much is new.

    Raises:
        MadeError: it cannot be read or written; it is as it was.
    """
    from ..editing.refusals import Refused
    from ..piece.made import made_path, read_made_text
    from ..piece.setout import NOTHING_MADE
    from ..web.store.jobfile import JobFile, OutsideChange

    file = JobFile(made_path(job))
    for _ in range(TRIES):
        there, seen = file.path.exists(), file.read()
        if there and seen.text is None:
            raise mistake_in(file.path, seen.says, "put the file right, or move it away", MadeError)
        text = seen.text or ""
        made = read_made_text(text, file.name) if text.strip() else NOTHING_MADE
        new, count = change(text, made)
        if new == text:
            return count
        try:
            file.write(new.encode(), seen.hash)
        except OutsideChange:
            continue
        except Refused as refused:
            raise mistake_in(file.path, refused.fault.says, refused.fault.remedy, MadeError) from None
        return count
    raise mistake_in(file.path, "another program keeps writing it", "close that program, then try again", MadeError)


def mistake_in(path: Path, says: str, remedy: str, kind: type[JobError] = JobError) -> JobError:
    """What is wrong with a file as a whole."""
    return kind((Mistake(file=path.name, line=0, says=says, remedy=remedy),))


def make(job: Path, shop: Path | None, folder: Path, *, pinned: bool = False, extras: Sequence[str] = ()) -> int:
    """Make the papers of a job, telling how far they are; say what they are and what was found; the exit code.

    `extras` are the names of writers that work only where they are asked.

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
        with few_searches_for_rings():
            written = write_book(book, folder, extras, watch=progress, rights=rights_like(job))
    tell(book)
    say(f"\nThe papers are in {folder}:")
    for path in written:
        say(f"  {path.relative_to(folder)}")
    for name, why in {**book.left_out, **progress.lacking}.items():
        say(f"  left out: {name} ({why})")
    return MUST_CHANGE if book.stops else SOUND


def extras() -> str:
    """The papers that are made only where they are asked for, as the help lists them."""
    from ..documents.writers import WRITERS

    lines = [f"  {writer.name:<20}  {writer.word} ({writer.makes})" for writer in WRITERS.values() if writer.extra]
    return "\n".join(["", "extras:", *lines, ""]) if lines else ""


def tell_standing(folder: Path) -> None:
    """Say where papers that were saved from the page are of two states."""
    from ..documents.folder import standing

    with suppress(OSError):
        left = standing(folder)
        if left is not None:
            new, old = (", ".join(names) or "none" for names in (left.new, left.old))
            say(f"A run that was writing to {folder} was stopped: new are {new}; old are {old}. Make them again.")
