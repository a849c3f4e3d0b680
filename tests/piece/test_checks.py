"""Checks of the set-out: short grain, thin webs, boards on their own, names that are not there.

Limits (common practice): beside a slot at least 2 t or it is a stop, and a warning below the greatest of 2 t,
50 and half the slot's depth; beside a housing a warning below t. A 24 board slotted 150.5 deep wants
75.25, and 48 at least; its slot for a 24 board is 24.15 wide, 12.075 to either side.
"""

import math
import re
from dataclasses import replace

import pytest

from dryfit.book import change_job_text
from dryfit.findings import Severity
from dryfit.job.model import Dangling

from ..joints import typed
from .making import asked, built, coded, job_of, plank, rules

HALF = 24.15 / 2
DRY = rules(clearance=0.15)


def crossing_at(x, length=2000.0, **more):
    """A shelf crossed at x by an upright that has room enough; what is found about the shelf."""
    job = job_of(plank("shelf", (0, 600), (length, 600)), plank("upright", (x, 0), (x, 1200)), joints=DRY, **more)
    return [finding for finding in coded(built(job).findings, "short-grain") if finding.where.boards == ("shelf",)]


@pytest.mark.parametrize(
    ("left", "severity", "limit"),
    [(47.9, Severity.STOP, 48.0), (48.1, Severity.WARN, 75.25), (75.2, Severity.WARN, 75.25), (75.3, None, None)],
    ids=["below 2 t", "above 2 t", "below half the depth", "enough"],
)
@pytest.mark.parametrize("end", ["datum", "far"])
def test_a_slot_wants_wood_to_the_end(end, left, severity, limit):
    found = crossing_at(left + HALF if end == "datum" else 2000 - left - HALF)

    assert [finding.severity for finding in found] == ([] if severity is None else [severity])
    for finding in found:
        assert (finding.found, finding.limit) == (pytest.approx(left), limit)
        assert finding.where.cut == "slot in shelf for upright"
        assert "the end" in str(finding.says)


@pytest.mark.parametrize(
    ("species", "form", "plies"),
    [
        ("plywood, birch", "", True),
        ("plywood_birch", "", True),
        ("birch", "Ply", True),
        ("birch", "multi-ply board", True),
        ("oak, white", "edge-glued panel", False),
        ("reply", "board", False),
    ],
)
@pytest.mark.parametrize(
    ("left", "severity", "limit"),
    [(23.9, Severity.STOP, 24.0), (24.1, Severity.WARN, 48.0), (48.1, None, None)],
    ids=["below t", "below 2 t", "enough for plies"],
)
def test_plywood_wants_half_as_much_because_half_of_its_plies_run_across(species, form, plies, left, severity, limit):
    """For solid wood all three places are too near: a stop below 48, a warning below 75.25."""
    job = job_of(
        plank("shelf", (0, 600), (2000, 600)), plank("upright", (left + HALF, 0), (left + HALF, 1200)), joints=DRY
    )
    timbers = {name: replace(timber, species=species, form=form) for name, timber in job.timbers.items()}
    found = coded(built(replace(job, timbers=timbers)).findings, "short-grain")
    shelf = [(one.severity, one.limit) for one in found if one.where.boards == ("shelf",)]

    if plies:
        assert shelf == ([] if severity is None else [(severity, limit)])
    else:
        assert [limit for _, limit in shelf] == [48.0 if left < 48.0 else 75.25]


def test_what_overlaps_is_said_to_overlap_and_never_to_leave_less_than_nothing():
    """Slots 24.15 wide, 20.05 from middle to middle, overlap by 4.1."""
    uprights = [plank(name, (x, 0), (x, 1200)) for name, x in (("middle", 500), ("right", 520.05))]
    piece = built(job_of(plank("shelf", (0, 600), (2000, 600)), *uprights, joints=DRY))
    said = {str(finding.says) for finding in coded(piece.findings, "short-grain")}

    assert said & {
        "shelf: the slot in shelf for middle and the slot in shelf for right overlap by 4.1",
        "shelf: the slot in shelf for right and the slot in shelf for middle overlap by 4.1",
    }
    assert not [sentence for sentence in said if "-" in sentence]


