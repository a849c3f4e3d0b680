"""Changes of a TOML text that leave every other byte as it was: the hands of `job.writing`.

`Sheet` is a text with its values and its spans; each verb returns the changed text.
"""

import re
import tomllib
from functools import cached_property, lru_cache
from typing import Any

from ..places import Path, Plain
from . import style
from .spans import Span, Spans, TableSpan

_BLANK_LINES = re.compile(r"(?:[ \t]*\r?\n)+")
_BLANK_BEFORE = re.compile(r"\n([ \t]*\r?\n)\Z")  # up to where a table begins
_KEY_AND_EQUALS = re.compile(r"([A-Za-z0-9_-]+[ \t]*?)[ \t]?=")
_COMMENT_LINE = re.compile(r"[ \t]*#[^\n]*(?:\n|\Z)")


class EditRefused(Exception):  # noqa: N818 - turned into an EditError with its place by job.writing
    """A change that cannot be written.

    Attributes:
        says, remedy: as in a `Mistake`.
    """

    def __init__(self, says: str, remedy: str) -> None:
        self.says = says
        self.remedy = remedy
        super().__init__(f"{says}; {remedy}")


class TomlText:
    """A TOML text, its values and where they stand."""

    def __init__(self, text: str) -> None:
        self.text = text
        self.newline = "\r\n" if "\r\n" in text else "\n"
        self.data: dict[str, Any] = tomllib.loads(text.removeprefix("\ufeff"))

    @cached_property
    def spans(self) -> Spans:
        """Where everything stands."""
        return Spans(self.text)

    def get(self, path: Path) -> Any:
        """The value at a path; None where there is none."""
        value: Any = self.data
        for step in path:
            try:
                value = value[step]
            except (KeyError, IndexError, TypeError):
                return None
        return value

    def put(self, span: Span, new: str) -> str:
        """The text with one span replaced."""
        return self.text[: span.start] + new + self.text[span.end :]

    def many(self, patches: list[tuple[Span, str]]) -> str:
        """The text with several spans replaced, none of them overlapping."""
        pieces, at = [], 0
        for span, new in sorted(patches):
            pieces += [self.text[at : span.start], new]
            at = span.end
        return "".join([*pieces, self.text[at:]])

    # -- setting

    def replace(self, path: Path, written: str) -> str:
        """Write over the value at `path`, which is there."""
        return self.put(self.spans.values[path], written)

    def add_key(self, path: Path, value: Plain) -> str:
        """Add a key at the end of its table; the table itself is added where there is none."""
        parent, name = path[:-1], path[-1]
        if isinstance(name, int):
            return self.insert(path, value)
        span = self.spans.values.get(parent)
        if span is not None and self.text[span.start] != "{":
            raise EditRefused(f"{style.key(str(parent[-1]))} is not a table", "give it as a whole")
        if span is not None:
            return self._add_inline(span, f"{style.key(name)} = {style.render(value)}")
        table = self._table(parent)
        if table is not None:
            return self._add_line(table, name, value)
        beside = self._dotted(parent)
        if beside is not None:
            return self._add_dotted(beside, parent, name, value)
        # A row's table, or one inside braces, is written in braces too.
        in_braces = any(parent[:depth] in self.spans.values for depth in range(1, len(parent)))
        if in_braces or any(isinstance(step, int) for step in parent):
            return self.add_key(parent, {name: value})
        return self.add_table(parent, {name: value}, several=False)

    def _table(self, path: Path) -> TableSpan | None:
        """The table with a header for this path; the keys before the first header for ()."""
        return next((table for table in self.spans.tables if table.path == path), None)

    def _dotted(self, parent: Path) -> tuple[Path, Span] | None:
        """The last statement that adds to a table by a dotted key."""
        depth = len(parent)
        inside = [(path, span) for path, span in self.spans.statements.items() if path[:depth] == parent]
        owned = [table.path for table in self.spans.tables if table.path[:depth] == parent and table.path]
        return inside[-1] if inside and not owned else None

    def _add_inline(self, span: Span, written: str) -> str:
        inside = self.text[span.start + 1 : span.end - 1].rstrip()
        at = span.start + 1 + len(inside)
        if not inside.strip():
            return self.put(Span(span.start, span.end), f"{{ {written} }}")
        return self.put(Span(at, at), f", {written}")

    def _add_dotted(self, beside: tuple[Path, Span], parent: Path, name: str, value: Plain) -> str:
        path, span = beside
        base = max((table.path for table in self.spans.tables if path[: len(table.path)] == table.path), key=len)
        dotted = ".".join(style.key(str(step)) for step in (*parent[len(base) :], name))
        return self._line_behind(span, f"{dotted} = {style.render(value)}")

    def _add_line(self, table: TableSpan, name: str, value: Plain) -> str:
        inside = self._statements(table)
        written = style.render(value)
        if inside:
            padded = style.key(name).ljust(self._column(inside))
            return self._line_behind(inside[-1], f"{padded} = {written}")
        line = f"{style.key(name)} = {written}"
        if table.header.start == table.header.end:  # before the first header there is nothing yet
            at = table.body.start
            following = "" if self.text[at : at + 1] in ("", "\n", "\r") else self.newline
            return self.put(Span(at, at), line + self.newline + following)
        return self._line_behind(table.header, line)

    def _column(self, statements: list[Span]) -> int:
        """To what width most keys of a table are filled up before their equals sign; 0 for none."""
        widths = []
        for statement in statements:
            found = _KEY_AND_EQUALS.match(self.text, statement.start)
            widths.append(len(found[1]) if found else 0)
        return max(widths, key=widths.count) if len(widths) > 1 else 0

    def _statements(self, table: TableSpan) -> list[Span]:
        """The statements of one table's own body, in order."""
        inside = [span for span in self.spans.statements.values() if table.body.start <= span.start < table.body.end]
        return sorted(inside)

    def _line_behind(self, span: Span, line: str) -> str:
        """A new line behind the one that `span` ends on, with the same indent."""
        start = self.text.rfind("\n", 0, span.start) + 1
        indent = re.match(r"[ \t]*", self.text[start : span.start])
        at = self._line_end(span.end)
        before = "" if self.text[at - 1 : at] == "\n" else self.newline
        after = self.newline if before == "" else ""
        return self.put(Span(at, at), f"{before}{indent[0] if indent else ''}{line}{after}")

    def _line_end(self, at: int) -> int:
        end = self.text.find("\n", at)
        return len(self.text) if end < 0 else end + 1

    # -- adding

    def add_table(self, path: Path, value: dict[str, Plain], *, several: bool) -> str:
        """Add a table with a header, behind the last of its like or at the end of the file."""
        names = ".".join(style.key(step) for step in path if isinstance(step, str))
        lines = [f"[[{names}]]" if several else f"[{names}]"]
        lines += [f"{style.key(name)} = {style.render(part)}" for name, part in value.items()]
        at = self._place_for(path)
        before = "" if at == 0 or self.text[at - 1] == "\n" else self.newline
        gap = self.newline if self.text[:at].strip("\ufeff \t\r\n") else ""
        # A blank line follows unless there is one, or nothing.
        rest = self.text[at:]
        after = self.newline if rest.strip() and not _BLANK_LINES.match(rest) else ""
        return self.put(Span(at, at), before + gap + self.newline.join(lines) + self.newline + after)

    def _place_for(self, path: Path) -> int:
        """Where a new table of this path goes."""
        for depth in range(len(path), 0, -1):
            alike = [table for table in self.spans.tables if table.path[:depth] == path[:depth]]
            if alike:
                return self._end_of(alike[-1])
        return len(self.text)

    def _end_of(self, table: TableSpan) -> int:
        """Behind a table's last line, and behind comments that go on from there to a blank line."""
        inside = self._statements(table)
        at = end = self._line_end(inside[-1].end if inside else table.header.end)
        comment = _COMMENT_LINE.match(self.text, at)
        while comment:
            at = comment.end()
            comment = _COMMENT_LINE.match(self.text, at)
        # Comments right above the next header are that header's.
        return end if at >= table.body.end and at < len(self.text) else at

    def insert(self, path: Path, value: Plain) -> str:
        """Put a value into a list before the place `path` names, or at its end."""
        parent, at = path[:-1], path[-1]
        assert isinstance(at, int)
        span, found = self.spans.values.get(parent), self.get(parent)
        if span is None or not isinstance(found, list) or at > len(found):
            raise EditRefused("there is no list to put this into", "name a list in the file")
        count = len(found)
        written = style.render(value)
        if count == 0:
            return self.put(span, f"[{written}]")
        if at == count:
            last = self.spans.values[*parent, count - 1]
            return self.put(Span(last.end, last.end), f", {written}")
        following = self.spans.values[*parent, at]
        return self.put(Span(following.start, following.start), f"{written}, ")

    # -- taking away

    def remove(self, path: Path) -> str:
        """Take a value with its key, an item of a list, or a whole table away."""
        if path in self.spans.statements:
            span = self.spans.statements[path]
            start = self.text.rfind("\n", 0, span.start) + 1
            return self.put(Span(max(start, self._bom), self._line_end(span.end)), "")
        if path in self.spans.values:
            return self._remove_item(path)
        tables = [table for table in self.spans.tables if table.path[: len(path)] == path and path]
        if not tables:
            raise EditRefused("there is nothing here to take away", "name a value or a table in the file")
        return self.many([(span, "") for span in self._with_blank_before([self._whole(table) for table in tables])])

    @property
    def _bom(self) -> int:
        return 1 if self.text.startswith("\ufeff") else 0

    def _whole(self, table: TableSpan) -> Span:
        """A table from its header's line to its last line, with the blank lines behind it."""
        start = max(self.text.rfind("\n", 0, table.header.start) + 1, self._bom)
        end = self._end_of(table)
        blank = _BLANK_LINES.match(self.text, end)
        return Span(start, blank.end() if blank else end)

    def _with_blank_before(self, spans: list[Span]) -> list[Span]:
        """Spans of whole tables in order; the first of those that end the text has one blank line before it too."""
        end = len(self.text)
        for at in range(len(spans) - 1, -1, -1):
            start, stop = spans[at]
            if stop != end:
                break
            end = start
            blank = _BLANK_BEFORE.search(self.text, self._bom, start)
            if blank is not None and (at == 0 or spans[at - 1].end != start):
                spans[at] = Span(blank.start(1), stop)
        return spans

    def _remove_item(self, path: Path) -> str:
        """Take an item of a list, or a key of an inline table, away with one comma."""
        span = self.spans.values[path]
        start = self.spans.keys[path][0].start if isinstance(path[-1], str) else span.start
        after = re.compile(r"[ \t\r\n]*,[ \t]*").match(self.text, span.end)
        if after:
            return self.put(Span(start, after.end()), "")
        comma = self._comma_before(path, start)
        around = self.spans.values[path[:-1]]
        if comma == start and isinstance(path[-1], str):  # the only key
            return self.put(around, "{}")
        return self.put(Span(comma, span.end), "")

    def _comma_before(self, path: Path, start: int) -> int:
        parent = path[:-1]
        depth = len(path)
        ends = [
            span.end
            for other, span in self.spans.values.items()
            if len(other) >= depth and other[: depth - 1] == parent and span.end <= start
        ]
        return max(ends) if ends else start


@lru_cache(maxsize=4)
def sheet_of(text: str) -> TomlText:
    """A text taken apart; kept, because every step of a drag asks of the same text, and nobody changes a sheet."""
    return TomlText(text)
