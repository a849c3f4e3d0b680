"""What the piece has to carry: asked of every piece, and not worked out by anything yet.

A board less than 45 degrees off level may have things stand on it.
"""

from collections.abc import Iterable, Iterator

from ..findings import Finding, NotChecked, Severity, declare, owns, question
from ..job.model import Job, Load
from ..places import Where
from ..sentences import Name, say
from .model import WALL, Board, Joint

LOADS = question("loads", "what the shelves carry")
NOT_WORKED_OUT = declare(
    "load-not-worked-out",
    "Nothing works out yet what a load does to the piece.",
    uncured="nothing is wrong with the job: how loads are carried is not worked out yet",
)
owns(LOADS, NOT_WORKED_OUT)

YET = "it is not worked out yet"


def loads(job: Job, boards: Iterable[Board], joints: Iterable[Joint]) -> Iterator[Finding | NotChecked]:
    """A note for each load that is given; what the boards carry, and what the screws are pulled by, is left open."""
    frames = {frame.name: frame.boards for frame in job.frames}
    there = {board.name for board in job.boards}
    for load in job.loads:
        on = frames.get(load.board, (load.board,) if load.board in there else ())
        yield _noted(load, on)
    bearing = tuple(board.name for board in boards if abs(board.frame.x[1]) < abs(board.frame.x[0]))
    yield NotChecked(
        study=LOADS,
        what="what the shelves carry" if bearing else "what the piece carries",
        why="no load is worked out yet" if job.loads else "no load is given",
        where=Where(boards=bearing),
        whole=True,
    )
    fixed = tuple(dict.fromkeys(joint.meeting.a.body for joint in joints if joint.meeting.b.body == WALL))
    if fixed:
        yield NotChecked(study=LOADS, what="the pull on the screws in the wall", why=YET, where=Where(boards=fixed))


def _noted(load: Load, boards: tuple[str, ...]) -> Finding:
    on = say("on {}", Name(load.board)) if load.board else "that names no board"
    return Finding(
        code=NOT_WORKED_OUT,
        severity=Severity.NOTE,
        where=Where(boards=boards, path=load.path),
        says=say("the load {} is read, and nothing works it out yet", on),
        remedy="judge by a piece that is known to hold, or ask somebody qualified to say that it holds",
    )
