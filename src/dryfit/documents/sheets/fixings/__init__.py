"""The fixings sheet: the wall, where its holes lie, and what goes into them.

maker    the sheets: wall, checks, table of holes, sections
chain    where screws are, and what each must reach through
wall     the wall seen from the room
section  a screw in its hole
"""
