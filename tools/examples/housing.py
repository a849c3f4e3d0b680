"""What the manual draws a housing from."""

from tools.examples._parts import SHELF, Example, board

EXAMPLES = (
    Example(
        title="Through",
        shown=SHELF + board("divider", "[[500, 500], [500, 900]]", timber="oak18", depth=260),
    ),
    Example(
        title="Stopped at the front",
        shown=SHELF
        + board("divider", "[[500, 500], [500, 900]]", timber="oak18", depth=290)
        + '[[joint]]\nbetween = ["divider", "shelf"]\nkind = "housing"\nstop = "front"\n',
    ),
    Example(
        title="Raked, a tongue behind shoulders",
        shown=SHELF
        + board("divider", '[[500, 500], ["500 + 400 * tan(20)", 900]]', depth=260)
        + '[[joint]]\nbetween = ["divider", "shelf"]\nkind = "housing"\nraked = "shouldered"\n',
    ),
)
