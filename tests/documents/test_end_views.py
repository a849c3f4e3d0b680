"""Ends seen from outside, and in section: what stands on them is measured from the front edge and the face side.

A divider 20 thick and 300 deep, housed 8 deep and stopped 15 behind its front, clearance 0.15: its tongue is notched
back 15.15, goes in 7.0 and leaves 1.0 under it. A tail 27 thick, 12.7 at its tip, 9 long at 7 degrees and an eighth:
its neck is 12.7 - 2 x 9 tan 7.125 = 10.45 and each shoulder (27 - 12.7) / 2 = 7.15 at the tip.
"""

import math

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from shapely import Polygon, box, unary_union

from dryfit.documents.display import Stroke, Text, extent
from dryfit.documents.faults import faults
from dryfit.documents.looks import Desk, Look
from dryfit.documents.sheets.part.ends.sections import end_sections
from dryfit.documents.sheets.part.ends.views import end_views
from dryfit.documents.workshop import workshop_sheets
from dryfit.geometry.frames import Frame
from dryfit.geometry.shapes import Bore, half_space, prism
from dryfit.geometry.solids import RoughBoard, solid_of
from dryfit.geometry.views import Looker, Removed, Surface, Wood
from dryfit.keeping import Keep
from dryfit.piece.facts import CutForm, Opens
from dryfit.piece.model import DATUM_END, FAR_END, Blank, Cut, Figures, Part
from dryfit.piece.sums import Sum
from tests.documents import samples
from tests.joints.typed import board, book_of, frame, job, joint

DEPTH, LONG = 300.0, 400.0
HOUSED = job(
    board("shelf {i}", [[0, "(i - 1) * 410"], [900, "(i - 1) * 410"]], count=2),
    board("divider", [[450, 0], [450, 410]]),
    joint("divider", "shelf 1", stop="front", stop_distance=15),
    joint("divider", "shelf 2", stop="front", stop_distance=15),
)
DOWELLED = job(
    frame([[0, 0], [700, 0], [700, 400], [0, 400]], depth=250),
    '[joints]\ncorner = "butt"\n[joints.butt]\nfasten = "dowels"\n',
)
KEYED = job(frame([[0, 0], [700, 0], [700, 400], [0, 400]], depth=300), '[joints.mitre]\nstrengthen = "keys"\n')
TONGUED = job(frame([[0, 0], [700, 0], [700, 400], [0, 400]], depth=250), '[joints.mitre]\nstrengthen = "tongue"\n')
STEPPED = job(board("deep", [[0, 0], [900, 0]], depth=300), board("shallow", [[900, 0], [900, 500]], depth=200))
MITRED = job(frame([[0, 0], [700, 0], [700, 400], [0, 400]], depth=250))


def wood(*cuts, thickness=24.0, depth=DEPTH):
    taken = tuple(Removed(key=str(number), end=end, shapes=shapes) for number, (end, shapes) in enumerate(cuts))
    return Wood(profile=((0.0, thickness),), depth=depth, start=0.0, end=1000.0, zero=0.0, cuts=taken)


def area(loops):
    return unary_union([Polygon(loop) for loop in loops])


def look_of(text, name):
    return Desk(book_of(text)).looks[name]


def words(sketch):
    return [item.text for item in sketch.items if isinstance(item, Text)]


# --- what is there -------------------------------------------------------------------------------------


def test_an_end_shows_its_own_face_and_what_lies_further_back():
    """A tongue 12 thick in the middle of 24, notched back 15 at the front."""
    back = (
        prism(((-1, 6), (7, 6), (7, 13), (-1, 13)), -1.0, 301.0),
        prism(((-1, -13), (7, -13), (7, -6), (-1, -6)), -1.0, 301.0),
    )
    notch = prism(((-1, -13), (7, -13), (7, 13), (-1, 13)), 285.0, 301.0)
    view = Looker(wood((-1, (half_space((0.0, 0.0), (-1.0, 0.0)), *back, notch)))).view(Surface.DATUM)

    assert area(view.outline).equals(box(-6, 0, 6, 285))
    assert area(view.behind).equals(box(-12, 0, 12, 300).difference(box(-6, 0, 6, 285)))


