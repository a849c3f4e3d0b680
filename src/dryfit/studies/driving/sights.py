"""What eyes see: mouths, plugs and open notches, by rays to points of each, past all wood that stands in the end.

A mouth or plug is looked at on its middle and on its rim, a notch in what is left open of it: at its front and half-way
in, near both faces and in the middle. It is seen if any of these points is.
"""

import math
from collections import Counter
from collections.abc import Iterator, Sequence

from ...geometry.frames import Vec, cross, dot
from ...geometry.polygons import level_crossings
from ...geometry.shapes import Bore, Prism
from ...geometry.solids import flattened
from ...piece.model import Board, Cut
from .result import Eye, Sight
from .value import Target
from .wood import ConvexBody, Eyesight

BEFORE = 0.1  # a mouth, so that a ray to it ends in the open
RIM = 8  # points of a rim
INSIDE = 0.9  # of a rim's radius, and of a notch
AGAINST = 1e-9


def rim(start: Vec, out: Vec, radius: float) -> tuple[Vec, ...]:
    """The middle of a mouth and points of its rim, a little before it; in the frame of `start`."""
    helper = (1.0, 0.0, 0.0) if abs(out[0]) < 0.9 else (0.0, 1.0, 0.0)
    u = _unit(cross(helper, out))
    v = cross(out, u)
    middle = _plus(start, out, BEFORE)
    turns = [2 * math.pi * number / RIM for number in range(RIM)]
    far = INSIDE * radius
    return (
        middle,
        *(_plus(_plus(middle, u, far * math.cos(turn)), v, far * math.sin(turn)) for turn in turns),
    )


def mouths(board: Board, cut: Cut) -> Iterator[tuple[tuple[Vec, ...], Vec]]:
    """Points of each mouth of a cut and its way out, in the world."""
    for shape in cut.shapes:
        if isinstance(shape, Bore):
            x, y, z = shape.direction
            out = board.frame.direct((-x + 0.0, -y + 0.0, -z + 0.0))
            yield rim(board.frame.place(shape.start), out, shape.profile[0][1] / 2), out


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


def _plus(p: Vec, way: Vec, far: float) -> Vec:
    return (p[0] + far * way[0], p[1] + far * way[1], p[2] + far * way[2])


def _unit(p: Vec) -> Vec:
    size = math.hypot(*p)
    return (p[0] / size, p[1] / size, p[2] / size)
