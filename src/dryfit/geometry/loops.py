"""Outlines as the views give them: rounded, anticlockwise, each from the corner nearest the datum end."""

from collections.abc import Iterable
from typing import TypeAlias

from shapely import Polygon, make_valid
from shapely.geometry.base import BaseGeometry

from .frames import Vec2, length
from .sections import TOUCH, polygons

Loop: TypeAlias = tuple[Vec2, ...]


def hull(points: list[Vec2], zero: float) -> Loop:
    """The hull of rounded points, by its lower and its upper chain; nothing where they lie on one line."""
    ordered = sorted(set(points))
    chains = _chain(ordered)[:-1] + _chain(ordered[::-1])[:-1]
    return loop(chains, zero) if len(chains) > 2 else ()


def _chain(points: list[Vec2]) -> list[Vec2]:
    chain: list[Vec2] = []
    for p in points:
        while len(chain) > 1 and _turn(chain[-2], chain[-1], p) <= 0:
            chain.pop()
        chain.append(p)
    return chain


def _turn(before: Vec2, at: Vec2, after: Vec2) -> float:
    """Twice the area of a triangle, positive where the corner turns left."""
    return (at[0] - before[0]) * (after[1] - at[1]) - (at[1] - before[1]) * (after[0] - at[0])


def loops(area: BaseGeometry, zero: float) -> tuple[Loop, ...]:
    """Outer outlines, anticlockwise, from the corner nearest the datum end; in order along the board."""
    found = (loop(part.exterior.coords, zero) for part in polygons(area))
    return tuple(sorted(sound for corners in found if corners for sound in _fallen_apart(corners)))


def _fallen_apart(corners: Loop) -> tuple[Loop, ...]:
    """An outline that only a neck thinner than any rounding held together, as its pieces; else itself."""
    whole = Polygon(corners)
    if len(corners) == 3 or whole.is_valid:
        return (corners,)
    pieces = (loop(part.exterior.coords, 0.0) for part in polygons(make_valid(whole)))
    return tuple(piece for piece in pieces if piece)


def loop(coords: Iterable[tuple[float, ...]], zero: float) -> Loop:
    """One outline as it is told; nothing of a sliver so thin that all its corners lie on one line."""
    corners = _corners([(length(p[0] - zero), length(p[1])) for p in coords])
    if len(corners) < 3:
        return ()
    if sum(p[0] * q[1] - q[0] * p[1] for p, q in zip(corners, corners[1:] + corners[:1], strict=True)) < 0:
        corners.reverse()
    first = corners.index(min(corners))
    return tuple(corners[first:] + corners[:first])


def _corners(points: list[Vec2]) -> list[Vec2]:
    """Those points of an outline where it turns: each once, and no spike that runs out and back on one line."""
    while True:
        corners = [at for before, at in zip(points[-1:] + points[:-1], points, strict=True) if at != before]
        turns = zip(corners[-1:] + corners[:-1], corners, corners[1:] + corners[:1], strict=True)
        kept = [at for before, at, after in turns if not _straight(before, at, after)]
        if len(kept) == len(points):
            return kept
        points = kept


def _straight(before: Vec2, at: Vec2, after: Vec2) -> bool:
    """Whether a corner lies on the line between its neighbours, and so is none."""
    return abs(_turn(before, at, after)) < TOUCH * max(1.0, abs(after[0] - before[0]) + abs(after[1] - before[1]))
