"""Tools held against what a way of working asks: reach, tilt, width, depth; and what is lacking.

Worked by hand. A board 24 thick takes a slot 24.15 wide that leans 9 degrees; the guide's bed is 12 thick, the base's
nearer offset 66.80, so the cutter's near side is 66.80 + 25 = 91.80 from the bed's thin edge:

    below the bed     24.15 tan 9 + 24 / cos 9 + 1 = 3.825 + 24.299 + 1     = 29.124
    under the base    12 + 91.80 tan 9                                      = 26.540
    together                                                                = 55.664

A cutter that reaches 52.70 wants to be 52.70 + 12 (base to collet) + 22 (two thirds of a shank of 33) = 86.70 long.
"""

import math
from dataclasses import replace

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.piece.operations import let_in_reach, through_reach
from dryfit.piece.sums import Sum
from dryfit.shop import tools
from dryfit.shop.model import COMMON, Bit, Cutter, Drill, Groover, Router, Saw, Shop
from dryfit.shop.tools import Ability, Lack, Need, Process, Tool, reach, tool_for_needs
from tests.documents import samples

ROUTER = Router(name="r", offsets=(66.80, 68.10))
LONG = Cutter(name="straight 16", diameter=15.90, length=53.7, shank=12.0, overall=86.7)


def need(ability, least=0.0, most=math.inf):
    return Need(ability=ability, least=least, most=most)


def found(process, *needs, **owned):
    return tool_for_needs(process, needs, Shop(**owned))


# ---- how far a cutter reaches


def test_a_cutter_reaches_by_its_length_less_the_collet_s_grip_and_the_nose():
    """Plane geometry: 86.70 - 12 - 2/3 x (86.7 - 53.7) = 52.70. Two thirds of the shank: common practice."""
    assert reach(ROUTER, LONG) == pytest.approx(52.70)


def test_a_router_s_own_reach_and_a_measured_stick_out_come_first():
    assert reach(Router(name="r", reach=40.0), LONG) == 40.0
    assert reach(ROUTER, Cutter(name="c", diameter=12, length=30, overall=90, stick_out=48.0)) == 48.0


def test_of_a_cutter_whose_length_is_not_said_no_more_is_claimed_than_its_edge():
    assert reach(ROUTER, Cutter(name="c", diameter=12, length=50)) == 50.0


# ---- what a slot asks: plane geometry, the sums above


def leaning(lean, wide, deep=8.0):
    cut = samples.slot("b", "other", 500.0, lean, -1.0, 165.5, "wall edge")
    return replace(cut, figures=replace(cut.figures, width=Sum.alone(wide), depth=Sum.alone(deep)))


@pytest.mark.parametrize(
    ("thick", "lean", "wide", "bed", "aside", "whole"),
    [(27.0, 7.5, 24.46, 12.0, 87.77, 55.01), (24.0, 9.0, 24.15, 9.0, 92.0, 52.70)],
)
def test_the_reach_of_a_tilted_guide_is_what_the_triangle_says(thick, lean, wide, bed, aside, whole):
    """Bed + (n + w) tan rho + t / cos rho + 1, seen along the slot: two boards, summed by hand."""
    below_bed = through_reach(leaning(lean, wide), thick)

    assert bed + aside * math.tan(math.radians(lean)) + below_bed == pytest.approx(whole, abs=0.006)


def test_the_reach_of_a_raked_housing_is_taken_on_its_centre_line():
    """B + (n + w/2) tan rho + h / cos rho: 9 + (92 + 12.075) tan 9 + 8 / cos 9 = 33.58."""
    asked = let_in_reach(leaning(9.0, 24.15))

    assert 9.0 + 92.0 * math.tan(math.radians(9.0)) + asked == pytest.approx(33.58, abs=0.006)


def test_the_bed_and_the_base_take_their_share_of_the_reach():
    tilted = need(Ability.LEAN, 9.0)
    enough, short = need(Ability.REACH, 52.70 - 26.54), need(Ability.REACH, 52.70 - 26.54 + 0.2)

    assert isinstance(found(Process.ROUTER, tilted, enough, routers=(ROUTER,), cutters=(LONG,)), Tool)
    lack = found(Process.ROUTER, tilted, short, routers=(ROUTER,), cutters=(LONG,))
    assert isinstance(lack, Lack)
    assert lack.need == short
    assert lack.best == pytest.approx(52.70 - 26.54, abs=0.001)


@given(lean=st.floats(0.1, 40.0), more=st.floats(0.1, 30.0))
def test_a_steeper_guide_never_reaches_further(lean, more):
    (tool,) = (one for one in tools.tools_of(Shop(routers=(ROUTER,), cutters=(LONG,))) if one.process is Process.ROUTER)

    _, near = tool.limits(Ability.REACH, lean)
    _, far = tool.limits(Ability.REACH, lean + more)
    assert far < near < reach(ROUTER, LONG)


# ---- which tool


def test_the_widest_cutter_that_goes_between_the_walls_is_taken():
    tool = found(Process.ROUTER, need(Ability.CUTTER, most=12.15))

    assert str(tool.name) == "plunge router with straight 12"
    assert tool.assumed


