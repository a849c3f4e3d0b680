"""How far a base may rack until what is pushed into it binds: a linear programme over all walls of all its joints.

Plane of the elevation. Of a base that leans by `lean` (sideways over height) level boards stay level and shift by
lean x height, others turn with the shear. What is pushed in is rigid and may shift and turn. Of each slot four corners,
the two ends of its two walls, must stay outside the faces of the board in it, which are straight and long:

    normal of the taker x (corner - a point of its line) >= half its thickness, on either side

Told at finite angles and made linear about the place where they stand, again and again; with two or three joints that
comes to the closed forms of docs/findings/racked.md. The unknowns are four (two shifts, turn and lean), so the
programme is small; its own simplex, from a piece that stands true, where all is free, needs no first phase.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from typing import TypeAlias

import numpy as np
import numpy.typing as npt

from ...geometry.frames import Vec2

Floats: TypeAlias = npt.NDArray[np.float64]

SCALE = 1000.0  # turn and lean are reckoned as mm on so much, so that all unknowns are of one size
MOST = 100.0  # mm on SCALE: what may rack farther is not held by these joints
LOOSE, MORE = 4.0, 0.5  # times the widest play, and mm: it need shift no farther from where the shear takes its middle
PASSES, STILL = 12, 1e-7
STEP = 1e-4  # for slopes
TINY = 1e-10


@dataclass(frozen=True, slots=True, kw_only=True)
class Slot:
    """One slot of one board with another in it, as they stand true.

    Attributes:
        at: where their lines meet, in the elevation.
        holder, taker: directions of the two lines, degrees.
        own: whether the slot is in what is pushed in; else in the base.
        low, high: of the holder, from its line, left of its direction: what of it the slot goes through.
        walls: direction of the walls, degrees; the taker's unless they are cut square.
        width: between the walls; `play` in all.
        middle: of the board of the base, about which it turns.
    """

    at: Vec2
    holder: float
    taker: float
    own: bool
    low: float
    high: float
    walls: float
    width: float
    play: float
    middle: Vec2


def limits(slots: Sequence[Slot], *, turns: bool = True) -> tuple[float | None, float | None]:
    """How far the base may lean to the right and to the left, as mm over mm; None where these joints set no limit."""
    if not slots:
        return None, None
    walls = _Walls(slots)
    return _limit(walls, 1.0, turns), _limit(walls, -1.0, turns)


def _limit(walls: "_Walls", way: float, turns: bool) -> float | None:
    """The farthest lean one way."""
    best = np.zeros(4)
    shift = LOOSE * walls.widest + MORE
    ends = np.array([shift, shift, MOST if turns else 0.0, MOST])
    for _ in range(PASSES):
        slack, slopes = walls.slack_and_slopes(best)
        bounds = np.maximum(slack - slopes @ best, 0.0)
        now = programme(np.array([0.0, 0.0, 0.0, way]), -slopes, bounds, ends)
        moved = float(np.max(np.abs(now - best)))
        best = now
        if moved < STILL:
            break
    lean = way * float(best[3])
    return None if lean > MOST - 1e-6 else lean / SCALE


def programme(aim: Floats, rows: Floats, bounds: Floats, ends: Floats) -> Floats:
    """The x, `(4,)`, that makes `aim` x greatest with `rows` x <= `bounds`, and each of it within its end, both ways.

    Args:
        aim: `(4,)`.
        rows: `(m, 4)`.
        bounds: `(m,)`, none below 0: 0 is then allowed, and the simplex starts there.
        ends: `(4,)`, none below 0.
    """
    rows = np.vstack([rows, np.eye(4), -np.eye(4)])
    bounds = np.concatenate([bounds, ends, ends])
    count = len(rows)
    table = np.zeros((count + 1, 8 + count + 1))
    table[:count, :4], table[:count, 4:8] = rows, -rows
    table[:count, 8 : 8 + count], table[:count, -1] = np.eye(count), bounds
    table[count, :4], table[count, 4:8] = -aim, aim
    basis = list(range(8, 8 + count))
    while True:
        enters = next((n for n in range(8 + count) if table[count, n] < -TINY), None)  # Bland: it cannot go round
        if enters is None:
            break
        column = table[:count, enters]
        able = np.nonzero(column > TINY)[0]
        assert len(able), "every unknown is bounded"
        ratios = table[able, -1] / column[able]
        least = ratios.min()
        leaves = min((int(n) for n in able[ratios <= least + TINY]), key=lambda n: basis[n])
        table[leaves] /= table[leaves, enters]
        others = np.arange(count + 1) != leaves
        table[others] -= np.outer(table[others, enters], table[leaves])
        basis[leaves] = enters
    found = np.zeros(8)
    for row, name in enumerate(basis):
        if name < 8:
            found[name] = table[row, -1]
    return found[:4] - found[4:]


class _Walls:
    """The corners of all slots, each with the strip that it must stay out of."""

    def __init__(self, slots: Sequence[Slot]) -> None:
        corners, sides, halves, own, at, taker, base, middles = [], [], [], [], [], [], [], []
        self.widest = max(slot.play for slot in slots)
        self.about = np.mean([slot.at for slot in slots], axis=0)
        for slot in slots:
            along, left = _way(slot.walls), _way(slot.holder + 90.0)
            across, normal = _way(slot.walls + 90.0), _way(slot.taker + 90.0)
            found = []
            for side in (1.0, -1.0):
                for edge in (slot.low, slot.high):
                    start = side * slot.width / 2 * across
                    reach = (edge - start @ left) / (along @ left)
                    found.append((side, start + reach * along))
            half = min(side * float(normal @ corner) for side, corner in found) - slot.play / 2
            for side, corner in found:
                corners.append(np.array(slot.at) + corner)
                sides.append(side)
                halves.append(half)
                own.append(slot.own)
                at.append(slot.at)
                taker.append(math.radians(slot.taker))
                base.append(math.radians(slot.taker if slot.own else slot.holder))
                middles.append(slot.middle)
        self.corners, self.sides, self.halves = np.array(corners), np.array(sides), np.array(halves)
        self.own, self.at, self.taker = np.array(own), np.array(at), np.array(taker)
        self.base, self.middles = np.array(base), np.array(middles)
        self.sine, self.cosine = np.sin(self.base), np.cos(self.base)
        # of each corner and its strip one stands in the base, the other in what is pushed in
        self.base_points = np.where(self.own[:, None], self.at, self.corners)
        self.push_points = np.where(self.own[:, None], self.corners, self.at)
        self.from_base = np.where(self.own, -1.0, 1.0)

    def slack(self, poses: Floats) -> Floats:
        """How far each corner stays outside its strip in each of some poses `(n, 4)`, `(n, m)`; below 0 it is inside.

        All poses in one go: there are few corners, and each call costs more than its sums.
        """
        shift, turn, lean = poses[:, :2], poses[:, 2:3] / SCALE, poses[:, 3:] / SCALE
        sheared = np.arctan2(self.sine, self.cosine + lean * self.sine)
        by_base = (sheared - self.base + math.pi) % (2 * math.pi) - math.pi
        leant = lean * self.middles[:, 1]
        pushed_to = (self.about[0] + lean * self.about[1] + shift[:, :1], self.about[1] + 0.0 + shift[:, 1:])
        base_way, push_way = (np.cos(by_base), np.sin(by_base)), (np.cos(turn), np.sin(turn))

        def in_base(points: Floats) -> tuple[Floats, Floats]:
            x, y = _turned(points - self.middles, base_way)
            return self.middles[:, 0] + leant + x, self.middles[:, 1] + 0.0 * leant + y

        def pushed(points: Floats) -> tuple[Floats, Floats]:
            x, y = _turned(points - self.about, push_way)
            return pushed_to[0] + x, pushed_to[1] + y

        (in_x, in_y), (push_x, push_y) = in_base(self.base_points), pushed(self.push_points)
        off_x, off_y = self.from_base * (in_x - push_x), self.from_base * (in_y - push_y)
        angle = self.taker + np.where(self.own, by_base, turn)
        return np.asarray(self.sides * (-np.sin(angle) * off_x + np.cos(angle) * off_y) - self.halves)

    def slack_and_slopes(self, pose: Floats) -> tuple[Floats, Floats]:
        """The slack of each corner, `(m,)`, and its slope by each unknown, `(m, 4)`."""
        steps = np.eye(4) * STEP
        found = self.slack(np.vstack([pose, pose + steps, pose - steps]))
        return found[0], np.ascontiguousarray(((found[1:5] - found[5:]) / (2 * STEP)).T)


def _way(degrees: float) -> Floats:
    return np.array([math.cos(math.radians(degrees)), math.sin(math.radians(degrees))])


def _turned(points: Floats, by: tuple[Floats, Floats]) -> tuple[Floats, Floats]:
    """Points `(m, 2)` turned by angles whose cosine and sine are given; their x and their y."""
    cosine, sine = by
    return cosine * points[:, 0] - sine * points[:, 1], sine * points[:, 0] + cosine * points[:, 1]


# --- diagonals -------------------------------------------------------------------------------------


def lean_of(wide: float, rising: float, falling: float) -> float:
    """How far a rectangle leans to the right over its height, from its diagonals; sides unchanged.

    Args:
        wide: of the rectangle.
        rising, falling: from its lower left to its upper right corner, and from its lower right to its upper left.
    """
    return (rising**2 - falling**2) / (4 * wide)


def diagonals_differ(wide: float, high: float, leans: float) -> float:
    """By how much the two diagonals differ where it leans so far over its height."""
    return 2 * wide * leans / math.hypot(wide, high)
