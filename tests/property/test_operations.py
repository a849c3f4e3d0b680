"""Operations: every cut of every part is made by exactly one, or by one a bit, and none makes a cut that is not there.

Pieces are drawn at random: pairs of each kind, whole pieces, boards that hang from screws and stand over rails, boxes;
the demos and the manual's examples too.
"""

from collections import Counter

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book.building import piece_of
from dryfit.book.demos import demo_text, demos
from dryfit.book.reading import read_job_text
from dryfit.geometry.shapes import Bore
from dryfit.joints import KINDS
from dryfit.piece.building import build_piece
from dryfit.piece.kinds import Kinds, operations_of
from dryfit.piece.operations import tool_for
from dryfit.shop.model import Shop
from dryfit.shop.tools import Process, Tool
from tests.joints.kinds import PAIRS
from tests.property import held_pieces
from tests.strategies import pieces
from tools.examples import EXAMPLES

KIND_TABLE = Kinds(KINDS)
SCENES = (
    held_pieces.hung_by_screws,
    held_pieces.over_a_rail,
    held_pieces.mitred_box,
    held_pieces.board_on_ends,
    held_pieces.shelf_between,
    held_pieces.away_from_the_rest,
)


def bits(cut):
    """How many bits a cut wants: one for each diameter of its bores, one tool for anything else."""
    bores = [shape for shape in cut.shapes if isinstance(shape, Bore)]
    return len(bores[0].profile) - 1 if bores else 1


def holds_for(piece):
    """All that must hold of the operations of a piece."""
    operations = operations_of(piece, KINDS)
    made = Counter(key for one in operations for key in one.cuts)
    wanted = {cut.key: bits(cut) for part in piece.parts for cut in part.cuts if not cut.is_old}
    assert made == wanted
    assert all(one.ways for one in operations)
    in_order(operations)
    for one in operations:
        for way in one.ways:
            assert way.makes
            assert way.says
            assert len({dial for dial, _ in way.sets}) == len(way.sets), "a dial is set once"
            assert way.process is not Process.HAND or not way.needs, "a hand can do what it is asked"
    return operations


def in_order(operations):
    """Keys are unique, what comes first is there, and nothing waits for itself."""
    left = {one.key: set(one.after) for one in operations}
    assert len(left) == len(operations)
    assert all(after <= set(left) for after in left.values())
    while left:
        ready = [key for key, after in left.items() if not after & set(left)]
        assert ready, "operations wait for each other in a ring"
        for key in ready:
            del left[key]


@settings(max_examples=25)
@given(data=st.data())
@pytest.mark.parametrize("kind", sorted(PAIRS))
def test_each_cut_of_a_joint_is_made_once(kind, data):
    holds_for(build_piece(data.draw(PAIRS[kind]()).job(), KIND_TABLE, Shop()))


@settings(max_examples=25)
@given(drawing=pieces())
def test_each_cut_of_a_whole_piece_is_made_once(drawing):
    holds_for(build_piece(drawing.job, KIND_TABLE, Shop()))


@settings(max_examples=8)
@given(data=st.data())
@pytest.mark.parametrize("scene", SCENES, ids=lambda scene: scene.__name__)
def test_each_cut_of_a_piece_with_screws_and_notches_is_made_once(scene, data):
    drawn = data.draw(scene())
    for text in (drawn.sound, drawn.faulty):
        holds_for(piece_of(read_job_text(text)))


@pytest.mark.parametrize("name", demos())
def test_each_cut_of_a_demo_is_made_once_and_a_small_shop_can_make_it(name):
    operations = holds_for(piece_of(read_job_text(demo_text(name))))
    for one in operations:
        assert any(isinstance(tool_for(way, Shop()), Tool) for way in one.ways), one.key


@pytest.mark.parametrize("kind", sorted(EXAMPLES))
def test_each_cut_of_the_manual_s_examples_is_made_once(kind):
    for example in EXAMPLES[kind]:
        holds_for(piece_of(read_job_text(example.text)))
