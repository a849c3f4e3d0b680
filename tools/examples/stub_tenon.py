"""What the manual draws a stub tenon from."""

from tools.examples._parts import SHELF, Example, board

ASKED = '[[joint]]\nbetween = ["divider", "shelf"]\nkind = "stub tenon"\n'
EXAMPLES = (
    Example(
        title="Shouldered all round",
        shown=SHELF + board("divider", "[[500, 500], [500, 900]]", depth=260) + ASKED,
    ),
    Example(
        title="Raked, the tenon square to the face",
        shown=SHELF
        + board("divider", '[[500, 500], ["500 + 400 * tan(20)", 900]]', depth=260)
        + ASKED
        + "shoulder = 8\nedge_shoulder = 20\n",
    ),
)
