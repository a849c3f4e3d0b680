"""One more of the tables that a job may have many of, one taken out, one renamed; see `cards.listings`."""

from collections.abc import Iterator, Mapping
from typing import Any

from ..book import models
from ..job.edits import TomlText, sheet_of
from ..job.names import shown
from ..job.renaming import named_by
from ..job.schema import MANY
from ..joints import KINDS
from ..places import Edit, Path, Plain
from ..sentences import a
from . import requests
from .answers import MistakeShown
from .cards.listings import OF_KINDS, TableSort, called, called_whole, model_of, table_sorts, tables_there
from .cards.rows import typed_as
from .composed import Composed
from .drawn import Drawn, no_such
from .refusals import refused

LINES = 3  # that are told one by one


def is_of_many(key: Path) -> bool:
    """Whether a place of the file lies in such a table."""
    sort = table_sorts().get(str(key[0]))
    return sort is not None and len(key) > 2 and isinstance(key[1], str) is sort.keyed


def worded(sheet: TomlText, key: Path, entry: str | bool | list[str]) -> Plain:
    """What was typed for a value of such a table, as its schema has it."""
    sort = table_sorts()[str(key[0])]
    table = sheet.get(key[:2])
    kind = str(table.get("kind", "")) if isinstance(table, dict) and sort.word in OF_KINDS else ""
    return typed_as(model_of(sort, str(key[2]), kind), str(key[2]), entry)


def table_added(drawn: Drawn, sent: requests.TableAddedSent) -> Composed:
    """A table put in behind the last of its sort, with what was typed for it.

    Raises:
        Refused: something that it must say was not typed, each told at its key; or the name is taken.
    """
    sort = table_sorts().get(sent.table)
    if sort is None:
        raise no_such("table", sent.table)
    sheet = sheet_of(drawn.text)
    typed = {key: entry for key, entry in sent.values.items() if entry not in ("", [])}
    name = str(typed.pop("name", "")).strip() if sort.keyed else ""
    path = (sort.word, name) if sort.keyed else (sort.word, len([*tables_there(sheet, sort)]))
    needed = [*(["name"] if sort.keyed and not name else []), *_needed(sort, typed)]
    if needed:
        raise _lacks(sort, path, needed)
    kind = str(typed.get("kind", ""))
    value: dict[str, Plain] = {key: typed_as(model_of(sort, key, kind), key, one) for key, one in typed.items()}
    says = f"{called_whole(path, value)} added"
    if not sort.keyed:
        return Composed(edits=(Edit(action="add", path=(sort.word,), value=value),), says=says)
    if sheet.get(path) is not None:
        remedy = "type another name"
        wrong = _at(path, "name", f"there is {a(sort.word)} called {shown(name)} already", remedy)
        raise refused("refused", wrong.says, remedy, mistakes=(wrong,))
    return Composed(edits=(Edit(action="set", path=path, value=value),), says=says)


def _needed(sort: TableSort, typed: Mapping[str, Any]) -> Iterator[str]:
    return (key for key in sort.model.model_json_schema().get("required", ()) if key not in typed)


def _lacks(sort: TableSort, path: Path, keys: list[str]) -> Exception:
    mistakes = tuple(_at(path, key, f"{key.replace('_', ' ')} is left out", "type it") for key in keys)
    remedy = f"type {' and '.join(key.replace('_', ' ') for key in keys)}"
    return refused("refused", f"{a(sort.word)} needs more than was typed", remedy, mistakes=mistakes)


def _at(path: Path, key: str, says: str, remedy: str) -> MistakeShown:
    return MistakeShown(line=0, column=0, end_column=0, path=(*path, key), read="", says=says, remedy=remedy)


def table_taken_out(drawn: Drawn, sent: requests.TableTakenSent) -> Composed:
    """A table taken out; asked first, with their lines, where others name it.

    Raises:
        Refused: there is no such table.
    """
    sheet, path = sheet_of(drawn.text), tuple(sent.path)
    sort = table_sorts().get(str(path[0]))
    there = dict(tables_there(sheet, sort)) if sort is not None else {}
    if path not in there:
        raise no_such("table", " ".join(map(str, path)))
    says = called_whole(path, there[path])
    lines = sorted({sheet.spans.line_of(place) for place in _namers(sheet, path, there[path])})
    asks = f"{_lines(lines)} {called(path, there[path])}, which would not be there." if lines else ""
    return Composed(edits=(Edit(action="remove", path=path),), says=f"{says} taken out", asks=asks)


def _lines(lines: list[int]) -> str:
    """Who names it: "Line 3 names", or "Lines 3, 5, 9 and 2 more name"."""
    if len(lines) == 1:
        return f"Line {lines[0]} names"
    told = ", ".join(map(str, lines[:LINES]))
    return f"Lines {told} and {len(lines) - LINES} more name" if len(lines) > LINES else f"Lines {told} name"


def _namers(sheet: TomlText, path: Path, table: Mapping[str, Any]) -> Iterator[Path]:
    """Where a table is named by others: by the key that its schema says, or as the anchor of a fixing."""
    name = called(path, table)
    for known in (name,) if table.get("name") else (name, f"the {path[0]}"):
        yield from named_by(sheet.data, str(path[0]), known, models())
    if path[0] == "anchor":
        for place, fixing in tables_there(sheet, TableSort(word="fixing", model=MANY["fixing"])):
            kind = KINDS[str(fixing["kind"])] if fixing.get("kind") in KINDS else None
            if kind is not None and kind.anchored and fixing.get(kind.anchored) == name:
                yield (*place, kind.anchored)


def table_renamed(sheet: TomlText, path: Path, name: str) -> Composed:
    """A new name for such a table, in what names it too; for one that had none its first."""
    before = sheet.get(path[:-1])
    old = called_whole(path[:2], before if isinstance(before, dict) else {})
    edit = Edit(action="rename" if path in sheet.spans.values else "set", path=path, value=name)
    return Composed(edits=(edit,), says=f"{old} renamed {name}")
