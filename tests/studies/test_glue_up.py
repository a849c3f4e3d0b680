"""The glue-up plan by hand.

The box: 900 x 500 outside, 24 thick, 300 deep, mitred. A mitre is 24 x sqrt 2 = 33.94 long, 10 182 mm2; at 0.5 N/mm2
5.09 kN press it, which two clamps of 3.6 kN along its boards give (5.09 / (2 sin 45)): two of 3 kN along each of four
sides. Diagonals outside sqrt(900^2 + 500^2) = 1029.56, inside sqrt(852^2 + 452^2) = 964.47; the top shifted by 1 makes
them differ by about 2 x 900 / 1029.56 = 1.75. Glue figures are the trade's (tests/trade), not repeated here.
"""

import math
from pathlib import Path

import pytest

from dryfit.book import build, read_job_text
from dryfit.book.reading import change_job_text
from dryfit.errors import JobError
from dryfit.shop.model import Shop
from dryfit.studies.glue_up.pressing import GlueJoint, clamps, corner_shares
from dryfit.studies.glue_up.squareness import across, squareness
from dryfit.studies.glue_up.stages import StepValue, batches, grams
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
        faces=(("side-end", 1000.0),),
        pressed="end",
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
    assert go.minutes == pytest.approx(4 * 30 / 60)
    assert {line.board: line.count for line in go.clamps} == {f"box {side}": 2 for side in (1, 2, 3, 4)}
    for line in go.clamps:
        assert line.force_n == pytest.approx(0.5 * 24 * math.sqrt(2) * 300 / (2 * math.sin(math.radians(45))))
        assert line.source.startswith("common practice")


def test_end_grain_is_spread_on_both_faces_so_the_box_takes_13_grams():
    (go,) = glued(frame(RECTANGLE))[1].stages

    assert go.grams == (("end-end", pytest.approx(8 * 24 * math.sqrt(2) * 300 / 1e6 * d3("spread") * 1.1)),)
    assert round(go.total_g) == 13


def test_the_diagonals_of_the_box_and_what_one_of_rack_makes_of_them():
    (go,) = glued(frame(RECTANGLE))[1].stages

    assert go.square.outside == pytest.approx((math.hypot(900, 500),) * 2)
    assert go.square.inside == pytest.approx((math.hypot(852, 452),) * 2)
    assert go.square.differ_by == pytest.approx(2 * 900 / math.hypot(900, 500), abs=0.01)
    assert (go.square.within, go.square.wind) == (0.5, 0.5)


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


def test_a_clamp_presses_both_ends_of_its_board_so_the_larger_counts():
    lines = clamps([end(face=1000.0), end(face=7200.0)], 0.8, "a table", 3000.0)

    assert [(line.board, round(line.force_n), line.count) for line in lines] == [("A", 5760, 2)]


@pytest.mark.parametrize(("deep", "count"), [(100.0, 1), (300.0, 1), (301.0, 2), (900.0, 3)])
def test_clamps_stand_300_apart_at_most_however_little_force_is_asked(deep, count):
    (line,) = clamps([end(face=10.0, deep=deep)], 0.8, "a table", 3000.0)

    assert line.count == count


def test_a_glue_that_wants_contact_only_gets_a_clamp_for_spacing_and_no_force():
    (line,) = clamps([end()], None, "", 3000.0)

    assert (line.force_n, line.count, line.pressure_n_mm2) == (0.0, 1, None)


BUTT = '[joints]\ncorner = "butt"\n'


def test_a_butted_corner_is_pressed_as_any_end_on_a_face_and_only_along_the_board_that_ends():
    """18 thick, 300 deep, 0.8: 4.32 kN along the two boards that stand; a mitre would be pressed with 0.5."""
    (go,) = glued(BUTT + frame(RECTANGLE, '["oak", "thin", "oak", "thin"]'))[1].stages

    assert {line.board: round(line.force_n) for line in go.clamps} == {"box 2": 4320, "box 4": 4320}
    assert {line.pressure_n_mm2 for line in go.clamps} == {d3("pressure")} == {0.8}
    assert not any("mitre" in line.source for line in go.clamps)


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
    (go,) = glued(frame(polygon(6)))[1].stages

    assert go.clamps == ()
    assert len(go.bound) == 6
    for corner in go.bound:
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
    (go,) = glued(frame(polygon(6)))[1].stages

    assert go.square is None
    assert go.across.equal
    assert {j - i for i, j in go.across.between} == {2, 4}
    assert go.across.outside == pytest.approx((400 * math.sqrt(3),) * 6)
    assert go.across.inside == pytest.approx(((400 - 24 / math.cos(math.radians(30))) * math.sqrt(3),) * 6)


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
    found = glued(frame(corners))[1].stages[0].across

    assert not found.equal
    assert found.between == ((0, 2), (0, 3), (0, 4))


def test_a_pentagon_has_five_equal_ones_and_a_crooked_one_those_from_its_first_corner():
    regular = glued(frame(polygon(5)))[1].stages[0].across
    crooked = glued(frame([[0, 0], [700, -50], [900, 400], [400, 800], [-100, 450]]))[1].stages[0].across

    assert regular.equal
    assert len(regular.outside) == 5
    assert not crooked.equal
    assert crooked.between == ((0, 2), (0, 3))
    assert crooked.outside == pytest.approx((math.hypot(900, 400), math.hypot(400, 800)))


