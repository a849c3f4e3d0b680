"""finish.pdf: what is coated when, on which day, what it takes and what is masked."""

from ..workshop import BoundPaper
from ..writer import register


@register
class FinishPaper(BoundPaper):
    """The paper."""

    name = "finish"
    word = "Finish plan"
    makes = "finish.pdf"
    binds = "finish"
    order = 53
    extra = True
