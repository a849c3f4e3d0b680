"""One hand of a pair as it stands on paper: its face and its front edge, drawn lying and stood on the datum end."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace

from .....geometry.frames import Vec2
from .....geometry.views import Surface
from ....display import Item, Stroke, Text, extent
from ....looks import Desk, Look
from ...dimensions.ruler import Ruler, whole
from ...page.moving import moved
from ...page.placing import Rect
from ..faces.surface import Plane, plane_for

EDGE_GAP = 3.4  # between a face and its edge


@dataclass(frozen=True, slots=True, kw_only=True)
class Hand:
    """One hand on paper, as it stands.

    Attributes:
        surface: the face that is seen.
        left: x of the face's left arris; `zero` is the y of the datum.
        towards: 1 where its figures stand to the right of it, -1 to the left.
        word: "left" or "right".
    """

    desk: Desk
    look: Look
    surface: Surface
    scale: float
    left: float
    zero: float
    towards: float
    word: str

    @property
    def ruler(self) -> Ruler:
        """Along the board, from nothing: it is stood up afterwards."""
        scribe = self.look.part.board.scribe
        start, end = -scribe[0], self.look.part.length + scribe[1]
        return whole(start, end, start * self.scale, self.scale)

    @property
    def plane(self) -> Plane:
        """The face, lying."""
        return plane_for(self.look, self.surface, self.ruler, 0.0)

    @property
    def wide(self) -> float:
        """The face on paper."""
        return self.look.part.board.depth * self.scale

    @property
    def right(self) -> float:
        """Where on paper: the face's right arris."""
        return self.left + self.wide

    @property
    def top(self) -> float:
        """Where on paper: the far end."""
        return self.zero - self.look.part.length * self.scale

    @property
    def wall_right(self) -> bool:
        """Whether the wall edge lies right: of a face at -c stood on its datum end."""
        return self.surface is Surface.MINUS

    @property
    def wall(self) -> float:
        """Where on paper: the wall edge."""
        return self.right if self.wall_right else self.left

    @property
    def front(self) -> float:
        """Where on paper: the front edge."""
        return self.left if self.wall_right else self.right

    @property
    def edge_left(self) -> float:
        """Where on paper: the left side of the front edge's own view, beside its arris."""
        thick = self.look.part.board.thickest * self.scale
        return self.left - EDGE_GAP - thick if self.wall_right else self.right + EDGE_GAP

    def at(self, p: Vec2) -> Vec2:
        """A point of the lying face, stood up."""
        x, y = self.plane.at(p)
        return self.left + y, self.zero - x

    def box(self, loops: Iterable[Sequence[Vec2]]) -> Rect:
        """Around outlines of the view."""
        points = tuple(self.at(p) for loop in loops for p in loop)
        return Rect(*extent([Stroke(points=points, pen="outline")]))


def stood(items: Iterable[Item], left: float, zero: float) -> list[Item]:
    """Items drawn lying from (0, 0), turned to stand: left goes down, and what lay above goes left."""
    turned = [moved(item, lambda p: (left + p[1], zero - p[0])) for item in items]
    return [replace(item, turn=item.turn + 90.0) if isinstance(item, Text) else item for item in turned]
