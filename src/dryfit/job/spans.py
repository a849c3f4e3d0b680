"""Where everything stands in a TOML text: the span of every key, value and table header.

`tomllib` gives values without places. This scanner walks the same text and notes places without values:
mistakes get their line from it, and a change on the page is written exactly over the old value.
A statement that cannot be read is noted in `Spans.faults`, its table is skipped to the next header, and
scanning goes on.
"""

import re
from bisect import bisect_right
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

from ..places import Path

NESTING = 50  # tomllib itself gives up at some 500

_BASIC = r'"[^"\\\n]*+(?:\\.[^"\\\n]*+)*+"'
_LITERAL = r"'[^'\n]*+'"
_LONG_BASIC = r'"""[^"\\]*+(?:(?:\\[\s\S]|"{1,2}(?!"))[^"\\]*+)*"{3,5}'
_LONG_LITERAL = r"'''[^']*+(?:'{1,2}(?!')[^']*+)*'{3,5}"
_STRING = f"{_LONG_BASIC}|{_LONG_LITERAL}|{_BASIC}|{_LITERAL}"
# A string that is not closed is taken to the end of its line or of the text, so that a search stays linear.
_OPENED = "|".join(
    (_LONG_BASIC, _LONG_LITERAL, r'"""[\s\S]*', r"'''[\s\S]*", f'{_BASIC.removesuffix(chr(34))}"?', f"{_LITERAL}?")
)
_DATE_AND_TIME = r"\d{4}-\d\d-\d\d \d\d:[^\s,\[\]{}#]*"
_PART = rf"(?:[A-Za-z0-9_-]+|{_BASIC}|{_LITERAL})"
_DOTTED = rf"{_PART}(?:[ \t]*+\.[ \t]*+{_PART})*"

_PART_AT = re.compile(_PART)
_KEY_AT = re.compile(rf"({_DOTTED})[ \t]*=[ \t]*")
_HEADER_AT = re.compile(rf"(\[\[?)[ \t]*({_DOTTED})[ \t]*(\]\]?)")
_HEADER_LINE = re.compile(rf"^[ \t]*\[\[?[ \t]*{_DOTTED}[ \t]*\]\]?[ \t]*(?:#[^\n]*)?\r?$", re.MULTILINE)
_SCALAR_AT = re.compile(rf"""{_STRING}|{_DATE_AND_TIME}|[^\s,\[\]{{}}#="']+""")
_SPACE = r"(?:[ \t\r\n]++|#[^\n]*+)*+"
_END = r"[ \t]*(?:#[^\n]*)?(?:\r?\n|\Z)"
_SPACE_AT = re.compile(_SPACE)
_END_AT = re.compile(_END)
_BARE_SCALAR = r"""[^\s,\[\]{}#="']+"""
_LINE_AT = re.compile(rf"""{_SPACE}([A-Za-z0-9_-]+)[ \t]*=[ \t]*({_BASIC}(?!")|{_BARE_SCALAR}){_END}""")
_BRACKETS = re.compile(rf"{_OPENED}|#[^\n]*|[\[\]{{}}]")


# More than NESTING names with points between; begun only where a word begins, so that it stays linear.
_DOTS = re.compile(r"(?<![^\s.,=\[\]{}])(?:[^\s.,=\[\]{}]++[ \t]*\.[ \t]*){50}")


class Span(NamedTuple):
    """A piece of the text, `text[start:end]`."""

    start: int
    end: int


class SyntaxFault(NamedTuple):
    """A statement that the scanner could not read, and where it gave up."""

    start: int
    at: int


@dataclass(slots=True)
class TableSpan:
    """One table with a header, or the keys before the first header (an empty path).

    Attributes:
        header: from "[" to "]"; empty for the keys before the first header.
        body: from behind the header to the next header's line, or the end of the text.
        faulty: True where part of it could not be read.
    """

    path: Path
    header: Span
    body: Span
    faulty: bool = False


@dataclass(slots=True)
class _Found:
    values: dict[Path, Span] = field(default_factory=dict)
    keys: dict[Path, list[Span]] = field(default_factory=dict)
    statements: dict[Path, Span] = field(default_factory=dict)
    tables: list[TableSpan] = field(default_factory=list)
    faults: list[SyntaxFault] = field(default_factory=list)


