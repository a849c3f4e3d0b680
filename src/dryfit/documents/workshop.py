"""workshop.pdf: the overall sheet, the lists, and a sheet for every part."""

from ..book.model import Book
from .display import Display
from .lettering import printable
from .looks import Desk
from .pdf import pdf
from .sheets import Draft, drafts
from .sheets.frame import finished

PAPER = "workshop"


def workshop_sheets(book: Book) -> list[tuple[Draft, Display]]:
    """Every sheet of the workshop's paper, as draft and as finished drawing, in order."""
    desk = Desk(book)
    made = drafts(PAPER, desk)
    return [(draft, finished(draft, page, len(made), desk)) for page, draft in enumerate(made, start=1)]


def workshop_pdf(book: Book) -> bytes:
    """The workshop's paper as a PDF; the same bytes for the same book, always."""
    sheets = workshop_sheets(book)
    says = [printable(f"{draft.kind}: {draft.title}") for draft, _ in sheets]
    return pdf([display for _, display in sheets], title=printable(f"{book.job.title}: workshop"), says=says)
