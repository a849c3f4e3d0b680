"""dxf/, read back by ezdxf, whose audit finds nothing (AutoCAD DXF Reference, release AC1024).

Part A of `samples` by hand: 2600 x 330, its datum end at 0. The slot for `raking 1` is marked at 734.706 on the upper
face and 730.905 on the lower, 24.451 wide and 165.5 from the wall edge: 24.451 x 165.5 = 4046.6 mm2, its walls
81 degrees to the face. Bores at 250 and 2050 are 12 wide to 280 from the front edge, 6.6 through, 12 below the upper
face.
"""

import io
import math
import os
import subprocess
import sys
from dataclasses import replace

import pytest
from shapely import Polygon

import dryfit
from dryfit.book.demos import demo_text
from dryfit.book.reading import read_job_text
from dryfit.documents.bookjson import book_data
from dryfit.documents.dxf.drawing import Drawing, library, one_line
from dryfit.documents.dxf.outlines import Ring, rings, rounded
from dryfit.documents.looks import Desk
from dryfit.documents.writers import WRITERS
from dryfit.geometry.frames import Frame
from dryfit.geometry.loops import loops
from dryfit.geometry.sections import chords
from dryfit.geometry.shapes import Prism
from dryfit.geometry.views import Surface
from tests.documents.samples import sample_book
from tests.nasty import NASTY_NAMES

DEMOS = ("record-wall", "sample-grid", "step-shelf")


def drawings(book):
    """All files, opened."""
    made = dict(WRITERS["dxf"].made(Desk(book)))
    return {name: library().read(io.StringIO(data.decode())) for name, data in made.items()}


@pytest.fixture(scope="module")
def sample():
    return drawings(sample_book())


@pytest.fixture(scope="module", params=DEMOS)
def demo(request):
    book = dryfit.build(read_job_text(demo_text(request.param), f"{request.param}.toml"))
    return book, drawings(book)


def outlines(doc, layer):
    """Closed polylines of a layer, their arcs as chords."""
    found = doc.modelspace().query(f'LWPOLYLINE[layer=="{layer}"]')
    assert all(line.closed for line in found)
    return [Polygon(chords(tuple(line.get_points("xyb")))) for line in found]


def shown(doc, dimension):
    """What stands written in a dimension's block."""
    block = doc.blocks.get(dimension.dxf.geometry)
    words = [e.plain_text() if e.dxftype() == "MTEXT" else e.dxf.text for e in block.query("TEXT MTEXT")]
    assert len(words) == 1
    return words[0]


def measured(dimension):
    """What its definition points measure: a length, an angle, or an ordinate."""
    value = dimension.get_measurement()
    if dimension.dimtype == 6:  # an ordinate: 64 of its flags says which
        return value.x if dimension.dxf.dimtype & 64 else value.y
    return value


def test_the_audit_finds_nothing_and_the_units_are_mm(demo):
    book, docs = demo
    assert set(docs) == {"dxf/elevation.dxf", *(f"dxf/{part.mark}.dxf" for part in book.piece.parts)}
    for name, doc in docs.items():
        audit = doc.audit()
        assert not audit.errors, name
        assert not audit.fixes, name
        assert doc.header["$INSUNITS"] == 4
        assert doc.dxfversion == "AC1024"


def test_each_dimension_is_a_real_one_that_shows_what_it_measures(demo):
    _, docs = demo
    kinds = set()
    for doc in docs.values():
        for dimension in doc.modelspace().query("DIMENSION"):
            words, value = shown(doc, dimension), measured(dimension)
            kinds.add(dimension.dimtype)
            figure = f"{value:.2f}".rstrip("0").rstrip(".") + ("°" if dimension.dimtype == 5 else "")
            assert words in (figure, figure.replace("-0", "0")), (words, value)
    assert kinds >= {0, 6}


def test_running_dimensions_of_the_face_side_are_the_positions_in_the_books_data(demo):
    """Those that the sheets print, to 0.01."""
    book, docs = demo
    for part in book_data(book)["parts"]:
        head = part["width"] if Desk(book).looks[part["id"]].names.face_side is Surface.PLUS else 0.0
        ordinates = [d for d in docs[f"dxf/{part['mark']}.dxf"].modelspace().query("DIMENSION") if d.dimtype == 6]
        here = [measured(d) for d in ordinates if abs(d.dxf.defpoint2.y - head) < 0.002]
        cuts = [cut for cut in part["cuts"] if not cut["end"] and cut["form"] != "bore"]
        told = [p["at"] for cut in cuts for p in cut["position"] if p["on"] == part["face_side"]]
        assert all(any(abs(at - x) < 0.011 for x in here) for at in told), (part["board"], told, here)


