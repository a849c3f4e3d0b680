"""Running dimensions: along their line while they fit, else across it and spread; order and distance are kept.

A figure of 3.5 such as "734.7" is 12.26 wide, so figures along the line want 13.76 from arrow to arrow.
"""

from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.documents.display import Area, Circle, Display, Stroke, Text
from dryfit.documents.faults import faults
from dryfit.documents.kit.dimension import DimensionMark, UnplacedDimension, plain, pooled, put
from dryfit.documents.kit.placing import FilledPaper
from dryfit.documents.lettering import width
from dryfit.documents.standard import FIGURE, LINE, TEXT

SAYS = "UPPER face, from the datum end"
WAYS = [(1.0, 0.0), (-1.0, 0.0), (0.0, -1.0), (0.6, -0.8)]


def line(*xs, breaks=(), way=(1.0, 0.0), side=1):
    """A running line on a sheet of its own, from 20 on."""
    paper = FilledPaper(297.0)
    marks = [
        DimensionMark((20.0, 100.0)),
        *(DimensionMark((20.0 + (x - 20) * way[0], 100.0 + (x - 20) * way[1]), f"{x * 10:.1f}") for x in xs),
    ]
    placed = put(
        paper,
        UnplacedDimension(way=way, marks=tuple(marks), style="running", side=side, weight="bold", says=SAYS),
        breaks,
    )
    return placed, paper.items


def figures(items):
    return [item for item in items if isinstance(item, Text) and item.text != SAYS]


@pytest.mark.parametrize(
    ("xs", "turn"), [((60.0, 90.0, 200.0), 0.0), ((60.0, 70.0, 200.0), 90.0)], ids=["room for all", "one too near"]
)
def test_figures_stand_along_their_line_while_they_fit(xs, turn):
    _, items = line(*xs)

    assert {item.turn for item in figures(items)} == {turn}


def test_a_figure_ends_beside_its_own_arrow():
    _, items = line(60.0, 90.0)

    assert [(t.text, t.anchor, t.at[0]) for t in figures(items)] == [("600.0", "end", 59.0), ("900.0", "end", 89.0)]


def test_crowded_figures_are_spread_both_ways_from_their_arrows_and_not_before_the_circle():
    """Eight of 2.5, each 3.75 from the next, for arrows 1 apart from 60 on: half of them to either side of 63.5."""
    _, items = line(*(60.0 + number for number in range(8)))
    stands = sorted(item.at[0] for item in figures(items))

    assert sum(stands) / len(stands) == pytest.approx(63.5 + TEXT / 2, abs=TEXT)
    assert stands[0] < 60.0
    _, items = line(*(23.0 + number for number in range(8)))
    assert min(item.at[0] for item in figures(items)) > 20.0


def test_two_cuts_at_one_place_share_a_figure():
    _, items = line(60.0, 60.0, 90.0)

    assert [item.text for item in figures(items)] == ["600.0", "900.0"]


def test_the_words_go_into_a_gap_when_the_first_figure_is_near_the_datum():
    _, items = line(45.0, 150.0)
    (words,) = (item for item in items if isinstance(item, Text) and item.text == SAYS)

    assert words.at[0] > 45.0
    assert words.at[0] + width(SAYS, TEXT) < 150.0


def test_a_line_in_the_dimension_is_broken_where_the_wood_is():
    _, items = line(60.0, 200.0, breaks=[(100.0, 103.0)])
    circle = next(item for item in items if isinstance(item, Circle))
    runs = [
        tuple(x for x, _ in item.points)
        for item in items
        if isinstance(item, Stroke) and item.points[0][1] == circle.centre[1]
    ]

    assert runs == [(20.0 + circle.radius, 100.0), (103.0, 200.0)]


@given(st.lists(st.floats(25, 250), min_size=1, max_size=24), st.sampled_from([1, -1]))
def test_no_running_line_collides_with_itself(xs, side):
    placed, items = line(*xs, side=side)

    assert placed
    found = faults(Display(width=1000, height=400, items=tuple(items)))
    assert [fault for fault in found if "off the sheet" not in fault] == []


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


@pytest.mark.parametrize("way", WAYS, ids=["right", "left", "up", "raked"])
@pytest.mark.parametrize("long", [40.0, 4.0], ids=["roomy", "narrow"])
def test_a_plain_dimension_spans_what_it_measures_clear_of_its_line(way, long):
    paper = FilledPaper()
    end = (150.0 + long * way[0], 150.0 + long * way[1])

    assert put(paper, plain((150.0, 150.0), end, "24.45"))
    tips = [
        sum(a * b for a, b in zip(item.loops[0][0], way, strict=True)) for item in paper.items if isinstance(item, Area)
    ]
    assert abs(tips[1] - tips[0]) == pytest.approx(long)
    assert faults(Display(width=297, height=297, items=tuple(paper.items))) == []


def test_turned_figures_are_kept_one_and_a_half_heights_apart():
    _, items = line(60.0, 62.0, 63.0)
    places = [item.at[0] for item in figures(items)]

    assert places[1] - places[0] == pytest.approx(LINE * FIGURE)
