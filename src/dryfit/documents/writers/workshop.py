"""workshop.pdf: the sheets to cut from."""

from ..workshop import BoundPaper
from ..writer import register


@register
class Workshop(BoundPaper):
    """The paper."""

    name = "workshop"
    word = "Workshop book"
    makes = "workshop.pdf"
    binds = "workshop"
    order = 40
