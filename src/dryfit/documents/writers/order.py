"""order.pdf: what is bought for the piece, to be sent, and what is to be made and had at hand."""

from ..workshop import BoundPaper
from ..writer import register


@register
class OrderPaper(BoundPaper):
    """The paper."""

    name = "order"
    word = "Order to send"
    makes = "order.pdf"
    binds = "order"
    order = 55
