"""A left and a right hand on one sheet, mirror images of one another; parts truly alike on one, a box for each.

Two sides 500 x 300 x 24 stand with a shelf housed between them, 217.9 up, 24.10 wide, 8.0 deep, stopped 32 behind
the front edge: so the housing is 268 long. The left one's housing lies in its face at -c, which looks to the right.
At 1:5 a side is 100 high and 60 wide on paper; the sheet's middle is at x = 110.
"""

import dataclasses
from functools import cache

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.documents.display import Area, Circle, Stroke, Text, extent
from dryfit.documents.faults import faults
from dryfit.documents.looks import Desk
from dryfit.documents.sheets.part.alike import AlikeParts
from dryfit.documents.sheets.part.fellows import Pair, alike, fellows, hands
from dryfit.documents.sheets.part.fooling import fooling
from dryfit.documents.sheets.part.maker import alike_sheets
from dryfit.documents.sheets.part.words.together import common, lettered, together
from dryfit.documents.workshop import workshop_sheets
from dryfit.geometry.shapes import Prism
from tests.documents import samples
from tests.documents.pairs import housing, other_hand, shelf, side, twin
from tests.joints.typed import board, book_of, frame, job, joint

MIDDLE = 110.0
UP = 217.9 + 24.10 / 2

BOX = job(
    frame(
        [[0, 0], [620, 0], [620, 500], [0, 500]],
        size="outside",
        names=["box bottom", "box right side", "box top", "box left side"],
    ),
    '[joints.mitre]\nstrengthen = "keys"\n',
    board("box shelf", [[0, 230], [620, 230]]),
    joint("box shelf", "box left side", stop="front", stop_distance=32),
    joint("box shelf", "box right side", stop="front", stop_distance=32),
)
UPRIGHTS = job(
    board("left end", [[12, 0], [12, 1900]], depth=330),
    board("right end", [[988, 0], [988, 1900]], depth=330),
    board("shelf {i}", [[12, "100 + (i - 1) * 450"], [988, "100 + (i - 1) * 450"]], depth=310, count=4),
    '[joints.housing]\nstop = "front"\n',
)
RAKING = job(
    board("shelf {i}", [[0, "300 + (i - 1) * 450"], [1800, "300 + (i - 1) * 450"]], count=3),
    board("raking left", [[400, 0], ["400 + 1600 * tan(8)", 1600]], depth=320),
    board("raking right", [[1400, 0], ["1400 - 1600 * tan(8)", 1600]], depth=320),
)
LEANING_BOX = job(  # its sides are halved from the front: the fine lines of their marks run across to the wall edge
    frame([[830, 1280], [1180, 1280], [1130, 1720], [880, 1720]], size="outside", depth=200),
    board("through", [[250, 1500], [1700, 1500]], depth=220),
    '[joints.mitre]\nstrengthen = "keys"\n',
    '[[fixing]]\nboard = "through"\nkind = "long screw"\nat = [500, 1100]\nscrew = "wood 5x120"\n',
)
LONG_RAKING = RAKING.replace("1600", "2300").replace("depth = 320", "depth = 380")
SHARING = {"box": BOX, "uprights": UPRIGHTS, "raking": RAKING, "long raking": LONG_RAKING, "leaning box": LEANING_BOX}


def left_side(**more):
    return side("left side", "L", 0.0, (housing("left side", "shelf", UP, **more),))


def a_pair():
    left = left_side()
    return left, other_hand(left, "right side", "J", 600.0)


def book_with(*parts):
    return samples.book_of(*parts, shelf())


def sheets(book):
    return {draft.number: (draft, display) for draft, display in workshop_sheets(book) if draft.kind.startswith("part")}


def texts(draft):
    return [item.text for item in draft.items if isinstance(item, Text)]


def places(draft, text):
    return sorted(item.at for item in draft.items if isinstance(item, Text) and item.text == text)


def wood_of(draft, name):
    """Every corner of what is drawn of a part's wood and its cuts, rounded."""
    owners = {name, *(f"housing in {name} for {takes}" for takes in ("shelf",))}
    strokes = (
        item for item in draft.items if isinstance(item, Stroke) and item.owner in owners and item.layer == "wood"
    )
    return {(round(x, 3), round(y, 3)) for item in strokes for x, y in item.points}


