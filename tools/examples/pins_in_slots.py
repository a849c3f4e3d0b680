"""What the manual draws pins in slots from."""

from tools.examples._parts import Example, board

_UPRIGHT = board("upright", "[[0, 0], [0, 900]]")
_ASKED = '[[joint]]\nbetween = ["shelf", "upright"]\nkind = "pins in slots"\n'

EXAMPLES = (
    Example(
        title="Slid on from the room",
        shown=_UPRIGHT + board("shelf", "[[0, 500], [700, 500]]") + _ASKED,
    ),
    Example(
        title="Lowered onto three pins",
        shown=_UPRIGHT
        + board("shelf", "[[0, 500], [700, 500]]", timber="oak18")
        + _ASKED
        + 'form = "drop-on"\npins = 3\ninset = 50\npin = 8\n',
    ),
    Example(
        title="Slid on and locked by a pin from below",
        shown=_UPRIGHT + board("shelf", "[[0, 500], [700, 500]]") + _ASKED + 'lock = "pin"\n',
    ),
)
