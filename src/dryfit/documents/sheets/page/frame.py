"""What every sheet has: heading with its letter, title block, and the word STOP where it is due.

Margins left 20 (filing), others 10 (ISO 5457); no frame line. The title block has the fields of ISO 7200 in
workshop words, 180 wide and 17 high, bottom right.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from ....geometry.frames import Vec2
from ...display import Area, Display, Item, Stroke, Strokes, Text, rectangle
from ...lettering import CAPTION, FIGURE, LETTER, NAME, TEXT, fitted, printable, width
from ...looks import Desk
from ...naming import printed_units
from ..registry import Draft
from .prose import DOT, largest, packed

LEFT, MARGIN = 20.0, 10.0
BLOCK_WIDE, BLOCK_HIGH, BLOCK_ROW = 180.0, 17.0, 8.5
LETTER_WIDE, LETTER_HIGH = 14.0, 12.0
STOP_HIGH = 6.0
BARS = "\u2261"  # stands for the sign of a list, which is drawn: the fonts have no such letter

# left edges of the fields in the two rows, from the block's left, with their captions
_UPPER = ((0.0, "job"), (33.0, "title"), (94.0, "kind of paper"), (124.0, "cut by"), (153.0, "number"))
_LOWER = (
    (0.0, "state of the file"),
    (33.0, "scale"),
    (69.0, "units"),
    (94.0, "date"),
    (124.0, "checked by"),
    (153.0, "page"),
)
_LARGE = ("title", "number", "page")


@dataclass(frozen=True, slots=True, kw_only=True)
class Space:
    """Where things may stand on a sheet: left, top, right, bottom of the free part above the title block."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def wide(self) -> float:
        """Width."""
        return self.right - self.left

    @property
    def high(self) -> float:
        """Height."""
        return self.bottom - self.top


def space(size: tuple[float, float], desk: Desk) -> Space:
    """The free part of a sheet, above the title block and, with stops in the book, above their line."""
    wide, high = size
    stop = STOP_HIGH + 2.0 if desk.book.stops else 0.0
    return Space(left=LEFT, top=MARGIN, right=wide - MARGIN, bottom=high - MARGIN - BLOCK_HIGH - stop - 2.0)


def beside_block(size: tuple[float, float]) -> float:
    """Width of the strip left of the title block: 0 on a portrait sheet."""
    return max(0.0, size[0] - MARGIN - BLOCK_WIDE - LEFT - 3.0)


def heading(letter: str, name: str, facts: str, right: float, left: float = LEFT) -> tuple[list[Item], float]:
    """The letter white on black, the name beside it, the facts below it.

    Args:
        right: where the room for name and facts ends.

    Returns:
        The items, and the y below which the sheet is free.
    """
    wide = max(LETTER_WIDE, width(letter, LETTER, "bold") + 5.0) if letter else 0.0
    items: list[Item] = []
    if letter:
        ground, sign = black(letter, (left, MARGIN, wide, LETTER_HIGH), LETTER)
        items += [ground, *_bars(left, wide)] if letter == BARS else [ground, sign]
    text_left = left + wide + (3.0 if letter else 0.0)
    items.append(name_in(printable(name), (text_left, MARGIN + NAME), right - text_left))
    base = MARGIN + LETTER_HIGH - 1.0
    for line in packed(printable(facts).split(DOT), right - text_left, broken=True):
        items.append(Text(at=(text_left, base), text=line, layer="frame"))
        base += 4.0
    return items, max(base - 4.0 + 1.6, MARGIN + LETTER_HIGH) + 1.4


def name_in(name: str, at: Vec2, room: float) -> Text:
    """A name in the heading, smaller where it is long; what has no room even so is cut short with an ellipsis."""
    size = largest(name, (NAME, FIGURE, TEXT), room, "semibold")
    return Text(at=at, text=fitted(name, room, size, "semibold"), size=size, weight="semibold", layer="frame")


def _bars(left: float, wide: float) -> list[Item]:
    """The sign of a list: three white bars on black."""
    bars = (rectangle(left + wide / 2 - 3.6, MARGIN + 2.6 + 2.8 * row, 7.2, 1.2) for row in range(3))
    return [Area(loops=(bar,), ink="white", layer="frame") for bar in bars]


