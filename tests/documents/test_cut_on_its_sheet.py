"""All that a cut asks for stands on the sheet of its part: depths where they are drawn, corners, ways to set an angle.

Figures are worked out here from the lines and sizes of the job by plane trigonometry. A housing 8 deep on its
centre-line whose walls, 20.15 apart, lean 8.326 with a floor square to them is 8 - 10.075 sin 8.326 = 6.54 deep at one
wall and 9.46 at the other. 24.1 on 20 at a right angle: bevels of atan(20 / 24.1) = 39.69 and of 50.31, which no
saw's scale has: on its end the board is sawn at 39.69 too. Over 300 that is 300 x 20 / 24.1 = 249.0.
"""

import math
import re
from decimal import ROUND_HALF_UP, Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from dryfit.book.demos import demos
from dryfit.documents.display import Stroke, Text
from dryfit.documents.looks import Desk
from dryfit.documents.sheets.part.bores import bore_sections
from dryfit.documents.sheets.part.faces.masks import masked
from dryfit.documents.sheets.part.sketches import sketches
from dryfit.documents.sheets.part.stack import surfaces
from dryfit.documents.sheets.part.words.cuts import rows, whole_rows
from dryfit.documents.sheets.part.words.notes import origins
from dryfit.documents.workshop import workshop_sheets
from dryfit.geometry.shapes import Prism
from dryfit.geometry.views import Surface
from dryfit.lengths import inches
from tests.documents import demo_papers
from tests.documents.reading import pages
from tests.joints.typed import board, book_of, frame, job, joint, table
from tests.property.test_leaning_words import book_of as with_setups
from tests.property.test_leaning_words import seen_by_words
from tests.strategies import pieces

ON_SAW = re.compile(r"(\d+(?:\.\d+)?)° on the saw")
EDGE = 0.05


@pytest.fixture(scope="module")
def books():
    return {name: demo_papers.book(name) for name in demos()}


@pytest.fixture(scope="module")
def printed():
    return {name: [text.replace("\xa0", " ") for text in pages(demo_papers.paper(name))] for name in demos()}


def texts(items):
    return [item.text.replace("\xa0", " ") for item in items if isinstance(item, Text)]


def row_of(book, name, number):
    """All words of a cut's row."""
    desk = Desk(book)
    table_of = whole_rows(desk, desk.looks[name])
    start = next(place for place, row in enumerate(table_of) if str(number) in row[0].text.split(","))
    end = next((p for p in range(start + 1, len(table_of)) if not table_of[p][0].joins), len(table_of))
    return " ".join(cell.text for row in table_of[start:end] for cell in row if cell.text).replace("\xa0", " ")


def notes_of(book, name):
    desk = Desk(book)
    return " ".join(run.text for run in origins(desk, desk.looks[name])).replace("\xa0", " ")


# ---- depths where they are drawn


def figure(value, units):
    tenths = Decimal(str(round(value, 6))).quantize(Decimal("0.1"), ROUND_HALF_UP)
    return inches(value, 64) if units == "in" else str(tenths).removesuffix(".0")


def reaches(part):
    """How far its slots and housings reach from an edge, by the shapes that are taken: each with that edge."""
    whole = part.board.depth
    for cut in part.cuts:
        prisms = [shape for shape in cut.shapes if isinstance(shape, Prism)]
        if cut.end or not cut.takes or not prisms or cut.figures.opens.value == "end":
            continue
        low, high = max(prisms[0].low, 0.0), min(prisms[0].high, whole)
        if (low > EDGE) != (whole - high > EDGE):
            yield ("front" if low > EDGE else "wall"), high - low


def dimensioned(draft):
    """What stands on the drawing, not in its table: figures of dimensions, and depths in words along a cut."""
    drawn = (item.text for item in draft.items if isinstance(item, Text) and item.layer != "table")
    return {text.removesuffix(" deep") for text in drawn}


