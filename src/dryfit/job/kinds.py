"""The joint kinds of a job file: which there are, the `[joints]` table, and the options of a kind."""

from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import BaseModel

from ..places import Path
from .arithmetic import MEETING_NAMES
from .mistakes import Mistakes
from .model import JointRules
from .names import shown
from .options import quantities
from .schema import JointsTable
from .sizes import Sizes

MEETINGS = ("crossing", "end_on_face", "corner", "in_line")


class KindOptions:
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
            clearance=Sizes(read, ("joints",), measures, mistakes).of("clearance"),
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
                mistakes.unknown((*path, key), f"{shown(key)} is not a key of a joint", key, known, read=key)
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
        meeting: bool = True,
    ) -> BaseModel | None:
        """Look at a table by its model: its keys, and every length as far as it can be worked out by now.

        Args:
            model: of the table.
            table: as TOML gives it.
            path: of the table.
            measures: in mm.
            mistakes: where they are noted.
            called: what a message calls it.
            partial: whether keys that must be there may stand elsewhere.
            meeting: whether there will be a meeting, whose names may stand in a length.
        """
        read = mistakes.validated(model, table, path, called=called, partial=partial)
        if read is None:
            return None
        sizes = Sizes(read, path, measures, mistakes, MEETING_NAMES if meeting else ())
        for field in quantities(model):
            if (model.model_fields[field].alias or field) in table:
                sizes.of(field)
        return read
