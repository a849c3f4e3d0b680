"""Tells a worker that is stuck from one that is busy.

While it owes something it says a word at each step of its work, every second or so. A step may take minutes and
be honest, so silence alone ends no worker for a long time. Where the system tells (Linux), its processor time and
its state are looked at as well: one that is held (SIGSTOP), or sleeps on something that never comes, is ended soon.

The bounds are common practice, chosen to be far from both sides: the longest honest step known, binding some
hundred sheets, takes about one minute.
"""

from dataclasses import dataclass
from pathlib import Path

TICK = 1.0  # seconds between looks
SAID_AFTER = 3.0  # seconds of standing still after which the page is told
HELD = 10.0  # seconds in which a held worker may be let go on
ASLEEP = 30.0  # seconds it may sleep, with no processor time, over something it owes
LONGEST = 600.0  # seconds one step may take
# Of /proc/PID/stat; in other states it runs, waits for the disk, or is looked at by a debugger.
HELD_STATES, ASLEEP_STATES = "T", "S"


@dataclass(frozen=True, slots=True, kw_only=True)
class ProcessSeen:
    """A process as the system sees it: its state's letter, and its processor time in the system's ticks."""

    state: str
    cpu: int


def seen(process_id: int | None) -> ProcessSeen | None:
    """A process as Linux tells it; None on other systems, and for one that has gone."""
    try:
        text = Path(f"/proc/{process_id}/stat").read_text(encoding="ascii", errors="replace")
        fields = text.rpartition(")")[2].split()  # behind the name, which may hold anything
        return ProcessSeen(state=fields[0], cpu=int(fields[11]) + int(fields[12]))
    except (OSError, IndexError, ValueError):
        return None


class Silence:
    """The silence of one worker.

    Attributes:
        silent: seconds since it last said a word, while it owed something.
        still: of these, the seconds it was seen to do nothing.
    """

    def __init__(self) -> None:
        self.silent = self.still = 0.0
        self._cpu: int | None = None
        self._held = False

    def tick(self, passed: float, *, spoke: bool, now: ProcessSeen | None) -> None:
        """Look once.

        Args:
            passed: seconds since the last look; of a longer pause the server itself was held, or the machine slept.
            spoke: it said something since, or owes nothing.
            now: as the system sees it.
        """
        passed = min(passed, 2 * TICK)
        before, self._cpu = self._cpu, now.cpu if now is not None else None
        if spoke:
            self.silent = self.still = 0.0
            return
        self.silent += passed
        idle = now is not None and now.state in HELD_STATES + ASLEEP_STATES and before in (None, now.cpu)
        self.still = self.still + passed if idle else 0.0
        self._held = now is not None and now.state in HELD_STATES

    @property
    def stands_still(self) -> bool:
        """Whether the page is to be told."""
        return self.still >= SAID_AFTER

    @property
    def given_up(self) -> bool:
        """Whether it is to be ended."""
        return self.still >= (HELD if self._held else ASLEEP) or self.silent >= LONGEST
