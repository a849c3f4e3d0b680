"""The map of the wall: a drawing, the holes with a box each, and how they are marked and drilled."""

from collections.abc import Iterator, Sequence

from ....sentences import On
from ....studies.marking.result import Marks
from ...display import Draft, Item, extent, shifted
from ...lettering import printable
from ...looks import Desk
from ...naming import LEAST, fine, position, scale_words
from ...sheet import sheet
from ...standard import A4, FIRST, SCALES
from ..fixings.chain import Point, Zero, into_words, points, zero
from ..page.frame import heading, space
from ..page.prose import TextPlace, flow
from ..page.sheaf import Sheaf
from ..page.table import Cell, Row, bold
from .drawing import DatumLines, drawing, letter, outer
from .words import WAYS, cautions, hole, marking, strays, trying

SIZE = (A4[1], A4[0])
WORDS_WIDE = 74.0
SIGN, TITLE = "+", "map of the wall"
HOLES = ("hole", "board", "right of the plumb line", "over the level line", "into", "found", "drilled")
ROWS = ("fixing", "marked", "errors (s each way)", "all", "hole now", "hole for 95 %", "or slots high", "washer covers")


@sheet("map of the wall", paper="hanging", order=20)
def wall_map(desk: Desk) -> Iterator[Draft]:
    """The drawing, then what is done; nothing where no screws go into the wall."""
    found = points(desk)
    if not found:
        return
    marks, lines = desk.book.found(Marks), DatumLines.of(desk, found)
    yield _drawn(desk, found, lines, marks)
    yield from _told(desk, found, lines, marks)


def _drawn(desk: Desk, found: Sequence[Point], lines: DatumLines, marks: Marks | None) -> Draft:
    room = space(SIZE, desk)
    facts = (f"level line {position(lines.level)} over the floor", _plumb(desk, lines), "seen from the room")
    items, top = heading(SIGN, TITLE, facts, room.right)
    for scale in SCALES[2:]:
        left, above, right, below = extent(made := drawing(desk, found, lines, marks, scale))
        if right - left <= room.wide - WORDS_WIDE - FIRST and below - above <= room.bottom - top:
            break
    said = flow([TextPlace(room.right - WORDS_WIDE, top, WORDS_WIDE, room.bottom)], [*cautions(marks, desk.book.voice)])
    all_items: tuple[Item, ...] = (*items, *shifted(made, room.left - left, top - above), *said.items)
    return Draft(title=TITLE, kind="hanging", number="W1", scale=scale_words(scale), size=SIZE, items=all_items)


def _plumb(desk: Desk, lines: DatumLines) -> str:
    start = zero(desk)
    off = lines.plumb - start.x
    if abs(off) <= LEAST:
        return f"plumb line at {start.says}"
    return f"plumb line {position(abs(off))} {'right' if off > 0 else 'left'} of {start.says}"


def _told(desk: Desk, found: Sequence[Point], lines: DatumLines, marks: Marks | None) -> Iterator[Draft]:
    sheaf = Sheaf(desk, letter=SIGN, title="holes in the wall", says=("from the two lines alone",), kind="hanging",
                  number="H")  # fmt: skip
    sheaf.table("holes", HOLES, [_hole(desk, point, lines) for point in found])
    across = [(bold(f"{a.number} to {b.number}"), bold(position(size)), Cell(tick=True)) for a, b, size in outer(found)]
    if across:
        sheaf.table("diagonals of the outer holes", ("holes", "apart", "measured"), across)
    if marks is not None:
        zones = [
            (bold(letter(number)), Cell(text=zone.says.said(desk.book.voice)))
            for number, zone in enumerate(marks.zones)
        ]
        if zones:
            sheaf.table("zones of cables", ("", "where"), zones)
        met = [row for row in marks.rows if row.strays]
        if met:
            rows: list[Row] = [
                (
                    Cell(text=printable(row.fixing)),
                    Cell(text=row.way),
                    Cell(text=strays(row)),
                    Cell(text=fine(row.s)),
                    Cell(text=position(row.hole)),
                    bold(hole(row.wanted)),
                    Cell(text=hole(row.slot)),
                    Cell(text=hole(row.covers, On.DOWN)),
                )
                for row in met
            ]
            sheaf.table("marking and drilling", ROWS, rows)
        ways = dict.fromkeys(WAYS[row.way] for row in marks.rows)
        sheaf.paragraphs("how they are marked", [*marking(marks)] if ways else [])
    sheaf.paragraphs("trying a hole", [*trying()])
    yield from sheaf.drafts()


def _hole(desk: Desk, point: Point, lines: DatumLines) -> Row:
    x, y = lines.at(point)
    return (
        bold(str(point.number)),
        Cell(text=printable(f"{desk.marks[point.board]} {point.board}")),
        bold(position(x)),
        bold(position(y)),
        Cell(text=printable(into_words(point, Zero(lines.plumb, "")))),
        Cell(tick=True),
        Cell(tick=True),
    )
