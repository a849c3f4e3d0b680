"""The glue-up plan by hand.

The box: 900 x 500 outside, 24 thick, 300 deep, mitred. A mitre is 24 x sqrt 2 = 33.94 long, 10 182 mm2; at 0.5 N/mm2
5.09 kN press it, which two clamps of 3.6 kN along its boards give (5.09 / (2 sin 45)): two of 3 kN along each of four
sides. The clock: 8 sides spread in 10 s each, 4 joints closed in 30, 8 clamps set in 20: 80 + 120 + 160 = 360 s,
the 6 minutes of the glue to the second. Diagonals outside sqrt(900^2 + 500^2) = 1029.56, inside sqrt(852^2 + 452^2) =
964.47; the top shifted by 1 makes them differ by about 2 x 900 / 1029.56 = 1.75. Glue figures are the trade's
(tests/trade), not repeated here.
"""

import math
from dataclasses import replace
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.book import build, read_job_text
from dryfit.book.reading import change_job_text
from dryfit.errors import JobError
from dryfit.joints import KINDS
from dryfit.piece.facts import Grain, Press, Pressing
from dryfit.piece.kinds import JointKind
from dryfit.piece.pressing import corner_shares
from dryfit.piece.sums import Sum, Term, Word
from dryfit.shop.model import Shop
from dryfit.studies.glue_up.pressing import GlueJoint, bound, clamps
from dryfit.studies.glue_up.reading import glue_joint
from dryfit.studies.glue_up.squareness import across, squareness
from dryfit.studies.glue_up.stages import Clock, StepValue, batches, grams
from dryfit.trade.glues import all_glues, figure, find_glue

from .test_order_trade import BARE, HEAD, LADDER, RECTANGLE, board, frame, let_in, polygon

D3 = find_glue("PVA, D3").found
assert D3 is not None


def d3(name):
    found = figure(D3, name)
    assert found is not None
    return found.value


def glued(text, shop=None):
    book = build(read_job_text(HEAD + text), shop)
    return book, book.studies["glue_up"]


def end(key="A", face=7200.0, deep=300.0, **more):
    """An end of a board on another's face, glued."""
    return GlueJoint(
        key=(key, "B"),
        kind="housing",
        faces=(((Grain.SIDE, Grain.END), 1000.0),),
        pressed=Pressing.END,
        face_mm2=face,
        along=((key, 1.0),),
        deep=deep,
        **more,
    )


def steps(*counts):
    """A step for every number: it closes so many joints."""
    return tuple(
        StepValue(name=f"step {n}", parts=(f"p{n}",), joints=tuple((f"p{n}", f"q{n}.{k}") for k in range(count)))
        for n, count in enumerate(counts)
    )


def every_joint(them):
    return frozenset(key for step in them for key in step.joints)


# ---- the box


def test_the_box_is_glued_in_one_go_with_two_clamps_along_each_side():
    _, plan = glued(frame(RECTANGLE))
    (go,) = plan.stages

    assert (go.name, go.place, go.number, go.of) == ("box", "shop", 1, 1)
    assert len(go.glued) == 4
    assert (go.spread_minutes, go.close_minutes, go.clamp_minutes) == pytest.approx((80 / 60, 2.0, 160 / 60))
    assert go.minutes == pytest.approx(6.0) == go.open_minutes
    assert {line.board: line.count for line in go.clamps} == {f"box {side}": 2 for side in (1, 2, 3, 4)}
    for line in go.clamps:
        assert line.force_n == pytest.approx(0.5 * 24 * math.sqrt(2) * 300 / (2 * math.sin(math.radians(45))))
        assert str(line.source).startswith("common practice")


def test_end_grain_is_spread_on_both_faces_so_the_box_takes_13_grams():
    (go,) = glued(frame(RECTANGLE))[1].stages

    assert go.grams == (("end-end", pytest.approx(8 * 24 * math.sqrt(2) * 300 / 1e6 * d3("spread") * 1.1)),)
    assert round(go.total_g) == 13


