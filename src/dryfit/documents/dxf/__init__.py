"""Drawings for other programs and machines, as DXF (the tagged text form of release 2010), in mm at 1:1.

outlines  an outline as lines and true arcs
drawing   one drawing: layers, outlines, real dimensions, the escape of words; the one place that knows the library
part      a part from all sides that have something on them
whole     the whole piece, seen from the room
"""
