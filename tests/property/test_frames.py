"""Closed frames of 3 to 8 boards, as a maker types them: nothing overlaps, and corners are what the plane says.

Frames are drawn at random: inside angles of 30 to 165, convex or not, 12 to 40 thick, equal or not, depths and
backs level or not, set out by their outside, inside or centre-lines, typed either way round; mitred (plain,
keyed, with a loose tongue) or butted (plain, dowelled, screwed, either board running through); some are crossed
by a board through two sides. Each goes through the job file's text, and its solids are measured against
`corner_forms`, which knows nothing of Dryfit. A box 900 x 500 outside, 24 thick, loses nothing at its corners.
"""

import math
from collections import Counter
from functools import lru_cache
from itertools import combinations

import manifold3d as m3
import pytest
from hypothesis import given, note, settings
from hypothesis import strategies as st

from dryfit.book import piece_of, read_job_text
from dryfit.keeping import Keep
from dryfit.piece.clash import clashes
from dryfit.piece.meetings import pair_key
from dryfit.piece.solids import Solids
from tests.fewer import counted
from tests.property import corner_forms as plane
from tests.property import measuring
from tests.property.drawn_frames import frames
from tests.property.fastenings import holes, places

OVERLAP = 1.0  # mm3
OF_ITSELF, AT_LEAST = 1e-5, 1e-3  # by which a volume may differ: of itself, or mm3
ROUNDING = 1e-6  # of every length of a cut: so much a mm2 of the surfaces it makes
AS_MEASURED = 2e-5  # mm, of a gap found in a mesh
REACH = 160.0  # of the box about a corner
KINDS = {  # the kind of joint, and what holds it
    "plain mitre": ("mitre", "none"),
    "keys": ("mitre", "keys"),
    "tongue": ("mitre", "tongue"),
    "plain butt": ("butt", "none"),
    "dowels": ("butt", "dowels"),
    "screws": ("butt", "screws"),
}


@lru_cache(maxsize=8)
def made(text):
    """The piece of a job file's text, and its solids."""
    return piece_of(read_job_text(text)), Solids(Keep())


def corner(frame, k, form, **more):
    """The plane's view of the corner at point k, seen from there: the side that ends there first."""
    points = plane.centre_corners(list(frame.points), [side.thickness for side in frame.sides], frame.size)
    count = len(points)
    sides = frame.beside(k)
    arms = []
    for side, towards in zip(sides, (points[k - 1], points[(k + 1) % count]), strict=True):
        long = math.dist(points[k], towards)
        u = ((towards[0] - points[k][0]) / long, (towards[1] - points[k][1]) / long)
        arms.append(plane.Arm(u=u, thickness=side.thickness, back=side.back, front=side.front))
    return points[k], sides, form(one=arms[0], other=arms[1], **more)


def mitre(frame, k):
    options = frame.options
    more = {}
    if options["strengthen"] == "keys":
        first, second = frame.beside(k)
        low, high = max(first.back, second.back), min(first.front, second.front)
        count = options["keys"] or max(2, round((high - low) / 100.0))
        places = tuple(low + (number + 0.5) * (high - low) / count for number in range(count))
        more = {name: options[name] for name in ("key_thickness", "cutter", "plunge")} | {"keys": places}
    elif options["strengthen"] == "tongue":
        more = {"tongue": True, "stop": options.get("tongue_stop", 12.0), "play": options.get("tongue_play", 0.1)}
    return corner(frame, k, plane.Mitre, **more)


def butt(frame, k):
    place, sides, form = corner(frame, k, plane.Corner)
    runs = frame.through.get(k) or sides[_more_level(form, sides)].name
    arms = (form.one, form.other) if runs == sides[1].name else (form.other, form.one)
    count = places(form.common, frame.options.get("count"))
    steps = holes(frame.options["fasten"], arms[1].thickness, arms[0].thickness, form.phi)
    return place, sides, plane.Butt(one=arms[0], other=arms[1], steps=steps, count=count if steps else 0)


