"""The assembly booklet and the glue-up cards: what is drawn and said, on the demos and where there is no order.

The sheets are read back as text and as drawings. Hidden lines are checked on two boxes whose shadows a pencil can
find: seen from straight above, a box of 100 lies under half of a lid.
"""

import math
import re

import numpy as np
import pytest
from shapely import MultiLineString, Point

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.axonometric import HERE, HIGH, Camera, DrawnBody, DrawnScene, Lying, camera
from dryfit.documents.display import Area, Circle, Strokes, Text
from dryfit.documents.faults import faults
from dryfit.documents.looks import Desk
from dryfit.documents.naming import printing_in, ware_size
from dryfit.documents.pages import numbered
from dryfit.documents.sheets.booklet.acts import way_words
from dryfit.documents.sheets.booklet.binding import blocks, bound, drawn_card, halves, of_step
from dryfit.documents.sheets.booklet.maker import placed, views
from dryfit.documents.sheets.booklet.pages import pages as pages_of
from dryfit.documents.sheets.booklet.waiting import waiting
from dryfit.documents.sheets.page.frame import space
from dryfit.documents.standard import A4, TEXT
from dryfit.documents.workshop import assembly_pdf, paper_pdf, paper_sheets
from dryfit.piece.model import Ware
from tests.documents import demo_papers
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


HEXAGON = TONGUES + frame(polygon(6))


def booked(text):
    return build(read_job_text(HEAD + text))


def sheets(book):
    return paper_sheets("assembly", book)


def drawn(book):
    """Every step and every card by itself, with what stands in its room and what found none."""
    desk, found = Desk(book), []
    at = {one.held.place: n for n, sheet in enumerate(bound(desk), 1) for one in sheet} if pages_of(desk) else {}
    with printing_in(book.job.units):
        looks = views(desk) if pages_of(desk) else {}
        for sheet in bound(desk) if pages_of(desk) else ():
            rooms = (space(A4, desk),) if len(sheet) == 1 else halves(desk)
            for block, room in zip(sheet, rooms, strict=True):
                if block.page is None:
                    card = drawn_card(desk, block, room, of_step(desk))
                    found.append((block, numbered(card.items, lambda _, place: at.get(place)), card.lacking))
                else:
                    items, lacking = placed(
                        desk, block, looks[block.page.up], room, sheet[0].page if room is not rooms[0] else None
                    )
                    found.append((block, numbered(items, lambda _, place: at.get(place)), lacking))
    return found


def steps_of(book):
    """The steps, each with its words."""
    return [
        (block, [item.text for item in items if isinstance(item, Text)])
        for block, items, _ in drawn(book)
        if block.page is not None
    ]


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
    return DrawnBody(edges=np.asarray(edges, dtype=float), planes=np.asarray([planes], dtype=float), corners=(corners,))


ABOVE = Camera(right=(1.0, 0.0, 0.0), up=(0.0, 1.0, 0.0), eye=(0.0, 0.0, 1.0))
SIDEWAYS = Camera(right=(0.0, 1.0, 0.0), up=(-0.8, 0.0, 0.6), eye=(0.6, 0.0, 0.8))
CORNERWISE = Camera(right=(2**-0.5, -(2**-0.5), 0.0), up=(-(6**-0.5), -(6**-0.5), 2 * 6**-0.5), eye=(3**-0.5,) * 3)
BOX = cube((0, 0, 0), (100, 100, 100))
LID = cube((50, -50, 150), (300, 150, 170))


def test_of_the_twelve_edges_of_a_box_the_three_at_its_far_corner_are_hidden():
    """Seen along a diagonal each edge of 100 is 100 sqrt(2/3) long on paper."""
    view = Lying({"box": BOX}, CORNERWISE)
    seen = [math.dist(p, q) for p, q in view.visible("box", DrawnScene(there={"box"}, away={})).tolist()]

    assert sum(seen) == pytest.approx(9 * 100 * math.sqrt(2 / 3), abs=0.5)


