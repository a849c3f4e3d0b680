"""What the manual draws a splice from."""

from tools.examples._parts import Example, board

_STOCK = '[timber.long]\nspecies = "oak, white"\nform = "edge-glued panel"\nthickness = 24\nlongest = 2000\n'
_UPRIGHTS = board("upright {i}", '[["200 + 800 * (i - 1)", 0], ["200 + 800 * (i - 1)", 700]]', "count = 3")

EXAMPLES = (
    Example(
        title="A shelf longer than its stock, half-lapped near a support",
        shown=_STOCK + board("shelf", "[[0, 500], [2300, 500]]", timber="long") + _UPRIGHTS,
    ),
    Example(
        title="The same where the maker wants it, as a scarf of 1 in 8",
        shown='[joints]\nin_line = "splice"\n[joints.splice]\nform = "bevelled"\n'
        + _STOCK
        + board("shelf", "[[0, 500], [2300, 500]]", "splice_at = [1600]", timber="long")
        + _UPRIGHTS,
    ),
    Example(
        title="Square ends with keys in the lower face",
        shown='[joints]\nin_line = "splice"\n[joints.splice]\nform = "keys"\nplunge = 16\n'
        + board("left", "[[0, 500], [700, 500]]")
        + board("right", "[[700, 500], [1300, 500]]"),
    ),
    Example(
        title="With a loose tongue",
        shown='[joints]\nin_line = "splice"\n[joints.splice]\nform = "tongue"\n'
        + board("left", "[[0, 500], [700, 500]]", timber="oak18")
        + board("right", "[[700, 500], [1300, 500]]", timber="oak18"),
    ),
)
