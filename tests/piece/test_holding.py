"""What holds boards up, case by case: gravity is in the head, and the middle of a board is where its weight hangs.

Two uprights 900 apart stand on the floor, which is y = 0, with a shelf between them, boards 24 thick. A glued or a
crossing joint makes one body of two boards; a dry housing bears and keeps from slipping, and no more.
"""

import pytest

from dryfit.book import build, read_job_text
from dryfit.findings import Severity
from dryfit.job.model import Fixing, JointRules, Unit, Wall
from dryfit.piece import holding
from dryfit.piece.model import Bearing, Carry
from dryfit.piece.statics import HeldPoint, bond, feet, standing

from .making import asked, built, job_of, plank, rules

DRY = rules(housing={"glued": False})
SHELF = plank("shelf", (0, 400), (900, 400))


def upright(name, x, foot=0.0, head=800.0):
    return plank(name, (x, foot), (x, head))


LEFT, RIGHT = upright("left", 0), upright("right", 900)


def fixed(board, *at):
    options = {"screw": "wood 5x120"}
    return Fixing(name=f"fixing of {board}", board=board, kind="long screw", at=at, options=options, path=("fixing", 0))


def told(*boards, **more):
    """Code and boards of each stop of what holds boards up."""
    found = built(job_of(*boards, **more)).findings
    return [
        (one.code, one.where.boards) for one in found if one.code in holding.CODES and one.severity is Severity.STOP
    ]


# ---- on the floor, on the wall, in the air


def test_what_stands_on_two_legs_is_held_dry_or_glued():
    assert told(LEFT, RIGHT, SHELF) == told(LEFT, RIGHT, SHELF, joints=DRY) == []


@pytest.mark.parametrize(("foot", "held"), [(0.0, True), (0.9, True), (1.5, False)])
def test_the_floor_is_reached_within_one(foot, held):
    boards = (upright("left", 0, foot), upright("right", 900, foot), SHELF)
    assert told(*boards) == ([] if held else [("held-by-nothing", ("left",))])


def test_a_piece_in_the_air_is_told_once_with_its_lowest_board_and_how_high_it_is():
    (found,) = [
        one for one in built(job_of(plank("shelf", (0, 612), (900, 612)))).findings if one.code == holding.FALLS
    ]
    assert (found.found, found.where.boards) == (600.0, ("shelf",))


@pytest.mark.parametrize("way", [0, 12, -12], ids=["on its centre-line", "above it", "below it"])
def test_a_board_that_lies_on_the_floor_stands_on_its_underside(way):
    assert told(plank("plinth", (0, way), (900, way))) == []


def test_what_hangs_stands_on_no_floor_though_it_reaches_down_to_nought():
    assert told(LEFT, RIGHT, SHELF, wall=Wall(hung=True)) == [("hung-without-fixing", ())]
    assert told(LEFT, RIGHT, SHELF, wall=Wall(hung=True), fixings=(fixed("shelf", 200, 700),)) == []


def test_what_is_said_to_hang_and_reaches_the_floor_may_be_cured_by_standing_there():
    """Which of the two it is the maker knows; what ends in the air has no such cure."""

    def cures(*boards):
        (found,) = [one for one in built(job_of(*boards, wall=Wall(hung=True))).findings if one.code == holding.HUNG]
        return [(cure.label, [(edit.action, edit.path) for edit in cure.edits]) for cure in found.cures]

    assert cures(LEFT, RIGHT, SHELF) == [("it stands on the floor", [("remove", ("wall", "hung"))])]
    assert cures(plank("shelf", (0, 612), (900, 612))) == []


def test_a_piece_that_nothing_holds_leaves_open_what_holds_its_boards_and_still_tells_what_no_fixing_would_mend():
    """Hung with no fixing: the stray board and the loose butt would come to light one run later, each with the last."""
    stray, stub = plank("stray", (450, 700), (450, 900)), plank("stub", (450, 100), (450, 388))
    loose = JointRules(kinds={"butt": {"fasten": "none", "glued": False}})
    boards, hung, specs = (SHELF, stray, stub), Wall(hung=True), (asked("stub", "shelf", "butt"),)
    piece = built(job_of(*boards, wall=hung, joints=loose, joint_specs=specs))
    told_of = [(one.code, one.where.boards) for one in piece.findings if one.code in holding.CODES]
    assert sorted(told_of) == [("apart", ("stray",)), ("hung-without-fixing", ()), ("not-fastened", ("stub", "shelf"))]
    assert "what keeps each board from dropping or tipping" in {left.what for left in piece.not_checked}
    screws = (fixed("shelf", 200, 700),)
    held = built(job_of(*boards, wall=hung, joints=loose, joint_specs=specs, fixings=screws))
    assert "what keeps each board from dropping or tipping" not in {left.what for left in held.not_checked}


