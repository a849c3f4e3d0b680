"""A detail of every kind of joint in the piece, at one true scale, with all it takes to cut it and put it together.

Start at `maker`: it groups joints made alike (`groups`), has each drawn and set (`layout`), and fills the sheets.

    stance, bevels  how a joint lies on paper, and its ends
    roles           who is who, so that joints made alike read alike
    hardware        outlines of what is bought for it
    figures         what is printed of it: value, name, and how it came about
    letters         letters of boards in their wood, names of edges
    views           the drawings, as data for the drawing kit
    words, heading  what is said of it, and where its joints are
"""
