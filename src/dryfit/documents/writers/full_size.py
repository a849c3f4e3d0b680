"""full-size.pdf: strips, templates and angles to lay on the wood, made where it is asked for."""

from collections.abc import Iterator

from ..looks import Desk
from ..pdf import unscaled
from ..workshop import BoundPaper
from ..writer import register


@register
class FullSize(BoundPaper):
    """The paper."""

    name = "full-size"
    word = "Full size: strips and templates"
    makes = "full-size.pdf"
    binds = "full-size"
    order = 55
    extra = True

    def files(self, desk: Desk) -> Iterator[tuple[str, bytes]]:
        """One file, which asks to be printed as large as it is."""
        for name, data in super().files(desk):
            yield name, unscaled(data)
