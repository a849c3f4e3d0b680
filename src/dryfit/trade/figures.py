"""A figure of the trade with its source, and reading it from the CSV files in `data/`.

Only the lines of the thing asked for are taken apart: one species of thirty-one costs 0.1 ms, all of them
would cost ten times as much in every start of the command.
"""

import csv
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cache
from pathlib import Path
from typing import Literal, TypeAlias, cast

from ..sentences import Sentence, Words, say

DATA = Path(__file__).parent / "data"

Status: TypeAlias = Literal["seen", "derived", "memory", "practice"]

_SAID = {"seen": "", "derived": "", "memory": " (from memory)", "practice": "common practice"}


@dataclass(frozen=True, slots=True, kw_only=True)
class Figure:
    """One figure, and how it is known.

    Attributes:
        value: the figure to use, in `unit`.
        low, high: the printed range, where there is one.
        unit: "kg/m3", "GPa", "mm", "1/%" ...; "1" for a pure number.
        status: "seen" in the source, "derived" from figures that were seen, from "memory", or common "practice".
        source: the document and the place in it; empty for common practice.
        basis: moisture content and reference size.
        thickness: (from, to) of the board it holds for, None where it holds for all.
        note: what else must be known to use it.
    """

    value: float
    low: float | None = None
    high: float | None = None
    unit: str
    status: Status
    source: str = ""
    basis: str = ""
    thickness: tuple[float, float] | None = None
    note: str = ""

    @property
    def cited(self) -> str:
        """The source as it is printed beside the figure."""
        return self.source + _SAID[self.status]


_SOURCED = "{}: {}"  # the form of a source with its why


def sourced(word: str, why: str) -> Sentence:
    """Whose word a figure is, and what more there is to say of that: "common practice: 1 to 2 mm an edge"."""
    return say("{}: {}", word, why)


def whose(source: Words) -> Words:
    """Whose word it is, without what more is said of it."""
    return str(source.values[0]) if isinstance(source, Sentence) and source.form == _SOURCED else source


@cache
def _lines(file: str) -> tuple[str, ...]:
    return tuple((DATA / file).read_text(encoding="utf-8").splitlines())


def rows(file: str, thing: str | None = None) -> Iterator[dict[str, str]]:
    """Rows of a file in `data/` by column; of one `thing` only, the first column's id, if it is named."""
    header, *lines = _lines(file)
    if thing is not None:
        start = f"{thing},"
        lines = [line for line in lines if line.startswith(start)]
    return iter(csv.DictReader(lines, header.split(",")))


@cache
def figures(file: str, thing: str, name: str) -> tuple[Figure, ...]:
    """Every figure of one property, the most trusted first; empty if none is known."""
    return tuple(_figure(row) for row in rows(file, thing) if row["property"] == name and row["status"] != "absent")


def figure(file: str, thing: str, name: str, thickness: float | None = None) -> Figure | None:
    """The figure to use of one property, or None if none is known.

    Where figures hold for a range of thickness, the one that holds for `thickness`, or else the nearest.
    """
    known = figures(file, thing, name)
    if thickness is None or not known:
        return known[0] if known else None
    return min(known, key=lambda figure: _outside(figure, thickness))


def _outside(figure: Figure, thickness: float) -> float:
    """How far a thickness lies outside what the figure holds for; 0 within."""
    if figure.thickness is None:
        return 0.0
    low, high = figure.thickness
    return max(low - thickness, thickness - high, 0.0)


def _figure(row: dict[str, str]) -> Figure:
    between = row.get("thickness_from"), row.get("thickness_to")
    return Figure(
        value=float(row["value"]),
        low=_number(row.get("low")),
        high=_number(row.get("high")),
        unit=row["unit"],
        status=cast(Status, row["status"]),
        source=", ".join(part for part in (row["source"], row["table"]) if part),
        basis=row.get("basis", ""),
        thickness=(float(between[0]), float(between[1])) if between[0] and between[1] else None,
        note=row["note"],
    )


def _number(text: str | None) -> float | None:
    return float(text) if text else None