def test_the_diagonals_of_the_box_and_what_one_of_rack_makes_of_them():
    (go,) = glued(frame(RECTANGLE))[1].stages

    assert go.squares[0].outside == pytest.approx((math.hypot(900, 500),) * 2)
    assert go.squares[0].inside == pytest.approx((math.hypot(852, 452),) * 2)
    assert go.squares[0].differ_by == pytest.approx(2 * 900 / math.hypot(900, 500), abs=0.01)
    assert (go.squares[0].within, go.squares[0].wind) == (0.5, 0.5)


def test_a_frame_that_is_no_rectangle_has_two_diagonals_of_its_own():
    """(0, 0), (400, 0), (300, 300), (0, 300): diagonals 424.26 and 500."""
    corners = [(0.0, 0.0), (400.0, 0.0), (300.0, 300.0), (0.0, 300.0)]
    lines = []
    for (x, y), (p, q) in zip(corners, corners[1:] + corners[:1], strict=True):
        size = math.dist((x, y), (p, q))
        lines.append(((x, y), ((p - x) / size, (q - y) / size)))

    found = squareness(lines, lines)

    assert sorted(found.outside) == pytest.approx([math.hypot(300, 300), 500.0])


def test_work_that_waits_for_the_glue_and_what_goes_in_next_are_said():
    text = '[joints.mitre]\nstrengthen = "keys"\n' + frame(RECTANGLE) + BARE + let_in("front")
    box, inner = glued(text)[1].stages

    assert len(box.after) == 4
    assert (inner.name, inner.place) == ("", "site")
    assert {line.board for line in inner.clamps} == {"inner"}


# ---- pressing


def test_an_edge_of_27_by_600_at_1_newton_takes_six_clamps_of_3_kn():
    (line,) = clamps([end(face=27 * 600, deep=600.0, asked=1.0)], 0.8, "a table", 3000.0)

    assert line.force_n == pytest.approx(16_200)
    assert line.count == 6
    assert (line.pressure_n_mm2, line.source) == (1.0, "the job file")


def test_an_end_that_is_let_in_is_only_seated_however_large_it_is():
    """24 x 600 at 0.8 would ask for 11.5 kN, four clamps; a housing 600 deep is brought home by three, 300 apart."""
    shelf = board("post", (300, 0), (300, 300), depth=600) + board("shelf", (0, 300), (900, 300), depth=600)
    (go,) = glued(shelf)[1].stages
    (line,) = go.clamps

    assert (line.count, line.seats, line.force_n, line.pressure_n_mm2) == (3, True, 0.0, None)
    assert str(line.source).startswith("common practice")


def test_a_clamp_presses_both_ends_of_its_board_so_the_larger_counts():
    lines = clamps([end(face=1000.0), end(face=7200.0)], 0.8, "a table", 3000.0)

    assert [(line.board, round(line.force_n), line.count) for line in lines] == [("A", 5760, 2)]


@pytest.mark.parametrize(("deep", "count"), [(100.0, 1), (300.0, 2), (301.0, 3), (900.0, 4)])
def test_one_clamp_stands_near_each_edge_and_300_apart_at_most_however_little_force_is_asked(deep, count):
    (line,) = clamps([end(face=10.0, deep=deep)], 0.8, "a table", 3000.0)

    assert line.count == count


def test_a_glue_that_wants_contact_only_gets_a_clamp_for_spacing_and_no_force():
    (line,) = clamps([end()], None, "", 3000.0)

    assert (line.force_n, line.count, line.pressure_n_mm2) == (0.0, 2, None)


BUTT = '[joints]\ncorner = "butt"\n'


