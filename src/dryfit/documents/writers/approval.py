"""approval.pdf: the drawing that client and maker sign, made where it is asked for."""

from ..workshop import BoundPaper
from ..writer import register


@register
class Approval(BoundPaper):
    """The paper."""

    name = "approval"
    word = "Approval sheet, for the client to sign"
    makes = "approval.pdf"
    binds = "approval"
    order = 58
    extra = True
