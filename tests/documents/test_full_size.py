"""Full size: the PDF is read back with a ruler, and compared with the boards themselves.

Where marks must stand is measured on the solids of the parts, sliced a thousandth below the edge: where wood begins and
ends along each arris, a cut's wall meets it. A slot for a board of 24 with 0.05 of play, 8 degrees off plumb, shows
24.05 / cos 8 = 24.286 of itself on the face, and lies 24 tan 8 = 3.373 further along on the other one.
"""

import itertools
import math
import random
import re
from collections import Counter
from functools import cache

import numpy as np
import pypdfium2 as pdfium
import pypdfium2.raw as raw
import pytest
from shapely import LineString, Polygon, unary_union

import dryfit
from dryfit.book.demos import demo_text
from dryfit.book.reading import read_job_text
from dryfit.documents.display import extent
from dryfit.documents.faults import faults
from dryfit.documents.looks import Desk
from dryfit.documents.naming import position, printing_in
from dryfit.documents.sheets.full_size.corners import corners
from dryfit.documents.sheets.full_size.window import Window, divided
from dryfit.documents.workshop import paper_sheets, workshop_pdf
from dryfit.documents.writers import WRITERS
from dryfit.documents.writing import write_book
from dryfit.geometry.shapes import Bore
from dryfit.geometry.views import EDGES, ENDS, FACES, Surface
from dryfit.shop.reading import parse_shop
from tests.documents.full_size_strips import strips
from tests.documents.reading import find, lines, pages, sizes
from tests.documents.samples import sample_book
from tests.documents.test_rebuilt_from_pdf import OTHERS
from tests.joints.typed import board, job

DEMOS = ("record-wall", "sample-grid", "step-shelf")
PAPERS = {"A4": (297.0, 210.0), "A3": (420.0, 297.0), "Letter": (279.4, 215.9)}
SAFE = 7.0
BELOW = 1e-3  # the surface, where the solids are sliced
READ = 0.01  # of a place in the PDF: its own rounding, and BELOW


def shop(paper):
    """A shop that prints so."""
    return parse_shop(f'dryfit = 1\n[shop]\npaper = "{paper}"\n')


def random_job(seed):
    """Three shelves crossed by uprights that rake up to 12 degrees, one shelf between two of them, thick and thin."""
    chance = random.Random(seed)
    timbers = [chance.choice(("18", "24")) for _ in range(7)]
    heights = [200, 480, 820]
    tables = [
        board(f"shelf {n}", [[0, y], [1000, y]], timber=timbers[n], depth=chance.choice((150, 220)))
        for n, y in enumerate(heights)
    ]
    for n, x in enumerate((160, 470, 800)):
        lean = math.tan(math.radians(round(chance.uniform(-12, 12), 2)))
        tables.append(board(f"upright {n}", [[x, 0], [x + 1000 * lean, 1000]], timber=timbers[3 + n], depth=200))
    tables.append(board("between", [[160, 330], [470, 330]], timber=timbers[6], depth=200))
    return job(*tables)


JOBS = {
    **{name: demo_text(name) for name in DEMOS},
    **OTHERS,
    **{f"random {seed}": random_job(seed) for seed in range(12)},
}


@cache
def printed(name, paper="A4"):
    """The book of a job, and its full-size paper."""
    book = dryfit.build(read_job_text(JOBS[name], "job.toml"), shop(paper))
    desk = Desk(book)
    (only,) = WRITERS["full-size"].made(desk)
    return book, only[1]


# --- marks ----------------------------------------------------------------------------------------------------------


