"""Splices of two boards 27 x 280 in line, 400 and 400 long as drawn: cases D13 and D14, by sums and as solids.

A lap of 160 at the middle: members of 480, 160 x 13.5 x 280 = 604800 mm3 out of each, 160 x 280 glued on long grain. A
scarf at 1:8 in 900: 8 x 27 = 216 long, members of 558, atan(1/8) = 7.125 to the face. Keys and a tongue have no case
there: theirs are worked here by two ways each.
"""

import math

import pytest

from dryfit.book import build, read_job_text
from dryfit.documents.looks import Desk
from dryfit.documents.sheets.part.ends.fronts import sizes
from dryfit.documents.sheets.part.words.details import details
from dryfit.piece.facts import Grain, Pressing
from dryfit.piece.setout import Made, Pin
from dryfit.piece.solids import Solids
from tests.joints.going import overlap_when_moved, touching_area
from tests.joints.typed import board, book_of, found, job, joint_of, kind_of, piece_of, stops, table

WAYS = {"+x": (1, 0, 0), "-x": (-1, 0, 0), "+y": (0, 1, 0), "-y": (0, -1, 0), "+z": (0, 0, 1), "-z": (0, 0, -1)}
WHOLE = 27 * 280


def spliced(form="half-lapped", *, timbers=("27", "27"), depths=(280, 280), at=400, whole=800, lifted=0, **options):
    return job(
        table("[joints]", in_line="splice"),
        table("[joints.splice]", form=form, **options),
        board("left", [[0, 0], [at, 0]], depths[0], timbers[0]),
        board("right", [[at, lifted], [whole, lifted]], depths[1], timbers[1]),
    )


def free(text, body="right"):
    """The ways in which a body leaves, tried on the solids a short and a longer way."""
    piece, joint = piece_of(text), joint_of(text, "left", "right")

    def goes(way):
        return max(overlap_when_moved(piece, joint, body, tuple(d * one for one in way)) for d in (0.25, 9.0)) <= 0.5

    return {name for name, way in WAYS.items() if goes(way)}


def said_free(text):
    """The ways in which the joint says that it leaves: those that press none of the faces of one of its motions."""
    found = set()
    for motion in joint_of(text, "left", "right").making.motions:
        for name, way in WAYS.items():
            normals = (motion.direction, *motion.within)
            presses = any(sum(a * b for a, b in zip(way, one, strict=True)) < -1e-9 for one in normals)
            if motion.direction == pytest.approx(way) if motion.free else not presses:
                found.add(name)
    return found


def taken(text, name):
    """Volume taken out of a member, from its long point on."""
    part = piece_of(text).part_by_name[name]
    return part.length * part.board.thickest * part.board.depth - Solids().volume(part)


# ---- half-lapped


def test_a_half_lap_of_160_makes_members_of_480_and_glues_44800_on_long_grain():
    """D13."""
    text = spliced()
    joint = joint_of(text, "left", "right")
    parts = piece_of(text).part_by_name
    assert joint.options.lap == 160.0  # six times 27, in whole 10
    assert [parts[name].length for name in ("left", "right")] == [480.0, 480.0]
    assert [taken(text, name) for name in ("left", "right")] == pytest.approx([604800.0, 604800.0])
    cheeks, ends = kind_of(joint).glue(joint)
    assert (cheeks.grain, cheeks.area_mm2) == ((Grain.SIDE, Grain.SIDE), 44800.0)
    assert (ends.grain, ends.area_mm2) == ((Grain.END, Grain.END), WHOLE)
    assert touching_area(piece_of(text), joint) == pytest.approx(44800.0 + WHOLE)
    assert stops(text) == set()


@pytest.mark.parametrize(
    ("over", "ways"),
    [("left", {"+x", "-y", "+z", "-z"}), ("right", {"+x", "+y", "+z", "-z"})],
    ids=["its lap below", "its lap above"],
)
def test_the_board_with_its_lap_below_goes_on_down_and_out_of_the_wall_and_not_up_or_back(over, ways):
    """D13 has the first."""
    text = spliced(over=over)
    assert free(text) == said_free(text) == ways


def test_either_board_may_lie_over_and_a_table_asks_for_it_by_its_name():
    text = spliced()
    made = joint_of(text, "left", "right")
    makings = kind_of(made).makings(made.meeting, made.options)
    assert [making.word for making in makings] == [("over", "left"), ("over", "right")]
    assert [
        making.word
        for making in kind_of(made).makings(made.meeting, joint_of(spliced(over="right"), "left", "right").options)
    ] == [("over", "right")]


