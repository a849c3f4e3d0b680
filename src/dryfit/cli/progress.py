"""How far a book is, told from the first second: at a terminal on one line that is written over, else a line a paper.

It goes to the error output, so that what is found can be read by itself.
"""

import sys
import time
from contextlib import suppress
from pathlib import Path

from .telling import say

SAY_EVERY = 0.05  # seconds between two states of the line
WIDE = 78


class Progress:
    """Tells of the work on a book while it goes on; to be used in a `with`, at whose end the line is wiped.

    It imports nothing heavy: it speaks before the rest of the program is even there. Where nobody can hear it, because
    the error output is shut or full, the work goes on.

    Attributes:
        lacking: papers that cannot be made on this machine, and why.
    """

    def __init__(self) -> None:
        self._live = sys.stderr.isatty()
        self._last = 0.0
        self._sheets: dict[str, int] = {}
        self.lacking: dict[str, str] = {}

    def __enter__(self) -> "Progress":
        """Begin."""
        return self

    def __exit__(self, *_: object) -> None:
        """Wipe the line."""
        self.wipe()

    def wipe(self) -> None:
        """Make room for a line that stays."""
        self._show("", now=True)

    def begun(self, job: Path) -> None:
        """The job is being read, and the piece set out."""
        self._show(f"reading {job.name} and setting it out", now=True)

    def step(self, done: float, what: str) -> None:
        """A study is so far; `done` of all studies, 0 to 1."""
        self._show(f"working out: {what}, {done:.0%}")

    def drawn(self, file: str, number: int, title: str) -> None:
        """A sheet is drawn."""
        self._sheets[file] = number
        self._show(f"{file}: sheet {number}, {title}")

    def made(self, file: str, size: int) -> None:
        """A paper is whole."""
        count = self._sheets.get(file, 0)
        sheets = f", {count} {'sheet' if count == 1 else 'sheets'}" if count else ""
        self._tell(f"{file} is made{sheets} ({size / 1000:,.0f} kB)")

    def left_out(self, file: str, why: str) -> None:
        """A paper cannot be made on this machine: told when all others are there."""
        self.lacking[file] = why

    def healed(self, new: tuple[str, ...], old: tuple[str, ...]) -> None:
        """Papers of two states are gone."""
        were = f"{', '.join(new) or 'none'} new, {', '.join(old) or 'none'} old"
        self._tell(f"An earlier run was stopped and left papers of two states here ({were}): now all are of this one.")

    def _tell(self, text: str) -> None:
        """A line that stays."""
        self.wipe()
        with suppress(OSError, ValueError):
            say(text, to=sys.stderr)

    def _show(self, text: str, *, now: bool = False) -> None:
        """The line that is written over."""
        if not self._live or not (now or time.monotonic() - self._last > SAY_EVERY):
            return
        self._last = time.monotonic()
        with suppress(OSError, ValueError):
            sys.stderr.write(f"\r{text[:WIDE]:{WIDE}}\r{text[:WIDE]}")
            sys.stderr.flush()
