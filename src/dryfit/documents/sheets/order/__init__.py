"""The order, to be sent: timber, then hardware and supplies, with blanks for who supplies them and for prices.

    maker     the sheet
    timber    pieces by timber and size
    supplies  hardware, glue, finish, abrasives, tape, tools that are lacking: the same rows as the file has
    at_hand   what is not ordered: made in the shop, tools, what the trial cuts take

Whoever gets it has never seen the piece: above what is not ordered stands no word of the workshop but the letters to be
written on the wood.
"""
