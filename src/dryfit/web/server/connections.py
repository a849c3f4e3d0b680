"""Connections: who connects must say what he wants in time, and nobody can take all the room there is.

    head      a request's head must be whole soon after its first moment, however many letters of it trickle in
    body      its body soon after that
    room      of too many connections one that owes us something is dropped, of whoever holds most: the oldest

A browser holds six at most and opens another where one was dropped, so the page goes on being answered whatever
else connects. What is being answered, and the sockets of open windows, are never dropped for others.
"""

import asyncio
import time
from collections import Counter
from typing import Any

from uvicorn.protocols.http.h11_impl import H11Protocol

from .safety import caller

MOST = 128  # at once; a process may hold 256 files open on some systems
HEAD_WAIT, BODY_WAIT = 10.0, 60.0  # seconds; 4 MB in a slow network take some ten


class Connection(H11Protocol):
    """One connection, until it becomes a socket or ends.

    Attributes:
        since: when it was made.
        owes: what is waited for from its caller: "IDLE" a head, "SEND_BODY" a body, in h11's words; "" nothing.
    """

    def __init__(self, *args: Any, **named: Any) -> None:
        super().__init__(*args, **named)
        self.since = time.monotonic()
        self.owes = ""
        self._deadline: asyncio.TimerHandle | None = None

    def connection_made(self, transport: asyncio.Transport) -> None:  # type: ignore[override]
        """Somebody is there."""
        super().connection_made(transport)
        self._make_room()
        self._look()

    def data_received(self, data: bytes) -> None:
        """He says something."""
        super().data_received(data)
        self._look()

    def connection_lost(self, exc: Exception | None) -> None:
        """He is gone."""
        super().connection_lost(exc)
        self._forget()

    @property
    def address(self) -> str:
        """Whom it counts as."""
        return caller(self.client[0]) if self.client else ""

    @property
    def is_idle(self) -> bool:
        """Whether it waits for its caller, and not he for us."""
        return bool(self.owes) or self.cycle is None or self.cycle.response_complete

    def _look(self) -> None:
        """Begin to count where he owes something new."""
        state = str(self.conn.their_state)
        owes = state if state in ("IDLE", "SEND_BODY") else ""
        if owes == self.owes:
            return
        self._forget()
        if owes and not self.transport.is_closing():
            self.owes = owes
            self._deadline = self.loop.call_later(HEAD_WAIT if owes == "IDLE" else BODY_WAIT, self.transport.close)

    def _forget(self) -> None:
        self.owes = ""
        if self._deadline is not None:
            self._deadline.cancel()
            self._deadline = None

    def _make_room(self) -> None:
        if len(self.connections) <= MOST:
            return
        idle = [one for one in self.connections if isinstance(one, Connection) and one.is_idle]
        held = Counter(one.address for one in idle)
        last = max(idle, key=lambda one: (held[one.address], bool(one.owes), -one.since))
        self.connections.discard(last)
        last.transport.abort()
