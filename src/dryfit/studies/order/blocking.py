"""Who blocks whom, found as late as possible: near contacts first, far parts only for moves that are chosen.

`Ground` knows all parts of a piece and every sweep made so far; a `Stage` looks at some of them as bodies
(boards, or glued units) and serves `piece.apart`.
"""

import math
from collections.abc import Callable, Iterable, Sequence

import numpy as np

from ...geometry.frames import Vec, dot
from ...piece.apart import IDLE, bits
from ...piece.ways import free_after, permits, side_of
from .bodies import PartShape
from .contacts import contacts, directions
from .joints import JointValue
from .sweeps import boxes_met, in_the_way, pairs, pieces

NOWHERE: Vec = (0.0, 0.0, 0.0)
ROOM = 1.5  # mm: less than this is the play of walls and seats, no way out
SHORT = 0.05  # mm a first step stays short of what it would meet, so as not to rub on it from there
FEW = 4_000  # pairs of pieces: laid out on all their axes at once
PAST = 0.5  # mm a first step goes beyond what it must come free of, where there is room
SLIDE = 30.0  # mm along a glued face that still leave glue on it (common practice)
SQUARE = 0.3  # share of a direction from which on it presses a face home rather than wiping it


class Ground:
    """All parts, their contacts, and what is known of who stands in whose way.

    Attributes:
        blocked: by direction and part, the set of parts that stand in its way for good.
        swept: by direction and part, the parts for which that is settled.
        near: by part, the set of parts it touches.
        tied: by direction and part, those whose joint does not part that way: loose tongues and dowels, which
            no solid shows.
    """

    def __init__(self, parts: Sequence[PartShape], joints: Iterable[JointValue]) -> None:
        self.names = tuple(part.name for part in parts)
        self.number = {name: index for index, name in enumerate(self.names)}
        self.joints = tuple(joint for joint in joints if set(joint.key) <= self.number.keys())
        self.pieces = pieces(parts)
        self.contacts = contacts(self.pieces)
        motions = [motion.direction for joint in self.joints for motion in joint.motions]
        self.directions = directions(self.contacts.normals, motions)
        self.sides = tuple(side_of(direction) for direction in self.directions)
        count = len(self.names)
        self.blocked = [[0] * count for _ in self.directions]
        self.swept = [[0] * count for _ in self.directions]
        self.near = [0] * count
        self.tied = [[0] * count for _ in self.directions]
        self.low = np.asarray([self.pieces.low[self.pieces.of([part])].min(axis=0) for part in range(count)])
        self.high = np.asarray([self.pieces.high[self.pieces.of([part])].max(axis=0) for part in range(count)])
        self._near()
        self._ties()

    def _near(self) -> None:
        one, other = self.contacts.one, self.contacts.other
        i, j = self.pieces.owner[one], self.pieces.owner[other]
        count = len(self.names)
        for pair in np.unique(i * count + j).tolist():
            first, second = divmod(pair, count)
            self.near[first] |= 1 << second
            self.near[second] |= 1 << first
        for way in range(0, len(self.directions), 2):
            for turned, direction in ((0, self.directions[way]), (1, self.directions[way + 1])):
                met = np.isfinite(self.contacts.laid.hits(direction))
                for pair in np.unique(i[met] * count + j[met]).tolist():
                    first, second = divmod(pair, count)
                    self.note(way + turned, first, 1 << second)

    def _ties(self) -> None:
        for joint in self.joints:
            if joint.loose:
                p, q = (self.number[name] for name in joint.key)
                for way, direction in enumerate(self.directions):
                    if not permits(joint.motions, joint.key[0], direction):
                        self.tied[way][p] |= 1 << q
                        self.tied[way ^ 1][q] |= 1 << p

    def note(self, way: int, part: int, others: int) -> None:
        """Others stand in a part's way; and it in theirs, the other way."""
        self.blocked[way][part] |= others
        for other in bits(others):
            self.blocked[way ^ 1][other] |= 1 << part

    def settle(self, way: int, part: int, others: int) -> None:
        """Sweep one part against those others for which it is not known yet."""
        open_ones = others & ~self.swept[way][part] & ~self.blocked[way][part]
        if not open_ones:
            return
        numbers = list(bits(open_ones))
        hit = self.hits([part], numbers, self.directions[way], NOWHERE)
        self.note(way, part, sum(1 << number for number in numbers if hit[number] < math.inf))
        self.swept[way][part] |= open_ones
        for number in numbers:
            self.swept[way ^ 1][number] |= 1 << part

    def hits(self, movers: Iterable[int], rest: Iterable[int], direction: Vec, offset: Vec) -> dict[int, float]:
        """Distance until `movers` cut into each of `rest`, from where they stand moved by `offset`."""
        moved, numbers = list(movers), list(rest)
        found = dict.fromkeys(numbers, math.inf)
        whole = (self.low[moved].min(axis=0), self.high[moved].max(axis=0))
        near = in_the_way(self.pieces, whole, self.pieces.of(numbers), direction, offset)
        one, other = boxes_met(self.pieces, self.pieces.of(moved), near, direction, offset)
        if not len(one):
            return found
        times = pairs(self.pieces, one, other).hits(direction, offset)
        for owner, time in zip(self.pieces.owner[other].tolist(), times.tolist(), strict=True):
            if time < found[owner]:
                found[owner] = time
        return found


