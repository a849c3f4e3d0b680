"""Checking a frame while the glue is open: its diagonals, and what one of lean makes of a frame of four.

Frames of more sides have many diagonals. Where several should be equal and show every way in which the frame can go
out of shape, these are measured, the longest kind of them; else those from the first corner, which always show it.
A regular hexagon's three from corner to opposite corner do not: with every other corner 5 out and the rest 5 in, each
side is as long as before and the three are short by a quarter of a millimetre at most, all alike (for corners on a
circle of 300), while those past one corner are 8.4 too long or 8.9 too short.

Where no frame is closed, boards that another holds apart are measured from end to end across one another: a divider
glued between two shelves is square when their four ends are. A board that is held at one place only is measured from
its far end to the ends of what it stands on, and a corner of two boards across its open side.
"""

import math
from collections.abc import Iterable, Iterator, Mapping, Sequence
from itertools import product
from typing import TypeAlias

import numpy as np

from ...geometry.frames import Vec2
from ...places import Pair
from .pressing import GlueJoint
from .result import Across, Squareness

Line: TypeAlias = tuple[Vec2, Vec2]  # a point, a unit vector
Ends: TypeAlias = tuple[int, int]  # two corners, counted from 0
Quad: TypeAlias = tuple[Vec2, Vec2, Vec2, Vec2]  # of a board in the elevation: its datum end's corners, its far end's
BESIDE = 2  # thicknesses from a joint: an end of a board that is nearer shows nothing of its angle
ALIKE = 0.05  # mm between diagonals that are the same
SEEN = 0.25  # of 1 mm that a frame is out of shape, what its lengths must show (ours: 2 out of shape shows as WITHIN)


def across(outside: Sequence[Line], inside: Sequence[Line]) -> Across | None:
    """The diagonals of a frame of more than four sides; None where two neighbours are parallel."""
    outer, inner = _corners(outside), _corners(inside)
    if outer is None or inner is None:
        return None
    count = len(outer)
    every = [(i, j) for i in range(count) for j in range(i + 2, count) if (i, j) != (0, count - 1)]
    alike = [
        [pair for pair in every if all(abs(_long(c, pair) - _long(c, one)) < ALIKE for c in (outer, inner))]
        for one in every
    ]
    serving = (group for group in alike if len(group) > 1 and _shown(outer, group) >= SEEN)
    longest = max(serving, key=lambda group: _long(outer, group[0]), default=None)
    between = longest or [pair for pair in every if pair[0] == 0]
    return Across(
        between=tuple(between),
        outside=tuple(_long(outer, pair) for pair in between),
        inside=tuple(_long(inner, pair) for pair in between),
        equal=longest is not None,
        ends=tuple((outer[i], outer[j]) for i, j in between),
    )


def _long(corners: Sequence[Vec2], pair: Ends) -> float:
    return math.dist(corners[pair[0]], corners[pair[1]])


def _shown(corners: Sequence[Vec2], diagonals: Sequence[Ends]) -> float:
    """What lengths show of the way of going out of shape that they show least; 0 where they show nothing of it.

    The root of the sum of squares of all changes of length, sides included, for corners moved by 1 in the same
    measure: the least singular value of the matrix of the bars' directions, the three moves of the whole left out.
    """
    count = len(corners)
    bars = [*((i, (i + 1) % count) for i in range(count)), *diagonals]
    moves = 2 * count - 3
    if len(bars) < moves:
        return 0.0
    at = np.array(corners)
    rows = np.zeros((len(bars), count, 2))
    for row, (i, j) in zip(rows, bars, strict=True):
        row[i] = (at[i] - at[j]) / _long(corners, (i, j))
        row[j] = -row[i]
    return float(np.linalg.svd(rows.reshape(len(bars), -1), compute_uv=False)[moves - 1])


def squareness(outside: Sequence[Line], inside: Sequence[Line], boards: Sequence[str] = ()) -> Squareness | None:
    """From the outside and the inside faces of four sides in their order, in the elevation; None for parallel ones."""
    outer, inner = _corners(outside), _corners(inside)
    if outer is None or inner is None:
        return None
    return _square(outer, boards, _diagonals(inner))


