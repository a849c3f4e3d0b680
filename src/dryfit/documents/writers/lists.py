"""lists.xlsx: the parts and the order as a workbook with totals (ECMA-376)."""

from collections.abc import Iterator

from ..looks import Desk
from ..naming import printing_in
from ..writer import Writer, register
from ..xlsx import lists_xlsx


@register
class Lists(Writer):
    """The workbook."""

    name = "lists"
    word = "Lists with totals (XLSX)"
    makes = "lists.xlsx"
    order = 27
    extra = True
    media = "application/vnd.openxmlformats-officedocument.spreadsheetml.sheet"

    def files(self, desk: Desk) -> Iterator[tuple[str, bytes]]:
        """One file, its words in mm as its figures are."""
        with printing_in("mm"):
            yield self.makes, lists_xlsx(desk)