def borders(book, part, depth, side):
    """Where wood begins and ends along an arris: of the face on that side of the middle, at that depth."""
    solid = book.solids.solid(part).translate((-part.zero, 0.0, 0.0))
    area = unary_union([Polygon(ring).buffer(0) for ring in solid.slice(depth).to_polygons() if len(ring) > 2])
    holes = [Polygon(ring) for ring in solid.slice(depth).to_polygons() if _turns_right(ring)]
    area = area.difference(unary_union(holes))
    low, _, high, _ = area.bounds
    places = sorted({low - 1, high + 1, *(a - part.zero for a, _ in part.board.profile)})
    line = LineString([(a, side * (part.board.thickness_at(a + part.zero) / 2 - BELOW)) for a in places])
    wood = line.intersection(area)
    pieces = [piece for piece in getattr(wood, "geoms", [wood]) if piece.length > 0.05]
    ends = sorted(x for piece in pieces for x in (piece.bounds[0], piece.bounds[2]))
    return [a for a in ends if sum(abs(a - b) < 0.02 for b in ends) == 1]  # where the board bends wood goes on


def _turns_right(ring):
    x, y = np.asarray(ring).T
    return float(np.sum(x * np.roll(y, -1) - y * np.roll(x, -1))) < 0.0


def strip_of(found, look, book, edge):
    """What was printed of a part's edge, whatever parts it was named for together."""
    word = look.names.short(edge)
    for (letters, name), strip in found.items():
        if name == word and look.part.mark in spelled(letters, [part.mark for part in book.piece.parts]):
            return strip
    return None


def spelled(letters, marks):
    """The letters that "A to C, K" stands for."""
    every = []
    for one in letters.split(", "):
        first, _, last = one.partition(" to ")
        every += marks[marks.index(first) : marks.index(last or first) + 1]
    return every


def nearest(places, a):
    return min((abs(a - b) for b in places), default=math.inf)


@pytest.mark.parametrize("name", JOBS)
def test_every_wall_of_every_cut_is_marked_at_its_place_on_its_part_s_strip_and_nothing_else_is(name):
    book, data = printed(name)
    found = strips(data)
    for look in Desk(book).looks.values():
        part = look.part
        for side in (1.0, -1.0):
            wood, marks = {}, {}
            for edge in EDGES:
                strip = strip_of(found, look, book, edge)
                wood[edge] = borders(book, part, part.board.depth - BELOW if edge is Surface.FRONT else BELOW, side)
                upper = side > 0 if edge is Surface.FRONT else side < 0  # seen from outside, the datum end on the left
                marks[edge] = [] if strip is None else strip.upper if upper else strip.lower
                if strip is None:
                    wood[edge] = wood[edge][1:-1]  # nothing but its ends
                stray = [a for a in marks[edge] if nearest(wood[edge], a) > READ]
                assert not stray, f"{part.mark}, {edge}, {side}: marks at {stray}, where nothing is cut"
            for edge, other in (EDGES, EDGES[::-1]):
                lost = [a for a in wood[edge] if min(nearest(marks[edge], a), nearest(marks[other], a)) > READ]
                assert not lost, f"{part.mark}, {edge}, {side}: nothing marks the walls at {lost}"


@pytest.mark.parametrize("name", [*DEMOS, "bevelled", "random 3"])
def test_each_cut_s_running_figure_and_its_distance_at_each_joint_stand_on_its_tile(name):
    """The figure of the wall nearer the datum end, to 0.1 or to 1/64 inch."""
    book, data = printed(name)
    words = {word for text in pages(data) for word in re.split(r"[\r\n]", text)}
    figures = " " + " ".join(words) + " "
    for (letters, edge), strip in strips(data).items():
        for marks in (strip.upper, strip.lower):
            with printing_in(book.job.units):
                # drawn to some hundred-thousandths: one that lies half-way may be printed either way
                walls = [{position(a - 1e-3), position(a + 1e-3)} for a in sorted(marks)[1:-1:2]]
            lost = [wall for wall in walls if not any(f" {figure} " in figures for figure in wall)]
            assert not lost, f"{letters}, {edge}"
    assert figures.count(" join at ") >= 2


