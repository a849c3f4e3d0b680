"""Screws from board to board, step by step: when each can be driven, what covers it from when on, the hand's room.

Uprights 24 thick with a shelf between them, screwed through their outer faces: screws 5 x 60, heads 3.0 high under
plugs 8 deep, so 11 deep, 24 - 11 = 13 of wood under the head and 60 - 3 - 13 = 44 in the shelf. With the shortest bit
that is sold and reaches 11 + 30, 50, what must be free before the face is 50 - 11 + 44 + 200 = 283.
"""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon

from dryfit.book import build, change_job_text, read_job_text
from dryfit.shop.reading import parse_shop
from dryfit.studies.driving.hands import TURNS, HandRoom
from dryfit.studies.driving.result import Driving
from dryfit.studies.driving.wood import CONTACT, bodies
from tests.joints.typed import board, book_of, job, joint, table
from tests.studies.test_driving import BRICK, fixing, only, post, shelf

LINE = 50 - 11 + 44 + 200
OURS = ("screw-not-driven", "screw-line-short")
SCREWED = {"kind": "butt", "fasten": "screws", "screw": "wood 5x60", "count": 3}


def upright(name, x, **more):
    return board(name, [[x, 0], [x, 800]], 300, "24", **more)


def level(name, left, right, y=400):
    return board(name, [[left, y], [right, y]], 300, "24")


def unit(name, *names):
    return table("[[unit]]", name=name, boards=list(names))


def bay(*more, left=12, right=612):
    """A shelf between two uprights, screwed through both."""
    sides = (joint("left", "shelf", **SCREWED), joint("right", "shelf", **SCREWED))
    return job(upright("left", left), upright("right", right), level("shelf", left + 12, right - 12), *more, *sides)


def driving(text, shop=""):
    return build(read_job_text(text), parse_shop(shop)).found(Driving)


def told(text):
    return [one for one in book_of(text).findings if one.code in OURS]


def through(found, name):
    return [one for one in found.joined if one.board == name]


# ---- when


def test_a_screw_is_driven_as_soon_as_both_its_boards_are_together_and_its_line_is_as_worked_by_hand():
    found = driving(bay())

    assert {(one.board, one.into, one.number) for one in found.joined} == {
        (name, "shelf", number) for name in ("left", "right") for number in (1, 2, 3)
    }
    for one in found.joined:
        assert (one.line, one.bit, one.bit_from, one.tool) == (pytest.approx(LINE), 50.0, "to buy", "drill")
        assert {one.board, one.into} <= {
            part for step in found.bench[: one.here + 1] for part in (*step.parts, *step.onto)
        }
        assert (one.step, one.until, one.bars) == (one.here, len(found.bench) - 1, ())
    assert told(bay()) == []
    assert {one.out for one in through(found, "left")} == {(-1.0, 0.0, 0.0)}


def test_a_board_that_comes_over_the_mouths_after_the_unit_is_told_with_its_step_and_is_no_stop():
    """The bay is a unit, glued and screwed in the shop; a board 24 thick is laid against its left side later."""
    text = bay(upright("cover", -12), unit("bay", "left", "right", "shelf"))
    found = driving(text)

    for one in through(found, "left"):
        assert one.covered is not None
        assert (one.covered.part, one.covered.lies) == ("cover", True)
        assert found.bench[one.here].stage == "bay"
        assert found.bench[one.covered.step].stage == ""
        assert one.step == one.here < one.covered.step == one.until + 1
    assert all(one.bars == () for one in through(found, "right"))
    assert told(text) == []


def test_a_board_that_is_over_the_mouths_before_the_shelf_comes_is_a_stop():
    text = bay(upright("cover", -12), unit("side", "left", "cover"))
    found, (stop,) = driving(text), told(text)

    assert {one.step for one in through(found, "left")} == {None}
    assert (stop.code, stop.severity, stop.where.boards) == ("screw-not-driven", "stop", ("cover", "left"))
    assert str(stop.says) == "cover covers the mouth of the screws through left into shelf before they can be driven"
    assert str(stop.remedy) == "let cover come after the screws through left into shelf"


def test_a_board_over_the_mouths_that_is_not_glued_in_the_unit_is_left_out_of_it():
    text = bay(upright("cover", -12), unit("side", "left", "cover"))
    (stop,) = told(text)
    (cure,) = stop.cures

    assert str(cure.label) == "leave cover out of side"
    assert told(change_job_text(text, cure.edits)[0]) == []


NARROW = (upright("beside", 12 - 200), level("foot", -176, 0, 60), unit("narrow", "beside", "foot", "left"))


