"""What a hand does is undone by the opposite: moved there and back, copied and the copy taken out, mirrored twice.

Pieces are drawn here as texts, two to five boards of 18 with ends spelled in every way that a job file knows, some with
a joint of their own, some named in the finish. After the opposite the text is the first to the letter, or, where a
figure was worked out anew, the piece is. What a mirrored board must cover is told by its four corners: those of the
old one on the other side of the plumb line, from the line, the face it is and the thickness alone.
"""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book import change_job_text, read_job_text
from dryfit.editing import requests
from dryfit.editing.doing import compose
from dryfit.editing.drawn import Draughtsman
from dryfit.errors import JobError
from dryfit.piece.setout import NOTHING_MADE

THICK = 18.0
NAMES = ("shelf", "left side", "top", "rail 2", "divider")
HEAD = """\
dryfit = 1

[measures]
wide = 800  # between the walls

[timber.oak]
species = "oak, white"
thickness = 18
"""
SPELLED = st.one_of(
    st.integers(-900, 2400).map(str),
    st.integers(-9000, 24000).map(lambda tenths: str(tenths / 10)),
    st.sampled_from(['"wide"', '"wide + 40"', '"wide / 2"', '"2 * (wide - 30)"', '"410 mm"', '"wide - 12.5"']),
)
TENTHS = st.integers(-4000, 4000).map(lambda tenths: tenths / 10)


@st.composite
def pieces(draw):
    """Names with the text of each board; pairs that have a joint of their own; names that are finished beforehand."""
    names = draw(st.lists(st.sampled_from(NAMES), min_size=2, max_size=5, unique=True))
    boards = {}
    for name in names:
        x0, y0, x1, y1 = (draw(SPELLED) for _ in range(4))
        face = draw(st.sampled_from(["", "left face", "right face"]))
        boards[name] = (
            f'[[board]]\nname = "{name}"\nline = [[{x0}, {y0}], [{x1}, {y1}]]\ndepth = {draw(st.integers(60, 400))}\n'
        )
        boards[name] += f'line_is = "{face}"  # as it is measured\n' if face else ""
    pairs = draw(st.sets(st.sampled_from([(one, other) for one in names for other in names if one < other])))
    return boards, sorted(pairs), draw(st.lists(st.sampled_from(names), unique=True))


def written(boards, pairs, coated, without=""):
    """The whole text, as if one of the boards had never been there."""
    coated = [name for name in coated if name != without]
    parts = [HEAD, *(text for name, text in boards.items() if name != without)]
    parts += [f'[[joint]]\nbetween = ["{a}", "{b}"]\nclearance = 0.3\n' for a, b in pairs if without not in (a, b)]
    if coated:
        parts.append(f"[finish]\nbefore_assembly = [{', '.join(map(quoted, coated))}]\n")
    return "\n".join(parts)


def quoted(name):
    return f'"{name}"'


def drawable(drawn):
    """Whether every board has a length; one of none is a mistake of the text."""
    try:
        return all(math.dist(*spec.line) > 100 for spec in read_job_text(written(*drawn)).boards)
    except JobError:
        return False


def done(text, doing):
    """The text after it."""
    composed = compose(Draughtsman("piece.toml", None, NOTHING_MADE).draw(text), text, doing)
    return change_job_text(text, composed.edits)[0]


def corners(spec):
    """The four corners that a board's line, its face and its thickness give, in no order."""
    (x0, y0), (x1, y1) = spec.line
    long = math.dist((x0, y0), (x1, y1))
    nx, ny = -(y1 - y0) / long, (x1 - x0) / long  # to the left of the line
    inner, outer = {"centre": (-0.5, 0.5), "left face": (-1, 0), "right face": (0, 1)}[spec.line_is]
    return sorted((x + nx * side * THICK, y + ny * side * THICK) for x, y in spec.line for side in (inner, outer))


def alike(found, meant):
    return all(
        a == pytest.approx(b, abs=0.011)
        for one, other in zip(found, meant, strict=True)
        for a, b in zip(one, other, strict=True)
    )


