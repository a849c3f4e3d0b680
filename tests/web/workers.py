"""Workers that misbehave, each in place of `dryfit.web.worker.bench.serve` in a process of its own."""

import time

from dryfit.web.worker.messages import BookAsked, BookMade, StudyMade, Waiting


def never_reads(pipe, shop):
    """Takes nothing from its pipe, so that the pipe fills."""
    pipe.send(Waiting(done=0))
    while True:
        time.sleep(60)


def one_long_step(pipe, shop):
    """Works for four seconds in one step, without a word; then it answers."""
    pipe.send(Waiting(done=0))
    taken = 0
    while True:
        asked = pipe.recv()
        taken += 1
        if isinstance(asked, BookAsked):
            end = time.monotonic() + 4.0
            while time.monotonic() < end:
                sum(range(10_000))
            revision = asked.job.revision
            pipe.send(
                StudyMade(
                    study="busy",
                    revision=revision,
                    made=asked.job.made,
                    key="busy/1",
                    done=1.0,
                    stands="done",
                    why="",
                    result=1,
                )
            )
            pipe.send(
                BookMade(
                    revision=revision,
                    made=asked.job.made,
                    findings=(),
                    checked=(),
                    not_checked=(),
                    masses={},
                )
            )
        pipe.send(Waiting(done=taken))


def falls_asleep(pipe, shop):
    """Sleeps over what it was asked, as one does that waits for a lock nobody lets go."""
    pipe.send(Waiting(done=0))
    pipe.recv()
    time.sleep(3600)
