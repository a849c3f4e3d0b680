"""The server's side of its one warm worker process.

Mesh work in a thread would hold up the event loop by some 8 ms a time, so it is done in a process of its own.
Nothing that process does or fails to do holds the loop up either: a thread starts it and sends, a thread hears,
and the loop only puts what it asks into an `Outbox`. A worker that dies, or that its `Watch` finds stuck, is started
again when something is next asked; whatever was waited for from the old one is told so.
"""

import asyncio
import itertools
import logging
import multiprocessing
import threading
import time
from collections.abc import Callable
from contextlib import suppress
from multiprocessing.connection import Connection
from multiprocessing.process import BaseProcess
from typing import Any

from ...editing.answers import Assembly, Tried
from ...editing.refusals import refused
from ...job.options import Options
from ...shop.model import Shop
from . import watch
from .bench import serve
from .messages import (
    AssemblyAsked,
    AssemblyMade,
    Beat,
    BookAsked,
    CallOff,
    Ended,
    ModelAsked,
    ModelMade,
    PapersOfText,
    Still,
    StudyAsked,
    StudyTried,
    TextAsked,
    Waiting,
)
from .outbox import Outbox

LOG = logging.getLogger("dryfit")
MODEL_WAIT = 60.0  # seconds after which a model is given up
MOST_WAITED = 32  # models and studies at once; a window asks for one at a time
DIED = "the background work stopped"
_CANNOT: dict[type[Any], str] = {
    ModelMade: "the model cannot be made",
    StudyTried: "this cannot be tried",
    AssemblyMade: "it is not worked out how it goes together",
}


class WorkerLife:
    """One worker process from its start to its end.

    Attributes:
        outbox: what it is asked.
        process: None before it runs.
        done: how many messages it had dealt with when it last waited for more.
        heard_at: when it last said anything.
        why: how it ended, as the page is told.
    """

    def __init__(self, shop: Shop | None) -> None:
        self.shop = shop
        self.outbox = Outbox()
        self.process: BaseProcess | None = None
        self.done = -1  # it owes its first word
        self.heard_at = time.monotonic()
        self.why = DIED
        self.over = False
        self._pipe: Connection | None = None
        self._ending = threading.Lock()

    def start(self) -> Connection:
        """Start the process; takes some milliseconds, and longer on a full machine.

        Raises:
            OSError: the machine has no room for one more process.
        """
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
        with self._ending:
            self.process = process
            if self.over:
                process.kill()
        return ours

    def speak(self, pipe: Connection) -> None:
        """Send what it is asked until it ends; waits wherever it does not read."""
        while (asked := self.outbox.take()) is not None:
            try:
                pipe.send(asked)
            except OSError:  # it has died, which its ear hears as well
                return

    def hear(self, pipe: Connection) -> object:
        """Its next word."""
        said = pipe.recv()
        self.heard_at = time.monotonic()
        if isinstance(said, Waiting):
            self.done = said.done
        return said

    def end(self, why: str = "") -> None:
        """End it at once, whatever it is at: a process that is held takes no gentler word."""
        with self._ending:
            self.why = (not self.over and why) or self.why
            self.over = True
            if self.process is not None:
                self.process.kill()
        self.outbox.end()


