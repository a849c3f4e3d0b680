"""The glue-up card: one for each go, in big type, to stand on the bench while the clock runs.

What is glued and in what time, how many clamps, what to check while it can still be moved, and what comes next.
Every figure of the glue is common knowledge of data sheets; the card says whose word it is.
"""

import math
from collections.abc import Iterable, Iterator

from ...studies.glue_up.model import GlueStage, GlueUp, Said
from ..display import Area, Item, Stroke, Text, rectangle
from ..lettering import FIGURE, NAME, TEXT, fitted, printable, width, wrapped
from ..looks import Desk
from ..naming import plural, position
from ..symbols import blank, tick_box
from .frame import LEFT, MARGIN, space
from .glued_frame import drawn
from .registry import A4, Draft, sheet

BAND, BAND_TEXT = 15.0, 9.0
PICTURE = (LEFT, 32.0, LEFT + 105.0, 118.0)
CARD_LEFT, CARD_WIDE, CARD_HIGH, CARD_STEP = 138.0, 62.0, 21.0, 24.5
BIG = 10.0
STEPS_TOP, STEP = 132.0, 12.4
TICK = 5.0
SIZING = 3  # minutes to wait after a thin coat on end grain (common practice: 1 to 5)
SMALL = (FIGURE, 3.0, TEXT)  # lettering of the notes, the first in which all of them have room
LINE = 1.48  # of their heights from line to line
NAMED = 6  # letters in the band; more are counted


@sheet("glue-up", paper="assembly", order=20)
def glue_cards(desk: Desk) -> Iterator[Draft]:
    """A card for every go; none where nothing is glued."""
    plan: GlueUp | None = desk.book.studies.get("glue_up")
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


def called(go: GlueStage) -> str:
    """What is glued, in words: "the box", "the piece, go 2 of 3"."""
    name = f"the {go.name}" if go.name else "the piece"
    return name if go.of == 1 else f"{name}, go {go.number} of {go.of}"


def _card(desk: Desk, plan: GlueUp, go: GlueStage) -> Iterator[Item]:
    yield from _band(desk, go)
    yield from drawn(desk, go, PICTURE)
    yield from _figures(plan, go)
    y = STEPS_TOP
    for number, line in enumerate(_steps(desk, go), 1):
        yield Text(at=(LEFT, y), text=str(number), size=NAME, weight="bold")
        yield Text(at=(LEFT + 9.0, y), text=fitted(printable(line), 158.0, NAME, "regular"), size=NAME)
        yield tick_box(A4[0] - MARGIN - TICK - 4.0, y - NAME, TICK)
        y += STEP
    yield from _below(desk, plan, go, y + 1.0)


