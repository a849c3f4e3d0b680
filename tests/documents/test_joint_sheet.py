"""Details of joints: the figures printed are those worked by hand, gaps can be seen, nothing collides, hands are told.

Worked by plane trigonometry, apart from this project's code. Boards 24 thick crossing at 81 degrees with 0.15 of play:
across the walls 24 + 0.15 = 24.15; on the face 24.15 / sin 81 = 24.451; the marks of the two faces lie 24 / tan 81 =
3.801 apart; 9 degrees rise 300 tan 9 = 47.5 in 300; both boards 330 deep, 1.0 between the seats: 165 + 0.5 = 165.5.
The raking board stands at x = 650 and meets the shelf, 600 up, at 650 + 600 tan 9 = 745.031: its near wall is marked
at 745.031 - 24.451 / 2 + 3.801 / 2 = 734.7 above and 730.9 below. Widths are printed to 0.05, the rest to 0.1.

Two unlike thicknesses, 33 and 21 at 60 degrees with 0.3 (worked case K1): slot in the 33 board 21.30 across, 24.595 on
the face, shift 19.053; in the 21 board 33.30, 38.452 and 12.124. A corner of 27 and 18 at a right angle (K4): bevels
atan(18 / 27) = 33.690 and 56.310. A key's pocket of a 100 cutter plunged 12 (K6) reaches 15.296 on either face. An end
20 thick at 70 degrees let 8 into a face (K5): 20.20 across, 21.496 on the face, 7.279 from long to short point.
"""

import dataclasses
import math
import re

import pytest
import shapely
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.display import Stroke, Text
from dryfit.documents.faults import faults
from dryfit.documents.looks import Desk
from dryfit.documents.naming import printing_in
from dryfit.documents.pdf import pdf
from dryfit.documents.sheets import SHEETS
from dryfit.documents.sheets.joint.figures.printed import figures
from dryfit.documents.sheets.joint.groups import alike, hand, one
from dryfit.documents.sheets.joint.layout import sentences, titled, views
from dryfit.documents.sheets.joint.roles import Roles
from dryfit.documents.sheets.joint.shared import by_itself
from dryfit.documents.sheets.joint.stance import stances
from dryfit.documents.sheets.joint.views.along import along_view
from dryfit.documents.sheets.joint.views.front import front_view
from dryfit.documents.sheets.page.frame import finished
from dryfit.documents.workshop import sheets_here, workshop_pdf
from dryfit.joints import KINDS
from dryfit.sentences import Length, Name, say
from tests.documents.reading import pages
from tests.joints.kinds import PAIRS
from tests.piece.making import asked, job_of, plank

HEAD = """\
dryfit = 1
[job]
title = "Listening wall"
[timber.oak]
species = "oak, white"
form = "panel"
thickness = 24
[wall]
hung = true
"""
WHITE = 1.2  # least white between two outlines, each 0.7 wide


def board(name, line, timber="oak", depth=330):
    return f'[[board]]\nname = "{name}"\ntimber = "{timber}"\nline = {line}\ndepth = {depth}\n'


SHELF = board("long shelf", "[[0, 600], [2600, 600]]")
RIGHT = board("raking 1", '[[650, 0], ["650 + 1900 * tan(9)", 1900]]')
LEFT = board("raking 2", '[[2080, 0], ["2080 - 1900 * tan(9)", 1900]]')


def book_of(text):
    return build(read_job_text(HEAD + text))


def joint_pages(book):
    """The text of each page of details, spaces made single."""
    read = [re.sub(r"\s+", " ", text) for text in pages(pdf(details(book, Desk(book)), "details"))]
    assert all("kind of paper joint" in text for text in read)
    return read


def details(book, desk):
    """Finished sheets of details; no other of their paper is drawn."""
    with printing_in(book.job.units):
        return [finished(draft, 1, 1, desk) for draft in sheets_here(SHEETS["joints"], desk)]


def squeezed(text):
    """A text without its spaces: lettering that is turned is read back letter by letter."""
    return re.sub(r"\s", "", text)


def page_of(book, words):
    (text,) = [text for text in joint_pages(book) if words in text]
    return text


def sheets(book):
    """Finished sheets of details; nothing of their views is left out for want of room."""
    desk = Desk(book)
    with printing_in(book.job.units):
        for group in alike(desk):
            assert [one for view in titled(desk, views(desk, group.first)) for one in view.unplaced] == []
    return details(book, desk)


def texts(items):
    return [item.text for item in items if isinstance(item, Text)]


# --- figures, read back from the PDF -----------------------------------------------------------------


