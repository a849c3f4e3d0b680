"""What every sheet has: heading with its letter, title block, and the word STOP where it is due.

Margins left 20 (filing), others 10 (ISO 5457); no frame line. The title block has the fields of ISO 7200 in
workshop words, 180 wide, bottom right.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from ....geometry.frames import Vec2
from ...display import Area, Display, Draft, Item, Stroke, Strokes, Text, extent, rectangle
from ...lettering import CAPTION, FIGURE, LETTER, NAME, TEXT, fitted, printable, width
from ...looks import Desk
from ...naming import printed_units
from ...standard import A4, AIR, LINE, STEP, UNDER
from .prose import DOT, FIRST, filled, largest, packed

LEFT, MARGIN = 20.0, 10.0
BLOCK_WIDE = 180.0
BLOCK_ROW = LINE * (CAPTION + FIGURE) + AIR  # a caption and a value, the largest
LETTER_WIDE, LETTER_HIGH = 2 * LETTER, LETTER + NAME
STOP_HIGH = TEXT + FIGURE
SIDE = A4[1] / 5  # of a column of words on the right of a sheet that lies
OVER = 1.5 * AIR  # from the line over the heading to the margin
PAD = 2 * AIR  # from a field's edge to its words
ORDER = "order"  # the kind of paper that nobody cuts from
SIGNED = "approval"  # the kind that client and maker sign
BARS = "\u2261"  # stands for the sign of a list, which is drawn: the fonts have no such letter

# captions of the fields in the two rows; all are as wide as one another, but that a title takes two places
_UPPER = ("job", "title", "", "kind of paper", "cut by", "number")
_LOWER = ("state of the file", "scale", "units", "date", "checked by", "page")
BLOCK_HIGH, _FIELD = 2 * BLOCK_ROW, BLOCK_WIDE / len(_LOWER)
TITLE_WIDE = 2 * _FIELD - 2 * PAD  # of the words of a title
_ON_SIGNED = {"cut by": "drawn by"}
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
    return max(0.0, size[0] - MARGIN - BLOCK_WIDE - LEFT - TEXT)


def heading(
    letter: str, name: str, facts: tuple[str, ...], right: float, left: float = LEFT, *, below: float = 0.0
) -> tuple[list[Item], float]:
    """The letter white on black, the name beside it, the facts below it.

    Args:
        facts: on its lines with dots between them.
        right: where the room for name and facts ends.
        below: where it ends for further lines of facts, if that is further.

    Returns:
        The items, and the y below which the sheet is free.
    """
    wide = max(LETTER_WIDE, width(letter, LETTER, "bold") + NAME) if letter else 0.0
    items: list[Item] = []
    if letter:
        ground, sign = black(letter, (left, MARGIN, wide, LETTER_HIGH), LETTER)
        items += [ground, *_bars(left, wide)] if letter == BARS else [ground, sign]
    text_left = left + wide + (TEXT if letter else 0.0)
    items.append(name_in(printable(name), (text_left, MARGIN + NAME), right - text_left))
    base = MARGIN + LETTER_HIGH - 1.0
    for line in _of_facts([printable(fact) for fact in facts], right - text_left, max(right, below) - text_left):
        items.append(Text(at=(text_left, base), text=line, layer="frame"))
        base += STEP
    return items, max(base - STEP + UNDER, MARGIN + LETTER_HIGH) + UNDER


def _of_facts(facts: Sequence[str], room: float, below: float) -> list[str]:
    """Facts in lines: the first has less room than those that follow."""
    first, more = filled(facts, room)
    return [first, *packed(more, below, broken=True)]


def name_in(name: str, at: Vec2, room: float) -> Text:
    """A name in the heading, smaller where it is long; what has no room even so is cut short with an ellipsis."""
    size = largest(name, (NAME, FIGURE, TEXT), room, "semibold")
    return Text(at=at, text=fitted(name, room, size, "semibold"), size=size, weight="semibold", layer="frame")


def _bars(left: float, wide: float) -> list[Item]:
    """The sign of a list: three white bars on black, as far apart as they are high."""
    stripes, size, top = 5, LETTER, MARGIN + (LETTER_HIGH - LETTER) / 2
    high = size / stripes
    bars = (rectangle(left + (wide - size) / 2, top + high * at, size, high) for at in range(0, stripes, 2))
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
        base = MARGIN + FIRST + number * STEP
        items.append(Text(at=(x - 2.0, base), text=loud, weight="semibold", anchor="end", layer="frame"))
        items.append(Text(at=(x, base), text=printable(plain), layer="frame"))
    return items


def finished(draft: Draft, page: int, pages: int, desk: Desk) -> Display:
    """A draft with its title block, as a drawing to print."""
    wide, high = draft.size
    block = _block(draft, page, pages, desk, wide - MARGIN - BLOCK_WIDE, high - MARGIN - BLOCK_HIGH)
    top = _at_the_top(draft, page, pages, desk)
    return Display(width=wide, height=high, items=(*draft.items, *stop_line(draft, desk), *top, *block))


def _at_the_top(draft: Draft, page: int, pages: int, desk: Desk) -> list[Item]:
    """Job, number and page over the heading's right end, found by thumbing; before what of the sheet reaches there."""
    title, where = desk.book.job.title, f"{page} of {pages}"
    named = fitted(printable(title), TITLE_WIDE, CAPTION)
    said = printable(DOT.join((named, f"{prefix(title)}-{draft.number}", where)))
    boxes = [extent([item]) for item in draft.items]
    right = draft.size[0] - MARGIN
    while right > draft.size[0] / 2:
        text = Text(at=(right, MARGIN - OVER), text=said, size=CAPTION, anchor="end", layer="title block")
        left, _, reach, foot = extent([text])
        there = [box[0] for box in boxes if box[1] <= foot and box[0] <= reach and box[2] >= left]
        if not there:
            return [text]
        right = min(there) - AIR
    return []


