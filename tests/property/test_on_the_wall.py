"""What goes to the wall: notches over a board lying flat, and long screws through a board's width.

A rail 90 wide crossed by a board 24 thick at 60 takes a notch (90 + 0.15) x 24 / sin 60 across it, as deep as the
rail is thick and 1 more. A long screw 6 x 120 in a board 280 deep takes a stepped round hole. Pieces are drawn at
random (`wall_layouts`) and measured on their solids; the sums below know nothing of Dryfit but the screw's figures.
"""

import math
from collections import Counter
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import assume, given, note, settings

from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.building import build_piece
from dryfit.piece.clash import clashes
from dryfit.piece.kinds import Kinds
from dryfit.piece.solids import Solids
from dryfit.shop.model import Shop
from dryfit.trade.screws import ENGAGEMENT, LONG_BITS, PLUG_CUTTERS, figure, read_screw
from tests.fewer import counted
from tests.property import measuring
from tests.property.closed_forms import bored
from tests.property.test_reversed_lines import told_apart
from tests.property.wall_layouts import laid, screwed

OF_ITSELF, AT_LEAST = 1e-6, 0.05
AS_MEASURED = 2e-5
OVERLAP = 1.0
PLUG = 8.0  # over a screw's head (common practice), and the counterbore 0.5 over the head or the washer


def build(job, keep=None):
    return build_piece(job, Kinds(KINDS), Shop(), keep=keep)


def notched(layout):
    """The piece of a notch with its one joint; a notch deeper than half the board is a stop, but it is cut."""
    piece = build(layout.job())
    (joint,) = piece.joints
    assert joint.kind == "notch"
    return piece, joint


def parts_of(piece):
    return piece.part_by_name["post"], piece.part_by_name["rail"]


# ---- notch


@settings(max_examples=150)
@given(layout=laid())
def test_every_board_over_a_flat_one_at_its_edge_is_notched_and_nothing_overlaps(layout):
    piece, _ = notched(layout)
    solids = Solids(Keep())
    post, rail = (solids.placed(part) for part in parts_of(piece))
    assert (post ^ rail).volume() <= OVERLAP
    assert clashes(piece.parts, solids, frozenset(), Keep()) == ()


@settings(max_examples=150)
@given(layout=laid())
def test_the_flat_board_stays_whole_and_the_notch_is_as_wide_as_it_and_its_play(layout):
    """Over the thickness a parallelogram: its width across the walls over the sine, times the thickness."""
    piece, joint = notched(layout)
    post, rail = parts_of(piece)
    solids = Solids(Keep())
    assert solids.volume(rail) == pytest.approx(rail.length * layout.wide * layout.thin, rel=OF_ITSELF)
    edge = layout.back if layout.at_the_wall else layout.back + layout.depth
    reached = layout.behind_it + layout.thin if layout.at_the_wall else layout.behind_it
    deep = abs(reached - edge) + layout.behind
    across = (layout.wide + layout.play) / math.sin(math.radians(abs(layout.angle)))
    lost = across * layout.thickness * deep
    whole = post.length * layout.thickness * layout.depth
    note(f"{whole - solids.volume(post)} for {lost}")
    assert whole - solids.volume(post) == pytest.approx(lost, rel=1e-5, abs=AT_LEAST)
    (cut,) = joint.cuts
    assert cut.figures.across == pytest.approx(layout.wide + layout.play)
    assert cut.figures.on_face == pytest.approx(across)
    assert cut.figures.deep == pytest.approx(deep)