def test_a_butted_corner_is_pressed_as_any_end_on_a_face_and_only_along_the_board_that_ends():
    """18 thick, 300 deep, 0.8: 4.32 kN along the two boards that stand; a mitre would be pressed with 0.5."""
    (go,) = glued(BUTT + frame(RECTANGLE, '["oak", "thin", "oak", "thin"]'))[1].stages

    assert {line.board: round(line.force_n) for line in go.clamps} == {"box 2": 4320, "box 4": 4320}
    assert {line.pressure_n_mm2 for line in go.clamps} == {d3("pressure")} == {0.8}
    assert not any("mitre" in str(line.source) for line in go.clamps)


def test_of_a_mitre_of_24_on_18_each_clamp_gives_what_its_own_end_asks_for():
    """At 90 degrees: pressure x thickness x depth, 0.5 x 24 x 300 and 0.5 x 18 x 300."""
    (go,) = glued(frame(RECTANGLE, '["oak", "thin", "oak", "thin"]'))[1].stages

    assert {line.board: round(line.force_n) for line in go.clamps} == {
        "box 1": 3600, "box 2": 2700, "box 3": 3600, "box 4": 2700,
    }  # fmt: skip


@pytest.mark.parametrize("one", [45.0, 56.31, 20.0])
def test_the_shares_of_a_square_corner_are_the_sines_of_its_angles(one):
    assert corner_shares(one, 90.0 - one) == pytest.approx((math.sin(math.radians(one)), math.cos(math.radians(one))))


def test_corners_of_a_hexagon_take_no_clamp_along_its_boards_but_a_band_or_blocks():
    """24 / sin 60 = 27.71 long, 300 deep, 0.5: 4.16 kN square to each mitre, two clamps of 3 kN across its blocks."""
    goes = glued(frame(polygon(6)))[1].stages

    assert all(go.clamps == () for go in goes)
    assert len({corner.key for go in goes for corner in go.bound}) == 6
    for corner in (corner for go in goes for corner in go.bound):
        assert corner.force_n == pytest.approx(0.5 * 24 / math.sin(math.radians(60)) * 300, rel=1e-3)
        assert corner.count == 2


def test_boards_end_to_end_take_long_clamps_or_blocks_and_no_clamp_along_one_board():
    text = '[joints]\nin_line = "butt"\n' + board("one", (0, 300), (900, 300)) + board("other", (900, 300), (1800, 300))
    (go,) = glued(text)[1].stages

    (held,) = go.bound
    assert (held.key, held.corner, round(held.force_n), held.count) == (("one", "other"), False, 5760, 2)
    assert go.fitted == ()
    assert go.clamps == ()


def test_every_end_grain_face_is_counted():
    """A mitre has two, a butt or a housing one."""
    assert glued(frame(RECTANGLE))[1].stages[0].end_faces == 8
    assert glued(BUTT + frame(RECTANGLE))[1].stages[0].end_faces == 4
    shelf = board("post", (300, 0), (300, 300)) + board("shelf", (0, 300), (900, 300))
    assert glued(shelf)[1].stages[0].end_faces == 1


def test_a_joint_that_is_glued_at_two_places_has_the_end_grain_of_both():
    """A step along an end: the other's end on its floor, and its own end grain beside that."""
    floor, wall = ((Grain.SIDE, Grain.END), 4800.0), ((Grain.SIDE, Grain.END), 2400.0)
    stepped = GlueJoint(
        key=("A", "B"),
        kind="k",
        faces=(floor, wall),
        pressed=Pressing.END,
        face_mm2=1.0,
        along=(("A", 1.0),),
        deep=10.0,
    )
    assert stepped.end_faces == 2


