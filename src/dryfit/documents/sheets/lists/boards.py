"""Boards as they are when finished, and the blanks to order for them."""

from collections import Counter

from ....piece.model import DATUM_END, FAR_END, Part
from ...lettering import printable
from ...looks import Desk
from ...naming import plural, position, run, thickness
from ...symbols import Tag
from ..page.prose import KEPT, Run
from ..page.sheaf import Sheaf
from ..page.table import Cell, Column, Row, bold
from ..part.words.facts import scribe_of, stock_words, tag_of, thickness_words

SAME = 0.005
BEFORE_I = 8  # letters A to H: of fewer boards nobody misses one


def board_list(desk: Desk, sheaf: Sheaf) -> None:
    """Every board as it is when finished, and the blank it is made from."""
    columns = [
        Column(title="", wide=7.0),
        Column(title="board", wide=28.0),
        Column(title="long", wide=15.2),
        Column(title="wide", wide=13.4),
        Column(title="thick", wide=19.8),
        Column(title="blank", wide=28.6),
        Column(title="kg", wide=9.0),
        Column(title="what is in it", wide=32.6),
        Column(title="length is", wide=17.4),
        Column(title="have", wide=9.0),
    ]
    sheaf.table("boards", columns, [_board(desk, part) for part in _in_order(desk)], _weighed(desk))


def _weighed(desk: Desk) -> list[Run]:
    """What all boards weigh, and what a blank is."""
    total = sum(desk.book.mass_kg.values())
    weight = [Run(f"All boards together {total:.1f} kg after cutting, at 12 % moisture.")] if total else []
    planed = any(part.blank.thickness > part.board.thickest + SAME for part in desk.book.piece.parts)
    more = f" and, before planing, ×{KEPT}thickness" if planed else ""
    blank = f"Blank: length with trim and what is left long, ×{KEPT}width{more}."
    return [*weight, Run(blank), *([Run("Letters I and O are not used.")] if len(desk.marks) > BEFORE_I else [])]


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
        Cell(text="" if mass is None else f"{mass:.1f}"),
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
            noun = cut.kind.rsplit(" ", 1)[-1]
            kinds[noun] += len(cut.shapes) if noun.endswith("s") else 1  # a row of holes is one cut
    return ", ".join(plural(count, kind).replace(" ", KEPT) for kind, count in kinds.items()) or "ends only"


def _length_tag(desk: Desk, part: Part) -> tuple[Tag, str]:
    for end in (DATUM_END, FAR_END):
        for cut in part.cuts:
            if cut.end == end and cut.size_is != "FIXED":
                kind, text = tag_of(desk, cut, scribe_of(part, end))
                return kind, text.removeprefix("LEAVE ")
    return "FIXED", "FIXED"


# --- blanks to order -----------------------------------------------------------------------------


def blank_list(desk: Desk, sheaf: Sheaf) -> None:
    """What to saw or to order, by timber and section."""
    columns = [
        Column(title="timber", wide=50.0),
        Column(title="thick × wide", wide=24.0),
        Column(title="lengths, longest first", wide=66.0),
        Column(title="pieces", wide=13.0),
        Column(title="in all", wide=18.0),
        Column(title="have", wide=9.0),
    ]
    found: dict[tuple[str, float, float], list[float]] = {}
    for part in desk.book.piece.parts:
        key = (stock_words(desk, part.board), round(part.blank.thickness, 2), round(part.blank.width, 2))
        found.setdefault(key, []).append(part.blank.length)
    rows = [_blank(key, sorted(lengths, reverse=True)) for key, lengths in sorted(found.items())]
    sheaf.table("blanks to order", columns, rows)


def _blank(key: tuple[str, float, float], lengths: list[float]) -> Row:
    """One row for a section."""
    timber, thick, wide = key
    return (
        Cell(text=printable(timber)),
        bold(f"{position(thick)} × {position(wide)}"),
        Cell(text=" · ".join(position(length) for length in lengths)),
        Cell(text=str(len(lengths))),
        Cell(text=run(sum(lengths))),
        Cell(tick=True),
    )
