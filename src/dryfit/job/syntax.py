"""From a text to plain values, or to every mistake of spelling that TOML itself has rules for.

`tomllib` stops at its first mistake. Here the table with the mistake is blanked out (its line ends stay,
so that lines still count right) and the rest is read on, so that one run shows them all.
"""

import re
import tomllib
from bisect import bisect_left, bisect_right
from collections.abc import Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise
from typing import Any

from ..errors import Mistake
from . import style
from .names import SENTENCE, printable
from .spans import NESTING, Spans, TableSpan, too_deep

LARGEST = 1_000_000  # bytes of a job file
EVERYTHING = "*"
_PLACE = re.compile(r" \(at (?:line (\d+), column (\d+)|end of document)\)$")
_KEY = re.compile(r"""[A-Za-z0-9_."' -]+""")
_HEAD = re.compile(r"^[ \t]*\[[^\n]*\][ \t]*(?:#[^\n]*)?\r?$", re.MULTILINE)  # all that may be the head of a table
_WORD = r"[A-Za-z0-9_-]+|\"[^\"\\\n]*\""
_PLAIN_HEAD = re.compile(
    rf"[ \t]*(?P<open>\[\[?)[ \t]*(?P<first>{_WORD})[ \t]*(?:\.[ \t]*(?P<second>{_WORD})[ \t]*)?(?P<close>\]\]?)"
    r"[ \t]*(?:#[^\n]*)?\r?(?:\n|$)"
)
_CLASHES = 20  # mistakes that only show between tables, such as one declared twice
_BOM = "\ufeff"


@dataclass(frozen=True, slots=True, kw_only=True)
class Read:
    """What could be read.

    Attributes:
        data: as `tomllib` gives it, without the tables that could not be read.
        text: what was read, blanked where it could not be.
        lost: the first words of the tables left out; `EVERYTHING` where nothing is sure.
        mistakes: of spelling.
    """

    data: dict[str, Any]
    text: str
    lost: frozenset[str] = frozenset()
    mistakes: tuple[Mistake, ...] = ()


def read_syntax(text: str, file: str) -> Read:
    """Read a TOML text, as much of it as can be."""
    refused = _refused(text, file)
    if refused:
        return Read(data={}, text="", lost=frozenset({EVERYTHING}), mistakes=(refused,))
    try:
        return Read(data=data_of(text.removeprefix(_BOM)), text=text)
    except (ValueError, RecursionError):  # TOMLDecodeError, or a number too long for Python
        return _Recovery(text, file).run()


def data_of(text: str) -> dict[str, Any]:
    """As `tomllib.loads`, which it asks table by table: a step of a drag changes one of them, the others are kept.

    A line that may be the head of a table is where a text is taken apart; in a list or a text of several lines it is
    none, and what stands before it then has no end. So where every table can be read, each is one; and where one
    cannot, or tables meet in a way that is not one of the plain ones, the whole is read. Nobody may change the values
    that the tables hold: they are kept.

    Raises:
        ValueError: as by `tomllib`.
    """
    heads = [found.start() for found in _HEAD.finditer(text)]
    data: dict[str, Any] = {}
    opened: dict[str, dict[str, Any]] = {}  # those of the first level that a head has opened, of several the last
    several: dict[str, set[str]] = {"": set()}  # words that are of several, under "", and in each of those
    try:
        data |= tomllib.loads(text[: heads[0]] if heads else text)
        for start, end in pairwise([*heads, len(text)]):
            path, one_of_several, own = _table(text[start:end])
            *outer, word = path
            place = outer[0] if outer else ""
            if place and place not in opened and place not in data:  # [joints.mitre] where there is no [joints]
                data[place] = opened[place] = {}
                several[place] = set()
            within, table = opened[place] if place else data, dict(own)
            if one_of_several and word in several[place]:
                within[word].append(table)
            elif word in within:
                return tomllib.loads(text)
            else:
                within[word] = [table] if one_of_several else table
            if one_of_several:
                several[place].add(word)
            if not place:
                opened[word], several[word] = table, set()
    except (KeyError, ValueError):
        return tomllib.loads(text)
    return data


