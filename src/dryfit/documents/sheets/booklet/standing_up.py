"""The last picture of the booklet: standing the piece up, how it goes to the wall, what can go wrong, its finish.

How many people lift it is said in one place for all sheets (`lifting`). A piece tips up about the edge at its foot; on
the way it is as high as the diagonal of its side: exact for a box, and no piece is more than the box around it.

Of the wall it says what the job says: the fixings sheet where there is one, fixings that the job leaves open where not.
"""

import math
from collections.abc import Iterator

from ....job.model import When
from ....studies.hanging.result import Hanging
from ....studies.measures.result import Measures
from ....trade.lifting import LONG, SOURCE
from ...looks import Desk
from ...naming import plural, position
from ...pages import joint, page_of
from .. import lifting
from ..fixings.chain import points
from ..part.words.finish import AT
from .laying import Act, Up

PAPER = "workshop"  # the paper with the fixings sheet
TIPS = {
    True: "It can tip over until it is fixed to the wall: hold it.",
    False: "Nothing holds it to a wall: it can tip over when it is climbed, pulled or loaded high up.",
}  # by whether the job has fixings


def standing_up(desk: Desk, up: Up) -> Act | None:
    """How the piece is stood up, or brought to the wall; None where it was not measured."""
    measures = desk.book.found(Measures)
    if measures is None:
        return None
    wide, high, deep = (b - a for a, b in zip(measures.low, measures.high, strict=True))
    mass = sum(desk.book.mass_kg.values())
    known = len(desk.book.mass_kg) == len(desk.book.piece.parts)
    job = desk.book.job
    lifted = lifting.whole(desk)
    large = max(wide, high) >= LONG or lifted is None or lifted.people != 1
    weighs = lifting.told_mass(mass) if known else "weigh it first"
    return Act(
        title=f"{'Lift it to the wall' if job.wall.hung else 'Stand it up'}: {weighs}",
        says=f"{position(wide)} wide · {position(high)} high · {position(deep)} deep",
        puts=(_people(desk, large=large or not job.wall.hung), *_by_steps(desk), _to_the_wall(desk), _finish(desk)),
        minds=tuple(_minds(desk, high, deep, up)),
    )


def _by_steps(desk: Desk) -> Iterator[str]:
    """That it goes up in steps, where that asks for less, or the job says so."""
    found = desk.book.found(Hanging)
    if found is not None and found.way == "wall":
        lifts = found.offers[1].lifts
        heaviest = max((one.mass_kg or 0.0 for one in lifts), default=0.0)
        mass = f", the heaviest {lifting.told_mass(heaviest)}" if heaviest else ""
        steps = plural(len(lifts), "step")
        yield f"It is not lifted whole: {steps} put it together on the wall{mass}, by the hanging book."


def _people(desk: Desk, *, large: bool) -> str:
    """How many lift; what one could pick up is held by one and fixed by another."""
    if not large:
        return "Two people: one holds it in place, the other fixes it (common practice)."
    return f"{lifting.said(desk)} ({SOURCE})"


def _finish(desk: Desk) -> str:
    """What is coated when, as far as the job says; nothing is made up."""
    finish = (desk.book.piece.job or desk.book.job).finish
    if not finish.system:
        return "Finish: not known yet; the job names none."
    coats = f"{finish.system}, {plural(finish.coats, 'coat')}"
    names = [part.id for part in desk.book.piece.parts]
    groups: dict[When | None, list[str]] = {}
    for name in names:
        groups.setdefault(desk.book.piece.history.when(name), []).append(desk.marks[name])
    early, unsaid = groups.pop("before glue", []), groups.pop(None, [])
    if len(early) == len(names):
        return f"Finish: {coats}, all before assembly."
    told = [f"{', '.join(early)} before assembly" if early else "nothing before assembly"]
    for when in ("after glue", "on site", "none"):
        if when in groups:
            whole = len(groups) == 1 and not unsaid
            who = ("the rest" if early else "all") if whole else ", ".join(groups[when])
            told.append(f"{who} {AT.get(when, 'stays bare')}")
    if unsaid:
        told.append(f"when {'the rest' if early or groups else 'it'} is coated is not known yet")
    return f"Finish: {coats}; {'; '.join(told)}."


def _to_the_wall(desk: Desk) -> str:
    """What holds it, as far as the job says."""
    job, holes = desk.book.job, points(desk)
    if holes:
        page = page_of(joint(holes[0].joint), paper=PAPER)
        where = f"fixings sheet F1, page {page} of the workshop book"
        return f"To the wall: {plural(len(holes), 'hole')}; {where} has positions, screws and what to check first."
    if job.fixings:
        return "To the wall: the job names fixings, but none of their screws is worked out: see the list of findings."
    if job.wall.hung:
        return "To the wall: the job gives no fixings. Settle how it hangs and what holds it before it is lifted."
    return "The job gives no fixing to the wall: it stands free."


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
    yield "Doors, stairs and corners on the way: measure them first, or put it together where it will stand."
