"""Housing, member by member.

A shelf A, 24 thick and 300 deep, ends on the right face of an upright B, 24 thick and 300 deep, its face at 12 from
the centre-line. By default the housing is a third deep: 8; glued, the clearance is 0.10. Side faces that go in:
two of 8 x 300; its end: 24 x 300.
"""

import math

import pytest

from dryfit.book import change_job_text
from dryfit.findings import Severity
from dryfit.joints import KINDS
from dryfit.piece.facts import Grain
from dryfit.piece.model import Touch

from ..piece.making import asked, built, coded, cut_of, job_of, joint_of, meeting_of, options_for, plank
from . import typed
from .going import is_free, overlap_when_moved, slides, touching_area

KIND = KINDS["housing"]
WARN = Severity.WARN


def shelf(angle=90.0, far=700.0, **more):
    """A, running off to the right and up by 90 less `angle`."""
    rise = math.radians(90 - angle)
    return plank("A", (0, 500), (far * math.cos(rise), 500 + far * math.sin(rise)), **more)


UPRIGHT = plank("B", (0, 0), (0, 1200))


def joined(a=None, b=UPRIGHT, **own):
    piece = built(job_of(a or shelf(), b, joint_specs=(asked("A", "B", "housing", **own),)))
    return piece, joint_of(piece, "A", "B")


def judged(a=None, b=UPRIGHT, **own):
    meeting = meeting_of(a or shelf(), b)
    return KIND.judge(meeting, options_for(KIND, meeting, **own))


def test_it_serves_an_end_on_a_face():
    assert KIND.serves == {(Touch.END, Touch.FACE)}


@pytest.mark.parametrize(("angle", "possible"), [(90, True), (15, True), (14.9, False), (165, True), (165.1, False)])
def test_it_is_made_from_15_degrees_on(angle, possible):
    assert judged(shelf(angle)).possible is possible


REFUSED = {
    "stops that meet": (shelf(), {"stop": "both", "stop_distance": 150}, "leave nothing"),
    "a floor that comes out of the face": (shelf(45), {"raked": "floor square to walls"}, "come out of the face"),
    "a board too thin for shoulders of 3": (shelf(thickness=10), {"raked": "shouldered"}, "a tongue of 4 is"),
}


@pytest.mark.parametrize(("a", "own", "reason"), REFUSED.values(), ids=REFUSED)
def test_it_is_refused_with_a_reason(a, own, reason):
    judgement = judged(a, **own)

    assert not judgement.possible
    assert reason in str(judgement.reasons[0])


def test_stops_that_leave_something_are_allowed():
    assert judged(stop="both", stop_distance=149).possible


WAYS_OUT = {
    "through": ({}, {}, {(1, 0, 0), (0, 0, 1), (0, 0, -1)}),
    "stopped at the front": ({"stop": "front"}, {}, {(1, 0, 0), (0, 0, -1)}),
    "stopped at the wall": ({"stop": "wall"}, {}, {(1, 0, 0), (0, 0, 1)}),
    "stopped at both": ({"stop": "both"}, {}, {(1, 0, 0)}),
    "set back by 1 at the front": ({}, {"depth": 299}, {(1, 0, 0), (0, 0, 1), (0, 0, -1)}),
    "set back by 30 at the front": ({}, {"depth": 270}, {(1, 0, 0), (0, 0, -1)}),
    "set back by 30 at the wall": ({}, {"depth": 270, "back": 30}, {(1, 0, 0), (0, 0, 1)}),
    "proud by 30 at the front": ({}, {"depth": 330}, {(1, 0, 0), (0, 0, 1), (0, 0, -1)}),
}


@pytest.mark.parametrize(("own", "bodies", "ways"), WAYS_OUT.values(), ids=WAYS_OUT)
def test_it_leaves_by_its_face_and_by_each_edge_that_is_open(own, bodies, ways):
    piece, joint = joined(shelf(**bodies), **own)

    assert {motion.direction for motion in joint.making.motions} == {tuple(map(float, way)) for way in ways}
    assert {motion.body for motion in joint.making.motions} == {"A"}
    for motion in joint.making.motions:
        assert slides(piece, joint, motion), motion
        assert is_free(piece, joint, motion, motion.free + 0.01, [(0, 40, 0), (0, -40, 0)]), motion
        assert not is_free(piece, joint, motion, motion.free - 1.5, [(0, 40, 0), (0, -40, 0)]), motion


