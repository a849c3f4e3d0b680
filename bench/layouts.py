"""Pieces to measure on: irregular, each board of its own length, thickness and depth, and none like another.

Every shape takes about as many boards as are asked for. Boards lean up to 15 degrees, are 18 to 30 thick, and a
quarter of them hang from four counterbored screws. What is drawn at random comes from the shape and the number alone,
so that a layout is the same on every machine and every day.

    bays       uprights that lean, three shelves between each two: dowelled, in stopped housings, in through ones
    ring       one closed chain of stairs up and back, each board halved over the next
    star       one long board, crossed by all the others
    alike      two rails crossed by a row of boards that are all alike: the exception
    lattices   grids of six boards by six, halved, side by side: three joints a board
    grid       one such grid of all boards: joints grow as the square of the boards
"""

import math
import random
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass, field
from functools import partial
from itertools import pairwise

_HEAD = """dryfit = 1
[job]
title = "bench"
[wall]
kind = "timber studs"
lining = 12.5
hung = true
"""
LEAN = 15.0  # degrees off plumb or level, at most
_ROW = 80  # bays
_BAND = 1300.0  # between the two stairs of a ring
FREE = 60.0  # mm from a screw to ends and crossings, and to the next screw

_HELD = ('kind = "butt"\ndowel = 6', 'kind = "housing"\nstop = "one end"', "")  # the shelves of a bay, from below

Point = tuple[float, float]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Drawn:
    """One board: its line, the places where others meet it, and joints asked for: with what, and how."""

    name: str
    line: tuple[Point, Point]
    meets: Sequence[Point] = ()
    joints: tuple[tuple[str, str], ...] = ()
    depths: tuple[float, float] = (180.0, 320.0)


@dataclass(frozen=True, slots=True, kw_only=True)
class Layout:
    """A piece.

    Attributes:
        names: of its boards.
        tables: of each board, as text that takes how far it is moved along the wall.
        head: all that comes before them.
    """

    names: tuple[str, ...]
    tables: tuple[Callable[[float], str], ...]
    head: str = field(repr=False)

    def text(self, moved: Mapping[str, float] | None = None) -> str:
        """Its job file; `moved` moves boards along the wall, by name."""
        by = moved or {}
        return self.head + "".join(
            table(by.get(name, 0.0)) for name, table in zip(self.names, self.tables, strict=True)
        )


