"""The lists: boards, what to set up, to tick off, and what was found; what is bought and made stands in the order.

    maker    all of them in their order; boards that will fool you; findings
    boards   boards, each with its blank
    setups   set-ups
    joints   joints
    gluing   frames to check

A list is a function that puts its table on the sheaf, and its line in `maker`.
"""
