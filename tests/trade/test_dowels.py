"""Dowels as they are sold: against what practice asks of them, board by board.

A board 24 thick: two thirds are 16, a third of a dowel of 50; 34 in the end. The hole is 17 deep: 7 stay behind it.
"""

import pytest

from dryfit.trade.dowels import DEEPER, DIAMETERS, LENGTHS, across_a_face, diameter_for, in_line, with_in_face

NOMINAL = [12, 15, 18, 19.05, 20, 22, 24, 25.4, 27, 30, 32, 40]


def tenths(low, high):
    return [low + 0.05 * step for step in range(round((high - low) / 0.05) + 1)]


@pytest.mark.parametrize(
    ("thickness", "diameter", "length", "in_face"),
    [(12, 6, 25, 6), (18, 6, 35, 12), (20, 8, 35, 12), (24, 8, 50, 16), (27, 10, 50, 16), (30, 10, 60, 20)],
)
def test_the_dowel_for_a_board(thickness, diameter, length, in_face):
    size = diameter_for(thickness)
    dowel = next(across_a_face(thickness, size))
    assert (size, dowel.length, dowel.in_face) == (diameter, length, in_face)


@pytest.mark.parametrize("nominal", NOMINAL)
def test_boards_of_one_nominal_thickness_get_one_drill_and_one_depth(nominal):
    """Half a millimetre either way, as boards come off the planer."""
    found = {(diameter_for(t), next(across_a_face(t, diameter_for(t)))) for t in tenths(nominal - 0.4, nominal + 0.4)}
    assert len(found) == 1


def test_it_stands_half_to_two_thirds_deep_with_about_five_left_behind_and_at_least_as_deep_in_the_end():
    """Common practice; over 30 thick the longest as sold sets it."""
    for t in tenths(14.5, 60.0):
        for dowel in list(across_a_face(t, diameter_for(t)))[:1]:
            assert dowel.length in LENGTHS
            assert min(t / 2, 20.0) - 0.5 * (t < 17.5) <= dowel.in_face <= 2 / 3 * t + 1.0, t
            assert t - dowel.in_face - DEEPER >= 4.5
            assert dowel.in_end >= 1.8 * dowel.in_face


@pytest.mark.parametrize("size", DIAMETERS)
def test_no_dowel_is_so_long_that_it_stands_far_over_three_diameters_in_both_boards(size):
    """A trade text on sizes of dowels: three diameters in each."""
    for dowel in across_a_face(40.0, size):
        assert dowel.length <= 6.5 * size
    half = in_line(size).in_face
    assert half == in_line(size).in_end
    assert half <= 3.25 * size
    assert half >= min(2.75 * size, LENGTHS[-1] / 2)


@pytest.mark.parametrize(("in_face", "length"), [(8, 25), (12, 35), (22, 60), (40, 80)])
def test_a_depth_that_the_maker_gives_gets_the_length_as_sold_of_which_it_is_about_a_third(in_face, length):
    assert with_in_face(in_face).length == length


def test_in_a_thin_board_five_are_left_behind_whatever_is_left_for_the_dowel():
    assert next(across_a_face(10.0, 6.0)).in_face == 4.0
