"""parts.csv: a row a part, for a spreadsheet."""

from collections.abc import Iterator

from ..looks import Desk
from ..tables import parts_csv
from ..writer import Writer, register


@register
class Parts(Writer):
    """The list of parts."""

    name = "parts"
    word = "List of parts"
    makes = "parts.csv"
    order = 20
    media = "text/csv; charset=utf-8"

    def files(self, desk: Desk) -> Iterator[tuple[str, bytes]]:
        """One file."""
        yield self.makes, parts_csv(desk.book, desk).encode()
