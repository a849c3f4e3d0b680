"""Short paragraphs with bold words in them, set by measured widths."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ..display import Item, Text
from ..lettering import TEXT, Weight, fitted, width
from ..symbols import blank

LINE = 3.7  # from base line to base line at the size of text


@dataclass(frozen=True, slots=True)
class Run:
    """Words of one weight; `blank` mm of line to write on stand after them."""

    text: str
    weight: Weight = "regular"
    blank: float = 0.0


def strong(text: str) -> Run:
    """Words that must be seen."""
    return Run(text, "semibold")


def paragraph(x: float, y: float, room: float, runs: Sequence[Run]) -> tuple[list[Item], float]:
    """A paragraph from its top left corner.

    Returns:
        Its items, and the y of its bottom.
    """
    items: list[Item] = []
    at, base = 0.0, y + TEXT + 0.4
    for word, weight, space in _words(runs):
        shown = fitted(word, room, TEXT, weight)
        wide = width(shown, TEXT, weight)
        if at and at + wide + (space + 1 if space else 0) > room:
            at, base = 0.0, base + LINE
        items.append(Text(at=(x + at, base), text=shown, weight=weight))
        gap = width(" ", TEXT, weight)
        at += wide + gap
        if space:
            items.append(blank(x + at, base, space))
            at += space + 2 * gap
    return _joined(items), base + 1.4


def _words(runs: Sequence[Run]) -> Iterator[tuple[str, Weight, float]]:
    for run in runs:
        words = run.text.split()
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
