"""Sliding dovetail, member by member.

The worked cases were calculated apart from this project's code: sections by plane geometry, volumes as section times
length. A shelf A comes from the right onto the face of an upright B.
"""

import math
import re
from types import SimpleNamespace

import pytest

from dryfit.book import build, change_job_text, read_job_text
from dryfit.documents.display import Text
from dryfit.documents.elevation import elevation
from dryfit.documents.looks import Desk
from dryfit.documents.workshop import paper_sheets
from dryfit.editing.cards.section import section_of
from dryfit.findings import Severity
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.clash import clashes
from dryfit.piece.facts import Grain, Pressing
from dryfit.piece.made import HEAD, read_made_text
from dryfit.piece.model import Touch
from dryfit.piece.operations import Dial, tool_for
from dryfit.piece.solids import Solids
from dryfit.shop.model import Cutter, Shop
from dryfit.shop.tools import Lack, Process

from ..piece.making import asked, built, coded, cut_of, job_of, joint_of, meeting_of, options_for, plank
from . import typed
from .going import is_free, overlap_when_moved, slides

NAME = "sliding dovetail"
KIND = KINDS[NAME]
OFF, INTO, UP, DOWN, OUT, BACK = (1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)


def shelf(thickness=27, depth=280, rake=0.0, **more):
    """A, from the upright's centre-line to the right, rising by its rake."""
    rise = 700 * math.tan(math.radians(rake))
    return plank("A", (0, 500), (700, 500 + rise), thickness=thickness, depth=depth, **more)


def upright(thickness=27, depth=280, **more):
    return plank("B", (0, -200), (0, 1200), thickness=thickness, depth=depth, **more)


def joined(a=None, b=None, *others, **own):
    piece = built(job_of(a or shelf(), b or upright(), *others, joint_specs=(asked("A", "B", NAME, **own),)))
    return piece, joint_of(piece, "A", "B")


def judged(a=None, b=None, **own):
    meeting = meeting_of(a or shelf(), b or upright())
    return KIND.judge(meeting, options_for(KIND, meeting, **own))


D1 = {"depth": 9, "clearance": 0.08}
D2 = {"depth": 8, "clearance": 0.06, "slope": 7, "stop": "front"}
D3 = {"depth": 8, "clearance": 0.08, "slope": 7, "cutter": 12}
CASES = {  # boards, options; neck, section, length, volume; tail's neck, tip, section, volume; shoulder; ways; not
    "square, through": (
        (shelf(27, 280), upright(27, 280), D1),
        (8.21, 94.10, 280.0, 26349.2),
        (8.13, 12.52, 90.87, 25443.7),
        (9.43, 0.039),
        ({OUT, BACK}, {OFF, INTO, UP, DOWN}),
    ),
    "stopped 12 short of the front": (
        (shelf(24, 260), upright(24, 260), D2),
        (10.74, 93.74, 248.0, 23248.0),
        (10.68, 12.59, 90.74, 22497.8),
        (6.66, 0.030),
        ({BACK}, {OFF, INTO, UP, DOWN, OUT}),
    ),
    "raked by 10": (
        (shelf(24, 260, rake=10), upright(30, 260), D3),
        (10.04, 88.14, 260.0, 22916.9),
        (9.96, 11.87, 85.12, 22131.9),
        (7.21, 0.040),
        ({OUT, BACK}, {OFF, INTO, UP, DOWN, (math.cos(math.radians(10)), math.sin(math.radians(10)), 0)}),
    ),
}


@pytest.mark.parametrize(("made", "socket", "tail", "beside", "ways"), CASES.values(), ids=CASES)
def test_the_printed_figures_of_the_worked_cases(made, socket, tail, beside, ways):
    a, b, own = made
    piece, joint = joined(a, b, **own)
    taken, goes_in = (cut_of(piece, key) for key in ("socket in B for A", "tail of A in B"))
    told = {(str(size.of), size.size): size.value for size in KIND.figures(joint)}
    flank = next(gap for gap in joint.gaps if gap.between == "flank")

    assert taken.figures.across == pytest.approx(socket[0], abs=0.005)
    assert goes_in.figures.across == pytest.approx(tail[1], abs=0.005)
    assert told["tail on A", "neck"].mm == pytest.approx(tail[0], abs=0.005)
    assert told["shoulders of A", "beside the neck"].mm == pytest.approx(beside[0], abs=0.005)
    assert flank.size == pytest.approx(beside[1], abs=0.0005)
    assert {(str(gap.between), gap.size) for gap in joint.gaps} >= {("bottom", 0.2), ("shoulder", 0.0)}
    assert b.depth - taken.figures.stop == socket[2]