@pytest.mark.parametrize("name", demos())
def test_each_depth_from_either_edge_is_dimensioned_on_the_part_s_drawing(books, name):
    book = books[name]
    drawn = {}
    for draft, _ in demo_papers.sheets(name):
        for part in book.piece.parts:
            if draft.kind.startswith("part") and part.mark in letters(draft.title):
                drawn.setdefault(part.mark, set()).update(dimensioned(draft))
    for part in book.piece.parts:
        for edge, reach in reaches(part):
            assert figure(reach, book.job.units) in drawn[part.mark], (part.mark, edge)


def letters(title):
    """The letters in a sheet's title, of each part on it, those of a run among them: "E, G; F", "B  shelf; F  side"."""
    given = "ABCDEFGHJKLMNPQRSTUVWXYZ"
    marks = []
    sheets = (part.partition("  ")[0] for part in title.split("; "))
    for piece in (one for letters_of in sheets for one in letters_of.split(", ")):
        first, _, last = piece.partition(" to ")
        marks += given[given.index(first) : given.index(last) + 1] if last else [first]
    return marks


# ---- corners of a floor that falls, and what a round cutter leaves


@settings(max_examples=25, deadline=None)
@given(drawing=pieces())
def test_a_floor_that_falls_has_its_depth_at_each_wall_beside_that_wall(drawing):
    """Depth on the centre-line, less or more half the width by the sine of the lean; the greater further in."""
    book = with_setups(drawing.job)
    desk = Desk(book)
    for part in book.piece.parts:
        look = desk.looks[part.id]
        for sketch in sketches(desk, look, roomy=True):
            keys = {getattr(item, "owner", "") for item in sketch.items} & set(look.numbers)
            cut = next((cut for cut in part.cuts if cut.key in keys), None)
            if cut is None or not cut.face or "square to the walls" not in how(book, cut) or part.board.profile[1:]:
                continue
            fall = cut.figures.across / 2 * math.sin(math.radians(abs(cut.figures.lean)))
            both = sorted((cut.figures.deep - fall, cut.figures.deep + fall))
            found = {item.text: item for item in sketch.items if isinstance(item, Text) and item.ground}
            if both[1] - both[0] > EDGE:
                assert sorted(map(float, found)) == pytest.approx(both, abs=EDGE + 1e-9)
                shallow, deep = sorted(found.values(), key=lambda item: float(item.text))
                assert (deep.at[1] > shallow.at[1]) == opens_up(look, cut), "further from its mouth"


def opens_up(look, cut):
    """Whether the face that a housing is let into lies up in its section, by the words over the sections."""
    _, up = seen_by_words(look, cut)
    return look.names.words[Surface.PLUS if cut.face > 0 else Surface.MINUS] == up


def how(book, cut):
    return " ".join(str(said) for key, said in book.studies.get("setups").how if key == cut.key)


def test_corners_to_square_are_told_where_a_router_leaves_them_round(books):
    """A: slots 1, 4, 9 square, 2 and 7 leaning, housing 3 stopped; nothing of the bores 5, 6, 8."""
    assert "Square the corners of 1 to 4, 7, 9 to their walls." in notes_of(books["record-wall"], "shelf 1")
    assert "Square the corners" not in notes_of(books["record-wall"], "divider 1")


def test_a_through_housing_has_no_corner_to_square():
    sides = (board("left", [[100, 0], [100, 900]]), board("right", [[800, 0], [800, 900]]))
    shelf = board("shelf", [[100, 400], [800, 400]])
    through = book_of(job(*sides, shelf))
    stopped = book_of(job(*sides, shelf, joint("shelf", "left", stop="front")))

    assert "Square the corners" not in notes_of(through, "left")
    assert "Square the corners of 1 to their walls." in notes_of(stopped, "left")


