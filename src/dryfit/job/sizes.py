"""The one reader of lengths: those of any table, worked out in mm and held to the bounds that stand beside their keys.

Nobody else evaluates what a maker wrote for a size, or compares it with a bound: so a bound stands once, in the
annotation of its key, and every key is refused in the same words.
"""

from collections.abc import Collection, Mapping
from typing import Any

from pydantic import BaseModel

from ..places import Path
from .arithmetic import Expression
from .mistakes import Mistakes
from .options import Bounds, Each, Within, quantities

_ANY = 20.0  # mm, in place of a name that has its value later: only whether the others are known is looked at


class Sizes:
    """The lengths of one table.

    Args:
        table: as validated.
        path: of the table.
        scope: what its arithmetic may use, in mm.
        mistakes: where a length that cannot be worked out or is out of bounds is noted.
        later: names that have their values only later; a length that uses one is looked at as far as can be.
    """

    def __init__(
        self,
        table: BaseModel,
        path: Path,
        scope: Mapping[str, float],
        mistakes: Mistakes,
        later: Collection[str] = (),
    ) -> None:
        self._table = table
        self._path = path
        self._scope = scope
        self._mistakes = mistakes
        self._later = later

    def of(self, key: str) -> Any:
        """A key's length in mm, or its lists of them as they stand; None in the place of what is left out or wrong."""
        model = type(self._table)
        written = model.model_fields[key].alias or key
        return self._worked(getattr(self._table, key), (*self._path, written), quantities(model)[key], written)

    def _worked(self, value: object, path: Path, bounds: Bounds, key: str) -> Any:
        if isinstance(value, (list, tuple)):
            innermost = not any(isinstance(part, (list, tuple)) for part in value)
            own = bounds.of if isinstance(bounds, Each) and innermost else (bounds,) * len(value)
            return [self._worked(part, (*path, at), own[at], key) for at, part in enumerate(value)]
        if not isinstance(value, Expression):
            return value
        if any(name in self._later for name in value.names):
            if any(name not in self._scope and name not in self._later for name in value.names):
                self._mistakes.length(value, path, {**self._scope, **dict.fromkeys(self._later, _ANY)})
            return None
        length = self._mistakes.length(value, path, self._scope)
        return self._mistakes.within(bounds, length, path, key) if isinstance(bounds, Within) else length
