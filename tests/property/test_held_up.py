"""Every board reaches the floor or a fixing, or it is said: sound pieces, their twins with one fault, and the cures.

The scenes of `held_pieces`: of each kind of joint what it carries dry, fastened and glued. The sound twin has no
finding of what holds boards up; the fault brings exactly its own; a change that is offered, made as the page makes it,
ends the finding and brings no stop.
"""

import pytest
from hypothesis import given, note, settings
from hypothesis import strategies as st

from dryfit.book import build, change_job_text, read_job_text
from dryfit.piece import holding

from .held_pieces import SCENES

CODES = holding.CODES


def findings_of(text):
    return build(read_job_text(text), paces=()).piece.findings


def told(text, usual=frozenset()):
    return [finding for finding in findings_of(text) if finding.code in CODES - usual]


def stops(found):
    return {
        (finding.code, finding.where.boards, finding.where.joint) for finding in found if finding.severity == "stop"
    }


@pytest.mark.parametrize("name", SCENES)
@settings(max_examples=12)
@given(data=st.data())
def test_a_fault_is_told_and_nothing_is_told_of_the_sound_twin(name, data):
    scene = data.draw(SCENES[name]())
    note(scene.faulty)
    sound = findings_of(scene.sound)
    assert [str(finding.says) for finding in sound if finding.code in CODES - scene.usual] == []
    assert stops(sound) == set()

    faults = told(scene.faulty, scene.usual)
    assert {(one.code, next(iter(one.where.boards), "")) for one in faults} == scene.expected
    assert len(faults) == len(scene.expected), "each is said once"
    assert all(one.remedy for one in faults)


@pytest.mark.parametrize("name", SCENES)
@settings(max_examples=8)
@given(data=st.data())
def test_a_cure_ends_what_it_is_offered_for_and_brings_no_stop(name, data):
    scene = data.draw(SCENES[name]())
    note(scene.faulty)
    before = findings_of(scene.faulty)
    cured = [(fault, cure) for fault in told(scene.faulty, scene.usual) for cure in fault.cures]
    assert bool(cured) == scene.cured

    for fault, cure in cured:
        after = findings_of(change_job_text(scene.faulty, cure.edits)[0])
        same = [one for one in after if (one.code, one.where) == (fault.code, fault.where)]
        assert same == [], cure.label
        assert stops(after) <= stops(before), cure.label
