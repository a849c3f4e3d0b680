"""The joint kinds of a job file: which there are, the `[joints]` table, and the options of a kind."""

from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import BaseModel

from ..places import Path
from .arithmetic import MEETING_NAMES, Expression
from .mistakes import Mistakes
from .model import JointRules
from .names import shown
from .options import bound, quantities
from .schema import JointsTable

MEETINGS = ("crossing", "end_on_face", "corner", "in_line")


class Kinds:
    """Kinds that are made, with the model of their options, and kinds that are only named so far."""

    def __init__(self, made: Mapping[str, type[BaseModel]], named: Iterable[str] = ()) -> None:
        self.made = made
        self.names = (*made, *(name for name in named if name not in made))

    def known(self, kind: str, path: Path, mistakes: Mistakes) -> bool:
        """Whether there is such a kind; noted if not."""
        if kind in self.names:
            return True
        mistakes.unknown(path, f"there is no joint called {shown(kind)}", kind, sorted(self.names))
        return False

    def rules(self, table: Mapping[str, Any], measures: Mapping[str, float], mistakes: Mistakes) -> JointRules:
        """The `[joints]` table."""
        own = {key: value for key, value in table.items() if key in JointsTable.model_fields}
        read = mistakes.validated(JointsTable, own, ("joints",))
        assert isinstance(read, JointsTable), "all its keys have defaults"
        for meeting in MEETINGS:
            if meeting in table and isinstance(table[meeting], str):
                self.known(table[meeting], ("joints", meeting), mistakes)
        kinds = {}
        for kind, options in table.items():
            if kind in own:
                continue
            if self._is_kind(kind, options, mistakes):
                kinds[kind] = options
                self.options(kind, options, ("joints", kind), measures, mistakes, partial=True)
        return JointRules(
            crossing=read.crossing,
            end_on_face=read.end_on_face,
            corner=read.corner,
            in_line=read.in_line,
            in_line_named="in_line" in table,
            clearance=self._clearance(read, measures, mistakes),
            kinds=kinds,
        )

    def _is_kind(self, kind: str, options: object, mistakes: Mistakes) -> bool:
        path: Path = ("joints", kind)
        if kind not in self.names:
            word = "joint" if isinstance(options, dict) else "key or joint"
            known = [*self.names, *JointsTable.model_fields]
            mistakes.unknown(path, f"there is no {word} called {shown(kind)}", kind, known, read=kind)
            return False
        if not isinstance(options, dict):
            mistakes.add(path, f"{shown(kind)} is a table", f'write [joints."{kind}"] on a line of its own')
            return False
        return True

    def _clearance(self, read: JointsTable, measures: Mapping[str, float], mistakes: Mistakes) -> float | None:
        if read.clearance is None:
            return None
        path, within = ("joints", "clearance"), bound(JointsTable, "clearance")
        return mistakes.within(within, mistakes.length(read.clearance, path, measures), path, "clearance")

    def options(
        self,
        kind: str,
        table: Mapping[str, Any],
        path: Path,
        measures: Mapping[str, float],
        mistakes: Mistakes,
        *,
        partial: bool = False,
    ) -> None:
        """Look at the options of one kind."""
        model = self.made.get(kind)
        if model is not None:
            self.check(model, table, path, measures, mistakes, called=f"a {kind}", partial=partial)

    def options_of_default(
        self,
        table: Mapping[str, Any],
        path: Path,
        rules: Iterable[str],
        measures: Mapping[str, float],
        mistakes: Mistakes,
    ) -> None:
        """Look at options of a joint whose kind is settled later: one of the default kinds must take them."""
        models = [self.made.get(kind) for kind in dict.fromkeys(rules)]
        if not table or None in models or not models:
            return
        sound = [model for model in models if model is not None]
        fitting = [model for model in sound if all(key in model.model_fields for key in table)]
        if fitting:
            self.check(fitting[0], table, path, measures, mistakes, partial=True)
            return
        known = list(dict.fromkeys(key for model in sound for key in model.model_fields))
        for key in table:
            if key not in known:
                mistakes.unknown((*path, key), f"{shown(key)} is no key of a joint", key, known, read=key)
        if all(key in known for key in table):
            mistakes.add(path, "no single kind of joint has all these options", "add kind = ...", read="")

    def check(
        self,
        model: type[BaseModel],
        table: Mapping[str, Any],
        path: Path,
        measures: Mapping[str, float],
        mistakes: Mistakes,
        *,
        called: str = "",
        partial: bool = False,
    ) -> None:
        """Look at a table by its model: its keys, and every length as far as it can be worked out by now."""
        read = mistakes.validated(model, table, path, called=called, partial=partial)
        if read is None:
            return
        for field, within in quantities(model).items():
            key = model.model_fields[field].alias or field
            if key not in table:
                continue
            value = getattr(read, field)
            for at, length in enumerate(value if isinstance(value, (tuple, list)) else [value]):
                place: Path = (*path, key, at) if isinstance(value, (tuple, list)) else (*path, key)
                if isinstance(length, Expression):
                    _look_at(length, place, within, measures, mistakes)


def _look_at(value: Expression, path: Path, within: Any, measures: Mapping[str, float], mistakes: Mistakes) -> None:
    """Work a length out; with names of the meeting, only see whether all its names are known."""
    if any(name in MEETING_NAMES for name in value.names):
        unknown = [name for name in value.names if name not in measures and name not in MEETING_NAMES]
        if unknown:
            mistakes.length(value, path, {**measures, **dict.fromkeys(MEETING_NAMES, 20.0)})
        return
    length = mistakes.length(value, path, measures)
    if within is not None:
        mistakes.within(within, length, path, str(next(step for step in reversed(path) if isinstance(step, str))))
