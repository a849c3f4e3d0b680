"""How units come to their place, by hand.

A board 2400 x 320 x 20 of oak at 700 kg/m3 or so. The unit of S23 is 2400 long, 300 wide, 320 deep: two boards of 2400
one over the other and two ends, glued; round a landing of 950 and 800 under 2200 it goes tilted only. Doors, heights
and what is left of them are whole hundreds.
"""

import pytest

from dryfit.book import build, change_job_text, read_job_text
from dryfit.errors import JobError
from dryfit.findings import Severity
from dryfit.studies.carrying.result import Carrying
from dryfit.trade.loads_behind import RULES, SOURCES, asked_for

HEAD = 'dryfit = 1\n[timber.oak]\nspecies = "oak, European"\nthickness = 20\n'
CODES = {"not-carried-in", "not-stood-up", "tight-way", "behind-the-van", "heavy-to-carry", "way-not-clear"}


def board(name, line, depth=320, more=""):
    return f'[[board]]\nname = "{name}"\nline = {line}\ndepth = {depth}\n{more}'


ONE = HEAD + board("long", "[[0, 10], [2400, 10]]", 300)
LANDING = '[[turn]]\nname = "landing"\nwidth = 950\ninto = 800\nheight = 2200\n'
# A case 2400 long, 300 high and 320 deep: level boards over ends, all glued.
CASE = HEAD + (
    '[[frame]]\nname = "case"\npoints = [[0, 0], [2400, 0], [2400, 300], [0, 300]]\nsize = "outside"\ndepth = 320\n'
)


def door(width, height=2000, more=""):
    return f"[[door]]\nwidth = {width}\nheight = {height}\n{more}"


def book_of(text):
    return build(read_job_text(text))


def found_in(book, *codes):
    return [one for one in book.findings if one.code in (codes or CODES)]


def only(text):
    book = book_of(text)
    (body,) = book.found(Carrying).bodies
    return book, body


def test_the_case_of_s23_goes_round_the_landing_tilted():
    book, body = only(CASE + LANDING)

    assert body.boxes == ((2400.0, 320.0, 300.0),)
    (passed,) = body.ways
    assert (passed.room, passed.way.how) == ("clear", "tilted")
    assert (passed.way.lean, passed.way.floor) == (pytest.approx(55.61, abs=0.005), pytest.approx(1603, abs=0.5))
    assert found_in(book, "not-carried-in", "tight-way") == []


def test_where_it_cannot_be_tilted_it_is_a_stop_that_says_how_much_too_long_it_is():
    """Under 400 it is hardly lifted at all: on edge 1870 goes round."""
    book, _ = only(CASE + LANDING.replace("2200", "400"))

    (stop,) = found_in(book, "not-carried-in")
    assert stop.severity is Severity.STOP
    assert str(stop.says) == (
        "the whole piece, 2400 x 320 x 300, does not pass landing: 529.7 too long, at most 1870.3 goes through"
    )
    assert (stop.found, stop.limit) == (2400.0, pytest.approx(1870.38, abs=0.01))
    assert stop.where.path == ("turn", 0)
    assert "glue holds all of it together" in str(stop.remedy)
    assert stop.cures == ()


@pytest.mark.parametrize(
    ("width", "height", "room", "how"),
    [
        (371, 2000, "clear", "on edge"),
        (340, 2000, "tight", "on edge"),
        (310, 2000, "tight", "on edge"),
        (2000, 371, "clear", "on edge"),
        (2000, 355, "clear", "flat"),
    ],
)
def test_a_door_wants_fifty_more_each_way(width, height, room, how):
    """320 x 300 across: on edge 300 wide and 320 high."""
    book, body = only(CASE + door(width, height))

    (passed,) = body.ways
    assert (passed.room, passed.way.how) == (room, how)
    assert [one.severity for one in found_in(book, "tight-way")] == [Severity.WARN] * (room == "tight")


def test_a_door_too_narrow_is_a_stop_and_the_first_on_the_way_is_the_one_that_is_told():
    book, _ = only(CASE + door(250, 260) + door(200, 200))

    (stop,) = found_in(book, "not-carried-in")
    assert "does not pass door 1" in str(stop.says)