def whole(text):
    return re.sub(r"(\d)\.0\b", r"\1", text)


PIECES = pieces().filter(drawable)


@settings(max_examples=25)
@given(PIECES, st.data())
def test_moved_there_and_back_the_text_is_the_first_to_the_letter(drawn, data):
    """Boards whole, or one end of one of them; a whole number may come back with the tenths it was given: -43.0."""
    text = written(*drawn)
    boards = data.draw(st.lists(st.sampled_from(list(drawn[0])), min_size=1, unique=True))
    end = data.draw(st.sampled_from([None, "start", "end"]))
    target = requests.BoardTarget(what="boards", boards=boards)
    if end is not None:
        boards = boards[:1]
        target = requests.EndTarget(what="end", board=boards[0], end=end)
    dx, dy = data.draw(
        st.one_of(st.tuples(TENTHS, TENTHS), st.tuples(TENTHS, st.just(0)), st.tuples(st.just(0), TENTHS))
    )

    there = done(text, requests.DragSent(do="drag", target=target, by=(dx, dy)))
    for name, was, now in zip(drawn[0], read_job_text(text).boards, read_job_text(there).boards, strict=True):
        moves = [name in boards and end in (None, which) for which in ("start", "end")]
        assert alike(now.line, [(x + dx * go, y + dy * go) for (x, y), go in zip(was.line, moves, strict=True)])
    assert whole(done(there, requests.DragSent(do="drag", target=target, by=(-dx, -dy)))) == whole(text)


@settings(max_examples=25)
@given(PIECES, st.data())
def test_copies_lie_where_they_were_meant_and_taken_out_again_leave_the_text_as_it_was(drawn, data):
    text = written(*drawn)
    boards = data.draw(st.lists(st.sampled_from(list(drawn[0])), min_size=1, unique=True))
    by = data.draw(st.tuples(TENTHS, TENTHS))

    more = done(text, requests.CopySent(do="copy", boards=boards, by=by))
    before, after = read_job_text(text), read_job_text(more)
    there = len(before.boards)
    assert after.boards[:there] == before.boards
    copies = after.boards[there:]
    assert len({spec.name for spec in after.boards}) == there + len(boards)
    for name, copy in zip(boards, copies, strict=True):
        (was,) = (spec for spec in before.boards if spec.name == name)
        assert alike(corners(copy), [(x + by[0], y + by[1]) for x, y in corners(was)])
        assert (copy.depth, copy.timber, copy.line_is) == (was.depth, was.timber, was.line_is)
    assert done(more, requests.DeleteSent(do="delete", boards=[copy.name for copy in copies])) == text


@settings(max_examples=25)
@given(PIECES, TENTHS, st.data())
def test_a_mirrored_board_has_the_old_one_s_corners_on_the_other_side_and_mirrored_again_its_own(drawn, x, data):
    text = written(*drawn)
    boards = data.draw(st.lists(st.sampled_from(list(drawn[0])), min_size=1, unique=True))
    sent = requests.MirrorSent(do="mirror", boards=boards, x=x, keep=False)

    over = done(text, sent)
    again = done(over, sent)
    for was, now, last in zip(*(read_job_text(one).boards for one in (text, over, again)), strict=True):
        meant = sorted((2 * x - a, b) for a, b in corners(was)) if was.name in boards else corners(was)
        assert alike(corners(now), meant)
        assert alike(corners(last), corners(was))
        assert (was.name, was.line_is) == (last.name, last.line_is)
        assert was.name == now.name


@settings(max_examples=25)
@given(PIECES, st.data())
def test_a_board_taken_out_leaves_the_job_that_never_had_it(drawn, data):
    gone = data.draw(st.sampled_from(list(drawn[0])))

    left = read_job_text(done(written(*drawn), requests.DeleteSent(do="delete", boards=[gone])))
    meant = read_job_text(written(*drawn, without=gone))

    assert left.boards == meant.boards
    assert [spec.between for spec in left.joint_specs] == [spec.between for spec in meant.joint_specs]
    assert left.finish == meant.finish