def _band(desk: Desk, go: GlueStage) -> Iterator[Item]:
    wide = A4[0] - LEFT - MARGIN
    marks = [desk.marks.get(name, name) for name in go.boards]
    letters = " ".join(marks) if len(marks) <= NAMED else f"{len(marks)} boards"
    base = MARGIN + (BAND + BAND_TEXT) / 2
    room = wide - 12.0 - width(letters, BAND_TEXT, "bold")
    text = printable(f"GLUE UP {called(go)}".upper())
    size = next((s for s in (BAND_TEXT, 7.5, 6.0) if width(text, s, "bold") <= room), NAME)
    yield Area(loops=(rectangle(LEFT, MARGIN, wide, BAND),), layer="frame")
    words = fitted(text, room, size, "bold")
    yield Text(at=(LEFT + 4.0, base), text=words, size=size, weight="bold", ink="white", layer="frame")
    yield Text(
        at=(LEFT + wide - 4.0, base), text=letters, size=BAND_TEXT, weight="bold", anchor="end", ink="white",
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
        yield Text(
            at=(CARD_LEFT + 2.5, top + 5.6), text=fitted(printable(caption), CARD_WIDE - 5.0, FIGURE), size=FIGURE
        )
        yield Text(at=(CARD_LEFT + 2.5, top + CARD_HIGH - 2.6), text=figure, size=BIG, weight="bold")
        x = CARD_LEFT + 2.5 + width(figure, BIG, "bold") + 2.0
        yield Text(at=(x, top + CARD_HIGH - 2.6), text=unit, size=NAME)


def _long(said: Said | None) -> tuple[str, str]:
    if said is None:
        return "–", "as its sheet says"
    return (_number(said.value / 60), "h") if said.value >= 120 else (_number(said.value), "min")


def _number(value: float) -> str:
    return f"{value:.1f}".removesuffix(".0")


def _steps(desk: Desk, go: GlueStage) -> Iterator[str]:
    """What to do, in order."""
    yield "Dry fit once, clamps set, then apart."
    if any(grain == "end-end" for grain, _ in go.grams):
        yield f"Size the end grain: thin coat, wait {SIZING} min."
    joints = plural(len(go.glued), "joint")
    dry = f", {len(go.dry)} stay dry" if go.dry else ""
    yield f"Glue {joints}{dry}. START THE CLOCK."
    yield _order(desk, go)
    yield _pressed(go)
    if go.square is not None:
        yield "Both diagonals, front and back. Sight for wind."
    yield "Wipe the corners. Leave it in the clamps."


def _order(desk: Desk, go: GlueStage) -> str:
    marks = [desk.marks.get(name, name) for name in go.steps]
    if len(marks) > NAMED or not go.lying:
        return f"Put in {plural(len(marks), 'part')} as the booklet shows."
    lying = [desk.marks[name] for name in go.lying]
    first = f"{lying[0]} lies" if len(lying) == 1 else f"{lying[0]} and others lie"
    return f"{first}; put in {', '.join(marks)}."


def _pressed(go: GlueStage) -> str:
    count = sum(line.count for line in go.clamps)
    if not count:
        return "Press home; the fit of the joints holds it."
    if go.contact_only:
        return f"{plural(count, 'clamp')}, contact only: no hard pressure."
    return f"{plural(count, 'clamp')}, {'a caul under it' if count == 1 else 'cauls under every one'}."


def _below(desk: Desk, plan: GlueUp, go: GlueStage, y: float) -> Iterator[Item]:
    """Blanks for what was measured, clamps by board, conditions, what is next."""
    bottom = space(A4, desk).bottom
    if go.square is not None:
        yield from _measured(go, y)
    x = LEFT if go.square is None else LEFT + 92.0
    yield from _notes(_small(desk, plan, go), x, y, A4[0] - MARGIN - x, bottom - 12.0)
    text = fitted(printable(", then ".join(_next(desk, go))), 150.0, NAME)
    yield Text(at=(LEFT, bottom - 3.0), text="Next:", size=NAME, weight="bold")
    yield Text(at=(LEFT + width("Next: ", NAME, "bold") + 1.0, bottom - 3.0), text=text, size=NAME)


def _next(desk: Desk, go: GlueStage) -> list[str]:
    """What comes after this go, in order."""
    following = [*_after(go), *([desk.marks.get(go.following, go.following)] if go.following else [])]
    if following:
        return following
    if go.name:
        return ["let it stand"]
    return ["let it stand", *(["the wall: see the fixings"] if desk.book.job.fixings else [])]


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
    square = go.square
    assert square is not None
    for number, (word, pair) in enumerate((("Outside", square.outside), ("Inside", square.inside))):
        x = LEFT + number * 44.0
        figure = position(pair[0]) if abs(pair[0] - pair[1]) < 0.05 else f"{position(pair[0])} / {position(pair[1])}"
        yield Text(at=(x, y + FIGURE), text=word, size=FIGURE, weight="semibold")
        at = (x + width(word, FIGURE, "semibold") + 2.0, y + FIGURE)
        yield Text(at=at, text=fitted(figure, 42.0 - width(word, FIGURE, "semibold"), FIGURE), size=FIGURE)
        yield Text(at=(x, y + FIGURE + 6.0), text="measured", size=TEXT)
        for place in (0.0, 20.0):
            yield blank(x + place, y + FIGURE + 14.0, 17.0)
    text = f"Differ by {position(square.differ_by)} more: it leans 1. Stop at {position(square.lean)}."
    yield Text(at=(LEFT, y + FIGURE + 22.0), text=text, size=FIGURE)
    wind = f"Wind: sight across, {position(square.wind)} at most."
    yield Text(at=(LEFT, y + FIGURE + 28.0), text=wind, size=FIGURE)


def _small(desk: Desk, plan: GlueUp, go: GlueStage) -> Iterable[str]:
    """Clamps by board with their pressure, conditions and sources, the one that most come from said once."""
    known = {said.name: said for said in plan.figures}
    source = next(iter(known.values())).source if known else ""
    alike: dict[str, list[str]] = {}
    for line in go.clamps:
        pressed = f" for {line.force_n / 1000:.1f} kN at {line.pressure_n_mm2:g} N/mm2" if line.pressure_n_mm2 else ""
        whose = f" ({line.source})" if line.source != source else ""
        said = f"{plural(line.count, 'clamp')} of {plan.clamp_kn:g} kN{pressed}{whose}"
        alike.setdefault(said, []).append(desk.marks.get(line.board, line.board))
    for said, marks in alike.items():
        yield f"Along {', '.join(marks)}: {said}."
    if go.fitted:
        yield f"{plural(len(go.fitted), 'joint')} held by the fit alone: no clamp presses their walls."
    if "coldest" in known:
        yield f"Glue and wood not below {known['coldest'].value:g} °C."
    if "moisture" in known:
        moisture = known["moisture"]
        low, high = moisture.low, moisture.high if moisture.high is not None else moisture.value
        yield f"Wood at {f'{low:g} to ' if low is not None else 'most '}{high:g} % moisture."
    if "clamp_time" in known and known["clamp_time"].note:
        note = known["clamp_time"].note
        yield f"{note[0].upper()}{note[1:]}."
    if known:
        yield f"Figures: {source}; the sheet of the glue in hand governs."


def _after(go: GlueStage) -> list[str]:
    """Work that waits for the glue, those alike said once."""
    return list(dict.fromkeys(name.split(" of ")[0] for name in go.after))
