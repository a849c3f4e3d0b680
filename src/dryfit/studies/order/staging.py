"""A stage of the assembly: its bodies taken apart on paper and told backwards as steps.

Each stage is taken apart (`piece.apart`, on exact sweeps) and told backwards. In a stage a glued unit is one body. A
set of boards that can only move together is a sub-assembly: it is put together by itself and goes in as one.
"""

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from ...geometry.frames import Vec
from ...job.model import Turn, Unit
from ...piece.history import rank
from ...piece.settling.apart import FRONT, NEITHER, WALLWARD, Apart, Taken, bits, locks, take_apart
from ...sentences import Name, Sentence, Several, say
from .blocking import Blockers, PartBodies
from .locks import locked_set
from .result import Leg, Place, PlaceRefused, StagePlan, Step

NOWHERE: Mapping[str, Turn] = MappingProxyType({})  # no place on the wall is said of anything


@dataclass(frozen=True, slots=True, kw_only=True)
class BoardValue:
    """A board as the plan chooses by it: steep ones and those that only end on others go in late.

    Attributes:
        flat: whether it lies against the wall: on the floor it lies first, with the wall edges up it drops in last.
    """

    name: str
    steep: bool
    crosses: bool
    order: tuple[tuple[int, int, str], ...]
    flat: bool = False


