"""Pins in slots: a shelf 27 thick, 300 deep between two uprights, on pins of 10 standing 12 out, 70 from the edges."""

import manifold3d as m3
import pytest

from dryfit.book import change_job_text
from dryfit.documents.looks import Desk
from dryfit.documents.sheets.part.words.details import details
from dryfit.geometry.shapes import Bore
from dryfit.keeping import Keep
from dryfit.piece.clash import clashes
from dryfit.piece.solids import Solids
from tests.joints.going import CONTACT, overlap_when_moved, slides
from tests.joints.typed import board, book_of, found, job, joint, joint_of, kind_of, piece_of

PINS = {"pin": 10, "inset": 70, "end_gap": 0}


def shelf(thick="27", depth=300, rise=0, upright="27", **options):
    asked = {**PINS, **options}
    return job(
        board("left", [[0, 0], [0, 900]], depth, upright),
        board("right", [[700, 0], [700, 900]], depth, upright),
        board("shelf", [[0, 500], [700, 500 + rise]], depth, thick),
        joint("shelf", "left", kind="pins in slots", **asked),
        joint("shelf", "right", kind="pins in slots", **asked),
    )


WAYS = {
    "slid on from the room": ({}, (0.0, 0.0, 1.0), 235.0),
    "slid on from the wall": ({"open": "front"}, (0.0, 0.0, -1.0), 235.0),
    "lowered": ({"form": "drop-on"}, (0.0, 1.0, 0.0), 27 / 2 + 5),
}


@pytest.mark.parametrize(("options", "way", "free"), WAYS.values(), ids=WAYS)
@pytest.mark.parametrize("upright", ["left", "right"])
def test_it_goes_off_the_way_it_came_or_straight_off_the_pins(options, way, free, upright):
    text = shelf(**options)
    piece, made = piece_of(text), joint_of(text, "shelf", upright)
    back, straight = made.making.motions
    assert (back.direction, back.free) == (way, free)
    assert straight.direction[0] == (1.0 if upright == "left" else -1.0)
    assert straight.free == 12.0
    assert all(slides(piece, made, motion) for motion in made.making.motions)
    home = tuple(-1.0 * one for one in straight.direction)
    assert overlap_when_moved(piece, made, "shelf", home) > 1000.0


def test_the_slots_of_a_lowered_shelf_open_below_whichever_way_it_is_drawn():
    for line in ([[0, 500], [700, 500]], [[700, 500], [0, 500]]):
        text = job(
            board("left", [[0, 0], [0, 900]], 300),
            board("shelf", line, 300),
            joint("shelf", "left", kind="pins in slots", form="drop-on"),
        )
        (motion, _) = joint_of(text, "shelf", "left").making.motions
        assert motion.direction == (0.0, 1.0, 0.0)
        cut = next(one for one in joint_of(text, "shelf", "left").cuts if one.word == "pin slots")
        place = piece_of(text).part_by_name["shelf"].board.frame.place
        below = min(place(shape.frame.place((x, y, 0.0)))[1] for shape in cut.shapes for x, y, _ in shape.outline)
        assert below < 500 - 12


def test_pins_are_bought_with_what_stands_in_and_out():
    """16 in 27 (about two thirds), and 12 out."""
    made = joint_of(shelf(), "shelf", "left")
    (pins,) = kind_of(made).hardware(made)
    assert (pins.name, str(pins.says), pins.count) == ("pin, smooth dowel", "10 x 28", 2)


@pytest.mark.parametrize(("depth", "pins"), [(300, 2), (340, 2), (350, 3), (540, 3), (600, 4)])
def test_two_pins_and_one_more_for_each_200_between_them(depth, pins):
    assert joint_of(shelf(depth=depth), "shelf", "left").options.pins == pins


def test_left_out_the_pins_are_a_quarter_of_the_depth_from_either_edge_and_no_more_than_70():
    for depth, inset in ((300, 70.0), (200, 50.0)):
        text = job(
            board("left", [[0, 0], [0, 900]], depth),
            board("shelf", [[0, 500], [700, 500]], depth),
            joint("shelf", "left", kind="pins in slots"),
        )
        assert joint_of(text, "shelf", "left").options.inset == inset


