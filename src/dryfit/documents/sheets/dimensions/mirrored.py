"""Running lines that run to the left: drawn to the right, then turned over; the lettering stays as it is read."""

from collections.abc import Iterable
from dataclasses import replace

from ...display import Anchor, Item, Text
from ..page.moving import moved

OTHER_END: dict[Anchor, Anchor] = {"start": "end", "end": "start", "middle": "middle"}


def mirrored(items: Iterable[Item], left: float, right: float) -> list[Item]:
    """A running line turned to start at the right edge: figures then stand to the right of their arrows."""
    turned = [moved(item, lambda p: (left + right - p[0], p[1])) for item in items]
    return [_readable(item) if isinstance(item, Text) else item for item in turned]


def _readable(figure: Text) -> Text:
    """A figure that was turned over, on the other side of its place."""
    if figure.turn:
        return replace(figure, at=(figure.at[0] + figure.size, figure.at[1]))
    return replace(figure, anchor=OTHER_END[figure.anchor])
