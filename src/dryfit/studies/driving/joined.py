"""Screws from board to board, step by step on the bench: when each can be driven, and what covers it from then on.

A screw is driven from its mouth straight against the way out of it, as soon as both its boards are together. What is
looked at is the same as of a screw into the wall: the drill's line, what lies over the mouth, the hand's room. On the
bench the piece can be turned, so that nothing but itself is in the way; what is put together where it hangs has the
wall, the floor and the ends of the room as well.

Worked example: two sides 24 thick, a shelf between them screwed through both; the screw 5 x 60 lies 11 deep and goes 44
into the shelf, so a bit of 50 wants 50 - 11 + 44 + 200 = 283 before each side's outer face. A third board over that
face bars it, unless it comes later.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace
from functools import partial

from ...geometry.bodies import PartShape
from ...geometry.frames import Frame, Vec, cross, dot
from ...joints.screws.chain import DRILL
from ...sentences import Words
from ..hanging.result import Hanging
from ..order.result import Order, Step
from .hands import HandRoom
from .lines import DRILLED, TURNED, WIDE, BeforeMouths, DriverLine, barred, free_until
from .result import BenchStep, InTheLine, JoinedScrew
from .value import DrivingValue, JoinedValue
from .wood import WoodAhead, bodies

SAME = 9  # digits of a direction by which screws are looked at together
WALL_SAYS = "the wall"


def bench_steps(order: Order, hanging: Hanging) -> tuple[BenchStep, ...]:
    """All steps of all stages, units first; of a piece put together on the wall the last stage is that."""
    if order.overlaps or not order.stages:
        return ()
    found: list[BenchStep] = []
    *units, whole = order.stages
    for stage in units:
        found += _of_stage(stage.name, stage.first, stage.steps)
    if order.wall is not None and hanging.way == "wall":
        for number, up in enumerate(order.wall.steps, 1):
            found.append(
                BenchStep(
                    stage="",
                    number=number,
                    says=up.step.name,
                    parts=up.step.parts,
                    onto=up.step.onto,
                    on_wall=up.on_wall,
                )
            )
    else:
        found += _of_stage(whole.name, whole.first, whole.steps)
    return tuple(found)


def _of_stage(name: str, first: tuple[str, ...], steps: Iterable[Step]) -> Iterator[BenchStep]:
    yield BenchStep(stage=name, number=0, says="", parts=first)
    for number, one in enumerate(steps, 1):
        yield BenchStep(stage=name, number=number, says=one.name, parts=one.parts, onto=one.onto)


class PartsMeeting:
    """From which step on any two parts are together.

    What is put together at a step hangs under one root from then on, the smaller tree under the larger: so no way up is
    longer than the logarithm of the parts, and the latest step on the way between two is that at which they met.
    """

    def __init__(self, bench: Sequence[BenchStep]) -> None:
        self._over: dict[str, str] = {}
        self._when: dict[str, int] = {}
        self._size: dict[str, int] = {}
        for number, step in enumerate(bench):
            first, *others = (*step.parts, *step.onto) or ("",)
            for other in others:
                self._join(first, other, number)

    def _root(self, part: str) -> str:
        while part in self._over:
            part = self._over[part]
        return part

    def _join(self, one: str, other: str, number: int) -> None:
        small, large = sorted((self._root(one), self._root(other)), key=lambda root: self._size.get(root, 1))
        if small != large:
            self._over[small], self._when[small] = large, number
            self._size[large] = self._size.get(large, 1) + self._size.get(small, 1)

    def since(self, one: str, other: str) -> int | None:
        """The step at which two parts meet; None where none brings them together."""
        latest = 0
        while one != other:
            whens = self._when.get(one, math.inf), self._when.get(other, math.inf)
            if min(whens) == math.inf:
                return None
            if whens[0] <= whens[1]:
                latest, one = max(latest, self._when[one]), self._over[one]
            else:
                latest, other = max(latest, self._when[other]), self._over[other]
        return latest


def joined_screws(value: DrivingValue) -> Iterator[JoinedScrew]:
    """When each can be driven; none of those whose boards no step brings together."""
    ahead: dict[tuple[float, ...], tuple[Frame, WoodAhead]] = {}
    together = PartsMeeting(value.bench)
    for screw in value.joined:
        key = tuple(round(part, SAME) + 0.0 for part in screw.out)
        if key not in ahead:
            frame = facing(screw.out)
            ahead[key] = frame, WoodAhead(bodies(turned(part, frame) for part in value.parts))
        frame, elevation = ahead[key]
        here = together.since(screw.board, screw.into)
        if here is not None:
            yield _driven(value, screw, frame, BeforeMouths(elevation, partial(_comes, together, screw.board)), here)


def _comes(together: PartsMeeting, board: str, part: str, here: int) -> int:
    """From when on a part stands before a screw of a board; one that never comes to it is as good as there."""
    since = together.since(board, part)
    return here if since is None else max(since, here)


def _driven(
    value: DrivingValue,
    screw: JoinedValue,
    frame: Frame,
    standing: BeforeMouths,
    here: int,
) -> JoinedScrew:
    x, y, front = frame.find(screw.mouth)

    def look(bit: float, long: float, behind: float, *, angle: bool) -> tuple[InTheLine, ...]:
        hand = HandRoom.of(bit - screw.deep, screw.travel, behind, angle=angle)
        line = DriverLine(
            at=(x, y), front=front, long=long, bit_out=bit - screw.deep, bore=screw.counterbore, hand=hand
        )
        ends = tuple(_ends(value, screw, long, here)) if value.bench[here].on_wall else ()
        return (*ends, *standing.bars(line, screw.board, here))

    bars, tool = look(screw.bit, screw.line, DRILL, angle=False), DRILLED
    bit, long, owned, bit_from = screw.bit, screw.line, screw.owned, screw.bit_from
    if barred(bars, here):
        for driver in screw.angles:
            other = look(driver.bit, driver.line, driver.head, angle=True)
            if not barred(other, here):
                bars, tool, bit, long, owned, bit_from = (
                    other, TURNED, driver.bit, driver.line, driver.name, "the shop",
                )  # fmt: skip
                break
    until = free_until(bars, here, len(value.bench) - 1)
    return JoinedScrew(
        joint=screw.joint,
        number=screw.number,
        cut=screw.cut,
        board=screw.board,
        into=screw.into,
        mouth=screw.mouth,
        out=screw.out,
        screw=screw.screw,
        bit=bit,
        bit_from=bit_from,
        owned=owned,
        tool=tool,
        line=long,
        wide=WIDE,
        here=here,
        until=until,
        step=None if until is None else here,
        bars=bars,
        covered=next((bar for bar in bars if bar.lies), None),
    )


def _ends(value: DrivingValue, screw: JoinedValue, long: float, here: int) -> Iterator[InTheLine]:
    """The wall, the floor and the ends of the room, where the drill's line goes past one."""
    planes: tuple[tuple[int, float | None, int, Words], ...] = (
        (2, 0.0, 1, WALL_SAYS),
        (1, value.floor, 1, "the floor"),
        (1, value.ceiling, -1, "the ceiling"),
        (0, value.left, 1, "the left end of the wall"),
        (0, value.right, -1, "the right end of the wall"),
    )
    for axis, place, side, says in planes:
        if place is None:
            continue
        start, way = screw.mouth[axis], screw.out[axis]
        wide = WIDE / 2 * math.sqrt(max(1.0 - way * way, 0.0))
        if (min(start * side, (start + long * way) * side) - wide) < place * side - 1e-6:
            free = max((place - start) / way, 0.0) if abs(way) > 1e-9 and way * side < 0 else 0.0
            yield InTheLine(part="", says=says, step=here, distance=round(min(free, long), 6), lies=False, beside=False)


def facing(out: Vec) -> Frame:
    """A frame at the world's origin whose z is a way out."""
    helper = (0.0, 0.0, 1.0) if abs(out[2]) < 0.9 else (1.0, 0.0, 0.0)
    x = cross(helper, out)
    long = math.sqrt(dot(x, x))
    x = (x[0] / long, x[1] / long, x[2] / long)
    return Frame((0.0, 0.0, 0.0), x, cross(out, x), out)


def turned(part: PartShape, frame: Frame) -> PartShape:
    """A part as it lies in another frame."""
    own = part.frame

    def way(v: Vec) -> Vec:
        return dot(v, frame.x), dot(v, frame.y), dot(v, frame.z)

    return replace(part, frame=Frame(frame.find(own.origin), way(own.x), way(own.y), way(own.z)))
