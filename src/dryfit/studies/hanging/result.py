"""How the piece comes to its wall, as others read it: together on the floor and lifted, or put together on the wall."""

from dataclasses import dataclass
from typing import Literal, TypeAlias

from ...sentences import Words

Way: TypeAlias = Literal["floor", "wall"]
Decider: TypeAlias = Literal["said", "only", "lifting", "hands", "fewer", "unknown", "none", "free"]


@dataclass(frozen=True, slots=True, kw_only=True)
class Lifted:
    """One lift.

    Attributes:
        says: what is lifted, in words; `parts` its ids.
        mass_kg: None where that of one of its parts is not known; there are no people then either.
        reckoned_kg: with the margin for heavy wood; `may_kg` that these people may lift, or three.
        people: the fewest that may; None where three may not.
        better_less: whether the third is there for the mass: then less at a time is better.
        hands: heights between which it is held as it goes home, in mm over the floor.
        overhead: whether all of it is over a man's head as it goes home: no figure holds there.
        holding: how many things are held by hands meanwhile, each by one more person (common practice).
    """

    says: Words
    parts: tuple[str, ...]
    mass_kg: float | None
    reckoned_kg: float
    may_kg: float
    people: int | None
    better_less: bool
    hands: tuple[float, float]
    overhead: bool
    holding: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class WayUp:
    """One of the two ways.

    Attributes:
        possible: whether there is an order for it.
        lifts: in the order of doing; of the wall one for each step of `OnTheWall.steps` that goes up, of the floor one.
        kg_people: sum of mass times people; None where a mass is not known or something is too heavy for three.
        people: the most at once, those that hold something meanwhile included; None likewise.
    """

    way: Way
    possible: bool
    lifts: tuple[Lifted, ...]
    kg_people: float | None
    people: int | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Hanging:
    """Which way it goes up, and by what that was settled.

    Attributes:
        way: None where neither is possible, or there is no wall.
        decider: "said": the job gives places on the wall; "only": the other is not possible, or there is but one body;
            "lifting": less mass times people; "hands": as much of it, but fewer people at once; "fewer": as much of
            both, but fewer lifts; "unknown": masses are not known, so it is the floor; "none": neither is possible;
            "free": it is put up at no wall.
        offers: of the floor, then of the wall.
    """

    way: Way | None
    decider: Decider
    offers: tuple[WayUp, WayUp]

    @property
    def chosen(self) -> WayUp | None:
        """The offer of the way that is taken."""
        return next((offer for offer in self.offers if offer.way == self.way), None)
