"""The approval sheet as client and maker get it: every figure on it is the book's, and what is free beside it adds up.

The record wall is 2600 wide, 1620 high and 320 deep: shelves from 0 to 2600, the middle upright from 0 to 1620, raking
boards 320 deep. Put into a room from -140.3 to 2900.2 it has 140.3 free on its left and 300.2 on its right: with 2600
these are 3040.5.
"""

import re
from dataclasses import replace
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.display import Text
from dryfit.documents.faults import faults
from dryfit.documents.looks import Desk
from dryfit.documents.naming import position, printing_in
from dryfit.documents.sheets.approval.place import RoomStretch
from dryfit.documents.workshop import paper_pdf, paper_sheets
from dryfit.documents.writers import WRITERS
from dryfit.findings import CODES
from dryfit.joints import KINDS
from dryfit.lengths import MM_PER
from dryfit.sentences import Mass, Voice
from dryfit.shop.model import Shop
from dryfit.studies.measures.result import Measures
from tests.documents import demo_papers
from tests.documents.reading import pages, sizes
from tests.documents.sums_in_words import value
from tests.joints.typed import job, table
from tests.studies.test_driving import BRICK, fixing, shelf
from tests.studies.test_driving_joined import bay, upright

ROOM = "left = -140.3\nright = 2900.2\nceiling = 2500\nstuds"
NAMED = "demo: Tamsin Orrelby, Lantern Row 4"


def printed(book):
    """The words of each sheet, as they stand."""
    return [re.sub(r"\s+", " ", text) for text in pages(paper_pdf("approval", Desk(book)))]


def wall(old="", new="", shop=None):
    """The record wall's book with its text changed."""
    text = demo_text("record-wall")
    assert old in text
    return build(read_job_text(text.replace(old, new) if old else text), shop)


def test_what_the_client_gets_is_said_with_its_sizes_wood_finish_number_and_mass():
    book = demo_papers.book("record-wall")
    (text,) = printed(book)

    assert "Size: 2600 wide × 1620 high × 320 deep over all, in mm." in text
    assert "Made of: 17 boards: 11 of white oak, edge-glued panel, 23.8 to 24.1 thick; 6 of white oak" in text
    assert len(book.piece.boards) == 17
    assert "Finish: 2 coats of polyurethane varnish." in text
    assert "Hangs on the wall. Screwed to the wall at 10 places." in text
    assert f"Weighs: about {Mass(sum(book.mass_kg.values())).said(Voice())}." in text


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("name", demos())
def test_sizes_over_all_are_those_that_the_measures_study_has_of_the_piece(name, units):
    book = build(replace(read_job_text(demo_text(name)), units=units))
    measured = book.found(Measures)
    with printing_in(units):
        wide, high, deep = (position(b - a) for a, b in zip(measured.low, measured.high, strict=True))
    (text,) = printed(book)

    assert f"{wide} wide × {high} high × {deep} deep over all, in {'mm' if units == 'mm' else 'inches'}" in text
    with printing_in(units):
        drawn = [item.text for _, one in paper_sheets("approval", book) for item in one.items if isinstance(item, Text)]
    assert all(drawn.count(figure) >= 1 for figure in (wide, high, deep)), "each stands at its dimension too"


def test_what_is_free_beside_it_stands_with_the_wall_and_adds_up():
    (text,) = printed(wall("studs ", ROOM))

    for figure in ("140.3", "2600", "300.2", "3040.5", "880"):
        assert re.search(rf"(?<![\d.]){re.escape(figure)}(?![\d.])", text), figure
    assert "where the wall has its" not in text
    assert "how high the room is" not in text


