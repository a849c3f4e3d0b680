"""Drawing a detail: what is put on the pad keeps clear of what is there.

pad       lines and words so far, and what they fill
spans     dimensions in any direction, break lines, arcs
sections  cut wood: clipped, hatched, lettered
words     lines of an angle, names of edges
breaks    one direction with what says nothing broken out
"""
