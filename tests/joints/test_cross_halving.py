"""Cross halving, member by member.

Two boards 24 thick and 300 deep, backs level, crossing square: the seats lie 0.5 to either side of 150, so each
slot is 150.5 deep; with clearance 0.15 it is 24.15 wide. The faces hidden in it are 24 x 149.5, two a slot.
"""

import math
import re
from dataclasses import replace

import pytest

from dryfit.findings import Severity
from dryfit.job.model import Finish
from dryfit.joints import KINDS
from dryfit.piece.facts import Grain
from dryfit.piece.model import Touch

from ..piece.making import asked, built, coded, cut_of, job_of, joint_of, meeting_of, options_for, plank, rules
from .going import is_free, overlap_when_moved, slides, touching_area

KIND = KINDS["cross halving"]
SHELF = plank("A shelf", (0, 600), (2000, 600))


def upright(angle=90.0, **more):
    along = 700 / math.tan(math.radians(angle))
    return plank("B upright", (1000 - along, -100), (1000 + along, 1300), **more)


def joined(other=None, front="A shelf", shelf=SHELF, clearance=0.15, finish=None, **own):
    """The piece of the two boards, and their joint."""
    specs = (asked("A shelf", "B upright", front=front, **own),)
    job = job_of(
        shelf, other or upright(), joints=rules(clearance=clearance), joint_specs=specs, finish=finish or Finish()
    )
    piece = built(job)
    return piece, joint_of(piece, "A shelf", "B upright")


@pytest.mark.parametrize(
    ("angle", "possible"), [(90, True), (30, True), (15, True), (14.9, False), (165, True), (165.1, False)]
)
def test_it_is_made_from_15_degrees_on_whichever_way_the_board_leans(angle, possible):
    meeting = meeting_of(SHELF, upright(angle))
    judgement = KIND.judge(meeting, options_for(KIND, meeting))

    assert judgement.possible is possible
    assert bool(judgement.reasons) is not possible
    for reason in judgement.reasons:
        assert "14.9°" in str(reason)


def test_it_serves_boards_that_run_through_each_other_and_nothing_else():
    assert KIND.serves == {(Touch.THROUGH, Touch.THROUGH)}


@pytest.mark.parametrize(("angle", "warned"), [(29.9, True), (30, False), (15, True)])
def test_a_shallow_angle_is_made_with_a_warning(angle, warned):
    _, joint = joined(upright(angle))

    assert [finding.severity for finding in coded(joint.findings, "shallow-angle")] == [Severity.WARN] * warned


def test_at_15_degrees_a_slot_is_four_times_as_long_on_the_face():
    _, joint = joined(upright(15))

    assert joint.cuts[0].figures.on_face == pytest.approx(24.15 / math.sin(math.radians(15)), abs=1e-6)
    assert 93 < joint.cuts[0].figures.on_face < 94


def test_it_has_two_hands_one_for_either_board_that_may_open_to_the_front():
    meeting = meeting_of(SHELF, upright(depth=330))
    first, second = KIND.makings(meeting, options_for(KIND, meeting))

    assert (first.front, second.front) == ("A shelf", "B upright")
    assert str(first.name) == "A shelf's slot to the front"
    assert (first.open_notch, second.open_notch) == (0.0, 30.0)
    assert [motion.body for motion in (*first.motions, *second.motions)] == ["B upright", "A shelf"]


@pytest.mark.parametrize("front", ["A shelf", "B upright"])
@pytest.mark.parametrize("angle", [90, 60, 120])
@pytest.mark.parametrize(("depth", "back"), [(300, 0), (330, 0), (300, -20), (200, 60)])
def test_the_second_board_comes_off_towards_the_room_and_is_free_when_it_says_so(front, angle, depth, back):
    piece, joint = joined(upright(angle, depth=depth, back=back), front)
    (motion,) = joint.making.motions
    turn = math.radians(angle)
    aside = [(60.0, 0.0, 0.0), (60.0 * math.cos(turn), 60.0 * math.sin(turn), 0.0)]  # along either board
    asides = aside + [(-x, -y, 0.0) for x, y, _ in aside]

    assert motion.direction == (0.0, 0.0, 1.0)
    assert motion.body != front
    assert slides(piece, joint, motion)
    assert is_free(piece, joint, motion, motion.free + 0.01, asides)
    assert not is_free(piece, joint, motion, motion.free - 2.0, asides)


