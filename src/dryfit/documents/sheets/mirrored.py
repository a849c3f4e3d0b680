"""Running lines that run to the left: drawn to the right, then turned over; the lettering stays as it is read."""

from collections.abc import Sequence
from dataclasses import replace

from ...geometry.frames import Vec2
from ..display import Anchor, Area, Circle, Item, Stroke, Text

OTHER_END: dict[Anchor, Anchor] = {"start": "end", "end": "start", "middle": "middle"}


def mirrored(items: Sequence[Item], left: float, right: float) -> list[Item]:
    """A running line turned to start at the right edge: figures then stand to the right of their arrows."""

    def over(p: Vec2) -> Vec2:
        return left + right - p[0], p[1]

    made: list[Item] = []
    for item in items:
        match item:
            case Text() if item.turn:
                x, y = over(item.at)
                made.append(replace(item, at=(x + item.size, y)))
            case Text():
                made.append(replace(item, at=over(item.at), anchor=OTHER_END[item.anchor]))
            case Circle():
                made.append(replace(item, centre=over(item.centre)))
            case Stroke():
                made.append(replace(item, points=tuple(map(over, item.points))))
            case Area():
                made.append(replace(item, loops=tuple(tuple(map(over, loop)) for loop in item.loops)))
            case _:
                raise AssertionError(f"a running line has no {type(item).__name__}")
    return made