class Staged:
    """One stage being planned."""

    def __init__(
        self,
        ground: Blockers,
        about: dict[str, BoardValue],
        name: str,
        bodies: Sequence[tuple[str, ...]],
        units: Sequence[Unit],
        place: Place,
        places: Mapping[str, Turn] = NOWHERE,
    ) -> None:
        self.ground, self.about, self.name, self.place = ground, about, name, place
        self.bodies, self.places = tuple(bodies), places
        self.units = {unit.boards: unit for unit in units}
        self.ranks = [rank(places.get(body[0])) for body in self.bodies]
        self.stage = self.staged()
        self.refused: tuple[PlaceRefused, ...] = ()

    def staged(self) -> PartBodies:
        """The bodies, and who of them is to leave before whom."""
        return PartBodies(self.ground, self.bodies, self.first_out())

    def first_out(self) -> dict[int, int]:
        """Of each body those that leave before it since they are put in after it, by their places on the wall."""
        by_rank: dict[tuple[int, int], int] = {}
        for number, own in enumerate(self.ranks):
            by_rank[own] = by_rank.get(own, 0) | 1 << number
        later, found = 0, {}
        for own in sorted(by_rank, reverse=True):
            if later:
                found.update(dict.fromkeys(bits(by_rank[own]), later))
            later |= by_rank[own]
        return found

    def taken(self, order: Sequence[int]) -> Apart:
        """How it comes apart in the order that the places ask for; where it does not so, in whatever order it does."""
        everything = (1 << len(self.bodies)) - 1
        orders = self.flat_ones(order, last=True), self.flat_ones(order, last=False)
        apart = take_apart(self.stage, everything, *orders)
        stuck = [*locks(self.stage, apart.locked, order)] if apart.locked and self.stage.first_out else []
        stuck += [move.movers | move.rest for move in apart.moves if self.is_mixed(move)]
        if not stuck:
            return apart
        self.stage = PartBodies(self.ground, self.bodies)
        freely = take_apart(self.stage, everything, *orders)
        if not freely.locked:
            self.refused = tuple(one for bodies in stuck for one in self.not_in_place(bodies) if one.blockers)
        return freely

    def is_mixed(self, move: Taken) -> bool:
        """Whether things of several places go in as one, so that one of them is put in at another's."""
        return move.grouped and len({self.ranks[number] for number in bits(move.movers)}) > 1

    def not_in_place(self, bodies: int) -> Iterator[PlaceRefused]:
        """Of a set that the places lock: what was to be put in latest, and what is in its way then."""
        latest = max(self.ranks[number] for number in bits(bodies))
        for number in bits(bodies):
            if self.ranks[number] == latest:
                ways = (self.stage.blockers(way, number) & bodies for way in range(len(self.stage.sides)))
                blocked = min(ways, key=lambda others: (others.bit_count(), others))
                yield PlaceRefused(
                    says=self.called(1 << number),
                    parts=self.bodies[number],
                    place=self.places.get(self.bodies[number][0]),
                    blockers=tuple(self.called(1 << other) for other in bits(blocked)),
                    blocking=tuple(self.bodies[other] for other in bits(blocked)),
                )

    def plan(self) -> StagePlan:
        """The whole of it, or what is locked."""
        order = self.leaving()
        everything = (1 << len(self.bodies)) - 1
        apart = self.taken(order)
        found = locks(self.stage, apart.locked, order) if apart.locked else ()
        steps = self.steps(apart.moves)
        whole = self.parts_of(everything)
        base = set(whole) - {part for step in steps for part in step.parts}
        inside = set(whole)
        after = [
            name
            for joint in self.ground.joints
            if set(joint.key) <= inside and (not self.units or joint in self.stage.joints)
            for name in joint.after
        ]
        return StagePlan(
            name=self.name,
            place=self.place,
            parts=whole,
            first=tuple(part for part in whole if part in base),
            steps=tuple(steps),
            after=tuple(after),
            turns=sum(step.turned for step in steps),
            locked=tuple(locked_set(self.stage, bodies, self.called, self.by_number()) for bodies in found),
        )

    def leaving(self) -> list[int]:
        """Who leaves first where there is a choice, which is who goes in last."""

        def place(number: int) -> tuple[tuple[int, int], bool, bool, bool]:
            body = self.bodies[number]
            about = [self.about[name] for name in body if name in self.about]
            crosses = any(board.crosses for board in about) or len(body) > 1
            steep = len(body) == 1 and any(board.steep for board in about)
            return self.ranks[number], not crosses, steep, False

        late = sorted(range(len(self.bodies)), key=lambda n: self.named(n), reverse=True)
        return sorted(late, key=place, reverse=True)

    def named(self, number: int) -> tuple[tuple[int, int, str], ...]:
        """A body in the order of names."""
        about = self.about.get(self.bodies[number][0])
        return about.order if about else ((1, 0, self.bodies[number][0]),)

    def called(self, bodies: int) -> Sentence:
        """A set of bodies in words."""
        named = (self.bodies[number] for number in bits(bodies))
        names = (Name(self.units[body].name if body in self.units else body[0]) for body in named)
        return say("{}", Several(tuple(names)))

    def by_number(self) -> dict[int, Unit]:
        """The units by the number of their body."""
        return {number: self.units[body] for number, body in enumerate(self.bodies) if body in self.units}

    def parts_of(self, bodies: int) -> tuple[str, ...]:
        """The ids of all parts of a set of bodies."""
        return tuple(name for n in bits(bodies) for name in self.bodies[n])

    def flat_ones(self, order: Sequence[int], *, last: bool) -> list[int]:
        """The order of leaving with all boards that lie flat on the wall behind the others, or before them.

        Only among those of one place on the wall.
        """

        def flat(number: int) -> bool:
            return any(name in self.about and self.about[name].flat for name in self.bodies[number])

        def late(number: int) -> tuple[int, int, bool]:
            turn, place = self.ranks[number]
            return -turn, -place, flat(number) == last

        return sorted(order, key=late)

    def steps(self, moves: Sequence[Taken]) -> list[Step]:
        """The moves told backwards."""
        told = list(reversed(moves))
        legs = [self.legs(move) for move in told]
        sides = _sides_up(told, [bool(way) for way in legs])
        return [
            self.step(move, way, up, turned=turned) for move, way, (up, turned) in zip(told, legs, sides, strict=True)
        ]

    def step(self, move: Taken, legs: tuple[Leg, ...], up: int, *, turned: bool) -> Step:
        """One move told backwards."""
        closed = [joint for joint, _ in self.stage.between(move.movers, move.rest)]
        parts = self.parts_of(move.movers)
        into = tuple(sorted({name for joint in closed for name in joint.key if name not in parts}))
        return Step(
            name=self.called(move.movers),
            parts=parts,
            onto=self.parts_of(move.rest),
            legs=legs,
            into=into,
            joints=tuple(joint.key for joint in closed),
            cuts=tuple(key for joint in closed for key in joint.cuts),
            turned=turned,
            up="wall" if up == WALLWARD else "front",
        )

    def legs(self, move: Taken) -> tuple[Leg, ...]:
        """How it goes in: the ways out, backwards."""
        ways = self.ground.directions
        if move.first is not None:
            first, distance = move.first
            offset = tuple(part * distance for part in ways[first])
            clear = self.stage.past(move.movers, move.rest, ways[move.way], (offset[0], offset[1], offset[2]))
            return _leg(ways[move.way], clear), _leg(ways[first], distance)
        if not self.stage.between(move.movers, move.rest) and not self.stage.touches(move.movers, move.rest):
            return ()
        free = self.stage.free(move.movers, move.rest, ways[move.way])
        if not free:
            free = self.stage.past(move.movers, move.rest, ways[move.way])
        return (_leg(ways[move.way], free),)


def _sides_up(told: Sequence[Taken], moves: Sequence[bool]) -> list[tuple[int, bool]]:
    """For each step which side faces up, and whether what is together must be turned over before.

    An assembly begins lying as its first step asks that comes from one side; `moves` says which steps are more
    than laying something beside the rest.
    """
    up: dict[int, int] = {}
    asked: list[tuple[int, int]] = []
    for move, moving in zip(told, moves, strict=True):
        before = up.get(move.rest, NEITHER)
        now = (move.side if moving else NEITHER) or before
        asked.append((before, now))
        up[move.rest | move.movers] = now
    later: dict[int, int] = {}
    found: list[tuple[int, bool]] = []
    for move, (before, now) in zip(reversed(told), reversed(asked), strict=True):
        side = now or later.get(move.rest | move.movers, FRONT)
        later[move.rest] = before or side
        later.setdefault(move.movers, side)
        found.append((side, bool(before) and side != before))
    return found[::-1]


def _leg(out: Vec, distance: float) -> Leg:
    return Leg(
        direction=(round(-out[0], 9) + 0.0, round(-out[1], 9) + 0.0, round(-out[2], 9) + 0.0),
        distance=round(distance, 3) + 0.0,
    )
