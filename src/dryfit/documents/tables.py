"""parts.csv: one row a part, for a spreadsheet or another program (RFC 4180).

A name that a spreadsheet would take for a formula is made harmless; figures are plain numbers in mm and kg.
"""

from collections.abc import Iterable

from ..book.model import Book
from ..geometry.views import Surface
from .bookjson import book_stamp, rounded
from .looks import Desk, Look

COLUMNS = (
    "id", "board", "mark", "timber", "species", "length", "width", "thickness",
    "blank_length", "blank_width", "blank_thickness", "mass_kg", "cuts", "face_side", "face_edge", "datum_end", "stamp",
)  # fmt: skip
FORMULA = ("=", "+", "-", "@", "\t", "\r")


def parts_csv(book: Book, desk: Desk | None = None) -> str:
    """The parts in the order of their marks, with a head line; lines end in CR LF as the RFC asks."""
    rows = [COLUMNS, *part_rows(desk or Desk(book))]
    return "".join(",".join(map(field, row)) + "\r\n" for row in rows)


def part_rows(desk: Desk) -> list[tuple[str, ...]]:
    """A row a part under `COLUMNS`, names as they are."""
    looks = sorted(desk.looks.values(), key=lambda look: (len(look.part.mark), look.part.mark))
    return [_row(desk, look) for look in looks]


def _row(desk: Desk, look: Look) -> tuple[str, ...]:
    part, board = look.part, look.part.board
    timber = desk.book.job.timbers.get(board.timber)
    mass = desk.book.mass_kg.get(part.id)
    words = (part.id, board.name, part.mark, board.timber, timber.species if timber else "")
    sizes = (part.length, board.depth, board.thickest, part.blank.length, part.blank.width, part.blank.thickness)
    surfaces = (look.names.face_side, Surface.FRONT, Surface.DATUM)
    cuts = sum(1 for cut in part.cuts if cut.joint is not None or not cut.end)
    return (
        *words,
        *_numbers(sizes),
        "" if mass is None else _numbers([mass])[0],
        str(cuts),
        *(str(look.names.words[surface]) for surface in surfaces),
        book_stamp(desk),
    )


def _numbers(values: Iterable[float]) -> list[str]:
    return [f"{rounded(value):.3f}".rstrip("0").rstrip(".") for value in values]


def field(text: str) -> str:
    """A text as one field: an apostrophe before what a spreadsheet would calculate, quoted where it must be."""
    safe = f"'{text}" if text.startswith(FORMULA) else text
    if any(letter in safe for letter in ',"\r\n'):
        return '"' + safe.replace('"', '""') + '"'
    return safe