@pytest.mark.parametrize(("through", "pressed"), [("base", "side"), ("side", "base")])
@pytest.mark.parametrize("deep", [8.0, 20.0], ids=["8 of 24", "20 of 24, past where the lines cross"])
def test_a_clamp_lies_along_the_board_whose_end_goes_in_however_deep(through, pressed, deep):
    """As the joint says it: the end that is cut back lies before the crossing of the lines, or past it."""
    text = f'[joints]\ncorner = "butt"\n[joints.butt]\nthrough = "{through}"\n'
    text += board("base", (0, 0), (900, 0)) + board("side", (0, 0), (0, 500))
    (joint,) = build(read_job_text(HEAD + text)).piece.joints

    def let_in(cut):
        if cut.body != pressed or not cut.end:
            return cut
        figures = replace(cut.figures, depth=Sum(through, (Term(Word.DEPTH, deep),)), stands="face")
        (plane,) = cut.shapes
        a, *rest = plane.point
        return replace(cut, figures=figures, shapes=(replace(plane, point=(a + cut.end * deep, *rest)),))

    class Step(type(KINDS["butt"])):
        """A kind that says no more of its end than that it goes in."""

        ends = JointKind.ends

    stepped = replace(joint, cuts=tuple(let_in(cut) for cut in joint.cuts))
    assert glue_joint(joint, KINDS["butt"], {}).along == ((pressed, 1.0),)
    assert glue_joint(stepped, Step(), {}).along == ((pressed, 1.0),)


def test_a_kind_says_itself_how_it_is_pressed_and_faces_on_faces_are_clamped_square_to_them():
    """A lap 160 long and 280 deep is 44 800 mm2; in line by its ends it would be taken for 24 x 280 and long clamps."""
    text = '[joints]\nin_line = "butt"\n' + board("a", (0, 0), (400, 0)) + board("b", (400, 0), (800, 0))
    (joint,) = build(read_job_text(HEAD + text)).piece.joints

    class Lap(type(KINDS["butt"])):
        def pressed(self, joint):
            return Press(how=Pressing.ACROSS, face_mm2=44800.0)

    (plain,) = bound([glue_joint(joint, KINDS["butt"], {})], 0.7, "the glue", 5000.0)
    lapped = glue_joint(joint, Lap(), {})
    (held,) = bound([lapped], 0.7, "the glue", 5000.0)

    assert (plain.corner, plain.across) == (False, False)
    assert (held.corner, held.across, held.force_n) == (False, True, pytest.approx(0.7 * 44800))
    assert held.count == 7  # 31.4 kN by 5 kN
    assert clamps([lapped], 0.7, "the glue", 5000.0) == ()


def test_the_glue_of_the_whole_piece_counts_what_has_no_order_too():
    """Four locked boards have no steps, and no go; their four housings take glue all the same."""
    text = '[joints.housing]\nstop = "both"\n' + LADDER
    _, plan = glued(text)
    free = glued('[joints.housing]\nstop = "front"\n' + LADDER)[1]

    assert plan.stages == ()
    assert dict(plan.grams).keys() == dict(free.grams).keys()
    assert sum(dict(free.grams).values()) == pytest.approx(sum(go.total_g for go in free.stages))
    assert 0 < sum(dict(plan.grams).values()) < sum(dict(free.grams).values())


def test_a_regular_hexagon_is_measured_past_one_corner_and_all_six_are_equal():
    """Corners on a circle of 400: six of 400 x sqrt 3 outside; inside that circle is 24 / cos 30 smaller."""
    go = glued(frame(polygon(6)))[1].stages[0]

    assert go.squares == ()
    assert go.across[0].equal
    assert {j - i for i, j in go.across[0].between} == {2, 4}
    assert go.across[0].outside == pytest.approx((400 * math.sqrt(3),) * 6)
    assert go.across[0].inside == pytest.approx(((400 - 24 / math.cos(math.radians(30))) * math.sqrt(3),) * 6)


