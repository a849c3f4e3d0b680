"""The views of a detail; a joint has those that show something of it.

    front   seen from the front: one board enters the other
    corner  seen from the front: neither does
    face    a slot or housing square on its face
    along   along the board that enters, from its wall edge to its front
    rows    what stands in a row along the depth: keys, dowels, screws, a tongue
    screw   a screw into the wall

Each puts dimensions and words on wood that a file of its own lays out: `front_wood`, `corner_wood` ...
"""
