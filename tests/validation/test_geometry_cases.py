"""Worked cases of plane geometry, through the whole set-out: a job as a file would give it, made into a piece.

Each figure names its case. "K" cases were computed with a polygon library and a solid model apart from this
project; the others are the worked figures of the project's geometry notes, by hand. Tolerance 0.001.
"""

import math
from dataclasses import replace

import pytest

from dryfit.geometry.shapes import HalfSpace, Prism
from dryfit.job.model import BoardSpec, Finish, Job, JointRules, JointSpec, Timber, Wall
from dryfit.joints import KINDS
from dryfit.keeping import Keep
from dryfit.piece.building import build_piece
from dryfit.piece.kinds import Kinds
from dryfit.piece.operations import through_reach
from dryfit.piece.solids import Solids
from dryfit.piece.sums import Sum
from dryfit.shop.model import Shop
from tests.documents import samples
from tests.property import closed_forms as plane
from tests.strategies import in_file_order

TOLERANCE = 0.001


def near(value, within=TOLERANCE):
    return pytest.approx(value, abs=within)


def board(name, line, thickness=24.0, depth=300.0, **more):
    """A board with a timber of its own; `line` as ((x, y), (x, y))."""
    return BoardSpec(name=name, timber=f"{thickness}", line=line, depth=depth, **more)


def job(*boards, clearance=0.15, finish=None, measured=None, joints=(), **rules):
    timbers = {
        spec.timber: Timber(
            name=spec.timber, species="oak, white", form="panel", thickness=float(spec.timber), measured=measured
        )
        for spec in boards
    }
    return Job(
        file="case.toml",
        text="",
        state="0",
        title="worked case",
        timbers=timbers,
        boards=in_file_order(boards),
        joints=JointRules(clearance=clearance, **rules),
        joint_specs=tuple(joints),
        finish=finish or Finish(),
        wall=Wall(hung=all(min(y for _, y in spec.line) != 0.0 for spec in boards)),
    )


def piece_of(*boards, **rules):
    return build_piece(job(*boards, **rules), Kinds(KINDS), Shop())


def cut_of(piece, key):
    return next(cut for part in piece.parts for cut in part.cuts if cut.key == key)


def leaning(name, foot_x, lean, rise, thickness=24.0, **more):
    """A board from the level y = -rise/2 to rise/2 through (foot_x, 0), leaning right by `lean` off plumb."""
    run = rise / 2 * math.tan(math.radians(lean))
    return board(name, ((foot_x - run, -rise / 2), (foot_x + run, rise / 2)), thickness, **more)


def on_face(part, cut, face):
    """Where a cut's outline meets a face of its board, in the world's x for a level board: (least, greatest)."""
    (shape,) = (shape for shape in cut.shapes if isinstance(shape, Prism))
    c = face * part.board.thickest / 2
    points = [(x, y) for x, y, _ in shape.outline]
    places = []
    for i, (x1, y1) in enumerate(points):
        x0, y0 = points[i - 1]
        if (y0 - c) * (y1 - c) < 0:
            places.append(x0 + (c - y0) * (x1 - x0) / (y1 - y0))
    return min(places), max(places)


def area_in_board(part, cut):
    """Area of the cut's outline clipped to its board, in the elevation."""
    (shape,) = (shape for shape in cut.shapes if isinstance(shape, Prism))
    half = part.board.thickest / 2
    outline = [(x, y) for x, y, _ in shape.outline]
    return plane.area(plane.clipped(plane.clipped(outline, (0.0, half), 90.0), (0.0, -half), -90.0))


def taken(piece, name):
    """Volume taken from a board whose ends are square."""
    part = piece.part_by_name[name]
    return part.length * part.board.thickest * part.board.depth - Solids(Keep()).volume(part)


