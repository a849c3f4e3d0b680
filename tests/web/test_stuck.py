"""A worker that is held, killed, asleep, or never reads: the hand is not held up, and nothing is passed over.

The job is the demo of a record wall, whose text is some kilobytes, so that a pipe of 64 kB is full after a dozen
changes. Where a test shortens the bounds of the watch, it says so; the sums with the real ones are at the end.
"""

import contextlib
import itertools
import os
import signal
import threading
import time
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from dryfit.book.demos import demo_text
from dryfit.piece.setout import NOTHING_MADE
from dryfit.web.worker import watch, worker
from dryfit.web.worker.messages import BookAsked, CallOff, ModelAsked, PapersOfText, TextAsked
from dryfit.web.worker.outbox import Outbox
from dryfit.web.worker.watch import ASLEEP, HELD, LONGEST, TICK, ProcessSeen, Silence
from tests.web import workers
from tests.web.served import HOME, PORT, Window, moved
from tests.web.test_worker import rested, until

EDITS = 40
held_processes = pytest.mark.skipif(not hasattr(signal, "SIGSTOP"), reason="this system cannot hold a process")
told_by_linux = pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="this system tells no state")


@contextlib.contextmanager
def opened(folder):
    path = folder / "wall.toml"
    path.write_text(demo_text("record-wall"), encoding="utf-8")
    window = Window(path)
    with window.client:
        yield window


@pytest.fixture
def wall(tmp_path):
    with opened(tmp_path) as window:
        yield window


@pytest.fixture
def hasty(monkeypatch):
    """A watch that looks five times a second and gives up after a second."""
    for name, value in {"TICK": 0.2, "SAID_AFTER": 0.4, "HELD": 1.0, "ASLEEP": 1.0}.items():
        monkeypatch.setattr(watch, name, value)


def state_of(process):
    return Path(f"/proc/{process}/stat").read_text().rpartition(")")[2].split()[0]


def edits(window, count):
    """That many small changes, to and fro, each answered."""
    for n in range(count):
        window.do(**moved("raking 1", 1 if n % 2 else -1, 0)).raise_for_status()


# ---- held


@held_processes
@told_by_linux
def test_forty_edits_are_answered_while_the_worker_is_held_for_five_seconds(wall):
    rested(wall)
    process = wall.app.state.service.worker.process_id
    os.kill(process, signal.SIGSTOP)
    began = time.monotonic()
    try:
        before = wall.state()["rest"]["revision"]
        edits(wall, EDITS)
        wall.preview(**moved("raking 1", 5, 0)).raise_for_status()
        wall.post("papers", names=["parts.csv"]).raise_for_status()
        state = wall.state()
        assert state_of(process) == "T", "all of it was answered before the worker went on"
        assert state["rest"]["running"], "it is on its way, and said to be"
        assert state["rest"]["revision"] == before != state["drawn"]
        time.sleep(max(0.0, began + 5.0 - time.monotonic()))
    finally:
        os.kill(process, signal.SIGCONT)
    assert rested(wall)["rest"]["revision"] == wall.revision(), "the latest text wins"
    assert wall.app.state.service.worker.process_id == process, "it was held for a moment, not stuck"


@held_processes
@told_by_linux
def test_a_worker_that_stays_held_is_said_and_started_anew(wall, hasty):
    rested(wall)
    old = wall.app.state.service.worker.process_id
    with wall.client.websocket_connect(f"ws://127.0.0.1:{PORT}/api/live", headers={"Origin": HOME}) as socket:
        os.kill(old, signal.SIGSTOP)
        wall.do(**moved("raking 1", 2, 0)).raise_for_status()
        said = []
        while not (said and said[-1]["kind"] == "rest" and said[-1]["says"] == ""):
            said.append(socket.receive_json())
    words = [live["says"] for live in said if live["kind"] == "rest"]
    assert "is not answering" in words[0]
    assert "started again" in words[1]
    with pytest.raises(ProcessLookupError):
        os.kill(old, 0)
    assert rested(wall)["rest"]["revision"] == wall.revision()
    assert wall.state()["rest"]["says"] == ""


@told_by_linux
def test_a_worker_that_sleeps_over_its_work_is_started_anew_and_then_given_up_in_words(tmp_path, hasty, monkeypatch):
    monkeypatch.setattr(worker, "serve", workers.falls_asleep)
    with opened(tmp_path) as window:
        state = until(lambda: (found := window.state()) and not found["rest"]["running"] and found)
        assert "not checked" in state["rest"]["says"]
        assert state["rest"]["revision"] is None
        assert "not checked" in window.client.get("/api/study/order").json()["why"]


# ---- killed


def test_killed_twice_it_is_not_looked_at_and_said_so_until_the_next_change(wall):
    rested(wall)
    service = wall.app.state.service
    service.worker._process.kill()
    until(lambda: service.worker.process_id is None)
    wall.do(do="typed", card={}, key=["timber", "oak24", "thickness"], entry="27").raise_for_status()
    for _ in range(2):
        process = until(lambda: service.worker._process)
        assert wall.state()["rest"]["running"]
        process.kill()
        until(lambda process=process: service.worker._process is not process)
    state = until(lambda: (found := wall.state()) and not found["rest"]["running"] and found)
    assert state["rest"]["revision"] != state["drawn"]
    assert "not checked" in state["rest"]["says"]
    wall.step("undo").raise_for_status()
    assert rested(wall)["rest"]["says"] == ""


def test_between_a_change_and_its_slow_work_there_is_no_moment_of_quiet(wall):
    rested(wall)
    for _ in range(5):
        changed = wall.do(**moved("raking 1", 1, 0)).raise_for_status().json()
        assert changed["state"]["rest"]["running"]