def test_it_cannot_be_taken_apart_towards_the_wall():
    piece, joint = joined()

    assert overlap_when_moved(piece, joint, "B upright", (0.0, 0.0, -20.0)) > 1000


@pytest.mark.parametrize("angle", [90, 82.5, 60, 120])
def test_both_slots_are_matings_square_to_the_board_that_enters(angle):
    other = upright(angle, thickness=21)
    meeting = meeting_of(SHELF, other)
    options = options_for(KIND, meeting, clearance=0.3)
    matings = {mating.cut_in: mating for mating in KIND.matings(meeting, options, KIND.makings(meeting, options)[0])}

    in_shelf = matings["A shelf"]
    assert in_shelf.key == "slot in A shelf for B upright"
    assert (in_shelf.takes, in_shelf.nominal, in_shelf.play) == ("B upright", 21.3, 0.3)
    assert matings["B upright"].nominal == 24.3
    turn = math.radians(angle)
    assert in_shelf.normal == pytest.approx((-math.sin(turn), math.cos(turn), 0.0), abs=1e-9)


def test_every_mating_is_a_cut_of_the_same_key():
    _, joint = joined()
    meeting, options = joint.meeting, options_for(KIND, joint.meeting)

    assert {mating.key for mating in KIND.matings(meeting, options, joint.making)} == {cut.key for cut in joint.cuts}


def test_the_example_of_unequal_depths_is_slotted_so_that_no_notch_shows():
    """A 300 deep, B 330, backs level: A opens to the front, both slots 150.5 deep; else B's runs out 30 before A."""
    piece = built(job_of(SHELF, upright(depth=330), joints=rules(clearance=0.15)))
    joint = joint_of(piece, "A shelf", "B upright")

    assert joint.making.front == "A shelf"
    assert [cut.figures.deep for cut in joint.cuts] == [150.5, 150.5]
    assert [cut.figures.opens for cut in joint.cuts] == ["front edge", "wall edge"]
    assert not coded(piece.findings, "open-notch")

    _, other = joined(upright(depth=330), front="B upright")
    (notch,) = coded(other.findings, "open-notch")
    assert re.match(r"open notch 30(\.0)? x 24\.[12]\d* at the front of B upright", str(notch.says))
    assert (notch.severity, notch.found) == (Severity.WARN, 30.0)
    assert [cut.figures.deep for cut in other.cuts] == [180.5, 150.5]


def test_a_notch_left_open_at_the_wall_is_a_note():
    """B starts 20 nearer the wall than A, and is slotted from the wall: 20 of its slot is empty."""
    _, joint = joined(upright(back=-20, depth=320))
    (notch,) = coded(joint.findings, "open-notch")

    assert (notch.severity, notch.found, notch.where.boards) == (Severity.NOTE, 20.0, ("B upright",))


@pytest.mark.parametrize(
    ("end_clearance", "found"), [(27.9, []), (28.1, [0.95, 0.95]), (40, [-5.0, -5.0])], ids=["1.05", "0.95", "none"]
)
def test_a_slot_must_leave_wood_behind_it(end_clearance, found):
    """A board 30 deep: its middle is 15, half the end clearance to either side."""
    _, joint = joined(
        upright(depth=30), shelf=plank("A shelf", (0, 600), (2000, 600), depth=30), end_clearance=end_clearance
    )

    stops = coded(joint.findings, "slot-without-seat")
    assert [finding.found for finding in stops] == pytest.approx(found)
    assert {finding.severity for finding in stops} <= {Severity.STOP}


