"""Short paragraphs with bold words and blanks in them, set by measured widths, flowing from place to place."""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from itertools import accumulate
from typing import TypeAlias

from ....geometry.frames import Vec2
from ....sentences import Voice, Words, told
from ... import standard as spacing
from ...display import Item, Text
from ...kit.label import pieces_of
from ...lettering import TEXT, Weight, divided, known, printable, unkept, width, wrapped
from ...symbols import blank

LINE = spacing.STEP  # from base line to base line
FIRST = TEXT + spacing.AIR  # of the first base line below the top
AFTER = spacing.UNDER  # below the last base line
DOT = " · "  # between facts on one line
SET = 1024  # paragraphs kept as they are set: those of a part's sheet, in the widths that are tried
_Piece: TypeAlias = tuple[float, str | float, Weight]  # of a line: how far along, words or the width of a blank


@dataclass(frozen=True, slots=True)
class WordRun:
    """Words of one weight; `blank` mm of line to write on stand after the last."""

    text: str
    weight: Weight = "regular"
    blank: float = 0.0


@dataclass(frozen=True, slots=True)
class TextPlace:
    """Where text may stand: its top left corner, width, and the y it must not pass."""

    x: float
    y: float
    wide: float
    bottom: float


@dataclass(frozen=True, slots=True)
class Flowed:
    """Text set into places.

    Attributes:
        bottom: y below the last line.
        whole: whether all of it found room.
    """

    items: list[Item]
    bottom: float
    whole: bool


def by_terms(says: Words, voice: Voice, room: float) -> str:
    """A sum in which each term that has room in a line stays whole: it goes on at its signs, which begin a line."""
    text = known(told(says, voice))
    if width(text, TEXT) <= room:
        return text
    pieces = [known(piece) for piece in pieces_of(says, voice)]
    return " ".join(piece if width(unkept(piece), TEXT) <= room else unkept(piece) for piece in pieces)


def strong(text: str) -> WordRun:
    """Words that must be seen."""
    return WordRun(text, "semibold")


def largest(text: str, sizes: Sequence[float], room: float, weight: Weight = "regular") -> float:
    """The first of these sizes in which a text has room, the last where in none."""
    return next((size for size in sizes if width(text, size, weight) <= room), sizes[-1])


def block(
    text: str, at: Vec2, room: float, sizes: Sequence[float] = (TEXT,), weight: Weight = "regular"
) -> tuple[list[Text], float]:
    """A text as large as it stands on one line, else wrapped in the last of these sizes, nothing left out.

    Args:
        at: its top left corner.

    Returns:
        The lines, and the top of what follows.
    """
    said = printable(text)
    size = largest(said, sizes, room, weight)
    lines, step = wrapped(said, room, size, weight), spacing.LINE * size
    x, y = at[0], at[1] + size
    items = [Text(at=(x, y + n * step), text=line, size=size, weight=weight) for n, line in enumerate(lines)]
    return items, at[1] + len(lines) * step


def packed(pieces: Iterable[str], room: float, *, most: float = math.inf, broken: bool = False) -> list[str]:
    """Short pieces, dots between them, in as few lines as hold them.

    Args:
        most: so many to a line at most.
        broken: whether a piece that is longer than a line is broken.
    """
    lines: list[str] = []
    for piece in pieces:
        longer = f"{lines[-1]}{DOT}{piece}" if lines else piece
        if lines and lines[-1].count(DOT) + 1 < most and width(longer, TEXT) <= room:
            lines[-1] = longer
        else:
            lines += (wrapped(piece, room, TEXT) if broken else ()) or [piece]
    return lines


def filled(pieces: Sequence[str], room: float) -> tuple[str, list[str]]:
    """The first line of short pieces with dots between them, and what has no room on it."""
    first, *more = pieces or ("",)
    line, *broken = wrapped(first, room, TEXT) or [""]
    if broken:
        return line, [" ".join(broken), *more]
    while more and width(f"{line}{DOT}{more[0]}", TEXT) <= room:
        line += f"{DOT}{more.pop(0)}"
    return line, more


def paragraph(x: float, y: float, room: float, runs: Sequence[WordRun]) -> tuple[list[Item], float]:
    """A paragraph from its top left corner: its items, and the y of its bottom."""
    flowed = flow([TextPlace(x, y, room, float("inf"))], [runs])
    return flowed.items, flowed.bottom


def flow(places: Sequence[TextPlace], paragraphs: Sequence[Sequence[WordRun]]) -> Flowed:
    """Set paragraphs into places in turn; a paragraph is broken only where none of the places holds it whole."""
    setter = _Setter(list(places))
    for runs in paragraphs:
        if not setter.paragraph(runs):
            return Flowed(setter.items, setter.base + AFTER, False)
    return Flowed(setter.items, setter.base + AFTER, True)


