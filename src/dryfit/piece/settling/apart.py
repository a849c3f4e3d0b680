"""Taking things apart on paper: bodies that stand in each other's way, along a few directions.

A `Blocking` says, for each direction and body, which others block it. A body that nothing blocks is taken
away; where none is free, the smallest set that moves as one. Taking something away only ever frees the
rest, so what is free may be taken at once: no choice need be undone, and what cannot be moved in the end
is locked for any order. Put together again, it all goes in backwards.

What leaves to the front (+z) goes in from the front, while the piece lies on its wall edges; what leaves
to the wall asks for it to lie on its front edges. All that is free on the side that faces up is taken
before the piece is turned, which for single bodies gives the fewest turns (removal never hurts). Lying on
its wall edges is the start; begun on its front edges it counts as turned once, but where that is no worse it
is begun so: nothing is together yet that must be turned.

Where there is a choice, what slides along its glue is taken after what does not, and what touches nothing last of
all, so that it lies there from the start.

On the wall (`barred` is given) nothing is turned over, and besides bodies the room stands in the way: behind them
the wall, below the floor, the ceiling and the side walls as far as they are known. What it shuts it shuts for good.

Bodies are numbered; sets of them are the bits of an integer.
"""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush
from itertools import chain
from typing import Protocol

FRONT, NEITHER, WALLWARD = 1, 0, -1
IDLE = 2


class Blocking(Protocol):
    """Who stands in whose way.

    Attributes:
        sides: of each direction: `FRONT`, `WALLWARD`, or `NEITHER` for a way in the plane of the elevation.
    """

    @property
    def sides(self) -> Sequence[int]:
        """Where each direction leads."""

    def open(self, body: int, rest: int) -> Iterable[int]:
        """Directions in which none of `rest` is known to stand in a body's way, those that suit it best first."""

    def blockers(self, way: int, body: int) -> int:
        """The set that is known to stand in a body's way."""

    def clear(self, way: int, movers: int, rest: int) -> bool:
        """Whether it is proved that `movers` leave `rest` unhindered; if not, `blockers` know more from now on."""

    def around(self, body: int) -> int:
        """The set of those whose ways out, or what they cost, may be others once a body is gone."""

    def cost(self, way: int, body: int, rest: int) -> int:
        """0 for a good way out of `rest`; more where it had better be put off; `IDLE` if the body touches nothing."""

    def detour(self, movers: int, rest: int, side: int) -> tuple[int, float, int] | None:
        """A way in two steps: along the first for a distance, then along the second; None if none is found."""


@dataclass(frozen=True, slots=True)
class Taken:
    """One move: `movers` leave `rest` along `way`, or first for `first[1]` along the way `first[0]`.

    Attributes:
        side: which side of the piece faces up while it is done.
        grouped: whether the movers must themselves be taken apart afterwards, as they then are.
    """

    movers: int
    rest: int
    way: int
    side: int
    first: tuple[int, float] | None = None
    grouped: bool = False


@dataclass(frozen=True, slots=True)
class Apart:
    """How far it came apart.

    Attributes:
        moves: in the order in which things leave.
        locked: sets in which nothing can move.
        turns: how often the piece is turned over when it is put together, lying on its wall edges first.
        start: the side that faces up first.
    """

    moves: tuple[Taken, ...]
    locked: tuple[int, ...]
    turns: int
    start: int = FRONT

    @property
    def together(self) -> int:
        """Turns once something is together: a piece may be begun lying on its front edges."""
        return self.turns - (self.start == WALLWARD)


def bits(bodies: int) -> Iterator[int]:
    """The numbers in a set, rising."""
    while bodies:
        low = bodies & -bodies
        yield low.bit_length() - 1
        bodies ^= low


class Shut:
    """Which ways each body is shut by each other, as far as is known: for a pair the set of directions, as bits.

    A body has few others near it, but a piece of many angles has many directions. So what is kept is one set of
    directions for each pair that is known of, and what is open to a body is looked up, not gone through.

    Attributes:
        every: the set of all directions.
        by: of each body, the directions that others shut to it, by their number.
        others: of each body, the set of those that shut any to it.
    """

    def __init__(self, bodies: int, directions: int) -> None:
        self.every = (1 << directions) - 1
        self.by: list[dict[int, int]] = [{} for _ in range(bodies)]
        self.others = [0] * bodies
        self._open: list[tuple[int, int] | None] = [None] * bodies

    def add(self, body: int, other: int, ways: int) -> None:
        """`other` stands in the way of `body` in these directions."""
        if ways:
            self.by[body][other] = self.by[body].get(other, 0) | ways
            self.others[body] |= 1 << other
            self._open[body] = None

    def open(self, body: int, rest: int) -> int:
        """The set of directions in which none of `rest` stands in the way of `body`."""
        near = rest & self.others[body]
        kept = self._open[body]
        if kept is not None and kept[0] == near:
            return kept[1]
        shut = 0
        for other, ways in self.by[body].items():
            if near >> other & 1:
                shut |= ways
        ways = self.every & ~shut
        self._open[body] = (near, ways)
        return ways

    def blockers(self, way: int, body: int) -> int:
        """The set of those that stand in the way of `body` in a direction."""
        found = 0
        for other, ways in self.by[body].items():
            if ways >> way & 1:
                found |= 1 << other
        return found


