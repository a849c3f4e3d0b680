"""What would come of a change, as the difference from what is drawn: the answer to every step of a drag."""

from collections.abc import Iterable, Mapping
from dataclasses import fields, replace
from typing import Any, TypeVar

from ..documents.shown import BoardShown, JointShown
from ..editing import requests
from ..editing.answers import BoardMoved, Fault, JointMoved, Note, Previewed, Written
from ..editing.drawn import Drawn
from ..editing.refusals import Refused, mistaken
from ..errors import JobError
from ..keeping import Same, no_search_for_rings
from ..places import Pair
from .notes import notes
from .store.jobfile import for_browser
from .store.session import Session

MOST_LINES = 40
CANNOT_BE = "refused"  # the code of a fault that lies in what was asked, as it was asked

ShownT = TypeVar("ShownT")
MovedT = TypeVar("MovedT", BoardMoved, JointMoved)


@no_search_for_rings()
def previewed(session: Session, doing: requests.Doing) -> Previewed:
    """Try a change; that it cannot be done, or not yet, is an answer too, as long as the thing itself is there.

    A figure is asked about at every letter: the 2 of 200 may be too little, and is no failure.

    Raises:
        Refused: what is moved or typed is not there, or the fault is not the change's.
    """
    try:
        found, text, job = session.composed(doing)
        after = session.draughtsman.draw(text, job)
    except Refused as fault:
        told = fault.fault
        if told.code != CANNOT_BE:
            raise
        return Previewed(revision=session.revision, says=told.says, mistakes=told.mistakes, refused=told)
    except JobError as error:
        mistakes = mistaken(session.text, error.mistakes)
        return Previewed(revision=session.revision, says=error.mistakes[0].says, mistakes=mistakes)
    return _difference(session, after, found.said(joint.key for joint in after.piece.joints), text)


def gone_on(session: Session, why: Fault) -> Previewed:
    """A change that was tried on a job as it no longer is."""
    return Previewed(revision=session.revision, says=why.says, mistakes=(), refused=why)


def _difference(session: Session, after: Drawn, says: str, text: str) -> Previewed:
    before = session.drawn
    found = notes(after, (), stale=False, curing=False)
    known = _known(session, before)
    same = tuple(note.id for note in found if (old := known.get(note.id)) and replace(note, number=old.number) == old)
    told = frozenset(same)
    was, now = (before.elevation if before else None), after.elevation
    boards = {board.name: board for board in was.boards} if was else {}
    joints = {joint.boards: joint for joint in was.joints} if was else {}
    gone_boards = boards.keys() - {board.name for board in now.boards}
    gone_joints: set[Pair] = joints.keys() - {joint.boards for joint in now.joints}
    new_boards, moved_boards = _different(((boards.get(board.name), board) for board in now.boards), BoardMoved)
    new_joints, moved_joints = _different(((joints.get(joint.boards), joint) for joint in now.joints), JointMoved)
    return Previewed(
        revision=session.revision,
        says=says,
        boards=new_boards,
        joints=new_joints,
        boards_moved=moved_boards,
        joints_moved=moved_joints,
        gone_boards=tuple(sorted(gone_boards)),
        gone_joints=tuple(sorted(gone_joints)),
        dimensions=now.dimensions if was is None or now.dimensions != was.dimensions else None,
        notes=tuple(note for note in found if note.id not in told),
        same_notes=same,
        writes=tuple(written(for_browser(session.text), for_browser(text))),
    )


def _known(session: Session, drawn: Drawn | None) -> Mapping[str, Note]:
    """The live notes of what is drawn, as a moving hand is shown them: a page has them already."""
    if drawn is None:
        return {}

    def bare() -> Mapping[str, Note]:
        return {note.id: note for note in notes(drawn, (), stale=False, curing=False)}

    return session.draughtsman.bench.keep.get("notes", Same(drawn), bare)


def _different(
    pairs: Iterable[tuple[ShownT | None, ShownT]], kind: type[MovedT]
) -> tuple[tuple[ShownT, ...], tuple[MovedT, ...]]:
    """Of things before and after: those that are new or others altogether, and what is different of those that moved.

    Args:
        pairs: before, None where it was not there, and after.
        kind: what of them may be different in the second; its first field says which of them it is.
    """
    whole, moved = [], []
    key, *others = (field.name for field in fields(kind))
    for old, one in pairs:
        if old is one or old == one:
            continue
        if old is None or any(getattr(old, name) != getattr(one, name) for name in _FIXED[kind]):
            whole.append(one)
            continue
        now = {name: getattr(one, name) for name in others}
        different = {name: value for name, value in now.items() if value != getattr(old, name)}
        moved.append(kind(**{key: getattr(one, key)}, **different))
    return tuple(whole), tuple(moved)


def _fixed(shown: type[Any], moved: type[Any]) -> tuple[str, ...]:
    """What must be as it was of a thing that only moved."""
    may = {field.name for field in fields(moved)}
    return tuple(field.name for field in fields(shown) if field.name not in may)


_FIXED: Mapping[type[Any], tuple[str, ...]] = {
    BoardMoved: _fixed(BoardShown, BoardMoved),
    JointMoved: _fixed(JointShown, JointMoved),
}


def written(before: str, after: str) -> Iterable[Written]:
    """The lines that differ, by their number in the new text; where lines came or went, those around too."""
    old, new = before.split("\n"), after.split("\n")
    if len(old) == len(new):
        pairs = [(number, was, now) for number, (was, now) in enumerate(zip(old, new, strict=True), 1) if was != now]
    else:
        pairs = _middle(old, new)
    for number, was, now in pairs[:MOST_LINES]:
        yield Written(line=number, before=was, after=now)


def _middle(old: list[str], new: list[str]) -> list[tuple[int, str, str]]:
    """What is left between the lines that both begin and end with."""
    head = 0
    while head < min(len(old), len(new)) and old[head] == new[head]:
        head += 1
    tail = 0
    while tail < min(len(old), len(new)) - head and old[-1 - tail] == new[-1 - tail]:
        tail += 1
    gone, come = old[head : len(old) - tail], new[head : len(new) - tail]
    longer = max(len(gone), len(come))
    gone += [""] * (longer - len(gone))
    come += [""] * (longer - len(come))
    return [(head + 1 + at, was, now) for at, (was, now) in enumerate(zip(gone, come, strict=True))]