def test_a_lid_hides_what_lies_behind_it_along_the_ray():
    """The ray from (x, 50, 100) along (0.6, 0, 0.8) is at x + 52.5 when it leaves the lid's height at 170.

    So a lid that begins at 110 hides the top from x = 57.5 on.
    """
    view = Lying({"box": BOX, "lid": LID}, SIDEWAYS)
    moved = DrawnScene(there={"box"}, away={"lid": (60.0, 0.0, 0.0)})

    assert view.is_seen((57.4, 50.0, 100.0), moved)
    assert not view.is_seen((57.6, 50.0, 100.0), moved)
    assert not view.is_seen((57.4, 50.0, 100.0), DrawnScene(there={"box", "lid"}, away={}))


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


@pytest.mark.parametrize("text", [*map(demo_text, demos()), *(HEAD + text for text in (*PIECES.values(), HEXAGON))])
def test_every_letter_length_and_word_of_a_picture_finds_room_and_no_letter_hides_wood(text):
    """A ring of 3.5 letters has a radius of 3.64; no line of wood comes into it. Cards stand in their room whole."""
    for block, items, lacking in drawn(build(read_job_text(text))):
        assert lacking == [], block.called
        if block.page is not None:
            rings = [Point(item.centre).buffer(item.radius) for item in items if isinstance(item, Circle) and item.pen]
            wooden = [item for item in items if isinstance(item, Strokes) and item.layer == "wood"]
            wood = MultiLineString([segment for item in wooden for segment in item.segments])
            assert rings
            assert not any(wood.intersects(ring) for ring in rings), block.called


@pytest.mark.parametrize("text", PIECES.values(), ids=PIECES.keys())
def test_no_sheet_of_other_pieces_has_a_fault(text):
    for draft, display in sheets(booked(text)):
        assert faults(display) == [], draft.title


@pytest.mark.parametrize("name", demos())
def test_there_is_a_picture_for_every_move_and_the_incoming_part_is_grey_with_an_arrow(name):
    book = build(read_job_text(demo_text(name)))
    order = book.studies["order"]
    moves = [step for stage in order.stages for step in stage.steps if step.legs]
    moving = [items for block, items, _ in drawn(book) if block.page and block.page.step and block.page.step.legs]

    assert len(moving) == len(moves)
    for step, items in zip(moves, moving, strict=True):
        grey = {item.owner for item in items if isinstance(item, Area) and item.ink == "grey"}
        thick = {item.owner for item in items if isinstance(item, Strokes) and item.pen == "incoming"}
        assert grey == thick == set(step.parts)
        assert any(isinstance(item, Area) and item.layer == "way" for item in items)
        lying = {item.owner for item in items if isinstance(item, Strokes) and item.pen == "break"}
        assert lying <= set(step.onto)


def test_a_step_says_in_one_sentence_what_goes_where_which_edge_leads_and_that_it_is_dry():
    text = steps_of(booked(board("shelf", (0, 300), (900, 300)) + board("upright", (300, 0), (300, 600))))[1][1]

    assert "Lower upright B onto A" in text
    assert "wall edge first · face side to the left · DRY" in text
    assert "If it sticks, lift it off and look: no hammer." in " ".join(text)


def test_what_is_let_in_is_pushed_and_glued_and_its_depth_is_said():
    book = booked(board("shelf", (0, 300), (900, 300)) + board("post", (300, 0), (300, 300)))
    text = [t for _, display in sheets(book) for t in said(display)]

    assert any(t.startswith("Push post B away from you, into A") for t in text)
    assert any("GLUE at A" in t for t in text)
    assert "Home at 8.0 deep." in text


def test_a_plain_mitre_is_pushed_against_and_nothing_is_said_of_a_depth():
    text = [t for _, display in sheets(booked(frame(RECTANGLE))) for t in said(display)]

    assert any(", against " in t for t in text)
    assert not any("deep." in t for t in text)