def take_apart(
    graph: Blocking,
    bodies: int,
    order: Sequence[int],
    turned: Sequence[int] | None = None,
    barred: Sequence[int] | None = None,
) -> Apart:
    """Take everything apart with as few turns as may be.

    Args:
        graph: who stands in whose way.
        bodies: the set to take apart.
        order: who goes first where there is a choice.
        turned: the same while the wall edges face up; as `order` if left out.
        barred: of each body the directions that the room shuts to it, as a set, where the piece is taken apart at its
            wall; it lies on the floor if this is left out.
    """
    orders = {FRONT: order, WALLWARD: order if turned is None else turned}
    front = _Run(graph, orders, barred).whole(bodies, FRONT)
    if front.turns == 0 or barred is not None:
        return front
    wallward = _Run(graph, orders).whole(bodies, WALLWARD)
    return min(front, wallward, key=lambda apart: (apart.turns, apart.together))


class _Ready:
    """Bodies that may be free on one side of the piece; the others sleep until something around them has left.

    Attributes:
        dear: by body, its ways out that cost something, each behind its cost.
    """

    def __init__(self, order: Sequence[int], bodies: int) -> None:
        self.order = [body for body in order if bodies >> body & 1]
        self.rank = {body: rank for rank, body in enumerate(self.order)}
        self.awake = list(range(len(self.order)))  # ranks, as a heap
        self.asleep: set[int] = set()
        self.dear: dict[int, list[tuple[int, int]]] = {}

    def next(self) -> int:
        """Who goes first of those awake, which puts it to sleep."""
        body = self.order[heappop(self.awake)]
        self.asleep.add(body)
        return body

    def wake(self, bodies: int) -> None:
        """Look at these again."""
        for body in bits(bodies):
            if body in self.asleep:
                self.asleep.remove(body)
                self.dear.pop(body, None)
                heappush(self.awake, self.rank[body])

    def left(self, bodies: int) -> list[int]:
        """Those of `bodies` that could go at a cost, in order."""
        return sorted((body for body in self.dear if bodies >> body & 1), key=self.rank.__getitem__)


