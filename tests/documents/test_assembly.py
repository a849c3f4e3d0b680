"""The assembly booklet and the glue-up cards: what is drawn and said, on the demos and where there is no order.

The sheets are read back as text and as drawings. Hidden lines are checked on two boxes whose shadows a pencil can
find: seen from straight above, a box of 100 lies under half of a lid.
"""

import math
import re

import numpy as np
import pytest

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.axonometric import HIGH, Body, Camera, Lying, camera
from dryfit.documents.display import Area, Circle, Strokes, Text
from dryfit.documents.faults import faults
from dryfit.documents.workshop import assembly_pdf, paper_sheets
from tests.documents.reading import pages
from tests.documents.samples import sample_book
from tests.studies.test_order_trade import HEAD, RECTANGLE, TONGUES, board, frame, let_in

TURNED = (
    '[joints.housing]\nstop = "both"\n'
    + board("low", (0, 100), (900, 100))
    + board("high", (0, 500), (900, 500))
    + board("divider", (600, 100), (600, 500))
    + board("upright", (300, -100), (300, 700))
    + "".join(f'[[joint]]\nbetween = ["upright", "{shelf}"]\nfront = "upright"\n' for shelf in ("low", "high"))
)
PIECES = {
    "two halves": TONGUES + frame(RECTANGLE),
    "keys, then a board from the wall": '[joints.mitre]\nstrengthen = "keys"\n' + frame(RECTANGLE) + let_in("front"),
    "turned over": TURNED,
    "one board": board("alone", (0, 0), (500, 0)),
    "locked": '[joints.housing]\nstop = "both"\n' + TURNED.replace('[joints.housing]\nstop = "both"\n', "")
    + board("raking", (700, 100), (760, 500)),
    "nothing at all": "",
}  # fmt: skip


def booked(text):
    return build(read_job_text(HEAD + text))


def sheets(book):
    return paper_sheets("assembly", book)


def said(display):
    return [item.text for item in display.items if isinstance(item, Text)]


# ---- hidden lines


def cube(low, high):
    """A box with its twelve edges and six planes."""
    (x0, y0, z0), (x1, y1, z1) = low, high
    xs, ys, zs = (x0, x1), (y0, y1), (z0, z1)
    edges = [((x0, y, z), (x1, y, z)) for y in ys for z in zs]
    edges += [((x, y0, z), (x, y1, z)) for x in xs for z in zs]
    edges += [((x, y, z0), (x, y, z1)) for x in xs for y in ys]
    planes = [(-1, 0, 0, -x0), (1, 0, 0, x1), (0, -1, 0, -y0), (0, 1, 0, y1), (0, 0, -1, -z0), (0, 0, 1, z1)]
    corners = np.asarray([(x, y, z) for x in xs for y in ys for z in zs], dtype=float)
    return Body(edges=np.asarray(edges, dtype=float), planes=np.asarray([planes], dtype=float), corners=(corners,))


ABOVE = Camera(right=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0), eye=(0.0, 0.0, 1.0))
SIDEWAYS = Camera(right=(0.0, 1.0, 0.0), up=(-0.8, 0.0, 0.6), eye=(0.6, 0.0, 0.8))
CORNERWISE = Camera(right=(2**-0.5, -(2**-0.5), 0.0), up=(-(6**-0.5), -(6**-0.5), 2 * 6**-0.5), eye=(3**-0.5,) * 3)
HERE = (0.0, 0.0, 0.0)
BOX = cube((0, 0, 0), (100, 100, 100))
LID = cube((50, -50, 150), (300, 150, 170))


def test_of_the_twelve_edges_of_a_box_the_three_at_its_far_corner_are_hidden():
    """Seen along a diagonal each edge of 100 is 100 sqrt(2/3) long on paper."""
    view = Lying({"box": BOX}, CORNERWISE)
    seen = [math.dist(p, q) for p, q in view.visible("box", {"box": HERE})]

    assert sum(seen) == pytest.approx(9 * 100 * math.sqrt(2 / 3), abs=0.5)


def test_a_lid_hides_what_lies_behind_it_along_the_ray():
    """The ray from (x, 50, 100) along (0.6, 0, 0.8) is at x + 52.5 when it leaves the lid's height at 170.

    So a lid that begins at 110 hides the top from x = 57.5 on.
    """
    view = Lying({"box": BOX, "lid": LID}, SIDEWAYS)
    moved = {"box": HERE, "lid": (60.0, 0.0, 0.0)}

    assert view.is_seen((57.4, 50.0, 100.0), moved)
    assert not view.is_seen((57.6, 50.0, 100.0), moved)
    assert not view.is_seen((57.4, 50.0, 100.0), {"box": HERE, "lid": HERE})