def test_two_halves_come_together_on_the_last_picture_of_their_unit():
    titles = [words[1] for _, words in steps_of(booked(PIECES["two halves"]))]

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
    made = drawn(booked(text))
    called = [block.called for block, _, _ in made]
    steps = [(block, [item.text for item in items if isinstance(item, Text)]) for block, items, _ in made]
    (keyed,) = [n for n, (_, words) in enumerate(steps) if words[1] == "When the glue has set: the keys"]

    assert called[keyed - 1] == "card G1"
    assert steps[keyed + 1][1][1].startswith("Lay ")
    assert any(words[1].startswith("Lower ") for _, words in steps[keyed + 1 :])
    assert not any(words[1].startswith("Push ") for _, words in steps[keyed + 1 :])
    words = " ".join(steps[keyed][1])
    assert "at B × C, B × E, C × D, D × E · 12 keys, 4 thick" in words
    assert "Only when the glue of card G1, page 2, has set." in words
    assert "Now, not later: what follows would be in the way." in words
    alone = " ".join(word for _, words in steps_of(booked(text.partition(BARE)[0])) for word in words)
    assert "Now, not later" not in alone


def test_the_step_of_the_keys_shows_every_pocket_and_every_key_off_it():
    """Four corners, three keys each, 4 thick: a slit of three lines on either board, 24 in all; twelve grey slips."""
    book = booked(PIECES["keys, then a board from the wall"].partition(BARE)[0])
    desk = Desk(book)
    (page,) = [page for page in pages_of(desk) if page.after]
    found = waiting(desk, page.there, page.after)
    (items,) = [items for block, items, _ in drawn(book) if block.page and block.page.after]

    assert {board: len(lines) for board, lines in found.slits.items()} == {f"box {n}": 18 for n in (1, 2, 3, 4)}
    assert len(found.pieces) == 12
    assert len({item.owner for item in items if isinstance(item, Area) and item.ink == "grey"}) >= 9, "some lie behind"
    for lines in found.slits.values():
        for (x, y, z), (p, q, w) in lines[2::3]:  # the inner ends: as wide as the key is thick
            assert (x, y) == pytest.approx((p, q))
            assert w - z == pytest.approx(4.0)


# ---- the glue-up card


def card(book, number=0):
    """The words of a card."""
    items = [items for block, items, _ in drawn(book) if block.go is not None][number]
    return [item.text for item in items if isinstance(item, Text)]


def test_the_card_of_the_box_gives_the_figures_of_its_plan():
    """900 x 500: diagonals 1029.6 and 964.5; 8 clamps of 3 kN; 13 g and a bit, printed up to 14; PVA D3."""
    book = booked(frame(RECTANGLE))
    (go,) = book.studies["glue_up"].stages
    text = card(book)

    assert "G1 GLUE-UP: BOX" in " ".join(" ".join(text).split())
    assert text.count("1029.6") + text.count("Outside 1029.6") == 3  # on both diagonals, and beside the blanks
    assert "Inside 964.5" in text
    assert str(math.ceil(go.total_g)) in text
    assert "Set 8 bars, a notched block over each corner, none on a bare mitre point." in text
    words = " ".join(text)
    assert "Spread 80 + close 120 + clamp 160 = 360 s." in words
    assert "10 s a side spread, 20 s a clamp set (from memory); 30 s a joint closed (common practice)." in words
    assert "Along A, B, C, D, at the arrows: 2 bars of 3 kN, for 3.6 kN at 0.5 N/mm² (common practice)." in words
    assert "Glue and wood not below 10 °C; wood at 6 to 12 % moisture." in words
    assert words.count("usual data sheets") == 1
    assert "Diagonals that differ by 1.7 mean a lean of 1: 0.5 at most." in words
    assert "Size 8 faces of end grain: a thin coat; wait 3 min." in text
    assert "START THE CLOCK: PVA, D3 on 4 joints." in text
    assert "Lay A, C; add B, D." in text


