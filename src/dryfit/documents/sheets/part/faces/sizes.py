"""Plain dimensions on a face: the board's width once, and one depth for each reach across the board."""

from collections.abc import Sequence

from .....geometry.frames import Vec2
from .....geometry.views import Trace
from ....display import Item, Stroke, extent
from ....lettering import TEXT, width
from ....naming import depth, position
from ...dimensions.plain import across
from ...page.placing import Room
from .surface import Plane

EDGE = 0.05  # nearer to an edge than this a cut runs out at it
LEAST = 6.0  # what a figure needs beside its own length to stand between its arrows
BESIDE = 6.6  # from a cut's wall to the far side of the room for its depth
PAST = 1.6  # of an extension line past the dimension line


def board_width(plane: Plane, room: Room) -> list[Item]:
    """The board's width, where there is a free strip across it."""
    left, right, high = plane.ruler.left, plane.ruler.right, plane.bottom - plane.top
    figure = position(plane.look.part.board.depth)
    if high < width(figure, TEXT) + LEAST:
        return []
    start = left + min(40.0, (right - left) * 0.2)
    places = [(start + step, plane.top + 0.8) for step in range(0, int((right - left) * 0.7), 2)]
    spot = room.find(4.6, high - 1.6, places)
    return [] if spot is None else across(spot[0] + 4.0, plane.top, plane.bottom, figure)


def depths(plane: Plane, room: Room, traces: Sequence[Trace]) -> list[Item]:
    """How far across the board cuts reach, each size once, where it is not the whole width."""
    done: set[tuple[str, str]] = set()
    items: list[Item] = []
    for trace in traces:
        for low, high in _reaches(trace, plane.look.part.board.depth):
            size = (depth(low), depth(high))
            made = _depth(plane, room, trace, low, high) if size not in done else []
            if made:
                done.add(size)
            items += made
    return items


def _reaches(trace: Trace, whole: float) -> list[Vec2]:
    """The stretches to dimension: from the edge it opens to; of a pocket, its own and that to the front edge."""
    low, high = trace.across
    at_wall, at_front = low < EDGE, high > whole - EDGE
    if at_wall and at_front:
        return []
    return [(low, high)] if at_wall or at_front else [(low, high), (high, whole)]


def _depth(plane: Plane, room: Room, trace: Trace, low: float, high: float) -> list[Item]:
    corners = tuple(plane.at(p) for loop in trace.opening for p in loop)
    left, _, right, _ = extent([Stroke(points=corners, pen="outline")])
    top, bottom = sorted((plane.y(low), plane.y(high)))
    figure = position(high - low)
    if bottom - top < width(figure, TEXT, "semibold") + LEAST:
        return []
    inner_top, inner_bottom = max(top, plane.top + 0.8), min(bottom, plane.bottom - 0.8)
    places = [(left - BESIDE, inner_top), (right + 1.8, inner_top), (left - BESIDE - 3.0, inner_top)]
    spot = room.find(4.8, inner_bottom - inner_top, places)
    if spot is None:
        return []
    x = spot[0] + 4.2
    before = x < left
    edge, gap, past = (left, -0.8, -PAST) if before else (right, 0.8, PAST)
    inside = [v for v in (low, high) if EDGE < v < plane.look.part.board.depth - EDGE]
    extensions: list[Item] = [
        Stroke(points=((edge + gap, plane.y(v)), (x + past, plane.y(v))), pen="dimension", layer="dimension")
        for v in inside
    ]
    return [*extensions, *across(x, top, bottom, figure, bold=True)]