def test_a_slot_that_reaches_over_the_end_is_said_to():
    """The post ends in the shelf, and the shelf above it lies so near that its slot begins below the post's end."""
    boards = (plank("shelf", (0, 500), (1000, 500)), plank("above", (200, 515), (800, 515)))
    piece = built(job_of(*boards, plank("post", (500, 500), (500, 800)), joints=DRY))
    (finding,) = [one for one in coded(piece.findings, "short-grain") if one.where.boards == ("post",)]

    assert finding.found < 0.0
    assert str(finding.says) == f"post: the slot in post for above runs {-finding.found:.1f} past the end"


@pytest.mark.parametrize("lean", [1, -1], ids=["leans to the end", "leans from the end"])
def test_wood_is_measured_on_the_face_where_it_is_least(lean):
    """At 60 degrees the slot is 24.15 / sin 60 on the face, and shifted 12 / tan 60 from the centre-line to a face."""
    along = 700 / math.tan(math.radians(60)) * lean
    job = job_of(
        plank("shelf", (0, 600), (2000, 600)), plank("raking", (90 - along, -100), (90 + along, 1300)), joints=DRY
    )
    (finding,) = [one for one in coded(built(job).findings, "short-grain") if one.where.boards == ("shelf",)]

    least = 90 - HALF / math.sin(math.radians(60)) - 12 / math.tan(math.radians(60))
    assert finding.found == pytest.approx(least, abs=1e-5)


def test_wood_beside_a_level_end_of_a_raking_board_is_the_same_on_both_faces():
    tan9 = math.tan(math.radians(9))
    raking = plank("raking", (650, 0), (650 + 1900 * tan9, 1900), ends=("level", "level"))
    job = job_of(raking, plank("shelf", (0, 60), (2000, 60)), joints=DRY)
    (finding,) = [one for one in coded(built(job).findings, "short-grain") if one.where.boards == ("raking",)]

    assert finding.found == pytest.approx((60 - HALF) / math.cos(math.radians(9)), abs=1e-5)


def test_two_slots_want_wood_between_them():
    uprights = [plank(f"upright {x}", (x, 0), (x, 1200)) for x in (500, 564)]
    piece = built(job_of(plank("shelf", (0, 600), (2000, 600)), *uprights, joints=DRY))
    (finding,) = coded(piece.findings, "short-grain")

    assert finding.severity is Severity.STOP
    assert finding.found == pytest.approx(64 - 24.15)
    assert "the slots for upright 564 and upright 500" in str(finding.says)


def test_three_boards_through_one_point_are_a_stop():
    lines = (((0, 600), (2000, 600)), ((1000, 0), (1000, 1200)), ((500, 100), (1500, 1100)))
    piece = built(job_of(*(plank(name, *line) for name, line in zip("abc", lines, strict=True))))

    found = coded(piece.findings, "short-grain")
    assert {finding.severity for finding in found} == {Severity.STOP}
    assert {finding.where.boards for finding in found} == {("a",), ("b",), ("c",)}


@pytest.mark.parametrize(
    ("x", "severities"),
    [(30, [Severity.WARN]), (36.1, []), (5, [Severity.STOP])],
    ids=["less than t", "t", "over the end"],
)
def test_a_housing_wants_its_board_s_thickness_to_the_end(x, severities):
    """The housing is 24.1 wide, glued: 12.05 to either side; the shelf ends at 0."""
    piece = built(job_of(plank("shelf", (0, 600), (2000, 600)), plank("upright", (x, 0), (x, 607))))

    assert [finding.severity for finding in coded(piece.findings, "short-grain")] == severities


def test_housings_on_opposite_faces_do_not_shorten_each_other_s_grain():
    low = [plank("low", (500, 0), (500, 600))]
    for x in (500, 520, 540, 700):
        piece = built(job_of(plank("shelf", (0, 600), (2000, 600)), *low, plank("high", (x, 600), (x, 1200))))
        assert not coded(piece.findings, "short-grain"), x


def test_housings_beside_each_other_across_the_board_do_not_either():
    shelf = plank("shelf", (0, 600), (2000, 600), depth=300)
    ends = [plank("back", (500, 0), (500, 600), depth=100), plank("front", (500, 0), (500, 600), depth=100, back=200)]
    piece = built(job_of(shelf, *ends))

    assert len(piece.joints) == 2
    assert not coded(piece.findings, "short-grain")


