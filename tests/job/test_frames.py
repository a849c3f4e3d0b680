"""Frames by example: a box 900 x 500 outside, 24 thick, has centre-lines 876 x 476, 12 inside its faces.

With the lower side 40 thick and the others 24, its centre-line stands 20 up and the sides' lines end on it.
"""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.errors import JobError
from tests.job.samples import read, small

CORNERS = [(0, 0), (900, 0), (900, 500), (0, 500)]


def frame(points=CORNERS, more=""):
    listed = ", ".join(f"[{x!r}, {y!r}]" for x, y in points)
    return f'[[frame]]\nname = "box"\npoints = [{listed}]\ndepth = 300\n{more}\n'


def lines(text, **more):
    return [board.line for board in read(small(text, **more)).boards]


def flat(found):
    return [value for line in found for point in line for value in point]


def test_a_box_set_out_by_its_outside_has_its_centre_lines_half_a_thickness_in():
    assert lines(frame()) == [
        ((12, 12), (888, 12)), ((888, 12), (888, 488)), ((888, 488), (12, 488)), ((12, 488), (12, 12)),
    ]  # fmt: skip


def test_drawn_the_other_way_round_it_is_the_same_box_with_its_inside_on_the_right():
    job = read(small(frame(CORNERS[::-1])))

    assert {frozenset(board.line) for board in job.boards} == {frozenset(line) for line in lines(frame())}
    assert {board.inside for board in job.boards} == {-1}


def test_set_out_by_its_inside_the_centre_lines_lie_outside():
    assert lines(frame(more='size = "inside"'))[0] == ((-12, -12), (912, -12))


def test_set_out_by_its_centre_the_points_are_the_corners():
    assert lines(frame(more='size = "centre"'))[0] == ((0, 0), (900, 0))


THICK = '[timber.thick]\nspecies = "oak"\nthickness = 40\n'


def test_sides_of_different_thickness_are_set_out_by_their_own_faces():
    found = lines(frame(more='timber = ["thick", "oak", "oak", "oak"]'), head=THICK)

    assert found[0] == ((12, 20), (888, 20))
    assert found[1] == ((888, 20), (888, 488))


def test_the_measured_thickness_less_what_is_sanded_sets_the_faces():
    head = "measured = 23.8\n[finish]\nsanded = 0.2"

    assert flat(lines(frame(), head=head))[:4] == pytest.approx([11.7, 11.7, 888.3, 11.7])


def test_an_open_frame_ends_square_across_from_its_points():
    found = lines(frame(CORNERS[:3], "closed = false"))

    assert found == [((0, 12), (888, 12)), ((888, 12), (888, 500))]


def test_a_side_s_depth_back_and_name_may_differ():
    more = 'depth = [300, 280, 300, 280]\nback = [0, 20, 0, 20]\nnames = ["bottom", "right", "top", "left"]'
    job = read(small(frame(more=more).replace("depth = 300\n", "")))

    assert [(board.name, board.depth, board.back) for board in job.boards] == [
        ("bottom", 300, 0), ("right", 280, 20), ("top", 300, 0), ("left", 280, 20),
    ]  # fmt: skip
    assert job.frames[0].boards == ("bottom", "right", "top", "left")


def test_two_sides_in_one_line_meet_at_their_point():
    found = lines(frame([(0, 0), (400, 0), (900, 0), (900, 500), (0, 500)]))

    assert found[0][1] == found[1][0] == (400, 12)


@given(st.integers(3, 9), st.floats(100, 1000), st.floats(0, 360), st.sampled_from(["outside", "inside"]))
def test_every_centre_line_of_a_regular_frame_lies_half_a_thickness_from_its_face(sides, radius, turn, size):
    angles = [math.radians(turn + 360 * k / sides) for k in range(sides)]
    points = [(round(radius * math.cos(a), 6), round(radius * math.sin(a), 6)) for a in angles]
    found = lines(frame(points, f'size = "{size}"'))
    apothem = radius * math.cos(math.pi / sides) + (-12 if size == "outside" else 12)

    for (x0, y0), (x1, y1) in found:
        from_middle = abs(x0 * y1 - x1 * y0) / math.dist((x0, y0), (x1, y1))
        assert from_middle == pytest.approx(apothem, abs=1e-4)


WRONG = [
    (frame(CORNERS[:2]), "points", "needs 3 points or more", "closed = false"),
    (frame([(0, 0), (900, 0), (400, 0)]), "points", "no inside", "centre"),
    (frame([(0, 0), (900, 500), (900, 0), (0, 500)]), "points", "sides of the frame cross", "in order round"),
    (frame([(0, 0), (0, 0), (900, 500), (0, 500)]), 1, "at the same place", "take one out"),
    (frame([(0, 0), (30, 0), (30, 20), (0, 20)]), "points", "nothing is left", "larger"),
    (frame(more='names = ["a", "b"]'), "names", "4 sides and 2 names", "4 names"),
    (frame(more='timber = ["oak", "oak", "oak"]'), "timber", "4 sides and 3 values", "1 or 4"),
    (frame(more='size = "centre"\ntimber = ["thick", "oak", "oak", "oak"]'), "size", "differ in thickness", "outside"),
    (frame([(0, 0), (400, 0), (900, 0), (900, 500), (0, 500)],
           'timber = ["thick", "oak", "oak", "oak", "oak"]'), 1, "in one line", "one timber"),
]  # fmt: skip


@pytest.mark.parametrize(("text", "place", "says", "remedy"), WRONG, ids=[case[2] for case in WRONG])
def test_a_frame_that_cannot_be_set_out_is_refused(text, place, says, remedy):
    with pytest.raises(JobError) as caught:
        read(
            small(text, head=THICK).replace(
                'name = "box"', 'name = "box"' if "timber" in text else 'name = "box"\ntimber = "oak"'
            )
        )
    (mistake,) = caught.value.mistakes

    assert mistake.path[-1] == place
    assert says in mistake.says
    assert remedy in mistake.remedy
