"""A notch joins no two boards across the wall; `property/held_pieces.py` draws what stands over a rail."""

NOT_DRAWN = "one of its boards lies flat and stays whole: there is no pair of boards that stand across the wall"
