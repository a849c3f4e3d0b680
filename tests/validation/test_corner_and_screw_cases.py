"""Worked cases of corners, keys, long screws, and the example of the job file's description, from the file's text on.

"K" cases were computed with a polygon library and a solid model, apart from this project, by the conventions of
its geometry notes; each test names its own. Tolerance 0.001 unless the case says otherwise. A frame 900 x 500 on
its centre-lines, 24 thick: level boards 924 over the long points, 876 between the short ones.
"""

import math
from functools import lru_cache
from itertools import product

import pytest
from shapely import Point, Polygon

from dryfit.joints.screws.chain import plan
from dryfit.piece.solids import Solids
from dryfit.trade.screws import figure, read_screw
from tests.joints.typed import board, book_of, cut_of, found, frame, job, joint_of, piece_of, table

BOX = [[0, 0], [900, 0], [900, 500], [0, 500]]


def near(value, within=0.001):
    return pytest.approx(value, abs=within)


def corners_of(text, *names):
    """Vertices of the placed parts in the elevation."""
    solids = Solids()
    for name in names:
        mesh = solids.placed(piece_of(text).part_by_name[name]).to_mesh64()
        yield from ((float(x), float(y)) for x, y, _ in mesh.vert_properties[:, :3])


# ---- corners


@pytest.mark.parametrize("backwards", [False, True], ids=["anticlockwise", "clockwise"])
def test_k3_a_mitre_at_120_in_25(backwards):
    """Cut at 60 to the length, bevel off square 30, long point less short point 14.434."""
    points = [[round(800 * math.cos(k * math.pi / 3), 9), round(800 * math.sin(k * math.pi / 3), 9)] for k in range(6)]
    timber = table('[timber."25"]', species="oak, white", form="panel", thickness=25)
    text = job(timber, frame(points[::-1] if backwards else points, timber="25"))
    for made in piece_of(text).joints:
        for cut in made.cuts:
            assert cut.figures.between_faces == near(120.0)
            assert cut.figures.lean == near(30.0)
            assert 90.0 - cut.figures.lean == near(60.0)
            assert cut.figures.deep == near(14.434)
    for part in piece_of(text).parts:
        assert part.length - (part.short[1] - part.short[0]) == near(2 * 14.434, 0.002)


def test_k4_a_mitre_of_27_level_and_18_upright():
    """56.310 to the length of the 27 board, 33.690 of the 18 one; long less short 18 and 27; the cut 32.450 long."""
    text = job(frame(BOX, timber=["27", "18", "27", "18"], size="outside"))
    level, upright = (cut_of(text, f"mitre of box {i} to box {j}") for i, j in ((1, 2), (2, 1)))
    assert 90.0 - level.figures.lean == near(56.310)
    assert 90.0 - upright.figures.lean == near(33.690)
    assert (level.figures.deep, upright.figures.deep) == (near(18.0), near(27.0))
    assert level.figures.across == upright.figures.across == near(32.450)
    parts = piece_of(text).part_by_name
    assert parts["box 1"].length == near(900.0)  # set out by its outside
    assert parts["box 2"].length == near(500.0)


@lru_cache(maxsize=4)
def keyed(timber="27", **options):
    text = job(table("[joints.mitre]", strengthen="keys", cutter=100, plunge=12, **options), frame(BOX, timber=timber))
    piece, made = piece_of(text), joint_of(text, "box 1", "box 2")
    wood = []
    for cut in (cut for cut in made.cuts if cut.word == "key pockets"):
        part = piece.part_by_name[cut.body]
        (x, y, _), (x1, _, _) = cut.shapes[0].outline
        # the pocket's own circle, not the solid's polygon
        circle = Point((x + x1) / 2, y).buffer((x1 - x) / 2, quad_segs=4096)
        wood.append((part, circle))
    return made, wood


def test_k6_how_far_a_pocket_reaches_along_the_outer_faces():
    """Cutter 100, plunged 12 along the bisector: 15.296 on either outer face."""
    made, _ = keyed()
    assert [cut.figures.on_face for cut in made.cuts if cut.word == "key pockets"] == [near(15.296), near(15.296)]