class TestK1RakedCrossingOfUnequalThickness:
    """Worked case K1: level t 33 on y = 0, B at x = 500 leaning right at 60, t 21; clearance 0.3, no film."""

    piece = piece_of(
        board("level", ((0.0, 0.0), (1000.0, 0.0)), 33.0),
        leaning("raking", 500.0, 30.0, 600.0, 21.0),
        clearance=0.3,
        joints=[JointSpec(between=("level", "raking"), front="level")],
    )

    def test_the_slot_in_the_level_board(self):
        part = self.piece.part_by_name["level"]
        cut = cut_of(self.piece, "slot in level for raking")
        assert cut.figures.across == near(21.300)
        assert cut.figures.on_face == near(24.595)
        assert on_face(part, cut, 1) == (near(497.229), near(521.824))
        assert on_face(part, cut, -1) == (near(478.176), near(502.771))
        assert on_face(part, cut, 1)[0] - on_face(part, cut, -1)[0] == near(19.053)

    def test_its_section_and_its_volume_at_150_and_a_half_deep(self):
        cut = cut_of(self.piece, "slot in level for raking")
        assert area_in_board(self.piece.part_by_name["level"], cut) == near(811.639)
        assert cut.figures.deep == near(150.5)
        assert taken(self.piece, "level") == near(122151.67, 0.02)

    def test_the_slot_in_the_raking_board(self):
        part = self.piece.part_by_name["raking"]
        cut = cut_of(self.piece, "slot in raking for level")
        assert cut.figures.across == near(33.300)
        assert cut.figures.on_face == near(38.452)
        assert on_face(part, cut, -1)[0] - on_face(part, cut, 1)[0] == near(12.124)


class TestK2RakedCrossingWithFilm:
    """Worked case K2: t_A 27, 1200 long, t_B 24 at 82.5, clearance 0.3, film 0.08 on B, 280 deep."""

    piece = piece_of(
        board("level", ((0.0, 0.0), (1200.0, 0.0)), 27.0, 280.0),
        leaning("raking", 600.0, 7.5, 800.0, 24.0, depth=280.0, when="before glue"),
        clearance=0.3,
        finish=Finish(coats=2, film=0.04, joint_zones="coated"),
        joints=[JointSpec(between=("level", "raking"), front="level")],
    )

    def test_the_slot_and_what_the_level_board_keeps(self):
        part = self.piece.part_by_name["level"]
        cut = cut_of(self.piece, "slot in level for raking")
        assert cut.figures.across == near(24.460)
        assert cut.figures.on_face == near(24.671)
        assert on_face(part, cut, 1)[0] - on_face(part, cut, -1)[0] == near(3.555)
        assert Solids(Keep()).volume(part) == near(8978410.32, 0.05)

    def test_the_smallest_gap_is_half_the_clearance_and_the_film(self):
        """0.3 / 2 + 0.08 = 0.230."""
        (joint,) = self.piece.joints
        assert min(gap.size for gap in joint.gaps) == near(0.230)

    def test_a_square_walled_slot_is_wide_enough_for_the_lean(self):
        """82.5, 24 in 27, clearance 0.3 and no film: 24.3 / sin 82.5 + 27 / tan 82.5 = 28.06 on the face."""
        piece = piece_of(
            board("level", ((0.0, 0.0), (1200.0, 0.0)), 27.0, 280.0),
            leaning("raking", 600.0, 7.5, 800.0, 24.0, depth=280.0),
            clearance=0.3,
            joints=[JointSpec(between=("level", "raking"), options={"walls": "square"})],
        )
        cut = cut_of(piece, "slot in level for raking")
        assert cut.figures.on_face == near(28.06, 0.005)
        low, high = on_face(piece.part_by_name["level"], cut, 1)
        assert (low, high) == on_face(piece.part_by_name["level"], cut, -1)
        assert high - low == near(28.06, 0.005)


