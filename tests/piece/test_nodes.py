"""Where boards meet, row by row of the rules; and nodes of three boards with the cures that end them.

Boards are 24 thick unless drawn otherwise. Three that pass through (1000, 1000): a level one, a plumb one and
one at 60. On the level board the plumb one's slot is 24.15 long and the leaning one's 27.9, and 2 x 24 = 48 must
be left between: so the leaning one must step aside. A cure is applied to the text as the page applies it.
"""

import math

import pytest
from hypothesis import assume, given, note, settings
from hypothesis import strategies as st

from dryfit.book import change_job_text
from dryfit.piece.meetings import pair_key
from dryfit.places import Cure
from tests.joints.typed import board, book_of, cut_of, found, frame, job, joint, piece_of, rail, stops, table
from tests.strategies import lengths

AT = (1000.0, 1000.0)
HUNG = table("[wall]", hung=True)


def through(name, degrees, *, aside=0.0, timber="24", long=900):
    """A board that passes the node, `aside` to its left."""
    x, y = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    px, py = AT[0] - aside * y, AT[1] + aside * x
    return board(name, [[px - long * x, py - long * y], [px + long * x, py + long * y]], timber=timber)


def ending(name, degrees, *, start=0.0, timber="24", long=900):
    """A board that ends at the node, or `start` before it."""
    x, y = math.cos(math.radians(degrees)), math.sin(math.radians(degrees))
    return board(name, [[AT[0] + start * x, AT[1] + start * y], [AT[0] + long * x, AT[1] + long * y]], timber=timber)


def cured(text, cure):
    """The text with a cure's edits made, by the code that writes the page's changes."""
    changed, _ = change_job_text(text, cure.edits)
    assert changed != text
    return changed


# ---- the table of meetings, row by row


SHELF = board("s", [[0, 500], [1200, 500]])
RAIL = rail("s", [[0, 500], [1200, 500]])
ROWS = {
    "end on face": (
        [SHELF, board("u", [[600, 0], [600, 488]])],
        "end on face",
        "housing",
    ),
    "an end in the other's thickness": (
        [SHELF, board("u", [[600, 0], [600, 505]])],
        "end on face",
        "housing",
    ),
    "crossing": (
        [SHELF, board("u", [[600, 0], [600, 1000]])],
        "crossing",
        "cross halving",
    ),
    "corner": ([SHELF, board("u", [[0, 500], [0, 0]])], "corner", "mitre"),
    "a blunt corner": ([board("s", [[0, 500], [600, 500]]), board("u", [[600, 500], [1200, 510]])], "corner", "mitre"),
    "in line": ([board("s", [[0, 500], [600, 500]]), board("u", [[600, 500], [1200, 500]])], "in line", "splice"),
    "laid on, face on face": (
        [SHELF, board("u", [[200, 524], [900, 524]])],
        "touching",
        None,
    ),
    "laid on a flat board": (
        [RAIL, board("u", [[600, 0], [600, 1000]], back=24)],
        "touching",
        None,
    ),
    "over a flat board": (
        [RAIL, board("u", [[600, 0], [600, 1000]])],
        "crossed flat",
        "notch",
    ),
    "under a flat board at the front": (
        [rail("s", [[0, 500], [1200, 500]], back=276), board("u", [[600, 0], [600, 1000]])],
        "crossed flat",
        "notch",
    ),
    "in each other's way": (
        [SHELF, board("u", [[200, 510], [900, 510]])],
        "overlap",
        None,
    ),
}


@pytest.mark.parametrize(("boards", "form", "kind"), ROWS.values(), ids=ROWS)
@pytest.mark.parametrize("order", [1, -1], ids=["in order", "the other first"])
def test_each_row_of_the_table_gets_its_joint_its_note_or_its_stop(boards, form, kind, order):
    text = job(HUNG, *boards[::order])
    (meeting,) = piece_of(text).meetings
    assert meeting.form == form
    assert [made.kind for made in piece_of(text).joints] == ([kind] if kind else [])
    expected = {"touching": {"laid-on"}, "overlap": {"not-joined"}}.get(form, set())
    codes = {finding.code for finding in book_of(text).findings if finding.code in ("laid-on", "not-joined", "overlap")}
    assert codes | (stops(text) - {"overlap"}) == expected
    if form != "overlap":
        assert not found(text, "overlap")