def test_k6_the_section_of_the_key_in_the_wood():
    """134.10, within 0.02, over both boards."""
    _, wood = keyed()
    total = 0.0
    for part, circle in wood:
        long, short = (part.long[1], part.short[1]) if part.id == "box 1" else (part.long[0], part.short[0])
        outer = -13.5 * part.board.inside
        middle = (part.long[0] + part.long[1]) / 2
        body = Polygon([(middle, outer), (long, outer), (short, -outer), (middle, -outer)])
        total += body.intersection(circle).area
    assert total == near(134.10, 0.02)


def test_k6_the_wood_left_to_the_inside_arris():
    """26.184 with t 27."""
    _, wood = keyed()
    for part, circle in wood:
        short = part.short[1] if part.id == "box 1" else part.short[0]
        assert circle.distance(Point(short, 13.5 * part.board.inside)) == near(26.184)


def test_k7_a_mitred_rectangle_on_centre_lines():
    """Level boards 924 long point, 876 short point; uprights 524 and 476."""
    text = job(frame(BOX))
    lengths = {part.id: (part.length, part.short[1] - part.short[0]) for part in piece_of(text).parts}
    assert lengths["box 1"] == lengths["box 3"] == (near(924.0), near(876.0))
    assert lengths["box 2"] == lengths["box 4"] == (near(524.0), near(476.0))


@pytest.mark.parametrize("size", ["centre", "outside", "inside"])
def test_k14_diagonals_over_the_outside_corners(size):
    """Rectangle on centre-lines 900 x 500, t 24: 1062.2, whichever of its faces it was set out by."""
    grow = {"centre": 0, "outside": 12, "inside": -12}[size]
    low, wide, high = -grow, 900 + grow, 500 + grow
    text = job(frame([[low, low], [wide, low], [wide, high], [low, high]], size=size))
    corners = list(corners_of(text, "box 1", "box 2", "box 3", "box 4"))
    assert max(math.dist(p, q) for p, q in product(corners, corners)) == near(1062.2, 0.05)


def test_k15_what_eight_cuts_each_a_tenth_out_leave_at_the_last_corner():
    """0.8 degrees, 0.47 open at the toe within 0.01: 2 t tan 0.4 sqrt 2 with t 24, over the length of the cut."""
    cuts = [cut for made in piece_of(job(frame(BOX))).joints for cut in made.cuts]
    assert len(cuts) == 8
    last = cuts[-1].figures
    assert 2 * last.across * math.tan(math.radians(len(cuts) * 0.1 / 2)) == near(0.47, 0.01)
    assert last.across == near(24 * math.sqrt(2))


# ---- long screw (common practice figures)


def hung(*, hollow=0, kind="brick", width=280, **options):
    """Board 27 thick; M6 x 80, cap head 10, counterbore 13; lining 12.5, 20 held beyond it.

    The counterbore is for the case's washer of 12; its sum leaves out what the washer takes of the screw, which has
    a test of its own.
    """
    given = {"screw": "M6x80", "counterbore": 13, "engagement": 20, "anchor": "demo anchor 8x40"}
    return job(
        table("[wall]", kind=kind, lining=12.5, hollow=hollow, hung=True),
        board("shelf", [[0, 500], [1200, 500]], width, "27"),
        table("[[fixing]]", board="shelf", kind="long screw", at=[200, 1000], **{**given, **options}),
    )


def plan_of(text):
    (made,) = piece_of(text).joints
    return plan(made.meeting, made.options)


@pytest.mark.parametrize(
    ("hollow", "grip", "deep"), [(0, 47.5, 232.5), (5, 42.5, 237.5)], ids=["flat wall", "5 of hollow behind"]
)
def test_k8_the_largest_grip_and_the_counterbore_it_asks_for(hollow, grip, deep):
    """80 - 12.5 - 20 = 47.5 on a flat wall, counterbore 232.5; 42.5 and 237.5 with 5 behind."""
    text = hung(hollow=hollow)
    bore = cut_of(text, "bore 1 of fixing of shelf")
    assert plan_of(text).grip == near(grip)
    assert bore.figures.deep == near(deep)
    assert bore.shapes[0].profile == ((0.0, 13.0), (deep, 6.6), (280.0, 0.0))
    assert book_of(text).stops == ()


def test_k8_the_hole_is_that_of_iso_273_medium_and_head_and_washer_are_those_of_their_standards():
    """6.6; cap head 10, washer 12, so 13 hides it with 0.5 a side."""
    screw = read_screw("M6x80")
    sizes = {name: figure(screw, name).value for name in ("hole_medium", "hole_fine", "head", "washer")}
    assert sizes == {"hole_medium": 6.6, "hole_fine": 6.4, "head": 10.0, "washer": 12.0}
    assert cut_of(hung(), "bore 1 of fixing of shelf").figures.on_face == 6.6


