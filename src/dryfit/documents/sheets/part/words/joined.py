"""One cut table for several parts with the same cuts: a box to tick for each, and what each of them takes."""

from collections.abc import Sequence
from dataclasses import replace

from .....keeping import Same
from ....lettering import TEXT, width
from ....looks import Desk, Look
from ....naming import printed_units
from ....pages import together as pages_together
from ....symbols import tag_width
from ...page.table import Cell, Column, Row, columns_for, unfolded
from .cuts import DONE, SIZE_IS, heads, spread, whole_rows

SHORTER = "meas."  # for "measured", where there is little room


def joined(desk: Desk, looks: Sequence[Look]) -> list[Row]:
    """One set of whole rows for parts with the same cuts: cells that differ name what each part takes.

    Told once a desk and unit, in however wide a table they stand.
    """
    kept: dict[tuple[Same, ...], list[Row]] = desk.kept.setdefault(f"rows in {printed_units()}", {})
    key = tuple(map(Same, looks))
    if key not in kept:
        kept[key] = _joined(desk, looks)
    return kept[key]


def _joined(desk: Desk, looks: Sequence[Look]) -> list[Row]:
    bodies = [whole_rows(desk, look, alone=len(looks) == 1) for look in looks]
    if len(looks) == 1:
        return bodies[0]
    marks = [look.part.mark for look in looks]
    return [_row(marks, alike) for alike in zip(*bodies, strict=True)]


def _row(marks: Sequence[str], alike: Sequence[Row]) -> Row:
    cells: list[Cell] = []
    for same in zip(*alike, strict=True):
        cells += list(same) if same[0].tick else [_cell(marks, same)]
    return tuple(cells)


def _cell(marks: Sequence[str], same: Sequence[Cell]) -> Cell:
    first = same[0]
    if all(cell == first for cell in same):
        return first
    if pages := pages_together(cell.text for cell in same):
        return replace(first, text=pages)
    if first.tags:
        kind = first.tags[0][0]
        told = f"{kind} {', '.join(dict.fromkeys(cell.brief.own if cell.brief else '' for cell in same))}"
        return replace(first, tags=((kind, told if tag_width(told) < SIZE_IS else f"{kind} each"),))
    each = _each(marks, same)
    before, shortly = _before(same)
    told, shortly = f"{before}{each}", f"{shortly}{each}" if first.short else ""
    return replace(first, text=told, short=shortly if len(shortly) < len(told) else "")


def _before(same: Sequence[Cell]) -> tuple[str, str]:
    """What all of them begin with, and where there is little room; nothing where they do not share it."""
    first = same[0].brief
    if first is None or any(cell.brief is None or cell.brief.before != first.before for cell in same):
        return "", "" if first is None else first.shortly
    return first.before, first.shortly


def _each(marks: Sequence[str], same: Sequence[Cell]) -> str:
    """What each part takes or goes into by itself, by letters: "A (K), B (L)", "A, B, C in turn"."""
    short = [cell.brief.own if cell.brief else cell.text for cell in same]
    if len(short) == 2:
        return ", ".join(f"{word} ({mark})" for word, mark in zip(short, marks, strict=True))
    return f"{', '.join(dict.fromkeys(short))} in turn"


def ticked(desk: Desk, looks: Sequence[Look], wide: float) -> list[Column]:
    """The cut table's columns with one to tick for each of several parts, as wide as what stands in them."""
    body = joined(desk, looks)
    boxes = [look.part.mark for look in looks] if len(looks) > 1 else [DONE]
    *before, _, last = heads(looks[0])
    titles = [*before, *boxes, last]
    made = columns_for(titles, spread(body, len(titles)), wide)
    if made[-1].wide >= width(last, TEXT, "semibold") and len(unfolded(made, body)) == len(body):
        return made
    titles[-1] = SHORTER
    return columns_for(titles, spread(body, len(titles)), wide)
