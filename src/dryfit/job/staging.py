"""When each board is coated and what place it has on the wall, from all the tables that say something of it.

The nearest table holds: the board's own (or its frame's), else its unit's; the finish's own is left to whoever asks.
Old words are read as the new ones they stand for: `before_assembly` as `when = "before glue"`, `last = true` as
`place = "last"`; both at once are a mistake, since one of them is bound to be forgotten at the next change.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import replace
from typing import Any

from ..places import Path
from .mistakes import Mistakes
from .model import BoardSpec, Turn, Unit, When
from .names import shown
from .schema import UnitTable

EVERY = "all"  # in `before_assembly`: every board


def said_twice(data: Mapping[str, Any], mistakes: Mistakes) -> None:
    """Note where an old word and a new one say the same thing."""
    old: Path = ("finish", "before_assembly")
    if isinstance(data.get("finish"), dict) and "before_assembly" in data["finish"]:
        for path in _whens(data):
            says = f'"when" is given here, and "before_assembly" in line {mistakes.spans.line_of(old)} says the same'
            remedy = 'take "before_assembly" out, and write when = "before glue" at the boards that it names'
            mistakes.add(path, says, remedy)
    for path, table in _tables(data, "unit"):
        if "last" in table and "place" in table:
            line = mistakes.spans.line_of((*path, "last"))
            says = f'"place" is given here, and "last" in line {line} says the same'
            mistakes.add((*path, "place"), says, 'keep "place": place = "last" is what last = true means')


def _tables(data: Mapping[str, Any], word: str) -> Iterator[tuple[Path, Mapping[str, Any]]]:
    tables = data.get(word)
    for at, table in enumerate(tables if isinstance(tables, list) else ()):
        if isinstance(table, dict):
            yield (word, at), table


def _whens(data: Mapping[str, Any]) -> Iterator[Path]:
    """Where the file says `when` of a finish, a frame, a unit, a board or one board of a row."""
    if "when" in data["finish"]:
        yield ("finish", "when")
    for word in ("board", "frame", "unit"):
        for path, table in _tables(data, word):
            if "when" in table:
                yield (*path, "when")
            for own, exception in _tables(table, "except"):
                if "when" in exception:
                    yield (*path, *own, "when")


def place_of(table: UnitTable) -> Turn | None:
    """A unit's place on the wall, in the old word or the new one."""
    return "last" if table.last else table.place


def staged(
    boards: Iterable[BoardSpec],
    units: Iterable[Unit],
    whens: Mapping[str, When],
    early: Iterable[str],
    mistakes: Mistakes,
) -> tuple[BoardSpec, ...]:
    """The boards with what their units, and the old words, say of them.

    A unit of one board is that board, carried loose: it has the unit's place. A board of a larger unit has none.

    Args:
        boards: with what their own tables say.
        units: as the file has them; a board is in the first that names it.
        whens: what units say of their coats, by the unit's name.
        early: boards that the old word has coated before they are glued.
        mistakes: where a second place is noted.
    """
    homes: dict[str, Unit] = {}
    for unit in units:
        for name in unit.boards:
            homes.setdefault(name, unit)
    coated = frozenset(early)
    return tuple(_staged(board, homes.get(board.name), whens, coated, mistakes) for board in boards)


def _staged(
    board: BoardSpec, unit: Unit | None, whens: Mapping[str, When], early: frozenset[str], mistakes: Mistakes
) -> BoardSpec:
    when: When | None = "before glue" if board.name in early else board.when
    if unit is None:
        return board if when == board.when else replace(board, when=when)
    alone = unit.boards == (board.name,)
    if board.place is not None and (not alone or unit.place is not None):
        line = mistakes.spans.line_of(unit.path)
        says = f"{shown(board.name)} is carried in the unit {shown(unit.name)}, line {line}: it has no place of its own"
        mistakes.add((*board.path, "place"), says, "give the place to the unit")
    place = unit.place if alone and unit.place is not None else board.place
    return replace(board, when=when or whens.get(unit.name), place=place)
