"""What is held still once a sheet is printed: where positions are counted from, the face side, the letter."""

from ..book.model import Book
from ..piece.model import Board
from ..piece.setout import Pin


def pins_of(book: Book) -> dict[str, Pin]:
    """The pin of every board, by name, as the book's sheets show it; of a divided board, of its members."""
    return {
        part.id: Pin(datum="end" if part.board.flipped else "start", face_side=_side(part.board), mark=part.mark)
        for part in book.piece.parts
    }


def _side(board: Board) -> str:
    """The face side as seen along the line as drawn: it stays so however the board is dragged."""
    if board.lies == "flat":
        return "wall" if board.face_side > 0 else "front"
    return "left" if (board.face_side > 0) != board.flipped else "right"
