"""The order on the wall as the job gives it: a level shelf crossed by two uprights, all loose, halved for each other.

Left alone, the shelf lies first and both uprights drop in from the wall's side or the front. Whatever places are given,
the steps come in their order; what is locked in by others cannot be last, and what bars it is named.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book import build, change_job_text, read_job_text
from dryfit.findings import Severity
from dryfit.piece.history import rank
from dryfit.sentences import Voice, told
from dryfit.studies.order.result import Order

HEAD = 'dryfit = 1\n[timber.oak]\nspecies = "oak, European"\nthickness = 24\n'
NAMES = ("shelf", "left", "right")


def board(name, line, place=None, more=""):
    word = "" if place is None else f'place = "{place}"\n' if isinstance(place, str) else f"place = {place}\n"
    return f'[[board]]\nname = "{name}"\nline = {line}\ndepth = 200\n{word}{more}'


def grid(shelf=None, left=None, right=None, more=""):
    return (
        HEAD
        + board("shelf", "[[0, 400], [900, 400]]", shelf)
        + board("left", "[[200, 0], [200, 800]]", left)
        + board("right", "[[700, 0], [700, 800]]", right)
        + more
    )


def put_in(book):
    """Boards in the order in which they are put in, what lies first before all."""
    last = book.found(Order).stages[-1]
    return [*last.first, *(part for step in last.steps for part in step.parts)]


PLACE = st.sampled_from([None, "first", 1, 2, "last"])


@given(places=st.tuples(PLACE, PLACE, PLACE))
@settings(max_examples=20)
def test_steps_come_in_the_order_of_the_places_that_the_job_gives(places):
    book = build(read_job_text(grid(*places)))
    ranks = dict(zip(NAMES, map(rank, places), strict=True))

    assert [ranks[name] for name in put_in(book)] == sorted(ranks.values())
    assert not book.found(Order).refused


def test_the_shelf_that_is_to_go_in_last_drops_onto_both_uprights_whose_slots_open_to_the_front():
    book = build(read_job_text(grid(shelf="last")))

    assert put_in(book)[-1] == "shelf"
    assert [joint.making.front for joint in book.piece.joints] == ["left", "right"]


def test_a_unit_keeps_its_place_in_the_old_word_too():
    post = board("post", "[[450, 400], [450, 800]]")
    unit = '[[unit]]\nname = "u"\nboards = ["shelf", "post"]\nlast = true\n'

    assert set(put_in(build(read_job_text(grid(more=post + unit))))[-2:]) == {"shelf", "post"}


# ---- a shelf housed dry between two sides, both housings stopped at both ends: it goes in before the second side

STOPPED = '[[joint]]\nbetween = ["shelf", "{}"]\nkind = "housing"\nglued = false\nstop = "both"\n'


def boxed(place):
    sides = board("left", "[[0, 0], [0, 800]]") + board("right", "[[900, 0], [900, 800]]")
    ties = board("top", "[[0, 800], [900, 800]]") + board("bottom", "[[0, 0], [900, 0]]")
    shelf = board("shelf", "[[0, 400], [900, 400]]", place)
    return HEAD + sides + ties + shelf + STOPPED.format("left") + STOPPED.format("right")


def test_a_place_that_cannot_be_kept_is_refused_and_what_bars_it_is_named():
    """Stopped at both ends, the shelf must be there before the second side: it cannot be last."""
    text = boxed("last")
    book = build(read_job_text(text))

    (found,) = [one for one in book.findings if one.code == "place-not-kept"]
    assert found.severity is Severity.STOP
    says = told(found.says, Voice())
    assert says.startswith("shelf cannot be put in last, for straight moves: ")
    assert "left" in says or "right" in says
    assert "no-order" not in {one.code for one in book.findings}, "the order is told without the place"

    (cure,) = found.cures
    _, after = change_job_text(text, cure.edits)
    assert "place-not-kept" not in {one.code for one in build(after).findings}


@pytest.mark.parametrize("place", [None, "first"])
def test_where_the_place_can_be_kept_nothing_is_said(place):
    assert "place-not-kept" not in {one.code for one in build(read_job_text(boxed(place))).findings}