@settings(max_examples=40)
@given(
    top=st.integers(0, 9),
    bottom=st.integers(0, 9),
    front=st.integers(0, 80),
    wall=st.integers(0, 80),
    end=st.sampled_from([DATUM_END, FAR_END]),
)
def test_the_face_of_an_end_is_what_the_solid_has_in_its_plane(top, bottom, front, wall, end):
    """Against a solid's own slice, a hair inside the end: made by another library, from a mesh."""
    a, inner = (0.0, 7.0) if end < 0 else (1000.0, 993.0)
    span = (inner, -20.0) if end < 0 else (inner, 1020.0)
    cuts = [half_space((a, 0.0), (float(end), 0.0))]
    for low_c, high_c, low_d, high_d in (
        (12.0 - top, 13.0, -1.0, 301.0),
        (-13.0, bottom - 12.0, -1.0, 301.0),
        (-13.0, 13.0, DEPTH - front, 301.0),
        (-13.0, 13.0, -1.0, float(wall)),
    ):
        outline = ((span[0], low_c), (span[1], low_c), (span[1], high_c), (span[0], high_c))
        cuts.append(prism(outline, low_d, high_d))
    view = Looker(wood((end, tuple(cuts)))).view(Surface.DATUM if end < 0 else Surface.FAR)

    stock = RoughBoard(outline=((0.0, -12.0), (1000.0, -12.0), (1000.0, 12.0), (0.0, 12.0)), depth=DEPTH)
    solid = solid_of(stock, tuple(cuts), Keep())
    near = solid.rotate((0.0, -90.0, 0.0)).slice(a - end * 0.01)
    assert area(view.outline).area == pytest.approx(near.area(), abs=1e-3)
    assert area(view.outline).union(area(view.behind)).area == pytest.approx(24.0 * DEPTH, abs=1e-6)


def test_a_tail_shows_its_tip_with_its_shoulders_behind():
    tip, slope, long = 12.7, 7.125, 9.0
    neck = tip - 2 * long * math.tan(math.radians(slope))
    flanks = [
        prism(((-1.0, way * tip / 2), (long, way * neck / 2), (long, way * 14.5), (-1.0, way * 14.5)), -1.0, 301.0)
        for way in (1.0, -1.0)
    ]
    cuts = ((-1, (half_space((0.0, 0.0), (-1.0, 0.0)), *flanks)),)
    view = Looker(wood(*cuts, thickness=27.0)).view(Surface.DATUM)

    low, _, high, _ = area(view.outline).bounds
    run = tip - 2 * 1.0 * (tip - neck) / 2 / (long + 1.0)  # the flank starts 1 before the end
    assert high - low == pytest.approx(run, abs=1e-3)
    assert neck == pytest.approx(10.45, abs=0.005)


# --- which ends are drawn --------------------------------------------------------------------------------


@pytest.mark.parametrize(
    ("text", "name", "count"),
    [
        (HOUSED, "divider", 1),
        (DOWELLED, "box 2", 1),
        (KEYED, "box 2", 1),
        (TONGUED, "box 1", 1),
        (MITRED, "box 1", 0),
        (HOUSED, "shelf 1", 0),
    ],
    ids=["notched", "dowel holes", "key pockets", "tongue groove", "plain bevel", "square"],
)
def test_an_end_has_a_view_where_it_is_stepped_or_carries_cuts(text, name, count):
    """Both ends of these are mirror images, and share one drawing."""
    assert len(end_views(look_of(text, name))) == count


def test_an_end_mitred_over_part_of_its_width_says_so_and_its_long_point_lies_outside():
    """The boards share 200 of the 300: so far it is mitred, and the 100 in front stay square. It is no tongue."""
    desk = Desk(book_of(STEPPED))
    look = desk.looks["deep"]
    shown = [text for view in end_views(look) for text in words(view)]
    sections = [line for sketch in end_sections(desk, look, roomy=True) for line in sketch.says]

    assert any("over 200.0; the rest square" in text for text in shown)
    assert not any("tongue" in text for text in shown)
    assert [line for line in sections if "long point" in line] == ["long point LOWER"]


