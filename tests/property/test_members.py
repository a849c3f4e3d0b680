"""A divided board is its whole, cut through: nothing of it is lost, and nothing of it moves.

Long boards are drawn at random (`long_boards`) and built twice, in stock that is too short and in stock of any
length. A board of 3000 in stock of 2000 comes as two members whose blanks go into 2000 each; set end to end
they fill what the whole filled, slots and all, but for the holes of their dowels; and every joint stands where it
stood, under the same pair. Where nobody asks for another kind they are half-lapped if the stock has room for that, so
that each runs half a lap past the place; else they are butted.
"""

import math
from collections import Counter
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import assume, given, note, settings

from dryfit.book.building import Kept
from dryfit.geometry.shapes import Bore
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.building import build_piece
from dryfit.piece.clash import clashes
from dryfit.piece.kinds import Kinds
from dryfit.piece.members import ABOUT
from dryfit.piece.solids import Solids
from dryfit.shop.model import Shop
from tests.fewer import counted
from tests.property.closed_forms import bored
from tests.property.long_boards import LONG, long_boards

SHARE_DIVIDED = 0.9
OF_ITSELF = 1e-6


def build(job, keep=None):
    return build_piece(job, Kinds(KINDS), Shop(), keep=keep)


def divided(drawn):
    """The piece with its long board divided; pieces without a sound place for it are not checked."""
    piece = build(drawn.divided)
    assume(piece.whole)
    return piece


def members(piece):
    """The long board's members, from its datum end."""
    return [part for part in piece.parts if piece.whole.get(part.id) == LONG]


def told(piece, key):
    """A joint's key in the names of wholes; joints between members of one board have none."""
    one, other = (piece.whole.get(name, name) for name in key)
    return None if one == other else frozenset((one, other))


def test_half_of_the_divided_long_boards_are_lapped_and_some_are_butted():
    tally = Counter()

    @counted(100)
    @given(drawn=long_boards())
    def each(drawn):
        piece = build(drawn.divided)
        tally.update(joint.kind for joint in piece.joints if joint.meeting.form == "in line")

    each()
    assert tally["splice"] >= 0.5 * sum(tally.values()), tally
    assert tally["butt"] >= 3, tally


def test_nine_in_ten_long_boards_are_divided():
    tally = Counter()

    @counted(150)
    @given(drawn=long_boards())
    def each(drawn):
        whole = build(drawn.whole).part_by_name[LONG]
        if whole.blank.length > drawn.longest:
            piece = build(drawn.divided)
            tally[len(members(piece))] += 1
            assert bool(piece.whole) != any(finding.code == "no-place-to-divide" for finding in piece.findings)
        else:
            assert not build(drawn.divided).whole

    each()
    assert sum(tally.values()) >= 90, tally
    assert tally[0] <= (1 - SHARE_DIVIDED) * sum(tally.values()), tally
    assert len([count for count in tally if count > 1]) >= 2, tally


@settings(max_examples=150)
@given(drawn=long_boards())
def test_every_members_blank_comes_out_of_its_stock(drawn):
    piece = divided(drawn)
    note(f"{[part.blank.length for part in members(piece)]} of {drawn.longest}")
    assert all(part.blank.length <= drawn.longest + 1e-6 for part in members(piece))
    found = {finding.code for finding in piece.findings if finding.severity == "stop"}
    before = {finding.code for finding in build(drawn.whole).findings if finding.severity == "stop"}
    assert found - before <= {"tips"}, "a place by rule is never too near a joint or a fixing"
    assert not [finding for finding in piece.findings if finding.code == "weak-place-to-divide"]


@settings(max_examples=150)
@given(drawn=long_boards())
def test_every_member_has_a_joint_or_a_fixing_of_its_own(drawn):
    piece = divided(drawn)
    held = {
        side.body
        for joint in piece.joints
        if told(piece, joint.key) is not None
        for side in (joint.meeting.a, joint.meeting.b)
    }
    assert {part.id for part in members(piece)} <= held


@settings(max_examples=150)
@given(drawn=long_boards())
def test_no_division_lies_in_a_middle_third_or_within_twice_the_thickness_of_a_joint(drawn):
    """Bays are counted from middle to middle of what the whole board meets."""
    assume(not drawn.job.fixings)
    piece, whole = divided(drawn), build(drawn.whole)
    met = sorted(joint.meeting.side(LONG).at for joint in whole.joints if LONG in joint.key)
    thickest = whole.board_by_name[LONG].thickest
    place = 0.0
    for part in members(piece)[:-1]:
        place += part.board.length
        before, after = max(at for at in met if at < place), min(at for at in met if at > place)
        off = min(place - before, after - place)
        assert off <= (after - before) / 3 + 1e-6
        assert off > 2 * thickest


@settings(max_examples=150)
@given(drawn=long_boards())
def test_members_add_up_to_the_whole_and_stand_where_it_stood(drawn):
    piece = divided(drawn)
    whole, own = build(drawn.whole).part_by_name[LONG], members(piece)
    assert sum(part.board.length for part in own) == pytest.approx(whole.board.length, rel=1e-9)
    laps = sum(cut.figures.across for part in own for cut in part.cuts if cut.word == "half lap") / 2  # one on either
    assert sum(part.length for part in own) == pytest.approx(whole.length + laps, abs=1e-5)
    assert own[0].long[0] == pytest.approx(whole.long[0], abs=1e-5)
    reached = 0.0
    for part in own:
        place = whole.board.frame.find(part.board.frame.origin)
        assert place == pytest.approx((reached, 0.0, 0.0), abs=1e-5)
        assert part.board.frame.x == pytest.approx(whole.board.frame.x, abs=1e-9)
        assert (part.board.face_side, part.board.flipped) == (whole.board.face_side, whole.board.flipped)
        for share in (0.0, 0.3, 1.0):
            there = reached + share * part.board.length
            mine = part.board.thickness_at(share * part.board.length)
            assert mine == pytest.approx(whole.board.thickness_at(there), abs=1e-5)
        reached += part.board.length


