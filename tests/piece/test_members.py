"""Boards longer than their stock are divided into members that meet in line, each a board like any other.

The shelf is 2600 long, its stock 2000; trim of 10 at each end leaves 1980 for a member. Uprights 24 thick cross
it at 200, 1000, 1800 and 2400. In the bay from 1800 to 2400 the quarter point is 1950: there it is divided, so
the upright at 2400 crosses the second member, 450 from its start. What the job file says of the shelf, and what
has been made of it, goes to the member that it concerns; what is said back speaks of the shelf again.
"""

from dataclasses import replace

import pytest

from dryfit.book import build, change_job_text, read_job_text
from dryfit.documents.pins import pins_of
from dryfit.errors import JobError
from dryfit.piece.made import read_made_text, with_pins
from dryfit.piece.members import Divided, finding_in_the_file
from dryfit.piece.setout import Made, Pin
from dryfit.places import Cure, Edit
from dryfit.sentences import Voice, told

HEAD = """\
dryfit = 1
[job]
title = "wall"
[timber.oak]
species = "oak, white"
form = "panel"
thickness = 24
longest = 2000
[wall]
hung = true
"""
BUTTED = '[joints]\nin_line = "butt"\n'  # so that members end where the shelf is divided
UPRIGHTS = (200, 1000, 1800, 2400)
SPLIT = "where the board is divided"
FIRST, SECOND = "shelf (1 of 2)", "shelf (2 of 2)"


def board(name, line, more="", depth=300):
    return f'[[board]]\nname = "{name}"\ntimber = "oak"\nline = {line}\ndepth = {depth}\n{more}'


def job(line=((0, 500), (2600, 500)), more="", uprights=UPRIGHTS, rest="", butted=True):
    stands = "".join(board(f"upright {x}", [[x, 0], [x, 1000]]) for x in uprights)
    head = HEAD + (BUTTED if butted else "")
    return head + board("shelf", [list(point) for point in line], more) + stands + rest


def piece(text, made=None):
    return build(read_job_text(text), made=made, paces=()).piece


def lengths(made):
    return {part.id: part.length for part in made.parts if part.id.startswith("shelf")}


def kept(text, edit):
    """The text with one edit made, as the page makes it."""
    return change_job_text(text, [edit])[0]


def coded(made, code):
    return [finding for finding in made.findings if finding.code == code]


def nothing_made(**more):
    return Made(**{"pins": {}, "thickness": {}, "fronts": {}, **more})


# ---- what the members are


def test_members_are_counted_from_the_datum_end_and_add_up_to_the_whole():
    made = piece(job())
    assert lengths(made) == {FIRST: 1950.0, SECOND: 650.0}
    assert dict(made.whole) == {FIRST: "shelf", SECOND: "shelf"}


def test_the_line_drawn_the_other_way_gives_the_same_members():
    there, back = piece(job()), piece(job(((2600, 500), (0, 500))))
    assert lengths(there) == lengths(back)
    assert [joint.key for joint in there.joints] == [joint.key for joint in back.joints]
    assert [cut for part in there.parts for cut in part.cuts] == [cut for part in back.parts for cut in part.cuts]


def test_only_the_outer_ends_keep_the_form_and_the_scribe_of_the_whole():
    more = 'ends = { start = "plumb", end = "plumb" }\nscribe = { start = 5, end = 15 }\n'
    first, second = (piece(job(((0, 500), (2600, 550)), more)).part_by_name[name] for name in (FIRST, SECOND))
    assert (first.board.ends, second.board.ends) == (("plumb", "square"), ("square", "plumb"))
    assert (first.board.scribe, second.board.scribe) == ((5.0, 0.0), (0.0, 15.0))
    assert [cut.word for cut in first.cuts if cut.end] == ["plumb end", "end"]


