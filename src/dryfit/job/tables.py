"""Tables of a job file that something outside this room owns, such as a study: one of a word, or many.

    VAN = One("van", VanTable)        # [van]
    LOAD = Many("load", LoadTable)    # [[load]]

The model says what a table takes, as the options of a joint do: a `Quantity` may be arithmetic over the measures, a
`BoardName` is renamed with its board. What stands in the job is read, its lengths worked out in mm.
"""

from dataclasses import dataclass
from typing import Any, Generic, TypeAlias, TypeVar

from pydantic import BaseModel

from ..places import Path

ModelT = TypeVar("ModelT", bound=BaseModel)


@dataclass(frozen=True, slots=True)
class One(Generic[ModelT]):
    """A table of which a job has one, or none: `[word]`."""

    word: str
    model: type[ModelT]

    @property
    def heading(self) -> str:
        """As it is written in the file."""
        return f"[{self.word}]"

    def at(self, *keys: str) -> Path:
        """The place of the table, or of a value in it."""
        return (self.word, *keys)


@dataclass(frozen=True, slots=True)
class Many(Generic[ModelT]):
    """A table of which a job may have any number: `[[word]]`."""

    word: str
    model: type[ModelT]

    @property
    def heading(self) -> str:
        """As it is written in the file."""
        return f"[[{self.word}]]"

    def at(self, number: int, *keys: str) -> Path:
        """The place of the table of that number, counted from 0, or of a value in it."""
        return (self.word, number, *keys)


Owned: TypeAlias = One[Any] | Many[Any]
