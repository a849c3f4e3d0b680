"""A new name for a board, frame, unit, fixing, timber or measure, in every place that refers to it.

What a key refers to is read off the models of the schema, so a joint kind or a study that marks a field as
`BoardName` or `Quantity` is followed without a word here.
"""

from collections.abc import Callable, Collection, Iterable, Iterator, Mapping
from functools import lru_cache
from itertools import pairwise
from typing import Any, Literal, TypeAlias

from pydantic import BaseModel

from ..places import Path
from . import style
from .arithmetic import NUMBER, RESERVED
from .edits import EditRefused, TomlText
from .mistakes import keys
from .names import fixing_of, shown
from .options import OTHER
from .schema import MANY, NAMED, SINGLE, BoardTable, ExceptTable, JointsTable, TableModel
from .spans import Span
from .tables import Owned
from .tokens import ArithmeticMistake, names_boards, tokens

FIXING = "fixing\n"  # before the name of a fixing among those of boards: no name has a second line

Role: TypeAlias = Literal["length", "board", "timber", "free"]
Leaves: TypeAlias = Iterator[tuple[Path, str | int | float, Role]]


class Models:
    """The models that tell what the keys of a job file refer to."""

    def __init__(self, kinds: Mapping[str, type[BaseModel]], tables: Iterable[Owned] = ()) -> None:
        self.kinds = kinds
        self.tables = {table.word: table for table in tables}

    def texts(self, data: Mapping[str, Any]) -> Iterator[tuple[Path, str, Role]]:
        """Every text of a file that is a length, or refers to something, with its place and role."""
        return ((path, value, role) for path, value, role in self.leaves(data) if isinstance(value, str))

    def is_length(self, data: Mapping[str, Any], path: Path) -> bool:
        """Whether the value at a path is a length, or may be one."""
        word = str(path[0]) if path else ""
        own = {word: _alone(data.get(word), path[1:2])}  # no other table need be read
        return any(place == path and role in ("length", "free") for place, _, role in self.leaves(own))

    def leaves(self, data: Mapping[str, Any]) -> Leaves:
        """Every text and number of a file that is a length, or refers to something."""
        for name, value in _table(data, "measures").items():
            yield from _spread(("measures", name), value, "length")
        yield from (leaf for word, model in NAMED.items() for leaf in self._named(word, model, data))
        yield from self._joints(_table(data, "joints"))
        for word, model in SINGLE.items():
            yield from _of(model, data.get(word), (word,))
        for word, model in MANY.items():
            for path, table in _rows(data, word):
                yield from _of(model, table, path)
                if word in ("joint", "fixing"):
                    yield from self._options(model, table, path)
        for word, owned in self.tables.items():
            for path, table in _rows(data, word):
                yield from _of(owned.model, table, path)
        if "load" not in self.tables:
            for path, table in _rows(data, "load"):
                if isinstance(table.get("board"), str):
                    yield (*path, "board"), table["board"], "board"

    def _named(self, word: str, model: type[TableModel], data: Mapping[str, Any]) -> Leaves:
        for name, table in _table(data, word).items():
            yield from _of(model, table, (word, name))

    def _joints(self, table: Mapping[str, Any]) -> Leaves:
        yield from _of(JointsTable, table, ("joints",))
        for kind, options in table.items():
            if isinstance(options, dict):
                yield from self._of_kind(kind, options, ("joints", kind))

    def _options(self, model: type[TableModel], table: Mapping[str, Any], path: Path) -> Leaves:
        own = {key: value for key, value in table.items() if key not in keys(model)}
        yield from self._of_kind(str(table.get("kind", "")), own, path)

    def _of_kind(self, kind: str, options: Mapping[str, Any], path: Path) -> Leaves:
        model = self.kinds.get(kind)
        if model is not None:
            yield from _of(model, options, path)
            return
        models = list(self.kinds.values()) if not kind else []
        for key, value in options.items():
            role: Role = next((_roles(model)[key] for model in models if key in _roles(model)), "free")
            yield from _spread((*path, key), value, role)


