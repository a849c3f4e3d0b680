"""Cures that findings offer: each, made on the text, ends its finding; which they are, by example.

A shelf of 1000 at 600 between two posts, all 24 thick, so that a face lies 12 from its line.
"""

import pytest

from dryfit.book import build
from dryfit.book.reading import change_job_text, read_job_text
from dryfit.findings import Finding
from dryfit.sentences import Voice, told

HEAD = """dryfit = 1
[timber.t]
species = "oak, white"
thickness = 24
"""
POSTS = [(0, 1200), (1000, 1200)]


def board(name: str, line: str, more: str = "") -> str:
    return f'[[board]]\nname = "{name}"\ntimber = "t"\ndepth = 300\nline = {line}\n{more}\n'


def posts() -> str:
    return board("left", "[[0, 0], [0, 1200]]") + board("right", "[[1000, 0], [1000, 1200]]")


def labels(finding: Finding) -> list[str]:
    return [told(cure.label, Voice()) for cure in finding.cures]


SHELF = board("shelf", "[[12, 600], [988, 600]]")
CASES = {
    "an end 3 short of a face": (
        HEAD + posts() + board("shelf", "[[12, 600], [985, 600]]"),
        "nearly-reaches",
        ["shelf: 3 longer, up to right"],
    ),
    "an end 4 past the far face": (
        HEAD + posts() + board("shelf", "[[12, 600], [1016, 600]]"),
        "runs-past",
        ["shelf: 4 shorter, flush with right", "shelf: 28 shorter, up to right"],
    ),
    "an end 10 past the wall": (
        HEAD + "[wall]\nright = 1012\n" + posts() + board("shelf", "[[-100, 600], [1022, 600]]"),
        "past-the-room",
        ["shelf: 10 shorter", "shelf: 10 to the left"],
    ),
    "a foot 5 below the floor": (
        HEAD + "[wall]\nceiling = 2400\n" + posts().replace("[[1000, 0]", "[[1000, -5]") + SHELF,
        "below-the-floor",
        ["right: 5 shorter, down to the floor", "right: 5 up"],
    ),
    "a name that is nearly there": (
        HEAD + posts() + SHELF + '[[joint]]\nbetween = ["shelf", "rigth"]\nkind = "housing"\n',
        "no-such-board",
        ["write right"],
    ),
    "an option that the kind does not have": (
        HEAD + posts() + SHELF + '[[joint]]\nbetween = ["shelf", "right"]\nratio = 0.4\n',
        "joint-option",
        ["leave out ratio"],
    ),
    "a kind that does not suit": (
        HEAD + posts() + SHELF + '[[joint]]\nbetween = ["shelf", "right"]\nkind = "cross halving"\n',
        "joint-unsuited",
        ["make it a butt", "make it a housing", "make it pins in slots", "make it a sliding dovetail"],
    ),
    "nothing but the fit": (
        HEAD + posts() + board("shelf", "[[-200, 600], [1200, 600]]"),
        "held-by-fit",
        ["glue left to shelf", "glue right to shelf"],
    ),
    "joint faces coated and glued": (
        HEAD + '[finish]\nsystem = "varnish, polyurethane"\ncoats = 2\n'
        + 'before_assembly = ["left"]\njoint_zones = "coated"\n'
        + posts() + SHELF + '[[joint]]\nbetween = ["shelf", "left"]\nkind = "housing"\nglued = true\n',
        "film-in-glue",
        ["mask the joint faces"],
    ),
}  # fmt: skip


@pytest.mark.parametrize("case", CASES)
def test_a_finding_offers_what_the_limit_allows_the_other_side_or_the_option_taken_out(case: str):
    text, code, wanted = CASES[case]
    finding = next(one for one in build(read_job_text(text)).findings if one.code == code)
    assert labels(finding) == wanted
    for cure in finding.cures:
        _, after = change_job_text(text, cure.edits)
        assert after is not None
        left = [one for one in build(after).findings if (one.code, one.where) == (finding.code, finding.where)]
        assert not left, told(cure.label, Voice())
