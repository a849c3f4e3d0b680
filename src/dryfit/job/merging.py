"""Two changes of one text put together: what each changed of the text that both began with, table by table, key by key.

    put = merged(base, mine, theirs)
    put.text      # both changes; None where they clash
    put.clashes   # each key that both changed, or that one changed and the other took out

A table is found again by its own name, so that one may be put in or taken out above another that is changed. Two that
are put in at one place stand there in the order of their words, so that it is the same whoever came first. A text that
cannot be read is put together line by line.
"""

import tomllib
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace
from difflib import SequenceMatcher
from typing import TypeAlias

from ..places import Path
from .edits import TomlText

KEY = "key"  # the sort of a statement
ALIKE = 0.5  # share of its lines that a table keeps which is only called otherwise


@dataclass(frozen=True, slots=True, kw_only=True)
class Clash:
    """One thing that both changed.

    Attributes:
        table: by its header's words and its own name: ("board", "shelf 2"); empty for keys before the first header.
        key: in it; "" for the whole table, or a line.
        base, mine, theirs: as written; None where it is not there.
    """

    table: tuple[str, ...]
    key: str
    base: str | None
    mine: str | None
    theirs: str | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Merged:
    """What came of it: a text, or what clashes."""

    text: str | None
    clashes: tuple[Clash, ...] = ()


@dataclass(frozen=True, slots=True)
class _Item:
    """A stretch of the text.

    Attributes:
        key: by what it is found again.
        sort: what it is: of a table the words of its header, "key" of a statement; None of a line between these.
        name: of a table its own; of a statement its key.
    """

    key: tuple[object, ...]
    text: str
    sort: tuple[str, ...] | str | None = None
    name: str = ""


_Both: TypeAlias = Callable[[_Item, _Item, _Item], "tuple[str, tuple[Clash, ...]]"]
_Change: TypeAlias = tuple[list[_Item | None], list[list[_Item]]]


def merged(base: str, mine: str, theirs: str) -> Merged:
    """Put two changes of a text together; it is the same whichever of them is `mine`, but for the clashes' figures."""
    if mine == theirs or theirs == base:
        return Merged(text=mine)
    if mine == base:
        return Merged(text=theirs)
    base, mine, theirs = map(_ended, (base, mine, theirs))
    try:
        tables = [_tables(TomlText(text)) for text in (base, mine, theirs)]
    except tomllib.TOMLDecodeError:
        return _by_lines(base, mine, theirs)
    text, clashes = _put(*tables, both=_tables_merged)
    if not clashes and not _can_be_taken_apart(text):
        clashes = (Clash(table=(), key="", base=base, mine=mine, theirs=theirs),)
    return Merged(text=None if clashes else text, clashes=clashes)


def _ended(text: str) -> str:
    """A text whose last line ends as all others do."""
    return text if not text or text.endswith("\n") else text + ("\r\n" if "\r\n" in text else "\n")


def _can_be_taken_apart(text: str) -> bool:
    try:
        tomllib.loads(text.removeprefix("\ufeff"))
    except tomllib.TOMLDecodeError:
        return False
    return True


# --- tables, statements, lines -------------------------------------------------------------------


def _tables(sheet: TomlText) -> list[_Item]:
    """The text in its tables, each from the comments right above its header to the next one's."""
    starts = [_with_comments(sheet, number) for number in range(len(sheet.spans.tables))]
    items: list[_Item] = []
    seen: dict[tuple[object, ...], int] = {}
    for table, start, end in zip(sheet.spans.tables, starts, [*starts[1:], len(sheet.text)], strict=True):
        words = tuple(step for step in table.path if isinstance(step, str))
        own = _own_name(sheet, table.path)
        nameless = bool(table.path) and isinstance(table.path[-1], int) and not own
        key: tuple[object, ...] = (*words, *own, *([sheet.text[start:end].strip()] if nameless else []))
        seen[key] = seen.get(key, 0) + 1
        items.append(_Item((*key, seen[key]), sheet.text[start:end], words, " and ".join(own)))
    return items


def _own_name(sheet: TomlText, path: Path) -> tuple[str, ...]:
    """What one of several tables of a kind is called; a joint by its two boards."""
    values = sheet.get(path) if path and isinstance(path[-1], int) else None
    if not isinstance(values, dict):
        return ()
    between, name = values.get("between"), values.get("name")
    if isinstance(between, list):
        return tuple(sorted(map(str, between)))
    return (name,) if isinstance(name, str) else ()


def _with_comments(sheet: TomlText, number: int) -> int:
    """Where a table begins: at the comments that stand right above its header, as far as these are not another's."""
    table = sheet.spans.tables[number]
    if not number:
        return 0
    least = max(
        (span.end for span in sheet.spans.statements.values() if span.end <= table.header.start),
        default=sheet.spans.tables[number - 1].header.end,
    )
    least = max(least, sheet.spans.tables[number - 1].header.end)
    start = sheet.text.rfind("\n", 0, table.header.start) + 1
    while start > least:
        above = sheet.text.rfind("\n", 0, start - 1) + 1
        if above <= least or not sheet.text[above:start].lstrip().startswith("#"):
            break
        start = above
    return start


def _statements(table: _Item) -> list[_Item]:
    """A table's text in its statements, each with its whole lines; what stands between them line by line."""
    text, header = table.text, len(table.sort or ())
    sheet = TomlText(text)
    items: list[_Item] = []
    at = 0
    for path, span in sorted(sheet.spans.statements.items(), key=lambda found: found[1]):
        start = text.rfind("\n", 0, span.start) + 1
        end = text.find("\n", span.end) + 1 or len(text)
        items += map(_line, text[at:start].splitlines(keepends=True))
        words = [step for step in path if isinstance(step, str)]
        items.append(_Item(("key", *path), text[start:end], KEY, ".".join(words[header:])))
        at = end
    return [*items, *map(_line, text[at:].splitlines(keepends=True))]