@dataclass
class _Setter:
    """Sets words line by line; `base` is the base line at hand, `at` how far it is filled.

    Neighbouring words of one weight are one text, so that they can be found and copied as they read.
    """

    left: list[TextPlace]
    items: list[Item] = field(default_factory=list)
    at: float = 0.0
    base: float = 0.0

    def __post_init__(self) -> None:
        self.base = self.left[0].y + FIRST - LINE

    def paragraph(self, runs: Sequence[WordRun]) -> bool:
        """Set one paragraph; False where the last place is full."""
        self.at, self.base = 0.0, self.base + LINE
        if len(self.left) > 1 and not self._holds(runs) and self._next_holds(runs):
            self._turn()
        place, lines = self.left[0], _lines(tuple(runs), self.left[0].wide)
        bases = list(accumulate([LINE] * (len(lines) - 1), initial=self.base))
        if len(self.left) > 1 and bases[-1] + AFTER > place.bottom:
            return all(self._word(*word) for word in _words(runs, place.wide))
        for line, base in zip(lines, bases, strict=False):
            self.base = base
            if base + AFTER > place.bottom:
                return False
            self.items += [_item(piece, place.x, base) for piece in line]
        return True

    def _holds(self, runs: Sequence[WordRun]) -> bool:
        place = self.left[0]
        return self.base + (line_count(runs, place.wide) - 1) * LINE + AFTER <= place.bottom

    def _next_holds(self, runs: Sequence[WordRun]) -> bool:
        place = self.left[1]
        return place.y + FIRST + (line_count(runs, place.wide) - 1) * LINE + AFTER <= place.bottom

    def _turn(self) -> None:
        """Go on to the next place; one that lies under this one begins below its last line."""
        before = self.left.pop(0)
        first = self.left[0].y + FIRST
        self.at, self.base = 0.0, max(first, self.base) if before.x == self.left[0].x else first

    def _word(self, word: str, weight: Weight, space: float) -> bool:
        wide, gap = width(word, TEXT, weight), width(" ", TEXT, weight)
        if self.at and self.at + wide + (space + 1 if space else 0) > self.left[0].wide:
            self.at, self.base = 0.0, self.base + LINE
        while self.base + AFTER > self.left[0].bottom:
            if len(self.left) == 1:
                return False
            self._turn()
        x, last = self.left[0].x, self.items[-1] if self.at else None
        if isinstance(last, Text) and last.weight == weight:
            self.items[-1] = Text(at=last.at, text=f"{last.text} {word}", weight=weight)
        else:
            self.items.append(Text(at=(x + self.at, self.base), text=word, weight=weight))
        self.at += wide + gap
        if space:
            self.items.append(blank(x + self.at, self.base, space))
            self.at += space + 2 * gap
        return True


def line_count(runs: Sequence[WordRun], wide: float) -> int:
    """How many lines a paragraph takes."""
    return max(len(_lines(tuple(runs), wide)), 1)


@lru_cache(maxsize=SET)
def _lines(runs: tuple[WordRun, ...], wide: float) -> tuple[tuple[_Piece, ...], ...]:
    """A paragraph in lines of one width; kept, since it is set in many places before it stands."""
    lines: list[list[_Piece]] = []
    at = 0.0
    for word, weight, space in _words(runs, wide):
        long, gap = width(word, TEXT, weight), width(" ", TEXT, weight)
        if at and at + long + (space + 1 if space else 0) > wide:
            at = 0.0
        if not at:
            lines.append([])
        before = lines[-1][-1] if lines[-1] else None
        if before is not None and isinstance(before[1], str) and before[2] == weight:
            lines[-1][-1] = (before[0], f"{before[1]} {word}", weight)
        else:
            lines[-1].append((at, word, weight))
        at += long + gap
        if space:
            lines[-1].append((at, space, weight))
            at += space + 2 * gap
    return tuple(map(tuple, lines))


def _item(piece: _Piece, x: float, base: float) -> Item:
    """Words, or a blank, of a line that begins at `x`."""
    at, what, weight = piece
    if isinstance(what, str):
        return Text(at=(x + at, base), text=what, weight=weight)
    return blank(x + at, base, what)


def _words(runs: Sequence[WordRun], room: float) -> Iterator[tuple[str, Weight, float]]:
    """The words, with the blank behind each; one that is wider than a line in pieces."""
    for run in runs:
        words = [piece for word in run.text.split(" ") for piece in divided(word, room, TEXT, run.weight)]
        for number, word in enumerate(words):
            yield word, run.weight, run.blank if number == len(words) - 1 else 0.0
