"""Words on a face of a hand that lies: as on any face, but with half the triangle at the wall edge it shares."""

from dataclasses import dataclass
from itertools import pairwise

from .....geometry.views import Surface
from ....display import Stroke
from ....looks import Look
from ...dimensions.ruler import Ruler
from ...page.placing import Room
from ..faces.surface import plane_for
from ..faces.wording import Wording

WIDE, HIGH = 9.6, 6.4  # half a triangle along the wall edge, and its base


@dataclass
class HandWording(Wording):
    """Places words on one face of a hand.

    Attributes:
        inner: the face whose wall edge meets the other hand's.
        half: x on paper where the half triangle starts; its point looks to the far end.
        loop: the face that carries the face mark.
    """

    inner: Surface = Surface.PLUS
    half: float = 0.0
    loop: Surface = Surface.PLUS

    def _empty_room(self) -> Room:
        room = super()._empty_room()
        if self.plane.surface is not self.inner:
            return room
        wall = self.plane.y(0.0)
        inwards = 1.0 if wall == self.plane.top else -1.0
        tip, base = (self.half + WIDE, wall), (self.half, wall + inwards * HIGH)
        self._items.append(Stroke(points=(tip, base, (self.half, wall)), pen="outline", layer="mark"))
        room.block(self.half, wall, self.half + WIDE, wall + inwards * HIGH)
        return room

    def _face_mark(self) -> None:
        if self.plane.surface is self.loop:
            super()._face_mark()

    def _triangle(self) -> None:
        """It is drawn half on each hand."""


def half_place(look: Look, inner: Surface, ruler: Ruler) -> float:
    """Where along the wall edge half a triangle finds most room: the middle of the widest gap between cuts."""
    plane = plane_for(look, inner, ruler, 0.0)
    taken = [(ruler.left, ruler.left), (ruler.right, ruler.right)]
    for trace in plane.view.traces:
        points = [a for loop in trace.opening for a, _ in loop] or [a for a, _ in trace.extent]
        if points and not trace.end:
            taken.append((ruler.x(min(points)), ruler.x(max(points))))
    ordered = sorted(taken)
    gaps = [(after[0] - before[1], before[1]) for before, after in pairwise(ordered)]
    gap, start = max(gaps)
    return start + (gap - WIDE) / 2
