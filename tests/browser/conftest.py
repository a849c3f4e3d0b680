"""The page driven in Debian's chromium, against a real server on a copy of a demo.

Each test that changes something has a job file and a server of its own; those that only look share them.

Without chromium these tests are skipped in plain words; where `CI` is set they fail, so that nothing is left out
unnoticed. After every test the console must be clean: no warning, no error, nothing refused by the content policy.
"""

import os
import re
import shutil
import signal
import subprocess
import sys
import time
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from pathlib import Path
from typing import Any

import pytest
from playwright.sync_api import sync_playwright

from dryfit.book.demos import demo_text
from tests.browser.ready import POSSIBLE, Forked
from tests.web.served import OWN_FAULT
from tools.build import system_node, write_types

ROOT = Path(__file__).parents[2]
START = "import sys; from dryfit.cli import main; {}sys.exit(main(sys.argv[1:]))"
SERVES = "from pathlib import Path; from dryfit.web.server import server; server.STATIC = Path({!r}); "
LINK = re.compile(r"http://\S+\?token=\S+")
FLAGS = (
    "--no-sandbox", "--disable-quic", "--no-first-run", "--disable-background-networking",
    "--disable-component-update", "--disable-sync",
    # All drawing in software: the sheet by the processor itself, the model by a graphics card that is only computed.
    "--use-gl=angle", "--use-angle=swiftshader", "--enable-unsafe-swiftshader", "--disable-gpu-rasterization",
)  # fmt: skip
LONGEST_START = 20.0  # seconds
DESK = {"width": 1440, "height": 900}


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if Path(__file__).parent in item.path.parents:
            item.add_marker("browser")


@pytest.fixture(scope="session")
def npm() -> str:
    """How npm is called, the page's packages being there."""
    if system_node() is None:
        words = "no Node of at least 20.19 with npm on this machine"
        pytest.fail(words) if os.environ.get("CI") == "true" else pytest.skip(words)
    found = shutil.which("npm") or "npm"
    write_types()  # of the program as it is now, and npm's packages where they are not there
    return found


@pytest.fixture(scope="session")
def chromium() -> str:
    """Where chromium is."""
    path = shutil.which("chromium") or shutil.which("chromium-browser") or shutil.which("google-chrome")
    if path is None:
        words = "no chromium on this machine: `apt-get install chromium`, or leave these out with `test --fast`"
        pytest.fail(words) if os.environ.get("CI") == "true" else pytest.skip(words)
    assert path is not None
    return path


@pytest.fixture(scope="session")
def browser(chromium: str) -> Iterator[Any]:
    """The system's chromium, drawing WebGL in software."""
    with sync_playwright() as playwright:
        started = playwright.chromium.launch(executable_path=chromium, args=list(FLAGS), headless=True)
        yield started
        started.close()


@dataclass
class Server:
    """A server of one job file; what it prints goes into a file beside it.

    `static`: of another page than ours; `source`: of another program.
    """

    job: Path
    static: Path | None = None
    source: Path = ROOT / "src"
    process: subprocess.Popen[bytes] | Forked | None = None
    link: str = ""

    def start(self) -> None:
        log = self.job.parent / "server.log"
        env = {**os.environ, "PYTHONPATH": str(self.source), "PYTHONUNBUFFERED": "1", "DRYFIT_TRACE": "1"}
        log.write_bytes(b"")
        if POSSIBLE and self.source == ROOT / "src":
            self.process = Forked(self.job, self.static, log, env)
        else:
            self.process = self._from_nothing(log, env)
        until = time.monotonic() + LONGEST_START
        while time.monotonic() < until and self.process.poll() is None:
            found = LINK.search(log.read_text(encoding="utf-8"))
            if found:
                self.link = found[0]
                return
            time.sleep(0.05)
        raise AssertionError("the server did not start:\n" + log.read_text(encoding="utf-8"))

    def _from_nothing(self, log: Path, env: dict[str, str]) -> subprocess.Popen[bytes]:
        start = START.format(SERVES.format(str(self.static)) if self.static else "")
        command = [sys.executable, "-c", start, "open", str(self.job), "--port", "0", "--no-browser"]
        with log.open("wb") as out:
            return subprocess.Popen(command, stdout=out, stderr=out, env=env, start_new_session=True)

    def newest_link(self) -> str:
        """Each is good once; with the one that was used the next is printed."""
        return LINK.findall((self.job.parent / "server.log").read_text(encoding="utf-8"))[-1]

    def faults(self) -> str:
        """What the server wrote of faults of its own; "" where there were none."""
        said = (self.job.parent / "server.log").read_text(encoding="utf-8")
        return said if "Traceback" in said or OWN_FAULT in said else ""

    def kill(self) -> None:
        """As a power cut would: no word of warning, nor to its worker."""
        if self.process is not None:
            os.killpg(self.process.pid, signal.SIGKILL)
            self.process.wait()

    def stop(self) -> None:
        if self.process is not None and self.process.poll() is None:
            self.process.send_signal(signal.SIGINT)
            try:
                self.process.wait(timeout=5)
            except subprocess.TimeoutExpired:
                self.kill()


