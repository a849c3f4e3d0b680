"""Areas, litres and hours of coats, by hand.

A board 1000 x 200 x 20 has 2 x (0.2 + 0.02 + 0.004) = 0.448 m2. Two coats of it are 0.896 m2; where a litre covers 8 m2
they take 0.112 l, and a tenth more for what is lost. Hours: 12 to the second coat (application sheet of a solvent-borne
polyurethane varnish) and 7 days until it is hard are 180 (worked case S9 of the stages).
"""

import pytest

from dryfit.book import build, read_job_text
from dryfit.studies.buying.result import Buying
from dryfit.studies.coating.result import Coating

HEAD = 'dryfit = 1\n[timber.oak]\nspecies = "oak, European"\nthickness = 20\n[wall]\nhung = true\n'
VARNISH = '[finish]\nsystem = "varnish, polyurethane"\ncoats = 2\ncoverage = 8\n'


def board(name, line, more=""):
    return f'[[board]]\nname = "{name}"\nline = {line}\ndepth = 200\n{more}'


ONE = board("a", "[[0, 500], [1000, 500]]")


def crossed(finish, a="", b=""):
    return HEAD + finish + board("a", "[[0, 500], [1000, 500]]", a) + board("b", "[[500, 0], [500, 1000]]", b)


def book_of(text):
    return build(read_job_text(text))


def coating(text):
    return book_of(text).found(Coating)


def test_area_litres_and_hours_of_one_board():
    found = coating(HEAD + VARNISH + ONE)

    (own,) = found.boards
    assert (own.open_m2, own.edges_m2, own.coats) == (pytest.approx(0.448), pytest.approx(0.048), 2)
    (stage,) = found.stages
    assert (stage.m2, stage.litres) == (pytest.approx(0.896), pytest.approx(0.112 * 1.1))
    assert (stage.next_h, stage.hard_h) == (24.0, 180.0)
    assert (found.covers, found.covers_from) == (8.0, "the job file")


def test_what_is_masked_is_not_coated_and_what_is_coated_in_a_joint_is():
    masked = coating(crossed(VARNISH + 'when = "before glue"\n'))
    coated = coating(crossed(VARNISH + 'when = "before glue"\njoint_zones = "coated"\n'))

    hidden = masked.boards[0].masked_m2
    assert hidden > 0
    assert (masked.boards[0].coated_m2, coated.boards[0].masked_m2) == (0.0, 0.0)
    assert coated.boards[0].coated_m2 == pytest.approx(hidden)
    assert coated.stages[0].m2 - masked.stages[0].m2 == pytest.approx(2 * 2 * hidden, rel=0.01)  # slots are wider by it


def test_coats_that_are_divided_are_two_stages_and_the_later_ones_do_not_reach_into_joints():
    found = coating(crossed(VARNISH + 'when = "before glue"\ncoats_before = 1\njoint_zones = "coated"\n'))

    before, after = found.stages
    assert [(one.when, one.coats) for one in found.stages] == [("before glue", 1), ("after glue", 1)]
    assert before.m2 - after.m2 == pytest.approx(sum(board.coated_m2 for board in found.boards))


def test_a_board_without_a_finish_takes_none_and_none_is_ordered_for_it():
    book = book_of(crossed(VARNISH + 'when = "after glue"\n', b='when = "none"\n'))

    a, b = book.found(Coating).boards
    assert (b.coats, book.found(Coating).stages[0].boards) == (0, ("a",))
    assert book.found(Buying).finish.m2 == pytest.approx(a.open_m2)


@pytest.mark.parametrize(
    ("system", "heats", "fumes"),
    [("varnish, polyurethane", True, True), ("varnish, water-borne", False, False), ("shellac", False, True)],
)
def test_cautions_go_by_what_the_finish_is(system, heats, fumes):
    found = coating(HEAD + VARNISH.replace("varnish, polyurethane", system) + ONE)

    assert (found.self_heating, found.fumes) == (heats, fumes)


def test_of_a_finish_that_is_not_known_the_worst_is_assumed_and_its_times_stay_open():
    text = HEAD + '[finish]\nsystem = "bees and beeswax"\ncoats = 1\n' + ONE
    book = book_of(text)

    found = book.found(Coating)
    assert (found.self_heating, found.fumes, found.stages[0].litres, found.stages[0].hard_h) == (True, True, None, None)
    assert {str(one.what) for one in book.not_checked if one.study == "coating"} == {
        "how much finish it takes",
        "how long it dries",
    }


def test_without_a_word_of_when_on_site_nothing_is_worked_out():
    book = book_of(crossed(VARNISH, a='place = "first"\n'))

    assert [str(one.why) for one in book.not_checked if one.study == "coating"] == [
        "the job does not say when anything is coated"
    ]


def waits(text):
    return [(one.after, one.until, one.hours) for one in coating(text).waits]


GLUED = '[joints."cross halving"]\nglued = true\n'


@pytest.mark.parametrize(
    ("finish", "more", "asked"),
    [
        ('when = "after glue"\n', GLUED, [("glue", "coated", 24.0), ("after glue", "carried", 180.0)]),
        ('when = "after glue"\n', "", [("after glue", "carried", 180.0)]),
        ('when = "before glue"\n', "", [("before glue", "carried", 180.0)]),
        (
            'when = "before glue"\n',
            GLUED,
            [("before glue", "glued", 24.0), ("glue", "carried", 24.0), ("before glue", "carried", 132.0)],
        ),
        (
            'when = "before glue"\ncoats_before = 1\n',
            GLUED,
            [("before glue", "glued", 12.0), ("glue", "coated", 24.0), ("after glue", "carried", 168.0)],
        ),
        ('when = "on site"\n', "", [("on site", "lived with", 180.0)]),
    ],
    ids=["after glue", "nothing glued", "before, dry", "before, glued", "divided", "on site"],
)
def test_the_job_waits_for_glue_to_set_for_coats_to_dry_and_until_it_is_hard(finish, more, asked):
    """Two coats, 12 h and 7 days: 24 h until dry, 180 until hard; glue sets in 24: 180 - 24 - 24 = 132 are left."""
    assert waits(crossed(VARNISH + finish) + more) == asked


def test_of_a_finish_whose_times_are_not_known_the_wait_is_not_either():
    text = crossed('[finish]\nsystem = "bees and beeswax"\ncoats = 1\nwhen = "after glue"\n')

    assert waits(text) == [("after glue", "carried", None)]
