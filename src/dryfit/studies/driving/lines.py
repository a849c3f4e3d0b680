"""When a screw can be driven: what stands before its mouth, step by step.

Bit, screw and drill come straight from the front, along the world's z. What must be free before the mouth is a
cylinder `WIDE` across, and as long as `joints.screws.chain.Plan.line` has it. What stands in it

- over the mouth itself: it is covered;
- elsewhere: the line is too short from then on;
- beside the bit alone, where no drill comes: it can be driven, with care;
- nowhere in it, but so that the hand can hold the drill on no side (`hands`): the same.

Where a drill is barred so as soon as the screw can be driven, an angle driver of the shop's is tried.

Boards only come, so that what bars a screw at one step bars it at all later ones.

Worked example: a counterbore 200 deep, a driver of 230, a screw 110 that travels 50: max(230, 110, 30 + 50 + 200) =
280 must be free. A board that comes at step 5 and stands 90 before the mouth leaves steps 1 to 4.
"""

import math
from collections.abc import Callable, Iterable, Iterator, Mapping, Sequence, Set
from dataclasses import dataclass
from typing import TypeAlias

from ...joints.screws.chain import DRILL
from ...piece.meetings import TOUCHING
from ...sentences import Name, Words, say
from .hands import TURNS, HandRoom
from .result import Driven, InTheLine, Tool
from .value import AngleDriver, DrivingValue, RoomAlong, ScrewValue
from .wood import CONTACT, ConvexBody, WoodAhead

WIDE = 70.0  # across a drill (common practice)
LOWEST, HIGHEST = 30.0, 200.0  # heads of angle drivers over the bit's end (from memory; as the shop file takes them)
RoomEnd: TypeAlias = tuple[int, float, int, Words]  # axis, place, side of it on which the room is, and what it is
DRILLED: Tool = "drill"
TURNED: Tool = "angle driver"


@dataclass(frozen=True)
class DriverLine:
    """The line of one driver: from a mouth out along z."""

    at: tuple[float, float]
    front: float
    long: float
    bit_out: float  # of the bit, out of the mouth when the screw is home: no drill comes nearer
    bore: float
    hand: HandRoom | None = None

    def bar(self, own: Sequence[ConvexBody]) -> tuple[float, bool, bool] | None:
        """How far off one part stands in it, whether it lies over the mouth, whether it is beside the bit alone."""
        beside, blocked, lies = math.inf, math.inf, False
        for body in own:
            wide = self._within(body, WIDE / 2)
            if wide is None:
                continue
            narrow = self._within(body, self.bore / 2)
            lies = lies or (narrow is not None and narrow[0] <= TOUCHING)
            if narrow is None and wide[1] <= self.bit_out + CONTACT:
                beside = min(beside, wide[0])
            else:
                blocked = min(blocked, wide[0] if narrow is None else min(wide[0], narrow[0]))
        if blocked < math.inf:
            return blocked, lies, False
        return (beside, False, True) if beside < math.inf else None

    def _within(self, body: ConvexBody, radius: float) -> tuple[float, float] | None:
        """From where to where out of the mouth it stands in the line; None where it does not."""
        found = body.along_z(self.at, radius)
        if found is None:
            return None
        low, high = found[0] - self.front, found[1] - self.front
        return (max(low, 0.0), high) if high > CONTACT and low < self.long - CONTACT else None


