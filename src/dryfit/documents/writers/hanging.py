"""hanging.pdf: what goes along, the map of the wall, each step on site with its screws and checks, and care."""

from ..workshop import BoundPaper
from ..writer import register


@register
class HangingBook(BoundPaper):
    """The paper."""

    name = "hanging"
    word = "Hanging book"
    makes = "hanging.pdf"
    binds = "hanging"
    order = 55
    extra = True
