"""What the manual draws a notch from."""

from tools.examples._parts import Example, board

EXAMPLES = (
    Example(
        title="Over a rail that lies flat on the wall",
        shown='[[board]]\nname = "rail"\ntimber = "oak18"\nlies = "flat"\n'
        "line = [[0, 500], [1000, 500]]\nwidth = 90\n" + board("upright", "[[500, 0], [500, 1000]]"),
    ),
)