@pytest.mark.parametrize(
    "words",
    [
        "24.45 on the face",
        "24.15",
        "across the walls",
        "shift 3.8",
        "81°",
        "9° on the saw",
        "47.5 in 300",
        "165.5 deep",
        "upper 734.7",
        "lower 730.9",
        "gap at the seat 1.0",
        "A's slot 165.5",
        "B's slot 165.5",
        "24.15 / sin 81°",
        "24.45 less 3.8 less 2 × 1.5",
        "24 / tan 81°",
        "165 (half of 330) + half the gap 0.5",
        "24.15 square across, 24.45 along the face",
        "play exaggerated 26 times",
        "gap at the seats exaggerated 10 times",
    ],
)
def test_a_raked_halving_s_figures_are_those_of_plane_trigonometry(words):
    assert squeezed(words) in squeezed(page_of(book_of(SHELF + RIGHT), "raked cross halving"))


def two(first, second):
    """Timbers a and b of these thicknesses."""
    return "".join(
        f'[timber.{name}]\nspecies = "oak, white"\nthickness = {size}\n' for name, size in (("a", first), ("b", second))
    )


K1 = (
    f"{two(33, 21)}[joints]\nclearance = 0.3\n"
    + board("A", "[[0, 500], [1200, 500]]", "a", 300)
    + board("B", '[[300, 0], ["300 + 1000 * tan(30)", 1000]]', "b", 300)
)
K4 = f"""{two(27, 18)}[joints.mitre]
strengthen = "keys"
[[frame]]
name = "box"
timber = ["a", "b", "a", "b"]
points = [[0, 0], [600, 0], [600, 400], [0, 400]]
depth = 300
"""
K5 = (
    f'{two(25, 20)}[joints]\nclearance = 0.2\n[joints.housing]\ndepth = 8\nraked = "floor parallel to face"\n'
    + board("B", "[[0, 500], [1200, 500]]", "a", 300)
    + board("A", '[[400, 500], ["400 + 400 / tan(70)", 900]]', "b", 300)
)
DOWELS = (
    '[joints]\nend_on_face = "butt"\n[joints.butt]\ndowel = 8\nin_face = 12\nin_end = 24\n'
    + board("shelf", "[[0, 500], [1000, 500]]", depth=300)
    + board("divider", "[[500, 500], [500, 900]]", depth=260)
)


@pytest.mark.parametrize(
    ("job", "words"),
    [
        (K1, ("21.30", "24.60 on the face", "shift 19.1", "33.30", "38.45", "12.1", "60°", "30° on the saw")),
        (
            K4,
            (
                "33.69° on the saw",
                "on its end, 33.69° on the saw",
                "the board on its end",
                "key 15.3",
                "18 × tan 56.31°",
                "27 × tan 33.69°",
                "50",
                "150",
                "250",
            ),
        ),
        (K5, ("20.20", "21.50 on the face", "70°", "20° on the saw", "8.0 deep", "long point past the short point")),
        # dowels of 8, 12 in the face and 24 in the end, each hole 1 deeper for the glue; three over 260: 260 / 6 = 43.3
        (DOWELS, ("13.0 deep", "25.0 deep", "43.3", "130", "216.7", "3 × dowel, grooved 8 x 36")),
    ],
    ids=["K1 unlike thicknesses", "K4 and K6 mitre with keys", "K5 raked housing", "dowels"],
)
def test_worked_cases_stand_on_their_sheets(job, words):
    text = squeezed(" ".join(joint_pages(book_of(job))))

    for said in words:
        assert squeezed(said) in text, said


def test_a_key_s_pocket_has_one_zero_on_the_part_s_sheet_and_on_the_joint_s():
    """Level boards 300 deep, plumb ones 240, both from the wall: two keys, 60 and 180 from it, 60 from either edge.

    From the front edge of a board 300 deep that is 240 and 120; the wall edge follows at 300.
    """
    unlike = K4.replace("depth = 300", "depth = [300, 240, 300, 240]")
    text = [re.sub(r"\s+", " ", page) for page in pages(workshop_pdf(book_of(unlike)))]
    parts = [page for page in text if "kind of paper part" in page]
    joints = [page for page in text if "kind of paper joint" in page]

    assert any("2 at 120, 240 from the front edge" in page for page in parts)
    assert joints
    for page in joints:
        assert "places from the front edge" in page
        assert "120 240 300" in page


def test_the_bevel_of_a_raked_housing_is_7_3_from_long_to_short_point():
    """20 tan 20 = 7.279 (K5)."""
    book = book_of(K5)
    (joint,) = book.piece.joints

    found = {row.size: row.value for row in figures(Roles.of(Desk(book), joint))}

    assert (found["long point"], found["goes in"]) == ("7.3", "8.0")


