"""What is drawn, moved point by point: turned over, stood up. Lettering stays as it is read."""

from collections.abc import Callable, Iterable
from dataclasses import replace

from ...geometry.frames import Vec2
from ..display import Arc, Area, Circle, Item, Stroke, Strokes, Text
from ..standard import RIGHT


def moved(item: Item, to: Callable[[Vec2], Vec2]) -> Item:
    """The item with each of its points moved; lettering keeps its turn and its anchor."""
    match item:
        case Stroke():
            return replace(item, points=tuple(map(to, item.points)))
        case Strokes():
            return replace(item, segments=tuple((to(p), to(q)) for p, q in item.segments))
        case Area():
            return replace(item, loops=tuple(tuple(map(to, loop)) for loop in item.loops))
        case Circle() | Arc():
            return replace(item, centre=to(item.centre))
        case Text():
            return replace(item, at=to(item.at))


def stood(items: Iterable[Item], left: float, zero: float) -> list[Item]:
    """Items drawn lying from (0, 0), turned to stand: left goes down, and what lay above goes left."""
    turned = [moved(item, lambda p: (left + p[1], zero - p[0])) for item in items]
    return [replace(item, turn=item.turn + RIGHT) if isinstance(item, Text) else item for item in turned]
