"""The last sheet of the booklet: standing a heavy or a long piece up, and what can go wrong on the way.

How many people: 25 kg each (HSE guidance on lifting, from memory). A piece tips up about the edge at its foot; on the
way it is as high as the diagonal of its side: exact for a box, and no piece is more than the box around it.
"""

import math
from collections.abc import Iterator

from ...looks import Desk
from ...naming import position
from ..lifting import PERSON_KG, persons
from .laying import Act, Up

LONG = 1800.0  # mm: from here on it is worth a sheet, however light (common practice)


def standing_up(desk: Desk, up: Up) -> Act | None:
    """How the piece is stood up, or lifted to the wall; None for what one person picks up."""
    measures = desk.book.studies.get("measures")
    if measures is None:
        return None
    wide, high, deep = (b - a for a, b in zip(measures.low, measures.high, strict=True))
    mass = sum(desk.book.mass_kg.values())
    known = len(desk.book.mass_kg) == len(desk.book.piece.parts)
    if max(wide, high) < LONG and (known and mass < PERSON_KG):
        return None
    hung = desk.book.job.wall.hung
    weighs = f"{mass:.0f} kg" if known else "weigh it first"
    return Act(
        title=f"{'Lift it to the wall' if hung else 'Stand it up'}: {weighs}",
        says=f"{position(wide)} wide · {position(high)} high · {position(deep)} deep",
        puts=(
            f"{persons(mass)} people, {PERSON_KG:.0f} kg each (HSE guidance on lifting, from memory), or in parts."
            if known
            else f"Two people or more, {PERSON_KG:.0f} kg each (HSE guidance on lifting, from memory), or in parts.",
        ),
        minds=tuple(_minds(desk, high, deep, up)),
    )


def _minds(desk: Desk, high: float, deep: float, up: Up) -> Iterator[str]:
    """Tipping, the ceiling, the way there."""
    wall = desk.book.job.wall
    if wall.hung:
        yield "Nobody stands under it until every screw is in: see the fixings."
    else:
        over = "Turn it on its way up: it lies on its front edges." if up == "wall" else "Lift at the TOP."
        yield f"The foot stays on the floor. {over} It can tip over until it is fixed to the wall: hold it."
        tip = math.hypot(high, deep)
        low = wall.ceiling is not None and wall.ceiling < tip
        yield f"Tipping it up takes {position(tip)} under the ceiling{': put it together standing' if low else ''}."
    yield "Doors, stairs and corners on its way: measure them first, or put it together where it will be."
