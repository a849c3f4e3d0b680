"""The register of studies: one owner a name."""

from typing import Any

from ..findings import question
from ..scanning import Register
from .base import Study

STUDIES: Register[Study[Any, Any]] = Register("studies", lambda study: study.order)


def register(study: type[Study[Any, Any]]) -> type[Study[Any, Any]]:
    """Class decorator: make one of the study and file it under its name.

    Raises:
        ValueError: the name has an owner already.
    """
    one = STUDIES.file(study.name, study())
    question(study.name, study.asks, one.concerns)
    return study
