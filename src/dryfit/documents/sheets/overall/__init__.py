"""The overall sheet: the whole piece with its letters, where each board stands and how high.

maker      the sheet and its words
elevation  the drawing
"""