# --- who shares a sheet ---------------------------------------------------------------------------------


def test_a_part_and_its_mirror_image_are_hands_and_not_alike():
    left, right = a_pair()

    assert hands(left, right)
    assert hands(right, left)
    assert not alike(left, right)


def test_what_only_its_letter_tells_apart_is_alike_and_no_hand():
    left = left_side()

    assert alike(left, twin(left, "third side", "K", 300.0))
    assert not hands(left, twin(left, "third side", "K", 300.0))


def test_a_part_that_the_made_file_marks_from_the_other_face_is_not_alike():
    left = left_side()
    pinned = twin(left, "third side", "K", 300.0)
    pinned = dataclasses.replace(pinned, board=dataclasses.replace(pinned.board, face_side=1))

    assert not alike(left, pinned)


def moved(part, number, by):
    """The part with one housing moved along it."""
    cuts = list(part.cuts)
    shapes = tuple(
        dataclasses.replace(shape, outline=tuple((a + by, c, bulge) for a, c, bulge in shape.outline))
        for shape in cuts[number].shapes
        if isinstance(shape, Prism)
    )
    cuts[number] = dataclasses.replace(cuts[number], shapes=shapes)
    return dataclasses.replace(part, cuts=tuple(cuts))


@settings(max_examples=60)
@given(
    cuts=st.lists(
        st.tuples(st.integers(40, 460), st.sampled_from([-1, 1]), st.sampled_from([200.0, 301.0])), max_size=4
    ),
    by=st.sampled_from([-0.1, 0.0, 0.1, 0.4]),
    which=st.integers(0, 3),
)
def test_a_tenth_in_any_figure_parts_what_would_share_a_sheet(cuts, by, which):
    """Any side is its own twin's fellow and its mirror image's other hand, until one cut lies 0.1 elsewhere."""
    made = tuple(housing("s", f"t{n}", float(a), face, high=high) for n, (a, face, high) in enumerate(cuts))
    part = side("s", "A", 0.0, made)
    same, mirrored = twin(part, "t", "B", 100.0), other_hand(part, "u", "C", 200.0)
    if made:
        number = 1 + which % len(made)
        same, mirrored = moved(same, number, by), moved(mirrored, number, by)
    still = by == 0.0 or not made

    assert alike(part, same) is still
    assert (hands(part, mirrored) or alike(part, mirrored)) is still
    assert not (hands(part, mirrored) and alike(part, mirrored)), "what is the same board turned round is no hand"


def test_a_board_whose_ends_are_mirror_images_is_no_hand_and_alike_with_its_mirror_image():
    """A housing in the middle of 500: turned end for end the side is its own mirror image. At 217.9 it is not."""
    middle = side("left side", "L", 0.0, (housing("left side", "shelf", 250.0),))
    image = other_hand(middle, "right side", "J", 600.0)

    assert alike(middle, image)
    assert not hands(middle, image)
    assert hands(*a_pair())


def test_a_fifth_of_a_mm_in_a_housing_or_a_thickness_parts_a_board_from_its_mirror_image():
    middle = side("left side", "L", 0.0, (housing("left side", "shelf", 250.0),))
    image = other_hand(middle, "right side", "J", 600.0)
    thinner = dataclasses.replace(image, board=dataclasses.replace(image.board, profile=((0.0, 24.0), (500.0, 23.8))))

    assert not alike(middle, moved(image, 1, 0.2))
    assert not alike(middle, thinner)
    assert not hands(middle, thinner)


def test_a_board_that_is_the_same_front_to_back_is_no_left_hand_but_marked_otherwise():
    """A housing from edge to edge, not in the middle: turned over about its length one is the other, unmarked."""
    left = side("left side", "L", 0.0, (housing("left side", "shelf", UP, high=301.0),))
    draft, display = sheets(book_with(left, other_hand(left, "right side", "J", 600.0)))["LJ"]
    said = " ".join(texts(draft))

    assert faults(display) == []
    assert "left and right sides: alike until marked" in said or "sides: alike until marked" in said, said
    assert "one LEFT" not in said
    assert "Unmarked they are the same board: mark both before you cut either." in said


