"""Building a book leaves Python as it found it.

While a piece is made Python does not search for objects that hold each other in rings; before and after it does so, or
not, as whoever called has it, whether the book was made or met a fault of ours.
"""

import gc

import pytest

from dryfit.book import build, read_job_text
from dryfit.book import building as book_building
from dryfit.book.demos import demo_text


@pytest.fixture(params=[True, False], ids=["searching", "not searching"])
def searches(request):
    before = gc.isenabled()
    (gc.enable if request.param else gc.disable)()
    yield request.param
    (gc.enable if before else gc.disable)()


def test_the_search_for_rings_rests_while_a_piece_is_made_and_is_then_as_it_was(searches, monkeypatch):
    seen = []
    make = book_building.build_piece
    monkeypatch.setattr(book_building, "build_piece", lambda *given: seen.append(gc.isenabled()) or make(*given))
    build(read_job_text(demo_text("step-shelf")))
    assert seen
    assert not any(seen)
    assert gc.isenabled() is searches


def test_the_search_is_as_it_was_after_a_fault_of_ours_too(searches, monkeypatch):
    def fails(*given):
        raise ZeroDivisionError

    monkeypatch.setattr(book_building, "build_piece", fails)
    with pytest.raises(ZeroDivisionError):
        build(read_job_text(demo_text("step-shelf")))
    assert gc.isenabled() is searches