def test_a_job_in_inches_has_its_details_in_inches():
    """Plywood 23/32 = 0.719, slots 1/128 wider: 0.727; half of 11 3/4 and half of 1 mm between the seats: 5 57/64."""
    text = page_of(build(read_job_text(demo_text("sample-grid"))), "40 of these")

    for words in ("0.727", "5 57/64 deep", "3 9/64", "8: 83 41/64", "0.719 + clearance 0.008", "inches, degrees"):
        assert squeezed(words) in squeezed(text), words
    assert " mm " not in text


# --- gaps that can be seen ---------------------------------------------------------------------------


def outlines(view, owner):
    lines = [item for item in view.wood if isinstance(item, Stroke) and item.pen == "cut wood" and item.owner == owner]
    return shapely.union_all(
        [shapely.LineString([*item.points, item.points[0]] if item.closed else item.points) for item in lines]
    )


@settings(max_examples=40, suppress_health_check=list(HealthCheck))
@given(PAIRS["cross halving"]())
def test_between_two_boards_that_have_play_white_is_drawn(pair):
    """At least 1.2 clear between two lines of 0.7, whatever scale the section is drawn at."""
    book = build(pair.job())
    desk = Desk(book)
    for joint in book.piece.joints:
        for stance in stances(desk, joint):
            if stance.gap is None:
                continue  # square walls for a leaning board: wedges, as they are
            view = front_view(desk, stance)
            apart = outlines(view, stance.main.id).distance(outlines(view, stance.other.id))
            assert apart >= WHITE + 0.7 - 1e-6


def test_the_gap_at_the_seats_is_drawn_so_that_it_can_be_seen_and_its_factor_said():
    """1.0 at 1:5 is 0.2 on paper; ten times that is 2.0 between two lines of 0.7: 1.3 of white."""
    book = book_of(SHELF + RIGHT)
    desk = Desk(book)
    first, second = stances(desk, book.piece.joints[0])

    view = along_view(desk, first, second.cut)

    hatched = outlines(view, first.main.id)
    seat = [x for x, _ in shapely.get_coordinates(hatched) if x > hatched.bounds[0] + 1.0]
    white = outlines(view, second.main.id)
    inner = sorted({round(x, 3) for x, _ in shapely.get_coordinates(white)})
    assert min(abs(a - b) for a in seat for b in inner) == pytest.approx(2.0, abs=0.01)
    assert view.says == ("gap at the seats exaggerated 10 times",)


# --- nothing collides --------------------------------------------------------------------------------


@pytest.mark.parametrize("name", demos())
def test_no_detail_of_a_demo_has_a_fault_and_no_word_is_cut_short(name):
    for sheet in sheets(build(read_job_text(demo_text(name)))):
        assert faults(sheet) == []
        assert [text for text in texts(sheet.items) if text.endswith("…")] == []


@pytest.mark.parametrize("kind", sorted(PAIRS))
def test_no_detail_of_any_two_boards_has_a_fault(kind):
    """Angles from 15 to 165, thicknesses, depths, set-backs, films and options of every kind: words give way."""

    @settings(max_examples=40, suppress_health_check=list(HealthCheck))
    @given(PAIRS[kind](), st.sampled_from(["mm", "in"]))
    def holds(pair, units):
        book = build(dataclasses.replace(pair.job(), units=units))
        for sheet in sheets(book):
            assert faults(sheet) == []

    holds()


def test_every_joint_has_its_detail():
    book = build(read_job_text(demo_text("record-wall")))
    told = " ".join(text for sheet in sheets(book) for text in texts(sheet.items))

    groups = alike(Desk(book))
    assert sum(len(group.roles) for group in groups) == len(book.piece.joints)
    for name in (
        "raked cross halving",
        "cross halving",
        "stopped housing",
        "raked housing",
        "mitre with keys",
    ):
        assert name in told


def test_a_slot_without_a_seat_and_a_shelf_called_keys_have_their_sheets_too():
    """Common depth 5, ten between the seats: the shallow board is cut through. Names never pass for what is let in."""
    job = (
        '[joints."cross halving"]\nend_clearance = 60\n'
        + board("keys", "[[0, 500], [1000, 500]]", depth=30)
        + board("wall shelf", "[[500, 0], [500, 1000]]", depth=300)
        + board("keys 1", "[[0, 800], [1000, 800]]", depth=300)
    )
    for sheet in sheets(book_of(job)):
        assert faults(sheet) == []


