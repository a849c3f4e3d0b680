"""Any frozen result as plain data for JSON: what a study found, whatever its class; and the schema of that."""

import dataclasses
import math
from collections.abc import Mapping
from enum import Enum
from typing import Any

from pydantic import TypeAdapter
from pydantic.json_schema import GenerateJsonSchema
from pydantic_core.core_schema import DataclassSchema

from ..geometry.frames import length
from ..lengths import written
from ..sentences import Sentence, Voice

IN_MM = Voice()


def plain(value: Any, voice: Voice = IN_MM) -> Any:
    """Any frozen result as plain data: dataclasses by their fields, pairs and arrays as lists, sentences in words.

    A mapping whose keys are no texts becomes a list of {key, value}. Numbers keep 0.001, below 1 six
    decimals, because a study's figure may be a share or a chance; what is no finite number becomes null.
    """
    if value is None or isinstance(value, (str, bool)):
        return value.value if isinstance(value, Enum) else value
    if isinstance(value, Enum):
        return plain(value.value, voice)
    if isinstance(value, int):
        return value
    if isinstance(value, float):
        return _number(value)
    if isinstance(value, Sentence):
        return value.said(voice)
    if dataclasses.is_dataclass(value):
        return {field.name: plain(getattr(value, field.name), voice) for field in dataclasses.fields(value)}
    if isinstance(value, Mapping):
        return _mapping(value, voice)
    if hasattr(value, "tolist"):
        return plain(value.tolist(), voice)
    if isinstance(value, (set, frozenset)):
        return sorted((plain(item, voice) for item in value), key=repr)
    if isinstance(value, (list, tuple)):
        return [plain(item, voice) for item in value]
    return str(value)


def _number(value: float) -> float | None:
    if not math.isfinite(value):
        return None
    return written(value) if abs(value) >= 1 else length(value)


def _mapping(value: Mapping[Any, Any], voice: Voice) -> Any:
    if all(isinstance(key, str) for key in value):
        return {str(key): plain(item, voice) for key, item in value.items()}
    return [{"key": plain(key, voice), "value": plain(item, voice)} for key, item in value.items()]


# --- its schema ----------------------------------------------------------------------------------


def shapes(results: Mapping[str, type[Any]], ref: str = "#/$defs/{}") -> tuple[dict[str, Any], dict[str, Any]]:
    """The JSON Schemas of what `plain` makes of results, by the names of their studies; and the definitions they name.

    Args:
        results: their classes, of plain annotations.
        ref: how a definition is referred to, with braces for its name, such as "order.Step".
    """
    found, definitions = {}, {}
    for name, kind in results.items():
        template = ref.format(f"{name}.{{model}}")
        own = TypeAdapter(kind).json_schema(ref_template=template, mode="serialization", schema_generator=_InWords)
        inner = own.pop("$defs", {})
        every = {kind.__name__: own, **inner}
        every.pop(Sentence.__name__, None)
        told = template.format(model=Sentence.__name__)
        definitions.update({f"{name}.{word}": _whole(schema, told) for word, schema in every.items()})
        found[name] = {"$ref": template.format(model=kind.__name__)}
    return found, definitions


class _InWords(GenerateJsonSchema):
    """Does not look into sentences, which are told."""

    def dataclass_schema(self, schema: DataclassSchema) -> dict[str, Any]:
        return {} if schema["cls"] is Sentence else super().dataclass_schema(schema)


def _whole(schema: Any, told: str) -> Any:
    """A schema in which everything is required, nothing else is allowed, and sentences (at `told`) are texts."""
    if isinstance(schema, list):
        return [_whole(part, told) for part in schema]
    if not isinstance(schema, dict):
        return schema
    if schema.get("$ref") == told:
        return {"type": "string"}
    dropped = ("title", "default", "properties", "required")
    made = {key: _whole(part, told) for key, part in schema.items() if key not in dropped}
    if "properties" in schema:
        own = {name: _whole(part, told) for name, part in schema["properties"].items()}
        made |= {"properties": own, "required": list(own), "additionalProperties": False}
    ways = made.get("anyOf", [])
    alike = [way for number, way in enumerate(ways) if way not in ways[:number]]  # a sentence or a text: a text
    if alike:
        made = {**made, "anyOf": alike} if len(alike) > 1 else alike[0]
    return made
