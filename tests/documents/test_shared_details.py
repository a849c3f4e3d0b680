"""Joints that share a detail: every joint on one sheet, with all its own figures, and the drawing holds for each.

The record wall's raking 2 tapers: it meets the shelves A, B, C, D where it is 23.83, 23.91, 23.99 and 24.08 thick, so
its slots are 23.98, 24.06, 24.14 and 24.23 wide, set to 24.00, 24.05, 24.15 and 24.25; at 82 degrees these are 24.20,
24.30, 24.40 and 24.45 along the face. One drawing serves all four, with letters where these stand. Dividers K and L
stand 8.0 deep in A and hang 6.0 deep in B.

What stands on a sheet is read from the PDF; what must stand there comes from book.json and from the boards' frames in
the world, not from what words the sheets.
"""

import dataclasses
import json
import math
import re
from fractions import Fraction
from functools import partial

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.bookjson import book_data
from dryfit.documents.faults import faults
from dryfit.documents.looks import Desk
from dryfit.documents.naming import depth, notched, position, printing_in, width
from dryfit.documents.pages import joint as place_of
from dryfit.documents.pdf import pdf
from dryfit.documents.sheets import SHEETS
from dryfit.documents.sheets.joint.groups import alike, tag_of
from dryfit.documents.sheets.joint.heading import WIDE, lies
from dryfit.documents.sheets.joint.layout import views
from dryfit.documents.sheets.joint.shared import shared, views_of
from dryfit.documents.sheets.page.frame import finished
from dryfit.documents.workshop import sheets_here
from dryfit.piece.model import WALL
from dryfit.sentences import told
from tests.documents.reading import pages
from tests.documents.test_joint_sheet import HEAD, board, racks
from tests.strategies import pieces

SLOW = [HealthCheck.too_slow, HealthCheck.data_too_large, HealthCheck.filter_too_much]


def details(desk):
    """Sheets of joints and of fixings, each with its text as read back from a PDF."""
    with printing_in(desk.book.job.units):
        drafts = [draft for kind in ("joints", "fixings") for draft in sheets_here(SHEETS[kind], desk)]
        displays = [finished(draft, 1, 1, desk) for draft in drafts]
    for display in displays:
        assert faults(display) == [], "no text on text, none cut off"
    return list(zip(drafts, map(spaced, pages(pdf(displays, title="t"))) if displays else [], strict=True))


def spaced(text):
    return re.sub(r"\s+", " ", text)


def figures_in(text):
    """Every figure of a text; lettering that is turned is read back letter by letter, so spaces tell nothing."""
    return re.sub(r"\s", "", text)


def figures_due(data, key):
    """What book.json says of a joint's cuts, as sheets may print it: widths, depths, positions, shifts face to face.

    Its figures are rounded to 0.001, so one half-way between two that are printed may be either.
    """
    for part in data["parts"]:
        for cut in part["cuts"]:
            if cut["joint"] is None or tuple(cut["joint"]) != key:
                continue
            let_in = cut["form"] in ("slot", "housing", "notch")
            places = [one["at"] for one in cut["position"]]
            yield from (either(position, at) for at in places if let_in)
            if cut["form"] == "slot" and abs(cut["lean"]) > 0.05 and len(places) == 2:
                yield either(position, part["thickness"] * abs(math.tan(math.radians(cut["lean"]))))
            if cut["across"] is not None and let_in:
                yield either(width, cut["across"])
                yield from [either(width, cut["on_face"])] if abs(cut["lean"]) > 0.05 else []
            if cut["deep"] is not None and cut["form"] in ("slot", "housing", "pocket"):
                yield either(depth, cut["deep"])
            beside = position if let_in else notched
            yield from (either(beside, stop["size"]) for stop in cut["stops"])


def either(printed, size):
    return {figures_in(printed(size + off)) for off in (-0.0006, 0.0, 0.0006)}


def holds_every_joint(book):
    desk = Desk(book)
    sheets = details(desk)
    data = json.loads(json.dumps(book_data(book, desk)))
    for joint in book.piece.joints:
        on = [(draft, text) for draft, text in sheets if place_of(joint.key) in {one.place for one in draft.holds}]
        assert len({draft.number.split()[0] for draft, _ in on}) == 1 or WALL in joint.key, joint.key
        text = figures_in(" ".join(text for _, text in on))
        assert figures_in(tag_of(desk, joint)) in text or WALL in joint.key, joint.key
        for figures in figures_due(data, joint.key) if WALL not in joint.key else ():
            assert any(figure in text for figure in figures), (joint.key, joint.kind, figures)
    return sheets