def _more_level(form, sides):
    """Which of the two lies more level; ties to the first name."""
    rises = [abs(arm.u[1]) for arm in (form.one, form.other)]
    if abs(rises[0] - rises[1]) < 1e-9:
        return 0 if sides[0].name < sides[1].name else 1
    return rises.index(min(rises))


FORMS = {"mitre": mitre, "butt": butt}


def holes_lie_in_the_wood(piece, sides):
    key = pair_key(*(side.name for side in sides))
    return not [found for found in piece.findings if found.code == "dowel-breaks-out" and found.where.joint == key]


@settings(max_examples=120)
@given(frame=frames())
def test_no_two_parts_of_a_frame_overlap_and_the_clash_check_is_silent(frame):
    piece, solids = made(frame.text())
    assert clashes(piece.parts, solids, frozenset(), Keep()) == ()
    for one, other in combinations(piece.parts, 2):
        assert (solids.placed(one) ^ solids.placed(other)).volume() <= OVERLAP, (one.id, other.id)


@pytest.mark.parametrize("kind", KINDS)
def test_nine_in_ten_of_the_drawn_corners_within_the_limits_are_made(kind):
    """A mitre that would be cut at less than 7.5 degrees to a board's length is beyond them."""
    tally = Counter()

    joined, held = KINDS[kind]

    @counted(60)
    @given(frame=frames((joined,), held=held))
    def each(frame):
        piece, _ = made(frame.text())
        for k in range(len(frame.points)):
            _, sides, form = FORMS[frame.kind](frame, k)
            if min(form.to_length(form.one), form.to_length(form.other)) >= 7.5 or frame.kind == "butt":
                tally["drawn"] += 1
                joint = piece.joint_by_key.get(pair_key(*(side.name for side in sides)))
                tally["made"] += joint is not None and joint.kind == frame.kind
        tally["crossings"] += 2 * (frame.crosser is not None)
        tally["halved"] += sum(joint.kind == "cross halving" for joint in piece.joints)

    each()
    assert tally["drawn"] >= 60, tally
    assert tally["made"] >= 0.9 * tally["drawn"], tally
    assert tally["halved"] == tally["crossings"], tally


@pytest.mark.parametrize("kind", KINDS)
def test_the_volume_missing_about_a_corner_is_what_is_let_in_and_what_stands_square_beyond(kind):
    joined, held = KINDS[kind]

    @settings(max_examples=40)
    @given(frame=frames((joined,), held=held))
    def each(frame):
        piece, solids = made(frame.text())
        for k in range(len(frame.points)):
            place, sides, form = FORMS[frame.kind](frame, k)
            if not holes_lie_in_the_wood(piece, sides):
                continue  # it is a stop: what breaks out is not worked out here
            parts = [piece.part_by_name[side.name] for side in sides]
            found = measuring.missing(parts, solids, measuring.box_about(place, REACH))
            meant = form.missing(REACH)
            joint = piece.joint_by_key[pair_key(*(side.name for side in sides))]
            surface = sum(area for _, area in joint.hidden_mm2)
            note(f"corner {k}: {found} for {meant}, {form}")
            assert abs(found - meant) <= max(OF_ITSELF * meant, AT_LEAST, ROUNDING * surface)

    each()


@settings(max_examples=40)
@given(frame=frames(("mitre",), held="none", level=True))
def test_a_plain_mitre_of_boards_as_deep_as_each_other_loses_nothing(frame):
    piece, solids = made(frame.text())
    for k in range(len(frame.points)):
        place, sides, form = mitre(frame, k)
        parts = [piece.part_by_name[side.name] for side in sides]
        about = measuring.box_about(place, REACH)
        filled = m3.Manifold.batch_boolean([solids.placed(part) for part in parts], m3.OpType.Add) ^ about
        # both boards as far as the outside and inside faces lead: what no saw could leave more of
        whole = sum(part.area for part in _full(form)) * 240.0
        assert filled.volume() == pytest.approx(whole, rel=1e-8)


def _full(form):
    """Both arms up to the mitre, in the box."""
    about = plane.box(-REACH, -REACH, REACH, REACH)
    return [
        form.part(arm, other, 100.0).intersection(about)
        for arm, other in ((form.one, form.other), (form.other, form.one))
    ]


