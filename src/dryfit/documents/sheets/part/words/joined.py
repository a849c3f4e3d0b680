"""One cut table for several parts with the same cuts: a box to tick for each, and what each of them takes."""

import re
from collections.abc import Mapping, Sequence
from dataclasses import replace

from ....lettering import TEXT, width
from ....looks import Desk, Look
from ....symbols import tag_width
from ...page.table import Cell, Column, Row
from .cuts import NARROWEST, SIZE_IS, columns, rows

TICK_WIDE = 4.5  # of a column with a box to tick for one part
LEAST = {"measured": 10.3, "takes": 18.0, "cut": 20.0}  # to which columns give way for them
DONE = "done"
NAMED = 3.6  # more for a cut's name: "stopped housing" in one line
SHORT = 15.0  # a narrower column is headed "meas."


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
        cells += list(same) if same[0].tick else [_cell(desk, marks, same)]
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