@settings(max_examples=100)
@given(drawn=long_boards())
def test_the_members_solids_fill_what_the_whole_ones_filled(drawn):
    piece, solids = divided(drawn), Solids(Keep())
    whole = solids.placed(build(drawn.whole).part_by_name[LONG])
    parts = [solids.placed(part) for part in members(piece)]
    volume = whole.volume() - _drilled_in_line(piece)
    assert sum(part.volume() for part in parts) == pytest.approx(volume, rel=OF_ITSELF)
    assert sum((part ^ whole).volume() for part in parts) == pytest.approx(volume, rel=OF_ITSELF)
    for one, other in pairwise(parts):
        assert (one ^ other).volume() <= OF_ITSELF * volume
    joined = frozenset(joint.key for joint in piece.joints)
    assert clashes(piece.parts, solids, joined, Keep()) == ()


def _drilled_in_line(piece):
    """Volume of the dowels' holes in the ends of members, one straight step each."""
    return sum(
        bored(((shape.profile[0][1], shape.profile[-1][0]),))
        for joint in piece.joints
        if joint.meeting.form == "in line"
        for cut in joint.cuts
        for shape in cut.shapes
        if isinstance(shape, Bore)
    )


@settings(max_examples=150)
@given(drawn=long_boards())
def test_every_joint_stands_where_it_stood_in_the_same_pair_and_the_same_hand(drawn):
    piece, whole = divided(drawn), build(drawn.whole)
    joints = {told(piece, joint.key): joint for joint in piece.joints if told(piece, joint.key)}
    fixed = {key for key in joints if "wall" in key}
    before = {frozenset(joint.key): joint for joint in whole.joints}
    assert joints.keys() - fixed == {key for key in before if "wall" not in key}
    for key in joints.keys() - fixed:
        one, other = joints[key], before[key]
        assert math.dist(one.meeting.frame.origin, other.meeting.frame.origin) < 1e-5
        assert (one.kind, one.meeting.form) == (other.kind, other.meeting.form)
        assert piece.whole.get(one.making.front, one.making.front) == other.making.front
        assert sum(len(cut.shapes) for cut in one.cuts) == sum(len(cut.shapes) for cut in other.cuts)
    bored = sorted(place for joint in piece.joints for place in _bored(piece, joint))
    assert bored == pytest.approx(sorted(place for joint in whole.joints for place in _bored(whole, joint)), abs=1e-5)


def _bored(piece, joint):
    """Where a fixing goes to the wall, along x and y."""
    if joint.meeting.form == "fixing":
        for place in joint.meeting.places:
            yield from piece.board_by_name[joint.meeting.a.body].frame.place((place, 0.0, 0.0))[:2]


@settings(max_examples=100)
@given(drawn=long_boards())
def test_dividing_one_board_leaves_the_others_as_they_were(drawn):
    piece, whole = divided(drawn), build(drawn.whole)
    others = [part.id for part in piece.parts if part.id not in piece.whole]
    assert others == [part.id for part in whole.parts if part.id != LONG]
    solids = Solids(Keep())
    for name in others:
        mine, theirs = piece.part_by_name[name], whole.part_by_name[name]
        assert mine.blank == theirs.blank
        assert solids.volume(mine) == pytest.approx(solids.volume(theirs), rel=OF_ITSELF)


@settings(max_examples=150)
@given(drawn=long_boards())
def test_the_line_typed_from_its_other_end_gives_the_same_members_to_the_last_bit(drawn):
    one, other = build(drawn.divided), build(drawn.reversed())
    assert told_apart(one) == told_apart(other)
    assert repr(told_apart(one)) == repr(told_apart(other))


def told_apart(piece):
    """All of a piece but for which way its lines were drawn, and where the file would keep the places."""
    unflipped = {part.id: replace(part.board, flipped=False) for part in piece.parts}
    meetings = [replace(meeting, places=(), studs_off=()) for meeting in piece.meetings]
    return {
        "parts": [replace(part, board=unflipped[part.id], cuts=_cuts(part)) for part in piece.parts],
        "meetings": meetings,
        "joints": [joint.key for joint in piece.joints],
        "decisions": [replace(one, keep=None if one.about == ABOUT else one.keep) for one in piece.decisions],
        "findings": [replace(found, cures=()) for found in piece.findings],
    }


def _cuts(part):
    """A fixing's holes in the order of the board: the file's order turns with the line."""
    return tuple(replace(cut, shapes=tuple(sorted(cut.shapes, key=repr))) for cut in part.cuts)


@settings(max_examples=40)
@given(drawn=long_boards(), other=long_boards())
def test_built_on_what_was_kept_it_is_the_same_as_built_cold(drawn, other):
    """Longer stock, shorter stock, another piece and back."""
    bench = Kept()
    for job in (drawn.divided, drawn.whole, other.divided, drawn.reversed(), drawn.divided):
        warm, cold = build(job, bench.keep), build(job)
        assert (warm, repr(warm)) == (cold, repr(cold))