# ---- one that never reads


def test_a_worker_that_never_reads_holds_nobody_up_and_fills_no_memory(tmp_path, monkeypatch):
    """Sixty changes and twenty sets of papers, a third of a megabyte: what waits for it stays one text and one set."""
    monkeypatch.setattr(worker, "serve", workers.never_reads)
    with opened(tmp_path) as window:
        service = window.app.state.service
        for _ in range(20):
            edits(window, 3)
            window.post("papers", names=["parts.csv"]).raise_for_status()
            service.slow.ask()
        assert window.state()["rest"]["running"]
        waiting = service.worker._life.outbox
        assert len([order for order in waiting._orders if isinstance(order, PapersOfText)]) <= 1
        assert len(waiting._orders) < 20
        task = window.client.get("/api/papers").json()["task"]
        assert window.client.delete(f"/api/papers/{task}").json()["task"] in (None, task)
        process = service.worker._process
    until(lambda: not process.is_alive(), 10.0)


def test_models_that_never_come_are_refused_before_they_are_many(tmp_path, monkeypatch):
    monkeypatch.setattr(worker, "serve", workers.never_reads)
    monkeypatch.setattr(worker, "MODEL_WAIT", 2.0)
    with opened(tmp_path) as window:
        answers = []
        threads = [threading.Thread(target=lambda: answers.append(window.client.get("/api/model"))) for _ in range(40)]
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        says = {answer.json()["error"]["says"] for answer in answers}
        assert {answer.status_code for answer in answers} == {409}
        assert says == {"the model did not come", "the model was asked for too often"}
        assert not window.app.state.service.worker._life.outbox._orders, "what nobody waits for is not sent"


def asked(revision):
    return TextAsked(revision=revision, text="", file="", made=NOTHING_MADE)


@given(st.lists(st.sampled_from(["book", "papers", "model", "call off", "withdraw", "take"]), max_size=60))
def test_the_latest_text_wins_and_all_else_keeps_its_order(deeds):
    """Against a plain list that nobody has to bound."""
    outbox, expected, latest, numbers = Outbox(), [], None, itertools.count(1)
    for deed in deeds:
        number = next(numbers)
        match deed:
            case "book":
                latest = BookAsked(job=asked(number))
                outbox.put_book(latest)
            case "papers":
                expected.append(PapersOfText(task=number, job=asked(number), writers=()))
                outbox.put(expected[-1])
            case "model":
                expected.append(ModelAsked(number=number, job=asked(number), have=()))
                outbox.put(expected[-1])
            case "call off":
                outbox.put(CallOff(task=0))
                expected += [CallOff(task=0)] if CallOff(task=0) not in expected else []
            case "withdraw":
                papers = [order for order in expected if isinstance(order, PapersOfText)]
                assert outbox.withdraw(task=papers[0].task if papers else -1) == bool(papers)
                expected = [order for order in expected if order not in papers[:1]]
            case "take" if expected:
                assert outbox.take() == expected.pop(0)
            case "take" if latest is not None:
                assert outbox.take() == latest
                latest = None
    assert outbox.owed(10**6) == bool(expected or latest)
    outbox.end()
    assert outbox.take() is None


# ---- stuck or busy


@told_by_linux
def test_an_honest_long_step_survives_a_watch_that_would_end_a_sleeper(tmp_path, hasty, monkeypatch):
    """The step takes four times as long as this watch lets a worker sleep."""
    monkeypatch.setattr(worker, "serve", workers.one_long_step)
    with opened(tmp_path) as window:
        process = until(lambda: window.app.state.service.worker.process_id)
        state = rested(window)
        assert state["rest"]["says"] == ""
        assert window.client.get("/api/study/busy").json()["result"] == 1
        assert window.app.state.service.worker.process_id == process


def watched(seconds, states, passed=TICK):
    """A watch over a worker that owes something and is seen in these states, one a look; whether it is given up."""
    over_it, cpu, given_up = Silence(), 0, False
    for _, (state, work) in zip(range(int(seconds / passed)), itertools.cycle(states), strict=False):
        cpu += work
        over_it.tick(passed, spoke=False, now=None if state is None else ProcessSeen(state=state, cpu=cpu))
        given_up = given_up or over_it.given_up
    return given_up


@pytest.mark.parametrize(
    ("states", "lives", "ends"),
    [
        ([("T", 0)], HELD - 1, HELD),
        ([("S", 0)], ASLEEP - 1, ASLEEP),
        ([("R", 90)], LONGEST - 1, LONGEST),
        ([("S", 5)], LONGEST - 1, LONGEST),
        ([("R", 0)], LONGEST - 1, LONGEST),
        ([("D", 0)], LONGEST - 1, LONGEST),
        ([("S", 0)] * 20 + [("R", 1)], LONGEST - 1, LONGEST),
        ([(None, 0)], LONGEST - 1, LONGEST),
    ],
    ids=["held", "asleep", "busy", "threads", "no turn yet", "disk", "now and then", "no word of the system"],
)
def test_what_is_stuck_is_ended_soon_and_what_is_busy_is_given_ten_minutes(states, lives, ends):
    assert not watched(lives, states)
    assert watched(ends + 1, states)


def test_a_night_in_which_the_machine_slept_counts_as_a_moment():
    over_it = Silence()
    over_it.tick(8 * 3600.0, spoke=False, now=ProcessSeen(state="S", cpu=1))
    assert not over_it.given_up
    over_it.tick(TICK, spoke=True, now=ProcessSeen(state="S", cpu=1))
    assert over_it.silent == over_it.still == 0.0