def test_heights_that_are_counted_from_elsewhere_leave_open_where_the_floor_is():
    piece = built(job_of(upright("left", 0, -500, 300), upright("right", 900, -500, 300), plank("s", (0, 0), (900, 0))))
    assert not [one for one in piece.findings if one.code in holding.CODES]
    assert "where the floor is" in {left.what for left in piece.not_checked}


def test_what_hangs_and_reaches_below_nought_leaves_open_whether_it_clears_the_floor():
    """Sheets give y as the height above the floor; of a piece that hangs no board below 0 is told (room)."""
    low, screws = plank("drop", (450, -200), (450, 600)), (fixed("shelf", 200, 700),)
    open_ones = {left.what for left in built(job_of(SHELF, low, wall=Wall(hung=True), fixings=screws)).not_checked}
    assert "whether the piece clears the floor" in open_ones
    above = built(job_of(SHELF, upright("drop", 450), wall=Wall(hung=True), fixings=screws))
    assert "whether the piece clears the floor" not in {left.what for left in above.not_checked}


def test_one_screw_holds_a_board_at_its_middle_and_nowhere_else():
    shelf, wall = plank("shelf", (0, 400), (900, 400)), Wall(hung=True)
    assert told(shelf, wall=wall, fixings=(fixed("shelf", 450),)) == []
    assert told(shelf, wall=wall, fixings=(fixed("shelf", 200),)) == [("tips", ("shelf",))]
    assert told(shelf, wall=wall, fixings=(fixed("shelf", 200, 700),)) == []


def test_a_board_that_stands_on_its_end_by_itself_falls_over():
    assert told(LEFT, RIGHT, SHELF, upright("post", 2000)) == [("held-by-nothing", ("post",))]


def test_two_parts_that_each_stand_by_themselves_are_a_note():
    others = (upright("third", 2000), upright("fourth", 2900), plank("upper", (2000, 400), (2900, 400)))
    found = built(job_of(LEFT, RIGHT, SHELF, *others)).findings
    assert [one.code for one in found if one.code in holding.CODES] == ["apart"]


# ---- what joints carry


def test_legs_that_rake_outwards_need_a_joint_that_pulls():
    legs = plank("left", (0, 0), (-200, 900)), plank("right", (900, 0), (1100, 900))
    shelf = plank("shelf", (-89, 400), (989, 400))
    assert told(*legs, shelf) == []
    assert told(*legs, shelf, joints=DRY) == [("tips", ("left", "shelf")), ("tips", ("right", "shelf"))]


def test_a_divider_let_in_dry_stands_on_a_shelf_and_drops_from_under_it():
    above, below = plank("divider", (450, 400), (450, 700)), plank("divider", (450, 100), (450, 400))
    assert told(LEFT, RIGHT, SHELF, above, joints=DRY) == []
    assert told(LEFT, RIGHT, SHELF, below, joints=DRY) == [("held-by-nothing", ("divider",))]
    assert told(LEFT, RIGHT, SHELF, below) == []


def test_what_glue_on_end_grain_alone_holds_is_left_open():
    below = plank("divider", (450, 100), (450, 400))
    left = built(job_of(LEFT, RIGHT, SHELF, below)).not_checked
    assert [what for one in left if "glue" in (what := str(one.what))] == ["whether glue alone holds divider"]


def test_a_cure_is_offered_only_where_the_board_is_then_held():
    """Glued to one upright a shelf no longer falls out, but the two of them fall over."""
    (found,) = [one for one in built(job_of(LEFT, SHELF, joints=DRY)).findings if one.code == holding.TIPS]
    assert found.cures == ()


def test_what_is_only_laid_on_is_left_open_and_in_one_glued_unit_it_is_not():
    top = plank("top", (100, 424), (800, 424))
    assert told(LEFT, RIGHT, SHELF, top, joints=DRY) == []
    (left,) = [one for one in built(job_of(LEFT, RIGHT, SHELF, top)).not_checked if "top" in str(one.what)]
    assert left.where.boards == ("top",)
    unit = Unit(name="u", boards=("shelf", "top"), path=("unit", 0))
    assert not [
        one for one in built(job_of(LEFT, RIGHT, SHELF, top, units_glued=(unit,))).not_checked if "top" in str(one.what)
    ]