class Spans:
    """What stands where in one text.

    Attributes:
        text: as scanned.
        values: of every value, parts of arrays and inline tables included.
        keys: of every key, as the places where it is written (a header names its table's key too).
        statements: of every `key = value` with a line of its own, by the value's path.
        tables: in the order of the text.
        faults: what could not be read.
    """

    def __init__(self, text: str) -> None:
        self.text = text
        found = _Scanner(text).run()
        self.values = found.values
        self.keys = found.keys
        self.statements = found.statements
        self.tables = found.tables
        self.faults = found.faults

    @cached_property
    def _line_starts(self) -> list[int]:
        return [0, *(match.end() for match in re.finditer("\n", self.text))]

    @cached_property
    def _headers(self) -> dict[Path, Span]:
        return {table.path: table.header for table in reversed(self.tables) if table.path}

    def line_at(self, offset: int) -> int:
        """The line, counted from 1, of a place in the text."""
        return bisect_right(self._line_starts, offset)

    def line_start(self, line: int) -> int:
        """Where a line begins, lines counted from 1."""
        return self._line_starts[min(line, len(self._line_starts)) - 1]

    def line_of(self, path: Path) -> int:
        """The line of a value, or of the nearest table or list it would stand in; 1 for none.

        A key without its value (`("board", 0, "depht")` as an unknown key) is found by the key.
        """
        span = self.place_of(path)
        return self.line_at(span.start) if span else 1

    def place_of(self, path: Path) -> Span | None:
        """Where a value stands; failing that its header or key, failing that what it would stand in."""
        while path:
            span = self.values.get(path) or self._headers.get(path)
            if span is not None:
                return span
            written = self.keys.get(path)
            if written:
                return written[0]
            path = path[:-1]
        return None

    def written(self, path: Path) -> str:
        """A value as it stands in the text, "" if it does not."""
        span = self.values.get(path)
        return self.text[span.start : span.end] if span else ""


def too_deep(text: str) -> int | None:
    """The place where tables or lists stand more than `NESTING` deep in one another, None if nowhere."""
    dots = _DOTS.search(text)
    if dots:
        return dots.start()
    depth = 0
    for match in _BRACKETS.finditer(text):
        mark = match[0]
        if mark in ("[", "{"):
            depth += 1
            if depth > NESTING:
                return match.start()
        elif mark in ("]", "}"):
            depth = max(0, depth - 1)
    return None


def next_header(text: str, at: int) -> int:
    """The start of the first line behind `at` that looks like a table's header; the text's end if none does."""
    line_end = text.find("\n", at)
    match = _HEADER_LINE.search(text, line_end + 1) if line_end >= 0 else None
    return match.start() if match else len(text)


class _LostError(Exception):
    def __init__(self, at: int) -> None:
        self.at = at
        super().__init__(at)


