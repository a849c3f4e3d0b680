"""How the holes in a wall are found, by hand.

A shelf 280 wide on solid brick behind 15 of plaster, worst gap 4; four M6 x 120 in sleeves, marked by a brad point and
drilled thin first and guided: errors 0.3, 0.8 and (grip + 19) tan 0.3 degrees.
"""

import math

import pytest

from dryfit.book import build, read_job_text
from dryfit.studies.marking.result import Marks

TIMBER = 'dryfit = 1\n[timber.oak]\nspecies = "oak, European"\nform = "panel"\nthickness = 40\n'
BRICK = '[wall]\nkind = "solid brick"\nlining = 15\nhollow = 4\nhung = true\nleft = 0\nright = 2400\nceiling = 2500\n'
SHELF = '[[board]]\nname = "shelf"\ntimber = "oak"\nline = [[200, 1000], [2000, 1000]]\ndepth = 280\n'


def fixing(more="", at="[100, 500, 1000, 1700]", screw="M6x120", anchor='anchor = "sleeve 8x40"\n'):
    return (
        f'[[fixing]]\nboard = "shelf"\nkind = "long screw"\nat = {at}\nscrew = "{screw}"\nwasher = true\n{anchor}{more}'
    )


CLOSE = 'marked = "brad point"\naimed = "guided"\n'


def book_of(more="", rest="", wall=BRICK, **keys):
    return build(read_job_text(TIMBER + wall + rest + SHELF + fixing(more, **keys)))


def marks(*args, **keys):
    return book_of(*args, **keys).found(Marks)


def found(book, code):
    return [finding for finding in book.findings if finding.code == code]


def test_errors_add_up_by_their_squares():
    (row,) = marks(CLOSE).rows

    (slant,) = [stray.mm for stray in row.strays if stray.what == "slant at the head"]
    assert [stray.mm for stray in row.strays][:2] == [0.3, 0.8]
    assert row.s == pytest.approx(math.sqrt(0.3**2 + 0.8**2 + slant**2))
    assert row.wanted == pytest.approx(6 + 2 * 2.157 * row.s, abs=0.01)  # k of four kept level


def test_each_hole_is_told_from_the_plumb_line_and_the_level_one():
    """The shelf begins at 200, its first hole is 100 along: stud 150 is the plumb line, 690 is 10 left of hole 2."""
    wall = BRICK.replace("hung = true", "hung = true\nstuds = [150, 690]")
    told = marks(wall=wall)

    assert (told.plumb, told.level, told.studs) == (150.0, pytest.approx(1000.0), (150.0, 690.0))
    assert [(one.number, one.right, one.up) for one in told.holes] == [
        (1, 150, 0),
        (2, 550, 0),
        (3, 1050, 0),
        (4, 1750, 0),
    ]
    assert [(one.stud, one.off) for one in told.holes][:2] == [(0.0, 150.0), (540.0, 10.0)]
    bare = marks()
    assert (bare.plumb, bare.studs) == (300.0, ())
    assert {(one.stud, one.off) for one in bare.holes} == {(None, None)}


@pytest.mark.parametrize(
    ("more", "chance"), [("hole_diameter = 12\n", 0.99), ("hole_diameter = 6.6\n", 0.0)], ids=["wide", "medium"]
)
def test_the_chance_goes_by_the_hole_as_it_is(more, chance):
    (held,) = marks(CLOSE + more).bodies

    assert (held.count, held.turns) == (4, False)
    assert held.chance == pytest.approx(chance, abs=0.02)


def test_under_95_percent_is_a_warning_and_a_hole_as_told_ends_it():
    book = book_of(CLOSE)
    (miss,) = found(book, "holes-may-miss")
    (row,) = book.found(Marks).rows

    assert (miss.severity, miss.where.fixing, miss.limit) == ("warn", row.fixing, 0.95)
    assert not found(book_of(f"{CLOSE}hole_diameter = {row.wanted + 0.01:.2f}\n"), "holes-may-miss")


def test_a_washer_drops_into_a_hole_that_would_do():
    """Washer 12, bore 6.4, screw 6 in a hole of 12: 3 - 6 - 0.2."""
    (bare,) = found(book_of(CLOSE + "hole_diameter = 12\n"), "washer-covers-little")

    assert (bare.severity, bare.found) == ("stop", pytest.approx(-3.2))


def test_what_is_driven_in_place_has_nothing_to_meet():
    studs = '[wall]\nkind = "timber studs"\nlining = 0\nhollow = 0\nhung = true\nstuds = [300, 700, 1200, 1900]\n'
    book = book_of(wall=studs, screw="wood 6x120", anchor="")

    assert [row.way for row in book.found(Marks).rows] == ["in place"]
    assert book.found(Marks).bodies == ()
    assert not found(book, "holes-may-miss")


def test_cures_are_offered_only_where_the_washers_still_cover():
    """Two holes in one row that may turn: k 1.386, and a guide brings s down to what a washer of 12 bears."""
    loose = book_of("may_turn = true\npilot_first = false\n", at="[100, 1700]")
    (miss,) = found(loose, "holes-may-miss")

    assert miss.cures == ()  # 1.2 straight into brick: 6 + 2 x 1.386 x 1.4 = 9.9 wants a washer wider than 12


@pytest.mark.parametrize(
    ("country", "up", "zones"),
    [("UK", 1000, [1, 2, 3, 4]), ("UK", 1500, [3]), ("Germany", 1000, [])],
    ids=["level with it", "plumb with it alone", "no band there"],
)
def test_holes_in_zones_of_cables_are_warned_of(country, up, zones):
    """Sockets at 1200 and 1000 or 1500: hole 3 is plumb with both. German bands beside corners: 100 to 300, hole 1."""
    cables = f'[cables]\ncountry = "{country}"\nacross = [1200]\nup = [{up}]\n'
    hit = marks(CLOSE, cables).near

    assert [one.number for one in hit if one.off == 0] == (zones or [1])


def test_without_a_country_zones_are_told_to_be_open():
    left = [str(one.what) for one in book_of(CLOSE).not_checked if one.study == "marking"]

    assert "cables and pipes in the wall" in left


def test_a_screw_deep_in_a_stud_may_meet_a_cable_in_the_usa():
    studs = '[wall]\nkind = "timber studs"\nlining = 12\nhollow = 0\nhung = true\nstuds = [300, 700, 1200, 1900]\n'
    book = book_of("grip = 40\n", '[cables]\ncountry = "USA"\n', wall=studs, screw="wood 6x120", anchor="")

    (deep,) = found(book, "screw-meets-cable")
    assert deep.found > 32 == deep.limit