def test_two_shelves_opposite_each_other_leave_wood_between_their_pins():
    """24: a third, 8, and 1 for glue from either face: 6 between them."""
    text = job(
        board("post", [[0, 0], [0, 900]], 300),
        board("one", [[-600, 500], [0, 500]], 300),
        board("other", [[0, 500], [600, 500]], 300),
        joint("one", "post", kind="pins in slots"),
        joint("other", "post", kind="pins in slots"),
    )
    assert joint_of(text, "one", "post").options.pin_in == 8.0
    assert not found(text, "dowel-breaks-out")


@pytest.mark.parametrize(
    ("options", "says"),
    [
        ({"rise": 30}, "off square; pins stand square to the face"),
        ({"pins": 10}, "10 pins of 10, 70 from the edges, have no room"),
        ({"stands_out": 5}, "only 5 of a pin would stand in the board; at least 6"),
        ({"inset": 160}, "2 pins of 10, 160 from the edges, have no room in 300 of depth"),
    ],
    ids=["not square", "too many", "short pins", "an inset past the middle"],
)
def test_what_it_is_refused_for(options, says):
    finding, *_ = found(shelf(**options), "joint-unsuited")
    assert says in str(finding.says)


def test_an_upright_is_not_lowered_onto_pins_and_the_cure_slides_it():
    text = job(
        board("base", [[0, 0], [900, 0]], 300),
        board("post", [[400, 0], [400, 600]], 300),
        joint("post", "base", kind="pins in slots", form="drop-on"),
    )
    (finding,) = found(text, "joint-unsuited")
    assert "post lies 90° off level" in str(finding.says)
    assert {"form": "slide-on"} in [
        {edit.path[-1]: edit.value} for cure in finding.cures for edit in cure.edits if edit.path[-1] == "form"
    ]


def test_too_little_wood_over_the_groove_is_a_stop():
    """12 less 8.2: 1.9 either side."""
    (finding, *_) = found(shelf(thick="12", pin=8), "dowel-breaks-out")
    assert finding.found == pytest.approx(1.9)


@pytest.mark.parametrize(
    ("options", "told"),
    [
        (
            {},
            ["in the {} end, 8.40 to 18.60 from the arris of the upper face, runs 65.00 to 300.00 from the front edge"],
        ),
        (
            {"form": "drop-on"},
            ["2 in the {} end at 70, 230 from the front edge, 8.50 to 27.00 from the arris of the upper face"],
        ),
    ],
    ids=["a groove", "slots"],
)
def test_the_part_s_sheet_says_where_in_the_end_they_lie(options, told):
    """8.4 over the groove of 10.2; slots from the lower face to 13.5 + 5 of it."""
    desk = Desk(book_of(shelf(**options)))
    look = desk.looks["shelf"]
    for end in ("left", "right"):
        cut = next(one for one in look.part.cuts if one.takes == "pins" and end in one.joint)
        assert list(details(desk, look, cut)) == [one.format(end) for one in told]


# --- the pins themselves, as solids ---------------------------------------------------------------

UPRIGHTS = ("left", "right")


def rod(board_, start, direction, diameter, low, high):
    """A round rod in the world: along a direction of a board's frame, from a place in it."""
    body = m3.Manifold.cylinder(high - low, diameter / 2, diameter / 2, 32).translate((0.0, 0.0, low))
    (x, y, z), (dx, dy, _) = board_.frame.place(start), board_.frame.direct(direction)
    turned = body.rotate((0.0, 90.0, 0.0)) if abs(dx) > 0.5 else body.rotate((-90.0, 0.0, 0.0))  # z to x, or to y
    if (dx if abs(dx) > 0.5 else dy) < 0.0:
        turned = turned.rotate((0.0, 0.0, 180.0))
    return turned.translate((x, y, z))


def pins_of(piece, text, out=12.0):
    """The pins of both uprights, standing out of their faces."""
    found = []
    for upright in UPRIGHTS:
        drilled = next(cut for cut in joint_of(text, "shelf", upright).cuts if cut.word == "pin holes")
        for bore in drilled.shapes:
            ((_, wide), (deep, _)) = bore.profile
            found.append(rod(piece.board_by_name[upright], bore.start, bore.direction, wide, -out, deep))
    return found


