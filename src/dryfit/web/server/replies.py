"""Answers as JSON: frozen data written by pydantic without being looked at twice."""

from typing import Any

from fastapi import Response
from pydantic import TypeAdapter

_ADAPTERS: dict[type[Any], TypeAdapter[Any]] = {}


def adapter(kind: type[Any]) -> TypeAdapter[Any]:
    """Writes one kind of answer as JSON, without looking at it twice."""
    if kind not in _ADAPTERS:
        _ADAPTERS[kind] = TypeAdapter(kind)
    return _ADAPTERS[kind]


def written(answer: Any, status: int = 200) -> Response:
    """An answer as a response."""
    return Response(adapter(type(answer)).dump_json(answer), status_code=status, media_type="application/json")
