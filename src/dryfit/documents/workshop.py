"""The papers: workshop.pdf with the overall sheet, the lists and a sheet a part; assembly.pdf with a picture a step."""

from collections.abc import Callable, Sequence

from ..book.model import Book
from .display import Display
from .lettering import printable
from .looks import Desk
from .naming import printing_in
from .pdf import pdf
from .sheets import Draft, drafts
from .sheets.frame import finished

PAPER = "workshop"
ASSEMBLY = "assembly"


def workshop_sheets(book: Book) -> list[tuple[Draft, Display]]:
    """Every sheet of the workshop's paper, as draft and as finished drawing, in order."""
    return paper_sheets(PAPER, book)


def paper_sheets(
    paper: str, book: Book, drawn: Callable[[str], None] = lambda title: None
) -> list[tuple[Draft, Display]]:
    """Every sheet of one paper, in order; `drawn` is told the title of each as it is there."""
    desk = Desk(book)
    made = []
    with printing_in(book.job.units):
        for draft in drafts(paper, desk):
            made.append(draft)
            drawn(draft.title)
        return [(draft, finished(draft, page, len(made), desk)) for page, draft in enumerate(made, start=1)]


def workshop_pdf(book: Book) -> bytes:
    """The workshop's paper as a PDF; the same bytes for the same book, always."""
    return bound(PAPER, book, workshop_sheets(book))


def assembly_pdf(book: Book) -> bytes:
    """The assembly booklet and the glue-up cards as a PDF; one page that says why, where there is no order."""
    return bound(ASSEMBLY, book, paper_sheets(ASSEMBLY, book))


def bound(paper: str, book: Book, sheets: Sequence[tuple[Draft, Display]]) -> bytes:
    """Finished sheets as one PDF."""
    says = [printable(f"{draft.kind}: {draft.title}") for draft, _ in sheets]
    return pdf([display for _, display in sheets], title=printable(f"{book.job.title}: {paper}"), says=says)
