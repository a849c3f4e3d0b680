"""A screw into the wall drawn as the chain it must reach through: thread, lining, gap, grip, head, counterbore, plug.

Cut along the screw, the wall to the left and the front to the right. The counterbore is broken out where it is long;
the sum of the chain stands in the table.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

from shapely import box, unary_union
from shapely.affinity import translate

from .....geometry.frames import Vec2
from .....joints.common import PLUG
from ....display import Area, Item, Stroke, Text, rectangle
from ....lettering import FIGURE, TEXT, fitted
from ....looks import Desk
from ....naming import depth, position, thickness
from ...fixings.chain import BEYOND, Chain
from ..drawing.breaks import Broken
from ..drawing.pad import Pad, View, leader, outline
from ..drawing.sections import Stretch, draw_wood, letter_at
from ..drawing.spans import level, stacked, upright
from ..hardware import head_of, screw_outline
from ..roles import Roles

SCALES = (1.0, 0.5, 0.2, 0.1)
MOST_WIDE = 164.0
BEHIND = 9.0  # of the wall's structure shown beyond the tip, on paper
FRONT = 14.0  # of the board shown at its front edge
PAST_HEAD = 7.0
TALLER = 7.0  # of the wall beyond the board
FIRST, ROW = 6.0, 6.6
FAR = 1e4
LEAST = 0.05  # less prints as nothing
PAST = 3.0  # of the axis


def screw_view(desk: Desk, roles: Roles, made: Chain) -> View:
    """The chain at the largest scale that fits the width."""
    tries = [_Screw(desk, roles, made, scale) for scale in SCALES]
    drawn = next((one for one in tries if one.x(one.front) <= MOST_WIDE), tries[-1])
    drawn.draw()
    _names(drawn)
    _links(drawn)
    _across(drawn)
    broken = "; broken in the counterbore" if drawn.depths.breaks else ""
    return View(
        title="cut along a screw",
        says=(f"wall to the left, front to the right{broken}",),
        scale=drawn.scale,
        items=tuple(drawn.pad.items),
    )


@dataclass
class _Screw:
    """One such view under way; places are out of the wall, in mm of wood."""

    desk: Desk
    roles: Roles
    made: Chain
    scale: float
    pad: Pad = field(default_factory=Pad)

    def __post_init__(self) -> None:
        side = self.roles.joint.meeting.a
        self.back, self.front, self.half = side.back, side.front, side.thickness / 2
        links = dict(self.made.links())
        self.wall = self.back - links.get("gap", 0.0)  # the lining's face, the gap at its worst
        self.lined = self.wall - links.get("lining", 0.0)
        self.grip_end = self.back + self.made.plan.grip
        self.under_head = self.grip_end + self.made.plan.washer
        self.tip = self.under_head - self.made.screw.under_head
        self.top = self.under_head + self.made.head_counts
        self.left = min(self.tip, self.lined) - BEHIND / self.scale

    @cached_property
    def depths(self) -> Broken:
        """What is shown: from behind the tip to past the head, and the front edge."""
        past = min(self.under_head + self.made.head_high + PAST_HEAD / self.scale, self.front)
        return Broken.of([(self.left, past), (self.front - FRONT / self.scale, self.front)], self.scale)

    def x(self, z: float) -> float:
        """Where a place out of the wall stands on paper."""
        return self.depths.at(z)

    @property
    def tall(self) -> float:
        """Half the height of the wall on paper."""
        return self.half * self.scale + TALLER

    # --- what is drawn -----------------------------------------------------------------------------

    def draw(self) -> None:
        """Draw wall, board and screw."""
        self._layer(self.left, self.lined, -45.0, 1.6)
        self._layer(self.lined, self.wall, 60.0, 2.2)
        self._board()
        self._fastener()
        self.pad.left, self.pad.right = -6.0, self.x(self.front) + 13.0

    def _layer(self, low: float, high: float, lean: float, step: float) -> None:
        """The structure of the wall, or what hides it, broken off where it goes on."""
        if high - low < LEAST:
            return
        x0, x1, tall = self.x(low) / self.scale, self.x(high) / self.scale, self.tall / self.scale
        ends = Stretch((1.0, 0.0), x0 if low == self.left else -FAR, FAR)
        stretches = [Stretch((0.0, 1.0), -tall, tall), ends]
        area = box(x0, -tall, x1, tall)
        draw_wood(self.pad, area, stretches, self.scale, "wall", lean=lean, step=step, pen="outline")

    def _board(self) -> None:
        m = self.made
        hole = [box(self.back - 1.0, -m.plan.hole / 2, self.front, m.plan.hole / 2)]
        if m.plan.deep:
            hole.append(box(self.front - m.plan.deep, -m.opening / 2, self.front + 1.0, m.opening / 2))
        wood = box(self.back, -self.half, self.front, self.half).difference(unary_union(hole))
        for low, high in self.depths.shown:
            left, right = self.x(low) / self.scale, self.x(high) / self.scale
            piece = translate(wood.intersection(box(low, -FAR, high, FAR)), left - low, 0.0)
            ends = Stretch((1.0, 0.0), left if low > self.back else -FAR, right if high < self.front else FAR)
            draw_wood(self.pad, piece, [ends], self.scale, self.roles.names[0], lean=45.0, step=1.8)

    def _fastener(self) -> None:
        """The screw in its hole, white over what it goes through; its washer; a plug's two ends; the axis."""
        start = self.x(self.under_head)
        if self.made.plan.washer:
            rim = self.made.plan.head / 2 * self.scale
            across = rectangle(self.x(self.grip_end), -rim, start - self.x(self.grip_end), 2 * rim)
            self.pad.draw([Area(loops=(across,), ink="white", layer="hardware")])
            self.pad.draw([Stroke(points=across, pen="balloon", closed=True, layer="hardware")])
        along = screw_outline(self.made.screw, 0.0)
        points = tuple((start - s * self.scale, t * self.scale) for s, t in along)
        self.pad.draw([Area(loops=(points,), ink="white", layer="hardware")])
        self.pad.draw([Stroke(points=points, pen="balloon", closed=True, layer="hardware")])
        end, high = self.x(self.front), self.made.opening / 2 * self.scale
        if self.made.plugged:
            plug = min(PLUG * self.scale, FRONT - 2.0)
            self.pad.draw(outline((x, -high), (x, high)) for x in (end - plug, end))
        ends = ((self.x(self.tip) - PAST, 0.0), (end + PAST, 0.0))
        self.pad.draw([Stroke(points=ends, pen="axis", layer="axis")])