def test_what_covers_another_is_told_by_which_lies_nearer():
    view = Lying({"box": BOX, "lid": LID}, ABOVE)

    assert view.before("lid", HERE, "box", HERE).intersection(view.silhouette("box", HERE)).area == pytest.approx(
        50 * 100, rel=0.01
    )
    assert view.before("box", HERE, "lid", HERE).is_empty


@pytest.mark.parametrize("leans", [[0.0], [0.0, 9.0, -9.0], [-19.0, -22.0, 0.0], [-15.0, 12.0]])
@pytest.mark.parametrize("turned_over", [False, True])
def test_no_board_is_looked_at_end_on_and_the_rays_come_from_above(leans, turned_over):
    looks = camera(leans, turned_over=turned_over)
    x, y, z = looks.eye
    assert z == pytest.approx(math.sin(math.radians(HIGH)) * (-1 if turned_over else 1))
    direction = math.degrees(math.atan2(-x * (-1 if turned_over else 1), -y))
    assert min(abs(lean - direction) for lean in leans) >= 8.0 - 1e-9
    for one, other in ((looks.right, looks.up), (looks.up, looks.eye), (looks.eye, looks.right)):
        assert sum(a * b for a, b in zip(one, other, strict=True)) == pytest.approx(0.0, abs=1e-12)


# ---- the booklet


@pytest.mark.parametrize("name", demos())
def test_no_sheet_of_a_demo_has_a_fault_and_every_board_has_its_letter(name):
    book = build(read_job_text(demo_text(name)))
    made = sheets(book)

    for draft, display in made:
        assert faults(display) == [], f"{name}: {draft.title}"
    letters = {text for _, display in made for text in said(display)}
    assert {part.mark for part in book.piece.parts} <= letters


@pytest.mark.parametrize("text", PIECES.values(), ids=PIECES.keys())
def test_no_sheet_of_other_pieces_has_a_fault(text):
    for draft, display in sheets(booked(text)):
        assert faults(display) == [], draft.title


@pytest.mark.parametrize("name", demos())
def test_there_is_a_picture_for_every_move_and_the_incoming_part_is_grey_with_an_arrow(name):
    book = build(read_job_text(demo_text(name)))
    order = book.studies["order"]
    moves = [step for stage in order.stages for step in stage.steps if step.legs]
    pictures = [display for draft, display in sheets(book) if draft.kind == "assembly"]
    moving = [display for display in pictures if any(isinstance(i, Area) and i.ink == "grey" for i in display.items)]

    assert len(moving) == len(moves)
    for step, display in zip(moves, moving, strict=True):
        grey = {item.owner for item in display.items if isinstance(item, Area) and item.ink == "grey"}
        thick = {item.owner for item in display.items if isinstance(item, Strokes) and item.pen == "incoming"}
        assert grey == thick == set(step.parts)
        assert any(isinstance(item, Area) and item.layer == "way" for item in display.items)
        lying = {item.owner for item in display.items if isinstance(item, Strokes) and item.pen == "break"}
        assert lying <= set(step.onto)


def test_a_step_says_in_one_sentence_what_goes_where_which_edge_leads_and_that_it_is_dry():
    (_, *steps) = sheets(booked(board("shelf", (0, 300), (900, 300)) + board("upright", (300, 0), (300, 600))))
    text = said(steps[0][1])

    assert "Lower upright B onto A" in text
    assert "wall edge first · face side to the left · DRY" in text
    assert "No hammer: if it stops, lift and look." in " ".join(text)


def test_what_is_let_in_is_pushed_and_glued_and_its_depth_is_said():
    book = booked(board("shelf", (0, 300), (900, 300)) + board("post", (300, 0), (300, 300)))
    text = [t for _, display in sheets(book) for t in said(display)]

    assert any(t.startswith("Push post B away from you, into A") for t in text)
    assert any("GLUE at A" in t for t in text)
    assert "It goes 8.0 deep." in text


def test_a_plain_mitre_is_pushed_against_and_nothing_is_said_of_a_depth():
    text = [t for _, display in sheets(booked(frame(RECTANGLE))) for t in said(display)]

    assert any(", against " in t for t in text)
    assert not any("deep." in t for t in text)


def test_two_halves_come_together_on_the_last_picture_of_their_unit():
    titles = [said(display)[1] for draft, display in sheets(booked(PIECES["two halves"])) if draft.kind == "assembly"]

    assert any(re.fullmatch(r"Push [A-D] and [A-D] .*, into [A-D] and [A-D]", title) for title in titles)