def test_what_is_laid_beside_what_lies_first_lies_first_too():
    """Both level sides lie, then come the two that stand."""
    (go,) = glued(frame(RECTANGLE))[1].stages

    assert set(go.lying) == {"box 1", "box 3"}
    assert [parts for parts, _ in go.moves] == [("box 2",), ("box 4",)]


def test_dry_joints_and_those_that_only_their_fit_presses_take_no_clamps():
    dry = GlueJoint(key=("A", "B"), kind="k", faces=(), pressed="end", face_mm2=1.0, along=(("A", 1.0),), deep=10.0)
    fit = GlueJoint(
        key=("A", "B"),
        kind="k",
        faces=(("side-end", 1.0),),
        pressed="fit",
        face_mm2=0.0,
        along=(),
        deep=10.0,
    )

    assert clamps([dry, fit], 0.8, "a table", 3000.0) == ()


def test_glue_by_grain_pair():
    """0.1296 m2 at 150 g/m2 and a tenth over: 21.4 g."""
    ((grain, mass),) = grams([("side-side", 129_600.0)], 150.0, 1.1)

    assert (grain, round(mass, 1)) == ("side-side", 21.4)


# ---- the clock


def test_steps_are_packed_while_the_glue_is_open():
    """30 s a joint and 6 min: 12 joints a go."""
    them = steps(5, 5, 2, 5, 5, 5)
    found = batches(them, every_joint(them), 30.0, 6.0)

    assert [[step.name for step in go.steps] for go in found] == [
        ["step 0", "step 1", "step 2"],
        ["step 3", "step 4"],
        ["step 5"],
    ]
    assert [go.minutes for go in found] == [6.0, 5.0, 2.5]


def test_dry_joints_cost_time_only_between_the_first_glue_and_the_last():
    them = steps(20, 1, 4, 1, 20)
    wet = frozenset((*them[1].joints, *them[3].joints))
    (go,) = batches(them, wet, 30.0, 6.0)

    assert go.minutes == 3.0
    assert len(go.glued) == 2
    assert len(go.dry) == 44


def test_nothing_glued_is_no_glue_up():
    assert batches(steps(3, 4), frozenset(), 30.0, 6.0) == ()


def test_every_glued_joint_is_in_exactly_one_go():
    them = steps(3, 14, 1, 0, 6, 2, 9, 9)
    found = batches(them, every_joint(them), 30.0, 6.0)

    assert sorted(key for go in found for key in go.glued) == sorted(every_joint(them))


GRID = "".join(board(f"level {n}", (0, 100 * n), (1800, 100 * n)) for n in range(1, 15)) + board(
    "upright", (900, 0), (900, 1500)
)
GLUED_GRID = '[joints."cross halving"]\nglued = true\n' + GRID


def test_a_step_that_takes_longer_than_the_glue_is_open_is_a_warning_and_a_slower_glue_its_cure():
    """14 crossings at once: 7 min, and PVA D3 stays open 6."""
    book, plan = glued(GLUED_GRID)
    (finding,) = [found for found in book.findings if found.code == "glue-sets-first"]

    assert (finding.found, finding.limit, finding.unit) == (7.0, d3("open_time"), "min")
    assert str(finding.says) == f"to put in {plan.stages[-1].steps[-1]} takes 7 min; {plan.glue} stays open 6 min"
    assert finding.source
    changed, _ = change_job_text(HEAD + GLUED_GRID, finding.cures[0].edits)
    again = build(read_job_text(changed))
    assert not [found for found in again.findings if found.code == "glue-sets-first"]
    assert again.studies["glue_up"].glue != plan.glue


def test_two_pairs_of_hands_halve_the_time():
    (alone,), (together,) = (glued(GLUED_GRID + people)[1].stages for people in ("", "[glue]\npeople = 2\n"))

    assert together.minutes == pytest.approx(alone.minutes / 2)


def test_the_pace_is_the_shop_s():
    shop = Shop(seconds_a_crossing=20.0, assumed=())
    book, plan = glued(GLUED_GRID, shop)

    assert plan.stages[0].minutes == pytest.approx(14 * 20 / 60)
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
    _, plan = glued(frame(RECTANGLE) + f'[glue]\nkind = "{glue.name}"\n')

    assert plan.glue == glue.name
    assert sum(len(go.glued) for go in plan.stages) == 4
    assert all(go.minutes <= go.open_minutes for go in plan.stages)
    assert all(said.source for said in plan.figures)
    assert all(source for _, _, _, source in plan.practice)
    assert plan.stages[0].contact_only == (figure(glue, "pressure") is None)


def test_nothing_in_the_room_of_studies_knows_a_kind_of_joint_by_name():
    import dryfit.studies.glue_up as room

    text = "".join(path.read_text(encoding="utf-8") for path in Path(room.__file__).parent.glob("*.py"))
    assert '"mitre"' not in text
    assert '"housing"' not in text