def test_the_view_says_which_end_from_where_and_which_face_is_up():
    (view,) = end_views(look_of(DOWELLED, "box 2"))

    assert words(view)[0] == "LOWER END, seen from outside, inside face up, 1:2; the upper end is its mirror image"


def test_the_view_of_a_hand_names_it_and_the_other():
    (view,) = end_views(look_of(DOWELLED, "box 2"), "D", "F")

    assert words(view)[0].endswith(
        "LOWER END of D, seen from outside, inside face up, 1:2; the upper end and that of F are its mirror images"
    )


# --- its figures -------------------------------------------------------------------------------------------


def test_dowel_holes_are_counted_from_the_front_edge_and_lie_in_the_middle_of_the_thickness():
    """Two in 250: a quarter and three quarters; 24 thick, so 12.0 from the face side."""
    (view,) = end_views(look_of(DOWELLED, "box 2"))

    for figure in ("62.5", "187.5", "250", "12.0", "from front edge", "front edge", "wall edge"):
        assert figure in words(view), figure
    assert any(text.startswith("2 holes 8 × ") for text in words(view))


def test_a_notched_tongue_has_its_length_and_where_it_ends():
    (view,) = end_views(look_of(HOUSED, "divider"))

    assert any(text in ("15.10", "15.15") for text in words(view)), (
        "15 and the clearance 0.10 or 0.15, as its row has it"
    )
    assert "end, goes in 7.0" in words(view)


def test_key_pockets_stand_at_their_middles_as_the_table_has_them():
    """Three in 300: at a sixth, a half and five sixths."""
    (view,) = end_views(look_of(KEYED, "box 2"))

    assert {"50", "150", "250", "300"} <= set(words(view))
    assert "key pockets 4.00 wide, 12.0 deep" in words(view)


def tail(face_side=1, end=DATUM_END, holes=()):
    """A board 27 thick with a tongue 12.7 in its middle, 9 long, and holes in one end."""
    a, way = (0.0, 1.0) if end < 0 else (LONG, -1.0)
    back = a + way * 9.0
    cheeks = tuple(
        prism(((a - way * 5, c), (back, c), (back, 20.0 * c), (a - way * 5, 20.0 * c)), -1.0, 301.0)
        for c in (6.35, -6.35)
    )
    bores = tuple(
        Bore(start=(a, 0.0, DEPTH - front), direction=(way, 0.0, 0.0), profile=((0.0, 8.0), (30.0, 0.0)))
        for front in holes
    )
    cuts = [
        samples.end("rail", -end, LONG - a),
        Cut(
            key="tongue", body="rail", form=CutForm.END, word="tail", joint=("rail", "side"), end=end,
            shapes=(half_space((a, 0.0), (float(end), 0.0)), *cheeks),
            figures=Figures(width=Sum.alone(12.7), depth=Sum.alone(9.0), opens=Opens.END),
        ),
    ]  # fmt: skip
    if bores:
        figures = Figures(width=Sum.alone(8.0), on_face=8.0, depth=Sum.alone(30.0), opens=Opens.END)
        cuts.append(
            Cut(
                key="holes",
                body="rail",
                form=CutForm.BORE,
                word="dowel holes",
                takes="side",
                joint=("rail", "side"),
                shapes=bores,
                figures=figures,
            )
        )
    cuts.sort(key=lambda cut: cut.end)
    return Part(
        board=samples.board("rail", (0.0, 0.0), 0, LONG, depth=DEPTH, face_side=face_side, profile=((0.0, 27.0),)),
        mark="A",
        blank=Blank(start=-10.0, end=LONG + 10.0, width=DEPTH, thickness=27.0),
        long=(0.0, LONG),
        short=(0.0, LONG),
        cuts=tuple(cuts),
    )


