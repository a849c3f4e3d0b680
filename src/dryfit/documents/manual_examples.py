"""What the manual draws its joints from, and the stories of the demos: small jobs, all of them read and built."""

from dataclasses import dataclass

_HEAD = """\
dryfit = 1
[job]
title = "example"
[timber.oak24]
species = "oak, white"
form = "edge-glued panel"
thickness = 24
[timber.oak18]
species = "oak, white"
form = "edge-glued panel"
thickness = 18
"""
_HUNG = "[wall]\nhung = true\n"


@dataclass(frozen=True, slots=True, kw_only=True)
class Example:
    """One drawn example: `shown` is the part of the job that the page shows."""

    title: str
    shown: str

    @property
    def text(self) -> str:
        """The whole job."""
        return f"{_HEAD}{'' if '[wall]' in self.shown else _HUNG}{self.shown}"


def _board(name: str, line: str, more: str = "", timber: str = "oak24", depth: int = 300) -> str:
    return f'[[board]]\nname = "{name}"\ntimber = "{timber}"\nline = {line}\ndepth = {depth}\n{more}\n'


_SHELF = _board("shelf", "[[0, 500], [1000, 500]]")
_BOX = """\
[[frame]]
name = "box"
timber = TIMBER
points = [[0, 0], [600, 0], [600, 400], [0, 400]]
depth = 300
"""

EXAMPLES: dict[str, tuple[Example, ...]] = {
    "cross halving": (
        Example(title="Square", shown=_SHELF + _board("upright", "[[500, 0], [500, 1000]]", timber="oak18")),
        Example(
            title="Raked, one board standing proud",
            shown=_SHELF + _board("raking", '[[420, 0], ["420 + 1000 * tan(9)", 1000]]', depth=330),
        ),
    ),
    "housing": (
        Example(
            title="Through",
            shown=_SHELF + _board("divider", "[[500, 500], [500, 900]]", timber="oak18", depth=260),
        ),
        Example(
            title="Stopped at the front",
            shown=_SHELF
            + _board("divider", "[[500, 500], [500, 900]]", timber="oak18", depth=290)
            + '[[joint]]\nbetween = ["divider", "shelf"]\nkind = "housing"\nstop = "front"\n',
        ),
        Example(
            title="Raked, a tongue behind shoulders",
            shown=_SHELF
            + _board("divider", '[[500, 500], ["500 + 400 * tan(20)", 900]]', depth=260)
            + '[[joint]]\nbetween = ["divider", "shelf"]\nkind = "housing"\nraked = "shouldered"\n',
        ),
    ),
    "mitre": (
        Example(
            title="Unequal thickness, with keys",
            shown='[joints.mitre]\nstrengthen = "keys"\n'
            + _BOX.replace("TIMBER", '["oak24", "oak18", "oak24", "oak18"]'),
        ),
        Example(
            title="With a loose tongue",
            shown='[joints.mitre]\nstrengthen = "tongue"\n' + _BOX.replace("TIMBER", '"oak24"'),
        ),
    ),
    "butt": (
        Example(
            title="Dowels in a face",
            shown='[joints]\nend_on_face = "butt"\n'
            + _SHELF
            + _board("divider", "[[500, 500], [500, 900]]", depth=260),
        ),
        Example(
            title="A corner with plugged screws",
            shown='[joints]\ncorner = "butt"\n[joints.butt]\nfasten = "screws"\n' + _BOX.replace("TIMBER", '"oak24"'),
        ),
    ),
    "notch": (
        Example(
            title="Over a rail that lies flat on the wall",
            shown='[[board]]\nname = "rail"\ntimber = "oak18"\nlies = "flat"\n'
            "line = [[0, 500], [1000, 500]]\nwidth = 90\n" + _board("upright", "[[500, 0], [500, 1000]]"),
        ),
    ),
    "long screw": (
        Example(
            title="Into studs",
            shown='[wall]\nkind = "plasterboard on timber studs"\nlining = 25\nhollow = 5\n'
            "studs = [200, 800]\nhung = true\n"
            + _SHELF
            + '[[fixing]]\nboard = "shelf"\nkind = "long screw"\nat = [200, 800]\nscrew = "wood 5x120"\n',
        ),
        Example(
            title="Into brick, in plugs that a table describes",
            shown='[wall]\nkind = "brick"\nlining = 15\nhollow = 4\nhung = true\n'
            '[anchor.plug]\ntype = "nylon plug"\ndrill = 8\ndeep = 55\nlength = 40\nscrew = "wood 4.5 to 6"\n'
            + _SHELF
            + '[[fixing]]\nboard = "shelf"\nkind = "long screw"\nat = [200, 800]\n'
            'screw = "wood 5x120"\nanchor = "plug"\n',
        ),
    ),
}

STORIES: dict[str, str] = {
    "record-wall": """\
Tamsin Orrelby of Lantern Row wants her records off the floor: a wall of oak, two metres and a half wide, that
looks as if it had been drawn with five strokes and two slanting ones. Nothing may show how it holds. The wall
behind it is plasterboard on studs, and the studs are where they are.

What is difficult: two boards rake in opposite directions through four shelves each, so no slot is square to its
board; they stand proud of the shelves, which decides which slots can open to the front; a box of unequal
boards, mitred and keyed, hangs in the middle with a raking board running through it, so it must be glued before
that board goes in; and the long screws must miss every slot and still meet a stud.
""",
    "sample-grid": """\
The Fernhollow Seed Library keeps its samples in jars, and wants a grid of plywood that stands in the middle of
the room and can be taken apart when the room is let. The shop works in inches and the plywood, as always, is not
the thickness it is called.

What is difficult: forty slots that must all close at once. Every one follows the thickness that was measured,
and the clearance is what a dry grid needs to go together by hand.
""",
    "step-shelf": """\
The Quillfeather sisters want a small shelf for the stairs' end: two shelves, one upright, one leaning side, and a
divider between. It is the piece to try Dryfit on first.
""",
}