@pytest.mark.parametrize(("made", "socket", "tail", "beside", "ways"), CASES.values(), ids=CASES)
def test_the_volumes_of_the_solids_are_those_of_the_worked_cases(made, socket, tail, beside, ways):
    a, b, own = made
    piece, _ = joined(a, b, **own)
    volumes = {part.id: Solids().volume(part) for part in piece.parts}
    rake = math.radians(90 - piece.joints[0].meeting.angle)
    body = (700 / math.cos(rake) - float(b.timber) / 2 / math.cos(rake)) * float(a.timber) * a.depth
    assert 1400 * float(b.timber) * b.depth - volumes["B"] == pytest.approx(socket[3], rel=1e-5)
    assert volumes["A"] - body == pytest.approx(tail[3], rel=1e-5)


@pytest.mark.parametrize(("made", "socket", "tail", "beside", "ways"), CASES.values(), ids=CASES)
def test_it_goes_the_ways_of_the_worked_cases_and_no_other(made, socket, tail, beside, ways):
    a, b, own = made
    piece, joint = joined(a, b, **own)
    free, shut = ways

    assert {motion.direction for motion in joint.making.motions} == {tuple(map(float, way)) for way in free}
    for motion in joint.making.motions:
        assert slides(piece, joint, motion), motion
        assert is_free(piece, joint, motion, motion.free + 0.01, [(40, 0, 0), (0, 40, 0), (0, -40, 0)]), motion
        assert not is_free(piece, joint, motion, motion.free - 1.5, [(40, 0, 0), (0, 40, 0)]), motion
    for way in shut:
        assert any(overlap_when_moved(piece, joint, "A", tuple(n * c for c in way)) > 1 for n in (0.25, 1.0, 1.75)), way


REFUSED = {  # sentences print widths in steps of 0.05; the figures are as they are
    "raked by 18": (shelf(24, rake=18), upright(24), {}, "18° off square", (18.0, 15.0, "deg")),
    "a tip that runs out": (
        shelf(24, rake=12),
        upright(24),
        {"cutter": 19.05, "depth": 8, "clearance": 0},
        "the tip of the tail lies 1.05 from the face of A",
        (1.04, 2.0, "mm"),
    ),
    "no shoulders": (
        shelf(12),
        upright(24),
        {"slope": 7, "depth": 5, "clearance": 0},
        "the neck of the tail is 11.45 thick and leaves shoulders of 0.25",
        (0.26, 3.0, "mm"),
    ),
    "a thin neck": (shelf(), upright(), {"cutter": 9, "depth": 9, "clearance": 0}, "neck", (4.51, 5.0, "mm")),
    "a low cutter": (shelf(), upright(), {"cutter_height": 8}, "the cutter is 8 high", (9.0, 8.0, "mm")),
    "a stop too far": (shelf(), upright(), {"stop": "front", "stop_distance": 290}, "leaves nothing", None),
    "closed at both": (shelf(), upright(), {"stop": "both"}, "cannot slide in", None),
    "set back at the front, stopped at the wall": (
        shelf(depth=250),
        upright(),
        {"stop": "wall"},
        "cannot slide in",
        None,
    ),
    "a tail as long as the board": (
        shelf(),
        upright(),
        {"form": "part length", "tail": 270},
        "a tail of 270 leaves 10 of housing",
        (270.0, 260.0, "mm"),
    ),
    "a short tail": (shelf(), upright(), {"form": "part length", "tail": 10}, "a tail of 10", (10.0, 20.0, "mm")),
    "of part length, its housing closed": (
        shelf(),
        upright(),
        {"form": "part length", "stop": "wall"},
        "a tail at the front slides in from the wall, where its housing is closed",
        None,
    ),
    "a steep taper": (shelf(), upright(), {"form": "tapered", "taper": 9}, "a taper of 9 over 280", (9.0, 8.0, "mm")),
    "a taper that goes in where it is closed": (
        shelf(),
        upright(),
        {"form": "tapered", "enters": "front", "stop": "front"},
        "to go in from the front is closed there",
        None,
    ),
}


