"""dxf/: a drawing a part, and one of the whole piece, for programs that draw and machines that cut (DXF, AC1024)."""

from collections.abc import Iterator

from ..dxf.part import part_dxf
from ..dxf.whole import whole_dxf
from ..looks import Desk
from ..naming import printing_in
from ..writer import Writer, register


@register
class Dxf(Writer):
    """A file a part by its letter, and the elevation."""

    name = "dxf"
    word = "Drawings for machines (DXF)"
    makes = "dxf/"
    order = 60
    extra = True
    media = "image/vnd.dxf"

    def files(self, desk: Desk) -> Iterator[tuple[str, bytes]]:
        """The elevation, then each part; always in mm."""
        with printing_in("mm"):
            yield f"{self.makes}elevation.dxf", whole_dxf(desk)
            for part in desk.book.piece.parts:
                yield f"{self.makes}{part.mark}.dxf", part_dxf(desk, part)
