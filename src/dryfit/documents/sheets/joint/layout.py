"""Puts a detail together: heading, views in rows, words beside or under them, the table of its figures.

A detail is a stack of bands whose heights are measured, never guessed. It can stand alone, with its whole table, the
marks of all its joints and a picture of where they are; or closer, with a short table beside its words, so that two
fit on a sheet.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from ...display import Item, extent, shifted
from ...lettering import TEXT, widest
from ...looks import Desk
from ...naming import printed_units
from ..fixings.chain import chain_of
from ..page.prose import Place, Run, flow, strong
from ..page.table import Cell, Column, Row, bold, drawn, head_high
from .drawing.pad import Titled, View
from .groups import Alike, hand, tag
from .heading import heading
from .roles import Roles, lettered, lettered_runs
from .views.along import along_view
from .views.corner import corner_view
from .views.face import face_view
from .views.front import front_view
from .views.rows import rows_view
from .views.screw import screw_view
from .words import hand_words

WIDE = 180.0
COLUMN = 87.0
BETWEEN, MOST_MORE = 5.0, 12.0  # views side by side, and what is added where there is room
LEAST_BESIDE = 60.0  # of the words beside a view
LOWER = 34.0  # that words may reach further down than the view beside them
HIGHER = 24.0  # that a table under the second view may reach further down than the first
PARAGRAPH = 0.7  # more than a line between paragraphs: room to write in the blanks
ROW = 5.0
TO_FILL = (("", 15.5), ("set", 8.0), ("measured", 18.5))  # columns after the words; the first is named by its unit


@dataclass(frozen=True, slots=True, kw_only=True)
class Band:
    """One strip of a detail, from (0, 0) down."""

    items: tuple[Item, ...]
    high: float


def titled(shown: Sequence[View]) -> tuple[Titled, ...]:
    """Views under their titles, numbered."""
    return tuple(view.titled(number) for number, view in enumerate(shown, start=1))


def views(desk: Desk, roles: Roles, smaller: int = 0) -> list[View]:
    """The views of one joint, in their order; `smaller` leaves out so many of the larger scales."""
    if not roles.shown:
        made = chain_of(roles.joint)
        return [screw_view(desk, roles, made)] if made is not None else []
    first = roles.shown[0]
    if first.cut is None:
        row = rows_view(desk, first, smaller)
        return [corner_view(desk, first, smaller), *([row] if row is not None else [])]
    back = roles.shown[1].cut if len(roles.shown) > 1 else None
    return [front_view(desk, first, smaller), face_view(desk, first, smaller), along_view(desk, first, back)]


def sentences(desk: Desk, group: Alike) -> list[list[Run]]:
    """The paragraphs with letters, the hand among them."""
    letters = group.first.letters(desk)
    found = [lettered_runs(runs, letters) for runs in group.words]
    words = hand_words(group.first)
    if words and hand(group.first):
        runs = [strong("Hand."), Run(lettered(words, letters))]
        if group.turned:
            runs.append(Run(f"The other hand: {', '.join(tag(desk, one) for one in group.turned)}."))
        found.insert(min(4, len(found)), runs)
    return found


# --- tables --------------------------------------------------------------------------------------


def _table(desk: Desk, group: Alike, *, whole: bool) -> tuple[list[Column], list[Row]]:
    """The figures; whole with what each is and its sum."""
    letters = group.first.letters(desk)
    said = [[lettered(text, letters) for text in (one.name, one.what, one.sum)] for one in group.figures]
    titles = ["figure", "what it is", "how it comes about"]
    room = (WIDE if whole else COLUMN) - sum(wide for _, wide in TO_FILL)
    if not whole:
        titles, said = titles[:1], [line[:1] for line in said]
    elif not any(how for *_, how in said):
        titles, said = titles[:2], [line[:2] for line in said]
    elif sum(_needs(said, titles)) > room:
        said = [[name, ": ".join(text for text in (what, how) if text)] for name, what, how in said]
        titles = ["figure", "what it is and how it comes about"]
    columns = [
        *(Column(title=title, wide=wide) for title, wide in zip(titles, _shares(said, titles, room), strict=True)),
        *(Column(title=title or printed_units(), wide=wide) for title, wide in TO_FILL),
    ]
    rows = [
        (*(Cell(text=text) for text in line), bold(one.value), Cell(tick=True), Cell())
        for line, one in zip(said, group.figures, strict=True)
    ]
    return columns, rows


def _shares(said: Sequence[Sequence[str]], titles: Sequence[str], room: float) -> list[float]:
    """Widths of the columns of words: what each needs, and an equal part of what is left over."""
    need = _needs(said, titles)
    spare = room - sum(need)
    return [wide + spare / len(need) if spare > 0 else wide * room / sum(need) for wide in need]


def _needs(said: Sequence[Sequence[str]], titles: Sequence[str]) -> list[float]:
    return [
        max(widest([line[number] for line in said], TEXT), widest([title], TEXT, "semibold")) + 2.0
        for number, title in enumerate(titles)
    ]


def _tabled(desk: Desk, group: Alike, x: float, *, whole: bool) -> Band:
    columns, rows = _table(desk, group, whole=whole)
    return Band(items=tuple(drawn(x, 0.0, columns, rows)), high=head_high(columns) + ROW * len(rows))


# --- laying out ----------------------------------------------------------------------------------


def alone(desk: Desk, group: Alike, shown: Sequence[Titled]) -> list[Band]:
    """A detail on its own sheet: rows of views, words, the whole table."""
    items, high = heading(desk, group)
    bands = [Band(items=tuple(items), high=high)]
    words = sentences(desk, group)
    rows = _in_rows(shown)
    for number, row in enumerate(rows):
        band, right = _row(row)
        if number == len(rows) - 1:
            beside = _beside(words, band, right)
            if beside is not None:
                band, words = beside, []
        bands.append(band)
    if words:
        bands.append(_columns(words))
    return [*bands, _tabled(desk, group, 0.0, whole=True)]


def close(desk: Desk, group: Alike, shown: Sequence[Titled]) -> list[Band]:
    """A detail with its words and a short table side by side."""
    items, high = heading(desk, group)
    head = Band(items=tuple(items), high=high)
    columned = _columned(desk, group, shown)
    if columned is not None:
        return [head, columned, _columns(sentences(desk, group))]
    bands = [head, *(_row(row)[0] for row in _in_rows(shown))]
    said, bottom = _set(sentences(desk, group), [Place(0.0, 0.0, COLUMN, float("inf"))])
    table = _tabled(desk, group, WIDE - COLUMN, whole=False)
    return [*bands, Band(items=(*said, *table.items), high=max(bottom, table.high))]


def _columned(desk: Desk, group: Alike, shown: Sequence[Titled]) -> Band | None:
    """Of two views the second over the short table, beside the first; None where they have no room so."""
    if len(shown) != 2:
        return None
    first, second = shown
    left = WIDE - COLUMN
    if first.wide + BETWEEN > left or second.wide > COLUMN:
        return None
    table = _tabled(desk, group, left, whole=False)
    under = second.high + BETWEEN
    if under + table.high > first.high + HIGHER:
        return None
    items = (*first.items, *shifted(second.items, left, 0.0), *shifted(table.items, 0.0, under))
    return Band(items=items, high=max(first.high, under + table.high))


def _in_rows(shown: Sequence[Titled]) -> list[list[Titled]]:
    """As many views side by side as the sheet is wide, in their order."""
    rows: list[list[Titled]] = []
    used = 0.0
    for view in shown:
        if not rows or used + view.wide > WIDE:
            rows.append([])
            used = 0.0
        rows[-1].append(view)
        used += view.wide + BETWEEN
    return rows


def _row(row: Sequence[Titled]) -> tuple[Band, float]:
    """Views side by side with some of what is left over between them; gives the right end too."""
    spare = WIDE - sum(view.wide for view in row) - BETWEEN * (len(row) - 1)
    gap = BETWEEN + (min(spare / len(row), MOST_MORE) if len(row) > 1 else 0.0)
    items: list[Item] = []
    x = 0.0
    for view in row:
        items += shifted(view.items, x, 0.0)
        x += view.wide + gap
    return Band(items=tuple(items), high=max(view.high for view in row)), x - gap


def _beside(words: Sequence[Sequence[Run]], band: Band, right: float) -> Band | None:
    """The words to the right of a row's last view, where there is room for them."""
    left = right + BETWEEN + 3.0
    if WIDE - left < LEAST_BESIDE:
        return None
    said, bottom = _set(words, [Place(left, -0.4, WIDE - left, float("inf"))])
    return Band(items=(*band.items, *said), high=max(band.high, bottom)) if bottom <= band.high + LOWER else None