def test_what_is_only_laid_on_is_a_note_with_what_to_do():
    (finding,) = found(job(HUNG, *ROWS["laid on, face on face"][0]), "laid-on")
    assert (finding.severity, str(finding.says), str(finding.remedy)) == (
        "note",
        "s touches u; nothing is cut",
        "glue or screw it",
    )


def test_boards_in_line_are_spliced_by_a_decision_that_can_be_kept():
    text = job(HUNG, *ROWS["in line"][0])
    assert not found(text, "butt-in-line")
    assert stops(text) == set()
    (decision,) = [one for one in piece_of(text).decisions if one.about == "how the ends in line are joined"]
    kept = cured(text, Cure(label="keep", edits=(decision.keep,)))
    assert not [one for one in piece_of(kept).decisions if one.about == decision.about]
    assert piece_of(kept).joints == piece_of(text).joints


def test_a_kind_not_made_yet_is_a_stop_in_line_that_offers_what_can_be_made(unmade):
    text = job(HUNG, table("[joints]", in_line=unmade), *ROWS["in line"][0])
    (finding,) = found(text, "joint-not-made-yet")
    assert f"a {unmade} cannot be made yet" in str(finding.says)
    assert [str(cure.label) for cure in finding.cures] == ["make it a butt", "make it a splice"]
    for cure in finding.cures:
        assert not found(cured(text, cure), "joint-not-made-yet")
        assert stops(cured(text, cure)) == set()


def test_a_board_whose_line_passes_is_not_divided_and_ends_stand_on_the_face_they_see():
    text = job(HUNG, through("shelf", 0), ending("up", 90), ending("down", -100))
    piece = piece_of(text)
    assert {made.key: made.kind for made in piece.joints} == {
        ("down", "shelf"): "housing",
        ("shelf", "up"): "housing",
    }
    faces = {made.meeting.a.body: made.meeting.b.face for made in piece.joints}
    assert faces == {"up": 1, "down": -1}
    assert piece.part_by_name["shelf"].length == pytest.approx(1800.0)
    assert stops(text) == set()


def test_two_boards_cross_and_another_ends_clear_of_the_crossing():
    """100 to the right of the crossing, square: 100 - 12 - 12 = 76 of wood, more than 48."""
    text = job(HUNG, through("shelf", 0), through("post", 90), board("leg", [[1100, 400], [1100, 1000]]))
    assert {made.key: made.kind for made in piece_of(text).joints} == {
        ("leg", "shelf"): "housing",
        ("post", "shelf"): "cross halving",
    }
    assert stops(text) == set()


# ---- three that pass


def crossed(*leans, timbers=("24", "24", "24"), asides=(0.0, 0.0, 0.0)):
    parts = zip("abc", leans, asides, timbers, strict=True)
    return job(
        HUNG, *(through(name, lean, aside=aside, timber=timber, long=2500) for name, lean, aside, timber in parts)
    )


def test_three_boards_through_one_point_are_a_stop_with_a_shift_for_each():
    (finding,) = found(crossed(0, 90, 60), "three-boards-pass")
    assert (finding.severity, finding.where.boards) == ("stop", ("a", "b", "c"))
    assert str(finding.says) == "a, b and c pass through one point"
    assert [str(cure.label).split(":")[0] for cure in finding.cures] == ["a", "b", "c"]


@st.composite
def lines_through(draw):
    """Directions of three lines, each 36 or more from the others."""
    first, second = draw(lengths(36, 72)), draw(lengths(36, 72))
    base = draw(lengths(0, 179))
    return tuple((base + turn) % 180.0 for turn in draw(st.permutations((0.0, first, first + second))))


@st.composite
def rays(draw):
    """Directions of three boards away from a point, no two of them nearer than 36 to each other or to one line."""
    first, second = draw(lengths(36, 144)), draw(lengths(36, 144))
    assume(abs(first + second - 180.0) > 36.0 and first + second < 324.0)
    base = draw(lengths(0, 359))
    return tuple((base + turn) % 360.0 for turn in draw(st.permutations((0.0, first, first + second))))


