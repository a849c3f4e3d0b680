"""A maker needs a part's sheet and nothing else, whatever the piece: twelve drawn at random, a family each.

Each part is built again from its sheet alone and laid over the part of the book (see `test_rebuilt_from_pdf`), and
every sum on the paper is added as it is printed (`sums_in_words`), in mm or in inches. `python3 -m bench.papers` does
the same with a hundred, or with as many as are asked for.
"""

import pytest

from tests.documents import demo_papers
from tests.documents.drawn_jobs import FAMILIES, printed
from tests.documents.laid_over import unlike
from tests.documents.sums_in_words import sums_in

NUMBERS = range(len(FAMILIES))


@pytest.mark.parametrize("number", NUMBERS, ids=list(FAMILIES))
def test_every_part_is_built_from_its_sheet_and_every_sum_adds_up(number):
    name, book, data = printed(number)

    assert unlike(book, data) == [], name
    assert [f"page {one.page}: {one.text}" for one in sums_in(data) if one.off] == [], name


@pytest.mark.parametrize(("demo", "least"), [("record-wall", 49), ("sample-grid", 2), ("step-shelf", 12)])
def test_the_sums_of_the_demos_are_found_and_add_up(demo, least):
    found = list(sums_in(demo_papers.paper(demo)))

    assert len(found) >= least
    assert [one for one in found if one.off] == []
