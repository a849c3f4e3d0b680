"""The fixings sheet: where each hole lies on the wall, what the screw's length is made of, and what to look at first.

The record wall's shelf 1 lies at y 140 from x 0 on and is screwed at 1400, 1800 and 2200 along it; the top shelf
begins at x 300, so its hole at 300 lies at x 600. The boards are 300 deep and bored 243: head 3 + grip 57 + worst gap
5 + lining 25 + 30 in the stud = 120, the wood screw 5 x 120, which is countersunk. Beside the counterbore (24.1 - 12)
/ 2 = 6.05 is left.
"""

import math
import re

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

import dryfit
from dryfit.book.demos import demo_text
from dryfit.book.reading import read_job_text
from dryfit.documents.display import Circle, Stroke, Text
from dryfit.documents.faults import faults
from dryfit.documents.looks import Desk
from dryfit.documents.naming import position, printing_in
from dryfit.documents.pdf import pdf
from dryfit.documents.sheets import SHEETS
from dryfit.documents.sheets.fixings.chain import chains, points, zero
from dryfit.documents.sheets.fixings.section import section
from dryfit.documents.sheets.page.frame import finished
from dryfit.documents.workshop import sheets_here, workshop_sheets
from tests.documents import demo_papers
from tests.documents.reading import pages
from tests.joints.typed import board, book_of, job, table

STUDS = {"kind": "plasterboard on timber studs", "lining": 12.5, "hollow": 5, "hung": True, "studs": [200, 1000]}
BRICK = {"kind": "brick", "lining": 12.5, "hollow": 5, "hung": True}
LEVEL = ((0, 500), (1200, 500))


def hung(*lines, wall=STUDS, at=(200, 1000), thickness="27", depth=280, units="mm", **options):
    boards = []
    for number, line in enumerate(lines or (LEVEL,), start=1):
        boards.append(board(f"shelf {number}", [list(p) for p in line], depth, thickness))
        options = {"screw": "wood 6x120", **options}
        boards.append(
            table("[[fixing]]", name=f"f {number}", board=f"shelf {number}", kind="long screw", at=list(at), **options)
        )
    return job(table("[wall]", **wall), *boards, units=units)


@pytest.fixture(scope="module")
def wall():
    return demo_papers.book("record-wall")


def sheets(book):
    """The finished fixings sheets; no other of its paper is drawn."""
    desk = Desk(book)
    with printing_in(book.job.units):
        made = list(sheets_here(SHEETS["fixings"], desk))
        return [(draft, finished(draft, page, len(made), desk)) for page, draft in enumerate(made, start=1)]


def words(book):
    return " ".join(re.sub(r"\s+", " ", text) for text in pages(pdf([display for _, display in sheets(book)], "t")))


def texts(draft):
    return [item.text for item in draft.items if isinstance(item, Text)]


# ---- where the holes lie


def test_the_table_gives_each_hole_of_the_record_wall_on_its_board_and_on_the_wall(wall):
    told = words(wall)

    for row in (
        "1 A shelf 1: 5 1400 1400 140 stud at 1400 wood 5 × 120 12, 5.5 pilot 3.5",
        "3 A shelf 1: 8 2200 2200 140 stud at 2200",
        "4 C shelf 3: 6 1400 1400 960 stud at 1400",
        "7 D top shelf: 1 300 600 1370 stud at 600",
        "10 D top shelf: 8 1900 2200 1370 stud at 2200",
    ):
        assert row in told, row


def test_a_cross_lies_on_paper_where_its_hole_lies_on_the_wall(wall):
    """At 1:20 hole 1, (1400, 140) from the left end of the piece and the floor: 70 right of the zero, 7 above it."""
    draft, _ = sheets(wall)[0]
    floor = next(item for item in draft.items if isinstance(item, Stroke) and item.layer == "floor").points[0][1]
    start = max(item.centre[0] for item in draft.items if isinstance(item, Circle) and item.layer == "dimension")
    arms = [item.points for item in draft.items if isinstance(item, Stroke) and item.layer == "fixing"]
    level = [(p, q) for p, q in arms if p[1] == q[1]]
    found = {(round(((p[0] + q[0]) / 2 - start) * 20, 1), round((floor - p[1]) * 20, 1)) for p, q in level}

    assert draft.scale == "1:20"
    assert found == {(x, y) for y in (140.0, 960.0) for x in (1400.0, 1800.0, 2200.0)} | {
        (x, 1370.0) for x in (600.0, 1400.0, 1800.0, 2200.0)
    }