def test_parts_that_nearly_share_a_sheet_are_told_apart_in_the_list():
    left = left_side()
    nearly = moved(twin(left, "third side", "K", 300.0), 1, 0.1)
    book = book_with(left, nearly)

    assert all(len(found.looks) == 1 for found in fellows(Desk(book)))
    assert "K and L are alike but for stopped housing 1: 218 in K, 217.9 in L, from the datum end." in fooling(
        Desk(book)
    )


def test_plain_ends_that_only_go_in_differently_deep_are_alike_with_a_sum_each():
    """Dividers over one another: 8 into the shelf below and 6 into the one above, and the other way round.

    Both are 400 apart less a shelf's thickness, and 14 more: the same board.
    """
    shelves = board("shelf {i}", [[0, "(i - 1) * 400"], [900, "(i - 1) * 400"]], count=3)
    dividers = board("divider {i}", [[450, "(i - 1) * 400"], [450, "i * 400"]], depth=260, count=2)

    book = book_of(job(shelves, dividers))
    (draft,) = [draft for draft, _ in workshop_sheets(book) if "D" in draft.number and draft.kind.startswith("part")]
    said = " ".join(texts(draft))

    assert ["D", "E"] in [[look.part.mark for look in found.looks] for found in fellows(Desk(book))]
    assert not [words for words in fooling(Desk(book)) if "D and E" in words]
    assert "D: Length" in said
    assert "+ 8.0 + 6.0. E: Length" in said or "+ 6.0 + 8.0. E: Length" in said, said


def test_every_part_is_on_just_one_kind_of_sheet():
    for text in SHARING.values():
        desk = Desk(book_of(text))
        marks = [look.part.mark for found in fellows(desk) for look in found.looks]

        assert sorted(marks) == sorted(desk.marks.values())


# --- hands that stand ---------------------------------------------------------------------------------------


@pytest.fixture(scope="module")
def pair_sheet():
    (draft,) = [draft for number, (draft, _) in sheets(book_with(*a_pair())).items() if number == "LJ"]
    return draft


def test_the_two_drawings_are_mirror_images_about_the_sheet_s_middle(pair_sheet):
    """Each is drawn from its own cuts: every corner of the one lies where the other's, turned over, lies."""
    left, right = wood_of(pair_sheet, "left side"), wood_of(pair_sheet, "right side")

    assert len(left) >= 12
    assert {(round(2 * MIDDLE - x, 3), y) for x, y in left} == right


def test_the_wall_edges_are_in_the_middle_and_the_housing_reaches_to_them(pair_sheet):
    """60 wide faces at 1:5; the housing 268 long opens at the wall edge, which both hands have towards the middle."""
    edges = sorted(item.at[0] for item in pair_sheet.items if isinstance(item, Text) and item.text == "wall edge")
    fronts = sorted(
        item.at[0] for item in pair_sheet.items if isinstance(item, Text) and item.text == "front edge" and item.turn
    )

    assert fronts[0] < edges[0] < MIDDLE < edges[1] < fronts[-1]
    assert places(pair_sheet, "268")


@pytest.mark.parametrize("figure", ["217.9", "500"])
def test_figures_stand_mirrored_between_the_hands(pair_sheet, figure):
    found = places(pair_sheet, figure)
    pairs = [(p, q) for p in found for q in found if p[0] < MIDDLE < q[0] and p[1] == q[1]]

    assert any(p[0] + q[0] == pytest.approx(2 * MIDDLE) for p, q in pairs)


def test_a_figure_stands_at_the_height_of_its_wall(pair_sheet):
    """The datum's circle is the zero; at 1:5 the wall at 217.9 lies 43.58 above it."""
    zero = max(item.centre[1] for item in pair_sheet.items if isinstance(item, Circle) and item.layer == "dimension")
    heads = [extent([item]) for item in pair_sheet.items if isinstance(item, Area) and item.layer == "dimension"]

    assert any(top == pytest.approx(zero - 43.58, abs=0.01) for _, top, _, _ in heads)


def test_each_top_corner_has_its_letter_and_the_left_hand_s_is_left(pair_sheet):
    letters = {item.text: item.at[0] for item in pair_sheet.items if isinstance(item, Text) and item.size == 7.0}

    assert letters == {"L": pytest.approx(27.0), "J": pytest.approx(193.0)}
    assert "sides: one LEFT, one RIGHT" in texts(pair_sheet)
    assert not any(
        "x 2" in text or "× 2" in text.replace("2 × 2", "") for text in texts(pair_sheet) if "finished" not in text
    )


