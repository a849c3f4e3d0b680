"""`start.py test --fast`: a property that asks for 100 examples draws 10, one that asks for 20 draws 5."""

import pytest
from hypothesis import Phase, given, settings
from hypothesis import strategies as st

from tests.fewer import counted, fewer_everywhere


def drawn_by(decorated):
    """How many examples a property draws that is decorated so."""
    seen = []

    @decorated
    @given(st.integers())
    def holds(number):
        seen.append(number)

    holds()
    return len(seen)


@pytest.mark.parametrize(("asked", "drawn"), [(100, 10), (20, 5)])
def test_a_property_draws_a_tenth_of_its_examples_and_five_at_least(monkeypatch, asked, drawn):
    monkeypatch.setattr(settings, "__call__", settings.__call__)  # as it was, after the test
    fewer_everywhere()
    assert drawn_by(settings(max_examples=asked, database=None, deadline=None, phases=[Phase.generate])) == drawn


def test_one_whose_examples_are_counted_draws_them_all(monkeypatch):
    monkeypatch.setattr(settings, "__call__", settings.__call__)
    fewer_everywhere()
    assert drawn_by(counted(100)) == 100
