"""The sheet that client and maker sign: the piece in its place, over all, and what is agreed in plain words.

maker    the sheet, and further ones where the words need them
drawing  the piece from the room and from the left, with its sizes and what it keeps from wall, floor and ceiling
place    where the piece stands in its room, its sizes rounded so that they add up
agreed   what is agreed, what is not known yet, what the signatures mean
"""