class TestK5HousingAt70:
    """Worked case K5: A, t 20, ends on the upper face of level B, t 25, rising right at 70; 8 deep, clearance 0.2."""

    def piece(self, **options):
        run = 400.0 / math.tan(math.radians(70.0))
        return piece_of(
            board("level", ((-500.0, -12.5), (500.0, -12.5)), 25.0),
            board("leaning", ((-12.5 / math.tan(math.radians(70.0)), -12.5), (run, 400.0)), 20.0),
            clearance=0.2,
            joints=[JointSpec(between=("level", "leaning"), options={"depth": 8.0, **options})],
        )

    def test_the_housing(self):
        piece = self.piece()
        part, cut = piece.part_by_name["level"], cut_of(piece, "housing in level for leaning")
        assert cut.figures.across == near(20.200)
        assert cut.figures.on_face == near(21.496)
        assert on_face(part, cut, 1) == (near(500 - 21.496 / 2), near(500 + 21.496 / 2))
        assert area_in_board(part, cut) == near(171.971)
        assert taken(piece, "level") == near(171.971 * 300, 0.3)
        floor = [x for x, y, _ in cut.shapes[0].outline if y == near(4.5)]
        assert sum(floor) / 2 == near(500 - 2.912)

    def test_the_end_that_goes_in(self):
        piece = self.piece()
        part, cut = piece.part_by_name["leaning"], cut_of(piece, "end of leaning in level")
        assert cut.figures.lean == near(20.0)
        (end,) = (shape for shape in cut.shapes if isinstance(shape, HalfSpace))
        meets_face = 12.5 / math.sin(math.radians(70.0))  # along A, whose line starts on B's centre-line
        on_centre = end.point[0] + end.point[1] * end.normal[1] / end.normal[0]
        assert meets_face - on_centre == near(8.513)
        assert abs(part.long[0] - part.short[0]) == near(7.279)

    def test_a_floor_square_to_the_walls_falls_691_across(self):
        """20.2 cos 70 = 6.909, the end left square; the rake is 20, so it must be asked for."""
        piece = self.piece(raked="floor square to walls")
        corners = sorted(y for _, y, _ in cut_of(piece, "housing in level for leaning").shapes[0].outline)
        assert corners[1] - corners[0] == near(6.909)
        part = piece.part_by_name["leaning"]
        assert part.long[0] == part.short[0]

    def test_at_20_of_rake_the_floor_lies_parallel_to_the_face_unless_asked(self):
        piece = self.piece()
        (joint,) = (one for one in piece.joints if one.kind == "housing")
        (housed,) = (
            one
            for one in KINDS["housing"].operations(joint, piece.board_by_name)
            if one.cuts == ("housing in level for leaning",)
        )
        assert housed.ways[0].says == "walls sawn, floor levelled"

    def test_a_shouldered_end_has_a_tongue_square_to_its_bevel(self):
        """Half of 20 thick, square walls 10.2 apart; the bevel is 20 off square; bottom 1.0, shoulders bear."""
        piece = self.piece(raked="shouldered")
        cut, end = cut_of(piece, "housing in level for leaning"), cut_of(piece, "end of leaning in level")
        assert cut.figures.across == near(10.2)
        assert cut.figures.lean == 0.0
        assert end.figures.lean == near(20.0)
        assert end.figures.deep == near(7.0)
        (joint,) = piece.joints
        gaps = {gap.between: gap.size for gap in joint.gaps}
        assert gaps == {"wall": near(0.1), "bottom": 1.0, "shoulder": 0.0}

    def test_the_ways_out_lead_along_the_walls_and_out_of_both_edges(self):
        """Floor parallel: 8 / sin 70 = 8.513 along A; or 300 to the front or to the wall."""
        (joint,) = self.piece().joints
        out, front, wall = joint.making.motions
        assert out.free == near(8.513)
        assert out.direction == (near(math.cos(math.radians(70)), 1e-9), near(math.sin(math.radians(70)), 1e-9), 0.0)
        assert (front.direction, front.free) == ((0.0, 0.0, 1.0), near(300.0))
        assert (wall.direction, wall.free) == ((0.0, 0.0, -1.0), near(300.0))


