"""A pair of hands drawn as they stand, opened like a book: left hand left, one face of each, their edges beside them.

The two drawings are mirror images because the boards are: each is drawn from its own cuts. The wall edges meet in
the middle and running figures stand between them; of the other two faces, rolled on over the front edges, the
front edges meet and the figures stand outside.
"""

import math
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from .....geometry.frames import Vec2
from .....geometry.views import Surface
from .....piece.model import DATUM_END
from .....sentences import Voice
from ....display import Item, Text, extent, shifted
from ....kit import dimension, label
from ....kit.axis import Axis
from ....kit.dimension import ROWS, DimensionMark, UnplacedDimension, plain
from ....kit.label import Label, middle_first
from ....kit.placing import FilledPaper
from ....lettering import TEXT
from ....looks import Desk, Look
from ....naming import LEAST, in_runs, position
from ....standard import FIRST, GROUND, LINE, PAST
from ..ends.fronts import front_of, places
from ..faces.surface import SurfacePaper, at_end, marks, plane_for, wood
from ..faces.wording import Wording, half_place
from ..fellows import Pair
from ..stack import edge_sign

APART = 2 * PAST  # between what stands about the two hands, and from a face to its edge
TRIANGLE = "one triangle over the pair, wall edges put together"


@dataclass(frozen=True, slots=True, kw_only=True)
class Stood:
    """Both hands drawn from (0, 0) down: the items, their width and height."""

    items: list[Item]
    wide: float
    high: float


def drawn_standing(desk: Desk, pair: Pair, faces: tuple[Surface, Surface], scale: float, *, keys: bool) -> Stood:
    """Both hands with the faces given, left hand's first; `keys`: pockets under them."""
    inner = faces[0] is Surface.MINUS
    hands = [
        _Hand(desk, look, face, scale, word, inner=inner, keys=keys)
        for look, face, word in zip(pair.looks, faces, ("left", "right"), strict=True)
    ]
    paper, x, inside = FilledPaper(), 0.0, []
    for hand in hands:
        left, _, right, _ = extent(hand.paper.items)
        paper.draw(shifted(hand.paper.items, x - left, 0.0))
        inside += [x - left, x - left + hand.wide]
        x += right - left + APART
    if inner:
        _between(paper, hands[0], (inside[1], inside[2]))
    left, top, right, bottom = extent(paper.items)
    return Stood(items=list(shifted(paper.items, -left, -top)), wide=right - left, high=bottom - top)


def _between(paper: FilledPaper, hand: "_Hand", span: Vec2) -> None:
    """Words between the hands: which end is which, where the datum is, what the triangle is for."""
    names, middle = hand.look.names, (span[0] + span[1]) / 2
    bevelled = abs(hand.look.end_at(DATUM_END, hand.surface)) > LEAST
    for text, y, heavy in (
        (names.words[Surface.FAR], hand.top - PAST, True),
        (names.words[Surface.DATUM], PAST + TEXT, True),
        (_datum(hand) if bevelled else "datum", PAST + TEXT + LINE * TEXT, False),
    ):
        way = math.copysign(GROUND, y)
        at = tuple((middle, y + row * way) for row in range(ROWS))
        words = Label(says=text, at=at, leader=False, weight="semibold" if heavy else "regular", reach=0)
        label.put(paper, words, Voice())
    ys = middle_first(hand.top + FIRST, -FIRST, LINE * TEXT)
    for wide in (span[1] - span[0] - 2 * part * FIRST for part in (1, 2, 3)):
        fits = Label(says=TRIANGLE, at=tuple((middle, y) for y in ys), leader=False, wide=wide, reach=0)
        if wide > 0 and label.put(paper, fits, Voice()):
            return


def _datum(hand: "_Hand") -> str:
    """What the zero of a bevelled end is, and where the face that is drawn begins if not there."""
    begins = hand.look.end_at(DATUM_END, hand.surface)
    return f"datum: its long point, arris at {position(begins)}" if begins > LEAST else "datum: its long point"


