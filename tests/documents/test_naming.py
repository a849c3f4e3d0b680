"""Counts with their nouns, as sheets and the command line print them."""

import pytest

from dryfit.documents.naming import plural

COUNTED = [
    (1, "board", "1 board"),
    (0, "joint", "0 joints"),
    (2, "notch", "2 notches"),
    (2, "box", "2 boxes"),
    (1, "holes", "1 hole"),
    (3, "holes", "3 holes"),
    (1, "notches", "1 notch"),
    (1, "key pockets", "1 key pocket"),
    (2, "raked slot", "2 raked slots"),
    (2, "cross", "2 crosses"),
    (1, "cross", "1 cross"),
]


@pytest.mark.parametrize(("count", "noun", "said"), COUNTED, ids=[said for _, _, said in COUNTED])
def test_a_noun_stands_in_the_number_of_its_count(count, noun, said):
    assert plural(count, noun) == said
