"""Speed of the page's server: its answer to a step of a drag, while the slow work runs beside it.

    python -m bench.page             drag steps on the demo with most joints
    python -m bench.page --memory    also its memory at edits 1,000 and 5,000: some minutes

The board with most joints is dragged; each step is one POST of what a hand does and one answer with the
drawing's difference, joints and live findings, over a kept connection on this machine. The slow studies are started
again and again meanwhile (see `page_busy`). Times are the client's, sending and reading included.
"""

import http.client
import itertools
import json
import random
import re
import statistics
import subprocess
import sys
import tempfile
import time
from collections import Counter
from pathlib import Path
from urllib.parse import urlsplit

from bench.page_busy import Client, SlowWork, machine
from dryfit.book.demos import demo_text

DEMO = "record-wall"
STEPS, WARM = 400, 20
AIM_P95 = 20.0  # ms


class Server:
    """`dryfit open` as a process of its own, with a browser let in."""

    def __init__(self, folder: Path) -> None:
        job = folder / f"{DEMO}.toml"
        job.write_text(demo_text(DEMO), encoding="utf-8")
        command = [sys.executable, "-m", "dryfit", "open", str(job), "--no-browser", "--port", "0"]
        self.process = subprocess.Popen(command, stdout=subprocess.PIPE, text=True)
        assert self.process.stdout is not None
        link = next(found[0] for line in self.process.stdout if (found := re.search(r"http\S+token=\S+", line)))
        parts = urlsplit(link)
        self.address = parts.netloc
        door = http.client.HTTPConnection(parts.netloc)
        door.request("GET", f"/?{parts.query}")
        answer = door.getresponse()
        self.cookie = str(answer.getheader("set-cookie")).partition(";")[0]
        answer.read()

    def client(self) -> Client:
        """Another connection of the same browser."""
        return Client(self.address, self.cookie)

    def memory_mb(self) -> float:
        """Resident memory of the server without its worker; 0 where the system does not tell."""
        try:
            text = Path(f"/proc/{self.process.pid}/status").read_text(encoding="utf-8")
        except OSError:
            return 0.0
        found = re.search(r"VmRSS:\s+(\d+) kB", text)
        return int(found[1]) / 1024 if found else 0.0

    def stop(self) -> None:
        """End it as Ctrl-C does."""
        self.process.terminate()
        self.process.wait(10)


def busiest(client: Client) -> tuple[str, int]:
    """The board with most joints, and how many."""
    state = json.loads(client.ask("GET", "/api/state")[0])
    counted = Counter(name for joint in state["drawing"]["joints"] for name in joint["boards"])
    return counted.most_common(1)[0]


def drag(client: Client, board: str, choice: str, steps: int) -> tuple[list[float], list[int]]:
    """Times in ms and bytes of the answers of that many steps."""
    revision = json.loads(client.ask("GET", "/api/state")[0])["revision"]
    target = {"what": "boards", "boards": [board]}
    times, sizes = [], []
    for step in range(steps + WARM):
        by = [0.0, round(-20 + 40 * step / (steps + WARM), 1)]
        sent = {"base_revision": revision, "doing": {"do": "drag", "target": target, "by": by, "choice": choice}}
        began = time.perf_counter()
        data, out = client.ask("POST", "/api/preview", sent)
        if step >= WARM:
            times.append((time.perf_counter() - began) * 1000)
            sizes.append(len(data) + out)
    return times, sizes


def percentile(values: list[float], share: float) -> float:
    """The value that so many are not above."""
    return sorted(values)[min(len(values) - 1, int(share * len(values)))]


def memory(server: Server, client: Client) -> None:
    """Edit after edit, each to a place of its own within 60 mm, and what the server holds."""
    numbers, draw, at = itertools.count(1), random.Random(1), 0.0
    revision = json.loads(client.ask("GET", "/api/state")[0])["revision"]
    began = time.perf_counter()
    for edit in range(1, 5001):
        to = round(draw.uniform(-60, 60), 1)
        by, at = round(to - at, 1) or 0.1, to
        drag_by = {"do": "drag", "target": {"what": "boards", "boards": ["raking 1"]}, "by": [by, 0]}
        sent = {"base_revision": revision, "operation_id": f"bench-{next(numbers):08d}", "doing": drag_by}
        revision = json.loads(client.ask("POST", "/api/edit", sent)[0])["state"]["revision"]
        if edit in (100, 1000, 2000, 3000, 4000, 5000):
            each = (time.perf_counter() - began) / edit * 1000
            print(f"  edit {edit:5}: {server.memory_mb():6.1f} MB resident, {each:5.1f} ms an edit so far")


def main(arguments: list[str]) -> int:
    """Measure and print."""
    with tempfile.TemporaryDirectory() as folder:
        server = Server(Path(folder))
        try:
            client = server.client()
            board, joints = busiest(client)
            print(f"{DEMO}: dragging {board}, {joints} joints, {STEPS} steps")
            with SlowWork(server.client(), server.process.pid) as slow:
                for choice, what in (("", "its whole row"), ("only this one", "it alone")):
                    times, sizes = drag(client, board, choice, STEPS)
                    p95 = percentile(times, 0.95)
                    mark = "" if p95 <= AIM_P95 else f"  over its aim of {AIM_P95:.0f}"
                    print(
                        f"  {what:14} p50 {statistics.median(times):6.1f} ms   p95 {p95:6.1f} ms{mark}"
                        f"   {statistics.median(sizes) / 1000:.1f} kB a step"
                    )
                print(f"  {machine()}")
            print(f"  {slow.said()}")
            if "--memory" in arguments:
                memory(server, client)
        finally:
            server.stop()
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
