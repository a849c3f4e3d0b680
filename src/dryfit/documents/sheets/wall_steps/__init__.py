"""The steps on the wall: how the piece goes up, upright pictures with what stands there then.

maker     first how it was settled which way it goes up, then two steps a sheet
acts      a step in words: from where, along what, how many hands and at which height, what is ready, what is checked
upright   the piece as it stands at its wall, seen from the room
"""