@pytest.mark.parametrize("name", demos())
def test_every_joint_of_a_demo_stands_on_one_sheet_with_all_its_figures(name):
    job = read_job_text(demo_text(name))
    with printing_in(job.units):
        holds_every_joint(build(job))


@settings(max_examples=12, deadline=None, suppress_health_check=SLOW)
@given(drawing=pieces())
def test_every_joint_of_any_piece_stands_on_one_sheet_with_all_its_figures(drawing):
    with printing_in(drawing.job.units):
        holds_every_joint(build(drawing.job))


@pytest.mark.parametrize(("name", "most"), [("record-wall", 10), ("step-shelf", 5), ("sample-grid", 1)])
def test_the_details_of_a_demo_take_no_more_sheets_than_this(name, most):
    """17, 6 and 1 while each joint of other figures had a sheet, and the screw one of its own."""
    assert len(details(Desk(build(read_job_text(demo_text(name)))))) <= most


# --- the letters ---------------------------------------------------------------------------------


def groups(desk):
    """All groups, and how the views of a joint are drawn."""

    def drawn(desk, roles, several):
        return views(desk, roles, several=several)

    here = [some for some in alike(desk) if WALL not in some.first.joint.key]
    return shared(desk, here, drawn, WIDE), drawn


def written(desk, shown):
    """Figures of all texts of views in their order, with what stands in for them."""
    for view in shown:
        for one in view.dimensions:
            yield from (text for mark in one.marks for text in (mark.figure, mark.more) if text)
        for label in view.labels:
            yield told(label.says, desk.book.voice)
            yield from label.more


def holds_for_each_set(desk):
    """A drawing in letters, with a row's figures in their place, has the figures of that row's own drawing."""
    found, drawn = groups(desk)
    for group in found:
        shown = list(written(desk, views_of(desk, group, drawn)))
        for place, some in enumerate(group.sets):
            row = {one.letter: one.values[place] for one in group.columns if one.letter}
            own = list(written(desk, drawn(desk, some.first, len(group.roles) > 1)))
            assert len(own) == len(shown)
            for text, true in zip(shown, own, strict=True):
                filled = LETTER.sub(partial(in_its_place, row), text)
                assert list(map(exact, NUMBER.findall(filled))) == list(map(exact, NUMBER.findall(true))), (text, true)
    return found


NUMBER = re.compile(r"(?<![A-Z\d.])(?:(?:\d+ )?\d+/\d+|\d+(?:\.\d+)?)")  # "28 59/64", "7/8", "24.15", not of "A1"
LETTER = re.compile(r"\b[a-z]\b")


def in_its_place(row, letter):
    return row.get(letter[0], letter[0])


def exact(figure):
    whole, _, part = figure.rpartition(" ")
    return Fraction(part) + (Fraction(whole) if whole else 0)


@pytest.mark.parametrize("name", demos())
def test_a_drawing_in_letters_holds_for_every_joint_that_shares_it(name):
    job = read_job_text(demo_text(name))
    with printing_in(job.units):
        holds_for_each_set(Desk(build(job)))


@settings(max_examples=12, deadline=None, suppress_health_check=list(HealthCheck))
@given(racks())
def test_a_drawing_in_letters_holds_for_any_shelves_and_uprights(rack):
    with printing_in("mm"):
        holds_for_each_set(Desk(build(read_job_text(HEAD + rack))))


def test_raking_2_s_four_slots_share_a_drawing_and_have_a_row_each():
    desk = Desk(build(read_job_text(demo_text("record-wall"))))
    (text,) = [text for draft, text in details(desk) if draft.number == "J×A"]

    for row in (
        "J × A 23.83 23.98 24.00 24.20",
        "J × B 23.91 24.06 24.05 24.30",
        "J × C 23.99 24.14 24.15 24.40",
        "J × D 24.08 24.23 24.25 24.45",
    ):
        assert row in text
    with printing_in("mm"):
        heads = {
            one.letter: one.head
            for group in groups(desk)[0]
            for one in group.columns
            if "J thick" in group.columns[0].head
        }
    assert heads["a"] == "J thick, where it meets"
    assert heads["b"] == "a + clearance 0.15"
    assert heads["c"].endswith("across the walls")
    assert heads["d"] == "on the face: b / sin 82°"
    assert "24.20 on the face" not in text, "the drawing says no figure of one of them"


def test_dividers_8_0_and_6_0_deep_share_a_drawing_and_say_how_each_lies():
    desk = Desk(build(read_job_text(demo_text("record-wall"))))
    (text,) = [text for draft, text in details(desk) if draft.number == "K×A"]

    assert "K × A, L × C 16.1 8.0" in text
    assert "K × B, L × B 18.1 6.0" in text
    assert re.search(r"K × A as drawn lower end: 0 3: upper 969\.9", text)
    assert re.search(r"K × B turned round upper end: 399\.9 3: lower 969\.9", text)
    assert "K × B, L × B: Another board enters the other face of B at this place" in text


