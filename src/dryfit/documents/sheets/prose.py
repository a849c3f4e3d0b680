"""Short paragraphs with bold words and blanks in them, set by measured widths, flowing from place to place."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..display import Item, Text
from ..lettering import TEXT, Weight, fitted, width
from ..symbols import blank

LINE = 3.7  # from base line to base line
FIRST = TEXT + 0.4  # of the first base line below the top
AFTER = 1.4  # below the last base line
KEPT = "\u00a0"  # a space at which no line may break


@dataclass(frozen=True, slots=True)
class Run:
    """Words of one weight; `blank` mm of line to write on stand after the last."""

    text: str
    weight: Weight = "regular"
    blank: float = 0.0


@dataclass(frozen=True, slots=True)
class Place:
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


def strong(text: str) -> Run:
    """Words that must be seen."""
    return Run(text, "semibold")


def paragraph(x: float, y: float, room: float, runs: Sequence[Run]) -> tuple[list[Item], float]:
    """A paragraph from its top left corner: its items, and the y of its bottom."""
    flowed = flow([Place(x, y, room, float("inf"))], [runs])
    return flowed.items, flowed.bottom


def flow(places: Sequence[Place], paragraphs: Sequence[Sequence[Run]]) -> Flowed:
    """Set paragraphs into places, line by line, each place until it is full."""
    left = list(places)
    items: list[Item] = []
    base = left[0].y + FIRST
    for number, runs in enumerate(paragraphs):
        at = 0.0
        base += LINE if number else 0.0
        for word, weight, space in _words(runs):
            shown = fitted(word, left[0].wide, TEXT, weight)
            wide = width(shown, TEXT, weight)
            if at and at + wide + (space + 1 if space else 0) > left[0].wide:
                at, base = 0.0, base + LINE
            if base + AFTER > left[0].bottom:
                if len(left) == 1:
                    return Flowed(_joined(items), base + AFTER, False)
                left.pop(0)
                at, base = 0.0, max(left[0].y + FIRST, base)
            items.append(Text(at=(left[0].x + at, base), text=shown, weight=weight))
            gap = width(" ", TEXT, weight)
            at += wide + gap
            if space:
                items.append(blank(left[0].x + at, base, space))
                at += space + 2 * gap
    return Flowed(_joined(items), base + AFTER, True)


def _words(runs: Sequence[Run]) -> Iterator[tuple[str, Weight, float]]:
    for run in runs:
        words = run.text.split(" ")
        for number, word in enumerate(words):
            yield word, run.weight, run.blank if number == len(words) - 1 else 0.0


def _joined(items: list[Item]) -> list[Item]:
    """Neighbouring words of one weight as one text, so that they can be found and copied as they read."""
    joined: list[Item] = []
    for item in items:
        last = joined[-1] if joined else None
        if isinstance(item, Text) and isinstance(last, Text) and _follows(last, item):
            joined[-1] = Text(at=last.at, text=f"{last.text} {item.text}", weight=last.weight)
        else:
            joined.append(item)
    return joined


def _follows(last: Text, item: Text) -> bool:
    if last.weight != item.weight or last.at[1] != item.at[1]:
        return False
    end = last.at[0] + width(last.text + " ", TEXT, last.weight)
    return abs(end - item.at[0]) < 0.4
