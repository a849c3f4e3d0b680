"""A mitre: two ends cut to one line, plain, keyed, or with a loose tongue.

The frame at hand: 900 x 500 on centre-lines, 24 thick, 300 deep, so a mitre is 24 sqrt(2) = 33.941 long and
10182.3 mm2; two keys, or three where 300 / 100 asks for them; a tongue a third of 24 = 8 thick, two thirds = 16 wide.
"""

import math
from itertools import product

import pytest
from shapely import LineString, Polygon

from dryfit.documents.looks import Desk, Look
from dryfit.documents.sheets.part.words.details import details
from dryfit.geometry.frames import dot
from dryfit.geometry.views import FACES
from dryfit.keeping import Keep
from dryfit.piece.clash import clashes
from dryfit.piece.corner import Corner
from dryfit.piece.facts import Grain
from dryfit.piece.model import DATUM_END
from dryfit.piece.operations import Dial
from dryfit.piece.solids import Solids
from dryfit.sentences import Angle, Voice, told
from tests.joints.going import CONTACT, along, overlap_when_moved, slides, touching_area
from tests.joints.typed import board, book_of, cut_of, found, frame, job, joint_of, kind_of, piece_of, stops, table

BOX = [[0, 0], [900, 0], [900, 500], [0, 500]]


def box(*, timber="24", depth=300, back=0, points=BOX, size="centre", **options):
    return job(table("[joints.mitre]", **options), frame(points, timber=timber, depth=depth, back=back, size=size))


def corner_at(degrees, *, first="24", second="24", depths=(300, 300), backs=(0, 0), **options):
    """Two boards that start at one point, the second `degrees` round from the first."""
    x, y = 500 * math.cos(math.radians(degrees)), 500 * math.sin(math.radians(degrees))
    return job(
        table("[joints.mitre]", **options),
        board("base", [[0, 0], [500, 0]], depths[0], first, back=backs[0]),
        board("side", [[0, 0], [x, y]], depths[1], second, back=backs[1]),
    )


# ---- how it goes together


ANGLES = [30, 60, 90, 120, 165, -75]
EDGES = {
    "level": ((300, 300), (0, 0)),
    "first proud at the front": ((330, 300), (0, 0)),
    "second proud at the front": ((300, 330), (0, 0)),
    "first proud at the wall": ((330, 300), (0, 30)),
    "first proud at both": ((360, 300), (0, 30)),
    "second in front by 40": ((300, 300), (0, 40)),
    "0.9 of difference": ((300, 300.9), (0, 0)),
}


@pytest.mark.parametrize("degrees", ANGLES)
@pytest.mark.parametrize(("depths", "backs"), EDGES.values(), ids=EDGES)
@pytest.mark.parametrize("strengthen", ["none", "tongue"])
def test_it_leaves_along_each_of_its_motions_and_runs_into_the_other_board_the_opposite_way(
    degrees, depths, backs, strengthen
):
    text = corner_at(degrees, depths=depths, backs=backs, strengthen=strengthen, tongue_width=12)
    piece, joint = piece_of(text), joint_of(text, "base", "side")
    for motion in joint.making.motions:
        assert slides(piece, joint, motion), motion
    out = joint.making.motions[0]
    assert overlap_when_moved(piece, joint, out.body, along(out, -1.0)) > 1000.0


@pytest.mark.parametrize("degrees", ANGLES)
@pytest.mark.parametrize(("depths", "backs"), EDGES.values(), ids=EDGES)
def test_to_the_front_and_to_the_wall_it_leaves_where_no_square_end_stands_in_the_way(degrees, depths, backs):
    """A deeper board is square beyond the other's edge: the other cannot pass it."""
    text = corner_at(degrees, depths=depths, backs=backs)
    piece, joint = piece_of(text), joint_of(text, "base", "side")
    said = {motion.direction[2] for motion in joint.making.motions if motion.direction[2]}
    clear = {
        way
        for way in (1.0, -1.0)
        if overlap_when_moved(piece, joint, joint.making.motions[0].body, (0.0, 0.0, 20.0 * way)) <= CONTACT
    }
    assert said == clear
    assert all(
        motion.free == joint.meeting.overlap[1] - joint.meeting.overlap[0] for motion in joint.making.motions[1:]
    )