def out_of_shape(count, off, radius=400.0):
    """A regular polygon's corners, its sides kept: every other corner `off` further out, the rest so much in."""
    side, turn = 2 * radius * math.sin(math.pi / count), math.cos(2 * math.pi / count)
    # (r + off)^2 + (r - off)^2 - 2 (r + off)(r - off) cos turn = side^2, solved for r
    r = math.sqrt((side**2 / 2 - off**2 * (1 + turn)) / (1 - turn))
    angles = (2 * math.pi * n / count for n in range(count))
    return [
        ((r + off * (-1) ** n) * math.cos(angle), (r + off * (-1) ** n) * math.sin(angle))
        for n, angle in enumerate(angles)
    ]


@pytest.mark.parametrize("count", [6, 8, 10, 12])
def test_a_frame_whose_every_other_corner_is_out_shows_it_in_what_is_measured(count):
    """By plane geometry: the sides are as before, every other corner is 5 out; one measured length is 0.5 off."""
    was, now = out_of_shape(count, 0.0), out_of_shape(count, 5.0)
    around = [(n, (n + 1) % count) for n in range(count)]
    lines = [(was[i], [(q - p) / math.dist(was[i], was[j]) for p, q in zip(was[i], was[j], strict=True)])
             for i, j in around]  # fmt: skip
    found = across(lines, lines)

    assert all(math.dist(now[i], now[j]) == pytest.approx(math.dist(was[i], was[j])) for i, j in around)
    assert max(abs(math.dist(now[i], now[j]) - math.dist(was[i], was[j])) for i, j in found.between) > found.within


def test_a_hexagon_of_two_equal_diagonals_is_measured_from_its_first_corner():
    """Mirrored, so that its diagonals come in twos: three are the least that hold six sides."""
    corners = [[0, 0], [600, 0], [800, 300], [600, 700], [0, 700], [-200, 300]]
    found = glued(frame(corners))[1].stages[0].across[0]

    assert not found.equal
    assert found.between == ((0, 2), (0, 3), (0, 4))


def test_a_pentagon_has_five_equal_ones_and_a_crooked_one_those_from_its_first_corner():
    regular = glued(frame(polygon(5)))[1].stages[0].across[0]
    crooked = glued(frame([[0, 0], [700, -50], [900, 400], [400, 800], [-100, 450]]))[1].stages[0].across[0]

    assert regular.equal
    assert len(regular.outside) == 5
    assert not crooked.equal
    assert crooked.between == ((0, 2), (0, 3))
    assert crooked.outside == pytest.approx((math.hypot(900, 400), math.hypot(400, 800)))


UPRIGHTS = "".join(board(f"side {n}", (x, 0), (x, 600)) for n, x in enumerate((100, 800), 1))
SHELVES = board("low", (0, 100), (900, 100)) + board("high", (0, 500), (900, 500))
DIVIDED = SHELVES + UPRIGHTS + board("divider", (450, 100), (450, 500))


def test_shelves_that_a_divider_is_glued_between_are_measured_from_their_outside_corners():
    """900 long, 400 apart on their middles, 24 thick: sqrt(900^2 + 424^2), both ways."""
    (go,) = glued(DIVIDED)[1].stages
    (square,) = go.squares

    assert set(square.between) == {"low", "high"}
    assert square.outside == pytest.approx((math.hypot(900, 424),) * 2)
    assert square.differ_by == pytest.approx(2 * 900 / math.hypot(900, 424), abs=0.01)
    assert [math.dist(*line) for line in square.ends] == pytest.approx(square.outside)
    assert len(go.held) == 1, "one side is put on dry, and holds it"


def test_a_board_held_at_one_place_is_measured_from_its_far_end_to_the_ends_of_what_it_stands_on():
    """A shelf of 800 housed in the middle of a post 600 high: from its arrises to the post's face, 300 - 12 off."""
    text = board("post", (0, 0), (0, 600)) + board("shelf", (0, 300), (800, 300))
    (go,) = glued(text)[1].stages
    (across,) = go.across

    assert across.equal
    assert across.outside == pytest.approx((math.hypot(800 - 12, 300 - 12),) * 2)


