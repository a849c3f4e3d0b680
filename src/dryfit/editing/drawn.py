"""One readable text worked out as far as a drag step needs: job, piece, drawing, live findings."""

import logging
from collections.abc import Iterable
from dataclasses import dataclass, replace

from ..book import CureTrial, Kept, overlaps, piece_of, read_job_text, set_out_findings
from ..documents.elevation import elevation
from ..documents.shown import Elevation
from ..errors import JobError, Mistake
from ..findings import Finding, in_order
from ..job.model import BoardSpec, Job
from ..piece.model import Board, Piece
from ..piece.setout import Made
from ..sentences import Voice
from ..shop.model import Shop
from .refusals import Refused, our_fault, refused

LOG = logging.getLogger("dryfit")
KEPT, KEPT_A_BOARD = 6000, 120  # answers kept: some fifty steps of a drag back, whatever the size of the piece


@dataclass(frozen=True, slots=True, kw_only=True)
class Drawn:
    """One text of the job, and what is seen of it.

    Attributes:
        text: as in the file.
        findings: those that need no solids.
    """

    text: str
    job: Job
    piece: Piece
    elevation: Elevation
    findings: tuple[Finding, ...]

    @property
    def voice(self) -> Voice:
        """How its sentences are told to the page."""
        return Voice(self.job.units)

    def spec(self, board: str) -> BoardSpec:
        """A board as typed; the whole board for a member of a divided one.

        Raises:
            Refused: there is no such board.
        """
        name = self.piece.whole.get(board, board)
        for spec in self.job.boards:
            if spec.name == name:
                return spec
        raise no_such("board", board)

    def board(self, name: str) -> Board:
        """A board as it is drawn; of a divided one its first member.

        Raises:
            Refused: there is no such board.
        """
        found = self.piece.board_by_name.get(self.members([name])[0])
        if found is None:
            raise no_such("board", name)
        return found

    def wholes(self, boards: Iterable[str]) -> tuple[str, ...]:
        """Boards as the job file calls them, each once: a member stands for the whole that it is part of."""
        return tuple(dict.fromkeys(self.piece.whole.get(name, name) for name in boards))

    def members(self, boards: Iterable[str]) -> list[str]:
        """Boards as they are drawn: a divided one as its members."""
        parts: dict[str, list[str]] = {}
        for member, name in self.piece.whole.items():
            parts.setdefault(name, []).append(member)
        return [shown for name in boards for shown in parts.get(name, [name])]


def no_such(what: str, name: str) -> Refused:
    """The refusal for a name that leads nowhere."""
    remedy = "it may have been renamed or taken out: look again"
    return refused("not there", f"there is no {what} called {name}", remedy)


class Draughtsman:
    """Draws texts, keeping between them what did not change.

    Attributes:
        file: as messages call it.
        made: what is cut, measured and pinned.
    """

    def __init__(self, file: str, shop: Shop | None, made: Made) -> None:
        self.file = file
        self.shop = shop
        self.made = made
        self.bench = Kept()
        self._logged = ""
        self._tried: tuple[Drawn, Drawn] | None = None

    def draw(self, text: str, job: Job | None = None) -> Drawn:
        """Draw a text; `job` is what it reads as, where that is known already.

        Raises:
            JobError: it cannot be read; or, by a fault of ours, not drawn.
        """
        try:
            return self._draw(text, job if job is not None else read_job_text(text, self.file))
        except JobError:
            raise
        except Exception as error:
            raise self._not_drawn(error) from error

    def _draw(self, text: str, job: Job) -> Drawn:
        self.bench.keep.limit = max(KEPT, KEPT_A_BOARD * len(job.boards))
        piece = piece_of(job, self.shop, self.made, self.bench)
        return Drawn(
            text=text,
            job=job,
            piece=piece,
            elevation=elevation(job, piece, self.bench.keep),
            findings=in_order(list(piece.findings)),
        )

    def sure(self, drawn: Drawn) -> Drawn:
        """The same with only those cures that were tried: for what rests, not for each step of a drag."""
        if not any(finding.cures for finding in drawn.findings):
            return drawn
        if self._tried is None or self._tried[0] is not drawn:
            before = (*drawn.findings, *overlaps(drawn.piece, self.bench).findings)
            trial = CureTrial(drawn.job, before, self._found)
            self._tried = drawn, replace(drawn, findings=trial.sure(drawn.findings))
        return self._tried[1]

    def _found(self, job: Job) -> tuple[Finding, ...]:
        return set_out_findings(job, self.shop, self.made, self.bench)

    def _not_drawn(self, error: Exception) -> JobError:
        """What nobody foresaw, as a mistake that the page can show; in the log once, not at every step of a drag."""
        says = our_fault("draw this", error)
        if self._logged != says:
            LOG.error("%s", says, exc_info=error)
        self._logged = says
        remedy = "undo the last change, or write it another way"
        return JobError((Mistake(file=self.file, line=0, says=says, remedy=remedy),))

    def tried(self, text: str, job: Job | None = None) -> tuple[Drawn | None, tuple[Mistake, ...]]:
        """The drawing of a text, or its mistakes."""
        try:
            return self.draw(text, job), ()
        except JobError as error:
            return None, error.mistakes
