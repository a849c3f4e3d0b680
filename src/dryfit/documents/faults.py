"""What is wrong with a sheet as drawn: text on text, a line through text, ink off the sheet.

Widths come from the fonts, so a label that has grown is found before anybody prints it. Text with a white
ground may stand on fine lines; on an outline it may not, because its ground would eat the line.
"""

from collections.abc import Iterator

from shapely import LineString, Polygon, STRtree
from shapely.geometry.base import BaseGeometry

from .display import PENS, Arc, Area, Circle, Display, Item, Stroke, Strokes, Text, arc_points, extent
from .standard import HAIR, THICK

SKIN = HAIR / 2  # ink may touch within this much: half the finest line
MARGIN = 5.0  # printers leave this much white


def faults(display: Display) -> list[str]:
    """Every collision on the sheet, in words with its place; empty for a sound sheet."""
    texts = [(number, item) for number, item in enumerate(display.items) if isinstance(item, Text)]
    boxes = [Polygon(item.corners).buffer(-SKIN, join_style="mitre") for _, item in texts]
    tree = STRtree(boxes)
    found = list(_outside(display))
    found += _text_on_text(texts, boxes, tree)
    found += _lines_through_text(display.items, texts, boxes, tree)
    found += _covered(display.items, texts, boxes, tree)
    return found


def _outside(display: Display) -> Iterator[str]:
    wide, high = display.width - MARGIN, display.height - MARGIN
    for item in display.items:
        left, top, right, bottom = extent([item])
        if left < MARGIN or top < MARGIN or right > wide or bottom > high:
            yield f"off the sheet: {_name(item)} reaches {left:.1f}, {top:.1f} to {right:.1f}, {bottom:.1f}"


def _text_on_text(texts: list[tuple[int, Text]], boxes: list[Polygon], tree: STRtree) -> Iterator[str]:
    for first, area in enumerate(boxes):
        for second in sorted(int(hit) for hit in tree.query(area, predicate="intersects")):
            if second > first:
                yield f"text on text: {_name(texts[first][1])} and {_name(texts[second][1])}"


def _lines_through_text(
    items: tuple[Item, ...], texts: list[tuple[int, Text]], boxes: list[Polygon], tree: STRtree
) -> Iterator[str]:
    for place, item in enumerate(items):
        for line, pen in _lines(item):
            for hit in sorted(int(hit) for hit in tree.query(line, predicate="intersects")):
                number, text = texts[hit]
                if _spared(text, number, place, PENS[pen].width) or _covers(items, number, boxes[hit]):
                    continue
                yield f"line through text: {pen} of {item.layer or 'nothing'} through {_name(text)}"


def _spared(text: Text, number: int, place: int, pen: float) -> bool:
    """Text with a ground, painted over a fine line."""
    return bool(text.ground) and number > place and pen < THICK  # from there on lines are outlines


def _covers(items: tuple[Item, ...], number: int, area: Polygon) -> bool:
    """Whether an opaque area was painted under this text alone: a balloon's or a tag's ground."""
    for item in items[max(0, number - 2) : number]:
        if isinstance(item, Circle) and item.ink and _disc(item).contains(area):
            return True
        if isinstance(item, Area) and any(Polygon(loop).contains(area) for loop in item.loops):
            return True
    return False


def _covered(
    items: tuple[Item, ...], texts: list[tuple[int, Text]], boxes: list[Polygon], tree: STRtree
) -> Iterator[str]:
    """Text that something opaque is painted over later."""
    for place, item in enumerate(items):
        for ground in _grounds(item):
            for hit in sorted(int(hit) for hit in tree.query(ground, predicate="intersects")):
                if texts[hit][0] < place:
                    yield f"covered: {_name(texts[hit][1])} by {_name(item)}"


def _grounds(item: Item) -> Iterator[BaseGeometry]:
    match item:
        case Area():
            yield from (Polygon(loop) for loop in item.loops)
        case Circle() if item.ink:
            yield _disc(item)
        case Text() if item.ground:
            yield Polygon(item.box_grown(item.ground))


def _disc(item: Circle) -> Polygon:
    return LineString([item.centre, item.centre]).buffer(item.radius)


def _lines(item: Item) -> Iterator[tuple[BaseGeometry, str]]:
    match item:
        case Stroke():
            points = [*item.points, item.points[0]] if item.closed else list(item.points)
            yield LineString(points), item.pen
        case Strokes():
            yield from ((LineString(segment), item.pen) for segment in item.segments)
        case Circle() if item.pen:
            yield _disc(item).exterior, item.pen
        case Arc():
            yield LineString(arc_points(item)), item.pen


def _name(item: Item) -> str:
    if isinstance(item, Text):
        return f"{item.text!r} at {item.at[0]:.1f}, {item.at[1]:.1f}"
    left, top, _, _ = extent([item])
    return f"{type(item).__name__.lower()} at {left:.1f}, {top:.1f}"