@settings(max_examples=60)
@given(frame=frames())
def test_what_faces_each_other_at_a_corner_lies_no_gap_apart(frame):
    """Mitre and shoulder bear: gap 0; a key's pocket and a tongue's groove face no board."""
    piece, solids = made(frame.text())
    for k in range(len(frame.points)):
        names = [side.name for side in frame.beside(k)]
        joint = piece.joint_by_key[pair_key(*names)]
        first, second = (solids.placed(piece.part_by_name[name]) for name in names)
        found = measuring.facing(first, second)
        bears = [pair for pair in found if abs(pair.normal[2]) < 0.5]
        note(f"corner {k}: {[(pair.normal.round(4).tolist(), pair.gap) for pair in found]}")
        assert bears
        assert all(abs(pair.gap) <= AS_MEASURED for pair in bears)
        assert {(gap.between, gap.size) for gap in joint.gaps if gap.between != "wall"} == {
            ("mitre" if frame.kind == "mitre" else "shoulder", 0.0)
        }


@settings(max_examples=60)
@given(frame=frames(("mitre",), held="tongue"))
def test_a_loose_tongue_lies_half_its_play_from_the_walls_of_both_grooves(frame):
    piece, solids = made(frame.text())
    for k in range(len(frame.points)):
        place, sides, form = mitre(frame, k)
        low, high = form.common
        outline = [(x + place[0], y + place[1]) for x, y in form.loose_tongue().exterior.coords[:-1]]
        tongue = m3.Manifold.extrude(
            m3.CrossSection([outline], m3.FillRule.NonZero), high - low - 2 * form.stop
        ).translate((0.0, 0.0, low + form.stop))
        said = [
            gap.size
            for gap in piece.joint_by_key[pair_key(*(side.name for side in sides))].gaps
            if gap.between == "wall"
        ]
        for side in sides:
            part = solids.placed(piece.part_by_name[side.name])
            assert (tongue ^ part).volume() <= OVERLAP
            gaps = sorted(round(pair.gap, 4) for pair in measuring.facing(tongue, part) if abs(pair.normal[2]) < 0.5)
            half = round(form.play / 2, 4)
            note(f"corner {k} {side.name}: {gaps}")
            assert gaps == sorted([half, half, plane.GROOVE_DEEPER])
            assert said == [pytest.approx(form.play / 2)]


@settings(max_examples=80)
@given(frame=frames(), first=st.integers(0, 7), backwards=st.booleans())
def test_from_which_point_and_which_way_round_a_frame_is_typed_changes_nothing(frame, first, backwards):
    other = frame.drawn_from(first % len(frame.points), backwards=backwards)
    one, same = (made(drawn.text())[0] for drawn in (frame, other))
    assert set(one.part_by_name) == set(same.part_by_name)
    for name, part in one.part_by_name.items():
        twin = same.part_by_name[name]
        assert twin.long == pytest.approx(part.long, abs=1e-6)
        assert twin.short == pytest.approx(part.short, abs=1e-6)
        assert (twin.board.inside, twin.board.face_side) == (part.board.inside, part.board.face_side)
        assert {cut.key for cut in twin.cuts} == {cut.key for cut in part.cuts}
        figures = {cut.key: cut.figures for cut in twin.cuts}
        for cut in part.cuts:
            for word in ("across", "on_face", "deep", "lean", "between_faces"):
                assert getattr(figures[cut.key], word) == pytest.approx(getattr(cut.figures, word), abs=2e-6), cut.key


@settings(max_examples=40)
@given(frame=frames())
def test_a_frame_typed_another_way_round_has_the_volumes_of_the_frame(frame):
    other = frame.drawn_from(1, backwards=True)
    (one, solids), (same, its) = (made(drawn.text()) for drawn in (frame, other))
    for name, part in one.part_by_name.items():
        assert its.volume(same.part_by_name[name]) == pytest.approx(solids.volume(part), rel=1e-9, abs=0.01)
