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
from dryfit.documents.axonometric import HERE, HIGH, Body, Camera, Lying, Scene, camera
from dryfit.documents.display import Area, Circle, Strokes, Text
from dryfit.documents.faults import faults
from dryfit.documents.looks import Desk
from dryfit.documents.naming import printing_in
from dryfit.documents.sheets.booklet.acts import way_words
from dryfit.documents.sheets.booklet.loose import size_words
from dryfit.documents.sheets.booklet.pages import pages as pages_of
from dryfit.documents.workshop import assembly_pdf, paper_sheets
from dryfit.piece.model import Hardware
from tests.documents.reading import pages
from tests.documents.samples import sample_book
from tests.studies.test_order_trade import BARE, HEAD, LEANING, RECTANGLE, TONGUES, board, frame, let_in, polygon

TURNED = (
    '[joints.housing]\nstop = "both"\n'
    + board("low", (0, 100), (900, 100))
    + board("high", (0, 500), (900, 500))
    + board("divider", (600, 100), (600, 500))
    + board("upright", (300, -100), (300, 700))
    + board("second", (800, -100), (800, 700))
    + "".join(f'[[joint]]\nbetween = ["upright", "{shelf}"]\nfront = "upright"\n' for shelf in ("low", "high"))
    + "".join(f'[[joint]]\nbetween = ["second", "{shelf}"]\nfront = "{shelf}"\n' for shelf in ("low", "high"))
)
PIECES = {
    "two halves": TONGUES + frame(RECTANGLE),
    "keys, then a board from the wall": '[joints.mitre]\nstrengthen = "keys"\n' + frame(RECTANGLE) + BARE
    + let_in("front"),
    "closed round a divider and a leaning one": frame(RECTANGLE) + LEANING,
    "closed round a divider near its left end": frame([[0, 0], [1100, 0], [1100, 420], [0, 420]])
    + board("divider", (420, 24), (420, 396)),
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
BOX = cube((0, 0, 0), (100, 100, 100))
LID = cube((50, -50, 150), (300, 150, 170))


def test_of_the_twelve_edges_of_a_box_the_three_at_its_far_corner_are_hidden():
    """Seen along a diagonal each edge of 100 is 100 sqrt(2/3) long on paper."""
    view = Lying({"box": BOX}, CORNERWISE)
    seen = [math.dist(p, q) for p, q in view.visible("box", Scene(there={"box"}, away={})).tolist()]

    assert sum(seen) == pytest.approx(9 * 100 * math.sqrt(2 / 3), abs=0.5)


def test_a_lid_hides_what_lies_behind_it_along_the_ray():
    """The ray from (x, 50, 100) along (0.6, 0, 0.8) is at x + 52.5 when it leaves the lid's height at 170.

    So a lid that begins at 110 hides the top from x = 57.5 on.
    """
    view = Lying({"box": BOX, "lid": LID}, SIDEWAYS)
    moved = Scene(there={"box"}, away={"lid": (60.0, 0.0, 0.0)})

    assert view.is_seen((57.4, 50.0, 100.0), moved)
    assert not view.is_seen((57.6, 50.0, 100.0), moved)
    assert not view.is_seen((57.4, 50.0, 100.0), Scene(there={"box", "lid"}, away={}))


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
    assert "Its housing is 8.0 deep." in text


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
    alone = [said(display) for _, display in sheets(booked(text.partition(BARE)[0]))]
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
    assert "They differ by 1.7: it leans 1." in text
    assert "Push until they differ by no more than 0.5." in text
    assert "Size 8 faces of end grain: thin coat, wait 3 min." in text
    assert "A, C lie; put in B, D." in text


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
    text = said(card(booked(PIECES["keys, then a board from the wall"])))

    assert any(t.startswith("the keys: step 4, then step 5: lay ") for t in text)


def test_no_card_is_made_where_nothing_is_glued():
    book = booked(board("shelf", (0, 300), (900, 300)) + board("upright", (300, 0), (300, 600)))

    assert not [draft for draft, _ in sheets(book) if draft.kind == "glue-up"]


HEXAGON = TONGUES + frame(polygon(6))
FACED = '[joints]\nend_on_face = "butt"\n'
SCREWS = '[[joint]]\nbetween = ["shelf", "post"]\nkind = "butt"\nfasten = "screws"\nscrew = "wood 4x60"\n'
SHELF_AND_POST = board("post", (0, 0), (0, 600)) + board("shelf", (0, 300), (800, 300))


def acts(text):
    """The acts of a piece's booklet, in mm."""
    return [page.act for page in pages_of(Desk(booked(text)))]


def test_a_tongue_is_put_in_with_glue_before_its_corner_is_closed():
    """24 thick: a third is 8.0, two thirds across both grooves 16.0; 300 deep less 12 at both edges."""
    made = acts(HEXAGON)
    puts = [put for act in made[:-1] for put in act.puts]

    tongue = (
        r"FIRST put in (1 loose tongue|2 loose tongues) 8\.0 x 16\.0 x 276, grain across the corner, at .*, with glue\."
    )
    found = [re.fullmatch(tongue, put)[1] for put in puts]
    assert found == [*["1 loose tongue"] * 4, "2 loose tongues"]  # four single boards, then one half onto the other
    assert not any("deep" in mind for act in made for mind in act.minds)


def test_dowels_go_in_first_and_screws_are_driven_and_plugged_after():
    (_, dowelled) = acts(FACED + SHELF_AND_POST)[:2]
    (_, screwed) = acts(FACED + SHELF_AND_POST + SCREWS)[:2]

    (put,) = dowelled.puts
    assert re.fullmatch(r"FIRST put in 3 dowels [\d.]+ x \d+, grooved, at A, with glue\.", put)
    (driven,) = screwed.puts
    assert driven.startswith("THEN drive 3 wood screws 4 x 60 at ")
    assert re.search(r"; over them 3 plugs \d+, oak, white, with glue\.$", driven)
    assert ", into " in dowelled.title
    assert ", against " in screwed.title


def test_a_board_goes_into_what_takes_its_dowels_and_only_against_what_it_is_screwed_to():
    """The side runs past the bottom, which is screwed to it, into the top, which takes its dowels."""
    case = '[joints]\ncorner = "butt"\n' + frame(RECTANGLE) + (
        '[[joint]]\nbetween = ["box 1", "box 2"]\nkind = "butt"\nfasten = "screws"\n'
        'screw = "wood 4x60"\nthrough = "box 2"\n'
    )  # fmt: skip
    (act,) = [act for act in acts(case) if "box 2" in act.title]

    assert re.fullmatch(r"Push box 2 B .*, into C, against A", act.title)


@pytest.mark.parametrize(
    ("direction", "turned", "words"),
    [
        ((1.0, 0.0, 0.0), False, "to the right"),
        ((1.0, 0.0, 0.0), True, "to the left"),
        ((0.0, -1.0, 0.0), True, "towards you"),
        ((0.707, 0.707, 0.0), False, "to the right and away from you"),
        ((-0.866, -0.5, 0.0), False, "to the left and towards you"),
        ((0.2, 0.98, 0.0), False, "away from you"),
    ],
)
def test_a_way_aslant_is_called_by_both_its_directions(direction, turned, words):
    assert way_words(direction, turned) == words


def test_the_depth_that_is_said_of_a_raked_housing_is_the_one_on_its_sheet():
    """24 thick: 8.0 on the centre-line; the way along the raking board is longer."""
    text = board("shelf", (0, 300), (900, 300)) + board("raking", (400, 0), (300, 300))
    minds = [mind for act in acts(text) for mind in act.minds]

    assert "Its housing is 8.0 deep." in minds


def test_half_of_a_frame_that_is_put_together_by_itself_begins_with_what_lies_first_of_it():
    made = pages_of(Desk(booked(HEXAGON)))
    present = set()
    for page in made:
        assert set(page.there) <= present or page.step is None, page.act.title
        present |= {*page.there, *page.incoming}


FLAT = '[[board]]\nname = "rail"\ntimber = "thin"\nlies = "flat"\nline = [[0, 900], [900, 900]]\nwidth = 90\n'


LIFTED = (
    FLAT
    + board("post 1", (200, 0), (200, 1000))
    + board("post 2", (700, 0), (700, 1000), depth=340)
    + board("between", (200, 600), (700, 600), depth=200).replace("depth = 200", "depth = 200\nback = 50")
    + board("long", (0, 400), (900, 400), depth=260)
)


def test_what_lies_flat_is_laid_flat_and_what_does_not_reach_the_floor_stands_on_packing():
    """The posts come down over the rail and two shelves, one of them 40 off the wall."""
    posts = board("post 1", (200, 0), (200, 1000)) + board("post 2", (700, 0), (700, 1000))
    high = board("high", (0, 600), (900, 600), depth=220).replace("depth = 220", "depth = 220\nback = 40")
    first = acts(FLAT + posts + board("low", (0, 300), (900, 300)) + high)[0]

    assert first.title == "Lay E and D on their wall edges, rail A flat"
    assert "Packing 40.0 under E." in first.minds


@pytest.mark.parametrize("text", [FLAT + board("post", (200, 0), (200, 1000)), TURNED, HEXAGON, LIFTED])
def test_whatever_is_laid_reaches_the_floor_or_stands_on_packing(text):
    """The floor lies under the board that reaches furthest of all that is put together."""
    book = booked(text)
    boards = book.piece.board_by_name
    floor = {
        "front": min(board.back for board in boards.values()),
        "wall": max(board.front for board in boards.values()),
    }
    for page in pages_of(Desk(book)):
        for name in (page.incoming or page.there) if page.act.title.startswith("Lay ") else ():
            at = boards[name].back if page.up == "front" else boards[name].front
            mark = book.piece.part_by_name[name].mark
            packed = any(mind.startswith("Packing") and mark in mind for mind in page.act.minds)
            assert packed == (abs(at - floor[page.up]) > 1.0), page.act.title


def test_a_piece_of_boards_at_their_own_depths_is_begun_on_its_front_edges_and_rails_drop_in_last():
    """Nothing is turned over, and no rail is laid in the air."""
    made = acts(LIFTED)

    assert made[0].title.endswith("on its front edge") or made[0].title.endswith("on their front edges")
    assert not any("Turn" in mind for act in made for mind in act.minds)
    assert not any("rail" in act.title and act.title.startswith("Lay") for act in made)
    assert made[-2].title.startswith("Lower rail ")  # the last brings it to the wall
    assert "front edge first" not in made[-2].says


def test_a_glued_board_that_must_slide_far_is_said_to():
    text = board("low", (0, 100), (1000, 100)) + board("high", (0, 600), (1000, 600))
    text += board("plumb", (300, 100), (300, 600)) + board("raking", (600, 100), (700, 600))
    slides = [mind for act in acts(text) for mind in act.minds if mind.startswith("It slides 300 along its glue")]

    assert len(slides) == 1


NO_FIXING = "To the wall: the job says no fixings. How it hangs and what holds it is settled before it is lifted."
SCREWED = '[[fixing]]\nboard = "shelf"\nkind = "long screw"\nat = [200, 600]\nscrew = "wood 6x120"\n'


def test_a_large_piece_has_a_last_sheet_on_standing_it_up_and_a_small_one_that_stands_has_none():
    """2400 high, 300 deep: it tips up under sqrt(2400^2 + 300^2) = 2418.7; one person lifts 25 kg."""
    big = "".join(board(f"post {n}", (600 * n, 0), (600 * n, 2400)) for n in range(4))
    big += "".join(board(f"shelf {n}", (-50, 500 * n + 200), (1850, 500 * n + 200)) for n in range(4))
    book = booked(big)
    mass, last = sum(book.mass_kg.values()), acts(big)[-1]

    assert last.title == f"Lift it to the wall: {mass:.0f} kg"
    assert last.says == "1900 wide · 2400 high · 300 deep"
    people = f"{math.ceil(mass / 25)} people, 25 kg each (HSE guidance on lifting, from memory), or in parts."
    assert last.puts == (people, NO_FIXING)
    floor = build(read_job_text((HEAD + big).replace("hung = true", "ceiling = 2410")))
    stood = pages_of(Desk(floor))[-1].act
    assert stood.title == f"Stand it up: {mass:.0f} kg"
    assert "Tipping it up takes 2418.7 under the ceiling: put it together standing." in stood.minds
    assert stood.puts[-1] == "The job says no fixing to the wall: it stands free."
    assert any("Nothing holds it to a wall: it can tip over" in mind for mind in stood.minds)
    assert not any("until it is fixed" in mind for mind in stood.minds)
    assert any(mind.startswith("Doors, stairs and corners") for mind in stood.minds)
    assert not standing(SHELF_AND_POST)[-1].title.startswith(("Stand", "Lift"))


def standing(text):
    """The acts of a piece that is not hung, at a wall of timber studs."""
    stands = HEAD.replace("hung = true", 'kind = "timber studs"\nlining = 12.5\nhollow = 5\nstuds = [200, 600]')
    return [page.act for page in pages_of(Desk(build(read_job_text(stands + text))))]


def test_what_stands_and_has_fixings_can_tip_until_it_is_fixed_and_its_last_sheet_names_the_fixings_sheet():
    """Two screws through a shelf of 800: two holes; the whole weighs a few kg, which one person picks up."""
    last = standing(SHELF_AND_POST + SCREWED)[-1]

    assert last.title.startswith("Stand it up: ")
    assert last.puts == (
        "Two people: one holds it in its place, the other fixes it (common practice).",
        "To the wall: 2 holes, see the fixings sheet, F1, for places, screws and what to look at first.",
    )
    assert any("It can tip over until it is fixed to the wall: hold it." in mind for mind in last.minds)


def test_a_light_piece_that_hangs_has_a_last_sheet_for_the_wall_which_names_no_sheet_that_is_not_there():
    bare = acts(SHELF_AND_POST)[-1]
    kinds = {draft.kind for draft, _ in paper_sheets("workshop", booked(SHELF_AND_POST))}

    assert bare.title.startswith("Lift it to the wall: ")
    assert bare.puts[-1] == NO_FIXING
    assert any(mind.startswith("Nobody stands under it until every fixing is in") for mind in bare.minds)
    assert "fixings" not in kinds
    assert not any("see the fixings" in text for _, sheet in sheets(booked(SHELF_AND_POST)) for text in said(sheet))


def test_the_last_sheet_is_no_step_so_that_paper_and_page_count_alike():
    """A post, and a shelf let into it: two steps; then the wall."""
    made = [
        (draft.title, said(sheet)[0]) for draft, sheet in sheets(booked(SHELF_AND_POST)) if draft.kind == "assembly"
    ]

    assert made == [("step 1 of 2", "1"), ("step 2 of 2", "2"), ("the last: to its place", "LAST")]


FINISHED = '[finish]\nsystem = "hardwax oil"\ncoats = 2\nbefore_assembly = ["post"]\n'


def test_where_a_board_is_finished_before_assembly_steps_and_cards_ask_for_bare_wood_at_its_glue():
    book = booked(FINISHED + SHELF_AND_POST)
    text = " ".join(word for _, display in sheets(book) for word in said(display))

    assert "GLUE at A (bare wood there: mask before finishing)" in text
    assert "A finished already: bare wood at the joints (mask before finishing)." in text
    plain = " ".join(word for _, display in sheets(booked(SHELF_AND_POST)) for word in said(display))
    assert "bare wood" not in plain


# ---- nothing cut


NAMES = "board with a name that is as long as any maker may want to write beside a board of his own"


def shown_words(text):
    """All sheets of a piece's assembly paper, their words joined as they are read."""
    return [" ".join(" ".join(said(display)).split()) for _, display in sheets(booked(text))]


def test_no_word_of_a_step_or_of_a_card_is_cut_short():
    """Cutters 8, 10 and 12 deep: keys of three sizes, more than one line holds; and a name longer than the paper."""
    plunges = "".join(
        f'[[joint]]\nbetween = ["box {n}", "box {n + 1}"]\nplunge = {plunge}\n' for n, plunge in ((1, 8), (2, 10))
    )
    keyed = '[joints.mitre]\nstrengthen = "keys"\n' + frame(RECTANGLE) + plunges
    long = board(NAMES, (0, 0), (0, 600)) + board("shelf", (0, 300), (800, 300))
    assert len(set(re.findall(r"strip \d+ x \d+ a key", " ".join(shown_words(keyed))))) == 3
    for text in (keyed, keyed + BARE + let_in("front"), long):
        texts = shown_words(text)
        assert not any("…" in word for word in texts)
        for page, words in zip(pages_of(Desk(booked(text))), texts, strict=False):
            for told in (page.act.title, page.act.says, *page.act.puts, *page.act.minds):
                assert told in words


def test_both_diagonals_of_a_frame_that_is_no_rectangle_stand_on_its_card_whole():
    """900 below, 850 above, 500 high: sqrt(850^2 + 500^2) = 986.2 one way, sqrt(900^2 + 500^2) = 1029.6 the other."""
    skew = frame([[0, 0], [900, 0], [850, 500], [0, 500]])
    text = " ".join(said(card(booked(skew))))

    assert f"{math.hypot(850, 500):.1f} / {math.hypot(900, 500):.1f}" in text


# ---- in inches


def test_on_a_job_in_inches_nothing_loose_is_given_in_mm_but_what_is_sold_so():
    """A tongue of 8 x 16 x 276 mm is 0.315 x 5/8 x 10 55/64; a screw is 4 x 60 mm all over the world."""
    inch = HEAD.replace('title = "a case"', 'title = "a case"\nunits = "in"').replace("= 24", '= "24 mm"')
    inch = inch.replace("= 18", '= "18 mm"')
    corners = [[f"{x} mm" for x in point] for point in RECTANGLE]
    box = TONGUES + frame(corners).replace("depth = 300", 'depth = "300 mm"').replace("'", '"')
    text = " ".join(word for _, display in sheets(build(read_job_text(inch + box))) for word in said(display))

    assert "loose tongue 0.315 x 5/8 x 10 55/64" in text
    assert "it leans 1/16." in text
    assert "276" not in text
    assert loose_words("wood screw", "4 x 60") == "4 x 60 mm"


def loose_words(name, size):
    with printing_in("in"):
        return size_words(Hardware(name=name, size=size, count=1))


# ---- more of the card


def test_the_card_of_a_hexagon_names_each_board_once_and_asks_for_a_band_or_blocks():
    book = booked(HEXAGON)
    text = said(card(book))
    (order,) = [t for t in text if "lies; put in" in t]

    assert order.count("lies; put in") == 2
    assert set(re.findall(r"\b[A-F]\b", order)) == set("ABCDEF")
    assert "together onto" in order
    assert any(t.startswith("A band right round, or ") for t in text)
    assert "6 diagonals, front and back. Sight for wind." in text
    assert text.count("692.8") == 7  # side x sqrt(3), on each of the six that go past one corner, and beside the blanks
    assert not any("Along " in t for t in text)


def test_the_card_of_dowelled_boards_counts_dowels_and_says_which_steps_of_the_booklet():
    many = (
        FACED
        + board("low", (0, 0), (1800, 0))
        + "".join(board(f"post {n}", (200 * n, 0), (200 * n, 300)) for n in range(1, 8))
    )
    text = said(card(booked(many)))

    assert any(re.fullmatch(r"Glue 7 joints, 21 dowels\. START THE CLOCK\.", t) for t in text)
    assert "Put the parts in as the booklet shows: steps 2 to 8." in text
    assert "Size 7 faces of end grain: thin coat, wait 3 min." in text


def test_boards_end_to_end_are_not_said_to_be_held_by_their_fit():
    text = '[joints]\nin_line = "butt"\n' + board("one", (0, 300), (900, 300)) + board("other", (900, 300), (1800, 300))
    words = " ".join(said(card(booked(text))))

    assert "2 long clamps end to end, or clamps to blocks." in words
    assert "fit" not in words.replace("Dry fit", "")


def test_what_comes_next_is_said_with_its_step():
    alone, halved = (said(card(booked(HEXAGON + more))) for more in ("", board("across", (50, 600), (950, 600))))

    assert any(re.fullmatch(r"let it stand, then the last sheet: lift it to the wall: \d+ kg", text) for text in alone)
    assert "let it stand, then step 8: lay across A on its wall edge" in halved


def test_there_is_no_card_for_a_piece_that_cannot_be_put_together():
    kinds = [draft.kind for draft, _ in sheets(booked(PIECES["locked"]))]

    assert kinds == ["assembly"]


def test_letters_stand_in_rings_on_white():
    display = sheets(build(read_job_text(demo_text("step-shelf"))))[1][1]

    assert any(isinstance(item, Circle) and item.ink == "white" for item in display.items)