def test_a_fixing_that_cannot_be_made_is_a_stop_of_its_own_and_none_of_these():
    bad = Fixing(name="f", board="shelf", kind="long screw", at=(200.0,), options={"screw": "nail"}, path=("fixing", 0))
    assert told(SHELF, wall=Wall(hung=True), fixings=(bad,)) == []


def test_a_butt_that_only_bears_is_a_warning_where_it_stands():
    top = plank("top", (-50, 800), (950, 800))
    loose = JointRules(kinds={"butt": {"fasten": "none", "glued": False}})
    specs = tuple(asked(name, "top", "butt", index=n) for n, name in enumerate(("left", "right")))
    found = built(job_of(LEFT, RIGHT, SHELF, top, joints=loose, joint_specs=specs)).findings
    warned = [one for one in found if one.code in holding.CODES]
    assert [(one.severity, one.where.joint) for one in warned] == [
        (Severity.WARN, ("left", "top")),
        (Severity.WARN, ("right", "top")),
    ]
    assert [str(cure.label) for one in warned for cure in one.cures] == ["glue left to top", "glue right to top"]


def test_what_can_be_drawn_out_is_told_once_for_the_piece():
    crossing = [plank(f"post {n}", (150 + 200 * n, 0), (150 + 200 * n, 900)) for n in (1, 2, 3)]
    shelves = [plank(f"shelf {n}", (0, 300 * n), (1100, 300 * n)) for n in (1, 2)]
    (found,) = [one for one in built(job_of(*crossing, *shelves)).findings if one.code in holding.CODES]
    assert (found.code, found.severity) == ("held-by-fit", Severity.NOTE)
    assert set(found.where.boards) == {"post 1", "post 2", "post 3"}


def test_boards_that_are_not_held_do_not_silence_the_clash_check():
    """Two dividers drawn into each other, in the air: they overlap, whatever else is wrong."""
    text = (
        'dryfit = 1\n[timber."24"]\nspecies = "oak, white"\nthickness = 24\n'
        '[[board]]\nname = "a"\nline = [[0, 500], [600, 500]]\ndepth = 200\n'
        '[[board]]\nname = "b"\nline = [[0, 505], [600, 505]]\ndepth = 200\n'
    )
    codes = [finding.code for finding in build(read_job_text(text)).findings]
    assert {"held-by-nothing", "not-joined"} <= set(codes)


# ---- the sums


LEVEL = {"a": ((100.0, 0.0), 1.0)}


@pytest.mark.parametrize(
    ("props", "held"),
    [([0.0, 200.0], True), ([100.0], True), ([101.5], False), ([0.0, 98.0], False)],
    ids=["either side", "under its middle", "beside it", "both on one side"],
)
def test_a_beam_rests_where_its_middle_is_between_its_props(props, held):
    contacts = tuple(HeldPoint("floor", (0.0, -1.0), (x, -10.0)) for x in props)
    assert bool(standing(LEVEL, [], {"a": contacts}).held) == held


def test_a_ladder_leans_on_a_wall_while_its_foot_does_not_slide():
    """At 60 degrees its middle is left of its foot: a level push at the head keeps it from turning."""
    weights = {"a": ((-50.0, 86.6), 1.0)}
    head = HeldPoint("wall", (-1.0, 0.0), (-100.0, 173.2))
    assert standing(weights, [], {"a": (*feet([(0.0, 0.0)]), head)}).held
    assert not standing(weights, [], {"a": feet([(0.0, 0.0)])}).held
    slides = (HeldPoint("floor", (0.0, -1.0), (0.0, 0.0)), head)
    assert not standing(weights, [], {"a": slides}).held


def test_a_joint_grips_that_shuts_two_pairs_of_ways_at_two_places_each():
    at = ((0.0, 0.0, 0.0), (20.0, 0.0, 0.0))

    def carry(*ways, places=at):
        return Carry(how=Bearing.SIDEWAYS, body="a", by="b", ways=ways, at=places)

    level, plumb = ((1.0, 0.0, 0.0), (-1.0, 0.0, 0.0)), ((0.0, 1.0, 0.0), (0.0, -1.0, 0.0))
    assert bond(("a", "b"), [carry(*level), carry(*plumb)]).grips
    assert not bond(("a", "b"), [carry(*plumb)]).grips
    assert not bond(("a", "b"), [carry(*level), carry(*plumb, places=at[:1])]).grips
    assert not bond(("a", "b"), [carry(*level), carry(plumb[0])]).grips
