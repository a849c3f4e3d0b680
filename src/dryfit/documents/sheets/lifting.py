"""How many people lift: a board into the piece, and the whole piece; every sheet that says so asks here.

Source: the guideline weights of the British authority for health and safety (HSE), for men, both hands, as an
industrial safety sheet gives them by the height of the hands; teams of two lift two thirds of what they lift singly
together, teams of three half (a rail safety page and a consultants' page): a third person adds an eighth. Women's
figures are about two thirds of these. They are a first filter for fit adults who stand well and hold well, no limit.
Common practice: a board's mass may be a fifth more than worked out; two carry what is longer than 1800 and three what
is longer than 3600, however light; what reaches more than 400 from the body is held at arm's length; a piece is lifted
from trestles, and a board stands on edge on the floor when it is let in.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from ...piece.model import Piece
from ...sentences import Mass, Voice
from ...studies.measures.result import Measures
from ..looks import Desk
from ..naming import plural, printed_units

# Hands between these heights in mm: kg close to the body, and at arm's length.
ZONES: tuple[tuple[float, float, float, float], ...] = (
    (0.0, 305.0, 10.0, 5.0),
    (305.0, 710.0, 20.0, 10.0),
    (710.0, 1120.0, 25.0, 15.0),
    (1120.0, 1450.0, 20.0, 10.0),
    (1450.0, math.inf, 10.0, 5.0),  # to the head; above it no figure holds
)
TEAM = {1: 1.0, 2: 2 / 3, 3: 1 / 2}  # of what its people lift singly together
LONG, LONGER = 1800.0, 3600.0  # from here on two, and three, whatever it weighs
REACH = 400.0  # of the middle of a load from the body, from which on it is held at arm's length
BORDER = 50.0  # of a zone's border, within which the guidance has one take a figure between
TRESTLES = 800.0  # high: from where things are picked up
HEAVIER = 1.2  # than worked out from the average density of its species
SOURCE = "HSE guideline weights for men, and team factors; less for others"


@dataclass(frozen=True, slots=True, kw_only=True)
class Lift:
    """How a load is lifted.

    Attributes:
        people: the fewest that may; None where three may not.
        reckoned: kg, the margin for its wood included.
        may: kg that these people may lift together, or three.
    """

    people: int | None
    reckoned: float
    may: float

    @property
    def better_less(self) -> bool:
        """Whether a third person is there for the mass: he adds an eighth, so a lighter load is better."""
        return self.people == max(TEAM) and self.reckoned > TEAM[2] * 2 * self.may / (TEAM[3] * 3)


def lift(mass: float, long: float, hands: Iterable[tuple[float, float]], *, reach: float = 0.0) -> Lift:
    """The fewest people for a mass in kg.

    Args:
        long: its length.
        hands: heights between which they hold it at each stage of the way; the least figure counts.
        reach: of its depth from the body.
    """
    single = min(max(kg(height, reach) for height in _within(low, high)) for low, high in hands)
    reckoned = mass * HEAVIER
    least = 3 if long > LONGER else 2 if long > LONG else 1
    for people, factor in TEAM.items():
        if people >= least and people * factor * single >= reckoned:
            return Lift(people=people, reckoned=reckoned, may=people * factor * single)
    return Lift(people=None, reckoned=reckoned, may=max(TEAM) * TEAM[max(TEAM)] * single)


def kg(height: float, reach: float = 0.0) -> float:
    """The guideline weight for one man's hands at a height; near a border between the figures of both zones."""
    near = {far if reach > REACH else close for low, high, close, far in ZONES if low - BORDER < height < high + BORDER}
    return sum(near) / len(near)


def _within(low: float, high: float) -> Sequence[float]:
    """Heights within these, one of each zone that they reach into."""
    spans = [(max(low, bottom), min(high, top)) for bottom, top, _, _ in ZONES]
    found = [(bottom + top) / 2 for bottom, top in spans if top > bottom]
    return found or (low,)


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
        return lift(mass, long, [(TRESTLES, TRESTLES), (max(y0, 0.0), y1)], reach=deep)
    return lift(mass / 2, wide, [(0.0, deep)], reach=0.0)


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
