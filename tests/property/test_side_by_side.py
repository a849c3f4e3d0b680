"""What a kind would cost is what it costs: on faulty pieces drawn at random, each kind asked for as the page asks.

At one meeting of each piece every kind is compared; each that is said to be possible is then written into the text, the
whole book built, on one bench and without trying cures that nobody asks about, and the joint has the cuts, the set-ups,
the glue and the hardware that were told. A kind that is refused is made no joint of.
"""

from dataclasses import replace

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from dryfit.book import Comparing, Kept, build, change_job_text, read_job_text
from dryfit.cli.comparing import data, lines
from dryfit.joints import KINDS
from dryfit.places import Edit
from dryfit.studies.setups.result import SetUps

from .faulty import FAMILIES


def asked_for(text, job, key, kind):
    """The job with a kind asked for, by a table of its own; options of the old kind that the new one lacks are gone."""
    for number, spec in enumerate(job.joint_specs):
        if set(spec.between) == set(key):
            path = ("joint", number)
            lost = [name for name in spec.options if name not in KINDS[kind].options.model_fields]
            edits = [Edit(action="remove", path=(*path, name)) for name in lost]
            return change_job_text(text, [*edits, Edit(action="set", path=(*path, "kind"), value=kind)])
    return change_job_text(text, [Edit(action="add", path=("joint",), value={"between": list(key), "kind": kind})])


@pytest.mark.parametrize("family", FAMILIES)
@settings(max_examples=10)
@given(drawn=st.data())
def test_every_kind_costs_what_was_told_once_it_is_asked_for(family, drawn):
    text = drawn.draw(FAMILIES[family](), label="text")
    job = read_job_text(text)
    comparing = Comparing(job)
    names = {board.name for board in job.boards}
    meetings = [meeting for meeting in comparing.piece.meetings if names.issuperset(meeting.key)]
    assume(meetings)
    meeting = drawn.draw(st.sampled_from(meetings), label="meeting")
    found = comparing.compare(meeting)
    assert list(lines(found, comparing.voice))
    assert len(data(found, comparing.voice)["kinds"]) == len(KINDS)

    bench = Kept()
    for one in found.kinds:
        _, changed = asked_for(text, job, meeting.key, one.kind)
        book = build(replace(changed if changed is not None else job, text=""), bench=bench)
        joint = book.piece.joint_by_key.get(meeting.key)
        if one.cost is None:
            assert joint is None or joint.kind != one.kind
            continue
        assert joint is not None
        assert (joint.kind, joint.cuts) == (one.kind, one.cost.cuts)
        keys = {cut.key for cut in joint.cuts}
        setups = book.found(SetUps).all
        assert tuple(setup for setup in setups if keys.intersection(setup.cuts)) == one.cost.setups
        kind = KINDS[one.kind]
        assert kind.hardware(joint) == one.cost.hardware
        glue = sum(zone.area_mm2 for zone in kind.glue(joint))
        assert (one.cost.glue_mm2 or 0.0) == glue
