"""What the worker was asked and has not been sent yet: filled by the event loop, emptied by a thread that may wait.

A text takes the place of the text before it; models, studies, papers and their calling off keep their order. Nothing
here waits for the worker, and nothing grows while it does not read: one text, one set of papers, the models and
studies that are waited for (which `Worker` limits), and one calling off for each set of papers that was sent.
"""

import threading
from collections import deque

from .messages import AssemblyAsked, BookAsked, CallOff, ModelAsked, PapersOfText, StudyAsked

Errand = ModelAsked | StudyAsked | AssemblyAsked | PapersOfText | CallOff


class Outbox:
    """The messages for one worker process."""

    def __init__(self) -> None:
        self._changed = threading.Condition()
        self._book: BookAsked | None = None
        self._orders: deque[Errand] = deque()
        self._taken = 0
        self._over = False

    def put_book(self, asked: BookAsked) -> None:
        """The slow work of a text, in place of any that was not sent yet."""
        with self._changed:
            self._book = asked
            self._changed.notify()

    def put(self, order: Errand) -> None:
        """Anything else, behind what was put before; the same thing twice is put once."""
        with self._changed:
            if order not in self._orders:
                self._orders.append(order)
            self._changed.notify()

    def withdraw(self, *, task: int | None = None, number: int | None = None) -> bool:
        """Take out the papers of a task, or a model or a study, that was not sent yet; whether it was there."""
        with self._changed:
            for order in self._orders:
                if (isinstance(order, PapersOfText) and order.task == task) or (
                    isinstance(order, ModelAsked | StudyAsked | AssemblyAsked) and order.number == number
                ):
                    self._orders.remove(order)
                    return True
        return False

    def take(self) -> BookAsked | Errand | None:
        """The next to send, waited for; None once the worker has ended."""
        with self._changed:
            while not (self._over or self._orders or self._book):
                self._changed.wait()
            if self._over:
                return None
            self._taken += 1
            if self._orders:
                return self._orders.popleft()
            book, self._book = self._book, None
            return book

    def owed(self, done: int) -> bool:
        """Whether a worker that has done so many of its messages owes anything still."""
        with self._changed:
            return bool(self._orders) or self._book is not None or self._taken > done

    def end(self) -> None:
        """Nothing more is sent."""
        with self._changed:
            self._over = True
            self._changed.notify()
