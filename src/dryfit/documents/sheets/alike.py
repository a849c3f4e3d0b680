"""Parts that are truly alike, which share a sheet: their letters and names together, a box to tick for each."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import cached_property

from ...geometry.views import Surface
from ..display import Item
from ..lettering import TEXT, width
from ..looks import Desk, Look
from ..naming import in_runs
from ..symbols import tag_width
from .arranging import Sketch
from .cuts import NARROWEST, SIZE_IS, columns, rows
from .end_views import end_views, keyed
from .facts import facts
from .frame import Space, heading, said, small_picture
from .ruler import Ruler, ways
from .sketches import seen_from, sketches
from .stack import Stacked, stacked
from .table import Cell, Column, Row, unfolded

FACE_WORDS = 50.0  # of the column FACE SIDE, FACE EDGE, DATUM END

TICK_WIDE = 4.5  # of a column with a box to tick for one part
LEAST = {"measured": 10.3, "takes": 18.0, "cut": 20.0}  # to which columns give way for them
DONE = "done"
NAMED = 3.6  # more for a cut's name: "stopped housing" in one line
SHORT = 15.0  # a narrower column is headed "meas."
COUNTS = ("", "", "two", "three", "four", "five", "six", "seven", "eight", "nine", "ten", "eleven", "twelve")
PLURALS = {"shelf": "shelves"}


@dataclass
class Alike:
    """One part, or several that nothing but their letters tells apart; the first is drawn."""

    looks: tuple[Look, ...]

    @property
    def marks(self) -> list[str]:
        """The letter of each."""
        return [look.part.mark for look in self.looks]

    @cached_property
    def letters(self) -> str:
        """Their letters as the heading has them: "K", "K, L", "A to H"."""
        return lettered(self.marks)

    @cached_property
    def shown(self) -> Look:
        """The one that is drawn, with all their letters."""
        first = self.looks[0]
        return first if len(self.looks) == 1 else Look(replace(first.part, mark=self.letters))

    @property
    def title(self) -> str:
        """Their names together: "divider 1 and 2"."""
        return together([look.part.id for look in self.looks])

    @property
    def name(self) -> str:
        """For the heading: "divider 1 and 2: two alike"."""
        return self.title if len(self.looks) == 1 else f"{self.title}: {_count(len(self.looks))} alike"

    @property
    def kind(self) -> str:
        """The kind of paper."""
        return "part" if len(self.looks) == 1 else f"part, {_count(len(self.looks))} alike"

    @property
    def number(self) -> str:
        """What tells the sheet from the job's others: "K", "KL", "A-H"."""
        return self.letters.replace(", ", "").replace(" to ", "-")

    def heading(self, desk: Desk, space: Space, more: str) -> tuple[list[Item], float]:
        """The heading, and the y below which the sheet is free."""
        right = space.right - FACE_WORDS
        names, name = self.shown.names, f"{self.name}, {more}" if more else self.name
        said_of_it = facts(desk, self.looks[0].part, each=len(self.looks) > 1)
        items, y = heading(self.letters, name, said_of_it, right - 3.0)
        words = (
            ("FACE SIDE", names.words[names.face_side]),
            ("FACE EDGE", names.words[Surface.FRONT]),
            ("DATUM END", names.words[Surface.DATUM]),
        )
        return [*items, *said(right + 24.0, words)], y + 1.0

    def rulers(self, space: Space) -> list[Ruler]:
        """Ways to draw the part along the sheet, the best first."""
        return along(self.shown, space)

    def stack(self, desk: Desk, ruler: Ruler, top: float, right: float) -> Stacked:
        """The views, from `top` down."""
        return stacked(desk, self.shown, ruler, top, right)

    def sketches(self, desk: Desk, *, roomy: bool) -> list[Sketch]:
        """Sections and views of ends."""
        return [*sketches(desk, self.shown, roomy=roomy), *end_views(self.shown)]

    @property
    def seen(self) -> str:
        """From where the sections are seen."""
        return seen_from(self.shown)

    def fools(self) -> list[str]:
        """What of it will fool you: nothing that the lists do not say."""
        return []

    @cached_property
    def told_in_table(self) -> bool:
        """Whether the table says all that a view of the ends shows: they carry key pockets and nothing else."""
        return keyed(self.shown)

    def columns(self, wide: float) -> list[Column]:
        """The cut table's columns."""
        return ticked(self.shown, wide, self.marks)

    def rows(self, desk: Desk, wide: float) -> list[Row]:
        """The cut table's rows, a box for each part; what differs is only what is taken."""
        return unfolded(self.columns(wide), joined(desk, self.looks))

    def picture(self, desk: Desk, box: tuple[float, float, float, float]) -> list[Item]:
        """The whole piece small, with all of them dark."""
        return dark(desk, [look.part.id for look in self.looks], box)