@pytest.mark.parametrize("degrees", ANGLES)
def test_faces_that_only_touch_part_in_every_direction_that_does_not_press_them(degrees):
    """A motion with nothing to come free of (0) stands for half of all directions."""
    text = corner_at(degrees)
    piece, joint = piece_of(text), joint_of(text, "base", "side")
    out = joint.making.motions[0]
    assert out.free == 0.0
    tried = 0
    for x, y, z in product((-1.0, -0.4, 0.0, 0.5, 1.0), repeat=3):
        size = math.sqrt(x * x + y * y + z * z)
        if size and dot((x / size, y / size, z / size), out.direction) > 0.02:
            tried += 1
            overlaps = [overlap_when_moved(piece, joint, out.body, (x * d, y * d, z * d)) for d in (1.0, 9.0, 40.0)]
            assert max(overlaps) <= CONTACT, (x, y, z)
    assert tried > 40


@pytest.mark.parametrize("degrees", ANGLES)
def test_a_tongue_is_free_after_half_its_width(degrees):
    joint = joint_of(corner_at(degrees, strengthen="tongue", tongue_width=12), "base", "side")
    (out,) = joint.making.motions
    assert out.free == 6.0


def test_beside_a_deeper_board_it_is_free_once_the_square_end_is_passed():
    """At 90 and 24 thick the square end stands 24 sin 45 = 16.971 over the mitre."""
    (out, wallward) = joint_of(corner_at(90, depths=(330, 300)), "base", "side").making.motions
    assert out.free == pytest.approx(16.971, abs=1e-3)
    assert wallward.direction == (0.0, 0.0, -1.0)


# ---- what is made


@pytest.mark.parametrize(
    ("degrees", "timber", "difference"), [(120, "12", 6.928), (90, "27", 27.0), (60, "24", 41.569)], ids=str
)
def test_long_point_less_short_point_is_the_thickness_over_the_tangent_of_half_the_angle(degrees, timber, difference):
    """12 / tan 60, 27 / tan 45, 24 / tan 30; either board keeps the volume of its centre-line, 500 long."""
    text = corner_at(degrees, first=timber, second=timber)
    solids, piece = Solids(), piece_of(text)

    for name in ("base", "side"):
        part = piece.part_by_name[name]
        assert part.length - (part.short[1] - part.short[0]) == pytest.approx(difference, abs=0.001)
        assert solids.volume(part) == pytest.approx(500 * float(timber) * 300, rel=1e-6)
    assert cut_of(text, "mitre of base to side").figures.lean == pytest.approx(90 - degrees / 2)


@pytest.mark.parametrize("degrees", [90, 120, 60])
def test_keys_take_as_much_from_either_board(degrees):
    """Case K6: a cutter of 100 plunged 12 takes 134.10 mm2 at 90; two keys of 4. A solid's arcs have 7.5 degrees."""
    plain, keyed = (
        {
            part.id: Solids().volume(part)
            for part in piece_of(
                corner_at(degrees, first="27", second="27", strengthen=how, keys=2, cutter=100, plunge=12)
            ).parts
        }
        for how in ("none", "keys")
    )
    taken = {name: plain[name] - keyed[name] for name in plain}

    assert taken["base"] == pytest.approx(taken["side"], rel=0.02)
    assert taken["base"] > 100.0
    if degrees == 90:
        assert sum(taken.values()) == pytest.approx(134.10 * 4 * 2, rel=0.03)


