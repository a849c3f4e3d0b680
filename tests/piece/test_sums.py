"""Printed sums add up as printed. 24.08 + 2 x 0.03 + 0.15 = 24.29: to 0.05 that is 24.3 = 24.05 + 2 x 0.05 + 0.15."""

import doctest

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.piece import sums
from dryfit.piece.sums import Sum, Term, Word

STEPS = st.sampled_from([0.05, 0.1, 1.0, 25.4 / 64, 25.4 / 1000])
TERMS = st.lists(
    st.builds(Term, st.sampled_from(Word), st.floats(-50.0, 50.0), st.integers(1, 4)), min_size=0, max_size=6
)
SUMS = st.builds(
    lambda first, others: Sum("shelf", (Term(Word.THICKNESS, first), *others)), st.floats(1.0, 3000.0), TERMS
)


@given(SUMS, STEPS)
def test_the_printed_terms_add_up_to_the_printed_total(of, step):
    total, terms = of.printed(step)

    added = sum(round(mm / step) * term.times for mm, term in zip(terms, of.terms, strict=True))
    assert added == round(total / step)


@given(SUMS, STEPS)
def test_the_total_is_rounded_by_itself_as_it_stands_elsewhere(of, step):
    total, _ = of.printed(step)

    assert abs(total - of.total) <= step / 2 * (1 + 1e-6) + 1e-9


@given(SUMS, STEPS)
def test_a_term_is_told_within_a_step_of_what_it_is_but_the_first_that_takes_the_rest(of, step):
    _, terms = of.printed(step)

    for mm, term in list(zip(terms, of.terms, strict=True))[1:]:
        assert abs(mm - term.mm) <= 1.5 * step + 1e-9
    assert abs(terms[0] - of.terms[0].mm) <= step * (1.5 + sum(term.times for term in of.terms))


@given(SUMS, st.sampled_from([0.05, 0.1]))
def test_a_sum_of_whole_steps_is_told_as_it_is(of, step):
    whole = Sum(of.of, tuple(Term(term.word, round(term.mm / step) * step, term.times) for term in of.terms))

    assert whole.printed(step)[1] == pytest.approx([term.mm for term in whole.terms], abs=1e-6)


def test_the_example_in_the_docstring_holds():
    assert doctest.testmod(sums).failed == 0