@pytest.mark.parametrize("closed", ["front", "wall"])
def test_where_it_is_stopped_it_cannot_leave(closed):
    piece, joint = joined(stop=closed)
    way = 20.0 if closed == "front" else -20.0

    assert overlap_when_moved(piece, joint, "A", (0.0, 0.0, way)) > 1000


@pytest.mark.parametrize("form", ["floor square to walls", "floor parallel to face", "shouldered"])
@pytest.mark.parametrize("angle", [80, 100, 75])
@pytest.mark.parametrize("stop", ["through", "front"])
def test_every_raked_form_goes_together_as_it_says_and_does_not_bite(form, angle, stop):
    piece, joint = joined(shelf(angle), raked=form, stop=stop)

    assert overlap_when_moved(piece, joint, "A", (0.0, 0.0, 0.0)) == pytest.approx(0.0, abs=0.5)
    for motion in joint.making.motions:
        assert slides(piece, joint, motion), motion


FORMS = {
    "square": (90, {}, "", "housing"),
    "5 of rake": (85, {}, "floor square to walls", "raked housing"),
    "15 of rake: deeper than half": (75, {}, "floor square to walls", "raked housing"),
    "15 of rake in 18": (75, {"thickness": 18.0}, "floor parallel to face", "raked housing"),
    "16 of rake": (74, {}, "floor parallel to face", "raked housing"),
    "45 of rake": (45, {}, "floor parallel to face", "raked housing"),
}


@pytest.mark.parametrize(("angle", "b", "form", "kind"), FORMS.values(), ids=FORMS)
def test_a_tilted_router_s_floor_is_chosen_up_to_15_while_its_deepest_corner_is_within_half(angle, b, form, kind):
    """At 15 the floor falls 24.1 / 2 x sin 15 = 3.12: 8 + 3.12 is within the 12 of a 24 board, 6 + 3.12 not in 9."""
    piece, _ = joined(shelf(angle), plank("B", (0, -700), (0, 1700), **b))
    cut = cut_of(piece, "housing in B for A")

    assert cut.word == kind
    joint = joint_of(piece, "A", "B")
    (routed, *_), _ = (one.ways for one in KINDS["housing"].operations(joint, piece.board_by_name))
    assert {"": "router on a guide", "floor square to walls": "tilted router: floor square to the walls"}.get(
        form, "walls sawn, floor levelled"
    ) == routed.says


@pytest.mark.parametrize(("opposed", "depth"), [(False, 8.0), (True, 6.0)], ids=["alone", "opposite another"])
def test_the_depth_is_a_third_or_a_quarter_in_whole_steps_of_a_half(opposed, depth):
    """24.9 / 3 = 8.3, down to 8.0; 24.9 / 4 = 6.2, down to 6.0."""
    b = plank("B", (0, 0), (0, 1200), thickness=24.9)
    others = [plank("C", (0, 500), (-700, 500))] if opposed else []
    piece = built(job_of(shelf(), b, *others))

    assert cut_of(piece, "housing in B for A").figures.deep == depth


def test_what_a_maker_writes_for_the_depth_is_not_rounded():
    piece, _ = joined(depth=7.3)

    assert cut_of(piece, "housing in B for A").figures.deep == 7.3


@pytest.mark.parametrize(("depth", "found"), [(12, None), (12.1, 12.1)], ids=["half", "more than half"])
def test_a_housing_deeper_than_half_is_a_stop(depth, found):
    piece, _ = joined(depth=depth)
    stops = coded(piece.findings, "housing-too-deep")

    assert [(finding.severity, finding.found) for finding in stops] == (
        [] if found is None else [(Severity.STOP, found)]
    )


THICKER = "use a thicker board for B"
SHALLOW = {
    "3 deep": (24, {"depth": 3}, None, ""),
    "a thousandth deeper": (24, {"depth": 3.001}, None, ""),
    "a thousandth less": (24, {"depth": 2.999}, 2.999, "make it 3 or more"),
    "as little as may be asked": (24, {"depth": 0.5}, 0.5, "make it 3 or more"),
    "left out, a third of 9": (9, {}, None, ""),
    "left out, a third of 8.9 down to a half": (8.9, {}, 2.5, "make it 3 or more"),
    "4 would stay behind 3 of 7": (7, {}, 2.0, "make it 3 or more"),
    "3.9 would stay behind 3 of 6.9": (6.9, {}, 2.0, THICKER),
}