@pytest.mark.parametrize(
    ("coated", "measured", "across"),
    [
        ((), None, 23.95),
        (("b",), None, 24.11),
        (("a", "b"), None, 24.27),
        ((), 24.3, 24.25),
        (("b",), 24.3, 24.41),
        (("a", "b"), 24.3, 24.57),
    ],
    ids=["bare", "B coated", "B and walls coated", "measured, bare", "measured, B coated", "measured, both"],
)
def test_k10_the_width_of_a_slot_follows_the_finish(coated, measured, across):
    """Worked case K10: t 24.0, sanded 0.1 a face, two coats of 0.04, clearance 0.15."""
    piece = piece_of(
        board("a", ((0.0, 0.0), (1000.0, 0.0)), when="before glue" if "a" in coated else None),
        leaning("b", 500.0, 0.0, 600.0, when="before glue" if "b" in coated else None),
        measured=measured,
        finish=Finish(coats=2, film=0.04, sanded=0.1, joint_zones="coated"),
    )
    assert cut_of(piece, "slot in a for b").figures.across == near(across)


def test_k10_masked_joint_zones_take_no_film():
    piece = piece_of(
        board("a", ((0.0, 0.0), (1000.0, 0.0))),
        leaning("b", 500.0, 0.0, 600.0),
        finish=Finish(coats=2, film=0.04, sanded=0.1, when="before glue", joint_zones="masked"),
    )
    assert cut_of(piece, "slot in a for b").figures.across == near(23.95)


class TestK11HousedShelf:
    """Worked case K11: uprights 800 on centres, 24 thick, housed 8 deep."""

    def piece(self, **options):
        return piece_of(
            board("left", ((0.0, 0.0), (0.0, 600.0))),
            board("right", ((800.0, 0.0), (800.0, 600.0))),
            board("shelf", ((0.0, 300.0), (800.0, 300.0))),
            kinds={"housing": options},
        )

    def test_a_through_shelf_is_792_long_and_bottoms(self):
        """800 - 24 + 2 x 8; depth 24 / 3 = 8 by the rule."""
        piece = self.piece()
        assert cut_of(piece, "housing in left for shelf").figures.deep == near(8.0)
        assert piece.part_by_name["shelf"].length == near(792.0)
        assert [gap.size for joint in piece.joints for gap in joint.gaps if gap.between == "bottom"] == [0.0, 0.0]

    def test_a_stopped_shelf_is_790_over_the_tongues_and_776_between_shoulders(self):
        """The bottom gap is 1.0 at each end; the notch is 12 + clearance from the front."""
        piece = self.piece(stop="front")
        part = piece.part_by_name["shelf"]
        assert part.length == near(790.0)
        corners = Solids(Keep()).placed(part).to_mesh64().vert_properties[:, :3]
        front = corners[corners[:, 2] > 299.0]
        assert front[:, 0].max() - front[:, 0].min() == near(776.0)
        inner = corners[corners[:, 2] < 299.0]
        assert inner[:, 0].max() - inner[:, 0].min() == near(790.0)
        assert 300.0 - inner[:, 2].max() == near(12.15)

    def test_its_housing_stops_12_behind_the_front_and_its_gaps_are_its_own(self):
        piece = self.piece(stop="front")
        assert cut_of(piece, "housing in left for shelf").figures.stop == near(12.0)
        gaps = {gap.between: gap.size for joint in piece.joints for gap in joint.gaps}
        assert gaps == {"wall": near(0.075), "bottom": 1.0, "shoulder": 0.0, "stopped end": near(0.15)}


@pytest.mark.parametrize(
    ("thickness", "deep"), [(24.0, 8.0), (25.0, 8.0), (20.0, 6.5), (18.0, 6.0)], ids=["24", "25", "20", "18"]
)
def test_a_housing_is_a_third_deep_in_whole_halves(thickness, deep):
    """25 / 3 = 8.33 is rounded down to 8.0, 20 / 3 = 6.67 to 6.5."""
    piece = piece_of(
        board("post", ((0.0, 0.0), (0.0, 600.0)), thickness), board("shelf", ((0.0, 300.0), (500.0, 300.0)))
    )
    assert cut_of(piece, "housing in post for shelf").figures.deep == near(deep)


