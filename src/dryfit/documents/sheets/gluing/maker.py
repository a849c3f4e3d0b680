"""The glue-up card: one for each go, in big type, to stand on the bench while the clock runs.

What is glued and in what time, how many clamps, what to check while it can still be moved, and what comes next.
Every figure of the glue is common knowledge of data sheets; the card says whose word it is.
"""

import math
from collections.abc import Iterable, Iterator

from ....studies.glue_up.model import GlueStage, GlueUp, Said
from ...display import Area, Item, Stroke, Text, rectangle
from ...lettering import CAPTION, FIGURE, NAME, TEXT, fitted, printable, width, wrapped
from ...looks import Desk
from ...naming import position
from ...symbols import blank, tick_box
from ..booklet.pages import no_order
from ..page.frame import LEFT, MARGIN, space
from ..page.prose import largest
from ..registry import A4, Draft, sheet
from .picture import drawn
from .words import called, following, lean, lettered, notes, steps

BAND, BAND_LETTERS = 15.0, 9.0
BAND_TEXT = (BAND_LETTERS, 7.5, 6.0, NAME)
PICTURE = (LEFT, 32.0, LEFT + 105.0, 118.0)
CARD_LEFT, CARD_WIDE, CARD_HIGH, CARD_STEP = 138.0, 62.0, 21.0, 24.5
BIG = 10.0
STEPS_TOP, STEP, STEPS_HIGH, STEP_WIDE = 132.0, 12.4, 75.0, 158.0
NEXT_WIDE = 162.0
STEP_TEXT = (NAME, 4.4, 3.8)  # lettering of a step, the first in which it has room
TICK = 5.0
SMALL = (FIGURE, 3.0, TEXT)  # lettering of the notes, the first in which all of them have room
LINE = 1.48  # of their heights from line to line


@sheet("glue-up", paper="assembly", order=20)
def glue_cards(desk: Desk) -> Iterator[Draft]:
    """A card for every go; none where nothing is glued, or the piece cannot be put together as it is."""
    plan: GlueUp | None = desk.book.studies.get("glue_up") if not no_order(desk) else None
    for number, go in enumerate(plan.stages if plan is not None else (), 1):
        assert plan is not None
        yield Draft(
            title=f"glue up {called(go)}",
            kind="glue-up",
            number=f"G{number}",
            scale="picture only",
            size=A4,
            items=tuple(_card(desk, plan, go)),
        )


def _card(desk: Desk, plan: GlueUp, go: GlueStage) -> Iterator[Item]:
    yield from _band(desk, go)
    yield from drawn(desk, go, PICTURE)
    yield from _figures(plan, go)
    y, lines = STEPS_TOP, list(steps(desk, go))
    step = min(STEP, STEPS_HIGH / len(lines))
    for number, line in enumerate(lines, 1):
        said = printable(line)
        size = largest(said, STEP_TEXT, STEP_WIDE)
        yield Text(at=(LEFT, y), text=str(number), size=NAME, weight="bold")
        for row, words in enumerate(wrapped(said, STEP_WIDE, size)):
            yield Text(at=(LEFT + 9.0, y + row * size * LINE), text=words, size=size)
        yield tick_box(A4[0] - MARGIN - TICK - 4.0, y - NAME, TICK)
        y += step
    yield from _below(desk, plan, go, y + 1.0)


def _band(desk: Desk, go: GlueStage) -> Iterator[Item]:
    wide = A4[0] - LEFT - MARGIN
    letters = lettered(desk, go.boards, " ")
    base = MARGIN + (BAND + BAND_LETTERS) / 2
    room = wide - 12.0 - width(letters, BAND_LETTERS, "bold")
    text = printable(f"GLUE UP {called(go)}".upper())
    size = largest(text, BAND_TEXT, room, "bold")
    yield Area(loops=(rectangle(LEFT, MARGIN, wide, BAND),), layer="frame")
    words = fitted(text, room, size, "bold")  # the unit's name is on its steps too
    yield Text(at=(LEFT + 4.0, base), text=words, size=size, weight="bold", ink="white", layer="frame")
    yield Text(
        at=(LEFT + wide - 4.0, base), text=letters, size=BAND_LETTERS, weight="bold", anchor="end", ink="white",
        layer="frame",
    )  # fmt: skip


# --- figures and words -----------------------------------------------------------------------------