@settings(max_examples=150)
@given(layout=laid())
def test_a_notchs_walls_lie_half_its_play_and_its_seat_what_is_asked_from_the_flat_board(layout):
    piece, joint = notched(layout)
    solids = Solids(Keep())
    found = measuring.facing(*(solids.placed(part) for part in parts_of(piece)))
    across = measuring.turned(layout.heading, 90.0)
    walls = [pair.gap for pair in found if abs(pair.normal @ across) > 1 - 1e-9]
    seats = [pair.gap for pair in found if abs(pair.normal @ np.array((0.0, 0.0, 1.0))) > 1 - 1e-9]
    assert len(walls) + len(seats) == len(found)
    assert walls == pytest.approx([layout.play / 2] * 2, abs=AS_MEASURED)
    assert seats == pytest.approx([layout.behind], abs=AS_MEASURED)
    said = [(gap.between, gap.count) for gap in joint.gaps]
    assert said == [("wall", 2), ("seat", 1)]
    assert [gap.size for gap in joint.gaps] == pytest.approx([layout.play / 2, layout.behind])


@settings(max_examples=100)
@given(layout=laid())
def test_a_notched_board_comes_off_square_to_the_wall_and_is_free_when_it_says_so(layout):
    piece, joint = notched(layout)
    (motion,) = joint.making.motions
    solids = Solids(Keep())
    post, rail = (solids.placed(part) for part in parts_of(piece))
    assert (motion.body, abs(motion.direction[2])) == ("post", 1.0)
    step = motion.direction[2]
    for share in (0.2, 0.6, 1.0):
        assert (post.translate((0.0, 0.0, step * share * motion.free)) ^ rail).volume() <= OVERLAP
    beside = 3.0 * measuring.turned(layout.heading, 90.0)

    def hits(height):
        raised = post.translate((0.0, 0.0, step * height))
        return max((raised.translate(tuple(way * beside)) ^ rail).volume() for way in (1.0, -1.0))

    assert hits(motion.free) <= OVERLAP
    assert hits(0.5 * (motion.free - layout.behind)) > OVERLAP


# ---- long screw


def under_head(screw):
    """A wood screw is countersunk: its head is part of its length; a cap head is not."""
    return screw.length - (figure(screw, "head_height").value if screw.kind == "wood" else 0.0)


def hole_of(layout):
    """Steps of one screw's hole from the front edge, (diameter, how deep), by the chain of the geometry notes."""
    screw = read_screw(layout.options["screw"])

    def size(name):
        known = figure(screw, name)
        return known.value if known else screw.diameter

    plugged, washer = layout.options.get("plugged", True), layout.options.get("washer", False)
    hold = layout.options.get("engagement", ENGAGEMENT * screw.diameter)
    lies_under = size("washer_thick") if washer else 0.0
    longest = under_head(screw) - lies_under - layout.wall.hollow - layout.back - layout.wall.lining - hold
    widest = layout.depth - lies_under - size("head_height") - (PLUG if plugged else 0.0)
    grip = min(max(layout.options.get("grip", min(longest, widest)), 1.0), layout.depth)
    least = size("washer" if washer else "head") + 0.5
    wide = next(size for size in (PLUG_CUTTERS if plugged else LONG_BITS) if size >= least)
    return (wide, layout.depth - grip), (size(f"hole_{layout.options.get('hole', 'medium')}"), grip)


@settings(max_examples=200)
@given(layout=screwed())
def test_a_screwed_board_loses_its_stepped_holes_and_nothing_else(layout):
    piece = build(layout.job())
    (part,) = piece.parts
    (joint,) = piece.joints
    steps = hole_of(layout)
    assume(min(deep for _, deep in steps) > 0.0 and steps[0][0] < layout.thickness - 2 * layout.sanded)
    mounted = layout.thickness - 2 * layout.sanded
    whole = part.length * mounted * layout.depth
    lost = whole - Solids(Keep()).volume(part)
    assert lost == pytest.approx(len(layout.at) * bored(steps), rel=1e-5, abs=AT_LEAST)
    assert len(joint.cuts) == len(layout.at)


