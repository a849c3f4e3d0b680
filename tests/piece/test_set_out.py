"""Setting out: where a board is counted from, which face is the face side, how thick it is, how it ends.

Figures checkable in the head: a 24 board 9 degrees off plumb has its corners 12 sin 9 = 1.877 above and below
the end of its centre-line; 2 coats of 0.04 are 0.08 a face; 0.1 sanded off each of two faces is 0.2.
"""

import math

import pytest

from dryfit.job.model import Finish, Wall
from dryfit.piece.model import DATUM_END, FAR_END
from dryfit.piece.setout import Made, Pin

from .making import built, corners_at, job_of, placed, plank

DIAGONAL = 1000 * math.sqrt(0.5)


def leaning(degrees, length=1000.0):
    """The head of a board that stands at the origin, `degrees` off plumb to the right."""
    return (length * math.sin(math.radians(degrees)), length * math.cos(math.radians(degrees)))


LINES = {
    "level": ((0, 5), (100, 5), (0, 5)),
    "plumb": ((7, 0), (7, 100), (7, 0)),
    "rising at 45 to the last bit": ((0, 0), (DIAGONAL, DIAGONAL), (0, 0)),
    "falling at 45": ((0, 100), (100, 0), (0, 100)),
    "falling, flatter than 45": ((0, 99), (100, 0), (0, 99)),
    "falling, steeper than 45": ((0, 101), (100, 0), (100, 0)),
    "rising, steeper than 45": ((0, 0), (100, 101), (0, 0)),
}


@pytest.mark.parametrize(("start", "end", "datum"), LINES.values(), ids=LINES)
@pytest.mark.parametrize("backwards", [False, True], ids=["as given", "drawn the other way"])
def test_the_datum_end_is_the_left_end_and_the_lower_one_beyond_45(start, end, datum, backwards):
    board = placed(plank("b", *((end, start) if backwards else (start, end))))

    assert board.frame.origin[:2] == pytest.approx(datum)
    assert board.flipped == (backwards != (datum == end))


@pytest.mark.parametrize(("start", "end", "datum"), LINES.values(), ids=LINES)
def test_a_board_drawn_the_other_way_is_the_same_board_but_for_the_flag(start, end, datum):
    one, other = placed(plank("b", start, end)), placed(plank("b", end, start))

    assert one.flipped != other.flipped
    assert (one.frame, one.length, one.face_side, one.ends) == (other.frame, other.length, other.face_side, other.ends)


FACES = {
    "level: the upper face": (plank("b", (0, 0), (100, 0)), (0, 1)),
    "drawn from the right: still the upper face": (plank("b", (100, 0), (0, 0)), (0, 1)),
    "falling to the right: the upper face": (plank("b", (0, 50), (100, 0)), (0.447, 0.894)),
    "exactly 45: the upper face": (plank("b", (0, 0), (100, 100)), (-0.707, 0.707)),
    "plumb: the left face": (plank("b", (0, 0), (0, 100)), (-1, 0)),
    "plumb drawn downwards: the left face": (plank("b", (0, 100), (0, 0)), (-1, 0)),
    "0.9 off plumb to the right: the left face": (plank("b", (0, 0), leaning(0.9)), (-1, 0.016)),
    "0.9 off plumb to the left: the left face, though it is the lower": (
        plank("b", (0, 0), leaning(-0.9)),
        (-1, -0.016),
    ),
    "1.1 off plumb to the left: the upper face": (plank("b", (0, 0), leaning(-1.1)), (1, 0.019)),
    "9 off plumb to the left: the upper face": (plank("b", (0, 0), leaning(-9)), (0.988, 0.156)),
    "the floor of a frame: its inside": (plank("b", (0, 0), (100, 0), inside=1), (0, 1)),
    "the top of a frame, drawn back: its inside": (plank("b", (100, 50), (0, 50), inside=1), (0, -1)),
    "a frame drawn clockwise: its inside": (plank("b", (0, 50), (100, 50), inside=-1), (0, -1)),
    "the right side of a frame: its inside": (plank("b", (100, 0), (100, 50), inside=1), (-1, 0)),
}