def test_there_is_a_box_to_tick_for_each_hand_in_every_row(pair_sheet):
    boxes = [
        extent([item])
        for item in pair_sheet.items
        if isinstance(item, Stroke) and item.layer == "table" and item.closed and item.pen == "balloon"
    ]
    rows = {round(top, 2): sorted(round(left, 2) for left, t, _, _ in boxes if t == top) for _, top, _, _ in boxes}

    assert len(rows) == 2, "the housing, and both ends"
    assert all(len(lefts) == 2 for lefts in rows.values())


def test_the_triangle_is_drawn_half_on_each_hand(pair_sheet):
    """Three corners that do not close: the wall edge is the third side."""
    halves = [
        item
        for item in pair_sheet.items
        if isinstance(item, Stroke)
        and item.layer == "mark"
        and len(item.points) == 3
        and item.pen == "outline"
        and extent([item])[3] - extent([item])[1] > 5
    ]

    assert len(halves) == 2
    left, right = sorted(halves, key=lambda item: item.points[0][0])
    assert [(round(2 * MIDDLE - x, 3), y) for x, y in left.points] == [(round(x, 3), y) for x, y in right.points]


def test_the_face_mark_stands_on_the_faces_that_are_face_sides(pair_sheet):
    loops = [
        item for item in pair_sheet.items if isinstance(item, Stroke) and item.layer == "mark" and len(item.points) > 20
    ]

    assert len(loops) == 2
    assert sum(extent([item])[0] + extent([item])[2] for item in loops) == pytest.approx(4 * MIDDLE)


def test_the_stop_is_drawn_once_with_what_is_left_to_the_front(pair_sheet):
    assert texts(pair_sheet).count("32") == 1
    assert "24.10 wide, 8.0 deep" in " ".join(texts(pair_sheet))


def test_both_hands_are_dark_in_the_small_picture(pair_sheet):
    dark = {item.owner for item in pair_sheet.items if isinstance(item, Stroke) and item.pen == "picture part"}

    assert dark == {"left side", "right side"}


def test_what_will_fool_you_is_said():
    """The housing's middle lies 229.95 up of 500: turned end for end it is 2 x 20.05 off."""
    said = " ".join(texts(sheets(book_with(*a_pair()))["LJ"][0]))

    for words in (
        "What will fool you.",
        "The cuts open to the WALL EDGE on both.",
        "a cut lies 40.1 off: mark the lower end",
    ):
        assert words in said, words


def test_hands_whose_face_sides_are_no_mirror_images_say_so_and_have_one_face_mark():
    """Two ends of a bookcase: both marked from the left face, which is behind on the left one."""
    left = left_side()
    left = dataclasses.replace(left, board=dataclasses.replace(left.board, face_side=1))
    draft, display = sheets(book_with(left, other_hand(left, "right side", "J", 600.0, face_side=1)))["LJ"]

    loops = [
        item for item in draft.items if isinstance(item, Stroke) and item.layer == "mark" and len(item.points) > 20
    ]
    assert faults(display) == []
    assert len(loops) == 1
    assert extent(loops)[0] > MIDDLE
    assert "inner face" in " ".join(texts(draft)) or {"inner", "face"} <= set(texts(draft))
    assert any("RIGHT FACE of L and the LEFT FACE of J" in text for text in texts(draft))


# --- whole jobs ------------------------------------------------------------------------------------------------


@cache
def printed(text):
    """Every sheet of a job, drawn once for all that is read on it."""
    return workshop_sheets(book_of(text))


@pytest.mark.parametrize("name", SHARING)
def test_no_sheet_of_these_jobs_has_a_fault(name):
    for draft, display in printed(SHARING[name]):
        assert faults(display) == [], draft.title


@pytest.mark.parametrize(
    ("name", "number", "title", "words"),
    [
        ("box", "EC", "E, C  box sides", "box sides: one LEFT, one RIGHT"),
        ("uprights", "AB", "A, B  ends", "ends: one LEFT, one RIGHT"),
        ("raking", "DE", "D, E  raking left and right", "raking left and right"),
    ],
)
def test_a_pair_is_called_what_its_names_share(name, number, title, words):
    found = [draft for draft, _ in printed(SHARING[name]) if draft.number == number]

    assert found[0].title == title
    assert any(words in text for text in texts(found[0]))
    assert {draft.kind for draft in found} == {"part, a pair"}


