"""Places of boards in a line: boards of 24 stand plumb at 300 and 1200, so that 312 and 1188 are clear between them.

A leaning board goes from (1200, 0) to (1600, 1900): over 1900 it goes 400 aside, and at half its height its middle is
at 1400. Its faces lie 12 from that measured square to it, so 12 sqrt(1 + (400 / 1900)^2) = 12.2631 along the wall.
"""

import math

import pytest

from dryfit.book import read_job_text
from dryfit.errors import JobError
from dryfit.job import relations
from tests.job.placed import HEAD, INCHES, board, frame

ONE, TWO = board("upright 1", [(300, 0), (300, 1900)]), board("upright 2", [(1200, 0), (1200, 1900)])
RAKER = board("raker", [(1200, 0), (1600, 1900)])
LEVEL = board("shelf", [(0, 600), (2600, 600)])
SLOPE = board("slope", [(0, 300), (1000, 500)])
OFF = 12 * math.hypot(400, 1900) / 1900


def lines(text):
    return {spec.name: spec.line for spec in read_job_text(text, "wall.toml").boards}


def mistakes(*boards):
    with pytest.raises(JobError) as caught:
        read_job_text("".join((HEAD, *boards)), "wall.toml")
    return [str(mistake) for mistake in caught.value.mistakes]


PLACES = [
    ("""'right("upright 1")'""", 0, 312),
    ("""'left("upright 2")'""", 0, 1188),
    ("""'middle("upright 2")'""", 0, 1200),
    ("""'start("upright 2")'""", 1, 0),
    ("""'end("upright 2")'""", 1, 1900),
    ("""'top("shelf")'""", 1, 612),
    ("""'under("shelf") - 100'""", 1, 488),
    ("""'end("shelf")'""", 0, 2600),
    ("""'left("raker")'""", 0, 1400 - OFF),
    ("""'right("raker")'""", 0, 1400 + OFF),
    ("""'middle("raker")'""", 0, 1400),
    ("""'between(right("upright 1"), left("upright 2"), 1/3)'""", 0, 312 + 876 / 3),
    ("""'between(middle("upright 1"), middle("upright 2"), 2)'""", 0, 2100),
    ("""'between(0, width, 1/2) + thickness("shelf")'""", 0, 1324),
    ('''"right('upright 1') + 1 in"''', 0, 337.4),
    ('''"right(\\"upright 1\\")"''', 0, 312),
]


@pytest.mark.parametrize(("text", "axis", "comes_to"), PLACES, ids=[case[0] for case in PLACES])
def test_a_place_is_of_the_face_where_the_point_meets_it(text, axis, comes_to):
    start = (text, 950) if axis == 0 else (50, text)
    found = lines("".join((HEAD, board("new", [start, (3000, 3000)]), ONE, TWO, RAKER, LEVEL)))
    assert found["new"][0][axis] == pytest.approx(comes_to, abs=1e-9)


def test_what_is_measured_and_sanded_is_the_face():
    """Measured 23.6 and sanded by 0.3 a face, 23 are left."""
    head = HEAD.replace('thickness = "t"', 'thickness = "t"\nmeasured = 23.6') + "\n[finish]\nsanded = 0.3\n"
    assert lines(f"{head}{ONE}" + board("new", [("""'right("upright 1")'""", 5), (900, 5)]))["new"][0][0] == 311.5


@pytest.mark.parametrize(("face", "left", "right"), [("left face", 300, 324), ("right face", 276, 300)])
def test_a_line_along_a_face_says_which_side_the_board_is_on(face, left, right):
    stands = board("upright 1", [(300, 0), (300, 1900)], f'line_is = "{face}"')
    new = board("new", [("""'left("upright 1")'""", 5), ("""'right("upright 1")'""", 50)])
    assert lines(f"{HEAD}{stands}{new}")["new"] == ((left, 5), (right, 50))


def test_a_board_lying_flat_has_its_edges_for_faces():
    rail = board("rail", [(0, 500), (900, 500)], 'lies = "flat"\nwidth = 90').replace("depth = 12\n", "")
    line = [("""'width("rail")'""", """'top("rail")'"""), (900, """'under("rail")'""")]
    assert lines(f"{HEAD}{rail}{board('new', line)}")["new"] == ((90, 545), (900, 455))


