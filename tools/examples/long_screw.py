"""What the manual draws a long screw from."""

from tools.examples._parts import SHELF, Example

EXAMPLES = (
    Example(
        title="Into studs",
        shown='[wall]\nkind = "plasterboard on timber studs"\nlining = 25\nhollow = 5\n'
        "studs = [200, 800]\nhung = true\n"
        + SHELF
        + '[[fixing]]\nboard = "shelf"\nkind = "long screw"\nat = [200, 800]\nscrew = "wood 5x120"\n',
    ),
    Example(
        title="Into brick, in plugs that a table describes",
        shown='[wall]\nkind = "brick"\nlining = 15\nhollow = 4\nhung = true\n'
        '[anchor.plug]\ntype = "nylon plug"\ndrill = 8\ndeep = 55\nlength = 40\nscrew = "wood 4.5 to 6"\n'
        + SHELF
        + '[[fixing]]\nboard = "shelf"\nkind = "long screw"\nat = [200, 800]\n'
        'screw = "wood 5x120"\nanchor = "plug"\n',
    ),
)
