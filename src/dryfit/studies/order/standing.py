"""The order on the wall: the piece stands at it from the first step, and the room is in the way as well.

It is taken apart as on the floor (`piece.apart`, the same exact sweeps), but nothing is turned over, and behind what
hangs is the wall. What is wider than the way to its place cannot be told from what is joined: both are swept. The wall
is taken where it touches the packed boards, at z = 0: the gap that packing leaves is no way in, since a wall that is
not flat has none at its high places.
"""

from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np

from ...geometry.frames import Vec
from ...job.model import Turn, Unit
from ...piece.settling.apart import FRONT, IDLE, NEITHER, Apart, Taken, bits, locks, take_apart
from ...piece.settling.locks import one_board, one_joint
from ...piece.settling.ways import STRAY, as_set, free_after
from ...places import Cure, Pair
from .blocking import Blockers, PartBodies
from .locks import changed
from .result import Bar, Barred, Bound, From, Hold, Leg, OnTheWall, Step, WallStep
from .staging import BoardValue, Staged
from .sweeps import CONTACT

DROPS, WIPES = 1, 3  # rather one more pair of hands, where something else would be left in the air, than glue wiped off
OUT: Vec = (0.0, 0.0, 1.0)
# What bounds the room: the axis on which it stands, and whether it lies below a body there or above it.
BOUNDS: Mapping[Bound, tuple[int, int]] = {
    "wall": (2, -1),
    "floor": (1, -1),
    "ceiling": (1, 1),
    "left wall": (0, -1),
    "right wall": (0, 1),
}
AXES: tuple[tuple[From, From], ...] = (("left", "right"), ("below", "above"), ("behind", "front"))


@dataclass(frozen=True, slots=True, kw_only=True)
class WallValue:
    """The wall, the room as far as it is known, and what is put up as one.

    Attributes:
        room: what bounds it, each with its place in mm.
        bodies: the boards of each thing that is carried as one.
        fixed: boards that a fixing holds to the wall.
        asked: whether the job gives places in the order on the wall.
    """

    room: tuple[tuple[Bound, float], ...]
    bodies: tuple[tuple[str, ...], ...]
    fixed: tuple[str, ...]
    asked: bool


def on_the_wall(
    ground: Blockers, about: dict[str, BoardValue], wall: WallValue, units: Sequence[Unit], places: Mapping[str, Turn]
) -> OnTheWall | None:
    """The order in which it is put up, or what bars it; None where nothing is left to be put up."""
    bodies = [tuple(name for name in body if name in ground.number) for body in wall.bodies]
    left = [body for body in bodies if body]
    return _Upright(ground, about, wall, left, units, places).up() if left else None