@pytest.mark.parametrize(
    ("depth", "severity", "web", "limit"),
    [
        (None, None, None, None),
        (9, None, None, None),
        (9.1, Severity.WARN, 5.8, 6.0),
        (10, Severity.WARN, 4.0, 6.0),
        (10.1, Severity.STOP, 3.8, 4.0),
        (12, Severity.STOP, 0.0, 4.0),
    ],
    ids=["chosen", "a quarter", "under a quarter", "a sixth", "under a sixth", "nothing"],
)
def test_housings_opposite_each_other_leave_a_quarter_of_the_board_or_a_warning(depth, severity, web, limit):
    """Of 24 a quarter is 6, a sixth 4, which is also the least of any board: under that it is a stop."""
    boards = (
        plank("shelf", (0, 600), (2000, 600)),
        plank("low", (500, 0), (500, 600)),
        plank("high", (510, 600), (510, 1200)),
    )
    piece = built(job_of(*boards, joints=rules(housing={} if depth is None else {"depth": depth})))
    found = coded(piece.findings, "thin-web")

    assert [(one.severity, one.limit) for one in found] == ([] if severity is None else [(severity, limit)])
    assert [one.found for one in found] == ([] if web is None else [pytest.approx(web)])


@pytest.mark.parametrize(
    ("thickness", "depth", "web"),
    [(8, 4, None), (7, 3.5, 3.5), (6, 2, None), (5, 2, 3.0)],
    ids=lambda value: str(value),
)
def test_behind_a_single_housing_4_stay_in_any_board(thickness, depth, web):
    boards = (plank("shelf", (0, 600), (2000, 600), thickness=thickness), plank("low", (500, 0), (500, 600)))
    found = coded(built(job_of(*boards, joints=rules(housing={"depth": depth}))).findings, "thin-web")

    assert [(one.severity, one.limit) for one in found] == ([] if web is None else [(Severity.STOP, 4.0)])
    assert [one.found for one in found] == ([] if web is None else [pytest.approx(web)])


def test_the_web_between_two_raked_floors_is_measured_where_it_is_least():
    """Floors 9.5 deep, square to walls that lean 10 off, of boards that run on in one line.

    Both fall the same way and stay 5 apart along that line, which is 5 / cos 10 along the lean and so 5 / cos^2 10
    square to the faces. Their deepest corners, 4.6 and 0.4 off the middle, lie beside each other and are no web.
    """
    along = 600 * math.tan(math.radians(10))
    boards = (
        plank("shelf", (0, 600), (2000, 600)),
        plank("low", (500 - along, 0), (500, 600)),
        plank("high", (500, 600), (500 + along, 1200)),
    )
    floors = {"depth": 9.5, "raked": "floor square to walls"}
    found = coded(built(job_of(*boards, joints=rules(housing=floors))).findings, "thin-web")

    assert [one.found for one in found] == [pytest.approx(5.0 / math.cos(math.radians(10)) ** 2, abs=1e-4)]


def test_a_name_that_is_not_there_is_a_warning_with_the_nearest():
    missing = Dangling(path=("unit", 0, "boards", 1), name="shlf", nearest="shelf")
    (finding,) = coded(built(job_of(plank("shelf", (0, 0), (900, 0)), dangling=(missing,))).findings, "no-such-board")

    assert (finding.severity, finding.where.path) == (Severity.WARN, ("unit", 0, "boards", 1))
    assert "shelf" in str(finding.remedy)


@pytest.mark.parametrize(("count", "more"), [(3, ""), (14, " and 2 more")], ids=["a few", "many"])
def test_a_name_that_is_like_none_is_told_with_those_there_are_in_order(count, more):
    boards = [plank(f"upright {number:02}", (number * 100, 0), (number * 100, 900)) for number in range(count, 0, -1)]
    missing = Dangling(path=("unit", 0, "boards", 1), name="ghost")
    (finding,) = coded(built(job_of(*boards, dangling=(missing,))).findings, "no-such-board")

    names = ", ".join(f"upright {number:02}" for number in range(1, min(count, 12) + 1))
    assert str(finding.remedy) == f"take it out, or write one of {names}{more}"


def test_ends_that_leave_nothing_of_a_board_are_a_stop():
    """At 45 a level and a plumb end of a 60 board come 30 further in on one face: 20 - 30 - 30 = -40."""
    bit = plank("bit", (0, 0), (20 * math.sqrt(0.5), 20 * math.sqrt(0.5)), thickness=60, ends=("level", "plumb"))
    (finding,) = coded(built(job_of(bit)).findings, "nothing-left")

    assert (finding.severity, finding.where.boards) == (Severity.STOP, ("bit",))
    assert finding.found == pytest.approx(-40, abs=1e-5)


