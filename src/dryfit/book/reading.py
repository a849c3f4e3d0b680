"""Reading a job with all that the rooms know: the joint kinds' options, the studies' tables, the trade's films."""

from collections.abc import Iterable
from pathlib import Path
from typing import Any

from ..job.model import Job
from ..job.reading import read_file, read_text
from ..job.renaming import Models
from ..job.schema import schema
from ..job.tables import Owned
from ..job.writing import apply_and_read
from ..joints import KINDS, NAMED
from ..places import Edit
from ..studies import STUDIES
from ..trade.finishes import film_of


def _options() -> dict[str, Any]:
    return {name: kind.options for name, kind in KINDS.items()}


def _tables() -> tuple[Owned, ...]:
    return tuple(table for study in STUDIES.values() for table in study.owns)


def _film(system: str) -> float | None:
    figure = film_of(system)
    return None if figure is None else figure.value


def read(path: str | Path) -> Job:
    """Read a job file.

    Raises:
        dryfit.errors.JobError: it cannot be used; with every mistake in it.
    """
    return read_file(Path(path), kinds=_options(), named=NAMED, tables=_tables(), film_of=_film)


def read_job_text(text: str, file: str = "job.toml") -> Job:
    """Read the text of a job file, `file` being what messages call it.

    Raises:
        dryfit.errors.JobError: it cannot be used; with every mistake in it.
    """
    return read_text(text, file, kinds=_options(), named=NAMED, tables=_tables(), film_of=_film)


def change_job_text(text: str, edits: Iterable[Edit], file: str = "job.toml") -> tuple[str, Job | None]:
    """The text of a job file with edits made, every other byte as it was; with the job, where it can be read.

    The job is None where nothing changed, or where the text could not be read before either.

    Raises:
        dryfit.errors.EditError: an edit cannot be made, or would leave a file that cannot be read.
    """
    return apply_and_read(text, edits, kinds=_options(), named=NAMED, tables=_tables(), film_of=_film, file=file)


def models() -> Models:
    """What tells which keys of a job file refer to boards, timbers and measures."""
    return Models(_options(), _tables())


def job_schema() -> dict[str, Any]:
    """The JSON Schema of a job file, the options of every kind and the tables of every study in it."""
    return schema(_options(), NAMED, _tables())