def test_a_corner_of_two_boards_is_measured_across_its_open_side():
    text = '[joints]\ncorner = "butt"\n' + board("base", (0, 0), (900, 0)) + board("side", (0, 0), (0, 500))
    (across,) = glued(text)[1].stages[0].across

    assert len(across.outside) == 1
    assert math.hypot(900, 500) < across.outside[0] < math.hypot(924, 524)


D2 = '[glue]\nkind = "PVA, D2"\n'


@pytest.mark.parametrize("text", [frame(RECTANGLE), frame(polygon(6)), DIVIDED, frame(polygon(5)) + D2])
def test_every_go_has_lengths_to_measure(text):
    for go in glued(text)[1].stages:
        assert go.squares or go.across


def test_what_is_laid_beside_what_lies_first_lies_first_too():
    """Both level sides lie, then come the two that stand."""
    (go,) = glued(frame(RECTANGLE))[1].stages

    assert set(go.lying) == {"box 1", "box 3"}
    assert [parts for parts, _ in go.moves] == [("box 2",), ("box 4",)]


def test_dry_joints_and_those_that_only_their_fit_presses_take_no_clamps():
    dry = GlueJoint(
        key=("A", "B"), kind="k", faces=(), pressed=Pressing.END, face_mm2=1.0, along=(("A", 1.0),), deep=10.0
    )
    fit = GlueJoint(
        key=("A", "B"),
        kind="k",
        faces=(((Grain.SIDE, Grain.END), 1.0),),
        pressed=Pressing.FIT,
        face_mm2=0.0,
        along=(),
        deep=10.0,
    )

    assert clamps([dry, fit], 0.8, "a table", 3000.0) == ()


def test_glue_by_grain_pair():
    """0.1296 m2 at 150 g/m2 and a tenth over: 21.4 g."""
    ((grain, mass),) = grams([((Grain.SIDE, Grain.SIDE), 129_600.0)], 150.0, 1.1)

    assert (grain, round(mass, 1)) == ("side-side", 21.4)


# ---- the clock


def clock(wet, open_minutes=6.0, spread=10.0, close=30.0, clamps=lambda glued: 0, people=1):
    """10 s to spread a joint and 30 to close it: 40 s a crossing that no clamp presses."""
    return Clock(
        spread=dict.fromkeys(wet, spread),
        close=close,
        clamp=20.0,
        clamps=clamps,
        people=people,
        open_minutes=open_minutes,
    )


@pytest.mark.parametrize(("close", "crossings"), [(10.0, 24), (30.0, 12)])
def test_a_glue_that_is_open_for_8_minutes_allows_12_to_24_crossings(close, crossings):
    """The trade's rule for grids: 20 to 40 s a crossing, spread and closed, so 8 minutes are 24 to 12 of them."""
    them = steps(*[1] * 60)
    found = batches(them, clock(every_joint(them), open_minutes=8.0, close=close))

    assert [len(go.glued) for go in found[:2]] == [crossings, crossings]


def test_steps_are_packed_while_the_glue_is_open():
    """40 s a joint and 6 min: 9 joints a go."""
    them = steps(4, 4, 1, 4, 5, 5)
    found = batches(them, clock(every_joint(them)))

    assert [[step.name for step in go.steps] for go in found] == [
        ["step 0", "step 1", "step 2"],
        ["step 3", "step 4"],
        ["step 5"],
    ]
    assert [go.times.whole for go in found] == pytest.approx([6.0, 6.0, 200 / 60])


def test_the_clock_counts_clamps_too_and_more_hands_share_all_of_it():
    """Two joints: 20 s of spreading, 60 of closing, a clamp a joint 40: 120 s; half of it with two people."""
    them = steps(2)
    (alone,) = batches(them, clock(every_joint(them), clamps=len))
    (two,) = batches(them, clock(every_joint(them), clamps=len, people=2))

    assert (alone.times.spread, alone.times.close, alone.times.clamp) == pytest.approx((20 / 60, 1.0, 40 / 60))
    assert two.times.whole == pytest.approx(1.0)