@pytest.mark.parametrize(
    ("line", "lean"),
    [(((0, 600), (1000, 600)), 0.0), (((0, 600), (1000, 1100)), 26.565), (((1000, 1100), (0, 600)), 26.565)],
    ids=["level", "rising", "drawn from the right"],
)
def test_places_along_a_sloping_board_are_turned_onto_the_wall(line, lean):
    """Along the line from its start; on the wall by sine and cosine of its slope."""
    book = book_of(hung(line, at=(300,), wall={**STUDS, "studs": []}))
    (point,) = points(Desk(book))
    (x0, y0), (x1, y1) = line
    share = 300 / math.dist(*line)

    assert (point.x, point.y) == pytest.approx((x0 + share * (x1 - x0), y0 + share * (y1 - y0)), abs=1e-3)
    datum = 0.0 if x0 < x1 else math.dist(*line)
    assert point.along == pytest.approx(abs(datum - 300), abs=1e-3)
    assert math.degrees(math.atan2(abs(y1 - y0), abs(x1 - x0))) == pytest.approx(lean, abs=1e-3)


@pytest.mark.parametrize(
    ("more", "line", "x", "says"),
    [
        ({}, ((0, 500), (1200, 500)), 0.0, "the left end of the piece"),
        ({}, ((300, 500), (1500, 500)), 0.0, "the job's own zero, 300 left of the piece"),
        ({}, ((-400, 500), (800, 500)), -400.0, "the left end of the piece"),
        ({"left": -250}, ((300, 500), (1500, 500)), -250.0, "the left end of the wall"),
    ],
    ids=["at the zero", "right of it", "left of it", "the room is known"],
)
def test_x_is_counted_from_what_can_be_found_on_the_wall(more, line, x, says):
    found = zero(Desk(book_of(hung(line, wall={**STUDS, "studs": [200], **more}))))

    assert (found.x, found.says) == (x, says)


def test_studs_left_of_the_zero_have_figures_too_counted_to_the_left():
    """The piece begins at 300 and studs at -100 and 100 stand left of that: 400 and 200 left of its end, 700 right."""
    start = {"studs": [-100, 100, 1000]}
    told = words(book_of(hung(((300, 500), (1500, 500)), wall={**STUDS, **start}, at=(700,))))

    assert "studs left of the left end of the piece, counted to the left" in told
    draft, _ = sheets(book_of(hung(((300, 500), (1500, 500)), wall={**STUDS, **start}, at=(700,))))[0]
    zeros = {item.centre[0] for item in draft.items if isinstance(item, Circle) and item.layer == "dimension"}
    figures = {item.text: item.at[0] for item in draft.items if isinstance(item, Text) and item.layer == "dimension"}
    assert {"200", "400", "700"} <= set(figures)
    assert figures["400"] < figures["200"] < max(zeros) < figures["700"]


def test_a_hole_beside_its_stud_says_how_far():
    told = words(book_of(hung(at=(206, 1000))))

    assert "6 right of stud 200" in told
    assert re.search(r"2 A shelf 1: \d 1000 1000 500 stud at 1000\b", told)


# ---- the chain


@pytest.mark.parametrize(
    ("options", "wall", "said"),
    [
        ({}, STUDS, "head 3.6 + grip 62.9 + worst gap 5 + lining 12.5 + held 36 = 120,"),
        ({"screw": "M6x100", "anchor": "sleeve 8x40"}, BRICK, "grip 42.5 + worst gap 5 + lining 12.5 + held 40 = 100,"),
        ({}, {**STUDS, "lining": 0, "hollow": 0}, "head 3.6 + grip 80.4 + held 36 = 120,"),
        ({"grip": 40}, STUDS, "head 3.6 + grip 40 + worst gap 5 + lining 12.5 + held 58.9 = 120,"),
    ],
    ids=["into a stud", "into an anchor", "bare studs, flat", "grip asked"],
)
def test_the_sum_that_makes_the_screw_s_length_is_written_out(options, wall, said):
    """Held is 6 x 6 = 36 in a stud, the sleeve's own 40 in brick, where the grip is not asked for."""
    assert said in words(book_of(hung(wall=wall, **options)))


