"""Frames as a whole, and single sides of one: taken out, mirrored, copied.

The box is 600 by 400 outside, of boards 20 thick, so its centre-lines are 580 by 380; its corners are drawn
anticlockwise from (1200, 100). Its second side stands at the right, on the centre-line x = 1790.
"""

import math

import pytest

from tests.web.served import Window

BOX = """\
dryfit = 1

[timber.thin]
species = "oak, white"
thickness = 20

[[board]]
name = "shelf"
line = [[0, 500], [1000, 500]]
depth = 230

[[frame]]
name = "box"
points = [[1200, 100], [1800, 100], ["1800", 500], [1200, 500]]
depth = [200, 210, 220, 230]

[[joint]]
between = ["box 1", "box 2"]
strengthen = "none"

[[unit]]
name = "glued"
boards = ["box 1", "box 3"]
"""


@pytest.fixture
def box(job):
    job.write_text(BOX, encoding="utf-8")
    window = Window(job)
    yield window
    window.close()


def boards(window):
    return {spec.name: spec for spec in window.session.drawn.job.boards if spec.frame}


@pytest.mark.parametrize("side", [1, 2, 3, 4])
def test_one_side_is_taken_out_and_the_others_stay_where_they_were_under_their_names(box, side):
    before = boards(box)
    done = box.do(do="delete", boards=[f"box {side}"]).raise_for_status().json()
    assert not done["state"]["mistakes"]
    after = boards(box)
    assert set(after) == set(before) - {f"box {side}"}
    for name, spec in after.items():
        was = before[name]
        assert spec.depth == was.depth, "what was said of each side goes with it"
        run = math.dist(*was.line)
        for one, other in zip(spec.line, was.line, strict=True):
            # An open end reaches the outside corner: 10 past the centre-line of the side that is gone.
            assert math.dist(one, other) <= 10.001
            across = (one[0] - was.line[0][0]) * (was.line[1][1] - was.line[0][1])
            across -= (one[1] - was.line[0][1]) * (was.line[1][0] - was.line[0][0])
            assert abs(across) / run < 1e-6, "it still runs along its line"
    (frame,) = box.session.drawn.job.frames
    assert not frame.closed
    text = box.job.read_text(encoding="utf-8")
    assert ('between = ["box 1", "box 2"]' in text) == (side in (3, 4))
    assert f'"box {side}"' not in text


def test_two_sides_that_lie_together_leave_a_corner_and_three_leave_one_board(box):
    box.do(do="delete", boards=["box 1", "box 4"]).raise_for_status()
    assert list(boards(box)) == ["box 2", "box 3"]
    box.do(do="delete", boards=["box 3"]).raise_for_status()
    (last,) = boards(box).values()
    assert {x for x, _ in last.line} == {1790.0}, "it stands where it stood, though one line has no inside"


def test_sides_across_from_each_other_would_leave_two_pieces(box):
    before = box.job.read_text(encoding="utf-8")
    refused = box.do(do="delete", boards=["box 2", "box 4"])
    assert refused.status_code == 422
    error = refused.json()["error"]
    assert "two pieces" in error["says"]
    assert "next to each other" in error["remedy"]
    assert box.job.read_text(encoding="utf-8") == before


def test_the_end_of_an_open_frame_is_taken_off_and_its_middle_is_not(box):
    box.do(do="delete", boards=["box 4"]).raise_for_status()
    assert box.do(do="delete", boards=["box 2"]).status_code == 422
    box.do(do="delete", boards=["box 3"]).raise_for_status()
    assert 'points = [[1200, 100], [1800, 100], ["1800", 500]]' in box.job.read_text(encoding="utf-8")


def test_one_side_is_not_mirrored_in_place_and_it_is_said_what_is(box):
    refused = box.do(do="mirror", boards=["box 2"], x=1000)
    assert refused.status_code == 422
    error = refused.json()["error"]
    assert error["says"] == "box 2 is a side of box, and its corners are those of its neighbours too"
    assert error["remedy"] == "choose the whole frame box, or mirror it as a copy"
    box.do(do="mirror", boards=["box 2"], x=1000, keep=True).raise_for_status()
    copy = next(spec for spec in box.session.drawn.job.boards if spec.name == "box 2 copy")
    assert {round(x, 6) for x, _ in copy.line} == {210.0}, "2 * 1000 - 1790"


def test_a_whole_frame_is_mirrored_in_place_and_keeps_its_names_and_its_size(box):
    every = [f"box {side}" for side in (1, 2, 3, 4)]
    box.do(do="mirror", boards=every, x=1000).raise_for_status()
    after = boards(box)
    assert {round(x, 6) for x, _ in after["box 2"].line} == {210.0}
    assert math.dist(*after["box 1"].line) == pytest.approx(580), "its outside is the outside still"
    box.step("undo").raise_for_status()
    assert {round(x, 6) for x, _ in boards(box)["box 2"].line} == {1790.0}


def test_a_whole_frame_is_copied_as_a_frame(box):
    every = [f"box {side}" for side in (1, 2, 3, 4)]
    box.do(do="copy", boards=every, by=[0, 700]).raise_for_status()
    frames = {frame.name: frame for frame in box.session.drawn.job.frames}
    assert frames["box copy"].points == ((1200, 800), (1800, 800), (1800, 1200), (1200, 1200))
    assert [spec.depth for spec in boards(box).values() if spec.frame == "box copy"] == [200, 210, 220, 230]
