"""How many people lift: a board into the piece, and the whole piece; every sheet that says so asks here.

What people may lift stands in `trade.lifting`, with its source. Common practice: a piece is lifted from trestles, and
a board stands on edge on the floor when it is let in.
"""

import math

from ...piece.model import Piece
from ...sentences import Mass, Voice
from ...studies.measures.result import Measures
from ...trade.lifting import TRESTLES, Lift, lift, tipped_up, to_the_wall
from ..looks import Desk
from ..naming import plural, printed_units

# --- a board, and the piece ----------------------------------------------------------------------------


def board(mass: float, long: float, deep: float) -> Lift:
    """A board let into the piece that lies on the floor: held by its upper edge as it stands on the other there."""
    return lift(mass, long, [(TRESTLES, TRESTLES), (deep, deep)])


def whole(desk: Desk) -> Lift | None:
    """The piece, stood up or lifted to the wall; None where its mass is not known.

    One that stands is tipped up about its foot: half of its mass is in the hands, held by the edges that face up. One
    that hangs is picked up from trestles and held where it is best held in its place.
    """
    measures, mass = desk.book.found(Measures), known_mass(desk)
    if measures is None or mass is None:
        return None
    (_, y0, _), (_, y1, _) = measures.low, measures.high
    wide, high, deep = (b - a for a, b in zip(measures.low, measures.high, strict=True))
    long = max(wide, high)
    if desk.book.job.wall.hung:
        return to_the_wall(mass, long, (y0, y1), deep)
    return tipped_up(mass, wide, deep)


def known_mass(desk: Desk) -> float | None:
    """The mass of the piece in kg; None where one part's is not known."""
    return sum(desk.book.mass_kg.values()) if len(desk.book.mass_kg) == len(desk.book.piece.parts) else None


def said(desk: Desk) -> str:
    """How many people lift the piece, in words; what to do where it is too much for three.

    Nothing is to be taken apart that glue holds: the parts are what is left together when every dry joint is open.
    """
    found = whole(desk)
    if found is None:
        return "Weigh it first: its mass decides how many people lift it; two at least."
    tips = "" if desk.book.job.wall.hung else " at its TOP as it is tipped up, for which there is no separate guidance"
    reckoned = f"{told_mass(found.reckoned)}{tips}, a fifth for heavy wood included"
    if found.people is None:
        return f"Too heavy for three people ({told_mass(math.floor(found.may))}): {reckoned}. {_otherwise(desk)}"
    better = f" Better: {_otherwise(desk)[0].lower()}{_otherwise(desk)[1:]}" if found.better_less else ""
    count = "One person" if found.people == 1 else f"{found.people} people"
    return f"{count}: {reckoned}.{better}"


def _otherwise(desk: Desk) -> str:
    """What to do instead: apart where it is dry, else a hoist."""
    parts = in_parts(desk.book.piece)
    machine = "Use a hoist or a lift." if desk.book.job.wall.hung else "Use a hoist, or put it together standing."
    if len(parts) == 1:
        return machine
    heaviest = max(sum(desk.book.mass_kg.get(name, 0.0) for name in part) for part in parts)
    hands = [(TRESTLES, TRESTLES)]
    still = ", too heavy for three as well" if lift(heaviest, 0.0, hands).people is None else ""
    return (
        f"{machine[:-1]}, or take its dry joints apart again: {plural(len(parts), 'part')}, "
        f"the heaviest {told_mass(heaviest)}{still}."
    )


def told_mass(mass: float) -> str:
    """A mass in kg, as it is told in the job's units."""
    return Mass(mass).said(Voice(printed_units()))


def in_parts(piece: Piece) -> list[frozenset[str]]:
    """What is left together when every dry joint is taken apart: boards that glue holds to one another."""
    groups = [frozenset((part.id,)) for part in piece.parts]
    for joint in piece.joints:
        if joint.glued and len(met := [group for group in groups if group & set(joint.key)]) > 1:
            groups = [group for group in groups if group not in met] + [frozenset().union(*met)]
    return groups