def _along(joint: JointValue, name: str, direction: Vec) -> float:
    """How squarely a direction parts faces that only touch; 0 where something must come free first."""
    touching = [motion for motion in joint.motions if motion.free == 0.0]
    return max(
        (dot(motion.direction, direction) * (1 if motion.body == name else -1) for motion in touching), default=0.0
    )


class Stage:
    """Some parts as bodies: what `piece.apart` asks.

    Attributes:
        bodies: the parts of each body, by number.
    """

    def __init__(self, ground: Ground, bodies: Sequence[Sequence[str]]) -> None:
        self.ground = ground
        self.bodies = tuple(tuple(ground.number[name] for name in body) for body in bodies)
        self.masks = tuple(sum(1 << part for part in body) for body in self.bodies)
        self.body_of = {part: index for index, body in enumerate(self.bodies) for part in body}
        self.sides = ground.sides
        self.joints = [
            joint
            for joint in ground.joints
            if all(ground.number[name] in self.body_of for name in joint.key)
            and self.body_of[ground.number[joint.key[0]]] != self.body_of[ground.number[joint.key[1]]]
        ]
        self._of_body: dict[int, list[tuple[JointValue, str]]] = {index: [] for index in range(len(self.bodies))}
        for joint in self.joints:
            for name in joint.key:
                self._of_body[self.body_of[ground.number[name]]].append((joint, name))
        self._near = [
            sum(
                {
                    1 << self.body_of[other]
                    for part in body
                    for other in bits(ground.near[part])
                    if other in self.body_of
                }
            )
            for body in self.bodies
        ]
        self._glued = {body for body, met in self._of_body.items() if any(joint.glued for joint, _ in met)}
        self._ways = [self._sorted(index) for index in range(len(self.bodies))]
        self._detours: dict[tuple[int, int, int], tuple[int, float, int] | None] = {}

    def _sorted(self, body: int) -> tuple[int, ...]:
        """The shortest way out of the body's joints first."""
        mine = self._of_body[body]

        def distance(way: int) -> tuple[float, float, int]:
            direction = self.ground.directions[way]
            free = [free_after(joint.motions, name, direction) for joint, name in mine]
            if None in free:
                return math.inf, 0.0, way
            square = sum(_along(joint, name, direction) for joint, name in mine)  # faces part squarely for choice
            return max((one for one in free if one is not None), default=0.0), round(-square, 6), way

        return tuple(sorted(range(len(self.sides)), key=distance))

    def ways(self, body: int) -> Sequence[int]:
        """Directions, the shortest way out first."""
        return self._ways[body]

    def parts(self, bodies: int) -> int:
        """The parts of a set of bodies, as a set."""
        return sum(self.masks[body] for body in bits(bodies))

    def blockers(self, way: int, body: int) -> int:
        """Bodies with a part that is known to stand in the way."""
        found = 0
        for part in self.bodies[body]:
            for other in bits((self.ground.blocked[way][part] | self.ground.tied[way][part]) & ~self.masks[body]):
                if other in self.body_of:
                    found |= 1 << self.body_of[other]
        return found

    def clear(self, way: int, movers: int, rest: int) -> bool:
        """Sweep the movers against all the rest, exactly."""
        others = self.parts(rest)
        met = 0
        for part in bits(self.parts(movers)):
            self.ground.settle(way, part, others)
            met |= (self.ground.blocked[way][part] | self.ground.tied[way][part]) & others
        return not met

    def cost(self, way: int, body: int, rest: int) -> int:
        """0; 1 where a glued joint would have to slide along its glue; `IDLE` where the body touches nothing."""
        if not self.touches(1 << body, rest):
            return IDLE
        return int(self.wipes(way, body, rest))

    def touches(self, movers: int, rest: int) -> bool:
        """Whether the movers lie at any of the rest."""
        return any(self._near[body] & rest for body in bits(movers))

    def wipes(self, way: int, body: int, rest: int) -> bool:
        """Whether a glued joint would have to slide along its glue."""
        if body not in self._glued:
            return False
        glued = [(joint, name) for joint, name in self.between(1 << body, rest) if joint.glued]
        direction = self.ground.directions[way]
        far = self.free(1 << body, rest, direction) or math.inf
        for joint, name in glued:
            free = free_after(joint.motions, name, direction)
            if free == 0.0 and _along(joint, name, direction) < SQUARE:
                free = far
            if free is not None and free > SLIDE:
                return True
        return False

    def detour(self, movers: int, rest: int, side: int) -> tuple[int, float, int] | None:
        """Along one way until free, or as far as there is room, or half of that; then along another."""
        key = (movers, rest, side)
        if key not in self._detours:
            self._detours[key] = self._detour(movers, rest, side)
        return self._detours[key]

    def _detour(self, movers: int, rest: int, side: int) -> tuple[int, float, int] | None:
        ground = self.ground
        moved, others = list(bits(self.parts(movers))), self.parts(rest)
        first_hit = self._swept(moved, list(bits(others)))
        ways = [way for way in self._ways[next(bits(movers))] if self.sides[way] != -side]
        for way in ways:
            if any(ground.tied[way][part] & others for part in moved):
                continue
            direction = ground.directions[way]
            for distance in self._stops(movers, rest, direction, first_hit(direction, NOWHERE)):
                offset = (direction[0] * distance, direction[1] * distance, direction[2] * distance)
                for then in ways:
                    if first_hit(ground.directions[then], offset) == math.inf:
                        return way, distance, then
        return None

    def _swept(self, movers: list[int], rest: list[int]) -> Callable[[Vec, Vec], float]:
        """Distance until the movers hit anything, by direction and offset; pairs are laid out once while few."""
        ground = self.ground
        one, other = ground.pieces.of(movers), ground.pieces.of(rest)
        if len(one) * len(other) > FEW:
            return lambda way, offset: min(ground.hits(movers, rest, way, offset).values(), default=math.inf)
        laid = pairs(ground.pieces, np.repeat(one, len(other)), np.tile(other, len(one)))
        return lambda way, offset: float(laid.hits(way, offset).min(initial=math.inf))

    def _stops(self, movers: int, rest: int, direction: Vec, room: float) -> list[float]:
        if room < ROOM:
            return []
        free = self.free(movers, rest, direction)
        stops = [] if free is None or free > room else [min(free + PAST, room)]
        if room < math.inf and not any(joint.loose for joint, _ in self.between(movers, rest)):
            stops += [room - SHORT, room / 2]
        return stops

    def between(self, movers: int, rest: int) -> list[tuple[JointValue, str]]:
        """Joints between two sets of bodies, each with its board on the movers' side."""
        return [
            (joint, name)
            for body in bits(movers)
            for joint, name in self._of_body[body]
            if 1 << self.body_of[self.ground.number[joint.other(name)]] & rest
        ]

    def free(self, movers: int, rest: int, direction: Vec) -> float | None:
        """Distance after which no joint holds the movers; None where some joint does not part that way."""
        free = [free_after(joint.motions, name, direction) for joint, name in self.between(movers, rest)]
        known = [one for one in free if one is not None]
        return max(known, default=0.0) if len(known) == len(free) else None

    def past(self, movers: int, rest: int, direction: Vec, offset: Vec = NOWHERE) -> float:
        """Distance after which the box around the movers is past the boxes of what they touch, or of all the rest."""
        ground = self.ground
        moved = list(bits(self.parts(movers)))
        touched = {ground.number[joint.other(name)] for joint, name in self.between(movers, rest)}
        others = sorted(touched) or list(bits(self.parts(rest)))
        way = np.asarray(direction)
        ends = [float((ground.pieces.corners[ground.pieces.of([p])].reshape(-1, 3) @ way).max()) for p in others]
        starts = [float((ground.pieces.corners[ground.pieces.of([p])].reshape(-1, 3) @ way).min()) for p in moved]
        return max(0.0, max(ends) - min(starts) - float(np.asarray(offset) @ way))
