"""The finish against the trade's table: where no film is known of it, slots would be cut for bare wood."""

from collections.abc import Iterator

from ..asking import unanswered
from ..findings import Finding, NotChecked, Severity, declare, question
from ..job.model import Finish
from ..places import Where
from ..trade.finishes import film_of, find_system

FINISH = question("finish", "the finish in the joints")
FINISH_UNKNOWN = declare("finish-unknown", "There are no figures for a finish, so no film is allowed for.")


def finish_without_figures(finish: Finish) -> Iterator[Finding | NotChecked]:
    """A warning where slots should be wider by a film that is not known, else a note."""
    if not finish.system or finish.film > 0.0 or film_of(finish.system) is not None:
        return
    match = find_system(finish.system)
    says = match.says or f"no film is known for {finish.system}"
    yield unanswered(FINISH, says, Where(path=("finish", "system")))
    matters = finish.coats > 0 and finish.before_assembly and finish.joint_zones == "coated"
    yield Finding(
        code=FINISH_UNKNOWN,
        severity=Severity.WARN if matters else Severity.NOTE,
        where=Where(path=("finish", "system")),
        says=f"{says}; slots are cut for bare wood" if matters else says,
        remedy=f"{match.remedy or 'measure it'}, or give the film of one coat, such as film = 0.03",
    )