def _alone(rows: object, at: Path) -> object:
    """Of a list of tables the one that is meant, where it stands; anything else as it is."""
    if not isinstance(rows, list) or not at or not isinstance(at[0], int) or not 0 <= at[0] < len(rows):
        return rows
    return [*([None] * at[0]), rows[at[0]]]


def _table(data: Mapping[str, Any], word: str) -> Mapping[str, Any]:
    value = data.get(word)
    return value if isinstance(value, dict) else {}


def _rows(data: Mapping[str, Any], word: str) -> Iterator[tuple[Path, dict[str, Any]]]:
    value = data.get(word)
    if isinstance(value, dict):
        yield (word,), value
    elif isinstance(value, list):
        yield from (((word, at), table) for at, table in enumerate(value) if isinstance(table, dict))


def _of(model: type[BaseModel], table: object, path: Path) -> Leaves:
    if not isinstance(table, dict):
        return
    roles = _roles(model)
    for key, value in table.items():
        if model is BoardTable and key == "except":
            for at, inner in enumerate(value if isinstance(value, list) else []):
                yield from _of(ExceptTable, inner, (*path, key, at))
        elif key in roles:
            yield from _spread((*path, key), value, roles[key])


def _spread(path: Path, value: object, role: Role) -> Leaves:
    """Every text and number in a value, however deep."""
    if isinstance(value, (str, int, float)) and not isinstance(value, bool):
        yield path, value, role
    elif isinstance(value, list):
        for at, part in enumerate(value):
            yield from _spread((*path, at), part, role)
    elif isinstance(value, dict):
        for name, part in value.items():
            yield from _spread((*path, name), part, role)


@lru_cache(maxsize=256)
def _roles(model: type[BaseModel]) -> Mapping[str, Role]:
    """What the texts under a key are, for keys where they are more than words."""
    published = model.model_json_schema()
    found: dict[str, Role] = {}
    for name, schema in published.get("properties", {}).items():
        role = _role(schema, published.get("$defs", {}))
        if role is not None:
            found[name] = role
    return found


def _role(schema: object, definitions: Mapping[str, Any], depth: int = 0) -> Role | None:
    if isinstance(schema, list):
        return next(filter(None, (_role(part, definitions, depth) for part in schema)), None)
    if not isinstance(schema, dict) or depth > 8:
        return None
    if schema.get("arithmetic") is True:
        return "length"
    if schema.get("refers") in ("board", "timber"):
        found: Role = schema["refers"]
        return found
    reference = str(schema.get("$ref", "")).rpartition("/")[2]
    inner = [part for key, part in schema.items() if key not in ("default", "description")]
    return _role([definitions.get(reference), *inner], definitions, depth + 1)


def rename(sheet: TomlText, path: Path, new: str, models: Models) -> str:
    """The text with the thing named at `path` called `new`, wherever it is referred to.

    Raises:
        EditRefused: there is no name at `path`, or the new one is no name for such a thing.
    """
    if len(path) == 2 and path[0] in ("measures", "timber"):
        return _rename_key(sheet, path, new, models)
    old = sheet.get(path)
    if not isinstance(old, str) or path not in sheet.spans.values or not _is_name(path):
        raise EditRefused("there is no name here", "name the place of a name")
    patches = [(sheet.spans.values[path], style.quoted(new, sheet.spans.written(path)))]
    patches += [_patch(sheet, place, new) for place in named_by(sheet.data, str(path[0]), old, models)]
    renamed = renamed_boards(sheet.data, path, new) if path[0] in ("board", "frame") else {}
    within = {**renamed, **_renamed_rows(sheet.data, path, new)} if renamed else {}
    for place, text, role in models.texts(sheet.data):
        if role == "board" and text in renamed and place != path:
            patches.append(_patch(sheet, place, renamed[text]))
        elif role in ("length", "free") and within and names_boards(text):
            changed = with_places(text, lambda word, board: style.place_text(word, within.get(board, board)))
            if changed != text:
                patches.append(_patch(sheet, place, changed))
    return sheet.many(patches)


