"""The letter of a board in its wood, and the names of its edges."""

from collections.abc import Iterator, Sequence

from shapely import contains_xy
from shapely.geometry.base import BaseGeometry

from ....geometry.frames import Vec2
from ....geometry.views import Surface
from ...kit.axis import Axis
from ...kit.label import Label, middle_first
from ...looks import Look
from ...standard import FIGURE, NAME, TEXT


def letter(mark: str, owner: str, wood: BaseGeometry, places: Sequence[Vec2], scale: float) -> Label:
    """As large as there is room for, at one of these places or anywhere else in the wood."""
    at = (*places, *inside(wood, TEXT / scale))
    return Label(says=mark, at=at, leader=False, sizes=(NAME, FIGURE, TEXT), weight="bold", priority=1, owner=owner)


def inside(area: BaseGeometry, step: float) -> list[Vec2]:
    """Places in an area, from its middle outwards."""
    left, low, right, high = area.bounds
    spots = [(x, y) for x in middle_first(left, right, step) for y in middle_first(low, high, step)]
    xs, ys = [x for x, _ in spots], [y for _, y in spots]
    return [spot for spot, holds in zip(spots, contains_xy(area, xs, ys).tolist(), strict=True) if holds]


def edge_names(look: Look, xs: Sequence[float], depths: Axis) -> Iterator[Label]:
    """The edges that are shown of a board seen square on a face, beyond each.

    Args:
        xs: where along it they may stand.
        depths: from the wall edge.
    """
    for surface, d, way in ((Surface.WALL, 0.0, -depths.sign), (Surface.FRONT, look.part.board.depth, depths.sign)):
        if depths.holds(d):
            yield Label(
                says=look.names.words[surface],
                at=tuple((x, d) for x in xs),
                beyond=(0, int(way)),
                leader=False,
                priority=2,
            )