def test_k8_with_its_washer_the_grip_is_less_by_the_washers_thickness():
    """ISO 7089, from memory: 1.6 for M6; 47.5 - 1.6 = 45.9."""
    assert plan_of(hung(washer=True)).grip == near(45.9)


def test_k8_a_grip_over_the_largest_is_a_stop_and_the_largest_is_none():
    assert not found(hung(grip=47.5), "screw-too-short")
    (finding,) = found(hung(grip=48), "screw-too-short")
    assert (finding.found, str(finding.remedy)) == (
        near(0.5),
        "use a screw at least 81 mm long; the next that is sold is 90",
    )


def test_k8_the_side_wall_is_7_and_with_a_wander_of_2_it_is_5():
    """(27 - 13) / 2 = 7. A bit held in the hand strays 0.3 + 1.0 in 100: 2.0 over a bore 170 deep, 217.5 - 47.5."""
    text = hung(width=217.5, drilled="by hand")
    made = plan_of(text)
    assert made.deep == near(170.0)
    assert made.wander == near(2.0)
    assert (27 - made.counterbore) / 2 == near(7.0)
    assert (27 - made.counterbore) / 2 - made.wander == near(5.0)
    assert not found(text, "thin-beside-bore")


def test_k8_a_hole_of_6_for_m6_is_refused():
    (finding,) = found(hung(hole_diameter=6.0), "screw-hole-tight")
    assert (finding.severity, finding.found, finding.limit, finding.source) == ("stop", 6.0, 6.4, "ISO 273")
    assert book_of(hung(hole_diameter=6.0)).stops


def test_k8_a_machine_screw_into_a_timber_stud_is_refused():
    text = hung(kind="plasterboard on timber studs", anchor="")
    (finding,) = found(text, "joint-unsuited")
    assert finding.severity == "stop"
    assert "M6 x 80, cap head has no hold in a stud" in str(finding.says)
    assert not piece_of(text).joints


# ---- what takes a screw, and what it must go through (cases worked apart from this project)


def fixed(kind, lining, hollow, *, depth=280, studs=(), **options):
    wall = {"kind": kind, "lining": lining, "hollow": hollow, "hung": True, **({"studs": list(studs)} if studs else {})}
    return job(
        table("[wall]", **wall),
        board("shelf", [[0, 500], [1200, 500]], depth, "40"),
        table("[[fixing]]", board="shelf", kind="long screw", at=[200, 1000], **options),
    )


def codes(text):
    return {(finding.code, str(finding.severity)) for finding in book_of(text).findings}


def test_s13_a_machine_screw_into_a_stud_is_a_stop():
    assert ("joint-unsuited", "stop") in codes(fixed("timber studs", 12.5, 5, studs=(200, 1000), screw="M8x100"))


@pytest.mark.parametrize(("lining", "off"), [(12.5, 3.5), (16, None), (32, None), (33, 1.0)])
def test_s13_an_anchor_that_clamps_16_to_32_on_12_5_is_3_5_under(lining, off):
    sheet = table("[anchor.demo]", type="hollow-wall anchor", clamps=[16, 32], screw="M6", length=45)
    text = fixed("plasterboard", lining, 0, screw="M6x160", anchor="demo") + sheet
    unsuited = found(text, "anchor-unsuited")
    assert [abs(one.found - one.limit) for one in unsuited] == ([near(off)] if off else [])
    assert all(one.severity == "stop" for one in unsuited)


@pytest.mark.parametrize(("lining", "short"), [(25, None), (30, 5.0)])
def test_s13_a_screw_5_x_100_with_40_of_grip_holds_six_diameters_behind_25_and_is_5_short_behind_30(lining, short):
    """100 - 40 - 5 - 25 = 30 = 6 d, counted under the head."""
    text = fixed("timber studs", lining, 5, studs=(200, 1000), screw="wood 5x100, pan head", grip=40)
    too_short = found(text, "screw-too-short")
    assert [one.found for one in too_short] == ([near(short)] if short else [])
    assert all(one.source == "EN 1995-1-1, 8.7.2" for one in too_short)
    assert bool(book_of(text).stops) is (short is not None)