def unheard(name):
    """A kind by a name that no room can have been told of, which does what this one does."""
    return type("Unheard", (type(KINDS[name]),), {"name": f"unheard {name}"})()


@pytest.mark.parametrize("kind", [unheard("sliding dovetail"), unheard("pins in slots")], ids=lambda kind: kind.name)
def test_a_kind_that_no_sheet_has_been_told_of_has_its_detail(monkeypatch, kind):
    """What is drawn is read from cuts, gaps and notes: a new kind asks for no drawing of its own."""
    monkeypatch.setitem(KINDS, kind.name, kind)
    boards = plank("A", (0, 600), (800, 600), thickness=27), plank("B", (0, 0), (0, 1200), thickness=27)
    book = build(job_of(*boards, joint_specs=(asked("A", "B", kind.name),)))

    (joint,) = book.piece.joints
    assert joint.kind == kind.name
    for sheet in sheets(book):
        assert faults(sheet) == []
        assert kind.name in " ".join(texts(sheet.items))


# --- alike, and not ----------------------------------------------------------------------------------


def said_of(desk, roles):
    """All that the views, tables and sentences of one joint print, but for positions along boards and hands."""
    parts = {desk.marks[name]: f"board {roles.part(name)}" for name in roles.names}
    sections = [view for view in views(desk, roles) if view.title.startswith(("section", "cut along"))]
    drawn = [text for placed in titled(desk, sections) for text in texts(placed.items)]
    signed = [re.sub(r"\b[A-Z]\b", lambda found: parts.get(found[0], found[0]), text) for text in drawn]
    rows = [(*map(roles.alike, (row.name, row.what, row.sum)), row.value) for row in figures(roles)]
    words = [[(roles.alike(run.words), run.weight) for run in runs] for runs in one(desk, roles.joint).words]
    return sorted(signed), words, rows


@st.composite
def racks(draw):
    """Shelves and uprights that differ in thickness, depth and lean, or nearly, or not at all."""
    sizes = st.sampled_from([24.0, 24.0, 24.02, 24.3])
    leans = st.sampled_from([0, 0, 9, -9, 9.01, 20])
    depths = st.sampled_from([300, 300, 330])
    parts = [f'[timber.t{n}]\nspecies = "oak, white"\nthickness = {draw(sizes)}\n' for n in range(5)]
    for n in range(2):
        y = 500 + 400 * n
        parts.append(board(f"shelf {n}", f"[[0, {y}], [2400, {y}]]", f"t{n}", draw(depths)))
    for n in range(3):
        x = 500 + 700 * n
        run = 1200 * math.tan(math.radians(draw(leans)))
        line = f"[[{x}, 0], [{x + run:.6f}, 1200]]"
        parts.append(board(f"upright {n}", line, f"t{2 + n}", draw(depths)))
    return "".join(parts)


@settings(max_examples=25, suppress_health_check=list(HealthCheck))
@given(racks())
def test_joints_share_a_detail_only_if_all_that_is_printed_of_them_is_the_same(rack):
    book = book_of(rack)
    desk = Desk(book)
    for group in alike(desk):
        first = said_of(desk, group.first)
        for roles in group.roles[1:]:
            assert said_of(desk, roles) == first, (roles.joint.key, group.first.joint.key)


def test_joints_that_differ_by_less_than_is_printed_share_a_detail_and_others_do_not():
    """24.02 prints as 24.02: thicknesses are given as measured. 9.004 prints as 9 degrees."""
    other = board("raking 2", '[[2080, 0], ["2080 + 1900 * tan(9.004)", 1900]]')
    further = board("raking 2", '[[2080, 0], ["2080 + 1900 * tan(9.01)", 1900]]')

    assert len(alike(Desk(book_of(SHELF + RIGHT + other)))) == 1
    assert len(alike(Desk(book_of(SHELF + RIGHT + further)))) == 2


def test_the_two_hands_of_a_lean_share_a_sheet_and_are_told_apart():
    book = book_of(SHELF + RIGHT + LEFT)
    (group,) = alike(Desk(book))
    text = page_of(book, "raked cross halving")

    assert [hand(roles) for roles in group.roles] == [1, -1]
    assert "alike, mirror image: A × C" in text
    assert "Head RIGHT, seen from the front edge of A or the wall edge of B." in text
    assert "The mirror image, leaning the other way: A × C" in text
    assert re.search(r"A × B as drawn 1: upper 734\.7, lower 730\.9 1: upper \S+, lower \S+", text)
    assert re.search(r"A × C mirror image 3?2?: upper 1970\.8, lower 1974\.6 \d: upper \S+, lower \S+", text)


