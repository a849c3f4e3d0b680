"""The ruler of a sheet: true scale everywhere, breaks only in clear wood, every cut with 30 either side kept."""

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from dryfit.documents.sheets.dimensions.ruler import GAP, KEPT, SCALES, broken, clipped, ways, whole


@st.composite
def long_boards(draw):
    """A board of 3 to 6 m with up to eight cuts of 24 in it."""
    length = draw(st.floats(3000, 6000))
    cuts = sorted(draw(st.lists(st.floats(50, length - 80), max_size=8)))
    return length, [(a, a + 24.0) for a in cuts]


@given(long_boards())
def test_a_broken_board_shows_every_cut_true_and_fits(board):
    length, cuts = board
    ruler = broken(0.0, length, 22.4, 0.1, 262.0, cuts)
    assume(ruler is not None)

    assert ruler.right <= 22.4 + 262.0 + 1e-6
    for low, high in cuts:
        reach = ruler.x(min(high + KEPT, length)) - ruler.x(max(low - KEPT, 0.0))
        assert reach == pytest.approx((min(high + KEPT, length) - max(low - KEPT, 0.0)) * 0.1, abs=1e-6)
    for (left, right), before, after in zip(ruler.breaks, ruler.pieces, ruler.pieces[1:], strict=False):
        assert right - left == pytest.approx(GAP)
        assert not any(low < after.start and high > before.end for low, high in cuts), "a break holds no cut"


@given(st.floats(10, 100_000))
def test_every_part_has_a_way_to_be_drawn_at_a_standard_scale(length):
    rulers = list(ways(0.0, length, 22.4, 262.0, []))

    assert all(ruler.right <= 22.4 + 262.0 + 1e-6 for ruler in rulers)
    assert rulers[0].scale in SCALES or length > 5240


def test_a_board_of_2600_is_drawn_whole_at_one_to_ten_and_one_of_4000_is_broken():
    assert (whole(0, 2600, 0, 0.1).right, next(ways(0, 2600, 0, 262, [])).breaks) == (260.0, [])
    assert len(next(ways(0, 4000, 0, 262, [(1900, 1924)])).breaks) == 2


def test_an_outline_is_opened_where_it_is_cut():
    loop = [(0.0, 0.0), (100.0, 0.0), (100.0, 10.0), (0.0, 10.0)]

    assert clipped(loop, -1, 101) == [[*loop, loop[0]]]
    assert clipped(loop, -1, 40) == [[(40.0, 10.0), (0.0, 10.0), (0.0, 0.0), (40.0, 0.0)]]
