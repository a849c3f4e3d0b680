"""What long bores leave: wood between them and every other cut of the same board.

A bore runs across the whole board, so it is looked at as a disc in the board's (a, c) plane: how far its
rim stays from every outline swept across the board, from other bores, and from the ends.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from ..findings import Finding, Severity, declare, owns
from ..geometry.frames import WORLD, Vec2, length
from ..geometry.loops import hull
from ..geometry.polygons import distance
from ..geometry.shapes import Bore, HalfSpace, Prism, Shape
from ..geometry.solids import flattened
from ..job.names import fixing_of
from ..places import Cure, Where
from ..sentences import Fineness, Length, Name, On, Sentence, Value, say
from .model import WALL, Cut, Part
from .movable import ROUND, asked_to_move_fixing, compass
from .parts import called

BORE_NEAR = declare(
    "bore-near-cut",
    "A long bore comes too near another cut: it may break out into it.",
    uncured="whether the hole or the cut gives way is a choice of design",
)
owns("wood", BORE_NEAR)

LEAST = 10.0  # of wood, or the bore's diameter if that is more (common practice)


@dataclass(frozen=True, slots=True)
class _Disc:
    a: float
    c: float
    radius: float


def bores_near_cuts(part: Part) -> tuple[Finding, ...]:
    """Findings for every bore that comes nearer to another cut than 10, or its own diameter.

    A bore that lies off the board is left to the finding that says so.
    """
    bored = [
        (cut, disc)
        for cut in part.cuts
        for shape in cut.shapes
        for disc in _discs(shape)
        if 0.0 <= disc.a <= part.board.length
    ]
    bored.sort(key=lambda item: -item[1].radius)
    found = []
    for index, (cut, disc) in enumerate(bored):
        limit = max(LEAST, 2 * disc.radius)
        told = {other.key for other, _ in bored[: index + 1]}  # of two bores the wider speaks
        others = [other for other in part.cuts if other.key not in told]
        left, beside = min(
            ((_left(disc, other), other) for other in others), key=lambda item: item[0], default=(math.inf, cut)
        )
        if left < limit:
            moved = tuple(_moved(part, cut, disc, beside, limit - left))
            found.append(replace(_finding(part, cut, beside, left, limit), cures=moved))
    return tuple(found)


def _discs(shape: Shape) -> Iterator[_Disc]:
    """A bore that runs across the board, as a disc of its widest step."""
    if isinstance(shape, Bore) and abs(shape.direction[2]) == 1.0:
        widest = max(diameter for _, diameter in shape.profile)
        yield _Disc(shape.start[0], shape.start[1], widest / 2)


def _left(disc: _Disc, other: Cut) -> float:
    return min((_to_shape(disc, shape) for shape in other.shapes), default=math.inf)


def _to_shape(disc: _Disc, shape: Shape) -> float:
    """Wood between a bore's rim and another shape."""
    if isinstance(shape, HalfSpace):
        nx, ny, _ = shape.normal
        return -(nx * (disc.a - shape.point[0]) + ny * (disc.c - shape.point[1])) - disc.radius
    if isinstance(shape, Prism):
        return min(distance(points, (disc.a, disc.c)) for points in _seen_along(shape)) - disc.radius
    for twin in _discs(shape):
        return math.hypot(disc.a - twin.a, disc.c - twin.c) - disc.radius - twin.radius
    if isinstance(shape, Bore):
        return _to_axis(disc, shape) - disc.radius - max(diameter for _, diameter in shape.profile) / 2
    return math.inf


def _seen_along(shape: Prism) -> Iterator[Sequence[Vec2]]:
    """What a prism covers in (a, c): of one swept across the board its outlines, of another the hull of its corners."""
    if shape.frame == WORLD:
        yield flattened(shape.outline)
        if shape.outline_high is not None:
            yield flattened(shape.outline_high)
        return
    ends = (shape.outline, shape.low), (shape.outline_high or shape.outline, shape.high)
    places = [shape.frame.place((x, y, z)) for knots, z in ends for x, y in flattened(knots)]
    yield hull([(length(a), length(c)) for a, c, _ in places], 0.0)


def _to_axis(disc: _Disc, bore: Bore) -> float:
    """From a bore's middle to the axis of one that lies in the (a, c) plane, ends included."""
    long = bore.profile[-1][0]
    along = (disc.a - bore.start[0]) * bore.direction[0] + (disc.c - bore.start[1]) * bore.direction[1]
    along = min(max(along, 0.0), long)
    a, c = bore.start[0] + along * bore.direction[0], bore.start[1] + along * bore.direction[1]
    return math.hypot(disc.a - a, disc.c - c)


def _left_between(left: float, cut: Cut, other: Cut) -> Sentence:
    if left < 0.0:
        return say("{} runs into {}", called(cut), called(other))
    return say("only {} of wood between {} and {}", Length(left), called(cut), called(other))


def _moved(part: Part, cut: Cut, disc: _Disc, beside: Cut, more: float) -> Iterator[Cure]:
    """The fixing's place moved along the board, away from what it is too near to."""
    if cut.joint is None or WALL not in cut.joint:
        return
    its = [a for shape in beside.shapes for a in _along(part, shape)]
    if not its:
        return
    by = math.copysign(math.ceil(more / ROUND - 1e-9) * ROUND, disc.a - (min(its) + max(its)) / 2)
    name, (x, y, _) = cut.joint[0], part.board.frame.x
    fixing: Value = say("fixing of {}", Name(part.id)) if name == fixing_of(part.id) else Name(name)
    yield asked_to_move_fixing(say("{}: {} {}", fixing, Length(abs(by)), compass(by * x, by * y)), name, disc.a, by)


def _along(part: Part, shape: Shape) -> Iterator[float]:
    """Where a shape is along its board; of an end, that end."""
    match shape:
        case Prism():
            yield from (a for points in _seen_along(shape) for a, _ in points)
        case Bore():
            yield shape.start[0]
        case HalfSpace():
            yield 0.0 if shape.normal[0] < 0.0 else part.board.length


def _finding(part: Part, cut: Cut, other: Cut, left: float, limit: float) -> Finding:
    fixing = cut.joint[0] if cut.joint is not None else None
    return Finding(
        code=BORE_NEAR,
        severity=Severity.STOP,
        where=Where(boards=(part.id,), joint=None, fixing=fixing, cut=cut.key, path=part.board.path),
        says=say("{}: {}", Name(part.id), _left_between(left, cut, other)),
        remedy=say("move the bore until {} is left", Length(limit, Fineness.WHOLE, On.UP)),
        found=left,
        limit=limit,
        unit="mm",
        source="common practice",
    )
