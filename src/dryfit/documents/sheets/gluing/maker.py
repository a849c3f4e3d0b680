"""The glue-up card: one for each go, in big type, to stand on the bench while the clock runs.

What is glued and in what time, how many clamps, what to check while it can still be moved, and what comes next. It
takes half a sheet where all of it has room there, else a whole one; the booklet puts it where it is needed. Every
figure of the glue is common knowledge of data sheets; the card says whose word it is.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ....lengths import figure
from ....studies.glue_up.result import GlueStage, GlueUp, Said
from ...display import Area, Item, Stroke, Text, rectangle, shifted
from ...lettering import fitted, printable, width
from ...looks import Desk
from ...naming import position
from ...standard import AIR, BLANK, CARD, FIGURE, LETTER, LINE, NAME, TEXT
from ...symbols import blank, tick_box
from ..page.frame import Space
from ..page.prose import block, largest
from .picture import drawn, flatness
from .words import SECONDS, StepCalled, called, lettered, notes, seconds, steps

BAND = CARD + TEXT + AIR  # a Q reaches below its line
BAND_TEXT = (CARD, LETTER, NAME)
HOUR = 60  # minutes
GAP = FIGURE
NOTES_WIDE = 70.0  # of the column of notes
BOX_HIGH = 2 * TEXT + CARD + TEXT  # of a box with one figure
LEAST = CARD + LETTER  # high: a picture is drawn smaller, down to this, before its card takes a whole sheet
FLAT = 3.0  # times as wide as high: from here on a picture takes the whole width
LETTERS = NAME + TEXT  # of white above and below a picture, for its letters
SIZES = ((NAME, FIGURE), (NAME, TEXT), (FIGURE, TEXT))  # of the steps and of the notes: the first that has room


@dataclass(frozen=True, slots=True)
class DrawnCard:
    """A card as it is drawn.

    Attributes:
        lacking: what of its picture found no room, a fault.
        whole: whether all of it stands above the bottom of its room.
    """

    items: list[Item]
    lacking: list[str]
    whole: bool


def card(desk: Desk, plan: GlueUp, go: GlueStage, number: int, room: Space, where: StepCalled) -> DrawnCard:
    """A card in a room: the picture, figures and notes above, the steps below.

    Args:
        number: of the card.
        where: what a step is called that the card sends to.
    """
    said, told = list(steps(desk, plan, go, where)), list(notes(desk, plan, go, number))
    top = room.top + BAND + GAP
    for sizes in SIZES:
        stepped, high = _steps(said, room.left, room.wide, sizes[0])
        upper, needs, lacking = _upper(
            desk, plan, go, (room.left, top, room.right, room.bottom - high - GAP), told, sizes[1]
        )
        if top + needs + GAP + high <= room.bottom:
            break
    y = (
        max(top + needs, room.bottom - high - GAP) + GAP
        if needs <= room.bottom - high - GAP - top
        else top + needs + GAP
    )
    whole = y + high <= room.bottom + TEXT / 10
    return DrawnCard([*_band(desk, go, number, room), *upper, *shifted(stepped, 0.0, y)], lacking, whole)


def _band(desk: Desk, go: GlueStage, number: int, room: Space) -> Iterator[Item]:
    letters = lettered(desk, go.boards, " ")
    free = room.wide - 2 * NAME - CARD - width(letters, CARD, "bold")
    text = printable(f"G{number}  GLUE-UP: {called(go)}".upper())
    size = largest(text, BAND_TEXT, free, "bold")
    words = fitted(text, free, size, "bold")  # the unit's name is on its steps too
    base, lower = room.top + TEXT / 4 + CARD, room.top + (BAND + size) / 2
    yield Area(loops=(rectangle(room.left, room.top, room.wide, BAND),), layer="frame")
    yield Text(at=(room.left + NAME, lower), text=words, size=size, weight="bold", ink="white", layer="frame")
    yield Text(
        at=(room.right - NAME, base), text=letters, size=CARD, weight="bold", anchor="end", ink="white", layer="frame"
    )


def _upper(
    desk: Desk, plan: GlueUp, go: GlueStage, room: tuple[float, float, float, float], told: Sequence[str], size: float
) -> tuple[list[Item], float, list[str]]:
    """Picture, figures, what to measure, and the notes beside them; how high they need to be; what found no room."""
    left, top, right, bottom = room
    wide = right - left - NOTES_WIDE - GAP
    flat = flatness(desk, go)
    if flat > FLAT:
        boxes, boxes_high = _figures(plan, go, 4, wide)
        checks, checks_high = _measured(go, desk, NOTES_WIDE)
        noted, notes_high = _notes(told, right - NOTES_WIDE, top + checks_high, size)
        notes_high += checks_high
        needs = min(wide / flat, LEAST) + 2 * LETTERS + GAP + boxes_high
        high = max(needs, notes_high, min(bottom - top, wide / flat + 3 * LETTERS + GAP + boxes_high))
        picture, lacking = drawn(desk, go, (left, top, left + wide, top + high - boxes_high - GAP))
        placed = [*shifted(boxes, left, top + high - boxes_high), *shifted(checks, right - NOTES_WIDE, top)]
    else:
        noted, notes_high = _notes(told, right - NOTES_WIDE, top, size)
        boxes, boxes_high = _figures(plan, go, 2, wide / 2 - GAP)
        checks, checks_high = _measured(go, desk, wide / 2 - GAP)
        needs = boxes_high + GAP + checks_high
        high = max(needs, notes_high, min(bottom - top, wide / 2 / max(flat, 1 / 2) + 2 * LETTERS))
        x = left + wide / 2 + GAP
        picture, lacking = drawn(desk, go, (left, top, left + wide / 2, top + high))
        placed = [*shifted(boxes, x, top), *shifted(checks, x, top + boxes_high + GAP)]
    return [*picture, *placed, *noted], max(needs, notes_high, high), lacking


def _steps(said: Sequence[str], left: float, wide: float, size: float) -> tuple[list[Item], float]:
    """What to do, numbered, with a box to tick, from y = 0 down; and how high it is."""
    items: list[Item] = []
    y = 0.0
    for number, line in enumerate(said, 1):
        words, end = block(line, (left + CARD, y), wide - CARD - 2 * NAME, (size,))
        box = min(NAME, LINE * size - AIR)
        items += [_loud(str(number), left, words[0]), *words, tick_box(left + wide - box, y, box)]
        y = max(y, end) + AIR
    return items, y


def _loud(text: str, x: float, beside: Text) -> Text:
    return Text(at=(x, beside.at[1]), text=text, size=beside.size, weight="bold")


# --- figures and words -----------------------------------------------------------------------------


def _figures(plan: GlueUp, go: GlueStage, columns: int, wide: float) -> tuple[list[Item], float]:
    """Boxes with one figure each, from (0, 0); and how high they are."""
    shown = figures(plan, go)
    items: list[Item] = []
    each = (wide - (columns - 1) * TEXT) / columns
    for number, (caption, large, unit) in enumerate(shown):
        left, top = number % columns * (each + TEXT), number // columns * (BOX_HIGH + TEXT)
        words, _ = block(caption, (left + TEXT / 2, top + TEXT / 2), each - TEXT, (TEXT,))
        items += [
            Stroke(points=rectangle(left, top, each, BOX_HIGH), pen="outline", closed=True, layer="table"),
            *words,
        ]
        room = each - 2 * TEXT - width(unit, TEXT)
        size = largest(large, (CARD, LETTER, NAME), room, "bold")
        base, beside = top + BOX_HIGH - TEXT, left + TEXT + width(large, size, "bold")
        items.append(Text(at=(left + TEXT / 2, base), text=large, size=size, weight="bold"))
        smaller = largest(unit, (NAME, FIGURE, TEXT), left + each - beside - TEXT / 2)
        items.append(Text(at=(beside, base), text=unit, size=smaller))
    rows = math.ceil(len(shown) / columns)
    return items, rows * BOX_HIGH + (rows - 1) * TEXT


def figures(plan: GlueUp, go: GlueStage) -> list[tuple[str, str, str]]:
    """What the clock and the scales want, (of what, figure, unit)."""
    known = {said.name: said for said in plan.figures}
    opens = known.get("open_time")
    longer = f" {opens.value:g} to {opens.high:g}" if opens is not None and (opens.high or 0) > opens.value else ""
    return [
        (f"open{longer}", figure(go.open_minutes), "min"),
        ("time needed", clocked(sum(seconds(go))), "min"),
        ("in clamps", *_long(known.get("clamp_time"))),
        ("glue + 10 %", str(math.ceil(go.total_g)), "g"),
    ]


def clocked(seconds: int) -> str:
    """Minutes and seconds: "5:20"; whole minutes plainly."""
    minutes, over = divmod(seconds, SECONDS)
    return f"{minutes}:{over:02d}" if over else str(minutes)


def _long(said: Said | None) -> tuple[str, str]:
    if said is None:
        return "–", "as its sheet says"
    return (figure(said.value / HOUR), "h") if said.value >= 2 * HOUR else (figure(said.value), "min")


def _notes(texts: Sequence[str], x: float, y: float, size: float) -> tuple[list[Item], float]:
    """Notes one under the other; and how high they are."""
    items: list[Item] = []
    top = y
    for text in texts:
        lines, y = block(text, (x, y), NOTES_WIDE, (size,))
        items += lines
        y += AIR
    return items, y - top


def _measured(go: GlueStage, desk: Desk, wide: float) -> tuple[list[Item], float]:
    """What to measure, blanks for what it is, how far it may be off: from (0, 0) down; and how high it is."""
    items: list[Item] = []
    y = 0.0
    for words, lengths in measured(go, desk):
        text = f"{words} {lengths_said(lengths)}"
        size = largest(text, (FIGURE, TEXT), wide - len(lengths) * BLANK, "semibold")
        lines, end = block(text, (0.0, y), wide, (size,), "semibold")
        items += lines
        beside = width(text, size, "semibold") + TEXT
        if len(lines) == 1 and wide - beside >= len(lengths) * BLANK:  # on the same line
            each, x, base = min((wide - beside) / len(lengths), 2 * BLANK), beside, lines[0].at[1]
        else:
            each, x, base = min(wide / len(lengths), 2 * BLANK), 0.0, end + NAME
        items += [blank(x + number * each, base, each - TEXT) for number in range(len(lengths))]
        y = max(end, base) + TEXT
    return items, y


def lengths_said(lengths: Sequence[float]) -> str:
    """Lengths to be measured, those alike once."""
    return " and ".join(dict.fromkeys(map(position, lengths)))


def measured(go: GlueStage, desk: Desk) -> Iterator[tuple[str, Sequence[float]]]:
    """What is measured, and how long it should be."""
    for square in go.squares:
        if square.inside:
            yield "Outside", square.outside
            yield "Inside", square.inside
        else:
            yield f"{' to '.join(desk.marks.get(name, name) for name in square.between)}, outside", square.outside
    for across in go.across:
        yield "Outside", across.outside
        if across.inside:
            yield "Inside", across.inside