def test_steps_without_glue_before_the_first_and_after_the_last_stay_out_of_the_go():
    """Two joints wet, four dry between them: 6 x 30 + 2 x 10 = 200 s."""
    them = steps(20, 1, 4, 1, 20)
    (go,) = batches(them, clock({*them[1].joints, *them[3].joints}))

    assert [step.name for step in go.steps] == ["step 1", "step 2", "step 3"]
    assert go.times.whole == pytest.approx(200 / 60)
    assert len(go.glued) == 2
    assert len(go.dry) == 4


def box_steps():
    """Two sides lie; a third closes two corners, the fourth the other two."""
    first = StepValue(name="left", parts=("left",), onto=("foot", "top"), joints=(("foot", "left"), ("left", "top")))
    then = ("foot", "top", "left")
    return first, StepValue(name="right", parts=("right",), onto=then, joints=(("foot", "right"), ("right", "top")))


def test_a_frame_that_takes_too_long_is_divided_where_it_stays_square_its_missing_side_put_on_dry():
    """120 s a joint: four are 8 min; two and two closed dry are 5."""
    them = box_steps()
    goes = batches(them, clock(every_joint(them), spread=90.0))

    assert [[step.name for step in go.steps] for go in goes] == [["left"], ["right"]]
    assert [[step.name for step in go.held] for go in goes] == [["right"], []]
    assert [go.off for go in goes] == [True, False]
    assert [go.times.whole for go in goes] == pytest.approx([2 * 90 / 60 + 4 * 30 / 60, 2 * 120 / 60])
    assert goes[0].dry == (("foot", "right"), ("right", "top"))


def test_a_board_that_stays_dry_and_comes_next_holds_a_go_square_and_stays_on():
    """A divider between two shelves, glued; then two sides that cross both, dry: one of them is enough."""
    divider = StepValue(name="divider", parts=("divider",), onto=("low",), joints=(("divider", "low"),))
    high = StepValue(name="high", parts=("high",), onto=("low", "divider"), joints=(("divider", "high"),))
    sides = [
        StepValue(name=name, parts=(name,), onto=("low", "divider", "high"), joints=((name, "low"), (name, "high")))
        for name in ("right", "left")
    ]
    (go,) = batches([divider, high, *sides], clock({*divider.joints, *high.joints}))

    assert [step.name for step in go.held] == ["right"]
    assert not go.off


def test_nothing_glued_is_no_glue_up():
    assert batches(steps(3, 4), clock(())) == ()


@given(
    st.lists(st.tuples(st.integers(0, 8), st.integers(0, 3)), max_size=12),
    st.floats(1.0, 12.0),
    st.floats(1.0, 60.0),
)
def test_every_glued_joint_is_in_exactly_one_go_in_its_order_and_no_go_is_too_long(counts, minutes, spread):
    """Random steps, of which some joints are glued: a go is in time, or it is one step that alone takes longer."""
    them = steps(*(count for count, _ in counts))
    wet = [key for step, (_, glued) in zip(them, counts, strict=True) for key in step.joints[:glued]]
    ticking = clock(wet, open_minutes=minutes, spread=spread, clamps=len)
    found = batches(them, ticking)

    assert [key for go in found for key in go.glued] == wet
    for go in found:
        assert ticking.holds(go.times) or sum(any(key in wet for key in step.joints) for step in go.steps) == 1
        assert any(key in wet for key in go.steps[0].joints)
        assert any(key in wet for key in go.steps[-1].joints)


GRID = "".join(board(f"level {n}", (0, 100 * n), (1800, 100 * n)) for n in range(1, 15)) + board(
    "upright", (900, 0), (900, 1500)
)
GLUED_GRID = '[joints."cross halving"]\nglued = true\n' + GRID


