"""The finish against the trade's table: where no film is known of it, slots would be cut for bare wood."""

from collections.abc import Iterator

from ..asking import MOST_TOLD, unanswered
from ..findings import Finding, NotChecked, Severity, declare, owns, question
from ..job.model import Finish
from ..piece.history import Stage, closed_in_words, coated_in_words
from ..piece.model import Piece
from ..places import Cure, Edit, Where
from ..sentences import Count, Name, few, say
from ..trade.finishes import film_of, find_system

FILM_IN_GLUE = declare(
    "film-in-glue",
    "Boards are to be coated where they are glued: glue does not hold on film.",
    uncured="which finish goes where, and when, is your choice",
)
FINISH = question(
    "finish",
    "the finish in the joints",
    lambda piece: piece.in_several and bool(piece.job and (piece.job.finish.system or piece.job.finish.coats)),
)
FINISH_UNKNOWN = declare(
    "finish-unknown",
    "There are no figures for a finish, so no film is allowed for.",
    uncured="no known finish has a name near to it",
)
owns(FINISH, FILM_IN_GLUE, FINISH_UNKNOWN)


def finish_without_figures(finish: Finish, piece: Piece) -> Iterator[Finding | NotChecked]:
    """A warning where slots should be wider by a film that is not known, else a note."""
    if not finish.system or finish.film > 0.0 or film_of(finish.system) is not None:
        return
    match = find_system(finish.system)
    says = match.says or say("no film thickness is known for {}", finish.system)
    yield unanswered(FINISH, says, Where(path=("finish", "system")))
    matters = any(zone.state == "coated" for met in piece.history.contacts.values() for zone in met.zones)
    yield Finding(
        code=FINISH_UNKNOWN,
        severity=Severity.WARN if matters else Severity.NOTE,
        where=Where(path=("finish", "system")),
        says=say("{}; slots are cut for bare wood", says) if matters else says,
        remedy=say("{}, or give the film of one coat, such as film = 0.03", match.remedy or "measure it"),
        cures=tuple(_called(system.name) for system in match.candidates if film_of(system.name) is not None),
    )


def _called(name: str) -> Cure:
    """The finish under a name that it may have been meant by; which it is, the maker knows."""
    return Cure(label=say("it is {}", name), edits=(Edit(action="set", path=("finish", "system"), value=name),))


def film_in_glue(piece: Piece) -> Iterator[Finding]:
    """A stop, once for the piece, where boards are coated before they are glued and their joints are not masked."""
    finish, history = piece.job.finish if piece.job is not None else Finish(), piece.history
    if finish.joint_zones == "masked":
        return
    touched = [met for met in history.contacts.values() if met.glued and "masked" in (one.state for one in met.zones)]
    if not touched:
        return
    first = touched[0]
    coated = next(name for name in first.key if first.of(name).state == "masked")
    later = "on site" if any(met.stage is Stage.PUT_IN for met in touched) else "after glue"
    pairs = [say("{} and {}", *map(Name, met.key)) for met in touched]
    every = say(" ({} in all: {})", Count(len(pairs), "joint"), few(pairs, MOST_TOLD, last=", "))
    yield Finding(
        code=FILM_IN_GLUE,
        severity=Severity.STOP,
        where=Where(
            boards=tuple(dict.fromkeys(name for met in touched for name in met.key)), path=("finish", "joint_zones")
        ),
        says=say(
            "{}, its joints not masked, and {}: glue does not hold on film{}",
            coated_in_words(coated, history.lives[coated], first.stage),
            closed_in_words(first),
            every if len(pairs) > 1 else "",
        ),
        remedy=say("mask the glued faces, coat {}, or leave those joints dry with glued = false", later),
        source="common practice: glue does not hold on film",
        cures=(
            Cure(label="mask the joint faces", edits=(_masked(),)),
            Cure(label=say("coat {}", later), edits=(Edit(action="set", path=("finish", "when"), value=later),)),
        ),
    )


def _masked() -> Edit:
    return Edit(action="set", path=("finish", "joint_zones"), value="masked")