def test_a_card_shows_where_its_bars_press_from_outside():
    """Bars along each of four boards: eight arrows, two at each corner, each ahead of the wood by its tip."""
    items = next(items for block, items, _ in drawn(booked(frame(RECTANGLE))) if block.go is not None)
    tips = [item.loops[0][0] for item in items if isinstance(item, Area) and item.layer == "press"]
    wood = [p for item in items if getattr(item, "layer", "") == "wood" for p in item.points]
    (left, right), (top, bottom) = ((min(each), max(each)) for each in zip(*wood, strict=True))

    assert len(tips) == 8
    assert all(not (left < x < right and top < y < bottom) for x, y in tips)
    assert sum(left < x < right for x, _ in tips) == sum(top < y < bottom for _, y in tips) == 4


def test_on_a_card_the_clock_starts_before_the_first_glue_and_sizing_is_done_before_that():
    text = card(booked(frame(RECTANGLE)))
    at = [next(n for n, line in enumerate(text) if line.startswith(begins)) for begins in ("Size ", "START ", "Lay ")]

    assert at == sorted(at)


def test_every_line_of_the_card_has_its_box_and_the_dry_run_comes_first():
    (items,) = [items for block, items, _ in drawn(booked(frame(RECTANGLE))) if block.go is not None]
    words = [item for item in items if isinstance(item, Text)]
    numbered = [item for item in words if item.at[0] < 21 and re.fullmatch(r"\d", item.text)]
    boxes = [item for item in items if getattr(item, "layer", "") == "table" and getattr(item, "pen", "") == "balloon"]

    assert [item.text for item in numbered] == [str(n) for n in range(1, len(numbered) + 1)]
    assert len([box for box in boxes if box.closed]) == len(numbered)
    text = [item.text for item in words]
    assert text[text.index("1") + 1] == "Steps 2 and 3 dry first, clamps set and cauls to hand; then take it apart."


@pytest.mark.parametrize("text", [*map(demo_text, demos()), *(HEAD + text for text in (*PIECES.values(), HEXAGON))])
def test_nothing_on_a_step_or_a_card_is_lettered_smaller_than_text(text):
    """2.5 is the least for anything to act on; only the title block has captions of 1.8."""
    for block, items, _ in drawn(build(read_job_text(text))):
        assert min(item.size for item in items if isinstance(item, Text)) >= TEXT, block.called


@pytest.mark.parametrize("text", [demo_text("record-wall"), *(HEAD + text for text in (*PIECES.values(), HEXAGON))])
def test_cards_and_steps_agree_on_boards_order_and_pages(text):
    """A card stands after the last step it glues and before the next; those steps send to its page, and back."""
    book = build(read_job_text(text))
    desk, plan = Desk(book), book.studies.get("glue_up")
    goes = plan.stages if plan and pages_of(desk) else ()
    every = blocks(desk) if goes else []
    at = {block.number: n for n, sheet in enumerate(bound(desk), 1) for block in sheet if block.go} if goes else {}
    words = {block.number: " ".join(said) for block, said in steps_of(book)}

    assert [block.go for block in every if block.go] == list(goes)
    for number, go in enumerate(goes, 1):
        (place,) = [n for n, block in enumerate(every) if block.go is not None and block.number == number]
        own = [n for n, block in enumerate(every) if (number, False) in block.cards]
        assert [every[n].page.incoming for n in own] == [parts for parts, _ in go.moves], "the same boards, in order"
        between = every[own[-1] + 1 : place]
        assert all((number, True) in block.cards for block in between), "only what holds it square comes between"
        for n in own:
            assert f"glue by card G{number}, page {at[number]}." in words[every[n].number]
        sends = re.search(r"Next: (step (\d+)|the last sheet), page (\d+)", " ".join(card(book, number - 1)))
        if sends:
            following = next(block for block in every[place + 1 :] if block.page is not None)
            assert following.page.whole if sends[2] is None else int(sends[2]) == following.number
            (page,) = [n for n, sheet in enumerate(bound(desk), 1) if following in sheet]
            assert int(sends[3]) == page


