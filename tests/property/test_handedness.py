"""Seen from the room, right is right: x right along the wall, y up, z towards the room, nothing mirrored.

The head of a board that rakes right lies right of its foot, in its frame and in its solid; and the two
faces of a leaning slot are shifted the way the other board leans (geometry notes, sections 1 and 3).
"""

import math

import pytest
from hypothesis import given, settings

from dryfit.geometry.frames import cross
from dryfit.geometry.shapes import Prism
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.building import build_piece
from dryfit.piece.kinds import Kinds
from dryfit.piece.solids import Solids
from dryfit.shop.model import Shop
from tests.joints import cross_halving
from tests.strategies import Bar, Pair, lengths, pieces

LEVEL_T, RAKING_T = 27.0, 24.0


def build(job):
    return build_piece(job, Kinds(KINDS), Shop())


def leaning_pair(lean, drawn_back=False, front=""):
    """A level board and one that crosses it, `lean` off plumb: to the right where it is positive."""
    raking, level = (
        Bar(name=name, thickness=t, depth=300.0, back=0.0, before=400.0, after=400.0, drawn_back=drawn_back)
        for name, t in (("raking", RAKING_T), ("level", LEVEL_T))
    )
    return Pair(
        kind="cross halving",
        one=raking,
        other=level,
        place=(500.0, 400.0),
        heading=0.0,
        angle=90.0 - lean,
        options={"clearance": 0.3},
        front=front,
    )


def corners(part):
    """Corners of the placed solid, `(n, 3)` in the world."""
    return Solids(Keep()).placed(part).to_mesh64().vert_properties[:, :3]


def lowest_and_highest(part):
    """Middle of the foot and of the head, along the wall: of the four lowest and the four highest corners."""
    by_height = sorted(corners(part).tolist(), key=lambda point: point[1])
    return sum(point[0] for point in by_height[:4]) / 4, sum(point[0] for point in by_height[-4:]) / 4


@settings(max_examples=100)
@given(pair=cross_halving.pairs())
def test_every_frame_is_right_handed_with_z_out_of_the_wall(pair):
    for board in build(pair.job()).boards:
        for found, meant in zip(cross(board.frame.x, board.frame.y), board.frame.z, strict=True):
            assert found == pytest.approx(meant, abs=1e-12)
        assert board.frame.z == (0.0, 0.0, 1.0)


@settings(max_examples=40)
@given(lean=lengths(1.0, 44.0))
def test_the_head_of_a_board_that_rakes_right_lies_right_of_its_foot(lean):
    for drawn_back in (False, True):
        part = build(leaning_pair(lean, drawn_back).job()).part_by_name["raking"]
        frame = part.board.frame
        assert frame.place((part.long[1], 0.0, 0.0))[0] > frame.place((part.long[0], 0.0, 0.0))[0] + 1.0
        foot, head = lowest_and_highest(part)
        assert head > foot + 1.0
        foot, head = lowest_and_highest(build(leaning_pair(-lean, drawn_back).job()).part_by_name["raking"])
        assert head < foot - 1.0


@settings(max_examples=40)
@given(drawing=pieces())
def test_solids_stand_where_their_lines_were_drawn(drawing):
    """Both ends of every drawn line lie near the placed solid's ends: within the thickest boards it may end in."""
    piece = build(drawing.job)
    for spec in drawing.job.boards:
        part = piece.part_by_name[spec.name]
        points = corners(part)
        assert points[:, 2].min() == pytest.approx(spec.back)
        assert points[:, 2].max() == pytest.approx(spec.back + spec.depth)
        reach = part.board.thickest + 40.0
        for x, y in spec.line:
            assert min(math.hypot(px - x, py - y) for px, py, _ in points) < reach


def marks(part, face):
    """Where the slot's walls meet a face, along the board: +1 the face at +c (upper, or left), -1 the other."""
    (cut,) = (cut for cut in part.cuts if not cut.end)
    (shape,) = (shape for shape in cut.shapes if isinstance(shape, Prism))
    c = face * part.board.thickest / 2
    found = []
    for i, (x1, y1, _) in enumerate(shape.outline):
        x0, y0, _ = shape.outline[i - 1]
        if (y0 - c) * (y1 - c) < 0.0:
            found.append(x0 + (c - y0) * (x1 - x0) / (y1 - y0))
    return sorted(found)


@settings(max_examples=60)
@given(lean=lengths(0.5, 60.0))
def test_where_b_leans_right_a_marks_its_upper_face_further_right_and_b_its_left_face_nearer_its_foot(lean):
    """By t / tan of the angle between the boards: 27 and 7.5 off plumb, 3.555 on A and 24 / 27 of it on B."""
    for drawn_back in (False, True):
        piece = build(leaning_pair(lean, drawn_back).job())
        level, raking = piece.part_by_name["level"], piece.part_by_name["raking"]
        assert level.board.frame.x[0] > 0  # counted from the left, so +a is right and +c is up
        assert raking.board.frame.x[1] > 0 or lean > 45.0
        run = math.tan(math.radians(lean))
        for upper, lower in zip(marks(level, 1), marks(level, -1), strict=True):
            assert upper - lower == pytest.approx(LEVEL_T * run, abs=1e-4)
        if raking.board.frame.x[1] > 0 and lean <= 45.0:  # counted from the foot: +c is the left face
            for left, right in zip(marks(raking, 1), marks(raking, -1), strict=True):
                assert right - left == pytest.approx(RAKING_T * run, abs=1e-4)


@pytest.mark.parametrize("front", ["level", "raking"])
def test_the_shift_is_there_in_the_solids_too(front):
    """7.5 off plumb: 27 tan 7.5 = 3.555 further right above, 24 tan 7.5 = 3.160 nearer the foot on the left."""
    piece = build(leaning_pair(7.5, front=front).job())
    level = corners(piece.part_by_name["level"])
    inner = level[(level[:, 0] > 200.0) & (level[:, 0] < 800.0)]
    upper, lower = (sorted(inner[abs(inner[:, 1] - y) < 1e-6][:, 0]) for y in (413.5, 386.5))
    assert upper[0] - lower[0] == pytest.approx(3.555, abs=1e-3)

    raking = piece.part_by_name["raking"]
    own = Solids(Keep()).mesh(raking)[0]
    inner = own[(own[:, 0] > 100.0) & (own[:, 0] < 700.0)]
    left, right = (sorted(inner[abs(inner[:, 1] - c) < 1e-6][:, 0]) for c in (12.0, -12.0))
    assert right[0] - left[0] == pytest.approx(3.160, abs=1e-3)
    # and the face at +c is the left one, seen from the room
    frame = raking.board.frame
    assert frame.place((400.0, 12.0, 0.0))[0] < frame.place((400.0, -12.0, 0.0))[0]


def test_the_slot_that_opens_to_the_front_is_open_towards_the_room():
    piece = build(leaning_pair(7.5, front="level").job())
    level = corners(piece.part_by_name["level"])
    inner = level[(level[:, 0] > 200.0) & (level[:, 0] < 800.0)]
    assert inner[:, 2].min() == pytest.approx(149.5)  # the seat; the wood behind it is at the wall
    assert inner[:, 2].max() == pytest.approx(300.0)