@pytest.mark.parametrize("ratio", [0.3, 0.5, 0.7])
def test_the_ratio_is_the_share_of_the_board_that_opens_to_the_front(ratio):
    for front in ("A shelf", "B upright"):
        _, joint = joined(front=front, ratio=ratio)
        depths = {cut.body: cut.figures.deep for cut in joint.cuts}

        assert depths.pop(front) == pytest.approx(300 * ratio + 0.5)
        assert list(depths.values()) == pytest.approx([300 * (1 - ratio) + 0.5])


def test_the_seats_stay_apart_by_the_end_clearance_and_nothing_else_touches_but_by_play():
    piece, joint = joined(end_clearance=2.0)

    assert {(gap.between, gap.size, gap.count) for gap in joint.gaps} == {("wall", 0.075, 2), ("seat", 2.0, 1)}
    assert overlap_when_moved(piece, joint, "B upright", (0.0, 0.0, -1.99)) == pytest.approx(0.0, abs=1e-6)
    assert overlap_when_moved(piece, joint, "B upright", (0.0, 0.0, -2.01)) > 0
    assert overlap_when_moved(piece, joint, "B upright", (0.074, 0.0, 0.0)) == pytest.approx(0.0, abs=1e-6)
    assert overlap_when_moved(piece, joint, "B upright", (0.08, 0.0, 0.0)) > 0


def test_film_sanding_and_swelling_are_in_the_width_and_in_the_words_for_it():
    finish = Finish(coats=2, film=0.04, joint_zones="coated", sanded=0.1)
    piece, joint = joined(replace(upright(), when="before glue"), finish=finish, swelling=0.2)
    cut = cut_of(piece, "slot in A shelf for B upright")

    assert cut.figures.across == pytest.approx(23.8 + 0.16 + 0.2 + 0.15)
    assert str(cut.figures.how("mm", named=True)) == "B upright 23.8 + film 0.15 + swelling 0.2 + clearance 0.15"
    walls = sorted(gap.size for gap in joint.gaps if gap.between == "wall")
    assert walls == pytest.approx([(0.16 + 0.2 + 0.15) / 2] * 2)


def test_square_walls_are_wide_enough_for_the_leaning_board_and_leave_no_wall_gap_to_state():
    piece, joint = joined(upright(82.5), walls="square")
    cut = cut_of(piece, "slot in A shelf for B upright")

    sine, cotangent = math.sin(math.radians(82.5)), 1 / math.tan(math.radians(82.5))
    assert cut.figures.on_face == cut.figures.across == pytest.approx(24.15 / sine + 24 * cotangent, abs=1e-6)
    assert (cut.word, cut.figures.lean) == ("slot", 0.0)
    assert [gap.between for gap in joint.gaps] == ["seat"]
    assert overlap_when_moved(piece, joint, "B upright", (0.0, 0.0, 0.0)) == pytest.approx(0.0, abs=1e-6)


def test_what_it_hides_is_what_touches_when_it_is_tight():
    """Without any play the walls touch all over, and the seats on top of it: 24 x 24."""
    piece, joint = joined(clearance=0.0, end_clearance=0.0)

    (_, one), (_, other) = joint.hidden_mm2
    assert one == other == pytest.approx(touching_area(piece, joint) - 24 * 24)


@pytest.mark.parametrize("angle", [70, 35, 145])
def test_at_an_angle_it_hides_as_much_more_as_the_slot_is_longer(angle):
    _, square = joined()
    _, raked = joined(upright(angle))

    assert raked.hidden_mm2[0][1] == pytest.approx(square.hidden_mm2[0][1] / math.sin(math.radians(angle)))


def test_glued_it_is_side_grain_on_end_grain_once_for_each_pair_of_faces():
    _, dry = joined()
    _, glued = joined(glued=True)

    assert KIND.glue(dry) == ()
    (face,) = KIND.glue(glued)
    assert (face.grain, face.area_mm2) == ((Grain.SIDE, Grain.END), pytest.approx(4 * 24 * 149.5))


@pytest.mark.parametrize(("glued", "clearance"), [(False, 0.15), (True, 0.10)], ids=["dry", "glued"])
def test_left_out_the_clearance_is_015_dry_and_010_glued(glued, clearance):
    _, joint = joined(clearance=None, glued=glued)

    assert joint.cuts[0].figures.across == pytest.approx(24 + clearance)