def test_two_housings_opposite_each_other_take_a_quarter_each():
    """24 / 4 = 6 each leaves a web of 12, half the board."""
    piece = piece_of(
        board("post", ((0.0, 0.0), (0.0, 600.0))),
        board("right shelf", ((0.0, 300.0), (500.0, 300.0))),
        board("left shelf", ((0.0, 300.0), (-500.0, 300.0))),
    )
    deep = [cut_of(piece, f"housing in post for {side} shelf").figures.deep for side in ("left", "right")]
    assert deep == [near(6.0), near(6.0)]


def test_a_housing_keeps_the_depth_that_the_maker_wrote():
    piece = piece_of(
        board("post", ((0.0, 0.0), (0.0, 600.0))),
        board("shelf", ((0.0, 300.0), (500.0, 300.0))),
        joints=[JointSpec(between=("post", "shelf"), options={"depth": 7.3})],
    )
    assert cut_of(piece, "housing in post for shelf").figures.deep == near(7.3)


@pytest.mark.parametrize(
    ("thick", "wide", "rake", "bed", "edge", "whole"),
    [(27, 24.46, 7.5, 12, 100, 55.0), (27, 24.46, 7.5, 6, 80, 46.4), (27, 27.46, 15.0, 12, 100, 71.4)],
)
def test_k13_how_far_a_cutter_must_stand_out_on_a_tilted_guide(thick, wide, rake, bed, edge, whole):
    """Worked case K13: a slot right through; from its axis to the bed's thin edge 100, or 80.

    Below the bed w tan rho + t / cos rho + 1; above, the bed and what it rises to the near wall, (100 - w / 2) tan rho.
    """
    cut = samples.slot("b", "other", 500.0, rake, -1.0, 165.5, "wall edge")
    cut = replace(cut, figures=replace(cut.figures, width=Sum.alone(wide)))
    stands_out = bed + (edge - wide / 2) * math.tan(math.radians(rake)) + through_reach(cut, thick)

    assert stands_out == near(whole, within=0.05)
    assert (stands_out <= 50.0) is (whole == 46.4), "a cutter with 50 clear does only the second"


def test_k14_diagonals_of_a_rectangle_on_centre_lines():
    """Worked case K14: 900 x 500 on centre-lines, t 24: 1062.2 over the outside corners."""
    piece = piece_of(
        board("bottom", ((0.0, 0.0), (900.0, 0.0))),
        board("right", ((900.0, 0.0), (900.0, 500.0))),
        board("top", ((900.0, 500.0), (0.0, 500.0))),
        board("left", ((0.0, 500.0), (0.0, 0.0))),
    )
    bottom, top = (piece.board_by_name[name].frame for name in ("bottom", "top"))
    corner, opposite = bottom.place((-12.0, -12.0, 0.0)), top.place((912.0, 12.0, 0.0))
    assert math.dist(corner, opposite) == near(1062.2, 0.05)


def example(*, measured=None, thickness_at=()):
    """The job file's own example: a long shelf, raking boards 9 off plumb, a box set out by its outside."""
    run = 1900.0 * math.tan(math.radians(9.0))
    leans = {"depth": 330.0, "ends": ("level", "level"), "thickness_at": thickness_at}
    rakers = [board(f"raking {i}", ((650.0 * i, 0.0), (650.0 * i + run, 1900.0)), **leans) for i in (1, 2)]
    inset = 12.0  # half of 24, from the outside of the box to its centre-lines
    x0, x1, y0, y1 = 300.0 + inset, 1200.0 - inset, 900.0 + inset, 1400.0 - inset
    corners = [(x0, y0), (x1, y0), (x1, y1), (x0, y1)]
    box = [
        board(f"box {i + 1}", (corners[i], corners[(i + 1) % 4]), frame="box", inside=1, index=i + 1) for i in range(4)
    ]
    shelf = board("long shelf", ((0.0, 600.0), (2600.0, 600.0)), depth=330.0)
    return piece_of(shelf, *rakers, *box, measured=measured)


