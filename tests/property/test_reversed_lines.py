"""A line drawn from its other end is the same board: nothing on any sheet changes, to the last bit.

What is counted along the drawn line is turned with it: the face it is drawn on, thicknesses measured along
it, its ends, what is left to scribe. Only `Board.flipped` may tell, which leads back to the file.
"""

from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.building import build_piece
from dryfit.piece.clash import clashes
from dryfit.piece.kinds import Kinds
from dryfit.piece.solids import Solids
from dryfit.shop.model import Shop
from tests.joints.kinds import PAIRS
from tests.strategies import drawn_the_other_way, pieces


def build(job):
    return build_piece(job, Kinds(KINDS), Shop())


def told_apart(piece):
    """All that is worked out of a piece, but for which way its lines were drawn."""
    boards = tuple(replace(board, flipped=False) for board in piece.boards)
    parts = tuple(replace(part, board=board) for part, board in zip(piece.parts, boards, strict=True))
    return {
        "boards": boards,
        "meetings": piece.meetings,
        "joints": piece.joints,
        "parts": parts,
        "decisions": piece.decisions,
        "findings": [by_own_end(piece, one) for one in piece.findings],
    }


def by_own_end(piece, finding):
    """With cures that name an end as the board has it: which one of the drawn line that is leads back to the file."""
    flipped = {board.path: board.flipped for board in piece.boards}

    def turned(edit):
        *table, line, end, axis = edit.path if len(edit.path) > 2 else (None, None, None)
        if line != "line" or not flipped.get(tuple(table)):
            return edit
        return replace(edit, path=(*table, line, 1 - end, axis))

    cures = (replace(cure, edits=tuple(map(turned, cure.edits))) for cure in finding.cures)
    return replace(finding, cures=tuple(cures))


def with_reversed(job, which):
    boards = [drawn_the_other_way(spec) if turn else spec for spec, turn in zip(job.boards, which, strict=True)]
    return replace(job, boards=tuple(boards))


def assert_the_same(job, other):
    one, two = told_apart(build(job)), told_apart(build(other))
    for what, value in one.items():
        assert two[what] == value, what
        assert repr(two[what]) == repr(value), f"{what} differ in a sign of nought or a last bit"


@pytest.mark.parametrize("kind", PAIRS)
def test_any_line_of_a_pair_may_be_drawn_the_other_way(kind):
    @settings(max_examples=150)
    @given(pair=PAIRS[kind](), which=st.sampled_from([(True, False), (False, True), (True, True)]))
    def each(pair, which):
        job = pair.job()
        assert_the_same(job, with_reversed(job, which))

    each()


@settings(max_examples=80)
@given(drawing=pieces(), data=st.data())
def test_any_lines_of_a_whole_piece_may_be_drawn_the_other_way(drawing, data):
    job = drawing.job
    which = data.draw(st.lists(st.booleans(), min_size=len(job.boards), max_size=len(job.boards)))
    assert_the_same(job, with_reversed(job, which))


@settings(max_examples=25)
@given(drawing=pieces())
def test_solids_and_clashes_are_those_of_the_lines_as_drawn_before(drawing):
    seen = []
    for job in (drawing.job, with_reversed(drawing.job, [True] * len(drawing.job.boards))):
        piece, keep = build(job), Keep()
        solids = Solids(keep)
        volumes = [solids.volume(part) for part in piece.parts]
        seen.append((volumes, clashes(piece.parts, solids, frozenset(), keep)))
    assert seen[0] == seen[1]


@pytest.mark.parametrize("heading", [0, 45, 90, 135, 180, 225, 270, 315], ids=lambda heading: f"at {heading}")
def test_the_datum_end_is_the_left_one_or_the_lower_one_of_a_steep_board(heading):
    """Geometry notes, section 1: the left end; the lower end for boards steeper than 45."""
    import math

    from tests.strategies import Bar, Pair

    bars = [Bar(name=name, thickness=24.0, depth=300.0, back=0.0, before=300.0, after=300.0) for name in "ab"]
    pair = Pair(
        kind="cross halving", one=bars[0], other=bars[1], place=(0.0, 0.0), heading=heading, angle=60.0, options={}
    )
    for board in build(pair.job()).boards:
        steep = abs(board.frame.x[1]) > abs(board.frame.x[0]) + 1e-9
        assert (board.frame.x[1] if steep else board.frame.x[0]) > 0
        assert math.dist(board.frame.origin[:2], (0.0, 0.0)) == pytest.approx(300.0)