@settings(max_examples=150)
@given(layout=screwed())
def test_every_hole_runs_along_the_board_s_depth_at_mid_thickness_where_the_line_says(layout):
    piece = build(layout.job())
    (part,), (joint,) = piece.parts, piece.joints
    stands = []
    for cut in joint.cuts:
        (bore,) = cut.shapes
        assert part.board.frame.direct(bore.direction) == pytest.approx((0.0, 0.0, -1.0), abs=1e-9)
        x, y, z = part.board.frame.place(bore.start)
        assert z == pytest.approx(layout.back + layout.depth)
        assert bore.profile[-1][0] == pytest.approx(layout.depth)
        stands.append((x, y))
    meant = [layout.place(at) for at in layout.at]
    for (x, y), (u, v) in zip(stands, meant, strict=True):
        assert math.dist((x, y), (u, v)) < 1e-5


@settings(max_examples=150)
@given(layout=screwed())
def test_what_is_too_little_for_a_screw_is_a_stop_and_nothing_else_is(layout):
    """Grip 30 and 4 d; a grip that is asked and that the screw does not allow; 3 of wood beside, less the wander."""
    piece = build(layout.job())
    screw = read_screw(layout.options["screw"])
    (wide, depth), (_, grip) = hole_of(layout)
    hold = layout.options.get("engagement", ENGAGEMENT * screw.diameter)
    washer = figure(screw, "washer_thick").value if layout.options.get("washer") else 0.0
    longest = under_head(screw) - washer - layout.wall.hollow - layout.back - layout.wall.lining - hold
    beside = (layout.thickness - 2 * layout.sanded - wide) / 2 - (0.3 + 0.5 * depth / 100)
    assume((abs(beside - 3.0) > 1e-6 and abs(grip - longest) > 1e-6) or grip == longest)
    expected = {
        "screw-too-short": grip > longest + 1e-9 or grip < max(30.0, 4 * screw.diameter),
        "thin-beside-bore": beside < 3.0,
    }
    stops = {finding.code for finding in piece.findings if finding.severity == "stop"}
    assert {code for code in stops if code in expected} == {code for code, is_so in expected.items() if is_so}


def test_most_of_the_drawn_screws_hold():
    tally = Counter()

    @counted(150)
    @given(layout=screwed())
    def each(layout):
        codes = {finding.code for finding in build(layout.job()).findings if finding.severity == "stop"}
        tally["drawn"] += 1
        tally["sound"] += "screw-too-short" not in codes

    each()
    assert tally["sound"] >= 0.4 * tally["drawn"], tally


# ---- both


@settings(max_examples=100)
@given(layout=laid())
def test_a_notch_is_the_same_however_its_boards_lines_are_drawn(layout):
    one = told_apart(build(layout.job()))
    for drawn in ((True, False), (False, True), (True, True), (False, False)):
        other = told_apart(build(replace(layout, reversed=drawn).job()))
        assert (one, repr(one)) == (other, repr(other))


@settings(max_examples=100)
@given(layout=screwed())
def test_a_screwed_board_is_the_same_from_whichever_end_its_line_and_its_places_are_drawn(layout):
    one, other = (build(replace(layout, drawn_back=back).job()) for back in (False, True))
    (ours,), (theirs,) = one.parts, other.parts
    assert (ours.blank, ours.long, ours.cuts) == (theirs.blank, theirs.long, theirs.cuts)


@settings(max_examples=60)
@given(layout=laid(), other=laid(), screws=screwed(), more=screwed())
def test_built_on_what_was_kept_it_is_the_same_as_built_cold(layout, other, screws, more):
    keep = Keep()
    moved = replace(layout, place=(layout.place[0] + 7.0, layout.place[1]))
    wider = replace(screws, depth=screws.depth + 10.0)
    for job in (one.job() for one in (layout, moved, other, layout, screws, wider, more, screws)):
        warm, cold = build(job, keep), build(job)
        assert (warm, repr(warm)) == (cold, repr(cold))
        volumes = [Solids(keep).volume(part) for part in warm.parts]
        assert volumes == [Solids(Keep()).volume(part) for part in cold.parts]