def three_hundred(units):
    """A shelf of 900 with three uprights 300 apart, typed in either unit."""
    one = 1.0 if units == "mm" else 1 / 25.4
    uprights = (
        board(f"upright {n}", [[x * one, 0], [x * one, 600 * one]], depth=200 * one)
        for n, x in enumerate((150, 450, 750))
    )
    return job(board("shelf", [[0, 300 * one], [900 * one, 300 * one]], depth=200 * one), *uprights, units=units)


JOBS |= {f"300 {units}": three_hundred(units) for units in ("mm", "in")}


def test_a_tile_of_bare_wood_is_not_printed_and_the_next_is_laid_to_its_figure():
    """One upright at 150 on a shelf of 1200: of five or six tiles the first and the last have a cut or an end."""
    one = job(
        board("shelf", [[0, 300], [1200, 300]], depth=200), board("upright", [[150, 0], [150, 600]], depth=200)
    )  # fmt: skip
    JOBS["bare"] = one
    _, data = printed("bare")
    text = " ".join(" ".join(page.split()) for page in pages(data))
    (strip,) = (strip for (letters, _), strip in strips(data).items() if letters == "A")
    (count,) = set(re.findall(r"A shelf: \w+ edge, tile 1 of (\d)", text))

    assert strip.tiles == 2
    assert f"{int(count) - 2} tiles of bare wood not printed: 2 to {int(count) - 1}" in text
    assert text.count("lay at") == 2, "after the first, before the last"
    assert max(strip.upper) == max(strip.lower) == pytest.approx(1200, abs=0.05)


@pytest.mark.parametrize("units", ["mm", "in"])
@pytest.mark.parametrize("paper", PAPERS)
def test_300_reads_300_on_each_paper_across_the_joints_of_its_tiles_too(paper, units):
    """Three uprights 300 apart; the shelf is 900 long: four tiles of A4, one of them bare; three of A3."""
    _, data = printed(f"300 {units}", paper)

    assert {(round(w, 1), round(h, 1)) for w, h in sizes(data)} == {PAPERS[paper]}
    (strip,) = (strip for (letters, _), strip in strips(data).items() if letters == "A")
    assert strip.tiles == 3
    for marks in (strip.upper, strip.lower):
        first, *_ = slots = sorted(marks)[1:-1]  # without the ends
        assert [a - first for a in slots[::2]] == [pytest.approx(n * 300, abs=0.05) for n in range(3)]
        assert max(marks) == pytest.approx(900, abs=0.05)


@pytest.mark.parametrize("units", ["mm", "in"])
def test_300_reads_300_on_the_part_s_sheet_at_its_scale(units):
    """The walls of the shelf's slots stand over one another on its upper face, its front edge and its lower face."""
    data = workshop_pdf(dryfit.build(read_job_text(three_hundred(units), "job.toml")))
    page = page_with(data, "FACE SIDE")
    scale = int(re.search(r"\b1:(\d+)\b", pages(data)[page])[1])
    wood = [line for line in lines(data, page) if line.upright and abs(line.width - 0.5) < 0.01 and line.long > 4.5]
    count = Counter(round(line.start[0], 3) for line in wood)
    first, *walls, last = sorted(x for x, views in count.items() if views == 3)

    near = walls[::2]
    assert [(x - near[0]) * scale for x in near] == [pytest.approx(n * 300, abs=0.05) for n in range(3)]
    assert (last - first) * scale == pytest.approx(900, abs=0.05)


@pytest.mark.parametrize("name", ["record-wall", "sample-grid"])
@pytest.mark.parametrize("paper", PAPERS)
def test_both_bars_measure_100_on_each_page_and_4_inches_beside_them_in_a_job_in_inches(name, paper):
    book, data = printed(name, paper)
    for page in range(len(sizes(data))):
        long = [
            line for line in lines(data, page) if abs(line.long - (101.6 if book.job.units == "in" else 100)) < 0.01
        ]
        assert {line.upright for line in long} == {True, False}
        assert find(data, page, "100 mm")
        assert bool(find(data, page, "4 in")) == (book.job.units == "in")


