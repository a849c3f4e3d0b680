"""The tables that a job may have many of, as the job's card lists them: doors, eyes, units, fixings, anchors.

Which these are is read off the registers: the job file's own, but for what is drawn; those that studies own; those
that stand under a name ([anchor.NAME]). So a new study's table is on the page without a word here.
"""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, replace
from typing import Any

from pydantic import BaseModel

from ...job.edits import TomlText
from ...job.names import fixing_of
from ...job.schema import MANY, NAMED
from ...job.tables import Many
from ...joints import KINDS
from ...places import Path
from ...sentences import a, plural
from ...studies import STUDIES
from ..answers import Choice, Listed, Listing, Row
from ..drawn import Drawn
from .common import table
from .rows import chosen_of

DRAWN = ("board", "frame")  # their list is the drawing: each has a card of its own, and is drawn and deleted there
OF_KINDS = ("joint", "fixing")  # what else they say are options of their kind
ABOVE = ("timber",)  # what they say stands on the job's card among what is typed first
NAME = Row(
    key=("name",),
    label="name",
    written="",
    value="",
    shown="",
    unit="",
    default="",
    sentence="What it is called in the job.",
    input="name",
    needed=True,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class TableSort:
    """A sort of table; `keyed` where each stands under its name: [anchor.NAME]."""

    word: str
    model: type[BaseModel]
    keyed: bool = False


def table_sorts() -> dict[str, TableSort]:
    """All sorts, by their word: the job file's own first."""
    own = [TableSort(word=word, model=model) for word, model in MANY.items() if word not in DRAWN]
    keyed = [TableSort(word=word, model=model, keyed=True) for word, model in NAMED.items()]
    owned = [table for study in STUDIES.values() for table in study.owns if isinstance(table, Many)]
    sorts = [*own, *keyed, *(TableSort(word=table.word, model=table.model) for table in owned)]
    return {sort.word: sort for sort in sorts}


def tables_there(sheet: TomlText, sort: TableSort) -> Iterator[tuple[Path, Mapping[str, Any]]]:
    """The tables of a sort in a text, with their paths."""
    found = sheet.data.get(sort.word)
    if sort.keyed and isinstance(found, dict):
        yield from (((sort.word, name), table) for name, table in found.items() if isinstance(table, dict))
    elif not sort.keyed and isinstance(found, list):
        yield from (((sort.word, at), table) for at, table in enumerate(found) if isinstance(table, dict))


def called(path: Path, table: Mapping[str, Any]) -> str:
    """A table's own name; else of whom it is: "fixing of upright 1", "joint of a and b"; else "door 2"."""
    word, at = path[0], path[1]
    if isinstance(at, str):
        return at
    between = table.get("between")
    if table.get("name") or not (table.get("board") or between):
        return str(table.get("name") or f"{word} {at + 1}")
    if isinstance(between, list):
        return f"{word} of {' and '.join(map(str, between))}"
    return fixing_of(str(table["board"])) if word == "fixing" else f"{word} of {table['board']}"


def called_whole(path: Path, table: Mapping[str, Any]) -> str:
    """The same with its sort before it: "door front"."""
    name = called(path, table)
    return name if name.startswith(f"{path[0]} ") else f"{path[0]} {name}"


def model_of(sort: TableSort, key: str, kind: str) -> type[BaseModel]:
    """The model that a key of such a table stands in: its own, or the options of its kind."""
    of_kind = key not in sort.model.model_fields and kind in KINDS
    return KINDS[kind].options if of_kind else sort.model


def listings(drawn: Drawn, sheet: TomlText) -> Iterator[Listing]:
    """Every sort of table that a job may have many of, those that it has first."""
    found = [_listing(drawn, sheet, sort) for sort in table_sorts().values()]
    yield from sorted(found, key=lambda one: not one.there)


def _listing(drawn: Drawn, sheet: TomlText, sort: TableSort) -> Listing:
    there = [*tables_there(sheet, sort)]
    new = (sort.word, "" if sort.keyed else len(there))
    blank = [*table(drawn, sheet, new, choices=_choices(sort)).rows(sort.model)]
    return Listing(
        word=sort.word,
        one=a(sort.word),
        several=plural(sort.word),
        says=str(sort.model.model_json_schema().get("description", "")),
        there=tuple(
            Listed(
                path=path,
                name=called(path, written),
                line=sheet.spans.line_of(path),
                rows=() if sort.word in ABOVE else tuple(_rows(drawn, sheet, sort, path, written)),
            )
            for path, written in there
        ),
        blank=((NAME, *blank) if sort.keyed else tuple(blank)),
    )


def _rows(drawn: Drawn, sheet: TomlText, sort: TableSort, path: Path, written: Mapping[str, Any]) -> Iterator[Row]:
    own = table(drawn, sheet, path, choices=_choices(sort))
    kind = written.get("kind")
    options = own.rows(KINDS[str(kind)].options) if sort.word in OF_KINDS and kind in KINDS else ()
    for row in (*own.rows(sort.model), *options):
        yield replace(row, key=(*path, *row.key))


def _choices(sort: TableSort) -> Mapping[str, tuple[Choice, ...]]:
    """The kinds that may be chosen: for a fixing those that hold in a wall."""
    if sort.word not in OF_KINDS:
        return {}
    holds = sort.word == "fixing"
    return {"kind": chosen_of(name for name in KINDS if not holds or KINDS[name].anchored)}