def test_a_stopped_housing_has_its_run_and_its_stop_and_they_come_to_the_width(books):
    """M is 15 back and 0.15 of play: 285.0 run, 15.0 stop in 300; under the head "opens to, run, stop"."""
    for name, number in (("shelf 1", 3), ("shelf 2", 6), ("shelf 3", 4)):
        row = row_of(books["record-wall"], name, number)
        run, stop = re.search(r" wall ([\d.]+), ([\d.]+) ", row).groups()
        assert round(float(run) + float(stop), 1) == 300.0


def test_a_bore_has_its_diameters_its_depths_and_its_distance_from_a_face(books):
    """12 to 243 of 300, 5.5 through; the middle of 24.1 is 12.05 from the face side."""
    wall = books["record-wall"]

    assert "12 × 243 deep, 5.5 through" in row_of(wall, "shelf 1", 5)
    assert "Bores are given to their centres, 12.05 from the upper face." in notes_of(wall, "shelf 1")


def test_pockets_seen_through_a_face_are_three_and_not_one_trough(books):
    """Keys 4 thick at 46.7, 140 and 233.3 from the front: on the inside face three outlines 4 wide at either end."""
    desk = Desk(books["record-wall"])
    look = desk.looks["box 1"]
    assert Surface.PLUS in surfaces(look)
    for draft, _ in demo_papers.sheets("record-wall"):
        if draft.kind == "part" and draft.title.startswith("P "):
            strokes = (item for item in draft.items if isinstance(item, Stroke) and item.layer == "wood")
            dashed = [one for one in strokes if "pockets" in one.owner and "hidden" in one.pen]
            spans = [[y for _, y in one.points] for one in dashed]
            assert dashed
            assert all(max(ys) - min(ys) <= 4.0 / 5 + 1e-6 for ys in spans), "none from pocket to pocket, at 1:5"
            return
    raise AssertionError("P has no sheet")


# ---- angles that can be set


@pytest.mark.parametrize("name", demos())
def test_no_sheet_asks_a_saw_for_more_than_45(printed, name):
    found = [float(one) for text in printed[name] for one in ON_SAW.findall(text)]

    assert all(one <= 45.0 for one in found)
    assert found or name != "record-wall"


def test_an_angle_that_is_no_twentieth_is_told_to_its_hundredth(printed):
    """atan(60 / 410) = 8.326, not 8.35; over 300: 43.9."""
    text = " ".join(printed["record-wall"])

    assert f"{math.degrees(math.atan2(60, 410)):.3f}" == "8.326"
    assert "8.33°" in text
    assert "81.67°" in text
    assert "8.35" not in text
    assert "81.65" not in text


@settings(max_examples=15, deadline=None)
@given(
    one=st.sampled_from(["12", "18", "24", "27", "40"]),
    other=st.sampled_from(["12", "18", "24", "27", "40"]),
    wide=st.sampled_from([400, 850, 1400]),
)
def test_a_bevel_is_told_as_it_can_be_set(one, other, wide):
    """The cut runs from where the inside faces meet to where the outside ones do: off square by atan of t over t."""
    book = book_of(
        job(frame([[0, 0], [wide, 0], [wide, 700], [0, 700]], timber=[one, other, one, other], size="outside"))
    )
    for name, own, its in (("box 1", one, other), ("box 2", other, one)):
        off = math.degrees(math.atan2(float(its), float(own)))
        long = wide if name == "box 1" else 700
        row = row_of(book, name, 1)
        angle, rise = map(float, re.search(r"(\d[\d.]*)° (?:on the saw|to the face), (\d[\d.]*) in 300", row).groups())
        set_to = off if off <= 45 else 90 - off
        assert angle == pytest.approx(set_to, abs=0.005 + 1e-9)
        assert rise == pytest.approx(300 * math.tan(math.radians(set_to)), abs=0.05 + 1e-9)
        assert ("on its end" in row) == (off > 45 + 1e-6 and long <= 900)
        assert ("template" in row) == (off > 45 + 1e-6 and long > 900)
        assert ("on its end" in notes_of(book, name)) == ("on its end" in row), "the caution stands on its sheet"


