"""Places of boards held against plain trigonometry, and what follows a change of thickness.

Boards are drawn at random, leaning any way, of any thickness, in mm and in inches. What a place must be is worked out
here from the angle of the line alone: a face lies half a thickness square to it, so half a thickness over the sine of
its angle along a level, and over the cosine along a plumb line. Nothing of the set-out or of the reader is used for
that; that the set-out puts the corners of the solid board on the same face is asked beside it.
"""

import math
import tomllib

from hypothesis import assume, given, settings
from hypothesis import strategies as st

from dryfit.book import change_job_text, read_job_text
from dryfit.piece.setout import set_out
from dryfit.places import Edit
from tests.job.placed import HEAD, INCHES, board

MM = {"mm": 1.0, "in": 25.4}
TENTHS = st.integers(-20000, 20000).map(lambda tenths: tenths / 10)
SIXTEENTHS = st.integers(-1200, 1200).map(lambda parts: parts / 16)
WORDS = {"left": 0, "right": 0, "top": 1, "under": 1}
SIGN = {"left": -1, "right": 1, "top": 1, "under": -1}


@st.composite
def boards(draw):
    """Units, a line in them, thickness in them, and which face the line is."""
    units = draw(st.sampled_from(["mm", "in"]))
    numbers = TENTHS if units == "mm" else SIXTEENTHS
    line = ((draw(numbers), draw(numbers)), (draw(numbers), draw(numbers)))
    assume(math.dist(*line) > 100 / MM[units])
    thickness = draw(st.integers(6, 60)) if units == "mm" else draw(st.integers(4, 40)) / 16
    return units, line, thickness, draw(st.sampled_from(["centre", "left face", "right face"]))


def text_of(units, line, thickness, line_is="centre"):
    head = HEAD if units == "mm" else INCHES
    head = "".join(f"t = {thickness}\n" if row.startswith("t =") else row for row in head.splitlines(keepends=True))
    return head + board("old", line, f'line_is = "{line_is}"')


def expected(word, line, thickness, line_is, at):
    """Where a face is, by the sine and cosine of the line's angle."""
    (x0, y0), (x1, y1) = line
    angle = math.atan2(y1 - y0, x1 - x0)
    sine, cosine = math.sin(angle), math.cos(angle)
    # the centre-line lies half a thickness square to a line that is a face: to the right of a left face
    off = {"centre": 0.0, "left face": 0.5, "right face": -0.5}[line_is] * thickness
    x0, y0 = x0 + sine * off, y0 - cosine * off
    if WORDS[word] == 0:
        return x0 + (at - y0) * cosine / sine + SIGN[word] * thickness / 2 / abs(sine)
    return y0 + (at - x0) * sine / cosine + SIGN[word] * thickness / 2 / abs(cosine)


def has(word, line):
    """Whether a board has such a face: it runs 15 degrees or more off the way that has none."""
    (x0, y0), (x1, y1) = line
    run, size = abs(y1 - y0) if WORDS[word] == 0 else abs(x1 - x0), math.dist(*line)
    assume(abs(run / size - math.sin(math.radians(15))) > 1e-9)
    return run / size > math.sin(math.radians(15))


@given(drawn=boards(), word=st.sampled_from(sorted(WORDS)), tenths=st.integers(-9000, 9000))
def test_a_place_is_where_trigonometry_has_the_face(drawn, word, tenths):
    units, line, thickness, line_is = drawn
    assume(has(word, line))
    at = tenths / 10 if units == "mm" else tenths / 250
    place = f"""'{word}("old")'"""
    start = (place, at) if WORDS[word] == 0 else (at, place)
    wanted = expected(word, line, thickness, line_is, at) * MM[units]
    assume(abs(wanted) < 90_000)
    job = read_job_text(text_of(units, line, thickness, line_is) + board("new", [start, (3333, 3333)]))
    new = next(spec for spec in job.boards if spec.name == "new")
    assert abs(new.line[0][WORDS[word]] - wanted) < 1e-6


@given(drawn=boards(), word=st.sampled_from(sorted(WORDS)), end=st.sampled_from([0, 1]))
def test_the_solid_s_corners_lie_on_the_face_that_is_named(drawn, word, end):
    """At the height (or place along) of a corner of the board as it is set out, the place is that corner's."""
    units, line, thickness, line_is = drawn
    assume(has(word, line))
    text = text_of(units, line, thickness, line_is)
    job = read_job_text(text)
    solid, axis = set_out(job.boards[0], job), WORDS[word]
    a = 0.0 if end == 0 else solid.length
    corners = [solid.frame.place((a, side * solid.thickest / 2, 0.0))[:2] for side in (-1, 1)]
    corner = max(corners, key=lambda point: SIGN[word] * point[axis])
    other = corner[1 - axis] / MM[units]
    place = f"""'{word}("old")'"""
    start = (place, other) if axis == 0 else (other, place)
    assume(abs(corner[axis]) < 90_000 and abs(other) < 3000)
    new = read_job_text(text + board("new", [start, (3333, 3333)])).boards[1]
    assert abs(new.line[0][axis] - corner[axis]) < 1e-6


