"""Findings in lines: each with file and line, what was found against what limit, and what to do.

Three or more that say the same of other boards, with one remedy, stand together under one heading:

     stop  11 joints meet end to end: a splice cannot be made yet
           wall.toml:12: shelf 1 (1 of 2) and shelf 1 (2 of 2)
           ...
           write in_line = "butt" under [joints]
"""

import re
from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from typing import TYPE_CHECKING

from ..findings import CODES, Finding, finding_told
from ..job.spans import Spans
from ..lengths import LengthUnit, inches
from ..places import Path

if TYPE_CHECKING:
    from ..book import Book

ALIKE = 3  # so many are told together
INDENT = " " * 7  # under the severity
FINEST = 64  # parts of an inch
NAME = "\0"  # stands for a name in a sentence; no name has it
_PAIR = re.compile(f"{NAME} and {NAME}(?P<rest>:? [^{NAME}]+)")
_SINGLE = re.compile(f"{NAME}(?P<rest>: [^{NAME}]+)")


def lines(book: "Book") -> Iterator[str]:
    """All findings of a book, in its order."""
    places = _Places(book)
    for alike in grouped(finding_told(finding, book.voice) for finding in book.findings):
        yield from _several(alike, places) if len(alike) > 1 else _one(alike[0], places)


def grouped(findings: Iterable[Finding]) -> list[tuple[Finding, ...]]:
    """Findings with those that are alike together, where the first of them stood."""
    alike: dict[tuple[str, str, str], list[Finding]] = {}
    for finding in findings:
        alike.setdefault((finding.severity.value, finding.code, _remedy(finding)), []).append(finding)
    found: list[tuple[Finding, ...]] = []
    for group in alike.values():
        found += [tuple(group)] if len(group) >= ALIKE else [(finding,) for finding in group]
    return found


# --- one finding ---------------------------------------------------------------------------------


def _one(finding: Finding, places: "_Places") -> Iterator[str]:
    yield f"{finding.severity.value:>5}  {places.of(finding)}{finding.says}"
    yield from _below(str(finding.remedy), _figures([finding], places.units))


def _below(remedy: str, figures: str) -> Iterator[str]:
    yield from (f"{INDENT}{line}" for line in (remedy, figures) if line)


def _figures(findings: Sequence[Finding], units: LengthUnit) -> str:
    """Found against limit, with the limit's source; of several the limit they share."""
    first = findings[0]
    if first.limit is None or not first.unit or len({(one.limit, one.unit) for one in findings}) > 1:
        return ""
    said = []
    if len(findings) == 1 and first.found is not None and first.found >= 0.0:  # less than nothing is said in words
        said.append(f"found {_figure(first.found, first.unit, units)}")
    if said or first.limit:
        said.append(f"limit {_figure(first.limit, first.unit, units)}")
    source = f" ({first.source})" if first.source else ""
    return ", ".join(said) + source if said else ""


def _figure(value: float, unit: str, units: LengthUnit) -> str:
    if unit == "mm" and units == "in":
        return f"{inches(value, FINEST)} in"
    figure = f"{value:.1f}".removesuffix(".0") if unit in ("mm", "deg") else f"{value:.3g}"  # as in the sentences
    return f"{figure}°" if unit == "deg" else f"{figure} {unit}"


class _Places:
    """Where in the job file findings are to be mended."""

    def __init__(self, book: "Book") -> None:
        self.job, self.whole, self.units = book.job, book.piece.whole, book.job.units

    @cached_property
    def spans(self) -> Spans:
        """Of the file's values; only a job with findings needs them."""
        return Spans(self.job.text)

    @cached_property
    def joints(self) -> dict[frozenset[str], Path]:
        """The `[[joint]]` tables, by the two boards."""
        return {frozenset(spec.between): spec.path for spec in self.job.joint_specs}

    @cached_property
    def boards(self) -> dict[str, Path]:
        """The boards' tables."""
        return {spec.name: spec.path for spec in self.job.boards}

    def of(self, finding: Finding) -> str:
        """The place before a sentence: "wall.toml:12: "; "" where there is none."""
        path = finding.where.path or self._path(finding)
        return f"{self.job.file}:{self.spans.line_of(path)}: " if path else ""

    def _path(self, finding: Finding) -> Path | None:
        """The joint's own table where it has one, else that of the first board."""
        names = [self.whole.get(name, name) for name in (*(finding.where.joint or ()), *finding.where.boards)]
        return self.joints.get(frozenset(names[:2])) or next(
            (self.boards[name] for name in names if name in self.boards), None
        )


# --- several that are alike ----------------------------------------------------------------------


def _several(alike: Sequence[Finding], places: "_Places") -> Iterator[str]:
    heading, said = _headed(alike)
    yield f"{alike[0].severity.value:>5}  {heading}"
    yield from (f"{INDENT}  {places.of(finding)}{text}" for finding, text in zip(alike, said, strict=True))
    yield from _below(_remedy(alike[0]), _figures(alike, places.units))


def _headed(alike: Sequence[Finding]) -> tuple[str, list[str]]:
    """The heading of alike findings, and what is left to be said of each."""
    sentences = {_without_names(str(finding.says), _names(finding)) for finding in alike}
    if len(sentences) == 1:
        (sentence,) = sentences
        for pattern, noun in ((_PAIR, "joints"), (_SINGLE, "fixings" if alike[0].where.fixing else "boards")):
            if found := pattern.fullmatch(sentence):
                rest = found["rest"]
                return f"{len(alike)} {noun}{rest}", [str(finding.says).removesuffix(rest) for finding in alike]
    return f"{len(alike)} alike: {CODES[alike[0].code]}", [str(finding.says) for finding in alike]


def _remedy(finding: Finding) -> str:
    """Its remedy; where that names one board only, of "the board"."""
    names, remedy = _names(finding), str(finding.remedy)
    named = [name for name in names if _without_names(remedy, [name]) != remedy]
    return _without_names(remedy, names).replace(NAME, "the board") if len(named) == 1 else remedy


def _names(finding: Finding) -> list[str]:
    """Names that its sentences may hold, the longest first."""
    where = finding.where
    names = {*where.boards, *(where.joint or ()), *((where.fixing,) if where.fixing else ())}
    return sorted(names, key=lambda name: (-len(name), name))


def _without_names(text: str, names: Sequence[str]) -> str:
    """A sentence with a sign in place of every name."""
    if not names:
        return text
    return re.sub(rf"(?<!\w)(?:{'|'.join(map(re.escape, names))})(?!\w)", NAME, text)
