"""Film in joints: counted where a coated board enters, or a wall was coated; never where there is glue.

And a finish that the trade's table does not know: said, because the slots for coated boards would be too narrow.
"""

import pytest

import dryfit
from dryfit.book.reading import change_job_text, read_job_text
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
    assert "slots are cut for bare wood" in str(finding.says)
    assert '"Varnish, polyurethane"' in str(finding.remedy)


def test_the_name_that_is_near_is_offered_as_a_cure_and_ends_the_finding():
    text = JOB + 'system = "varnsh, polyurethane"\n' + COATED
    (finding,) = [one for one in dryfit.build(read_job_text(text)).findings if one.code == "finish-unknown"]
    (cure,) = [one for one in finding.cures if str(one.label) == "it is Varnish, polyurethane"]
    changed, job = change_job_text(text, cure.edits)

    assert 'system = "Varnish, polyurethane"' in changed
    assert [one.code for one in dryfit.build(job).findings if one.code == "finish-unknown"] == []


def test_where_no_film_enters_a_joint_it_is_a_note():
    (finding,) = told('system = "varnsh, polyurethane"\n')
    assert finding.severity is Severity.NOTE


def test_a_finish_like_none_is_told_with_examples_and_where_all_names_are():
    (finding,) = told('system = "bees and beeswax"\n' + COATED)
    assert "docs/trade-names.md lists them all" in str(finding.remedy)


@pytest.mark.parametrize(
    "text",
    ['system = "shellac"\n', 'system = "beeswax"\nfilm = 0.02\n', ""],
    ids=["a name that is known", "the maker gives the film", "no finish named"],
)
def test_what_is_known_is_not_spoken_of(text):
    assert told(text + COATED) == []


# ---- film in the width of a slot: P 26.9 and Q 27.1 thick, 0.1 sanded off each face, two coats of 0.033 on each, 0.15
# of play. As put together P is 26.7 and Q 26.9; a coated face, or wall, has 0.066 on it, so both of either have 0.132.

CROSSED = """\
dryfit = 1
[timber.p]
species = "oak, European"
thickness = 26.9
[timber.q]
species = "oak, European"
thickness = 27.1
[[board]]
name = "P"
timber = "p"
line = [[500, 0], [500, 900]]
depth = 250
[[board]]
name = "Q"
timber = "q"
line = [[0, 300], [1000, 300]]
depth = 250
[joints]
clearance = 0.15
[finish]
system = "demo"
coats = 2
film = 0.033
sanded = 0.1
"""
P_IN_Q, Q_IN_P = "slot in Q for P", "slot in P for Q"


def widths(text):
    piece = dryfit.build(read_job_text(CROSSED + text)).piece
    return {cut.key: cut.figures.across for part in piece.parts for cut in part.cuts if cut.word == "slot"}


@pytest.mark.parametrize(
    ("finished", "zones", "in_q", "in_p"),
    [
        ('["P", "Q"]', "coated", 26.7 + 0.132 + 0.132 + 0.15, 26.9 + 0.132 + 0.132 + 0.15),
        ('["P"]', "coated", 26.7 + 0.132 + 0.15, 26.9 + 0.132 + 0.15),  # P's own walls are coated, Q's faces not
        ('["P", "Q"]', "masked", 26.7 + 0.15, 26.9 + 0.15),
        ("[]", "coated", 26.7 + 0.15, 26.9 + 0.15),
    ],
    ids=["both coated", "one coated", "both masked", "coated after"],
)
def test_film_is_where_a_board_or_a_wall_was_coated_and_nowhere_else(finished, zones, in_q, in_p):
    found = widths(f'before_assembly = {finished}\njoint_zones = "{zones}"\n')

    assert found == {P_IN_Q: pytest.approx(in_q), Q_IN_P: pytest.approx(in_p)}


def test_what_is_glued_is_never_widened_for_film_and_coated_before_it_is_glued_unmasked_is_a_stop_with_both_stages():
    text = f'{COATED}[joints."cross halving"]\nglued = true\n'

    assert widths(text) == {P_IN_Q: pytest.approx(26.7 + 0.15), Q_IN_P: pytest.approx(26.9 + 0.15)}
    (finding,) = [one for one in dryfit.build(read_job_text(CROSSED + text)).findings if one.code == "film-in-glue"]
    assert (finding.severity, finding.where.path) == (Severity.STOP, ("finish", "joint_zones"))
    assert "P is coated before glue" in str(finding.says)
    assert "P and Q are glued in the shop" in str(finding.says)
    assert [str(cure.label) for cure in finding.cures] == ["mask the joint faces"], "the old word would say the same"


@pytest.mark.parametrize("text", [COATED, '[joints."cross halving"]\nglued = true\n'], ids=["dry", "not coated"])
def test_nothing_is_said_of_film_in_glue_where_there_is_none(text):
    findings = dryfit.build(read_job_text(CROSSED + text)).findings

    assert "film-in-glue" not in {finding.code for finding in findings}


def test_a_notch_over_a_coated_board_is_wider_by_the_film_on_both_edges_and_both_walls():
    """A rail 90 wide: 90 + 2 x 0.066 + 2 x 0.066 + 0.15."""
    rail = '[[board]]\nname = "rail"\ntimber = "q"\nlies = "flat"\nline = [[0, 600], [1000, 600]]\nwidth = 90\n'
    piece = dryfit.build(read_job_text(CROSSED.replace("[finish]", rail + "[finish]") + COATED)).piece
    (notch,) = [cut for part in piece.parts for cut in part.cuts if cut.word == "notch"]

    assert notch.figures.across == pytest.approx(90 + 0.132 + 0.132 + 0.15)
