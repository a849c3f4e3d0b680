"""A locked set said in words: who can only leave after whom, and the cheapest change that frees it.

Changes are the kinds' own (`JointKind.eases`); one counts if the set comes apart once that joint parts as
it then would, everything else being as the solids show.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ...piece.apart import bits, take_apart
from ...piece.ways import permits
from ...places import Cure, Pair
from .blocking import Stage
from .joints import Easing, JointValue


@dataclass(frozen=True, slots=True, kw_only=True)
class Locked:
    """A smallest set of which nothing can be moved.

    Attributes:
        parts: ids of all its parts.
        says: its bodies in words.
        waits: (one, others): along the direction in which least is blocked, each and those it can only leave after.
        cure: the cheapest change that frees it, and the joint it changes; None where none was found.
    """

    parts: tuple[str, ...]
    says: str
    waits: tuple[tuple[str, tuple[str, ...]], ...]
    cure: Cure | None
    joint: Pair | None


def locked_set(stage: Stage, bodies: int, called: Callable[[int], str]) -> Locked:
    """Say what is locked and what would free it."""
    freed = _cheapest(stage, bodies)
    return Locked(
        parts=tuple(stage.ground.names[part] for part in bits(stage.parts(bodies))),
        says=called(bodies),
        waits=_waits(stage, bodies, called),
        cure=freed[1].cure if freed else None,
        joint=freed[0].key if freed else None,
    )


def _waits(stage: Stage, bodies: int, called: Callable[[int], str]) -> tuple[tuple[str, tuple[str, ...]], ...]:
    def blocked(way: int) -> list[int]:
        return [stage.blockers(way, body) & bodies for body in bits(bodies)]

    way = min(range(len(stage.sides)), key=lambda way: (sum(mask.bit_count() for mask in blocked(way)), way))
    return tuple(
        (called(1 << body), tuple(called(1 << other) for other in bits(mask)))
        for body, mask in zip(bits(bodies), blocked(way), strict=True)
    )


def _cheapest(stage: Stage, bodies: int) -> tuple[JointValue, Easing] | None:
    inside = list({joint.key: joint for joint, _ in stage.between(bodies, bodies)}.values())
    tries = [
        (cost, number, joint, easing)
        for number, joint in enumerate(reversed(inside))
        for cost, easing in enumerate(joint.easings)
    ]
    for _, _, joint, easing in sorted(tries, key=lambda item: item[:2]):
        eased = _Eased(stage, joint, easing)
        if not take_apart(eased, bodies, list(bits(bodies))).locked:
            return joint, easing
    return None


class _Eased:
    """A stage in which one joint parts otherwise."""

    def __init__(self, stage: Stage, joint: JointValue, easing: Easing) -> None:
        self.stage, self.joint, self.easing = stage, joint, easing
        self.sides: Sequence[int] = stage.sides
        number = stage.ground.number
        self.pair = (number[joint.key[0]], number[joint.key[1]])

    def ways(self, body: int) -> Sequence[int]:
        return self.stage.ways(body)

    def blockers(self, way: int, body: int) -> int:
        found = 0
        for part in self.stage.bodies[body]:
            for other in self._in_way(way, part):
                if other in self.stage.body_of and self.stage.body_of[other] != body:
                    found |= 1 << self.stage.body_of[other]
        return found

    def _in_way(self, way: int, part: int) -> list[int]:
        ground = self.stage.ground
        known = ground.blocked[way][part] | ground.tied[way][part]
        if part not in self.pair:
            return list(bits(known))
        other = self.pair[1] if part == self.pair[0] else self.pair[0]
        known &= ~(1 << other)
        if not permits(self.easing.motions, ground.names[part], ground.directions[way]):
            known |= 1 << other
        return list(bits(known))

    def clear(self, way: int, movers: int, rest: int) -> bool:
        for part in bits(self.stage.parts(movers)):
            self.stage.ground.settle(way, part, self.stage.parts(rest))
        return not any(self.blockers(way, body) & rest for body in bits(movers))

    def detour(self, movers: int, rest: int, side: int) -> tuple[int, float, int] | None:
        return None