@pytest.mark.parametrize("paper", PAPERS)
@pytest.mark.parametrize("name", [*DEMOS, *OTHERS, "random 0", "random 1"])
def test_nothing_is_nearer_to_the_paper_s_edge_than_printers_reach_and_no_words_stand_on_others(name, paper):
    book = dryfit.build(read_job_text(JOBS[name], "job.toml"), shop(paper))
    for number, (draft, display) in enumerate(paper_sheets("full-size", book), start=1):
        assert draft.kind != "fault"
        assert not faults(display), f"page {number} of {name}"
        left, top, right, bottom = extent(display.items)
        assert left >= SAFE - 0.01, f"page {number} of {name}"
        assert top >= SAFE - 0.01, f"page {number} of {name}"
        assert right <= display.width - SAFE + 0.01, f"page {number} of {name}"
        assert bottom <= display.height - SAFE + 0.01, f"page {number} of {name}"


def test_each_page_says_its_paper_and_how_it_is_printed_and_the_file_asks_for_it():
    _, data = printed("step-shelf")

    for words in pages(data):
        flat = " ".join(words.split())
        assert "Full size on A4 paper" in flat
        assert "Print at 100 %, not fitted to the page" in flat
        assert "the figure is right" in flat
    with pdfium.PdfDocument(data) as document:
        assert not raw.FPDF_VIEWERREF_GetPrintScaling(document), "no scaling"
        assert raw.FPDF_VIEWERREF_GetPrintScaling(pdfium.PdfDocument(workshop_pdf(sample_book())))


def test_it_is_made_only_where_it_is_asked_for(tmp_path):
    book = sample_book()
    write_book(book, tmp_path / "plain")
    write_book(book, tmp_path / "more", ["full-size"])

    plain, more = ({path.name for path in (tmp_path / name).iterdir()} for name in ("plain", "more"))
    assert more - plain == {"full-size.pdf"}


# --- how it lies ----------------------------------------------------------------------------------------------------

OUTWARD = {  # of each surface, in a board's own frame: along, through the thickness, across
    Surface.PLUS: (0, 1, 0), Surface.MINUS: (0, -1, 0), Surface.FRONT: (0, 0, 1), Surface.WALL: (0, 0, -1),
    Surface.DATUM: (-1, 0, 0), Surface.FAR: (1, 0, 0),
}  # fmt: skip
COORDINATES = {**dict.fromkeys(FACES, (0, 2)), **dict.fromkeys(EDGES, (0, 1)), **dict.fromkeys(ENDS, (1, 2))}


@pytest.mark.parametrize(
    ("surface", "across"),
    [*((s, False) for s in (*FACES, *EDGES)), *((s, True) for s in (*FACES, *ENDS))],
    ids=str,
)
def test_a_print_is_laid_with_its_printed_side_out_and_is_never_a_mirror_image(surface, across):
    """To the right on paper, up on paper and out of the paper are a right-handed three, as the wood has them."""
    look = next(iter(Desk(sample_book()).looks.values()))
    window = Window(look=look, surface=surface, along=(0.0, 10.0), up=(-5.0, 5.0), across=across)

    def way(axis):
        """Where one of the board's own axes points on paper, up the page counted up."""
        own = [0.0, 0.0, 0.0]
        own[axis] = 1.0
        first, second = (own[number] for number in COORDINATES[surface])
        (x, y), (x0, y0) = (window.on_paper(window.lies(p)) for p in ((first, second), (0.0, 0.0)))
        return x - x0, y0 - y

    right, up = np.zeros(3), np.zeros(3)
    for axis in COORDINATES[surface]:
        right[axis], up[axis] = way(axis)
    assert np.cross(right, up).tolist() == list(OUTWARD[surface])


