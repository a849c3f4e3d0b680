"""Frames and boxes in space, polygons in the elevation, the exact shapes of cuts, and solids made from them."""
