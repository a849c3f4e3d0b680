"""The glue-up cards, one for each go, in big type for the bench.

maker    the cards
words    what to do in which order, what presses it, what is next
picture  the boards of one go, their letters, a frame's diagonals
"""