def _renamed_rows(data: Mapping[str, Any], path: Path, new: str) -> dict[str, str]:
    """What a row is called within rows, with `{i}` for the number: old name to new."""
    table = _at(data, path[:-1])
    if path[0] != "board" or len(path) > 3 or table.get("count") is None:
        return {}
    old = str(_at(data, path))
    return {_templated(old): _templated(new)}


def _is_name(path: Path) -> bool:
    """Whether a name stands there: a table's own, or one of a frame's list of them."""
    return path[-1] == "name" or path[-2:-1] == ("names",)


def renamed_boards(data: Mapping[str, Any], path: Path, new: str) -> dict[str, str]:
    """The boards and frames that a change of the name at `path` renames: old name to new.

    A row's name renames every board of the row, a frame's name its numbered boards too. Also for the file
    of what has been made, whose tables are called after boards.
    """
    if not _is_name(path):
        return {}
    table = data[str(path[0])][path[1]]
    old = str(_at(data, path))
    if path[0] == "frame" and path[2] == "name":
        count = 0 if "names" in table else len(table.get("points", ()))
        return {old: new, **{f"{old} {side}": f"{new} {side}" for side in range(1, count + 1)}}
    row = table.get("count") if path[0] == "board" else None
    if row is None:
        return {old: new}
    if len(path) > 3:  # the name of one exception in a row
        own_number = str(_at(data, path[:-1]).get("i", ""))
        return {old.replace(NUMBER, own_number): new.replace(NUMBER, own_number)}
    own = {other.get("i") for other in table.get("except", ()) if "name" in other}
    numbers = [number for number in range(1, int(row) + 1) if number not in own]
    return {_numbered(old, number): _numbered(new, number) for number in numbers}


def renamed_in_records(data: Mapping[str, Any], path: Path, new: str) -> dict[str, str]:
    """What a change of the name at `path` calls anew in the file of what has been made: old name to new.

    Boards by their names; fixings by theirs behind `FIXING`, those without a name of their own with their board's.
    """
    if path[0] == "fixing":
        table = _at(data, path[:-1])
        return {f"{FIXING}{_fixing_of(table)}": f"{FIXING}{new}"}
    boards = renamed_boards(data, path, new)
    fixings = {
        f"{FIXING}{_fixing_of(table)}": f"{FIXING}{_fixing_of({'board': boards[table['board']]})}"
        for _, table in _rows(data, "fixing")
        if not table.get("name") and table.get("board") in boards
    }
    return {**boards, **fixings}


def _fixing_of(table: Mapping[str, Any]) -> str:
    return str(table.get("name") or fixing_of(str(table.get("board", ""))))


def _templated(name: str) -> str:
    return name if NUMBER in name else f"{name} {NUMBER}"


def _numbered(name: str, number: int) -> str:
    return _templated(name).replace(NUMBER, str(number))


def _at(data: Any, path: Path) -> Any:
    for step in path:
        data = data[step]
    return data


def _rename_key(sheet: TomlText, path: Path, new: str, models: Models) -> str:
    """Rename a measure or a timber, whose name is a key."""
    root, old = path
    spans = sheet.spans.keys.get(path)
    if not spans:
        raise EditRefused(f"there is no {root} called {shown(old)}", "name one that is in the file")
    if root == "measures" and (new in RESERVED or not new.isidentifier() or not new.isascii()):
        raise EditRefused(
            f"{shown(new)} cannot be the name of a measure", "use letters, digits and _, and no unit or function"
        )
    if new in sheet.data[str(root)]:
        raise EditRefused(f"there is a {root} called {shown(new)} already", "choose another name")
    patches: list[tuple[Span, str]] = [(span, style.key(new)) for span in spans]
    for place, text, role in models.texts(sheet.data):
        if root == "timber" and role == "timber" and text == old:
            patches.append(_patch(sheet, place, new))
        elif root == "measures" and role in ("length", "free"):
            changed = renamed_in(text, str(old), new)
            if changed != text:
                patches.append(_patch(sheet, place, changed))
    return sheet.many(patches)


