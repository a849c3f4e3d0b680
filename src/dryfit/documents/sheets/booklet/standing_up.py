"""The last sheet of the booklet: standing a heavy or a long piece up, how it goes to the wall, what can go wrong.

How many people: 25 kg each (HSE guidance on lifting, from memory). A piece tips up about the edge at its foot; on the
way it is as high as the diagonal of its side: exact for a box, and no piece is more than the box around it.

Of the wall it says what the job says: the fixings sheet where there is one, fixings that the job leaves open where not.
"""

import math
from collections.abc import Iterator

from ...looks import Desk
from ...naming import plural, position
from ..fixings.chain import points
from ..lifting import PERSON_KG, persons
from .laying import Act, Up

LONG = 1800.0  # mm: from here on it is worth a sheet, however light (common practice)
SHEET = "see the fixings sheet, F1"
TIPS = {
    True: "It can tip over until it is fixed to the wall: hold it.",
    False: "Nothing holds it to a wall: it can tip over when it is climbed, pulled or loaded high up.",
}  # by whether the job has fixings


def standing_up(desk: Desk, up: Up) -> Act | None:
    """How the piece is stood up, or brought to the wall; None for what one person picks up and no wall holds."""
    measures = desk.book.studies.get("measures")
    if measures is None:
        return None
    wide, high, deep = (b - a for a, b in zip(measures.low, measures.high, strict=True))
    mass = sum(desk.book.mass_kg.values())
    known = len(desk.book.mass_kg) == len(desk.book.piece.parts)
    job = desk.book.job
    large = max(wide, high) >= LONG or not known or mass >= PERSON_KG
    if not (large or job.wall.hung or job.fixings):
        return None
    weighs = f"{mass:.0f} kg" if known else "weigh it first"
    return Act(
        title=f"{'Lift it to the wall' if job.wall.hung else 'Stand it up'}: {weighs}",
        says=f"{position(wide)} wide · {position(high)} high · {position(deep)} deep",
        puts=(_people(mass if known else None, large=large), _to_the_wall(desk)),
        minds=tuple(_minds(desk, high, deep, up)),
    )


def _people(mass: float | None, *, large: bool) -> str:
    """How many lift; what one could pick up is held by one and fixed by another."""
    if not large:
        return "Two people: one holds it in its place, the other fixes it (common practice)."
    count = "Two people or more" if mass is None else f"{persons(mass)} people"
    return f"{count}, {PERSON_KG:.0f} kg each (HSE guidance on lifting, from memory), or in parts."


def _to_the_wall(desk: Desk) -> str:
    """What holds it, as far as the job says."""
    job, holes = desk.book.job, len(points(desk))
    if holes:
        return f"To the wall: {plural(holes, 'hole')}, {SHEET}, for places, screws and what to look at first."
    if job.fixings:
        return "To the wall: the job names fixings, but no screw of them is worked out: see the list of findings."
    if job.wall.hung:
        return "To the wall: the job says no fixings. How it hangs and what holds it is settled before it is lifted."
    return "The job says no fixing to the wall: it stands free."


def _minds(desk: Desk, high: float, deep: float, up: Up) -> Iterator[str]:
    """Tipping, the ceiling, the way there."""
    wall, fixings = desk.book.job.wall, desk.book.job.fixings
    if wall.hung:
        yield "Nobody stands under it until every fixing is in and tight. Cables and pipes: a detector first."
    else:
        over = "Turn it on its way up: it lies on its front edges." if up == "wall" else "Lift at the TOP."
        yield f"The foot stays on the floor. {over} {TIPS[bool(fixings)]}"
        tip = math.hypot(high, deep)
        low = wall.ceiling is not None and wall.ceiling < tip
        yield f"Tipping it up takes {position(tip)} under the ceiling{': put it together standing' if low else ''}."
    yield "Doors, stairs and corners on its way: measure them first, or put it together where it will be."