def test_s13_a_plug_10_x_50_behind_4_and_15_wants_a_screw_of_120_for_45_of_grip():
    """45 + 4 + 15 + 50 + 6 = 120."""
    text = fixed("brick", 15, 4, screw="wood 6x120, pan head", anchor="nylon plug 10x50", grip=45)
    assert not found(text, "screw-too-short")
    (finding,) = found(text.replace("x120,", "x110,"), "screw-too-short")
    assert (finding.found, str(finding.remedy)) == (near(10.0), "use a screw at least 120 mm long")
    assert finding.source == "trade texts on wall fixings"


@pytest.mark.parametrize(("driver", "stopped"), [(220, True), (229.9, True), (230, False)])
def test_s14_a_counterbore_200_deep_wants_a_driver_of_230(driver, stopped):
    """A bit of 220: stop, 230 at least; with the screw 110 that travels 50, max(230, 110, 30 + 50 + 200) = 280 free."""
    text = fixed("brick", 0, 0, depth=260, screw="wood 6x110, pan head", anchor="nylon plug 8x40", engagement=50,
                 driver=driver)  # fmt: skip
    bore = cut_of(text, "bore 1 of fixing of shelf")
    assert bore.figures.deep == near(200.0)
    assert [one.limit for one in found(text, "driver-too-short")] == ([near(230.0)] if stopped else [])
    if driver == 230:
        assert bore.clear == near(280.0)


@pytest.mark.parametrize(("free", "warned"), [(90, True), (279, True), (281, False)])
def test_s14_a_board_that_stands_90_before_a_mouth_is_told_of_with_both_figures(free, warned):
    """Joined to nothing it comes after the shelf, whose screws are driven before."""
    text = fixed("brick", 0, 0, depth=260, screw="wood 6x110, pan head", anchor="nylon plug 8x40", engagement=50,
                 driver=230) + board("before", [[200, 300], [200, 700]], 50, "40", back=260 + free)  # fmt: skip
    covered = found(text, "screw-driven-first")
    assert [(one.found, one.limit) for one in covered] == ([(near(free), near(280.0))] if warned else [])
    assert all(one.severity == "note" and f"before is {free} in front of" in str(one.says) for one in covered)


COUNTERBORES = {
    "wood 4x120": (10, 10),
    "wood 5x120": (12, 12),
    "wood 6x120": (15, 15),
    "M5x120": (10, 12),
    "M6x120": (12, 15),
    "M8x120": (15, 20),
}


@pytest.mark.parametrize("washer", [False, True], ids=["head", "washer"])
@pytest.mark.parametrize("screw", COUNTERBORES)
def test_a_counterbore_is_the_next_plug_cutter_over_head_or_washer_and_a_half(screw, washer):
    """Heads of ISO 4762 and twice the thread, washers of ISO 7089; cutters 8, 10, 12, 15, 16, 20, as published."""
    anchor = "" if screw.startswith("wood") else "demo"
    text = fixed("timber", 0, 0, screw=screw, washer=washer, anchor=anchor)
    assert cut_of(text, "bore 1 of fixing of shelf").figures.across == COUNTERBORES[screw][washer]


@pytest.mark.parametrize(
    ("screw", "head", "high"), [("M5x60", 11.2, 3.1), ("M6x60", 13.44, 3.72), ("M8x60", 17.92, 4.96)]
)
def test_a_countersunk_machine_screw_has_the_sharp_cone_of_iso_10642_and_its_head_in_its_length(screw, head, high):
    countersunk = read_screw(f"{screw}, countersunk")
    assert (figure(countersunk, "head").value, figure(countersunk, "head_height").value) == (head, high)
    assert countersunk.under_head == near(60 - high)
    assert read_screw(screw).under_head == 60.0


def screwed_butt(count, depth, screw="wood 5x80", at=0):
    return job(
        table("[joints]", end_on_face="butt"),
        table("[joints.butt]", fasten="screws", screw=screw, count=count),
        board("base", [[-500, 0], [500, 0]], depth, "27"),
        board("post", [[at, 0], [at, 400]], depth, "27"),
    )


