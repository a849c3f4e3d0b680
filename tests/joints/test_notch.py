"""A notch: a board that crosses one lying flat is cut over it; the flat one stays whole.

A rail 90 wide and 24 thick lies flat on the wall along y = 500; an upright 24 thick and 260 deep crosses it: its
notch is 90.15 wide (clearance 0.15) and 25 deep (1.0 over the rail's face).
"""

import math

import pytest

from dryfit.piece.solids import Solids
from tests.joints.going import CONTACT, along, overlap_when_moved, slides
from tests.joints.typed import board, cut_of, found, job, joint_of, kind_of, piece_of, rail, stops, table

LINE = [[0, 500], [1200, 500]]
LEANS = {"plumb": 90, "leaning right": 75, "leaning left": 110, "at 45": 45}
FACES = {"at the wall": (0, 0), "at the front": (236, 0), "at the wall, set back 30": (30, 30)}


def crossed(degrees=90, *, back=0, other_back=0, depth=260, thick="24", line=LINE, backwards=False, **options):
    run = 500 / math.tan(math.radians(degrees)) if degrees != 90 else 0
    ends = [[600 - run, 0], [600 + run, 1000]]
    return job(
        table("[joints.notch]", **options),
        rail("rail", line, timber=thick, back=back),
        board("upright", ends[::-1] if backwards else ends, depth, back=other_back),
    )


@pytest.mark.parametrize("degrees", LEANS.values(), ids=LEANS)
@pytest.mark.parametrize(("back", "other_back"), FACES.values(), ids=FACES)
@pytest.mark.parametrize("backwards", [False, True], ids=["drawn up", "drawn down"])
def test_nothing_overlaps_and_it_comes_off_square_to_the_wall(degrees, back, other_back, backwards):
    text = crossed(degrees, back=back, other_back=other_back, backwards=backwards)
    piece, made = piece_of(text), joint_of(text, "rail", "upright")
    (motion,) = made.making.motions
    assert stops(text) == set()
    assert motion.direction == (0.0, 0.0, -1.0 if back > 100 else 1.0)
    assert slides(piece, made, motion)
    assert overlap_when_moved(piece, made, motion.body, along(motion, -2.0)) > 1000.0
    aside = (4.0, 4.0, 0.0)
    assert overlap_when_moved(piece, made, motion.body, along(motion, motion.free - 2.0, aside)) > CONTACT
    assert overlap_when_moved(piece, made, motion.body, along(motion, motion.free, aside)) <= CONTACT


@pytest.mark.parametrize("degrees", LEANS.values(), ids=LEANS)
@pytest.mark.parametrize("tilt", [0, 20, -60], ids=["level rail", "rising rail", "falling rail"])
def test_what_is_taken_from_the_upright_is_the_rail_with_its_play(degrees, tilt):
    """(90.15 / sin of the angle between them) x 24 x 25, the rail whole."""
    text = crossed(degrees, line=[[0, 500], [1200, 500 + tilt]])
    piece = piece_of(text)
    between = abs(degrees - math.degrees(math.atan2(tilt, 1200)))
    part = piece.part_by_name["upright"]
    blank = 24 * 260 * math.dist((0, 0), (1000 / math.tan(math.radians(degrees)) if degrees != 90 else 0, 1000))
    taken = blank - Solids().volume(part)
    assert taken == pytest.approx(90.15 / math.sin(math.radians(between)) * 24 * 25, abs=0.01)
    assert Solids().volume(piece.part_by_name["rail"]) == pytest.approx(90 * 24 * math.dist((0, 0), (1200, tilt)))


def test_its_figures_are_what_a_maker_marks():
    """Raked 75: 90.15 across, 93.330 on the face, leaning 15."""
    cut = cut_of(crossed(75), "notch in upright over rail")
    figures = cut.figures
    assert (figures.across, figures.deep, figures.opens) == (pytest.approx(90.15), 25.0, "wall edge")
    assert figures.on_face == pytest.approx(93.330, abs=1e-3)
    assert abs(figures.lean) == pytest.approx(15.0)
    assert figures.between_faces == pytest.approx(75.0)
    assert (cut.size_is, cut.takes) == ("FIT TO", "rail")
    assert str(figures.how("mm", named=True)) == "rail 90 wide + clearance 0.15"


def test_over_a_rail_at_the_front_it_opens_to_the_front():
    cut = cut_of(crossed(back=236), "notch in upright over rail")
    assert (cut.figures.opens, cut.figures.deep) == ("front edge", 25.0)


def test_the_gaps_are_half_the_play_and_what_is_left_behind():
    made = joint_of(crossed(clearance=0.4, behind=2), "rail", "upright")
    assert [(gap.between, gap.size, gap.count) for gap in made.gaps] == [("wall", 0.2, 2), ("seat", 2.0, 1)]
    options = made.options
    (mating,) = kind_of(made).matings(made.meeting, options, made.making)
    assert (mating.cut_in, mating.takes, mating.nominal, mating.play) == ("upright", "rail", pytest.approx(90.4), 0.4)


def test_the_flat_board_goes_to_the_wall_first():
    made = joint_of(crossed(), "rail", "upright")
    assert tuple(map(str, kind_of(made).notes(made))) == ("rail goes to the wall first; upright goes over it.",)


@pytest.mark.parametrize(("depth", "stop"), [(50, False), (49, True)], ids=["half", "more than half"])
def test_no_more_than_half_the_board_is_taken(depth, stop):
    findings = found(crossed(depth=depth), "notch-too-deep")
    assert [finding.severity for finding in findings] == (["stop"] if stop else [])
    assert [str(cure.label) for finding in findings for cure in finding.cures] == (
        ["leave 0.5 over the flat board", "upright: 1 deeper"] if stop else []
    )


def test_a_flat_board_in_the_middle_of_the_others_depth_is_refused():
    (finding,) = found(crossed(back=100), "joint-unsuited")
    assert "lies in the middle of the other's depth" in str(finding.says)


def test_at_less_than_15_degrees_it_is_no_crossing():
    text = crossed(line=[[500, 0], [700, 1100]])
    assert "not-joined" in stops(text)


def test_two_uprights_and_a_raking_board_are_notched_over_one_rail():
    text = job(
        rail("rail", LINE),
        *(board(f"up {i}", [[200 * i, 0], [200 * i + 60 * (i == 2), 1000]], 260) for i in (1, 2, 4)),
    )
    assert {made.kind for made in piece_of(text).joints} == {"notch"}
    assert len(piece_of(text).joints) == 3
    assert stops(text) == set()
    assert len(piece_of(text).part_by_name["rail"].cuts) == 2  # its ends
