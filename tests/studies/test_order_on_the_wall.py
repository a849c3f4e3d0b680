"""The order on the wall: every step done again on the solids, with the wall behind, the floor and what hangs already.

The record wall is hung in three ways, the same job with other units and places: in one, base first, in single boards.
"""

from collections import Counter
from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dryfit.book import build, piece_of, read_job_text
from dryfit.book.building import scene_of
from dryfit.book.demos import demo_text, demos
from dryfit.findings import Severity
from dryfit.job.model import Wall
from dryfit.piece.solids import Solids
from dryfit.sentences import Voice, told
from dryfit.shop.model import Shop
from dryfit.studies.order import OrderStudy
from dryfit.studies.order.result import Leg, Order
from dryfit.study.base import Work

from ..hanging_jobs import WAYS, hung
from ..joints.typed import board, table
from ..strategies import pieces
from .replaying import put_up, put_up_once

SOLID_OAK = 'dryfit = 1\n[timber.24]\nspecies = "oak, European"\nthickness = 24\n'


def steps(text):
    """What goes up at each step, in words, of the order on the wall."""
    return [told(one.step.name, Voice()) for one in up(text).steps]


def up(text):
    return build(read_job_text(text)).found(Order).wall


def codes(text):
    return {found.code: found for found in build(read_job_text(text)).findings}


# ---- the record wall in three ways


@pytest.mark.parametrize("way", WAYS)
def test_each_way_of_hanging_the_record_wall_is_done_again_on_its_solids(way):
    book = build(read_job_text(hung(way)))
    wall = book.found(Order).wall

    assert wall.barred == ()
    put_up_once(wall)
    assert put_up(book.piece, wall, book.solids) == []


def test_in_one_it_goes_up_whole_held_by_its_screws():
    (one,) = up(hung("in one")).steps

    assert len(one.step.parts) == 17
    assert (one.comes, one.held, one.step.onto) == ("front", "fixings", ())


def test_base_first_the_loose_boards_are_pushed_in_from_the_front_and_the_box_is_held_until_its_board_is_in():
    wall = up(hung("base first"))

    assert steps(hung("base first")) == ["base", "glued box", "raking 2", "middle upright", "raking 1"]
    assert {one.comes for one in wall.steps} == {"front"}
    assert [one.held for one in wall.steps] == ["fixings", "hands", "joints", "joints", "joints"]
    assert set(wall.steps[2].holding) == {"box 1", "box 2", "box 3", "box 4"}
    assert wall.steps[3].holding == ()
    assert set(wall.steps[2].along) == {"box 1", "box 3", "shelf 1", "shelf 2", "shelf 3", "top shelf"}


def test_in_single_boards_what_no_screw_holds_waits_in_somebodys_hands_for_a_shelf_that_one_does():
    """The uprights stand behind the shelves' front edges, so the shelves' slots open to the wall: uprights first."""
    wall = up(hung("single boards"))
    by_name = {told(one.step.name, Voice()): one for one in wall.steps}

    assert len(wall.steps) == 14
    assert [by_name[name].held for name in ("left upright", "right upright", "shelf 1")] == [
        "hands",
        "hands",
        "fixings",
    ]
    assert set(by_name["shelf 1"].holding) == {"left upright", "right upright"}
    later = wall.steps.index(by_name["shelf 1"]) + 1
    assert not {"left upright", "right upright"} & set(wall.steps[later].holding)


def test_a_slot_that_opens_to_the_wall_bars_a_board_that_comes_to_a_base_that_hangs_and_is_told_once():
    """S15, the second half."""
    text = hung("base first") + '[[joint]]\nbetween = ["middle upright", "shelf 2"]\nfront = "middle upright"\n'
    (barred,) = [one for one in up(text).barred if one.parts == ("middle upright",)]
    found = codes(text)

    assert (barred.bar.comes, barred.bar.room) == ("behind", ("wall",)) or barred.bar.parts
    assert "comes-from-behind" in found
    assert "no-order-on-the-wall" not in found


