"""A left and a right hand on one sheet, mirror images of one another.

pair      what such a sheet shows, lying one above the other or standing like an open book
heading   a black letter in each top corner
hand      one hand that stands: its face and its edge on paper; `items`: what is drawn on it
standing  the two together
wording   words on a face that lies, with half the triangle at the edge they share
"""
