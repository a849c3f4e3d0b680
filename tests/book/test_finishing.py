"""A finish that the trade's table does not know: said, because the slots for coated boards would be too narrow."""

import pytest

import dryfit
from dryfit.book.reading import read_job_text
from dryfit.findings import Severity

JOB = """\
dryfit = 1
[timber.oak]
species = "oak, European"
thickness = 24
[[board]]
name = "shelf"
line = [[0, 300], [1000, 300]]
depth = 250
[[board]]
name = "post"
line = [[500, 0], [500, 900]]
depth = 250
[finish]
coats = 2
"""
COATED = 'before_assembly = "all"\njoint_zones = "coated"\n'


def told(text):
    return [found for found in dryfit.build(read_job_text(JOB + text)).findings if found.code == "finish-unknown"]


def test_a_misspelt_finish_is_a_warning_with_the_name_that_is_near():
    (finding,) = told('system = "varnsh, polyurethane"\n' + COATED)

    assert finding.severity is Severity.WARN
    assert finding.where.path == ("finish", "system")
    assert "slots are cut for bare wood" in finding.says
    assert '"Varnish, polyurethane"' in finding.remedy


def test_where_no_film_enters_a_joint_it_is_a_note():
    (finding,) = told('system = "varnsh, polyurethane"\n')
    assert finding.severity is Severity.NOTE


def test_a_finish_like_none_is_told_with_examples_and_where_all_names_are():
    (finding,) = told('system = "bees and beeswax"\n' + COATED)
    assert "docs/trade-names.md has them all" in finding.remedy


@pytest.mark.parametrize(
    "text",
    ['system = "shellac"\n', 'system = "beeswax"\nfilm = 0.02\n', ""],
    ids=["a name that is known", "the maker gives the film", "no finish named"],
)
def test_what_is_known_is_not_spoken_of(text):
    assert told(text + COATED) == []