@pytest.mark.parametrize(("a", "b", "own", "reason", "figures"), REFUSED.values(), ids=REFUSED)
def test_it_is_refused_with_what_was_found_and_against_what(a, b, own, reason, figures):
    judgement = judged(a, b, **own)

    assert not judgement.possible
    assert reason in str(judgement.reasons[0])
    assert figures is None or judgement.found == pytest.approx(figures[0], abs=0.005)
    assert figures is None or (judgement.limit, judgement.unit) == figures[1:]
    assert figures is None or judgement.source
    assert str(judgement.remedy) or judgement.cures


CURED = {
    "a tail as long as the board": {"form": "part length", "tail": 295},
    "a short tail": {"form": "part length", "tail": 10},
    "a steep taper": {"form": "tapered", "taper": 12},
    "closed at both": {"stop": "both"},
    "a low cutter": {"cutter_height": 8},
    "a wide cutter": {"cutter": 25},
    "a thin neck": {"cutter": 9},
}


@pytest.mark.parametrize("own", CURED.values(), ids=CURED)
def test_what_is_refused_is_made_by_its_cure(own):
    text = typed.job(
        typed.board("A", [[0, 500], [700, 500]], timber="27"),
        typed.board("B", [[0, 0], [0, 1200]], timber="27"),
        typed.joint("A", "B", kind=NAME, **own),
    )
    (finding,) = typed.found(text, "joint-unsuited")
    cured, _ = change_job_text(text, finding.cures[0].edits)

    assert not typed.found(cured, "joint-unsuited")
    assert [joint.kind for joint in typed.piece_of(cured).joints] == [NAME]


def test_it_serves_an_end_on_a_face_up_to_15_of_rake():
    assert KIND.serves == {(Touch.END, Touch.FACE)}
    assert judged(shelf(rake=15), cutter=10, slope=7).possible
    assert not judged(shelf(rake=15.1), cutter=10, slope=7).possible


@pytest.mark.parametrize(("opposed", "depth"), [(False, 8.0), (True, 6.0)], ids=["alone", "opposite another"])
def test_left_out_it_is_a_third_deep_or_a_quarter_in_whole_steps_of_a_half(opposed, depth):
    """24.9 / 3 = 8.3, down to 8.0; 24.9 / 4 = 6.2, down to 6.0."""
    others = [plank("C", (0, 500), (-700, 500))] if opposed else []
    piece, _ = joined(shelf(), upright(24.9), *others)

    assert cut_of(piece, "socket in B for A").figures.deep == depth


@pytest.mark.parametrize(("glued", "neck"), [(True, 0.10), (False, 0.15)], ids=["glued", "dry"])
def test_the_socket_is_the_cutter_s_and_the_tail_is_smaller_by_the_clearance(glued, neck):
    piece, joint = joined(glued=glued)
    told = {(str(size.of), size.size): size.value for size in KIND.figures(joint)}
    socket, tail = cut_of(piece, "socket in B for A"), cut_of(piece, "tail of A in B")

    assert told["tail on A", "neck"].mm == pytest.approx(socket.figures.across - neck)
    assert (socket.size_is, tail.size_is) == ("FIXED", "FIT TO")
    assert str(socket.figures.how("mm")) == "cutter 12.7 less slopes 4.5"


DEEP = {
    "a third": (9, None),
    "over a third": (9.5, ("dovetail-deep", Severity.WARN, 9.0)),
    "half": (13.5, ("dovetail-deep", Severity.WARN, 9.0)),
    "over half": (14, ("dovetail-too-deep", Severity.STOP, 13.5)),
}


@pytest.mark.parametrize(("depth", "told"), DEEP.values(), ids=DEEP)
def test_over_a_third_deep_is_warned_of_and_over_half_stops(depth, told):
    piece, _ = joined(depth=depth, cutter=16)
    found = [one for code in ("dovetail-deep", "dovetail-too-deep") for one in coded(piece.findings, code)]

    assert [(one.code, one.severity, one.limit) for one in found] == ([told] if told else [])


@pytest.mark.parametrize(("long", "noted"), [(150, False), (150.5, True)])
def test_a_tail_over_150_long_is_noted(long, noted):
    piece, _ = joined(shelf(depth=long), upright(depth=long))

    assert bool(coded(piece.findings, "dovetail-long")) is noted


