"""assembly.pdf: how the piece is put together, a picture a step, and a card for each go of the glue-up."""

from ..workshop import BoundPaper
from ..writer import register


@register
class AssemblyPaper(BoundPaper):
    """The paper."""

    name = "assembly"
    word = "Assembly booklet"
    makes = "assembly.pdf"
    binds = "assembly"
    order = 50
