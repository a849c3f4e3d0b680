"""From boards to units to the piece: what goes in when, which way, how far, into what; and how it goes up on a wall."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace

from ...geometry.bodies import PartShape
from ...job.model import Turn, Unit
from .blocking import Blockers
from .joints import JointValue
from .result import Order
from .staging import NOWHERE, BoardValue, Staged
from .standing import WallValue, on_the_wall


def plan(
    parts: Sequence[PartShape],
    boards: Sequence[BoardValue],
    units: Sequence[Unit],
    joints: Sequence[JointValue],
    places: Mapping[str, Turn] = NOWHERE,
    wall: WallValue | None = None,
    report: Callable[[float, str], None] = lambda done, what: None,
) -> Order:
    """Work out every stage.

    Args:
        parts: their shapes.
        boards: as the plan chooses by them.
        units: glued up first.
        joints: between boards.
        places: in the order on the wall, by board, as far as the job says.
        wall: at which it is put up; None for a piece that does not hang.
        report: told how far it is.
    """
    ground = Blockers(parts, joints)
    report(0.3, "contacts")
    if ground.contacts.overlaps:
        clash = tuple((ground.names[i], ground.names[j]) for i, j in ground.contacts.overlaps)
        return Order(stages=(), turns=0, overlaps=clash)
    about = {board.name: board for board in boards}
    glued = [replace(unit, boards=tuple(name for name in unit.boards if name in ground.number)) for unit in units]
    glued = [unit for unit in glued if len(unit.boards) > 1]
    stages = [Staged(ground, about, unit.name, [(b,) for b in unit.boards], (), "shop").plan() for unit in glued]
    report(0.6, "units")
    inside = {board for unit in glued for board in unit.boards}
    bodies = [unit.boards for unit in glued] + [(name,) for name in ground.names if name not in inside]
    last = Staged(ground, about, "", bodies, glued, "site" if glued or places else "shop", places)
    whole = last.plan()
    report(0.8, "the wall")
    kept = NOWHERE if last.refused else places
    up = None if wall is None or whole.locked else on_the_wall(ground, about, wall, glued, kept)
    return Order(stages=(*stages, whole), turns=whole.turns, overlaps=(), refused=last.refused, wall=up)