@settings(max_examples=50)
@given(
    leans=lines_through(),
    asides=st.tuples(lengths(-8, 8), lengths(-8, 8), lengths(-8, 8)),
    timbers=st.tuples(*[st.sampled_from(["12", "24", "40"])] * 3),
    which=st.integers(0, 2),
)
def test_every_shift_offered_ends_the_stop_and_brings_no_new_one(leans, asides, timbers, which):
    text = crossed(*leans, timbers=timbers, asides=asides)
    assume(found(text, "three-boards-pass"))
    (finding,) = found(text, "three-boards-pass")
    assert len(finding.cures) == 3
    after = cured(text, finding.cures[which])
    note(finding.cures[which].label)
    note([str(one.says) for one in book_of(after).stops])
    assert stops(after) == set()
    assert {made.kind for made in piece_of(after).joints} == {"cross halving"}
    assert len(piece_of(after).joints) == 3


def test_a_shift_is_no_longer_than_it_must_be():
    """One step of 0.5, and what clearance wants, less and the stop is back."""
    text = crossed(0, 90, 60)
    (finding,) = found(text, "three-boards-pass")
    for cure in finding.cures:
        short = [
            type(edit)(action=edit.action, path=edit.path, value=edit.value * (1 - 2.5 / abs(_by(cure))))
            for edit in cure.edits
        ]
        changed, _ = change_job_text(text, short)
        assert "short-grain" in stops(changed) or "three-boards-pass" in stops(changed), cure.label


def _by(cure):
    return math.hypot(*{edit.path[-1]: edit.value for edit in cure.edits}.values())


def test_a_side_of_a_frame_is_moved_by_its_two_corners_and_a_board_of_a_row_not_by_itself():
    """The frame's side lies on y = 1000, the row's first board stands at x = 1000.

    Sides were not offered while nobody knew their corners: the neighbours follow them, as they follow a hand.
    """
    text = job(
        HUNG,
        frame([[0, 1000], [2000, 1000], [2000, 2500], [0, 2500]]),
        table(
            "[[board]]", name="post {i}", count=2, timber="24", line=[["i * 1000", 500], ["i * 1000", 2000]], depth=300
        ),
        through("lean", 60),
    )
    (finding,) = found(text, "three-boards-pass")
    assert finding.where.boards == ("box 1", "lean", "post 1")
    assert [str(cure.label).split(":")[0] for cure in finding.cures] == ["box 1", "lean"]
    side = finding.cures[0]
    assert {edit.path[2:] for edit in side.edits} == {("points", 0, 1), ("points", 1, 1)}, "its corners, up or down"
    for cure in finding.cures:
        assert not found(cured(text, cure), "three-boards-pass")


# ---- three that end


def ends_at(*leans, timbers=("24", "24", "24")):
    parts = zip("abc", leans, timbers, strict=True)
    return job(HUNG, *(ending(name, lean, timber=timber) for name, lean, timber in parts))


def test_three_ends_at_one_point_are_a_stop_and_none_of_them_is_joined():
    text = ends_at(0, 120, 240)
    (finding,) = found(text, "three-ends")
    assert str(finding.says) == "a, b and c end at one point and no board passes through it"
    assert not piece_of(text).joints
    assert [str(cure.label).split(" ")[1] for cure in finding.cures] == ["a", "b", "c"]


@settings(max_examples=50)
@given(
    leans=rays(),
    timbers=st.tuples(*[st.sampled_from(["12", "24", "40"])] * 3),
)
def test_every_lengthening_offered_ends_the_stop_and_brings_no_new_one(leans, timbers):
    text = ends_at(*leans, timbers=timbers)
    (finding,) = found(text, "three-ends")
    assert finding.cures or "12" in timbers, "only a board of 12 may have no web left between two housings"
    for cure in finding.cures:
        after = cured(text, cure)
        note(f"{cure.label}: {[str(one.says) for one in book_of(after).stops]}")
        assert stops(after) == set()
        assert [made.kind for made in piece_of(after).joints] == ["housing", "housing"]
        assert not found(after, "short-grain")