def test_members_are_half_lapped_where_the_job_names_no_kind_and_their_blanks_run_past_the_place():
    """140 of lap, so 70 past 1600 and 70 before it; the decision can be kept and gives the same piece."""
    made = piece(job(butted=False))
    (joint,) = [joint for joint in made.joints if joint.meeting.form == "in line"]
    assert (joint.key, joint.kind) == ((FIRST, SECOND), "splice")
    assert lengths(made) == {FIRST: 1670.0, SECOND: 1070.0}
    (decision,) = [one for one in made.decisions if "in line" in str(one.about)]
    assert str(decision.value) == "splice, half-lapped"
    assert piece(kept(job(butted=False), decision.keep)).parts == made.parts


def test_members_are_butted_and_dowelled_where_the_stock_has_no_room_for_a_lap_with_a_warning_and_no_stop():
    """In stock of 1420 from 1200 to 1400 is in reach of both ends; with 70 more from 1270 on, in the middle third."""
    made = piece(job(butted=False).replace("longest = 2000", "longest = 1420"))
    (joint,) = [joint for joint in made.joints if joint.meeting.form == "in line"]
    assert (joint.key, joint.kind) == ((FIRST, SECOND), "butt")
    assert "dowel holes" in {cut.word for cut in joint.cuts}
    (warn,) = coded(made, "butt-in-line")
    assert (warn.severity, warn.source) == ("warn", "common practice")
    assert not coded(made, "joint-not-made-yet")


def test_a_kind_not_made_yet_is_a_stop_in_line_and_its_cure_ends_it(unmade):
    asked = job(rest=f'[joints]\nin_line = "{unmade}"\n', butted=False)
    (stop,) = coded(piece(asked), "joint-not-made-yet")
    assert "end to end" in str(stop.says)
    assert not coded(piece(kept(asked, stop.cures[0].edits[0])), "joint-not-made-yet")


def test_the_joint_between_two_members_is_asked_for_by_their_names():
    """Nothing else in the file may speak of a member, so there the word of a board that is not there stays."""
    rest = f'[[joint]]\nbetween = ["{FIRST}", "{SECOND}"]\nkind = "butt"\ncount = 3\n'
    made = piece(job(rest=rest))
    assert made.joint_by_key[FIRST, SECOND].options.count == 3
    assert not coded(made, "no-such-board")
    (missing,) = coded(piece(job(rest=f'[[unit]]\nname = "u"\nboards = ["{FIRST}", "upright 200"]\n')), "no-such-board")
    assert str(missing.says) == f"there is no board called {FIRST}"


# ---- the decision


def test_the_decision_can_be_kept_and_comes_back_to_the_same_piece():
    before = piece(job())
    (decision,) = [decision for decision in before.decisions if decision.about == SPLIT]
    text = kept(job(), decision.keep)
    after = piece(text)
    assert (decision.key, decision.decider) == (("shelf", "shelf"), "chosen")
    assert str(decision.value) == "1950 from its datum end"
    assert "splice_at = [1950]" in text
    assert (after.boards, after.joints, after.parts) == (before.boards, before.joints, before.parts)
    (decision,) = [decision for decision in after.decisions if decision.about == SPLIT]
    assert (decision.decider, decision.keep) == ("maker", None)


@pytest.mark.parametrize("line", [((2600, 500), (0, 500)), ((2603.7, 537.3), (0.4, 500.1))], ids=["level", "leaning"])
def test_a_line_drawn_from_the_far_end_keeps_its_places_from_there(line):
    before = piece(job(line))
    (decision,) = [decision for decision in before.decisions if decision.about == SPLIT]
    text = kept(job(line), decision.keep)
    assert decision.keep.value[0] == pytest.approx(before.board_by_name[SECOND].length, abs=1e-6)
    assert piece(text).parts == before.parts


def test_in_inches_the_places_are_written_in_mm_as_they_were_worked_out():
    text = job().replace("[timber.oak]", 'units = "in"\n[timber.oak]').replace("thickness = 24", 'thickness = "24 mm"')
    text = text.replace("longest = 2000", 'longest = "2000 mm"').replace("depth = 300", 'depth = "300 mm"')
    for x in (0, 200, 500, 1000, 1800, 2400, 2600):
        text = text.replace(f"[{x},", f'["{x} mm",').replace(f", {x}]", f', "{x} mm"]')
    before = piece(text)
    (decision,) = [decision for decision in before.decisions if decision.about == SPLIT]
    assert told(decision.value, Voice("in")) == "76 49/64 in from its datum end"
    assert decision.keep.value == ["1950 mm"]
    assert piece(kept(text, decision.keep)).parts == before.parts


