"""The server's side of its one warm worker process.

Mesh work in a thread would hold up the event loop by some 8 ms a time, so it is done in a process of its own.
A thread only waits for what comes back and hands it to the loop. A worker that dies is started again when
something is next asked of it; whatever was waited for from the dead one is told so.
"""

import asyncio
import itertools
import logging
import multiprocessing
import threading
from collections.abc import Callable
from contextlib import suppress
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess

from ..shop.model import Shop
from .bench import serve
from .messages import Asked, BookAsked, CallOff, Ended, ModelAsked, ModelMade, PapersAsked
from .refusals import refused

LOG = logging.getLogger("dryfit")
MODEL_WAIT = 60.0  # seconds after which a model is given up


class Worker:
    """One worker process, and what is waited for from it.

    Attributes:
        hear: told, on the loop, of every message that is no answer to a `model`.
    """

    def __init__(self, shop: Shop | None, hear: Callable[[object], None]) -> None:
        self.shop = shop
        self.hear = hear
        self._process: BaseProcess | None = None
        self._pipe: Connection | None = None
        self._loop: asyncio.AbstractEventLoop | None = None
        self._numbers = itertools.count(1)
        self._models: dict[int, asyncio.Future[bytes]] = {}
        self._tasks: dict[int, int] = {}

    def start(self) -> None:
        """Start it; called on the event loop.

        Raises:
            OSError: the machine has no room for one more process.
        """
        self._loop = asyncio.get_running_loop()
        context = multiprocessing.get_context("spawn")  # as on every system: no copy of the server's sockets
        ours, theirs = context.Pipe()
        process = context.Process(target=serve, args=(theirs, self.shop), daemon=True, name="dryfit worker")
        try:
            process.start()
        except OSError:
            ours.close()
            raise
        finally:
            theirs.close()
        self._process, self._pipe = process, ours
        threading.Thread(target=self._listen, args=(ours, self._loop), daemon=True, name="dryfit worker's ear").start()

    def stop(self) -> None:
        """End it; what it was at is lost."""
        self._pipe = None
        if self._process is not None:
            self._process.terminate()
            self._process.join(2.0)
            self._process = None
        for future in self._models.values():
            future.cancel()
        self._models.clear()

    @property
    def process_id(self) -> int | None:
        """Of the worker, None while there is none."""
        return self._process.pid if self._process is not None else None

    # -- asking

    def ask_book(self, job: Asked) -> None:
        """The slow work of a text; takes the place of any asked for before."""
        self._send(BookAsked(job=job))

    def ask_papers(self, task: int, job: Asked, files: tuple[str, ...]) -> None:
        """Papers; each comes by itself."""
        self._send(PapersAsked(task=task, job=job, files=files))
        self._tasks[task] = job.revision

    def call_off(self, task: int) -> None:
        """Papers are no longer wanted."""
        self._send(CallOff(task=task))

    async def model(self, job: Asked, have: tuple[str, ...]) -> bytes:
        """The model's meshes.

        Raises:
            Refused: it could not be made.
        """
        number = next(self._numbers)
        future: asyncio.Future[bytes] = asyncio.get_running_loop().create_future()
        self._send(ModelAsked(number=number, job=job, have=have))
        self._models[number] = future  # only now: what an older worker owed is given up while sending
        try:
            return await asyncio.wait_for(future, MODEL_WAIT)
        except (TimeoutError, asyncio.CancelledError):
            raise refused("not ready", "the model did not come", "try again in a moment") from None
        finally:
            self._models.pop(number, None)

    def _send(self, asked: object) -> None:
        """Ask something; of a new worker where the old one has died.

        Raises:
            Refused: there is none, and none can be started.
        """
        try:
            if self._pipe is not None and self._process is not None and self._process.is_alive():
                try:
                    self._pipe.send(asked)
                except OSError:  # it died just now
                    self._lost()
                else:
                    return
            self._lost()
            self.start()
            assert self._pipe is not None, "it was started just now"
            self._pipe.send(asked)
        except OSError as error:
            LOG.warning("the slow work could not be started: %s", error)
            raise refused("not ready", "the slow work could not be started", "try again in a moment") from None

    # -- hearing

    def _listen(self, pipe: Connection, loop: asyncio.AbstractEventLoop) -> None:
        """In a thread of its own: wait, and hand over."""
        try:
            while True:
                said = pipe.recv()
                loop.call_soon_threadsafe(self._heard, said)
        except (EOFError, OSError, RuntimeError, TypeError):  # the worker, or the loop, has gone
            pass
        except Exception:  # what came cannot be read: the worker is of no use any more
            LOG.exception("the slow work said something that cannot be read")
        pipe.close()  # here and nowhere else: closed under a read, its number could become another pipe's
        with suppress(RuntimeError):
            loop.call_soon_threadsafe(self._gone, pipe)

    def _heard(self, said: object) -> None:
        if isinstance(said, ModelMade):
            self._answer(said)
            return
        if isinstance(said, Ended) and said.task is not None:
            self._tasks.pop(said.task, None)
        self.hear(said)

    def _answer(self, made: ModelMade) -> None:
        future = self._models.get(made.number)
        if future is None or future.done():
            return
        if made.data is None:
            future.set_exception(refused("refused", f"the model cannot be made: {made.why}", "put that right first"))
        else:
            future.set_result(made.data)

    def _gone(self, pipe: Connection) -> None:
        """A worker died: say so of all that was waited for, unless another has taken its place already."""
        if pipe is self._pipe:
            self._lost()

    def _lost(self) -> None:
        """Give the worker up, if there was one: nothing more will come of it."""
        if self._pipe is None:
            return
        self._pipe = None
        if self._process is not None and self._process.is_alive():
            self._process.terminate()
        for future in self._models.values():
            if not future.done():
                future.set_exception(refused("not ready", "the slow work stopped", "try again: it is started anew"))
        for task, revision in [*self._tasks.items()]:
            self.hear(Ended(task=task, revision=revision, why="the slow work stopped; try again"))
        self._tasks.clear()
        self.hear(Ended(task=None, revision=0, why="the slow work stopped"))