def black(text: str, room: tuple[float, float, float, float], size: float) -> list[Item]:
    """Loud words, white in the middle of a black room of left, top, width, height."""
    left, top, wide, high = room
    at = (left + wide / 2, top + (high + size) / 2)
    return [
        Area(loops=(rectangle(*room),), layer="frame"),
        Text(at=at, text=text, size=size, weight="bold", anchor="middle", ink="white", layer="frame"),
    ]


def said(x: float, rows: Sequence[tuple[str, str]]) -> list[Item]:
    """Pairs of a loud word and what it is, as FACE SIDE upper face; `x` is where the second column starts."""
    items: list[Item] = []
    for number, (loud, plain) in enumerate(rows):
        base = MARGIN + TEXT + 0.4 + number * 4.2
        items.append(Text(at=(x - 2.0, base), text=loud, weight="semibold", anchor="end", layer="frame"))
        items.append(Text(at=(x, base), text=printable(plain), layer="frame"))
    return items


def finished(draft: Draft, page: int, pages: int, desk: Desk) -> Display:
    """A draft with its title block, as a drawing to print."""
    wide, high = draft.size
    block = _block(draft, page, pages, desk, wide - MARGIN - BLOCK_WIDE, high - MARGIN - BLOCK_HIGH)
    stop = stop_line(draft, desk)
    return Display(width=wide, height=high, items=(*draft.items, *stop, *block))


def stop_line(draft: Draft, desk: Desk) -> list[Item]:
    """A black line above the title block while the book has stops; nothing on a sound book."""
    count = len(desk.book.stops)
    if not count:
        return []
    wide, high = draft.size
    left, top = wide - MARGIN - BLOCK_WIDE, high - MARGIN - BLOCK_HIGH - STOP_HIGH - 1.5
    must = "1 thing must" if count == 1 else f"{count} things must"
    text = f"STOP   do not cut from this sheet: {must} change first, see the list of findings"
    at = (left + 2.0, top + (STOP_HIGH + TEXT) / 2)
    return [
        Area(loops=(rectangle(left, top, BLOCK_WIDE, STOP_HIGH),), layer="stop"),
        Text(at=at, text=text, weight="semibold", ink="white", layer="stop"),
    ]


def _block(draft: Draft, page: int, pages: int, desk: Desk, left: float, top: float) -> list[Item]:
    job = desk.book.job
    values = {
        "job": job.title,
        "title": draft.title,
        "kind of paper": draft.kind,
        "number": f"{prefix(job.title)}-{draft.number}",
        "state of the file": job.state,
        "scale": draft.scale,
        "units": "mm, degrees" if printed_units() == "mm" else "inches, degrees",
        "date": job.date,
        "page": f"{page} of {pages}",
    }
    items: list[Item] = [
        Stroke(points=rectangle(left, top, BLOCK_WIDE, BLOCK_HIGH), pen="outline", closed=True, layer="title block")
    ]
    rules = [((left, top + BLOCK_ROW), (left + BLOCK_WIDE, top + BLOCK_ROW))]
    for number, fields in enumerate((_UPPER, _LOWER)):
        y = top + number * BLOCK_ROW
        ends = [x for x, _ in fields[1:]] + [BLOCK_WIDE]
        for (x, caption), end in zip(fields, ends, strict=True):
            items += _field(left + x, y, end - x, caption, values.get(caption, ""))
            if x:
                rules.append(((left + x, y), (left + x, y + BLOCK_ROW)))
    return [*items, Strokes(segments=tuple(rules), pen="dimension", layer="title block")]


def _field(x: float, y: float, wide: float, caption: str, value: str) -> list[Item]:
    items: list[Item] = [Text(at=(x + 1.0, y + CAPTION + 0.9), text=caption, size=CAPTION, layer="title block")]
    sizes = (FIGURE, TEXT, CAPTION) if caption in _LARGE else (TEXT, CAPTION)
    size = largest(printable(value), sizes, wide - 1.6, "medium")
    shown = fitted(printable(value), wide - 1.6, size, "medium")
    if shown:
        at = (x + 1.0, y + BLOCK_ROW - 1.3)
        items.append(Text(at=at, text=shown, size=size, weight="medium", layer="title block"))
    return items


def prefix(title: str) -> str:
    """The first letters of a title's words: "Listening wall" gives LW."""
    letters = [word[0].upper() for word in printable(title).split() if word[0].isalnum()]
    return "".join(letters[:3]) or "J"
