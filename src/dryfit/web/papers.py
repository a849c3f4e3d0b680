"""The papers of the job: which there are, which are made and of which revision, their pictures, saving them.

Made papers are kept in memory until they are made again; nothing is written before the maker saves them, and
then only into one folder beside the job file.
"""

import itertools
from collections.abc import Collection, Mapping
from dataclasses import dataclass
from pathlib import Path

from ..documents.folder import rights_like
from ..documents.stamps import stamp_in
from ..documents.writer import Writer, by_turn
from ..documents.writers import WRITERS
from ..documents.writing import save
from ..editing.answers import Page, Paper, Papers, SavedPapers
from ..editing.drawn import no_such
from ..editing.refusals import refused
from ..errors import JobError
from .worker.messages import PaperMade


@dataclass(frozen=True, slots=True, kw_only=True)
class StoredPaper:
    """One paper as it was made, with the files it is made of."""

    revision: int
    files: Mapping[str, bytes]
    pages: tuple[Page, ...]
    pictures: tuple[str, ...]


class PaperShelf:
    """All papers of one job.

    Attributes:
        task: the work on them, None while there is none.
    """

    def __init__(self, job: Path) -> None:
        self.job = job
        self.folder = job.with_name(f"{job.stem} papers")
        self.task: int | None = None
        self._tasks = itertools.count(1)
        self._kept: dict[str, StoredPaper] = {}

    def begin(self, names: list[str]) -> tuple[int, tuple[str, ...]]:
        """A new task, and the names of the writers that it puts to work; where none is named, all but the extras.

        Raises:
            Refused: a name is no paper's, or one cannot be made on this machine.
        """
        asked = [_writer(name) for name in names]
        for writer in asked:
            if why := writer.lacks():
                raise refused("not there", f"{writer.makes} is left out: {why}", "install it, then start Dryfit again")
        self.task = next(self._tasks)
        wanted = [
            writer
            for writer in WRITERS.values()
            if (writer in asked if asked else not writer.extra and not writer.lacks())
        ]
        return self.task, tuple(writer.name for writer in by_turn(wanted))

    def put(self, made: PaperMade) -> None:
        """Keep a paper that came."""
        self._kept[made.file] = StoredPaper(
            revision=made.revision, files=dict(made.files), pages=made.pages, pictures=made.pictures
        )

    def end(self, task: int) -> None:
        """A task is over."""
        if self.task == task:
            self.task = None

    def shown(self, revision: int) -> Papers:
        """All papers as the page lists them."""
        return Papers(task=self.task, papers=tuple(self._shown(writer, revision) for writer in WRITERS.values()))

    def _shown(self, writer: Writer, revision: int) -> Paper:
        kept = self._kept.get(writer.makes)
        return Paper(
            name=writer.name,
            word=writer.word,
            file=writer.makes,
            extra=writer.extra,
            left_out=writer.lacks(),
            revision=kept.revision if kept else None,
            stale=kept is not None and kept.revision != revision,
            files=len(kept.files) if kept else 0,
            size_bytes=sum(map(len, kept.files.values())) if kept else 0,
            pages=kept.pages if kept else (),
        )

    def file(self, name: str) -> tuple[bytes, str]:
        """A made paper that is one file, and its media type.

        Raises:
            Refused: it is not there.
        """
        kept = self._kept.get(name)
        if kept is None or name not in kept.files:
            raise _not_made(name)
        return kept.files[name], _writer(name).media

    def picture(self, paper: str, page: int) -> str:
        """A page of a paper as SVG.

        Raises:
            Refused: it is not there.
        """
        kept = self._kept.get(WRITERS[paper].makes) if paper in WRITERS else None
        if kept is None or not 1 <= page <= len(kept.pictures):
            raise _not_made(f"page {page} of {paper}")
        return kept.pictures[page - 1]

    def save(self, files: list[str]) -> SavedPapers:
        """Write made papers, all where none is named, into the folder beside the job.

        Raises:
            Refused: one is not made, or the folder cannot be written.
        """
        names = files or [*self._kept]
        if not names:
            raise refused("not there", "no paper is made yet", "make them first")
        for name in names:
            if name not in self._kept:
                raise _not_made(name)
        self._of_one_state(names)
        data = {file: contents for name in names for file, contents in self._kept[name].files.items()}
        try:
            written = save(data, self.folder, rights_like(self.job))
        except JobError as error:
            first = error.mistakes[0]
            raise refused("not written", f"{self.folder.name} {first.says}", first.remedy) from None
        return SavedPapers(
            folder=self.folder.name, files=tuple(path.relative_to(self.folder).as_posix() for path in written)
        )

    def _of_one_state(self, names: Collection[str]) -> None:
        """Refuse papers of two states: side by side they would be taken for one set."""
        stamps = {name: {stamp_in(data) for data in self._kept[name].files.values()} for name in names}
        newest = max(names, key=lambda name: self._kept[name].revision)
        earlier = [name for name in names if not stamps[name] <= stamps[newest]]
        if earlier:
            says = f"{', '.join(earlier)}: of an earlier state of the job than the others"
            raise refused("refused", says, "make the papers again, then save them")


def _writer(file: str) -> Writer:
    """Who makes a file.

    Raises:
        Refused: nobody does.
    """
    for writer in WRITERS.values():
        if writer.makes == file:
            return writer
    raise no_such("paper", file)


def _not_made(name: str) -> Exception:
    return refused("not there", f"{name} has not been made", "make the papers first")
