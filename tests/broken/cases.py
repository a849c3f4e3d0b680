"""Job files with one mistake each: twenty classes, three files a class.

A case is the text, the line the message must name, what it must show as read, and a word its remedy must
have. Texts stand on `HEAD` or `SHELF`, so that the lines can be counted: `HEAD` has 5, `SHELF` 9.
"""

from typing import NamedTuple

WIDTH = """\
[measures]
width = 2600
"""  # 2 lines

HEAD = (
    WIDTH
    + """\
[timber.oak]
species = "oak"
thickness = 24
"""
)  # 5 lines

SHELF = (
    HEAD
    + """\
[[board]]
name = "shelf"
line = [[0, 600], ["width", 600]]
depth = 330
"""
)  # 9 lines

FRAME = """\
[[frame]]
name = "box"
points = [[0, 0], [900, 0], [900, 500]]
depth = 300
"""  # 4 lines


class Case(NamedTuple):
    """One file with one mistake."""

    kind: str
    text: str
    line: int
    read: str
    remedy: str


def board(*lines: str) -> str:
    """A second board behind `SHELF`; its first own line is line 11."""
    return SHELF + "[[board]]\n" + "\n".join(lines) + "\n"


UPRIGHT = 'name = "upright"'  # with LINE and DEPTH these are lines 11 to 13
LINE = "line = [[100, 0], [100, 900]]"
DEPTH = "depth = 300"