ROW = "count = 3\n[[board.except]]\ni = 2\nline = [[0, 800], [1500, 800]]\n"


def test_one_of_a_row_that_is_divided_gets_its_places_as_an_exception():
    """Shelves at 500, 800 and 1100, all 2600 long but the second, which the stock holds whole."""
    rows = [board("shelf {i}", '[[0, "200 + 300 * i"], [2600, "200 + 300 * i"]]', ROW)]
    text = HEAD + BUTTED + "".join(rows) + "".join(board(f"upright {x}", [[x, 0], [x, 1300]]) for x in UPRIGHTS)
    before = piece(text)
    decisions = [decision for decision in before.decisions if decision.about == SPLIT]
    assert [decision.key[0] for decision in decisions] == ["shelf 1", "shelf 3"]
    assert {"shelf 1 (1 of 2)", "shelf 2", "shelf 3 (2 of 2)"} <= before.part_by_name.keys()
    for decision in decisions:
        text = kept(text, decision.keep)
    assert text.count("splice_at = [1950]") == 2
    assert "[[board.except]]\ni = 3\nsplice_at" in text
    after = piece(text)
    assert {decision.decider for decision in after.decisions if decision.about == SPLIT} == {"maker"}
    assert after.parts == before.parts


def test_a_row_divided_alike_is_kept_as_one():
    rows = board("shelf {i}", '[[0, "200 + 300 * i"], [2600, "200 + 300 * i"]]', "count = 2\n")
    text = HEAD + rows + "".join(board(f"upright {x}", [[x, 0], [x, 1300]]) for x in UPRIGHTS)
    before = piece(text)
    text = kept(text, next(decision.keep for decision in before.decisions if decision.about == SPLIT))
    assert text.count("splice_at") == 1
    assert piece(text).parts == before.parts


# ---- what is handed on


@pytest.mark.parametrize(("upright", "member"), [(1000, FIRST), (2400, SECOND)])
@pytest.mark.parametrize("front", ["shelf", "upright"])
def test_what_is_asked_of_a_joint_is_asked_of_the_member_that_has_it(upright, member, front):
    front = f"upright {upright}" if front == "upright" else "shelf"
    rest = f'[[joint]]\nbetween = ["upright {upright}", "shelf"]\nfront = "{front}"\nratio = 0.25\n'
    made = piece(job(rest=rest))
    joint = made.joint_by_key[member, f"upright {upright}"]
    assert joint.making.front == (member if front == "shelf" else front)
    assert joint.options.ratio == 0.25
    (decision,) = [decision for decision in made.decisions if decision.key == joint.key]
    assert decision.decider == "maker"


def test_an_option_that_names_the_whole_names_its_member():
    """At a corner the long board is to run through: the second member does."""
    rest = board("wing", [[2600, 500], [2600, 0]])
    rest += '[[joint]]\nbetween = ["shelf", "wing"]\nkind = "butt"\nthrough = "shelf"\n'
    made = piece(job(rest=rest))
    joint = made.joint_by_key[SECOND, "wing"]
    assert (joint.kind, joint.options.through) == ("butt", SECOND)
    assert not coded(made, "joint-unsuited")
    assert made.part_by_name[SECOND].length == pytest.approx(650 + 12)


def test_a_joint_asked_for_where_the_whole_meets_nothing_is_told_of_the_whole():
    rest = board("far off", [[100, 1500], [900, 1500]]) + '[[joint]]\nbetween = ["shelf", "far off"]\nratio = 0.25\n'
    (warning,) = coded(piece(job(rest=rest)), "joint-without-meeting")
    assert str(warning.says).startswith("far off and shelf do not meet")


