"""Anchors in the wall: each follows its own rule instead of the wood's, and what nobody has said of it is left open.

A shelf 36 thick and 200 deep in brick behind 15 of plaster, worst gap 4, by screws 6 x 120 with a pan head in plugs
10 x 50: 45 of grip + 4 + 15 + 50 + 6 past the plug's end = 120.
"""

import pytest

from dryfit.documents.workshop import workshop_sheets
from tests.joints.typed import board, book_of, cut_of, found, job, kind_of, piece_of, stops, table

BRICK = {"kind": "brick", "lining": 15, "hollow": 4, "hung": True}
HOLLOW = {"kind": "plasterboard on steel studs", "lining": 12.5, "hollow": 0, "hung": True}
SHEET = {"type": "nylon plug", "drill": 10, "deep": 60, "length": 45, "screw": "wood 6"}
FIXED = {"screw": "wood 6x120, pan head", "anchor": "nylon plug 10x50"}


def hung(wall=BRICK, sheet=None, at=(200, 1000), **options):
    asked = {**FIXED, **options}
    return job(
        table("[wall]", **wall),
        table('[anchor."demo plug"]', **sheet) if sheet else "",
        board("shelf", [[0, 500], [1200, 500]], 200, "40"),
        table("[[fixing]]", name="screws", board="shelf", kind="long screw", at=list(at), **asked),
    )


def grip(text):
    return 200.0 - cut_of(text, "bore 1 of screws").figures.deep


def open_questions(text):
    return [str(left.what) for left in piece_of(text).not_checked if left.study == "wall"]


def test_a_plugs_screw_passes_the_plugs_end():
    assert grip(hung()) == pytest.approx(45.0)
    assert stops(hung()) == set()


def test_what_the_job_says_of_an_anchor_goes_before_what_is_usual():
    """Its plug is 45 long: 120 - 4 - 15 - 45 - 6 = 50 of grip."""
    text = hung(sheet=SHEET, anchor="demo plug")
    assert grip(text) == pytest.approx(50.0)
    made = piece_of(text).joint_by_key["screws", "wall"]
    assert ("anchor", "demo plug, nylon plug", 2) in [
        (item.name, str(item.says), item.count) for item in kind_of(made).hardware(made)
    ]


def test_an_anchor_named_for_the_whole_kind_is_found_too():
    rule = table('[joints."long screw"]', anchor="demo plug", screw="wood 6x120, pan head")
    text = hung(sheet=SHEET).replace('anchor = "nylon plug 10x50"\n', "") + rule
    assert grip(text) == pytest.approx(50.0)


def test_what_no_sheet_has_said_is_left_open():
    edge = "screws: whether each hole is {} from the masonry's edges and openings, and in no mortar joint"
    assert open_questions(hung()) == [edge.format("50 or more"), "screws: what a nylon plug holds"]
    told = SHEET | {"pull_n": 300, "shear_n": 600, "source": "invented sheet, page 3"}
    assert open_questions(hung(sheet=told, anchor="demo plug")) == [edge.format("far enough")]
    assert open_questions(hung(sheet=told | {"apart": 60}, anchor="demo plug")) == [edge.format("60 or more")]
    assert open_questions(hung(HOLLOW, screw="M6x100", anchor="hollow-wall anchor")) == [
        "screws: how far the screw goes into the anchor",
        "screws: whether the anchor has room behind the lining",
        "screws: whether the anchors clear the steel studs",
        "screws: what a hollow-wall anchor holds",
    ]


UNSUITED = {
    "a machine screw in a plug": (BRICK, {"screw": "M6x120"}, "takes a wood screw, not a machine screw M6 x 120"),
    "a wood screw in a sleeve": (BRICK, {"anchor": "sleeve 8x40"}, "takes a machine screw, not a wood screw"),
    "a thin screw in a thick plug": (BRICK, {"screw": "wood 5x140"}, "takes a screw of 6 mm, not one of 5"),
    "a plug in plasterboard": (HOLLOW, {}, "it crushes its hole"),
    "a toggle in brick": (BRICK, {"screw": "M6x120", "anchor": "spring toggle"}, "a void behind it, which brick does"),
    "an insert in brick": (BRICK, {"screw": "M6x120", "anchor": "threaded insert"}, "holds in timber, not in brick"),
    "no range has the lining": (
        HOLLOW | {"lining": 50}, {"screw": "M6x160", "anchor": "hollow-wall anchor"}, "a lining of 50 is 5 over that",
    ),
}  # fmt: skip


