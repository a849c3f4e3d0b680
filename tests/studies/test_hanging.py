"""Which way a piece goes up: by hand-reckoned lifts.

One man lifts 20 kg with his hands between elbow and shoulder (1120 to 1450), two 26.7 and three 30; a fifth is added to
what is worked out. So 16 kg are 19.2: one; 17 are 20.4: two; 23 are 27.6: three; 26 are 31.2: nobody.
"""

import pytest

from dryfit.book import build, read_job_text
from dryfit.studies.hanging import HangingStudy, HangingValue, LoadValue
from dryfit.study.base import Work

from ..hanging_jobs import hung

HIGH = (1200.0, 1400.0)  # well within the zone of elbow and shoulder


def load(mass, says="it", *, long=1000.0, held=HIGH, begins=None, holding=0):
    return LoadValue(
        says=says,
        parts=(says,),
        mass_kg=mass,
        long=long,
        wide=long,
        deep=200.0,
        held=held,
        begins=begins or held,
        holding=holding,
    )


def found(whole, steps, *, on_floor=True, on_wall=None, asked=False, stands=False):
    value = HangingValue(
        whole=whole,
        steps=tuple(steps),
        bodies=len(steps) or 2,
        stands=stands,
        on_floor=on_floor,
        on_wall=bool(steps) if on_wall is None else on_wall,
        asked=asked,
    )
    return HangingStudy().run(value, Work())


@pytest.mark.parametrize(("mass", "people"), [(16.0, 1), (17.0, 2), (23.0, 3), (26.0, None)])
def test_people_by_the_guideline_for_the_height_of_their_hands(mass, people):
    """Picked up from trestles at 800 one lifts 25, so the height at which it goes home counts."""
    (lift,) = found(load(mass), []).offers[0].lifts

    assert lift.people == people


def test_the_way_that_asks_for_less_mass_times_people_is_taken():
    """Whole: 20 kg by two, 40. In two of 10, by one each: 20."""
    result = found(load(20.0), [load(10.0), load(10.0)])

    assert [offer.kg_people for offer in result.offers] == [40.0, 20.0]
    assert (result.way, result.decider) == ("wall", "lifting")


def test_with_as_much_lifting_and_as_many_people_the_fewer_lifts_are():
    result = found(load(12.0), [load(6.0), load(6.0)])

    assert [offer.kg_people for offer in result.offers] == [12.0, 12.0]
    assert (result.way, result.decider) == ("floor", "fewer")


def test_what_hands_must_hold_meanwhile_asks_for_one_more_each():
    """12 kg whole by one; in two of 6, where one more holds the first: two at once."""
    result = found(load(12.0), [load(6.0), load(6.0, holding=1)])

    assert [offer.people for offer in result.offers] == [1, 2]
    assert (result.way, result.decider) == ("floor", "hands")


def test_what_three_may_not_lift_is_put_together_on_the_wall():
    result = found(load(60.0), [load(20.0), load(20.0), load(20.0)])

    assert result.offers[0].kg_people is None
    assert (result.way, result.decider) == ("wall", "lifting")


def test_where_both_ways_have_a_lift_too_heavy_for_three_the_lesser_excess_counts():
    result = found(load(60.0), [load(30.0), load(30.0)])

    assert [offer.kg_people for offer in result.offers] == [None, None]
    assert (result.way, result.decider) == ("wall", "lifting")


@pytest.mark.parametrize(
    ("options", "taken"),
    [
        ({"asked": True}, ("wall", "said")),
        ({"asked": True, "on_wall": False}, ("floor", "only")),
        ({"on_wall": False}, ("floor", "only")),
        ({"on_floor": False, "on_wall": False}, (None, "none")),
    ],
    ids=["the maker's word", "a word that can't be kept", "no way on the wall", "no way at all"],
)
def test_the_makers_word_counts_before_lifting_where_it_can_be_done(options, taken):
    steps = [load(6.0), load(6.0)] if options.get("on_wall", True) else []
    result = found(load(12.0), steps, **options)

    assert (result.way, result.decider) == taken


def test_without_masses_it_stays_on_the_floor_and_that_is_said():
    value = HangingValue(
        whole=load(None),
        steps=(load(None), load(None)),
        bodies=2,
        stands=False,
        on_floor=True,
        on_wall=True,
        asked=False,
    )
    study = HangingStudy()
    result = study.run(value, Work())

    assert (result.way, result.decider) == ("floor", "unknown")
    assert len(study.not_checked(value, result)) == 1


def test_a_way_in_that_begins_higher_is_lifted_as_high():
    """Between 1200 and 1400 one lifts 20; begun at 1600 to 1800, at 10: 10 kg, 12 with the margin, takes two."""
    low = found(load(10.0), []).offers[0].lifts[0]
    high = found(load(10.0, begins=(1600.0, 1800.0)), []).offers[0].lifts[0]

    assert (low.people, high.people) == (1, 2)


def test_what_stands_on_the_floor_is_tipped_up_with_half_its_mass_in_the_hands():
    """200 deep: hands near the floor, 10 kg: 16 kg, half of it 8, with the margin 9.6: one person."""
    (lift,) = found(load(16.0), [], stands=True).offers[0].lifts

    assert (lift.people, lift.hands) == (1, (0.0, 200.0))


def test_over_head_height_no_figure_holds():
    assert found(load(5.0, held=(1900.0, 1930.0)), []).offers[0].lifts[0].overhead
    assert not found(load(5.0), []).offers[0].lifts[0].overhead


@pytest.mark.parametrize(
    ("way", "taken", "lifts"),
    [("in one", ("floor", "only"), 1), ("base first", ("wall", "said"), 5), ("single boards", ("wall", "lifting"), 14)],
)
def test_the_record_wall_goes_up_the_way_its_job_asks_for_or_that_lifts_least(way, taken, lifts):
    result = build(read_job_text(hung(way))).studies["hanging"]

    assert (result.way, result.decider) == taken
    assert len(result.chosen.lifts) == lifts


def test_a_piece_that_hangs_nowhere_is_not_asked():
    text = 'dryfit = 1\n[timber.oak]\nspecies = "oak, European"\nthickness = 24\n'
    text += '[[board]]\nname = "a"\nline = [[0, 0], [900, 0]]\ndepth = 200\n'
    text += '[[board]]\nname = "b"\nline = [[450, 0], [450, 900]]\ndepth = 200\n'
    book = build(read_job_text(text))

    assert (book.studies["hanging"].way, book.studies["hanging"].decider) == (None, "free")
    assert "hanging" not in book.checked
    assert not any(one.study == "hanging" for one in book.not_checked)
