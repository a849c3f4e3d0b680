"""Dimensions after ISO 129's habits, and where a position along a part stands on paper.

running   running lines from one datum, along the sheet
upright   the same up the sheet, for boards that stand; `levels`: heights from the floor
mirrored  the same to the left, for the hand that is turned over
plain     one size between two arrowheads
ruler     one true scale along a part, whole or broken
"""
