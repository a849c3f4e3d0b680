"""What comes too early, put in later: changes of the order on the wall that may free a screw.

They are thought of, not tried: whether a straight way is left for what comes later then, and what else stands before a
mouth then, only the whole piece can tell (`Study.untried`). What glue holds together is left together: a place in the
order makes loose boards of all that no unit holds, so none is offered where a glued joint would be left for the site.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Sequence
from typing import TypeGuard

from ...job.model import Job, Unit
from ...job.writing import exceptions_of
from ...piece.history import rank
from ...piece.model import Piece
from ...places import Cure, Edit, Path, Plain
from ...sentences import Name, Several, say
from ..order.result import Order
from .value import CarriedAs


def carried_as(piece: Piece, job: Job, order: Order) -> Iterator[CarriedAs]:
    """What goes up as one: units, loose boards, and in a piece that is glued together in the shop what glue holds."""
    units = {name: unit for unit in piece.units for name in unit.boards}
    bodies = order.wall.bodies if order.wall is not None else tuple(_apart(piece))
    glued = [joint.key for joint in piece.joints if joint.glued]
    held = [body for body in bodies if len(body) > 1 and not _holds(units.get(body[0]), body)]
    may = order.wall is not None and (piece.history.on_site or not held)
    tables = _Tables(job)
    for body in bodies:
        unit, place = units.get(body[0]), piece.history.place(body[0])
        if _holds(unit, body):
            stuck = {name for key in glued if set(key) <= set(body) for name in key}
            yield CarriedAs(
                name=unit.name,
                parts=body,
                place=place,
                path=unit.path,
                alone=may,
                unit=unit.boards if unit.path[:1] == ("unit",) else (),
                glued=tuple(name for name in body if name in stuck),
            )
        else:
            path, row = tables.of(body[0])
            alone = may and len(body) == 1 and bool(path)
            yield CarriedAs(name=body[0], parts=body, place=place, path=path, alone=alone, row=row)


def _apart(piece: Piece) -> Iterator[tuple[str, ...]]:
    """Units and loose boards, where no wall is known."""
    yield from (unit.boards for unit in piece.units)
    inside = {name for unit in piece.units for name in unit.boards}
    yield from ((board.name,) for board in piece.boards if board.name not in inside)


def _holds(unit: Unit | None, body: Sequence[str]) -> TypeGuard[Unit]:
    return unit is not None and set(body) <= set(unit.boards)


class _Tables:
    """Where the file says the place of a loose board: in its table, or its unit's; of one in a row, in an exception."""

    def __init__(self, job: Job) -> None:
        self.specs = {spec.name: spec for spec in job.boards}
        rows: dict[Path, set[int]] = defaultdict(set)
        for spec in job.boards:
            rows[spec.path].add(spec.index)
        self.rows = {path for path, numbers in rows.items() if len(numbers) > 1}
        self.exceptions = exceptions_of(job.text) if self.rows else {}
        self.single = {unit.boards[0]: unit.path for unit in job.units_glued if len(unit.boards) == 1}

    def of(self, name: str) -> tuple[Path, int]:
        """Its table, and its number in a row that has no exception for it; () where it has none of its own."""
        spec = self.specs[name]
        if name in self.single:
            return self.single[name], 0
        if spec.path[:1] != ("board",):
            return (), 0
        if spec.path not in self.rows:
            return spec.path, 0
        exception = self.exceptions.get((spec.path, spec.index))
        return (spec.path, spec.index) if exception is None else (exception, 0)


def put_later(carried: Iterable[CarriedAs], bars: Sequence[str], board: str, into: str = "") -> Iterator[Cure]:
    """Changes with which all that is in the way may come after a screw's board.

    Args:
        carried: what goes up as one.
        bars: ids of the parts that are in the way as soon as the screw can be driven.
        board: id of its own; `into` of that which it is driven into, "" for the wall.
    """
    homes = {part: one for one in carried for part in one.parts}
    own = list(dict.fromkeys(homes[name] for name in (board, into) if name in homes))
    if not own or not homes.keys() >= set(bars):
        return
    others = list(dict.fromkeys(homes[part] for part in bars))
    inside = [one for one in others if one in own]
    if inside:
        if inside == others and len(inside) == 1:
            yield from _left_out(inside[0], tuple(bars))
        return
    if all(one.alone for one in others):
        yield from _others_later(others, max(own, key=lambda one: rank(one.place)))
    if len(own) == 1 and own[0].alone and own[0].place != "first":
        yield Cure(label=say("put {} in first", Name(own[0].name)), edits=(own[0].put_in("first"),))


def _others_later(others: Sequence[CarriedAs], own: CarriedAs) -> Iterator[Cure]:
    names = Several(tuple(Name(one.name) for one in others))
    early = [one for one in others if one.place != "last"]
    if early and own.place != "last":
        yield Cure(label=say("put {} in last", names), edits=tuple(one.put_in("last") for one in early))
    # what is last may be so by the older word, and a row's place is not its board's to leave
    said = all(one.place not in (None, "last") and "except" not in one.path and not one.row for one in others)
    if said:
        edits = tuple(Edit(action="remove", path=(*one.path, "place")) for one in others)
        yield Cure(label=say("leave the place of {} to be settled", names), edits=edits)


def _left_out(own: CarriedAs, bars: Sequence[str]) -> Iterator[Cure]:
    """Boards left out of a unit, to be put in on the wall; none that is glued up in it."""
    rest: list[Plain] = [name for name in own.unit if name not in bars]
    if rest and not set(bars) & set(own.glued):
        names = Several(tuple(map(Name, bars)))
        edit = Edit(action="set", path=(*own.path, "boards"), value=rest)
        yield Cure(label=say("leave {} out of {}", names, Name(own.name)), edits=(edit,))
