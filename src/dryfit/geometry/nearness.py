"""Which of many thin strips lie near each other in the elevation, in near-linear time.

Each strip is entered into the cells of a square grid that it runs through, column by column along its
longer direction, so a long raking board does not fill the box around it.
"""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from functools import lru_cache

from .frames import Vec2


@dataclass(frozen=True, slots=True)
class StraightStrip:
    """A straight strip: from `start` along unit vector `u` for `length`, `half` to either side."""

    start: Vec2
    u: Vec2
    length: float
    half: float


def near_pairs(strips: Sequence[StraightStrip], reach: float) -> list[tuple[int, int]]:
    """Return the pairs (i < j), sorted, that share a cell when each strip is grown by `reach`.

    Every pair nearer than `reach` is among them; some that are further apart may be too.
    """
    if len(strips) < 2:
        return []
    mean = sum(strip.length for strip in strips) / len(strips)
    size = max(mean / 6, 4 * max(strip.half for strip in strips), 4 * reach, 1e-3)
    size = 2.0 ** math.ceil(math.log2(size))  # steady while the piece changes, so that cells may be kept
    cells: dict[tuple[int, int], list[int]] = {}
    for index, strip in enumerate(strips):
        for cell in _cells(strip, reach, size):
            cells.setdefault(cell, []).append(index)
    pairs: set[tuple[int, int]] = set()
    for members in cells.values():
        for place, i in enumerate(members):
            pairs.update((i, j) for j in members[place + 1 :])
    return sorted(pairs)


@lru_cache(maxsize=8192)
def _cells(strip: StraightStrip, reach: float, size: float) -> tuple[tuple[int, int], ...]:
    return tuple(_walked(strip, reach, size))


def _walked(strip: StraightStrip, reach: float, size: float) -> Iterator[tuple[int, int]]:
    grow = strip.half + reach
    (x, y), (ux, uy) = strip.start, strip.u
    if abs(ux) >= abs(uy):
        for column, low, high in _columns(x, y, ux, uy, strip.length, grow, size):
            yield from ((column, row) for row in range(low, high + 1))
    else:
        for row, low, high in _columns(y, x, uy, ux, strip.length, grow, size):
            yield from ((column, row) for column in range(low, high + 1))


def _columns(
    p: float, q: float, up: float, uq: float, length: float, grow: float, size: float
) -> Iterator[tuple[int, int, int]]:
    """Columns of the grid along the strip's longer direction, each with its lowest and highest row."""
    slope = uq / up
    first, last = sorted((p, p + up * length))
    spread = grow / abs(up)  # half the strip's height measured square to the longer direction
    for column in range(math.floor((first - grow) / size), math.floor((last + grow) / size) + 1):
        near = min(max(column * size, first), last)
        far = min(max((column + 1) * size, first), last)
        ends = sorted((q + (near - p) * slope, q + (far - p) * slope))
        yield column, math.floor((ends[0] - spread) / size), math.floor((ends[1] + spread) / size)
