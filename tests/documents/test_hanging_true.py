"""The map of the wall and how true it must hang, read back from the hanging book of the record wall.

Its lowest holes lie 140 over the floor and its leftmost stud at 200: hole 10, at 2200 and 1370, is 2000 and 1230 from
the two lines; from hole 1, at 1400, it is sqrt(800^2 + 1230^2) = 1467.3 away.
"""

from functools import lru_cache
from pathlib import Path

import pytest

from dryfit.book import build, read_job_text
from dryfit.documents.looks import Desk
from dryfit.documents.sheets.hangs_true import checked_by
from dryfit.documents.workshop import paper_pdf
from tests.documents.reading import pages

WALL = Path(__file__).parents[2] / "examples" / "record-wall.toml"


@lru_cache
def words(more=""):
    book = build(read_job_text(WALL.read_text(encoding="utf-8") + more, "record-wall.toml"))
    return [" ".join(str(page).split()) for page in pages(paper_pdf("hanging", Desk(book)))]


def page(title, more=""):
    return next(text for text in words(more) if title in text)


def test_every_hole_stands_by_its_two_lines():
    told = page("holes in the wall")

    assert "10 D top shelf 2000 1230 stud at 2000" in told
    assert "1 to 10 1467.3" in told


def test_the_map_says_what_was_not_looked_at_and_names_the_zones_where_it_was():
    assert "Where cables usually run: not looked at." in page("map of the wall")
    zoned = '[cables]\ncountry = "Germany"\n'
    assert "DIN 18015-3" in page("map of the wall", zoned)
    assert "150 to 450 over the floor" in page("holes in the wall", zoned)


def test_half_of_each_limit_is_printed_in_the_order_of_putting_in():
    told = page("how true it must hang")

    assert told.index("shelf 1") < told.index("raking 1")
    assert "no tool: screws loose until it is in" in told


@pytest.mark.parametrize(("lean", "differ", "by"), [(1.0, 0.5, "level"), (0.9, 1.5, "tape"), (0.9, 1.3, "no tool")])
def test_the_tool_is_fine_enough_for_what_it_checks(lean, differ, by):
    """Over 2000 a level may be out by 1.0; two diagonals by tape are sure to 1.4."""
    assert checked_by(lean, differ, 2000.0).startswith(by)
