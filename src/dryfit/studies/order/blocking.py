"""Who blocks whom, found as late as possible: near contacts first, far parts only for moves that are chosen.

`Blockers` knows all parts of a piece and every sweep made so far; a `PartBodies` looks at some of them as bodies
(boards, or glued units) and serves `piece.apart`.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence

import numpy as np

from ...geometry.bodies import PartShape
from ...geometry.frames import Vec, dot
from ...piece.settling.apart import FRONT, IDLE, WALLWARD, Shut, bits
from ...piece.settling.ways import as_set, free_after, parting, permits, side_of
from .contacts import contacts, directions
from .joints import JointValue
from .result import SLIDE
from .sweeps import Ints, Pairs, boxes_met, in_the_way, pairs, pieces

NOWHERE: Vec = (0.0, 0.0, 0.0)
ROOM = 1.5  # mm: less than this is the play of walls and seats, no way out
SHORT = 0.05  # mm a first step stays short of what it would meet, so as not to rub on it from there
FEW = 4_000  # pairs of pieces: laid out on all their axes at once
PAST = 0.5  # mm a first step goes beyond what it must come free of, where there is room
SQUARE = 0.3  # share of a direction from which on it presses a face home rather than wiping it


class Blockers:
    """All parts, their contacts, and what is known of who stands in whose way.

    Attributes:
        blocked: who stands in whose way for good.
        tied: whose joint does not part which way: loose tongues and dowels, which no solid shows.
        cramped: who is met within `ROOM`: there is no first step that way.
        learnt: (part, other, way) of what sweeps have found besides the contacts, in the order of finding.
        near: by part, the set of parts it touches.
        meets: of each part, its joints, by their number.
        parts_ways: of each joint, the directions in which its first board leaves the second.
    """

    def __init__(self, parts: Sequence[PartShape], joints: Iterable[JointValue]) -> None:
        self.names = tuple(part.name for part in parts)
        self.number = {name: index for index, name in enumerate(self.names)}
        self.joints = tuple(joint for joint in joints if set(joint.key) <= self.number.keys())
        self.pieces = pieces(parts)
        self.contacts = contacts(self.pieces)
        own = [motion for joint in self.joints for motion in joint.motions]
        motions = [way for motion in own for way in (motion.direction, *motion.within)]
        self.directions = directions(self.contacts.normals, motions)
        self.sides = tuple(side_of(direction) for direction in self.directions)
        count = len(self.names)
        self.blocked, self.tied, self.cramped = (Shut(count, len(self.directions)) for _ in range(3))
        self.even = sum(1 << way for way in range(0, len(self.directions), 2))
        self.learnt: list[tuple[int, int, int]] = []
        self._swept: dict[tuple[int, int], int] = {}
        self.near = [0] * count
        self.boxes = (
            np.asarray([self.pieces.low[self.pieces.of([part])].min(axis=0) for part in range(count)]),
            np.asarray([self.pieces.high[self.pieces.of([part])].max(axis=0) for part in range(count)]),
        )
        self.touching: dict[tuple[int, int], Pairs] = {}
        self._near()
        self.meets: list[list[int]] = [[] for _ in self.names]
        self.parts_ways: list[int] = []
        self._ties()

    def _near(self) -> None:
        """What the contacts show of every direction at once, pair by pair."""
        count, lines = len(self.names), np.asarray(self.directions)[::2]
        of = self.pieces.owner[self.contacts.one] * count + self.pieces.owner[self.contacts.other]
        order = np.argsort(of, kind="stable")
        ranked = of[order]
        starts = np.flatnonzero(np.diff(ranked, prepend=-1))
        for key, low, high in zip(ranked[starts].tolist(), starts, (*starts[1:], len(order)), strict=False):
            (i, j), rows = divmod(key, count), order[low:high]
            self.near[i] |= 1 << j
            self.near[j] |= 1 << i
            laid = self.touching[i, j] = self.contacts.laid.of(rows)
            soonest = laid.soonest(lines, ROOM).T.ravel()  # one way and the other, as directions are listed
            for shut, met in ((self.blocked, np.isfinite(soonest)), (self.cramped, soonest < ROOM)):
                found = as_set(met)
                shut.add(i, j, found)
                shut.add(j, i, self.turned(found))

    def _ties(self) -> None:
        motions = [(joint.key[0], joint.motions) for joint in self.joints]
        every = self.tied.every
        for number, (leaves, _) in enumerate(parting(motions, np.asarray(self.directions))):
            joint = self.joints[number]
            p, q = (self.number[name] for name in joint.key)
            self.meets[p].append(number)
            self.meets[q].append(number)
            self.parts_ways.append(leaves)
            if joint.loose:
                self.tied.add(p, q, every & ~leaves)
                self.tied.add(q, p, self.turned(every & ~leaves))

    def turned(self, ways: int) -> int:
        """The opposite of each direction of a set."""
        return (ways & self.even) << 1 | ways >> 1 & self.even

    def leaves(self, joint: int, part: int) -> int:
        """The directions in which a part leaves the other of a joint, by the joint's motions."""
        ways = self.parts_ways[joint]
        return ways if self.names[part] == self.joints[joint].key[0] else self.turned(ways)

    def settle(self, way: int, part: int, others: int) -> None:
        """Sweep one part against those others for which it is not known yet."""
        open_ones = others & ~self._swept.get((way, part), 0) & ~self.blocked.blockers(way, part)
        if not open_ones:
            return
        self._swept[way, part] = self._swept.get((way, part), 0) | open_ones
        for other in sorted(self.hits([part], members(open_ones), self.directions[way], NOWHERE)):
            for one, another, along in ((part, other, way), (other, part, way ^ 1)):
                self.blocked.add(one, another, 1 << along)
                self.learnt.append((one, another, along))

    def hits(self, movers: Iterable[int], rest: Ints, direction: Vec, offset: Vec) -> dict[int, float]:
        """Distance until `movers` cut into those of `rest` that they meet, from where they stand moved by `offset`."""
        moved = list(movers)
        low, high = self.boxes
        whole = (low[moved].min(axis=0), high[moved].max(axis=0))
        numbers = in_the_way(self.boxes, whole, rest, direction, offset)
        near = in_the_way(
            (self.pieces.low, self.pieces.high), whole, self.pieces.of(numbers.tolist()), direction, offset
        )
        one, other = boxes_met(self.pieces, self.pieces.of(moved), near, direction, offset)
        found: dict[int, float] = {}
        if not len(one):
            return found
        times = pairs(self.pieces, one, other).hits(direction, offset)
        for owner, time in zip(self.pieces.owner[other].tolist(), times.tolist(), strict=True):
            if time < found.get(owner, math.inf):
                found[owner] = time
        return found

    def clear_of_contacts(self, movers: Sequence[int], others: int, ways: int, offset: Vec) -> int:
        """Of a set of directions, those in which nothing that the movers touch is met from where they stand moved."""
        for part in movers:
            for other in bits(self.near[part] & others):
                numbers = members((ways | ways >> 1) & self.even)  # of the lines that they lie on
                lines = np.asarray(self.directions).reshape(-1, 3)[numbers]
                one, another, sign = (part, other, 1.0) if part < other else (other, part, -1.0)
                away = (sign * offset[0], sign * offset[1], sign * offset[2])
                met = np.zeros(len(self.directions), dtype=bool)
                met[numbers], met[numbers + 1] = np.isfinite(
                    self.touching[one, another].soonest(sign * lines, math.inf, away)
                )
                ways &= ~as_set(met)
        return ways