def test_a_tongue_s_grooves_take_half_of_it_and_half_a_millimetre_each():
    """27: a third is 9, with 0.1 of play 9.1 wide; 18 / 2 + 0.5 = 9.5 deep, 300 - 2 x 12 = 276 long."""
    plain, grooved = (
        {
            part.id: Solids().volume(part)
            for part in piece_of(corner_at(90, first="27", second="27", strengthen=how)).parts
        }
        for how in ("none", "tongue")
    )

    assert {name: plain[name] - grooved[name] for name in plain} == pytest.approx(
        dict.fromkeys(plain, 9.1 * 9.5 * 276), rel=1e-5
    )


def test_the_gap_is_nought_and_the_glue_area_is_the_mitre():
    text = box()
    joint = joint_of(text, "box 1", "box 2")
    (face,) = kind_of(joint).glue(joint)
    assert [(gap.between, gap.size) for gap in joint.gaps] == [("mitre", 0.0)]
    assert (face.grain, face.area_mm2) == ((Grain.END, Grain.END), pytest.approx(24 * math.sqrt(2) * 300, abs=1e-6))
    assert touching_area(piece_of(text), joint) == pytest.approx(face.area_mm2, rel=1e-6)


def test_a_grooves_mouth_is_no_glue_area():
    """8.1 wide and 300 - 2 x 12 = 276 long."""
    text = box(strengthen="tongue")
    joint = joint_of(text, "box 1", "box 2")
    (face,) = kind_of(joint).glue(joint)
    assert face.area_mm2 == pytest.approx(24 * math.sqrt(2) * 300 - 8.1 * 276, abs=1e-6)
    assert touching_area(piece_of(text), joint) == pytest.approx(face.area_mm2, rel=1e-6)


def test_a_dry_corner_has_no_glue():
    joint = joint_of(box(glued=False), "box 1", "box 2")
    assert kind_of(joint).glue(joint) == ()


@pytest.mark.parametrize(
    ("depth", "keys", "count"), [(300, 0, 3), (240, 0, 2), (80, 0, 2), (300, 5, 5)], ids=["300", "240", "80", "asked"]
)
def test_one_key_for_a_hundred_of_depth_two_at_least(depth, keys, count):
    joint = joint_of(box(strengthen="keys", keys=keys, depth=depth), "box 1", "box 2")
    (item,) = kind_of(joint).hardware(joint)
    assert item.count == count
    assert [len(cut.shapes) for cut in joint.cuts if cut.word == "key pockets"] == [count, count]


def test_keys_lie_evenly_and_at_one_height_in_both_boards():
    """Three in 300: at 50, 150, 250, each 4 thick; the second board stands 20 off the wall: its own d is 20 less."""
    text = job(
        table("[joints.mitre]", strengthen="keys", keys=3),
        board("base", [[0, 0], [500, 0]], 300),
        board("side", [[0, 0], [0, 500]], 280, back=20),
    )
    first, second = (
        cut_of(text, f"key pockets in {one} to {other}") for one, other in (("base", "side"), ("side", "base"))
    )
    middles = [20 + (number + 0.5) * 280 / 3 for number in range(3)]
    assert [(shape.low + shape.high) / 2 for shape in first.shapes] == pytest.approx(middles)
    assert [(shape.low + shape.high) / 2 + 20 for shape in second.shapes] == pytest.approx(middles)
    assert all(shape.high - shape.low == 4.0 for cut in (first, second) for shape in cut.shapes)


def test_a_tongue_is_a_third_thick_two_thirds_wide_and_stopped():
    joint = joint_of(box(strengthen="tongue"), "box 1", "box 2")
    (item,) = kind_of(joint).hardware(joint)
    assert (item.name, str(item.says), item.count) == ("loose tongue", "8 x 16 x 276, grain across the corner", 1)


def test_the_thinner_board_gives_the_tongue_its_size():
    """18: a third is 6.0, two thirds 12."""
    joint = joint_of(box(strengthen="tongue", timber=["27", "18", "27", "18"], size="outside"), "box 1", "box 2")
    assert str(kind_of(joint).hardware(joint)[0].says).startswith("6 x 12 x 276")


