"""A long screw joins no two boards; `property/held_pieces.py` and `property/wall_layouts.py` draw what hangs by it."""

NOT_DRAWN = "its other body is the wall"