@dataclass
class Opened:
    """A page looking at a job."""

    page: Any
    server: Server
    console: list[str]

    @property
    def job(self) -> Path:
        return self.server.job

    def state(self) -> dict[str, Any]:
        """What the server says of the job now."""
        found: dict[str, Any] = self.page.evaluate("() => fetch('/api/state').then((answer) => answer.json())")
        return found

    def board(self, name: str) -> dict[str, Any]:
        return next(board for board in self.state()["drawing"]["boards"] if board["name"] == name)

    def choose(self, name: str) -> None:
        self.page.locator("text.name", has_text=re.compile(f"^{re.escape(name)}$")).first.click()
        self.page.get_by_role("heading", name=name, exact=True).wait_for()

    def settled(self, revision: int) -> None:
        """Wait until the page shows this revision or a later one."""
        shown = "(least) => Number(document.documentElement.dataset.revision) >= least"
        self.page.wait_for_function(shown, arg=revision)


def begun(folder: Path, text: str, static: Path | None = None, source: Path = ROOT / "src") -> Server:
    """A server of a demo, or of a text, with a folder of its own."""
    folder.mkdir()
    job = folder / "wall.toml"
    job.write_text(text if "\n" in text else demo_text(text), encoding="utf-8")
    return Server(job, static, source)


def window(browser: Any, server: Server, size: dict[str, int], context: dict[str, Any]) -> Opened:
    """A page of its own, let in by the newest link."""
    page = browser.new_context(viewport=size, **context).new_page()
    page.set_default_timeout(10_000)
    console: list[str] = []
    page.on("console", lambda message: console.append(f"{message.type}: {message.text}"))
    page.on("pageerror", lambda error: console.append(f"page error: {error}"))
    page.goto(server.newest_link())
    page.wait_for_selector("html[data-revision]", timeout=10_000)
    return Opened(page, server, console)


@pytest.fixture
def open_job(tmp_path: Path, browser: Any) -> Iterator[Callable[..., Opened]]:
    """Opens a demo, or a text, in a window of its own, behind a server of its own."""
    servers: list[Server] = []
    pages: list[Opened] = []

    def opening(
        text: str = "record-wall",
        *,
        size: dict[str, int] = DESK,
        static: Path | None = None,
        source: Path = ROOT / "src",
        **context: Any,
    ) -> Opened:
        server = begun(tmp_path / f"job-{len(servers)}", text, static, source)
        servers.append(server)
        server.start()
        opened = window(browser, server, size, context)
        pages.append(opened)
        return opened

    yield opening
    faults = [line for opened in pages for line in opened.console]
    for opened in pages:
        opened.page.context.close()
    for server in servers:
        server.stop()
    said = [server.faults() for server in servers]
    assert not faults, (faults, said)
    assert not any(said), said


@pytest.fixture(scope="session")
def looked_at(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Callable[[str], Server]]:
    """The server of a demo, or of a text, started once for all tests that only look."""
    servers: dict[str, Server] = {}

    def running(text: str) -> Server:
        if text not in servers:
            servers[text] = begun(tmp_path_factory.mktemp("looked at") / "job", text)
            servers[text].start()
        return servers[text]

    yield running
    for server in servers.values():
        server.stop()


@pytest.fixture
def look_at(looked_at: Callable[[str], Server], browser: Any) -> Iterator[Callable[..., Opened]]:
    """Opens a demo, or a text, in a window of its own, to look at it: the file must stay as it is."""
    pages: list[tuple[Opened, bytes]] = []

    def opening(text: str = "record-wall", *, size: dict[str, int] = DESK, **context: Any) -> Opened:
        server = looked_at(text)
        pages.append((window(browser, server, size, context), server.job.read_bytes()))
        return pages[-1][0]

    yield opening
    for opened, before in pages:
        opened.page.context.close()
        assert not opened.console, (opened.console, opened.server.faults())
        assert not opened.server.faults(), opened.server.faults()
        assert opened.job.read_bytes() == before, "who only looks changes nothing; `open_job` is for others"