# --- a thickness is changed


@st.composite
def pieces(draw):
    """Uprights, some leaning, and shelves whose ends hang on some of their faces or stand by themselves."""
    uprights = draw(st.integers(2, 4))
    parts, ends = [], {}
    for number in range(uprights):
        lean = draw(st.sampled_from([0, 0, 40, -150]))
        thick = draw(st.sampled_from(["oak", "beech"]))
        line = [(500 * number, 0), (500 * number + lean, 1800)]
        parts.append(board(f"upright {number}", line, f'timber = "{thick}"'))
    for number in range(draw(st.integers(1, 4))):
        height = draw(st.integers(100, 1700))
        line = []
        for end in (0, 1):
            upright = draw(st.integers(0, uprights - 1))
            word = draw(st.sampled_from(["left", "right", "middle", ""]))
            ends[f"shelf {number}", end] = (upright, word)
            line.append((f"""'{word}("upright {upright}")'""" if word else 3000 + 100 * end + upright, height))
        assume(ends[f"shelf {number}", 0] != ends[f"shelf {number}", 1])
        parts.append(board(f"shelf {number}", line, 'timber = "beech"'))
    order = draw(st.permutations(parts))
    return "".join(order), ends


def with_two_timbers(text, oak, beech):
    head = HEAD.replace("[timber.oak]", "[timber.beech]").replace('thickness = "t"', f"thickness = {beech}")
    return f'{head}\n[timber.oak]\nspecies = "oak, white"\nthickness = {oak}\n{text}'


@given(piece=pieces(), oak=st.integers(12, 60), other=st.integers(12, 60))
def test_a_change_of_thickness_moves_what_is_related_by_half_of_it_and_nothing_else(piece, oak, other):
    text, ends = piece
    before = {spec.name: spec for spec in read_job_text(with_two_timbers(text, oak, 20)).boards}
    after = {spec.name: spec for spec in read_job_text(with_two_timbers(text, other, 20)).boards}
    for name, spec in before.items():
        for end in (0, 1):
            upright, word = ends.get((name, end), (0, ""))
            (x, y), (now_x, now_y) = spec.line[end], after[name].line[end]
            related = word in ("left", "right") and before[f"upright {upright}"].timber == "oak"
            if not related:
                assert (x, y) == (now_x, now_y)
                continue
            (x0, y0), (x1, y1) = before[f"upright {upright}"].line
            share = math.hypot(x1 - x0, y1 - y0) / abs(y1 - y0)
            assert now_y == y
            assert abs(now_x - x - SIGN[word] * (other - oak) / 2 * share) < 1e-9


# --- a board is called anew


NEW = st.text(
    st.characters(codec="utf-8", exclude_characters="\"'\\", exclude_categories=["C", "Z"]), min_size=1, max_size=12
)


@settings(max_examples=60)
@given(piece=pieces(), new=NEW, which=st.integers(0, 100))
def test_a_name_there_and_back_leaves_the_text_to_the_letter_and_the_lines_where_they_were(piece, new, which):
    text = with_two_timbers(piece[0], 24, 20)
    job = read_job_text(text)
    spec = job.boards[which % len(job.boards)]
    assume(new.casefold() not in ("wall", "floor") and all(new != other.name for other in job.boards))
    path = (*spec.path, "name")
    there, named = change_job_text(text, [Edit(action="rename", path=path, value=new)])
    assert named is not None
    assert f'("{spec.name}")' not in there
    assert [one.line for one in named.boards] == [one.line for one in job.boards]
    back, _ = change_job_text(there, [Edit(action="rename", path=path, value=spec.name)])
    assert back == text


def test_rows_and_frames_called_anew_are_so_in_every_text_however_it_is_written():
    row = board("post {i}", [('"500 * i"', 0), ('"500 * i"', 900)], "count = 2")
    inside = board("rail {i}", [("""'right("post {i}")'""", 300), ("3000", 300)], "count = 2")
    text = HEAD + row + inside + board("new", [('''"left('post 1') + 1"''', 5), ('"right(\\"post 2\\")"', 50)])
    there, _ = change_job_text(text, [Edit(action="rename", path=("board", 0, "name"), value="leg")])
    lines = [table["line"] for table in tomllib.loads(there)["board"][1:]]
    assert [line[0][0] for line in lines] == ['right("leg {i}")', "left('leg 1') + 1"]
    assert lines[1][1][0] == 'right("leg 2")'
    back, _ = change_job_text(there, [Edit(action="rename", path=("board", 0, "name"), value="post {i}")])
    assert back == text