class TestK16TheExample:
    """Worked case K16: nominal 24 everywhere, clearance 0.15, no film."""

    piece = example()

    @pytest.mark.parametrize(
        ("other", "x", "along"),
        [("long shelf", 745.03, 607.48), ("box 1", 794.45, 923.37), ("box 3", 869.84, 1405.30)],
    )
    def test_where_raking_1_meets_the_level_boards(self, other, x, along):
        meeting = next(m for m in self.piece.meetings if set(m.key) == {other, "raking 1"})
        assert meeting.frame.origin[0] == near(x, 0.005)
        assert meeting.side("raking 1").at == near(along, 0.005)

    def test_where_raking_2_meets_the_long_shelf_and_nothing_else(self):
        (meeting,) = (m for m in self.piece.meetings if "raking 2" in m.key)
        assert set(meeting.key) == {"long shelf", "raking 2"}
        assert meeting.frame.origin[0] == near(1395.03, 0.005)
        assert meeting.side("raking 2").at == near(607.48, 0.005)

    def test_a_raking_board_with_level_ends_is_192368_long_on_either_face_and_its_blank_192748(self):
        part = self.piece.part_by_name["raking 1"]
        corners = Solids(Keep()).mesh(part)[0]
        for face in (corners[corners[:, 1] > 11.9], corners[corners[:, 1] < -11.9]):
            assert face[:, 0].max() - face[:, 0].min() == near(1923.68, 0.005)
        assert part.length == near(1927.48, 0.005)
        assert part.blank.length == near(1927.48 + 2 * Shop().trim, 0.005)

    def test_it_stands_flat_on_the_floor(self):
        corners = Solids(Keep()).placed(self.piece.part_by_name["raking 1"]).to_mesh64().vert_properties
        assert corners[:, 1].min() == near(0.0, 1e-6)
        assert corners[:, 1].max() == near(1900.0, 1e-6)

    def test_the_slots_in_the_level_boards(self):
        for name in ("long shelf", "box 1", "box 3"):
            cut = cut_of(self.piece, f"slot in {name} for raking 1")
            assert cut.figures.across == near(24.15)
            assert cut.figures.on_face == near(24.451)
            part = self.piece.part_by_name[name]
            assert on_face(part, cut, 1)[0] - on_face(part, cut, -1)[0] == near(3.801)

    def test_the_raking_boards_stand_proud_of_the_box_so_they_are_slotted_from_the_wall(self):
        """330 and 300 deep: they go in last, from the front, and lie no open notch to the room."""
        for name in ("box 1", "box 3"):
            joint = self.piece.joint_by_key[name, "raking 1"]
            assert joint.making.front == name
            assert [motion.body for motion in joint.making.motions] == ["raking 1"]
            assert joint.making.motions[0].direction == (0.0, 0.0, 1.0)
        assert not [finding for finding in self.piece.findings if finding.code == "open-notch"]

    def test_how_far_a_raking_board_lifts_until_it_is_free(self):
        """Over the long shelf 330 deep and the box 300 deep, halved with 1.0 between the seats."""
        free = {joint.key: joint.making.motions[0].free for joint in self.piece.joints if "raking 1" in joint.key}
        assert free["long shelf", "raking 1"] == near(164.5)
        assert free["box 1", "raking 1"] == near(149.5)

    def test_slotted_the_other_way_there_is_an_open_notch_of_30_by_24_and_a_half(self):
        """Geometry notes, section 3: "open notch 30 x 24.5 at the front of raking 1"; here 24.451 on the face."""
        said = [JointSpec(between=("box 1", "raking 1"), front="raking 1")]
        spec = [board("box 1", ((312.0, 912.0), (1188.0, 912.0)))]
        run = 1900.0 * math.tan(math.radians(9.0))
        raker = board("raking 1", ((650.0, 0.0), (650.0 + run, 1900.0)), depth=330.0)
        piece = piece_of(*spec, raker, joints=said)
        (finding,) = (finding for finding in piece.findings if finding.code == "open-notch")
        assert str(finding.says) == "open notch 30 x 24.5 at the front of raking 1"