@pytest.mark.parametrize(("glued", "word"), [(True, "glue these only"), (False, "wax it")], ids=["glued", "dry"])
def test_wax_is_told_only_where_no_glue_is_to_hold(glued, word):
    (finding,) = coded(joined(glued=glued)[0].findings, "dovetail-long")

    assert str(finding.remedy) == f"ease the tail by a shaving behind its last 50, and {word}"


STOPS = {
    "at the front": ({"stop": "front"}, {}, {BACK}),
    "at the wall": ({"stop": "wall"}, {}, {OUT}),
    "one end": ({"stop": "one end"}, {}, {BACK}),
    "set back at the front": ({}, {"depth": 250}, {BACK}),
    "set back at the wall": ({}, {"depth": 250, "back": 30}, {OUT}),
    "one end, set back at the wall": ({"stop": "one end"}, {"depth": 250, "back": 30}, {OUT}),
}


@pytest.mark.parametrize(("own", "bodies", "ways"), STOPS.values(), ids=STOPS)
def test_it_leaves_by_each_edge_that_is_open(own, bodies, ways):
    piece, joint = joined(shelf(**bodies), **own)

    assert {motion.direction for motion in joint.making.motions} == {tuple(map(float, way)) for way in ways}
    for motion in joint.making.motions:
        assert slides(piece, joint, motion)
    for way in {OUT, BACK} - ways:
        assert overlap_when_moved(piece, joint, "A", tuple(20.0 * c for c in way)) > 100


def test_what_it_hides_is_both_flanks_and_the_tip():
    """Flanks 8.8 / cos 14 = 9.07 each; a tip of 12.7 less 0.4 tan 14 = 12.60; 280 long."""
    _, joint = joined(clearance=0.0, depth=9)

    assert [area for _, area in joint.hidden_mm2] == [pytest.approx((2 * 9.0694 + 12.6003) * 280, rel=1e-5)] * 2


def test_only_the_last_50_are_glued_and_no_clamp_presses_it():
    _, glued = joined(depth=9)
    _, dry = joined(glued=False)

    (zone,) = KIND.glue(glued)
    assert zone.grain == (Grain.SIDE, Grain.END)
    assert zone.area_mm2 == pytest.approx(2 * 50 * 8.8 / math.cos(math.radians(14)))
    assert KIND.pressed(glued).how is Pressing.FIT
    assert KIND.glue(dry) == ()


@pytest.mark.parametrize("glued", [True, False])
def test_it_holds_a_board_that_hangs_from_another(glued):
    piece, _ = joined(glued=glued)

    assert not coded(piece.findings, "held-by-nothing")
    assert {carry.glue for joint in piece.joints for carry in KIND.carries(joint)} == {False}


def test_socket_and_tail_are_cut_with_one_cutter_of_its_slope_and_the_tail_waits_for_the_socket():
    piece, joint = joined(depth=9)
    socket, tail = KIND.operations(joint, piece.board_by_name)
    good = Shop(cutters=(Cutter(name="d", diameter=12.7, length=14.0, shape="dovetail", slope=14.0),))
    other = Shop(cutters=(Cutter(name="d", diameter=12.7, length=14.0, shape="dovetail", slope=7.0),))

    assert tail.after == (socket.key,)
    for operation in (socket, tail):
        routed, by_hand = operation.ways
        assert not isinstance(tool_for(routed, good), Lack)
        assert isinstance(tool_for(routed, other), Lack)
        assert by_hand.process is Process.HAND


def test_a_raked_end_is_bevelled_before_its_tail_is_worked():
    a, b, own = CASES["raked by 10"][0]
    piece, joint = joined(a, b, **own)
    _, tail = KIND.operations(joint, piece.board_by_name)

    assert all(str(way.says).startswith("end bevelled; ") for way in tail.ways)
    assert dict(tail.ways[0].sets)[Dial.LEAN].degrees == pytest.approx(10)


def test_a_job_in_inches_is_the_same_joint():
    """27 and 280 in inches, a cutter of half an inch: the neck is 8.21 mm, 0.323 in."""
    text = typed.job(
        typed.board("A", [[0, 20], [28, 20]], depth=11, timber="27"),
        typed.board("B", [[0, 0], [0, 48]], depth=11, timber="27"),
        typed.joint("A", "B", kind=NAME, cutter=0.5, depth="9 mm"),
        units="in",
    )
    piece = typed.piece_of(text)

    assert [joint.kind for joint in piece.joints] == [NAME]
    assert cut_of(piece, "socket in B for A").figures.across == pytest.approx(8.2121, abs=1e-3)