def along(look: Look, space: Space) -> list[Ruler]:
    """Ways to draw a part along the sheet, the best first."""
    scribe = look.part.board.scribe
    traces = look.view(look.names.face_side).traces
    kept = [
        (min(a for a, _ in trace.extent), max(a for a, _ in trace.extent))
        for trace in traces
        if trace.extent and not trace.end
    ]
    start, end = -scribe[0], look.part.length + scribe[1]
    return list(ways(start, end, space.left + 2.4, space.wide - 5.0, kept))


def dark(desk: Desk, names: Sequence[str], box: tuple[float, float, float, float]) -> list[Item]:
    """The small picture with several parts dark."""
    items = small_picture(desk, names[0], box)
    for name in names[1:]:
        items += [item for item in small_picture(desk, name, box) if item.owner == name]
    return items


def joined(desk: Desk, looks: Sequence[Look], called: Sequence[Mapping[str, str]] = ()) -> list[Row]:
    """One set of whole rows for parts with the same cuts: cells that differ name what each part takes.

    Args:
        called: for each part, words that are put otherwise: the faces of two hands.
    """
    bodies = [_whole(rows(desk, look)) for look in looks]
    if len(looks) == 1:
        return bodies[0]
    words = called or [{}] * len(looks)
    marks = [look.part.mark for look in looks]
    return [_row(desk, marks, alike) for alike in zip(*map(_called, bodies, words), strict=True)]


def _whole(body: Sequence[Row]) -> list[Row]:
    """Rows with their further lines taken back into them; sentences below a row stay rows of their own."""
    made: list[Row] = []
    for row in body:
        before = made[-1] if made else ()
        if row[0].joins and [cell.span for cell in row] == [cell.span for cell in before]:
            texts = (f"{cell.text} {more.text}".strip() for cell, more in zip(before, row, strict=True))
            made[-1] = tuple(replace(cell, text=text) for cell, text in zip(before, texts, strict=True))
        else:
            made.append(row)
    return made


def _called(body: Sequence[Row], words: Mapping[str, str]) -> list[Row]:
    """Rows in which some things are called otherwise."""
    if not words:
        return list(body)
    pattern = re.compile("|".join(map(re.escape, words)))
    return [
        tuple(replace(cell, text=pattern.sub(lambda met: words[met[0]], cell.text)) for cell in row) for row in body
    ]


def _row(desk: Desk, marks: Sequence[str], alike: Sequence[Row]) -> Row:
    cells: list[Cell] = []
    for same in zip(*alike, strict=True):
        cells += [same[0]] * len(marks) if same[0].tick else [_cell(desk, marks, same)]
    return tuple(cells)


def _cell(desk: Desk, marks: Sequence[str], same: Sequence[Cell]) -> Cell:
    first = same[0]
    if all(cell == first for cell in same):
        return first
    if first.tags:
        kind, text = first.tags[0]
        words = [cell.tags[0][1].removeprefix(f"{kind} ") for cell in same]
        told = f"{kind} {', '.join(dict.fromkeys(words))}" if text != kind else text
        return replace(first, tags=((kind, told if tag_width(told) < SIZE_IS else f"{kind} each"),))
    return replace(first, text=_each(desk, marks, [cell.text for cell in same]))


def _each(desk: Desk, marks: Sequence[str], texts: Sequence[str]) -> str:
    """What each part takes or goes into, by letters: "in A (K), B (L)", "A, B, C in turn"."""
    before = "in " if all(text.startswith("in ") for text in texts) else ""
    known = set(desk.marks.values())
    words = [text.removeprefix(before).split(" ", 1) for text in texts]
    short = [first if first in known else " ".join((first, *rest)) for first, *rest in words]
    if len(short) == 2:
        return f"{before}{', '.join(f'{word} ({mark})' for word, mark in zip(short, marks, strict=True))}"
    return f"{before}{', '.join(dict.fromkeys(short))} in turn"