def _line(text: str) -> _Item:
    return _Item(("line", text), text)


# --- putting together ----------------------------------------------------------------------------


def _put(
    base: Sequence[_Item], mine: Sequence[_Item], theirs: Sequence[_Item], *, both: _Both, strict: bool = False
) -> tuple[str, tuple[Clash, ...]]:
    """Both changes of a list of stretches.

    Args:
        both: puts a stretch together that both changed.
        strict: whether two that are put in at one place clash.
    """
    ours, others = _changes(base, mine), _changes(base, theirs)
    pieces: list[str] = []
    clashes: list[Clash] = []
    for number in range(len(base) + 1):
        came, faults = _put_in(ours[1][number], others[1][number], strict=strict)
        pieces += came
        clashes += faults
        if number < len(base):
            text, fault = _one(base[number], ours[0][number], others[0][number], both)
            pieces.append(text)
            clashes += fault
    return "".join(pieces), tuple(clashes)


def _changes(base: Sequence[_Item], other: Sequence[_Item]) -> _Change:
    """What each stretch of the base is in the other, None where it is not there; and what is put in before each."""
    kept: list[_Item | None] = [None] * len(base)
    new: list[list[_Item]] = [[] for _ in range(len(base) + 1)]
    matcher = SequenceMatcher(None, [item.key for item in base], [item.key for item in other], autojunk=False)
    for _, first, last, start, stop in matcher.get_opcodes():
        alike = last - first == stop - start
        for place, found in zip(range(first, last), other[start:stop], strict=False) if alike else ():
            if found.key == base[place].key or _called_anew(base[place], found):
                kept[place] = found
            else:
                new[place + 1].append(found)
        if not alike:
            new[last].extend(other[start:stop])
    return kept, new


def _called_anew(base: _Item, other: _Item) -> bool:
    """Whether a table is the same under another name: it stands in its place, is of its kind and says much the same."""
    if not isinstance(base.sort, tuple) or base.sort != other.sort:
        return False
    return SequenceMatcher(None, base.text.splitlines(), other.text.splitlines(), autojunk=False).ratio() >= ALIKE


def _one(base: _Item, mine: _Item | None, theirs: _Item | None, both: _Both) -> tuple[str, tuple[Clash, ...]]:
    """One stretch of the base after both changes."""
    if mine is None or theirs is None:
        left = mine or theirs
        if left is None or left.text == base.text:
            return "", ()
        return "", (_clash(base, mine, theirs),)
    if mine.text in (theirs.text, base.text):
        return theirs.text, ()
    if theirs.text == base.text:
        return mine.text, ()
    return both(base, mine, theirs)


def _put_in(mine: Sequence[_Item], theirs: Sequence[_Item], *, strict: bool) -> tuple[list[str], list[Clash]]:
    """What both put in at one place: what is the same once, the rest by its words; the same name twice clashes."""
    ours = {item.key: item for item in mine}
    same = [item for item in theirs if item.key in ours and item.text == ours[item.key].text]
    if len(same) in (len(mine), len(theirs)):
        return [item.text for item in max(mine, theirs, key=len)], []
    twice = [item for item in theirs if item.key in ours and item not in same and item.sort is not None]
    clashes = [_clash(None, ours[item.key], item) for item in twice]
    if strict:
        clashes = [_clash(None, mine[0], theirs[0])]
    alone = [[item for item in items if item not in same] for items in (mine, theirs)]
    first, last = sorted(alone, key=lambda items: [item.text for item in items])
    return [item.text for item in (*same, *first[:-1])] + [_apart(first[-1]), *(item.text for item in last)], clashes


def _apart(item: _Item) -> str:
    """What another is put in behind: a table with a blank line at its end."""
    if not isinstance(item.sort, tuple) or not item.text.splitlines()[-1].strip():
        return item.text
    return item.text + ("\r\n" if "\r\n" in item.text else "\n")


def _clash(base: _Item | None, mine: _Item | None, theirs: _Item | None) -> Clash:
    item = base or mine or theirs
    assert item is not None, "something clashes"
    table = (*item.sort, *([item.name] if item.name else [])) if isinstance(item.sort, tuple) else ()
    written = [None if one is None else one.text.strip() for one in (base, mine, theirs)]
    key = item.name if item.sort == KEY else ""
    return Clash(table=table, key=key, base=written[0], mine=written[1], theirs=written[2])


def _tables_merged(base: _Item, mine: _Item, theirs: _Item) -> tuple[str, tuple[Clash, ...]]:
    """A table that both changed, key by key."""
    three = [_statements(item) for item in (base, mine, theirs)]
    text, clashes = _put(*three, both=_told)
    whole = _clash(base, mine, theirs).table
    return text, tuple(replace(one, table=whole) for one in clashes)


def _told(base: _Item, mine: _Item, theirs: _Item) -> tuple[str, tuple[Clash, ...]]:
    return "", (_clash(base, mine, theirs),)


def _by_lines(base: str, mine: str, theirs: str) -> Merged:
    """Line by line, where a text cannot be taken apart: what touches the same lines clashes."""
    three = [[_line(line) for line in text.splitlines(keepends=True)] for text in (base, mine, theirs)]
    text, clashes = _put(*three, both=_told, strict=True)
    return Merged(text=None if clashes else text, clashes=clashes)