def test_two_divided_boards_meet_in_the_right_members():
    """A board 2300 high crosses the shelf at 500 and two more at 1200 and 2200: divided a quarter past 1200, at 1450.

    Not at 1950, by the outer support, where an outer bay bends most and the short member would rock on one support.
    It crosses the shelf at 2100, so that is divided a quarter of 300 past the upright at 1800.
    """
    tall = board("tall", [[2100, 0], [2100, 2300]])
    rest = tall + board("upper", [[1500, 1200], [2500, 1200]]) + board("top", [[1500, 2200], [2500, 2200]])
    rest += '[[joint]]\nbetween = ["tall", "shelf"]\nfront = "tall"\n'
    made = piece(job(rest=rest))
    assert made.joint_by_key[SECOND, "tall (1 of 2)"].making.front == "tall (1 of 2)"
    assert lengths(made) == {FIRST: 1875.0, SECOND: 725.0}
    assert made.part_by_name["tall (1 of 2)"].length == 1450.0
    assert {("tall (1 of 2)", "upper"), ("tall (2 of 2)", "top")} <= made.joint_by_key.keys()


FIXING = '[[fixing]]\nboard = "shelf"\nkind = "long screw"\nat = {at}\nscrew = "wood 5x120"\n'


@pytest.mark.parametrize(
    ("at", "fixed"),
    [
        ([400], {"fixing of shelf": (FIRST, (400.0,))}),
        ([2500], {"fixing of shelf": (SECOND, (550.0,))}),
        (
            [400, 1400, 2500],
            {"fixing of shelf (1 of 2)": (FIRST, (400.0, 1400.0)), "fixing of shelf (2 of 2)": (SECOND, (550.0,))},
        ),
    ],
    ids=["in the first", "in the second", "in both"],
)
@pytest.mark.parametrize("backwards", [False, True], ids=["as drawn", "drawn backwards"])
def test_a_fixing_holds_the_member_it_goes_through_counted_from_that_members_start(at, fixed, backwards):
    """Places are the maker's, so the board is divided at 1950 whatever the screws hold."""
    line = ((2600, 500), (0, 500)) if backwards else ((0, 500), (2600, 500))
    typed = [2600 - place for place in at] if backwards else at
    more = f"splice_at = [{650 if backwards else 1950}]\n"
    made = piece(job(line, more, rest=FIXING.format(at=typed)))
    screws = {joint.key[0]: joint.meeting for joint in made.joints if joint.kind == "long screw"}
    assert {name: (screw.a.body, tuple(sorted(screw.places))) for name, screw in screws.items()} == fixed
    assert made.part_by_name[FIRST].board.frame.origin[0] == 0.0


def test_a_board_of_many_members_numbers_its_fixings_as_its_members():
    """Ten members and more: the tenth comes after the ninth."""
    text = job(((0, 500), (2600, 500)), f"splice_at = {list(range(200, 2600, 200))}\n", uprights=())
    text += FIXING.format(at=[100, 300, 1900, 2500])
    fixings = [joint.key[0] for joint in piece(text).joints if joint.kind == "long screw"]
    assert sorted(fixings, key=lambda name: int(name.split("(")[1].split()[0])) == [
        f"fixing of shelf ({number} of 13)" for number in (1, 2, 10, 13)
    ]


def test_a_unit_with_the_whole_holds_all_its_members():
    made = piece(job(rest='[[unit]]\nname = "glued"\nboards = ["shelf", "upright 200"]\n'))
    (unit,) = made.job.units_glued
    assert unit.boards == (FIRST, SECOND, "upright 200")


def test_the_finish_of_the_whole_is_on_all_its_members():
    finish = '[finish]\nsystem = "varnish, polyurethane"\ncoats = 2\nfilm = 0.04\nbefore_assembly = ["shelf"]\n'
    made = piece(job(rest=finish + 'joint_zones = "coated"\n'))
    films = {board.name: made.history.film(board.name) for board in made.boards}
    assert films == {FIRST: 0.08, SECOND: 0.08, **{f"upright {x}": 0.0 for x in UPRIGHTS}}


THICK = [(0.0, 22.0), (1300.0, 24.6), (2600.0, 23.3)]  # 24.6 - 1.3 x 650 / 1300 = 23.95 at 1950


