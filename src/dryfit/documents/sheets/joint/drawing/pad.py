"""A detail under way: lines and words on paper that know what they must not collide with.

A figure is drawn only where it is free: of the places offered the first one is taken at which no word meets a
line or another word. What finds no place is left out of the drawing; it stands in the table all the same.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, field

import numpy as np
import shapely
from shapely.geometry.base import BaseGeometry

from .....geometry.frames import Vec2
from ....display import Arc, Area, Circle, Item, Stroke, Strokes, Text, arc_points, extent, shifted
from ....lettering import TEXT, wrapped

SHEET, MOST_BESIDE = 176.0, 48.0  # how wide a view may be, and how far words stand beside its wood
AIR = 0.45  # between words and anything else
HEAD = TEXT + 0.5  # of a view's first title line, to its base line
LINE = 3.6  # of its further lines
UNDER_TITLE = 2.6  # from the last line of the title to the drawing
LEAST_WIDE = 54.0  # to which a title is wrapped


@dataclass
class Pad:
    """Items in painting order, in mm on paper with y down, the origin wherever the drawing has its own."""

    items: list[Item] = field(default_factory=list)
    left: float = -math.inf  # nothing that is placed goes further
    right: float = math.inf
    _lines: list[BaseGeometry] = field(default_factory=list)
    _words: list[BaseGeometry] = field(default_factory=list)
    _hatch: list[BaseGeometry] = field(default_factory=list)

    def keep_to_sheet(self) -> None:
        """From here on words stand no further beside what is drawn than the sheet is wide."""
        left, _, right, _ = extent(self.items)
        spare = min(MOST_BESIDE, (SHEET - right + left) / 2)
        self.left, self.right = left - spare, right + spare

    def write(self, text: Text, *others: Text) -> bool:
        """Write the first of several texts that has room; False if none has."""
        return self.place([one] for one in (text, *others))

    def draw(self, items: Iterable[Item]) -> None:
        """Draw these, whatever stands there; hatch is no obstacle for words with a ground."""
        for item in items:
            self.items.append(item)
            if isinstance(item, Text):
                self._words.append(_box(item))
            elif isinstance(item, Strokes) and item.layer == "hatch":
                self._hatch.append(shapely.MultiLineString(item.segments))
            else:
                self._lines += _lines(item)

    def place(self, choices: Iterable[Sequence[Item]]) -> bool:
        """Draw the first of several ways to draw a thing that is free; False if none is."""
        for items in choices:
            if self.free(items):
                self.draw(items)
                return True
        return False

    def free(self, items: Iterable[Item]) -> bool:
        """Whether these would keep to the sheet and meet nothing that stands there."""
        lines, words, hatch = _array(self._lines), _array(self._words), _array(self._hatch)
        for item in items:
            shapes = [_box(item)] if isinstance(item, Text) else list(_lines(item))
            if any(shape.bounds[0] < self.left or shape.bounds[2] > self.right for shape in shapes):
                return False
            if any(shapely.intersects(shape, words).any() for shape in shapes):
                return False
            if isinstance(item, Text):
                if shapely.intersects(shapes[0], lines).any():
                    return False
                if not item.ground and shapely.intersects(shapes[0], hatch).any():
                    return False
        return True


def _array(geometries: list[BaseGeometry]) -> "np.ndarray[tuple[int], np.dtype[np.object_]]":
    return np.array(geometries, dtype=object)


def _box(text: Text) -> BaseGeometry:
    return shapely.Polygon(text.box_grown(max(AIR, text.ground)))


def _lines(item: Item) -> Iterator[BaseGeometry]:
    match item:
        case Stroke():
            yield shapely.LineString([*item.points, item.points[0]] if item.closed else item.points)
        case Strokes():
            yield from (shapely.LineString(segment) for segment in item.segments)
        case Area():
            yield from (shapely.Polygon(loop) for loop in item.loops)
        case Circle():
            yield shapely.Point(item.centre).buffer(item.radius)
        case Arc():
            yield shapely.LineString(arc_points(item))


@dataclass(frozen=True, slots=True, kw_only=True)
class View:
    """One finished view.

    Attributes:
        title: what it shows, without its number: "section seen from the front".
        says: what must be known to read it: clearances drawn too wide, breaks.
        scale: paper / wood.
        items: with the origin of its own drawing.
    """

    title: str
    says: tuple[str, ...]
    scale: float
    items: tuple[Item, ...]

    def titled(self, number: int) -> "Titled":
        """The view under its numbered title, from (0, 0) down."""
        left, top, right, bottom = extent(self.items)
        room = max(right - left, LEAST_WIDE)
        words: list[Item] = []
        y = HEAD
        for line in wrapped(f"{number} {self.title}, {scale_said(self.scale)}", room, TEXT, "semibold"):
            words.append(Text(at=(0.0, y), text=line, weight="semibold"))
            y += LINE
        for line in (line for sentence in self.says for line in wrapped(sentence, room, TEXT)):
            words.append(Text(at=(0.0, y), text=line))
            y += LINE
        under = y - LINE + UNDER_TITLE
        moved = shifted(self.items, -left, under - top)
        wide = max(right - left, extent(words)[2])
        return Titled(items=(*words, *moved), wide=wide, high=under + bottom - top, scale=self.scale)


@dataclass(frozen=True, slots=True, kw_only=True)
class Titled:
    """A view under its title, from (0, 0) down; `scale` is paper / wood."""

    items: tuple[Item, ...]
    wide: float
    high: float
    scale: float


def scale_said(scale: float) -> str:
    """A scale as a view's title gives it: "full size (1:1)", "1:5"."""
    return "full size (1:1)" if scale == 1.0 else f"1:{round(1 / scale)}"


def outline(p: Vec2, q: Vec2) -> Stroke:
    """An edge or a wall seen square on."""
    return Stroke(points=(p, q), pen="outline", layer="face")


def leader(tip: Vec2, text: Text) -> tuple[Item, ...]:
    """Words with a thin line from their nearer end to the thing they name."""
    corners = text.box_grown(0.0)
    left, right = corners[0][0], corners[1][0]
    middle = (corners[0][1] + corners[2][1]) / 2
    x = left - 0.8 if tip[0] < left else right + 0.8 if tip[0] > right else (left + right) / 2
    y = middle
    if left <= tip[0] <= right:
        y = corners[2][1] - 0.6 if tip[1] < middle else corners[0][1] + 0.6
    return Stroke(points=((x, y), tip), pen="dimension", layer="dimension"), text