def test_a_board_that_tapers_is_met_where_it_is_as_thick_as_there():
    """20 at its foot and 30 at 1000 up: at 500 it is 25 thick, above 1000 it stays 30."""
    stands = board("post", [(300, 0), (300, 1900)], "thickness_at = [[0, 20], [1000, 30]]")
    new = board("new", [("""'right("post")'""", 500), ("""'right("post")'""", 1500)])
    assert lines(f"{HEAD}{stands}{new}")["new"] == ((312.5, 500), (315, 1500))


def test_a_side_of_a_frame_is_a_board_like_others():
    box = frame("box", [(0, 0), (800, 0), (800, 400), (0, 400)])
    line = [("""'right("box 4")'""", """'top("box 1")'"""), ("""'left("box 2")'""", 24)]
    assert lines(f"{HEAD}{box}{board('new', line)}")["new"] == ((24, 24), (776, 24))


def test_a_frame_s_corners_may_be_places():
    points = [("""'right("upright 1")'""", 0), ("""'left("upright 2")'""", 0), ("""'left("upright 2")'""", 400)]
    job = read_job_text("".join((HEAD, frame("wedge", points), ONE, TWO)))
    assert job.frames[0].points == ((312, 0), (1188, 0), (1188, 400))


def test_within_a_row_a_board_of_another_row_is_named_by_its_number():
    posts = board("post {i}", [('"500 * i"', 0), ('"500 * i"', 900)], "count = 3")
    rails = board("rail {i}", [("""'right("post {i}")'""", 300), ("""'right("post {i}") + 100'""", 300)], "count = 3")
    found = lines(f"{HEAD}{rails}{posts}")
    assert [found[f"rail {i}"][0][0] for i in (1, 2, 3)] == [512, 1012, 1512]


def test_in_a_job_in_inches_bare_numbers_beside_a_place_are_inches():
    new = board("new", [("""'right("post") + 1'""", 5), (90, 5)])
    found = lines(f"{INCHES}{board('post', [(10, 0), (10, 40)])}{new}")
    assert found["new"][0][0] == pytest.approx((10 + 15 / 32 + 1) * 25.4, abs=1e-9)


def test_a_shelf_may_end_flush_with_the_upright_that_stands_on_it():
    """Each hangs on the other, but along the wall only the shelf, and up only the upright: no circle."""
    shelf = board("shelf", [("""'left("post")'""", 600), (1000, 600)])
    post = board("post", [(300, """'top("shelf")'"""), (300, 1900)])
    assert lines(f"{HEAD}{shelf}{post}") == {"shelf": ((288, 600), (1000, 600)), "post": ((300, 612), (300, 1900))}


def test_a_point_may_lie_where_two_leaning_faces_meet():
    found = lines(
        "".join((HEAD, board("new", [("""'left("raker")'""", """'top("slope")'"""), (0, 2000)]), RAKER, SLOPE))
    )
    x, y = found["new"][0]
    assert x == pytest.approx(1200 + y * 400 / 1900 - OFF, abs=1e-9)
    assert y == pytest.approx(300 + x / 5 + 12 * math.hypot(1, 5) / 5, abs=1e-9)


def test_names_of_measures_stay_free():
    head = HEAD.replace("width = 2600", 'width = 2600\nleft = 40\nbetween = 70\nend = "left + 1"')
    new = board("new", [('"left + between"', 0), ('"end"', 90)])
    assert lines(f"{head}{ONE}{new}")["new"] == ((110, 0), (41, 90))


