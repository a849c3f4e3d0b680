"""A job that is changed without end in a process of its own, to be killed: `python -m tests.web.killed JOB [MOMENT]`.

It prints each change once it is acknowledged: its number and the hash of the file then. With a MOMENT ("row",
"file" or "mark") it ends itself there, without any tidying, at the change whose number follows.
"""

import os
import sys
from pathlib import Path

from dryfit.web import requests
from dryfit.web.refusals import Refused
from dryfit.web.session import Session


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


if __name__ == "__main__":
    main(*sys.argv[1:])
