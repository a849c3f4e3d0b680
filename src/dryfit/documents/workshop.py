"""The papers: workshop.pdf with the overall sheet, the lists and a sheet a part; assembly.pdf with a picture a step.

A sheet that cannot be drawn, by a fault of ours, is replaced by a page that says so: the maker has all others.
"""

import logging
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial
from itertools import islice
from typing import ClassVar, TypeAlias, TypeVar

from ..asking import raised_if_wanted
from ..book.model import Book
from ..errors import fault_in_words
from .bookjson import book_stamp
from .display import Display, Draft, Place, Text
from .lettering import TEXT, printable, wrapped
from .looks import Desk, Drawer
from .naming import printing_in
from .pages import leads, numbered
from .pdf import pdf
from .sheets import DeferredSheets, Sheet, kinds_of
from .sheets.page.frame import finished, heading, space
from .standard import A4, STEP
from .writer import Writer

One = TypeVar("One", bound=Draft | DeferredSheets)
Told: TypeAlias = Callable[[str], None]

LOG = logging.getLogger("dryfit")
PAPER = "workshop"
ASSEMBLY = "assembly"


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
    with printing_in(book.job.units):
        made = _drafts(paper, desk, drawn)
        number = partial(_number, desk, paper)
        drafts = [replace(draft, items=numbered(draft.items, number)) for draft in made]
        done = [finished(draft, page, len(made), desk) for page, draft in enumerate(drafts, start=1)]
    return list(zip(made, done, strict=True))


def _drafts(paper: str, desk: Desk, drawn: Told = lambda title: None) -> list[Draft]:
    """The drafts of all sheets of a paper, drawn once a desk; in them a page that is told has no number yet."""
    kept: dict[str, list[Draft]] = desk.kept.setdefault("drafts", {})
    if paper not in kept:
        made: list[Draft] = []
        for draft in _drawn(paper, desk):
            made.append(draft)
            drawn(draft.title)
        kept[paper] = made
    return kept[paper]


def _number(desk: Desk, at_hand: str, paper: str, place: Place) -> int | None:
    """On which page of a paper, "" for the one at hand, a place is; the sheets of another are drawn for it."""
    paper = paper or at_hand
    kept: dict[str, dict[Place, int]] = desk.kept.setdefault("pages", {})
    if paper not in kept:
        found: dict[Place, int] = {}
        for page, draft in enumerate(_drafts(paper, desk), start=1):
            for held in draft.holds:
                found.setdefault(held.place, page)
        kept[paper] = found
    return kept[paper].get(place)


def _drawn(paper: str, desk: Desk) -> Iterator[Draft]:
    """The drafts of all kinds of sheet, as they are drawn."""
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


def _sheets_aside(kind: Sheet, desk: Desk, aside: Drawer) -> Iterator[Draft]:
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
    items, y = heading("", f"not drawn: {title}", ("This page stands in for a sheet.",), room.right)
    said = [
        f"A fault in Dryfit stopped the drawing of {title}. The other sheets are as they should be.",
        (
            "Do not guess what this one would have shown: mark it out from the piece itself, or wait until "
            "this is put right."
        ),
        f"Please report it, with the job file {desk.book.job.file}: {words}.",
    ]
    y += STEP
    for paragraph in said:
        for line in wrapped(printable(paragraph), room.wide, TEXT):
            items.append(Text(at=(room.left, y), text=line))
            y += STEP
        y += STEP / 2
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
    drafts = [draft for draft, _ in sheets]
    says = [printable(f"{draft.kind}: {draft.title}") for draft in drafts]
    title = printable(f"{desk.book.job.title}: {paper}")
    to = leads(drafts, partial(_number, desk, paper))
    return pdf([display for _, display in sheets], title=title, says=says, stamp=book_stamp(desk), leads=to)


class BoundPaper(Writer):
    """A writer that binds the sheets of one paper, which `binds` names, as a PDF."""

    media: ClassVar[str] = "application/pdf"

    def files(self, desk: Desk) -> Iterator[tuple[str, bytes]]:
        """One file; its sheets are left on the desk for who shows them."""
        sheets = paper_sheets(self.binds, desk.book, desk.watch.sheet, desk)
        desk.bound[self.makes] = sheets
        desk.watch.binding(len(sheets))
        yield self.makes, bound(self.binds, desk, sheets)