def _square(corners: Sequence[Vec2], boards: Sequence[str], inside: tuple[float, ...] = ()) -> Squareness:
    """Of four corners in their order round."""
    a, b, c, d = corners
    return Squareness(
        outside=_diagonals(corners),
        inside=inside,
        differ_by=_differ(corners),
        between=tuple(boards),
        ends=((a, c), (b, d)),
    )


# --- where no frame is closed ------------------------------------------------------------------------------------


def apart(
    glued: Sequence[GlueJoint], dry: Iterable[Pair], boards: Mapping[str, Quad]
) -> tuple[tuple[Squareness, ...], tuple[Across, ...]]:
    """What to measure on joints that are glued in one go: between the boards that others hold apart; else one by one.

    Args:
        dry: joints closed in the same go without glue.
        boards: the corners of each board that has any.
    """
    wet = dict.fromkeys(name for joint in glued for name in joint.key)
    every = [*(joint.key for joint in glued), *dry]
    found: dict[frozenset[str], Squareness] = {}
    between: dict[frozenset[str], set[str]] = {}  # what holds a pair apart
    seen: set[frozenset[str]] = set()
    for name in wet:
        across = [other for key in every if name in key for other in key if other != name and other in wet]
        across = [other for other in dict.fromkeys(across) if other in boards]
        if name not in boards or len(across) < 2:  # nothing, or one end
            continue
        one, other = _farthest(name, across, boards)
        if (square := _pair(one, other, boards)) is not None:
            found.setdefault(frozenset((one, other)), square)
            between.setdefault(frozenset((one, other)), set()).add(name)
            seen.update(frozenset((name, there)) for there in across)
    singly = [joint for joint in glued if frozenset(joint.key) not in seen and set(joint.key) <= set(boards)]
    alone = (_single(joint, boards) for joint in singly)
    return tuple(_needed(found, between)), tuple(one for one in alone if one is not None)


def _needed(
    found: Mapping[frozenset[str], Squareness], between: Mapping[frozenset[str], set[str]]
) -> Iterator[Squareness]:
    """The longest first; two that hold a measured pair apart are square with it."""
    kept: list[frozenset[str]] = []
    for pair in sorted(found, key=lambda pair: -max(found[pair].outside)):
        if not any(pair <= between[other] for other in kept):
            kept.append(pair)
            yield found[pair]


def _middle(quad: Quad) -> Vec2:
    return sum(x for x, _ in quad) / len(quad), sum(y for _, y in quad) / len(quad)


def _way(quad: Quad) -> Vec2:
    """Along a board, from its datum end on: a unit vector."""
    (x, y), (p, q) = _middle((quad[0], quad[1]) * 2), _middle((quad[2], quad[3]) * 2)
    size = math.hypot(p - x, q - y) or 1.0
    return (p - x) / size, (q - y) / size


def _along(point: Vec2, way: Vec2) -> float:
    return point[0] * way[0] + point[1] * way[1]


def _farthest(name: str, across: Sequence[str], boards: Mapping[str, Quad]) -> Pair:
    """Of the boards along one, the two that lie farthest from each other."""
    way = _way(boards[name])

    def out(other: str) -> float:
        """How far along the board the two lie apart, measured where it is."""
        at, along = _middle(boards[other]), _way(boards[other])
        square = along[0] * way[1] - along[1] * way[0]
        back = (at[0] - boards[name][0][0]) * along[1] - (at[1] - boards[name][0][1]) * along[0]
        return -back / square if abs(square) > ALIKE else _along(at, way)

    by_place = sorted(across, key=out)
    return by_place[0], by_place[-1]


def _pair(one: str, other: str, boards: Mapping[str, Quad]) -> Squareness | None:
    """From the ends of one board's outside face to those of another's; None where these ends are all one."""
    a, b = boards[one], boards[other]
    way = _way(a)
    b = b if _along(_way(b), way) >= 0 else (b[2], b[3], b[0], b[1])
    (p, q), (s, r) = _outer(a, _middle(b)), _outer(b, _middle(a))
    return _square((p, q, r, s), (one, other)) if min(math.dist(p, r), math.dist(q, s)) > 0 else None


