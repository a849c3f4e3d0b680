"""A part's sheet: what is marked and cut on one board, on several that are alike, or on a pair of hands.

Start at `maker`: it groups the parts (`fellows`) and hands each group, as a `subject`, to `page`, which lays it out
(`contents`: what there is to lay out).

    words     what is said of a part: facts, rows of the cut table, set-ups, notes, sums
    faces     one face or edge to scale, with its words and sizes
    ends      ends seen from outside, and sections of them
    stack     the views under one another; `sketches`: sections of slots and housings
    alike     parts that share a sheet; `hands`: a left and a right hand beside one another
    looking   what all of them ask of a look
    fellows   which are which; `fooling`: those that will be taken for one another
"""
