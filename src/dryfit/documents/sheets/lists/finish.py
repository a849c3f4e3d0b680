"""The finish as far as the job says it: what is coated before assembly, what is masked, and what is not known yet."""

from collections.abc import Iterator

from ....piece.setout import finished_early
from ...lettering import printable
from ...looks import Desk
from ..page.prose import Run, strong
from ..page.sheaf import Sheaf
from ..part.words.finish import coats_words, finish_of
from ..part.words.together import lettered

UNKNOWN = "Coats: not known yet."


def finish_list(desk: Desk, sheaf: Sheaf) -> None:
    """One paragraph."""
    sheaf.paragraphs("", [[strong("Finish."), *_said(desk)]])


def _said(desk: Desk) -> Iterator[Run]:
    finish = finish_of(desk)
    if not finish.coats and not finish.system:
        yield strong(UNKNOWN)
        yield Run("The job names no finish: add [finish] to it, or agree on bare wood.")
        return
    words = coats_words(finish)
    yield strong(printable(f"{words[:1].upper()}{words[1:]}.") if finish.coats else UNKNOWN)
    parts = sorted(desk.book.piece.parts, key=lambda part: (len(part.mark), part.mark))
    early = [part.mark for part in parts if finished_early(part.id, finish)]
    late = [part.mark for part in parts if not finished_early(part.id, finish)]
    if early:
        zones = "joints masked" if finish.joint_zones == "masked" else "joints coated, glued faces masked"
        yield Run(f"Before assembly: {lettered(early)}, {zones}, as their sheets show.")
    if late:
        yield Run(f"When {lettered(late)} {'is' if len(late) == 1 else 'are'} coated: not known yet.")
