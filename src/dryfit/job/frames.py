"""Frames: a chain of boards with a joint at each corner, drawn by its corners.

`size` says of what the points are corners. Outside and inside are set out by faces: each side's centre-line
lies half that side's own thickness in from the outside face (or out from the inside face), and the corners
of the centre-lines are where neighbours cross. A box 900 x 500 outside of boards 24 thick has centre-lines
876 x 476.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass

from ..places import Path
from .boards import SHORTEST, Ground
from .model import BoardSpec, FrameSpec, Point
from .names import shown
from .schema import FrameTable

STRAIGHT = 1e-9  # sine of the angle under which two sides run on in one line


@dataclass(frozen=True, slots=True)
class Side:
    """One side as typed: its timber and sizes."""

    name: str
    timber: str
    thickness: float
    depth: float
    back: float


def read_frames(
    tables: list[tuple[FrameTable, Path]], ground: Ground
) -> Iterator[tuple[FrameSpec, tuple[BoardSpec, ...]]]:
    """Yield every frame with its boards, in the order of its points."""
    for table, path in tables:
        found = _Frame(table, path, ground).read()
        if found is not None:
            yield found


class _Frame:
    def __init__(self, table: FrameTable, path: Path, ground: Ground) -> None:
        self.table, self.path, self.ground = table, path, ground
        self.mistakes = ground.mistakes

    def read(self) -> tuple[FrameSpec, tuple[BoardSpec, ...]] | None:
        name = self.table.name
        named = name is not None and self.ground.claim(name, (*self.path, "name"))
        points = self.points()
        if points is None or name is None:
            return None
        count = len(points) if self.table.closed else len(points) - 1
        names = self.names(name, count)
        sides = self.sides(name, names, count)
        if not named or sides is None:
            return None
        lines = self.lines(points, sides)
        if lines is None:
            return None
        inside = 1 if _area(points) >= 0 else -1
        boards = tuple(
            BoardSpec(
                name=side.name,
                timber=side.timber,
                line=line,
                depth=side.depth,
                back=side.back,
                frame=name,
                inside=inside,
                path=self.path,
                index=number,
            )
            for number, (side, line) in enumerate(zip(sides, lines, strict=True), start=1)
        )
        spec = FrameSpec(
            name=name,
            boards=tuple(side.name for side in sides),
            points=points,
            closed=self.table.closed,
            size=self.table.size,
            path=self.path,
        )
        return spec, boards

    def points(self) -> tuple[Point, ...] | None:
        typed, path = self.table.points, (*self.path, "points")
        if typed is None:
            return None
        if self.table.closed and len(typed) < 3:
            self.mistakes.add(path, "a closed frame has fewer than 3 points", "add points, or closed = false")
            return None
        if len(typed) > self.ground.room:
            self.mistakes.add(path, "this makes too many boards in all", "keep a job within 2000 boards")
            return None
        self.ground.room -= len(typed)
        found: list[Point] = []
        for at, (x, y) in enumerate(typed):
            left = self.mistakes.length(x, (*path, at, 0), self.ground.measures)
            up = self.mistakes.length(y, (*path, at, 1), self.ground.measures)
            if left is not None and up is not None:
                found.append((left, up))
        if len(found) < len(typed):
            return None
        following = found[1:] + found[:1] if self.table.closed else found[1:]
        for at, (one, other) in enumerate(zip(found, following, strict=False)):
            if math.dist(one, other) < SHORTEST:
                says = "two corners in a row are at one place"
                self.mistakes.add((*path, (at + 1) % len(found)), says, "take one out, or move it")
                return None
        return tuple(found)

    def names(self, name: str, count: int) -> list[str] | None:
        """Names of the sides, each taken; None where there are not as many as sides."""
        path = (*self.path, "names")
        if self.table.names is None:
            names = [f"{name} {number}" for number in range(1, count + 1)]
        elif len(self.table.names) == count:
            names = self.table.names
        else:
            says = f"the frame has {count} sides and {len(self.table.names)} names"
            self.mistakes.add(path, says, f"give it {count} names")
            return None
        claimed = [
            self.ground.claim(side, (*path, at) if self.table.names is not None else (*self.path, "name"))
            for at, side in enumerate(names)
        ]
        return names if all(claimed) else None

    def sides(self, name: str, names: list[str] | None, count: int) -> list[Side] | None:
        timbers = self.spread(self.table.timber or [None], "timber", count)
        depths = self.lengths("depth", count)
        backs = self.lengths("back", count) if self.table.back is not None else [0.0] * count
        if timbers is None or depths is None or backs is None:
            return None
        several = len(self.table.timber or ()) > 1
        sides = []
        for at, (timber, depth, back) in enumerate(zip(timbers, depths, backs, strict=True)):
            place: Path = (*self.path, "timber", at) if several else (*self.path, "timber")
            chosen = self.ground.timber(timber, place if timber else self.path, f"frame {shown(name)}")
            spec = self.ground.timbers.get(chosen or "")
            if spec is None or names is None:
                return None
            thickness = (spec.measured or spec.thickness) - 2 * self.ground.sanded
            sides.append(Side(names[at], spec.name, thickness, depth, back))
        return sides

    def spread[T](self, values: list[T], key: str, count: int) -> list[T] | None:
        raise NotImplementedError

    def lengths(self, key: str, count: int) -> list[float] | None:
        raise NotImplementedError

    def lines(self, points: tuple[Point, ...], sides: list[Side]) -> list[tuple[Point, Point]] | None:
        raise NotImplementedError


def _area(points: tuple[Point, ...]) -> float:
    """Twice the area enclosed, positive where the points go round anticlockwise."""
    return sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, points[1:] + points[:1], strict=True))
