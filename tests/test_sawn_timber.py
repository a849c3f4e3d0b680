"""Timber that is bought sawn: `planed = false` makes the blank thicker and wider, and the papers say so.

A 24 board 250 deep with 3 planed off every side (common practice: 3 to 6 of thickness and 5 to 10 of width
from sawn to planed) is bought 30 by 256; its own thickness, and so every joint, stays at 24.
"""

import re

import pytest

import dryfit
from dryfit.book.reading import read_job_text
from dryfit.documents.tables import parts_csv
from dryfit.documents.workshop import workshop_pdf
from dryfit.errors import JobError
from tests.documents.reading import pages

JOB = """\
dryfit = 1
[timber.oak]
species = "oak, European"
thickness = 24
PLANED
[[board]]
name = "shelf"
line = [[0, 300], [1000, 300]]
depth = 250
[[board]]
name = "post"
line = [[500, 0], [500, 900]]
depth = 250
"""


def book(*lines):
    return dryfit.build(read_job_text(JOB.replace("PLANED", "\n".join(lines)), "sawn.toml"))


@pytest.mark.parametrize(
    ("lines", "section"),
    [
        ([], (24, 250)),
        (["planed = true"], (24, 250)),
        (["planed = false"], (30, 256)),
        (["planed = false", "planing = 2"], (28, 254)),
        (["planed = false", 'planing = "1/8 in"'], (30.35, 256.35)),
        (["planed = false", "planing = 0"], (24, 250)),
    ],
    ids=["left out", "bought planed", "sawn", "sawn nearly to size", "an eighth of an inch", "planed by somebody else"],
)
def test_the_blank_is_thicker_and_wider_by_what_is_planed_off_and_nothing_else_changes(lines, section):
    made, bought_planed = book(*lines), book()

    for part, other in zip(made.piece.parts, bought_planed.piece.parts, strict=True):
        assert (part.blank.thickness, part.blank.width) == pytest.approx(section)
        assert part.blank.length == other.blank.length
        assert part.cuts == other.cuts
        assert part.board.thickest == 24


def test_the_papers_say_that_it_is_sawn_and_what_it_is_planed_to():
    made = book("planed = false")
    said = re.sub(r"\s+", " ", " ".join(pages(workshop_pdf(made))))

    assert "blank 1020 × 256 × 30, sawn" in said
    assert ",256,30," in parts_csv(made)


def test_papers_of_planed_timber_do_not_speak_of_planing():
    assert "sawn, to be planed" not in re.sub(r"\s+", " ", " ".join(pages(workshop_pdf(book()))))


@pytest.mark.parametrize(
    ("lines", "line", "says", "remedy"),
    [
        (["planing = 2"], 5, "bought planed", "planed = false"),
        (["planed = false", "planing = 30"], 6, "what is planed off a face comes to 30 mm", "at most 20 mm"),
        (["planed = false", "planing = -1"], 6, "what is planed off a face comes to -1 mm", "at least 0 mm"),
    ],
    ids=["of planed timber", "more than any shaving", "less than nothing"],
)
def test_planing_that_makes_no_sense_is_told_with_its_line(lines, line, says, remedy):
    with pytest.raises(JobError) as caught:
        book(*lines)
    (mistake,) = caught.value.mistakes

    assert mistake.line == line
    assert says in mistake.says
    assert remedy in mistake.remedy
