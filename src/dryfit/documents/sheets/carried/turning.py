"""A turn seen from above: both corridors, and what goes round where there is least room for it."""

import math
from collections.abc import Iterable, Iterator, Sequence

from ....geometry.frames import Vec2
from ....sentences import Voice
from ....studies.carrying.result import Body, Passage, Passed, PassingWay
from ...display import Area, Item, Stroke, shifted
from ...kit.axis import Axis
from ...kit.dimension import plain
from ...kit.view import PlacedView, View, place
from ...lettering import printable
from ...naming import angle, position
from ...standard import SCALES, SMALL, TEXT

WIDE, HIGH = 84.0, 92.0  # of one on paper, two side by side
BESIDE = 4 * TEXT
FREE = 300.0  # of a corridor that is drawn beyond what goes round


def turnings(shown: Iterable[tuple[Passage, Body, Passed]], voice: Voice) -> Iterator[tuple[Item, ...]]:
    """Each turn with the body that has least room in it, two side by side."""
    drawn = [_placed(*one, voice) for one in shown]
    for first in range(0, len(drawn), 2):
        left, *right = drawn[first : first + 2]
        items = list(left.items)
        if right:
            items += shifted(right[0].items, WIDE + BESIDE, 0.0)
        yield tuple(items)


def _placed(passage: Passage, body: Body, passed: Passed, voice: Voice) -> PlacedView:
    """The largest scale at which all of it finds room."""
    scales = (scale for scale in SCALES if scale <= SMALL)
    ways = (place(_view(passage, body, passed, scale, voice), (WIDE, HIGH), voice) for scale in scales)
    return next(one for one in ways if not one.unplaced and one.wide <= WIDE and one.high <= HIGH)


def _view(passage: Passage, body: Body, passed: Passed, scale: float, voice: Voice) -> View:
    way = passed.way
    assert way is not None, "only what goes round is drawn"
    a, b = passage.width, passage.into
    corners = _corners(way)
    far = max(x for x, _ in corners) + FREE, max(y for _, y in corners) + FREE
    right, top = max(far[0], a + FREE), max(far[1], b + FREE)
    across, up = Axis.whole(0.0, right, scale), Axis.whole(0.0, top, scale, sign=-1.0)

    def at(points: Sequence[Vec2]) -> tuple[Vec2, ...]:
        return tuple((across.at(x), up.at(y)) for x, y in points)

    floor = at(corners)
    called = body.name or "the whole piece"
    return View(
        title=printable(f"{passage.name}: {called}"),
        wood=(
            Area(loops=(floor,), ink="grey"),
            Stroke(points=floor, pen="outline", closed=True),
            Stroke(points=at([(0.0, top), (0.0, 0.0), (right, 0.0)]), pen="cut wood"),
            Stroke(points=at([(a, top), (a, b), (right, b)]), pen="cut wood"),
        ),
        across=across,
        up=up,
        dimensions=(
            plain((0.0, top), (a, top), position(a), 1, way=(1.0, 0.0)),
            plain((right, 0.0), (right, b), position(b), -1, way=(0.0, 1.0)),
        ),
        says=(_how(way),),
    )


def _how(way: PassingWay) -> str:
    """How it lies, and what room there is."""
    lies = f"tilted by {angle(round(way.lean, 1))}" if way.how == "tilted" else way.how
    taken = f"{position(way.floor)} × {position(way.across)} on the floor"
    return f"{lies}: {taken}, {position(math.floor(way.room))} long would go round"


def _corners(way: PassingWay) -> list[Vec2]:
    """Its floor with both ends on the outer walls, turned to where there is least room."""
    t = math.radians(way.turn)
    one, other = (0.0, way.floor * math.sin(t)), (way.floor * math.cos(t), 0.0)
    over = way.across * math.sin(t), way.across * math.cos(t)
    return [one, other, (other[0] + over[0], other[1] + over[1]), (one[0] + over[0], one[1] + over[1])]