def ticked(look: Look, wide: float, marks: Sequence[str]) -> list[Column]:
    """The cut table's columns with one to tick for each of several parts, the others narrower by as much.

    A table wider than the narrowest has room for a cut's name in one line.
    """
    made = columns(look, wide)
    boxes = [Column(title=mark, wide=max(TICK_WIDE, width(mark, TEXT, "semibold") + 1.6)) for mark in marks]
    if len(marks) == 1:
        boxes = [column for column in made if column.title == DONE]
    over = sum(box.wide for box in boxes) - sum(column.wide for column in made if column.title == DONE)
    least = {
        column.title: min(column.wide, LEAST.get(column.title, column.wide)) for column in columns(look, NARROWEST)
    }
    spare = {column.title: max(column.wide - least[column.title], 0.0) for column in made}
    named = wide > NARROWEST and sum(spare.values()) - spare["cut"] >= over + NAMED
    if named:
        over, spare["cut"] = over + NAMED, 0.0
    part = min(max(over, 0.0) / max(sum(spare.values()), 1e-9), 1.0)
    narrow = [replace(column, wide=column.wide - part * spare[column.title]) for column in made]
    if named:
        narrow = [replace(one, wide=one.wide + NAMED) if one.title == "cut" else one for one in narrow]
    short = [replace(one, title="meas.") if one.title == "measured" and one.wide < SHORT else one for one in narrow]
    return [one for column in short for one in (boxes if column.title == DONE else [column])]


def lettered(marks: Sequence[str]) -> str:
    """Letters together, three or more in a row as a run: "K, L", "A to H"."""
    places = ["ABCDEFGHJKLMNPQRSTUVWXYZ".find(mark) for mark in marks]
    if -1 in places or places != sorted(places):
        return ", ".join(marks)
    runs = in_runs(places).replace(", ", " , ").split()
    words = [marks[places.index(int(run))] if run.isdigit() else run for run in runs]
    return " ".join(words).replace(" ,", ",")


def together(names: Sequence[str]) -> str:
    """Several names in one: "divider 1 and 2", "shelf 1 to 5", "left and right uprights", "long shelf and rail"."""
    if len(names) == 1:
        return names[0]
    split = [name.split() for name in names]
    heads = {tuple(words[:-1]) for words in split}
    if len(heads) == 1 and split[0][:-1] and all(words[-1].isdigit() for words in split):
        numbers = in_runs(sorted(int(words[-1]) for words in split))
        last, _, final = numbers.rpartition(", ")
        return " ".join((*split[0][:-1], f"{last} and {final}" if last else final))
    before, mids, after = shared(split)
    if not before and not after:
        return f"{', '.join(names[:-1])} and {names[-1]}"
    told = f"{', '.join(mids[:-1])} and {mids[-1]}"
    return " ".join((*before, told, *after[:-1], *map(_plural, after[-1:])))


def common(names: Sequence[str]) -> str:
    """What several names share, as one name for all: "box sides", "ends"; "" where their last words differ."""
    before, _, after = shared([name.split() for name in names])
    return " ".join((*before, *after[:-1], _plural(after[-1]))) if after else ""


def shared(split: Sequence[Sequence[str]]) -> tuple[list[str], list[str], list[str]]:
    """The words that begin all names, what is each one's own, the words that end all."""
    least = min(len(words) for words in split) - 1  # each keeps a word of its own
    count = next((n for n, words in enumerate(zip(*split, strict=False)) if len(set(words)) > 1), least)
    before = list(split[0][: min(count, least)])
    rest = [list(words[len(before) :]) for words in split]
    last = 0
    while last < min(len(words) for words in rest) - 1 and len({words[-1 - last] for words in rest}) == 1:
        last += 1
    after = rest[0][len(rest[0]) - last :]
    return before, [" ".join(words[: len(words) - last]) for words in rest], after


def _plural(noun: str) -> str:
    if noun in PLURALS or noun.endswith("s"):
        return PLURALS.get(noun, noun)
    if noun.endswith(("x", "ch", "sh")):
        return f"{noun}es"
    return f"{noun[:-1]}ies" if noun.endswith("y") and noun[-2:-1] not in "aeiou" else f"{noun}s"


def _count(number: int) -> str:
    return COUNTS[number] if number < len(COUNTS) else str(number)