class _Scanner:
    """One walk over a text; `base` is the path of the table whose keys are being read."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.found = _Found()
        self.base: Path = ()
        self.rows: dict[Path, int] = {}  # lists of tables, with how many each has

    def run(self) -> _Found:
        text, found = self.text, self.found
        at = 1 if text.startswith("\ufeff") else 0
        found.tables.append(TableSpan((), Span(at, at), Span(at, len(text))))
        while True:
            match = _LINE_AT.match(text, at)
            if match is not None:  # most lines: a plain key with a plain value
                path = (*self.base, match[1])
                found.values[path] = Span(match.start(2), match.end(2))
                found.statements[path] = Span(match.start(1), match.end(2))
                found.keys.setdefault(path, []).append(Span(match.start(1), match.end(1)))
                at = match.end()
                continue
            space = _SPACE_AT.match(text, at)
            start = at if space is None else space.end()
            if start >= len(text):
                return found
            if start > at:
                at = start
                continue
            try:
                at = self.header(at) if text[at] == "[" else self.statement(at)
            except _LostError as lost:
                at = self.lost(at, lost.at)

    def lost(self, start: int, at: int) -> int:
        """Note a statement that could not be read, and go to the next header."""
        self.found.faults.append(SyntaxFault(start, at))
        if self.text[start] == "[":  # an unreadable header: what follows belongs to no known table
            self.open(TableSpan((), Span(start, start), Span(start, len(self.text))))
        self.found.tables[-1].faulty = True
        return next_header(self.text, start)

    def open(self, table: TableSpan) -> None:
        """End the table before this one at its line, and add it."""
        line_start = self.text.rfind("\n", 0, table.header.start) + 1
        before = self.found.tables[-1]
        before.body = Span(before.body.start, max(before.body.start, line_start))
        self.found.tables.append(table)

    def header(self, at: int) -> int:
        match = _HEADER_AT.match(self.text, at)
        if match is None or len(match[1]) != len(match[3]):
            raise _LostError(at)
        end = _END_AT.match(self.text, match.end())
        if end is None:
            raise _LostError(match.end())
        parts = self.parts(match.start(2), match.end(2))
        path = self.place(parts, is_row=len(match[1]) == 2)
        self.open(TableSpan(path, Span(at, match.end()), Span(match.end(), len(self.text))))
        self.base = path
        return end.end()

    def place(self, parts: list[tuple[str, Span]], *, is_row: bool) -> Path:
        """The path that a header names: through the last row of every list of tables on the way."""
        path: Path = ()
        for number, (name, span) in enumerate(parts, start=1):
            path = (*path, name)
            self.found.keys.setdefault(path, []).append(span)
            if is_row and number == len(parts):
                self.rows[path] = self.rows.get(path, 0) + 1
            if path in self.rows:
                path = (*path, self.rows[path] - 1)
        return path

    def statement(self, at: int) -> int:
        path, value_at = self.key(self.base, at)
        end = self.value(path, value_at)
        self.found.statements[path] = Span(at, end)
        line_end = _END_AT.match(self.text, end)
        if line_end is None:
            raise _LostError(end)
        return line_end.end()

    def key(self, base: Path, at: int) -> tuple[Path, int]:
        match = _KEY_AT.match(self.text, at)
        if match is None:
            raise _LostError(at)
        if match[1].isidentifier():  # most keys
            path = (*base, match[1])
            self.found.keys.setdefault(path, []).append(Span(match.start(1), match.end(1)))
            return path, match.end()
        path = base
        for name, span in self.parts(match.start(1), match.end(1)):
            path = (*path, name)
            self.found.keys.setdefault(path, []).append(span)
        return path, match.end()

    def parts(self, start: int, end: int) -> list[tuple[str, Span]]:
        """The names of a dotted key, without their quotes."""
        found = [
            (_name(match[0]), Span(match.start(), match.end())) for match in _PART_AT.finditer(self.text, start, end)
        ]
        if len(found) > NESTING:  # every one of them makes a longer path
            raise _LostError(start)
        return found

    def value(self, path: Path, at: int, depth: int = 0) -> int:
        mark = self.text[at : at + 1]
        if depth > NESTING:
            raise _LostError(at)
        if mark == "[":
            end = self.array(path, at, depth)
        elif mark == "{":
            end = self.inline(path, at, depth)
        else:
            match = _SCALAR_AT.match(self.text, at)
            if match is None:
                raise _LostError(at)
            end = match.end()
        self.found.values[path] = Span(at, end)
        return end

    def space(self, at: int) -> int:
        match = _SPACE_AT.match(self.text, at)
        return match.end() if match else at

    def array(self, path: Path, at: int, depth: int) -> int:
        at = self.space(at + 1)
        count = 0
        while self.text[at : at + 1] != "]":
            at = self.space(self.value((*path, count), at, depth + 1))
            count += 1
            at = self.between(at, "]")
        return at + 1

    def inline(self, path: Path, at: int, depth: int) -> int:
        at = self.space(at + 1)
        while self.text[at : at + 1] != "}":
            inner, at = self.key(path, at)
            at = self.space(self.value(inner, at, depth + 1))
            at = self.between(at, "}")
        return at + 1

    def between(self, at: int, closing: str) -> int:
        """Step over a comma, or stay at the closing bracket."""
        mark = self.text[at : at + 1]
        if mark == ",":
            return self.space(at + 1)
        if mark != closing:
            raise _LostError(at)
        return at


_ESCAPE = re.compile(r"\\(?:u([0-9A-Fa-f]{4})|U([0-9A-Fa-f]{8})|(.))")
_ESCAPED = {"b": "\b", "t": "\t", "n": "\n", "f": "\f", "r": "\r", '"': '"', "\\": "\\"}


def _name(part: str) -> str:
    if part[0] == "'":
        return part[1:-1]
    if part[0] != '"':
        return part
    return _ESCAPE.sub(_unescape, part[1:-1])


def _unescape(match: re.Match[str]) -> str:
    digits = match[1] or match[2]
    if digits is None:
        return _ESCAPED.get(match[3], match[3])
    code = int(digits, 16)
    return chr(code) if code < 0x110000 else match[0]