@settings(max_examples=25, deadline=None)
@given(drawing=pieces())
def test_the_angle_of_a_section_its_rest_to_square_and_its_rise_are_those_of_the_lines(drawing):
    book = with_setups(drawing.job)
    desk = Desk(book)
    lines = {spec.name: spec.line for spec in drawing.job.boards}
    for part in book.piece.parts:
        look = desk.looks[part.id]
        for sketch in sketches(desk, look, roomy=True):
            if not sketch.leans or sketch.end:
                continue
            keys = {getattr(item, "owner", "") for item in sketch.items} & set(look.numbers)
            cut = next(cut for cut in part.cuts if cut.key in keys)
            (ax, ay), (bx, by) = (direction(lines[name]) for name in (cut.body, cut.takes))
            between = math.degrees(math.atan2(abs(ax * by - ay * bx), abs(ax * bx + ay * by)))
            said = " · ".join(sketch.says)
            faces, saw, rise = (
                float(re.search(pattern, said)[1])
                for pattern in (r"([\d.]+)° between faces", r"([\d.]+)° on the saw", r"([\d.]+) in 300")
            )
            assert saw == pytest.approx(90 - between, abs=0.0051)
            assert round(saw + faces, 2) == 90.0
            assert rise == pytest.approx(300 * math.tan(math.radians(90 - between)), abs=0.0501)


def direction(line):
    (x0, y0), (x1, y1) = line
    return x1 - x0, y1 - y0


# ---- lengths that follow from the wood


@pytest.mark.parametrize(
    ("name", "fitted"),
    [
        ("divider 1", {"A", "B"}),
        ("divider 2", {"B", "C"}),
        ("stopped divider", {"B", "C"}),
        ("slanting divider", {"C", "D"}),
    ],
)
def test_a_board_between_two_others_is_fitted_to_both(books, name, fitted):
    assert tags(books["record-wall"], name) == {f"FIT TO {mark}" for mark in fitted}


@pytest.mark.parametrize("name", ["shelf 1", "raking 1", "box 1", "box 2"])
def test_what_runs_on_or_is_set_out_by_its_frame_is_fixed(books, name):
    assert tags(books["record-wall"], name) == {"FIXED"}


def tags(book, name):
    """Of the ends' rows."""
    desk = Desk(book)
    look = desk.looks[name]
    ends = {str(look.numbers.get(cut.key, "")) for cut in look.part.cuts if cut.end}
    found = (row for row in rows(desk, look) if row[0].text in ends and " end" in f"{row[1].text} ")
    return {text for row in found for cell in row for _, text in cell.tags}


def test_a_board_let_in_at_one_end_and_free_at_the_other_is_fixed():
    text = job(board("side", [[100, 0], [100, 900]]), board("shelf", [[100, 400], [800, 400]]))
    (end,) = (cut for cut in book_of(text).piece.part_by_name["shelf"].cuts if cut.end and cut.joint)

    assert end.size_is == "FIXED"


def test_the_list_of_boards_says_what_a_length_is_fitted_to(printed):
    text = " ".join(" ".join(printed["record-wall"][1:4]).split())

    assert re.search(r"divider 1 399\.9 .*? ends only FIT TO A, B", text)


# ---- finish


def test_what_is_masked_of_a_board_that_is_finished_first_is_where_the_other_closes_in_on_it(books):
    """H crosses A at y 140, 8 degrees off plumb; A is 24.1 thick and 300 deep, slotted 150.5 from the front, H 320.

    H is slotted from the wall, up to 150.5; beyond it lies within A's slot: between A's faces, 24.1 / cos 8 = 24.34
    along H, from its seat at 150.5 to A's front edge at 300, 20 short of its own. The middle of the band lies where the
    centre-lines cross, and 12.05 / tan 82 = 1.69 to either side of it on the two faces.
    """
    desk = Desk(books["record-wall"])
    look = desk.looks["raking 1"]
    middle = (140 - look.part.board.frame.origin[1]) / math.cos(math.radians(8)) - look.part.zero
    for face, side in ((Surface.PLUS, 1), (Surface.MINUS, -1)):
        areas = masked(desk, look, face)
        assert len(areas) == 4
        first = min(areas, key=lambda area: area.bounds[0])
        low, seat, high, front = first.bounds
        assert high - low == pytest.approx(24.1 / math.cos(math.radians(8)), abs=0.05)
        assert (seat, front) == pytest.approx((150.5, 300.0), abs=0.05)
        shift = (12.05 + 1.0) * math.tan(math.radians(8))  # looked for 1 outside the face
        assert (low + high) / 2 == pytest.approx(middle - side * shift, abs=0.05)


