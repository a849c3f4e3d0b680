"""Worked cases of the kinds of joint, from the file's text on.

"D" cases were computed by plane geometry and with a solid model, apart from this project; each test names its own.
Lengths within 0.01, volumes within 1 in 100 000, unless the case says otherwise.
"""

import math

import pytest

from dryfit.geometry.shapes import Bore
from dryfit.piece.settling.ways import permits
from dryfit.piece.solids import Solids
from tests.joints.typed import board, found, frame, job, joint_of, kind_of, piece_of, stops, table

RIGHT, LEFT, UP, DOWN, OUT, IN = (1, 0, 0), (-1, 0, 0), (0, 1, 0), (0, -1, 0), (0, 0, 1), (0, 0, -1)


def free(joint, body):
    """Which of six ways a body may leave the other by."""
    return {way for way in (RIGHT, LEFT, UP, DOWN, OUT, IN) if permits(joint.making.motions, body, way)}


def near(value, within=0.01):
    return pytest.approx(value, abs=within)


# ---- a mitre with plugged screws


def screwed(thick, inward):
    """A corner of 90, the screw along B through A, a counterbore 10 x 8, 60 long from its floor."""
    options = {"strengthen": "screws", "screw": "wood 4x60, pan head", "counterbore": 8, "screw_in": inward}
    return job(
        table("[joints.mitre]", through="A", **options),
        board("A", [[0, 0], [600, 0]], 280, thick),
        board("B", [[0, 0], [0, 500]], 280, thick),
    )


@pytest.mark.parametrize(
    ("thick", "inward", "along", "under", "corner", "in_b", "inside"),
    [("27", 16, 16.0, 8.0, 3.0, 52.0, 11.0), ("24", 14, 14.0, 6.0, 1.0, 54.0, 10.0)],
    ids=["27", "24"],
)
def test_d17_the_wood_about_a_screw_across_a_mitre(thick, inward, along, under, corner, in_b, inside):
    text = screwed(thick, inward)
    holes = [cut for cut in joint_of(text, "A", "B").cuts if isinstance(cut.shapes[0], Bore)]
    bores = {cut.body: cut.shapes[0] for cut in holes}
    (mouth, wide), (floor, _), (out, _) = bores["A"].profile
    assert (mouth, wide, floor, out) == (0.0, 10.0, 8.0, near(along))
    assert out - floor == near(under)
    assert bores["A"].start[0] == near(inward - float(thick) / 2)  # from the outside of B; A's datum end is the corner
    assert bores["B"].profile[-1][0] == near(in_b)
    assert float(thick) / 2 - abs(bores["B"].start[1]) == near(min(inside, float(thick) - inside))
    findings = found(text, "plug-near-mitre")
    assert [finding.found for finding in findings] == [near(corner)] * (corner < 3.0)
    assert [finding.severity.value for finding in findings] == ["stop"] * (corner < 3.0)


# ---- a rebate


def test_d8_a_rebate_over_an_upright():
    """A 27 level over B 18 at its left end: 77760 out of A, 9 left over B; B is free left, down and out of the wall."""
    text = job(
        table("[joints]", corner="rebate"),
        table("[joints.rebate]", depth=18),
        board("A", [[0, 0], [600, 0]], 240, "27"),
        board("B", [[0, 0], [0, -500]], 240, "18"),
    )
    joint = joint_of(text, "A", "B")
    assert 27 * 240 * 609 - Solids().volume(piece_of(text).part_by_name["A"]) == pytest.approx(77760, rel=1e-5)
    assert piece_of(text).part_by_name["B"].length == near(500 + 13.5 - 9)
    assert free(joint, "B") == {LEFT, DOWN, OUT, IN}


def test_d9_a_rebated_case():
    """600 x 400 outside, 280 deep, 21.5, rebates 14: uprights 385 long; each side goes off outward, or out."""
    text = job(
        table('[timber."21.5"]', species="oak, white", form="panel", thickness=21.5),
        table("[joints]", corner="rebate"),
        table("[joints.rebate]", depth=14),
        frame([[0, 0], [600, 0], [600, 400], [0, 400]], timber="21.5", depth=280, size="outside"),
    )
    piece = piece_of(text)
    assert stops(text) == set()
    assert [piece.part_by_name[f"box {k}"].length for k in (2, 4)] == [near(385.0)] * 2
    for k, outward in ((1, DOWN), (2, RIGHT), (3, UP), (4, LEFT)):
        name = f"box {k}"
        ways = [free(joint, name) for joint in piece.joints if name in joint.key]
        assert len(ways) == 2
        assert set.intersection(*ways) == {outward, OUT, IN}


# ---- a finger joint


def fingered(second, **options):
    """A level over B, which stands on its left end; A's outside up."""
    timber = table('[timber."21.5"]', species="oak, white", form="panel", thickness=21.5)
    return job(
        timber,
        table("[joints]", corner="finger joint"),
        table('[joints."finger joint"]', begins="A", **options),
        board("A", [[0, 0], [600, 0]], 240, "18"),
        board("B", [[0, 0], [0, -500]], 240, second),
    )