def test_a_tongues_grooves_are_matings_with_its_play():
    joint = joint_of(box(strengthen="tongue", tongue_play=0.2), "box 1", "box 2")
    options = joint.options
    matings = kind_of(joint).matings(joint.meeting, options, joint.making)
    assert [(m.key, m.nominal, m.play) for m in matings] == [
        ("groove in box 1 towards box 2", pytest.approx(8.2), 0.2),
        ("groove in box 2 towards box 1", pytest.approx(8.2), 0.2),
    ]
    for mating in matings:
        side = joint.meeting.side(mating.cut_in)
        outward = Corner.of(side, joint.meeting.other(mating.cut_in)).outward
        assert abs(dot(mating.normal, (*outward, 0.0))) < 1e-12  # across the walls is along the mitre


# ---- the order of the work


def operations(text):
    piece = piece_of(text)
    made = piece.joint_by_key[("box 1", "box 2")]
    return kind_of(made).operations(made, piece.board_by_name)


def test_two_ends_of_one_bevel_are_sawn_with_one_setting():
    one, other = operations(box())
    assert (*one.cuts, *other.cuts) == ("mitre of box 1 to box 2", "mitre of box 2 to box 1")
    assert one.ways[0].sets == other.ways[0].sets == ((Dial.LEAN, Angle(45.0)),)


def test_two_bevels_are_two_settings():
    """27 and 18: 33.690 and 56.310 off square; on its end the saw is set to 33.690 for the second too."""
    text = box(timber=["27", "18", "27", "18"], size="outside")
    sawn = operations(text)
    assert {one.cuts: one.ways[0].needs[0].least for one in sawn} == {
        ("mitre of box 1 to box 2",): pytest.approx(33.690, abs=1e-3),
        ("mitre of box 2 to box 1",): pytest.approx(33.690, abs=1e-3),
    }
    assert len({one.key for one in sawn}) == len({(str(one.ways[0].makes), one.ways[0].says) for one in sawn}) == 2


def test_pockets_for_keys_wait_for_the_glue_and_grooves_for_the_saw():
    *sawn, pockets = operations(box(strengthen="keys"))
    assert pockets.after_gluing == ("box 1", "box 2")
    assert {key.partition(" of ")[0].partition(" in ")[0] for key in pockets.cuts} == {"key pockets"}
    assert len(pockets.cuts) == 2, "the corner is glued: both boards are cut at once"
    *sawn, one, other = operations(box(strengthen="tongue"))
    assert one.after == other.after == tuple(end.key for end in sawn)
    assert one.after_gluing is None


@pytest.mark.parametrize(
    ("strengthen", "word"),
    [("none", "Size the end grain"), ("keys", "after the corner is glued"), ("tongue", "two halves")],
)
def test_the_drawing_says_what_must_not_be_forgotten(strengthen, word):
    joint = joint_of(box(strengthen=strengthen), "box 1", "box 2")
    assert word in " ".join(kind_of(joint).notes(joint))


# ---- dowels, biscuits and screws across


HELD = {
    "dowels": ({"strengthen": "dowels"}, 1),
    "biscuits": ({"strengthen": "biscuits"}, 1),
    "screws": ({"strengthen": "screws"}, 3),
}


@pytest.mark.parametrize("degrees", [90, 105, -80])
@pytest.mark.parametrize(("options", "ways"), HELD.values(), ids=HELD)
def test_what_stands_in_both_ends_leaves_along_the_normal_only_and_screws_hold_no_board_back(degrees, options, ways):
    text = corner_at(degrees, first="27", second="27", **options)
    piece, joint = piece_of(text), joint_of(text, "base", "side")
    assert len(joint.making.motions) == ways
    assert all(slides(piece, joint, motion) for motion in joint.making.motions)


