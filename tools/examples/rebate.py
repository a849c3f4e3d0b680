"""What the manual draws a rebate from."""

from tools.examples._parts import BOX, Example, board

EXAMPLES = (
    Example(
        title="A case, its level boards rebated over the uprights",
        shown='[joints]\ncorner = "rebate"\n' + BOX.replace("TIMBER", '["oak24", "oak18", "oak24", "oak18"]'),
    ),
    Example(
        title="Through the upright, at a corner that is not square",
        shown='[joints]\ncorner = "rebate"\n[joints.rebate]\nthrough = "post"\ndepth = 14\n'
        + board("post", "[[0, 0], [0, 600]]")
        + board("arm", '[[0, 600], [500, "600 + 500 * tan(15)"]]', timber="oak18"),
    ),
)
