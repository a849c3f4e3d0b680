"""Hanging: is it put together on the floor and lifted, or put together where it hangs?

What it works out   Both ways as far as they are possible, how many people each lift takes, and which way asks for the
                    least: mass times people over all lifts (where both have a lift too heavy for three, the least
                    share over what three may), then fewest people at once, then fewest lifts. Where the
                    job gives places in the order on the wall, that is the maker's word and the way is the wall.
Assumes             Heights over the floor are y as drawn. Picked up from trestles 800 high, held between its lowest and
                    its highest place as it hangs, and as far over that as its way in begins. A piece that stands is
                    tipped up about its foot. What nothing holds yet is held by one person more.
Source              trade/lifting.py: guideline weights of the British authority (HSE), team factors, common practice.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from ...asking import unanswered
from ...findings import NotChecked
from ...piece.model import Piece
from ...piece.parts import corners_of
from ...sentences import Words, say
from ...study.base import Pace, Scene, Study, Work
from ...study.registry import register
from ...trade.lifting import HEAD, Lift, tipped_up, to_the_wall
from ..measures.result import Measures
from ..order.result import Order
from .result import Decider, Hanging, Lifted, Way, WayUp

EVEN = 1e-6  # kg times people that are no difference
WAYS: tuple[Way, Way] = ("floor", "wall")
Heights = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadValue:
    """One thing to be lifted.

    Attributes:
        mass_kg: None where that of one of its parts is not known.
        long, deep: the greatest size in the elevation, and out of the wall.
        held: between which heights as it goes home; `begins` where its way in begins.
        holding: how many things hands hold meanwhile.
    """

    says: Words
    parts: tuple[str, ...]
    mass_kg: float | None
    long: float
    wide: float
    deep: float
    held: Heights
    begins: Heights
    holding: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class HangingValue:
    """All lifts of both ways, and what else the choice goes by.

    Attributes:
        stands: whether the whole stands on the floor and is tipped up.
        on_floor, on_wall: whether there is an order for each.
        asked: whether the job gives places on the wall.
    """

    whole: LoadValue
    steps: tuple[LoadValue, ...]
    bodies: int
    stands: bool
    on_floor: bool
    on_wall: bool
    asked: bool


@register
class HangingStudy(Study[HangingValue | None, Hanging]):
    """How it comes to its wall."""

    name = "hanging"
    asks = "whether it goes up whole or is put together on the wall"
    result = Hanging
    needs = (Measures, Order)
    pace = Pace.REST

    def concerns(self, piece: Piece) -> bool:
        """Only what is put up at a wall, and is more than a board."""
        return piece.in_several and piece.history.hangs

    def reads(self, scene: Scene) -> HangingValue | None:
        """Copy masses, sizes and the order on the wall; None where there is no wall, or no order at all."""
        order, measures = scene.earlier(Order), scene.earlier(Measures)
        up = order.wall
        if up is None:
            return None
        masses = dict(measures.mass_kg)
        corners = {part.id: corners_of(part) for part in scene.piece.parts}
        body = {name: number for number, names in enumerate(up.bodies) for name in names}

        def load(says: Words, parts: tuple[str, ...], above: float = 0.0, holding: int = 0) -> LoadValue:
            every = [corner for name in parts for corner in corners[name]]
            x, y, z = (min(corner[axis] for corner in every) for axis in range(3))
            a, b, c = (max(corner[axis] for corner in every) for axis in range(3))
            known = all(name in masses for name in parts)
            return LoadValue(
                says=says,
                parts=parts,
                mass_kg=sum(masses[name] for name in parts) if known else None,
                long=max(a - x, b - y),
                wide=a - x,
                deep=c - z,
                held=(y, b),
                begins=(y + above, b + above),
                holding=holding,
            )

        every = tuple(part.id for part in scene.piece.parts)
        wall = (scene.piece.job or scene.job).wall
        return HangingValue(
            whole=load(say("the whole piece"), every),
            steps=tuple(
                load(
                    one.step.name,
                    one.step.parts,
                    one.high[1] - max(corner[1] for name in one.step.parts for corner in corners[name]),
                    len({body[name] for name in one.holding}),
                )
                for one in up.steps
                if one.on_wall
            ),
            bodies=len(up.bodies),
            stands=not wall.hung,
            on_floor=not order.locked,
            on_wall=bool(up.steps),
            asked=up.asked,
        )

    def run(self, value: HangingValue | None, work: Work) -> Hanging:
        """Reckon both ways, and take one."""
        if value is None:
            floor, wall = (WayUp(way=way, possible=False, lifts=(), kg_people=None, people=None) for way in WAYS)
            return Hanging(way=None, decider="free", offers=(floor, wall))
        floor = _offer("floor", [value.whole], possible=value.on_floor, stands=value.stands)
        wall = _offer("wall", value.steps, possible=value.on_wall)
        way, decider = _taken(value, floor, wall)
        return Hanging(way=way, decider=decider, offers=(floor, wall))

    def not_checked(self, value: HangingValue | None, result: Hanging) -> tuple[NotChecked, ...]:
        """Which of the two, where masses are not known."""
        if result.decider != "unknown":
            return ()
        return (unanswered(self.name, "the mass of a board is not known"),)


def _offer(way: Way, loads: Sequence[LoadValue], *, possible: bool, stands: bool = False) -> WayUp:
    lifts = tuple(_lifted(load, tipped=stands) for load in loads) if possible else ()
    known = possible and all(one.mass_kg is not None and one.people is not None for one in lifts)
    return WayUp(
        way=way,
        possible=possible,
        lifts=lifts,
        kg_people=sum((one.mass_kg or 0.0) * (one.people or 0) for one in lifts) if known else None,
        people=max((one.people or 0) + one.holding for one in lifts) if known else None,
    )


def _lifted(load: LoadValue, *, tipped: bool) -> Lifted:
    mass = load.mass_kg or 0.0
    found = tipped_up(mass, load.wide, load.deep) if tipped else _up(mass, load)
    return Lifted(
        says=load.says,
        parts=load.parts,
        mass_kg=load.mass_kg,
        reckoned_kg=found.reckoned,
        may_kg=found.may,
        people=found.people if load.mass_kg is not None else None,
        better_less=load.mass_kg is not None and found.better_less,
        hands=(0.0, load.deep) if tipped else (max(load.held[0], 0.0), load.held[1]),
        overhead=not tipped and load.held[0] > HEAD,
        holding=load.holding,
    )


def _up(mass: float, load: LoadValue) -> Lift:
    """Where it goes home, or where its way in begins: whichever lets hands lift less."""
    ways = (to_the_wall(mass, load.long, held, load.deep) for held in (load.held, load.begins))
    return min(ways, key=lambda one: (one.people is not None, -(one.people or 0), one.may))


def _taken(value: HangingValue, floor: WayUp, wall: WayUp) -> tuple[Way | None, Decider]:
    """The way that asks for least, unless the job says, or only one is possible."""
    if value.asked and wall.possible:
        return "wall", "said"
    if not (floor.possible or wall.possible):
        return None, "none"
    if value.bodies < 2 or not wall.possible:
        return "floor", "only"
    if any(one.mass_kg is None for one in (*floor.lifts, *wall.lifts)):
        return "floor", "unknown"
    figures: tuple[tuple[Decider, float | None, float | None], ...] = (
        ("lifting", floor.kg_people, wall.kg_people),
        ("hands", floor.people, wall.people),
        ("fewer", len(floor.lifts), len(wall.lifts)),
    )
    for decider, one, other in figures:
        if (one is None) != (other is None):
            return ("wall" if one is None else "floor"), decider
        if one is None and other is None and decider == "lifting":
            one, other = (max(lift.reckoned_kg / lift.may_kg for lift in offer.lifts) for offer in (floor, wall))
        if one is not None and other is not None and abs(one - other) > EVEN:
            return ("wall" if other < one else "floor"), decider
    return "floor", "fewer"
