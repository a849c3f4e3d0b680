"""The last resort: a fault of Dryfit's own, told in a sentence with the file to report and no traceback."""

import argparse
import logging
import os
from collections.abc import Iterator
from contextlib import contextmanager

from ..errors import JobError, Mistake, fault_in_words
from ..terminal import TRACE, tell_terminal
from .telling import unusable


def failed(fault: Exception, given: argparse.Namespace) -> int:
    """Tell of a fault and return the exit code."""
    job = getattr(given, "job", None) or getattr(given, "file", None)
    file = str(job) if job else f"dryfit {given.command}"
    mistake = Mistake(
        file=file,
        line=0,
        says=f"a fault in Dryfit stopped it ({fault_in_words(fault)})",
        remedy=f"nothing more was done: please report this, with the job file; {TRACE}=1 in the environment shows more",
    )
    return unusable(JobError((mistake,)), as_json=getattr(given, "json", False))


@contextmanager
def warnings_told() -> Iterator[None]:
    """While a command runs, what is logged as a warning is told to whoever sits at the terminal."""
    log, before = logging.getLogger("dryfit"), logging.getLogger("dryfit").level
    log.setLevel(logging.DEBUG if os.environ.get(TRACE) else logging.WARNING)
    handler = tell_terminal("dryfit")
    try:
        yield
    finally:
        log.removeHandler(handler)
        log.setLevel(before)
