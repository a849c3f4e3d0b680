"""Guides for the router on whole pieces: where the rails stand is held against the solids of the parts.

A wall's mark on a face is where the part's own surface changes from wood to air: found there by looking at its solid's
outline on that face, which the study does not do. Offsets, seats and beds by the shop file's figures.
"""

import math
from dataclasses import replace

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.looks import Desk
from dryfit.geometry.views import FACES, OPPOSITE
from dryfit.piece.facts import Opens
from dryfit.piece.model import Board
from dryfit.shop.model import Cutter, Drill, Router, Saw, Shop
from dryfit.studies.guides.rails import RAIL
from dryfit.studies.guides.result import Guides
from dryfit.studies.setups.result import SetUps
from tests.joints.typed import board, book_of, job

NEAR = 1e-6
SHOP = Shop(
    routers=(Router(name="large", offsets=(66.8, 68.1)),),
    cutters=(Cutter(name="long 12", diameter=11.9, length=70.0, shank=12.0, overall=140.0),),
)


def found(book):
    guides = book.found(Guides)
    assert guides is not None, book.left_out
    return guides


def crossed(lean=0.0, wide=300, thick="24"):
    """A level board crossed by one that leans so many degrees."""
    reach = 400 * math.tan(math.radians(lean))
    return job(
        board("level", ((0, 400), (1200, 400)), depth=wide, timber=thick),
        board("rake", ((600 - reach, 0), (600 + reach, 800)), depth=wide, timber=thick),
    )


@pytest.mark.parametrize("name", sorted(demos()))
def test_every_mark_is_where_the_part_has_its_wall(name):
    """And what is cut with a router across a face has a guide, or is told to have none."""
    book = build(read_job_text(demo_text(name)), SHOP)
    desk, guides = Desk(book), found(book)
    setups = {one.name: one for one in book.found(SetUps).all}
    routed = {name for name, one in setups.items() if one.tools}
    assert {one.setup for one in guides.all} | set(guides.without) == routed
    assert guides.all
    for guide in guides.all:
        assert {cut.key for cut in guide.cuts} == set(setups[guide.setup].cuts)
        for cut in guide.cuts:
            look = desk.looks[cut.board]
            face = FACES[cut.face < 0]
            for marks, surface in ((cut.near, cut.far), face), (cut.under, OPPOSITE[face]):
                if marks is not None:
                    assert sorted(marks) == pytest.approx(look.view(surface).trace(cut.key).marks, abs=0.01)


def test_a_straight_guide_by_the_shops_own_figures():
    """Offsets 66.8 and 68.1, slot 24.15: the rails stand 159.05 apart, the first one 66.8 from the datum wall."""
    (guide,) = found(build(read_job_text(crossed()), SHOP)).all
    assert guide.bed is None
    assert (guide.router, guide.cutter, guide.assumed) == ("large", "long 12", False)
    assert guide.opening == pytest.approx(guide.width + 134.9)
    assert guide.passes == 3  # 24.15 is more than twice 11.9
    assert guide.stick_out == pytest.approx(25.0)
    for cut in guide.cuts:
        assert cut.edge == pytest.approx(cut.near - 66.8)
        assert cut.under is None
        assert cut.far - cut.near == pytest.approx(guide.width)


@pytest.mark.parametrize("lean", [9.0, -9.0])
@pytest.mark.parametrize("front", ["level", "rake"])
def test_a_tilted_guide_leans_with_its_slot(lean, front):
    """Level, open to the front, crossed by one that leans right: its under mark lies left of the upper one (2.2).

    So its head leans RIGHT; each other way about turns it.
    """
    text = crossed(lean) + f'[[joint]]\nbetween = ["level", "rake"]\nfront = "{front}"\n'
    book = build(read_job_text(text), SHOP)
    guides, (opens,) = (
        found(book).all,
        [cut.figures.opens for part in book.piece.parts if part.id == "level" for cut in part.cuts if not cut.end],
    )
    side = "RIGHT" if (opens is Opens.FRONT) == (lean > 0) else "LEFT"
    assert {guide.bed.head for guide in guides} == {side}
    for guide in guides:
        assert guide.bed.near == pytest.approx(66.8 + 25)
        assert guide.bed.lean == pytest.approx(9.0)
        for cut in guide.cuts:
            away = cut.under[0] - cut.near
            assert abs(away) == pytest.approx(24 * math.tan(math.radians(9)), abs=1e-3)
            assert (away > 0) == cut.datum_side  # it leans away from the thin edge as it goes down
            assert abs(cut.near - cut.edge) == pytest.approx(guide.bed.marks[0])
            assert (cut.edge < cut.near) == cut.datum_side


