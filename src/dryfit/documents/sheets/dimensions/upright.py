"""Running positions up the sheet, for boards drawn as they stand: one line from its datum, figures beside it."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from ....geometry.frames import Vec2
from ...display import Circle, Item, Stroke, Text
from ...lettering import FIGURE
from ...symbols import arrowhead
from .running import DATUM, GAP, PAST, one_each, pooled

APART = 1.25  # of the height of figures, between two


@dataclass(frozen=True, slots=True, kw_only=True)
class Height:
    """A running position up the sheet: y on paper, the figure, x of the wood it starts from, its cut."""

    y: float
    figure: str
    foot: float
    key: str = ""


def upright(x: float, zero: float, heights: Sequence[Height], towards: float, beside: float) -> list[Item]:
    """A running line up the sheet at `x` from its circle at `zero`, figures level on the side away from the wood.

    Args:
        towards: 1 where the figures stand to the right of the line, -1 to its left.
        beside: from the line to the figures.
    """
    ordered = sorted(one_each(heights), key=lambda height: -height.y)
    least = APART * FIGURE
    places = [-place for place in pooled([-height.y for height in ordered], least, -zero + least)]
    top = min([height.y for height in ordered], default=zero - 10.0)
    anchor: Literal["start", "end"] = "start" if towards > 0 else "end"
    items: list[Item] = [
        Circle(centre=(x, zero), radius=DATUM / 2, pen="dimension", layer="dimension"),
        Stroke(points=((x, zero - DATUM / 2), (x, top)), pen="dimension", layer="dimension"),
        Text(at=(x + towards * beside, zero + FIGURE / 2), text="0", size=FIGURE, anchor=anchor, layer="dimension"),
    ]
    for height, place in zip(ordered, places, strict=True):
        start, stop = height.foot + towards * GAP, x + towards * PAST
        points: list[Vec2] = [(start, height.y), (stop, height.y)]
        if abs(place - height.y) > 0.05:
            points.append((x + towards * (beside - 0.8), place))
        items.append(Stroke(points=tuple(points), pen="dimension", layer="dimension", owner=height.key))
        items.append(arrowhead((x, height.y), (0.0, -1.0), height.key))
        at = (x + towards * beside, place + FIGURE / 2)
        figure = Text(at=at, text=height.figure, size=FIGURE, weight="bold", anchor=anchor, layer="dimension")
        items.append(replace(figure, owner=height.key))
    return items
