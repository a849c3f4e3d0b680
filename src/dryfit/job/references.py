"""What refers to boards by name: joints, units, fixings, the finish, tables of studies.

A name that no board has is no mistake here but is kept as `Dangling`, for the set-out to report.
"""

import math
from collections.abc import Iterable, Mapping
from typing import Any

from pydantic import BaseModel

from ..places import Pair, Path
from .kinds import MEETINGS, KindOptions
from .mistakes import Mistakes
from .model import BoardSpec, Dangling, Fixing, FrameSpec, JointRules, JointSpec, Load, Unit
from .names import MEMBER, fixing_of, shown
from .options import references
from .schema import NOT_NAMES, FixingTable, JointTable, UnitTable
from .sizes import Sizes
from .staging import place_of


class BoardNames:
    """The boards there are, frames by their boards, and the references that lead nowhere."""

    def __init__(self, boards: frozenset[str], frames: Mapping[str, tuple[str, ...]], mistakes: Mistakes) -> None:
        self.boards = boards
        self.frames = frames
        self.mistakes = mistakes
        self.dangling: list[Dangling] = []

    @classmethod
    def of(cls, boards: Iterable[BoardSpec], frames: Iterable[FrameSpec], mistakes: Mistakes) -> "BoardNames":
        """Gather them."""
        return cls(frozenset(board.name for board in boards), {frame.name: frame.boards for frame in frames}, mistakes)

    def board(self, name: str, path: Path) -> None:
        """Note a reference to one board."""
        if name not in self.boards and name not in NOT_NAMES:
            self.missing(name, path)

    def missing(self, name: str, path: Path) -> None:
        """Note that a name leads nowhere."""
        close = self.mistakes.guess(name, sorted(self.boards))
        self.dangling.append(Dangling(path=path, name=name, nearest=close))

    def resolved(self, names: Iterable[str], path: Path, *, every: str = "") -> tuple[str, ...]:
        """A list of boards with frames taken apart; `every` is a word that stands for all and is kept."""
        found: dict[str, None] = {}
        for at, name in enumerate(names):
            if name in self.boards or name == every:
                found[name] = None
            elif name in self.frames:
                found.update(dict.fromkeys(self.frames[name]))
            else:
                self.missing(name, (*path, at))
        return tuple(found)

    def refer(self, model: type[BaseModel], table: Mapping[str, Any], path: Path) -> None:
        """Note the boards that a table of options or of a study names."""
        for key in references(model):
            value = table.get(key)
            for at, name in enumerate(value if isinstance(value, list) else [value]):
                if isinstance(name, str) and name:
                    self.board(name, (*path, key, at) if isinstance(value, list) else (*path, key))


def read_joint_specs(
    tables: Iterable[tuple[JointTable, Path]],
    names: BoardNames,
    kinds: KindOptions,
    rules: JointRules,
    measures: Mapping[str, float],
) -> tuple[JointSpec, ...]:
    """The `[[joint]]` tables; two for one pair are a mistake."""
    mistakes = names.mistakes
    found: list[JointSpec] = []
    first: dict[frozenset[str], Path] = {}
    for table, path in tables:
        options = dict(table.model_extra or {})
        if table.kind:
            if kinds.known(table.kind, (*path, "kind"), mistakes):
                kinds.options(table.kind, options, path, measures, mistakes)
                _refer(table.kind, options, path, kinds, names)
        else:
            kinds.options_of_default(options, path, _defaults(rules, kinds), measures, mistakes)
        pair = _pair(table, path, names, first)
        if pair is not None:
            found.append(JointSpec(between=pair, kind=table.kind, front=table.front, options=options, path=path))
    return tuple(found)


def _defaults(rules: JointRules, kinds: KindOptions) -> list[str]:
    """The kinds that a joint may get; one of ends in line that is only named so far must be asked for by its name."""
    by_meeting = ((meeting, getattr(rules, meeting)) for meeting in MEETINGS)
    return [kind for meeting, kind in by_meeting if meeting != "in_line" or kind in kinds.made]


def _refer(kind: str, options: Mapping[str, Any], path: Path, kinds: KindOptions, names: BoardNames) -> None:
    model = kinds.made.get(kind)
    if model is not None:
        names.refer(model, options, path)


