"""The text that a new job begins with: an empty wall to draw on, and in notes what could be written."""

from . import style

_TEXT = """\
# A job for Dryfit. Text after a # is a note.
# Lengths are in mm: a number, or text such as "2.6 m", "23 5/8 in" or "width / 2".

dryfit = 1

[job]
title = {title}
client = ""
# date = 2026-05-04                 # printed on the sheets
units = "mm"                        # or "in"

[measures]                          # name a dimension once, and use it by its name
depth = 300                         # of every board, out of the wall

[timber.oak]
species = "oak, European"
form = "edge-glued panel"
thickness = 22                      # as ordered
# measured = 21.8                   # once it is in the shop: the joints follow this

[joints]                            # how boards meet, for the whole piece
crossing = "cross halving"
end_on_face = "housing"
corner = "mitre"

# [wall]                            # drawn as soon as it is known; the page asks for it
# left = 0
# right = 2400
# ceiling = 2400
# studs = [400, 800, 1200]          # centres; left out: not known
# kind = "masonry"

# One [[board]] a board: its line from start to end, x along the wall and y up from the floor.

# [[board]]
# name = "shelf"
# timber = "oak"
# line = [[0, 450], [1200, 450]]
# depth = "depth"

# [[board]]
# name = "upright {{i}}"              # two boards; i is 1, then 2
# count = 2
# timber = "oak"
# line = [["i * 1200 / 3", 0], ["i * 1200 / 3", 900]]
# depth = "depth"

# [[joint]]                         # only where one joint is to be made differently
# between = ["shelf", "upright 1"]
# kind = "cross halving"
# front = "shelf"
"""


def new_text(title: str) -> str:
    """The commented start of a new job; characters that a title cannot have are left out."""
    printable = "".join(character for character in title if character.isprintable())
    return _TEXT.format(title=style.quoted(printable.strip()))