def test_dowels_are_as_long_as_leaves_4_behind_their_holes():
    """24 at 90: 16 from the outside; 16 - (13.5 + 3) sin 45 = 4.33 for 6 x 25; 16 - (13.5 + 4) sin 45 = 3.63 for 8."""
    joint = joint_of(box(strengthen="dowels"), "box 1", "box 2")
    (item,) = kind_of(joint).hardware(joint)
    assert (item.name, str(item.says), item.count) == ("dowel, grooved", "6 x 25", 3)
    assert joint.making.motions[0].free == 12.5
    (finding, _) = found(corner_at(90, strengthen="dowels", dowel=8, dowel_in=12.5), "dowel-breaks-out")
    assert (finding.found, finding.limit) == (pytest.approx(16 - 17.5 * math.sin(math.pi / 4)), 4.0)


def test_a_biscuits_slot_is_a_segment_of_its_cutter():
    """#20: 12.3 deep of a circle of 100 is 65.69 long at the mouth, its segment 553.46 mm2, 4 thick: 2213.8 mm3."""
    text = box(strengthen="biscuits")
    piece, joint = piece_of(text), joint_of(text, "box 1", "box 2")
    slots = [cut for cut in joint.cuts if cut.word == "biscuit slots"]
    assert [cut.figures.on_face for cut in slots] == [pytest.approx(65.69, abs=0.01)] * 2
    turn = 2 * math.acos((50 - 12.3) / 50)
    segment = 50**2 / 2 * (turn - math.sin(turn))
    assert segment == pytest.approx(553.46, abs=0.01)
    plain = piece_of(box())
    for name in ("box 1", "box 2"):
        lost = Solids().volume(plain.part_by_name[name]) - Solids().volume(piece.part_by_name[name])
        assert lost == pytest.approx(2 * 3 * 4 * segment, rel=0.01)  # both its ends; a solid's arcs are polygons
        assert lost < 2 * 3 * 4 * segment


@pytest.mark.parametrize(
    ("thick", "size"), [("12", "#0"), ("18", "#0"), ("24", "#20"), ("27", "#20")], ids=["12", "18", "24", "27"]
)
def test_the_largest_biscuit_that_leaves_4_outside_its_slot(thick, size):
    """18 at 90: a third of the mitre lies 12 from the outside; #10, 10 deep, leaves 12 - (10 + 2) sin 45 = 3.51."""
    joint = joint_of(corner_at(90, first=thick, second=thick, strengthen="biscuits"), "base", "side")
    (item,) = kind_of(joint).hardware(joint)
    assert str(item.says).startswith(f"{size},")
    near = found(corner_at(90, first=thick, second=thick, strengthen="biscuits"), "biscuit-near-outside")
    assert bool(near) is (thick == "12")


def test_glue_lies_beside_what_stands_in_a_mitre():
    """24 sqrt 2 x 300 less three circles of 6, less three mouths of 65.69 x 4."""
    whole = 24 * math.sqrt(2) * 300
    for strengthen, mouths in (("dowels", 3 * math.pi * 9), ("biscuits", 3 * 65.69 * 4)):
        joint = joint_of(box(strengthen=strengthen), "box 1", "box 2")
        (zone,) = kind_of(joint).glue(joint)
        assert zone.area_mm2 == pytest.approx(whole - mouths, abs=0.5)


def test_the_part_s_sheet_says_where_biscuits_lie():
    """300 deep, three of them: at 50, 150 and 250."""
    desk = Desk(book_of(box(strengthen="biscuits")))
    look = desk.looks["box 1"]
    told = {line for cut in look.part.cuts if cut.word == "biscuit slots" for line in details(desk, look, cut)}
    assert told == {f"3 in the {end} end at 50, 150, 250 from the front edge" for end in ("left", "right")}


