"""The finish plan on paper: every figure of it is the study's, and what nobody knows is said.

Two boards 1000 x 200 x 20 that cross and are glued, coated before that: each hides 80 cm2 of the other. Two coats, 12 h
and 7 days: coat 1 on day 1, coat 2 on day 2, glue on day 3, hard on the second day and 168 h: day 9.
"""

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.looks import Desk
from dryfit.documents.workshop import paper_pdf, paper_sheets
from dryfit.studies.coating.result import Coating
from tests.documents.reading import pages

BOARD = '[[board]]\nname = "{}"\nline = {}\ndepth = 200\n'
PIECE = (
    'dryfit = 1\n[timber.oak]\nspecies = "oak, European"\nthickness = 20\n[wall]\nhung = true\n'
    + BOARD.format("shelf", "[[0, 500], [1000, 500]]")
    + BOARD.format("post", "[[500, 0], [500, 1000]]")
    + '[joints."cross halving"]\nglued = true\n'
)
FINISH = '[finish]\nsystem = "{}"\ncoats = 2\nwhen = "before glue"\n'
VARNISH = FINISH.format("varnish, polyurethane")


def text(job):
    book = build(read_job_text(job))
    return " ".join(" ".join(page.split()) for page in pages(paper_pdf("finish", Desk(book))))


def test_steps_stand_with_their_days():
    said = text(PIECE + VARNISH)

    for line in ("before sand P120 P150 P180 all", "before mask the joints all", "1 coat 1 all", "2 sand P240 all 24 h",
                 "2 coat 2 all", "3 glue up all 24 h", "9 carry it away: hard all 144 h"):  # fmt: skip
        assert line in said
    assert "Coat to coat 12 h" in said
    assert "weekends are not known" in said


def test_days_have_dates_and_the_cold_is_told():
    said = text(PIECE + VARNISH + "[drying]\ntemperature = 15\nbegins = 2026-05-08\n")

    assert "1 2026-05-08 coat 1 all" in said
    assert "4 2026-05-11 sand P240 all 72 h" in said  # a day later it is dry, on Saturday
    assert "at 15 °C: 2 times as long as at 20 °C (drying guide)" in said


def test_masks_and_litres_are_those_of_the_study():
    job = PIECE + VARNISH
    said, found = text(job), build(read_job_text(job)).found(Coating)

    assert said.count("80 cm² 80 cm²") == 2
    (stage,) = found.stages
    assert f"{stage.m2:.2f} m² {stage.litres:.2f} l" in said
    assert "discs P120, P150, P180 before the first coat 0.88 m² 1 of each" in said


def test_of_a_finish_that_nobody_knows_what_is_not_known_is_said():
    said = text(PIECE + FINISH.format("bees and beeswax"))

    assert "2 coats before assembly 1.76 m² not known" in said
    assert "How long it dries is not known: ask its maker, and write the days in." in said
    assert "? coat 2 all" in said


@pytest.mark.parametrize(
    ("system", "said", "unsaid"),
    [
        ("varnish, polyurethane", ("Rags, pads and dust", "It gives off solvent", "mask for fine dust"), ()),
        ("varnish, water-borne", ("mask for fine dust",), ("Rags, pads and dust", "It gives off solvent")),
    ],
)
def test_cautions_stand_on_the_sheet(system, said, unsaid):
    found = text(PIECE + FINISH.format(system))

    assert all(words in found for words in (*said, "holds over every figure here"))
    assert not any(words in found for words in unsaid)


@pytest.mark.parametrize("name", list(demos()))
def test_a_demo_has_the_paper_only_where_its_boards_are_coated(name):
    book = build(read_job_text(demo_text(name)))
    sheets = paper_sheets("finish", book)

    found = book.found(Coating)
    assert bool(sheets) == (found is not None and bool(found.stages))
    if sheets:
        silent = any(board.when is None for board in found.boards)
        assert ("Nobody says when" in text(demo_text(name))) == silent
