"""Choosing a kind and its options: the maker's word over the rule, and a finding where it cannot be.

The scene: a shelf 24 thick along y = 600, an upright 20 thick through it or ending on it.
"""

import pytest

from dryfit.findings import Severity
from dryfit.job.model import JointRules
from dryfit.joints import KINDS
from dryfit.piece.model import Judgement
from dryfit.places import Edit

from .making import UNMADE, asked, built, coded, job_of, joint_of, plank, rules

SHELF = plank("shelf", (0, 600), (2000, 600))
THROUGH = plank("upright", (500, 0), (500, 1200), thickness=20.0, depth=280.0)
ENDS = plank("upright", (500, 0), (500, 600), thickness=20.0, depth=280.0)
TWO = {name: KINDS[name] for name in ("cross halving", "housing")}  # a Dryfit that can make no more than these
CORNER = plank("upright", (0, 0), (0, 600), thickness=20.0)


def only(findings, code):
    (finding,) = coded(findings, code)
    assert finding.severity is Severity.STOP
    return finding


@pytest.mark.parametrize(
    ("upright", "kind"), [(THROUGH, "cross halving"), (ENDS, "housing")], ids=["crossing", "end on face"]
)
def test_a_meeting_gets_the_kind_of_its_rule(upright, kind):
    assert [joint.kind for joint in built(job_of(SHELF, upright)).joints] == [kind]


def test_a_kind_that_does_not_suit_the_meeting_is_a_stop_at_its_table_and_the_rest_is_made():
    other = plank("other", (900, 0), (900, 1200))
    piece = built(job_of(SHELF, THROUGH, other, joint_specs=(asked("shelf", "upright", "housing", index=3),)))

    finding = only(piece.findings, "joint-unsuited")
    assert "a housing does not suit a crossing" in str(finding.says)
    assert finding.where.joint == ("shelf", "upright")
    assert finding.where.path == ("joint", 3)
    assert [joint.key for joint in piece.joints] == [("other", "shelf")]


@pytest.mark.parametrize("table", [True, False], ids=["its own table", "the rule of its kind"])
def test_a_refusal_says_what_was_found_against_what_limit_and_its_cure_ends_it(table):
    """Stops of 160 at both edges of boards 280 deep, 0.1 of play at each: 40.2 too little goes in."""
    stopped = {"stop": "both", "stop_distance": 160}
    specs = (asked("upright", "shelf", "housing", index=2, **stopped),) if table else ()
    more = {} if table else {"joints": rules(housing=stopped)}
    finding = only(built(job_of(SHELF, ENDS, joint_specs=specs, **more)).findings, "joint-unsuited")

    assert finding.found == pytest.approx(-40.2)
    assert (finding.limit, finding.unit, finding.source) == (0.0, "mm", "geometry")
    (edit,) = finding.cures[0].edits
    told = ("set", ("joint", 2, "stop"), "through")
    added = ("add", ("joint",), {"between": ["shelf", "upright"], "kind": "housing", "stop": "through"})
    assert (edit.action, edit.path, edit.value) == (told if table else added)
    cured = asked("upright", "shelf", "housing", **{**(stopped if table else {}), "stop": "through"})
    assert not coded(built(job_of(SHELF, ENDS, joint_specs=(cured,), **more)).findings, "joint-unsuited")


def test_a_kind_may_say_itself_what_to_do_instead():
    class Unwilling(type(KINDS["housing"])):
        def judge(self, meeting, options):
            return Judgement.refused("the cutter is too wide", remedy="use a cutter of 6", found=9.5, limit=6.0)

    piece = built(job_of(SHELF, ENDS), kinds={**KINDS, "housing": Unwilling()})
    finding = only(piece.findings, "joint-unsuited")

    assert str(finding.remedy) == "use a cutter of 6"
    assert (finding.found, finding.limit) == (9.5, 6.0)


def test_a_kind_not_made_yet_is_cured_by_another_in_the_same_table():
    spec = asked("upright", "shelf", UNMADE, index=2)
    finding = only(built(job_of(SHELF, ENDS, joint_specs=(spec,)), kinds=TWO).findings, "joint-not-made-yet")

    assert f"a {UNMADE} cannot be made yet" in str(finding.says)
    assert finding.where.path == ("joint", 2)
    assert [str(cure.label) for cure in finding.cures] == ["make it a housing"]
    assert finding.cures[0].edits == (Edit(action="set", path=("joint", 2, "kind"), value="housing"),)


