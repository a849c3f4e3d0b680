"""Cut wood on paper: each board clipped to what a detail shows, hatched, broken where it goes on.

Two boards that touch are drawn to one line. Where they have play, the cut that receives is drawn wider than it is,
so that both boards keep their true thickness and the gap can be seen.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely import Polygon
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from .....geometry.frames import Vec2
from .....geometry.sections import polygons
from ....display import Item, Stroke, Text
from ....hatch import hatch_in
from ....lettering import FIGURE, NAME, TEXT
from .pad import Pad
from .spans import broken

LEANS = (45.0, -45.0)  # of the hatch of the level board and of the other
LEAST_STEP = 1.2  # of a hatch in sections
FAR = 1e4
NEAR = 1e-6


@dataclass(frozen=True, slots=True)
class Stretch:
    """What is shown of a board along one direction of a drawing: from `low` to `high` along `way`.

    Attributes:
        at: a point of the drawing from which it is measured.
        ends: whether the wood goes on beyond `low`, and beyond `high`.
    """

    way: Vec2
    low: float
    high: float
    at: Vec2 = (0.0, 0.0)

    def window(self) -> Polygon:
        """A band square to the way."""
        (x, y), (wx, wy) = self.at, self.way
        return Polygon(
            [
                (x + wx * s - wy * t, y + wy * s + wx * t)
                for s, t in ((self.low, -FAR), (self.high, -FAR), (self.high, FAR), (self.low, FAR))
            ]
        )

    def on_edge(self, p: Sequence[float], q: Sequence[float]) -> bool:
        """Whether a side lies on one of the two limits."""
        (x, y), (wx, wy) = self.at, self.way
        first, second = ((k[0] - x) * wx + (k[1] - y) * wy for k in (p, q))
        return any(abs(first - end) < NEAR and abs(second - end) < NEAR for end in (self.low, self.high))


def to_paper(p: Sequence[float], scale: float) -> Vec2:
    """A point of a drawing on paper."""
    return (p[0] * scale, -p[1] * scale)


def draw_wood(
    pad: Pad,
    area: BaseGeometry,
    stretches: Sequence[Stretch],
    scale: float,
    owner: str,
    *,
    lean: float | None,
    step: float = LEAST_STEP,
    pen: str = "cut wood",
) -> BaseGeometry:
    """Draw a board's section; `lean` None leaves it white.

    Returns:
        What of it is shown, in the drawing's coordinates.
    """
    shown = area
    for stretch in stretches:
        shown = shown.intersection(stretch.window())
    if lean is not None:
        on_paper = affine_transform(shown, (scale, 0.0, 0.0, -scale, 0.0, 0.0))
        pad.draw(hatch_in(on_paper, step, lean=lean, owner=owner))
    for polygon in polygons(shown):
        for ring in (polygon.exterior, *polygon.interiors):
            pad.draw(_ring(list(ring.coords), stretches, scale, owner, pen))
    return shown


def _ring(
    ring: Sequence[Sequence[float]], stretches: Sequence[Stretch], scale: float, owner: str, pen: str
) -> Iterator[Item]:
    """One outline: heavy where the wood ends, a break line where only the picture does."""
    sides = list(pairwise(ring))
    cut = [any(stretch.on_edge(p, q) for stretch in stretches) for p, q in sides]
    if not any(cut):
        yield Stroke(
            points=tuple(to_paper(p, scale) for p in ring[:-1]), pen=pen, closed=True, layer="section", owner=owner
        )
        return
    first = cut.index(True)
    sides, cut = sides[first:] + sides[:first], cut[first:] + cut[:first]
    run: list[Vec2] = []
    for (p, q), edge in zip(sides, cut, strict=True):
        if edge:
            if run:
                yield Stroke(points=tuple(run), pen=pen, layer="section", owner=owner)
                run = []
            yield broken(to_paper(p, scale), to_paper(q, scale))
        else:
            run = run or [to_paper(p, scale)]
            run.append(to_paper(q, scale))
    if run:
        yield Stroke(points=tuple(run), pen=pen, layer="section", owner=owner)


def write_letter(
    pad: Pad, mark: str, owner: str, shown: BaseGeometry, places: Iterable[Vec2], scale: float, ground: float = 0.8
) -> None:
    """A board's letter in its wood, as large as there is room for; the places in the drawing's coordinates."""
    inside = max(polygons(shown), key=lambda piece: piece.area, default=None)
    tips = list(places)
    if inside is not None:
        point = inside.representative_point()
        tips.append((point.x, point.y))
    pad.place(
        [letter_at(to_paper(tip, scale), mark, size, owner, ground)] for size in (NAME, FIGURE, TEXT) for tip in tips
    )


def letter_at(at: Vec2, mark: str, size: float, owner: str, ground: float) -> Text:
    """A letter about a point, on white."""
    x, y = at
    return Text(at=(x, y + size / 2), text=mark, size=size, weight="bold", anchor="middle", ground=ground, owner=owner)


def hatch_step(thickness: float, scale: float) -> float:
    """A tenth of the thickness as drawn, at least so much that a copier keeps it apart."""
    return max(LEAST_STEP, min(2.4, thickness * scale / 10))
