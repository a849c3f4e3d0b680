"""Refusals that tell a page what has happened since it last looked."""

from ..editing.answers import Version
from ..editing.refusals import Refused, refused
from .store.history import WRITTEN, VersionRow, VersionStore

SINCE = 20  # versions named to a page that is behind
CHANGES = ("edit", "text", "cut")  # kinds of versions whose own change is what undo takes back from them


def version(row: VersionRow) -> Version:
    """A row of the history for the page: called by what it changed, as a maker would."""
    says = row.did if row.did and row.kind in CHANGES else row.says
    return Version(version=row.id, at=row.at, kind=row.kind, says=says, written=row.written == WRITTEN)


def stale(history: VersionStore, known: int, now: int) -> Refused:
    """The refusal for a page that speaks of an older job."""
    since = tuple(version(row) for row in history.since(known, SINCE))
    says = "; ".join(one.says for one in since) if since else "it is another job's history"
    remedy = "look at it as it is now, then try again"
    return refused("stale", f"the job has changed meanwhile: {says}", remedy, revision=now, since=since)


def set_aside(history: VersionStore, row: VersionRow, now: int) -> Refused:
    """The refusal for a change that somebody else's write overtook; it is kept, as the version `row`."""
    return refused(
        "stale",
        f"the file was changed outside at the same moment; this change is kept as version {row.id}",
        "look at the job as it is now, then make the change again, or restore that version",
        revision=now,
        since=tuple(version(found) for found in history.since(row.id - 1, SINCE)),
    )


def not_taken_back(says: str, now: int, *, again: bool) -> Refused:
    """The refusal to undo, or to do again, what somebody else has changed meanwhile too."""
    what = "nothing is done again" if again else "nothing is taken back"
    return refused("stale", f"{says}; {what}", "look at the job as it is now, and change it by hand", revision=now)


def clashing(says: str, kept: VersionRow, now: int) -> Refused:
    """The refusal for a change of what somebody else has changed meanwhile; it is kept, as the version `kept`."""
    return refused(
        "stale",
        f"{says}; what stands there holds, and what was done here is kept as version {kept.id}",
        "look at the job as it is now, then make the change again, or go back to that version",
        revision=now,
    )