class BeforeMouths:
    """What stands there for some screws that are driven along z.

    `comes` tells from which step on a part does, for a screw that can be driven from a step on.
    """

    def __init__(self, elevation: WoodAhead, comes: Callable[[str, int], int], ends: Sequence[RoomEnd] = ()) -> None:
        self._elevation, self._comes, self._ends = elevation, comes, ends

    def bars(self, line: DriverLine, board: str, here: int) -> tuple[InTheLine, ...]:
        """What comes to stand in a line, or leaves the hand no room: by step, the nearest first."""
        found = [
            InTheLine(part="", says=says, step=here, distance=0.0, lies=False, beside=False)
            for axis, place, side, says in self._ends
            if (line.at[axis] - place) * side < WIDE / 2 - CONTACT
        ]
        own: dict[str, list[ConvexBody]] = {}
        for body in self._elevation.near(line.at, WIDE / 2, line.front):
            own.setdefault(body.part, []).append(body)
        for part, some in own.items():
            bar = line.bar(some) if part != board else None
            if bar is not None:
                distance, lies, beside = bar
                found.append(
                    InTheLine(
                        part=part,
                        says=say("{}", Name(part)),
                        step=self._comes(part, here),
                        distance=round(distance, 6),
                        lies=lies,
                        beside=beside,
                    )
                )
        found += self._hand(line, board, here, {bar.part for bar in found})
        found.sort(key=lambda bar: (bar.step, bar.beside, bar.distance, bar.part))
        return tuple(found)

    def _hand(self, line: DriverLine, board: str, here: int, told: Set[str]) -> Iterator[InTheLine]:
        """What leaves the hand no side to be on, from the first step at which none is left; nothing while one is."""
        room = line.hand
        if room is None:
            return
        near = [
            body
            for body in self._elevation.near(line.at, room.reach, line.front + room.low)
            if body.part != board and body.part not in told
        ]
        latest: tuple[int, str, Words] | None = None
        for turn in range(TURNS):
            ends = [
                (here, "", says)
                for axis, place, side, says in self._ends
                if any((corner[axis] - place) * side < -CONTACT for corner in room.corners(line.at, turn))
            ]
            met = {body.part for body in near if room.meets(body, line.at, line.front, turn)}
            first = min(
                (*ends, *((self._comes(part, here), part, say("{}", Name(part))) for part in met)),
                key=lambda one: (one[0], one[1]),
                default=None,
            )
            if first is None:
                return
            latest = first if latest is None or first[0] > latest[0] else latest
        if latest is not None:
            step, part, says = latest
            yield InTheLine(part=part, says=says, step=step, distance=room.low, lies=False, beside=True, hand=True)


def room_ends(value: DrivingValue) -> tuple[RoomEnd, ...]:
    """Planes that end the room, as far as they are known."""
    ends = (
        (1, value.floor, 1, "the floor"),
        (1, value.ceiling, -1, "the ceiling"),
        (0, value.left, 1, "the left end of the wall"),
        (0, value.right, -1, "the right end of the wall"),
    )
    return tuple((axis, place, side, says) for axis, place, side, says in ends if place is not None)


class Site:
    """All that stands at the wall, step by step."""

    def __init__(self, value: DrivingValue, every: Sequence[ConvexBody]) -> None:
        self.value, self.steps = value, value.steps
        self.comes = {
            part: number
            for number, step in reversed([*enumerate(self.steps, 1)])
            for part in step.parts
            if step.on_wall
        }
        self._standing = BeforeMouths(WoodAhead(every), self._from, room_ends(value))

    def _from(self, part: str, here: int) -> int:
        return max(self.comes.get(part, here), here)

    def bars(self, line: DriverLine, board: str) -> tuple[InTheLine, ...]:
        """What comes to stand in a line: by step, the nearest first."""
        return self._standing.bars(line, board, self.comes[board])

    def waits_for(self, step: int, here: int, until: int) -> tuple[int, Words]:
        """The step at which a screw is tightened, and what is put in before: the first that slides into what it holds.

        Args:
            step: at which it is driven; `here` at which its board came, with all that came with it.
            until: the last at which its line is free.
        """
        holds = set(self.steps[here - 1].parts)
        for number, later in enumerate(self.steps[step:until], step + 1):
            if later.on_wall and holds.intersection(later.into):
                return number, later.says
        return step, ""


def line_of(screw: ScrewValue, bit: float, long: float, shift: float = 0.0) -> DriverLine:
    """The line of a screw with a drill and a bit so long, moved along its board."""
    (x, y, z), way = screw.mouth, screw.along.way if screw.along is not None else (0.0, 0.0)
    at, out = (x + shift * way[0], y + shift * way[1]), bit - screw.deep
    hand = HandRoom.of(out, screw.travel, DRILL, angle=False)
    return DriverLine(at=at, front=z, long=long, bit_out=out, bore=screw.counterbore, hand=hand)


def angle_line(screw: ScrewValue, driver: AngleDriver) -> DriverLine:
    """The same with an angle driver."""
    (x, y, z), out = screw.mouth, driver.bit - screw.deep
    hand = HandRoom.of(out, screw.travel, driver.head, angle=True)
    return DriverLine(at=(x, y), front=z, long=driver.line, bit_out=out, bore=screw.counterbore, hand=hand)


def free_until(bars: Sequence[InTheLine], here: int, steps: int) -> int | None:
    """The last step at which a line is free; None where it is at none from `here` on."""
    first = min((bar.step for bar in bars if not bar.beside), default=steps + 1)
    return first - 1 if first > here else None


def barred(bars: Sequence[InTheLine], here: int) -> bool:
    """Whether something is in the way, or the hand has no room, as soon as a screw can be driven."""
    return any(bar.step <= here for bar in bars)


