"""What the manual draws a butt from."""

from tools.examples._parts import BOX, SHELF, Example, board

EXAMPLES = (
    Example(
        title="Dowels in a face",
        shown='[joints]\nend_on_face = "butt"\n' + SHELF + board("divider", "[[500, 500], [500, 900]]", depth=260),
    ),
    Example(
        title="A corner with plugged screws",
        shown='[joints]\ncorner = "butt"\n[joints.butt]\nfasten = "screws"\n' + BOX.replace("TIMBER", '"oak24"'),
    ),
)