@pytest.mark.parametrize(("thickness", "own", "depth", "remedy"), SHALLOW.values(), ids=SHALLOW)
def test_a_housing_under_3_deep_is_warned_of(thickness, own, depth, remedy):
    """A third down to a whole 0.5 where no depth is asked; behind 3 must stay a sixth of the board and 4."""
    piece, _ = joined(b=plank("B", (0, 0), (0, 1200), thickness=thickness), **own)
    told = coded(piece.findings, "housing-shallow")

    assert [(one.severity, one.found, one.limit) for one in told] == ([] if depth is None else [(WARN, depth, 3.0)])
    for finding in told:
        assert finding.where.boards == ("B", "A")
        assert str(finding.remedy) == remedy
        assert [str(cure.label) for cure in finding.cures] == ([] if remedy == THICKER else ["make it 3 deep"])


@pytest.mark.parametrize(
    ("thickness", "own", "depth", "remedy"),
    [(12, {}, None, ""), (11.9, {}, 2.5, THICKER), (12, {"depth": 2.5}, 2.5, "make it 3 or more")],
    ids=["a quarter of 12", "a quarter of 11.9 down to a half", "asked for less"],
)
def test_where_two_housings_meet_3_deep_wants_a_board_of_12(thickness, own, depth, remedy):
    """Each may take a quarter: 2.975 of 11.9 are less than 3, so only a thicker board would do."""
    boards = (shelf(), plank("C", (0, 500), (-700, 500)), plank("B", (0, 0), (0, 1200), thickness=thickness))
    specs = tuple(asked(name, "B", "housing", **own) for name in "AC")
    told = coded(built(job_of(*boards, joint_specs=specs)).findings, "housing-shallow")

    assert [(one.found, str(one.remedy)) for one in told] == ([] if depth is None else 2 * [(depth, remedy)])


def test_the_cure_of_a_shallow_housing_makes_it_3_deep():
    text = typed.job(
        typed.board("A", [[0, 500], [700, 500]]), typed.board("B", [[0, 0], [0, 1200]]), typed.joint("A", "B", depth=2)
    )
    (finding,) = typed.found(text, "housing-shallow")
    (cure,) = finding.cures
    cured, _ = change_job_text(text, cure.edits)

    assert cured == text.replace("depth = 2\n", "depth = 3\n")
    assert not typed.found(cured, "housing-shallow")


def test_the_fall_of_a_tilted_floor_counts_for_half_the_board():
    """11 deep at 75: its deepest corner is 11 + 24.1 / 2 x cos 75 = 14.1."""
    _, joint = joined(shelf(75), depth=11, raked="floor square to walls")
    (finding,) = coded(joint.findings, "housing-too-deep")

    assert finding.found == pytest.approx(11 + 12.05 * math.cos(math.radians(75)), abs=1e-6)


@pytest.mark.parametrize(
    ("own", "gaps"),
    [
        ({}, {("wall", 0.05, 2), ("bottom", 0.0, 1)}),
        ({"stop": "front"}, {("wall", 0.05, 2), ("bottom", 1.0, 1), ("shoulder", 0.0, 1), ("stopped end", 0.1, 1)}),
        ({"stop": "both"}, {("wall", 0.05, 2), ("bottom", 1.0, 1), ("shoulder", 0.0, 2), ("stopped end", 0.1, 2)}),
    ],
    ids=["through", "stopped", "stopped at both"],
)
def test_the_end_bottoms_unless_a_shoulder_bears(own, gaps):
    piece, joint = joined(**own)

    assert {(gap.between, gap.size, gap.count) for gap in joint.gaps} == gaps
    assert overlap_when_moved(piece, joint, "A", (-0.02, 0.0, 0.0)) > 1  # something bears
    assert overlap_when_moved(piece, joint, "A", (0.0, 0.049, 0.0)) == pytest.approx(0.0, abs=1e-6)
    assert overlap_when_moved(piece, joint, "A", (0.0, 0.06, 0.0)) > 1
    note = "The shoulder bears" if own else "The end bottoms"
    assert KIND.notes(joint)[0].startswith(note)


@pytest.mark.parametrize("stop_distance", [12, 30])
def test_a_stopped_end_is_notched_back_by_the_stop_and_the_clearance(stop_distance):
    piece, _ = joined(stop="front", stop_distance=stop_distance)

    assert cut_of(piece, "end of A in B").figures.stop == pytest.approx(stop_distance + 0.1)
    assert cut_of(piece, "housing in B for A").figures.stop == pytest.approx(stop_distance)
    assert cut_of(piece, "housing in B for A").word == "stopped housing"


