"""Boards as they are when finished, with the blank that each is made from."""

from collections import Counter

from ....piece.model import Part
from ...lettering import KEPT, kept, printable
from ...looks import Desk
from ...naming import mass_figure, mass_unit, plural, position, thickness
from ...symbols import Tag
from ..page.prose import WordRun
from ..page.sheaf import Sheaf
from ..page.table import Cell, Row, bold
from ..part.words.facts import fitted_to, scribe_of, tag_shortly, thickness_words

SAME = 0.005
BEFORE_I = 8  # letters A to H: of fewer boards nobody misses one


def board_list(desk: Desk, sheaf: Sheaf) -> None:
    """Every board as it is when finished, and the blank it is made from."""
    heads = ["", "board", "long", "wide", "thick", "blank", mass_unit(), "what is in it", "length is", "have"]
    sheaf.table("boards", heads, [_board(desk, part) for part in _in_order(desk)], _weighed(desk))


def _weighed(desk: Desk) -> list[WordRun]:
    """What all boards weigh, and what a blank is."""
    total = sum(desk.book.mass_kg.values())
    weight = (
        [WordRun(f"All boards together {mass_figure(total)} {mass_unit()} after cutting, at 12 % moisture.")]
        if total
        else []
    )
    planed = any(part.blank.thickness > part.board.thickest + SAME for part in desk.book.piece.parts)
    more = f" and, before planing, ×{KEPT}thickness" if planed else ""
    blank = f"Blank: length with trim and what is left long, ×{KEPT}width{more}."
    return [
        *weight,
        WordRun(blank),
        *([WordRun("Letters I and O are not used.")] if len(desk.marks) > BEFORE_I else []),
    ]


def _in_order(desk: Desk) -> list[Part]:
    return sorted(desk.book.piece.parts, key=lambda part: (len(part.mark), part.mark))


def _board(desk: Desk, part: Part) -> Row:
    board = part.board
    mass = desk.book.mass_kg.get(part.id)
    return (
        bold(part.mark),
        Cell(text=printable(part.id)),
        Cell(text=position(part.length)),
        Cell(text=position(board.depth)),
        Cell(text=_thick(part)),
        Cell(text=_blank_words(part)),
        Cell(text="" if mass is None else mass_figure(mass)),
        Cell(text=_contents(part)),
        Cell(tags=(_length_tag(desk, part),)),
        Cell(tick=True),
    )


def _thick(part: Part) -> str:
    """From the datum end to the far end: "24", "24.1 to 23.8"."""
    ends = [part.board.thickness_at(a) for a in part.long]
    sizes = list(dict.fromkeys(map(thickness, ends)))
    return thickness_words(part.board) if len(sizes) == 1 else " to ".join(sizes)


def _blank_words(part: Part) -> str:
    """Length and width to saw it to; its thickness too where it is planed after that."""
    rough, planed = part.blank, part.blank.thickness > part.board.thickest + SAME
    sizes = (rough.length, rough.width, *([rough.thickness] if planed else []))
    return " × ".join(map(position, sizes))


def _contents(part: Part) -> str:
    """What is cut in a board, by its plain noun: "3 slots, 1 housing, 4 holes"."""
    kinds: Counter[str] = Counter()
    for cut in part.cuts:
        if not cut.end:
            kinds[cut.plain] += len(cut.shapes) if cut.form.in_rows else 1  # a row of holes is one cut
    return ", ".join(kept(plural(count, kind)) for kind, count in kinds.items()) or "ends only"


def _length_tag(desk: Desk, part: Part) -> tuple[Tag, str]:
    ends = sorted((cut for cut in part.cuts if cut.end), key=lambda cut: cut.end)
    for cut in ends:
        if cut.size_is == "LEAVE LONG":
            return cut.size_is, tag_shortly(desk, cut, scribe_of(part, cut.end))
    fitted = [fitted_to(desk, cut) for cut in ends if cut.size_is == "FIT TO"]
    return ("FIT TO", f"FIT TO {', '.join(dict.fromkeys(fitted))}") if fitted else ("FIXED", "FIXED")