def test_of_a_sort_that_is_listed_these_are_all():
    only = Cutter(name="straight 20", diameter=20.0, length=30.0)
    lack = found(Process.ROUTER, need(Ability.CUTTER, most=12.0), cutters=(only,))

    assert (lack.need.ability, lack.best) == (Ability.CUTTER, 20.0)
    assert isinstance(found(Process.SAW, need(Ability.LEAN, 30.0), cutters=(only,)), Tool), "saws are still assumed"


def test_a_dovetail_cutter_cuts_no_straight_wall_and_a_straight_one_no_slope():
    dovetail = Cutter(name="d", diameter=12.7, length=14.0, shape="dovetail", slope=14.0)
    straight = Cutter(name="s", diameter=12.0, length=14.0)
    sloped = need(Ability.SLOPE, 14.0, 14.0)

    assert str(found(Process.ROUTER, sloped, cutters=(straight, dovetail)).name).endswith("with d")
    assert str(found(Process.ROUTER, need(Ability.CUTTER, most=20.0), cutters=(dovetail, straight)).name).endswith("s")
    assert found(Process.ROUTER, sloped, cutters=(straight,)).best == 0.0
    unsaid = Cutter(name="d", diameter=12.7, shape="dovetail")
    assert isinstance(found(Process.ROUTER, sloped, cutters=(unsaid,)), Lack)
    assert isinstance(found(Process.ROUTER, cutters=(unsaid,)), Lack)


def test_a_shank_must_fit_the_collet():
    held = {"routers": (Router(name="small", collets=(8.0,)),), "cutters": (LONG,)}

    assert isinstance(found(Process.ROUTER, need(Ability.CUTTER, most=20.0), **held), Lack)


def test_an_edge_need_not_be_as_long_as_the_slot_is_deep_where_the_shank_is_thinner():
    """Half a millimetre thinner, so that it goes down in the slot behind its edge: common practice."""
    deep = need(Ability.EDGE, 40.0)
    slim = Cutter(name="c", diameter=12.5, length=20, shank=12.0, stick_out=50.0)
    thick = Cutter(name="c", diameter=12.0, length=20, shank=12.0, stick_out=50.0)

    assert isinstance(found(Process.ROUTER, deep, cutters=(slim,)), Tool)
    assert found(Process.ROUTER, deep, cutters=(thick,)).best == 20.0


def test_a_long_bit_is_as_long_as_counterbore_guide_and_chuck():
    """A board 300 wide, grip 40: 260 + 30 + 35 = 325 for the counterbore, 300 + 30 + 35 = 365 right through."""
    drill = Drill(name="d", chuck=35.0)
    for whole, deep in ((325.0, 260.0 + 30.0), (365.0, 300.0 + 30.0)):
        asked = need(Ability.BIT, 15.0, 15.0), need(Ability.DEPTH, deep)
        for length, able in ((whole, True), (whole - 1.0, False)):
            bit = Bit(name="b", diameter=15.0, length=length)
            assert isinstance(found(Process.DRILL, *asked, drills=(drill,), bits=(bit,)), Tool) is able


@pytest.mark.parametrize(
    ("process", "asked", "owned", "best"),
    [
        (Process.SAW, need(Ability.LEAN, 47.0), {"saws": (Saw(name="s", tilt=45.0),)}, 45.0),
        (Process.SAW, need(Ability.DEPTH, 80.0), {"saws": (Saw(name="s"), Saw(name="t", depth=75.0))}, 75.0),
        (Process.SAW, need(Ability.KERF, most=1.5), {"saws": (Saw(name="s", kerf=2.2), Saw(name="t", kerf=1.6))}, 1.6),
        (Process.GROOVER, need(Ability.DEPTH, 21.0), {"groovers": (Groover(name="g"),)}, 20.0),
        (Process.GROOVER, need(Ability.CUTTER, 100.0, 100.0), {"groovers": (Groover(name="g", diameter=105),)}, 105),
        (Process.DRILL, need(Ability.BIT, 10.0, 10.0), {"bits": (Bit(name="b", diameter=8, length=120),)}, 8.0),
        (Process.ROUTER, need(Ability.REACH, 80.0), {"cutters": (LONG,)}, 52.70),
        (Process.ROUTER, need(Ability.EDGE, 60.0), {"cutters": (Cutter(name="c", diameter=8, length=20),)}, 20.0),
        (Process.ROUTER, need(Ability.BEARING, 12.7, 12.7), {"cutters": (LONG,)}, None),
        (Process.GROOVER, need(Ability.LEAN, 10.0), {}, None),
    ],
)
def test_what_is_lacking_is_said_with_the_best_there_is(process, asked, owned, best):
    lack = found(process, asked, **owned)

    assert lack == Lack(process=process, need=asked, best=best if best is None else pytest.approx(best))


def test_every_assumed_sort_says_where_its_figures_come_from():
    assert set(COMMON) == {"routers", "cutters", "saws", "groovers", "drills", "bits"}
    assert all("practice" in source or "memory" in source or "sheet" in source for source in COMMON.values())