def test_the_sample_by_hand(sample):
    doc = sample["dxf/A.dxf"]
    space = doc.modelspace()
    faces = [area for area in outlines(doc, "OUTLINE") if area.area == pytest.approx(2600 * 330)]
    assert len(faces) == 2
    assert any(face.bounds == pytest.approx((0, 0, 2600, 330)) for face in faces), "the datum is the origin"

    (slot,) = [
        area
        for layer in doc.layers
        if "_SLOT_THROUGH" in layer.dxf.name
        for area in outlines(doc, layer.dxf.name)
        if abs(area.bounds[0] - 734.706) < 0.001 and area.bounds[3] == pytest.approx(330)
    ]
    assert slot.area == pytest.approx(24.451 * 165.5, abs=0.1)
    assert slot.bounds == pytest.approx((734.706, 330 - 165.5, 734.706 + 24.451, 330), abs=0.001)

    angles = [d.get_measurement() for d in space.query("DIMENSION") if d.dimtype == 5]
    assert angles == pytest.approx([81, 81], abs=0.01), "raking to the right and to the left"


def test_a_stepped_hole_has_a_circle_a_step_where_it_is_bored_from_and_its_last_one_where_it_comes_out(sample):
    circles = list(sample["dxf/A.dxf"].modelspace().query("CIRCLE"))
    found = sorted((c.dxf.center.x, c.dxf.radius, c.dxf.layer.partition("BORE")[2]) for c in circles)
    at = [(6.0, "_12_DEEP_280"), (3.3, "_6.6_THROUGH"), (3.3, "_6.6_THROUGH")]
    assert found == sorted((x, *step) for x in (250.0, 2050.0) for step in at)
    by_height = {round(c.dxf.center.y, 3) for c in circles}
    assert len(by_height) == 2, "on the front edge, and on the wall edge"


def test_outlines_on_the_faces_have_the_areas_of_the_exact_views(demo):
    book, docs = demo
    desk = Desk(book)
    for part in book.piece.parts:
        look, doc = desk.looks[part.id], docs[f"dxf/{part.mark}.dxf"]
        drawn = sum(area.area for area in outlines(doc, "OUTLINE"))
        ends = [s for s in (Surface.DATUM, Surface.FAR) if any(t.seen and not t.end for t in look.view(s).traces)]
        sides = [Surface.PLUS, Surface.MINUS, Surface.FRONT, Surface.WALL, *ends]
        exact = sum(Polygon(loop).area for side in sides for loop in look.view(side).outline)
        assert drawn == pytest.approx(exact, rel=1e-6)


# --- arcs


def stadium(length, width):
    """A groove with round ends, 40 from the datum, its middle 50 from the wall edge, swept into the face at +c."""
    r = width / 2
    ring = ((40.0, 50 - r, 0.0), (40 + length, 50 - r, 1.0), (40 + length, 50 + r, 0.0), (40.0, 50 + r, 1.0))
    sunk = Frame((0.0, 12.0, 0.0), (0.0, 0.0, 1.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0))
    turned = tuple((y, x, -bulge) for x, y, bulge in ring)
    return Prism(outline=turned, low=-5.0, high=1.0, frame=sunk)


def test_chords_are_arcs_again_with_the_radius_of_the_cutter():
    shape = stadium(100, 12)
    (loop,) = loops(Polygon([(a, d) for d, a in chords(shape.outline)]), 0.0)
    outline = rounded(loop, list(rings([shape], Surface.PLUS, 0.0)))

    assert len(outline.knots) == 4
    assert sorted(bulge for _, _, bulge in outline.knots) == pytest.approx([0, 0, 1, 1], abs=1e-9)
    whole = Polygon(chords(outline.knots)).area
    assert whole == pytest.approx(100 * 12 + math.pi * 36, rel=2e-3), "two half circles of 6 and what is between"


def test_an_arc_that_an_edge_cuts_off_keeps_its_radius():
    """A circle of 6 about (40, 3): the edge at 0 leaves 240 degrees of it, so a bulge of tan 60."""
    ring = Ring((40.0, 3.0), 6.0)
    points = [(40 + 6 * math.cos(math.radians(t)), 3 + 6 * math.sin(math.radians(t))) for t in range(-30, 211, 5)]
    (loop,) = loops(Polygon(points), 0.0)
    outline = rounded(loop, [ring])

    assert sorted(bulge for _, _, bulge in outline.knots) == pytest.approx([0, math.tan(math.radians(60))], abs=1e-6)