def test_only_the_board_that_leaves_the_others_on_either_side_is_offered():
    """At 0, 60 and 120 only the middle one parts the others when it runs on."""
    (finding,) = found(ends_at(0, 60, 120), "three-ends")
    assert [str(cure.label).split(" ")[1] for cure in finding.cures] == ["b"]


def test_a_board_that_ends_at_a_frames_corner_is_told_of_its_three_ends():
    text = job(HUNG, frame([[1000, 1000], [2000, 1000], [2000, 2000], [1000, 2000]]), ending("tail", 225))
    (finding,) = found(text, "three-ends")
    assert set(finding.where.boards) == {"box 1", "box 4", "tail"}


# ---- an end in the angle of two that cross


def in_angle(*, second=90.0, lean=50.0, off=(8.0, 8.0), timbers=("24", "24", "24"), backwards=False):
    x, y = AT[0] + off[0], AT[1] + off[1]
    line = [[x, y], [x + 1400 * math.cos(math.radians(lean)), y + 1400 * math.sin(math.radians(lean))]]
    return job(
        HUNG,
        through("level", 0, timber=timbers[0], long=2500),
        through("post", second, timber=timbers[1], long=2500),
        board("strut", line[::-1] if backwards else line, timber=timbers[2]),
    )


def test_an_end_in_the_angle_of_a_crossing_is_a_stop_and_keeps_one_housing():
    text = in_angle()
    (finding,) = found(text, "end-in-angle")
    assert str(finding.says) == "strut ends in the angle where level and post cross"
    assert {made.key for made in piece_of(text).joints} == {("level", "post"), ("level", "strut")}
    (cure,) = finding.cures
    assert str(cure.label).startswith("move the end of strut")
    assert str(cure.label).endswith("along level to the right")


@settings(max_examples=50)
@given(
    second=lengths(60, 120),
    lean=lengths(35, 60),
    timbers=st.tuples(*[st.sampled_from(["12", "24", "40"])] * 3),
    backwards=st.booleans(),
)
def test_moving_the_end_as_offered_ends_the_stop_and_brings_no_new_one(second, lean, timbers, backwards):
    assume(second - lean > 30)
    halves = [float(timber) / 2 for timber in timbers]
    text = in_angle(
        second=second,
        lean=lean,
        off=(halves[1] * 0.6 + halves[0] * 0.2, halves[0] * 0.5),
        timbers=timbers,
        backwards=backwards,
    )
    assume(found(text, "end-in-angle"))
    (finding,) = found(text, "end-in-angle")
    assert finding.cures
    for cure in finding.cures:
        after = cured(text, cure)
        note(f"{cure.label}: {[str(one.says) for one in book_of(after).stops]}")
        assert stops(after) == set()


@pytest.mark.parametrize(
    ("lean", "word"), [(50, "right"), (130, "left"), (-50, "right"), (-130, "left")], ids=["NE", "NW", "SE", "SW"]
)
def test_the_end_is_moved_to_the_side_on_which_its_board_lies(lean, word):
    x, y = math.copysign(8, math.cos(math.radians(lean))), math.copysign(8, math.sin(math.radians(lean)))
    text = in_angle(lean=lean, off=(x, y))
    (cure,) = found(text, "end-in-angle")[0].cures
    assert str(cure.label).endswith(f"along level to the {word}")
    assert stops(cured(text, cure)) == set()


def test_an_end_in_the_inside_of_a_frames_corner_is_no_joint_that_could_be_made():
    text = job(
        HUNG,
        frame([[1000, 1000], [2000, 1000], [2000, 2000], [1000, 2000]]),
        board("strut", [[1008, 1008], [1600, 1700]]),
    )
    assert {"overlap", "short-grain"} & stops(text)


# ---- unequal and partly overlapping depths


DEPTHS = {
    "level": (300, 0, 300, 0, set()),
    "proud at the front": (330, 0, 300, 0, {("warn", "a")}),
    "set back at the wall": (300, 0, 280, 20, {("note", "a")}),
    "each proud at one edge": (300, 0, 300, 40, {("note", "a"), ("warn", "b")}),
    "proud at both": (360, 0, 300, 30, {("warn", "a"), ("note", "a")}),
}


