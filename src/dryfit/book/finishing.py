"""The finish against the trade's table: where no film is known of it, slots would be cut for bare wood."""

from collections.abc import Iterator

from ..asking import MOST_TOLD, unanswered
from ..findings import Finding, NotChecked, Severity, declare, owns, question
from ..job.model import Finish
from ..piece.model import Piece
from ..piece.setout import zones_coated
from ..places import Cure, Edit, Where
from ..sentences import Name, few, say
from ..trade.finishes import film_of, find_system

FILM_IN_GLUE = declare("film-in-glue", "Boards are to be coated where they are glued: glue does not hold on film.")
FINISH = question(
    "finish",
    "the finish in the joints",
    lambda piece: piece.in_several and bool(piece.job and (piece.job.finish.system or piece.job.finish.coats)),
)
FINISH_UNKNOWN = declare("finish-unknown", "There are no figures for a finish, so no film is allowed for.")
owns(FINISH, FILM_IN_GLUE, FINISH_UNKNOWN)


def finish_without_figures(finish: Finish) -> Iterator[Finding | NotChecked]:
    """A warning where slots should be wider by a film that is not known, else a note."""
    if not finish.system or finish.film > 0.0 or film_of(finish.system) is not None:
        return
    match = find_system(finish.system)
    says = match.says or say("no film thickness is known for {}", finish.system)
    yield unanswered(FINISH, says, Where(path=("finish", "system")))
    matters = finish.coats > 0 and finish.before_assembly and finish.joint_zones == "coated"
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
    """A warning, once for the piece, where the job coats joint zones and some of those joints are glued."""
    finish = piece.job.finish if piece.job is not None else Finish()
    coated = {board.name for board in piece.boards if zones_coated(board.name, finish)}
    glued = (joint.key for joint in piece.joints if joint.glued)
    touched = [key for key in glued if coated.intersection(key)]
    if not touched:
        return
    pairs = [say("{} and {}", Name(one), Name(other)) for one, other in touched]
    yield Finding(
        code=FILM_IN_GLUE,
        severity=Severity.WARN,
        where=Where(
            boards=tuple(dict.fromkeys(name for key in touched for name in key)), path=("finish", "joint_zones")
        ),
        says=say(
            "joint faces are to be coated, but {} are glued: they are worked out as bare wood",
            few(pairs, MOST_TOLD, last=", "),
        ),
        remedy="mask the glued faces, or leave those joints dry with glued = false",
        source="common practice: glue does not hold on film",
        cures=(Cure(label="mask the joint faces", edits=(_masked(),)),),
    )


def _masked() -> Edit:
    return Edit(action="set", path=("finish", "joint_zones"), value="masked")