@pytest.mark.parametrize("run", [9, -9], ids=["right", "left"])
def test_the_section_leans_as_the_piece_does_seen_from_the_front(run):
    """A board whose head lies right of its foot on the wall is drawn with its head to the right."""
    book = book_of(SHELF + board("raking", f'[[1300, 0], ["1300 + 1900 * tan({run})", 1900]]'))
    desk = Desk(book)
    stance = stances(desk, book.piece.joints[0])[0]

    wood = outlines(front_view(desk, stance), "raking")
    steepest = max(shapely.get_parts(wood), key=lambda line: line.length)
    (x0, y0), *_, (x1, y1) = sorted(steepest.coords, key=lambda p: p[1])  # y grows down the sheet: the head first

    assert math.degrees(math.atan2(x0 - x1, y1 - y0)) == pytest.approx(run, abs=0.01)


def test_a_housing_from_below_is_the_same_as_one_from_above_turned_round():
    """Both ends of a plumb divider between two shelves alike."""
    job = (
        board("lower", "[[0, 200], [1000, 200]]", depth=300)
        + board("upper", "[[0, 600], [1000, 600]]", depth=300)
        + board("divider", "[[500, 200], [500, 600]]", depth=300)
    )

    (group,) = alike(Desk(book_of(job)))

    assert len(group.roles) == 2
    assert {roles.shown[0].sigma for roles in group.roles} == {1.0, -1.0}


# --- words -------------------------------------------------------------------------------------------


def test_names_become_letters_in_every_sentence_even_where_one_name_holds_another():
    job = board("shelf", "[[0, 300], [1000, 300]]") + board("shelf 1", "[[500, 0], [500, 900]]")
    book = book_of(job)
    (group,) = alike(Desk(book))

    order = " ".join(run.text for run in sentences(Desk(book), by_itself(group))[0])

    assert re.search(r"^Order\. [AB] first, slot up; [AB] drops onto it", order)
    assert "shelf" not in order


def test_what_is_said_of_two_joints_is_alike_where_their_boards_have_the_same_parts_in_it():
    """Told to 0.1, so 24.02 is 24; the shelf is drawn level, so it is the first in either; a third board is a third."""
    desk = Desk(book_of(SHELF + RIGHT + board("other", "[[700, 0], [700, 900]]")))
    one, two = (Roles.of(desk, joint) for joint in desk.book.piece.joints)

    def said(roles, mm=24.0):
        return say("{} of {} in {}", Length(mm), roles.other, roles.main)

    assert one.names != two.names
    assert one.alike(said(one)) == two.alike(said(two)) == two.alike(said(two, 24.02))
    assert one.alike(said(one)) != two.alike(said(two, 24.3))
    assert two.alike(say("{}", two.main)) != two.alike(say("{}", Name(one.names[1]))) != two.alike(say("{}", two.other))
    assert two.alike(say("{}", Name("0"))) != two.alike(say("{}", two.main))


@pytest.mark.parametrize(
    ("words", "job"),
    [
        ("Measure B where it enters:", SHELF + RIGHT),
        ("None: leave it dry.", SHELF + RIGHT),
        ("A tilted router wants to slide downhill", SHELF + RIGHT),
        (
            "side on end grain",
            board("shelf", "[[0, 500], [1000, 500]]") + board("divider", "[[500, 500], [500, 900]]"),
        ),
    ],
)
def test_a_detail_says_what_to_measure_what_is_glued_and_what_can_hurt(words, job):
    assert words in " ".join(joint_pages(book_of(job)))


def test_a_warning_of_the_joint_stands_on_its_detail():
    """20 degrees between the boards is shallow (common practice: below 30)."""
    flat = board("flat", '[[300, 400], ["300 + 1600 * cos(20)", "400 + 1600 * sin(20)"]]')

    assert "Look. B and A meet at 20°: " in page_of(book_of(SHELF + flat), "raked cross halving")


@pytest.mark.parametrize(("called", "neutral"), [("a", "flat"), ("and", "flat"), ("it", "flat"), ("slot", "plank")])
def test_a_board_called_as_a_word_of_the_sentences_changes_no_other_word(called, neutral):
    """Halved at 20 degrees: the notes say "slot" and "it", the warning "and"; names in like order."""
    line = '[[300, 400], ["300 + 1600 * cos(20)", "400 + 1600 * sin(20)"]]'
    plain, named = (page_of(book_of(SHELF + board(name, line)), "raked cross halving") for name in (neutral, called))

    said = plain[plain.index("Order. ") : plain.index("Mind. ")]
    assert "meet at 20°: turn one of the boards further, or mind" in said
    assert named[named.index("Order. ") : named.index("Mind. ")] == said
