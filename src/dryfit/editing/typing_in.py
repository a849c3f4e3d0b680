"""A value of a card was typed: where it is written, and as what."""

from typing import Any

from ..job.arithmetic import NUMBER
from ..job.edits import TomlText, sheet_of
from ..job.model import BoardSpec
from ..job.renaming import renamed_in_records
from ..job.schema import JointTable
from ..job.writing import only_this_one
from ..joints import KINDS
from ..places import Edit, Path, Plain
from . import requests
from .cards import joint_table, meeting_of, table_of
from .composed import Composed
from .drawn import Drawn
from .figures import as_typed
from .points import line_path
from .refusals import refused
from .relating import figures_for, stays_said
from .rows import recounted
from .tabling import is_of_many, table_added, table_renamed, table_taken_out, worded

_TEXTS = frozenset({"name", "kind", "front", "species", "form", "title", "client", "system", "board", "timber"})


def typed_on_a_card(
    drawn: Drawn, sent: requests.TypedSent | requests.TableAddedSent | requests.TableTakenSent
) -> Composed:
    """The edits for what was done on a card: a value typed, a table put in or taken out."""
    match sent:
        case requests.TypedSent():
            return typed(drawn, sent)
        case requests.TableAddedSent():
            return table_added(drawn, sent)
        case requests.TableTakenSent():
            return table_taken_out(drawn, sent)


def typed(drawn: Drawn, sent: requests.TypedSent) -> Composed:
    """The edits that make a card's value what was typed; None takes it out, so that its default holds."""
    sheet = sheet_of(drawn.text)
    key: Path = tuple(sent.key)
    path = (*_table(drawn, sheet, sent.card, key), *key)
    there = path in sheet.spans.values
    says = f"{_called(sent.card)}: {_label(key)}"
    if sent.entry is None:
        if not there:
            return Composed(edits=(), says=f"{says} is at its default already")
        return Composed(edits=(Edit(action="remove", path=path),), says=f"{says} back to its default", plain=True)
    of_many = sent.card == requests.CardOf() and is_of_many(path)
    value = worded(sheet, path, sent.entry) if of_many else _value(sheet, path, sent.entry)
    if of_many and path[2:] == ("name",):
        return table_renamed(sheet, path, str(value))
    says = f"{says} = {', '.join(sent.entry) if isinstance(sent.entry, list) else sent.entry}"
    of_row = sent.card.board or sent.card.row
    if key == ("count",) and of_row is not None and isinstance(value, int):
        return _counted(drawn, of_row, Edit(action="set", path=path, value=value), says)
    if key == ("name",):
        return _renamed(drawn, sheet, sent.card, path, str(value))
    if key[0] == "measures" and len(key) == 2 and not there:
        raise refused("not there", f"there is no measure called {key[1]}", "look at the card again")
    if sent.card.joint is not None:
        return Composed(edits=_joint_edits(drawn, sheet, sent, path, value), says=says, plain=True)
    return Composed(edits=(Edit(action="set", path=path, value=value),), says=says, plain=True)


def _counted(drawn: Drawn, board: str, edit: Edit, says: str) -> Composed:
    """A row of another number, its bays as equal as before; what named boards it has no more keeps their figures."""
    row, count = drawn.spec(board).path, edit.value
    assert isinstance(count, int), "only asked of whole numbers"
    gone = {spec.name for spec in drawn.job.boards if spec.path == row and spec.index > count}
    figures, stay = figures_for(drawn, gone)
    again = recounted(drawn, drawn.spec(board), count)
    equal = "; its bays are as equal as they were" if again else ""
    return Composed(edits=(*figures, edit, *again), says=f"{says}{equal}{stays_said(stay)}")


def _table(drawn: Drawn, sheet: TomlText, card: requests.CardOf, key: Path) -> Path:
    """The table of the card's key; of a board with an exception of its own, the one that says it."""
    table = table_of(drawn, card)
    if card.board is None:
        return table
    spec = drawn.spec(card.board)
    if key[0] == "line" and not spec.frame:
        return line_path(drawn, spec)[:-1]
    row = sheet.get((*table, "except"))
    for at, own in enumerate(row if isinstance(row, list) else []):
        if own.get("i") == spec.index and key[0] in own:
            return (*table, "except", at)
    return table


