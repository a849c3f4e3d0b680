"""workshop.pdf: the sheets to cut from."""

from ..workshop import Bound
from ..writer import register


@register
class Workshop(Bound):
    """The paper."""

    name = "workshop"
    word = "Workshop book"
    makes = "workshop.pdf"
    binds = "workshop"
    order = 40