class AtTheWall(PartBodies):
    """Bodies at their wall: who stands in whose way, and what the room shuts.

    Attributes:
        barred: of each body, the directions that the room shuts to it for good.
        held: bodies that hold by themselves: by fixings, or standing on the floor.
    """

    def __init__(
        self,
        ground: Blockers,
        bodies: Sequence[Sequence[str]],
        first_out: Mapping[int, int],
        room: Sequence[tuple[Bound, float]],
        held: int,
    ) -> None:
        super().__init__(ground, bodies, first_out)
        self.room, self.held = tuple(room), held
        ways = np.asarray(ground.directions).reshape(-1, 3)
        self._towards = {bound: as_set(sign * ways[:, axis] > STRAY) for bound, (axis, sign) in BOUNDS.items()}
        self.barred = [self._barred(body) for body in range(len(self.bodies))]
        self._asked = dict.fromkeys(self._asked, self._shut.every)  # what the room leaves may be a first step anywhere

    def bounds(self, body: int) -> Iterator[tuple[Bound, float]]:
        """What of the room is in the way of a body, and how far off it is; what it stands in already is not."""
        for bound, gap in self._gaps(list(self.bodies[body])):
            if gap >= -1.0:  # as near as an end stands to it
                yield bound, max(gap, 0.0)

    def _gaps(self, parts: list[int]) -> Iterator[tuple[Bound, float]]:
        low, high = (boxes[parts] for boxes in self.ground.boxes)
        for bound, place in self.room:
            axis, sign = BOUNDS[bound]
            yield bound, float(low[:, axis].min() - place if sign < 0 else place - high[:, axis].max())

    def _barred(self, body: int) -> int:
        shut = 0
        for bound, _ in self.bounds(body):
            shut |= self._towards[bound]
        return shut

    def ways_off(self, body: int, side: int) -> int:
        """What the room does not shut."""
        return self._shut.every & ~self.barred[body]

    def until_met(self, movers: list[int], met: Callable[[Vec, Vec], float]) -> Callable[[Vec, Vec], float]:
        """The room is met too."""
        bounds = [(*BOUNDS[bound], max(gap, 0.0)) for bound, gap in self._gaps(movers) if gap >= -1.0]

        def until(way: Vec, offset: Vec) -> float:
            far = met(way, offset)
            for axis, sign, gap in bounds:
                speed = sign * way[axis]
                if speed > STRAY:
                    far = min(far, max((gap + CONTACT - sign * offset[axis]) / speed, 0.0))
            return far

        return until

    def cost(self, way: int, body: int, rest: int) -> int:
        """More where something would be left hanging in the air, most where glue would be wiped off.

        What touches nothing is held by hands unless it holds by itself: it goes up as late as may be.
        """
        if not self.touches(1 << body, rest):
            return IDLE if self.held >> body & 1 else 0
        if self.wipes(way, body, rest):
            return WIPES
        return DROPS if self.drops(body, rest) else 0

    def drops(self, body: int, rest: int) -> bool:
        """Whether something that does not hold by itself is joined to nothing else that is there."""
        return any(not self._joined[other] & rest for other in bits(self._joined[body] & rest & ~self.held))

    def joined_to(self, body: int) -> int:
        """The set of those that a joint holds to it."""
        return self._joined[body]

    def needed_for(self, way: int) -> tuple[Bound, ...]:
        """What bounds the room in a direction."""
        return tuple(bound for bound, _ in self.room if self._towards[bound] >> way & 1)


