"""A screw in its hole in a board and the wall, cut along it: thread, lining, gap, grip, head, counterbore, plug.

The wall to the left and the front to the right; the counterbore is broken out where it is long, all else is true.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from shapely import box, unary_union
from shapely.affinity import translate

from ....geometry.frames import Vec2
from ...display import Area, Item, Stroke, rectangle
from ...kit.axis import Axis
from ...kit.wood import FAR, LEANS, WoodStretch, cut_wood, hatch_step
from ...naming import LEAST
from ...standard import PAST, ROW, TEXT
from ..joint.hardware import screw_outline
from .chain import Chain

BESIDE = 2 * ROW  # on paper: of the wall past the screw's tip, of the counterbore at either side of its break
TALLER = ROW  # of the wall above and below the board


@dataclass
class Through:
    """A screw in its hole in a board and the wall; places are out of the wall, `front` is the board's front edge."""

    made: Chain
    scale: float
    front: float
    owner: str = ""

    def __post_init__(self) -> None:
        self.half = self.made.thick / 2
        self.back = self.front - self.made.plan.grip - self.made.plan.deep
        links = dict(self.made.links())
        self.wall = self.back - links.get("gap", 0.0)  # the lining's face, the gap at its worst
        self.lined = self.wall - links.get("lining", 0.0)
        self.grip_end = self.back + self.made.plan.grip
        self.under_head = self.grip_end + self.made.plan.washer
        self.tip = self.under_head - self.made.screw.under_head
        self.top = self.under_head + self.made.head_counts
        self.left = min(self.tip, self.lined) - BESIDE / self.scale

    @cached_property
    def depths(self) -> Axis:
        """What is shown: from behind the tip to past the head, and the front edge."""
        past = min(self.under_head + self.made.head_high + BESIDE / self.scale, self.front)
        return Axis.of([(self.left, past), (self.front - BESIDE / self.scale, self.front)], self.scale)

    @property
    def tall(self) -> float:
        """Half the height of the wall."""
        return self.half + TALLER / self.scale

    def items(self) -> Iterator[Item]:
        """Wall, board and screw."""
        yield from self._layer(self.left, self.lined, LEANS[1])
        yield from self._layer(self.lined, self.wall, 2 * LEANS[0] / 3 * 2)
        yield from self._board()
        yield from self._fastener()

    def _layer(self, low: float, high: float, lean: float) -> Iterator[Item]:
        """The structure of the wall, or what hides it, broken off where it goes on."""
        if high - low < LEAST:
            return
        x0, x1 = (self.depths.at(z) / self.scale for z in (low, high))
        ends = WoodStretch((1.0, 0.0), x0 if low == self.left else -FAR, FAR)
        area = box(x0, -self.tall, x1, self.tall)
        stretches = [WoodStretch((0.0, 1.0), -self.tall, self.tall), ends]
        yield from cut_wood(area, stretches, self.scale, "wall", lean=lean, pen="outline")

    def _board(self) -> Iterator[Item]:
        m = self.made
        hole = [box(self.back - 1.0, -m.plan.hole / 2, self.front, m.plan.hole / 2)]
        if m.plan.deep:
            hole.append(box(self.front - m.plan.deep, -m.opening / 2, self.front + 1.0, m.opening / 2))
        wood = box(self.back, -self.half, self.front, self.half).difference(unary_union(hole))
        step = hatch_step(m.thick, self.scale)
        for piece in self.depths.pieces:
            left, right = (self.depths.at(end) / self.scale for end in (piece.low, piece.high))
            shown = translate(wood.intersection(box(piece.low, -FAR, piece.high, FAR)), left - piece.low, 0.0)
            start, stop = (left if piece.low > self.back else -FAR), (right if piece.high < self.front else FAR)
            ends = WoodStretch((1.0, 0.0), start, stop)
            yield from cut_wood(shown, [ends], self.scale, self.owner, lean=LEANS[0], step=step)

    def _fastener(self) -> Iterator[Item]:
        """The screw in its hole, white over what it goes through; its washer; the plug, dashed; the axis."""
        m, start = self.made, self.depths.at(self.under_head)
        if m.plan.washer:
            rim, grip = m.plan.head / 2 * self.scale, self.depths.at(self.grip_end)
            yield from _white(rectangle(grip, -rim, start - grip, 2 * rim))
        outline = tuple((start - s * self.scale, t * self.scale) for s, t in screw_outline(m.screw, 0.0))
        yield from _white(outline)
        end, high = self.depths.at(self.front), m.opening / 2 * self.scale
        if m.plan.plugged:
            plug = min(m.plug * self.scale, BESIDE - PAST)
            yield Stroke(
                points=rectangle(end - plug, -high, plug, 2 * high), pen="hidden small", closed=True, layer="plug"
            )
        ends = ((self.depths.at(self.tip) - TEXT, 0.0), (end + TEXT, 0.0))
        yield Stroke(points=ends, pen="axis", layer="axis")


def _white(outline: tuple[Vec2, ...]) -> Iterator[Item]:
    """An outline, white inside."""
    yield Area(loops=(outline,), ink="white", layer="screw")
    yield Stroke(points=outline, pen="balloon", closed=True, layer="screw")