def test_a_note_says_which_board_lies_first():
    _, joint = joined(front="B upright")

    assert "B upright first, slot up" in str(KIND.notes(joint)[0])


def test_a_slot_says_what_it_is_fitted_to_and_between_which_angle():
    piece, _ = joined(upright(60))
    cut = cut_of(piece, "slot in A shelf for B upright")

    assert (cut.word, cut.takes, cut.size_is) == ("raked slot", "B upright", "FIT TO")
    assert cut.figures.between_faces == pytest.approx(60)
    assert cut.figures.lean == pytest.approx(30)  # leans right, to the far end of the shelf, at its upper face


def shelves(back=0.0, depth=300):
    """An upright beside the shelf, which is 300 deep from 0."""
    return upright(depth=depth, back=back)


WEBS = {  # the upright, ratio; boards whose web is thin, with what is left and a third of their depth; ratio offered
    "a half each": (shelves(), 0.5, {}, None),
    "a third and two thirds, less half the gap": (shelves(), 0.66, {}, None),
    "less than a third left at the wall": (shelves(), 0.7, {"A shelf": (89.5, 100.0)}, 0.5),
    "less than a third left at the front": (shelves(), 0.3, {"B upright": (89.5, 100.0)}, 0.5),
    "a shallow upright level at the wall": (shelves(depth=150), 0.5, {"A shelf": (74.5, 100.0)}, None),
    "no share leaves a third of both": (
        shelves(back=-200),
        0.5,
        {"A shelf": (49.5, 100.0), "B upright": (49.5, 100.0)},
        None,
    ),
    "an upright a little in": (shelves(back=-80), 0.3, {"B upright": (65.5, 100.0)}, 0.5),
    "a shallow one a little in: a half is too much": (
        shelves(back=-20, depth=200),
        0.5,
        {"A shelf": (89.5, 100.0)},
        0.44,
    ),
}


@pytest.mark.parametrize(("other", "ratio", "thin", "offered"), WEBS.values(), ids=WEBS)
def test_a_third_of_a_board_s_depth_stays_behind_its_slot(other, ratio, thin, offered):
    """300 deep, a share of 0.7: 300 - 210 - 0.5 = 89.5 stay; on edge (89.5 / 300)^2 = 8.9 % of its strength."""
    _, joint = joined(other, ratio=ratio)
    webs = coded(joint.findings, "halving-thin")

    assert [one.where.boards[0] for one in webs] == list(thin)
    assert [(one.found, one.limit) for one in webs] == [pytest.approx(figures) for figures in thin.values()]
    assert {one.severity for one in webs} <= {Severity.WARN}
    assert [cure.edits[0].value for one in webs for cure in one.cures] == ([offered] if offered else [])
    if ratio == 0.7:
        assert "leaves 89.5 of 300 at the wall: on edge 9 % of its strength" in str(webs[0].says)


@pytest.mark.parametrize("ratio", [0.3, 0.7])
def test_the_share_that_is_offered_leaves_a_third_of_both(ratio):
    """The upright stands 40 in: 260 in common, 0.5 or the share nearest to it that leaves 100 of 300 twice."""
    _, joint = joined(shelves(back=-40), ratio=ratio)
    (web,) = coded(joint.findings, "halving-thin")
    _, cured = joined(shelves(back=-40), ratio=web.cures[0].edits[0].value)

    assert not coded(cured.findings, "halving-thin")


@pytest.mark.parametrize(("ratio", "mark"), [(0.5, ""), (0.4, "deeper to the wall"), (0.6, "deeper to the front")])
def test_an_unequal_share_has_its_own_mark_and_says_what_stays_behind(ratio, mark):
    _, joint = joined(ratio=ratio)
    told = {str(size.of): size.value.mm for size in KIND.figures(joint)}

    assert KIND.marked(joint) == mark
    assert mark in KIND.glyphs
    left = {"slot in A shelf": 300 * (1 - ratio) - 0.5, "slot in B upright": 300 * ratio - 0.5}
    assert told == (pytest.approx(left) if ratio != 0.5 else {})
