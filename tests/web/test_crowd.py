"""A crowd at the door: half-open and slow connections, wrong passwords, causes of log lines. The owner is still served.

The server runs whole, as `dryfit open` runs it, on a port of its own.
"""

import contextlib
import logging
import os
import re
import signal
import socket
import stat
import subprocess
import sys
import textwrap
import threading
import time
from pathlib import Path
from urllib.parse import urlsplit

import pytest
import uvicorn
from websockets.sync.client import connect

from dryfit import terminal
from dryfit.editing.refusals import Refused
from dryfit.terminal import ALIKE, tell_terminal
from dryfit.web.server import connections
from dryfit.web.server.connections import MOST
from dryfit.web.server.safety import MOST_CALLERS, TRIES, TRY_WINDOW, Door, caller
from dryfit.web.server.server import config_of
from tests.web.served import SHELF, moved, operation
from tests.web.test_busy import Browser, Served
from tests.web.test_worker import until

CROWD = 300
SOURCES = Path(__file__).parents[2] / "src"


class AsOpened(Served):
    """The server as `dryfit open` runs it."""

    def __init__(self, job):
        super().__init__(job)
        self.server = uvicorn.Server(config_of(self.app))
        self.thread = threading.Thread(target=self.server.run, kwargs={"sockets": [self.socket]})


@pytest.fixture(scope="module")
def served(tmp_path_factory):
    job = tmp_path_factory.mktemp("shelf") / "shelf.toml"
    job.write_text(SHELF, encoding="utf-8")
    with AsOpened(job) as here:
        yield here


def edit(window):
    sent = {"base_revision": window.revision(), "operation_id": operation(), "doing": moved("shelf", 0, 3)}
    return window.ask("POST", "edit", sent)[0]


def half_open(served, said):
    link = socket.create_connection(("127.0.0.1", served.port), timeout=30)
    link.sendall(said)
    return link


def is_closed(link):
    link.setblocking(False)
    try:
        return link.recv(65536) == b""
    except BlockingIOError:
        return False
    except ConnectionError:
        return True


