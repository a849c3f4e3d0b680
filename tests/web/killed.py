"""A job that is changed in a process of its own, to be killed.

    python -m tests.web.killed JOB [MOMENT AT]    drags without end
    python -m tests.web.killed --saves            one save, killed at a given instant, for each line "JOB INSTANT"

The first prints each change once it is acknowledged: its number and the hash of the file then. With a MOMENT ("row",
"file" or "mark") it ends itself there, without any tidying, at the change AT. The second forks for each line, which
spares the start of Python; an instant is right before or right behind any word to the disk (a call of the system, of
a file, of SQLite, the exchange of two files) within the save of a board's new name, counted from its beginning, so
that it is the same on every machine. The system ends it there (SIGKILL).
"""

import os
import signal
import sys
from pathlib import Path

from dryfit.editing import requests
from dryfit.editing.refusals import Refused
from dryfit.web.store.session import Session

OLD, NEW = "shelf", "low shelf"


def main(job, moment="", at="0"):
    count = 0

    def pause(where):
        if where == moment and count == int(at):
            os._exit(9)

    session = Session(Path(job), pause=pause)
    print("open", flush=True)
    while True:
        drag = {"do": "drag", "target": {"what": "boards", "boards": ["shelf"]}, "by": [0, 1 if count % 9 else -8]}
        sent = requests.Change(
            operation_id=f"kill-{os.getpid()}-{count:06d}", base_revision=session.revision, doing=drag
        )
        count += 1
        try:
            session.change(sent)
        except Refused:  # somebody else wrote: look again, and go on from there
            continue
        print(count, session.row.hash, flush=True)


DISK = {"posix", "nt", "io", "_io", "sqlite3"}


class Instants:
    """Counts what stands before and behind words to the disk, and kills at one of them."""

    def __init__(self, last):
        self.count, self.last = 0, last

    def __call__(self, frame, event, argument):
        if event.startswith("c_"):
            of = argument.__module__ or type(argument.__self__).__module__
            self.count += of in DISK
        else:
            self.count += frame.f_code.co_name == "exchange"
        if self.count == self.last:
            os.kill(os.getpid(), signal.SIGKILL)


def renamed(job, last):
    """A drag, then a new name, whose save is killed at an instant; prints what was acknowledged."""
    session = Session(Path(job))
    instants = Instants(last)
    put = session.journal.put

    def watched(*given, **named):
        sys.setprofile(instants)
        row = put(*given, **named)
        sys.setprofile(None)
        return row

    drag = {"do": "drag", "target": {"what": "boards", "boards": [OLD]}, "by": [0, 5]}
    name = {"do": "typed", "card": {"board": OLD}, "key": ["name"], "entry": NEW}
    for number, doing in enumerate((drag, name)):
        if number == 1:
            session.journal.put = watched
        sent = requests.Change(operation_id=f"kill-{number:08d}", base_revision=session.revision, doing=doing)
        session.change(sent)
        print(number, session.row.hash, flush=True)
    print("instants", instants.count, flush=True)
    os._exit(0)


def saves():
    """Forks for each line that comes."""
    for line in sys.stdin:
        job, last = line.rstrip("\n").rsplit(" ", 1)
        process = os.fork()
        if process == 0:
            renamed(job, int(last))
        os.waitpid(process, 0)
        print("over", flush=True)


if __name__ == "__main__":
    if sys.argv[1:] == ["--saves"]:
        saves()
    else:
        main(*sys.argv[1:])
