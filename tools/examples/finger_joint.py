"""What the manual draws a finger joint from."""

from tools.examples._parts import BOX, Example

_BOX = BOX.replace("TIMBER", '"oak18"').replace("depth = 300", "depth = 240")

EXAMPLES = (
    Example(
        title="Nine fingers, the level boards with both edges",
        shown='[joints]\ncorner = "finger joint"\n[joints."finger joint"]\nfingers = 9\n' + _BOX,
    ),
    Example(
        title="Eight: each board has one edge",
        shown='[joints]\ncorner = "finger joint"\n[joints."finger joint"]\nfingers = 8\nclearance = 0.08\n' + _BOX,
    ),
)
