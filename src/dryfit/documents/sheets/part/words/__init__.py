"""What is said of a part. Nothing here draws; the lists and `book.json` read it too.

facts     timber, sizes, ends, tags
details   what makes a cut from its row alone: from where to where, which way it leans, where it stops
setups    cuts that one guide, bit or saw angle makes, over the whole job
cuts      the rows of the cut table, from these three; `joined`: one table for several parts
notes     what to measure first, what the figures mean
together  letters and names of several parts as one
sums      how the part's length came about
"""