def on_paper(text):
    """What each sheet of the workshop says, by its title."""
    book = build(read_job_text(text))
    drawn = paper_sheets("workshop", book, desk=Desk(book))
    return {draft.title: " ".join(item.text for item in draft.items if isinstance(item, Text)) for draft, _ in drawn}


def test_its_sheet_has_cutter_neck_tip_slope_and_shoulders_as_the_worked_case_prints_them():
    sheets = on_paper(
        typed.job(
            typed.board("post", [[0, 0], [0, 1200]], depth=280, timber="27"),
            typed.board("shelf", [[0, 500], [700, 500]], depth=280, timber="27"),
            typed.joint("shelf", "post", kind=NAME, **D1),
        )
    )
    (detail,) = (text for title, text in sheets.items() if NAME in title)

    assert "cutter 12.7 less slopes 4.49 = 8.21" in detail
    assert "tail on B, neck at the shoulders: cutter 12.7 less slopes 4.49 8.13 less clearance 0.08" in detail
    assert "at the tip: cutter 12.7 less slopes 0.1 less clearance 0.08 12.52" in detail
    assert "socket in A, slope of either wall 14°" in detail
    assert "shoulders of B, beside the neck along the face 9.43" in detail
    assert "B in A, cut across" in detail
    assert "The tail slides in from either edge" in detail
    assert "1 socket" in sheets["boards, set-ups, joints"]
    for word in ("housing", "tongue", "halving"):
        assert {title for title, text in sheets.items() if word in text} <= {"the whole piece"}


RECORD = """\
[[cut]]
between = ["A", "B"]
in = "B"
at = {at}
across = {across}
deep = {deep}
opens = "{opens}"
"""


@pytest.mark.parametrize("deeper", [0.0, 0.5], ids=["as asked", "cut deeper"])
def test_a_tail_goes_as_deep_as_the_socket_that_is_cut(deeper):
    """At 9.5 the same cutter leaves a neck of 12.7 - 19 tan 14 = 7.96; the tail is 0.08 narrower."""
    asked_for, _ = joined(**D1)
    socket = cut_of(asked_for, "socket in B for A")
    deep = 9.0 + deeper
    across = 12.7 - 2 * deep * math.tan(math.radians(14))
    opens = "face side" if socket.face == asked_for.part_by_name["B"].board.face_side else "other face"
    text = HEAD + RECORD.format(at=700 - across / 2, across=across, deep=deep, opens=opens)
    job = job_of(shelf(), upright(), joint_specs=(asked("A", "B", NAME, **D1),))
    piece = built(job, read_made_text(text, "t.made.toml"))
    (cut,) = [one for one in piece.part_by_name["B"].cuts if one.made]
    joint = joint_of(piece, "A", "B")
    told = {(str(size.of), size.size): size.value for size in KIND.figures(joint)}

    assert (cut.figures.across, cut.figures.deep) == (pytest.approx(across), deep)
    assert told["tail on A", "neck"].mm == pytest.approx(across - 0.08)
    assert cut_of(piece, "tail of A in B").figures.deep == pytest.approx(deep - 0.2)
    assert bool(coded(piece.findings, "cut-otherwise")) is bool(deeper)


PART = {"depth": 9, "clearance": 0.08, "form": "part length", "tail": 80}


@pytest.mark.parametrize(("at", "out", "shut"), [("front", BACK, OUT), ("wall", OUT, BACK)], ids=["D5", "D6"])
def test_of_part_length_it_leaves_along_the_housing_and_after_the_tail_also_out_of_the_face(at, out, shut):
    """Cases D5 and D6: 80 of tail, 94.10 in section, and 200 of housing 27.08 x 9; free after 80, not after 78."""
    piece, joint = joined(**PART, tail_at=at)
    volumes = {part.id: Solids().volume(part) for part in piece.parts}

    assert 1400 * 27 * 280 - volumes["B"] == pytest.approx(56272.4, rel=1e-5)
    tail, housed = 90.87 * 80.08, 27 * 8.8 * 199.92  # the play lies where the tail begins
    assert volumes["A"] - (700 - 13.5) * 27 * 280 == pytest.approx(tail + housed, rel=1e-4)
    assert [motion.direction for motion in joint.making.motions] == [tuple(map(float, out))]
    assert slides(piece, joint, joint.making.motions[0])
    for way in (OFF, INTO, UP, DOWN, shut):
        assert any(overlap_when_moved(piece, joint, "A", tuple(n * c for c in way)) > 1 for n in (0.25, 1.0, 1.75)), way

    def drawn_off(slid):
        at_it = [tuple(slid * c + far * n for c, n in zip(out, OFF, strict=True)) for far in (2, 5, 9, 40)]
        return max(overlap_when_moved(piece, joint, "A", way) for way in at_it)

    assert drawn_off(80.2) < 0.5
    assert drawn_off(78) > 1