class _Hand:
    """One hand as it stands, the left arris of its face and its datum at (0, 0)."""

    def __init__(
        self, desk: Desk, look: Look, surface: Surface, scale: float, word: str, *, inner: bool, keys: bool
    ) -> None:
        self.desk, self.look, self.surface, self.scale, self.word = desk, look, surface, scale, word
        self.paper = FilledPaper()
        edge_left = -APART - look.part.board.thickest * scale if self.wall_right else self.wide + APART
        edge = plane_for(look, Surface.FRONT, self.axis, stands=True)
        self.paper.draw(wood(self.plane))
        self.paper.draw(shifted(wood(edge), edge_left, 0.0))
        dimension.put(self.paper, self._running((word == "left") == inner))
        self._words(inner=inner, edge=edge, edge_left=edge_left)
        dimension.put(self.paper, self._keys() if keys else self._under())
        self.paper.draw(self._named(edge_left, keys=keys))

    @cached_property
    def axis(self) -> Axis:
        """Along the board: it is stood up afterwards."""
        scribe = self.look.part.board.scribe
        start, end = -scribe[0], self.look.part.length + scribe[1]
        return Axis.whole(start, end, self.scale, start * self.scale)

    @cached_property
    def plane(self) -> SurfacePaper:
        """The face."""
        return plane_for(self.look, self.surface, self.axis, stands=True)

    @property
    def wide(self) -> float:
        """The face on paper."""
        return self.look.part.board.depth * self.scale

    @property
    def top(self) -> float:
        """Where on paper: the far end."""
        return -self.look.part.length * self.scale

    @property
    def wall_right(self) -> bool:
        """Whether the wall edge lies right: of a face at -c stood on its datum end."""
        return self.surface is Surface.MINUS

    def _words(self, *, inner: bool, edge: SurfacePaper, edge_left: float) -> None:
        face_side = self.look.names.face_side
        words = Wording(
            desk=self.desk, plane=self.plane, paper=self.paper, main=face_side is self.surface,
            loop=face_side is self.surface, half=half_place(self.plane) if inner else None, whole=False,
            whose=f"of {self.look.part.mark}, {self.word}",
        )  # fmt: skip
        words.put()
        self.paper.draw(shifted(edge_sign(face_side, edge, words.mark_at), edge_left, 0.0))

    def _running(self, right: bool) -> UnplacedDimension:
        """Heights from the datum, on the side of the wall edge; `right` of it or left."""
        wall = self.wide if self.wall_right else 0.0
        lying = marks(self.plane, 1.0 if self.wall_right else -1.0)
        found = [mark._replace(at=(mark.at[1], -mark.at[0])) for mark in lying]
        length = position(self.look.part.length)
        if length not in {mark.figure for mark in found}:
            found.append(DimensionMark((wall, self.top), length))
        datum = DimensionMark((wall, 0.0), position(0.0))
        side = -1 if right else 1
        return UnplacedDimension(way=(0.0, -1.0), marks=(datum, *found), style="running", side=side, weight="bold")

    def _keys(self) -> UnplacedDimension:
        """From the front edge on, each key pocket and the board's width, under it."""
        whole, way = self.look.part.board.depth, 1.0 if self.wall_right else -1.0
        front = 0.0 if self.wall_right else self.wide
        found = [
            DimensionMark((front + way * (whole - d) * self.scale, 0.0), position(whole - d))
            for d in (*places(front_of(self.look, DATUM_END)), 0.0)
        ]
        side = -1 if self.wall_right else 1
        return UnplacedDimension(
            way=(way, 0.0), marks=(DimensionMark((front, 0.0)), *found), style="running", side=side, weight="bold"
        )

    def _under(self) -> UnplacedDimension:
        """The board's width under it."""
        figure = position(self.look.part.board.depth)
        return plain((0.0, 0.0), (self.wide, 0.0), figure, -1, weight="regular")

    def _named(self, edge_left: float, *, keys: bool) -> Iterator[Item]:
        """Over the edge its name; under the board what the pockets are."""
        text = self.look.names.words[Surface.FRONT]
        thick = self.look.part.board.thickest * self.scale
        at = (edge_left if self.wall_right else edge_left + thick, self.top - PAST)
        yield Text(at=at, text=text, anchor="start" if self.wall_right else "end")
        if keys:
            numbers = [self.look.numbers[cut.key] for cut in self.look.part.cuts if at_end(self.look, cut.key)]
            base = extent(self.paper.items).bottom + LINE * TEXT
            says = f"{in_runs(numbers)}: key pockets, from the front edge"
            yield Text(at=(self.wide / 2, base), text=says, anchor="middle")
