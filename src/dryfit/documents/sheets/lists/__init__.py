"""The lists: what to buy, to cut, to set up, to tick off, and what was found.

    maker   all of them in their order; boards that will fool you; findings
    boards  boards, and blanks to order
    joints  joints, and hardware
    gluing  glue to have, and frames to check
    setups  set-ups

A list is a function that puts its table on the sheaf, and its line in `maker`.
"""
