"""What eyes see: mouths, plugs and open notches, by rays to points of each, past all wood that stands in the end.

A mouth or plug is looked at on its middle and on its rim, a notch in what is left open of it: at its front and half-way
in, near both faces and in the middle. It is seen if any of these points is.
"""

import math
from collections import Counter
from collections.abc import Iterator, Sequence

from ...geometry.frames import Vec, cosine, dot
from ...geometry.polygons import level_crossings
from ...geometry.shapes import Bore, Prism, rim_of
from ...geometry.solids import flattened
from ...piece.model import Board, Cut
from .result import Eye, Sight
from .value import MouthValue, Target
from .wood import ConvexBody, Eyesight

BEFORE = 0.1  # the surface of a mouth, so that a ray to it ends in the open
RIM = 8  # points of a rim
INSIDE = 0.9  # of a rim's radius, and of a notch
AGAINST = 1e-9


def surface_at(board: Board, bore: Bore) -> Vec:
    """The unit vector out of the surface that a bore opens in, in the world; of a face as it tapers there."""
    x, y, z = (-one for one in bore.direction)
    if abs(y) < max(abs(x), abs(z)):
        found = (math.copysign(1.0, x), 0.0, 0.0) if abs(x) > abs(z) else (0.0, 0.0, math.copysign(1.0, z))
    else:
        a, near = bore.start[0], bore.profile[0][1] / 2
        rise = (board.thickness_at(a + near) - board.thickness_at(a - near)) / 2 / (2 * near)
        long = math.hypot(rise, 1.0)
        found = (-rise / long, math.copysign(1.0, y) / long, 0.0)
    x, y, z = board.frame.direct(found)
    return (cosine(x), cosine(y), cosine(z))


def looked_at(mouth: MouthValue) -> tuple[Vec, ...]:
    """The middle of a mouth and points of its rim, a little before the surface that it lies in."""
    points = (mouth.at, *rim_of(mouth.at, mouth.out, mouth.normal, INSIDE * mouth.wide, RIM))
    return tuple(plus(point, mouth.normal, BEFORE) for point in points)


def open_part(board: Board, cut: Cut, long: float) -> tuple[Vec, ...]:
    """Points in what is left open of a slot at its board's front edge, `long` of it, in the world."""
    half = board.thickest / 2
    places = (board.depth - BEFORE, board.depth - long / 2)
    found = []
    for shape in cut.shapes:
        if isinstance(shape, Prism):
            outline = flattened(shape.outline)
            for c in (-INSIDE * half, 0.0, INSIDE * half):
                met = level_crossings(outline, c)
                if met is not None:
                    low, high = met
                    ways = (low + (1 - INSIDE) * (high - low), (low + high) / 2, low + INSIDE * (high - low))
                    found += [board.frame.place((a, c, d)) for a in ways for d in places]
    return tuple(found)


def sights(eyes: Sequence[Eye], targets: Sequence[Target], every: Sequence[ConvexBody]) -> Iterator[Sight]:
    """Each target from each eye."""
    for eye in eyes:
        eyesight = Eyesight(every, eye.at)
        for target in targets:
            hidden = [_hider(eyesight, target, point) for point in target.points]
            by = Counter(one for one in hidden if one is not None)
            share = round(100 * hidden.count(None) / len(hidden))
            yield Sight(
                eye=eye.name,
                what=target.what,
                board=target.board,
                cut=target.cut,
                joint=target.joint,
                share=max(share, 1) if None in hidden else 0,
                by=tuple(name for name, _ in sorted(by.items(), key=lambda item: (-item[1], item[0]))),
            )


def _hider(eyesight: Eyesight, target: Target, point: Vec) -> str | None:
    """What hides a point; a mouth is hidden by its own board from behind it."""
    if target.out is not None:
        to_eye = tuple(e - p for e, p in zip(eyesight.eye, point, strict=True))
        if dot((to_eye[0], to_eye[1], to_eye[2]), target.out) <= AGAINST:
            return target.board
    return eyesight.between(point)


def plus(p: Vec, way: Vec, far: float) -> Vec:
    """A point so far on by a way."""
    return (p[0] + far * way[0], p[1] + far * way[1], p[2] + far * way[2])
