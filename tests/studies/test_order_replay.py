"""Every plan done again on the solids, in small steps and without overlap; every lock tried on the solids too.

The solids are manifold's, apart from the convex pieces that the planner sweeps. Random layouts are those of
`tests/strategies.py`: raking and tapering boards, coated ones, housings stopped at the front or at both ends.
"""

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given, settings

from dryfit.book import build, piece_of, read_job_text
from dryfit.book.building import scene_of
from dryfit.book.demos import demo_text, demos
from dryfit.job.model import JointSpec
from dryfit.piece.solids import Solids
from dryfit.shop.model import Shop
from dryfit.studies.order import OrderStudy
from dryfit.studies.order.result import Leg
from dryfit.study.base import Work

from ..strategies import pieces
from .replaying import box, replayed, shared, stuck

AXES = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def ordered(job):
    """Piece, solids, plan and findings of a job."""
    piece, solids, study = piece_of(job), Solids(), OrderStudy()
    value = study.reads(scene_of(job, Shop(), piece, solids))
    result = study.run(value, Work())
    return piece, solids, result, study.findings(value, result)


def everything_is_put_in_once(order, names):
    """Each part lies first or is put in, once in every stage that it takes part in; at the end all are there."""
    for stage in order.stages:
        moved = [part for step in stage.steps for part in step.parts if len(step.parts) == 1 or _unit(order, step)]
        assert set(stage.first) | {part for step in stage.steps for part in step.parts} == set(stage.parts)
        assert len(moved) == len(set(moved))
        for step in stage.steps:
            assert not set(step.parts) & set(step.onto)
    return set(order.stages[-1].parts) == set(names)


def _unit(order, step):
    return any(set(stage.parts) == set(step.parts) for stage in order.stages[:-1])


def taken_down(order):
    """The plan backwards: at each step what leaves is all there, and what it leaves behind was there with it."""
    for stage in order.stages:
        assemblies = [frozenset(stage.parts)]
        for step in reversed(stage.steps):
            together = frozenset(step.parts) | frozenset(step.onto)
            whole = next((one for one in assemblies if together == one), None)
            assert whole is not None, f"{step.name} leaves what is not there"
            assemblies.remove(whole)
            assemblies += [frozenset(step.parts), frozenset(step.onto)]


# ---- the check itself


def test_two_boxes_overlap_by_what_they_share_and_a_sheet_between_faces_is_none():
    one = box((0, 0, 0), (100, 100, 100))

    assert shared(one, box((90, 0, 0), (190, 100, 100)), AXES) == pytest.approx(10.0)
    assert shared(one, box((100, 0, 0), (190, 100, 100)), AXES) == 0.0
    assert shared(one, box((99.999999, 0, 0), (190, 100, 100)), AXES) < 1e-5


def test_a_plan_that_is_wrong_is_caught():
    """The divider of the small demo brought in along x instead of along its walls; and steps in another order."""
    piece, solids, order, _ = ordered(read_job_text(demo_text("step-shelf")))
    (stage,) = order.stages
    sideways = tuple(replace(step, legs=(Leg(direction=(1.0, 0.0, 0.0), distance=50.0),)) for step in stage.steps)
    everything = tuple(replace(step, onto=tuple(set(stage.parts) - set(step.parts))) for step in stage.steps)

    for wrong in (sideways, everything):
        assert replayed(piece, replace(order, stages=(replace(stage, steps=wrong),)), solids) != []


# ---- demos


@pytest.mark.parametrize("name", demos())
def test_the_plan_of_every_demo_is_done_again_on_its_solids_without_overlap(name):
    book = build(read_job_text(demo_text(name)))
    order = book.studies["order"]

    assert order.overlaps == ()
    assert order.locked == ()
    assert everything_is_put_in_once(order, [part.id for part in book.piece.parts])
    assert replayed(book.piece, order, book.solids) == []


@pytest.mark.parametrize("name", demos())
def test_the_plan_of_every_demo_backwards_takes_it_apart(name):
    taken_down(build(read_job_text(demo_text(name))).studies["order"])


def test_the_order_is_the_same_from_a_cold_start_and_when_asked_again():
    job = read_job_text(demo_text("record-wall"))

    assert ordered(job)[2] == ordered(job)[2]


# ---- random layouts


def with_cure(job, cure):
    """The job once a cure of joints is applied: every edit adds a `[[joint]]`, or sets a word of one added before."""
    specs = {frozenset(spec.between): spec for spec in job.joint_specs}
    for edit in cure.edits:
        assert edit.action == "add"
        table = dict(edit.value)
        one, other = table.pop("between")
        old = specs.get(frozenset((one, other)), JointSpec(between=(one, other), path=("joint", len(specs))))
        kind, front = table.pop("kind", old.kind), table.pop("front", old.front)
        specs[frozenset((one, other))] = replace(old, kind=kind, front=front, options={**old.options, **table})
    return replace(job, joint_specs=tuple(specs.values()))


@settings(max_examples=80, deadline=None, suppress_health_check=[HealthCheck.too_slow])
@given(drawing=pieces())
def test_every_random_layout_has_a_plan_that_holds_on_the_solids_or_a_locked_set_that_is_one(drawing):
    piece, solids, order, findings = ordered(drawing.job)
    if order.overlaps:
        assert [finding.code for finding in findings] == ["no-order-while-overlapping"]
        return

    taken_down(order) if not order.locked else None
    assert replayed(piece, order, solids) == []
    told = [finding for finding in (*piece.findings, *findings) if finding.code in ("locked", "no-order")]
    assert bool(told) == bool(order.locked)
    for finding in told:
        assert stuck(piece, finding.where.boards, solids)
        for cure in finding.cures:
            again = ordered(with_cure(drawing.job, cure))[2]
            assert not any(set(lock.parts) <= set(finding.where.boards) for lock in again.locked)
