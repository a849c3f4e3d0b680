"""Pins in slots: a shelf 27 thick, 300 deep between two uprights, on pins of 10 standing 12 out, 70 from the edges."""

import pytest

from dryfit.documents.looks import Desk
from dryfit.documents.sheets.part.words.details import details
from tests.joints.going import overlap_when_moved, slides
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
    back, straight = made.hand.motions
    assert (back.direction, back.free) == (way, free)
    assert straight.direction[0] == (1.0 if upright == "left" else -1.0)
    assert straight.free == 12.0
    assert all(slides(piece, made, motion) for motion in made.hand.motions)
    home = tuple(-1.0 * one for one in straight.direction)
    assert overlap_when_moved(piece, made, "shelf", home) > 1000.0


def test_the_slots_of_a_lowered_shelf_open_below_whichever_way_it_is_drawn():
    for line in ([[0, 500], [700, 500]], [[700, 500], [0, 500]]):
        text = job(
            board("left", [[0, 0], [0, 900]], 300),
            board("shelf", line, 300),
            joint("shelf", "left", kind="pins in slots", form="drop-on"),
        )
        (motion, _) = joint_of(text, "shelf", "left").hand.motions
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
