"""Writing changes back into a job file, byte for byte.

    changed = apply(text, [Edit(action="shift", path=("board", 3, "line", 1, 0), value=12)], kinds=kinds)

Outside the values changed every byte stays; the changed file is read again before it is handed back, so no
change can leave a file that cannot be used.
"""

import tomllib
from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import BaseModel

from ..errors import EditError, JobError, Mistake
from ..lengths import LengthUnit, to_mm
from ..places import Edit, Path, Plain
from . import style
from .edits import EditRefused, TomlText, sheet_of
from .model import Job
from .names import shown
from .reading import FilmOf, read_text
from .renaming import Models, rename
from .schema import MANY
from .spans import Spans
from .tables import Many, Owned
from .tokens import ArithmeticMistake

# Lengths that are 0 where nothing is said, so that a hand can move them away from there.
_ZERO = ("back", "start", "end", "film", "sanded", "lining", "hollow")
_LISTS = (*MANY, "except", "load")


def apply(
    text: str,
    edits: Iterable[Edit],
    *,
    kinds: Mapping[str, type[BaseModel]],
    named: Iterable[str] = (),
    tables: Iterable[Owned] = (),
    film_of: FilmOf | None = None,
    file: str = "the job file",
    snap: float = style.SNAP,
) -> str:
    """Return the text with the edits made, one after the other.

    Numbers that are set are in the job's units and keep the style of what they replace; a shift is in mm
    and is rounded to `snap`.

    Args:
        text: of a job file.
        edits: see `places.Edit`. A list of tables (`("joint",)`) is added to by `add`; a path that ends in a
            number puts a value into a list before that place. A shift of a point or a line takes [dx, dy].
        kinds: as for `read_text`, and so `named`, `tables`, `film_of`.
        named: kinds not made yet.
        tables: of studies.
        film_of: of a finish.
        file: for messages.
        snap: what a moved length is rounded to, in mm.

    Raises:
        EditError: an edit cannot be made, or the file could no longer be read.
    """
    given = {"kinds": kinds, "named": tuple(named), "tables": tuple(tables), "film_of": film_of}
    return _written(text, edits, given, file, snap)[0]


def apply_and_read(
    text: str,
    edits: Iterable[Edit],
    *,
    kinds: Mapping[str, type[BaseModel]],
    named: Iterable[str] = (),
    tables: Iterable[Owned] = (),
    film_of: FilmOf | None = None,
    file: str = "the job file",
    snap: float = style.SNAP,
) -> tuple[str, Job | None]:
    """As `apply`, with the job that was read to see that the changed text can be.

    The job is None where nothing changed, or where the text could not be read before either.
    """
    given = {"kinds": kinds, "named": tuple(named), "tables": tuple(tables), "film_of": film_of}
    return _written(text, edits, given, file, snap)


def _written(
    text: str, edits: Iterable[Edit], given: Mapping[str, Any], file: str, snap: float
) -> tuple[str, Job | None]:
    models = Models(given["kinds"], given["tables"])
    changed = text
    for edit in edits:
        changed = _applied(changed, edit, models, file, snap)
    if changed == text:
        return text, None
    try:
        return changed, read_text(changed, file, **given)
    except JobError as error:
        _let_pass(text, file, error, given)
    return changed, None


def _let_pass(text: str, file: str, error: JobError, given: Mapping[str, Any]) -> None:
    """Raise unless the file could not be read before either, and has no more mistakes now."""
    try:
        read_text(text, file, **given)
    except JobError as before:
        if len(error.mistakes) <= len(before.mistakes):
            return
    raise EditError(error.mistakes)


def _applied(text: str, edit: Edit, models: Models, file: str, snap: float) -> str:
    try:
        sheet = sheet_of(text)
        return _ACTIONS[edit.action](sheet, edit, models, snap)
    except (EditRefused, ArithmeticMistake) as refused:
        says, remedy = refused.says, refused.remedy
    except tomllib.TOMLDecodeError:
        says, remedy = "the file cannot be changed here while it cannot be read", "put its mistakes right first"
    except ValueError as wrong:
        says, remedy = str(wrong), "give a number, text, list or table"
    line = Spans(text).line_of(edit.path)
    raise EditError((Mistake(file=file, line=line, path=edit.path, says=says, remedy=remedy),))


def _set(sheet: TomlText, edit: Edit, models: Models, snap: float) -> str:
    path, value = edit.path, edit.value
    if not path:
        raise EditRefused("a change needs a place", "name a value in the file")
    if path not in sheet.spans.values:
        table = any(table.path == path for table in sheet.spans.tables)
        if table and isinstance(value, dict):
            text = sheet.text
            for name, part in value.items():
                text = _set(TomlText(text), Edit(action="set", path=(*path, name), value=part), models, snap)
            return text
        if table:
            raise EditRefused("this is a table", "set its keys")
        if isinstance(value, dict) and all(isinstance(step, str) for step in path):
            return sheet.add_table(path, value, several=False)
        return sheet.add_key(path, value)
    return sheet.replace(path, _like(sheet, path, value))


def _like(sheet: TomlText, path: Path, value: Plain) -> str:
    """A value in the style of the one at `path`."""
    old, written = sheet.get(path), sheet.spans.written(path)
    number = isinstance(value, (int, float)) and not isinstance(value, bool)
    if number and isinstance(old, str):
        length = to_mm(float(value), _units(sheet))  # type: ignore[arg-type]
        styled = style.text_like(old, length, _units(sheet), snap=None)
        if styled is not None:
            return style.quoted(styled, written)
    if number and isinstance(old, (int, float)) and not isinstance(old, bool):
        return style.number_like(written, float(value), "mm", snap=None)  # type: ignore[arg-type]
    if isinstance(value, str) and isinstance(old, str):
        return style.quoted(value, written)
    if isinstance(value, str) and style.is_date(value) and not isinstance(old, (str, list, dict)):
        return value
    return style.render(value)


