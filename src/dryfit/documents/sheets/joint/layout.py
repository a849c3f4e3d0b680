"""Puts a detail together: heading, views in rows, words beside or under them, tables of its figures and its marks.

A detail is a stack of bands whose heights are measured, never guessed. It can be laid out at ease, or close, so that
two stand on a sheet: nothing is left out for it, but words and tables stand side by side.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from itertools import accumulate, product

from ....joints.registry import KINDS
from ....sentences import Voice, Words, say, told
from ...display import Item, Text, extent, shifted
from ...kit.view import PlacedView, View, place
from ...lettering import TEXT, known, printable, widest
from ...looks import Desk
from ...naming import printed_units
from ...standard import AIR, BLANK, DETAILS, STEP
from ...symbols import TICK
from ..fixings.chain import chain_of
from ..fixings.section import screw_view
from ..page.prose import Flowed, TextPlace, WordRun, by_terms, flow, strong
from ..page.table import (
    BESIDE,
    GUTTER,
    PAD,
    Cell,
    Column,
    Row,
    abreast,
    bold,
    columns_for,
    drawn,
    head_high,
    rows_high,
    unfolded,
)
from .groups import hand, tags
from .heading import MIRROR, WIDE, heading, lies, marks
from .roles import Phrase, Roles, lettered, lettered_runs
from .shared import Shared, plain, table
from .views.along import along_view
from .views.corner import corner_view
from .views.face import face_view
from .views.front import front_view
from .views.rows import rows_view
from .views.section import section_view
from .words import FOUND, MIND, OPPOSITE, hand_words

COLUMN = (WIDE - GUTTER) / 2
BETWEEN = 2 * TEXT  # what stands side by side or one under the other
MOST_MORE = 2 * BETWEEN  # what is added where there is room
LEAST_BESIDE = WIDE / 3  # of the words beside a view
TITLE = STEP + AIR  # from a small title's top to the table under it
AFTER = TEXT  # under what stands in a column
MOST_MARKS = 24 * TEXT  # of a table of marks at ease: a third of a sheet
ABREAST = 3  # tables of marks side by side, at most


@dataclass(frozen=True, kw_only=True)
class Band:
    """One strip of a detail, from (0, 0) down; drawn where it is asked for, as most ways to lay it are not taken."""

    high: float
    draw: Callable[[], Iterable[Item]] = tuple

    @cached_property
    def items(self) -> tuple[Item, ...]:
        """What is drawn."""
        return tuple(self.draw())


NOTHING = Band(high=0.0)
WHERE = ("under", "beside", "left", "right")  # of what stands about the views, the plainest first
WHERE_IN_ORDER = ("beside", "left", "right", "under")  # from the last row of views down
WORDS, FIGURES, MARKS, DIFFERS, HEAD = range(5)
ENDLESS = Band(high=math.inf)
SET = 1024  # paragraphs kept as they are set: a detail's, in the widths that are tried
CLOSE = TEXT  # between bands of a detail that is laid out close
BLOCKS = (WORDS, FIGURES, MARKS)  # those that may stand in any of the places
PLACES = [some for some in product(WHERE, repeat=len(BLOCKS)) if ("left" in some) is ("right" in some)]


def titled(desk: Desk, shown: Sequence[View], larger: Sequence[PlacedView] = ()) -> tuple[PlacedView, ...]:
    """Views under their titles, numbered; one that is no smaller than its `larger` fellow is that."""
    room, fellows = (WIDE - BETWEEN, math.inf), larger if len(larger) == len(shown) else [None] * len(shown)
    return tuple(
        fellow if fellow is not None and fellow.scale == view.scale else place(view, room, desk.book.voice, str(number))
        for number, (view, fellow) in enumerate(zip(shown, fellows, strict=True), start=1)
    )


def shrunk(placed: PlacedView, view: View) -> PlacedView:
    """How large a view is one scale smaller: its wood shrinks, what is said around it does not; nothing is drawn."""
    by = 1 - min(DETAILS[1] / view.scale, 1.0)
    left, top, right, bottom = extent(view.wood)
    return replace(placed, items=(), wide=placed.wide - by * (right - left), high=placed.high - by * (bottom - top))


def views(desk: Desk, roles: Roles, smaller: int = 0, *, several: bool = False) -> list[View]:
    """The views of one joint, in their order, then the sections that its kind asks for.

    Args:
        smaller: how many of the larger scales are left out.
        several: whether it stands for several, so that it has no marks of its own.
    """
    asked = KINDS[roles.joint.kind].sections(roles.joint)
    sections = [section_view(desk, roles.joint, cutting, smaller) for cutting in asked]
    return [*_of_every_joint(desk, roles, smaller, several=several), *sections]


def _of_every_joint(desk: Desk, roles: Roles, smaller: int, *, several: bool) -> list[View]:
    """Where one board enters the other, both ways and its face; of a corner its section and what stands in a row."""
    if not roles.shown:
        made = chain_of(roles.joint)
        front = roles.joint.meeting.a.front
        return [screw_view(made, desk.marks[roles.names[0]], WIDE, front=front)] if made is not None else []
    first = roles.shown[0]
    if first.cut is None:
        row = rows_view(desk, first, smaller)
        return [corner_view(desk, first, smaller), *([row] if row is not None else [])]
    back = next((one.cut for one in roles.shown[1:] if one.main.id != first.main.id), None)  # in the other board
    face = face_view(desk, first, smaller, several=several)
    return [front_view(desk, first, smaller), face, along_view(desk, first, back, smaller)]


# --- words ---------------------------------------------------------------------------------------


def sentences(desk: Desk, group: Shared) -> list[list[WordRun]]:
    """The paragraphs with letters, the hand among them; what is not the same in all sets is told of each."""
    found = [_paragraph(desk, group, place) for place in range(len(group.sets[0].settled))]
    words = hand_words(group.first)
    if words and hand(group.first):
        runs = [strong("Hand."), WordRun(lettered(desk, words))]
        turned = [one for one in group.roles if lies(group, one) == MIRROR]
        if turned:
            runs.append(WordRun(f"The mirror image, leaning the other way: {tags(desk, turned)}."))
        found.insert(min(4, len(found)), runs)
    last = len(found) - 1 if found and found[-1][0].text == MIND else len(found)
    return [*found[:last], *_found(desk, group), *found[last:]]


def _paragraph(desk: Desk, group: Shared, place: int) -> list[WordRun]:
    """One paragraph of all sets."""
    every = [some.settled[place] for some in group.sets]
    runs: list[WordRun] = []
    for said in zip(*every, strict=True):
        told = [plain(some.first, one.words) for some, one in zip(group.sets, said, strict=True)]
        first, alike = said[0], len(set(told)) == 1
        if first.several is not None and len(group.roles) > 1 and (first.blank or not alike):
            runs += lettered_runs(desk, [replace(first, words=first.several, blank=0.0)] if first.several else [])
        elif alike:
            runs += lettered_runs(desk, [first])
        else:
            runs += _of_each(desk, group, said, told)
    return runs


def _of_each(desk: Desk, group: Shared, said: Sequence[Phrase], told: Sequence[str]) -> Iterator[WordRun]:
    """What is told otherwise in some sets, each time with its joints."""
    for text in dict.fromkeys(told):
        them = [roles for some, one in zip(group.sets, told, strict=True) if one == text for roles in some.roles]
        (run,) = lettered_runs(desk, [said[told.index(text)]])
        yield replace(run, text=f"{printable(tags(desk, them))}: {run.text}")


def _found(desk: Desk, group: Shared) -> Iterator[list[WordRun]]:
    """What was found in them that must change or be looked at."""
    for some in group.sets:
        for runs in some.words:
            if runs[0].words in (FOUND, OPPOSITE):
                whose = [WordRun(f"{printable(tags(desk, some.roles))}:")] if len(group.sets) > 1 else []
                first, *rest = lettered_runs(desk, runs)
                yield [first, *whose, *rest]


def high_of(bands: Sequence[Band], gap: float = BETWEEN) -> float:
    """Of bands under one another."""
    return sum(band.high for band in bands) + gap * max(len(bands) - 1, 0)


# --- tables --------------------------------------------------------------------------------------


def _figures(desk: Desk, group: Shared, room: float) -> Band | None:
    """The figures that all have, each with what it is and how it comes about."""
    if not group.figures:
        return None
    voice = Voice(printed_units(), desk.marks, bare=True)
    lines: list[list[Words]] = [[one.name, one.what, one.sum] for one in group.figures]
    said = _told(lines, voice)
    titles = ["figure", "what it is", "how it comes about"]
    to_fill = list(_to_fill([one.value for one in group.figures]))
    left = room - sum(column.wide for column in to_fill)
    if not any(how for *_, how in said):
        titles, lines = titles[:2], [line[:2] for line in lines]
    elif sum(_needs(said, titles)) > left:
        lines = [[name, say("{}: {}", what, how) if what and how else what or how] for name, what, how in lines]
        titles = ["figure", "what it is and how it comes about"]
    said = _told(lines, voice)
    columns = [
        *(Column(title=title, wide=wide) for title, wide in zip(titles, _shares(said, titles, left), strict=True)),
        *to_fill,
    ]
    rooms = [column.wide - PAD - BESIDE for column in columns]
    rows = [
        (*(Cell(text=by_terms(words, voice, wide)) for words, wide in zip(line, rooms, strict=False)), bold(one.value))
        for line, one in zip(lines, group.figures, strict=True)
    ]
    return _tabled(columns, [(*row, Cell(tick=True), Cell()) for row in rows])


def _told(lines: Sequence[Sequence[Words]], voice: Voice) -> list[list[str]]:
    return [[known(told(words, voice)) for words in line] for line in lines]


def _to_fill(values: Sequence[str]) -> Iterator[Column]:
    """The columns after the words: the figure, a box, and room to write another."""
    units = printed_units()
    for title, need in ((units, widest(values, TEXT, "semibold")), ("set", TICK), ("measured", BLANK)):
        yield Column(title=title, wide=max(widest([title], TEXT, "semibold"), need) + PAD + TEXT)


def _shares(said: Sequence[Sequence[str]], titles: Sequence[str], room: float) -> list[float]:
    """Widths of the columns of words: what each needs, and an equal part of what is left over; of too little, the sums.

    What is lacking is taken from the last column, whose sums go on in a second line.
    """
    need = _needs(said, titles)
    spare = room - sum(need)
    return [wide + spare / len(need) for wide in need] if spare > 0 else [*need[:-1], need[-1] + spare]


def _needs(said: Sequence[Sequence[str]], titles: Sequence[str]) -> list[float]:
    return [
        max(widest([line[number] for line in said], TEXT), widest([title], TEXT, "semibold")) + PAD + BESIDE
        for number, title in enumerate(titles)
    ]


def _tabled(columns: Sequence[Column], rows: Sequence[Row], title: str = "") -> Band:
    """A table, under a small title; words that its columns have no room for go on in a further line."""
    lines = unfolded(columns, rows)
    under = TITLE if title else 0.0

    def draw() -> Iterator[Item]:
        if title:
            yield Text(at=(0.0, TEXT), text=title, weight="semibold")
        yield from drawn(0.0, under, columns, lines)

    return Band(high=under + head_high(columns) + rows_high(lines), draw=draw)


def _differing(desk: Desk, group: Shared) -> Band | None:
    """What differs between sets, a row for each."""
    if not group.columns:
        return None
    columns, rows = table(desk, group, WIDE)
    return _tabled(columns, rows, "what differs; letters as in the drawings, widths to the nearest 0.05")


def _marks(desk: Desk, group: Shared, room: float, most: float = math.inf) -> Band | None:
    """The marks of all joints, as few tables side by side as keep to a height; None where a row has no room."""
    titles, rows = marks(desk, group)
    found: Band | None = None
    for count in range(1, min(ABREAST, len(rows)) + 1):
        columns = columns_for(titles, rows, (room - (count - 1) * GUTTER) / count)
        if found is not None and len(unfolded(columns, rows)) > len(rows):
            break
        found = _tabled(*(abreast(columns, rows, count) if count > 1 else (columns, rows)))
        if found.high <= most:
            break
    return found


# --- laying out ----------------------------------------------------------------------------------


def alone(desk: Desk, group: Shared, shown: Sequence[PlacedView], *, paged: bool = True) -> list[Band]:
    """A detail at ease: rows of views, words beside the last or under them, the tables.

    Args:
        paged: with the pages of its parts, as on a sheet.
    """
    bands = [_head(desk, group, paged=paged), *(_row(row)[0] for row in _in_rows(shown, BETWEEN))]
    words = sentences(desk, group)
    if shown:
        beside = _beside(words, *_row(_in_rows(shown, BETWEEN)[-1]))
        bands, words = ([*bands[:-1], beside], []) if beside is not None else (bands, words)
    tables = (_figures(desk, group, WIDE), _differing(desk, group), _marks(desk, group, WIDE, MOST_MARKS))
    return [*bands, *([columns(words)] if words else []), *(one for one in tables if one is not None)]


@dataclass(frozen=True, slots=True)
class _Way:
    """How a detail is laid out close.

    Attributes:
        views: the rows or columns in which they stand.
        split: width of the left of two columns under them.
        places: of words, figures and marks.
    """

    views: "_Shown"
    split: float
    places: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Shown:
    """Views as they are laid out: bands above, the last band, from where on the sheet is free beside it, to what foot.

    Attributes:
        corner: the free lower left corner under a first view, beside which the others stand: its top, width, height.
    """

    above: tuple[Band, ...]
    last: Band
    right: float
    corner: tuple[float, float, float] | None = None


class Close:
    """A detail with its words and tables where they take least of the sheet; what it is made of is measured once.

    Attributes:
        desk, group: what it is of.
        made: the same at another scale: its tables and words are as high.
    """

    def __init__(self, desk: Desk, group: Shared, shown: Sequence[PlacedView], made: "Close | None" = None) -> None:
        self.desk, self.group = desk, group
        self.tables: dict[tuple[int, float], Band | None] = made.tables if made is not None else {}
        self.words: dict[tuple[float, str], Band] = made.words if made is not None else {}
        self._best: dict[str, _Way] = {}
        self._laid: dict[str, list[Band]] = {}
        self._high: dict[str, float] = {}
        splits = {COLUMN, WIDE - GUTTER - _least(*marks(desk, group))} if group.roles else {COLUMN}
        self._ways = [
            _Way(views, split, places)
            for views in (_rowed(shown), *_columned(shown))
            for split in sorted(splits, key=lambda one: one != COLUMN)
            if split > LEAST_BESIDE
            for places in PLACES
            if "beside" not in places or WIDE - views.right - BETWEEN >= LEAST_BESIDE
        ]

    def bands(self, said: Sequence[Sequence[WordRun]]) -> list[Band]:
        """It with these paragraphs."""
        key = _key(said)
        if key not in self._laid:
            self._laid[key] = [self._at(HEAD, WIDE) or NOTHING, *self._drawn(said, self._way(said))]
        return self._laid[key]

    def high(self, said: Sequence[Sequence[WordRun]]) -> float:
        """How much of a sheet it takes with these paragraphs; it is not drawn for that."""
        key = _key(said)
        if key not in self._high:
            levels = self._levels(said, self._way(said)) or [ENDLESS]
            self._high[key] = high_of([self._at(HEAD, WIDE) or NOTHING, *levels], CLOSE)
        return self._high[key]

    def _way(self, said: Sequence[Sequence[WordRun]]) -> _Way:
        """The way to lay it out that takes least."""
        key = _key(said)
        if key not in self._best:
            self._best[key] = min(self._ways, key=lambda way: high_of(self._levels(said, way) or [ENDLESS], CLOSE))
        return self._best[key]

    def _levels(self, said: Sequence[Sequence[WordRun]], way: _Way) -> list[Band] | None:
        """What stands under one another, heights alone; nothing where something has no room in its place."""
        stacks = self._stacks(said, way)
        if stacks is None:
            return None
        beside, left, right, under = (stacks[place] for place in WHERE_IN_ORDER)
        last = max(way.views.last.high, high_of(beside, AFTER))
        levels = [last, max(high_of(left, AFTER), high_of(right, AFTER))]
        return [*way.views.above, *(Band(high=high) for high in levels if high), *under]

    def _drawn(self, said: Sequence[Sequence[WordRun]], way: _Way) -> list[Band]:
        """The views with what is beside them, two columns under them, then the whole width."""
        stacks = self._stacks(said, way)
        assert stacks is not None, "the plainest way has room for all"
        beside, left, right, under = (stacks[place] for place in WHERE_IN_ORDER)
        levels = [
            _side_by_side([way.views.last], beside, self._beside(way)),
            _side_by_side(left, right, way.split + GUTTER),
        ]
        if way.views.corner is not None:
            top, wide, high = way.views.corner
            inside = self._said(said[: self._fitting(said, wide, high)], wide)
            levels[0] = _over(levels[0], lambda: shifted(inside.items, 0.0, top))
        return [band for band in (*way.views.above, *levels, *under) if band.high]

    def _beside(self, way: _Way) -> float:
        return way.views.right + BETWEEN

    def _stacks(self, said: Sequence[Sequence[WordRun]], way: _Way) -> dict[str, list[Band]] | None:
        """What stands in each place, from the top; nothing where something has no room in its place."""
        rooms = {
            "beside": WIDE - self._beside(way),
            "left": way.split,
            "right": WIDE - GUTTER - way.split,
            "under": WIDE,
        }
        if way.views.corner is not None:
            said = said[self._fitting(said, *way.views.corner[1:]) :]
        found: dict[str, list[Band]] = {place: [] for place in WHERE}
        for block, where in zip(BLOCKS, way.places, strict=True):
            band = self._at(block, rooms[where]) if block else self._said(said, rooms[where])
            if band is None:
                return None
            found[where] += [band] if band.high else []
        differs = self._at(DIFFERS, WIDE)
        return {**found, "under": [*found["under"], *([differs] if differs is not None and differs.high else [])]}

    def _said(self, said: Sequence[Sequence[WordRun]], wide: float) -> Band:
        key = (wide, _key(said))
        if key not in self.words:
            self.words[key] = columns(said) if wide == WIDE else _column(said, wide)
        return self.words[key]

    def _fitting(self, said: Sequence[Sequence[WordRun]], wide: float, high: float) -> int:
        """How many paragraphs, from the first on, stand in a room."""
        return next((count for count in range(len(said), 0, -1) if self._said(said[:count], wide).high <= high), 0)

    def _at(self, block: int, wide: float) -> Band | None:
        """A table, or the heading, in a width; None where it has no room there."""
        if (block, wide) not in self.tables:
            self.tables[block, wide] = self._make(block, wide)
        return self.tables[block, wide]

    def _make(self, block: int, wide: float) -> Band | None:
        if block == HEAD:
            return _head(self.desk, self.group, brief=True)
        if block == DIFFERS:
            return _differing(self.desk, self.group) or NOTHING
        if block == FIGURES:
            return _figures(self.desk, self.group, wide) or NOTHING
        titles, rows = marks(self.desk, self.group)
        fits = wide == WIDE or len(unfolded(columns_for(titles, rows, wide), rows)) == len(rows)
        return _marks(self.desk, self.group, wide, 0.0) if fits else None


def _rowed(shown: Sequence[PlacedView]) -> _Shown:
    """Views in rows."""
    rows = [_row(row) for row in _in_rows(shown, AIR)] or [(NOTHING, WIDE)]
    last, right = rows[-1]
    return _Shown(tuple(band for band, _ in rows[:-1]), last, right)


def _columned(shown: Sequence[PlacedView]) -> Iterator[_Shown]:
    """The first view by itself on the left, the others under one another on the right; words under the first."""
    if len(shown) < 3:
        return
    first, *others = shown
    x = WIDE - max(view.wide for view in others)
    if first.wide + AIR > x:
        return
    stack = [_drawn(view) for view in others]
    band = _side_by_side([_drawn(first)], stack, x)
    top = first.high + AFTER
    yield _Shown((), band, WIDE, (top, x - BETWEEN, band.high - top))


def _least(titles: Sequence[str], rows: Sequence[Row]) -> float:
    """The least width of a table of which no row goes on in a second line, and no head in more than a few."""
    every = range(len(titles))
    texts = [widest([row[at].text for row in rows], TEXT, "semibold") for at in every]
    heads = [widest(titles[at].replace(", ", ",\n").split("\n"), TEXT, "semibold") for at in every]
    return sum(max(text, head, TICK) + PAD + BESIDE for text, head in zip(texts, heads, strict=True)) + AIR


def _key(said: Sequence[Sequence[WordRun]]) -> str:
    return "\n".join(run.text for runs in said for run in runs)


def _head(desk: Desk, group: Shared, *, brief: bool = False, paged: bool = True) -> Band:
    items, high = heading(desk, group, brief=brief, paged=paged)
    return Band(high=high, draw=lambda: items)


def _drawn(view: PlacedView) -> Band:
    return Band(high=view.high, draw=lambda: view.items)


def _over(band: Band, more: Callable[[], Iterable[Item]], high: float = 0.0) -> Band:
    """A band with more on it, which reaches down to `high`."""
    return Band(high=max(band.high, high), draw=lambda: (*band.items, *more()))


def _side_by_side(left: Sequence[Band], right: Sequence[Band], x: float) -> Band:
    """Two stacks of bands, the second from x on."""

    def draw() -> Iterator[Item]:
        for some, start in ((left, 0.0), (right, x)):
            y = 0.0
            for band in some:
                yield from shifted(band.items, start, y)
                y += band.high + AFTER

    return Band(high=max(high_of(some, AFTER) for some in (left, right)), draw=draw)


def _in_rows(shown: Sequence[PlacedView], gap: float) -> list[list[PlacedView]]:
    """As many views side by side as the sheet is wide, in their order."""
    rows: list[list[PlacedView]] = []
    used = 0.0
    for view in shown:
        if not rows or used + view.wide > WIDE:
            rows.append([])
            used = 0.0
        rows[-1].append(view)
        used += view.wide + gap
    return rows


def _row(row: Sequence[PlacedView]) -> tuple[Band, float]:
    """Views side by side with some of what is left over between them; gives the right end too."""
    gaps = len(row) - 1
    gap = min((WIDE - sum(view.wide for view in row)) / gaps, BETWEEN + MOST_MORE) if gaps else 0.0
    lefts = list(accumulate((view.wide + gap for view in row), initial=0.0))

    def draw() -> Iterator[Item]:
        for view, x in zip(row, lefts, strict=False):
            yield from shifted(view.items, x, 0.0)

    return Band(high=max(view.high for view in row), draw=draw), lefts[-1] - gap


def _beside(words: Sequence[Sequence[WordRun]], band: Band, right: float) -> Band | None:
    """The words to the right of a row's last view, where there is room for them and they end no lower than under it."""
    left = right + BETWEEN
    if WIDE - left < LEAST_BESIDE:
        return None
    said = _column(words, WIDE - left)
    under = band.high + BETWEEN + columns(words).high
    return _over(band, lambda: shifted(said.items, left, 0.0), said.high) if said.high <= under else None