WRONG = [
    ("""'left("uprigth 1")'""", 0, 'there is no board called "uprigth 1"', 'did you mean "upright 1"?'),
    ("""'left("post {i}")'""", 0, '"post {i}" is a row of boards, not one', 'such as "post 1"'),
    ("""'left("post")'""", 0, '"post" is a row of boards, not one', 'such as "post 1", or "post {i}" within a row'),
    ("""'left("box")'""", 0, '"box" is a frame, not a board', 'such as "box 1"'),
    ("""'left("nothing {i}")'""", 0, '"nothing {i}" is no row of boards', "use {i} within a row only"),
    ("""'left("shelf")'""", 0, '"shelf" is level or nearly so, and has no left face', 'write top("shelf") or under'),
    ("""'middle("shelf")'""", 0, "has no middle along the wall", 'start("shelf") or end("shelf") for an end'),
    ("""'top("upright 1")'""", 1, '"upright 1" is plumb or nearly so, and has no upper face', 'left("upright 1")'),
    ("""'top("shelf")'""", 0, "top is a height, and a place along the wall stands here", 'left("shelf") or right'),
    ("""'left("upright 1")'""", 1, "left is a place along the wall, and a height stands here", 'top("upright 1")'),
    ("""'width("shelf")'""", 0, '"shelf" does not lie flat', 'write thickness("shelf")'),
    ('"left(upright 1)"', 0, "left needs the name of a board in quotes", 'left("NAME")'),
    ('"left + 3"', 0, 'there is no measure "left"', 'write left("NAME")'),
    ('"between(1, 2)"', 0, "between is given 2", "two places and a share"),
]


@pytest.mark.parametrize(("text", "axis", "says", "remedy"), WRONG, ids=[case[0] for case in WRONG])
def test_what_is_wrong_with_a_place_is_told_with_its_line_and_what_would_be_right(text, axis, says, remedy):
    start = (text, 950) if axis == 0 else (50, text)
    box = frame("box", [(0, 0), (800, 0), (800, 400), (0, 400)])
    posts = board("post {i}", [('"500 * i"', 0), ('"500 * i"', 900)], "count = 3")
    (told,) = mistakes(board("new", [start, (3000, 3000)]), ONE, LEVEL, box, posts)
    assert told.startswith("wall.toml:13: ")
    assert says in told
    assert remedy in told


@pytest.mark.parametrize("key", ["depth", "measures", "studs"])
def test_a_place_stands_in_lines_and_points_only(key):
    text = f"{HEAD}{ONE}"
    where = {"depth": ("depth = 12", "depth = "), "measures": ("width = 2600", "width = ")}.get(key, ("", ""))
    place = """'left("upright 1")'"""
    text = f"{text}\n[wall]\nstuds = [{place}]\n" if key == "studs" else text.replace(where[0], where[1] + place)
    with pytest.raises(JobError) as caught:
        read_job_text(text)
    assert 'left("upright 1") stands where no place of a board can' in str(caught.value)


def test_a_circle_names_every_line_of_it():
    """Both lean, so that each needs all of the other."""
    one = board("one", [("""'left("two")'""", 600), (1000, 700)])
    two = board("two", [(300, """'top("one")'"""), (400, 1900)])
    (told,) = mistakes(one, two)
    assert told == (
        'wall.toml:13: places go round in a circle: "one" (wall.toml:13) needs "two" (wall.toml:18) needs "one" '
        """('left("two")'); give one of them a figure"""
    )


def test_a_board_placed_by_itself_is_told_so_but_one_end_may_be_placed_by_the_other():
    (told,) = mistakes(board("one", [(0, """'middle("one")'"""), (900, 600)]))
    assert '"one" is placed by itself' in told
    assert lines(HEAD + board("one", [(0, 600), (900, """'start("one")'""")]))["one"] == ((0, 600), (900, 600))


def test_a_board_that_cannot_be_read_is_no_second_mistake_for_those_that_name_it():
    broken = board("post", [(300, 0), ('"nowhere"', 900)])
    (told,) = mistakes(broken, board("new", [("""'left("post")'""", 5), (900, 5)]))
    assert 'there is no measure "nowhere"' in told


@pytest.mark.parametrize("count", [200, 400, 800])
def test_boards_that_hang_on_one_another_in_a_long_chain_are_each_looked_at_twice(count, monkeypatch):
    """Written last first, so that each needs the next: however many there are, none is looked at more than that."""
    asked = []
    value = relations.Relations._value
    monkeypatch.setattr(relations.Relations, "_value", lambda self, *of: asked.append(of) or value(self, *of))
    chain = "".join(
        board(f"u {k}", [(f"""'right("u {k - 1}") + 20'""", 0), (f"""'right("u {k - 1}") + 20'""", 900)])
        for k in range(count, 0, -1)
    )
    found = lines(HEAD + chain + board("u 0", [(0, 0), (0, 900)]))
    assert found[f"u {count}"][0][0] == 32 * count
    assert len(asked) <= 2 * 2 * count + 2 * count
