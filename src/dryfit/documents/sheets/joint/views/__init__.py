"""The views of a detail; a joint has those that show something of it.

    front   seen from the front: one board enters the other
    corner  seen from the front: neither does
    face    a slot or housing square on its face
    along   along the board that enters, from its wall edge to its front
    rows    what stands in a row along the depth: keys, dowels, screws, a tongue

Each gives wood, and what is to be dimensioned and said of it; the drawing kit finds where that stands. A screw into the
wall is drawn as on the fixings sheet.
"""
