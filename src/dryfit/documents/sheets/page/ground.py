"""The free ground of a sheet: where rings, leaders, arrows and words may stand clear of one another.

What stands there is kept as lines with a thickness (a ring is a line of no length). Beside them a raster has how far
each cell is from the nearest: it throws out at once, for hundreds of places together, those that are taken for certain;
the few that are left are measured exactly. So a crowded sheet costs no more than a sheet with room.
"""

from collections.abc import Iterator

import numpy as np
from numpy.typing import NDArray

from ....geometry.frames import Vec2

CELL = 0.5  # mm on paper
SLACK = CELL * 0.7072  # from a cell's middle to its corner, and a hair
FARTHEST = 5.6  # mm: rings have at most this radius, and the raster looks no farther
FIRST = 6  # places measured before all others are: mostly one of them is free

Floats = NDArray[np.float64]
_SHARES: Floats = np.linspace(0.0, 1.0, 12).reshape(-1, 1)  # along a leader, close enough to hit what crosses it


class Ground:
    """A sheet's free part and what stands on it.

    Attributes:
        left, top, right, bottom: of the free part; what is taken may reach out of it.
    """

    def __init__(self, left: float, top: float, right: float, bottom: float) -> None:
        self.left, self.top, self.right, self.bottom = left, top, right, bottom
        self._lines: Floats = np.empty((0, 2, 2))
        self._radii: Floats = np.empty(0)
        self._boxes: list[tuple[float, float, float, float]] = []
        across, down = (max(1, int(size / CELL) + 1) for size in (right - left, bottom - top))
        self._x: Floats = left + (np.arange(across, dtype=np.float64) + 0.5) * CELL
        self._y: Floats = top + (np.arange(down, dtype=np.float64) + 0.5) * CELL
        self._far = np.full((down, across), FARTHEST + 1.0)

    # --- taking --------------------------------------------------------------------------------

    def take(self, start: Vec2, stop: Vec2, radius: float) -> None:
        """Something stands from here to there, so thick."""
        line = np.asarray([[start, stop]], dtype=np.float64)
        self._lines = np.concatenate([self._lines, line])
        self._radii = np.append(self._radii, radius)
        reach = radius + FARTHEST
        rows, columns = self._window(line[0].min(axis=0) - reach, line[0].max(axis=0) + reach)
        far = _from_line(self._x[columns], self._y[rows, None], start, stop) - radius
        self._far[rows, columns] = np.minimum(self._far[rows, columns], far)

    def take_box(self, left: float, top: float, right: float, bottom: float) -> None:
        """Words stand there."""
        self._boxes.append((left, top, right, bottom))
        for start, stop in _sides(left, top, right, bottom):
            self.take(start, stop, 0.0)
        rows, columns = self._window(np.asarray([left, top]), np.asarray([right, bottom]))
        self._far[rows, columns] = 0.0

    def _window(self, low: Floats, high: Floats) -> tuple[slice, slice]:
        def cells(at: float, to: float, first: float, count: int) -> slice:
            return slice(*(int(min(max((x - first) // CELL + up, 0), count)) for x, up in ((at, 0), (to, 1))))

        return cells(low[1], high[1], self.top, len(self._y)), cells(low[0], high[0], self.left, len(self._x))

    # --- asking --------------------------------------------------------------------------------

    def clear(self, start: Vec2, stop: Vec2, radius: float) -> bool:
        """Whether nothing stands in the way of something so thick; it may reach out of the free part."""
        lines = np.asarray([[start, stop]], dtype=np.float64)
        return bool(self._clear_lines(lines, radius)[0])

    def free(self, start: Vec2, stop: Vec2, radius: float) -> bool:
        """Whether it has room on the free part."""
        low, high = np.minimum(start, stop) - radius, np.maximum(start, stop) + radius
        inside = self.left < low[0] and self.top < low[1] and high[0] < self.right and high[1] < self.bottom
        return bool(inside) and self.clear(start, stop, radius)

    def free_box(self, left: float, top: float, right: float, bottom: float) -> bool:
        """Whether words have room on the free part."""
        if not (self.left < left and right < self.right and self.top < top and bottom < self.bottom):
            return False
        if not len(self._lines):
            return True
        sides = np.asarray(_sides(left, top, right, bottom))
        low, high = np.asarray([left, top]), np.asarray([right, bottom])
        held = np.all((self._lines[:, 0] >= low) & (self._lines[:, 0] <= high), axis=1)
        return not held.any() and bool(np.all(_between_lines(sides, self._lines) > self._radii))

    def clear_rings(self, centres: Floats, radius: float) -> NDArray[np.bool_]:
        """At which of `(n, 2)` places on the free part nothing stands in the way of a ring."""
        clear = self._rough(centres) > radius - SLACK
        clear[clear] = self._clear_rings(centres[clear], radius)
        return clear

    def first_ring(self, feet: Floats, centres: Floats, radius: float, leader: float) -> int | None:
        """The first of many places at which a ring has room, and its leader with it.

        Args:
            feet: `(n, 2)` where each leader begins.
            centres: `(n, 2)` of the rings.
            radius: of the ring.
            leader: half the thickness to keep free around the leader.
        """
        low, high = centres - radius, centres + radius
        inside = np.all((low > (self.left, self.top)) & (high < (self.right, self.bottom)), axis=1)
        places = np.nonzero(inside)[0]
        places = places[self._rough(centres[places]) > radius - SLACK]
        along = feet[places, None] + (centres[places] - feet[places])[:, None] * _SHARES
        places = places[np.all(self._rough(along) > leader - SLACK, axis=1)]
        for some in _few_first(places):
            some = some[self._clear_rings(centres[some], radius)]
            leaders = np.stack([feet[some], centres[some]], axis=1)
            good = some[self._clear_lines(leaders, leader)]
            if len(good):
                return int(good[0])
        return None

    def _rough(self, points: Floats) -> Floats:
        """How far each of `(..., 2)` points on the free part is from the nearest thing, to within `SLACK`."""
        columns = ((points[..., 0] - self.left) / CELL).astype(np.int64)
        rows = ((points[..., 1] - self.top) / CELL).astype(np.int64)
        last = self._far.shape
        return self._far[np.clip(rows, 0, last[0] - 1), np.clip(columns, 0, last[1] - 1)]

    def _clear_rings(self, centres: Floats, radius: float) -> NDArray[np.bool_]:
        """Whether each of `(n, 2)` rings is clear of all that stands."""
        clear: NDArray[np.bool_] = np.all(_from_lines(centres, self._lines) > radius + self._radii, axis=1)
        clear &= ~self._in_boxes(centres)
        return clear

    def _clear_lines(self, lines: Floats, radius: float) -> NDArray[np.bool_]:
        """Whether each of `(n, 2, 2)` lines, so thick, is clear of all that stands."""
        if not len(lines):
            return np.ones(0, dtype=np.bool_)
        reach = radius + (self._radii.max() if len(self._radii) else 0.0)
        low, high = lines.min(axis=(0, 1)) - reach, lines.max(axis=(0, 1)) + reach
        near = np.all((self._lines.max(axis=1) > low) & (self._lines.min(axis=1) < high), axis=1)
        apart = _between_lines(lines, self._lines[near]) - self._radii[near]
        clear: NDArray[np.bool_] = np.all(apart > radius, axis=1)
        clear &= ~self._in_boxes(lines[:, 0])
        return clear

    def _in_boxes(self, points: Floats) -> NDArray[np.bool_]:
        """Which of `(n, 2)` points lie where words stand."""
        within = np.zeros(len(points), dtype=np.bool_)
        for left, top, right, bottom in self._boxes:
            within |= np.all((points >= (left, top)) & (points <= (right, bottom)), axis=1)
        return within


def _few_first(places: NDArray[np.int64]) -> Iterator[NDArray[np.int64]]:
    """Places in order, more and more at a time."""
    at, count = 0, FIRST
    while at < len(places):
        yield places[at : at + count]
        at, count = at + count, 4 * count


def _sides(left: float, top: float, right: float, bottom: float) -> list[tuple[Vec2, Vec2]]:
    """Sides and diagonals of a box: a line that enters it crosses one of them, unless it begins within."""
    corners = [(left, top), (right, top), (right, bottom), (left, bottom)]
    return [*zip(corners, corners[1:] + corners[:1], strict=True), (corners[0], corners[2]), (corners[1], corners[3])]


def _from_line(x: Floats, y: Floats, start: Vec2, stop: Vec2) -> Floats:
    """How far each place of a raster, its columns at `x` and its rows at `y`, is from one line."""
    dx, dy, p, q = x - start[0], y - start[1], stop[0] - start[0], stop[1] - start[1]
    squared = p * p + q * q
    share = np.clip((dx * p + dy * q) / squared, 0.0, 1.0) if squared else 0.0
    far: Floats = np.hypot(dx - share * p, dy - share * q)
    return far


def _from_lines(points: Floats, lines: Floats) -> Floats:
    """`(n, m)`: how far each of n points is from each of m lines."""
    x, y = lines[:, 0].T
    p, q = (lines[:, 1] - lines[:, 0]).T
    squared = np.maximum(p * p + q * q, 1e-18)
    dx, dy = points[:, :1] - x, points[:, 1:] - y
    share = np.clip((dx * p + dy * q) / squared, 0.0, 1.0)
    far: Floats = np.hypot(dx - share * p, dy - share * q)
    return far


def _between_lines(one: Floats, other: Floats) -> Floats:
    """`(n, m)`: how far each of n lines is from each of m lines; 0 where they cross."""
    ends = np.minimum(_from_lines(one[:, 0], other), _from_lines(one[:, 1], other))
    back = np.minimum(_from_lines(other[:, 0], one), _from_lines(other[:, 1], one)).T
    near = np.minimum(ends, back)
    near[_parted(one, other) & _parted(other, one).T] = 0.0
    return near


def _parted(one: Floats, other: Floats) -> NDArray[np.bool_]:
    """`(n, m)`: whether the ends of each of m lines lie on both sides of each of n lines, as it would run on."""
    x, y = one[:, :1, 0], one[:, :1, 1]
    p, q = one[:, 1:, 0] - x, one[:, 1:, 1] - y
    first, last = (p * (other[:, end, 1] - y) - q * (other[:, end, 0] - x) for end in (0, 1))
    return first * last < 0.0