class _Run:
    """One taking apart, from one side on."""

    def __init__(
        self, graph: Blocking, orders: Mapping[int, Sequence[int]], barred: Sequence[int] | None = None
    ) -> None:
        self.graph, self.orders, self.barred = graph, orders, barred

    def whole(self, bodies: int, side: int) -> Apart:
        moves: list[Taken] = []
        locked: list[int] = []
        turns, last = 0, FRONT
        ready = {side: _Ready(self.orders[side], bodies) for side in (FRONT, WALLWARD)}
        while bodies & (bodies - 1):
            move = self.one(bodies, side, ready[side])
            if move is None and self.barred is None:
                move = self.one(bodies, -side, ready[-side])
                if move is not None:
                    side, turns = -side, turns + 1
            if move is None:
                move = self.group(bodies, side)
            if move is None:
                locked.append(bodies)
                break
            moves.append(move)
            last = move.side or last
            bodies = move.rest
            for body in bits(move.movers):
                for each in ready.values():
                    each.wake(self.graph.around(body) & bodies)
            if move.grouped:
                apart = _Run(self.graph, self.orders).whole(move.movers, FRONT)  # by itself, on the floor
                moves.extend(apart.moves)
                locked.extend(apart.locked)
                turns += apart.turns
        return Apart(tuple(moves), tuple(locked), turns + (last == WALLWARD), last)

    def one(self, bodies: int, side: int, ready: _Ready) -> Taken | None:
        """A single body that is free on this side, or goes in two steps."""
        return self.straight(bodies, side, ready) or self.roundabout(bodies, side)

    def straight(self, bodies: int, side: int, ready: _Ready) -> Taken | None:
        """The first that is free at the least cost; what costs more is only looked at where nothing cheaper is free."""
        graph = self.graph
        while ready.awake:
            body = ready.next()
            if not bodies >> body & 1:
                continue
            for move in self.ways_out(body, bodies, side):
                cost = graph.cost(move.way, body, move.rest)
                if cost:
                    ready.dear.setdefault(body, []).append((cost, move.way))
                elif graph.clear(move.way, move.movers, move.rest):
                    return move
                if cost == IDLE:  # whatever the way
                    break
        idle: list[int] = []
        waiting: dict[int, list[Taken]] = {}
        for body in ready.left(bodies):
            for cost, way in ready.dear[body]:
                if cost == IDLE:
                    idle.append(body)
                else:
                    move = Taken(1 << body, bodies & ~(1 << body), way, graph.sides[way])
                    waiting.setdefault(cost, []).append(move)
        if idle and waiting:
            waiting[0] = self.unlocking(bodies, side, idle)
        dearer = (move for cost in sorted(waiting) for move in waiting[cost])
        unmoved = (move for body in idle for move in self.ways_out(body, bodies, side))
        return next((move for move in chain(dearer, unmoved) if graph.clear(move.way, move.movers, move.rest)), None)

    def ways_out(self, body: int, bodies: int, side: int) -> Iterator[Taken]:
        """Moves of a body in whose way nothing is known to stand, but those to the side that faces down."""
        graph, rest = self.graph, bodies & ~(1 << body)
        shut = self.barred[body] if self.barred is not None else 0
        for way in graph.open(body, rest):
            if graph.sides[way] != -side and not shut >> way & 1:
                yield Taken(1 << body, rest, way, graph.sides[way])

    def unlocking(self, bodies: int, side: int, idle: Sequence[int]) -> list[Taken]:
        """What touches nothing, where it alone stands in the way of something that would leave at no cost."""
        graph, found = self.graph, 0
        alone = sum(1 << body for body in idle)
        for body in bits(bodies & ~alone):
            rest = bodies & ~(1 << body)
            for way in graph.open(body, rest & ~alone):
                blocked = graph.blockers(way, body) & rest
                shut = self.barred is not None and self.barred[body] >> way & 1
                if blocked and graph.sides[way] != -side and not shut and not graph.cost(way, body, rest):
                    found |= blocked
        return [move for body in idle if found >> body & 1 for move in self.ways_out(body, bodies, side)]

    def roundabout(self, bodies: int, side: int) -> Taken | None:
        for body in self.orders[side]:
            own = 1 << body
            if bodies & own:
                found = self.graph.detour(own, bodies & ~own, side)
                if found is not None:
                    first, distance, then = found
                    up = self.graph.sides[then] or self.graph.sides[first]
                    return Taken(own, bodies & ~own, then, up, (first, distance))
        return None

    def group(self, bodies: int, side: int) -> Taken | None:
        """The smallest set that moves as one; on this side for choice."""
        graph = self.graph
        while True:
            found = sorted(self.closed(bodies), key=lambda item: (item[0].bit_count(), graph.sides[item[1]] == -side))
            if not found:
                return None
            for movers, way in found:
                if graph.clear(way, movers, bodies & ~movers):
                    return Taken(movers, bodies & ~movers, way, graph.sides[way], grouped=True)
            # every candidate has met something that was not known: look again with what is known now

    def closed(self, bodies: int) -> set[tuple[int, int]]:
        """Sets that nothing outside of them blocks, one for each body and direction, as far as is known."""
        found: set[tuple[int, int]] = set()
        for way in range(len(self.graph.sides)):
            blockers = {body: self.graph.blockers(way, body) & bodies for body in bits(bodies)}
            for body in blockers:
                reached = spread(1 << body, blockers)
                if reached != bodies and self.may_move(reached, bodies, way):
                    found.add((reached, way))
        return found

    def may_move(self, reached: int, bodies: int, way: int) -> bool:
        """Whether it is this set that moves off the others: the smaller one, and on the wall not into the room."""
        if self.barred is None:
            return 2 * reached.bit_count() <= bodies.bit_count()
        return not any(self.barred[body] >> way & 1 for body in bits(reached))


def spread(start: int, blockers: dict[int, int]) -> int:
    """All that must move with `start`."""
    reached, new = start, start
    while new:
        follows = 0
        for body in bits(new):
            follows |= blockers[body]
        new = follows & ~reached
        reached |= new
    return reached


def locks(
    graph: Blocking, locked: Sequence[int], order: Sequence[int], barred: Sequence[int] | None = None
) -> tuple[int, ...]:
    """Smallest sets that are locked by themselves, none of them touching another; `barred` as in `take_apart`."""
    found: list[int] = []
    waiting = list(locked)
    while waiting:
        bodies = waiting.pop(0)
        smallest = _smallest(graph, bodies, order, barred)
        found.append(smallest)
        waiting.extend(_left(graph, bodies & ~smallest, order, barred))
    return tuple(sorted(found))


def _smallest(graph: Blocking, bodies: int, order: Sequence[int], barred: Sequence[int] | None) -> int:
    """Leave out one after another: what is locked without it stays out."""
    for body in bits(bodies):
        if bodies & (1 << body):
            left = _left(graph, bodies & ~(1 << body), order, barred)
            if left:
                bodies = min(left, key=lambda item: (item.bit_count(), item))
    return bodies


def _left(graph: Blocking, bodies: int, order: Sequence[int], barred: Sequence[int] | None = None) -> tuple[int, ...]:
    return _Run(graph, {FRONT: order, WALLWARD: order}, barred).whole(bodies, FRONT).locked