def test_box_sides_come_out_on_one_sheet_at_one_to_five_with_their_details():
    """500 x 300 at 1:5 is 100 x 60 on paper, as long as a pair may be drawn (110)."""
    found = [draft for draft, _ in printed(BOX) if draft.number == "EC"]

    (draft,) = found
    assert draft.scale.startswith("1:5, ")
    for text in (
        "INSIDE FACE",
        "of E, left",
        "of C, right",
        "lower end, upper end mirrored",
        "stop of housing, inside face",
    ):
        assert text in texts(draft), text
    assert any("opened like a book: you look at the two INSIDE FACES" in text for text in texts(draft))


def faces_of(draft, name):
    """Corners of a part's faces as drawn: outlines higher on paper than an edge is."""
    wood = (item for item in draft.items if isinstance(item, Stroke) and item.layer == "wood")
    outlines = [item.points for item in wood if item.owner == name]
    faces = [points for points in outlines if max(y for _, y in points) - min(y for _, y in points) > 20]
    return {(round(x, 2), round(y, 1)) for points in faces for x, y in points}


@pytest.mark.parametrize(
    ("name", "hands_of"), [("uprights", ("left end", "right end")), ("raking", ("raking left", "raking right"))]
)
def test_long_hands_lie_one_above_the_other_with_their_wall_edges_together(name, hands_of):
    """The lower drawing is the upper one turned over about a level line between them."""
    number = {"uprights": "AB", "raking": "DE"}[name]
    draft = next(draft for draft, _ in printed(SHARING[name]) if draft.number == number)
    upper, lower = (faces_of(draft, name) for name in hands_of)

    axis = (min(y for _, y in upper) + max(y for _, y in lower)) / 2
    assert max(y for _, y in upper) < axis < min(y for _, y in lower)
    assert {(x, round(2 * axis - y, 1)) for x, y in upper} == lower


def test_hands_too_deep_for_one_sheet_have_their_inner_faces_first():
    drafts = [draft for draft, _ in printed(LONG_RAKING) if draft.number == "DE"]

    said = [" ".join(texts(draft)) for draft in drafts]
    assert "LOWER face of D" in said[0]
    assert "UPPER face of D" not in said[0]
    assert "UPPER face of D" in said[1]
    assert "UPPER face of E" in said[1]
    assert all(not draft.scale.startswith("1:20") for draft in drafts)


# --- parts alike -------------------------------------------------------------------------------------------------


def test_parts_alike_share_a_sheet_with_a_box_each_and_all_dark():
    (draft,) = [draft for draft, _ in printed(UPRIGHTS) if draft.number == "C-F"]

    assert "shelf 1 to 4: four alike" in texts(draft)
    assert draft.title == "C to F  shelf 1 to 4"
    heads = {item.text for item in draft.items if isinstance(item, Text) and item.layer == "table"}
    assert {"C", "D", "E", "F"} <= heads
    dark = {item.owner for item in draft.items if isinstance(item, Stroke) and item.pen == "picture part"}
    assert dark == {f"shelf {i}" for i in range(1, 5)}
    assert any("kg each" in text for text in texts(draft))


def test_what_parts_alike_take_is_named_for_each():
    """Two dividers side by side, each between the same two shelves but with another upright housed in one of them."""
    left = side("left side", "A", 0.0, (housing("left side", "shelf 1", UP),))
    right = twin(left, "right side", "B", 300.0)
    cuts = list(right.cuts)
    cuts[1] = dataclasses.replace(cuts[1], takes="shelf 2")
    other = dataclasses.replace(right, cuts=tuple(cuts))
    shelves = [
        dataclasses.replace(shelf(mark), board=dataclasses.replace(shelf().board, name=f"shelf {n}"))
        for n, mark in ((1, "M"), (2, "N"))
    ]
    desk = Desk(samples.book_of(left, other, *shelves))
    (draft,) = alike_sheets(desk, AlikeParts((desk.looks["left side"], desk.looks["right side"])))

    assert "M (A), N (B)" in texts(draft)
    assert any(text.startswith("FIT TO M, N") for text in texts(draft))
    assert "A, B" in texts(draft)