def renamed_in(text: str, old: str, new: str) -> str:
    """Arithmetic with one name in place of another; other text as it is."""
    try:
        words = tokens(text)
    except ArithmeticMistake:
        return text
    pieces, at = [], 0
    for word, following in pairwise(words):
        if word.kind == "name" and word.text == old and following.text != "(":
            pieces += [text[at : word.start], new]
            at = word.start + len(old)
    return "".join([*pieces, text[at:]])


def with_places(text: str, written: Callable[[str, str], str]) -> str:
    """Arithmetic with the places of boards that it names written anew; other text as it is.

    Args:
        text: of arithmetic.
        written: what stands for a place, by its word and its board; as it stands it is left to the byte.

    Raises:
        EditRefused: there is no way to write one.
    """
    try:
        words = tokens(text)
    except ArithmeticMistake:
        return text
    pieces, at = [], 0
    for place, _, board, closing in zip(words, words[1:], words[2:], words[3:], strict=False):
        if board.kind != "board":
            continue
        name = board.text[1:-1]
        new = written(place.text, name)
        if not new:
            remedy = "leave one kind of quotation marks out of the name"
            raise EditRefused("a board with such a name cannot stand in arithmetic", remedy)
        if new == style.place_text(place.text, name):
            continue
        mark = board.text[0]
        start, end = place.start, closing.start + 1
        if new.startswith(f"{place.text}(") and mark not in new[len(place.text) + 2 : -2]:  # another name, in its marks
            start, end, new = board.start, board.start + len(board.text), f"{mark}{new[len(place.text) + 2 : -2]}{mark}"
        pieces += [text[at:start], new]
        at = end
    return "".join([*pieces, text[at:]])


def _patch(sheet: TomlText, place: Path, text: str) -> tuple[Span, str]:
    span = sheet.spans.values[place]
    return span, style.quoted(text, sheet.text[span.start : span.end])


def placed_by(data: Mapping[str, Any], boards: Collection[str], models: Models) -> Iterable[tuple[Path, str]]:
    """The texts that name places of boards, and where they stand; in rows the name may have `{i}`."""
    for place, text, role in models.texts(data):
        if role in ("length", "free") and names_boards(text):
            try:
                named = {word.text[1:-1] for word in tokens(text) if word.kind == "board"}
            except ArithmeticMistake:
                continue
            if any(board in boards for board in named):
                yield place, text


def named_by(data: Mapping[str, Any], word: str, name: str, models: Models) -> Iterator[Path]:
    """Where a table `[[word]]` of that name is named by tables of studies, as their models say (`OtherName`)."""
    for owned_word, owned in models.tables.items():
        model: type[BaseModel] = owned.model
        others = [key for key, words in _others(model).items() if word in words]
        for path, table in _rows(data, owned_word) if others else ():
            yield from ((*path, key) for key in others if table.get(key) == name)


@lru_cache(maxsize=256)
def _others(model: type[BaseModel]) -> Mapping[str, tuple[str, ...]]:
    """The keys that name another table, with the words of those that they may name."""
    published = model.model_json_schema().get("properties", {})
    return {key: tuple(schema["of"]) for key, schema in published.items() if schema.get("refers") == OTHER}


def users(data: Mapping[str, Any], board: str, models: Models) -> Iterable[Path]:
    """Where a board is referred to: "who uses this"."""
    return [place for place, text, role in models.texts(data) if role == "board" and text == board]
