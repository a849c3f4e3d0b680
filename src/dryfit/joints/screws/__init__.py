"""What joint kinds that are screwed have in common: the chain of a screw, the wood about it, what is sold for it.

chain   what a screw into the wall must reach through, and its hole
wood    the wood about that hole, and the tools that make it
wall    what takes the screw in the wall: timber, an anchor; what is not told of it
ends    screws through a face into an end
"""