@pytest.mark.parametrize("said", [b"", b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\nX-"], ids=["nothing", "half a head"])
def test_three_hundred_half_open_connections_keep_nobody_out(served, said):
    window = Browser(served)
    socket_of_page = connect(
        f"ws://127.0.0.1:{served.port}/api/live",
        additional_headers={"Cookie": window.headers["Cookie"], "Origin": window.headers["Origin"]},
    )
    with socket_of_page as heard, contextlib.ExitStack() as crowd:
        assert '"hello"' in heard.recv(10)
        links = [crowd.enter_context(half_open(served, said)) for _ in range(CROWD)]
        until(lambda: len(served.server.server_state.connections) <= MOST, 10.0)
        newcomer = Browser(served)
        assert edit(newcomer) == 200
        until(lambda: '"changed"' in heard.recv(10), 10.0)  # the open window was not dropped for the crowd
        until(lambda: sum(map(is_closed, links)) >= CROWD - MOST, 10.0)
        newcomer.close()
    window.close()


@pytest.mark.parametrize(
    "said",
    [
        b"GET / HTTP/1.1\r\nX-Slow: ",
        b"POST /login HTTP/1.1\r\nHost: 127.0.0.1\r\nContent-Length: 900000\r\n\r\n",
    ],
    ids=["head", "body"],
)
def test_who_says_it_letter_by_letter_is_not_waited_for(served, monkeypatch, said):
    monkeypatch.setattr(connections, "HEAD_WAIT", 0.6)
    monkeypatch.setattr(connections, "BODY_WAIT", 0.6)
    with half_open(served, said) as link:
        began = time.monotonic()
        while not is_closed(link) and time.monotonic() - began < 20.0:
            with contextlib.suppress(ConnectionError, BlockingIOError):
                link.sendall(b"x")
            time.sleep(0.05)
        assert time.monotonic() - began < 20.0


def test_a_second_request_on_a_kept_connection_has_its_deadline_too(served, monkeypatch):
    monkeypatch.setattr(connections, "HEAD_WAIT", 0.6)
    whole = b"GET / HTTP/1.1\r\nHost: 127.0.0.1\r\n\r\n"
    with half_open(served, whole) as link:
        link.settimeout(10.0)
        assert link.recv(65536).startswith(b"HTTP/1.1 421")
        link.sendall(b"GET / HT")
        until(lambda: is_closed(link), 20.0)


def test_a_kept_connection_and_an_upload_in_time_are_left_alone(served, monkeypatch):
    monkeypatch.setattr(connections, "HEAD_WAIT", 1.0)
    window = Browser(served)
    for _ in range(4):
        assert edit(window) == 200
        time.sleep(0.4)
    window.close()


# ---- wrong passwords


@pytest.fixture
def door():
    return Door((), 1, anywhere=True, password="right")


def wrong(door, address, now=0.0, times=TRIES):
    for _ in range(times):
        assert not door.try_password("wrong", address, now)


def test_a_stranger_who_guesses_does_not_lock_the_owner_out(door):
    wrong(door, "10.0.0.66")
    with pytest.raises(Refused) as refused:
        door.try_password("right", "10.0.0.66", 1.0)
    assert refused.value.status == 429
    assert door.try_password("right", "10.0.0.7", 1.0)
    assert door.try_password("right", "10.0.0.66", TRY_WINDOW + 1.0)


def test_waiting_addresses_are_remembered_in_a_table_of_fixed_size(door):
    for n in range(3 * MOST_CALLERS):
        wrong(door, f"10.0.{n // 256}.{n % 256}", times=1)
    assert len(door._tries) == MOST_CALLERS
    assert all(len(tries) <= TRIES for tries in door._tries.values())


@pytest.mark.parametrize(
    ("one", "other", "same"),
    [
        ("10.0.0.1", "10.0.0.2", False),
        ("2001:db8:1:2::1", "2001:db8:1:2:ffff::9", True),
        ("2001:db8:1:2::1", "2001:db8:1:3::1", False),
        ("::ffff:10.0.0.1", "10.0.0.1", True),
        ("::ffff:10.0.0.1", "::ffff:10.0.0.2", False),
        ("fe80::1%eth0", "fe80::2%eth0", False),
        ("::1", "::2", False),
    ],
)
def test_an_address_counts_by_itself_and_of_ipv6_by_its_network(one, other, same):
    """2001:db8::/32 is for documentation (RFC 3849); a host chooses its addresses in 64 bits (RFC 4291, 2.5.4)."""
    assert (caller(one) == caller(other)) is same


def test_the_owner_at_his_own_machine_counts_by_himself_among_his_neighbours():
    assert caller("2001:db8::5", own="2001:db8::5") != caller("2001:db8::66", own="2001:db8::5")


def test_the_server_counts_who_is_connected_and_not_who_he_says_he_is(served):
    served.app.state.door.password = "right"

    def tried(as_if):
        body = b"password=wrong"
        head = f"POST /login HTTP/1.1\r\nHost: 127.0.0.1:{served.port}\r\nOrigin: http://127.0.0.1:{served.port}\r\n"
        head += f"X-Forwarded-For: {as_if}\r\nConnection: close\r\nContent-Length: {len(body)}\r\n"
        with half_open(
            served, head.encode() + b"Content-Type: application/x-www-form-urlencoded\r\n\r\n" + body
        ) as link:
            return int(link.recv(65536).split()[1])

    assert [tried(f"10.0.0.{n}") for n in range(TRIES + 1)] == [401] * TRIES + [429]


# ---- the first link

A_BROWSER = textwrap.dedent("""\
    import glob, http.client, os, re, stat, sys, urllib.parse
    path = urllib.parse.unquote(urllib.parse.urlsplit(sys.argv[1]).path)
    text = open(path, encoding="utf-8").read()
    link = re.search(r"url=([^\\"]+)", text)[1]
    said = [f"mode {stat.S_IMODE(os.stat(path).st_mode):o}", f"file {path}", f"link {link}"]
    for place in glob.glob("/proc/[0-9]*/cmdline"):
        try:
            said.append("runs " + open(place, "rb").read().replace(b"\\0", b" ").decode("utf-8", "replace"))
        except OSError:
            pass
    parts = urllib.parse.urlsplit(link)
    door = http.client.HTTPConnection(parts.netloc)
    door.request("GET", f"/?{parts.query}", headers={"Sec-Fetch-Site": "cross-site"})
    answer = door.getresponse()
    said += [f"status {answer.status}", f"cookie {answer.getheader('set-cookie')}", answer.read().decode()]
    open(sys.argv[2], "w", encoding="utf-8").write("\\n".join(said))
""")


@pytest.mark.skipif(not Path("/proc/self/cmdline").exists(), reason="this system shows no arguments in files")
def test_the_first_link_stands_in_no_processs_arguments(tmp_path):
    """A browser of our own looks at everything that runs, and comes in by the file it was given."""
    job, browser, said = tmp_path / "shelf.toml", tmp_path / "browser.py", tmp_path / "said"
    job.write_text(SHELF, encoding="utf-8")
    browser.write_text(A_BROWSER, encoding="utf-8")
    environment = {
        **os.environ,
        "PYTHONPATH": str(SOURCES),
        "HOME": str(tmp_path),
        "BROWSER": f"{sys.executable} {browser} %s {said} &",
    }
    command = [sys.executable, "-m", "dryfit", "open", str(job), "--port", "0"]
    process = subprocess.Popen(command, env=environment, stdout=subprocess.PIPE, text=True)
    printed = next(found[0] for line in process.stdout if (found := re.search(r"http\S+token=\S+", line)))
    until(said.exists, 30.0)
    lines = until(lambda: said.read_text(encoding="utf-8")).splitlines()
    process.send_signal(signal.SIGINT)
    process.communicate(timeout=20)
    token = urlsplit(printed).query
    assert f"link {printed}" in lines, "it is the link that is printed too"
    assert not [line for line in lines if line.startswith("runs ") and token in line]
    assert any(line.startswith("runs ") and "browser.py" in line for line in lines), "it did look"
    assert "mode 600" in lines
    assert "status 200" in lines, "a redirect would lose the strict cookie on a way from elsewhere"
    assert any('http-equiv="refresh" content="0;url=/"' in line for line in lines)
    file = next(line.removeprefix("file ") for line in lines if line.startswith("file "))
    assert not Path(file).exists(), "it was used"


# ---- lines at the terminal


@contextlib.contextmanager
def told(name="dryfit.of.a.crowd"):
    """A log told at the terminal; made in the test itself, since a handler keeps the stream that it found."""
    handler = tell_terminal(name)
    yield logging.getLogger(name)
    logging.getLogger(name).removeHandler(handler)
    handler.close()


def lines_of(capsys):
    return capsys.readouterr().err.splitlines()


def test_a_thousand_lines_alike_are_a_few_and_a_number(capsys):
    with told() as log:
        for n in range(1000):
            log.warning("a request went wrong: %s", f"/page/{n}")
        log.warning("the disk is full")
    lines = lines_of(capsys)
    assert len(lines) == ALIKE + 2
    assert "the disk is full" in lines, "another kind of line is told whatever was counted"
    assert f"{1000 - ALIKE} more like it within a minute: a request went wrong: %s" in lines


def test_the_number_is_told_when_the_minute_is_over(capsys, monkeypatch):
    monkeypatch.setattr(terminal, "ALIKE_WINDOW", 0.2)
    said = []
    with told() as log:
        for _ in range(ALIKE + 7):
            log.warning("again")
        until(lambda: said.extend(lines_of(capsys)) or "7 more like it within a minute: again" in said, 10.0)
        log.warning("again")
    assert lines_of(capsys) == ["again"]


def test_lines_of_ever_new_kinds_are_bounded_too(capsys):
    with told() as log:
        for n in range(5000):
            log.warning(f"kind {n}")
    lines = lines_of(capsys)
    assert len(lines) == terminal.KINDS_OF_LINE + ALIKE + 1
    assert lines[-1] == f"{5000 - terminal.KINDS_OF_LINE - ALIKE} more like it within a minute: others"


def test_nonsense_sent_a_hundred_times_is_a_few_lines(served, capsys):
    with told("uvicorn"):
        for _ in range(100):
            with half_open(served, b"\x00\x01nonsense\r\n\r\n") as link:
                link.recv(100)
    assert 1 <= len(lines_of(capsys)) <= ALIKE + 1


def test_the_file_for_the_browser_is_readable_by_its_user_alone(tmp_path, monkeypatch):
    from dryfit.web.server import invitation

    seen = []
    monkeypatch.setenv("HOME", str(tmp_path))
    monkeypatch.setattr(invitation.webbrowser, "open", lambda address: seen.append(address) or False)
    made = invitation.Invitation('http://127.0.0.1:1/?token=a"b')
    file = invitation._written(made.link)
    assert stat.S_IMODE(file.stat().st_mode) == 0o600
    assert "a&quot;b" in file.read_text(encoding="utf-8")
    file.unlink()
    made.send()
    assert seen[0].startswith("file:")
    assert not list(tmp_path.glob("*.html")), "no browser took it"