def test_no_joint_of_two_tiles_runs_through_a_cut_and_no_tile_is_longer_than_the_paper():
    chance = random.Random(7)
    for _ in range(500):
        long, room = chance.uniform(50, 3000), chance.uniform(200, 300)
        cuts = [(a, a + chance.uniform(2, 60)) for a in (chance.uniform(0, long) for _ in range(chance.randrange(4)))]
        seams = divided(0.0, long, room, cuts)
        every = [0.0, *seams, long]
        assert all(0 < b - a <= room + 1e-9 for a, b in itertools.pairwise(every))
        assert not [(seam, cut) for seam in seams for cut in cuts if cut[0] < seam < cut[1]]


# --- templates, angles ----------------------------------------------------------------------------------------------

LEAN = 8.0
RAKED = job(
    board("shelf", [[0, 300], [600, 300]], depth=200),
    board(
        "upright",
        [[300 - 300 * math.tan(math.radians(LEAN)), 0], [300 + 300 * math.tan(math.radians(LEAN)), 600]],
        depth=200,
    ),
)
JOBS["raked"] = RAKED


def outlines(data, page):
    """Closed outlines of the finest line with four corners, as they stand on a page: left, top, right, bottom."""
    fine = [line for line in lines(data, page) if abs(line.width - 0.13) < 0.01]
    found = []
    for four in zip(fine, fine[1:], fine[2:], fine[3:], strict=False):
        joined = all(math.dist(a.end, b.start) < 1e-3 for a, b in zip(four, [*four[1:], four[0]], strict=True))
        if joined:
            xs, ys = [line.start[0] for line in four], [line.start[1] for line in four]
            found.append((min(xs), min(ys), max(xs), max(ys)))
    return found


def page_with(data, words):
    """The first page on which these stand."""
    return next(page for page in range(len(sizes(data))) if find(data, page, words))


def test_a_raked_slot_has_a_template_for_either_face_with_how_far_they_are_shifted():
    """24 thick through 24, 8 degrees off plumb: with the play p it shows (24 + p) / cos 8, shifted 24 tan 8 = 3.37."""
    book, data = printed("raked")
    shelf = book.piece.part_by_name["shelf"]
    (slot,) = [cut for cut in shelf.cuts if cut.joint]
    page = page_with(data, "Raked slot, UPPER FACE")
    sides = [box for box in outlines(data, page) if box[2] - box[0] > 50]
    wide, deep = slot.figures.across / math.cos(math.radians(LEAN)), slot.figures.deep

    assert 24.0 < slot.figures.across < 24.5
    for left, top, right, bottom in sides[:2]:
        assert (right - left, bottom - top) == (pytest.approx(deep, abs=0.01), pytest.approx(wide, abs=0.01))
    flat = " ".join(pages(data)[page].split())
    assert f"on the lower face {24 * math.tan(math.radians(LEAN)):.1f} nearer the datum end" in flat
    assert f"on the upper face {24 * math.tan(math.radians(LEAN)):.1f} further from the datum end" in flat


FIFTH = '[timber."24.2"]\nspecies = "oak, white"\nform = "panel"\nthickness = 24.2\n'


@pytest.mark.parametrize(
    ("name", "line", "timber", "count"),
    [
        ("the same", [[460, 0], [540, 600]], "24", 1),
        ("a fifth thicker", [[460, 0], [540, 600]], "24.2", 2),
        ("the other hand", [[540, 0], [460, 600]], "24", 2),
    ],
    ids=lambda value: value if isinstance(value, str) else "",
)
def test_only_slots_that_are_the_same_to_the_last_corner_share_their_templates(name, line, timber, count):
    first = board("a", [[160, 0], [240, 600]], depth=200)
    text = job(board("shelf", [[0, 300], [700, 300]], depth=200), first, board("b", line, depth=200, timber=timber))
    JOBS[name] = text + (FIFTH if timber == "24.2" else "")
    _, data = printed(name)
    words = " ".join(" ".join(pages(data)).split())

    assert len(re.findall("Raked slot, UPPER FACE: A ", words)) == count
    assert ("Raked slot, UPPER FACE: A 1, A 2" in words) == (count == 1)