def layout(shape: str, boards: int) -> Layout:
    """The piece of a shape with about so many boards."""
    rng = random.Random(f"{shape} {boards}")
    if shape == "alike":
        return _alike(rng, boards)
    drawn = list(SHAPES[shape](rng, boards))
    screwed = set(rng.sample(range(len(drawn)), len(drawn) // 4))
    thicknesses: set[float] = set()
    tables = []
    for number, board in enumerate(drawn):
        thickness = round(rng.uniform(24 if number in screwed else 18, 30), 1)
        thicknesses.add(thickness)
        more = f"timber = {_timber(thickness)!r}\ndepth = {rng.uniform(*board.depths):.1f}\n"
        tables.append(_table(board, more, _screws(board) if number in screwed else []))
    return Layout(names=tuple(board.name for board in drawn), tables=tuple(tables), head=_head(thicknesses))


def _timber(thickness: float) -> str:
    return f"oak {thickness}"


def _head(thicknesses: set[float]) -> str:
    timbers = (
        f'[timber."{_timber(one)}"]\nspecies = "oak, white"\nform = "edge-glued panel"\nthickness = {one}\n'
        for one in sorted(thicknesses)
    )
    return _HEAD + "".join(timbers)


def _table(board: _Drawn, more: str, screws: Sequence[float]) -> Callable[[float], str]:
    def table(by: float) -> str:
        points = [[round(x + by, 1), round(y, 1)] for x, y in board.line]
        text = f'[[board]]\nname = "{board.name}"\nline = {points}\n{more}'
        if screws:
            places = [round(at, 1) for at in screws]
            text += f'[[fixing]]\nboard = "{board.name}"\nkind = "long screw"\nscrew = "wood 5x120"\nat = {places}\n'
        for other, asked in board.joints:
            text += f'[[joint]]\nbetween = ["{board.name}", "{other}"]\n{asked}\n'
        return text

    return table


def _screws(board: _Drawn) -> list[float]:
    """Four places along a board, clear of what meets it; none where there is no room for four."""
    start, end = board.line
    size = math.dist(start, end)
    taken = sorted([0.0, size, *(math.dist(start, place) for place in board.meets)])
    free = [
        low + FREE + step * FREE
        for low, high in pairwise(taken)
        for step in range(math.floor((high - low) / FREE) - 1)
        if low + FREE * (step + 2) <= high
    ]
    return [free[(len(free) - 1) * number // 3] for number in range(4)] if len(free) > 3 else []


def _leans(rng: random.Random, most: float = LEAN) -> float:
    return math.tan(math.radians(rng.uniform(-most, most)))


def _on(line: tuple[Point, Point], share: float) -> Point:
    (x0, y0), (x1, y1) = line
    return x0 + (x1 - x0) * share, y0 + (y1 - y0) * share


# ---- shapes


def _bays(rng: random.Random, boards: int) -> Iterator[_Drawn]:
    """Rows of bays over one another, as a job may be 100 m long at most."""
    count = max(1, round(boards / 4))
    for first in range(0, count, _ROW):
        yield from _row_of_bays(rng, first, min(_ROW, count - first), first // _ROW * 1200.0)


def _row_of_bays(rng: random.Random, first: int, count: int, y: float) -> Iterator[_Drawn]:
    x, lean = 0.0, 0.0
    uprights = []
    for _ in range(count + 1):
        high = rng.uniform(850, 950)
        lean = max(-10.0, min(10.0, lean + rng.uniform(-4, 4)))
        uprights.append(((x, y + rng.uniform(0, 20)), (x + high * math.tan(math.radians(lean)), y + high)))
        x += rng.uniform(420, 620)
    row = "" if first == 0 else f" from {first + 1}"
    meets: list[list[Point]] = [[] for _ in uprights]
    for bay, (left, right) in enumerate(pairwise(uprights)):
        for level, asked in enumerate(_HELD, 1):
            # what stands on an upright's two faces keeps clear of one another; dowels want a squarer end
            near, far = ((0.0, 0.03), (0.07, 0.1))[:: 1 if bay % 2 or level > 1 else -1]
            line = (
                _on(left, 0.27 * level - rng.uniform(*near)),
                _on(right, 0.27 * level - rng.uniform(*(near if level == 1 else far))),
            )
            meets[bay].append(line[0])
            meets[bay + 1].append(line[1])
            joints = tuple((f"upright {number}{row}", asked) for number in (bay + 1, bay + 2) if asked)
            yield _Drawn(name=f"shelf {bay + 1} {level}{row}", line=line, joints=joints, depths=(180, 260))
    for number, line in enumerate(uprights):
        yield _Drawn(name=f"upright {number + 1}{row}", line=line, meets=meets[number], depths=(270, 320))


def _ring(rng: random.Random, boards: int) -> Iterator[_Drawn]:
    """Up by stairs to the right, a long level board back, down by stairs, a long upright to the start."""
    steps = max(4, round(boards / 4) + 1)
    x = y = 0.0
    corners = [(x, y)]
    for _ in range(steps):
        x, y = x + rng.uniform(420, 480), y + rng.uniform(420, 480)
        corners += [(x, corners[-1][1]), (x, y)]
    down, left = (x - _BAND) / (steps - 3), (y - _BAND) / (steps - 3)
    for step in range(steps - 3):
        x, y = x - _BAND if step == 0 else x - left, corners[-1][1]
        corners += [(x, y), (x, y - down)]
    corners.append((0.0, corners[-1][1]))
    shaken = [(x + rng.uniform(-40, 40), y + rng.uniform(-40, 40)) for x, y in corners]
    for number, (p, q) in enumerate(zip(shaken, shaken[1:] + shaken[:1], strict=True)):
        size = math.dist(p, q)
        ux, uy = (q[0] - p[0]) / size, (q[1] - p[1]) / size
        before, after = rng.uniform(90, 120), rng.uniform(90, 120)
        line = (p[0] - before * ux, p[1] - before * uy), (q[0] + after * ux, q[1] + after * uy)
        yield _Drawn(name=f"board {number + 1}", line=line, meets=(p, q))


def _star(rng: random.Random, boards: int) -> Iterator[_Drawn]:
    x, meets = 200.0, []
    rays = []
    for _ in range(boards - 1):
        low, high, lean = rng.uniform(230, 300), rng.uniform(230, 300), _leans(rng)
        rays.append(((x - low * lean, 1000 - low), (x + high * lean, 1000 + high)))
        meets.append((x, 1000.0))
        x += rng.uniform(240, 280)
    yield _Drawn(name="hub", line=((0.0, 1000.0), (x, 1000.0)), meets=meets)
    for number, (line, place) in enumerate(zip(rays, meets, strict=True)):
        yield _Drawn(name=f"ray {number + 1}", line=line, meets=(place,))


def _lattices(rng: random.Random, boards: int) -> Iterator[_Drawn]:
    for number in range(max(1, round(boards / 12))):
        yield from _lattice(rng, 6, (number % 10 * 1400.0, number // 10 * 1400.0), f" of {number + 1}")


def _grid(rng: random.Random, boards: int) -> Iterator[_Drawn]:
    yield from _lattice(rng, boards // 2, (0.0, 0.0), "")


def _lattice(rng: random.Random, count: int, at: Point, whose: str) -> Iterator[_Drawn]:
    """Level and upright boards, all crossing; all uprights lean alike but for what keeps them apart."""
    steps = [[rng.uniform(110, 160) for _ in range(count)] for _ in range(2)]
    size = max(sum(own) for own in steps) + 150
    tilt = _leans(rng, 10)
    every: list[tuple[str, tuple[Point, Point]]] = []
    for kind, own in zip(("level", "upright"), steps, strict=True):
        place = 0.0
        for number, step in enumerate(own):
            place += step
            ends = [place + rng.uniform(-15, 15) for _ in range(2)]
            low, high = -rng.uniform(0, 40), size + rng.uniform(0, 40)
            if kind == "level":
                line = (low + ends[0] * tilt, ends[0]), (high + ends[1] * tilt, ends[1])
            else:
                line = (ends[0] + low * tilt, low), (ends[1] + high * tilt, high)
            every.append(
                (
                    f"{kind} {number + 1}{whose}",
                    ((line[0][0] + at[0], line[0][1] + at[1]), (line[1][0] + at[0], line[1][1] + at[1])),
                )
            )
    for name, line in every:
        crossing = [_cross(line, other) for their, other in every if their.split()[0] != name.split()[0]]
        yield _Drawn(name=name, line=line, meets=crossing)


def _cross(one: tuple[Point, Point], other: tuple[Point, Point]) -> Point:
    (ax, ay), (bx, by) = one
    (cx, cy), (dx, dy) = other
    ux, uy, vx, vy = bx - ax, by - ay, dx - cx, dy - cy
    share = ((cx - ax) * vy - (cy - ay) * vx) / (ux * vy - uy * vx)
    return ax + share * ux, ay + share * uy


def _alike(rng: random.Random, boards: int) -> Layout:
    """A row of one board over two rails."""
    count, step = boards - 2, 80
    size = step * (count + 2)
    rails = [
        f'[[board]]\nname = "rail {number}"\ntimber = "{_timber(24.0)}"\ndepth = 200\n'
        f"line = [[0, {y}], [{size}, {y}]]\n"
        for number, y in ((1, rng.randrange(180, 220)), (2, rng.randrange(680, 720)))
    ]
    at = f"{step} * i"
    slats = (
        f'[[board]]\nname = "slat {{i}}"\ncount = {count}\ntimber = "{_timber(18.0)}"\ndepth = 180\n'
        f'line = [["{at}", 0], ["{at} + 60", 900]]\n'
    )
    return Layout(
        names=("rail 1", "rail 2", "slats"),
        tables=tuple(partial(_as_it_is, text) for text in (*rails, slats)),
        head=_head({18.0, 24.0}),
    )


def _as_it_is(text: str, _by: float) -> str:
    return text


SHAPES: dict[str, Callable[[random.Random, int], Iterator[_Drawn]]] = {
    "bays": _bays,
    "ring": _ring,
    "star": _star,
    "lattices": _lattices,
    "grid": _grid,
}
