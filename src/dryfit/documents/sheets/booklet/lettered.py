"""Letters of the boards in a picture of the booklet, and where its foot and its top lie.

What comes in and what it goes into always bear theirs. Of a large piece only the boards about them do besides: they
tell the place, and a picture full of letters is searched instead of read.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from itertools import islice

import numpy as np
from numpy.typing import NDArray

from ....geometry.frames import Vec, Vec2
from ...axonometric import HERE
from ...display import Circle, Item, Stroke, Text
from ...lettering import FIGURE, width
from ...looks import Desk
from ..page.ground import Ground
from .hovering import Hovering

RING, LETTER = 3.4, 3.5  # of a letter's ring; its height
RING_IN, LETTER_IN = 4.6, 5.0  # of what comes in
REACH = (8.0, 11.0, 15.0, 20.0, 26.0)  # how far from its board a letter may stand
TURNS = tuple(range(-60, 300, 30))
AT_ENDS = (0.06, 0.94, 0.15, 0.85, 0.3, 0.7, 0.5, 0.4, 0.6)
IN_MIDDLE = (0.5, 0.3, 0.7, 0.15, 0.85, 0.06, 0.94)
ROOMY = 16.0  # ring radii squared that a part must show to bear its letter
AIR = 0.6  # around a ring
AROUND = 24  # boards about the place that bear letters
DOT = 0.8  # around a leader, that no letter may touch
Floats = NDArray[np.float64]
_BESIDE: Floats = np.asarray(
    [(far * math.cos(math.radians(turn)), far * math.sin(math.radians(turn))) for far in REACH for turn in TURNS]
)
_ON_IT: Floats = np.concatenate([np.zeros((1, 2)), _BESIDE])
FOOT, TOP = "FOOT, near you", "TOP of the piece"


def letters(picture: Hovering) -> Iterator[Item]:
    """Of what comes in, of what it goes into, then of those about them while there is room."""
    into = picture.step.into if picture.step else ()
    for name in picture.incoming:
        on_it = _ON_IT if picture.wood[name].area > ROOMY * RING_IN**2 else _BESIDE
        yield from _letter(picture, name, _middle_places(picture, name), on_it, RING_IN, LETTER_IN)
    for name in dict.fromkeys((*into, *_about(picture))):
        if name not in picture.scene.away:
            yield from _letter(picture, name, _seen_places(picture, name), _BESIDE, RING, LETTER)


def _about(picture: Hovering) -> Sequence[str]:
    """What lies there; where something comes in and that is much, what lies nearest to it."""
    if not picture.incoming or len(picture.there) <= AROUND:
        return picture.there
    coming = np.asarray([picture.view.box(name, HERE) for name in picture.incoming])
    (left, low), (right, high) = coming[:, :2].min(axis=0), coming[:, 2:].max(axis=0)
    there = np.asarray([picture.view.boxes[name] for name in picture.there])
    across = np.maximum(np.maximum(left - there[:, 2], there[:, 0] - right), 0.0)
    up = np.maximum(np.maximum(low - there[:, 3], there[:, 1] - high), 0.0)
    nearest = np.argsort(np.hypot(across, up), kind="stable")[:AROUND]
    return [picture.there[number] for number in sorted(nearest.tolist())]


def _letter(
    picture: Hovering, name: str, places: Iterable[Vec], around: Floats, ring: float, size: float
) -> Iterator[Item]:
    """A letter at the first of the places at which it has room, near before far."""
    left = iter(places)
    for some in ([*islice(left, 1)], [*left]):  # mostly the first place has room
        found = _first(picture.ground, [picture.world(place) for place in some], around, ring + AIR)
        if found is not None:
            p, centre = found
            picture.ground.take(centre, centre, ring + AIR)
            picture.ground.take(p, centre, DOT)
            yield from _ring(p, centre, ring, size, picture.desk.marks[name], name)
            return


def _first(ground: Ground, starts: list[Vec2], around: Floats, radius: float) -> tuple[Vec2, Vec2] | None:
    """Where a letter's leader begins, and where its ring has room."""
    if not starts:
        return None
    feet = np.repeat(np.asarray(starts), len(around), axis=0)
    centres = feet + np.tile(around, (len(starts), 1))
    found = ground.first_ring(feet, centres, radius, DOT)
    return None if found is None else (_place(feet[found]), _place(centres[found]))


def _place(row: Floats) -> Vec2:
    x, y = row.tolist()
    return x, y


def _middle_places(picture: Hovering, name: str) -> Iterator[Vec]:
    """On the face of what comes in."""
    part = picture.desk.looks[name].part
    low, high = part.long
    for share in IN_MIDDLE:
        point = part.board.frame.place((low + (high - low) * share, 0.0, part.board.depth / 2))
        yield _moved(point, picture.offset)


def _seen_places(picture: Hovering, name: str) -> Iterator[Vec]:
    """Along the edge that faces up, where nothing hides it."""
    up = picture.step is None or picture.step.up == "front"
    return (point for point in _edge(picture.desk, name, up=up) if picture.view.is_seen(point, picture.scene))


def _edge(desk: Desk, name: str, *, up: bool) -> list[Vec]:
    """Places along the front edge, or else the wall edge; the same on every page."""
    kept: dict[tuple[str, bool], list[Vec]] = desk.kept.setdefault("edges", {})
    if (name, up) not in kept:
        part = desk.looks[name].part
        low, high = part.long
        d = part.board.depth if up else 0.0
        kept[name, up] = [part.board.frame.place((low + (high - low) * share, 0.0, d)) for share in AT_ENDS]
    return kept[name, up]


def _moved(p: Vec, by: Vec) -> Vec:
    return (p[0] + by[0], p[1] + by[1], p[2] + by[2])


def _ring(p: Vec2, centre: Vec2, ring: float, size: float, mark: str, owner: str) -> Iterator[Item]:
    far = math.dist(p, centre)
    if far > ring:
        edge = (centre[0] + (p[0] - centre[0]) * ring / far, centre[1] + (p[1] - centre[1]) * ring / far)
        yield Stroke(points=(edge, p), pen="break", layer="balloon", owner=owner)
        yield Circle(centre=p, radius=0.5, ink="black", layer="balloon", owner=owner)
    small = size if width(mark, size, "semibold") <= 2 * ring - 1.6 else size * 0.7
    at = (centre[0], centre[1] + small / 2)
    yield Circle(centre=centre, radius=ring, pen="balloon", ink="white", layer="balloon", owner=owner)
    yield Text(at=at, text=mark, size=small, weight="semibold", anchor="middle", layer="balloon", owner=owner)


def ends(picture: Hovering) -> Iterator[Item]:
    """The words for the foot and the top, beside the wood, each at its side of the picture."""
    _, top, _, bottom = picture.extent
    yield from _words(picture, FOOT, [bottom + 5.0 - step * 9.0 for step in range(4)])
    yield from _words(picture, TOP, [top - 1.5 + step * 9.0 for step in range(4)])


def _words(picture: Hovering, text: str, rows: list[float]) -> Iterator[Item]:
    left, _, right, _ = picture.extent
    wide = width(text, FIGURE, "medium")
    for y in rows:
        for step in range(13):
            x = left + (right - left - wide) * step / 12
            if picture.off_the_wood(x - 1.5, y - FIGURE - 1.0, x + wide + 1.5, y + 2.0):
                yield Text(at=(x, y), text=text, size=FIGURE, weight="medium", layer="words")
                return