def test_of_plumb_boards_the_left_face_is_the_upper_one():
    """Both drawn upwards: the lower one over, so it keeps its left half, up to 80 past where they meet."""
    text = job(
        table("[joints]", in_line="splice"),
        table("[joints.splice]", over="low"),
        board("low", [[0, 0], [0, 400]], 280, "27"),
        board("up", [[0, 400], [0, 800]], 280, "27"),
    )
    piece, joint = piece_of(text), joint_of(text, "low", "up")
    assert overlap_when_moved(piece, joint, "up", (9.0, 0.0, 0.0)) <= 0.5
    assert overlap_when_moved(piece, joint, "up", (-9.0, 0.0, 0.0)) > 1000.0


def test_a_lap_is_pressed_square_to_its_faces_and_told_so_on_its_part():
    text = spliced()
    book, joint = book_of(text), joint_of(text, "left", "right")
    press = kind_of(joint).pressed(joint)
    assert (press.how, press.face_mm2) == (Pressing.ACROSS, 44800.0)
    look = Desk(book).looks["left"]
    (cut,) = [one for one in look.part.cuts if one.word == "half lap"]
    assert list(details(Desk(book), look, cut)) == ["cheek 13.50 below the lower face, shoulder at 320 lower"]
    assert sizes(look, cut) == "half lap 13.5 deep"


def test_the_thinner_board_sets_the_lap_and_each_is_halved_by_its_own_thickness():
    text = spliced(timbers=("27", "18"), over="left")
    joint = joint_of(text, "left", "right")
    assert joint.options.lap == 100.0
    assert [taken(text, "left"), taken(text, "right")] == pytest.approx([100 * 13.5 * 280, 100 * 9 * 280])
    (step,) = found(text, "splice-step")
    assert (step.severity, step.found, step.limit) == ("note", 4.5, 0.2)


# ---- bevelled


def test_a_scarf_of_1_in_8_is_216_long_and_glues_60951():
    """D14: the right board's long point on top."""
    text = spliced("bevelled", at=450, whole=900, over="right")
    joint = joint_of(text, "left", "right")
    parts = piece_of(text).part_by_name
    (cut, other) = joint.cuts
    assert 90 - cut.figures.lean == pytest.approx(7.125, abs=5e-4)
    assert (cut.figures.deep, other.figures.deep) == (216.0, 216.0)
    assert cut.figures.across == pytest.approx(217.68, abs=5e-3)
    assert [parts[name].length for name in ("left", "right")] == [558.0, 558.0]
    assert [taken(text, name) for name in ("left", "right")] == pytest.approx([816480.0, 816480.0])
    (zone,) = kind_of(joint).glue(joint)
    assert zone.area_mm2 == pytest.approx(60950.7, abs=0.05)
    assert touching_area(piece_of(text), joint) == pytest.approx(zone.area_mm2)
    assert free(text) == {"+x", "+y", "+z", "-z"}
    assert said_free(text) == {"+x", "+y", "+z", "-z"}


@pytest.mark.parametrize(("slope", "warned"), [(7.9, True), (8, False)])
def test_steeper_than_1_in_8_is_warned_of_with_its_cure(slope, warned):
    findings = found(spliced("bevelled", slope=slope, at=500, whole=1000), "splice-steep-scarf")
    assert bool(findings) == warned
    for finding in findings:
        assert (finding.found, finding.limit, finding.source) == (7.9, 8.0, "common practice")
        (cure,) = finding.cures
        assert cure.edits[0].value["slope"] == 8


# ---- keys


def test_keys_lie_along_the_grain_in_half_a_disc_segment_of_either_board():
    """A cutter of 100 plunged 16 into 24: 36.66 along either board, half of 811.1 in each.

    By the circle: R^2 acos((R - P) / R) - (R - P) sqrt(R^2 - (R - P)^2); and by a sum of 20000 strips.
    """
    text = spliced("keys", timbers=("24", "24"))
    joint = joint_of(text, "left", "right")
    assert (joint.options.keys, joint.options.plunge) == (3, 16.0)
    strips, half = 20000, math.sqrt(50**2 - 34**2)
    xs = ((k + 0.5) * 2 * half / strips - half for k in range(strips))
    segment = sum(math.sqrt(50**2 - x**2) - 34 for x in xs) * 2 * half / strips
    ends, sides = kind_of(joint).glue(joint)
    assert sides.area_mm2 == pytest.approx(2 * 3 * segment, rel=1e-6)
    assert (ends.grain, sides.grain) == ((Grain.END, Grain.END), (Grain.SIDE, Grain.SIDE))
    pocket = next(cut for cut in joint.cuts if cut.word == "key pockets")
    assert pocket.figures.on_face == pytest.approx(36.661, abs=1e-3)
    assert taken(text, "left") == pytest.approx(3 * 4 * segment / 2, rel=1e-2)  # a solid's disc has short sides
    assert said_free(text) == free(text) == {"+x", "+y", "-y", "+z", "-z"}  # glue alone until the keys are in


