"""Exact sweeps of convex pieces: when, on a straight way, does one begin to cut into another?

Two convex bodies overlap while no axis separates them (normals of either, and cross products of their
edges). On one axis the overlap of a moving body lasts an open interval of time; on all together, what these
intervals share. Nothing is stepped and no swept hull is built. For pieces whose sweep stands upright (all
boards that lie across the wall) their normals alone are enough.

Penetration of `CONTACT` or less is contact: as in the clash check, a hand would call it so.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from operator import mul

import numpy as np
from numpy.typing import NDArray

from ...geometry.bodies import Faces, PartShape, Slab, normal_of, pieces_of
from ...geometry.frames import WORLD, Frame, Vec

CONTACT = 0.02  # mm
STILL = 1e-12  # a speed along an axis that is none
CHUNK = 20_000  # pairs at a time, to bound memory

Floats = NDArray[np.float64]
Ints = NDArray[np.int64]
Boxes = tuple[Floats, Floats]  # low and high corners


@dataclass(frozen=True)
class Pieces:
    """All convex pieces of a set of parts, padded to one shape.

    Attributes:
        corners: `(n, v, 3)` in the world; the last corner of a piece is repeated.
        normals: `(n, k, 3)` unit, either sign; the last is repeated.
        edges: `(n, e, 3)` directions of edges, unit; the last is repeated.
        owner: `(n,)` number of the part.
        upright: `(n,)` whether it is swept along the world's z.
        low, high: `(n, 3)` corners of the box around each.
        first: where each part's pieces begin; one more at the end.
    """

    corners: Floats
    normals: Floats
    edges: Floats
    owner: Ints
    upright: NDArray[np.bool_]
    low: Floats
    high: Floats
    first: Ints

    def of(self, parts: Iterable[int]) -> Ints:
        """Numbers of the pieces of these parts."""
        spans = [np.arange(self.first[part], self.first[part + 1]) for part in parts]
        return np.concatenate(spans) if spans else np.zeros(0, dtype=np.int64)


def pieces(parts: Sequence[PartShape]) -> Pieces:
    """Take every part apart into convex pieces, placed in the world."""
    corners: list[Floats] = []
    normals: list[Floats] = []
    edges: list[Floats] = []
    upright: list[bool] = []
    first = [0]
    for part in parts:
        slabs, solids = pieces_of(part.outline, part.depth, part.shapes)
        stands = abs(abs(part.frame.z[2]) - 1.0) < 1e-9
        for item in (*map(_of_slab, slabs), *map(_of_solid, solids)):
            for into, rows, turn in zip((corners, normals, edges), item[:3], (_place, _direct, _direct), strict=True):
                into.append(turn(rows, part.frame))
            upright.append(item[3] and stands)
        first.append(len(corners))
    every = _padded(corners)
    return Pieces(
        corners=every,
        normals=_padded(normals),
        edges=_padded(edges),
        owner=np.repeat(np.arange(len(parts)), np.diff(first)),
        upright=np.asarray(upright, dtype=bool),
        low=every.min(axis=1),
        high=every.max(axis=1),
        first=np.asarray(first, dtype=np.int64),
    )


def _of_slab(slab: Slab) -> tuple[Floats, Floats, Floats, bool]:
    outline = np.asarray(slab.outline)
    sides = np.concatenate((outline[1:], outline[:1])) - outline
    sides = _distinct(sides / np.linalg.norm(sides, axis=1)[:, None])
    corners = np.empty((2 * len(outline), 3))
    corners[: len(outline), :2] = corners[len(outline) :, :2] = outline
    corners[: len(outline), 2], corners[len(outline) :, 2] = slab.low, slab.high
    flat = np.zeros((len(sides) + 1, 3))
    flat[-1, 2] = 1.0
    edges = flat.copy()
    flat[:-1, 0], flat[:-1, 1] = sides[:, 1], -sides[:, 0]
    edges[:-1, :2] = sides
    return corners, flat, edges, True


def _of_solid(solid: Faces) -> tuple[Floats, Floats, Floats, bool]:
    corners = np.asarray(sorted({point for face in solid for point in face}))
    normals = np.asarray([normal_of(face) for face in solid])
    sides = np.asarray([np.subtract(q, p) for face in solid for p, q in pairwise(face)])
    size = np.linalg.norm(sides, axis=1)
    sides = sides[size > 1e-9] / size[size > 1e-9][:, None]
    return corners, _distinct(normals), _distinct(sides), False


def _distinct(directions: Floats) -> Floats:
    """Directions without doubles, opposite ones being the same."""
    kept: list[list[float]] = []
    for direction in directions.tolist():  # they are few: plain floats are quicker than arrays of two
        if not any(abs(abs(sum(map(mul, direction, other))) - 1.0) < 1e-12 for other in kept):
            kept.append(direction)
    return np.asarray(kept)


def _place(points: Floats, frame: Frame) -> Floats:
    return points if frame is WORLD else points @ np.asarray((frame.x, frame.y, frame.z)) + np.asarray(frame.origin)


def _direct(directions: Floats, frame: Frame) -> Floats:
    return directions if frame is WORLD else directions @ np.asarray((frame.x, frame.y, frame.z))


def _padded(rows: Sequence[Floats]) -> Floats:
    """One array; short rows repeat their last."""
    if not rows:
        return np.zeros((0, 1, 3))
    longest = max(len(row) for row in rows)
    every = np.empty((len(rows), longest, 3))
    for index, row in enumerate(rows):
        every[index, : len(row)] = row
        every[index, len(row) :] = row[-1]
    return every


@dataclass(frozen=True)
class Pairs:
    """Pairs of pieces on all their axes.

    Attributes:
        axes: `(p, k, 3)` unit.
        ahead: `(p, k)` how far the other begins beyond the end of the first along the axis; negative inside.
        behind: `(p, k)` how far the first begins beyond the end of the other.
    """

    axes: Floats
    ahead: Floats
    behind: Floats

    @property
    def gaps(self) -> Floats:
        """`(p,)` the widest gap any axis shows; negative where the two overlap."""
        gap: Floats = np.maximum(self.ahead, self.behind).max(axis=1)
        return gap

    def hits(self, direction: Vec, offset: Vec = (0.0, 0.0, 0.0)) -> Floats:
        """`(p,)` distance after which the first, moved along, cuts into the other; inf where it never does."""
        shift = self.axes @ np.asarray(offset)
        speed = self.axes @ np.asarray(direction)
        enter, leave = self.ahead - shift + CONTACT, -(self.behind + shift) - CONTACT
        still = np.abs(speed) < STILL
        with np.errstate(divide="ignore", invalid="ignore"):
            one, other = enter / speed, leave / speed
        start = np.where(speed > 0, one, other)
        stop = np.where(speed > 0, other, one)
        inside = (enter < 0) & (leave > 0)
        start = np.where(still, np.where(inside, -np.inf, np.inf), start)
        stop = np.where(still, np.where(inside, np.inf, -np.inf), stop)
        first, last = start.max(axis=1), stop.min(axis=1)
        hit: Floats = np.where((first < last) & (last > 0), np.maximum(first, 0.0), np.inf)
        return hit

    def soonest(self, lines: Floats, enough: float, offset: Vec = (0.0, 0.0, 0.0)) -> Floats:
        """`(2, m)` distance until any of the pairs meets, for many lines `(m, 3)`: along each, and back along it.

        A line on which pairs meet sooner than `enough` both ways is not looked at any further.
        """
        shift = self.axes @ np.asarray(offset)
        enter, leave = self.ahead - shift + CONTACT, -(self.behind + shift) - CONTACT
        thick = np.all(enter < leave, axis=1)  # a sliver thinner than contact is never cut into
        axes, enter, leave = self.axes[thick], enter[thick][:, :, None], leave[thick][:, :, None]
        beside = ~((enter < 0) & (leave > 0))
        found = np.full((2, len(lines)), np.inf)
        left, at = np.arange(len(lines)), 0
        while at < len(axes) and len(left):
            some = slice(at, 2 * at + 1)  # more at a time the fewer lines are left: the first pairs settle most of them
            speed = axes[some] @ lines[left].T
            still = np.abs(speed) < STILL
            with np.errstate(divide="ignore", invalid="ignore"):
                one, other = enter[some] / speed, leave[some] / speed
            first, last = np.minimum(one, other), np.maximum(one, other)
            first[still], last[still] = -np.inf, np.inf
            start, stop = first.max(axis=1), last.min(axis=1)
            met = (start < stop) & ~np.any(still & beside[some], axis=1)
            there = np.where(met & (stop > 0), np.maximum(start, 0.0), np.inf).min(axis=0)
            back = np.where(met & (start < 0), np.maximum(-stop, 0.0), np.inf).min(axis=0)
            found[:, left] = np.minimum(found[:, left], (there, back))
            left, at = left[np.any(found[:, left] >= enough, axis=0)], 2 * at + 1
        return found

    def of(self, rows: Ints) -> "Pairs":
        """Some of them."""
        return Pairs(self.axes[rows], self.ahead[rows], self.behind[rows])


def pairs(every: Pieces, one: Ints, other: Ints) -> Pairs:
    """Lay pairs of pieces out on their axes; `one` and `other` are their numbers."""
    parts = [_upright_or_not(every, one[at : at + CHUNK], other[at : at + CHUNK]) for at in range(0, len(one), CHUNK)]
    if len(parts) == 1:
        return parts[0]
    if not parts:
        return Pairs(np.zeros((0, 1, 3)), np.zeros((0, 1)), np.zeros((0, 1)))
    width = max(part.axes.shape[1] for part in parts)
    grown = [_grown(part, width) for part in parts]
    return Pairs(*(np.concatenate([getattr(part, name) for part in grown]) for name in ("axes", "ahead", "behind")))


def _grown(part: Pairs, width: int) -> Pairs:
    missing = width - part.axes.shape[1]
    if not missing:
        return part
    return Pairs(
        *(
            np.concatenate([rows, np.repeat(rows[:, -1:], missing, axis=1)], axis=1)
            for rows in (part.axes, part.ahead, part.behind)
        )
    )


def _upright_or_not(every: Pieces, one: Ints, other: Ints) -> Pairs:
    axes = np.concatenate([every.normals[one], every.normals[other]], axis=1)
    if not np.all(every.upright[one] & every.upright[other]):
        crossed = np.cross(every.edges[one][:, :, None], every.edges[other][:, None, :]).reshape(len(one), -1, 3)
        size = np.linalg.norm(crossed, axis=2, keepdims=True)
        crossed = np.where(size > 1e-6, crossed / np.maximum(size, 1e-12), axes[:, :1])
        axes = np.concatenate([axes, crossed], axis=1)
    on_one = np.einsum("pvc,pkc->pkv", every.corners[one], axes)
    on_other = np.einsum("pvc,pkc->pkv", every.corners[other], axes)
    ahead = on_other.min(axis=2) - on_one.max(axis=2)
    behind = on_one.min(axis=2) - on_other.max(axis=2)
    return Pairs(axes, ahead, behind)


def in_the_way(boxes: Boxes, box: Boxes, other: Ints, direction: Vec, offset: Vec) -> Ints:
    """Of a set of boxes, those that meet one that is moved along."""
    low, high = box[0][None, :] + np.asarray(offset), box[1][None, :] + np.asarray(offset)
    met: Ints = other[_met(low, high, boxes[0][other], boxes[1][other], direction)[0]]
    return met


def boxes_met(every: Pieces, one: Ints, other: Ints, direction: Vec, offset: Vec) -> tuple[Ints, Ints]:
    """Of all pairs of two sets of pieces, those whose boxes meet when the first set is moved along."""
    low, high = every.low[one] + np.asarray(offset), every.high[one] + np.asarray(offset)
    i, j = np.nonzero(_met(low, high, every.low[other], every.high[other], direction))
    return one[i], other[j]


def _met(low: Floats, high: Floats, others_low: Floats, others_high: Floats, direction: Vec) -> NDArray[np.bool_]:
    """`(m, n)` whether moving boxes meet standing ones at any time from now on."""
    start = np.full((len(low), len(others_low)), -np.inf)
    stop = np.full((len(low), len(others_low)), np.inf)
    for axis, speed in enumerate(direction):
        ahead = others_low[None, :, axis] - high[:, None, axis]
        beyond = others_high[None, :, axis] - low[:, None, axis]
        if abs(speed) < STILL:
            stop = np.where((ahead < 0) & (beyond > 0), stop, -np.inf)
        else:
            first, last = (ahead / speed, beyond / speed) if speed > 0 else (beyond / speed, ahead / speed)
            start, stop = np.maximum(start, first), np.minimum(stop, last)
    met: NDArray[np.bool_] = (start < stop) & (stop > 0)
    return met
