"""Ends of a part: seen from outside where they carry cuts, cut open where they are bevelled or go in.

windows   what a section of an end shows, and where across the board it is cut
sections  those sections, with figures
fronts    what is seen and measured on an end
views     ends as seen, with running lines
"""