def test_pockets_are_cut_when_the_ends_are_glued_from_the_lower_face_or_the_upper_one():
    text = spliced("keys")
    joint = joint_of(text, "left", "right")
    *_, last = kind_of(joint).operations(joint, piece_of(text).board_by_name)
    assert last.after_gluing == ("left", "right")
    (face,) = {cut.face for cut in joint.cuts if cut.word == "key pockets"}
    (other,) = {
        cut.face
        for cut in joint_of(spliced("keys", key_face="upper"), "left", "right").cuts
        if cut.word == "key pockets"
    }
    assert (face, other) == (-1, 1)


def test_less_than_4_behind_keys_is_a_stop_with_its_cure():
    (finding,) = found(spliced("keys", plunge=24), "splice-near-face")
    assert (finding.found, finding.limit) == (3.0, 4.0)
    (cure,) = finding.cures
    assert cure.edits[0].value["plunge"] == 23
    assert not found(spliced("keys", plunge=23), "splice-near-face")


# ---- dowels and a tongue


def test_a_tongue_is_a_third_thick_and_one_and_a_half_times_as_wide_in_grooves_stopped_12():
    """27: 9 thick, 40 wide; each groove 9.1 x 20.5 x 256, by its figures and by what is missing of the solid."""
    text = spliced("tongue")
    joint = joint_of(text, "left", "right")
    assert (joint.options.tongue, joint.options.tongue_width) == (9.0, 40.0)
    assert [taken(text, name) for name in ("left", "right")] == pytest.approx([9.1 * 20.5 * 256] * 2)
    (ware,) = kind_of(joint).hardware(joint)
    assert str(ware.says) == "9 x 40 x 256, grain along the boards"
    (out,) = joint.making.motions
    assert (out.direction, out.free) == ((1.0, 0.0, 0.0), 20.0)
    assert said_free(text) == {"+x"}
    (zone,) = kind_of(joint).glue(joint)
    assert zone.area_mm2 == pytest.approx(WHOLE - 9.1 * 256)


def test_less_than_3_beside_a_tongue_is_a_stop_with_its_cure():
    (finding,) = found(spliced("tongue", tongue=22), "splice-near-face")
    assert finding.found == pytest.approx((27 - 22.1) / 2)
    (cure,) = finding.cures
    assert cure.edits[0].value["tongue"] == 20.9


def test_dowels_are_those_of_a_butt_in_line():
    """The next as sold over a third of 27 less 0.6, three diameters in either end as near as sold."""
    text = spliced("dowels")
    joint = joint_of(text, "left", "right")
    butt = text.replace('in_line = "splice"', 'in_line = "butt"').replace("[joints.splice]\nform", "#")
    assert (joint.options.dowel, joint.options.dowel_in, joint.options.dowels) == (10.0, 30.0, 3)
    mine = [cut.shapes for cut in joint.cuts if cut.word == "dowel holes"]
    assert mine == [cut.shapes for cut in joint_of(butt, "left", "right").cuts if cut.word == "dowel holes"]


@pytest.mark.parametrize("form", ["dowels", "tongue"])
def test_what_end_grain_holds_is_warned_of_and_may_be_lapped_instead(form):
    (finding,) = found(spliced(form), "splice-carries-little")
    assert (finding.severity, finding.source) == ("warn", "common practice")
    (cure,) = finding.cures
    assert cure.edits[0].value["form"] == "half-lapped"


@pytest.mark.parametrize("form", ["half-lapped", "bevelled", "keys", "dowels", "tongue"])
def test_that_nobody_worked_out_what_it_carries_is_said_of_every_form(form):
    text = spliced(form, at=500, whole=1000)
    (left,) = [one for one in piece_of(text).not_checked if one.study == "splices"]
    assert str(left.what) == "how much the splice of left and right carries"
    joint = joint_of(text, "left", "right")
    assert any("not worked out" in str(note) for note in kind_of(joint).notes(joint))


def test_dowels_that_shut_a_way_may_be_eased_to_a_lap():
    text = spliced("dowels")
    joint = joint_of(text, "left", "right")
    (ease,) = kind_of(joint).eases(joint.meeting, joint.options, joint.making)
    assert ease.options == (("form", "half-lapped"),)
    assert len(ease.making.motions[0].within) == 1