@pytest.mark.parametrize("text", [*map(demo_text, demos()), *(HEAD + text for text in (*PIECES.values(), HEXAGON))])
def test_two_stand_on_a_sheet_wherever_two_have_room(text):
    desk = Desk(build(read_job_text(text)))
    alone = [sheet[0] for sheet in bound(desk) if len(sheet) == 1] if pages_of(desk) else []
    whole = [block for block in alone if block.go is not None]

    assert len(alone) <= 2 * len(whole) + 1, "a card that needs a sheet, the step before it, the last"


def test_what_waits_for_the_glue_stands_beside_next():
    text = card(booked(PIECES["keys, then a board from the wall"]))

    assert any("Next: step 4, page 3." in t for t in text)


def test_no_card_is_made_where_nothing_is_glued():
    book = booked(board("shelf", (0, 300), (900, 300)) + board("upright", (300, 0), (300, 600)))

    assert not [block for block in blocks(Desk(book)) if block.go is not None]


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

    tongue = r"FIRST put in (1 loose tongue|2 loose tongues) 8 x 16 x 276, grain across the corner, at .*, with glue\."
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
    assert re.search(r"; over them 3 plugs \d+ diameter, oak, white, with glue\.$", driven)
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

    assert "Home at 8.0 deep." in minds


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


NO_FIXING = "To the wall: the job gives no fixings. Settle how it hangs and what holds it before it is lifted."
SCREWED = '[[fixing]]\nboard = "shelf"\nkind = "long screw"\nat = [200, 600]\nscrew = "wood 6x120"\n'


def test_the_last_picture_says_how_the_piece_is_stood_up_or_goes_to_the_wall():
    """2400 high, 300 deep: it tips up under sqrt(2400^2 + 300^2) = 2418.7."""
    big = "".join(board(f"post {n}", (600 * n, 0), (600 * n, 2400)) for n in range(4))
    big += "".join(board(f"shelf {n}", (-50, 500 * n + 200), (1850, 500 * n + 200)) for n in range(4))
    book = booked(big)
    mass, last = sum(book.mass_kg.values()), acts(big)[-1]

    assert last.title == f"Lift it to the wall: {mass:.0f} kg"
    assert last.says == "1900 wide · 2400 high · 300 deep"
    assert last.puts[0].startswith("Too heavy for three people (37 kg): ")
    assert last.puts[1].startswith("It is not lifted whole: 8 steps put it together on the wall, the heaviest ")
    assert last.puts[2:] == (NO_FIXING, NO_FINISH)
    floor = build(read_job_text((HEAD + big).replace("hung = true", "ceiling = 2410")))
    stood = pages_of(Desk(floor))[-1].act
    assert stood.title == f"Stand it up: {mass:.0f} kg"
    assert "Tipping it up takes 2418.7 under the ceiling: put it together standing." in stood.minds
    assert stood.puts[1] == "The job gives no fixing to the wall: it stands free."
    assert any("Nothing holds it to a wall: it can tip over" in mind for mind in stood.minds)
    assert not any("until it is fixed" in mind for mind in stood.minds)
    assert any(mind.startswith("Doors, stairs and corners") for mind in stood.minds)
    assert standing(SHELF_AND_POST)[-1].title.startswith("Stand it up: ")


NO_FINISH = "Finish: not known yet; the job names none."


def standing(text):
    """The acts of a piece that is not hung, at a wall of timber studs."""
    stands = HEAD.replace("hung = true", 'kind = "timber studs"\nlining = 12.5\nhollow = 5\nstuds = [200, 600]')
    return [page.act for page in pages_of(Desk(build(read_job_text(stands + text))))]