def lock_of(piece, text, upright):
    cut = next(cut for cut in joint_of(text, "shelf", upright).cuts if cut.word == "lock hole")
    (bore,) = cut.shapes
    ((_, wide), (deep, _)) = bore.profile
    return rod(piece.board_by_name["shelf"], bore.start, bore.direction, wide, -5.0, deep)


def bites(piece, things, by):
    """What the shelf, moved so, shares with things that stay where they are."""
    shelf_ = Solids().placed(piece.part_by_name["shelf"]).translate(by)
    return sum((shelf_ ^ thing).volume() for thing in things)


def test_the_shelf_slides_over_its_pins_from_the_front_and_no_other_way():
    text = shelf()
    piece, pins = piece_of(text), pins_of(piece_of(text), text)

    assert all(bites(piece, pins, (0.0, 0.0, z)) <= CONTACT for z in range(0, 280, 8))
    assert bites(piece, pins, (0.0, 0.0, -20.0)) > 100  # the groove ends at the foremost pin
    assert bites(piece, pins, (0.0, -2.0, 0.0)) > 100  # and holds the shelf up
    assert bites(piece, pins, (0.0, -2.0, 235.1)) <= CONTACT  # free past the foremost pin
    assert bites(piece, pins, (0.0, -2.0, 231.0)) > 10


def test_lowered_it_rises_off_its_pins_and_goes_no_other_way():
    text = shelf(form="drop-on")
    piece, pins = piece_of(text), pins_of(piece_of(text), text)

    assert all(bites(piece, pins, (0.0, y, 0.0)) <= CONTACT for y in (0.0, 4.0, 10.0, 18.6, 60.0))
    for way in ((0.0, -1.0, 0.0), (0.0, 0.0, 1.0), (0.0, 0.0, -1.0)):
        assert bites(piece, pins, way) > 10, way


def test_the_holes_are_as_deep_as_the_pins_and_1_for_glue():
    """16 of 28 stand in 27; a hole's floor has 32 sides."""
    text = shelf()
    solids, piece = Solids(), piece_of(text)
    ring = 16 * 0.19509032201612825 * 25  # 32 / 2 sin(360 / 32) r^2

    for upright in UPRIGHTS:
        assert solids.volume(piece.part_by_name[upright]) == pytest.approx(900 * 27 * 300 - 2 * ring * 17, rel=1e-7)


@pytest.mark.parametrize("options", [{}, {"form": "drop-on"}, {"lock": "pin"}], ids=["slid", "lowered", "locked"])
def test_no_other_room_stumbles_over_it(options):
    text = shelf(**options)
    piece, keep = piece_of(text), Keep()
    made = joint_of(text, "shelf", "left")
    kind = kind_of(made)

    assert clashes(piece.parts, Solids(keep), frozenset(one.key for one in piece.joints), keep) == ()
    assert {one.code for one in piece.findings if one.severity == "stop"} <= {"held-by-nothing", "tips"}
    assert kind.glue(made) == ()
    done = {key for one in kind.operations(made, piece.board_by_name) for key in one.cuts}
    assert done == {cut.key for cut in made.cuts}
    assert all(one.making.open_notch == 0.0 for one in piece.joints)


def test_a_shelf_set_back_is_pinned_where_it_is():
    """200 deep from 50 off the wall: 50 + 40 and 250 - 40; its groove ends 160 + 5 from its own wall edge."""
    text = job(
        board("left", [[0, 0], [0, 900]], 300),
        board("shelf", [[0, 500], [700, 500]], 200, back=50),
        joint("shelf", "left", kind="pins in slots", pin=10, inset=40),
    )
    made = joint_of(text, "shelf", "left")
    groove = next(cut for cut in made.cuts if cut.word == "pin groove")
    drilled = next(cut for cut in made.cuts if cut.word == "pin holes")

    assert [bore.start[2] for bore in drilled.shapes] == [90.0, 210.0]
    assert max(x for x, _, bulge in groove.shapes[0].outline if bulge) + 5.1 == pytest.approx(165.0)


