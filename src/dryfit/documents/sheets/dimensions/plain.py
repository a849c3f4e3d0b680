"""Plain dimensions: one size between two arrowheads, its figure beside or outside them."""

from dataclasses import replace
from typing import Literal

from ...display import Item, Stroke, Text
from ...lettering import TEXT, width
from ...symbols import HEAD_LONG, arrowhead
from .running import LIFT


def across(x: float, top: float, bottom: float, figure: str, *, bold: bool = False, beside: float = -1.0) -> list[Item]:
    """A plain upright dimension between two levels, its figure read from the right, left (-1) or right of the line.

    Narrower than its figure needs, the arrows come from outside and the figure stands past the lower one.
    """
    weight: Literal["regular", "semibold"] = "semibold" if bold else "regular"
    wide = width(figure, TEXT, weight)
    side = x - 0.9 if beside < 0 else x + 0.9 + TEXT
    words = Text(
        at=(side, (top + bottom) / 2), text=figure, weight=weight, anchor="middle", turn=90.0, layer="dimension",
        ground=0.4,
    )  # fmt: skip
    if bottom - top >= wide + 2 * HEAD_LONG + 1.2:
        ends = ((x, top), (x, bottom))
        heads = [arrowhead((x, top), (0.0, -1.0)), arrowhead((x, bottom), (0.0, 1.0))]
        return [Stroke(points=ends, pen="dimension", layer="dimension"), *heads, words]
    ends = ((x, top - 4.0), (x, bottom + 4.0 + wide))
    heads = [arrowhead((x, top), (0.0, 1.0)), arrowhead((x, bottom), (0.0, -1.0))]
    below = replace(words, at=(side, bottom + 3.4), anchor="end")
    return [Stroke(points=ends, pen="dimension", layer="dimension"), *heads, below]


def level(left: float, right: float, y: float, figure: str, *, bold: bool = False) -> list[Item]:
    """A plain level dimension; too narrow for its figure, the arrows come from outside and it stands to the right."""
    weight: Literal["regular", "semibold"] = "semibold" if bold else "regular"
    wide = width(figure, TEXT, weight)
    if right - left >= wide + 2 * HEAD_LONG + 1.2:
        return [
            Stroke(points=((left, y), (right, y)), pen="dimension", layer="dimension"),
            arrowhead((left, y), (-1.0, 0.0)),
            arrowhead((right, y), (1.0, 0.0)),
            Text(at=((left + right) / 2, y - LIFT), text=figure, weight=weight, anchor="middle", layer="dimension"),
        ]
    return [
        Stroke(points=((left - 4.0, y), (right + 4.0 + wide, y)), pen="dimension", layer="dimension"),
        arrowhead((left, y), (1.0, 0.0)),
        arrowhead((right, y), (-1.0, 0.0)),
        Text(at=(right + 3.2, y - LIFT), text=figure, weight=weight, layer="dimension"),
    ]