# ---- small pieces, by hand: a shelf of 900 on two uprights, 24 thick


def box(*more, wall="hung = true"):
    sides = board("left", [[0, 0], [0, 800]], 200) + board("right", [[900, 0], [900, 800]], 200)
    ties = board("top", [[0, 800], [900, 800]], 200) + board("bottom", [[0, 0], [900, 0]], 200)
    return SOLID_OAK + sides + ties + "".join(more) + f"[wall]\n{wall}\n"


def unit(name, boards, **keys):
    return table("[[unit]]", name=name, boards=boards, **keys)


CASE = unit("case", ["left", "right", "top", "bottom"], place="first")
SHELF = board("shelf", [[0, 400], [900, 400]], 200)


def housed(**keys):
    return "".join(table("[[joint]]", between=["shelf", side], kind="housing", **keys) for side in ("left", "right"))


def test_a_shelf_housed_in_a_case_that_hangs_comes_from_the_front():
    wall = up(box(SHELF, CASE, housed(glued=False, stop="wall")))

    assert [one.step.parts for one in wall.steps][1:] == [("shelf",)]
    assert wall.steps[1].comes == "front"
    assert wall.steps[1].along == ("left", "right")


def test_one_whose_housings_are_stopped_at_the_front_cannot_and_the_wall_the_joints_and_a_cure_are_named():
    """On the floor it goes in with the case turned over; at its wall it could only come from behind."""
    text = box(SHELF, CASE, housed(glued=False, stop="front"))
    (barred,) = up(text).barred
    found = codes(text)

    assert barred.parts == ("shelf",)
    assert (barred.bar.comes, barred.bar.room) == ("behind", ("wall",))
    assert barred.bar.joints == (("left", "shelf"), ("right", "shelf"))
    one = found.get("no-order-on-the-wall") or found["comes-from-behind"]
    assert one.severity is Severity.STOP
    assert "behind" in told(one.says, Voice())


def test_without_a_place_the_case_may_come_over_the_shelf_that_hands_hold_so_it_is_rather_lifted_whole():
    case = unit("case", ["left", "right", "top", "bottom"])
    book = build(read_job_text(box(SHELF, case, housed(glued=False, stop="front"))))

    assert "no-order-on-the-wall" not in {found.code for found in book.findings}
    assert book.studies["hanging"].way == "floor"
    assert steps(box(SHELF, case, housed(glued=False, stop="front"))) == ["shelf", "case"]
    assert book.found(Order).wall.steps[0].held == "hands"
    assert book.studies["hanging"].decider == "hands"


POST = SOLID_OAK + board("rail", [[0, 400], [900, 400]], 200) + board("post", [[450, 400], [450, 900]], 200)
ON_RAIL = table("[[joint]]", between=["post", "rail"], kind="housing", glued=False, stop="both")
PLACES = '[[fixing]]\nboard = "rail"\nkind = "long screw"\nat = [200, 700]\nscrew = "wood 6x160"\n[wall]\n{}\n'


def test_a_post_housed_stopped_is_lowered_and_under_a_low_ceiling_it_comes_from_the_front_first():
    """8 deep: lifted 8 it is free. Up and away needs 500 more; under a ceiling at 950 it goes out to the front then."""
    free = up(POST + ON_RAIL + PLACES.format("hung = true")).steps[1]
    low = up(POST + ON_RAIL + PLACES.format("hung = true\nceiling = 950")).steps[1]

    assert (free.comes, len(free.step.legs)) == ("above", 1)
    assert low.comes == "above"
    assert low.step.legs[0].direction == (0.0, 0.0, -1.0)
    assert low.step.legs[1].direction == (0.0, -1.0, 0.0)
    assert low.high[1] < 950.0


