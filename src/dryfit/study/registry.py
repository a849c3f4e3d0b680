"""The register of studies: one owner a name."""

from typing import Any

from ..findings import owns, question
from ..job.schema import CORE
from ..scanning import Register
from .base import Study

STUDIES: Register[Study[Any, Any]] = Register("studies", lambda study: study.order)


def register(study: type[Study[Any, Any]]) -> type[Study[Any, Any]]:
    """Class decorator: make one of the study and file it under its name.

    Raises:
        ValueError: the name, the class of the result or a table has an owner already, or it is no name for a program.
    """
    if not study.name.isidentifier():
        raise ValueError(f"{study.name!r} is no name for a study: write it of letters, digits and _")
    if owner := next((other.name for other in STUDIES.values() if other.result is study.result), None):
        raise ValueError(f"{study.name!r} gives {study.result.__name__}, which is the result of {owner!r}")
    taken = {*CORE, *(table.word for other in STUDIES.values() for table in other.owns)}
    for table in study.owns:
        if table.word in taken:
            raise ValueError(f"{study.name!r} cannot own {table.heading}, which has an owner")
    one = STUDIES.file(study.name, study())
    question(study.name, study.asks, one.concerns)
    owns(study.name, *study.codes)
    return study
