"""What the manual draws a cross halving from."""

from tools.examples._parts import SHELF, Example, board

_SHARED = '[[joint]]\nbetween = ["shelf", "upright"]\nkind = "cross halving"\nfront = "shelf"\nratio = 0.4\n'

EXAMPLES = (
    Example(title="Square", shown=SHELF + board("upright", "[[500, 0], [500, 1000]]", timber="oak18")),
    Example(
        title="Raked, one board standing proud",
        shown=SHELF + board("raking", '[[420, 0], ["420 + 1000 * tan(9)", 1000]]', depth=330),
    ),
    Example(
        title="Unequal shares: the shelf keeps three fifths",
        shown=SHELF + board("upright", "[[500, 0], [500, 1000]]") + _SHARED,
    ),
)