def _value(sheet: TomlText, path: Path, entry: str | bool | list[str]) -> Plain:
    """What is written: a number where one was typed for something that is no word."""
    if isinstance(entry, (bool, list)):
        return list(entry) if isinstance(entry, list) else entry
    text = entry.strip()
    if path[-1] in _TEXTS:
        return text
    old = sheet.get(path)
    if isinstance(old, list) or path[-1] in ("before_assembly", "studs", "at", "boards"):
        return [as_typed(part) for part in text.split(",") if part.strip()]
    return as_typed(text)


def _renamed(drawn: Drawn, sheet: TomlText, card: requests.CardOf, path: Path, name: str) -> Composed:
    """A new name, wherever the thing is named; of one board of a row or a frame without touching its fellows."""
    says = f"renamed {name}"
    if card.board is None:
        names = renamed_in_records(sheet.data, path, name) if path[0] in ("frame", "fixing") else {}
        there = path in sheet.spans.values  # a fixing may have no name of its own yet
        edit = Edit(action="rename" if there else "set", path=path, value=name)
        return Composed(edits=(edit,), says=says, renames=tuple(names.items()))
    spec = drawn.spec(card.board)
    table: Any = sheet.get(spec.path)
    if spec.frame:
        edits = _side_renamed(drawn, table, spec, name)
    elif "count" in table and NUMBER not in name:
        edits = _one_renamed(drawn, table, spec, name)
    else:
        every = tuple(renamed_in_records(sheet.data, path, name).items())
        return Composed(edits=(Edit(action="rename", path=path, value=name),), says=says, renames=every)
    one = renamed_in_records({**sheet.data, "board": [{"name": spec.name}]}, ("board", 0, "name"), name)
    return Composed(edits=edits, says=f"{spec.name} {says}", renames=tuple(one.items()))


def _one_renamed(drawn: Drawn, table: Any, spec: BoardSpec, name: str) -> tuple[Edit, ...]:
    """One board of a row: an exception says its name, first the old one, so that what refers to it can follow."""
    rows = table.get("except", [])
    at = next((at for at, own in enumerate(rows) if own.get("i") == spec.index), len(rows))
    rename = Edit(action="rename", path=(*spec.path, "except", at, "name"), value=name)
    if at < len(rows) and "name" in rows[at]:
        return (rename,)
    return only_this_one(drawn.text, spec.path, spec.index, {"name": spec.name}), rename


def _side_renamed(drawn: Drawn, table: Any, spec: BoardSpec, name: str) -> tuple[Edit, ...]:
    """One board of a frame: all its boards get their names in the file, so that none hangs on its number."""
    rename = Edit(action="rename", path=(*spec.path, "names", spec.index - 1), value=name)
    if "names" in table:
        return (rename,)
    boards = next(found.boards for found in drawn.job.frames if found.name == spec.frame)
    return Edit(action="set", path=(*spec.path, "names"), value=list(boards)), rename


def _joint_edits(drawn: Drawn, sheet: TomlText, sent: requests.TypedSent, path: Path, value: Plain) -> tuple[Edit, ...]:
    """A joint that has no table yet gets one; another kind leaves behind the options that it does not have."""
    assert sent.card.joint is not None, "only asked of joints"
    key = meeting_of(drawn, sent.card.joint).key
    table = joint_table(drawn, key)
    if all(spec.path != table for spec in drawn.job.joint_specs):
        return (
            Edit(action="add", path=("joint",), value={"between": list(drawn.wholes(key)), str(sent.key[0]): value}),
        )
    change = Edit(action="set", path=path, value=value)
    if sent.key[0] != "kind" or value not in KINDS:
        return (change,)
    kept = {*JointTable.model_fields, *KINDS[str(value)].options.model_fields}
    lost = [name for name in sheet.get(table) if name not in kept]
    return (*(Edit(action="remove", path=(*table, name)) for name in lost), change)


def _called(card: requests.CardOf) -> str:
    joint = " and ".join(card.joint) if card.joint else ""
    row = f"the row of {card.row}" if card.row else ""
    return card.board or row or card.frame or joint or card.fixing or "job"


def _label(key: Path) -> str:
    return " ".join(str(step + 1 if isinstance(step, int) else step).replace("_", " ") for step in key)
