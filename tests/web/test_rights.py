"""Nothing that the page writes beside a job is more open than the job is, or than the user's mask lets it be.

A job for its user alone (0600) has a history for its user alone, whatever the mask; a job that all may read (0644)
has none that all may read where the mask is 077.
"""

import contextlib
import os
import shutil
import stat
from pathlib import Path

import pytest

from dryfit.editing import requests
from dryfit.web.store import jobfile
from dryfit.web.store.history import history_path
from dryfit.web.store.session import Session
from tests.web.served import SHELF, operation
from tests.web.test_history import change

pytestmark = pytest.mark.skipif(os.name == "nt", reason="rights are kept another way there")
MADE = 'dryfit_made = 1\n\n[pinned."shelf"]\ndatum = "start"\nface_side = "left"\nmark = "Z"\n'


@contextlib.contextmanager
def mask(value):
    before = os.umask(value)
    yield
    os.umask(before)


def mode(path):
    return stat.S_IMODE(path.stat().st_mode)


@pytest.fixture
def job(tmp_path):
    path = tmp_path / "shelf.toml"
    path.write_text(SHELF, encoding="utf-8")
    return path


def rename(session):
    doing = {"do": "typed", "card": {"board": "shelf"}, "key": ["name"], "entry": "low shelf"}
    sent = requests.Change(operation_id=operation(), base_revision=session.revision, doing=doing)
    session.change(sent)


@pytest.mark.parametrize(
    ("of_job", "umask", "expected"),
    [(0o600, 0o022, 0o600), (0o644, 0o077, 0o600), (0o644, 0o022, 0o644), (0o660, 0o002, 0o660), (0o664, 0o027, 0o640)],
    ids=lambda value: f"{value:o}",
)
def test_what_is_written_beside_a_job_is_as_open_as_the_job_and_the_mask_both_let_it_be(job, of_job, umask, expected):
    job.chmod(of_job)
    beside = {}

    def look(moment):
        beside.update({path.name: mode(path) for path in job.parent.iterdir() if path != job})

    with mask(umask):
        session = Session(job, pause=look)
        change(session)
        look("")
        assert mode(job) == of_job, "the job's own rights are its user's choice"
        session.close()
    assert "shelf.history.sqlite3-journal" in beside, "the side file of a write was seen"
    assert set(beside.values()) == {expected}


def test_a_file_that_is_exchanged_is_never_more_open_on_its_way(job, monkeypatch):
    seen = []
    real = os.fsync

    def watched(handle):
        found = os.fstat(handle)
        seen.append(stat.S_IMODE(found.st_mode) if stat.S_ISREG(found.st_mode) else 0)
        real(handle)

    job.chmod(0o640)
    monkeypatch.setattr(jobfile.os, "fsync", watched)
    session = Session(job)
    change(session)
    session.close()
    assert seen
    assert not [one for one in seen if one & ~0o640]
    assert mode(job) == 0o640


def test_a_made_file_keeps_its_rights_and_a_new_one_takes_the_jobs(job):
    made = job.with_name("shelf.made.toml")
    made.write_text(MADE, encoding="utf-8")
    made.chmod(0o640)
    job.chmod(0o600)
    session = Session(job)
    rename(session)
    assert "low shelf" in made.read_text(encoding="utf-8")
    assert mode(made) == 0o640
    made.unlink()
    session.made_file.write(MADE.encode(), "")
    assert mode(made) == 0o640, "as it was when it was last seen"
    fresh = jobfile.JobFile(job.with_name("other.made.toml"), like=job)
    with mask(0o022):
        fresh.write(MADE.encode(), "")
    assert mode(fresh.path) == 0o600
    session.close()


def test_a_job_that_was_taken_away_comes_back_with_its_rights(job):
    job.chmod(0o600)
    with mask(0o022):
        session = Session(job)
        job.unlink()
        change(session)
        session.close()
    assert mode(job) == 0o600


def test_a_history_that_was_left_open_is_closed_to_those_who_may_not_read_the_job(job):
    with mask(0o022):
        Session(job).close()
        assert mode(history_path(job)) == 0o644
        job.chmod(0o600)
        Session(job).close()
    assert mode(history_path(job)) == 0o600


def test_a_damaged_history_and_the_new_one_are_as_closed_as_it_was(job):
    job.chmod(0o600)
    with mask(0o022):
        session = Session(job)
        change(session)
        session.close()
        path = history_path(job)
        path.write_bytes(path.read_bytes()[:5000])
        session = Session(job)
        assert session.history.mended
        session.close()
    found = {one.name: mode(one) for one in job.parent.glob("*.sqlite3")}
    assert len(found) == 2
    assert set(found.values()) == {0o600}


@pytest.mark.skipif(not hasattr(os, "geteuid") or os.geteuid() != 0, reason="only root gives files to others")
def test_a_job_of_another_owner_and_group_stays_theirs(job):
    os.chown(job, 12345, 54321)
    job.chmod(0o640)
    session = Session(job)
    change(session)
    session.close()
    found = job.stat()
    assert (found.st_uid, found.st_gid, mode(job)) == (12345, 54321, 0o640)


def test_a_group_that_cannot_be_kept_is_given_nothing_of_another(job, monkeypatch):
    """The file goes to the user's own group then, which the job was not shared with."""
    others = os.stat_result([*job.stat()[:5], job.stat().st_gid + 1, *job.stat()[6:]])
    monkeypatch.setattr(jobfile.os, "chown", lambda *_: (_ for _ in ()).throw(PermissionError()))
    beside = Path(shutil.copy(job, job.with_name("beside")))
    others = os.stat_result([0o100660, *others[1:]])
    jobfile._let_as(beside, others)
    assert mode(beside) == 0o600