CASES = [
    Case("no toml", SHELF + "this is not a line\n", 10, "this is not a line", "# before a note"),
    Case("no toml", "= 3\n", 1, "= 3", "key = value"),
    Case("no toml", HEAD + "[job]\ntitle: shelf\n", 7, "title: shelf", "title = shelf"),
    Case("not closed", HEAD + '[job]\ntitle = "shelf\n', 7, 'title = "shelf', "quote"),
    Case("not closed", SHELF.replace("600]]", "600]"), 8, 'line = [[0, 600], ["width", 600]', "]"),
    Case("not closed", HEAD + "[job\ntitle = 'a'\n", 6, "[job", "[name]"),
    Case("quotes", HEAD + "[job]\ntitle = long shelf\n", 7, "title = long shelf", 'title = "long shelf"'),
    Case("quotes", SHELF.replace('"width"', "width"), 8, "line = [[0, 600], [width, 600]]", "quotes"),
    Case("quotes", HEAD + "[joints.long screw]\nscrew = 'a'\n", 6, "[joints.long screw]", '[joints."long screw"]'),
    Case("numbers", HEAD.replace("2600", "2,6"), 2, "width = 2,6", "width = 2.6"),
    Case("numbers", HEAD.replace("24", "024"), 5, "thickness = 024", "thickness = 24"),
    Case("numbers", HEAD.replace("24", "nan"), 5, "nan", "plain number"),
    Case("written twice", HEAD + "thickness = 25\n", 6, "thickness = 25", "one of the two"),
    Case("written twice", HEAD + "[measures]\nheight = 3\n", 6, "[measures]", "merge the two"),
    Case("written twice", SHELF + 'depth = 200\nname = "shelf"\n', 10, "depth = 200", "one of the two"),
    Case("unknown table", SHELF + "[[bord]]\nx = 1\n", 10, "bord", "did you mean board?"),
    Case("unknown table", HEAD + "[finnish]\ncoats = 2\n", 6, "finnish", "did you mean finish?"),
    Case("unknown table", HEAD + "[timbre]\nx = 1\n", 6, "timbre", "did you mean timber?"),
    Case("unknown key", SHELF + "depht = 3\n", 10, "depht", "did you mean depth?"),
    Case("unknown key", HEAD + "thick = 3\n", 6, "thick", "did you mean thickness?"),
    Case("unknown key", SHELF + "scribe = { strat = 3 }\n", 10, "strat", "did you mean start?"),
    Case("missing key", SHELF.replace("depth = 330\n", ""), 6, "", "add depth"),
    Case("missing key", HEAD.replace('species = "oak"\n', ""), 3, "", "add species"),
    Case("missing key", board(LINE, DEPTH), 10, "", "add name"),
    Case("unknown value", SHELF + 'ends = "levle"\n', 10, '"levle"', "level"),
    Case("unknown value", HEAD + '[job]\nunits = "cm"\n', 7, '"cm"', "mm"),
    Case("unknown value", SHELF + 'lies = "flatt"\n', 10, '"flatt"', "flat"),
    Case("wrong sort", SHELF.replace("330", "[330]"), 9, "[330]", "number"),
    Case("wrong sort", HEAD + '[finish]\ncoats = "two"\n', 7, '"two"', "without quotes"),
    Case("wrong sort", HEAD + '[wall]\nhung = "yes"\n', 7, '"yes"', "true or false"),
    Case("wrong count", SHELF.replace(", 600]]", "]]"), 8, '["width"]', "2"),
    Case("wrong count", SHELF.replace("[[0, 600], ", "["), 8, '[["width", 600]]', "2"),
    Case("wrong count", SHELF + '[[joint]]\nbetween = ["shelf"]\n', 11, '["shelf"]', "2"),
    Case("arithmetic", SHELF.replace('"width"', '"width +"'), 8, '"width +"', "number or a measure"),
    Case("arithmetic", SHELF.replace('"width"', '"(width"'), 8, '"(width"', ")"),
    Case("arithmetic", SHELF.replace('"width"', '"width / 0"'), 8, '"width / 0"', "not zero"),
    Case("unit", SHELF.replace('"width"', '"width mm"'), 8, '"width mm"', "take the unit away"),
    Case("unit", SHELF.replace('"width"', '"23 inches"'), 8, '"23 inches"', "write in"),
    Case("unit", SHELF.replace('"width"', '"23-5/8 in"'), 8, '"23-5/8 in"', "23 5/8 in"),
    Case("unknown measure", SHELF.replace('"width"', '"widht / 2"'), 8, '"widht / 2"', "did you mean width?"),
    Case("unknown measure", SHELF.replace('"width"', '"i * 3"'), 8, '"i * 3"', "count"),
    Case("unknown measure", SHELF.replace('"width"', '"t_b"'), 8, '"t_b"', "joint"),
    Case("measure", HEAD.replace("width = 2600", 'width = "width / 2"'), 2, '"width / 2"', "number"),
    Case("measure", HEAD.replace("width = 2600", 'a = "b"\nb = "a"'), 2, '"b"', "number"),
    Case("measure", HEAD.replace("width", "min"), 2, "min", "another name"),
    Case("unknown timber", board(UPRIGHT, LINE, DEPTH, 'timber = "oaks"'), 14, '"oaks"', "did you mean oak?"),
    Case("unknown timber", SHELF.replace(HEAD, WIDTH), 3, "", "[timber.NAME]"),
    Case("unknown timber", SHELF + '[timber.ash]\nspecies = "ash"\nthickness = 20\n', 6, "", 'timber = "ash"'),
    Case("unknown joint", SHELF + '[joints]\ncorner = "mitrre"\n', 11, '"mitrre"', "did you mean mitre?"),
    Case("unknown joint", SHELF + "[joints.houseing]\ndepth = 3\n", 10, "houseing", "did you mean housing?"),
    Case("unknown joint", board(UPRIGHT, LINE, DEPTH) + '[[joint]]\nbetween = ["shelf", "upright"]\nkind = "halving"\n',
         16, '"halving"', "cross halving"),
    Case("joint's option", SHELF + "[joints.housing]\ndeep = 3\n", 11, "deep", "did you mean depth?"),
    Case("joint's option", SHELF + '[joints."cross halving"]\nratio = 1.5\n', 11, "1.5", "less than 1"),
    Case("joint's option", SHELF + "[joints.housing]\nstop = -1\n", 11, "-1", "at least 0"),
    Case("size", SHELF.replace("330", "-330"), 9, "-330", "at least 1 mm"),
    Case("size", HEAD.replace("24", "2400"), 5, "2400", "depth"),
    Case("size", HEAD.replace("2600", '"2600 m"'), 2, '"2600 m"', "100 m"),
    Case("line", SHELF.replace('"width"', "0"), 8, "[[0, 600], [0, 600]]", "two different points"),
    Case("line", HEAD + FRAME.replace(", [900, 500]", ""), 8, "[[0, 0], [900, 0]]", "closed = false"),
    Case("line", SHELF + "thickness_at = [[0, 24], [0, 25]]\n", 10, "[0, 25]", "measured"),
    Case("name", board('name = "shelf"', LINE, DEPTH), 11, '"shelf"', "another name"),
    Case("name", board('name = "Wall"', LINE, DEPTH), 11, '"Wall"', "always there"),
    Case("name", board('name = "up\\nright"', LINE, DEPTH), 11, '"up\\nright"', "take it out"),
    Case("row", board('name = "a {i}"', LINE, DEPTH), 11, '"a {i}"', "count"),
    Case("row", board('name = "a"', LINE, DEPTH, "count = 1000000000"), 14, "1000000000", "at most 2000"),
    Case("row", board('name = "a"', 'line = [["i", 0], ["i", 9]]', DEPTH, "count = 2", "[[board.except]]", "i = 3"),
         16, "3", "1 to 2"),
    Case("pair", board(UPRIGHT, LINE, DEPTH) + '[[joint]]\nbetween = ["shelf", "upright"]\n' * 2, 17,
         '["shelf", "upright"]', "merge the two"),
    Case("pair", SHELF + '[[joint]]\nbetween = ["shelf", "shelf"]\n', 11, '["shelf", "shelf"]', "two boards"),
    Case("pair", board(UPRIGHT, LINE, DEPTH) + '[[joint]]\nbetween = ["shelf", "upright"]\nfront = "uprite"\n', 16,
         '"uprite"', '"upright"'),
]  # fmt: skip