def test_the_sheet_says_what_is_coated_when_and_boards_of_which_nothing_is_said_say_nothing(books):
    said = notes_of(books["record-wall"], "raking 1")

    assert "2 coats of varnish, polyurethane before assembly." in said
    assert "(in line with 1 to 4, 150.5 to 300 from the wall edge)" in said, "from the seat to 20 short of its own edge"
    assert "the walls and seats of 1 to 4" in said
    assert "coat" not in notes_of(books["record-wall"], "shelf 1")


def test_a_long_bore_is_drawn_with_its_diameters_its_depth_and_how_far_its_axis_lies_from_the_face(books):
    """A is 300 deep and 24.1 thick: 12 wide for 243, which leaves a grip of 57 for the 5.5, in the middle at 12.05."""
    look = Desk(books["record-wall"]).looks["shelf 1"]

    (section,) = bore_sections(look)

    assert sorted(texts(section.items)) == ["12", "12.05", "243", "5", "5.5", "6", "8"]
    assert bore_sections(Desk(books["record-wall"]).looks["shelf 2"]) == []


@pytest.mark.parametrize("name", ["A", "C", "D"])
def test_every_board_with_long_bores_has_their_section_on_its_sheet(printed, name):
    (page, *_) = [text for text in printed["record-wall"] if re.search(rf"RW-{name}\b", text)]

    assert "cut across, front right" in page


@pytest.mark.parametrize(
    ("name", "said"),
    [
        ("record-wall", "Before assembly: H, J, joints masked"),
        ("record-wall", "When A to G, K to S are coated: not known yet."),
        ("step-shelf", "Coats: not known yet."),
    ],
)
def test_the_lists_say_once_what_is_known_of_the_finish(printed, name, said):
    text = " ".join(" ".join(page.split()) for page in printed[name])

    assert text.count(said) == 1


def test_glued_faces_stay_bare_where_joints_are_coated():
    """With joint zones coated, only what is glued is masked: K is glued into A, the crossing stays dry."""
    text = job(
        table(
            "[finish]",
            system="varnish, polyurethane",
            coats=2,
            film=0.03,
            before_assembly=["post"],
            joint_zones="coated",
        ),
        board("shelf", [[0, 300], [900, 300]]),
        board("top", [[0, 700], [900, 700]]),
        board("post", [[400, 0], [400, 700]]),
    )
    book = book_of(text)
    desk = Desk(book)
    glued = {joint.key for joint in book.piece.joints if joint.glued}
    look = desk.looks["post"]
    areas = masked(desk, look, look.names.face_side)

    assert glued == {("post", "top")}
    assert len(areas) == 1, "the end in the top; nothing beside the shelf"
    assert "the end that is jointed" in notes_of(book, "post")


@settings(max_examples=12, deadline=None)
@given(drawing=pieces())
def test_each_depth_of_any_piece_is_on_its_part_s_drawing(drawing):
    book = with_setups(drawing.job)
    drawn = {}
    for draft, _ in workshop_sheets(book):
        for part in book.piece.parts:
            if draft.kind.startswith("part") and part.mark in letters(draft.title):
                drawn.setdefault(part.mark, set()).update(dimensioned(draft))
    for part in book.piece.parts:
        for edge, reach in reaches(part):
            assert figure(reach, "mm") in drawn[part.mark], (part.mark, edge, reach)