def test_a_piece_that_is_turned_over_is_drawn_so_and_the_step_begins_with_it():
    book = booked(TURNED)
    order = book.studies["order"]
    assert order.turns == 1

    text = [t for _, display in sheets(book) for t in said(display)]
    assert any("Turn the piece over first" in " ".join(text[n : n + 3]) for n in range(len(text)))
    assert any("front edge first" in t for t in text)


def test_where_there_is_no_order_one_sheet_says_why():
    ((draft, display),) = sheets(booked(PIECES["locked"]))
    assert draft.title == "no order"
    assert "cannot be put together, for straight moves" in " ".join(said(display))

    ((_, empty),) = sheets(booked(""))
    assert "There is nothing to put together." in said(empty)

    ((_, unasked),) = sheets(sample_book())
    assert "No order was worked out" in " ".join(said(unasked))


def test_a_book_s_booklet_is_the_same_bytes_every_time_and_holds_no_braces():
    book = build(read_job_text(demo_text("step-shelf")))
    data = assembly_pdf(book)

    assert assembly_pdf(build(read_job_text(demo_text("step-shelf")))) == data
    text = pages(data)
    assert len(text) == len(sheets(book))
    assert not any("{" in page or "}" in page for page in text)


def test_keys_have_their_own_sheet_between_the_gluing_of_their_box_and_what_would_stand_in_their_way():
    """Four corners; what they take is on the hardware list too; the board from the wall comes after."""
    text = PIECES["keys, then a board from the wall"]
    made = [said(display) for draft, display in sheets(booked(text)) if draft.kind == "assembly"]
    titles = [words[1] for words in made]
    keyed = titles.index("When the glue has set: the keys")

    assert titles[keyed + 1].startswith("Lay ")
    assert any(title.startswith("Lower ") for title in titles[keyed + 1 :])
    assert not any(title.startswith("Push ") for title in titles[keyed + 1 :])
    assert "at B × C, B × E, C × D, D × E" in made[keyed][2]
    assert "12 keys, 4.0 thick" in made[keyed][2]
    assert "Now, not later: what comes next stands in the way." in " ".join(made[keyed])
    alone = [said(display) for _, display in sheets(booked(text.partition(let_in("front"))[0]))]
    assert not any("Now, not later" in " ".join(words) for words in alone)


# ---- the glue-up card


def card(book, number=0):
    return [display for draft, display in sheets(book) if draft.kind == "glue-up"][number]


def test_the_card_of_the_box_gives_the_figures_of_its_plan():
    """900 x 500: diagonals 1029.6 and 964.5; 8 clamps of 3 kN; 13 g and a bit, printed up to 14; PVA D3."""
    book = booked(frame(RECTANGLE))
    (go,) = book.studies["glue_up"].stages
    text = said(card(book))

    assert "GLUE UP THE BOX" in text
    assert text.count("1029.6") == 3  # on both diagonals, and beside the blanks
    assert "964.5" in text
    assert str(math.ceil(go.total_g)) in text
    assert "8 clamps, cauls under every one." in text
    assert any("common practice: a mitre is pressed with 0.5" in t for t in [" ".join(text)])
    assert "Glue and wood not below 10 °C." in text
    assert " ".join(text).count("usual data sheets") == 1
    assert any("Differ by 1.7 more: it leans 1. Stop at 0.5." in t for t in text)


def test_every_line_of_the_card_has_its_box_and_the_dry_run_comes_first():
    display = card(booked(frame(RECTANGLE)))
    left = [item for item in display.items if isinstance(item, Text) and item.at[0] < 21]
    numbered = [item for item in left if re.fullmatch(r"\d", item.text)]
    boxes = [
        item
        for item in display.items
        if getattr(item, "layer", "") == "table" and getattr(item, "pen", "") == "balloon" and item.closed
    ]

    assert [item.text for item in numbered] == [str(n) for n in range(1, len(numbered) + 1)]
    assert len(boxes) == len(numbered)
    text = said(display)
    assert text[text.index("1") + 1] == "Dry fit once, clamps set, then apart."


def test_what_waits_for_the_glue_stands_beside_next():
    assert "keys" in said(card(booked(PIECES["keys, then a board from the wall"])))


def test_no_card_is_made_where_nothing_is_glued():
    book = booked(board("shelf", (0, 300), (900, 300)) + board("upright", (300, 0), (300, 600)))

    assert not [draft for draft, _ in sheets(book) if draft.kind == "glue-up"]


def test_letters_stand_in_rings_on_white():
    display = sheets(build(read_job_text(demo_text("step-shelf"))))[1][1]

    assert any(isinstance(item, Circle) and item.ink == "white" for item in display.items)