@given(at=st.floats(40.0, 1160.0), lean=st.sampled_from([0.0, 9.0, -9.0]))
@settings(max_examples=25)
def test_a_guide_that_reaches_over_an_end_asks_for_an_offcut_there(at, lean):
    """By hand: from the thin edge, or the datum rail's far side, to the free rail's, against the ends of the board."""
    reach = 400 * math.tan(math.radians(lean))
    text = job(
        board("level", ((0, 400), (1200, 400))),
        board("rake", ((at - reach, 0), (at + reach, 800))),
    )
    book = build(read_job_text(text), SHOP)
    by_board = {part.id: part for part in book.piece.parts}
    for guide in found(book).all:
        for cut in guide.cuts:
            assert isinstance(by_board[cut.board].board, Board)
            if guide.bed is None:
                low, high = cut.near - 66.8 - RAIL, cut.far + 68.1 + RAIL
            else:
                far = cut.far + (guide.bed.beyond if cut.datum_side else -guide.bed.beyond)
                low, high = sorted((cut.edge, far))
            whole = by_board[cut.board].length
            assert cut.offcuts == tuple(end for end, over in ((-1, low < 0), (1, high > whole)) if over)


def test_a_sliding_dovetail_has_no_two_rails_and_that_is_told():
    text = job(
        board("side", ((12, 0), (12, 800))),
        board("shelf", ((12, 400), (800, 400))),
        '[[joint]]\nbetween = ["side", "shelf"]\nkind = "sliding dovetail"\n',
    )
    book = book_of(text)
    guides = found(book)
    assert guides.without
    assert any("guides for" in str(one.what) for one in book.not_checked if one.study == "guides")


@pytest.mark.parametrize("axis", [None, 33.75, 9.0])
def test_long_holes_are_bored_with_so_much_packing(axis):
    """Screws through the width run in the middle of the thickness: 24 / 2 = 12 over the face side."""
    text = job(
        board("shelf", ((0, 400), (1000, 400)), depth=150),
        "[wall]\nhung = true\nstuds = [200, 600]\n",
        '[[fixing]]\nboard = "shelf"\nkind = "long screw"\nscrew = "M6x120"\nat = [200, 600]\n',
    )
    drills = () if axis is None else (Drill(name="side drill", axis=axis),)
    rests = found(build(read_job_text(text), replace(SHOP, drills=drills))).rests
    assert rests
    for one in rests:
        assert one.up == pytest.approx(12.0)
        assert one.packing == (None if axis is None else pytest.approx(axis - 12.0))


@pytest.mark.parametrize("front", ["level", "rake"])
def test_rough_cuts_lie_inside_the_walls_on_both_faces(front):
    """A drift to the right of 1 over a cut 150 deep: 1.5 at its end. The saw goes in where the slot opens."""
    shop = replace(SHOP, saws=(Saw(name="track saw", kerf=1.8, drift=1.0),))
    text = crossed(9.0) + f'[[joint]]\nbetween = ["level", "rake"]\nfront = "{front}"\n'
    guides = found(build(read_job_text(text), shop))
    assert guides.blade == "track saw"
    assert guides.leaves == pytest.approx((1.0, 2.5), abs=0.01)
    for guide in guides.all:
        for cut in guide.cuts:
            low = max(min(cut.near, cut.far), min(cut.under))
            high = min(max(cut.near, cut.far), max(cut.under))
            first, last = cut.saw
            assert sorted((first - low, high - last)) == pytest.approx([1.0, 2.5], abs=0.01)
            if cut.board == "level":  # datum left, upper face up: its right wall is the farther one, from the front
                assert high - last == pytest.approx(2.5 if front == "level" else 1.0, abs=0.01)


def test_what_is_let_into_a_face_is_not_sawn():
    text = job(board("side", ((12, 0), (12, 800))), board("shelf", ((12, 400), (800, 400))))
    (guide,) = found(build(read_job_text(text), SHOP)).all
    assert all(cut.saw is None for cut in guide.cuts)


def test_a_cutter_wider_than_the_slot_by_a_hair_has_no_rails():
    """24.2 for 24.15: the base with it is wider than what lies between the rails, so that is told, not drawn."""
    (straight,) = found(build(read_job_text(crossed()), SHOP)).all
    wider = replace(SHOP, cutters=(replace(SHOP.cutters[0], diameter=straight.width + 0.04),))
    guides = found(build(read_job_text(crossed()), wider))
    assert guides.all == ()
    assert guides.without == (straight.setup,)