class TestK17TheExampleMeasured:
    """Worked case K17: the timber measures 23.8; the raking boards 23.8 at the foot, 24.1 from 1200 on."""

    piece = example(measured=23.8, thickness_at=((0.0, 23.8), (1200.0, 24.1)))

    @pytest.mark.parametrize(
        ("name", "across"), [("long shelf", 24.102), ("box 1", 24.181), ("box 3", 24.250)], ids=lambda value: str(value)
    )
    def test_a_slot_follows_the_thickness_at_the_middle_of_the_meeting(self, name, across):
        assert cut_of(self.piece, f"slot in {name} for raking 1").figures.across == near(across)

    @pytest.mark.parametrize("name", ["long shelf", "box 1", "box 3"])
    def test_the_slots_in_the_raking_board_are_as_wide_everywhere(self, name):
        assert cut_of(self.piece, f"slot in raking 1 for {name}").figures.across == near(23.950)

    @pytest.mark.parametrize(("name", "deep"), [("long shelf", 165.5), ("box 1", 150.5), ("box 3", 150.5)])
    def test_the_depths_and_the_edges_that_the_slots_open_to(self, name, deep):
        level = cut_of(self.piece, f"slot in {name} for raking 1").figures
        raking = cut_of(self.piece, f"slot in raking 1 for {name}").figures
        assert (level.deep, level.opens) == (near(deep), "front edge")
        assert (raking.deep, raking.opens) == (near(deep), "wall edge")


# ---- free ends and conventions


def standing(**ends):
    """One board, 24 thick, 9 off plumb, standing at x = 650."""
    run = 1900.0 * math.tan(math.radians(9.0))
    piece = piece_of(board("raking", ((650.0, 0.0), (650.0 + run, 1900.0)), **ends))
    return Solids(Keep()).placed(piece.part_by_name["raking"]).to_mesh64().vert_properties[:, 1]


def test_a_square_end_at_9_off_plumb_would_dig_188_into_the_floor():
    """12 sin 9 = 1.877, geometry notes section 1."""
    assert standing(ends=("square", "square")).min() == near(-1.877)


def test_an_end_that_stands_on_the_floor_is_level_by_itself():
    assert standing().min() == near(0.0, 1e-6)


def test_thickness_counts_as_put_together_without_the_film_and_after_sanding():
    """T - 2 r: 24 sanded by 0.1 a face stands 23.8 thick in the model, coated or not."""
    finish = Finish(coats=2, film=0.04, sanded=0.1, when="before glue", joint_zones="coated")
    piece = piece_of(board("a", ((0.0, 100.0), (1000.0, 100.0))), finish=finish)
    assert Solids(Keep()).volume(piece.parts[0]) == near(1000.0 * 23.8 * 300.0, 1e-3)


@pytest.mark.parametrize(
    ("angle", "made", "warned"),
    [(15.0, True, True), (14.9, False, False), (29.9, True, True), (30.0, True, False), (90.0, True, False)],
)
def test_boards_are_halved_from_15_degrees_on_and_warned_of_below_30(angle, made, warned):
    """Geometry notes, section 2: angles from 15 up to, not including, 30 are warned, below 15 refused."""
    ux, uy = math.cos(math.radians(angle)), math.sin(math.radians(angle))
    piece = piece_of(
        board("a", ((-500.0, 0.0), (500.0, 0.0))), board("b", ((-500.0 * ux, -500.0 * uy), (500.0 * ux, 500.0 * uy)))
    )
    codes = {finding.code for finding in piece.findings}
    assert (len(piece.joints) == 1) is made
    assert ("shallow-angle" in codes) is warned
    assert ("joint-unsuited" in codes) is not made