def test_a_step_that_takes_longer_than_the_glue_is_open_is_a_warning_and_a_slower_glue_its_cure():
    """14 crossings at once, 40 s each: 9.3 min, and PVA D3 stays open 6."""
    book, plan = glued(GLUED_GRID)
    (finding,) = [found for found in book.findings if found.code == "glue-sets-first"]

    assert (finding.found, finding.limit, finding.unit) == (pytest.approx(14 * 40 / 60), d3("open_time"), "min")
    assert str(finding.says) == (
        f"putting in {plan.stages[-1].steps[-1]} takes 9.3 min to spread, close and clamp; {plan.glue} stays open 6 min"
    )
    assert finding.source
    changed, _ = change_job_text(HEAD + GLUED_GRID, finding.cures[0].edits)
    again = build(read_job_text(changed))
    assert not [found for found in again.findings if found.code == "glue-sets-first"]
    assert again.studies["glue_up"].glue != plan.glue


def test_two_pairs_of_hands_halve_the_time():
    (alone,), (together,) = (glued(GLUED_GRID + people)[1].stages for people in ("", "[glue]\npeople = 2\n"))

    assert together.minutes == pytest.approx(alone.minutes / 2)


def test_the_pace_is_the_shop_s():
    shop = Shop(seconds_a_crossing=20.0, seconds_to_spread=4.0, assumed=())
    book, plan = glued(GLUED_GRID, shop)

    assert plan.stages[0].close_minutes == pytest.approx(14 * 20 / 60)
    assert ("time to bring one joint home", 20.0, "s", "the shop file") in plan.practice
    assert not [found for found in book.findings if found.code == "glue-sets-first"]


# ---- what is asked, and where figures come from


def test_pressure_is_as_the_job_file_asks_by_kind_of_joint():
    (go,) = glued(frame(RECTANGLE) + "[glue.pressure]\nmitre = 0.3\n")[1].stages

    assert {(line.pressure_n_mm2, line.source) for line in go.clamps} == {(0.3, "the job file")}


def test_a_glue_that_is_not_known_is_a_warning_and_no_plan():
    book, plan = glued(frame(RECTANGLE) + '[glue]\nkind = "porridge"\n')
    (finding,) = [found for found in book.findings if found.code == "glue-unknown"]

    assert plan.stages == ()
    assert "porridge" in str(finding.says)
    assert str(finding.remedy)


def test_a_mistake_in_the_table_names_its_line():
    with pytest.raises(JobError) as raised:
        read_job_text(HEAD + "[glue]\npeople = 0\n")
    assert raised.value.mistakes[0].line == HEAD.count("\n") + 2


@pytest.mark.parametrize("glue", all_glues(), ids=lambda glue: glue.id)
def test_a_plan_can_be_made_with_every_glue_and_every_figure_has_its_source(glue):
    """Hide glue, open for a minute, is too quick for one corner: that is told."""
    book, plan = glued(frame(RECTANGLE) + f'[glue]\nkind = "{glue.name}"\n')
    told = {found.where.boards for found in book.findings if found.code == "glue-sets-first"}

    assert plan.glue == glue.name
    assert sum(len(go.glued) for go in plan.stages) == 4
    assert all(go.minutes <= go.open_minutes or go.boards in told for go in plan.stages)
    assert (glue.id == "hide_glue") == bool(told)
    assert all(said.source for said in plan.figures)
    assert all(source for _, _, _, source in plan.practice)
    assert plan.stages[0].contact_only == (figure(glue, "pressure") is None)


def test_nothing_in_the_room_of_studies_knows_a_kind_of_joint_by_name():
    import dryfit.studies.glue_up as room

    text = "".join(path.read_text(encoding="utf-8") for path in Path(room.__file__).parent.glob("*.py"))
    assert '"mitre"' not in text
    assert '"housing"' not in text