@pytest.mark.parametrize(("wall", "options", "says"), UNSUITED.values(), ids=UNSUITED)
def test_an_anchor_that_does_not_suit_wall_lining_or_screw_is_a_stop(wall, options, says):
    (finding,) = found(hung(wall, **options), "anchor-unsuited")
    assert says in str(finding.says)
    assert (finding.severity, finding.where.fixing) == ("stop", "screws")
    assert finding.source


def test_in_perforated_brick_a_plug_for_solid_brick_is_warned_of():
    (finding,) = found(hung(BRICK | {"kind": "perforated brick"}), "anchor-unsuited")
    assert finding.severity == "warn"
    assert not found(hung(BRICK | {"kind": "perforated brick"}, anchor="long nylon plug"), "anchor-unsuited")


@pytest.mark.parametrize(("apart", "warned"), [(50, False), (49, True)])
def test_plugs_stand_as_far_apart_as_their_maker_says(apart, warned):
    """10 x 50: 50 from each other (a technical catalogue of nylon plugs)."""
    assert bool(found(hung(at=(200, 200 + apart)), "anchor-unsuited")) is warned


UNKNOWN = {
    "a word that says nothing": {"anchor": "gadget"},
    "no anchor for a machine screw": {"anchor": "", "screw": "M6x120"},
    "a name without its table": {"anchor": "demo plug"},
}


@pytest.mark.parametrize("options", UNKNOWN.values(), ids=UNKNOWN)
def test_an_anchor_that_is_neither_generic_nor_described_warns(options):
    (finding,) = found(hung(**options), "anchor-not-known")
    assert finding.severity == "warn"
    assert "[anchor." in str(finding.remedy)
    assert any("the anchor" in what for what in open_questions(hung(**options)))


@pytest.mark.parametrize("kind", ["timber studs", "plasterboard on wood studs", "solid timber wall"])
def test_a_machine_screw_goes_straight_into_no_wood(kind):
    (finding,) = found(hung({**BRICK, "kind": kind}, screw="M6x120", anchor=""), "joint-unsuited")
    assert finding.severity == "stop"


def test_a_threaded_insert_in_a_stud_takes_one_and_must_meet_the_stud():
    studs = {"kind": "timber studs", "lining": 0, "hollow": 0, "studs": [200, 1030]}
    text = hung(studs, screw="M6x120", anchor="threaded insert")
    assert [finding.found for finding in found(text, "screw-misses-stud")] == [30.0]


def test_a_wall_that_says_it_has_no_studs_has_none():
    (finding,) = found(hung({**BRICK, "kind": "brick, no studs"}, anchor=""), "joint-unsuited")
    assert "has no hold in brick, no studs" in str(finding.says)


def test_a_wood_screw_has_no_hold_in_a_steel_stud():
    (finding,) = found(hung({**HOLLOW, "kind": "steel studs"}, anchor=""), "joint-unsuited")
    assert "has no hold in steel studs" in str(finding.says)


@pytest.mark.parametrize("kind", ["plasterboard", "steel studs", "plasterboard on steel studs"])
def test_where_a_plug_would_crush_its_hole_no_plug_is_advised(kind):
    """The advice taken is no stop: what is named clamps the lining."""
    (finding,) = found(hung({**HOLLOW, "kind": kind}, anchor=""), "joint-unsuited")
    assert "plug" not in str(finding.says)
    assert "such as a hollow-wall anchor" in str(finding.says)
    taken = hung({**HOLLOW, "kind": kind}, screw="M6x120", anchor="hollow-wall anchor")
    assert found(taken, "joint-unsuited") == found(taken, "anchor-unsuited") == []
    plugged = hung({**HOLLOW, "kind": kind}, anchor="nylon plug 8x40")
    assert [one.severity for one in found(plugged, "anchor-unsuited")] == ["stop"]


