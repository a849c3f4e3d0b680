"""When a board is coated, and what of it stays bare, as far as the job says."""

from collections.abc import Iterable, Iterator, Mapping

from .....job.model import Finish, When
from .....piece.history import Life, Stage
from ....looks import Desk, Look
from ....naming import in_runs, plural

AT: Mapping[When, str] = {
    "before glue": "before assembly",
    "after glue": "after gluing, in the shop",
    "on site": "on site, when it hangs",
}
INSIDE = 0.5  # a mask ends so far inside a joint, so that no bare line shows beside it (common practice)


def finish_of(desk: Desk) -> Finish:
    """The finish of the piece that is drawn."""
    return (desk.book.piece.job or desk.book.job).finish


def coats_words(finish: Finish) -> str:
    """How many coats of what, as far as it is said: "2 coats of varnish, polyurethane"."""
    coats = plural(finish.coats, "coat") if finish.coats else "coats"
    return f"{coats} of {finish.system}" if finish.system else coats


def when_coated(finish: Finish, life: Life) -> str:
    """One sentence: "2 coats of shellac before assembly."; of coats that are divided, how many are when."""
    if life.when is None or life.when == "none":
        return "No finish goes on it."
    coats, first = coats_words(finish), life.before(Stage.GLUED)
    if life.when == "before glue" and first < finish.coats:
        number = f"{first} of " if first else "None of "
        return f"{number}{coats} before assembly, {'the rest' if first else 'all'} {AT['after glue']}."
    return f"{coats[:1].upper()}{coats[1:]} {AT[life.when]}."


def finish_words(desk: Desk, look: Look, zones: Iterable[str]) -> Iterator[str]:
    """When it is coated and what is masked; nothing for a board of which the job does not say that.

    Args:
        zones: where its faces are masked, in words.
    """
    finish, history = finish_of(desk), desk.book.piece.history
    life = history.lives.get(look.part.id)
    if life is None or life.when is None or not life.said or not finish.coats:
        return
    yield when_coated(finish, life)
    bare = history.masked(look.part.id)
    walls = sorted(look.numbers[cut.key] for cut in look.part.cuts if cut.joint in bare and not cut.end and cut.takes)
    ends = [cut for cut in look.part.cuts if cut.joint in bare and cut.end]
    crossed = f"what is crossed through, to {INSIDE:g} inside its border"
    kept = [f"{crossed} ({'; '.join(zones)})" if (zones := list(zones)) else crossed] if bare else []
    kept += [f"the walls and seats of {in_runs(walls)}"] if walls else []
    kept += ["both ends" if len(ends) == 2 else "the end that is jointed"] if ends else []
    if kept:
        yield f"Mask {' and '.join(kept)}."
