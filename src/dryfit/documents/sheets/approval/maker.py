"""The approval sheet: what the client gets, drawn and said, with a place for both to sign."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from typing import TypeAlias

from ...display import Draft, Item, Stroke, Text, extent, shifted
from ...lettering import CAPTION, TEXT, fitted, printable, wrapped
from ...looks import Desk
from ...naming import scale_words
from ...sheet import sheet
from ...standard import A3, A4, AIR, LETTER_PAPER, NAME, SCALES, STEP, UNDER
from ..page.frame import SIGNED, Space, black, heading, space
from ..page.prose import TextPlace as Room
from ..page.prose import WordRun, flow
from ..page.sheaf import Sheaf
from .agreed import agreed, is_demo, meaning, not_known
from .drawing import ApprovalDrawing
from .place import PlaceInRoom, place_of

Words: TypeAlias = list[WordRun]

SIZES = {"A4": A4, "A3": A3, "Letter": LETTER_PAPER}  # by the shop file's word, upright
COLUMNS = 3  # under the drawing: two of words, one to sign in
LINE_HIGH = 4 * TEXT  # from one line to write on to the next
NAME_LINES = 2  # that a name has room for
SIGNS = ("name", "place and date", "signature")
SIGNS_HIGH = STEP + len(SIGNS) * LINE_HIGH + CAPTION
TITLE, NUMBER = "for approval", "APPROVAL"
SAYS = "what the client gets, to be signed before anything is cut"
NOT_REAL = "DEMO   an invented piece: not to be signed"
MORE = "More on the next sheet, which belongs to this one."


@dataclass(frozen=True, slots=True, kw_only=True)
class _Laid:
    """The sheet as it is laid out: its scale, what is on it, and the paragraphs that have no room."""

    scale: float
    items: Sequence[Item]
    left: Sequence[Words]


@sheet("approval", paper="approval", order=10)
def approval(desk: Desk) -> Iterator[Draft]:
    """One sheet, and where its words have no room one more with the rest of them."""
    place = place_of(desk)
    if place is None:
        return
    upright = SIZES[desk.book.shop.paper]
    size = (upright[1], upright[0])
    room = space(size, desk)
    items, top = heading("", desk.book.job.title, (SAYS,), room.right)
    laid = _laid(desk, place, room, top)
    yield Draft(
        title=TITLE,
        kind=SIGNED,
        number=NUMBER,
        scale=scale_words(laid.scale),
        size=size,
        items=(*items, *laid.items),
    )
    if laid.left:
        yield from _rest(desk, laid.left)


def _laid(desk: Desk, place: PlaceInRoom, room: Space, top: float) -> _Laid:
    """Both views above, at the largest scale that leaves room for all words; under them the words and the signatures.

    Where no scale does, the largest that leaves room to sign.
    """
    words = [*agreed(desk, place), not_known(desk, place)]
    whole: _Laid | None = None
    for scale in SCALES[1:]:
        drawn = ApprovalDrawing(desk, place, scale).items
        left, head, right, foot = extent(drawn)
        under = top + foot - head + 2 * AIR + STEP
        if right - left > room.wide or under + SIGNS_HIGH > room.bottom:
            continue
        said, rest = _said(words, _columns(room, under))
        middle = shifted(drawn, (room.left + room.right - left - right) / 2, top + AIR - head)
        made = _Laid(scale=scale, items=(*middle, *said, *_signatures(desk, room)), left=rest)
        whole = whole or made
        if not rest:
            return made
    assert whole is not None, "the smallest scale leaves room on any paper"
    return whole


def _wide(room: Space) -> float:
    """Of a column."""
    return (room.wide - (COLUMNS - 1) * NAME) / COLUMNS


def _columns(room: Space, top: float) -> list[Room]:
    """The two for words."""
    wide = _wide(room)
    return [Room(room.left + number * (wide + NAME), top, wide, room.bottom) for number in range(COLUMNS - 1)]


# --- words ---------------------------------------------------------------------------------------


def _said(words: Sequence[Words], places: list[Room]) -> tuple[Sequence[Item], Sequence[Words]]:
    """What is agreed and what the signatures mean, a column each while they have room; and what has none.

    That the signatures mean something is never left to another sheet.
    """
    first, last = places
    one, other = flow([first], words), flow([last], [meaning()])
    if one.whole and other.whole:
        return [*one.items, *other.items], []
    count = len(words)
    said = flow(places, [meaning(), *words])
    while not said.whole and count:
        count -= 1
        said = flow(places, [meaning(), *words[:count], [WordRun(MORE, "semibold")]])
    return said.items, words[count:]


def _rest(desk: Desk, words: Sequence[Words]) -> Iterator[Draft]:
    """What had no room on the first sheet."""
    sheaf = Sheaf(desk, letter="", title=TITLE, says=(SAYS,), kind=SIGNED, number=f"{NUMBER}-2")
    sheaf.paragraphs("", words)
    yield from sheaf.drafts()


# --- signatures ----------------------------------------------------------------------------------


def _signatures(desk: Desk, room: Space) -> list[Item]:
    """A place to sign for each of the two, side by side over the title block."""
    shop, job = desk.book.shop, desk.book.job
    left, top = room.right - _wide(room), room.bottom - SIGNS_HIGH
    wide = (room.right - left - NAME) / 2
    items: list[Item] = []
    for number, (who, name) in enumerate((("The client", job.client), ("The maker", shop.name if shop.file else ""))):
        x = left + number * (wide + NAME)
        items.append(Text(at=(x, top + TEXT), text=who, weight="bold"))
        for line, caption in enumerate(SIGNS, start=1):
            y = top + STEP + line * LINE_HIGH - CAPTION
            items.append(Stroke(points=((x, y), (x + wide, y)), pen="dimension", layer="blanks"))
            items.append(Text(at=(x, y + CAPTION + AIR), text=caption, size=CAPTION))
        items += _named(printable(name), x, top + STEP + LINE_HIGH - CAPTION - UNDER, wide)
    if is_demo(desk):
        y = top + STEP + (len(SIGNS) - 1) * LINE_HIGH + UNDER
        items += black(NOT_REAL, (left, y, room.right - left, LINE_HIGH - CAPTION - 2 * UNDER), TEXT)
    return items


def _named(name: str, x: float, base: float, wide: float) -> list[Item]:
    """A name over its line, in two where it is long."""
    lines = wrapped(name, wide, TEXT) if name else []
    if len(lines) > NAME_LINES:
        lines = [*lines[: NAME_LINES - 1], fitted(" ".join(lines[NAME_LINES - 1 :]), wide, TEXT)]
    return [Text(at=(x, base - STEP * up), text=line) for up, line in enumerate(reversed(lines))]
