"""An axis of a drawing: true scale everywhere, breaks only in clear wood, every cut with 30 either side kept."""

from itertools import pairwise

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from dryfit.documents.kit.axis import ABOUT, Axis, clipped
from dryfit.documents.standard import BREAK, SCALES

START, ROOM = 22.4, 262.0


@st.composite
def long_boards(draw):
    """A board of 3 to 6 m with up to eight cuts of 24 in it."""
    length = draw(st.floats(3000, 6000))
    cuts = sorted(draw(st.lists(st.floats(50, length - 80), max_size=8)))
    return length, [(a, a + 24.0) for a in cuts]


@given(long_boards())
def test_a_broken_board_shows_every_cut_true_and_fits(board):
    length, cuts = board
    axis = Axis.fitted(ROOM, 0.0, length, cuts, START)
    assume(axis.breaks)

    assert axis.right <= START + ROOM + 1e-6
    for low, high in cuts:
        kept = (max(low - ABOUT, 0.0), min(high + ABOUT, length))
        assert axis.at(kept[1]) - axis.at(kept[0]) == pytest.approx((kept[1] - kept[0]) * axis.scale, abs=1e-6)
    for (left, right), (before, after) in zip(axis.breaks, pairwise(axis.pieces), strict=True):
        assert right - left == pytest.approx(BREAK)
        assert not any(low < after.low and high > before.high for low, high in cuts), "a break holds no cut"


@given(st.floats(10, 100_000))
def test_every_part_has_a_way_to_be_drawn_at_a_standard_scale(length):
    axes = list(Axis.ways(ROOM, 0.0, length, [], START))

    assert all(axis.right <= START + ROOM + 1e-6 or axis.scale == SCALES[-1] for axis in axes)
    assert all(axis.scale in SCALES for axis in axes)


@given(long_boards(), st.lists(st.floats(0, 6000), min_size=2, max_size=2))
def test_what_lies_farther_along_never_stands_before(board, places):
    axis = Axis.fitted(ROOM, 0.0, board[0], board[1], START)
    first, last = sorted(places)

    assert axis.at(first) <= axis.at(last) + 1e-9


def test_a_board_of_2600_is_drawn_whole_at_one_to_ten_and_one_of_4000_is_broken():
    first = Axis.fitted(ROOM, 0.0, 2600.0, [])
    assert (first.scale, first.right, first.breaks) == (0.1, 260.0, [])
    assert len(Axis.fitted(ROOM, 0.0, 4000.0, [(1900.0, 1924.0)]).breaks) == 2


def test_an_outline_is_opened_where_it_is_cut():
    loop = [(0.0, 0.0), (100.0, 0.0), (100.0, 10.0), (0.0, 10.0)]

    assert clipped(loop, -1, 101) == [[*loop, loop[0]]]
    assert clipped(loop, -1, 40) == [[(40.0, 10.0), (0.0, 10.0), (0.0, 0.0), (40.0, 0.0)]]
