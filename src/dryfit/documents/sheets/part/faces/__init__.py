"""One face or edge of a part, to scale.

surface  outline, cuts, what is hidden, running positions, lying or standing
wording  words, sizes and marks on the wood, each where there is room
stops    where a housing stops short, at full size
"""
