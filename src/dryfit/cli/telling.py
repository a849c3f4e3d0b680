"""What the command prints: mistakes, findings with their places and figures, alike ones together."""

import json
import os
import shlex
import subprocess
import sys
from typing import TYPE_CHECKING, Any, TextIO

from ..errors import JobError

if TYPE_CHECKING:
    from collections.abc import Iterator
    from pathlib import Path

    from ..book import Book

SOUND, MUST_CHANGE, UNUSABLE = 0, 1, 2


class NotToldError(Exception):
    """What was to be said could not be written: the disk is full, say; its text is the reason."""


def say(text: str = "", to: TextIO | None = None) -> None:
    """Print one piece of text at once: the only place in the project that does.

    Raises:
        NotToldError: what is printed to, a file perhaps, takes no more.
    """
    try:
        print(text, file=to or sys.stdout, flush=True)
    except BrokenPipeError:
        raise
    except OSError as error:
        raise NotToldError(error.strerror or str(error)) from None


def typed(path: "Path") -> str:
    """A path as it is typed after a command: in quotes where the shell would take it apart."""
    return subprocess.list2cmdline([str(path)]) if os.name == "nt" else shlex.quote(str(path))


def unusable(error: JobError, *, as_json: bool = False) -> int:
    """Print the mistakes in a file and return the exit code."""
    if as_json:
        mistakes: list[dict[str, Any]] = [
            {"file": m.file, "line": m.line, "path": list(m.path), "read": m.read, "says": m.says, "remedy": m.remedy}
            for m in error.mistakes
        ]
        say(json.dumps({"dryfit": 1, "mistakes": mistakes}, ensure_ascii=False, indent=1))
        return UNUSABLE
    for mistake in error.mistakes:
        say(str(mistake), to=sys.stderr)
    return UNUSABLE


def unwritable(path: "Path", error: OSError) -> int:
    """Say that a path cannot be written and return the exit code."""
    say(f"{path} cannot be written: {error.strerror}; choose a folder you may write to", to=sys.stderr)
    return UNUSABLE


def tell_as_json(book: "Book") -> None:
    """Print the findings for another program."""
    from ..documents.bookjson import checked_data, findings_data, not_checked_data

    data = {
        "dryfit": 1,
        "job": book.job.title,
        "state": book.job.state,
        "boards": len(book.piece.boards),
        "joints": len(book.piece.joints),
        "findings": findings_data(book),
        "checked": checked_data(book),
        "not_checked": not_checked_data(book),
    }
    say(json.dumps(data, ensure_ascii=False, indent=1))


def tell(book: "Book") -> None:
    """Print the findings for a maker."""
    from ..documents.naming import plural
    from .findings import lines

    piece = book.piece
    say(f"{book.job.title}: {plural(len(piece.boards), 'board')}, {plural(len(piece.joints), 'joint')}")
    for line in lines(book):
        say(line)
    stops = len(book.stops)
    if stops:
        say(f"{plural(stops, 'thing')} must change before the first cut.")
    elif book.findings:
        say(f"You can start cutting; read the {_above(book)} above.")
    for line in looked_at(book):
        say(line)


def _above(book: "Book") -> str:
    """What there is to read where nothing must change: "warning", "warnings and note"."""
    from ..findings import Severity

    warnings = sum(finding.severity is Severity.WARN for finding in book.findings)
    counts = (("warning", warnings), ("note", len(book.findings) - warnings))
    return " and ".join(word if count == 1 else f"{word}s" for word, count in counts if count)


def looked_at(book: "Book") -> "Iterator[str]":
    """What was looked at and what was not: nothing is approved by silence."""
    from ..asking import in_words, open_in_words

    if not book.findings and not book.not_checked:
        yield "Nothing found."
        return
    begin = "Checked" if book.findings else "Nothing found in what was checked"
    yield f"{begin}: {in_words(book.checked) or 'nothing'}."
    if book.not_checked:
        yield "Not checked:"
        yield from (f"       {what}: {why}" for what, why in open_in_words(book.not_checked, book.voice))