def test_a_rule_not_made_yet_is_cured_by_a_table_for_the_one_meeting():
    piece = built(job_of(SHELF, ENDS, joints=JointRules(end_on_face=UNMADE)), kinds=TWO)
    finding = only(piece.findings, "joint-not-made-yet")

    value = {"between": ["upright", "shelf"], "kind": "housing"}
    assert finding.cures[0].edits == (Edit(action="add", path=("joint",), value=value),)
    assert piece.joints == ()


def test_the_cure_of_a_kind_not_made_yet_ends_the_finding():
    spec = asked("upright", "shelf", UNMADE)
    finding = only(built(job_of(SHELF, ENDS, joint_specs=(spec,)), kinds=TWO).findings, "joint-not-made-yet")
    (edit,) = finding.cures[0].edits

    cured = built(job_of(SHELF, ENDS, joint_specs=(asked("upright", "shelf", str(edit.value)),)))

    assert [joint.kind for joint in cured.joints] == ["housing"]
    assert not coded(cured.findings, "joint-not-made-yet")


def test_without_any_kind_for_the_meeting_the_remedy_is_to_move_a_board():
    finding = only(built(job_of(SHELF, CORNER), kinds=TWO).findings, "joint-not-made-yet")

    assert finding.cures == ()
    assert "so that they cross, or one ends on the other" in str(finding.remedy)


def test_boards_in_each_other_without_a_joint_are_a_stop_and_boards_on_each_other_a_note():
    slip = plank("slip", (100, 610), (700, 610))
    laid = plank("slip", (100, 624), (700, 624))

    assert only(built(job_of(SHELF, slip)).findings, "not-joined").where.boards == ("shelf", "slip")
    (note,) = coded(built(job_of(SHELF, laid)).findings, "laid-on")
    assert (note.severity, str(note.remedy)) == (Severity.NOTE, "glue or screw it")


def test_a_joint_asked_for_where_boards_only_touch_is_not_passed_over():
    laid = plank("slip", (100, 624), (700, 624))
    piece = built(job_of(SHELF, laid, joint_specs=(asked("shelf", "slip", "housing"),)))

    assert "a housing does not suit boards that only touch" in str(only(piece.findings, "joint-unsuited").says)


OVERLAID = {
    "nothing said: glued": (JointRules(), {}, 0.10),
    "for all joints": (rules(clearance=0.2), {}, 0.2),
    "for the kind": (rules(clearance=0.2, housing={"clearance": 0.3}), {}, 0.3),
    "for this joint": (rules(clearance=0.2, housing={"clearance": 0.3}), {"clearance": 0.4}, 0.4),
    "another kind's": (rules(clearance=0.2, cross_halving={"clearance": 0.3}), {}, 0.2),
}


@pytest.mark.parametrize(("joints", "own", "clearance"), OVERLAID.values(), ids=OVERLAID)
def test_options_of_a_joint_lie_over_those_of_its_kind_and_those_over_the_rule_for_all(joints, own, clearance):
    piece = built(job_of(SHELF, ENDS, joints=joints, joint_specs=(asked("shelf", "upright", **own),)))

    assert joint_of(piece, "shelf", "upright").cuts[0].figures.across == pytest.approx(20 + clearance)


def test_an_option_of_the_kind_holds_beside_another_of_the_joint():
    joints = rules(housing={"stop": "front", "depth": 5})
    piece = built(job_of(SHELF, ENDS, joints=joints, joint_specs=(asked("shelf", "upright", depth=7),)))
    options = joint_of(piece, "shelf", "upright").options

    assert (options.stop, options.depth) == ("front", 7.0)