def test_of_part_length_stopped_at_the_front_nothing_shows_there_and_it_still_goes_in_from_the_wall():
    piece, joint = joined(**PART, stop="front")
    socket, housing = (cut_of(piece, f"{word} in B for A") for word in ("socket", "housing"))

    assert [(stop.edge, stop.size.total) for stop in socket.figures.stops] == [
        ("front edge", 12.0),
        ("wall edge", 188.0),
    ]
    assert [(stop.edge, stop.size.total) for stop in housing.figures.stops] == [("front edge", 92.0)]
    assert [motion.direction for motion in joint.making.motions] == [tuple(map(float, BACK))]
    assert slides(piece, joint, joint.making.motions[0])
    assert {finding.code for finding in piece.findings if finding.severity is Severity.STOP} <= {
        "tips"
    }  # it hangs free


@pytest.mark.parametrize("wall", ["upper or left", "lower or right"])
def test_single_sided_one_wall_is_square_as_far_from_the_middle_as_the_other_at_the_face(wall):
    """Case D19: 8 x 8.711 and half of 8 x 8 tan 14 are 77.67; the tail is 74.90 in section."""
    a, b = shelf(24, 260), upright(24, 260)
    piece, joint = joined(a, b, depth=8, clearance=0.08, form="single-sided", square_wall=wall)
    volumes = {part.id: Solids().volume(part) for part in piece.parts}
    (socket,) = cut_of(piece, "socket in B for A").shapes
    place = piece.board_by_name["B"].frame.place
    up = sorted((place((x, y, 0.0)) for x, y, _ in socket.outline), key=lambda at: at[1])
    squares = {round(one[1], 6) for one in (up[:2] if wall == "lower or right" else up[2:])}

    assert 1400 * 24 * 260 - volumes["B"] == pytest.approx(20192.8, rel=1e-5)
    assert (volumes["A"] - (700 - 12) * 24 * 260) / 260 == pytest.approx(74.90, abs=0.005)
    assert len(squares) == 1
    assert abs(squares.pop() - 500) == pytest.approx(8.711 / 2, abs=0.001)
    assert {motion.direction for motion in joint.making.motions} == {tuple(map(float, way)) for way in (OUT, BACK)}
    for way in (OFF, INTO, UP, DOWN):
        assert any(overlap_when_moved(piece, joint, "A", tuple(n * c for c in way)) > 1 for n in (0.25, 1.0, 1.75)), way
    assert {(str(gap.between), gap.count) for gap in joint.gaps} >= {("flank", 1), ("wall", 1)}


@pytest.mark.parametrize(("line", "left"), [([(0, 500), (700, 500)], True), ([(700, 500), (0, 500)], True)])
def test_on_a_level_board_the_square_wall_is_the_left_one_whichever_way_it_is_drawn(line, left):
    shelf_ = plank("B", *line, thickness=24, depth=260)
    post = plank("A", (300, 500), (300, 900), thickness=24, depth=260)
    piece, _ = joined(post, shelf_, depth=8, clearance=0.08, form="single-sided")
    (socket,) = cut_of(piece, "socket in B for A").shapes
    place = piece.board_by_name["B"].frame.place
    xs = sorted(round(place((x, y, 0.0))[0], 6) for x, y, _ in socket.outline)

    assert (xs[0] == xs[1]) is left
    assert xs[2] != xs[3]


TAPERED = {"depth": 9, "clearance": 0.08, "form": "tapered", "taper": 2}
ENTERS = {
    "asked, from the front": ({"enters": "front"}, OUT),
    "asked, from the wall": ({"enters": "wall"}, BACK),
    "stopped at the front": ({"stop": "front"}, BACK),
    "stopped at the wall": ({"stop": "wall"}, OUT),
}