@lru_cache(maxsize=1024)
def _table(text: str) -> tuple[tuple[str, ...], bool, Mapping[str, Any]]:
    """A table's path, whether it is one of several, and what it holds.

    Raises:
        ValueError: it cannot be read, or its head is not of a plain kind.
    """
    head = _PLAIN_HEAD.match(text)
    if head is None or (head["open"] == "[[") != (head["close"] == "]]"):
        raise ValueError(text)
    path = tuple(key.strip('"') for key in (head["first"], head["second"]) if key)
    if not path[0]:
        raise ValueError(text)
    held: Any = tomllib.loads(text)
    for key in path[:-1]:
        held = held[key]
    held = held[path[-1]]
    return path, head["open"] == "[[", held[0] if head["open"] == "[[" else held


def _refused(text: str, file: str) -> Mistake | None:
    """A text that is not even tried."""

    def at(offset: int, says: str, remedy: str) -> Mistake:
        return Mistake(file=file, line=text.count("\n", 0, offset) + 1, says=says, remedy=remedy)

    if len(text) > LARGEST or len(text.encode("utf-8", "surrogatepass")) > LARGEST:
        return at(0, "the file is larger than 1 MB", "split the job, or take out what is not part of it")
    if "\0" in text:
        return at(text.index("\0"), "the file is not text: it has a zero byte", "give a job file, saved as UTF-8 text")
    try:
        text.encode()
    except UnicodeEncodeError as bad:
        return at(bad.start, "the file has bytes that are not text", "save the file as UTF-8 text")
    deep = too_deep(text)
    if deep is not None:
        says = f"tables or lists are nested more than {NESTING} deep"
        return at(deep, says, "close a bracket, or nest them less")
    return None


class _Recovery:
    def __init__(self, text: str, file: str) -> None:
        self.file = file
        self.text = text
        self.spans = Spans(text)
        self.starts = [self.start_of(table) for table in self.spans.tables]
        self.faults = [fault.start for fault in self.spans.faults]
        self.lost: set[str] = set()
        self.blank: set[int] = set()  # tables to be left out, by their number
        self.mistakes: list[Mistake] = []

    def run(self) -> Read:
        seen = set()
        for number, (start, table) in enumerate(zip(self.starts, self.spans.tables, strict=True)):
            error = _error(self.text[start : self.end_of(number)])
            if error is not None:
                self.note(number, _message(error), self.offset(start, error))
            elif table.path in seen:
                self.note(number, "Cannot declare twice", table.header.start)
            if table.path and isinstance(table.path[-1], str):
                seen.add(table.path)
        for _ in range(_CLASHES):
            text = self.remaining()
            error = _error(text)
            if error is None:
                break
            offset = self.offset(0, error)
            number = bisect_right(self.starts, offset) - 1
            if number in self.blank:  # a message that points past its table says nothing of this one
                break
            self.note(number, _message(error), offset)
        text = self.remaining()
        if _error(text) is not None:
            self.lost.add(EVERYTHING)
            text = ""
        data = tomllib.loads(text.removeprefix(_BOM))
        mistakes = tuple(sorted(self.mistakes, key=lambda mistake: mistake.line))
        return Read(data=data, text=text, lost=frozenset(self.lost), mistakes=mistakes)

    def start_of(self, table: TableSpan) -> int:
        return self.text.rfind("\n", 0, table.header.start) + 1

    def end_of(self, number: int) -> int:
        return self.starts[number + 1] if number + 1 < len(self.starts) else len(self.text)

    def remaining(self) -> str:
        """The text with what could not be read blanked out, so that all else keeps its place."""
        pieces = []
        for number, start in enumerate(self.starts):
            piece = self.text[start : self.end_of(number)]
            pieces.append(re.sub(r"[^\n]", " ", piece) if number in self.blank else piece)
        return "".join(pieces)

    def note(self, number: int, message: str, offset: int) -> None:
        """Add a mistake, and leave its table out."""
        table, start, end = self.spans.tables[number], self.starts[number], self.end_of(number)
        at = bisect_left(self.faults, start)
        if at < len(self.faults) and self.faults[at] < min(offset, end):
            fault = self.spans.faults[at]
            message = self.unclosed(message, fault.start, offset, end)
            # What is opened and not closed is told where it begins, not where that was noticed.
            offset = fault.start if message.startswith("Un") else min(offset, fault.at)
        self.mistakes.append(self.mistake(message, min(offset, len(self.text) - 1)))
        self.lost.add(str(table.path[0]) if table.path else self.named(start))
        self.blank.add(number)

    def unclosed(self, message: str, statement: int, offset: int, end: int) -> str:
        """The message for a list or table that goes on to the end of its piece of the text."""
        if message != "Invalid value" or self.text[offset:end].strip():
            return message
        value = self.text[statement:end].partition("=")[2].lstrip()
        return {"[": "Unclosed array", "{": "Unclosed inline table"}.get(value[:1], message)

    def named(self, start: int) -> str:
        """The word that an unreadable header most likely names."""
        word = re.match(r"[ \t]*\[+[ \t\"']*([A-Za-z_]+)", self.text[start : start + 80])
        return word[1] if word else EVERYTHING

    def offset(self, base: int, error: ValueError | RecursionError) -> int:
        """Where an error stands in the whole text, its piece starting at `base`."""
        place = _PLACE.search(str(error))
        if place is None:  # a number of thousands of digits, the one error without a place
            digits = re.compile(r"[0-9_]{400,}").search(self.text, base)
            return digits.start() if digits else base
        if place[1] is None:
            return len(self.text[base:].rstrip()) + base
        return self.spans.line_start(self.spans.line_at(base) + int(place[1]) - 1) + int(place[2]) - 1

    def mistake(self, message: str, offset: int) -> Mistake:
        start = self.text.rfind("\n", 0, offset) + 1
        end = self.text.find("\n", offset)
        line = self.text[start : end if end >= 0 else len(self.text)].strip()
        says, remedy = explained(message, line[:400])
        number = self.spans.line_at(offset)
        return Mistake(
            file=self.file,
            line=number,
            read=printable(line),
            says=printable(says, SENTENCE),
            remedy=printable(remedy, SENTENCE),
        )


