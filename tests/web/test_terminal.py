"""What the terminal says where `dryfit open` runs, when something goes wrong in it: sentences, no traceback."""

import http.client
import logging
import os
import re
import signal
import subprocess
import sys
from contextlib import closing
from pathlib import Path
from urllib.parse import urlsplit

import pytest

from dryfit.terminal import TRACE, tell_terminal
from tests.web.served import SHELF

SOURCES = Path(__file__).parents[2] / "src"
FAILING = """
import sys
from dryfit.cli import main
from dryfit.web.service import Service
Service.state = lambda self: 1 / 0
main(["open", sys.argv[1], "--no-browser", "--port", "0"])
"""


def fetched(link, path):
    """The status of an answer to a browser that came by the link."""
    parts = urlsplit(link)
    with closing(http.client.HTTPConnection(parts.netloc)) as door:
        door.request("GET", f"/?{parts.query}")
        answer = door.getresponse()
        cookie = str(answer.getheader("set-cookie")).partition(";")[0]
        answer.read()
        door.request("GET", path, headers={"Cookie": cookie})
        answer = door.getresponse()
        answer.read()
        return answer.status


@pytest.mark.skipif(os.name == "nt", reason="Ctrl-C is sent another way there")
def test_a_fault_of_the_server_is_lines_at_the_terminal(tmp_path):
    job = tmp_path / "shelf.toml"
    job.write_text(SHELF, encoding="utf-8")
    environment = {**os.environ, "PYTHONPATH": str(SOURCES), TRACE: ""}
    process = subprocess.Popen(
        [sys.executable, "-c", FAILING, str(job)],
        env=environment,
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stdout is not None
    link = next(found[0] for line in process.stdout if (found := re.search(r"http\S+token=\S+", line)))
    assert fetched(link, "/api/state") == 500
    process.send_signal(signal.SIGINT)
    _, said = process.communicate(timeout=20)
    assert "a request went wrong: GET /api/state" in said
    assert "Traceback" not in said
    assert "ZeroDivisionError" not in said
    assert process.returncode == 0


@pytest.mark.parametrize(("trace", "rest"), [("", ""), ("1", "RuntimeError: inside\n")])
def test_a_traceback_is_told_only_where_it_is_asked_for(monkeypatch, capsys, trace, rest):
    monkeypatch.setenv(TRACE, trace)
    handler = tell_terminal("dryfit.of.a.test")
    log = logging.getLogger("dryfit.of.a.test")
    log.error("the model could not be made", exc_info=RuntimeError("inside"))
    log.removeHandler(handler)
    assert capsys.readouterr().err == f"the model could not be made\n{rest}"
