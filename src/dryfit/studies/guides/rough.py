"""Lines of rough cuts: so much inside the walls that a blade that drifts, or leans, leaves enough on both.

One trial cut tells how a blade drifts: so far to the right after 100 (q), and the under face against the upper one (v).
Over a cut D long the sideways travel lies between the least and the greatest of 0, q D / 100, v and their sum: lo, hi.
Looking along the cut the left kerf then begins s - lo from its wall and the right one ends s + hi from its own; the
most that is left standing is s + hi - lo. A saw cuts square to the face, so walls that lean have only the strip that
both faces share: width / cos r - t tan r.

Examples: D 150.5, q 0.8, v 0.6, s 1: 1.00 and 2.80, most 2.80. t 24, width 24.15, 9 degrees: a strip of 20.65.

Source: plane geometry. What a saw leaves at least (1 a wall), and at most (3.5): common practice.
"""

import math
from dataclasses import dataclass

MOST = 3.5  # left standing on a wall: more is slow to rout away (common practice)


@dataclass(frozen=True, slots=True, kw_only=True)
class Blade:
    """A saw: its kerf, its drift after 100 and its lean as `shop.model.Saw` has them, and what it leaves at least."""

    kerf: float
    drift: float
    lean: float
    leaves: float

    def travel(self, deep: float) -> tuple[float, float]:
        """How far it may come to lie to the left (0 or below) and to the right of its line over a cut so deep."""
        along = self.drift * deep / 100
        places = (0.0, along, self.lean, along + self.lean)
        return min(places), max(places)

    def insets(self, deep: float) -> tuple[float, float]:
        """From the left wall to its kerf, and from the right wall to its kerf, looking along the cut."""
        low, high = self.travel(deep)
        return self.leaves - low, self.leaves + high

    def most(self, deep: float) -> float:
        """What it leaves on a wall at the most."""
        low, high = self.travel(deep)
        return self.leaves + high - low


def shared(walls: tuple[tuple[float, float], tuple[float, float]]) -> tuple[float, float]:
    """The strip that both faces share, from the marks on either; its end may lie before its beginning: none."""
    (a, b), (c, d) = walls
    return max(min(a, b), min(c, d)), min(max(a, b), max(c, d))


def lines(strip: tuple[float, float], blade: Blade, deep: float, *, left_first: bool) -> tuple[float, ...]:
    """Where kerfs are sawn, by the sides that face the walls: two, one alone where two would meet, none for no room.

    Args:
        strip: the lower and the upper wall.
        deep: how long the cut is, from the edge on.
        left_first: whether the lower wall lies left, looking along the cut.
    """
    left, right = blade.insets(deep)
    low, high = (left, right) if left_first else (right, left)
    start, end = strip[0] + low, strip[1] - high
    if end - start < blade.kerf:
        return ()
    if end - start <= 2 * blade.kerf:
        return (start,)
    return start, end


def turned(blade: Blade, deep: float) -> float:
    """Degrees to the left by which lines are drawn turned where a blade that drifts right would leave too much."""
    return math.degrees(math.atan(blade.drift / 100)) if blade.most(deep) > MOST else 0.0
