"""A locked set said in words: who can only leave after whom, and the cheapest change that frees it.

Changes are the kinds' own (`JointKind.eases`); one counts if the set comes apart once that joint parts as
it then would, everything else being as the solids show. Letting boards go in before a unit is glued counts if both
the unit and what is left of the set then come apart.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence

import numpy as np

from ...job.model import Unit
from ...piece.settling.apart import bits, take_apart
from ...piece.settling.locks import Tries, one_board, one_joint, with_boards
from ...piece.settling.ways import parting
from ...places import Cure, Pair
from ...sentences import Name, Sentence, Several, say
from .blocking import Blockers, Bodies, PartBodies
from .joints import Easing, JointValue
from .result import Locked


def locked_set(stage: PartBodies, bodies: int, called: Callable[[int], Sentence], units: Mapping[int, Unit]) -> Locked:
    """Say what is locked and what would free it; `units` by the number of their body."""
    freed = changed(stage, bodies, one_joint) or _opened(stage, bodies, units) or changed(stage, bodies, one_board)
    return Locked(
        parts=tuple(stage.ground.names[part] for part in bits(stage.parts(bodies))),
        says=called(bodies),
        waits=_waits(stage, bodies, called),
        cure=freed[1] if freed else None,
        joint=freed[0] if freed else None,
    )


def _waits(
    stage: PartBodies, bodies: int, called: Callable[[int], Sentence]
) -> tuple[tuple[Sentence, tuple[Sentence, ...]], ...]:
    def blocked(way: int) -> list[int]:
        return [stage.blockers(way, body) & bodies for body in bits(bodies)]

    way = min(range(len(stage.sides)), key=lambda way: (sum(mask.bit_count() for mask in blocked(way)), way))
    return tuple(
        (called(1 << body), tuple(called(1 << other) for other in bits(mask)))
        for body, mask in zip(bits(bodies), blocked(way), strict=True)
    )


def changed(
    stage: PartBodies, bodies: int, tries: Tries, barred: Sequence[int] | None = None
) -> tuple[Pair, Cure] | None:
    """The cheapest change of joints, and the first of them; `barred` by the room, where it is put up on the wall."""
    inside = list({joint.key: joint for joint, _ in stage.between(bodies, bodies)}.values())
    keys = [joint.key for joint in inside]
    for changes in tries(keys, [len(joint.easings) for joint in inside]):
        chosen = [(inside[joint], inside[joint].easings[ease]) for joint, ease in changes]
        if not take_apart(_Eased(stage, chosen), bodies, list(bits(bodies)), barred=barred).locked:
            label = say("{}", Several(tuple(easing.cure.label for _, easing in chosen)))
            cure = Cure(label=label, edits=tuple(e for _, easing in chosen for e in easing.cure.edits))
            return chosen[0][0].key, cure
    return None


def _opened(stage: PartBodies, bodies: int, units: Mapping[int, Unit]) -> tuple[None, Cure] | None:
    """Let a board, or all of them, go in before a unit of the set is glued."""
    ground = stage.ground
    single = [ground.names[stage.bodies[body][0]] for body in bits(bodies) if body not in units]
    for body, unit in units.items():
        if not bodies >> body & 1:
            continue
        for names in dict.fromkeys((*((name,) for name in single), tuple(single))):
            others: list[tuple[str, ...]] = [(name,) for name in single if name not in names]
            others += [other.boards for number, other in units.items() if number != body and bodies >> number & 1]
            grown = (*unit.boards, *names)
            if names and _free(ground, [(name,) for name in grown]) and _free(ground, [grown, *others]):
                let_in = Several(tuple(map(Name, names)))
                label = say("let {} go in before {} is glued", let_in, Name(unit.name))
                return None, Cure(label=label, edits=(with_boards(unit, names),))
    return None


def _free(ground: Blockers, bodies: Sequence[tuple[str, ...]]) -> bool:
    return not take_apart(PartBodies(ground, bodies), (1 << len(bodies)) - 1, range(len(bodies))).locked


class _Eased(Bodies):
    """A stage in which some joints part otherwise."""

    def __init__(self, stage: PartBodies, chosen: Sequence[tuple[JointValue, Easing]]) -> None:
        ground = stage.ground
        motions = [(joint.key[0], easing.motions) for joint, easing in chosen]
        eased: dict[tuple[int, int], int] = {}
        for (joint, _), parts in zip(chosen, parting(motions, np.asarray(ground.directions)), strict=True):
            one, other = (ground.number[name] for name in joint.key)
            for pair, leaves in zip(((one, other), (other, one)), parts, strict=True):
                eased[pair] = ground.blocked.every & ~leaves
        super().__init__(ground, stage.bodies, eased)
        self.stage = stage
        for body, others in stage.first_out.items():
            for other in bits(others):
                self._shut.add(body, other, self._shut.every)

    def open(self, body: int, rest: int) -> Iterator[int]:
        """The shortest way out as in the stage first."""
        return self.stage.in_order(body, self.shut.open(body, rest))

    def clear(self, way: int, movers: int, rest: int) -> bool:
        """Sweep what is not known; a joint that parts otherwise is taken at its word."""
        for part in bits(self.parts(movers)):
            self.ground.settle(way, part, self.parts(rest))
        return not any(self.blockers(way, body) & rest for body in bits(movers))

    def around(self, body: int) -> int:
        """Those that shut it any way."""
        return self.shut.others[body]

    def cost(self, way: int, body: int, rest: int) -> int:
        """Not asked for while a change is tried."""
        return 0

    def detour(self, movers: int, rest: int, side: int) -> tuple[int, float, int] | None:
        """Only straight moves are tried for a change."""
        return None
