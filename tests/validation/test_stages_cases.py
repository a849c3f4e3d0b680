"""What is coated, glued and put in when, against the worked cases S1 to S9 and S15.

Worked beside this project from the formula of a film in a contact,

    slot = t - 2 r + 2 x film of what enters + 2 x film of the walls + clearance

in which a film counts that was put on before the joint is closed, if its zone is not masked. Films and thicknesses are
the cases' own, so no table of finishes is read. That what is glued must be bare is from outside: bonded wood is to be
free of anything that makes a weak layer (US Forest Products Laboratory, Wood Handbook, page 10-2).
"""

import math

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.building import piece_of
from dryfit.findings import Severity
from dryfit.piece.history import Stage
from dryfit.piece.made import read_made_text
from dryfit.trade.finishes import hours_until

THOUSANDTH = 0.0005


def two(p, q, finish, *, lean=90.0, clearance=0.15, more="", p_when="", q_when=""):
    """P, plumb or leaning, through Q, level: thicknesses as measured."""
    run = 400 / math.tan(math.radians(lean))
    whens = [f'when = "{when}"\n' if when else "" for when in (p_when, q_when)]
    return f"""\
dryfit = 1
[timber.p]
species = "oak, European"
thickness = {p}
[timber.q]
species = "oak, European"
thickness = {q}
[joints]
clearance = {clearance}
[finish]
system = "demo"
{finish}
[[board]]
name = "P"
timber = "p"
line = [[{500 - run}, 0], [{500 + run}, 800]]
depth = 200
{whens[0]}
[[board]]
name = "Q"
timber = "q"
line = [[0, 400], [1000, 400]]
depth = 200
{whens[1]}
{more}
"""


def widths(text, word="slot"):
    cuts = [cut for part in piece_of(read_job_text(text)).parts for cut in part.cuts if cut.word == word]
    return {cut.body: cut.figures.across for cut in cuts}


def near(width):
    return pytest.approx(width, abs=THOUSANDTH)


def codes(text):
    return {found.code: found for found in build(read_job_text(text)).findings if found.severity is Severity.STOP}


# --- S1: 20.10 thick, 0.05 sanded off a face, three coats of 0.021, let into another in a housing

HOUSED = """\
dryfit = 1
[timber.a]
species = "oak, European"
thickness = 20.10
[finish]
system = "demo"
coats = 3
film = 0.021
sanded = 0.05
{}
[[board]]
name = "A"
line = [[0, 300], [600, 300]]
depth = 200
when = "{}"
[[board]]
name = "B"
line = [[600, 0], [600, 800]]
depth = 200
when = "on site"
[joints.housing]
glued = {}
clearance = {}
"""


@pytest.mark.parametrize(
    ("zones", "when", "glued", "clearance", "across"),
    [
        ("masked", "before glue", "true", 0.10, 20.100),
        ("coated", "after glue", "true", 0.10, 20.100),
        ("coated", "before glue", "false", 0.15, 20.276),
    ],
    ids=["masked", "coated after the glue", "dry"],
)
def test_s1_coat_then_glue(zones, when, glued, clearance, across):
    text = HOUSED.format(f'joint_zones = "{zones}"', when, glued, clearance)

    assert widths(text, "housing") == {"B": near(across)}
    assert "film-in-glue" not in codes(text)


def test_s1_coated_before_unmasked_and_glued_is_a_stop_that_names_both_stages():
    text = HOUSED.format('joint_zones = "coated"', "before glue", "true", 0.10)

    said = str(codes(text)["film-in-glue"].says)
    assert "A is coated before glue" in said
    assert "A and B are glued in the shop" in said
    assert widths(text, "housing") == {"B": near(20.100)}, "no film is ever allowed for where there is glue"


# --- S2 to S4: P 26.90 and Q 27.10, 0.10 sanded off a face, two coats of 0.033 each


@pytest.mark.parametrize(
    ("zones", "q_when", "in_q", "in_p"),
    [
        ("coated", "before glue", 27.114, 27.314),
        ("coated", "after glue", 26.982, 27.182),
        ("walls masked", "after glue", 26.982, 27.050),
    ],
    ids=["S2, both before", "S3, Q after: P's own walls carry film", "S4, P's walls masked"],
)
def test_s2_to_s4_a_crossing_is_two_contacts(zones, q_when, in_q, in_p):
    finish = f'coats = 2\nfilm = 0.033\nsanded = 0.1\njoint_zones = "{zones}"'

    assert widths(two(26.90, 27.10, finish, p_when="before glue", q_when=q_when)) == {"Q": near(in_q), "P": near(in_p)}


@pytest.mark.parametrize(
    ("when", "before", "across"),
    [("before glue", "coats_before = 2", 18.254), ("before glue", "", 18.358), ("after glue", "", 18.150)],
    ids=["two before", "four before", "none before"],
)
def test_s5_coats_divided(when, before, across):
    finish = f'coats = 4\nfilm = 0.013\njoint_zones = "coated"\nwhen = "{when}"\n{before}'

    assert widths(two(18.0, 18.0, finish)) == {"P": near(across), "Q": near(across)}