def test_a_wide_board_is_turned_in_the_door():
    """2050 x 2030 x 20 through 800 x 2000: not on edge; leaning in the opening it goes."""
    text = HEAD + board("wide", "[[0, 10], [2050, 10]]", 2030)
    _, body = only(text + door(800, 2000))

    (passed,) = body.ways
    assert (passed.room, passed.way.how) == ("clear", "turned")
    assert 45 < passed.way.lean < 90


def test_the_way_is_as_the_file_has_it_the_van_first_and_after_moves_one():
    text = ONE + (
        '[[turn]]\nname = "corner"\nwidth = 900\ninto = 900\nheight = 2400\n'
        + door(900, more='name = "front"\n')
        + '[[stair]]\nname = "flight"\nwidth = 900\nheadroom = 2000\npitch = 38\nafter = "front"\n'
        + door(900, more='name = "flat"\nafter = "corner"\n')
        + "[van]\nlength = 3000\nwidth = 1200\nheight = 1400\n"
    )
    book, _ = only(text)

    assert [one.name for one in book.found(Carrying).way] == ["the van", "corner", "flat", "front", "flight"]
    assert book.found(Carrying).lost == ()


def test_an_after_that_names_nothing_or_goes_round_is_told():
    text = ONE + door(900, more='name = "a"\nafter = "b"\n') + door(900, more='name = "b"\nafter = "a"\n')
    book, _ = only(text)

    assert [str(one.says) for one in found_in(book, "way-not-clear")] == [
        "a is to come after b, which is not on the way before it",
        "b is to come after a, which is not on the way before it",
    ]


def test_a_board_longer_than_the_van_lies_across_it_or_projects_and_the_rules_are_told():
    """2400 x 300: 2300 x 1200 has it from corner to corner; out of 1700 x 400 it projects by 700."""
    _, across = only(ONE + "[van]\nlength = 2300\nwidth = 1200\nheight = 400\n")
    assert across.ways[0].way.how == "across"

    book, behind = only(ONE + '[van]\nlength = 1300\nwidth = 400\nheight = 400\ncountry = "UK"\n')
    (passed,) = behind.ways
    assert passed.way.behind == pytest.approx(1100.0)
    (warn,) = found_in(book, "behind-the-van")
    assert warn.severity is Severity.WARN
    assert "over 1 m it must be made clearly visible" in str(warn.remedy)
    assert "as they are now" in str(warn.remedy)
    (elsewhere,) = found_in(book_of(ONE + "[van]\nlength = 1300\nwidth = 400\nheight = 400\n"), "behind-the-van")
    assert "what rules hold there" in str(elsewhere.remedy)


@pytest.mark.parametrize(
    ("behind", "country", "words"),
    [
        (900, "UK", "nothing more"),
        (1500, "UK", "clearly visible"),
        (2500, "UK", "marker boards"),
        (3100, "UK", "police"),
        (1200, "Germany", "red flag, 300 x 300"),
        (2000, "Germany", "100 km"),
        (3100, "Germany", "not allowed"),
    ],
)
def test_the_rules_for_loads_behind_go_by_their_lengths(behind, country, words):
    """UK: 1, 2 and 3.05 m (regulation 82); Germany: a flag over 1 m, 1.5 m, 3 m within 100 km (StVO section 22)."""
    assert words in asked_for(behind, country)
    assert set(RULES) == set(SOURCES)
    assert asked_for(behind, "") == ""


def test_what_is_raked_is_measured_in_the_least_box_turned():
    """A board leaning 45 degrees is no square: 1414 long."""
    text = HEAD + board("raking", "[[0, 0], [1000, 1000]]", 300, 'ends = "square"\n')
    _, body = only(text)

    long, wide, thick = body.boxes[0]
    assert (long, wide, thick) == (pytest.approx(1414.2, abs=0.1), 300.0, pytest.approx(20.0, abs=0.01))


