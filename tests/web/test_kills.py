"""Killed at any moment, nothing acknowledged is lost, and the file is always whole.

A process changes the shelf again and again and prints the hash of the file once a change is acknowledged. It
is killed at a random instant, or ends itself right after one of the three writes of a change; meanwhile someone
else may write the file. Then the job is opened again.

    python -m tests.web.test_kills 100       that many kills at random instants
"""

import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

import pytest

from dryfit.web.jobfile import hash_of
from dryfit.web.session import Session
from tests.web.served import SHELF

ROOT = Path(__file__).parents[2]


def changing(job, *moment):
    """A process that changes the job."""
    paths = os.pathsep.join([str(ROOT / "src"), str(ROOT)])
    environment = {**os.environ, "PYTHONPATH": paths}
    command = [sys.executable, "-m", "tests.web.killed", str(job), *moment]
    return subprocess.Popen(command, cwd=ROOT, env=environment, stdout=subprocess.PIPE, text=True)


def acknowledged(said):
    """Hashes of the acknowledged changes, in order; a line that was cut short is none."""
    return [line.split()[1] for line in said.split("\n")[:-1] if len(line.split()) == 2 and len(line.split()[1]) == 64]


def kill_and_open(job, draw):
    """Kill at a random instant after some changes; what was acknowledged, and the session opened again."""
    process = changing(job)
    assert process.stdout.readline() == "open\n"
    said = [process.stdout.readline() for _ in range(draw.randint(1, 12))]
    time.sleep(draw.uniform(0.0, 0.03))
    process.send_signal(signal.SIGKILL)
    rest, _ = process.communicate()
    return acknowledged("".join(said) + rest), Session(job)


def assert_nothing_lost(job, hashes, session):
    """All that was acknowledged is in the history, in order; the file is the last of it, or one change further."""
    rows = session.history.newest(100_000)[::-1]
    edits = [row.hash for row in rows if row.kind == "edit"]
    assert edits[-len(hashes) - 1 : -1] == hashes or edits[-len(hashes) :] == hashes or not hashes
    now = hash_of(job.read_bytes())
    assert now == session.row.hash == rows[-1].hash
    if hashes:
        assert now in (hashes[-1], edits[-1])
    assert session.row.written == 1
    assert not session.mistakes
    assert not list(job.parent.glob(".*.part")), "nothing is left lying about"


@pytest.fixture
def shelf(tmp_path):
    path = tmp_path / "shelf.toml"
    path.write_text(SHELF, encoding="utf-8")
    return path


def test_kills_at_random_instants_lose_nothing_acknowledged(shelf):
    draw = random.Random(11)
    total = 0
    for _ in range(5):
        hashes, session = kill_and_open(shelf, draw)
        assert_nothing_lost(shelf, hashes, session)
        total += len(hashes)
        session.close()
    assert total >= 5, "it was killed at work"


@pytest.mark.parametrize("moment", ["row", "file", "mark"])
def test_a_kill_between_the_writes_of_a_change_leaves_it_whole(shelf, moment):
    process = changing(shelf, moment, "3")
    said, _ = process.communicate(timeout=60)
    assert process.returncode == 9
    session = Session(shelf)
    assert_nothing_lost(shelf, acknowledged(said), session)
    assert len([row for row in session.history.newest(99) if row.kind == "edit"]) == 3, "the third is finished"
    session.close()


@pytest.mark.parametrize("moment", ["row", "file", "mark"])
def test_an_outside_change_after_the_kill_is_kept_whatever_was_unfinished(shelf, moment):
    process = changing(shelf, moment, "3")
    said, _ = process.communicate(timeout=60)
    outside = SHELF.replace("# demo", "# from outside").encode()
    shelf.write_bytes(outside)
    session = Session(shelf)
    assert shelf.read_bytes() == outside
    assert session.row.kind == "outside"
    kept = {row.hash for row in session.history.newest(99)}
    assert set(acknowledged(said)) <= kept
    session.close()


def test_a_file_put_back_after_the_kill_is_told_apart_from_the_crash(shelf):
    process = changing(shelf, "mark", "3")
    process.communicate(timeout=60)
    shelf.write_text(SHELF, encoding="utf-8")
    session = Session(shelf)
    assert session.row.says == "put back outside, to version 1"
    session.close()


def test_what_somebody_writes_at_the_same_time_is_never_written_over_unseen(shelf):
    """A text of theirs that the page wrote over had been taken into the history before."""
    process = changing(shelf)
    assert process.stdout.readline() == "open\n"
    replaced, beside = [], shelf.with_suffix(".new")
    draw = random.Random(3)
    for n in range(1500):  # as many as it takes: on a busy machine the other gets its turn seldom
        if len(replaced) > 8:
            break
        text = SHELF.replace("# demo", f"# outside {n}").encode()
        beside.write_bytes(text)
        os.replace(beside, shelf)
        time.sleep(draw.uniform(0.0, 0.05))
        if shelf.read_bytes() != text:
            replaced.append((n, hash_of(text)))
    process.kill()
    process.communicate()
    session = Session(shelf)
    kept = {row.hash for row in session.history.newest(10_000)}
    session.close()
    assert len(replaced) > 8, "the two did write over each other"
    assert [n for n, digest in replaced if digest not in kept] == []


def many(count):
    """Kill that many times, one after the other on the same job."""
    draw = random.Random()
    with tempfile.TemporaryDirectory() as folder:
        job = Path(folder) / "shelf.toml"
        job.write_text(SHELF, encoding="utf-8")
        total = 0
        for _ in range(count):
            hashes, session = kill_and_open(job, draw)
            assert_nothing_lost(job, hashes, session)
            total += len(hashes)
            session.close()
        print(f"{count} kills, {total} changes acknowledged, none lost")


if __name__ == "__main__":
    many(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