def test_at_15_degrees_a_slot_gets_94_long_on_the_face():
    """24.3 / sin 15 = 93.9: why shallow angles are warned of."""
    ux, uy = math.cos(math.radians(15.0)), math.sin(math.radians(15.0))
    piece = piece_of(
        board("a", ((-500.0, 0.0), (500.0, 0.0))),
        board("b", ((-500.0 * ux, -500.0 * uy), (500.0 * ux, 500.0 * uy))),
        clearance=0.3,
    )
    assert cut_of(piece, "slot in a for b").figures.on_face == near(93.9, 0.05)


def test_the_default_clearance_is_15_hundredths_dry_and_10_glued():
    """Common practice, geometry notes section 1."""
    crossing = piece_of(board("a", ((0.0, 0.0), (900.0, 0.0))), leaning("b", 450.0, 0.0, 600.0), clearance=None)
    housed = piece_of(
        board("a", ((0.0, 0.0), (0.0, 600.0))), board("b", ((0.0, 300.0), (500.0, 300.0))), clearance=None
    )
    assert cut_of(crossing, "slot in a for b").figures.across == near(24.15)
    assert cut_of(housed, "housing in a for b").figures.across == near(24.10)


def test_a_housing_runs_over_the_set_back_of_the_board_that_ends_and_closes_at_its_edge():
    """Geometry notes, section 4: set back by more than 1 it ends there, squared, clearance on; else it runs out."""

    def opens(set_back):
        piece = piece_of(
            board("post", ((0.0, 0.0), (0.0, 600.0))),
            board("shelf", ((0.0, 300.0), (500.0, 300.0)), depth=300.0 - set_back),
        )
        return max(shape.high for shape in cut_of(piece, "housing in post for shelf").shapes)

    assert opens(20.0) == near(280.15)
    assert opens(1.0) > 300.0


def test_a_board_that_stands_proud_is_cut_back_to_the_face_it_ends_on():
    """Geometry notes, section 4: 30 proud at the front, the end beyond the post reaches its face at x = 12."""
    piece = piece_of(
        board("post", ((0.0, 0.0), (0.0, 600.0))), board("shelf", ((0.0, 300.0), (500.0, 300.0)), depth=330.0)
    )
    corners = Solids(Keep()).placed(piece.part_by_name["shelf"]).to_mesh64().vert_properties[:, :3]
    assert corners[corners[:, 2] > 300.5][:, 0].min() == near(12.0)
    assert corners[:, 0].min() == near(4.0)


@pytest.mark.parametrize("faces_meet", [True, False], ids=["at the faces", "at the centre-line"])
def test_raked_ends_are_opposite_where_their_housings_are_and_not_only_their_lines(faces_meet):
    """Post 40, ends 12 thick at 60 to it: each runs 20 tan 30 = 11.55 along it from its face to its middle.

    Where the housings lie opposite at the faces the lines cross the post 23.1 apart, and the other way about;
    either way two of a third would leave 14 of 40, two of a quarter leave half.
    """
    slope, shift = math.tan(math.radians(30.0)), 20.0 * math.tan(math.radians(30.0)) * faces_meet
    right = board("right", ((0.0, 400.0 - shift), (400.0, 400.0 - shift + 400.0 * slope)), 12.0)
    left = board("left", ((0.0, 400.0 + shift), (-400.0, 400.0 + shift - 400.0 * slope)), 12.0)
    piece = piece_of(board("post", ((0.0, 100.0), (0.0, 700.0)), 40.0), right, left)
    assert [cut_of(piece, f"housing in post for {name}").figures.deep for name in ("left", "right")] == [10.0, 10.0]
    assert "thin-web" not in {finding.code for finding in piece.findings}