@pytest.mark.parametrize(("own", "out"), ENTERS.values(), ids=ENTERS)
def test_a_tapered_one_is_its_mean_and_leaves_only_towards_its_wide_end(own, out):
    """Wider by 2 over its length: by 1 in the mean, times 9 deep; by two ways: the mean, and the solid's own volume."""
    piece, joint = joined(**TAPERED, **own)
    volumes = {part.id: Solids().volume(part) for part in piece.parts}
    long = 268.0 if "stop" in own else 280.0

    assert 1400 * 27 * 280 - volumes["B"] == pytest.approx((94.10 + 1.0 * 9) * long, rel=1e-4)
    tail = long if long == 280.0 else long - 0.08
    assert volumes["A"] - (700 - 13.5) * 27 * 280 == pytest.approx((90.87 + 1.0 * 8.8) * tail, rel=1e-3)
    assert [motion.direction for motion in joint.making.motions] == [tuple(map(float, out))]
    assert slides(piece, joint, joint.making.motions[0])
    assert overlap_when_moved(piece, joint, "A", tuple(-30.0 * c for c in out)) > 1
    (mating,) = KIND.matings(joint.meeting, joint.options, joint.making)
    assert mating.closes


def test_a_tapered_one_has_come_free_sideways_as_soon_as_it_has_slid_a_little():
    """Home, 0.04 is free either side; 70 of 280 further out the walls stand another 2 / 2 x 70 / 280 = 0.25 off."""
    piece, joint = joined(**TAPERED, enters="front")

    assert overlap_when_moved(piece, joint, "A", (0.0, 0.1, 0.0)) > 1
    assert overlap_when_moved(piece, joint, "A", (0.0, 0.28, 70.0)) < 0.5
    assert overlap_when_moved(piece, joint, "A", (0.0, 0.32, 70.0)) > 1


def test_from_which_edge_a_taper_goes_in_is_settled_and_the_choice_can_be_kept():
    piece, joint = joined(**TAPERED)
    (decision,) = [one for one in piece.decisions if "slid into" in str(one.value)]

    assert len(KIND.makings(joint.meeting, options_for(KIND, joint.meeting, **TAPERED))) == 2
    assert decision.value == joint.making.name
    assert decision.keep is not None
    assert decision.keep.path[-1] == "enters"
    kept, same = joined(**TAPERED, enters=decision.keep.value)
    assert kept.decisions == ()
    assert same.making.motions == joint.making.motions
    assert [ease.making.word for ease in KIND.eases(joint.meeting, joint.options, joint.making)][:1] in (
        [],
        [("enters", "wall")],
    )
    assert not coded(piece.findings, "dovetail-long")


@pytest.mark.parametrize("own", [{}, {"form": "part length"}, {"form": "single-sided"}], ids=["full", "part", "single"])
def test_the_length_on_the_part_s_sheet_is_that_of_the_part(own):
    """700 less 27 / 2 to the shoulder, and 8.8 beyond it: not twice where all the board goes in beside it."""
    sheets = on_paper(
        typed.job(
            typed.board("post", [[0, 0], [0, 1200]], depth=280, timber="27"),
            typed.board("shelf", [[0, 500], [700, 500]], depth=280, timber="27"),
            typed.joint("shelf", "post", kind=NAME, **own),
        )
    )
    (part,) = (text for title, text in sheets.items() if title.endswith("  shelf"))

    assert "Length 695.3 = 686.5 to the shoulder + 8.8 (9.0 deep less 0.2)" in part


FORMS = {
    "part length": (
        {**PART},
        ("long at the front 80.10", "housing in A", "may also be set straight into its housing, 80"),
    ),
    "tapered": (
        {**TAPERED, "enters": "front"},
        ("narrow end at the face, wall 8.21", "less slopes 4.49 + taper 2", "closes in the last of its way"),
    ),
    "single-sided": (
        {"depth": 8, "form": "single-sided"},
        ("slope of the sloped wall 14°", "square to the face: mind"),
    ),
}


@pytest.mark.parametrize(("own", "words"), FORMS.values(), ids=FORMS)
def test_the_sheet_of_each_form_has_what_it_adds(own, words):
    sheets = on_paper(
        typed.job(
            typed.board("post", [[0, 0], [0, 1200]], depth=280, timber="27"),
            typed.board("shelf", [[0, 500], [700, 500]], depth=280, timber="27"),
            typed.joint("shelf", "post", kind=NAME, **own),
        )
    )
    (detail,) = (text for title, text in sheets.items() if NAME in title)
    for word in words:
        assert word in detail, detail