def driven(site: Site, screw: ScrewValue, own: Mapping[str, Sequence[ConvexBody]]) -> Driven:
    """When a screw is driven and tightened."""
    bit, long = screw.lines[0]
    bars, here = site.bars(line_of(screw, bit, long), screw.board), site.comes[screw.board]
    owned, bit_from, tool = screw.owned, screw.bit_from, DRILLED
    if barred(bars, here):
        for driver in screw.angles:
            other = site.bars(angle_line(screw, driver), screw.board)
            if not barred(other, here):
                bars, bit, long, owned, bit_from, tool = other, driver.bit, driver.line, driver.name, "the shop", TURNED
                break
    until = free_until(bars, here, len(site.steps))
    step = _step(screw.asked, here, len(site.steps), until, bars)
    tight, waits = (None, "") if step is None else site.waits_for(step, here, max(step, until or step))
    return Driven(
        fixing=screw.fixing,
        number=screw.number,
        cut=screw.cut,
        board=screw.board,
        mouth=screw.mouth,
        screw=screw.screw,
        anchor=screw.anchor,
        plugged=screw.plugged,
        counterbore=screw.counterbore,
        deep=screw.deep,
        stands=screw.stands,
        bit=bit,
        least=screw.least,
        bit_from=bit_from,
        owned=owned,
        tool=tool,
        line=long,
        wide=WIDE,
        here=here,
        until=until,
        step=step,
        asked=screw.asked,
        tight=tight,
        waits=waits,
        shorter=_freeing(site, screw, screw.lines[1:]) if until is None else None,
        moved=_moved(site, screw, bars, own) if until is None else None,
        bars=bars,
        covered=next((bar for bar in bars if bar.lies), None),
        longer=_freeing(site, screw, screw.longer) if until is None else None,
        angle=_angle(site, screw, bars) if until is None else None,
    )


def _step(asked: int | None, here: int, steps: int, until: int | None, bars: Sequence[InTheLine]) -> int | None:
    """As early as its board is there, or as the maker says; None where it can be driven at neither."""
    if until is None:
        return None
    if asked is None:
        return here
    if asked < here or any(bar.lies and bar.step <= asked for bar in bars):
        return None
    return min(asked, steps)


# ---- what would free a line


def _freeing(site: Site, screw: ScrewValue, drivers: Iterable[tuple[float, float]]) -> float | None:
    """The first driver with which the line is free when the screw's board comes; None where it is with none."""
    here = site.comes[screw.board]
    for bit, long in drivers:
        if free_until(site.bars(line_of(screw, bit, long), screw.board), here, len(site.steps)) is not None:
            return bit
    return None


def _angle(site: Site, screw: ScrewValue, bars: Sequence[InTheLine]) -> float | None:
    """How high the head of an angle driver may be that goes in with the shortest bit; None where none does.

    Its line is as `joints.screws.chain.Plan.line` has it, with the head in the place of the drill.
    """
    here = site.comes[screw.board]
    free = min((bar.distance for bar in bars if bar.step <= here and not bar.beside), default=math.inf)
    out = screw.least - screw.deep + screw.travel
    head = math.floor(min(free - out, HIGHEST) + CONTACT)
    long = max(screw.least, screw.stands.length, out + head)
    if head < LOWEST or long > free + CONTACT:
        return None
    line = angle_line(screw, AngleDriver(name="", bit=screw.least, head=head, line=long))
    return None if barred(site.bars(line, screw.board), here) else float(head)


def _moved(
    site: Site, screw: ScrewValue, bars: Sequence[InTheLine], own: Mapping[str, Sequence[ConvexBody]]
) -> float | None:
    """The nearest place along its board, from its line's start, at which its line is free; None where there is none."""
    along = screw.along
    if along is None:
        return None
    bit, long = screw.lines[0]
    here = site.comes[screw.board]
    barred = [bar.part for bar in bars if not bar.beside and bar.step <= here]
    places = {at for part in barred for at in _beside(screw, along, own.get(part, ()))}
    for at in sorted(places, key=lambda at: (abs(at - along.at), at)):
        if not along.low <= at <= along.high or any(abs(at - other) < along.apart for other in along.others):
            continue
        if any(low < at < high for low, high in along.taken):
            continue
        line = line_of(screw, bit, long, at - along.at)
        if free_until(site.bars(line, screw.board), here, len(site.steps)) is not None:
            return at
    return None


def _beside(screw: ScrewValue, along: RoomAlong, own: Sequence[ConvexBody]) -> Iterator[float]:
    """Either side of a part, whole millimetres from the line's start."""
    x, y, _ = screw.mouth
    off = [(px - x) * along.way[0] + (py - y) * along.way[1] for body in own for px, py in body.xy]
    if off:
        yield float(math.ceil(along.at + max(off) + WIDE / 2))
        yield float(math.floor(along.at + min(off) - WIDE / 2))