def _figures(plan: GlueUp, go: GlueStage) -> Iterator[Item]:
    """Boxes with one figure each."""
    known = {said.name: said for said in plan.figures}
    clamp = known.get("clamp_time")
    cards = [
        (f"{plan.glue}: open for", _number(go.open_minutes), "min"),
        ("closing it takes", _number(math.ceil(go.minutes * 2) / 2), "min"),
        ("in clamps at least", *_long(clamp)),
        ("glue, a tenth over", str(math.ceil(go.total_g)), "g"),
    ]
    for number, (caption, figure, unit) in enumerate(cards):
        top = PICTURE[1] + number * CARD_STEP - 4.0
        yield Stroke(points=rectangle(CARD_LEFT, top, CARD_WIDE, CARD_HIGH), pen="outline", closed=True, layer="table")
        said = printable(caption)
        size = largest(said, (*SMALL, CAPTION), CARD_WIDE - 5.0)
        yield Text(at=(CARD_LEFT + 2.5, top + 5.6), text=said, size=size)
        yield Text(at=(CARD_LEFT + 2.5, top + CARD_HIGH - 2.6), text=figure, size=BIG, weight="bold")
        x = CARD_LEFT + 2.5 + width(figure, BIG, "bold") + 2.0
        yield Text(at=(x, top + CARD_HIGH - 2.6), text=unit, size=NAME)


def _long(said: Said | None) -> tuple[str, str]:
    if said is None:
        return "–", "as its sheet says"
    return (_number(said.value / 60), "h") if said.value >= 120 else (_number(said.value), "min")


def _number(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _below(desk: Desk, plan: GlueUp, go: GlueStage, y: float) -> Iterator[Item]:
    """Blanks for what was measured, clamps by board, conditions, what is next."""
    bottom = space(A4, desk).bottom
    yield from _measured(go, y)
    x = LEFT + 92.0 if go.square or go.across else LEFT
    text = printable(", then ".join(following(desk, go)))
    size = largest(text, STEP_TEXT, NEXT_WIDE)
    lines = wrapped(text, NEXT_WIDE, size)
    top = bottom - 3.0 - (len(lines) - 1) * size * LINE
    yield from _notes(notes(desk, plan, go), x, y, A4[0] - MARGIN - x, top - 9.0)
    yield Text(at=(LEFT, top), text="Next:", size=NAME, weight="bold")
    x = LEFT + width("Next: ", NAME, "bold") + 1.0
    for number, line in enumerate(lines):
        yield Text(at=(x, top + number * size * LINE), text=line, size=size)


def _notes(texts: Iterable[str], x: float, y: float, wide: float, bottom: float) -> Iterator[Item]:
    """Notes in the largest lettering in which all of them stand above `bottom`."""
    said = [printable(text) for text in texts]
    for size in SMALL:
        lines = [line for text in said for line in wrapped(text, wide, size)]
        if y + len(lines) * size * LINE <= bottom:
            break
    for number, line in enumerate(lines):
        yield Text(at=(x, y + size + number * size * LINE), text=line, size=size)


def _measured(go: GlueStage, y: float) -> Iterator[Item]:
    """What diagonals should be, blanks for what they are, and how far they may be off."""
    lengths = go.square or go.across
    if lengths is None:
        return
    for number, (word, found) in enumerate((("Outside", lengths.outside), ("Inside", lengths.inside))):
        x = LEFT + number * 44.0
        figure = " / ".join(dict.fromkeys(map(position, found)))
        yield Text(at=(x, y + FIGURE), text=word, size=FIGURE, weight="semibold")
        beside = width(word, FIGURE, "semibold")
        size = largest(figure, SMALL, 42.0 - beside)
        for row, line in enumerate(wrapped(figure, 42.0 - beside, size)):
            yield Text(at=(x + beside + 2.0, y + FIGURE + row * size * 1.3), text=line, size=size)
        yield Text(at=(x, y + FIGURE + 6.0), text="measured", size=TEXT)
        long = 40.0 / len(found)
        for place in range(len(found)):
            yield blank(x + place * long, y + FIGURE + 14.0, long - 3.0)
    for row, text in enumerate(_limits(go)):
        yield Text(at=(LEFT, y + FIGURE + 21.0 + 5.4 * row), text=text, size=FIGURE if row == 0 else 3.0)


def _limits(go: GlueStage) -> Iterator[str]:
    if go.square is not None:
        differ, leans = lean(go.square.differ_by)
        alike = position(go.square.outside[0]) == position(go.square.outside[1])
        yield f"They differ by {position(differ)}{'' if alike else ' more'}: it leans {position(leans)}."
        off = "differ" if alike else "are off"
        yield f"Push until they {off} by no more than {position(go.square.within)}."
        yield f"Wind: sight across, {position(go.square.wind)} at most."
    elif go.across is not None:
        yield "All alike, corner to corner." if go.across.equal else "From its first corner."
        yield f"Push until they are off by no more than {position(go.across.within)}."
        yield f"Wind: sight across, {position(go.across.wind)} at most."
