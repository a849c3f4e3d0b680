"""The drawing kit: one way to place, break, dimension and label, for every sheet. Lengths in mm on paper, y down.

axis       where positions along one direction of the wood stand on paper, whole or broken
dimension  running and plain dimensions, in any direction
label      words at a place or led to one; a long sum wraps at its signs
placing    paper that knows what stands on it, and gives what comes the first place that is free
view       wood with its dimensions and labels, under its title
turn       what is drawn, moved, turned over or stood up

A view is data: wood, and what is to be said of it. Where that stands is found here, the nearest free place first; what
finds none is `unplaced`, which no sheet may have. Sizes and gaps come from `documents/standard`.
"""
