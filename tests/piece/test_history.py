"""The life of boards and what lies between them: a glued unit of two, a loose board, and what contradicts itself.

The unit is a shelf on a post; the loose board, an upright, crosses the shelf. Two coats of 0.04 are 0.08 on a face.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book import build, change_job_text, read_job_text
from dryfit.book.building import piece_of
from dryfit.findings import Severity
from dryfit.piece.history import Stage
from dryfit.sentences import Voice, told

COATS = '[finish]\nsystem = "demo"\ncoats = 2\nfilm = 0.04\n'
UNIT = '[[unit]]\nname = "u"\nboards = ["shelf", "post"]\n'


def board(name, line, more=""):
    return f'[[board]]\nname = "{name}"\nline = {line}\ndepth = 200\n{more}'


def job(finish="", shelf="", post="", upright="", more=""):
    return (
        'dryfit = 1\n[timber.oak]\nspecies = "oak, European"\nthickness = 24\n[wall]\nhung = true\n'
        + (COATS + finish if finish is not None else "")
        + board("shelf", "[[0, 400], [900, 400]]", shelf)
        + board("post", "[[100, 0], [100, 400]]", post)
        + board("upright", "[[600, 0], [600, 800]]", upright)
        + more
    )


def history(text):
    return piece_of(read_job_text(text)).history


def stops(text):
    return {found.code: found for found in piece_of(read_job_text(text)).findings if found.severity is Severity.STOP}


def test_a_unit_is_glued_coated_and_carried_and_a_loose_board_is_only_coated_and_carried():
    lives = history(job('when = "after glue"\n', more=UNIT)).lives

    assert lives["shelf"].stages == (Stage.CUT, Stage.GLUED, Stage.COATED, Stage.CARRIED, Stage.PUT_IN)
    assert lives["upright"].stages == (Stage.CUT, Stage.COATED, Stage.CARRIED, Stage.PUT_IN)


def test_without_units_all_goes_together_in_the_shop_and_after_glue_is_after_that():
    found = history(job('when = "after glue"\njoint_zones = "coated"\n'))

    assert not found.on_site
    assert {contact.stage for contact in found.contacts.values()} == {Stage.GLUED}
    assert {zone.state for contact in found.contacts.values() for zone in contact.zones} == {"bare"}


@pytest.mark.parametrize(
    ("zones", "glued", "state", "film", "wall"),
    [
        ("masked", "false", "masked", 0.0, 0.0),
        ("coated", "false", "coated", 0.08, 0.08),
        ("walls masked", "false", "coated", 0.08, 0.0),
        ("coated", "true", "masked", 0.0, 0.0),
    ],
)
def test_a_coated_board_is_masked_or_carries_film_and_what_is_glued_is_masked_always(zones, glued, state, film, wall):
    word = f'[joints."cross halving"]\nglued = {glued}\n'
    found = history(job(f'when = "before glue"\njoint_zones = "{zones}"\n', more=word))

    zone = found.contacts["shelf", "upright"].of("upright")
    assert (zone.state, zone.film, zone.wall_film) == (state, film, wall)
    assert (("shelf", "upright") in found.masked("upright")) is (state == "masked")


def test_a_piece_that_goes_together_in_the_shop_is_settled_to_be_coated_after_glue():
    life = history(job()).lives["shelf"]

    assert (life.when, life.said) == ("after glue", False)


def test_what_was_settled_is_a_decision_that_can_be_kept():
    text = job()
    (decision,) = [one for one in piece_of(read_job_text(text)).decisions if one.about == "when it is coated"]

    assert (told(decision.value, Voice()), decision.decider) == ("after glue", "chosen")
    _, kept = change_job_text(text, [decision.keep])
    assert kept.finish.when == "after glue"
    assert not [one for one in piece_of(kept).decisions if one.about == "when it is coated"]


def test_where_units_meet_on_site_nothing_is_settled_and_it_is_said_to_be_open():
    text = job(upright='when = "none"\n', more=UNIT)
    piece = piece_of(read_job_text(text))

    assert piece.history.when("shelf") is None
    (left,) = [one for one in piece.not_checked if one.study == "stages"]
    assert left.where.boards == ("shelf", "post")
    assert told(left.what, Voice()) == "what is masked, and the film in the joints, of shelf and post"


def test_nothing_is_said_of_stages_where_there_are_none():
    piece = piece_of(read_job_text(job(None)))

    assert "stages" not in {*piece.checked, *(one.study for one in piece.not_checked)}


WHEN = st.sampled_from(["", "before glue", "after glue", "on site", "none"])


@given(whens=st.tuples(WHEN, WHEN, WHEN), united=st.booleans(), glued=st.booleans(), first=st.integers(0, 2))
@settings(max_examples=40)
def test_every_width_is_the_thickness_the_films_of_an_independent_reckoning_and_the_clearance(
    whens, united, glued, first
):
    """Coats on each board when the two meet, counted here from the words alone."""
    word = f'coats_before = {first}\njoint_zones = "coated"\n'
    texts = {name: f'when = "{when}"\n' if when else "" for name, when in zip(NAMES, whens, strict=True)}
    joints = f'[joints."cross halving"]\nclearance = 0.15\nglued = {str(glued).lower()}\n'
    piece = piece_of(read_job_text(job(word, **texts, more=(UNIT if united else "") + joints)))

    def film(when):
        on = {"before glue": 2 if united else first, "after glue": 2 if united else 0}.get(when, 0)
        return 0.0 if glued else on * 0.04

    shelf, _, upright = whens
    expected = 24 + 2 * film(shelf) + 2 * film(upright) + 0.15
    found = [cut.figures.across for part in piece.parts for cut in part.cuts if cut.word == "slot"]
    assert found == pytest.approx([expected] * 2)


NAMES = ("shelf", "post", "upright")


# --- what contradicts itself


def test_what_stands_on_another_cannot_be_put_in_before_it():
    divider = board("divider", "[[300, 400], [300, 800]]", 'place = "first"\n')
    text = job(None, shelf="place = 2\n", more=divider)

    found = stops(text)["in-before-its-support"]
    assert told(found.says, Voice()) == "divider is put in first, but it stands on shelf, which is put in as number 2"
    (sure,) = (one for one in build(read_job_text(text), paces=()).findings if one.code == found.code)
    assert [told(cure.label, Voice()) for cure in sure.cures] == ["leave the place of divider to be settled"]


def test_what_stands_on_another_may_be_put_in_with_it_or_after():
    for place in ("2", "3", '"last"'):
        divider = board("divider", "[[300, 400], [300, 800]]", f"place = {place}\n")
        assert "in-before-its-support" not in stops(job(None, shelf="place = 2\n", more=divider))


def test_a_board_of_two_units_is_carried_in_one_and_cannot_be_glued_up_in_the_other():
    text = job(None, more=UNIT + '[[unit]]\nname = "v"\nboards = ["post", "upright"]\n')

    found = stops(text)["glued-apart"]
    assert found.where.boards == ("post",)
    assert "post is carried in u" in told(found.says, Voice())
