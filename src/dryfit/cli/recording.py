"""`dryfit cut`: what is cut is written down beside the job, on top of what anybody else has written meanwhile."""

from pathlib import Path
from typing import TYPE_CHECKING

from .telling import say
from .working import book_of, change_made, mistake_in

if TYPE_CHECKING:
    from collections.abc import Sequence

    from ..book import Book
    from ..documents.looks import Look
    from ..piece.model import Cut
    from ..piece.setout import Made


def write_down(job: Path, shop: Path | None, board: str, wanted: "Sequence[str]", *, back: bool) -> None:
    """Record cuts of a board, or take their records out.

    Raises:
        JobError: there is no such board or cut, or the file cannot be read or written.
    """
    from ..piece.made import without_cuts
    from ..piece.recording import record_of, recorded_of, recorded_text

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
        say(f"{board}: {plural(count, 'cut')} taken out" if count else f"{board}: nothing was recorded")
        return
    if not count:
        say(f"{board}: that is recorded already; change its figures in the made file, or use --take-back")
        return
    say(f"{board}: {plural(count, 'cut')} recorded")
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
    raise mistake_in(job, f"there is no board called {board}", remedy)


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
    from ..piece.as_cut import fitting, means
    from ..piece.setout import AsCut

    part = look.part
    if word in ("start", "end"):
        found = fitting(part.board, part.cuts, AsCut(board=part.id, end=word))
    else:
        exact = [cut for cut in part.cuts if cut.key == word or str(look.numbers.get(cut.key, "")) == word]
        found = exact or [cut for cut in part.cuts if _is_for(cut, word) or means(word, cut)]
    if len(found) == 1:
        return found[0]
    keys = "; ".join(cut.key for cut in found or part.cuts)
    says = f'"{word}" could be any of several cuts in {part.id}' if found else f'{part.id} has no cut "{word}"'
    raise mistake_in(job, says, f"write one of: {keys}")


def _is_for(cut: "Cut", name: str) -> bool:
    return not cut.end and cut.joint is not None and name in cut.joint and name != cut.body