def _message(error: ValueError | RecursionError) -> str:
    return _PLACE.sub("", str(error))


def _error(text: str) -> ValueError | RecursionError | None:
    try:
        tomllib.loads(text.removeprefix(_BOM))
    except (ValueError, RecursionError) as error:
        return error
    return None


_QUOTED, _BARE = re.compile(r""""[^"]*"|'[^']*'"""), re.compile(r"[\w.+-]+")


def explained(message: str, line: str) -> tuple[str, str]:
    """What a message of `tomllib` means to a maker: what is wrong, and what would be right."""
    key, equals, value = (part.strip() for part in line.partition("="))
    if line.startswith("["):
        header = _header(message, line)
        if header:
            return header
    word = _word_in_list(line) if message.startswith("Unclosed array") else ""
    if word:
        return f"{word} in a list is not a number", "write a number, or put arithmetic in quotes"
    for start, says, remedy in _MEANINGS:
        if message.startswith(start):
            return says, remedy
    if message.startswith(("Invalid value", "Expected newline")) and equals and _KEY.fullmatch(key):
        return _value(key, value, behind=message.startswith("Expected newline"))
    if message.startswith("Expected '='"):
        return _no_equals(key if equals else line, bool(equals))
    if message.startswith(("Cannot declare", "Cannot redefine")):
        return "this table is in the file twice", "merge the two, or write [[...]] for a list of tables"
    if message.startswith(("Cannot overwrite", "Cannot mutate", "Duplicate")):
        return f'"{key}" is written twice' if value else "this name is used twice", "keep one of the two"
    return "this line is not TOML", "write key = value, [table] or [[table]]; text goes in quotes"


def _word_in_list(line: str) -> str:
    """A word without quotes in lists that are all closed on this line; "" where there is none, or one is open."""
    bare = _QUOTED.sub("", line).split("#", 1)[0].partition("=")[2]
    if bare.count("[") != bare.count("]"):
        return ""
    words = (word for word in _BARE.findall(bare) if word not in ("true", "false"))
    return next((word for word in words if re.search("[A-Za-z]", word)), "")