@pytest.mark.parametrize(("depth", "back", "other", "other_back", "grain"), DEPTHS.values(), ids=DEPTHS)
@pytest.mark.parametrize("degrees", [90, 60, -120])
def test_at_a_corner_end_grain_shows_where_a_board_stands_proud(depth, back, other, other_back, grain, degrees):
    x, y = 600 * math.cos(math.radians(degrees)), 600 * math.sin(math.radians(degrees))
    text = job(
        HUNG,
        board("a", [[0, 500], [600, 500]], depth, back=back),
        board("b", [[0, 500], [x, 500 + y]], other, back=other_back),
    )
    assert {(one.severity.value, one.where.boards[0]) for one in found(text, "end-grain-shows")} == grain
    assert stops(text) == set()


def test_boards_that_share_no_depth_do_not_meet():
    text = job(HUNG, board("a", [[0, 500], [600, 500]], 150), board("b", [[0, 500], [0, 0]], 150, back=150))
    assert not piece_of(text).joints


def at_depth(name, degrees, back, depth):
    """A board that passes the node, from `back` out of the wall."""
    x, y = 900 * math.cos(math.radians(degrees)), 900 * math.sin(math.radians(degrees))
    return board(name, [[AT[0] - x, AT[1] - y], [AT[0] + x, AT[1] + y]], depth, back=back)


NECKS = {"half of each, 154 stays": (0.5, 0.5, None), "most of both, 38 stays": (0.1, 0.9, 38.0)}


@pytest.mark.parametrize(("behind", "before", "neck"), NECKS.values(), ids=NECKS)
def test_one_board_crosses_another_behind_and_a_third_before_it_at_the_same_place(behind, before, neck):
    """b, 300 deep, is notched for a (0 to 150) from the wall and for c (160 to 300) from the front: a neck is left.

    Half of each: from 75.5 to 229.5. With 0.1 of the overlap taken from a and 0.9 from b: from 135.5 to 173.5.
    """
    text = job(
        HUNG,
        at_depth("a", 0, 0, 150),
        at_depth("b", 90, 0, 300),
        at_depth("c", 60, 160, 140),
        joint("a", "b", front="a", ratio=behind),
        joint("b", "c", front="b", ratio=before),
    )
    assert {made.key: made.kind for made in piece_of(text).joints} == {
        ("a", "b"): "cross halving",
        ("b", "c"): "cross halving",
    }
    assert not found(text, "three-boards-pass")
    assert not found(text, "overlap")
    short = [one for one in found(text, "short-grain") if one.severity == "stop"]
    assert [(one.where.boards, one.found, one.limit) for one in short] == (
        [] if neck is None else [(("b",), pytest.approx(neck), 48.0)]
    )


def test_three_that_pass_and_share_some_depth_are_a_stop_though_they_reach_out_unequally():
    text = job(HUNG, at_depth("a", 0, 0, 150), at_depth("b", 90, 0, 300), at_depth("c", 60, 120, 180))
    assert found(text, "three-boards-pass")


def test_a_joint_asked_for_at_a_node_that_cannot_be_made_is_said_to_have_no_meeting():
    text = job(HUNG, ending("a", 0), ending("b", 120), ending("c", 240), joint("a", "b", kind="mitre"))
    assert [finding.where.boards for finding in found(text, "joint-without-meeting")] == [("a", "b")]


def test_the_slots_of_a_node_that_was_cured_keep_twice_the_thickness():
    text = crossed(0, 90, 60)
    (finding,) = found(text, "three-boards-pass")
    after = cured(text, finding.cures[2])
    figures = cut_of(after, "slot in a for c").figures
    assert figures.on_face == pytest.approx(24.15 / math.sin(math.radians(60)), abs=1e-3)
    assert pair_key("a", "c") in piece_of(after).joint_by_key
    (grain,) = [one for one in found(after, "short-grain") if one.where.boards == ("a",)]
    assert grain.severity == "warn"  # 2 t are left; half the slot's depth, 75.25, would be better
    assert 48.0 <= grain.found < 50.0
