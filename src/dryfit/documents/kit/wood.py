"""Cut wood on paper: clipped to what a view shows, hatched, broken where it goes on; and the angle between two boards.

Two boards that touch are drawn to one line. Where they have play, the cut that receives is drawn wider than it is,
so that both boards keep their true thickness and the gap can be seen.
"""

import math
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely import Polygon
from shapely.affinity import affine_transform
from shapely.geometry.base import BaseGeometry

from ...geometry.frames import Vec2
from ...geometry.sections import polygons
from ..display import Arc, Item, Stroke
from ..hatch import LEAN, hatch_in
from ..lettering import FIGURE
from ..standard import HALF_TURN, PAST, ROW, TEXT
from .axis import NEAR
from .label import Label, around

LEANS = (LEAN, -LEAN)  # degrees of the hatch of the level board and of the other
LEAST_STEP, MOST_STEP = TEXT / 2, TEXT  # of a hatch in sections, which is a tenth of the thickness as drawn
FACE_STEP = TEXT / 3  # of a hatch over waste
FAR = 1e4
ZIG = TEXT / 3  # half of a break line's zigzag, along it and beside it
ARC = 4 * ROW  # radius of an angle's arc
STEPS = 8  # places tried along an angle's middle


@dataclass(frozen=True, slots=True)
class WoodStretch:
    """What is shown of a board along one direction: from `low` to `high` along `way`, counted from `at`."""

    way: Vec2
    low: float
    high: float
    at: Vec2 = (0.0, 0.0)

    def window(self) -> Polygon:
        """A band square to the way."""
        (x, y), (wx, wy) = self.at, self.way
        corners = ((self.low, -FAR), (self.high, -FAR), (self.high, FAR), (self.low, FAR))
        return Polygon([(x + wx * s - wy * t, y + wy * s + wx * t) for s, t in corners])

    def on_edge(self, p: Sequence[float], q: Sequence[float]) -> bool:
        """Whether a side lies on one of the two limits."""
        (x, y), (wx, wy) = self.at, self.way
        first, second = ((k[0] - x) * wx + (k[1] - y) * wy for k in (p, q))
        return any(abs(first - end) < NEAR and abs(second - end) < NEAR for end in (self.low, self.high))


def shown(area: BaseGeometry, stretches: Iterable[WoodStretch]) -> BaseGeometry:
    """What of an area the stretches show."""
    for stretch in stretches:
        area = area.intersection(stretch.window())
    return area


def cut_wood(
    area: BaseGeometry,
    stretches: Sequence[WoodStretch],
    scale: float,
    owner: str,
    *,
    lean: float | None,
    step: float = LEAST_STEP,
    pen: str = "cut wood",
) -> Iterator[Item]:
    """A board's section, in the drawing's mm, y up; `lean` None leaves it white."""
    there = shown(area, stretches)
    if lean is not None:
        yield from hatch_in(affine_transform(there, (scale, 0.0, 0.0, -scale, 0.0, 0.0)), step, lean=lean, owner=owner)
    for polygon in polygons(there):
        for ring in (polygon.exterior, *polygon.interiors):
            yield from _ring(list(ring.coords), stretches, scale, owner, pen)


def _ring(
    ring: Sequence[Sequence[float]], stretches: Sequence[WoodStretch], scale: float, owner: str, pen: str
) -> Iterator[Item]:
    """One outline: heavy where the wood ends, a break line where only the picture does."""

    def paper(p: Sequence[float]) -> Vec2:
        return p[0] * scale, -p[1] * scale

    sides = list(pairwise(ring))
    cut = [any(stretch.on_edge(p, q) for stretch in stretches) for p, q in sides]
    if not any(cut):
        yield Stroke(points=tuple(map(paper, ring[:-1])), pen=pen, closed=True, layer="section", owner=owner)
        return
    first = cut.index(True)
    run: list[Vec2] = []
    for (p, q), edge in zip(sides[first:] + sides[:first], cut[first:] + cut[:first], strict=True):
        if not edge:
            run = [*(run or [paper(p)]), paper(q)]
            continue
        if run:
            yield Stroke(points=tuple(run), pen=pen, layer="section", owner=owner)
            run = []
        yield broken(paper(p), paper(q))
    if run:
        yield Stroke(points=tuple(run), pen=pen, layer="section", owner=owner)


def broken(start: Vec2, end: Vec2, beyond: float = PAST) -> Stroke:
    """A break line from one edge of the wood to the other and beyond, with one zigzag in the middle if it has room."""
    long = math.dist(start, end)
    (x, y), middle = ((end[0] - start[0]) / long, (end[1] - start[1]) / long), long / 2
    zigzag = ((-2, 0), (-1, -1), (1, 1), (2, 0)) if long > 4 * TEXT / 2 else ()
    knots = [(-beyond, 0.0), *((middle + s * ZIG, z * ZIG) for s, z in zigzag), (long + beyond, 0.0)]
    points = tuple((start[0] + x * s - y * z, start[1] + y * s + x * z) for s, z in knots)
    return Stroke(points=points, pen="break", layer="break")


def hatch_step(thickness: float, scale: float) -> float:
    """A tenth of the thickness as drawn, at least so much that a copier keeps it apart."""
    return max(LEAST_STEP, min(MOST_STEP, thickness * scale / 10))


def edge(p: Vec2, q: Vec2, owner: str = "") -> Stroke:
    """An edge or a wall seen square on."""
    return Stroke(points=(p, q), pen="outline", layer="face", owner=owner)


@dataclass(frozen=True, slots=True)
class DrawnAngle:
    """An angle in a drawing, in mm of wood: its corner, and the two ways it lies between, as unit vectors."""

    corner: Vec2
    ways: tuple[Vec2, Vec2]

    def arc(self, scale: float, carried: Sequence[Vec2]) -> Iterator[Item]:
        """Its arc, in mm on paper, y up; ways of which the wood ends before it are carried on to it.

        Args:
            carried: of each way how far its wood reaches from the corner, and 1 or 0, whether it may be carried on.
        """
        x, y = self.corner[0] * scale, -self.corner[1] * scale
        first, last = self._turns
        yield Arc(centre=(x, y), radius=ARC, start=first, end=last, pen="dimension", layer="dimension")
        for (wx, wy), (reach, wanted) in zip(self.ways, carried, strict=True):
            if wanted and reach * scale + PAST < ARC:
                ends = [(x + wx * s, y - wy * s) for s in (reach * scale + PAST, ARC + PAST)]
                yield Stroke(points=tuple(ends), pen="dimension", layer="dimension")

    @property
    def _turns(self) -> Vec2:
        """Degrees anticlockwise from the paper's right, the smaller angle of the two."""
        turns = sorted(math.degrees(math.atan2(y, x)) for x, y in self.ways)
        return (turns[0], turns[1]) if turns[1] - turns[0] <= HALF_TURN else (turns[1], turns[0] + 2 * HALF_TURN)

    def label(self, says: str, more: Sequence[str], scale: float) -> Label:
        """The angle in several ways, in its middle as near as there is room, else on its other side."""
        first, last = self._turns
        middle = math.radians((first + last) / 2)
        x, y = self.corner
        fars = [way * ROW * (2 + number) / scale for way in (1, -1) for number in range(STEPS)]
        places = [(x + far * math.cos(middle), y + far * math.sin(middle)) for far in fars]
        places += around(self.corner, 2 * ROW / scale, ROW / scale, STEPS)
        return Label(
            says=says, more=tuple(more), at=tuple(places), leader=False, sizes=(FIGURE,), weight="semibold",
            ground=False, layer="dimension",
        )  # fmt: skip
