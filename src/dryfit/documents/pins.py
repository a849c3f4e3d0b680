"""What is held still once a sheet is printed: where positions are counted from, the face side, the letter."""

from ..book.model import Book
from ..piece.recording import pin_of
from ..piece.setout import Pin


def pins_of(book: Book) -> dict[str, Pin]:
    """The pin of every board, by name, as the book's sheets show it; of a divided board, of its members."""
    return {part.id: pin_of(part) for part in book.piece.parts}