@pytest.mark.parametrize(
    ("count", "depth", "limits"),
    [(4, 200, []), (4, 150, [20.0]), (4, 159.9, [20.0]), (5, 120, [15.0, 25.0]), (10, 140, [15.0, 15.0])],
    ids=["50 apart, 25 from the edges", "18.75 from the edges", "just under 4 d", "24 apart", "14 apart"],
)
def test_screws_stand_5_d_apart_across_the_grain_and_4_d_from_the_edges(count, depth, limits):
    """EN 1995-1-1, axially loaded: a2 5 d = 25, edge 4 d = 20; predrilled in shear, table 8.2: 3 d = 15 is the least.

    A step of depth / count, half of it to either edge; measured to the thread's middle.
    """
    near_each = found(screwed_butt(count, depth), "screws-near")
    assert sorted(one.limit for one in near_each) == limits
    assert all((one.severity == "stop") is (one.limit == 15.0) for one in near_each)
    assert all("EN 1995-1-1" in one.source for one in near_each)


@pytest.mark.parametrize(("at", "warned"), [(451, True), (450, False)])
def test_screws_for_a_pull_stand_10_d_from_the_end(at, warned):
    """EN 1995-1-1, axially loaded: 10 d = 50."""
    assert bool(found(screwed_butt(3, 300, at=at), "screws-near")) is warned


@pytest.mark.parametrize(
    ("at", "codes_found"),
    [((60, 1000), []), ((59, 1000), ["screw-near-end"]), ((200, 242), []), ((200, 241), ["screw-near-end"])],
    ids=["10 d from the end", "less", "7 d apart", "less apart"],
)
def test_screws_through_a_width_stand_10_d_from_the_end_and_7_d_apart_along_the_grain(at, codes_found):
    """EN 1995-1-1, axially loaded: end 10 d = 60, a1 7 d = 42."""
    text = fixed("brick", 10, 0, screw="M6x120", anchor="sleeve 8x40").replace("[200, 1000]", str(list(at)))
    assert [one.code for one in found(text, "screw-near-end")] == codes_found


# ---- the example of the job file's description


def example(*, measured="", tapered="", joints="clearance = 0.15"):
    """The long shelf, two raking boards 9 off plumb, and the box set out by its outside."""
    return f"""dryfit = 1

[job]
title = "Listening wall"
client = "demo"
date = 2026-05-04
units = "mm"

[measures]
width = 2600
height = 1900
depth = 330
bay = "width / 4"

[timber.oak24]
species = "oak, white"
form = "edge-glued panel"
thickness = 24
{measured}

[joints]
crossing = "cross halving"
corner = "mitre"
{joints}

[joints.mitre]
strengthen = "keys"

[[board]]
name = "long shelf"
timber = "oak24"
line = [[0, 600], ["width", 600]]
depth = "depth"

[[board]]
name = "raking {{i}}"
count = 2
timber = "oak24"
line = [["i * bay", 0], ["i * bay + height * tan(9)", "height"]]
depth = "depth"
ends = "level"
{tapered}

[[frame]]
name = "box"
timber = "oak24"
points = [[300, 900], [1200, 900], [1200, 1400], [300, 1400]]
size = "outside"
closed = true
depth = "depth - 30"

[[unit]]
name = "glued box"
boards = ["box"]
"""


NOMINAL = example()
MEASURED = example(measured="measured = 23.8", tapered="thickness_at = [[0, 23.8], [1200, 24.1]]")


def meeting_of(text, one, other):
    return joint_of(text, one, other).meeting


@pytest.mark.parametrize(
    ("other", "x", "along"), [("long shelf", 745.03, 607.48), ("box 1", 794.45, 923.37), ("box 3", 869.84, 1405.30)]
)
def test_k16_where_raking_1_meets_the_level_boards(other, x, along):
    meeting = meeting_of(NOMINAL, other, "raking 1")
    assert meeting.form == "crossing"
    assert meeting.frame.origin[0] == near(x, 0.005)
    assert meeting.side("raking 1").at == near(along, 0.005)


def test_k16_raking_2_meets_the_long_shelf_and_does_not_touch_the_box():
    keys = [meeting.key for meeting in piece_of(NOMINAL).meetings if "raking 2" in meeting.key]
    assert keys == [("long shelf", "raking 2")]
    meeting = meeting_of(NOMINAL, "long shelf", "raking 2")
    assert meeting.frame.origin[0] == near(1395.03, 0.005)
    assert meeting.side("raking 2").at == near(607.48, 0.005)