def test_on_the_page_it_is_cut_through_its_tail_and_not_through_the_housing_beside_it():
    """Of part length, 80 at the front of 280: its middle is 240 from the wall; the neck is 8.21."""
    text = typed.job(
        typed.board("post", [[0, 0], [0, 1200]], depth=280, timber="27"),
        typed.board("shelf", [[0, 500], [700, 500]], depth=280, timber="27"),
        typed.joint("shelf", "post", kind=NAME, **PART),
    )
    book = typed.book_of(text)
    (joint,) = book.piece.joints
    shown = section_of(SimpleNamespace(job=book.job, piece=book.piece), joint)

    assert shown is not None
    assert shown.at == pytest.approx(240.0)
    assert [width.says for width in shown.widths] == ["8.2"]


ALL_FORMS = {
    "full": {"depth": 9},
    "part length": PART,
    "tapered": {**TAPERED, "enters": "front"},
    "single-sided": {"depth": 8, "form": "single-sided"},
}


@pytest.mark.parametrize("own", ALL_FORMS.values(), ids=ALL_FORMS)
def test_no_other_room_stumbles_over_any_form(own):
    """Shown 700 long from the centre-line: 13.5 to the face, 8.8 or 7.8 into it."""
    piece, joint = joined(**own)
    keep = Keep()
    *_, tail = KIND.operations(joint, piece.board_by_name)

    assert clashes(piece.parts, Solids(keep), frozenset({joint.key}), keep) == ()
    assert not coded(piece.findings, "short-grain")
    assert piece.part_by_name["A"].length == pytest.approx(700 - 13.5 + own["depth"] - 0.2)
    done = [key for one in KIND.operations(joint, piece.board_by_name) for key in one.cuts]
    assert sorted(done) == sorted(cut.key for cut in joint.cuts)
    assert KIND.hardware(joint) == ()
    assert KIND.glue(joint)[0].area_mm2 < joint.hidden_mm2[0][1]
    assert tail.after


OTHERS = ("slot", "notch", "pocket", "tongue", "halving")  # a rough groove goes before the socket


@pytest.mark.parametrize("own", ALL_FORMS.values(), ids=ALL_FORMS)
def test_its_own_words_stand_on_every_paper_and_no_word_of_another_kind(own):
    """A socket is a housing and a tail an end by their forms; of part length there is a housing besides."""
    book = build(
        read_job_text(
            typed.job(
                typed.board("post", [[0, 0], [0, 1200]], depth=280, timber="27"),
                typed.board("shelf", [[0, 500], [700, 500]], depth=280, timber="27"),
                typed.joint("shelf", "post", kind=NAME, **own),
            )
        )
    )
    told = {
        draft.title: " ".join(item.text for item in draft.items if isinstance(item, Text))
        for paper in ("workshop", "assembly")
        for draft, _ in paper_sheets(paper, book, desk=Desk(book))
    }
    del told["the whole piece"]  # it names the questions that were asked
    others = OTHERS if own.get("form") == "part length" else ("housing", *OTHERS)

    assert {title: word for title in told for word in others if re.search(rf"\b{word}s?\b", told[title])} == {}
    assert any("socket" in text and "tail" in text for text in told.values())
    there = {(one.board, one.word) for one in elevation(book.job, book.piece, Keep()).joints[0].says}
    assert ("post", "socket") in there
    assert {word for _, word in there} & {*others} == set()


@pytest.mark.parametrize("own", [D1, {**D1, **TAPERED, "enters": "front"}], ids=["straight", "tapered"])
def test_a_socket_that_is_cut_wider_is_so_in_the_solid_too(own):
    """0.04 wider over 280, 9 deep, in a step that no sheet prints; the slopes stay."""
    asked_for, _ = joined(**own)
    socket = cut_of(asked_for, "socket in B for A")
    across = socket.figures.across
    opens = "face side" if socket.face == asked_for.part_by_name["B"].board.face_side else "other face"
    record = RECORD.format(at=700 - across / 2, across=across + 0.04, deep=9.0, opens=opens)
    job = job_of(shelf(), upright(), joint_specs=(asked("A", "B", NAME, **own),))
    piece = built(job, read_made_text(HEAD + record, "t.made.toml"))
    before, after = ({part.id: Solids().volume(part) for part in one.parts}["B"] for one in (asked_for, piece))

    assert cut_of(piece, "socket in B for A").made
    assert before - after == pytest.approx(0.04 * 9 * 280, rel=1e-3)