@given(
    length=st.sampled_from([100, 120, 160, 200]),
    lining=st.sampled_from([0, 12.5, 25]),
    hollow=st.sampled_from([0, 3, 5]),
    deep=st.sampled_from([180, 280, 400]),
)
@settings(max_examples=30, deadline=None)
def test_a_chain_s_links_are_the_screw_s_length_and_never_hold_less_than_is_wanted(length, lining, hollow, deep):
    text = hung(wall={**STUDS, "lining": lining, "hollow": hollow}, depth=deep, screw=f"wood 6x{length}")
    ((chain, _),) = chains(points(Desk(book_of(text))))

    plan = chain.plan
    assert chain.head_counts + plan.grip + sum(size for _, size in chain.links()) == pytest.approx(length)
    assert plan.held >= plan.hold - 1e-9 or plan.grip < 30
    assert plan.grip + plan.deep == pytest.approx(deep)


def test_the_section_is_drawn_at_the_scale_it_names(wall):
    """Full size: the screw 120 with its head of 3, the hole 5.5 and the counterbore 12 wide, the board 24.1."""
    ((chain, found),) = chains(points(Desk(wall)))
    drawn = section(Desk(wall), chain, found, 180.0)
    (shank,) = (item for item in drawn.items if isinstance(item, Stroke) and item.layer == "screw" and item.closed
                and item.pen == "balloon")  # fmt: skip
    wood = [item for item in drawn.items if isinstance(item, Stroke) and item.layer == "section"]
    levels = sorted({round(y, 3) for item in wood for _, y in item.points})
    gaps = {round(high - low, 3) for low in levels for high in levels if high > low}

    assert drawn.scale == 1.0
    assert max(x for x, _ in shank.points) - min(x for x, _ in shank.points) == pytest.approx(120.0)
    assert drawn.unplaced == ()
    assert {5.5, 12.0, 24.1} <= gaps


def test_a_long_chain_is_drawn_smaller_and_says_so():
    book = book_of(hung(screw="wood 8x200", wall={**STUDS, "lining": 60}))

    assert "cut along the screw, 1:2" in words(book)


@pytest.mark.parametrize(
    ("options", "wall", "said"),
    [
        ({}, STUDS, "6.5 on through the grip (usual data sheets (from memory))"),
        ({"screw": "M6x100"}, BRICK, "6.6 on through the grip (ISO 273)"),
        ({"screw": "M6x100", "hole": "fine"}, BRICK, "6.4 on through the grip (ISO 273)"),
        ({"hole_diameter": 7}, STUDS, "7 on through the grip (as asked)"),
        ({"drilled": "by hand"}, STUDS, "a bit by hand may stray"),
    ],
    ids=["wood screw", "ISO 273 medium", "ISO 273 fine", "as asked", "by hand"],
)
def test_the_hole_s_figures_stand_with_their_source(options, wall, said):
    assert said in words(book_of(hung(wall=wall, **options)))


def test_what_is_left_beside_the_bit_is_worked_out(wall):
    """0.3 + 0.5 in 100 over 243 is 1.515; 6.05 - 1.515 = 4.535."""
    told = words(wall)

    assert "(24.1 − 12) / 2 = 6.05; a bit guided may stray 1.50 by there, which leaves 4.55" in told
    assert "least 3; common practice" in told


# ---- what to look at first


def test_the_wall_is_looked_at_first(wall):
    told = words(wall)

    for said in (
        "Cables and pipes: a detector over every hole",
        "supply off at the board",
        "Find both edges of each stud",
        "Level line",
        "hollows over 5 need longer screws",
        "The pull on the screws is not worked out: a screw's or anchor's maker and local rules say what it holds",
        "Lifting: Too heavy for three people (37 kg): 125 kg, a fifth for heavy wood included.",
        "Plugs go in after hanging",
    ):
        assert said in told, said


def test_an_anchor_is_tried_first_and_needs_no_stud():
    told = words(book_of(hung(wall=BRICK, screw="M6x100", anchor="sleeve 8x40")))

    assert "try one anchor where it will not show" in told
    assert "stud" not in told
    assert "anchor sleeve 8x40" in told
    assert "screw M6 × 100 · bits in board 12, 6.6 · bit in wall 8" in told