def _outer(quad: Quad, other: Vec2) -> tuple[Vec2, Vec2]:
    """The corners of the face that lies away from a place: at the datum end, and at the far end."""
    faces = ((quad[0], quad[2]), (quad[1], quad[3]))
    return max(faces, key=lambda face: math.dist(_middle((*face, *face)), other))


def _single(joint: GlueJoint, boards: Mapping[str, Quad]) -> Across | None:
    """A joint by itself: across its corner, or from the far end of one board to the ends of the other."""
    first, second = joint.key
    if len(joint.ending) == 2:
        if abs(math.sin(_between(boards[first], boards[second]))) < ALIKE:
            return None
        ends = _far(boards[first], boards[second]), _far(boards[second], boards[first])
        return _lengths([max(product(*ends), key=lambda line: math.dist(*line))])
    stands, on = (first, second) if first in joint.ending else (second, first)
    far, base, way = _far(boards[stands], boards[on]), boards[on], _way(boards[on])
    near = max(math.dist(base[0], base[1]), math.dist(base[2], base[3])) * BESIDE
    foot = _along(_foot(boards[stands], far), way)
    towards = min(((base[0], base[2]), (base[1], base[3])), key=lambda face: math.dist(_middle((*face, *face)), far[0]))
    low, high = sorted(far, key=lambda point: _along(point, way))
    lines = [line for line in ((low, towards[0]), (high, towards[1])) if abs(_along(line[1], way) - foot) > near]
    return _lengths(lines) if lines else None


def _far(quad: Quad, other: Quad) -> tuple[Vec2, Vec2]:
    """The corners of the end of a board that lies farther from another."""
    ends = ((quad[0], quad[1]), (quad[2], quad[3]))
    return max(
        ends, key=lambda end: min(math.dist(_middle((*end, *end)), corner) for corner in (*other, _middle(other)))
    )


def _foot(quad: Quad, far: tuple[Vec2, Vec2]) -> Vec2:
    """The middle of the other end."""
    end = (quad[2], quad[3]) if far == (quad[0], quad[1]) else (quad[0], quad[1])
    return _middle((*end, *end))


def _between(one: Quad, other: Quad) -> float:
    (x, y), (p, q) = _way(one), _way(other)
    return math.atan2(x * q - y * p, x * p + y * q)


def _lengths(lines: Sequence[tuple[Vec2, Vec2]]) -> Across:
    lengths = tuple(math.dist(*line) for line in lines)
    return Across(
        between=tuple((0, number) for number in range(1, len(lines) + 1)),
        outside=lengths,
        inside=(),
        equal=len(lines) > 1 and max(lengths) - min(lengths) < ALIKE,
        ends=tuple(lines),
    )


def _corners(lines: Sequence[Line]) -> list[Vec2] | None:
    corners = []
    for (p, u), (q, v) in zip((*lines[-1:], *lines[:-1]), lines, strict=True):
        sine = u[0] * v[1] - u[1] * v[0]
        if abs(sine) < 1e-9:
            return None
        along = ((q[0] - p[0]) * v[1] - (q[1] - p[1]) * v[0]) / sine
        corners.append((p[0] + along * u[0], p[1] + along * u[1]))
    return corners


def _diagonals(corners: Sequence[Vec2]) -> tuple[float, float]:
    return math.dist(corners[0], corners[2]), math.dist(corners[1], corners[3])


def _differ(corners: Sequence[Vec2]) -> float:
    """The far side shifted by 1 along the first."""
    a, b, c, d = corners
    size = math.dist(a, b)
    shift = ((b[0] - a[0]) / size, (b[1] - a[1]) / size)
    c, d = (c[0] + shift[0], c[1] + shift[1]), (d[0] + shift[0], d[1] + shift[1])
    before, after = _diagonals(corners), _diagonals((a, b, c, d))
    return abs((after[0] - after[1]) - (before[0] - before[1]))
