"""Findings in lines: each with file and line, what was found against what limit, and what to do.

Three or more that say the same of other boards, with one remedy, stand together under one heading:

     stop  11 joints meet end to end: a splice cannot be made yet
           wall.toml:12: shelf 1 (1 of 2) and shelf 1 (2 of 2)
           ...
           write in_line = "butt" under [joints]
"""

from collections import Counter
from collections.abc import Iterable, Iterator, Sequence
from functools import cached_property
from typing import TYPE_CHECKING

from ..findings import CODES, Finding, uncured
from ..job.spans import Spans
from ..lengths import LengthUnit, figure, inches
from ..places import Path
from ..sentences import Name, Sentence, Several, Voice, Words, names_in, renamed, say, told

if TYPE_CHECKING:
    from ..book import Book

ALIKE = 3  # so many are told together
INDENT = " " * 7  # under the severity
FINEST = 64  # parts of an inch


def lines(book: "Book") -> Iterator[str]:
    """All findings of a book, in its order."""
    places = _Places(book)
    for alike in grouped(book.findings):
        yield from _several(alike, places) if len(alike) > 1 else _one(alike[0], places)


def grouped(findings: Iterable[Finding]) -> list[tuple[Finding, ...]]:
    """Findings with those that are alike together, where the first of them stood."""
    alike: dict[tuple[str, str, Words], list[Finding]] = {}
    for finding in findings:
        alike.setdefault((finding.severity.value, finding.code, _remedy(finding)), []).append(finding)
    found: list[tuple[Finding, ...]] = []
    for group in alike.values():
        found += [tuple(group)] if len(group) >= ALIKE else [(finding,) for finding in group]
    return found


# --- one finding ---------------------------------------------------------------------------------


def _one(finding: Finding, places: "_Places") -> Iterator[str]:
    yield f"{finding.severity.value:>5}  {places.of(finding)}{told(finding.says, places.voice)}"
    yield from _below(told(finding.remedy, places.voice), _figures([finding], places.voice.units))
    yield from _uncured([finding], places.voice)


def _below(remedy: str, figures: str) -> Iterator[str]:
    yield from (f"{INDENT}{line}" for line in (remedy, figures) if line)


def _uncured(findings: Sequence[Finding], voice: Voice) -> Iterator[str]:
    """Why no change is offered, each reason once; where it is not that of all, of how many."""
    whys = Counter(told(uncured(finding), voice) for finding in findings)
    for why, many in whys.items():
        if why:
            yield f"{INDENT}no change offered{'' if many == len(findings) else f' for {many} of them'}: {why}"


def _figures(findings: Sequence[Finding], units: LengthUnit) -> str:
    """Found against limit, with the limit's source; of several the limit they share."""
    first = findings[0]
    if first.limit is None or not first.unit or len({(one.limit, one.unit) for one in findings}) > 1:
        return ""
    said = []
    if len(findings) == 1 and first.found is not None and first.found >= 0.0:  # less than nothing is said in words
        said.append(f"found {figure_of(first.found, first.unit, units)}")
    if said or first.limit:
        said.append(f"limit {figure_of(first.limit, first.unit, units)}")
    source = f" ({first.source})" if first.source else ""
    return ", ".join(said) + source if said else ""


def figure_of(value: float, unit: str, units: LengthUnit) -> str:
    """A figure that was found, or a limit, with its unit."""
    if unit == "mm" and units == "in":
        return f"{inches(value, FINEST)} in"
    told = figure(value) if unit in ("mm", "deg") else f"{value:.3g}"  # as in the sentences
    return f"{told}°" if unit == "deg" else f"{told} {unit}"


class _Places:
    """Where in the job file findings are to be mended."""

    def __init__(self, book: "Book") -> None:
        self.job, self.whole, self.voice = book.job, book.piece.whole, book.voice

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
    heading, each = _headed(alike)
    yield f"{alike[0].severity.value:>5}  {told(heading, places.voice)}"
    for finding, words in zip(alike, each, strict=True):
        yield f"{INDENT}  {places.of(finding)}{told(words, places.voice)}"
    yield from _below(told(_remedy(alike[0]), places.voice), _figures(alike, places.voice.units))
    yield from _uncured(alike, places.voice)


def _headed(alike: Sequence[Finding]) -> tuple[Words, list[Words]]:
    """The heading of alike findings, and what is left to be said of each: their names, where they say the same."""
    first = alike[0]
    code = CODES[first.code]
    if code.several and len({renamed(finding.says, _nobody) for finding in alike}) == 1:
        names = [Several(tuple(map(Name, names_in(finding.says)))) for finding in alike]
        more = first.says.values if isinstance(first.says, Sentence) else ()
        heading = say(code.several, f"{len(alike)}", *(value for value in more if not isinstance(value, Name)))
        return heading, [say("{}", several) for several in names]
    return say("{}: {}", f"{len(alike)} alike", code.means), [finding.says for finding in alike]


def _nobody(_: str) -> str:
    return ""


def _remedy(finding: Finding) -> Words:
    """Its remedy; where that names one thing only, of "the board" or "the fixing"."""
    names = names_in(finding.remedy)
    of = "the fixing" if names == (finding.where.fixing,) else "the board"
    return renamed(finding.remedy, lambda _: of) if len(names) == 1 else finding.remedy