def test_a_tongue_s_shoulder_and_thickness_stand_beside_it():
    """(27 - 12.7) / 2 = 7.15 of shoulder on either side."""
    (view,) = end_views(Look(tail()))

    assert "7.2" in words(view) or "7.1" in words(view)
    assert "12.7" in words(view)
    assert "tail 12.70 thick, goes in 9.0" in words(view), "as its joint calls it"


@pytest.mark.parametrize(
    ("face_side", "end", "front"),
    [(1, DATUM_END, "right"), (1, FAR_END, "left"), (-1, DATUM_END, "left"), (-1, FAR_END, "right")],
)
def test_the_front_edge_lies_where_you_see_it_standing_before_that_end(face_side, end, front):
    """Along the board, through it, to the front are right-handed: looking along it with +c up, the front is right."""
    (view,) = end_views(Look(tail(face_side, end)))
    at = {item.text: item.at[0] for item in view.items if isinstance(item, Text)}

    assert (at["front edge"] > at["wall edge"]) is (front == "right")


def test_figures_run_from_the_front_edge_whichever_side_it_lies():
    """At 1:2 a hole 60 from the front stands 30 from the circle, on the side of the wall edge."""
    for face_side in (1, -1):
        (view,) = end_views(Look(tail(face_side, holes=(60.0, 200.0))))
        at = {item.text: item.at[0] for item in view.items if isinstance(item, Text)}
        front, wall = at["front edge"], at["wall edge"]
        way = 1.0 if wall > front else -1.0

        assert (at["60"] - front) * way > 0
        assert (at["200"] - at["60"]) * way == pytest.approx(70.0)


# --- its section -------------------------------------------------------------------------------------------


def test_an_end_is_drawn_with_the_board_it_meets_and_how_far_it_goes_in():
    book = book_of(HOUSED)
    desk = Desk(book)
    (section,) = end_sections(desk, desk.looks["divider"], roomy=True)
    axes = [item for item in section.items if isinstance(item, Stroke) and item.pen == "axis"]

    assert section.scale == 1.0
    assert section.leans == "lower end, upper end mirrored"
    assert {desk.marks["divider"], f"{desk.marks['shelf 1']}, {desk.marks['shelf 2']}"} <= set(words(section))
    assert "7.0" in words(section)
    left, _, right, _ = extent(axes)
    assert right - left > 20, "the shelf is 24 thick"


def test_ends_that_only_look_mirrored_have_a_section_each():
    """A divider that leans between two level shelves: its ends are the same turned round, not mirror images."""
    text = job(
        board("shelf {i}", [[0, "(i - 1) * 410"], [900, "(i - 1) * 410"]], count=2),
        board("divider", [[480, 0], [420, 410]]),
    )
    desk = Desk(book_of(text))

    assert [s.leans for s in end_sections(desk, desk.looks["divider"], roomy=True)] == ["lower end", "upper end"]


# --- whole sheets ------------------------------------------------------------------------------------------


@pytest.mark.parametrize(
    "text", [HOUSED, DOWELLED, KEYED, TONGUED, MITRED], ids=["housed", "dowels", "keys", "tongue", "mitre"]
)
def test_no_sheet_with_ends_has_a_fault(text):
    for draft, display in workshop_sheets(book_of(text)):
        assert faults(display) == [], draft.title


@settings(max_examples=30)
@given(
    face_side=st.sampled_from([1, -1]),
    end=st.sampled_from([DATUM_END, FAR_END]),
    holes=st.lists(st.integers(12, 288), max_size=6, unique=True),
)
def test_no_sheet_of_any_board_with_a_tongue_and_holes_has_a_fault(face_side, end, holes):
    part = tail(face_side, end, tuple(map(float, holes)))

    for draft, display in workshop_sheets(samples.book_of(part)):
        assert faults(display) == [], draft.title


def test_frames_are_right_handed():
    """What the views rely on, with numbers."""
    x, y = (0.0, 1.0, 0.0), (-1.0, 0.0, 0.0)
    assert Frame((0.0, 0.0, 0.0), x, y, (0.0, 0.0, 1.0)).find((0.0, 5.0, 2.0)) == (5.0, 0.0, 2.0)
