"""Every code of a finding has one owner, who says so, and whoever makes a finding makes it of his own.

An owner is a question, as checks and studies answer them, a kind of joint, or Dryfit itself. What kinds make stands
among the answers to "how boards meet and are joined"; they share what is owned by that question.
"""

import importlib
import pkgutil
from collections import defaultdict
from contextlib import contextmanager
from unittest import mock

import pytest
from hypothesis import given
from hypothesis import strategies as st

import dryfit
from dryfit import findings
from dryfit.asking import Answers
from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text, demos
from dryfit.errors import JobError
from dryfit.findings import CODES, ITSELF, OWNERS, QUESTIONS, Finding, declare, owns
from dryfit.joints import KINDS
from dryfit.piece.choose import JOINTS
from dryfit.piece.settling.locks import LOCKED
from dryfit.studies import STUDIES
from dryfit.web.notes import FIRST_LIGHT, light_of
from tests.fewer import counted
from tests.property.faulty import FAMILIES
from tests.property.wall_layouts import screwed
from tests.strategies import pieces

LEAST_SEEN = 25  # codes, of 82, that a hundred pieces drawn at random make


@pytest.fixture(autouse=True)
def everything():
    """All modules: whatever declares a code has done so."""
    for found in pkgutil.walk_packages(dryfit.__path__, "dryfit."):
        if not found.name.endswith("__main__"):
            importlib.import_module(found.name)


def owned_by(owner):
    return {code for code, by in OWNERS.items() if by == owner}


def test_every_declared_code_has_an_owner_that_somebody_knows():
    assert set(OWNERS) == set(CODES)
    assert set(OWNERS.values()) <= {ITSELF, *QUESTIONS, *KINDS}


def test_every_code_says_why_no_change_is_offered_where_none_is():
    """In words that go on after "no change offered: ", by whoever declares it: `declare(..., uncured="...")`."""
    silent = sorted(word for word, code in CODES.items() if not code.uncured)
    assert not silent, f"declared without uncured: {silent}"
    assert not [code.uncured for code in CODES.values() if code.uncured.endswith(".") or code.uncured == code.means]


def test_kinds_and_studies_own_what_they_list():
    for owner, thing in {**KINDS, **STUDIES}.items():
        assert owned_by(owner) == set(thing.codes), owner


def test_no_name_is_a_question_and_a_kind():
    assert not set(QUESTIONS) & set(KINDS)


def test_a_second_owner_and_a_code_of_nobody_are_refused(monkeypatch):
    monkeypatch.setattr(findings, "CODES", dict(CODES))
    monkeypatch.setattr(findings, "OWNERS", dict(OWNERS))
    declare("never-seen", "It is never seen.")
    assert owns("one", "never-seen") == {"never-seen"}
    with pytest.raises(ValueError, match="belongs to 'one' and to 'another'"):
        owns("another", "never-seen")
    with pytest.raises(ValueError, match="'not-there', which is not declared"):
        owns("one", "not-there")


def test_a_finding_is_looked_at_in_the_light_of_the_study_that_makes_it_or_goes_on_from_it():
    for name, study in STUDIES.items():
        assert {light_of(code) for code in study.codes} <= {name}
    assert OWNERS[LOCKED] == "settling"
    assert light_of(LOCKED) == "order", "settling finds it, and the order goes on from there"
    assert light_of("tips") == FIRST_LIGHT


# ---- whoever makes a finding


@contextmanager
def made_by():
    """Which codes came among the answers to which question."""
    made, add = defaultdict(set), Answers.add

    def listening(self, name, answers):
        told = tuple(answers)
        made[name] |= {one.code for one in told if isinstance(one, Finding)}
        add(self, name, told)

    with mock.patch.object(Answers, "add", listening):
        yield made


def hold_to_their_owners(job):
    """Build a job, and give the codes that were made."""
    with made_by() as made:
        book = build(job)
    for name, codes in made.items():
        shared = set().union(*(kind.codes for kind in KINDS.values())) if name == JOINTS else set()
        assert codes <= owned_by(name) | shared | owned_by(ITSELF), name
    for joint in book.piece.joints:
        codes = {finding.code for finding in joint.findings}
        assert codes <= owned_by(joint.kind) | owned_by(JOINTS), joint.kind
    return set().union(*made.values())


@pytest.mark.parametrize("name", demos())
def test_in_the_demos(name):
    hold_to_their_owners(read_job_text(demo_text(name)))


def faulty():
    """Jobs of faulty pieces; None where a text is no job."""

    def read(text):
        try:
            return read_job_text(text)
        except JobError:
            return None

    return st.one_of(*(family() for family in FAMILIES.values())).map(read)


@pytest.mark.slow
def test_in_pieces_drawn_at_random():
    """Sound ones, faulty ones, and boards screwed to the wall."""
    seen: set[str] = set()

    @given(
        job=st.one_of(pieces().map(lambda drawn: drawn.job), faulty(), faulty(), screwed().map(lambda laid: laid.job()))
    )
    @counted(100)
    def hold(job):
        if job is not None:
            seen.update(hold_to_their_owners(job))

    hold()
    assert len(seen) >= LEAST_SEEN, sorted(seen)
