"""How many people lift a load, by its mass and the heights of their hands.

Source: the guideline weights of the British authority for health and safety (HSE), for men, both hands, as an
industrial safety sheet gives them by the height of the hands; teams of two lift two thirds of what they lift singly
together, teams of three half (a rail safety page and a consultants' page): a third person adds an eighth. Women's
figures are about two thirds of these. They are a first filter for fit adults who stand well and hold well, no limit.
Common practice: a board's mass may be a fifth more than worked out; two carry what is longer than 1800 and three what
is longer than 3600, however light; what reaches more than 400 from the body is held at arm's length.
"""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

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
HEAVIER = 1.2  # than worked out from the average density of its species
TRESTLES = 800.0  # high: from where things are picked up (common practice)
HEAD = 1750.0  # high, of a man (from memory): over it, or on a ladder, no figure holds
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


def to_the_wall(mass: float, long: float, held: tuple[float, float], deep: float) -> Lift:
    """A load picked up from trestles and held where it is best held between two heights, that deep off the wall."""
    return lift(mass, long, [(TRESTLES, TRESTLES), (max(held[0], 0.0), held[1])], reach=deep)


def tipped_up(mass: float, wide: float, deep: float) -> Lift:
    """A load that lies and is tipped up about its foot: half of it is in the hands, held by the edges that face up."""
    return lift(mass / 2, wide, [(0.0, deep)], reach=0.0)


def kg(height: float, reach: float = 0.0) -> float:
    """The guideline weight for one man's hands at a height; near a border between the figures of both zones."""
    near = {far if reach > REACH else close for low, high, close, far in ZONES if low - BORDER < height < high + BORDER}
    return sum(near) / len(near)


def _within(low: float, high: float) -> Sequence[float]:
    """Heights within these, one of each zone that they reach into."""
    spans = [(max(low, bottom), min(high, top)) for bottom, top, _, _ in ZONES]
    found = [(bottom + top) / 2 for bottom, top in spans if top > bottom]
    return found or (low,)