def test_an_open_brace_goes_round_a_turn_by_its_outline_where_its_box_does_not():
    """A foot 2010 long, a post 1500 high, a brace between their ends: a triangle in a box 2010 x 1500 x 300."""
    text = HEAD + (
        board("foot", "[[0, 10], [2010, 10]]", 300)
        + board("post", "[[10, 20], [10, 1500]]", 300)
        + board("brace", "[[100, 1400], [1900, 60]]", 300, 'ends = "square"\n')
        + '[[turn]]\nname = "corner"\nwidth = {0}\ninto = {0}\nheight = 2000\n'
    )
    book, body = only(text.format(920))
    (passed,) = body.ways

    assert (passed.outline, passed.way.how) == (True, "tilted")
    assert found_in(book, "not-carried-in") == []
    assert found_in(book_of(text.format(700)), "not-carried-in") != []


# --- standing up -------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("ceiling", "codes"), [(2500, []), (2450, ["tight-way"]), (2410, ["not-stood-up"])], ids=["room", "tight", "none"]
)
def test_a_case_2400_high_and_300_deep_wants_2419_to_be_stood_up(ceiling, codes):
    text = HEAD + (
        '[[frame]]\nname = "case"\npoints = [[0, 0], [600, 0], [600, 2400], [0, 2400]]\nsize = "outside"\n'
        f"depth = 300\n[wall]\nceiling = {ceiling}\n{door(900)}"
    )
    book, body = only(text)

    assert body.upright == pytest.approx(2418.7, abs=0.05)
    assert [one.code for one in found_in(book, "tight-way", "not-stood-up")] == codes


def test_without_a_ceiling_or_a_way_it_is_said_that_they_were_not_looked_at():
    def open_in(text):
        return [str(one.what) for one in book_of(text).not_checked if one.study == "carrying"]

    assert open_in(ONE) == ["how it is carried in"]
    assert open_in(ONE + door(900)) == ["standing it up in the room"]
    assert open_in(ONE + door(900) + "[wall]\nceiling = 2500\n") == []
    unknown = ONE.replace("oak, European", "unobtainium") + door(900) + "[wall]\nceiling = 2500\n"
    assert open_in(unknown) == ["how many people carry long"]


# --- cures -------------------------------------------------------------------------------------------------

DRY = (
    HEAD
    + board("left", "[[300, 0], [300, 1000]]", 300)
    + board("right", "[[1100, 0], [1100, 1000]]", 300)
    + board("low", "[[0, 300], [1400, 300]]", 300)
    + board("divider", "[[700, 310], [700, 700]]", 250)
    + board("high", "[[0, 710], [1400, 710]]", 300)
)


def test_a_whole_piece_that_does_not_pass_is_taken_apart_at_its_dry_joints_where_its_parts_pass():
    """1400 x 1000 x 300 does not pass 800 x 900; boards 300 deep do, two shelves with their divider, 430 high, do."""
    text = DRY + door(800, 900)
    (stop,) = found_in(book_of(text), "not-carried-in")

    (cure,) = stop.cures
    assert str(stop.remedy) == str(cure.label) == "carry it as 1 unit and 2 loose boards"
    after, job = change_job_text(text, cure.edits, "job.toml")
    assert job is not None
    mended = build(job)
    assert found_in(mended, "not-carried-in") == []
    assert {len(body.boards) for body in mended.found(Carrying).bodies} == {1, 3}
    assert '["low", "divider", "high"]' in after


def test_where_its_parts_do_not_pass_either_no_cure_is_offered_and_which_part_is_told():
    (stop,) = found_in(book_of(DRY + door(400, 330)), "not-carried-in")

    assert stop.cures == ()
    assert "taken apart at its dry joints" in str(stop.remedy)
    assert "with 2 boards glued to it" in str(stop.remedy)


def test_a_unit_that_does_not_pass_is_made_two():
    text = (
        DRY
        + '[[unit]]\nname = "all"\nboards = ["low", "divider", "high", "left", "right"]\n'
        + board("top", "[[0, 1010], [1400, 1010]]", 300)
    )
    (stop,) = found_in(book_of(text + door(800, 900)), "not-carried-in")

    (cure,) = stop.cures
    _, job = change_job_text(text + door(800, 900), cure.edits, "job.toml")
    assert found_in(build(job), "not-carried-in") == []