def test_the_options_of_one_joint_do_not_touch_the_findings_of_another():
    boards = (
        plank("shelf", (0, 600), (2000, 600)),
        plank("low", (500, 0), (500, 600)),
        plank("high", (1500, 600), (1500, 1200)),
    )
    piece = built(job_of(*boards, joint_specs=(asked("low", "shelf", depth=13),)))
    (finding,) = coded(piece.findings, "housing-too-deep")

    assert finding.where.joint == ("low", "shelf")
    assert (finding.found, finding.limit) == (13.0, 12.0)


# ---- cures, by hand: left of the slot there are 40, and 75.25 are wanted, so 35.25 more, in steps of 0.5


def cures_of(text, board):
    (finding,) = [one for one in typed.found(text, "short-grain") if one.where.boards == (board,)]
    return {str(cure.label): cure.edits for cure in finding.cures}


def crossed_near(left, low=0.0, **shelf):
    return typed.job(
        typed.board("shelf", [[0, 600], [2000, 600]], **shelf),
        typed.board("post", [[left + HALF, low], [left + HALF, 1200]]),
        typed.table('[joints."cross halving"]', clearance=0.15),
    )


def test_beside_a_free_end_the_board_may_be_lengthened_or_the_joint_moved():
    text = crossed_near(40)
    cures = cures_of(text, "shelf")

    assert list(cures) == ["shelf: 35.5 longer", "post: 35.5 to the right"]
    for edits, line in zip(
        cures.values(), ("line = [[-35.5, 600], [2000, 600]]", "line = [[87.6, 0.0], [87.6, 1200]]"), strict=True
    ):
        cured, _ = change_job_text(text, edits)
        assert line in cured
        assert not typed.found(cured, "short-grain")


def test_the_same_at_the_far_end_of_a_line_drawn_the_other_way():
    text = crossed_near(1936 - HALF).replace("[[0, 600], [2000, 600]]", "[[2000, 600], [0, 600]]")
    (lengthen, move) = cures_of(text, "shelf").items()
    cured, _ = change_job_text(text, lengthen[1])

    assert move[0].endswith("to the left")
    assert re.search(r"line = \[\[20\d\d(\.5)?, 600\], \[0, 600\]\]", cured)
    assert not typed.found(cured, "short-grain")


def test_an_end_that_stands_on_the_floor_is_not_lengthened_and_one_that_is_joined_is_not_either():
    """The shelf lies 40 over the floor: the post is not run through the floor; a joined end goes with its joint."""
    floor = typed.job(
        typed.board("shelf", [[0, 40 + HALF], [2000, 40 + HALF]]),
        typed.board("post", [[1000, 0], [1000, 1200]]),
        typed.table('[joints."cross halving"]', clearance=0.15),
    )
    assert list(cures_of(floor, "post")) == ["shelf: 35.5 up"]

    joined = crossed_near(40) + typed.board("side", [[0, 0], [0, 1200]])
    assert [label.split(":")[0] for label in cures_of(joined, "shelf")] == ["post"]


def test_two_slots_are_parted_by_moving_either():
    """39.85 are left of 75.25: 35.4 more, so 35.5."""
    text = crossed_near(500 - HALF) + typed.board("next", [[564, 0], [564, 1200]])
    cures = cures_of(text, "shelf")

    assert set(cures) == {"post: 35.5 to the left", "next: 35.5 to the right"}
    for edits in cures.values():
        assert not typed.found(change_job_text(text, edits)[0], "short-grain")


def test_one_of_a_row_and_a_frame_s_side_are_not_moved_by_themselves():
    row = (
        crossed_near(500 - HALF)
        .replace('name = "post"', 'name = "post {i}"\ncount = 2')
        .replace(f"{500.0!r}", '"436 + i * 64"')
    )
    (finding,) = [one for one in typed.found(row, "short-grain") if one.where.boards == ("shelf",)]
    assert finding.cures == ()


def test_a_cure_that_would_run_past_the_room_is_not_offered():
    text = crossed_near(40) + typed.table("[wall]", left=0)
    assert list(cures_of(text, "shelf")) == ["post: 35.5 to the right"]
