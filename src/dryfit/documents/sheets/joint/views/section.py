"""A joint cut by a plane that its kind asks for: true shapes of its boards, as a saw along that plane would show them.

What is drawn is the boards' own stock less all their cuts; nothing here knows what a joint is. Gaps are as they are,
so that two walls that nearly touch are one line.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property, partial

from shapely.geometry.base import BaseGeometry

from .....geometry.frames import Vec, Vec2
from .....piece.facts import Cutting
from .....piece.model import Joint, Part
from .....sentences import Voice, told
from ....display import Item
from ....kit.axis import Axis
from ....kit.dimension import UnplacedDimension, plain
from ....kit.label import Label
from ....kit.view import View
from ....kit.wood import LEANS, WoodStretch, cut_wood, hatch_step
from ....looks import Desk
from ....naming import printed_units
from ....through import Plane, wood_in
from ..figures.printed import written
from ..letters import letter
from ..stance import NARROW, ScaledView, at_scale, largest


def section_view(desk: Desk, joint: Joint, cutting: Cutting, smaller: int = 0) -> View:
    """One section at the largest scale that leaves room for the other views.

    Args:
        smaller: how many of the larger scales are left out.
    """
    of = "section", joint.key, cutting.at, cutting.right, cutting.up, cutting.reach, cutting.bodies
    return largest(desk, of, partial(_Section, desk, joint, cutting), smaller, most=NARROW)


@dataclass
class _Section(ScaledView):
    """One such view, in the plane's own coordinates."""

    joint: Joint
    cutting: Cutting
    scale: float

    def view(self) -> View:
        """It, with all that is said of it."""
        title = told(self.cutting.title, Voice(printed_units(), self.desk.marks))
        return View(
            title=at_scale(title, self.scale),
            scaled=False,
            wood=self.wood,
            across=Axis.whole(0.0, 1.0, self.scale),
            up=Axis.whole(0.0, 1.0, self.scale, sign=-1.0),
            dimensions=tuple(self._dimensions()),
            labels=tuple(self._labels()),
        )

    @cached_property
    def parts(self) -> list[Part]:
        """The boards that are shown."""
        known = self.desk.book.piece.part_by_name
        return [known[name] for name in (self.cutting.bodies or self.joint.key) if name in known]

    @cached_property
    def areas(self) -> list[BaseGeometry]:
        """The wood of each in the window."""
        one = self.cutting
        plane = Plane(one.at, one.right, one.up, one.reach)
        return [wood_in(part, plane) for part in self.parts]

    def _drawn(self) -> Iterator[Item]:
        wide, high = self.cutting.reach
        window = [WoodStretch((1.0, 0.0), -wide, wide), WoodStretch((0.0, 1.0), -high, high)]
        for number, (part, area) in enumerate(zip(self.parts, self.areas, strict=True)):
            lean, step = LEANS[number % len(LEANS)], hatch_step(part.board.thickest, self.scale)
            yield from cut_wood(area, window, self.scale, part.id, lean=lean, step=step)

    def _dimensions(self) -> Iterator[UnplacedDimension]:
        for one in self.cutting.sizes:
            yield plain(self._on_paper(one.start), self._on_paper(one.end), written(one.value), one.side)

    def _labels(self) -> Iterator[Label]:
        """Each board's letter in its wood."""
        for part, area in zip(self.parts, self.areas, strict=True):
            if not area.is_empty:
                yield letter(self.desk.marks[part.id], part.id, area, (), self.scale)

    def _on_paper(self, point: Vec) -> Vec2:
        """A point of the world in the plane."""
        one = self.cutting
        off = [p - q for p, q in zip(point, one.at, strict=True)]
        x, y = (sum(a * b for a, b in zip(off, way, strict=True)) for way in (one.right, one.up))
        return x, y