@pytest.mark.parametrize("backwards", [False, True], ids=["as drawn", "drawn backwards"])
@pytest.mark.parametrize("measured", ["in the job file", "in the made file"])
def test_each_member_has_its_own_part_of_a_thickness_that_changes(backwards, measured):
    places = [(2600 - at, thickness) for at, thickness in THICK[::-1]] if backwards else THICK
    line = ((2600, 500), (0, 500)) if backwards else ((0, 500), (2600, 500))
    more = f"thickness_at = {[list(place) for place in places]}\n" if measured == "in the job file" else ""
    made = nothing_made(thickness={"shelf": tuple(places)}) if measured == "in the made file" else None
    boards = piece(job(line, more), made).board_by_name
    assert boards[FIRST].profile == ((0.0, 22.0), (1300.0, 24.6), (1950.0, 23.95))
    assert boards[SECOND].profile == ((0.0, 23.95), (650.0, 23.3))
    assert (boards[FIRST].thickest, boards[SECOND].thickest) == (24.6, 23.95)


def test_a_line_along_a_face_keeps_its_members_in_line_though_the_thickness_changes():
    """From 20 to 28 thick the whole's centre-line lies 12 below a line on its left face; so do both members'."""
    more = 'line_is = "left face"\nthickness_at = [[0, 20], [2600, 28]]\n'
    made = piece(job(more=more))
    assert [made.board_by_name[name].frame.origin[1] for name in (FIRST, SECOND)] == [488.0, 488.0]
    assert made.joint_by_key[FIRST, SECOND].meeting.form == "in line"


def test_a_members_own_thickness_in_the_made_file_goes_before_the_wholes():
    made = nothing_made(thickness={"shelf": ((0.0, 23.0),), SECOND: ((0.0, 24.4),)})
    boards = piece(job(), made).board_by_name
    assert (boards[FIRST].thickest, boards[SECOND].thickest) == (23.0, 24.4)


@pytest.mark.parametrize("front", ["shelf", "upright 2400"])
def test_a_slot_made_in_the_whole_is_made_in_the_member(front):
    made = piece(job(), nothing_made(fronts={("shelf", "upright 2400"): front}))
    (decision,) = [decision for decision in made.decisions if decision.key == (SECOND, "upright 2400")]
    assert decision.decider == "already made"
    assert made.joint_by_key[SECOND, "upright 2400"].making.front == (SECOND if front == "shelf" else front)


def test_the_sides_of_a_frame_are_its_members_in_the_order_of_its_points():
    """A box 2600 wide: its lower side runs to the right, its upper one to the left."""
    text = HEAD + (
        '[[frame]]\nname = "box"\ntimber = "oak"\ndepth = 300\nsize = "centre"\n'
        "points = [[0, 200], [2600, 200], [2600, 1000], [0, 1000]]\n"
    )
    text += "".join(board(f"upright {x}", [[x, 200], [x, 1000]]) for x in (700, 1500))
    made = piece(text)
    (frame,) = made.job.frames
    assert frame.boards == (
        *(f"box 1 ({number} of 2)" for number in (1, 2)),
        "box 2",
        *(f"box 3 ({number} of 2)" for number in (2, 1)),
        "box 4",
    )
    assert {frozenset(joint.key) for joint in made.joints if joint.kind == "mitre"} == {
        frozenset(pair)
        for pair in [
            ("box 1 (2 of 2)", "box 2"),
            ("box 2", "box 3 (2 of 2)"),
            ("box 3 (1 of 2)", "box 4"),
            ("box 4", "box 1 (1 of 2)"),
        ]
    }
    assert all(made.board_by_name[name].inside for name in frame.boards)
    assert [decision.keep for decision in made.decisions if decision.about == SPLIT] == [None, None]


def test_only_the_board_of_a_row_that_has_its_own_places_is_divided():
    own = "count = 2\n[[board.except]]\ni = 2\nsplice_at = [400]\n"
    text = HEAD + board("shelf {i}", '[[0, "200 + 300 * i"], [1500, "200 + 300 * i"]]', own)
    text += "".join(board(f"upright {x}", [[x, 0], [x, 1300]]) for x in (200, 1000))
    assert {part.id for part in piece(text).parts if part.id.startswith("shelf")} == {
        "shelf 1",
        "shelf 2 (1 of 2)",
        "shelf 2 (2 of 2)",
    }


