"""The slow work of an open page, made to run without end while something else is measured.

A study whose value has not changed is not worked out again, so its worker is ended as soon as it has answered: the
next one starts cold, and works out solids, clashes, the order of assembly and the glue-up anew. What is measured
beside it is never alone with the machine, and the share of the time in which it was not is counted.
"""

import http.client
import json
import os
import signal
import threading
import time
from contextlib import suppress
from pathlib import Path
from types import TracebackType

LOOK_EVERY = 0.1  # seconds
PAPER = "book.json"  # holds every study's result, and takes next to nothing to write


class Client:
    """A browser as far as the server can tell, on one kept connection."""

    def __init__(self, address: str, cookie: str) -> None:
        self.link = http.client.HTTPConnection(address)
        self.headers = {"Cookie": cookie, "Origin": f"http://{address}", "Content-Type": "application/json"}

    def ask(self, method: str, path: str, sent: object = None) -> tuple[bytes, int]:
        """An answer's body and the bytes that were sent for it."""
        body = None if sent is None else json.dumps(sent).encode()
        self.link.request(method, path, body, self.headers)
        answer = self.link.getresponse()
        data = answer.read()
        assert answer.status == 200, data[:300]
        return data, len(body or b"")


class SlowWork:
    """Keeps a server's worker at its studies: `with SlowWork(client, pid) as slow: ...`."""

    def __init__(self, client: Client, server: int) -> None:
        self.client, self.server = client, server
        self.runs, self.busy, self.whole = 0, 0.0, 0.0
        self._over = threading.Event()
        self._failed: BaseException | None = None
        self._thread = threading.Thread(target=self._keep)

    def __enter__(self) -> "SlowWork":
        """Begin, and wait until it runs."""
        self._thread.start()
        time.sleep(3 * LOOK_EVERY)
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, at: TracebackType | None) -> None:
        """End it."""
        self._over.set()
        self._thread.join()
        if self._failed is not None and kind is None:
            raise self._failed

    def said(self) -> str:
        """How much of the time it ran."""
        return f"slow studies restarted {self.runs} times, at work {self.busy / max(self.whole, 1e-9):.0%} of the time"

    def _keep(self) -> None:
        try:
            self._keep_on()
        except BaseException as failed:  # a measure without the slow work would be a false one: raised at the end
            self._failed = failed

    def _keep_on(self) -> None:
        began = time.perf_counter()
        while not self._over.is_set():
            self.client.ask("POST", "/api/papers", {"names": [PAPER]})
            self.runs += 1
            asked = time.perf_counter()
            while not self._over.is_set() and self._working():
                time.sleep(LOOK_EVERY)
            self.busy += time.perf_counter() - asked
            for worker in workers(self.server):
                with suppress(ProcessLookupError):
                    os.kill(worker, signal.SIGKILL)
        self.whole = time.perf_counter() - began

    def _working(self) -> bool:
        return json.loads(self.client.ask("GET", "/api/papers")[0])["task"] is not None


def machine() -> str:
    """How much of a core a busy process gets just now: far below all of it, the figures are of another machine."""
    wall, own = time.perf_counter(), time.process_time()
    sum(number * number for number in range(4_000_000))
    share = (time.process_time() - own) / (time.perf_counter() - wall)
    return f"a busy process gets {share:.0%} of a core here just now"


def workers(server: int) -> list[int]:
    """The worker processes of a server, as Linux lists them."""
    found = []
    for place in Path("/proc").glob("[0-9]*"):
        try:
            parent = int((place / "stat").read_text(encoding="utf-8").rpartition(")")[2].split()[1])
            if parent == server and b"spawn_main" in (place / "cmdline").read_bytes():
                found.append(int(place.name))
        except OSError:  # it has ended meanwhile
            continue
    return found