def test_in_brick_the_plug_is_advised():
    (finding,) = found(hung(BRICK, anchor=""), "joint-unsuited")
    assert "name the plug that takes it" in str(finding.says)


# ---- on paper


def sheet_of(text):
    kinds = ("fixings", "joint")
    return " ".join(
        item.text
        for draft, _ in workshop_sheets(book_of(text))
        if draft.kind in kinds
        for item in draft.items
        if hasattr(item, "text")
    )


def test_the_sheet_has_the_chain_the_tools_that_are_sold_and_a_blank_for_what_only_the_maker_can_say():
    """155 deep and 30 for the chuck: 185; bits are sold 200 long, drivers too."""
    said = sheet_of(hung())
    sums = "grip 45 + worst gap 4 + lining 15 + held 56 = 120,"
    for words in (sums, "10, 70 deep", "____ N out of the wall", "Plug 15 of oak, white, grain with the board's."):
        assert words in said, words
    assert "Wood bits 200 long, driver bit 200: 185 at least." in said


def test_with_the_makers_figures_the_sheet_has_them_and_whose_they_are():
    told = SHEET | {"pull_n": 300, "shear_n": 600, "source": "invented sheet, page 3"}
    said = sheet_of(hung(sheet=told, anchor="demo plug"))
    assert "300 N out of the wall, 600 N along it (working; invented sheet, page 3)." in said


def test_a_lining_that_is_not_given_is_on_no_sheet_as_0():
    """6 x 120, pan head: 30 of grip, all the other 90 for gap, lining and hold."""
    bare = {name: value for name, value in BRICK.items() if name != "lining"}
    said = sheet_of(hung(bare))
    assert "grip 30 + gap, lining and hold 90 = 120," in said
    assert "The lining is not given" in said
    assert "lining 0" not in said


# ---- how deep the screw goes, and steel


@pytest.mark.parametrize(("engagement", "found_at"), [(56, None), (55, 55.0), (20, 20.0)])
def test_a_screw_that_does_not_pass_its_plug_s_end_is_a_stop(engagement, found_at):
    """A plug of 50 wants a screw 6 to go 56 in: 50 and one diameter past its end (trade texts)."""
    told = found(hung(engagement=engagement), "anchor-unsuited")

    assert [(one.severity, one.found, one.limit) for one in told] == (
        [] if found_at is None else [("stop", found_at, 56)]
    )
    assert all(str(one.remedy) == "leave out engagement: it is then 56" for one in told)


@pytest.mark.parametrize(
    ("grip", "gap", "far"),
    [(36, 2, None), (35, 2, None), (34.5, 2, 70.5), (30, 0, 75.0)],
    ids=["69 deep", "70 deep", "70.5 deep", "a flat wall"],
)
def test_a_screw_that_goes_deeper_than_its_hole_is_warned_of(grip, gap, far):
    """A hole of 70 for a plug of 50 (a technical catalogue of nylon plugs).

    The screw goes 120 less grip and 15 of plaster into the brick where the wall touches the board.
    """
    told = found(hung(BRICK | {"hollow": gap}, grip=grip), "anchor-unsuited")

    assert [(one.severity, one.found, one.limit) for one in told] == ([] if far is None else [("warn", far, 70)])
    assert all(str(one.remedy) == f"drill {far:g} or more, or use a shorter screw" for one in told)


STEEL = {"type": "other", "screw": "wood 5", "length": 30}


@pytest.mark.parametrize(
    ("kind", "what"),
    [
        ("plasterboard on steel studs", ["screws: whether the screws hold in the steel studs"]),
        ("metal stud wall", ["screws: whether the screws hold in the steel studs"]),
        ("plasterboard, no steel studs", []),
        ("plasterboard on battens", []),
    ],
)
def test_screws_into_steel_studs_are_told_as_not_looked_at(kind, what):
    """A published pull-out is known for one screw in one thickness of steel: no rule for what is bought here."""
    wall = HOLLOW | {"kind": kind}
    text = hung(wall, sheet=STEEL, screw="wood 5x120", anchor="demo plug")

    assert [one for one in open_questions(text) if "steel" in one] == what