def _header(message: str, line: str) -> tuple[str, str] | None:
    if message.startswith("Expected newline"):
        return "something follows a table's header", "begin a new line after it"
    inside = re.fullmatch(r"""(\[\[?)([^\[\]"']+)(\]\]?)""", line.split("#", 1)[0].strip())
    if not message.startswith("Expected ']") or inside is None or len(inside[1]) != len(inside[3]):
        return None
    names = ".".join(style.key(name.strip()) for name in inside[2].split("."))
    return "a name with spaces or signs is not in quotes", f"write {inside[1]}{names}{inside[3]}"


def _no_equals(line: str, has_equals: bool) -> tuple[str, str]:
    if has_equals:
        return f'"{line}" is a name with spaces or signs', "use _ instead, or put the name in quotes"
    words = re.fullmatch(r"([\w-]+)(?:\s*:\s*|\s+)(\S+|\".*\"|'.*')", line)
    if words is None:
        return "this line is not a key with a value", "write key = value, or put # before a note"
    return "a key stands without its equals sign", f"write {words[1]} = {words[2]}"


_MEANINGS = (
    ("Unclosed array", "a list is opened but not closed", "close it with ], and put commas between its values"),
    ("Unclosed inline table", "a table in braces is opened but not closed", "close it with } on the same line"),
    ("Unterminated string", "a text is opened but not closed", "close it with the quote it starts with"),
    ("Illegal character '\\n'", "a text is not closed on its line", "close it with the quote it starts with"),
    ("Illegal character '\\r'", "a text is not closed on its line", "close it with the quote it starts with"),
    ('Expected "\'"', "a text is not closed on its line", "close it with the quote it starts with"),
    ("Expected '\"'", "a text is not closed on its line", "close it with the quote it starts with"),
    ("Illegal character", "there is a character here that cannot be printed", "remove the character"),
    ("Found invalid", "there is a character here that cannot be printed", "remove the character"),
    (
        "Unescaped '\\\\'",
        "there is a single backslash in a text",
        "write two backslashes, or put the text in 'single quotes'",
    ),
    (
        "Invalid hex value",
        "a backslash with u needs four digits",
        "write two backslashes, or put the text in 'single quotes'",
    ),
    (
        "Escaped character",
        "a backslash is followed by no known letter",
        "write two backslashes, or put the text in 'single quotes'",
    ),
    ("Expected ']", "a table's header is not closed", "write [name], or [[name]] for one of several"),
    (
        "Invalid initial",
        "a name is missing or has a character it cannot have",
        'put a name with spaces in quotes: ["..."]',
    ),
    ("Invalid date", "there is no such date", "write a date as 2026-05-04"),
    ("Exceeds the limit", "a number has thousands of digits", "keep lengths within 100 m"),
)


def _value(key: str, value: str, *, behind: bool) -> tuple[str, str]:
    """What is wrong with a value, or `behind` it."""
    if not value or value.startswith("#"):
        return f'"{key}" has no value', f"write one after {key} ="
    bare = value.split("#", maxsplit=1)[0].strip()
    if bare.startswith("="):
        return f'"{key}" has an = too many', f"write {key} = {bare.lstrip('= ')}"
    if bare.lower() in ("true", "false", "yes", "no", "on", "off"):
        return f'"{key}" is neither true nor false', "write true or false, in small letters"
    if re.fullmatch(r"-?\d+,\d+", bare):
        return f'"{key}" has a decimal comma', f"write a point: {key} = {bare.replace(',', '.')}"
    if re.fullmatch(r"0\d+(\.\d+)?", bare):
        return f'"{key}" is a number that starts with 0', f"write {key} = {bare.lstrip('0')}"
    if re.match(r"\d{4}-\d\d-\d\d", bare):
        return f'"{key}" is not a date in the calendar', "write a date as 2026-05-04"
    if bare[0] not in "[{\"'":
        return f'the value of "{key}" is neither a number nor text in quotes', f'put it in quotes: {key} = "{bare}"'
    if behind:
        return f'something follows the value of "{key}"', "begin a new line, or put # before a note"
    return f'something is wrong in the value of "{key}"', "look at its quotes, commas and brackets"
