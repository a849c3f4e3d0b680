"""The papers of the job: which there are, which are made and of which revision, their pictures, saving them.

Made papers are kept in memory until they are made again; nothing is written before the maker saves them, and
then only into one folder beside the job file.
"""

import itertools
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path

from ..documents.folder import rights_like
from ..documents.stamps import stamp_in
from ..documents.writing import WRITERS, save
from ..editing.answers import Page, Paper, Papers, SavedPapers
from ..editing.drawn import no_such
from ..editing.refusals import refused
from ..errors import JobError
from .worker.messages import PaperMade

KINDS = {
    ".pdf": "application/pdf",
    ".json": "application/json",
    ".csv": "text/csv; charset=utf-8",
    ".glb": "model/gltf-binary",
    ".step": "model/step",
    ".dxf": "image/vnd.dxf",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """One paper as it was made."""

    revision: int
    data: bytes
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
        self._kept: dict[str, Kept] = {}

    def begin(self, names: list[str]) -> tuple[int, tuple[str, ...]]:
        """A new task, and the files it makes; all where none is named.

        Raises:
            Refused: a name is no paper's.
        """
        for name in names:
            if name not in WRITERS:
                raise no_such("paper", name)
        self.task = next(self._tasks)
        return self.task, tuple(file for file in WRITERS if not names or file in names)

    def put(self, made: PaperMade) -> None:
        """Keep a paper that came."""
        self._kept[made.file] = Kept(revision=made.revision, data=made.data, pages=made.pages, pictures=made.pictures)

    def end(self, task: int) -> None:
        """A task is over."""
        if self.task == task:
            self.task = None

    def shown(self, revision: int) -> Papers:
        """All papers as the page lists them."""
        return Papers(task=self.task, papers=tuple(self._shown(file, revision) for file in WRITERS))

    def _shown(self, file: str, revision: int) -> Paper:
        kept = self._kept.get(file)
        return Paper(
            name=Path(file).stem,
            file=file,
            revision=kept.revision if kept else None,
            stale=kept is not None and kept.revision != revision,
            size_bytes=len(kept.data) if kept else 0,
            pages=kept.pages if kept else (),
        )

    def file(self, name: str) -> tuple[bytes, str]:
        """A made paper and its media type.

        Raises:
            Refused: it is not there.
        """
        kept = self._kept.get(name)
        if kept is None:
            raise _not_made(name)
        return kept.data, KINDS.get(Path(name).suffix, "application/octet-stream")

    def picture(self, paper: str, page: int) -> str:
        """A page of a paper as SVG.

        Raises:
            Refused: it is not there.
        """
        kept = self._kept.get(f"{paper}.pdf")
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
        data = {name: self.file(name)[0] for name in names}
        self._of_one_state(data)
        try:
            written = save(data, self.folder, rights_like(self.job))
        except JobError as error:
            first = error.mistakes[0]
            raise refused("not written", f"{self.folder.name} {first.says}", first.remedy) from None
        return SavedPapers(folder=self.folder.name, files=tuple(path.name for path in written))

    def _of_one_state(self, data: Mapping[str, bytes]) -> None:
        """Refuse papers of two states: side by side they would be taken for one set."""
        newest = max((self._kept[name] for name in data), key=lambda kept: kept.revision)
        stamp = stamp_in(newest.data)
        earlier = [name for name, paper in data.items() if stamp_in(paper) != stamp]
        if earlier:
            says = f"{', '.join(earlier)}: of an earlier state of the job than the others"
            raise refused("refused", says, "make the papers again, then save them")


def _not_made(name: str) -> Exception:
    return refused("not there", f"{name} is not made", "make the papers first")