def test_more_parts_than_boxes_go_on_further_sheets():
    part = left_side()
    many = [part, *(twin(part, f"side {n}", f"A{n}", 100.0 * n) for n in range(1, 10))]

    found = fellows(Desk(samples.book_of(*many)))

    assert [len(one.looks) for one in found] == [4, 4, 2]
    assert not any(isinstance(one, Pair) for one in found)


@pytest.mark.parametrize("units", ["mm", "in"])
def test_a_table_with_many_boxes_keeps_to_its_room(units):
    """Eight uprights alike, in inches with their wide fractions too: no head is broken within a word."""
    text = job(
        board("upright {i}", [["i * 250", 0], ["i * 250", 1500]], count=8),
        board("shelf {i}", [[0, "i * 300"], [2300, "i * 300"]], count=4),
        units=units,
    )
    text = (
        text.replace("250", "10").replace("1500", "60").replace("2300", "90").replace("300", "12")
        if units == "in"
        else text
    )

    parts = [draft for draft, _ in workshop_sheets(book_of(text)) if draft.kind.startswith("part,")]
    for draft in parts:
        table = [item for item in draft.items if getattr(item, "layer", "") == "table"]
        heads = {item.text for item in table if isinstance(item, Text)}
        room = 217.0 if draft.scale != "not to scale" else 287.0
        assert extent(table)[2] <= room + 0.1, draft.title
        continued = any(other.title == f"{draft.title}, cuts" for other in parts)  # its table has a page of its own
        assert bool(heads & {"meas.", "measured"}) != continued, draft.title


@pytest.mark.parametrize(
    ("names", "together_", "common_"),
    [
        (("divider 1", "divider 2"), "divider 1 and 2", ""),
        (("shelf 1", "shelf 2", "shelf 3"), "shelf 1 to 3", ""),
        (("box left side", "box right side"), "box left and right sides", "box sides"),
        (("left end", "right end"), "left and right ends", "ends"),
        (("box top", "box bottom"), "box top and bottom", ""),
        (("top", "bottom"), "top and bottom", ""),
        (("left shelf", "right shelf"), "left and right shelves", "shelves"),
        (("long shelf",), "long shelf", ""),
    ],
    ids=lambda value: ", ".join(value) if isinstance(value, tuple) else "",
)
def test_names_are_put_together_as_they_are_spoken(names, together_, common_):
    assert together(names) == together_
    assert len(names) == 1 or common(names) == common_


@pytest.mark.parametrize(
    ("marks", "said"),
    [
        (["K"], "K"),
        (["K", "L"], "K, L"),
        (["A", "B", "C", "D"], "A to D"),
        (["H", "J", "K"], "H to K"),
        (["A", "C", "D"], "A, C, D"),
    ],
    ids=["one", "two", "four in a row", "over the I that is not given", "with a gap"],
)
def test_letters_in_a_row_are_a_run(marks, said):
    assert lettered(marks) == said


# --- any pair -------------------------------------------------------------------------------------------------


@settings(max_examples=30)
@given(
    cuts=st.lists(
        st.tuples(st.floats(0.08, 0.92), st.sampled_from([-1, 1]), st.sampled_from([60.0, 200.0, 301.0])), max_size=7
    ),
    length=st.sampled_from([120.0, 500.0, 870.0, 1400.0, 2600.0]),
    depth=st.sampled_from([90.0, 300.0, 420.0]),
    mirrored=st.booleans(),
)
def test_no_sheet_of_any_pair_or_twins_has_a_fault(cuts, length, depth, mirrored):
    """Housings anywhere in either face, of hands of any size: words give way, never overlap."""
    made = tuple(
        housing("s", f"t{n}", round(share * length, 1), face, high=min(high, depth + 1.0))
        for n, (share, face, high) in enumerate(cuts)
    )
    one = side("s", "A", 0.0, made, length=length, depth=depth)
    other = other_hand(one, "right s", "B", 700.0) if mirrored else twin(one, "right s", "B", 700.0)

    for draft, display in workshop_sheets(samples.book_of(one, other)):
        assert faults(display) == [], draft.title