# --- words and figures ---------------------------------------------------------------------------


def _names(drawn: _Screw) -> None:
    """The board's letter, the wall, the holes and the head."""
    m, scale = drawn.made, drawn.scale
    owner = drawn.roles.names[0]
    y = -(drawn.half + m.opening / 2) / 2 * scale
    places = [(drawn.x(drawn.back + m.plan.grip * share), y) for share in (0.3, 0.6)]
    mark = drawn.desk.marks[owner]
    drawn.pad.place([letter_at(at, mark, size, owner, 0.6)] for size in (FIGURE, TEXT) for at in places)
    into = str(dict(drawn.roles.joint.options).get("into", "")) or "wall"
    _lead(drawn, (drawn.x(drawn.lined) - 4.0, 2.0 - drawn.tall), fitted(into, 60.0, TEXT), -1.0)
    head, high = head_of(m.screw)
    middle = (drawn.x(drawn.under_head) + drawn.x(drawn.under_head + high)) / 2
    _lead(drawn, (middle, -head / 2 * scale), f"head {position(head)}", 1.0)
    if m.plan.washer:
        rim = ((drawn.x(drawn.grip_end) + drawn.x(drawn.under_head)) / 2, -m.plan.head / 2 * scale)
        _lead(drawn, rim, f"washer {position(m.plan.head)}", 1.0)
    hole = (drawn.x(drawn.back) + drawn.x(drawn.under_head)) / 2
    _lead(drawn, (hole, -m.plan.hole / 2 * scale), f"hole {position(m.plan.hole)}", -1.0)
    if m.plan.deep:
        words = f"counterbore {position(m.opening)}" + (f", plug {position(m.opening)}" if m.plugged else "")
        _lead(drawn, (drawn.x(drawn.front) - 3.0, -m.opening / 2 * scale), words, -1.0)


def _lead(drawn: _Screw, tip: Vec2, words: str, side: float) -> None:
    """Words above the wall with a line to what they name, to that side of it if there is room."""

    def leads() -> Iterator[tuple[Item, ...]]:
        for off in (3.0, 7.0, 11.0):
            for shift in (4.0, 8.0, 14.0, -4.0, -10.0):
                at = (tip[0] + side * shift, -drawn.tall - off)
                yield leader(tip, Text(at=at, text=words, anchor="start" if side * shift > 0 else "end"))

    drawn.pad.place(leads())


def _links(drawn: _Screw) -> None:
    """The links of the chain, the longest first, as they find least room; then the screw and the counterbore."""
    m = drawn.made
    thread = (drawn.tip, drawn.lined, f"{'thread' if m.plan.known else BEYOND} {depth(m.links()[0][1])}")
    links = [
        thread,
        (drawn.lined, drawn.wall, f"lining {position(drawn.wall - drawn.lined)}"),
        (drawn.wall, drawn.back, f"gap {position(drawn.back - drawn.wall)}"),
        (drawn.back, drawn.grip_end, f"grip {depth(m.plan.grip)}"),
        (drawn.grip_end, drawn.under_head, f"washer {position(m.plan.washer)}"),
        (drawn.under_head, drawn.top, f"head {position(m.head_counts)}"),
    ]
    links.sort(key=lambda link: drawn.x(link[0]) - drawn.x(link[1]))
    links += [
        (drawn.tip, drawn.top, f"screw {position(m.screw.length)}"),
        (drawn.grip_end, drawn.front, f"counterbore {depth(m.plan.deep)} deep"),
    ]
    y = drawn.tall
    spans = [level((drawn.x(a), y), (drawn.x(b), y), y, words) for a, b, words in links if b - a > LEAST]
    stacked(drawn.pad, spans, y + FIRST, ROW)


def _across(drawn: _Screw) -> None:
    """The board's thickness, and the wood beside the counterbore."""
    edge, half, scale = drawn.x(drawn.front), drawn.half, drawn.scale
    ends = ((edge, -half * scale), (edge, half * scale))
    drawn.pad.place(upright(*ends, edge + 10.0, thickness(2 * half), weight="regular").choices())
    rim = drawn.made.opening / 2
    span = upright((edge, rim * scale), (edge, half * scale), edge + 4.6, position(half - rim))
    drawn.pad.place(span.choices())
