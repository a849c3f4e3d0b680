"""Any frozen result as plain data for JSON: what a study found, whatever its class."""

import dataclasses
import math
from collections.abc import Mapping
from enum import Enum
from typing import Any

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
    return round(value, 3 if abs(value) >= 1 else 6) + 0.0


def _mapping(value: Mapping[Any, Any], voice: Voice) -> Any:
    if all(isinstance(key, str) for key in value):
        return {str(key): plain(item, voice) for key, item in value.items()}
    return [{"key": plain(key, voice), "value": plain(item, voice)} for key, item in value.items()]
