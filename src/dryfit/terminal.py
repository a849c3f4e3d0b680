"""Warnings as whoever sits at a terminal reads them: a line each, and never so many that the rest is lost."""

import logging
import os
import threading
import time

TRACE = "DRYFIT_TRACE"  # set in the environment of whoever works on Dryfit: tracebacks are shown


class OneLine(logging.Formatter):
    """A warning as whoever sits at the terminal reads it: its sentence; the traceback only where it is asked for."""

    def formatException(self, ei: object) -> str:  # noqa: N802 - logging's own name
        """The traceback, or nothing."""
        return super().formatException(ei) if os.environ.get(TRACE) else ""  # type: ignore[arg-type]


ALIKE, ALIKE_WINDOW = 5, 60.0  # lines of one kind, in so many seconds, that are told one by one
KINDS_OF_LINE = 40  # told apart; all beyond count as one kind


class Sparing(logging.StreamHandler):  # type: ignore[type-arg]
    """Tells a few lines of a kind a minute; more of them are counted, and their number is told after that.

    Lines are of one kind where they come from the same place in the program, whatever names they hold: so whoever
    can cause one cannot fill a terminal, or a disk to which it is written.
    """

    def __init__(self) -> None:
        super().__init__()
        self._kinds: dict[tuple[str, str], tuple[float, int]] = {}

    def emit(self, record: logging.LogRecord) -> None:
        """Tell it, or count it."""
        now, kind = time.monotonic(), (record.name, str(record.msg)[:200])
        if kind not in self._kinds and len(self._kinds) >= KINDS_OF_LINE:
            kind = (record.name, "")
        since, count = self._kinds.get(kind, (now, 0))
        if now - since > ALIKE_WINDOW:
            self._sum_up(kind)
            since, count = now, 0
        self._kinds[kind] = (since, count + 1)
        if count < ALIKE:
            super().emit(record)
        elif count == ALIKE:
            timer = threading.Timer(ALIKE_WINDOW, self._window_over, (kind, since))
            timer.daemon = True
            timer.start()

    def _window_over(self, kind: tuple[str, str], since: float) -> None:
        with self.lock or threading.Lock():
            if self._kinds.get(kind, (0.0, 0))[0] == since:
                self._sum_up(kind)

    def _sum_up(self, kind: tuple[str, str]) -> None:
        """Tell how many were counted only."""
        _, count = self._kinds.pop(kind, (0.0, 0))
        if count > ALIKE:
            says = f"{count - ALIKE} more like it within a minute: {kind[1].splitlines()[0] if kind[1] else 'others'}"
            super().emit(logging.LogRecord(kind[0], logging.WARNING, "", 0, "%s", (says,), None))

    def close(self) -> None:
        """Tell what was counted until now."""
        for kind in [*self._kinds]:
            self._sum_up(kind)
        super().close()


def tell_terminal(log: str) -> logging.Handler:
    """Have a log's warnings told at the terminal from now on, a line each; the handler, to be taken off again."""
    handler = Sparing()
    handler.setFormatter(OneLine())
    logging.getLogger(log).addHandler(handler)
    return handler