def _pair(table: JointTable, path: Path, names: BoardNames, first: dict[frozenset[str], Path]) -> Pair | None:
    if table.between is None:
        return None
    mistakes = names.mistakes
    one, other = table.between
    if one == other:
        mistakes.add((*path, "between"), "a board cannot be joined to itself", "name two boards")
        return None
    pair = frozenset(table.between)
    if pair in first:
        line = mistakes.spans.line_of((*first[pair], "between"))
        says = f"the joint of {shown(one)} and {shown(other)} is already given in line {line}"
        mistakes.add((*path, "between"), says, "merge the two tables")
        return None
    first[pair] = path
    for at, name in enumerate(table.between):
        names.board(name, (*path, "between", at))
    if table.front and table.front not in pair:
        says = f"the front board {shown(table.front)} is not one of the two"
        mistakes.add((*path, "front"), says, f"write {shown(one)} or {shown(other)}")
    return one, other


def read_loads(tables: object, names: BoardNames, *, noted: bool) -> tuple[Load, ...]:
    """The `[[load]]` tables: what of them can be understood, and no mistake, since no study owns them yet.

    Args:
        tables: as the file has them, a list or one.
        names: where a board that is not there is noted.
        noted: whether that is done already, by a study that owns the table.
    """
    found = []
    for at, table in enumerate(tables if isinstance(tables, list) else [tables]):
        if not isinstance(table, dict):
            continue
        path: Path = ("load", at) if isinstance(tables, list) else ("load",)
        board, kind, mass = (table.get(key) for key in ("board", "kind", "kg_per_m"))
        named = board if isinstance(board, str) else ""
        if named and not noted and named not in names.frames:
            names.board(named, (*path, "board"))
        found.append(
            Load(
                board=named,
                kind=kind if isinstance(kind, str) else "",
                kg_per_m=_positive(mass),
                path=path,
            )
        )
    return tuple(found)


def _positive(value: object) -> float | None:
    """A number above 0; None for anything else."""
    if isinstance(value, (int, float)) and not isinstance(value, bool) and 0.0 < value < math.inf:
        return float(value)
    return None


def read_units(tables: Iterable[tuple[UnitTable, Path]], names: BoardNames) -> tuple[Unit, ...]:
    """The `[[unit]]` tables, frames taken apart."""
    found: dict[str, Unit] = {}
    for table, path in tables:
        if table.name is None or table.boards is None:
            continue
        if table.name in found:
            line = names.mistakes.spans.line_of((*found[table.name].path, "name"))
            says = f"a unit called {shown(table.name)} is already given in line {line}"
            names.mistakes.add((*path, "name"), says, "give one of the two another name")
            continue
        boards = names.resolved(table.boards, (*path, "boards"))
        found[table.name] = Unit(
            name=table.name, boards=boards, place=place_of(table), mass_kg=table.mass_kg, path=path
        )
    return tuple(found.values())


def read_fixings(
    tables: Iterable[tuple[FixingTable, Path]],
    names: BoardNames,
    kinds: KindOptions,
    rules: JointRules,
    measures: Mapping[str, float],
) -> tuple[Fixing, ...]:
    """The `[[fixing]]` tables; without a name each is the fixing of its board."""
    found: dict[str, Fixing] = {}
    for table, path in tables:
        options = dict(table.model_extra or {})
        if table.kind is not None and kinds.known(table.kind, (*path, "kind"), names.mistakes):
            overlaid = {**rules.kinds.get(table.kind, {}), **options}
            kinds.options(table.kind, overlaid, path, measures, names.mistakes)
            _refer(table.kind, options, path, kinds, names)
        at = Sizes(table, path, measures, names.mistakes).of("at") or []
        if table.board is None or table.kind is None or None in at:
            continue
        names.board(table.board, (*path, "board"))
        name = table.name or fixing_of(table.board or "")
        if _taken(name, table, path, found, names.mistakes):
            continue
        found[name] = Fixing(name=name, board=table.board, kind=table.kind, at=tuple(at), options=options, path=path)
    for name, fixing in found.items():
        part = MEMBER.fullmatch(name)
        if part and part[1] in found:
            says = f"{shown(name)} is also the name of {shown(part[1])} in a member of a divided board"
            names.mistakes.add((*fixing.path, "name"), says, "give one of the two another name")
    return tuple(found.values())


def _taken(name: str, table: FixingTable, path: Path, found: Mapping[str, Fixing], mistakes: Mistakes) -> bool:
    if name not in found:
        return False
    line = mistakes.spans.line_of(found[name].path)
    if table.name:
        says, remedy = f"a fixing called {shown(name)} is already given in line {line}", "give one of them another name"
        mistakes.add((*path, "name"), says, remedy)
    else:
        says = f"the board {shown(table.board or '')} has a fixing in line {line} already"
        mistakes.add(path, says, "give this one a name = ...", read="")
    return True
