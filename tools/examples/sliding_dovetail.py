"""What the manual draws a sliding dovetail from."""

from tools.examples._parts import SHELF, Example, board

_ASKED = '[[joint]]\nbetween = ["divider", "shelf"]\nkind = "sliding dovetail"\n'

EXAMPLES = (
    Example(
        title="Through",
        shown=SHELF + board("divider", "[[500, 500], [500, 900]]") + _ASKED,
    ),
    Example(
        title="Stopped at the front, a cutter of 7 degrees, dry",
        shown=SHELF
        + board("divider", "[[500, 500], [500, 900]]")
        + _ASKED
        + 'stop = "front"\nslope = 7\nglued = false\n',
    ),
    Example(
        title="Raked",
        shown=SHELF
        + board("divider", '[[500, 500], ["500 + 400 * tan(10)", 900]]')
        + _ASKED
        + "cutter = 12\nslope = 7\n",
    ),
    Example(
        title="Of part length: the tail at the front, housed behind it and stopped",
        shown=SHELF
        + board("divider", "[[500, 500], [500, 900]]")
        + _ASKED
        + 'form = "part length"\ntail = 80\nstop = "front"\n',
    ),
    Example(
        title="Tapered, going in from the front",
        shown=SHELF + board("divider", "[[500, 500], [500, 900]]") + _ASKED + 'form = "tapered"\nenters = "front"\n',
    ),
    Example(
        title="Single-sided",
        shown=SHELF + board("divider", "[[500, 500], [500, 900]]") + _ASKED + 'form = "single-sided"\n',
    ),
)
