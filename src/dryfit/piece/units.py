"""Units: what is glued up first and then handled as one body.

The maker's `[[unit]]` tables, and every closed frame with a glued corner that no unit takes in: once it is
glued it is rigid, whatever the file says. A board belongs to the first unit that names it. What such a frame is
closed round is settled later (`closing`).
"""

from collections.abc import Iterable, Mapping
from dataclasses import replace

from ..job.model import Job, Unit
from ..places import Pair


def units_of(job: Job, glued: Iterable[Pair]) -> tuple[Unit, ...]:
    """All units of two boards or more, the maker's first; `glued` are the joints with glue in them."""
    taken: set[str] = set()
    found: list[Unit] = []
    joined = list(glued)
    closed = (
        Unit(name=frame.name, boards=frame.boards, place=frame.place, path=frame.path)
        for frame in job.frames
        if frame.closed
    )
    for unit, said in (*((unit, True) for unit in job.units_glued), *((frame, False) for frame in closed)):
        boards = tuple(name for name in unit.boards if name not in taken)
        sticks = said or (len(boards) == len(unit.boards) and any(set(pair) <= set(boards) for pair in joined))
        if len(boards) > 1 and sticks:
            taken.update(boards)
            found.append(replace(unit, boards=boards))
    return tuple(found)


def body_of(units: Iterable[Unit]) -> Mapping[str, str]:
    """Name of the unit for each board in one."""
    return {board: unit.name for unit in units for board in unit.boards}