def test_screws_are_drilled_in_the_closed_corner_and_dowels_in_the_sawn_ends():
    *sawn, one, other = operations(box(strengthen="dowels"))
    assert one.after == other.after == tuple(end.key for end in sawn)
    *sawn, counterbore, hole, pilot = operations(box(strengthen="screws"))
    assert counterbore.after == tuple(end.key for end in sawn)
    assert hole.after == (counterbore.key,)
    assert pilot.after == (hole.key,)


def test_a_screwed_corner_that_is_dry_is_held_by_end_grain_alone_which_the_cure_makes_dowels():
    text = box(strengthen="screws", glued=False)
    (finding, *_) = found(text, "end-grain-pull")
    (cure, *_) = finding.cures
    (edit,) = cure.edits
    assert (edit.value["strengthen"], edit.value["glued"]) == ("dowels", True)


# ---- closing a frame


def regular(count):
    turns = [math.tau * k / count for k in range(count)]
    return [[round(1000 * math.cos(turn), 6), round(1000 * math.sin(turn), 6)] for turn in turns]


CLOSING = {
    "a rectangle closes as two L's": (BOX, "tongue", False),
    "a hexagon closes as two halves": (regular(6), "tongue", False),
    "a pentagon does not close": (regular(5), "tongue", True),
    "a plain pentagon does": (regular(5), "none", False),
    "so does a keyed one": (regular(5), "keys", False),
    "a rectangle with dowels closes as two L's": (BOX, "dowels", False),
    "a pentagon with biscuits does not": (regular(5), "biscuits", True),
    "a rectangle with screws does": (BOX, "screws", False),
}


@pytest.mark.parametrize(("points", "strengthen", "locked"), CLOSING.values(), ids=CLOSING)
def test_a_tongued_frame_closes_as_two_halves_or_not_at_all(points, strengthen, locked):
    """Geometry notes, section 5: not a pentagon, nor unequal corners whose mitres are not parallel."""
    assert ("locked" in stops(box(points=points, strengthen=strengthen))) is locked


def leaving(piece, bodies):
    """The directions in which these boards leave the rest together, by the joints between them and it."""
    ways = None
    for joint in piece.joints:
        inside = [body for body in joint.key if body in bodies]
        if len(inside) == 1:
            out = {
                tuple(round(x if motion.body == inside[0] else -x, 6) + 0.0 for x in motion.direction)
                for motion in joint.making.motions
            }
            ways = out if ways is None else ways & out
    return ways or set()


def test_a_tongued_rectangle_parts_into_two_halves_one_way_each_and_no_board_of_it_alone():
    piece, names = piece_of(box(strengthen="tongue")), [f"box {number}" for number in (1, 2, 3, 4)]

    assert [leaving(piece, {name}) for name in names] == [set()] * 4
    assert [len(leaving(piece, {one, names[(at + 1) % 4]})) for at, one in enumerate(names)] == [1] * 4


def test_a_tongued_hexagon_parts_into_halves_of_three_and_a_pentagon_into_none():
    hexagon, pentagon = (piece_of(box(points=regular(count), strengthen="tongue")) for count in (6, 5))
    pairs = [{f"box {at}", f"box {at % 5 + 1}"} for at in range(1, 6)]

    assert leaving(hexagon, {"box 1", "box 2", "box 3"})
    assert not any(leaving(pentagon, some) for some in [*pairs, *({f"box {at}"} for at in range(1, 6))])


def test_a_plain_rectangle_takes_its_last_board_from_the_front():
    assert (0.0, 0.0, 1.0) in leaving(piece_of(box()), {"box 1"})


@pytest.mark.parametrize("how", ["none", "keys", "tongue"])
def test_no_other_room_stumbles_over_it(how):
    piece, keep = piece_of(box(strengthen=how)), Keep()

    assert clashes(piece.parts, Solids(keep), frozenset(joint.key for joint in piece.joints), keep) == ()
    assert not [finding for finding in piece.findings if finding.code == "short-grain"]
    assert [part.length for part in piece.parts] == pytest.approx([924, 524, 924, 524])  # case K7
    assert {part.cuts[0].end for part in piece.parts} == {DATUM_END}