@given(
    st.tuples(*[st.floats(0.06, 5000)] * 3),
    st.floats(-3000, 3000),
    st.sampled_from(["mm", "in"]),
)
def test_the_room_is_what_is_free_and_the_piece_as_they_are_printed(sizes_of, start, units):
    before, size, behind = sizes_of
    low, high = start + before, start + before + size
    with printing_in(units):
        found = RoomStretch(low=low, high=high, start=start, stop=high + behind).figures()
        told = [value(position(one)) for one in (found.before, found.size, found.behind, found.whole)]
        alone = value(position(size))

    assert sum(told[:3]) == told[3]
    assert told[1] == alone, "the piece is told as everywhere else"
    step = 0.1 if units == "mm" else MM_PER["in"] / 64
    assert abs(found.before - before) <= 1.5 * step
    assert abs(found.behind - behind) <= 1.5 * step


def test_an_end_of_the_room_that_is_far_away_is_told_and_one_that_is_too_near_is_said():
    (text,) = printed(wall("studs ", "left = -9000\nright = 2550\nstuds"))

    assert "9000 from the wall's left end." in text
    assert "Reaches 50 over the wall's right end." in text


def test_what_nobody_has_said_is_not_known_yet_and_not_agreed():
    bare = demo_text("record-wall")
    bare = bare[: bare.index("[finish]")] + bare[bare.index("[[board]]") : bare.index("[wall]")]
    (text,) = printed(build(read_job_text(bare)))
    told = text[text.index("Not known yet:") :]

    for words in ("the finish", "what the wall is made of", "its left end and its right end", "the price"):
        assert words in told, words
    assert "what its boards may carry" in told, "nothing that is not worked out looks approved"
    assert "What is not known yet is not agreed by this." in text
    assert "Finish:" not in text


def test_a_wood_of_which_no_weight_is_known_leaves_the_weight_open():
    (text,) = printed(wall('species   = "oak, white"', 'species   = "driftwood"'))

    assert "Weighs" not in text
    assert "what it weighs" in text


def test_a_client_reads_no_joint_no_letter_and_no_code():
    (text,) = printed(demo_papers.book("record-wall"))

    assert not [kind for kind in KINDS if kind in text]
    assert not [code for code in CODES if "-" in code and code in text]
    letters = {part.mark for part in demo_papers.book("record-wall").piece.parts}
    assert not letters & set(text.split())


@pytest.mark.parametrize(("paper", "size"), [("A4", (297, 210)), ("A3", (420, 297)), ("Letter", (279.4, 215.9))])
@pytest.mark.parametrize("name", demos())
def test_it_is_one_sheet_of_the_shop_s_paper_lying_without_a_fault(name, paper, size):
    book = replace(demo_papers.book(name), shop=Shop(paper=paper))
    ((draft, display),) = paper_sheets("approval", book)

    assert faults(display) == []
    assert not [item.text for item in display.items if isinstance(item, Text) and "…" in item.text]
    assert draft.scale in {"1:5", "1:10", "1:20"}
    (found,) = sizes(paper_pdf("approval", Desk(book)))
    assert found == pytest.approx(size, abs=0.1)


def test_both_sign_with_place_and_date_and_a_demo_is_signed_by_nobody():
    (demo,) = printed(demo_papers.book("record-wall"))
    (real,) = printed(wall(NAMED, "Lantern Row 4"))

    for words in ("The client", "The maker", "place and date", "signature", "Lantern Row 4"):
        assert words in real, words
    assert "not to be signed" in demo
    assert "DEMO" not in real
    assert "STOP" not in real


def test_a_piece_in_which_something_must_change_is_not_to_be_signed():
    """A piece that hangs and that nothing holds."""
    book = build(read_job_text(demo_text("step-shelf") + "hung = true\n"))
    assert [stop.code for stop in book.stops] == ["hung-without-fixing"]
    (text,) = printed(book)

    assert "STOP do not sign this sheet: 1 thing must change first" in text
    assert "what holds it" in text