def test_a_housing_for_a_board_set_back_ends_at_that_board_less_the_clearance():
    piece, joint = joined(shelf(depth=270))

    assert cut_of(piece, "housing in B for A").figures.stop == pytest.approx(30 - 0.1)
    assert cut_of(piece, "housing in B for A").word == "housing"
    assert ("stopped end", 0.1, 1) in {(gap.between, gap.size, gap.count) for gap in joint.gaps}


def test_a_board_that_stands_proud_is_cut_back_to_the_face_there():
    piece, joint = joined(shelf(depth=330))

    assert cut_of(piece, "end of A in B").figures.stop == pytest.approx(30)
    assert overlap_when_moved(piece, joint, "A", (0.0, 0.0, 0.0)) == pytest.approx(0.0, abs=0.5)


@pytest.mark.parametrize("angle", [90, 70, 110])
def test_the_mating_is_across_the_walls(angle):
    a = shelf(angle)
    meeting = meeting_of(a, UPRIGHT)
    options = options_for(KIND, meeting, clearance=0.2)
    (mating,) = KIND.matings(meeting, options, KIND.makings(meeting, options)[0])

    assert (mating.key, mating.cut_in, mating.takes) == ("housing in B for A", "B", "A")
    assert (mating.nominal, mating.play) == (24.2, 0.2)
    board = built(job_of(UPRIGHT)).boards[0]
    rise = math.radians(90 - angle)
    x, y, _ = board.frame.direct(mating.normal)
    assert x * math.cos(rise) + y * math.sin(rise) == pytest.approx(0.0, abs=1e-9)


@pytest.mark.parametrize(
    "own", [{}, {"stop": "front"}, {"stop": "both", "stop_distance": 20}], ids=["through", "front", "both"]
)
def test_what_it_hides_of_the_end_is_what_goes_in(own):
    _, joint = joined(**own)
    hidden = dict(joint.hidden_mm2)
    deep = 8.0 if not own else 7.0
    run = 300 - {"": 0.0, "front": 12.1, "both": 40.2}[own.get("stop", "")]

    assert hidden["A"] == hidden["B"] == pytest.approx(2 * deep * run + 24 * run)


def test_without_play_what_it_hides_is_what_touches():
    piece, joint = joined(clearance=0.0)

    assert dict(joint.hidden_mm2)["A"] == pytest.approx(touching_area(piece, joint), rel=1e-6)


def test_glued_it_is_side_grain_on_end_grain():
    _, glued = joined()
    _, dry = joined(glued=False)

    (face,) = KIND.glue(glued)
    assert (face.grain, face.area_mm2) == ((Grain.SIDE, Grain.END), pytest.approx(2 * 8 * 300 + 24 * 300))
    assert KIND.glue(dry) == ()


@pytest.mark.parametrize(("glued", "across"), [(True, 24.1), (False, 24.15)], ids=["glued", "dry"])
def test_left_out_the_clearance_is_010_glued_and_015_dry(glued, across):
    piece, _ = joined(glued=glued)

    assert cut_of(piece, "housing in B for A").figures.across == across


def test_a_shouldered_end_has_a_tongue_of_half_the_board_between_shoulders_of_3_at_least():
    piece, joint = joined(raked="shouldered")
    cut = cut_of(piece, "housing in B for A")

    assert cut.figures.across == pytest.approx(12.1)
    assert str(cut.figures.how("mm", named=True)) == "tongue of A 12 + clearance 0.1"
    assert ("shoulder", 0.0, 2) in {(gap.between, gap.size, gap.count) for gap in joint.gaps}
    assert joined(raked="shouldered", tongue=40)[1].gaps == joint.gaps
    wide = cut_of(joined(raked="shouldered", tongue=40)[0], "housing in B for A")
    assert wide.figures.across == pytest.approx(18.1)  # 24 less a shoulder of 3 on either side


def test_the_end_says_how_its_length_came_about():
    through, _ = joined()
    stopped, _ = joined(stop="front")

    assert str(cut_of(through, "end of A in B").figures.how("mm", named=True)) == "to the face of B + 8 deep"
    assert "7 that goes in (8 deep less 1)" in str(cut_of(stopped, "end of A in B").figures.how("mm", named=True))


@pytest.mark.parametrize("up", [250.0, 250.77, 333.33, 411.9])
def test_a_tongue_is_as_thick_wherever_along_the_board_it_goes_in(up):
    """A board of 12 has room for 6 beside two shoulders of 3, at 250.77 too, where floats fall a last bit short."""
    piece, _ = joined(plank("A", (0, up), (700, up), thickness=12), raked="shouldered")

    assert cut_of(piece, "end of A in B").figures.across == 6.0
