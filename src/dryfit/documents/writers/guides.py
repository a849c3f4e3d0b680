"""guides.pdf: the rails and beds for the router, how they are set for each cut, and what a trial cut asks for."""

from ..workshop import BoundPaper
from ..writer import register


@register
class GuidesPaper(BoundPaper):
    """The paper."""

    name = "guides"
    word = "Guides for the router"
    makes = "guides.pdf"
    binds = "guides"
    order = 52
    extra = True