# ---- what is said back


def test_a_cure_of_a_members_joint_writes_the_wholes_name_and_ends_the_finding(unmade):
    """A kind not made yet, for one member's crossing."""
    rest = f'[[joint]]\nbetween = ["shelf", "upright 2400"]\nkind = "{unmade}"\n'
    text = job(rest=rest)
    stops = [stop for stop in coded(piece(text), "joint-not-made-yet") if stop.where.joint == (SECOND, "upright 2400")]
    (stop,) = stops
    text = kept(text, stop.cures[0].edits[0])
    assert not [
        stop for stop in coded(piece(text), "joint-not-made-yet") if stop.where.joint == (SECOND, "upright 2400")
    ]


def test_a_settled_slot_is_kept_in_the_wholes_name():
    made = piece(job())
    (decision,) = [decision for decision in made.decisions if decision.key == (SECOND, "upright 2400")]
    assert str(decision.value) == SECOND
    assert decision.keep.value == {"between": ["shelf", "upright 2400"], "front": "shelf"}
    again = piece(kept(job(), decision.keep))
    assert [one.decider for one in again.decisions if one.key == decision.key] == ["maker"]
    assert again.joints == made.joints


WHOLE = {FIRST: "shelf", SECOND: "shelf"}


@pytest.mark.parametrize(
    ("value", "said"),
    [
        ({"between": [SECOND, "b"], "front": SECOND}, {"between": ["shelf", "b"], "front": "shelf"}),
        ([FIRST, SECOND, "b"], ["shelf", "b"]),
        ({"name": "glued", "boards": ["b", SECOND, FIRST]}, {"name": "glued", "boards": ["b", "shelf"]}),
        ("b", "b"),
        (SECOND, "shelf"),
        ([1950.0], [1950.0]),
        ({"between": [FIRST, SECOND], "kind": "butt"}, None),
        ([FIRST, "b"], None),
        ({"name": "glued", "boards": ["box", SECOND]}, None),
    ],
    ids=str,
)
def test_a_cure_speaks_of_wholes_or_is_left_out_where_it_would_mean_one_member_alone(value, said):
    (finding, *_) = piece(job()).findings
    edit = Edit(action="add", path=("joint",), value=value)
    other = Edit(action="set", path=("job", "title"), value="x")
    finding = replace(finding, cures=(Cure(label="so", edits=(other, edit)),))
    told = finding_in_the_file(finding, WHOLE)
    assert [cure.edits[1].value for cure in told.cures] == ([] if said is None else [said])
    assert finding_in_the_file(finding, {}) == finding


def test_the_cures_of_a_board_that_cannot_be_divided_end_the_stop():
    """Held at 100 and 2500 only, in stock of 1500: divided in the middle third, with a warning, or longer stock."""
    text = job(uprights=(100, 2500)).replace("longest = 2000", "longest = 1500")
    (stop,) = coded(piece(text), "no-place-to-divide")
    divide, longer = (piece(kept(text, cure.edits[0])) for cure in stop.cures)
    assert not coded(divide, "no-place-to-divide")
    assert lengths(divide) == {FIRST: 1480.0, SECOND: 1120.0}
    assert [finding.severity for finding in coded(divide, "weak-place-to-divide")] == ["warn"]
    assert lengths(longer) == {"shelf": 2600.0}
    assert not coded(longer, "longer-than-stock")


def test_the_longer_stock_of_a_job_in_inches_is_in_half_inches():
    text = (
        'dryfit = 1\n[job]\nunits = "in"\n[timber.oak]\nspecies = "oak"\nform = "panel"\nthickness = 1\nlongest = 60\n'
    )
    text += board("shelf", [[0, 20], [100, 20]], depth=12) + board("upright", [[50, 0], [50, 40]], depth=12)
    (stop,) = coded(piece(text), "no-place-to-divide")
    longer = stop.cures[-1]
    assert told(longer.label, Voice("in")) == "use stock 101 in long"  # 100 and twice 10 mm is 100.79
    assert "longest = 101" in kept(text, longer.edits[0])
    assert not coded(piece(kept(text, longer.edits[0])), "no-place-to-divide")