def stop_line(draft: Draft, desk: Desk) -> list[Item]:
    """A black line above the title block while the book has stops; nothing on a sound book."""
    count = len(desk.book.stops)
    if not count:
        return []
    wide, high = draft.size
    left, top = wide - MARGIN - BLOCK_WIDE, high - MARGIN - BLOCK_HIGH - STOP_HIGH - 2.0
    must = "1 thing must" if count == 1 else f"{count} things must"
    do = {ORDER: "order from", SIGNED: "sign"}.get(draft.kind, "cut from")
    text = f"STOP   do not {do} this sheet: {must} change first, see the list of findings"
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
        for place, caption in enumerate(fields):
            x = left + place * _FIELD
            if caption:
                wide = 2 * _FIELD if caption == "title" else _FIELD
                called = _ON_SIGNED.get(caption, caption) if draft.kind == SIGNED else caption
                items += _field(x, y, wide, called, values.get(caption, ""))
            if caption and place:
                rules.append(((x, y), (x, y + BLOCK_ROW)))
    return [*items, Strokes(segments=tuple(rules), pen="dimension", layer="title block")]


def _field(x: float, y: float, wide: float, caption: str, value: str) -> list[Item]:
    items: list[Item] = [Text(at=(x + PAD, y + CAPTION + AIR), text=caption, size=CAPTION, layer="title block")]
    sizes = (FIGURE, TEXT, CAPTION) if caption in _LARGE else (TEXT, CAPTION)
    size = largest(printable(value), sizes, wide - 2 * PAD, "medium")
    shown = fitted(printable(value), wide - 2 * PAD, size, "medium")
    if shown:
        at = (x + PAD, y + BLOCK_ROW - UNDER)
        items.append(Text(at=at, text=shown, size=size, weight="medium", layer="title block"))
    return items


def prefix(title: str) -> str:
    """The first letters of a title's words: "Listening wall" gives LW."""
    letters = [word[0].upper() for word in printable(title).split() if word[0].isalnum()]
    return "".join(letters[:3]) or "J"
