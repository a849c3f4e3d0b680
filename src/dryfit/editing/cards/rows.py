"""Rows of a card, read off the JSON Schema of the table that their keys stand in.

What is written, what holds, its unit, default and sentence: a joint kind's options and a study's table have
their rows without a word here.
"""

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import Any, Literal, TypeAlias

from pydantic import BaseModel

from ...job.arithmetic import ArithmeticMistake, Expression, parse
from ...job.edits import TomlText
from ...lengths import figure, length_text, to_mm
from ...places import Path, Plain
from ..answers import Choice, Row
from ..drawn import Drawn
from ..figures import as_typed

Input: TypeAlias = Literal["length", "text", "number", "yes or no", "choice", "board", "timber", "list", "name"]
Properties: TypeAlias = Mapping[str, Mapping[str, Any]]


@dataclass(frozen=True, slots=True, kw_only=True)
class Table:
    """A table of the file as a card sees it.

    Attributes:
        path: of the table, whether or not it is there.
        scope: names that arithmetic in it may use.
        holds: what holds for a key where the file does not say it there: mm for a length, and where from.
        choices: for keys whose values are chosen by more than the schema says.
    """

    drawn: Drawn
    sheet: TomlText
    path: Path
    scope: Mapping[str, float]
    holds: Mapping[str, tuple[Any, str]]
    choices: Mapping[str, tuple[Choice, ...]]

    def rows(self, model: type[BaseModel], leave_out: frozenset[str] = frozenset()) -> Iterator[Row]:
        """A row for every key of the model."""
        published = model.model_json_schema()
        required = published.get("required", ())
        for key, schema in published.get("properties", {}).items():
            if key not in leave_out:
                yield self.row(key, schema, published.get("$defs", {}), needed=key in required)

    def row(self, key: str, schema: Mapping[str, Any], defs: Properties, *, needed: bool) -> Row:
        """One key's row."""
        path = (*self.path, key)
        there = path in self.sheet.spans.values
        how, words = _input(key, schema, defs)
        value, source = self._value(key, path, schema, how, there=there)
        source = "" if needed and source == "default" else source
        choices = self.choices.get(key) or self._named(how, schema, defs) or chosen_of(words)
        return Row(
            key=(key,),
            label=key.replace("_", " "),
            written=self.sheet.spans.written(path) if there else "",
            value=_plain(value),
            shown=self._shown(value, how),
            unit="mm" if how == "length" else "",
            default="" if needed else _default(schema),
            sentence=str(schema.get("description", "")),
            input="choice" if choices and how != "list" else how,
            choices=choices,
            path=path if there else None,
            from_=source,
            needed=needed,
            names=tuple(map(str, value)) if how == "list" and choices and isinstance(value, list) else (),
        )

    def _named(self, how: Input, schema: Mapping[str, Any], defs: Properties) -> tuple[Choice, ...]:
        """The boards, or the timbers, that a value names one of, or some of."""
        refers = how if how != "list" else refers_to(schema, defs)
        if refers == "board":
            frames = [frame.name for frame in self.drawn.job.frames] if how == "list" else []
            return chosen_of([*(board.name for board in self.drawn.job.boards), *frames])
        return chosen_of(self.drawn.job.timbers) if refers == "timber" and how != "list" else ()

    def _value(self, key: str, path: Path, schema: Mapping[str, Any], how: Input, *, there: bool) -> tuple[Any, str]:
        if there:
            return self._worked(self.sheet.get(path), how), ""
        if key in self.holds:
            return self.holds[key]
        return schema.get("default"), "default"

    def _worked(self, value: Any, how: Input) -> Any:
        if how != "length":
            return value
        try:
            if isinstance(value, str):
                return round(parse(value).evaluate(self.scope, self.drawn.job.units), 6)
            return to_mm(float(value), self.drawn.job.units)
        except (ArithmeticMistake, TypeError, ValueError):
            return None

    def _shown(self, value: Any, how: Input) -> str:
        if value is None or value == "":
            return ""
        if how == "length" and isinstance(value, (int, float)):
            return length_text(value, self.drawn.job.units, step=0.05)
        if isinstance(value, bool):
            return "yes" if value else "no"
        return figure(value, 0.001) if isinstance(value, float) else _listed(value)


def chosen_of(words: Iterable[str]) -> tuple[Choice, ...]:
    """Words of which one is as good as another."""
    return tuple(Choice(value=word, possible=True, why="") for word in words)


def refers_to(schema: Mapping[str, Any], defs: Properties) -> str:
    """What the texts of a list name: "board", "timber"; "" where they are lengths or plain words."""
    items = (kind.get("items", {}) for kind in _branches(schema, defs) if kind.get("type") == "array")
    return next((str(item["refers"]) for item in items if isinstance(item, dict) and "refers" in item), "")


def typed_as(model: type[BaseModel], key: str, entry: str | bool | list[str]) -> Plain:
    """What was typed for a key of a model, as the file holds it."""
    if isinstance(entry, bool):
        return entry
    published = model.model_json_schema()
    schema, defs = published.get("properties", {}).get(key, {}), published.get("$defs", {})
    how, _ = _input(key, schema, defs)
    if how == "list":
        parts = [part.strip() for part in entry.split(",")] if isinstance(entry, str) else entry
        worded = refers_to(schema, defs) != ""
        return [part if worded else as_typed(part) for part in parts if part]
    text = entry if isinstance(entry, str) else ", ".join(entry)
    numbers = any(kind.get("type") in ("integer", "number") for kind in _branches(schema, defs))
    return as_typed(text) if how == "length" or numbers else text.strip()


def _plain(value: Any) -> float | str | bool | None:
    if isinstance(value, (str, bool)):
        return value
    return float(value) if isinstance(value, (int, float)) else None


def _listed(value: Any) -> str:
    if isinstance(value, list):
        return ", ".join(_listed(part) for part in value)
    if isinstance(value, dict):
        return ", ".join(f"{key} {_listed(part)}" for key, part in value.items())
    return str(value)


def _default(schema: Mapping[str, Any]) -> str:
    value = schema.get("default")
    if isinstance(value, Expression):
        return value.text
    if value is None or value == "" or value == []:
        return ""
    return ("yes" if value else "no") if isinstance(value, bool) else _listed(value)


def _input(key: str, schema: Mapping[str, Any], defs: Properties) -> tuple[Input, tuple[str, ...]]:
    """How a key's value is typed, and the words it may be."""
    kinds = list(_branches(schema, defs))
    if key == "name":
        return "name", ()
    if schema.get("arithmetic") or any(kind.get("arithmetic") for kind in kinds):
        return "length", ()
    for kind in kinds:
        if "enum" in kind:
            return "choice", tuple(str(word) for word in kind["enum"])
        if kind.get("refers") in ("board", "timber"):
            return kind["refers"], ()
    types = {str(kind.get("type")) for kind in kinds}
    if "boolean" in types:
        return "yes or no", ()
    if types & {"array", "object"}:
        return "list", ()
    return ("text", ()) if "string" in types or not types & {"integer", "number"} else ("number", ())


def _branches(schema: Mapping[str, Any], defs: Properties) -> Iterator[Mapping[str, Any]]:
    if schema.get("arithmetic"):
        yield schema
    elif "$ref" in schema:
        yield from _branches(defs[schema["$ref"].rpartition("/")[2]], defs)
    elif "anyOf" in schema:
        for branch in schema["anyOf"]:
            yield from _branches(branch, defs)
    elif schema.get("type") != "null":
        yield schema