def _column(words: Sequence[Sequence[WordRun]], wide: float) -> Band:
    """Words in one column."""
    made = [_set(tuple(runs), wide) for runs in words]
    tops = list(accumulate((one.bottom + AIR for one, _ in made), initial=0.0))

    def draw() -> Iterator[Item]:
        for (one, _), top in zip(made, tops, strict=False):
            yield from shifted(one.items, 0.0, top)

    return Band(high=max(tops[-1], *(top + ink for (_, ink), top in zip(made, tops, strict=False)), 0.0), draw=draw)


def columns(words: Sequence[Sequence[WordRun]]) -> Band:
    """Words in two columns of even height."""
    if not words:
        return NOTHING
    ends = list(accumulate(_column([runs], COLUMN).high for runs in words))
    best = min(range(len(words)), key=lambda number: max(ends[number], ends[-1] - ends[number])) + 1
    one, other = _column(words[:best], COLUMN), _column(words[best:], COLUMN)
    return _over(one, lambda: shifted(other.items, WIDE - COLUMN, 0.0), other.high)


@lru_cache(maxsize=SET)
def _set(runs: tuple[WordRun, ...], wide: float) -> tuple[Flowed, float]:
    """A paragraph from (0, 0) down, and how far its ink reaches down."""
    said = flow([TextPlace(0.0, 0.0, wide, math.inf)], [runs])
    return said, extent(said.items).bottom
