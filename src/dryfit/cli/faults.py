"""The last resort: a fault of Dryfit's own, told in a sentence with the file to report and no traceback."""

import argparse
import logging
import os
import sys
from collections.abc import Iterator
from contextlib import contextmanager

from ..errors import JobError, Mistake, fault_in_words
from .telling import say, unusable

TRACE = "DRYFIT_TRACE"  # set in the environment of whoever works on Dryfit: tracebacks are shown


def failed(fault: Exception, given: argparse.Namespace) -> int:
    """Tell of a fault and return the exit code."""
    job = getattr(given, "job", None) or getattr(given, "file", None)
    file = str(job) if job else f"dryfit {given.command}"
    mistake = Mistake(
        file=file,
        line=0,
        says=f"Dryfit came upon a fault of its own and could not go on ({fault_in_words(fault)})",
        remedy=f"nothing more was done: please report this together with it; {TRACE}=1 in the environment shows more",
    )
    return unusable(JobError((mistake,)), as_json=getattr(given, "json", False))


class _Told(logging.Handler):
    """Prints what the rooms below have to warn of: one line, the traceback only where it is asked for."""

    def emit(self, record: logging.LogRecord) -> None:
        """One warning."""
        if not os.environ.get(TRACE):
            record = logging.makeLogRecord({**record.__dict__, "exc_info": None, "exc_text": None})
        say(self.format(record), to=sys.stderr)


@contextmanager
def warnings_told() -> Iterator[None]:
    """While a command runs, what is logged as a warning is told to whoever sits at the terminal."""
    log, handler, before = logging.getLogger("dryfit"), _Told(), logging.getLogger("dryfit").level
    log.setLevel(logging.DEBUG if os.environ.get(TRACE) else logging.WARNING)
    log.addHandler(handler)
    try:
        yield
    finally:
        log.removeHandler(handler)
        log.setLevel(before)
