"""book.json: all that is known of the job, for other programs."""

from collections.abc import Iterator

from ..bookjson import book_json
from ..looks import Desk
from ..writer import Writer, register


@register
class Data(Writer):
    """The job as data; it also says what of the book could not be made."""

    name = "book"
    word = "The job as data"
    makes = "book.json"
    order = 10
    media = "application/json"
    tells = True

    def files(self, desk: Desk) -> Iterator[tuple[str, bytes]]:
        """One file."""
        yield self.makes, book_json(desk.book, desk).encode()