# ---- counted from the other end


@pytest.mark.parametrize("form", ["half-lapped", "bevelled", "keys", "tongue"])
@pytest.mark.parametrize("turned", ["left", "right"])
def test_a_board_that_is_counted_from_its_other_end_fits_all_the_same(form, turned):
    """Its datum end is pinned to the far one, so its own directions run against the other's."""
    text = spliced(form, at=500, whole=1000, **({"over": "left"} if form in ("half-lapped", "bevelled") else {}))
    pins = {turned: Pin(datum="end", face_side="left")}
    made = build(read_job_text(text), made=Made(pins=pins, thickness={}, fronts={}), paces=()).piece
    (joint,) = made.joints
    plain = piece_of(text)
    assert made.board_by_name[turned].frame.x == (-1.0, 0.0, 0.0)
    assert overlap_when_moved(made, joint, "right", (0.0, 0.0, 0.0)) <= 0.5
    assert touching_area(made, joint) == pytest.approx(touching_area(plain, joint))
    for name in ("left", "right"):
        mine, its = (Solids().placed(one.part_by_name[name]) for one in (made, plain))
        assert (mine ^ its).volume() == pytest.approx(its.volume(), rel=1e-6)


# ---- what is refused


@pytest.mark.parametrize(
    ("form", "more", "says", "compared"),
    [
        ("half-lapped", {"depths": (300, 280)}, "the boards are 20 apart at the front", (20.0, 1.0)),
        ("half-lapped", {"lifted": 0.7}, "the middles of the two boards are 0.7 out of one line", (0.7, 0.01)),
        ("half-lapped", {"lap": 50}, "a half lap 50 long in boards 27 thick", (50.0, 54.0)),
        ("half-lapped", {"lap": 500}, "a half lap would be 500 long; the shorter board is 400", (500.0, 400.0)),
        ("bevelled", {"slope": 20}, "a scarf at 1:20 would be 540 long; the shorter board is 400", (540.0, 400.0)),
        ("keys", {"plunge": 60}, "a cutter of 100 cannot be plunged 60", (60.0, 50.0)),
        ("keys", {"timbers": ("27", "24")}, "the faces of the two boards are 1.5 apart", (1.5, 0.01)),
        ("tongue", {"tongue_stop": 125}, "a tongue stopped 125 at both edges is 30 long", (30.0, 40.0)),
        ("tongue", {"lifted": 0.7}, "the middles of the two boards are 0.7 out of one line", (0.7, 0.01)),
    ],
)
def test_what_it_is_refused_for(form, more, says, compared):
    (finding,) = found(spliced(form, **more), "joint-unsuited")
    assert says in str(finding.says)
    assert (finding.found, finding.limit) == pytest.approx(compared)


def test_at_a_corner_it_is_refused():
    text = job(
        table("[joints]", corner="splice"),
        board("one", [[0, 0], [400, 0]]),
        board("other", [[0, 0], [0, 400]]),
    )
    (finding,) = found(text, "joint-unsuited")
    assert "a splice joins two boards in line" in str(finding.says)


# ---- by itself


def test_boards_in_line_are_half_lapped_where_the_job_names_no_kind_and_dowelled_where_no_lap_suits():
    lapped = spliced().partition("[joints]")[0]
    boards = board("left", [[0, 0], [400, 0]], 280, "27"), board("right", [[400, 0], [800, 0]], 280, "27")
    stepped = board("right", [[400, 0], [800, 0]], 240, "27")
    assert joint_of(lapped + "".join(boards), "left", "right").kind == "splice"
    assert joint_of(lapped + boards[0] + stepped, "left", "right").kind == "butt"
    (decision,) = [one for one in piece_of(lapped + boards[0] + stepped).decisions if "in line" in str(one.about)]
    assert str(decision.value) == "butt, dowelled"
    assert "a splice finds no room here" in str(decision.reason)


@pytest.mark.parametrize(
    ("form", "more", "says"),
    [
        ("dowels", {"dowel": 30}, "a dowel of 30 in boards 27 thick"),
        ("dowels", {"dowel_in": 500}, "a hole 501 deep in a board 400 long"),
        ("tongue", {"tongue": 30}, "a tongue 30 thick in boards 27 thick"),
        ("keys", {"plunge": 27}, "a cutter plunged 27 into boards 27 thick"),
    ],
)
def test_what_is_larger_than_the_boards_is_refused_and_drawn_nowhere(form, more, says):
    (finding,) = found(spliced(form, **more), "joint-unsuited")
    assert says in str(finding.says)