def test_a_straight_side_between_two_points_of_a_circle_stays_straight():
    points = ((34.0, 0.0), (46.0, 0.0), (46.0, 20.0), (34.0, 20.0))
    outline = rounded(points, [Ring((40.0, 0.0), 6.0)])
    assert [bulge for _, _, bulge in outline.knots] == [0, 0, 0, 0]


# --- words, bytes


@pytest.mark.parametrize("name", NASTY_NAMES)
def test_a_nasty_name_is_one_line_that_reads_back_as_it_was(name):
    drawing = Drawing("dryfit-set:000000000000", 100.0)
    drawing.words(name, (0.0, 0.0))
    doc = library().read(io.StringIO(drawing.written().decode()))

    (text,) = doc.modelspace().query("TEXT")
    assert "\n" not in text.dxf.text
    assert text.plain_text() == name.replace("\r\n", " ").replace("\t", " ")
    assert not doc.audit().errors


def test_signs_of_commands_are_none():
    assert one_line("50% a^Jb %%d") == "50%%% a^ Jb %%%%%%d"


def test_names_of_files_and_layers_hold_nothing_of_what_a_board_is_called():
    book = sample_book()
    piece = book.piece
    boards = {part.id: part for part in piece.parts}
    worst = replace(boards["long shelf"].board, timber='../=cmd|"x"')
    parts = tuple(replace(p, board=worst) if p.id == "long shelf" else p for p in piece.parts)
    docs = drawings(replace(book, piece=replace(piece, parts=parts)))

    assert sorted(docs) == [*(f"dxf/{mark}.dxf" for mark in "ABCDE"), "dxf/elevation.dxf"]
    assert not any("cmd" in layer.dxf.name for doc in docs.values() for layer in doc.layers)
    assert any("=cmd" in text.plain_text() for text in docs["dxf/A.dxf"].modelspace().query("TEXT"))


def test_equal_books_give_equal_bytes_and_nothing_of_the_machine():
    first, second = (dict(WRITERS["dxf"].made(Desk(sample_book()))) for _ in range(2))
    assert first == second
    assert not any(
        os.path.expanduser("~").encode() in data for data in first.values() if os.path.expanduser("~") != "/"
    )


def test_the_library_leaves_no_list_of_fonts_behind(tmp_path):
    """It would look through the machine's fonts when it is imported, and write what it found."""
    code = "from dryfit.documents.dxf.drawing import Drawing; Drawing('', 1.0).distance((0,0),(9,0),(0,5),'along')"
    env = {**os.environ, "HOME": str(tmp_path), "XDG_CACHE_HOME": str(tmp_path / "cache")}
    subprocess.run([sys.executable, "-c", code], env=env, check=True, timeout=60)
    assert list(tmp_path.rglob("*")) == []


# --- the elevation


def test_the_elevation_shows_what_is_seen_of_each_board_where_it_stands(demo):
    book, docs = demo
    desk, doc = Desk(book), docs["dxf/elevation.dxf"]
    for part in book.piece.parts:
        drawn = outlines(doc, f"BOARD_{part.mark}")
        exact = desk.visible[part.id]
        rounding = 0.0005 * exact.length  # corners are written to 0.001
        assert sum(area.area for area in drawn) == pytest.approx(exact.area, abs=rounding), part.id
    wide, high = (size for size in (desk.bounds[2] - desk.bounds[0], desk.bounds[3] - desk.bounds[1]))
    lengths = [d.get_measurement() for d in doc.modelspace().query("DIMENSION") if d.dimtype == 0]
    assert sorted(lengths) == pytest.approx(sorted((wide, high)), abs=0.001)


def test_the_foot_of_a_raking_board_is_where_its_line_begins(sample):
    """B leans from (650, 0): level at the floor, its left corner is 12 / cos 9 = 12.150 to the left of its line."""
    ordinates = [measured(d) for d in sample["dxf/elevation.dxf"].modelspace().query("DIMENSION") if d.dimtype == 6]
    assert any(abs(x - (650 - 12 / math.cos(math.radians(9)))) < 0.2 for x in ordinates), sorted(ordinates)


def test_its_sheet_of_paper_is_to_scale(sample):
    doc = sample["dxf/elevation.dxf"]
    (view,) = [port for port in doc.paperspace().query("VIEWPORT") if port.dxf.id != 1]
    assert view.dxf.view_height / view.dxf.height == pytest.approx(10), "1:10"
