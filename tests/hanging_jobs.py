"""The record wall to be hung in three ways: the same job, with other units and places."""

from dryfit.book.demos import demo_text

GLUED_BOX = (
    '[[unit]]                  # glued up in the shop, carried in as one\nname   = "glued box"\nboards = ["box"]\n'
)
SHELVES = ["shelf 1", "shelf 2", "shelf 3", "top shelf"]
BETWEEN = ["divider 1", "divider 2", "stopped divider", "slanting divider"]
UPRIGHTS = ["left upright", "right upright"]
LOOSE = ["middle upright", "raking 1", "raking 2", "box"]
WAYS = ("in one", "base first", "single boards")


def unit(name, boards, more=""):
    listed = ", ".join(f'"{board}"' for board in boards)
    return f'[[unit]]\nname = "{name}"\nboards = [{listed}]\n{more}'


def hung(way):
    """The job file of one of the ways."""
    text = demo_text("record-wall")
    assert GLUED_BOX in text
    match way:
        case "in one":
            return text.replace(GLUED_BOX, unit("whole", [*SHELVES, *UPRIGHTS, *BETWEEN, *LOOSE]))
        case "base first":
            return text + unit("base", [*SHELVES, *UPRIGHTS, *BETWEEN], 'place = "first"\n')
    return text