def test_what_stands_and_has_fixings_can_tip_until_it_is_fixed_and_its_last_sheet_names_the_fixings_sheet():
    """Two screws through a shelf of 800: two holes; the whole weighs a few kg, which one person picks up."""
    last = standing(SHELF_AND_POST + SCREWED)[-1]

    assert last.title.startswith("Stand it up: ")
    assert last.puts[0].startswith("One person: ")
    held, no_finish = last.puts[1:]
    said = "To the wall: 2 holes; fixings sheet F1, page .+ of the workshop book has positions, screws"
    assert re.match(said, held)
    assert no_finish == NO_FINISH
    assert any("It can tip over until it is fixed to the wall: hold it." in mind for mind in last.minds)


def test_the_last_step_names_the_page_on_which_the_fixings_sheet_stands():
    (last,) = (text for text in pages(paper_pdf("assembly", demo_papers.desk("record-wall"))) if "To the wall:" in text)
    (page,) = re.findall(r"fixings sheet F1, page (\d+) of the workshop book", " ".join(last.split()))

    assert "RW-F1" in pages(demo_papers.paper("record-wall"))[int(page) - 1]


def test_a_light_piece_that_hangs_has_a_last_sheet_for_the_wall_which_names_no_sheet_that_is_not_there():
    bare = acts(SHELF_AND_POST)[-1]
    kinds = {draft.kind for draft, _ in paper_sheets("workshop", booked(SHELF_AND_POST))}

    assert bare.title.startswith("Lift it to the wall: ")
    assert bare.puts[1:] == (NO_FIXING, NO_FINISH)
    assert any(mind.startswith("Nobody stands under it until every fixing is in") for mind in bare.minds)
    assert "fixings" not in kinds
    assert not any("see the fixings" in text for _, sheet in sheets(booked(SHELF_AND_POST)) for text in said(sheet))


def test_the_last_sheet_is_no_step_so_that_paper_and_page_count_alike():
    """A post, and a shelf housed in it: two steps; then the wall."""
    book = booked(SHELF_AND_POST)

    assert [draft.title for draft, _ in sheets(book)] == ["steps 1 and 2 of 2", "card G1, the last: to its place"]
    assert [words[0] for _, words in steps_of(book)] == ["1", "2", "LAST"]


FINISHED = '[finish]\nsystem = "hardwax oil"\ncoats = 2\nbefore_assembly = ["post"]\n'


def test_where_a_board_is_finished_before_assembly_steps_and_cards_ask_for_bare_wood_at_its_glue():
    book = booked(FINISHED + SHELF_AND_POST)
    text = " ".join(word for _, display in sheets(book) for word in said(display))

    assert "GLUE at A (bare wood there: mask before finishing)" in text
    assert "A is coated already: its joints must be bare wood, masked before coating." in text
    assert "Finish: hardwax oil, 2 coats; A before assembly; the rest after gluing, in the shop." in text
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
        for page, (_, lines) in zip(pages_of(Desk(booked(text))), steps_of(booked(text)), strict=True):
            for told in (page.act.title, page.act.says, *page.act.puts):
                assert told in " ".join(" ".join(lines).split())
        for page, words in zip(bound(Desk(booked(text))), texts, strict=True):
            minds = [mind for block in page if block.page is not None for mind in block.page.act.minds]
            assert all(words.count(mind) == 1 for mind in minds if " people: " not in mind), "each once a sheet"


def test_both_diagonals_of_a_frame_that_is_no_rectangle_stand_on_its_card_whole():
    """900 below, 850 above, 500 high: sqrt(850^2 + 500^2) = 986.2 one way, sqrt(900^2 + 500^2) = 1029.6 the other."""
    skew = frame([[0, 0], [900, 0], [850, 500], [0, 500]])
    text = " ".join(card(booked(skew)))

    assert f"Outside {math.hypot(850, 500):.1f} and {math.hypot(900, 500):.1f}" in text


