"""svg/: every sheet of every paper as a picture of its own, to be shown, sent, or drawn on (SVG 1.1)."""

from collections.abc import Iterator

from ..bookjson import book_stamp
from ..looks import Desk
from ..svg import svg
from ..workshop import paper_sheets
from ..writer import WRITERS, Writer, register


@register
class Svg(Writer):
    """A folder of pictures: `svg/workshop-01.svg`, by paper and page."""

    name = "svg"
    word = "Every sheet as a picture (SVG)"
    makes = "svg/"
    order = 65
    extra = True
    media = "image/svg+xml"

    def files(self, desk: Desk) -> Iterator[tuple[str, bytes]]:
        """The sheets of each paper that is made of sheets, in order."""
        for writer in WRITERS.values():
            if writer.binds:
                sheets = paper_sheets(writer.binds, desk.book, desk.watch.sheet, desk)
                for number, (_, display) in enumerate(sheets, start=1):
                    name = f"{self.makes}{writer.binds}-{number:02}.svg"
                    yield name, svg(display, alone=True, note=book_stamp(desk)).encode()
