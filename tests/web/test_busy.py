"""A busy machine: many windows at once, the worker killed under them, the file changed outside, threads switched often.

The whole server runs here, in a thread of its own, with small sleeps put where threads and processes meet, and
the interpreter changes threads a thousand times more often than it does by itself. Four windows drag, type while
they drag, take back, look at cards, ask for the model and for papers. Whatever they ask is answered in words:
done, refused as stale, or not ready; afterwards page, file and a cold build agree.
"""

import http.client
import json
import random
import socket
import sys
import threading
import time

import pytest
import uvicorn

from dryfit.book import build, read_job_text
from dryfit.book.demos import demo_text
from dryfit.editing import drawn
from dryfit.web.server.safety import Door, own_hosts
from dryfit.web.server.server import create_app
from dryfit.web.worker.worker import Worker
from tests.web.served import moved, operation

WINDOWS, SECONDS, MANY = 4, 60.0, 140  # watched until so many answers have come, but no longer than that
OFTEN = 5e-6  # seconds a thread may keep the interpreter; 5e-3 by itself
ANSWERS = frozenset({200, 404, 409, 422})


class Served:
    """The server in a thread, on a port of its own."""

    def __init__(self, job):
        self.socket = socket.create_server(("127.0.0.1", 0))
        self.port = self.socket.getsockname()[1]
        self.door = Door(own_hosts("127.0.0.1", self.port), self.port)
        self.app = create_app(job, door=self.door)
        self.server = uvicorn.Server(uvicorn.Config(self.app, log_level="critical", ws="none"))
        self.thread = threading.Thread(target=self.server.run, kwargs={"sockets": [self.socket]})

    def __enter__(self):
        self.thread.start()
        while not self.server.started:
            time.sleep(0.01)
        return self

    def __exit__(self, *_):
        self.server.should_exit = True
        self.thread.join(20)
        self.socket.close()

    @property
    def service(self):
        return self.app.state.service


class Browser:
    """A window with a connection of its own."""

    def __init__(self, served):
        self.link = http.client.HTTPConnection("127.0.0.1", served.port, timeout=60)
        self.link.request("GET", f"/?token={served.door.token}")
        answer = self.link.getresponse()
        answer.read()
        home = f"http://127.0.0.1:{served.port}"
        cookie = str(answer.getheader("set-cookie")).partition(";")[0]
        self.headers = {"Cookie": cookie, "Origin": home, "Content-Type": "application/json"}

    def ask(self, method, path, sent=None):
        self.link.request(method, f"/api/{path}", None if sent is None else json.dumps(sent), self.headers)
        answer = self.link.getresponse()
        return answer.status, answer.read()

    def state(self):
        status, data = self.ask("GET", "state")
        assert status == 200, data
        return json.loads(data)

    def revision(self):
        return self.state()["revision"]

    def close(self):
        self.link.close()


def a_hand(window, seed, until, answers):
    """Drags and types without end, on what it last knew of the job."""
    draw = random.Random(seed)
    base = window.revision()
    while time.monotonic() < until and len(answers) < MANY:
        board = draw.choice(["raking 1", "raking 2", "shelf 2", "stopped divider"])
        target = {"what": "boards", "boards": [board]}
        told = [window.ask("POST", "drag", {"base_revision": base, "target": target})]
        steps = [{"base_revision": base, "doing": moved(board, typed, 0)} for typed in (3.0, 37.0, 37.5)]
        told += [window.ask("POST", "preview", step) for step in steps]  # "37.5", letter by letter
        sent = {"base_revision": base, "operation_id": operation(), "doing": moved(board, draw.randint(-9, 9), 0)}
        told.append(window.ask("POST", "edit", sent))
        told.append(window.ask("POST", "undo", {"base_revision": base + 1, "operation_id": operation()}))
        told.append(window.ask("GET", f"card?board={board.replace(' ', '%20')}"))
        told.append(window.ask("GET", draw.choice(["study/order", "papers", "model", "history", "schema"])))
        if draw.random() < 0.2:
            told.append(window.ask("POST", "papers", {"names": ["parts.csv"]}))
            told.append(window.ask("DELETE", "papers/1"))
        answers += [(status, data[:300]) for status, data in told]
        base = window.revision()


def a_sleeper(real, seed, most):
    """The same, now and then a little later."""
    draw = random.Random(seed)

    def late(*given, **named):
        if draw.random() < 0.3:
            time.sleep(draw.random() * most)
        return real(*given, **named)

    return late


def trouble(served, job, until, answers):
    """Kills the worker, and writes into the file from outside."""
    draw = random.Random(0)
    while time.monotonic() < until and len(answers) < MANY:
        time.sleep(0.3 + draw.random() * 0.7)
        process = served.service.worker._process
        if draw.random() < 0.7 and process is not None:
            process.kill()
        else:
            job.write_text(job.read_text(encoding="utf-8") + "# outside\n", encoding="utf-8")


@pytest.fixture
def hurried(monkeypatch):
    """Threads switched often, and sleeps where they meet."""
    monkeypatch.setattr(Worker, "_heard", a_sleeper(Worker._heard, 1, 0.004))
    monkeypatch.setattr(Worker, "_listen", a_sleeper(Worker._listen, 2, 0.004))
    monkeypatch.setattr(drawn, "piece_of", a_sleeper(drawn.piece_of, 3, 0.004))
    before = sys.getswitchinterval()
    sys.setswitchinterval(OFTEN)
    yield
    sys.setswitchinterval(before)


@pytest.mark.slow
def test_many_windows_on_a_busy_machine_are_all_answered_in_words(job, hurried):
    job.write_text(demo_text("record-wall"), encoding="utf-8")
    answers = []
    with Served(job) as served:
        windows = [Browser(served) for _ in range(WINDOWS)]
        until = time.monotonic() + SECONDS
        hands = [(window, seed, until, answers) for seed, window in enumerate(windows)]
        threads = [threading.Thread(target=a_hand, args=given) for given in hands]
        threads.append(threading.Thread(target=trouble, args=(served, job, until, answers)))
        for thread in threads:
            thread.start()
        for thread in threads:
            thread.join()
        assert not [found for found in answers if found[0] not in ANSWERS]
        assert len(answers) > 100
        assert {200, 409} <= {status for status, _ in answers}, "some were overtaken"
        at_rest(windows[0], job)
        for window in windows:
            window.close()


def at_rest(window, job):
    """Once all hands are off, the slow work follows the last change, and everything agrees."""
    board = moved("raking 1", 1, 0)
    window.ask("POST", "edit", {"base_revision": window.revision(), "operation_id": operation(), "doing": board})
    end = time.monotonic() + 60
    while time.monotonic() < end:
        state = window.state()
        if state["rest"]["revision"] == state["revision"] and not state["rest"]["running"]:
            break
        time.sleep(0.1)
    text = job.read_text(encoding="utf-8")
    assert state["text"] == text
    found = build(read_job_text(text, job.name)).findings
    assert [(note["code"], note["says"]) for note in state["notes"]] == [(f.code, str(f.says)) for f in found]
