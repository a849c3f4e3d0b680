"""order.csv: the rows of the order, for a spreadsheet."""

from collections.abc import Iterator

from ..looks import Desk
from ..naming import printing_in
from ..order_table import order_csv
from ..writer import Writer, register


@register
class OrderRows(Writer):
    """The order as a table."""

    name = "order-rows"
    word = "Order as a table"
    makes = "order.csv"
    order = 26
    media = "text/csv; charset=utf-8"

    def files(self, desk: Desk) -> Iterator[tuple[str, bytes]]:
        """One file, its words in mm as its figures are."""
        with printing_in("mm"):
            yield self.makes, order_csv(desk).encode()