def test_a_bay_too_narrow_for_a_drill_is_a_warning_with_what_is_free_and_an_angle_driver_ends_it():
    """Between the faces at -176 and 0 are 176. Bit 50, head 60: 50 - 11 + 44 + 60 = 143."""
    (warn,) = [one for one in told(bay(*NARROW)) if one.where.joint == ("left", "shelf")]

    assert (warn.code, warn.severity) == ("screw-line-short", "warn")
    assert (warn.found, warn.limit) == (pytest.approx(176.0), pytest.approx(LINE))
    shop = '[[driver]]\nname = "small angle driver"\nlength = 50\nhead = 60\n'
    found = driving(bay(*NARROW), shop)
    assert {(one.tool, one.owned, one.line) for one in through(found, "left") if one.into == "shelf"} == {
        ("angle driver", "small angle driver", 143.0)
    }
    assert {one.tool for one in through(found, "right")} == {"drill"}, "where a drill has room it is taken"
    higher = driving(bay(*NARROW), shop.replace("head = 60", "head = 95"))
    assert {one.tool for one in through(higher, "left") if one.into == "shelf"} == {"drill"}, "178 does not go in 176"


@settings(max_examples=25, deadline=None)
@given(st.integers(40, 400), st.booleans())
def test_what_is_free_is_as_measured_between_the_faces(apart, first):
    """An upright so far from the left one's outer face: barred within 283, told before or after by the order."""
    boards = ("left", "right", "shelf") if not first else ("beside", "foot", "left")
    more = (upright("beside", -12 - apart), level("foot", -apart, 0, 60), unit("unit", *boards))
    found = [one for one in through(driving(bay(*more)), "left") if one.into == "shelf"]

    assert len(found) == 3
    bars = [[bar for bar in one.bars if not bar.hand and bar.part == "beside"] for one in found]
    assert all(len(some) == (apart < LINE) for some in bars)
    assert all(bar.distance == pytest.approx(apart) for some in bars for bar in some)
    assert all((one.until is None) == (first and apart < LINE) for one in found)


def test_screws_of_a_piece_that_is_only_screwed_together_are_looked_at_and_nothing_is_left_open():
    assert [one for one in book_of(bay()).not_checked if one.study == "driving"] == []


# ---- the hand's room


def walled(**sides):
    """A screw's mouth with boards proud of it all round, 60 from its axis to each face, from 40 before it on."""
    around = {
        "over": board("over", [[120, 572], [280, 572]], 300, "24", back=300, place="first"),
        "under": board("under", [[120, 428], [280, 428]], 300, "24", back=300, place=2),
        "west": board("west", [[128, 300], [128, 700]], 300, "24", back=300, place=3),
        "east": board("east", [[272, 300], [272, 700]], 300, "24", back=300, place=4),
    }
    return job(BRICK, *(around[name] for name in around if sides.get(name, True)), shelf(place=5), fixing())


def test_a_screw_with_boards_all_round_leaves_the_hand_no_side_though_the_drills_line_is_free():
    """120 between the faces: the drill's 70 goes in, no grip that reaches 200 from the axis does."""
    screw = only(walled())

    (bar,) = screw.bars
    assert (bar.hand, bar.beside, bar.lies, screw.step) == (True, True, False, screw.here)
    (warn,) = told(walled())
    assert (warn.code, warn.severity) == ("screw-line-short", "warn")
    assert "leaves the hand no room" in str(warn.says)


@pytest.mark.parametrize("side", ["over", "under", "west", "east"])
def test_one_open_side_is_enough_for_the_hand(side):
    assert only(walled(**{side: False})).bars == ()


@settings(max_examples=150, deadline=None)
@given(
    st.floats(-250, 250), st.floats(-250, 250), st.floats(10, 300), st.floats(10, 300), st.floats(0, 300),
    st.integers(0, TURNS - 1),
)  # fmt: skip
def test_the_hands_room_meets_a_post_where_its_outline_and_its_depths_do(x, y, wide, high, back, turn):
    """Against the area that two outlines have in common (by shapely), and the span that two depths have."""
    room = HandRoom(low=90.0, high=280.0, far=200.0, wide=80.0)
    part = _post(x, y, wide, high, back)
    (body,) = bodies([part])
    a, b, c, d = room.corners((0.0, 0.0), turn)
    shared = Polygon((a, b, d, c)).intersection(Polygon([(x, y), (x + wide, y), (x + wide, y + high), (x, y + high)]))
    depths = min(280.0, back + 100.0) - max(90.0, back)

    met = room.meets(body, (0.0, 0.0), 0.0, turn)
    if shared.area > 1.0 and depths > 1.0:
        assert met
    elif shared.area < CONTACT**2 or depths < CONTACT:
        assert not met


def _post(x, y, wide, high, back):
    """A block that stands upright along z, 100 deep."""
    from dryfit.geometry.bodies import PartShape
    from dryfit.geometry.frames import Frame

    frame = Frame((x, y, back), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))
    outline = ((0.0, 0.0), (wide, 0.0), (wide, high), (0.0, high))
    return PartShape(name="post", frame=frame, outline=outline, depth=100.0, shapes=())


def test_a_post_that_bars_the_line_is_told_once():
    assert [bar.hand for bar in only(job(BRICK, post(place=1), shelf(place=2), fixing())).bars] == [False]