# ---- limits


@pytest.mark.parametrize(
    ("degrees", "made", "warned"),
    [
        (14.9, False, False),
        (15, True, True),
        (29.9, True, True),
        (30, True, False),
        (170, True, False),
        (179, True, False),
    ],
)
def test_a_sharp_corner_is_warned_of_and_refused_and_a_blunt_one_never(degrees, made, warned):
    text = corner_at(degrees)
    assert bool(piece_of(text).joints) is made
    assert bool(found(text, "shallow-angle")) is warned
    assert bool(found(text, "joint-unsuited")) is not made


def test_a_thin_board_is_not_cut_to_a_needle_on_a_thick_one():
    """12 on 40 at 165: (20 + 6 cos 165) / sin 165 = 54.9 along the thin board, 6.24 degrees to its length."""
    text = corner_at(165, first="40", second="12")
    (finding,) = found(text, "joint-unsuited")
    assert "side would be cut at 6.24° to its length" in str(finding.says)
    assert not piece_of(text).joints


STEPS = {
    "front": ((300, 270), (0, 0), (0.0, 270.0)),
    "wall": ((300, 270), (0, 30), (30.0, 300.0)),
    "both": ((300, 220), (0, 30), (30.0, 250.0)),
}


@pytest.mark.parametrize(("depths", "backs", "reach"), STEPS.values(), ids=STEPS)
@pytest.mark.parametrize("degrees", [90, -90, 60, 120])
def test_a_mitre_in_part_of_the_depth_tells_where_it_meets_both_faces_and_how_far_across_it_runs(
    degrees, depths, backs, reach
):
    """At 90 it meets the inside face 12 from the corner, the outside face 12 beyond: 24 cot 45 apart."""
    text = corner_at(degrees, depths=depths, backs=backs)
    cut, other = (cut_of(text, f"mitre of {a} to {b}") for a, b in (("base", "side"), ("side", "base")))
    half = 12 / math.tan(math.radians(abs(degrees) / 2))
    inside = 0 if degrees > 0 else 1  # the side stands over +c of the base, or under -c
    assert cut.figures.points[inside] == pytest.approx(half)
    assert cut.figures.points[1 - inside] == pytest.approx(-half)
    assert cut.figures.reach == reach
    assert other.figures.reach is None

    look = Look(piece_of(text).part_by_name["base"])
    for face, place in zip(FACES, cut.figures.points, strict=True):
        (outline,) = look.view(face).outline
        middle = LineString([(-100.0, sum(reach) / 2), (100.0, sum(reach) / 2)])
        assert Polygon(outline).intersection(middle).bounds[0] + look.part.zero == pytest.approx(place)
        assert min(a for a, _ in outline) + look.part.zero == pytest.approx(-half)  # square at the long point


def test_unequal_depths_leave_end_grain_in_sight_at_the_front_a_warning_at_the_wall_a_note():
    text = corner_at(90, depths=(350, 300), backs=(0, 20))
    findings = found(text, "end-grain-shows")
    assert [(f.severity.value, f.where.boards[0], f.found) for f in findings] == [
        ("warn", "base", pytest.approx(30.0)),
        ("note", "base", pytest.approx(20.0)),
    ]
    assert "30 of end grain of base shows at the front, beside side" in str(findings[0].says)


def test_edges_within_1_of_each_other_are_level():
    text = corner_at(90, depths=(301, 300))
    assert not found(text, "end-grain-shows")
    assert {cut.word for cut in joint_of(text, "base", "side").cuts} == {"mitre"}


