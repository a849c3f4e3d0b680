"""Options worked out: what the job leaves out stands in the joint as its kind takes it, and changes nothing of it.

A housing in 24 without a depth is 8.0 deep (a third, in whole 0.5); dry walls have 0.15 of play, glued ones 0.10; a
mitre 300 deep takes 3 keys (one in 100). What stays left out has no place there: a tongue where none is, what a wall's
table does not say, a driver where none is sold long enough.
"""

import json

import pytest
from hypothesis import HealthCheck, given, settings

from bench.layouts import layout
from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.documents.bookjson import book_json
from dryfit.errors import JobError
from dryfit.job.options import given as is_given
from dryfit.job.options import values_of
from dryfit.joints import KINDS
from dryfit.piece.building import build_piece
from dryfit.piece.kinds import Kinds
from dryfit.shop.model import Shop
from tests.joints.kinds import BROUGHT
from tests.joints.typed import board, frame, job, joint_of, table
from tests.strategies import pieces
from tools.examples import EXAMPLES

JOBS = {name: demo_text(name) for name in demos()}
JOBS |= {f"{kind} {number}": one.text for kind, some in EXAMPLES.items() for number, one in enumerate(some)}
JOBS |= {shape: layout(shape, 12).text() for shape in ("bays", "ring", "star")}

SHELF, UPRIGHT = board("shelf", [[0, 500], [1000, 500]]), board("upright", [[500, 0], [500, 500]])


def as_asked(joint):
    """The joint's options with what the job does not say left out again."""
    fields = type(joint.options).model_fields
    asked = {
        name: value if is_given(joint.options, name) else fields[name].default
        for name, value in values_of(joint.options).items()
    }
    return type(joint.options).model_construct(_fields_set=set(joint.options.model_fields_set), **asked)


def parts_of(joint):
    return joint.cuts, joint.gaps, joint.hidden_mm2, joint.findings, joint.not_checked, joint.making


def stays_the_same(joint):
    """Made of what is asked, and of what is worked out from that, it is the same joint."""
    kind, asked = KINDS[joint.kind], as_asked(joint)
    worked = kind.worked(joint.meeting, asked)
    assert kind.worked(joint.meeting, worked) == worked, "what is worked out has nothing left to work out"
    for member in (kind.makings, kind.judge):
        assert member(joint.meeting, worked) == member(joint.meeting, asked)
    assert kind.matings(joint.meeting, worked, joint.making) == kind.matings(joint.meeting, asked, joint.making)
    made, plain = (kind.make(joint.meeting, options, joint.making) for options in (worked, asked))
    assert parts_of(made) == parts_of(plain)
    assert [ease.options for ease in kind.eases(joint.meeting, worked, joint.making)] == [
        ease.options for ease in kind.eases(joint.meeting, asked, joint.making)
    ]


@pytest.mark.parametrize("name", JOBS)
def test_no_option_in_book_json_is_null_where_its_kind_settled_a_value(name):
    book = build(read_job_text(JOBS[name]))
    told = json.loads(book_json(book))["joints"]
    assert told, "a job without joints shows nothing"
    for joint in told:
        left_out = {key for key, value in joint["options"].items() if value is None}
        assert left_out <= BROUGHT[joint["kind"]].left_out(joint["options"]), joint["between"]


@pytest.mark.parametrize("name", JOBS)
def test_working_options_out_changes_nothing_of_a_joint(name):
    for joint in build(read_job_text(JOBS[name])).piece.joints:
        stays_the_same(joint)


@settings(max_examples=60, deadline=None, suppress_health_check=list(HealthCheck))
@given(pieces())
def test_in_pieces_drawn_at_random_too(drawing):
    for joint in build_piece(drawing.job, Kinds(KINDS), Shop()).joints:
        left_out = {key for key, value in values_of(joint.options).items() if value is None}
        assert left_out <= BROUGHT[joint.kind].left_out(values_of(joint.options)), joint.key
        stays_the_same(joint)


def test_what_is_left_out_stands_in_the_joint_as_it_is_taken_and_is_still_not_given():
    options = joint_of(job(SHELF, UPRIGHT), "shelf", "upright").options
    assert (options.depth, options.clearance, options.tongue) == (8.0, 0.10, None)
    assert not any(is_given(options, name) for name in ("depth", "clearance", "tongue"))

    asked = joint_of(
        job(SHELF, UPRIGHT, table("[[joint]]", between=["shelf", "upright"], depth=6)), "shelf", "upright"
    ).options
    assert (asked.depth, is_given(asked, "depth")) == (6.0, True)


def test_options_called_as_what_a_mapping_has_are_options_like_others():
    """A mitre has an option `keys`, which `dict` would take for the method of a mapping."""
    box = frame([[0, 0], [900, 0], [900, 500], [0, 500]])
    options = joint_of(job(box, table("[joints.mitre]", strengthen="keys")), "box 1", "box 2").options
    assert options.keys == values_of(options)["keys"] == 3


# ---- one bound, wherever it is written

PLACES = {
    "for all joints": "[joints]\nclearance = {}\n",
    "for its kind": '[joints."cross halving"]\nclearance = {}\n',
    "for this joint": '[[joint]]\nbetween = ["shelf", "upright"]\nclearance = {}\n',
}
CROSSING = board("upright", [[500, 0], [500, 900]])


@pytest.mark.parametrize(
    ("written", "taken"),
    [
        ("-0.001", "make it at least 0 mm"),
        ("0", 0.0),
        ("0.001", 0.001),
        ("4.999", 4.999),
        ("5", 5.0),
        ("5.001", "make it at most 5 mm"),
        ('"5 + 0.001"', "make it at most 5 mm"),
        ('"0.1 in"', 2.54),
        ('"1 in"', "make it at most 5 mm"),
        ('"wide"', "write a number"),
        ("true", "write a number"),
    ],
)
def test_a_clearance_has_one_bound_wherever_it_is_written(written, taken):
    found = {place: outcome(text.format(written)) for place, text in PLACES.items()}
    one, *others = found.values()
    assert all(other == one for other in others), found
    assert one == taken or (isinstance(taken, str) and isinstance(one, tuple))
    if isinstance(taken, str) and "make it" in taken:
        assert one[1] == taken


def outcome(text):
    """The clearance that the joint has, or what is said against it and what to do."""
    try:
        return joint_of(job(SHELF, CROSSING, text), "shelf", "upright").options.clearance
    except JobError as error:
        return error.mistakes[0].says, error.mistakes[0].remedy
