"""Cures that findings offer: each, made on the text, ends its finding; which they are, by example.

A shelf of 1000 at 600 between two posts, all 24 thick, so that a face lies 12 from its line.
"""

import pytest

from dryfit.book import build
from dryfit.book.reading import change_job_text, read_job_text
from dryfit.findings import CODES, Finding, Vain, uncured
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
    "two housings that leave 5.8 between them": (
        HEAD
        + "[joints.housing]\ndepth = 9.1\n"
        + board("shelf", "[[0, 600], [2000, 600]]")
        + board("low", "[[700, 0], [700, 600]]")
        + board("high", "[[710, 600], [710, 1200]]"),
        "thin-web",
        ["low: 20.5 to the left", "high: 20.5 to the right"],
    ),
    "a deeper board at a corner": (
        HEAD
        + board("shelf", "[[0, 600], [1000, 600]]")
        + board("post", "[[0, 0], [0, 600]]").replace("300", "330"),
        "end-grain-shows",
        ["post: 30 less deep, level at the front", "shelf: 30 deeper, level at the front"],
    ),
    "a board that begins 30 nearer the wall": (
        HEAD
        + board("shelf", "[[0, 600], [1000, 600]]", "back = 30").replace("300", "270")
        + board("post", "[[0, 0], [0, 600]]"),
        "end-grain-shows",
        ["post: 30 less deep, level at the wall", "shelf: 30 deeper, level at the wall"],
    ),
    "a post notched for more than half of it": (
        HEAD
        + '[[board]]\nname = "rail"\nline = [[0, 500], [1000, 500]]\nlies = "flat"\nwidth = 90\n'
        + '[[board]]\nname = "post"\nline = [[500, 0], [500, 1000]]\ndepth = 49\n',
        "notch-too-deep",
        ["leave 0.5 over the flat board", "post: 1 deeper"],
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
        [
            "make it a butt",
            "make it a housing",
            "make it pins in slots",
            "make it a sliding dovetail",
            "make it a stub tenon",
        ],
    ),
    "nothing but the fit": (
        HEAD + posts() + board("shelf", "[[-200, 600], [1200, 600]]"),
        "held-by-fit",
        ["glue left to shelf", "glue right to shelf"],
    ),
    "a shelf that reaches neither post": (
        HEAD + posts() + SHELF + board("upper", "[[40, 900], [950, 900]]"),
        "held-by-nothing",
        [
            "upper: 28 and 38 longer, from left to right",
            "upper: 28 longer, up to left",
            "upper: 38 longer, up to right",
        ],
    ),
    "a divider that stops short": (
        HEAD + posts() + SHELF + board("divider", "[[500, 100], [500, 400]]"),
        "held-by-nothing",
        ["divider: 188 longer, up to shelf"],
    ),
    "two boards one in the other, their lines 10 apart": (
        HEAD + posts() + SHELF + board("strip", "[[300, 610], [700, 610]]"),
        "not-joined",
        ["shelf: 14 down", "strip: 14 up"],
    ),
    "a rise of 300 over 600": (
        HEAD + posts() + SHELF + board("low", "[[12, 100], [988, 100]]") + board("lean", "[[100, 0], [700, 300]]"),
        "shallow-angle",
        ["lean: turned by 3.43°, to 30° from low", "low: turned by 3.43°, to 30° from lean"],
    ),
    "a glue with no such number": (
        HEAD + '[glue]\nkind = "pva d9"\n' + posts() + SHELF
        + '[[joint]]\nbetween = ["shelf", "left"]\nkind = "housing"\nglued = true\n',
        "glue-unknown",
        ["it is PVA, D2", "it is PVA, D3", "it is PVA, D4"],
    ),
    "a species that may be several": (
        HEAD.replace("oak, white", "oak") + posts() + SHELF,
        "no-figures",
        ["it is American white oak", "it is American red oak", "it is European oak"],
    ),
    "a splice where a member is too long": (
        HEAD + "longest = 700\n" + board("shelf", "[[0, 600], [1000, 600]]", "splice_at = [100]")
        + board("a", "[[200, 300], [200, 900]]") + board("b", "[[500, 300], [500, 900]]"),
        "longer-than-stock",
        ["leave open where shelf is divided", "use stock 920 long"],
    ),
    "a screw beside an upright": (
        HEAD + '[wall]\nkind = "timber studs"\nhung = true\n' + board("shelf", "[[0, 500], [1200, 500]]")
        + board("upright", "[[600, 0], [600, 1000]]")
        + '[[fixing]]\nname = "screws"\nboard = "shelf"\nkind = "long screw"\nat = [200, 630]\n',
        "bore-near-cut",
        ["screws: 5 to the right"],
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


# ---- where none is offered


def test_what_was_tried_in_vain_is_said_with_the_stop_it_would_bring():
    """Of four uprights a and b stand 40 apart: 16 of wood between their slots, less than twice the thickness.

    59.5 more, so that what is wanted is left, is more than the 72 to the next ones leave room for.
    """
    uprights = {"z": 228, "a": 300, "b": 340, "c": 412}
    text = HEAD + board("shelf", "[[0, 600], [1200, 600]]")
    text += "".join(board(name, f"[[{at}, 0], [{at}, 1200]]") for name, at in uprights.items())
    found = build(read_job_text(text)).findings
    (finding,) = (one for one in found if one.code == "short-grain" and (one.found or 0) < 20)
    assert not finding.cures
    assert {tried.why for tried in finding.in_vain} == {Vain.BRINGS}
    assert "a: 59.5 to the left (it brings a stop: not-joined)" in told(uncured(finding), Voice())
    others = [one for one in found if one.code == "short-grain" and one is not finding]
    assert len(others) == 2
    assert all(one.cures for one in others), "the outer ones have room, and say no such thing"


def test_a_board_of_a_row_cannot_be_moved_by_itself_and_that_is_said():
    """Three uprights 60 apart, of one table: between two slots 36 of wood, 48 wanted."""
    line = 'line = [["300 + 60 * i", 0], ["300 + 60 * i", 1200]]'
    row = f'[[board]]\nname = "u {{i}}"\ntimber = "t"\ndepth = 300\ncount = 3\n{line}\n'
    book = build(read_job_text(HEAD + board("shelf", "[[0, 600], [1200, 600]]") + row))
    found = [one for one in book.findings if one.code == "short-grain" and not one.cures]
    assert found
    for finding in found:
        assert {tried.why for tried in finding.in_vain} == {Vain.ALONE}
        assert "(it moves or changes others too)" in told(uncured(finding), Voice())


def test_what_nobody_thought_of_changing_is_said_in_the_words_of_its_code():
    apart = (
        HEAD
        + "[wall]\nceiling = 2400\n"
        + board("one", "[[0, 0], [0, 600]]")
        + board("other", "[[500, 0], [500, 600]]")
    )
    finding = next(one for one in build(read_job_text(apart)).findings if not one.cures and not one.in_vain)
    assert uncured(finding) == CODES[finding.code].uncured != ""


def test_a_finding_with_a_cure_does_not_say_that_there_is_none():
    text, code, _ = CASES["an end 3 short of a face"]
    finding = next(one for one in build(read_job_text(text)).findings if one.code == code)
    assert finding.cures
    assert uncured(finding) == ""
