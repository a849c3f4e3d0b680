"""Small jobs whose lines name places of other boards, as texts."""

HEAD = """\
dryfit = 1

[measures]
width = 2600
t = 24

[timber.oak]
species = "oak, white"
thickness = "t"
"""
INCHES = """\
dryfit = 1

[job]
units = "in"

[measures]
width = 100
t = "15/16 in"

[timber.oak]
species = "oak, white"
thickness = "t"
"""


def board(name, line, more=""):
    """One `[[board]]`, its coordinates as they are to be written in TOML."""
    (x0, y0), (x1, y1) = line
    tail = f"{more}\n" if more else ""
    return f'\n[[board]]\nname = "{name}"\nline = [[{x0}, {y0}], [{x1}, {y1}]]\ndepth = 12\n{tail}'


def frame(name, points, more=""):
    """One `[[frame]]`."""
    corners = ", ".join(f"[{x}, {y}]" for x, y in points)
    tail = f"{more}\n" if more else ""
    return f'\n[[frame]]\nname = "{name}"\npoints = [{corners}]\ndepth = 12\n{tail}'