# ---- in inches


def test_on_a_job_in_inches_nothing_loose_is_given_in_mm_but_what_is_sold_so():
    """A tongue of 8 x 16 x 276 mm is 0.315 x 5/8 x 10 55/64; a screw is 4 x 60 mm all over the world."""
    inch = HEAD.replace('title = "a case"', 'title = "a case"\nunits = "in"').replace("= 24", '= "24 mm"')
    inch = inch.replace("= 18", '= "18 mm"')
    corners = [[f"{x} mm" for x in point] for point in RECTANGLE]
    box = TONGUES + frame(corners).replace("depth = 300", 'depth = "300 mm"').replace("'", '"')
    text = " ".join(word for _, display in sheets(build(read_job_text(inch + box))) for word in said(display))

    assert "loose tongue 0.315 x 5/8 x 10 55/64" in text
    assert "mean a lean of 1/16: " in text
    assert "276" not in text
    with printing_in("in"):
        assert ware_size(Ware(what="wood screw", says="4 x 60", count=1, in_mm=True)) == "4 x 60 mm"


# ---- more of the card


def test_the_card_of_a_hexagon_names_each_board_once_and_asks_for_a_band_or_blocks():
    book = booked(HEXAGON)
    first, then = card(book), card(book, 1)
    (order,) = [t for t in first if t.startswith("Lay ")]

    assert any(t.startswith("A band right round, or ") for t in first)
    assert "Measure 6 diagonals, front and back; sight for twist." in first
    assert {letter for t in first for letter in re.findall(r"\b[A-F]\b", t)} == set("ABCDEF")
    assert order.count("; add ") == 2
    assert "to hold it square: take it off again when the glue has set." in " ".join(first)
    assert "Measure 6 diagonals, front and back; sight for twist." in then
    assert any("together onto" in t for t in then)
    assert "692.8" in first  # side x sqrt(3), on those that go past one corner
    assert not any("Along " in t for t in first)


def test_the_card_of_dowelled_boards_counts_dowels_and_says_which_steps_of_the_booklet():
    """A step of 8 boards: 40 s to spread and close each joint, 40 more for its two bars."""
    many = (
        FACED
        + board("low", (0, 0), (1800, 0))
        + "".join(board(f"post {n}", (200 * n, 0), (200 * n, 300)) for n in range(1, 8))
    )
    text = card(booked(many))

    assert any(re.fullmatch(r"START THE CLOCK: PVA, D3 on 4 joints, 12 dowels\.", t) for t in text)
    assert any(re.match(r"Steps 2 to 5 dry first", t) for t in text)
    assert "Size 4 faces of end grain: a thin coat; wait 3 min." in text


def test_boards_end_to_end_are_not_said_to_be_held_by_their_fit():
    text = '[joints]\nin_line = "butt"\n' + board("one", (0, 300), (900, 300)) + board("other", (900, 300), (1800, 300))
    words = " ".join(card(booked(text)))

    assert "2 long clamps end to end, or clamps to blocks." in words
    assert "fit" not in words.replace("Dry fit", "")


def test_what_comes_next_is_said_with_its_step():
    alone, halved = (" ".join(card(booked(HEXAGON + more), 1)) for more in ("", board("across", (50, 600), (950, 600))))

    assert "Next: the last sheet, page 7." in alone
    assert "Next: step 8, page " in halved


def test_there_is_no_card_for_a_piece_that_cannot_be_put_together():
    kinds = [draft.kind for draft, _ in sheets(booked(PIECES["locked"]))]

    assert kinds == ["assembly"]


def test_letters_stand_in_rings_on_white():
    display = sheets(build(read_job_text(demo_text("step-shelf"))))[1][1]

    assert any(isinstance(item, Circle) and item.ink == "white" for item in display.items)
