"""A locked set said in words: who can only leave after whom, and the cheapest change that frees it.

Changes are the kinds' own (`JointKind.eases`); one counts if the set comes apart once that joint parts as
it then would, everything else being as the solids show.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from ...piece.apart import bits, take_apart
from ...piece.locks import one_board, one_joint
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
        cure=freed[1] if freed else None,
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


def _cheapest(stage: Stage, bodies: int) -> tuple[JointValue, Cure] | None:
    inside = list({joint.key: joint for joint, _ in stage.between(bodies, bodies)}.values())
    counts = [len(joint.easings) for joint in inside]
    keys = [joint.key for joint in inside]
    for changes in (*one_joint(keys, counts), *one_board(keys, counts)):
        chosen = [(inside[joint], inside[joint].easings[ease]) for joint, ease in changes]
        if not take_apart(_Eased(stage, chosen), bodies, list(bits(bodies))).locked:
            label = " and ".join(easing.cure.label for _, easing in chosen)
            return chosen[0][0], Cure(label=label, edits=tuple(e for _, easing in chosen for e in easing.cure.edits))
    return None


class _Eased:
    """A stage in which some joints part otherwise."""

    def __init__(self, stage: Stage, chosen: Sequence[tuple[JointValue, Easing]]) -> None:
        self.stage = stage
        self.sides: Sequence[int] = stage.sides
        number = stage.ground.number
        self.eased: dict[int, list[tuple[int, Easing]]] = {}
        for joint, easing in chosen:
            one, other = number[joint.key[0]], number[joint.key[1]]
            self.eased.setdefault(one, []).append((other, easing))
            self.eased.setdefault(other, []).append((one, easing))

    def ways(self, body: int) -> Sequence[int]:
        """As in the stage."""
        return self.stage.ways(body)

    def blockers(self, way: int, body: int) -> int:
        """As in the stage, but for the joints that part otherwise."""
        found = 0
        for part in self.stage.bodies[body]:
            for other in bits(self._in_way(way, part)):
                if other in self.stage.body_of and self.stage.body_of[other] != body:
                    found |= 1 << self.stage.body_of[other]
        return found

    def _in_way(self, way: int, part: int) -> int:
        ground = self.stage.ground
        known = ground.blocked[way][part] | ground.tied[way][part]
        for other, easing in self.eased.get(part, ()):
            known &= ~(1 << other)
            if not permits(easing.motions, ground.names[part], ground.directions[way]):
                known |= 1 << other
        return known

    def clear(self, way: int, movers: int, rest: int) -> bool:
        """Sweep what is not known; a joint that parts otherwise is taken at its word."""
        for part in bits(self.stage.parts(movers)):
            self.stage.ground.settle(way, part, self.stage.parts(rest))
        return not any(self.blockers(way, body) & rest for body in bits(movers))

    def detour(self, movers: int, rest: int, side: int) -> tuple[int, float, int] | None:
        """Only straight moves are tried for a change."""
        return None