def members(chosen: int) -> Ints:
    """The numbers in a set, rising, as an array."""
    packed = np.frombuffer(chosen.to_bytes(chosen.bit_length() // 8 + 1, "little"), dtype=np.uint8)
    return np.nonzero(np.unpackbits(packed, bitorder="little"))[0]


def _along(joint: JointValue, name: str, direction: Vec) -> float:
    """How squarely a direction parts faces that only touch; 0 where something must come free first."""
    touching = [
        motion
        for motion in joint.motions
        if motion.free == 0.0 and (not motion.within or permits((motion,), name, direction))
    ]
    return max(
        (dot(motion.direction, direction) * (1 if motion.body == name else -1) for motion in touching), default=0.0
    )


class Bodies:
    """Some parts as bodies, and who of them stands in whose way, as far as the ground knows.

    Attributes:
        bodies: the parts of each body, by number.
        eased: directions that a part is shut by another, where that is taken otherwise than the ground knows it.
    """

    def __init__(
        self, ground: Blockers, bodies: Sequence[Sequence[int]], eased: Mapping[tuple[int, int], int] | None = None
    ) -> None:
        self.ground = ground
        self.bodies = tuple(tuple(body) for body in bodies)
        self.body_of = {part: index for index, body in enumerate(self.bodies) for part in body}
        self.sides = ground.sides
        self.eased = eased or {}
        self._shut = Shut(len(self.bodies), len(ground.directions))
        self._read = len(ground.learnt)
        self._single = all(body == (number,) for number, body in enumerate(self.bodies))
        for part in self.body_of:
            for known in (ground.blocked, ground.tied):
                for other, ways in known.by[part].items():
                    self._add(part, other, ways)
        for (part, other), ways in self.eased.items():
            self._between(part, other, ways)

    def _add(self, part: int, other: int, ways: int) -> None:
        if (part, other) not in self.eased:
            self._between(part, other, ways)

    def _between(self, part: int, other: int, ways: int) -> None:
        body, another = self.body_of.get(part), self.body_of.get(other)
        if body is not None and another is not None and body != another:
            self._shut.add(body, another, ways)

    @property
    def shut(self) -> Shut:
        """Who shuts which ways, with all that the ground has learnt by now."""
        for part, other, way in self.ground.learnt[self._read :]:
            self._add(part, other, 1 << way)
        self._read = len(self.ground.learnt)
        return self._shut

    def blockers(self, way: int, body: int) -> int:
        """Bodies with a part that is known to stand in the way."""
        return self.shut.blockers(way, body)

    def parts(self, bodies: int) -> int:
        """The parts of a set of bodies, as a set."""
        return bodies if self._single else sum(1 << part for body in bits(bodies) for part in self.bodies[body])


class PartBodies(Bodies):
    """Some parts as bodies: what `piece.apart` asks.

    Attributes:
        first_out: of each body, the set of those that are to leave before it: while one is there it is shut every way.
    """

    def __init__(
        self, ground: Blockers, bodies: Sequence[Sequence[str]], first_out: Mapping[int, int] | None = None
    ) -> None:
        super().__init__(ground, [[ground.number[name] for name in body] for body in bodies])
        self.first_out = first_out or {}
        self._freed = [0] * len(self.bodies)
        for body, others in self.first_out.items():
            for other in bits(others):
                self._shut.add(body, other, self._shut.every)
                self._freed[other] |= 1 << body
        self._of_body: list[list[tuple[JointValue, str]]] = [[] for _ in self.bodies]
        self._joined = [0] * len(self.bodies)
        self._fitting = [self._shut.every] * len(self.bodies)
        numbers = sorted({number for part in self.body_of for number in ground.meets[part]})
        self.joints = [ground.joints[number] for number in numbers if self._take(number)]
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
        self._glued = {body for body, met in enumerate(self._of_body) if any(joint.glued for joint, _ in met)}
        self._best = [self._sorted(index) for index in range(len(self.bodies))]
        self._asked = {
            side: sum(1 << way for way, leads in enumerate(self.sides) if leads != -side) for side in (FRONT, WALLWARD)
        }
        self._detours: dict[tuple[int, int, int], tuple[int, float, int] | None] = {}

    def _take(self, number: int) -> bool:
        """Note a joint with its bodies, if it is between two of them."""
        joint = self.ground.joints[number]
        parts = [self.ground.number[name] for name in joint.key]
        pair = [self.body_of.get(part) for part in parts]
        if pair[0] is None or pair[1] is None or pair[0] == pair[1]:
            return False
        for body, part, name in zip((pair[0], pair[1]), parts, joint.key, strict=True):
            self._of_body[body].append((joint, name))
            self._joined[body] |= (1 << pair[0] | 1 << pair[1]) & ~(1 << body)
            self._fitting[body] &= self.ground.leaves(number, part)
        return True

    def _sorted(self, body: int) -> tuple[int, ...]:
        """The directions in which all the body's joints part, the shortest way out first."""
        mine = self._of_body[body]

        def distance(way: int) -> tuple[float, float, int]:
            direction = self.ground.directions[way]
            free = (free_after(joint.motions, name, direction) for joint, name in mine)
            square = sum(_along(joint, name, direction) for joint, name in mine)  # faces part squarely for choice
            return max((one for one in free if one is not None), default=0.0), round(-square, 6), way

        return tuple(sorted(bits(self._fitting[body]), key=distance))

    def in_order(self, body: int, ways: int) -> Iterator[int]:
        """Directions of a set: the shortest way out of the body's joints first, those in which they hold last."""
        for way in self._best[body]:
            if ways >> way & 1:
                yield way
        yield from bits(ways & ~self._fitting[body])

    def open(self, body: int, rest: int) -> Iterator[int]:
        """Directions in which nothing is known to stand in the way, the shortest way out first."""
        return self.in_order(body, self.shut.open(body, rest))

    def clear(self, way: int, movers: int, rest: int) -> bool:
        """Sweep the movers against all the rest, exactly."""
        others = self.parts(rest)
        for part in bits(self.parts(movers)):
            self.ground.settle(way, part, others)
        return not any(self.blockers(way, body) & rest for body in bits(movers))

    def around(self, body: int) -> int:
        """Those that shut it any way, touch it, are joined to it or are to leave after it."""
        return self.shut.others[body] | self._near[body] | self._joined[body] | self._freed[body]

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
        if any(self.first_out.get(body, 0) & rest for body in bits(movers)):
            return None
        if key not in self._detours:
            self._detours[key] = self._detour(movers, rest, side)
        return self._detours[key]

    def _detour(self, movers: int, rest: int, side: int) -> tuple[int, float, int] | None:
        ground, body = self.ground, next(bits(movers))
        moved, others = list(bits(self.parts(movers))), self.parts(rest)
        firsts = self._asked[side]
        for part in moved:
            firsts &= ground.tied.open(part, others) & ground.cramped.open(part, others)
        first_hit = self.until_met(moved, self._swept(moved, others)) if firsts else None
        for way in self.in_order(body, firsts):
            assert first_hit is not None
            direction = ground.directions[way]
            for distance in self._stops(movers, rest, direction, first_hit(direction, NOWHERE)):
                offset = (direction[0] * distance, direction[1] * distance, direction[2] * distance)
                thens = ground.clear_of_contacts(moved, others, self.ways_off(body, side), offset)
                for then in self.in_order(body, thens):
                    if first_hit(ground.directions[then], offset) == math.inf:
                        return way, distance, then
        return None

    def ways_off(self, body: int, side: int) -> int:
        """The directions that a body may take for good, while that side faces up."""
        return self._asked[side]

    def until_met(self, movers: list[int], met: Callable[[Vec, Vec], float]) -> Callable[[Vec, Vec], float]:
        """Distance until the movers meet anything at all, from that until they meet what is to stay."""
        return met

    def _swept(self, movers: list[int], others: int) -> Callable[[Vec, Vec], float]:
        """Distance until the movers hit anything, by direction and offset; pairs are laid out once while few."""
        ground, rest = self.ground, members(others)
        one, other = ground.pieces.of(movers), ground.pieces.of(rest.tolist())
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
