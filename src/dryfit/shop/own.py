"""A maker's own shop file: where it is kept for all jobs, and the text that it begins with.

It is `shop.toml` in the folder where this system keeps a user's settings; the environment may name another folder.
"""

import os
from pathlib import Path

from platformdirs import user_config_path

SETTINGS = "DRYFIT_SETTINGS"  # of the environment: the folder, where it is to be another

_TEXT = """\
# What the shop has, for Dryfit. Text after a # is a note; take it away before a line to say that line.
# Lengths are in mm: a number, or text such as "1/2 in". Of a sort of tool that stands here, these are all there are;
# of any other, what a small shop commonly has is assumed, and the papers say so.

dryfit = 1

[shop]
# name = "Bench by the window"     # as it is printed
# paper = "A4"                     # the largest sheet it prints: "A4", "A3" or "Letter"
# trim = 10                        # left at each end of a blank
# trim_edge = 2                    # left at each edge of what is ordered
# spare_boards = 0                 # ordered of each timber over what a piece needs
# seconds_a_crossing = 30          # pace at glue-up: one joint brought home
# seconds_to_spread = 10           # one side of a joint up to 300 long
# seconds_a_clamp = 20             # with its cauls

# [[router]]
# name = "large router"
# offsets = [65, 65]               # from either edge of its base to a groove cut along a straightedge: measure them
# nose = 12                        # from the base to the collet, at full plunge
# reach = 80                       # the farthest that a cutter may stand out
# collets = [8, 12]

# [[cutter]]
# name = "straight 12"
# diameter = 11.9                  # as a test cut shows it
# length = 50                      # of its cutting edge
# shank = 12
# overall = 102
# stick_out = 70                   # below the base at the most, where you measured it

# [[cutter]]
# name = "dovetail 14"
# diameter = 12.7
# length = 12.7
# shape = "dovetail"               # or "straight", "round nose", "V"
# slope = 14                       # of its flanks, degrees
# bearing = 12.7                   # diameter, of one that has a bearing

# [[saw]]
# name = "track saw"
# kerf = 1.8
# depth = 55
# tilt = 47                        # degrees
# drift = 0.8                      # to the right after 100 of a trial cut
# lean = 0.2                       # of the under face against the upper one in it
# leaves = 1                       # on a wall at least, in a rough cut: 1 of a circular saw, 2 of a band or jig saw

# [[groover]]
# name = "groover"
# diameter = 100
# kerf = 4
# plunge = 20

# [[drill]]
# name = "drill"
# chuck = 30                       # of a bit, in the chuck and clear of the mouth
# axis = 33.75                     # over the bench, as it lies on its side

# [[bit]]
# name = "long 15"
# diameter = 15
# length = 460

# [[driver]]
# name = "long driver bit"
# length = 300                     # whole, with any extension on it
# head = 60                        # of an angle driver only: how high its head stands over the bit's end
"""


def own_shop() -> Path:
    """Where the maker's own shop file is kept, whether it is there or not."""
    folder = os.environ.get(SETTINGS)
    return (Path(folder) if folder else user_config_path("dryfit", appauthor=False)) / "shop.toml"


def new_shop_text() -> str:
    """A shop file that says nothing yet, with all that could be said in notes."""
    return _TEXT