def test_a_groove_leaves_4_of_wood_to_the_nearer_face():
    """24 at 90: a groove 8.1 wide and 8.5 deep, a third from the inside: (22.627 - 4.05 - 8.5) / sqrt 2."""
    left = (24 * math.sqrt(2) * 2 / 3 - 4.05 - 8.5) / math.sqrt(2)
    assert left == pytest.approx(7.126, abs=1e-3)
    assert not found(corner_at(90, strengthen="tongue"), "tongue-near-outside")
    wide = 17 + 2 * (left - 3.9) * math.sqrt(2) - 1
    (finding,) = found(corner_at(90, strengthen="tongue", tongue_width=wide), "tongue-near-outside")
    assert finding.found == pytest.approx(3.9, abs=1e-9)


NO_ROOM = {
    "a cutter plunged past its middle": ({"strengthen": "keys", "cutter": 100, "plunge": 51}, "cannot be plunged 51"),
    "more keys than there is depth for": ({"strengthen": "keys", "keys": 40}, "40 keys of 4 have no room in 300"),
    "a tongue stopped all along": (
        {"strengthen": "tongue", "tongue_stop": 145},
        "stopped 145 at both edges has no room",
    ),
}


@pytest.mark.parametrize(("options", "says"), NO_ROOM.values(), ids=NO_ROOM)
def test_what_finds_no_room_is_refused_in_words(options, says):
    text = corner_at(90, **options)
    (finding,) = found(text, "joint-unsuited")
    assert says in str(finding.says)
    assert finding.severity == "stop"


@pytest.mark.parametrize(
    ("degrees", "options", "says"),
    [
        (120, {"strengthen": "screws"}, "would stand 30° off square to the face of"),
        (90, {"strengthen": "screws", "screw": "M6x60"}, "has no thread for wood"),
        (90, {"strengthen": "screws", "screw": "wood 4x30"}, "4 x 30 goes 18 into the end of side; 24 hold it; take a"),
        (90, {"strengthen": "screws", "through": "door"}, "door is not one of the two boards"),
        (90, {"strengthen": "biscuits", "biscuits": 9}, "9 slots of 65.7 for biscuits have no room in 300 of depth"),
    ],
    ids=["on the slant", "a machine screw", "too short", "no such board", "too many biscuits"],
)
def test_screws_and_biscuits_that_cannot_be_had_are_refused_in_words(degrees, options, says):
    (finding,) = found(corner_at(degrees, **options), "joint-unsuited")
    assert says in str(finding.says)


def test_the_cure_of_a_counterbore_near_the_mitre_sets_the_screws_further_in():
    text = corner_at(90, first="27", second="27", strengthen="screws", screw_in=13)
    (finding,) = found(text, "plug-near-mitre")
    (cure,) = finding.cures
    (edit,) = cure.edits
    place = float(str(edit.value["screw_in"]).removesuffix(" mm"))
    assert place > 13.0
    assert not found(corner_at(90, first="27", second="27", strengthen="screws", screw_in=place), "plug-near-mitre")


def test_a_pocket_that_comes_near_the_inside_arris_is_a_stop():
    """24 sqrt(2) = 33.941; plunged 31, 2.941 is left."""
    (finding,) = found(corner_at(90, strengthen="keys", cutter=150, plunge=31), "key-too-deep")
    assert (finding.found, finding.limit) == (pytest.approx(2.941, abs=1e-3), 4.0)


def test_in_inches_the_lengths_of_its_sentences_are_inches():
    """30 mm of end grain is 1 3/16 in, to a 64th 1 12/64."""
    text = job(board("base", [[0, 0], [20, 0]], 13, "24"), board("side", [[0, 0], [0, 20]], 12, "24"), units="in")
    (finding,) = found(text, "end-grain-shows")
    assert told(finding.says, Voice("in")) == "1 in of end grain of base shows at the front, beside side"


def test_the_long_point_is_said_where_the_end_is_drawn():
    cut = cut_of(box(), "mitre of box 1 to box 2")
    assert str(cut.figures.how("mm", named=True)) == "long point 24 past the short point"