def _units(sheet: TomlText) -> LengthUnit:
    return "in" if sheet.get(("job", "units")) == "in" else "mm"


def _add(sheet: TomlText, edit: Edit, models: Models, snap: float) -> str:
    path, value = edit.path, edit.value
    if path and isinstance(path[-1], int):
        return sheet.insert(path, value)
    existing = sheet.get(path)
    if not path or not isinstance(value, dict):
        if isinstance(existing, list) and path in sheet.spans.values:
            return sheet.insert((*path, len(existing)), value)
        raise EditRefused("only a table can be added here", "give its keys and values")
    if path in sheet.spans.values:  # tables in braces, in a list
        return sheet.insert((*path, len(existing or [])), value)
    if existing is None and path[-1] not in _LISTS and not isinstance(models.tables.get(str(path[-1])), Many):
        return sheet.add_table(path, value, several=False)
    if isinstance(existing, dict):
        raise EditRefused(f"there is a {shown(str(path[-1]))} already", "set its keys")
    return sheet.add_table(path, value, several=True)


def _remove(sheet: TomlText, edit: Edit, models: Models, snap: float) -> str:
    return sheet.remove(edit.path)


def _rename(sheet: TomlText, edit: Edit, models: Models, snap: float) -> str:
    if not isinstance(edit.value, str):
        raise EditRefused("a name is text", "give the new name")
    return rename(sheet, edit.path, edit.value, models)


def _shift(sheet: TomlText, edit: Edit, models: Models, snap: float) -> str:
    moves = dict(_moves(sheet, edit.path, edit.value))
    absent = [path for path in moves if path not in sheet.spans.values]
    if absent:
        path = absent[0]
        if path[-1] not in _ZERO:
            raise EditRefused("there is no length here to move", "give it a length first")
        length = moves[path]
        written = style.signed(style.Style(), length, _units(sheet), snap=snap)
        return sheet.add_key(path, float(written))
    for path in moves:
        if not models.is_length(sheet.data, path):
            raise EditRefused(f"{shown(sheet.get(path))} is not a length", "choose a number or arithmetic")
    return sheet.many([(sheet.spans.values[path], _shifted(sheet, path, by, snap)) for path, by in moves.items()])


def _moves(sheet: TomlText, path: Path, by: Plain) -> list[tuple[Path, float]]:
    """The lengths to be moved, with their moves: one, the two of a point, or those of all points of a line."""
    value = sheet.get(path)
    if isinstance(by, (int, float)) and not isinstance(by, bool) and not isinstance(value, (list, dict)):
        return [(path, float(by))]
    if isinstance(by, list) and len(by) == 2 and isinstance(value, list):
        if value and isinstance(value[0], list):
            return [move for at in range(len(value)) for move in _moves(sheet, (*path, at), by)]
        if len(value) == 2:
            return [move for at in (0, 1) for move in _moves(sheet, (*path, at), by[at])]
    raise EditRefused("this cannot be moved", "give a length and mm, or a point or line and [dx, dy]")


def _shifted(sheet: TomlText, path: Path, by: float, snap: float) -> str:
    old, written, units = sheet.get(path), sheet.spans.written(path), _units(sheet)
    if by == 0:
        return written
    if isinstance(old, (int, float)) and not isinstance(old, bool):
        return style.number_like(written, to_mm(float(old), units) + by, units, snap=snap)
    assert isinstance(old, str), "a length is a number or text"
    lone = style.lone_length(old)
    if lone is None:
        return style.quoted(style.shifted_arithmetic(old, by, units, snap=snap), written)
    word, sign = lone
    length = word.value if word.kind == "length" else to_mm(word.value, units)
    styled = style.text_like(old, sign * length + by, units, snap=snap)
    return style.quoted(styled or old, written)


_ACTIONS = {"set": _set, "add": _add, "remove": _remove, "rename": _rename, "shift": _shift}


def exceptions_of(text: str) -> dict[tuple[Path, int], Path]:
    """The `[[board.except]]` tables of a job file, each by the path of its row and the number of its board there."""
    rows = TomlText(text).get(("board",)) if text else None
    return {
        (("board", at), one["i"]): ("board", at, "except", number)
        for at, row in enumerate(rows or ())
        for number, one in enumerate(row.get("except") or ())
    }


def only_this_one(text: str, path: Path, index: int, keys: Mapping[str, Plain]) -> Edit:
    """The edit that gives one board of a row something of its own, as a `[[board.except]]`.

    Args:
        text: of the job file.
        path: of the row, such as `("board", 3)`.
        index: which board of the row, counted from 1.
        keys: what it has otherwise: its `line`, or `absent = true`.
    """
    rows = TomlText(text).get((*path, "except")) or []
    for at, row in enumerate(rows):
        if isinstance(row, dict) and row.get("i") == index:
            (name, value), *more = keys.items()
            if not more:
                return Edit(action="set", path=(*path, "except", at, name), value=value)
            return Edit(action="set", path=(*path, "except", at), value=dict(keys))
    return Edit(action="add", path=(*path, "except"), value={"i": index, **keys})