@pytest.mark.parametrize(("spec", "towards"), FACES.values(), ids=FACES)
def test_the_face_side_looks(spec, towards):
    board = placed(spec)

    x, y, z = board.frame.direct((0.0, float(board.face_side), 0.0))

    assert (x, y) == pytest.approx(towards, abs=1e-3)
    assert z == 0.0


def test_a_board_lying_flat_shows_its_face_side_to_the_room_and_its_lower_edge_is_its_wall_edge():
    board = placed(plank("rail", (0, 500), (900, 500), depth=90, lies="flat", back=3))

    assert board.frame.direct((0.0, float(board.face_side), 0.0)) == (0.0, 0.0, 1.0)
    assert board.frame.place((0.0, 0.0, 0.0)) == (0.0, 455.0, 15.0)
    assert (board.back, board.front) == (3.0, 27.0)


@pytest.mark.parametrize(
    ("face", "line", "y"),
    [
        ("left face", ((0, 600), (900, 600)), 588),
        ("right face", ((0, 600), (900, 600)), 612),
        ("left face", ((900, 600), (0, 600)), 612),
        ("right face", ((900, 600), (0, 600)), 588),
    ],
    ids=["left, to the right", "right, to the right", "left, to the left", "right, to the left"],
)
def test_the_line_may_be_a_face_left_and_right_seen_along_it(face, line, y):
    board = placed(plank("shelf", *line, line_is=face))

    assert board.frame.origin == (0.0, y, 0.0)
    assert board.frame.place((0.0, board.line_c, 0.0))[1] == 600.0


@pytest.mark.parametrize(
    ("line_is", "low"),
    [("centre", 455.0), ("left face", 410.0), ("right face", 500.0)],
    ids=["half on either side", "its upper edge", "its lower edge"],
)
@pytest.mark.parametrize("turned", [False, True], ids=["to the right", "to the left, left and right the other way"])
def test_the_line_of_a_flat_board_is_its_middle_unless_the_job_says_an_edge(line_is, low, turned):
    line = ((900, 500), (0, 500)) if turned else ((0, 500), (900, 500))
    other = {"left face": "right face", "right face": "left face"}
    face = other.get(line_is, line_is) if turned else line_is
    board = placed(plank("rail", *line, depth=90, lies="flat", line_is=face))

    assert board.frame.place((0.0, 0.0, 0.0))[1] == low
    assert board.frame.place((0.0, 0.0, 90.0))[1] == low + 90


@pytest.mark.parametrize("face", ["centre", "left face", "right face"])
def test_a_board_stands_on_the_floor_where_its_line_does_whichever_face_the_line_is(face):
    piece = built(job_of(plank("leaning", (650, 0), (650 + 300, 1900), line_is=face)))

    assert [y for _, y, _ in corners_at(piece.part_by_name["leaning"], DATUM_END)] == pytest.approx([0, 0], abs=2e-6)


def test_a_square_end_on_the_floor_would_dig_in_by_half_the_thickness_times_the_sine():
    foot = plank("leaning", (0, 0), leaning(9), ends=("square", None))

    heights = [y for _, y, _ in corners_at(built(job_of(foot)).part_by_name["leaning"], DATUM_END)]

    assert min(heights) == pytest.approx(-12 * math.sin(math.radians(9)), abs=1e-6)


ROOM = Wall(left=0.0, right=2000.0, ceiling=1000.0)
RISING = ((0, 500), (2000, 900))
ENDS = {
    "on the floor": (((0, 0), leaning(9)), Wall(), (None, None), ("level", "square")),
    "0.9 above the floor": (((0, 0.9), leaning(9)), Wall(), (None, None), ("level", "square")),
    "1.1 above the floor": (((0, 1.1), leaning(9)), Wall(), (None, None), ("square", "square")),
    "hung on the wall": (((0, 0), leaning(9)), Wall(hung=True), (None, None), ("square", "square")),
    "below the floor": (((0, -400), leaning(9)), Wall(), (None, None), ("square", "square")),
    "to the ceiling": (((0, 0), (158, 1000)), ROOM, (None, None), ("level", "level")),
    "from wall to wall": (RISING, ROOM, (None, None), ("plumb", "plumb")),
    "drawn downwards": (((158, 1000), (100, 0)), Wall(), (None, None), ("level", "square")),
    "as asked": (((0, 0), leaning(30)), Wall(), ("square", "plumb"), ("square", "plumb")),
    "as asked, drawn downwards": ((leaning(30), (0, 0)), Wall(), ("plumb", None), ("level", "plumb")),
    "too flat for the floor": (((0, 0), (1000, 200)), Wall(), (None, None), ("square", "square")),
}


