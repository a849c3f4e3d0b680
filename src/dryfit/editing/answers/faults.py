"""Why something was not done, and the versions that a page may have missed."""

from dataclasses import dataclass

from ...places import Path


@dataclass(frozen=True, slots=True, kw_only=True)
class MistakeShown:
    """A mistake in the text.

    Attributes:
        line: counted from 1; 0 where it has none.
        column, end_column: of what is wrong in that line, counted from 0 in UTF-16 units, end exclusive.
        read: what stands there.
    """

    line: int
    column: int
    end_column: int
    path: Path
    read: str
    says: str
    remedy: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Version:
    """One line of the job's history.

    Attributes:
        at: when, ISO 8601 in UTC.
        kind: "opened", "edit", "text", "undo", "redo", "restore", "outside".
        says: what was changed, as a maker would say it.
        written: False for a change that was set aside, since somebody else had changed the same.
    """

    version: int
    at: str
    kind: str
    says: str
    written: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Fault:
    """Why something was not done.

    Attributes:
        code: a word for programs: "stale", "refused", "read-only", "disk full" ...
        says, remedy: for the maker.
        mistakes: each with its place, where the job file is at fault.
        revision: as it is now; with "stale", `since` says what happened after the base.
    """

    code: str
    says: str
    remedy: str
    mistakes: tuple[MistakeShown, ...] = ()
    revision: int | None = None
    since: tuple[Version, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Refusal:
    """The one shape of every error."""

    error: Fault


@dataclass(frozen=True, slots=True, kw_only=True)
class VersionsKept:
    """The versions of the job, the newest first."""

    revision: int
    versions: tuple[Version, ...]
