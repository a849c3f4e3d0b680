"""A long screw joins no two boards; `property/held_pieces.py` and `property/wall_layouts.py` draw what hangs by it."""

from collections.abc import Mapping
from typing import Any

NOT_DRAWN = "its other body is the wall"
WALL_SAYS = {"lining", "hollow", "void"}  # as long as nobody has measured it


def left_out(options: Mapping[str, Any]) -> set[str]:
    """What only the wall, or the maker of an anchor, knows, and a driver where none is sold long enough."""
    engages = {"engagement"} if options["anchor"] or options["screw"][0] == "M" else set()
    return WALL_SAYS | {"driver"} | engages