class _Upright(Staged):
    """The stage on the wall."""

    def __init__(
        self,
        ground: Blockers,
        about: dict[str, BoardValue],
        wall: WallValue,
        bodies: Sequence[tuple[str, ...]],
        units: Sequence[Unit],
        places: Mapping[str, Turn],
    ) -> None:
        self.wall = wall
        super().__init__(ground, about, "", bodies, units, "site", places)

    def staged(self) -> PartBodies:
        """The bodies at their wall."""
        self.at_wall = AtTheWall(self.ground, self.bodies, self.first_out(), self.wall.room, self.held)
        return self.at_wall

    @cached_property
    def held(self) -> int:
        """Bodies that a fixing holds, or that stand on the floor."""
        return self.fixed | self.on_floor

    @cached_property
    def fixed(self) -> int:
        """Bodies that a fixing holds."""
        fixed = set(self.wall.fixed)
        return sum(1 << number for number, body in enumerate(self.bodies) if fixed.intersection(body))

    @cached_property
    def on_floor(self) -> int:
        """Bodies that stand on the floor, where it is known."""
        floor = dict(self.wall.room).get("floor")
        if floor is None:
            return 0
        low = self.ground.boxes[0][:, 1]
        lowest = [min(float(low[self.ground.number[name]]) for name in body) for body in self.bodies]
        return sum(1 << number for number, y in enumerate(lowest) if abs(y - floor) <= 1.0)

    def leaving(self) -> list[int]:
        """Who leaves first where there is a choice: what holds by itself is put up first, so it leaves last."""
        return sorted(super().leaving(), key=lambda n: (self.ranks[n], not self.held >> n & 1), reverse=True)

    def up(self) -> OnTheWall:
        order, everything = self.leaving(), (1 << len(self.bodies)) - 1
        apart = take_apart(self.stage, everything, order, barred=self.at_wall.barred)
        steps: tuple[WallStep, ...] = ()
        barred: tuple[Barred, ...] = ()
        mixed = [move.movers | move.rest for move in apart.moves if self.is_mixed(move)]
        if apart.locked or mixed:
            barred = tuple(self.every_bar([*apart.locked, *mixed], order))
        else:
            steps = tuple(self.put_up(apart))
        return OnTheWall(bodies=self.bodies, steps=steps, barred=barred, room=self.wall.room, asked=self.wall.asked)

    # --- steps -------------------------------------------------------------------------------------------

    def put_up(self, apart: Apart) -> Iterator[WallStep]:
        """The moves told backwards, what is put up first before all."""
        there, told = (1 << len(self.bodies)) - 1, list[tuple[Taken, bool]]()
        for move in apart.moves:
            up = move.movers | move.rest == there
            told.append((move, up))
            there = move.rest if up else there
        first = Taken(there, 0, self.ground.directions.index(OUT), FRONT)
        safe, waiting = 0, 0
        for move, up in ((first, True), *reversed(told)):
            step = self.step(move, self.way_in(move), NEITHER, turned=False)
            held: Hold = self.holds(move, safe) if up else "hands"
            low, high = self.room_for(move, step.legs)
            yield WallStep(
                step=step,
                comes=comes_from(step.legs[-1].direction),
                along=self.along(step),
                held=held,
                holding=self.parts_of(waiting) if up else (),
                low=low,
                high=high,
                on_wall=up,
            )
            if up:
                safe, waiting = self.settled(safe, waiting, move.movers, held)

    def settled(self, safe: int, waiting: int, movers: int, held: Hold) -> tuple[int, int]:
        """What is held, and what waits in somebody's hands, once the movers are there."""
        waiting |= movers
        new = 0 if held == "hands" else movers
        while new:
            safe, waiting = safe | new, waiting & ~new
            reached = 0
            for body in bits(new):
                reached |= self.at_wall.joined_to(body)
            new = reached & waiting
        return safe, waiting

    def way_in(self, move: Taken) -> tuple[Leg, ...]:
        """As on the floor; what touches nothing comes from the front, and is pushed as far as it is deep."""
        legs = self.legs(move) if move.rest else ()
        if legs and legs[-1].distance > 0.0:
            return legs
        low, high = self.box(move.movers)
        return (Leg(direction=(0.0, 0.0, -1.0), distance=round(high[2] - low[2], 3)),)

    def holds(self, move: Taken, safe: int) -> Hold:
        """What holds the movers, `safe` being the bodies there that are held."""
        if move.movers & self.fixed:
            return "fixings"
        if move.movers & self.on_floor:
            return "floor"
        joined = any(self.at_wall.joined_to(body) & safe & ~move.movers for body in bits(move.movers))
        return "joints" if joined else "hands"

    def along(self, step: Step) -> tuple[str, ...]:
        """Those along which it is slid home: whose joint does not simply come off."""
        x, y, z = step.legs[-1].direction
        closed, found = set(step.joints), set[str]()
        for joint in self.stage.joints:
            if joint.key in closed:
                mine = next(name for name in joint.key if name in step.parts)
                if free_after(joint.motions, mine, (-x + 0.0, -y + 0.0, -z + 0.0)):
                    found.add(joint.other(mine))
        return tuple(sorted(found))

    def box(self, bodies: int) -> tuple[Vec, Vec]:
        """Corners of the box around a set of bodies."""
        numbers = list(bits(self.stage.parts(bodies)))
        (a, b, c), (d, e, f) = (
            self.ground.boxes[0][numbers].min(axis=0).tolist(),
            self.ground.boxes[1][numbers].max(axis=0).tolist(),
        )
        return (a, b, c), (d, e, f)

    def room_for(self, move: Taken, legs: Sequence[Leg]) -> tuple[Vec, Vec]:
        """The box that the movers need on their way."""
        low, high = (np.asarray(corner) for corner in self.box(move.movers))
        stops = [np.zeros(3)]
        for leg in reversed(legs):
            stops.append(stops[-1] - np.asarray(leg.direction) * leg.distance)
        (a, b, c) = np.round(low + np.min(stops, axis=0), 3).tolist()
        (d, e, f) = np.round(high + np.max(stops, axis=0), 3).tolist()
        return (a, b, c), (d, e, f)

    # --- what bars it ------------------------------------------------------------------------------------

    def every_bar(self, stuck: Sequence[int], order: Sequence[int]) -> Iterator[Barred]:
        """One after another: what is barred is left out, and what is left looked at again."""
        waiting, barred = list(stuck), self.at_wall.barred
        while waiting:
            bodies = waiting.pop(0)
            left = take_apart(self.stage, bodies, order, barred=barred).locked
            (smallest, *_) = locks(self.stage, left, order, barred) if left else (bodies,)
            number, way = self.least(smallest)
            yield self.bars_of(number, way, smallest, self.cure(smallest) if left else None)
            waiting += take_apart(self.stage, bodies & ~(1 << number), order, barred=barred).locked if left else ()

    def cure(self, bodies: int) -> Cure | None:
        """The cheapest change of joints that helps."""
        barred = self.at_wall.barred
        found = changed(self.stage, bodies, one_joint, barred) or changed(self.stage, bodies, one_board, barred)
        return found[1] if found else None

    def least(self, bodies: int) -> tuple[int, int]:
        """Of those of a locked set that are to be put in latest, the one, and its way, on which least is in the way."""
        latest = max(self.ranks[number] for number in bits(bodies))
        late = [number for number in bits(bodies) if self.ranks[number] == latest]
        late = [number for number in late if not self.held >> number & 1] or late
        return min(
            ((number, way) for number in late for way in range(len(self.plain.sides))),
            key=lambda one: (*self.in_the_way(one[0], one[1], bodies), one),
        )

    @cached_property
    def plain(self) -> PartBodies:
        """The bodies without any places."""
        return PartBodies(self.ground, self.bodies)

    def bars_of(self, number: int, way: int, bodies: int, cure: Cure | None) -> Barred:
        """A body of a locked set, and what is in its way."""
        others = self.plain.blockers(way, number) & bodies
        inwards = _turned(self.ground.directions[way])
        return Barred(
            says=self.called(1 << number),
            parts=self.bodies[number],
            bar=Bar(
                comes=comes_from(inwards),
                direction=inwards,
                room=self.of_room(number, way),
                others=tuple(self.called(1 << other) for other in bits(others)),
                parts=self.parts_of(others),
                joints=tuple(self.only_so(number, bodies, way)),
            ),
            cure=cure,
        )

    def in_the_way(self, number: int, way: int, bodies: int) -> tuple[int, int]:
        """How many bodies, and how much of the room, are in the way of a body."""
        self.plain.clear(way, 1 << number, bodies & ~(1 << number))
        return (self.plain.blockers(way, number) & bodies).bit_count(), len(self.of_room(number, way))

    def of_room(self, number: int, way: int) -> tuple[Bound, ...]:
        """What of the room is in the way of a body."""
        met = set(self.at_wall.needed_for(way))
        return tuple(bound for bound, _ in self.at_wall.bounds(number) if bound in met)

    def only_so(self, number: int, bodies: int, way: int) -> Iterator[Pair]:
        """Its joints with the others that part in this direction and not in the opposite one."""
        for joint, name in self.plain.between(1 << number, bodies & ~(1 << number)):
            leaves = self.ground.leaves(self.ground.joints.index(joint), self.ground.number[name])
            if leaves >> way & 1 and not leaves >> (way ^ 1) & 1:
                yield joint.key


def comes_from(direction: Vec) -> From:
    """From where something comes that is moved in this direction: by its greatest part."""
    axis = max(range(3), key=lambda n: abs(direction[n]))
    return AXES[axis][direction[axis] < 0]


def _turned(way: Vec) -> Vec:
    return (-way[0] + 0.0, -way[1] + 0.0, -way[2] + 0.0)
