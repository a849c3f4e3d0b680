"""What is coated before the piece goes together, and what of it stays bare, as far as the job's `[finish]` says."""

from collections.abc import Iterable, Iterator

from .....job.model import Finish
from .....piece.setout import finished_early
from .....places import Pair
from ....looks import Desk, Look
from ....naming import in_runs, plural

INSIDE = 0.5  # a mask ends so far inside a joint, so that no bare line shows beside it (common practice)


def finish_of(desk: Desk) -> Finish:
    """The finish of the piece that is drawn."""
    return (desk.book.piece.job or desk.book.job).finish


def bare_joints(desk: Desk, name: str) -> list[Pair]:
    """The joints in which a board that is finished early stays bare: all where zones are masked, else what is glued."""
    finish = finish_of(desk)
    if not finished_early(name, finish):
        return []
    mine = (joint for joint in desk.book.piece.joints if name in joint.key)
    return [joint.key for joint in mine if finish.joint_zones == "masked" or joint.glued]


def coats_words(finish: Finish) -> str:
    """How many coats of what, as far as it is said: "2 coats of varnish, polyurethane"."""
    coats = plural(finish.coats, "coat") if finish.coats else "coats"
    return f"{coats} of {finish.system}" if finish.system else coats


def finish_words(desk: Desk, look: Look, zones: Iterable[str]) -> Iterator[str]:
    """What is coated early and what is masked; nothing for a board of which that is not said.

    Args:
        zones: where its faces are masked, in words.
    """
    finish = finish_of(desk)
    if not finished_early(look.part.id, finish):
        return
    yield f"{coats_words(finish)[:1].upper()}{coats_words(finish)[1:]} before assembly."
    bare = bare_joints(desk, look.part.id)
    walls = sorted(look.numbers[cut.key] for cut in look.part.cuts if cut.joint in bare and not cut.end and cut.takes)
    ends = [cut for cut in look.part.cuts if cut.joint in bare and cut.end]
    crossed = f"what is crossed through, to {INSIDE:g} inside its border"
    kept = [f"{crossed} ({'; '.join(zones)})" if (zones := list(zones)) else crossed] if bare else []
    kept += [f"the walls and seats of {in_runs(walls)}"] if walls else []
    kept += ["both ends" if len(ends) == 2 else "the end that is jointed"] if ends else []
    if kept:
        yield f"Mask {' and '.join(kept)}."
