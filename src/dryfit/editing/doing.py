"""From what a hand does on the page to edits of the job file, and the sentence that says so.

The page sends what was done - moved, typed, drawn, copied - and never edits of its own making; what it may
send as edits are the cures and decisions that it was given.
"""

from dataclasses import replace

from ..errors import EditError, JobError
from ..job.edits import sheet_of
from ..job.renaming import renamed_in_records
from ..piece.setout import NOTHING_MADE, Made
from ..places import Edit
from . import making, moving, openings, requests, typing_in, walling
from .composed import Composed
from .cutting import asked_first, cut_in, ticked
from .derived import derived
from .drawn import Drawn
from .refusals import mistaken, refused


def compose(drawn: Drawn | None, text: str, doing: requests.Doing, made: Made = NOTHING_MADE) -> Composed:
    """The edits for what was done; `made` is what is cut.

    Raises:
        Refused: it cannot be done; with what would be right.
    """
    if isinstance(doing, requests.EditsSent):
        edits = tuple(sent.edit() for sent in doing.edits)
        return Composed(edits=edits, says=said_of(edits), renames=_renames(text, edits))
    if drawn is None:
        raise refused("refused", "there is no drawing yet", "put the text right first")
    try:
        return _composed(drawn, doing, made)
    except (EditError, JobError) as error:
        first = error.mistakes[0]
        raise refused("refused", first.says, first.remedy, mistakes=mistaken(text, error.mistakes)) from None


def _renames(text: str, edits: tuple[Edit, ...]) -> tuple[tuple[str, str], ...]:
    """The boards and fixings that renames among edits call anew."""
    found: dict[str, str] = {}
    for edit in edits:
        if edit.action == "rename" and edit.path[:1] in (("board",), ("frame",), ("fixing",)):
            try:
                found |= renamed_in_records(sheet_of(text).data, edit.path, str(edit.value))
            except (KeyError, IndexError, TypeError, ValueError):  # there is no such name: refused when it is written
                continue
    return tuple(found.items())


def _composed(drawn: Drawn, doing: requests.Doing, made: Made) -> Composed:
    match doing:
        case requests.DragSent():
            return moving.dragged(drawn, doing)
        case requests.FigureSent():
            return moving.figure_typed(drawn, doing)
        case requests.TypedSent() | requests.TableAddedSent() | requests.TableTakenSent():
            return typing_in.typed_on_a_card(drawn, doing)
        case requests.DerivedSent():
            return derived(drawn, doing)
        case requests.DrawSent():
            return making.drawn_new(drawn, doing)
        case requests.RowSent() | requests.ClearSent():
            return openings.done_in_bay(drawn, doing, made)
        case requests.WallSent():
            return walling.wall_typed(drawn, doing)
        case requests.CopySent():
            return replace(making.copied(drawn, doing), asks=asked_first(doing, made, drawn))
        case requests.MirrorSent():
            return replace(making.mirrored(drawn, doing), asks=asked_first(doing, made, drawn))
        case requests.DeleteSent():
            uncut = cut_in(drawn, made, doing.boards)
            return replace(making.deleted(drawn, doing), uncut=uncut, asks=asked_first(doing, made, drawn))
        case requests.CutsSent():
            return ticked(drawn, made, doing)
        case _:
            raise AssertionError(f"nothing composes {type(doing).__name__}")


def said_of(edits: tuple[Edit, ...]) -> str:
    """What edits do, where nobody said it better."""
    words = {"set": "set", "add": "added", "remove": "removed", "rename": "renamed", "shift": "moved"}
    first = edits[0]
    place = ".".join(str(step) for step in first.path)
    more = f" and {len(edits) - 1} more" if len(edits) > 1 else ""
    return f"{words[first.action]} {place}{more}"