@pytest.mark.parametrize(
    ("q_when", "across", "on_face"),
    [("before glue", 24.302, 24.677), ("none", 24.176, 24.549)],
    ids=["both before", "only the entering one"],
)
def test_s6_raked(q_when, across, on_face):
    finish = 'coats = 3\nfilm = 0.021\nsanded = 0.1\njoint_zones = "coated"'
    text = two(24.10, 24.10, finish, lean=80.0, p_when="before glue", q_when=q_when)
    (cut,) = (cut for cut in piece_of(read_job_text(text)).part_by_name["Q"].cuts if cut.takes == "P")

    assert (cut.figures.across, cut.figures.on_face) == (near(across), near(on_face))


# --- S7: two glued units, each finished in the shop, cross dry where they hang

UNITS = """
[[board]]
name = "foot"
timber = "q"
line = [[0, 0], [500, 0]]
depth = 200
[[board]]
name = "post"
timber = "q"
line = [[1000, 400], [1000, 900]]
depth = 200
[[unit]]
name = "upright with its foot"
boards = ["P", "foot"]
[[unit]]
name = "shelf with its post"
boards = ["Q", "post"]
"""
FINISHED = 'coats = 3\nfilm = 0.022\njoint_zones = "coated"\nwhen = "after glue"'


def test_s7_two_finished_units_meet_dry_on_site():
    text = two(22.05, 22.05, FINISHED, more=UNITS)

    assert widths(text) == {"P": near(22.464), "Q": near(22.464)}
    history = piece_of(read_job_text(text)).history
    assert history.contacts["P", "Q"].stage is Stage.PUT_IN
    assert history.contacts["P", "foot"].stage is Stage.GLUED
    assert [zone.state for zone in history.contacts["P", "foot"].zones] == ["bare", "bare"]


def test_s7_said_to_be_glued_in_the_shop_is_a_stop_the_units_are_not_together_there():
    third = '[[unit]]\nname = "cross"\nboards = ["P", "Q"]\n'

    found = codes(two(22.05, 22.05, FINISHED, more=UNITS + third))["glued-apart"]

    assert set(found.where.boards) == {"P", "Q"}
    assert "in the shop" in str(found.says)
    assert "on site" in str(found.says)


def test_s7_glued_on_site_once_they_are_finished_is_a_stop_too():
    glued = '[[joint]]\nbetween = ["P", "Q"]\nglued = true\n'

    said = str(codes(two(22.05, 22.05, FINISHED, more=UNITS + glued))["film-in-glue"].says)

    assert "coated after glue, in the shop" in said
    assert "P and Q are glued on site" in said


# --- S8: the slot is cut at 24.10


def cut_at(film):
    finish = f'coats = 2\nfilm = {film}\nsanded = 0.05\njoint_zones = "coated"'
    text = two(24.05, 24.05, finish, p_when="before glue", q_when="none")
    record = 'dryfit_made = 1\n[[cut]]\nbetween = ["P", "Q"]\nin = "Q"\nat = 487.95\nacross = 24.10\n'
    record += 'deep = 100.5\nopens = "front"\n'
    piece = piece_of(read_job_text(text), made=read_made_text(record, "made.toml"))
    (cut,) = (cut for cut in piece.part_by_name["Q"].cuts if cut.word == "slot")
    return cut.figures.across, {found.code: found for found in piece.findings}


def test_s8_a_slot_that_is_cut_already_stays_and_both_figures_are_told():
    across, found = cut_at(0.020)

    assert across == near(24.10)
    stop = found["cut-otherwise"]
    assert stop.severity is Severity.STOP
    assert (stop.found, stop.limit) == (near(24.10), near(24.18))


def test_s8_within_the_printed_step_nothing_is_found():
    across, found = cut_at(0.010)

    assert across == near(24.10)
    assert "cut-otherwise" not in found


def test_s9_coated_faces_may_press_on_each_other_180_hours_after_the_first_coat():
    """12 h to the second coat, and 7 days until both are hard: 12 + 168."""
    assert hours_until(coats=2, recoat_h=12.0, wait_h=7 * 24.0) == 180.0


# --- S15: the base hangs first

HUNG = """
[wall]
kind = "timber studs"
lining = 12.5
hollow = 3
studs = [100, 500, 900]
hung = true
[[fixing]]
board = "Q"
kind = "long screw"
at = [100, 900]
screw = "wood 6x160"
"""
FIRST = HUNG + '[[unit]]\nname = "base"\nboards = ["Q"]\nplace = "first"\n'


def test_s15_boards_come_to_a_base_that_hangs_from_the_front_and_its_slots_are_made_so():
    text = two(24.0, 24.0, "coats = 0", more=FIRST)
    piece = piece_of(read_job_text(text))

    assert "comes-from-behind" not in {found.code for found in piece.findings}
    assert piece.joint_by_key["P", "Q"].making.front == "Q"
    assert piece.history.place("Q") == "first", "a unit of one board is that board, carried loose"


def test_s15_a_slot_that_opens_to_the_wall_is_a_stop_and_named():
    word = '[[joint]]\nbetween = ["P", "Q"]\nfront = "P"\n'

    found = codes(two(24.0, 24.0, "coats = 0", more=FIRST + word))["comes-from-behind"]

    assert found.where.joint == ("P", "Q")
    assert str(found.cures[0].label) == "have the slot in Q open to the front"