# Ten files, each with several mistakes and the lines that they stand in.
SEVERAL = {
    "all over the file": (
        '[job]\nunits = "cm"\n' + HEAD.replace("2600", '"widht"').replace("24", "-1") + '[[board]]\nnam = "a"\n',
        [2, 4, 7, 8, 8, 8, 9],
    ),
    "two mistakes of spelling and one of sense": (
        HEAD + "[job]\ntitle = my wall\n[wall]\nlining = 2,5\n[finish]\ncoatss = 2\n",
        [7, 9, 11],
    ),
    "three in one board": (SHELF + 'ends = "x"\nback = "zzz"\nfoo = 1\n', [10, 11, 12]),
    "three in one line": (SHELF.replace('[[0, 600], ["width", 600]]', '[["a", "b"], ["c", 600]]'), [8, 8, 8]),
    "three boards": (
        board('name = "shelf"', LINE, DEPTH) + "[[board]]\n" + 'name = "b"\n' + LINE + "\ndepth = 0\n"
        "[[board]]\nname = 'c'\nline = [[0, 0], [0, 0]]\ndepth = 1\n",
        [11, 17, 20],
    ),
    "measures": ('[measures]\na = "b +"\nb = "(1"\nin = 3\n"two words" = 4\nc = "a * 2"\n', [2, 3, 4, 5]),
    "joints": (
        SHELF
        + '[joints]\ncrossing = "x"\ncorner = "y"\nclearance = -1\nnonsense = 3\n[joints.housing]\ndepth = "t_c"\n',
        [11, 12, 13, 14, 16],
    ),
    "after a table that is lost": (
        SHELF.replace("= 2600", "= = 2600").replace("330", "0") + '[[board]]\nname = "shelf"\nline = 3\ndepth = 3\n',
        [2, 9, 11, 12],
    ),
    "frames": (
        HEAD + FRAME + 'names = ["a"]\nsize = "centr"\n' + FRAME.replace("box", "case") + "depht = 3\nback = [1, 2]\n",
        [10, 11, 16, 17],
    ),
    "fixings and units": (
        SHELF + '[[fixing]]\nboard = "shelf"\nkind = "nail"\nat = [-5]\n[[fixing]]\nboard = "shelf"\n'
        '[[unit]]\nname = "u"\nboards = []\n[[unit]]\nboards = ["shelf"]\n',
        [12, 13, 14, 14, 18, 19],
    ),
}