def test_three_that_pass_through_one_point_are_cured_by_shifting_the_whole():
    text = job(uprights=(200, 1000, 1800), rest=board("leaning", [[900, 400], [1100, 600]]))
    (stop,) = coded(piece(text), "three-boards-pass")
    labels = [
        "leaning: 64 to the right",
        "shelf: 90 down",
        "upright 1000: 90 to the left",
    ]
    assert [str(cure.label) for cure in stop.cures] == labels
    for cure in stop.cures:
        changed = piece(change_job_text(text, cure.edits)[0])
        assert lengths(changed).keys() == {FIRST, SECOND}
        assert not coded(changed, "three-boards-pass")


# ---- identity


def test_dividing_a_board_leaves_every_other_joint_and_part_its_identity():
    whole, divided = (piece(job().replace("longest = 2000", f"longest = {longest}")) for longest in (3000, 2000))
    others = {part.id for part in whole.parts} - {"shelf"}
    assert others == {part.id for part in divided.parts} - {FIRST, SECOND}
    plain = {tuple(made_whole(divided, name) for name in joint.key) for joint in divided.joints}
    assert plain - {("shelf", "shelf")} == {joint.key for joint in whole.joints}


def made_whole(made, name):
    return made.whole.get(name, name)


def test_pinned_members_keep_their_letters_and_are_counted_from_the_same_end_past_45():
    text = job(uprights=())
    text += "".join(board(f"u{x}", [[x, 0], [x, 1000]]) for x in UPRIGHTS)
    book = build(read_job_text(text), paces=())
    made = read_made_text(with_pins("", pins_of(book)), "wall.made.toml")
    turned = ((0, 0), (0, 2600))  # dragged to stand plumb: its datum end is the lower one, as the left one was
    falling = ((0, 2600), (0, 0))  # past plumb, from its start down: by itself it would be counted from below
    for line in (turned, falling):
        again = piece(job(line, "splice_at = [1950]\n", uprights=()), made)
        parts = {part.id: part for part in again.parts}
        assert {name: part.mark for name, part in parts.items()} == {FIRST: "A", SECOND: "B"}
        assert parts[FIRST].length == 1950.0
        assert not any(part.board.flipped for part in again.parts)
    loose = piece(job(falling, "splice_at = [1950]\n", uprights=()))
    assert loose.part_by_name[FIRST].length == 650.0


def test_divided_into_more_members_none_takes_a_letter_that_was_pinned():
    pins = {name: Pin(datum="start", face_side="left", mark=mark) for name, mark in ((FIRST, "A"), (SECOND, "B"))}
    made = nothing_made(pins=pins)
    again = piece(job(more="splice_at = [400, 1400]\n", uprights=()), made)
    assert {part.id: part.mark for part in again.parts} == {f"shelf ({n} of 3)": "CDE"[n - 1] for n in (1, 2, 3)}


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (board("shelf (1 of 2)", [[0, 700], [900, 700]]), "is also the name of a member of"),
        (
            FIXING.format(at=[200]).replace("board =", 'name = "s"\nboard =')
            + FIXING.format(at=[900]).replace("board =", 'name = "s (2 of 3)"\nboard ='),
            "in a member of a divided board",
        ),
    ],
    ids=["a board", "a fixing"],
)
def test_a_name_that_a_member_would_have_is_refused_beside_its_whole(more, says):
    with pytest.raises(JobError, match=says) as caught:
        read_job_text(job(rest=more))
    assert len(caught.value.mistakes) == 1
    assert "(" in caught.value.mistakes[0].read


def test_such_a_name_without_its_whole_is_a_name_like_any_other():
    assert piece(HEAD + board("panel (1 of 2)", [[0, 700], [900, 700]])).boards[0].name == "panel (1 of 2)"


def test_a_job_in_which_nothing_is_divided_says_so():
    assert dict(Divided(job=read_job_text(job()), made=nothing_made()).whole) == {}
    assert dict(piece(job().replace("longest = 2000\n", "")).whole) == {}