@pytest.mark.parametrize(
    ("second", "options", "half", "inner", "at_edges", "slots", "removed", "glue"),
    [
        ("18", {"fingers": 9, "clearance": 0.10}, 26.667, 26.717, 26.692, (4, 5), (34624.8, 43264.8), 2592.0),
        ("21.5", {"fingers": 8, "clearance": 0.08}, 30.0, 30.04, 30.02, (4, 4), (46494.2, 46494.2), 2709.0),
    ],
    ids=["d11 odd", "d12 even"],
)
def test_d11_d12_fingers(second, options, half, inner, at_edges, slots, removed, glue):
    text = fingered(second, **options)
    joint, thick = joint_of(text, "A", "B"), float(second)
    figures = {str(one.size): one.value.mm for one in kind_of(joint).figures(joint)}
    assert figures["half pitch"] == near(half, 0.001)
    assert (figures["slot"], figures["slot at an edge"]) == (near(inner, 0.001), near(at_edges, 0.001))
    by = {cut.body: len(cut.shapes) - 1 for cut in joint.cuts}
    assert (by["A"], by["B"]) == slots
    parts = piece_of(text).part_by_name
    blanks = {"A": 18 * 240 * (600 + thick / 2), "B": thick * 240 * (500 + 9)}
    lost = [blanks[name] - Solids().volume(parts[name]) for name in ("A", "B")]
    assert lost == [pytest.approx(one, rel=1e-5) for one in removed]
    assert kind_of(joint).glue(joint)[0].area_mm2 == near(glue)
    assert free(joint, "A") == {RIGHT, UP}


def test_d18_a_finger_jointed_frame_of_four():
    """500 x 300 outside, 18, 210 deep, 7 fingers, uprights slotted at the ends: any one first, outward alone."""
    text = job(
        table("[joints]", corner="finger joint"),
        table('[joints."finger joint"]', fingers=7, clearance=0.10),
        frame([[0, 0], [500, 0], [500, 300], [0, 300]], timber="18", depth=210, size="outside"),
    )
    piece = piece_of(text)
    assert stops(text) == set()
    volumes = [Solids().volume(piece.part_by_name[f"box {k}"]) for k in (1, 3, 2, 4)]
    assert volumes == [pytest.approx(1831582.8, rel=1e-5)] * 2 + [pytest.approx(1056142.8, rel=1e-5)] * 2
    for k, outward in ((1, DOWN), (2, RIGHT), (3, UP), (4, LEFT)):
        name = f"box {k}"
        assert set.intersection(*(free(joint, name) for joint in piece.joints if name in joint.key)) == {outward}


# ---- pins in slots


def on_pins(thick, depth, length, **options):
    """A shelf with both ends on pins of 10 that stand 12 out of two uprights."""
    asked = {"kind": "pins in slots", "pin": 10, "end_gap": 0, **options}
    return job(
        board("left", [[0, 0], [0, 900]], depth, "24"),
        board("right", [[length + 24, 0], [length + 24, 900]], depth, "24"),
        board("shelf", [[0, 500], [length + 24, 500]], depth, thick),
        table("[[joint]]", between=["shelf", "left"], **asked),
        table("[[joint]]", between=["shelf", "right"], **asked),
    )


def exactly(cut):
    """Volume of a cut's prisms in the wood, their arcs as they are: shoelace and segments, from the end on."""
    total = 0.0
    for shape in cut.shapes:
        knots, area = shape.outline, 0.0
        for (x, y, bulge), (x1, y1, _) in zip(knots, knots[1:] + knots[:1], strict=True):
            area += (x * y1 - x1 * y) / 2
            turn = 4 * math.atan(bulge)
            if turn:
                radius = math.hypot(x1 - x, y1 - y) / 2 / math.sin(turn / 2)
                area += radius**2 / 2 * (turn - math.sin(turn))
        total += area * shape.high
    return total


def between(text):
    """Ways in which the shelf leaves both uprights at once, and each of them alone."""
    ways = [free(joint_of(text, "shelf", upright), "shelf") for upright in ("left", "right")]
    return ways[0] & ways[1], ways


def test_d7_pins_in_slots():
    text = on_pins("27", 300, 700, inset=70)
    assert piece_of(text).part_by_name["shelf"].length == near(700)
    joint = joint_of(text, "shelf", "left")
    groove = next(cut for cut in joint.cuts if cut.word == "pin groove")
    assert (groove.figures.across, groove.figures.deep) == (near(10.2), near(13.0))
    (shape,) = groove.shapes
    apex = max(x for x, _, bulge in shape.outline if bulge) + 10.2 / 2
    assert (apex, 300 - apex) == (near(235.0), near(65.0))
    over_edge = 10.2 * 13 * 1.0  # the prism starts 1 before the edge, so that no two faces coincide
    assert exactly(groove) - over_edge == pytest.approx(31015.9, rel=1e-5)
    assert (27 - groove.figures.across) / 2 == near(8.40)
    both, (at_left, at_right) = between(text)
    assert both == {OUT}
    assert (at_left, at_right) == ({OUT, RIGHT}, {OUT, LEFT})


def test_d21_pins_drop_on():
    text = on_pins("24", 280, 600, inset=60, form="drop-on")
    joint = joint_of(text, "shelf", "left")
    slots = next(cut for cut in joint.cuts if cut.word == "pin slots")
    over_edge = 2 * 10.2 * 13 * 1.0
    assert exactly(slots) - over_edge == pytest.approx(2 * 2109.1, rel=2e-5)
    for shape in slots.shapes:
        up = -1.0 if max((y for _, y, _ in shape.outline), key=abs) > 0 else 1.0  # away from where it is open
        top = max(up * y for _, y, bulge in shape.outline if bulge) + 10.2 / 2
        assert 12 - top == near(7.0)
    both, _ = between(text)
    assert both == {UP}
