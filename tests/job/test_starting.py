"""What a new job begins with can be read and is an empty wall; what its notes show can be written as it stands."""

import re
import tomllib

import pytest

from dryfit.job.starting import new_text
from tests.job.samples import read


@pytest.mark.parametrize("title", ["Shelf", 'it\'s "so"', "", "back\\slash\nand line"])
def test_a_new_job_reads_without_a_mistake_whatever_its_title(title):
    job = read(new_text(title))

    assert job.boards == ()
    assert list(job.timbers) == ["oak"]
    assert job.dangling == ()


def test_the_title_is_kept():
    assert read(new_text('it\'s "so"')).title == 'it\'s "so"'


def test_its_notes_taken_away_it_has_a_wall_a_shelf_and_two_uprights_that_cross_it():
    written = re.compile(r"# (?=\[|\w+ = )")
    job = read("\n".join(written.sub("", line) for line in new_text("x").splitlines()))

    assert [board.name for board in job.boards] == ["shelf", "upright 1", "upright 2"]
    assert job.boards[0].line == ((0, 450), (1200, 450))
    assert (job.wall.left, job.wall.right, job.wall.ceiling) == (0, 2400, 2400)


def test_every_line_that_is_only_a_note_shows_what_could_be_written():
    lines = [line for line in new_text("x").splitlines() if line.startswith("# ") and "=" in line]
    for line in lines:
        assert tomllib.loads(line.removeprefix("# "))
