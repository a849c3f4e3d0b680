"""order.pdf: what is bought for the piece, to be sent, and what is to be made and had at hand."""

from ..workshop import Bound
from ..writer import register


@register
class OrderPaper(Bound):
    """The paper."""

    name = "order"
    word = "Order to send"
    makes = "order.pdf"
    binds = "order"
    order = 55
