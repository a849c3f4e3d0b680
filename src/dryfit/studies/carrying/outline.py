"""How a body's own outline goes where its box does not: the hull of its boards in the elevation, turned in that plane.

Turned by p a hull is as wide as its farthest two corners along one way and as high as those along the other; between
two turns at which an edge of it lies level or plumb these corners stay the same, so that

    high(p) = r sin(p + f)    of one pair of corners, and so with the width

The least floor under a clear height is therefore found among the turns at which an edge lies level or plumb, and those
at which the height is just what is clear: between them the width is one bow of a sine, least at one of its ends.
Worked example: of a rectangle 2400 by 300 under 2200 that is the tilt of the box, 58.32 degrees, 1516 on the floor.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TypeAlias

import numpy as np
from numpy.typing import NDArray

from ...geometry.frames import Vec, Vec2
from .passing import NEAR, round_corner, tightest
from .result import HANDS, Passage, PassingWay

HALF = math.pi  # turned so far it is as wide and as high as before
_Points: TypeAlias = NDArray[np.float64]


@dataclass(frozen=True, slots=True, kw_only=True)
class TurnedHull:
    """A hull turned by `lean` degrees: as wide and as high as it is then."""

    lean: float
    wide: float
    high: float


def least_floor(hull: Sequence[Vec2], clear: float) -> TurnedHull | None:
    """The turn at which it is no higher than what is clear and takes up least of the floor; None where it is at none.

    Args:
        hull: at least three corners, in order.
    """
    points: _Points = np.array(hull, dtype=float)
    turns = np.array(sorted({*_breaks(points), *_at_height(points, clear)}))
    wide, high = _sizes(points, turns)
    fits = high <= clear + NEAR
    if not fits.any():
        return None
    best = int(np.flatnonzero(fits)[np.argmin(wide[fits])])
    return TurnedHull(lean=math.degrees(turns[best]), wide=float(wide[best]), high=float(high[best]))


def _sizes(points: _Points, turns: _Points) -> tuple[_Points, _Points]:
    c, s = np.cos(turns), np.sin(turns)
    return (
        np.ptp(np.outer(points[:, 0], c) - np.outer(points[:, 1], s), axis=0),
        np.ptp(np.outer(points[:, 0], s) + np.outer(points[:, 1], c), axis=0),
    )


def _breaks(points: _Points) -> list[float]:
    """Turns at which an edge lies level or plumb, from 0 to half a turn."""
    edges = np.diff(points, axis=0, append=points[:1])
    slopes = -np.arctan2(edges[:, 1], edges[:, 0])
    found = np.concatenate((slopes, slopes + math.pi / 2)) % HALF
    return sorted({0.0, *(float(turn) for turn in found)})


def _at_height(points: _Points, clear: float) -> Iterator[float]:
    """Turns at which it is just so high."""
    for low, high in pairwise([*_breaks(points), HALF]):
        middle = (low + high) / 2
        up = points[:, 0] * math.sin(middle) + points[:, 1] * math.cos(middle)
        dx, dy = points[int(np.argmax(up))] - points[int(np.argmin(up))]
        reach = math.hypot(dx, dy)
        if clear > reach:
            continue
        start, rise = math.atan2(dy, dx), math.asin(clear / reach)
        for turn in (rise - start, math.pi - rise - start):
            if low <= (at := turn % (2 * HALF)) <= high:
                yield at


def outline_way(hull: Sequence[Vec2], deep: float, passage: Passage, *, hands: bool) -> PassingWay | None:
    """How a hull that is `deep` thick goes round a turn, or into a van; None where it does not, and elsewhere.

    A door and a flight are passed end on: there the least box is all that counts.
    """
    less = HANDS if hands else 0.0
    wide, high = passage.width - less, passage.height - less
    if passage.kind == "turn":
        into = passage.into - less
        room, found = round_corner(wide, into, deep), least_floor(hull, high)
        if found is None or found.wide > room + NEAR:
            return None
        turn = tightest(wide, into, deep)
        return PassingWay(how="tilted", lean=found.lean, floor=found.wide, across=deep, room=room, turn=turn)
    if passage.kind == "van":
        for how, across, up in (("tilted", wide, high), ("across", high, wide)):
            found = least_floor(hull, up) if deep <= across + NEAR else None
            if found is not None and found.wide <= passage.length + NEAR:
                return PassingWay(how="tilted" if how == "tilted" else "across", lean=found.lean)
    return None


def to_stand_up_by(corners: Sequence[Vec]) -> float:
    """What a body wants over it while it is stood up about the best lower edge: its farthest corner from that.

    Never more than of its box, whose farthest corner may not be there.
    """
    points = np.array(corners, dtype=float)
    foot = points[points[:, 1] <= points[:, 1].min() + 1.0]
    up = points[:, 1] - points[:, 1].min()
    edges = [(axis, edge) for axis in (0, 2) for edge in (foot[:, axis].min(), foot[:, axis].max())]
    return min(float(np.hypot(up, points[:, axis] - edge).max()) for axis, edge in edges)