def test_k16_the_box_is_set_out_by_its_outside():
    """Centre-lines at y 912 and 1388; the parts fill 300 to 1200 by 900 to 1400."""
    heights = [piece_of(NOMINAL).board_by_name[f"box {i}"].frame.origin[1] for i in (1, 3)]
    assert heights == [near(912.0), near(1388.0)]
    corners = list(corners_of(NOMINAL, "box 1", "box 2", "box 3", "box 4"))
    xs, ys = zip(*corners, strict=True)
    assert (min(xs), max(xs), min(ys), max(ys)) == (near(300.0), near(1200.0), near(900.0), near(1400.0))


def test_k16_a_raking_board_is_192368_long_on_either_face_and_its_blank_192748():
    part = piece_of(NOMINAL).part_by_name["raking 1"]
    corners = Solids().mesh(part)[0]
    for face in (corners[corners[:, 1] > 11.9], corners[corners[:, 1] < -11.9]):
        assert face[:, 0].max() - face[:, 0].min() == near(1923.68, 0.005)
    assert part.length == near(1927.48, 0.005)
    assert part.blank.length - 20.0 == near(1927.48, 0.005)


@pytest.mark.parametrize("name", ["long shelf", "box 1", "box 3"])
def test_k16_a_slot_in_a_level_board(name):
    """24.15 across, 24.451 on the face, shift 3.801."""
    cut = cut_of(NOMINAL, f"slot in {name} for raking 1")
    assert cut.figures.across == near(24.15)
    assert cut.figures.on_face == near(24.451)
    outline = [(x, y) for x, y, _ in cut.shapes[0].outline]
    lows = {c: min(x + (c - y) * (x1 - x) / (y1 - y) for (x, y), (x1, y1) in _sides(outline, c)) for c in (12.0, -12.0)}
    assert abs(lows[12.0] - lows[-12.0]) == near(3.801)


def _sides(outline, c):
    """The sides of an outline that pass the height c."""
    pairs = zip(outline, outline[1:] + outline[:1], strict=True)
    return [(p, q) for p, q in pairs if (p[1] - c) * (q[1] - c) < 0.0]


@pytest.mark.parametrize("text", [NOMINAL, MEASURED], ids=["K16", "K17"])
def test_k16_the_raking_boards_stand_proud_of_the_box_so_they_are_slotted_from_the_wall_and_go_in_last(text):
    for name in ("box 1", "box 3"):
        made = joint_of(text, name, "raking 1")
        assert made.making.front == name
        (motion,) = made.making.motions
        assert (motion.body, motion.direction) == ("raking 1", (0.0, 0.0, 1.0))
    assert not found(text, "open-notch")
    assert not found(text, "locked")


@pytest.mark.parametrize(("name", "across"), [("long shelf", 24.102), ("box 1", 24.181), ("box 3", 24.250)])
def test_k17_a_slot_follows_the_thickness_measured_where_the_boards_meet(name, across):
    """Straight between the places measured: 23.8 at the foot, 24.1 from 1200 on."""
    assert cut_of(MEASURED, f"slot in {name} for raking 1").figures.across == near(across)


@pytest.mark.parametrize("name", ["long shelf", "box 1", "box 3"])
def test_k17_the_slots_in_raking_1_are_23950_across_everywhere(name):
    assert cut_of(MEASURED, f"slot in raking 1 for {name}").figures.across == near(23.950)


@pytest.mark.parametrize(("name", "deep"), [("long shelf", 165.5), ("box 1", 150.5), ("box 3", 150.5)])
def test_k17_the_depths_and_the_edges_they_open_to(name, deep):
    level = cut_of(MEASURED, f"slot in {name} for raking 1").figures
    raking = cut_of(MEASURED, f"slot in raking 1 for {name}").figures
    assert (level.deep, level.opens) == (near(deep), "front edge")
    assert (raking.deep, raking.opens) == (near(deep), "wall edge")


@pytest.mark.parametrize("text", [NOMINAL, MEASURED], ids=["K16", "K17"])
def test_k16_the_example_is_sound_but_for_what_its_keys_and_tapers_say(text):
    """Nothing overlaps, nothing is locked, no stop is left."""
    assert [str(finding.says) for finding in book_of(text).stops] == []
    assert {made.kind for made in piece_of(text).joints} == {"mitre", "cross halving"}
    assert len(piece_of(text).joints) == 8
