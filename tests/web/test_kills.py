"""Killed at any moment, nothing acknowledged is lost, and the file is always whole.

A process changes the shelf again and again and prints the hash of the file once a change is acknowledged. It
is killed at a random instant, or ends itself right after one of the three writes of a change; meanwhile someone
else may write the file. Then the job is opened again.

A board's new name is two files: the job and `NAME.made.toml`, in which the board is pinned. Its save has some hundred
instants, before and behind each word to the disk; ten of them, from a seed, are tried here.

    python -m tests.web.test_kills 100       that many of both kinds, all drawn anew
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

from dryfit.web.store.jobfile import hash_of
from dryfit.web.store.session import Session
from tests.web.killed import NEW, OLD
from tests.web.served import SHELF

ROOT = Path(__file__).parents[2]


MADE = f'dryfit_made = 1\n\n[pinned."{OLD}"]\ndatum = "start"\nface_side = "left"\nmark = "Z"\n'


def changing(job, *moment):
    """A process that changes the job."""
    paths = os.pathsep.join([str(ROOT / "src"), str(ROOT)])
    environment = {**os.environ, "PYTHONPATH": paths}
    command = [sys.executable, "-m", "tests.web.killed", str(job), *moment]
    pipe = subprocess.PIPE
    return subprocess.Popen(command, cwd=ROOT, env=environment, stdin=pipe, stdout=pipe, text=True)


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


def killed_save(process, folder, last):
    """One save killed at an instant: the job, and what was said of it before."""
    folder.mkdir()
    job = folder / "shelf.toml"
    job.write_text(SHELF, encoding="utf-8")
    job.with_name("shelf.made.toml").write_text(MADE, encoding="utf-8")
    process.stdin.write(f"{job} {last}\n")
    process.stdin.flush()
    said = []
    while not said or said[-1] != "over\n":
        said.append(process.stdout.readline())
        assert said[-1], "the forking process has ended"
    return job, "".join(said)


def assert_one_state(job, said):
    """Job, made file and history are all before the new name or all behind it; what was acknowledged is in them."""
    hashes = acknowledged(said)
    session = Session(job)
    behind = f'"{NEW}"' in session.text
    made = job.with_name("shelf.made.toml").read_text(encoding="utf-8")
    assert (f'"{NEW}"' in made, f'"{OLD}"' in made) == (behind, not behind) or session.trouble
    assert not session.trouble, "and nothing had to be said"
    assert behind or len(hashes) < 2
    rows = session.history.newest(99)
    assert {row.hash for row in rows} >= set(hashes)
    assert hash_of(job.read_bytes()) == session.row.hash
    assert session.row.written == 1
    assert session.history.mended == ""
    assert not list(job.parent.glob(".*.part*"))
    session.close()
    return behind


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system does not fork")
def test_kills_at_seeded_instants_of_a_save_leave_one_state(tmp_path):
    with changing("--saves") as process:
        _, said = killed_save(process, tmp_path / "whole", 10**9)
        instants = int(said.split("instants ")[1].split()[0])
        assert instants > 60
        tried = [1, *(n + 1 for n in sorted(drawn(instants - 1, 9, 7)))]
        ends = [assert_one_state(*killed_save(process, tmp_path / f"{n}", n)) for n in tried]
    assert ends == sorted(ends), "from one instant on it is done"
    assert (ends[0], ends[-1]) == (False, True)


def drawn(instants, count, seed=None):
    """That many different instants of a save; all of them where there are no more."""
    return random.Random(seed).sample(range(1, instants + 1), min(count, instants))


@pytest.mark.parametrize(("left", "kept"), [(MADE[:30], False), (MADE, False), (MADE + "# theirs", True)])
def test_what_a_crash_left_of_the_made_file_is_kept_where_it_is_somebody_elses(shelf, left, kept):
    made, beside = shelf.with_name("shelf.made.toml"), shelf.with_name(".shelf.made.toml.abc.part")
    made.write_text(MADE, encoding="utf-8")
    beside.write_text(left, encoding="utf-8")
    Session(shelf).close()
    found = shelf.with_name("shelf.made.found-1.toml")
    assert not beside.exists()
    assert found.exists() is kept
    assert not kept or found.read_text(encoding="utf-8") == left


def test_kills_at_random_times_lose_nothing_acknowledged(shelf):
    draw = random.Random(11)
    total = 0
    for _ in range(2):
        hashes, session = kill_and_open(shelf, draw)
        assert_nothing_lost(shelf, hashes, session)
        total += len(hashes)
        session.close()
    assert total >= 2, "it was killed at work"


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
    """Kill that many times at random times, one after the other on the same job; then at instants of a save."""
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
        print(f"{count} kills at random times, {total} changes acknowledged, none lost", flush=True)
    if not hasattr(os, "fork"):
        return
    with tempfile.TemporaryDirectory() as folder, changing("--saves") as process:
        _, said = killed_save(process, Path(folder) / "whole", 10**9)
        instants = int(said.split("instants ")[1].split()[0])
        tried = drawn(instants, count)
        ends = [assert_one_state(*killed_save(process, Path(folder) / f"{n}", n)) for n in tried]
        process.stdin.close()
        process.wait(20)
    print(
        f"{len(tried)} kills at instants of a save (of {instants}), {sum(ends)} of them behind its end, no mixed state"
    )


if __name__ == "__main__":
    many(int(sys.argv[1]) if len(sys.argv) > 1 else 100)
