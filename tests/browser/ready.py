"""Servers that stand ready: what a server and its worker import is imported once, and each forks from there.

Starting Python and importing all of Dryfit twice over took three quarters of the processor's time of a test that has a
server of its own. The server is a process of its own all the same, with its own worker, files and port; the first
worker is forked with it, before it has a thread or a socket, and one that has to be started again is started as for a
maker. How a server is started from the command line, and its worker from nothing, is held by `tests/web`.
"""

import multiprocessing
import os
import signal
import subprocess
import sys
from collections.abc import Callable
from contextlib import closing
from io import BytesIO
from multiprocessing.connection import Connection
from pathlib import Path
from typing import Any

IMPORTED = ["dryfit.cli.working", "dryfit.web.server.server", "dryfit.web.worker.bench", "uvicorn.lifespan.on",
            "uvicorn.loops.auto", "uvicorn.protocols.http.auto", "uvicorn.protocols.websockets.auto"]  # fmt: skip
POSSIBLE = "forkserver" in multiprocessing.get_all_start_methods()


class Forked:
    """A server that was forked, asked as a `subprocess.Popen` is."""

    def __init__(self, job: Path, static: Path | None, log: Path, env: dict[str, str]) -> None:
        context = multiprocessing.get_context("forkserver")
        context.set_forkserver_preload(IMPORTED)
        self._process = context.Process(target=_serve, args=(str(job), static, str(log), env))
        self._process.start()
        assert self._process.pid is not None
        self.pid: int = self._process.pid

    def poll(self) -> int | None:
        """How it ended; None while it runs."""
        return self._process.exitcode

    def wait(self, timeout: float | None = None) -> int:
        """How it ended, once it has.

        Raises:
            subprocess.TimeoutExpired: it runs still.
        """
        self._process.join(timeout)
        if self._process.exitcode is None:
            raise subprocess.TimeoutExpired(str(self.pid), timeout or 0.0)
        return self._process.exitcode

    def send_signal(self, number: signal.Signals) -> None:
        """As from a terminal."""
        os.kill(self.pid, number)


def _serve(job: str, static: Path | None, log: str, env: dict[str, str]) -> None:
    """The life of a server, in a process group of its own; what it prints goes into the log."""
    from dryfit.cli import main
    from dryfit.web.server import server
    from dryfit.web.worker import worker

    os.setsid()
    out = os.open(log, os.O_WRONLY | os.O_CREAT | os.O_TRUNC)
    for number in (1, 2):
        os.dup2(out, number)
    for stream in (sys.stdout, sys.stderr):
        stream.reconfigure(write_through=True)  # type: ignore[union-attr]
    os.environ.clear()
    os.environ.update(env)
    server.STATIC = static or server.STATIC
    worker.multiprocessing = _FirstAtHand()  # type: ignore[attr-defined, assignment]
    sys.exit(main(["open", job, "--port", "0", "--no-browser"]))


class _FirstAtHand:
    """Stands for `multiprocessing` in a server: its first worker is there already, any other is started as ever."""

    def __init__(self) -> None:
        forking = multiprocessing.get_context("fork")
        self._ours, theirs = forking.Pipe()
        self._process = forking.Process(target=_work, args=(self._ours, theirs), daemon=True, name="dryfit worker")
        self._process.start()
        theirs.close()
        self._taken = False

    def get_context(self, method: str) -> Any:
        """Itself, the first time."""
        context, self._taken = multiprocessing.get_context(method) if self._taken else self, True
        return context

    def Pipe(self) -> tuple[Connection, BytesIO]:  # noqa: N802 - as multiprocessing calls it
        """Our end of the pipe to it; the other is with it."""
        return self._ours, BytesIO()

    def Process(self, *, args: tuple[Any, ...], **_: Any) -> Any:  # noqa: N802 - as multiprocessing calls it
        """The process, which begins once it is told of the shop."""
        begin: Callable[[], None] = lambda: self._ours.send(args[1])  # noqa: E731
        self._process.start = begin  # type: ignore[method-assign]
        return self._process


def _work(ours: Connection, theirs: Connection) -> None:
    """The life of a worker, from when it is wanted."""
    from dryfit.web.worker.bench import serve

    ours.close()
    with closing(theirs):
        try:
            shop = theirs.recv()
        except EOFError:  # its server has gone, and never wanted it
            return
        serve(theirs, shop)
