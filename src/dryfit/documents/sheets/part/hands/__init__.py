"""A left and a right hand on one sheet, mirror images of one another.

pair      what such a sheet shows, lying one above the other or standing like an open book
heading   a black letter in each top corner
standing  the two together
"""