@pytest.mark.parametrize("name", ["raked", "record-wall"])
def test_each_angle_of_the_job_is_drawn_once_with_a_ray_of_250(name):
    """The angles are those between the boards as they are typed: of the record wall 8, and its box's corners."""
    book, data = printed(name)
    first = next(page for page, words in enumerate(pages(data)) if "paper angles" in words)
    rays = [
        math.degrees(math.atan2(abs(line.end[1] - line.start[1]), abs(line.end[0] - line.start[0])))
        for page in range(first, len(sizes(data)))
        for line in lines(data, page)
        if abs(line.width - 0.13) < 0.01 and abs(line.long - 250) < 0.01
    ]
    drawn = {round(min(ray, 90 - ray), 2) for ray in rays} - {0.0}

    boards = [one for one in book.piece.boards if one.lies == "across"]
    between = [abs(one.angle - other.angle) % 90 for one, other in itertools.combinations(boards, 2)]
    mitres = [
        math.degrees(math.atan2(min(t), max(t)))  # of a square corner of unequal boards, from corner to corner of both
        for joint in book.piece.joints
        if joint.kind == "mitre"
        for t in [[book.piece.board_by_name[name].thickest for name in joint.key]]
    ]
    assert 8.0 in drawn
    for one in drawn:
        assert nearest([*between, *(90 - a for a in between), *mitres], one) < 0.02, f"no two boards meet at {one}"


def crosses(data, page):
    """Middles of the crosses on holes: an upright and a level fine line that halve one another."""
    fine = [line for line in lines(data, page) if abs(line.width - 0.13) < 0.01]
    middles = [((line.start[0] + line.end[0]) / 2, (line.start[1] + line.end[1]) / 2, line) for line in fine]
    return [
        (x, y)
        for (x, y, line), (u, v, other) in itertools.pairwise(middles)
        if math.dist((x, y), (u, v)) < 1e-3 and line.upright != other.upright
    ]


def test_holes_of_dowels_stand_as_far_from_the_front_edge_on_the_face_as_on_the_end():
    """Three dowels; the boards are flush at the front, so each pair of holes has one distance from it."""
    book, data = printed("dowelled")
    page = page_with(data, "dowel holes")
    arrows = crosses(data, page)
    rows = {}
    for x, y in arrows:
        rows.setdefault(round(y, 1), []).append(x)
    face, end = (sorted(xs) for _, xs in sorted(rows.items()) if len(xs) == 3)

    (joint,) = [one for one in book.piece.joints if one.kind == "butt"]
    drilled = [shape for cut in joint.cuts if cut.body == "shelf" for shape in cut.shapes if isinstance(shape, Bore)]
    places = sorted(bore.start[2] for bore in drilled)
    assert np.diff(face) == pytest.approx(np.diff(places), abs=0.02)
    assert np.diff(end) == pytest.approx(np.diff(places), abs=0.02)


def test_pockets_lie_on_either_side_of_the_arris_as_the_two_boards_do_seen_from_outside():
    """What is above the fold lies, seen from outside with the front edge on the right, above the corner."""
    book, _ = printed("record-wall")
    for one in book.piece.boards:
        assert np.cross(one.frame.x, one.frame.y) == pytest.approx(one.frame.z), "a board's own frame is right-handed"
    found = list(corners(Desk(book)))
    assert len(found) == 4
    for corner in found:
        for half, above in ((corner.upper, 1.0), (corner.lower, -1.0)):
            frame = half.look.part.board.frame
            outward = np.array(frame.y) * (1.0 if half.face is Surface.PLUS else -1.0)
            inward = np.array(frame.x) * -half.end
            up = np.cross(outward, (0.0, 0.0, 1.0))  # to the right is out of the wall
            assert np.dot(up, inward) * above > 0.99