# --- the lock -------------------------------------------------------------------------------------


@pytest.mark.parametrize("upright", UPRIGHTS)
@pytest.mark.parametrize(("edge", "out"), [("wall", 1.0), ("front", -1.0)])
def test_a_lock_pin_lets_it_move_by_half_a_millimetre_and_drawn_out_it_goes(upright, edge, out):
    """The pin of 6 stands 0.5 behind the foremost of 10, level with its end; it moves with the shelf."""
    text = shelf(lock="pin", open=edge)
    piece = piece_of(text)
    pins, lock = pins_of(piece, text), lock_of(piece, text, upright)

    def held(by):
        return sum((lock.translate((0.0, 0.0, out * by)) ^ pin).volume() for pin in pins)

    assert held(0.0) <= CONTACT
    assert held(0.45) <= CONTACT
    assert held(1.0) > 1.0
    assert bites(piece, pins, (0.0, 0.0, out * 100.0)) <= CONTACT  # without it, the shelf slides off


def test_the_worked_example_of_the_lock():
    """221.5 from the wall is 78.5 from the front; 8.5 from the end; 27 - 3 deep, and 5 to draw it by."""
    text = shelf(lock="pin", end_gap=0.5)
    made = joint_of(text, "shelf", "left")
    told = {size.size: size.value.mm for size in kind_of(made).figures(made) if str(size.of) == "hole in shelf"}
    _, lock = kind_of(made).hardware(made)

    assert told == pytest.approx({"across": 6.0, "deep": 24.0, "axis": 78.5, "in": 8.5})
    assert (lock.name, str(lock.says), lock.count, lock.goes) == ("lock pin, smooth dowel", "6 x 29", 1, "driven")
    assert str(kind_of(made).held(made.options)) == "on pins, locked"
    assert "Push the lock pin up from below once it is home, 5 left to draw it by" in str(kind_of(made).notes(made)[-1])


def test_the_lock_is_drilled_from_below_whichever_way_the_shelf_is_drawn():
    for line in ([[0, 500], [700, 500]], [[700, 500], [0, 500]]):
        text = job(
            board("left", [[0, 0], [0, 900]], 300),
            board("shelf", line, 300),
            joint("shelf", "left", kind="pins in slots", lock="pin"),
        )
        piece, made = piece_of(text), joint_of(text, "shelf", "left")
        (bore,) = next(cut for cut in made.cuts if cut.word == "lock hole").shapes
        assert isinstance(bore, Bore)
        frame = piece.part_by_name["shelf"].board.frame
        assert frame.direct(bore.direction) == pytest.approx((0.0, 1.0, 0.0))
        assert frame.place(bore.start)[1] == pytest.approx(488.0)
        assert frame.place(bore.start)[0] == pytest.approx(12 + 0.5 + 8.5)


LOCKS = {  # options; what is said; found and limit; what the first cure asks for
    "lowered": ({"form": "drop-on"}, "a board that is lowered has none", None, "form"),
    "thin": ({"thick": "18"}, "3.9 over the groove holds no lock pin", (3.9, 4.0), "lock"),
    "short pins": ({"stands_out": 8}, "would stand 2 from the end", (2.0, 3.0), "stands_out"),
    "no room": (
        {"pin": 8, "pins": 11, "lock_pin": 8, "stands_out": 16},
        "has no room between two pins",
        (-0.5, 0.5),
        "lock",
    ),
}


@pytest.mark.parametrize(("options", "says", "figures", "cured"), LOCKS.values(), ids=LOCKS)
def test_a_lock_that_finds_no_wood_is_refused_and_its_cure_makes_it(options, says, figures, cured):
    text = shelf(lock="pin", **options)
    finding, *_ = found(text, "joint-unsuited")

    assert says in str(finding.says)
    if figures:
        assert (finding.found, finding.limit) == pytest.approx(figures)
    assert finding.cures[0].edits[0].path[-1] == cured
    again, _ = change_job_text(text, finding.cures[0].edits)
    assert len(found(again, "joint-unsuited")) < len(found(text, "joint-unsuited"))