def test_words_that_have_no_room_go_on_and_what_the_signatures_mean_stays_where_they_are_written():
    text = demo_text("record-wall").replace('name   = "divider {i}"', 'name   = "post {i}"')
    timbers = "".join(
        f'\n[timber."a wood with a name of some length, number {n}"]\nspecies = "a wood with a name of some length, '
        f'number {n}"\nform = "panels glued up by hand in the shop"\nthickness = {20 + n / 10}\n'
        for n in range(60)
    )
    boards = "".join(
        f'\n[[board]]\nname = "b{n}"\ntimber = "a wood with a name of some length, number {n}"\n'
        f"line = [[{3000 + 60 * n}, 0], [{3000 + 60 * n}, 900]]\ndepth = 200\n"
        for n in range(60)
    )
    first, *rest = printed(build(read_job_text(text + timbers + boards)))

    assert rest, "sixty woods have no room on one sheet"
    assert "What the signatures mean:" in first
    assert "More on the next sheet, which belongs to this one." in first
    assert "number 59" in " ".join(rest)


# ---- screws and plugs: three in the outer face of each of two sides, at 50, 150 and 250 out of the wall


RINGS = "Those seen from the room or from the left are rings in the drawing."
NO_PLUG = "Screws: no screw or plug can be seen, as far as looked at."


@pytest.mark.parametrize(
    ("text", "says"),
    [
        (bay(), f"Screws: 6 plugs can be seen: 3 on the left side, 3 on the right side. {RINGS}"),
        (bay(upright("cover", -12)), "Screws: 3 plugs can be seen: 3 on the right side."),
        (bay(upright("other", -90)), "Screws: 6 plugs can be seen: 3 on the right side, 3 inside, between boards."),
        (job(BRICK, shelf(), fixing()), f"Screws: 1 plug can be seen: 1 in front. {RINGS}"),
        (job(BRICK, shelf(), fixing(plugged=False)), f"Screws: 1 open screw hole can be seen: 1 in front. {RINGS}"),
        (bay(table("[wall]", left=0, right=624)), NO_PLUG),
        (bay().replace('fasten = "screws"', 'fasten = "dowels"'), "Fastenings: none can be seen, as far as looked at."),
    ],
    ids=["both sides", "one covered", "one inside", "into the wall", "left open", "between walls", "dowels"],
)
def test_it_counts_the_plugs_and_screw_holes_that_can_be_seen_and_says_where(text, says):
    (printed_text,) = printed(build(read_job_text(text)))

    assert f"{says} Not known yet:" in printed_text
    assert "which screws and plugs can be seen" not in printed_text


def test_where_that_is_not_worked_out_it_is_not_known_and_nothing_is_said_of_plugs():
    book = build(read_job_text(bay()))
    left = {name: one for name, one in book.outcomes.items() if name != "driving"}
    (text,) = printed(replace(book, outcomes=left))

    assert "which screws and plugs can be seen" in text[text.index("Not known yet:") :]
    assert "Screws:" not in text


def test_rings_are_drawn_to_scale_where_the_plugs_lie_and_none_that_is_covered():
    def rings(text):
        ((draft, display),) = paper_sheets("approval", build(read_job_text(text)))
        return draft.scale, [item.points for item in display.items if getattr(item, "layer", "") == "rings"]

    scale, found = rings(bay())
    of = 1 / int(scale.removeprefix("1:"))
    boxes = sorted((min(x), max(x), min(y), max(y)) for x, y in (zip(*points, strict=True) for points in found))

    assert len(boxes) == 3, "those of the right side are seen in neither view"
    for left, right, low, high in boxes:
        assert (right - left, high - low) == pytest.approx((12 * of, 12 * of), rel=0.01)
    middles = [(left + right) / 2 for left, right, _, _ in boxes]
    assert [b - a for a, b in pairwise(middles)] == pytest.approx([100 * of, 100 * of])
    assert rings(bay(upright("cover", -12)))[1] == []


def test_it_is_made_where_it_is_asked_for():
    writer = WRITERS["approval"]
    assert (writer.makes, writer.extra) == ("approval.pdf", True)
    ((name, data),) = writer.files(Desk(demo_papers.book("step-shelf")))
    assert name == "approval.pdf"
    assert data.startswith(b"%PDF")