@pytest.mark.parametrize(("line", "wall", "ends", "form"), ENDS.values(), ids=ENDS)
def test_a_free_end_is_cut_as_what_it_stands_to(line, wall, ends, form):
    assert placed(plank("b", *line, ends=ends), wall=wall).ends == form


def test_plumb_ends_fit_between_two_walls():
    piece = built(job_of(plank("b", *RISING), wall=ROOM))
    part = piece.part_by_name["b"]

    assert [x for x, _, _ in corners_at(part, DATUM_END)] == pytest.approx([0, 0], abs=2e-6)
    assert [x for x, _, _ in corners_at(part, FAR_END)] == pytest.approx([2000, 2000], abs=2e-6)


PLACES = ((0.0, 23.8), (1200.0, 24.1))
THICK = {
    "as ordered": ({}, {}, NotImplemented, 24.0),
    "measured in the shop": ({}, {"measured": 23.7}, NotImplemented, 23.7),
    "measured along it": ({"thickness_at": PLACES}, {"measured": 23.7}, NotImplemented, 23.95),
    "measured when it was made": ({"thickness_at": PLACES}, {"measured": 23.7}, ((0.0, 24.4),), 24.4),
}


@pytest.mark.parametrize(("own", "job", "made", "thickness"), THICK.values(), ids=THICK)
def test_one_thickness_wins(own, job, made, thickness):
    facts = {} if made is NotImplemented else {"b": made}

    board = placed(plank("b", (0, 0), (2000, 0), **own), Made(pins={}, thickness=facts, fronts={}), **job)

    assert board.thickness_at(600.0) == pytest.approx(thickness)


@pytest.mark.parametrize("backwards", [False, True], ids=["as given", "drawn the other way"])
def test_between_measured_places_thickness_is_straight_and_beyond_them_constant(backwards):
    line = ((2000, 0), (0, 0)) if backwards else ((0, 0), (2000, 0))
    board = placed(plank("b", *line, thickness_at=((300.0, 23.0), (1300.0, 25.0))))
    at = {a: board.thickness_at(2000 - a if backwards else a) for a in (0, 300, 800, 1300, 2000)}

    assert at == pytest.approx({0: 23, 300: 23, 800: 24, 1300: 25, 2000: 25})
    assert board.thickest == 25.0


def test_sanding_comes_off_both_faces_after_measuring():
    board = placed(plank("b", (0, 0), (2000, 0)), measured=23.8, finish=Finish(sanded=0.1))

    assert board.thickness_at(0.0) == pytest.approx(23.6)


def test_a_pinned_board_keeps_its_datum_and_its_face_when_it_is_dragged_past_45_and_past_plumb():
    made = Made(pins={"b": Pin(datum="start", face_side="left", mark="R1")}, thickness={}, fronts={})
    boards = [placed(plank("b", (0, 0), leaning(rake)), made) for rake in (30.0, 9.0, 0.0, -9.0, -30.0)]

    assert {board.frame.origin for board in boards} == {(0.0, 0.0, 0.0)}
    assert {board.face_side for board in boards} == {1}
    assert {board.flipped for board in boards} == {False}


def test_an_end_may_be_pinned_as_the_datum():
    made = Made(pins={"b": Pin(datum="end", face_side="right")}, thickness={}, fronts={})

    board = placed(plank("b", (0, 0), (900, 0)), made)

    assert board.frame.origin[:2] == (900.0, 0.0)
    assert board.frame.direct((0.0, float(board.face_side), 0.0)) == (0.0, -1.0, 0.0)


def test_scribe_and_ends_follow_the_line_as_drawn():
    board = placed(plank("b", (900, 0), (0, 0), scribe=(15.0, 0.0), ends=("plumb", None)))

    assert board.scribe == (0.0, 15.0)
    assert board.ends == ("square", "plumb")
