"""One face or edge of a part, to scale.

surface  outline, cuts, what is hidden, running positions
sizes    the board's width and the depths, as plain dimensions on the wood
wording  words and marks on the wood, each where there is room
stops    where a housing stops short, at full size
"""
