"""Lengths in words. An inch is 25.4 exactly (1959 agreement), so 23 5/8 in is 600.075 and 2.6 m is 2600."""

import doctest

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit import lengths

LENGTHS = [
    ("2.6 m", 2600.0),
    ("12mm", 12.0),
    (" 3 cm ", 30.0),
    ("23 5/8 in", 600.075),
    ("7/8 in", 22.225),
    ('3"', 76.2),
    ("5 ft", 1524.0),
    ("-5/8 in", -15.875),
    (".5 in", 12.7),
]


@pytest.mark.parametrize(("text", "length"), LENGTHS, ids=[text for text, _ in LENGTHS])
def test_a_length_with_its_unit_is_read(text, length):
    assert lengths.parse_length(text) == length


@pytest.mark.parametrize("text", ["", "12", "in", "12 inches", "1/0 in", "1 1 in", "2,5 mm", "12 mm more"])
def test_what_is_no_single_length_is_left_alone(text):
    assert lengths.parse_length(text) is None


@given(st.floats(-1e5, 1e5), st.sampled_from(["mm", "cm", "m", "in", "ft"]))
def test_a_length_comes_back_from_any_unit_within_a_millionth(length, unit):
    assert lengths.to_mm(lengths.from_mm(length, unit), unit) == pytest.approx(length, abs=1e-6)


@given(st.floats(-1e5, 1e5), st.sampled_from([0.1, 0.05, 1.0, 0.5]))
def test_a_figure_is_never_further_off_than_half_its_step(length, step):
    shown = lengths.figure(length, step)

    assert abs(float(shown) - length) <= step / 2 * (1 + 1e-6) + 1e-9
    assert shown != "-0"


@given(st.floats(-1e5, 1e5), st.sampled_from([8, 16, 32, 64]))
def test_inches_as_printed_read_back_within_half_a_part(length, denominator):
    read = lengths.parse_length(f"{lengths.inches(length, denominator)} in")

    assert read is not None
    assert abs(read - length) <= 25.4 / denominator / 2 * (1 + 1e-6)


def test_a_half_is_rounded_away_from_zero_though_binary_numbers_fall_short_of_it():
    assert [lengths.rounded(value, 0.05) for value in (24.675, -24.675, 24.674)] == [24.7, -24.7, 24.65]


def test_lengths_are_shown_in_the_job_s_units():
    assert lengths.length_text(600.075) == "600.1 mm"
    assert lengths.length_text(600.075, step=0.05) == "600.1 mm"
    assert lengths.length_text(600.075, "in") == "23 5/8 in"


def test_the_examples_in_the_docstrings_hold():
    assert doctest.testmod(lengths).failed == 0