def test_under_a_ceiling_that_leaves_no_room_to_lift_it_its_way_is_barred_by_the_ceiling():
    wall = up(POST + ON_RAIL + PLACES.format("hung = true\nceiling = 904").replace('board = "rail"', 'board = "rail"'))

    assert wall.barred or wall.steps[0].step.parts == ("post",), "or the rail comes to it from below"


def test_a_piece_that_hangs_nowhere_has_no_order_on_a_wall():
    standing = SOLID_OAK + board("rail", [[0, 0], [900, 0]], 200) + board("post", [[450, 0], [450, 900]], 200)

    assert up(standing) is None


def test_what_glue_holds_in_the_shop_goes_up_as_one():
    """No unit is named, so it goes together in the shop: what is glued there is one body at the wall."""
    (one,) = up(POST + ON_RAIL.replace("glued = false", "glued = true") + PLACES.format("hung = true")).steps

    assert set(one.step.parts) == {"rail", "post"}


# ---- demos and random pieces


@pytest.mark.parametrize("name", demos())
def test_every_demo_that_hangs_is_put_up_on_its_solids(name):
    book = build(read_job_text(demo_text(name)))
    wall = book.found(Order).wall
    if wall is not None and wall.steps:
        put_up_once(wall)
        assert put_up(book.piece, wall, book.solids) == []


def test_a_step_that_goes_through_the_wall_or_through_what_hangs_is_caught():
    book = build(read_job_text(hung("base first")))
    wall = book.found(Order).wall
    behind = tuple(
        replace(one, step=replace(one.step, legs=(Leg(direction=(0.0, 0.0, 1.0), distance=50.0),)))
        for one in wall.steps
    )
    aside = tuple(
        replace(one, step=replace(one.step, legs=(Leg(direction=(1.0, 0.0, 0.0), distance=50.0),)))
        for one in wall.steps
    )

    for wrong in (behind, aside):
        assert put_up(book.piece, replace(wall, steps=wrong), book.solids) != []


ROOMS = st.fixed_dictionaries(
    {
        "ceiling": st.sampled_from([None, None, 1600.0, 2400.0]),
        "left": st.sampled_from([None, None, -600.0]),
        "right": st.sampled_from([None, None, 2600.0]),
    }
)


def ordered(job):
    piece, solids, study = piece_of(job), Solids(), OrderStudy()
    return piece, solids, study.run(study.reads(scene_of(job, Shop(), piece, solids)), Work())


def test_every_random_piece_goes_up_step_by_step_on_its_solids_or_says_what_bars_it():
    tally = Counter()

    @settings(max_examples=60, deadline=None, suppress_health_check=[HealthCheck.too_slow])
    @given(
        drawing=pieces(), room=ROOMS, places=st.lists(st.sampled_from([None, None, None, "first", "last"]), min_size=7)
    )
    def each(drawing, room, places):
        boards = tuple(
            replace(spec, place=place) for spec, place in zip(drawing.job.boards, (*places, *[None] * 9), strict=False)
        )
        job = replace(drawing.job, boards=boards, wall=Wall(hung=True, **room))
        piece, solids, order = ordered(job)
        if order.overlaps or order.locked:
            assert order.wall is None
            return
        wall = order.wall
        assert bool(wall.steps) != bool(wall.barred)
        tally["up" if wall.steps else "barred"] += 1
        if wall.steps:
            put_up_once(wall)
            assert put_up(piece, wall, solids) == []
        for one in wall.barred:
            assert one.bar.room or one.bar.parts
        whole = order.stages[-1]
        as_on_the_floor = {frozenset(body) for body in wall.bodies} == {frozenset((name,)) for name in whole.parts}
        from_the_front = all(
            step.up == "front" for step in whole.steps
        )  # one that comes from the wall begins turned over
        if as_on_the_floor and from_the_front and not any(room.values()) and not order.refused:
            assert wall.steps, "what goes in from the front alone on the floor does so on the wall"

    each()
    assert tally["up"] > tally["barred"], tally
