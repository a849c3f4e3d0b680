"""The map of the wall in the hanging book, and how its holes are marked and drilled.

drawing  the wall with every hole from one level line and one plumb, and the zones of cables
words    what to look for, how to mark and drill, trying a hole
maker    the sheets
"""
