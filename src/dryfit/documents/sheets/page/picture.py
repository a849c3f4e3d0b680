"""The piece seen from the room, to scale on a sheet; and the small picture in which one part is black."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from shapely.geometry.base import BaseGeometry

from ....geometry.frames import Vec2
from ....geometry.sections import polygons
from ...display import PENS, Area, Item, Stroke
from ...looks import Desk


@dataclass(frozen=True, slots=True)
class Picture:
    """Where the elevation stands on paper: its scale, and the place of the world's origin."""

    scale: float
    x: float
    y: float

    def at(self, p: Sequence[float]) -> Vec2:
        """A point of the elevation, on paper."""
        return self.x + p[0] * self.scale, self.y - p[1] * self.scale

    def outlines(self, area: BaseGeometry, pen: str, layer: str, owner: str) -> Iterator[Stroke]:
        """The outlines of an area of the elevation, its holes left out."""
        for piece in polygons(area):
            points = tuple(self.at(p) for p in piece.exterior.coords[:-1])
            yield Stroke(points=points, pen=pen, closed=True, layer=layer, owner=owner)


def fitted(desk: Desk, box: tuple[float, float, float, float]) -> Picture:
    """The whole piece as large as a room of left, top, right, bottom holds it, on its lower edge in the middle."""
    left, foot, right, head = desk.bounds
    x0, y0, x1, y1 = box
    scale = min((x1 - x0) / (right - left), (y1 - y0 - PENS["balloon"].width) / (head - foot))
    return Picture(scale, x0 + ((x1 - x0) - (right - left) * scale) / 2 - left * scale, y1 + foot * scale)


def small_picture(desk: Desk, dark: str, box: tuple[float, float, float, float]) -> list[Item]:
    """The whole piece seen from the room with one part black; "" for none.

    Args:
        box: left, top, right, bottom of the room for it.
    """
    picture = fitted(desk, box)
    items: list[Item] = [line for name, lines in _drawn(desk, picture).items() if name != dark for line in lines]
    if dark:  # a line around it, so that it shows however thin it is
        points = tuple(picture.at(p) for p in desk.elevations[dark].exterior.coords[:-1])
        items.append(Area(loops=(points,), layer="picture", owner=dark))
        items.append(Stroke(points=points, pen="picture part", closed=True, layer="picture", owner=dark))
    if not desk.book.job.wall.hung:
        left, _, right, bottom = box
        floor = ((left, bottom), (right, bottom))
        items.append(Stroke(points=floor, pen="balloon", layer="picture"))
    return items


def _drawn(desk: Desk, picture: Picture) -> dict[str, list[Stroke]]:
    """What is seen of each part; drawn once for all the sheets on which the picture has the same place."""
    kept: dict[Picture, dict[str, list[Stroke]]] = desk.kept.setdefault("small pictures", {})
    if picture not in kept:
        kept[picture] = {
            name: list(picture.outlines(area, "picture", "picture", name)) for name, area in desk.visible.items()
        }
    return kept[picture]