# --- what parts them -----------------------------------------------------------------------------

SHELF = board("shelf", "[[0, 600], [2600, 600]]", "shelf")


def raking(name, x, lean, timber="oak", depth=330):
    return board(name, f'[[{x}, 0], ["{x} + 1900 * tan({lean})", 1900]]', timber, depth)


def sets_of(text):
    """Groups of sets of the joints between the shelf, which is 27 thick, and what is given."""
    desk = Desk(build(read_job_text(HEAD + thick(27, "shelf") + SHELF + text)))
    with printing_in("mm"):
        found, _ = groups(desk)
    return [[[roles.joint.key for roles in some.roles] for some in group.sets] for group in found]


def thick(size, name="other"):
    return f'[timber.{name}]\nspecies = "oak, white"\nthickness = {size}\n'


def test_two_alike_are_one_set_and_one_0_2_thicker_has_a_row_of_its_own():
    alike_, other = (sets_of(thick(size) + raking("a", 600, 9) + raking("b", 1600, 9, "other")) for size in (24, 24.2))

    assert [[len(some) for some in group] for group in alike_] == [[2]]
    assert [[len(some) for some in group] for group in other] == [[1, 1]]


@pytest.mark.parametrize(
    "changed",
    [
        raking("b", 1600, -9, "other"),
        raking("b", 1600, 12, "other"),
        raking("b", 1600, 9, "other") + '[[joint]]\nbetween = ["shelf", "b"]\nfront = "b"\n',
    ],
    ids=["its mirror image", "another lean", "opening to the other edge"],
)
def test_what_leans_otherwise_or_opens_to_the_other_edge_shares_no_table(changed):
    """Each with another thickness too, so that they are not made alike: the order or the hand of the cut differs."""
    found = sets_of(thick(24.2) + raking("a", 600, 9) + changed)

    assert [[len(some) for some in group] for group in found] == [[1], [1]]


# --- left and right, seen from the front ------------------------------------------------------------


@settings(max_examples=20, deadline=None, suppress_health_check=list(HealthCheck))
@given(lean=st.sampled_from([-20.0, -9.0, 6.0, 15.0]), turned=st.booleans(), end=st.booleans())
def test_left_and_right_are_those_of_the_board_on_the_wall(lean, turned, end):
    """Whichever way its line is drawn, standing on a shelf or crossing it: by its frame in the world."""
    run = 1000 * math.tan(math.radians(lean))
    points = [f"[1000, {600 if end else 0}]", f"[{1000 + run:.6f}, {1600 if end else 1000}]"]
    text = board("raking", f"[{', '.join(points[::-1] if turned else points)}]")
    desk = Desk(build(read_job_text(HEAD + board("shelf", "[[0, 600], [2600, 600]]") + text)))
    x, y, _ = desk.book.piece.board_by_name["raking"].frame.x
    way = "RIGHT" if x * y > 0 else "LEFT"
    edge = f"the front edge of {desk.marks['shelf']}"

    (text,) = [text for _, text in details(desk)]

    assert f"Head {way}, seen from {edge}" in text
    assert ("RIGHT" in text) is not ("LEFT" in text)


def test_of_two_made_alike_the_one_from_below_is_turned_round_and_the_other_hand_is_the_mirror_image():
    """By half a turn a board that stands on a shelf becomes one that hangs from it; both rise to the right."""
    shelves = board("shelf", "[[0, 600], [2600, 600]]") + board("upper", "[[0, 1200], [2600, 1200]]")
    run = 600 * math.tan(math.radians(9))
    job = shelves + "".join(
        board(name, f"[[{x}, 600], [{x + way * run:.6f}, 1200]]") for name, x, way in (("a", 600, 1), ("b", 1600, -1))
    )
    desk = Desk(build(read_job_text(HEAD + job)))
    with printing_in("mm"):
        (group,), _ = groups(desk)
    found = {roles.joint.key: lies(group, roles) for roles in group.roles}
    first = group.first.joint.key
    (board_of,) = set(first) & {"a", "b"}

    assert found[first] == "as drawn"
    for key, way in found.items():
        if key != first:
            assert way == ("turned round" if board_of in key else "mirror image"), key


def test_units_of_an_inch_job_share_as_well():
    job = read_job_text(demo_text("record-wall"))
    inches = dataclasses.replace(job, units="in")
    with printing_in("in"):
        found = holds_for_each_set(Desk(build(inches)))

    assert any(len(group.sets) > 1 for group in found)
