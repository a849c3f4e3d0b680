"""The figures of a joint as printed: each with its name, its value and how it came about.

printed  all of a joint's: slots here, the rest from the others
housing  depth, floor, stops, tongue of what is housed
ends     bevels, pockets, grooves, holes of ends that meet
screw    what a screw into the wall reaches through
"""
