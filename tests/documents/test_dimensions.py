"""Running dimensions: level while they fit, then turned, then spread; order and distance are kept.

A figure of 3.5 such as "734.7" is 12.26 wide, so level figures want 14.26 from arrow to arrow.
"""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.documents.display import Display, Stroke, Text
from dryfit.documents.faults import faults
from dryfit.documents.lettering import width
from dryfit.documents.sheets.dimensions.plain import across, level
from dryfit.documents.sheets.dimensions.running import APART, Mark, drawn, plan, pooled

SAYS = "UPPER face, from the datum end"


def line(*xs):
    return plan(20.0, [Mark(x=x, figure=f"{x * 10:.1f}", foot=60.0, edge=60.0) for x in xs], SAYS)


def sheet(planned, away=1.0):
    y = 100.0 + planned.crank if away > 0 else 60.0 - planned.crank - 3.0
    return Display(width=297, height=210, items=tuple(drawn(planned, y + planned.over(away) - 36.0, away)))


@pytest.mark.parametrize(
    ("xs", "form"),
    [((60.0, 90.0, 200.0), "level"), ((60.0, 70.0, 200.0), "turned"), ((60.0, 62.0, 63.0), "spread")],
    ids=["room for all", "one too near", "much too near"],
)
def test_figures_stand_as_level_as_they_can(xs, form):
    assert line(*xs).form == form


def test_a_figure_ends_beside_its_own_arrow():
    planned = line(60.0, 90.0)

    figures = [item for item in drawn(planned, 50.0, -1.0) if isinstance(item, Text) and item.size == 3.5]

    assert [(t.text, t.anchor, t.at[0]) for t in figures] == [("600.0", "end", 59.1), ("900.0", "end", 89.1)]


def test_two_cuts_at_one_place_share_a_figure():
    assert len(line(60.0, 60.0, 90.0).marks) == 2


def test_the_words_go_into_a_gap_when_the_first_figure_is_near_the_datum():
    planned = line(45.0, 150.0)

    assert not planned.lifted
    assert 45.0 < planned.words_x < 150.0 - width(SAYS, 2.5)


def test_a_line_in_the_dimension_is_broken_where_the_wood_is():
    runs = [item.points for item in drawn(line(60.0, 200.0), 50.0, 1.0, [(100.0, 103.0)]) if isinstance(item, Stroke)]

    assert ((21.2, 50.0), (100.0, 50.0)) in runs
    assert ((103.0, 50.0), (200.0, 50.0)) in runs


@given(st.lists(st.floats(25, 250), min_size=1, max_size=24))
def test_no_running_line_collides_with_itself(xs):
    planned = line(*xs)

    assert [fault for fault in faults(sheet(planned)) if "off the sheet" not in fault] == []


@given(st.lists(st.floats(0, 300), min_size=1, max_size=40), st.floats(1, 6))
def test_pooled_places_keep_their_order_and_distance(xs, apart):
    wanted = sorted(xs)
    places = pooled(wanted, apart, -1e6)

    assert all(b - a >= apart - 1e-9 for a, b in pairwise(places))
    assert sum(places) == pytest.approx(sum(wanted), abs=1e-6), "spreading about the mean moves nothing on the whole"


@given(st.lists(st.floats(0, 300), min_size=1, max_size=40, unique=True), st.floats(1, 6))
def test_places_that_are_far_enough_apart_stay(xs, apart):
    wanted = [number * apart * 1.01 for number in range(len(xs))]

    assert pooled(wanted, apart, -1e6) == pytest.approx(wanted)


@pytest.mark.parametrize("high", [40.0, 4.0], ids=["roomy", "narrow"])
def test_a_plain_dimension_spans_what_it_measures(high):
    heads = [item for item in across(100.0, 50.0, 50.0 + high, "330") if hasattr(item, "loops")]

    assert sorted(head.loops[0][0][1] for head in heads) == [50.0, 50.0 + high]


@pytest.mark.parametrize("wide", [40.0, 4.0], ids=["roomy", "narrow"])
def test_a_level_dimension_has_its_figure_clear_of_its_line(wide):
    items = tuple(level(100.0, 100.0 + wide, 50.0, "24.45"))

    assert faults(Display(width=297, height=210, items=items)) == []


def test_turned_figures_are_kept_one_and_a_half_heights_apart():
    planned = line(60.0, 62.0, 63.0)

    assert planned.places[1] - planned.places[0] == pytest.approx(APART * planned.size)