@pytest.mark.parametrize(
    ("depth", "mm"),
    [("t_b / 3", 8.0), ("t_a / 4", 5.0), ("overlap / 40", 7.0), ("deep - 1", 8.0), ("min(t_a, t_b) / 2", 10.0)],
    ids=["board that receives", "board that ends", "common depth", "a measure", "function"],
)
def test_a_length_may_use_the_measures_and_the_meeting(depth, mm):
    spec = asked("upright", "shelf", depth=depth)
    piece = built(job_of(SHELF, ENDS, measures={"deep": 9.0}, joint_specs=(spec,)))

    assert joint_of(piece, "shelf", "upright").cuts[0].figures.deep == pytest.approx(mm)


def test_what_a_maker_writes_is_in_the_units_of_the_job_and_a_default_in_mm():
    spec = asked("upright", "shelf", depth="1/4", stop="front")
    piece = built(job_of(SHELF, ENDS, units="in", joint_specs=(spec,)))
    options = joint_of(piece, "shelf", "upright").options

    assert (options.depth, options.stop_distance) == (pytest.approx(6.35), 12.0)


@pytest.mark.parametrize(
    ("own", "said"),
    [
        ({"depth": "t_b / 0"}, "zero"),
        ({"depth": "thick / 3"}, "thick"),
        ({"clearance": -0.1}, "at least 0"),
        ({"stop_distance": "0 - 5"}, "at least 0"),
    ],
    ids=["division by zero", "unknown name", "below its bound", "arithmetic below its bound"],
)
def test_a_length_that_cannot_be_worked_out_is_a_stop_at_this_meeting_only(own, said):
    other = plank("other", (900, 0), (900, 600))
    piece = built(job_of(SHELF, ENDS, other, joint_specs=(asked("upright", "shelf", **own),)))
    finding = only(piece.findings, "joint-option")

    assert said in str(finding.says) + str(finding.remedy)
    assert finding.where.joint == ("shelf", "upright")
    assert [joint.key for joint in piece.joints] == [("other", "shelf")]


@pytest.mark.parametrize(
    ("own", "says", "remedy"),
    [
        ({"stop": "front"}, 'a cross halving has no option "stop"', "take it out"),
        ({"ratoi": 0.4}, 'a cross halving has no option "ratoi"', "did you mean ratio?"),
        ({"ratio": 0.01}, '"ratio" is out of range', "make it more than 0.05"),
        ({"walls": "leaned"}, '"walls" has an unknown word', '"leaning" or "square"'),
    ],
    ids=["of another kind", "misspelt", "out of bounds", "not a word for it"],
)
def test_an_option_that_the_kind_does_not_have_is_a_stop_at_this_meeting_only(own, says, remedy):
    """The file need not say a joint's kind, so only here is it known that an option is of another."""
    other = plank("other", (900, 0), (900, 1200))
    piece = built(job_of(SHELF, THROUGH, other, joint_specs=(asked("upright", "shelf", **own),)))
    finding = only(piece.findings, "joint-option")

    assert says in str(finding.says)
    assert remedy in str(finding.remedy)
    assert finding.where.path == ("joint", 0)
    assert [joint.key for joint in piece.joints] == [("other", "shelf")]


def test_options_of_a_kind_not_made_yet_wait_for_it_while_the_ends_are_butted():
    boards = (plank("a", (0, 600), (900, 600)), plank("b", (900, 600), (1800, 600)))
    piece = built(job_of(*boards, joint_specs=(asked("a", "b", UNMADE, slope="1:8"),)))

    assert [joint.kind for joint in piece.joints] == ["butt"]
    assert f"a {UNMADE} cannot be made yet" in str(only(piece.findings, "joint-not-made-yet").says)


def test_a_joint_asked_for_between_boards_that_do_not_meet_is_a_warning_with_its_cure():
    far = plank("far", (1500, 0), (1500, 400))
    piece = built(job_of(SHELF, far, joint_specs=(asked("shelf", "far", "housing", index=1),)))
    (finding,) = coded(piece.findings, "joint-without-meeting")

    assert finding.severity is Severity.WARN
    assert finding.cures[0].edits == (Edit(action="remove", path=("joint", 1)),)


def test_a_joint_asked_for_with_a_board_that_is_not_there_is_left_to_whoever_read_the_name():
    piece = built(job_of(SHELF, ENDS, joint_specs=(asked("shelf", "gone", "housing"),)))

    assert not coded(piece.findings, "joint-without-meeting")
