"""`dryfit cut`: what is cut is written down beside the job, on top of what anybody else has written meanwhile."""

from pathlib import Path
from typing import TYPE_CHECKING

from ..errors import JobError, MadeError, Mistake
from .telling import say

if TYPE_CHECKING:
    from collections.abc import Callable, Sequence

    from ..book import Book
    from ..documents.looks import Look
    from ..piece.model import Cut
    from ..piece.setout import Made

TRIES = 5  # while others write too


def write_down(job: Path, shop: Path | None, board: str, wanted: "Sequence[str]", *, back: bool) -> None:
    """Record cuts of a board, or take their records out.

    Raises:
        JobError: there is no such board or cut, or the file cannot be read or written.
    """
    from ..piece.made import without_cuts
    from ..piece.recording import record_of, recorded_of, recorded_text
    from .working import book_of

    book = book_of(job, shop)
    look = _look(book, job, board)
    cuts = _chosen(look, job, wanted)

    def changed(text: str, made: "Made") -> tuple[str, int]:
        there = {cut.key: recorded_of(made, look.part, cut) for cut in cuts}
        if back:
            named = [one for one in there.values() if one is not None]
            gone = named if wanted else [one for one in made.cuts if one.board == board]
            return without_cuts(text, gone), len(gone)
        new = [record_of(book.piece, look.part, cut) for cut in cuts if there[cut.key] is None]
        return recorded_text(text, book.piece, made, new), len(new)

    count = change_made(job, changed)
    _tell(board, cuts, count, back=back)


def _tell(board: str, cuts: "Sequence[Cut]", count: int, *, back: bool) -> None:
    from ..documents.naming import plural

    if back:
        say(f"{board}: {plural(count, 'cut')} taken out again" if count else f"{board}: nothing was written down")
        return
    if not count:
        say(f"{board}: that is written down already; change its figures in the made file, or use --take-back")
        return
    say(f"{board}: {plural(count, 'cut')} written down")
    for cut in cuts:
        say(f"  {cut.key}")


def _look(book: "Book", job: Path, board: str) -> "Look":
    from ..documents.looks import Look
    from ..job.names import nearest

    part = book.piece.part_by_name.get(board)
    if part is not None:
        return Look(part)
    members = [member for member, whole in book.piece.whole.items() if whole == board]
    close = nearest(board, book.piece.part_by_name)
    remedy = (
        f"it is divided: write {' or '.join(members)}"
        if members
        else (f"did you mean {close}?" if close else f"there are: {', '.join(book.piece.part_by_name)}")
    )
    raise _mistake(job, f"there is no board called {board}", remedy)


def _chosen(look: "Look", job: Path, wanted: "Sequence[str]") -> "list[Cut]":
    """The cuts meant by the words given, in the part's order.

    Raises:
        JobError: a word means none of them, or several.
    """
    if not wanted:
        return list(look.part.cuts)
    found = {cut.key for word in wanted for cut in [_meant(look, job, word)]}
    return [cut for cut in look.part.cuts if cut.key in found]


def _meant(look: "Look", job: Path, word: str) -> "Cut":
    from ..piece.as_cut import fitting
    from ..piece.setout import AsCut

    part = look.part
    if word in ("start", "end"):
        found = fitting(part.board, part.cuts, AsCut(board=part.id, end=word))
    else:
        exact = [cut for cut in part.cuts if cut.key == word or str(look.numbers.get(cut.key, "")) == word]
        found = exact or [cut for cut in part.cuts if _is_for(cut, word) or f"{cut.key} ".startswith(f"{word} ")]
    if len(found) == 1:
        return found[0]
    keys = "; ".join(cut.key for cut in found or part.cuts)
    says = f'"{word}" may mean several cuts of {part.id}' if found else f'{part.id} has no cut "{word}"'
    raise _mistake(job, says, f"write one of: {keys}")


def _is_for(cut: "Cut", name: str) -> bool:
    return not cut.end and cut.joint is not None and name in cut.joint and name != cut.body


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
            raise _mistake(file.path, seen.says, "mend the file, or move it away", MadeError)
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
            raise _mistake(file.path, refused.fault.says, refused.fault.remedy, MadeError) from None
        return count
    raise _mistake(file.path, "another program keeps writing it", "end that program, then try again", MadeError)


def _mistake(path: Path, says: str, remedy: str, kind: type[JobError] = JobError) -> JobError:
    return kind((Mistake(file=path.name, line=0, says=says, remedy=remedy),))