def _columns(words: Sequence[Sequence[Run]]) -> Band:
    """Words in two columns of even height."""
    _, whole = _set(words, [Place(0.0, 0.0, COLUMN, float("inf"))])
    best = min(range(1, len(words) + 1), key=lambda count: _taller(words, count, whole))
    items, first = _set(words[:best], [Place(0.0, 0.0, COLUMN, float("inf"))])
    more, second = _set(words[best:], [Place(WIDE - COLUMN, 0.0, COLUMN, float("inf"))]) if words[best:] else ([], 0.0)
    return Band(items=(*items, *more), high=max(first, second))


def _taller(words: Sequence[Sequence[Run]], count: int, whole: float) -> float:
    first = _set(words[:count], [Place(0.0, 0.0, COLUMN, float("inf"))])[1]
    return max(first, whole - first)


def _set(words: Sequence[Sequence[Run]], room: Sequence[Place]) -> tuple[list[Item], float]:
    """Paragraphs one under the other in a column: items, and the y of their bottom."""
    (place,) = room
    items: list[Item] = []
    y = place.y
    for runs in words:
        said = flow([replace(place, y=y)], [runs])
        items += said.items
        y = said.bottom + PARAGRAPH - 0.6
    return items, max(y, extent(items)[3] if items else y)