def test_a_loose_board_too_long_for_a_corner_is_divided_where_that_is_sound():
    """2400 long over uprights at 300, 1200 and 2100; a corner of 700 and 700 under 1200 lets some 1700 pass."""
    uprights = "".join(board(f"u{n}", f"[[{x}, 0], [{x}, 400]]", 300) for n, x in enumerate((200, 1200, 2200), start=1))
    text = HEAD + board("long", "[[0, 300], [2400, 300]]", 300, 'place = "last"\n') + uprights
    way = "[[turn]]\nwidth = 700\ninto = 700\nheight = 320\n"
    (stop,) = found_in(book_of(text + way), "not-carried-in")

    assert stop.where.boards == ("long",)
    (cure,) = stop.cures
    assert "divide it" in str(cure.label)
    _, job = change_job_text(text + way, cure.edits, "job.toml")
    mended = build(job)
    assert found_in(mended, "not-carried-in") == []
    assert len(mended.piece.parts) == 5


# --- mass --------------------------------------------------------------------------------------------------


def test_a_unit_that_was_weighed_is_reckoned_as_it_is_and_others_with_a_fifth_more():
    unit = '[[unit]]\nname = "shelves"\nboards = ["low", "divider", "high"]\n'
    worked, weighed = (
        next(body for body in book_of(DRY + unit + more).found(Carrying).bodies if body.name == "shelves")
        for more in ("", "mass_kg = 21.5\n")
    )

    assert worked.reckoned_kg == pytest.approx(1.2 * worked.mass_kg)
    assert (weighed.mass_kg, weighed.reckoned_kg) == (21.5, 21.5)
    with pytest.raises(JobError, match="mass_kg"):
        read_job_text(DRY + unit + "mass_kg = -2\n")


def test_what_is_too_heavy_is_a_warning_that_says_what_may_be_lifted():
    """A case weighed at 60 kg, hung between elbow and shoulder: three may lift 30."""
    text = (
        CASE.replace(", 0]", ", 1150]").replace(", 300]", ", 1450]")
        + '[wall]\nhung = true\n[[unit]]\nname = "box"\nboards = ["case"]\nmass_kg = 60\n'
        + board("shelf", "[[0, 1600], [600, 1600]]", 200)
        + door(900)
    )
    book = book_of(text)
    (warn,) = [one for one in found_in(book, "heavy-to-carry") if "box" in str(one.says)]

    assert warn.severity is Severity.WARN
    assert str(warn.says) == "box weighs 60 kg: three people may lift 30 kg into its place at most"


def test_what_is_too_heavy_is_told_of_a_job_that_says_nothing_of_its_way_too():
    """The same case, no door given: it is lifted all the same."""
    text = (
        CASE.replace(", 0]", ", 1150]").replace(", 300]", ", 1450]")
        + '[wall]\nhung = true\n[[unit]]\nname = "box"\nboards = ["case"]\nmass_kg = {}\n'
        + board("shelf", "[[0, 1600], [600, 1600]]", 200)
    )
    book = book_of(text.format(60))

    assert [str(one.says) for one in found_in(book) if "box" in str(one.says)] == [
        "box weighs 60 kg: three people may lift 30 kg into its place at most"
    ]
    assert [str(one.what) for one in book.not_checked if one.study == "carrying"] == ["how it is carried in"]
    assert [one for one in found_in(book_of(text.format(8))) if "box" in str(one.says)] == []


def test_up_a_flight_the_lower_one_of_two_counts():
    """20.0 kg weighed, 2400 x 320 x 300, 38 degrees: 150 over the hands: 0.549, so 30.4 kg may; 35 may not."""
    text = CASE + "[[stair]]\nwidth = 900\nheadroom = 2000\npitch = 38\n"
    unit = '[[unit]]\nname = "box"\nboards = ["case"]\nmass_kg = {}\n' + board("more", "[[0, 900], [600, 900]]", 200)

    def box(mass):
        book = book_of(text + unit.format(mass))
        return book, next(body for body in book.found(Carrying).bodies if body.name == "box")

    _, light = box(20)
    book, heavy = box(32)
    assert light.lower == pytest.approx(0.549, abs=0.0006)
    assert (light.stairs.count, heavy.stairs.count) == (2, None)
    assert heavy.stairs.may_kg == pytest.approx(30.4, abs=0.05)
    assert "two people may take 30 kg up the stair at most" in {
        str(one.says).partition(": ")[2] for one in found_in(book)
    }
