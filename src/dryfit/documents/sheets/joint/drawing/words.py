"""Words that stand in a set place of a view: lines of an angle, the names of a board's edges."""

from collections.abc import Callable, Iterable, Iterator

from .....geometry.views import Surface
from ....display import Anchor, Item, Text
from ....lettering import TEXT, width
from ....looks import Look

ANGLE_LINE = 3.9  # between the lines of an angle


def angle_lines(x: float, anchor: Anchor, lines: Iterable[tuple[float, str, float]]) -> list[Item]:
    """An angle in several ways, each as (base line, words, size), the first of them loud."""
    return [
        Text(
            at=(x, base),
            text=text,
            size=size,
            weight="regular" if number else "semibold",
            anchor=anchor,
            layer="dimension",
        )
        for number, (base, text, size) in enumerate(lines)
    ]


def edge_names(look: Look, y: Callable[[float], float]) -> Iterator[tuple[float, str, float, float]]:
    """The two edges of a board that is seen square on a face.

    Args:
        y: where a place across the board, from its wall edge, stands on paper.

    Yields:
        Its place across the board, its name, the base line of the name outside it, how wide the name is.
    """
    depth = look.part.board.depth
    for surface, d in ((Surface.WALL, 0.0), (Surface.FRONT, depth)):
        text = look.names.words[surface]
        upper = y(d) < y(depth - d)
        yield d, text, y(d) - 1.7 if upper else y(d) + 1.2 + TEXT, width(text, TEXT)
