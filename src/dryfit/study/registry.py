"""The register of studies: one owner a name."""

from typing import Any

from ..findings import question
from .base import Study

STUDIES: dict[str, Study[Any, Any]] = {}


def register(study: type[Study[Any, Any]]) -> type[Study[Any, Any]]:
    """Class decorator: make one of the study and file it under its name.

    Raises:
        ValueError: the name has an owner already.
    """
    if study.name in STUDIES:
        raise ValueError(f"two studies are called {study.name!r}")
    one = STUDIES[study.name] = study()
    question(study.name, study.asks, one.concerns)
    return study
