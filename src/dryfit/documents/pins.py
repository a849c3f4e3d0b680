"""What is held still once a sheet is printed: where positions are counted from, the face side, the letter."""

from ..book.model import Book
from ..piece.setout import Pin
from .naming import names


def pins_of(book: Book) -> dict[str, Pin]:
    """The pin of every board, by name, as the book's sheets show it."""
    pins = {}
    for part in book.piece.parts:
        words = names(part.board)
        pins[part.id] = Pin(
            datum="end" if part.board.flipped else "start",
            face_side=words.short(words.face_side),
            mark=part.mark,
        )
    return pins