class Worker:
    """One worker process, and what is waited for from it.

    Attributes:
        hear: told, on the loop, of every message that is no answer to a `model`.
    """

    def __init__(self, shop: Shop | None, hear: Callable[[object], None]) -> None:
        self.shop = shop
        self.hear = hear
        self._life: WorkerLife | None = None
        self._watching: asyncio.Task[None] | None = None
        self._numbers = itertools.count(1)
        self._waiting: dict[int, asyncio.Future[Any]] = {}
        self._tasks: dict[int, int] = {}

    def start(self) -> WorkerLife:
        """Have it started, unless it runs; called on the event loop, which it does not hold up."""
        if self._life is not None and not self._life.over:
            return self._life
        if self._life is not None:
            self._gone(self._life)
        life = self._life = WorkerLife(self.shop)
        loop = asyncio.get_running_loop()
        threading.Thread(target=self._live, args=(life, loop), daemon=True, name="dryfit worker's mouth").start()
        self._watching = loop.create_task(self._watch(life))
        return life

    def stop(self) -> None:
        """End it; what it was at is lost. Nothing is waited for."""
        life, self._life = self._life, None
        if life is not None:
            life.end()
        if self._watching is not None:
            self._watching.cancel()
        for future in self._waiting.values():
            future.cancel()
        self._waiting.clear()

    @property
    def _process(self) -> BaseProcess | None:
        return self._life.process if self._life is not None else None

    @property
    def process_id(self) -> int | None:
        """Of the worker, None while there is none."""
        return self._process.pid if self._process is not None else None

    # -- asking

    def ask_book(self, job: TextAsked) -> None:
        """The slow work of a text; takes the place of any asked for before."""
        self.start().outbox.put_book(BookAsked(job=job))

    def ask_papers(self, task: int, job: TextAsked, writers: tuple[str, ...]) -> None:
        """Papers; each comes by itself."""
        life = self.start()  # before: what an older worker owed is given up with it
        self._tasks[task] = job.revision
        life.outbox.put(PapersOfText(task=task, job=job, writers=writers))

    def call_off(self, task: int) -> None:
        """Papers are no longer wanted."""
        life = self._life
        if life is None or task not in self._tasks:
            return
        if life.outbox.withdraw(task=task):
            self._heard(life, Ended(task=task, revision=self._tasks[task], why="called off"))
        else:
            life.outbox.put(CallOff(task=task))

    async def model(self, job: TextAsked, have: tuple[str, ...]) -> bytes:
        """The model's meshes.

        Raises:
            Refused: it could not be made.
        """
        made: bytes = await self._waited("the model", lambda number: ModelAsked(number=number, job=job, have=have))
        return made

    async def what_if(self, job: TextAsked, study: str, levers: tuple[Options, ...]) -> Tried:
        """What a study gives with its levers moved.

        Raises:
            Refused: it could not be worked out.
        """
        tried: Tried = await self._waited(
            "the study", lambda number: StudyAsked(number=number, job=job, study=study, levers=levers)
        )
        return tried

    async def assembly(self, job: TextAsked) -> Assembly:
        """How the piece goes together, in the booklet's words.

        Raises:
            Refused: its book is not there.
        """
        made: Assembly = await self._waited("the order", lambda number: AssemblyAsked(number=number, job=job))
        return made

    async def _waited(self, what: str, order: Callable[[int], ModelAsked | StudyAsked | AssemblyAsked]) -> Any:
        if len(self._waiting) >= MOST_WAITED:
            raise refused("not ready", f"{what} was asked for too often", "wait until it has come")
        number = next(self._numbers)
        life = self.start()  # before: what an older worker owed is given up with it
        future: asyncio.Future[Any] = asyncio.get_running_loop().create_future()
        self._waiting[number] = future
        life.outbox.put(order(number))
        try:
            return await asyncio.wait_for(future, MODEL_WAIT)
        except (TimeoutError, asyncio.CancelledError):
            raise refused("not ready", f"{what} did not come", "try again in a moment") from None
        finally:
            self._waiting.pop(number, None)
            life.outbox.withdraw(number=number)

    # -- a life, in threads of its own

    def _live(self, life: WorkerLife, loop: asyncio.AbstractEventLoop) -> None:
        """Start it and send, while another thread hears."""
        try:
            pipe = life.start()
        except OSError as error:
            LOG.warning("the background work could not be started: %s", error)
            life.end(f"the background work could not be started ({(error.strerror or 'unknown').lower()})")
            with suppress(RuntimeError):
                loop.call_soon_threadsafe(self._gone, life)
            return
        ear = threading.Thread(target=self._listen, args=(life, pipe, loop), daemon=True, name="dryfit worker's ear")
        ear.start()
        life.speak(pipe)
        ear.join()
        pipe.close()  # here and nowhere else: closed under a read, its number could become another pipe's

    def _listen(self, life: WorkerLife, pipe: Connection, loop: asyncio.AbstractEventLoop) -> None:
        """Wait, and hand over."""
        try:
            while True:
                said = life.hear(pipe)
                if not isinstance(said, Beat | Waiting):
                    loop.call_soon_threadsafe(self._heard, life, said)
        except (EOFError, OSError, RuntimeError, TypeError):  # the worker, or the loop, has gone
            pass
        except Exception:  # what came cannot be read: the worker is of no use any more
            LOG.exception("the background work sent something that cannot be read")
        life.end()
        if life.process is not None:
            life.process.join()
        with suppress(RuntimeError):
            loop.call_soon_threadsafe(self._gone, life)

    # -- hearing

    def _heard(self, life: WorkerLife, said: object) -> None:
        if life is not self._life:
            return  # it was given up before this came
        if isinstance(said, ModelMade | StudyTried | AssemblyMade):
            self._answer(said)
            return
        if isinstance(said, Ended) and said.task is not None:
            self._tasks.pop(said.task, None)
        self.hear(said)

    def _answer(self, made: ModelMade | StudyTried | AssemblyMade) -> None:
        future = self._waiting.get(made.number)
        if future is None or future.done():
            return
        if made.data is None:
            what, code = _CANNOT[type(made)], "not ready" if isinstance(made, AssemblyMade) else "refused"
            remedy = "try again in a moment" if code == "not ready" else "put that right first"
            future.set_exception(refused(code, f"{what}: {made.why}", remedy))
        else:
            future.set_result(made.data)

    async def _watch(self, life: WorkerLife) -> None:
        """End it where it is stuck; tell the page where it stands still."""
        over_it, last, told = watch.Silence(), time.monotonic(), False
        while not life.over:
            await asyncio.sleep(watch.TICK)
            now = time.monotonic()
            spoke = life.heard_at > last or not life.outbox.owed(life.done)
            process = life.process
            over_it.tick(now - last, spoke=spoke, now=watch.seen(process.pid) if process is not None else None)
            last = now
            if told != over_it.stands_still:
                told = over_it.stands_still
                self._heard(life, Still(still=told))
            if over_it.given_up:
                LOG.warning("the background work did not go on for %.0f s and was ended", over_it.silent)
                life.end("the background work did not go on and was ended")

    def _gone(self, life: WorkerLife) -> None:
        """A worker has ended: say so of all that was waited for, unless another has taken its place already."""
        if life is not self._life:
            return
        self._life = None
        for future in self._waiting.values():
            if not future.done():
                future.set_exception(refused("not ready", life.why, "try again: it is started again"))
        tasks = [*self._tasks.items()]
        self._tasks.clear()
        for task, revision in tasks:
            self.hear(Ended(task=task, revision=revision, why=f"{life.why}; try again"))
        self.hear(Ended(task=None, revision=0, why=life.why))
