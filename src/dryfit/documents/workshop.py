"""The papers: workshop.pdf with the overall sheet, the lists and a sheet a part; assembly.pdf with a picture a step.

A sheet that cannot be drawn, by a fault of ours, is replaced by a page that says so: the maker has all others.
"""

import logging
from collections.abc import Callable, Iterable, Iterator, Sequence
from functools import partial
from itertools import islice
from typing import TYPE_CHECKING, TypeAlias, TypeVar

from ..asking import raised_if_wanted
from ..book.model import Book
from ..errors import fault_in_words
from .bookjson import book_stamp
from .display import Display, Text
from .lettering import TEXT, printable, wrapped
from .looks import Desk
from .naming import printing_in
from .pdf import pdf
from .sheets import Apart, Draft, Sheet, kinds_of
from .sheets.page.frame import finished, heading, space
from .sheets.registry import A4

if TYPE_CHECKING:
    from .aside import Aside

One = TypeVar("One", bound=Draft | Apart)
Told: TypeAlias = Callable[[str], None]

LOG = logging.getLogger("dryfit")
PAPER = "workshop"
ASSEMBLY = "assembly"
LINE = 5.0  # from line to line on a page that stands in for a sheet


def workshop_sheets(book: Book) -> list[tuple[Draft, Display]]:
    """Every sheet of the workshop's paper, as draft and as finished drawing, in order."""
    return paper_sheets(PAPER, book)


def paper_sheets(
    paper: str, book: Book, drawn: Told = lambda title: None, desk: Desk | None = None
) -> list[tuple[Draft, Display]]:
    """Every sheet of one paper, in order; `drawn` is told the title of each as it is there.

    The desk is the book's, where there is one already: the papers share what was worked out on it.
    """
    desk = desk or Desk(book)
    made = []
    with printing_in(book.job.units):
        for draft in _drafts(paper, desk):
            made.append(draft)
            drawn(draft.title)
        return [(draft, finished(draft, page, len(made), desk)) for page, draft in enumerate(made, start=1)]


def _drafts(paper: str, desk: Desk) -> Iterator[Draft]:
    """The drafts of all kinds of sheet."""
    for kind in kinds_of(paper):
        if desk.aside is None or kind.name not in desk.aside.kinds:
            yield from sheets_here(kind, desk)
        else:
            yield from _sheets_aside(kind, desk, desk.aside)


def sheets_here(kind: Sheet, desk: Desk) -> Iterator[Draft]:
    """The drafts of a kind of sheet; for what cannot be drawn, a page in its place."""
    for some in _or_instead(partial(kind.make, desk), f"the sheets called {kind.name}", desk):
        if isinstance(some, Draft):
            yield some
        else:
            yield from _or_instead(some.draw, some.title, desk)


def _sheets_aside(kind: Sheet, desk: Desk, aside: "Aside") -> Iterator[Draft]:
    """The same drawn by the second process; what it leaves undone is drawn here."""
    came = 0
    try:
        for draft in aside.drafts(kind.name, desk.missing):
            came += 1
            yield draft
    except ChildProcessError as fault:
        LOG.debug("%s; the rest is drawn here", fault)
        yield from islice(sheets_here(kind, desk), came, None)


def _or_instead(draw: Callable[[], Iterable[One]], title: str, desk: Desk) -> Iterator[One | Draft]:
    """What is drawn, as far as it goes; where it fails, a page that says so."""
    try:
        yield from draw()
    except Exception as fault:  # whatever it is, a maker must have the other sheets
        raised_if_wanted(fault)
        words = fault_in_words(fault)
        desk.missing[title] = f"it could not be drawn: {words}"
        LOG.warning("not drawn: %s (%s)", title, words)
        LOG.debug("where it failed", exc_info=fault)
        yield _instead(title, words, desk)


def _instead(title: str, words: str, desk: Desk) -> Draft:
    """The page that stands in for a sheet."""
    room = space(A4, desk)
    items, y = heading("", f"not drawn: {title}", "This page stands in for a sheet.", room.right)
    said = [
        f"Dryfit came upon a fault of its own while it drew {title}. The other sheets are as they should be.",
        "Do not guess what this one would have shown: mark it out from the piece itself, or wait until it is mended.",
        f"Please report it together with the job file {desk.book.job.file}: {words}.",
    ]
    y += LINE
    for paragraph in said:
        for line in wrapped(printable(paragraph), room.wide, TEXT):
            items.append(Text(at=(room.left, y), text=line))
            y += LINE
        y += LINE / 2
    return Draft(title=f"not drawn: {title}", kind="fault", number="–", scale="–", size=A4, items=tuple(items))


def workshop_pdf(book: Book) -> bytes:
    """The workshop's paper as a PDF; the same bytes for the same book, always."""
    return paper_pdf(PAPER, Desk(book))


def assembly_pdf(book: Book) -> bytes:
    """The assembly booklet and the glue-up cards as a PDF; one page that says why, where there is no order."""
    return paper_pdf(ASSEMBLY, Desk(book))


def paper_pdf(paper: str, desk: Desk, told: Told = lambda title: None) -> bytes:
    """One paper as a PDF; `told` as for its sheets."""
    return bound(paper, desk, paper_sheets(paper, desk.book, told, desk))


def bound(paper: str, desk: Desk, sheets: Sequence[tuple[Draft, Display]]) -> bytes:
    """Finished sheets as one PDF."""
    says = [printable(f"{draft.kind}: {draft.title}") for draft, _ in sheets]
    title = printable(f"{desk.book.job.title}: {paper}")
    return pdf([display for _, display in sheets], title=title, says=says, stamp=book_stamp(desk))