def test_open_holes_have_no_box_for_a_plug():
    told = words(book_of(hung(plugged=False)))

    assert "Plugs" not in told


# ---- the sheet itself


def test_a_job_without_fixings_has_no_such_sheet():
    book = dryfit.build(read_job_text(demo_text("step-shelf")))

    assert sheets(book) == []


def test_an_inch_job_has_its_holes_in_inches():
    text = hung(((0, 20), (48, 20)), wall={"kind": "timber studs", "hung": True, "studs": [8, 40]}, at=(8, 40),
                depth=11, thickness="24", units="in")  # fmt: skip

    told = words(book_of(text))

    assert "1 A shelf 1: 1 8 8 20 stud at 8" in told
    assert "inches, degrees" in told


ROWS = st.lists(st.tuples(st.integers(300, 2200), st.integers(-800, 900)), min_size=1, max_size=6, unique=True)
ROOM = st.fixed_dictionaries({}, optional={"left": st.integers(-900, -801), "right": st.integers(2500, 6000),
                                           "ceiling": st.integers(2300, 3000)})  # fmt: skip


@settings(max_examples=25, deadline=None)
@given(rows=ROWS, room=ROOM, at=st.lists(st.integers(40, 1160), min_size=1, max_size=5, unique=True).map(tuple))
def test_no_sheet_of_any_wall_has_a_fault_and_every_hole_is_numbered_on_it(rows, room, at):
    """Rows of holes near each other and far apart, in rooms known and unknown."""
    lines = [((x, y), (x + 1200, y)) for y, x in rows]
    book = book_of(hung(*lines, wall={**STUDS, **room}, at=at))
    made = sheets(book)

    for draft, display in made:
        assert faults(display) == [], draft.number
    on_the_wall = [item.text for item in made[0][0].items if isinstance(item, Text) and item.layer == "balloon"]
    assert _numbers(on_the_wall) == set(range(1, len(rows) * len(at) + 1))


def _numbers(said):
    """Figures that stand alone in bold on the wall, and those of runs beside it: "11 to 15"."""
    found = set()
    for text in said:
        if re.fullmatch(r"\d+( to \d+|(, \d+)+( to \d+)?)*", text):
            for low, high in re.findall(r"(\d+)(?: to (\d+))?", text):
                found |= set(range(int(low), int(high or low) + 1)) if int(low) <= 30 else set()
    return {number for number in found if number}


def test_the_workshop_pdf_ends_with_it():
    last = pages(demo_papers.paper("record-wall"))[-1]

    assert "fixings to the wall" in last
    with printing_in("mm"):
        assert "RW-F2" in last


def test_with_a_washer_the_sheet_leaves_the_hold_that_is_left():
    """6 x 120: head 3.6, washer 1.6 (ISO 7089), gap 5, lining 12.5 and grip leave the hold."""
    book = book_of(hung(washer=True))
    ((chain, _),) = chains(points(Desk(book)))
    hold = 120 - 3.6 - 1.6 - 5 - 12.5 - chain.plan.grip
    assert chain.plan.held == pytest.approx(hold)
    said = words(book)
    assert f"held {position(hold)}" in said
    assert "washer 12" in said


def test_few_holes_stand_with_their_wall_on_one_sheet_and_many_on_a_sheet_of_their_own(wall):
    """Two holes; and the record wall's ten. What all holes have in common is said once there, in the heading."""
    few = [draft for draft, _ in sheets(book_of(hung()))]

    assert [draft.number for draft in few] == ["F"]
    assert "screw wood 6 × 120 · bits in board 15, 6.5 · bit in wall pilot 4.2" in words(book_of(hung()))
    assert [draft.number for draft, _ in sheets(wall)] == ["F1", "F2"]


def test_a_screw_has_no_other_sheet_and_what_is_tried_first_stands_on_it(wall):
    """Its parts and what it must reach through are drawn once: the counterbore 12, the hole 5.5, the board 24.1."""
    told = words(wall)

    assert not [draft.title for draft, _ in workshop_sheets(wall) if "long screw" in draft.title]
    for said in ("Measure the screw under its head:", "Bore once in an offcut", "head 10", "hole 5.5", "24.1", "6.05"):
        assert said in told, said
